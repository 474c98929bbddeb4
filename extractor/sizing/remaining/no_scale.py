"""Sizes of grooves that stand nowhere on a sheet which says that it is drawn to no scale: only its lines tell them.

Rules: of a groove these are its width and its floor, which its depth gives too; a groove whose like has them printed
has them too. Where any note names a groove with a size, or a table does, nothing is said: it may be about all of them.
"""

from collections.abc import Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.late import late
from extractor.part import Groove
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.lettering.sheet_words import SCALE, folded, phrases
from extractor.sizing.measured.like import listed
from extractor.sizing.scale.sheet_scale import to_no_scale
from extractor.sizing.tables.table_rows import groove_table

NEEDED = {"width": frozenset({"width"}), "floor": frozenset({"floor_diameter", "depth"})}
"""What must be printed of a groove, and the fields by any of which it is."""
OF_SHEET = late(
    rf"(?:\W|\b(?:the|this|drawing|dwg|sheet|print|part|is|are|drawn|shown|zeichnung|blatt|teil|ist|die|dessin|plan|piece"
    rf"|disegno|dibujo|plano|tekening|rysunek|vykres|ritning|tegning|чертеж|{SCALE}|{phrases('to_no_scale')})\b)+"
)
"""A note that says so of the sheet and of nothing else: a picture, underlined sizes and symbols may be to no scale."""
PLACES = 3
"""Decimals to which sizes of like grooves are the same."""


def drawn_only(sheet: Sheet, grooves: Sequence[Groove]) -> Iterator[Finding]:
    """The caution that names the grooves whose sizes only the lines of such a sheet tell."""
    said = any(OF_SHEET.fullmatch(folded(text.text)) for text in sheet.everywhere)
    if (
        not said
        or not to_no_scale(sheet)
        or any(groove_note(text.text) for text in sheet.everywhere)
        or groove_table(sheet)[1]
    ):
        return
    known = {(name, _size(g, name)) for g in grooves for name, fields in NEEDED.items() if fields & g.printed}
    missing = {name: [str(g.id) for g in grooves if (name, _size(g, name)) not in known] for name in NEEDED}
    told = [f"the {name} of groove{'s' * (len(ids) > 1)} {listed(ids)}" for name, ids in missing.items() if ids]
    if told:
        words = (
            f"The sheet says that it is drawn to no scale, and nothing on it prints {' or '.join(told)}: they were "
            "taken from the lines; ask for these sizes."
        )
        yield Finding(Level.CAUTION, DrawingCode.SHEET_SCALE, words)


def _size(groove: Groove, name: str) -> tuple[str, float]:
    """A size of a groove, with the side that it is on."""
    return groove.where, round(groove.width if name == "width" else groove.floor_diameter, PLACES)
