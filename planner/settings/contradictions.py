"""What can't be true together in a shop file, though each value by itself is allowed.

A check takes the file's own values by their keys, in the units of the file; it is asked where all of those are sound,
so that one fault is told once. It answers with the fault, or with nothing.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from extractor.rounding import ROUNDING
from extractor.side import SIDES, Where
from planner.shop import SIDE_SHARE

Values = Mapping[str, Any]
Check = tuple[tuple[str, ...], Callable[..., str]]

# A peck of less than this share of the width leaves no chip (common practice, no source).
LEAST_PECK = 1 / 200
# Who backs off so many pecks has mixed the two up.
MOST_RETRACT = 10
# A reach may be given as that of the insert alone, more than the bore has room for; so many times it is a slip.
MOST_REACH = 4


def contradictions(values: Values) -> Iterator[str]:
    """The faults of one table's sound values together."""
    for keys, check in CHECKS:
        if all(key in values for key in keys):
            fault = check(*(values[key] for key in keys))
            if fault:
                yield fault


def clashes(tools: Sequence[Values]) -> Iterator[str]:
    """Two inserts that claim one place: the same tool word twice, or one station with two inserts."""
    whole = [tool for tool in tools if {"station", "offset", "width"} <= tool.keys()]
    for index, tool in enumerate(whole):
        station, offset = _place(tool)
        for other in whole[:index]:
            if (station, offset) == _place(other):
                yield f"T{station:02d}{offset:02d} is given twice"
            elif station == other["station"] and abs(tool["width"] - other["width"]) > ROUNDING:
                yield f"station {station} holds inserts of two widths"


def _place(tool: Values) -> tuple[int, int]:
    """Station and offset of a tool, the station's own where none is given."""
    return tool["station"], tool["offset"] or tool["station"]


def _corner(width: float, edge: str, radius: float | None) -> str:
    if radius and edge == "round" and abs(2 * radius - width) > width * ROUNDING:
        return f"corner_radius {radius:g} is not that of a round edge, which is half its width: leave it out"
    if radius and 2 * radius > width * (1 + ROUNDING):
        return f"corner_radius {radius:g} is more than half of the width {width:g}"
    return ""


def _bar(where: Where, bore: float, reach: float | None) -> str:
    if SIDES[where].hollow and reach and 0 < MOST_REACH * bore < reach:
        times = f"{MOST_REACH} times min_bore {bore:g}"
        return f"max_depth {reach:g} is more than {times}, and no such bar goes into such a bore"
    return ""


def _angle(edge: str, angle: float) -> str:
    if edge == "vee" and not angle:
        return "a vee insert needs its angle in degrees"
    if edge != "vee" and angle:
        return f'angle {angle:g} is that of a vee insert, and edge is "{edge}": give edge = "vee", or leave angle out'
    return ""


def _sideways(width: float, side_depth: float, finish: float) -> str:
    if side_depth > width * (1 + ROUNDING):
        return f"side_depth {side_depth:g} is more than the width {width:g}, and no insert bears that sideways"
    bears = side_depth or SIDE_SHARE * width
    return f"finish {finish:g} is more than the insert bears sideways, {bears:g}" if finish > bears else ""


def _pecks(width: float, peck: float, retract: float | None) -> str:
    if 0 < peck < width * LEAST_PECK:
        return f"peck {peck:g} is next to nothing: give 0 for none, or at least {width * LEAST_PECK:g}"
    if retract and peck and retract >= MOST_RETRACT * peck:
        return f"retract {retract:g} is at least ten times the peck {peck:g}"
    return ""


def _ring(least: float, greatest: float) -> str:
    return "face_max must be more than face_min" if greatest and greatest <= least else ""


def _room(out: float | None, gap: float) -> str:
    if out is not None and out <= gap:
        return f"stick_out {out:g} is no more than jaw_gap {gap:g}, so nothing could be cut"
    return ""


def _numbers(first: int, last: int) -> str:
    return f"number_first {first} is greater than number_last {last}" if first > last else ""


CHECKS: tuple[Check, ...] = (
    (("stick_out", "jaw_gap"), _room),
    (("number_first", "number_last"), _numbers),
    (("width", "edge", "corner_radius"), _corner),
    (("where", "min_bore", "max_depth"), _bar),
    (("edge", "angle"), _angle),
    (("width", "side_depth", "finish"), _sideways),
    (("width", "peck", "retract"), _pecks),
    (("face_min", "face_max"), _ring),
)
