"""Notes that give a part's thickness: a plate about a centre line looks like a turned part, but is not one.

A sheet that prints a diameter anywhere is left alone, and so is a thickness that is the length of the part: that of a
ring. How a plate's thickness is written is common practice, no source.
"""

import re

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.sheet import DimensionKind, Sheet
from extractor.sizing.printed import NUMBER, normalised
from extractor.viewing.evidence import says_diameter

_WORD = r"(?:THICKNESS|THK|DICKE|ST(?:\u00c4|AE)RKE|(?:\u00c9|E)PAISSEUR|(?:\u00c9|E)P|SPESSORE|SP|ESPESOR|ESP)\b\.?"
_METAL = (
    r"(?:(?:SHEET\s+METAL|BLECH|T(?:\u00d4|O)LE|LAMIERA|CHAPA|FLACH)\b[\s,]*(?:T\s*=)?|(?:PLATE|PLATTE)\b[\s,]*T\s*=)"
)
FLAT = re.compile(
    rf"\b(?:{_WORD}|{_METAL})\s*[:=]?\s*({NUMBER})|^\W*T\s*=\s*({NUMBER})\W*$|({NUMBER})\s*(?:MM)?\s*(?:THICK|THK|DICK)\b"
    rf"|\bSHEET\s+({NUMBER})\s*(?:MM|IN)\b",
    re.I,
)
BAR = re.compile(
    rf"\b(?:FLAT\s*(?:BAR|STEEL|STOCK)|FLACH(?:STAHL|EISEN)|FER\s+PLAT|PIATTO|PLETINA)\b\W*{NUMBER}\s*X\s*({NUMBER})",
    re.I,
)
"""A flat bar is named by its width and its thickness."""
OF_A_LAYER = re.compile(
    r"PLATED|PLATING|ZINC|NICKEL|CHROM|COPPER|CADMIUM|ANODI|COAT|LAYER|SCHICHT|VERZINK|PHOSPH|WALL|WAND|CASE|\u00b5|\u03bc",
    re.I,
)
"""Words of what is put on a part, or of a wall: their thickness is not the part's."""
LIKE = 5e-3
"""Share by which a thickness may differ from the length and still be it: printed sizes are rounded."""


def said_flat(sheet: Sheet, length: float) -> Finding | None:
    """The stop for a note that gives the thickness of a plate; `length` is the part's as drawn."""
    written = [t.text for t in sheet.texts] + [d.text for d in sheet.dimensions if d.text]
    round_sizes = (DimensionKind.DIAMETER, DimensionKind.RADIUS)
    if any(map(says_diameter, written)) or any(d.kind in round_sizes for d in sheet.dimensions):
        return None
    for text in sheet.texts:
        line = normalised(text.text)
        found = FLAT.search(line) or BAR.search(line)
        if found is None or OF_A_LAYER.search(line):
            continue
        thick = float(next(g for g in found.groups() if g))
        if abs(thick - length) > LIKE * length:
            return _stop(line, text.at)
    return None


def _stop(line: str, at: tuple[float, float]) -> Finding:
    words = (
        f'The note "{line[:40]}" gives a thickness and no diameter is printed: the part is a plate; give the diameters '
        "their sign if it is a turned part."
    )
    return Finding(Level.STOP, DrawingCode.NOT_ROUND, words, at)
