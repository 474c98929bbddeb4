"""The cycles that rough along a contour, as moves: pass by pass, then once along it, leaving the allowance.

One place works them out in one frame, whichever way they cut: a level that goes down by the depth of a pass, and the
way along it till the contour comes up to that level (common practice). Places are (x, z) in counts, x on the diameter;
depths and retracts are counts of length, on X measured as radius.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

Place = tuple[int, int]

X, Z = 0, 1
PER_LENGTH = {X: 2, Z: 1}
"""Counts of a place for one count of length: X is a diameter."""


class Way(NamedTuple):
    """One move of a cycle to a place in counts."""

    kind: Literal["rapid", "feed"]
    x: int
    z: int


class Corner(NamedTuple):
    """A corner of a contour, and whether the way to it is at rapid."""

    x: int
    z: int
    rapid: bool = False


def passes(start: Place, contour: Sequence[Corner], axis: int, depth: int, back: int) -> Iterator[Way]:
    """The passes of a roughing cycle from its start, whose levels lie along `axis`, then once along the contour.

    The contour includes its allowances. It may lie on either side of the start, as in a bore. At a depth of 0 there is
    only the pass along the contour.
    """
    side = _side(start, contour, axis)
    line = [(side * corner[axis], corner[1 - axis]) for corner in contour]
    level, lowest, begin = side * start[axis], min(height for height, _ in line), start[1 - axis]
    step, lift = PER_LENGTH[axis] * depth, PER_LENGTH[axis] * back
    while step and level - step > lowest:
        level -= step
        end = _meets(line, level)
        if end == begin:
            continue
        aside = min(PER_LENGTH[1 - axis] * back, abs(end - begin))
        out = end + (aside if begin > end else -aside)
        for kind, height, run in (
            ("rapid", level, begin),
            ("feed", level, end),
            ("feed", level + lift, out),
            ("rapid", level + lift, begin),
        ):
            place = (side * height, run) if axis == X else (run, side * height)
            yield Way("rapid" if kind == "rapid" else "feed", *place)
    yield from along(start, contour)


def deepest(start: Place, contour: Sequence[Corner], axis: int, depth: int) -> int:
    """How much one pass takes at most: its depth, or all there is from the start where that is less."""
    side = _side(start, contour, axis)
    whole = side * start[axis] - min(side * corner[axis] for corner in contour)
    return min(depth, whole // PER_LENGTH[axis])


def along(start: Place, contour: Sequence[Corner]) -> Iterator[Way]:
    """Once along a contour from a start, and back to the start at rapid."""
    for corner in contour:
        yield Way("rapid" if corner.rapid else "feed", corner.x, corner.z)
    yield Way("rapid", *start)


def beside(start: Place, contour: Sequence[Corner], aside: Place, times: int) -> Iterator[Way]:
    """The cycle that runs the whole contour a number of times, at first offset by `aside` and nearer each time."""
    for left in range(times - 1, -1, -1):
        share = left / (times - 1) if times > 1 else 0.0
        moved = shifted(contour, (round(aside[0] * share), round(aside[1] * share)))
        yield from along(start, moved)


def shifted(contour: Sequence[Corner], aside: Place) -> tuple[Corner, ...]:
    """A contour moved out by its allowances."""
    return tuple(Corner(corner.x + aside[0], corner.z + aside[1], corner.rapid) for corner in contour)


def rises(contour: Sequence[Corner], start: Place, axis: int) -> bool:
    """True if a contour never goes back down, so that every control cuts the same passes."""
    side = _side(start, contour, axis)
    return all(side * a[axis] <= side * b[axis] for a, b in pairwise(contour))


def _side(start: Place, contour: Sequence[Corner], axis: int) -> int:
    """1 for a contour that is come to from above, -1 from below, as in a bore."""
    return 1 if start[axis] >= contour[0][axis] else -1


def _meets(line: Sequence[Place], level: int) -> int:
    """Where a contour first comes up to a level, along the other axis; its end where it never does."""
    for (low, begin), (high, end) in pairwise(line):
        if low <= level < high:
            return begin + round((end - begin) * (level - low) / (high - low))
    return line[-1][1]
