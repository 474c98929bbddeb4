"""The rows of a table of grooves as they are read: which headings make one, its labels, and the sizes in its cells.

Rules: a row of headings names at least two of width, depth, floor diameter and distance, or both sizes over one column
(`W x D`), beside labels. A column of how many makes a row stand for so many grooves; without labels there must be one,
and a word for the width, as letters alone head the sizes of parts, too.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from extractor.finding import Point
from extractor.grammar import NUMBER, normalised
from extractor.remembered import remembered
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals, groove_note
from extractor.sizing.lettering.note_words import OTHER_THING
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.sentences.could_size import ABOUT_GROOVE
from extractor.sizing.tables.table_lines import (
    ALONE,
    APART,
    BOTH,
    FEWEST_ROWS,
    SIZES,
    Column,
    columns_of,
    headings,
    in_columns,
    label_name,
    label_of,
    lines_of,
    plain_heading,
    turned,
    with_corner,
)
from extractor.values import dataclass

FEWEST = 2
"""So many columns of sizes make a table of grooves of a table with numbers."""
FIGURE = re.compile(r"[Ø-]?\s*(\d+(?:\.\d+)?)")
DEVIATION = re.compile(rf"[+-]\s*{NUMBER}|0+(?:[.,]0*)?")
"""A deviation in a cell of its own."""
CELL = re.compile(r"Ø?\s*[\d.]+\s*(?:[±+(/^-]|0\s*[/^-]|[a-zA-Z]{1,2}\d)")
"""How a size with its tolerance begins."""
ANY_SIZE = re.compile(r"SIZES?")
HOW_MANY = re.compile(r"(\d{1,2})\s*(?:[Xx\u00d7]|OFF|PCS\.?|STK\.?)?", re.I)
"""A cell under the heading of how many."""


@dataclass(frozen=True)
class Row:
    """One row of a table: its label, the sizes by column (None for a cell that is no size), its place.

    `left`: whether a figure stands in it under a heading that is not known. `texts`: what in it is no bare figure.
    `count`: of how many grooves it is, None where no column says so; its label is "" where no column has labels.
    """

    label: str
    cells: Mapping[str, Printed | None]
    at: Point
    left: bool = False
    texts: tuple[Text, ...] = ()
    count: int | None = None

    @property
    def open(self) -> bool:
        """True for a row of which something is not read: a distance's tolerance, too."""
        away = self.cells.get("distance")
        return self.left or not all(self.cells.values()) or (away is not None and away.limited)


@remembered
def groove_table(sheet: Sheet) -> tuple[Mapping[str, Text], list[Row]]:
    """The headings and the rows of the first table of grooves on a sheet, both empty where there is none."""
    for lines, stood in lines_of(sheet):
        heads, rows = _table(lines)
        if heads:
            places = {text.at: own.at for text, own in stood.items()}
            own = [
                replace(row, at=places.get(row.at, row.at), texts=tuple(stood.get(text, text) for text in row.texts))
                for row in rows
            ]
            return {name: stood.get(text, text) for name, text in heads.items()}, own
    return {}, []


def _table(lines: Sequence[Sequence[Text]]) -> tuple[Mapping[str, Text], list[Row]]:
    """The same of the lines of its texts; a table that reads both ways is read so that more of its headings are known.

    The letters of grooves on its side may be those of sizes as well.
    """
    for k in range(len(lines)):
        line = with_corner(lines, k)
        heads = headings(line)
        if "label" not in heads and not _by_kinds(heads):
            continue
        columns = columns_of(line)
        ways = [(_unknown(columns), heads, _either_way(columns, lines, k))]
        ways += [_on_its_side(heads["label"], lines, k)] if "label" in heads else []
        known = [way for way in ways if _sizes(way[1]) >= FEWEST]
        if known:
            return min(known, key=lambda way: (not way[2], way[0]))[1:]
    return {}, []


def _by_kinds(heads: Mapping[str, Text]) -> bool:
    """True for headings of so many grooves of each kind, with a word for their sizes."""
    worded = (heads[name] for name in ("width", BOTH) if name in heads)
    return "count" in heads and any(len(plain_heading(head.text)) > 1 for head in worded)


def _sizes(heads: Mapping[str, Text]) -> int:
    """How many sizes of a groove headings name; a plain `SIZE` does so where another names the groove."""
    plain = BOTH in heads and ANY_SIZE.fullmatch(plain_heading(heads[BOTH].text)) and not _names_groove(heads)
    return len(SIZES & heads.keys()) + (-1 if plain else BOTH in heads)


def names_sizes(heads: Mapping[str, Text]) -> bool:
    """True for headings that name a groove, or its width and its depth."""
    return _names_groove(heads) or (_by_kinds(heads) and (BOTH in heads or "depth" in heads))


def _names_groove(heads: Mapping[str, Text]) -> bool:
    """True for headings one of which names a groove."""
    return any(ABOUT_GROOVE.search(capitals(head.text)) for head in heads.values())


def _unknown(columns: Sequence[Column]) -> int:
    """How many headings are not known."""
    return sum(not one.size for one in columns)


def _on_its_side(label: Text, lines: Sequence[Sequence[Text]], k: int) -> tuple[int, dict[str, Text], list[Row]]:
    """How many headings of a table on its side are not known, those that are, and its rows."""
    upright, stood = turned(label, lines, k)
    if not upright:
        return 0, {}, []
    columns = columns_of(upright[0])
    rows = [
        replace(row, at=stood[row.at].at, texts=tuple(stood[text.at] for text in row.texts))
        for row in _rows(columns, upright[1:])
    ]
    return _unknown(columns), {name: stood[text.at] for name, text in headings(upright[0]).items()}, rows


def _either_way(columns: Sequence[Column], lines: Sequence[Sequence[Text]], k: int) -> list[Row]:
    """The rows under headings on a line, or over them."""
    return max((_rows(columns, part) for part in (lines[k + 1 :], lines[:k][::-1])), key=len)


def strange_table(lines: Sequence[Sequence[Text]]) -> Text | None:
    """The first heading of a table of labelled bare sizes, upright or on its side, whose headings are not known."""
    for k, line in enumerate(lines):
        row = sorted(line, key=lambda t: t.at[0])
        if _is_strange(row, lines, k):
            return row[0]
        if label := label_of(row):
            upright, _ = turned(label, lines, k)
            if upright and _is_strange(upright[0], upright, 0):
                return label
    return None


def _is_strange(row: Sequence[Text], lines: Sequence[Sequence[Text]], k: int) -> bool:
    """True for headings, those of line k, that say of nothing else that it is sized in the rows under them.

    The sizes of a groove are two at least; a list of parts or of changes has words in its cells.
    """
    if len(row) <= FEWEST or any(label_name(t).isdigit() for t in row):
        return False
    if any(OTHER_THING.search(capitals(t.text)) for t in row):
        return False
    rows = _either_way([Column(t, f"{n}" if n else "label") for n, t in enumerate(row)], lines, k)
    full = [r for r in rows if len(r.cells) >= FEWEST and all(f is not None for f in r.cells.values())]
    return len(full) >= FEWEST_ROWS


def _rows(columns: Sequence[Column], lines: Sequence[Sequence[Text]]) -> list[Row]:
    """The rows that follow a row of headings, as long as each has a label, or a count where nothing has one."""
    found: list[Row] = []
    begins = min((one for one in columns if one.size in ("label", "count")), key=lambda one: one.size != "label")
    last = begins.head
    for line in lines:
        nearest = [(text, columns[k], fit) for text, k, fit in in_columns(line, [one.head for one in columns])]
        cells = {(one.size, one.part): text for text, one, fit in reversed(nearest) if fit and one.size}
        label, many = cells.get((begins.size, "")), cells.pop(("count", ""), None)
        cells.pop(("label", ""), None)
        if not cells:
            continue
        counted = None if many is None else HOW_MANY.fullmatch(many.text.strip())
        named = label is not None and (counted if begins.size == "count" else label_name(label))
        if label is None or not named or abs(label.at[1] - last.at[1]) > APART * last.height:
            break
        behind = {
            a: b
            for (a, column, _), (b, other, fit) in pairwise(nearest)
            if fit and (not (other.size or other.part) or other is column) and _alone(b)
        }
        figures = {size: _size(_words(size, cells, behind)) for size, _ in cells if size != BOTH}
        figures |= _both(cells[BOTH, ""]) if (BOTH, "") in cells else {}
        strays = [text for text, one, fit in nearest if fit and not one.size and text not in behind.values()]
        left = any(FIGURE.fullmatch(normalised(text.text)) or _alone(text) for text in strays)
        left = left or (many is not None and counted is None)
        inside = [text for text, _, fit in nearest if fit and text is not label]
        texts = tuple(text for text in inside if not FIGURE.fullmatch(normalised(text.text)))
        name, count = label_name(label) if begins.size == "label" else "", int(counted[1]) if counted else None
        found.append(Row(name, figures, label.at, left=left, texts=texts, count=count))
        last = label
    return found


def _alone(text: Text) -> bool:
    """True for a tolerance in a cell of its own."""
    return ALONE.fullmatch(normalised(text.text)) is not None


def _words(size: str, cells: Mapping[tuple[str, str], Text], behind: Mapping[Text, Text]) -> str:
    """What the cells of a row say of one size: its figure and its tolerance, both limits, or both deviations."""
    own = {part: text.text for (name, part), text in cells.items() if name == size}
    if "most" in own or "least" in own:
        return f"{own.get('most', '')}/{own.get('least', '')}"
    figure = cells.get((size, ""))
    given = behind[figure].text if figure is not None and figure in behind else own.get("tolerance", "")
    if "upper" in own or "lower" in own:
        both = [own.get(part, "").strip() for part in ("upper", "lower")]
        given = "/".join(both if all(DEVIATION.fullmatch(one) for one in both) else ("?", "?"))
    return f"{own.get('', '')} {given}"


def _size(words: str) -> Printed | None:
    """The size that a cell is, with its tolerance; None for any other."""
    line = normalised(words)
    if figure := FIGURE.fullmatch(line):
        return Printed.of(figure[1])
    printed = parse(line)
    return printed if CELL.match(line) and printed.size is not None and printed.limited and not printed.unread else None


def _both(cell: Text) -> dict[str, Printed | None]:
    """The sizes of a cell that gives two, by field; without one, that cell as what is not read."""
    note = groove_note(cell.text)
    two = (dict(one.sizes) for one in note.meanings if len(one.sizes) > 1) if note else iter(())
    return dict(next(two, {BOTH: None}))
