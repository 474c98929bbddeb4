"""Lines in pieces: those with a figure in a gap, and those that were drawn in several strokes, put together.

A size may stand in its dimension line, which is broken off on both sides of it (ISO 129-1 method 2, from memory; the
habit where drawings are in inches). Each piece hangs in the air beside the figure and runs on in line with the other.
Extension lines beside a part do so too where a size stands in it, but other lines end on those.
Pieces that touch are one line where nothing else passes the place: else one may end there, as lines in a chain do.
"""

import math
from collections.abc import Iterable, Iterator
from itertools import combinations

import numpy as np
import shapely

from extractor.geometry.joining import groups
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Text
from extractor.sizing.lettering.pointers import box_of, middle_of
from extractor.viewing.tips import Tips, tips_of

LONGEST = 24
"""Letters of a dimension's text at most; longer ones are notes."""

AIR = 1.5
"""Letter heights of air between a figure and either piece of its line, at most."""

IN_LINE = 2e-3
"""Sine of the angle by which two pieces of one line may be off."""

ASIDE = 0.75
"""Letter heights by which a line may pass beside the middle of its figure."""

HALF = 0.5
"""The middle of the gap may lie in this share of its figure, about its middle: how wide letters are is a guess."""


def put_together(strokes: Strokes, texts: Iterable[Text], near: float) -> tuple[Strokes, dict[int, frozenset[int]]]:
    """The strokes with parted lines as one stroke each, and for the label of each those of the pieces left out.

    `near` is the noding distance.
    """
    sizes = [t for t in texts if 0 < len(t.text) <= LONGEST and t.height > 0 and any(map(str.isdigit, t.text))]
    if not sizes or not len(strokes):
        return strokes, {}
    tips, ends, joined = tips_of(strokes, near), strokes.ends.copy(), dict[int, int]()
    for one, two in (*_touching(tips), *(pair for text in sizes for pair in _pieces(tips, text))):
        joined |= {one: two, two: one} if not {one, two} & joined.keys() else {}
    lines = groups((one // 2, two // 2) for one, two in joined.items())
    for first, *others in lines:
        outer = [tip for k in (first, *others) for tip in (2 * k, 2 * k + 1) if tip not in joined]
        ends[first] = tips.at[outer].reshape(-1)
    left = np.setdiff1d(np.arange(len(strokes)), [k for line in lines for k in line[1:]])
    label = strokes.label.tolist()
    rest = {label[first]: frozenset(label[k] for k in others) for first, *others in lines}
    return Strokes(ends, strokes.bulge, strokes.label).pick(left) if rest else strokes, rest


def _touching(tips: Tips) -> Iterator[tuple[int, int]]:
    """The tips of two straight strokes at one place that run on in line with one another, where nothing else passes."""
    # Told by counts first, as a row of grooves has thousands that meet.
    meet, alone = tips.corners, np.bincount(tips.pairs[0], minlength=len(tips.at)) == 1
    level = (meet.turn >= math.pi - IN_LINE) & (meet.one < meet.two) & alone[meet.one] & alone[meet.two]
    for one, two in zip(meet.one[level].tolist(), meet.two[level].tolist(), strict=True):
        if len(tips.near_by(tips.place(one), 2 * tips.near)) == 2:
            yield one, two


def _pieces(tips: Tips, text: Text) -> Iterator[tuple[int, int]]:
    """The facing tips of two straight strokes with a text in the gap between them, none where several may be."""
    box, air = box_of(text), AIR * text.height
    close = np.sort(tips.tree.query(box, predicate="dwithin", distance=air))
    inner = 2 * close + np.hypot(*(tips.at.reshape(-1, 2, 2)[close] - middle_of(text)).T).argmin(axis=0)
    near = shapely.distance(box, shapely.points(tips.at[inner])) <= air
    free = [t for t in inner[near].tolist() if tips.straight(t) and tips.free(t)]
    free = [t for t in free if not _is_met(tips, t // 2)]
    found = [pair for pair in combinations(free, 2) if _facing(tips, *pair, text)]
    if len(found) == 1 and not _filled(tips, *found[0]):
        yield found[0]


def _is_met(tips: Tips, k: int) -> bool:
    """True if another stroke ends on one between its ends: an extension line, on which a dimension line ends."""
    line, near, along = tips.tree.geometries[k], 2 * tips.near, tips.line(2 * k) / tips.length(2 * k)
    beside = tips.tree.query(line, predicate="dwithin", distance=near).tolist()
    others = [j for j in beside if j != k and abs(tips.toward(j, along)) < math.cos(IN_LINE)]
    ends = tips.at.reshape(-1, 2, 2)[others].reshape(-1, 2)
    mine = np.hypot(*(ends[:, None] - tips.at[2 * k : 2 * k + 2]).T).min(axis=0)
    return bool((shapely.dwithin(shapely.points(ends), line, near) & (mine > near)).any())


def _filled(tips: Tips, one: int, two: int) -> bool:
    """True if a third stroke runs through the gap between two: it is the line, and they are tails of its neighbours."""
    x, y = (tips.at[one] + tips.at[two]) / 2
    across = tips.near_by((float(x), float(y)), 2 * tips.near).tolist()
    along = tips.line(one) / tips.length(one)
    return any(tips.straight(2 * k) and abs(tips.toward(k, along)) >= math.cos(IN_LINE) for k in across)


def _facing(tips: Tips, one: int, two: int, text: Text) -> bool:
    """True if two strokes run away from a text in line with one another, one to either side of it."""
    gap = tips.at[two] - tips.at[one]
    wide = float(np.hypot(*gap))
    gap = gap / wide
    leans = [tips.line(tip) / np.hypot(*tips.line(tip)) for tip in (one, two)]
    in_line = all(abs(float(gap[0] * way[1] - gap[1] * way[0])) <= IN_LINE for way in leans)
    away = float(leans[0] @ gap) < 0 < float(leans[1] @ gap)
    middle: Floats = np.array(middle_of(text))
    spot, (off, up) = middle - tips.at[one], text.seen((tips.at[one] + tips.at[two]) / 2 - middle + text.at)
    most = ASIDE * text.height
    within = 0 < float(spot @ gap) < wide and abs(float(gap[0] * spot[1] - gap[1] * spot[0])) <= most
    return in_line and away and (within or (abs(off) <= HALF * text.width / 2 and abs(up) <= most))
