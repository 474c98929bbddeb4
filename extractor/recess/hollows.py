"""Two halves that show unlike bores: a stop, but where one is broken out in section and the other shows hidden lines.

What is broken out is drawn by full lines; the other half often leaves the groove there out, as nothing shows it. Where
both halves show the wider bore by hidden lines, what one of them shows within it is a hole or a slot: a bore hides none
of its own.
"""

from collections.abc import Sequence

import shapely

from extractor.finding import Finding
from extractor.geometry.arcs import chords
from extractor.geometry.network import Strokes
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
        full = [[_share(folded, one, s, one.sign, folded.laid) for one in (mine, other)] for s in rows]
        if all(here >= OPEN and there <= SHUT for here, there in full):
            return mine, [remarks.one_bore(folded, mine.sign, front, apart, BROKEN_OUT)]
        wider = all((s.one > s.two) is (mine is bored[0]) for s in rows)
        if wider and all(_share(folded, mine, s, other.sign, folded.hidden) >= OPEN for s in rows):
            return mine, [remarks.one_bore(folded, other.sign, front, apart, WITHIN)]
    return bored[0], [remarks.unlike_bores(folded, sides[0].sign, front, apart)]


BROKEN_OUT = "the full lines were read, as those of a view broken out in section there; compare with the print."
WITHIN = (
    "hidden lines show the wider one in both, which was read; what lies within it is a hole or a slot; compare with "
    "the print."
)
"""Why the one of two bores was read."""

OPEN, SHUT = 0.99, 0.01
"""Shares of a bore's line, in the stretch, that full lines show in a half that is broken out there and in one that is
not: joints and crossing edges are narrower."""


def _share(folded: Folded, side: HalfProfile, apart: Stretch, sign: int, drawn: Strokes | None) -> float:
    """How much of a half's bore in a stretch is drawn by some strokes, in that half or mirrored in the other."""
    line = shapely.LineString([(z, sign * r) for z, r in points(side.bore)])
    _, low, _, high = line.bounds
    line = shapely.clip_by_rect(line, apart.far, low - folded.close, apart.near, high + folded.close)
    drawn = drawn.pick(drawn.label != AXIS) if drawn is not None else None
    rows = zip(drawn.ends.tolist(), drawn.bulge.tolist(), strict=True) if drawn is not None else ()
    full = [shapely.LineString(chords((a, b), (c, d), bulge)) for (a, b, c, d), bulge in rows]
    near = shapely.STRtree(full).query(line, "dwithin", folded.close)
    shown = shapely.union_all([full[k] for k in near.tolist()]).buffer(folded.close)
    return float(shapely.intersection(line, shown).length / line.length) if line.length else 0.0
