"""What a view draws beyond the outline that was found, and whether it looks like an outline left open there.

Marks and leaders lie beyond an outline too. Where both halves are drawn, only lines that stand on both sides count;
where one is, only lines along the axis or square to it that go on at both ends, and only if some are square to it.
"""

from bisect import bisect_left, insort

import numpy as np
import numpy.typing as npt

from extractor.finding import Point
from extractor.geometry.network import Edge, Network
from extractor.part import ProfilePoints
from extractor.sheet import Floats
from extractor.viewing.outline import Folded

ENOUGH = {"both": 0.008, "up": 0.03, "down": 0.03}
"""Lines beyond the outline longer together than this share of the view's size leave it open."""

BEYOND = 5e-3
"""What lies outside the outline by more than this share of the view's size is beyond it; its image is as true."""


def left_open(folded: Folded, outline: ProfilePoints, side: int) -> Point | None:
    """A place (z, radius) on the longest line of an outline left open beyond the one found, None if there is none."""
    network, size = folded.network, folded.view.size
    both = folded.view.halves == "both"
    edges = [e for e in network.edges if _counts(e, folded) and (both or _along(network, e, folded) is not None)]
    if not edges:
        return None
    mids, lengths = _measures(network, edges)
    beyond = _beyond(mids * (1.0, side), outline, BEYOND * size) & (mids[:, 1] * side > 5 * folded.fine)
    if both:
        beyond &= _mirrored(mids, BEYOND * size)
    else:
        beyond &= np.array([all(len(network.around[n]) > 1 for n in e[:2]) for e in edges])
        if not any(_along(network, edges[k], folded) == "r" for k in np.flatnonzero(beyond)):
            return None
    if lengths[beyond].sum() <= ENOUGH[folded.view.halves] * size:
        return None
    z, r = mids[np.flatnonzero(beyond)[lengths[beyond].argmax()]].tolist()
    return z, abs(r)


def _counts(edge: Edge, folded: Folded) -> bool:
    """True for a straight edge that belongs to the view and to no dimension."""
    return edge.label >= 0 and not edge.bulge and edge.label not in folded.aside


def _along(network: Network, edge: Edge, folded: Folded) -> str | None:
    """Say "z" for an edge along the axis, "r" for one square to it, None for others."""
    (z0, r0), (z1, r1) = network.point(edge.a), network.point(edge.b)
    if abs(r0 - r1) <= folded.fine:
        return "z"
    return "r" if abs(z0 - z1) <= folded.fine else None


def _measures(network: Network, edges: list[Edge]) -> tuple[Floats, Floats]:
    """Middles float (n, 2) and lengths float (n,)."""
    ends = np.array([(e.a, e.b) for e in edges])
    a, b = network.nodes[ends[:, 0]], network.nodes[ends[:, 1]]
    lengths: Floats = np.hypot(*(b - a).T)
    return (a + b) / 2, lengths


def _beyond(places: Floats, outline: ProfilePoints, margin: float) -> npt.NDArray[np.bool_]:
    """True for places (z, radius) above the outline or past its ends."""
    line = np.array(outline)[::-1]
    z, r = line.T
    near, far = z[0], z[-1]
    past = (places[:, 0] < near - margin) | (places[:, 0] > far + margin)
    low, high = (np.clip(places[:, 0] + off, near, far) for off in (-margin, margin))
    height = np.maximum(np.interp(low, z, r), np.interp(high, z, r))
    first, last = np.searchsorted(z, low), np.searchsorted(z, high, side="right")
    ends = np.column_stack([first, last]).reshape(-1)
    corners = np.where(first < last, np.maximum.reduceat(np.append(r, 0.0), ends)[::2].clip(min=0.0), 0.0)
    return np.asarray(past | (places[:, 1] > np.maximum(height, corners) + margin))


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
