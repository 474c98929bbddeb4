"""Lines and arcs that nothing explains and that stand at the part on both sides of its axis: outline left over.

A mark, a letter or a leader stands on one side. What has a mirror image about the axis and begins at the part that
was read belongs to a part: a piece behind a missing wall, or another part. A line in the air of a recess is a wall or
floor drawn twice. Short lines in a row within the metal are a hidden line drawn dash by dash. Whole lines within the
metal: see `recess.ghosts`.
"""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.joining import groups
from extractor.geometry.profile import points
from extractor.hidden_ends import hidden_end
from extractor.ink import InkLedger
from extractor.ledger import line_of
from extractor.part import ProfilePoints
from extractor.recess.lands import from_outside, lands
from extractor.recess.recognise import Found
from extractor.sheet import Floats, Pen, Sheet
from extractor.viewing.clusters import Ink
from extractor.viewing.outline import Folded
from extractor.viewing.roles import Role, Roles
from extractor.viewing.views import View

NEXT = 0.02
"""What begins within this share of the view's size of its outline hangs together with it."""

LONGER = 1.5
"""A view's centre line is at most so many times as long as the view: longer ones run through several."""

DASHES = 4
"""So many dashes on each side of an axis are the least corner of a hidden line drawn dash by dash: two and two."""

TURNED = [1, 0, 3, 2, 5, 4]
"""The columns of lines laid along z in the order that makes r of z."""

LINES = 2
"""So many lines on each side of an axis are more than a stray."""

ENOUGH = 0.01
"""Lines that are outside the part for less than this share of the view's size, together, are specks: a thread's root
drawn to the face runs out of the chamfer."""

SMALL = 0.1
"""Letters are no larger than this share of the view's size."""

LETTERS = 20
"""So many small figures beside the view of a sheet without a text are letters drawn as lines: a few are marks."""


def left_over(ledger: InkLedger, folded: Folded, found: Found) -> Finding | None:
    """What is said of lines and arcs at the part that nothing explains, stops first, None where there are none."""
    lines = lines_of(ledger.left)
    at = at_part(lines, folded, found)
    if at is not None:
        return _stop(at, both=folded.view.halves == "both")
    within = in_recess(lines, folded, found)
    if within is not None and within[1]:
        return _second(*within)
    dash = in_dashes(lines, folded, found)
    if dash is not None:
        return _dashed(dash)
    end = hanging(lines, folded, found)
    if end is not None:
        return _hangs(end)
    hidden = hidden_end(folded, found)
    if hidden is not None:
        return _hidden(hidden)
    return None if within is None else _second(*within)


def array_at(sheet: Sheet, view: View) -> Finding | None:
    """The stop for a part that stands in the box of an array that was not read, None where there is none."""
    part = shapely.MultiPoint(view.corners()).convex_hull
    box = next((box for box in sheet.arrays if shapely.box(*box).distance(part) <= NEXT * view.size), None)
    if box is None:
        return None
    at = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    words = (
        f"The array of references at {place_words(at)} has too many lines to be read and stands at the part; take it "
        "off the sheet, or away from the part."
    )
    return Finding(Level.STOP, DrawingCode.TOO_MANY_ENTITIES, words, at)


def axis_unread(sheet: Sheet, ink: Ink, view: View, known: Sequence[View]) -> Finding | None:
    """The caution for a centre line from end to end of the view, beside it, about which nothing was read.

    Another view of the part stands so (ISO 5456-2, from memory), with lines on both sides; `known` are the views that
    were looked at.
    """
    segments = sheet.segments
    ends = segments.ends[segments.of(lambda s: s.pen is Pen.CENTRE) & (segments.bulge == 0)]
    a, b = view.axis.fold(ends[:, :2]), view.axis.fold(ends[:, 2:])
    off, near = (a[:, 1] + b[:, 1]) / 2, NEXT * view.size
    level = np.abs(a[:, 1] - b[:, 1]) <= near
    low, high = np.minimum(a[:, 0], b[:, 0]), np.maximum(a[:, 0], b[:, 0])
    fit = level & (np.abs(off) > view.reach + near) & (low <= view.low + near) & (high >= view.high - near)
    fit &= high - low <= LONGER * (view.high - view.low)
    drawn = [r for r in off[fit].tolist() if _both_sides_of(r, ink, view)]
    spots = [view.axis.unfold((view.low + view.high) / 2, r) for r in drawn]
    at = next((at for at in spots if not any(one.covers(at, near) for one in known)), None)
    if at is None:
        return None
    words = (
        f"A centre line at {place_words(at)} runs from end to end of the view that was read, beside it, and no view "
        "was read there: if the part is drawn there as well, see what it shows."
    )
    return Finding(Level.CAUTION, DrawingCode.PASSED_OVER, words, at)


def letters_as_lines(sheet: Sheet, ink: Ink, roles: Roles, view: View) -> Finding | None:
    """The stop for a sheet without a text or a dimension whose letters are drawn as lines: nobody knows what it says.

    Of a very large sheet the letters are no longer among the strokes of `ink`.
    """
    if sheet.texts or sheet.dimensions:
        return None
    rest = [c.box for k, c in enumerate(ink.clusters) if k not in view.members]
    boxes = np.array([*rest, *_on_dimension_layers(ink, roles)]).reshape(-1, 2, 2)
    small = np.hypot(*(boxes[:, 1] - boxes[:, 0]).T) <= SMALL * view.size
    beside = [at for at in boxes[small].mean(axis=1).tolist() if not view.covers(at)]
    claimed = [k for claim in roles.claims if claim.role is Role.LETTER for k in claim.labels]
    if len(beside) + len(claimed) < LETTERS:
        return None
    at: Point = (beside[0][0], beside[0][1]) if beside else line_of(sheet.segments, min(claimed))[0]
    words = (
        f"The letters of the sheet are drawn as lines, see {place_words(at)}: no size, tolerance or scale that it "
        "prints could be read; send the drawing with its texts, or --scale 1 takes all as drawn."
    )
    return Finding(Level.STOP, DrawingCode.SHEET_SCALE, words, at, scales=(1.0,))


def _on_dimension_layers(ink: Ink, roles: Roles) -> list[Floats]:
    """Boxes, float (4,), of what hangs together among the strokes that only their layer names for dimensions."""
    named = {k for claim in roles.claims if claim.by_layer and claim.role is Role.DIMENSION for k in claim.labels}
    network = ink.network
    pieces = network.pieces(frozenset(e.label for e in network.edges) - named) if named else ()
    nodes = (network.nodes[np.array([network.edges[k][:2] for k in piece]).ravel()] for piece in pieces)
    return [np.concatenate([at.min(axis=0), at.max(axis=0)]) for at in nodes]


def _both_sides_of(height: float, ink: Ink, view: View) -> bool:
    """True if lines stand on both sides of a height beside a view, within its ends, no farther off than it reaches."""
    strokes = ink.strokes.pick(~np.isin(ink.strokes.label, list(ink.aside)))
    a, b = view.axis.fold(strokes.ends[:, :2]), view.axis.fold(strokes.ends[:, 2:])
    along, off = (a[:, 0] + b[:, 0]) / 2, (a[:, 1] + b[:, 1]) / 2 - height
    near = (view.low <= along) & (along <= view.high) & (np.abs(off) <= view.reach)
    return bool(min((near & (off > 0)).sum(), (near & (off < 0)).sum()) >= LINES)


def lines_of(strokes: Iterable[Sequence[Point]]) -> Floats:
    """Strokes, each as its chords, as float (n, 6): both ends and a point half-way along."""
    rows = [(*line[0], *line[-1], *half_way(line)) for line in strokes]
    return np.array(rows, dtype=float).reshape(-1, 6)


def half_way(line: Sequence[Point]) -> Point:
    """The middle of a stroke in chords of one length."""
    (ax, ay), (bx, by) = line[(len(line) - 1) // 2], line[len(line) // 2]
    return (ax + bx) / 2, (ay + by) / 2


def at_part(lines: Floats, folded: Folded, found: Found) -> Point | None:
    """A place on the longest of the lines that stand at the part on both sides, None if they are no more than specks.

    `lines` is float (n, 6), ends and middle of each on the sheet.
    """
    if not len(lines):
        return None
    lines, shapes = _laid(lines, folded)
    part = _both_sides(lands(found.main.profile, found.main.recesses))
    outside = shapely.length(shapely.difference(shapes, part.buffer(folded.close)))
    fit = (shapely.distance(shapes, part) <= NEXT * folded.view.size) & (outside > 0)
    rows = np.flatnonzero(fit)
    if not len(rows):
        return None
    # Those alone: each is held against each, and the image of what stands at the part stands there too.
    if folded.view.halves == "both":
        fit[rows] = _mirrored(lines[rows], folded.close)
    else:
        fit &= _open_corners(lines, shapes, part, folded)
    fit &= ~_of_a_size(lines, folded.close)
    size = np.where(fit, outside, 0.0)
    if float(size.sum()) <= ENOUGH * folded.view.size:
        return None
    return folded.axis.unfold(*lines[size.argmax(), 4:].tolist())


def in_recess(lines: Floats, folded: Folded, found: Found) -> tuple[Point, bool] | None:
    """A place on a line in the air of a recess, from floor or wall to mouth or to the other wall.

    And whether it stands in all halves drawn; such lines come first. A wall or floor that was left when the recess was
    changed lies so. Other things end elsewhere: a dimension line goes on out of the recess, and nothing is seen behind
    it.
    """
    if not len(lines):
        return None
    lines, shapes = _laid(lines, folded)
    part = _both_sides(points(found.main.profile))
    air = shapely.difference(_both_sides(lands(found.main.profile, found.main.recesses)), part)
    inside = shapely.length(shapely.intersection(shapes, air.buffer(-folded.close)))
    ends = [shapely.distance(shapely.points(lines[:, k : k + 2]), air.boundary) <= folded.close for k in (0, 2)]
    rows = np.flatnonzero(ends[0] & ends[1] & (inside > 0))
    if not len(rows):
        return None
    whole = folded.view.halves != "both" or _mirrored(lines[rows], folded.close)
    longest = max(zip(np.broadcast_to(whole, len(rows)).tolist(), inside[rows].tolist(), rows.tolist(), strict=True))
    return folded.axis.unfold(*lines[longest[2], 4:].tolist()), longest[0]


def in_dashes(lines: Floats, folded: Folded, found: Found) -> Point | None:
    """A place on a hidden line drawn dash by dash within the metal of all halves drawn, None where there is none.

    Its dashes lie along the axis or square to it.
    """
    if not len(lines):
        return None
    lines, shapes = _laid(lines, folded)
    both, near = folded.view.halves == "both", folded.close
    lines = lines[shapely.contains(_both_sides(points(found.main.profile)).buffer(near), shapes)]
    lines = lines[_in_rows(lines, near) | _in_rows(lines[:, TURNED], near)]
    lines = lines[_mirrored(lines, near)] if both and len(lines) else lines
    return folded.axis.unfold(*lines[0, 4:].tolist()) if len(lines) >= DASHES * (1 + both) else None


def hanging(lines: Floats, folded: Folded, found: Found) -> Point | None:
    """Where lines end loose in the metal that begin at its edge, themselves or by others, None where there are none.

    The walls of a groove whose floor is missing end so. A line alone is a stray, one along the axis a thread's root.
    """
    if not len(lines) or not folded.network.loose:
        return None
    lines, shapes = _laid(lines, folded)
    near, metal = folded.close, shapely.union_all([f.polygon for s in found.halves for f in s.half.material.faces])
    lines, shapes = (all_of[shapely.contains(metal.buffer(near), shapes)] for all_of in (lines, shapes))
    rows = _in_rows(lines, near) | _in_rows(lines[:, TURNED], near)
    # A dash meets dashes alone: what meets another line is an edge with a gap in it.
    rows &= ~shapely.dwithin(shapes, shapely.union_all(shapes[~rows]), near)
    shapes = shapes[~rows]
    loose = shapely.points(folded.network.nodes[folded.network.loose])
    loose = loose[shapely.dwithin(loose, shapely.union_all(shapes), near)]
    loose = loose[shapely.distance(loose, metal.boundary) > near]
    if not len(loose):
        return None
    hung, ends = 0, list[Point]()
    for rows in groups(shapely.STRtree(shapes).query(shapes, "dwithin", near).T.tolist()):
        piece = shapely.union_all(shapes[rows])
        _, low, _, high = piece.bounds
        at = shapely.get_coordinates(loose[shapely.dwithin(loose, piece, near)]).tolist()
        if at and high - low > near and shapely.dwithin(piece, metal.boundary, near):
            hung, ends = hung + len(rows), [*ends, *at]
    return folded.axis.unfold(*ends[0]) if hung >= LINES else None


def _in_rows(lines: Floats, near: float) -> np.ndarray:
    """True for lines along the first axis that stand in line with another over a gap no longer than one of them."""
    low, high = np.minimum(lines[:, 0], lines[:, 2]), np.maximum(lines[:, 0], lines[:, 2])
    rows = np.flatnonzero(np.ptp(lines[:, 1::2], axis=1) <= near)
    rows = rows[np.lexsort((low[rows], np.round(lines[rows, 1] / near)))]
    one, two = rows[:-1], rows[1:]
    gap, long = low[two] - high[one], np.maximum((high - low)[one], (high - low)[two])
    pairs = (np.abs(lines[one, 1] - lines[two, 1]) <= near) & (gap > near) & (gap <= long)
    found = np.zeros(len(lines), dtype=bool)
    found[one[pairs]] = found[two[pairs]] = True
    return found


def _laid(lines: Floats, folded: Folded) -> tuple[Floats, np.ndarray]:
    """Lines float (n, 6) laid along z, and as shapes through their middles."""
    laid = np.hstack([folded.axis.fold(lines[:, k : k + 2]) for k in (0, 2, 4)])
    return laid, shapely.linestrings(laid[:, [0, 1, 4, 5, 2, 3]].reshape(-1, 3, 2))


def _both_sides(line: ProfilePoints) -> shapely.Geometry:
    """The area between an outline as seen from outside and its image about the axis."""
    seen = from_outside(line)
    return shapely.Polygon([*seen, *((z, -r) for z, r in reversed(seen))]).buffer(0.0)


def _mirrored(lines: Floats, near: float) -> np.ndarray:
    """True for arcs, and lines along the axis or square to it, that have their mirror image about the axis among them.

    What lies on the axis is the axis, whatever its pen.
    """
    beside = np.abs(lines[:, 1::2]).max(axis=1) > near
    curved = np.hypot(*(lines[:, 4:] - (lines[:, :2] + lines[:, 2:4]) / 2).T) > near
    upright = np.minimum(np.abs(lines[:, 0] - lines[:, 2]), np.abs(lines[:, 1] - lines[:, 3])) <= near
    images = lines * (1, -1, 1, -1, 1, -1)
    turned = images[:, [2, 3, 0, 1, 4, 5]]
    away = np.minimum(*(np.abs(lines[:, None] - other[None]).max(axis=2) for other in (images, turned)))
    return np.asarray(beside & (curved | upright) & (away.min(axis=1) <= near))


def _open_corners(lines: Floats, shapes: np.ndarray, part: shapely.Geometry, folded: Folded) -> np.ndarray:
    """True for lines square to the axis or along it from the part on, that turn a corner and lead to a loose end.

    So does an outline in which a line is missing. An extension line ends without a corner, and a leader leans.
    """
    near, found = folded.close, np.zeros(len(lines), dtype=bool)
    loose = shapely.points(folded.network.nodes[folded.network.loose])
    loose = loose[shapely.distance(loose, part) > near]
    ends = lines[:, :4].reshape(-1, 2, 2)
    off = shapely.distance(shapely.points(ends), part)
    square = np.minimum(*np.abs(ends[:, 0] - ends[:, 1]).T) <= near
    begins = square & (off.min(axis=1) <= NEXT * folded.view.size) & (off.max(axis=1) > near)
    for rows in groups(shapely.STRtree(shapes).query(shapes, "dwithin", near).T.tolist()):
        if shapely.dwithin(loose, shapely.union_all(shapes[rows]), near).any():
            found[rows] = [begins[k] and _turns(ends[rows], ends[k], int(off[k].argmax()), near) for k in rows]
    return found


def _turns(ends: Floats, line: Floats, far: int, near: float) -> bool:
    """True if nothing but one other line meets the far end of a line, at an angle, straight on or after others.

    `ends` is float (n, 2, 2), the lines that hang together; `line` is one of them.
    """
    for _ in range(len(ends)):
        there = np.abs(ends - line[far]).max(axis=2) <= near
        on = np.flatnonzero(there.any(axis=1) & (np.abs(ends - line).max(axis=(1, 2)) > 0))
        if len(on) != 1:
            return False
        follower, run = ends[on[0]], line[far] - line[1 - far]
        far = int(there[on[0]].argmin())
        way = follower[far] - follower[1 - far]
        if abs(run[0] * way[1] - run[1] * way[0]) > near * float(np.hypot(*way)):
            return True
        line = follower
    return False


def _of_a_size(lines: Floats, near: float) -> np.ndarray:
    """True for a line across the axis and the two that it ends on and that run on beyond it.

    That is how a diameter's dimension line ends on its extension lines (ISO 129-1, from memory); a corner has no such.
    """
    found = np.zeros(len(lines), dtype=bool)
    low, high = np.minimum(lines[:, 0], lines[:, 2]), np.maximum(lines[:, 0], lines[:, 2])
    level = np.abs(lines[:, 1] - lines[:, 3]) <= near
    for k in np.flatnonzero((np.abs(lines[:, 1] + lines[:, 3]) <= near) & (high - low <= near)):
        z, r = lines[k, 0], abs(lines[k, 1])
        on = level & (np.abs(np.abs(lines[:, 1]) - r) <= near) & (low < z - near) & (z + near < high)
        found |= on
        found[k] |= on.any()
    return found


def _second(at: Point, in_all: bool) -> Finding:
    where = "stands in a recess" if in_all else "stands in a recess in one half alone"
    words = (
        f"The line at {place_words(at)} {where} and is no edge of it as it was read: a wall or a floor may be drawn "
        "twice; take away the one that is not meant."
    )
    return Finding(Level.STOP if in_all else Level.CAUTION, DrawingCode.LINES_UNEXPLAINED, words, at)


def _dashed(at: Point) -> Finding:
    words = (
        f"Short lines stand in a row at {place_words(at)}, like a hidden line drawn dash by dash, and were not read: "
        "give them a hidden line type, draw one full line if it is the edge of a groove, or accept it if it is neither."
    )
    return Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words, at)


def _hangs(at: Point) -> Finding:
    words = (
        f"A line that begins at the edge of the part ends in its metal at {place_words(at)}: the floor or wall of a "
        "groove may be missing; close it, or accept the line if it is the edge of none."
    )
    return Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words, at)


def _hidden(at: Point) -> Finding:
    words = (
        f"A hidden line ends loose in the metal at {place_words(at)} and encloses nothing: the wall or floor of a bore "
        "or of its groove may be missing; close it, or accept the line if it is the edge of none."
    )
    return Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words, at)


def _stop(at: Point, *, both: bool) -> Finding:
    words = (
        f"The line at {place_words(at)} {'and its mirror image touch' if both else 'touches'} the part and "
        f"{'are not edges' if both else 'is no edge'} of it as it was read: a line of the outline may be missing, or "
        "another part stands there; close the outline, or take away what is none of it."
    )
    return Finding(Level.STOP, DrawingCode.LINES_UNEXPLAINED, words, at)
