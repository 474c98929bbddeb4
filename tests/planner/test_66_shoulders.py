"""Rows over a shoulder: one cycle while the air it feeds through is little, one on either side where it is much."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from support.parts import part_of, row

from extractor.limits import aims_of
from planner import default_shop, plan_part
from planner.shoulders import AIR_SHARE
from planner.steps import GrooveCycle
from postproc import Heading, compare_program, dialects, write_program

SHOP = default_shop("mm")
HEADING = Heading("part.dxf", "0" * 64)
WIDENED = {"tolerances": {"width": (0.2, 0.4)}}


def over(collar, count=2, pitch=40, depth=3, cycles="full", **more):
    """The operations for grooves on 40 on either side of a collar from Z-20 to Z-40."""
    steps = [(0, 40), (-20, collar), (-40, 40)]
    spots = [spot for spot in row(count, -10, pitch, 3, 40 - 2 * depth) if not -43 < spot[0] < -17]
    return plan_part(part_of(spots, steps=steps, length=120, **more), SHOP, cycles=cycles).operations


def test_a_low_collar_is_gone_over_and_what_that_takes_is_said():
    (operation,) = over(42)
    assert (operation.grooves, operation.start_x) == ((1, 2), 44_000)
    (why,) = [why for why in operation.why if "through air" in why]
    assert why.startswith("One cycle goes over the land between at 42.000: ")
    assert why.endswith(" s through air, and a cycle saved.")


def test_a_high_collar_parts_the_row():
    first, second = over(60)
    assert [(o.grooves, o.start_x) for o in (first, second)] == [((1,), 42_000), ((2,), 42_000)]
    assert any(
        why.startswith("Groove 1 is cut apart from groove 2: one cycle over the land between at 60.000 would feed ")
        for why in first.why
    )
    assert not any("off the pitch" in why or "No other groove" in why for why in (*first.why, *second.why))


def test_the_parts_are_rows_themselves():
    assert [o.grooves for o in over(60, count=9, pitch=5)] == [(1, 2), (3, 4)]
    both = over(60, count=9, pitch=5)
    assert {s.shift for o in both for s in o.steps if isinstance(s, GrooveCycle)} == {5000}


def test_deep_grooves_bear_a_higher_collar():
    # The air is as much, and a smaller share of what the cutting takes.
    assert len(over(45, depth=2)) == 2
    assert len(over(45, depth=12)) == 1


def test_where_every_peck_is_written_any_collar_parts_the_row():
    first, second = over(42, cycles="none")
    assert second.why[0] == (
        "Groove 2 is cut apart from groove 1: over the higher land between, each groove would begin with pecks in air, "
        "a block each."
    )
    assert first.start_x == second.start_x == 42_000


def test_no_collar_no_word():
    (operation,) = over(40)
    assert not any("air" in why for why in operation.why)


def test_of_two_collars_only_the_higher_parts():
    steps = [(0, 40), (-20, 41), (-30, 40), (-50, 70), (-60, 40)]
    part = part_of([(z, z - 3, 34) for z in (-10, -40, -70)], steps=steps, length=100)
    both, last = plan_part(part, SHOP).operations
    assert [both.grooves, last.grooves] == [(1, 2), (3,)]
    assert any("cut apart from groove 3" in why for why in both.why)
    assert any("goes over the land between at 41.000" in why for why in both.why)
    assert [o.grooves for o in plan_part(part, SHOP, cycles="none").operations] == [(1,), (2,), (3,)]


@st.composite
def collared(draw):
    """Like grooves at one pitch on a bar with collars of any height between some of them."""
    steps, z = [(0.0, 40.0)], 0.0
    spots = []
    deep = draw(st.integers(1, 8))
    for _ in range(draw(st.integers(2, 6))):
        spots.append((z - 5, z - 8, 40 - 2 * deep))
        z -= 20
        if collar := draw(st.sampled_from([0, 0, 1, 3, 10])):
            steps += [(z + 8, 40.0 + 2 * collar), (z + 2, 40.0)]
    return part_of(spots, steps=steps, length=20 - z)


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(collared(), st.sampled_from(["full", "own retract", "none"]))
def test_never_much_air(part, cycles):
    plan = plan_part(part, SHOP, cycles=cycles)
    # Cut one by one on a plain bar no groove needs air but its clearance.
    bars = [part_of([(g.z_near, g.z_far, g.floor_diameter)], length=part.length) for g in part.grooves]
    least = sum(plan_part(bar, SHOP, cycles=cycles).operations[0].seconds for bar in bars)
    assume(least)
    if cycles == "none":
        assert {o.start_x for o in plan.operations} == {42_000}
    cutting = sum(o.seconds for o in plan.operations)
    assert cutting < (1 + AIR_SHARE) * least + 1 * len(plan.operations)


@pytest.mark.parametrize("name", dialects())
def test_parted_rows_compare_right_in_every_dialect(name):
    dialect = dialects()[name]
    part = part_of(row(2, -10, 40, 3, 34), steps=[(0, 40), (-20, 60), (-40, 40)], length=80)
    plan = plan_part(part, SHOP, cycles=dialect.cycles)
    text = write_program(plan, dialect, HEADING).text
    assert compare_program(part, text, SHOP, dialect).agree
    if dialect.cycle is None:
        pecks = [line for line in text.splitlines() if line.startswith("G01 X")]
        assert len(pecks) == 2, (
            "one plunge for either groove, no deeper than the insert is wide, and none in the air above"
        )


class TestAWallThatIsAFaceToo:
    """A groove 3 +0.4/+0.2 wide is cut 3.3 wide: 0.3 goes to the wall that no shoulder stands on (by hand)."""

    @pytest.mark.parametrize(
        ("steps", "near", "far"),
        [
            ([(0, 40), (-20, 30)], -20.0, -23.3),
            ([(0, 30), (-23, 40)], -19.7, -23.0),
            ([(0, 30)], -19.85, -23.15),
            # A step on the radius of 0.019 is within the shop's 0.02, one of 0.021 is not.
            ([(0, 30.038), (-20, 30)], -19.85, -23.15),
            ([(0, 30.042), (-20, 30)], -20.0, -23.3),
        ],
    )
    def test_it_stays_where_it_is_drawn(self, steps, near, far):
        (groove,) = part_of([(-20, -23, 26, WIDENED)], steps=steps).grooves
        aims = aims_of(groove, 0.02)
        assert (aims.near.aim, aims.far.aim) == pytest.approx((near, far))

    def test_a_wall_that_the_sheet_names_goes_first(self):
        (groove,) = part_of([(-20, -23, 26, WIDENED)], steps=[(0, 40), (-20, 30)]).grooves
        placed = replace(groove, tolerances={**groove.tolerances, "z_far": (-0.05, 0.05)})
        assert aims_of(placed, 0.02).near.aim == pytest.approx(-19.7)

    @pytest.mark.parametrize(("off", "state"), [(0.0, "matches"), (0.02, "matches"), (0.03, "position")])
    def test_a_program_that_moves_it_is_told(self, off, state):
        part = part_of([(-20, -23, 26, WIDENED)], steps=[(0, 40), (-20, 30)])
        moved = part_of([(-20 + off, -23.3 + off, 26)], steps=[(0, 40), (-20 + off, 30)])
        text = write_program(plan_part(moved, SHOP), dialects()["plunge"], HEADING).text
        (match,) = compare_program(part, text, SHOP, dialects()["plunge"]).matches
        assert match.state == state
