"""Dimensions that an export took to pieces: lines, arrow heads and a bare text are put together again.

Rules: a straight line beside a text that prints a size, with an arrow head at each end, or with a line square to it
through each end and drawn on a layer named for dimensions. Nothing is asked of its length: whether the text agrees
with it is for others to judge, so that a sheet scale and a contradiction show.
"""

import math
import re
from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.sheet import Dimension, DimensionKind, Floats, Ints, Sheet, Text
from extractor.sizing.printed import parse

LONGEST = 24
"""Letters of a dimension's text at most; longer ones are notes."""
BEGINS = re.compile(r"\s*\(?\s*(?:\d+\s*[x×X]\s*)?(?:Ø|dia\b\.?)?\s*[.,]?\d", re.I)
"""How a dimension's text begins: with its size, a count or a diameter sign before it; a note begins with a word."""
SHORTEST = 0.1
"""Letter heights of a dimension line at least: that of a narrow groove is far shorter than its text is high."""
BESIDE = 2.5
"""Letter heights between a text and its dimension line, at most."""
OVERSHOOT = 1.0
"""Letter heights that an extension line runs on beyond its dimension line, at most."""
CLEARLY = 0.3
"""Letter heights by which a text stands nearer to its own line than to the next; else nobody can tell whose it is."""
HEAD = 5.0
"""Letter heights of an arrow head, at most."""
SLIM = math.radians(35.0)
"""Angle between an arrow head's edge and its line, at most: 15 degrees as a rule, a chamfer has 45."""
SQUARE = 1e-3
"""Cosine below which two lines are square to one another."""


def with_loose(sheet: Sheet) -> Sheet:
    """The sheet with the dimensions that were taken to pieces among its dimensions; DIMENSION entities stand first."""
    if not sheet.texts or not len(sheet.segments):
        return sheet
    pieces = _Pieces(sheet)
    best: dict[int, tuple[float, Dimension]] = {}
    for text in sheet.texts:
        line, away, dimension = pieces.dimension(text) or (-1, 0.0, None)
        if dimension is not None and away < best.get(line, (math.inf, None))[0]:
            best[line] = away, dimension
    if not best and not pieces.unclear:
        return sheet
    found = (d for _, d in best.values())
    findings = (*sheet.findings, *map(_unclear, pieces.unclear))
    return replace(sheet, dimensions=(*sheet.dimensions, *found), findings=findings)


def _unclear(text: Text) -> Finding:
    """The caution for a tolerance of which nobody can say what it is for."""
    words = f'"{text.text}" stands between two dimension lines: its tolerance was given to no groove; read it yourself.'
    return Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, " ".join(words.split()), at=text.at)


class _Pieces:
    """The straight segments of a sheet, looked up by place."""

    def __init__(self, sheet: Sheet) -> None:
        segments = sheet.segments
        own = np.array([s.owner not in ("DIMENSION", "HATCH") for s in segments.sources], dtype=bool)
        size = np.hypot(segments.ends[:, 2] - segments.ends[:, 0], segments.ends[:, 3] - segments.ends[:, 1])
        kept = (segments.bulge == 0) & own[segments.source] & (size > 0)
        self.ends: Floats = segments.ends[kept]
        self.size: Floats = size[kept]
        named = np.array([s.role == "dimension" for s in segments.sources], dtype=bool)
        self.named = named[segments.source[kept]]
        self.unclear: list[Text] = []
        self.tree = shapely.STRtree(shapely.linestrings(self.ends.reshape(-1, 2, 2)))

    def near(self, place: Point, reach: float) -> Ints:
        """The segments that pass a place within a distance."""
        found: Ints = self.tree.query(shapely.Point(place), predicate="dwithin", distance=reach)
        return found

    def dimension(self, text: Text) -> tuple[int, float, Dimension] | None:
        """The dimension whose text this is, its line and how far it is away; None where no line beside it is one."""
        fit = len(text.text) <= LONGEST and text.height > 0 and BEGINS.match(text.text)
        printed = parse(text.text) if fit else None
        if printed is None or printed.size is None or printed.sign in ("angle", "thread", "radius"):
            return None
        candidates = [k for k in self.near(text.at, BESIDE * text.height) if self.size[k] > SHORTEST * text.height]
        away = sorted((math.dist(text.at, _middle(self.ends[k])), int(k)) for k in candidates)
        lines = [(d, k, feet) for d, k in away if (feet := self._feet(k, text.height)) is not None]
        if len(lines) > 1 and lines[1][0] - lines[0][0] < CLEARLY * text.height:
            if printed.deviations is not None or printed.tolerance_class is not None:
                self.unclear.append(text)
            return None
        if not lines:
            return None
        distance, k, ends = lines[0]
        return k, distance, self._made(k, ends, text)

    def _made(self, k: int, feet: tuple[Point, Point], text: Text) -> Dimension:
        x0, y0, x1, y1 = self.ends[k].tolist()
        angle = math.degrees(math.atan2(y1 - y0, x1 - x0)) % 180
        return Dimension(DimensionKind.LINEAR, feet, angle, float(self.size[k]), text.text)

    def _feet(self, k: int, height: float) -> tuple[Point, Point] | None:
        """Where the extension lines of a dimension line begin; None if it is no dimension line."""
        a, b = self.ends[k, :2], self.ends[k, 2:]
        feet = []
        for tip, other in ((a, b), (b, a)):
            close = self.near((float(tip[0]), float(tip[1])), 1e-4 * self.size[k])
            along = (other - tip) / self.size[k]
            square = [j for j in close if j != k and abs(self._toward(j, along)) <= SQUARE]
            if not (square and self.named[k]) and not self._head(close, k, tip, along, height):
                return None
            # Between two edges of the view a dimension line needs no extension lines.
            ending = [j for j in square if self._ends_near(j, tip, OVERSHOOT * height)]
            longest = max(ending, key=lambda j: float(self.size[j]), default=None)
            feet.append(self._far(longest, tip) if longest is not None else (float(tip[0]), float(tip[1])))
        return feet[0], feet[1]

    def _toward(self, j: int, along: Floats) -> float:
        """Cosine between a segment and a direction."""
        return float((self.ends[j, 2:] - self.ends[j, :2]) @ along) / float(self.size[j])

    def _head(self, close: Iterable[int], k: int, tip: Floats, along: Floats, height: float) -> bool:
        """True if two short edges leave the tip at a slim angle to the line: an arrow head."""
        edges = 0
        for j in close:
            if j == k or self.size[j] > HEAD * height:
                continue
            slim = math.acos(min(1.0, abs(self._toward(j, along))))
            edges += 1e-3 < slim <= SLIM and min(math.dist(tip, e) for e in self.ends[j].reshape(2, 2)) < 0.1 * height
        return edges >= 2

    def _ends_near(self, j: int, tip: Floats, reach: float) -> bool:
        """True if a segment ends at a tip or a little beyond; one that runs on past it belongs to something else."""
        return min(math.dist(tip, e) for e in self.ends[j].reshape(2, 2)) <= reach

    def _far(self, j: int, tip: Floats) -> Point:
        """The end of an extension line that lies farther from the dimension line."""
        x, y = max(self.ends[j].reshape(2, 2).tolist(), key=lambda e: math.dist(e, tip))
        return x, y


def _middle(ends: Floats) -> Point:
    return float(ends[0] + ends[2]) / 2, float(ends[1] + ends[3]) / 2
