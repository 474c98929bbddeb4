"""Limits and the steps of the control: a count that lies between them is taken, and where none does, that is a stop.

The control's least input increment is 0.001 mm or 0.0001 in, of X on the diameter (common practice, no source).
"""

from dataclasses import replace

import pytest
from support.parts import part_of

from planner import parse_shop, plan_part
from planner.increment import Increments
from planner.steps import Cut, Dwell, GrooveCycle

SHOP = 'units = "{units}"\n[machine]\nmax_rpm = 3000\n[material]\nname = "C45"\n[[tools]]\nstation = 3\n{tool}\n'
TOOL = "width = 3.0\nmax_depth = 12.0\ncorner_radius = 0.0"


def planned(tolerances, floor=34.0, width=3.0, tool=TOOL, units="mm", bore=None, **extra):
    """The plan of one groove in a bar, and the code of its stop or None."""
    scale = 1.0 if units == "mm" else 0.1
    spot = (-10 * scale, -10 * scale - width, floor, {"tolerances": tolerances, **extra})
    part = part_of([spot], diameter=40 * scale, length=60 * scale, units=units, bore=bore)
    plan = plan_part(part, parse_shop(SHOP.format(units=units, tool=tool), "s", units))
    return plan, next((one for one in plan.findings if one.stops), None)


def lowest_x(plan):
    """The least X that is cut, in drawing units."""
    cuts = [
        one.floor_x if isinstance(one, GrooveCycle) else one.x
        for one in plan.steps
        if isinstance(one, Cut | GrooveCycle)
    ]
    return min(x for x in cuts if x is not None) / plan.increments.per_length


@pytest.mark.parametrize(
    ("floor", "tolerances", "made"),
    [
        (33.9995, {"floor_diameter": (-0.0004, 0.0004)}, None),
        (33.9995, {"floor_diameter": (-0.0004, 0.0005)}, 34.0),
        (33.9995, {"floor_diameter": (-0.0005, 0.0004)}, 33.999),
        (34.0, {"floor_diameter": (0.0003, 0.0009)}, None),
        (34.0, {"floor_diameter": (0.0003, 0.0012)}, 34.001),
        # A depth counts twice in the diameter.
        (34.0, {"depth": (0.00005, 0.00045)}, None),
        (34.0, {"depth": (0.00005, 0.00055)}, 33.999),
    ],
)
def test_the_floor_in_mm(floor, tolerances, made):
    plan, stop = planned(tolerances, floor)
    assert (stop.code if stop else lowest_x(plan)) == ("limits-too-fine" if made is None else made)


@pytest.mark.parametrize(("high", "code"), [(0.00009, "limits-too-fine"), (0.0001, None)])
def test_the_floor_in_inch(high, code):
    plan, stop = planned(
        {"floor_diameter": (0.00002, high)}, 3.4, 0.125, "width = 0.125\nmax_depth = 0.5\ncorner_radius = 0.0", "in"
    )
    assert (stop and stop.code) == code
    assert code or lowest_x(plan) == pytest.approx(3.4001)


@pytest.mark.parametrize(
    ("tool", "tolerances", "code"),
    [
        # One plunge of an insert of that width asks for no step; two plunges do.
        (TOOL, {"width": (-0.0004, 0.0004)}, None),
        (TOOL.replace("3.0", "2.0"), {"width": (-0.0004, 0.0004)}, None),
        (TOOL.replace("3.0", "2.0"), {"width": (0.0002, 0.0008)}, "limits-too-fine"),
        (TOOL.replace("3.0", "2.0"), {"width": (0.0002, 0.001)}, None),
        (TOOL.replace("3.0", "2.0"), {"z_near": (0.0002, 0.0008)}, "limits-too-fine"),
        (TOOL.replace("3.0", "2.0"), {"z_near": (0.0002, 0.001)}, None),
        (TOOL.replace("3.0", "2.0"), {"z_far": (-0.0008, -0.0002)}, "limits-too-fine"),
        (TOOL.replace("3.0", "2.0"), {"z_far": (-0.001, -0.0002)}, None),
    ],
)
def test_walls_and_width(tool, tolerances, code):
    _, stop = planned(tolerances, tool=tool)
    assert (stop and stop.code) == code


def test_the_stop_says_limits_and_step():
    _, stop = planned({"floor_diameter": (-0.0004, 0.0004)}, 33.9995)
    assert stop.message == (
        "Groove 1: its floor may lie from X33.9991 to 33.9999, and the control counts in steps of 0.001 mm, none of "
        "which lies there; ask for wider limits, or program it by hand."
    )
    _, stop = planned({"width": (0.0002, 0.0008)}, tool=TOOL.replace("3.0", "2.0"))
    assert "its width may be 3.0002 to 3.0008, and" in stop.message
    inner = {"where": "inside", "mouth_diameter": 20.0}
    tool = TOOL + '\nwhere = "inside"\nmin_bore = 10.0'
    _, stop = planned({"floor_diameter": (0.0002, 0.0008)}, 26.0, tool=tool, bore=20.0, **inner)
    assert "its floor may lie from X26.0002 to 26.0008, and" in stop.message


@pytest.mark.parametrize(
    ("keys", "off", "code"),
    [
        ("max_depth = {}", -0.0002, None),
        ("max_depth = {}", -0.0003, "groove-too-deep"),
        ("corner_radius = {}\nmax_depth = 12", 0.0004, None),
        ("corner_radius = {}\nmax_depth = 12", 0.0006, "corner-too-sharp"),
        ("overhang = {}\nmax_depth = 12", -0.0004, None),
        ("overhang = {}\nmax_depth = 12", -0.0006, "turret"),
    ],
)
def test_sizes_less_than_half_a_step_apart_are_one(keys, off, code):
    """As a shop file in inch gives them: 0.11811 in is meant to be 3 mm. A reach counts twice across.

    The floor is aimed at 33.995, so 3.0025 deep, and the turret keeps 1 off.
    """
    exact = {"max_depth": 3.0, "corner_radius": 0.2, "overhang": 4.0025}[keys.split()[0]]
    _, stop = planned({"floor_diameter": (-0.01, 0.0)}, tool="width = 3.0\n" + keys.format(exact + off))
    assert (stop and stop.code) == code


@pytest.mark.parametrize(("width", "code"), [(3.0004, None), (3.0006, "groove-too-narrow")])
def test_a_width_less_than_half_a_step_over_its_limit_is_at_the_limit(width, code):
    _, stop = planned({"width": (-0.02, 0.0)}, tool=f"width = {width}\nmax_depth = 12.0\ncorner_radius = 0.0")
    assert (stop and stop.code) == code


COARSE = Increments("mm", 100, 10_000)


def walls_and_floor(width, reference, tolerances, z_near=-10.0, wide=3.0, **extra):
    """Near and far wall and floor that a plan in steps of 0.01 cuts with an insert so wide, by its steps."""
    part = part_of([(z_near, z_near - wide, 34.0, {"tolerances": tolerances, **extra})])
    tool = f'width = {width}\nmax_depth = 12.0\ncorner_radius = 0.0\nreference = "{reference}"'
    shop = replace(parse_shop(SHOP.format(units="mm", tool=tool), "s", "mm"), grid=COARSE)
    plan = plan_part(part, shop, cycles="none")
    assert not plan.stopped, [one.message for one in plan.findings if one.stops]
    z, cuts = 0.0, []
    for step in plan.steps:
        z = getattr(step, "z", None) if getattr(step, "z", None) is not None else z
        if isinstance(step, Cut) and step.x is not None:
            cuts.append((z / 100, step.x / 100))
    over = width if reference == "near" else 0.0
    places = [z - over for z, _ in cuts]
    return max(places) + width, min(places), min(x for _, x in cuts)


@pytest.mark.parametrize("reference", ["near", "far"])
@pytest.mark.parametrize("width", [2.0, 1.984, 1.996])
@pytest.mark.parametrize(
    "tolerances",
    [
        {"width": (0.0, 0.02), "floor_diameter": (-0.045, -0.025)},
        {"width": (-0.03, -0.015), "floor_diameter": (0.003, 0.018)},
        {"z_near": (-0.02, 0.0), "width": (0.0, 0.03)},
        # Just one step lies there, another for each edge and width.
        {"width": (0.0, 0.01)},
        {"z_near": (-0.011, -0.001), "width": (0.0, 0.03)},
    ],
)
def test_a_control_of_coarse_steps_gets_places_within_the_limits(reference, width, tolerances):
    """The true width of the insert counts, not the nearest step to it; limits by hand from the sizes drawn."""
    near, far, floor = walls_and_floor(width, reference, tolerances)
    low, high = tolerances["width"]
    assert 3.0 + low - 1e-6 <= near - far <= 3.0 + high + 1e-6
    low, high = tolerances.get("floor_diameter", (-0.04, 0.04))
    assert 34.0 + low - 1e-6 <= floor <= 34.0 + high + 1e-6
    low, high = tolerances.get("z_near", (-0.06, 0.06))
    assert -10.0 + low - 1e-6 <= near <= -10.0 + high + 1e-6


@pytest.mark.parametrize(("width", "made"), [(2.0, False), (1.996, True), (1.984, True)])
def test_a_width_is_limited_by_what_steps_add_to_the_insert(width, made):
    """From 3.002 to 3.009: 1.996 and 1.01 lie there, 1.984 and 1.02 too; 2 and 1.00 or 1.01 do not."""
    part = part_of([(-10, -13, 34, {"tolerances": {"width": (0.002, 0.009)}})])
    tool = TOOL.replace("3.0", str(width))
    shop = replace(parse_shop(SHOP.format(units="mm", tool=tool), "s", "mm"), grid=COARSE)
    assert [one.code for one in plan_part(part, shop).findings if one.stops] == ([] if made else ["limits-too-fine"])


@pytest.mark.parametrize(("grid", "step"), [(COARSE, 10), (None, 1)])
def test_a_dwell_has_no_more_digits_than_a_length(grid, step):
    """Two turns at 120 m/min on 34 across are 0.10681 s (60 pi 34 2 / 120000)."""
    part = part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (-0.05, 0.05)}})])
    text = SHOP.format(units="mm", tool=f"{TOOL}\ndwell = 2").replace(
        'name = "C45"', 'name = "C45"\ncutting_speed = 120'
    )
    plan = plan_part(part, replace(parse_shop(text, "s", "mm"), grid=grid))
    (dwell,) = [one for one in plan.steps if isinstance(one, Dwell)]
    assert dwell.milliseconds == {10: 110, 1: 107}[step]


@pytest.mark.parametrize(("low", "made"), [(0.001, False), (0.0, True)])
def test_limits_between_coarse_steps_are_refused(low, made):
    part = part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (low, 0.009)}})])
    shop = replace(parse_shop(SHOP.format(units="mm", tool=TOOL), "s", "mm"), grid=COARSE)
    stops = [(one.code, one.message) for one in plan_part(part, shop).findings if one.stops]
    if made:
        assert not stops
    else:
        ((code, message),) = stops
        assert code == "limits-too-fine"
        assert "counts in steps of 0.01 mm" in message
