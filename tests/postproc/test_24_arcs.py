"""Arcs: the chords stay on the circle, turn the right way, and what can't be an arc is named."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString
from support.programs import codes, run_of
from support.tongues import HERE

from planner.arcs import ArcFault, by_centre, by_radius, half_turn_radius, joining_radius, joins, off_circle
from planner.steps import Arc
from postproc.dialects import read_dialect
from postproc.reading.interpreter import interpret
from postproc.reading.renaming import parse_as

HEAD = "G21 G99\nT0303\nG97 S800 M03\nG01 F.1\n"


def arc(text, start="G00 X40. Z-10."):
    """The places along an arc as (z, radius) in mm, from its start."""
    run = run_of(f"{HEAD}{start}\n{text}\nM30")
    motions = [m for m in run.motions if m.line == 6]
    return run, [(motions[0].z0 / 1000, motions[0].x0 / 2000)] + [(m.z1 / 1000, m.x1 / 2000) for m in motions]


def test_clockwise_is_seen_with_x_up_and_z_to_the_right():
    # ISO 841 axes: from (z -10, r 20) into a fillet of 2 at (z -12, r 18); G03 bulges outward, G02 inward.
    _, outward = arc("G03 X36. Z-12. R2.")
    _, inward = arc("G02 X36. Z-12. R2.")
    assert all(math.dist(p, (-12, 20)) == pytest.approx(2, abs=1e-3) for p in inward) != all(
        math.dist(p, (-10, 18)) == pytest.approx(2, abs=1e-3) for p in inward
    )
    assert all(math.dist(p, (-10, 18)) == pytest.approx(2, abs=1e-3) for p in outward)
    assert all(math.dist(p, (-12, 20)) == pytest.approx(2, abs=1e-3) for p in inward)


@pytest.mark.parametrize(
    ("by_r", "by_ik"),
    [("G03 X36. Z-12. R2.", "G03 X36. Z-12. I-2. K0"), ("G02 X36. Z-12. R2.", "G02 X36. Z-12. I0 K-2.")],
)
def test_radius_and_centre_say_the_same_arc(by_r, by_ik):
    first, second = arc(by_r)[1], arc(by_ik)[1]
    assert len(first) == len(second) > 5
    assert all(math.dist(a, b) < 0.0011 for a, b in zip(first, second, strict=True))


@given(
    st.integers(2_000, 80_000),
    st.integers(-40_000, 40_000),
    st.integers(-20_000, 20_000),
    st.integers(0, 30_000),
    st.booleans(),
)
def test_chords_stay_within_an_increment_of_the_circle(x0, dx, dz, extra, clockwise):
    # Oracle: points along shapely's line of the chords, against the centre found by textbook geometry.
    chord = math.hypot(dx / 2, dz)
    assume(chord > 10)
    radius = math.ceil(chord / 2) + extra
    ends = by_radius((x0, 0), (x0 + dx, dz), radius, clockwise)
    assert ends[-1] == (x0 + dx, dz)
    path = LineString([(0, x0 / 2), *[(z, x / 2) for x, z in ends]])
    centres = _centres((0, x0 / 2), (dz, (x0 + dx) / 2), radius)
    places = path.segmentize(max(1, path.length / 500)).coords
    assert min(max(abs(math.dist(p, c) - radius) for p in places) for c in centres) <= 1.0
    assert path.length == pytest.approx(2 * radius * math.asin(min(1.0, chord / 2 / radius)), rel=0.02, abs=3)


def _centres(a, b, radius):
    """Both centres of circles through two points (textbook geometry)."""
    middle, half = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), math.dist(a, b) / 2
    height = math.sqrt(max(0, radius**2 - half**2)) / (2 * half)
    across = (-(b[1] - a[1]), b[0] - a[0])
    return [(middle[0] + s * height * across[0], middle[1] + s * height * across[1]) for s in (1, -1)]


@given(st.integers(2_000, 60_000), st.integers(-9_000, 9_000), st.integers(-9_000, 9_000), st.integers(0, 9_000))
def test_the_two_ways_round_lie_on_either_side(x0, dx, dz, extra):
    chord = math.hypot(dx / 2, dz)
    assume(chord > 100)
    radius = math.ceil(chord / 2) + extra
    sides = []
    for clockwise in (True, False):
        ends = by_radius((x0, 0), (x0 + dx, dz), radius, clockwise)
        x, z = ends[len(ends) // 2] if len(ends) > 1 else ends[0]
        sides.append(dz * (x - x0) / 2 - dx / 2 * z)
    assert sides[0] >= 0 >= sides[1]


@given(st.integers(-9_000, 9_000), st.integers(-9_000, 9_000), st.floats(0, 20_000))
def test_the_joining_radius_is_the_nearest_that_joins(dx, dz, wanted):
    # Oracle: a circle of radius r goes through two places exactly if their distance is at most 2 r.
    assume(dx or dz)
    radius = joining_radius((0, 0), (dx, dz), wanted)
    distance = math.hypot(dx / 2, dz)
    assert joins((0, 0), (dx, dz), radius)
    assert radius == round(wanted) or not joins((0, 0), (dx, dz), radius - 1)
    assert distance <= 2 * radius * (1 + 1e-12)
    assert radius >= round(wanted)


@given(st.floats(50, 9_000), st.floats(0, math.tau), st.floats(0.05, math.tau / 3), st.booleans())
def test_whole_counts_leave_an_arc_where_it_was_drawn(radius, begin, turn, clockwise):
    # Oracle: the true circle. Ends and radius are rounded to whole counts, half of one on the diameter; the arc through
    # them may be off by half a count at the ends and by what the docstring of `planner.arcs` says between.
    def place(angle):
        return round(2 * (20_000 + radius * math.sin(angle))), round(radius * math.cos(angle))

    start, end = place(begin), place(begin - turn if clockwise else begin + turn)
    assume(start != end)
    ends = by_radius(start, end, joining_radius(start, end, radius), clockwise)
    off = [abs(math.dist((z, x / 2), (0, 20_000)) - radius) for x, z in ends]
    assert max(off) <= 3.0


def test_half_a_turn_hangs_on_the_last_digit_and_two_quarters_do_not():
    # Plane geometry: the middle of an arc of radius r over a chord c lies r - sqrt(r^2 - c^2/4) inside the chord.
    def deepest(*arcs):
        return min(x for arc in arcs for x, _ in by_radius(*arc))

    start, middle, end = (40_000, 0), (37_000, -1_500), (40_000, -3_000)
    assert deepest((start, end, 1_500, True)) == 37_000
    off_by_one = 40_000 - 2 * (1_501 - math.sqrt(1_501**2 - 1_500**2))
    assert deepest((start, end, 1_501, True)) == pytest.approx(off_by_one, abs=2)
    assert off_by_one > 37_100
    assert deepest((start, middle, 1_501, True), (middle, end, 1_501, True)) == pytest.approx(37_000, abs=2)


@given(st.integers(2_000, 60_000), st.floats(99, 9_000), st.floats(0, math.tau), st.floats(0.1, 2.8), st.booleans())
def test_a_centre_says_the_arc_that_its_radius_says(x0, radius, begin, turn, clockwise):
    # Oracle: the same circle by sine and cosine; past half a turn no radius says it.
    offset = (round(-radius * math.sin(begin)), round(-radius * math.cos(begin)))
    for angle in (turn, turn + 3.3):
        to = begin - angle if clockwise else begin + angle
        end = (x0 + round(2 * (offset[0] + radius * math.sin(to))), round(offset[1] + radius * math.cos(to)))
        assert off_circle((x0, 0), end, offset) <= 2
        said = half_turn_radius((x0, 0), end, offset, clockwise)
        if angle > math.pi:
            assert said is None
            continue
        assert said == pytest.approx(radius, abs=1.5)
        about, by = (way((x0, 0), end, shape, clockwise) for way, shape in ((by_centre, offset), (by_radius, said)))
        lines = [LineString([(x / 2, z) for x, z in ((x0, 0), *places)]) for places in (about, by)]
        assert lines[0].hausdorff_distance(lines[1]) <= 2 + 2 / math.cos(turn / 2)


def test_an_end_a_little_beside_its_circle_is_a_caution_and_more_a_stop():
    assert codes(arc("G02 X36. Z-12. I0 K-2.001")[0]) == []
    run, path = arc("G02 X36. Z-12. I0 K-2.01")
    assert codes(run) == [("arc-off-circle", 6)]
    assert "0.01 mm off the circle" in run.findings[0].message
    assert path[-1] == (-12, 18)
    assert codes(arc("G02 X36. Z-12. I0 K-2.05")[0]) == [("arc", 6)]


def test_an_arc_about_a_centre_is_the_step_of_its_radius():
    run, _ = arc("G02 X36. Z-12. I0 K-2.\nG03 X40. Z-10. I2. K0")
    assert run.steps[-2:] == (
        Arc(feed=1_000, x=36_000, z=-12_000, radius=2_000, clockwise=True),
        Arc(feed=1_000, x=40_000, z=-10_000, radius=2_000, clockwise=False),
    )
    assert not any(isinstance(step, Arc) for step in arc("G03 X36. Z-12. I0 K-2.")[0].steps)


def test_more_than_half_a_turn_by_centre():
    # From (z 0, r 10) about (z 0, r 8): G02 to (z -2, r 8) goes three quarters round, G03 one quarter.
    long = by_centre((20_000, 0), (16_000, -2_000), (-2_000, 0), clockwise=True)
    short = by_centre((20_000, 0), (16_000, -2_000), (-2_000, 0), clockwise=False)
    assert len(long) == pytest.approx(3 * len(short), abs=3)


@pytest.mark.parametrize(
    ("start", "end", "radius", "part"),
    [
        ((0, 0), (0, 0), 5, "ends where it begins"),
        ((0, 0), (40, 0), 0, "not above 0"),
        ((0, 0), (40, 0), -30, "not above 0"),
        ((0, 0), (40_000, 0), 5_000, "further apart"),
    ],
)
def test_arcs_that_can_not_be_by_radius(start, end, radius, part):
    with pytest.raises(ArcFault, match=part):
        by_radius(start, end, radius, clockwise=True)


@pytest.mark.parametrize(
    ("start", "end", "offset", "part"),
    [
        ((0, 0), (0, 0), (5, 0), "ends where it begins"),
        ((0, 0), (40_000, 0), (5_000, 0), "not lie on the circle"),
        ((0, 0), (40_000, 0), (0, 0), "not lie on the circle"),
    ],
)
def test_arcs_that_can_not_be_by_centre(start, end, offset, part):
    with pytest.raises(ArcFault, match=part):
        by_centre(start, end, offset, clockwise=True)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("G02 X36. Z-12.", "arc"),
        ("G02 X36. Z-12. R1.", "arc"),
        ("G02 X36. Z-12. R1.414", "arc-radius-short"),
        ("G02 X36. Z-12. R2. I1.", "arc"),
        ("G02 X36. Z-12. I9. K9.", "arc"),
        ("G02 X36. Z-12. R2000", "no-decimal-point"),
    ],
)
def test_odd_arcs_are_stops_on_their_line_and_go_to_their_end(text, code):
    run, path = arc(text)
    assert codes(run) == [(code, 6)]
    assert path[-1] == (-12, 18)


def test_an_arc_is_in_force_until_another_word():
    run, _ = arc("G02 X36. Z-12. R2.\nX40. Z-14. R2.\nG01 X50.")
    assert not run.findings
    assert (run.motions[-1].x1, run.motions[-1].z1) == (50_000, -14_000)
    assert len([m for m in run.motions if m.line == 7]) > 5


def test_the_centre_of_an_arc_may_be_a_place():
    """A quarter of radius 2 from X40 Z-13 about X40 Z-15 and back, by words of a dialect of its own."""
    dialect = read_dialect((HERE / "stored-groove.toml").read_text("utf-8"), "stored")
    arcs = "G02 X36. Z-15. CENX=40. CENZ=-15. FEED=0.1\nG03 X40. Z-13. CENX=40. CENZ=-15. FEED=0.1"
    run = interpret(parse_as(f"G21 G99\nT0303\nG97 S800 M03\nG00 X40. Z-13.\n{arcs}\nM30", dialect), dialect, "mm")
    there, back = ([(m.x1 / 2, m.z1) for m in run.motions if m.line == line] for line in (5, 6))
    # About another centre it is a stop, and one move straight to the end, which lies on the circle all the same.
    assert not run.findings
    assert min(len(there), len(back)) > 5
    assert all(abs(math.dist(place, (20_000, -15_000)) - 2_000) <= 1 for place in there + back)
    assert (there[-1], back[-1]) == ((18_000, -15_000), (20_000, -13_000))
