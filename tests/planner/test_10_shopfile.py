"""The shop file: all of it checked, every fault named at once, converted once, and sensible where it is silent."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.errors import SettingsError
from planner import default_shop, parse_shop
from planner.settings.shopkeys import TABLES
from planner.shop import Shop

# The example of the public contract, word for word.
CONTRACT = """
units = "mm"                       # units of every length below
[machine]
dialect = "two-block"
max_rpm = 3000
jaw_gap = 3.0                      # least distance kept between the tool and the jaws
stick_out = 75.0                   # finished front face to jaw face
[material]
name = "C45 steel"
cutting_speed = 120.0              # m/min, or ft/min where units = "in"
specific_cutting_force = 2100.0    # kc1.1, N/mm2
[[tools]]
station = 3                        # turret station; offset = the same unless given
width = 3.0                        # CW in ISO 13399
corner_radius = 0.2                # RE
max_depth = 12.0                   # CDX
reference = "far"                  # which edge Z is set to: "near" (front) or "far" (chuck side)
feed = 0.08                        # per revolution
peck = 1.0                         # radial depth between retracts; 0 = none
retract = 0.5
"""


def test_the_example_of_the_contract():
    shop = parse_shop(CONTRACT, "shop.toml", "mm")
    assert (shop.machine.dialect, shop.machine.max_rpm, shop.machine.jaw_gap) == ("two-block", 3000, 3.0)
    assert shop.machine.stick_out == 75.0
    assert (shop.material.cutting_speed, shop.material.specific_cutting_force) == (120.0, 2100.0)
    (tool,) = shop.tools
    assert (tool.name, tool.width, tool.corner_radius, tool.max_depth) == ("T0303", 3.0, 0.2, 12.0)
    assert (tool.reference, tool.feed, tool.peck, tool.retract) == ("far", 0.08, 1.0, 0.5)
    assert not shop.built_in


def test_a_metric_file_for_an_inch_drawing_is_converted_once():
    # An inch is 25.4 mm and a foot 0.3048 m exactly (international yard and pound agreement of 1959).
    shop = parse_shop(CONTRACT, "shop.toml", "in")
    assert shop.machine.jaw_gap == pytest.approx(3.0 / 25.4)
    assert shop.material.cutting_speed == pytest.approx(120.0 / 0.3048)
    assert shop.tools[0].width == pytest.approx(3.0 / 25.4)
    assert shop.tools[0].feed == pytest.approx(0.08 / 25.4)
    assert shop.machine.max_rpm == 3000
    assert shop.material.specific_cutting_force == 2100.0
    assert shop.machine.clearance == 0.05, "a default is a round figure of the drawing's own units"


def test_an_inch_file_for_a_metric_drawing():
    text = 'units = "in"\n[material]\ncutting_speed = 300\n[[tools]]\nstation = 1\nwidth = 0.125\n'
    shop = parse_shop(text, "s", "mm")
    assert shop.tools[0].width == pytest.approx(3.175)
    assert shop.material.cutting_speed == pytest.approx(91.44)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_built_in_shop(units):
    shop = default_shop(units)
    assert shop.built_in == {"tools", "material"}
    assert shop.machine.stick_out is None
    assert all(t.reference == "far" for t in shop.tools)
    assert len({t.name for t in shop.tools}) == len(shop.tools)
    assert {t.where for t in shop.tools} == {"outside", "inside", "face"}
    assert all(1.5 * t.width <= t.max_depth <= 8 * t.width for t in shop.tools)
    assert all((t.min_bore > 0) == (t.where == "inside") for t in shop.tools)


def test_standard_groove_widths_are_at_hand():
    # Groove widths m of DIN 471, rows of the retaining-ring table compared in the project's list of outside checks.
    widths = {tool.width for tool in default_shop("mm").tools}
    assert {1.1, 1.3, 1.6, 1.85, 2.15, 2.65, 3.15, 4.15} <= widths


def test_the_clearance_defaults():
    # Common practice, no source: 1 mm or 0.050 in a side.
    assert default_shop("mm").machine.clearance == 1.0
    assert default_shop("in").machine.clearance == 0.05


def test_what_a_tool_leaves_out():
    shop = parse_shop('units="mm"\n[[tools]]\nstation = 7\nwidth = 2.0', "s", "mm")
    (tool,) = shop.tools
    assert (tool.name, tool.max_depth, tool.corner_radius, tool.reference) == ("T0707", 4.0, 0.2, "far")
    assert "tools" not in shop.built_in


LEFT = {"max_rpm", "cycle_retract", "clearance", "dialect", "coolant", "cutting_speed"}


def test_limits_that_the_file_leaves_open_are_known():
    two = 'units="mm"\n[[tools]]\nstation = 7\nwidth = 2.0\n[[tools]]\nstation = 8\nwidth = 2.0\nmax_depth = 9'
    more = {"T0707 max_depth", "T0707 feed", "T0808 feed", "material"}
    assert parse_shop(two, "s", "mm").unsaid == LEFT | more
    given = [
        "max_rpm=900",
        "max_depth=5",
        "cycle_retract=0.3",
        "clearance=2",
        "dialect=plunge",
        "cutting_speed=90",
        "coolant=true",
    ]
    assert parse_shop(two, "s", "mm", [*given, "feed=0.1", "name=brass"]).unsaid == frozenset()
    assert "cutting_speed" in parse_shop(f'{two}\n[material]\nname = "brass"', "s", "mm").unsaid
    assert {f"{tool.name} max_depth" for tool in default_shop("in").tools} < default_shop("in").unsaid


def test_a_narrow_insert_is_not_given_a_large_corner():
    (tool,) = parse_shop('units="mm"\n[[tools]]\nstation = 7\nwidth = 0.5', "s", "mm").tools
    assert tool.corner_radius == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("[machine]\nmaxrpm = 3000", ["maxrpm is not a key", "did you mean max_rpm?"]),
        ("machines = 1", ["machines is not a key", "did you mean machine?"]),
        ("[machine]\nmax_rpm = 2.5", ["[machine] max_rpm is 2.5", "a whole number from 10 to 100000"]),
        ("[machine]\nmax_rpm = true", ["max_rpm is true", "whole number"]),
        ("[machine]\ncoolant = 1", ["coolant is 1", "true or false"]),
        ("[machine]\ndialect = 3", ["dialect is 3", "some text"]),
        ('units = "cm"', ['units is "cm"', '"mm" or "in"']),
        ("units = 1\n", ["units is 1"]),
        ("[machine]\njaw_gap = 3.0", ['must begin with units = "mm" or units = "in"']),
        ('units="mm"\n[machine]\njaw_gap = nan', ["jaw_gap is nan", "a number from 0 to 10000"]),
        ('units="mm"\n[machine]\nclearance = inf', ["clearance is inf"]),
        ('units="mm"\n[machine]\nclearance = 0', ["clearance is 0", "0.1 to 50"]),
        ('units="in"\n[machine]\nclearance = 0.001', ["clearance is 0.001", "from 0.00393701 to 1.9685"]),
        ('units="mm"\n[[tools]]\nstation=1', ["[[tools]] 1: width is missing"]),
        ('units="mm"\n[[tools]]\nwidth=3', ["[[tools]] 1: station is missing"]),
        ('units="mm"\n[[tools]]\nstation=0\nwidth=3', ["station is 0"]),
        ('units="mm"\n[[tools]]\nstation=1\nwidth=-3', ["width is -3"]),
        ('units="mm"\n[[tools]]\nstation=1\nwidth="3"', ['width is "3"', "a number"]),
        ('units="mm"\n[[tools]]\nstation=1\nwidth=3\nreference="left"', ['reference is "left"', '"near" or "far"']),
        ('units="mm"\n[[tools]]\nstation=1\nwidth=3\nreference=[1]', ["reference is [1]"]),
        ('units="mm"\n[[tools]]\nstation=1\nwidth=1\ncorner_radius=0.6', ["more than half of the width"]),
        ('units="mm"\n[[tools]]\nstation=1\nwidth=1\n[[tools]]\nstation=1\nwidth=1', ["T0101 is given twice"]),
        (
            'units="mm"\n[[tools]]\nstation=1\nwidth=1\n[[tools]]\nstation=1\noffset=2\nwidth=2',
            ["station 1 holds inserts of two widths"],
        ),
        ('units="mm"\n[[tools]]\nstation=1\nwidth=3\nedge="vee"', ["a vee insert needs its angle"]),
        (
            'units="mm"\n[[tools]]\nstation=1\nwidth=3\nface_min=30\nface_max=20',
            ["face_max must be more than face_min"],
        ),
        (
            'units="mm"\n[[tools]]\nstation=1\nwidth=3\npeck=0.1\nretract=1',
            ["retract 1 is at least ten times the peck 0.1"],
        ),
        ("tools = 3", ["tools must be a list"]),
        ("tools = []", ["tools is empty"]),
        ("machine = 3", ["[machine] must be a table"]),
        ("[machine", ["not valid TOML"]),
        ("a = " + "[" * 3000, ["not valid TOML"]),
    ],
)
def test_each_fault_has_its_sentence(text, parts):
    with pytest.raises(SettingsError) as caught:
        parse_shop(text, "shop.toml", "mm")
    message = str(caught.value)
    assert message.startswith("shop.toml can't be used: ")
    for part in parts:
        assert part in message
    assert "\n" not in message


def test_every_fault_is_named_at_once():
    text = 'units="mm"\n[machine]\nmax_rpm=-1\nclearence=1\n[[tools]]\nstation=1\nwidth=0\n[[tools]]\nwidth=2\nfeed="x"'
    with pytest.raises(SettingsError) as caught:
        parse_shop(text, "s", "mm")
    for part in (
        "max_rpm is -1",
        "did you mean clearance?",
        "1: width is 0",
        "2: station is missing",
        '2: feed is "x"',
    ):
        assert part in str(caught.value)


TOOL = "[[tools]]\nstation = 1\nwidth = 3\n"


@pytest.mark.parametrize(
    ("right", "wrong", "fault"),
    [
        ("edge = 'vee'\nangle = 60", "angle = 60", 'angle 60 is that of a vee insert, and edge is "square"'),
        ("corner_radius = 1.5", "corner_radius = 1.501", "corner_radius 1.501 is more than half of the width 3"),
        (
            'edge = "round"\ncorner_radius = 1.5',
            'edge = "round"\ncorner_radius = 1.4',
            "corner_radius 1.4 is not that of a round edge, which is half its width: leave it out",
        ),
        (
            'where = "inside"\nmin_bore = 3\nmax_depth = 12',
            'where = "inside"\nmin_bore = 3\nmax_depth = 12.01',
            "max_depth 12.01 is more than 4 times min_bore 3, and no such bar goes into such a bore",
        ),
        ("side_depth = 3", "side_depth = 3.001", "side_depth 3.001 is more than the width 3"),
        ("side_depth = 0.5\nfinish = 0.5", "side_depth = 0.5\nfinish = 0.51", "finish 0.51 is more than"),
        ("peck = 0.015", "peck = 0.0149", "peck 0.0149 is next to nothing"),
        ("peck = 0.5\nretract = 4.9", "peck = 0.5\nretract = 5", "retract 5 is at least ten times the peck 0.5"),
        ("[machine]\nstick_out = 3.1", "[machine]\nstick_out = 3", "stick_out 3 is no more than jaw_gap 3"),
        (
            "[machine]\nnumber_first = 9\nnumber_last = 9",
            "[machine]\nnumber_first = 10\nnumber_last = 9",
            "number_last 9",
        ),
    ],
)
def test_what_can_t_be_true_together(right, wrong, fault):
    parse_shop(f'units = "mm"\n{TOOL}{right}', "s", "mm")
    for units in ("mm", "in"):
        with pytest.raises(SettingsError) as caught:
            parse_shop(f'units = "mm"\n{TOOL}{wrong}', "s", units)
        assert fault in str(caught.value), "with the figures of the file, whatever the drawing's units"


def test_what_can_t_be_true_together_is_named_beside_values_that_are_wrong_alone():
    second = TOOL + "corner_radius = 2\nedge = 'vee'\npeck = -1"
    with pytest.raises(SettingsError) as caught:
        parse_shop(f'units = "mm"\n{TOOL}{second}', "s", "mm")
    for part in ("peck is -1", "T0101 is given twice", "2: corner_radius 2 is more", "2: a vee insert needs its angle"):
        assert part in str(caught.value)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("width = 3,0", "(line 4, width = 3,0): write a decimal point, like 3.0, where there is a comma"),
        (
            "edge = 'vee'  # \u2028 breaks no line of TOML\nwidth = 3,0",
            "(line 5, width = 3,0): write a",
        ),
        ("width = .8", "write a digit before the point"),
        ("width = 3.", "write a digit after the point"),
        ("edge = round", "(line 4, edge = round): write text in quotes"),
        ("width = 3\nwidth = 2", "(line 5, width = 2): give each key of a table once"),
        ("width =", "(line 4, width =: Invalid value"),
    ],
)
def test_a_slip_in_the_text_is_told_with_its_line(line, words):
    with pytest.raises(SettingsError) as caught:
        parse_shop(f'units = "mm"\n[[tools]]\nstation = 1\n{line}\n', "s", "mm")
    assert words in str(caught.value)


def test_a_key_of_another_table_is_told_where_it_belongs():
    with pytest.raises(SettingsError) as caught:
        parse_shop("max_rpm = 900\n[material]\nholder_near = 1\nname = ''\n[machine]\ncutting_speed = 9", "s", "mm")
    for part in ("max_rpm belongs under [machine]", "[material] holder_near belongs under [[tools]]", 'name is ""'):
        assert part in str(caught.value)
    assert "cutting_speed belongs under [material] or [[tools]]" in str(caught.value)


def test_a_file_without_lengths_needs_no_units():
    assert parse_shop('[machine]\ndialect = "plunge"', "s", "in").machine.dialect == "plunge"


def test_two_offsets_of_one_insert_are_two_tools():
    text = 'units="mm"\n[[tools]]\nstation=3\nwidth=3\n[[tools]]\nstation=3\noffset=13\nwidth=3\nreference="near"'
    assert [t.name for t in parse_shop(text, "s", "mm").tools] == ["T0303", "T0313"]


def test_names_with_line_breaks_and_brackets_are_only_text():
    name = "a) G00 X0 (\\n\\u001b[31m"
    assert parse_shop(f'[material]\nname = "{name}"', "s", "mm").material.name.startswith("a) G00 X0 (")
    with pytest.raises(SettingsError) as caught:
        parse_shop('[machine]\n"max\\nrpm)" = 1', "sh\nop", "mm")
    assert "\n" not in str(caught.value)


def test_a_material_known_by_name_brings_its_starting_values():
    shop = parse_shop('[material]\nname = "brass CuZn39Pb3"', "s", "mm")
    assert (shop.material.cutting_speed, shop.material.specific_cutting_force) == (180.0, 700.0)
    assert "material" in shop.built_in


def test_a_wrong_override_is_told_once_for_all_tools():
    with pytest.raises(SettingsError) as caught:
        parse_shop("", "built-in shop", "mm", ["peck=abc"])
    assert str(caught.value).count("peck") == 1


class TestOverrides:
    def test_one_key_of_every_tool(self):
        shop = parse_shop(CONTRACT, "s", "mm", ["peck=0.5"])
        assert [t.peck for t in shop.tools] == [0.5]

    def test_of_the_built_in_tools(self):
        assert {t.peck for t in parse_shop("", "s", "in", ["peck=0.02"]).tools} == {0.02}

    def test_one_station(self):
        text = CONTRACT + "\n[[tools]]\nstation=4\nwidth=4"
        assert [t.feed for t in parse_shop(text, "s", "mm", ["tools.4.feed=0.2"]).tools] == [0.08, 0.2]

    def test_machine_and_material(self):
        shop = parse_shop(CONTRACT, "s", "mm", ["max_rpm=1500", "material.name=brass", "cutting_speed=90"])
        assert (shop.machine.max_rpm, shop.material.name, shop.material.cutting_speed) == (1500, "brass", 90)
        assert shop.tools[0].cutting_speed == 0.0

    @pytest.mark.parametrize(
        "setting", ["pick=0.5", "peck", "machine.peck=1", "tools.9.peck=1", "peck=fast", "=", "a.b.c=1"]
    )
    def test_nonsense_is_named(self, setting):
        with pytest.raises(SettingsError):
            parse_shop(CONTRACT, "s", "mm", [setting])


def shop_or_fault(text, units):
    """The shop that a text gives, or the message of the one error that is allowed."""
    try:
        return parse_shop(text, "s", units)
    except SettingsError as error:
        return str(error)


@given(st.text(max_size=80))
def test_any_text_gives_a_shop_or_one_sentence(text):
    answer = shop_or_fault(text, "mm")
    assert isinstance(answer, Shop) or "\n" not in answer


VALUES = st.one_of(
    st.integers(), st.floats(), st.booleans(), st.sampled_from(['"mm"', '"x"', "[]", "{}", "1979-05-27", '"far"'])
)
KEYS = st.sampled_from(
    ["width", "station", "max_depth", "peck", "feed", "reference", "units", "corner_radius", "face_max"]
)


@given(st.dictionaries(KEYS, VALUES, max_size=6))
def test_any_values_give_a_shop_or_one_sentence(values):
    lines = [f"{k} = {str(v).lower()}" for k, v in values.items()]
    answer = shop_or_fault("\n".join(['units = "mm"', "[[tools]]", *lines]), "in")
    if isinstance(answer, Shop):
        assert all(t.width > 0 and t.max_depth > 0 and t.feed > 0 for t in answer.tools)
    else:
        assert "\n" not in answer


def test_a_dialect_that_isn_t_at_hand_is_named_with_the_other_faults():
    with pytest.raises(SettingsError) as caught:
        parse_shop('[machine]\ndialect = "two-blok"\nmax_rpm = 0', "s", "mm", (), ("one-block", "two-block"))
    assert 'dialect is "two-blok", and must be one of one-block, two-block (did you mean two-block?)' in str(
        caught.value
    )
    assert "max_rpm is 0" in str(caught.value)


def test_the_page_of_the_shop_file_names_every_key():
    page = (Path(__file__).parents[2] / "rillwright" / "help" / "shop.md").read_text("utf-8")
    for keys in TABLES.values():
        for key in keys:
            assert f"| `{key.name}` |" in page, key.name
