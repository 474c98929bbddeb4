"""The short sides of a figure in phantom lines that were drawn dash by dash: too few dashes to have a rhythm."""

from collections.abc import Sequence

import numpy as np
import shapely

from extractor.sheet import Floats, Pen, Segments
from extractor.viewing.dash_rhythms import EVEN

IN_LINE = 1e-3
"""Sine of the angle by which a dash goes on in line with the one before."""

AT_CORNER = 1e-3
"""Share of a gap within which two dashes meet at a corner."""


def going_on(segments: Segments, dashes: Sequence[int]) -> list[int]:
    """The plain strokes that go on from some dashes of phantom lines, in line over a gap or round a corner.

    None is longer than the longest of these, and no other line ends at either of its tips: an outline's lines do.
    """
    run = np.hypot(*(segments.ends[:, 2:] - segments.ends[:, :2]).T)
    gap, longest = _gap(segments.ends[list(dashes)]), float(run[list(dashes)].max())
    plain = segments.of(lambda s: s.pen is Pen.SOLID and not s.curve and s.owner in ("", "INSERT") and s.kind != "")
    plain &= (segments.bulge == 0) & (run > 0) & (run <= (1 + EVEN) * longest)
    tips = segments.ends.reshape(-1, 2)
    tree, known, fresh = shapely.STRtree(shapely.points(tips)), set(dashes), list(dashes)
    while fresh:
        ends = tips[[tip for k in fresh for tip in (2 * k, 2 * k + 1)]]
        near = tree.query(shapely.points(ends), "dwithin", (1 + EVEN) * gap)[1]
        maybe = {int(tip) // 2 for tip in np.unique(near)} - known
        fresh = [k for k in sorted(maybe) if plain[k] and _follows(tree, tips, k, known, gap)]
        known.update(fresh)
    return sorted(known - set(dashes))


def _gap(ends: Floats) -> float:
    """The gap between dashes: how far a tip lies from the nearest one of another, as most do."""
    tips = ends.reshape(-1, 2)
    away = [np.hypot(*(np.delete(tips, [k, k ^ 1], axis=0) - tip).T).min() for k, tip in enumerate(tips)]
    return float(np.median(away))


def _follows(tree: shapely.STRtree, tips: Floats, k: int, known: set[int], gap: float) -> bool:
    """True if one tip of a stroke goes on from known dashes and no other line needs the stroke.

    Where it ends, no line ends or two do that are none of them: a corner of the part, which is one without it.
    """
    led = False
    for tip in (2 * k, 2 * k + 1):
        way, after, strange = tips[tip] - tips[tip ^ 1], False, 0
        for other in tree.query(shapely.Point(tips[tip]), "dwithin", (1 + EVEN) * gap).tolist():
            apart, on = float(np.hypot(*(tips[other] - tips[tip]))), tips[other ^ 1] - tips[other]
            here, level = apart <= AT_CORNER * gap, _in_line(way, on) and apart >= (1 - EVEN) * gap
            strange += here and other // 2 not in known and other // 2 != k
            after |= other // 2 in known and (here or level)
        if strange == 1:
            return False
        led |= after and not strange
    return led


def _in_line(way: Floats, on: Floats) -> bool:
    """True for two vectors of one direction."""
    aside = abs(float(way[0] * on[1] - way[1] * on[0]))
    return aside <= IN_LINE * float(np.hypot(*way) * np.hypot(*on)) and float(way @ on) > 0
