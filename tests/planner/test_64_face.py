"""Face grooves in full: finishing, dwell, slow ends, chamfers, tolerances of walls, what the insert's body meets."""

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from support.parts import part_of
from support.recorder import run_of

from planner import parse_shop, plan_part
from planner.fit import highest_beside
from planner.steps import Cut, Dwell, Rapid
from postproc import Heading, compare_program, dialects, interpret, judge, parse_program, run_seconds, write_program

TOOL = {"width": 3.0, "where": "face", "max_depth": 12.0, "corner_radius": 0.2, "reference": "near", "peck": 1.0}


def shop(units="mm", machine="", **more):
    lines = [f'units = "{units}"', "[machine]", machine, "[[tools]]", "station = 5"]
    lines += [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in (TOOL | more).items()]
    return parse_shop("\n".join(lines), "s", units)


def face(outer=50.0, inner=34.0, deep=4.0, steps=((0, 60),), at=0.0, **more):
    return part_of([(at, at - deep, inner, {"where": "face", "mouth_diameter": outer, **more})], steps=list(steps))


def planned(part, the_shop):
    """The plan, held against the simulation."""
    plan = plan_part(part, the_shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    verdict = judge(part, run_of(plan), the_shop)
    assert verdict.agree, ([m for m in verdict.matches if m.state != "matches"], verdict.findings)
    return plan


def steps_of(plan):
    (operation,) = plan.operations
    return operation.steps


class TestFinishing:
    def test_wall_floor_wall(self):
        steps = steps_of(planned(face(), shop(finish=0.1)))
        first = steps.index(Rapid(x=50_000))
        assert steps[first:] == (
            Rapid(x=50_000),
            Cut(800, z=-4000),
            Cut(800, x=40_200),
            Rapid(z=1000),
            Rapid(x=40_000),
            Cut(800, z=-4000),
            Cut(800, x=41_000),
            Rapid(z=100_000),
        )
        assert min(s.z for s in steps[:first] if isinstance(s, Cut)) == -3900

    def test_the_roughing_keeps_off_both_walls(self):
        steps = steps_of(planned(face(), shop(finish=0.1)))
        rough = steps[: steps.index(Rapid(x=50_000))]
        places = [s.x for s in rough if isinstance(s, Rapid) and s.x is not None]
        assert (places[0], places[-1]) == (49_800, 40_200)
        assert all(abs(a - b) / 2 <= 0.8 * 3000 for a, b in pairwise(places))

    def test_a_groove_as_wide_as_the_insert_has_none(self):
        assert (
            len({s.x for s in steps_of(planned(face(outer=40), shop(finish=0.1))) if isinstance(s, Rapid)} - {None})
            == 1
        )

    def test_a_groove_hardly_wider_is_roughed_in_its_middle(self):
        steps = steps_of(planned(face(outer=40.2), shop(finish=0.1)))
        assert steps[0] == Rapid(x=40_100)

    def test_it_is_told(self):
        (operation,) = planned(face(), shop(finish=0.1)).operations
        assert "0.100 mm is left on walls and floor for a pass over wall, floor and wall." in operation.why


class TestTheEndOfAPlunge:
    def test_a_dwell_at_a_toleranced_floor(self):
        plan = planned(face(outer=40, tolerances={"depth": (0.0, 0.1)}), shop(dwell=2))
        (pause,) = [s for s in steps_of(plan) if isinstance(s, Dwell)]
        # Two turns at 90 m/min with X on 40: 60 * 2 / n seconds, n = 1000 vc / (pi D); handbook formulas.
        assert pause.milliseconds == pytest.approx(60_000 * 2 / (90_000 / (3.14159265 * 40)), abs=1)
        assert steps_of(plan)[steps_of(plan).index(pause) - 1] == Cut(800, z=-4050)

    def test_none_where_the_drawing_doesn_t_ask(self):
        assert not any(isinstance(s, Dwell) for s in steps_of(planned(face(outer=40), shop(dwell=2))))

    def test_the_last_of_a_deep_one_goes_slower(self):
        plan = planned(face(outer=40, deep=10), shop(last_feed=0.5))
        last = [s for s in steps_of(plan) if isinstance(s, Cut)][-4:]
        assert last == [Cut(800, z=-7000), *(Cut(400, z=z) for z in (-8000, -9000, -10_000))], "its pecks go on"
        assert any("the last 3.000 mm go at 50 % of the feed" in why for why in plan.operations[0].why)
        shallow = planned(face(outer=40, deep=4), shop(last_feed=0.5))
        assert {s.feed for s in steps_of(shallow) if isinstance(s, Cut)} == {800}


class TestWalls:
    def test_both_are_aimed_at_the_middle(self):
        part = face(outer=40, tolerances={"mouth_diameter": (0.0, 0.2), "floor_diameter": (-0.3, -0.1)})
        (operation,) = planned(part, shop()).operations
        edges = [s.x for s in operation.steps if isinstance(s, Rapid) and s.x is not None]
        assert (edges[0], edges[-1]) == (40_100, 33_800 + 6000)
        assert any("The outer wall is aimed at 40.100" in why for why in operation.why)
        assert any("The inner wall is aimed at 33.800" in why for why in operation.why)

    def test_an_insert_within_what_both_allow_is_one_plunge(self):
        part = face(outer=40.1, tolerances={"mouth_diameter": (-0.2, 0.2), "floor_diameter": (-0.2, 0.2)})
        assert len({s.x for s in steps_of(planned(part, shop())) if isinstance(s, Rapid)} - {None}) == 1

    def test_an_inner_wall_with_a_tolerance_alone(self):
        # As an end view gives it: one diameter with its deviations.
        planned(face(tolerances={"floor_diameter": (-0.25, 0.0)}), shop())


class TestTheBodyOfTheInsert:
    def test_ribs_only_where_every_plunge_into_solid_is_allowed(self):
        for low, high, first in ((35, 60, 50_000), (35, 45, 40_000), (45, 60, 50_000)):
            steps = steps_of(planned(face(), shop(face_min=low, face_max=high)))
            places = [s.x for s in steps if isinstance(s, Rapid) and s.x is not None]
            assert places[0] == first
            if (low, high) == (35, 60):
                assert places == [50_000, 40_000, 45_000]
            else:
                assert places == sorted(places, reverse=first == 50_000)

    def test_a_hub_in_front_of_the_face_asks_for_reach(self):
        # A hub 32 across stands 10 in front of the face, 1 from the groove's inner wall; the holder is 2 wider.
        part = face(steps=[(0, 32), (-10, 60)], at=-10.0)
        (stop,) = [f for f in plan_part(part, shop()).findings if f.stops]
        assert stop.code == "groove-too-deep"
        assert "14.000 mm deep, measured from the higher land beside it" in stop.message
        planned(part, shop(max_depth=14.0))
        planned(part, shop(holder_far=0.5))

    def test_the_reach_past_a_bore_is_that_of_the_face(self):
        part = part_of([(0, -4, 34, {"where": "face", "mouth_diameter": 40})], steps=[(0, 60)], bore=20)
        tool = shop().tools[0]
        assert highest_beside(part.grooves[0], tool, part) - part.grooves[0].floor == 4.0

    def test_cautions(self):
        codes = {f.code for f in planned(face(outer=40, deep=12), shop(width=2.0, peck=0)).findings}
        assert {"face-curve-unchecked", "deep-and-narrow", "corner-sharp-as-drawn"} <= codes


class TestFromGrooveToGroove:
    def part(self, **more):
        spots = [(0, -4, inner, {"where": "face", "mouth_diameter": inner + 6}) for inner in (30, 50)]
        return part_of(spots, steps=[(0, 80)])

    def test_along_x_in_front_of_the_face(self):
        first, second = planned(self.part(), shop()).operations
        assert first.steps[-1] == Rapid(z=1000)
        assert second.steps[0] == Rapid(x=second.start_x)

    def test_over_a_hub_to_a_shoulder(self):
        # One groove in the hub's face, one in the shoulder 8 behind it: out in front of the hub, then over, then in.
        spots = [(z, z - 4, inner, {"where": "face", "mouth_diameter": inner + 6}) for z, inner in ((0, 12), (-8, 44))]
        part = part_of(spots, steps=[(0, 30), (-8, 80)])
        first, second = planned(part, shop()).operations
        assert first.steps[-1] == Rapid(z=1000)
        assert second.steps[:2] == (Rapid(x=50_000), Rapid(z=-7000))


class TestChamfers:
    def part(self, **more):
        return face(edge_chamfer=0.5, bevelled=(True, True), **more)

    def test_both_are_cut_with_the_insert_s_corners(self):
        steps = steps_of(planned(self.part(), shop(corner_radius=0.0)))
        # 0.5 and 1 of clearance outside either wall, then at 45 degrees down to 0.5 below the face at the wall.
        assert steps[-6:] == (
            Rapid(x=53_000),
            Cut(800, x=50_000, z=-500),
            Rapid(z=1000),
            Rapid(x=37_000),
            Cut(800, x=40_000, z=-500),
            Rapid(z=100_000),
        )

    def test_a_round_corner_goes_farther(self):
        (down,) = [s for s in steps_of(planned(self.part(), shop())) if isinstance(s, Cut) and s.x == 50_000]
        assert down.z == -(500 + 118)  # 0.2 times (2 - sqrt 2), geometry of a tangent arc

    def test_only_those_that_are_known(self):
        plan = planned(face(edge_chamfer=0.5, bevelled=(True, False)), shop())
        assert sum(isinstance(s, Cut) and s.x is not None for s in steps_of(plan)) == 1
        assert "chamfer-not-cut" in {f.code for f in plan.findings}

    def test_none_beside_a_hub(self):
        plan = planned(self.part(steps=[(0, 32), (-10, 60)], at=-10.0), shop(max_depth=20.0))
        assert sum(isinstance(s, Cut) and s.x is not None for s in steps_of(plan)) == 1
        assert "chamfer-not-cut" in {f.code for f in plan.findings}


@st.composite
def jobs(draw):
    """A face groove of any size in a shop with any face insert."""
    inner = draw(st.integers(8, 60))
    slot, deep = draw(st.sampled_from([2.0, 2.4, 3.0, 3.05, 4.5, 9.0, 14.3])), draw(st.sampled_from([1.0, 3.0, 7.5]))
    names = {"mouth_diameter": (-0.1, 0.1), "floor_diameter": (-0.2, 0.0), "depth": (0.0, 0.1), "z_far": (-0.05, 0.05)}
    some = draw(st.lists(st.sampled_from(sorted(names)), max_size=2, unique=True))
    more = {"tolerances": {name: names[name] for name in some}}
    if draw(st.booleans()):
        more |= {"edge_chamfer": 0.4, "bevelled": (draw(st.booleans()), draw(st.booleans()))}
    hub = draw(st.sampled_from([None, 0.5, 4.0]))
    steps, at = ([(0, inner - 2 * hub), (-5, 120)], -5.0) if hub else ([(0, 120)], 0.0)
    part = face(inner + 2 * slot, inner, deep, steps=steps, at=at, **more)
    words = {
        "width": draw(st.sampled_from([2.0, 3.0])),
        "reference": draw(st.sampled_from(["near", "far"])),
        "peck": draw(st.sampled_from([0.0, 0.7])),
        "finish": draw(st.sampled_from([0.0, 0.1])),
        "dwell": draw(st.sampled_from([0, 2])),
        "last_feed": draw(st.sampled_from([1.0, 0.5])),
        "corner_radius": draw(st.sampled_from([0.0, 0.2])),
        "face_min": draw(st.sampled_from([0.0, 20.0])),
        "face_max": draw(st.sampled_from([0.0, 60.0])),
    }
    return part, shop(**words)


# The sheet's deviations of the inner wall pull the cut's outer one to 19.95, where the insert may not begin.
@example(
    (
        face(20.0, 16.0, 3.0, tolerances={"mouth_diameter": (-0.1, 0.1), "floor_diameter": (-0.2, 0.0)}),
        shop(width=2.0, face_min=20.0),
    )
)
@settings(max_examples=50, deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_any_face_groove_is_cut_right_or_refused(job):
    part, the_shop = job
    plan = plan_part(part, the_shop)
    if plan.stopped:
        assert {f.code for f in plan.findings if f.stops} <= {"groove-too-deep", "groove-too-narrow", "face-curve"}
        return
    verdict = judge(part, run_of(plan), the_shop)
    assert verdict.agree, ([m for m in verdict.matches if m.state != "matches"], verdict.findings)
    assert not [f for f in verdict.findings if f.stops]
    _body(part.grooves[0], the_shop.tools[0], plan)


def _body(groove, tool, plan):
    """Every plunge into metal on both sides lies between the insert's limits; X moves only in front of the part."""
    cleared, x, z = [], None, None
    for step in plan.steps:
        if isinstance(step, Rapid | Cut):
            before, x, z = z, x if step.x is None else step.x, z if step.z is None else step.z
            if isinstance(step, Rapid) and step.x is not None and before is not None:
                assert before >= 1000 * groove.z_near, "along X only in front of the face"
            if isinstance(step, Cut) and step.x is None and 1000 * groove.z_near > z:
                outer = x + (0 if tool.reference == "near" else 2000 * tool.width)
                inner = outer - 2000 * tool.width
                beside = any(low <= outer <= high or low <= inner <= high for low, high in cleared)
                limit = tool.face_max or 1000
                assert beside or 1000 * tool.face_min - 1 <= outer <= 1000 * limit + 1
                cleared.append((inner, outer))


@pytest.mark.parametrize("name", dialects())
def test_the_program_reads_back_and_takes_as_long_as_planned(name):
    dialect = dialects()[name]
    part = face(edge_chamfer=0.4, bevelled=(True, True), tolerances={"depth": (0.0, 0.1)})
    for the_shop in (shop(finish=0.1), shop(dwell=2, machine="max_rpm = 600")):
        plan = plan_part(part, the_shop, cycles=dialect.cycles)
        text = write_program(plan, dialect, Heading("part.dxf", "0" * 64)).text
        assert compare_program(part, text, the_shop, dialect).agree
        run = interpret(parse_program(text), dialect, "mm")
        assert run_seconds(run, the_shop.machine) == pytest.approx(plan.seconds, rel=0.02)


def test_one_caution_of_a_kind_whatever_the_faces():
    spots = [
        (0.0, -deep, inner, {"where": "face", "mouth_diameter": inner + 8.0}) for inner, deep in ((30, 9), (50, 8.5))
    ]
    text = 'units = "mm"\n[machine]\nstick_out = 40\ntailstock = 6\n[material]\nname = "C45"\n[[tools]]\nstation = 5\n'
    tool = 'where = "face"\nwidth = 2.0\ncorner_radius = 0.2\nmax_depth = 12\n'
    plan = plan_part(part_of(spots, diameter=80), parse_shop(text + tool, "s", "mm"))
    told = [f for f in plan.findings if f.groove and f.level == "caution"]
    assert [str(f.code) for f in told] == ["face-curve-unchecked", "tailstock", "deep-and-narrow"]
    # Grooves are numbered from the front and the outer wall in; 9 deep in 2 wide is 4.5 times.
    assert "9.000 mm deep is 4.5 times" in told[2].message
    assert told[2].message.endswith("by no more.")
    assert all(f.message.startswith("Grooves 1 and 2: ") for f in told[:2])
