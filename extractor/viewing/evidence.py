"""What says that a view shows a turned part: symmetry alone may be a plate, a rolled section or a bracket.

For: a centre line along the axis, edge lines right across it, a diameter sign on a dimension across it, an end-view
circle on it, a section in two halves, hidden lines on both sides. Against: centre lines that cross it, circles
beside it, and circles or a long hole along it where no diameter is printed. The diameter of a hole that is drawn says
nothing of the part: a plate's holes have theirs.
"""

import re
from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from extractor.geometry.boxes import box_of
from extractor.sheet import Circle, Dimension, DimensionKind, Floats, Pen, Segments, Sheet
from extractor.sizing.lettering.printed import parse
from extractor.values import dataclass
from extractor.viewing.alike import ALONG, ONE_PLACE, ONE_SIZE, ROUNDED, SAME, SQUARE
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import Cluster, Ink
from extractor.viewing.half_alone import is_one_sided
from extractor.viewing.views import NEAR_VIEW, View

DIAMETER = re.compile(r"[⌀Øø∅]|%%[cC]|\bdia\b|\bdiam|\bdia[.:]", re.IGNORECASE)
"""How a diameter is written; ISO 129-1 has the sign, the words are common practice."""

THREAD = re.compile(r"\b(?:M|TR|G)\s?\d|\b(?:UN[CFS]|UNEF|NPTF?|BS[WF])\b")
"""How a thread is written (ISO 261, ISO 2904, ISO 228-1, ASME B1.1, from memory)."""

RUNS_OUT = 0.01
"""A centre line runs out of a view by more than this share of its length (ISO 128-2: a little beyond, from memory)."""

ALL_ALONG = 0.9
"""One that doesn't run out is the axis if it is drawn along this share of the view."""

ON_AXIS = 5e-3
"""Share of the view's size within which a centre line, or the centre of a hole, lies on the axis."""

CLEAR = 1.001
"""A hole's circle is touched by no line within so many of its radii."""

RIGHT_ACROSS = 0.7
"""Share of the walls at which an edge line runs right across: chamfers and small steps are often drawn without."""

STRAY = 0.2
"""More than this share of the lines square to the axis stand away from it in a diagram of boxes."""

CROSSING = 1e-3
"""Share of the view's size within which an edge is square to the axis."""

SMALLEST_END = 0.1
"""An end view's circle has at least this share of the greatest radius: a smaller one is a centre hole elsewhere."""

OFF_AXIS = 0.1
"""A hole beside the axis is off it by more than this share of its own radius, whatever the view's size."""

ROW = 2
"""So many holes along an axis are a plate's: one may be a cross hole, or a centre hole seen from an end."""

ROUND_ENDED = 0.02
"""Share of half a long hole's width within which its rim keeps one distance from its middle line."""

HIDDEN_RUN = 0.02
"""Hidden lines of a bore run along at least this share of the view."""

SPELT = 0.3
"""Two letters of a word are no farther apart than this share of the largest figure that is none."""

IN_ROW = 0.1
"""Letters of one word lie in one row within this share of their height."""


@dataclass(frozen=True)
class Evidence:
    """What speaks for a turned part and what against, worded for a sentence.

    `holed`: circles show in it; `ringed`: a circle about its axis is as large as the part; `spanned`: a diameter sign
    stands on a dimension of its whole width; `signed`: a diameter that is no hole's is printed on the sheet.
    """

    centre_line: bool
    strong: tuple[str, ...]
    against: tuple[str, ...]
    holed: bool = False
    ringed: bool = False
    spanned: bool = False
    signed: bool = False

    @property
    def turned(self) -> bool:
        """True if the view shows that the part is turned."""
        return bool(self.strong) or (self.centre_line and not self.against)

    @property
    def plainly(self) -> bool:
        """True if a centre line along it and edges or sizes right across it show a turned part from the side."""
        across = {"edge lines right across", "a diameter sign"}
        return self.centre_line and not self.against and not across.isdisjoint(self.strong)

    @property
    def words(self) -> str:
        """What was found, worded for a sentence."""
        return ", ".join((["a centre line"] if self.centre_line else []) + list(self.strong)) or "symmetry alone"


def weigh(sheet: Sheet, ink: Ink, view: View, centres: Iterable[Axis]) -> Evidence:
    """Weigh what speaks for and against a turned part in one view."""
    centres = list(centres)
    holes = [c for c in sheet.circles if view.covers(c.centre) and _clear_inside(ink, c)]
    slots = [half for half in (_long_hole(c, view) for c in ink.clusters) if half is not None]
    bores = [2 * r for r in (*(c.radius for c in holes if not _as_large(c, view)), *slots)]
    strong = {
        "edge lines right across": _edges_across(ink, view),
        "a diameter sign": any(_says_diameter(d, view, bores) for d in sheet.dimensions),
        "an end-view circle": any(_end_view(c, view) or _as_large(c, view) for c in sheet.circles),
        "a section in two halves": _section(ink, view) and not stray_lines(ink, view) and not _spelt(ink, view),
        "hidden lines on both sides": _hidden_pair(sheet.segments, view),
    }
    signed = _prints(sheet, bores)
    along = any(_along(c, view) for c in centres)
    across = any(_crosses(c, view) for c in centres)
    if is_plain(ink, view) and not along:
        ended = bool(view.axis.drawn) and any(_as_large(c, view) and view.about(c)[1] for c in sheet.circles)
        strong = {"a diameter sign": strong["a diameter sign"], "an end-view circle": ended}
    # Edges of teeth run right across a rack or a comb, whose centre line runs along them, and across half a part.
    strong["edge lines right across"] = strong.get("edge lines right across", False) and (
        along or not (across or is_one_sided(ink, view))
    )
    against = {
        "a centre line that crosses it shows it the same from both sides": any(
            view.halves == "both" and _crosses(c, view) and _same_about(ink, view, c) for c in centres
        ),
        "holes lie beside its axis": any(_beside(c, view) for c in holes),
        "its centre lines run across it": across and not along,
        "another centre line runs right across it": along
        and (view.halves == "both" and any(_crosses(c, view, 1 + RUNS_OUT) for c in centres)),
        "holes lie along its axis and no diameter but a hole's is printed": (
            len({c.centre for c in holes if not _as_large(c, view)}) >= ROW
            and not signed
            and not any(d.kind is DimensionKind.RADIUS for d in sheet.dimensions)
        ),
        "a long hole lies along its axis and no diameter but a hole's is printed": (
            bool(slots) and not signed and not names_thread(sheet)
        ),
    }
    return Evidence(
        along,
        tuple(k for k, v in strong.items() if v),
        tuple(k for k, v in against.items() if v),
        bool(holes),
        any(_as_large(c, view) for c in sheet.circles),
        any(_spans(d, view, bores) for d in sheet.dimensions),
        signed,
    )


def is_plain(ink: Ink, view: View) -> bool:
    """True if every cluster of the view is a plain upright rectangle, as a table or a border is."""
    return all(ink.clusters[k].plain for k in view.members)


def is_lined(sheet: Sheet, view: View) -> bool:
    """True if anything is drawn along the axis of a view, as a short centre line is, or one of a plain pen."""
    along, across = view.axis.fold(sheet.segments.ends.reshape(-1, 2)).T.reshape(2, -1, 2)
    near = ON_AXIS * view.size
    there = (along.min(axis=1) <= view.high + near) & (along.max(axis=1) >= view.low - near)
    return bool((there & (np.abs(across).max(axis=1) <= near)).any())


def _along(line: Axis, view: View) -> bool:
    """True for a centre line on the view's axis that runs from within it out of it, or along all of it."""
    if view.axis.angle_to(line.direction) > ALONG:
        return False
    folded = _laid(line, view)
    length = view.high - view.low
    low, high = folded[:, 0].min(), folded[:, 0].max()
    out = RUNS_OUT * length
    reaches = low < view.high - out and high > view.low + out
    runs_out = high > view.high + out or low < view.low - out
    spans = np.sort(folded[:, 0].reshape(-1, 2), axis=1).clip(view.low, view.high)
    along = (spans[:, 1] - spans[:, 0]).sum() > ALL_ALONG * length
    return bool(reaches and (runs_out or along) and np.abs(folded[:, 1]).max() <= ON_AXIS * view.size)


def _crosses(line: Axis, view: View, by: float = 0.5) -> bool:
    """True for a centre line square to the axis that runs `by` times as far out as the view on both sides of it."""
    if view.axis.angle_to(line.direction) < SQUARE:
        return False
    along, across = _laid(line, view).T
    return bool(
        view.low < along.mean() < view.high and across.min() < -by * view.reach < by * view.reach < across.max()
    )


def _laid(line: Axis, view: View) -> Floats:
    """The ends of all pieces of a centre line, along and across a view's axis, float (2n, 2)."""
    return view.axis.fold(np.array([line.unfold(s, 0.0) for span in line.drawn for s in span]))


def _same_about(ink: Ink, view: View, line: Axis) -> bool:
    """True if the view is its own mirror image about a line that crosses it."""
    return all(share > SAME for share in ink.mirrored([ink.clusters[k] for k in view.members], line))


def _clear_inside(ink: Ink, circle: Circle) -> bool:
    """True for a circle that no line of the outline touches: a hole seen from its end, not a ring round a detail."""
    distance = shapely.Point(circle.centre).distance(
        ink.tree.geometries[ink.tree.nearest(shapely.Point(circle.centre))]
    )
    return bool(distance > circle.radius * CLEAR)


def _edges_across(ink: Ink, view: View) -> bool:
    """True if an edge line runs right across the part at most of its shoulders and groove walls."""
    walls, near, _ = _radial(ink, view)
    met = walls & near
    return bool(met) and len(met) >= RIGHT_ACROSS * len(walls)


def stray_lines(ink: Ink, view: View) -> bool:
    """True if many lines square to the axis lie within the view but run nowhere near it: boxes of a diagram."""
    _, near, inner = _radial(ink, view)
    return sum(z not in near for z in inner) > STRAY * len(inner)


def _radial(ink: Ink, view: View) -> tuple[set[int], set[int], list[int]]:
    """Where straight edges stand square to the axis between the ends, in steps of a five-hundredth of the view.

    Those on the boundary; the places within a step of one right across the part; and all that lie within.
    """
    fine = CROSSING * view.size
    walls, near, inner = set[int](), set[int](), list[int]()
    folded = view.axis.fold(ink.network.nodes)
    ends, straight = ink.network.table
    for cluster in (ink.clusters[k] for k in view.members):
        edges = np.array(cluster.edges)
        z, r = folded[ends[edges]].transpose(2, 0, 1)
        square = straight[edges] & (np.abs(z[:, 0] - z[:, 1]) <= fine)
        square &= (view.low + 5 * fine < z[:, 0]) & (z[:, 0] < view.high - 5 * fine)
        step, on_rim = np.round(z[:, 0] / (2 * fine)).astype(np.int64), np.isin(edges, cluster.rim)
        walls |= set(step[square & on_rim].tolist())
        inner += step[square & ~on_rim].tolist()
        across = step[square & ~on_rim & (r.min(axis=1) <= fine) & (r.max(axis=1) >= -fine)].tolist()
        near |= {k + by for k in across for by in (-1, 0, 1)}
    return walls, near, inner


def says_diameter(text: str) -> bool:
    """True if a dimension's text has a diameter sign or word."""
    return bool(DIAMETER.search(text))


def _says_diameter(dimension: Dimension, view: View, holes: Sequence[float]) -> bool:
    """True for one dimension, if it is not the diameter of one of these `holes`."""
    if not DIAMETER.search(dimension.text or "") or not dimension.points or _of_hole(dimension, holes):
        return False
    if not view.covers(dimension.points[0], NEAR_VIEW * view.size):
        return False
    if dimension.kind is DimensionKind.LEADER:
        return True
    across = view.axis.fold(np.array(dimension.points))[:, 1]
    one_half = view.halves != "both"
    spans = across.min() < 0 < across.max() or one_half
    return bool(spans and dimension.kind in (DimensionKind.LINEAR, DimensionKind.ALIGNED))


def _of_hole(dimension: Dimension, holes: Sequence[float]) -> bool:
    """True if what a dimension prints or measures is the diameter of a hole that is drawn."""
    printed = parse(dimension.text).size
    measured = dimension.measured * (2 if dimension.kind is DimensionKind.RADIUS else 1)
    return _is_one(measured if printed is None else printed, holes)


def _is_one(size: float, holes: Sequence[float]) -> bool:
    """True if a size is one of these, as rounded."""
    return any(abs(size - hole) <= ROUNDED * hole for hole in holes)


def _spans(dimension: Dimension, view: View, holes: Sequence[float]) -> bool:
    """True for a dimension with a diameter sign from one side of a view to the other."""
    told = dimension.kind is not DimensionKind.LEADER and _says_diameter(dimension, view, holes)
    if not told or len(dimension.points) < 2:
        return False
    across = view.axis.fold(np.array(dimension.points[:2]))[:, 1]
    return bool(abs(float(np.ptp(across)) - 2 * view.reach) <= ONE_SIZE * view.reach)


def _end_view(circle: Circle, view: View) -> bool:
    """True for a circle centred on the axis, clear of the view along it and no larger than the part."""
    off, clear = view.about(circle)
    fits = SMALLEST_END * view.reach <= circle.radius <= (1 + ONE_SIZE) * view.reach
    return off <= ONE_PLACE * view.size and clear and fits


def _as_large(circle: Circle, view: View) -> bool:
    """True for a circle about the axis of just the greatest diameter, wherever along it."""
    off, _ = view.about(circle)
    return off <= ONE_PLACE / 2 * view.size and abs(circle.radius - view.reach) <= ONE_PLACE * view.reach


def _beside(circle: Circle, view: View) -> bool:
    """True for a circle of the view whose centre is off the axis."""
    return view.about(circle)[0] > max(ON_AXIS * view.size, OFF_AXIS * circle.radius)


def _long_hole(cluster: Cluster, view: View) -> float | None:
    """Half the width of a figure on the axis whose rim keeps one distance from a stretch of it, None for any other."""
    if not cluster.closed or view.halves != "both":
        return None
    rim = view.axis.fold(cluster.boundary)
    low, _, high, half = box_of(rim).tolist()
    within = view.low < low and high < view.high and 0 < half < view.reach
    if not within or high - low <= 2 * half * (1 + ROUND_ENDED):
        return None
    beyond = rim[:, 0] - rim[:, 0].clip(low + half, high - half)
    return float(half) if np.abs(np.hypot(beyond, rim[:, 1]) - half).max() <= ROUND_ENDED * half else None


def _prints(sheet: Sheet, holes: Sequence[float]) -> bool:
    """True if a diameter that is none of these `holes`' is printed on the sheet, by its sign or by its dimension."""
    told = [d for d in sheet.dimensions if d.kind is DimensionKind.DIAMETER or says_diameter(d.text or "")]
    texts = [parse(t.text).size for t in sheet.texts if says_diameter(t.text)]
    return any(not _of_hole(d, holes) for d in told) or any(s is None or not _is_one(s, holes) for s in texts)


def names_thread(sheet: Sheet) -> bool:
    """True if a text of the sheet names a thread."""
    return any(THREAD.search(text) for text in _written(sheet))


def _written(sheet: Sheet) -> tuple[str, ...]:
    """All that is printed on the sheet."""
    return (*(t.text for t in sheet.everywhere), *(d.text or "" for d in sheet.dimensions))


def _section(ink: Ink, view: View) -> bool:
    """True if two closed clusters lie on either side of the axis and neither reaches it."""
    sides = set()
    for k in view.members:
        cluster = ink.clusters[k]
        across = view.axis.fold(cluster.samples)[:, 1]
        if cluster.closed and across.min() * across.max() > 0 and np.ptp(across) > 0:
            sides.add(bool(across.min() > 0))
    return len(sides) == 2


def _spelt(ink: Ink, view: View) -> bool:
    """True for a small pair of figures with a third closed one between them or beside them in their row.

    So letters of a word stand that are drawn as lines; nothing stands in the bore of a section, or level with it.
    """
    pair = [ink.clusters[k] for k in view.members[:2]]
    others = [c for c in ink.clusters if c.closed and not any(c is p or p.holds(c) or c.holds(p) for p in pair)]
    largest = next((c.diagonal for c in others if not c.plain), 0.0)
    if view.size > SPELT * largest:
        return False
    slack = IN_ROW * (view.high - view.low)
    for other in others:
        if other.diagonal > view.size or not view.covers(other.middle, view.size):
            continue
        along, across = view.axis.fold(other.samples).T
        level = view.low - slack <= along.min() and along.max() <= view.high + slack
        if level and np.abs(across).min() <= view.reach + view.size:
            return True
    return False


def _hidden_pair(segments: Segments, view: View) -> bool:
    """True if hidden lines run along the axis at one distance on both sides of it."""
    mine = segments.of(lambda s: s.pen is Pen.HIDDEN) & (segments.bulge == 0)
    a, b = view.axis.fold(segments.ends[mine, :2]), view.axis.fold(segments.ends[mine, 2:])
    fine = ONE_PLACE * view.size
    level = (np.abs(a[:, 1] - b[:, 1]) < fine) & (np.abs(a[:, 1]) < view.reach) & (np.abs(a[:, 1]) > fine)
    inside = level & (a[:, 0] > view.low - fine) & (a[:, 0] < view.high + fine)
    long = np.abs(a[:, 0] - b[:, 0]) > HIDDEN_RUN * (view.high - view.low)
    heights = a[inside & long, 1]
    heights = heights[np.argsort(np.abs(heights))]
    # Of those on both sides the two that are nearest to one another are neighbours.
    return bool(((np.diff(np.abs(heights)) < fine) & (np.diff(np.sign(heights)) != 0)).any())
