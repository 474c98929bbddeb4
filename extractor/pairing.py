"""Both halves held against each other: a ring groove stands in both, a notch or keyway in one.

Where both halves are drawn, a recess is a groove of the part only if the other half shows the same one; its measures
are then the mean of the two, so an axis drawn a little off centre shifts no diameter.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from extractor.shapes import Measured


@dataclass(frozen=True)
class Paired:
    """Recesses of both halves (means), and those that only one half shows."""

    both: tuple[Measured, ...]
    single: tuple[Measured, ...]


def pair(one: Sequence[Measured], two: Sequence[Measured], near: float) -> Paired:
    """Match the recesses of two halves; `near` is how far walls may be apart."""
    left = list(two)
    both, single = [], []
    for recess in one:
        match = min(left, key=lambda other: _apart(recess, other), default=None)
        if match is None or _apart(recess, match) > near or match.shape != recess.shape:
            single.append(recess)
        else:
            left.remove(match)
            both.append(mean(recess, match))
    return Paired(tuple(both), (*single, *left))


def _apart(one: Measured, two: Measured) -> float:
    """Greatest distance between walls or floors of two recesses."""
    return max(abs(one.z_near - two.z_near), abs(one.z_far - two.z_far), abs(one.floor - two.floor))


def mean(one: Measured, two: Measured) -> Measured:
    """The mean of two recesses; of corner radii the smaller, of chamfers the larger."""

    def half(a: float, b: float) -> float:
        return a if a == b else (a + b) / 2

    return replace(
        one,
        z_near=half(one.z_near, two.z_near),
        z_far=half(one.z_far, two.z_far),
        mouth=half(one.mouth, two.mouth),
        floor=half(one.floor, two.floor),
        near_land=half(one.near_land, two.near_land),
        far_land=half(one.far_land, two.far_land),
        corners=(min(one.corners[0], two.corners[0]), min(one.corners[1], two.corners[1])),
        chamfers=(max(one.chamfers[0], two.chamfers[0]), max(one.chamfers[1], two.chamfers[1])),
    )


def offset(one: Sequence[tuple[float, float]], two: Sequence[tuple[float, float]]) -> float:
    """Half the difference of the greatest radii of two halves: how far the axis is off centre."""
    return (max(r for _, r in one) - max(r for _, r in two)) / 2
