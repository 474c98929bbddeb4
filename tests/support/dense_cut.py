"""What planned steps leave of a part, by brute force: heights every few thousandths, the insert moved bit by bit.

Nothing is shared with `postproc.cutting` or with how paths are planned: the insert is a table of heights from circle
geometry, an arc is walked about its own centre, a cycle is its plunges. Heights are radii, turned over in a bore.
"""

import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from scipy.spatial import cKDTree

from planner.plan import Plan
from planner.shop import Tool
from planner.steps import Arc, Cut, GrooveCycle, Rapid

GRID = {"mm": 0.004, "in": 0.00016}


def left_by(plan: Plan, line: Sequence[tuple[float, float]], where: str) -> tuple[np.ndarray, np.ndarray]:
    """z and the height that is left there, from the lands of a true line; `line` of (z, radius) from front to back."""
    grid, sign = GRID[plan.increments.units], 1 if where == "outside" else -1
    z = np.arange(line[-1][0], 0.0, grid)
    left = np.full(z.size, max(sign * r for _, r in line))
    for operation in plan.operations:
        edge = edge_heights(operation.tool, grid)
        for place, height in walked(operation, plan, grid / 2, sign):
            start = place if operation.tool.reference == "far" else place - operation.tool.width
            first = round((start - z[0]) / grid)
            a, b = max(first, 0), min(first + edge.size, z.size)
            if a < b:
                np.minimum(left[a:b], height + edge[a - first : b - first], out=left[a:b])
    return z, left


def edge_heights(tool: Tool, grid: float) -> np.ndarray:
    """Heights of the lower side every grid step from the far flank."""
    u = np.minimum(np.arange(round(tool.width / grid) + 1) * grid, tool.width)
    aside = np.abs(u - tool.width / 2)
    if tool.edge == "vee":
        half, nose = math.radians(tool.angle) / 2, tool.corner_radius
        joint = nose * math.cos(half)
        flank = nose - nose * math.sin(half) + (aside - joint) / math.tan(half)
        return np.where(aside <= joint, nose - np.sqrt(np.maximum(0, nose**2 - aside**2)), flank)
    radius = tool.width / 2 if tool.edge == "round" else tool.corner_radius
    over = np.maximum(0.0, aside - (tool.width / 2 - radius))
    return radius - np.sqrt(np.maximum(0.0, radius**2 - over**2))


def walked(operation, plan: Plan, step: float, sign: int) -> Iterable[tuple[float, float]]:
    """Places (z, height) of the reference edge on the way of every cut."""
    per = plan.increments.per_length
    x, z = operation.start_x / per, operation.start_z / per
    for one in operation.steps:
        if isinstance(one, GrooveCycle):
            end = one.end_z / per
            count = round(abs(end - z) * per / one.shift) if one.shift else 0
            for k in range(count + 1):
                yield z + (end - z) * k / max(count, 1), sign * one.floor_x / per / 2
            continue
        if not isinstance(one, Rapid | Cut | Arc):
            continue
        x1, z1 = (x if one.x is None else one.x / per), (z if one.z is None else one.z / per)
        if isinstance(one, Arc):
            yield from _arc((z, x / 2), (z1, x1 / 2), one.radius / per, one.clockwise, step, sign)
        elif isinstance(one, Cut):
            count = max(1, math.ceil(max(abs(z1 - z), abs(x1 - x) / 2) / step)) if z1 != z else 1
            for k in range(count + 1):
                yield z + (z1 - z) * k / count, sign * (x + (x1 - x) * k / count) / 2
        x, z = x1, z1


def _arc(start, end, radius, clockwise, step, sign):
    """Places along an arc of less than half a turn; the centre lies right of the way where it turns clockwise."""
    dz, dr = end[0] - start[0], end[1] - start[1]
    chord = math.hypot(dz, dr)
    rise = math.sqrt(max(0.0, radius**2 - chord**2 / 4)) * (1 if clockwise else -1)
    centre = ((start[0] + end[0]) / 2 + rise * dr / chord, (start[1] + end[1]) / 2 - rise * dz / chord)
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    last = math.atan2(end[1] - centre[1], end[0] - centre[0])
    turn = -((first - last) % math.tau) if clockwise else (last - first) % math.tau
    count = max(2, math.ceil(abs(turn) * radius / step))
    for k in range(count + 1):
        angle = first + turn * k / count
        yield centre[0] + radius * math.cos(angle), sign * (centre[1] + radius * math.sin(angle))


def off_by(z: np.ndarray, left: np.ndarray, line: Sequence[tuple[float, float]], where: str, grid: float) -> float:
    """The greatest distance from what is left to a true line, each point to the line's nearest (Hausdorff, sampled)."""
    sign = 1 if where == "outside" else -1
    true = _walk([(a, sign * r) for a, r in line], grid)
    cut = _walk(list(zip(z.tolist(), left.tolist(), strict=True)), grid)
    return max(_farthest(cut, true), _farthest(true, cut))


def _walk(points: Sequence[tuple[float, float]], grid: float) -> np.ndarray:
    """Points along a line, at most a grid step apart."""
    return np.asarray(shapely.get_coordinates(shapely.segmentize(shapely.LineString(points), grid)))


def _farthest(points: np.ndarray, others: np.ndarray) -> float:
    """How far the farthest of some points is from the nearest of others."""
    return float(cKDTree(others).query(points)[0].max())
