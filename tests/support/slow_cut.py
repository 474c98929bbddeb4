"""The simulation once more, slow and obvious: areas of metal as polygons (shapely), a cut is a polygon taken away.

Nothing is shared with the simulation in `postproc`: the insert is a rectangle from its edge up into the air, a straight
move sweeps the convex hull of its two ends. x is the diameter here too, so one tolerance serves both directions.
"""

import shapely
from shapely import Polygon, box
from shapely.ops import unary_union

from extractor.part import Part
from planner.shop import Shop, Tool
from postproc.motion import Motion
from postproc.reading.run import Run

AIR = 10_000.0
BEHIND = 1_000.0


def metal_of(part: Part, outline: bool = False) -> Polygon:
    """The outside metal in (z, diameter): lands, or the finished outline; it goes on behind the part."""
    points = part.outline if outline else part.lands
    line = [(z, 2 * radius) for z, radius in points]
    back = part.lands[-1][1] * 2
    return shapely.make_valid(Polygon([(0.0, 0.0), *line, (-BEHIND, back), (-BEHIND, 0.0)]))


def swept_by(motion: Motion, tool: Tool, per_length: float) -> Polygon:
    """All that the insert goes through in one move, edge to air."""
    reach = (0.0, tool.width) if tool.reference == "far" else (-tool.width, 0.0)
    ends = [
        box(z / per_length + reach[0], x / per_length, z / per_length + reach[1], AIR)
        for x, z in ((motion.x0, motion.z0), (motion.x1, motion.z1))
    ]
    return unary_union(ends).convex_hull


def cut_away(motions: tuple[Motion, ...], shop: Shop, per_length: float) -> Polygon:
    """The union of what all feed moves sweep."""
    tools = {(tool.station, tool.offset): tool for tool in shop.tools}
    return unary_union(
        [
            swept_by(motion, tools[motion.station, motion.offset], per_length)
            for motion in dict.fromkeys(motions)
            if motion.kind == "feed" and (motion.station, motion.offset) in tools
        ]
    )


def left_over(part: Part, run: Run, shop: Shop) -> Polygon:
    """The metal that a run leaves."""
    return metal_of(part).difference(cut_away(run.motions, shop, float(run.increments.per_length)))


def differs(part: Part, run: Run, shop: Shop, tolerance: float) -> bool:
    """True if the metal left is off the drawn outline by more than a tolerance anywhere along the drawn part."""
    part_only = box(-part.length, 0.0, 0.0, AIR)
    left = left_over(part, run, shop).intersection(part_only)
    drawn = metal_of(part, outline=True).intersection(part_only)
    grown = {"cap_style": "square", "join_style": "mitre"}
    standing = left.difference(drawn.buffer(tolerance, **grown))
    gone = drawn.difference(left.buffer(tolerance, **grown))
    return standing.area + gone.area > 1e-9


def hits(motion: Motion, metal: Polygon, tool: Tool, per_length: float) -> float:
    """Area of metal that a move goes through."""
    return float(metal.intersection(swept_by(motion, tool, per_length)).area)


def crashes(part: Part, run: Run, shop: Shop, thickness: float) -> list[int]:
    """Lines of the rapids that go through metal thicker than so much; an unsaid place is far out and far in front."""
    tools = {(tool.station, tool.offset): tool for tool in shop.tools}
    per_length, metal, lines = float(run.increments.per_length), metal_of(part), []
    for motion in run.motions:
        tool = tools.get((motion.station, motion.offset))
        if tool is None:
            continue
        x0 = motion.x0 if motion.x0_known else 10**7
        z0 = motion.z0 if motion.z0_known else 10**7
        if x0 != motion.x1 and z0 != motion.z1 and not (motion.x0_known and motion.z0_known):
            x0, z0 = motion.x1, motion.z1
        sweep = swept_by(motion._replace(x0=x0, z0=z0), tool, per_length)
        if motion.kind == "rapid" and not metal.intersection(sweep).buffer(-thickness / 2).is_empty:
            lines.append(motion.line)
        elif motion.kind == "feed":
            metal = metal.difference(sweep)
    return lines
