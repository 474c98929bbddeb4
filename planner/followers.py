"""Refused recesses that an insert might still follow with its edge: which ones are tried, and which insert would do.

What would do is found by trying common sizes in the same way as the shop's own inserts, so the sentence is no guess.
"""

from collections.abc import Iterator
from dataclasses import replace

from extractor.finding import Finding
from extractor.limits import EPS
from extractor.part import Groove, Part, Units
from planner.codes import PlanCode
from planner.cuts.contouring import follows
from planner.fit import Fit, highest_beside
from planner.shop import Shop, Tool, shaped
from planner.words import size

# Widths and corner radii of inserts that most shops have or get (ranges seen in tool catalogues).
WIDTHS: dict[Units, tuple[float, ...]] = {
    "mm": (4.0, 3.0, 2.5, 2.0, 1.5, 1.0, 0.5),
    "in": (0.156, 0.125, 0.094, 0.079, 0.062, 0.039, 0.02),
}
RADII: dict[Units, tuple[float, ...]] = {"mm": (0.2, 0.1, 0.0), "in": (0.008, 0.004, 0.0)}

TOLD = (PlanCode.RECESS_NOT_PLANNED, PlanCode.CORNER_SMALLER, PlanCode.NO_TOOL)
"""Refusals that an insert which follows the line is told for; the others name the plain insert that is missing."""


def may_follow(groove: Groove, finding: Finding) -> bool:
    """True if a groove that plunges don't make may still be made by a finishing path."""
    return groove.side.axial and finding.code not in (PlanCode.LIMITS_TOO_FINE, PlanCode.GROOVE_TOO_SMALL)


def with_followers(finding: Finding, groove: Groove, part: Part, shop: Shop) -> Finding:
    """The refusal, with an insert that would follow the recess where there is one."""
    asked = groove.shape == "tapered" or finding.code in TOLD
    able = next(_able(groove, part, shop), None) if asked else None
    if able is None:
        return finding
    reach = size((highest_beside(groove, able, part) - groove.floor) / groove.side.up, part.units)
    what = (
        f", or take an insert {size(able.width, part.units)} wide with a corner radius of "
        f"{size(able.corner_radius, part.units)} and a reach of {reach} that follows its line in a finishing path"
    )
    before, accept, after = finding.message.rstrip(".").partition(", or --accept")
    told = f"{before}{what}{accept}{after}."
    return replace(finding, message=told)


def _able(groove: Groove, part: Part, shop: Shop) -> Iterator[Tool]:
    """Common inserts that would follow a recess, the widest first."""
    if groove.shape == "vee" and groove.corner_radius <= EPS:
        return
    for width in WIDTHS[part.units]:
        for radius in RADII[part.units]:
            tool = shaped(where=groove.where, width=width, corner_radius=radius, max_depth=part.outer_diameter)
            if isinstance(follows(groove, tool, part, shop), Fit):
                yield tool
