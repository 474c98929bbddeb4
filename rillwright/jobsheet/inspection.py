"""First-article inspection: a row for each characteristic of each groove, with limits and what to measure it with.

Gauge hints are common practice, no source. Deviations come from the drawing; where it gives none, the shop's own
tolerance is used and named as such. A place is the distance from the front face, positive toward the chuck.
"""

from bisect import bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cached_property
from itertools import accumulate

from extractor.distance import Distance, Source, Spot
from extractor.grouping import grouped
from extractor.limits import Aims, Limits, aims_of, deviations, is_limited
from extractor.part import Groove, Part, ProfilePoints
from extractor.places import apart, end_of
from extractor.side import OUTSIDE, Side
from extractor.values import dataclass
from postproc.verdict import CutGroove
from rillwright.jobsheet.stated import stated_part
from rillwright.jobsheet.text import decimals, length_text, signed_text
from rillwright.records.record import Record
from rillwright.spreadsheet import Decimal, figure, table_bytes

DIGITS = 9
"""Decimals of a deviation: more are dust of subtracting."""
BLADE = {"mm": 0.8, "in": 0.032}
"""Usual thickness of a micrometer's blade anvil; a narrower groove needs another way."""

HIGHER = {"mm": 0.5, "in": 0.02}
"""How much higher than the groove's own a land must be on the radius to keep a depth micrometer from its edge."""

OVER_A_HEAD = "height gauge, part standing on that face"
"""How a place is measured behind a head, which a depth micrometer can't reach past (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class Characteristic:
    """One characteristic to be measured. `lower` and `upper` are deviations, None where nobody set any.

    `aim` is the size that the program was found to cut, None where it was not found.
    """

    groove: int
    what: str
    nominal: float
    lower: float | None
    upper: float | None
    source: str
    gauge: str
    units: str
    aim: float | None = None

    @property
    def limits(self) -> tuple[float, float] | None:
        """Smallest and greatest size allowed."""
        if self.lower is None or self.upper is None:
            return None
        return self.nominal + self.lower, self.nominal + self.upper

    @property
    def said(self) -> tuple[object, ...]:
        """All that the row says but for the number of its groove: many grooves have the same."""
        return self.what, self.nominal, self.lower, self.upper, self.source, self.gauge, self.aim

    @property
    def texts(self) -> dict[str, str]:
        """The row as printed, but for the number of its groove."""
        low, high = (length_text(v, self.units) for v in self.limits) if self.limits else ("–", "–")
        return {
            "what": self.what,
            "nominal": length_text(self.nominal, self.units),
            "lower": "–" if self.lower is None else signed_text(self.lower, self.units),
            "upper": "–" if self.upper is None else signed_text(self.upper, self.units),
            "low": low,
            "high": high,
            "aim": length_text(self.aim, self.units),
            "source": self.source,
            "gauge": self.gauge,
        }


def checks_of(record: Record) -> list[Characteristic]:
    """Every characteristic of every groove, in the order in which they are met from the front face."""
    part, setup = stated_part(record.part), record.setup
    if part is None:
        return []
    cut = {one.drawing: one.program for one in record.matches if one.drawing is not None and one.program}
    heads = _Heads(record.picture.lands if record.picture else (), part.length)
    sought = _Sought(part, setup.machine.tolerance if setup else None, record.part.units or "", cut, heads)
    return [check for groove in part.grooves for check in sought.checks(groove)]


class _Heads:
    """The highest places of a part without its grooves before and behind a place: what stands in the way of a gauge."""

    def __init__(self, lands: ProfilePoints, length: float) -> None:
        """Of the lands between front and back face, each reckoned once for all grooves."""
        inner = sorted(point for point in lands if -length < point[0] <= 0)
        self._z = [z for z, _ in inner]
        self._behind = list(accumulate((r for _, r in inner), max))
        self._before = list(accumulate((r for _, r in reversed(inner)), max))[::-1]

    def before(self, z: float) -> float:
        """The greatest radius between a place and the front face."""
        at = bisect_right(self._z, z)
        return self._before[at] if at < len(self._z) else 0.0

    def behind(self, z: float) -> float:
        """The greatest radius between the back face and a place."""
        at = bisect_right(self._z, z)
        return self._behind[at - 1] if at else 0.0


@dataclass(frozen=True)
class _Sought:
    """What is measured of a part's grooves: the shop's `tolerance` where the drawing gives none, what was `cut`."""

    part: Part
    tolerance: float | None
    units: str
    cut: Mapping[int, CutGroove]
    heads: _Heads

    @cached_property
    def _printed(self) -> dict[int, list[Distance]]:
        """The distances that the sheet prints, by the groove that each leads to."""
        return grouped((max(one.start.groove, one.end.groove), one) for one in self.part.distances)

    def checks(self, groove: Groove) -> Iterator[Characteristic]:
        """Width, floor, places, and radius or chamfer where there is one."""
        aims, side = aims_of(groove, self.tolerance or 0.0), groove.side
        walls = (self._walls if side.axial else self._face)(groove, aims)
        floor = self._floor(groove, aims)
        yield from (*walls, floor) if side.axial else (floor, *walls)
        if side.axial and is_limited(groove, "depth"):
            lower, upper = deviations(groove)["depth"]
            low, high = groove.depth + lower, groove.depth + upper
            yield self._row(groove, "depth", "depth", groove.depth, Limits(low=low, aim=groove.depth, high=high))
        yield from self._places(groove, aims)
        if groove.corner_radius:
            limits = aims.corner if aims.corner.given else None
            yield self._row(groove, "corner_radius", "corner radius", groove.corner_radius, limits)
        if groove.edge_chamfer:
            name = "edge radius" if groove.rounded else "edge chamfer"
            yield self._row(groove, name.replace(" ", "_"), name, groove.edge_chamfer, None)

    def _walls(self, groove: Groove, aims: Aims) -> Iterator[Characteristic]:
        """The width of a groove along the axis."""
        yield self._row(groove, "width", "width", groove.width, _scaled(aims.width, groove.side.along))

    def _face(self, groove: Groove, aims: Aims) -> Iterator[Characteristic]:
        """Both walls of a face groove, and its width where the drawing gives that."""
        yield self._row(groove, "floor_diameter", "inner wall ⌀", groove.far, aims.far)
        yield self._row(groove, "mouth_diameter", "outer wall ⌀", groove.near, aims.near)
        if "width" in groove.printed or is_limited(groove, "width"):
            yield self._row(groove, "width", "width", groove.width, _scaled(aims.width, groove.side.along))

    def _floor(self, groove: Groove, aims: Aims) -> Characteristic:
        """The floor's diameter; of a face groove the depth from the face."""
        floor = aims.floor
        if not groove.side.axial:
            down = replace(
                floor, low=groove.mouth - floor.high, aim=groove.mouth - floor.aim, high=groove.mouth - floor.low
            )
            return self._row(groove, "depth", "depth from the face", groove.depth, down)
        if groove.side.hollow:
            floor = replace(floor, low=-floor.high, aim=-floor.aim, high=-floor.low)
        return self._row(groove, "floor_diameter", "floor ⌀", groove.floor_diameter, floor)

    def _places(self, groove: Groove, aims: Aims) -> Iterator[Characteristic]:
        """The distances that the sheet prints to this groove; the front wall's place where it prints none."""
        printed = self._printed.get(groove.id, [])
        for one in printed:
            lower, upper = one.deviations or (-(self.tolerance or 0.0), self.tolerance or 0.0)
            low, high = one.nominal + lower, one.nominal + upper
            limits = Limits(low=low, aim=one.nominal, high=high, source=one.source)
            measured = _measured(one, self.part, self.cut)
            yield self._row(groove, "place", _words(one), one.nominal, limits, measured, self._barred(groove, one))
        if not groove.side.axial:
            return
        for spot, what in (("near", "front wall, from Z0"), ("far", "chuck wall, from Z0")):
            field = getattr(groove.side, spot)
            told = any(p.groove == groove.id and p.spot == spot for one in printed for p in (one.start, one.end))
            always = spot == "near" and not printed
            if not told and (always or is_limited(groove, field)):
                wall = _reach(groove, aims) if spot == "near" else aims.far
                away = replace(wall, low=-wall.high, aim=-wall.aim, high=-wall.low)
                barred = self._head(groove, self.heads.before(groove.z_near))
                yield self._row(groove, field, what, -float(getattr(groove, field)), away, barred=barred)

    def _barred(self, groove: Groove, one: Distance) -> bool:
        """True if a head stands between the groove and the face that its place is measured from."""
        ends = {one.start.spot, one.end.spot}
        if "back" in ends:
            return self._head(groove, self.heads.behind(groove.z_far))
        return "front" in ends and self._head(groove, self.heads.before(groove.z_near))

    def _head(self, groove: Groove, highest: float) -> bool:
        """True if the highest land beside an outside groove stands above its own."""
        # Of a drawing whose units nobody knows any higher land counts.
        return groove.side == OUTSIDE and highest > groove.mouth_diameter / 2 + HIGHER.get(self.units, 0.0)

    def _row(
        self,
        groove: Groove,
        key: str,
        what: str,
        nominal: float,
        limits: Limits | None,
        aim: float | None = None,
        barred: bool = False,
    ) -> Characteristic:
        """One row; limits that only the shop could give are left open where it gives none."""
        if limits is not None and not limits.given and self.tolerance is None:
            limits = None
        cut = self.cut.get(groove.id)
        found = _aims(groove, cut).get(key) if aim is None and cut else aim
        lower, upper = (
            (None, None)
            if limits is None
            else tuple(round(v - nominal, DIGITS) + 0.0 for v in (limits.low, limits.high))
        )
        source = "–" if limits is None else SOURCES[limits.source]
        return Characteristic(
            groove=groove.id,
            what=what,
            nominal=nominal,
            lower=lower,
            upper=upper,
            source=source,
            gauge=OVER_A_HEAD if barred else gauge_for(key, groove, self.units),
            units=self.units,
            aim=found,
        )


SOURCES: Mapping[Source, str] = {"dimension": "drawing", "class": "general note", "shop": "shop"}
SPOTS: Mapping[Spot, str] = {
    "front": "the front face",
    "back": "the back face",
    "axis": "the axis",
    "near": "front wall",
    "far": "chuck wall",
    "centre": "middle",
}
RIMS: Mapping[Spot, str] = {"near": "outer wall", "far": "inner wall", "centre": "middle"}


def _words(one: Distance) -> str:
    """A distance in words, from where to where."""
    start, end = (one.start, one.end) if one.end.groove >= one.start.groove else (one.end, one.start)
    names = RIMS if start.spot == "axis" else SPOTS
    if start.groove:
        return f"{names[end.spot]}, from groove {start.groove}'s {names[start.spot]}"
    return f"{names[end.spot]}, from {'Z0' if start.spot == 'front' else SPOTS[start.spot]}"


def _measured(one: Distance, part: Part, cut: Mapping[int, CutGroove]) -> float | None:
    """What the program was found to make of a distance."""
    found = []
    for place in (one.start, one.end):
        if not place.groove:
            found.append(end_of(part, place))
            continue
        walls = _walls(cut.get(place.groove), part.grooves[place.groove - 1].side)
        if walls is None:
            return None
        near, far = walls
        found.append({"near": near, "far": far}.get(place.spot, (near + far) / 2))
    return apart(part, one, *found)


def _scaled(limits: Limits, along: int) -> Limits:
    """Limits along u as a length."""
    return replace(limits, low=limits.low / along, aim=limits.aim / along, high=limits.high / along)


def _reach(groove: Groove, aims: Aims) -> Limits:
    """The limits of a front wall of which the sheet says nothing: as far as the groove may grow, and the shop's beside.

    Where the other wall has limits, it hangs on that and on the width.
    """
    near, far, width = aims.spots.get("near"), aims.spots.get("far"), aims.width
    if near is not None:
        return aims.near
    if far is not None and far.given:
        low, high = (far.low + width.low, far.high + width.high) if width.given else (far.low, far.high)
        shift = 0.0 if width.given else groove.width
        return Limits(low=low + shift, aim=aims.near.aim, high=high + shift, source=far.source)
    if not width.given:
        return aims.near
    least, most = min(0.0, width.low - groove.width), max(0.0, width.high - groove.width)
    room = aims.near.high - aims.near.aim
    return replace(aims.near, low=groove.near + least - room, high=groove.near + most + room)


def _walls(cut: CutGroove | None, side: Side) -> tuple[float, float] | None:
    """Both walls of a cut in the frame of a side, None where it is not known to have them."""
    near, far = getattr(cut, side.near, None), getattr(cut, side.far, None)
    return None if near is None or far is None else (near, far)


def _aims(groove: Groove, cut: CutGroove) -> dict[str, float]:
    """What the program was found to cut, by the names that the characteristics have."""
    side = groove.side
    walls = _walls(cut, side)
    if walls is None:
        return {}
    (near, far), bottom = walls, float(getattr(cut, side.bottom))
    found = {side.bottom: bottom, "width": (near - far) / side.along}
    found["depth"] = (groove.mouth - side.sign * bottom) / side.up
    return found | ({side.near: -near, side.far: -far} if side.axial else {side.near: near, side.far: far})


def gauge_for(key: str, groove: Groove, units: str) -> str:
    """What to measure a characteristic with."""
    side = groove.side
    if key == "width":
        return "gauge blocks or pins"
    if key == "mouth_diameter" or (key == "floor_diameter" and not side.axial):
        return "knife-jaw caliper or projector"
    if key == "floor_diameter" and side.hollow:
        return "inside groove gauge"
    if key == "floor_diameter":
        wide = groove.width > BLADE.get(units, BLADE["mm"])
        return "blade-anvil micrometer" if wide else "projector (narrower than a blade anvil)"
    if key == "depth" and side.axial:
        return "groove depth gauge, or from both diameters"
    if key in ("place", "z_near", "z_far", "depth"):
        return "depth micrometer and gauge block"
    return "radius gauges or projector" if key in ("corner_radius", "edge_radius") else "projector"


COLUMNS = (
    "groove",
    "characteristic",
    "units",
    "nominal",
    "lower deviation",
    "upper deviation",
    "lower limit",
    "upper limit",
    "aim",
    "limits from",
    "gauge",
    "measured",
    "accepted",
)


def inspection_csv(record: Record, decimal: Decimal = "point") -> bytes:
    """The inspection rows for a spreadsheet, `measured` and `accepted` left to be filled in."""
    return table_bytes(COLUMNS, [_cells(check) for check in checks_of(record)], decimal)


def _cells(check: Characteristic) -> list[object]:
    low, high = check.limits if check.limits else (None, None)
    numbers = (check.nominal, check.lower, check.upper, low, high, check.aim)
    figures = [figure(v, decimals(check.units)) for v in numbers]
    return [check.groove, check.what, check.units, *figures, check.source, check.gauge, "", ""]
