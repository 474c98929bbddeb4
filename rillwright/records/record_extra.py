"""What a record holds for the sheet's pictures and set-up: values in, values out, nothing read or written.

Lengths are in the drawing's units unless a field says counts; radii are radii and diameters diameters, as named.
"""

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
import shapely

from extractor.finding import Point
from extractor.part import Part, ProfilePoints, Units
from extractor.sheet import Floats, Sheet
from extractor.side import SIDES
from planner.holding import in_the_jaws
from planner.increment import Increments
from planner.plan import Operation, Plan
from planner.shop import Tool
from planner.steps import Arc, Cut, GrooveCycle, Spindle, SpindleClamp, Step, ToolCall
from postproc.cutting.insert import insert_of
from postproc.motion import Motion
from rillwright.records.record import (
    DrawnLines,
    GrippedBar,
    RecordedOperation,
    RecordedPath,
    RecordedProfile,
    RecordedSetup,
    RecordedTool,
    StartPoint,
)

MOST_MOVES = 20_000
"""Moves kept for the stepping picture; a longer path is cut off there and says so."""

MOST_SEGMENTS = 3_000
"""Drawn segments kept for the picture of a refused drawing."""


def profile_of(part: Part) -> RecordedProfile:
    """The part's profile as it is pictured."""
    return RecordedProfile(outline=part.outline, lands=part.lands, bore=part.bore, frame=part.frame)


def setup_of(plan: Plan, part: Part | None) -> RecordedSetup:
    """Machine, material, the tools that the plan uses, and what the jaws hold of the part where that is known."""
    shop = plan.shop
    held = in_the_jaws(part, shop.machine) if part is not None else None
    used = [tool for tool in shop.tools if any(one.tool == tool for one in plan.operations)]
    return RecordedSetup(
        units=shop.units,
        machine=shop.machine,
        material=shop.material,
        built_in=tuple(sorted(shop.built_in)),
        tools=tuple(_recorded_tool(plan, tool) for tool in used),
        in_jaws=None if held is None else GrippedBar(length=held[0], diameter=held[1]),
    )


def _recorded_tool(plan: Plan, tool: Tool) -> RecordedTool:
    """One turret station: the insert, the edge that its offset sets, and what the plan asks of it."""
    steps = _steps_of(plan.steps, tool)
    feeds = {s.feed for s in steps if isinstance(s, Arc | Cut | GrooveCycle)}
    return RecordedTool(
        insert=tool,
        name=tool.name,
        edge_points=edge_points(tool, Increments.of(plan.increments.units)),
        grooves=tuple(sorted(g for one in plan.operations if one.tool == tool for g in one.grooves)),
        feeds=tuple(sorted(plan.increments.feed_length(feed) for feed in feeds)),
        spindle=next((s for s in steps if isinstance(s, Spindle)), None),
        clamp=next((s.rpm for s in steps if isinstance(s, SpindleClamp)), None),
    )


def edge_points(tool: Tool, increments: Increments) -> ProfilePoints:
    """The lower side of the insert from its lower flank up: [along its width, height above the edge], true lengths.

    Counted from the point that the offset sets. On a face the width lies along the radius.
    """
    across, upward = SIDES[tool.where].along, SIDES[tool.where].up
    corners = insert_of(tool, increments, rounded=True).corners
    return tuple((increments.length(u) / across, increments.length(h) / upward) for u, h in corners)


def _steps_of(steps: Iterable[Step], tool: Tool) -> list[Step]:
    """The steps that run while the tool is in the working position, with those that lead up to a first call."""
    found: list[Step] = []
    called: ToolCall | None = None
    for step in steps:
        if isinstance(step, ToolCall):
            called = step
        if called is None or (called.station, called.offset) == (tool.station, tool.offset):
            found.append(step)
    return found


def recorded_operation(operation: Operation, increments: Increments) -> RecordedOperation:
    """One operation: why it is so, its feeds and pecks, and the edge that its places are told by."""
    cuts = [s for s in operation.steps if isinstance(s, Arc | Cut | GrooveCycle)]
    cycles = [s for s in operation.steps if isinstance(s, GrooveCycle)]
    return RecordedOperation(
        grooves=operation.grooves,
        tool=operation.tool.name,
        form=operation.form,
        start=StartPoint(x=increments.length(operation.start_x), z=increments.length(operation.start_z)),
        seconds=round(operation.seconds, 3),
        why=operation.why,
        reference=operation.tool.reference,
        insert_width=operation.tool.width,
        feeds=tuple(sorted({increments.feed_length(s.feed) for s in cuts})),
        pecks=tuple(sorted({increments.length(s.peck) for s in cycles})),
        contour=any(_sideways(s, face=not SIDES[operation.tool.where].axial) for s in operation.steps),
    )


def _sideways(step: Step, *, face: bool) -> bool:
    """True for a cut that goes along the groove's line and not just in: on an arc, or along the insert's width."""
    return isinstance(step, Arc) or (isinstance(step, Cut) and (step.x if face else step.z) is not None)


def path_of(motions: Sequence[Motion], units: Units) -> RecordedPath:
    """The moves as the interpreter worked them out, in counts."""
    tools: dict[tuple[int, int], int] = {}
    moves = tuple(
        (m.line, tools.setdefault((m.station, m.offset), len(tools)), int(m.kind == "feed"), m.x0, m.z0, m.x1, m.z1)
        for m in motions[:MOST_MOVES]
    )
    left_out = max(0, len(motions) - MOST_MOVES)
    return RecordedPath(per_length=Increments.of(units).per_length, tools=tuple(tools), moves=moves, left_out=left_out)


def drawn_lines(sheet: Sheet, spots: Sequence[Point] = (), most: int = MOST_SEGMENTS) -> DrawnLines:
    """A bounded part of what the sheet shows.

    Beyond `most`, those nearest to the `spots` and else the longest are kept, and `left_out` counts the rest.
    """
    ends, bulge = sheet.segments.ends, sheet.segments.bulge
    kept = _most_telling(ends, spots, most)
    rows = np.column_stack([ends[kept], bulge[kept]]) if len(kept) else np.zeros((0, 5))
    return DrawnLines(
        segments=tuple(_short(row) for row in rows.tolist()),
        circles=tuple(_short((*one.centre, one.radius)) for one in sheet.circles[:most]),
        left_out=len(ends) - len(kept) + max(0, len(sheet.circles) - most),
    )


def _most_telling(ends: Floats, spots: Sequence[Point], most: int) -> Any:
    """Indices, in drawn order, of at most `most` segments: half nearest the spots, the rest the longest."""
    if len(ends) <= most:
        return np.arange(len(ends))
    length = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1])
    near = np.array([], dtype=np.int64)
    if spots:
        middle = (ends[:, :2] + ends[:, 2:]) / 2
        # By a tree: a sheet of ten thousand grooves may have a spot at each of their walls.
        tree, places = shapely.STRtree(shapely.points(spots)), np.asarray(spots)
        nearest = tree.query_nearest(shapely.points(middle), all_matches=False)[1]
        gaps = np.hypot(*(middle - places[nearest]).T)
        near = np.argsort(gaps, kind="stable")[: most // 2]
    rest = np.setdiff1d(np.argsort(-length, kind="stable"), near, assume_unique=True)
    order = rest[np.argsort(-length[rest], kind="stable")]
    return np.sort(np.concatenate([near, order[: most - len(near)]]))


def _short(row: Iterable[float]) -> Any:
    """Seven significant digits of each: enough for a picture, and a smaller record."""
    return tuple(float(f"{value:.7g}") for value in row)
