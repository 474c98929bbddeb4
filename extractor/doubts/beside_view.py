"""What stands in line with a view, or on its sheet, and was not read: an array, a centre line, hatching, letters."""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.doubts.ledger import line_of
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.boxes import box_of
from extractor.sheet import Floats, Sheet
from extractor.viewing.alike import ONE_SIZE
from extractor.viewing.axis import centre_segments
from extractor.viewing.clusters import Ink
from extractor.viewing.roles import Role, Roles
from extractor.viewing.views import NEAR_VIEW, View

NEXT = 0.02
"""What lies within this share of the view's size of it stands at it."""

LONGER = 1.5
"""A view's centre line is at most so many times as long as the view: longer ones run through several."""

LINES = 2
"""So many lines on each side of an axis are more than a stray."""

SMALL = 0.1
"""Letters are no larger than this share of the size of the largest view."""

LETTERS = 20
"""So many small figures beside the view of a sheet without a text are letters drawn as lines: a few are marks."""


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
    ends = sheet.segments.ends[centre_segments(sheet.segments)]
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


def letters_as_lines(sheet: Sheet, ink: Ink, roles: Roles, view: View, others: Iterable[View] = ()) -> Finding | None:
    """The stop for a sheet without a text or a dimension whose letters are drawn as lines: nobody knows what it says.

    They are small against the largest view, which may be one of `others`. Of a very large sheet the letters are no
    longer among the strokes of `ink`.
    """
    if sheet.texts or sheet.dimensions:
        return None
    rest = [c.box for k, c in enumerate(ink.clusters) if k not in view.members]
    boxes = np.array([*rest, *_on_dimension_layers(ink, roles)]).reshape(-1, 2, 2)
    small = np.hypot(*(boxes[:, 1] - boxes[:, 0]).T) <= SMALL * max(v.size for v in (view, *others))
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
    return [box_of(at) for at in nodes]


def _both_sides_of(height: float, ink: Ink, view: View) -> bool:
    """True if lines stand on both sides of a height beside a view, within its ends, no farther off than it reaches."""
    strokes = ink.strokes.pick(~np.isin(ink.strokes.label, list(ink.aside)))
    a, b = view.axis.fold(strokes.ends[:, :2]), view.axis.fold(strokes.ends[:, 2:])
    along, off = (a[:, 0] + b[:, 0]) / 2, (a[:, 1] + b[:, 1]) / 2 - height
    near = (view.low <= along) & (along <= view.high) & (np.abs(off) <= view.reach)
    return bool(min((near & (off > 0)).sum(), (near & (off < 0)).sum()) >= LINES)


def hatched_beside(ink: Ink, view: View, shown: Sequence[View]) -> Finding | None:
    """The caution for a section of the part that was not read; `shown` are the views that were, or were told of.

    Such a section stands over or under the view (ISO 5456-2, from memory), from end to end of it.
    """
    if not ink.hatched:
        return None
    bounds = shapely.bounds(np.array(ink.hatched, dtype=object))
    corners = np.stack([view.axis.fold(bounds[:, pick]) for pick in ([0, 1], [0, 3], [2, 1], [2, 3])])
    low, high = corners[..., 0].min(axis=0), corners[..., 0].max(axis=0)
    middles, near = (bounds[:, :2] + bounds[:, 2:]) / 2, ONE_SIZE * (view.high - view.low)
    left = (low >= view.low - near) & (high <= view.high + near)
    for one in (view, *shown):
        left &= ~one.covering(middles, NEAR_VIEW * one.size)
    if not left.any() or low[left].min() > view.low + near or high[left].max() < view.high - near:
        return None
    x, y = middles[left][0].tolist()
    words = (
        f"The hatched figure at {place_words((x, y))} stands in line with the view and is as long as the part, but was "
        "not read: close its outline, or compare the part and its grooves with it."
    )
    return Finding(Level.CAUTION, DrawingCode.PASSED_OVER, words, (x, y))
