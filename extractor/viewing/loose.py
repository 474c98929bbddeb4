"""One dimension that lies in pieces, and how its line stands to a text and to other lines."""

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
import shapely

from extractor.finding import Point
from extractor.sheet import Dimension, Text
from extractor.values import dataclass
from extractor.viewing.alike import SKEW
from extractor.viewing.in_line import IN_LINE

CLEARLY = 0.3
"""Letter heights by which a text stands nearer to its own line than to the next; else nobody can tell whose it is."""
AT_END = 1e-4
"""Share of a line's length within which another passes its end, or an image of it: places have four decimals."""


FIGURE = re.compile(r"\s*\d+(?:[.,]\d+)?\s*")
"""A bare figure."""
NOUGHT = re.compile(r"\s*[+-]?0(?:[.,]0+)?\s*")
"""Where running sizes begin."""
ROW = 3
"""So many make a row of them."""
LEVEL = 0.5
"""Letter heights within which they begin alike."""


@dataclass(frozen=True)
class Loose:
    """A dimension in pieces: labels of its line and of its extension lines, and the dimension that they make.

    `sure` if heads or ticks end its line; else only its number or the name of its layer says what it is. `says` if the
    text prints the line's length, `away` is how far it stands from the middle of the line, whose ends are `ends`.
    """

    line: int
    feet: frozenset[int]
    dimension: Dimension
    sure: bool
    says: bool
    away: float
    ends: tuple[Point, Point]


def lead(pieces: Sequence[Loose], height: float) -> bool:
    """True if the first of some lines is clearly nearer to its text than the next that says as much."""
    alike = [piece for piece in pieces if piece.says == pieces[0].says]
    return len(alike) == 1 or alike[1].away - alike[0].away >= CLEARLY * height


def across(piece: Loose, text: Text) -> bool:
    """True for a turned text square to a line: a number at the end of an extension line, as running sizes have it.

    ISO 129-1 (from memory): a size stands along its line or level.
    """
    turned = abs(math.sin(math.radians(text.angle))) > SKEW
    return turned and abs(math.cos(math.radians(text.angle - piece.dimension.angle))) <= SKEW


def upon(one: Loose, other: Loose) -> bool:
    """True for a line within a longer one: that is the tails of its neighbours, which run into one another."""
    line = shapely.LineString(other.ends)
    near = AT_END * line.length
    return line.length > math.dist(*one.ends) + near and all(line.distance(shapely.Point(e)) <= near for e in one.ends)


def over(piece: Loose, text: Text) -> bool:
    """True for a text whose height lies amid a line, clear of its ends: an upright size of a narrow place."""
    (start, end), middle = np.array(piece.ends), np.array(text.place(0.0, text.height / 2))
    size, clear = math.dist(start, end), IN_LINE * text.height
    return bool(clear < (middle - start) @ (end - start) / size < size - clear)


def once(found: Iterable[Loose]) -> list[Loose]:
    """The same, one from end to end of a line that was found with its tails and without, as near as either stands."""
    lines: dict[frozenset[Point], Loose] = {}
    for piece in found:
        first = lines.setdefault(frozenset(piece.ends), piece)
        if piece is not first:
            lines[frozenset(piece.ends)] = replace(first, away=min(first.away, piece.away))
    return list(lines.values())


def running_rows(texts: Sequence[Text]) -> set[Text]:
    """The figures that stand turned alike in a row, on a sheet with a nought as high as they: those of running sizes.

    Each stands at the end of its extension line (ISO 129-1, from memory), though another line may lie beside it.
    """
    noughts = {t.height for t in texts if NOUGHT.fullmatch(t.text)}
    rows = defaultdict[tuple[float, float, float], list[Text]](list)
    for t in texts if noughts else ():
        if t.height in noughts and FIGURE.fullmatch(t.text):
            turn = math.radians(t.angle)
            level = t.at[0] * math.cos(turn) + t.at[1] * math.sin(turn)
            rows[t.height, t.angle, round(level / (LEVEL * t.height))].append(t)
    return {t for row in rows.values() if len(row) >= ROW for t in row}
