"""A plain drawer of turned parts: grooves in, entities in the usual drawing styles out, with the ground truth.

It shares no code with the reader. A part is a list of steps (length, diameter) from the front face back, and grooves
cut into it; z is 0 at the front face and falls toward the chuck. Drawn with the front face to the right unless turned.

      half_profile      full_outline       side_view       section (bored)
      ____   ____        ____   ____       ____   ____       ____   ____
     |    |_|    |      |    |_|    |     |    |_|    |     |    |_|    |
     |           |      |           |     |    | |    |     |___________|
    -+- - - - - -+-    -+- - - - - -+-   -+- - + + - -+-   -+- - - - - -+-
                        |     _     |     |    |_|    |      ___________
                        |____| |____|     |____| |____|     |     _     |
                                                            |____| |____|
"""

import math
from dataclasses import dataclass, field, replace
from pathlib import Path

import ezdxf
import numpy as np

from extractor.sheet import Pen, Segments, Sheet, Source

QUARTER = math.tan(math.pi / 8)


@dataclass(frozen=True)
class Cut:
    """A rectangular groove: near wall z, width, floor diameter, floor corner radius, mouth chamfer."""

    z: float
    width: float
    floor: float
    corner: float = 0.0
    chamfer: float = 0.0


@dataclass(frozen=True)
class Turned:
    """A turned part: steps (length, diameter) from the front, grooves, bore diameter (through), end chamfer."""

    steps: tuple[tuple[float, float], ...]
    cuts: tuple[Cut, ...] = ()
    bore: float = 0.0
    chamfer: float = 0.0

    @property
    def length(self):
        return sum(step for step, _ in self.steps)

    def diameter_at(self, z):
        at = 0.0
        for length, diameter in self.steps:
            if at >= z >= at - length:
                return diameter
            at -= length
        raise ValueError(z)

    def half(self):
        """The upper half from front to back as (z, r, bulge to the next point), without the closing end faces."""
        points = []
        z = 0.0
        cuts = sorted(self.cuts, key=lambda c: -c.z)
        for k, (length, diameter) in enumerate(self.steps):
            r = diameter / 2
            c = self.chamfer if k == 0 else 0.0
            points += [(z, r - c, 0.0), (z - c, r, 0.0)] if c else [(z, r, 0.0)]
            while cuts and cuts[0].z > z - length:
                points += groove_points(cuts.pop(0), r)
            z -= length
            points.append((z, r, 0.0))
        return points


@dataclass(frozen=True)
class Drawn:
    """A part given by its corners (z, r, bulge to the next) from front to back, for shapes that `Turned` can't say."""

    corners: tuple
    bore: float = 0.0

    @property
    def length(self):
        return self.corners[0][0] - self.corners[-1][0]

    def half(self):
        return [(*c, 0.0)[:3] for c in self.corners]


def groove_points(cut, r):
    """One groove from near land to far land as (z, r, bulge)."""
    n, f, b, c, q = cut.z, cut.z - cut.width, cut.floor / 2, cut.chamfer, cut.corner
    points = [(n + c, r, 0.0), (n, r - c, 0.0)] if c else [(n, r, 0.0)]
    points += (
        [(n, b + q, -QUARTER), (n - q, b, 0.0), (f + q, b, -QUARTER), (f, b + q, 0.0)]
        if q
        else [
            (n, b, 0.0),
            (f, b, 0.0),
        ]
    )
    points += [(f, r - c, 0.0), (f - c, r, 0.0)] if c else [(f, r, 0.0)]
    return points


@dataclass
class Ink:
    """Entities as plain tuples: `solid`, `centre`, `hidden` of (x0, y0, x1, y1, bulge)."""

    solid: list = field(default_factory=list)
    centre: list = field(default_factory=list)
    hidden: list = field(default_factory=list)

    def chain(self, points, close=False):
        """Add a run of (x, y, bulge) points to the solid lines."""
        pairs = list(zip(points, points[1:] + points[:1], strict=True))
        for (x0, y0, b), (x1, y1, _) in pairs if close else pairs[:-1]:
            if (x0, y0) != (x1, y1):
                self.solid.append((x0, y0, x1, y1, b))
        return self

    def map(self, move):
        """Every point through `move`; a move that mirrors must be given with `flip`."""
        turned = _turns(move)
        return Ink(*([_moved(e, move, turned) for e in group] for group in (self.solid, self.centre, self.hidden)))


def _turns(move):
    ox, oy = move(0.0, 0.0)
    ax, ay = move(1.0, 0.0)
    bx, by = move(0.0, 1.0)
    return 1 if (ax - ox) * (by - oy) - (ay - oy) * (bx - ox) > 0 else -1


def _moved(entity, move, turned):
    x0, y0, x1, y1, b = entity
    return (*move(x0, y0), *move(x1, y1), turned * b)


def half_profile(part, centre=5.0):
    """Upper half above a centre line, closed down to it at both ends (or to the bore)."""
    points = part.half()
    r = part.bore / 2
    ink = Ink().chain([(0.0, r, 0.0), *points, (-part.length, r, 0.0)], close=bool(r))
    return with_centre(ink, part, centre)


def with_centre(ink, part, centre):
    """Add a centre line that sticks out by `centre`; None for no line."""
    if centre is not None:
        ink.centre.append((centre, 0.0, -part.length - centre, 0.0, 0.0))
    return ink


def full_outline(part, centre=5.0):
    """Both halves as one closed outline."""
    upper = part.half()
    lower = [(z, -r, 0.0) for z, r, _ in reversed(upper)]
    bulges = [*[b for _, _, b in reversed(upper)][1:], 0.0]
    lower = [(z, r, b) for (z, r, _), b in zip(lower, bulges, strict=True)]
    return with_centre(Ink().chain([*upper, *lower], close=True), part, centre)


def side_view(part, centre=5.0):
    """Both silhouettes, broken at each crossing, and a line right across at every corner."""
    ink = full_outline(part, centre)
    for z, r in sorted({(z, r) for z, r, _ in part.half()}):
        ink.solid.append((z, -r, z, r, 0.0))
    return ink


def section(part, centre=5.0):
    """Both halves as closed loops that don't touch the axis."""
    ink = half_profile(part, None)
    lower = ink.map(lambda x, y: (x, -y))
    return with_centre(Ink(ink.solid + lower.solid), part, centre)


def mixed(*inks):
    """Several inks on one sheet."""
    return Ink(*([e for ink in inks for e in getattr(ink, pen)] for pen in ("solid", "centre", "hidden")))


def box(x0, y0, x1, y1):
    """A plain rectangle."""
    return Ink().chain([(x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)], close=True)


def shifted(x, y):
    """A move by (x, y)."""
    return lambda px, py: (px + x, py + y)


def rotated(degrees, x=0.0, y=0.0):
    """A turn about the origin, then a move by (x, y)."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return lambda px, py: (px * c - py * s + x, px * s + py * c + y)


def sheet_of(ink, move=lambda x, y: (x, y), **more):
    """A Sheet built by hand from the ink."""
    ink = ink.map(move)
    pens = [(Pen.SOLID, ink.solid), (Pen.CENTRE, ink.centre), (Pen.HIDDEN, ink.hidden)]
    sources = tuple(Source(f"{i:X}", "LINE", "0", pen) for i, (pen, _) in enumerate(pens))
    rows = [(e, i) for i, (_, group) in enumerate(pens) for e in group]
    data = np.array([e for e, _ in rows], dtype=float).reshape(-1, 5)
    segments = Segments(data[:, :4], data[:, 4], np.array([i for _, i in rows], dtype=np.int64), sources)
    return Sheet("hand.dxf", "0" * 64, segments, **{k: tuple(v) if isinstance(v, list) else v for k, v in more.items()})


def write_dxf(ink, path: Path, version="R2010", move=lambda x, y: (x, y)):
    """Write the ink as LINE and ARC entities."""
    doc = ezdxf.new(version, setup=True)
    doc.header["$INSUNITS"] = 4
    msp = doc.modelspace()
    ink = ink.map(move)
    for group, linetype in ((ink.solid, "Continuous"), (ink.centre, "CENTER"), (ink.hidden, "DASHED")):
        for x0, y0, x1, y1, b in group:
            if b == 0:
                msp.add_line((x0, y0), (x1, y1), dxfattribs={"linetype": linetype})
            else:
                centre, start, end, radius = ezdxf.math.bulge_to_arc((x0, y0), (x1, y1), b)
                msp.add_arc(centre, radius, math.degrees(start), math.degrees(end), dxfattribs={"linetype": linetype})
    doc.saveas(path)
    return path


def shaft(**change):
    """A part with three even grooves, used where any part will do."""
    part = Turned(((60.0, 40.0),), tuple(Cut(-10.0 - 8 * k, 3.0, 34.0) for k in range(3)))
    return replace(part, **change)
