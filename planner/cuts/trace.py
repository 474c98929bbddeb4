"""A line of heights over z made into few moves: straight ones and arcs that stay within an error of the whole line.

z and x are whole counts, x the diameter on a side where the tool comes from above; errors are measured square to the
way with x as radius. From each place the move that reaches farthest is taken; an arc is taken where two straight moves
would not reach as far, and turns by no more than a third of a turn (`planner.arcs`). Then the places where moves meet
are shifted to where both fit best, which is where the drawing has them.
"""

from collections.abc import Sequence
from math import asin, inf, pi, sqrt
from typing import NamedTuple

import numpy as np

from extractor.sheet import Floats
from planner.arcs import by_radius
from planner.cuts.field import SLACK, whole

Place = tuple[int, int]
"""z and x in counts."""

# An arc turns by so much at most, a little less than a third of a turn.
MOST_TURN = 0.65 * pi
# An arc so flat is left to straight moves.
LEAST_TURN = pi / 36
# How often all meeting places are gone over: each shifts the best place of its neighbours.
ROUNDS = 2
# Places tried at a time where two moves meet.
TRIES = 12
# A straight move so many times longer one way than the other should be upright or level, if it can.
NEARLY = 100
# How far an arc may go beyond the box of its ends, in counts: less than rounding makes a count of.
BEYOND = 0.4


class Move(NamedTuple):
    """A move to z and x (counts): straight with radius 0, else on an arc, clockwise with z to the right and x up."""

    z: int
    x: int
    radius: int = 0
    clockwise: bool = False


class Bend(NamedTuple):
    """A move between two places of a line: radius and sense, and the greatest and the squared distance from it."""

    radius: int
    clockwise: bool
    off: float
    squared: float


def traced(points: Floats, error: float) -> list[Move]:
    """The moves along a line from the first of its points, float (n, 2), z and radial height; none along one point.

    Every move ends at the count of x next above the line.
    """
    moves = _reaching(points, error)
    for _ in range(ROUNDS):
        moves = _settled(points, moves, error)
    ends = [(round(points[k, 0]), whole(float(points[k, 1]))) for k, _ in moves]
    return [Move(z, x, bend.radius, bend.clockwise) for (z, x), (_, bend) in zip(ends, moves, strict=True)]


def _reaching(points: Floats, error: float) -> list[tuple[int, Bend]]:
    """Moves that reach as far as they can, each with the number of the point at its end."""
    moves: list[tuple[int, Bend]] = []
    at, last = 0, len(points) - 1
    while at < last:
        one = _farthest(points, at, error, bent=False)
        two = one if one == last else _farthest(points, one, error, bent=False)
        arc = _farthest(points, at, error, bent=True)
        found = _arc(points, at, arc) if arc > two or (arc == last and arc > one) else None
        if found is None or found.off > error:
            arc, found = one, _straight(points, at, one)
        moves.append((arc, found))
        at = arc
    return moves


def _farthest(points: Floats, at: int, error: float, bent: bool) -> int:
    """The farthest point that a straight move holds to, or an arc; looked for in growing steps, then by halves."""
    good, step, last = at + 1, 2, len(points) - 1
    while good < last and _holds(points, at, min(last, at + step), error, bent):
        good, step = min(last, at + step), 2 * step
    bad = min(last, at + step)
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if _holds(points, at, middle, error, bent) else (good, middle)
    return good


def _holds(points: Floats, first: int, last: int, error: float, bent: bool) -> bool:
    """True if a straight move keeps to all points between two, or an arc where it may be bent."""
    if _straight(points, first, last).off <= error:
        return True
    found = _arc(points, first, last, 0.0) if bent else None
    return found is not None and found.off <= error


def _settled(points: Floats, moves: list[tuple[int, Bend]], error: float) -> list[tuple[int, Bend]]:
    """The same moves, meeting where both fit the line best."""
    for k in range(len(moves) - 1):
        first = moves[k - 1][0] if k else 0
        last = moves[k + 1][0]
        kinds = moves[k][1], moves[k + 1][1]
        best = _meeting(points, (first, moves[k][0], last), kinds, error)
        low, high, step = first + 1, last - 1, last - first
        while step > 1:
            step = max(1, (high - low) // TRIES)
            tried = [_meeting(points, (first, place, last), kinds, error) for place in range(low, high + 1, step)]
            best = min([best, *tried], key=lambda found: found[0])
            low, high = max(low, best[1] - step + 1), min(high, best[1] + step - 1)
        if best[2] is not None and best[3] is not None:
            moves[k], moves[k + 1] = (best[1], best[2]), (last, best[3])
    return moves


def _meeting(
    points: Floats, at: tuple[int, int, int], kinds: tuple[Bend, Bend], error: float
) -> tuple[float, int, Bend | None, Bend | None]:
    """Two moves of given kinds that meet at the middle one of three points, with what they are off.

    A straight move that is upright or level but for a little counts as far off: a program says the wall or the floor
    itself.
    """
    first, place, last = at
    one, other = _like(points, first, place, kinds[0]), _like(points, place, last, kinds[1])
    if one is None or other is None or max(one.off, other.off) > error:
        return inf, place, None, None
    askew = _askew(points, first, place, one) + _askew(points, place, last, other)
    return one.squared + other.squared + askew * len(points) * error**2, place, one, other


def _askew(points: Floats, first: int, last: int, bend: Bend) -> bool:
    """True for a straight move that is upright or level but for a little."""
    along = abs(round(points[first, 0]) - round(points[last, 0]))
    down = abs(whole(float(points[first, 1])) - whole(float(points[last, 1])))
    return not bend.radius and (0 < NEARLY * along <= down or 0 < NEARLY * down <= along)


def _like(points: Floats, first: int, last: int, kind: Bend) -> Bend | None:
    """The move of a kind, straight or bent, between two points."""
    return _arc(points, first, last) if kind.radius else _straight(points, first, last)


def _frame(points: Floats, first: int, last: int) -> tuple[float, Floats, Floats]:
    """Length of the chord as written, and the points along it from its middle and to the left of it."""
    ends = points[[first, last]].copy()
    ends[:, 1] = np.ceil(2 * ends[:, 1] - SLACK) / 2
    way = ends[1] - ends[0]
    length = float(np.hypot(*way))
    along, left = way / length, np.array([-way[1], way[0]]) / length
    off = points[first : last + 1] - ends.sum(axis=0) / 2
    return length, off @ along, off @ left


def _straight(points: Floats, first: int, last: int) -> Bend:
    """The straight move between two points."""
    _, _, left = _frame(points, first, last)
    return Bend(0, False, float(np.abs(left).max()), float(left @ left))


def _arc(points: Floats, first: int, last: int, least: float = LEAST_TURN) -> Bend | None:
    """The arc between two points that fits those between best; None where it would turn too little or too far."""
    length, along, left = _frame(points, first, last)
    inner = left[1:-1]
    weight = float(inner @ inner)
    if len(inner) < 2 or not weight:
        return None
    height = float(inner @ (along[1:-1] ** 2 + inner**2 - length**2 / 4)) / (2 * weight)
    radius, clockwise = round(sqrt(height**2 + length**2 / 4)), height < 0
    if 2 * radius < length or (left.max() > -left.min()) != clockwise:
        return None
    if not least <= 2 * asin(length / (2 * radius)) <= MOST_TURN:
        return None
    centre = sqrt(radius**2 - length**2 / 4) * (-1 if clockwise else 1)
    if _turns_back(points[[first, last]], length, centre, radius):
        return None
    off = np.hypot(along, left - centre) - radius
    return Bend(radius, clockwise, float(np.abs(off).max()), float(off @ off))


def _turns_back(ends: Floats, length: float, centre: float, radius: int) -> bool:
    """True if an arc leaves the box of its ends: through a wall, or below the floor and up again.

    `centre` lies so far to the left of the middle of the chord.
    """
    left = (ends[1] - ends[0])[::-1] * np.array([-1.0, 1.0]) / length
    middle = ends.mean(axis=0) + centre * left
    toward = -left if centre > 0 else left
    widest = sqrt(1 - length**2 / (4 * radius**2))
    for axis, sign in ((0, -1), (0, 1), (1, -1), (1, 1)):
        beyond = sign * middle[axis] + radius - (sign * ends[:, axis]).max()
        if sign * toward[axis] > widest and beyond > BEYOND:
            return True
    return False


def along(start: Place, moves: Sequence[Move]) -> list[Place]:
    """All corners of the way that a control goes: ends of straight moves and of the chords of arcs."""
    found = [start]
    for move in moves:
        z, x = found[-1]
        if move.radius:
            found += [(b, a) for a, b in by_radius((x, z), (move.x, move.z), move.radius, move.clockwise)]
        else:
            found.append((move.z, move.x))
    return found
