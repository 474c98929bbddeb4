"""Printed distances of walls and middles: from either end, from one another, in rows, whichever way z runs.

The oracle: the two limits that the text prints, worked out here from its numbers; a wall at either limit lies that far
from where the dimension begins. ISO 14405-1 (from memory): a size with deviations is allowed from nominal plus lower to
nominal plus upper. The bar is 40 x 60 with grooves at Z-10 and Z-20 (3 wide, floor 34) and at Z-40 (6 wide, floor 30).
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.ties import across, along, bar, frame, half, span, tied

from extractor.distance import Distance, Place
from extractor.sheet import Dimension, DimensionKind

FRONT, BACK, AXIS = (Place(groove=0, spot=spot) for spot in ("front", "back", "axis"))


def wall(number, spot):
    """A wall or the middle of a groove."""
    return Place(groove=number, spot=spot)


def told(part, *dimensions, notes=()):
    """Distances by their two places, after checking that nothing was contradicted."""
    read, findings = tied(part, *dimensions, notes=notes)
    assert not [f for f in findings if f.stops], findings
    return {(d.start, d.end): (d.nominal, d.deviations, d.source) for d in read.distances}


ONE_SIDED = [
    ("10 +0.2/0", 0.0, 0.2),
    ("10 0/-0.2", -0.2, 0.0),
    ("10 +0.3/+0.1", 0.1, 0.3),
    ("10 -0.1/-0.3", -0.3, -0.1),
    ("10 ±0.1", -0.1, 0.1),
    ("10.0/10.2", 0.0, 0.2),
    ("9.8^10.0", -0.2, 0.0),
    ("10 H11", 0.0, 0.09),
    ("10 h11", -0.09, 0.0),
    ("10 f8", -0.035, -0.013),
]
"""Text, lower and upper deviation of the distance; ISO 286 (H11, h11, f8 over 6 to 10 mm) as in published tables."""


@pytest.mark.parametrize(("text", "low", "high"), ONE_SIDED)
def test_a_distance_from_the_front_face_keeps_its_sign_and_turns_that_of_z(text, low, high):
    part, _ = tied(bar(), along(0, -10, text))
    (distance,) = part.distances
    assert (distance.start, distance.end, distance.nominal) == (FRONT, wall(1, "near"), 10.0)
    assert (distance.deviations, distance.source) == (pytest.approx((low, high)), "dimension")
    at = part.grooves[0].tolerances["z_near"]
    # The wall is nearest to the face where the distance is least, and there its z is greatest.
    assert (-10 + at[1], -10 + at[0]) == pytest.approx((-(10 + low), -(10 + high)))


@pytest.mark.parametrize(("text", "low", "high"), ONE_SIDED)
def test_a_distance_from_the_back_face_has_the_sign_of_z(text, low, high):
    part, _ = tied(bar((-50, -53, 34), length=60), along(-50, -60, text))
    (distance,) = part.distances
    assert (distance.start, distance.end, distance.nominal) == (BACK, wall(1, "near"), 10.0)
    assert distance.deviations == pytest.approx((low, high))
    assert part.grooves[0].tolerances["z_near"] == pytest.approx((low, high))


def test_the_far_wall_and_dimension_variables():
    found = told(bar(), along(0, -13, None, deviations=(0.0, 0.2)))
    assert found == {(FRONT, wall(1, "far")): (13.0, (0.0, 0.2), "dimension")}
    part, _ = tied(bar(), along(0, -13, None, deviations=(0.0, 0.2)))
    assert part.grooves[0].tolerances == {"z_far": (-0.2, 0.0)}


def test_inches_on_a_part_in_inches_and_on_one_in_mm():
    inch = bar((-0.5, -0.625, 1.25), diameter=1.5, length=2.0, units="in")
    part, _ = tied(inch, along(0, -0.5, ".500 +.005/.000", r=0.75))
    assert part.grooves[0].tolerances["z_near"] == pytest.approx((-0.005, 0.0))
    part, _ = tied(bar((-12.7, -15.875, 31.75), diameter=38.1), along(0, -12.7, ".500 .000/-.005"))
    assert part.grooves[0].tolerances["z_near"] == pytest.approx((0.0, 0.127))
    (distance,) = part.distances
    assert (distance.nominal, distance.deviations) == (12.7, pytest.approx((-0.127, 0.0)))


def test_the_limits_stay_as_printed_where_the_size_was_rounded():
    """Drawn 10.04, printed 10.0 +0.2/0: 10.0 to 10.2 is -0.04 and +0.16 from the wall as drawn."""
    part, _ = tied(bar((-10.04, -13.04, 34)), along(0, -10.04, "10.0 +0.2/0"))
    assert part.distances[0].deviations == pytest.approx((-0.04, 0.16))
    assert part.grooves[0].tolerances["z_near"] == pytest.approx((-0.16, 0.04))


def test_an_end_that_misses_its_wall_by_less_than_the_snap_moves_no_limit():
    """The dimension was snapped 0.01 off the wall and measures 10.01: what it prints is counted from the wall."""
    part, _ = tied(bar(), along(0, -10.01, "10.01 ±0.05"))
    assert part.distances[0].nominal == 10.0
    assert part.distances[0].deviations == pytest.approx((-0.04, 0.06))


PLACES = {
    "a middle": (along(0, -11.5, "11.5 +0.1/0"), FRONT, wall(1, "centre"), 11.5),
    "a middle from the back": (along(-11.5, -60, "48.5 +0.1/0"), BACK, wall(1, "centre"), 48.5),
    "wall to wall": (along(-10, -20, "10 +0.1/0"), wall(1, "near"), wall(2, "near"), 10.0),
    "far wall to near wall": (along(-13, -20, "7 +0.1/0"), wall(1, "far"), wall(2, "near"), 7.0),
    "middle to middle": (along(-21.5, -43, "21.5 +0.1/0"), wall(2, "centre"), wall(3, "centre"), 21.5),
    "wall to middle": (along(-13, -43, "30 +0.1/0"), wall(1, "far"), wall(3, "centre"), 30.0),
    "over two grooves": (along(-10, -46, "36 +0.1/0"), wall(1, "near"), wall(3, "far"), 36.0),
}


@pytest.mark.parametrize(("dimension", "start", "end", "nominal"), PLACES.values(), ids=PLACES)
def test_distances_from_elsewhere(dimension, start, end, nominal):
    assert told(bar(), dimension) == {(start, end): (nominal, (0.0, 0.1), "dimension")}


def test_a_middle_or_another_groove_limits_no_wall_by_itself():
    for name in ("a middle", "wall to wall"):
        part, _ = tied(bar(), PLACES[name][0])
        assert part.grooves[0].tolerances == {}


STEPPED = {"steps": [(0, 40), (-30, 50)], "length": 60}


@pytest.mark.parametrize(
    ("groove", "a", "b", "low", "high"),
    [
        ((-40, -43, 42), -30, -40, 0.0, 0.2),
        ((-20, -23, 34), -20, -30, -0.2, 0.0),
    ],
)
def test_from_a_shoulder_the_wall_moves_as_the_printed_distance_does(groove, a, b, low, high):
    """10 +0.2/0 from the shoulder at Z-30: behind it the wall moves back by 0 to 0.2, before it toward the front."""
    found = told(bar(groove, **STEPPED), along(a, b, "10 +0.2/0", r=25))
    assert found == {(FRONT, wall(1, "near")): (-groove[0], (low, high), "dimension")}
    part, _ = tied(bar(groove, **STEPPED), along(a, b, "10 +0.2/0", r=25))
    assert part.grooves[0].tolerances["z_near"] == (-high, -low)


def test_a_relief_wall_in_line_with_a_shoulder_is_the_grooves():
    part = bar((-27, -30, 36, {"shape": "relief"}), **STEPPED)
    for r in (18, 20, 25, 30):
        assert told(part, along(0, -30, "30 ±0.1", r=r)) == {(FRONT, wall(1, "far")): (30.0, (-0.1, 0.1), "dimension")}


def test_walls_at_one_place_outside_and_inside_are_told_apart_by_where_the_dimension_ends():
    spots = [(-10, -13, 34), (-10, -14, 24, {"where": "inside", "mouth_diameter": 20})]
    part = bar(*spots, bore=20)
    outer = next(g.id for g in part.grooves if g.where == "outside")
    assert set(told(part, along(0, -10, "10", r=20))) == {(FRONT, wall(outer, "near"))}
    assert set(told(part, along(0, -10, "10", r=10.5))) == {(FRONT, wall(3 - outer, "near"))}


def test_a_shoulder_outside_at_the_place_of_a_wall_inside_is_told_apart_too():
    part = bar((-30, -33, 24, {"where": "inside", "mouth_diameter": 20}), bore=20, **STEPPED)
    assert told(part, along(0, -30, "30", r=24)) == {}
    assert set(told(part, along(0, -30, "30", r=11))) == {(FRONT, wall(1, "near"))}


def test_a_distance_without_deviations_names_the_wall_that_keeps_its_nominal():
    assert told(bar(), along(0, -13, "13")) == {(FRONT, wall(1, "far")): (13.0, None, "shop")}


def test_a_size_for_information_names_none():
    assert told(bar(), along(0, -13, "(13)")) == {}
    part, _ = tied(bar(), along(0, -13, "(13 ±0.1)"))
    assert (part.distances, part.grooves[0].tolerances) == ((), {})


def test_what_touches_no_groove_is_no_distance():
    assert told(bar(**STEPPED), along(0, -60, "60 ±0.1"), along(0, -30, "30 ±0.1", r=25)) == {}


def test_a_width_and_half_of_it_are_no_places():
    assert told(bar(), along(-10, -13, "3 ±0.1"), along(-10, -11.5, "1.5 ±0.1")) == {}


def test_the_first_of_two_dimensions_of_one_distance_counts():
    found = told(bar(), along(0, -10, "10 ±0.1"), along(-10, 0, "10 ±0.5"))
    assert found == {(FRONT, wall(1, "near")): (10.0, (-0.1, 0.1), "dimension")}


# ISO 2768-1 class m: 6 to 30 mm 0.2, 30 to 120 mm 0.3 (three published tables agree).
@pytest.mark.parametrize(("a", "b", "spread"), [(0, -10, 0.2), (-40, -60, 0.2), (0, -40, 0.3), (-10, -40, 0.2)])
def test_a_class_stands_for_a_printed_place_alone(a, b, spread):
    printed = told(bar(), along(a, b, f"{a - b}"), notes=["ISO 2768-m"])
    assert list(printed.values()) == [(float(a - b), (-spread, spread), "class")]
    assert told(bar(), notes=["ISO 2768-m"]) == {}


def test_a_class_counts_for_the_distance_printed_not_for_that_from_the_front():
    """10 from a shoulder at Z-30 is within ±0.2, where 40 from the front face would be within ±0.3."""
    part, _ = tied(bar((-40, -43, 42), **STEPPED), along(-30, -40, "10", r=25), notes=["ISO 2768-m"])
    assert part.distances[0].deviations == (-0.2, 0.2)
    assert part.grooves[0].tolerances["z_near"] == (-0.2, 0.2)
    assert "z_near" in part.grooves[0].general


def test_a_dimensions_own_deviations_are_no_general_ones():
    part, _ = tied(bar(), along(0, -10, "10 ±0.1"), notes=["ISO 2768-m"])
    assert part.distances[0].source == "dimension"
    assert "z_near" not in part.grooves[0].general


ROW = [(-10 - 7 * k, -13 - 7 * k, 34) for k in range(4)]


def spacings(first, last, spot):
    """The places of one row, each with the next."""
    return [(wall(k, spot), wall(k + 1, spot)) for k in range(first, last)]


PITCHES = {
    "over all": (along(-10, -31, "3x 7 +0.2/+0.1"), "near"),
    "over all, the sum behind": (along(-10, -31, "3x 7 +0.2/+0.1 (=21)"), "near"),
    "over all, middles": (along(-11.5, -32.5, "3 x 7 +0.2/+0.1"), "centre"),
    "over all, far walls": (along(-13, -34, "3x7 +0.2/+0.1"), "far"),
    "over one": (along(-10, -17, "3x 7 +0.2/+0.1"), "near"),
    "over the last": (along(-24, -31, "3x 7 +0.2/+0.1"), "near"),
    "over the middle one": (along(-17, -24, "3x 7 +0.2/+0.1"), "near"),
    "typical": (along(-17, -24, "7 +0.2/+0.1 TYP"), "near"),
    "as variables": (along(-17, -24, "3x <>", deviations=(0.1, 0.2)), "near"),
}


@pytest.mark.parametrize(("dimension", "spot"), PITCHES.values(), ids=PITCHES)
def test_deviations_of_a_pitch_hold_for_each_spacing(dimension, spot):
    found = told(bar(*ROW), dimension)
    assert list(found) == spacings(1, 4, spot)
    assert list(found.values()) == [(pytest.approx(7.0), pytest.approx((0.1, 0.2)), "dimension")] * 3


@pytest.mark.parametrize("text", ["3x 7", "3x 7 (=21)"])
def test_a_pitch_without_deviations_names_its_walls(text):
    found = told(bar(*ROW), along(-10, -31, text))
    assert list(found) == spacings(1, 4, "near")
    assert {row[1:] for row in found.values()} == {(None, "shop")}


def test_a_class_stands_for_each_spacing():
    """ISO 2768-1 m: 7 mm is within ±0.2, where 21 mm would be too, and 3 within ±0.1."""
    found = told(bar(*ROW), along(-10, -31, "3x 7"), notes=["ISO 2768-f"])
    assert [row[1:] for row in found.values()] == [((-0.1, 0.1), "class")] * 3


def test_a_row_that_begins_at_the_front_face():
    part = bar(*((-10 - 10 * k, -13 - 10 * k, 34) for k in range(3)))
    found = told(part, along(0, -30, "3x 10 +0.1/0"))
    assert list(found) == [(FRONT, wall(1, "near")), *spacings(1, 3, "near")]


def test_a_pitch_printed_in_inches_on_a_part_in_mm():
    part = bar(*((-10 - 25.4 * k, -13 - 25.4 * k, 34) for k in range(3)), length=100)
    for a, b in ((-10, -60.8), (-10, -35.4)):
        found = told(part, along(a, b, "2x 1.000 +.010/.000"))
        assert [row[1] for row in found.values()] == [pytest.approx((0.0, 0.254))] * 2


@pytest.mark.parametrize("text", ["2x 7 ±0.1", "7 ±0.1 TYP", "3x 7 ±0.1"])
def test_a_groove_of_another_form_at_the_same_pitch_is_counted_only_where_the_number_says_so(text):
    found = told(bar(*ROW[:3], (-31, -36, 34)), along(-10, -17, text))
    assert list(found) == spacings(1, 4 if text.startswith("3x") else 3, "near")


@pytest.mark.parametrize("text", ["2x 7 ±0.1", "5x 7 ±0.1"])
def test_a_count_that_fits_no_row_is_a_caution_and_speaks_for_the_measured_spacing(text):
    part, findings = tied(bar(*ROW), along(-10, -17, text))
    assert [(d.start, d.end) for d in part.distances] == spacings(1, 2, "near")
    assert [(f.level, f.code) for f in findings] == [("caution", "count-differs")]


def test_a_pitch_over_places_that_are_missing_is_a_caution():
    part, findings = tied(bar(ROW[0], ROW[1], ROW[3]), along(-10, -31, "3x 7 ±0.1"))
    assert [f.code for f in findings] == ["count-differs", "tolerance-unread"]
    assert [d.deviations for d in part.distances] == [None]


def test_a_wrong_pitch_is_a_stop():
    for text in ("3x 8", "3x 6.9", "4x 7"):
        _, findings = tied(bar(*ROW), along(-10, -31, text))
        assert "dimension-contradicts" in [f.code for f in findings if f.stops], text


def test_grooves_inside_don_t_belong_to_a_row_outside():
    inside = (-31, -34, 24, {"where": "inside", "mouth_diameter": 20})
    part, findings = tied(bar(*ROW[:3], inside, bore=20), along(-10, -24, "2x 7 ±0.1", r=20))
    assert [(d.start.groove, d.end.groove) for d in part.distances] == [(1, 2), (2, 3)]
    assert [f.code for f in findings] == []


ORDINATES = {
    "from the front": ((0, -13), FRONT, (-0.1, 0.2)),
    "from the back": ((-60, -13), BACK, (-0.1, 0.2)),
    "from a wall": ((-46, -13), wall(3, "far"), (-0.1, 0.2)),
}


@pytest.mark.parametrize(("ends", "start", "deviations"), ORDINATES.values(), ids=ORDINATES)
def test_an_ordinate_dimension_counts_from_its_datum(ends, start, deviations):
    text = f"{abs(ends[0] - ends[1])} +0.2/-0.1"
    found = told(bar(), along(*ends, text, kind=DimensionKind.ORDINATE))
    ((places, row),) = found.items()
    assert set(places) == {start, wall(1, "far")}
    assert row[1:] == (deviations, "dimension")


def test_the_zero_of_ordinate_dimensions_says_nothing():
    at = frame()
    zero = Dimension(DimensionKind.ORDINATE, (at.on_sheet(0, 20), at.on_sheet(0, 22)), 0.0, 0.0, "0")
    assert told(bar(), zero) == {}
    on_wall = Dimension(DimensionKind.ORDINATE, (at.on_sheet(-10, 20), at.on_sheet(-10, 22)), 0.0, 0.0, "0 ±0.1")
    assert told(bar(), on_wall) == {}


@given(
    st.floats(0, 360),
    st.booleans(),
    st.sampled_from([0.5, 1.0, 2.5]),
    st.sampled_from([("front", 0), ("back", -60)]),
    st.sampled_from([("near", -20), ("far", -23)]),
    st.tuples(st.integers(-20, 20), st.integers(1, 20)),
    st.booleans(),
)
def test_limits_of_a_place_are_those_printed_wherever_the_part_lies(turn, mirrored, scale, end, spot, spread, swap):
    at = frame(turn, mirrored=mirrored, scale=scale)
    low, high = spread[0] / 100, (spread[0] + spread[1]) / 100
    nominal = abs(end[1] - spot[1])
    ends = (spot[1], end[1]) if swap else (end[1], spot[1])
    part, _ = tied(bar(at=at), along(*ends, f"{nominal} {high:+g}/{low:+g}", at))
    z = [spot[1] + off for off in part.grooves[1].tolerances[f"z_{spot[0]}"]]
    assert sorted(abs(one - end[1]) for one in z) == pytest.approx([nominal + low, nominal + high])


FACE = {"where": "face", "mouth_diameter": 30}
FACED = bar((0, -4, 22, FACE))


def test_distances_along_the_radius_of_a_face_groove():
    """From the outside diameter to the outer wall 5 +0.2/0: the wall's radius is 15 less 0 to 0.2."""
    (distance,) = tied(FACED, span((0, 15), (0, 20), "5 +0.2/0"))[0].distances
    assert distance == Distance(
        start=AXIS, end=wall(1, "near"), nominal=15.0, deviations=(-0.2, 0.0), source="dimension"
    )


@pytest.mark.parametrize(
    ("dimension", "deviations"),
    [
        (across(26, "Ø26 +0.2/0", z=0), (0.0, 0.1)),
        (half(26, "13 +0.1/0", z=0), (0.0, 0.1)),
        (half(26, "Ø26 +0.2/0", z=0), (0.0, 0.1)),
    ],
)
def test_the_middle_of_a_face_groove_by_its_diameter(dimension, deviations):
    (distance,) = tied(FACED, dimension)[0].distances
    assert (distance.start, distance.end, distance.nominal) == (AXIS, wall(1, "centre"), 13.0)
    assert distance.deviations == pytest.approx(deviations)


def test_from_one_face_groove_to_the_next():
    part = bar(
        (0, -4, 32, {"where": "face", "mouth_diameter": 36}), (0, -4, 22, {"where": "face", "mouth_diameter": 28})
    )
    (distance,) = tied(part, span((0, 14), (0, 16), "2 ±0.05"))[0].distances
    outer = next(g.id for g in part.grooves if g.mouth_diameter == 36)
    assert {distance.start, distance.end} == {wall(outer, "far"), wall(3 - outer, "near")}
    assert (distance.nominal, distance.deviations) == (2.0, (-0.05, 0.05))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("R17", ""),
        ("17", ""),
        ("34", ""),
        ("Ø34", ""),
        ("R17.1 ±0.1", "17.1 where the drawing measures 17 (half the floor diameter of groove 1)"),
        ("R18", "18 where the drawing measures 17 (half the floor diameter of groove 1)"),
        ("18", "18 where the drawing measures 17 (half the floor diameter of groove 1)"),
        ("R34", "34 where the drawing measures 17 (half the floor diameter of groove 1)"),
        ("35", "35 where the drawing measures 34 (floor diameter of groove 1)"),
        ("Ø17", "17 where the drawing measures 34 (floor diameter of groove 1)"),
    ],
)
def test_what_is_printed_from_the_axis_to_a_floor_is_its_radius_or_its_diameter(text, said):
    _, findings = tied(bar((-10, -13, 34)), half(34, text))
    told = [f.message for f in findings if f.code == "dimension-contradicts"]
    assert [one.startswith(f"A dimension prints {said}: ask which is meant") for one in told] == [True] * bool(said)


def test_a_radius_from_the_axis_gives_its_tolerance_twice_to_the_diameter():
    read, _ = tied(bar((-10, -13, 34)), half(34, "R17 +0.1/-0.05"))
    assert read.grooves[0].tolerances["floor_diameter"] == (-0.1, 0.2)


def test_a_radius_along_the_axis_is_no_width():
    assert [f for f in tied(bar(), along(-10, -13, "R4"))[1] if f.stops] == []


LANDS = [(-13 - 7 * k, -17 - 7 * k) for k in range(3)]
"""Between the far wall of a groove of the row and the near wall of the next."""


@pytest.mark.parametrize("land", LANDS)
def test_a_count_may_be_of_the_lands_between_grooves(land):
    """Four grooves have three lands between them."""
    part, findings = tied(bar(*ROW), along(*land, "3x 4 +0.1/0"))
    assert not findings
    assert [(d.start.groove, d.end.groove, d.deviations) for d in part.distances] == [
        (k + 1, k, (0.0, pytest.approx(0.1))) for k in (3, 2, 1)
    ]


@pytest.mark.parametrize(
    "dimension",
    [
        pytest.param(along(-13, -17, "2x 4"), id="three lands are there"),
        pytest.param(along(-13, -17, "4x 4"), id="four are not"),
        pytest.param(along(-13, -24, "3x 11"), id="over a land and a groove"),
    ],
)
def test_another_count_of_lands_is_told(dimension):
    assert [f.code for f in tied(bar(*ROW), dimension)[1]] == ["count-differs"]


def test_lands_of_another_width_are_not_counted():
    rows = [(-10, -13, 34), (-17, -20, 34), (-24.5, -27.5, 34), (-31.5, -34.5, 34)]
    assert not tied(bar(*rows), along(-13, -17, "2x 4"))[1]
    assert [f.code for f in tied(bar(*rows), along(-13, -17, "3x 4"))[1]] == ["count-differs"]


def test_lands_in_the_bore_are_none_of_those_outside():
    inside = [(-33 - 7 * k, -36 - 7 * k, 24, {"where": "inside", "mouth_diameter": 20}) for k in range(2)]
    part = bar(*ROW[:3], *inside, bore=20)
    assert not tied(part, along(-13, -17, "2x 4", r=20))[1]
    assert [f.code for f in tied(part, along(-13, -17, "3x 4", r=20))[1]] == ["count-differs"]
