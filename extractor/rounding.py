"""How far floating-point arithmetic may be off; nothing drawn or intended is that small."""

ROUNDING = 1e-9
"""As a share of the sizes at hand, or in drawing units."""

LAST_DIGITS = 1e-12
"""As a share of the sizes at hand, after a step or two of arithmetic only."""
