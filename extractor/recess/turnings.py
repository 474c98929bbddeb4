"""Three views of a profile, outside, bore and end faces, all by the same search for recesses.

The search knows heights over a line that runs from the front back. For the bore the profile is turned inside out, for
an end face it is tipped over so that depth into the face counts as height; the measures come back in (z, radius) as
they stand.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property, lru_cache
from itertools import pairwise

import numpy as np

from extractor.finding import Point
from extractor.geometry.curves import rounded
from extractor.geometry.profile import Piece, Profile, joined, points, tidy
from extractor.part import ProfilePoints, Shape
from extractor.recess.lands import from_outside, lands
from extractor.recess.levels import Recess, recesses
from extractor.recess.shapes import Measured, is_open, measure
from extractor.recess.sorting import sort_recesses
from extractor.sheet import Floats
from extractor.values import dataclass

JOIN = 1e-2
"""Share of `fine` within which pieces are joined before chords are made arcs: an arc's chords stay apart."""

BESIDE = 0.05
"""Share of a recess's width within which a place beside its rim is still its own."""

FULL_LEG = 0.95
"""A rim with at least this share of the larger chamfer has the same chamfer; the other's rounding is smaller."""


@dataclass(frozen=True)
class TurnedProfile:
    """A profile with its recesses, those that could be measured, and the corners of those that couldn't.

    Those of `blind` have no mouth; those of `slight` are open, but no wider or deeper than drawing noise.
    """

    profile: Profile
    recesses: tuple[Recess, ...]
    sized: tuple[tuple[Recess, Measured], ...]
    blind: tuple[Point, ...]
    slight: tuple[Point, ...] = ()

    @property
    def measured(self) -> tuple[Measured, ...]:
        """The recesses that could be measured."""
        return tuple(m for _, m in self.sized)

    @cached_property
    def line(self) -> ProfilePoints:
        """The profile as drawn."""
        return points(self.profile)

    @cached_property
    def outline(self) -> ProfilePoints:
        """The profile as seen from outside."""
        return from_outside(self.line)

    @cached_property
    def filled(self) -> ProfilePoints:
        """The profile with all recesses filled to their mouths."""
        return lands(self.profile, self.recesses)

    @cached_property
    def land_line(self) -> ProfilePoints:
        """The lands as seen from outside."""
        return from_outside(self.filled)


@lru_cache(maxsize=8)
def turnings(chain: Profile, fine: float) -> TurnedProfile:
    """Look for recesses from outside. The last ones are kept: the halves of a view are mostly alike to the last bit."""
    profile = tidy(rounded(joined(chain, fine * JOIN), fine), fine)
    found = _open(profile, recesses(profile, fine), fine) if profile else []
    sized = [(r, measure(profile, r, fine)) for r in found]
    unsized = [(is_open(profile, r), profile[r.floor.first - 1].end) for r, m in sized if m is None]
    blind, slight = (tuple(at for shown, at in unsized if shown is some) for some in (False, True))
    return TurnedProfile(profile, tuple(found), _whole([(r, m) for r, m in sized if m], fine), blind, slight)


def _open(profile: Profile, found: Sequence[Recess], fine: float) -> list[Recess]:
    """The recesses that are open somewhere straight from above; the rest lie in a face and open along it."""
    if all(piece.run <= fine for piece in profile):
        return list(found)
    seen = list(pairwise(from_outside(points(profile))))
    back = [-(near[0] + far[0]) / 2 for near, far in seen]
    kept = []
    for recess in found:
        ends = [z for piece in profile[recess.near.last : recess.far.first] for z, _ in piece.ends]
        over = seen[bisect_right(back, -max(ends)) : bisect_left(back, -min(ends))]
        if any(near[0] - far[0] > fine and (near[1] + far[1]) / 2 < recess.mouth - fine for near, far in over):
            kept.append(recess)
    return kept


def _whole(sized: Sequence[tuple[Recess, Measured]], fine: float) -> tuple[tuple[Recess, Measured], ...]:
    """The recesses with each slot that is wider below its mouth as one: chamber and mouth were found one by one.

    A recess is the mouth of the only one in it if that one is as wide or wider: nothing is left of its floor.
    """
    whole: dict[int, tuple[Recess, Measured]] = {}
    for recess, m in sized:  # inner ones come first
        below = whole.get(id(recess.inner[0])) if len(recess.inner) == 1 else None
        wider = below and max(below[1].z_near - m.z_near, m.z_far - below[1].z_far)
        if below is None or wider is None or min(below[1].z_near - m.z_near, m.z_far - below[1].z_far) < -fine:
            whole[id(recess)] = recess, m
            continue
        del whole[id(recess.inner[0])]
        chamber = below[1]
        straight = wider <= 2 * fine and not chamber.overhang
        whole[id(recess)] = (
            recess,
            replace(
                m,
                shape=chamber.shape if straight else "other",
                floor=chamber.floor,
                corners=chamber.corners,
                inner=chamber.inner,
                level=chamber.level,
                overhang=not straight,
                foot=chamber.foot,
            ),
        )
    return tuple(whole.values())


def inside(chain: Sequence[Piece], fine: float) -> tuple[Measured, ...]:
    """Recesses of a bore, measured as radii: the mouth's is smaller than the floor's.

    No tool comes to one between two places where the bore has no width: it reaches under the metal on both sides.
    """
    found = turnings(tuple(map(_inverted, chain)), fine).measured
    return tuple(
        replace(
            m,
            mouth=-m.mouth,
            floor=-m.floor,
            near_land=-m.near_land,
            far_land=-m.far_land,
            overhang=m.overhang or -m.mouth <= fine,
        )
        for m in found
    )


def _inverted(piece: Piece) -> Piece:
    """The piece with its radius negative, so that a bore's recesses lie low."""
    (z0, r0), (z1, r1) = piece.start, piece.end
    return Piece((z0, -r0), (z1, -r1), -piece.bulge, piece.curve)


@dataclass(frozen=True, kw_only=True)
class FaceRecess:
    """A recess in an end face or shoulder: z of the face and of the floor, radii of outer and inner wall.

    `bevelled`: whether the outer and the inner rim have the chamfer, straight at 45 degrees; `rounded`: whether it is
    an arc. `overhang`: it widens below its mouth. `reach`: the radii between which all of it lies, the outer one first.
    """

    shape: Shape
    z_face: float
    z_floor: float
    outer: float
    inner: float
    corner: float
    chamfer: float
    bevelled: tuple[bool, bool]
    rounded: bool = False
    overhang: bool = False
    reach: tuple[float, float] = (0.0, 0.0)

    def spans(self, at: tuple[float, float]) -> bool:
        """True if a place (z, radius) lies in it or on its rim."""
        low, high = sorted((self.z_face, self.z_floor))
        margin = BESIDE * (self.outer - self.inner)
        outer, inner = max(self.outer, self.reach[0]), min(self.inner, self.reach[1] or self.inner)
        return low - margin <= at[0] <= high + margin and inner - margin <= at[1] <= outer + margin


def face_recesses(turned: TurnedProfile, fine: float) -> tuple[FaceRecess, ...]:
    """Recesses in the faces that look to the front and to the back."""
    chain = turned.profile
    widest = max(piece.end[1] for piece in chain)
    # What lies between two places as wide as the part is seen from neither end.
    first, last = (next(k for k in way if chain[k].end[1] == widest) for way in (range(len(chain)), _from_end(chain)))
    front = tuple(map(_tipped, chain[: first + 1]))
    back = tuple(_tipped(_looked_at_from_behind(p)) for p in reversed(chain[last + 1 :]))
    found = [_face(m, 1.0) for m in _sorted(front, fine)] if front else []
    found += [_face(m, -1.0) for m in _sorted(back, fine)] if back else []
    if not found:
        return ()
    rows = [[at for p in chain[r.near.last : r.far.first] for at in p.ends] for r in turned.recesses]
    corners = [(np.min(row, axis=0) - fine, np.max(row, axis=0) + fine) for row in rows if row]
    return tuple(f for f in found if not any(_within(f, *box) for box in corners))


def _from_end(chain: Sequence[Piece]) -> range:
    """The numbers of the pieces from the last to the first."""
    return range(len(chain) - 1, -1, -1)


def _within(f: FaceRecess, low: Floats, high: Floats) -> bool:
    """True if the floor of a recess in a face lies in a recess of the outside, given by two corners (z, radius)."""
    return bool(low[0] <= f.z_floor <= high[0] and low[1] <= f.outer and f.inner <= high[1])


def _sorted(chain: Profile, fine: float) -> tuple[Measured, ...]:
    """The recesses of a face, each with those in its floor."""
    found = sort_recesses(turnings(chain, fine).measured)
    return (*found.grooves, *found.overhangs)


def _tipped(piece: Piece) -> Piece:
    """The piece turned a quarter, so that z is the height and the way goes outward."""
    (z0, r0), (z1, r1) = piece.start, piece.end
    return Piece((-r0, z0), (-r1, z1), piece.bulge, piece.curve)


def _looked_at_from_behind(piece: Piece) -> Piece:
    """The piece run the other way with z turned round."""
    (z0, r0), (z1, r1) = piece.start, piece.end
    return Piece((-z1, r1), (-z0, r0), piece.bulge, piece.curve)


def _face(m: Measured, sign: float) -> FaceRecess:
    """A recess found on a tipped profile, told in (z, radius); `sign` -1 for a face that looks to the back."""
    leg, bend = m.rim
    inner, outer = (bevel and rim > FULL_LEG * leg for bevel, rim in zip(m.bevels, m.chamfers, strict=True))
    return FaceRecess(
        shape=m.shape,
        z_face=sign * m.mouth,
        z_floor=sign * m.floor,
        outer=-m.z_far,
        inner=-m.z_near,
        corner=min(m.corners),
        chamfer=leg,
        bevelled=(outer, inner),
        rounded=bend,
        overhang=m.overhang,
        reach=(-m.reach[1], -m.reach[0]),
    )
