"""End views and cross-sections that no projection ties to the view: what they show that it does not.

A section shows what its plane cuts, and edges that lie behind it; an end view shows edges of the part. Anything that
is not round must be seen from the side as well, as the edge of a flat or of a keyway is (ISO 128-3, from memory).
"""

from collections.abc import Sequence, Set
from itertools import pairwise

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.geometry.network import Strokes
from extractor.part import ProfilePoints
from extractor.recess.recognise import Found
from extractor.sheet import Floats, Sheet
from extractor.viewing.alike import ONE_PLACE
from extractor.viewing.clusters import Ink
from extractor.viewing.end_views import at_scale, one_size
from extractor.viewing.outline import Folded
from extractor.viewing.round_ends import is_keyed
from extractor.viewing.round_figures import RoundFigure, planes, round_figures


def held_elsewhere(
    sheet: Sheet, ink: Ink, read: tuple[Folded, Found], known: frozenset[int]
) -> tuple[list[Finding], Set[tuple[float, float]]]:
    """What is said of such figures, and the middles of those that are cross-sections."""
    folded, found = read
    figures = round_figures(sheet, ink, folded.view, known)
    told = (_told(sheet, ink, folded, found, f) for f in figures)
    return [f for f in told if f is not None], {f.middle for f in figures if f.letter}


def _told(sheet: Sheet, ink: Ink, folded: Folded, found: Found, figure: RoundFigure) -> Finding | None:
    cut = planes(sheet, folded, figure.letter) if figure.letter else []
    if not figure.is_round and not _seen_flat(ink, folded, found, cut):
        return _odd(figure)
    if not figure.is_round and not is_keyed(figure.rim):
        return None
    edges = {r for _, r in found.outline}
    hollow = {r for face in found.faces for r in (face.outer, face.inner)} | {r for _, r in found.bore or ()}
    hollow |= {r for m in found.inside for r in (m.floor, m.mouth)}
    sizes = [*figure.rings, *([figure.reach] if len(figure.rim) else [])]
    ways = [[r / figure.times for r in sizes], sizes]
    ways += [at_scale(ink, folded.view, figure.middle, sizes, edges)] if figure.times == 1.0 else []
    due = {r for z in cut for r in _radii_at(found.outline, z, ONE_PLACE * folded.view.size)}
    odd = [_strange(rings, edges | hollow | _levels(ink, folded), due) for rings in ways]
    return _differs(figure, *odd[0]) if odd[0] is not None and None not in odd else None


def _strange(rings: Sequence[float], known: Set[float], due: Set[float]) -> tuple[float, Set[float]] | None:
    """The circle of a figure that the part has none of, and those `due` where its plane cuts if it lacks them all."""
    if due and not any(one_size(ring, r) for ring in rings for r in due):
        return min(rings, key=lambda ring: min(abs(ring - r) for r in due)), due
    more = [ring for ring in rings if not any(one_size(ring, r) for r in known)]
    return (max(more), frozenset()) if more else None


def _radii_at(outline: ProfilePoints, z: float, near: float) -> set[float]:
    """The radii of an outline at a place along the axis: at a wall all of it."""
    found = set[float]()
    for (z0, r0), (z1, r1) in pairwise(outline):
        if min(z0, z1) - near <= z <= max(z0, z1) + near:
            found |= {r0, r1} if abs(z0 - z1) <= near else {r0 + (r1 - r0) * (z - z0) / (z1 - z0)}
    return found


def _rows(ink: Ink, folded: Folded) -> Floats:
    """The straight lines in a view, float (n, 4), laid along its axis."""
    hidden = folded.hidden or Strokes(np.zeros((0, 4)), np.zeros(0), np.zeros(0, dtype=np.int64))
    drawn = ink.strokes.pick(ink.strokes.bulge == 0).ends
    drawn = drawn[folded.view.covering(drawn[:, :2]) & folded.view.covering(drawn[:, 2:])]
    laid = np.hstack([folded.axis.fold(drawn[:, :2]), folded.axis.fold(drawn[:, 2:])])
    rows: Floats = np.vstack([laid, hidden.ends[hidden.bulge == 0]])
    return rows


def _levels(ink: Ink, folded: Folded) -> set[float]:
    """How far from the axis lines run along it."""
    rows, near = _rows(ink, folded), ONE_PLACE * folded.view.size
    level = np.abs(rows[:, 1] - rows[:, 3]) <= near
    return set(np.abs(rows[level, 1]).tolist())


def _seen_flat(ink: Ink, folded: Folded, found: Found, cut: Sequence[float]) -> bool:
    """True if the view shows something at a plane, or anywhere where none is known, that is no edge of what is turned.

    So the edges of flats and keyways lie, along the axis at no radius of the part there.
    """
    near, rows = ONE_PLACE * folded.view.size, _rows(ink, folded)
    if found.milled or found.unlike or found.alone:
        return True
    edges = np.array([r for line in (found.outline, found.bore or ()) for _, r in line])
    r = np.abs(rows[:, 1])
    fit = (np.abs(rows[:, 1] - rows[:, 3]) <= near) & (r > near)
    fit &= np.abs(r[:, None] - edges).min(axis=1, initial=np.inf) > near
    low, high = np.minimum(rows[:, 0], rows[:, 2]) - near, np.maximum(rows[:, 0], rows[:, 2]) + near
    for z in cut[:1]:
        fit &= (low <= z) & (z <= high)
    return bool(fit.any())


def _name(figure: RoundFigure) -> str:
    return f"{'cross-section' if figure.letter else 'end view'} at {place_words(figure.middle)}"


def _differs(figure: RoundFigure, ring: float, due: Set[float]) -> Finding:
    there = " or ".join(f"{2 * r:.5g}" for r in sorted(due))
    words = f"The {_name(figure)} has a circle {2 * ring:.5g} across"
    words += f", and the view that was read is {there} across where {figure.letter} cuts" if there else ""
    words += "; see which is right." if there else " that the view read shows nothing of; see whether it is this part."
    return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, words, figure.middle)


def _odd(figure: RoundFigure) -> Finding:
    """A stop for a bar or flats under a heading of this part; a keyway is cut after turning."""
    words = f"The {_name(figure)} is not round, and the view that was read shows nothing of that"
    if not figure.heading or is_keyed(figure.rim):
        return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, f"{words}; see which is right.", figure.middle)
    words += "; put the drawing right, or accept it if that is cut after turning."
    return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, figure.middle)
