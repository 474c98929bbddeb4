"""The finishing path of a row of recesses as steps: wall, floor, wall for each, from and to the start height."""

from collections.abc import Iterator, Sequence

from planner.cuts.contour import Contour
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.trace import Move
from planner.increment import Increments
from planner.shop import Tool
from planner.steps import Arc, Step

# Sideways feed per revolution is kept below this share of the insert's width (trade rule, tool catalogues).
SIDE_FEED = 0.075


def side_feed(tool: Tool, increments: Increments) -> int:
    """Feed counts for a cut along the axis: the tool's own, less where that would be too much for its width."""
    return min(increments.cutting_feed(tool.feed), increments.cutting_feed(SIDE_FEED * tool.width))


def path_steps(placed: Placed, contour: Contour, start: int, setting: Setting) -> Iterator[Step]:
    """Both halves of every recess of a row."""
    for place in placed.places:
        for half in (contour.near, contour.far):
            yield placed.rapid(place + half[0].z)
            yield from _half(placed, place, half, setting.increments)
            yield placed.rapid(height=start)


def _half(placed: Placed, place: int, moves: Sequence[Move], increments: Increments) -> Iterator[Step]:
    """The cuts of one half; a straight move that runs more along the axis than down has the feed of a side cut."""
    tool, side = placed.tool, placed.side
    down, aside = increments.cutting_feed(tool.feed), side_feed(tool, increments)
    last = moves[0]
    for move in moves:
        edge, height = place + move.z, placed.floor + move.x
        feed = down if 2 * abs(move.z - last.z) <= abs(move.x - last.x) else aside
        if move.radius:
            x, z = side.machine(placed.reference(edge), height)
            yield Arc(feed=aside, x=x, z=z, radius=move.radius, clockwise=move.clockwise != side.hollow)
        else:
            stays = move is not moves[0] and move.x == last.x
            yield placed.cut(feed, None if move.z == last.z else edge, None if stays else height)
        last = move
