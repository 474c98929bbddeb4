"""The lines of texts that a table of grooves is read from: how they are headed, and one on its side turned upright.

A table with its rows and columns exchanged is the same table: its texts are put where they would stand in an upright
one, so that there is one reader for both.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from string import ascii_uppercase
from typing import NamedTuple

import numpy as np

from extractor.finding import Point
from extractor.grammar import DEVIATIONS, NUMBER, normalised
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.sheet_words import phrases

FLOOR, DIAMETER = (f"(?:{phrases(name)})" for name in ("floor_name", "diameter_name"))
BOTH = "both"
"""The column of the width and the depth, or the floor's diameter, in one cell."""
HEADINGS = {
    name: phrases(f"{name}_column") for name in ("label", "count", "width", "depth", "floor_diameter", "distance", BOTH)
}
"""How the columns are headed, in plain capitals (common practice, no source)."""
SIZES = frozenset(HEADINGS) - {"label", "count"}
AFTER_HEADING = re.compile(r"\s*[(\[]?\bMM\b[)\]]?|(?<=\w{3})\.?\s+\(?[A-Z]\d?\)?$")
"""What may follow a heading: its unit, or the letter of the size."""
LABEL = re.compile(rf"(?:{GROOVE}\s+(?:NO\.?\s*)?)?(\d{{1,3}}|[A-Z]\d{{0,2}})", re.I)
"""How a row is labelled: by a number or a letter, behind the name of a groove or alone."""
PARTS = {name: phrases(f"{name}_column") for name in ("tolerance", "upper", "lower", "most", "least")}
"""What a column may hold of a size, by a word beside its name or behind its column (common practice, no source)."""
CORNER = "NO"
"""What heads the labels where nothing does."""
FEWEST_ROWS = 2
"""So many rows make a table on its side, or one of bare sizes whose headings are not known."""
ROW = 0.5
"""Letter heights by which texts of one row may stand off one another."""
APART = 6.0
"""Letter heights from one row to the next at most."""
ALONE = re.compile(rf"{DEVIATIONS.pattern}|[+-]\s*{NUMBER}|(?:JS|js|[A-HK-NP-Za-hk-np-z])\d{{1,2}}")
"""A tolerance in a cell of its own."""


class Column(NamedTuple):
    """A column of a table: its heading, the size that it is of, "" if that is not known, and which part of it."""

    head: Text
    size: str
    part: str = ""


def columns_of(line: Sequence[Text]) -> list[Column]:
    """The columns that a line of texts heads, from left to right; the second `POS` of a line heads the distances."""
    found: list[Column] = []
    for text in sorted(line, key=lambda t: t.at[0]):
        size, part = heading(text.text), ""
        if size and any(one.size == size for one in found):
            size = "distance" if text.text.strip(" .:").upper() == "POS" else ""
        elif not size:
            size, part = _part_of(text.text)
            before = next((one.size for one in reversed(found) if not one.part), "")
            size = before if part in PARTS and not size and before in SIZES else size
        found.append(Column(text, size, part))
    return found


def _part_of(text: str) -> tuple[str, str]:
    """The size that a heading of a part of it names, "" for none, and that part; "" for a heading of no part."""
    words = capitals(text)
    for part, form in PARTS.items():
        rest = re.sub(rf"\b(?:{form})\b\.?", " ", words)
        if rest != words:
            named = heading(rest.strip())
            return ("", "other") if plain_heading(rest).strip(" /-()") and not named else (named, part)
    return "", ""


def headings(line: Sequence[Text]) -> dict[str, Text]:
    """The headings of the columns by what they are of: of the sizes, else of what is told of their limits."""
    columns = columns_of(line)
    of_limits = {one.size: one.head for one in reversed(columns) if one.part in ("most", "least")}
    return of_limits | {one.size: one.head for one in columns if one.size and not one.part}


def lines_of(sheet: Sheet) -> Iterator[tuple[list[list[Text]], Mapping[Text, Text]]]:
    """Texts that stand on one line, from the top down; the figure of a dimension is no cell of a table.

    Level ones first, then those of each other way, as they stand where the sheet is turned so that they are level; with
    the texts of the sheet that such ones are.
    """
    sized = {d.at for d in sheet.dimensions}
    ways: dict[int, dict[Text, Text]] = {0: {}}
    for text in sheet.texts:
        if text.height > 0 and text.text.strip() and text.at not in sized:
            way = round(text.angle) % 360
            level = replace(text, at=replace(text, at=(0.0, 0.0)).seen(text.at), angle=0.0) if way else text
            ways.setdefault(way, {})[level] = text
    yield from ((_lines(texts), texts if way else {}) for way, texts in ways.items())


def _lines(texts: Iterable[Text]) -> list[list[Text]]:
    """Level texts by their lines."""
    lines: list[list[Text]] = []
    for text in sorted(texts, key=lambda t: (-t.at[1], t.at[0])):
        if lines and lines[-1][0].at[1] - text.at[1] <= ROW * text.height:
            lines[-1].append(text)
        else:
            lines.append([text])
    return lines


def plain_heading(text: str) -> str:
    """A heading in plain capitals, without what may follow it."""
    return AFTER_HEADING.sub("", capitals(text)).strip(" .:")


def heading(text: str) -> str:
    """The column that a text heads, "" for others; what follows a heading may be a part of it, as in `GROOVE W`."""
    for words in (capitals(text).strip(" .:"), plain_heading(text)):
        if name := next((name for name, form in HEADINGS.items() if re.fullmatch(form, words)), ""):
            return name
    return ""


def in_columns(line: Sequence[Text], columns: Sequence[Text]) -> Iterator[tuple[Text, int, bool]]:
    """The texts of a line, each with the column whose head begins nearest, and whether it stands near enough to it."""
    heads, texts = np.array([head.at[0] for head in columns]), sorted(line, key=lambda text: text.at)
    order, places = np.argsort(heads, kind="stable"), np.array([text.at[0] for text in texts])
    ranked = heads[order]
    nearest = order[np.searchsorted((ranked[1:] + ranked[:-1]) / 2, places)]
    within = np.abs(places - heads[nearest]) <= APART * np.array([text.height for text in texts])
    yield from zip(texts, nearest.tolist(), within.tolist(), strict=True)


def label_name(text: Text) -> str:
    """The number or the letter that a text labels a row with, "" for another text."""
    found = LABEL.fullmatch(text.text.strip())
    return found[1] if found and not found[1].islower() else ""


def with_corner(lines: Sequence[Sequence[Text]], k: int) -> Sequence[Text]:
    """A line of headings, or one of labels, with a heading in the corner of the table if that is blank."""
    line, heads = sorted(lines[k], key=lambda t: t.at[0]), headings(lines[k])
    labels = len(line) >= FEWEST_ROWS and all(map(label_name, line))
    sizes = "label" not in heads and len(SIZES & heads.keys()) >= FEWEST_ROWS
    for row in (*lines[k + 1 : k + 2], *lines[max(k - 1, 0) : k]) if labels or sizes else ():
        first = min(row, key=lambda t: t.at[0])
        fit = (labels and heading(first.text) in SIZES) or (sizes and label_name(first))
        if fit and first.at[0] < line[0].at[0] and abs(first.at[1] - line[0].at[1]) <= APART * first.height:
            return [replace(first, text=CORNER, at=(first.at[0], line[0].at[1])), *line]
    return lines[k]


def label_of(row: Sequence[Text]) -> Text | None:
    """The text of a line, from left to right, that heads the labels of a table on its side, None for other lines.

    It is one that is known, or whatever heads no size and stands before A, B, C ... or 1, 2, 3 ...
    """
    if label := headings(row).get("label"):
        return label
    names = [text.text.strip() for text in row[1:]]
    in_order = [ascii_uppercase[: len(names)], [f"{n}" for n in range(1, len(names) + 1)]]
    return row[0] if any(names == list(way) for way in in_order) and not heading(row[0].text) else None


def turned(label: Text, lines: Sequence[Sequence[Text]], k: int) -> tuple[list[list[Text]], Mapping[Point, Text]]:
    """A table on its side as an upright one: its lines, headings first, and the text that stands at each place in them.

    Line k has the heading of the labels and the labels themselves; the headings of sizes stand over one another, in
    line with it. Both are empty where there are fewer than two labels: a list of what one thing is has such lines too.
    """
    names = [text for text in lines[k] if text is not label and label_name(text)]
    if len(names) < FEWEST_ROWS:
        return [], {}
    columns = [label, *names]
    down, up = (_steps(columns, way) for way in (lines[k + 1 :], lines[:k][::-1]))
    rows: dict[float, dict[int, Text]] = {0.0: dict(enumerate(columns))}
    for n, (row, beside) in (*enumerate(down, 1), *((-n, row) for n, row in enumerate(up, 1))):
        rows |= {n: row, n + 0.5: beside}
    used = {c for n, row in rows.items() for c in row if n}
    stood: dict[Point, Text] = {}
    upright: list[list[Text]] = []
    for place, c in enumerate(sorted(used | {0})):
        cells = {(n * label.height, -place * label.height): row[c] for n, row in rows.items() if c in row}
        stood |= cells
        upright.append([replace(text, at=at) for at, text in cells.items()])
    return upright, stood


def _steps(
    columns: Sequence[Text], lines: Sequence[Sequence[Text]]
) -> Iterator[tuple[dict[int, Text], dict[int, Text]]]:
    """The cells of each line by column, as long as one is headed; tolerances alone are those of the sizes before.

    Then the tolerances that stand beside sizes in their cells, as if they were a line of their own.

    Where the labels themselves stand again, and not as sizes, another table begins.
    """
    last = columns[0]
    for line in lines:
        if abs(line[0].at[1] - last.at[1]) > APART * last.height:
            return
        found = [(c, text) for text, c, fit in in_columns(line, columns) if fit]
        cells = dict(reversed(found))
        beside = {c: text for c, text in found if text is not cells[c] and ALONE.fullmatch(normalised(text.text))}
        if not cells:
            continue
        if all(ALONE.fullmatch(normalised(text.text)) for text in cells.values()):
            cells.setdefault(0, replace(min(cells.items())[1], text=""))
        kind = heading(cells[0].text) if 0 in cells else ""
        same = kind not in SIZES and all(text.text == columns[c].text for c, text in cells.items() if c)
        if 0 not in cells or (same and len(cells) > 1):
            return
        if len(cells) > 1:
            yield cells, {0: replace(cells[0], text="")} | beside if beside else {}
        last = cells[0]
