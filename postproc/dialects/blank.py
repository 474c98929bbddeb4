"""A dialect file to begin with: every key there is, commented, as the base has it."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from postproc.dialects.keys import ALL_NUMBERS, BLOCKS, CYCLE, PROGRAM, SWITCHES, TOP, WORDS, DialectKey

HEAD = """\
# The dialect {name}. Take the # away from what differs at your control; the rest is as the base has it.
# What a control does is in its own manual: keep to that, and prove out the first program of every dialect.
# Check this file with: rillwright dialects --check {name}.toml
"""
CYCLE_EXAMPLE = """\
# [cycle]  # {about}
# Fields: floor or depth; end, count, more or length; shift, peck, retract, relief, wait, start_x, start_z, feed.
# {{peck#}} is a whole number of least counts, {{peck:diameter}} measured on the diameter, {{depth:signed}} with a sign;
# a ? behind a word leaves it out of a single groove.
# blocks = ["{{g}} R{{retract}}", "{{g}} X{{floor}} Z{{end}}? P{{peck#}} Q{{shift#}}? F{{feed}}"]
"""
OWN_EXAMPLE = """\
# M68 = "chuck clamps"  # for example; convert carries a word over where both dialects say the same of one"""
DIGITS = {"mm": 3, "in": 4}
STEPS = {"mm": 0.001, "in": 0.0001}
"""What a key holds that has a value for each system of units: digits behind the point, or the least count."""

EXAMPLES: Mapping[str, str] = {
    "groove": "G75",
    "absolute": "G90",
    "incremental": "G91",
    "cancel": "D0",
    "call": "{m} P{program}",
    "file_name": "{name}",
    "file_ending": ".nc",
}
"""What a key may hold that the base doesn't have."""


def blank(name: str, base: Mapping[str, Any]) -> str:
    """The text of a new dialect file; `base` is the whole table of the base of all."""
    lines = [HEAD.format(name=name), f'title = "{name}"', 'base = "trade"']
    lines += [f"# {_line(key, TOP[key], base)}" for key in ("summary", "stands", "repeat")]
    for table in ("words", "other_words", "switches", "own_switches", "numbers", "blocks"):
        lines += ["", f"[{table}]  # {TOP[table].about}", *_rows(table, base.get(table, {}))]
    lines += ["", CYCLE_EXAMPLE.format(about=TOP["cycle"].about).rstrip()]
    lines += [f"# {_line(key, CYCLE[key], {})}" for key in ("leaves", "ended_by")]
    lines += ["", f"[program]  # {TOP['program'].about}"]
    lines += [f"# {_line(key, one, base.get('program', {}))}" for key, one in PROGRAM.items()]
    return "\n".join(lines) + "\n"


def _rows(table: str, values: Mapping[str, Any]) -> Iterator[str]:
    """The keys of a table as the base has them, as remarks."""
    if table == "numbers":
        yield from (f"# {_line(key, one, values)}" for key, one in ALL_NUMBERS.items())
        yield "# P = { digits = 5 }  # the form of one address"
        return
    if table == "own_switches":
        yield OWN_EXAMPLE
        return
    known: Mapping[str, object] = {"switches": SWITCHES, "blocks": BLOCKS}.get(table, WORDS)
    for key in known:
        if key in values:
            yield f"# {key} = {_toml(values[key])}{_fields(key) if table == 'blocks' else ''}"
        elif key in EXAMPLES and table != "other_words":
            yield f"# {key} = {_toml(EXAMPLES[key])}  # for example; the base has none"


def _fields(key: str) -> str:
    """The fields that a block knows, as a remark."""
    needed, more = (" ".join(f"{{{name}}}" for name in sorted(fields)) for fields in BLOCKS[key])
    must = f"must have {needed}, " if needed else ""
    return f"  # {must}may have {more}" if more else ""


def _line(key: str, known: DialectKey, values: Mapping[str, Any]) -> str:
    """One key with what it may be."""
    if key in values:
        return f"{key} = {_toml(values[key])}  # {known.about}"
    value: object = known.choices[0] if known.choices else EXAMPLES.get(key, "")
    match known.kind:
        case "choices" | "texts":
            value = []
        case "flag":
            value = False
        case "whole":
            value = known.usual
        case "by units":
            value = DIGITS if known.high else STEPS
    choices = f" ({', '.join(known.choices)})" if known.choices else ""
    return f"{key} = {_toml(value)}  # {known.about}{choices}"


def _toml(value: object) -> str:
    """A value as TOML writes it."""
    if isinstance(value, dict):
        inner = ", ".join(f"{key} = {_toml(one)}" for key, one in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_toml, value)) + "]"
    return json.dumps(value)
