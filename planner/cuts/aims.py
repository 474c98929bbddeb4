"""Where a cut groove should lie: walls and floor aimed at the middle of their tolerance, and how far each may be off.

All in drawing units as real numbers; nothing is rounded here. Where the drawing gives no tolerance, the shop's holds.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from extractor.part import Groove

# Reading a drawing leaves errors in the last digits; nothing that a lathe can hold is this small.
EPS = 1e-6
# Share of a tolerance, from either limit toward the aim, that a plan doesn't spend: it is for the insert's own
# tolerance and wear, and where the drawing gives none, for keeping to nominal (common practice, no source).
KEPT_FREE = 0.4
KEPT_FOR_NOMINAL = 0.75


@dataclass(frozen=True)
class Limits:
    """An aim with the least and the greatest value allowed; `given` if by the drawing, not by the shop."""

    low: float
    aim: float
    high: float
    given: bool = True

    @property
    def spread(self) -> float:
        """Distance from the aim to the nearer limit."""
        return min(self.aim - self.low, self.high - self.aim)

    def holds(self, value: float) -> bool:
        """True if the value is allowed."""
        return self.low - EPS <= value <= self.high + EPS

    @property
    def inner(self) -> "Limits":
        """The limits with a share kept free at either end, larger where the drawing gives none: that is for nominal."""
        share = KEPT_FREE if self.given else KEPT_FOR_NOMINAL
        return Limits(self.low + share * (self.aim - self.low), self.aim, self.high - share * (self.high - self.aim))


def common_aim(limits: Sequence[Limits]) -> float:
    """One aim for several: nominal where any of them has no tolerance of its own, else the mean."""
    nominal = [one.aim for one in limits if not one.given] or [one.aim for one in limits]
    return sum(nominal) / len(nominal)


@dataclass(frozen=True)
class Aims:
    """What to cut: `near` and `far` wall (z), `width`, `floor` (diameter), each with its limits.

    `placed` says whether the drawing itself limits a wall's place.
    """

    near: Limits
    far: Limits
    width: Limits
    floor: Limits
    placed: bool


def aims_of(groove: Groove, tolerance: float) -> Aims:
    """The aims of an outside or inside groove.

    >>> g = Groove(1, "outside", "rectangular", -10.0, -13.0, 40.0, 34.0, tolerances={"floor_diameter": (-0.1, 0.0)})
    >>> round(aims_of(g, 0.02).floor.aim, 3)
    33.95
    """
    width = _limits(groove, "width", groove.width, tolerance)
    near = _limits(groove, "z_near", groove.z_near, tolerance)
    far = _limits(groove, "z_far", groove.z_far, tolerance)
    placed = {"z_near", "z_far"} & set(groove.tolerances)
    near_aim, far_aim = near.aim, far.aim
    if len(placed) == 2:
        width = _between_walls(width, near, far, "width" in groove.tolerances)
    if placed == {"z_near"}:
        far_aim = near_aim - width.aim
    elif placed == {"z_far"}:
        near_aim = far_aim + width.aim
    elif not placed:
        centre = (groove.z_near + groove.z_far) / 2
        near_aim, far_aim = centre + width.aim / 2, centre - width.aim / 2
    near = _about(near, near_aim, "z_near" in placed, tolerance)
    far = _about(far, far_aim, "z_far" in placed, tolerance)
    floor = _floor(groove, tolerance)
    if groove.shape in ("vee", "round"):
        # A form deeper than drawn is wider too: so it goes to nominal as far as the tolerance allows.
        floor = Limits(floor.low, min(max(groove.floor_diameter, floor.low), floor.high), floor.high, floor.given)
    return Aims(near, far, width, floor, bool(placed))


def _between_walls(width: Limits, near: Limits, far: Limits, given: bool) -> Limits:
    """The width's limits where both walls have limits of their own; the aim between the walls unless one is given."""
    low, high = max(width.low, near.low - far.high) if given else near.low - far.high, near.high - far.low
    high = min(width.high, high) if given else high
    aim = width.aim if given else near.aim - far.aim
    return Limits(low, min(max(aim, low), max(low, high)), high)


def _about(limits: Limits, aim: float, given: bool, tolerance: float) -> Limits:
    """The limits round a moved aim: the drawing's own stay, the shop's move with it."""
    return Limits(limits.low, aim, limits.high) if given else Limits(aim - tolerance, aim, aim + tolerance)


def _limits(groove: Groove, name: str, nominal: float, tolerance: float) -> Limits:
    """Limits of one measure: the drawing's deviations with the aim in their middle, else the shop's about nominal."""
    lower, upper = groove.tolerances.get(name, (-tolerance, tolerance))
    return Limits(nominal + lower, nominal + (lower + upper) / 2, nominal + upper, name in groove.tolerances)


def _floor(groove: Groove, tolerance: float) -> Limits:
    """Limits of the floor diameter; a tolerance on the depth alone is one on the floor, doubled and turned round."""
    if "floor_diameter" not in groove.tolerances and "depth" in groove.tolerances:
        lower, upper = groove.tolerances["depth"]
        sign = 2.0 if groove.where == "inside" else -2.0
        low, high = sorted((sign * lower, sign * upper))
        floor = groove.floor_diameter
        return Limits(floor + low, floor + (low + high) / 2, floor + high)
    return _limits(groove, "floor_diameter", groove.floor_diameter, tolerance)
