"""The state of every groove, its signed differences, and what the drawing's tolerances allow."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.moves import Moves, shop, tool
from support.parts import part_of, row

from postproc import judge
from postproc.verdict import State, Verdict


def verdict(part, moves: Moves, *tools, **machine) -> Verdict:
    return judge(part, moves.run(), shop(*(tools or (tool(),)), **machine))


def only(found: Verdict):
    (match,) = found.matches
    return match


def test_right_is_right():
    found = verdict(
        part_of(row(4, -10, 5, 3, 34)), Moves().plunge(-13, 34).plunge(-18, 34).plunge(-23, 34).plunge(-28, 34)
    )
    assert found.agree
    assert [m.drawing for m in found.matches] == [1, 2, 3, 4]
    assert all(m.difference == {"z_near": 0.0, "z_far": 0.0, "floor_diameter": 0.0} for m in found.matches)
    assert [m.program.lines for m in found.matches] == [(2,), (5,), (8,), (11,)]


@pytest.mark.parametrize(
    ("z", "floor", "width", "state", "difference"),
    [
        (-13.0, 34.0, 3.0, State.MATCHES, (0.0, 0.0, 0.0)),
        (-13.02, 34.0, 3.0, State.MATCHES, (-0.02, -0.02, 0.0)),
        (-13.03, 34.0, 3.0, State.POSITION, (-0.03, -0.03, 0.0)),
        (-12.5, 34.0, 3.0, State.POSITION, (0.5, 0.5, 0.0)),
        (-13.0, 34.02, 3.0, State.MATCHES, (0.0, 0.0, 0.02)),
        (-13.0, 34.03, 3.0, State.DEPTH, (0.0, 0.0, 0.03)),
        (-13.0, 33.97, 3.0, State.DEPTH, (0.0, 0.0, -0.03)),
        (-13.0, 34.0, 2.5, State.WIDTH, (-0.5, 0.0, 0.0)),
        (-13.0, 34.0, 3.5, State.WIDTH, (0.5, 0.0, 0.0)),
        (-13.5, 33.0, 2.5, State.POSITION, (-1.0, -0.5, -1.0)),
        (-13.0, 33.0, 2.5, State.WIDTH, (-0.5, 0.0, -1.0)),
    ],
)
def test_states_in_their_order_with_signed_differences(z, floor, width, state, difference):
    match = only(verdict(part_of([(-10, -13, 34)]), Moves().plunge(z, floor), tool(width=width)))
    assert match.state is state
    assert match.difference == dict(zip(("z_near", "z_far", "floor_diameter"), difference, strict=True))


def test_missing_and_extra():
    found = verdict(part_of(row(2, -10, 10, 3, 34)), Moves().plunge(-13, 34).plunge(-43, 33))
    assert [(m.drawing, m.state) for m in found.matches] == [
        (1, State.MATCHES),
        (2, State.MISSING),
        (None, State.EXTRA),
    ]
    assert found.matches[1].program is None
    assert found.matches[2].program.floor_diameter == 33.0
    assert found.matches[2].difference == {}


def test_extra_cuts_are_told_from_the_front():
    found = verdict(part_of([(-10, -13, 34)]), Moves().plunge(-43, 33).plunge(-13, 34).plunge(-33, 33))
    assert [m.program.z_near for m in found.matches] == [-10.0, -30.0, -40.0]


@pytest.mark.parametrize(
    ("tolerances", "floor", "right"),
    [
        ({"floor_diameter": (-0.25, 0.0)}, 33.75, True),
        ({"floor_diameter": (-0.25, 0.0)}, 33.74, False),
        ({"floor_diameter": (-0.25, 0.0)}, 34.01, False),
        ({"floor_diameter": (-0.005, 0.005)}, 34.01, False),
        ({"depth": (0.0, 0.1)}, 33.8, True),
        ({"depth": (0.0, 0.1)}, 33.79, False),
        ({"depth": (0.0, 0.1)}, 34.01, False),
    ],
)
def test_the_drawings_tolerance_of_the_floor_holds(tolerances, floor, right):
    part = part_of([(-10, -13, 34, {"tolerances": tolerances})])
    assert (only(verdict(part, Moves().plunge(-13, floor))).state is State.MATCHES) is right


@pytest.mark.parametrize(
    ("tolerances", "width", "z", "state"),
    [
        ({"width": (0.0, 0.14)}, 3.1, -13.05, State.MATCHES),
        ({"width": (0.0, 0.14)}, 2.98, -12.99, State.WIDTH),
        ({"width": (0.0, 0.14)}, 3.15, -13.07, State.WIDTH),
        ({"z_near": (-0.1, 0.1)}, 3.0, -13.1, State.MATCHES),
        ({"z_near": (-0.1, 0.1)}, 3.0, -13.11, State.POSITION),
        ({"z_far": (0.0, 0.05)}, 3.0, -12.95, State.MATCHES),
        ({"z_far": (0.0, 0.05)}, 3.0, -13.01, State.POSITION),
    ],
)
def test_the_drawings_tolerances_of_width_and_walls_hold(tolerances, width, z, state):
    part = part_of([(-10, -13, 34, {"tolerances": tolerances})])
    assert only(verdict(part, Moves().plunge(z, 34), tool(width=width))).state is state


def test_the_shops_tolerance_is_used_where_the_drawing_has_none():
    part, moves = part_of([(-10, -13, 34)]), Moves().plunge(-13.04, 34)
    assert verdict(part, moves, tolerance=0.05).agree
    assert not verdict(part, moves, tolerance=0.02).agree


def test_thirds_of_an_inch_are_no_difference():
    part = part_of([(-1 / 3, -1 / 3 - 1 / 8, 1.3)], diameter=1.5, length=3, units="in")
    moves = Moves(2, 1, units="in").rapid(1.6, -0.4583).feed(1.3).rapid(1.6)
    found = judge(part, moves.run(), shop(tool(width=0.125, max_depth=0.5), units="in", stick_out=None))
    assert only(found).state is State.MATCHES


def test_a_tolerance_of_nothing_forgives_the_rounding_to_increments():
    part = part_of([(-10, -13, 33.9996, {"tolerances": {"floor_diameter": (0.0, 0.0)}})])
    assert verdict(part, Moves().plunge(-13, 34)).agree


def test_a_rib_left_standing_is_a_depth_with_its_place():
    found = verdict(part_of([(-10, -17, 34)]), Moves().plunge(-17, 34).plunge(-13, 34))
    assert only(found).state is State.DEPTH
    assert only(found).difference == {"z_near": 0.0, "z_far": 0.0, "floor_diameter": 6.0}
    (finding,) = found.findings
    assert finding.code == "floor-uneven"
    assert "a rib stands 6 too high on the diameter between Z-13 and Z-14" in finding.message


def test_a_rib_narrower_than_the_insert_s_corners_is_where_the_sentence_says():
    wide = tool(width=2.0, corner_radius=0.4)
    found = verdict(part_of([(-10, -14.3, 34)]), Moves().plunge(-12, 34).plunge(-14.3, 34), wide)
    (finding,) = [f for f in found.findings if f.code == "floor-uneven"]
    assert "a rib stands 6 too high on the diameter between Z-12 and Z-12.3" in finding.message


def test_a_floor_with_a_step_is_a_depth():
    found = verdict(part_of([(-10, -15, 34)]), Moves().plunge(-15, 34).plunge(-13, 34.1))
    assert only(found).state is State.DEPTH
    assert only(found).difference["floor_diameter"] == pytest.approx(0.1)
    assert "the floor has a step" in found.findings[0].message


def test_a_step_deeper_than_drawn_is_a_depth():
    found = verdict(part_of([(-10, -15, 34)]), Moves().plunge(-15, 34).plunge(-13, 33.9))
    assert (only(found).state, only(found).difference["floor_diameter"]) == (State.DEPTH, pytest.approx(-0.1))


def test_plunges_that_overlap_less_than_the_corner_radius_leave_a_ridge():
    """Ridge between two corners of radius r whose plunges overlap by v: r - sqrt(r^2 - (r - v/2)^2), doubled."""
    part = part_of([(-10, -15.9, 34)])
    found = verdict(part, Moves().plunge(-15.9, 34).plunge(-13, 34), tool(corner_radius=0.2))
    ridge = 2 * (0.2 - (0.2**2 - 0.15**2) ** 0.5)
    assert only(found).state is State.DEPTH
    assert only(found).difference["floor_diameter"] == pytest.approx(ridge, abs=0.004)
    pass_over = Moves().plunge(-15.9, 34).plunge(-13, 34).rapid(42, -13).feed(34).feed(None, -15.9)
    assert verdict(part, pass_over, tool(corner_radius=0.2)).agree


def test_a_mouth_cut_too_wide_is_a_width():
    moves = Moves().rapid(42, -13).feed(34).rapid(42).rapid(None, -14).feed(38).rapid(42)
    match = only(verdict(part_of([(-10, -13, 34)]), moves))
    assert (match.state, match.difference["z_far"]) == (State.WIDTH, -1.0)


def test_a_wall_that_leans_is_a_width():
    moves = Moves().rapid(42, -12.5).feed(34).feed(42, -13.0)
    assert only(verdict(part_of([(-10, -13, 34)]), moves, tool(width=2.5))).state is State.WIDTH


def test_land_cut_away_between_grooves_is_told():
    moves = Moves().rapid(42, -13).feed(34).feed(None, -15).feed(None, -18)
    found = verdict(part_of(row(2, -10, 5, 3, 34)), moves, tool(side_depth=9.0))
    assert {m.state for m in found.matches} == {State.WIDTH, State.MISSING}


def test_a_skimmed_land_is_a_stop_though_the_grooves_are_right():
    moves = Moves().rapid(42, -32).feed(39.5).feed(None, -8)
    for z in (-13, -18, -23):
        moves.plunge(z, 34)
    assert not verdict(part_of(row(3, -10, 5, 3, 34)), moves).agree


def test_a_relief_beside_a_shoulder():
    part = part_of([(-27, -30, 34, {"shape": "relief"})], steps=[(0, 40), (-30, 60)])
    assert verdict(part, Moves().plunge(-30, 34), tool(max_depth=15.0)).agree
    assert only(verdict(part, Moves().plunge(-30, 34.5), tool(max_depth=15.0))).state is State.DEPTH


def test_parting_off_behind_the_part_is_a_note():
    moves = Moves().plunge(-13, 34).rapid(42, -63).feed(-0.5).rapid(42)
    found = verdict(part_of([(-10, -13, 34)]), moves, tool(max_depth=25.0))
    assert found.agree
    assert [f.code for f in found.findings if f.level.value == "note"] == ["parts-off"]


def test_a_cut_behind_the_part_is_a_caution_as_parting_off_may_begin_so():
    found = verdict(part_of([(-10, -13, 34)]), Moves().plunge(-13, 34).plunge(-66, 18), tool(max_depth=25.0))
    assert found.agree
    behind = next(f for f in found.findings if f.code == "cuts-behind-part")
    assert behind.level.value == "caution"
    assert "cuts at Z-63 down to X18, behind the part's back face at Z-60" in behind.message
    astride = verdict(part_of([(-10, -13, 34)]), Moves().plunge(-13, 34).plunge(-62, 30))
    assert [m.state for m in astride.matches] == [State.MATCHES, State.EXTRA]


@pytest.mark.parametrize(("far", "behind"), [(-62.98, True), (-62.979, False)])
def test_a_cut_is_behind_the_part_if_it_takes_no_more_than_a_tolerance_off_the_back_face(far, behind):
    found = verdict(part_of([(-10, -13, 34)]), Moves().plunge(-13, 34).plunge(far, 18), tool(max_depth=25.0))
    assert found.agree is behind


def test_a_row_that_runs_off_the_part_is_extra_there_too():
    moves = Moves()
    for z in (-13, -23, -66):
        moves.rapid(42, z).feed(34, line=7).rapid(42)
    found = verdict(part_of([(-10, -13, 34), (-20, -23, 34)]), moves)
    assert [m.state for m in found.matches] == [State.MATCHES, State.MATCHES, State.EXTRA]


def test_an_inside_groove_without_a_tool_is_missing_and_with_one_is_measured():
    part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
    assert only(verdict(part, Moves())).state is State.MISSING
    bored = Moves(18, 5).rapid(18, -13).feed(26.1).rapid(18).rapid(None, 5)
    match = only(verdict(part, bored, tool(where="inside")))
    assert (match.state, match.difference["floor_diameter"]) == (State.DEPTH, pytest.approx(0.1))


def test_a_face_groove_is_measured_across():
    part = part_of([(0, -4, 24, {"where": "face", "mouth_diameter": 30.0})])
    moves = Moves(24, 5).rapid(24, 2).feed(None, -4).rapid(None, 2)
    found = verdict(part, moves, tool(where="face"))
    assert found.agree
    assert only(found).difference == {"mouth_diameter": 0.0, "floor_diameter": 0.0, "z_far": 0.0}
    shallow = Moves(24, 5).rapid(24, 2).feed(None, -3.9).rapid(None, 2)
    assert only(verdict(part, shallow, tool(where="face"))).state is State.DEPTH


def test_the_lands_may_be_a_bar_still():
    part = part_of([(-10, -13, 34)])
    assert judge(part, Moves(60, 5).plunge(-13, 34, 47).run(), shop(tool()), stock=45.0).agree
    low = judge(part, Moves(60, 5).plunge(-13, 34, 42).run(), shop(tool()), stock=45.0)
    assert "rapid-into-material" in {f.code for f in low.findings}


@pytest.mark.parametrize(
    ("steps", "bar", "left"), [(None, 40.15, 0), (None, 40.151, 1), ([(0, 30), (-25, 40)], 40.0, 1)]
)
def test_a_bar_that_nothing_turns_is_told_from_the_general_tolerance_on(steps, bar, left):
    """ISO 2768-1 f: 0.15 on 40 (from memory)."""
    part = part_of([(-30, -33, 34)], steps=steps)
    found = judge(part, Moves(60, 5).plunge(-33, 34, 47).run(), shop(tool()), stock=bar)
    assert found.agree
    assert [f.level.value for f in found.findings if f.code == "land-left"] == ["caution"] * left


OFF = st.integers(-400, 400)


@given(OFF, OFF, st.integers(1500, 3500))
def test_a_plunge_is_right_exactly_if_all_its_measures_are(z_off, floor_off, width):
    """The verdict over one groove against the plain arithmetic of its walls and floor."""
    moves = Moves().plunge(-13 + z_off / 1000, 34 + floor_off / 1000)
    match = only(verdict(part_of([(-10, -13, 34)]), moves, tool(width=width / 1000)))
    far, near = z_off, z_off + width - 3000
    shift = sorted((far, near, 0))[1]
    expected = (
        State.POSITION
        if abs(shift) > 20
        else State.WIDTH
        if abs(near - far) > 20
        else State.DEPTH
        if abs(floor_off) > 20
        else State.MATCHES
    )
    assert match.state is expected
