"""Running dimensions that an export exploded: a row of bare figures, each at the end of its extension line.

Rules: a row begins with a zero. Every figure stands to its own line as the zero does, and the line begins at what
is measured; so a figure can be held against the drawing to the last digit. A row counts if most of its figures say how
far their lines lie from the zero's (ISO 129-1, running dimensioning, from memory).
"""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
import shapely

from extractor.finding import Point
from extractor.part import Frame
from extractor.sheet import Dimension, DimensionKind, Floats, Sheet, Text
from extractor.sizing.ends import FIGURE, ZERO, value_of
from extractor.sizing.pointers import box_of, middle_of
from extractor.sizing.ties import SQUARE, Features

REACH = 6.0
"""Letter heights between a figure and the end of its extension line, at most."""

ALIKE = 0.25
"""Letter heights by which figures may stand otherwise to their lines than the nought does to its own."""

LEAST = 2
"""So many figures that are as far from the nought as they say make a row, if they are the most of it."""


class Foot(NamedTuple):
    """An extension line beside a figure: its place along the axis, where it begins, and how high it ends."""

    along: float
    begin: Point
    end: float


def running_sizes(sheet: Sheet, features: Features) -> tuple[Dimension, ...]:
    """The figures of every row along the axis as ordinate dimensions from the line of the zero."""
    figures = [t for t in sheet.texts if t.height > 0 and FIGURE.fullmatch(t.text)]
    noughts = [t for t in figures if ZERO.fullmatch(t.text)]
    if not noughts or len(figures) <= LEAST:
        return ()
    lines = _square(sheet, features.frame)
    feet = {id(text): _feet(text, lines, features.frame) for text in figures}
    return tuple(one for nought in noughts for one in _row(nought, figures, feet, features))


def _square(sheet: Sheet, frame: Frame) -> Floats:
    """The straight strokes square to the axis, float (n, 4)."""
    ends = sheet.segments.ends[sheet.segments.bulge == 0]
    run = ends[:, 2:] - ends[:, :2]
    size = np.hypot(*run.T)
    kept: Floats = ends[(size > 0) & (np.abs(run @ np.array(frame.axis)) <= SQUARE * size)]
    return kept


def _feet(text: Text, lines: Floats, frame: Frame) -> list[Foot]:
    """The extension lines that end beside a figure."""
    off = shapely.distance(box_of(text), shapely.points(lines.reshape(-1, 2))).reshape(-1, 2)
    feet = []
    for k in np.flatnonzero(off.min(axis=1) <= REACH * text.height).tolist():
        a, b = lines[k].reshape(2, 2).tolist()
        begin, end = (b, a) if off[k, 0] < off[k, 1] else (a, b)
        feet.append(Foot(frame.on_part(begin)[0], (begin[0], begin[1]), frame.on_part(end)[1]))
    return feet


def _row(nought: Text, figures: Sequence[Text], feet: dict[int, list[Foot]], features: Features) -> Iterator[Dimension]:
    """The dimensions of the row that begins with a nought, none where its figures are not those of its lines."""
    frame, row = features.frame, [t for t in figures if t is not nought and t.angle == nought.angle]
    middles = {id(t): frame.on_part(middle_of(t))[0] for t in (nought, *row)}
    for zero in feet[id(nought)]:
        off, own = middles[id(nought)] - zero.along, list[tuple[Text, Foot]]()
        for text in row:
            # A figure stands to its own line as the nought does.
            aside = [(abs(middles[id(text)] - foot.along - off), foot) for foot in feet[id(text)]]
            away, best = min(aside, key=lambda one: one[0], default=(math.inf, zero))
            own += [(text, best)] if away <= ALIKE * text.height / frame.scale else []
        # Figures that would meet stand in turn at lines of two lengths.
        found = [(t, f) for t, f in own if any(_level(t, nought, frame, off) for off in (0.0, f.end - zero.end))]
        lengths = [abs(foot.along - zero.along) for _, foot in found]
        right = sum(abs(long - value_of(t.text)) <= features.snap for (t, _), long in zip(found, lengths, strict=True))
        if right >= LEAST and 2 * right > len(found):
            angle = math.degrees(math.atan2(frame.axis[1], frame.axis[0])) % 180
            for (text, foot), long in zip(found, lengths, strict=True):
                ends = zero.begin, foot.begin
                yield Dimension(DimensionKind.ORDINATE, ends, angle, long * frame.scale, text.text)
            return


def _level(text: Text, nought: Text, frame: Frame, off: float) -> bool:
    """True for figures of which one begins or ends so far off the other."""
    ends = zip(_heights(text, frame), _heights(nought, frame), strict=True)
    return any(abs(a - b - off) <= text.height / frame.scale for a, b in ends)


def _heights(text: Text, frame: Frame) -> tuple[float, float]:
    """Across the axis, where a figure begins and about where it ends."""
    return frame.on_part(text.at)[1], frame.on_part(text.end)[1]
