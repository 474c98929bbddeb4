"""Words that say a part is flat or square: a plate about a centre line looks like a turned part, but is not one.

A sheet that prints a diameter which is no hole's is left alone, and so is a thickness that is the length of the part:
that of a ring. How a plate's thickness is written is common practice, no source.
"""

import re

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, normalised
from extractor.sheet import Sheet
from extractor.viewing.alike import ROUNDED

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
SQUARE = re.compile(
    r"(?:\b(?:SQ|SQUARE|4\s*-?\s*KT|VIERKANT|CARR(?:\u00c9|E)|QUADRO|CUADRADO)\b(?:\s+BAR\b)?\W*|\[\s*\]\s*|\u25a1\s*)"
    rf"{NUMBER}|^\W*({NUMBER})\s*X\s*\1\W*$",
    re.I,
)
"""A square bar by its side in words; by both of them only where that is how high the view is."""
OF_STOCK = re.compile(
    r"\b(?:LASER|PLASMA|WATER\s*-?\s*JET|FLAME)\s*-?\s*CUT|\b(?:LASER|PLASMA|BRENN)(?:TEIL|ZUSCHNITT|SCHNITT)\b"
    r"|\bD(?:\u00c9|E)COUPE\s+LASER\b|\bTAGLIO\s+LASER\b|\bCORTE\s+L(?:\u00c1|A)SER\b"
    r"|\bFLAT\s+PATTERN\b|\bBEND\s+(?:LINE|UP|DOWN|RADIUS)\b|\bABWICKLUNG\b|\bBIEGE(?:LINIE|KANTE)\b"
    r"|\b(?:FLAT\s*(?:BAR|STEEL)|FLACH(?:STAHL|EISEN))\b(?!\W*\d)|\bHEAT\s*SINK|\bK(?:\u00dc|UE)HLK(?:\u00d6|OE)RPER"
    r"|\b(?:RACK|ZAHNSTANGE|CR(?:\u00c9|E)MAILL(?:\u00c8|E)RE|CREMAGLIERA|CREMALLERA)\b|\bMODUL[EO]?\s*[=:]?\s*\d"
    r"|\bEXTRU(?:SION|DED)\b|\bSTRANGPRESS|\b(?:IP[EN]|HE[ABM]|UP[EN])\s*\d|\b[HILTU]\s*-?\s*(?:BEAM|PROFILE?)\b",
    re.I,
)
"""What is cut out of a plate, bent from one, pressed to its section or a rack is no turned part."""
LONG = re.compile(rf"({NUMBER})\s*(?:MM)?\s*(?:LONG|LG)\b", re.I)
"""How the length of a bar is written beside its cross-section."""
OF_A_LAYER = re.compile(
    r"PLATED|PLATING|ZINC|NICKEL|CHROM|COPPER|CADMIUM|ANODI|COAT|LAYER|SCHICHT|VERZINK|PHOSPH|WALL|WAND|CASE|\u00b5|\u03bc",
    re.I,
)
"""Words of what is put on a part, or of a wall: their thickness is not the part's."""


def said_flat(sheet: Sheet, length: float, across: float) -> Finding | None:
    """The stop for words that make the part a plate or a bar; `length` and `across` are the part's as drawn."""
    said = [(t.text, t.at) for t in sheet.texts] + [(d.text, d.points[0]) for d in sheet.dimensions if d.text]
    sizes = [d.measured for d in sheet.dimensions]
    for text, at in said:
        line = normalised(text)
        flat, square = FLAT.search(line) or BAR.search(line), SQUARE.search(line)
        if OF_A_LAYER.search(line):
            continue
        if OF_STOCK.search(line):
            return _stop(f'"{line[:40]}" and no printed diameter: the part is no turned one', at)
        long = LONG.search(line)
        if long and float(long[1]) > (1 + ROUNDED) * max(length, across, *sizes):
            return _stop(f'"{line[:40]}" is longer than anything drawn and no diameter is printed: a bar is drawn', at)
        if flat and abs(float(next(g for g in flat.groups() if g)) - length) > ROUNDED * length:
            return _stop(
                f'The note "{line[:40]}" gives a thickness and no diameter is printed: the part is a plate', at
            )
        if square and (square[1] is None or abs(float(square[1]) - across) <= ROUNDED * across):
            return _stop(f'"{line[:40]}" gives the side of a square and no diameter is printed: the part is a bar', at)
    return None


def _stop(why: str, at: Point) -> Finding:
    words = f"{why}; give the diameters their sign if it is a turned part."
    return Finding(Level.STOP, DrawingCode.NOT_ROUND, words, at)
