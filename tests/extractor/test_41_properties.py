"""Laws over random turned parts: however they are drawn, placed, cut up and jittered, the same grooves are read."""

import math
import random
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st
from support.draw import (
    Cut,
    Ink,
    Turned,
    full_outline,
    half_profile,
    rotated,
    section,
    sheet_of,
    side_view,
)

from extractor import ReadOptions, read_sheet

QUIET = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
STYLES = [half_profile, full_outline, side_view, section]


@st.composite
def parts(draw):
    """A part whose lands rise to one highest and fall again, with grooves of every kind the drawer knows."""
    up = sorted(draw(st.lists(st.integers(16, 60), min_size=1, max_size=3, unique=True)))
    down = [d for d in sorted(draw(st.lists(st.integers(16, 60), max_size=2, unique=True)), reverse=True) if d < up[-1]]
    steps, cuts, z = [], [], 0.0
    for diameter in (*up, *down):
        start = z
        z -= 3.0
        for _ in range(draw(st.integers(0, 2))):
            width = draw(st.integers(10, 60)) / 10
            depth = draw(st.integers(5, 25)) / 10
            corner = draw(st.sampled_from([0.0, 0.0, 0.1, 0.2, 0.4]))
            chamfer = draw(st.sampled_from([0.0, 0.0, 0.1, 0.2]))
            corner = corner if 2 * corner < width - 0.1 and corner + chamfer < depth - 0.1 else 0.0
            cuts.append(Cut(z, width, diameter - 2 * depth, corner, chamfer if chamfer < depth - 0.1 else 0.0))
            z -= width + draw(st.integers(10, 60)) / 10
        z -= 3.0
        steps.append((start - z, float(diameter)))
    # A plain rectangle about a centre line may be stock as well as a part: it is asked about, not read.
    assume(cuts or len(steps) > 1)
    return Turned(tuple(steps), tuple(cuts), bore=6.0)


def drawn(part, style):
    return style(part if style is section else Turned(part.steps, part.cuts))


def read(ink, move=lambda x, y: (x, y), **options):
    return read_sheet(sheet_of(ink, move), ReadOptions(units="mm", **options))


def assert_read(reading, part, tolerance=1e-4):
    """Every groove as drawn, none more and none less."""
    assert [f for f in reading.findings if f.stops] == []
    grooves = reading.part.grooves
    assert len(grooves) == len(part.cuts)
    for groove, cut in zip(grooves, sorted(part.cuts, key=lambda c: -c.z), strict=True):
        assert groove.shape == "rectangular"
        assert groove.z_near == pytest.approx(cut.z, abs=tolerance)
        assert groove.width == pytest.approx(cut.width, abs=2 * tolerance)
        assert groove.floor_diameter == pytest.approx(cut.floor, abs=2 * tolerance)
        assert groove.mouth_diameter == pytest.approx(part.diameter_at(cut.z), abs=2 * tolerance)
        assert groove.corner_radius == pytest.approx(cut.corner, abs=max(tolerance, 0.02 * cut.corner))
        assert groove.edge_chamfer == pytest.approx(cut.chamfer, abs=2 * tolerance)
    assert reading.part.length == pytest.approx(part.length, abs=2 * tolerance)
    assert reading.part.outer_diameter == pytest.approx(max(d for _, d in part.steps), abs=2 * tolerance)


@settings(max_examples=10, **QUIET)
@given(parts(), st.sampled_from(STYLES), st.integers(0, 359), st.floats(-2000, 2000), st.floats(-2000, 2000))
def test_wherever_and_however_it_lies(part, style, degrees, x, y):
    """At most angles the front end is told by its being to the right, or on top where the part stands upright."""
    level = abs(math.cos(math.radians(degrees))) > math.sin(math.radians(45.5))
    upright = abs(math.sin(math.radians(degrees))) > math.sin(math.radians(45.5))
    if not level and not upright:
        return
    turned = math.cos(math.radians(degrees)) if level else math.sin(math.radians(degrees))
    front = {(True, True): "right", (True, False): "left", (False, True): "top", (False, False): "bottom"}
    reading = read(drawn(part, style), rotated(degrees, x, y), front=front[level, turned > 0])
    assert_read(reading, part)


@settings(max_examples=8, **QUIET)
@given(parts(), st.sampled_from(STYLES))
def test_mirrored_end_for_end_with_the_front_on_the_left(part, style):
    assert_read(read(drawn(part, style), lambda x, y: (-x, y), front="left"), part)


BARREL = Turned(steps=((6.0, 22.0), (6.0, 30.0), (6.0, 31.0), (6.0, 30.0), (6.0, 22.0)), bore=6.0)


@settings(max_examples=8, **QUIET)
@example(BARREL, STYLES[1], 0.01).via("a short barrel, nearly round, with its axis alone")
@given(parts(), st.sampled_from(STYLES), st.sampled_from([0.01, 1 / 25.4, 25.4, 1000.0]))
def test_scaled(part, style, scale):
    reading = read(drawn(part, style), lambda x, y: (scale * x, scale * y), scale=scale)
    assert_read(reading, part)


@settings(max_examples=12, **QUIET)
@given(parts(), st.sampled_from(STYLES), st.randoms(use_true_random=False))
def test_split_reversed_shuffled_and_doubled(part, style, rng):
    ink = drawn(part, style)
    assert_read(read(Ink(_mess(ink.solid, rng), ink.centre)), part)


def _mess(entities, rng: random.Random):
    """The same lines cut in two or three, turned round, some drawn again in whole or in part, in any order."""
    found = []
    for x0, y0, x1, y1, b in entities:
        cuts = sorted(rng.uniform(0.2, 0.8) for _ in range(rng.randint(0, 2))) if b == 0 else []
        stops = [(x0 + t * (x1 - x0), y0 + t * (y1 - y0)) for t in (0.0, *cuts, 1.0)]
        for (ax, ay), (bx, by) in pairwise(stops):
            found.append((ax, ay, bx, by, b) if rng.random() < 0.5 else (bx, by, ax, ay, -b))
        if rng.random() < 0.2:
            found.append((x0, y0, x1, y1, b))
        if rng.random() < 0.2 and b == 0:
            found.append((*stops[0], x0 + 0.6 * (x1 - x0), y0 + 0.6 * (y1 - y0), 0.0))
    rng.shuffle(found)
    return found


@settings(max_examples=10, **QUIET)
@given(parts(), st.sampled_from(STYLES), st.randoms(use_true_random=False))
def test_every_end_off_by_the_last_digits(part, style, rng):
    """A ten-thousandth of a millimetre, as rounded angles leave it; measures may be off by as much."""

    def off():
        return rng.uniform(-1e-4, 1e-4)

    ink = drawn(part, style)
    solid = [(x0 + off(), y0 + off(), x1 + off(), y1 + off(), b) for x0, y0, x1, y1, b in ink.solid]
    assert_read(read(Ink(solid, ink.centre)), part, tolerance=3e-4)


@settings(max_examples=8, **QUIET)
@given(parts(), st.randoms(use_true_random=False))
def test_corners_that_gape_a_little_are_closed_and_walls_stay_put(part, rng):
    """Lines drawn a hundredth short at both ends meet where they would."""
    plain = Turned(part.steps, tuple(Cut(c.z, c.width, c.floor) for c in part.cuts))
    solid = []
    for x0, y0, x1, y1, b in full_outline(plain).solid:
        size = math.hypot(x1 - x0, y1 - y0)
        t, u = (rng.choice([0.0, 0.01]) / size for _ in range(2))
        solid.append((x0 + t * (x1 - x0), y0 + t * (y1 - y0), x1 - u * (x1 - x0), y1 - u * (y1 - y0), b))
    ink = Ink(solid, full_outline(plain).centre)
    assert_read(read(ink), plain)


@settings(max_examples=8, **QUIET)
@given(parts(), st.sampled_from([full_outline, side_view]), st.integers(0, 2**32))
def test_a_wall_taken_away_is_never_read_past(part, style, seed):
    """Without one piece of the outline either the same grooves are read, or there is a stop, or a caution."""
    ink = drawn(part, style)
    gone = seed % len(ink.solid)
    reading = read(Ink(ink.solid[:gone] + ink.solid[gone + 1 :], ink.centre))
    if not any(f.level in ("stop", "caution") for f in reading.findings):
        assert_read(reading, part)
