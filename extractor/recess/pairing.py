"""Both halves held against each other: a ring groove stands in both, a notch or keyway in one.

Where both halves are drawn, a recess is a groove of the part only if the other half shows the same one; its measures
are then the mean of the two, so an axis drawn a little off centre shifts no diameter.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from extractor.recess.shapes import Measured


@dataclass(frozen=True)
class Paired:
    """Recesses of both halves (means), and those that only one half shows.

    `unlike` are those of `both` that one half shows with straight walls and the other a little out of true: the
    straight ones count. `leaning` are those of them whose floors end farther apart than that: neither can count.
    """

    both: tuple[Measured, ...]
    single: tuple[Measured, ...]
    unlike: tuple[Measured, ...] = ()
    leaning: tuple[Measured, ...] = ()


def pair(one: Sequence[Measured], two: Sequence[Measured], near: float) -> Paired:
    """Match the recesses of two halves; `near` is how far walls may be apart."""
    left = list(two)
    both: list[Measured] = []
    single: list[Measured] = []
    unlike: list[Measured] = []
    leaning: list[Measured] = []
    for recess in one:
        match = min(left, key=lambda other: _apart(recess, other), default=None)
        straight = _straight(recess, match) if match else None
        if match is None or straight is None or _apart(recess, match) > near:
            single.append(recess)
            continue
        left.remove(match)
        if match.shape == recess.shape:
            both.append(mean(recess, match))
        else:
            both.append(straight)
            (unlike if _feet_apart(recess, match) <= near else leaning).append(straight)
    return Paired(tuple(both), (*single, *left), tuple(unlike), tuple(leaning))


def _feet_apart(one: Measured, two: Measured) -> float:
    """Greatest distance between the ends of two floors."""
    return max(abs(a - b) for a, b in zip(one.foot, two.foot, strict=True))


def _straight(one: Measured, two: Measured) -> Measured | None:
    """Of two recesses of one shape the first, of a straight-walled and a leaning one the straight; None if unlike."""
    if one.shape == two.shape:
        return one
    straight = [m for m in (one, two) if m.shape in ("rectangular", "relief")]
    leaning = [m for m in (one, two) if m.shape in ("tapered", "other")]
    return straight[0] if straight and leaning else None


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


def offset(one: Sequence[tuple[float, float]], two: Sequence[tuple[float, float]]) -> float:
    """Half the difference of the greatest radii of two halves: how far the axis is off centre."""
    return (max(r for _, r in one) - max(r for _, r in two)) / 2
