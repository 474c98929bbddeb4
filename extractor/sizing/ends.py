"""Both ends of a laid part, and the evidence for which of them is the finished front face.

Rules: z is 0 at the end taken for the front and negative toward the other, in drawn lengths. Nothing here decides; a
`EndMark` is one piece of evidence with its place, for the end taken or against it.
"""

from extractor.finding import Point
from extractor.front import OPPOSITE, Front
from extractor.part import Frame
from extractor.values import dataclass


@dataclass(frozen=True, kw_only=True)
class Ends:
    """What matters of a laid part for its ends: its frame as drawn (scale 1), its length, its greatest radius.

    `walls`: z of the walls of its grooves, for lengths that say where a groove lies.
    """

    frame: Frame
    length: float
    reach: float
    walls: tuple[float, ...] = ()

    @property
    def size(self) -> float:
        """The greater of length and diameter."""
        return max(self.length, 2 * self.reach)

    @property
    def taken(self) -> Front:
        """The end taken for the front."""
        return end_named(self.frame.axis)

    @property
    def other(self) -> Front:
        """The other end."""
        return OPPOSITE[self.taken]


@dataclass(frozen=True, kw_only=True)
class EndMark:
    """One piece of evidence: `taken` if it says that the end taken is the front, else the other end.

    `words` is what the sheet says, `spot` the end it points to, `at` where it stands on the sheet. `sure` is false for
    words that may stand at a front, but also at an end that is merely finished already.
    """

    taken: bool
    words: str
    spot: Front
    at: Point
    sure: bool = True


def end_named(direction: Point) -> Front:
    """The end of a drawn part that lies in a direction.

    >>> end_named((0.9, -0.1)), end_named((0.0, 1.0))
    ('right', 'top')
    """
    x, y = direction
    if abs(x) >= abs(y):
        return "right" if x > 0 else "left"
    return "top" if y > 0 else "bottom"
