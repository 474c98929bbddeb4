"""Rows over a shoulder: one cycle over the highest land between, or one on either side of it.

A cycle starts above the highest land that it passes, so at every groove it feeds down to the metal through air, peck by
peck. One cycle is kept as long as that takes less than a stated share of what the cutting itself takes. Where the
control has no cycle there is nothing to save, and every peck in air is a block: there the row is split at any shoulder.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from planner.cuts.beside import start_height, start_of
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.strokes import cutting_steps
from planner.steps import Spindle, SpindleClamp
from planner.words import figure, numbers

# Time through air over time of cutting up to which one cycle more isn't worth its blocks (common practice, no source).
AIR_SHARE = 0.5
# Less air than so many seconds is not worth a word.
HARDLY = 0.05


def parted(row: Placed, setting: Setting) -> list[Placed]:
    """The row, or the rows on either side of shoulders that are not worth going over; with the reason."""
    rows = list(_shares(row, setting))
    if len(rows) == 1:
        return [replace(row, notes=tuple(_why_kept(row, setting)))]
    return [replace(part, notes=(_why_parted(part, rows, row, setting), *_why_kept(part, setting))) for part in rows]


def seconds_of(row: Placed, setting: Setting) -> float:
    """Seconds of a row's cuts from its start and back to it."""
    start, clock = start_of(row, setting), setting.clock()
    clock.run((SpindleClamp(setting.shop.machine.max_rpm), Spindle("surface", int(setting.surface_speed(row.tool)))))
    clock.x, clock.z = start.x, start.z
    return clock.run(cutting_steps(row, setting))


def _shares(row: Placed, setting: Setting) -> Iterator[Placed]:
    """The row, parted where it goes over its highest lands if that is worth it, and so on with the parts."""
    parts = _at_the_highest(row, setting)
    limit = AIR_SHARE if setting.cycles != "none" else 0.0
    if len(parts) == 1 or _air(row, setting) <= limit * (seconds_of(row, setting) - _air(row, setting)) + HARDLY:
        yield row
        return
    for part in parts:
        yield from _shares(part, setting)


def _air(row: Placed, setting: Setting) -> float:
    """Seconds more than if the row were parted at every land that it goes over."""
    parts = list(_everywhere(row, setting))
    return seconds_of(row, setting) - sum(seconds_of(part, setting) for part in parts) if len(parts) > 1 else 0.0


def _everywhere(row: Placed, setting: Setting) -> Iterator[Placed]:
    """The row parted at every land that it goes over."""
    parts = _at_the_highest(row, setting)
    if len(parts) == 1:
        yield row
        return
    for part in parts:
        yield from _everywhere(part, setting)


def _at_the_highest(row: Placed, setting: Setting) -> list[Placed]:
    """The row parted between each two grooves whose land between makes it start as high as it does."""
    height = start_height(row, setting)
    if height == start_height(_part(row, 0, 1), setting):
        return [row]
    own = [start_height(_part(row, k, k + 1), setting) for k in range(len(row.places))]
    pairs = [start_height(_part(row, k, k + 2), setting) for k in range(len(row.places) - 1)]
    cuts = [k + 1 for k, pair in enumerate(pairs) if pair >= height > max(own[k], own[k + 1])]
    ends = [0, *cuts, len(row.places)]
    return [_part(row, first, last) for first, last in pairwise(ends)]


def _part(row: Placed, first: int, last: int) -> Placed:
    """Some of a row's grooves as a row of their own."""
    return replace(row, grooves=row.grooves[first:last], places=row.places[first:last])


def _height(row: Placed, setting: Setting) -> str:
    """The land that a row starts above, as a figure."""
    clearance = row.side.up * setting.increments.count(setting.shop.machine.clearance)
    land = row.side.sign * (start_height(row, setting) - clearance)
    return figure(setting.increments.length(land), setting.part.units)


def _why_kept(row: Placed, setting: Setting) -> Iterator[str]:
    """What it takes that a row goes on over a land, if it does."""
    air = _air(row, setting)
    if air > HARDLY:
        land = _height(row, setting)
        yield f"One cycle goes over the land between at {land}: {air:.1f} s through air, and a cycle saved."


def _why_parted(part: Placed, rows: Sequence[Placed], row: Placed, setting: Setting) -> str:
    """Why some of a row are cut apart from the others."""
    others = [number for other in rows if other is not part for number in other.grooves]
    air = seconds_of(row, setting) - sum(seconds_of(other, setting) for other in rows)
    them = (
        f"{numbers(part.grooves)} {'is' if len(part.grooves) == 1 else 'are'} cut apart from {numbers(others).lower()}"
    )
    if setting.cycles == "none":
        return f"{them}: over the higher land between, each groove would begin with pecks in air, a block each."
    return f"{them}: one cycle over the land between at {_height(row, setting)} would feed {air:.0f} s through air."
