"""Journals: low lands between higher ones that are turned, not grooved.

A valley is a journal if the lands beside it differ in height and it is wider than three times its depth and than 6 mm
(1/4 in); or, between lands of one height, if it is wider than four times its depth and than 16 mm (0.63 in). The same
holds for one that has grooves in its floor. Common practice, no source: narrower ones are what grooving inserts are
made for.
"""

from extractor.part import Units
from extractor.recess.shapes import Measured

WIDE = {"mm": (6.0, 16.0), "in": (0.25, 0.63)}
"""Least width of a journal between unlike and between like lands."""


ONE_HEIGHT = 1e-3
"""Share of the mouth's radius within which two lands have one height: no drawing shows less."""


def is_journal(m: Measured, units: Units, scale: float, grooved: bool = False) -> bool:
    """True for a valley that is a turned diameter; `m` is as drawn, `scale` the drawn length of one true unit.

    `grooved`: the user says it is a groove, or it is sized like one.

    >>> walls = dict(z_near=-10.0, z_far=-30.0, near_land=20.0, far_land=20.0)
    >>> is_journal(Measured(shape="rectangular", **walls, mouth=20.0, floor=18.0), "mm", 1.0)
    True
    """
    if grooved or m.overhang or not m.level:
        return False
    unlike, like = WIDE[units]
    deep = abs(m.depth)
    if abs(m.near_land - m.far_land) > ONE_HEIGHT * m.mouth:
        return m.width > max(3 * deep, unlike * scale)
    return m.width > max(4 * deep, like * scale)


def is_chamber(m: Measured, units: Units, scale: float, grooved: bool) -> bool:
    """True for a wide low land in a bore with grooves in its floor: it is bored, and they are grooved."""
    return m.inner > 0 and is_journal(m, units, scale, grooved)
