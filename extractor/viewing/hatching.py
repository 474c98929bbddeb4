"""Hatching: loose lines that must not cut up the outline, and what both kinds of hatching say about a section.

Loose hatch lines are told from the slanting lines of an outline by their ends: they stop in the middle of other lines,
while a chamfer or a vee's wall meets its neighbours end to end. At least four of one slant, evenly spaced, make a
hatching; a slant is measured against the direction that most of the drawing runs in.
"""

import math
from collections.abc import Sequence
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely

from extractor.geometry.joining import groups
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Ints, Segments
from extractor.values import dataclass
from extractor.viewing.axis import DUST
from extractor.viewing.tips import tips_of

LEAST = 4
"""Fewest lines that make a hatching."""

MOST_BESIDE = 200
"""Only so many lines farther on are looked at for the next one beside a line."""

SLANT = math.radians(15)
"""Hatch lines lean from the main directions by more (ISO 128-3 has 45 degrees, from memory), and those of a knurl from
the axis and its square (DIN 82: 30 or 45 degrees, from memory)."""

SHORTEST = 10
"""And are longer than so many noding distances."""

LEAST_GAP = 20
"""Lines nearer to one another than so many noding distances are one line drawn twice."""

STRAY_SLANT = math.radians(0.3)
"""A line with one end at a corner, or a short one, is a hatch line if it leans as a hatching does, within this or
within what the noding distance at one end turns it: the writer rounds, and a short line leans by that."""

ONE_SLANT = math.radians(0.1)
"""Lines sorted by their slant are of one hatching while each leans by no more than this from the one before; pieces of
one line turn by less."""

OFF_STEP = 0.15
"""Share of the spacing by which a line of a hatching or a knurl may stand off its place: by offset or by eye."""

MOST_EVEN = 0.7
"""More than this share of the lines stand at whole spacings: an outline may cut single ones away."""

STRAY_STEP = 0.03
"""A line with one end at a corner stands off its place by less: those of an outline are many."""

BESIDE = 0.2
"""Lines beside one another share at least this much of the shorter one's stretch."""

BESIDE_CORNER, SHORT_OF = 50.0, 0.02
"""A line ends at a corner that it misses by no more than so many noding distances and this share of its length."""

RUN_OUT = 0.1
"""Share of its piece in a face by which the end of a line across it may lie off the edge: a line that runs out into a
face by eye ends well off its edge, as far as 0.7 of the piece at 45 degrees."""


def loose_hatching(strokes: Strokes, near: float) -> frozenset[int]:
    """Labels of the strokes that are hatch lines drawn one by one; `near` is the noding distance."""
    straight = np.flatnonzero(strokes.bulge == 0)
    if len(straight) < LEAST:
        return frozenset()
    d = strokes.ends[straight, 2:] - strokes.ends[straight, :2]
    size = np.hypot(*d.T)
    angle = np.mod(np.arctan2(d[:, 1], d[:, 0]), math.pi)
    met = _ends_met(strokes, near)[straight]
    slant = np.abs(np.mod(angle - _main_direction(angle, size, met > 0) + math.pi / 4, math.pi / 2) - math.pi / 4)
    slanted = (slant > SLANT) & (size > SHORTEST * near)
    slanted[slanted & (met < 2)] = ~_cornered(strokes, straight[slanted & (met < 2)], near)
    some, loose = np.flatnonzero(slanted & (met == 0)), np.flatnonzero(slanted & (met < 2))
    lean = np.maximum(STRAY_SLANT, near / size[loose])
    found: set[int] = set()
    for family in _families(angle[some]):
        rows, turn = straight[some[family]], float(np.median(angle[some[family]]))
        row = _Row.of(strokes.ends[rows], turn)
        if len(rows) >= LEAST and _even(row, near):
            like = np.abs(np.mod(angle[loose] - turn + 1.0, math.pi) - 1.0) < lean
            rest = set(straight[loose[like]].tolist()) - set(rows.tolist())
            while more := [k for k in rest if row.goes_on(_Row.of(strokes.ends[[k]], turn), near)]:
                rest.difference_update(more)
                rows = np.append(rows, more)
                row = _Row.of(strokes.ends[rows], turn)
            found |= set(strokes.label[rows].tolist())
    return frozenset(found)


def _main_direction(angle: Floats, size: Floats, joined: npt.NDArray[np.bool_]) -> float:
    """The direction, mod a quarter turn, that most length runs in.

    Only lines that meet others end to end count, as an outline's do, where there are any: of a densely hatched
    section the hatching is most of what is drawn.
    """
    if joined.any():
        angle, size = angle[joined], size[joined]
    folded = np.mod(angle, math.pi / 2)
    steps = np.round(folded / math.radians(0.5)).astype(np.int64) % 180
    weight = np.bincount(steps, weights=size, minlength=180)
    best = int(weight.argmax())
    mine, middle = steps == best, best * math.radians(0.5)
    # A hair below level is a hair below a quarter turn here: both are near the middle of the step, not apart.
    off = np.mod(folded[mine] - middle + math.pi / 4, math.pi / 2) - math.pi / 4
    return middle + float(np.average(off, weights=size[mine]))


def _ends_met(strokes: Strokes, near: float) -> Ints:
    """How many ends of each stroke lie at another stroke's end, 0 to 2; its own double doesn't count.

    Of a line drawn in pieces each has the ends of the whole: hatch lines of both halves may meet on the axis, and a
    vee's wall may be split.
    """
    tips = tips_of(strokes, near)
    one, two = tips.pairs
    a, b = tips.at[one ^ 1] - tips.at[one], tips.at[two ^ 1] - tips.at[two]
    other = np.abs(tips.at[one ^ 1] - tips.at[two ^ 1]).max(axis=1) > 2 * near
    one, two, a, b = one[other], two[other], a[other], b[other]
    count = np.bincount(one, minlength=len(tips.at))
    turn = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], -(a * b).sum(axis=1))
    straight = (strokes.bulge[one // 2] == 0) & (strokes.bulge[two // 2] == 0)
    onward = straight & (np.abs(turn) < ONE_SLANT) & (count[one] == 1) & (count[two] == 1)
    met = count > 0
    met[one[onward]] = False
    whole = zip((one[onward] // 2).tolist(), (two[onward] // 2).tolist(), strict=True)
    ends: Ints = met.reshape(-1, 2).sum(axis=1).astype(np.int64)
    for pieces in groups(whole):
        ends[pieces] = min(2, int(ends[pieces].sum()))
    return ends


def _cornered(strokes: Strokes, rows: Ints, near: float) -> npt.NDArray[np.bool_]:
    """Which of some straight strokes end at both ends beside the end of one that runs another way, as chamfers do.

    A hand misses a corner by a little; a hatch line ends on the middle of lines, and beside its like.
    """
    ends, size = strokes.ends.reshape(-1, 2), strokes.chord_lengths
    reach = np.minimum(BESIDE_CORNER * near, SHORT_OF * size[rows])
    way = (strokes.ends[:, 2:] - strokes.ends[:, :2]) / np.where(size > 0, size, 1.0)[:, None]
    tree, found = shapely.STRtree(shapely.points(ends)), np.ones(len(rows), dtype=bool)
    for k in (0, 2):
        one, two = tree.query(shapely.points(strokes.ends[rows, k : k + 2]), "dwithin", reach)
        turn = way[rows[one], 0] * way[two // 2, 1] - way[rows[one], 1] * way[two // 2, 0]
        met = np.zeros(len(rows), dtype=bool)
        met[one[(np.abs(turn) > STRAY_SLANT) | (strokes.bulge[two // 2] != 0)]] = True
        found &= met
    return found


def _families(angle: Floats) -> "list[np.ndarray[tuple[int], np.dtype[np.int64]]]":
    """Indices of strokes of one slant, within a tenth of a degree or so."""
    if not len(angle):
        return []
    order = np.argsort(angle)
    cuts = np.flatnonzero(np.diff(angle[order]) > ONE_SLANT) + 1
    return list(np.split(order, cuts))


def _even(row: "_Row", near: float) -> bool:
    """True if most lines of a family stand one spacing, or whole spacings, from the next beside them."""
    gaps = row.gaps[row.gaps > LEAST_GAP * near]
    if len(gaps) < LEAST - 1:
        return False
    ratio = gaps / np.median(gaps)
    return bool((np.abs(ratio - np.round(ratio)) < OFF_STEP).mean() > MOST_EVEN)


@dataclass(frozen=True)
class _Row:
    """Lines of one slant: places across it, least and greatest places along it, float (n,), in order across.

    Two halves of a section are hatched at one slant but not in one step, so a line is held against those that lie
    beside it, not against all.
    """

    across: Floats
    low: Floats
    high: Floats

    @staticmethod
    def of(ends: Floats, turn: float) -> "_Row":
        """Lines float (n, 4) that lean by `turn`."""
        along, across = np.array([math.cos(turn), math.sin(turn)]), np.array([-math.sin(turn), math.cos(turn)])
        places = (ends[:, :2] + ends[:, 2:]) / 2 @ across
        one, two = ends[:, :2] @ along, ends[:, 2:] @ along
        order = np.argsort(places, kind="stable")
        return _Row(places[order], np.minimum(one, two)[order], np.maximum(one, two)[order])

    def shared(self, low: float, high: float) -> npt.NDArray[np.bool_]:
        """True for lines that run beside a fair part of a stretch along them: lines of two halves only just do."""
        common = np.minimum(self.high, high) - np.maximum(self.low, low)
        return np.asarray(common > BESIDE * np.minimum(self.high - self.low, high - low))

    @cached_property
    def gaps(self) -> Floats:
        """From each line to the next that lies beside some of it; none for the last."""
        found = []
        for k in range(len(self.across) - 1):
            after = slice(k + 1, k + 1 + MOST_BESIDE)
            row = _Row(self.across[after], self.low[after], self.high[after])
            apart = row.across[row.shared(self.low[k], self.high[k])] - self.across[k]
            found += apart[apart > DUST * (self.high[k] - self.low[k])][:1].tolist()
        return np.array(found)

    def goes_on(self, line: "_Row", near: float) -> bool:
        """True if one more line of the same slant stands one spacing beside one of these, or is in line with one."""
        step = float(np.median(self.gaps[self.gaps > LEAST_GAP * near]))
        beside = self.shared(float(line.low[0]), float(line.high[0]))
        off = np.abs(np.abs(self.across - line.across) - np.where(beside, step, 0.0))
        return bool((off <= STRAY_STEP * step).any())


def hatch_shapes(segments: Segments, loose: frozenset[int]) -> list[shapely.Geometry]:
    """What is hatched, on the sheet: polygons of HATCH boundaries, and loose hatch lines."""
    border = segments.ends[segments.of(lambda s: s.owner == "HATCH")]
    every = shapely.union_all(shapely.linestrings(border.reshape(-1, 2, 2)))
    polygons = shapely.get_parts(shapely.polygonize([every])) if len(border) else []
    return [*polygons, *shapely.linestrings(segments.ends[sorted(loose)].reshape(-1, 2, 2))]


def hatched_ways(segments: Segments) -> list[tuple[shapely.Polygon, float]]:
    """The areas of HATCH entities on the sheet with the way their lines run; none where all run one way."""
    leans = {k: s.lean for k, s in enumerate(segments.sources) if s.owner == "HATCH" and s.lean is not None}
    if len(set(leans.values())) < 2:
        return []
    borders = ((segments.ends[segments.source == k], lean) for k, lean in leans.items())
    rings = ((shapely.union_all(shapely.linestrings(ends.reshape(-1, 2, 2))), lean) for ends, lean in borders)
    return [(area, lean) for ring, lean in rings for area in shapely.get_parts(shapely.polygonize([ring])).tolist()]


def is_hatched(face: shapely.Polygon, shapes: Sequence[shapely.Geometry]) -> bool:
    """True if a face lies in a hatched polygon, or three loose hatch lines have their middle in it or run across it.

    So they do across a narrow one on their way, as between a thread's land and its root.
    """
    if not shapes:
        return False
    held = np.array(shapes, dtype=object)
    kinds = shapely.get_type_id(held)
    if shapely.contains(held[kinds == shapely.GeometryType.POLYGON], face.representative_point()).any():
        return True
    lines = held[kinds == shapely.GeometryType.LINESTRING]
    shapely.prepare(face)
    within = int(shapely.contains(face, shapely.line_interpolate_point(lines, 0.5, normalized=True)).sum())
    return within > 2 or within + len(_across(face, lines[shapely.crosses(lines, face)])) > 2


def _across(face: shapely.Polygon, lines: np.ndarray) -> np.ndarray:
    """The pieces of lines that lead from edge to edge of a face; one that only runs out into it does not."""
    pieces = shapely.get_parts(shapely.intersection(lines, face))
    pieces = pieces[shapely.get_type_id(pieces) == shapely.GeometryType.LINESTRING]
    ends = shapely.points(shapely.get_coordinates([shapely.get_point(pieces, k) for k in (0, -1)]).reshape(2, -1, 2))
    off = shapely.distance(ends, face.boundary).max(axis=0, initial=0.0)
    return np.asarray(pieces[off <= RUN_OUT * shapely.length(pieces)])
