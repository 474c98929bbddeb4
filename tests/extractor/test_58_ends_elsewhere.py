"""End views and cross-sections wherever they stand: a turned part shows no other edges there than from the side.

ISO 128-3 (from memory): a section moved out of its view stands under the letters of its plane.
"""

from math import asin, cos, pi, sin, tan
from types import SimpleNamespace

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, mixed, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Pen, Source, Text
from extractor.viewing.round_figures import is_on_circle, planes

PART = Turned(((20.0, 30.0), (70.0, 42.0)), (Cut(-30.0, 4.0, 36.0), Cut(-50.0, 4.0, 36.0)))
BUSH = Turned(((90.0, 42.0),), (Cut(-30.0, 4.0, 36.0),), bore=20.0)
BELOW, IN_LINE, FAR = (-30.0, -80.0), (50.0, 0.0), (110.0, 64.0)
SEEN = Source("", "CIRCLE", "0", pen=Pen.SOLID)


def arc(at, radius, low, high):
    """An arc from one angle on to another, radians."""
    half = (high - low) / 2
    ends = [at[k] + radius * f(turn) for turn in (low, high) for k, f in enumerate((cos, sin))]
    return (*ends, tan(half / 2))


def flat(at, radius, deep, sides=1):
    """A round with one flat at its right, or one at each side."""
    (x, y), half = at, pi / 2 - asin(1 - deep / radius)
    high, edge = radius * sin(half), radius - deep
    rows = [(x + s * edge, y - high, x + s * edge, y + high, 0.0) for s in (1, -1)[:sides]]
    turns = [(half, pi - half if sides > 1 else pi), (pi + half if sides > 1 else pi, 2 * pi - half)]
    return rows + [arc(at, radius, *turn) for turn in turns]


def many_sided(at, reach, sides):
    corners = [(at[0] + reach * cos(2 * pi * k / sides), at[1] + reach * sin(2 * pi * k / sides)) for k in range(sides)]
    return [(*corners[k - 1], *corners[k], 0.0) for k in range(sides)]


def told(at, *radii, lines=(), head="", cut=None, part=PART, height=3.5, view=side_view, move=lambda x, y: (x, y)):
    """Codes and words of what is not a mere note, with a figure at a place under its heading, a plane where it cuts."""
    reach, (x, y) = 30.0, at
    marks = [(cut, s * 27.0, cut, s * 33.0, 0.0) for s in (1, -1)] if cut is not None else []
    cross = [(x - reach, y, x + reach, y, 0.0), (x, y - reach, x, y + reach, 0.0)]
    ink = mixed(view(part), Ink(solid=[*lines, *marks], centre=cross))
    texts = [Text(head, move(x - 8.0, y + max([*radii, 21.0]) + 4.0), height)] if head else []
    texts += [Text("A", move(cut + 2.0, s * 31.0), height) for s in (1, -1)] if cut is not None else []
    sheet = sheet_of(ink, move, circles=tuple(Circle(move(*at), r, SEEN) for r in radii), texts=tuple(texts))
    found = read_sheet(sheet, ReadOptions(units="mm")).findings
    return [(str(f.code), f.message) for f in found if f.level != "note"]


@pytest.mark.parametrize("at", [BELOW, IN_LINE])
@pytest.mark.parametrize(("radii", "head"), [
    ((18.0,), "A-A"), ((18.0,), "SCHNITT A-A"), ((18.0, 21.0), "COUPE A – A"), ((36.0,), "A-A (2:1)"),
    ((9.0,), "SEZIONE A-A 1:2"), ((18.0,), "SECTION A"),
])  # fmt: skip
def test_a_true_cross_section_is_quiet(at, radii, head):
    """The circle of the floor that it cuts, and of the land behind it, at the scale of its heading."""
    assert told(at, *radii, head=head, cut=-32.0) == []


@pytest.mark.parametrize("at", [BELOW, IN_LINE])
@pytest.mark.parametrize(("radii", "head", "cut", "across", "read"), [
    ((17.5,), "A-A", -32.0, "35", "36"), ((21.0,), "SECTION A-A", -32.0, "42", "36"),
    ((18.0,), "PRZEKRÓJ A-A", -60.0, "36", "42"), ((35.0,), "A-A (2:1)", -32.0, "35", "36"),
    ((17.5, 21.0), "A-A", -52.0, "35", "36"),
])  # fmt: skip
def test_a_cross_section_of_another_size_is_told(at, radii, head, cut, across, read):
    ((code, words),) = told(at, *radii, head=head, cut=cut)
    assert code == "views-differ"
    assert f"circle {across} across, and the view that was read is {read} across where A cuts" in words


def test_how_far_a_circle_may_be_off():
    """Each view is drawn by itself: half a percent of the radius is one size."""
    assert told(BELOW, 18.08, head="A-A", cut=-32.0) == []
    assert told(BELOW, 18.11, head="A-A", cut=-32.0) != []


@pytest.mark.parametrize("move", [lambda x, y: (-x, y), lambda x, y: (y, x)])
def test_sections_of_a_view_turned_round_and_of_one_upright(move):
    assert told(BELOW, 18.0, head="A-A", cut=-32.0, move=move) == []
    assert [code for code, _ in told(BELOW, 17.5, head="A-A", cut=-32.0, move=move)] == ["views-differ"]


@pytest.mark.parametrize(("part", "view", "radii", "quiet"), [
    (PART, side_view, (18.0, 6.0), False), (PART, side_view, (18.0,), True),
    (BUSH, section, (18.0, 10.0), True), (BUSH, section, (18.0, 11.0), False),
])  # fmt: skip
def test_the_bore_in_a_cross_section_is_that_of_the_part(part, view, radii, quiet):
    found = [
        row for row in told(BELOW, *radii, head="A-A", cut=-32.0, part=part, view=view) if row[0] == "views-differ"
    ]
    assert (found == []) is quiet


@pytest.mark.parametrize(("at", "radii", "head", "code"), [
    (BELOW, (21.0,), "VIEW A", None), (FAR, (21.0, 15.0), "", None), (BELOW, (42.0, 30.0), "ANSICHT X", None),
    (BELOW, (24.15,), "VIEW A", "views-differ"), (FAR, (21.0, 6.3), "", "views-differ"),
    (BELOW, (21.0, 6.3), "VUE A", "views-differ"), (FAR, (7.0,), "", None), (BELOW, (24.15,), "DETAIL A", None),
])  # fmt: skip
def test_an_end_view_that_no_projection_ties_to_the_view(at, radii, head, code):
    """Small circles under no heading are holes of something; a detail shows a bit of the part."""
    found = [row[0] for row in told(at, *radii, head=head) if "end view" in row[1]]
    assert found == ([code] if code else [])


@pytest.mark.parametrize(("lines", "head", "cut", "code"), [
    (many_sided(BELOW, 21.0, 6), "", None, "views-differ"), (many_sided(BELOW, 21.0, 6), "VIEW A", None, "not-turned"),
    (many_sided(BELOW, 21.0, 4), "VISTA B", None, "not-turned"), (flat(BELOW, 21.0, 4.0), "", None, "views-differ"),
    (flat(BELOW, 18.0, 3.0, 2), "A-A", -32.0, "not-turned"), (flat(BELOW, 18.0, 1.0), "A-A", -32.0, "views-differ"),
])  # fmt: skip
def test_what_is_not_round_is_told(lines, head, cut, code):
    """A stop under a heading of this part; a single narrow flat may be cut into it after turning."""
    assert [row[0] for row in told(BELOW, lines=lines, head=head, cut=cut)] == [code]


def test_flats_that_the_view_shows_as_well_are_quiet():
    """Lines along the axis where no land is so high: the edges of the flats, seen from the side."""
    edges = [(-60.0, s * 9.0, -80.0, s * 9.0, 0.0) for s in (1, -1)]
    edges += [(z, -9.0, z, 9.0, 0.0) for z in (-60.0, -80.0)]
    found = told(BELOW, lines=[*edges, *flat(BELOW, 21.0, 2.0)], head="A-A", cut=-70.0)
    assert not any("cross-section" in words for _, words in found)


def test_the_end_view_of_another_part_is_not_held_against_this_one():
    other = side_view(Turned(((25.0, 33.0),)), None).map(lambda x, y: (x - 70.0, y - 80.0))
    assert not any("end view" in words for _, words in told(BELOW, 16.5, 8.0, lines=other.solid))


@pytest.mark.parametrize(("sides", "is_round"), [(15, False), (16, True)])
def test_chords_make_a_round_from_sixteen_on(sides, is_round):
    """Halfway along a chord a rim is nearer its middle by the cosine of half the chord's angle: 0.978 and 0.981."""
    rim = np.array([(cos(2 * pi * k / sides), sin(2 * pi * k / sides)) for k in range(sides)])
    assert is_on_circle(rim, (0.0, 0.0)) is is_round


@pytest.mark.parametrize(("radius", "is_told"), [(8.35, False), (8.5, True)])
def test_a_figure_without_a_heading_is_an_end_from_two_fifths_of_the_part_on(radius, is_told):
    """The part reaches 21 from its axis, and the pen of its lines a little farther."""
    assert bool(told(BELOW, radius)) is is_told


@pytest.mark.parametrize(("height", "heard"), [(1.30, False), (1.36, True)])
def test_a_heading_stands_within_six_of_its_letters(height, heard):
    """It begins 25 above the middle and 8 to the left, and passes over it at 8 beyond the circle at the nearest."""
    found = told(BELOW, 17.5, head="A-A", cut=-32.0, height=height)
    assert any("where A cuts" in words for _, words in found) is heard


@pytest.mark.parametrize(
    ("lean", "away", "marked"),
    [(0.0, 8.7, True), (0.0, 8.8, False), (0.0099, 2.0, True), (0.0101, 2.0, False)],
)
def test_a_mark_stands_upright_beside_its_letter(lean, away, marked):
    """Letters 3.5 high, so 8.75 at most from the mark; it leans by a hundredth of its own length at most."""
    mark = [(-32.0, 27.0, -32.0 + 6.0 * lean, 33.0, 0.0)]
    view = SimpleNamespace(reach=21.0, size=90.0, covers=lambda at: False)
    folded = SimpleNamespace(view=view, axis=SimpleNamespace(fold=lambda places: places))
    sheet = sheet_of(Ink(solid=mark), texts=(Text("A", (-32.0 + away, 31.0), 3.5),))
    assert bool(planes(sheet, folded, "A")) is marked
