"""A program carried over to another dialect, and the proof that it cuts the same."""
