"""The built-in shop as a file to be changed, and what a shop's tools can cut of a drawing."""

import textwrap
from collections.abc import Iterator
from typing import Any

from extractor.part import Part, Units
from extractor.runs import spans
from extractor.side import OUTSIDE
from planner import default_shop, inserts_for
from planner.settings.shopkeys import TABLES, ShopKey
from planner.shop import Shop

HEADING = (
    "The built-in shop, with every key and what it means. A line that begins with # has no effect: take the # "
    "away from those that you set. Figures for cutting are starting values; the makers' tables, the machine's and the "
    "chuck's manuals, local rules and a qualified setter come first."
)
HEAD = {
    "units": 'units of every length below: "mm" or "in"; speeds are m/min or ft/min',
    "dialects": "a folder of dialect files beside this file, whose names dialect may then give",
}
"""What the keys before the tables mean."""
COLUMN = 36
"""Where the remarks begin."""


def shop_text(units: Units) -> str:
    """The built-in shop as TOML; all its keys are commented out but for the units."""
    shop = default_shop(units)
    lines = [f"# {line}" for line in textwrap.wrap(HEADING, 100)]
    lines += ["", _line("units", units, HEAD["units"])]
    lines.append(f"# {_line('dialects', 'FOLDER', HEAD['dialects'])}")
    lines += ["", "[machine]", *_keys("machine", shop.machine, units)]
    lines += ["", "[material]", *_keys("material", shop.material, units)]
    lines += ["", "# One table for each insert in the turret; while there is none, these stand in for yours."]
    for number, tool in enumerate(shop.tools):
        lines += ["# [[tools]]", *_keys("tools", tool, units, brief=number > 0)]
    return "\n".join(lines) + "\n"


def _keys(table: str, values: object, units: Units, *, brief: bool = False) -> Iterator[str]:
    """A line for each key of a table, commented out; `brief`: those alone that differ from their defaults, bare."""
    for key in TABLES[table]:
        value = getattr(values, key.name)
        if brief and not key.needed and value == key.default(units):
            continue
        left_open = value is None or (value == 0 and key.low > 0)
        remark = "" if brief else key.means
        if left_open and brief:
            continue
        yield f"# {_line(key.name, _example(key, units) if left_open else value, remark)}"


EXAMPLES: dict[str, dict[Units, float]] = {
    "stick_out": {"mm": 75.0, "in": 3.0},
    "cutting_speed": {"mm": 120.0, "in": 400.0},
    "holder_near": {"mm": 2.0, "in": 0.08},
    "holder_far": {"mm": 2.0, "in": 0.08},
}
"""Values to be changed, for keys that are left open and hold a length or a speed."""


def _example(key: ShopKey, units: Units) -> Any:
    """A value to be changed, for a key that is left open."""
    return key.choices[0] if key.choices else EXAMPLES[key.name][units]


def _line(name: str, value: Any, remark: str) -> str:
    """One key with its remark."""
    written = f"{value:.12g}" if isinstance(value, float) else f'"{value}"' if isinstance(value, str) else str(value)
    written = written.lower() if isinstance(value, bool) else written
    text = f"{name} = {written}"
    return f"{text:<{COLUMN}}# {remark}" if remark else text


def able_lines(part: Part, shop: Shop) -> list[str]:
    """Which grooves of a part each tool of a shop can cut, a line each; then the tools that cut none, and the stops."""
    able, findings = inserts_for(part, shop)
    lines, idle = [], []
    for tool in shop.tools:
        cuts = [number for number in sorted(able) if tool.name in able[number]]
        if cuts:
            side = "" if tool.side == OUTSIDE else f", {tool.where}"
            lines.append(f"{tool.name}, {tool.width:g} wide{side}: cuts groove{'s' * (len(cuts) > 1)} {spans(cuts)}")
        else:
            idle.append(tool.name)
    if idle:
        lines.append(f"No groove is cut by {', '.join(idle)}.")
    return lines + [f.message for f in findings if f.stops]


__all__ = ["able_lines", "shop_text"]
