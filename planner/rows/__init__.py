"""Which grooves go together: like grooves, even rows, the fewest of them."""
