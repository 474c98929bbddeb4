"""Two halves that show unlike bores: a stop, but where one is broken out in section and the other shows hidden lines.

What is broken out is drawn by full lines; the other half often leaves the groove there out, as nothing shows it.
"""

from collections.abc import Sequence

import shapely

from extractor.finding import Finding
from extractor.geometry.arcs import chords
from extractor.geometry.profile import points
from extractor.geometry.stretches import Stretch, stretches
from extractor.recess import remarks
from extractor.recess.lands import from_within
from extractor.recess.sides import HalfProfile
from extractor.viewing.outline import AXIS, Folded


def bore_read(folded: Folded, sides: Sequence[HalfProfile], pen: float) -> tuple[HalfProfile | None, list[Finding]]:
    """The half whose bore is meant, and what is said where two show unlike ones, the widest stretch of it.

    What is a bore in specks alone, as between the strokes of letters, is none. `pen`: so far straight lines may differ.
    """
    bored = [s for s in sides if s.half.bore and s.bore]
    if len(bored) < len(sides) or len(bored) == 1:
        return next(iter(bored), None), []
    pen = folded.pen if any(piece.bulge for s in bored for piece in s.bore) else pen
    one, two = (from_within(points(s.bore)) for s in bored)
    rows = stretches(one, two, pen)
    if not rows:
        return bored[0], []
    apart, front = max(rows, key=lambda s: s.area), max(z for z, _ in sides[0].turned.line)
    for mine, other in (bored, bored[::-1]):
        if all(_share(folded, mine, s) >= OPEN and _share(folded, other, s) <= SHUT for s in rows):
            return mine, [remarks.broken_out(folded, mine.sign, front, apart)]
    return bored[0], [remarks.unlike_bores(folded, sides[0].sign, front, apart)]


OPEN, SHUT = 0.99, 0.01
"""Shares of a bore's line, in the stretch, that full lines show in a half that is broken out there and in one that is
not: joints and crossing edges are narrower."""


def _share(folded: Folded, side: HalfProfile, apart: Stretch) -> float:
    """How much of a half's bore in a stretch is drawn by full lines."""
    line = shapely.LineString([(z, side.sign * r) for z, r in points(side.bore)])
    _, low, _, high = line.bounds
    line = shapely.intersection(line, shapely.box(apart.far, low, apart.near, high))
    laid = folded.laid
    laid = laid.pick(laid.label != AXIS) if laid is not None else None
    rows = zip(laid.ends.tolist(), laid.bulge.tolist(), strict=True) if laid is not None else ()
    full = [shapely.LineString(chords((a, b), (c, d), bulge)) for (a, b, c, d), bulge in rows]
    near = shapely.STRtree(full).query(line, "dwithin", folded.close)
    shown = shapely.union_all([full[k] for k in near.tolist()]).buffer(folded.close)
    return float(shapely.intersection(line, shown).length / line.length) if line.length else 0.0
