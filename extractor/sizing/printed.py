r"""What a dimension prints, taken apart: sign, count, size, deviations, tolerance class, unit.

Rules: nothing is guessed. A text that doesn't parse has no size and no deviations; sizes that could be meant (as in
`3 x 2`) are all kept, so that a contradiction is only called where none of them fits. Grammar (ISO 129-1, common
practice): [count x] [Ø|R|M] size [unit] [class] [± d | upper/lower | upper^lower] [words].
"""

import re
from dataclasses import dataclass
from typing import Literal

from extractor.part import Deviation, Units

NUMBER = r"(?:\d+\.?\d*|\.\d+)"
SIGNED = rf"(?:[+-]\s*{NUMBER}|[+-]?0+(?:\.0*)?)"
COUNT = re.compile(rf"^\(?\s*({NUMBER})\s*(?:[x×X*]|OFF\b|PLACES\b|HOLES\b)\s*\)?\s*(?=[ØRM\d.\s<(])", re.I)
FRACTION = re.compile(r"(?<![\d.])(?:(\d+)[ -]+)?(\d+)\s*/\s*(2|4|8|16|32|64)(?![\d.])")
UNIT = re.compile(r"(?<=[\d.>])\s*(mm\b|inch(?:es)?\b|in\b\.?|\"|″|'')", re.I)
SIGN = re.compile(r"Ø|(?<![a-z])(?:dia(?:meter)?|diam|durchm(?:esser)?)\b\.?\s*[:=]?", re.I)
CLASS = re.compile(
    r"(?<=[\d.>)\s])(js|JS|[a-hjkm-npr-uA-HJKM-NPR-U])(\d{1,2})(?![\d.])(?:\s*/\s*([a-zA-Z]{1,2}\d{1,2})(?!\d))?"
)
PLUS_MINUS = re.compile(rf"±\s*({NUMBER})")
PAIR = re.compile(rf"(?<![\d.])({SIGNED})\s*(?:[/^\s;,|]\s*|(?=[+-]))({SIGNED})(?![\d.])")
SINGLE = re.compile(rf"(?<![\d.Øx×])([+-]\s*{NUMBER})(?![\d.])")
SIZE = re.compile(rf"<>|{NUMBER}")
LIMITS = re.compile(rf"^\s*({NUMBER})\s*[/^-]\s*({NUMBER})\s*$")
ELSEWHERE = re.compile(r"\W*(?:see|siehe|voir|note|detail|view|section|item|pos|dwg|sheet|rev)\b", re.I)
"""Words that lead to another place; a number behind them is no size."""
TYPICAL = re.compile(r"\btyp(?:ical)?\b|\ball grooves\b|\beach\b|\balle nuten\b|\btyp\.", re.I)
LARGEST_SHARE = {False: 0.25, True: 0.5}
"""A deviation beyond this share of the size is none; two printed ones may be larger: no range is written so."""


@dataclass(frozen=True)
class Printed:
    """One dimension text. Sizes in the units printed; `size` None stands for the measured size or an unread text.

    `measured`: the text prints the measured size ("<>" or nothing). `sizes`: every size that could be meant.
    `decimals`: places of `size`. `count`: how often the feature occurs. `reference`: in brackets, for information.
    """

    size: float | None = None
    sizes: tuple[float, ...] = ()
    decimals: int = 0
    measured: bool = False
    sign: Literal["", "diameter", "radius", "thread", "angle"] = ""
    deviations: Deviation | None = None
    tolerance_class: str | None = None
    count: int = 1
    unit: Units | None = None
    reference: bool = False
    typical: bool = False

    def stretched(self, factor: float) -> tuple[float, ...]:
        """Every size that could be meant, times a factor."""
        return tuple(size * factor for size in self.sizes)


def normalised(text: str) -> str:
    """One line, decimal points, one kind of minus and of plus-minus.

    >>> normalised("40,5 +/- 0,1")
    '40.5 ± 0.1'
    """
    text = " ".join(text.split())
    text = re.sub(r"(?<=\d),(?=\d)", ".", text).translate(str.maketrans("−–—", "---"))
    return re.sub(r"\+\s?/\s?-|\+-", "±", text)


def parse(text: str | None) -> Printed:
    """Take a dimension text apart; None is the measured size.

    >>> p = parse("4x Ø36 -0.05/-0.15")
    >>> (p.size, p.sign, p.count, p.deviations)
    (36.0, 'diameter', 4, (-0.15, -0.05))
    """
    if text is None:
        return Printed(measured=True)
    line = normalised(text)
    if ELSEWHERE.match(line):
        return Printed()
    reference = bool(re.fullmatch(r"\(.*\)", line))
    line = line.strip("()[]") if reference else line
    typical = bool(TYPICAL.search(line))
    if "°" in line:
        return _angle_or_chamfer(line, reference)
    return _taken_apart(line, reference, typical)


def _angle_or_chamfer(line: str, reference: bool) -> Printed:
    """`45°` is an angle; `1x45°` and `1 x 30°` a chamfer, whose size is the first number."""
    chamfer = re.match(rf"\s*({NUMBER})\s*[x×X*]\s*{NUMBER}\s*°", line)
    size = float(chamfer.group(1)) if chamfer else None
    return Printed(size=size, sizes=(size,) if size else (), sign="angle", reference=reference)


def _taken_apart(line: str, reference: bool, typical: bool) -> Printed:
    unit, line = _unit(line)
    line, fraction = _fractions(line)
    counted = COUNT.match(line)
    rest = line[counted.end() :] if counted else line
    sign = _sign(rest)
    limits = LIMITS.match(SIGN.sub(" ", rest))
    if limits and not fraction and _near(limits):
        return _between(limits, sign, unit)
    size, places, tail = _size(rest)
    others = _other_sizes(counted, tail)
    tolerance_class, tail = _class(tail)
    count = int(float(counted.group(1))) if counted and float(counted.group(1)).is_integer() else 1
    return Printed(
        size=size,
        sizes=(() if size is None else (size,)) + others,
        decimals=6 if fraction else places,
        measured="<>" in rest,
        sign=sign,
        deviations=_likely(_deviations(tail), size, _paired(tail[1:])),
        tolerance_class=tolerance_class,
        count=max(1, count),
        unit=unit,
        reference=reference,
        typical=typical,
    )


def _unit(line: str) -> tuple[Units | None, str]:
    """The unit written behind a number, and the line without it."""
    match = UNIT.search(line)
    if match is None:
        return None, line
    return ("mm" if match.group(1).lower() == "mm" else "in"), UNIT.sub(" ", line)


def _fractions(line: str) -> tuple[str, bool]:
    """Inch fractions turned into decimals (1 1/2 -> 1.5), and whether there were any."""
    decimal = FRACTION.sub(_decimal, line)
    return decimal, decimal != line


def _decimal(match: re.Match[str]) -> str:
    """A fraction as a decimal; an even numerator or one above its denominator makes none."""
    whole, top, bottom = (int(g or 0) for g in match.groups())
    return match.group(0) if top % 2 == 0 or top >= bottom else f"{whole + top / bottom:.6f}"


def _sign(rest: str) -> Literal["", "diameter", "radius", "thread", "angle"]:
    """What kind of size the sign before it says."""
    if SIGN.search(rest):
        return "diameter"
    if re.match(rf"\s*S?R\s*(?:{NUMBER}|<>)", rest):
        return "radius"
    return "thread" if re.match(rf"\s*M\s*{NUMBER}", rest) else ""


def _near(limits: re.Match[str]) -> bool:
    """True if two sizes can be the limits of one: less than a tenth apart, and not the whole numbers of a range."""
    low, high = sorted(float(g) for g in limits.groups())
    return 0 < low < high < 1.1 * low and any("." in g for g in limits.groups())


def _between(
    limits: re.Match[str], sign: Literal["", "diameter", "radius", "thread", "angle"], unit: Units | None
) -> Printed:
    """Two limits printed instead of size and deviations."""
    low, high = sorted(float(g) for g in limits.groups())
    places = max(_places(g) for g in limits.groups())
    return Printed(size=high, sizes=(low, high), decimals=places, sign=sign, deviations=(low - high, 0.0), unit=unit)


def _size(rest: str) -> tuple[float | None, int, str]:
    """The first size, its decimals, and what follows it; words before it are passed over."""
    match = SIZE.search(rest)
    if match is None:
        return None, 0, ""
    if match.group(0) == "<>":
        return None, 0, rest[match.end() - 1 :]
    before = rest[: match.start()].rstrip()
    if before.endswith(("±", "+", "-")):
        return None, 0, ""
    return float(match.group(0)), _places(match.group(0)), rest[match.end() - 1 :]


def _places(number: str) -> int:
    return len(number.partition(".")[2])


def _other_sizes(counted: re.Match[str] | None, tail: str) -> tuple[float, ...]:
    """Further sizes in a text with products: `3 x 2`, `4 x 5 = 20`."""
    others = [float(counted.group(1))] if counted else []
    if counted or re.search(r"[x×X=]\s*Ø?\s*\d|\(\s*=", tail):
        others += [float(n) for n in re.findall(rf"(?<=[x×X=*])\s*Ø?\s*({NUMBER})", tail)]
    return tuple(value for value in others if value > 0)


def _class(tail: str) -> tuple[str | None, str]:
    """The tolerance class behind the size, and the rest; of a fit `H7/g6` both classes, the hole's first."""
    match = CLASS.search(tail)
    if match is None or int(match.group(2)) > 18:
        return None, tail
    both = f"/{match.group(3)}" if match.group(3) else ""
    return f"{match.group(1)}{match.group(2)}{both}", tail[: match.start()] + " " + tail[match.end() :]


def _likely(deviations: Deviation | None, size: float | None, paired: bool) -> Deviation | None:
    """Deviations, None where they are too large for the size to be any (12-13 is a range)."""
    if deviations is None or size is None or max(map(abs, deviations)) <= LARGEST_SHARE[paired] * size:
        return deviations
    return None


def _paired(tail: str) -> bool:
    """True if two deviations are printed, or one with both signs."""
    return bool(PLUS_MINUS.search(tail) or PAIR.search(tail))


def _deviations(tail: str) -> Deviation | None:
    """Deviations behind the size; one alone has 0 as the other."""
    tail = tail[1:]
    plus_minus = PLUS_MINUS.search(tail)
    if plus_minus:
        value = float(plus_minus.group(1))
        return -value, value
    pair = PAIR.search(tail)
    if pair:
        one, other = (float(g.replace(" ", "")) for g in pair.groups())
        return (min(one, other), max(one, other)) if one != other else None
    single = SINGLE.search(tail)
    if single and (tail[: single.start()].endswith((" ", "(")) or single.start() == 0):
        value = float(single.group(1).replace(" ", ""))
        return (min(0.0, value), max(0.0, value)) if value else None
    return None
