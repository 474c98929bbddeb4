"""A table of grooves, its rows labelled like the balloons at the grooves: its sizes held against those drawn.

Rules: a row of headings names at least two of width, depth, floor diameter and distance, beside the labels; under it
(or over it) stands a row for each label. A distance may be that to the near wall, the middle or the far wall, but the
same one in every row; `D` may be a diameter or a depth, and is the same in every row too. Rows without a balloon are
tied by their figures. A tolerance in a cell, or in the next one of a column without a size, is that of the cell's size.
A table on its side, a column for each groove, is turned first (`table_lines`). What can't be tied to a groove or read
as a size is reported, not checked.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise, product
from typing import NamedTuple

import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, normalised
from extractor.limits import deviations, with_deviations, without_deviations
from extractor.part import Groove, Part
from extractor.remembered import remembered
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import Meaning, capitals
from extractor.sizing.lettering.note_words import OTHER_THING
from extractor.sizing.lettering.pointers import LedLabel, led
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.note_faults import faults_of
from extractor.sizing.notes.note_places import areas
from extractor.sizing.sizes.shown import close
from extractor.sizing.tables.standing_labels import standing
from extractor.sizing.tables.table_lines import (
    ALONE,
    APART,
    FEWEST_ROWS,
    FLOOR,
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
from extractor.sizing.tolerances.tolerance import deviations_of, is_shaft
from extractor.values import dataclass

EITHER = re.compile(rf"[DØ]|{FLOOR}")
"""A heading that may stand for the floor's diameter or for the depth."""
FEWEST = 2
"""So many columns of sizes make a table of grooves of a table with numbers."""
FIGURE = re.compile(r"[Ø-]?\s*(\d+(?:\.\d+)?)")
DEVIATION = re.compile(rf"[+-]\s*{NUMBER}|0+(?:[.,]0*)?")
"""A deviation in a cell of its own."""
CELL = re.compile(r"Ø?\s*[\d.]+\s*(?:[±+(/^-]|0\s*[/^-]|[a-zA-Z]{1,2}\d)")
"""How a size with its tolerance begins."""
SPOTS = {"near wall": (1.0, 0.0), "middle": (0.5, 0.5), "far wall": (0.0, 1.0)}
"""Where a distance may end: shares of the places of both walls."""


@dataclass(frozen=True)
class Row:
    """One row of a table: its label, the sizes by column (None for a cell that is no size), its place.

    `left`: whether a figure stands in it under a heading that is not known. `texts`: what in it is no bare figure.
    """

    label: str
    cells: Mapping[str, Printed | None]
    at: Point
    left: bool = False
    texts: tuple[Text, ...] = ()

    @property
    def open(self) -> bool:
        """True for a row of which something is not read: a distance's tolerance, too."""
        away = self.cells.get("distance")
        return self.left or not all(self.cells.values()) or (away is not None and away.limited)


class HeldRow(NamedTuple):
    """A row, what is wrong in it, its groove, and the sizes that it gives that by field."""

    row: Row
    faults: tuple[str, ...]
    groove: Groove
    figures: Mapping[str, Printed]


def with_table(sheet: Sheet, part: Part, labels: Sequence[LedLabel]) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the tolerances of a table of grooves, and what of it contradicts or was not checked.

    `labels` are those at the grooves.
    """
    grooves = {groove.id: groove for groove in part.grooves}
    findings = tuple(_table_findings(sheet, part, labels, grooves))
    return replace(part, grooves=tuple(grooves.values())), findings


def _keep(one: HeldRow, grooves: dict[int, Groove], features: Features) -> Iterator[str]:
    """Keep the tolerances of a row that fits in its groove; in words what it gives otherwise than a dimension does."""
    for field, figure in one.figures.items():
        if not figure.limited or one.faults:
            continue
        groove = grooves[one.groove.id]
        true, pointer = float(getattr(groove, field)), led(one.row.label, one.row.at, one.row.at)
        size = features.sized(true, true, shaft=is_shaft(groove, field))
        given, _ = deviations_of(figure, pointer, size)
        own = None if field in groove.general else deviations(groove).get(field)
        if own is not None and given is not None and not close(own, given, mm=features.part.units == "mm"):
            yield f"gives other limits of the {field.replace('_', ' ')} than its dimension does"
        elif own is None:
            bare = without_deviations(groove, groove.general & {field})
            grooves[groove.id] = bare if given is None else with_deviations(bare, {field: given})


def _table_findings(
    sheet: Sheet, part: Part, labels: Sequence[LedLabel], grooves: dict[int, Groove]
) -> Iterator[Finding]:
    """What a table contradicts, and what in it was not checked; its tolerances go into `grooves`."""
    heads, rows = groove_table(sheet)
    strange = (stood.get(label, label) for lines, stood in lines_of(sheet) if (label := _strange_table(lines)))
    if not rows and (label := next(strange, None)) is not None:
        words = (
            "The headings of a table of numbers are not understood, so it was not held against the grooves: compare "
            "them with what it says."
        )
        yield Finding(Level.CAUTION, DrawingCode.GROOVE_TABLE, words, label.at)
        return
    names = {row.label for row in rows}
    numbers = [b for b in labels if b.label.isdigit()]
    labels = [b for b in labels if b.label in names or (b in numbers and len(numbers) > 1)]
    if not rows and not labels:
        return
    features = Features.of(part)
    labels = [*labels, *standing(sheet, {row.label: row.at for row in rows}, {b.label for b in labels}, features)]
    tips = {b.label: shapely.Point(features.frame.on_part(b.tip)) for b in labels}
    away = {
        label: [(min(a.distance(tip) for a in areas(g)), g.id) for g in part.grooves] for label, tip in tips.items()
    }
    tied = {label: part.grooves[min(row)[1] - 1] for label, row in away.items() if row}
    either = (
        "floor_diameter" in heads
        and "depth" not in heads
        and EITHER.fullmatch(plain_heading(heads["floor_diameter"].text))
    )
    ways = [{"floor_diameter": field} for field in ("floor_diameter", "depth")][: 2 if either else 1]
    held = _held(rows, tied, ways, features)
    for one in held:
        if faults := one.faults or tuple(_keep(one, grooves, features)):
            words = (
                f"No. {one.row.label} of the table of grooves {' and '.join(faults)} (groove {one.groove.id}): ask "
                "which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.NOTE_CONTRADICTS, words, one.row.at, groove=one.groove.id)
    yield from _unheld(rows, labels, held)


def _unheld(rows: Sequence[Row], labels: Sequence[LedLabel], held: Sequence[HeldRow]) -> Iterator[Finding]:
    """The caution for rows, cells and labels that were held against nothing."""
    names = {row.label for row in rows}
    strays = [b.label for b in labels if b.label not in names]
    short = len(held) < len(rows) or any(row.open for row in rows)
    if not rows:
        words = (
            f"{len(labels)} numbers are led to grooves, and no table that says what they stand for was read: "
            "compare the grooves with it, if there is one."
        )
    elif short:
        words = (
            f"{len(held)} of {len(rows)} rows of the table of grooves were held against a groove, and of those only "
            "the cells that are sizes under a known heading: compare the grooves with the table."
        )
    elif strays:
        words = f"{strays[0]} names a groove, and no row of the table of grooves is named so: compare them."
    else:
        return
    yield Finding(Level.CAUTION, DrawingCode.GROOVE_TABLE, words, rows[0].at if rows else labels[0].at)


def _held(
    rows: Sequence[Row], tied: Mapping[str, Groove], ways: Sequence[Mapping[str, str]], features: Features
) -> list[HeldRow]:
    """Rows with their grooves and what in them is wrong, read the way, and to the spot, that leaves least wrong.

    `ways`: the fields that columns may stand for, where not those of their names. Of the rows that no label ties most
    must fit a groove wholly: else their distances may begin elsewhere, or they are about other grooves.
    """
    tried = [
        [one for row in rows if (one := _at_groove(row, tied, way, spot, features)) is not None]
        for way, spot in product(ways, SPOTS)
    ]
    held = min(
        tried, key=lambda found: (sum(bool(one.faults) for one in found if one.row.label in tied), -_whole(found))
    )
    at_labels = [one for one in held if one.row.label in tied]
    sure = 2 * (_whole(held) - _whole(at_labels)) > sum(row.label not in tied for row in rows)
    return held if sure else at_labels


def _whole(held: Sequence[HeldRow]) -> int:
    """How many rows fit wholly."""
    return sum(not one.faults for one in held)


def _at_groove(
    row: Row, tied: Mapping[str, Groove], way: Mapping[str, str], spot: str, features: Features
) -> HeldRow | None:
    """A row with the groove at its label, else with one that it fits in every figure or in all but one of three."""
    figures = {way.get(n, n): f for n, f in row.cells.items() if f is not None}
    away, (near, far) = figures.pop("distance", None), SPOTS[spot]
    held: list[HeldRow] = []
    for g in [tied[row.label]] if row.label in tied else features.part.grooves:
        faults, drawn = (
            faults_of(Meaning(sizes=tuple(figures.items())), g, features),
            -(near * g.z_near + far * g.z_far),
        )
        if away is not None and g.side.axial and not features.fits(away, drawn):
            off = f"prints distance {away.value:g} where the drawing has its {spot} {drawn:.6g} behind the front face"
            faults = (*faults, off)
        held.append(HeldRow(row, faults, g, figures))
    place = 0.0 if away is None else away.value
    best = min(held, key=lambda one: (len(one.faults), abs(place + one.groove.z_near)), default=None)
    most = min(1, len(figures) + (away is not None) - FEWEST)
    return best if best is not None and (row.label in tied or len(best.faults) <= most) else None


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
        if "label" not in heads:
            continue
        columns = columns_of(line)
        upright = (_unknown(columns), heads, _either_way(columns, lines, k))
        ways = (upright, _on_its_side(heads["label"], lines, k))
        known = [way for way in ways if len(SIZES & way[1].keys()) >= FEWEST]
        if known:
            return min(known, key=lambda way: (not way[2], way[0]))[1:]
    return {}, []


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


def _strange_table(lines: Sequence[Sequence[Text]]) -> Text | None:
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
    """The rows that follow a row of headings, as long as each begins with a label."""
    found: list[Row] = []
    last = next(one.head for one in columns if one.size == "label")
    for line in lines:
        nearest = [(text, columns[k], fit) for text, k, fit in in_columns(line, [one.head for one in columns])]
        cells = {(one.size, one.part): text for text, one, fit in reversed(nearest) if fit and one.size}
        label = cells.pop(("label", ""), None)
        if not cells:
            continue
        if label is None or not label_name(label) or abs(label.at[1] - last.at[1]) > APART * last.height:
            break
        behind = {
            a: b
            for (a, column, _), (b, other, fit) in pairwise(nearest)
            if fit and (not (other.size or other.part) or other is column) and _alone(b)
        }
        figures = {size: _size(_words(size, cells, behind)) for size, _ in cells}
        strays = [text for text, one, fit in nearest if fit and not one.size and text not in behind.values()]
        left = any(FIGURE.fullmatch(normalised(text.text)) or _alone(text) for text in strays)
        inside = [text for text, _, fit in nearest if fit and text is not label]
        texts = tuple(text for text in inside if not FIGURE.fullmatch(normalised(text.text)))
        found.append(Row(label_name(label), figures, label.at, left=left, texts=texts))
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
