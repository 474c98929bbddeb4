"""The ground that a tool works in: one side of a part as heights over u, so that the same rules serve every side.

On every side the tool comes from above, the land is high, the floor is low, and a shoulder is a higher land
(`extractor.side` has the frame). Lines hold u and a height as a length: a radius, negative in a bore, or z on a face.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import cached_property
from itertools import accumulate
from math import inf

from extractor.limits import EPS
from extractor.part import Groove, Part, ProfilePoints
from extractor.side import Side
from extractor.values import dataclass
from planner.cuts.clearance import SAME_PLANE, Told, highest_land, highest_on_the_way, told_apart

# So far off a plane a place is not in it.
JUST_OFF = 2 * SAME_PLANE


@dataclass(frozen=True)
class Ground:
    """One side with its lands and its outline, u falling along both; `lands` holds no groove.

    The outline of a face is not known beyond its lands.
    """

    side: Side
    lands: ProfilePoints
    outline: ProfilePoints

    def highest(self, low: float, high: float) -> float:
        """The highest land, as h, over a closed stretch of u; inside, the way in from the front belongs to it."""
        if not self.side.hollow or high > 0:
            return self.beside(low, high)
        return self._up(highest_on_the_way(self.lands, low, self._told, self._on_the_way, nothing=-inf))

    def within(self, low: float, high: float) -> float:
        """The same over an open stretch: a shoulder at its very end doesn't count."""
        return self.highest(low + JUST_OFF, high - JUST_OFF)

    def beside(self, low: float, high: float) -> float:
        """The highest land, as h, over a closed stretch of u and nowhere else."""
        return self._up(highest_land(self.lands, low, high, nothing=-inf, told=self._told))

    def _up(self, highest: float) -> float:
        """A height of the lands as h, that of the lowest where none was met."""
        return self.side.up * (self._lowest if highest == -inf else highest)

    def stretch(self, low: float, high: float) -> ProfilePoints:
        """The outline's points between two places along u, with one more on either side; u falls along the outline."""
        return stretch_of(self.outline, low, high, self._outline_behind)

    @cached_property
    def _told(self) -> Told:
        """Places and heights of the lands."""
        return told_apart(self.lands)

    @cached_property
    def _on_the_way(self) -> list[float]:
        """The highest land from the front to each of the lands' points."""
        return list(accumulate(self._told[1], max))

    @cached_property
    def _outline_behind(self) -> list[float]:
        """How far each of the outline's points lies behind the front."""
        return [-u for u, _ in self.outline]

    @cached_property
    def _lowest(self) -> float:
        """A height that no land of the side lies below."""
        return min([0.0, *(height for _, height in self.lands)])


def stretch_of(line: ProfilePoints, low: float, high: float, behind: Sequence[float] | None = None) -> ProfilePoints:
    """A line's points between two places along u, with one more on either side; u falls along the line.

    `behind`: how far each point lies behind the front, for a caller who asks many times.
    """
    told = [-u for u, _ in line] if behind is None else behind
    first, last = bisect_left(told, -high), bisect_right(told, -low)
    return line[max(0, first - 1) : last + 1]


def ground_of(part: Part, groove: Groove) -> Ground:
    """The ground that a groove is cut into."""
    if groove.where not in part.worked_out:
        part.worked_out[groove.where] = _ground(part, groove.side)
    ground: Ground = part.worked_out[groove.where]
    return ground


def _ground(part: Part, side: Side) -> Ground:
    if not side.axial:
        return Ground(side, _from_front(part), ())
    if side.hollow:
        bore = tuple((z, -radius) for z, radius in part.bore or ())
        return Ground(side, _filled(bore, part), bore)
    return Ground(side, part.lands, part.outline)


def _filled(bore: ProfilePoints, part: Part) -> ProfilePoints:
    """The bore without its grooves: instead of what lies below a groove's mouth, a line over it at that height.

    A wall may go on beyond the mouth, as at the bottom of a blind bore: so both ends of that line are points.
    """
    waiting = sorted((groove for groove in part.grooves if groove.side.hollow), key=lambda g: g.near)
    here = list[Groove]()
    points: list[tuple[float, float]] = []
    for z, height in bore:
        while waiting and waiting[-1].near + EPS >= z:
            here.append(waiting.pop())
        here = [g for g in here if g.far - EPS <= z]
        below = next((g for g in here if height < g.mouth / 2 - EPS), None)
        if below is None:
            points.append((z, height))
        elif points[-1:] != [(below.far, below.mouth / 2)]:
            points += [(below.near, below.mouth / 2), (below.far, below.mouth / 2)]
    return tuple(point for k, point in enumerate(points) if points[k - 1 : k] != [point])


def _from_front(part: Part) -> ProfilePoints:
    """The metal as seen from the front: diameter and z, shoulder by shoulder from the outermost in.

    A shoulder that a larger one stands before is not seen.
    """
    reached, last = (2 * part.bore[0][1] if part.bore else 0.0), 0.0
    points: list[tuple[float, float]] = []
    for z, radius in part.lands:
        if 2 * radius > reached + EPS:
            points += [(reached, last if points else z), (2 * radius, z)]
            reached = 2 * radius
        last = z
    return tuple(reversed(points))
