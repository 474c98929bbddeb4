"""Heights over the part: how high the lands stand over a stretch along u."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence

from extractor.part import ProfilePoints

# Planes nearer than this are the same plane: reading leaves errors in the last digits.
SAME_PLANE = 1e-6


def highest_land(
    lands: ProfilePoints, low: float, high: float, nothing: float = 0.0, behind: Sequence[float] | None = None
) -> float:
    """Greatest height of the lands over a closed stretch; a shoulder just touched counts. `nothing` beyond both ends.

    `behind`: how far each point lies behind the front face, for a caller who asks many times.

    >>> highest_land(((0.0, 20.0), (-30.0, 20.0), (-30.0, 25.0), (-60.0, 25.0)), -30.0, -27.0)
    25.0
    """
    told = [-z for z, _ in lands] if behind is None else behind
    return max(_heights(lands, told, low - SAME_PLANE, high + SAME_PLANE), default=nothing)


def _heights(lands: ProfilePoints, behind: Sequence[float], z_low: float, z_high: float) -> Iterable[float]:
    """Heights of the corners within the stretch, and of the lines where they cross its ends; z never rises."""
    first = bisect_left(behind, -z_high)
    last = bisect_right(behind, -z_low, lo=first)
    yield from (radius for _, radius in lands[first:last])
    for z, k in ((z_low, last), (z_high, first)):
        (z0, r0), (z1, r1) = lands[k - 1 : k + 1] if 0 < k < len(lands) else ((z, 0.0), (z, 0.0))
        if z1 < z < z0:
            yield r0 + (r1 - r0) * (z - z0) / (z1 - z0)
