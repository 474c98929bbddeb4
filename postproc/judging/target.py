"""A groove of the drawing as the simulation measures it: walls and floor in whole increments, and what each may be off.

    side      u0            u1               floor h
    outside   z_far         z_near           floor_diameter
    inside    z_far         z_near           -floor_diameter
    face      floor_diam.   mouth_diameter   z_far

A measure is compared as program minus drawing, in drawing units, under the name of the drawing's own field.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from extractor.part import Groove, Where
from planner.cuts.aims import aims_of
from planner.increment import Increments

FIELDS: Mapping[Where, tuple[str, str, str]] = {
    "outside": ("z_far", "z_near", "floor_diameter"),
    "inside": ("z_far", "z_near", "floor_diameter"),
    "face": ("floor_diameter", "mouth_diameter", "z_far"),
}


@dataclass(frozen=True)
class Band:
    """Least and greatest deviation allowed, in drawing units."""

    low: float
    high: float

    def holds(self, difference: float, slack: float) -> bool:
        """True if a difference lies within, give or take what rounding to whole increments moves it."""
        return self.low - slack <= difference <= self.high + slack


@dataclass(frozen=True)
class Target:
    """One groove to be found in the metal.

    `u0`, `u1`: walls; `floor`, `mouth`: heights; `corner`, `rise`: a drawn corner radius along u and in height;
    `broken`, `chamfer`: a drawn edge chamfer along u and in height, all in increments of the side's frame. `width`,
    `at_u0`, `at_u1`, `depth` are the bands of the differences; a wall's is None where only the shop's `loose`
    holds its place. `square` is False where the outline shows other walls or another floor than the shape's name says.
    """

    groove: Groove
    u0: int
    u1: int
    floor: int
    mouth: int
    corner: int
    rise: int
    broken: int
    chamfer: int
    width: Band
    at_u0: Band | None
    at_u1: Band | None
    depth: Band
    loose: float
    increments: Increments
    square: bool = True

    @property
    def upright(self) -> bool:
        """True if the walls are drawn straight up, so that a square insert can make them."""
        return self.square and self.groove.shape in ("rectangular", "relief")

    def height(self, along: int) -> int:
        """As much in height as a length along u."""
        return along // 2 if self.groove.where == "face" else 2 * along

    @property
    def slack(self) -> float:
        """Half an increment: a drawing's thirds of an inch are no whole counts."""
        return 0.501 / self.increments.per_length

    def differences(self, u0: int, u1: int, floor: int) -> dict[str, float]:
        """Program minus drawing, by the drawing's field names, from a cut measured in increments."""
        lower, upper, deep = FIELDS[self.groove.where]
        sign = -1 if self.groove.where == "inside" else 1
        length = self.increments.length
        found = {upper: length(u1), lower: length(u0), deep: sign * length(floor)}
        # Adding 0.0 makes a plain zero of -0.0.
        return {name: round(value - float(getattr(self.groove, name)), 6) + 0.0 for name, value in found.items()}


def target_of(groove: Groove, increments: Increments, tolerance: float) -> Target:
    """The target of a groove; `tolerance` is the shop's, in drawing units, where the drawing gives none."""
    lower, upper, deep = FIELDS[groove.where]
    sign = -1 if groove.where == "inside" else 1
    count = increments.count
    face = groove.where == "face"
    along, up = (2, 1) if face else (1, 2)
    width, depth = _face_bands(groove, tolerance) if face else _bands(groove, tolerance)
    return Target(
        groove=groove,
        u0=count(getattr(groove, lower)),
        u1=count(getattr(groove, upper)),
        floor=sign * count(getattr(groove, deep)),
        mouth=count(groove.z_near) if face else sign * count(groove.mouth_diameter),
        corner=count(groove.corner_radius) * along,
        rise=count(groove.corner_radius) * up,
        broken=count(groove.edge_chamfer) * along,
        chamfer=count(groove.edge_chamfer) * up,
        width=width,
        at_u0=_given(groove, lower),
        at_u1=_given(groove, upper),
        depth=depth,
        loose=tolerance,
        increments=increments,
    )


def _given(groove: Groove, name: str) -> Band | None:
    """The drawing's own band of a field, None where it gives none."""
    found = groove.tolerances.get(name)
    return None if found is None else Band(*found)


def _bands(groove: Groove, tolerance: float) -> tuple[Band, Band]:
    """Bands of width and floor diameter as the planner aims at them."""
    aims = aims_of(groove, tolerance)
    width, floor = groove.width, groove.floor_diameter
    return (
        Band(aims.width.low - width, aims.width.high - width),
        Band(aims.floor.low - floor, aims.floor.high - floor),
    )


def _face_bands(groove: Groove, tolerance: float) -> tuple[Band, Band]:
    """Bands of a face groove: how far its walls' diameters lie apart, and the place of its floor."""
    shop = Band(-tolerance, tolerance)
    inner, outer = (groove.tolerances.get(name, (0.0, 0.0)) for name in ("floor_diameter", "mouth_diameter"))
    width = Band(shop.low + outer[0] - inner[1], shop.high + outer[1] - inner[0])
    lower, upper = groove.tolerances.get("depth", (shop.low, shop.high))
    return width, _given(groove, "z_far") or Band(-upper, -lower)
