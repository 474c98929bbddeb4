"""What the moves leave of the metal, in whole increments."""
