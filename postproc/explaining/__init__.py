"""A program in plain sentences."""
