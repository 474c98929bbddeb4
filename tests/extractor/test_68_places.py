"""What is odd in a drawing is shown where it lies, wherever the drawing lies on its sheet."""

from types import SimpleNamespace

import pytest
from support.draw import (
    Cut,
    Drawn,
    Ink,
    Turned,
    box,
    full_outline,
    half_profile,
    mixed,
    shaft,
    sheet_of,
    shifted,
    side_view,
    with_centre,
)
from support.parts import part_of

from extractor import ReadOptions, read_sheet
from extractor.distance import Place
from extractor.recess.remarks import MOST_NAMED, inner_lines
from extractor.sizing.measured.landmarks import Landmark
from extractor.sizing.sizes.spacing import _is_share, _row, distance_between, of_floor

MM = ReadOptions(units="mm")
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))


def second_lines():
    ink = side_view(shaft())
    ink.solid += [(-40, y, -60, y, 0.0) for y in (18.9, -18.9)] + [(-40, 20, -40, -20, 0.0)]
    return ink


def mouth_lines():
    ink = side_view(RING)
    ink.solid += [(0, y, -60, y, 0.0) for y in (20, -20)]
    return ink


def keyway():
    corners = [(0, 20), (-30, 20), (-30, 16), (-40, 16), (-40, 20), (-60, 20), (-60, -20), (0, -20)]
    return with_centre(Ink().chain([(z, r, 0.0) for z, r in corners], close=True), RING, 5.0)


def strip():
    body = full_outline(RING)
    return mixed(body, *(box(-30, s * 19, -50, s * 20) for s in (1, -1)))


def teeth():
    rows = [(-20 - 1.5 * k - d, 10 - h) for k in range(18) for d, h in ((0.0, 0.0), (0.75, 0.9))]
    return full_outline(Drawn(((0, 10), *rows, (-47, 10), (-60, 10))))


# The drawing, the code, and the box (z and radius) in which its place must lie.
ODD = {
    "a thread's second lines": (second_lines(), "inner-lines", (-60, -40, 0, 18.9)),
    "a mouth line": (mouth_lines(), "mouth-line", (-13, -10, 17, 20)),
    "a keyway": (keyway(), "one-sided", (-40, -30, 16, 20)),
    "a long strip": (strip(), "groove-or-thread", (-50, -30, 19, 20)),
    "teeth": (teeth(), "thread", (-47, -20, 0, 10)),
    "a box beside": (
        mixed(half_profile(RING), full_outline(RING), box(-40, 20, -36, 25)),
        "left-out",
        (-40, -36, 20, 25),
    ),
}


@pytest.mark.parametrize(("ink", "code", "where"), ODD.values(), ids=ODD)
@pytest.mark.parametrize("by", [(0.0, 0.0), (250.0, -75.0)])
def test_the_place_and_the_sentence_point_to_it(ink, code, where, by):
    reading = read_sheet(sheet_of(ink, shifted(*by)), MM)
    (finding, *_) = [f for f in reading.findings if f.code == code]
    x, y = finding.at[0] - by[0], finding.at[1] - by[1]
    assert where[0] <= x <= where[1]
    assert where[2] <= abs(y) <= where[3]
    assert f"X{finding.at[0]:.4g} Y{finding.at[1]:.4g}" in finding.message


@pytest.mark.parametrize(
    ("count", "where"),
    [
        (1, "round X0 Y-5 may"),
        (2, "round X0 Y-5 and X1 Y-5 may"),
        (MOST_NAMED, "round X0 Y-5, X1 Y-5 and X2 Y-5 may"),
        (MOST_NAMED + 2, "round X0 Y-5, X1 Y-5, X2 Y-5 and 2 more places may"),
    ],
)
def test_inner_lines_are_one_caution_with_all_their_places(count, where):
    places = [(float(k), 5.0) for k in range(count)]
    told = inner_lines(SimpleNamespace(place=lambda z, r: (z, r)), -1, places)
    assert where in told.message
    assert [told.at, *told.spots] == [(z, -r) for z, r in places]


@pytest.mark.parametrize(("ink", "code"), [row[:2] for row in ODD.values()], ids=ODD)
def test_the_same_is_told_wherever_it_lies(ink, code):
    here, there = (read_sheet(sheet_of(ink, shifted(*by)), MM) for by in ((0.0, 0.0), (-1234.5, 678.0)))
    assert code in {f.code for f in here.findings}
    assert [(f.code, f.level) for f in here.findings] == [(f.code, f.level) for f in there.findings]
    spans = [[(round(g.z_near, 6), round(g.floor_diameter, 6)) for g in r.part.grooves] for r in (here, there)]
    assert spans[0] == spans[1]


def mark(at, place=None):
    """A landmark along z."""
    return Landmark(at=at, place=place, beside=(10.0, 20.0), rank=0)


@pytest.mark.parametrize(("wall", "told"), [(0.0, False), (-0.001, True)])
def test_a_wall_in_the_front_face_is_at_no_distance_from_it(wall, told):
    # What would be told from a corner is told from the front face, and there is nothing between the two.
    found = distance_between((mark(-5.0), mark(wall, Place(groove=1, spot="near"))), None, "shop")
    assert (found is not None) is told


def test_a_place_is_at_no_distance_from_itself():
    front, wall = mark(0.0, Place(groove=0, spot="front")), mark(-7.0, Place(groove=1, spot="near"))
    assert distance_between((wall, wall), None, "shop") is None
    assert distance_between((front, wall), None, "shop").nominal == 7.0


@pytest.mark.parametrize(
    ("deviations", "deeper", "nearer"),
    [((0.0, 0.2), "(-0.2, 0.0)", "(0.0, 0.2)"), ((-0.1, 0.0), "(0.0, 0.1)", "(-0.1, 0.0)")],
)
def test_a_distance_to_a_floor_turns_with_the_side_that_it_comes_from(deviations, deeper, nearer):
    """A floor behind the other end goes down as the distance grows, one before it up; nothing is -0."""
    floor, front, back = mark(-4.0)._replace(floor=1), mark(0.0), mark(-60.0)
    for other, wanted in ((front, deeper), (back, nearer)):
        assert repr(of_floor((floor, other), deviations)) == repr(of_floor((other, floor), deviations)) == wanted


@pytest.mark.parametrize(
    ("size", "spacing", "one"),
    [(7.0, 7.0, True), (21.0, 7.0, False), (10.5, 7.0, False), (7.0, 7 / 25.4, True), (7 / 25.4, 7.0, True)],
)
def test_a_size_in_either_unit_is_that_of_one_spacing_or_of_all(size, spacing, one):
    assert _is_share(size, spacing, 3 * spacing) is one


class Row:
    """Middles of like grooves, and walls among them; places count as one within 0.1."""

    def __init__(self, middles, walls=(), snap=0.1):
        self.snap = snap
        spots = [(z, "centre") for z in middles] + [(z, "near") for z in walls]
        self.along = tuple(mark(z, Place(groove=n, spot=spot)) for n, (z, spot) in enumerate(spots, 1))
        self.part = part_of([(-k, -k - 0.5, 34) for k in range(1, len(spots) + 1)])

    def near(self, a, b):
        return abs(a - b) <= self.snap

    def found(self, one, two, pitch, **how):
        ends = [next(m for m in self.along if m.at == z) for z in (one, two)]
        return [m.at for m in _row(*ends, pitch, self, **how)]


def test_a_row_goes_on_over_places_of_its_kind_at_its_pitch_and_takes_the_nearest():
    assert Row([-7, -14, -21], walls=[-28]).found(-7, -14, 7.0) == [-7, -14, -21]
    assert Row([-7, -14, -21.05, -20.95, -28]).found(-7, -14, 7.0)[:3] == [-7, -14, -21.05]
    assert Row([-7, -14, -20.91, -21.02, -28]).found(-7, -14, 7.0) == [-7, -14, -21.02, -28]
    assert Row([-21, -14, -7.02, -6.91, 0]).found(-21, -14, 7.0) == [-21, -14, -7.02, 0]


@pytest.mark.parametrize(("off", "one"), [(0.199, True), (0.201, False)])
def test_what_is_measured_is_one_spacing_within_twice_the_snap(off, one):
    """Else it is measured over several, and the row ends at its second end."""
    found = Row([-7, -14 - off, -21 - off]).found(-7, -14 - off, 7.0)
    assert found == [-7, -14 - off, *([-21 - off] if one else [])]


def test_a_spacing_off_by_twice_the_snap_itself_is_still_one():
    assert Row([-7, -14.25, -21.25], snap=0.125).found(-7, -14.25, 7.0) == [-7, -14.25, -21.25]


def test_a_row_measured_as_a_whole_ends_where_it_is_measured():
    assert Row([-7, -14, -21, -28]).found(-7, -21, 7.0) == [-7, -14, -21]
    assert Row([-7, -14, -21, -28]).found(-28, -14, 7.0) == [-28, -21, -14]


def test_a_pitch_may_be_less_than_one():
    assert Row([-0.5, -1.0, -1.5, -2.0], snap=0.01).found(-2.0, -1.5, 0.5) == [-2.0, -1.5, -1.0, -0.5]


def test_a_row_stays_on_the_side_of_its_grooves():
    """The first is outside, as the second; the third, in line with them, and the last are in the bore."""
    row = Row([-7, -14, -21, -28])
    inside = {"where": "inside", "mouth_diameter": 20}
    row.part = part_of([(-7, -8, 34), (-14, -15, 34), (-21, -22, 24, inside), (-28, -29, 24, inside)])
    assert [g.where for g in row.part.grooves] == ["outside", "outside", "inside", "inside"]
    assert row.found(-7, -14, 7.0) == [-7, -14]
    assert row.found(-28, -21, 7.0) == [-28, -21]


def test_a_row_of_like_grooves_takes_those_like_either_of_its_two():
    row = Row([-7, -14, -21])
    row.part = part_of([(-1, -1.5, 34), (-2, -2.5, 30), (-3, -3.5, 34)])
    assert row.found(-7, -14, 7.0, like=True) == [-7, -14, -21]
    row.part = part_of([(-1, -1.5, 34), (-2, -2.5, 30), (-3, -3.5, 30)])
    front = mark(0.0, Place(groove=0, spot="front"))
    assert [m.at for m in _row(front, row.along[0]._replace(at=-7.0), 7.0, row, like=True)] == [0.0, -7]
