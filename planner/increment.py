"""The control's least input increment: lengths become whole counts here, once.

From the planner to the text everything is integer, so a written program says exactly what was planned.
X is counted on the diameter, Z along the axis, pecks on the radius, all in the same increment
(0.001 mm or 0.0001 in, common practice, where the control takes no coarser ones); feeds per revolution in a finer one.
"""

from functools import cache
from math import ceil, floor

from extractor.limits import EPS
from extractor.part import Units
from extractor.values import dataclass

ROUNDED = 0.501
"""Counts by which a length may be off once it is a whole count: half of one (a drawing's thirds of an inch are no whole
counts), and what binary fractions lose."""


def dust(units: Units) -> float:
    """A length that is none to a control: half a count, as is left where a shop file is in the other system of units.

    >>> dust("mm"), dust("in")
    (0.0005, 5e-05)
    """
    return 0.5 / Increments.of(units).per_length


@dataclass(frozen=True)
class Increments:
    """Counts per unit of length, and per unit of feed, for one system of units.

    >>> Increments.of("in").count(0.2)
    2000
    >>> Increments.of("mm").length(-13000)
    -13.0
    """

    units: Units
    per_length: int
    per_feed: int

    @staticmethod
    @cache
    def of(units: Units) -> "Increments":
        """The increments of a control set to these units."""
        return Increments("mm", 1_000, 10_000) if units == "mm" else Increments("in", 10_000, 100_000)

    def count(self, length: float) -> int:
        """Nearest whole count of a length in drawing units."""
        return round(length * self.per_length)

    def within(self, low: float, high: float) -> range:
        """The whole counts from one length to another, none where no count lies there.

        >>> [*Increments.of("mm").within(33.9988, 34.0012)], [*Increments.of("mm").within(33.9993, 33.9997)]
        ([33999, 34000, 34001], [])
        """
        off = EPS * self.per_length
        return range(ceil(low * self.per_length - off), floor(high * self.per_length + off) + 1)

    def dropped(self, length: float) -> float:
        """What a length is longer than its nearest whole count; shorter if negative.

        >>> round(Increments("mm", 100, 10_000).dropped(1.984), 6)
        0.004
        """
        return length - self.length(self.count(length))

    def length(self, count: int) -> float:
        """Length in drawing units of a count."""
        return count / self.per_length

    @property
    def rounding(self) -> float:
        """How far a length may lie from its whole count, in drawing units (ROUNDED).

        >>> Increments.of("mm").rounding
        0.000501
        """
        return ROUNDED / self.per_length

    def feed_count(self, feed: float) -> int:
        """Nearest whole count of a feed per revolution."""
        return round(feed * self.per_feed)

    def cutting_feed(self, feed: float) -> int:
        """Nearest whole count of a feed to cut with, at least 1: with none the tool would stand still.

        >>> Increments.of("mm").cutting_feed(0.08), Increments.of("mm").cutting_feed(0.00001)
        (800, 1)
        """
        return max(1, self.feed_count(feed))

    def feed_length(self, count: int) -> float:
        """Feed per revolution of a count."""
        return count / self.per_feed
