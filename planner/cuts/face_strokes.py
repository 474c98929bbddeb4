"""The cuts of a face groove: plunges along Z, the finishing pass, the chamfers at its mouth.

Every stroke begins and ends a clearance in front of the face; between strokes the tool moves along X there. No cycle is
used: one along Z would have to be called anew for each X, and its pecks are as plainly written out. A finishing pass
goes down the outer wall, inward along the floor as far as the roughing went, out, then down the inner wall and a little
back over the floor. Chamfers are cut as on the outside (planner.cuts.chamfers), with the insert's corner.
"""

from collections.abc import Iterator
from math import ceil

from extractor.limits import is_limited
from extractor.part import Groove
from planner.cuts.chamfers import CORNER_SHARE
from planner.cuts.face import FaceRow, front_plane
from planner.cuts.moves import Setting, Spot
from planner.cuts.paths import side_feed
from planner.cuts.strokes import DEEP
from planner.cuts.widen import finish_lap
from planner.cutting import dwell_seconds, spindle_speed
from planner.steps import Cut, Dwell, Rapid, Step


def face_start(row: FaceRow) -> Spot:
    """Where the first plunge begins."""
    return Spot(row.reference(row.outer_edges[0]), row.start_z)


def face_steps(row: FaceRow, setting: Setting) -> tuple[Step, ...]:
    """All cuts of a face groove; the tool stands at the start of the first plunge."""
    steps: list[Step] = []
    for edge in row.outer_edges:
        if edge != row.outer_edges[0]:
            steps.append(Rapid(x=row.reference(edge)))
        steps += _plunge(row, edge, setting)
    return (*steps, *_finishing(row, setting), *_chamfers(row, setting))


def face_hop(last: FaceRow, row: FaceRow, setting: Setting) -> tuple[Step, ...]:
    """From one face groove to another with the same tool, in front of all metal on the way."""
    count, start = setting.increments.count, face_start(row)
    # A width farther in than the walls, where the chamfers of the inner rim are cut from.
    lowest = setting.increments.length(min(row.walls[1], last.walls[1]) - 2 * row.width)
    front = front_plane(setting.part.lands, max(lowest, setting.shop.machine.tolerance))
    height = max(count(front) + count(setting.shop.machine.clearance), last.start_z, row.start_z)
    return Rapid(z=height), Rapid(x=start.x), Rapid(z=start.z)


def slow_part(row: FaceRow) -> int:
    """Counts at the bottom of a deep plunge that go at a slower feed; 0 where none do."""
    deep = row.tool.last_feed < 1 and not row.finish and row.face_z - row.floor_z > DEEP * row.width
    return row.width if deep else 0


def bevelled(row: FaceRow, setting: Setting) -> tuple[bool, bool]:
    """Whether the chamfers of the outer and the inner rim are cut: known as such, with room for the way down."""
    groove, machine = _groove(row, setting), setting.shop.machine
    deep = groove.edge_chamfer + CORNER_SHARE * row.tool.corner_radius < groove.width / 2
    way = 2 * (groove.edge_chamfer + CORNER_SHARE * row.tool.corner_radius + machine.clearance)
    level = groove.z_near + machine.tolerance
    inward = front_plane(setting.part.lands, max(groove.floor_diameter - way, machine.tolerance)) <= level
    wanted = deep and groove.edge_chamfer > machine.tolerance
    outer, inner = groove.bevelled
    return wanted and outer, wanted and inner and inward and groove.floor_diameter > way


def _groove(row: FaceRow, setting: Setting) -> Groove:
    """The groove of a row."""
    return setting.drawn.grooves[row.grooves[0] - 1]


def _plunge(row: FaceRow, edge: int, setting: Setting) -> Iterator[Step]:
    """One plunge in pecks, the last of a deep one slower, with a dwell at a toleranced floor; back to the start."""
    tool, increments = row.tool, setting.increments
    feed = increments.cutting_feed(tool.feed)
    floor = row.floor_z + row.finish
    slow_from = floor + slow_part(row)
    peck = max(1, increments.count(tool.peck)) if tool.peck else row.start_z - floor
    back = increments.count(tool.retract)
    # Pecks are counted from the face: the air in front of it needs none.
    for z in range(row.face_z - peck, slow_from, -peck):
        yield Cut(feed, z=z)
        if back:
            yield Rapid(z=min(row.start_z, z + back))
    if slow_from > floor:
        yield Cut(feed, z=slow_from)
    yield Cut(increments.cutting_feed(tool.feed * tool.last_feed) if slow_from > floor else feed, z=floor)
    yield from pauses(row, setting, edge)
    yield Rapid(z=row.start_z)


def pauses(row: FaceRow, setting: Setting, edge: int | None = None) -> tuple[Dwell, ...]:
    """The dwell at a floor whose place the drawing limits, where the tool has one; `edge` the outer edge's diameter."""
    machine, tool = setting.shop.machine, row.tool
    if not tool.dwell or row.finish or not is_limited(_groove(row, setting), "z_far"):
        return ()
    across = setting.increments.length(row.reference(row.outer_edges[0] if edge is None else edge))
    turning = spindle_speed(setting.surface_speed(tool), across, machine.max_rpm, setting.increments.units)
    return (Dwell(max(1, round(1000 * dwell_seconds(tool.dwell, turning)))),)


def _finishing(row: FaceRow, setting: Setting) -> Iterator[Step]:
    """Wall, floor, wall, where an allowance was left."""
    if not row.finish:
        return
    increments, tool = setting.increments, row.tool
    feed, side = increments.cutting_feed(tool.feed), side_feed(tool, increments)
    outer, inner = row.reference(row.walls[0]), row.reference(row.walls[1] + 2 * row.width)
    lap = finish_lap(tool, increments)
    yield Rapid(x=outer)
    yield Cut(feed, z=row.floor_z)
    yield Cut(side, x=row.reference(min(row.outer_edges)))
    yield Rapid(z=row.start_z)
    yield Rapid(x=inner)
    yield Cut(feed, z=row.floor_z)
    yield Cut(side, x=min(outer, inner + 2 * (row.finish + lap)))
    yield Rapid(z=row.start_z)


def _chamfers(row: FaceRow, setting: Setting) -> Iterator[Step]:
    """Both chamfers at the mouth, as far as they are known and can be cut."""
    increments, groove = setting.increments, _groove(row, setting)
    feed = increments.cutting_feed(row.tool.feed)
    low = increments.count(groove.edge_chamfer) + ceil(CORNER_SHARE * increments.count(row.tool.corner_radius) - 1e-9)
    way = low + row.start_z - row.face_z
    walls = ((row.walls[0], 1), (row.walls[1] + 2 * row.width, -1))
    for (edge, outward), wanted in zip(walls, bevelled(row, setting), strict=True):
        if wanted:
            yield Rapid(x=row.reference(edge) + 2 * outward * way)
            yield Cut(feed, x=row.reference(edge), z=row.face_z - low)
            yield Rapid(z=row.start_z)
