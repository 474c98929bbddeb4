"""A side of the part as heights over z, so that one way of thinking serves outside and inside.

A height is a diameter outside and a diameter with its sign turned inside: on either side the tool comes from above, the
land is high, the floor is low, and a shoulder is a higher land. `up` turns a diameter into a height and back.
"""

from bisect import bisect_left, bisect_right
from dataclasses import dataclass

from extractor.limits import EPS
from extractor.part import Groove, Part, ProfilePoints
from planner.cuts.clearance import highest_land


@dataclass(frozen=True)
class Side:
    """Outside (`sign` 1) or inside (-1) with its lands as z and half a height; `lands` holds no groove."""

    sign: int
    lands: ProfilePoints
    outline: ProfilePoints

    def up(self, diameter: float) -> float:
        """The height of a diameter, the diameter of a height."""
        return self.sign * diameter

    def highest(self, z_low: float, z_high: float) -> float:
        """The highest land over a closed stretch; inside, the way in from the front belongs to it."""
        top = z_high if self.sign > 0 else max(z_high, 0.0)
        return highest_land(self.lands, z_low, top, nothing=0.0 if self.sign > 0 else -2 * self._deep)

    def stretch(self, z_low: float, z_high: float) -> ProfilePoints:
        """The outline's points between two z, with one more on either side; z falls along the outline."""
        return stretch_of(self.outline, z_low, z_high)

    @property
    def _deep(self) -> float:
        """A radius beyond all of the side."""
        return max((abs(radius) for _, radius in self.lands), default=0.0)


def stretch_of(line: ProfilePoints, z_low: float, z_high: float) -> ProfilePoints:
    """A line's points between two z, with one more on either side; z falls along the line."""
    first = bisect_left(line, -z_high, key=lambda point: -point[0])
    last = bisect_right(line, -z_low, key=lambda point: -point[0])
    return line[max(0, first - 1) : last + 1]


def side_of(part: Part, groove: Groove) -> Side:
    """The side that a groove is cut into."""
    if groove.where == "inside":
        bore = tuple((z, -radius) for z, radius in part.bore or ())
        return Side(-1, _filled(bore, part), bore)
    return Side(1, part.lands, part.outline)


def _filled(bore: ProfilePoints, part: Part) -> ProfilePoints:
    """The bore without its grooves: what lies below a groove's mouth is left out, so lines run straight over it."""
    grooves = [groove for groove in part.grooves if groove.where == "inside"]
    return tuple(
        (z, height)
        for z, height in bore
        if not any(g.z_far - EPS <= z <= g.z_near + EPS and height < -g.mouth_diameter / 2 - EPS for g in grooves)
    )
