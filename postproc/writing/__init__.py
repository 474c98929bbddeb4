"""Steps to text: lowering, safe comments, the writer."""
