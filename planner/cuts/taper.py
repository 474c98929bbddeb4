"""Recesses with sloping walls over a level floor: plunged over the floor, then each slope with the insert's corner.

The part of the groove over its floor (the core) is planned like any square groove. The corner then comes down along
each slope to the floor. The line is moved into the metal by what the corner radius would leave: an arc of radius r that
touches a line a from upright has its sharp corner r (cos a + sin a - 1) beyond it (geometry of a tangent arc), which
is that much over cos a along z.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import atan, cos, sin, sqrt

from extractor.limits import EPS, without_deviations
from extractor.part import Groove, Part
from planner.cuts.ground import Ground, ground_of
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.shop import SIDE_SHARE, Shop, Tool
from planner.steps import Step

WALLS = ("width", "z_near", "z_far")
"""What is said of a groove's mouth and doesn't hold for its core."""


def cored(part: Part, shop: Shop) -> Part:
    """The part with the core in place of every recess with sloping walls that can be cut so."""
    grooves = tuple(core_of(g, ground_of(part, g), shop) or g if g.shape == "tapered" else g for g in part.grooves)
    return replace(part, grooves=grooves)


def core_of(groove: Groove, ground: Ground, shop: Shop) -> Groove | None:
    """The square middle of a recess with straight slopes, level lands beside it and no chamfers, else None."""
    tolerance, mouth = shop.machine.tolerance, groove.mouth
    floor = groove.floor
    near = _foot(groove, ground, groove.z_near, tolerance)
    far = _foot(groove, ground, groove.z_far, tolerance)
    if near is None or far is None or near - far <= tolerance or groove.edge_chamfer > tolerance:
        return None
    steepest = max(groove.z_near - near, far - groove.z_far) / (mouth - floor)
    reach = 2 * shop.machine.clearance * max(1.0, 2 * steepest)
    if ground.beside(groove.z_far - reach, groove.z_near + reach) > mouth + tolerance:
        return None
    if not _as_drawn(groove, ground, near, far, tolerance):
        return None
    return replace(without_deviations(groove, WALLS), z_near=near, z_far=far, places=())


def _foot(groove: Groove, ground: Ground, edge: float, tolerance: float) -> float | None:
    """Where the slope that begins at an edge of the mouth would meet the floor; None if no line begins there."""
    points = ground.stretch(groove.z_far - tolerance, groove.z_near + tolerance)
    mouth, floor = groove.mouth / 2, groove.floor / 2
    order = points if edge == groove.z_near else points[::-1]
    for (z0, h0), (z1, h1) in pairwise(order):
        if abs(z0 - edge) <= tolerance and abs(h0 - mouth) <= tolerance and h1 < h0 - tolerance:
            return z0 + (z1 - z0) * (mouth - floor) / (h0 - h1)
    return None


def _as_drawn(groove: Groove, ground: Ground, near: float, far: float, tolerance: float) -> bool:
    """True if slopes, floor and corner radii are all that the outline shows within the groove."""
    mouth, floor = groove.mouth / 2, groove.floor / 2
    deep = mouth - floor
    for z, half in ground.stretch(groove.z_far, groove.z_near):
        if groove.z_far <= z <= groove.z_near:
            slopes = [(groove.z_near - z) / (groove.z_near - near)] if groove.z_near - near > EPS else []
            slopes += [(z - groove.z_far) / (far - groove.z_far)] if far - groove.z_far > EPS else []
            model = max([floor, *(mouth - share * deep for share in slopes if share <= 1)])
            corner = groove.corner_radius if min(abs(z - near), abs(z - far)) <= groove.corner_radius else 0.0
            on_wall = min(groove.z_near - z, z - groove.z_far) <= tolerance
            if not on_wall and not model - tolerance <= half <= model + tolerance + corner:
                return False
    return True


def corner_shift(tool: Tool, run: float, deep: float) -> float:
    """How much farther along z the sharp corner goes than the slope, which is `run` wide and `deep` high (radial)."""
    lean = atan(run / deep)
    return tool.corner_radius * (cos(lean) + sin(lean) - 1) / cos(lean)


def leaves_corners(drawn: Groove, tool: Tool, tolerance: float) -> bool:
    """True if the corner radius left between slope and floor is that drawn, within half a tolerance square to it.

    Two radii in one corner lie at most as far apart as in a square one: (R - r) (sqrt 2 - 1). Corners drawn sharp are
    another matter (`planner.fit`).
    """
    apart = abs(drawn.corner_radius - tool.corner_radius) * (sqrt(2) - 1)
    return drawn.corner_radius <= EPS or apart <= tolerance / 2


def bears(drawn: Groove, core: Groove, tool: Tool) -> bool:
    """True if both slopes are steep enough for one cut of the insert's corner."""
    widest = max(drawn.z_near - core.z_near, core.z_far - drawn.z_far)
    return widest <= (tool.side_depth or SIDE_SHARE * tool.width) + EPS


def slope_steps(placed: Placed, start: int, setting: Setting) -> Iterator[Step]:
    """Both slopes of every groove of a row, from and to the start height."""
    increments, side, tool = setting.increments, placed.side, placed.tool
    feed, rise = increments.cutting_feed(tool.feed), increments.count(setting.shop.machine.clearance)
    for place, number in zip(placed.places, placed.grooves, strict=True):
        drawn, core = setting.drawn.grooves[number - 1], setting.part.grooves[number - 1]
        if drawn.shape != "tapered":
            continue
        for far_edge, outward, run in (
            (place, 1, drawn.z_near - core.z_near),
            (place - placed.layout.span, -1, core.z_far - drawn.z_far),
        ):
            if run * increments.per_length < 1:
                continue
            foot = far_edge + outward * increments.count(corner_shift(tool, run, drawn.depth))
            above = increments.count(run * (1 + setting.shop.machine.clearance / drawn.depth))
            yield placed.rapid(foot + outward * above)
            if (top := increments.count(drawn.mouth) + side.up * rise) != start:
                yield placed.rapid(height=top)
            yield placed.cut(feed, foot, placed.floor)
            yield placed.rapid(height=start)
