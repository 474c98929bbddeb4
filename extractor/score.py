"""How readings of one sheet are weighed against one another: the parts of a score, and when one reading leads.

The parts are kept separate: no sum hides what speaks for a reading. Two readings are compared part by part,
the firmest first. The first part in which they differ by its margin decides, and is the fact that separates them; less
than the margin says nothing. If no part decides, neither leads and the user is asked.
"""

from collections.abc import Mapping
from enum import StrEnum

from extractor.finding import Point
from extractor.front import FrontEnd
from extractor.values import dataclass


class Aspect(StrEnum):
    """The parts of a score, the firmest first.

    `FRAME`: -1 for a figure round words, that of a note or a table. `PROJECTION`: a round end view as large as the
    part, or a diameter of its whole width, has the axis in its middle. `PRINTED`: printed sizes that agree, less those
    that contradict. `STANDING`: how a view lies about its axis, and whether that is drawn. `AGAIN`: another view that
    shows it is turned is as long and as high. `LINES`: lines, signs and hidden lines as a turned part has them.
    `HALVES`: the share of the boundary that is the same on both sides. `INK`: the share of what is drawn at the view
    that is explained. `ENDS`: minus the lines of the view that end in the air.
    """

    FRAME = "frame"
    PROJECTION = "projection"
    PRINTED = "printed"
    STANDING = "standing"
    AGAIN = "again"
    LINES = "lines"
    HALVES = "halves"
    INK = "ink"
    ENDS = "ends"


MARGINS: dict[Aspect, float] = {
    Aspect.PROJECTION: 1.0,  # it is there or it isn't
    Aspect.PRINTED: 3.0,  # one diameter on this reading and not on that lies 2 apart: it may be a hole's; two decide
    Aspect.LINES: 1.0,  # it is there or it isn't
    Aspect.HALVES: 0.1,  # a keyway, a flat or a mark on one side takes up to a tenth of a boundary
}
"""By how much one reading must lead another in a part for that part to decide.

Unexplained ink and loose ends decide nothing: they stop the reading that they touch (`extractor.doubts.left_over`,
`extractor.viewing.remainder`), and a frame is no view at all.
"""

ORDER = (Aspect.PROJECTION, Aspect.STANDING, Aspect.AGAIN, Aspect.LINES)
"""The parts that say which of two views is the better one, however little they lie apart: the first takes their ink."""


@dataclass(frozen=True)
class Merit:
    """One part of a score: its figure, more is better, and what gave it."""

    figure: float
    reason: str


Score = Mapping[Aspect, Merit]
"""What speaks for one reading, part by part; a part that nothing is known of is left out."""


@dataclass(frozen=True)
class Weighed:
    """One weighed reading: a place on its view, its axis, front and scale, and what speaks for it.

    `axis` is a unit vector on the sheet, `set_aside` whether strokes that are likely no outline were left out of it,
    `taken` whether it is the one that was answered with, or stopped at. `scale` is None where no part was read.
    """

    at: Point
    axis: Point
    set_aside: bool
    score: Score
    front: FrontEnd | None = None
    scale: float | None = None
    taken: bool = False


def better_first(score: Score) -> tuple[float, ...]:
    """A key that sorts scores by the parts of `ORDER`, the best first."""
    return tuple(-score[aspect].figure for aspect in ORDER)


def decides(one: Score, two: Score) -> tuple[Aspect, float] | None:
    """The part that separates two readings, and by how much the first leads in it (below 0: trails); None if none does.

    >>> agree, odd = ({Aspect.PRINTED: Merit(n, "sizes")} for n in (3.0, 2.0))
    >>> decides(agree, odd) is None
    True
    >>> decides({**agree, Aspect.HALVES: Merit(1.0, "whole")}, {**odd, Aspect.HALVES: Merit(0.8, "a notch")})[0].value
    'halves'
    """
    for aspect, margin in MARGINS.items():
        if aspect in one and aspect in two:
            by = one[aspect].figure - two[aspect].figure
            if abs(by) >= margin:
                return aspect, by
    return None
