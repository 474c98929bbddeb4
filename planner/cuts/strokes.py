"""The cuts of one placed row, from its start point: cycles for the roughing, then what a cycle can't do.

Every stroke begins and ends at the start height, which stands above every land of the row; between strokes the tool
moves along Z there. A finishing pass goes down the near wall, along the floor as far as the roughing went, out, then
down the far wall and a little back over the floor; so the floor is cut sideways only as deep as the allowance.
"""

from collections.abc import Iterator

from planner.cuts.chamfers import chamfer_steps
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.taper import slope_steps
from planner.cutting import dwell_seconds, spindle_speed
from planner.plan import Form
from planner.steps import Cut, Dwell, GrooveCycle, Rapid, Step

# Sideways feed per revolution is kept below this share of the insert's width (trade rule, tool catalogues).
SIDE_FEED = 0.075
# Depth over width from which the last of a plunge may be fed slower (common practice, no source).
DEEP = 3.0
Run = tuple[int, int, int]
"""Far edge of the first plunge, of the last, and the shift between them (0 for one)."""


def form_of(placed: Placed) -> Form:
    """Cycle if any of the roughing goes by a shift."""
    return "cycle" if any(shift for _, _, shift in runs(placed)) else "plunges"


def cutting_steps(placed: Placed, start_x: int, setting: Setting) -> tuple[Step, ...]:
    """All cuts of a row; the tool stands at the start point of the first."""
    steps: list[Step] = []
    at = placed.places[0] - placed.layout.order[0]
    for first, last, shift in runs(placed):
        if first != at:
            steps.append(Rapid(z=placed.reference(first)))
        steps.append(_cycle(placed, last, shift, setting))
        at = first
    steps += _finishing(placed, start_x, setting)
    steps += _last_plunges(placed, start_x, setting)
    steps += slope_steps(placed, start_x, setting)
    steps += chamfer_steps(placed, start_x, setting)
    return tuple(steps)


def runs(placed: Placed) -> list[Run]:
    """The fewest cycles that make every plunge: along the row plunge by plunge, or groove by groove."""
    offsets, shift = placed.layout.order, placed.shift
    along = [(placed.places[0] - o, placed.places[-1] - o, shift) for o in offsets]
    within = [(p - a, p - b, gap) for p in placed.places for a, b, gap in _within(placed)]
    return within if len(within) <= len(along) else along


def _within(placed: Placed) -> list[Run]:
    """The cycles of one groove as offsets: all plunges, or the full ones and then the ribs, one by one where uneven."""
    offsets, gap, ribs = placed.layout.offsets, placed.layout.gap, placed.layout.ribs
    if not gap:
        return [(o, o, 0) for o in placed.layout.order]
    if not ribs:
        return [(offsets[0], offsets[-1], gap)]
    full, between = offsets[::2], offsets[1::2]
    return [(some[0], some[-1], 2 * gap if len(some) > 1 else 0) for some in (full, between)]


def _cycle(placed: Placed, last: int, shift: int, setting: Setting) -> GrooveCycle:
    """One cycle with the tool's own peck, retract and feed, down to the floor or the allowance above it."""
    count, tool = setting.increments.count, placed.tool
    peck = max(1, count(tool.peck)) if tool.peck else 0
    floor = placed.floor_x + placed.side.sign * 2 * (placed.layout.finish + slow_part(placed, setting))
    feed = max(1, setting.increments.feed_count(tool.feed))
    return GrooveCycle(floor, placed.reference(last), peck, shift, count(tool.retract), feed)


def _finishing(placed: Placed, start_x: int, setting: Setting) -> Iterator[Step]:
    """Wall, floor, wall for every groove of the row, where an allowance was left."""
    finish, span, tool = placed.layout.finish, placed.layout.span, placed.tool
    if not finish:
        return
    feed = max(1, setting.increments.feed_count(tool.feed))
    side = max(1, min(feed, setting.increments.feed_count(SIDE_FEED * tool.width)))
    back = min(span, finish + setting.increments.count(max(2 * tool.corner_radius, 0.1 * tool.width)))
    for near_wall in placed.places:
        near, far = placed.reference(near_wall), placed.reference(near_wall - span)
        yield Rapid(z=near)
        yield Cut(feed, x=placed.floor_x)
        yield Cut(side, z=placed.reference(near_wall - placed.layout.offsets[-1]))
        yield Rapid(x=start_x)
        yield Rapid(z=far)
        yield Cut(feed, x=placed.floor_x)
        yield Cut(side, z=far + back)
        yield Rapid(x=start_x)


def _last_plunges(placed: Placed, start_x: int, setting: Setting) -> Iterator[Step]:
    """Down to the floor at every plunge of every groove: the last of a deep one slower, with a dwell if asked for."""
    increments, tool, left = setting.increments, placed.tool, slow_part(placed, setting)
    pause = _pause(placed, setting)
    if not left and not pause:
        return
    feed = max(1, increments.feed_count(tool.feed))
    slow = max(1, increments.feed_count(tool.feed * tool.last_feed))
    for place in placed.places:
        for offset in placed.layout.order:
            yield Rapid(z=placed.reference(place - offset))
            if left:
                yield Cut(feed, x=placed.floor_x + placed.side.sign * 2 * left)
            yield Cut(slow if left else feed, x=placed.floor_x)
            yield from pause
            yield Rapid(x=start_x)


def slow_part(placed: Placed, setting: Setting) -> int:
    """Radial counts at the bottom of a deep plunge that are left for a slower feed; 0 where none are."""
    tool, numbers = placed.tool, set(placed.grooves)
    deepest = max(groove.depth for groove in setting.part.grooves if groove.id in numbers)
    if tool.last_feed >= 1 or placed.layout.finish or deepest <= DEEP * tool.width:
        return 0
    return placed.width


def _pause(placed: Placed, setting: Setting) -> tuple[Dwell, ...]:
    """The dwell at a floor whose tolerance the drawing gives, where the tool has one."""
    tool, numbers, increments = placed.tool, set(placed.grooves), setting.increments
    grooves = [groove for groove in setting.part.grooves if groove.id in numbers]
    toleranced = any({"floor_diameter", "depth"} & set(groove.tolerances) for groove in grooves)
    if not tool.dwell or not toleranced or placed.layout.finish:
        return ()
    across, limit = increments.length(placed.floor_x), setting.shop.machine.max_rpm
    turning = spindle_speed(setting.surface_speed(tool), across, limit, increments.units)
    return (Dwell(max(1, round(1000 * dwell_seconds(tool.dwell, turning)))),)
