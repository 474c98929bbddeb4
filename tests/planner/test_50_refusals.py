"""What can't be planned is refused, and the sentence says what it would take."""

from dataclasses import replace
from math import cos, pi, sin

import pytest
from support.parts import part_of, row

from extractor.part import LeftToOthers
from planner import default_shop, parse_shop, plan_part

TOOL = 'units = "mm"\n[machine]\nstick_out = 100\n[[tools]]\nstation = 3\nwidth = 2.0\nmax_depth = 6.0\n'


def stops(part, text=TOOL, units="mm"):
    plan = plan_part(part, parse_shop(text, "s", units))
    found = [f for f in plan.findings if f.stops]
    assert not found or (plan.stopped and not plan.operations)
    return [(f.code, f.message, f.groove) for f in found]


def only(part, text=TOOL, units="mm"):
    ((code, message, groove),) = stops(part, text, units)
    return code, message, groove


def test_narrower_than_every_insert():
    code, message, groove = only(part_of([(-10, -13, 36), (-20, -23, 36), (-30, -31.3, 36)]))
    assert (code, groove) == ("groove-too-narrow", 3)
    assert message == (
        "Groove 3 is 1.300 mm wide and the narrowest insert is 2.000 mm; an insert of 1.300 mm or narrower "
        "with a reach of 2.000 mm and a corner radius up to 0.200 mm is needed."
    )


def test_inch_sentences_have_four_places():
    text = 'units = "in"\n[[tools]]\nstation = 3\nwidth = 0.125\nmax_depth = 0.5\n'
    _, message, _ = only(part_of([(-0.5, -0.6, 1.3)], diameter=1.5, length=3, units="in"), text, "in")
    assert "0.1000 in wide and the narrowest insert is 0.1250 in" in message


def test_deeper_than_every_reach():
    code, message, _ = only(part_of([(-10, -13, 26)]))
    assert code == "groove-too-deep"
    assert "7.000 mm deep and the insert that would fit (T0303, 2.000 mm wide) reaches 6.000 mm" in message
    assert "a reach of 7.000 mm" in message


def test_a_reach_that_just_does_is_enough():
    assert not stops(part_of([(-10, -13, 28)]))


def test_the_reach_counts_from_the_higher_land_beside():
    code, message, _ = only(part_of([(-27, -30, 36)], steps=[(0, 40), (-30, 60)]))
    assert code == "groove-too-deep"
    assert "12.000 mm deep, measured from the higher land beside it," in message
    assert "with a reach of 12.000 mm" in message


def test_a_flush_holder_passes_a_shoulder_only_within_the_reach():
    part = part_of([(-20, -23, 36)], steps=[(0, 40), (-24, 60)])
    code, message, _ = only(part)
    assert code == "groove-too-deep"
    assert (
        "; give holder_far in the shop file if the holder stands out less than the 2.000 mm assumed there, else"
        in message
    )
    assert not stops(part, TOOL + "holder_far = 0.5\n")
    # The land is in the way of a holder whose size is given, or of the insert itself.
    for given in (part, part_of([(-20, -23, 36)], steps=[(0, 40), (-23, 60)])):
        _, message, _ = only(given, TOOL + ("holder_far = 1.5\n" if given is part else ""))
        assert "; an insert" in message


@pytest.mark.parametrize(("reach", "able"), [(3.0, False), (3.014, False), (3.015, True), (3.016, True)])
def test_the_reach_named_is_what_the_limits_ask_for_at_least(reach, able):
    # Floor 34 -0.03/-0.08 in 40: at least 33.97 across, 3.015 deep (by hand).
    part = part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (-0.08, -0.03)}})])
    text = TOOL.replace("max_depth = 6.0", f"max_depth = {reach}")
    if able:
        assert not stops(part, text)
        return
    code, message, _ = only(part, text)
    assert code == "groove-too-deep"
    assert "Groove 1 is 3.015 mm deep at least and the insert" in message
    assert "with a reach of 3.015 mm" in message


BAR = TOOL + 'where = "inside"\nmin_bore = 18.0\n'


def blind(gap):
    """A bore of 24 to Z-30 with a groove 3 wide, 2 deep that ends so far before its bottom."""
    far = -30.0 + gap
    part = part_of([(far + 3, far, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
    ends = [(far, 12.0)] if gap else []
    wall = [(0.0, 12.0), (far + 3, 12.0), (far + 3, 14.0), (far, 14.0), *ends]
    return replace(part, bore=(*wall, *([(-30.0, 12.0)] if gap else []), (-30.0, 0.0)))


@pytest.mark.parametrize(("holder", "able"), [("", False), ("0.51", False), ("0.49", True)])
def test_a_groove_before_the_bottom_of_a_bore_asks_for_a_thinner_holder(holder, able):
    text = BAR + (f"holder_far = {holder}\n" if holder else "")
    if able:
        assert not stops(blind(0.5), text)
        return
    code, message, _ = only(blind(0.5), text)
    assert code == "groove-too-deep"
    stands = "stands out 0.510" if holder else "is taken to stand out 2.000"
    assert message == (
        "Groove 1 ends 0.500 mm before the bottom or a step of the bore, and the holder of the insert that would fit "
        f"(T0303, 2.000 mm wide) {stands} mm beyond it there; one that stands out less than 0.500 mm on the chuck "
        "side (holder_far) is needed."
    )


def test_a_groove_at_the_bottom_of_a_bore_lies_behind_the_whole_bore():
    code, message, _ = only(blind(0.0), BAR)
    assert code == "groove-too-deep"
    assert "Groove 1 ends 0.000 mm before the bottom" in message
    assert message.endswith("no holder has room there: program it by hand.")
    # The bore of 24 with room for a clearance of 1 takes a bar of 23.
    assert only(blind(0.0), BAR.replace("18.0", "23.0"))[0] == "groove-too-deep"
    code, message, _ = only(blind(0.0), BAR.replace("18.0", "23.1"))
    assert code == "bore-too-small"
    assert "lies behind a bore of 24.000 mm and the smallest bar that would cut it needs 24.100 mm" in message
    assert "on a bar with a min_bore up to 23.000 mm, the clearance of 1.000 mm less than the bore" in message


def test_an_insert_that_reaches_too_little_before_a_bottom_is_told_its_own_reach():
    _, message, _ = only(blind(0.5), BAR.replace("max_depth = 6.0", "max_depth = 1.5"))
    assert "Groove 1 is 2.000 mm deep and the insert" in message
    assert "with a reach of 2.000 mm" in message


def test_a_corner_drawn_smaller_than_the_insert_s():
    code, message, _ = only(part_of([(-10, -13, 36, {"corner_radius": 0.1})]))
    assert code == "corner-too-sharp"
    assert "corners drawn 0.100 mm round and the insert that would fit has 0.200 mm" in message
    assert "a corner radius up to 0.120 mm is needed" in message


def test_a_corner_s_own_tolerance_holds():
    part = part_of([(-10, -13, 36, {"corner_radius": 0.1, "tolerances": {"corner_radius": (-0.1, 0.1)}})])
    assert not stops(part)


def test_a_corner_drawn_sharp_takes_the_shop_s_limit():
    part = part_of([(-10, -13, 36)])
    assert not stops(part)
    code, message, _ = only(part, TOOL.replace("stick_out = 100", "sharp_corner = 0.1"))
    assert code == "corner-too-sharp"
    assert "corners drawn sharp" in message


def test_an_insert_within_the_width_s_tolerance_is_not_too_wide():
    text = TOOL.replace("width = 2.0", "width = 2.1")
    assert only(part_of([(-10, -12, 36)]), text)[0] == "groove-too-narrow"
    # H13 of 2 mm: +0.14/0, ISO 286.
    assert not stops(part_of([(-10, -12, 36, {"tolerances": {"width": (0.0, 0.14)}})]), text)


@pytest.mark.parametrize(("width", "able"), [(2.99, True), (3.0, True), (3.002, False)])
def test_an_insert_at_the_limit_of_the_width_is_taken_where_no_other_is(width, able):
    # 12.86 less 10 is a hair below 2.86, so its upper limit is one below 3.
    part = part_of([(-10, -12.86, 36, {"tolerances": {"width": (0.0, 0.14)}})])
    text = TOOL.replace("width = 2.0", f"width = {width}")
    if not able:
        assert only(part, text)[0] == "groove-too-narrow"
        return
    plan = plan_part(part, parse_shop(text, "s", "mm"))
    assert not plan.stopped
    assert "width-near-limit" in {finding.code for finding in plan.findings}
    # A narrower one that widens the groove to its middle comes first.
    both = plan_part(part, parse_shop(text + "[[tools]]\nstation = 5\nwidth = 2.0\nmax_depth = 6.0\n", "s", "mm"))
    assert [operation.tool.station for operation in both.operations] == [5]


def test_a_recess_with_a_point_is_refused_by_name():
    code, message, _ = only(part_of([(-10, -13, 36, {"shape": "tapered"})]))
    assert code == "recess-not-planned"
    assert "sloping walls" in message
    assert "--accept recess-not-planned" in message


def test_a_recess_that_rises_again_within_is_refused_by_name():
    square = part_of([(-10, -18, 36, {"shape": "other"})])
    # A ridge a millimetre high on the floor, upright on either side.
    ridge = [(-13.0, 18.0), (-13.0, 19.0), (-15.0, 19.0), (-15.0, 18.0)]
    floor = square.outline.index((-10.0, 18.0)) + 1
    part = replace(square, outline=(*square.outline[:floor], *ridge, *square.outline[floor:]))
    code, message, _ = only(part)
    assert code == "recess-not-planned"
    assert "no usual shape" in message
    assert "--accept recess-not-planned" in message


def test_a_rectangular_groove_that_isn_t_square_in_the_outline():
    part = part_of([(-10, -13, 36, {"shape": "vee"})])
    lying = part_of([(-10, -13, 36)])
    both = replace(lying, outer_diameter=40.0, length=60.0, outline=part.outline)
    code, message, _ = only(both)
    assert code == "recess-not-planned"
    assert "walls that aren't upright" in message


@pytest.mark.parametrize(("spot", "what"), [((-10, -13, 39.98), "0.010 mm deep"), ((-10, -10.03, 39), "0.030 mm wide")])
def test_a_groove_that_the_tolerance_can_t_tell_from_none(spot, what):
    code, message, _ = only(part_of([spot]))
    assert code == "groove-too-small"
    assert f"Groove 1 is {what}, which a tolerance of 0.020 mm can hardly tell from none" in message


def test_no_groove_at_all():
    code, message, _ = only(part_of([]))
    assert code == "no-grooves"
    assert "nothing to program" in message


def test_jaws_with_the_figure_needed():
    text = TOOL.replace("stick_out = 100", "stick_out = 40\njaw_gap = 3")
    code, message, _ = only(part_of([(-46, -49, 36)]), text)
    assert code == "jaws"
    assert "would come to Z-49.000 and the jaws with their gap begin at Z-37.000; stick out 12.000 mm more." in message


def test_all_that_stands_in_the_way_is_told_at_once():
    """A groove that no insert fits hides nothing of the others, and an insert that has room for those is taken."""
    text = TOOL.replace("stick_out = 100", "stick_out = 40\njaw_gap = 3\npower = 0.1")
    part = part_of([(-10, -11, 36), (-46, -49, 36)])
    assert [(code, groove) for code, _, groove in stops(part, text)] == [("groove-too-narrow", 1), ("jaws", 2)]
    long = text + "holder_far = 5\n[[tools]]\nstation = 4\nwidth = 2.0\nmax_depth = 6.0\n"
    part = part_of([(-10, -11, 36), (-32, -35, 36)])
    assert [code for code, *_ in stops(part, long)] == ["groove-too-narrow"]
    assert [code for code, *_ in stops(part, text + "holder_far = 5\n")] == ["groove-too-narrow", "jaws"]


def test_just_clear_of_the_jaws():
    text = TOOL.replace("stick_out = 100", "stick_out = 40\njaw_gap = 3")
    assert not stops(part_of([(-34, -37, 36)]), text)
    assert stops(part_of([(-34.01, -37.01, 36)]), text)


def test_the_turret_clears_the_largest_diameter():
    part = part_of([(-10, -13, 36)], steps=[(0, 40), (-60, 90)])
    needed = (90 - 36) / 2 + 1
    code, message, groove = only(part, TOOL + f"overhang = {needed - 0.01}\n")
    assert (code, groove) == ("turret", 1)
    assert message == (
        "Groove 1: with T0303 at 36.000 the turret would meet the part's 90.000; the insert must stand out 28.000 mm "
        "and the shop file says 27.990 mm."
    )
    assert not stops(part, TOOL + f"overhang = {needed}\n")
    assert not stops(part)


def test_where_the_jaws_are_unknown_the_stick_out_needed_is_told_and_does():
    bare = TOOL.replace("stick_out = 100", "jaw_gap = 3")
    part = part_of([(-10, -13, 36), (-46, -49.3, 36), (-20, -23, 36)])
    (found,) = (f for f in plan_part(part, parse_shop(bare, "s", "mm")).findings if f.code == "stick-out-unknown")
    assert (
        "T0303 comes to Z-49.300, so at least 52.300 mm must stand out of the jaws; measure it first." in found.message
    )
    assert not stops(part, bare.replace("jaw_gap", "stick_out = 52.3\njaw_gap"))
    assert [code for code, *_ in stops(part, bare.replace("jaw_gap", "stick_out = 52.29\njaw_gap"))] == ["jaws"]


def test_the_tailstock_s_centre():
    text = TOOL.replace("stick_out = 100", "stick_out = 100\ntailstock = 38")
    # At the front end a groove is open to the face, and a wider insert reaches beyond it.
    part = part_of([(0.0, -2.0, 36)])
    plan = plan_part(part, parse_shop(text, "s", "mm"))
    assert [f.level for f in plan.findings if f.code == "tailstock"] == ["caution"]
    wide = plan_part(part, parse_shop(text.replace("width = 2.0", "width = 2.015"), "s", "mm"))
    (stop,) = [f for f in wide.findings if f.stops]
    assert "T0303 would reach beyond the front face to Z0.007" in stop.message


def test_a_cut_too_strong_for_the_spindle():
    text = TOOL.replace("stick_out = 100", "stick_out = 100\npower = 0.5")
    code, message, _ = only(part_of([(-10, -13, 36)]), text)
    assert code == "power"
    assert "kW and the machine has 0.5 kW" in message


def test_every_groove_that_can_t_be_cut_is_named():
    found = stops(part_of([(-10, -11, 36), (-20, -21, 36), (-30, -33, 20)]))
    assert [groove for _, _, groove in found] == [1, 2, 3]


def test_a_shop_in_other_units_is_a_fault_of_ours():
    with pytest.raises(ValueError, match="units"):
        plan_part(part_of([(-10, -13, 36)]), default_shop("in"))


def test_a_refused_part_still_shows_its_sets():
    plan = plan_part(part_of(row(3, -10, 5, 1, 36)), parse_shop(TOOL, "s", "mm"))
    assert plan.stopped
    assert [s.grooves for s in plan.sets] == [(1, 2, 3)]
    assert plan.steps == ()


class TestLeavingOut:
    PART = part_of([(-10, -13, 36), (-20, -23, 36, {"shape": "tapered"}), (-30, -33, 36)])

    def test_what_can_t_be_planned_stops_it_all(self):
        assert [(code, groove) for code, _, groove in stops(self.PART)] == [("recess-not-planned", 2)]

    def test_unless_the_user_answers_for_it(self):
        plan = plan_part(self.PART, parse_shop(TOOL, "s", "mm"), {"recess-not-planned"})
        assert not plan.stopped
        assert plan.left_out == (2,)
        assert [n for o in plan.operations for n in o.grooves] == [1, 3]
        (caution,) = [f for f in plan.findings if f.groove == 2]
        assert (caution.level, caution.code) == ("caution", "recess-not-planned")

    def test_nothing_is_left_out_unasked(self):
        assert plan_part(part_of([(-10, -13, 36)]), parse_shop(TOOL, "s", "mm"), {"recess-not-planned"}).left_out == ()

    def test_a_groove_that_no_insert_fits_can_t_be_left_out(self):
        plan = plan_part(part_of([(-10, -11, 36)]), parse_shop(TOOL, "s", "mm"), {"groove-too-narrow", "jaws"})
        assert plan.stopped

    def test_when_all_is_left_out_there_is_nothing(self):
        part = part_of([(-20, -23, 36, {"shape": "tapered"})])
        plan = plan_part(part, parse_shop(TOOL, "s", "mm"), {"recess-not-planned"})
        assert [f.code for f in plan.findings if f.stops] == ["no-grooves"]

    def test_both_kinds_of_refusal_are_named_together(self):
        part = part_of([(-10, -11, 36), (-20, -23, 36, {"shape": "tapered"})])
        assert [(code, groove) for code, _, groove in stops(part)] == [
            ("groove-too-narrow", 1),
            ("recess-not-planned", 2),
        ]


class TestCautions:
    def codes(self, part, text=TOOL):
        plan = plan_part(part, parse_shop(text, "s", "mm"))
        assert not plan.stopped
        return {f.code: f for f in plan.findings}

    def test_a_plain_job_has_none_but_the_corner_note(self):
        text = TOOL + "corner_radius = 0.0\n[material]\ncutting_speed = 100\nspecific_cutting_force = 2000\n"
        assert not self.codes(part_of([(-10, -13, 36)]), text.replace("[[tools]]", "[[tools]]\npeck = 1"))

    def test_what_the_shop_leaves_open(self):
        found = self.codes(part_of([(-10, -13, 36)]), "")
        assert {"stick-out-unknown", "built-in-tools", "material-assumed"} <= set(found)

    def test_a_chamfer_that_the_insert_can_t_cut(self):
        spots = [(-10, -13, 39.2, {"edge_chamfer": 0.3}), (-20, -23, 39.2, {"edge_chamfer": 0.3})]
        found = self.codes(part_of(spots))
        assert "Grooves 1 and 2: this program doesn't cut the chamfer of 0.300 mm" in found["chamfer-not-cut"].message

    def test_a_chamfer_that_it_can(self):
        assert "chamfer-not-cut" not in self.codes(part_of([(-10, -13, 36, {"edge_chamfer": 0.3})]))

    def test_a_corner_drawn_larger(self):
        found = self.codes(part_of([(-10, -13, 36, {"corner_radius": 0.4})]))
        assert "0.400 mm round and the insert leaves 0.200 mm" in found["corner-smaller"].message

    def test_a_sharp_corner_is_noted_once_for_all(self):
        found = self.codes(part_of(row(4, -10, 5, 3, 36)))
        assert found["corner-sharp-as-drawn"].message.startswith("Grooves 1 to 4: ")

    def test_deep_and_narrow(self):
        text = TOOL.replace("max_depth = 6.0", "max_depth = 20")
        found = self.codes(part_of([(-10, -12, 6)]), text)
        assert "8.5 times the insert's width" in found["deep-and-narrow"].message

    def test_a_thin_neck(self):
        text = TOOL.replace("max_depth = 6.0", "max_depth = 20")
        assert "only 8.000 mm across is left" in self.codes(part_of([(-10, -13, 8)]), text)["thin-neck"].message

    def test_a_feed_that_few_inserts_bear(self):
        assert "feed-high" in self.codes(part_of([(-10, -13, 34)]), TOOL + "feed = 0.2\n")
        assert "feed-high" not in self.codes(part_of([(-10, -13, 34)]), TOOL + "feed = 0.15\n")

    def test_no_peck_is_the_shops_own_choice(self):
        assert not [c for c in self.codes(part_of([(-10, -13, 34)]), TOOL + "peck = 0\n") if "peck" in c]

    def test_a_shoulder_that_the_holder_may_meet(self):
        part = part_of([(-10, -13, 36)], steps=[(0, 40), (-30, 60)])
        assert "holder_far in the shop file" in self.codes(part)["holder-near-shoulder"].message
        assert "holder-near-shoulder" not in self.codes(part, TOOL + "holder_far = 10\nholder_near = 10\n")

    def test_a_long_thin_part(self):
        part = part_of([(-10, -13, 8)], diameter=10, length=300)
        assert "10.0 times its least diameter" in self.codes(part)["stick-out"].message

    def test_an_outline_that_begins_and_ends_on_the_axis(self):
        part = part_of([(-10, -13, 8)], diameter=10, length=300)
        closed = replace(part, lands=((0.0, 0.0), *part.lands, (-300.0, 0.0)))
        assert "10.0 times its least diameter" in self.codes(closed)["stick-out"].message

    @pytest.mark.parametrize("inner", [0.0, 2.0])
    def test_a_long_thin_part_as_a_drawing_gives_it(self, inner):
        """A profile that was read begins and ends with the end faces, at the axis or at the bore."""
        part = part_of([(-10, -13, 8)], diameter=10, length=300)
        lands = ((0.0, inner), (0.0, 5.0), (-300.0, 5.0), (-300.0, inner))
        assert "10.0 times its least diameter" in self.codes(replace(part, lands=lands))["stick-out"].message


def test_grooved_is_named_where_that_is_all_that_stands_in_the_way():
    low = LeftToOthers(where="outside", near=-20.0, far=-40.0, floor=36.0, mouth=40.0, why="turned")
    plain = part_of([], steps=[(0, 40), (-20, 36), (-40, 40)])
    for part, named in ((plain, False), (replace(plain, left_to_others=(low,)), True)):
        (stop,) = [f for f in plan_part(part, parse_shop("", "s", "mm")).findings if f.stops]
        assert stop.code == "no-grooves"
        assert ("--grooved" in stop.message) is named


def test_the_jaws_are_told_once_with_the_worst_figure():
    text = TOOL.replace("stick_out = 100", "stick_out = 40\njaw_gap = 3")
    code, message, groove = only(part_of([(-36, -39, 36), (-46, -49, 35), (-54, -57, 34)], length=80), text)
    assert (code, groove) == ("jaws", 3)
    assert "(grooves 1 and 2 too)" in message
    assert message.endswith("stick out 20.000 mm more.")


def test_one_caution_of_a_kind_has_the_worst_figure():
    spots = [(-10, -13, 27), (-20, -23, 26.5), (-30, -33, 24)]
    plan = plan_part(part_of(spots), parse_shop(TOOL.replace("2.0", "0.7").replace("6.0", "9.0"), "s", "mm"))
    (found,) = [f for f in plan.findings if f.code == "deep-and-narrow"]
    assert found.message.startswith("Groove 3: 8.000 mm deep is 11.4 times the insert's width")
    assert found.message.endswith("; so for grooves 1 and 2, by no more.")


def test_a_rounded_mouth_is_no_chamfer():
    def told(points):
        part = part_of([(-10, -13, 36, {"edge_chamfer": 0.5})], length=60)
        line = (
            (0.0, 20.0),
            *points,
            (-10.0, 18.0),
            (-13.0, 18.0),
            *((-23.0 - z, r) for z, r in points[::-1]),
            (-60.0, 20.0),
        )
        plan = plan_part(replace(part, outline=line), parse_shop(TOOL, "s", "mm"))
        return {f.code for f in plan.findings} & {"radius-not-cut", "chamfer-not-cut"}

    arc = [(-9.5 - 0.5 * sin(a * pi / 40), 19.5 + 0.5 * cos(a * pi / 40)) for a in range(21)]
    assert told(arc) == set(), "cut by an arc"
    assert told([(-9.5, 20.0), (-10.0, 19.5)]) == set()


@pytest.mark.parametrize(
    ("lowest", "cure"),
    [
        (-10.85, "; a vee insert of 53.1 degrees, 1.700 mm wide or more, "),
        (-10.0, "; no straight vee insert leaves both its walls as drawn: program it by hand, or --accept"),
    ],
)
def test_a_vee_that_no_straight_insert_leaves(lowest, cure):
    """1.7 wide and 1.7 deep, its lowest point in the middle or under one wall: 2 atan (0.5) is 53.1 degrees."""
    part = part_of([(-10, -11.7, 36.6, {"shape": "vee"})])
    points = ((-10.0, 20.0), (lowest, 18.3), (-11.7, 20.0))
    part = replace(part, outline=(part.outline[0], *points, part.outline[-1]))
    code, message, _ = only(part)
    assert code == "recess-not-planned"
    assert cure in message


def test_a_plan_that_is_refused_takes_no_time():
    plan = plan_part(part_of([(-10, -11.3, 36)]), parse_shop(TOOL, "s", "mm"))
    assert (plan.stopped, plan.seconds, plan.operations) == (True, 0.0, ())
