"""Lines and arcs that nothing explains and that stand at the part on both sides of its axis: outline left over.

A mark, a letter or a leader stands on one side. What has a mirror image about the axis and begins at the part that
was read belongs to a part: a piece behind a missing wall, or another part. Lines within it: see `recess.ghosts`.
"""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.ink import InkLedger
from extractor.recess.lands import from_outside, lands
from extractor.recess.recognise import Found
from extractor.sheet import Floats
from extractor.viewing.outline import Folded

NEXT = 0.02
"""What begins within this share of the view's size of its outline hangs together with it."""

ENOUGH = 0.01
"""Lines that are outside the part for less than this share of the view's size, together, are specks: a thread's root
drawn to the face runs out of the chamfer."""


def left_over(ledger: InkLedger, folded: Folded, found: Found) -> Finding | None:
    """The stop for lines and arcs at the part that nothing explains, None where there are none."""
    at = at_part(lines_of(ledger.left), folded, found)
    return None if at is None else _stop(at)


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
    if folded.view.halves != "both" or not len(lines):
        return None
    lines = np.hstack([folded.axis.fold(lines[:, k : k + 2]) for k in (0, 2, 4)])
    filled = from_outside(lands(found.main.profile, found.main.recesses))
    part = shapely.Polygon([*filled, *((z, -r) for z, r in reversed(filled))]).buffer(0.0)
    shapes = shapely.linestrings(lines[:, [0, 1, 4, 5, 2, 3]].reshape(-1, 3, 2))
    outside = shapely.length(shapely.difference(shapes, part.buffer(folded.close)))
    fit = (shapely.distance(shapes, part) <= NEXT * folded.view.size) & (outside > 0)
    rows = np.flatnonzero(fit)
    if not len(rows):
        return None
    # Those alone: each is held against each, and the image of what stands at the part stands there too.
    fit[rows] = _mirrored(lines[rows], folded.close)
    fit &= ~_of_a_size(lines, folded.close)
    size = np.where(fit, outside, 0.0)
    if float(size.sum()) <= ENOUGH * folded.view.size:
        return None
    return folded.axis.unfold(*lines[size.argmax(), 4:].tolist())


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


def _stop(at: Point) -> Finding:
    words = (
        f"The line at X{at[0]:.4g} Y{at[1]:.4g} and its mirror image touch the part and are not edges of it as it was "
        "read: a line between them may be missing, or they may be another part; close the outline, or take them away."
    )
    return Finding(Level.STOP, DrawingCode.LINES_UNEXPLAINED, words, at)
