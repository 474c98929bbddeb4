"""Edges at a groove's mouth that a program breaks with the insert's corner, although they are drawn sharp.

Prints ask for broken edges in a note and draw none, so the walls count where they stand upright. The measure is that of
the sharp edge: what the program's numbers say, a little more than the corner radius leaves.
"""

from extractor.finding import Level
from extractor.part import Units
from extractor.values import dataclass
from postproc.codes import ProgramCode
from postproc.judging.edges import GrooveRemark
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target

# Edges are broken up to about so much where a drawing says nothing else (common practice, no source).
MOST_BROKEN: dict[Units, float] = {"mm": 0.3, "in": 0.012}
# The steepest and the flattest bevel that is still a broken edge and no leaning wall or shaved land (a choice).
STEEPEST = 4


@dataclass(frozen=True)
class Mouth:
    """Walls where they stand upright, and how far the edges are broken beside them at most, all along u.

    `small` is True where every break is one that a drawing may leave unsaid.
    """

    walls: Stretch
    broken: int
    small: bool


def find_mouth(target: Target, cut: Overlay, window: Stretch, drop: int) -> Mouth | None:
    """The mouth of a recess with one edge broken or both; None where neither is, or where the drawing has chamfers.

    `cut` is the cut without corner radii, `window` the recess at its mouth, `drop` in h counts taken for nothing.
    """
    low, _ = cut.range(window)
    land = min(target.mouth, cut.top(window))
    foot = cut.below(low + max((land - low) // 4, 1), window)
    if target.broken or not foot:
        return None
    walls = (foot[0][0], foot[-1][1])
    sides = (((window[0], walls[0]), walls[0]), ((walls[1], window[1]), walls[1]))
    found = [_bevel(target, cut, side, (low, land), drop) for side, _ in sides]
    if found == [0, 0]:
        return None
    most = target.increments.count(MOST_BROKEN[target.increments.units]) * target.groove.side.along
    u0 = walls[0] if found[0] else window[0]
    u1 = walls[1] if found[1] else window[1]
    return Mouth((u0, u1), max(found), max(found) <= most + drop)


def _bevel(target: Target, cut: Overlay, side: Stretch, between: Stretch, drop: int) -> int:
    """How far along u one edge is broken, 0 where it is sharp or what stands beside it is no bevel.

    `between`: the floor and the land. A bevel slopes all the way, and leaves a quarter of the wall upright.
    """
    wide = side[1] - side[0]
    if wide <= drop:
        return 0
    low, land = between
    bottom, _ = cut.range(side)
    deep, across = land - bottom, target.height(wide)
    if cut.level(side) > drop or 4 * deep > 3 * (land - low) + drop:
        return 0
    if not across < STEEPEST * deep < STEEPEST**2 * across:
        return 0
    return max(wide, deep * wide // across)


def broken_remark(target: Target, broken: int) -> GrooveRemark:
    """What to say about a groove whose edges are broken a little."""
    message = (
        f"the program breaks the edges of the mouth by up to {_size(target, broken)} where the drawing draws them "
        "sharp; its walls were measured below that."
    )
    return GrooveRemark(Level.CAUTION, ProgramCode.EDGE_BROKEN, message)


def chamfered_remark(target: Target, broken: int) -> GrooveRemark:
    """What to say about a groove with chamfers too big to be broken edges."""
    message = (
        f"the program chamfers the mouth by {_size(target, broken)} where the drawing draws its edges sharp; "
        "break them less, or leave them."
    )
    return GrooveRemark(Level.STOP, ProgramCode.MOUTH_CHAMFERED, message)


def _size(target: Target, broken: int) -> str:
    """A break in drawing units."""
    return f"{target.increments.length(broken) / target.groove.side.along:.3g}"
