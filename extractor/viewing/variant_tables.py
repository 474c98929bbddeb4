"""Tables that name several parts and give each its size: in rows or in columns, in any of the languages of the sheets.

A heading such as `TYPE` or `CODICE` stands level with that of a length, a diameter, a width of grooves or their number,
and the names of at least two parts with their figures. One figure is what is drawn and another is not: then the
drawing stands for several parts. Of a list of pieces, of tools or of changes none is drawn, or all are.

Source of the words: common practice, no source.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import product

from extractor.late import late
from extractor.sheet import Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import DEEP, GROOVE, WIDE
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.lettering.sheet_words import folded, phrases
from extractor.sizing.measured.features import Features
from extractor.sizing.sizes.doubt import drawn_diameters
from extractor.sizing.tables.table_lines import AFTER_HEADING, DIAMETER

NAMES = late(rf"(?:{phrases('variants')})\W*")
LONG = r"L\d{0,2}|(?:OVERALL |TOTAL |GESAMT)?(?:LENGTH|LANGE)|LONGUE?UR|LUNGHEZZA|LONGITUD|LENGTE|DLUGOSC|DELKA|ДЛИНА"
THICK = rf"(?:OUTSIDE |OUTER )?{DIAMETER} ?D?\d{{0,2}}|D\d{{0,2}}|O\.?D\.?"
"""How columns of lengths and of diameters are headed, in plain capitals (common practice, no source)."""
OF_GROOVES = rf"(?:(?:NO|NUMBER|QTY|ANZAHL|NOMBRE|NUMERO)\.?\s*(?:OF |DE |DI )?)?{GROOVE}"
APART = 1.0, 3.0
"""Letter heights by which texts of one row, and of one column, may stand off their line."""
Drawn = Callable[[Features], Sequence[float]]
KINDS: dict[str, Drawn] = {
    LONG: lambda features: [features.part.length],
    THICK: lambda features: list(drawn_diameters(features.part)),
    rf"(?:{GROOVE}\s+)?{WIDE}": lambda features: [groove.width for groove in features.part.grooves],
    rf"(?:{GROOVE}\s+)?{DEEP}": lambda features: [groove.depth for groove in features.part.grooves],
    OF_GROOVES: lambda features: [float(len(features.part.grooves))],
}
"""What a heading is of, and the sizes that the part has of it."""
HEADS = {late(form): drawn for form, drawn in KINDS.items()}
Lines = Callable[[Text, Sequence[Text]], tuple[list[Text], list[Text]]]
"""Takes a heading and cells, gives those in its column and those in its row."""


def parts_named(texts: Sequence[Text], numbers: Sequence[Text], lines: Lines, features: Features) -> Iterator[Text]:
    """The headings of the names of parts of which one is drawn and another, by its figure, is not."""
    names = [text for text in texts if NAMES.fullmatch(folded(text.text))]
    heads = [(text, drawn) for text in texts if (drawn := _of(text.text))] if names else []
    for name, (head, drawn) in product(names, heads):
        for way in (0, 1):
            level = abs(name.at[1 - way] - head.at[1 - way]) <= APART[way] * name.height
            cells = lines(name, texts)[way] if level and name is not head else []
            figures = lines(head, numbers)[way] if cells else []
            beside = [f for f in figures if any(_beside(f, cell, way) for cell in cells)]
            sizes = drawn(features)
            fits = [any(_fits(f, size, features) for size in sizes) for f in beside]
            if any(fits) and not all(fits):
                yield name


def _of(words: str) -> Drawn | None:
    """The sizes that a heading is of, None for another text."""
    line = AFTER_HEADING.sub("", capitals(words).strip(" .:"))
    return next((drawn for form, drawn in HEADS.items() if form.fullmatch(line)), None)


def _beside(figure: Text, cell: Text, way: int) -> bool:
    """True for a figure in the row of a name, or in its column where the table has the names in a row."""
    return figure is not cell and abs(figure.at[1 - way] - cell.at[1 - way]) <= APART[way] * cell.height


def _fits(figure: Text, size: float, features: Features) -> bool:
    """True if a cell prints a size of the part."""
    printed: Printed = parse(figure.text)
    return printed.size is not None and features.fits(printed, size)
