"""Views: which clusters together show one turned part about one axis.

A view has both halves (clusters that are their own mirror image, or each other's, or lie on either side of a drawn
centre line) or one half (a cluster on one side of a drawn centre line). Borders drop out because they only enclose;
title blocks, notes and details because they are symmetric about no axis that carries a part. Layer names play no
role here.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from operator import attrgetter
from typing import Any, Literal

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.score import Merit
from extractor.sheet import Circle, Floats
from extractor.values import dataclass
from extractor.viewing.alike import ONE_PLACE, ONE_SIZE
from extractor.viewing.axis import Axis, drawn_along
from extractor.viewing.clusters import Cluster, Ink
from extractor.viewing.members import FAIR, FITTED, STRAYS, Member, member_of, without_others, without_twins
from extractor.viewing.symmetry import fresh, symmetry_axes

MOST_CLUSTERS = 60
"""Only the largest clusters are tried as views; the rest are letters and arrow heads."""

SYMMETRIC = 0.75
"""Least share of a boundary that must have its mirror image."""

LETTER_SIZE = 0.01
"""A cluster with no more than this share of the largest one's diagonal is a letter or an arrow head."""

LETTERS = 20
"""So many small clusters of one height are letters, whatever they look like: views do not come by the dozen."""

ONE_HEIGHT = 0.04
"""Letters of one text are as high as one another within this share: round ones reach a little over the line."""

AS_LETTERS = 1.5
"""Beside such letters nothing is a view that is no larger than so many of them: heads, signs, letters run together."""

SMALL = 0.125
"""And smaller than this share of the largest cluster: a sheet of small parts has no larger one."""

FRAMED = 0.03
"""A border stands round something with more than this share of its own diagonal."""

BORDER = 0.01
"""A centre line that stays this share of a border's diagonal within it doesn't reach its edge."""

STICKS_OUT = 0.35
"""A centre line drawn for a view sticks out of it by less than this share of its length at either end."""

MOSTLY = 0.5
"""A half rests on an axis with more than this share of its length, and the axis is drawn along as much of it."""

NEAR_VIEW = 0.02
"""A point within this share of a view's size of it is on it: what is pointed at by hand, or measured there."""

ONE_SIDE = 1e-3
"""Share of a cluster's diagonal by which a half may reach over its axis: a pen's error."""

ONE_LENGTH = 0.01
"""Share of a view's size by which the ends of two halves of one part may differ together, and the heights of two that
hang together: else another line is their axis."""

UNLIKE_REACH = 0.5
"""Two halves of one part differ in height by no more than this share: a collar may be cut away in one."""

Halves = Literal["both", "up", "down"]

SIDES: tuple[Halves, Halves] = ("up", "down")


@dataclass(frozen=True)
class View:
    """One turned part as drawn: axis, stretch along it, greatest distance from it, which halves are drawn.

    `share` is how much of the boundary is symmetric (for a half, how near its axis it lies), `members` indexes the
    clusters; `touches` is false for a half that lies clear of its axis, `joined` is true for two unlike halves.
    """

    axis: Axis
    low: float
    high: float
    reach: float
    halves: Halves
    share: float
    members: tuple[int, ...]
    touches: bool = True
    joined: bool = False

    @property
    def size(self) -> float:
        """Diagonal of the whole view."""
        return float(np.hypot(self.high - self.low, 2 * self.reach))

    def covers(self, at: Point, margin: float = 0.0) -> bool:
        """True if a sheet point lies within the view's box, only the drawn half of it counting."""
        return bool(self._boxed(*self.axis.place(at), margin))

    def covering(self, xy: Floats, margin: float = 0.0) -> npt.NDArray[np.bool_]:
        """The same for many points (n, 2)."""
        along, across = self.axis.fold(xy).T
        return np.asarray(self._boxed(along, across, margin))

    def _boxed(self, along: Any, across: Any, margin: float) -> Any:
        """Whether places along and across, numbers or arrays, lie within the box."""
        up = self.reach if self.halves != "down" else 0.0
        down = self.reach if self.halves != "up" else 0.0
        inside = (self.low - margin <= along) & (along <= self.high + margin)
        return inside & (-down - margin <= across) & (across <= up + margin)

    def about(self, circle: Circle) -> tuple[float, bool]:
        """How far off the axis the middle of a circle lies, and whether the circle is clear of the view along it."""
        along, across = self.axis.place(circle.centre)
        return abs(across), not self.low - circle.radius < along < self.high + circle.radius

    def as_long(self, other: "View") -> bool:
        """True if another view is as long, within what one is drawn unlike the other."""
        return abs((self.high - self.low) - (other.high - other.low)) <= ONE_SIZE * self.size

    def as_high(self, other: "View") -> bool:
        """The same for the height."""
        return abs(self.reach - other.reach) <= ONE_SIZE * self.size

    def like(self, other: "View") -> bool:
        """True if another view is as long and as high."""
        return self.as_long(other) and self.as_high(other)

    @property
    def middle(self) -> Point:
        """Middle of the drawn box."""
        x, y = np.mean(self.corners(), axis=0).tolist()
        return x, y

    def corners(self) -> list[Point]:
        """Corners of the drawn box on the sheet."""
        sides = {"both": (-self.reach, self.reach), "up": (0.0, self.reach), "down": (-self.reach, 0.0)}[self.halves]
        return [self.axis.unfold(s, r) for s in (self.low, self.high) for r in sides]


def views(ink: Ink, centres: Sequence[Axis], stated: Sequence[Axis] = ()) -> list[View]:
    """All views that the sheet may hold, best first; several may lie on one another.

    `centres` are the drawn centre lines, `stated` the axes that diameter dimensions imply.
    """
    big = _big(ink, centres)
    given = [*centres, *(a for a in stated if fresh([a], ink.size, centres))]
    alike = fresh(symmetry_axes(ink, big, SYMMETRIC), ink.size, given)
    axes = [*given, *(_with_plain_line(ink, big, axis) for axis in alike)]
    mine = [without_others(ink, big, axis, centres) for axis in axes]
    found = [v for axis, some in zip(axes, mine, strict=True) for v in _full_views(ink, some, axis)]
    found += [v for axis, some in zip(given, mine, strict=False) for v in _half_views(ink, some, axis)]
    return sorted(found, key=lambda view: (-standing(view).figure, -(view.share**2) * view.size))


def _with_plain_line(ink: Ink, big: list[int], axis: Axis) -> Axis:
    """A line of symmetry with the straight strokes of any pen that lie on it and run out of a figure at both ends."""
    spans = drawn_along(ink.strokes, axis, ink.size)
    rows = [member_of(ink, k, axis, 1.0) for k in big] if spans else []
    return replace(axis, drawn=tuple((a, b) for a, b in spans if any(a < m.low and b > m.high for m in rows)))


def _big(ink: Ink, centres: Sequence[Axis]) -> list[int]:
    """Indices of the clusters worth a try: not letters, not borders."""
    rows = _in_rows(ink)
    some = [(k, c) for k, c in enumerate(ink.clusters) if k not in rows]
    clusters = [(k, c) for k, c in some if not _is_border(ink, c, centres)][:MOST_CLUSTERS]
    sides = (min(np.ptp(ink.clusters[k].box[::2]), np.ptp(ink.clusters[k].box[1::2])) for k in rows)
    letter = math.sqrt(2.0) * max(map(float, sides), default=0.0)
    return [k for k, c in clusters if c.diagonal > max(LETTER_SIZE * clusters[0][1].diagonal, AS_LETTERS * letter)]


def _in_rows(ink: Ink) -> set[int]:
    """Clusters that are small and as high, or as wide, as many others: letters drawn as outlines."""
    small = [k for k, c in enumerate(ink.clusters) if c.diagonal < SMALL * ink.clusters[0].diagonal]
    found: set[int] = set()
    for side in (0, 1):
        sizes = np.array([float(np.ptp(ink.clusters[k].box[side::2])) for k in small])
        order = np.argsort(sizes)
        ends = np.searchsorted(sizes[order], sizes * (1 + ONE_HEIGHT), side="right")
        starts = np.searchsorted(sizes[order], sizes * (1 - ONE_HEIGHT))
        found |= {k for k, many in zip(small, ends - starts >= LETTERS, strict=True) if many}
    return found


def _is_border(ink: Ink, cluster: Cluster, centres: Sequence[Axis]) -> bool:
    """True for a plain rectangle round another cluster that no centre line of its own reaches the edge of.

    Its own runs through its middle or along a side; that of an end view may run out of a border anywhere.
    """
    some = [c for c in ink.clusters[:MOST_CLUSTERS] if c.diagonal > FRAMED * cluster.diagonal]
    if not cluster.plain or not any(cluster.holds(c) for c in some):
        return False
    frame = cluster.frame
    within, corners = frame.buffer(-BORDER * cluster.diagonal), shapely.get_coordinates(frame)[:4]
    margin = ONE_PLACE * cluster.diagonal
    away = [(line, line.fold(corners)[:, 1]) for line in centres]
    own = [line for line, r in away if abs(r.mean()) <= margin or (np.abs(r) <= margin).sum() > 1]
    lines = [shapely.LineString([line.unfold(s, 0.0) for s in span]) for line in own for span in line.drawn]
    return all(within.contains(line) or not frame.intersects(line) for line in lines)


def standing(view: View) -> Merit:
    """How well a view lies about its axis: a marked axis first, then halves that touch theirs, symmetry alone last."""
    named = "a centre line" if view.axis.marked else "a line"
    if not view.touches:
        place = 7 if not view.axis.marked else 1 if fits(view) else 5
        return Merit(-place, f"a half clear of {named}")
    if view.joined:
        return Merit(2 if view.axis.marked else -3, f"two halves drawn unlike about {named}")
    if view.halves != "both":
        return Merit(1 if view.axis.marked else -4, f"a half on {named}")
    known = view.axis.drawn or view.axis.stated
    place = (0 if view.share >= FAIR else 2) + (0 if view.axis.marked else 1 if known else 6)
    return Merit(-place, f"both halves about {named}" if view.axis.marked or known else "both halves alike")


def is_frame(ink: Ink, view: View) -> bool:
    """True for plain rectangles clear of an axis that is not drawn just along them: a table, or a note's frame."""
    return not view.touches and not fits(view) and all(ink.clusters[k].plain for k in view.members)


def fits(view: View) -> bool:
    """True if the axis is drawn along all of a view and about as far."""
    out = STICKS_OUT * (view.high - view.low)
    near = tuple((a, b) for a, b in view.axis.drawn if a > view.low - out and b < view.high + out)
    return replace(view.axis, drawn=near).drawn_within(view.low, view.high) > FITTED


def _full_views(ink: Ink, big: list[int], axis: Axis) -> list[View]:
    """Views with both halves on one axis."""
    shares = zip(big, ink.mirrored([ink.clusters[k] for k in big], axis), strict=True)
    members = [member_of(ink, k, axis, share) for k, share in shares if share >= SYMMETRIC]
    found = []
    for group in filter(None, (without_twins(ink, axis, some) for some in _groups(members))):
        share = float(np.average([m.share for m in group], weights=[ink.clusters[m.index].diagonal for m in group]))
        view = _view(axis, group, "both", share)
        found += [view] if view.reach > 0 and any(ink.clusters[k].closed for k in view.members) else []
    return found


def _view(axis: Axis, group: Sequence[Member], halves: Halves, share: float, touches: bool = True) -> View:
    """The view that a group of clusters makes."""
    low, high = min(m.low for m in group), max(m.high for m in group)
    reach = max(max(m.most, -m.least) for m in group)
    return View(axis, low, high, reach, halves, share, tuple(m.index for m in group), touches)


def _groups(members: Sequence[Member], start: str = "low", end: str = "high") -> list[list[Member]]:
    """Members whose stretches along the axis overlap, grouped; or those between any other two of their figures."""
    groups: list[list[Member]] = []
    for m in sorted(members, key=attrgetter(start)):
        if groups and getattr(m, start) < max(getattr(o, end) for o in groups[-1]):
            groups[-1].append(m)
        else:
            groups.append([m])
    return groups


def _half_views(ink: Ink, big: list[int], axis: Axis) -> list[View]:
    """Views with a half on one side of a drawn centre line, and those whose two sides are drawn unlike."""
    found: list[View] = []
    sides: tuple[tuple[Halves, float], ...] = (("up", 1.0), ("down", -1.0))
    for halves, side in sides:
        members = _side_members(ink, big, axis, side)
        touching = [m for m in members if _stands_on(ink, m, axis)]
        beside = (m for m in members if not any(min(m.high, t.high) > max(m.low, t.low) for t in touching))
        clear = [m for m in beside if ink.clusters[m.index].closed]
        found += [_view(axis, group, halves, _nearness(group)) for group in _groups(touching)]
        rows = (group for row in _groups(clear, "least", "most") for group in _groups(row))
        found += [_view(axis, group, halves, _nearness(group), False) for group in rows]
    pairs = [*product(found, found), *_across(ink, big, axis)]
    return found + [v for v in (_joined(a, b) for a, b in pairs) if v]


def _across(ink: Ink, big: list[int], axis: Axis) -> list[tuple[View, View]]:
    """The two sides of each cluster across a centre line through its middle that is not its own mirror image about it.

    So half a section hangs together with half an outside view where edges of both end at one place on the axis.
    """
    pairs = list[tuple[View, View]]()
    for k in (k for k in big if axis.marked and ink.clusters[k].closed):
        up, down = (_one_side(ink, k, axis, name) for name in SIDES)
        if up is None or down is None or abs(up.reach - down.reach) > ONE_LENGTH * up.size:
            continue
        if fits(up) and fits(down) and ink.mirrored([ink.clusters[k]], axis)[0] < SYMMETRIC:
            pairs.append((up, down))
    return pairs


def _one_side(ink: Ink, index: int, axis: Axis, halves: Halves) -> View | None:
    """The part of a cluster on one side of an axis, None if there is none."""
    cluster, side = ink.clusters[index], 1.0 if halves == "up" else -1.0
    z, r = (axis.fold(cluster.boundary) * (1.0, side)).T
    within = r > ONE_SIDE * cluster.diagonal
    if not within.any():
        return None
    return View(axis, float(z[within].min()), float(z[within].max()), float(r.max()), halves, 1.0, (index,))


def _nearness(group: Sequence[Member]) -> float:
    """How near its axis a half lies: 1 where it reaches it."""
    return 1 - max(0.0, min(m.least for m in group)) / max(m.most for m in group)


def _stands_on(ink: Ink, m: Member, axis: Axis) -> bool:
    """True if a cluster meets the axis near both its ends, or rests on it with more than half its length."""
    cluster = ink.clusters[m.index]
    folded = axis.fold(cluster.boundary)
    on = folded[np.abs(folded[:, 1]) <= ONE_PLACE * cluster.diagonal, 0]
    return bool(len(on) and np.ptp(on) > MOSTLY * (m.high - m.low))


def _side_members(ink: Ink, big: list[int], axis: Axis, side: float) -> list[Member]:
    """Clusters on one side of an axis that it is drawn along for at least half their length.

    One that strays half as far to the other side is a whole view left open there, not a half.
    """
    members, (ends, _) = [], ink.network.table
    for k in big:
        cluster, m = ink.clusters[k], member_of(ink, k, axis, 1.0, side)
        margin = ONE_SIDE * cluster.diagonal
        mine = np.array(cluster.edges)
        drawn = ends[mine[ink.kept[mine]]].reshape(-1)
        beyond = float((axis.fold(ink.network.nodes[drawn])[:, 1] * side).min()) if len(drawn) else 0.0
        one_side = m.least >= -margin and m.most > margin and beyond > -STRAYS * m.most
        if one_side and (axis.stated or axis.drawn_within(m.low, m.high) >= MOSTLY):
            members.append(m)
    return members


def _joined(up: View, down: View) -> View | None:
    """Two halves of one length on either side as one view: half a section, half an outside view."""
    if (up.halves, down.halves) != ("up", "down"):
        return None
    apart = abs(up.low - down.low) + abs(up.high - down.high)
    if apart > ONE_LENGTH * up.size or abs(up.reach - down.reach) > UNLIKE_REACH * max(up.reach, down.reach):
        return None
    members = tuple(dict.fromkeys(up.members + down.members))
    return View(up.axis, up.low, up.high, max(up.reach, down.reach), "both", FAIR, members, joined=True)
