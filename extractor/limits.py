"""What is allowed and aimed at for one groove: the only place that turns printed deviations into limits.

Rules: a size has the limits that the drawing gives it: deviations printed beside it, else those of the sheet's class
for general tolerances, else the shop's own tolerance about nominal. The aim is the middle of the limits (common
practice, no source). ISO 14405-1 (from memory): a linear size has an upper and a lower limit, nominal plus deviation.

A wall that a distance names keeps its place, and any growth in width goes to the other wall. Where the sheet names
neither, a wall that is a shoulder's face as well keeps its place; else the groove grows about its middle. Everything is
in the frame of the groove's side (`extractor.side`), in drawing units; nothing is rounded here.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property

from extractor.distance import Placing, Source, Spot
from extractor.part import Deviation, Groove
from extractor.values import dataclass

# Reading a drawing leaves errors in the last digits; nothing that a lathe can hold is this small.
EPS = 1e-6
# Share of a tolerance, from either limit toward the aim, that a plan doesn't spend: it is for the insert's own
# tolerance and wear, and where the drawing gives none, for keeping to nominal (common practice, no source).
KEPT_FREE = 0.4
KEPT_FOR_NOMINAL = 0.75
FORMS = frozenset({"vee", "round"})
"""Shapes whose width comes with their depth."""


@dataclass(frozen=True, kw_only=True)
class Limits:
    """An aim with the least and the greatest value allowed, and who set them."""

    low: float
    aim: float
    high: float
    source: Source = "dimension"

    @property
    def given(self) -> bool:
        """True if the drawing sets them, not the shop."""
        return self.source != "shop"

    @property
    def spread(self) -> float:
        """Distance from the aim to the nearer limit."""
        return min(self.aim - self.low, self.high - self.aim)

    def holds(self, value: float, slack: float = EPS) -> bool:
        """True if the value is allowed, give or take rounding."""
        return self.low - slack <= value <= self.high + slack

    @cached_property
    def inner(self) -> "Limits":
        """The limits with a share kept free at either end, larger if the drawing gives none, to keep near nominal."""
        share = KEPT_FREE if self.given else KEPT_FOR_NOMINAL
        low, high = self.low + share * (self.aim - self.low), self.high - share * (self.high - self.aim)
        return Limits(low=low, aim=self.aim, high=high, source=self.source)

    def moved(self, by: float) -> "Limits":
        """The same limits about another place."""
        return replace(self, low=self.low + by, aim=self.aim + by, high=self.high + by)

    def to(self, aim: float) -> "Limits":
        """The same limits with another aim, kept between them."""
        return replace(self, aim=min(max(aim, self.low), self.high))


def overlap(limits: Sequence[Limits]) -> Limits | None:
    """What several limits allow in common, aimed at its middle; None if they have nothing in common.

    The shop's tolerance counts as limits like the drawing's. The source is the drawing's if any is.

    >>> both = overlap([Limits(low=0.0, aim=0.5, high=1.0), Limits(low=0.8, aim=1.0, high=1.2, source="shop")])
    >>> (both.low, round(both.aim, 6), both.high, both.source) if both else None
    (0.8, 0.9, 1.0, 'dimension')
    """
    low, high = max(one.low for one in limits), min(one.high for one in limits)
    if low > high + EPS:
        return None
    source: Source = min((one.source for one in limits), key=("dimension", "class", "shop").index)
    return Limits(low=low, aim=(low + high) / 2, high=max(low, high), source=source)


def common_aim(limits: Sequence[Limits]) -> float:
    """One aim for several: the middle of what all allow, else the mean of their own aims.

    Limits that are all alike keep their aim, which need not be the middle (a form goes to nominal).
    """
    aims = [one.aim for one in limits]
    if max(aims) - min(aims) <= EPS:
        return sum(aims) / len(aims)
    common = overlap(limits)
    return sum(aims) / len(aims) if common is None else common.aim


@dataclass(frozen=True, kw_only=True)
class Aims:
    """What to cut of one groove: walls and their distance along u, the floor in h, the floor corners' radius.

    `spots` holds the limits of the places along u that the sheet names ("near", "far", "centre"), as a plan aims at
    them; `fixed` those of them that don't hang on another groove's place.
    """

    near: Limits
    far: Limits
    width: Limits
    floor: Limits
    corner: Limits
    spots: Mapping[Spot, Limits]
    fixed: Mapping[Spot, Limits]

    @property
    def limited(self) -> bool:
        """True if the drawing itself limits a place."""
        return any(one.given for one in self.spots.values())


def aims_of(groove: Groove, tolerance: float) -> Aims:
    """The aims of a groove; `tolerance` is the shop's, in drawing units, where the drawing gives none.

    >>> sizes = dict(z_near=-10.0, z_far=-13.0, mouth_diameter=40.0, floor_diameter=34.0)
    >>> g = Groove(id=1, where="outside", shape="rectangular", **sizes, tolerances={"floor_diameter": (-0.1, 0.0)})
    >>> round(aims_of(g, 0.02).floor.aim, 3)
    33.95
    """
    if tolerance not in groove.worked_out:
        groove.worked_out[tolerance] = _aims_of(groove, tolerance)
    aims: Aims = groove.worked_out[tolerance]
    return aims


def _aims_of(groove: Groove, tolerance: float) -> Aims:
    """The aims, worked out."""
    spots = _spots(groove, groove.places, tolerance)
    fixed = _spots(groove, [place for place in groove.places if not place.relative], tolerance)
    width = _width(groove, fixed, tolerance)
    near_aim, far_aim = _wall_aims(groove, spots, width)
    return Aims(
        near=_wall(spots.get("near"), near_aim, tolerance),
        far=_wall(spots.get("far"), far_aim, tolerance),
        width=width,
        floor=_floor(groove, tolerance),
        corner=corner_limits(groove, tolerance),
        spots=spots,
        fixed=fixed,
    )


def deviations(groove: Groove) -> Mapping[str, Deviation]:
    """The deviations that the drawing gives, by the groove's own field names."""
    return groove.tolerances


def with_deviations(groove: Groove, found: Mapping[str, Deviation], source: Source = "dimension") -> Groove:
    """The groove with more deviations; those that it has already stay."""
    new = {name: pair for name, pair in found.items() if name not in groove.tolerances}
    if not new:
        return groove
    general = groove.general | new.keys() if source == "class" else groove.general
    return replace(groove, tolerances={**groove.tolerances, **new}, general=frozenset(general))


def without_deviations(groove: Groove, names: Iterable[str]) -> Groove:
    """The groove without some of its deviations, since its core has different walls from the groove itself."""
    gone = frozenset(names)
    kept = {name: pair for name, pair in groove.tolerances.items() if name not in gone}
    return replace(groove, tolerances=kept, general=groove.general - gone)


def is_limited(groove: Groove, field: str) -> bool:
    """True if the drawing gives deviations for a size, or for the floor by way of the depth."""
    return field in groove.tolerances or (field == groove.side.bottom and "depth" in groove.tolerances)


def corner_limits(groove: Groove, tolerance: float) -> Limits:
    """Limits of the floor corners' radius; the aim is the radius drawn.

    Without deviations of its own a radius may come out sharper by any amount as far as this goes: what to say of that
    is the planner's and the judge's matter.
    """
    radius, source = groove.corner_radius, _source(groove, "corner_radius")
    if source == "shop":
        return Limits(low=0.0, aim=radius, high=radius + tolerance, source="shop")
    lower, upper = groove.tolerances["corner_radius"]
    return Limits(low=max(0.0, radius + lower), aim=max(0.0, radius + (lower + upper) / 2), high=radius + upper)


def _source(groove: Groove, field: str) -> Source:
    """Who sets the limits of a field."""
    if field not in groove.tolerances:
        return "shop"
    return "class" if field in groove.general else "dimension"


def _prints(groove: Groove, field: str) -> bool:
    """True if the drawing gives a size, with deviations or without."""
    return field in groove.printed or field in groove.tolerances


def _about(nominal: float, deviation: Deviation, source: Source) -> Limits:
    """Limits about a nominal, the aim in their middle."""
    lower, upper = deviation
    return Limits(low=nominal + lower, aim=nominal + (lower + upper) / 2, high=nominal + upper, source=source)


def _spots(groove: Groove, places: Sequence[Placing], tolerance: float) -> dict[Spot, Limits]:
    """Limits of the places that the sheet names, along u."""
    shop = (-tolerance, tolerance)
    found: dict[Spot, list[Limits]] = {}
    fields: tuple[tuple[Spot, str], ...] = (("near", groove.side.near), ("far", groove.side.far))
    for spot, field in fields:
        if field in groove.tolerances:
            nominal = float(getattr(groove, field))
            found.setdefault(spot, []).append(_about(nominal, groove.tolerances[field], _source(groove, field)))
    if not groove.side.axial:
        # A face groove's walls are printed as diameters, each a size of its own; beside a width that is printed one of
        # them follows from it, unless it is printed too.
        free = not _prints(groove, "width")
        for spot, field in fields:
            if free or _prints(groove, field):
                found.setdefault(spot, []).append(_about(float(getattr(groove, field)), shop, "shop"))
    elif not groove.places and not found:
        found = {spot: [_about(getattr(groove, spot), shop, "shop")] for spot in _shoulders(groove, tolerance)}
    for place in places:
        limits = _about(place.aim, place.deviations or shop, place.source)
        found.setdefault(place.spot, []).append(limits.to(place.aim))
    return {spot: _together(limits) for spot, limits in found.items()}


def _shoulders(groove: Groove, tolerance: float) -> Iterator[Spot]:
    """The wall that is a shoulder's face as well: moved with the width, it would move the shoulder.

    A step that the shop's tolerance can hardly tell from none is no shoulder.
    """
    side = groove.side
    lands: tuple[tuple[Spot, float], ...] = (("near", groove.near_land_diameter), ("far", groove.far_land_diameter))
    for spot, across in lands:
        if across and side.sign * across > groove.mouth + side.up * tolerance:
            yield spot


def _together(limits: Sequence[Limits]) -> Limits:
    """All limits of one place; those that contradict each other are told where the distances are put together."""
    given = [one for one in limits if one.given] or list(limits)
    if len(given) == 1:
        return given[0]
    common = overlap(given)
    return given[0] if common is None else common.to(given[-1].aim)


def _width(groove: Groove, spots: Mapping[Spot, Limits], tolerance: float) -> Limits:
    """The width's limits along u; where both walls have places of their own, between those too.

    A wall that hangs on another groove leaves the width as it is: a chain that ends there needs it printed.
    """
    along, nominal = groove.side.along, groove.near - groove.far
    source = _source(groove, "width")
    if source == "shop":
        width = _about(nominal, (-along * tolerance, along * tolerance), "shop")
    else:
        lower, upper = groove.tolerances["width"]
        width = _about(nominal, (along * lower, along * upper), source)
    near, far = spots.get("near"), spots.get("far")
    if near is None or far is None or not (near.given or far.given):
        return width
    low, high = near.low - far.high, near.high - far.low
    if source == "shop":
        return Limits(low=low, aim=near.aim - far.aim, high=high, source="dimension")
    if not (near.given and far.given):
        return width
    low, high = max(width.low, low), min(width.high, high)
    return Limits(low=low, aim=min(max(width.aim, low), max(low, high)), high=high, source=source)


def _wall_aims(groove: Groove, spots: Mapping[Spot, Limits], width: Limits) -> tuple[float, float]:
    """Where the near and the far wall are aimed at: the limited wall stays, the other one lies a width from it."""
    near, far, centre = spots.get("near"), spots.get("far"), spots.get("centre")
    if near is not None and far is not None and near.given == far.given:
        return near.aim, far.aim
    # A wall with deviations comes before one that is only named.
    if near is not None and (far is None or near.given):
        return near.aim, near.aim - width.aim
    if far is not None:
        return far.aim + width.aim, far.aim
    middle = (groove.near + groove.far) / 2 if centre is None else centre.aim
    return middle + width.aim / 2, middle - width.aim / 2


def _wall(named: Limits | None, aim: float, tolerance: float) -> Limits:
    """The limits of a wall: the drawing's own stay, the shop's are about the aim."""
    if named is not None and named.given:
        return replace(named, aim=aim)
    return Limits(low=aim - tolerance, aim=aim, high=aim + tolerance, source="shop")


def floors_given(groove: Groove) -> list[Limits]:
    """The limits of the floor's height that the drawing gives: those of the floor itself, and those of the depth."""
    side, found = groove.side, []
    for field, times in ((side.bottom, side.sign), ("depth", -side.up)):
        if field in groove.tolerances:
            lower, upper = sorted(times * one for one in groove.tolerances[field])
            found.append(_about(groove.floor, (lower, upper), _source(groove, field)))
    return found


def may_lack(groove: Groove) -> str:
    """What the groove may come without by the drawing's own tolerances: "depth", "width" or ""."""
    if any(floor.high >= groove.mouth for floor in floors_given(groove)):
        return "depth"
    width = groove.tolerances.get("width")
    return "width" if width and groove.width + width[0] <= 0 else ""


def _floor(groove: Groove, tolerance: float) -> Limits:
    """Limits of the floor's height; a tolerance on the depth alone is one on the floor, turned round."""
    side, field = groove.side, groove.side.bottom
    given = floors_given(groove)
    if given:
        # Deviations that are printed come before those of a class; where a floor and a depth both have some, both are
        # kept: sizing stops where they can't be.
        firm = [one for one in given if one.source == "dimension"]
        floor = (overlap(firm) if firm else None) or given[0]
    else:
        # The shop's tolerance is of the size that is printed: of a depth, or of the floor itself.
        times = side.up if "depth" in groove.printed and field not in groove.printed else 1
        floor = _about(groove.floor, (-times * tolerance, times * tolerance), "shop")
    # A form deeper than drawn is wider too: so it goes to nominal as far as the tolerance allows.
    return floor.to(groove.floor) if groove.shape in FORMS else floor
