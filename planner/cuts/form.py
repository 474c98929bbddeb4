"""Vee and round recesses: cut in one plunge by an insert of that form, checked against the outline point by point."""

from collections.abc import Sequence
from math import asin, atan2, cos, degrees, hypot, radians, sin, sqrt, tan

from numpy import interp

from extractor.limits import EPS
from extractor.part import Groove
from planner.cuts.ground import Ground
from planner.cuts.upright import drawn
from planner.shop import Edge, Tool, shaped

FORMS: dict[str, Edge] = {"vee": "vee", "round": "round"}
FOR_FORM = 0.9
"""Share of the tolerance that an insert's form may take; a tenth is left for the rounding of places."""

FOOT = 1e-4
"""Share of an insert's width over which the steepness of its edge is taken: a step, no limit of anything."""


def edge_height(tool: Tool, aside: float) -> float:
    """How far the cutting edge lies above its lowest point, at a distance to the side of its middle; radial.

    A vee of half angle a with nose radius r: the arc up to r cos a aside, then the flank. A round edge is half a circle
    of the width (geometry of tangent arcs).

    >>> cuts = dict(width=4.0, corner_radius=0.0, max_depth=5.0, reference="far", feed=0.1, peck=0.0, retract=0.0)
    >>> round(edge_height(Tool(station=1, offset=1, **cuts, edge="vee", angle=90.0), 1.0), 6)
    1.0
    """
    aside = abs(aside)
    if tool.edge == "round":
        radius = tool.width / 2
        return radius - sqrt(max(0.0, radius**2 - aside**2))
    half, nose = radians(tool.angle) / 2, tool.corner_radius
    if aside <= nose * cos(half):
        return nose - sqrt(max(0.0, nose**2 - aside**2))
    return nose - nose * sin(half) + (aside - nose * cos(half)) / tan(half)


def makes(tool: Tool, groove: Groove, ground: Ground, tolerance: float) -> bool:
    """True if one plunge in the middle of a groove leaves the outline as drawn, within a tolerance."""
    middle, floor = groove.middle, groove.floor / 2
    points = sorted(drawn(groove, ground, tolerance))
    if not points or tool.edge != FORMS.get(groove.shape):
        return False
    if _wide(tool, groove) > FOR_FORM * tolerance:
        return False
    # Upright walls above a round edge lie at its very sides, where a drawn point may be off as far as any other.
    beyond = tolerance if tool.edge == "round" else EPS
    return all(
        abs(z - middle) <= tool.width / 2 + beyond and _off(tool, z - middle, half - floor) <= tolerance
        for z, half in (*points, *_at_nose(tool, points, middle))
    )


def _at_nose(tool: Tool, points: Sequence[tuple[float, float]], middle: float) -> list[tuple[float, float]]:
    """The outline beside the ends of a vee's nose, where a drawn point and a rounded one lie farthest apart."""
    aside = tool.corner_radius * cos(radians(tool.angle) / 2) if tool.edge == "vee" else 0.0
    places, heights = [z for z, _ in points], [half for _, half in points]
    return [(z, float(interp(z, places, heights))) for z in (middle - aside, middle + aside)]


def _wide(tool: Tool, groove: Groove) -> float:
    """How far a wall comes out at the mouth, along z; a tenth of the tolerance is kept for rounding."""
    half = groove.width / 2
    if tool.edge == "round":
        radius = tool.width / 2
        below = max(0.0, radius - groove.depth)
        return abs(sqrt(radius**2 - below**2) - half)
    short = half - tool.width / 2  # Beyond its sides the insert has no flank, however its line would go on.
    return max(short, abs(edge_height(tool, half) - groove.depth) / max(_rise(tool, half), EPS))


def _off(tool: Tool, aside: float, height: float) -> float:
    """How far a point lies from what the edge leaves; a round one leaves upright walls above.

    From a round edge square to it, from a vee along the axis or on the diameter, whichever is less: so walls and floor
    of a groove are held too, and square to a flank the axis' tolerance would be too much.
    """
    if tool.edge == "round":
        radius = tool.width / 2
        return abs(abs(aside) - radius) if height > radius else abs(hypot(aside, radius - height) - radius)
    return abs(edge_height(tool, aside) - height) * min(2.0, 1 / max(_rise(tool, aside), EPS))


def _rise(tool: Tool, aside: float) -> float:
    """How steeply the edge rises there."""
    step, aside = FOOT * tool.width, abs(aside)
    return (edge_height(tool, aside + step) - edge_height(tool, max(0.0, aside - step))) / (2 * step)


def round_needed(groove: Groove) -> float:
    """The radius of the round edge that leaves a round recess; deeper than that its walls stand upright above it.

    >>> sizes = dict(id=1, where="outside", shape="round", z_near=-10.0, z_far=-14.0, mouth_diameter=40.0)
    >>> [round_needed(Groove(**sizes, floor_diameter=floor)) for floor in (32.0, 36.0, 38.0)]
    [2.0, 2.0, 2.5]
    """
    deep, half = groove.depth, groove.width / 2
    return half if deep > half else (deep**2 + half**2) / (2 * deep)


def form_needed(groove: Groove) -> str:
    """The form of insert that a vee or round recess asks for, in words.

    >>> sizes = dict(z_near=-10.0, z_far=-12.0, mouth_diameter=40.0, floor_diameter=38.0)
    >>> form_needed(Groove(id=1, where="outside", shape="vee", **sizes))
    'a vee insert of 90.0 degrees'
    """
    if groove.shape == "round":
        return f"a round insert of radius {round_needed(groove):.3f}"
    return f"a vee insert of {_angle(groove):.1f} degrees"


def has_form(groove: Groove, ground: Ground, tolerance: float) -> bool:
    """True if the insert that a vee or round recess asks for would leave it, because both its walls are alike."""
    vee = groove.shape == "vee"
    tool = shaped(
        where=groove.where,
        width=groove.width if vee else 2 * round_needed(groove),
        corner_radius=groove.corner_radius if vee else 0.0,
        max_depth=groove.depth,
        edge=FORMS[groove.shape],
        angle=_angle(groove) if vee else 0.0,
    )
    return makes(tool, groove, ground, tolerance)


def greatest_nose(groove: Groove, tolerance: float) -> float:
    """The greatest nose radius whose flanks stay within a tolerance of a vee drawn to its point, or to its own radius.

    With the nose at the floor the flanks lie r (1 - sin a) / cos a too wide, a half the vee's angle (geometry of a
    tangent arc).
    """
    lean = atan2(groove.width / 2, groove.depth)
    return groove.corner_radius + FOR_FORM * tolerance * cos(lean) / (1 - sin(lean))


def _angle(groove: Groove) -> float:
    """The angle, in degrees, of a vee whose flanks touch its nose and end at the mouth's edges.

    Flank tangent to the nose: half cos a - (deep - nose) sin a = nose.
    """
    half, nose = groove.width / 2, groove.corner_radius
    rest = groove.depth - nose
    return 2 * degrees(atan2(half, rest) - asin(min(1.0, nose / hypot(half, rest))))
