"""Random turned parts and the grooves they truly have.

A part is a closed run of corners in (z, radius), from the axis or bore up the front face, along the outside to the
back and along the bore home again; z is 0 at the front and falls toward the chuck. The truth is written down when a
groove is made, never worked out from the corners.
"""

import math
import random
from dataclasses import dataclass, field, replace

Bent = tuple[float, float, float]


@dataclass(frozen=True)
class Corner:
    """A corner at (z, radius): sharp, rounded by `round` or broken by `chamfer`; `bulge` bends the line to the next."""

    z: float
    r: float
    round: float = 0.0
    chamfer: float = 0.0
    bulge: float = 0.0


@dataclass(frozen=True)
class TrueGroove:
    """What the reader must find; `shapes` are the names that are right for it.

    `printed` says how a tolerance is written after the size, by field name, where not as plain signed numbers.
    """

    where: str
    shapes: tuple[str, ...]
    z_near: float
    z_far: float
    mouth_diameter: float
    floor_diameter: float
    corner_radius: float = 0.0
    edge_chamfer: float = 0.0
    tolerances: dict[str, tuple[float, float]] = field(default_factory=dict)
    printed: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class TurnedPart:
    """A part, its truth, and how fine its numbers are (`grain`, drawing units)."""

    units: str
    length: float
    outside: tuple[Corner, ...]
    bore: tuple[Corner, ...]
    grooves: tuple[TrueGroove, ...]
    grain: float

    @property
    def outer_diameter(self) -> float:
        return 2 * max(c.r for c in self.outside)

    def outside_run(self) -> list[Bent]:
        return bend(list(self.outside))

    def skin_run(self) -> list[Bent]:
        """The outside as it is seen from the side: without what is cut into the front face."""
        faces = [g for g in self.grooves if g.where == "face"]
        hidden = {(z, d / 2) for g in faces for z in (g.z_near, g.z_far) for d in (g.mouth_diameter, g.floor_diameter)}
        return bend([c for c in self.outside if (c.z, c.r) not in hidden])

    def bore_run(self) -> list[Bent]:
        """The bore from front to back, empty for a solid part."""
        return bend(list(self.bore))

    def loop(self) -> list[Bent]:
        """The closed half section: outside front to back, then the bore or the axis home."""
        if not self.bore:
            return [(0.0, 0.0, 0.0), *self.outside_run(), (-self.length, 0.0, 0.0)]
        return self.outside_run() + reverse(self.bore_run())


Made = tuple[tuple[Corner, ...], TrueGroove]


def reverse(run: list[Bent]) -> list[Bent]:
    """The same run walked the other way."""
    bulges = [*[-bulge for _, _, bulge in run[:-1]][::-1], 0.0]
    return [(z, r, bulge) for (z, r, _), bulge in zip(run[::-1], bulges, strict=True)]


def bend(corners: list[Corner]) -> list[Bent]:
    """Corners with their rounds and chamfers worked out, as (z, radius, bulge to the next)."""
    run: list[Bent] = []
    for before, corner, after in zip([None, *corners], corners, [*corners[1:], None], strict=False):
        if before is None or after is None or not (corner.round or corner.chamfer):
            run.append((corner.z, corner.r, corner.bulge))
            continue
        into, out = _direction(before, corner), _direction(corner, after)
        turn = math.remainder(math.atan2(out[1], out[0]) - math.atan2(into[1], into[0]), math.tau)
        back = corner.chamfer or corner.round * math.tan(abs(turn) / 2)
        run.append((corner.z - back * into[0], corner.r - back * into[1], math.tan(turn / 4) if corner.round else 0.0))
        run.append((corner.z + back * out[0], corner.r + back * out[1], corner.bulge))
    return run


def _direction(a: Corner, b: Corner) -> tuple[float, float]:
    size = math.hypot(b.z - a.z, b.r - a.r)
    return (b.z - a.z) / size, (b.r - a.r) / size


@dataclass
class Workshop:
    """Makes numbers of one grain: a mm part in steps of 0.05 (or odd ones), an inch part in steps of 0.005."""

    rng: random.Random
    units: str
    grain: float

    def pick(self, low: float, high: float) -> float:
        """A size between two given in mm, in drawing units on the grain."""
        factor = 1.0 if self.units == "mm" else 1 / 25.4
        size = self.rng.uniform(low * factor, high * factor)
        return max(self.grain, round(round(size / self.grain) * self.grain, 6))


def rectangular(shop: Workshop, z: float, mouth: float, width: float, depth: float, plain: bool) -> Made:
    """A groove with straight walls from z toward the chuck."""
    rng = shop.rng
    small = min(width, depth)
    radius = chamfer = 0.0
    roomy = small > 6 * shop.grain
    if not plain and roomy and rng.random() < 0.6:
        radius = round(shop.grain * rng.randint(1, max(1, int(small * 0.3 / shop.grain))), 6)
    if not plain and roomy and rng.random() < 0.4:
        chamfer = round(
            shop.grain * rng.randint(1, max(1, int(min(small * 0.25, shop.pick(0.6, 0.6)) / shop.grain))), 6
        )
    far, floor = z - width, mouth - depth
    corners = (
        Corner(z, mouth, chamfer=chamfer),
        Corner(z, floor, round=radius),
        Corner(far, floor, round=radius),
        Corner(far, mouth, chamfer=chamfer),
    )
    truth = TrueGroove("outside", ("rectangular",), z, far, 2 * mouth, 2 * floor, radius, chamfer)
    return corners, truth


def vee(z: float, mouth: float, width: float, depth: float) -> Made:
    """A groove of two sloping walls that meet."""
    corners = (Corner(z, mouth), Corner(z - width / 2, mouth - depth), Corner(z - width, mouth))
    return corners, TrueGroove("outside", ("vee",), z, z - width, 2 * mouth, 2 * (mouth - depth))


def rounded(z: float, mouth: float, width: float, depth: float) -> Made:
    """A groove of one arc, at most half a circle."""
    depth = min(depth, width / 2)
    corners = (Corner(z, mouth, bulge=-2 * depth / width), Corner(z - width, mouth))
    return corners, TrueGroove("outside", ("round",), z, z - width, 2 * mouth, 2 * (mouth - depth))


def tapered(shop: Workshop, z: float, mouth: float, width: float, depth: float) -> Made:
    """A groove whose walls lean outward, for a vee belt; both ends of a wall lie on the grain."""
    lean = round(max(shop.grain, round(min(width * 0.25, depth * 0.35) / shop.grain) * shop.grain), 6)
    far, floor = z - width, mouth - depth
    corners = (Corner(z, mouth), Corner(z - lean, floor), Corner(far + lean, floor), Corner(far, mouth))
    return corners, TrueGroove("outside", ("tapered",), z, far, 2 * mouth, 2 * floor)


def inverted(made: Made, bore: float) -> Made:
    """The same groove cut outward from a bore of this radius."""
    corners, truth = made
    flip = lambda r: round(2 * bore - r, 9)  # noqa: E731
    turned = tuple(replace(c, r=flip(c.r), bulge=-c.bulge) for c in corners)
    floor = 2 * flip(truth.floor_diameter / 2)
    return turned, replace(truth, where="inside", mouth_diameter=2 * bore, floor_diameter=floor)
