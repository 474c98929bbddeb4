"""A turned part as exact numbers: steps, grooves, bore. `s` is the distance behind the front, all diameters full."""

import math
from dataclasses import dataclass, replace

from support.ink import Point

Piece = tuple[
    Point, Point, Point | None
]  # from, to, centre of the arc between (None: straight); points are (s, radius)
TAN15 = math.tan(math.radians(15))


@dataclass(frozen=True)
class Groove:
    """`near` is the mouth's edge nearer the front; `shape`: rectangular, rounded (at the floor), vee, undercut."""

    near: float
    width: float
    floor: float
    where: str = "outside"
    shape: str = "rectangular"
    radius: float = 0.0

    @property
    def far(self) -> float:
        return self.near + self.width


@dataclass(frozen=True)
class Part:
    """`steps` are (end, diameter) from the front on; `bores` are (depth, diameter), widest first."""

    steps: tuple[tuple[float, float], ...]
    grooves: tuple[Groove, ...] = ()
    bores: tuple[tuple[float, float], ...] = ()
    chamfers: tuple[float, float] = (0.0, 0.0)
    units: str = "mm"

    @property
    def length(self) -> float:
        return self.steps[-1][0]

    @property
    def diameter(self) -> float:
        return max(d for _, d in self.steps)

    def land(self, s: float) -> float:
        """Diameter of the land at a distance from the front."""
        return next(d for end, d in self.steps if s < end + 1e-9)

    def outside(self) -> tuple[Groove, ...]:
        return tuple(sorted((g for g in self.grooves if g.where == "outside"), key=lambda g: g.near))

    def inside(self) -> tuple[Groove, ...]:
        return tuple(sorted((g for g in self.grooves if g.where == "inside"), key=lambda g: g.near))

    def with_groove(self, old: Groove, new: Groove | None) -> "Part":
        """The same with one groove changed or left out."""
        kept = tuple(new if g is old else g for g in self.grooves)
        return replace(self, grooves=tuple(g for g in kept if g is not None))


def hollow(g: Groove, left: float, right: float) -> list[Piece]:
    """Pieces of one groove from the near edge to the far edge; `left` and `right` are the mouth's radii."""
    f, sign = g.floor / 2, 1 if g.where == "outside" else -1
    if g.shape == "vee":
        apex = (g.near + g.width / 2, f)
        return [((g.near, left), apex, None), (apex, (g.far, right), None)]
    if g.shape == "undercut":  # DIN 509 form E: ramp of 15 degrees, flat, quarter arc up to the shoulder
        ramp, r = (left - f) / TAN15, g.radius
        flat, foot, top = (g.near + ramp, f), (g.far - r, f), (g.far, f + r)
        return [
            ((g.near, left), flat, None),
            (flat, foot, None),
            (foot, top, (g.far - r, f + r)),
            (top, (g.far, right), None),
        ]
    r = g.radius
    if r <= 0:
        a, b = (g.near, f), (g.far, f)
        return [((g.near, left), a, None), (a, b, None), (b, (g.far, right), None)]
    up = sign * r
    p, q, u, v = (g.near, f + up), (g.near + r, f), (g.far - r, f), (g.far, f + up)
    pieces: list[Piece] = [((g.near, left), p, None), (p, q, (g.near + r, f + up))]
    if v[0] - p[0] > 2 * r + 1e-9:
        pieces.append((q, u, None))
    return [*pieces, (u, v, (g.far - r, f + up)), (v, (g.far, right), None)]


def outer_half(part: Part) -> list[Piece]:
    """The outside from the front's chamfer to the back's, without the faces."""
    here: Point = (part.chamfers[0], part.steps[0][1] / 2)
    pieces: list[Piece] = []
    if part.chamfers[0]:
        pieces.append(((0.0, part.steps[0][1] / 2 - part.chamfers[0]), here, None))
    grooves = list(part.outside())
    for index, (end, d) in enumerate(part.steps):
        if abs(here[1] - d / 2) > 1e-9:
            pieces.append((here, (here[0], d / 2), None))
            here = (here[0], d / 2)
        last = index == len(part.steps) - 1
        while grooves and grooves[0].near < end - 1e-9:
            g = grooves.pop(0)
            after = part.steps[index + 1][1] if not last and abs(g.far - end) < 1e-9 else d
            if g.near > here[0] + 1e-9:
                pieces.append((here, (g.near, d / 2), None))
            pieces += hollow(g, d / 2, after / 2)
            here = (g.far, after / 2)
        stop = end - (part.chamfers[1] if last else 0.0)
        if stop > here[0] + 1e-9:
            pieces.append((here, (stop, d / 2), None))
            here = (stop, d / 2)
    if part.chamfers[1]:
        pieces.append((here, (part.length, here[1] - part.chamfers[1]), None))
    return pieces


def inner_half(part: Part) -> list[Piece]:
    """The bore from the front on, with its floor where it is blind; empty without a bore."""
    if not part.bores:
        return []
    here: Point = (0.0, part.bores[0][1] / 2)
    pieces: list[Piece] = []
    grooves = list(part.inside())
    for depth, d in part.bores:
        if abs(here[1] - d / 2) > 1e-9:
            pieces.append((here, (here[0], d / 2), None))
            here = (here[0], d / 2)
        while grooves and grooves[0].near < depth - 1e-9:
            g = grooves.pop(0)
            pieces += [(here, (g.near, d / 2), None), *hollow(g, d / 2, d / 2)]
            here = (g.far, d / 2)
        pieces.append((here, (depth, d / 2), None))
        here = (depth, d / 2)
    if here[0] < part.length - 1e-9:
        pieces.append((here, (here[0], 0.0), None))
    return pieces


def edges(part: Part) -> list[tuple[float, float]]:
    """Where the outside has a sharp corner: (s, radius) of the circle that shows as a line across, the widest per s."""
    found: dict[float, float] = {}
    for p, q, centre in outer_half(part):
        for s, r in (p, q):
            if centre is None and 1e-6 < s < part.length - 1e-6:
                key = round(s, 7)
                found[key] = max(found.get(key, 0.0), r)
    return sorted(found.items())
