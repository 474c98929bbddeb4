"""Outline on a layer named for dimensions: set aside, let in where nothing closes without, asked where both read."""

from dataclasses import replace

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, full_outline, half_profile, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.crowds import TooDenseError
from extractor.placing import placing
from extractor.sheet import Segments, Source, Text
from extractor.viewing.roles import assign

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))
SLEEVE = replace(RING, bore=10.0)
WALLS = [(-10.0, -13.0, 34.0), (-30.0, -33.0, 34.0)]


def read(ink, mine, role="dimension", texts=()):
    """The reading with those strokes on a layer named for such a role of which `mine` is true."""
    sheet = sheet_of(ink)
    segments = sheet.segments
    sources = (*segments.sources, Source("9", "LINE", "L9", role=role))
    rows = zip(segments.ends.tolist(), segments.source.tolist(), strict=True)
    which = np.array([len(segments.sources) if mine(*ends) else source for ends, source in rows])
    return read_sheet(
        replace(sheet, segments=Segments(segments.ends, segments.bulge, which, sources), texts=texts),
        ReadOptions(units="mm"),
    )


def figures(reading):
    return (reading.part.length, [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves])


def codes(reading):
    return [f.code for f in reading.findings]


@pytest.mark.parametrize("ink", [side_view(RING), full_outline(RING), half_profile(RING), section(SLEEVE)])
def test_end_faces_on_that_layer_close_the_outline_with_the_rest(ink):
    reading = read(ink, lambda x0, y0, x1, y1: x0 == x1 and x0 in (0.0, -60.0))
    assert (figures(reading), codes(reading)) == ((60.0, WALLS), [])


@pytest.mark.parametrize("ink", [side_view(RING), full_outline(RING), half_profile(RING)])
def test_what_alone_closes_the_outline_is_let_in_with_a_caution(ink):
    """The grooves' floors: without them no outline closes."""
    reading = read(ink, lambda x0, y0, x1, y1: y0 == y1 and abs(y0) == 17.0)
    assert (figures(reading), codes(reading)) == ((60.0, WALLS), ["let-in"])


def test_an_outline_that_closes_with_and_without_them_asks_which_is_meant():
    """All behind the second groove's wall: a whole part is left in front of it."""
    reading = read(side_view(RING), lambda x0, y0, x1, y1: max(x0, x1) <= -30.0 and min(x0, x1) < -30.0)
    (stop,) = [f for f in reading.findings if f.stops]
    assert stop.code == "lines-unexplained"
    assert "one is 30 long, the other 60" in stop.message


def constructed(out, over=30.0):
    """The ring under construction lines: through its walls, and along its land on both sides and a floor on one."""
    ink = side_view(RING)
    ink.solid += [(z, -over - 20, z, over + 20, 0.0) for z in (-10.0, -13.0, -30.0)]
    ink.solid += [(over, y, -60 - over, y, 0.0) for y in (20.0, -20.0, 17.0)]
    return read(ink, lambda x0, y0, x1, y1: max(abs(y0), abs(y1)) > 20 or max(x0, x1) > 0, role=out)


def test_lines_on_a_layer_named_for_construction_that_run_over_everything_are_no_outline():
    reading = constructed("construction")
    assert (figures(reading), codes(reading)) == ((60.0, WALLS), [])
    assert codes(constructed("")) != []


@pytest.mark.parametrize("role", ["construction", "dimension"])
def test_an_outline_on_a_layer_of_that_name_is_read_all_the_same(role):
    """`KONSTRUKTION` may hold what is designed: what closes hangs free at no end."""
    reading = read(side_view(RING), lambda *ends: True, role=role)
    assert figures(reading) == (60.0, WALLS)


@pytest.mark.parametrize(("rest", "heard"), [(301.0, True), (299.0, False)])
def test_the_name_of_a_layer_says_nothing_where_it_holds_most_of_what_is_drawn(rest, heard):
    """More than seven tenths of the length of all strokes: 700 beside 300."""
    ink = Ink()
    ink.solid += [(0.0, 0.0, rest, 0.0, 0.0), (0.0, 50.0, 700.0, 50.0, 0.0)]
    sheet = sheet_of(ink)
    segments = sheet.segments
    sources = (*segments.sources, Source("9", "LINE", "L9", role="dimension"))
    which = np.array([0, len(sources) - 1])
    roles = assign(replace(sheet, segments=Segments(segments.ends, segments.bulge, which, sources)))
    assert bool(roles.by_layer) is heard


BESIDE = [(0.0, 10.0, 4.0, 10.0, 0.0), (0.0, -10.0, 4.0, -10.0, 0.0)]
"""Two lines that stand at the front face: outline of nothing."""


def test_lines_on_that_layer_with_which_nothing_reads_are_told():
    ink = side_view(RING)
    ink.solid += BESIDE
    reading = read(ink, lambda x0, y0, x1, y1: max(x0, x1) > 0.0)
    assert (figures(reading), codes(reading)) == ((60.0, WALLS), ["lines-unexplained"])
    assert reading.findings[0].level == "caution"
    assert "with them no part can be read" in reading.findings[0].message


def test_a_second_reading_that_is_too_dense_leaves_the_first(monkeypatch):
    def crowded(*given):
        if not given[-1].set_aside:
            raise TooDenseError
        return placed(*given)

    placed = placing.Groundwork.place
    monkeypatch.setattr(placing.Groundwork, "place", crowded)
    ink = side_view(RING)
    ink.solid += BESIDE
    reading = read(ink, lambda x0, y0, x1, y1: max(x0, x1) > 0.0)
    assert (figures(reading), codes(reading)) == ((60.0, WALLS), ["lines-unexplained"])


def test_sizes_on_that_layer_that_begin_at_the_part_on_both_sides_ask_nothing():
    """Extension lines of a diameter past the end, without a number that would say what they are."""
    ink = side_view(RING)
    ink.solid += [(-60.0, y, -72.0, y, 0.0) for y in (20.0, -20.0)] + [(-70.0, 20.0, -70.0, -20.0, 0.0)]
    reading = read(ink, lambda x0, y0, x1, y1: min(x0, x1) < -60.0)
    assert (figures(reading), codes(reading)) == ((60.0, WALLS), [])


def test_what_closes_only_with_strokes_that_look_like_a_size_is_asked_about():
    """A size of its own beside the ring is set aside by what it looks like, and let in with the floors."""
    ink = side_view(RING)
    ink.solid += [(-60.0, -60.0, 0.0, -60.0, 0.0)]
    ink.solid += [(z, -58.0, z, -61.0, 0.0) for z in (-60.0, 0.0)]
    ink.solid += [(z, -60.0, z + s, -60.0 + t, 0.0) for z, s in ((-60.0, 2.5), (0.0, -2.5)) for t in (0.4, -0.4)]
    size = (Text("60", (-30.0, -59.5), 2.5),)
    sized = read(ink, lambda x0, y0, x1, y1: y0 == y1 and abs(y0) == 17.0, texts=size)
    (stop,) = [f for f in sized.findings if f.stops]
    assert (stop.code, figures(sized)) == ("let-in", (60.0, WALLS))
    assert "40 across and 60 long" in stop.message


def notched(draw, sides, *, top=20.0, floor=17.0, near=-45.0, far=-49.0, role="dimension"):
    """A ring with a notch under its land on some sides, on a layer of its own."""
    ink, mine = draw(RING), []
    for s in sides:
        mine += [(near, s * top, near, s * floor), (near, s * floor, far, s * floor), (far, s * floor, far, s * top)]
    ink.solid += [(*line, 0.0) for line in mine]
    return read(ink, lambda *ends: ends in mine, role=role)


@pytest.mark.parametrize(
    ("draw", "sides"), [(side_view, (1, -1)), (full_outline, (-1, 1)), (half_profile, (1,)), (half_profile, (1, -1))]
)
@pytest.mark.parametrize("role", ["dimension", "text"])
def test_a_groove_on_such_a_layer_under_a_land_that_runs_on_is_asked_for(draw, sides, role):
    reading = notched(draw, sides, role=role)
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, abs(stop.at[1])) == ("lines-unexplained", 17.0)
    assert "at Z-45 to Z-49 one shows 40, the other 34" in stop.message


@pytest.mark.parametrize(
    ("sides", "place"),
    [
        ((1,), {}),  # a mark, a letter, a dimension stand on one side
        ((1, -1), {"top": 19.9}),  # ends before the land
        ((1, -1), {"top": 17.0, "floor": 12.0, "near": -10.0, "far": -13.0}),  # extension lines begin at corners
        ((1, -1), {"near": -10.0, "far": -30.0, "floor": 12.0}),
    ],
)
def test_other_lines_on_it_are_not(sides, place):
    assert (figures(reading := notched(side_view, sides, **place)), codes(reading)) == ((60.0, WALLS), [])


@pytest.mark.parametrize(("off", "stops"), [(0.013, True), (0.016, False)])
def test_its_walls_end_on_the_land_within_what_is_one_place(off, stops):
    """That is 0.0144 here, ten times a share of 2e-5 of the view."""
    assert bool(codes(notched(full_outline, (1, -1), top=20.0 - off))) == stops
