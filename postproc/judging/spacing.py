"""Distances from groove to groove: held as the sheet prints them, wherever the first of the two came out.

Each spacing of a row is a distance of its own, so deviations add up along the row (ISO 129-1, from memory).
"""

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from extractor.distance import Distance, Place
from extractor.finding import Finding, Level
from extractor.limits import Limits
from extractor.part import Part
from extractor.places import apart
from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.verdict import CutGroove, Match, State

SPOTS = {"near": "near wall", "far": "far wall", "centre": "middle"}


def spaced(
    part: Part, matches: Sequence[Match], increments: Increments, tolerance: float
) -> tuple[list[Match], tuple[Finding, ...]]:
    """The matches with those out of place whose spacing from another is off, and a stop for each such spacing."""
    cut = {match.drawing: match.program for match in matches if match.drawing and match.program}
    off = list(_off(part, cut, increments, tolerance))
    wrong = {one.end.groove for one, _ in off}
    # Of a pair the groove farther along is named: the first one may be right.
    told = tuple(finding for _, finding in off)
    return [replace(m, state=State.POSITION) if _moved(m, wrong) else m for m in matches], told


def _moved(match: Match, wrong: Container[int | None]) -> bool:
    """True if a match's place is what is wrong first."""
    return match.drawing in wrong and match.state not in (State.MISSING, State.EXTRA)


def _off(
    part: Part, cut: dict[int, CutGroove], increments: Increments, tolerance: float
) -> Iterator[tuple[Distance, Finding]]:
    """Distances between two grooves that were cut and lie too near or too far apart."""
    for one in part.distances:
        if one.start.groove not in cut or one.end.groove not in cut:
            continue
        found = apart(part, one, *(_spot(part, cut[p.groove], p) for p in (one.start, one.end)))
        lower, upper = one.deviations or (-tolerance, tolerance)
        allowed = Limits(low=one.nominal + lower, aim=one.nominal, high=one.nominal + upper)
        if not allowed.holds(found, increments.rounding):
            yield one, _finding(one, found, allowed)


def _spot(part: Part, cut: CutGroove, place: Place) -> float:
    """Where a place of a cut groove lies along u."""
    side = part.grooves[place.groove - 1].side
    near, far = (float(getattr(cut, name)) for name in (side.near, side.far))
    return {"near": near, "far": far}.get(place.spot, (near + far) / 2)


def _finding(one: Distance, found: float, allowed: Limits) -> Finding:
    """The stop for one spacing."""
    message = (
        f"Grooves {one.start.groove} and {one.end.groove} lie {found:g} apart, {SPOTS[one.start.spot]} to "
        f"{SPOTS[one.end.spot]}, where {allowed.low:g} to {allowed.high:g} is allowed; correct the place of one of "
        "them."
    )
    return Finding(Level.STOP, ProgramCode.SPACING, message, groove=one.end.groove)
