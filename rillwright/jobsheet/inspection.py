"""First-article inspection: a row for each characteristic of each groove, with limits and what to measure it with.

Gauge hints are common practice, no source. Deviations come from the drawing; where it gives none, the shop's own
tolerance is used and named as such. A place is the distance from the front face, positive toward the chuck.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from rillwright.jobsheet.text import decimals, length_text, signed_text

BLADE = {"mm": 0.8, "in": 0.032}
"""Usual thickness of a micrometer's blade anvil; a narrower groove needs another way."""


@dataclass(frozen=True)
class Check:
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
    def texts(self) -> dict[str, str]:
        """The row as printed."""
        low, high = (length_text(v, self.units) for v in self.limits) if self.limits else ("–", "–")
        return {
            "groove": str(self.groove),
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


def checks_of(record: Mapping[str, Any]) -> list[Check]:
    """Every characteristic of every groove, in the order in which they are met from the front face."""
    part = record.get("part") or {}
    machine = (record.get("setup") or {}).get("machine") or {}
    units = part.get("units") or ""
    matches = (record.get("verification") or {}).get("grooves") or []
    cut = {m.get("drawing"): m.get("program") or {} for m in matches}
    return [
        c
        for g in part.get("grooves") or []
        for c in _checks(g, units, machine.get("tolerance"), _aims(g, cut.get(g["id"]) or {}))
    ]


def _aims(groove: Mapping[str, Any], cut: Mapping[str, Any]) -> dict[str, float]:
    """What the program was found to cut, by the names that the characteristics have."""
    if not cut:
        return {}
    near, far, floor = cut["z_near"], cut["z_far"], cut["floor_diameter"]
    found = {"floor_diameter": floor}
    if groove["where"] == "face":
        found["depth"] = near - far
        return found | ({"mouth_diameter": cut["mouth_diameter"]} if "mouth_diameter" in cut else {})
    return found | {
        "width": near - far,
        "z_near": -near,
        "z_far": -far,
        "depth": abs(groove["mouth_diameter"] - floor) / 2,
    }


def _checks(groove: Mapping[str, Any], units: str, general: float | None, aims: Mapping[str, float]) -> Iterable[Check]:
    """Width, floor, place, and radius or chamfer where there is one."""
    for key, what, nominal in _characteristics(groove):
        lower, upper, source = _deviations(groove, key, general)
        if key in (groove.get("general_tolerances") or ()):
            source = "general note"
        gauge = gauge_for(key, groove, units)
        yield Check(groove["id"], what, nominal, lower, upper, source, gauge, units, aims.get(key))


def _characteristics(groove: Mapping[str, Any]) -> list[tuple[str, str, float]]:
    """Name in the record, name on the sheet and nominal of what is measured of one groove."""
    across = groove["where"] == "face"
    near, far = groove["z_near"], groove["z_far"]
    found = [("depth", "depth from the face", near - far)] if across else [("width", "width", near - far)]
    found.append(("floor_diameter", "inner wall ⌀" if across else "floor ⌀", groove["floor_diameter"]))
    if not across and "depth" in (groove.get("tolerances") or {}):
        found.append(("depth", "depth", groove["depth"]))
    if across:
        found.append(("mouth_diameter", "outer wall ⌀", groove["mouth_diameter"]))
    else:
        found.append(("z_near", "front wall, from Z0", -near))
        if "z_far" in (groove.get("tolerances") or {}):
            found.append(("z_far", "chuck wall, from Z0", -far))
    for key, what in (("corner_radius", "corner radius"), ("edge_chamfer", "edge chamfer")):
        if groove.get(key):
            found.append((key, what, groove[key]))
    return found


Deviations = tuple[float | None, float | None, str]
"""Lower and upper deviation, and who set them."""


def _deviations(groove: Mapping[str, Any], key: str, general: float | None) -> Deviations:
    """What one characteristic is held to, as the verification holds the program to it."""
    given = groove.get("tolerances") or {}
    if key in ("z_near", "z_far"):
        lower, upper, source = _wall(given, key, general)
        # A place counts away from the front face, so its deviations are turned round.
        return None if upper is None else -upper, None if lower is None else -lower, source
    if given.get(key) is not None:
        return given[key][0], given[key][1], "drawing"
    if key == "floor_diameter" and given.get("depth") is not None and groove["where"] != "face":
        side = 2 if groove["where"] == "inside" else -2
        lower, upper = sorted(side * value for value in given["depth"])
        return lower, upper, "drawing"
    if general is None or key in ("corner_radius", "edge_chamfer"):
        return None, None, "–"
    return -general, general, "shop"


def _wall(given: Mapping[str, Any], key: str, general: float | None) -> Deviations:
    """Deviations of a wall's z: its own; else those of the other wall and the width; else the shop's.

    Where the drawing lets the groove grow, the shop's are about a wall that may move outward by as much.
    """
    if given.get(key) is not None:
        return given[key][0], given[key][1], "drawing"
    wide = given.get("width")
    # Of the near wall: toward the front is wider. Of the far wall: away from it.
    grown = wide if key == "z_near" or wide is None else [-wide[1], -wide[0]]
    other = given.get("z_far" if key == "z_near" else "z_near")
    if other is not None and grown is not None:
        return other[0] + grown[0], other[1] + grown[1], "drawing"
    if general is None:
        return None, None, "–"
    if grown is None:
        return -general, general, "shop"
    return min(0.0, grown[0]) - general, max(0.0, grown[1]) + general, "shop"


def gauge_for(key: str, groove: Mapping[str, Any], units: str) -> str:
    """What to measure a characteristic with."""
    inside, face = groove["where"] == "inside", groove["where"] == "face"
    if key == "width":
        return "gauge blocks or pins"
    if key == "floor_diameter":
        if inside:
            return "inside groove gauge"
        if face:
            return "knife-jaw caliper or projector"
        wide = groove["z_near"] - groove["z_far"] > BLADE.get(units, 0.8)
        return "blade-anvil micrometer" if wide else "projector (narrower than a blade anvil)"
    if key == "depth" and not face:
        return "groove depth gauge, or from both diameters"
    if key in ("z_near", "z_far", "depth"):
        return "depth micrometer and gauge block"
    if key == "mouth_diameter":
        return "knife-jaw caliper or projector"
    return "radius gauges or projector" if key == "corner_radius" else "projector"


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


def inspection_csv(record: Mapping[str, Any]) -> str:
    """The inspection rows as comma-separated values (RFC 4180), `measured` and `accepted` left to be filled in."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for check in checks_of(record):
        low, high = check.limits if check.limits else (None, None)
        numbers = (check.nominal, check.lower, check.upper, low, high, check.aim)
        cells = ("" if v is None else f"{v + 0.0:.{decimals(check.units)}f}" for v in numbers)
        writer.writerow([check.groove, check.what, check.units, *cells, check.source, check.gauge, "", ""])
    return text.getvalue()
