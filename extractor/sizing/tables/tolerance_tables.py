"""Tables of tolerances: of fits, a size with its class and its limits; of ranges of sizes, a deviation for each.

Rules: what stands beside a class must be its own (ISO 286), rounded as printed. A row is about the sizes that print its
class; where none does, about the grooves of its size, whose tolerance must be the same. One that is about nothing on
the sheet is left to the notes.

A range stands in one cell or two, before its deviation in the row or over it in the column. The next one begins where
the last ends, and its deviation is no smaller (ISO 2768-1 has such tables, from memory): no two sizes that are printed
with tolerances of their own do so.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level
from extractor.grammar import FIT, NUMBER, normalised
from extractor.part import Deviation
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.lists import LINE
from extractor.sizing.lettering.note_figures import NUMBERS
from extractor.sizing.lettering.printed import DUST, Printed, parse
from extractor.sizing.sizes.said import SaidSoFar
from extractor.sizing.tolerances.iso286 import deviations
from extractor.sizing.tolerances.tolerance import is_shaft
from extractor.values import dataclass

GAP = 12.0
"""Letter heights between the cells of one row, at most."""
OFF = 0.9
"""Letter heights by which a cell may stand off its row, or its column: two deviations may stand over one another."""
LEAST_LIMIT = 0.5
"""Share of a size from which a figure beside it is a limit and no deviation."""
MOST_LIMIT = 1.5
"""The share up to which it is: as far above the size."""
FIGURES = re.compile(rf"([+-]?)\s*({NUMBER})")
SIZE = re.compile(rf"(?:[ØR]\s*)?{NUMBER}\s*$")
"""The size that a class stands behind."""
HEADS = r"[^\w+-]*(?:(?:ES|EI|MAX\.?|MIN\.?|UPPER|LOWER|OBEN|UNTEN|AO|AU|SUP|INF|[\u00b5\u03bc]M|MM)\b[^\w+-]*)*"
BESIDE = re.compile(rf"{HEADS}[+-]?\s*{NUMBER}(?!\.?\d){HEADS}[+-]?\s*{NUMBER}(?!\.?\d|\s*[^\W\d_]{{3}})", re.I)
"""The two figures beside a class, with what may head them: other words make them figures of something else."""
FIELDS = ("width", "floor_diameter")
"""Sizes of a groove that may have a class."""


@dataclass(frozen=True)
class FitRow:
    """A row: its texts, the size with its class, the two figures beside it, and their decimals.

    `called`: the class stands at the same size elsewhere on the sheet.
    """

    texts: tuple[Text, ...]
    fit: Printed
    figures: Deviation
    places: int
    called: bool = False

    def deviations(self) -> Deviation:
        """The figures as deviations: limits hold the size, and whole numbers other than nought are micrometres."""
        size, (low, high) = self.fit.value, self.figures
        if min(low, high) > LEAST_LIMIT * size:
            low, high = low - size, high - size
        elif self.places == 0:
            low, high = low / 1000, high / 1000
        return min(low, high), max(low, high)

    @property
    def slack(self) -> float:
        """By how much a figure may be rounded."""
        return half_place(self.places or 3) + DUST


def fit_rows(sheet: Sheet) -> list[FitRow]:
    """The rows of tables of fits; the text of a dimension is none."""
    sized = {d.at for d in sheet.dimensions}
    whole = (t for t in sheet.texts if t.height > 0 and t.at not in sized)
    texts = sorted((line for text in whole for line in _lines(text)), key=lambda t: (t.at[0], -t.at[1]))
    rows = [row for text in texts if FIT.search(f" {text.text}") and (row := _row(text, texts)) is not None]
    words = (*(d.text for d in sheet.dimensions), *(t.text for t in without_rows(sheet.texts, rows))) if rows else ()
    called = {(one.size, one.tolerance_class) for one in map(parse, words)}
    return [replace(row, called=(row.fit.size, row.fit.tolerance_class) in called) for row in rows]


def _lines(text: Text) -> Sequence[Text]:
    """The lines of a paragraph, each where it stands; a size over its two deviations is one cell."""
    first, *rest = text.text.split("\n")
    if all(FIGURES.fullmatch(normalised(line)) for line in rest):
        return (text,)
    step = LINE * text.height
    return [replace(text, text=line, at=text.place(0.0, -k * step)) for k, line in enumerate((first, *rest))]


def without_rows(texts: Sequence[Text], rows: Sequence[FitRow]) -> tuple[Text, ...]:
    """Some texts without the cells of rows, and paragraphs without their lines that are such."""
    cells = {text for row in rows for text in row.texts}
    kept = ((text, [line for line in _lines(text) if line not in cells]) for text in texts)
    return tuple(
        text if len(left) == len(_lines(text)) else replace(text, text="\n".join(line.text for line in left))
        for text, left in kept
        if left
    )


def _row(text: Text, texts: Sequence[Text]) -> FitRow | None:
    """The row that a class stands in; the size may stand in the cell before it."""
    level = [t for t in texts if abs(t.at[1] - text.at[1]) <= OFF * text.height]
    cells = level[level.index(text) :]
    if FIT.fullmatch(f" {text.text.strip()}", 1) and level.index(text):
        cells = [level[level.index(text) - 1], *cells]
    run = [cells[0]]
    for cell in cells[1:]:
        if cell.at[0] - run[-1].end[0] > GAP * text.height:
            break
        run.append(cell)
    line = normalised(" ".join(cell.text for cell in run))
    found = FIT.search(line)
    size = SIZE.search(line, 0, found.start()) if found else None
    beside = BESIDE.match(_before_another(line[found.end() :])) if found and size else None
    if found is None or size is None or beside is None or not (fit := parse(line[size.start() : found.end()])).size:
        return None
    behind = FIGURES.findall(beside[0])
    low, high = (float(sign + number) for sign, number in behind)
    limits = [LEAST_LIMIT < figure / fit.size < MOST_LIMIT for figure in (low, high)]
    if not all(limits) and any(float(number) and not sign for sign, number in behind):
        return None  # other sizes in line with it, or figures of something else
    places = max(places_of(number) for _, number in behind)
    fit = Printed(fit.size, (fit.size,), fit.decimals, sign=fit.sign, tolerance_class=found[1] + found[2].strip())
    return FitRow(tuple(run), fit, (low, high), places)


def _before_another(cells: str) -> str:
    """The cells behind a class as far as another size with a class of its own in line with it."""
    after = FIT.search(cells)
    return re.sub(rf"{NUMBER}\s*$", "", cells[: after.start()]) if after else cells


def fits_findings(rows: Sequence[FitRow], said: SaidSoFar) -> Iterator[Finding]:
    """What the rows of a sheet contradict."""
    unit = said.features.part.unit
    for row in rows:
        name, size, given = str(row.fit.tolerance_class), row.fit.value, row.deviations()
        classed = deviations(size * unit, name)
        others = [(f"its class {name} is", (classed[0] / unit, classed[1] / unit))] if classed else []
        others += [] if row.called else _of_grooves(row, said)
        for whose, own in others:
            if any(abs(a - b) > row.slack for a, b in zip(given, own, strict=True)):
                words = (
                    f"A table gives {size:g} {name} as {given[0]:+.6g} to {given[1]:+.6g}, and {whose} {own[0]:+.6g} "
                    f"to {own[1]:+.6g}: ask which is meant."
                )
                yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at=row.texts[0].at)
                break


def _of_grooves(row: FitRow, said: SaidSoFar) -> list[tuple[str, Deviation]]:
    """The tolerances that dimensions give the sizes of grooves which a row may be about, in words."""
    shaft = str(row.fit.tolerance_class)[0].islower()
    return [
        (f"the {field.replace('_', ' ')} of groove {groove.id} has", said.given[groove.id][field])
        for groove in said.features.part.grooves
        for field in FIELDS
        if field in said.given.get(groove.id, {})
        if is_shaft(groove, field) == shaft and said.features.fits(row.fit, getattr(groove, field))
    ]


DEVIATION = re.compile(r"±\s*(\d*\.?\d+)")
RANGE_GAP = 15.0
"""Letter heights between the beginnings of two cells of one row at most; a column has its cells nearer."""


@dataclass(frozen=True)
class RangeRow:
    """A range with its deviation, and the texts that give them."""

    low: float
    high: float
    deviation: float
    texts: tuple[Text, ...]


def range_rows(sheet: Sheet) -> list[RangeRow]:
    """The rows of a table of general tolerances, none where there is none."""
    lines = [(t, normalised(t.text)) for t in sheet.texts if t.height > 0]
    alone = [(t, float(own[1])) for t, line in lines if (own := DEVIATION.fullmatch(line))]
    figured = [(t, line) for t, line in lines if NUMBERS.search(line) and not DEVIATION.search(line)]
    for across in (1, 0) if len(alone) > 1 else ():
        found = [_range(text, deviation, figured, across) for text, deviation in alone]
        rows = sorted((row for row in found if row), key=lambda row: row.low)
        runs: list[list[RangeRow]] = []
        for row in rows:
            last = runs[-1][-1] if runs else None
            if last and last.high == row.low and last.deviation <= row.deviation:
                runs[-1].append(row)
            else:
                runs.append([row])
        if best := [row for run in runs if len(run) > 1 for row in run]:
            return best
    return []


def _range(text: Text, deviation: float, figured: Sequence[tuple[Text, str]], across: int) -> RangeRow | None:
    """The range in the cells before a deviation in its row, across 1, or over it in its column, across 0."""
    way = 1 if across else -1
    level = [
        (way * (text.at[1 - across] - t.at[1 - across]), t, line)
        for t, line in figured
        if abs(t.at[across] - text.at[across]) <= OFF * text.height
    ]
    cells, figures, last = [text], list[float](), 0.0
    for off, cell, line in sorted((one for one in level if one[0] > 0), key=lambda one: one[0]):
        if off - last > RANGE_GAP * text.height or len(figures) > 1:
            break
        last, figures = off, [*map(float, NUMBERS.findall(line)), *figures]
        cells.append(cell)
    if len(figures) != 2:
        return None
    return RangeRow(figures[0], figures[1], deviation, tuple(cells))
