"""What end views say of what the view from the side leaves open: rings, holes and pockets in a face, and flats.

Seen along the axis a ring is two circles about it, a hole or a pocket a figure beside it, and a flat ends in corners on
the circle of its land. Across the axis all of them lie as the view from the side has them (ISO 5456-2, from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.recess import remarks
from extractor.recess.crossings import covers, upright_edges
from extractor.recess.milled import MayBeFlats, told_flats
from extractor.recess.recognise import Found, with_grooves
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess
from extractor.sheet import Floats, Pen, Sheet
from extractor.values import dataclass
from extractor.viewing.alike import ONE_SIZE
from extractor.viewing.clusters import Ink
from extractor.viewing.end_views import at_scale, concentric, one_size, seen_lands
from extractor.viewing.outline import Folded
from extractor.viewing.views import View

PAIR = 2
"""A flat has two corners on the circle of its land."""

FLOOR = 2
"""The corners of an outline that one floor has."""


ROUND = 720
"""Points of a circle: the highest of them lies below its top by no more than a hundred-thousandth of the radius."""


@dataclass(frozen=True)
class EndSeen:
    """An end view at the scale of the view: radii of its circles, figures aside as (low, high) across the axis.

    `hidden`: radii of its circles of hidden lines.
    `corners`: of each end of a line how far it lies from the middle and across the axis, float (n, 2).
    """

    at: Point
    rings: tuple[float, ...]
    figures: tuple[tuple[float, float], ...]
    corners: Floats
    hidden: tuple[float, ...]

    def corners_at(self, m: Measured, near: float) -> int:
        """The fewer corners on one side of the middle that lie on the land beside a recess, as high as its floor."""
        on_land = np.abs(self.corners[:, 0] - m.mouth) <= near
        return min(int((on_land & (np.abs(self.corners[:, 1] - s * m.floor) <= near)).sum()) for s in (1, -1))

    def has(self, radius: float) -> bool:
        """True if it has a circle of a radius."""
        return any(one_size(ring, radius) for ring in self.rings)


def ends_seen(sheet: Sheet, ink: Ink, view: View, found: Found) -> list[EndSeen]:
    """The end views of a part: circles about one place on its axis, one of them as large as a land."""
    edges, seen = {r for _, r in found.outline}, list[EndSeen]()
    for middle, drawn in concentric(sheet, view):
        rings = at_scale(ink, view, middle, drawn, edges)
        if any(one_size(ring, r) for ring in rings for r in edges):
            reach, times = (1 + ONE_SIZE) * max(drawn), max(drawn) / max(rings)
            rows = [view.axis.fold(rim)[:, 1] / times for rim in _aside(sheet, ink, middle, reach)]
            ends = sheet.segments.ends.reshape(-1, 2)
            away = np.hypot(*(ends - middle).T)
            corners = np.column_stack([away, view.axis.fold(ends)[:, 1]])[away <= reach] / times
            figures = tuple((float(row.min()), float(row.max())) for row in rows)
            near = ONE_SIZE * max(drawn)
            dashed = (c for c in sheet.circles if c.source.pen is Pen.HIDDEN and math.dist(c.centre, middle) <= near)
            seen.append(EndSeen(middle, tuple(rings), figures, corners, tuple(c.radius / times for c in dashed)))
    return seen


def _aside(sheet: Sheet, ink: Ink, middle: Point, reach: float) -> list[Floats]:
    """The rims of figures within so far of a place that do not go round it, float (n, 2)."""
    beside = [c for c in sheet.circles if c.is_edge and c.radius < math.dist(c.centre, middle) <= reach - c.radius]
    turns = np.linspace(0.0, math.tau, ROUND, endpoint=False)
    rims = [c.centre + c.radius * np.column_stack([np.cos(turns), np.sin(turns)]) for c in beside]
    for cluster in (c for c in ink.clusters if c.closed):
        low, high = cluster.box[:2], cluster.box[2:]
        round_it = (low < middle).all() and (high > middle).all()
        if not round_it and np.hypot(*(cluster.boundary - middle).T).max() <= reach:
            rims.append(cluster.boundary)
    return rims


def faces_held(folded: Folded, found: Found, ends: Sequence[EndSeen]) -> tuple[Found, list[Finding]]:
    """The part without recesses in a face that are no rings, and what is said of them."""
    told = [(f, _told(folded, found, f, ends)) for f in found.faces]
    odd = [finding for _, finding in told if finding is not None]
    return (replace(found, faces=tuple(f for f, finding in told if finding is None)) if odd else found), odd


def flats_held(folded: Folded, found: Found, ends: Sequence[EndSeen]) -> tuple[Found, list[Finding]]:
    """The part without recesses that an end view shows as flats, and with those without edges that it shows as rings.

    The floor of a ring is a hidden circle there, which no other edge of the part may be.
    """
    if not ends:
        return found, []
    kept, rings, told = list[MayBeFlats](), list[Measured](), list[Finding]()
    for one in found.milled:
        m = one.recess
        at = next((end.at for end in ends if end.corners_at(m, folded.close) >= PAIR), None)
        own = sum(abs(r - m.floor) <= folded.close for _, r in found.outline) <= FLOOR
        if at is not None:
            why = f"The end view at {place_words(at)} has corners of flats at the land and the floor of"
            told.append(told_flats(folded, found.side, replace(one, marked=why, sure=True)))
        elif own and not one.marked and any(one_size(r, m.floor) for end in ends for r in end.hidden):
            rings.append(m)
        else:
            kept.append(one)
    return with_grooves(replace(found, milled=tuple(kept)), rings), told


def _told(folded: Folded, found: Found, f: FaceRecess, ends: Sequence[EndSeen]) -> Finding | None:
    """What is said of a recess in a face that is no ring, or may be none; None for a ring."""
    if any(end.has(f.outer) or end.has(f.inner) for end in ends):
        return None
    near = folded.close
    for end in ends:
        if any(_spans(figure, f, near, cut=not found.dashed) for figure in end.figures):
            return _unclear(folded, found, f, f"is a figure beside the middle in the end view at {place_words(end.at)}")
    shown = next((end for end in ends if _shows(end, found, back=f.z_face < f.z_floor)), None)
    if shown is not None:
        words = f"has no circle in the end view at {place_words(shown.at)}"
        return _unclear(folded, found, f, words, stops=True)
    if _hidden_floor_ends(folded, found, f):
        return _unclear(folded, found, f, "has a floor of hidden lines that does not run across the axis", stops=True)
    return None


def _spans(figure: tuple[float, float], f: FaceRecess, near: float, *, cut: bool) -> bool:
    """True for a figure that lies across the axis as a recess in a face does, to both sides beyond one in section.

    A section cuts a hole beside its middle, where it is less wide.
    """
    low, high = sorted(map(abs, figure))
    within, beyond = f.inner - low, high - f.outer
    as_wide = max(abs(within), abs(beyond)) <= near
    return figure[0] * figure[1] > 0 and (as_wide or (cut and within > 0 and abs(within - beyond) <= near))


def _shows(end: EndSeen, found: Found, *, back: bool) -> bool:
    """True for the end view of one end of a part: it has the lands seen from there, and not those of the other."""
    mine, other = (
        seen_lands(line) for line in (found.outline[:: -1 if back else 1], found.outline[:: 1 if back else -1])
    )
    return all(map(end.has, mine)) and not all(map(end.has, other))


def _hidden_floor_ends(folded: Folded, found: Found, f: FaceRecess) -> bool:
    """True if hidden lines draw the floor of a recess in a face and none goes on to the axis, as of a ring."""
    if folded.hidden is None:
        return False
    near, ends = folded.close, folded.hidden.ends[folded.hidden.bulge == 0]
    at_floor = ends[np.abs(ends[:, [0, 2]] - f.z_floor).max(axis=1) <= near][:, [1, 3]] * found.side
    rows = np.column_stack([np.full(len(at_floor), f.z_floor), np.sort(at_floor, axis=1).clip(0.0)])
    drawn = covers(rows, f.z_floor, f.inner, f.outer, near)
    every = np.concatenate([rows, upright_edges(folded, found.side)])
    return drawn and not covers(every, f.z_floor, 0.0, f.inner, near)


def _unclear(folded: Folded, found: Found, f: FaceRecess, why: str, *, stops: bool = False) -> Finding:
    at = folded.place(f.z_floor, found.side * (f.outer + f.inner) / 2)
    words = f"The recess in the face at {place_words(at)} {why}: it was not read as a groove"
    if stops:
        words += "; draw its circles there or the part in section if it is a ring, or accept it if it is none"
    return Finding(Level.STOP if stops else Level.CAUTION, DrawingCode.FACE_UNCLEAR, f"{words}.", at)


def answered(told: Sequence[Finding], folded: Folded, found: Found, ends: Sequence[EndSeen]) -> list[Finding]:
    """What was told of a view, as cautions where end views show what is meant."""
    lands = _milled(folded, found, ends)
    pits = next((end.at for end in ends if _explains(folded, found, end)), None)
    kept = []
    for one in told:
        if lands is not None and one.code == DrawingCode.LANDS_DISAGREE and one.at == lands.at:
            kept.append(lands)
        elif pits is not None and one.stops and one.code == DrawingCode.FACE_UNCLEAR:
            where = f"the figures beside the middle in the end view at {place_words(pits)}"
            words = f"The hidden lines behind the face are those of {where}; they were not read as grooves."
            kept.append(Finding(Level.CAUTION, DrawingCode.FACE_UNCLEAR, words, one.at))
        else:
            kept.append(one)
    return kept


def _milled(folded: Folded, found: Found, ends: Sequence[EndSeen]) -> Finding | None:
    """The caution for lands that two halves show unlike, if an end view has the corners of a flat or a slot at each."""
    widest = max(found.unlike, key=lambda s: s.area, default=None)
    line, near = np.array(found.outline), folded.close
    for s in found.unlike:
        high, low = max(s.one, s.two), min(s.one, s.two)
        read = float(np.interp(-(s.near + s.far) / 2, -line[:, 0], line[:, 1]))
        away = (np.abs(np.abs(end.corners) - (high, low)).max(axis=1) <= near for end in ends)
        if read < high - near or not any(int(corners.sum()) >= PAIR for corners in away):
            return None
    if widest is None:
        return None
    front = max(z for z, _ in found.halves[0].outline)
    return remarks.milled_land(folded, found.halves[0].sign, front, widest)


def _explains(folded: Folded, found: Found, end: EndSeen) -> bool:
    """True for an end view with figures aside that has an edge for each hidden line that begins at an end face."""
    if folded.hidden is None or not end.figures:
        return False
    near, faces = folded.close, (found.outline[0][0], found.outline[-1][0])
    rows = folded.hidden.ends[folded.hidden.bulge == 0]
    level = np.abs(rows[:, 1] - rows[:, 3]) <= near
    begins = (np.abs(rows[:, [0, 2], None] - faces) <= near).any(axis=(1, 2))
    known = np.array([*(r for figure in end.figures for r in figure), *(s * r for r in end.rings for s in (1, -1))])
    heights = rows[level & begins, 1]
    return len(heights) > 0 and bool((np.abs(heights[:, None] - known).min(axis=1) <= near).all())
