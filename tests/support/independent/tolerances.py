"""Gives grooves deviations of width and floor, and says how a draughtsman writes them."""

import random
from dataclasses import replace

from support.independent.parts import TrueGroove, TurnedPart
from support.limits_oracle.standards import fit


def loosened(part: TurnedPart, rng: random.Random) -> TurnedPart:
    """The part with deviations on some of its square-edged outside grooves, as fine as the units allow."""
    return replace(part, grooves=tuple(_loose(g, part.units, rng) for g in part.grooves))


def _loose(groove: TrueGroove, units: str, rng: random.Random) -> TrueGroove:
    step = 0.01 if units == "mm" else 0.001
    width = rng.choice(((0.0, step * 10), (-step * 5, step * 5)))
    floor = rng.choice(((-step * 10, 0.0), (-step * 5, step * 5), (-step * 15, -step * 5)))
    style = rng.choice(("signed", "signed", "spaced", "stacked", "class"))
    if groove.where != "outside" or groove.edge_chamfer or rng.random() < 0.3:
        return groove
    if style == "class" and units == "mm":
        return _classed(groove, rng)
    printed = (
        {} if style in ("signed", "class") else {"width": _told(width, style), "floor_diameter": _told(floor, style)}
    )
    return replace(groove, tolerances={"width": width, "floor_diameter": floor}, printed=printed)


def _classed(groove: TrueGroove, rng: random.Random) -> TrueGroove:
    """Width H13, floor h11 or h12."""
    grade = rng.choice((11, 12))
    given = {
        "width": fit("H", 13, groove.z_near - groove.z_far),
        "floor_diameter": fit("h", grade, groove.floor_diameter),
    }
    return replace(groove, tolerances=given, printed={"width": " H13", "floor_diameter": f" h{grade}"})


def _told(deviation: tuple[float, float], style: str) -> str:
    """Two deviations after a size: ` +0.1 0`, or stacked as formatted text has them."""
    lower, upper = (f"{d:+g}" if d else "0" for d in deviation)
    return f" {upper} {lower}" if style == "spaced" else f"\\S{upper}^{lower};"


def tolerance_text(groove: TrueGroove, name: str, before: str) -> str:
    """What a dimension of this field prints, "" for the plain measure."""
    deviation = groove.tolerances.get(name)
    if deviation is None:
        return f"{before}<>" if before else ""
    if name in groove.printed:
        return f"{before}<>{groove.printed[name]}"
    lower, upper = deviation
    if upper == -lower:
        return f"{before}<> %%p{upper:g}"
    return f"{before}<> {_signed(upper)}/{_signed(lower)}"


def _signed(deviation: float) -> str:
    return f"{deviation:+g}" if deviation else "0"
