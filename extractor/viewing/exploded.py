"""Dimensions and leaders drawn as loose lines: which strokes are beside the matter.

A straight stroke with a number printed at its middle that equals its length is a dimension line, and the strokes that
meet its ends square to it are its extension lines. Strokes on a layer that is named for dimensions or texts are aside
too, but only as long as most of the sheet isn't: a layer's name alone is weak.
"""

import math
import re
from collections.abc import Iterable

import numpy as np
import shapely

from extractor.geometry.network import Strokes
from extractor.sheet import Dimension, DimensionKind, Floats, Segments, Sheet, Text
from extractor.viewing.arrows import Arrows
from extractor.viewing.tips import Tips

ASIDE = frozenset({"dimension", "text", "border"})
"""Roles of layers whose strokes are beside the matter."""

MOST_LETTERS = 40
"""A longer text is a note, not a dimension's or a leader's."""

NUMBER = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+")


def aside(sheet: Sheet, strokes: Strokes, near: float, pointed: Arrows) -> frozenset[int]:
    """Labels of the strokes that belong to dimensions and leaders drawn as loose lines; `near`: the noding distance."""
    tips = Tips(strokes, near)
    measured = {
        k for _, line, feet in _dimension_lines(sheet, tips, pointed) for k in (int(strokes.label[line]), *feet)
    }
    named = _named(sheet.segments, strokes)
    return frozenset(named | measured | pointed.extensions | _leaders(sheet, tips))


def _leaders(sheet: Sheet, tips: Tips) -> set[int]:
    """Leaders: a line that carries a text and ends in the air, with the slanting one that leads to what is meant."""
    count = np.bincount(tips.pairs[0], minlength=len(tips.at))
    knees = np.flatnonzero((count == 1) & (count[np.arange(len(count)) ^ 1] == 0))
    start, d = tips.at[knees], tips.at[knees ^ 1] - tips.at[knees]
    size = np.hypot(*d.T)
    found: set[int] = set()
    for text in (t for t in sheet.texts if len(t.text) <= MOST_LETTERS and len(knees)):
        spot, near = np.array(text.at) - start, 2 * text.height
        along = (spot * d).sum(axis=1) / size
        off = np.abs(spot[:, 0] * d[:, 1] - spot[:, 1] * d[:, 0]) / size
        for k in np.flatnonzero((off <= near) & (along > -near) & (along < size + near)).tolist():
            found |= _leader(tips, int(knees[k]))
    return found


def _leader(tips: Tips, tip: int) -> set[int]:
    """The labels of a leader whose text stands on the stroke of a tip, its leg at that tip; none if it is none."""
    legs = tips.beside[tip]
    if not (tips.straight(tip) and tips.straight(legs[0])):
        return set()
    leg, shelf, foot = tips.line(legs[0]), tips.line(tip), legs[0] ^ 1
    cross = abs(float(leg[0] * shelf[1] - leg[1] * shelf[0])) / float(np.hypot(*leg) * np.hypot(*shelf))
    arrow = tips.beside.get(foot, [])
    if not 0.2 < cross < 0.98 or any(np.hypot(*tips.line(t)) > 0.2 * np.hypot(*leg) for t in arrow):
        return set()
    return {int(tips.strokes.label[t // 2]) for t in (tip, foot, *arrow)}


def _named(segments: Segments, strokes: Strokes) -> set[int]:
    """Strokes on a layer named for dimensions or texts, none if that is most of what is drawn."""
    size = np.hypot(strokes.ends[:, 2] - strokes.ends[:, 0], strokes.ends[:, 3] - strokes.ends[:, 1])
    roles = np.array([segments.sources[s].role in ASIDE for s in segments.source[strokes.label]], dtype=bool)
    if size[roles].sum() > 0.7 * size.sum():
        return set()
    return set(strokes.label[roles].tolist())


def loose_dimensions(sheet: Sheet, strokes: Strokes, near: float, pointed: Arrows) -> tuple[Dimension, ...]:
    """The dimensions drawn as loose lines, as if they were whole."""
    lines = _dimension_lines(sheet, Tips(strokes, near), pointed)
    ends = [(text, strokes.ends[line].tolist()) for text, line, _ in lines]
    return tuple(
        Dimension(DimensionKind.ALIGNED, ((x0, y0), (x1, y1)), 0.0, math.hypot(x1 - x0, y1 - y0), text.text)
        for text, (x0, y0, x1, y1) in ends
    )


def _dimension_lines(sheet: Sheet, tips: Tips, pointed: Arrows) -> Iterable[tuple[Text, int, set[int]]]:
    """Each text with the stroke that is as long as it says, and the labels of that one's extension lines.

    Where the sheet has arrow heads only strokes that end in one can be dimension lines.
    """
    strokes = tips.strokes
    middles = (strokes.ends[:, :2] + strokes.ends[:, 2:]) / 2
    sizes = np.hypot(*(strokes.ends[:, 2:] - strokes.ends[:, :2]).T)
    fit = strokes.bulge == 0
    if pointed.headed:
        fit &= np.isin(strokes.label, list(pointed.headed))
    for text in sheet.texts:
        for number in _numbers(text):
            like = np.flatnonzero((np.abs(sizes - number) <= 6e-3 * number) & fit)
            away = np.hypot(*(middles[like] - np.array(text.at)).T)
            if not len(like) or away.min() > 0.2 * number + 4 * text.height:
                continue
            nearest = int(like[away.argmin()])
            feet = _square_at_ends(tips, nearest)
            if len(feet) >= 2:
                yield text, nearest, feet


def _numbers(text: Text) -> list[float]:
    """The numbers in a short text."""
    if len(text.text) > MOST_LETTERS:
        return []
    return [n for n in (float(m.replace(",", ".")) for m in NUMBER.findall(text.text)) if n > 0]


def _square_at_ends(tips: Tips, k: int) -> set[int]:
    """Labels of straight strokes that pass through an end of stroke `k` square to it.

    One that others meet at both its ends is an edge of the outline that an arrow points to.
    """
    strokes = tips.strokes
    a, b = strokes.ends[k, :2], strokes.ends[k, 2:]
    size = float(np.hypot(*(b - a)))
    along = (b - a) / size
    found: set[int] = set()
    for tip in (2 * k, 2 * k + 1):
        off = shapely.distance(shapely.linestrings(strokes.ends.reshape(-1, 2, 2)), shapely.Point(tips.at[tip]))
        for j in np.flatnonzero((off <= 1e-4 * size) & (strokes.bulge == 0)).tolist():
            if j == k or not _square(strokes.ends[j], along):
                continue
            if any(tips.hangs(t, {k}) or t in tips.beside.get(tip, ()) for t in (2 * j, 2 * j + 1)):
                found.add(int(strokes.label[j]))
    return found


def _square(ends: Floats, along: Floats) -> bool:
    """True if a stroke is square to a direction."""
    d = ends[2:] - ends[:2]
    return bool(abs(float(d @ along)) <= 1e-3 * float(np.hypot(*d)))
