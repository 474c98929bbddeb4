"""What is better cut before what.

- fin: of two grooves with a thin land between, the shallower one comes first. Cut first, the deeper one would leave the
  land as a fin that bends while the other is cut.
- neck: what lies on the free side of a groove that leaves less than half across comes before it, because the
  part would hang on that neck while it is cut.
- last: everything else comes before such a groove too, if no tool has to come back for it.

All grooves of a row are equally deep, so fins alone never ask for two rows before each other, except at stepped lands.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal

from extractor.part import Groove, Part
from extractor.side import INSIDE, OUTSIDE
from extractor.values import dataclass
from planner.cuts.place import Placed

# What is left across over what was there, below which a groove weakens the part (common practice, no source).
WEAK = 0.5
# Thickness over height below which a land is a fin that bends beside the next groove (common practice, no source).
FIN = 0.5
# A land cut as high on one side as on the other, or nearly, is the same fin in either order.
SHALLOWER = 0.8
Reason = Literal["fin", "neck", "last"]


@dataclass(frozen=True, kw_only=True)
class Need:
    """One row, by its place among the rows, is better cut before another, because of these two grooves."""

    before: int
    after: int
    reason: Reason
    first_groove: int
    then_groove: int


def needs(rows: Sequence[Placed], part: Part) -> list[Need]:
    """All needs between rows cut along X."""
    return [*_fins(rows, part), *_necks(rows, part)]


def share_left(groove: Groove, part: Part) -> float:
    """The share that an outside groove leaves of what was there across, or of the wall where the part is hollow."""
    hole = hole_at(groove, part)
    return (groove.floor_diameter - hole) / (groove.mouth_diameter - hole) if hole < groove.mouth_diameter else 0.0


def hole_at(groove: Groove, part: Part) -> float:
    """The greatest diameter of the bore, its grooves included, that lies under an outside groove; 0 with no bore."""
    if not part.bore:
        return 0.0
    hollow = [2 * radius for z, radius in part.bore if groove.z_far <= z <= groove.z_near]
    return max([*hollow, *(2 * _radius_at(part, z) for z in (groove.z_near, groove.z_far))])


def weakens(row: Placed, part: Part) -> bool:
    """True if a groove of a row leaves too little across."""
    return row.side == OUTSIDE and any(share_left(part.grooves[number - 1], part) < WEAK for number in row.grooves)


def _radius_at(part: Part, z: float) -> float:
    """The bore's greatest radius at a z, 0 beyond its ends or where there is none."""
    across = [(one, two) for one, two in pairwise(part.bore or ()) if two[0] <= z <= one[0]]
    return max(
        (r0 + (r1 - r0) * (z0 - z) / (z0 - z1) if z0 > z1 else max(r0, r1) for (z0, r0), (z1, r1) in across),
        default=0.0,
    )


def _fins(rows: Sequence[Placed], part: Part) -> Iterator[Need]:
    """Neighbours on one side of the part with a thin land between."""
    for side in (OUTSIDE, INSIDE):
        own = [(number, place) for place, row in enumerate(rows) if row.side == side for number in row.grooves]
        for (one, first), (two, second) in pairwise(sorted(own, key=lambda item: -part.grooves[item[0] - 1].z_near)):
            near, far = part.grooves[one - 1], part.grooves[two - 1]
            land = min(side.sign * near.far_land_diameter, side.sign * far.near_land_diameter)
            heights = [(land - groove.floor) / side.up for groove in (near, far)]
            low, high = min(heights), max(heights)
            if first != second and near.z_far - far.z_near < FIN * high and low < SHALLOWER * high:
                before, after = ((first, one), (second, two))[:: 1 if heights[0] == low else -1]
                yield Need(before=before[0], after=after[0], reason="fin", first_groove=before[1], then_groove=after[1])


def _necks(rows: Sequence[Placed], part: Part) -> Iterator[Need]:
    """Every other row before one that weakens the part, the more so if some of it lies on the free side."""
    weak = [place for place, row in enumerate(rows) if weakens(row, part)]
    others = [place for place in range(len(rows)) if place not in weak]
    for after in weak:
        then = max(number for number in rows[after].grooves if share_left(part.grooves[number - 1], part) < WEAK)
        for before in others:
            first = rows[before].grooves[0]
            in_front = part.grooves[first - 1].z_near > part.grooves[then - 1].z_near
            yield Need(
                before=before, after=after, reason="neck" if in_front else "last", first_groove=first, then_groove=then
            )
