"""A stroke font of few lines: letters as an export leaves them when it explodes every text."""

from itertools import pairwise

from support.office.ink import Ink, Line, Point, Text

# Polylines on a grid of 4 by 6, blank between strokes; x then y in each pair.
GLYPHS = {
    "0": "10 30 41 45 36 16 05 01 10",
    "1": "15 26 20",
    "2": "05 16 36 45 44 00 40",
    "3": "06 46 23 33 42 41 30 10 01",
    "4": "30 36 02 42",
    "5": "46 06 03 33 42 41 30 00",
    "6": "46 16 05 01 10 30 41 42 33 03",
    "7": "06 46 10",
    "8": "13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33",
    "9": "00 30 41 45 36 16 05 04 13 43",
    ".": "10 20 21 11 10",
    "-": "03 43",
    "x": "00 44|40 04",
    "R": "00 06 36 45 44 33 03|23 40",
    "A": "00 26 40|12 32",
    "a": "44 40|41 30 10 01 03 14 34 43",
    "\u00d8": "10 30 41 45 36 16 05 01 10|00 46",
    "E": "46 06 00 40|03 33",
    "L": "06 00 40",
    "I": "20 26",
    "T": "06 46|26 20",
    "C": "45 36 16 05 01 10 30 41",
    "S": "45 36 16 05 04 13 33 42 41 30 10 01",
    "O": "10 30 41 45 36 16 05 01 10",
    "N": "00 06 40 46",
    "M": "00 06 23 46 40",
    "D": "00 06 26 45 41 20 00",
    "F": "46 06 00|03 33",
    "G": "45 36 16 05 01 10 30 41 43 23",
    "U": "06 01 10 30 41 46",
    "V": "06 20 46",
    "P": "00 06 36 45 44 33 03",
    "B": "00 06 36 45 44 33 03|33 42 41 30 00",
    "H": "00 06|40 46|03 43",
    "K": "00 06|46 03 40",
    "W": "06 10 23 30 46",
    "X": "00 46|40 06",
    "Y": "06 23 46|23 20",
    "Z": "06 46 00 40",
    ":": "11 12|14 15",
    "/": "00 46",
}


def stroked(text: Text, role: str) -> list[Ink]:
    """The text as single lines in the role given; letters that the font lacks are left out."""
    k = text.height / 6
    shown = text.text.replace("%%c", "\u00d8")
    wide = len(shown) * 6 * k
    x0, y0 = (text.at[0] - wide / 2, text.at[1] - text.height / 2) if text.middle and not text.angle else text.at
    found: list[Ink] = []
    for index, letter in enumerate(shown):
        for run in (GLYPHS.get(letter) or GLYPHS.get(letter.upper(), "")).split("|"):
            pairs = [(int(p[0]) + 6 * index, int(p[1])) for p in run.split()]
            pts = [_turned(text, x0, y0, px * k, py * k, wide) for px, py in pairs]
            found += [Line(p, q, role) for p, q in pairwise(pts)]
    return found


def _turned(text: Text, x0: float, y0: float, dx: float, dy: float, wide: float) -> Point:
    if not text.angle:
        return x0 + dx, y0 + dy
    back = (wide / 2, text.height / 2) if text.middle else (0.0, 0.0)
    return text.at[0] - (dy - back[1]), text.at[1] + dx - back[0]
