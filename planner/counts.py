"""Limits that no whole count of the control lies between: what is asked for can't be programmed."""

from extractor.finding import Finding, Level
from extractor.limits import Aims, Limits
from extractor.part import Groove
from planner.codes import PlanCode
from planner.increment import Increments


def missed(limits: Limits | None, increments: Increments) -> bool:
    """True if the drawing gives limits and no count lies between them."""
    return limits is not None and limits.given and not increments.within(limits.low, limits.high)


def between_counts(groove: Groove, aims: Aims, increments: Increments, *, width: bool = False) -> Finding | None:
    """A stop for a floor, or a wall that has its own place, whose limits no count lies between; or for the width."""
    side = groove.side
    asked: tuple[tuple[str, Limits | None, float], ...] = (
        (f"floor may lie from {side.infeed}", aims.floor, side.sign),
        (f"near wall may lie from {side.axis}", aims.spots.get("near"), 1),
        (f"far wall may lie from {side.axis}", aims.spots.get("far"), 1),
    )
    if width:
        asked = (("width may be ", aims.width, 1 / side.along),)
    for what, limits, scale in asked:
        if limits is not None and missed(limits, increments):
            low, high = sorted((scale * limits.low, scale * limits.high))
            return _too_fine(groove, what, low, high, increments)
    return None


def _too_fine(groove: Groove, what: str, low: float, high: float, increments: Increments) -> Finding:
    """The stop, with the limits to a digit more than the control has."""
    units, step, digits = increments.units, increments.length(1), len(str(increments.per_length))
    message = (
        f"Groove {groove.id}: its {what}{low:.{digits}f} to {high:.{digits}f}, and the control counts in steps of "
        f"{step:g} {units}, none of which lies there; ask for wider limits, or program it by hand."
    )
    return Finding(Level.STOP, PlanCode.LIMITS_TOO_FINE, message, groove=groove.id)
