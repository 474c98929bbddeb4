"""Running dimensions that an export exploded: a row of bare figures, each at the end of its extension line.

Rules: a row begins with a zero. Every figure stands to its own line as the zero does, and the line begins at what
is measured; so a figure can be held against the drawing to the last digit. A row counts if most of its figures say how
far their lines lie from the zero's (ISO 129-1, running dimensioning, from memory). Where another figure stands in place
of the zero, that is a contradiction.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from operator import itemgetter
from typing import NamedTuple

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import normalised
from extractor.part import Frame
from extractor.rounding import ROUNDING
from extractor.sheet import Dimension, DimensionKind, Ints, Sheet, Text
from extractor.sizing.ends.ends import FIGURE, ZERO, value_of
from extractor.sizing.lettering.pointers import box_of, middle_of
from extractor.sizing.lettering.printed import parse
from extractor.sizing.measured.features import SQUARE, Features
from extractor.sizing.measured.ties import measures

REACH = 6.0
"""Letter heights between a figure and the end of its extension line, at most."""

ALIKE = 0.25
"""Letter heights by which figures may stand otherwise to their lines than the nought does to its own."""

LEAST = 2
"""So many figures that are as far from the nought as they say make a row, if they are the most of it."""


class Foot(NamedTuple):
    """An extension line beside a figure: its place along the axis, where it begins, how high it ends, its number."""

    along: float
    begin: Point
    end: float
    line: int


def running_sizes(sheet: Sheet, features: Features) -> tuple[Dimension, ...]:
    """The figures of every row along the axis as ordinate dimensions from the line of the zero."""
    figures = [t for t in sheet.texts if t.height > 0 and FIGURE.fullmatch(t.text)]
    if len(figures) <= LEAST:
        return ()
    feet = _feet(figures, sheet, features.frame)
    rows = [(t, feet[k], features.frame.on_part(middle_of(t))[0]) for k, t in enumerate(figures) if k in feet]
    if not rows:
        return ()
    right = _Right(rows, features)
    found = (one for nought in rows if ZERO.fullmatch(nought[0].text) for one in _row(nought, rows, features, right))
    return tuple(found) or tuple(one for other in rows for one in _row(other, rows, features, right))


def odd_noughts(sizes: Iterable[Dimension], features: Features) -> Iterator[Finding]:
    """The stop for each running size that prints a length where it measures none."""
    for one in sizes:
        nothing = one.kind is DimensionKind.ORDINATE and one.measured <= features.snap * features.frame.scale
        if nothing and one.text and measures(one, features.frame.axis) and parse(one.text).value:
            words = f'"{normalised(one.text)}" stands where a row of running sizes begins: ask where it counts from.'
            yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, one.points[0])


def _square(sheet: Sheet, frame: Frame) -> Ints:
    """The numbers of the straight strokes square to the axis, int (n,)."""
    run = sheet.segments.ends[:, 2:] - sheet.segments.ends[:, :2]
    size = np.hypot(*run.T)
    square = np.abs(run @ np.array(frame.axis)) <= SQUARE * size
    return np.flatnonzero((sheet.segments.bulge == 0) & (size > 0) & square)


Standing = tuple[Text, list[Foot], float]
"""A figure, the extension lines beside it, and the place of its middle along the axis."""


def _feet(figures: Sequence[Text], sheet: Sheet, frame: Frame) -> dict[int, list[Foot]]:
    """The extension lines that end beside each of some figures, by its number, none for those that stand at none."""
    known = _square(sheet, frame)
    lines = sheet.segments.ends[known]
    boxes, ends = np.array([box_of(t) for t in figures]), shapely.points(lines.reshape(-1, 2))
    reach = [REACH * t.height for t in figures]
    near = shapely.STRtree(ends).query(boxes, predicate="dwithin", distance=reach)
    feet: dict[int, list[Foot]] = {}
    for k, line in np.unique(np.vstack([near[0], near[1] // 2]), axis=1).T.tolist():
        off = shapely.distance(boxes[k], ends[2 * line : 2 * line + 2])
        a, b = lines[line].reshape(2, 2).tolist()
        begin, end = (b, a) if off[0] < off[1] else (a, b)
        foot = Foot(frame.on_part(begin)[0], (begin[0], begin[1]), frame.on_part(end)[1], int(known[line]))
        feet.setdefault(k, []).append(foot)
    return feet


class _Right:
    """Which figures could be right in a row: of many on a sheet hardly one is the first of any, and all would be asked.

    For each figure and line beside it: the two places that the nought's line would have then, in rising order.
    """

    def __init__(self, rows: Sequence[Standing], features: Features) -> None:
        """Of all figures at lines."""
        self.reach = features.snap + ROUNDING * (1 + max(abs(foot.along) for _, feet, _ in rows for foot in feet))
        told = [
            (foot.along, value_of(text.text), along - foot.along, ALIKE * text.height / features.frame.scale, k)
            for k, (text, feet, along) in enumerate(rows)
            for foot in feet
        ]
        foot, value, off, slack, number = np.array(told).T
        places = np.concatenate([foot - value, foot + value])
        order = np.argsort(places)
        self.places, pair = places[order], order % len(told)
        self.off, self.slack, self.number = off[pair], slack[pair] + ROUNDING * (1 + np.abs(off[pair])), number[pair]
        self.known: dict[tuple[float, float], int] = {}

    def most(self, zero: float, off: float) -> int:
        """At most so many figures are right by a nought at a line, which stands so far off it."""
        if (zero, off) not in self.known:
            near = slice(*np.searchsorted(self.places, (zero - self.reach, zero + self.reach)).tolist())
            alike = np.abs(self.off[near] - off) <= self.slack[near]
            self.known[zero, off] = len(np.unique(self.number[near][alike]))
        return self.known[zero, off]


def _row(first: Standing, figures: Sequence[Standing], features: Features, right: _Right) -> Iterator[Dimension]:
    """The dimensions of the row that begins with a nought, none where its figures are not those of its lines."""
    frame, (nought, at, middle) = features.frame, first
    own_size, others = not ZERO.fullmatch(nought.text), list[Standing]()
    for zero in at:
        off, own = middle - zero.along, list[tuple[Text, Foot]]()
        if right.most(zero.along, off) < LEAST + own_size:
            continue
        others = others or [one for one in figures if one is not first and one[0].angle == nought.angle]
        for text, feet, along in others:
            # A figure stands to its own line as the nought does.
            away, best = min(((abs(along - foot.along - off), foot) for foot in feet), key=itemgetter(0))
            own += [(text, best)] if away <= ALIKE * text.height / frame.scale else []
        # Figures that would meet stand in turn at lines of two lengths.
        found = [(t, f) for t, f in own if any(_level(t, nought, frame, off) for off in (0.0, f.end - zero.end))]
        lengths = [abs(foot.along - zero.along) for _, foot in found]
        agree = sum(abs(long - value_of(t.text)) <= features.snap for (t, _), long in zip(found, lengths, strict=True))
        other = [(nought, zero)] if own_size else []
        if agree >= LEAST + own_size and 2 * agree > len(found):
            angle = math.degrees(math.atan2(frame.axis[1], frame.axis[0])) % 180
            for (text, foot), long in zip([*found, *other], [*lengths, *(0.0 for _ in other)], strict=True):
                ends = zero.begin, foot.begin
                drawn = frozenset({zero.line, foot.line})
                yield Dimension(DimensionKind.ORDINATE, ends, angle, long * frame.scale, text.text, drawn=drawn)
            return


def _level(text: Text, nought: Text, frame: Frame, off: float) -> bool:
    """True for figures of which one begins or ends so far off the other."""
    ends = zip(_heights(text, frame), _heights(nought, frame), strict=True)
    return any(abs(a - b - off) <= text.height / frame.scale for a, b in ends)


def _heights(text: Text, frame: Frame) -> tuple[float, float]:
    """Across the axis, where a figure begins and about where it ends."""
    return frame.on_part(text.at)[1], frame.on_part(text.end)[1]
