"""DIN 509 undercuts held against the recess that they are called out at.

Source: two published extracts of DIN 509 (1998 and older), which agree on r x t1 and on f where both have it;
tolerances r +-0.1, t1 +0.1/0, f +0.2/0 from one of them. The first number is the corner radius, not the width.
"""

from extractor.part import Groove, Part
from extractor.side import OUTSIDE
from extractor.sizing.unit_evidence import INCH

WIDTHS = {
    (0.2, 0.1): 1.0,
    (0.4, 0.2): 2.0,
    (0.6, 0.2): 2.0,
    (0.6, 0.3): 2.5,
    (0.8, 0.3): 2.5,
    (1.0, 0.2): 2.5,
    (1.2, 0.2): 2.5,
    (1.0, 0.4): 4.0,
    (1.2, 0.4): 4.0,
    (1.6, 0.3): 4.0,
    (2.5, 0.4): 5.0,
    (4.0, 0.5): 7.0,
}
"""Width f by radius r and depth t1, mm."""
DEEPER, WIDER, ROUNDER = 0.1, 0.2, 0.1
"""Tolerances of t1 (upward), of f (upward) and of r (both ways), mm."""
LEVEL = 1e-6
"""Share of the part's diameter by which places of its outline that are the same may be computed apart."""
SLACK = 0.006
"""What a drawing of two decimals rounds off, mm."""


def undercut_faults(form: str, radius: float, deep: float, groove: Groove, part: Part) -> tuple[str, ...]:
    """What of a call-out by form, radius r and depth t1 doesn't fit a recess, in words; lengths in mm."""
    unit = 1.0 if part.units == "mm" else INCH
    found = []
    depth = groove.depth * unit
    if not deep - SLACK <= depth <= deep + DEEPER + SLACK:
        found.append(f"is {deep:g} deep where the drawing measures {depth:.4g}")
    width, drawn = WIDTHS.get((radius, deep)), groove.width * unit
    if width is None:
        found.append("is not in that standard's table")
    elif form in "EF" and not width - SLACK <= drawn <= width + WIDER + SLACK:
        found.append(f"is {width:g} wide where the drawing measures {drawn:.4g}")
    corner = corner_drawn(groove, part) * unit
    if corner and abs(corner - radius) > ROUNDER + SLACK:
        found.append(f"has the radius {radius:g} where the drawing measures {corner:.4g}")
    return tuple(found)


def corner_drawn(groove: Groove, part: Part) -> float:
    """How far the floor stops short of the wall at the higher land: its corner's radius, 0 for a sharp one."""
    radius, near = groove.floor_diameter / 2, LEVEL * part.outer_diameter
    floor = [z for z, r in part.outline if abs(r - radius) <= near and groove.z_far - near <= z <= groove.z_near + near]
    if not floor or groove.side != OUTSIDE:
        return 0.0
    far = groove.far_land_diameter >= groove.near_land_diameter
    return min(floor) - groove.z_far if far else groove.z_near - max(floor)
