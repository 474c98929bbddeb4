"""What the feed moves of a whole program leave of one side of the part."""

from collections.abc import Sequence

from extractor.part import Part
from extractor.side import OUTSIDE, Side
from planner.increment import Increments
from planner.shop import Tool
from postproc.cutting.level_cuts import cut_levels, is_level, level_cuts
from postproc.cutting.metal import FAR, CutProfile, Metal
from postproc.cutting.stock import Bench
from postproc.cutting.turned import Turned, way
from postproc.motion import Motion


def cut_profile(
    motions: Sequence[Motion],
    tools: Sequence[Tool],
    part: Part,
    increments: Increments,
    stock: float | None = None,
    side: Side = OUTSIDE,
) -> CutProfile:
    """What the feed moves of a program leave of one side of the part, sharp inserts, exact to the increment.

    Tools of stations that `tools` doesn't name are followed as points, which turn the outside. The profile runs from
    -FAR to FAR; where there is no metal its height is -FAR.
    """
    bench = Bench(part, tools, increments, stock)
    if side.where not in bench.metal:
        return Metal([(-FAR // 2, 0, 0, 0)]).profile()
    uncut, cuts = bench.metal[side.where].profile(), level_cuts(motions, bench, side)
    if cuts is not None and is_level(uncut):
        return cut_levels(uncut, cuts)
    _one_by_one(motions, bench, Turned(part, increments), side)
    return bench.metal[side.where].profile()


def _one_by_one(motions: Sequence[Motion], bench: Bench, turned: Turned, side: Side) -> None:
    """Make every cut of the program on the bench."""
    for motion in motions:
        feeds, tool = motion.kind == "feed", bench.tool(motion)
        if tool is None and not turned.follow(motion) and feeds and not motion.thread:
            for piece in way(motion, False):
                bench.turn(piece, motion.line)
        insert = bench.insert(motion) if feeds and tool is not None and tool.where == side.where else None
        if insert is not None:
            bench.cut(motion, insert)
