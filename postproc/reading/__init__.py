"""A program back to moves: words, blocks, the table of the control, and the run."""
