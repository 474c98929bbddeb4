"""The order of rows: each tool once, from the free end toward the chuck, and what weakens the part last.

A groove that leaves less than half of the diameter is cut after all others, because the part hangs on what it leaves; a
tool that cuts nothing else comes last. A shallow groove comes before a deep one beside a thin land. Face grooves come
first, inside tools after outside ones. Otherwise tools follow the order in which they are first needed from the front.
"""

from collections.abc import Sequence
from itertools import pairwise

from extractor.part import Part
from planner.cuts.face import FaceRow
from planner.cuts.place import Placed

# Floor over mouth diameter below which a groove weakens the part (common practice, no source).
WEAK = 0.5
# Thickness over depth below which a land is a fin that bends while the next groove is cut (common practice, no source).
FIN = 0.5


def weakens(row: Placed, part: Part) -> bool:
    """True if one of the row's outside grooves leaves too little across."""
    grooves = [part.grooves[number - 1] for number in row.grooves]
    return any(g.where == "outside" and g.floor_diameter < WEAK * g.mouth_diameter for g in grooves)


def crowds(row: Placed, part: Part) -> bool:
    """True if a shallower groove of another row lies behind a land that is thin for the depth of one of these.

    Cut first, the deep one would leave that land as a fin to be cut beside.
    """
    own = set(row.grooves)
    along = [groove for groove in part.grooves if groove.where == ("outside" if row.side.sign > 0 else "inside")]
    return any(
        deep.id in own and other.id not in own and other.depth < deep.depth and abs(land) < FIN * deep.depth
        for one, two in pairwise(sorted(along, key=lambda groove: -groove.z_near))
        for land in (one.z_far - two.z_near,)
        for deep, other in ((one, two), (two, one))
    )


def in_order(rows: Sequence[Placed], faces: Sequence[FaceRow], part: Part) -> list[Placed | FaceRow]:
    """The rows in the order of cutting, face grooves first while the part is whole, tool by tool."""
    return [*sorted(faces, key=lambda row: (row.tool.name, row.grooves)), *_along(rows, part)]


def _along(rows: Sequence[Placed], part: Part) -> list[Placed]:
    """The rows cut along X in order."""
    from_front = sorted(rows, key=lambda row: row.grooves)
    tools: dict[str, tuple[bool, bool, int]] = {}
    for place, row in enumerate(from_front):
        weak, _, first = tools.get(row.tool.name, (True, False, place))
        tools[row.tool.name] = (weak and weakens(row, part), row.side.sign < 0, first)
    return sorted(from_front, key=lambda row: (tools[row.tool.name], weakens(row, part), crowds(row, part)))
