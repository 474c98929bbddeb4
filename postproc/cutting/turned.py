"""What tools missing from the shop file turn and bore: each followed as its point, which takes all above its path.

A point is outside the part or in its bore. Where it comes in at the front face tells which: nearer to the bore or
nearer to the outside. Nothing is known of the tool's shape, so what its nose radius or width leaves is not here.
"""

from math import inf

from extractor.part import Part
from extractor.values import dataclass
from planner.increment import Increments
from postproc.cutting.insert import Piece
from postproc.cutting.metal import FARTHEST, CutProfile, Metal
from postproc.motion import Motion


@dataclass(frozen=True)
class Point:
    """Where a point is: in the bore or outside, at a station."""

    station: int
    inside: bool


class Turned:
    """The outside and the bore as points leave them, from a bar and a solid, along with where each point is."""

    def __init__(self, part: Part, increments: Increments) -> None:
        """Nothing is turned yet."""
        self._between = _between(part, increments)
        self.outside = Metal([(-FARTHEST, FARTHEST, 0, FARTHEST)])
        self.bore = Metal([(-FARTHEST, 0, 0, 0)])
        self.at = Point(0, False)

    def follow(self, motion: Motion) -> bool:
        """Keep up with where the point is; True where this move is made inside."""
        if motion.station != self.at.station:
            begun_inside = motion.z0_known and motion.x0_known and motion.z0 < 0 and motion.x0 < self._between
            self.at = Point(motion.station, begun_inside)
        if motion.z1 < 0 and (motion.z0 >= 0 or not motion.z0_known):
            self.at = Point(motion.station, self._comes_in(motion) < self._between)
        return self.at.inside

    def _comes_in(self, motion: Motion) -> float:
        """The diameter at which a move passes the front face."""
        if not motion.x0_known or not motion.z0_known:
            return float(motion.x1)
        return motion.x0 + (motion.x1 - motion.x0) * motion.z0 / (motion.z0 - motion.z1)

    def cut(self, motion: Motion) -> None:
        """Remove what a feed move of a point passes below; straight in or out it takes nothing."""
        for piece in way(motion, self.at.inside):
            (self.bore if self.at.inside else self.outside).cut(piece, motion.line)

    def profile(self, inside: bool) -> CutProfile:
        """What is left on one side."""
        return (self.bore if inside else self.outside).profile()


def way(motion: Motion, inside: bool) -> list[Piece]:
    """The path of a point along Z as a piece in the frame of its side; no piece for a move straight in or out."""
    sign = -1 if inside else 1
    ends = sorted(((motion.z0, sign * motion.x0), (motion.z1, sign * motion.x1)))
    return [(*ends[0], *ends[1])] if ends[0][0] < ends[1][0] else []


def _between(part: Part, increments: Increments) -> float:
    """The diameter half-way between bore and outside at the front; of a solid part half its own."""
    face = part.lands[0][0]  # a profile may come up the front face from the axis
    front = increments.count(2 * max(radius for z, radius in part.lands if z == face))
    if part.bore is None:
        return front / 2 if front else -inf
    return (increments.count(2 * part.bore[0][1]) + front) / 2


def stands_over(metal: Metal, start: tuple[int, int], end: tuple[int, int], sign: int) -> int:
    """How far metal stands over the way of a point between two places (z, x); `sign` is -1 in a bore."""
    ways = as_pieces((start[0], sign * start[1]), (end[0], sign * end[1]))
    return min(metal.above(piece) for piece in ways)


def as_pieces(start: tuple[int, int], end: tuple[int, int]) -> list[Piece]:
    """A move of the point as a piece over z; straight in or out, a hair of either side, since one may be a shoulder."""
    (z0, x0), (z1, x1) = sorted((start, end))
    if z0 != z1:
        return [(z0, x0, z1, x1)]
    return [(z0 - 1, x0, z0, x0), (z0, x0, z0 + 1, x0)]
