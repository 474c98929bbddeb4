"""Views of a part: from outside, in section, half and half, and the round end view."""

import math
import random
from dataclasses import dataclass

from support.ink import Block, Circle, Hatch, Ink, Line, Path, Point
from support.office.model import Part, Piece, edges, inner_half, outer_half
from support.office.place import Place


@dataclass(frozen=True)
class Look:
    """How an office draws a view.

    `lines`: "whole" lines across at each edge, "split" walls and lines between floors, "smooth" no lines across,
    "path" the whole outline as one closed polyline with lines across.
    """

    lines: str = "whole"
    axis: float = 3.0  # how far the centre line sticks out
    hidden: bool = True  # the bore as hidden lines


def random_look(rng: random.Random) -> Look:
    return Look(rng.choice(("whole", "whole", "split", "split", "smooth", "path")), rng.choice((2.0, 3.0, 5.0)))


def _mirrored(part: Part, place: Place, look: Look) -> list[Ink]:
    """One half drawn as a block and put in place twice, the second time mirrored; for a part that lies along x."""
    pieces: list[Ink] = [place.piece(p, 1) for p in outer_half(part)]
    for s, tip in ((0.0, outer_half(part)[0][0][1]), (part.length, outer_half(part)[-1][1][1])):
        pieces.append(place.line(s, tip, s, 0))
    pieces += [place.line(s, _low(part, s, r), s, 0) for s, r in edges(part)]
    at = place.at(0, 0)
    hidden = bore_lines(part, place, "hidden") if look.hidden else []
    halves = [Block(tuple(pieces), at, at, size=(1.0, side)) for side in (1.0, -1.0)]
    return [*halves, *hidden, axis(part, place, look.axis)]


def _radial(piece: Piece) -> bool:
    p, q, centre = piece
    return centre is None and abs(p[0] - q[0]) < 1e-9


def outside(part: Part, place: Place, look: Look = Look(), lower: Part | None = None) -> list[Ink]:
    """The view from outside; `lower` draws another profile below the axis."""
    halves = [(1, part), (-1, lower or part)]
    if look.lines == "mirrored" and lower is None:
        return _mirrored(part, place, look)
    across = look.lines in ("whole", "path") and lower is None
    found: list[Ink] = []
    if look.lines == "path" and lower is None:
        found.append(Path(tuple(loop(part, place, both=True)), closed=True))
    else:
        for side, half in halves:
            pieces = [p for p in outer_half(half) if not (across and _radial(p))]
            found += [place.piece(p, side) for p in pieces]
    for s, r in edges(part) if lower is None and look.lines != "smooth" else []:
        low = r if look.lines != "split" else _low(part, s, r)
        found.append(place.line(s, low, s, -low))
    if look.lines != "path" or lower is not None:
        for s, first in ((0.0, True), (part.length, False)):
            tips = [outer_half(half)[0 if first else -1][0 if first else 1][1] for _, half in halves]
            found.append(place.line(s, tips[0], s, -tips[1]))
    if look.hidden:
        found += [p for p in bore_lines(part, place, "hidden") if look.hidden]
    return [*found, axis(part, place, look.axis)]


def _low(part: Part, s: float, r: float) -> float:
    """The least radius of the outline at an edge."""
    return min(p[1] for piece in outer_half(part) for p in piece[:2] if abs(p[0] - s) < 1e-7) if r else r


def axis(part: Part, place: Place, out: float) -> Line:
    u = unit(part)
    return place.line(-out * u, 0, part.length + out * u, 0, "centre")


def unit(part: Part) -> float:
    """One millimetre's worth on this part's sheet."""
    return 1.0 if part.units == "mm" else 0.05


def bore_lines(part: Part, place: Place, role: str) -> list[Ink]:
    found: list[Ink] = []
    for side in (1, -1):
        found += [place.piece(p, side, role) for p in inner_half(part)]
    return found


def loop(part: Part, place: Place, both: bool = False, side: int = 1, steps: int = 6) -> list[Point]:
    """Points round the outline: of the whole view, or of one half cut (with its bore)."""
    outer = outer_half(part)
    if both:
        top = _points(outer, steps)
        return [place.at(s, r) for s, r in top] + [place.at(s, -r) for s, r in reversed(top)]
    ring = _points(outer, steps)
    inner = _points(inner_half(part), steps) or [(0.0, 0.0), (part.length, 0.0)]
    if part.bores and inner[-1][0] < part.length - 1e-9:
        inner.append((part.length, 0.0))
    return [place.at(s, side * r) for s, r in ring + inner[::-1]]


def _points(pieces: list[Piece], steps: int) -> list[Point]:
    found: list[Point] = [pieces[0][0]] if pieces else []
    for p, q, centre in pieces:
        if centre is not None:
            a, b = (math.atan2(t[1] - centre[1], t[0] - centre[0]) for t in (p, q))
            sweep = (b - a + math.pi) % (2 * math.pi) - math.pi
            r = math.dist(p, centre)
            mids = (a + sweep * k / steps for k in range(1, steps))
            found += [(centre[0] + r * math.cos(t), centre[1] + r * math.sin(t)) for t in mids]
        found.append(q)
    return found


def section(part: Part, place: Place, look: Look = Look(), lower_outside: bool = False) -> list[Ink]:
    """Cut along the axis, hatched; with `lower_outside` a half section (lower half from outside)."""
    found: list[Ink] = []
    sides = (1,) if lower_outside else (1, -1)
    outer, inner = outer_half(part), inner_half(part)
    for side in (1, -1):
        found += [place.piece(p, side) for p in outer]
        found += [place.piece(p, side) for p in inner if side in sides]
    for s, tip, hole in _faces(part, outer, inner):
        for side in (1, -1):
            start = hole if side in sides else 0.0
            found.append(place.line(s, side * start, s, side * tip))
        if hole:
            found.append(place.line(s, hole, s, 0.0 if lower_outside else -hole))
    if lower_outside:
        for s, r in edges(part):
            low = _low(part, s, r)
            found.append(place.line(s, 0, s, -low))
    for g in part.inside():
        for s in (g.near, g.far):
            bore = part.bores[0][1] / 2
            found.append(place.line(s, bore, s, 0.0 if lower_outside else -bore))
    loops = tuple(tuple(loop(part, place, side=side)) for side in sides)
    return [*found, Hatch(loops, 2.5 * unit(part)), axis(part, place, look.axis)]


def _faces(part: Part, outer: list[Piece], inner: list[Piece]) -> list[tuple[float, float, float]]:
    """The two end faces: (s, outer radius, radius of the hole there)."""
    through = bool(inner) and abs(inner[-1][1][1]) > 1e-9
    front_hole = inner[0][0][1] if inner else 0.0
    return [(0.0, outer[0][0][1], front_hole), (part.length, outer[-1][1][1], inner[-1][1][1] if through else 0.0)]


def end_view(part: Part, centre: Point, scale: float = 1.0) -> list[Ink]:
    """Circles as seen at the front end, with crossed centre lines."""
    radii = {round(d / 2, 6) for _, d in part.steps} | {round(d / 2, 6) for _, d in part.bores}
    big = max(radii) * scale
    found: list[Ink] = [Circle(centre, r * scale) for r in sorted(radii)]
    return [*found, *crossed(centre, big + 3 * unit(part))]


def crossed(centre: Point, reach: float) -> list[Line]:
    x, y = centre
    return [Line((x - reach, y), (x + reach, y), "centre"), Line((x, y - reach), (x, y + reach), "centre")]


def isometric(part: Part, centre: Point, scale: float) -> list[Ink]:
    """The solid seen along (1,1,1): its edge circles as ellipses of many chords, and the two sides of each cylinder."""
    found: list[Ink] = []
    ax, ay = math.cos(math.radians(30)), math.sin(math.radians(30))

    def flat(s: float, y: float, z: float) -> Point:
        return centre[0] + scale * ax * (s - y), centre[1] + scale * (ay * (s + y) * -1 + z)

    def ring(s: float, r: float, role: str) -> Path:
        turns = [2 * math.pi * k / 48 for k in range(48)]
        return Path(tuple(flat(s, r * math.cos(t), r * math.sin(t)) for t in turns), closed=True, role=role)

    start = 0.0
    for end, d in part.steps:
        r = d / 2
        found += [ring(start, r, "outline"), ring(end, r, "outline")]
        for side in (1, -1):
            t = math.radians(135) + (0 if side == 1 else math.pi)  # where the silhouette touches the ring
            found.append(
                Line(flat(start, r * math.cos(t), r * math.sin(t)), flat(end, r * math.cos(t), r * math.sin(t)))
            )
        start = end
    for g in part.outside():
        found += [ring(g.near, g.floor / 2, "outline"), ring(g.far, g.floor / 2, "outline")]
    return found
