"""What was cut against what is drawn, and every unsafe move."""
