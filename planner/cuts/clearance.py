"""Heights over the part: how high the lands stand over a stretch along u."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

from extractor.part import ProfilePoints

# Planes nearer than this are the same plane: reading leaves errors in the last digits.
SAME_PLANE = 1e-6

Told = tuple[list[float], list[float]]


def highest_land(
    lands: ProfilePoints, low: float, high: float, nothing: float = 0.0, told: Told | None = None
) -> float:
    """Greatest height of the lands over a closed stretch; a shoulder just touched counts. `nothing` beyond both ends.

    `told`: what `told_apart` says of the lands, for a caller who asks many times.

    >>> highest_land(((0.0, 20.0), (-30.0, 20.0), (-30.0, 25.0), (-60.0, 25.0)), -30.0, -27.0)
    25.0
    """
    behind, heights = told or told_apart(lands)
    low, high = low - SAME_PLANE, high + SAME_PLANE
    first = bisect_left(behind, -high)
    last = bisect_right(behind, -low, lo=first)
    found = [*heights[first:last], *_crossed(lands, behind, low, last), *_crossed(lands, behind, high, first)]
    return max(found, default=nothing)


def highest_on_the_way(
    lands: ProfilePoints, low: float, told: Told, highest: Sequence[float], nothing: float = 0.0
) -> float:
    """The same from the front to a place, where `highest` says it of every point."""
    behind, _ = told
    low -= SAME_PLANE
    last = bisect_right(behind, -low)
    return max([*highest[max(0, last - 1) : last], *_crossed(lands, behind, low, last)], default=nothing)


def _crossed(lands: ProfilePoints, behind: Sequence[float], z: float, k: int) -> list[float]:
    """The height of a line that goes on beyond an end of the stretch, before the point of an index."""
    if not (0 < k < len(lands) and behind[k - 1] < -z < behind[k]):
        return []
    (z0, h0), (z1, h1) = lands[k - 1], lands[k]
    return [h0 + (h1 - h0) * (z - z0) / (z1 - z0)]


def told_apart(lands: ProfilePoints) -> Told:
    """How far each point lies behind the front face, which never falls, and how high it is."""
    return [-z for z, _ in lands], [height for _, height in lands]
