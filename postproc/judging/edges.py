"""Corners and mouths of the grooves that match: a corner radius that is too big, an edge chamfer that isn't cut.

Neither moves a wall or a floor, so neither changes the state of a groove; like grooves share one finding.
"""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from extractor.finding import Code, Finding, Level
from extractor.grouping import grouped
from extractor.runs import spans
from extractor.values import dataclass
from planner.codes import PlanCode
from planner.fit import greatest_corner
from planner.shop import Shop, Tool
from postproc.codes import ProgramCode
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target

SIDE_WORDS = {True: ("chuck side", "front side"), False: ("inner wall", "outer wall")}
"""The two walls of a groove in words, that of lower u first: by whether its side runs along the axis."""

STEP = 0.75
"""Half-way along a chamfer half of its height is taken off; where more than this share is gone, a step was cut."""
HARDLY = 2
"""A chamfer so many times smaller than drawn is told; ISO 2768-1 m lets one of 0.5 be 0.2 smaller (from memory)."""


@dataclass(frozen=True)
class GrooveRemark:
    """What is to be said about one groove, without its number."""

    level: Level
    code: Code
    sentence: str


def edge_remarks(
    target: Target, tools: Iterable[Tool], cuts: tuple[Overlay, Overlay], recess: Stretch, shop: Shop, drop: int
) -> tuple[GrooveRemark, ...]:
    """What is to be said about the corners and the mouth of one groove, cut by these tools.

    `cuts`: what they leave without corner radii, and with them.
    """
    sharp, rounded = cuts
    contoured = sharp.sloping((target.u0, target.u1))
    corners = _corners(target, tools, shop, contoured)
    return (*corners, *_chamfer(target, recess, drop), *_notched(target, rounded, recess, drop))


def joined(remarks: Sequence[tuple[int, GrooveRemark]]) -> tuple[Finding, ...]:
    """Findings from remarks on grooves; grooves with the same remark share one."""
    groups = grouped((remark, groove) for groove, remark in remarks)
    return tuple(
        Finding(
            remark.level,
            remark.code,
            f"Groove{'s' if len(numbers) > 1 else ''} {spans(numbers)}: {remark.sentence}",
            groove=numbers[0] if len(numbers) == 1 else None,
        )
        for remark, numbers in groups.items()
    )


def sharp_remarks(target: Target, tools: Iterable[Tool], shop: Shop) -> tuple[GrooveRemark, ...]:
    """What to say about sharp corners between walls that lean: by the drawn line alone any radius may stand there."""
    return () if target.groove.corner_radius else tuple(_corners(target, tools, shop, contoured=True))


def _corners(target: Target, tools: Iterable[Tool], shop: Shop, contoured: bool) -> Iterator[GrooveRemark]:
    """An insert whose corner radius is greater than the groove's corner bears."""
    largest = max((tool for tool in tools if tool.edge == "square"), key=lambda t: t.corner_radius, default=None)
    limit = greatest_corner(target.groove, shop)
    if largest is None:
        return
    if not contoured:
        yield from _sharper(target, largest, shop)
    if not limit or largest.corner_radius <= limit + target.slack:
        return
    leaves = f"{largest.name} leaves a corner radius of {largest.corner_radius:g}"
    if drawn := target.groove.corner_radius:
        wanted = f"{leaves}, the drawing has {drawn:g}; take an insert with a smaller one."
        yield GrooveRemark(Level.STOP, ProgramCode.CORNER_RADIUS, wanted)
    else:
        message = f"{leaves} where the drawing draws a sharp corner."
        yield GrooveRemark(Level.CAUTION, ProgramCode.CORNER_RADIUS, message)


def _sharper(target: Target, largest: Tool, shop: Shop) -> Iterator[GrooveRemark]:
    """A corner left sharper than drawn, which is what the drawing wants only if its radius is a greatest one."""
    drawn = target.groove.corner_radius
    limits = target.aims.corner
    low = limits.low if limits.given else drawn - shop.machine.tolerance
    if drawn <= 0 or largest.corner_radius >= low - target.slack:
        return
    leaves = f"{largest.name} leaves a corner radius of {largest.corner_radius:g}"
    if limits.given:
        yield GrooveRemark(Level.STOP, PlanCode.CORNER_SMALLER, f"{leaves}, and the drawing allows none below {low:g}.")
    else:
        yield GrooveRemark(Level.NOTE, ProgramCode.CORNER_SHARPER, f"{leaves}, sharper than the {drawn:g} drawn.")


def _chamfer(target: Target, recess: Stretch, drop: int) -> Iterator[GrooveRemark]:
    """A drawn edge chamfer or radius that the program leaves out, or hardly cuts."""
    if target.chamfer <= 2 * drop:
        return
    left = (recess[0] > target.u0 - drop, recess[1] < target.u1 + drop)
    wide = (target.u0 - recess[0], recess[1] - target.u1)
    hardly = (
        not left[0] and HARDLY * (wide[0] + drop) < target.broken,
        not left[1] and HARDLY * (wide[1] + drop) < target.broken,
    )
    for sides, what in ((left, "not cut"), (hardly, "cut to less than half that size")):
        if any(sides):
            yield GrooveRemark(Level.CAUTION, ProgramCode.EDGE_CHAMFER, _chamfer_said(target, sides, what))


def _notched(target: Target, cut: Overlay, recess: Stretch, drop: int) -> Iterator[GrooveRemark]:
    """A drawn edge chamfer or radius that is cut down as a step: the metal of the bevel is gone."""
    foot = cut.below(target.mouth - target.chamfer - drop, recess)
    if target.chamfer <= 2 * drop or not foot:
        return
    bevels = (recess[0], foot[0][0]), (foot[-1][1], recess[1])
    lows = cut.beside(np.array([(a + b) // 2 for a, b in bevels]))[0].tolist()
    deepest = target.mouth - round(STEP * target.chamfer)
    sides = tuple(HARDLY * (b - a) > target.broken and low < deepest for (a, b), low in zip(bevels, lows, strict=True))
    if any(sides):
        what = "cut down as a step, and no later cut brings that metal back; move both axes along it"
        said = _chamfer_said(target, (sides[0], sides[1]), what, "")
        yield GrooveRemark(Level.STOP, ProgramCode.EDGE_NOTCHED, said)


def _chamfer_said(target: Target, sides: tuple[bool, bool], what: str, here: str = " here") -> str:
    """That the chamfers or radii on some sides are `what`."""
    one, more = ("radius", "radii") if target.groove.rounded else ("chamfer", "chamfers")
    size = f"of {target.groove.edge_chamfer:g}"
    if all(sides):
        return f"the edge {more} {size} that the drawing has are {what}{here}."
    side = SIDE_WORDS[target.groove.side.axial][sides[1]]
    return f"the edge {one} {size} that the drawing has on the {side} is {what}{here}."
