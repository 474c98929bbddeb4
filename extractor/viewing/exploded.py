"""Dimensions that were exploded into loose lines: which strokes are beside the matter.

A straight stroke with a number printed at its middle that equals its length is a dimension line, and the strokes that
meet its ends square to it are its extension lines. Strokes on a layer that is named for dimensions or texts are aside
too, but only as long as most of the sheet isn't: a layer's name alone is weak.
"""

import re

import numpy as np
import shapely

from extractor.sheet import Floats, Segments, Sheet, Text
from extractor.viewing.network import Strokes

ASIDE = frozenset({"dimension", "text", "border"})
"""Roles of layers whose strokes are beside the matter."""

NUMBER = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+")


def aside(sheet: Sheet, strokes: Strokes) -> frozenset[int]:
    """Labels of the strokes that belong to dimensions drawn as loose lines."""
    named = _named(sheet.segments, strokes)
    return frozenset(named | _measured(sheet, strokes))


def _named(segments: Segments, strokes: Strokes) -> set[int]:
    """Strokes on a layer named for dimensions or texts, none if that is most of what is drawn."""
    size = np.hypot(strokes.ends[:, 2] - strokes.ends[:, 0], strokes.ends[:, 3] - strokes.ends[:, 1])
    roles = np.array([segments.sources[s].role in ASIDE for s in segments.source[strokes.label]], dtype=bool)
    if size[roles].sum() > 0.7 * size.sum():
        return set()
    return set(strokes.label[roles].tolist())


def _measured(sheet: Sheet, strokes: Strokes) -> set[int]:
    """Dimension lines known by the number at their middle, with their extension lines."""
    middles = (strokes.ends[:, :2] + strokes.ends[:, 2:]) / 2
    sizes = np.hypot(*(strokes.ends[:, 2:] - strokes.ends[:, :2]).T)
    found: set[int] = set()
    for text in sheet.texts:
        for number in _numbers(text):
            like = np.flatnonzero((np.abs(sizes - number) <= 6e-3 * number) & (strokes.bulge == 0))
            away = np.hypot(*(middles[like] - np.array(text.at)).T)
            if not len(like) or away.min() > 0.2 * number + 4 * text.height:
                continue
            nearest = int(like[away.argmin()])
            feet = _square_at_ends(strokes, nearest)
            if len(feet) >= 2:
                found |= {int(strokes.label[nearest]), *feet}
    return found


def _numbers(text: Text) -> list[float]:
    """The numbers in a short text."""
    if len(text.text) > 40:
        return []
    return [n for n in (float(m.replace(",", ".")) for m in NUMBER.findall(text.text)) if n > 0]


def _square_at_ends(strokes: Strokes, k: int) -> set[int]:
    """Labels of straight strokes that pass through an end of stroke `k` square to it."""
    a, b = strokes.ends[k, :2], strokes.ends[k, 2:]
    size = float(np.hypot(*(b - a)))
    along = (b - a) / size
    found: set[int] = set()
    for tip in (a, b):
        off = shapely.distance(shapely.linestrings(strokes.ends.reshape(-1, 2, 2)), shapely.Point(tip))
        for j in np.flatnonzero((off <= 1e-4 * size) & (strokes.bulge == 0)).tolist():
            if j != k and _square(strokes.ends[j], along):
                found.add(int(strokes.label[j]))
    return found


def _square(ends: Floats, along: Floats) -> bool:
    """True if a stroke is square to a direction."""
    d = ends[2:] - ends[:2]
    return bool(abs(float(d @ along)) <= 1e-3 * float(np.hypot(*d)))
