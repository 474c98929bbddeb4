"""What was recognised: the turned part, its profile and its grooves.

z is 0 at the finished front face and negative toward the chuck; lengths are in the drawing's units (mm or inch)
at true size. A name says whether it holds a radius or a diameter.
"""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property
from itertools import pairwise
from typing import Any, Literal

from extractor.distance import Distance, Placing
from extractor.finding import Finding, Point, stopped
from extractor.front import Front, FrontEnd
from extractor.ink import InkLedger
from extractor.score import Weighed
from extractor.side import SIDES, Side, Where
from extractor.values import dataclass

Units = Literal["mm", "in"]
INCH = 25.4
"""Millimetres in one inch."""
Shape = Literal["rectangular", "vee", "round", "tapered", "relief", "other"]

Deviation = tuple[float, float]
"""Lower and upper deviation from nominal, in drawing units: (-0.05, 0.0)."""

ProfilePoints = tuple[tuple[float, float], ...]
"""z and radius of the breakpoints from front to back, z never rising; a wall is two points of one z."""


SCALES = (1e-4, 1e4)
"""Least and greatest scale that can be given: ISO 5455 ends at 1:10 000 (from memory); none enlarges so far."""


@dataclass(frozen=True)
class ReadOptions:
    """What the user answers for before reading: units, front face, view, sheet scale, accepted stops.

    `scale` R: the view is drawn R times its true size. `at`: a point on the view meant, in sheet coordinates.
    `grooved`: wide low lands, and recesses without edges, are grooves, not journals or flats. `answered`: the
    options that an answers file gave and not the call.
    """

    units: Units | None = None
    front: Front | None = None
    at: Point | None = None
    scale: float | None = None
    accept: frozenset[str] = frozenset()
    grooved: bool = False
    answered: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Frame:
    """Where the part lies on the sheet.

    `origin` is the front face's centre, `axis` the unit vector of rising z, `up` the unit vector of rising radius,
    `scale` the drawn length of one true unit.
    """

    origin: Point
    axis: Point
    up: Point
    scale: float = 1.0

    def on_sheet(self, z: float, radius: float) -> Point:
        """The sheet point of a place on the part.

        >>> Frame((10.0, 5.0), (1.0, 0.0), (0.0, 1.0)).on_sheet(-4.0, 2.0)
        (6.0, 7.0)
        """
        along, out = z * self.scale, radius * self.scale
        return (
            self.origin[0] + along * self.axis[0] + out * self.up[0],
            self.origin[1] + along * self.axis[1] + out * self.up[1],
        )

    def on_part(self, point: Point) -> tuple[float, float]:
        """Place along the axis (z) and signed radius of a sheet point.

        >>> Frame((10.0, 5.0), (1.0, 0.0), (0.0, 1.0), 2.0).on_part((6.0, 7.0))
        (-2.0, 1.0)
        """
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        along, out = dx * self.axis[0] + dy * self.axis[1], dx * self.up[0] + dy * self.up[1]
        return along / self.scale, out / self.scale


@dataclass(frozen=True, kw_only=True)
class Groove:
    """One recess of the part.

    Outside and inside: `z_near` is the wall nearer the front face, `z_far` the one nearer the chuck, both at the
    mouth where walls slope; `mouth_diameter` is that of the lower land beside it, `floor_diameter` the deepest.
    Face: `z_near` is the face it is cut into and `z_far` its floor, the other way round in the back face;
    `mouth_diameter` and `floor_diameter` are the diameters of its outer and inner wall.
    `tolerances` holds deviations by field name, only where the drawing gives them; those of `z_near` and `z_far` are
    of z itself, so a distance of 10 +0.2/0 from the front face is (-0.2, 0.0) there. Of a face groove `width` lies
    along the radius and `depth` along z; `z_far` (in the back face `z_near`) is then the place of its floor.
    `general` names those of them that come from the sheet's general tolerances, not from a dimension. `printed` names
    the sizes that dimensions give, with deviations or without.
    `places` are the walls and middles that printed distances name, put there by `extractor.places`.
    `edge_chamfer` is the size of what breaks the edges at its mouth, which is a radius where they are `rounded`.
    `from_back`: a face groove is cut into metal that looks to the back.
    `bevelled`: of a face groove, whether the outer and the inner rim are known to have the chamfer, at 45 degrees.
    `near_land_diameter` and `far_land_diameter` are the diameters just beside the mouth on either side.
    """

    id: int
    where: Where
    shape: Shape
    z_near: float
    z_far: float
    mouth_diameter: float
    floor_diameter: float
    corner_radius: float = 0.0
    edge_chamfer: float = 0.0
    near_land_diameter: float = 0.0
    far_land_diameter: float = 0.0
    tolerances: Mapping[str, Deviation] = field(default_factory=dict)
    general: frozenset[str] = frozenset()
    printed: frozenset[str] = frozenset()
    places: tuple[Placing, ...] = ()
    bevelled: tuple[bool, bool] = (False, False)
    from_back: bool = False
    rounded: bool = False

    def __post_init__(self) -> None:
        """Refuse a groove that can't exist: no width, no depth, nonsense deviations."""
        if not self.z_near > self.z_far:
            raise ValueError(f"groove {self.id}: z_near must lie before z_far")
        if not self.far < self.near:
            raise ValueError(f"groove {self.id}: its walls are the wrong way round")
        if self.floor_diameter < 0 or self.mouth_diameter <= 0:
            raise ValueError(f"groove {self.id}: diameters must be positive")
        if self.floor >= self.mouth:
            raise ValueError(f"groove {self.id}: the floor lies below the mouth")
        for name, (lower, upper) in self.tolerances.items():
            if lower > upper:
                raise ValueError(f"groove {self.id}: deviations of {name} are the wrong way round")

    @cached_property
    def side(self) -> Side:
        """The side that it is cut into."""
        return SIDES[self.where]

    @cached_property
    def far(self) -> float:
        """The wall of lower u in its side's frame: z, or of a face groove the inner wall's diameter."""
        return float(getattr(self, self.side.far))

    @cached_property
    def near(self) -> float:
        """The wall of higher u in its side's frame: z, or of a face groove the outer wall's diameter."""
        return float(getattr(self, self.side.near))

    @cached_property
    def floor(self) -> float:
        """The floor's height h in its side's frame: a diameter, negative inside, or of a face groove z."""
        return self.side.sign * float(getattr(self, self.side.bottom))

    @cached_property
    def mouth(self) -> float:
        """The mouth's height h in its side's frame."""
        return self.side.sign * float(getattr(self, self.side.land))

    @cached_property
    def worked_out(self) -> dict[object, Any]:
        """What follows from it alone and is asked for again and again, by what it hangs on besides."""
        return {}

    @property
    def middle(self) -> float:
        """The z half way between its ends along the axis."""
        return (self.z_near + self.z_far) / 2

    @property
    def radii(self) -> tuple[float, float]:
        """The radii that it takes up, least first."""
        low, high = sorted((self.floor_diameter / 2, self.mouth_diameter / 2))
        return low, high

    @property
    def beside(self) -> tuple[float, ...]:
        """The diameters of the lands beside it, of those that are known."""
        return tuple(d for d in (self.near_land_diameter, self.far_land_diameter) if d)

    @property
    def floor_field(self) -> str:
        """Of a face groove the field that holds the z of its floor."""
        return "z_near" if self.from_back else "z_far"

    @property
    def width(self) -> float:
        """Distance between the walls: along the turning axis, of a face groove along the radius."""
        return (self.near - self.far) / self.side.along

    @property
    def depth(self) -> float:
        """Depth from the mouth to the floor: radial, of a face groove along the turning axis."""
        return (self.mouth - self.floor) / self.side.up


@dataclass(frozen=True, kw_only=True)
class LeftToOthers:
    """A stretch of a side that is drawn lower than what stands beside it, and that no groove of the part makes.

    `why`: "turned" for a low land that is turned before it is grooved; "overhang" for a recess that is not open
    straight along the tool's way, left to another tool. `near` and `far` are its ends along u, `floor` its lowest
    height in the frame of its side, `mouth` the height of the lower land beside it.
    """

    where: Where
    near: float
    far: float
    floor: float
    mouth: float
    why: Literal["turned", "overhang"]


@dataclass(frozen=True)
class MaterialNote:
    """A material as the sheet names it, in its own words, and where it stands; None if that is on paper space."""

    text: str
    at: Point | None = None


@dataclass(frozen=True, kw_only=True)
class Notch:
    """A recess that one half of a view shows alone: the z of its ends, and its floor as the diameter of a ring's."""

    near: float
    far: float
    floor: float


@dataclass(frozen=True, kw_only=True)
class Part:
    """A turned part at true size.

    `outline` is the outside profile, front to back; `lands` the same with every outside groove filled; `bore` the
    inside profile or None for a solid part. `distances` are those printed between places of the grooves and the ends;
    one from a shoulder is told from the front face, as if the shoulder lay at its nominal: it is turned elsewhere.
    `left_to_others` are the low lands and recesses that are drawn and not to be grooved here. `materials`: what the
    sheet says the part is made of, each way of saying it once; `lines`: lines of text that may say so alone.
    """

    units: Units
    outer_diameter: float
    length: float
    grooves: tuple[Groove, ...]
    outline: ProfilePoints
    lands: ProfilePoints
    bore: ProfilePoints | None = None
    frame: Frame | None = None
    distances: tuple[Distance, ...] = ()
    left_to_others: tuple[LeftToOthers, ...] = ()
    materials: tuple[MaterialNote, ...] = ()
    lines: tuple[MaterialNote, ...] = ()

    def __post_init__(self) -> None:
        """Refuse an empty part and grooves out of order."""
        if self.outer_diameter <= 0 or self.length <= 0:
            raise ValueError("a part has a diameter and a length")
        if [g.id for g in self.grooves] != list(range(1, len(self.grooves) + 1)):
            raise ValueError("grooves are numbered 1, 2, 3 from the front face")

    @cached_property
    def worked_out(self) -> dict[object, Any]:
        """What follows from it alone and is asked for again and again, by what it hangs on besides."""
        return {}

    @property
    def unit(self) -> float:
        """Millimetres in one of its units."""
        return 1.0 if self.units == "mm" else INCH

    @property
    def edges(self) -> list[tuple[Point, Point]]:
        """The edges of outline and bore, each from front to back."""
        return [edge for line in (self.outline, self.bore or ()) for edge in pairwise(line)]


@dataclass(frozen=True)
class Reading:
    """The answer to reading one drawing: the part if there is one, and every finding.

    `units` is None where the drawing doesn't say; `part` is None where no part could be recognised, and then at
    least one finding is a stop. `front` says which end of the drawn part is Z0, `ink` how much of what is drawn was
    explained as what; both are None where there is no part. `weighed` are the readings that were made, and what speaks
    for each.
    """

    file: str
    sha256: str
    units: Units | None
    part: Part | None
    findings: tuple[Finding, ...] = ()
    front: FrontEnd | None = None
    ink: InkLedger | None = None
    weighed: tuple[Weighed, ...] = ()

    def __post_init__(self) -> None:
        """No part without a stop that says why."""
        if self.part is None and not stopped(self.findings):
            raise ValueError("a reading without a part needs a stop finding")
