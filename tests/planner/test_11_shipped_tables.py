"""The numbers of the tables that ship with the planner: limits and defaults of the shop file, inserts, materials.

Totals of columns are counted here a second time, as a bookkeeper does, so that no slip of a digit passes. Groove widths
m of DIN 471, from memory. The rest: common practice, no source.
"""

import pytest

from extractor.errors import SettingsError
from planner import default_shop, parse_shop
from planner.settings.builtin import built_in_tools
from planner.settings.materials import FAMILIES

LIMITS = {
    "machine": """
        work_offset 0 6; number_first 1 9999; number_last 1 9999; grip_diameter 0 10000; grip_length 0 10000;
        max_rpm 10 100000; jaw_gap 0 10000; stick_out 0 10000; clearance 0.1 50; tolerance 0.001 0.5; home_x 1 10000;
        home_z 1 10000; sharp_corner 0 5; rapid_rate 100 200000; tool_change 0 3600; power 0 1000; tailstock 0 10000;
        batch 0 1e+07; handling 0 86400; cycle_retract 0 50
    """,
    "material": "cutting_speed 1 3000; specific_cutting_force 10 20000; force_exponent 0 0.9",
    "tools": """
        station 1 99; offset 1 99; width 0.05 100; corner_radius 0 50; max_depth 0.05 1000; feed 0.001 2; peck 0 1000;
        retract 0 50; angle 0 179; cutting_speed 1 3000; finish 0 2; side_depth 0 100; dwell 0 20; last_feed 0.1 1;
        holder_near 0 500; holder_far 0 500; min_bore 0 10000; face_min 0 10000; face_max 0 10000; overhang 0 1000;
        blade_height 0 200; edge_life 0 10000
    """,
}
ROWS = [(table, *row.split()) for table, rows in LIMITS.items() for row in rows.split(";")]


def told(table, key, value):
    """What is said of a value in a shop file in mm."""
    head = f"[[{table}]]" if table == "tools" else f"[{table}]"
    try:
        parse_shop(f'units = "mm"\n{head}\n{key} = {value}\n', "s", "mm")
    except SettingsError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(("table", "key", "low", "high"), ROWS)
def test_a_number_lies_between_its_limits(table, key, low, high):
    for wrong in (-1, 1_000_000_000):
        message = told(table, key, wrong)
        assert f"{key} is {wrong}, and must be a " in message
        assert f"number from {low} to {high}" in message
    for right in (low, f"{float(high):.0f}" if float(high) >= 1 else high):
        assert f"{key} is {right}, and must be a" not in told(table, key, right)


DEFAULTS = (
    "max_rpm 3000 tool_change 3 number_first 1 number_last 9999 work_offset 0 power 0 tailstock 0 batch 0 handling 0"
)
LENGTHS = {
    "mm": "jaw_gap 3 clearance 1 tolerance .02 home_x 200 home_z 100 sharp_corner .2 cycle_retract .5 rapid_rate 10000",
    "in": "jaw_gap .125 clearance .05 tolerance .001 home_x 8 home_z 4 sharp_corner .008 cycle_retract .02"
    " rapid_rate 400",
}


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_machine_of_which_nothing_is_said(units):
    words, machine = f"{DEFAULTS} grip_diameter 0 grip_length 0 {LENGTHS[units]}".split(), default_shop(units).machine
    wanted = {key: float(value) for key, value in zip(words[::2], words[1::2], strict=True)}
    assert {key: getattr(machine, key) for key in wanted} == wanted


@pytest.mark.parametrize(("units", "feed", "peck"), [("mm", 0.08, 1.0), ("in", 0.003, 0.04)])
def test_a_tool_of_which_only_the_width_is_said(units, feed, peck):
    tool = parse_shop(f'units = "{units}"\n[[tools]]\nstation = 1\nwidth = 0.1\n', "s", units).tools[0]
    nothing = (tool.angle, tool.finish, tool.side_depth, tool.dwell, tool.min_bore, tool.face_min, tool.face_max)
    assert (tool.feed, tool.peck, tool.last_feed) == (feed, peck, 1.0)
    assert {*nothing, tool.overhang, tool.blade_height, tool.edge_life} == {0.0}


@pytest.mark.parametrize(
    ("units", "where", "count", "totals"),
    [
        ("mm", "outside", 32, (103_250, 15_000 - 7_500, 548_500, 2_420, 30_800)),
        ("mm", "inside", 8, (17_650, 1_000, 32_500, 390, 4_700)),
        ("mm", "face", 3, (9_000, 600, 27_000, 190, 2_400)),
        ("in", "outside", 32, (39_460, 5_970 - 3_010, 207_100, 942, 11_990)),
        ("in", "inside", 6, (4_840, 280, 9_300, 115, 1_340)),
        ("in", "face", 3, (3_540, 240, 10_600, 75, 940)),
    ],
)
def test_the_columns_of_the_built_in_inserts_add_up(units, where, count, totals):
    """In thousandths of a mm and ten-thousandths of an inch: width, corner (none round), reach, feed, peck."""
    tools, counts = [tool for tool in built_in_tools(units) if tool.where == where], 1000 if units == "mm" else 10_000
    rows = [(tool.width, tool.corner_radius, tool.max_depth, tool.feed, tool.peck) for tool in tools]
    assert len(rows) == count
    assert tuple(round(counts * sum(column)) for column in zip(*rows, strict=True)) == totals


def test_the_built_in_inserts_have_the_widths_of_ring_grooves_and_least_bores():
    tools = built_in_tools("mm")
    assert {1.1, 1.3, 1.6, 1.85, 2.15, 2.65, 3.15, 4.15} <= {tool.width for tool in tools if tool.where == "outside"}
    assert [tool.min_bore for tool in tools if tool.where == "inside"] == [8, 10, 16, 16, 20, 20, 25, 25]
    inches = [tool.min_bore for tool in built_in_tools("in") if tool.where == "inside"]
    assert inches == [0.312, 0.375, 0.625, 0.75, 0.75, 1.0]
    assert {tool.min_bore for tool in (*tools, *built_in_tools("in")) if tool.where != "inside"} == {0.0}
    rounds = {units: [tool.width for tool in built_in_tools(units) if tool.edge == "round"] for units in ("mm", "in")}
    assert rounds == {"mm": [2.0, 3.0, 4.0, 6.0], "in": [0.078, 0.118, 0.156, 0.25]}


def test_the_figures_of_the_materials_add_up():
    """Least, usual and greatest speed, force, and hundredths of its exponent and of the share of the feed."""
    families = FAMILIES.values()
    assert len(families) == 21
    speeds = [sum(getattr(family, name) for family in families) for name in ("slow", "speed", "fast", "kc11")]
    assert speeds == [1_525, 2_315, 4_452, 37_455]
    assert round(100 * sum(family.mc for family in families)) == 509
    assert round(100 * sum(family.feed for family in families)) == 2_030
