"""Floor corners drawn rounder than an insert leaves them: metal that the print keeps would be cut away.

A sharper corner is a notch where a shaft breaks, so it is the user's to answer for once it is plainly sharper. Within
ALLOWED it passes with a caution: general tolerances on radii are of that size (ISO 2768-1, 0.2 mm up to 3 mm).
"""

from collections.abc import Sequence

from extractor.finding import Finding, Level
from extractor.limits import corner_limits
from extractor.part import Groove, Units
from planner.codes import PlanCode
from planner.cuts.form import FORMS
from planner.fit import Fit
from planner.increment import dust
from planner.words import size

ALLOWED: dict[Units, float] = {"mm": 0.3, "in": 0.012}
# A corner drawn larger than the insert's by less than this share of the width is taken for the same (common practice).
CLOSE_CORNER = 0.05


def rounded(groove: Groove, fits: Sequence[Fit], units: Units) -> tuple[list[Fit], Finding | None]:
    """The fits that leave the corners nearly as round as drawn; or all of them, with a stop that can be accepted."""
    if groove.shape in FORMS:
        return list(fits), None
    limits = corner_limits(groove, 0.0)
    least = limits.low if limits.given else groove.corner_radius - ALLOWED[units]
    near = [fit for fit in fits if fit.tool.corner_radius > least - dust(units)]
    if near or not fits:
        return near, None
    best = size(max(fit.tool.corner_radius for fit in fits), units)
    message = (
        f"Groove {groove.id} has corners drawn {size(groove.corner_radius, units)} round and the insert that would fit "
        f"leaves {best}, which cuts away metal that the drawing has; an insert with a corner radius of "
        f"{size(least, units)} to {size(groove.corner_radius, units)} is needed, "
        f"or --accept {PlanCode.CORNER_SMALLER} if that does."
    )
    return list(fits), Finding(Level.STOP, PlanCode.CORNER_SMALLER, message, groove=groove.id)
