"""The figures: units, sheet scale, printed sizes, tolerances, and the grooves that they belong to."""
