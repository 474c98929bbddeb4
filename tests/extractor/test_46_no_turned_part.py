"""A view with a centre line, of a part that is not turned about it: a hexagon, a block, a plate, an eccentric."""

import math
from dataclasses import replace

import pytest
from support.draw import Cut, Turned, box, full_outline, half_profile, mixed, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.finding import Level
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source, Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
LAYER = Source("1", "CIRCLE", "0")
DASHED = Source("2", "CIRCLE", "0", Pen.HIDDEN)
THIN = Source("3", "CIRCLE", "0", Pen.PHANTOM)
FLOOR = Dimension(DimensionKind.LEADER, ((-11.0, 17.0), (-11.0, 40.0)), 0.0, 0.0, "\u00d834")


def told(ink=None, level=Level.STOP, options=ReadOptions(units="mm"), **more):  # noqa: B008
    reading = read_sheet(sheet_of(ink or side_view(RING), **more), options)
    return [f.code for f in reading.findings if f.level is level]


def noted(*notes, **more):
    return told(texts=tuple(Text(note, (-30.0, -60.0 - 5 * k), 2.5) for k, note in enumerate(notes)), **more)


def upright(text, half=20.0, z=-60.0, kind=DimensionKind.LINEAR):
    """A size across the back end."""
    return Dimension(kind, ((z, half), (z, -half)), 90.0, 2 * half, text)


HEXAGONS = [
    "40 A/F HEX", "HEX 40", "HEX BAR 40", "40 HEXAGON", "AF 40", "40 ACROSS FLATS", "SW40", "SW 40", "6-KT 40", "6KT40",
    "SECHSKANT 40", "40 SUR PLATS", "ESAGONO 40", "40.19 A/F", "39.81 A/F", "34.64 A/F", "34.8 A/F", "40 MM A/F",
    "2 FLATS 40 A/F", "TORX 8 SW 40", "SW 40 2x",
]  # fmt: skip
NO_HEXAGONS = [
    "17 A/F", "SW 17", "40.21 A/F", "39.79 A/F", "34.82 A/F", "34.46 A/F", "HEX SOCKET 8", "SWITCH 40", "HEXANE 40",
    "140 A/F", "\u00d840, 40 A/F", "\u00d836 FOR NUT 40 A/F", "40 FLATS", "2 FLATS 36 A/F", "TORX 40 SW 3",
]  # fmt: skip


@each_in_turn(
    ("note", "odd"),
    [*((n, True) for n in HEXAGONS), *((n, False) for n in NO_HEXAGONS)],
    more=[(), (FLOOR,)],
)
def test_a_size_across_flats_that_is_the_part_s_is_no_diameter(note, odd, more):
    """40 across, rounded within 5 in a thousand (0.2); 40 over the corners is 34.641 over the flats, within 0.173.

    A floor of 34 that has a diameter makes no hexagon round.
    """
    assert noted(note, dimensions=more) == (["not-round"] if odd else [])


@pytest.mark.parametrize("note", ["SQ 40", "VIERKANT 40"])
def test_a_square_with_turned_grooves_is_no_turned_part(note):
    assert noted(note, dimensions=(FLOOR,)) == ["not-round"]
    assert noted(note, "\u00d840", dimensions=(FLOOR,)) == []


@pytest.mark.parametrize("words", ["40 SQ MM", "40 SQ. MM", "40 SQ CM", "40 SQ IN"])
def test_an_area_is_no_square(words):
    assert noted(words, dimensions=(FLOOR,)) == []


def test_a_square_has_no_corners_to_count_over():
    """Only a hexagon's size across flats is told by its corners."""
    assert noted("SQ 34.64", dimensions=(FLOOR,)) == []


def test_what_is_round_as_well_is_turned():
    assert noted("HEX 40") == ["not-round"]
    assert noted("HEX 40", "\u00d840") == []
    assert noted("HEX 40", "\u00d840.21") == ["not-round"]


@pytest.mark.parametrize(
    ("size", "odd"),
    [
        (upright("80 A/F"), True),  # the sheet at 1:2
        (upright("80 A/F", kind=DimensionKind.ALIGNED), True),
        (upright("SQ 80"), True),
        (upright("80"), False),
        (upright("80 A/F", half=19.81), True),
        (upright("80 A/F", half=19.79), False),
        (Dimension(DimensionKind.LINEAR, ((0.0, 20.0), (-40.0, 20.0)), 0.0, 40.0, "80 A/F"), False),
        (Dimension(DimensionKind.LEADER, ((-20.0, 20.0), (-20.0, -20.0)), 0.0, 0.0, "80 A/F"), False),
    ],
)
def test_a_size_right_across_says_so_at_any_scale(size, odd):
    """Within two hundredths of half the height, 0.4 on 40."""
    assert ("not-round" in told(dimensions=(FLOOR, size))) is odd


@pytest.mark.parametrize(("low", "odd"), [(0.0, True), (0.39, True), (0.41, False), (-0.39, True), (-0.41, False)])
def test_a_size_from_the_axis_out_says_so_where_half_of_it_is_drawn(low, odd):
    size = Dimension(DimensionKind.LINEAR, ((-60.0, 20.0), (-60.0, low)), 90.0, 20.0 - low, "80 A/F")
    assert ("not-round" in told(half_profile(RING), dimensions=(FLOOR, size))) is odd
    assert "not-round" not in told(dimensions=(FLOOR, size))


FLAT = [
    "PLATE 40x40x6", "PLATTE 50 x 80", "PLYWOOD 12", "SPERRHOLZ", "GASKET, NBR 2 mm", "TITLE: GASKET 2 MM",
    "Flachdichtung 1,5 mm", "60x40x6", "40 x 60 x 6", "6x40x60", "40.19x60.29x6",
]  # fmt: skip
NOT_FLAT = [
    "GASKET GROOVE", "SEAT OF GASKET 2 mm", "GASKET 60 mm", "KEY 8x7x40", "TUBE 40x6x60", "ROHR 40x6x60",
    "\u00d840x60x6", "40.21x60x6", "40x60.31x6", "WEAR PLATE", "PLATE NO. 40", "60x40",
]  # fmt: skip


def test_a_block_whose_holes_have_a_diameter_is_heard():
    holes = tuple(Circle((z, 10.0), 3.0, LAYER) for z in (-35.0, -50.0))
    assert noted("60x40x6, 2x \u00d86 HOLES", circles=holes) == ["not-round"]


@pytest.mark.parametrize(("note", "odd"), [*((n, True) for n in FLAT), *((n, False) for n in NOT_FLAT)])
def test_a_plate_or_a_block_is_heard(note, odd):
    """60 long and 40 across, within 0.3 and 0.2."""
    assert noted(note) == (["not-round"] if odd else [])
    assert noted(note, "\u00d840") == []


ECCENTRIC = [
    "ECCENTRIC 3", "ECCENTRIC BY 3", "3 ECCENTRIC", "EXZENTRISCH 3", "EXZENTRIZIT\u00c4T 3", "EXCENTRIQUE DE 3",
    "ECCENTRICITY 0.21", "ECCENTRICITY e = 3",
]  # fmt: skip
CONCENTRIC = [
    "ECCENTRICITY 0.19", "MAX ECCENTRICITY 0.3", "ECCENTRICITY 0.3 MAX", "ECCENTRICITY < 0.3", "CONCENTRIC 3",
    "ECCENTRIC", "ECCENTRICITY 0.3 TIR",
]  # fmt: skip


@pytest.mark.parametrize(("note", "odd"), [*((n, True) for n in ECCENTRIC), *((n, False) for n in CONCENTRIC)])
def test_an_eccentricity_with_its_size_is_heard(note, odd):
    """On 40 across, from five thousandths on, 0.2: what is less is a tolerance."""
    assert noted(note, "\u00d840") == (["not-turned"] if odd else [])


@pytest.mark.parametrize(
    ("radius", "off", "source", "odd"),
    [
        (17.0, 3.0, LAYER, True),
        (17.0, 3.0, DASHED, True),
        (17.0, 3.0, THIN, False),
        (17.0, 0.33, LAYER, False),
        (17.0, 0.35, LAYER, True),
        (17.0, 3.3, LAYER, True),
        (17.0, 3.5, LAYER, False),  # it goes out of the end view
        (16.8, 3.0, LAYER, False),  # as large as no edge
    ],
)
@pytest.mark.parametrize("turn", [0.0, 2.0])
def test_a_circle_of_a_floor_about_another_place_than_the_end_is_eccentric(radius, off, source, odd, turn):
    """From two hundredths of its radius on, 0.34; 0.4 beyond the circle of 20."""
    at = 60.0 + off * math.sin(turn), off * math.cos(turn)
    circles = (Circle((60.0, 0.0), 20.0, LAYER), Circle(at, radius, source))
    assert ("not-turned" in told(circles=circles)) is odd


def test_a_hole_beside_the_middle_is_none():
    """As large as an edge of the part: the hole of a flange's bolts, which goes round no middle."""
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 10.0),))
    for off, odd in ((4.9, True), (5.1, False)):
        circles = (Circle((60.0, 0.0), 20.0, LAYER), Circle((60.0, off), 5.0, LAYER))
        assert ("not-turned" in told(side_view(part), circles=circles)) is odd


@pytest.mark.parametrize(
    ("centre", "more", "cautioned"),
    [
        (None, {}, True),
        (5.0, {}, False),
        (None, {"texts": (Text("\u00d840", (-30.0, -60.0), 2.5),)}, False),
        (None, {"dimensions": (FLOOR,)}, False),
        (None, {"circles": (Circle((60.0, 0.0), 20.0, LAYER),)}, False),
        (None, {"texts": (Text("S235", (-30.0, -60.0), 2.5),)}, True),
    ],
)
def test_edge_lines_alone_are_told(centre, more, cautioned):
    """Edges of slots run right across a plate as well."""
    assert ("turned-by-symmetry" in told(side_view(RING, centre), Level.CAUTION, **more)) is cautioned
    assert told(side_view(RING, centre), **more) == []


@pytest.mark.parametrize(
    ("line", "cautioned"),
    [
        ((0.0, 0.0, 20.0, 0.0, 0.0), False),  # beside the end
        ((0.35, 0.0, 20.0, 0.0, 0.0), False),
        ((0.37, 0.0, 20.0, 0.0, 0.0), True),
        ((-60.35, 0.0, -70.0, 0.0, 0.0), False),
        ((-60.37, 0.0, -70.0, 0.0, 0.0), True),
        ((-30.0, 0.35, -32.0, 0.35, 0.0), False),
        ((-30.0, 0.37, -32.0, 0.37, 0.0), True),
    ],
)
@pytest.mark.parametrize("pen", ["centre", "solid"])
def test_a_line_along_the_axis_however_short_is_its_centre_line(line, cautioned, pen):
    """Within five thousandths of a view 72.11 across, 0.3606."""
    ink = side_view(RING, None)
    getattr(ink, pen).append(line)
    assert ("turned-by-symmetry" in told(ink, Level.CAUTION)) is cautioned


def test_the_outline_alone_is_told_of_by_its_symmetry():
    assert "turned-by-symmetry" in told(full_outline(RING, None), Level.CAUTION)


COMB = Turned(((60.0, 40.0),), tuple(Cut(z, 3.0, 34.0) for z in (-10.0, -25.0, -40.0)))


def comb(*sizes, end=None, **more):
    """Half a profile with three slots, a centre line along its edge; sizes upright from that edge up to 20."""
    ink = half_profile(COMB) if end is None else mixed(half_profile(COMB), box(*end))
    heights = [Dimension(DimensionKind.LINEAR, ((-60.0, 0.0), (-60.0, 20.0)), 90.0, 20.0, text) for text in sizes]
    return told(ink, dimensions=(*heights, *more.pop("dimensions", ())), **more)


@pytest.mark.parametrize("size", ["20", "20.09", "(20)", None, "20 \u00b10.1"])
def test_a_height_from_the_centre_line_and_no_diameter_is_that_of_a_comb(size):
    """Half a turned part would have its diameter printed, or a radius: with a sign, or twice as large."""
    assert "not-turned" in comb(size)
    assert "not-turned" not in comb(size, dimensions=(FLOOR,))


@pytest.mark.parametrize("size", ["\u00d840", "40", "R20", "20.11"])
def test_a_diameter_or_a_radius_of_half_a_turned_part_is_no_height(size):
    assert "not-turned" not in comb(size)


@pytest.mark.parametrize(
    ("end", "codes"),
    [
        ((20.0, 0.0, 26.0, 20.0), ["not-turned"]),
        ((-90.0, 0.0, -84.0, 20.0), ["not-turned"]),
        ((20.0, 0.0, 26.0, 15.0), []),
        ((20.0, 5.0, 26.0, 20.0), []),
    ],
)
def test_a_rectangle_as_high_as_half_a_view_and_in_line_with_it_is_a_plate_s_end(end, codes):
    assert comb(end=end) == codes


def backed(part=COMB, back=60.0, texts=(), dimensions=()):
    """Half a profile whose outline goes on along its centre line for so far, from the front face."""
    ink = half_profile(part)
    ink.solid.append((0.0, 0.0, -back, 0.0, 0.0))
    return told(ink, texts=texts, dimensions=dimensions)


LENGTH = Dimension(DimensionKind.LINEAR, ((0.0, 20.0), (-60.0, 20.0)), 0.0, 60.0, None)
DEPTH = Dimension(DimensionKind.LINEAR, ((-9.0, 20.0), (-11.0, 17.0)), 90.0, 3.0, "3")
TEETH = {
    "a length": ({"dimensions": (LENGTH,)}, True),
    "a length and a depth": ({"dimensions": (LENGTH, DEPTH)}, True),
    "a note of metal": ({"dimensions": (LENGTH,), "texts": (Text("S235", (0, 60), 3.5),)}, True),
    "no size": ({}, False),
    "a depth alone": ({"dimensions": (DEPTH,)}, False),
    "a diameter of half": ({"dimensions": (LENGTH, replace(DEPTH, points=((-9, 0), (-9, 20)), text="40"))}, False),
    "a radius": ({"dimensions": (LENGTH, replace(DEPTH, text="R3"))}, False),
    "a sign in a text": ({"dimensions": (LENGTH,), "texts": (Text("\u00d834", (0, 60), 3.5),)}, False),
    "a thread": ({"dimensions": (LENGTH,), "texts": (Text("M20", (0, 60), 3.5),)}, False),
    "a shoulder": ({"part": replace(COMB, steps=((5.0, 38.0), (55.0, 40.0))), "dimensions": (LENGTH,)}, False),
    "a chamfer": ({"part": replace(COMB, chamfer=1.0), "dimensions": (LENGTH,)}, False),
    "two slots": ({"part": replace(COMB, cuts=COMB.cuts[:2]), "dimensions": (LENGTH,)}, False),
    "uneven slots": (
        {"part": replace(COMB, cuts=(*COMB.cuts[:2], Cut(-41.0, 3.0, 34.0))), "dimensions": (LENGTH,)},
        False,
    ),
    "no back": ({"back": 53.0, "dimensions": (LENGTH,)}, False),
    "a back of 55": ({"back": 55.0, "dimensions": (LENGTH,)}, True),
}


@pytest.mark.parametrize(("how", "stop"), TEETH.values(), ids=TEETH)
def test_even_slots_over_a_drawn_back_with_lengths_and_no_diameter_are_a_comb_s(how, stop):
    assert backed(**how) == ["not-turned"] * stop


WHOLE = {
    "a length": ({"dimensions": (LENGTH,)}, True),
    "a length and a depth": ({"dimensions": (LENGTH, DEPTH)}, True),
    "a height": ({"dimensions": (upright("40"),)}, True),
    "no size": ({}, False),
    "a diameter": ({"dimensions": (upright("\u00d840"),)}, False),
    "a radius": ({"dimensions": (LENGTH, replace(DEPTH, text="R3"))}, False),
    "a thread": ({"dimensions": (LENGTH,), "texts": (Text("M20", (0, 60), 3.5),)}, False),
    "a centre line": ({"dimensions": (LENGTH,), "line": 5.0}, False),
    "edges across": ({"dimensions": (LENGTH,), "draw": side_view}, False),
    "a shoulder": ({"part": replace(COMB, steps=((5.0, 38.0), (55.0, 40.0))), "dimensions": (LENGTH,)}, False),
    "two slots": ({"part": replace(COMB, cuts=COMB.cuts[:2]), "dimensions": (LENGTH,)}, False),
}


@pytest.mark.parametrize(("how", "stop"), WHOLE.values(), ids=WHOLE)
def test_even_slots_in_both_sides_with_lengths_and_no_diameter_are_a_comb_s(how, stop):
    """Without a centre line nothing but its symmetry says that it is turned."""
    more = {"part": COMB, "draw": full_outline, "line": None, **how}
    ink = more.pop("draw")(more.pop("part"), more.pop("line"))
    assert told(ink, **more) == ["not-turned"] * stop


@pytest.mark.parametrize(
    ("ink", "size", "codes"),
    [
        (full_outline(COMB), "40", ["turned-by-symmetry"]),
        (full_outline(COMB), None, ["turned-by-symmetry"]),
        (full_outline(COMB), "\u00d840", []),
        (side_view(COMB), "40", []),
    ],
)
def test_a_height_across_an_outline_without_an_edge_may_be_a_plate_s(ink, size, codes):
    """Edges right across, as at the walls of turned grooves, or a diameter show more than a centre line does."""
    assert told(ink, Level.CAUTION, dimensions=(upright(size),)) == codes
    assert told(ink, dimensions=(upright(size),)) == []
