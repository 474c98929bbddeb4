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
from planner.cuts.ground import Ground
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.shop import Shop, Tool
from planner.steps import Step

CORNER_SHARE = 2 - sqrt(2)


def chamfered(groove: Groove, ground: Ground, tolerance: float) -> tuple[bool, bool]:
    """Whether the near and the far mouth are known to have the chamfer as a line at 45 degrees.

    The outline of a face is not known, so there the reading itself says it.
    """
    leg, mouth = groove.edge_chamfer, groove.mouth / 2
    if leg <= tolerance:
        return False, False
    if not groove.side.axial:
        return groove.bevelled
    near, far = (
        all(
            _passes(ground, edge + way * share * leg, mouth - (1 - share) * leg, tolerance) for share in (0.1, 0.5, 0.9)
        )
        for edge, way in ((groove.near, 1), (groove.far, -1))
    )
    return near, far


def _passes(ground: Ground, z: float, half: float, tolerance: float) -> bool:
    """True if the outline's line over z runs at this half height."""
    for (z0, h0), (z1, h1) in pairwise(ground.stretch(z, z)):
        if z1 <= z <= z0 and z0 > z1:
            return abs(h0 + (h1 - h0) * (z0 - z) / (z0 - z1) - half) <= tolerance
    return False


def rounded_off(groove: Groove, ground: Ground, tolerance: float) -> bool:
    """True if the outline shows a mouth that is rounded off by an arc of the size that is read as its chamfer."""
    leg, mouth = groove.edge_chamfer, groove.mouth / 2
    if leg <= tolerance or not groove.side.axial:
        return False
    # The arc's centre lies a radius outside the wall and a radius below the land (geometry of a tangent arc).
    return any(
        all(
            _passes(ground, edge + way * share * leg, mouth - leg * (1 - sqrt(1 - (1 - share) ** 2)), tolerance)
            for share in (0.1, 0.3, 0.5, 0.9)
        )
        for edge, way in ((groove.near, 1), (groove.far, -1))
    )


def cuttable(groove: Groove, ground: Ground, tool: Tool, shop: Shop) -> tuple[bool, bool]:
    """Which of the drawn chamfers the insert can cut: with room for its way down, and a wall left below."""
    machine, leg, along = shop.machine, groove.edge_chamfer, groove.side.along
    reach = along * (leg + CORNER_SHARE * tool.corner_radius + machine.clearance)
    land = groove.mouth + machine.tolerance
    deep = leg + CORNER_SHARE * tool.corner_radius < groove.depth / 2
    # On a face the way down ends at the axis.
    inward = groove.side.axial or groove.far > reach
    near, far = chamfered(groove, ground, machine.tolerance)
    return (
        near and deep and ground.beside(groove.near, groove.near + reach) <= land,
        far and deep and inward and ground.beside(groove.far - reach, groove.far) <= land,
    )


def chamfer_steps(placed: Placed, start: int, setting: Setting) -> Iterator[Step]:
    """Both chamfers of every groove of a row, as far as they can be cut; from and to the start height."""
    increments, shop, tool, side = setting.increments, setting.shop, placed.tool, placed.side
    feed, rise = increments.cutting_feed(tool.feed), increments.count(shop.machine.clearance)
    for place, number in zip(placed.places, placed.grooves, strict=True):
        groove = setting.part.grooves[number - 1]
        low = increments.count(groove.edge_chamfer) + ceil(CORNER_SHARE * increments.count(tool.corner_radius) - 1e-9)
        mouth = increments.count(groove.mouth)
        near, far = cuttable(groove, placed.ground, tool, shop)
        walls = [(place, 1)] if near else []
        walls += [(place - placed.layout.span, -1)] if far else []
        for edge, outward in walls:
            yield placed.rapid(edge + outward * side.along * (low + rise))
            if mouth + side.up * rise != start:
                yield placed.rapid(height=mouth + side.up * rise)
            yield placed.cut(feed, edge, mouth - side.up * low)
            yield placed.rapid(height=start)
