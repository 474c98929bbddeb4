"""How a drafter prints a size with its deviations: signed, stacked, as variables, as limits, as a fit, or bare."""

import random
import re
from dataclasses import dataclass, field

Deviation = tuple[float, float]


@dataclass(frozen=True)
class Word:
    """The override of a dimension, and the variables that go with it."""

    text: str = ""
    variables: dict[str, float] = field(default_factory=dict)
    decimals: int = 2


def places(value: float, units: str) -> int:
    """Decimals that a size is printed with: two in mm, three in inches, more where it needs them."""
    least = 3 if units == "in" else 2
    return next(n for n in range(least, 7) if abs(round(value, n) - value) < 1e-7)


def number(value: float, units: str) -> str:
    """An unsigned number: `10`, `0.05`, and in inches `.125` with its noughts."""
    told = f"{value:.{places(value, units)}f}"
    return told.removeprefix("0") if units == "in" else told.rstrip("0").rstrip(".")


def signed(value: float, units: str, rng: random.Random) -> str:
    """A deviation with its sign; nought without one, in inches also as `.000`, `+.000`, `-.000`."""
    if value == 0:
        return rng.choice((".000", "+.000", "-.000", "0")) if units == "in" else rng.choice(("0", "0", "0.0", "+0"))
    return ("+" if value > 0 else "-") + number(abs(value), units)


def pair(size: str, deviation: Deviation, units: str, rng: random.Random) -> str:
    low, high = deviation
    if low == -high and rng.random() < 0.9:
        return f"{size} {rng.choice(('%%p', chr(177)))}{number(high, units)}"
    up, down = signed(high, units, rng), signed(low, units, rng)
    style = rng.choice(("slash", "slash", "space", "spaced slash", "stack", "small stack", "swapped"))
    return {
        "slash": f"{size} {up}/{down}",
        "space": f"{size} {up} {down}",
        "spaced slash": f"{size} {up} / {down}",
        "stack": f"{size}\\S{up}^{down};",
        "small stack": f"{size}{{\\H0.7x;\\S{up}^ {down};}}",
        "swapped": f"{size} {down}/{up}",
    }[style]


def comma(text: str, units: str, rng: random.Random) -> str:
    """Decimal commas, as ISO 129-1 has them, on one dimension in six; not in a height of letters."""
    return re.sub(r"(\d)\.(\d+)(?!\d*x;)", r"\1,\2", text) if units == "mm" and rng.random() < 1 / 6 else text


def toleranced(rng: random.Random, units: str, size: float, deviation: Deviation, before: str = "") -> Word:
    """A size with deviations."""
    low, high = deviation
    decimals = places(size, units)
    style = rng.choice(("text", "text", "text", "override", "variables", "variables", "limits", "limit variables"))
    if style == "variables":
        return Word(f"{before}<>" if before else "", {"dimtol": 1, "dimtp": high, "dimtm": -low}, decimals)
    if style == "limit variables":
        return Word(f"{before}<>" if before else "", {"dimlim": 1, "dimtp": high, "dimtm": -low}, decimals)
    if style == "limits" and "x " not in before and low <= 0 <= high:
        ends = [number(size + d, units) for d in (high, low)]
        told = rng.choice(("{0}/{1}", "{0} / {1}", "\\S{0}^{1};")).format(*ends)
        return Word(comma(before + told, units, rng), {}, decimals)
    printed = "<>" if style == "override" else number(size, units)
    return Word(comma(before + pair(printed, deviation, units, rng), units, rng), {}, decimals)


def fitted(rng: random.Random, size: float, name: str, before: str = "", extra: str = "") -> Word:
    """A size with an ISO 286 class; sometimes with its deviations in brackets behind it."""
    printed = rng.choice(("<>", number(size, "mm")))
    tail = extra if rng.random() < 0.3 else ""
    return Word(f"{before}{printed}{rng.choice((' ', ''))}{name}{tail}", {}, places(size, "mm"))


def bare(rng: random.Random, units: str, size: float, before: str = "") -> Word:
    """A size alone."""
    decimals = places(size, units)
    return Word(rng.choice((f"{before}<>" if before else "", before + number(size, units))), {}, decimals)
