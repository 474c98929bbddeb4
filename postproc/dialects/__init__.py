"""The control dialects, one file each, and the registry that names them."""
