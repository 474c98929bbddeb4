"""The figures about an axis: how each lies there, and which of them are other views beside the one on it.

Views of one part stand above one another, and each is whole by itself. A figure on one side of an axis belongs to the
view on it only where it needs the other side to be whole.
"""

import math
from collections.abc import Sequence
from itertools import pairwise, product

import numpy as np
import shapely

from extractor.geometry.boxes import box_of
from extractor.values import dataclass
from extractor.viewing.alike import ALONG, ONE_SIZE
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import Ink
from extractor.viewing.hatching import is_hatched
from extractor.viewing.symmetry import middle_line

FAIR = 0.9
"""A view symmetric to at least this share of its boundary is whole; a smaller one is broken or has a view beside it."""

FITTED = 0.95
"""A centre line drawn for a view is drawn along more than this share of it; a chain line's gaps don't count."""

STRAYS = 0.5
"""A half whose lines go on over the axis by this share of its height is a whole view left open there."""

NARROW = 0.1
"""A figure is cut through the metal where it is hatched on a strip of this share of its height along its middle,"""

THIRDS = 3
"""and it is so all along where it is in each of so many stretches: the bore of a whole section is open in one."""


@dataclass(frozen=True)
class Member:
    """A cluster about an axis."""

    index: int
    low: float
    high: float
    least: float
    most: float
    share: float

    @property
    def across(self) -> bool:
        """True if it reaches over the axis."""
        return self.least < 0 < self.most


def member_of(ink: Ink, index: int, axis: Axis, share: float, side: float = 1.0) -> Member:
    """How a cluster lies about an axis, of which a share has its mirror image; on `side` it counts as above."""
    folded = axis.fold(ink.clusters[index].boundary) * (1.0, side)
    low, least, high, most = box_of(folded).tolist()
    return Member(index, low, high, least, most, share)


def without_others(ink: Ink, big: list[int], axis: Axis, centres: Sequence[Axis]) -> list[int]:
    """The clusters that may belong to a view on an axis: where a whole one stands on it, no other view beside it.

    Another view is closed and its own mirror image about a centre line of its own, which runs along all of it, or
    about one that nobody drew, and then as long and as high as the one on the axis.
    """
    lines = [c for c in centres if c.marked and c != axis and c.angle_to(axis.direction) < ALONG]
    rows = [member_of(ink, k, axis, 1.0) for k in big] if lines or _known(axis) else []
    middle = [m for m in rows if min(-m.least, m.most) > STRAYS * max(-m.least, m.most)]
    if not middle:
        return big
    beside = (m for m in rows if not m.across)
    other = {m.index for m in beside if _by_itself(ink, m.index, lines) or _is_twin(ink, m, middle[0], axis)}
    return [k for k in big if k not in other]


def _known(axis: Axis) -> bool:
    """True for an axis that is drawn or stated, false for one that only symmetry gives."""
    return bool(axis.drawn) or axis.stated or axis.marked


def _by_itself(ink: Ink, index: int, lines: Sequence[Axis]) -> bool:
    """True for a closed cluster that is its own mirror image about one of some centre lines along all of it."""
    cluster = ink.clusters[index]
    own = [(c, member_of(ink, index, c, 1.0)) for c in lines if cluster.closed]
    drawn = [c for c, m in own if m.across and c.drawn_within(m.low, m.high) > FITTED]
    return any(ink.mirrored([cluster], c)[0] >= FAIR for c in drawn)


def without_twins(ink: Ink, axis: Axis, group: Sequence[Member]) -> list[Member]:
    """The figures of a view about a line that only symmetry gives, but those that show the part once more beside it.

    Two views of one part drawn above one another lie about a line between them as the halves of a section do.
    """
    if _known(axis):
        return list(group)
    lead = max(group, key=lambda m: (m.across, ink.clusters[m.index].diagonal))
    return [m for m in group if m.across or not _is_twin(ink, m, lead, axis)]


def _is_twin(ink: Ink, m: Member, lead: Member, axis: Axis) -> bool:
    """True for a closed figure as long and as high as the one that leads, and whole about a line along the axis.

    A bar may be half of a bush, and what is hatched all along its middle is cut through the metal: half of a section.
    """
    cluster = ink.clusters[m.index]
    mine, its = ((one.high - one.low, one.most - one.least) for one in (m, lead))
    if cluster.plain or any(abs(a - b) > ONE_SIZE * math.hypot(*its) for a, b in zip(mine, its, strict=True)):
        return False
    own = middle_line(cluster.samples, axis.direction)
    if not cluster.closed or ink.mirrored([cluster], own)[0] < FAIR:
        return False
    along = member_of(ink, m.index, own, 1.0)
    cuts = np.linspace(along.low, along.high, THIRDS + 1).tolist()
    corners = (product(ends, (NARROW * along.least, NARROW * along.most)) for ends in pairwise(cuts))
    strips = (shapely.MultiPoint([own.unfold(*corner) for corner in row]).convex_hull for row in corners)
    return not all(is_hatched(strip, ink.hatched) for strip in strips)
