"""Where the walls of a cut go: by all places of the groove that the sheet names, or its middle as drawn."""

from extractor.distance import Spot
from extractor.limits import Aims
from extractor.part import Groove


def near_wall(groove: Groove, aims: Aims, cut: float, tolerance: float) -> tuple[float, float, float]:
    """Where the near wall of a cut of this width may lie, and where it should: least, aim, greatest.

    All places that the sheet names are kept, with a share of their limits free if there is room for that. Where they
    can't all be, one with deviations comes before one that is only named.
    """
    if not aims.spots:
        slack = max(0.0, tolerance - abs(cut - groove.width) / 2)
        aim = (groove.near + groove.far + cut) / 2
        return aim - slack, aim, aim + slack
    ahead: dict[Spot, float] = {"near": 0.0, "centre": cut / 2, "far": cut}
    moved = [one.moved(ahead[spot]) for spot, one in aims.spots.items()]
    given = [one for one in moved if one.given] or moved
    for wishes in ([one.inner for one in moved], moved, [one.inner for one in given], given):
        low, high = max(one.low for one in wishes), min(one.high for one in wishes)
        if low <= high:
            break
    else:
        low = high = (low + high) / 2
    aim = sum(one.aim for one in given) / len(given)
    return low, min(max(aim, low), high), high
