"""From printed distances to the places of walls: every groove where the sheet's distances want it, mid-tolerance.

Each distance says that two places lie so far apart, give or take. All of one part are fitted at once by least squares,
each weighted by how narrow it is, so a chain, a pitch and a place from the end share what they leave open. What one
distance leaves beside its neighbours is shared by both its ends where both are grooves. A place without deviations
keeps to its nominal. ISO 129-1 and ISO 14405-2 (from memory): distances of a chain add up, and so do their deviations.

      front            1          2
        |---- 10 ------|          |        10 +0.2/0 places the near wall of groove 1: z from -10.2 to -10
        |              |--- 7 ----|        7 +0.2/+0.1 places groove 2 from it: aimed at 7.15
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from extractor.distance import Distance, Place, Placing, Spot
from extractor.geometry.joining import groups
from extractor.limits import EPS, deviations
from extractor.part import Groove, Part, Units
from extractor.sheet import Floats
from extractor.values import dataclass

FIRM = 1e-3
"""Weight in drawing units of a distance without deviations: narrower than any tolerance that is printed."""
LOOSE = 1e3
"""Weight in drawing units of a place that no distance says: it stays where it is drawn, and gives way to any."""


BARE: Mapping[Units, float] = {"mm": 0.02, "in": 0.001}
"""What a place without deviations may give way, and what such places may leave a width off its limits, before they are
taken to contradict each other: a shop's usual tolerance (common practice, no source)."""
LEAST_ROOM = 0.001
"""Share of a distance's deviations that the others must leave for cutting; with less they contradict each other."""
ROUNDS = 60
"""Rounds of weighing after which places that still don't meet are taken to contradict each other."""
LEAST_WEIGHT = 1e-9
"""No printed distance weighs less: weight nothing, and it could never come back."""

Walls = dict[int, tuple[float, float]]
"""Far and near wall along u, by groove."""


@dataclass(frozen=True, kw_only=True)
class PlaceWish:
    """One wish: a sum of wall places with factors, what it should be, and by how much it may differ."""

    factors: tuple[tuple[int, float], ...]
    middle: float
    spread: float


def with_distances(part: Part, distances: Sequence[Distance], widths: Mapping[int, float] | None = None) -> Part:
    """The part with its printed distances, and the places that follow from them at its grooves.

    Distances whose grooves lie on different sides are kept for judging but place nothing. `widths`: along u, of the
    grooves by number that are cut otherwise than in the middle of their limits; what hangs on their walls moves along.
    """
    part = replace(part, distances=tuple(distances))
    used = [one for one in distances if _one_frame(part, one)]
    if not used:
        return replace(part, grooves=tuple(replace(g, places=()) if g.places else g for g in part.grooves))
    walls = _solved(part, used, widths or {})
    found: dict[int, list[Placing]] = {}
    for one in used:
        for number, placing in _placings(part, one, walls):
            found.setdefault(number, []).append(placing)
    for number in _roots(part, used):
        found.setdefault(number, []).append(Placing(spot="centre", aim=_spot(walls, number, "centre")))
    return replace(part, grooves=tuple(replace(g, places=tuple(found.get(g.id, ()))) for g in part.grooves))


def contradictions(part: Part) -> tuple[Distance, ...]:
    """The distances that can't be kept together with the others: their places, aimed at best, lie outside them."""
    used = [one for one in part.distances if _one_frame(part, one)]
    walls = _solved(part, used, {})
    wide = [number for number in walls if not _fits(part, part.grooves[number - 1], walls)]
    return tuple(one for one in used if abs(_off(part, one, walls)) > _most(part, one) or one.end.groove in wide)


def _most(part: Part, one: Distance) -> float:
    """How far its places may lie off the middle of a distance."""
    return BARE[part.units] if one.deviations is None else _spread(one) * (1 - LEAST_ROOM) + EPS


def _fits(part: Part, groove: Groove, walls: Walls) -> bool:
    """True if the places of both walls leave a width that the drawing allows, where it says which."""
    if "width" not in deviations(groove):
        return True
    far, near = walls[groove.id]
    lower, upper = (groove.side.along * deviation for deviation in deviations(groove)["width"])
    wider = near - far - (groove.near - groove.far)
    return lower - BARE[part.units] <= wider <= upper + BARE[part.units]


def apart(part: Part, one: Distance, start: float, end: float) -> float:
    """How far two places along u lie apart, as the sheet would print it."""
    return abs(end - start) / _scale(part, one)


def end_of(part: Part, place: Place) -> float:
    """Where an end of the part, or its axis, lies along u."""
    return -part.length if place.spot == "back" else 0.0


def _scale(part: Part, one: Distance) -> float:
    """How often a printed length counts along u."""
    return float(max(part.grooves[p.groove - 1].side.along for p in (one.start, one.end) if p.groove))


def _one_frame(part: Part, one: Distance) -> bool:
    """True if both ends of a distance lie along one u."""
    axials = {part.grooves[p.groove - 1].side.axial for p in (one.start, one.end) if p.groove}
    ends = {p.spot for p in (one.start, one.end) if not p.groove}
    return (
        len(axials) == 1
        and not (ends & {"front", "back"} and axials == {False})
        and not ("axis" in ends and True in axials)
    )


def _middle(one: Distance) -> float:
    """The distance aimed at."""
    return one.nominal if one.deviations is None else one.nominal + sum(one.deviations) / 2


def _spread(one: Distance) -> float:
    """How far a distance may be off its middle."""
    return 0.0 if one.deviations is None else (one.deviations[1] - one.deviations[0]) / 2


def _sign(part: Part, one: Distance) -> int:
    """1 if the end lies at the higher u, as drawn."""
    return 1 if _drawn(part, one.end) > _drawn(part, one.start) else -1


def _drawn(part: Part, place: Place) -> float:
    """Where a place is drawn along u."""
    if not place.groove:
        return end_of(part, place)
    groove = part.grooves[place.groove - 1]
    return {"near": groove.near, "far": groove.far}.get(place.spot, (groove.near + groove.far) / 2)


def _spot(walls: Walls, number: int, spot: Spot) -> float:
    """A place of a groove."""
    far, near = walls[number]
    return {"near": near, "far": far}.get(spot, (near + far) / 2)


def _solved(part: Part, distances: Sequence[Distance], widths: Mapping[int, float]) -> Walls:
    """The walls of all grooves that distances name, as near to the middle of every distance as can be."""
    numbers = sorted({p.groove for one in distances for p in (one.start, one.end) if p.groove})
    column = {number: 2 * k for k, number in enumerate(numbers)}
    rows = [_wish(part, one, column) for one in distances]
    roots = _roots(part, distances)
    for number in numbers:
        stays, width = FIRM if number in roots else LOOSE, widths.get(number)
        rows += _own(part.grooves[number - 1], column[number], distances, stays, width)
    matrix, wanted = np.zeros((len(rows), 2 * len(numbers))), np.zeros(len(rows))
    for k, row in enumerate(rows):
        for place, factor in row.factors:
            matrix[k, place] += factor / row.spread
        wanted[k] = row.middle / row.spread
    found = _met(matrix, wanted, len(distances))
    return {number: (float(found[c]), float(found[c + 1])) for number, c in column.items()}


def _met(matrix: Floats, wanted: Floats, printed: int) -> Floats:
    """Least squares of wishes (rows over their spread); where it leaves one of the printed ones, those weigh more.

    Lawson's algorithm (C. L. Lawson, 1961, from memory): weights grow with what is left over, until the worst is least.
    """
    weights = np.ones(len(wanted))
    for _ in range(ROUNDS):
        root = np.sqrt(weights)
        found = np.asarray(np.linalg.lstsq(matrix * root[:, None], wanted * root, rcond=None)[0], dtype=np.float64)
        over = np.abs(matrix[:printed] @ found - wanted[:printed])
        if over.max(initial=0.0) <= 1 - LEAST_ROOM:
            break
        weights[:printed] *= over / over.max()
        weights[:printed] = np.maximum(weights[:printed], LEAST_WEIGHT)
    return found


def _wish(part: Part, one: Distance, column: dict[int, int]) -> PlaceWish:
    """A distance as a wish of wall places."""
    scale, sign = _scale(part, one), _sign(part, one)
    factors: list[tuple[int, float]] = []
    fixed = 0.0
    for place, way in ((one.end, 1.0), (one.start, -1.0)):
        if not place.groove:
            fixed += way * end_of(part, place)
            continue
        far, near = {"far": (1.0, 0.0), "near": (0.0, 1.0)}.get(place.spot, (0.5, 0.5))
        first = column[place.groove]
        factors += [(first, way * far), (first + 1, way * near)]
    return PlaceWish(
        factors=tuple(factors), middle=sign * scale * _middle(one) - fixed, spread=max(FIRM, scale * _spread(one))
    )


def _own(groove: Groove, first: int, distances: Iterable[Distance], stays: float, cut: float | None) -> list[PlaceWish]:
    """The wishes of a groove itself: its width, `cut` where that is known, and to stay where it is, by `stays`."""
    along, width = groove.side.along, groove.near - groove.far
    lower, upper = deviations(groove).get("width", (0.0, 0.0))
    own = [one for one in distances if not (one.start.groove and one.end.groove)]
    spots = {p.spot for one in own for p in (one.start, one.end) if p.groove == groove.id}
    both = {"near", "far"} <= spots and "width" not in deviations(groove)
    middle, spread = width + along * (lower + upper) / 2, LOOSE if both else max(FIRM, along * (upper - lower) / 2)
    return [
        PlaceWish(
            factors=((first, -1.0), (first + 1, 1.0)),
            middle=middle if cut is None else cut,
            spread=spread,
        ),
        PlaceWish(factors=((first, 0.5), (first + 1, 0.5)), middle=(groove.near + groove.far) / 2, spread=stays),
    ]


def _off(part: Part, one: Distance, walls: Walls) -> float:
    """How far the places aimed at lie from a distance's middle."""
    start, end = (_spot(walls, p.groove, p.spot) if p.groove else end_of(part, p) for p in (one.start, one.end))
    return _sign(part, one) * (end - start) / _scale(part, one) - _middle(one)


def _placings(part: Part, one: Distance, walls: Walls) -> Iterable[tuple[int, Placing]]:
    """What a distance asks of the groove at either end."""
    relative = bool(one.start.groove and one.end.groove)
    scale, off, spread = _scale(part, one), _off(part, one, walls), _spread(one)
    share = 0.5 if relative else 1.0
    for place, way in ((one.end, 1), (one.start, -1)):
        if not place.groove:
            continue
        # How much more the distance may grow and shrink; with the end at the lower u, growing moves it down.
        low, high = -scale * share * (spread + off), scale * share * (spread - off)
        if way * _sign(part, one) < 0:
            low, high = -high, -low
        yield (
            place.groove,
            Placing(
                spot=place.spot,
                aim=_spot(walls, place.groove, place.spot),
                deviations=None if one.deviations is None else (min(low, 0.0), max(high, 0.0)),
                source=one.source,
                relative=relative,
            ),
        )


def _roots(part: Part, distances: Sequence[Distance]) -> list[int]:
    """The grooves that others are placed from while nothing says where they lie: the first of each such row."""
    pairs = [(one.start.groove, one.end.groove) for one in distances]
    fixed = {p.groove for one in distances if not (one.start.groove and one.end.groove) for p in (one.start, one.end)}
    fixed |= {g.id for g in part.grooves if {g.side.near, g.side.far} & deviations(g).keys()}
    return [min(row) for row in groups(pairs) if fixed.isdisjoint(row)]
