"""A recess as it is to be cut: its true line in counts, with walls and floor moved to where they are aimed.

z is counted from the near wall, negative toward the chuck; heights are radial, in counts, the tool above. Beside the
mouth the line runs over the lands, because grooves nearby may not be there yet.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import atan2

import numpy as np

from extractor.finding import Point
from extractor.limits import EPS
from extractor.part import Groove, ProfilePoints
from extractor.sheet import Floats
from extractor.values import dataclass
from planner.cuts.curves import filleted, printed_radius, smooth
from planner.cuts.ground import Ground, stretch_of
from planner.increment import Increments

# Greatest distance of a chord from its arc, in counts.
CHORD = 0.004
# Digits of a count that are kept: like recesses then have the very same line wherever they lie.
DIGITS = 3
# A place as near to a land as this, in counts, lies on it.
ON_LAND = 0.5


@dataclass(frozen=True)
class Hollow:
    """A recess between its lands.

    `line`: (z, height) points, z never falling. `mouth`, `tops`: z and height of its far and near end. `leans`: angle
    between land and wall at either end of the mouth in radians, a quarter turn where the wall stands upright. `width`:
    between the walls. `lowest`: z of the middle of its deepest place.
    """

    line: tuple[Point, ...]
    mouth: tuple[float, float]
    tops: tuple[float, float]
    leans: tuple[float, float]
    width: float
    lowest: float

    @property
    def floor(self) -> float:
        """The least height."""
        return min(height for _, height in self.line)

    @property
    def falls(self) -> bool:
        """True if both sides fall from mouth to floor all the way, give or take a count."""
        heights = np.array([height for z, height in self.line if self.mouth[0] <= z <= self.mouth[1]])
        low = int(heights.argmin())
        return max(_climbs(heights[low:]), _climbs(heights[: low + 1][::-1])) <= 1.0

    def aimed(self, width: int, floor: float) -> "Hollow":
        """The same, its walls at a given width and its deepest place at a given height; the mouth keeps its heights."""
        moved = self.width - width
        heights = deepened(self.line, min(self.tops), floor - self.floor, self.lowest)
        places = np.maximum.accumulate([z + (moved if z <= self.lowest else 0.0) for z, _ in self.line])
        mouth = (self.mouth[0] + moved, self.mouth[1])
        line = tuple(zip((float(z) for z in places), heights, strict=True))
        return replace(self, line=line, mouth=mouth, width=float(width))


def deepened(points: Sequence[Point], mouth: float, by: float, lowest: float) -> list[float]:
    """The heights of a line with its deepest place moved by a given amount, lands and mouth kept.

    On a side with an upright wall, all below it moves along unchanged; another side is stretched evenly. `lowest`
    divides the sides.
    """
    deep = mouth - min(height for _, height in points)
    shares = [0.0] * len(points)
    far = [k for k, (z, _) in enumerate(points) if z <= lowest]
    for members in (far, range(len(far), len(points))):
        wall = _upright(points, members, mouth)
        for k in members:
            below = mouth - points[k][1]
            shares[k] = min(1.0, max(0.0, below / deep)) if wall is None else float(points[k][1] <= wall)
    return [height + share * by for (_, height), share in zip(points, shares, strict=True)]


def _climbs(heights: Floats) -> float:
    """How far heights that should rise fall on the way."""
    return float((np.maximum.accumulate(heights) - heights).max())


def _upright(points: Sequence[Point], members: Sequence[int], mouth: float) -> float | None:
    """The lower end of the tallest upright wall of a side, None where it has none a quarter as deep as the recess."""
    walls = [
        (abs(points[a][1] - points[b][1]), min(points[a][1], points[b][1]))
        for a, b in pairwise(members)
        if abs(points[a][0] - points[b][0]) <= ON_LAND
    ]
    tall, foot = max(walls, default=(0.0, 0.0))
    return foot if 4 * tall >= mouth - min(height for _, height in points) else None


def _counted(points: ProfilePoints, near: float, per: float) -> list[Point]:
    """Points of a line in counts, z from a near wall and rising."""
    return [(round((z - near) * per, DIGITS), round(height * per, DIGITS)) for z, height in reversed(points)]


def hollow_of(groove: Groove, ground: Ground, increments: Increments, reach: float) -> Hollow | None:
    """The recess as drawn, with lands up to a reach beside it; None where no line of the outline leads to both lands.

    `reach` in drawing units. A corner radius that the sheet only prints is put into the corners drawn sharp.
    """
    per, low, high = increments.per_length, groove.z_far - reach, groove.z_near + reach
    lines = (_levelled(ground.outline), _levelled(ground.lands))
    outline, lands = (_counted(stretch_of(line, low, high), groove.z_near, per) for line in lines)
    outline = filleted(outline, printed_radius(groove) * per, CHORD)
    outline = list(smooth(tuple(outline), CHORD))
    # Rounded as the places are: else the far wall's foot may lie outside by a last digit.
    width = round(groove.width * per, DIGITS)
    inside = [k for k, (z, _) in enumerate(outline) if -width <= z <= 0]
    if not inside or len(lands) < 2:
        return None
    deepest = min(outline[k][1] for k in inside)
    floor = [k for k in inside if outline[k][1] <= deepest + ON_LAND]
    near = next((k for k in range(floor[-1], len(outline)) if _on_land(outline[k], lands)), None)
    far = next((k for k in range(floor[0], -1, -1) if _on_land(outline[k], lands)), None)
    if near is None or far is None or not outline[far][0] < -width / 2 < outline[near][0]:
        return None
    ends = outline[far][0], outline[near][0]
    before, after = [p for p in lands if p[0] < ends[0]], [p for p in lands if p[0] > ends[1]]
    leans = _lean(outline[far + 1], outline[far]), _lean(outline[near - 1], outline[near])
    lowest = (outline[floor[0]][0] + outline[floor[-1]][0]) / 2
    tops = outline[far][1], outline[near][1]
    return Hollow((*before, *outline[far : near + 1], *after), ends, tops, leans, width, lowest)


def _levelled(line: ProfilePoints) -> ProfilePoints:
    """A line without the end faces down which it goes: beyond the part its lands go on, where no insert need go."""
    first, last = 0, len(line)
    while last - first > 2 and line[first][0] - line[first + 1][0] <= EPS and line[first][1] < line[first + 1][1]:
        first += 1
    while last - first > 2 and line[last - 2][0] - line[last - 1][0] <= EPS and line[last - 1][1] < line[last - 2][1]:
        last -= 1
    return line[first:last]


def _on_land(point: Point, lands: Sequence[Point]) -> bool:
    """True if a point of the outline lies as high as the land over it."""
    z, height = point
    over = [
        max(h0, h1) if z1 - z0 <= ON_LAND else h0 + (h1 - h0) * (z - z0) / (z1 - z0)
        for (z0, h0), (z1, h1) in pairwise(lands)
        if z0 - ON_LAND <= z <= z1 + ON_LAND
    ]
    return bool(over) and height >= max(over) - ON_LAND


def _lean(foot: Point, top: Point) -> float:
    """The angle of a wall's uppermost line, pi / 2 upright."""
    return atan2(top[1] - foot[1], abs(top[0] - foot[0]))
