"""Face grooves: cut along Z from in front, between two diameters.

A face groove has its outer wall at `mouth_diameter`, its inner wall at `floor_diameter`, its face at `z_near` and its
floor at `z_far`. X of a face tool is set to its outer edge ("near") or its inner edge ("far"). The first plunge is at
the outer wall if the insert's own limits (`face_min`, `face_max`) allow that diameter, else at the inner wall; further
ones follow across the groove. Every peck is written out.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from extractor.part import Groove, Part, ProfilePoints, Units
from planner.cuts.aims import EPS, Limits
from planner.cuts.moves import Setting, Spot
from planner.cuts.widen import gaps_for
from planner.fit import Fit, Misfit, corner_off, greatest_corner
from planner.increment import Increments
from planner.shop import Shop, Tool
from planner.steps import Cut, Rapid, Step


@dataclass(frozen=True)
class FaceRow:
    """One face groove on the grid.

    `outer_edges` are the diameter counts of the insert's outer edge in the order of cutting, `floor_z` and `start_z` z
    counts, `width` the insert's in radial counts.
    """

    grooves: tuple[int, ...]
    tool: Tool
    width: int
    outer_edges: tuple[int, ...]
    start_z: int
    floor_z: int

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
    slot = (groove.mouth_diameter - groove.floor_diameter) / 2
    if tool.where != "face" or tool.edge != "square":
        return Misfit(tool, "kind")
    if tool.width > slot + shop.machine.tolerance / 2 - EPS:
        return Misfit(tool, "width")
    if tool.corner_radius > greatest_corner(groove, shop) + EPS:
        return Misfit(tool, "corner")
    if groove.z_near - groove.z_far > tool.max_depth + EPS:
        return Misfit(tool, "reach")
    if _first(groove, tool, part.units) is None:
        return Misfit(tool, "sweep")
    span = slot - tool.width
    gaps = 0 if span <= _same(shop) else gaps_for(span, tool)[0]
    if not gaps and span > _same(shop):
        return Misfit(tool, "width")
    return Fit(tool, gaps + 1, 0.0, corner_off(groove, tool, shop))


def _same(shop: Shop) -> float:
    """The radial difference up to which insert and slot are equally wide, an increment spared for rounding."""
    return shop.machine.tolerance / 2 - Increments.of(shop.units).length(1)


def _first(groove: Groove, tool: Tool, units: Units) -> float | None:
    """The outer diameter of the first plunge: at the outer wall, else at the inner one, else nowhere."""
    top = tool.face_max or math.inf
    for outer in (groove.mouth_diameter, groove.floor_diameter + 2 * tool.width):
        if tool.face_min - EPS <= outer <= top + EPS:
            return outer
    return None


def place_face(groove: Groove, fit: Fit, setting: Setting) -> FaceRow:
    """One face groove on the grid."""
    increments, tool = setting.increments, fit.tool
    width, per = increments.count(tool.width), increments.per_length
    inner, outer = increments.count(groove.floor_diameter), increments.count(groove.mouth_diameter)
    if fit.plunges == 1:
        # A slot and an insert that differ by less than the tolerance share one middle.
        edges = [round((groove.floor_diameter + groove.mouth_diameter) / 2 * per) + width]
    else:
        low = inner + 2 * width
        edges = [round(outer + (low - outer) * i / (fit.plunges - 1)) for i in range(fit.plunges)]
        first = _first(groove, tool, setting.part.units)
        edges = edges if first == groove.mouth_diameter else edges[::-1]
        if gaps_for(increments.length(outer - low) / 2, tool)[1]:
            edges = edges[::2] + edges[1::2]
    plane = increments.count(groove.z_near) + increments.count(setting.shop.machine.clearance)
    floor = increments.count(floor_limits(groove, setting.shop.machine.tolerance).aim)
    return FaceRow((groove.id,), tool, width, tuple(edges), plane, floor)


def floor_limits(groove: Groove, tolerance: float) -> Limits:
    """Limits of z at the floor; a tolerance on the depth alone is one on the floor, turned round."""
    lower, upper = groove.tolerances.get("depth", (-tolerance, tolerance))
    lower, upper = groove.tolerances.get("z_far", (-upper, -lower))
    return Limits(groove.z_far + lower, groove.z_far + (lower + upper) / 2, groove.z_far + upper)


def face_start(row: FaceRow) -> Spot:
    """Where the first plunge begins."""
    return Spot(row.reference(row.outer_edges[0]), row.start_z)


def face_steps(row: FaceRow, setting: Setting) -> tuple[Step, ...]:
    """All plunges of a face groove; the tool stands at the start of the first."""
    steps: list[Step] = []
    for edge in row.outer_edges:
        if edge != row.outer_edges[0]:
            steps.append(Rapid(x=row.reference(edge)))
        steps += _plunge(row, setting.increments)
    return tuple(steps)


def _plunge(row: FaceRow, increments: Increments) -> Iterator[Step]:
    """One plunge in pecks, and back to the start plane."""
    tool = row.tool
    feed = max(1, increments.feed_count(tool.feed))
    peck = max(1, increments.count(tool.peck)) if tool.peck else row.start_z - row.floor_z
    back = increments.count(tool.retract)
    for z in range(row.start_z - peck, row.floor_z, -peck):
        yield Cut(feed, z=z)
        if back:
            yield Rapid(z=min(row.start_z, z + back))
    yield Cut(feed, z=row.floor_z)
    yield Rapid(z=row.start_z)
