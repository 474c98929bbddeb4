"""Is a recess square as drawn? Walls upright, floor level, nothing in it but corner radii and mouth chamfers.

The shape read for a groove is held against the outline itself, because a square insert makes nothing else.
"""

from collections.abc import Iterator
from itertools import pairwise

from extractor.part import Groove
from planner.cuts.ground import Ground

Point = tuple[float, float]
"""z and half a height."""
Line = tuple[Point, Point]
"""Both its ends."""

SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)


def is_square(groove: Groove, ground: Ground, tolerance: float) -> bool:
    """True if the outline within a groove is square within a tolerance, or if the outline shows nothing there.

    >>> from extractor.side import OUTSIDE
    >>> vee = ((0.0, 20.0), (-10.0, 20.0), (-11.5, 17.0), (-13.0, 20.0), (-30.0, 20.0))
    >>> sizes = dict(z_near=-10.0, z_far=-13.0, mouth_diameter=40.0, floor_diameter=34.0)
    >>> is_square(Groove(id=1, where="outside", shape="rectangular", **sizes), Ground(OUTSIDE, (), vee), 0.02)
    False
    """
    return all(
        _plain(groove, line, tolerance)
        or all(_on_square(groove, *at, tolerance) for at in _points(groove, line, tolerance))
        for line in _lines(groove, ground, tolerance)
    )


def drawn(groove: Groove, ground: Ground, tolerance: float) -> Iterator[Point]:
    """Points along the outline's lines within the groove, below the zone of its mouth chamfers."""
    for line in _lines(groove, ground, tolerance):
        yield from _points(groove, line, tolerance)


def _lines(groove: Groove, ground: Ground, tolerance: float) -> Iterator[Line]:
    """The outline's lines within the groove."""
    low, high = groove.z_far - tolerance, groove.z_near + tolerance
    return ((one, two) for one, two in pairwise(ground.stretch(low, high)) if one[0] >= low and two[0] <= high)


def _points(groove: Groove, line: Line, tolerance: float) -> Iterator[Point]:
    """Points along a line, below the zone of the mouth chamfers."""
    mouth = groove.mouth / 2 - groove.edge_chamfer - tolerance
    (z0, h0), (z1, h1) = line
    for share in SHARES:
        z, half = z0 + share * (z1 - z0), h0 + share * (h1 - h0)
        if groove.z_far <= z <= groove.z_near and half < mouth:
            yield z, half


def _plain(groove: Groove, line: Line, tolerance: float) -> bool:
    """True for a line along a wall or the floor or above the walls, as most are: its points need no look each."""
    (z0, h0), (z1, h1) = line
    low, high = sorted((h0, h1))
    if low - groove.floor / 2 < -tolerance:
        return False
    if low >= groove.mouth / 2 - groove.edge_chamfer:
        return True
    upright = z0 == z1 and min(groove.z_near - z0, z0 - groove.z_far) <= tolerance
    return upright or high - groove.floor / 2 <= tolerance


def _on_square(groove: Groove, z: float, half: float, tolerance: float) -> bool:
    """True if a point lies on a wall, on the floor, or in a corner."""
    wall = min(groove.z_near - z, z - groove.z_far)
    above = half - groove.floor / 2
    corner = groove.corner_radius + tolerance
    if above < -tolerance:
        return False
    return wall <= tolerance or above <= tolerance or (wall <= corner and above <= corner)
