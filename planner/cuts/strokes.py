"""The cuts of one placed row, from its start point: cycles for roughing, then whatever a cycle can't do.

Every stroke begins and ends at the start height, which stands above every land of the row; between strokes the tool
moves along Z there, and beside a shoulder `planner.cuts.beside` puts in a way round. A finishing pass goes down the
near wall, along the floor as far as the roughing went, out, then down the far wall and a little back over the floor;
so the floor is cut sideways only as deep as the allowance.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from extractor.limits import EPS, is_limited
from extractor.part import Groove
from planner.cuts.beside import Beside, off_the_faces, start_of
from planner.cuts.chamfers import chamfer_steps
from planner.cuts.moves import Setting
from planner.cuts.paths import path_steps, side_feed
from planner.cuts.place import Placed
from planner.cuts.taper import slope_steps
from planner.cuts.widen import finish_lap
from planner.cutting import dwell_seconds, spindle_speed
from planner.plan import Form
from planner.steps import Dwell, GrooveCycle, Step

# Depth over width from which the last of a plunge may be fed slower (common practice, no source).
DEEP = 3.0
# Groups of ISO 513 in which a plunge no deeper than the insert is wide needs no pecks (common practice, no source).
IN_ONE_GO = ("P", "K")


class PlungeRun(NamedTuple):
    """Far edge of the first plunge, of the last, the shift between them (0 for one), and how far above the floor."""

    first: int
    last: int
    shift: int
    rise: int = 0

    @property
    def places(self) -> range | tuple[int, ...]:
        """Every place of it, toward lower u."""
        return range(self.first, self.last - 1, -self.shift) if self.shift else (self.first,)


def form_of(placed: Placed, setting: Setting) -> Form:
    """Cycle if any of the roughing goes by a shift, and by a cycle."""
    by_cycle = not written_out(placed, setting) and any(run.shift for run in runs(placed))
    return "cycle" if by_cycle else "plunges"


def cutting_steps(placed: Placed, setting: Setting) -> tuple[Step, ...]:
    """All cuts of a row; the tool stands at the start of the row (`planner.cuts.beside`)."""
    known = placed.worked_out
    if id(setting) not in known:
        beside = Beside(placed, setting)
        cuts = off_the_faces(tuple(_strokes(placed, beside, setting)), beside, start_of(placed, setting))
        known[id(setting)] = setting, tuple(cuts)  # the setting is kept, so that no other has its number
    steps: tuple[Step, ...] = known[id(setting)][1]
    return steps


def _strokes(placed: Placed, beside: Beside, setting: Setting) -> Iterator[Step]:
    """The cuts as if no shoulder stood beside; the tool stands above the first plunge."""
    start, written = beside.start, written_out(placed, setting)
    at = placed.places[0] - placed.layout.order[0]
    for run in _apart(placed, beside, setting):
        if run.first != at:
            yield placed.rapid(run.first)
        if written:
            yield from _plunge(placed, run, start, setting)
        else:
            yield _cycle(placed, run, setting)
        at = run.first
    if placed.contour is not None:
        yield from path_steps(placed, placed.contour, start, setting)
        return
    yield from _finishing(placed, start, setting)
    yield from slope_steps(placed, start, setting)
    yield from chamfer_steps(placed, start, setting)


def written_out(placed: Placed, setting: Setting) -> bool:
    """True if every plunge is written out: on a face, where the control has no cycle, and where one can't end slower.

    A dwell and a slower feed belong to the last peck of a plunge, which no cycle can say.
    """
    slower = placed.contour is None and (slow_part(placed, setting) or pauses(placed, setting))
    return not placed.side.axial or setting.cycles == "none" or bool(slower)


def _apart(placed: Placed, beside: Beside, setting: Setting) -> list[PlungeRun]:
    """The runs as they are cut: one by one where plunges are written out, and beside a face, where no cycle may go."""
    found = runs(placed)
    if written_out(placed, setting):
        if placed.contour is None:
            return [
                PlungeRun(place - offset, place - offset, 0)
                for place in placed.places
                for offset in placed.layout.order
            ]
        return [PlungeRun(place, place, 0, run.rise) for run in found for place in run.places]
    apart: list[PlungeRun] = []
    for run in found:
        for near_a_face, group in groupby(run.places, key=beside.touches):
            some = list(group)
            if near_a_face:
                apart += [PlungeRun(place, place, 0, run.rise) for place in some]
            else:
                apart.append(PlungeRun(some[0], some[-1], run.shift if len(some) > 1 else 0, run.rise))
    return apart


def runs(placed: Placed) -> list[PlungeRun]:
    """The fewest cycles that make every plunge: along the row plunge by plunge, or groove by groove."""
    shift = placed.shift
    along = [PlungeRun(placed.places[0] - o, placed.places[-1] - o, shift, rise) for o, rise in _plunges(placed)]
    within = [PlungeRun(p - a, p - b, gap, rise) for p in placed.places for a, b, gap, rise in _within(placed)]
    return within if len(within) <= len(along) else along


def _plunges(placed: Placed) -> list[tuple[int, int]]:
    """Offset of every plunge and its rise above the floor, in the order of cutting."""
    if placed.contour is not None:
        return [(plunge.offset, plunge.rise) for plunge in placed.contour.plunges]
    return [(offset, 0) for offset in placed.layout.order]


def _within(placed: Placed) -> list[PlungeRun]:
    """The cycles of one groove as offsets: all plunges, or the full ones and then the ribs, one by one where uneven."""
    if placed.contour is not None:
        level = [plunge.offset for plunge in placed.contour.plunges[: placed.contour.level]]
        steps = placed.contour.plunges[placed.contour.level :]
        even = _even(sorted(level), placed.contour.ribs, placed.contour.plunges[0].rise)
        return [*even, *(PlungeRun(step.offset, step.offset, 0, step.rise) for step in steps)]
    if not placed.layout.gap:
        return [PlungeRun(o, o, 0) for o in placed.layout.order]
    return _even(placed.layout.offsets, placed.layout.ribs, 0)


def _even(offsets: Sequence[int], ribs: bool, rise: int) -> list[PlungeRun]:
    """The cycles of even plunges at one depth, offsets rising."""
    gap = offsets[1] - offsets[0] if len(offsets) > 1 else 0
    if not ribs:
        return [PlungeRun(offsets[0], offsets[-1], gap, rise)]
    full, between = offsets[::2], offsets[1::2]
    return [PlungeRun(some[0], some[-1], 2 * gap if len(some) > 1 else 0, rise) for some in (full, between)]


def _grooves_of(placed: Placed, setting: Setting) -> list[Groove]:
    """The grooves of a row, as cut."""
    return [setting.part.grooves[number - 1] for number in placed.grooves]


def _cycle(placed: Placed, run: PlungeRun, setting: Setting) -> GrooveCycle:
    """One cycle with the tool's own peck, retract and feed, down to the floor or as far above it as is left there."""
    count, tool, side = setting.increments.count, placed.tool, placed.side
    floor = side.sign * (placed.floor + side.up * placed.layout.finish + run.rise)
    feed = setting.increments.cutting_feed(tool.feed)
    return GrooveCycle(
        floor_x=floor,
        end_z=placed.reference(run.last),
        peck=peck_of(placed, setting),
        shift=run.shift,
        retract=count(tool.retract),
        feed=feed,
    )


def peck_of(placed: Placed, setting: Setting) -> int:
    """Counts of a peck: the tool's own; 0 where one reaches the floor, or the material needs none at this depth."""
    tool, increments = placed.tool, setting.increments
    # What is truly cut counts, down to where the floor is aimed.
    mouth = max(increments.count(groove.mouth) for groove in _grooves_of(placed, setting))
    deepest = increments.length(mouth - placed.floor) / placed.side.up
    easy = setting.shop.material.group in IN_ONE_GO and deepest <= tool.width + EPS
    if deepest <= tool.peck + EPS or not tool.peck or easy:
        return 0
    return max(1, increments.count(tool.peck))


def _plunge(placed: Placed, run: PlungeRun, start: int, setting: Setting) -> Iterator[Step]:
    """One plunge written out in pecks, the last of a deep one slower, with a dwell at a toleranced floor."""
    tool, increments, side = placed.tool, setting.increments, placed.side
    feed = increments.cutting_feed(tool.feed)
    floor = placed.floor + side.up * placed.layout.finish + run.rise
    slow_from = floor + side.up * slow_part(placed, setting)
    peck = side.up * peck_of(placed, setting) or start - floor
    back = side.up * increments.count(tool.retract)
    slowly = increments.cutting_feed(tool.feed * tool.last_feed)
    # Pecks are counted from the mouth: the air above it needs none.
    mouth = max(increments.count(groove.mouth) for groove in _grooves_of(placed, setting))
    above = start
    for height in (*range(mouth - peck, floor, -peck), floor):
        if height < slow_from < above:
            yield placed.cut(feed, height=slow_from)
        yield placed.cut(slowly if height < slow_from else feed, height=height)
        if back and height != floor:
            yield placed.rapid(height=min(start, height + back))
        above = height
    if placed.contour is None:
        yield from pauses(placed, setting, run.first)
    yield placed.rapid(height=start)


def _finishing(placed: Placed, start: int, setting: Setting) -> Iterator[Step]:
    """Wall, floor, wall for every groove of the row, where an allowance was left."""
    finish, span, tool = placed.layout.finish, placed.layout.span, placed.tool
    if not finish:
        return
    feed = setting.increments.cutting_feed(tool.feed)
    aside = side_feed(tool, setting.increments)
    back = min(span, placed.side.along * (finish + finish_lap(tool, setting.increments)))
    for near in placed.places:
        far = near - span
        yield placed.rapid(near)
        yield placed.cut(feed, height=placed.floor)
        yield placed.cut(aside, near - placed.layout.offsets[-1])
        yield placed.rapid(height=start)
        yield placed.rapid(far)
        yield placed.cut(feed, height=placed.floor)
        yield placed.cut(aside, far + back)
        yield placed.rapid(height=start)


def slow_part(placed: Placed, setting: Setting) -> int:
    """Counts of depth at the bottom of a deep plunge that are left for a slower feed; 0 where none are."""
    tool = placed.tool
    if tool.last_feed >= 1 or placed.layout.finish or placed.contour is not None:
        return 0
    deepest = max(groove.depth for groove in _grooves_of(placed, setting))
    return 0 if deepest <= DEEP * tool.width else setting.increments.count(tool.width)


def pauses(placed: Placed, setting: Setting, far_edge: int | None = None) -> tuple[Dwell, ...]:
    """The dwell at a floor that the drawing gives a tolerance, where the tool has a dwell.

    `far_edge`: the plunge of a face groove meant, the first one where none is named.
    """
    tool, increments = placed.tool, setting.increments
    if not tool.dwell or placed.layout.finish:
        return ()
    if not any(is_limited(groove, groove.side.bottom) for groove in _grooves_of(placed, setting)):
        return ()
    at = placed.places[0] - placed.layout.order[0] if far_edge is None else far_edge
    x, _ = placed.side.machine(placed.reference(at), placed.floor)
    across, limit = increments.length(x), setting.shop.machine.max_rpm
    turning = spindle_speed(setting.surface_speed(tool), across, limit, increments.units)
    # A control of coarse steps may have no finer ones for seconds: the digits behind X are those of a length.
    step = max(1, 1000 // increments.per_length)
    return (Dwell(step * max(1, round(1000 * dwell_seconds(tool.dwell, turning) / step))),)
