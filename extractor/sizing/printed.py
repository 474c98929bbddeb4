r"""What a dimension prints, parsed: sign, count, size, deviations, tolerance class, unit.

Rules: nothing is guessed. A text that doesn't parse has no size and no deviations; sizes that could be meant (as in
`3 x 2`) are all kept, so that a contradiction is only called where none of them fits. Grammar (ISO 129-1, common
practice): [count x] [Ø|R|M] size [unit] [class] [± d | upper/lower | upper^lower] [words].
"""

import re
from dataclasses import replace
from typing import Literal

from extractor.decimals import half_place, places_of
from extractor.part import Deviation, Units
from extractor.values import dataclass

NUMBER = r"(?:\d+\.?\d*|\.\d+)"
SIGNED = rf"(?:[+-]\s*{NUMBER}|[+-]?(?:0+(?:\.0*)?|\.0+))"
"""A deviation with its sign, or a zero, which needs none: `0`, `0.00` and, in inch, `.000`."""
COUNT = re.compile(
    rf"^\(?\s*({NUMBER})\s*(?:[x×X*]|OFF\b|PLACES\b|HOLES\b|-(?=\s*[ØR]))\s*\)?\s*(?=[ØRM\d.\s<(])", re.I
)
FRACTION = re.compile(r"(?<![\d.])(?:(\d+)[ -]+)?(\d+)\s*/\s*(2|4|8|16|32|64)(?![\d.])")
UNIT = re.compile(r"(?<=[\d.>])\s*(mm\b|inch(?:es)?\b|in\b\.?|\"|″|'')", re.I)
SIGN = re.compile(r"Ø|(?<![a-z])(?:dia(?:meter)?|diam|durchm(?:esser)?)\b\.?\s*[:=]?", re.I)
MARKED = re.compile(rf"(?:Ø|(?<![a-z])dia(?:meter)?\.?)\s*(?={NUMBER}|<>)", re.I)
"""A diameter sign before its number: the size of a text that holds others too, as `3 WIDE Ø34` does."""
CLASS = re.compile(
    r"(?<=[\d.>)(\s])(js|JS|[a-hjkm-npr-uA-HJKM-NPR-U])((?:(?:(?<=[\d.>(][HhFfGg])|(?<=[\d.>(]\s[Hh]))\s)?\d{1,2})(?![\d.])"
    r"(?:\s*/\s*([a-zA-Z]{1,2}\d{1,2})(?!\d))?"
)
PLUS_MINUS = re.compile(rf"±\s*({NUMBER})")
PAIR = re.compile(rf"(?<![\d.])({SIGNED})\s*(?:[/^\s;,|]\s*|(?=[+-]))({SIGNED})(?![\d.])")
SINGLE = re.compile(rf"(?<![\d.Øx×])([+-]\s*{NUMBER})(?![\d.])")
SIZE = re.compile(rf"<>|{NUMBER}")
LIMITS = re.compile(rf"^\s*({NUMBER})\s*([/^-])\s*({NUMBER})\s*$")
TWO_LINES = re.compile(rf"^\s*(Ø?\s*{NUMBER})[^\S\n]*\n\s*Ø?\s*({NUMBER})\s*$")
RANGE = re.compile(rf"({NUMBER})\s*(?:\.{{2,3}}|…|\b(?:to|bis)\b)\s*({NUMBER})", re.I)
GREATEST_AND_LEAST = re.compile(rf"({NUMBER})\s*(MAX|MIN)\b\.?\s*[/,;]?\s*({NUMBER})\s*(?!\2)M(?:AX|IN)\b\.?", re.I)
MICROMETRES = re.compile(rf"({SIGNED})\s*/\s*({SIGNED})\s*[µμ]m\b")
"""Other ways to print limits and deviations."""
WIDEST = {"^": 2.0, "/": 1.5, "-": 1.1}
"""The greater of two limits over the lesser, at most: a stack is no range, a stroke may be, a hyphen is one mostly."""
WIDEST_RADIUS = 4.0
"""The same for a radius, which is small and never a range: `R0.8/0.4`."""
FULL = re.compile(r"\b(?:FULL|VOLLER)\s+(?=R\s*[\d.])", re.I)
"""A word before a radius that runs from wall to wall."""
RADIUS = re.compile(rf"^\s*S?R\s*(?={NUMBER})")
ELSEWHERE = re.compile(r"\W*(?:see|siehe|voir|note|detail|view|section|item|pos|dwg|sheet|rev)\b", re.I)
"""Words that lead to another place; a number behind them is no size."""
TYPICAL = re.compile(r"\btyp(?:ical)?\b|\ball grooves\b|\beach\b|\balle nuten\b|\btyp\.", re.I)
LARGEST_SHARE = {False: 0.25, True: 0.5}
"""A deviation beyond this share of the size is none; two printed ones may be larger: no range is written so."""
LARGEST_OF_RADIUS = 1.0
"""The same share for a radius: `R0.1 ±0.1` allows a sharp corner."""
BRACKETED = re.compile(rf"(?<=[\d.>\s])\[\s*[ØR]?\s*({NUMBER})")
"""A size in square brackets behind another: the same in the other unit (common practice, no source)."""
LOST = re.compile(r"\?\s*\.?\d")
"""A sign that the file could not hold, before a number: most likely a minus."""
REPEATED = re.compile(rf"\(\s*({NUMBER})\s*[/^-]\s*({NUMBER})\s*\)")
"""Limits in brackets behind a class."""
TOLERANCE_LIKE = re.compile(rf"{LOST.pattern}|±|\+\s*\.?\d|(?<=[\s(/^])-\.?\d|[/^]\s*\.?\d")
"""What looks like a tolerance behind a size. A minus between two numbers with no space before it is a range."""
HIGHEST_GRADE = 18
"""Standard tolerances end at IT18 (ISO 286-1)."""
DUST = 1e-6
"""Relative difference of equal sizes that went through a file."""
BEHIND = re.compile(rf"^\s*-\s*(?={NUMBER}\s*$)")
"""A minus before all that is printed: a place behind the front face, as Z is counted; its size is the number."""
GRADE_OR_CLASS = re.compile(r"\s*IT\s?\d{1,2}\b|\s?[fmcv]\s*$")
"""A grade without its letter, or a general class at one size: a tolerance, of which nobody can say where it lies."""
PIECES = re.compile(r"(?<=[\d\s)])n[°.]\s*\d+\s*$", re.I)
"""A count behind a size, as `5 ±0.05 n°4` has it; it is no angle."""
ONE_LIMIT = re.compile(r"\W*(?:max|min)\b", re.I)
"""A size that is the greatest or the least allowed: the other limit is printed nowhere."""


Sign = Literal["", "diameter", "radius", "thread", "angle"]


@dataclass(frozen=True)
class Printed:
    """One dimension text. Sizes in the units printed; `size` None stands for the measured size or an unread text.

    `measured`: the text prints the measured size ("<>" or nothing). `sizes`: every size that could be meant.
    `decimals`: places of `size`. `count`: how often the feature occurs. `reference`: in brackets, for information.
    `limits`: two limits are printed in place of size and deviations; they are `sizes`, and `size` is the greater.
    `unread`: something that looks like a tolerance stands in the text, and none was read. `bracketed`: a second size in
    square brackets, and its decimals.
    """

    size: float | None = None
    sizes: tuple[float, ...] = ()
    decimals: int = 0
    measured: bool = False
    sign: Sign = ""
    deviations: Deviation | None = None
    tolerance_class: str | None = None
    count: int = 1
    unit: Units | None = None
    reference: bool = False
    typical: bool = False
    limits: bool = False
    unread: bool = False
    bracketed: tuple[float, int] | None = None

    @classmethod
    def of(cls, number: str) -> "Printed":
        """A number as printed."""
        return cls(float(number), (float(number),), places_of(number))

    @property
    def value(self) -> float:
        """The size, 0 where none was read."""
        return self.size or 0.0

    @property
    def limited(self) -> bool:
        """True if a tolerance stands beside the size, read or not."""
        return bool(self.deviations or self.tolerance_class or self.unread)

    def rounded(self, size: float) -> float:
        """Half of the last printed digit as a share of a size, as a five may round either way; 0 for a measured one."""
        return 0.0 if self.measured or size <= 0 else half_place(self.decimals) / size + DUST


def normalised(text: str) -> str:
    """The text on one line, with decimal points and one kind of minus and plus-minus.

    >>> normalised("40,5 +/- 0,1")
    '40.5 ± 0.1'
    """
    text = re.sub(r"(?<=\d),(?=\d)", ".", text).translate(str.maketrans("−–—", "---"))
    text = " ".join(TWO_LINES.sub(r"\1-\2", text).split())
    text = GREATEST_AND_LEAST.sub(r"\1^\3", RANGE.sub(r"\1-\2", re.sub(r"\+\s?/\s?-|\+-", "±", text)))
    return MICROMETRES.sub(
        lambda found: "/".join(f"{float(g.replace(' ', '')) / 1000:+g}" for g in found.groups()), text
    )


def parse(text: str | None) -> Printed:
    """Parse a dimension text; None stands for the measured size.

    >>> p = parse("4x Ø36 -0.05/-0.15")
    >>> (p.size, p.sign, p.count, p.deviations)
    (36.0, 'diameter', 4, (-0.15, -0.05))
    """
    if text is None:
        return Printed(measured=True)
    line = BEHIND.sub("", FULL.sub("", PIECES.sub("", normalised(text))))
    if ELSEWHERE.match(line):
        return Printed()
    reference = bool(re.fullmatch(r"\(.*\)", line))
    line = line.strip("()[]") if reference else line
    typical = bool(TYPICAL.search(line))
    if "°" in line:
        return _angle_or_chamfer(line, reference)
    found = BRACKETED.search(line)
    second = (float(found[1]), places_of(found[1])) if found else None
    return replace(_taken_apart(line, reference, typical), bracketed=second)


def _angle_or_chamfer(line: str, reference: bool) -> Printed:
    """`45°` is an angle; `1x45°` and `1 x 30°` a chamfer, whose size is the first number."""
    chamfer = re.match(rf"\s*({NUMBER})\s*[x×X*]\s*{NUMBER}\s*°", line)
    size = float(chamfer.group(1)) if chamfer else None
    return Printed(size=size, sizes=(size,) if size else (), sign="angle", reference=reference)


def _taken_apart(line: str, reference: bool, typical: bool) -> Printed:
    unit, line = _unit(line)
    line, fraction = fractions(line)
    counted = COUNT.match(line)
    rest = line[counted.end() :] if counted else line
    sign = _sign(rest)
    count = int(float(counted.group(1))) if counted and float(counted.group(1)).is_integer() else 1
    between = None if fraction else _between(rest, sign, unit)
    if between is not None:
        return replace(between, count=max(1, count), reference=reference, typical=typical)
    marked = MARKED.search(rest)
    before = [float(n) for n in re.findall(NUMBER, rest[: marked.start()])] if marked else []
    size, places, tail = _size(rest[marked.start() :] if marked else rest)
    # `3x R2` counts; of `3 x 2` and `3 x Ø34` the 3 may be a width.
    others = (*before, *_other_sizes(None if sign == "radius" else counted, tail))
    tolerance_class, tail = _class(tail)
    given, paired = _deviations(tail[1:])
    share = LARGEST_OF_RADIUS if sign == "radius" else LARGEST_SHARE[paired]
    given = None if LOST.search(tail) else given
    if tolerance_class is not None and size is not None and (both := REPEATED.search(tail)):
        low, high = sorted(round(float(one) - size, 9) for one in both.groups())
        given = low, high
    # Beyond a share of the size they are most likely none: 12-13 is a range.
    likely = given is None or size is None or max(map(abs, given)) <= share * size
    deviations = given if likely else None
    return Printed(
        size=size,
        sizes=(() if size is None else (size,)) + others,
        decimals=6 if fraction else places,
        measured="<>" in rest,
        sign=sign,
        deviations=deviations,
        tolerance_class=tolerance_class,
        count=max(1, count),
        unit=unit,
        reference=reference,
        typical=typical,
        unread=deviations is None and _like_a_tolerance(tail[1:] if tail else rest),
    )


def _like_a_tolerance(words: str) -> bool:
    """True if words behind a size, or without one, look like a tolerance."""
    return bool(re.search(r"\d", words) and TOLERANCE_LIKE.search(words)) or any(
        form.match(words) is not None for form in (ONE_LIMIT, GRADE_OR_CLASS)
    )


def _unit(line: str) -> tuple[Units | None, str]:
    """The unit written behind a number, and the line without it."""
    match = UNIT.search(line)
    if match is None:
        return None, line
    return ("mm" if match.group(1).lower() == "mm" else "in"), UNIT.sub(" ", line)


def fractions(line: str) -> tuple[str, bool]:
    """Inch fractions turned into decimals (1 1/2 -> 1.5), and whether there were any."""
    decimal = FRACTION.sub(_decimal, line)
    return decimal, decimal != line


def _decimal(match: re.Match[str]) -> str:
    """A fraction as a decimal; an even numerator or one above its denominator makes none."""
    whole, top, bottom = (int(g or 0) for g in match.groups())
    return match.group(0) if top % 2 == 0 or top >= bottom else f"{whole + top / bottom:.6f}"


def _sign(rest: str) -> Sign:
    """What kind of size the sign before it says."""
    if SIGN.search(rest):
        return "diameter"
    if re.match(rf"\s*S?R\s*(?:{NUMBER}|<>)", rest):
        return "radius"
    return "thread" if re.match(rf"\s*M\s*{NUMBER}", rest) else ""


def _between(rest: str, sign: Sign, unit: Units | None) -> Printed | None:
    """Two limits printed instead of size and deviations, near enough for their form; None for a range and all else."""
    limits = LIMITS.match(TYPICAL.sub(" ", RADIUS.sub(" ", SIGN.sub(" ", rest))).rstrip("( )"))
    if limits is None:
        return None
    one, bar, other = limits.groups()
    low, high = sorted((float(one), float(other)))
    small = sign == "radius" and bar != "-"
    near = high <= WIDEST_RADIUS * low if small else high < WIDEST[bar] * low and ("." in limits[0] or bar == "^")
    if not (0 < low < high and near):
        return None
    places, off = max(places_of(one), places_of(other)), (round(low - high, 9), 0.0)
    return Printed(high, (low, high), places, sign=sign, deviations=off, unit=unit, limits=True)


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
    return float(match.group(0)), places_of(match.group(0)), rest[match.end() - 1 :]


def _other_sizes(counted: re.Match[str] | None, tail: str) -> tuple[float, ...]:
    """Further sizes in a text with products: `3 x 2`, `4 x 5 = 20`."""
    others = [float(counted.group(1))] if counted else []
    if counted or re.search(r"[x×X=]\s*Ø?\s*\d|\(\s*=", tail):
        others += [float(n) for n in re.findall(rf"(?<=[x×X=*])\s*Ø?\s*({NUMBER})", tail)]
    return tuple(value for value in others if value > 0)


def _class(tail: str) -> tuple[str | None, str]:
    """The tolerance class behind the size, and the rest; of a fit `H7/g6` both classes, the hole's first."""
    match = CLASS.search(tail)
    if match is None or int(match.group(2)) > HIGHEST_GRADE:
        return None, tail
    both = f"/{match.group(3)}" if match.group(3) else ""
    return f"{match.group(1)}{match.group(2).strip()}{both}", tail[: match.start()] + " " + tail[match.end() :]


def _deviations(tail: str) -> tuple[Deviation | None, bool]:
    """Deviations behind the size, and whether two are printed, or one with both signs; one alone has 0 as the other."""
    if plus_minus := PLUS_MINUS.search(tail):
        value = float(plus_minus.group(1))
        return (-value, value), True
    if pair := PAIR.search(tail):
        low, high = sorted(float(g.replace(" ", "")) for g in pair.groups())
        return (low, high) if low != high else None, True
    single = SINGLE.search(tail)
    if single and (tail[: single.start()].endswith((" ", "(")) or single.start() == 0):
        value = float(single.group(1).replace(" ", ""))
        return (min(0.0, value), max(0.0, value)) if value else None, False
    return None, False
