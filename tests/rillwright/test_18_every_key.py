"""Every key of the shop file changes something that a user sees: a program, a finding, a reason, a time or a number.

A row a key: the value that takes the place of the usual one, and what the usual job needs so that the key matters. A
key that nothing reads any more changes nothing here, and a key without a row fails.
"""

from dataclasses import dataclass
from functools import cache

import pytest
from support.parts import part_of

from planner import plan_part
from planner.settings.shopkeys import TABLES
from postproc import compare_program, write_program
from postproc.program import Heading
from rillwright.settings import Settings

ROUND = {"shape": "round"}
PARTS = {
    "bar": part_of([(-10, -13, 34), (-20, -23, 34), (-30, -37.3, 30)], length=100),
    "loose": part_of([(-10, -13.015, 34)], length=100),
    "square": part_of([(-10, -13, 34, {"corner_radius": 0.4})], length=100),
    "exact": part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (-0.02, 0.02)}})], length=100),
    "vee": part_of([(-10, -12, 40 - 2 * 1.7320508, {"shape": "vee"})], length=100),
    "round": part_of([(-10, -13, 37, ROUND)], length=100),
    "sleeve": part_of([(-10, -13, 26, {"where": "inside"})], bore=20),
    "face": part_of([(0, -3, 24, {"where": "face", "mouth_diameter": 30})], length=100),
    "shouldered": part_of([(-10, -13, 34)], steps=[(0, 40), (-13.5, 60)], length=100),
    "slope": part_of([(-10, -16, 34, {"shape": "tapered", "run": 1.0})], length=100),
    "two widths": part_of([(-10, -13, 34), (-20, -25, 34)], length=100),
}
# A program with whole lengths, as the controls of `whole_numbers = "increments"` count them in thousandths.
HAND = "O1\nG21 T0303\nG97 S500 M3\nG0 X42000 Z-13000\nG1 X34000 F0.1\nG0 X42000\nG0 X200000 Z100000\nM30\n"
TWO = "[[tools]]\nstation = 2\nwidth = 2.5\nmax_depth = 12\nfeed = 0.1"
FIVE = "[[tools]]\nstation = 5\nwidth = 5.0\nmax_depth = 12"


@dataclass(frozen=True)
class Row:
    """`after` takes the place of `before` (nothing, if the key is left out as usual) beside these other lines."""

    after: str
    before: str = ""
    part: str = "bar"
    machine: str = ""
    material: str = 'name = "C45"'
    tool: str = ""
    more: str = ""


ROWS = {
    ("machine", "dialect"): Row('dialect = "one-block"'),
    ("machine", "form"): Row('form = "plunges"'),
    ("machine", "whole_numbers"): Row('whole_numbers = "units"', 'whole_numbers = "increments"'),
    ("machine", "prefer"): Row('prefer = "tools"', 'prefer = "blocks"', "two widths", more=FIVE),
    ("machine", "retreat"): Row('retreat = "reference"'),
    ("machine", "work_offset"): Row("work_offset = 2"),
    ("machine", "block_numbers"): Row('block_numbers = "all"'),
    ("machine", "optional_stops"): Row("optional_stops = true"),
    ("machine", "remarks"): Row("remarks = true"),
    ("machine", "numbers"): Row('numbers = "count"'),
    ("machine", "number_first"): Row("number_first = 20"),
    ("machine", "number_last"): Row("number_last = 20"),
    ("machine", "grip_diameter"): Row("grip_diameter = 80", "grip_diameter = 20", machine="stick_out = 85"),
    ("machine", "grip_length"): Row("grip_length = 60", machine="stick_out = 90"),
    ("machine", "max_rpm"): Row("max_rpm = 300"),
    ("machine", "jaw_gap"): Row("jaw_gap = 20", machine="stick_out = 45"),
    ("machine", "stick_out"): Row("stick_out = 45", "stick_out = 30"),
    ("machine", "clearance"): Row("clearance = 2"),
    ("machine", "tolerance"): Row("tolerance = 0.002", part="loose"),
    ("machine", "home_x"): Row("home_x = 250"),
    ("machine", "home_z"): Row("home_z = 150"),
    ("machine", "coolant"): Row("coolant = false"),
    ("machine", "sharp_corner"): Row("sharp_corner = 0.05"),
    ("machine", "rapid_rate"): Row("rapid_rate = 1000"),
    ("machine", "tool_change"): Row("tool_change = 30"),
    ("machine", "power"): Row("power = 0.5"),
    ("machine", "tailstock"): Row("tailstock = 10"),
    ("machine", "batch"): Row("batch = 1000"),
    ("machine", "handling"): Row("handling = 40", machine="batch = 1000"),
    ("machine", "cycle_retract"): Row("cycle_retract = 5", machine='dialect = "one-block"'),
    ("material", "name"): Row('name = "PTFE"', 'name = "C45"', material=""),
    ("material", "cutting_speed"): Row("cutting_speed = 60"),
    ("material", "specific_cutting_force"): Row("specific_cutting_force = 4000"),
    ("material", "force_exponent"): Row("force_exponent = 0.1"),
    ("tools", "station"): Row("station = 5", "station = 3", tool="offset = 7"),
    ("tools", "offset"): Row("offset = 13"),
    ("tools", "width"): Row("width = 2.5", "width = 3.0"),
    ("tools", "corner_radius"): Row("corner_radius = 0.4", "corner_radius = 0.2", "square"),
    ("tools", "max_depth"): Row("max_depth = 2", "max_depth = 12"),
    ("tools", "reference"): Row('reference = "near"'),
    ("tools", "feed"): Row("feed = 0.12"),
    ("tools", "peck"): Row("peck = 0.5", tool="retract = 0.2"),
    ("tools", "retract"): Row("retract = 0.25"),
    ("tools", "where"): Row('where = "inside"'),
    ("tools", "edge"): Row('edge = "round"', part="round"),
    ("tools", "angle"): Row("angle = 90", "angle = 60", "vee", tool='edge = "vee"\ncorner_radius = 0'),
    ("tools", "cutting_speed"): Row("cutting_speed = 60"),
    ("tools", "finish"): Row("finish = 0.2"),
    ("tools", "side_depth"): Row("side_depth = 0.3", part="slope"),
    ("tools", "dwell"): Row("dwell = 2", part="exact"),
    ("tools", "last_feed"): Row("last_feed = 0.5", tool="width = 1.0\nmax_depth = 6\npeck = 0"),
    ("tools", "holder_near"): Row("holder_near = 30", part="face", tool='where = "face"\nface_max = 90'),
    ("tools", "holder_far"): Row("holder_far = 20", part="shouldered", tool="max_depth = 5"),
    ("tools", "min_bore"): Row("min_bore = 40", part="sleeve", tool='where = "inside"'),
    ("tools", "face_min"): Row("face_min = 50", "face_min = 10", "face", tool='where = "face"\nface_max = 90'),
    ("tools", "face_max"): Row("face_max = 20", part="face", tool='where = "face"'),
    ("tools", "overhang"): Row("overhang = 4"),
    ("tools", "blade_height"): Row("blade_height = 6", tool="max_depth = 30"),
    ("tools", "edge_life"): Row("edge_life = 0.1", part="two widths", tool="feed = 0.2", more=TWO),
    ("tools", "spindle"): Row('spindle = "ccw"'),
}
TOOL = {"station": "3", "width": "3.0", "max_depth": "12"}


def shop_text(row, table, line):
    """The shop file of a row with one line for its key."""
    lines = {"machine": row.machine, "material": row.material, "tools": row.tool}
    lines[table] = f"{lines[table]}\n{line}"
    said = {part.partition(" =")[0] for part in lines["tools"].splitlines()}
    usual = "\n".join(f"{name} = {value}" for name, value in TOOL.items() if name not in said)
    head = f'units = "mm"\n[machine]\n{lines["machine"]}\n[material]\n{lines["material"]}'
    return f"{head}\n[[tools]]\n{usual}\n{lines['tools']}\n{row.more}\n"


@cache
def seen(text, name):
    """What a user sees of one part with one shop file."""
    part, settings = PARTS[name], Settings(shop_text=text, shop_name="shop.toml")
    shop = settings.shop("mm")
    spoken = settings.spoken(shop)
    plan = plan_part(part, shop, cycles=spoken.cycles)
    hand = compare_program(part, HAND, shop, spoken)
    told = [(f.code, f.message) for f in (*plan.findings, *hand.findings)]
    whys = [(operation.why, operation.seconds) for operation in plan.operations]
    if not plan.operations:
        return told, settings.numbers
    program = write_program(plan, spoken, Heading("bar.dxf", "0" * 64))
    return told, settings.numbers, whys, plan.seconds, program.text


def test_each_key_has_its_row():
    assert ROWS.keys() == {(table, key.name) for table, keys in TABLES.items() for key in keys}


@pytest.mark.parametrize(("table", "key"), ROWS, ids=[".".join(key) for key in ROWS])
def test_it_changes_what_a_user_sees(table, key):
    row = ROWS[table, key]
    assert row.after.startswith(f"{key} = ")
    assert seen(shop_text(row, table, row.before), row.part) != seen(shop_text(row, table, row.after), row.part)
