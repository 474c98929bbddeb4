"""Programs that follow a recess with the insert's edge: right ones pass, and each way of being wrong is told."""

from dataclasses import replace
from functools import cache

import pytest
from support.hollows import drawn
from support.independent.parts import Corner
from support.recorder import run_of

from planner import parse_shop, plan_part
from planner.cuts.ground import ground_of
from planner.increment import Increments
from planner.steps import Arc, Cut, GrooveCycle, Rapid
from postproc import judge
from postproc.judging.line import DrawnLine
from postproc.verdict import State


def shop(width=2.0, **more):
    lines = ["[[tools]]", "station = 3", f"width = {width}", "max_depth = 12.0"]
    corners = {} if more.get("edge") == "round" else {"corner_radius": 0.2}
    lines += [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in (corners | more).items()]
    return parse_shop('units = "mm"\n' + "\n".join(lines), "s", "mm")


SHAPES = {
    "round corners": (
        Corner(0, 0),
        Corner(0, -4, round=1.0),
        Corner(-8, -4, round=1.0),
        Corner(-8, 0),
    ),
    "leaning": (Corner(0, 0), Corner(0, -3), Corner(-4, -3), Corner(-7, 0)),
    "tapered": (Corner(0, 0), Corner(-3, -3, round=0.8), Corner(-8, -3, round=0.8), Corner(-11, 0)),
    "round": (Corner(0, 0, bulge=-0.5), Corner(-8, 0)),
}
ROUND = {"round"}


@cache
def job(name, where="outside"):
    part = drawn([SHAPES[name]], 25.0, where=where).part
    bore = {"where": "inside", "min_bore": 10.0} if where == "inside" else {}
    the_shop = shop(edge="round", **bore) if name in ROUND else shop(**bore)
    return part, the_shop, plan_part(part, the_shop)


def verdict_of(part, the_shop, plan, steps=None):
    if steps is not None:
        plan = replace(plan, operations=(replace(plan.operations[0], steps=tuple(steps)),))
    return judge(part, run_of(plan), the_shop)


def shifted(step, x=0, z=0):
    """A cut somewhere else; an axis that it doesn't name stays unnamed."""
    if not isinstance(step, Cut | Arc):
        return step
    return replace(
        step,
        x=None if step.x is None else step.x + x,
        z=None if step.z is None else step.z + z,
    )


@pytest.mark.parametrize("where", ["outside", "inside"])
@pytest.mark.parametrize("name", SHAPES)
class TestEach:
    def test_right_as_planned(self, name, where):
        part, the_shop, plan = job(name, where)
        assert verdict_of(part, the_shop, plan).agree

    def test_too_deep(self, name, where):
        part, the_shop, plan = job(name, where)
        deeper = -200 if where == "outside" else 200
        wrong = verdict_of(part, the_shop, plan, [shifted(s, x=deeper) for s in plan.operations[0].steps])
        assert not wrong.agree
        assert wrong.matches[0].state in (State.DEPTH, State.WIDTH), "a slope cut deeper is wider too"

    def test_not_deep_enough(self, name, where):
        part, the_shop, plan = job(name, where)
        higher = 200 if where == "outside" else -200
        assert not verdict_of(part, the_shop, plan, [shifted(s, x=higher) for s in plan.operations[0].steps]).agree

    def test_roughing_alone(self, name, where):
        part, the_shop, plan = job(name, where)
        steps = [s for s in plan.operations[0].steps if not isinstance(s, Cut | Arc)]
        assert not verdict_of(part, the_shop, plan, steps).agree

    @pytest.mark.parametrize("half", [0, 1])
    def test_one_half_left_out(self, name, where, half):
        part, the_shop, plan = job(name, where)
        assert not verdict_of(part, the_shop, plan, without_half(plan.operations[0].steps, half)).agree

    def test_one_half_elsewhere(self, name, where):
        part, the_shop, plan = job(name, where)
        steps = list(plan.operations[0].steps)
        last = max(k for k, s in enumerate(steps) if isinstance(s, Rapid) and s.z is not None)
        steps[last] = replace(steps[last], z=steps[last].z + 100)
        moved = [*steps[: last + 1], *(shifted(s, z=100) for s in steps[last + 1 :])]
        assert not verdict_of(part, the_shop, plan, moved).agree


def without_half(steps, half):
    """The steps without the finishing path's first or second half; rapids stay."""
    last = max(k for k, s in enumerate(steps) if isinstance(s, GrooveCycle))
    left, number = list(steps[: last + 1]), -1
    for step in steps[last + 1 :]:
        number += isinstance(step, Rapid) and step.z is not None
        if number != half or isinstance(step, Rapid):
            left.append(step)
    return left


@pytest.mark.parametrize(("name", "factor"), [("round corners", 1.4), ("round", 1.4), ("tapered", 3.0)])
def test_a_wrong_radius_is_told(name, factor):
    # The arc under a slope of 45 degrees is short: a radius half as large again moves it less than the tolerance.
    part, the_shop, plan = job(name)
    steps = [replace(s, radius=round(s.radius * factor)) if isinstance(s, Arc) else s for s in plan.operations[0].steps]
    assert not verdict_of(part, the_shop, plan, steps).agree


def test_an_arc_run_the_other_way_is_told():
    part, the_shop, plan = job("round corners")
    steps = [replace(s, clockwise=not s.clockwise) if isinstance(s, Arc) else s for s in plan.operations[0].steps]
    assert not verdict_of(part, the_shop, plan, steps).agree


@pytest.mark.parametrize(
    ("radius", "side"),
    [(0.6, "metal is gone that should be left"), (1.15, "metal is left that should be gone")],
)
def test_round_corners_of_another_radius_are_told_by_their_form(radius, side):
    part, the_shop, _ = job("round corners")
    other = drawn([tuple(replace(c, round=c.round and radius) for c in SHAPES["round corners"])], 25.0).part
    verdict = verdict_of(part, the_shop, plan_part(other, the_shop))
    assert {f.code for f in verdict.findings if f.stops} == {"form"}
    (message,) = [f.message for f in verdict.findings if f.stops]
    assert "has corners drawn 1 round" in message
    assert message.endswith(f"on the diameter: {side}.")


def test_an_insert_of_another_corner_radius_is_told():
    part, _, plan = job("tapered")
    assert not judge(part, run_of(plan), shop(corner_radius=0.5)).agree


def test_plain_plunges_in_round_corners_stay_a_note():
    part, the_shop, _ = job("round corners")
    plain = drawn([tuple(replace(c, round=0.0) for c in SHAPES["round corners"])], 25.0).part
    verdict = verdict_of(part, the_shop, plan_part(plain, the_shop))
    assert verdict.agree
    assert "corner-sharper" in {f.code for f in verdict.findings}


class TestLine:
    def line(self):
        part = drawn([SHAPES["leaning"]], 25.0).part
        return DrawnLine.of(part.grooves[0], ground_of(part, part.grooves[0]), Increments.of("mm"), 1.0)

    def test_heights_between_two_places(self):
        line = self.line()
        assert line.range(-11_000, -10_000) == pytest.approx((44_000, 44_000))
        assert line.range(-8_000, -8_000) == pytest.approx((44_000, 50_000)), "a wall is all its heights"

    def test_corners_filled(self):
        filled = self.line().filled(200)
        # At the foot of an upright wall an arc of 0.2 stands as high as its radius, 0.4 on the diameter.
        assert filled.range(-8_001, -8_001)[1] == pytest.approx(44_000 + 2 * (200 - 200 * (1 - 0.995**2) ** 0.5), abs=8)
        assert filled.range(-10_000, -9_000) == pytest.approx((44_000, 44_000))
        assert filled.range(-7_000, -7_000) == pytest.approx((50_000, 50_000))

    def test_moved_by_what_the_drawing_allows(self):
        moved = self.line().moved((-50.0, 30.0), -100.0, 50_000.0)
        assert moved.range(-10_000, -9_000) == pytest.approx((43_900, 43_900))
        assert moved.range(-7_970, -7_970)[1] == pytest.approx(50_000)
        assert moved.range(-16_000, -16_000)[1] == pytest.approx(50_000)


@pytest.mark.parametrize(("by", "agree"), [(16, True), (24, False)])
def test_halves_that_lie_one_low_and_one_high_are_each_held_to_the_drawn_line(by, agree):
    """0.032 apart, corners over the lower floor are off by more than 0.02; from the line drawn each is 0.016 off."""
    part, the_shop, plan = job("round corners")
    steps = list(plan.operations[0].steps)
    last = max(k for k, s in enumerate(steps) if isinstance(s, GrooveCycle))
    second = max(k for k, s in enumerate(steps) if isinstance(s, Rapid) and s.z is not None)
    moved = [shifted(s, x=by if k >= second else -by) if k > last else s for k, s in enumerate(steps)]
    assert verdict_of(part, the_shop, plan, moved).agree is agree
