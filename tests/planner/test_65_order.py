"""The order of operations against a checker of its own, which sees the part and the finished plan alone.

It tries every order of the operations: as few tool changes as any that no groove's neighbours forbid.
"""

from itertools import pairwise, permutations

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from support.parts import part_of, row
from support.rapids import needless_rapids

from planner import parse_shop, plan_part
from planner.order import in_order

SHOP = parse_shop(
    'units="mm"\n[machine]\nstick_out=400\n'
    "[[tools]]\nstation=1\nwidth=1\ncorner_radius=0.2\nmax_depth=30\n"
    "[[tools]]\nstation=2\nwidth=3\nmax_depth=30\n"
    '[[tools]]\nstation=3\nwidth=2\nmax_depth=8\nwhere="inside"\nmin_bore=10\n',
    "s",
    "mm",
)
# A groove 3 wide asks for T0202: the narrow insert would need five plunges.


@st.composite
def crowded(draw):
    """Grooves of two widths and many depths with lands of any thickness between, on a bar or on steps; some inside."""
    steps = [(0.0, 40.0), *draw(st.sampled_from([[], [(-25.0, 44.0)], [(-15.0, 48.0), (-40.0, 36.0)]]))]
    place, spots = -draw(st.integers(1, 6)), []
    kinds = draw(st.lists(st.tuples(st.sampled_from([1, 3]), st.integers(1, 14)), min_size=1, max_size=4))
    for _ in range(draw(st.integers(2, 9))):
        width, depth = draw(st.sampled_from(kinds))
        if not any(place - width < z < place for z, _ in steps):
            beside = [d for z, d in steps if z > place][-1:] + [d for z, d in steps if z >= place - width][-1:]
            spots.append((place, place - width, min(beside) - 2 * depth))
        place -= width + draw(st.sampled_from([1, 2, 3, 5, 9]))
    assume(spots)
    bore = draw(st.sampled_from([None, None, 12.0]))
    if bore:
        spots = [spot for spot in spots if spot[2] > bore + 4]
        assume(spots)
        spots.append((-12, -14, bore + 2, {"where": "inside"}))
    return part_of(spots, steps=steps, length=40 - place, bore=bore)


def left(groove, part):
    hole = 2 * max((r for _, r in part.bore or ()), default=0.0)
    return (groove.floor_diameter - hole) / (groove.mouth_diameter - hole)


def weak(operation, part):
    grooves = [part.grooves[n - 1] for n in operation.grooves]
    return any(g.where == "outside" and left(g, part) < 0.5 for g in grooves)


def asked(part):
    """Pairs of grooves: the first must come before the second."""
    for where, sign in (("outside", 1), ("inside", -1)):
        own = [g for g in part.grooves if g.where == where]
        for one, two in pairwise(own):
            land = min(sign * one.far_land_diameter, sign * two.near_land_diameter)
            deep = {g.id: (land - sign * g.floor_diameter) / 2 for g in (one, two)}
            first, then = sorted(deep, key=deep.__getitem__)
            if one.z_far - two.z_near < deep[then] / 2 and deep[first] < 0.8 * deep[then]:
                yield first, then
    for neck in (g for g in part.grooves if g.where == "outside" and left(g, part) < 0.5):
        for other in part.grooves:
            solid = other.where == "inside" or left(other, part) >= 0.5
            if solid and other.z_near > neck.z_near:
                yield other.id, neck.id


def met(operations, pairs):
    turn = {n: k for k, operation in enumerate(operations) for n in operation.grooves}
    return all(turn[first] <= turn[then] for first, then in pairs)


def changes(operations):
    return sum(a.tool != b.tool for a, b in pairwise(operations))


def weak_last(operations, part):
    flags = [weak(operation, part) for operation in operations]
    return flags == sorted(flags)


@settings(max_examples=50, deadline=None, suppress_health_check=list(HealthCheck))
@given(crowded())
def test_as_few_tool_changes_as_the_part_allows(part):
    plan = plan_part(part, SHOP)
    assume(not plan.stopped and len(plan.operations) <= 6)
    pairs = list(asked(part))
    allowed = [order for order in permutations(plan.operations) if met(order, pairs)]
    if not allowed:
        assert "order" in {f.code for f in plan.findings}
        return
    assert met(plan.operations, pairs)
    assert "order" not in {f.code for f in plan.findings}
    fewest = min(map(changes, allowed))
    assert changes(plan.operations) == fewest
    if any(changes(order) == fewest and weak_last(order, part) for order in allowed):
        assert weak_last(plan.operations, part)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(crowded())
def test_from_the_free_end_and_no_needless_rapids(part):
    plan = plan_part(part, SHOP)
    assume(not plan.stopped)
    pairs = set(asked(part))
    for one, two in pairwise(plan.operations):
        if one.tool == two.tool and one.grooves > two.grooves:
            forced = any((a, b) in pairs for a in one.grooves for b in two.grooves)
            assert forced or weak(two, part) > weak(one, part), "nearer to the free end, and free to come first"
    assert needless_rapids(plan.steps) == []


class TestByHand:
    def order(self, part):
        plan = plan_part(part, SHOP)
        assert not plan.stopped
        return [(o.grooves, o.tool.station) for o in plan.operations], plan

    def test_a_shallow_one_by_another_tool_comes_before_a_deep_one_beside_it(self):
        # T0202 is needed first from the front, but its deep groove waits for the shallow one of T0101.
        order, plan = self.order(part_of([(-10, -13, 22), (-15, -16, 34)]))
        assert order == [((2,), 1), ((1,), 2)]
        assert "It is cut after groove 2, which is shallower: the land between is thin and would bend." in (
            plan.operations[1].why
        )

    def test_a_tool_comes_back_where_both_would_leave_a_fin(self):
        # 1 wide and deep beside 3 wide and shallow, and 3 wide and deep beside 1 wide and shallow.
        spots = [(-10, -11, 22), (-14, -17, 34), (-40, -43, 22), (-45, -46, 34)]
        order, plan = self.order(part_of(spots))
        assert len([o for o in order if o[1] == 1]) + len([o for o in order if o[1] == 2]) == 4
        assert changes(plan.operations) == 2
        assert any("comes back for this, a tool change more" in why for o in plan.operations for why in o.why)

    def test_a_neck_waits_for_another_tool_in_front_of_it(self):
        order, plan = self.order(part_of([(-10, -13, 34), (-20, -21, 36), (-40, -41, 12)]))
        assert order[-1] == ((3,), 1)
        assert "It is cut late: only 30 % of the diameter is left." in plan.operations[-1].why

    def test_no_tool_comes_back_for_a_neck_with_nothing_in_front_of_it(self):
        # The neck lies in front of all others, so that nothing is cut beyond it: T0101 does it while it is there.
        spots = [(-5, -6, 12), (-14, -15, 36), (-17, -20, 22), (-40, -43, 30)]
        order, _ = self.order(part_of(spots))
        assert [station for _, station in order] == [1, 1, 2, 2]
        assert ((1,), 1) in order

    def test_the_wall_of_a_hollow_part_counts(self):
        # 40 outside and 24 inside: down to 31 leaves 3.5 of 8 a side, though it is 78 % of the diameter.
        order, plan = self.order(part_of([(-10, -13, 31), (-30, -33, 36)], bore=24))
        assert [grooves for grooves, _ in order] == [(2,), (1,)]
        assert "It is cut late: only 44 % of the wall is left." in plan.operations[-1].why

    def test_nearly_equal_depths_ask_for_nothing(self):
        order, _ = self.order(part_of([(-10, -13, 24), (-15, -17, 26)]))
        assert [grooves for grooves, _ in order] == [(1,), (2,)]

    def test_needs_in_a_circle_are_cautioned(self):
        # Groove 1 at a shoulder is 15 deep seen from the land at 40, beside 2, which is 11 deep: so 2 comes first. But
        # 2 leaves 45 %, and 1, which leaves half of its own land at 20, lies in front of it: so 1 comes first.
        part = part_of([(-7, -8, 10), (-10, -11, 18)], steps=[(0, 20), (-8, 40)])
        order, plan = self.order(part)
        assert order == [((1,), 1), ((2,), 1)]
        (caution,) = [f for f in plan.findings if f.code == "order"]
        assert caution.message == (
            "Groove 1 is cut before groove 2, with a thin land between, which may bend: look at it, and see whether "
            "a lower feed helps."
        )


@pytest.mark.parametrize("count", [40])
def test_many_rows_and_tools_are_ordered_quickly(count):

    spots = [(-5 - 6 * i, -5 - 6 * i - (1 if i % 2 else 3), 38 - i / 4) for i in range(count)]
    part = part_of(spots, length=300)
    plan = plan_part(part, SHOP)
    assert len(plan.operations) == count
    assert changes(plan.operations) == 1


def test_nothing_to_order():
    assert in_order([], part_of(row(1, -10, 5, 3, 34))) == []
