"""How far what is drawn may be off and still be meant as one: the measures that more than one rule goes by.

Each view is drawn by itself, a hand or the last digits of a file turn a line, and sizes are rounded where they are
printed. A measure that one rule alone goes by stands beside it.
"""

SKEW = 1e-3
"""Sine of the angle by which lines in line, or cosine by which lines square to one another, may be off."""

ALONG = 0.01
"""Lines within this angle run along one another, radians: rounding turns a short one more than it moves its ends."""

PARALLEL = 0.02
"""Sine below which two strokes lie along one another: their lines cross far away, if at all."""

SQUARE = 1.4
"""From this angle on, radians (80 degrees), one line crosses another squarely."""

ONE_PLACE = 2e-3
"""Share of what is drawn about a line within which two things stand at one place along it, or on it."""

ONE_SIZE = 0.02
"""Sizes that differ by no more than this share may be one, in two views at one scale."""

SAME = 0.95
"""Share of a boundary that is its own mirror image where both sides show the same."""

ROUNDED = 5e-3
"""Share by which a printed size may differ from what is drawn and be it: sizes are rounded."""
