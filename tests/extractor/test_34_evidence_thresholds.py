"""What speaks for a turned part, just inside and just outside of each threshold, on a shaft 60 long and 40 across."""

import math

import numpy as np
import pytest
import shapely
from support.draw import Ink, full_outline, half_profile, shaft, sheet_of

from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source, Text
from extractor.viewing import alike, evidence
from extractor.viewing.apart import apart
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import prepare
from extractor.viewing.evidence import weigh
from extractor.viewing.roles import assign
from extractor.viewing.views import NEAR_VIEW, View, views

INSIDE, OUTSIDE = 0.97, 1.03
BOTH = [(INSIDE, True), (OUTSIDE, False)]
SIZE = math.hypot(60.0, 40.0)
PEN = Source("1", "CIRCLE", "0", Pen.SOLID)
VIEW = View(Axis((0.0, 0.0), (1.0, 0.0)), -60.0, 0.0, 20.0, "both", 1.0, (0,))


def seen(ink=None, circles=(), centres=(), **more):
    """What is weighed for the shaft with so much more on its sheet."""
    rings = tuple(Circle(centre, radius, PEN) for centre, radius in circles)
    sheet = sheet_of(ink or full_outline(shaft(), None), circles=rings, **more)
    made = prepare(assign(sheet), sheet.segments)
    return weigh(sheet, made, apart(views(made, []))[0], centres)


def line(x0, y0, x1, y1):
    """A drawn centre line."""
    size = math.hypot(x1 - x0, y1 - y0)
    return Axis((x0, y0), ((x1 - x0) / size, (y1 - y0) / size), ((0.0, size),), marked=True)


@pytest.mark.parametrize(("share", "seen_from_end"), BOTH)
def test_an_end_view_has_its_centre_on_the_axis(share, seen_from_end):
    found = seen(circles=[((40.0, alike.ONE_PLACE * SIZE * share), 10.0)])
    assert ("an end-view circle" in found.strong) is seen_from_end


@pytest.mark.parametrize(
    ("radius", "share", "end_view"),
    [(20.0 * (1 + alike.ONE_SIZE), s, fits) for s, fits in ((0.999, True), (1.001, False))]
    + [(20.0 * evidence.SMALLEST_END, s, fits) for s, fits in ((OUTSIDE, True), (INSIDE, False))],
)
def test_an_end_view_is_as_large_as_a_step_of_the_part_may_be(radius, share, end_view):
    assert ("an end-view circle" in seen(circles=[((40.0, 0.0), radius * share)]).strong) is end_view


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(("share", "ringed"), BOTH)
def test_a_circle_as_large_as_the_part_is_its_end(sign, share, ringed):
    radius = 20.0 * (1 + sign * alike.ONE_PLACE * share)
    assert seen(circles=[((40.0, 0.0), radius)]).ringed is ringed


@pytest.mark.parametrize(("share", "ringed"), BOTH)
def test_such_a_circle_has_its_centre_on_the_axis(share, ringed):
    assert seen(circles=[((40.0, alike.ONE_PLACE / 2 * SIZE * share), 20.0)]).ringed is ringed


@pytest.mark.parametrize(
    ("off", "radius"),
    [(evidence.ON_AXIS * SIZE, 1.0), (evidence.OFF_AXIS * 8.0, 8.0)],
    ids=["small hole", "large hole"],
)
@pytest.mark.parametrize(("share", "on_axis"), BOTH)
def test_a_hole_on_the_axis_is_not_beside_it(off, radius, share, on_axis):
    found = seen(circles=[((-45.0, off * share), radius)])
    assert ("holes lie beside its axis" not in found.against) is on_axis


@pytest.mark.parametrize(("share", "touched"), [(INSIDE, True), (OUTSIDE, False)])
def test_a_ring_that_an_outline_touches_is_no_hole(share, touched):
    """The shaft's outline is 10 away from the ring's middle."""
    radius = 10.0 / (1 + (evidence.CLEAR - 1) * share)
    assert seen(circles=[((-45.0, 10.0), radius)]).holed is not touched


@pytest.mark.parametrize(("x", "note", "row"), [(-50.0, "", True), (-45.0, "", False), (-50.0, "%%c40 h6", False)])
def test_holes_along_the_axis_of_a_sheet_without_a_diameter_are_a_plates(x, note, row):
    """Two circles about one place are one hole."""
    found = seen(circles=[((-45.0, 0.0), 2.0), ((x, 0.0), 1.5)], texts=(Text(note, (10.0, 30.0), 2.5),))
    assert (ROW_OF_HOLES in found.against) is row


ROW_OF_HOLES = "holes lie along its axis and no diameter but a hole's is printed"
LED, ACROSS, ROUND = DimensionKind.LEADER, DimensionKind.LINEAR, DimensionKind.DIAMETER


@pytest.mark.parametrize(
    ("size", "plate"),
    [(4.0, True), (4.0 * (1 + 0.97 * alike.ROUNDED), True), (4.0 * (1 + 1.03 * alike.ROUNDED), False)],
)
@pytest.mark.parametrize("printed", ["text", LED, ACROSS, ROUND])
def test_the_diameter_of_a_hole_that_is_drawn_says_nothing_of_the_part(printed, size, plate):
    """A plate's two holes, each with its diameter: a leader's, a size from side to side, a diameter's or a text."""
    words = f"2x %%c{size:.5g}"
    told = {"texts": (Text(words, (10.0, 30.0), 2.5),)}
    if printed != "text":
        told = {"dimensions": (Dimension(printed, ((-45.0, -2.0), (-45.0, 2.0)), 90.0, 4.0, words),)}
    found = seen(circles=[((-45.0, 0.0), 2.0), ((-50.0, 0.0), 2.0)], **told)
    assert (ROW_OF_HOLES in found.against) is plate
    assert found.turned is (not plate and printed in (LED, ACROSS))


@pytest.mark.parametrize(("share", "through"), [(0.97, False), (1.03, True)])
@pytest.mark.parametrize("side", [1, -1])
def test_a_second_centre_line_that_runs_out_on_both_sides_is_another_bodys(share, through, side):
    """A tee's branch; a groove's own middle line may run across within the outline."""
    far, out = side * 20.0 * (1 + 5 * evidence.RUNS_OUT), 20.0 * (1 + evidence.RUNS_OUT * share)
    crossing = line(-25.0, far, -25.0, -side * out)
    found = seen(centres=[line(-65.0, 0.0, 5.0, 0.0), crossing])
    assert ("another centre line runs right across it" in found.against, found.turned) == (through, not through)


LONG_HOLE = "a long hole lies along its axis and no diameter but a hole's is printed"


def slotted(steps=((60.0, 40.0),), half=4.0, bulged=1.0, length=20.0, off=0.0):
    """A shaft with a long hole from -40 along its axis; its ends are `bulged` times as deep as round ones.

    Those leave one distance by a quarter of what they are less deep, half-way round.
    """
    turn = np.linspace(-math.pi / 2, math.pi / 2, 33)
    middle, reach = -40.0 + length / 2, length / 2 - half
    right = [(middle + reach + half * bulged * math.cos(t), off + half * math.sin(t)) for t in turn]
    rim = [*right, *((2 * middle - x, 2 * off - y) for x, y in right)]
    part = shaft(steps=steps, cuts=()) if steps[1:] else shaft()
    return full_outline(part, None).chain([(x, y, 0.0) for x, y in rim], close=True)


@pytest.mark.parametrize(
    ("change", "note", "flat"),
    [
        ({}, "", True),
        ({"steps": ((20.0, 30.0), (40.0, 40.0))}, "", True),
        ({"steps": ((40.0, 40.0), (20.0, 30.0))}, "", True),
        ({"steps": ((20.0, 40.0), (20.0, 30.0), (20.0, 40.0))}, "", True),
        ({}, "%%c40 h6", False),
        ({}, "%%c8", True),
        ({}, "M40x1.5", False),
        ({}, "MAT S235", True),
        ({}, "4x R4", True),
        ({"off": 1.0}, "", False),
        ({"bulged": 1 - 3.7 * evidence.ROUND_ENDED}, "", True),
        ({"bulged": 1 - 4.1 * evidence.ROUND_ENDED}, "", False),
        ({"length": 8 * (1 + evidence.ROUND_ENDED * OUTSIDE)}, "", True),
        ({"length": 8 * (1 + evidence.ROUND_ENDED * INSIDE)}, "", False),
    ],
)
def test_a_long_hole_along_the_axis_is_a_straps_where_no_diameter_or_thread_says_otherwise(change, note, flat):
    """A keyway looks the same; a shaft with one is dimensioned by its diameters (ISO 129-1, from memory).

    A strap may have stepped ends.
    """
    found = seen(slotted(**change), centres=[line(-65.0, 0.0, 5.0, 0.0)], texts=(Text(note, (10.0, 30.0), 2.5),))
    assert (LONG_HOLE in found.against, found.turned) == (flat, not flat)


@pytest.mark.parametrize(
    ("drawn", "across"), [([], False), ([(-30.0, 25.0)], True), ([(-30.0, 25.0), (5.0, 0.0)], False)]
)
def test_edges_right_across_say_nothing_where_the_centre_lines_run_across_too(drawn, across):
    """The edges of a rack's teeth do; a centre line along the axis is another matter."""
    centres = [line(x, y, x if y else -65.0, -y) for x, y in drawn]
    found = seen(walls_with(6), centres=centres)
    assert ("its centre lines run across it" in found.against, found.turned) == (across, not across)


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(("share", "spanned"), BOTH)
def test_a_diameter_spans_the_part_from_side_to_side(sign, share, spanned):
    low = -20.0 + sign * alike.ONE_SIZE * 20.0 * share
    across = Dimension(DimensionKind.LINEAR, ((-40.0, low), (-40.0, 20.0)), 90.0, 20.0 - low, "%%c40")
    assert seen(dimensions=(across,)).spanned is spanned


@pytest.mark.parametrize(("share", "says"), BOTH)
def test_a_diameter_is_measured_in_the_view(share, says):
    x = NEAR_VIEW * SIZE * share
    across = Dimension(DimensionKind.LINEAR, ((x, -15.0), (x, 15.0)), 90.0, 30.0, "%%c30")
    assert ("a diameter sign" in seen(dimensions=(across,)).strong) is says


@pytest.mark.parametrize(("share", "pair"), BOTH)
def test_hidden_lines_of_a_bore_stand_at_one_distance(share, pair):
    ink = full_outline(shaft(), None)
    off = alike.ONE_PLACE * SIZE * share
    ink.hidden += [(0.0, 5.0, -40.0, 5.0, 0.0), (0.0, -5.0 - off, -40.0, -5.0 - off, 0.0)]
    assert ("hidden lines on both sides" in seen(ink).strong) is pair


@pytest.mark.parametrize(("share", "pair"), [(OUTSIDE, True), (INSIDE, False)])
def test_hidden_lines_of_a_bore_run_along(share, pair):
    ink = full_outline(shaft(), None)
    run = evidence.HIDDEN_RUN * 60.0 * share
    ink.hidden += [(-30.0, y, -30.0 - run, y, 0.0) for y in (5.0, -5.0)]
    assert ("hidden lines on both sides" in seen(ink).strong) is pair


def walls_with(count):
    """A shaft's outline with lines right across at so many of its six walls."""
    ink = full_outline(shaft(), None)
    walls = [z for k in range(3) for z in (-10.0 - 8 * k, -13.0 - 8 * k)]
    ink.solid += [(z, -17.0, z, 17.0, 0.0) for z in walls[:count]]
    return ink


@pytest.mark.parametrize(("count", "right_across"), [(5, True), (4, False)])
def test_lines_run_right_across_at_most_walls(count, right_across):
    assert (count / 6 >= evidence.RIGHT_ACROSS) is right_across
    assert ("edge lines right across" in seen(walls_with(count)).strong) is right_across


@pytest.mark.parametrize(("share", "square"), BOTH)
def test_an_edge_line_stands_square_to_the_axis(share, square):
    ink = full_outline(shaft(), None)
    lean = evidence.CROSSING * SIZE * share
    walls = [z for k in range(3) for z in (-10.0 - 8 * k, -13.0 - 8 * k)]
    ink.solid += [(z, -17.0, z + lean * (1 if n % 2 else -1), 17.0, 0.0) for n, z in enumerate(walls)]
    for n, z in enumerate(walls):  # the walls above lean with their lines
        ink.solid = [_leaned(e, z, lean * (1 if n % 2 else -1)) for e in ink.solid]
    assert ("edge lines right across" in seen(ink).strong) is square


def _leaned(entity, z, by):
    """An edge with its ends at (z, above 15) moved along by so much; the line across it has moved already."""
    x0, y0, x1, y1, b = entity
    x0, x1 = (x + by if x == z and y > 15.0 else x for x, y in ((x0, y0), (x1, y1)))
    return x0, y0, x1, y1, b


@pytest.mark.parametrize(("share", "along"), BOTH)
def test_a_centre_line_runs_along_the_axis(share, along):
    """It turns about its own middle, so that its ends stay near the axis of a long view."""
    turn = alike.ALONG * share
    c, s = 2.0 * math.cos(turn), 2.0 * math.sin(turn)
    short = View(Axis((0.0, 0.0), (1.0, 0.0)), -1.0, 1.0, 20.0, "both", 1.0, (0,))
    assert evidence._along(line(-c, -s, c, s), short) is along


@pytest.mark.parametrize(("share", "along"), BOTH)
def test_a_centre_line_lies_on_the_axis(share, along):
    off = evidence.ON_AXIS * SIZE * share
    assert evidence._along(line(5.0, off, -65.0, off), VIEW) is along


@pytest.mark.parametrize(("share", "along"), [(OUTSIDE, True), (INSIDE, False)])
def test_a_centre_line_runs_out_of_the_view_by_a_little(share, along):
    assert evidence._along(line(-30.0, 0.0, evidence.RUNS_OUT * 60.0 * share, 0.0), VIEW) is along


@pytest.mark.parametrize(("within", "along"), [(0.63, True), (0.57, False), (-3.0, False)])
def test_one_that_runs_out_begins_in_the_view(within, along):
    """A hundredth of its length of 60 in it: what stands at the end of another view's line is not about that line."""
    assert evidence._along(line(30.0, 0.0, -within, 0.0), VIEW) is along
    assert evidence._along(line(-90.0, 0.0, -60.0 + within, 0.0), VIEW) is along


def test_a_centre_line_may_be_drawn_beyond_both_ends_only():
    stubs = Axis((0.0, 0.0), (1.0, 0.0), ((-65.0, -61.0), (1.0, 5.0)), marked=True)
    assert evidence._along(stubs, VIEW)


@pytest.mark.parametrize(("share", "along"), [(1.01, True), (0.99, False)])
def test_or_it_runs_along_nearly_all_of_it(share, along):
    assert evidence._along(line(-60.0, 0.0, -60.0 + evidence.ALL_ALONG * 60.0 * share, 0.0), VIEW) is along


@pytest.mark.parametrize(("share", "crosses"), [(1.01, True), (0.99, False)])
def test_a_centre_line_crosses_at_nearly_a_right_angle(share, crosses):
    turn = alike.SQUARE * share
    c, s = 25.0 * math.cos(turn), 25.0 * math.sin(turn)
    assert evidence._crosses(line(-30.0 - c, -s, -30.0 + c, s), VIEW) is crosses


@pytest.mark.parametrize(("stray", "many"), [(1, False), (2, True)])
def test_lines_that_stand_away_from_the_axis_make_a_diagram(stray, many):
    """Of six lines square to the axis one may, of seven not two; each hangs on the outline above."""
    ink = walls_with(5)
    ink.solid += [(-36.0 - 8 * k, 20.0, -36.0 - 8 * k, 8.0, 0.0) for k in range(stray)]
    sheet = sheet_of(ink)
    made = prepare(assign(sheet), sheet.segments)
    assert (stray / (5 + stray) > evidence.STRAY) is many
    assert evidence.stray_lines(made, apart(views(made, []))[0]) is many


@pytest.mark.parametrize(("share", "same"), [(0.9, True), (1.1, False)])
def test_a_view_is_the_same_from_both_sides_but_for_a_little(share, same):
    """A plate with one notch: its floor and two thirds of its walls have no image; long edges are sampled sparsely."""
    deep = 3.0
    alone = (1 - alike.SAME) * (2 * (60.0 + 40.0) + 2 * deep) * share
    wide = alone - 2 * deep * 2 / 3
    notch = [(-12.0, 20.0, 0.0), (-12.0, 20.0 - deep, 0.0), (-12.0 - wide, 20.0 - deep, 0.0), (-12.0 - wide, 20.0, 0.0)]
    ink = Ink().chain(
        [(0.0, -20.0, 0.0), (0.0, 20.0, 0.0), *notch, (-60.0, 20.0, 0.0), (-60.0, -20.0, 0.0)], close=True
    )
    sheet = sheet_of(ink)
    made = prepare(assign(sheet), sheet.segments)
    assert evidence._same_about(made, VIEW, line(-30.0, -25.0, -30.0, 25.0)) is same


def test_a_half_counts_its_diameters_from_one_side():
    """A half above its centre line is spanned by no dimension; one measured from the axis still says diameter."""
    across = Dimension(DimensionKind.LINEAR, ((-40.0, 0.0), (-40.0, 20.0)), 90.0, 20.0, "%%c40")
    sheet = sheet_of(half_profile(shaft()), dimensions=(across,))
    made = prepare(assign(sheet), sheet.segments)
    up = View(Axis((0.0, 0.0), (1.0, 0.0), marked=True), -60.0, 0.0, 20.0, "up", 1.0, (0,))
    found = weigh(sheet, made, up, [line(5.0, 0.0, -65.0, 0.0)])
    assert "a diameter sign" in found.strong
    assert np.isclose(up.size, SIZE)


@pytest.mark.parametrize("near", [0.01, 1.0, 30.0])
def test_points_near_a_line_are_those_that_a_plain_measure_finds(near):
    sheet = sheet_of(full_outline(shaft(), None))
    made = prepare(assign(sheet), sheet.segments)
    rng = np.random.default_rng(7)
    places = np.vstack([rng.uniform(-80, 20, (200, 2)), *(made.clusters[0].samples + by * near for by in (0.4, 0.0))])
    within = near * rng.uniform(0.5, 1.5, len(places))
    lines = shapely.MultiLineString([made.network.line(e) for e in made.network.edges])
    plain = shapely.distance(shapely.points(places), lines) <= within
    assert made.near_line(places, within).tolist() == plain.tolist()


@pytest.mark.parametrize(
    ("ends", "place", "radius", "round_"),
    [
        ((-65.0, 5.0), 40.0, 20.0, True),
        ((-65.0, 5.0), 40.0, 19.8, False),
        ((-65.0, 5.0), -30.0, 20.0, False),
        ((-65.0, 0.0), 40.0, 20.0, False),
        (None, 40.0, 20.0, False),
    ],
    ids=["as large", "a little smaller", "on it", "a line to its end", "no line"],
)
def test_a_plain_rectangle_is_a_bar_from_the_side_by_a_line_out_of_both_ends_and_a_circle_as_large(
    ends, place, radius, round_
):
    """The line is drawn with a plain pen. A circle alone may stand beside a cell of a table."""
    ink = Ink().chain([(0.0, -20.0, 0.0), (0.0, 20.0, 0.0), (-60.0, 20.0, 0.0), (-60.0, -20.0, 0.0)], close=True)
    ink.solid += [(ends[0], 0.0, ends[1], 0.0, 0.0)] if ends else []
    assert ("an end-view circle" in seen(ink, circles=[((place, 0.0), radius)]).strong) is round_
