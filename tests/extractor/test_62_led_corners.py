"""Words and radius dimensions at a corner or an edge of one groove that name no groove, held against it.

Common practice, no source.
"""

import pytest
from support.ties import HERE, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.corner_words import led_corners

FLOOR, MOUTH = (-13.0, 17.0), (-13.0, 20.0)
STOP, DRAWN_SHARP = [("stop", "note-contradicts")], [("caution", "corner-not-drawn")]


def told(words, tip=FLOOR, *, upward=1, bore=False, **fields):
    """Levels and codes of what words led to the first of two like grooves say, but that they are alike."""
    side = {"where": "inside", "mouth_diameter": 28.0} if bore else {}
    part = bar(*((z, z - 3, 34, {**side, **fields}) for z in (-10, -30)))
    z, r = tip
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, upward * r), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(leader,)), part)[1]
    return [(f.level.value, f.code.value) for f in found if f.level != "note"]


@pytest.mark.parametrize("upward", [1, -1])
@pytest.mark.parametrize("words", ["CORNERS R0.8", "r=0,8", "ECKEN R0,8", "RAYONS 0,8", "R MIN 0.8", "RADII: 0.8"])
def test_a_radius_led_to_a_corner_is_held_against_the_one_drawn(words, upward):
    drawn = [told(words, upward=upward, corner_radius=size) for size in (0.0, 0.5, 0.8)]
    assert drawn == [DRAWN_SHARP, STOP, []]


@pytest.mark.parametrize("words", ["SHARP CORNERS", "Scharfe Ecken", "CORNERS SHARP"])
def test_sharp_corners_are_not_drawn_round(words):
    assert [told(words, corner_radius=size) for size in (0.0, 0.5)] == [[], STOP]


@pytest.mark.parametrize("words", [
    "SHARP EDGES", "scharfe Kanten", "ARÊTES VIVES", "spigoli vivi", "aristas vivas", "ostre krawędzie",
])  # fmt: skip
def test_sharp_edges_are_not_drawn_broken(words):
    assert [told(words, MOUTH, edge_chamfer=size) for size in (0.0, 0.5)] == [[], STOP]


@pytest.mark.parametrize(("words", "chamfer", "rounded", "codes"), [
    ("EDGES R0.5", 0.5, True, []), ("EDGES R0.5", 0.5, False, STOP), ("EDGES R0.5", 0.0, False, DRAWN_SHARP),
    ("CHAMFER 0.2 MAX", 0.5, False, STOP), ("CHAMFER 0.5 MAX", 0.5, False, []), ("CHAMFER 0.5 MAX", 0.0, False, []),
    ("Fase max. 0,3", 0.5, False, STOP), ("EDGES 0.4 - 0.6", 0.5, False, []), ("BREAK EDGES 0.2", 0.5, False, STOP),
    ("BREAK EDGES 0.2", 0.0, False, []), ("BREAK SHARP EDGES", 0.5, False, []),
])  # fmt: skip
def test_what_is_led_to_an_edge(words, chamfer, rounded, codes):
    """To break an edge that is drawn sharp is to deburr it."""
    assert told(words, MOUTH, edge_chamfer=chamfer, rounded=rounded) == codes


def test_a_chamfer_of_edges_led_to_the_floor():
    assert [told("0.5x45° EDGES", edge_chamfer=size) for size in (0.0, 0.5, 0.8)] == [DRAWN_SHARP, [], STOP]


@pytest.mark.parametrize("words", [
    "SHARP", "SHARP CORNERS NOT PERMITTED", "TOOL R0.8", "NO BURRS", "RING R0.8", "R0.8 OF PART 2", "2 OFF", "SHARPEN",
])  # fmt: skip
def test_other_words_say_nothing_of_corners(words):
    assert led_corners(words) == ()


def test_a_leader_that_ends_elsewhere_says_nothing_of_a_groove():
    assert told("CORNERS R0.8", (-22.0, 20.0), corner_radius=0.5) == []


def test_a_leader_into_the_air_of_a_groove_points_at_no_corner():
    """The part is 60 long and 40 across: a hundredth of the greater."""
    assert [told("R MIN 0.5", (-11.5, 17.0 + off)) for off in (0.59, 0.8)] == [DRAWN_SHARP, []]


def test_corners_of_a_groove_in_the_bore():
    assert told("CORNERS R0.8", bore=True, corner_radius=0.5) == STOP


def arc(size, text=None, at=FLOOR, drawn=0.0, upward=1):
    """What a radius dimension in the near corner of the first groove says."""
    part = bar((-10, -13, 34, {"corner_radius": drawn}), (-30, -33, 34, {"corner_radius": drawn}))
    centre = (at[0] + size, at[1] + size)
    end = (centre[0] - size / 2**0.5, centre[1] - size / 2**0.5)
    points = tuple(HERE.on_sheet(z, upward * r) for z, r in (centre, end))
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(Dimension(DimensionKind.RADIUS, points, 0, size, text),))
    return [(f.level.value, f.code.value) for f in tie_dimensions(sheet, part)[1] if f.level != "note"]


@pytest.mark.parametrize("upward", [1, -1])
@pytest.mark.parametrize(("size", "text", "drawn", "codes"), [
    (0.5, None, 0.5, []), (0.5, "R0.5", 0.0, DRAWN_SHARP), (0.5, None, 0.0, DRAWN_SHARP),
    (1.0, None, 0.5, [("stop", "dimension-contradicts")]), (1.0, "R<>", 0.5, [("stop", "dimension-contradicts")]),
    (0.5, "R0.5 MAX", 0.0, []),
])  # fmt: skip
def test_a_radius_dimension_in_a_corner(size, text, drawn, codes, upward):
    assert arc(size, text, drawn=drawn, upward=upward) == codes


def test_a_radius_dimension_that_lies_in_no_corner():
    """Half the width of the groove is 1.5: a larger radius has no room in it. The other lies at a mouth."""
    assert arc(1.5, "R1.5") == DRAWN_SHARP
    assert arc(1.6, "R1.6") == []
    assert arc(0.5, "R0.5", at=(-22.0, 17.0)) == []
    assert arc(0.5, "R0.5", at=(-13.0, 20.0)) == []
