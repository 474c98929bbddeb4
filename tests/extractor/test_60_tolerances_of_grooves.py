"""Dimensions give their deviations to the groove features they measure, wherever the part lies on the sheet.

The bar of most tests is 40 x 60 with grooves at Z-10 and Z-20 (3 wide, floor 34) and at Z-40 (6 wide, floor 30).
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.ties import across, along, bar, frame, half, span, tied, tolerances

from extractor.sheet import Dimension, DimensionKind

FRAMES = {
    "as drawn": frame(),
    "facing left": frame(180),
    "upright": frame(90),
    "at an angle": frame(33),
    "mirrored": frame(0, mirrored=True),
    "half size": frame(0, scale=0.5),
}


@pytest.mark.parametrize("at", FRAMES.values(), ids=FRAMES)
def test_width_floor_and_place_in_every_position(at):
    found = tolerances(
        bar(at=at),
        along(-40, -46, "6 H13", at),
        across(30, "Ø30 h12", at, z=-46),
        along(0, -40, "40 ±0.1", at),
    )
    assert found[2] == {"width": (0, 0.18), "floor_diameter": (-0.21, 0), "z_near": (-0.1, 0.1)}
    assert found[:2] == [{}, {}]


def test_either_end_first():
    assert tolerances(bar(), along(-46, -40, "6 H13"))[2] == {"width": (0, 0.18)}
    assert tolerances(bar(), span((-46, -15), (-46, 15), "Ø30 h12"))[2] == {"floor_diameter": (-0.21, 0)}


def test_a_dimension_speaks_for_its_own_groove_and_those_drawn_alike():
    found = tolerances(bar(), along(-10, -13, "3 H13"), across(34, "Ø34 -0.05/-0.15"))
    assert found == [{"width": (0, 0.14), "floor_diameter": (-0.15, -0.05)}] * 2 + [{}]


@pytest.mark.parametrize("text", ["2x 3 H13", "2 x 3 H13", "3 H13 (TYP)", "3 H13 ALL GROOVES"])
def test_a_dimension_speaks_for_others_where_its_text_says_so(text):
    assert tolerances(bar(), along(-10, -13, text)) == [{"width": (0, 0.14)}, {"width": (0, 0.14)}, {}]


def test_a_size_tied_by_value_to_several_grooves_speaks_for_like_ones_alone():
    assert tolerances(bar(), across(34, "Ø34 h11", z=5)) == [{"floor_diameter": (-0.16, 0)}] * 2 + [{}]
    assert tolerances(bar(), across(34, "2x Ø34 h11", z=5))[1] == {"floor_diameter": (-0.16, 0)}


def test_a_size_tied_by_value_to_unlike_grooves_speaks_for_none_and_is_a_caution():
    part, findings = tied(bar((-10, -13, 34), (-20, -24, 34)), across(34, "Ø34 h11", z=5))
    assert [g.tolerances for g in part.grooves] == [{}, {}]
    assert [(f.level, f.code) for f in findings] == [("caution", "dimension-unclear")]
    assert '"Ø34 h11" fits grooves 1, 2' in findings[0].message


STEPPED = {"steps": [(0, 40), (-30, 50)], "length": 60}


@pytest.mark.parametrize(
    ("text", "shared"), [("2x 3 H13", True), ("3 H13 TYP", True), ("3 H13", False), ("3x 3 H13", False)]
)
def test_a_count_or_the_word_typical_reaches_grooves_on_other_steps(text, shared):
    part = bar((-10, -13, 34), (-40, -43, 42), **STEPPED)
    read, _ = tied(part, along(-10, -13, text))
    assert [("width" in g.tolerances) for g in read.grooves] == [True, shared]


def test_a_place_is_never_shared():
    found = tolerances(bar(), along(0, -10, "10 ±0.05"))
    assert (found[0], found[1]) == ({"z_near": (-0.05, 0.05)}, {})


def test_a_grooves_own_dimension_beats_its_neighbours():
    found = tolerances(bar(), along(-10, -13, "3 H13"), along(-20, -23, "3 +0.05/0"))
    assert (found[0]["width"], found[1]["width"]) == ((0, 0.14), (0, 0.05))


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("17 ±0.1", -0.2, 0.2), ("17 0/-0.05", -0.1, 0), ("34 0/-0.1", -0.1, 0), ("Ø34 0/-0.1", -0.1, 0)],
)
def test_deviations_of_a_radius_count_twice_on_the_diameter(text, low, high):
    assert tolerances(bar(), half(34, text))[0] == {"floor_diameter": (low, high)}


def test_deviations_of_a_measured_radius_count_twice_too():
    assert tolerances(bar(), half(34, None, deviations=(-0.05, 0.0)))[0] == {"floor_diameter": (-0.1, 0.0)}
    doubled = half(34, None, deviations=(-0.05, 0.0), factor=2.0)
    assert tolerances(bar(), doubled)[0] == {"floor_diameter": (-0.05, 0.0)}


def test_deviations_beside_another_size_of_the_text_are_none_of_this_one():
    """`3 x 2.5 +0.1/0`: the deviations stand by the depth of 2.5, the dimension measures the width of 3."""
    part, findings = tied(bar((-10, -13, 35)), along(-10, -13, "3 x 2.5 +0.1/0"))
    assert part.grooves[0].tolerances == {"depth": (0.0, 0.1)}
    assert findings == ()


@pytest.mark.parametrize("text", ["3 MAX", "3 +0.1/+0.1", "3 ±", "3 +2/-2", "3 -1.2", "(3 ±0.1)"])
def test_what_looks_like_a_tolerance_and_is_not_read_is_a_caution(text):
    part, findings = tied(bar((-10, -13, 34)), along(-10, -13, text))
    assert part.grooves[0].tolerances == {}
    assert [f.code for f in findings] == (["tolerance-unread"] if text != "3 ±" else [])
    assert all(f.level == "caution" and text in f.message for f in findings)


def test_half_a_diameter_with_and_without_its_sign():
    assert tolerances(bar(), half(34, "Ø34 h11"))[0] == {"floor_diameter": (-0.16, 0)}
    assert tolerances(bar(), half(34, "17"))[0] == {}
    assert tolerances(bar(), half(34, "34 h11"))[0] == {"floor_diameter": (-0.16, 0)}


def test_depth_from_floor_to_mouth():
    assert tolerances(bar(), span((-11, 17), (-11, 20), "3 +0.1/0"))[0] == {"depth": (0, 0.1)}


def test_the_far_wall_from_the_front_face():
    """12.9 to 13.0 from the face: z from -13.0 to -12.9, so deviations of z from 0 to +0.1."""
    assert tolerances(bar(), along(0, -13, "13 -0.1"))[0] == {"z_far": (0, 0.1)}


def test_a_floor_dimension_drawn_beside_the_part_is_tied_by_its_size():
    assert tolerances(bar(), across(30, "Ø30 h12", z=5))[2] == {"floor_diameter": (-0.21, 0)}


def test_a_diameter_dimension_in_an_end_view_is_tied_by_its_size():
    far = Dimension(DimensionKind.DIAMETER, ((300, 50), (300, 80)), 90, 30, "Ø30 h12")
    assert tolerances(bar(), far)[2] == {"floor_diameter": (-0.21, 0)}


def test_a_land_of_the_same_diameter_keeps_an_end_view_from_guessing():
    part = bar((-10, -13, 30), steps=[(0, 40), (-30, 30)], length=60)
    far = Dimension(DimensionKind.DIAMETER, ((300, 50), (300, 80)), 90, 30, "Ø30 h12")
    assert tolerances(part, far) == [{}]


@pytest.mark.parametrize("tip", [(-11.5, 17), (-10, 17), (-11.5, -17)])
def test_a_leader_whose_tip_touches_the_floor(tip):
    at = frame()
    points = (at.on_sheet(*tip), at.on_sheet(-5, 30))
    leader = Dimension(DimensionKind.LEADER, points, 0, 0, "Ø34 h11")
    assert tolerances(bar(), leader)[0] == {"floor_diameter": (-0.16, 0)}


def test_a_leader_without_a_diameter_sign_says_nothing_of_a_diameter():
    at = frame()
    leader = Dimension(DimensionKind.LEADER, (at.on_sheet(-11.5, 17), at.on_sheet(0, 30)), 0, 0, "3 H13")
    assert "floor_diameter" not in tolerances(bar(), leader)[0]


def test_an_ordinate_dimension_gives_a_place():
    ordinate = along(0, -20, "20 ±0.02", kind=DimensionKind.ORDINATE)
    assert tolerances(bar(), ordinate)[1] == {"z_near": (-0.02, 0.02)}


def test_a_radius_dimension_gives_the_corner():
    part = bar((-10, -13, 34, {"corner_radius": 0.4}))
    corner = span((-12.6, 17.4), (-12.6, 17.0), "R0.4 ±0.1", kind=DimensionKind.RADIUS)
    assert tolerances(part, corner)[0] == {"corner_radius": (-0.1, 0.1)}


def test_dimension_variables_count_where_the_text_is_silent():
    found = tolerances(bar(), along(-10, -13, None, deviations=(0.0, 0.14)))
    assert found[0] == {"width": (0, 0.14)}


def test_written_deviations_beat_variables():
    found = tolerances(bar(), along(-10, -13, "3 +0.05/0", deviations=(-1.0, 1.0)))
    assert found[0] == {"width": (0, 0.05)}


def test_the_class_of_a_fit_that_belongs_to_the_size():
    assert tolerances(bar(), across(34, "Ø34 H7/g6"))[0] == {"floor_diameter": (-0.025, -0.009)}
    assert tolerances(bar(), along(-10, -13, "3 H7/g6"))[0] == {"width": (0, 0.01)}


def test_a_measured_size_inside_words():
    assert tolerances(bar(), across(34, "Ø<> h11"))[0] == {"floor_diameter": (-0.16, 0)}


@pytest.mark.parametrize(
    ("drawn", "deviations"),
    [(33.85, (0.0, 0.1)), (33.9, (-0.05, 0.05)), (33.95, (-0.1, 0.0)), (33.87, (-0.02, 0.08))],
)
@pytest.mark.parametrize("text", ["33.85/33.95", "Ø33.95/33.85", "33.95^33.85", "4x Ø33.85-33.95"])
def test_limits_printed_instead_of_a_size(drawn, deviations, text):
    """The limits stand wherever between them the floor is drawn."""
    part, findings = tied(bar((-10, -13, drawn)), across(drawn, text))
    assert part.grooves[0].tolerances == {"floor_diameter": pytest.approx(deviations)}
    assert not any(f.stops for f in findings)


@pytest.mark.parametrize(("drawn", "stops"), [(33.84, True), (33.8499999, False), (33.96, True), (33.9500001, False)])
def test_a_size_drawn_outside_printed_limits_is_a_stop(drawn, stops):
    _, findings = tied(bar((-10, -13, drawn)), across(drawn, "33.85/33.95"))
    assert any(f.stops for f in findings) is stops


@pytest.mark.parametrize(
    ("drawn", "text", "deviations"),
    [
        (32.4, "Ø32.38/32.3", (-0.1, -0.02)),
        (35.0, "Ø34.975^34.959", (-0.041, -0.025)),  # f6 of 30 to 50 (ISO 286-1)
        (32.4, "Ø32.34/32.3", (-0.1, -0.06)),  # 0.06 off two limits that lie 0.04 apart: 1.5 times
        (32.4, "Ø32.33/32.29", None),  # 1.75 times
        (32.38, "Ø32.36/32.28", None),  # no rounder than its limits
    ],
)
def test_limits_of_a_fit_beside_a_rounder_nominal(drawn, text, deviations):
    part, findings = tied(bar((-10, -13, drawn)), across(drawn, text))
    assert any(f.stops for f in findings) is (deviations is None)
    assert part.grooves[0].tolerances == ({} if deviations is None else {"floor_diameter": pytest.approx(deviations)})


def test_limits_in_inches_on_a_part_drawn_in_mm_at_their_middle():
    part, findings = tied(bar((-10, -13, 31.75), diameter=38.1), across(31.75, "1.245/1.255"))
    assert part.grooves[0].tolerances == {"floor_diameter": pytest.approx((-0.127, 0.127))}
    assert findings == ()


# ISO 286 at 34 mm (30 to 50): H7 +0.025/0, g6 -0.009/-0.025; a bore's floor is a hole's, a shaft's is a shaft's.
INSIDE = {"where": "inside", "mouth_diameter": 30.0}


def test_the_class_of_a_fit_on_a_floor_in_a_bore_is_the_holes():
    assert tolerances(bar((-10, -13, 34, INSIDE), bore=30), across(34, "Ø34 H7/g6")) == [{"floor_diameter": (0, 0.025)}]


def test_an_unknown_class_on_a_groove_is_a_stop_and_no_tolerance():
    part, findings = tied(bar(), across(34, "Ø34 t6"), across(40, "Ø40 t6", z=-30))
    assert part.grooves[0].tolerances == {}
    assert [(f.level, f.code) for f in findings] == [("stop", "class-unknown")]
    assert "t6 at 34" in findings[0].message


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("Ø34 H17 +0.1", (0.0, 0.1)),
        ("Ø34 JS3 ±0.1", (-0.1, 0.1)),
        ("Ø34 t6 (+0.064/+0.048)", (0.048, 0.064)),
        ("Ø34 +0.1/0 H17", (0.0, 0.1)),
    ],
)
def test_deviations_beside_an_unknown_class_are_taken_with_a_caution(text, given):
    part, findings = tied(bar(), across(34, text))
    assert part.grooves[0].tolerances == {"floor_diameter": given}
    (told,) = [f for f in findings if f.code == "tolerance-unread"]
    assert (str(told.level), text in told.message) == ("caution", True)
    assert not [f for f in tied(bar(), across(34, "Ø34 h9 0/-0.062"))[1] if f.code == "tolerance-unread"]


PAIRS = {
    "d9": (-80, -142), "e8": (-50, -89), "f7": (-25, -50), "g6": (-9, -25), "h6": (0, -16), "js6": (8, -8),
    "j5": (6, -5), "j6": (11, -5), "j7": (15, -10), "k6": (18, 2), "m6": (25, 9), "n6": (33, 17), "p6": (42, 26),
    "r6": (50, 34), "s6": (59, 43), "F8": (64, 25), "H7": (25, 0), "J6": (10, -6), "J7": (14, -11), "J8": (24, -15),
    "K7": (7, -18), "N9": (0, -62), "P9": (-26, -88), "R7": (-25, -50), "S7": (-34, -59),
}  # fmt: skip
"""Upper and lower deviation at 34 mm in micrometres (ISO 286-2, from memory)."""


@pytest.mark.parametrize("name", PAIRS)
def test_deviations_beside_a_class_are_its_own_or_a_contradiction(name):
    high, low = PAIRS[name]
    for off, codes in ((0, []), (2, ["dimension-contradicts"]), (-2, ["dimension-contradicts"])):
        text = f"Ø34 {name} ({(high + off) / 1000:+.3f}/{low / 1000:+.3f})"
        part, findings = tied(bar(), across(34, text))
        assert [f.code for f in findings if f.level != "note"] == codes
        given = {"floor_diameter": pytest.approx((low / 1000, high / 1000))}
        assert part.grooves[0].tolerances == ({} if codes else given)


def test_a_class_in_inch_drawings():
    """H13 of 0.1181 in (3.0 mm) is +0.14 mm, 0.0055 in."""
    part = bar((-0.4, -0.4 - 3 / 25.4, 1.3), diameter=1.5, length=2.0, units="in")
    found = tolerances(part, along(-0.4, -0.4 - 3 / 25.4, "0.1181 H13", r=0.75))
    assert found[0]["width"] == pytest.approx((0, 0.14 / 25.4), abs=1e-4)


def test_inch_texts_on_a_part_drawn_in_mm():
    part = bar((-10, -13, 31.75), diameter=38.1)
    found = tolerances(part, across(31.75, "1.250 +.000/-.005"))
    assert found[0]["floor_diameter"] == pytest.approx((-0.127, 0))


def test_printed_limits_stay_where_they_are_if_the_size_was_rounded():
    """Drawn 3.175, printed 3.18 +0.1/0: limits 3.18 and 3.28 are +0.005 and +0.105 from the drawn size."""
    part = bar((-10, -13.175, 34))
    assert tolerances(part, along(-10, -13.175, "3.18 +0.1/0"))[0]["width"] == pytest.approx((0.005, 0.105))


def test_a_part_that_lies_nowhere_keeps_its_grooves():
    from support.parts import part_of

    part = part_of([(-10, -13, 34)])
    assert tied(part, along(-10, -13, "3 H13")) == (part, ())


def test_general_tolerances_fill_in_last_and_are_marked():
    part, findings = tied(bar(), along(-10, -13, "3 H13"), along(0, -40, "40"), notes=["ISO 2768-mK"])
    first, second, third = part.grooves
    assert first.tolerances == second.tolerances == {"width": (0, 0.14), "floor_diameter": (-0.3, 0.3)}
    assert first.general == {"floor_diameter"}
    assert third.tolerances == {"z_near": (-0.3, 0.3), "width": (-0.1, 0.1), "floor_diameter": (-0.2, 0.2)}
    assert third.general == {"z_near", "width", "floor_diameter"}
    assert [(f.level, f.code) for f in findings] == [("note", "like-grooves"), ("note", "general-tolerances")]


def test_without_the_note_there_are_none():
    assert all(g.general == frozenset() for g in tied(bar())[0].grooves)


# DIN 471 as two open tables give it: shaft, floor, its class and lower deviation (rounded), width, H13.
DIN_471 = [
    (20, 19.0, "h11", -0.13, 1.3, 0.14),
    (25, 23.9, "h12", -0.21, 1.3, 0.14),
    (30, 28.6, "h12", -0.21, 1.6, 0.14),
    (40, 37.5, "h12", -0.25, 1.85, 0.14),
    (50, 47.0, "h12", -0.25, 2.15, 0.14),
    (100, 96.5, "h12", -0.35, 3.15, 0.18),
]


@pytest.mark.parametrize(("shaft", "floor", "name", "lower", "width", "upper"), DIN_471)
def test_retaining_ring_grooves(shaft, floor, name, lower, width, upper):
    part = bar((-8, -8 - width, floor), diameter=shaft)
    found = tolerances(
        part, across(floor, f"Ø{floor:g} {name}", z=-8), along(-8, -8 - width, f"{width:g} H13", r=shaft / 2)
    )
    assert found[0]["floor_diameter"] == pytest.approx((lower, 0), abs=0.005)
    assert found[0]["width"] == pytest.approx((0, upper))


@given(st.floats(0, 360), st.booleans(), st.sampled_from([0.5, 1.0, 2.5]), st.sampled_from([-0.2, -0.05, 0.0]))
def test_where_the_part_lies_changes_nothing(turn, mirrored, scale, low):
    at = frame(turn, mirrored=mirrored, scale=scale)
    dimensions = along(-10, -13, f"3 {low:+g}/+0.1", at), across(34, "Ø34 h11", at)
    found = tolerances(bar(at=at), *dimensions)
    assert found[0] == {"width": (low, 0.1), "floor_diameter": (-0.16, 0.0)}


def test_general_tolerances_leave_alone_what_other_sizes_settle():
    """A depth settles the floor, two places settle the width, and a place that nothing names has no limits."""
    deep, _ = tied(bar(), span((-11, 17), (-11, 20), "3 +0.1/0"), along(0, -13, "13 -0.1"), notes=["ISO 2768-m"])
    assert deep.grooves[0].general == {"width"}
    walls, _ = tied(bar(), along(0, -13, "13 -0.1"), along(0, -10, "10 ±0.1"), notes=["ISO 2768-m"])
    assert walls.grooves[0].general == {"floor_diameter"}


def test_one_deviation_for_all_sizes():
    part, (_, note) = tied(
        bar(), along(-10, -13, "3 H13"), notes=["UNLESS OTHERWISE STATED: LINEAR +/- 0.2, ANGULAR ±1°"]
    )
    assert part.grooves[0].tolerances == {"width": (0, 0.14), "floor_diameter": (-0.2, 0.2)}
    assert "±0.2" in note.message


@pytest.mark.parametrize(("note", "found"), [("Ø30 h12", True), ("Ø30", False), ("30 h12", False), ("Ø40 h12", False)])
def test_a_bare_text_with_a_diameter_is_tied_by_its_size(note, found):
    part, findings = tied(bar(), notes=[note])
    assert [("floor_diameter" in g.tolerances) for g in part.grooves] == [False, False, found]
    assert [f.code for f in findings] == (["tolerance-unread"] if note == "30 h12" else [])


def test_a_bare_text_is_not_tied_where_a_land_has_that_diameter():
    part, _ = tied(bar((-10, -13, 30), steps=[(0, 40), (-30, 30)], length=60), notes=["Ø30 h12"])
    assert part.grooves[0].tolerances == {}


STEP = [(0, 20), (-16, 20), (-16, 18), (-20, 18), (-20, 16), (-26, 16), (-26, 18), (-30, 18), (-30, 20), (-60, 20)]


@pytest.mark.parametrize(
    ("dimension", "told"),
    [
        (along(-20, -26, "6 H13", r=18), True),
        (along(0, -20, "20 ±0.1", r=18), True),
        (along(0, -20, None, r=18, deviations=(0.0, 0.1)), True),
        (along(-20, -26, "6 MAX", r=18), True),
        (across(36, "Ø36 h11", z=-18), True),
        (across(36, "Ø36", z=-18), False),
        (along(-20, -26, "6", r=18), False),
        (along(-16, -30, "14 H13"), False),
        (across(32, "Ø32 h11", z=-23), False),
    ],
)
def test_a_tolerance_at_a_step_within_a_groove_is_a_caution(dimension, told):
    """A stepped recess is one groove: its walls, width and floor are held, what lies between is not."""
    part = bar((-16, -30, 32, {"shape": "other"}))
    part = replace(part, outline=tuple((float(z), float(r)) for z, r in STEP))
    _, findings = tied(part, dimension)
    assert [(f.level, f.code) for f in findings] == [("caution", "tolerance-unread")] * told


def test_another_size_than_a_step_has_is_a_stop():
    part = replace(bar((-16, -30, 32, {"shape": "other"})), outline=tuple((float(z), float(r)) for z, r in STEP))
    (stop,) = tied(part, across(36, "Ø35", z=-18))[1]
    assert (stop.code, stop.stops) == ("dimension-contradicts", True)


@pytest.mark.parametrize(
    ("z", "limited"),
    [
        (0.0, False),  # at the chamfer's edge itself
        (-0.02, False),  # places are one within 0.03
        (-0.04, True),
        (-2.9, True),  # beside the groove, where a loose extension line leaves a gap
        (-3.0, True),
        (-6.9, True),
    ],
)
def test_a_floor_as_wide_as_the_edge_of_a_chamfer_is_limited_by_a_diameter_measured_away_from_that_edge(z, limited):
    """A bar 40 x 60 with its end chamfered to 38, and a groove 38 at its floor from 3 to 4."""
    part = bar((-3, -4, 38))
    chamfered = ((0.0, 0.0), (0.0, 19.0), (-1.0, 20.0), (-60.0, 20.0), (-60.0, 0.0))
    part = replace(part, lands=chamfered)
    limits = tolerances(part, across(38, "\u00d838 \u00b10.05", z=z))[0]
    assert limits == ({"floor_diameter": (-0.05, 0.05)} if limited else {})


def test_a_land_as_wide_as_a_floor_comes_first_away_from_the_groove():
    stepped = ((0.0, 0.0), (0.0, 17.0), (-5.0, 17.0), (-5.0, 20.0), (-60.0, 20.0), (-60.0, 0.0))
    part = replace(bar((-10, -13, 34)), lands=stepped)
    size = across(34, "\u00d834 \u00b10.05", z=-3.0)
    assert tolerances(part, size)[0] == {}


@pytest.mark.parametrize("places", [("z_near", "z_far"), ("z_far", "z_near")])
def test_deviations_stand_in_the_order_in_which_the_sheet_gives_them(places):
    # Records of one drawing are the same to the byte, however the strings in a set are hashed.
    ends = {"z_near": along(0, -10, "10"), "z_far": along(0, -13, "13")}
    part, _ = tied(bar(), *(ends[place] for place in places), notes=["ISO 2768-m"])
    assert tuple(part.grooves[0].tolerances)[:2] == places


@pytest.mark.parametrize(
    ("text", "given"),
    [("3* +0.1/0", {"width": (0, 0.1)}), ("3** H13", None), ("3*", {}), ("2* 3 +0.1/0", {"width": (0, 0.1)})],
)
def test_the_mark_of_a_footnote_takes_nothing_from_a_tolerance_and_is_told(text, given):
    """A footnote may say anything; before another figure the star multiplies (common practice, no source)."""
    part, findings = tied(bar(), along(-10, -13, text))
    told = [f.code for f in findings if f.level == "caution"]
    assert given is None or part.grooves[0].tolerances == given
    assert (told == []) == text.startswith("2*")
    assert "count-differs" not in told


@pytest.mark.parametrize(
    ("text", "wide", "codes"),
    [
        ("Ø34 b11", 3, []),
        ("Ø34 b9", 3, []),
        ("Ø34 b7", 3, ["note-contradicts"]),
        ("Ø34 B11", 3, ["note-contradicts"]),
        ("Ø34 b 11", 3, ["note-contradicts"]),
    ],
)
def test_a_class_b_of_a_floor_is_no_width_that_the_groove_has_not(text, wide, codes):
    """ISO 286-2 over 30 up to 40: b11 -0.17/-0.33, b9 -0.17/-0.232 (from memory); b begins with grade 8."""
    part, findings = tied(bar((-10, -10 - wide, 34)), across(34, text, z=-12))
    assert [f.code for f in findings if f.level != "note"] == codes
    floors = {"Ø34 b11": (-0.33, -0.17), "Ø34 b9": (-0.232, -0.17)}
    assert part.grooves[0].tolerances.get("floor_diameter") == floors.get(text)


def test_a_class_of_an_inner_floor_is_written_large():
    """ISO 286-2 over 18 up to 30: B11 +0.29/+0.16 (from memory)."""
    inner = bar((-10, -13, 26, {"where": "inside", "mouth_diameter": 20}))
    assert tolerances(inner, across(26, "Ø26 B11", z=-11.5)) == [{"floor_diameter": (0.16, 0.29)}]
