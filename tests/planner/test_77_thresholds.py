"""Thresholds of the planner that no other test stands beside: each from just inside and just outside."""

from math import cos, sin

import pytest
from support.parts import part_of

from extractor.errors import SettingsError
from planner import parse_shop, plan_part
from planner.cuts.curves import _run
from planner.settings.materials import surface_speed
from planner.steps import GrooveCycle

SHOP = 'units = "{}"\n[machine]\nstick_out = {}\n[[tools]]\nstation = 3\nwidth = {}\nmax_depth = {}\n'


def shop(units="mm", width=3.0, stick_out=90.0):
    return parse_shop(SHOP.format(units, stick_out, width, 2 * width), "s", units)


@pytest.mark.parametrize(
    ("units", "width", "radius"),
    [("mm", 0.9, 0.18), ("mm", 1.1, 0.2), ("in", 0.035, 0.007), ("in", 0.045, 0.008)],
)
def test_the_corner_radius_taken_where_none_is_given(units, width, radius):
    # 0.2 mm or 0.008 in, on narrow inserts a fifth of the width: common practice, no source.
    assert shop(units, width).tools[0].corner_radius == pytest.approx(radius)


def test_the_longest_length_of_a_shop_file():
    assert shop(stick_out=9999).machine.stick_out == 9999
    with pytest.raises(SettingsError, match="stick_out"):
        shop(stick_out=10_001)


def test_speeds_in_feet_are_told_in_fives():
    # 1 ft is 0.3048 m (international foot): 100 m/min are 328.08 ft/min, 101 m/min 331.4, 102 m/min 334.6.
    assert [surface_speed(metres, inch=True) for metres in (100, 101, 102)] == [330, 330, 335]


@pytest.mark.parametrize(("above", "start"), [(0.0000005, 42_000), (0.000002, 42_001)])
def test_a_land_a_hair_above_a_count(above, start):
    # X in 0.001 on the diameter, 1 mm of clearance on the radius.
    text = SHOP.format("mm", 90, 3.0, 6.0).replace("[[tools]]", "clearance = 1.0\n[[tools]]", 1)
    plan = plan_part(part_of([(-10, -13, 34)], diameter=40.0 + above), parse_shop(text, "s", "mm"))
    first = next(n for n, step in enumerate(plan.steps) if isinstance(step, GrooveCycle))
    heights = [step.x for step in plan.steps[:first] if getattr(step, "x", None) is not None]
    assert heights[-1] == start


@pytest.mark.parametrize(("longer", "arc"), [(2e-7, True), (5e-6, False)])
def test_three_chords_of_an_arc_are_as_long_as_one_another(longer, arc):
    turns = [0.0, 0.1, 0.2, 0.3 + 0.1 * longer]
    points = [(10 * cos(turn), 10 * sin(turn)) for turn in turns]
    assert _run(points, 0)[0] == (3 if arc else 0)
