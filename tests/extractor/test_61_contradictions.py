"""A text that prints another number than the drawing measures is a stop that names both; rounding is none."""

from dataclasses import replace

import pytest
from support.ties import HERE, across, along, bar, frame, half, span, tied, tolerances

from extractor.sheet import Dimension, DimensionKind


def stops(*dimensions, part=None):
    """The stops of a bar with these dimensions."""
    return [f for f in tied(part or bar(), *dimensions)[1] if f.stops]


CONTRADICTIONS = {
    "width": (along(-10, -13, "4"), 1, "width", "4", "3"),
    "floor": (across(34, "Ø33"), 1, "floor diameter", "33", "34"),
    "floor by its radius": (half(34, "Ø36"), 1, "floor diameter", "36", "34"),
    "place": (along(0, -10, "10.5"), 1, "z near", "10.5", "10"),
    "far wall": (along(0, -13, "12"), 1, "z far", "12", "13"),
    "depth": (span((-11, 17), (-11, 20), "2"), 1, "depth", "2", "3"),
    "a deviation without its size": (span((-11, 17), (-11, 20), "-0.45"), 1, "depth", "0.45", "3"),
    "land": (across(40, "Ø42", z=-30), None, "land diameter", "42", "40"),
    "length": (along(0, -60, "61"), None, "length", "61", "60"),
    "pitch": (along(-10, -20, "5"), None, "distance", "5", "10"),
    "a snapped length": (along(0, -60.0, "60.25"), None, "length", "60.25", "60"),
}


@pytest.mark.parametrize(
    ("dimension", "groove", "field", "printed", "drawn"), CONTRADICTIONS.values(), ids=CONTRADICTIONS
)
def test_another_number_is_a_stop(dimension, groove, field, printed, drawn):
    (stop,) = stops(dimension)
    assert (stop.code, stop.groove) == ("dimension-contradicts", groove)
    assert f"prints {printed} where the drawing measures {drawn}" in stop.message
    assert field in stop.message
    assert stop.at is not None


AGREEING = {
    "the same number": along(-10, -13, "3"),
    "a place behind the front face": along(0, -13, "-13"),
    "trailing zeros": along(-10, -13, "3.000"),
    "decimal comma": along(-10, -13, "3,0"),
    "measured": along(-10, -13, None),
    "measured in words": along(-10, -13, "<> WIDE"),
    "two decimals of a third": along(-40, -46, "6.00"),
    "diameter on half": half(34, "Ø34"),
    "diameter on half, no sign": half(34, "34"),
    "radius on half": half(34, "17"),
    "for information": along(0, -60, "(60)"),
    "count and size": along(-10, -13, "2x 3"),
    "width by depth": along(-10, -13, "3 x 3"),
    "chain": along(-10, -20, "1 x 10 = 10"),
    "a file of four decimals": along(-10, -13, "3.00008"),
    "a fraction finer than the file": along(-10, -13.000025, "3"),
    "another place": along(-10, -13, "SEE 4711"),
    "an item number": along(-10, -13, "ITEM 7"),
    "words only": along(-10, -13, "SEE NOTE 3"),
    "no text": along(-10, -13, ""),
    "an angle": along(-10, -13, "45°"),
    "a thread": across(40, "M42", z=-30),
    "in inches": across(38.1, "1.500", z=-30),
}


@pytest.mark.parametrize("dimension", AGREEING.values(), ids=AGREEING)
def test_what_agrees_is_no_alarm(dimension):
    part = bar(diameter=38.1) if dimension.text == "1.500" else bar()
    assert stops(dimension, part=part) == []


# Drawn 3.175: what rounding prints, and what no rounding prints.
ROUNDED = [("3.175", 0), ("3.18", 0), ("3.17", 0), ("3.2", 0), ("3", 1), ("3.1", 1), ("3.16", 1), ("3.3", 1)]


@pytest.mark.parametrize(
    ("text", "alarm"),
    [("3.175", 0), ("3.18", 0), ("3.17", 0), ("3.2", 0), ("3", 1), ("3.1", 1), ("3.16", 1), ("3.3", 1)],
)
def test_rounding_is_no_contradiction(text, alarm):
    assert len(stops(along(-10, -13.175, text), part=bar((-10, -13.175, 34)))) == alarm


@pytest.mark.parametrize(
    ("text", "alarm"), [("0.125", 0), (".125", 0), ("1/8", 0), (".13", 0), (".12", 0), (".11", 1), (".1", 1)]
)
def test_rounding_in_inches(text, alarm):
    part = bar((-0.4, -0.525, 1.3), diameter=1.5, length=2.0, units="in")
    assert len(stops(along(-0.4, -0.525, text, r=0.75), part=part)) == alarm


ELSEWHERE = {
    "another view": span((-10, 120), (-13, 120), "7"),
    "a detail at another scale": span((200, 0), (230, 0), "3"),
    "along no axis": span((-10, 20), (-13, 17), "7"),
    "between no features": span((-3, 20), (-7, 20), "7"),
    "an angle dimension": Dimension(DimensionKind.ANGULAR, ((0, 0), (1, 1)), 0, 0, "30°"),
    "a leader to nowhere": Dimension(DimensionKind.LEADER, ((400, 400), (410, 410)), 0, 0, "Ø40"),
}


@pytest.mark.parametrize("dimension", ELSEWHERE.values(), ids=ELSEWHERE)
def test_what_measures_nothing_of_the_part_contradicts_nothing(dimension):
    assert tied(bar(), dimension)[1] == ()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("6 H13 (+0.18/0)", False),
        ("6 H13 (6.18/6)", False),
        ("6 H13 (+0.180/0)", False),
        ("6 H13 (+0.181/0)", True),
        ("6 H13 +0.185", True),
        ("6 H13 +0.2", True),
        ("6 H13 0/-0.18", True),
        ("6 H13 (6/5.82)", True),
        ("6 H13 (+0.179/0)", True),
        ("6.000 H10 +0.05", False),
        ("6.000 H10 +0.050", True),
        ("6 H10 (6.05/6.000)", True),
        ("6 H13 (+0.12/0)", True),
        ("6 H13 (6.12/6)", True),
        ("6 H12 (+0.12/0)", False),
        ("6 +0.18/0 (6.18/6)", False),
        (".2362 H13 +.0071/0", False),
        (".2362 H13 +.0072/0", True),
        (".2362 H13 +.007/0", False),
    ],
)
def test_a_class_and_the_limits_beside_it_must_be_the_same(text, told):
    """ISO 286-1: H13 of 3 to 6 is 0 to 180 micrometres (.0071 in), H12 0 to 120, H10 0 to 48."""
    found = [f for f in tied(bar(), along(-40, -46, text))[1] if f.stops]
    assert [f.code for f in found] == (["dimension-contradicts"] if told else [])


@pytest.mark.parametrize(
    ("text", "deviations", "told"),
    [
        ("<> H13", (0.0, 0.18), False),
        ("<> H13", (0.0, 0.185), True),
        ("<> H10", (0.0, 0.05), False),
        ("<> H10", (0.0, 0.051), True),
        ("<> js12", (-0.06, 0.06), False),
    ],
)
def test_a_class_and_the_variables_of_its_dimension_must_be_the_same(text, deviations, told):
    """ISO 286-1: H13 of 3 to 6 is 0 to 180 micrometres, H10 0 to 48."""
    found = [f for f in tied(bar(), along(-40, -46, text, deviations=deviations))[1] if f.stops]
    assert [f.code for f in found] == (["dimension-contradicts"] if told else [])


@pytest.mark.parametrize(("diameter", "text", "told"), [(25, "js12 ±0.1", False), (200, "js10 ±0.1", True)])
def test_a_figure_of_one_decimal_is_no_class_that_is_far_from_it(diameter, text, told):
    """ISO 286-1: js12 of 18 to 30 is 105 micrometres to each side, js10 of 180 to 250 is 92.5."""
    part = bar((-10, -13, diameter), diameter=diameter + 10)
    found = [f for f in tied(part, across(diameter, f"Ø{diameter} {text}"))[1] if f.stops]
    assert [f.code for f in found] == (["dimension-contradicts"] if told else [])


RADII = [
    ("R15", [], {}),
    ("R15 -0.1", [], {"floor_diameter": (-0.2, 0.0)}),
    ("R30", ["dimension-contradicts"], {}),
    ("R16", ["dimension-contradicts"], {}),
    ("Ø30 -0.1", [], {"floor_diameter": (-0.1, 0.0)}),
    ("Ø15", ["dimension-contradicts"], {}),
]


@pytest.mark.parametrize(("text", "codes", "given"), RADII)
@pytest.mark.parametrize("kind", [DimensionKind.LINEAR, DimensionKind.DIAMETER])
def test_a_radius_right_across_a_diameter_is_half_of_it(text, codes, given, kind):
    part, findings = tied(bar(), across(30, text, z=-46, kind=kind))
    assert [f.code for f in findings] == codes
    assert part.grooves[2].tolerances == given


@pytest.mark.parametrize(("text", "told"), [("R20", False), ("R40", True), ("R20.1", True)])
def test_a_radius_right_across_a_land_is_half_of_it(text, told):
    assert [f.code for f in tied(bar(), across(40, text))[1]] == ["dimension-contradicts"] * told


def test_a_radius_led_to_a_floor_is_that_of_the_floor_where_it_fits():
    def on_floor(text):
        return Dimension(DimensionKind.LEADER, (HERE.on_sheet(-43, 15), HERE.on_sheet(-43, 40)), 0.0, 0.0, text)

    assert tied(bar(), on_floor("R15 -0.1"))[0].grooves[2].tolerances == {"floor_diameter": (-0.2, 0.0)}
    assert [f.code for f in tied(bar(), on_floor("R14 -0.1"))[1]] == ["corner-not-drawn"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Ø34.62-33.85", False),
        ("Ø34.63-33.85", True),
        ("Ø34.63-33.84", False),
        ("Ø34.63-34", False),
        ("Ø34.15-33.37", True),
        ("Ø35.05-34.1", True),
        ("Ø34.33-33.95", False),
    ],
)
def test_limits_far_to_one_side_of_the_drawn_size_are_asked_about(text, told):
    """IT14 of 30 to 50 is 620 micrometres (ISO 286-1): no fit reaches farther to one side and a little to the other."""
    found = [f for f in tied(bar(), across(34, text))[1] if f.stops]
    assert [f.code for f in found] == (["dimension-contradicts"] if told else [])


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (("3 +0.1/0", "3 0/-0.1"), True),
        (("3 +0.1/0", "3 +0.1/0"), False),
        (("3 +0.1/0", "3 +0.113/0"), True),
        (("3 +0.1/0", "3"), False),
        (("3 +0.1/0", ".118 +.004/0"), False),
        (("2x 3 +0.1/0", "3 0/-0.1"), True),
        (("2x 3 +0.1/0", "3"), False),
    ],
)
def test_one_size_printed_twice_has_the_same_limits(texts, told):
    found = [f for f in tied(bar(), *(along(-10, -13, text) for text in texts))[1] if f.stops]
    assert [f.code for f in found] == (["dimension-contradicts"] if told else [])


@pytest.mark.parametrize(
    ("text", "told"), [("M40", False), ("M40x2", False), ("M42x2", False), ("M43", True), ("M36x1.5", True)]
)
def test_a_thread_on_a_dimension_is_as_large_as_its_land(text, told):
    found = [f for f in tied(bar(), across(40, text, z=-30))[1] if f.stops]
    assert [f.code for f in found] == (["note-contradicts"] if told else [])


@pytest.mark.parametrize(
    ("across_bore", "text", "told"),
    [
        (21.835, "M24x2", False),
        (24, "M24x2", False),
        (21.61, "M24x2", False),
        (21.59, "M24x2", True),
        (20.752, "M24", False),
        (18.01, "M24", False),
        (17.99, "M24", True),
        (21.835, "M28x2", True),
        (21.835, "M20x2", True),
    ],
)
def test_a_thread_in_a_bore_is_drawn_at_its_core_or_its_nominal_diameter(across_bore, text, told):
    """Cores of ISO 724, from memory: 21.835 of M24x2, 20.752 of M24, whose pitch is 3."""
    found = [f for f in tied(bar(bore=across_bore), across(across_bore, text, z=-30))[1] if f.stops]
    assert [f.code for f in found] == (["note-contradicts"] if told else [])


def test_a_leader_that_contradicts_the_floor_it_touches():
    at = frame()
    leader = Dimension(DimensionKind.LEADER, (at.on_sheet(-11.5, 17), at.on_sheet(0, 30)), 0, 0, "Ø33")
    (stop,) = stops(leader)
    assert "prints 33 where the drawing measures 34" in stop.message


# 10 mm are 0.39370 in, 10 in 254 mm, 0.5 in 12.7 mm (the inch is 25.4 mm, ISO 31-1).
BRACKETED = {
    "10 [0.394]": False,
    "10 [.39]": False,
    "10 [0.4]": False,
    "10 [0.393]": False,
    "10 [0.39]": False,
    "10.0 [0.3937]": False,
    "10.00 [0.396]": True,
    "10.00 [0.394]": False,
    "10.000 [0.395]": True,
    "10.000 [0.394]": False,
    "10 [254]": False,
    "10 [10]": False,
    "10 [12]": True,
    "10 ±0.1 [.394 ±.004]": False,
    "10 ±0.1 [.494 ±.004]": True,
    "Ø10 [Ø12]": True,
    "<> [.394]": False,
    "<> [.404]": True,
    "10 [NOTE 12]": False,
    "0.394 [10]": False,
    "0.394 [10.02]": False,
    "0.394 [10.03]": True,
    "0.394 [10.01]": False,
}


@pytest.mark.parametrize(("text", "told"), BRACKETED.items(), ids=BRACKETED)
def test_a_second_size_in_square_brackets_is_the_same_in_the_other_unit(text, told):
    words = [f.message for f in stops(along(0, -10, text))]
    assert (len(words), any("prints two sizes" in one for one in words)) == (told, told)


AGAIN = {
    "Ø34 (Ø33.95)": True,
    "Ø34 (33.95)": True,
    "Ø34 (Ø33.994)": True,
    "Ø34 (Ø34.00)": False,
    "Ø34 (Ø34.0)": False,
    "Ø34 (1.339)": False,
    "Ø34 (1.349)": True,
    "Ø34 (=33)": True,
    "Ø34 (2)": False,
    "Ø34 h9 (33.98)": False,
    "Ø34.2 [Ø34.25]": True,
}


@pytest.mark.parametrize(("text", "told"), AGAIN.items(), ids=AGAIN)
def test_a_second_size_in_round_brackets_is_the_one_that_is_drawn(text, told):
    """33.994 rounds to none that prints as 34.000; a whole number without a sign is a count."""
    words = [f.message for f in stops(across(34, text))]
    assert any("prints two sizes" in one for one in words) is (told and "34.2" not in text)
    assert bool(words) is told


@pytest.mark.parametrize(
    ("text", "told"), [("20 (=10)", True), ("10 (=20)", True), ("10 (=10)", False), ("1x10 (=10)", False)]
)
def test_a_sum_in_brackets_is_what_is_measured(text, told):
    assert bool(stops(along(-10, -20, text))) is told
    assert stops(along(-20, -40, "2x10 (=20)")) == stops(along(-20, -40, "2 x 10 (=20.0)"))


ABOUT = [("R15", []), ("R16", ["dimension-contradicts"]), ("15.5", ["dimension-contradicts"]), (None, [])]


@pytest.mark.parametrize(("text", "codes"), ABOUT)
def test_a_radius_from_the_axis_is_half_the_floor_s_diameter(text, codes):
    found = tied(bar(), half(30, text, z=-43, kind=DimensionKind.RADIUS))[1]
    assert [f.code for f in found] == codes
    (told,) = tied(bar(), half(30, "R16", z=-43, kind=DimensionKind.RADIUS))[1]
    assert "prints 16 where the drawing measures 15 (half the floor diameter of groove 3)" in told.message


def test_its_deviations_count_twice_on_the_diameter():
    part, _ = tied(bar(), half(30, "R15 -0.1", z=-43, kind=DimensionKind.RADIUS))
    assert part.grooves[2].tolerances == {"floor_diameter": (-0.2, 0.0)}


@pytest.mark.parametrize("ends", [((-43, 0.5), (-43, 15)), ((175**0.5 - 43, 0), (-43, 15)), ((-43, 2), (-43, 17))])
def test_a_radius_from_elsewhere_is_that_of_no_floor(ends):
    """One is as long as the land's radius, and leans."""
    assert tied(bar(), span(*ends, "R16", kind=DimensionKind.RADIUS))[1] == ()


def test_a_contradicting_dimension_gives_no_tolerance():
    part, _ = tied(bar(), along(-10, -13, "4 H13"))
    assert part.grooves[0].tolerances == {}


@pytest.mark.parametrize(("text", "wrong"), [("2x 3", 0), ("5x 3", 1), ("4x 3 H13", 1), ("3", 0), ("3 x 3", 0)])
def test_a_count_that_differs_from_the_grooves_read_is_a_stop(text, wrong):
    findings = tied(bar(), along(-10, -13, text))[1]
    assert [f.code for f in findings if f.level == "stop"] == ["count-differs"] * wrong


def test_a_wrong_count_takes_no_limits_from_the_groove_that_is_measured():
    part, findings = tied(bar(), along(-10, -13, "5x 3 H13"))
    assert part.grooves[0].tolerances == {"width": (0, 0.14)}
    assert "count-differs" in [f.code for f in findings if f.stops]


@pytest.mark.parametrize(("scale", "agree"), [(1.0, False), (0.5, True), (0.2, True)])
def test_four_decimals_of_a_file_are_coarser_on_a_smaller_view(scale, agree):
    at = frame(scale=scale)
    assert bool(stops(along(-10, -13, "3.00018", at=at), part=bar(at=at))) is not agree


@pytest.mark.parametrize(("r", "z", "held"), [(29.9, 0, True), (30.1, 0, False), (0, 39.9, True), (0, 40.1, False)])
def test_how_far_beside_the_view_a_dimension_may_begin(r, z, held):
    """A quarter of the diameter of 40 across, all of it along the axis: there the length is measured 60 and says 61."""
    ends = span((-10, r), (-13, r), "7") if r else across(40, "Ø41", z=z)
    assert bool(stops(ends)) is held


@pytest.mark.parametrize(("off", "tied_to"), [(0.9e-4, True), (1.1e-4, False)])
def test_a_diameter_that_stands_elsewhere_is_a_floor_s_within_a_ten_thousandth(off, tied_to):
    size = Dimension(DimensionKind.DIAMETER, ((400.0, 400.0), (434.0, 400.0)), 0.0, 34 * (1 + off), "Ø<> h11")
    part, _ = tied(bar((-10, -13, 34)), size)
    assert ("floor_diameter" in part.grooves[0].tolerances) is tied_to


def test_points_picked_beside_the_corners_are_no_contradiction_where_the_outline_is_as_printed():
    """Ends 0.029 off lie at the corners of a part 60 long, and what they measure, 0.058 less, is printed nowhere."""
    loose = [along(-0.029, -59.971, "60"), along(-10.029, -12.971, "3"), along(-0.029, -12.971, "13 ±0.1")]
    assert stops(*loose) == []
    assert tolerances(bar((-10, -13, 34)), along(-10.029, -12.971, "3 +0.1/0")) == [{"width": (0, 0.1)}]
    assert len(stops(along(-0.029, -59.971, "59.5"))) == 1
    assert stops(across(39.95, "Ø40.00", z=-5.0)) == []
    assert len(stops(across(39.95, "Ø39.90", z=-5.0))) == 1


@pytest.mark.parametrize(
    ("factor", "alarm"), [(2.0, True), (1.1, True), (1.0, False), (1000.0, False), (100.0, False), (1 / 25.4, False)]
)
def test_a_size_that_a_display_factor_makes_is_held_as_if_it_were_typed(factor, alarm):
    """A library's default factors, and the other unit, say nothing of the size."""
    assert bool(stops(along(-10, -13, None, factor=factor))) is alarm
    assert bool(stops(across(34, "Ø<>", factor=factor))) is alarm


@pytest.mark.parametrize(("factor", "alarm"), [(1.000015, False), (1.00005, True)])
def test_a_shown_size_is_held_to_its_fourth_decimal(factor, alarm):
    """Of 3 the fourth decimal is half of 1e-4 / 3 of it, and a file rounds by as much again."""
    assert bool(stops(along(-10, -13, None, factor=factor))) is alarm


@pytest.mark.parametrize(
    ("size", "told"),
    [
        (along(-10, -13, "4"), False),
        (along(-10, -13, "4 +0.1/0"), True),
        (along(-10, -13, "4 H13"), True),
        (along(-10, -13, "4 ?0.1"), True),
        (along(-10, -13, "4", deviations=(0.0, 0.1)), True),
        (across(34, "\u00d833 h11"), True),
    ],
)
def test_who_answers_for_a_contradiction_is_told_what_becomes_of_its_limits(size, told):
    (stop,) = stops(size)
    assert stop.message.endswith("its printed limits are not kept.") is told


# Two grooves 3 wide and 3 deep, and one 6 wide and 5 deep.
COUNTED = {
    "2x3": [],
    "2x3 H13": [],
    "2x3 +0.1/0": [],
    "2x2.9": ["note-contradicts"],
    "3x3": [],  # as wide and as deep
    "4x3": ["note-contradicts"],
}


@pytest.mark.parametrize(("text", "told"), COUNTED.items(), ids=COUNTED)
def test_a_count_before_the_size_that_is_measured_is_no_width_by_depth(text, told):
    """2x3 may be read as 2 wide and 3 deep; the dimension itself measures 3, and two grooves are 3 wide."""
    assert [f.code for f in stops(along(-10, -13, text))] == told


@pytest.mark.parametrize(
    ("text", "stopped"), [("10 [0.3957]", False), ("10 [0.3958]", True), ("3 [0.1181]", False), ("3 [0.1299]", True)]
)
def test_the_first_of_two_sizes_is_rounded_by_a_twentieth_at_most(text, stopped):
    """10.05 mm are 0.39567 in, 3 mm are 0.11811 in, and 0.1299 in are 3.3 mm."""
    found = stops(along(*((0, -10) if text.startswith("10") else (-10, -13)), text))
    assert [f.code for f in found] == ["dimension-contradicts"] * stopped


@pytest.mark.parametrize("form", ["3 {}x", "3 ({}X)", "3 ({} PLACES)", "3 {} Stück", "3 TYP {} PLACES", "3 {} OFF"])
@pytest.mark.parametrize(("count", "told"), [(2, []), (4, ["count-differs"]), (5, ["count-differs"])])
def test_a_count_behind_a_bare_size_is_held(form, count, told):
    """Two of the three grooves are 3 wide."""
    found = tied(bar(), along(-10, -13, form.format(count)))[1]
    assert [f.code for f in found if f.level != "note"] == told


@pytest.mark.parametrize(("count", "told"), [(2, []), (3, []), (4, ["note-contradicts"]), (5, ["note-contradicts"])])
def test_what_may_be_a_depth_behind_a_bare_size_is_held_as_both(count, told):
    """Two of the three grooves are 3 wide, and 3 deep."""
    found = stops(along(-10, -13, f"3 ×{count}"))
    assert [f.code for f in found] == told
    assert all(f"or counts {count} where 2 such grooves were read" in f.message for f in found)


@pytest.mark.parametrize("text", ["3 ×3", "3 x 3", "3 x Ø34", "3"])
def test_a_depth_behind_a_width_is_no_count(text):
    """The groove is 3 wide, 3 deep, and 34 across at its floor; `3 ×3` counts three like it or gives its depth."""
    assert [f.code for f in tied(bar(), along(-10, -13, text))[1] if f.stops] == []


@pytest.mark.parametrize("form", ["3 OFF {}", "(3x) {}", "3 PLACES {}", "3x: {}", "3 Stück {}"])
@pytest.mark.parametrize(("size", "told"), [("2.6", ["dimension-contradicts"]), ("3", [])])
def test_what_only_counts_is_no_size_even_if_it_is_what_the_dimension_measures(form, size, told):
    found = stops(along(-10, -13, form.format(size)))
    assert [f.code for f in found if f.code != "count-differs"] == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("3 kpl 2.6", True),
        ("3 2.6", True),
        ("3 (2.6)", True),
        ("3 kpl 9.5", False),  # no size of a groove 3 wide and 3 deep: over three times as much
        ("3 kpl 3", False),
        ("2.6", False),  # one figure, which contradicts the drawing
        ("3 Ø34", False),
        ("3 R0.2", False),
        ("3 Ra 1.6", False),
        ("3 [0.1181]", False),
        ("3 +0.1/-0.2", False),
        ("3 H13 (+0.14/0)", False),
        ("3.1/2.9", False),
        ("3.0/2.9", False),
        ("3 NOTE 4", False),
        ("3 (.118)", False),  # the same in inches
    ],
)
def test_a_second_figure_that_may_size_the_groove_is_told_if_it_is_no_size_of_it(text, told):
    """The groove is 3 wide, 3 deep and 34 across at its floor."""
    found = tied(bar(), along(-10, -13, text))[1]
    assert [f.code for f in found if f.level == "caution"] == ["note-unread"] * told


def test_a_second_figure_at_the_place_of_a_groove_is_told_too_but_none_at_the_end_of_the_part():
    assert [f.code for f in tied(bar(), along(0, -10, "10 2.6"))[1] if f.level != "note"] == ["note-unread"]
    assert [f.code for f in tied(bar(), along(0, -60, "60 2.6"))[1] if f.level != "note"] == []


@pytest.mark.parametrize(
    ("text", "told"),
    [("3 +0.14/4", True), ("3 H13 (+0.14/4)", True), ("3 +0.14^.4", True), ("3 +0.14/0", False), ("3 +0.1 2x", False)],
)
def test_one_deviation_before_a_stroke_and_a_figure_without_a_sign_is_not_read(text, told):
    found = tied(bar(), along(-10, -13, text))[1]
    assert [f.code for f in found if f.level != "note"] == ["tolerance-unread"] * told


@pytest.mark.parametrize(
    ("text", "two"),
    [
        ("Ø34 h11 h12", True),
        ("Ø34 h11/h12", True),
        ("Ø34 H11/H12", True),
        ("Ø34 h11 (h12)", True),
        ("Ø34 h11/h11", False),
        ("Ø34 H12/h11", False),
    ],
)
def test_two_tolerances_of_one_size_are_a_question(text, two):
    """Of a fit the shaft's class is that of a floor outside: h11 of 30 to 50 is 0/-0.16 (ISO 286-2)."""
    part, findings = tied(bar((-10, -13, 34)), across(34, text))
    assert part.grooves[0].tolerances == ({} if two else {"floor_diameter": pytest.approx((-0.16, 0.0))})
    assert [f.code for f in findings if f.level != "note"] == ["dimension-contradicts"] * two
    assert all("prints two tolerances" in f.message for f in findings if f.stops)


@pytest.mark.parametrize(
    ("at", "told"),
    [
        ((-41, 15.4), [3]),  # in the air of groove 3, whose floor is 30 across
        ((-43, -19.9), [3]),
        ((-40.1, 17.5), [3]),
        ((-39.9, 17.5), []),  # in the metal beside it
        ((-43, 20.4), []),  # over its mouth
    ],
)
def test_a_diameter_led_into_the_air_of_a_groove_is_that_of_its_floor(at, told):
    """34 is that of the two grooves before it, which it would be held to by its value alone."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(*at), HERE.on_sheet(at[0], 2 * at[1])), 0.0, 0.0, "Ø34")
    assert [f.groove for f in tied(bar(), leader)[1] if f.stops] == told
    assert not [f for f in tied(bar(), replace(leader, text="Ø30"))[1] if f.stops]
