"""The shop file: TOML text -> Shop, checked whole, every fault named at once, converted once to the drawing's units."""

import math
import re
import tomllib
from collections.abc import Collection, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from extractor.errors import SettingsError
from extractor.part import Units
from extractor.printable import printable
from planner.settings.builtin import built_in_tools, usual_retract
from planner.settings.contradictions import clashes, contradictions
from planner.settings.materials import FEET_PER_METRE
from planner.settings.settled import material_of
from planner.settings.shopkeys import TABLES, ShopKey, Value
from planner.shop import Machine, Shop, Told, Tool

MM_PER_INCH = 25.4
FILLED_IN = ("max_depth", "feed")
"""Keys of a tool of which the shop remembers that the file did not give them."""
# The corner radius of most grooving inserts, no more than a fifth of the width (common practice, no source).
COMMON_RADIUS = {"mm": 0.2, "in": 0.008}
HEADS = {"machine": "[machine]", "material": "[material]", "tools": "[[tools]]"}
# Slips that TOML has no words of its own for, by the line that they stand in.
SLIPS = (
    (re.compile(r"=\s*[-+]?\d+,\d"), "write a decimal point, like 3.0, where there is a comma"),
    (re.compile(r"=\s*[-+]?\.\d"), "write a digit before the point, like 0.08"),
    (re.compile(r"=\s*[-+]?\d+\.(?!\d)"), "write a digit after the point, like 3.0"),
    (re.compile(r"=\s*(?!true|false|inf|nan)[A-Za-z]"), 'write text in quotes, like "C45"'),
)
Table = Mapping[str, Any]


def default_shop(units: Units) -> Shop:
    """The built-in shop: a plain lathe, C45 steel, inserts in standard widths, stick-out unknown.

    >>> default_shop("in").machine.clearance
    0.05
    """
    return parse_shop("", "built-in shop", units)


def parse_shop(
    text: str, name: str, units: Units, overrides: Sequence[str] = (), dialects: Collection[str] = ()
) -> Shop:
    """Read a shop file's text into a Shop in `units`; `overrides` are "key=value" settings that come last.

    `dialects` are the names of those at hand; where none are given, any name is taken. Raises SettingsError whose one
    sentence names every fault in the text.
    """
    reader = _Reader(units, dialects)
    data = reader.load(text)
    reader.override(data, overrides)
    shop = reader.shop(data)
    if reader.faults or shop is None:
        raise SettingsError(f"{_one_line(name)} can't be used: {'; '.join(reader.faults)}.")
    return shop


class _Reader:
    """Walks the tables and gathers the faults, so that all are told at once."""

    def __init__(self, units: Units, dialects: Collection[str]) -> None:
        """Start with no faults; lengths end up in `units`."""
        self.units = units
        self.dialects = dialects
        self.given: Units | None = None
        self.faults: list[str] = []
        self.without: set[str] = set()

    def load(self, text: str) -> dict[str, Any]:
        """TOML text to tables; text that isn't TOML is one fault."""
        try:
            data = tomllib.loads(text)
        except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
            self.faults.append(_not_toml(text, str(error)))
            return {}
        unit_word = data.pop("units", None)
        if unit_word in ("mm", "in"):
            self.given = unit_word
        elif unit_word is not None:
            self.faults.append(f'units is {_show(unit_word)}, and must be "mm" or "in"')
            self.given = self.units
        folder = data.pop("dialects", "")
        if not isinstance(folder, str):
            self.faults.append(f"dialects is {_show(folder)}, and must be the folder of dialect files, as text")
        self.unknown(data, {**TABLES, "dialects": ()}, "")
        return data

    def override(self, data: dict[str, Any], overrides: Sequence[str]) -> None:
        """Put "peck=0.5", "machine.max_rpm=2000" or "tools.3.peck=0.5" (station 3) over the file's own values."""
        for setting in overrides:
            path, equals, word = setting.partition("=")
            parts = [part.strip() for part in path.split(".")]
            tables = [t for t, keys in TABLES.items() if any(k.name == parts[-1] for k in keys)]
            if len(parts) > 1:
                tables = [t for t in tables if t == parts[0]]
            if not equals or not tables:
                near = get_close_matches(parts[-1], [k.name for keys in TABLES.values() for k in keys], n=1)
                hint = f" (did you mean {near[0]}?)" if equals and near and near[0] != parts[-1] else ""
                words = f"{_show(setting)} is not a setting{hint}: write KEY=VALUE with a key of the shop file"
                self.faults.append(words)
                continue
            value, key = _word_value(word.strip()), next(k for k in TABLES[tables[0]] if k.name == parts[-1])
            fault = self.wrong(value, key)
            if fault:
                self.faults.append(f"{key.name} is {_show(value)}, and must be {fault}")
                continue
            # A key of both material and tools means the material's: the tools follow it unless they have their own.
            self.put(data, tables[0], parts, value)

    def put(self, data: dict[str, Any], table: str, parts: list[str], value: Any) -> None:
        """One override into its table, or into every tool (of the station named)."""
        if self.given is None:
            self.given = self.units
        if table != "tools":
            data.setdefault(table, {})[parts[-1]] = value
            return
        if "tools" not in data:
            data["tools"] = [_as_table(tool) for tool in built_in_tools(self.given)]
            data["tools built in"] = True
        chosen = [t for t in data["tools"] if len(parts) < 3 or str(t.get("station")) == parts[1]]
        if not chosen:
            self.faults.append(f"there is no tool in station {_one_line(parts[1])} to set {parts[-1]} of")
        for tool in chosen:
            tool[parts[-1]] = value

    def unknown(self, table: Table, known: Mapping[str, object], place: str) -> None:
        """Name every key that the contract doesn't have, with the nearest that it has."""
        for key in table:
            if key not in known:
                near = get_close_matches(key, list(known), n=1)
                homes = [HEADS[name] for name, keys in TABLES.items() if any(one.name == key for one in keys)]
                hint = f" (did you mean {near[0]}?)" if near else ""
                words = f"belongs under {' or '.join(homes)}" if homes else f"is not a key of the shop file{hint}"
                self.faults.append(f"{place}{_one_line(key)} {words}")

    def shop(self, data: dict[str, Any]) -> Shop | None:
        """All tables into a Shop, or None where a fault keeps one from being built."""
        built_in = frozenset({"tools"} if "tools" not in data or data.pop("tools built in", False) else set())
        machine, _ = self.table(data.get("machine", {}), TABLES["machine"], "[machine] ")
        material, _ = self.table(data.get("material", {}), TABLES["material"], "[material] ")
        tools = self.tools(data["tools"]) if "tools" in data else built_in_tools(self.units)
        if self.faults:
            return None
        if material["cutting_speed"] is None or material["specific_cutting_force"] is None:
            built_in |= {"material"}
        unsaid = {"max_rpm", "cycle_retract", "clearance", "dialect", "coolant"} - set(data.get("machine", {}))
        names = [f"{tool.name} {key}" for tool in tools for key in FILLED_IN]
        unsaid |= set(names) if "tools" in built_in else self.without
        unsaid |= set() if material["name"] else {"material"}
        unsaid |= {"cutting_speed"} if material["cutting_speed"] is None else set()
        told = Told(**material)
        taken = material_of(told.name, told, self.units)
        return Shop(self.units, Machine(**machine), taken, tools, built_in, frozenset(unsaid), told)

    def tools(self, entries: object) -> tuple[Tool, ...]:
        """Every [[tools]] entry, each checked by itself, then against one another."""
        if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
            self.faults.append("tools must be a list of [[tools]] tables")
            return ()
        if not entries:
            self.faults.append("tools is empty: give at least one [[tools]] table, or leave the key out")
        read = [
            self.table(entry, TABLES["tools"], f"[[tools]] {number}: ") for number, entry in enumerate(entries, start=1)
        ]
        self.faults += clashes([sound for _, sound in read])
        return () if self.faults else tuple(self.tool(*one) for one in zip(entries, (v for v, _ in read), strict=True))

    def tool(self, entry: Table, values: dict[str, Any]) -> Tool:
        """One tool of values that are sound."""
        _fill(values, self.units)
        tool = Tool(**values)
        self.without |= {f"{tool.name} {key}" for key in FILLED_IN if key not in entry}
        return tool

    def table(self, table: object, keys: tuple[ShopKey, ...], place: str) -> tuple[dict[str, Any], dict[str, Any]]:
        """All keys of one table with their defaults, converted; and the sound ones among them in the file's units."""
        if not isinstance(table, dict):
            self.faults.append(f"{place.strip()} must be a table")
            return {}, {}
        self.unknown(table, {key.name: key for key in keys}, place)
        values: dict[str, Any] = {}
        sound: dict[str, Any] = {}
        for key in keys:
            before = len(self.faults)
            values[key.name] = self.value(table, key, place)
            if len(self.faults) == before:
                sound[key.name] = table.get(key.name, key.default(self.given or self.units))
        self.faults += [place + fault for fault in contradictions(sound)]
        return values, sound

    def value(self, table: Table, key: ShopKey, place: str) -> Value:
        """One value, checked and converted; its default where it isn't given."""
        if key.name not in table:
            if key.needed:
                self.faults.append(f"{place}{key.name} is missing")
            return key.default(self.units)
        fault = self.wrong(table[key.name], key)
        if fault:
            self.faults.append(f"{place}{key.name} is {_show(table[key.name])}, and must be {fault}")
            return key.default(self.units)
        return self.converted(table[key.name], key)

    def wrong(self, value: object, key: ShopKey) -> str:
        """What the value must be, or nothing where it is right."""
        if key.kind == "flag":
            return "" if isinstance(value, bool) else "true or false"
        if key.name == "dialect" and isinstance(value, str) and value not in self.dialects and self.dialects:
            near = get_close_matches(value, list(self.dialects), n=1)
            hint = f" (did you mean {near[0]}?)" if near else ""
            return f"one of {', '.join(sorted(self.dialects))}{hint}"
        if key.kind == "text":
            return "" if isinstance(value, str) and value.strip() else "some text"
        if key.kind == "choice":
            return "" if value in key.choices else " or ".join(f'"{choice}"' for choice in key.choices)
        return self.out_of_range(value, key)

    def out_of_range(self, value: object, key: ShopKey) -> str:
        """The range that a number must lie in, or nothing where it does."""
        low, high = key.low / self.factor(key), key.high / self.factor(key)
        number = isinstance(value, int if key.kind == "whole" else int | float) and not isinstance(value, bool)
        if number and math.isfinite(float(value)) and low <= float(value) <= high:  # type: ignore[arg-type]
            return ""
        noun = "a whole number" if key.kind == "whole" else "a number"
        return f"{noun} from {low:g} to {high:g}"

    def factor(self, key: ShopKey) -> float:
        """Metric units in one unit of the file."""
        if key.kind not in ("length", "speed") or self.given != "in":
            return 1.0
        return MM_PER_INCH if key.kind == "length" else 1 / FEET_PER_METRE

    def converted(self, value: Any, key: ShopKey) -> Value:
        """The value in the drawing's units."""
        if key.kind not in ("length", "speed"):
            return value.strip() if isinstance(value, str) else value
        if self.given is None:
            self.faults.append('lengths are given, so the file must begin with units = "mm" or units = "in"')
            self.given = self.units
        if self.given == self.units:
            return float(value)
        ratio = MM_PER_INCH if key.kind == "length" else 1 / FEET_PER_METRE
        return float(value) * ratio if self.given == "in" else float(value) / ratio


def _fill(values: dict[str, Any], units: Units) -> None:
    """What a tool's other values decide: offset, corner radius, reach (2 widths: any grooving insert has that)."""
    common = COMMON_RADIUS[units]
    if values["offset"] is None:
        values["offset"] = values["station"]
    if values["corner_radius"] is None:
        values["corner_radius"] = min(common, values["width"] / 5) if values["edge"] == "square" else 0.0
    if values["max_depth"] is None:
        values["max_depth"] = 2 * values["width"]
    if values["retract"] is None:
        values["retract"] = usual_retract(values["peck"], units)
    if values["cutting_speed"] is None:
        values["cutting_speed"] = 0.0


def _as_table(tool: Tool) -> dict[str, Any]:
    """A tool as the shop file would give it, without the keys that it leaves open."""
    values = {key.name: getattr(tool, key.name) for key in TABLES["tools"]}
    return {name: value for name, value in values.items() if value is not None and (name != "cutting_speed" or value)}


def _word_value(word: str) -> Any:
    """The value of an override as TOML reads it, else the bare word."""
    try:
        return tomllib.loads(f"value = {word}")["value"]
    except (tomllib.TOMLDecodeError, ValueError):
        return word


def _one_line(text: str) -> str:
    """Any text on one line and of bounded length, fit for a sentence."""
    return printable(text)[:120].strip() or "?"


def _show(value: object) -> str:
    """A value as it stands in the file."""
    if isinstance(value, str):
        return f'"{_one_line(value)}"' if value else '""'
    return str(value).lower() if isinstance(value, bool) else _one_line(str(value))


def _not_toml(text: str, error: str) -> str:
    """The fault of text that is no TOML: its line and what to write there if that is plain, else the parser says."""
    found = re.search(r"at line (\d+)", error)
    lines = text.split("\n")
    if not found or int(found[1]) > len(lines):
        return f"it is not valid TOML ({_one_line(error)})"
    line = lines[int(found[1]) - 1]
    again = "give each key of a table once" if "overwrite" in error else ""
    cure = again or next((words for slip, words in SLIPS if slip.search(line)), "")
    told = f"line {found[1]}, {_one_line(line)}"
    return f"it is not valid TOML ({told}): {cure}" if cure else f"it is not valid TOML ({told}: {_one_line(error)})"
