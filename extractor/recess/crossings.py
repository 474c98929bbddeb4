"""Holes beside and across the axis, and flats, which look like recesses.

Where one is drilled square to the axis, the silhouette dips between its walls. One drilled along the axis, beside it,
shows in a face as a groove would, but has a centre line of its own (ISO 128-2 line 04, from memory). So has one drilled
across it, whose walls a section shows from the outside down to the bore; the walls of a groove end at its floor.

At a height R, a hole of radius a lowers the silhouette to sqrt(R^2 - (a^2 - z^2)), z from the hole's middle, so it
is deepest in the middle, by R - sqrt(R^2 - a^2). A recess of exactly that width and depth is a hole, not a groove.
"""

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from extractor.finding import Point
from extractor.geometry.profile import Piece, Profile
from extractor.part import ProfilePoints
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess, turnings
from extractor.sheet import Floats
from extractor.viewing.axis import centre_segments
from extractor.viewing.outline import Folded

WIDE_HOLE = 0.9
"""A recess with a half width above this share of the mouth's radius is no hole: one would part the piece."""

WIDEST_INSIDE = 1.0
"""The same of a bore: a hole as wide as the bore that it meets cuts it on the axis, and a wider one cuts it off."""

SPREAD = 0.1
"""Lines that cross over a flat end at least at this share of its recess's floor radius from the axis: a flat that is
narrower is no spanner's."""

LIKE_HOLE = 0.02
"""Share of the depth within which a recess is as deep as the hole of its width: exports draw the mouth in chords."""


def is_cross_hole(m: Measured, fine: float, widest: float = WIDE_HOLE) -> bool:
    """True for a recess, not straight-walled, as wide and deep as the mouth of a cross hole.

    `widest` is the greatest half width as a share of the mouth's radius.

    >>> walls = dict(z_near=1.5, z_far=-1.5, near_land=10.0, far_land=10.0)
    >>> hole = Measured(shape="round", **walls, mouth=10.0, floor=10.0 - 0.1131392)
    >>> is_cross_hole(hole, 1e-3)
    True
    """
    half = (m.z_near - m.z_far) / 2
    if m.shape in ("rectangular", "relief") or half >= widest * m.mouth + fine / 2:
        return False
    depth = m.mouth - math.sqrt(max(m.mouth**2 - half**2, 0.0))
    return abs(m.depth - depth) <= LIKE_HOLE * depth + fine / 2


def split_holes(row: Sequence[Measured], fine: float) -> tuple[tuple[Measured, ...], tuple[Measured, ...]]:
    """The recesses that are not cross holes, and the cross holes; what lies within one goes with it."""
    holes = [m for m in row if is_cross_hole(m, fine)]
    within = [m for m in row if any(h.z_near + fine >= m.z_near and m.z_far >= h.z_far - fine for h in holes)]
    return tuple(m for m in row if m not in within), tuple(holes)


def bridged(bore: Profile, fine: float) -> tuple[Profile, tuple[Measured, ...]]:
    """The line of a bore straight on over the mouths of cross holes, and these.

    Seen in section a hole's mouth bulges into the bore by as much as it dips into the outside of the same radius.
    """
    mouths = tuple(m for m in turnings(bore, fine).measured if is_cross_hole(m, fine, WIDEST_INSIDE)) if bore else ()
    return straight_over(bore, mouths, fine), mouths


def straight_over(bore: Profile, dips: Sequence[Measured], fine: float) -> Profile:
    """The line of a bore straight on over some of its recesses."""
    line: list[Piece] = []
    for piece in bore:
        if any(all(_within(m, end, fine) for end in piece.ends) for m in dips):
            continue
        if line and line[-1].end != piece.start:
            line.append(Piece(line[-1].end, piece.start))
        line.append(piece)
    return tuple(line)


def stepped_at(bore: Profile, wall: float, level: float, *, front: bool) -> Profile:
    """The line of a bore with one radius, `level`, from one of its ends to a wall at z."""
    way = 1 if front else -1
    kept = [p for p in bore if any((z - wall) * way < 0 for z, _ in p.ends)]
    if front:
        return (Piece((bore[0].start[0], level), kept[0].start), *kept)
    return (*kept, Piece(kept[-1].end, (bore[-1].end[0], level)))


def _within(m: Measured, at: Point, fine: float) -> bool:
    """True for a place (z, radius) in a dip, its rim with it."""
    low, high = sorted((m.floor, m.mouth))
    return m.z_far - fine <= at[0] <= m.z_near + fine and low - fine <= at[1] <= high + fine


def centre_lines(folded: Folded, across: int) -> list[tuple[float, float, float]]:
    """The centre lines along the axis (`across` 0) or square to it (1): both ends that way, the greater first, place.

    Along the axis the ends are z and the place is a signed radius; square to it the other way round.
    """
    mine = folded.drawn.ends[centre_segments(folded.drawn)]
    rows = np.roll(folded.axis.fold(mine.reshape(-1, 2)), across, axis=1).reshape(-1, 4).tolist()
    return [(max(a, c), min(a, c), (b + d) / 2) for a, b, c, d in rows if abs(b - d) <= folded.fine < abs(a - c)]


def has_its_own_axis(f: FaceRecess, sign: int, lines: Sequence[tuple[float, float, float]], near: float) -> bool:
    """True if a centre line runs along the middle of a recess in a face, from end to end: it is a hole, no groove."""
    middle, (low, high) = sign * (f.outer + f.inner) / 2, sorted((f.z_face, f.z_floor))
    return any(abs(r - middle) <= near and a >= high - near and b <= low + near for a, b, r in lines)


def flats(folded: Folded, recesses: Sequence[Measured]) -> list[tuple[Measured, bool]]:
    """Those from wall to wall of which two lines cross on the axis, as over a flat (ISO 128-3, from memory).

    With each whether they spread as a flat does: lines along the axis may be drawn twice and askew.
    """
    if folded.laid is None:
        return []
    near, straight = folded.close, folded.laid.ends[folded.laid.bulge == 0]
    rows = np.where(straight[:, :1] > straight[:, 2:3], straight[:, [2, 3, 0, 1]], straight)
    rows = rows[(np.abs(rows[:, 1] + rows[:, 3]) <= near) & (np.abs(rows[:, 1]) > near)]
    found = list[tuple[Measured, bool]]()
    for m in recesses if len(rows) else ():
        off = np.maximum(np.abs(rows[:, 0] - m.z_far), np.abs(rows[:, 2] - m.z_near))
        leans = rows[off <= near, 1]
        both = (leans > 0).any() and (leans < 0).any()
        found += [(m, bool(np.abs(leans).max() >= SPREAD * m.floor))] if both else []
    return found


def drilled(
    folded: Folded, sign: int, line: ProfilePoints, bore: ProfilePoints | None
) -> tuple[tuple[float, float], ...]:
    """Where along z (low, high) one half in section shows holes across the axis; `line` is its outside.

    Both walls run from the outside to the bore, or to the axis where there is none, away from any corner of these, and
    a centre line half-way between them runs on past either end. No line lies between: a groove has its floor there.
    """
    lines, near, found = centre_lines(folded, 1), folded.close, list[tuple[float, float]]()
    if not lines:
        return ()
    network, upright = folded.network, upright_edges(folded, sign)
    own, across = _upright(folded)
    mids = np.array([network.mid(network.edges[k]) for k in np.flatnonzero(own & ~across)]).reshape(-1, 2) * (1, sign)
    corners = np.array([z for z, _ in (*line, *(bore or ()))])
    places = [z for z in np.unique(upright[:, 0]).tolist() if np.abs(corners - z).min() > near]
    walls = [z for z in places if covers(upright, z, _radius(bore, z), _radius(line, z), near)]
    for one, two, middle in lines:
        (end, out), foot, top = sorted((sign * one, sign * two)), _radius(bore, middle), _radius(line, middle)
        pairs = [(a, b) for a in walls for b in walls if abs(a + b - 2 * middle) <= near < b - a]
        low, high = max(pairs, default=(0.0, 0.0))
        between = (mids > (low + near, foot + near)) & (mids < (high - near, top - near))
        past = end < foot - near and out > top + near and high - low < 2 * WIDE_HOLE * top
        found += [(low, high)] if pairs and past and not between.all(axis=1).any() else []
    return tuple(found)


def _upright(folded: Folded) -> tuple[npt.NDArray[np.bool_], npt.NDArray[np.bool_]]:
    """Of each edge whether it is the view's own, no dimension's, and whether it is such a one square to the axis."""
    network = folded.network
    ends, straight = network.table
    own = network.own(folded.aside)
    along = network.nodes[ends, 0]
    return own, own & straight & (np.abs(along[:, 0] - along[:, 1]) <= folded.fine)


def upright_edges(folded: Folded, sign: int) -> Floats:
    """A view's own edges square to the axis on one half: z, inner and outer radius, float (n, 3)."""
    points = folded.network.nodes[folded.network.table[0][_upright(folded)[1]]]
    found = np.column_stack([points[:, 0, 0], np.sort(sign * points[:, :, 1], axis=1)])
    return found[found[:, 1] >= -folded.fine]


def covers(lines: Floats, z: float, foot: float, top: float, near: float) -> bool:
    """True if edges at a place along z run from one radius to another."""
    here = lines[np.abs(lines[:, 0] - z) <= near, 1:]
    here = here[np.argsort(here[:, 0])].clip(foot, top)
    # What lies under another line counts once.
    fresh = here[:, 1] - np.maximum(here[:, 0], np.maximum.accumulate(np.append(foot, here[:-1, 1])[: len(here)]))
    return bool(fresh.clip(0.0).sum() >= top - foot - near)


def _radius(line: ProfilePoints | None, z: float) -> float:
    """Radius of an outline or a bore at a place along z, 0.0 where there is none."""
    return float(np.interp(-z, *(np.array(line) * (-1, 1)).T)) if line else 0.0
