"""Lines laid along z, float (n, 6): ends and middle of each as (z, r), and how they lie to one another."""

import math
from collections.abc import Sequence

import numpy as np
import shapely

from extractor.finding import Point
from extractor.recess.shapes import Measured
from extractor.sheet import Floats

TURNED = [1, 0, 3, 2, 5, 4]
"""The columns of lines laid along z in the order that makes r of z."""


def half_way(line: Sequence[Point]) -> Point:
    """The middle of a stroke in chords of one length."""
    (ax, ay), (bx, by) = line[(len(line) - 1) // 2], line[len(line) // 2]
    return (ax + bx) / 2, (ay + by) / 2


def dashes(lines: Floats, near: float) -> np.ndarray:
    """True for lines along the axis or square to it that stand in a row."""
    return np.asarray(_in_rows(lines, near) | _in_rows(lines[:, TURNED], near))


def _in_rows(lines: Floats, near: float) -> np.ndarray:
    """True for lines along the first axis that stand in line with another over a gap no longer than one of them."""
    low, high = np.minimum(lines[:, 0], lines[:, 2]), np.maximum(lines[:, 0], lines[:, 2])
    rows = np.flatnonzero(np.ptp(lines[:, 1::2], axis=1) <= near)
    rows = rows[np.lexsort((low[rows], np.round(lines[rows, 1] / near)))]
    one, two = rows[:-1], rows[1:]
    gap, long = low[two] - high[one], np.maximum((high - low)[one], (high - low)[two])
    pairs = (np.abs(lines[one, 1] - lines[two, 1]) <= near) & (gap > near) & (gap <= long)
    found = np.zeros(len(lines), dtype=bool)
    found[one[pairs]] = found[two[pairs]] = True
    return found


def mirrored(lines: Floats, near: float) -> np.ndarray:
    """True for arcs, and lines along the axis or square to it, that have their mirror image about the axis among them.

    What lies on the axis is the axis, whatever its pen.
    """
    beside = np.abs(lines[:, 1::2]).max(axis=1) > near
    curved = np.hypot(*(lines[:, 4:] - (lines[:, :2] + lines[:, 2:4]) / 2).T) > near
    upright = np.minimum(np.abs(lines[:, 0] - lines[:, 2]), np.abs(lines[:, 1] - lines[:, 3])) <= near
    images = lines * (1, -1, 1, -1, 1, -1)
    found = np.zeros(len(lines), dtype=bool)
    tree = shapely.STRtree(shapely.points(lines[:, 4:]))
    for other in (images, images[:, [2, 3, 0, 1, 4, 5]]):
        image, line = tree.query(shapely.points(other[:, 4:]), "dwithin", math.sqrt(2) * near)
        found[line[np.abs(lines[line] - other[image]).max(axis=1) <= near]] = True
    return np.asarray(beside & (curved | upright) & found)


def imaged(places: Floats, near: float) -> np.ndarray:
    """True for places, float (n, 2), whose mirror image about the axis is among them."""
    images = places * (1, -1)
    image, place = shapely.STRtree(shapely.points(places)).query(shapely.points(images), "dwithin", math.sqrt(2) * near)
    found = np.zeros(len(places), dtype=bool)
    found[place[np.abs(places[place] - images[image]).max(axis=1, initial=0.0) <= near]] = True
    return found


def met(places: Floats, near: float) -> np.ndarray:
    """True for places, float (n, 2), that another one lies at or within `near` of."""
    there, home, count = np.unique(places, axis=0, return_inverse=True, return_counts=True)
    found, points = count > 1, shapely.points(there)
    found[shapely.STRtree(points).query_nearest(points, near, exclusive=True, all_matches=False)[0]] = True
    return np.asarray(found[home.ravel()])


def turns(ends: Floats, line: Floats, far: int, near: float) -> bool:
    """True if nothing but one other line meets the far end of a line, at an angle, straight on or after others.

    `ends` is float (n, 2, 2), the lines that hang together; `line` is one of them.
    """
    for _ in range(len(ends)):
        there = np.abs(ends - line[far]).max(axis=2) <= near
        on = np.flatnonzero(there.any(axis=1) & (np.abs(ends - line).max(axis=(1, 2)) > 0))
        if len(on) != 1:
            return False
        follower, run = ends[on[0]], line[far] - line[1 - far]
        far = int(there[on[0]].argmin())
        way = follower[far] - follower[1 - far]
        if abs(run[0] * way[1] - run[1] * way[0]) > near * float(np.hypot(*way)):
            return True
        line = follower
    return False


def of_a_size(lines: Floats, near: float) -> np.ndarray:
    """True for a line across the axis and the two that it ends on and that run on beyond it.

    That is how a diameter's dimension line ends on its extension lines (ISO 129-1, from memory); a corner has no such.
    """
    found = np.zeros(len(lines), dtype=bool)
    low, high = np.minimum(lines[:, 0], lines[:, 2]), np.maximum(lines[:, 0], lines[:, 2])
    level = np.abs(lines[:, 1] - lines[:, 3]) <= near
    for k in np.flatnonzero((np.abs(lines[:, 1] + lines[:, 3]) <= near) & (high - low <= near)):
        z, r = lines[k, 0], abs(lines[k, 1])
        on = level & (np.abs(np.abs(lines[:, 1]) - r) <= near) & (low < z - near) & (z + near < high)
        found |= on
        found[k] |= on.any()
    return found


def of_a_plane(lines: Floats, groove: Measured, near: float) -> np.ndarray:
    """True for lines from wall to wall of a groove that are the edge of a plane along the axis, cut through its floor.

    A plane at a distance of h meets the floor and the land beside it at sqrt(R^2 - h^2) from the axis as drawn, R their
    radii: on the land its edge runs on from a wall, or from the chamfer at one. So a flat shows, or a part in section
    that is stepped.
    """
    floor, land = groove.floor, groove.mouth
    r, ends = np.abs(lines[:, 1]), np.sort(lines[:, [0, 2]], axis=1)
    level = np.abs(lines[:, 1] - lines[:, 3]) <= near
    rims = np.array([groove.z_near, groove.z_far]) + np.outer((0, 1), groove.chamfers) * (1, -1)
    on_land = level & (np.abs(ends[:, None] - rims) <= near).any(axis=(1, 2))
    meant = np.sqrt(np.maximum(land**2 - floor**2 + r**2, 0.0))
    met = np.abs(meant[:, None] - r[on_land]) <= near
    same = np.sign(lines[:, 1])[:, None] == np.sign(lines[on_land, 1])
    return np.asarray(level & (r < floor) & (met & same).any(axis=1))
