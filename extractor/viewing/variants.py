"""Tables of variants: one drawing for several parts, its sizes given by letters that a table beside it resolves.

A dimension prints a letter (L, D1, B) and a row or column of texts names the letter again with numbers under or beside
it, at least two of them. A row begins with its letter, for tables are read from the left. What is drawn is then none of
the parts, or only one of them, and no size can be trusted. The figure of a dimension is no cell of a table.
"""

import math
import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import product
from operator import itemgetter

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.grammar import normalised
from extractor.grouping import grouped
from extractor.part import Part
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.letters import LETTER, NO_SIZE, ByName, by_letter, is_figure, pairs_of
from extractor.sizing.lettering.printed import parse
from extractor.sizing.measured.features import Features
from extractor.sizing.remaining.unheard import sizes_of
from extractor.sizing.sizes.doubt import drawn_diameters
from extractor.sizing.tables.table_rows import groove_table
from extractor.viewing.balloons import ringed
from extractor.viewing.variant_tables import LONG, THICK, parts_named

PLANE = re.compile(
    r"\b([A-Z])\s*[-–—]\s*\1\b|\b(?:SECT(?:ION)?|SCHNITT|COUPE|SEZIONE|CORTE)\W+(?-i:([A-Z])\2?)\b", re.I
)
"""The name of a section: its letter stands at both ends of the plane and is no size (ISO 128-3, from memory)."""

PLANE_ENDS = 2
"""So often does the letter of a section stand on the sheet for itself: once at each end of its plane."""

FRAMED = re.compile(r"[\u00d8\u2300]?\s*0?[.,]\d+")
CELL = 10.0
"""A tolerance frame's value begins so many letter heights before its datum at most; the datum's letter stands on the
sheet once more, at the datum."""

FIGURE = r"[Ø⌀]?\s*\d+(?:[.,]\d+)?"
NUMBER = re.compile(FIGURE)
"""A size in the table."""

ROWS = 2
"""So many numbers under one letter make a table of variants; a single one could be a legend."""

EACH = re.compile(
    rf"(?:{FIGURE}\s*\(\s*(?:-\s*\d{{1,2}}|[A-Z])\s*\)\W*){{2,}}|{FIGURE}\s*/\s*{FIGURE}\s*\*"
    rf"|\(?A\)?\s*[=:]\s*{FIGURE}\W+B\)?\s*[=:]\s*{FIGURE}"
)
"""A size with a value for each part, beside it the number, letter or mark of its part: `10 (-1) 12 (-2)`, `10 / 12*`
and `A = 10, B = 12`; `B=3 T=2` sizes a groove."""

HEADS = re.compile(LONG), re.compile(THICK)

DASH = re.compile(r"[-–—]\d{1,3}")
"""What follows the number of a drawing for one of its parts (common practice, no source)."""

IN_LINE = 1.0
"""Texts of one row or column begin within so many letter heights of one line."""

APART = 8.0
"""Letter heights from one row of a table to the next at most, and twelve times that from one column to the next."""


def variants(sheet: Sheet) -> Finding | None:
    """The stop for a drawing whose sizes stand in a table, None where there is none."""
    words = [(d.text or "", d.points[0]) for d in sheet.dimensions] + [(t.text, t.at) for t in sheet.texts]
    sized = {size.name for d in sheet.dimensions if (size := _by_name(d))}
    each = ((text, at) for text, at in words if EACH.fullmatch(text) and not _known(text, sized))
    for text, at in each:
        return _stop(at, f'"{" ".join(text.split())}" at {place_words(at)} gives each part its own size')
    named = {name for d in sheet.dimensions if d.text and (name := _letter(d.text))}
    texts, numbers, heads = _lettered(sheet)
    planes = {(found[1] or found[2]).upper() for t in texts if (found := PLANE.search(t.text))}
    datums = {name for t in texts if (name := _letter(t.text)) and any(_framed(t, n) for n in numbers)}
    for name, places in sorted(heads.items()):
        tables = [head for head in places if _rows(head, numbers) >= ROWS]
        # The letter itself must stand at a dimension as well; taken to pieces, that is one more text.
        others = len(places) - len(tables) - (PLANE_ENDS if name in planes | datums else 0)
        if tables and (name in named or others > 0):
            rows, at = max(_rows(head, numbers) for head in tables), tables[0].at
            return _stop(at, f"The table at {place_words(at)} gives {rows} values for the size {name}")
    return _by_letter(sheet, _of_grooves(sheet) | _legend(sheet).keys())


def variants_of(sheet: Sheet, part: Part) -> Finding | None:
    """The stop for a table of lengths and diameters of which one row is the part that was read and another is not.

    No dimension need name its columns. The rows of a table of what the part has on it are all drawn there; a table
    that reads as one of grooves has one as long as the part and as wide.
    """
    if part.frame is None:
        return None
    texts, numbers, _ = _lettered(sheet)
    heads = [[(t, _lines(t, numbers)) for t in texts if kind.fullmatch(capitals(t.text))] for kind in HEADS]
    for head, (column, _) in (one for kind in heads for one in kind):
        parts = _by_dash(column, texts)
        if len(parts) >= ROWS and len({text.text for text in parts}) > 1:
            return _stop(head.at, f"The table at {place_words(head.at)} gives {len(parts)} parts by their dash numbers")
    features, whole = Features.of(part), {part.length} if groove_table(sheet)[1] else None
    for (head, longs), (other, thicks) in product(*heads):
        for way, (long, thick) in enumerate(zip(longs, thicks, strict=True)):
            rows = list(zip((head, *long), (other, *thick), strict=False))
            level = all(abs(a.at[1 - way] - b.at[1 - way]) <= IN_LINE * head.height for a, b in rows)
            if level:
                drawn = [_is_drawn(a, b, features, whole) for a, b in rows[1:]]
                if any(drawn) and any(not _is_drawn(a, b, features, None) for a, b in rows[1:]):
                    message = f"The table at {place_words(head.at)} gives {len(drawn)} lengths and diameters"
                    return _stop(head.at, message)
    name = next(parts_named(texts, numbers, _lines, features), None)
    return _stop(name.at, f"The table at {place_words(name.at)} gives several parts by their names") if name else None


def _by_dash(column: Sequence[Text], texts: Sequence[Text]) -> list[Text]:
    """The sizes of a column behind a dash number in their row, which tells parts of one drawing from another.

    What stands behind the size is a deviation, as in tables of fits. Parts are counted from 1, or their numbers begin
    with a nought; others are places along an axis.
    """
    dashes = sorted((*text.at[::-1], text.text.strip()[1:]) for text in texts if DASH.fullmatch(text.text.strip()))
    found, numbers = list[Text](), list[str]()
    for size in column:
        off, (x, y) = IN_LINE * size.height, size.at
        row = dashes[bisect_left(dashes, (y - off, -math.inf)) : bisect_right(dashes, (y + off, math.inf))]
        before = [number for _, along, number in row if along < x]
        found += [size] if before else []
        numbers += before[:1]
    counted = {int(number) for number in numbers} == set(range(1, len(numbers) + 1))
    return found if counted or any(number.startswith("0") for number in numbers) else []


def _is_drawn(long: Text, thick: Text, features: Features, lengths: set[float] | None) -> bool:
    """True if a part has a length, one of these if any are given, and a diameter that two cells print."""
    length, across = (parse(t.text) for t in (long, thick))
    sizes = ((length, lengths or sizes_of(features)), (across, drawn_diameters(features.part)))
    return all(features.fits(printed, *row) for printed, row in sizes)


def with_legend(sheet: Sheet) -> Sheet:
    """The sheet with the one number that a legend gives for a letter in its place, in the texts of its dimensions."""
    sizes = [_by_name(d) for d in sheet.dimensions]
    if not any(sizes):
        return sheet
    legend = _legend(sheet)
    read = [
        replace(d, text=_resolved(size, legend[size.name]), shown="") if size and size.name in legend else d
        for d, size in zip(sheet.dimensions, sizes, strict=True)
    ]
    return replace(sheet, dimensions=tuple(read))


def _resolved(size: ByName, figure: str) -> str:
    """What a dimension prints with the figure of its letter; a sign that both have stands once."""
    both = "Ø" in size.before and figure[0] in "Ø⌀"
    return f"{size.before}{figure.lstrip('Ø⌀ ') if both else figure}{size.behind}"


def _known(text: str, sized: set[str]) -> bool:
    """True for a text that gives each of its letters a figure, and dimensions their sizes by some of them.

    A letter of such a legend that stands nowhere is a size that is not drawn, and no part.
    """
    return not sized.isdisjoint(name for name, _ in pairs_of(text))


def _lettered(sheet: Sheet) -> tuple[list[Text], list[Text], dict[str, list[Text]]]:
    """The texts of a sheet, the numbers among them that no dimension carries, and those that are letters, by letter."""
    texts, grooves = [t for t in sheet.everywhere if t.height > 0], _of_grooves(sheet)
    sized = {d.at for d in sheet.dimensions}
    heads = grouped((name, text) for text in texts if (name := _letter(text.text)) and name not in grooves)
    return texts, [t for t in texts if NUMBER.fullmatch(t.text.strip()) and t.at not in sized], heads


def _legend(sheet: Sheet) -> dict[str, str]:
    """The letters for which one size stands somewhere, and no other, with it and its tolerance.

    It stands under the letter or beside it, or in one text with it: `A = 3`.
    """
    texts, _, heads = _lettered(sheet)
    sized = {d.at for d in sheet.dimensions}
    cells = [t for t in texts if t.at not in sized and is_figure(t.text)]
    found: dict[str, set[str]] = {}
    for name, figure in (pair for text in texts for pair in pairs_of(text.text)):
        found.setdefault(name, set()).add(figure)
    for name, places in heads.items():
        rows = [row for head in places for row in _lines(head, cells)]
        found.setdefault(name, set()).update(text.text.strip("Ø⌀ ") for row in rows for text in row)
    return {name: figures.pop() for name, figures in found.items() if len(figures) == 1}


def _by_letter(sheet: Sheet, named: set[str]) -> Finding | None:
    """The stop for a dimension whose size is a letter, which a table elsewhere resolves; those `named` are so here.

    At one in pieces a letter alone that stands elsewhere too may be that of a view or a datum.
    """
    known = named | {_letter(text.text) for text in groove_table(sheet)[0].values()}
    for d in sheet.dimensions:
        if (size := _by_name(d)) and size.name not in known and not (d.at and _elsewhere(size, d, sheet)):
            at = place_words(d.points[0])
            return _stop(d.points[0], f'The dimension "{normalised(d.text or "")}" at {at} gives its size by a letter')
    return None


def _elsewhere(size: ByName, d: Dimension, sheet: Sheet) -> bool:
    """True for a letter alone that a text of the sheet other than its dimension's has among its words."""
    word = re.compile(rf"(?<!\w){size.name}(?!\w)")
    others = (t.text for t in sheet.everywhere if t.at != d.at)
    return not (size.before + size.behind).strip() and any(word.search(words) for words in others)


def _by_name(d: Dimension) -> ByName | None:
    """The size that a dimension prints, if that is a letter."""
    lengths = d.measured > 0 and d.kind not in (DimensionKind.RADIUS, DimensionKind.ANGULAR)
    return by_letter(d.text or "") if lengths else None


def _of_grooves(sheet: Sheet) -> set[str]:
    """The letters of a table of grooves: its labels, and its headings where the labels stand in circles elsewhere.

    A table of variants has no such labels: its rows are parts.
    """
    heads, rows = groove_table(sheet)
    labels, places = {row.label for row in rows}, [row.at for row in rows]
    rings = {ringed(sheet, c) for c in sheet.circles if all(math.dist(c.centre, at) > 2 * c.radius for at in places)}
    return labels | {_letter(text.text) for text in heads.values()} if labels <= rings else labels


def _framed(letter: Text, number: Text) -> bool:
    """True for the letter of a datum behind the value in a tolerance frame (ISO 1101, from memory)."""
    off, level = letter.at[0] - number.at[0], abs(letter.at[1] - number.at[1])
    small = FRAMED.fullmatch(number.text.strip()) is not None
    return small and 0 < off <= CELL * letter.height and level <= IN_LINE * letter.height


def _letter(text: str) -> str:
    """The letter that a text is, "" for others."""
    match = LETTER.fullmatch(text.strip())
    return match.group(1) if match and not NO_SIZE.fullmatch(match.group(1)) else ""


def _rows(head: Text, numbers: Sequence[Text]) -> int:
    """How many numbers stand in one column under a letter or over it, or in a row that begins with it, step by step."""
    return max(map(len, _lines(head, numbers)))


def _lines(head: Text, numbers: Sequence[Text]) -> tuple[list[Text], list[Text]]:
    """The numbers in one column under a letter or over it, and those in a row that begins with it, step by step."""
    under = _steps(head, ((t.at[0], t.at[1], t) for t in numbers), APART)
    return under, _steps(head, ((t.at[1], t.at[0], t) for t in numbers), 12 * APART, row=True)


def _steps(head: Text, places: Iterable[tuple[float, float, Text]], apart: float, row: bool = False) -> list[Text]:
    """Numbers in line with a letter, each within a step of the last: right of it, or on the side that has more."""
    across, along = (head.at[1], head.at[0]) if row else head.at
    height = head.height
    near = 3 * IN_LINE * height if not row else IN_LINE * height
    line = [(b - along, t) for a, b, t in places if abs(a - across) <= near and abs(t.height - height) <= 0.5 * height]
    best: list[Text] = []
    for side in (1,) if row else (1, -1):
        last, found = 0.0, list[Text]()
        for off, text in sorted(((x * side, t) for x, t in line if x * side > 0), key=itemgetter(0)):
            if off - last > apart * height:
                break
            last, found = off, [*found, text]
        best = max(best, found, key=len)
    return best


def _stop(at: Point, why: str) -> Finding:
    words = (
        f"{why}: the drawing stands for several parts; make one drawing for each, with its own sizes, or take the "
        "table away if it is not about parts."
    )
    return Finding(Level.STOP, DrawingCode.VARIANTS, words, at)
