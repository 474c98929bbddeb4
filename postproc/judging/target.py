"""A groove of the drawing as the simulation measures it: walls and floor in whole increments, and what each may be.

Everything is in the frame of the groove's side (`extractor.side`). A measure is compared as program minus drawing, in
drawing units, under the name of the drawing's own field.
"""

from extractor.limits import Aims, aims_of
from extractor.part import Groove
from extractor.values import dataclass
from planner.increment import Increments


@dataclass(frozen=True, kw_only=True)
class Target:
    """One groove to be found in the metal.

    `u0`, `u1`: walls; `floor`, `mouth`: heights; `corner`, `rise`: a drawn corner radius along u and in height;
    `broken`, `chamfer`: a drawn edge chamfer along u and in height, all in increments of the side's frame. `aims` are
    the limits, `loose` the shop's tolerance for a place that the sheet doesn't name. `square` is False where the
    outline shows other walls or another floor than the shape's name says.
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
    aims: Aims
    loose: float
    increments: Increments
    square: bool = True

    @property
    def upright(self) -> bool:
        """True if the walls are drawn straight up, so that a square insert can make them."""
        return self.square and self.groove.shape in ("rectangular", "relief")

    def height(self, along: int) -> int:
        """The height, in h counts, that is as long as a length along u."""
        return along * self.groove.side.up // self.groove.side.along

    @property
    def slack(self) -> float:
        """How far a measure may lie from its whole count."""
        return self.increments.rounding

    def differences(self, u0: int, u1: int, floor: int) -> dict[str, float]:
        """Program minus drawing, by the drawing's field names, from a cut measured in increments."""
        side, length = self.groove.side, self.increments.length
        found = {side.near: length(u1), side.far: length(u0), side.bottom: side.sign * length(floor)}
        # Adding 0.0 makes a plain zero of -0.0.
        return {name: round(value - float(getattr(self.groove, name)), 6) + 0.0 for name, value in found.items()}


def target_of(groove: Groove, increments: Increments, tolerance: float) -> Target:
    """The target of a groove; `tolerance` is the shop's, in drawing units, where the drawing gives none."""
    side, count = groove.side, increments.count
    return Target(
        groove=groove,
        u0=count(groove.far),
        u1=count(groove.near),
        floor=count(groove.floor),
        mouth=count(groove.mouth),
        corner=count(groove.corner_radius) * side.along,
        rise=count(groove.corner_radius) * side.up,
        broken=count(groove.edge_chamfer) * side.along,
        chamfer=count(groove.edge_chamfer) * side.up,
        aims=aims_of(groove, tolerance),
        loose=tolerance,
        increments=increments,
    )
