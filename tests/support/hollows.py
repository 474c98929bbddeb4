"""Recesses that plain plunges don't make, drawn as true lines and arcs and read as drawings are; with the true line.

A recess is a run of corners (`support.independent.parts.Corner`) from its near mouth to its far one, z from the near
wall toward the chuck, radius from the mouth (negative is into the metal). `KINDS` makes one of each kind from random
numbers; `drawn` reads a part with some of them, on the outside or in a bore; `true_line` is what must be left.
"""

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from extractor.part import Part, ReadOptions
from extractor.reading import read_sheet
from support import draw
from support.independent.parts import Bent, Corner, bend

Run = tuple[Corner, ...]


@dataclass(frozen=True)
class Drawn:
    """A part as read, the true outside or bore as corners with bulges, and where the recesses are: "outside" or so."""

    part: Part | None
    findings: tuple[str, ...]
    corners: tuple[Corner, ...]
    units: str
    where: str

    @property
    def line(self) -> tuple[Bent, ...]:
        """The true line with its arcs as bulges."""
        return _bent(self.corners, self.units)

    def left_true(self, radius: float) -> list[tuple[float, float]]:
        """The true line as an insert of a corner radius may leave it: that radius in hollow corners drawn sharp."""
        round_ = radius * (1.0 if self.units == "mm" else 25.4)
        sign = 1 if self.where == "outside" else -1
        filled = [
            replace(b, round=round_)
            if not (b.round or b.chamfer or a.bulge or b.bulge) and _hollow(a, b, c, sign)
            else b
            for a, b, c in zip(self.corners, self.corners[1:], self.corners[2:], strict=False)
        ]
        return true_line(_bent((self.corners[0], *filled, self.corners[-1]), self.units))


def rounded(rng: random.Random) -> Run:
    """Upright walls, level floor, round corners."""
    width, deep = rng.uniform(3, 12), rng.uniform(1, 5)
    radius = rng.uniform(0.5, min(width / 2, deep) * 0.95)
    rim = rng.choice([0.0, 0.0, 0.3]) if deep - radius > 1.0 else 0.0
    return (
        Corner(0, 0, chamfer=rim),
        Corner(0, -deep, round=radius),
        Corner(-width, -deep, round=radius),
        Corner(-width, 0, chamfer=rim),
    )


def full_radius(rng: random.Random) -> Run:
    """Upright walls over half a circle."""
    width = rng.uniform(2, 8)
    deep = width / 2 + rng.uniform(0.2, 3)
    return (
        Corner(0, 0),
        Corner(0, -deep + width / 2, bulge=-1.0),
        Corner(-width, -deep + width / 2),
        Corner(-width, 0),
    )


def arc(rng: random.Random) -> Run:
    """One arc from land to land."""
    width = rng.uniform(2, 12)
    deep = rng.uniform(0.15, 0.5) * width
    return Corner(0, 0, bulge=-2 * deep / width), Corner(-width, 0)


def blunt_vee(rng: random.Random) -> Run:
    """Sloping walls and a round tip."""
    width, half = rng.uniform(2, 10), math.radians(rng.uniform(20, 60))
    deep = width / 2 / math.tan(half)
    radius = rng.uniform(0.1, 0.6) * width / 2
    return Corner(0, 0), Corner(-width / 2, -deep, round=radius), Corner(-width, 0)


def tapered(rng: random.Random) -> Run:
    """Sloping walls, level floor, corners sharp or round."""
    deep, floor = rng.uniform(0.8, 5), rng.uniform(0.5, 6)
    one, two = (deep * rng.uniform(0.1, 2.0) for _ in range(2))
    if rng.random() < 0.5:
        two = one
    radius = rng.choice([0.0, rng.uniform(0.2, 0.9) * min(floor, deep) / 2])
    return (
        Corner(0, 0),
        Corner(-one, -deep, round=radius),
        Corner(-one - floor, -deep, round=radius),
        Corner(-one - floor - two, 0),
    )


def lopsided(rng: random.Random) -> Run:
    """One wall upright and one leaning, or a floor that isn't level."""
    deep, floor, run = rng.uniform(1, 4), rng.uniform(1.5, 7), rng.uniform(0.3, 5)
    fall = rng.choice([0.0, rng.uniform(0.1, 0.6)])
    radius = rng.choice([0.0, 0.3, 0.8])
    run_of = (
        Corner(0, 0),
        Corner(0, -deep - fall, round=min(radius, floor / 3, deep / 2)),
        Corner(-floor, -deep, round=min(radius, floor / 3, deep / 2) if not fall else 0.0),
        Corner(-floor - run, 0),
    )
    return run_of if rng.random() < 0.5 else _mirrored(run_of)


def _mirrored(run: Run) -> Run:
    width = -run[-1].z
    turned = [replace(corner, z=-width - corner.z) for corner in reversed(run)]
    return tuple(turned)


KINDS = {f.__name__: f for f in (rounded, full_radius, arc, blunt_vee, tapered, lopsided)}


def drawn(
    runs: Sequence[Run],
    mouth: float,
    units: str = "mm",
    where: str = "outside",
    gap: float = 6.0,
    first: float = -8.0,
    behind: float = 20.0,
) -> Drawn:
    """A part with some recesses in the outside of this radius or in the bore of it, drawn and read."""
    corners = placed(runs, mouth, where, gap, first, behind)
    reading = read_sheet(draw.sheet_of(inked(corners, units, where)), ReadOptions(units=units))
    findings = tuple(f"{f.level}: {f.message}" for f in reading.findings)
    return Drawn(reading.part, findings, corners, units, where)


def placed(
    runs: Sequence[Run],
    mouth: float,
    where: str = "outside",
    gap: float = 6.0,
    first: float = -8.0,
    behind: float = 20.0,
) -> tuple[Corner, ...]:
    """The corners of the outside or the bore from front to back: where the first recess is, the land behind."""
    corners, z, sign = [Corner(0.0, mouth)], first, 1 if where == "outside" else -1
    for run in runs:
        corners += [replace(c, z=z + c.z, r=mouth + sign * c.r, bulge=sign * c.bulge) for c in run]
        z += run[-1].z - gap
    return (*corners, Corner(z + gap - behind, mouth))


def inked(corners: Sequence[Corner], units: str, where: str) -> draw.Ink:
    """A side view of a solid part, or a section of a hollow one."""
    line = _bent(corners, units)
    if where == "outside":
        return draw.side_view(draw.Drawn(line))
    skin = max(r for _, r, _ in line) + 6 * (1.0 if units == "mm" else 1 / 25.4)
    half = draw.Ink().chain([*line, (line[-1][0], skin, 0.0), (0.0, skin, 0.0)], close=True)
    return draw.with_centre(draw.mixed(half, half.map(lambda x, y: (x, -y))), draw.Drawn(line), 5.0)


def _bent(corners: Sequence[Corner], units: str) -> tuple[Bent, ...]:
    """Corners worked out, in drawing units."""
    scale = 1.0 if units == "mm" else 1 / 25.4
    return tuple((z * scale, r * scale, b) for z, r, b in bend(list(corners)))


def _hollow(a: Corner, b: Corner, c: Corner, sign: int) -> bool:
    """True if the metal fills the corner at b: running toward the chuck with the metal below, a turn to the right."""
    return sign * ((b.z - a.z) * (c.r - b.r) - (b.r - a.r) * (c.z - b.z)) < -1e-9


def true_line(line: Sequence[Bent], step: float = math.pi / 720) -> list[tuple[float, float]]:
    """Points (z, radius) of a line with bulges, arcs in steps of a quarter of a degree."""
    found = [line[0][:2]]
    for (z0, r0, bulge), (z1, r1, _) in pairwise(line):
        if bulge:
            sweep, chord = 4 * math.atan(bulge), math.hypot(z1 - z0, r1 - r0)
            radius = chord / (2 * math.sin(abs(sweep) / 2))
            off = math.copysign(math.sqrt(max(0.0, radius**2 - chord**2 / 4)), bulge) * (1 if abs(bulge) <= 1 else -1)
            centre = ((z0 + z1) / 2 - off * (r1 - r0) / chord, (r0 + r1) / 2 + off * (z1 - z0) / chord)
            first = math.atan2(r0 - centre[1], z0 - centre[0])
            count = max(2, math.ceil(abs(sweep) / step))
            found += [
                (
                    centre[0] + radius * math.cos(first + sweep * i / count),
                    centre[1] + radius * math.sin(first + sweep * i / count),
                )
                for i in range(1, count)
            ]
        found.append((z1, r1))
    return found
