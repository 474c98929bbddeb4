"""A table of grooves, its rows labelled like the balloons at the grooves: its sizes held against those drawn.

Rules: a row of headings names at least two of width, depth, floor diameter and distance, beside the labels; under it
(or over it) stands a row for each label. A distance may be that to the near wall, the middle or the far wall, but the
same one in every row; `D` may be a diameter or a depth, and is the same in every row too. Rows without a balloon are
tied by their figures. What can't be tied to a groove or read as a bare size is reported, not checked.
"""

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from itertools import product

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import normalised
from extractor.part import Groove, Part
from extractor.remembered import remembered
from extractor.sheet import Sheet, Text
from extractor.side import OUTSIDE
from extractor.sizing.groove_notes import Meaning, capitals
from extractor.sizing.note_checks import areas
from extractor.sizing.note_faults import faults_of
from extractor.sizing.note_words import DEEP, GROOVE, OTHER_THING, WIDE
from extractor.sizing.pointers import LedLabel, middle_of
from extractor.sizing.printed import Printed
from extractor.sizing.ties import Features
from extractor.values import dataclass

FLOOR = r"(?:FLOOR|ROOT|BOTTOM|GRUND|FOND|FONDO|DN[AO]|BODEM|BOTTEN)"
DIAMETER = r"(?:Ø|DIA(?:M(?:ET(?:ER|RE|RO)))?|DIAMETR|DURCHMESSER|SREDNICA|PRUMER)"
HEADINGS = {
    "label": rf"NO|NR|N°|N|#|POS|ID|MARK|LABEL|ITEM|{GROOVE}(?: NO)?|REP(?:ERE)?|OZN(?:ACZENIE)?",
    "width": rf"(?:GROOVE )?{WIDE}|W|B",
    "depth": rf"(?:GROOVE )?{DEEP}|T",
    "floor_diameter": rf"{DIAMETER}(?: ?{FLOOR})?|(?:{FLOOR}|GROOVE) ?-?{DIAMETER}|{FLOOR}|NUTGRUND|D",
    "distance": r"(?:DIST(?:ANCE)? )?FROM (?:FRONT )?(?:FACE|Z0|END)|DIST(?:ANCE)?|ABSTAND|Z|L|POSITION|DISTANZA"
    r"|DISTANCIA|ODLEGLOSC|VZDALENOST|AFSTAND|AVSTAND|POZYCJA|POLOHA",
}
"""How the columns are headed, in plain capitals (common practice, no source)."""
SIZES = frozenset(HEADINGS) - {"label"}
AFTER_HEADING = re.compile(r"\s*[(\[]?\bMM\b[)\]]?|(?<=\w{3})\s+\(?[A-Z]\d?\)?$")
"""What may follow a heading: its unit, or the letter of the size."""
EITHER = re.compile(rf"[DØ]|{FLOOR}")
"""A heading that may stand for the floor's diameter or for the depth."""
LABEL = re.compile(r"\d{1,3}|[A-Z]\d{0,2}")
"""How a row is labelled: by a number or a letter."""
FEWEST = 2
"""So many columns of sizes make a table of grooves of a table with numbers."""
FEWEST_ROWS = 2
"""So many rows of bare sizes make a table of lines whose headings are not known."""
ROW = 0.5
"""Letter heights by which texts of one row may stand off one another."""
APART = 6.0
"""Letter heights from one row to the next at most."""
OVER = 6.0
"""Letter heights over the part within which a letter of a row, alone on the sheet, names the groove below it: lines of
sizes may run between them."""
FIGURE = re.compile(r"[Ø-]?\s*(\d+(?:\.\d+)?)")
SPOTS = {"near wall": (1.0, 0.0), "middle": (0.5, 0.5), "far wall": (0.0, 1.0)}
"""Where a distance may end: shares of the places of both walls."""


@dataclass(frozen=True)
class Row:
    """One row of a table: its label, the sizes by column (None for a cell that is no bare size), its place."""

    label: str
    cells: Mapping[str, Printed | None]
    at: Point


HeldRow = tuple[Row, tuple[str, ...], Groove]
"""A row, what is wrong in it, and its groove."""


def table_findings(sheet: Sheet, part: Part, labels: Sequence[LedLabel]) -> Iterator[Finding]:
    """What a table of grooves contradicts, and what in it was not checked; `labels` are those at the grooves."""
    lines = _lines(sheet)
    heads, rows = _table(lines)
    if not rows and (label := _strange_table(lines)) is not None:
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
    labels = [*labels, *_standing(sheet, rows, {b.label for b in labels}, features)]
    tips = {b.label: shapely.Point(features.frame.on_part(b.tip)) for b in labels}
    away = {
        label: [(min(a.distance(tip) for a in areas(g)), g.id) for g in part.grooves] for label, tip in tips.items()
    }
    tied = {label: part.grooves[min(row)[1] - 1] for label, row in away.items() if row}
    either = (
        "floor_diameter" in heads
        and "depth" not in heads
        and EITHER.fullmatch(_plain_heading(heads["floor_diameter"].text))
    )
    ways = [{"floor_diameter": field} for field in ("floor_diameter", "depth")][: 2 if either else 1]
    held = _held(rows, tied, ways, features)
    for row, faults, groove in (one for one in held if one[1]):
        words = (
            f"No. {row.label} of the table of grooves {' and '.join(faults)} (groove {groove.id}): ask which is meant."
        )
        yield Finding(Level.STOP, DrawingCode.NOTE_CONTRADICTS, words, row.at, groove=groove.id)
    strays = [b.label for b in labels if b.label not in names]
    short = len(held) < max(len(rows), len(labels)) or any(f is None for row in rows for f in row.cells.values())
    if short or strays:
        words = (
            f"{len(held)} of {len(rows)} rows of the table of grooves were held against a groove, and of those only "
            "the cells that are plain sizes: compare the grooves with the table."
        )
        if not rows:
            words = (
                f"{len(labels)} numbers are led to grooves, and no table that says what they stand for was read: "
                "compare the grooves with it, if there is one."
            )
        elif not short:
            words = f"{strays[0]} is led to a groove, and no row of the table of grooves is named so: compare them."
        yield Finding(Level.CAUTION, DrawingCode.GROOVE_TABLE, words, rows[0].at if rows else labels[0].at)


def _standing(sheet: Sheet, rows: Sequence[Row], known: Set[str], features: Features) -> Iterator[LedLabel]:
    """The letters of rows that stand alone beside the part at one groove each; two of one letter mark a plane."""
    outside = [g for g in features.part.grooves if g.side == OUTSIDE]
    for row in (r for r in rows if r.label not in known and r.label.isalpha()):
        texts = [t for t in sheet.texts if t.text.strip() == row.label and t.at != row.at]
        places = [(t, features.frame.on_part(middle_of(t)), t.height / features.frame.scale) for t in texts]
        over = [
            (t, g)
            for t, (z, r), height in places
            for g in outside
            if g.z_far - height <= z <= g.z_near + height and abs(r) - features.part.outer_diameter / 2 <= OVER * height
        ]
        if len(texts) == len(over) == 1:
            yield LedLabel(row.label, texts[0].at, middle_of(texts[0]))


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
    held = min(tried, key=lambda found: (sum(bool(one[1]) for one in found if one[0].label in tied), -_whole(found)))
    at_labels = [one for one in held if one[0].label in tied]
    sure = 2 * (_whole(held) - _whole(at_labels)) > sum(row.label not in tied for row in rows)
    return held if sure else at_labels


def _whole(held: Sequence[HeldRow]) -> int:
    """How many rows fit wholly."""
    return sum(not faults for _, faults, _ in held)


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
        held.append((row, faults, g))
    place = 0.0 if away is None else away.value
    best = min(held, key=lambda one: (len(one[1]), abs(place + one[2].z_near)), default=None)
    most = min(1, len(figures) + (away is not None) - FEWEST)
    return best if best is not None and (row.label in tied or len(best[1]) <= most) else None


@remembered
def groove_table(sheet: Sheet) -> tuple[Mapping[str, Text], list[Row]]:
    """The headings and the rows of the first table of grooves on a sheet, both empty where there is none."""
    return _table(_lines(sheet))


def _table(lines: Sequence[Sequence[Text]]) -> tuple[Mapping[str, Text], list[Row]]:
    """The same of the lines of its texts."""
    for k, line in enumerate(lines):
        heads = _headings(line)
        if "label" in heads and len(SIZES & heads.keys()) >= FEWEST:
            return heads, _either_way(heads, lines, k)
    return {}, []


def _either_way(heads: Mapping[str, Text], lines: Sequence[Sequence[Text]], k: int) -> list[Row]:
    """The rows under headings on a line, or over them."""
    return max(_rows(heads, lines[k + 1 :]), _rows(heads, lines[:k][::-1]), key=len)


def _strange_table(lines: Sequence[Sequence[Text]]) -> Text | None:
    """The first heading of a table of labelled bare sizes whose headings say of nothing else that it is sized there.

    The sizes of a groove are two at least; a list of parts or of changes has words in its cells.
    """
    for k, line in enumerate(lines):
        row = sorted(line, key=lambda t: t.at[0])
        if len(row) <= FEWEST or any(LABEL.fullmatch(t.text.strip()) and t.text.strip().isdigit() for t in row):
            continue
        if any(OTHER_THING.search(capitals(t.text)) for t in row):
            continue
        heads = {"label": row[0]} | {f"{n}": t for n, t in enumerate(row[1:])}
        rows = _either_way(heads, lines, k)
        full = [r for r in rows if len(r.cells) >= FEWEST and all(f is not None for f in r.cells.values())]
        if len(full) >= FEWEST_ROWS:
            return row[0]
    return None


def _headings(line: Sequence[Text]) -> dict[str, Text]:
    """The columns that a line of texts heads; the second `POS` of a line heads the distances."""
    heads: dict[str, Text] = {}
    for text in line:
        name = _heading(text.text)
        heads.setdefault("distance" if name in heads and text.text.strip(" .:").upper() == "POS" else name, text)
    heads.pop("", None)
    return heads


def _lines(sheet: Sheet) -> list[list[Text]]:
    """Texts that stand on one line, from the top of the sheet down; the figure of a dimension is no cell of a table."""
    lines: list[list[Text]] = []
    sized = {d.at for d in sheet.dimensions}
    texts = (t for t in sheet.texts if t.height > 0 and t.text.strip() and t.at not in sized)
    for text in sorted(texts, key=lambda t: (-t.at[1], t.at[0])):
        if lines and lines[-1][0].at[1] - text.at[1] <= ROW * text.height:
            lines[-1].append(text)
        else:
            lines.append([text])
    return lines


def _plain_heading(text: str) -> str:
    """A heading in plain capitals, without what may follow it."""
    return AFTER_HEADING.sub("", capitals(text)).strip(" .:")


def _heading(text: str) -> str:
    """The column that a text heads, "" for others."""
    words = _plain_heading(text)
    return next((name for name, form in HEADINGS.items() if re.fullmatch(form, words)), "")


def _rows(heads: Mapping[str, Text], lines: Sequence[Sequence[Text]]) -> list[Row]:
    """The rows that follow a row of headings, as long as each begins with a label."""
    found: list[Row] = []
    last, names, columns = heads["label"], list(heads), np.array([head.at[0] for head in heads.values()])
    for line in lines:
        off = np.abs(np.array([text.at[0] for text in line])[:, None] - columns)
        within = off.min(axis=1) <= APART * np.array([text.height for text in line])
        nearest = zip(line, off.argmin(axis=1).tolist(), within.tolist(), strict=True)
        cells = {names[k]: text for text, k, fit in reversed([*nearest]) if fit}
        label = cells.pop("label", None)
        if not cells:
            continue
        if (
            label is None
            or not LABEL.fullmatch(label.text.strip())
            or abs(label.at[1] - last.at[1]) > APART * last.height
        ):
            break
        bare = {name: FIGURE.fullmatch(normalised(text.text)) for name, text in cells.items()}
        figures = {name: Printed.of(figure[1]) if figure else None for name, figure in bare.items()}
        found.append(Row(label.text.strip(), figures, label.at))
        last = label
    return found
