"""Recesses that no plain plunge makes: roughed, then followed with the insert's edge; held against their true lines."""

import random

import pytest
from support import dense_cut
from support.hollows import KINDS, drawn, true_line
from support.independent.parts import Corner
from support.recorder import run_of

from planner import parse_shop, plan_part
from planner.duration import Clock
from planner.increment import Increments
from planner.steps import Arc, Cut, GrooveCycle
from postproc import Heading, compare_program, dialects, interpret, judge, parse_program, run_seconds, write_program

HEADING = Heading("part.dxf", "0" * 64)


def shop(*tools, units="mm", machine=""):
    lines = [f'units = "{units}"', "[machine]", machine]
    for station, tool in enumerate(tools, start=1):
        lines += ["[[tools]]", f"station = {station}"]
        lines += [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in tool.items()]
    return parse_shop("\n".join(lines), "s", units)


def square(width=3.0, radius=0.2, **more):
    return {"width": width, "corner_radius": radius, "max_depth": 12.0, **more}


def rounded(width=8.0, deep=4.0, radius=1.0):
    return (
        Corner(0, 0),
        Corner(0, -deep, round=radius),
        Corner(-width, -deep, round=radius),
        Corner(-width, 0),
    )


LEANING = (Corner(0, 0), Corner(0, -3), Corner(-4, -3), Corner(-7, 0))


def planned(shape, the_shop, where="outside", tolerances=None, **more):
    """The plan of a drawn part, held against the simulation and, by brute force, against the true line."""
    runs = shape if isinstance(shape, list) else [shape]
    job = drawn(runs, 25.0, where=where, **more)
    part = job.part
    plan = plan_part(part, the_shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    verdict = judge(part, run_of(plan), the_shop)
    assert verdict.agree, (verdict.matches, verdict.findings)
    assert off_true(job, plan) <= the_shop.machine.tolerance
    return plan


def off_true(job, plan):
    """How far what is left lies off the true line; corners drawn sharp as the insert leaves them."""
    radius = max(o.tool.corner_radius if o.tool.edge == "square" else 0.0 for o in plan.operations)
    line = job.left_true(radius)
    z, left = dense_cut.left_by(plan, line, job.where)
    return dense_cut.off_by(z, left, line, job.where, dense_cut.GRID[job.units])


def cuts(plan):
    return [step for step in plan.operations[0].steps if isinstance(step, Cut | Arc)]


class TestRoundCorners:
    def test_wall_quarter_floor_then_the_other_wall(self):
        plan = planned(rounded(), shop(square()))
        # A corner of 1 with an insert of 0.2: the programmed point runs on 0.8 (offset of a circle). Z is the far edge.
        near, far = [step for step in cuts(plan) if isinstance(step, Arc)]
        assert near == Arc(feed=800, x=42_000, z=-11_800, radius=800, clockwise=True)
        assert far == Arc(feed=800, x=42_000, z=-15_200, radius=800, clockwise=False)
        assert cuts(plan)[0] == Cut(800, x=43_600)
        assert cuts(plan)[3] == Cut(800, x=43_600)

    def test_the_halves_meet_on_the_floor_with_a_lap(self):
        first, second = [
            step.z for step in cuts(planned(rounded(), shop(square()))) if isinstance(step, Cut) and step.z
        ]
        assert second - first >= 400, "twice the corner radius"

    def test_the_near_edge_as_reference(self):
        far, near = (planned(rounded(), shop(square(reference=edge))) for edge in ("far", "near"))
        places = [[s.z for s in cuts(plan) if s.z is not None] for plan in (far, near)]
        assert [b - a for a, b in zip(*places, strict=True)] == [3000] * len(places[0])

    def test_in_a_bore_arcs_turn_the_other_way(self):
        bar = square(2.0, where="inside", min_bore=10.0)
        first, second = [s for s in cuts(planned(rounded(), shop(bar), "inside")) if isinstance(s, Arc)]
        assert (first.clockwise, second.clockwise) == (False, True)
        assert first.x == 58_000

    def test_roughing_leaves_the_allowance(self):
        plan = planned(rounded(), shop(square(finish=0.2)))
        assert min(s.floor_x for s in plan.steps if isinstance(s, GrooveCycle)) == 42_000 + 400 + 1
        assert any("leave 0.200 mm for a finishing path" in why for why in plan.operations[0].why)

    def test_a_row_shares_its_roughing(self):
        plan = planned([rounded()] * 4, shop(square()))
        (operation,) = plan.operations
        assert operation.grooves == (1, 2, 3, 4)
        cycles = [s for s in operation.steps if isinstance(s, GrooveCycle)]
        assert len(cycles) == 3
        assert {s.shift for s in cycles} == {14_000}
        assert sum(isinstance(s, Arc) for s in operation.steps) == 8

    def test_like_corners_at_odd_places_share_the_path(self):
        plan = planned([rounded(), rounded(), rounded(width=8.003)], shop(square()))
        assert sorted(n for o in plan.operations for n in o.grooves) == [1, 2, 3]

    def test_no_room_to_move(self):
        plan = plan_part(drawn([rounded(width=4.0)], 25.0).part, shop(square()))
        (stop,) = [f for f in plan.findings if f.stops]
        assert stop.code == "corner-smaller"
        assert (
            "or take an insert 2.500 mm wide with a corner radius of 0.200 mm and a reach of 4.000 mm" in stop.message
        )
        planned(rounded(width=4.0), shop(square(2.5)))

    def test_a_corner_that_is_only_printed_is_cut_all_the_same(self):
        from support.parts import part_of

        part = part_of([(-10, -18, 34, {"corner_radius": 1.0})])
        plan = plan_part(part, shop(square()))
        assert [s.radius for s in cuts(plan) if isinstance(s, Arc)] == [800, 800]
        assert judge(part, run_of(plan), shop(square())).agree

    @pytest.mark.parametrize("radius", [0.2, 0.5])
    def test_plain_plunges_where_they_do(self, radius):
        assert not any(isinstance(s, Arc) for s in planned_plain(rounded(radius=radius), shop(square())).steps)

    def test_a_round_insert_follows_larger_corners(self):
        plan = planned(rounded(radius=1.5), shop({"width": 2.0, "edge": "round", "max_depth": 9.0}))
        assert {s.radius for s in cuts(plan) if isinstance(s, Arc)} == {500}

    @pytest.mark.parametrize("swapped", [False, True])
    def test_a_square_insert_is_rather_taken_than_a_round_one(self, swapped):
        """Both would follow corners of 1."""
        inserts = [square(), {"width": 2.0, "edge": "round", "max_depth": 9.0}]
        plan = planned(rounded(), shop(*(reversed(inserts) if swapped else inserts)))
        assert [o.tool.edge for o in plan.operations] == ["square"]


def planned_plain(shape, the_shop):
    plan = plan_part(drawn([shape], 25.0).part, the_shop)
    assert not plan.stopped
    return plan


class TestSlopes:
    def test_one_wall_upright_and_one_leaning(self):
        plan = planned(LEANING, shop(square(2.0)))
        assert not any(isinstance(s, Arc) for s in plan.steps)
        lowest = [s for s in cuts(plan) if s.x == 44_000]
        assert len(lowest) == 2, "each half comes down to the floor once"

    def test_a_corner_under_a_slope(self):
        shape = (Corner(0, 0), Corner(-2, -3, round=0.8), Corner(-7, -3, round=0.8), Corner(-9, 0))
        plan = planned(shape, shop(square(2.0)))
        assert {s.radius for s in cuts(plan) if isinstance(s, Arc)} <= set(range(595, 606))

    def test_flat_slopes_are_roughed_in_steps(self):
        shape = (Corner(0, 0), Corner(-5, -3), Corner(-9, -3), Corner(-14, 0))
        plan = planned(shape, shop(square(2.0)))
        floors = [s.floor_x for s in plan.steps if isinstance(s, GrooveCycle)]
        assert len(set(floors)) > 4
        assert not [f for f in judged(shape, plan, shop(square(2.0))).findings if "sideways" in f.code]

    def test_a_rim(self):
        shape = (
            Corner(0, 0, round=0.5),
            Corner(-2, -3, round=0.8),
            Corner(-7, -3, round=0.8),
            Corner(-9, 0, round=0.5),
        )
        planned(shape, shop(square(2.0)))

    def test_a_floor_that_falls_needs_a_narrow_edge(self):
        shape = (Corner(0, 0), Corner(0, -3), Corner(-5, -3.3), Corner(-5, 0))
        plan = plan_part(drawn([shape], 25.0).part, shop(square(2.0)))
        assert {f.code for f in plan.findings if f.stops} == {"recess-not-planned"}
        gentle = (Corner(0, 0), Corner(0, -3), Corner(-5, -3.03), Corner(-5, 0))
        planned(gentle, shop(square(1.0)))


def judged(shape, plan, the_shop):
    return judge(drawn([shape], 25.0).part, run_of(plan), the_shop)


class TestForms:
    def test_a_round_recess_with_a_smaller_round_insert(self):
        arc = (Corner(0, 0, bulge=-2 * 2.0 / 8.0), Corner(-8, 0))
        plan = planned(arc, shop({"width": 3.0, "edge": "round", "max_depth": 9.0}))
        # Radius 5 (chord 8, rise 2) with an insert of radius 1.5: the programmed point runs on 3.5.
        assert {s.radius for s in cuts(plan) if isinstance(s, Arc)} <= {3499, 3500, 3501}

    def test_a_square_insert_needs_a_flat_that_does_not_show(self):
        arc = (Corner(0, 0, bulge=-2 * 2.0 / 8.0), Corner(-8, 0))
        plan = plan_part(drawn([arc], 25.0).part, shop(square(2.0)))
        (stop,) = [f for f in plan.findings if f.stops]
        assert stop.code == "recess-not-planned"
        assert "a round insert of radius 5.000" in stop.message
        assert "or take an insert 0.500 mm wide" in stop.message
        planned(arc, shop(square(0.5)))

    def test_a_blunt_vee(self):
        vee = (Corner(0, 0), Corner(-3, -3, round=1.5), Corner(-6, 0))
        plan = planned(vee, shop({"width": 1.5, "edge": "round", "max_depth": 9.0}))
        assert {s.radius for s in cuts(plan) if isinstance(s, Arc)} <= set(range(745, 756))

    def test_a_pointed_vee_stays_refused(self):
        vee = (Corner(0, 0), Corner(-3, -3), Corner(-6, 0))
        plan = plan_part(drawn([vee], 25.0).part, shop(square(0.5, 0.0)))
        (stop,) = [f for f in plan.findings if f.stops]
        assert stop.code == "recess-not-planned"
        assert "finishing path" not in stop.message

    def test_the_form_insert_comes_first(self):
        arc = (Corner(0, 0, bulge=-2 * 2.0 / 8.0), Corner(-8, 0))
        both = shop(
            {"width": 3.0, "edge": "round", "max_depth": 9.0}, {"width": 10.0, "edge": "round", "max_depth": 9.0}
        )
        plan = planned(arc, both)
        assert [o.tool.station for o in plan.operations] == [2]
        assert not any(isinstance(s, Arc) for s in plan.steps)


class TestWhole:
    def test_every_dialect_writes_reads_and_times_it(self):
        the_shop = shop(square(2.0), machine="stick_out = 200\nrapid_rate = 8000")
        part = drawn([rounded(), LEANING, rounded()], 25.0).part
        plan = plan_part(part, the_shop)
        for dialect in dialects().values():
            text = write_program(plan, dialect, HEADING).text
            verdict = compare_program(part, text, the_shop, dialect)
            assert verdict.agree, (dialect.name, verdict)
            if dialect.cycle is None or dialect.cycle.retract is not None:
                run = interpret(parse_program(text), dialect, part.units)
                assert run_seconds(run, the_shop.machine) == pytest.approx(plan.seconds, rel=1e-4)

    def test_the_reason_is_given(self):
        why = " ".join(planned(rounded(), shop(square())).operations[0].why)
        assert "No plain plunge leaves it as drawn: 3 plunges over the floor leave 0.100 mm for a finishing path" in why
        assert "follows the drawn line with 2 arcs, offset for its corner radius" in why

    def test_the_drawing_s_tolerances_are_aimed_at(self):
        from dataclasses import replace

        part = drawn([rounded()], 25.0).part
        limits = {"width": (0.0, 0.2), "floor_diameter": (-0.1, 0.0)}
        part = replace(part, grooves=(replace(part.grooves[0], tolerances=limits),))
        plan = plan_part(part, shop(square()))
        first, second = [s for s in cuts(plan) if isinstance(s, Arc)]
        assert first.x == second.x == 41_950
        assert first.z - second.z == 8100 - 3000 - 2 * 800
        assert judge(part, run_of(plan), shop(square())).agree

    def test_the_path_is_never_fed_uphill(self):
        for shape in (rounded(), LEANING):
            x = None
            for step in planned(shape, shop(square(2.0))).operations[0].steps:
                if isinstance(step, Cut | Arc):
                    assert x is None or step.x is None or step.x <= x
                    x = step.x if step.x is not None else x
                else:
                    x = None

    def test_its_time_counts_every_chord(self):
        plan = planned(rounded(), shop(square()))
        clock = Clock(Increments.of("mm"), shop(square()).machine)
        assert clock.run(plan.steps) == pytest.approx(plan.seconds)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("seed", range(2))
def test_what_is_planned_is_the_true_line(kind, seed):
    rng = random.Random(f"{kind} {seed}")
    where, units = rng.choice(["outside", "outside", "inside"]), rng.choice(["mm", "in"])
    scale = 1.0 if units == "mm" else 1 / 25.4
    job = drawn([KINDS[kind](rng)], 25.0, units, where)
    tools = [
        {"width": w * scale, "corner_radius": r * scale, "max_depth": 20 * scale, "where": where, "reference": edge}
        for w, r, edge in [(1.0, 0.1, "near"), (2.0, 0.4, "far"), (0.5, 0.2, "far")]
    ]
    tools.append({"width": 1.2 * scale, "edge": "round", "max_depth": 20 * scale, "where": where})
    the_shop = shop(*tools, units=units)
    plan = plan_part(job.part, the_shop)
    if plan.stopped:
        assert {f.code for f in plan.findings if f.stops} == {"recess-not-planned"}
        assert kind in ("lopsided", "tapered", "blunt_vee"), "the others take a round or a narrow insert"
        return
    verdict = judge(job.part, run_of(plan), the_shop)
    assert verdict.agree, (verdict.matches, verdict.findings)
    if any(o for o in plan.operations if any("finishing path" in why for why in o.why)):
        assert off_true(job, plan) <= 0.8 * the_shop.machine.tolerance
    assert len(true_line(job.line)) > 4


@pytest.mark.parametrize("from_front", [True, False])
@pytest.mark.parametrize(("land", "width"), [(0.4, 0.5), (0.3, 1.0), (1.0, 1.0)])
def test_round_corners_beside_an_end_face_are_followed(from_front, land, width):
    """Beyond the end face there is nothing to mind: a land narrower than the insert is no obstacle."""
    shape = rounded(3.4, 2.3, 0.8)
    more = {"first": -land} if from_front else {"behind": land}
    plan = planned(shape, shop(square(width, 0.0)), **more)
    assert any(isinstance(step, Arc) for step in cuts(plan))
