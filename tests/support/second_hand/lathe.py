"""Builds a turned part's profile feature by feature, and writes down each recess as the truth.

Profile plane: z (0 at the front face, falling toward the chuck) and radius. Outside and bore are each one row of
corners from front to back; a corner's bulge belongs to the stretch after it.
"""

import math
from dataclasses import dataclass, field

from support.second_hand.marks import XY

QUARTER = math.tan(math.pi / 8)


@dataclass(frozen=True)
class Recess:
    """What a reader must find: walls, diameters of mouth and floor, and the shapes it may be called.

    `loose`: it must be told in some way (groove or caution), its numbers and name are matters of taste.
    """

    where: str
    near: float
    far: float
    mouth: float
    floor: float
    shapes: frozenset[str] = frozenset({"rectangular"})
    radius: float = 0.0
    loose: bool = False


@dataclass(frozen=True)
class Extra:
    """Something milled, drilled or rolled: keyway, cross hole, flat, thread, knurl, centre hole; z from, to; size."""

    kind: str
    near: float
    far: float
    size: float
    radius: float


@dataclass(frozen=True)
class TurnedPart:
    """A part: its two contours, the recesses, the extras, and the units of all its lengths."""

    outside: tuple[XY, ...]
    outside_bulges: tuple[float, ...]
    bore: tuple[XY, ...] = ()
    bore_bulges: tuple[float, ...] = ()
    recesses: tuple[Recess, ...] = ()
    extras: tuple[Extra, ...] = ()
    units: str = "mm"

    @property
    def length(self) -> float:
        """From the front face to the back face."""
        return max(z for z, _ in self.outside) - min(z for z, _ in self.outside)

    @property
    def diameter(self) -> float:
        """The largest diameter."""
        return 2 * max(r for _, r in self.outside)

    @property
    def grooves(self) -> list[Recess]:
        """The recesses whose numbers are beyond doubt."""
        return [r for r in self.recesses if not r.loose]


@dataclass
class Lathe:
    """A cursor at (z, r) that turns one side of the part; `inside` bores."""

    z: float
    r: float
    inside: bool = False
    points: list[XY] = field(default_factory=list)
    bulges: list[float] = field(default_factory=list)
    recesses: list[Recess] = field(default_factory=list)
    extras: list[Extra] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.points.append((self.z, self.r))
        self.bulges.append(0.0)

    @property
    def deep(self) -> int:
        """Which way a recess goes: toward the axis (-1) or away from it."""
        return 1 if self.inside else -1

    def to(self, z: float, r: float, bulge: float = 0.0) -> "Lathe":
        """Go on to a corner, along a line or an arc."""
        if math.dist((z, r), self.points[-1]) < 1e-9:
            return self
        if not bulge and self._level_run(r):
            self.points.pop()
            self.bulges.pop()
        self.bulges[-1] = bulge * -self.deep
        self.points.append((z, r))
        self.bulges.append(0.0)
        self.z, self.r = z, r
        return self

    def _level_run(self, r: float) -> bool:
        """True where the stretch before was level at this radius, so that one longer land goes on."""
        if len(self.points) < 2 or self.bulges[-2]:
            return False
        return all(abs(q - r) < 1e-9 for _, q in self.points[-2:])

    def land(self, length: float) -> "Lathe":
        """A level stretch."""
        return self.to(self.z - length, self.r)

    def chamfer(self, size: float, rise: bool) -> "Lathe":
        """A 45 degree edge: the radius grows (`rise`) or falls while z falls."""
        return self.to(self.z - size, self.r + (size if rise else -size))

    def step(self, r: float, chamfer: float = 0.0) -> "Lathe":
        """A shoulder square to the axis, its outer edge broken."""
        rising = r > self.r
        if not rising and chamfer:
            self.to(self.z, self.r)
            self.chamfer(chamfer, False)
        self.to(self.z, r - chamfer if rising else r)
        if rising and chamfer:
            self.chamfer(chamfer, True)
        return self

    def _where(self) -> str:
        return "inside" if self.inside else "outside"

    def ring(
        self, width: float, depth: float, corner: float = 0.0, rim: float = 0.0, rim_round: bool = False
    ) -> "Lathe":
        """A rectangular groove; `corner` radius at the floor, `rim` chamfer or rounding at the mouth."""
        d, top = self.deep, self.r
        near = self.z - rim
        far, low = near - width, top + d * depth
        bend = QUARTER if rim_round else 0.0
        if rim:
            self.to(near, top + d * rim, bend)
        self.to(near, low - d * corner)
        self.to(near - corner, low, -QUARTER if corner else 0.0)
        self.to(far + corner, low)
        self.to(far, low - d * corner, -QUARTER if corner else 0.0)
        self.to(far, top + d * rim)
        if rim:
            self.to(far - rim, top, bend)
        self.recesses.append(Recess(self._where(), near, far, 2 * top, 2 * low, radius=corner))
        return self

    def trapeze(self, top_width: float, depth: float, half_angle: float) -> "Lathe":
        """A V groove with a flat floor, or a sharp one where the walls meet; half angle in degrees."""
        d, top, near = self.deep, self.r, self.z
        depth = min(depth, top_width / 2 / math.tan(math.radians(half_angle)))
        run = depth * math.tan(math.radians(half_angle))
        low = top + d * depth
        self.to(near - run, low).to(near - top_width + run, low).to(near - top_width, top)
        sharp = run >= top_width / 2 - 1e-9
        shapes = frozenset({"vee"} if sharp else {"tapered"})
        self.recesses.append(Recess(self._where(), near, near - top_width, 2 * top, 2 * low, shapes))
        return self

    def hollow(self, radius: float, depth: float) -> "Lathe":
        """A round groove: a circular segment, `depth` at most the radius."""
        near, top = self.z, self.r
        half = math.sqrt(radius**2 - (radius - depth) ** 2)
        sweep = 2 * math.asin(min(1.0, half / radius))
        self.to(near - 2 * half, top, -math.tan(sweep / 4))
        floor = 2 * (top + self.deep * depth)
        shapes = frozenset({"round"})
        self.recesses.append(Recess(self._where(), near, near - 2 * half, 2 * top, floor, shapes, radius))
        return self

    def thread_relief(self, width: float, depth: float, radius: float, shoulder: float, chamfer: float) -> "Lathe":
        """A run-out of DIN 76 kind: 30 degree slope from the thread, a rounded foot at a rising shoulder."""
        near, top = self.z, self.r
        low, far = top - depth, near - width
        self.to(near - depth / math.tan(math.radians(30)), low)
        self.to(far + radius, low).to(far, low + radius, -QUARTER)
        self.step(shoulder, chamfer)
        shapes = frozenset({"relief", "tapered", "other"})
        self.recesses.append(Recess("outside", near, far, 2 * top, 2 * low, shapes, radius))
        return self

    def undercut(self, form: str, shoulder: float, chamfer: float) -> "Lathe":
        """An undercut of DIN 509 kind, form E or F, size r 0.6 x 0.3, before a rising shoulder."""
        f, t1, r, t2 = 2.5, 0.3, 0.6, 0.2
        near, top = self.z, self.r
        low = top - t1
        foot = near - f - (t2 if form == "F" else 0.0)
        self.to(near - t1 / math.tan(math.radians(15)), low)
        self.to(foot + r, low).to(foot, low + r, -QUARTER)
        if form == "F":
            self.to(near - f, low + r + t2 / math.tan(math.radians(8)))
        self.step(shoulder, chamfer)
        shapes = frozenset({"relief", "tapered", "other"})
        self.recesses.append(Recess("outside", near, near - f, 2 * top, 2 * low, shapes, loose=True))
        return self

    def face_groove(self, inner: float, outer: float, depth: float, corner: float = 0.0) -> "Lathe":
        """A groove in the front face, between two radii; the cursor climbs the face."""
        face, low = self.z, self.z - depth
        self.to(face, inner).to(low + corner, inner)
        self.to(low, inner + corner, -QUARTER if corner else 0.0)
        self.to(low, outer - corner).to(low + corner, outer, -QUARTER if corner else 0.0)
        self.to(face, outer)
        self.recesses.append(Recess("face", face, low, 2 * outer, 2 * inner, radius=corner))
        return self


def finish(outside: Lathe, bore: Lathe | None = None, units: str = "mm") -> TurnedPart:
    """The part that was turned; the outside must end on the bore's or the axis' side of its back face."""
    return TurnedPart(
        tuple(outside.points),
        tuple(outside.bulges),
        tuple(bore.points) if bore else (),
        tuple(bore.bulges) if bore else (),
        tuple(outside.recesses) + (tuple(bore.recesses) if bore else ()),
        tuple(outside.extras) + (tuple(bore.extras) if bore else ()),
        units,
    )
