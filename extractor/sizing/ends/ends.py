"""Both ends of a laid part, the evidence for which of them is the finished front face, and where lengths begin.

Rules: z is 0 at the end taken for the front and negative toward the other, in drawn lengths. Nothing here decides; an
`EndMark` is one piece of evidence with its place, for the end taken or against it. A length counts that has one end on
an end face and the other somewhere along the part: the overall length, a groove's width, a chain's inner links begin
nowhere. One length that reaches no groove is a shoulder's or a bore's and too little to go by. Running dimensions drawn
as bare figures count if each stands as far from its zero as it says.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

import numpy as np

from extractor.finding import Point
from extractor.front import END_WORDS, OPPOSITE, Front
from extractor.part import Frame
from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.measured.ties import LENGTHS, measures
from extractor.values import dataclass

SNAP = 1e-3
"""Share of the part's size within which a dimension's end lies on a face or a wall."""
FEW = 2
"""So many lengths from one end say where they begin, even if none of them reaches a groove."""
BESIDE = 3.0
"""Diameters beside the part within which a dimension's ends may lie and still measure it."""

FIGURE = re.compile(r"[\s±]*\d+(?:[.,]\d+)?\s*")
"""A bare figure, as running dimensions have them."""
ZERO = re.compile(r"\s*[±]?0(?:[.,]0+)?\s*")
"""A nought that stands alone: the origin of lengths."""
LEVEL = 0.05
"""Share of their distance by which two figures of one row may stand off: those of more letters are set farther out."""


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

    `words` is what the sheet says, `spot` the end it points to or `named`, None where it tells how the part is held and
    names no end known, `at` where it stands on the sheet. `sure` is false for words that may stand at a front, but also
    at an end that is merely finished already, for those that stand `far` off beyond an end, and for those that say
    `more` than its name.
    """

    taken: bool
    words: str
    spot: Front | None
    at: Point
    sure: bool = True
    named: bool = False
    far: bool = False
    more: bool = False

    @property
    def quoted(self) -> str:
        """Its words and the end that they are at, or name."""
        if self.spot is None:
            return f'"{self.words}" tells how the part is held'
        where = "names" if self.named else "stands beyond" if self.far else "is at"
        return f'"{self.words}" {where} the {END_WORDS[self.spot]}'


def end_named(direction: Point) -> Front:
    """The end of a drawn part that lies in a direction.

    >>> end_named((0.9, -0.1)), end_named((0.0, 1.0))
    ('right', 'top')
    """
    x, y = direction
    if abs(x) >= abs(y):
        return "right" if x > 0 else "left"
    return "top" if y > 0 else "bottom"


def value_of(figure: str) -> float:
    """The size that a bare figure prints."""
    return float(figure.strip(" ±").replace(",", "."))


@dataclass(frozen=True, kw_only=True)
class Begins:
    """Where lengths stand that begin at the end taken, and at the other; `placed`: how many of each reach a groove."""

    taken: tuple[Point, ...]
    other: tuple[Point, ...]
    placed: tuple[int, int]

    @property
    def all_at(self) -> Literal["taken", "other"] | None:
        """The end at which all lengths begin, None where they are too few or begin at both."""
        if self.taken and self.other:
            return None
        count, placed = (len(self.taken), self.placed[0]) if self.taken else (len(self.other), self.placed[1])
        if not placed and count < FEW:
            return None
        return "taken" if self.taken else "other"


def begins(dimensions: Iterable[Dimension], notes: Iterable[PointedNote], ends: Ends) -> Begins:
    """Sort the lengths of a laid part by the end at which they begin; `notes` may be figures of running dimensions."""
    listed = [(d.points[0], *found) for d in dimensions for found in _begin(d, ends)]
    listed += _running([n for n in notes if FIGURE.fullmatch(n.words)], ends)
    # Read from strokes in two ways a dimension may be there twice.
    once = {(taken, round(end / (SNAP * ends.size))): (at, taken, wall) for at, taken, wall, end in listed}.values()
    taken, other = ([row for row in once if row[1] is side] for side in (True, False))
    placed = sum(row[2] for row in taken), sum(row[2] for row in other)
    return Begins(taken=tuple(r[0] for r in taken), other=tuple(r[0] for r in other), placed=placed)


def _begin(dimension: Dimension, ends: Ends) -> Iterator[tuple[bool, bool, float]]:
    """Whether a length begins at the end taken, whether it ends at a groove, and where; nothing if it is none."""
    if dimension.kind not in (*LENGTHS, DimensionKind.ORDINATE) or not measures(dimension, ends.frame.axis):
        return
    places = [ends.frame.on_part(p) for p in dimension.points[:2]]
    if any(abs(r) > ends.reach + 2 * BESIDE * ends.reach for _, r in places):
        return
    snap = SNAP * ends.size
    a, b = (z for z, _ in places)
    # The first point of an ordinate dimension is its origin; of others either end may be the beginning.
    pairs = [(a, b)] if dimension.kind is DimensionKind.ORDINATE else [(a, b), (b, a)]
    for start, end in pairs:
        inside = -ends.length + snap < end < -snap
        wall = any(abs(end - w) <= snap for w in ends.walls)
        if inside and abs(start) <= snap:
            yield True, wall, end
        elif inside and abs(start + ends.length) <= snap:
            yield False, wall, end


def _running(figures: Sequence[PointedNote], ends: Ends) -> Iterator[tuple[Point, bool, bool, float]]:
    """Each figure of a row that stands as far from the nought at an end as it says: its place, that end, and its z."""
    places = [ends.frame.on_part(n.middle) for n in figures]
    z, r = np.array(places).reshape(-1, 2).T
    said = np.array([value_of(n.words) for n in figures])
    for zero, (start, height) in zip(figures, places, strict=True):
        side = next((s for s, at in ((True, 0.0), (False, -ends.length)) if abs(start - at) <= zero.height), None)
        if side is None or not ZERO.fullmatch(zero.words):
            continue
        run = np.abs(z - start)
        fit = (said > 0) & (np.abs(r - height) <= zero.height + LEVEL * run) & (np.abs(run - said) <= zero.height)
        yield from ((figures[k].at, side, True, places[k][0]) for k in np.flatnonzero(fit).tolist())
