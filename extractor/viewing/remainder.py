"""What a view draws beyond the outline that was found, and whether it looks like an outline left open there.

Marks and leaders lie beyond an outline too: only lines that stand on both sides count, in a view of both halves.
"""

from bisect import bisect_left, insort

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.part import ProfilePoints
from extractor.sheet import Floats
from extractor.viewing.outline import Folded

ENOUGH = 0.008
"""Lines beyond the outline longer together than this share of the view's size leave it open."""

BEYOND = 5e-3
"""What lies outside the outline by more than this share of the view's size is beyond it; its image is as true."""


def left_open(folded: Folded, outline: ProfilePoints, side: int, known: frozenset[int] = frozenset()) -> Point | None:
    """A place (z, radius) on the longest line of an outline left open beyond the one found, None if there is none.

    Edges that are `known` are no part of one.
    """
    network, size, aside = folded.network, folded.view.size, folded.aside
    rows = ((k, e) for k, e in enumerate(network.edges) if e.label >= 0 and not e.bulge and e.label not in aside)
    edges = [e[:2] for k, e in rows if k not in known]
    if not edges or folded.view.halves != "both":
        return None
    ends = network.nodes[np.array(edges)]
    mids, lengths = ends.mean(axis=1), np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    margin = BEYOND * size
    beyond = _beyond(mids * (1.0, side), outline, margin) & (mids[:, 1] * side > 5 * folded.fine)
    if not beyond.any():
        return None
    beyond &= _mirrored(mids, margin)
    if lengths[beyond].sum() <= ENOUGH * size:
        return None
    z, r = mids[beyond][lengths[beyond].argmax()].tolist()
    return z, abs(r)


def _beyond(places: Floats, outline: ProfilePoints, margin: float) -> npt.NDArray[np.bool_]:
    """True for places (z, radius) above the outline or past its ends."""
    (near, _), (far, _) = outline[0], outline[-1]
    deep = -max(r for _, r in outline)
    solid = shapely.Polygon([*outline, (far, deep), (near, deep)]).buffer(margin, join_style="mitre")
    shapely.prepare(solid)
    return np.asarray(~shapely.intersects_xy(solid, *places.T))


def _mirrored(mids: Floats, margin: float) -> npt.NDArray[np.bool_]:
    """True for places that have another at the same z as far on the other side of the axis."""
    # Taken from the lowest up, what lies as far on the other side is a window that moves down: its z are kept in order.
    order = np.argsort(mids[:, 1], kind="stable")
    rising = mids[order].tolist()
    falling, within = rising[::-1], list[float]()
    entered = gone = 0
    found = np.zeros(len(mids), dtype=bool)
    for k, (z, r) in zip(order.tolist(), rising, strict=True):
        while entered < len(falling) and falling[entered][1] + r >= -margin:
            insort(within, falling[entered][0])
            entered += 1
        while gone < entered and falling[gone][1] + r > margin:
            del within[bisect_left(within, falling[gone][0])]
            gone += 1
        at = bisect_left(within, z - margin)
        found[k] = at < len(within) and within[at] < z + margin
    return found
