"""Lines and arcs that nothing explains and that stand at the part, in its recesses or in its metal.

A mark, a letter or a leader stands on one side. What has a mirror image about the axis and begins at the part that
was read belongs to a part: a piece behind a missing wall, or another part. At half a part, which has no other side, it
leads round a corner to a loose end. A line in the air of a recess is a wall or floor drawn twice. Short lines in a row
within the metal are a hidden line drawn dash by dash, and lines that hang in it from its edge a groove that is not
closed. Lines on the image of the outline are those of a half that does not close, where the other one was read: others
there may contradict it. Whole lines within the metal: see `recess.ghosts`.
"""

from collections.abc import Sequence
from functools import cached_property

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.doubts.broken_out import dip_in_metal
from extractor.doubts.hidden_ends import hidden_end
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.joining import groups
from extractor.geometry.profile import joined, points
from extractor.ink import InkLedger
from extractor.part import ProfilePoints
from extractor.recess import remarks
from extractor.recess.laid_lines import dashes, half_way, met, mirrored, of_a_plane, of_a_size, turns
from extractor.recess.lands import from_outside
from extractor.recess.recognise import Found
from extractor.sheet import Floats, Ints
from extractor.values import dataclass
from extractor.viewing.outline import Folded

NEXT = 0.02
"""What begins within this share of the view's size of its outline hangs together with it."""

DASHES = 4
"""So many dashes on each side of an axis are the least corner of a hidden line drawn dash by dash: two and two."""

FEW = 2
"""And so many on each side may be a short one: the floor of a narrow groove alone."""

LINES = 2
"""So many lines that hang in the metal are more than a stray."""

ENOUGH = 0.01
"""Lines that are outside the part for less than this share of the view's size, together, are specks: a thread's root
drawn to the face runs out of the chamfer."""


def left_over(ledger: InkLedger, folded: Folded, found: Found) -> Finding | None:
    """What is said of lines and arcs at the part that nothing explains, stops first, None where there are none."""
    left = LinesLeft.of(ledger.left, folded, found)
    told = _of_lines(left) if len(left.lines) else None
    if told is not None and told.stops:
        return told
    hidden = hidden_end(folded, found)
    return told if hidden is None else _unclear(HIDDEN, hidden)


def _of_lines(left: "LinesLeft") -> Finding | None:
    """The same of lines alone; a caution where no more than one half shows them."""
    if (at := left.at_part()) is not None:
        return _stop(at, both=left.both)
    if (told := left.in_dashes() or left.floor_again() or left.in_metal()) is not None:
        return told
    if (told := dip_in_metal(left.folded, left.lines, left.shapes, left.metal)) is not None:
        return told
    within = left.in_recess() or left.at_foot()
    if within is not None and within[1]:
        return _second(*within)
    if (at := left.hanging()) is not None:
        return _unclear(HANGS, at)
    if (open_half := left.open_half()) is not None:
        at, odd = open_half
        return _unclear(OPEN.format("{}", odd) if odd else LACKING, at)
    return left.in_dashes(FEW) if within is None else _second(*within)


def told_as_dashes(told: Sequence[Finding], ledger: InkLedger, folded: Folded, found: Found) -> tuple[Finding, ...]:
    """What was told of a view, a line of another outline told as the dash of a hidden line where such are drawn.

    It is no longer than those.
    """
    odd = [f for f in told if f.stops and f.code == DrawingCode.LINES_UNEXPLAINED and f.at is not None]
    left = LinesLeft.of(ledger.left, folded, found) if odd else None
    dashed = left.in_dashes() if left is not None else None
    if left is None or dashed is None:
        return tuple(told)
    size = shapely.length(left.shapes)
    short = shapely.union_all(left.shapes[size <= size[left.in_rows].max() + folded.close])
    places = shapely.points(folded.axis.fold(np.array([f.at for f in odd])))
    mine = [f for f, on in zip(odd, shapely.dwithin(places, short, folded.close), strict=True) if on]
    return tuple(dashed if f is mine[0] else f for f in told if f not in mine[1:]) if mine else tuple(told)


@dataclass(frozen=True)
class LinesLeft:
    """Lines at a view, held against the part: float (n, 6), ends and middle of each as (z, r), and as shapes."""

    lines: Floats
    shapes: np.ndarray
    folded: Folded
    found: Found

    @classmethod
    def of(cls, strokes: Sequence[Sequence[Point]], folded: Folded, found: Found) -> "LinesLeft":
        """Strokes of the sheet, each as its chords."""
        rows = np.array([(*line[0], *line[-1], *half_way(line)) for line in strokes]).reshape(-1, 6)
        laid = np.hstack([folded.axis.fold(rows[:, k : k + 2]) for k in (0, 2, 4)])
        points = folded.axis.fold(np.array([at for line in strokes for at in line]).reshape(-1, 2))
        line_of = np.repeat(np.arange(len(strokes)), [len(line) for line in strokes])
        return cls(laid, shapely.linestrings(points, indices=line_of), folded, found)

    @property
    def both(self) -> bool:
        """True if both halves of the part are drawn."""
        return self.folded.view.halves == "both"

    def at_part(self) -> Point | None:
        """A place on the longest of the lines that stand at the part, None if they are no more than specks.

        On both sides of it, or from half a part round a corner.
        """
        lines, near, size = self.lines, self.folded.close, self.folded.view.size
        part = _both_sides(self.found.main.filled)
        outside = shapely.length(shapely.difference(self.shapes, part.buffer(near)))
        fit = (shapely.distance(self.shapes, part) <= NEXT * size) & (outside > 0)
        rows = np.flatnonzero(fit)
        if not len(rows):
            return None
        # Those alone: each is held against each, and the image of what stands at the part stands there too.
        fit[rows] = mirrored(lines[rows], near) if self.both else self._open_corners(part)[rows]
        fit &= ~of_a_size(lines, near)
        outside[~fit] = 0.0
        return self._on_sheet(int(outside.argmax())) if float(outside.sum()) > ENOUGH * size else None

    def floor_again(self) -> Finding | None:
        """The stop for a line from wall to wall of a recess at another depth, in its air or in the metal, None if none.

        Walls are taken to run on. No mouth line, no floor, nothing on the axis; an arc is as deep as its middle.
        """
        near, r = self.folded.close, np.abs(self.lines[:, 5])
        ends = np.sort(self.lines[:, [0, 2]], axis=1)
        level = (np.ptp(self.lines[:, [1, 3]], axis=1) <= near) & (r > near)
        for m in (*self.found.outside, *self.found.inside) if level.any() else ():
            deep, full = (m.mouth - r) * (1 if m.mouth > m.floor else -1), abs(m.mouth - m.floor)
            at_walls = np.abs(ends - (m.z_far, m.z_near)).max(axis=1) <= near
            fit = level & at_walls & (deep > near) & (np.abs(deep - full) > near)
            if fit.any() and (fit := fit & ~of_a_plane(self.lines, m, near)).any():
                return _again(float(deep[fit][0]), full, self._on_sheet(int(fit.argmax())))
        return None

    def in_metal(self) -> Finding | None:
        """The stop for an arc within the metal of all halves drawn from edge to edge of it, None where there is none.

        So a round floor lies that was left, with its ends as far from the axis. At a hole across it arcs have a reason.
        """
        near, metal = self.folded.close, self.metal
        z, r = self.lines[:, 4:].T
        fit = (np.ptp(self.lines[:, [1, 3]], axis=1) <= near) & (np.abs(r - self.lines[:, 1]) > near)
        for low, high in self.found.halves[0].covered:
            fit &= (z < low) | (z > high)
        rows = np.flatnonzero(fit)
        rows = rows[shapely.contains(metal.buffer(near), self.shapes[rows])]
        ends = shapely.points(self.lines[rows, :4].reshape(-1, 2, 2))
        rows = rows[shapely.dwithin(ends, metal.boundary, near).all(axis=1)]
        rows = rows[mirrored(self.lines[rows], near)] if self.both and len(rows) else rows
        at = [(float(z[k]), abs(float(r[k]))) for k in rows[:1]]
        return remarks.told(self.folded, self.found.side, at[0], DrawingCode.LINES_UNEXPLAINED) if at else None

    def in_recess(self) -> tuple[Point, bool] | None:
        """A place on a line in the air of a recess, by itself or with others from edge to edge of it.

        And whether it stands in all halves drawn; such lines come first. A wall or floor that was left when the recess
        was changed lies so, from wall or floor to mouth or other wall, or as high or wide as an edge of the recess.
        Other things end elsewhere: a dimension line goes on out of the recess, and nothing is seen behind it.
        """
        near, main = self.folded.close, self.found.main
        air = shapely.difference(_both_sides(main.filled), _both_sides(main.line))
        bored = [shapely.box(m.z_far, s * m.mouth, m.z_near, s * m.floor) for m in self.found.inside for s in (1, -1)]
        air = shapely.union_all([air, *bored])
        inside = shapely.length(shapely.intersection(self.shapes, air.buffer(-near)))
        rows = np.flatnonzero(inside > 0)
        if not len(rows):
            return None
        rows = rows[self._from_edge_to_edge(rows, shapely.union_all([air.boundary, *self._levels()]))]
        if not len(rows):
            return None
        whole = mirrored(self.lines[rows], near) if self.both else np.ones(len(rows), dtype=bool)
        first, _, longest = max(zip(whole.tolist(), inside[rows].tolist(), rows.tolist(), strict=True))
        return self._on_sheet(longest), first

    def at_foot(self) -> tuple[Point, bool] | None:
        """A place on a line of one half alone from the foot of a recess's wall into the metal, and on to its edge.

        And False. So an older wall and what is left of its floor stand beside the new wall; both halves: `ghosts`.
        """
        near, metal = self.folded.close, self.metal
        feet = [(z, s * m.floor) for m in self.found.outside for z in (m.z_near, m.z_far) for s in (1, -1)]
        rows = np.flatnonzero(shapely.contains(metal.buffer(near), self.shapes))
        rows = rows[self._from_edge_to_edge(rows, shapely.union_all([metal.boundary, shapely.MultiPoint(feet)]))]
        tips = shapely.points(self.lines[rows, :4].reshape(-1, 2, 2))
        at = shapely.dwithin(tips, shapely.MultiPoint(feet), near)
        within = ~shapely.dwithin(tips, metal.boundary, near)
        rows = rows[at.any(axis=1) & within.any(axis=1)]
        return (self._on_sheet(rows[0]), False) if len(rows) else None

    def _levels(self) -> list[shapely.Geometry]:
        """Lines right across each recess at its corners, along the axis and square to it, on both sides of that."""
        pieces = (*self.found.main.profile, *joined(self.found.halves[0].half.bore, self.folded.close))
        corners, lines = np.array([piece.start for piece in pieces]), []
        for m in (*self.found.outside, *self.found.inside):
            low, high = (m.z_far, min(m.mouth, m.floor)), (m.z_near, max(m.mouth, m.floor))
            held = corners[((corners >= low) & (corners <= high)).all(axis=1)]
            lines += [[(low[0], r), (high[0], r)] for r in held[:, 1]]
            lines += [[(z, low[1]), (z, high[1])] for z in held[:, 0]]
        found = np.array(lines).reshape(-1, 2, 2)
        return list(shapely.linestrings(np.concatenate([found, found * (1, -1)])))

    def _from_edge_to_edge(self, rows: Ints, edges: shapely.Geometry) -> np.ndarray:
        """True for lines with both ends on edges, and for those that hang together and have no other end free."""
        near, tips = self.folded.close, self.lines[rows, :4].reshape(-1, 2, 2)
        on = shapely.dwithin(shapely.points(tips), edges, near)
        fit = on.all(axis=1)
        for mine in groups(shapely.STRtree(self.shapes[rows]).query(self.shapes[rows], "dwithin", near).T.tolist()):
            flat = tips[mine].reshape(-1, 2)
            ends, shared = on[mine].ravel(), met(flat, near)
            fit[mine] |= (ends | shared).all() and (ends & ~shared).sum() > 1
        return np.asarray(fit)

    @cached_property
    def in_rows(self) -> Ints:
        """The dashes of hidden lines drawn dash by dash within the metal of all halves drawn.

        They lie along the axis or square to it, and not on the edge of the metal: there they are the outline of
        a half that does not close.
        """
        near = self.folded.close
        metal = _both_sides(points(self.found.main.profile))
        rows: Ints = np.flatnonzero(shapely.contains(metal.buffer(near), self.shapes) & ~self._on_edge)
        rows = rows[dashes(self.lines[rows], near)]
        return rows[mirrored(self.lines[rows], near)] if self.both and len(rows) else rows

    def in_dashes(self, least: int = DASHES) -> Finding | None:
        """What is said of a hidden line drawn dash by dash, None if there is none: of a FEW a caution."""
        rows, front = self.in_rows, self.found.outline[0][0]
        if len(rows) < least * (1 + self.both) or (least < DASHES and not self.both):
            return None
        z, at = front - self.lines[rows][:, [0, 2]], self._on_sheet(rows[0])
        ends, words = (float(z.min()), float(z.max())), DASHED.format(place_words(at))
        if least < DASHES:
            return Finding.measured(Level.CAUTION, DrawingCode.LINES_UNEXPLAINED, f"{words}.", ends, at)
        words += ", or accept it if it is neither."
        return Finding.measured(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words, ends, at)

    def open_half(self) -> tuple[Point, int] | None:
        """A place in a half that does not close, and how many lines there are none of the half that was read.

        None where no such half is drawn.
        """
        part = _both_sides(self.found.main.filled)
        there = (self.lines[:, 5] * self.found.side < 0) & (not self.both)
        odd = np.flatnonzero(there & ~self._on_edge & shapely.dwithin(self.shapes, part, self.folded.close))
        rows = np.flatnonzero(there & self._on_edge)
        return (self._on_sheet((*odd, *rows)[0]), len(odd)) if len(rows) else None

    @cached_property
    def _on_edge(self) -> np.ndarray:
        """True for lines along the outline, the bore or their images about the axis."""
        bore = self.found.bore or ()
        edges = [shapely.LineString([(z, s * r) for z, r in bore]) for s in (1, -1)]
        edges.append(_both_sides(points(self.found.main.profile)).boundary)
        return np.asarray(shapely.contains(shapely.union_all(edges).buffer(self.folded.close), self.shapes))

    def hanging(self) -> Point | None:
        """Where lines end loose in the metal that begin at its edge, themselves or by others, None where none do.

        The walls of a groove whose floor is missing end so. A line alone is a stray, unless it stands beside a recess
        and ends as far from the axis as a corner of that, maybe at both ends; one along the axis is a thread's root.
        """
        if not self.folded.network.loose:
            return None
        near, metal = self.folded.close, self.metal
        within = shapely.contains(metal.buffer(near), self.shapes)
        lines, shapes = self.lines[within], self.shapes[within]
        dashed = dashes(lines, near)
        # A dash meets dashes alone: what meets another line is an edge with a gap in it.
        dashed &= ~shapely.dwithin(shapes, shapely.union_all(shapes[~dashed]), near)
        shapes = shapes[~dashed]
        loose = self._loose(metal.boundary)
        loose = loose[shapely.dwithin(loose, shapely.union_all(shapes), near)]
        hung, ends = 0, list[Point]()
        for rows in groups(shapely.STRtree(shapes).query(shapes, "dwithin", near).T.tolist()) if len(loose) else ():
            piece = shapely.union_all(shapes[rows])
            _, low, _, high = piece.bounds
            at = shapely.get_coordinates(loose[shapely.dwithin(loose, piece, near)]).tolist()
            known = all(self._beside(z, r) for z, r in at)
            if at and high - low > near and (known or shapely.dwithin(piece, metal.boundary, near)):
                hung, ends = hung + (LINES if known else len(rows)), [*ends, *at]
        return self.folded.axis.unfold(*ends[0]) if hung >= LINES else None

    def _beside(self, z: float, r: float) -> bool:
        """True for a place no farther from a recess than that is wide, and as far from the axis as a corner in it."""
        near, found = self.folded.close, self.found
        for m in (*found.outside, *found.inside):
            line = found.main.profile if m.mouth > m.floor else found.halves[0].half.bore
            room, low, high = m.width + near, m.z_far - near, m.z_near + near
            at_corner = any(abs(p.start[1] - abs(r)) <= near for p in line if low <= p.start[0] <= high)
            if m.z_far - room <= z <= m.z_near + room and at_corner:
                return True
        return False

    @cached_property
    def metal(self) -> shapely.Geometry:
        """The metal of all halves drawn."""
        return shapely.union_all([f.polygon for s in self.found.halves for f in s.half.material.faces])

    def _open_corners(self, part: shapely.Geometry) -> np.ndarray:
        """True for lines square to the axis or along it from the part on that turn a corner and lead to a loose end.

        So does an outline in which a line is missing. An extension line ends without a corner, and a leader leans.
        """
        near, found = self.folded.close, np.zeros(len(self.lines), dtype=bool)
        loose, ends = self._loose(part), self.lines[:, :4].reshape(-1, 2, 2)
        off = shapely.distance(shapely.points(ends), part)
        square = (np.minimum(*np.abs(ends[:, 0] - ends[:, 1]).T) <= near) & (off.max(axis=1) > near)
        for rows in groups(shapely.STRtree(self.shapes).query(self.shapes, "dwithin", near).T.tolist()):
            if shapely.dwithin(loose, shapely.union_all(self.shapes[rows]), near).any():
                found[rows] = [square[k] and turns(ends[rows], ends[k], int(off[k].argmax()), near) for k in rows]
        return found

    def _loose(self, known: shapely.Geometry) -> np.ndarray:
        """The loose ends of the view's lines, as points, but for those on what is known."""
        network = self.folded.network
        loose = shapely.points(network.nodes[network.loose])
        return np.asarray(loose[shapely.distance(loose, known) > self.folded.close])

    def _on_sheet(self, k: int) -> Point:
        """The middle of a line on the sheet."""
        return self.folded.axis.unfold(*self.lines[k, 4:].tolist())


def _both_sides(line: ProfilePoints) -> shapely.Geometry:
    """The area between an outline as seen from outside and its image about the axis."""
    seen = from_outside(line)
    return shapely.Polygon([*seen, *((z, -r) for z, r in reversed(seen))]).buffer(0.0)


DASHED = (
    "Short lines stand in rows from {{:.4g}} to {{:.4g}} behind the front face, as at {}, like hidden lines of a bore "
    "or of a groove drawn dash by dash, and were not read: show them in a section, give them a hidden line type, "
    "draw one full line if it is the edge of a groove"
)
OPEN = (
    "The half of the view at {} does not close, the other one was read for both, and lines in it that the other has "
    "not: {}; draw both alike, or accept it if these are the edges of a hole."
)
LACKING = (
    "The half of the view at {} does not close; the other one was read for both, and nothing in this one contradicts: "
    "close it, or accept it if it only lacks lines."
)
HANGS = (
    "A line that begins at the edge of the part ends in its metal at {}: the floor or wall of a groove may be missing; "
    "close it, or accept the line if it is the edge of none."
)
HIDDEN = (
    "A hidden line ends loose in the metal at {} and encloses nothing: the wall or floor of a bore or of its groove "
    "may be missing; close it, or accept the line if it is the edge of none."
)


def _unclear(words: str, at: Point) -> Finding:
    return Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words.format(place_words(at)), at)


def _second(at: Point, in_all: bool) -> Finding:
    where = "stands in a recess" if in_all else "stands in a recess in one half alone"
    words = (
        f"The line at {place_words(at)} {where} and is no edge of it as it was read: a wall or a floor may be drawn "
        "twice; take away the one that is not meant."
    )
    return Finding(Level.STOP if in_all else Level.CAUTION, DrawingCode.LINES_UNEXPLAINED, words, at)


def _again(deep: float, full: float, at: Point) -> Finding:
    words = (
        f"A line runs from wall to wall of the groove at {place_words(at)}, {{:.4g}} deep, where its floor is {{:.4g}} "
        "deep: draw both halves alike, and the groove with one floor."
    )
    return Finding.measured(Level.STOP, DrawingCode.HALVES_DISAGREE, words, (deep, full), at)


def _stop(at: Point, *, both: bool) -> Finding:
    words = (
        f"The line at {place_words(at)} {'and its mirror image touch' if both else 'touches'} the part and "
        f"{'are not edges' if both else 'is no edge'} of it as it was read: a line of the outline may be missing, or "
        "another part stands there; close the outline, or take away what is none of it."
    )
    return Finding(Level.STOP, DrawingCode.LINES_UNEXPLAINED, words, at)
