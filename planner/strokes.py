"""The cuts of one placed row, from its start point: cycles for the roughing, then what a cycle can't do.

Every stroke begins and ends at the start height, which stands above every land of the row; between strokes the tool
moves along Z there. A finishing pass goes down the near wall, along the floor as far as the roughing went, out, then
down the far wall and a little back over the floor; so the floor is cut sideways only as deep as the allowance.
"""

from collections.abc import Iterator, Sequence

from planner.chamfers import chamfer_steps
from planner.cutting import dwell_seconds, spindle_speed
from planner.moves import Setting
from planner.place import Placed
from planner.plan import Form
from planner.steps import Cut, Dwell, GrooveCycle, Rapid, Step
from planner.taper import slope_steps

# Sideways feed per revolution is kept below this share of the insert's width (trade rule, tool catalogues).
SIDE_FEED = 0.075
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
    steps += _dwelling(placed, start_x, setting)
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
    floor = placed.floor_x + placed.side.sign * 2 * placed.layout.finish
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


def _dwelling(placed: Placed, start_x: int, setting: Setting) -> Iterator[Step]:
    """A last plunge with a dwell at a floor whose tolerance the drawing gives, where the tool has a dwell."""
    tool, numbers = placed.tool, set(placed.grooves)
    toleranced = [
        g for g in setting.part.grooves if g.id in numbers and {"floor_diameter", "depth"} & set(g.tolerances)
    ]
    if not tool.dwell or not toleranced or placed.layout.finish:
        return
    yield from _last_plunges(placed, placed.layout.offsets, start_x, setting)


def _last_plunges(placed: Placed, offsets: Sequence[int], start_x: int, setting: Setting) -> Iterator[Step]:
    """Down to the floor once more at every plunge of every groove, with the dwell there."""
    increments, tool = setting.increments, placed.tool
    surface = setting.surface_speed(tool)
    turning = spindle_speed(surface, increments.length(placed.floor_x), setting.shop.machine.max_rpm, increments.units)
    pause = Dwell(max(1, round(1000 * dwell_seconds(tool.dwell, turning))))
    feed = max(1, increments.feed_count(tool.feed))
    for place in placed.places:
        for offset in offsets:
            yield Rapid(z=placed.reference(place - offset))
            yield Cut(feed, x=placed.floor_x)
            yield pause
            yield Rapid(x=start_x)
