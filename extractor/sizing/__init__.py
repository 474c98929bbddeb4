"""The figures on the sheet: units, scale, printed sizes, tolerances, and the grooves that they belong to."""
