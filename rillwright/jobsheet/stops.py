"""What the stepping picture needs: the moves, where stepping stops, and how places map to the picture.

A stop is the end of a stretch of moves of one block: each cut of a block is a stop of its own, a block that only
positions is one, and a block that moves nothing is one too, so that stepping reads like single block at the control.
"""

from collections.abc import Sequence
from itertools import pairwise

from postproc.reading.interpreter import FAR_HOME
from rillwright.jobsheet.scene import Scene
from rillwright.jobsheet.stage import Stage
from rillwright.records.jsonform import Json
from rillwright.records.record import Move, Record

LINE, TOOL, FEED = 0, 1, 2
"""Places in a move of the record's path."""


def stops_of(moves: Sequence[Move], lines: Sequence[str]) -> list[tuple[int, int]]:
    """(line, number of moves done) of each stop, in the order in which the program runs.

    Blocks that move nothing are put between where the lines run straight on; a program that jumps about (with
    subprograms) shows its moving blocks alone.
    """
    stops: list[tuple[int, int]] = []
    for index, move in enumerate(moves):
        following = moves[index + 1] if index + 1 < len(moves) else None
        last = following is None or following[LINE] != move[LINE]
        if last or (move[FEED] and not (following and following[FEED])):
            stops.append((move[LINE], index + 1))
    straight = all(a[0] <= b[0] for a, b in pairwise(stops))
    return _with_still_blocks(stops, lines) if straight else stops


def _with_still_blocks(stops: Sequence[tuple[int, int]], lines: Sequence[str]) -> list[tuple[int, int]]:
    """The stops with one more for every line that has words and moves nothing."""
    done_at: dict[int, int] = {}
    for line, count in stops:
        done_at[line] = max(count, done_at.get(line, 0))
    found, done = list(stops), done_at.get(0, 0)
    for number, text in enumerate(lines, start=1):
        words = text.strip()
        if number not in done_at and words and words[0] not in "(;%":
            found.append((number, done))
        done = max(done, done_at.get(number, 0))
    return sorted(found)


def stepping(record: Record, scene: Scene, stage: Stage, text: str) -> Json | None:
    """The data of the stepping picture, None where the record holds no moves."""
    path, setup = record.path, record.setup
    if path is None or not path.moves:
        return None
    names = {(one.insert.station, one.insert.offset): one.name for one in setup.tools} if setup else {}
    tools = [_tool_json(scene, stage, names.get(turret)) for turret in path.tools]
    moves, left_out = path.moves, path.left_out
    # Lines behind the last move that was kept would look as if they moved nothing.
    lines = text.splitlines()[: moves[-1][LINE]] if left_out else text.splitlines()
    return {
        "moves": moves,
        "stops": stops_of(moves, lines),
        "tools": tools,
        "per": path.per_length,
        "decimals": len(str(path.per_length)) - 1,
        "k": stage.view.scale,
        "x0": stage.view.x_front,
        "y0": stage.view.y_axis,
        "top": stage.top - 40,
        "right": stage.right + 40,
        "left_out": left_out,
        # A place that no block has told yet lies as far out as this.
        "unknown": FAR_HOME[0] // 2,
    }


def _tool_json(scene: Scene, stage: Stage, name: str | None) -> Json | None:
    """Name, side and lower side (in picture units) of one insert; None for one that the set-up doesn't list."""
    tool = scene.inserts.get(name) if name else None
    if tool is None:
        return None
    edge = [[round(v * stage.view.scale, 3) for v in point] for point in tool.edge]
    return {"name": tool.name, "side": tool.insert.side.where, "edge": edge}
