"""The grammar of printed sizes: what numbers, signs and tolerances look like in the texts of a sheet.

    text       = [count] [sign] (size | limits) [unit] {tolerance} | chamfer | thread
    count      = number (x | OFF | PLACES | ...)          size = number | fraction | <>
    sign       = Ø | DIA | R | SR | M                     unit = mm | in | "
    limits     = number (/ | ^ | -) number                thread = M number [x number]
    tolerance  = [class] deviations | class [(limits)]    class = letter grade [/ letter grade]
    deviations = ± number | signed (/ | ^ | gap) signed | signed
    chamfer    = C number | number x angle                angle = number °

Pure functions and patterns of one line (`normalised`); values carry their place in it, and what they mean is for others
to say. Spellings: ISO 129-1 and ISO 286-1, both from memory; the rest is common practice, no source.
"""

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from extractor.late import late
from extractor.part import Deviation
from extractor.remembered import remembered
from extractor.values import dataclass

NUMBER = r"(?:\d+\.?\d*|\.\d+)"
SIGNED = rf"(?:[+-]\s*{NUMBER}|[+-]?(?:0+(?:\.0*)?|\.0+))"
"""A deviation with its sign, or a zero, which needs none: `0`, `0.00` and, in inch, `.000`."""
BY = r"[xX×*]"
DIAMETER = r"(?:Ø|(?<![a-z])(?:dia(?:meter)?|diam|durchm(?:esser)?)\b\.?\s*[:=]?)"
"""The sign of a diameter, before its number or behind it; without regard to case."""
PLACES = (
    r"(?:(?:PLACES?|PLCS?|PLS?|POS(?:ITIONS?|NS?)?|STELLEN|ST[UÜ]CK|STK|STUKS|POSTI|PUNTI|PEZZI|PZ|ENDROITS|PIECES|PCES|LUGARES"
    r"|PIEZAS|UDS?|TIMES|FOIS|MAL|KEER|VOLTE|VECES|VEZES|G[AÅ]NGER|G[AÅ]NG|GGR|FACH|KRAT|RAZY|МЕСТ[АО]?|KS|KUS[UŮ]|SZT(?:UK)?|ST|ADET|YERDE|(?:OFF\s+)?(?:THUS|SUCH|AS\s+SHOWN|LIKE\s+THIS)"
    r")(?!\w)\.?)"
)
"""What counts places, pieces or times, without regard to case."""
COUNT = late(
    rf"^(?:\(?\s*(?:TYP(?:ICAL)?\.?\s*)?({NUMBER})\s*(?:{BY}(?P<by>(?!\s*[:)]))?|OFF\b|HOLES\b|{PLACES}|-(?=\s*[ØR]))"
    rf"\s*:?\s*\)?\s*(?=[ØRM\d.\s<(])|\(\s*(?P<alone>[1-9]\d*)\s*\)\s*(?=Ø|{NUMBER}\s*(?:$|[/^±+-]|[a-z]{{1,2}}\d)))",
    re.I,
)
"""A count before a size; `by`: it may be a size itself, as in `3.5 x 2`, but not in `2 OFF 3`, `(2x) 3` or `(2) 3`."""
TIMES = rf"(?:\b(?:AT|IN|AN)\s+)?\b(\d+)[\s-]*(?:{PLACES}|OFF\b|[X×])\)?\s*$"
COUNT_BEHIND = late(rf"[,\s(:-]+{TIMES}", re.I)
"""A count behind a size."""
COUNT_IN_BRACKETS = late(rf"\(\s*(\d+)\s*[X×]?\s*\)(?=\s*(?:{PLACES}|OFF\b))", re.I)
"""The figure of a count in brackets of its own."""
UNIT = late(r"(?<=[\d.>])\s*(mm\b|inch(?:es)?\b|in\b\.?|\"|″|'')", re.I)
FRACTION = late(r"(?<![\d.])(?:(\d+)[ -]+)?(\d+)\s*/\s*(2|4|8|16|32|64)(?![\d.])")
FIT = late(
    r"(?<=[\d.>)(\s])(js|JS|[a-hjkm-npr-uA-HJKM-NPR-U])"
    r"((?:(?:(?<=[\d.>(][HhFfGg])|(?<=[\d.>(]\s[Hh]))\s)?\d{1,2})(?![\d.])(?:\s*/\s*([a-zA-Z]{1,2}\d{1,2})(?!\d))?"
)
"""A tolerance class, or both of a fit; a gap parts only letters that are no unit from the grade."""
HIGHEST_GRADE = 18
"""Standard tolerances end at IT18 (ISO 286-1)."""
IsClass = Callable[[re.Match[str]], bool]
"""Whether what is written like a class, with its letter and its grade as groups, is one."""
DEVIATIONS = late(
    rf"±\s*(?P<both>{NUMBER})"
    rf"|(?:(?<![\d.])|(?=[+-]))(?P<one>{SIGNED})\s*(?:[/^\s;,|]\s*|(?=[+-]))(?P<other>{SIGNED})(?![\d.])"
    rf"|(?<=[\d.\s(>)])(?P<single>\+\s*{NUMBER}|-(?:\s*\d*\.\d+|\d+(?!\d|\s*(?i:{PLACES}))))(?![\d.]|\s*[/^]\s*[\d.])"
)
"""Of a minus with a gap behind it a whole number is none: that is a dash. One before a stroke is half of two."""
REPEATED = late(rf"\s*\(\s*({NUMBER})\s*[/^-]\s*({NUMBER})\s*\)")
"""Limits in brackets behind a tolerance."""
OPENED, CLOSED = late(r"\s*\)?\s*(\(?)\s*"), late(r"\s*\)")
"""The brackets that may close round a class, and those round its deviations."""
LIMITS = late(
    rf"(?<![+\-±\d.(])(?<![+\-±] )(?:({NUMBER})\s*([/^])\s*((?>{NUMBER}))|({NUMBER})(-)((?>{NUMBER}))"
    rf"|({NUMBER}) (-) ((?>{NUMBER}))(?=\s*$))(?!\s*[/^]?\s*(?:[+-]|0\b))"
)
WORDED = late(
    rf"\s*[~(\[]*(?:[^\W\d]+\.?\s*[=:]?\s*)?(?:Ø\s*)?{NUMBER}(?:\s*[)\]]|\s+{PLACES})?(?:\s*(?:\(?[±+-]|[a-z]{{1,2}}\d{{1,2}}\b).*)?",
    re.I,
)
"""A size with one word before it at most, and a tolerance or a count behind it; it may be no size at all."""
THREAD = rf"M\s?(?P<size>{NUMBER})(?:\s*{BY}\s*(?P<pitch>{NUMBER}))?"
OF_AN_INCH = r"(?:\d+\s+)?\d+/\d+|\d+"
THREAD_IN_INCHES = (
    rf"(?:G\s?|BSPP?\s+)(?P<pipe>{OF_AN_INCH})\"?(?:\s*[AB]\b)?|(?P<before>{OF_AN_INCH})\"?\s*BSPP?"
    rf"|(?P<inch>{OF_AN_INCH}|\d*\.\d+|#\d+)\"?\s*-\s*(?P<per>\d+)\s*-?\s*UN(?:[CFS]|EF|R[CF]?|J[CF]?)?"
    r"(?:\s*-\s*[1-3][AB])?"
)
"""A thread by the size of its pipe, or by its diameter in inches and its threads per inch."""
TWO_LINES = late(rf"^\s*((?:\d+\s*{BY}\s*)?Ø?\s*{NUMBER})[^\S\n]*\n\s*Ø?\s*({NUMBER})\s*$")
RANGE = late(rf"({NUMBER})\s*(?:\.{{2,3}}|…|\b(?:to|bis)\b)\s*({NUMBER})", re.I)
GREATEST_AND_LEAST = late(rf"({NUMBER})\s*(MAX|MIN)\b\.?\s*[/,;]?\s*({NUMBER})\s*(?!\2)M(?:AX|IN)\b\.?", re.I)
LIMIT_BEFORE = late(
    rf"^(\W*(?:\d+\s*{BY}\s+)?)(?P<limit>max|min|[≤≥])(?:imum\b)?\.?\s*((?:Ø\s*)?{NUMBER}(?:\s*mm)?)\s*$", re.I
)
"""A limit before its size, which is the same behind it."""
FOOTNOTE = late(r"(?<=\d)(\*+)(\s*(?:[±+(-]|0\s*/).*)$")
"""The mark of a footnote between a size and its tolerance; before another figure it multiplies."""
MICROMETRES = late(rf"(?:({SIGNED})\s*/\s*({SIGNED})|±\s*({NUMBER}))\s*(?:[µμu]m\b|microns?\b)", re.I)
SIGN_IN_WORDS = late(
    rf"(\d(?:\s*mm)?(?P<word>\s+(?!plus|minus|moins)[^\W\d]{{3,}})?)[\s/,]+"
    rf"(?:(?P<both>plus\s?(?:/|or|ou|oder)?\s?(?:minus|moins))|(?P<plus>plus)|minus|moins)\s+(?={NUMBER})"
    rf"(?(word)(?={NUMBER}\s*(?:mm\s*)?(?:$|[/,;)x×]|(?:minus|moins|plus)\b)))",
    re.I,
)
"""Other ways to print limits and deviations, which `normalised` brings to those above."""
LISTED = late(r"(\d[.,]\d+),(?=[+-]?\d)")
"""A decimal number before another, with a comma between them."""
TYPICAL_COUNT = late(r"\(\s*TYP(?:ICAL)?\.?\s*(\d+)\s*\)", re.I)
"""A count with the word in the same brackets, as `4 (TYP 3)` has it."""
CLASS_JS = late(r"(?:(?<=\d)|(?<=\d\s))(js|J[sS])\s?(?=\d{1,2}(?![\d.]))")
"""The class js however it is written, with a gap or not."""
SPACES_AT = late(
    r"^(\W*\d+)\s*(?:EQ(?:UAL(?:LY)?)?\.?\s*)?(?:SPACES?|SPACINGS?|SP\.|PITCHES|TEILUNGEN|INTERVALL[EOI]S?|PASSI|PASOS|PAS)"
    rf"\s*(?:AT|OF|@|\u00c0|A|DE|DI|ZU|VON)\s*(?={NUMBER})",
    re.I,
)
"""So many spacings, before how large each is: in a dimension their product."""
ENVELOPE = late(r"(?<=\d)\s*(?:\(E\)|Ⓔ)(?!\w)")
"""The mark behind a tolerance that the form lies within its limits (ISO 14405-1, from memory)."""
BY_ITS_LETTER = late(
    rf"(\(?(?:\d+\s*{BY}\s*)?|(?i:\w*GRUND|FLOOR|ROOT|BOTTOM|FONDO?)\W+)(?:D|(?<=\w\s)d)\s?(\d{{2,}}(?:\.\d+)?)(?=$|[\s)±+-])"
)
"""A diameter by its letter, which begins the text; of less than two figures it is the name of a size."""
FLOOR_BY_WIDTH = late(
    rf"^(?P<floor>\(?(?:\d+\s*{BY}\s*)?{DIAMETER}\s*(?P<across>{NUMBER})(?:\s*[a-zA-Z]{{1,2}}\d{{1,2}})?)"
    rf"(?:(?P<gap>\s*)-(?P<behind>\s*)(?=[1-9])|\s*B\s?(?=[1-7](?!\d))|\s+L\s?=?\s*)(?P<width>{NUMBER})"
    rf"(?=\)?$|(?P<limited>\s*[+±](?!\s*0*\.?0*(?![.\d]))|\s*(?:JS|[A-H])\d))",
    re.I,
)
"""A floor's diameter with the width behind a dash or its letter: `Ø34 - 3`, `Ø34-3`, `Ø34 B3`, `Ø34 L3`. There is no
class b of the grades up to 7 (ISO 286-2, from memory), and less than 1 behind a dash is a deviation."""
WIDEST_OF_FLOOR = 0.5
"""Share of a floor's diameter that the width behind a dash has at most; one that is nearly as large is a limit."""


def chamfer(angle: str = NUMBER) -> re.Pattern[str]:
    """The pattern of a chamfer of an angle in degrees, counted or not; its leg is the group that is found."""
    return late(
        rf"(?:\d+\s*(?:{BY}|-(?=\s*C))\s*)?(?:C\s*(?P<c>{NUMBER})|{angle}\s*°\s*{BY}\s*(?P<behind>{NUMBER})"
        rf"|(?P<leg>{NUMBER})\s*{BY}\s*{angle}\s*°)"
    )


@dataclass(frozen=True, kw_only=True)
class Tolerance:
    """A tolerance in a line, from `start` to `end`: its class, its deviations, the limits in brackets behind them.

    `paired`: two deviations are printed, or one with both signs; one alone has 0 as the other. Equal ones are none.
    """

    start: int
    end: int
    of_class: str | None = None
    deviations: Deviation | None = None
    paired: bool = False
    limits: Deviation | None = None


@dataclass(frozen=True, kw_only=True)
class LimitPair:
    """Two limits of one size, or a range, in a line from `start` to `end`: as printed, and the mark between them."""

    start: int
    end: int
    one: str
    mark: str
    other: str


@remembered
def normalised(text: str) -> str:
    """A text on one line, with decimal points and one kind of plus-minus, limits and deviations in one form.

    >>> normalised("40,5 +/- 0,1"), normalised("8.1 MAX / 8 MIN"), normalised("8 0/-30 µm"), normalised("8 PLUS 0.1")
    ('40.5 ± 0.1', '8.1^8', '8 +0/-0.03', '8 +0.1')
    """
    text = ENVELOPE.sub("", re.sub(r"(?<=\d),(?=\d)", ".", LISTED.sub(r"\1, ", text)))
    text = COUNT_IN_BRACKETS.sub(r"\1", " ".join(TWO_LINES.sub(r"\1-\2", text).split()))
    text = CLASS_JS.sub(lambda found: found[1] if found[1] == "js" else "JS", TYPICAL_COUNT.sub(r"TYP \1x", text))
    if found := BY_ITS_LETTER.match(text):
        text = f"{found[1]}Ø{text[found.start(2) :]}"
    text = GREATEST_AND_LEAST.sub(r"\1^\3", RANGE.sub(r"\1-\2", re.sub(r"\+\s?/\s?-|\+-", "±", text)))
    text = LIMIT_BEFORE.sub(_limit_behind, FOOTNOTE.sub(r"\2 \1", text))
    if (found := FLOOR_BY_WIDTH.match(text)) and _is_width(found):
        text = f"{found['floor']} x {text[found.start('width') :]}"
    text = SIGN_IN_WORDS.sub(
        lambda found: f"{found[1]} {'±' if found['both'] else '+' if found['plus'] else '-'}", text
    )
    return MICROMETRES.sub(_in_mm, text)


def _limit_behind(found: re.Match[str]) -> str:
    """A size with the limit that it is behind it."""
    return f"{found[1]}{found[3]} {'MAX' if found['limit'].lower() in ('max', '≤') else 'MIN'}"


def _in_mm(found: re.Match[str]) -> str:
    """Deviations in micrometres as they are printed in mm."""
    upper, lower, both = found.groups()
    return f"±{float(both) / 1000:g}" if both else "/".join(f"{_value(one) / 1000:+g}" for one in (upper, lower))


def _is_width(found: re.Match[str]) -> bool:
    """True for a width behind a floor; a dash without gaps, and no tolerance behind, may be the sign of a deviation."""
    across, width = float(found["across"]), float(found["width"])
    certain = found["gap"] is None or (found["gap"] and found["behind"]) or found["limited"]
    return width <= WIDEST_OF_FLOOR * across and bool(certain or width > coarsest(across))


COARSE, UNIT_OF_ROOT, UNIT_OF_SIZE = 1000.0, 0.45e-3, 1e-6
"""The tolerance of grade 16 in units, and the unit in mm: 0.45 um by the cube root of a size and 0.001 um by itself."""


def coarsest(size: float) -> float:
    """The tolerance of grade 16 of a size in mm, a thousand times its unit: no turned diameter has a coarser one.

    ISO 286-1, annex A, from memory; general tolerances "coarse" are as wide (ISO 2768-1).

    >>> round(coarsest(34.0), 1), round(coarsest(340.0), 1)
    (1.5, 3.5)
    """
    return COARSE * (UNIT_OF_ROOT * math.cbrt(size) + UNIT_OF_SIZE * size)


def fractions(line: str) -> tuple[str, bool]:
    """Inch fractions turned into decimals (1 1/2 -> 1.5), and whether there were any."""
    decimal = FRACTION.sub(_decimal, line)
    return decimal, decimal != line


def _decimal(match: re.Match[str]) -> str:
    """A fraction as a decimal; an even numerator or one above its denominator makes none."""
    whole, top, bottom = (int(g or 0) for g in match.groups())
    return match.group(0) if top % 2 == 0 or top >= bottom else f"{whole + top / bottom:.6f}"


def is_class(found: re.Match[str]) -> bool:
    """True for a class that the standard may have."""
    return int(found[2]) <= HIGHEST_GRADE


def tolerances(line: str, at: int = 0, known: IsClass = is_class) -> Iterator[Tolerance]:
    """The tolerances in a line from a place on; `known` says which classes are any.

    >>> [(t.of_class, t.deviations) for t in tolerances("3 H13 x 2 +0.1/0")]
    [('H13', None), (None, (0.0, 0.1))]
    """
    while True:
        fit, loose = next(filter(known, FIT.finditer(line, at)), None), DEVIATIONS.search(line, at)
        if loose is not None and (fit is None or loose.start() < fit.start()):
            found = _deviated(loose, loose.start(), None)
        elif fit is not None:
            found = _classed(line, fit)
        else:
            return
        if both := REPEATED.match(line, found.end):
            low, high = sorted(map(float, both.groups()))
            found = replace(found, end=both.end(), limits=(low, high))
        yield _with_brackets(line, found)
        at = found.end


def _with_brackets(line: str, found: Tolerance) -> Tolerance:
    """A tolerance with the brackets round it."""
    before, behind = line[: found.start].rstrip(), line[found.end :].lstrip()
    if not (before.endswith("(") and behind.startswith(")")):
        return found
    return replace(found, start=len(before) - 1, end=len(line) - len(behind) + 1)


def _classed(line: str, fit: re.Match[str]) -> Tolerance:
    """A class with the deviations or the limits behind it."""
    name = f"{fit[1]}{fit[2].strip()}{f'/{fit[3]}' if fit[3] else ''}"
    behind = OPENED.match(line, fit.end())
    given = DEVIATIONS.match(line, behind.end() if behind else fit.end())
    if given is None:
        return Tolerance(start=fit.start(), end=fit.end(), of_class=name)
    found, closed = _deviated(given, fit.start(), name), CLOSED.match(line, given.end())
    return replace(found, end=closed.end()) if closed and behind and behind[1] else found


def _deviated(found: re.Match[str], start: int, name: str | None) -> Tolerance:
    """Deviations as printed, behind a class or alone; none where of two that are stacked the upper one is less."""
    if found["both"]:
        pair: Deviation = (-float(found["both"]), float(found["both"]))
    else:
        upper, lower = _value(found["one"] or found["single"]), _value(found["other"] or "0")
        pair = (lower, upper) if "^" in found[0] else (min(upper, lower), max(upper, lower))
    given = pair if pair[0] < pair[1] else None
    return Tolerance(start=start, end=found.end(), of_class=name, deviations=given, paired=not found["single"])


def limits(line: str) -> Iterator[LimitPair]:
    """The pairs of limits, or ranges, in a line."""
    for found in LIMITS.finditer(line):
        one, mark, other = (piece for piece in found.groups() if piece is not None)
        yield LimitPair(start=found.start(), end=found.end(), one=one, mark=mark, other=other)


def _value(signed: str) -> float:
    return float(signed.replace(" ", ""))
