"""Both halves compared: a ring groove stands in both, a notch or keyway in only one.

Where both halves are drawn, a recess is a groove of the part only if the other half shows the same one; its measures
are then the mean of the two, so an axis drawn a little off centre shifts no diameter.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from extractor.geometry.profile import Profile, points
from extractor.geometry.stretches import apart
from extractor.part import ProfilePoints
from extractor.recess.shapes import Measured
from extractor.recess.threads import helical
from extractor.values import dataclass
from extractor.viewing.outline import ROUNDED

STRAIGHT = ("rectangular", "relief")
"""Shapes with upright walls."""
FINE_STEP = math.radians(1.0)
"""Turn of the chords by which arcs are held against each other: they leave the arc by 4 in 100,000 of its radius."""
ROUND_AS = 0.1
"""Share of the larger of two radii, or chamfers, by which they may differ: roundings in chords are measured so."""


@dataclass(frozen=True)
class Paired:
    """Recesses of both halves (means), and those that only one half shows.

    `unlike` are those of `both` that one half shows with straight walls and the other a little out of true: the
    straight ones count, and of a shape with a name and one without the former. `leaning` are those of them whose floors
    end farther apart than that: neither can count. Nor can either of two in `clashing`, which lie at one place and
    have two shapes, or of two in `crossing`: neither is the other's mirror image, yet they share some of the length.
    Two that are one recess but lie apart by more than the pen's error are of `crossing` as well as of `both`. Those in
    `broken` are one but for the corners of the floor or the edges of the mouth. `formed` are those of `both` whose
    form is told by more than place, width and floor.
    """

    both: tuple[Measured, ...]
    single: tuple[Measured, ...]
    unlike: tuple[Measured, ...] = ()
    leaning: tuple[Measured, ...] = ()
    clashing: tuple[tuple[Measured, Measured], ...] = ()
    crossing: tuple[tuple[Measured, Measured], ...] = ()
    broken: tuple[tuple[Measured, Measured], ...] = ()
    formed: tuple[Measured, ...] = ()


def pair(one: Sequence[Measured], two: Sequence[Measured], near: float, pen: float, exact: float = math.inf) -> Paired:
    """Match the recesses of two halves: `near` is how far walls of one recess may be apart, `pen` the pen's error.

    `exact` is the error of straight walls and level floors where that is less: a curve may be in chords in one half.
    """
    left = _ByPlace(two)
    both: list[Measured] = []
    single: list[Measured] = []
    unlike: list[Measured] = []
    leaning: list[Measured] = []
    clashing: list[tuple[Measured, Measured]] = []
    twice: list[tuple[Measured, Measured]] = []
    broken: list[tuple[Measured, Measured]] = []
    formed: list[Measured] = []
    for recess in one:
        match = left.take(recess, near)
        if match is None:
            single.append(recess)
            continue
        under = next((m for m in (recess, match) if m.overhang), recess)
        if recess.overhang != match.overhang and _beyond(under) > near:
            # From the side an overhang is not seen: the half that shows it is the section.
            both.append(under)
            continue
        straight = _plainer(recess, match)
        if straight is None:
            clashing.append((recess, match))
        elif _drawn_apart(recess, match) > (min(exact, pen) if {recess.shape, match.shape} <= {*STRAIGHT} else pen):
            twice.append((recess, match))
            both.append(mean(recess, match))
        elif match.shape == recess.shape:
            both.append(mean(recess, match))
            if _broken_apart(recess, match, pen):
                broken.append((recess, match))
            elif recess.shape not in STRAIGHT:
                formed.append(both[-1])
        else:
            both.append(straight)
            (leaning if straight.shape in STRAIGHT and _feet_apart(recess, match) > near else unlike).append(straight)
    crossing, alone = _of_one_half(single, left.rest, near)
    return Paired(
        both=tuple(both),
        single=alone,
        unlike=tuple(unlike),
        leaning=tuple(leaning),
        clashing=tuple(clashing),
        crossing=(*crossing, *twice),
        broken=tuple(broken),
        formed=tuple(formed),
    )


def _of_one_half(
    one: Sequence[Measured], two: Sequence[Measured], near: float
) -> tuple[tuple[tuple[Measured, Measured], ...], tuple[Measured, ...]]:
    """Of the recesses that one half shows alone the pairs that overlap along z, and those that stand free."""
    crossing = () if helical(one, two, near) else tuple((a, b) for a in one for b in two if _share(a, b, near))
    crossed = {id(m) for found in crossing for m in found}
    return crossing, tuple(m for m in (*one, *two) if id(m) not in crossed)


def exactness(one: ProfilePoints, two: ProfilePoints, fine: float) -> float:
    """How far recesses of two halves may lie apart whose lands are these: by no more than rounding where they mirror.

    A hand that draws each half by itself errs at the lands as well. One half that is the other's image errs nowhere:
    a recess that differs was changed in one of them alone.
    """
    return math.inf if apart(np.array(one), np.array(two), math.inf, -math.inf, fine) else ROUNDED * fine


def told_apart(paired: Paired, one: Profile, two: Profile, pen: float) -> tuple[list[Measured], ...]:
    """Three lists of recesses that two halves show: a little differently, plainly so, and in two forms.

    Where both draw one line but for the pen's error, an arc and the spline or chords along it are one thing; upright
    walls and those that lean are two, however little apart: what is cut there differs.
    """
    if not (paired.unlike or paired.leaning or paired.formed):
        return [], [], []
    a, b = (np.array(points(line, FINE_STEP)) for line in (one, two))
    off = [m for m in (*paired.unlike, *paired.leaning, *paired.formed) if apart(a, b, m.z_near, m.z_far, pen)]
    little = [m for m in paired.unlike if m in off or m.shape in STRAIGHT]
    little += [m for m in paired.leaning if m not in off]
    return little, *([m for m in row if m in off] for row in (paired.leaning, paired.formed))


class _ByPlace:
    """The recesses of a half, sorted by z so that each is looked for only near its place, and taken one by one."""

    def __init__(self, row: Sequence[Measured]) -> None:
        """All of them are there."""
        self._row = row
        self._order = sorted(range(len(row)), key=lambda k: row[k].z_near)
        self._places = [row[k].z_near for k in self._order]
        self._taken: set[int] = set()

    @property
    def rest(self) -> list[Measured]:
        """Those that were not taken, in their order."""
        return [m for k, m in enumerate(self._row) if k not in self._taken]

    def take(self, recess: Measured, near: float) -> Measured | None:
        """Take the one least apart from a recess, the first of several; None if all lie farther off than `near`."""
        low = bisect_left(self._places, recess.z_near - 2 * near)
        high = bisect_right(self._places, recess.z_near + 2 * near)
        close = sorted(k for k in self._order[low:high] if k not in self._taken)
        best = min(close, key=lambda k: _apart(recess, self._row[k]), default=None)
        if best is None or _apart(recess, self._row[best]) > near:
            return None
        self._taken.add(best)
        return self._row[best]


def _broken_apart(one: Measured, two: Measured, pen: float) -> bool:
    """True if corners or chamfers of one recess differ in two halves."""
    pairs = zip((*one.corners, *one.chamfers), (*two.corners, *two.chamfers), strict=True)
    return any(abs(a - b) > max(pen, ROUND_AS * max(a, b)) for a, b in pairs)


def _drawn_apart(one: Measured, two: Measured) -> float:
    """How far two recesses at one place are apart: of two shapes only the floors can be held against each other."""
    return _apart(one, two) if one.shape == two.shape else abs(one.floor - two.floor)


def _beyond(m: Measured) -> float:
    """How far a recess reaches beyond its mouth."""
    return max(m.reach[0] - m.z_near, m.z_far - m.reach[1])


def _share(one: Measured, two: Measured, near: float) -> bool:
    """True if two recesses take up some of the same length: a keyway has nothing across from it."""
    return min(one.z_near, two.z_near) - max(one.z_far, two.z_far) > near


def _feet_apart(one: Measured, two: Measured) -> float:
    """Greatest distance between the ends of two floors."""
    return max(abs(a - b) for a, b in zip(one.foot, two.foot, strict=True))


def _plainer(one: Measured, two: Measured) -> Measured | None:
    """Of two recesses of one shape the first, else the straight one or the one that has a shape; None if both have."""
    if one.shape == two.shape:
        return one
    named = [m for m in (one, two) if m.shape != "other"]
    straight = [m for m in named if m.shape in STRAIGHT]
    if len(named) == 1 or {m.shape for m in named} - set(STRAIGHT) == {"tapered"}:
        return (straight or named)[0]
    return None


def _apart(one: Measured, two: Measured) -> float:
    """Greatest distance between walls or floors of two recesses."""
    return max(abs(one.z_near - two.z_near), abs(one.z_far - two.z_far), abs(one.floor - two.floor))


def _half(a: float, b: float) -> float:
    """Half-way between two numbers, exact where they are one."""
    return a if a == b else (a + b) / 2


def mean(one: Measured, two: Measured) -> Measured:
    """The mean of two recesses; of corner radii the smaller, of chamfers the larger."""
    return replace(
        one,
        z_near=_half(one.z_near, two.z_near),
        z_far=_half(one.z_far, two.z_far),
        mouth=_half(one.mouth, two.mouth),
        floor=_half(one.floor, two.floor),
        near_land=_half(one.near_land, two.near_land),
        far_land=_half(one.far_land, two.far_land),
        corners=(min(one.corners[0], two.corners[0]), min(one.corners[1], two.corners[1])),
        chamfers=(max(one.chamfers[0], two.chamfers[0]), max(one.chamfers[1], two.chamfers[1])),
    )
