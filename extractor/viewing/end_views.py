"""What stands in line with a view and shows its end or its edge: only a round end is that of a turned part.

In the projections of ISO 5456-2 (from memory) an end view lies on the axis beside the view and is as high as the view.
"""

import math
from collections.abc import Sequence, Set
from itertools import accumulate, pairwise

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.part import ProfilePoints
from extractor.sheet import Circle, Floats, Pen, Sheet
from extractor.viewing.alike import ONE_PLACE, ONE_SIZE, SQUARE
from extractor.viewing.axis import Axis, centre_segments
from extractor.viewing.clusters import Cluster, Ink
from extractor.viewing.pictures import is_picture
from extractor.viewing.round_ends import is_round, round_about
from extractor.viewing.views import View

SAME_RING = 5e-3
"""A circle is that of an edge within this share of its radius: each view was drawn by itself."""

MISTAKEN = 0.2
"""A circle whose radius is off a land's by more than this share of it is a hole's, not that land drawn wrongly."""

ASTRAY = 0.5
"""A circle beside the axis by more than this share of its radius is no end view of the part."""

SCALES = (1.0, 2.0, 2.5, 4.0, 5.0)
"""Leading digits of one scale over another, each 1, 2 or 5 times a power of ten (ISO 5455, from memory)."""

OWN = 1.5
"""A circle's own centre line ends within so many radii of its middle."""


def odd_end(ink: Ink, sheet: Sheet, view: View, known: frozenset[int]) -> Finding | None:
    """The stop for an end view that is not round or not about the axis, or a view of a plate's edge.

    Clusters in `known` are views themselves.
    """
    rims = {k: ink.boundary(c) for k, c in enumerate(ink.clusters) if c.closed and k not in known}
    for k, cluster in enumerate(ink.clusters):
        if k in rims:
            rim = rims[k]
            odd = as_large(sheet, view, rim, plain=cluster.plain) and not is_round(rim)
            if odd and not _is_piece(view, rim, [*rims.values()]) and not is_picture(ink, sheet.segments, cluster):
                return _not_round(view, *round_about(rim))
            if cluster.plain and _is_edge(view, rim) and not _lettered(sheet, cluster):
                return _edge(round_about(rim)[0])
    for circle in sheet.circles:
        if _off_axis(view, circle):
            return _eccentric(circle.centre)
    return None


def _is_piece(view: View, rim: Floats, rims: Sequence[Floats]) -> bool:
    """True if a figure makes a round with another and what lies between them, no wider than the part.

    So a hole across the part, or two, leaves its section in pieces.
    """
    for other in rims:
        middle, radius = round_about(np.vstack([rim, other]))
        if radius <= (1 + ONE_SIZE) * view.reach:
            inside = [one for one in rims if np.hypot(*(one - middle).T).max() <= (1 + ONE_PLACE) * radius]
            if len(inside) > 1 and is_round(np.vstack(inside)):
                return True
    return False


def circles_differ(
    sheet: Sheet, view: View, outline: ProfilePoints, hollow: Set[float], ink: Ink, but: Set[Point]
) -> Finding | None:
    """Where an end view of circles differs from the view laid; None if nowhere.

    `outline` is as drawn, `hollow` the radii of the bore and of recesses in the end faces. What `ink` has along the
    axis in the view, the root of a thread or a bore that was not read, explains a circle as well.

    A circle that no edge seen from an end has, near a land seen from there that has no circle, is that land's: an end
    view may leave out a step and show a hole that the view hides, but it draws no land with another diameter, nor the
    edge of a land's chamfer without the land. Which end it shows is not said: one with as many lands as there are
    circles, else the one that fits better. Circles of which none fits are an end view where centre lines cross. Any
    other circle that nothing in the view explains is told: a hole that was not read, or a part that would be wider.
    `but` are the middles of cross-sections.
    """
    known = {r for line in (outline, outline[::-1]) for r in accumulate((r for _, r in line), max)}
    known |= hollow
    edges = {r for _, r in outline} | hollow
    for middle, drawn_as in concentric(sheet, view):
        if any(math.dist(middle, at) <= ONE_PLACE * view.size for at in but):
            continue
        rings = at_scale(ink, view, middle, drawn_as, edges)
        fits = any(one_size(ring, r) for ring in rings for r in known)
        aside = _aside(sheet, middle, max(drawn_as), edges) if fits else None
        if aside is not None:
            return _eccentric_ring(middle, aside)
        if not fits and not _crossed(sheet, middle, ONE_PLACE * view.size):
            continue
        strange = [ring for ring in rings if not any(one_size(ring, r) for r in known)]
        ends = [seen_lands(line) for line in (outline, outline[::-1])]
        ends = [lands for lands in ends if len(lands) == len(rings)] or ends
        bare = min(([r for r in lands if not any(one_size(g, r) for g in rings)] for lands in ends), key=len)
        pairs = [(g, r) for g in strange for r in bare if abs(g - r) <= MISTAKEN * r]
        pairs += [(g, r) for r in bare for g in _edges_of(r, rings, ends, hollow) if g not in strange]
        if pairs:
            return _circle_differs(view, middle, *max(pairs))
        drawn = {r for _, r in outline} | _levels(ink, view)
        more = [ring for ring in strange if not any(one_size(ring, r) for r in drawn)]
        if more and max(more) > view.reach:
            return _circle_more(view, middle, max(more), fits)
        if more:
            return _rings_unread(middle, more, bool(hollow))
    return None


def at_scale(ink: Ink, view: View, middle: Point, rings: list[float], edges: Set[float]) -> list[float]:
    """The circles of an end view at the scale of the view, as which more of them are edges of the part than as drawn.

    The greatest is the part's outline, unless that is drawn round it as no circle.
    """
    times = max(rings) / view.reach
    digits = times / math.pow(10, math.floor(math.log10(times) + SAME_RING))
    told = next((times / digits * scale for scale in SCALES if one_size(digits, scale)), 1.0)
    scaled = [ring / told for ring in rings]
    if _count_in(edges, scaled) <= _count_in(edges, rings):
        return rings
    away = np.hypot(*(ink.strokes.ends.reshape(-1, 2) - middle).T)
    round_it = (away > (1 + SAME_RING) * max(rings)) & (away <= (1 + ONE_SIZE) * view.reach)
    return rings if round_it.any() else scaled


def _count_in(edges: Set[float], rings: Sequence[float]) -> int:
    """How many of some circles are of such a size."""
    return sum(any(one_size(ring, r) for r in edges) for ring in rings)


def _aside(sheet: Sheet, middle: Point, reach: float, edges: Set[float]) -> Circle | None:
    """A circle as large as an edge of the part, round the middle of its end view and within that, about another place.

    A hole beside the axis, on the circle of a flange's bolts, goes round no middle.
    """
    for circle in sheet.circles:
        off, radius = math.dist(circle.centre, middle), circle.radius
        round_it = ONE_SIZE * radius < off < radius and off + radius <= (1 + ONE_SIZE) * reach
        if round_it and circle.is_edge and any(one_size(radius, r) for r in edges):
            return circle
    return None


def _levels(ink: Ink, view: View) -> set[float]:
    """How far from the axis lines run along it in a view."""
    ends = ink.strokes.ends[view.covering(ink.strokes.ends[:, :2]) & view.covering(ink.strokes.ends[:, 2:])]
    a, b = view.axis.fold(ends[:, :2]), view.axis.fold(ends[:, 2:])
    level = np.abs(a[:, 1] - b[:, 1]) <= SAME_RING * np.abs(a[:, 0] - b[:, 0])
    return set(np.abs(a[level, 1]).tolist())


def _edges_of(land: float, rings: Sequence[float], ends: Sequence[Sequence[float]], hollow: Set[float]) -> list[float]:
    """The circles that are of no land and of no hollow, with this land the next larger one: its chamfer's edge."""
    lands = {r for line in ends for r in line}
    edges = [g for g in rings if not any(one_size(g, r) for r in (*lands, *hollow))]
    return [g for g in edges if (1 - MISTAKEN) * land <= g < land == min((r for r in lands if r > g), default=0.0)]


def of_end_view(sheet: Sheet, line: Axis, view: View) -> bool:
    """True if a line across a view's axis is that of a circle clear of the view, of whatever size.

    It runs through the circle's middle, where another centre line crosses it, and hardly out of it.
    """
    near, clear = ONE_PLACE * view.size, (c for c in sheet.circles if c.is_edge and view.about(c)[1])
    return any(_is_own(line, c, near) and _crossed(sheet, c.centre, near) for c in clear)


def _is_own(line: Axis, circle: Circle, near: float) -> bool:
    """True for a line through the middle of a circle that is hardly longer than that."""
    along, off = line.place(circle.centre)
    far = max((abs(end - along) for span in line.drawn for end in span), default=math.inf)
    return far <= OWN * circle.radius and abs(off) <= near


def without_holes(sheet: Sheet, ink: Ink, found: Sequence[View]) -> list[View]:
    """The views but those that lie in an end view, as a hole across the part does there; all if nothing else is left.

    That is a circle with centre lines that cross in its middle, or one on a view's axis and as high as that. Nor is a
    figure clear of its lines half a part.
    """
    edges = [c for c in sheet.circles if c.is_edge]
    ends = [c for c in edges if _crossed(sheet, c.centre, ONE_PLACE * c.radius) or any(_is_end(v, c) for v in found)]
    reach = {c: (1 + ONE_PLACE) * c.radius for c in ends}
    left = []
    for view in found if ends else ():
        rim = np.vstack([ink.boundary(ink.clusters[k]) for k in view.members])
        away = {c: np.hypot(*(rim - c.centre).T) for c in ends}
        own = (c for c in ends if not view.touches and _is_own(view.axis, c, ONE_PLACE * view.size))
        apart = any(away[c].min() > c.radius for c in own)
        left += [] if apart or any(away[c].max() <= far for c, far in reach.items()) else [view]
    return left or list(found)


def _is_end(view: View, circle: Circle) -> bool:
    """True for a circle clear of a view of both halves, on its axis and as large as it is high."""
    (off, clear), apart = view.about(circle), abs(circle.radius - view.reach)
    return view.halves == "both" and clear and off <= ONE_PLACE * view.size and apart <= ONE_SIZE * view.reach


def concentric(sheet: Sheet, view: View) -> list[tuple[Point, list[float]]]:
    """The visible circles on the axis clear of the view, by their common middle: their radii."""
    found: dict[Point, list[float]] = {}
    for circle in sheet.circles:
        off, clear = view.about(circle)
        if circle.source.pen is Pen.SOLID and clear and off <= ONE_PLACE * view.size:
            middle = round(circle.centre[0], 6) + 0.0, round(circle.centre[1], 6) + 0.0
            found.setdefault(middle, []).append(circle.radius)
    return list(found.items())


def _crossed(sheet: Sheet, at: Point, near: float) -> bool:
    """True if centre lines cross at a place, as they do in the middle of an end view."""
    ends = sheet.segments.ends[centre_segments(sheet.segments)]
    ends = ends[shapely.distance(shapely.linestrings(ends.reshape(-1, 2, 2)), shapely.Point(at)) <= near]
    (x, y), size = (ends[:, 2:] - ends[:, :2]).T, np.hypot(*(ends[:, 2:] - ends[:, :2]).T)
    return bool((np.abs(np.outer(x, y) - np.outer(y, x)) > math.sin(SQUARE) * np.outer(size, size)).any())


def one_size(one: float, two: float) -> bool:
    """True for two radii of one edge, as each view was drawn by itself."""
    return abs(one - two) <= SAME_RING * max(one, two)


def seen_lands(line: ProfilePoints) -> list[float]:
    """The radii of the lands that show when a part is seen from where its outline begins."""
    seen: list[float] = []
    for (z0, r0), (z1, r1) in pairwise(line):
        if one_size(r0, r1) and z0 != z1 and r0 > max(seen, default=0.0) * (1 + SAME_RING):
            seen.append(r0)
    return seen


def _circle_differs(view: View, at: Point, ring: float, land: float) -> Finding:
    """A stop where the part would be wider, a caution elsewhere."""
    words = (
        f"The end view at {place_words(at)} has a circle {2 * ring:.5g} across and none of {2 * land:.5g}, as "
        "the view that was read has it there"
    )
    if ring > view.reach:
        words += ": one of the two is wrong; put the drawing right, or accept it if the circle is something else."
        return Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at)
    return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, f"{words}; see which is right.", at)


def _circle_more(view: View, at: Point, ring: float, fits: bool) -> Finding:
    """A stop where another circle there is one of the part's, so that it is the part's end view for certain."""
    words = (
        f"The end view at {place_words(at)} has a circle {2 * ring:.5g} across, and the view that was read is nowhere "
        f"wider than {2 * view.reach:.5g}"
    )
    if not fits:
        return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, f"{words}; see whether it shows this part.", at)
    words += ": one of the two is wrong; put the drawing right, or accept it if the circle is something else."
    return Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at)


def _rings_unread(at: Point, rings: Sequence[float], bored: bool) -> Finding:
    sizes = " and ".join(f"{2 * ring:.5g}" for ring in sorted(rings))
    circles = "a circle" if len(rings) == 1 else "circles"
    words = f"The end view at {place_words(at)} has {circles} {sizes} across that the view read shows nothing of"
    if bored:
        return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, f"{words}; see which is right.", at)
    words += ": a bore, or a groove in the face, which was not read; a section would show how deep it is."
    return Finding(Level.CAUTION, DrawingCode.FACE_UNCLEAR, words, at)


def as_large(sheet: Sheet, view: View, rim: Floats, *, plain: bool) -> bool:
    """True for a figure in line with a view that may be its end: as high, or in a circle as large; not as long.

    As high is what reaches as far on both sides of the axis; a detail may do so by chance, so it has its middle on it.
    Beside half a view as high is a `plain` rectangle on that half: half a round end is no rectangle.
    With centre lines that cross there it may reach out farther, as a foot does. One as long as the view is the view
    again; but a `plain` rectangle shows no part that has anything to be cut.
    """
    along, across = view.axis.fold(rim).T
    clear = along.min() > view.high or along.max() < view.low
    near = ONE_SIZE * 2 * view.reach
    again = not plain and abs(float(np.ptp(along)) - (view.high - view.low)) <= ONE_SIZE * view.size
    middle, radius = round_about(rim)
    over = across.max() - view.reach, -across.min() - view.reach
    if plain and view.halves != "both" and min(abs(across.min()), abs(across.max())) <= near / 2:
        large = min(map(abs, over)) <= near
    elif abs(float(view.axis.fold(np.array([middle]))[0, 1])) <= near / 2:
        large = max(map(abs, over)) <= near or abs(radius - view.reach) <= near / 2
    else:
        amid = view.axis.unfold(float(along.min() + along.max()) / 2, 0.0)
        large = -near <= min(over) and max(over) <= view.reach and _crossed(sheet, amid, ONE_PLACE * view.size)
    return bool(clear and not again and large)


def _is_edge(view: View, rim: Floats) -> bool:
    """True for a figure just as long as the view, end above end with it, clear of it, and of another height."""
    along, across = view.axis.fold(rim).T
    ends = max(abs(along.min() - view.low), abs(along.max() - view.high))
    clear = float(np.abs(across).min()) > view.reach and across.min() * across.max() > 0
    other = abs(float(np.ptp(across)) - 2 * view.reach) > ONE_SIZE * 2 * view.reach
    return bool(ends <= ONE_PLACE * view.size and clear and other)


def _lettered(sheet: Sheet, cluster: Cluster) -> bool:
    """True if a text stands in a figure: then it is a frame or a table."""
    low, high = cluster.box[:2], cluster.box[2:]
    return any(bool((low <= t.at).all() and (t.at <= high).all()) for t in sheet.texts)


def _off_axis(view: View, circle: Circle) -> bool:
    """True for a circle as large as the part, beside the view, a little off its axis."""
    off, clear = view.about(circle)
    large = abs(circle.radius - view.reach) <= ONE_SIZE * view.reach
    return clear and large and ONE_SIZE * circle.radius < off < ASTRAY * circle.radius


def _not_round(view: View, at: Point, radius: float) -> Finding:
    """The stop for an end that is not round: nobody can answer for corners that stand out beyond the diameter read."""
    words = f"The figure at {place_words(at)} stands in line with the view, as large as its end, and is not round"
    if radius > (1 + ONE_SIZE) * view.reach:
        words += (
            f": its corners lie {2 * radius:.4g} across where the view is {2 * view.reach:.4g} high, so the part is a "
            "bar or a plate; take the figure away if it is something else."
        )
        return Finding(Level.STOP, DrawingCode.NOT_ROUND, words, at)
    words += (
        ": the part may be a bar; take the figure away if it is something else, or accept it if its flats are cut "
        "after turning."
    )
    return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, at)


def _edge(at: Point) -> Finding:
    words = (
        f"The rectangle at {place_words(at)} is as long as the view, stands in line with it and is not as "
        "high: the part is a plate, seen there from its edge; take the rectangle away if it is something else."
    )
    return Finding(Level.STOP, DrawingCode.NOT_ROUND, words, at)


def _eccentric_ring(middle: Point, ring: Circle) -> Finding:
    words = (
        f"The circle {2 * ring.radius:.5g} across in the end view at {place_words(middle)} stands "
        f"{math.dist(ring.centre, middle):.4g} beside the middle: what has it there is turned off centre; program the "
        "part by hand, or put the circle in the middle."
    )
    return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, ring.centre)


def _eccentric(at: Point) -> Finding:
    words = (
        f"The circle at {place_words(at)} is as large as the part and stands beside its axis: the part may be "
        "turned off centre; put the end view in line, or accept it."
    )
    return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, at)
