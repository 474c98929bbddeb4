"""Closing the gaps that sloppy drawing leaves, within a stated tolerance.

Only loose ends move: an end that meets nothing is joined to the nearest other loose end, else to the nearest stroke.
Ends that meet exactly are never touched, so small chamfers and radii stay what they are; nor are strokes labelled
below 0 (centre lines), though others may end on them. The tolerance grows with
the drawing: a thousandth of the diagonal of the group of strokes the end lies in, or one and a half of the last
decimal place the drawing is written to where that is not far more (a grid of whole millimetres is no rounding); and
never more than a quarter of the stroke that moves (common practice, no source). What was closed is reported, with its
place.
"""

import math
from functools import lru_cache
from itertools import combinations

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import circular, distance, meet_lines
from extractor.geometry.boxes import diagonal_of
from extractor.geometry.joining import components, groups
from extractor.geometry.network import Network, Strokes
from extractor.geometry.noding import node
from extractor.sheet import Floats, Ints
from extractor.values import dataclass
from extractor.viewing.alike import PARALLEL

CELLS = 700
"""Strokes that run within a cell or so of one another, of so many across the sheet, are one group."""

PLACES = 500_000
"""Places along strokes that are looked at in one go: the memory they take stays small however many there are."""

NEAR = 1e-5
"""Noding distance as a share of the size of what is drawn: rounded angles and last digits, 1e-6 to 1e-4 mm in
drawings that were measured, and far below the smallest chamfer."""

STEPS = (1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5, 1e-6)
"""The last decimal places that are looked for."""

ON_GRID, OFF_GRID = 1e-6, 1e-9
"""A coordinate stands on such a place within this share of it, or within so many drawing units: the file's rounding."""

FRAME = 0.5
"""A figure round others is a frame if it is at least this share of all that is drawn; a bore's rim is none."""

SHORT = 0.1
"""So many of the strokes are short ones: the chords of roundings, if there are any."""

OF_A_CHORD = 0.02
"""Share of a short stroke that the noding distance is at most: more would bend roundings drawn as chords."""

LAST_PLACES = 1.5
"""So many last decimal places lie between two ends that were rounded each for itself, along both axes."""

MOST_MEET = 8
"""So many of the strokes that meet in a place are looked at for how they cross there: more are no outline."""

SHARE = 1e-3
"""Gap tolerance as a share of the diagonal of a group of strokes."""


@dataclass(frozen=True)
class Closed:
    """One gap that was closed: where, how wide it was, and the labels of the strokes whose ends were moved.

    `aside`: how far off its own line an end was moved, so that its stroke leans.
    """

    at: Point
    width: float
    labels: frozenset[int] = frozenset()
    aside: float = 0.0


def decimal_step(ends: Floats) -> float:
    """The last decimal place that the coordinates use, 0.0 if they use more than six.

    >>> decimal_step(np.array([[0.25, 1.5, 3.0, 4.1]]))
    0.01
    """
    for step in STEPS:
        whole = ends / step
        if np.abs(whole - np.round(whole)).max(initial=0.0) < max(ON_GRID, OFF_GRID / step):
            return step
    return 0.0


def noding_distance(strokes: Strokes) -> float:
    """The distance, in drawing units, within which two places are one; a frame round the drawing doesn't change it."""
    framed = _of_frames(*_grouped(strokes))
    size = typical_size(strokes.pick(~framed) if framed.any() and not framed.all() else strokes)
    return float(min(NEAR * size, OF_A_CHORD * np.quantile(strokes.chord_lengths, SHORT)))


def _of_frames(home: Ints, least: Floats, most: Floats) -> npt.NDArray[np.bool_]:
    """Which strokes hang together as large figures round most of the others: a border with its title block."""
    size = np.hypot(*(most - least).T)
    whole = np.hypot(*(most.max(axis=0) - least.min(axis=0)))
    count = np.bincount(home)
    framed = np.zeros(len(size), dtype=bool)
    for k in np.flatnonzero(size >= FRAME * whole).tolist():
        within = ((least > least[k]) & (most < most[k])).all(axis=1)
        framed[k] = count[within].sum() > (len(home) - count[k]) / 2
    return framed[home]


def typical_size(strokes: Strokes) -> float:
    """The median diagonal of the strokes' groups, weighted by the length of the strokes."""
    length, sizes = strokes.chord_lengths, group_sizes(strokes)
    order = np.argsort(sizes)
    middle = np.searchsorted(np.cumsum(length[order]), length.sum() / 2)
    return float(sizes[order][min(int(middle), len(order) - 1)])


def tolerances(strokes: Strokes) -> Floats:
    """The gap tolerance at each stroke, float (n,): by the size of the group it lies in and the last decimal place."""
    sizes = group_sizes(strokes)
    step = decimal_step(strokes.ends)
    rounding = np.where(LAST_PLACES * step <= 2 * SHARE * sizes, LAST_PLACES * step, 0.0)
    tolerance: Floats = np.maximum(SHARE * sizes, rounding)
    return tolerance


def group_sizes(strokes: Strokes) -> Floats:
    """Diagonal of the group of strokes near one another that each stroke belongs to, float (n,)."""
    home, least, most = _grouped(strokes)
    sizes: Floats = np.hypot(*(most - least).T)
    return sizes[home]


@lru_cache(maxsize=4)
def _grouped(strokes: Strokes) -> tuple[Ints, Floats, Floats]:
    """The group of each stroke, int (n,), and the least and greatest corner of every group, float (groups, 2)."""
    size = diagonal_of(strokes.ends.reshape(-1, 2))
    home = _groups(strokes, size / CELLS)
    return home, *extents(strokes, home)


def extents(strokes: Strokes, home: Ints) -> tuple[Floats, Floats]:
    """The least and the greatest corner of every group of strokes, numbered by `home`, float (groups, 2)."""
    count = int(home.max()) + 1
    least, most = np.full((count, 2), np.inf), np.full((count, 2), -np.inf)
    for ends in (strokes.ends[:, :2], strokes.ends[:, 2:]):
        np.minimum.at(least, home, ends)
        np.maximum.at(most, home, ends)
    return least, most


def _groups(strokes: Strokes, cell: float) -> Ints:
    """Number the groups of strokes that run through cells of a grid that touch one another, int (n,).

    Each cell has one of the strokes that run through it: the others hang together with that one.
    """
    origin = np.minimum(strokes.ends[:, :2], strokes.ends[:, 2:]).min(axis=0)
    wide, tall = np.ceil((strokes.ends.reshape(-1, 2) - origin).max(axis=0) / cell).astype(np.int64) + 4
    owner = np.full(int(wide * tall), -1, dtype=np.int32)
    count = np.ceil(strokes.chord_lengths / cell).astype(np.int64) + 1
    batch = np.cumsum(count) // PLACES
    pairs: list[Ints] = []
    for k in np.unique(batch).tolist():
        mine = np.flatnonzero(batch == k)
        cells, stroke = _passed(strokes.ends[mine], count[mine], origin, cell, int(wide)), np.repeat(mine, count[mine])
        pairs.append(_apart(stroke, owner[cells]))
        owner[cells] = stroke
        pairs.append(_apart(stroke, owner[cells]))
    cells = np.flatnonzero(owner >= 0)
    pairs += [_apart(owner[cells], owner[cells + beside]) for beside in (1, wide - 1, wide, wide + 1)]
    return components(len(strokes), *np.hstack(pairs))


def _apart(one: npt.NDArray[np.integer], two: npt.NDArray[np.integer]) -> Ints:
    """The pairs of two strokes, int (2, m), of equal ones in a row the first; below 0 is none."""
    kept = (one != two) & (two >= 0)
    kept[1:] &= (one[1:] != one[:-1]) | (two[1:] != two[:-1])
    pairs: Ints = np.stack([one[kept], two[kept]]).astype(np.int64)
    return pairs


def _passed(ends: Floats, count: Ints, origin: Floats, cell: float, wide: int) -> Ints:
    """The cells that so many places along each stroke lie in, from its start on, int (sum of count,)."""
    stroke = np.repeat(np.arange(len(ends)), count)
    step = np.arange(len(stroke)) - np.repeat(np.cumsum(count) - count, count)
    share = (step / np.maximum(count[stroke] - 1, 1))[:, None]
    xy = ends[stroke, :2] * (1 - share) + ends[stroke, 2:] * share
    column, row = np.floor((xy - origin) / cell).astype(np.int64).T + 1
    passed: Ints = row * wide + column
    return passed


def close(strokes: Strokes, near: float) -> tuple[Strokes, tuple[Closed, ...], Network]:
    """Join loose ends within the tolerance of their group.

    `near` is the noding distance. Returns the strokes with their loose ends moved (same order and labels, so the
    drawn ones can still be looked up), what was closed, and the network of the strokes returned.
    """
    numbered = node(Strokes(strokes.ends, strokes.bulge, np.arange(len(strokes), dtype=np.int64)), near)
    loose = _loose_ends(strokes, numbered)
    if not loose:
        return strokes, (), numbered.labelled(strokes.label)
    reach = np.minimum(tolerances(strokes), strokes.chord_lengths / 4)
    moved = strokes.ends.reshape(-1, 2).copy()
    closed: list[Closed] = []
    left = _join_ends(strokes, moved, loose, reach, closed)
    _join_strokes(strokes, moved, left, reach, closed)
    if not closed:
        return strokes, (), numbered.labelled(strokes.label)
    joined = Strokes(moved.reshape(-1, 4), strokes.bulge, strokes.label)
    return joined, tuple(closed), node(joined, near)


def _loose_ends(strokes: Strokes, network: Network) -> list[int]:
    """Tips that meet nothing in the network of the strokes, labelled by their number: 2k for the start of stroke k."""
    on = [(network.edges[network.around[n][0]].label, n) for n in network.loose]
    mine = [(k, strokes.ends[k].reshape(2, 2) - network.point(n)) for k, n in on if strokes.label[k] >= 0]
    return [2 * k + int(np.hypot(*away.T).argmin()) for k, away in mine]


def _join_ends(strokes: Strokes, moved: Floats, loose: list[int], reach: Floats, closed: list[Closed]) -> list[int]:
    """Bring loose ends that lie near each other to one point; returns the ends still loose."""
    tips = np.array(loose)
    at, far = moved[tips], reach[tips // 2]
    points = shapely.points(at)
    one, two = shapely.STRtree(points).query(points, predicate="dwithin", distance=far)
    fit = (one < two) & (tips[one] // 2 != tips[two] // 2) & (np.hypot(*(at[one] - at[two]).T) <= far[two])
    for members in groups(zip(one[fit].tolist(), two[fit].tolist(), strict=True)):
        x, y = spot = _meeting(moved, tips[sorted(members)].tolist(), float(far[members].min()))
        moved[tips[members]] = spot
        labels = frozenset(strokes.label[tips[members] // 2].tolist())
        aside = max(_aside(strokes, k, spot) for k in (tips[members] // 2).tolist())
        closed.append(Closed((x, y), float(np.hypot(*(at[members] - spot).T).max()), labels, aside))
    return np.delete(tips, np.concatenate([one[fit], two[fit]])).tolist()


def _meeting(at: Floats, tips: list[int], reach: float) -> Point:
    """Where loose ends meet: where the lines of two straight strokes cross, if that is near, so that none tilts.

    Of more than two, as a wall, its floor and the edge behind the wall, the two that are squarest to one another count.
    """
    x, y = at[tips[0]].tolist()
    lines = [at[[tip & ~1, tip | 1]] for tip in tips[:MOST_MEET]]
    spot = _crossing(*max(combinations(lines, 2), key=lambda pair: _squareness(*pair)))
    near = spot is not None and (np.hypot(*(at[tips] - spot).T) <= reach).all()
    return spot if spot and near else (x, y)


def _squareness(one: Floats, two: Floats) -> float:
    """Sine of the angle between two lines."""
    (ax, ay), (bx, by) = (one[1] - one[0]).tolist(), (two[1] - two[0]).tolist()
    size = math.hypot(ax, ay) * math.hypot(bx, by)
    return abs(float(ax * by - ay * bx)) / size if size else 0.0


def _crossing(one: Floats, two: Floats) -> Point | None:
    """Where the lines through two straight strokes cross, None if they are nearly parallel."""
    a, b, c, d = ((x, y) for x, y in np.reshape([one, two], (4, 2)).tolist())
    return meet_lines(a, b, c, d, PARALLEL)


def _join_strokes(strokes: Strokes, moved: Floats, loose: list[int], reach: Floats, closed: list[Closed]) -> None:
    """Bring the ends still loose onto the nearest other stroke within reach."""
    if not loose:
        return
    lines = shapely.linestrings(strokes.ends.reshape(-1, 2, 2))
    tree = shapely.STRtree(lines)
    rise = np.abs(strokes.bulge) * shapely.length(lines) / 2
    wide = float(rise.max(initial=0.0))
    for end in loose:
        s, (x, y) = end // 2, strokes.ends.reshape(-1, 2)[end].tolist()
        tip = x, y
        best: tuple[float, Point] | None = None
        for k in tree.query(shapely.Point(tip).buffer(float(reach[s]) + wide)).tolist():
            # An end that runs on behind a line that its stroke crosses closes no gap: moved, it would tilt the stroke.
            foot = _foot(strokes, k, s, tip) if k != s and not shapely.crosses(lines[k], lines[s]) else None
            if foot and distance(foot, tip) <= reach[s] and (best is None or distance(foot, tip) < best[0]):
                best = distance(foot, tip), foot
        if best:
            moved[end] = best[1]
            closed.append(Closed(tip, best[0], frozenset((int(strokes.label[s]),)), _aside(strokes, s, best[1])))


def _aside(strokes: Strokes, k: int, spot: Point) -> float:
    """How far a place lies off the line through a stroke, 0.0 for an arc."""
    x0, y0, x1, y1 = strokes.ends[k].tolist()
    across = (x1 - x0) * (spot[1] - y0) - (y1 - y0) * (spot[0] - x0)
    return 0.0 if strokes.bulge[k] else abs(across) / distance((x0, y0), (x1, y1))


def _foot(strokes: Strokes, k: int, s: int, tip: Point) -> Point | None:
    """Where stroke `s` is to meet stroke `k`: where their lines cross if both are straight, else the nearest point.

    None for a stroke that lies along `s`, as its own double does: to meet it closes nothing.
    """
    x0, y0, x1, y1 = strokes.ends[k].tolist()
    if strokes.bulge[k] == 0:
        straight = strokes.bulge[s] == 0
        spot = _crossing(strokes.ends[k], strokes.ends[s]) if straight else None
        if straight and spot is None:
            return None
        x, y = spot or tip
        dx, dy = x1 - x0, y1 - y0
        size = dx * dx + dy * dy
        share = min(1.0, max(0.0, ((x - x0) * dx + (y - y0) * dy) / size)) if size else 0.0
        return x0 + share * dx, y0 + share * dy
    arc = circular((x0, y0), (x1, y1), float(strokes.bulge[k]))
    return arc.at(min(1.0, max(0.0, arc.share(tip))))
