"""Face recesses of both halves held against one another: a ring in a face shows in both, or in the half that is cut.

A view from outside shows no recess in a face, so a half in section answers for it alone. Of two halves that are both
cut, or neither, each shows the same rings; what one shows alone is no ring, or the other half is drawn wrongly.
"""

import math
from collections.abc import Sequence

from extractor.recess.pairing import STRAIGHT
from extractor.recess.turnings import FaceRecess
from extractor.values import dataclass


@dataclass(frozen=True)
class PairedFaces:
    """The rings of the part, the recesses that one half shows and the other should, and those that are not alike.

    Each of `alone` comes with the number of its half, 0 or 1.
    """

    rings: tuple[FaceRecess, ...]
    alone: tuple[tuple[int, FaceRecess], ...] = ()
    unlike: tuple[tuple[FaceRecess, FaceRecess], ...] = ()


def pair_faces(
    rows: Sequence[Sequence[FaceRecess]], cut: Sequence[bool], pen: float, exact: float = math.inf
) -> PairedFaces:
    """The face recesses of the halves drawn; `cut` says which halves are in section, `pen` is the pen's error.

    `exact` is that of straight ones where it is less.
    """
    if len(rows) == 1:
        return PairedFaces(tuple(rows[0]))
    one, two = rows
    unlike = [(a, b) for a in one for b in two if _share(a, b, pen) and _apart(a, b) > _error(a, b, pen, exact)]
    crossed = {id(f) for pair in unlike for f in pair}
    both = [a for a in one if any(_apart(a, b) <= pen for b in two)]
    only = [
        (k, f)
        for k, (row, other) in enumerate(((one, two), (two, one)))
        for f in unlike_all(row, other, pen)
        if id(f) not in crossed
    ]
    sectioned = [k for k, f in only if cut[k] and not cut[1 - k]]
    rings = (*both, *(f for k, f in only if k in sectioned))
    return PairedFaces(rings, tuple(row for row in only if row[0] not in sectioned), tuple(unlike))


def unlike_all(row: Sequence[FaceRecess], others: Sequence[FaceRecess], pen: float) -> tuple[FaceRecess, ...]:
    """Those of a row that are like none of the others."""
    return tuple(f for f in row if not any(_apart(f, o) <= pen for o in others))


def _error(one: FaceRecess, two: FaceRecess, pen: float, exact: float) -> float:
    """How far two recesses may lie apart and still be one."""
    return min(pen, exact) if {one.shape, two.shape} <= {*STRAIGHT} else pen


def _share(one: FaceRecess, two: FaceRecess, near: float) -> bool:
    """True if two recesses take up some of the same place."""
    (low, high), (bottom, top) = (sorted((f.z_face, f.z_floor)) for f in (one, two))
    return min(high, top) - max(low, bottom) > near and min(one.outer, two.outer) - max(one.inner, two.inner) > near


def _apart(one: FaceRecess, two: FaceRecess) -> float:
    """Greatest distance between faces, floors or walls of two recesses."""
    pairs = (
        (one.z_face, two.z_face),
        (one.z_floor, two.z_floor),
        (one.outer, two.outer),
        (one.inner, two.inner),
    )
    return max(abs(a - b) for a, b in pairs)
