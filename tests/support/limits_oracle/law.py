"""The law: the metal that a program leaves lies within what the drawing prints."""

from collections.abc import Iterable
from dataclasses import dataclass

from shapely import box, unary_union

from support.second_opinion import Lost, run
from support.wholes.lathe import Leg

from .metal import Gauge, blank, cut
from .reading import limits
from .values import Limits, Mark, Measure, Piece, Recess, Shop, State

HAIR = {"mm": 2e-4, "in": 1e-5}
SHARES = (0.25, 0.5, 0.85)


@dataclass(frozen=True)
class Fault:
    """One printed measure that the metal breaks, or what else is wrong (limits None)."""

    what: str
    recess: int
    found: float = 0.0
    allowed: Limits | None = None
    printed: str = ""

    def __str__(self) -> str:
        if self.allowed is None:
            return f"{self.what} of groove {self.recess}: {self.found:g}"
        asked = f"{self.allowed.low:.5g} to {self.allowed.high:.5g} ({self.allowed.source} {self.printed!r})"
        return f"{self.what} of groove {self.recess}: {self.found:.5g}, allowed {asked}"


@dataclass(frozen=True)
class Asked:
    """One measure with its limits and what prints them."""

    measure: Measure
    limits: Limits
    mark: Mark


def asked(marks: Iterable[Mark], units: str, note: str, tolerance: float) -> list[Asked]:
    """Every printed measure of a sheet."""
    return [Asked(m, limits(mark, units, note, tolerance), mark) for mark in marks for m in mark.measures]


def placed(recess: Recess, walls: tuple[float, float], v: float) -> tuple[float, float, float]:
    """Near, far and floor of a recess as a print names them."""
    if recess.where == "face":
        return 2 * walls[0], 2 * walls[1], v
    return -walls[0], -walls[1], recess.land + (2 if recess.where == "inside" else -2) * v


def states(piece: Piece, gauges: list[Gauge], shop: Shop, most: list[float]) -> list[State] | None:
    """The walls at three heights with the shallowest and the deepest floor; None where a recess is not cut."""
    listed: list[State] = []
    for share in SHARES:
        low: State = {}
        high: State = {}
        for i, (recess, gauge) in enumerate(zip(piece.recesses, gauges, strict=True)):
            walls = gauge.walls(share * max(0.2, 1 - most[i] / gauge.deep))
            inset = min(most[i] + HAIR[piece.units], 0.4 * (walls[0] - walls[1])) if walls else 0.0
            floor = gauge.floor(inset) if walls else None
            if walls is None or floor is None:
                return None
            for state, v in ((low, floor[0]), (high, floor[1])):
                values = placed(recess, walls, v)
                state |= {(i, name): value for name, value in zip(("near", "far", "floor"), values, strict=True)}
        listed += [low, high]
    return listed


def greatest_corners(piece: Piece, wanted: list[Asked], shop: Shop) -> list[float]:
    """The greatest radius that may stand in the corners of each recess: drawn, printed, or of an insert."""
    listed = []
    for i, recess in enumerate(piece.recesses):
        inserts = [x.corner for x in shop.inserts if x.where == recess.where]
        printed = [a.limits.high for a in wanted if a.measure.name == "corner" and a.measure.recess == i]
        printed = [p for p in printed if p < 1e6]
        listed.append(max([recess.corner, *inserts, *printed]))
    return listed


def faults(piece: Piece, wanted: list[Asked], shop: Shop, text: str) -> list[Fault]:
    """What a program breaks; nothing if the metal lies within every printed limit and no rapid goes through metal."""
    try:
        legs = run(text, metal_alone=True)
    except Lost as lost:
        return [Fault(f"can't be followed: {lost}", 0)]
    return faults_of(piece, wanted, shop, legs)


def faults_of(piece: Piece, wanted: list[Asked], shop: Shop, legs: list[Leg]) -> list[Fault]:
    hair = HAIR[piece.units]
    result = cut(piece, legs, shop.inserts, hair)
    found = [Fault(f"rapid through metal in line {line}", 0) for line in sorted(set(result.crashes))]
    gauges = [Gauge(result.metal, recess) for recess in piece.recesses]
    measured = states(piece, gauges, shop, greatest_corners(piece, wanted, shop))
    if measured is None:
        uncut = [i for i, g in enumerate(gauges) if g.walls(0.5) is None]
        return [*found, *(Fault("uncut or wrong floor", i) for i in uncut or [-1])]
    found += elsewhere(piece, result.metal)
    for one in wanted:
        if one.measure.name == "corner":
            values = list(gauges[one.measure.recess].corners() or (0.0,))
        else:
            values = [one.measure.value(state) for state in measured]
        worst = max(values, key=lambda v, a=one.limits: max(a.low - v, v - a.high))  # type: ignore[misc]
        slack = 20 * hair if one.measure.name == "corner" else hair
        if not one.limits.low - slack <= worst <= one.limits.high + slack:
            found.append(Fault(one.measure.name, one.measure.recess, worst, one.limits, one.mark.text))
    return found


def elsewhere(piece: Piece, metal: object) -> list[Fault]:
    """Metal that is gone where no recess is drawn, farther than a groove's limits reach."""
    wide = 0.6 if piece.units == "mm" else 0.024
    kept = []
    for r in piece.recesses:
        if r.where == "face":
            kept.append(box(-r.floor - wide, r.far / 2 - wide, wide, r.near / 2 + wide))
        else:
            low, high = sorted((r.floor / 2, r.land / 2))
            kept.append(box(-r.far - wide, low - wide, -r.near + wide, high + wide))
    gone = blank(piece).difference(metal).difference(unary_union(kept))  # type: ignore[arg-type]
    return [Fault("metal gone elsewhere, area", -1, gone.area)] if gone.area > HAIR[piece.units] else []
