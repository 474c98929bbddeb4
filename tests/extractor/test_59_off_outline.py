"""A size measured from where the outline is not says that a line is missing; right drawings have sizes off it, too."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
import shapely
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view
from support.ties import along, bar, tied
from support.varied import all_pairs

from extractor.part import ReadOptions
from extractor.reading import read_sheet
from extractor.sheet import Circle, Dimension, DimensionKind, Source, Text

BAR = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)), chamfer=1.0)
MM = ReadOptions(units="mm")


def length(a, b, r=20.0, text=None):
    """A dimension along the axis between two z."""
    return Dimension(DimensionKind.LINEAR, ((a, r), (b, r)), 0.0, abs(a - b), text)


def across(d, z=-5.0, text=None):
    """A dimension over a diameter."""
    return Dimension(DimensionKind.LINEAR, ((z, d / 2), (z, -d / 2)), 90.0, d, text)


def found(*dimensions, ink=None, part=BAR):
    """Codes of the stops."""
    reading = read_sheet(sheet_of(ink or side_view(part), dimensions=dimensions), MM)
    return [f.code for f in reading.findings if f.stops]


def without_face(part=BAR):
    """The view without the line of its front face and the two slopes of its chamfer."""
    ink = side_view(part)
    kept = [e for e in ink.solid if not (e[0] == e[2] == 0.0) and max(e[0], e[2]) <= -part.chamfer]
    return Ink(kept, ink.centre)


def test_the_face_of_a_chamfered_end_is_missed_by_the_length_that_starts_at_it():
    """The chamfer's edge is taken for the face: every groove would lie a millimetre off."""
    assert found(length(0, -60, r=19.0), ink=without_face()) == ["off-outline"]
    assert found(length(0, -10, r=19.0), ink=without_face()) == ["off-outline"]
    assert found(length(-1, -60, r=20.0), ink=without_face()) == []
    assert found(length(0, -60, r=19.0)) == []


@pytest.mark.parametrize("z", [1.5, -61.5, 30.0])
def test_a_length_from_beyond_an_end_stops(z):
    assert found(length(z, -30)) == ["off-outline"]


@pytest.mark.parametrize(("z", "alarm"), [(0.029, False), (0.031, True)])
def test_a_length_hits_its_place_within_half_a_thousandth_of_the_part(z, alarm):
    assert bool(found(length(z, -30))) is alarm


@pytest.mark.parametrize(("z", "alarm"), [(59.9, True), (60.1, False)])
def test_what_lies_a_whole_length_beyond_is_another_view(z, alarm):
    assert bool(found(length(z, -30))) is alarm


@pytest.mark.parametrize(("r", "alarm"), [(23.9, True), (24.1, False)])
def test_what_lies_a_tenth_of_the_diameter_outside_is_another_view(r, alarm):
    assert bool(found(length(1.5, -30, r=r))) is alarm


@pytest.mark.parametrize(
    ("off", "text", "alarm"), [(0.29, "30", False), (0.31, "30", True), (0.29, "30.29", True), (0.29, None, True)]
)
def test_an_end_picked_a_little_beside_its_place_is_none_if_the_typed_size_says_so(off, text, alarm):
    assert bool(found(length(off, -30, text=text))) is alarm


def test_one_place_is_told_once():
    assert found(length(1.5, -30), length(1.5, -10), length(1.5, -60)) == ["off-outline"]


@pytest.mark.parametrize(("ends", "whole"), [((1.5, -30), "61.5 long, not 60"), ((-30, -62.25), "62.25 long, not 60")])
def test_the_length_that_the_part_would_have_is_named(ends, whole):
    reading = read_sheet(sheet_of(side_view(BAR), dimensions=(length(*ends),)), MM)
    (stop,) = [f for f in reading.findings if f.stops]
    assert whole in stop.message


def test_an_end_within_the_part_where_nothing_is_drawn_stops():
    assert found(length(0, -45.0)) == ["off-outline"]


FEATURES = {
    "a cross hole's centre line": Ink([], [(-45.0, 25.0, -45.0, -25.0, 0.0)]),
    "a hidden bore's end": Ink([], [], [(-45.0, 5.0, -45.0, -5.0, 0.0), (-45.0, 5.0, -60.0, 5.0, 0.0)]),
    "the end of a thread": Ink([(-45.0, 20.0, -45.0, -20.0, 0.0)]),
}


@pytest.mark.parametrize("feature", FEATURES.values(), ids=FEATURES)
def test_lengths_to_what_is_no_corner_of_the_outline_are_right_drawings(feature):
    reading = read_sheet(sheet_of(mixed(side_view(BAR), feature), dimensions=(length(0, -45.0),)), MM)
    assert "off-outline" not in [f.code for f in reading.findings]


RIGHT = {
    "to the sharp corner of the chamfer": length(0, -30, r=20.0),
    "to the middle of a groove": length(0, -11.5),
    "between two grooves' middles": length(-11.5, -31.5),
    "the chamfer": length(0, -1, r=19.0),
    "another view's": length(100, 130),
    "between two views": length(-30, 130),
    "far below": length(1.5, -30, r=-90.0),
}


@pytest.mark.parametrize("dimension", RIGHT.values(), ids=RIGHT)
def test_right_drawings_are_no_alarm(dimension):
    assert found(dimension) == []


@pytest.mark.parametrize(("d", "alarm"), [(40.0, False), (40.05, False), (40.1, True), (46.0, True), (90.0, True)])
def test_a_diameter_wider_than_the_part_stops(d, alarm):
    assert ("overall-differs" in found(across(d))) is alarm


SLOPED = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),), chamfer=4.0)
IN_THE_AIR = {
    "a floor": (34.0, -11.5, None, False),
    "a floor, measured far from it": (34.0, -50.0, None, True),
    "within a twentieth of the part of it": (34.0, -15.98, None, False),  # the wall at 13, 3, and 0.03 of a place
    "farther from it": (34.0, -16.08, None, True),
    "a land over another one": (40.0, -61.0, None, False),
    "above a floor": (36.0, -11.5, "%%c36", True),
    "within half a thousandth of the part": (34.058, -11.5, None, False),  # 0.03 on the radius
    "farther": (34.062, -11.5, None, True),
    "where a chamfer passes": (36.0, -2.0, None, False),
    "beside where it passes": (36.0, -2.2, None, True),
    "the edge of a chamfer": (32.0, 0.0, None, False),
    "the edge of a chamfer, from the other end": (32.0, -59.98, None, False),
    "far from it": (32.0, -20.0, None, True),
    "the corner that a chamfer leaves none of": (40.0, 0.0, None, False),
    "picked beside the floor that is typed": (34.28, -11.5, "Ø34", False),
    "farther beside the floor that is typed": (34.32, -11.5, "Ø34", True),
    "picked beside the floor and measured": (34.28, -11.5, None, True),
    "beside the part": (36.0, 10.0, None, False),
}


@pytest.mark.parametrize(("d", "z", "text", "alarm"), IN_THE_AIR.values(), ids=IN_THE_AIR)
def test_a_diameter_that_ends_on_no_line_stops(d, z, text, alarm):
    """The part is 60 long: places are one within 0.03 and picked beside within 0.3 of the diameter."""
    told = found(across(d, z, text), part=SLOPED)
    assert ("off-outline" in told) is alarm


def stepped(*more):
    """A bush in section, its step of 28 with a rounded foot at Z-14 over a groove 2 deep in the bore of 16."""
    upper = [
        (0, 8),
        (0, 14),
        (-13, 14),
        (-14, 15),
        (-14, 20),
        (-60, 20),
        (-60, 8),
        (-16, 8),
        (-16, 10),
        (-12, 10),
        (-12, 8),
    ]
    ink = Ink(centre=[(6.0, 0.0, -66.0, 0.0, 0.0)])
    for side in (1, -1):
        ink.chain([(float(z), float(side * r), 0.0) for z, r in upper], close=True)
        ink.solid += [(z, 0.0, z, side * 8.0, 0.0) for z in (0.0, -60.0)]
        ink.hidden += [(a, side * b, c, side * d, 0.0) for a, b, c, d in more]
    return ink


def test_the_sharp_corner_of_a_shoulder_over_a_groove_in_the_bore_is_on_its_step():
    assert found(across(28.0, -14.0), ink=stepped()) == []
    assert found(across(26.0, -14.0), ink=stepped()) == ["off-outline"]


@pytest.mark.parametrize(("deep", "alarm"), [(1.98, True), (2.02, False)])
def test_within_a_groove_is_what_is_no_farther_from_its_mouth_than_twice_its_depth(deep, alarm):
    """2 deep, its mouth at 8: a line at 12 beside it counts for what lies farther alone."""
    r = 8.0 + 2.0 * deep
    ink = stepped((-17.0, r, -20.0, r))
    assert ("off-outline" in found(across(2 * r, -14.0), ink=ink)) is alarm


@pytest.mark.parametrize(("r", "text", "alarm"), [(18.0, "Ø36", True), (17.0, "Ø34", False), (18.0, "18", False)])
def test_half_a_diameter_in_the_air_stops_if_its_sign_says_what_it_is(r, text, alarm):
    half = Dimension(DimensionKind.LINEAR, ((-11.5, 0.0), (-11.5, r)), 90.0, r, text)
    assert ("off-outline" in found(half, part=SLOPED)) is alarm


@pytest.mark.parametrize(
    ("pen", "radius", "alarm"), [("hidden", 5.0, False), ("centre", 5.0, False), ("solid", 5.1, True)]
)
def test_any_line_of_the_view_is_a_place_that_a_diameter_may_end_on(pen, radius, alarm):
    """A bore seen through the metal, a pitch circle, the core of a thread."""
    ink = side_view(SLOPED)
    getattr(ink, pen).extend((-45.0, s * radius, -55.0, s * radius, 0.0) for s in (1, -1))
    assert ("off-outline" in found(across(10.0, -50.0), ink=ink)) is alarm


def test_a_line_on_one_side_of_the_axis_is_as_good():
    ink = side_view(SLOPED)
    ink.hidden.append((-45.0, -5.0, -55.0, -5.0, 0.0))
    half = Dimension(DimensionKind.LINEAR, ((-50.0, 0.0), (-50.0, 5.0)), 90.0, 5.0, "Ø10")
    assert "off-outline" not in found(across(10.0, -50.0), half, ink=ink)


def test_a_diameter_of_a_hole_across_is_known():
    ring = Circle((-40.0, 0.0), 5.0, Source("1", "CIRCLE", "0"))
    sheet = sheet_of(side_view(SLOPED), circles=(ring,), dimensions=(across(10.0, -40.0),))
    assert not [f for f in read_sheet(sheet, MM).findings if f.stops]


def test_a_diameter_off_the_axis_or_beside_the_part_is_none():
    off = Dimension(DimensionKind.LINEAR, ((-5.0, 26.0), (-5.0, -18.0)), 90.0, 44.0, None)
    assert found(off) == []
    assert found(across(44.0, z=10.0)) == []


def test_an_overall_length_that_prints_another_number_stops():
    assert [f.code for f in tied(bar(), along(0, -60, "61"))[1] if f.stops] == ["dimension-contradicts"]


def test_a_scaled_view_is_held_at_true_size():
    scaled = side_view(BAR).map(lambda x, y: (2 * x, 2 * y))
    told = replace(MM, scale=2.0)
    dims = [
        Dimension(DimensionKind.LINEAR, ((a, 38.0), (-120.0, 40.0)), 0.0, abs(a + 120), None, factor=0.5)
        for a in (0.0, 3.0)
    ]
    codes = [[f.code for f in read_sheet(sheet_of(scaled, dimensions=(d,)), told).findings if f.stops] for d in dims]
    assert codes == [[], ["off-outline"]]


@pytest.mark.parametrize(
    ("notes", "alarm"),
    [
        (["OVERALL LENGTH 61"], "overall-differs"),
        (["GESAMTLÄNGE: 61,0 mm"], "overall-differs"),
        (["LENGTH OVER ALL 61"], "overall-differs"),
        (["Länge über alles = 90"], "overall-differs"),
        (["LENGTH OVER-ALL 60"], ""),
        (["OVERALL LENGTH 60"], ""),
        (["OVERALL LENGTH 61", "TOTAL LENGTH 60"], ""),
        (["L = 65.9"], "overall-differs"),
        (["L = 66.1"], "overall-differs caution"),
        (["L = 53.9"], ""),
        (["LONGUEUR 200"], "overall-differs caution"),
        (["OVERALL 61"], "overall-differs"),
        (["Longueur totale 90"], "overall-differs"),
        (["LENGTH 74.9"], "overall-differs"),
        (["LENGTH 75.1"], "overall-differs caution"),
        (["LENGTH 44.9"], ""),
        (["LÄNGE 45.1"], "overall-differs"),
        (["OUTSIDE DIAMETER 42"], "note-contradicts"),
        (["O.D. Ø42 mm"], "note-contradicts"),
        (["Außendurchmesser 41"], "note-contradicts"),
        (["OUTSIDE DIAMETER 40", "OD 42"], ""),
        (["OUTER DIA. 36"], ""),
        (["STOCK OUTSIDE DIAMETER 42"], ""),
        (["OD TO BE GROUND"], ""),
        (["RAW LENGTH 62"], ""),
        (["OVERALL LENGTH 90"], "overall-differs"),
        (["OVERALL LENGTH 60.04"], "overall-differs"),
        (["SHAFT TOTAL 92 LONG"], "overall-differs"),
        (["60 LONG OVERALL"], ""),
        (["62 O/A LONG"], "overall-differs"),
        (["62 LANG"], "overall-differs"),
        (["20 LONG"], ""),
        (["BAR 62 LONG"], ""),
    ],
)
def test_a_text_that_names_the_length_is_held_against_the_part(notes, alarm):
    """Words that say whose it is at any size; a bare L within a tenth of the length of 60, in words a quarter.

    A longer one is told, as nothing on the part can be so long; it may be that of its stock.
    """
    stepped = bar((-10, -13, 34), (-20, -23, 34), steps=[(0, 36), (-32, 40)], length=60)
    told = [f"{f.code}{'' if f.stops else f' {f.level}'}" for f in tied(stepped, notes=notes)[1]]
    assert told == [alarm] * bool(alarm)


STOCK_TOO_SMALL = [
    "RAW MATERIAL Ø35 x 65", "BAR Ø38 x 75 LG", "Rohmaß Ø38 x 78", "ROHTEIL Ø38", "BLANK DIA 39.5 x 62",
    "BAR Ø45 x 58", "Rundstahl Ø40 x 55", "MATERIAL: C45 Ø38 x 65", "BRUT Ø38 x 65", "barre Ø38 x 65 mm",
    "GREZZO Ø38 x 65", "barra tondo Ø38 x 65", "material en bruto Ø38 x 65", "POLOTOVAR Ø38 x 65", "RAW SIZE Ø45 - 59",
    "BAR Ø35", "Stange Ø35", "BARRE Ø38", "PRĘT Ø35", "TYČ Ø35", "STÅNG Ø35",
]  # fmt: skip
STOCK_LARGE_ENOUGH = [
    "RAW MATERIAL Ø40 x 60", "RAW MATERIAL Ø45 x 65", "BAR Ø42 x 3000", "Rohmaß Ø40", "BAR Ø10", "TUBE STOCK Ø45 x 5",
    "RAW MATERIAL TUBE Ø45 x 5", "STOCK Ø1.75 x 3", "Rohr Ø45 x 5", "MATERIAL: C45", "RAW MATERIAL Ø45",
    "BAR Ø42 x 45°", "BLANK Ø19.9 x 62", "BAR STOCK", "BEARING Ø35 x 20", "BARREL Ø35 x 30", "Material Ø40 h11 x 62",
    "HANDLE BAR Ø35 SEE 4711", "BARRE D'ALÉSAGE Ø35", "BAR CODE 35",
]  # fmt: skip


@pytest.mark.parametrize(
    ("words", "told"), [*((w, True) for w in STOCK_TOO_SMALL), *((w, False) for w in STOCK_LARGE_ENOUGH)]
)
def test_stock_is_no_smaller_than_the_part_that_is_turned_of_it(words, told):
    """The bar is 40 across and 60 long; 1.75 in are 44."""
    part = bar((-10, -13, 34), (-20, -23, 34), length=60)
    found = [f for f in tied(part, notes=[words])[1] if "is stock of" in f.message]
    assert [(f.code, f.level) for f in found] == [("dimension-unclear", "caution")] * told


@pytest.mark.parametrize(("size", "told"), [("19.9", False), ("20.1", True), ("39.9", True), ("40.0", False)])
def test_stock_of_less_than_half_is_that_of_something_else(size, told):
    part = bar((-10, -13, 34), (-20, -23, 34), length=60)
    assert any("is stock of" in f.message for f in tied(part, notes=[f"STOCK Ø{size} x 70"])[1]) is told


def loose(near, far, y=-34.0):
    """A length in pieces below the part: its line with heads, extension lines from just below it, and its figure."""
    ends = ((near, -1), (far, 1))
    ink = Ink([(near, y, far, y, 0.0)])
    ink.solid += [(z, -20.6, z, y - 1.25, 0.0) for z, _ in ends]
    ink.solid += [(z, y, z + 2.5 * way, y + tip, 0.0) for z, way in ends for tip in (0.4, -0.4)]
    return ink, Text(f"{near - far:g}", ((near + far) / 2 - 2, y + 0.8), 2.5)


@pytest.mark.parametrize(("far", "codes"), [(-45.0, ["off-outline"]), (-30.0, []), (-29.5, ["off-outline"])])
@pytest.mark.parametrize("tail", [False, True])
def test_a_length_in_pieces_is_held_to_the_outline_and_not_to_its_own_lines(far, codes, tail):
    """Nor to the tail of another length's line that ends by chance there, beside the part."""
    ink, text = loose(0.0, far)
    if tail:
        ink.solid += [(far, -26.0, far - 2.5, -26.0, 0.0)]
    reading = read_sheet(sheet_of(mixed(side_view(BAR), ink), texts=(text,)), MM)
    assert [f.code for f in reading.findings if f.stops] == codes


TWO_FLOORS = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 32.0)))


@pytest.mark.parametrize(
    ("d", "z", "codes"),
    [
        (34.0, -31.5, ["off-outline"]),  # the first groove's floor, in the open of the second
        (34.0, -11.5, []),
        (32.0, -31.5, []),
        (34.0, -29.98, ["off-outline"]),  # on the wall, which passes every diameter between floor and land
        (34.0, -30.06, ["off-outline"]),
        (40.0, -31.5, []),  # the land's, in line with its rims
        (39.95, -31.5, []),
        (39.93, -31.5, ["off-outline"]),
        (34.0, -15.9, []),  # through the metal, near that floor
        (34.0, -20.0, ["off-outline"]),
        (30.0, -31.5, ["off-outline"]),
    ],
)
def test_a_diameter_in_the_open_of_a_groove_stops_though_another_groove_has_it(d, z, codes):
    assert found(across(d, z), part=TWO_FLOORS) == codes


@pytest.mark.parametrize(("d", "codes"), [(32.586, []), (33.2, ["off-outline"])])
def test_a_diameter_to_the_rounded_corner_of_a_floor_ends_on_an_edge(d, codes):
    """Half-way round a corner of 1 at a wall: 1 - 1 / sqrt 2 = 0.293 off the wall and off the floor."""
    rounded_floor = replace(TWO_FLOORS, cuts=(Cut(-10.0, 3.0, 33.2), Cut(-30.0, 3.0, 32.0, corner=1.0)))
    assert found(across(d, -30.293), part=rounded_floor) == codes


@pytest.mark.parametrize(("d", "codes"), [(34.0, ["off-outline"]), (33.0, []), (32.5, ["off-outline"])])
def test_a_diameter_below_the_floor_of_its_groove_stops_though_another_groove_has_it(d, codes):
    floors = replace(TWO_FLOORS, cuts=(Cut(-10.0, 3.0, 34.0), Cut(-20.0, 3.0, 32.5), Cut(-30.0, 3.0, 33.0)))
    assert found(across(d, -31.5), part=floors) == codes


STEPPED = Turned(((30.0, 36.0), (30.0, 40.0)), (Cut(-40.0, 3.0, 34.0),))


@pytest.mark.parametrize(
    ("d", "z", "codes"),
    [
        (36.0, -10.0, []),
        (40.0, -10.0, ["off-outline"]),
        (40.0, -26.98, []),  # the gap before an extension line, to the shoulder at 30
        (40.0, -26.9, ["off-outline"]),
        (36.0, -50.0, ["off-outline"]),
        (36.0, -33.02, []),
        (36.0, -33.1, ["off-outline"]),
    ],
)
def test_the_diameter_of_one_land_at_another_one_stops(d, z, codes):
    """Within 3, a twentieth of the part, and the 0.03 of a place; typed or not."""
    assert found(across(d, z), part=STEPPED) == codes
    assert found(across(d, z, f"Ø{d:g}"), part=STEPPED) == codes


def ordinate(z, nought=(0.0, 28.0), text=None):
    return Dimension(DimensionKind.ORDINATE, (nought, (z, 20.0)), 0.0, abs(z - nought[0]), text)


@pytest.mark.parametrize(
    ("dimension", "codes"),
    [
        (ordinate(-10.0), []),
        (ordinate(-11.0), ["off-outline"]),
        (ordinate(1.0), ["off-outline"]),
        (ordinate(-10.0, nought=(-11.0, 28.0)), []),  # a nought of its own, that is no place of the part
        (ordinate(-11.0, nought=(50.0, 28.0)), []),
        (replace(ordinate(-11.0), points=((0.0, 28.0), (-11.0, 24.1))), []),  # another view's
    ],
)
def test_an_ordinate_is_held_at_its_place(dimension, codes):
    assert found(dimension) == codes


@pytest.mark.parametrize("place", [11.0, 10.0])
def test_running_figures_in_pieces_are_held_too(place):
    """Their extension lines touch the surface."""
    ink, figures = side_view(BAR), (0.0, place, 13.0, 60.0)
    ink.solid += [(-z, 20.0, -z, 30.0, 0.0) for z in figures]
    texts = tuple(Text(f"{z:g}", (-z + 1.0, 31.0), 2.0, angle=90.0) for z in figures)
    told = [f.code for f in read_sheet(sheet_of(ink, texts=texts), MM).findings if f.stops]
    assert told == ["off-outline"] * (place == 11.0)


@pytest.mark.parametrize(("a", "b", "tail"), [(-30.0, -45.0, (-45.0, -50.0)), (-25.0, -30.0, (-25.0, -20.0))])
def test_the_tail_of_a_size_in_pieces_is_no_line_that_it_may_end_at(a, b, tail):
    """Drawn within the view, without extension lines."""
    body = side_view(BAR)
    ink = Ink([(a, 10.0, b, 10.0, 0.0), (tail[0], 10.0, tail[1], 10.0, 0.0), *body.solid], body.centre)
    assert found(replace(length(a, b, r=10.0), drawn=frozenset({0})), ink=ink) == ["off-outline"]


def test_dots_at_the_ends_of_a_length_in_pieces_are_no_line_that_it_may_end_at():
    ink, text = loose(0.0, -45.0, y=-23.0)
    dots = tuple(Circle((z, -23.0), 0.5, Source("1", "CIRCLE", "0")) for z in (0.0, -45.0))
    reading = read_sheet(sheet_of(mixed(side_view(BAR), ink), circles=dots, texts=(text,)), MM)
    assert [f.code for f in reading.findings if f.stops] == ["off-outline"]


@pytest.mark.parametrize(("begins", "codes"), [(20.02, []), (20.04, ["off-outline"])])
def test_a_line_at_the_part_is_about_it_and_one_beside_it_is_not(begins, codes):
    """Within half a thousandth of the part; beside it lie the heads and the tails of dimensions in pieces."""
    ink = side_view(BAR)
    ink.solid += [(-45.0, begins, -45.0, 35.0, 0.0)]
    assert found(length(0, -45.0), ink=ink) == codes


@pytest.mark.parametrize("apart", [7.0, 2.0])
def test_a_diameter_in_the_open_of_a_bores_groove_stops_too(apart):
    ink = Ink([], [(5.0, 0.0, -65.0, 0.0, 0.0)])
    near = -43.0 - apart
    far, floors = (
        near - 3.0,
        [(0.0, 10.0), (-40.0, 14.0), (-43.0, 14.0), (near, 13.0), (near - 3.0, 13.0), (-60.0, 10.0)],
    )
    for way in (1, -1):
        outside = [(0.0, 10), (0.0, 20), (-60.0, 20), (-60.0, 10)]
        bore = [(far, 10), (far, 13), (near, 13), (near, 10), (-43.0, 10), (-43.0, 14), (-40.0, 14), (-40.0, 10)]
        ink.chain([(z, way * r, 0.0) for z, r in (*outside, *bore)], close=True)
    ink.solid += [(z, -r, z, r, 0.0) for z, r in floors]
    assert found(across(26.0, -42.5), ink=ink) == ["off-outline"]
    assert found(across(26.0, near - 1.5), ink=ink) == []
    assert found(across(28.0, near - 0.5), ink=ink) == ["off-outline"]
    assert found(across(40.0, near - 1.5), ink=ink) == []


def depth(r0, r1, z=-13.0, text=None):
    """A depth on one side of the axis."""
    return Dimension(DimensionKind.LINEAR, ((z, r0), (z, r1)), 90.0, abs(r0 - r1), text)


@pytest.mark.parametrize(
    ("ends", "alarm"),
    [
        ((20.0, 17.0), False),
        ((20.0, 17.021), False),
        ((20.0, 17.031), True),
        ((20.0, 18.0), True),
        ((18.0, 20.0), True),
        ((-20.0, -18.0), True),
        ((17.0, 16.0), True),
        # Neither end is the part's, or one lies on the axis, beyond the outside or on the other side of the axis.
        ((19.0, 18.0), False),
        ((20.0, 23.0), False),
        ((17.0, 0.0), False),
        ((17.0, -18.0), False),
    ],
)
def test_a_depth_that_ends_on_no_line_of_the_part_stops(ends, alarm):
    """A wall runs past every place between floor and land: a depth from there measures to nothing."""
    assert found(depth(*ends)) == ["off-outline"] * alarm


def test_a_depth_to_a_chamfer_or_a_thread_is_one_to_a_line():
    assert found(depth(20.0, 19.0, z=0.0)) == []
    ink = side_view(BAR)
    thread = Ink(ink.solid, ink.centre, [(-45.0, s * 18.0, -60.0, s * 18.0, 0.0) for s in (1, -1)])
    assert "off-outline" not in found(depth(20.0, 18.0, z=-50.0), ink=thread)
    # A twentieth of the length of 60 beside the line, and no farther.
    assert "off-outline" not in found(depth(20.0, 18.0, z=-42.1), ink=thread)
    assert "off-outline" in found(depth(20.0, 18.0, z=-41.9), ink=thread)


def test_a_depth_says_what_it_is_and_where_it_ends():
    reading = read_sheet(sheet_of(side_view(BAR), dimensions=(depth(20.0, 18.0),)), MM)
    (stop,) = [f for f in reading.findings if f.stops]
    assert stop.message.startswith("A depth of 2 is measured from X-13 Y18, and no line of the part lies there")


@pytest.mark.parametrize("d", [39.9, 39.0, 36.0])
def test_a_diameter_on_an_end_face_is_that_of_a_land_and_not_any_between(d):
    """The face's line passes all of them: a land that was moved under its size went in silence."""
    plain = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
    assert found(across(d, z=0.0), part=plain) == ["off-outline"]
    assert found(across(d, z=-60.0), part=plain) == ["off-outline"]
    assert found(across(40.0, z=0.0), part=plain) == []


@pytest.mark.parametrize("hatched", [False, True])
def test_the_ends_of_hatch_lines_are_no_place_of_the_part(hatched):
    """The second groove was moved by 1, and the hatching, drawn line by line, still ends on its old wall."""
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-31.0, 3.0, 34.0)), bore=10.0)
    old = shapely.Polygon([(-13, 5), (-13, 20), (-30, 20), (-30, 17), (-33, 17), (-33, 5)])
    rows = [shapely.LineString([(z, 0), (z + 25, 25)]).intersection(old) for z in range(-60, 0, 2)] if hatched else []
    parts = shapely.get_parts([row for row in rows if row.length > 0.5])
    lines = [(*row.coords[0], *row.coords[-1], 0.0) for row in parts]
    assert any(-30 in (x0, x1) for x0, _, x1, _, _ in lines) is hatched
    assert found(length(0, -30), ink=mixed(side_view(part), Ink(lines))) == ["off-outline"]
    assert found(length(0, -31), ink=mixed(side_view(part), Ink(lines))) == []


@pytest.mark.parametrize("z", [-31.5, -33.1, -29.9])
def test_a_wall_that_ends_short_of_its_moved_floor_is_no_place_that_a_diameter_ends_on(z):
    """The floor at 17 was drawn at 16.9, and its walls, parted at 17 by the edges behind them, still end there."""
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 36.0), Cut(-30.0, 3.0, 33.8)))
    ink = side_view(part)
    short = [(e[0], e[1] * 17 / 16.9, *e[2:]) if abs(e[1]) == 16.9 != abs(e[3]) else e for e in ink.solid]
    short = [(*e[:3], e[3] * 17 / 16.9, e[4]) if abs(e[3]) == 16.9 != abs(e[1]) else e for e in short]
    assert len([e for e in short if 17 in (abs(e[1]), abs(e[3]))]) == 4
    assert found(across(34.0, z), ink=Ink(short, ink.centre), part=part) == ["off-outline"]
    assert found(across(33.8, z), ink=Ink(short, ink.centre), part=part) == []


def test_the_end_of_a_face_s_line_that_a_closed_gap_moved_is_none_either():
    """The outside lies 0.05 beyond the ends of both faces, which the size was measured between."""
    ink = side_view(Turned(((60.0, 40.1),), (Cut(-10.0, 3.0, 34.0),)))
    short = [
        (a, 20 * b / abs(b), c, 20 * d / abs(d), e) if a == c in (0, -60) else (a, b, c, d, e)
        for a, b, c, d, e in ink.solid
    ]
    assert found(across(40.0, z=-60.0), ink=Ink(short, ink.centre)) == ["off-outline"]
    assert found(across(40.1, z=-60.0), ink=Ink(short, ink.centre)) == []


@pytest.mark.parametrize(
    ("out", "text", "told"),
    [(39.99, "50 +0.1/0", False), (40.01, "50 +0.1/0", True), (40.01, "50", False), (40.01, "50 H12", True)],
)
def test_a_length_with_a_tolerance_that_is_torn_between_the_view_and_elsewhere_is_told(out, text, told):
    """A view reaches 40 beyond its ends, as much as it is across."""
    size = Dimension(DimensionKind.LINEAR, ((-10.0, 20.0), (out, 20.0)), 0.0, out + 10, text)
    reading = read_sheet(sheet_of(side_view(BAR), dimensions=(size,)), MM)
    assert ("tolerance-unread" in [f.code for f in reading.findings]) is told


@pytest.mark.parametrize("out", [30.01, 30.05, 70.0])
def test_one_that_begins_square_off_the_view_is_its_own(out):
    size = Dimension(DimensionKind.LINEAR, ((-10.0, 20.0), (-13.0, -out)), 0.0, 3.0, "3 +0.1/0")
    reading = read_sheet(sheet_of(side_view(BAR), dimensions=(size,)), MM)
    assert reading.part.grooves[0].tolerances["width"] == (0.0, 0.1)


def test_a_length_with_a_tolerance_of_another_view_is_that_view_s():
    size = Dimension(DimensionKind.LINEAR, ((-10.0, -60.0), (-13.0, -60.0)), 0.0, 3.0, "3 +0.1/0")
    told = [f.message for f in read_sheet(sheet_of(side_view(BAR), dimensions=(size,)), MM).findings]
    assert not any("looks like a size with a tolerance that is not read" in message for message in told)


def slot(near=-40.0, far=-52.0, half=3.0, quarters=False, at=0.0):
    """The view with a round-ended keyway in it: two lines and two half circles, whole or in quarters."""
    ink = side_view(BAR)
    ink.solid += [(near - half, at + s * half, far + half, at + s * half, 0.0) for s in (1, -1)]
    for tip, way in ((near, 1.0), (far, -1.0)):
        foot, bulge = tip - way * half, math.tan(math.pi / (8 if quarters else 4))
        turns = [(foot, at - way * half), *([(tip, at)] if quarters else []), (foot, at + way * half)]
        ink.solid += [(*a, *b, bulge) for a, b in pairwise(turns)]
    return ink


@all_pairs(
    ("z", "stops"),
    [(-40.0, []), (-52.0, []), (-41.0, ["off-outline"]), (-50.9, ["off-outline"])],
    quarters=[True, False],
    at=[0.0, 5.0],
)
def test_a_round_end_is_measured_to_its_tip(z, stops, at, quarters):
    """As the length of a keyway and its distance from a face are (common practice, no source)."""
    assert found(length(0.0, z, r=at), ink=slot(quarters=quarters, at=at)) == stops
