"""What matters in a DXF file to a reader of turned parts: segments, dimensions, texts, units.

The one module that opens a DXF fills a `Sheet`; everything behind it works on the arrays here and never
sees a DXF entity. Coordinates are as drawn, in drawing units.
"""

import math
import re
from collections.abc import Callable
from dataclasses import field
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from extractor.finding import Finding, Point
from extractor.values import dataclass

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Flags = npt.NDArray[np.bool_]


class Pen(StrEnum):
    """What the linetype (by entity, layer or pattern) says a line is."""

    SOLID = "solid"
    CENTRE = "centre"
    HIDDEN = "hidden"
    PHANTOM = "phantom"


class Source(NamedTuple):
    """The entity a segment came from: its DXF handle, type, layer and what its linetype says.

    `kind` is "" for a line that is only supposed: nobody drew it.
    `owner` is the kind of composite it was expanded from ("" for none): "INSERT", "DIMENSION", "HATCH",
    "LEADER" and so on. `curve` is true where an ellipse or spline was flattened to chords.
    `role` is what the layer's name says in one of several languages ("centre", "hidden", "dimension", "hatch",
    "border", "text", "thread", "construction" or ""): weak evidence, never enough alone to drop a line.
    `lean`: which way the lines of a hatch run on the sheet, radians from 0 to pi; None where they run more ways than
    one, and for all that is no hatch of lines. `width`: how wide the line is drawn, in drawing units, 0.0 where that
    is left to the plotter; `filled` is true for the border of what is filled with ink.
    """

    handle: str
    kind: str
    layer: str
    pen: Pen = Pen.SOLID
    owner: str = ""
    curve: bool = False
    role: str = ""
    lean: float | None = None
    width: float = 0.0
    filled: bool = False


@dataclass(frozen=True, eq=False)
class Segments:
    """All straight and arc segments of a sheet as arrays of one length. As a sheet they are equal only to themselves.

    `ends`: float (n, 4), start x, start y, end x, end y. `bulge`: float (n,), tangent of a quarter of the arc's
    included angle, positive counter-clockwise from start to end, 0 for a straight segment (the DXF meaning).
    `source`: int (n,), index into `sources`.
    """

    ends: Floats
    bulge: Floats
    source: Ints
    sources: tuple[Source, ...]

    def __post_init__(self) -> None:
        """Refuse arrays that don't belong together."""
        count = len(self.ends)
        if self.ends.shape != (count, 4) or self.bulge.shape != (count,) or self.source.shape != (count,):
            raise ValueError("ends must be (n, 4), bulge and source (n,)")
        if not (np.isfinite(self.ends).all() and np.isfinite(self.bulge).all()):
            raise ValueError("coordinates must be finite")

    def __len__(self) -> int:
        """Number of segments."""
        return len(self.ends)

    @cached_property
    def _looks(self) -> tuple[list[int], Ints]:
        """The first source of each look, all that it says but its handle; and of each segment's, int (n,)."""
        first: dict[tuple[object, ...], int] = {}
        look = np.array([first.setdefault(source[1:], k) for k, source in enumerate(self.sources)], dtype=np.int64)
        return list(first.values()), look[self.source]

    def of(self, fits: Callable[[Source], bool]) -> npt.NDArray[np.bool_]:
        """Which segments come of a source that fits, whatever its handle, bool (n,)."""
        firsts, look = self._looks
        fit = np.zeros(len(self.sources), dtype=bool)
        fit[firsts] = [fits(self.sources[k]) for k in firsts]
        return fit[look]


class Circle(NamedTuple):
    """A full circle as drawn: end views, holes, balloon marks."""

    centre: Point
    radius: float
    source: Source

    @property
    def is_edge(self) -> bool:
        """True for an edge of a part, seen or hidden."""
        return self.source.pen in (Pen.SOLID, Pen.HIDDEN)


Box = tuple[float, float, float, float]
"""Smallest x, smallest y, largest x, largest y."""


class DimensionKind(StrEnum):
    """What a dimension measures."""

    LINEAR = "linear"
    ALIGNED = "aligned"
    DIAMETER = "diameter"
    RADIUS = "radius"
    ANGULAR = "angular"
    ORDINATE = "ordinate"
    LEADER = "leader"


@dataclass(frozen=True)
class Dimension:
    """One dimension as drawn.

    `points`: the measured points on the sheet. `angle`: direction of a linear dimension in degrees. `measured`:
    length in drawing units between the points. `text`: what is printed, markup resolved, None where it is just the
    measured value; "<>" in it stands for the measured value. `factor`: display factor (DIMLFAC). `deviations`: lower,
    upper from the dimension variables. `decimals`: places the measured value is printed with (DIMDEC), -1 if not said.
    A LEADER has its arrow's tip as first point, and the points its line runs through after it. `at`: where its text
    stands, of one taken apart whose line is marked by heads or ticks, and of a size at a leader of loose lines.
    `shown`: the only text of its own picture, "" for a picture with none or several, or for no picture. `drawn`:
    numbers of the sheet's segments that one taken apart is drawn with. `base`: a point on the dimension line of a
    linear one of the file.
    """

    kind: DimensionKind
    points: tuple[Point, ...]
    angle: float
    measured: float
    text: str | None
    factor: float = 1.0
    deviations: tuple[float, float] | None = None
    handle: str = ""
    decimals: int = -1
    at: Point | None = None
    shown: str = ""
    drawn: frozenset[int] = frozenset()
    base: Point | None = None

    @property
    def line(self) -> tuple[Point, Point]:
        """Where the line runs from, and to: at a linear one of the file between its extension lines."""
        if self.base is None:
            return self.points[0], self.points[-1]
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        ways = [(x - self.base[0]) * ux + (y - self.base[1]) * uy for x, y in self.points[:2]]
        (ax, ay), (bx, by) = ((self.base[0] + way * ux, self.base[1] + way * uy) for way in ways)
        return (ax, ay), (bx, by)


LETTER = 0.7
"""Width of a letter over its height, about (ISO 3098, from memory)."""

STACKED = re.compile(r"(\S*)\^\s*(\S*)")
"""Two deviations of one size that stand over each other (DXF reference)."""


@dataclass(frozen=True)
class Text:
    """A note on the sheet: its plain text, where its first line begins, height in drawing units, angle in degrees.

    `tag`: the name by which a block asks for it, "" for a text that is no attribute.
    """

    text: str
    at: Point
    height: float
    layer: str = ""
    handle: str = ""
    angle: float = 0.0
    tag: str = ""

    @property
    def width(self) -> float:
        """About how wide its longest line is; of deviations over one another the longer counts."""
        lines = (STACKED.sub(lambda both: max(both.groups(), key=len), line) for line in self.text.split("\n"))
        return LETTER * self.height * max(map(len, lines))

    @property
    def end(self) -> Point:
        """About where its longest line ends."""
        return self.place(self.width, 0.0)

    def place(self, along: float, up: float) -> Point:
        """The point on the sheet so far along its line and above it, from where it begins."""
        turn = math.radians(self.angle)
        c, s = math.cos(turn), math.sin(turn)
        return self.at[0] + along * c - up * s, self.at[1] + along * s + up * c

    def seen(self, at: Point | Floats) -> Point:
        """How far a point on the sheet lies along its line and above it: the other way round of `place`."""
        turn, x, y = math.radians(self.angle), at[0] - self.at[0], at[1] - self.at[1]
        return x * math.cos(turn) + y * math.sin(turn), y * math.cos(turn) - x * math.sin(turn)


HATCH_LINE = "HATCH LINE"
"""The owner of a hatch line that is drawn as a line of its own, once it is known for one."""

INCHES = 1
"""The code of inches in the header's $INSUNITS (DXF reference)."""


@dataclass(frozen=True, eq=False)
class Sheet:
    """Everything of one drawing that the reader uses. `insunits` and `measurement` are the header's codes or None.

    `around` holds the texts of layouts around a part in model space: the title block; their places are on paper.
    `windows`: paper per model length of each window through which a layout shows it.
    `arrays` are boxes in which more is drawn than is read. `unseen` are ends of straight lines on layers that are off
    or frozen, `masks` the corners of what covers what lies under it.
    A sheet is equal only to itself, so that what was worked out about it can be stored under it.
    """

    file: str
    sha256: str
    segments: Segments
    circles: tuple[Circle, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    texts: tuple[Text, ...] = ()
    insunits: int | None = None
    measurement: int | None = None
    findings: tuple[Finding, ...] = field(default=())
    around: tuple[Text, ...] = ()
    windows: tuple[float, ...] = ()
    arrays: tuple[Box, ...] = ()
    unseen: tuple[tuple[float, float, float, float], ...] = ()
    masks: tuple[tuple[Point, ...], ...] = ()

    @property
    def everywhere(self) -> tuple[Text, ...]:
        """All texts, for what goes by their words alone: the places of those on layouts say nothing of the part."""
        return (*self.texts, *self.around)

    @cached_property
    def measuring(self) -> frozenset[int]:
        """Numbers of the segments that dimensions taken apart are drawn with."""
        return frozenset(k for dimension in self.dimensions for k in dimension.drawn)
