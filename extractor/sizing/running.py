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
from extractor.part import Frame, Part
from extractor.sheet import LETTER, Dimension, DimensionKind, Floats, Sheet, Text
from extractor.sizing.front_lengths import FIGURE, ZERO
from extractor.sizing.pointers import box_of
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


def running_sizes(sheet: Sheet, part: Part) -> tuple[Dimension, ...]:
    """The figures of every row along the axis as ordinate dimensions from the line of the zero."""
    frame = part.frame
    figures = [t for t in sheet.texts if t.height > 0 and FIGURE.fullmatch(t.text)]
    noughts = [t for t in figures if ZERO.fullmatch(t.text)]
    if frame is None or not noughts or len(figures) <= LEAST:
        return ()
    lines = _square(sheet, frame)
    feet = {id(text): _feet(text, lines, frame) for text in figures}
    snap = Features.of(part, frame).snap * frame.scale
    return tuple(one for nought in noughts for one in _row(nought, figures, feet, frame, snap))


def _square(sheet: Sheet, frame: Frame) -> Floats:
    """The straight strokes square to the axis, float (n, 4)."""
    ends = sheet.segments.ends[sheet.segments.bulge == 0]
    run = ends[:, 2:] - ends[:, :2]
    size = np.hypot(*run.T)
    kept: Floats = ends[(size > 0) & (np.abs(run @ np.array(frame.axis)) <= SQUARE * size)]
    return kept


def _feet(text: Text, lines: Floats, frame: Frame) -> list[Foot]:
    """The extension lines that end beside a figure."""
    box = box_of(text)
    off = shapely.distance(box, shapely.points(lines.reshape(-1, 2))).reshape(-1, 2)
    near = np.flatnonzero(off.min(axis=1) <= REACH * text.height)
    feet = []
    for k in near.tolist():
        a, b = lines[k].reshape(2, 2).tolist()
        (x, y), (u, v) = (b, a) if off[k, 0] < off[k, 1] else (a, b)
        feet.append(Foot(x * frame.axis[0] + y * frame.axis[1], (x, y), u * frame.up[0] + v * frame.up[1]))
    return feet


def _row(
    nought: Text, figures: Sequence[Text], feet: dict[int, list[Foot]], frame: Frame, snap: float
) -> Iterator[Dimension]:
    """The dimensions of the row that begins with a nought, none where its figures are not those of its lines."""
    row = [t for t in figures if t is not nought and t.angle == nought.angle]
    for zero in feet[id(nought)]:
        own = [(t, foot) for t in row if (foot := _own(t, feet[id(t)], _middle(nought, frame) - zero.along, frame))]
        # Figures that would meet stand in turn at lines of two lengths.
        found = [(t, f) for t, f in own if any(_level(t, nought, frame, off) for off in (0.0, f.end - zero.end))]
        right = [t for t, foot in found if abs(abs(foot.along - zero.along) - _value(t) * frame.scale) <= snap]
        if len(right) >= LEAST and 2 * len(right) > len(found):
            angle = math.degrees(math.atan2(frame.axis[1], frame.axis[0])) % 180
            for text, foot in found:
                ends = zero.begin, foot.begin
                yield Dimension(DimensionKind.ORDINATE, ends, angle, abs(foot.along - zero.along), text.text)
            return


def _level(text: Text, nought: Text, frame: Frame, off: float) -> bool:
    """True for figures of which one begins or ends so far off the other."""
    ends = zip(_heights(text, frame), _heights(nought, frame), strict=True)
    return any(abs(a - b - off) <= text.height for a, b in ends)


def _heights(text: Text, frame: Frame) -> tuple[float, float]:
    """Across the axis, where a figure begins and about where it ends."""
    turn, long = math.radians(text.angle), LETTER * text.height * len(text.text)
    begin = text.at[0] * frame.up[0] + text.at[1] * frame.up[1]
    return begin, begin + long * (math.cos(turn) * frame.up[0] + math.sin(turn) * frame.up[1])


def _own(text: Text, feet: Sequence[Foot], off: float, frame: Frame) -> Foot | None:
    """The line to which a figure stands as the nought does to its own."""
    best = min(feet, key=lambda foot: abs(_middle(text, frame) - foot.along - off), default=None)
    near = best is not None and abs(_middle(text, frame) - best.along - off) <= ALIKE * text.height
    return best if near else None


def _middle(text: Text, frame: Frame) -> float:
    """Where the middle of a text lies along the axis."""
    x, y = box_of(text).centroid.coords[0]
    return float(x * frame.axis[0] + y * frame.axis[1])


def _value(text: Text) -> float:
    return float(text.text.strip(" ±").replace(",", "."))
