"""Lines with a figure in a gap: the two pieces of a dimension line, put together before it is looked for.

A size may stand in its dimension line, which is broken off on both sides of it (ISO 129-1 method 2, from memory; the
habit where drawings are in inches). Each piece hangs in the air beside the figure and runs on in line with the other.
"""

from collections.abc import Iterable, Iterator
from itertools import combinations

import numpy as np
import shapely

from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Text
from extractor.sizing.pointers import box_of
from extractor.viewing.tips import Tips, tips_of

LONGEST = 24
"""Letters of a dimension's text at most; longer ones are notes."""

AIR = 1.5
"""Letter heights of air between a figure and either piece of its line, at most."""

IN_LINE = 2e-3
"""Sine of the angle by which two pieces of one line may be off."""

ASIDE = 0.75
"""Letter heights by which a line may pass beside the middle of its figure."""


def put_together(strokes: Strokes, texts: Iterable[Text], near: float) -> tuple[Strokes, dict[int, int]]:
    """The strokes with parted lines as one stroke each, and for the label of each that of the piece that was left out.

    `near` is the noding distance.
    """
    sizes = [t for t in texts if 0 < len(t.text) <= LONGEST and t.height > 0 and any(map(str.isdigit, t.text))]
    if not sizes or not len(strokes):
        return strokes, {}
    tips, ends, gone = tips_of(strokes, near), strokes.ends.copy(), dict[int, int]()
    for one, two in (pair for text in sizes for pair in _pieces(tips, text)):
        if not {one // 2, two // 2} & {*gone, *gone.values()}:
            ends[one // 2] = np.concatenate([tips.at[one ^ 1], tips.at[two ^ 1]])
            gone[one // 2] = two // 2
    if not gone:
        return strokes, {}
    left = np.setdiff1d(np.arange(len(strokes)), list(gone.values()))
    label = strokes.label.tolist()
    return Strokes(ends, strokes.bulge, strokes.label).pick(left), {label[a]: label[b] for a, b in gone.items()}


def _pieces(tips: Tips, text: Text) -> Iterator[tuple[int, int]]:
    """The facing tips of two straight strokes with a text in the gap between them, none where several may be."""
    box, air = box_of(text), AIR * text.height
    middle: Floats = np.array(box.centroid.coords[0])
    close = sorted(tips.tree.query(box, predicate="dwithin", distance=air).tolist())
    inner = [2 * k + int(np.argmin(np.hypot(*(tips.at[2 * k : 2 * k + 2] - middle).T))) for k in close]
    near = shapely.distance(box, shapely.points(tips.at[inner])) <= air
    free = [t for t, fit in zip(inner, near, strict=True) if fit and tips.straight(t) and tips.free(t)]
    found = [pair for pair in combinations(free, 2) if _facing(tips, *pair, middle, ASIDE * text.height)]
    if len(found) == 1:
        yield found[0]


def _facing(tips: Tips, one: int, two: int, middle: Floats, aside: float) -> bool:
    """True if two strokes run away from a place in line with one another, one to either side of it."""
    gap = tips.at[two] - tips.at[one]
    wide = float(np.hypot(*gap))
    gap = gap / wide
    leans = [tips.line(tip) / np.hypot(*tips.line(tip)) for tip in (one, two)]
    in_line = all(abs(float(gap[0] * way[1] - gap[1] * way[0])) <= IN_LINE for way in leans)
    away = float(leans[0] @ gap) < 0 < float(leans[1] @ gap)
    spot = middle - tips.at[one]
    return (
        in_line and away and 0 < float(spot @ gap) < wide and abs(float(gap[0] * spot[1] - gap[1] * spot[0])) <= aside
    )
