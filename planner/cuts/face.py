"""Face grooves: which insert cuts them along Z from in front, and where its plunges go between two diameters.

A face groove has its outer wall at `mouth_diameter`, its inner wall at `floor_diameter`, its face at `z_near` and its
floor at `z_far`. X of a face tool is set to its outer edge ("near") or its inner edge ("far"). A plunge into solid
metal needs an outer diameter between the insert's own limits (`face_min`, `face_max`), because its body is curved to
pass the walls: so the first one is at the outer wall if that lies between them, else at the inner wall, and the others
follow beside it. Full plunges with ribs between them are all into solid: they come only where the limits allow each.
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

from extractor.limits import EPS, aims_of
from extractor.part import Groove, Part, ProfilePoints
from planner.cuts.moves import Setting
from planner.cuts.widen import GREATEST_STEP, LEAST_LAP, gaps_for
from planner.fit import UNKNOWN_HOLDER, Fit, Misfit, corner_off, greatest_corner
from planner.increment import Increments
from planner.shop import Shop, Tool


@dataclass(frozen=True)
class FaceRow:
    """One face groove on the grid.

    `outer_edges` are the diameter counts of the insert's outer edge in the order of cutting, `floor_z`, `face_z` and
    `start_z` z counts, `width` the insert's in radial counts. `walls`: diameter counts of outer and inner wall as aimed
    at. `finish`: metal left on walls and floor (radial and axial), `ribs` as in `planner.cuts.widen`.
    """

    grooves: tuple[int, ...]
    tool: Tool
    width: int
    outer_edges: tuple[int, ...]
    start_z: int
    floor_z: int
    face_z: int
    walls: tuple[int, int]
    finish: int = 0
    ribs: bool = False

    def reference(self, outer_edge: int) -> int:
        """X of the reference edge when the outer edge is at a diameter count."""
        return outer_edge if self.tool.reference == "near" else outer_edge - 2 * self.width


def front_plane(lands: ProfilePoints, diameter: float) -> float:
    """The z at which metal begins on a diameter, seen from the front; minus infinity where there is none.

    >>> front_plane(((0.0, 15.0), (-20.0, 15.0), (-20.0, 30.0), (-60.0, 30.0)), 40.0)
    -20.0
    """
    z_before, radius_before = 0.0, 0.0
    for z, radius in lands:
        if radius >= diameter / 2 - EPS:
            share = (diameter / 2 - radius_before) / (radius - radius_before) if radius > radius_before else 0.0
            return z_before + (z - z_before) * min(1.0, max(0.0, share))
        z_before, radius_before = z, radius
    return -math.inf


def faces_front(groove: Groove, part: Part, tolerance: float) -> bool:
    """True if the groove is cut into metal that begins at its face, seen from the front."""
    planes = [front_plane(part.lands, groove.floor_diameter), front_plane(part.lands, groove.mouth_diameter)]
    return max(planes) <= groove.z_near + tolerance and groove.z_far < min(planes)


def fit_face(groove: Groove, tool: Tool, part: Part, shop: Shop) -> Fit | Misfit:
    """Hold one insert against one face groove."""
    if tool.where != "face" or tool.edge != "square":
        return Misfit(tool, "kind")
    slot, spare = _slot(groove, shop)
    if tool.width > slot + spare:
        return Misfit(tool, "width")
    if tool.corner_radius > greatest_corner(groove, shop) + EPS:
        return Misfit(tool, "corner")
    if face_reach(groove, tool, part) > tool.max_depth + EPS:
        return Misfit(tool, "reach")
    if _step(tool) <= EPS and slot - tool.width > spare:
        return Misfit(tool, "width")
    edges = _plunges(groove, tool, shop).edges
    return Fit(tool, len(edges), 0.0, corner_off(groove, tool, shop)) if edges else Misfit(tool, "sweep")


def face_reach(groove: Groove, tool: Tool, part: Part) -> float:
    """How far the insert must reach: down to the floor from the metal in front that the holder meets beside it."""
    unknown = UNKNOWN_HOLDER[part.units]
    inner = groove.floor_diameter - 2 * (unknown if tool.holder_far is None else tool.holder_far)
    hole = 2 * part.bore[0][1] if part.bore else 0.0
    return max(groove.z_near, front_plane(part.lands, max(inner, hole + 2 * EPS, 2 * EPS))) - groove.z_far


def _slot(groove: Groove, shop: Shop) -> tuple[float, float]:
    """The radial width to be cut, and by how much an insert may differ from it to cut it in one plunge."""
    aims = aims_of(groove, shop.machine.tolerance)
    outer, inner = aims.near, aims.far
    # An increment is spared for rounding.
    spare = shop.machine.tolerance / 2 - Increments.of(shop.units).length(1)
    if outer.given and inner.given:
        spare = max(spare, outer.inner.spread / 2, inner.inner.spread / 2)
    return (outer.aim - inner.aim) / 2, spare


def _allows(tool: Tool, outer: float) -> bool:
    """True if the insert may plunge into solid metal with its outer edge on a diameter."""
    return tool.face_min - EPS <= outer <= (tool.face_max or math.inf) + EPS


def _step(tool: Tool) -> float:
    """The greatest step between two plunges side by side."""
    return min(GREATEST_STEP, 1 - LEAST_LAP - 2 * tool.corner_radius / tool.width) * tool.width


class _Plunges(NamedTuple):
    """Outer diameters of the plunges in the order of cutting, none where no first one is allowed; as in `FaceRow`."""

    edges: tuple[float, ...]
    finish: float = 0.0
    ribs: bool = False


def _plunges(groove: Groove, tool: Tool, shop: Shop) -> _Plunges:
    """Where the insert comes down: at either wall or off it by the allowance, and between."""
    aims = aims_of(groove, shop.machine.tolerance)
    outer, inner = aims.near.aim, aims.far.aim
    slot, spare = _slot(groove, shop)
    low = inner + 2 * tool.width
    top, bottom = outer - 2 * tool.finish, low + 2 * tool.finish
    if slot - tool.width <= spare or top - bottom <= 2 * tool.finish + EPS:
        # A slot and an insert that differ by less than the tolerance share one middle.
        finish = 0.0 if slot - tool.width <= spare else tool.finish
        middle = (outer + low) / 2
        return _Plunges((middle,) if _allows(tool, middle) else (), finish)
    gaps, ribs = gaps_for((top - bottom) / 2, tool)
    ribs = ribs and bool(tool.face_max) and _allows(tool, top) and _allows(tool, bottom)
    if not ribs:
        gaps = max(1, math.ceil(((top - bottom) / 2 - EPS) / _step(tool)))
    edges = tuple(top + (bottom - top) * i / gaps for i in range(gaps + 1))
    edges = edges if _allows(tool, top) else edges[::-1] if _allows(tool, bottom) else ()
    return _Plunges(edges[::2] + edges[1::2] if ribs else edges, tool.finish, ribs)


def place_face(groove: Groove, fit: Fit, setting: Setting) -> FaceRow:
    """One face groove on the grid."""
    increments, tool, tolerance = setting.increments, fit.tool, setting.shop.machine.tolerance
    plunges = _plunges(groove, tool, setting.shop)
    aims = aims_of(groove, tolerance)
    return FaceRow(
        (groove.id,),
        tool,
        increments.count(tool.width),
        tuple(increments.count(edge) for edge in plunges.edges),
        increments.count(groove.z_near) + increments.count(setting.shop.machine.clearance),
        increments.count(aims.floor.aim),
        increments.count(groove.z_near),
        (increments.count(aims.near.aim), increments.count(aims.far.aim)),
        increments.count(plunges.finish),
        plunges.ribs,
    )
