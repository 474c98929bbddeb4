"""A stroke font of few lines: letters as an export leaves them when it explodes every text."""

import tomllib
from itertools import pairwise
from pathlib import Path

from support.ink import Ink, Line, Point, Text

GLYPHS: dict[str, str] = tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))


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
