"""Chamfers and radii at a groove's mouth, cut with the insert's own corner after the groove is there.

The corner comes down along a chamfer's line and ends at the wall, so the rest of the insert stands in the groove. The
line is moved into the metal by what the corner radius would leave: an arc of radius r that touches a line at 45 degrees
has its sharp corner r (sqrt 2 - 1) beyond it (geometry of a tangent arc), which is r (2 - sqrt 2) along either axis.
Round a radius R the middle of the corner's arc goes on one of R + r, and so does the insert: a quarter circle from the
land to the wall (geometry of circles that touch).
Only what the outline shows from the mouth's own land is cut: a straight line at 45 degrees, or such a quarter circle.
"""

from collections.abc import Callable, Iterator
from itertools import pairwise
from math import ceil, sqrt

from extractor.part import Groove
from extractor.rounding import ROUNDING
from planner.cuts.ground import Ground
from planner.cuts.moves import Setting
from planner.cuts.paths import side_feed
from planner.cuts.place import Placed
from planner.shop import Shop, Tool
from planner.steps import Arc, Step

CORNER_SHARE = 2 - sqrt(2)
# Where the line at a mouth is looked at, as shares of its size from the wall.
LOOKED_AT = (0.05, 0.1, 0.3, 0.5, 0.7, 0.9)
Rims = tuple[bool, bool]
"""Of the near and of the far mouth."""


def chamfered(groove: Groove, ground: Ground, tolerance: float) -> Rims:
    """Whether the near and the far mouth are known to have the chamfer as a line at 45 degrees.

    The outline of a face is not known, so there the reading itself says it.
    """
    if groove.edge_chamfer > tolerance and not groove.side.axial:
        return groove.bevelled
    return _shown(groove, ground, tolerance, lambda share: 1 - share)


def rounded_off(groove: Groove, ground: Ground, tolerance: float) -> Rims:
    """Whether the outline shows the near and the far mouth as a quarter circle of the size that is read there.

    The arc's centre lies a radius outside the wall and a radius below the land (geometry of a tangent arc). One so
    small that it is a chamfer within the tolerance is taken for that.
    """
    near, far = _shown(groove, ground, tolerance, lambda share: 1 - sqrt(1 - (1 - share) ** 2))
    straight = chamfered(groove, ground, tolerance)
    return near and not straight[0], far and not straight[1]


def _shown(groove: Groove, ground: Ground, tolerance: float, below: Callable[[float], float]) -> Rims:
    """Whether the outline runs so far below the land, as a share of the rim's size, so far from the wall."""
    size, mouth = groove.edge_chamfer, groove.mouth / 2
    if size <= tolerance or not groove.side.axial:
        return False, False
    near, far = (
        all(_passes(ground, edge + way * share * size, mouth - below(share) * size, tolerance) for share in LOOKED_AT)
        for edge, way in ((groove.near, 1), (groove.far, -1))
    )
    return near, far


def _passes(ground: Ground, z: float, half: float, tolerance: float) -> bool:
    """True if the outline's line over z runs at this half height."""
    for (z0, h0), (z1, h1) in pairwise(ground.stretch(z, z)):
        if z1 <= z <= z0 and z0 > z1:
            return abs(h0 + (h1 - h0) * (z0 - z) / (z0 - z1) - half) <= tolerance
    return False


def known(groove: Groove, ground: Ground, tolerance: float) -> Rims:
    """Whether the near and the far mouth are known to have a chamfer or a radius."""
    straight, bent = chamfered(groove, ground, tolerance), rounded_off(groove, ground, tolerance)
    return straight[0] or bent[0], straight[1] or bent[1]


def cuttable(groove: Groove, ground: Ground, tool: Tool, shop: Shop) -> Rims:
    """Which of the known chamfers and radii the insert can cut: with room for its moves, and never below the floor."""
    if groove.edge_chamfer <= shop.machine.tolerance:
        return False, False
    machine, size, along, radius = shop.machine, groove.edge_chamfer, groove.side.along, tool.corner_radius
    bent = rounded_off(groove, ground, machine.tolerance)
    land, can = groove.mouth + machine.tolerance, list[bool]()
    for place, drawn in enumerate(known(groove, ground, machine.tolerance)):
        # Down a chamfer the insert comes at 45 degrees, to a radius from straight above.
        deep, aside = (size + radius, 0.0) if bent[place] else (size + CORNER_SHARE * radius, machine.clearance)
        reach = along * (deep + aside)
        low, high = (groove.near, groove.near + reach) if place == 0 else (groove.far - reach, groove.far)
        # On a face the way down ends at the axis.
        inward = groove.side.axial or place == 0 or groove.far > reach
        can.append(drawn and inward and deep <= groove.depth and ground.beside(low, high) <= land)
    return can[0], can[1]


def chamfer_steps(placed: Placed, start: int, setting: Setting) -> Iterator[Step]:
    """Both chamfers or radii of every groove of a row, as far as they can be cut; from and to the start height."""
    shop, tool = setting.shop, placed.tool
    for place, number in zip(placed.places, placed.grooves, strict=True):
        groove = setting.part.grooves[number - 1]
        near, far = cuttable(groove, placed.ground, tool, shop)
        bent = rounded_off(groove, placed.ground, shop.machine.tolerance)
        walls = [(place, 1, bent[0])] if near else []
        walls += [(place - placed.layout.span, -1, bent[1])] if far else []
        for edge, outward, round_rim in walls:
            if round_rim:
                yield from _round(placed, groove, edge, outward, start, setting)
            else:
                yield from _bevel(placed, groove, edge, outward, start, setting)
            yield placed.rapid(height=start)


def _bevel(placed: Placed, groove: Groove, edge: int, outward: int, start: int, setting: Setting) -> Iterator[Step]:
    """Down a chamfer to the wall at an edge, from a clearance above the land."""
    increments, tool, side = setting.increments, placed.tool, placed.side
    feed, rise = increments.cutting_feed(tool.feed), increments.count(setting.shop.machine.clearance)
    low = increments.count(groove.edge_chamfer) + ceil(CORNER_SHARE * increments.count(tool.corner_radius) - ROUNDING)
    mouth = increments.count(groove.mouth)
    yield placed.rapid(edge + outward * side.along * (low + rise))
    if mouth + side.up * rise != start:
        yield placed.rapid(height=mouth + side.up * rise)
    yield placed.cut(feed, edge, mouth - side.up * low)


def _round(placed: Placed, groove: Groove, edge: int, outward: int, start: int, setting: Setting) -> Iterator[Step]:
    """Down to the land where a radius leaves it, and round that to the wall at an edge."""
    increments, tool, side = setting.increments, placed.tool, placed.side
    radius = increments.count(groove.edge_chamfer) + increments.count(tool.corner_radius)
    mouth, rise = increments.count(groove.mouth), increments.count(setting.shop.machine.clearance)
    yield placed.rapid(edge + outward * radius)
    if mouth + side.up * rise != start:
        yield placed.rapid(height=mouth + side.up * rise)
    yield placed.cut(increments.cutting_feed(tool.feed), height=mouth)
    x, z = side.machine(placed.reference(edge), mouth - side.up * radius)
    turn = (outward < 0) != side.hollow
    yield Arc(feed=side_feed(tool, increments), x=x, z=z, radius=radius, clockwise=turn)
