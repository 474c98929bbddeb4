"""Corners and mouths of a groove that matches: a corner radius that is too big, an edge chamfer that isn't cut.

Neither moves a wall or a floor, so neither changes the state of the groove; both are found here.
"""

from collections.abc import Iterable

from extractor.finding import Finding, Level
from planner.fit import greatest_corner
from planner.shop import Shop, Tool
from postproc.overlay import Overlay, Stretch
from postproc.target import Target


def edge_findings(
    target: Target, tools: Iterable[Tool], cut: Overlay, recess: Stretch, shop: Shop, drop: int
) -> tuple[Finding, ...]:
    """What is to be said about the corners and the mouth of one groove, cut by these tools."""
    return (*_corners(target, tools, shop), *_chamfer(target, cut, recess, drop))


def _corners(target: Target, tools: Iterable[Tool], shop: Shop) -> Iterable[Finding]:
    """An insert whose corner radius is greater than the groove's corner bears."""
    largest = max((tool for tool in tools if tool.edge == "square"), key=lambda t: t.corner_radius, default=None)
    limit = greatest_corner(target.groove, shop)
    if largest is None or largest.corner_radius <= limit + target.slack:
        return
    drawn = target.groove.corner_radius
    if drawn > 0:
        yield Finding(
            Level.STOP,
            "corner-radius",
            f"Groove {target.groove.id}: {largest.name} leaves a corner radius of {largest.corner_radius:g}, the "
            f"drawing has {drawn:g}; take an insert with a smaller one.",
            groove=target.groove.id,
        )
    else:
        yield Finding(
            Level.CAUTION,
            "corner-radius",
            f"Groove {target.groove.id}: {largest.name} leaves a corner radius of {largest.corner_radius:g} where the "
            "drawing draws a sharp corner.",
            groove=target.groove.id,
        )


def _chamfer(target: Target, cut: Overlay, recess: Stretch, drop: int) -> Iterable[Finding]:
    """A drawn edge chamfer that the program leaves out."""
    if target.chamfer <= 2 * drop:
        return
    mouth = cut.below(target.mouth - drop, recess)
    if not mouth or mouth[0][0] > target.u0 - drop or mouth[-1][1] < target.u1 + drop:
        yield Finding(
            Level.CAUTION,
            "edge-chamfer",
            f"Groove {target.groove.id} is drawn with edge chamfers of {target.groove.edge_chamfer:g}, which this "
            "program doesn't cut.",
            groove=target.groove.id,
        )
