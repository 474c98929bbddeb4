"""Formulas against published values, a general integrator, and identities."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from planner.cutting import (
    clamp_diameter,
    cutting_force,
    cutting_power,
    dwell_seconds,
    feed_seconds,
    plunge_seconds,
    specific_force,
    spindle_speed,
    torque,
)


@pytest.mark.parametrize(
    ("surface", "diameter", "units", "rpm"),
    [
        (60, 5, "in", 45.84),  # "Turning and Boring", 1914, public-domain text, chapter "Cutting speeds": 46
        (40, 50, "mm", 254.65),  # stored course page; it prints 254.54, with 22/7 for pi
        (150, 50, "mm", 954.93),  # the same page: 954
        (150, 200, "mm", 238.73),  # stored control manual, G96 example: 238.7 at a radius of 100 mm
        (100, 2, "in", 190.99),  # exact value beside the rule of thumb 4 V / D, which gives 200
        (1000, 6.5, "in", 587.65),  # computed: 12 V / (pi D)
        (1000, 5.0, "in", 763.94),  # computed
    ],
)
def test_spindle_speed(surface, diameter, units, rpm):
    assert spindle_speed(surface, diameter, None, units) == pytest.approx(rpm, abs=0.01)


def test_the_clamp_rules_below_its_diameter():
    assert spindle_speed(150, 10, 3000, "mm") == 3000
    assert spindle_speed(150, 0, 3000, "mm") == 3000
    assert clamp_diameter(150, 3000, "mm") == pytest.approx(15.915, abs=1e-3)  # list of outside checks, section 6


@pytest.mark.parametrize(
    ("outer", "inner", "feed", "surface", "clamp", "units", "seconds"),
    [
        # Section 6 of the project's outside checks: computed there with scipy.integrate.quad.
        (40, 34, 0.08, 120, 3000, "mm", 2.1795),
        (100, 60, 0.12, 150, None, "mm", 16.7552),
        (20, 10, 0.05, 150, 3000, "mm", 2.1048),
        (40, 0, 0.1, 120, 3000, "mm", 6.9198),
        (40, 0, 0.1, 120, None, "mm", 6.2832),
        (2, 1.5, 0.004, 300, None, "in", 5.7269),
    ],
)
def test_plunge_seconds(outer, inner, feed, surface, clamp, units, seconds):
    assert plunge_seconds(outer, inner, feed, surface, clamp, units) == pytest.approx(seconds, abs=1e-4)


def test_a_plunge_at_fixed_speed():
    assert feed_seconds(3, 0.08, 955) == pytest.approx(2.3560, abs=1e-4)  # outside checks, section 6


@given(
    st.floats(1, 300),
    st.floats(0, 1),
    st.floats(0.01, 0.5),
    st.floats(10, 400),
    st.one_of(st.none(), st.integers(100, 6000)),
    st.sampled_from(["mm", "in"]),
)
def test_the_closed_form_is_the_integral(outer, share, feed, surface, clamp, units):
    inner = outer * share
    knee = [] if clamp is None else [clamp_diameter(surface, clamp, units)]
    inside = [k for k in knee if inner < k < outer]

    def slowness(diameter):
        return 60 / (2 * feed * spindle_speed(surface, diameter, clamp, units))

    if inner == 0 and clamp is None:
        inner = outer / 1e6
    expected, _ = quad(slowness, inner, outer, points=inside or None, epsabs=1e-10, epsrel=1e-10)
    assert plunge_seconds(outer, inner, feed, surface, clamp, units) == pytest.approx(expected, rel=1e-6, abs=1e-9)
    assert plunge_seconds(inner, outer, feed, surface, clamp, units) == pytest.approx(expected, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(
    ("kc11", "mc", "width", "feed", "surface", "force", "power"),
    [
        # Outside checks, section 7: worked there from the material groups of VDI 3323 and from handbook values.
        (1675, 0.24, 3, 0.08, 120, 737.0, 1.474),
        (2220, 0.14, 3, 0.08, 120, 758.8, 1.518),
        (2150, 0.20, 2, 0.06, 90, 452.9, 0.679),
    ],
)
def test_force_and_power(kc11, mc, width, feed, surface, force, power):
    assert cutting_force(kc11, mc, width, feed, "mm") == pytest.approx(force, abs=0.05)
    assert cutting_power(force, surface, "mm") == pytest.approx(power, abs=1e-3)


def test_specific_force():
    assert specific_force(1675, 0.24, 0.08, "mm") == pytest.approx(3071, abs=0.5)
    assert cutting_force(1675, 0.24, 1, 1, "mm") == pytest.approx(1675)  # h = b = 1 gives kc1.1: identity


def test_inch_and_metric_agree():
    # An inch is 25.4 mm exactly; force and power are the same in either system.
    metric = cutting_force(1675, 0.24, 3.175, 0.0762, "mm")
    assert cutting_force(1675, 0.24, 0.125, 0.003, "in") == pytest.approx(metric)
    assert cutting_power(metric, 120 / 0.3048, "in") == pytest.approx(cutting_power(metric, 120, "mm"))
    assert torque(metric, 1.0, "in") == pytest.approx(torque(metric, 25.4, "mm"))


def test_power_is_torque_times_angular_speed():
    # P = M omega, physics: with n from vc and D.
    force, surface, diameter = 737.0, 120.0, 34.0
    omega = 2 * math.pi * spindle_speed(surface, diameter, None, "mm") / 60
    assert torque(force, diameter, "mm") * omega / 1000 == pytest.approx(cutting_power(force, surface, "mm"))


def test_dwell():
    assert dwell_seconds(2, 600) == pytest.approx(0.2)  # two turns at 10 per second
