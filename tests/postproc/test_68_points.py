"""Dangers that are the same whatever tool stands there, speeds off by ten, zeros, and what nobody said of a control.

Cutting speeds: n = 1000 v / (pi d). ISO 2768-1 class f: 0.1 over 6 to 30 mm, 0.15 over 30 to 120 mm. Thread depth: ISO
68-1 has 0.6134 of the pitch. The rest: common practice, no source.
"""

from dataclasses import replace

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from extractor.part import Part
from planner import parse_shop
from postproc import compare_program, judge

PART = part_of([(-10, -13, 34)], length=60)
HOLLOW = part_of([(-10, -13, 34)], length=60, bore=20.0)
SHOP = shop(tool(corner_radius=0.2), sharp_corner=0.2)
HEAD = "G21 G99 G40\nG28 U0 W0\nT0101\nG97 S800 M03\n"
GROOVE = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX150. Z50.\nM30\n"
AWAY = "G00 X150. Z50.\n"


def compared(cuts: str, part: Part = PART, groove: str = GROOVE, used=SHOP, **more):
    return compare_program(part, HEAD + cuts + groove, used, **more)


def told(found, level="stop"):
    return {f.code for f in found.findings if f.level.value == level}


@pytest.mark.parametrize(
    ("cuts", "code"),
    [
        ("G00 X44. Z-20.\nG00 X30.\nG00 X44.\n" + AWAY, "rapid-into-material"),
        ("G00 X41.5 Z-20.\n", "index-near-part"),
        ("G00 X44. Z2.\nG01 X40. F.2\nZ-80.\nX44.\n" + AWAY, "into-jaws"),
        ("G00 X44. Z-80.\n" + AWAY, "into-jaws"),
        ("G00 X4. Z2.\nG83 Z-20. F.1\n" + AWAY, "tool-unknown"),
        ("G00 X44. Z4.\nG92 X38.5 Z-8. F.5\n" + AWAY, "thread-too-deep"),
        ("G96 S100\nG00 X44. Z4.\nG92 X39. Z-8. F1.5\n" + AWAY, "thread-speed"),
        ("G50 S2500\nG96 S120\nG00 X44. Z0.\nG01 X-5.1 F.1\nG00 Z5.\n" + AWAY, "past-axis"),
        ("G00 X44. Z4.\nG00 X-5.1\nX44.\n" + AWAY, "past-axis"),
        ("G00 X-5.1 Z50.\nX44.\n" + AWAY, "past-axis"),
        ("G00 X0. Z-2.\nG01 Z-20. F.1\nG00 Z2.\n" + AWAY, "rapid-into-material"),
        ("G00 X0. Z2.\nG01 Z-20. F.1\nG00 Z-20.1\nZ2.\n" + AWAY, "rapid-into-material"),
        ("G00 X44. Z4.\nG92 X40.2 Z-8. F1.5\n" + AWAY, "thread-in-air"),
        ("G00 X44. Z4.\nG92 X38.2 Z8. F1.5\n" + AWAY, "thread-in-air"),
        ("G00 X44. Z2.\nG01 X40. F.2\nZ-59.\nX44.\n" + AWAY + "G50 X150. Z50.\n", "zero-shift"),
        ("G96 S120\nG00 X44. Z0.\nG01 X-1. F.1\nG00 Z5.\n" + AWAY, "no-clamp"),
        ("G50 S2500\nG96 S60\nG00 X0. Z2.\nG83 Z-20. F.1\n" + AWAY, "drill-speed"),
        ("G00 X44. Z-63.\nG01 X-1. F.05\nG00 X44.\n" + AWAY, "cut-after-parting"),
        ("G00 X44. Z2.\nG90 X40.4 Z-59. F.2\n" + AWAY, "land-left"),
        ("G00 X44. Z2.\nG90 X39.7 Z-59. F.2\n" + AWAY, "land-cut"),
    ],
)
def test_a_danger_of_an_unlisted_tool_is_told(cuts, code):
    assert code in told(compared(cuts))


@pytest.mark.parametrize(
    "cuts",
    [
        "G00 X44. Z2.\nG01 X40. F.2\nZ-59.\nX44.\n" + AWAY,
        "G00 X44. Z-63.\nG01 X20. F.05\nG00 X44.\nG01 X2. F.05\nG00 X44.\n" + AWAY,
        "G50 S2500\nG96 S120\nG00 X44. Z0.\nG01 X-5. F.1\nG00 Z5.\n" + AWAY,
        "G00 X44. Z4.\nG92 X39. Z-8. F1.5\nX38.2\n" + AWAY,
        "G00 X0. Z2.\nG83 Z-20. F.1\n" + AWAY,
        "G00 X0. Z2.\nG01 Z-20. F.1\nG00 Z2.\nZ-20.\nG01 Z-25.\nG00 Z2.\n" + AWAY,
        "G00 X44. Z4.\nG92 X40. Z-8. F1.5\n" + AWAY,
        "G50 X300. Z80.\nG00 X44. Z2.\nG01 X40. F.2\nZ-59.\nX44.\n" + AWAY + "G50 X150. Z50.\n",
    ],
)
def test_what_an_unlisted_tool_may_do(cuts):
    found = compared(cuts)
    assert found.agree, found.findings
    assert found.followed.as_point > 0


def test_a_bore_is_looked_at_from_inside():
    bored = "G00 X18. Z2.\nG90 X20. Z-61. F.1\n"
    assert compared(bored + "G00 Z5.\n" + AWAY, HOLLOW).agree
    assert "rapid-into-material" in told(compared("G00 X18. Z2.\nG01 Z-30. F.1\nG00 X24.\nX18.\nZ5.\n" + AWAY, HOLLOW))
    assert "index-near-part" in told(compared("G00 X18. Z2.\nG01 Z-30. F.1\n", HOLLOW))
    assert "drill-off-axis" in told(compared("G00 X2. Z2.\nG83 Z-62. F.1\n" + AWAY, HOLLOW))
    assert "land-left" in told(compared("G00 X18. Z2.\nG90 X19.6 Z-61. F.1\nG00 Z5.\n" + AWAY, HOLLOW))


@pytest.mark.parametrize(
    ("across", "level"), [(40.02, None), (40.15, "caution"), (40.16, "stop"), (39.85, "caution"), (39.84, "stop")]
)
def test_a_land_may_be_off_by_the_fine_tolerance(across, level):
    found = compared(f"G00 X44. Z2.\nG90 X{across:.2f} Z-59. F.2\n" + AWAY)
    codes = {"land-differs", "land-left", "land-cut", "tool-unknown"}
    assert (level is None) is not (told(found, "caution") | told(found)) & codes
    assert found.agree is (level != "stop")


@pytest.mark.parametrize(("z", "held"), [(-0.75, False), (-0.85, True)])
def test_the_ends_of_a_land_are_left_out(z, held):
    """The first 0.8 mm of a land may be rounded by the nose of the tool before it."""
    assert ("land-cut" in told(compared(f"G00 X44. Z2.\nG90 X39.7 Z{z} F.2\n" + AWAY))) is held


@pytest.mark.parametrize(("x", "fits"), [(37.31, True), (37.25, False)])
def test_a_thread_is_no_deeper_than_its_lead_bears(x, fits):
    """0.9 of 1.5 is 1.35, which is 2.7 on the diameter."""
    found = compared(f"G00 X44. Z4.\nG92 X{x} Z-8. F1.5\n" + AWAY)
    assert ("thread-too-deep" not in told(found)) is fits


@pytest.mark.parametrize(("lead", "fits"), [(12.8, True), (13.0, False)])
def test_a_thread_is_no_less_deep_than_eight_starts_make_it(lead, fits):
    """0.9 deep, 0.07 of 12.857."""
    found = compared(f"G00 X44. Z4.\nG92 X39. Z-8. F{lead}\nX38.2\n" + AWAY)
    assert ("thread-lead" not in told(found)) is fits


def test_what_is_parted_off_is_not_cut_again():
    """Parted in the same lines for the next part of the bar, or parted last, is no fault."""
    parted = "T0909\nG97 S500 M03\nG00 X44. Z-63.\nG01 X-1. F.05\nG00 X44.\n" + AWAY
    last = GROOVE.replace("M30\n", parted + "M30\n")
    assert compared("", groove=last).agree
    twice = "M98 P20100\nM30\nO0100\n" + GROOVE.replace("M30\n", parted + "M99\n")
    assert "cut-after-parting" not in told(compared("", groove=twice))


@pytest.mark.parametrize(("across", "fits"), [(11.9, True), (12.0, True), (11.7, False)])
def test_a_spindle_without_a_clamp_stays_below_the_machines(across, fits):
    """On 12 across 113 m/min are 2997 rev/min, on 11.7 they are 3074; the machine turns 3000."""
    turned = f"G96 S112\nG00 X44. Z2.\nX{across}\nG01 Z0.5 F.1\nG00 X44.\n" + AWAY
    assert ("no-clamp" not in told(compared(turned))) is fits


@pytest.mark.parametrize(("across", "code"), [(9.9, True), (10.1, False)])
def test_what_comes_in_nearer_than_half_the_bore_to_the_axis_is_a_drill(across, code):
    bored = f"G00 X{across} Z2.\nG01 Z-62. F.1\nG00 Z5.\n" + AWAY
    assert ("drill-off-axis" in told(compared(bored, HOLLOW))) is code
    drilled = "G00 X0. Z2.\nG01 Z-62. F.1\nG00 Z5.\n" + AWAY + "T0202\n"
    assert "drill-off-axis" not in told(compared(drilled + bored, HOLLOW))


def test_a_speed_in_the_shop_file_is_the_shops_whatever_else_of_the_material_is_left_out():
    text = "[machine]\nmax_rpm = 3000\n[material]\ncutting_speed = 120.0\n"
    text += "[[tools]]\nstation = 3\nwidth = 3.0\nmax_depth = 12.0\n"
    used = parse_shop('units = "mm"\n' + text, "shop.toml", "mm")
    groove = GROOVE.replace("S120", "S1200")
    assert "speed-too-great" in told(compared("", groove=groove, used=used))
    guessed = parse_shop('units = "mm"\n' + text.replace("cutting_speed = 120.0", ""), "shop.toml", "mm")
    assert "speed-too-great" not in told(compared("", groove=groove, used=guessed))


@pytest.mark.parametrize(("high", "fits"), [(3150, True), (3151, False)])
def test_the_passes_of_a_thread_begin_between_start_and_floor(high, fits):
    """From 44 to 38.2 are 2.9 on the radius, and the first pass takes 0.25 of the height."""
    found = compared(f"G00 X44. Z4.\nG76 P010060 Q50 R.02\nG76 X38.2 Z-8. P{high} Q250 F1.5\n" + AWAY)
    assert ("thread-height" not in told(found)) is fits


def test_a_bar_is_turned_down_before_the_groove_is_cut():
    turned = "G00 X50. Z2.\nG90 X44. Z-62. F.2\nX40.\n" + AWAY
    assert compared(turned, stock=48.0).agree
    assert "rapid-into-material" in told(compared("", stock=48.0))


def test_a_tailstock_stands_in_the_way_of_a_point():
    used = shop(tool(corner_radius=0.2), sharp_corner=0.2, tailstock=10.0)
    assert "into-tailstock" in told(compared("G00 X44. Z0.\nG01 X8. F.1\nG00 Z2.\n" + AWAY, used=used))


@pytest.mark.parametrize(
    ("spindle", "code"),
    [
        ("G96 S1200", "speed-too-great"),
        ("G97 S120", "speed-mode"),
        ("G97 S80", "speed-too-small"),
        ("G50 S25\nG96 S120", "speed-too-small"),
        ("G97 S955", None),
        ("G50 S600\nG96 S120", None),
        ("G97 S400", None),
    ],
)
def test_a_speed_off_by_ten_is_a_stop(spindle, code):
    groove = GROOVE.replace("G50 S3000\nG96 S120", spindle if "G50" in spindle else "G50 S3000\n" + spindle)
    found = compared("", groove=groove)
    assert told(found) == ({code} if code else set())


def speed_codes(**spindle):
    moves = Moves(**spindle).plunge(-13, 34)
    return {f.code for f in judge(PART, moves.run(), shop()).findings if f.code.startswith("speed")}


def test_the_edges_of_what_counts_as_a_slip():
    """On 42 across one rev/min is 0.132 m/min; the shop cuts at 120, an eighth is 15 and a third 40."""
    assert speed_codes(surface=False, speed=300.0) == set()
    assert speed_codes(surface=False, speed=157.0) == {"speed-unusual"}
    assert speed_codes(surface=False, speed=156.0) == {"speed-mode"}
    assert speed_codes(surface=False, speed=83.0) == {"speed-too-small"}


@pytest.mark.parametrize(
    ("across", "speed", "unsaid", "level"),
    [
        # One rev/min is 0.377 m/min on 120: 120 / 1.5 is 80, and 156 the greatest S that looks like 120.
        (120.0, 120.0, (), "caution"),
        (120.0, 156.0, (), "caution"),
        (120.0, 157.0, (), None),
        (210.0, 120.0, (), "caution"),
        (214.0, 120.0, (), None),
        # Where the shop file gives no speed, only a third of the usual one is told.
        (40.0, 120.0, ("cutting_speed",), "caution"),
        (104.0, 120.0, ("cutting_speed",), "caution"),
        (108.0, 120.0, ("cutting_speed",), None),
        (40.0, 60.0, ("cutting_speed",), None),
    ],
)
def test_revolutions_that_look_like_a_surface_speed(across, speed, unsaid, level):
    """The cut starts 2 above the land; pi D n / 1000 is the speed."""
    part = part_of([(-10, -13, across - 6)], diameter=across)
    moves = Moves(surface=False, speed=speed).plunge(-13, across - 6, start=across + 2)
    found = judge(part, moves.run(), replace(shop(), unsaid=frozenset(unsaid))).findings
    assert [f.level.value for f in found if f.code == "speed-mode"] == ([level] if level else [])


def test_a_clamp_an_eighth_of_the_machines_is_a_slip_where_it_slows_the_cut():
    """An eighth of 3000 is 375 rev/min; on 42 across 303 rev/min are 39.98 m/min, under a third of 120."""
    part = part_of([(-10, -13, 15)], diameter=20.0)
    for clamp, codes in ((374, {"speed-too-small"}), (375, set())):
        moves = Moves(surface=True, speed=120.0, clamp=clamp).plunge(-13, 15, start=22.0)
        found = judge(part, moves.run(), shop())
        assert {f.code for f in found.findings if f.code.startswith("speed")} == codes
    assert speed_codes(surface=True, speed=120.0, clamp=303) == {"speed-too-small"}
    assert speed_codes(surface=True, speed=120.0, clamp=304) == set()


@pytest.mark.parametrize(("word", "level"), [("M00", "stop"), ("M05", "stop"), ("M01", "caution"), ("G04 X.2", None)])
def test_a_stop_with_the_insert_in_the_groove(word, level):
    found = compared("", groove=GROOVE.replace("G01 X34. F.08\n", f"G01 X34. F.08\n{word}\n"))
    assert {f.level.value for f in found.findings if f.code == "stopped-in-groove"} == ({level} if level else set())
    clear = compared("", groove=GROOVE.replace("G00 X42.\nX150.", f"G00 X42.\n{word}\nX150."))
    assert "stopped-in-groove" not in told(clear) | told(clear, "caution")


@pytest.mark.parametrize(
    ("x", "code"),
    [(40.01, {"no-clearance"}), (40.3, {"no-clearance"}), (40.664, {"no-clearance"}), (40.666, set()), (44.0, set())],
)
def test_a_rapid_that_ends_much_nearer_than_the_clearance(x, code):
    """The shop's clearance is 1 on the radius; a third of it is 0.33."""
    found = compared("", groove=GROOVE.replace("G00 X42. Z-13.", f"G00 X50. Z-13.\nX{x}"))
    assert told(found, "caution") & {"no-clearance"} == code


def test_a_return_along_a_wall_just_cut_is_no_rapid_toward_metal():
    groove = GROOVE.replace("G01 X34. F.08\n", "G01 X36. F.08\nG00 X42.\nX36.4\nG01 X34.\n")
    assert "no-clearance" not in told(compared("", groove=groove), "caution")


@pytest.mark.parametrize(
    ("head", "back", "slip"),
    [
        ("G50 X20. Z50.\n", "G00 X200. Z50.\n", True),
        ("G50 X200. Z50.\n", "G00 X200. Z50.\n", False),
        ("G50 X210. Z50.\n", "G00 X200. Z50.\n", True),
        ("G50 X216. Z50.\n", "G00 X200. Z50.\n", False),
        ("G50 X200. Z150.\n", "G00 X200. Z50.\n", False),
        ("G50 X200. Z5.\n", "G00 X200. Z50.\n", True),
    ],
)
def test_an_old_zero_off_by_a_digit_is_given_away_by_where_the_program_comes_back_to(head, back, slip):
    text = "G21 G99\n" + head + GROOVE.replace("X150. Z50.\n", back)
    assert ("zero-slip" in told(compare_program(PART, text, SHOP), "stop")) is slip


def test_a_zero_first_said_after_a_cut_is_a_stop():
    turned = "G00 X44. Z2.\nG90 X40. Z-59. F.2\n" + AWAY
    assert "zero-shift" in told(compared(turned, groove="G54\n" + GROOVE))
    assert "zero-shift" not in told(compared("G54\n" + turned, groove="G54\n" + GROOVE))


def test_numbers_of_two_tongues_are_a_stop_where_nobody_named_one():
    text = "G21\nG97 S800 M03\nT0101\nG00 X44. Z2.\nG90 X40. Z-59. F.2\nG00 X150. Z50.\n" + GROOVE.replace(
        "G50 S3000\n", ""
    )
    text = text.replace("G96 S120", "G97 S900")
    assert "tongue-unclear" in told(compare_program(PART, text, SHOP))
    assert "tongue-unclear" not in told(compare_program(PART, text.replace("G21\n", "G21 G99\n"), SHOP))
    # G98 is the feed per minute of both, and what calls a cycle beside it is first read as the trade's.
    minutes = text.replace("G21\n", "G21 G98\n").replace("F.2", "F160").replace("F.08", "F72")
    assert "tongue-unclear" in told(compare_program(PART, minutes, SHOP))
    assert "tongue-unclear" not in told(compare_program(PART, minutes.replace("G90", "G01"), SHOP))


WHOLE = GROOVE.replace("X42.", "X42").replace("Z-13.", "Z-13").replace("X34.", "X34")


def shop_file(whole=""):
    return parse_shop(
        f'units = "mm"\n[machine]\nstick_out = 75.0\n{whole}[material]\nname = "C45"\ncutting_speed = 120.0\n'
        "specific_cutting_force = 1700.0\n[[tools]]\nstation = 3\nwidth = 3.0\ncorner_radius = 0.2\nmax_depth = 12.0\n"
        'reference = "far"\nfeed = 0.08\npeck = 1.0\nretract = 0.5\n',
        "shop.toml",
        "mm",
    )


def test_whole_numbers_are_read_as_the_shop_file_says():
    assert compared("", groove=WHOLE, used=shop_file('whole_numbers = "units"\n')).agree
    increments = (
        WHOLE.replace("X42\n", "X42000\n")
        .replace("X42 ", "X42000 ")
        .replace("Z-13", "Z-13000")
        .replace("X34 ", "X34000 ")
    )
    assert compared("", groove=increments, used=shop_file('whole_numbers = "increments"\n')).agree
    assert not compared("", groove=WHOLE, used=shop_file('whole_numbers = "increments"\n')).agree


def test_where_nobody_said_the_reader_tells_which_makes_sense():
    found = compared("", groove=WHOLE, used=shop_file())
    (stop,) = [f for f in found.findings if f.code == "no-decimal-point"]
    assert "make sense of this drawing as whole units" in stop.message
    assert 'whole_numbers = "units"' in stop.message
    assert not found.agree


@pytest.mark.parametrize(
    ("remark", "wide"),
    [
        ("T0303 GROOVING 4.0 WIDE", True),
        ("t3 width 2.5", True),
        ("T0303 3 MM WIDE", False),
        ("T0303 SHANK 16", False),
        ("T0505 GROOVING 4.0 WIDE", False),
        ("GROOVE 4 WIDE", False),
    ],
)
def test_a_remark_that_gives_an_insert_another_width_is_a_stop(remark, wide):
    found = compare_program(PART, f"({remark})\n" + HEAD + GROOVE, SHOP)
    assert ("insert-differs" in told(found)) is wide


STEPS = part_of([(-10, -13, 34)], steps=[(0, 40), (-30, 50)], length=60)
TUBE = part_of([(-10, -13, 34)], length=60, bore=20.0)
AFTER = "T0909\nG97 S500 M03\nG00 X54. {0}\nG01 {1} F.05\nG00 X54.\n" + AWAY


@pytest.mark.parametrize(
    ("part", "way", "parted"),
    [
        (PART, ("Z-60.", "X0."), True),
        (PART, ("Z-60.", "X.1"), False),
        (PART, ("Z-63.", "X-1."), True),
        (STEPS, ("Z-63.", "X-1."), True),
        (TUBE, ("Z-63.", "X20."), True),
        (TUBE, ("Z-63.", "X20.1"), False),
    ],
)
def test_a_part_is_parted_at_its_back_or_behind_it_and_right_through(part, way, parted):
    assert ("cut-after-parting" in told(compared(AFTER.format(*way), part))) is parted


def test_parting_in_pecks_parts_and_a_bar_that_comes_off_its_wall_does_not():
    pecks = AFTER.replace("G01 {1} F.05\n", "G01 X20. F.05\nG00 X21.\nG01 X-1.\n").format("Z-63.")
    assert "cut-after-parting" in told(compared(pecks))
    bored = "G00 X18. Z2.\nG90 X20.02 Z-61. F.1\nG00 Z5.\n" + AWAY
    assert "cut-after-parting" not in told(compared(bored, TUBE))


@pytest.mark.parametrize(
    ("cut", "again"),
    [
        ("G00 X54. Z-40.\nG01 X39.9 F.1\nG00 X54.\n", True),
        ("G00 X54. Z-40.\nG01 X40. F.1\nG00 X54.\n", False),
        ("G00 X54. Z-64.\nG01 X30. F.1\nG00 X54.\n", False),
        ("G00 X54. Z.1\nG01 X30. F.1\nG00 X54.\n", False),
        ("G00 X54. Z0.\nG01 X30. F.1\nG00 X54.\n", True),
    ],
)
def test_only_a_cut_on_the_part_is_one_after_parting(cut, again):
    groove = "T0404\nG97 S500 M03\n" + cut + AWAY + "M30\n"
    found = compared(AFTER.format("Z-63.", "X-1."), part_of([], length=60), groove)
    assert ("cut-after-parting" in told(found)) is again


def test_the_least_diameter_of_a_way_tells_how_fast_the_spindle_would_turn():
    for across, code in ((12.0, False), (11.7, True)):
        faced = f"G96 S112\nG00 X44. Z0.5\nG01 X{across} F.1\nG00 X44.\n" + AWAY
        assert ("no-clamp" in told(compared(faced))) is code
    assert "no-clamp" not in told(compared("G50 S2500\nG96 S112\nG00 X44. Z0.5\nG01 X-1. F.1\nG00 Z2.\n" + AWAY))
    assert "drill-speed" not in told(compared("G50 S2500\nG96 S112\nG00 X0. Z2.\nG01 Z0. F.1\nX30.\nG00 Z2.\n" + AWAY))


@pytest.mark.parametrize(("x", "told_so"), [("39.", False), ("38.99", True)])
def test_on_a_slope_half_a_millimetre_below_the_land_may_be_the_nose_radius(x, told_so):
    found = compared(f"G00 X44. Z2.\nG01 X40. Z0. F.2\nG01 X{x} Z-5.\nG00 X60.\n" + AWAY)
    assert ("tool-unknown" in told(found)) is told_so
