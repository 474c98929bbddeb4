r"""What a dimension prints, parsed: sign, count, size, deviations, tolerance class, unit.

Rules: nothing is guessed. A text that doesn't parse has no size and no deviations; sizes that could be meant (as in
`3 x 2`) are all kept, so that a contradiction is only called where none of them fits. Grammar (ISO 129-1, common
practice): [count x] [Ø|R|M] size [unit] [class] [± d | upper/lower | upper^lower] [words].
"""

import math
import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from extractor.decimals import half_place, places_of
from extractor.grammar import (
    BY,
    COUNT,
    COUNT_BEHIND,
    DIAMETER,
    FIT,
    NUMBER,
    SPACES_AT,
    THREAD_IN_INCHES,
    UNIT,
    Tolerance,
    chamfer,
    fractions,
    limits,
    normalised,
    tolerances,
)
from extractor.late import late
from extractor.part import INCH, Deviation, Units
from extractor.remembered import remembered
from extractor.values import dataclass

SIGN = late(DIAMETER, re.I)
MARKED = late(rf"{DIAMETER}\s*(?={NUMBER}|<>)", re.I)
"""A diameter sign before its number: the size of a text that holds others too, as `3 WIDE Ø34` does."""
SIZE = late(rf"<>|{NUMBER}")
WIDEST = {"^": 2.0, "/": 1.5, "-": 1.1}
"""The greater of two limits over the lesser, at most: a stack is no range, a stroke may be, a hyphen is one mostly."""
WIDEST_RADIUS = 4.0
"""The same for a radius, which is small and never a range: `R0.8/0.4`."""
FULL = late(r"\b(?:FULL|VOLLER|MAX\.?)\s+(?=R\s*[\d.])", re.I)
"""A word before a radius: of one that runs from wall to wall, or of the greatest."""
RADIUS = late(rf"^\s*(?:S?R|(?i:RAD(?:IUS)?\.?|RAYON|RAGGIO|RADIO)\s*[=:]?)\s*(?={NUMBER}|<>)")
IN_INCHES = late(THREAD_IN_INCHES)
ELSEWHERE = late(r"\W*(?:see|siehe|voir|note|detail|view|section|item|pos|dwg|sheet|rev)\b", re.I)
"""Words that lead to another place; a number behind them is no size."""
TYPICAL = late(
    r"\btyp(?:ical)?\b|\beach\b|\btyp\."
    r"|\b(?:all[ae]?|toutes les|tutte le|todas (?:las|as)|todos os|wszystkie|všechny) "
    r"(?:grooves|nuten|rillen|einstiche|gorges|gole|ranuras|ranhuras|canais|groeven|sleuven|rowki|drážky|spår)\b"
    r"|\b(?:floors|(?:nut|einstich|rillen)gr(?:ü|ue)nde|fonds|fondi|fondos|dna rowków|dna drážek)\b",
    re.I,
)
"""What makes a size that of all alike; several floors are those of several grooves."""
LARGEST_SHARE = {False: 0.25, True: 0.5}
"""A deviation beyond this share of the size is none; two printed ones may be larger: no range is written so."""
LARGEST_OF_RADIUS = 1.0
"""The same share for a radius: `R0.1 ±0.1` allows a sharp corner."""
SECOND = late(
    rf"(?<=[\d.>\s])\[\s*[ØR]?\s*(?P<square>{NUMBER}[^\]]*)\]?"
    rf"|(?<=[\d.>\s])\(\s*(?:[=Ø]\s*)*(?P<limited>{NUMBER}\s*(?:±|\+|(?<=\s)-\s*\d*\.?\d)[^()]*)\)"
    rf"|(?<=\d)\s*\(\s*(?P<limits>{NUMBER}\s*[/^-]\s*{NUMBER})\s*\)\s*$"
    rf"|(?<=[\d\s])\(\s*(?:(?:[=Ø]\s*)+(?P<same>{NUMBER})|(?P<bare>\d*\.\d+))\s*\)\s*$"
)
"""A size in brackets behind another: the same in the other unit, with its tolerance (common practice, no source). In
round ones with a sign or with decimals, so that it is no count and no depth; two limits only behind two others."""
LOST = late(r"\?\s*\.?\d")
"""A sign that the file could not hold, before a number: most likely a minus."""
TOLERANCE_LIKE = late(rf"{LOST.pattern}|±|\+\s*\.?\d|(?<=[\s(/^])-\.?\d|[/^]\s*\.?\d")
"""What looks like a tolerance behind a size. A minus between two numbers with no space before it is a range."""
DUST = 1e-6
"""Relative difference of equal sizes that went through a file."""
BEHIND = late(rf"^\s*-\s*(?={NUMBER}\s*$)")
"""A minus before all that is printed: a place behind the front face, as Z is counted; its size is the number."""
GRADE_OR_CLASS = late(r"\s*IT\s?\d{1,2}\b|\s?[fmcv]\s*$")
"""A grade without its letter, or a general class at one size: a tolerance, of which nobody can say where it lies."""
BY_ANOTHER = late(rf"\s{BY}\s*Ø?\s*(?={NUMBER})")
"""Where another size begins: what stands behind it is its tolerance."""
STRAY = late(rf"\s*(?:{FIT.pattern}|(?:[ioqvyzIOQVYZ]|[zZ][a-cA-C]|cd|ef|fg|CD|EF|FG)\d{{1,2}})\s*|\s+0?\.\d+\s*")
"""What is written like a class behind all that is a tolerance, or like a deviation but for its sign: I, O and Q are the
letters of none (ISO 286-1), the others of some that are in no table here."""
CLASS_ALONE = late(r"(?<![^\W\d_])(?:js|it|[a-hj-np-z])\s?\d{1,2}(?![\d.])", re.I)
"""A tolerance class; behind the sign of a diameter without a number it is of all of them, and no size."""
PIECES = late(r"(?<=[\d\s)])n[°.]\s*\d+\s*$", re.I)
"""A count behind a size, as `5 ±0.05 n°4` has it; it is no angle."""
OR = late(r"[\W_]*(?:(?:OR|ODER|OU|O)\b)?[\W_]*", re.I)
"""What may stand between two classes of one size."""
FINISH = (0.025, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.3, 12.5, 25.0, 50.0)
"""Preferred values of roughness Ra, which stand at their symbol without a word: N1 to N12 (ISO 1302, from memory)."""
ONE_LIMIT = late(r"\W*(?:max|min)\b", re.I)
"""A size that is the greatest or the least allowed: the other limit is printed nowhere."""


Sign = Literal["", "diameter", "radius", "thread", "angle"]


@dataclass(frozen=True)
class Printed:
    """One dimension text. Sizes in the units printed; `size` None stands for the measured size or an unread text.

    `measured`: the text prints the measured size ("<>" or nothing). `sizes`: every size that could be meant.
    `decimals`: places of `size`. `count`: how often the feature occurs. `reference`: in brackets, for information.
    `tolerance_class`: with a gap between them two, of which one can be meant.
    `limits`: two limits are printed in place of size and deviations; they are `sizes`, and `size` is the greater.
    `unread`: something that looks like a tolerance stands in the text and was not read, or more than one does.
    `bracketed`: a second size in square brackets, and its decimals. `behind`: the most decimals of a figure behind it.
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
    behind: int = 0

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


@remembered
def parse(text: str | None) -> Printed:
    """Parse a dimension text; None stands for the measured size.

    >>> p = parse("4x Ø36 -0.05/-0.15")
    >>> (p.size, p.sign, p.count, p.deviations)
    (36.0, 'diameter', 4, (-0.15, -0.05))
    """
    if text is None:
        return Printed(measured=True)
    line = BEHIND.sub("", FULL.sub("", PIECES.sub("", SPACES_AT.sub(r"\1 x ", normalised(text)))))
    if ELSEWHERE.match(line) or IN_INCHES.fullmatch(line):
        return Printed()
    reference = bool(re.fullmatch(r"\(.*\)", line))
    line = line.strip("()[]") if reference else line
    typical = bool(TYPICAL.search(line))
    if "°" in line:
        return _angle_or_chamfer(line, reference)
    line, inside = without_second(line)
    printed = _taken_apart(line, reference, typical)
    if inside is None:
        return printed
    second = _taken_apart(inside, reference=False, typical=False)
    unread = printed.unread or not _alike_in_brackets(printed, second)
    return replace(printed, unread=unread, bracketed=(second.value, second.decimals))


def is_finish(figure: Printed) -> bool:
    """True for a roughness with its own grade behind it, which is written as a class is: `3.2 N8`."""
    return figure.value in FINISH and figure.tolerance_class == f"N{FINISH.index(figure.value) + 1}"


def without_second(line: str) -> tuple[str, str | None]:
    """A line without the size in brackets behind its own, and what stands in them; None for no such brackets.

    A size without a tolerance in round ones may be more of the line's own, and stays there.

    >>> without_second(".094 ±.005 [2.39 ±.13] 4 PLACES"), without_second("3 H13 (3.14/3)"), without_second("5 (.197)")
    (('.094 ±.005  4 PLACES', '2.39 ±.13'), ('3 H13 (3.14/3)', None), ('5 (.197)', '.197'))
    """
    found = SECOND.search(line)
    if found is None or found.lastgroup is None:
        return line, None
    before, inside = line[: found.start()], found[found.lastgroup].strip()
    if found["same"] or found["bare"]:
        return line, inside if next(tolerances(before), None) is None else None
    if found["limits"] and all(both.end < len(before) for both in limits(before)):
        return line, None
    return f"{before}{line[found.end() :]}", inside


def _alike_in_brackets(one: Printed, second: Printed) -> bool:
    """True if a size in brackets has no deviations, or those of the size before it in some unit."""
    if second.deviations is None or second.unread:
        return not second.unread
    slack = half_place(second.behind or second.decimals) + DUST
    return one.deviations is not None and any(
        all(
            abs(a * unit - b) <= slack + half_place(one.behind or one.decimals) * unit
            for a, b in zip(one.deviations, second.deviations, strict=True)
        )
        for unit in (1.0, INCH, 1 / INCH)
    )


def _angle_or_chamfer(line: str, reference: bool) -> Printed:
    """`45°` is an angle; `1x45°` and `1 x 30°` a chamfer, whose size is the first number."""
    found = chamfer().search(line)
    size = float(found["leg"]) if found and found["leg"] else None
    return Printed(size=size, sizes=(size,) if size else (), sign="angle", reference=reference)


def _taken_apart(line: str, reference: bool, typical: bool) -> Printed:
    unit, line = _unit(line)
    line, fraction = fractions(line)
    counted, behind = COUNT.match(line), COUNT_BEHIND.search(line)
    rest = line[counted.end() :] if counted else line[: behind.start()] if behind else line
    sign = _sign(rest)
    count = _count(counted or behind)
    between = None if fraction else _between(rest, sign, unit)
    if between is not None:
        return replace(between, count=count, reference=reference, typical=typical)
    if sign == "diameter" and CLASS_ALONE.search(rest) and not SIZE.search(CLASS_ALONE.sub(" ", rest)):
        return Printed(sign=sign, count=count, unit=unit, reference=reference, typical=typical, unread=True)
    marked = MARKED.search(rest)
    before = [float(n) for n in re.findall(NUMBER, rest[: marked.start()])] if marked else []
    size, places, tail = _size(rest[marked.start() :] if marked else rest)
    # `3x R2` and `3 OFF 2` count; of `3 x 2` and `3 x Ø34` the 3 may be a width.
    by = counted if counted and counted["by"] is not None and sign != "radius" else None
    others = (*before, *_other_sizes(by, tail))
    tolerance_class, deviations = _tolerance(size, tail, radius=sign == "radius")
    return Printed(
        size=size,
        sizes=(() if size is None else (size,)) + others,
        decimals=6 if fraction else places,
        measured="<>" in rest,
        sign=sign,
        deviations=deviations,
        tolerance_class=tolerance_class,
        count=count,
        unit=unit,
        reference=reference,
        typical=typical,
        behind=max(map(places_of, re.findall(NUMBER, tail)), default=0),
        unread=_has_another(rest)
        or _has_stray(tail)
        or (deviations is None and _like_a_tolerance(FIT.sub(" ", tail)[1:] if tail else rest)),
    )


def _count(found: re.Match[str] | None) -> int:
    """The count that was found, 1 for none."""
    number = float(found[1] or found["alone"]) if found else 1.0
    return max(1, int(number)) if number.is_integer() else 1


def _has_another(words: str) -> bool:
    """True if more than one tolerance stands in the words of a size, each behind its figure or behind the other."""
    found = list(tolerances(words))
    ends = {len(words[: one.end].rstrip()) for one in found}
    starts = [len(words[: one.start].rstrip()) for one in found]
    behind = [words[at - 1 : at].isdigit() and at not in ends for at in starts]
    return len([one for one, figured in zip(found, behind, strict=True) if one.deviations or figured]) > 1


def _has_stray(tail: str) -> bool:
    """True if a class stands apart from another, or last a class that is none, or a fraction without a sign.

    Behind another tolerance that is any figure.
    """
    found = list(tolerances(tail, 1))
    last = max((one.end for one in found), default=1)
    figure = found and re.fullmatch(rf"\s+{NUMBER}\s*", tail[last:])
    several = len([one for one in found if one.of_class]) > 1 and " " not in (_classes(found, tail) or "")
    return several or bool(figure or STRAY.fullmatch(tail, last))


def _tolerance(size: float | None, tail: str, *, radius: bool = False) -> tuple[str | None, Deviation | None]:
    """The class and the deviations in the words behind a size, which begin with its last letter."""
    found = list(tolerances(tail, 1))
    other = BY_ANOTHER.search(tail, found[0].end) if found else None
    found = [one for one in found if other is None or one.start < other.start()]
    name = _classes(found, tail)
    given = next((one for one in found if one.deviations or one.limits), None)
    if given is None or LOST.search(tail):
        return name, None
    if any(one.deviations and not tail[given.end : one.start].strip() for one in found if one.start >= given.end):
        return name, None  # of three deviations nobody can say which two are meant
    if given.deviations and given.limits and not _alike(size, given.deviations, given.limits):
        return name, None
    if given.deviations:
        pair, share = given.deviations, LARGEST_OF_RADIUS if radius else LARGEST_SHARE[given.paired]
    elif given.limits and size is not None:
        low, high = given.limits
        pair, share = (round(low - size, 9), round(high - size, 9)), LARGEST_SHARE[True]
    else:
        return name, None  # limits of a size that is not printed
    # Beyond a share of the size they are most likely none: 12-13 is a range.
    return name, pair if size is None or max(map(abs, pair)) <= share * size else None


def _classes(found: Sequence[Tolerance], tail: str) -> str | None:
    """The first class behind a size, with the others that stand behind it and name it otherwise; None for none."""
    named = [one for one in found if one.of_class]
    names = [one.of_class for one in named[:1] if one.of_class]
    for one, after in pairwise(named):
        if not OR.fullmatch(tail, one.end, after.start):
            break
        names += [after.of_class] if after.of_class and after.of_class not in names else []
    return " ".join(names) or None


def _alike(size: float | None, pair: Deviation, both: Deviation) -> bool:
    """True if deviations and limits allow the same."""
    return size is not None and all(
        math.isclose(size + off, limit, abs_tol=DUST) for off, limit in zip(pair, both, strict=True)
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


def _sign(rest: str) -> Sign:
    """What kind of size the sign before it says."""
    if SIGN.search(rest):
        return "diameter"
    if RADIUS.match(rest):
        return "radius"
    return "thread" if re.match(rf"\s*M\s*{NUMBER}", rest) else ""


def _between(rest: str, sign: Sign, unit: Units | None) -> Printed | None:
    """Two limits printed instead of size and deviations, near enough for their form; None for a range and all else."""
    line = TYPICAL.sub(" ", RADIUS.sub(" ", SIGN.sub(" ", rest))).strip("( )")
    both = next(limits(line), None)
    if both is None or (both.start, both.end) != (0, len(line)):
        return None
    low, high = sorted((float(both.one), float(both.other)))
    small = sign == "radius" and (both.mark != "-" or float(both.one) < float(both.other))
    near = high < WIDEST[both.mark] * low and ("." in line or both.mark == "^")
    if not (0 < low < high and (high <= WIDEST_RADIUS * low if small else near)):
        return None
    places, off = max(places_of(both.one), places_of(both.other)), (round(low - high, 9), 0.0)
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
    if counted or re.search(rf"(?:{BY}|=)\s*Ø?\s*\d|\(\s*=", tail):
        others += [float(n) for n in re.findall(rf"(?<=[x×X=*])\s*Ø?\s*({NUMBER})", tail)]
    return tuple(value for value in others if value > 0)
