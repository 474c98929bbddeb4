"""A table of grooves, its rows labelled like the balloons at the grooves: its sizes held against those drawn.

Rules: under a row of headings (or over it) stands a row for each label (`table_rows`). A distance may be that to the
near wall, the middle or the far wall, but the same one in every row; `D` may be a diameter or a depth, and is the same
in every row too. Rows without a balloon are tied by their figures. A tolerance in a cell, or in the next one of a
column without a size, is that of the cell's size. A table on its side, a column for each groove, is turned first
(`table_lines`). A count is that of the grooves which have the sizes of its row; of rows without one no more may have
the same than there are such grooves. What can't be tied to a groove or read as a size is reported, not checked.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product
from typing import NamedTuple

import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.limits import deviations, with_deviations, without_deviations
from extractor.part import Groove, Part
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_meanings import Meaning
from extractor.sizing.lettering.pointers import LedLabel, led
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import listed
from extractor.sizing.notes.note_faults import COUNTS, faults_of
from extractor.sizing.notes.note_places import areas
from extractor.sizing.sizes.shown import close
from extractor.sizing.tables.standing_labels import standing
from extractor.sizing.tables.table_lines import FLOOR, in_columns, lines_of, plain_heading
from extractor.sizing.tables.table_rows import FEWEST, FIGURE, Row, groove_table, names_sizes, strange_table
from extractor.sizing.tolerances.tolerance import deviations_of, is_shaft

EITHER = re.compile(rf"(?:GROOVE )?[DØ]|{FLOOR}")
"""A heading that may stand for the floor's diameter or for the depth."""
SPOTS = {"near wall": (1.0, 0.0), "middle": (0.5, 0.5), "far wall": (0.0, 1.0)}
"""Where a distance may end: shares of the places of both walls."""


class HeldRow(NamedTuple):
    """A row, what is wrong in it, its groove, the sizes that it gives that by field, and all grooves that have them."""

    row: Row
    faults: tuple[str, ...]
    groove: Groove
    figures: Mapping[str, Printed]
    alike: tuple[int, ...] = ()

    @property
    def sized(self) -> bool:
        """True for one in which nothing is wrong but a count."""
        return all(fault.startswith(COUNTS) for fault in self.faults)


def with_table(sheet: Sheet, part: Part, labels: Sequence[LedLabel]) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the tolerances of a table of grooves, and what of it contradicts or was not checked.

    `labels` are those at the grooves.
    """
    grooves = {groove.id: groove for groove in part.grooves}
    findings = tuple(_table_findings(sheet, part, labels, grooves))
    return replace(part, grooves=tuple(grooves.values())), findings


def _keep(one: HeldRow, number: int, grooves: dict[int, Groove], features: Features) -> Iterator[str]:
    """Keep the tolerances of a row that fits in a groove; in words what it gives otherwise than a dimension does."""
    for field, figure in one.figures.items():
        if not figure.limited or one.faults:
            continue
        groove = grooves[number]
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
    strange = (stood.get(label, label) for lines, stood in lines_of(sheet) if (label := strange_table(lines)))
    if not rows and (label := next(strange, None)) is not None and not _of_points(sheet, part):
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
    head = capitals(heads["floor_diameter"].text) if "floor_diameter" in heads and "depth" not in heads else ""
    either = any(EITHER.fullmatch(words) for words in (head.strip(" .:"), plain_heading(head)))
    ways = [{"floor_diameter": field} for field in ("floor_diameter", "depth")][: 2 if either else 1]
    held = _held(rows, tied, ways, features, named=names_sizes(heads))
    for one in held:
        # One that no label ties, and that says of no place, is about all of its kind.
        alone = one.row.label in tied or "distance" in one.row.cells or sum(one.alike == o.alike for o in held) > 1
        own = one.alike if one.row.count or not alone else (one.groove.id,)
        odd = (fault for number in own for fault in _keep(one, number, grooves, features))
        if faults := one.faults or tuple(dict.fromkeys(odd)):
            yield _stop(one, rows, faults)
    yield from _too_many(held, rows)
    yield from _unheld(rows, labels, held)


def _name(row: Row, rows: Sequence[Row]) -> str:
    """What a row is called."""
    return f"No. {row.label}" if row.label else f"Row {rows.index(row) + 1}"


def _stop(one: HeldRow, rows: Sequence[Row], faults: Sequence[str]) -> Finding:
    """The stop for what is wrong in a row."""
    code = DrawingCode.COUNT_DIFFERS if one.faults and one.sized else DrawingCode.NOTE_CONTRADICTS
    words = (
        f"{_name(one.row, rows)} of the table of grooves {' and '.join(faults)} (groove {one.groove.id}): ask which is "
        "meant."
    )
    return Finding(Level.STOP, code, words, one.row.at, groove=one.groove.id)


def _too_many(held: Sequence[HeldRow], rows: Sequence[Row]) -> Iterator[Finding]:
    """The stop for rows of one groove each that have the same sizes, and are more than the grooves that have them."""
    kinds: dict[tuple[int, ...], list[Row]] = {}
    for one in held:
        if one.row.count is None and not one.faults:
            kinds.setdefault(one.alike, []).append(one.row)
    for alike, own in kinds.items():
        if len(own) > len(alike):
            names, numbers = ", ".join(_name(row, rows) for row in own), listed([str(one) for one in alike])
            words = (
                f"{len(own)} rows of the table of grooves ({names}) print the sizes of groove{'s' * (len(alike) > 1)} "
                f"{numbers} and of no other: ask which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.COUNT_DIFFERS, words, own[-1].at, groove=alike[-1])


def _of_points(sheet: Sheet, part: Part) -> bool:
    """True for a sheet with a table of the coordinates X and Z of points, all of which the part has."""
    across = {2 * r for _, r in part.lands} | {d for g in part.grooves for d in (g.floor_diameter, g.mouth_diameter)}
    along = {z for z, _ in part.lands} | {z for g in part.grooves for z in (g.z_near, g.z_far)}
    drawn = {"X": across, "Z": {abs(z) for z in along}}
    for lines, _ in lines_of(sheet):
        for k, line in enumerate(lines):
            names = [text.text.strip() for text in line]
            if drawn.keys() <= set(names):
                cells = [(names[n], t) for row in lines[k + 1 :] for t, n, fit in in_columns(row, line) if fit]
                figures = [(drawn[name], FIGURE.fullmatch(normalised(t.text))) for name, t in cells if name in drawn]
                features = Features.of(part)
                return bool(figures) and all(
                    found and features.fits(Printed.of(found[1]), *sizes) for sizes, found in figures
                )
    return False


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
    rows: Sequence[Row],
    tied: Mapping[str, Groove],
    ways: Sequence[Mapping[str, str]],
    features: Features,
    *,
    named: bool,
) -> list[HeldRow]:
    """Rows with their grooves and what in them is wrong, read the way, and to the spot, that leaves least wrong.

    `ways`: the fields that columns may stand for, where not those of their names. Of the rows that no label ties most
    must fit a groove wholly: else their distances may begin elsewhere, or they are about other grooves. Rows that count
    are about those of the part where their headings are `named` as those of grooves, as such notes are.
    """
    tried = [
        [one for row in rows if (one := _at_groove(row, tied, way, spot, features)) is not None]
        for way, spot in product(ways, SPOTS)
    ]
    held = min(
        tried, key=lambda found: (sum(bool(one.faults) for one in found if one.row.label in tied), -_whole(found))
    )
    at_labels = [one for one in held if one.row.label in tied]
    counted = named and all(row.count for row in rows if row.label not in tied)
    sure = counted or 2 * (_whole(held) - _whole(at_labels)) > sum(row.label not in tied for row in rows)
    return held if sure else at_labels


def _whole(held: Sequence[HeldRow]) -> int:
    """How many rows fit in all their sizes."""
    return sum(one.sized for one in held)


def _at_groove(
    row: Row, tied: Mapping[str, Groove], way: Mapping[str, str], spot: str, features: Features
) -> HeldRow | None:
    """A row with the groove at its label, else with one that it fits in every figure or in all but one of three."""
    figures = {way.get(n, n): f for n, f in row.cells.items() if f is not None}
    away, (near, far) = figures.pop("distance", None), SPOTS[spot]
    held: list[HeldRow] = []
    for g in features.part.grooves:
        faults = faults_of(Meaning(sizes=tuple(figures.items()), count=row.count), g, features)
        drawn = -(near * g.z_near + far * g.z_far)
        if away is not None and g.side.axial and not features.fits(away, drawn):
            off = f"prints distance {away.value:g} where the drawing has its {spot} {drawn:.6g} behind the front face"
            faults = (*faults, off)
        held.append(HeldRow(row, faults, g, figures))
    alike = tuple(one.groove.id for one in held if one.sized)
    place = 0.0 if away is None else away.value
    own = [one for one in held if row.label not in tied or one.groove.id == tied[row.label].id]
    best = min(own, key=lambda one: (len(one.faults), abs(place + one.groove.z_near)), default=None)
    most = min(1, len(figures) + (away is not None) + (row.count is not None) - FEWEST)
    fit = best is not None and (row.label in tied or len(best.faults) <= most)
    return best._replace(alike=alike) if best is not None and fit else None
