"""A table of grooves, its rows numbered like the balloons at the grooves: its sizes held against those drawn.

Rules: a row of headings names at least two of width, depth, floor diameter and distance, beside the numbers; under it
(or over it) stands a row for each number. A distance may be that to the near wall, the middle or the far wall, but the
same one in every row. What can't be tied to a groove or read as a bare size is reported, not checked.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.part import Groove, Part
from extractor.sheet import Sheet, Text
from extractor.sizing.groove_notes import Meaning, PrintedFigure
from extractor.sizing.note_checks import agrees_with, areas, faults_of
from extractor.sizing.pointers import LedNumber
from extractor.sizing.printed import normalised

HEADINGS = {
    "number": r"NO|NR|N°|N|#|POS|GROOVE(?: NO)?|NUT|EINSTICH|RILLE|GORGE|GOLA|RANURA",
    "width": r"(?:GROOVE )?WIDTH|WIDE|W|B|BREITE|NUTBREITE|LARGEUR|LARGHEZZA|ANCHO|ANCHURA",
    "depth": r"(?:GROOVE )?DEPTH|DEEP|T|TIEFE|NUTTIEFE|PROFONDEUR|PROFONDIT(?:À|A)|PROFUNDIDAD",
    "floor_diameter": r"Ø|DIA(?:METER)?|D|(?:FLOOR|ROOT|BOTTOM|GROOVE|GRUND|FOND) ?-?(?:Ø|DIA(?:METER)?)"
    r"|NUTGRUND|DURCHMESSER|DIAM(?:È|E)TRE|DIAMETRO|DIÁMETRO",
    "distance": r"(?:DIST(?:ANCE)? )?FROM (?:FRONT )?(?:FACE|Z0|END)|DIST(?:ANCE)?|ABSTAND|Z|DISTANZA|DISTANCIA",
}
"""How the columns are headed, in English, German, French, Italian and Spanish (common practice, no source)."""
SIZES = frozenset(HEADINGS) - {"number"}
FEWEST = 2
"""So many columns of sizes make a table of grooves of a table with numbers."""
ROW = 0.5
"""Letter heights by which texts of one row may stand off one another."""
APART = 6.0
"""Letter heights from one row to the next at most."""
FIGURE = re.compile(r"[Ø-]?\s*(\d+(?:\.\d+)?)")
SPOTS = {"near wall": (1.0, 0.0), "middle": (0.5, 0.5), "far wall": (0.0, 1.0)}
"""Where a distance may end: shares of the places of both walls."""


@dataclass(frozen=True)
class Row:
    """One row of a table: its number, the sizes by column (None for a cell that is no bare size), its place."""

    number: int
    cells: Mapping[str, PrintedFigure | None]
    at: Point

    def size(self, name: str) -> PrintedFigure | None:
        """The size in a column."""
        return self.cells.get(name)


def table_findings(sheet: Sheet, part: Part, numbers: Sequence[LedNumber]) -> Iterator[Finding]:
    """What a table of grooves contradicts, and what in it was not checked; `numbers` are those at the grooves."""
    rows = _table(sheet)
    if not rows and not numbers:
        return
    tied = {b.number: g for b in numbers if (g := _at_tip(b, part)) is not None}
    held = [(row, tied[row.number]) for row in rows if row.number in tied]
    for row, groove in held:
        sizes = tuple(
            (n, f) for n, f in row.cells.items() if f is not None and n in ("width", "depth", "floor_diameter")
        )
        faults = faults_of(Meaning(sizes=sizes), groove, part)
        if faults:
            yield _contradicts(row, faults, groove)
    yield from _distances(held, part)
    bare = len(held) < max(len(rows), len(numbers)) or any(f is None for row, _ in held for f in row.cells.values())
    if bare:
        yield _not_held(len(held), rows, numbers)


def _at_tip(balloon: LedNumber, part: Part) -> Groove | None:
    """The groove that a balloon's line ends in."""
    if part.frame is None:
        return None
    tip = shapely.Point(part.frame.on_part(balloon.tip))
    return min(part.grooves, key=lambda g: min(a.distance(tip) for a in areas(g)), default=None)


def _distances(held: Sequence[tuple[Row, Groove]], part: Part) -> Iterator[Finding]:
    """What the column of distances contradicts: no one spot of the grooves has them all."""
    rows = [(row, g, figure) for row, g in held if (figure := row.size("distance")) is not None and g.side.axial]
    odd = {
        spot: [(r, g, f) for r, g, f in rows if not agrees_with(f, -(near * g.z_near + far * g.z_far), part)]
        for spot, (near, far) in SPOTS.items()
    }
    spot = min(odd, key=lambda name: len(odd[name]))
    near, far = SPOTS[spot]
    for row, groove, figure in odd[spot]:
        drawn = -(near * groove.z_near + far * groove.z_far)
        words = f"prints distance {figure.value:g} where the drawing has its {spot} {drawn:.6g} behind the front face"
        yield _contradicts(row, (words,), groove)


def _contradicts(row: Row, faults: tuple[str, ...], groove: Groove) -> Finding:
    words = f"No. {row.number} of the table of grooves {' and '.join(faults)} (groove {groove.id}): ask which is meant."
    return Finding(Level.STOP, DrawingCode.NOTE_CONTRADICTS, words, row.at, groove=groove.id)


def _not_held(count: int, rows: Sequence[Row], numbers: Sequence[LedNumber]) -> Finding:
    """The caution for a table that was not held in every cell, or for numbers without a table."""
    at = rows[0].at if rows else numbers[0].at
    what = f"{count} of {len(rows)} rows of the table of grooves" if rows else f"{len(numbers)} numbers at grooves"
    why = "could be held, and not every cell" if rows else "stand for sizes in no table that could be read"
    words = f"{what} {why}: compare the grooves with what the sheet says of them."
    return Finding(Level.CAUTION, DrawingCode.GROOVE_TABLE, words, at)


def _table(sheet: Sheet) -> list[Row]:
    """The rows of the first table of grooves on a sheet, in the order of their numbers."""
    lines = _lines([t for t in sheet.texts if t.height > 0 and t.text.strip()])
    for k, line in enumerate(lines):
        heads = {name: t for t in line if (name := _heading(t.text))}
        if "number" in heads and len(SIZES & heads.keys()) >= FEWEST:
            return max(_rows(heads, lines[k + 1 :]), _rows(heads, lines[:k][::-1]), key=len)
    return []


def _lines(texts: Sequence[Text]) -> list[list[Text]]:
    """Texts that stand on one line, from the top of the sheet down."""
    lines: list[list[Text]] = []
    for text in sorted(texts, key=lambda t: (-t.at[1], t.at[0])):
        if lines and lines[-1][0].at[1] - text.at[1] <= ROW * text.height:
            lines[-1].append(text)
        else:
            lines.append([text])
    return lines


def _heading(text: str) -> str:
    """The column that a text heads, "" for others."""
    words = normalised(text).upper().strip(" .:")
    return next((name for name, form in HEADINGS.items() if re.fullmatch(form, words)), "")


def _rows(heads: Mapping[str, Text], lines: Sequence[Sequence[Text]]) -> list[Row]:
    """The rows that follow a row of headings, as long as each begins with a number."""
    found: list[Row] = []
    last = heads["number"]
    for line in lines:
        beside = [(text, _nearest(heads, text)) for text in line]
        cells = {name: text for text, name in reversed(beside) if name}
        number = cells.pop("number", None)
        if not cells:
            continue
        if number is None or not number.text.strip().isdigit() or abs(number.at[1] - last.at[1]) > APART * last.height:
            break
        figures = {name: _figure(text.text) for name, text in cells.items() if name in SIZES}
        found.append(Row(int(number.text.strip()), figures, number.at))
        last = number
    return found


def _nearest(heads: Mapping[str, Text], text: Text) -> str:
    """The column that a text stands in, "" for one beside the table."""
    name = min(heads, key=lambda n: abs(heads[n].at[0] - text.at[0]))
    return name if abs(heads[name].at[0] - text.at[0]) <= APART * text.height else ""


def _figure(text: str) -> PrintedFigure | None:
    """A bare size."""
    found = FIGURE.fullmatch(normalised(text).strip())
    return PrintedFigure(value=float(found[1]), places=len(found[1].partition(".")[2])) if found else None


__all__ = ["Row", "table_findings"]
