"""Random turned parts as exact numbers, for sheets that a general CAD program draws of their solids.

`s` is the distance behind the front face; diameters are full; a half profile is a list of pieces (from, over, to), each
point (s, radius), `over` None for a straight one and a point of the arc otherwise. Nothing here stems from the tool.
"""

import math
import random
from dataclasses import asdict, dataclass, field, replace
from itertools import pairwise
from typing import Any

XY = tuple[float, float]
Piece = tuple[XY, XY | None, XY]
TAN15 = math.tan(math.radians(15))


@dataclass(frozen=True)
class CadRing:
    """A groove: `near`, `far` walls behind the front face, `floor` a diameter; a face's: wall diameters and depth.

    `form`: square, round (corners at the floor), vee, undercut (ramp, floor, arc into a shoulder), bevelled (mouth).
    """

    where: str
    near: float
    far: float
    floor: float
    form: str = "square"
    size: float = 0.0


@dataclass(frozen=True)
class CadShape:
    """A turned part. `steps`, `bores`: (end, diameter) from the front on; a blind bore ends before the length."""

    kind: str
    units: str
    steps: list[tuple[float, float]]
    rings: list[CadRing] = field(default_factory=list)
    bores: list[tuple[float, float]] = field(default_factory=list)
    chamfer: float = 0.0
    fillets: dict[str, float] = field(default_factory=dict)
    cuts: list[dict[str, Any]] = field(default_factory=list)
    thread: tuple[float, float, float] | None = None

    @property
    def length(self) -> float:
        return self.steps[-1][0]

    @property
    def diameter(self) -> float:
        return max(d for _, d in self.steps)

    def of(self, where: str) -> list[CadRing]:
        return sorted((r for r in self.rings if r.where == where), key=lambda r: r.near)

    def data(self) -> dict[str, Any]:
        """What the program that draws is given."""
        return {**asdict(self), "outside": outside(self), "inside": inside(self), "length": self.length}


def _level(steps: list[tuple[float, float]], s: float) -> float:
    return next(d for end, d in steps if s < end - 1e-9 or end == steps[-1][0]) / 2


def _hollow(ring: CadRing, left: float, right: float) -> list[Piece]:
    """Pieces of a groove of the outside or the bore, near to far; `left`, `right`: radii of the lands beside it."""
    a, b, f, k = ring.near, ring.far, ring.floor / 2, ring.size
    out = 1.0 if f < left else -1.0
    if ring.form == "vee":
        apex = ((a + b) / 2, f)
        return [((a, left), None, apex), (apex, None, (b, right))]
    if ring.form == "undercut":
        flat, foot, top = (a + (left - f) / TAN15, f), (b - k, f), (b, f + k)
        bend = (b - k + k * math.sin(math.pi / 4), f + k - k * math.cos(math.pi / 4))
        return [((a, left), None, flat), (flat, None, foot), (foot, bend, top), (top, None, (b, right))]
    if ring.form == "bevelled":
        tops = [(a - k, left), (a, left - out * k), (a, f), (b, f), (b, right - out * k), (b + k, right)]
        return [(p, None, q) for p, q in pairwise(tops)]
    if ring.form == "round":
        h = k * (1 - math.sqrt(0.5))
        up, low = f + out * k, f + out * h
        return [
            ((a, left), None, (a, up)),
            ((a, up), (a + h, low), (a + k, f)),
            ((a + k, f), None, (b - k, f)),
            ((b - k, f), (b - h, low), (b, up)),
            ((b, up), None, (b, right)),
        ]
    return [((a, left), None, (a, f)), ((a, f), None, (b, f)), ((b, f), None, (b, right))]


def _run(steps: list[tuple[float, float]], rings: list[CadRing], start: XY) -> list[Piece]:
    """Along stepped lands with their grooves, from a start point to the end of the last step."""
    pieces: list[Piece] = []
    here = start
    left = list(rings)
    for number, (end, diameter) in enumerate(steps):
        r = diameter / 2
        if here[1] != r:
            here = _join(pieces, here, (here[0], r))
        while left and left[0].near < end - 1e-9:
            ring = left.pop(0)
            edge = ring.size if ring.form == "bevelled" else 0.0
            beyond = r if ring.far < end - 1e-9 else steps[number + 1][1] / 2
            here = _join(pieces, here, (ring.near - edge, r))
            pieces += _hollow(ring, r, beyond)
            here = (ring.far + edge, beyond)
        if here[0] < end - 1e-9:
            here = _join(pieces, here, (end, r))
    return [_rounded(p) for p in pieces]


def _filleted(shape: CadShape, pieces: list[Piece]) -> list[Piece]:
    """With a radius put into the inner corner before a shoulder that carries one (key: s of the shoulder)."""
    done: list[Piece] = []
    for p, over, q in pieces:
        k = shape.fillets.get(f"{p[0]:.4f}", 0.0)
        rises = over is None and p[0] == q[0] and q[1] > p[1]
        if k and rises and done and done[-1][1] is None and done[-1][2] == p and done[-1][0][1] == p[1]:
            before = done.pop()
            done.append((before[0], None, (p[0] - k, p[1])))
            bend = (p[0] - k + k * math.sin(math.pi / 4), p[1] + k - k * math.cos(math.pi / 4))
            done += [((p[0] - k, p[1]), bend, (p[0], p[1] + k)), ((p[0], p[1] + k), None, q)]
        else:
            done.append((p, over, q))
    return done


def _rounded(piece: Piece) -> Piece:
    def at(p: XY) -> XY:
        return round(p[0], 9), round(p[1], 9)

    return at(piece[0]), at(piece[1]) if piece[1] else None, at(piece[2])


def _join(pieces: list[Piece], here: XY, there: XY) -> XY:
    if math.dist(here, there) > 1e-9:
        pieces.append((here, None, there))
    return there


def outside(shape: CadShape) -> list[Piece]:
    """The upper half from the front face's rim to the back face's, chamfers at both; faces with their grooves."""
    c, end = shape.chamfer, shape.length
    first, last = shape.steps[0][1] / 2, shape.steps[-1][1] / 2
    inner = shape.bores[0][1] / 2 if shape.bores else 0.0
    front: list[Piece] = []
    here = (0.0, inner)
    for ring in sorted(shape.of("face"), key=lambda r: r.far):
        low, high, deep = ring.far / 2, ring.near / 2, ring.floor
        for there in ((0.0, low), (deep, low), (deep, high), (0.0, high)):
            here = _join(front, here, there)
    here = _join(front, here, (0.0, first - c))
    body = _filleted(shape, _run(shape.steps, shape.of("outside"), (c, first)))
    if c:
        front.append((here, None, (c, first)))
        body[-1] = (body[-1][0], None, (end - c, last))
        body.append(((end - c, last), None, (end, last - c)))
    back = _back_radius(shape)
    return [*front, *body, ((end, last - c), None, (end, back))]


def _back_radius(shape: CadShape) -> float:
    through = shape.bores and shape.bores[-1][0] >= shape.length - 1e-9
    return shape.bores[-1][1] / 2 if through else 0.0


def inside(shape: CadShape) -> list[Piece]:
    """The bore from the front face to its end on the axis or at the back face."""
    if not shape.bores:
        return []
    pieces = _run(shape.bores, shape.of("inside"), (0.0, shape.bores[0][1] / 2))
    if not _back_radius(shape):
        end, d = shape.bores[-1]
        pieces.append(((end, d / 2), None, (end, 0.0)))
    return pieces


@dataclass
class _Maker:
    """Draws the numbers of one part: lengths of a mm part on a grid of 0.25, of an inch part of 0.0125."""

    rng: random.Random
    units: str

    @property
    def unit(self) -> float:
        return 1.0 if self.units == "mm" else 0.05

    def pick(self, low: float, high: float, grid: float = 0.25) -> float:
        """A random length between two given in the sizes of an mm part."""
        count = round((high - low) / grid)
        return round((low + grid * self.rng.randint(0, max(count, 0))) * self.unit, 6)

    def some(self, *mm: float) -> float:
        return round(self.rng.choice(mm) * self.unit, 6)


def _lands(m: _Maker, kind: str) -> list[tuple[float, float]]:
    rng, s = m.rng, 0.0
    if kind == "disc":
        return [(m.pick(14, 26), m.pick(60, 110, 1))]
    if kind == "flange":
        thick, hub = m.pick(8, 16), m.pick(18, 45)
        wide, narrow = m.pick(60, 100, 1), m.pick(28, 44, 1)
        order = [(thick, wide), (hub, narrow)] if rng.random() < 0.5 else [(hub, narrow), (thick, wide)]
    else:
        d = m.pick(16, 40, 1)
        order = []
        for _ in range(rng.randint(1, 4)):
            order.append((m.pick(14, 45), d))
            d = round(d + m.pick(3, 14, 0.5), 6)
        if len(order) > 2 and rng.random() < 0.4:  # the widest land between lower ones
            order[-1], order[-2] = order[-2], order[-1]
        if rng.random() < 0.3:
            order.reverse()
    steps = []
    for long, d in order:
        s = round(s + long, 6)
        steps.append((s, d))
    return steps


def _rings_along(m: _Maker, steps: list[tuple[float, float]], where: str, share: float) -> list[CadRing]:
    """Grooves on the lands: single, rows at one pitch, irregular ones, reliefs at a shoulder."""
    rings: list[CadRing] = []
    start = 0.0
    for k, (end, d) in enumerate(steps):
        low, high, start = start + 3 * m.unit, end - 3 * m.unit, end
        shoulder = k + 1 < len(steps) and (steps[k + 1][1] > d) == (where == "outside")
        if m.rng.random() > share:
            continue
        if shoulder and m.rng.random() < 0.35:
            rings.append(_relief(m, end, d, where, steps[k + 1][1]))
            high = rings[-1].near - 2 * m.unit
        rings += _rows(m, low, high, d, where)
    return rings


def _relief(m: _Maker, end: float, d: float, where: str, beyond: float) -> CadRing:
    width, deep = m.some(2, 2.5, 3), m.some(0.5, 0.75, 1)
    sign = 1 if where == "outside" else -1
    if where == "outside" and m.rng.random() < 0.4 and beyond - d >= 3 * m.unit:
        deep, k = m.some(0.2, 0.3), m.some(0.6, 0.8)
        return CadRing(where, round(end - m.some(2.5, 4), 6), end, round(d - 2 * deep, 6), "undercut", k)
    return CadRing(where, round(end - width, 6), end, round(d - sign * 2 * deep, 6))


def _rows(m: _Maker, low: float, high: float, d: float, where: str) -> list[CadRing]:
    rng, rings = m.rng, []
    sign = 1 if where == "outside" else -1
    style = rng.choice(("single", "row", "row", "irregular"))
    width, deep = m.some(1.5, 2, 2.5, 3, 4, 5), m.some(0.75, 1, 1.5, 2, 2.5, 3)
    deep = min(deep, round(d * 0.2, 6))
    form = rng.choices(("square", "round", "vee", "bevelled"), (10, 4, 1.5 if where == "outside" else 0, 2))[0]
    size = {"round": m.some(0.2, 0.4), "bevelled": m.some(0.2, 0.3)}.get(form, 0.0)
    at = round(low + m.pick(0, 4), 6)
    pitch = round(width + m.pick(1.5, 5), 6)
    count = 1 if style == "single" else rng.randint(2, 5)
    for _ in range(count):
        if at + width > high:
            break
        rings.append(CadRing(where, at, round(at + width, 6), round(d - sign * 2 * deep, 6), form, size))
        if style == "irregular":
            at = round(at + width + m.pick(2, 9), 6)
            width, deep = m.some(1.5, 2, 3), min(m.some(0.75, 1, 2), round(d * 0.2, 6))
        else:
            at = round(at + pitch, 6)
    return rings


def _face_rings(m: _Maker, low: float, high: float) -> list[CadRing]:
    """Grooves of the front face between two radii."""
    rings, r = [], low + m.pick(2, 4)
    for _ in range(m.rng.randint(1, 2)):
        width = m.some(2, 3, 4, 5)
        if r + width > high - 2 * m.unit:
            break
        rings.append(CadRing("face", round(2 * (r + width), 6), round(2 * r, 6), m.some(1, 1.5, 2, 3)))
        r = r + width + m.pick(2, 8)
    return rings


def _bored(m: _Maker, shape: CadShape) -> CadShape:
    """With a bore, stepped or plain, through or blind, and perhaps grooves in it."""
    least = min([d for _, d in shape.steps] + [r.floor for r in shape.of("outside")])
    d = round(math.floor(least * m.rng.uniform(0.35, 0.6) / m.unit) * m.unit, 6)
    if d < 6 * m.unit:
        return shape
    end = shape.length if m.rng.random() < 0.7 else round(shape.length - m.pick(4, 8), 6)
    bores = [(end, d)]
    if m.rng.random() < 0.4 and end > 20 * m.unit:
        bores = [(m.pick(8, 12), round(d + m.some(2, 3), 6)), (end, d)]
    if max(b for _, b in bores) > least - 5 * m.unit:
        return shape
    rings = _rings_along(m, bores, "inside", 0.6)
    rings = [r for r in rings if r.floor < least - 2 * m.unit]
    return replace(shape, bores=bores, rings=[*shape.rings, *rings])


def random_shape(rng: random.Random, kind: str, units: str, bored: bool) -> CadShape:
    """One part with at least one groove; kind: shaft, disc, flange, hub."""
    m = _Maker(rng, units)
    while True:
        steps = _lands(m, kind)
        shape = CadShape(kind, units, steps, chamfer=m.some(0, 0.5, 1, 1.5))
        shape = replace(shape, rings=_rings_along(m, steps, "outside", 0.7))
        shape = _bored(m, shape) if bored else shape
        if bored and kind in ("disc", "flange") and rng.random() < 0.7:
            low = shape.bores[0][1] / 2 if shape.bores else 4 * m.unit
            shape = replace(shape, rings=[*shape.rings, *_face_rings(m, low, steps[0][1] / 2 - shape.chamfer)])
        for k, (end, d) in enumerate(steps[:-1]):
            free = not any(abs(r.far - end) < 1e-9 for r in shape.of("outside"))
            if free and steps[k + 1][1] > d + 3 * m.unit and rng.random() < 0.3:
                shape.fillets[f"{end:.4f}"] = m.some(0.5, 1)
        if shape.rings:
            return shape
