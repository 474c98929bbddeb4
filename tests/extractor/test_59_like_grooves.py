"""Like grooves of which one carries the tolerance: the others have it too unless a dimension says otherwise."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.ties import HERE, across, along, bar, span, tied

from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.landmarks import nearest
from extractor.sizing.measured.like import alike, kin_of, same

FIVE = [(-8 - 8 * k, -11 - 8 * k, 34) for k in range(5)]


def fields(part, name):
    """One field's deviations of every groove."""
    return [g.tolerances.get(name) for g in part.grooves]


@pytest.mark.parametrize("which", range(5))
def test_one_of_five_is_dimensioned(which):
    near, far, _ = FIVE[which]
    part, (note, more) = tied(bar(*FIVE), along(near, far, "3 +0.1/0"), across(34, "Ø34 0/-0.1", z=(near + far) / 2))
    assert fields(part, "width") == [(0, 0.1)] * 5
    assert fields(part, "floor_diameter") == [(-0.1, 0)] * 5
    assert {(f.level, f.code, f.groove) for f in (note, more)} == {("note", "like-grooves", which + 1)}
    others = [str(k) for k in range(1, 6) if k != which + 1]
    assert f"the width of groove {which + 1} also counts for grooves {', '.join(others[:-1])} and {others[-1]}, " in (
        note.message
    )


def test_like_grooves_are_measured_by_the_depth_that_one_of_them_prints():
    part, _ = tied(bar(*FIVE[:3]), along(-8, -11, "3"), span((-9.5, 17), (-9.5, 20), "3"), across(34, "Ø34", z=-17.5))
    assert [sorted(g.printed) for g in part.grooves] == [["depth", "width"], ["floor_diameter"], ["depth"]]
    part, _ = tied(bar((-8, -11, 34), (-16, -20, 34)), span((-9.5, 17), (-9.5, 20), "3"))
    assert [sorted(g.printed) for g in part.grooves] == [["depth"], []], "of another width"


def test_places_are_never_carried():
    part, findings = tied(bar(*FIVE), along(0, -8, "8 ±0.05"))
    assert fields(part, "z_near") == [(-0.05, 0.05), None, None, None, None]
    assert findings == ()


@pytest.mark.parametrize("text", ["3", "3 ±0.2", "3 js9"])
def test_a_like_groove_with_a_size_of_its_own_keeps_it(text):
    part, findings = tied(bar(*FIVE[:3]), along(-8, -11, "3 +0.1/0"), along(-16, -19, text))
    assert fields(part, "width")[0] == (0, 0.1)
    assert fields(part, "width")[1] != (0, 0.1)
    if text == "3":
        assert fields(part, "width") == [(0, 0.1), None, (0, 0.1)]
        assert [f.code for f in findings] == ["like-grooves"]


def test_a_like_groove_with_a_size_of_its_own_gets_the_class():
    part, _ = tied(bar(*FIVE[:2]), along(-8, -11, "3 +0.02/0"), along(-16, -19, "3"), notes=["ISO 2768-m"])
    assert fields(part, "width") == [(0, 0.02), (-0.1, 0.1)]


def test_two_different_tolerances_leave_open_which_the_rest_has():
    part, (finding,) = tied(bar(*FIVE[:4]), along(-8, -11, "3 +0.1/0"), along(-16, -19, "3 0/-0.1"))
    assert fields(part, "width") == [(0, 0.1), (-0.1, 0), None, None]
    assert (finding.level, finding.code, finding.groove) == ("caution", "dimension-unclear", 3)
    assert finding.message.startswith("Grooves 1 and 2 print different tolerances of the width, and grooves 3 and 4")


def test_two_that_print_the_same_leave_nothing_open():
    part, findings = tied(bar(*FIVE[:3]), along(-8, -11, "3 +0.1/0"), along(-16, -19, "3 +0.1"))
    assert fields(part, "width") == [(0, 0.1)] * 3
    assert [(f.code, f.groove) for f in findings] == [("like-grooves", 1)]


UNLIKE = {
    "another width": ((-20, -23.01, 34), "width"),
    "another floor": ((-20, -23, 34.01), "width"),
    "another form": ((-20, -23, 34, {"shape": "tapered"}), "width"),
    "another side": ((-20, -23, 34, {"where": "inside", "mouth_diameter": 20.0}), "width"),
}


@pytest.mark.parametrize(("other", "field"), UNLIKE.values(), ids=UNLIKE)
def test_unlike_grooves_have_none(other, field):
    part, findings = tied(bar((-10, -13, 34), other, bore=20), along(-10, -13, "3 +0.1/0", r=20))
    assert fields(part, field) == [(0, 0.1), None]
    assert "like-grooves" not in [f.code for f in findings]


@pytest.mark.parametrize(("off", "like"), [(0.00008, True), (0.0005, False)])
def test_how_far_drawn_sizes_may_lie_apart(off, like):
    """A file of four decimals rounds either wall by half of the last one; a relative 1e-4 of 3 mm is 0.0003."""
    part, _ = tied(bar((-10, -13, 34), (-20, -23 - off, 34)), along(-10, -13, "3 +0.1/0"))
    assert (fields(part, "width")[1] is not None) is like


def test_a_depth_goes_over_where_the_land_is_the_same():
    """On a land 41 across the like width and floor are 3.5 deep."""
    part = bar((-10, -13, 34), (-20, -23, 34), (-40, -43, 34), steps=[(0, 40), (-30, 41)], length=60)
    read, _ = tied(part, span((-11, 17), (-11, 20), "3 +0.1/0"))
    assert fields(read, "depth") == [(0, 0.1), (0, 0.1), None]


def test_a_floor_does_not_go_over_where_a_depth_settles_it():
    depth = span((-17, 17), (-17, 20), "3")
    part, _ = tied(bar(*FIVE[:2]), across(34, "Ø34 0/-0.1", z=-9), depth)
    assert fields(part, "floor_diameter") == [(-0.1, 0), None]
    part, _ = tied(bar(*FIVE[:2]), across(34, "Ø34", z=-9), span((-17, 17), (-17, 20), "3 +0.1/0"))
    assert fields(part, "depth") == [None, (0, 0.1)]


def test_a_width_does_not_go_over_where_both_walls_are_placed():
    walls = along(0, -16, "16 ±0.1"), along(0, -19, "19 ±0.1")
    part, _ = tied(bar(*FIVE[:2]), along(-8, -11, "3 +0.1/0"), *walls)
    assert fields(part, "width") == [(0, 0.1), None]
    part, _ = tied(bar(*FIVE[:2]), along(-8, -11, "3 +0.1/0"), walls[0])
    assert fields(part, "width") == [(0, 0.1), (0, 0.1)]


def test_a_corner_goes_over_to_like_corners():
    spots = [(-10, -13, 34, {"corner_radius": 0.4}), (-20, -23, 34, {"corner_radius": 0.4}), (-30, -33, 34)]
    corner = span((-12.6, 17.4), (-12.6, 17.0), "R0.4 ±0.1", kind=DimensionKind.RADIUS)
    part, _ = tied(bar(*spots), corner)
    assert fields(part, "corner_radius") == [(-0.1, 0.1), (-0.1, 0.1), None]


def test_a_count_of_the_like_ones_among_more_of_that_width():
    """Three are 3 wide, two of them alike: `2x` means those two, and says nothing of the third."""
    part = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 36))
    read, findings = tied(part, along(-10, -13, "2x 3 +0.1/0"))
    assert fields(read, "width") == [(0, 0.1), (0, 0.1), None]
    assert findings == ()


PAIR = [(-20, -23, 34), (-26, -29, 34)]


@pytest.mark.parametrize("dimension", [along(-20, -23, "2x 3 +0.1/0"), along(-26, -29, "2x 3 +0.1/0")])
@pytest.mark.parametrize("first", [True, False])
def test_a_count_leaves_out_what_has_a_dimension_of_its_own(dimension, first):
    own = along(-10, -13, "3 -0.1/-0.2")
    part, findings = tied(bar((-10, -13, 34), *PAIR), *((own, dimension) if first else (dimension, own)))
    assert fields(part, "width") == [(-0.2, -0.1), (0, 0.1), (0, 0.1)]
    assert findings == ()


def test_a_count_of_those_on_one_land():
    part = bar(*PAIR, (-40, -43, 34), steps=[(0, 40), (-32, 44)], length=60)
    read, findings = tied(part, across(34, "2x Ø34 +0.1/0", z=-21), along(-40, -43, "3 ±0.1"))
    assert fields(read, "floor_diameter")[:2] == [(0, 0.1), (0, 0.1)]
    assert "count-differs" not in [f.code for f in findings]


@pytest.mark.parametrize("words", ["Ø34 0/-0.1", "Ø34 0/-0.1 TYP"])
def test_a_size_by_value_is_for_those_without_their_own(words):
    """Ø34 in an end view fits both like grooves; the first has a dimension of its own."""
    end_view = Dimension(DimensionKind.DIAMETER, ((300, 50), (300, 84)), 90, 34, words)
    part, findings = tied(bar(*FIVE[:2]), end_view, across(34, "Ø34 ±0.2", z=-9))
    assert fields(part, "floor_diameter") == [(-0.2, 0.2), (-0.1, 0)]
    assert findings == ()


def test_face_grooves_are_alike_by_both_walls_and_their_depth():
    faced = {"where": "face", "mouth_diameter": 36.0}
    ends = [(0, -4, 30, faced), (-56, -60, 30, faced)]
    part, _ = tied(bar(*ends), along(0, -4, "4 +0.1/0"), across(36, "Ø36 +0.1/0", z=0))
    assert fields(part, "depth") == fields(part, "mouth_diameter") == [(0, 0.1)] * 2
    part, _ = tied(bar(ends[0], (-55, -60, 30, faced)), across(36, "Ø36 +0.1/0", z=0))
    assert fields(part, "mouth_diameter") == [(0, 0.1), None]


@pytest.mark.parametrize(
    ("counted", "own", "stops"),
    [
        ("2x 3 +0.1/0", "3 +0.2/0", 1),
        ("2x 3 +0.1/0", "3 ±0.1", 1),
        ("2x 3 H13", "3 +0.2/0", 1),
        ("2x 3 +0.1/0", "3 +0.1/0", 0),
        ("2x 3 H13", "3 +0.14/0", 0),
        ("2x 3 +0.1/0", "3", 0),
        ("2x 3", "3 +0.2/0", 0),
        ("3 +0.1/0", "3 +0.2/0", 0),
    ],
)
def test_a_count_and_a_size_of_its_own_are_both_told_where_they_differ(counted, own, stops):
    """H13 at 3 is +0.14/0 (ISO 286-2)."""
    _, findings = tied(bar((-10, -13, 34), (-20, -23, 34)), along(-10, -13, counted), along(-20, -23, own))
    told = [f.message for f in findings if f.stops]
    assert [f'"{counted}" gives the width of groove 2 as 3 to 3.1' in one for one in told] == [True] * stops


def test_a_count_is_first_of_those_without_a_tolerance_of_their_own():
    """Of three 3 wide the one with its own is alike with the first, and the other is not."""
    three = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 32))
    read, findings = tied(three, along(-10, -13, "2x 3 +0.1/0"), along(-20, -23, "3 +0.2/0"))
    assert [f for f in findings if f.stops] == []
    assert [g.tolerances["width"] for g in read.grooves] == [(0.0, 0.1), (0.0, 0.2), (0.0, 0.1)]


@pytest.mark.parametrize(
    ("text", "told"),
    [("5x Ø34", "1, 2, 3, 4 and 5"), ("Ø34 TYP", "1, 2, 3, 4 and 5"), ("4x Ø34", ""), ("Ø34", ""), ("5x Ø34 h11", "")],
)
def test_a_floor_counted_without_a_tolerance_that_one_of_those_counted_has_is_asked_about(text, told):
    """Four are counted of five: those without a size of their own."""
    part, findings = tied(bar(*FIVE), across(34, "Ø34 h11", z=-9.5), across(34, text, z=-17.5))
    asked = [f.message for f in findings if f.code == "dimension-unclear"]
    if told:
        assert fields(part, "floor_diameter") == [(-0.16, 0), None, None, None, None]
        assert asked[0].startswith(f'"{text}" gives grooves {told} the floor diameter without a tolerance')
    assert len(asked) == bool(told)


def test_a_width_so_counted_is_asked_about_once():
    twice = along(-16, -19, "5x 3"), along(-24, -27, "5x 3")
    findings = tied(bar(*FIVE), along(-8, -11, "3 +0.1/0"), *twice)[1]
    assert [(f.level, f.code, f.groove) for f in findings] == [("caution", "dimension-unclear", 1)]


@pytest.mark.parametrize("text", ["ALL GROOVES Ø34", "5 GROOVES 3 WIDE Ø34", "GROOVES Ø34", "Nuten Ø34"])
@pytest.mark.parametrize("led", [False, True])
def test_a_note_on_several_grooves_gives_none_of_them_a_floor_of_its_own(text, led):
    """As it gives them no width of their own: the tolerance at one counts for those drawn alike, and is said to."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-17.5, 17.0), HERE.on_sheet(0.0, 38.0)), 0.0, 0.0, text)
    notes, leaders = ((), (leader,)) if led else ((text,), ())
    part, findings = tied(bar(*FIVE), across(34, "Ø34 h11", z=-9.5), *leaders, notes=notes)
    assert fields(part, "floor_diameter") == [(-0.16, 0)] * 5
    assert [f.code for f in findings] == ["like-grooves"]


@pytest.mark.parametrize("text", ["GROOVE Ø34", "Ø34"])
def test_one_led_to_a_groove_is_its_own(text):
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-17.5, 17.0), HERE.on_sheet(0.0, 38.0)), 0.0, 0.0, text)
    part, _ = tied(bar(*FIVE[:3]), across(34, "Ø34 h11", z=-9.5), leader)
    assert fields(part, "floor_diameter") == [(-0.16, 0), None, (-0.16, 0)]


SIZES = st.sampled_from([3.0, 3.00004, 3.0004, 5.0])
PLACES = st.lists(st.tuples(SIZES, st.sampled_from([34.0, 34.002, 34.004, 28.0])), min_size=1, max_size=6)


@settings(deadline=None)
@given(PLACES, st.sampled_from([["width"], ["floor_diameter"], ["width", "floor_diameter"], ["depth"], ["pitch"]]))
def test_those_of_one_size_are_found_as_two_at_a_time(sizes, names):
    part = bar(*((-8 - 8 * k, -8 - 8 * k - wide, floor) for k, (wide, floor) in enumerate(sizes)))
    for groove in part.grooves:
        equal, akin, free = kin_of(groove, names, Features.of(part))
        assert free == equal
        known = [name for name in names if name != "pitch"]
        by_hand = [g for g in part.grooves if all(same(getattr(g, n), getattr(groove, n)) for n in known)]
        assert equal == by_hand
        assert akin == [g for g in by_hand if alike(groove, g)]


@settings(deadline=None)
@given(st.lists(st.integers(1, 40), min_size=1, max_size=8, unique=True), st.integers(0, 4000), st.integers(1, 40))
def test_a_place_along_the_axis_is_looked_up_as_among_all(starts, at, wide):
    part = bar(*((-(a * 0.5), -(a * 0.5) - 0.2, 34) for a in sorted(starts)))
    features = Features.of(part)
    z, beside = -at / 100, 17.0
    assert features.along_at(z, beside) == nearest(features.along, z, beside, features.snap)
    back = z - wide / 100
    by_hand = [g for g in part.grooves if features.near(z, g.z_near) and features.near(back, g.z_far)]
    assert features.between(z, back) == by_hand


FOUR = bar(*FIVE[:3], (-50, -53, 34))


def led_to(z, words):
    places = HERE.on_sheet(z, 17.0), HERE.on_sheet(z, 40.0)
    return Dimension(DimensionKind.LEADER, places, 0.0, 0.0, words)


@pytest.mark.parametrize(
    ("own", "stops"),
    [
        ("3 ±0.05 x Ø34 ±0.05", False), ("3 WIDE x Ø34", False), ("3 x 3 DEEP", True), ("3 ±0.05", True),
        ("ALL GROOVES 3 x Ø34", True), ("4x 3 WIDE x Ø34", True), ("O-RING GROOVE", True),
    ],
)  # fmt: skip
def test_a_groove_with_a_note_of_its_own_is_none_of_those_that_another_counts(own, stops):
    counted = led_to(-9.5, "3x 3 +0.1/0 x Ø34 0/-0.1")
    part, findings = tied(FOUR, counted, led_to(-51.5, own))
    assert ("count-differs" in [f.code for f in findings]) is stops
    if not stops:
        assert fields(part, "width")[:3] == [(0, 0.1)] * 3
        assert fields(part, "floor_diameter")[:3] == [(-0.1, 0)] * 3
    if own == "3 ±0.05 x Ø34 ±0.05":
        assert fields(part, "width")[3] == fields(part, "floor_diameter")[3] == (-0.05, 0.05)


def test_a_count_may_be_that_of_all_though_one_has_a_note_of_its_own():
    part, findings = tied(FOUR, led_to(-9.5, "4x 3 +0.1/0 x Ø34 0/-0.1"), led_to(-51.5, "3 x Ø34"))
    assert "count-differs" not in [f.code for f in findings]
    assert fields(part, "width") == [(0, 0.1)] * 4
