"""Words that say a part is flat, square or a hexagon: drawn about a centre line it looks turned, but is not.

A sheet that prints a diameter which is no hole's is left alone, but for a size across flats that is the part's own:
that the sheet has other diameters makes no hexagon round. A thickness that is the length of the part is a ring's. How
a plate's thickness and a size across flats are written is common practice, no source.
"""

import itertools
import re
from collections.abc import Sequence

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import ProfilePoints
from extractor.sheet import Dimension, Sheet
from extractor.sizing.lettering.flat_sizes import OVER_CORNERS, SQUARE, flat_size
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import plain
from extractor.sizing.measured.ties import LENGTHS
from extractor.viewing.alike import ONE_SIZE, ROUNDED
from extractor.viewing.evidence import says_diameter
from extractor.viewing.views import View

_WORD = r"(?:THICKNESS|THK|DICKE|ST(?:\u00c4|AE)RKE|(?:\u00c9|E)PAISSEUR|(?:\u00c9|E)P|SPESSORE|SP|ESPESOR|ESP)\b\.?"
_METAL = (
    r"(?:(?:SHEET\s+METAL|BLECH|T(?:\u00d4|O)LE|LAMIERA|CHAPA|FLACH)\b[\s,]*(?:T\s*=)?|(?:PLATE|PLATTE)\b[\s,]*T\s*=)"
)
FLAT = late(
    rf"\b(?:{_WORD}|{_METAL})\s*[:=]?\s*({NUMBER})|^\W*T\s*=\s*({NUMBER})\W*$|({NUMBER})\s*(?:MM)?\s*(?:THICK|THK|DICK)\b"
    rf"|\bSHEET\s+({NUMBER})\s*(?:MM|IN)\b"
    rf"|^\W*(?:\w+\s*:\s*)?(?:FLAT\s+|FLACH-?)?(?:GASKET|DICHTUNG|JOINT|GUARNIZIONE|JUNTA)\b\D*({NUMBER})\s*MM\b",
    re.I,
)
BAR = late(
    rf"\b(?:FLAT\s*(?:BAR|STEEL|STOCK)|FLACH(?:STAHL|EISEN)|FER\s+PLAT|PIATTO|PLETINA)\b\W*{NUMBER}\s*X\s*({NUMBER})",
    re.I,
)
"""A flat bar is named by its width and its thickness."""
BLOCK = late(rf"(?<![\d.])({NUMBER})\s*X\s*({NUMBER})\s*X\s*({NUMBER})", re.I)
"""The three sides of a block."""
ECCENTRIC = late(
    rf"\b(?:ECCENTRIC(?:ITY|ITE)?|EXCENTRI(?:C|CITY|QUE|CIT(?:\u00c9|E))|EXZENTRI(?:SCH|ZIT(?:\u00c4|AE)T)|EXZENTER"
    rf"|ECCENTRICO|ECCENTRICIT(?:\u00c0|A)|EXC(?:\u00c9|E)NTRICO)\b\W*(?:BY\b|OFFSET\b|UM\b|DE\b|DI\b|E\s*=)?\W*({NUMBER})"
    rf"|({NUMBER})\s*(?:MM|IN|\")?\s*(?:ECCENTRIC|EXZENTRISCH|EXCENTR|ECCENTRIC)",
    re.I,
)
"""An eccentricity with its size (common practice, no source)."""
TOLERATED = late(r"\b(?:MAX|TOL|WITHIN|HOECHSTENS|H\u00d6CHSTENS|LESS|UNDER)\b|[<\u2264]|\bTIR\b", re.I)
TUBE = late(r"TUB[EO]|ROHR|PIPE", re.I)
"""A tube has three sizes as well: its diameter, wall and length."""
OF_STOCK = late(
    rf"\b(?:PLATE|PLATTE|PLAQUE|PIASTRA|PLACA)\s+{NUMBER}\s*X\s*{NUMBER}|\b(?:PLYWOOD|SPERRHOLZ|CHIPBOARD|CARDBOARD)\b|"
    r"\b(?:LASER|PLASMA|WATER\s*-?\s*JET|FLAME)\s*-?\s*CUT|\b(?:LASER|PLASMA|BRENN)(?:TEIL|ZUSCHNITT|SCHNITT)\b"
    r"|\bD(?:\u00c9|E)COUPE\s+LASER\b|\bTAGLIO\s+LASER\b|\bCORTE\s+L(?:\u00c1|A)SER\b"
    r"|\bFLAT\s+PATTERN\b|\bBEND\s+(?:LINE|UP|DOWN|RADIUS)\b|\bABWICKLUNG\b|\bBIEGE(?:LINIE|KANTE)\b"
    r"|\b(?:FLAT\s*(?:BAR|STEEL)|FLACH(?:STAHL|EISEN))\b(?!\W*\d)|\bHEAT\s*SINK|\bK(?:\u00dc|UE)HLK(?:\u00d6|OE)RPER"
    r"|\b(?:RACK|ZAHNSTANGE|CR(?:\u00c9|E)MAILL(?:\u00c8|E)RE|CREMAGLIERA|CREMALLERA)\b|\bMODUL[EO]?\s*[=:]?\s*\d"
    r"|\bEXTRU(?:SION|DED)\b|\bSTRANGPRESS|\b(?:IP[EN]|HE[ABM]|UP[EN])\s*\d|\b[HILTU]\s*-?\s*(?:BEAM|PROFILE?)\b",
    re.I,
)
"""What is cut out of a plate, bent from one, pressed to its section or a rack is no turned part."""
LONG = late(rf"({NUMBER})\s*(?:MM)?\s*(?:LONG|LG)\b", re.I)
"""How the length of a bar is written beside its cross-section."""
OF_A_LAYER = late(
    r"PLATED|PLATING|ZINC|NICKEL|CHROM|COPPER|CADMIUM|ANODI|COAT|LAYER|SCHICHT|VERZINK|PHOSPH|WALL|WAND|CASE|\u00b5|\u03bc",
    re.I,
)
"""Words of what is put on a part, or of a wall: their thickness is not the part's."""


def said_flat(sheet: Sheet, view: View, outline: ProfilePoints, *, signed: bool) -> Finding | None:
    """What is said of words that make the part a plate or a bar, or its surfaces eccentric; `outline` is as drawn.

    `signed`: a diameter is printed that is no hole's.
    """
    length, across = outline[0][0] - outline[-1][0], 2 * max(r for _, r in outline)
    said = [(t.text, t.at) for t in sheet.everywhere] + [(d.text, d.points[0]) for d in sheet.dimensions if d.text]
    odd = _across_flats(sheet, view, said, across) or _said_eccentric(said, across)
    if odd is not None or signed:
        return odd
    sizes = [d.measured for d in sheet.dimensions]
    for text, at in said:
        line = normalised(text)
        flat = FLAT.search(line) or BAR.search(line)
        if OF_A_LAYER.search(line):
            continue
        if OF_STOCK.search(line) or _is_block(line, length, across):
            return _stop(f'"{line[:40]}" and no printed diameter: the part is no turned one', at)
        long = LONG.search(line)
        if long and float(long[1]) > (1 + ROUNDED) * max(length, across, *sizes):
            return _stop(f'"{line[:40]}" is longer than anything drawn and no diameter is printed: a bar is drawn', at)
        if flat and not one_size(float(next(g for g in flat.groups() if g)), length):
            return _stop(
                f'The note "{line[:40]}" gives a thickness and no diameter is printed: the part is a plate', at
            )
        square = SQUARE.search(plain(line).upper())
        if square and square["side"]:
            return _stop(f'"{line[:40]}" gives the side of a square and no diameter is printed: the part is a bar', at)
    return None


def one_size(printed: float, drawn: float) -> bool:
    """True if a printed size may be one as drawn, rounded."""
    return abs(printed - drawn) <= ROUNDED * drawn


def _is_block(line: str, length: float, across: float) -> bool:
    """True for three sides of which two are the part's length and width, if no tube is named."""
    block = None if TUBE.search(line) else BLOCK.search(line)
    sides = [float(side) for side in block.groups()] if block else []
    return any(one_size(a, length) and one_size(b, across) for a, b in itertools.permutations(sides, 2))


def _across_flats(sheet: Sheet, view: View, said: Sequence[tuple[str, Point]], across: float) -> Finding | None:
    """The stop where the size across the part is printed as that of a square or a hexagon, and not as a diameter."""
    round_too = [size for text, _ in said if says_diameter(text) and (size := parse(text).size) is not None]
    if any(one_size(size, across) for size in round_too):
        return None
    spanning = {(d.text, d.points[0]) for d in sheet.dimensions if d.text and spans(d, view)}
    for text, at in said:
        line = normalised(text)
        flat = None if says_diameter(line) else flat_size(line)
        if flat is None or flat.counted:
            continue
        wide = (across,) if flat.shape == "square" else (across, OVER_CORNERS[flat.shape] * across)
        if (text, at) in spanning or any(one_size(flat.size, w) for w in wide):
            return _stop(f'"{line[:40]}" gives the size across as that of a {flat.shape}: the part is a bar', at)
    return None


def _said_eccentric(said: Sequence[tuple[str, Point]], across: float) -> Finding | None:
    """The stop for words that give an eccentricity as a size: a tolerance of it is as small as a slip of the pen."""
    for text, at in said:
        line = normalised(text)
        found = ECCENTRIC.search(line)
        if found and float(found[1] or found[2]) > ROUNDED * across and not TOLERATED.search(line):
            words = (
                f'"{line[:40]}" says that something of the part is turned off centre, and which is not told here: '
                "program the part by hand, or accept it if it is no groove."
            )
            return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, at)
    return None


def spans(dimension: Dimension, view: View) -> bool:
    """True for a size from one side of a view to the other, or from its axis out where half of it is drawn."""
    if dimension.kind not in LENGTHS:
        return False
    across = view.axis.fold(np.array(dimension.points[:2]))[:, 1]
    wide = 2 * view.reach if view.halves == "both" else view.reach
    return bool(abs(float(np.ptp(across)) - wide) <= ONE_SIZE * view.reach)


def _stop(why: str, at: Point) -> Finding:
    words = f"{why}; give the diameters their sign if it is a turned part."
    return Finding(Level.STOP, DrawingCode.NOT_ROUND, words, at)
