"""End views at a scale of their own, in pieces, and with holes drawn in them: none of it is a part beside the part."""

import math

import pytest
from support.draw import Cut, Turned, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Dimension, DimensionKind, Source

RING = Turned(((10.0, 30.0), (50.0, 40.0)), (Cut(-25.0, 4.0, 34.0),))
LAYER = Source("1", "CIRCLE", "0")
WIDTH = Dimension(DimensionKind.LINEAR, ((-60.0, 20.0), (-60.0, -20.0)), 90.0, 40.0, "\u00d840")
LEVEL, ABOVE = (60.0, 0.0), (60.0, 80.0)


def read(*radii, at=LEVEL, solid=(), cross=True):
    """The findings of a shaft with circles about a place, centre lines across them and more lines (x, y, x, y, bulge).

    Lines are given from the middle of the circles.
    """
    ink, (x, y), reach = side_view(RING), at, 1.2 * max(radii, default=20.0)
    ink.solid += [(x + a, y + b, x + c, y + d, bulge) for a, b, c, d, bulge in solid]
    if cross:
        ink.centre += [(x - reach, y, x + reach, y, 0.0), (x, y - reach, x, y + reach, 0.0)]
    circles = tuple(Circle(at, r, LAYER) for r in radii)
    reading = read_sheet(sheet_of(ink, circles=circles, dimensions=(WIDTH,)), ReadOptions(units="mm"))
    return [(str(f.code), f.message) for f in reading.findings if f.level != "note"]


def codes(*radii, **more):
    return [code for code, _ in read(*radii, **more)]


@pytest.mark.parametrize("scale", [0.1, 0.2, 0.25, 0.4, 0.5, 1.0, 2.0, 2.5, 5.0, 10.0])
@pytest.mark.parametrize("radii", [(20.0,), (20.0, 15.0)])
def test_an_end_view_may_have_a_scale_of_its_own(scale, radii):
    assert codes(*(r * scale for r in radii), at=(300.0, 0.0)) == []


@pytest.mark.parametrize(("scale", "told"), [(0.5024, []), (0.5026, ["face-unclear"]), (0.3, ["face-unclear"])])
def test_a_scale_is_one_of_the_row_within_half_a_hundredth(scale, told):
    assert codes(20.0 * scale) == told


def test_at_its_own_scale_an_end_view_shows_what_the_view_does_not():
    ((code, words),) = read(10.0, 3.0)
    assert code == "face-unclear"
    assert "a circle 12 across" in words


def arc_of(radius, turn, gap):
    """An arc round the middle between two angles, from `gap` behind a turn to `gap` before the next quarter."""
    a, b = math.radians(turn + gap), math.radians(turn + 90 - gap)
    ends = radius * math.cos(a), radius * math.sin(a), radius * math.cos(b), radius * math.sin(b)
    return (*ends, math.tan((b - a) / 4))


def test_a_circle_in_an_outline_that_is_no_circle_is_as_large_as_drawn():
    """The outline has flats: the circle is that of a bore."""
    outline = [arc_of(20.0, turn, 8.0) for turn in (0, 90, 180, 270)]
    ((code, words),) = read(10.0, solid=outline)
    assert code == "face-unclear"
    assert "a circle 20 across" in words


def piece(wide, radius=20.0, turn=1, only=1):
    """What a hole so wide across leaves of one side of a round section: its chord and its arc."""
    high = math.sqrt(radius**2 - wide**2)
    bulge = math.tan((math.pi - 2 * math.asin(wide / radius)) / 4)
    return [(turn * wide, -high, turn * wide, high, 0.0), (turn * wide, high, turn * wide, -high, -turn * bulge)]


@pytest.mark.parametrize("at", [LEVEL, ABOVE, (-30.0, 80.0)])
@pytest.mark.parametrize("radius", [20.0, 10.0])
@pytest.mark.parametrize("wide", [1.0, 3.0])
def test_the_section_at_a_hole_across_is_one_end_view_in_two_pieces(at, radius, wide):
    both = [*piece(wide, radius), *piece(wide, radius, turn=-1)]
    assert codes(at=at, solid=both) == []


def test_one_piece_by_itself_is_no_round_end():
    assert codes(solid=piece(3.0)) != []


HOLE = [(-4.0, 19.0, -4.0, 8.0), (4.0, 19.0, 4.0, 8.0), (-2.0, 8.0, -2.0, -4.0), (2.0, 8.0, 2.0, -4.0)]
EDGES = [(-4.0, 19.0, 4.0, 19.0), (-4.0, 8.0, 4.0, 8.0), (-2.0, -4.0, 2.0, -4.0)]
STEPPED = [(*line, 0.0) for line in (*HOLE, *EDGES)]


@pytest.mark.parametrize("at", [LEVEL, ABOVE])
def test_a_stepped_hole_in_an_end_view_is_no_part(at):
    assert codes(20.0, at=at, solid=STEPPED) == []


@pytest.mark.parametrize(("out", "told"), [(0.63, []), (0.64, ["several-parts"]), (6.0, ["several-parts"])])
def test_a_figure_that_reaches_out_of_the_circle_is_a_view_of_its_own(out, told):
    """Its corners are 4 off the middle line: they lie 20.04 from the middle, two thousandths out, at 0.637."""
    assert codes(20.0, at=ABOVE, solid=[(a, b + out, c, d + out, e) for a, b, c, d, e in STEPPED]) == told


def test_a_figure_beside_the_pieces_of_a_section_hides_them_not():
    stray = [(22.0, -2.0, 26.0, -2.0, 0.0), (26.0, -2.0, 24.0, 2.0, 0.0), (24.0, 2.0, 22.0, -2.0, 0.0)]
    assert codes(solid=[*piece(3.0), *piece(3.0, turn=-1), *stray]) == []


@pytest.mark.parametrize(("wide", "told"), [(20.39, []), (20.42, ["not-turned"])])
def test_pieces_make_a_round_no_wider_than_the_part(wide, told):
    """Within two hundredths."""
    assert codes(solid=[*piece(3.0, wide), *piece(3.0, wide, turn=-1)]) == told


def test_what_lies_in_a_circle_alone_on_its_sheet_is_read():
    """A view within a round border, whose middle lines cross."""
    ink = side_view(RING)
    ink.centre += [(-30.0, -80.0, -30.0, 80.0, 0.0)]
    sheet = sheet_of(mixed(ink), circles=(Circle((-30.0, 0.0), 60.0, LAYER),), dimensions=(WIDTH,))
    assert read_sheet(sheet, ReadOptions(units="mm")).part is not None


PICTURE = [(-30.0, -14.0), (30.0, -34.0), (38.0, -12.0), (-22.0, 8.0)]


@pytest.mark.parametrize(("long", "told"), [(1.49, []), (1.51, ["several-parts"])])
def test_a_figure_beside_an_end_view_s_own_centre_line_is_no_half_about_it(long, told):
    """The line runs out of its circle by half of its radius at most; a longer one may be an axis."""
    ink, (x, y) = side_view(RING), (220.0, 0.0)
    corners = [(100.0 + a, 10.0 + b) for a, b in PICTURE]
    ink.solid += [(*p, *q, 0.0) for p, q in zip(corners, [*corners[1:], corners[0]], strict=True)]
    ink.centre += [(x - 24.0, y, x + 24.0, y, 0.0), (x, y - 20.0 * long, x, y + 20.0 * long, 0.0)]
    sheet = sheet_of(ink, circles=(Circle((x, y), 20.0, LAYER),), dimensions=(WIDTH,))
    found = read_sheet(sheet, ReadOptions(units="mm")).findings
    assert [str(f.code) for f in found if f.stops] == told
