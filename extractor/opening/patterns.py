"""Patterns go before they are cut up: lines that fill a surface, ovals by the thousand, long curves round a hatch.

Rules: what goes costs much to work out and can be no outline. Each is a caution that says where it lies.
"""

from collections.abc import Sequence

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.opening.splines import Curve, Stroke
from extractor.opening.strokes import Chain, Conic, Lines
from extractor.sheet import Box, Source

MANY = 10_000
"""Points of one line or curve from which on it may be too many to work with: those of fewer cost little."""
THIN = 5e-5
"""Breadth of the thinnest pen as a share of the drawing's diagonal: 0.13 mm (ISO 128, from memory) on a sheet of A0 is
twice that."""
OVER = 3.0
"""A line that would draw its own box full so often, with that pen, is a surface filled in; none is outline."""
MOST_OVALS = 2_000
"""Whole ellipses of one sheet from which on they are a pattern: a picture of a part seen aslant has some dozens."""


def without_patterns(
    strokes: Sequence[tuple[Stroke, Source]], pen: float
) -> tuple[list[tuple[Stroke, Source]], list[Finding]]:
    """The strokes without patterns, and a caution for each pattern; `pen` is the breadth of the thinnest one.

    An oval is closed by itself and no part in its longitudinal view; a hatch fills what other lines bound.
    """
    ovals = {k for k, (stroke, _) in enumerate(strokes) if isinstance(stroke, Conic) and stroke.oval}
    kept, said = [], list[Finding]()
    if len(ovals) > MOST_OVALS:
        words = f"{len(ovals):,} whole ellipses were left out, the first at {{}}: no outline is made of those."
        said.append(_left_out(words, strokes[min(ovals)][0]))
    for k, (stroke, source) in enumerate(strokes):
        if said and k in ovals:
            continue
        words = _long(stroke, source, pen)
        if words:
            said.append(_left_out(words, stroke))
        else:
            kept.append((stroke, source))
    return kept, said


def _long(stroke: Stroke, source: Source, pen: float) -> str:
    """What is said of a stroke of so many points that it can't be outline, "" for any other."""
    if isinstance(stroke, Chain) and len(stroke.points) >= MANY and fills(stroke, pen):
        some = f"A line of {len(stroke.points):,} points at {{}}"
        return f"{some} runs to and fro so closely that it fills a surface; it was left out."
    if isinstance(stroke, Curve) and len(stroke.control) >= MANY and source.owner == "HATCH":
        return f"The border of a hatch at {{}} is a curve of {len(stroke.control):,} points; it was left out."
    return ""


def _left_out(words: str, stroke: Stroke) -> Finding:
    """The caution for a stroke, or the first of many, with its place put into the words."""
    x0, y0, x1, y1 = box(stroke)
    at: Point = (x0 + x1) / 2, (y0 + y1) / 2
    return Finding(Level.CAUTION, DrawingCode.LEFT_OUT, words.format(place_words(at)), at)


def fills(chain: Chain, pen: float) -> bool:
    """True if a pen of that breadth would draw the box of a line full, `OVER` times over, in going along it."""
    x0, y0, x1, y1 = box(chain)
    length = float(np.hypot(*np.diff(np.array(chain.points), axis=0).T).sum())
    return length * pen > OVER * (x1 - x0 + pen) * (y1 - y0 + pen)


def box(stroke: Stroke) -> Box:
    """The box around a stroke; generous for curves: a spline lies within its control points."""
    if isinstance(stroke, Chain):
        xs, ys = [p[0] for p in stroke.points], [p[1] for p in stroke.points]
        return min(xs), min(ys), max(xs), max(ys)
    if isinstance(stroke, Lines):
        (x0, y0), (x1, y1) = (some(stroke.ends.reshape(-1, 2), axis=0).tolist() for some in (np.min, np.max))
        return x0, y0, x1, y1
    if isinstance(stroke, Conic):
        rx, ry = abs(stroke.u[0]) + abs(stroke.v[0]), abs(stroke.u[1]) + abs(stroke.v[1])
        return stroke.centre[0] - rx, stroke.centre[1] - ry, stroke.centre[0] + rx, stroke.centre[1] + ry
    low, high = stroke.control.min(axis=0), stroke.control.max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


__all__ = ["MANY", "MOST_OVALS", "OVER", "THIN", "box", "fills", "without_patterns"]
