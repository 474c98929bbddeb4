"""Inserts that something beside a program names: the record written with it, or a change on the command line."""

from collections.abc import Iterable
from dataclasses import astuple, replace
from pathlib import Path

from extractor.part import Units
from planner.shop import Shop, Tool
from postproc.heading import HALF_OFF
from rillwright.records.record_file import record_beside

LARGEST = 10_000
"""No size of an insert, in either units, is as large; what is larger or below nothing is damage."""
STATIONS = 100
"""No turret has as many."""


def recorded_inserts(program: Path, units: Units) -> tuple[Tool, ...]:
    """The tools in the record (.json) of the same name beside a program; none where there is no such record.

    A record in other units, or one that is damaged or of another program, says nothing.
    """
    path = program.with_suffix(".json")
    record = None if path == program else record_beside(path)
    if record is None or record.program is None or record.program.file != program.name:
        return ()
    if record.setup is None or record.setup.units != units:
        return ()
    # A record has the whole step that starts the spindle under the name of the insert's own sense.
    tools = [
        replace(one.insert, spindle=None if one.spindle is None or one.spindle.clockwise else "ccw")
        for one in record.setup.tools
    ]
    return tuple(tools) if all(_possible(tool) for tool in tools) else ()


def _possible(tool: Tool) -> bool:
    """True for an insert that can exist."""
    sizes = [value for value in astuple(tool) if isinstance(value, int | float)]
    fine = all(0 <= size < LARGEST for size in sizes) and max(tool.station, tool.offset) < STATIONS
    return fine and tool.width > 0 and 2 * tool.corner_radius <= (1 + HALF_OFF) * tool.width


def with_told_inserts(shop: Shop, changes: Iterable[str]) -> Shop:
    """The built-in shop with only the stations whose width the user gave by --set, which are then taken as given.

    >>> from planner import parse_shop
    >>> changes = ["tools.3.width=3"]
    >>> [tool.name for tool in with_told_inserts(parse_shop("", "", "mm", changes), changes).tools]
    ['T0303']
    """
    if "tools" not in shop.built_in:
        return shop
    told = {_station(change.partition("=")[0]) for change in changes} - {""}
    tools = tuple(tool for tool in shop.tools if "*" in told or str(tool.station) in told)
    return replace(shop, tools=tools, built_in=shop.built_in - {"tools"}) if tools else shop


def _station(key: str) -> str:
    """The station whose width a key sets, * for all, empty for another key."""
    parts = [part.strip() for part in key.split(".")]
    if parts[-1] != "width":
        return ""
    return parts[1] if len(parts) > 2 else "*"
