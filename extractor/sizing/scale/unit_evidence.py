"""Votes for mm or inch, each with its weight and the words that go into a finding.

Weights (our own scale, no source): 3 and more is an outright statement, 2 a strong habit, 1 or less a hint. "Said"
votes come from somebody who wrote something; size and the measurement flag only tip a balance, they never settle it.

    header 4 (mm) or 1 (inch)                            3    said    6 (metre) and 0 say nothing: library defaults
    "all dimensions in mm", a title-block cell "mm"      4    said    the same for inch
    printed sizes 25.4 times or 1/25.4 of the drawn      4    said    the text is in the other unit
    ISO 2768, ISO or DIN number, ISO 286 class           2    said    mm
    number with inch mark or "in"; number with "mm"      2.5  said
    a unit said of what stands in brackets               2.5  said    for the other unit
    .125 (no leading zero), 3/8, a tolerance of .XXX     2    said    inch, ASME Y14.5 style
    microinches                                          2    said    inch
    1.500 (three decimals with trailing zero)            1    said    inch
    whole or one-decimal sizes only                      1    said    mm
    metric thread M8; inch thread UNC, UNF, NPT; ASME    1    said
    measurement flag                                     0.5
    over 24 across; under 1.6 across                     2            nobody grooves 24 in or 1.6 mm on a small lathe
    over 12 across                                       1.6          12 in is large on one: the header alone won't do
    over 8 across; under 4 across                        0.5
"""

import re
from collections.abc import Iterable, Sequence

from extractor.grammar import FRACTION, normalised
from extractor.late import late
from extractor.part import INCH, Units
from extractor.sheet import Dimension, Sheet
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.values import dataclass

SAME_RATIO = 2e-3
"""Relative difference within which ratios of sizes are one, however many digits are printed."""
MOST_ROUNDED = 0.012
"""The same for a size with few digits, as .062 for 1/16 in; 25 is off 25.4 by 0.0157, and a scale of its own."""
LIBRARY_FACTORS = (100.0, 1000.0)
"""Display factors of a library's default style, which shows metres as centimetres or millimetres."""
LARGE, SMALL = ((8.0, 0.5), (12.0, 1.1), (24.0, 0.4)), ((4.0, 0.5), (1.6, 1.5))
"""Diameters over which mm are likely and under which inches are, each with the weight that it adds."""


BY_CODE: dict[int | None, Units] = {4: "mm", 1: "in"}
"""The header's unit, of those that say something (DXF reference)."""
BY_FLAG: dict[int | None, Units] = {1: "mm", 0: "in"}
"""The header's measurement flag (DXF reference)."""
NAMES = {"mm": ("mm", "metric"), "in": ("inch", "inch")}
"""A unit in words: its own name, and that of its system."""
WRITTEN, HEADED, FLAGGED = 4.0, 3.0, 0.5
"""Weights of what is written or printed in the other unit, of the header's unit and of its flag."""
SIZED, IN_HABIT = 2.5, 2.0
"""Weights of a number with its unit, and of a habit."""


@dataclass(frozen=True)
class Vote:
    """One piece of evidence: for which unit, its weight, whether somebody wrote it or it is only likely, its words."""

    units: Units
    weight: float
    said: bool
    words: str


SUBJECT = rf"(?:{phrases('sizes_and_units')})\.?"
"""What a note on units speaks of, in several languages, of plain text, also cut short; `Mått i mm` is no `matt`."""
MM_LONG, INCH_LONG = (f"(?:{phrases(unit)})" for unit in ("millimetres", "inches"))
NEAR = 40
"""Letters between what a note speaks of and its unit, at most: a unit farther on may be of something else."""
MM_NOTE = late(
    rf"{SUBJECT}[^.;]{{0,{NEAR}}}?(?<![a-zа-я])(?:mm|мм)(?![a-zа-я])"
    rf"|(?<![a-zа-я])(?<!\d)(?<!\d ){MM_LONG}|^\W*(?:mm|мм|metric|metrisch)\W*$",
    re.I,
)
INCH_NOTE = late(
    rf"{SUBJECT}[^.;]{{0,{NEAR}}}?(?:(?<![a-z])in\.|[:=]\s*in\b|\bin\s+in\b)"
    rf"|(?<![a-zа-я])(?<!\d)(?<!\d ){INCH_LONG}(?![a-zа-я])|^\W*in\W*$",
    re.I,
)
OTHER_NOTE = late(
    rf"{SUBJECT}(?:(?!(?<![a-z])(?:mm|{MM_LONG}|inch))[^.;]){{0,{NEAR}}}?(?<![a-zа-я])"
    r"(?:cm|см|centi(?:met|m[eè]t)\w*|zentimeter|met(?:er|re)[sn]?|metr[io]s?|thou(?:sandths?)?|mils?)(?![a-zа-я\d²³])",
    re.I,
)
"""A note on a unit that is not read here; `m` alone is a class of general tolerances."""
UNIT_NAMED = late(rf"(?<![a-z])(?:(?P<mm>mm\b|metric|{MM_LONG})|{INCH_LONG})", re.I)
DUAL = late(
    rf"((?<![a-z])(?:mm|in|{MM_LONG}|{INCH_LONG})\b\.?)\s*[\[(]\s*(?:mm|in|{MM_LONG}|{INCH_LONG})\.?\s*[\])]", re.I
)
"""Units of dual dimensions, `inch [mm]`: the second is for information."""
EMPTY = late(r"\[\s*\]|\(\s*\)")
OF_BRACKETS = late(r"\b(?:brackets?|parenthes[ei]s|klammern?|crochets|parentesi|parentesis)\b", re.I)
"""What names what stands in brackets."""
CLAUSE = late(r"[,;()\[\]]|\.\s+(?=\D)")
METRIC_STANDARD = late(
    r"\bISO\s*[-_ ]?\s*(?:2768|286|8015|13715|1302|16016|6410|6411|3601|129|128)\b"
    r"|\b(?:DIN|GB/?T|JIS|GOST|ГОСТ)\s*[-_ ]?\s*(?!(?:EN\s*)?(?:ISO\s*)?(?:9001|14001|13485)\b)"
    r"(?:EN\s*)?(?:ISO\s*)?[A-Z]?\s*\d{2,5}",
    re.I,
)
"""Standards of metric drawings and parts; what a company's quality system is certified to says nothing."""
METRIC_CLASS = late(r"(?<=[\d>])\s?(?:js|[hH]|[fgkmnp]|JS|[FGN])(?:[5-9]|1[0-4])\b(?![.\d])")
METRIC_THREAD = late(r"\bM\d{1,2}(?:\.\d)?(?:\s*[x×]\s*\d(?:\.\d+)?)?\b")
INCH_THREAD = late(r"\b(?:UNC|UNF|UNEF|UNS|NPT|NPTF|BSW|BSF)\b")
NUMBER_MM = late(r"(?<![\d.])\d+(?:\.\d+)?\s*(?:mm\b|milli?met)", re.I)
NUMBER_INCH = late(
    r"(?<![\"“A-NP-Za-z.\d])\.?\d+(?:[./ -]\d+)*\s*(?:\"|″|'')"
    r"|\d\s*inch(?:es)?\b|\d\s*in\b\.?(?=\s*(?:$|[,;)x×]|dia|deep|wide|long|thk))",
    re.I,
)
"""A number with an inch mark or word; a number between quotes is a name."""
INCH_STANDARD = late(r"\b(?:ASME|ANSI)\s*[A-Z]?\d[\d.]*")
INCH_TOLERANCE = late(r"(?<![\w.])\.X{2,4}\b|±\s*1/(?:8|16|32|64)\b", re.I)
"""Tolerances by the decimals of a size, or in fractions; figures behind a bare point have a vote of their own."""
MICROINCH = late(r"\bmicro[ -]?in(?:ch(?:es)?)?\b|\d\s*[µμ]\s?in\b", re.I)
BARE_POINT = late(r"(?:^|[\sØR±+/-])\.\d{2,4}(?!\d)")
THREE_DECIMALS = late(r"(?<!\d)\d{1,2}\.\d{2}0(?!\d)")
SHORT_SIZE = late(r"(?<![\d.])\d+(?:\.\d)?(?![\d.])")


def votes(sheet: Sheet, dimensions: Sequence[Dimension], diameter: float, scale: float = 1.0) -> list[Vote]:
    """Every vote of a sheet. `dimensions` are those of the view meant, `diameter` is true and `scale` that of the view.

    Where sizes are printed in the other unit than drawn, notes that name the printed one say nothing of the drawn one.
    """
    notes = [text.text for text in sheet.everywhere] + [d.text for d in sheet.dimensions if d.text]
    written = [*note_votes(notes), *style_votes([d.text for d in (*dimensions, *sheet.dimensions) if d.text])]
    other = list(ratio_votes(dimensions, scale))
    if other:
        written = [v for v in written if v.units == other[0].units]
    return [*header_votes(sheet.insunits, sheet.measurement), *written, *other, *size_votes(diameter)]


def other_unit(notes: Iterable[str]) -> str:
    """What a note says of a unit other than mm and inch, "" where none does."""
    lines = (plain(normalised(line)) for line in notes)
    return next((found[0].strip() for line in lines if (found := OTHER_NOTE.search(line))), "")


def header_votes(insunits: int | None, measurement: int | None) -> Iterable[Vote]:
    """What the header says; a metre is nearly always the default of a library that wrote the file."""
    if units := BY_CODE.get(insunits):
        yield Vote(units, HEADED, True, f"the header says {NAMES[units][0]}")
    if units := BY_FLAG.get(measurement):
        yield Vote(units, FLAGGED, False, f"the measurement flag says {NAMES[units][1]}")


def note_votes(notes: Iterable[str]) -> Iterable[Vote]:
    """What notes, title-block cells and dimension texts say outright or by habit; each habit counts once."""
    every = (normalised(line) for note in notes for line in (note, *note.split("\n")))
    given = {EMPTY.sub("BRACKETS", DUAL.sub(r"\1", line)): line for line in every}
    lines = dict.fromkeys(_outside(line) for line in given)
    # A length beside the name of a thread is that of a screw, which has its own unit.
    of_part = [line for line in lines if not (METRIC_THREAD.search(line) or INCH_THREAD.search(line))]
    for units, weight, pattern, words in PATTERNS:
        own = of_part if weight == SIZED else lines
        hit = next((found for line in own if (found := _hit(pattern, line))), None)
        if hit is not None:
            yield Vote(units, weight, True, f'{words} "{hit[:40]}"')
    for line, words in given.items():
        if (named := _in_brackets(line)) is not None:
            yield Vote(
                "in" if named["mm"] else "mm", SIZED, True, f'a note names the unit in brackets ("{words[:40]}")'
            )
            return


def _in_brackets(clause: str) -> re.Match[str] | None:
    """The unit that words say of what stands in brackets."""
    return next(
        (unit for part in CLAUSE.split(clause) if OF_BRACKETS.search(part) and (unit := UNIT_NAMED.search(part))),
        None,
    )


def _outside(line: str) -> str:
    """What a line says besides that."""
    return (
        ", ".join(part for part in CLAUSE.split(line) if not OF_BRACKETS.search(part)) if _in_brackets(line) else line
    )


def _hit(pattern: re.Pattern[str], line: str) -> str:
    """What a pattern finds in a line, the whole line where it takes the line's plain text, "" for nothing."""
    found = pattern.search(line)
    if found is not None:
        return found[0].strip()
    bare = plain(line)
    return line.strip() if bare != line and pattern.search(bare) else ""


PATTERNS: tuple[tuple[Units, float, re.Pattern[str], str], ...] = (
    ("mm", WRITTEN, MM_NOTE, "a note says"),
    ("in", WRITTEN, INCH_NOTE, "a note says"),
    ("mm", IN_HABIT, METRIC_STANDARD, "a note names"),
    ("mm", IN_HABIT, METRIC_CLASS, "a tolerance class stands in a text,"),
    ("mm", SIZED, NUMBER_MM, "a text reads"),
    ("in", SIZED, NUMBER_INCH, "a text reads"),
    ("in", IN_HABIT, INCH_TOLERANCE, "tolerances are written as in inches,"),
    ("in", IN_HABIT, MICROINCH, "a text reads"),
    ("in", 1.0, INCH_STANDARD, "a note names"),
    ("mm", 1.0, METRIC_THREAD, "a text names the thread"),
    ("in", 1.0, INCH_THREAD, "a text names the thread"),
)


def style_votes(texts: Sequence[str]) -> Iterable[Vote]:
    """How sizes are written in typed dimension texts."""
    lines = [normalised(text) for text in texts]
    bare = next((line for line in lines if BARE_POINT.search(line) or FRACTION.fullmatch(line.strip(" Ø"))), None)
    long = next((line for line in lines if THREE_DECIMALS.search(line)), None)
    if bare is not None:
        yield Vote("in", IN_HABIT, True, f'sizes are written as in inches ("{bare[:30]}")')
    elif long is not None:
        yield Vote("in", 1.0, True, f'sizes are written with three decimals ("{long[:30]}")')
    elif (
        lines and all(SHORT_SIZE.search(line) or "<>" in line for line in lines) and any(map(SHORT_SIZE.search, lines))
    ):
        yield Vote("mm", 1.0, True, "sizes are written with one decimal at most")


def ratio_votes(dimensions: Iterable[Dimension], scale: float) -> Iterable[Vote]:
    """Printed sizes in the other unit than the drawn ones."""
    for dimension in (d for d in dimensions if d.measured > 0):
        printed = parse(dimension.text)
        for size in printed_sizes(dimension, printed):
            ratio, off = size * scale / dimension.measured, printed.rounded(size)
            fits: dict[Units, bool] = {"in": is_ratio(ratio, INCH, off), "mm": is_ratio(ratio, 1 / INCH, off)}
            if units := next((u for u, is_so in fits.items() if is_so), None):
                other = NAMES["mm" if units == "in" else "in"][0]
                words = f"a size drawn {dimension.measured:.4g} is printed {size:g}, its {other} value"
                yield Vote(units, WRITTEN, True, words)
                return


def printed_sizes(dimension: Dimension, printed: Printed) -> tuple[float, ...]:
    """The sizes a dimension shows; the measured one times the display factor where nothing else is typed."""
    return (dimension.measured * dimension.factor,) if printed.measured else printed.sizes


def is_ratio(value: float, ratio: float, off: float = 0.0) -> bool:
    """True if a ratio of printed sizes is the one meant; `off`: the share of a size that its last digit leaves open."""
    return abs(value / ratio - 1) <= max(SAME_RATIO, min(off, MOST_ROUNDED))


def size_votes(diameter: float) -> Iterable[Vote]:
    """Which unit the drawn diameter makes likely on a small lathe."""
    across = f"the part is {diameter:.4g} across"
    if large := sum(weight for least, weight in LARGE if diameter > least):
        yield Vote("mm", large, False, across)
    if small := sum(weight for most, weight in SMALL if diameter < most):
        yield Vote("in", small, False, across)
