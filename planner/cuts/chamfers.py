"""Chamfers at a groove's mouth, cut with the insert's own corner after the groove is there.

The corner comes down along the chamfer's line and ends at the wall, so the rest of the insert stands in the groove. The
line is moved into the metal by what the corner radius would leave: an arc of radius r that touches a line at 45 degrees
has its sharp corner r (sqrt 2 - 1) beyond it (geometry of a tangent arc), which is r (2 - sqrt 2) along either axis.
Only what the outline shows as a straight line at 45 degrees from the mouth's own land is cut.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, sqrt

from extractor.part import Groove
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.side import Side
from planner.shop import Shop, Tool
from planner.steps import Cut, Rapid, Step

CORNER_SHARE = 2 - sqrt(2)


def chamfered(groove: Groove, side: Side, tolerance: float) -> tuple[bool, bool]:
    """Whether the near and the far mouth are drawn with the chamfer as a line at 45 degrees."""
    leg, mouth = groove.edge_chamfer, side.up(groove.mouth_diameter) / 2
    near = all(
        _passes(side, groove.z_near + share * leg, mouth - (1 - share) * leg, tolerance) for share in (0.1, 0.5, 0.9)
    )
    far = all(
        _passes(side, groove.z_far - share * leg, mouth - (1 - share) * leg, tolerance) for share in (0.1, 0.5, 0.9)
    )
    return leg > tolerance and near, leg > tolerance and far


def _passes(side: Side, z: float, half: float, tolerance: float) -> bool:
    """True if the outline's line over z runs at this half height."""
    for (z0, h0), (z1, h1) in pairwise(side.stretch(z, z)):
        if z1 <= z <= z0 and z0 > z1:
            return abs(h0 + (h1 - h0) * (z0 - z) / (z0 - z1) - half) <= tolerance
    return False


def cuttable(groove: Groove, side: Side, tool: Tool, shop: Shop) -> tuple[bool, bool]:
    """Which of the drawn chamfers the insert can cut: with room for its way down, and a wall left below."""
    machine, leg = shop.machine, groove.edge_chamfer
    reach = leg + CORNER_SHARE * tool.corner_radius + machine.clearance
    land = side.up(groove.mouth_diameter) + machine.tolerance
    deep = leg + CORNER_SHARE * tool.corner_radius < groove.depth / 2
    near, far = chamfered(groove, side, machine.tolerance)
    return (
        near and deep and side.highest(groove.z_near, groove.z_near + reach) <= land,
        far and deep and side.highest(groove.z_far - reach, groove.z_far) <= land,
    )


def chamfer_steps(placed: Placed, start_x: int, setting: Setting) -> Iterator[Step]:
    """Both chamfers of every groove of a row, as far as they can be cut; from and to the start height."""
    increments, shop, tool, sign = setting.increments, setting.shop, placed.tool, placed.side.sign
    feed, rise = increments.cutting_feed(tool.feed), increments.count(shop.machine.clearance)
    for place, number in zip(placed.places, placed.grooves, strict=True):
        groove = setting.part.grooves[number - 1]
        low = increments.count(groove.edge_chamfer) + ceil(CORNER_SHARE * increments.count(tool.corner_radius) - 1e-9)
        mouth = increments.count(groove.mouth_diameter)
        near, far = cuttable(groove, placed.side, tool, shop)
        walls = [(place, 1)] if near else []
        walls += [(place - placed.layout.span, -1)] if far else []
        for far_edge, outward in walls:
            z = placed.reference(far_edge)
            yield Rapid(z=z + outward * (low + rise))
            if mouth + sign * 2 * rise != start_x:
                yield Rapid(x=mouth + sign * 2 * rise)
            yield Cut(feed, x=mouth - sign * 2 * low, z=z)
            yield Rapid(x=start_x)
