"""Inserts that something beside a program names: the record written with it, or a change on the command line."""

import json
from collections.abc import Iterable
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

from extractor.part import Units
from planner.shop import Shop, Tool

MOST_BYTES = 50_000_000
_CHOICES = {
    "reference": ("near", "far"),
    "where": ("outside", "inside", "face"),
    "edge": ("square", "vee", "round"),
}
_OPEN = ("holder_near", "holder_far")
"""Figures of a tool that may be unknown."""


def recorded_inserts(program: Path, units: Units) -> tuple[Tool, ...]:
    """The tools in the record (.json) of the very name beside a program; none where there is no such record.

    A record in other units, or one that is damaged or of another program, says nothing.
    """
    path = program.with_suffix(".json")
    try:
        if path == program or path.stat().st_size > MOST_BYTES:
            return ()
        record = json.loads(path.read_bytes())
        setup = record["setup"]
        if record["program"]["file"] != program.name or setup["units"] != units:
            return ()
        return tuple(_tool(entry) for entry in setup["tools"])
    except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return ()


def _tool(entry: dict[str, Any]) -> Tool:
    """One tool of a record; KeyError, TypeError or ValueError where it isn't one."""
    values = {field.name: entry[field.name] for field in fields(Tool) if field.name in entry}
    # A record has the whole step that starts the spindle under that name.
    turned = values.pop("spindle", None) or {}
    for name, value in values.items():
        if name in _CHOICES:
            fine = value in _CHOICES[name]
        elif name in ("station", "offset"):
            fine = type(value) is int and 0 <= value < 100
        else:
            fine = (
                value is None
                if name in _OPEN and value is None
                else type(value) in (int, float) and 0 <= value < 10_000
            )
        if not fine:
            raise ValueError(name)
    tool = Tool(**values, spindle="ccw" if turned.get("clockwise") is False else None)
    if tool.width <= 0 or 2 * tool.corner_radius > 1.001 * tool.width:
        raise ValueError("width")
    return tool


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
