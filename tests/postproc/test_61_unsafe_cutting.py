"""Feed, feed mode, spindle and clamp, as they are while metal is cut.

What is usual for a grooving insert is common practice, no source.
"""

import re
from dataclasses import replace

import pytest
from support.moves import STEEL, Moves, shop, tool
from support.parts import part_of

from planner.settings.settled import material_of
from planner.shop import Told
from postproc import compare_program, judge

PART = part_of([(-10, -13, 34)])


def codes(moves: Moves, *tools, part=PART, level: str = "stop", **machine) -> set[tuple[str, int | None]]:
    found = judge(part, moves.run(), shop(*(tools or (tool(),)), **machine))
    return {(f.code, f.line) for f in found.findings if f.level.value == level}


def plunge(feed: float, per: int = 10_000, **fields) -> Moves:
    return Moves(**fields).rapid(42, -13).feed(34, feed=round(feed * per)).rapid(42)


@pytest.mark.parametrize("feed", [None, 0])
def test_no_feed(feed):
    assert codes(Moves().rapid(42, -13).feed(34, feed=feed).rapid(42)) == {("no-feed", 2)}


@pytest.mark.parametrize("fields", [{"speed": 0.0}, {"turning": False}])
def test_the_spindle_stands(fields):
    assert codes(plunge(0.08, **fields)) == {("spindle-off", 2)}


def test_in_the_air_the_spindle_may_stand():
    moves = Moves(speed=0.0, turning=False).rapid(60).feed(50, 20)
    assert ("spindle-off", 2) not in codes(moves)


def test_constant_surface_speed_needs_a_clamp():
    assert codes(plunge(0.08, clamp=None)) == {("no-clamp", 2)}
    assert not codes(plunge(0.08, clamp=None, surface=False, speed=900.0))


@pytest.mark.parametrize(
    ("feed", "expected"),
    [
        (0.08, None),
        (0.03, None),
        (0.2, None),
        (0.3, "feed-unusual"),
        (0.44, "feed-unusual"),
        (0.46, "feed-too-great"),
        (0.009, "feed-unusual"),
        (0.64, "feed-too-great"),
        (0.8, "feed-too-great"),
        (8.0, "feed-too-great"),
        (80.0, "feed-too-great"),
    ],
)
def test_the_feed_per_revolution(feed, expected):
    found = codes(plunge(feed)) | codes(plunge(feed), level="caution")
    assert found == ({(expected, 2)} if expected else set())


def test_a_feed_per_minute_read_per_revolution():
    """A feed of 80 mm/min under feed per revolution would be 80 mm each turn."""
    found = judge(PART, plunge(80.0).run(), shop())
    assert "F80 is read per revolution" in found.findings[0].message


def test_a_feed_per_revolution_read_per_minute():
    assert codes(plunge(0.08, per_minute=True)) == {("feed-per-minute", 2)}
    found = judge(PART, plunge(0.08, per_minute=True).run(), shop())
    assert "F0.08 is read per minute" in found.findings[0].message


def test_a_right_feed_per_minute_is_right():
    fixed = {"surface": False, "speed": 1000.0, "clamp": None, "per_minute": True}
    assert not codes(plunge(80.0, **fixed))
    assert codes(plunge(8000.0, **fixed)) == {("feed-too-great", 2)}
    assert not codes(plunge(76.0, per_minute=True))


def test_inch_feeds_have_limits_of_their_own():
    part = part_of([(-0.3, -0.425, 1.3)], diameter=1.5, length=3, units="in")
    insert = tool(width=0.125, feed=0.003, max_depth=0.5, peck=0.04, retract=0.02)

    def found(feed: float):
        moves = Moves(2, 1, units="in").rapid(1.6, -0.425).feed(1.3, feed=round(feed * 100_000)).rapid(1.6)
        verdict = judge(part, moves.run(), shop(insert, units="in", stick_out=None, clearance=0.05))
        return {f.code for f in verdict.findings}

    assert found(0.003) == set()
    assert found(0.03) == {"feed-too-great"}
    assert found(0.012) == {"feed-unusual"}


def test_faster_than_the_machine_is_a_stop():
    assert codes(plunge(0.08, clamp=3500)) == {("over-speed", 2)}
    assert ("over-speed", 2) in codes(plunge(0.08, surface=False, speed=4000.0))
    assert not codes(plunge(0.08, clamp=3000))


def test_where_no_shop_file_says_how_fast_it_is_a_caution():
    unsaid = replace(shop(), unsaid=frozenset({"max_rpm"}))
    found = judge(PART, plunge(0.08, clamp=300_000).run(), unsaid)
    assert [(f.code, f.level.value) for f in found.findings] == [("over-speed", "caution")]
    assert "300000 rev/min" in found.findings[0].message


def test_a_clamp_of_nothing_is_none():
    assert codes(plunge(0.08, clamp=0)) == {("no-clamp", 2)}


def test_ten_times_the_cutting_speed_is_a_stop():
    assert codes(plunge(0.08, speed=1200.0)) == {("speed-too-great", 2)}
    assert not codes(plunge(0.08, speed=900.0), tool(cutting_speed=180.0))


@pytest.mark.parametrize("feed", [0.000088, 0.1, 4.0, 400_000.0])
def test_feeds_are_told_in_plain_decimals(feed):
    moves = Moves().rapid(42, -13).feed(34, feed=round(feed * 10_000), per_minute=feed == 0.1).rapid(42)
    for finding in judge(PART, moves.run(), shop()).findings:
        assert not re.search(r"\de[-+]\d", finding.message)


@pytest.mark.parametrize(
    ("cuts", "slow"),
    [
        # On 42 across 900 rev/min are 119 m/min, on 6 across 17: below an eighth of 120 there is a stop, from 5.3 on.
        ("G97 S900 M03\nG01 X5. F.08\nX-1.\n", False),
        ("G96 S120 M03\nG01 X5. F.08\nG97 S900\nX-1.\n", False),
        ("G97 S900 M03\nG01 X5. F.08\nG00 U1.\nG97 S800\nG01 X-1.\n", False),
        ("G97 S900 M03\nG01 X5. F.08\nG00 X42.\nX6.\nG97 S800\nG01 X-1.\n", False),
        ("G96 S120 M03\nG01 X5. F.08\nG97 S90\nX-1.\n", True),
        ("G97 S90 M03\nG01 X5. F.08\nX-1.\n", True),
        ("G96 S120 M03\nG01 X5. F.08\nG00 X42.\nG00 Z-68.\nG00 X5.1\nG97 S900\nG01 X-1.\n", True),
    ],
)
def test_toward_the_axis_a_fixed_speed_is_that_of_the_whole_plunge(cuts, slow):
    """A parting tool that went down under surface speed goes on at a fixed one to the axis, where none is enough."""
    text = f"G21 G99 G40\nG28 U0 W0\nT0303\nG50 S3000\nG00 X42. Z-64.\n{cuts}G00 X42.\nG28 U0 W0\nM30\n"
    found = compare_program(PART, text, shop(tool(max_depth=25.0))).findings
    assert bool({f.code for f in found} & {"speed-too-small", "speed-unusual", "speed-mode"}) is slow


@pytest.mark.parametrize(("cuts", "fast"), [("X34.", 0), ("X38.\nG00 X41.\nG01 X34.", 0), ("X34. S2387", 1)])
def test_a_way_in_air_before_a_plunge_is_none_of_it(cuts, fast):
    """955 rev/min are 126 m/min on 42 and 300 on 100, where the feed begins; 2387 are 315 on 42. 240 is twice 120."""
    text = f"G21 G99 G40\nG28 U0 W0\nT0303\nG97 S955 M03\nG00 X100. Z-13.\nG01 X42. F2.\nF.08 {cuts}\nG00 X42.\n"
    found = compare_program(PART, f"{text}G28 U0 W0\nM30\n", shop(tool())).findings
    assert [f.code for f in found if "speed" in f.code] == ["speed-unusual"] * fast


@pytest.mark.parametrize(("speed", "fast"), [(1900, 0), (2200, 1)])
def test_a_higher_speed_deep_in_a_plunge_is_that_of_the_place_it_begins_at(speed, fast):
    """1900 rev/min are 209 m/min on 35 and 251 on 42, where nothing is cut at them; 2200 are 242 on 35. At most 240."""
    text = f"G21 G99 G40\nG28 U0 W0\nT0303\nG97 S955 M03\nG00 X42. Z-13.\nG01 X35. F.08\nX34. S{speed}\nG00 X42.\n"
    found = compare_program(PART, f"{text}G28 U0 W0\nM30\n", shop(tool())).findings
    assert [f.code for f in found if "speed" in f.code] == ["speed-unusual"] * fast


def test_a_cutting_speed_far_over_the_shops_is_a_caution():
    """120 m/min in the shop file, and nothing known of the material: twice that, on 42 across 1819 rev/min."""
    assert codes(plunge(0.08, speed=300.0), level="caution") == {("speed-unusual", 2)}
    assert ("speed-unusual", 2) in codes(plunge(0.08, surface=False, speed=2000.0), level="caution")
    assert not codes(plunge(0.08, speed=230.0), level="caution")
    assert codes(plunge(0.08, speed=500.0)) == codes(plunge(0.08, surface=False, speed=2900.0))
    assert codes(plunge(0.08, speed=500.0)) == {("speed-too-great", 2)}


@pytest.mark.parametrize(
    ("material", "own", "caution", "stop"),
    [
        # Greatest speeds of grooving: medium carbon steel 200, wrought aluminium 500 (the table of materials).
        ("C45", 120.0, 200.0, 300.0),
        ("C45", 160.0, 200.0, 300.0),
        ("C45", 250.0, 312.5, 468.75),
        ("EN AW-6082", 250.0, 500.0, 750.0),
        ("unheard of", 120.0, 240.0, 360.0),
    ],
)
def test_what_is_too_fast_hangs_on_the_material(material, own, caution, stop):
    """The chuck turns 20,000: no clamp holds anything here; an S ten times the shop's is told in any case."""
    made = replace(shop(max_rpm=20_000), material=material_of(material, Told(cutting_speed=own), "mm"))

    def found(speed: float) -> list[tuple[str, str]]:
        verdict = judge(PART, plunge(0.08, speed=speed, clamp=20_000).run(), made)
        return [(f.level.value, f.code) for f in verdict.findings]

    assert found(caution) == []
    assert found(caution + 0.1) == [("caution", "speed-unusual")]
    assert found(stop) == [("caution", "speed-unusual")]
    assert found(stop + 0.1) == [("stop", "speed-too-great")]


@pytest.mark.parametrize(
    ("clamp", "most", "level"), [(2273, 20_000, "caution"), (2274, 20_000, "stop"), (20_000, 2273, "caution")]
)
def test_a_limit_of_the_spindle_keeps_a_speed_from_burning_the_edge(clamp, most, level):
    """On 42 across 300 m/min are 2273.6 rev/min: 300 / (pi x 0.042)."""
    made = replace(shop(max_rpm=most), material=material_of("C45", Told(cutting_speed=120.0), "mm"))
    found = judge(PART, plunge(0.08, speed=500.0, clamp=clamp).run(), made).findings
    assert [f.level.value for f in found if f.code.startswith("speed")] == [level]
    assert "the spindle's limit holds it at 300)" in next(f.message for f in found if f.code.startswith("speed"))


@pytest.mark.parametrize(
    ("spindle", "told"),
    [
        ({"speed": 360.0}, False),
        ({"speed": 361.0}, True),
        ({"speed": 1000.0, "clamp": 990}, True),
        # On 42 across one rev/min is 0.132 m/min: 360 are 2728 rev/min.
        ({"speed": 2728.0, "surface": False}, False),
        ({"speed": 2740.0, "surface": False}, True),
        ({"speed": 15.0}, False),
        ({"speed": 14.9}, True),
        ({"speed": 12.0}, True),
        # 80 are 10.6 m/min, and too few to look like a surface speed of 120.
        ({"speed": 80.0, "surface": False}, True),
    ],
)
def test_a_speed_far_from_what_is_usual_for_the_material_is_told_where_no_file_gives_one(spindle, told):
    """Never as a stop: the figure for the material is the tool's own, 120 here; three times that and an eighth, 15."""
    guess = replace(shop(), unsaid=frozenset({"cutting_speed"}))
    found = judge(PART, plunge(0.08, **spindle).run(), guess).findings
    assert [(f.level.value, f.code, f.line) for f in found] == ([("caution", "speed-unusual", 2)] if told else [])


def test_one_state_is_told_once_on_its_first_line():
    part = part_of([(-10, -13, 34), (-15, -18, 34)])
    moves = Moves(clamp=None).plunge(-13, 34).plunge(-18, 34)
    assert codes(moves, part=part) == {("no-clamp", 2)}
    again = Moves(clamp=None).plunge(-13, 34).rapid(42, -18).feed(34, speed=150.0).rapid(42)
    assert codes(again, part=part) == {("no-clamp", 2), ("no-clamp", 5)}


def test_a_line_that_runs_often_is_told_once():
    moves = Moves(clamp=None)
    for _ in range(3):
        moves.rapid(42, -13, line=5).feed(34, line=6).rapid(42, line=7)
    found = judge(PART, moves.run(), shop())
    assert [(f.code, f.line) for f in found.findings] == [("no-clamp", 6)]


def test_a_cutting_speed_far_under_the_shops_is_a_caution():
    """120 m/min in the shop file; 20 is a sixth of it, and 165 rev/min on 42 across is 21.8 m/min."""
    assert codes(plunge(0.08, speed=20.0), level="caution") == {("speed-unusual", 2)}
    assert codes(plunge(0.08, surface=False, speed=165.0), level="caution") == {("speed-unusual", 2)}
    assert not codes(plunge(0.08, speed=25.0), level="caution")


@pytest.mark.parametrize(
    ("first", "second", "machine", "unsaid", "line"),
    [
        (None, None, {"coolant": True}, (), 2),
        (None, None, {"coolant": False}, (), None),
        (None, None, {"coolant": True}, ("coolant",), "note"),
        (False, False, {"coolant": True}, ("coolant",), "note"),
        (True, False, {"coolant": True}, ("coolant",), 5),
        (True, False, {"coolant": False}, (), 5),
        (True, True, {"coolant": True}, (), None),
        (None, True, {"coolant": True}, ("coolant",), 2),
        (False, True, {"coolant": False}, (), 2),
        (None, True, {"coolant": True}, (), 2),
        (False, False, {"coolant": False}, (), None),
    ],
)
def test_a_cut_without_coolant_is_told_where_it_is_wanted_or_others_have_it(first, second, machine, unsaid, line):
    moves = Moves(wet=first).plunge(-13, 34)
    moves.fields["wet"] = second
    held = replace(shop(**machine), unsaid=frozenset(unsaid))
    found = judge(part_of([(-10, -13, 34), (-20, -23, 34)]), moves.plunge(-23, 34).run(), held).findings
    level, line = ("note", 2) if line == "note" else ("caution", line)
    told = [(f.level.value, f.line) for f in found if f.code == "coolant-off"]
    assert told == ([] if line is None else [(level, line)])


@pytest.mark.parametrize(
    ("wet", "cut", "out", "line"),
    [(True, False, False, 2), (False, False, True, 2), (False, False, False, None), (True, None, True, None)],
)
def test_coolant_that_is_on_beside_the_only_cut_alone_is_told_where_a_word_has_it_off(wet, cut, out, line):
    """On the way in, in the cut and on the way out; with no M09 in front of the cut, M08 may only come late."""
    moves = Moves(wet=wet).rapid(42, -13)
    moves.fields["wet"] = cut
    moves.feed(34)
    moves.fields["wet"] = out
    held = replace(shop(coolant=False), unsaid=frozenset({"coolant"}))
    found = judge(PART, moves.rapid(42).run(), held).findings
    assert [(f.level.value, f.line) for f in found if f.code == "coolant-off"] == ([("caution", line)] if line else [])


@pytest.mark.parametrize("dry", [5, 3])
def test_a_tool_that_cuts_dry_all_the_way_is_told_where_another_has_coolant(dry):
    """Before or behind the wet one."""
    tools = tool(), tool(station=5, offset=5)
    moves = Moves(station=5, offset=5, wet=dry != 5).plunge(-13, 34).rapid(200, 100)
    moves.fields |= {"station": 3, "offset": 3, "wet": dry != 3}
    moves.plunge(-23, 34)
    found = judge(part_of([(-10, -13, 34), (-20, -23, 34)]), moves.run(), shop(*tools)).findings
    assert [f.line for f in found if f.code == "coolant-off"] == [2 if dry == 5 else 6]


@pytest.mark.parametrize(("power", "told"), [(0.0, False), (1.88, True), (1.91, False)])
def test_more_power_than_the_machine_has_is_told(power, told):
    """Kienzle: 2100 x 3 x 0.08 ** 0.75 is 948 N, at 120 m/min 1.895 kW (formula and exponent as in test_20_cutting)."""
    found = judge(PART, Moves().plunge(-13, 34).run(), shop(power=power)).findings
    assert [(f.level.value, f.line) for f in found if f.code == "power"] == ([("caution", 2)] if told else [])


@pytest.mark.parametrize(
    ("fields", "feed", "needed"),
    [
        # On 42 across 955 rev/min are 126.01 m/min, 600 are 79.17 and 250 are 32.99.
        ({"surface": False, "speed": 955.0, "clamp": None}, 0.08, 1.990),
        ({"clamp": 600}, 0.08, 1.250),
        ({"clamp": 600, "per_minute": True}, 48.0, 1.250),
        ({"surface": False, "speed": 250.0, "clamp": None, "per_minute": True}, 20.0, 0.521),
        # A clamp of 0 holds nothing back: 120 m/min are 909.46 rev/min.
        ({"clamp": 0, "per_minute": True}, 72.757, 1.895),
    ],
)
def test_the_power_asked_for_at_the_speed_that_the_spindle_has(fields, feed, needed):
    """948 N, as above, times pi D n / 60,000,000."""
    for power in (0.99 * needed, 1.01 * needed):
        found = judge(PART, plunge(feed, **fields).run(), shop(power=power)).findings
        assert ("power" in {f.code for f in found}) is (power < needed)


@pytest.mark.parametrize(
    ("on", "off", "told"), [("M08", "", False), ("M08", "M09\n", True), ("M13", "", False), ("", "", True)]
)
def test_coolant_words_of_a_program(on, off, told):
    head = "G21 G18 G40 G99\nG28 U0 W0\nT0303\nG50 S1500\nG96 S120 M03"
    text = f"{head}\n{on}\nG00 X42. Z-13.\nG01 X38. F0.08\n{off}X34.\nG00 X42.\nM30\n"
    found = compare_program(PART, text, shop(coolant=True)).findings
    assert ("coolant-off" in {f.code for f in found}) is told


@pytest.mark.parametrize(
    ("calls", "line"),
    [
        (("T0909", "T0303", "T0300"), None),
        (("T0909", "T0303", "T0000"), None),
        (("T0303", "T0300"), None),
        (("T0303", "T6500"), 10),
        (("T0100", "T0303", "T0300"), 3),
        # One that the shop has, and one that has cut: called back for the next piece (common practice, no source).
        (("T0303", "T0700"), None),
        (("T0707", "T0303", "T0700"), None),
    ],
)
def test_an_offset_cancelled_for_a_station_that_nothing_is_cut_with(calls, line):
    before = "".join(f"{call}\n" for call in calls[:-2])
    cut = f"{calls[-2]}\nG50 S1500\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F0.08\nG00 X60.\nG00 Z50.\n"
    text = f"G21 G18 G40 G99\nG28 U0 W0\n{before}{cut}{calls[-1]}\nG00 X80.\nM30\n"
    stocked = shop(tool(), tool(station=7, offset=7))
    found = compare_program(PART, text, stocked).findings
    assert [f.line for f in found if f.code == "tool-idle"] == ([line] if line else [])


@pytest.mark.parametrize(
    ("wait", "line"),
    [
        ("M00\n", 10),
        ("M00\nM08\n", 11),
        ("M00\nM03\n", None),
        ("M00\nS120 M03\n", None),
        ("M00\nG96 S120\n", 11),
        ("M00\nM13\n", None),
        ("M00\nM05\nM08\n", 12),
        ("M00\nM05\nM04\n", None),
        ("M01\n", None),
        ("M03\nM00\n", 11),
        ("M00\nG01 X41.\nM03\n", None),
        ("M00\nM03\nM00\n", 12),
        ("", None),
    ],
)
def test_a_cut_after_a_wait_without_a_new_start_of_the_spindle_is_told(wait, line):
    head = "G21 G18 G40 G99\nG28 U0 W0\nT0303\nG50 S1500\nG96 S120 M03\nM08\nG00 X42. Z-13."
    text = f"{head}\nG01 X38. F0.08\n{wait.replace('M00', 'G00 X42. M00', 1)}G01 X34.\nG00 X42.\nM30\n"
    found = compare_program(PART, text, shop(coolant=True)).findings
    assert [f.line for f in found if f.code == "spindle-after-wait"] == ([line] if line else [])


@pytest.mark.parametrize(
    ("end", "level"),
    [
        ("T0300\nG00 X200. Z100.", "stop"),
        ("G00 X50.\nT0300\nG00 X200. Z100.", "stop"),
        ("G00 X50.2\nT0300\nG00 X200. Z100.", "caution"),
        ("G00 X60.2\nT0300\nG00 X200. Z100.", None),
        ("G00 X200. Z100. T0300", None),
        ("G28 U0\nT0300\nG28 W0", None),
        ("T0303\nG00 X200. Z100.", None),
    ],
)
def test_an_offset_is_cancelled_clear_of_the_part(end, level):
    """With the offset gone the next move is off by all of it; in the block of the way out it goes with that.

    As near as a turret may be indexed: 5 on the radius is too near, 10 is clear.
    """
    text = (
        "G21 G18 G40 G99\nG28 U0 W0\nT0303\nG50 S1500\nG96 S120 M03\nG00 X42. Z-13.\nG01 X38. F0.08\nX34.\nG00 X42.\n"
    )
    found = compare_program(PART, f"{text}{end}\nM30\n", shop()).findings
    assert [f.level.value for f in found if f.code == "index-near-part"] == ([level] if level else [])


@pytest.mark.parametrize(("turning", "told"), [(False, "is stopped; start it with"), (True, "has no S for the mode")])
def test_a_spindle_without_a_speed_is_not_said_to_be_stopped(turning, told):
    moves = Moves(speed=0.0, turning=turning).plunge(-13, 34)
    (found,) = [f for f in judge(PART, moves.run(), shop()).findings if f.code == "spindle-off"]
    assert f"Metal is cut while the spindle {told}" in found.message


@pytest.mark.parametrize(
    ("feed", "told"),
    [(0.16, None), (0.1599, "0.00016 in each turn and the insert only rubs"), (0.1234, "that is 0.00012 in each turn")],
)
def test_a_feed_per_minute_of_an_inch_program_is_told_in_five_decimals(feed, told):
    """1000 turns a minute: 0.00016 in each, the least that an insert bears (common practice, no source)."""
    part = part_of([(-0.4, -0.52, 1.3)], diameter=1.5, length=3, units="in")
    moves = Moves(8, 4, units="in", surface=False, clamp=None, speed=1000.0, per_minute=True)
    moves.rapid(1.6, -0.52).feed(1.3, feed=moves.increments.feed_count(feed)).rapid(1.6)
    insert = tool(width=0.12, max_depth=0.5, feed=0.0005, peck=0.04, retract=0.02)
    found = judge(part, moves.run(), shop(insert, units="in", stick_out=None, clearance=0.04)).findings
    messages = [f.message for f in found if f.code == "feed-per-minute"]
    assert [told in one for one in messages] == ([True] if told else [])


@pytest.mark.parametrize(
    ("spindle", "begin", "told"),
    [
        # One feed from the air: what counts is the bar of 40, on which 955 rev/min are 120 m/min, 130 are 16.
        ("G97 S955 M03", 42, set()),
        ("G97 S955 M03", 200, set()),
        ("G97 S130 M03", 42, {"speed-mode"}),
        ("G97 S130 M03", 200, {"speed-mode"}),
        # 76 mm a minute are 0.08 a turn at 120 m/min on 40, and 0.4 on 200.
        ("G96 S120 G98 M03", 200, set()),
        # Within a quarter over the bar it is told there: 1550 are 243 m/min on 50, 195 on 40; 240 is twice 120.
        ("G97 S1550 M03", 50, {"speed-unusual"}),
        ("G97 S1550 M03", 51, set()),
    ],
)
def test_one_feed_from_the_air_into_the_metal_is_as_fast_as_where_the_metal_begins(spindle, begin, told):
    feed = "76." if "G98" in spindle else ".08"
    text = f"G21 G99 G40\nG28 U0 W0\nT0303\nG50 S3000\n{spindle}\nG00 X{begin}. Z-13.\nG01 X34. F{feed}\nG00 X42.\n"
    found = compare_program(PART, f"{text}G28 U0 W0\nM30\n", shop(tool())).findings
    assert {f.code for f in found if "speed" in f.code or "feed-too" in f.code or "feed-un" in f.code} == told


@pytest.mark.parametrize(
    ("speed", "told"),
    [("G96 S84", True), ("G96 S155", True), ("G96 S83", False), ("G96 S157", False), ("G97 S120", False)],
)
def test_an_inch_program_whose_surface_speed_looks_like_metres_is_told(speed, told):
    """394 ft/min are 120 m/min (the foot of 1959); nearer than 30 in 100 to that is taken for it."""
    inch = shop(
        tool(width=0.125, corner_radius=0.008, max_depth=0.5, feed=0.003, peck=0.0, retract=0.02),
        units="in",
        material=replace(STEEL, cutting_speed=393.7),
        sharp_corner=0.008,
    )
    part = part_of([(-0.4, -0.525, 1.3)], diameter=1.5, length=2.5, units="in")
    cut = "G00 X1.6 Z-.525\nG01 X1.3 F.003\nG00 X1.6\nG28 U0 W0\nM30\n"
    text = f"G20 G99\nG28 U0 W0\nT0303\nG50 S3000\n{speed} M03\n{cut}"
    found = [f for f in compare_program(part, text, inch).findings if "looks like m/min" in f.message]
    assert [(f.code, f.level.value) for f in found] == [("speed-unusual", "caution")] * told
