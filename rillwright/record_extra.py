"""What a job sheet needs beyond the contract's record: values in, plain JSON out, nothing read or written.

`extra_parts` builds every additive key at once; `operation_extra` adds to one operation of the plan.
Lengths are in the drawing's units unless a key says counts; radii are radii and diameters diameters, as named.
A record that lacks any of these keys still gets a sheet, with less on it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from typing import Any

import numpy as np

from extractor.finding import Point
from extractor.part import Part, Reading, Units
from extractor.sheet import Floats, Sheet
from extractor.side import SIDES
from planner.holding import in_the_jaws
from planner.increment import Increments
from planner.plan import Operation, Plan
from planner.shop import Tool
from planner.steps import Arc, Cut, GrooveCycle, Spindle, SpindleClamp, Step, ToolCall
from postproc.cutting.insert import insert_of
from postproc.motion import Motion

Json = dict[str, Any]

MOST_MOVES = 20_000
"""Moves kept for the stepping picture; a longer path is cut off there and says so."""

MOST_SEGMENTS = 3_000
"""Drawn segments kept for the picture of a refused drawing."""


@dataclass(frozen=True)
class Stamp:
    """When and by what a record was made: an aware time, the tool's version, and the hash of the settings used."""

    made_at: datetime
    tool_version: str
    settings_sha256: str

    def __post_init__(self) -> None:
        """Refuse a time without a zone, which would mean another moment on another machine."""
        if self.made_at.tzinfo is None:
            raise ValueError("the time of making needs its time zone")


def stamp_json(stamp: Stamp) -> Json:
    """`made_at` (UTC, to the second), `tool_version` and `settings_sha256`."""
    return {
        "made_at": stamp.made_at.astimezone(UTC).isoformat(timespec="seconds"),
        "tool_version": stamp.tool_version,
        "settings_sha256": stamp.settings_sha256,
    }


def picture_json(part: Part) -> Json:
    """`picture`: breakpoints [z, radius], front to back, of outline, lands and bore; and its frame on the sheet."""
    frame = part.frame
    return {
        "outline": [list(p) for p in part.outline],
        "lands": [list(p) for p in part.lands],
        "bore": None if part.bore is None else [list(p) for p in part.bore],
        "frame": None if frame is None else asdict(frame),
    }


def setup_json(plan: Plan) -> Json:
    """`setup`: machine, material, and the tools that the plan uses, each with its speeds, feeds and grooves."""
    shop = plan.shop
    return {
        "units": shop.units,
        "machine": _plain(shop.machine),
        "material": _plain(shop.material),
        "built_in": sorted(shop.built_in),
        "tools": [_tool_json(plan, tool) for tool in shop.tools if any(o.tool == tool for o in plan.operations)],
    }


def _plain(value: Any) -> Json:
    """Fields of a flat dataclass that JSON can hold as they are."""
    return {k: v for k, v in asdict(value).items() if isinstance(v, str | int | float | bool) or v is None}


def _tool_json(plan: Plan, tool: Tool) -> Json:
    """One turret station: the insert, the edge that its offset sets, and what the plan asks of it."""
    mine = [o for o in plan.operations if o.tool == tool]
    steps = _steps_of(plan.steps, tool)
    feeds = {s.feed for s in steps if isinstance(s, Arc | Cut | GrooveCycle)}
    spindle = next((s for s in steps if isinstance(s, Spindle)), None)
    clamp = next((s.rpm for s in steps if isinstance(s, SpindleClamp)), None)
    return _plain(tool) | {
        "name": tool.name,
        "edge_points": edge_points(tool, plan.increments),
        "grooves": sorted(g for o in mine for g in o.grooves),
        "feeds": sorted(plan.increments.feed_length(f) for f in feeds),
        "spindle": None if spindle is None else asdict(spindle),
        "clamp": clamp,
    }


def edge_points(tool: Tool, increments: Increments) -> list[list[float]]:
    """The lower side of the insert from its lower flank up: [along its width, height above the edge], true lengths.

    Counted from the point that the offset sets. On a face the width lies along the radius.
    """
    across, upward = SIDES[tool.where].along, SIDES[tool.where].up
    corners = insert_of(tool, increments, rounded=True).corners
    return [[increments.length(u) / across, increments.length(h) / upward] for u, h in corners]


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


def operation_extra(operation: Operation, increments: Increments) -> Json:
    """What one entry of `plan.operations` says beyond the contract: why, feeds, pecks and the edge that Z is set to."""
    cuts = [s for s in operation.steps if isinstance(s, Arc | Cut | GrooveCycle)]
    cycles = [s for s in operation.steps if isinstance(s, GrooveCycle)]
    return {
        "why": list(operation.why),
        "reference": operation.tool.reference,
        "insert_width": operation.tool.width,
        "feeds": sorted({increments.feed_length(s.feed) for s in cuts}),
        "pecks": sorted({increments.length(s.peck) for s in cycles}),
        "contour": any(_sideways(s, face=not SIDES[operation.tool.where].axial) for s in operation.steps),
    }


def _sideways(step: Step, *, face: bool) -> bool:
    """True for a cut that goes along the groove's line and not just in: on an arc, or along the insert's width."""
    return isinstance(step, Arc) or (isinstance(step, Cut) and (step.x if face else step.z) is not None)


def path_json(motions: Sequence[Motion], units: Units) -> Json:
    """`path`: the moves as the interpreter worked them out, in counts, each [line, tool, feed?, x0, z0, x1, z1].

    `tool` indexes `tools`, pairs of station and offset; `feed?` is 1 at feed and 0 at rapid; x is a diameter.
    """
    tools: dict[tuple[int, int], int] = {}
    moves = [
        [m.line, tools.setdefault((m.station, m.offset), len(tools)), int(m.kind == "feed"), m.x0, m.z0, m.x1, m.z1]
        for m in motions[:MOST_MOVES]
    ]
    return {
        "per_length": Increments.of(units).per_length,
        "tools": [list(pair) for pair in tools],
        "moves": moves,
        "left_out": max(0, len(motions) - MOST_MOVES),
    }


def drawn_json(sheet: Sheet, spots: Sequence[Point] = (), most: int = MOST_SEGMENTS) -> Json:
    """`drawn`: a bounded part of what the sheet shows, for the picture of a refusal.

    `segments` are [x0, y0, x1, y1, bulge] as drawn, `circles` [x, y, radius]; beyond `most`, those nearest to the
    `spots` and else the longest are kept, and `left_out` counts the rest.
    """
    ends, bulge = sheet.segments.ends, sheet.segments.bulge
    kept = _most_telling(ends, spots, most)
    rows = np.column_stack([ends[kept], bulge[kept]]) if len(kept) else np.zeros((0, 5))
    circles = [[*c.centre, c.radius] for c in sheet.circles[:most]]
    return {
        "segments": [[_short(v) for v in row] for row in rows.tolist()],
        "circles": [[_short(v) for v in row] for row in circles],
        "left_out": len(ends) - len(kept) + max(0, len(sheet.circles) - most),
    }


def _most_telling(ends: Floats, spots: Sequence[Point], most: int) -> Any:
    """Indices, in drawn order, of at most `most` segments: half nearest the spots, the rest the longest."""
    if len(ends) <= most:
        return np.arange(len(ends))
    length = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1])
    near = np.array([], dtype=np.int64)
    if spots:
        middle = (ends[:, :2] + ends[:, 2:]) / 2
        gaps = np.min([np.hypot(*(middle - spot).T) for spot in np.asarray(spots)], axis=0)
        near = np.argsort(gaps, kind="stable")[: most // 2]
    rest = np.setdiff1d(np.argsort(-length, kind="stable"), near, assume_unique=True)
    order = rest[np.argsort(-length[rest], kind="stable")]
    return np.sort(np.concatenate([near, order[: most - len(near)]]))


def _short(value: float) -> float:
    """Seven significant digits: enough for a picture, and a smaller record."""
    return float(f"{value:.7g}")


def extra_parts(
    reading: Reading | None,
    stamp: Stamp,
    plan: Plan | None = None,
    motions: Sequence[Motion] = (),
    sheet: Sheet | None = None,
) -> Json:
    """Every additive top-level key of a record for which there is something to say.

    `sheet` is wanted for a refused drawing only: its lines are then kept, bounded, so that the spot can be shown.
    """
    parts = stamp_json(stamp)
    part = reading.part if reading else None
    if part is not None:
        parts["picture"] = picture_json(part)
    if plan is not None:
        held = in_the_jaws(part, plan.shop.machine) if part is not None else None
        in_jaws = {} if held is None else {"in_jaws": {"length": held[0], "diameter": held[1]}}
        parts["setup"] = setup_json(plan) | in_jaws
    if part is not None and motions:
        parts["path"] = path_json(motions, part.units)
    if sheet is not None:
        spots = [f.at for f in reading.findings if f.at and f.stops] if reading else []
        parts["drawn"] = drawn_json(sheet, spots)
    return parts
