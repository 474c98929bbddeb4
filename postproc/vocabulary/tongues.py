"""The G numbers by which the two common code systems of lathes are told from each other (common practice).

The trade's lathe system has cycles where ISO 6983 has units, absolute places, the clamp and feed modes.
"""

TRADE_ALONE = frozenset({50, 99})
"""Spindle clamp and feed per revolution of the trade's system, which ISO's has not."""
ISO_ALONE = frozenset({91, 95})
"""Incremental places and feed per revolution of ISO's system, which the trade's has not."""
PER_MINUTE = 98
"""Feed per minute in the trade's system; other controls have it for the level to which a cycle goes back."""
UNITS_OR_CONTOURS = frozenset({70, 71})
"""Inches and millimetres in the one system, cycles along a contour in the other."""
SETTINGS_OR_CYCLES = frozenset({90, 92, 94})
"""Absolute places, the clamp and feed per minute in the one, turning and threading cycles in the other."""
UNITS = frozenset({20, 21})
"""Inches and millimetres in the trade's system."""
EITHER = UNITS_OR_CONTOURS | SETTINGS_OR_CYCLES
"""Numbers that are settings in the one and cycles in the other."""
TELLING = UNITS | TRADE_ALONE | ISO_ALONE | EITHER | {PER_MINUTE}
"""All of them."""
