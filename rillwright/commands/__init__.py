"""The commands, one module each: options in, exit status out."""
