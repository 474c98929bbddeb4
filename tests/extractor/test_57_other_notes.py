"""Notes on threads, chamfers, places and changes: held against the land, the edge or the grooves that they are about.

How such notes are written: common practice, no source. A thread's nominal diameter is that of its land (ISO 6410-1,
from memory).
"""

import math
from dataclasses import replace

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.ties import HERE, across, bar, tied
from support.weighing import NO_SEGMENTS

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.notes.other_notes import is_slant

PIN = Turned(((30.0, 16.0), (40.0, 30.0)), (Cut(-40.0, 3.0, 24.0), Cut(-55.0, 2.5, 24.0)), chamfer=1.5)
"""16 across and then 30, the front chamfered by 1.5; grooves 3 and 2.5 wide and 3 deep, 40 and 55 from the front."""
ON_LAND, ON_EDGE, IN_GROOVE = (-10.0, 8.0), (-0.75, 7.25), (-41.5, 12.0)


def stops(words, tip=None, units="mm"):
    """The messages of the stops for a note led to a place, or standing far from the view."""
    dimensions = [Dimension(DimensionKind.LEADER, (tip, (tip[0] + 12, 50.0)), 0.0, 0.0, words)] if tip else []
    texts = [] if tip else [Text(words, (40.0, 90.0), 2.5)]
    sheet = sheet_of(side_view(PIN), dimensions=tuple(dimensions), texts=tuple(texts))
    reading = read_sheet(sheet, ReadOptions(units=units))
    assert not any(f.code == "note-unread" and "Words at the part" not in f.message for f in reading.findings)
    return [(f.code, f.message) for f in reading.findings if f.stops]


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("M16", False), ("M16x2", False), ("M16 LH", False), ("M16-6g", False),
        ("M20", True), ("M20x1.5", True), ("M20-6g", True), ("M14 x 1 LH", True),
        ("M8", False), ("M11.9", False), ("M12.1", True),
        ("M16.8", False), ("M16.9", True), ("M15.9", False), ("M15.8", True),
        ("M20-6H", False), ("M20 TAP", False), ("4x M20", False),
    ],
)  # fmt: skip
def test_a_thread_is_as_large_as_its_land(words, wrong):
    """Drawn by its tolerance smaller at most; one of less than three quarters is tapped in a hole across the land."""
    told = stops(words, ON_LAND)
    assert [code for code, _ in told] == ["note-contradicts"] * wrong
    assert all("where the drawing measures 16: ask" in message for _, message in told)
    assert stops(words, IN_GROOVE) == stops(words) == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("M30x3", True),
        ("M30", True),
        ("M31.5", True),
        ("M31.6", False),
        ("M29.8", True),
        ("M29.7", False),
        ("M8", False),
    ],
)
def test_a_thread_that_is_led_into_a_groove_of_a_land_as_large_is_told(words, told):
    """The land is 30 across: 0.95 times 31.5, and 1.01 times 29.8."""
    tip = Dimension(DimensionKind.LEADER, (IN_GROOVE, (-30.0, 50.0)), 0.0, 0.0, words)
    reading = read_sheet(sheet_of(side_view(PIN), dimensions=(tip,)), ReadOptions(units="mm"))
    asked = [(f.level, f.groove) for f in reading.findings if "names a thread at groove 1" in f.message]
    assert asked == [("caution", 1)] * told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("A/F 30 HEX", True), ("HEX 26", True), ("SW 30", True), ("30 A/F", True), ("\u25a130", True), ("SQ 30", True),
        ("30 SQ", True), ("4KT 30", True), ("esagono 30", True), ("ESAGONO 26", True), ("SQ 21.2", True),
        ("SW 27", False), ("SW 22", False), ("SQ 20", False), ("\u00d830 A/F", False), ("30", False), ("30 h6", False),
    ],
)  # fmt: skip
def test_a_size_across_flats_of_a_land_that_was_read_round_is_told(words, told):
    """Over its corners a hexagon of 26 is 30.02 wide, and a square of 21.2 is 29.98."""
    leader = Dimension(DimensionKind.LEADER, ((-35.0, 15.0), (-10.0, 50.0)), 0.0, 0.0, words)
    measured, round_too = (
        Dimension(DimensionKind.LINEAR, ((-35.0, 15.0), (-35.0, -15.0)), 90.0, 30.0, text) for text in (words, "Ø30")
    )
    for one in (leader, measured):
        reading = read_sheet(sheet_of(side_view(PIN), dimensions=(one, round_too)), ReadOptions(units="mm"))
        asked = [f.level for f in reading.findings if "where the part was read round, 30 across" in f.message]
        assert asked == ["caution"] * told, one


ROUND_TOO = Dimension(DimensionKind.LINEAR, ((-35.0, 15.0), (-35.0, -15.0)), 90.0, 30.0, "Ø30")


def free_flats(words, *more):
    """The levels of what is said of a free note of a size across flats, with lines on the sheet besides."""
    ink = side_view(PIN)
    ink.solid += more
    sheet = sheet_of(ink, texts=(Text(words, (40.0, 90.0), 2.5),), dimensions=(ROUND_TOO,))
    found = read_sheet(sheet, ReadOptions(units="mm")).findings
    return [f.level.value for f in found if "a size across flats, and the part was read round" in f.message]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("FLATS 25 A/F", True), ("HEXAGON 26 A/F", True), ("Sechskant SW 26", True), ("MÉPLATS 25", True),
        ("ESAGONO 26", True), ("CUADRADO 20", True), ("SEXTAVADO 26", True), ("ZESKANT 26", True),
        ("SZEŚCIOKĄT 26", True), ("ŠESTIHRAN 26", True), ("SEXKANT 26", True),
        ("SQUARE 9.1", True), ("SQUARE 8.9", False), ("SW 29.9", True), ("SW 30.1", False),
        ("SQUARE TO AXIS 0.02", False), ("FLATNESS 0.02", False), ("HEX BAR 46 A/F", False), ("KEYWAY 6 P9", False),
        ("GROOVES MUST BE SQUARE 0.02", False),
        ("25 FLATS", True), ("13 FLATS", True), ("12 FLATS", False), ("9.5 FLATS", True), ("6 FLATS", False),
        ("TORX 20 SW 3", False), ("TORX 20 SW 24", True), ("19 SW 2x", True), ("25 SQ MM", False),
    ],
)  # fmt: skip
def test_a_size_across_flats_in_a_free_note_is_told_of_a_part_that_was_read_round(words, told):
    """The part is 30 across: three tenths of it are 9."""
    assert free_flats(words) == ["caution"] * told


def led_flats(words, tip, *more):
    """The same of a note whose leader ends at a place of the part; also what is not understood at the groove there."""
    ink = side_view(PIN)
    ink.solid += more
    leader = Dimension(DimensionKind.LEADER, (tip, (-10.0, 50.0)), 0.0, 0.0, words)
    found = read_sheet(sheet_of(ink, dimensions=(leader, ROUND_TOO)), ReadOptions(units="mm")).findings
    return [f.level.value for f in found if "read round" in f.message or "at groove 1 is not" in f.message]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("HEX 46 A/F", True), ("SW 36", True), ("2 FLATS 25 A/F", True), ("HEXAGONE 46", True), ("SEXKANT 41", True),
        ("SQ 5", True), ("HEX 30 A/F", True), ("HEX BAR 46 A/F", False), ("6 FLATS", False), ("46 LG", False),
    ],
)  # fmt: skip
def test_a_size_across_flats_led_to_what_was_read_round_is_told_once(words, told):
    assert led_flats(words, (-35.0, 15.0)) == ["caution"] * told


def test_one_led_beside_the_part_is_not():
    assert [led_flats("HEX 46 A/F", tip) for tip in (IN_GROOVE, (-35.0, 45.0))] == [["caution"], []]


def test_of_flats_that_are_drawn_only_those_larger_than_the_part_are_told_at_it():
    cross = [(-34.0, -5.0 * s, -26.0, 5.0 * s, 0.0) for s in (1, -1)]
    assert [led_flats(words, (-35.0, 15.0), *cross) for words in ("25 A/F", "31 A/F")] == [[], ["caution"]]


def test_but_not_where_lines_cross_as_over_flats():
    one, other = ((-34.0, -5.0 * s, -26.0, 5.0 * s, 0.0) for s in (1, -1))
    aside = (-34.0, 6.0, -26.0, -4.0, 0.0)
    assert [free_flats("FLATS 25 A/F", one, last) for last in (other, aside)] == [[], ["caution"]]


def test_a_metric_thread_is_in_millimetres_on_a_sheet_in_inches():
    """16 in are 406.4 mm."""
    assert [[code for code, _ in stops(words, ON_LAND, units="in")] for words in ("M410", "M450", "M16")] == [
        [],
        ["note-contradicts"],
        [],
    ]


@pytest.mark.parametrize(
    ("words", "wrong"),
    [("C1.5", False), ("1.5x45°", False), ("2x 1,5 X 45° TYP", False), ("C3", True), ("3x45°", True), ("2x C1", True),
     ("3x30°", False), ("CHAMFER 1.5", False), ("CHAMFER 1", True), ("CHAMFER 3x45°", True), ("Fase 1,5", False),
     ("FASE 2", True), ("2x 2.5 CHAM.", True), ("1.5 CHAM", False), ("SMUSSO 3", True), ("CHANFREIN 1,5", False),
     ("2 CHAMFERS", False), ("CHAMFER 30°", False)],
)  # fmt: skip
def test_the_leg_of_a_chamfer_is_that_of_its_edge(words, wrong):
    told = stops(words, ON_EDGE)
    assert [code for code, _ in told] == ["note-contradicts"] * wrong
    assert all("where the drawing measures 1.5: ask" in message for _, message in told)
    assert stops(words, ON_LAND) == []


@pytest.mark.parametrize(("across", "slant"), [(1.0009, True), (0.9991, True), (1.0011, False), (0.9989, False)])
def test_legs_of_a_chamfer_are_alike_within_a_thousandth(across, slant):
    assert is_slant((0.0, 8.0), (-1.0, 8.0 + across)) is slant
    assert not is_slant((0.0, 8.0), (0.0, 9.0))


@pytest.mark.parametrize(
    ("words", "measured"),
    [
        ("FIRST GROOVE 40 FROM FRONT FACE", None), ("43 TO FIRST GROOVE", None), ("41,5 TO FIRST GROOVE", None),
        ("erste Nut 40 von Planseite", None), ("FIRST GROOVE STARTS AT 12.5 FROM END", None),
        ("GROOVE STARTS 55 FROM END", None), ("GROOVE 3 FROM END", None), ("FIRST GROOVE 10 FROM SHOULDER", None),
        ("FIRST GROOVE 10 FROM FACE OF COLLAR", None), ("27.5 FROM BACK FACE TO FIRST GROOVE", "40"),
        ("FIRST GROOVE 41 FROM FRONT FACE", "40"), ("39 TO FIRST GROOVE", "40"), ("erste Nut 41 von Planseite", "40"),
        ("FIRST GROOVE 12.5 FROM FRONT FACE", "40"), ("FIRST GROOVE 55 FROM END", "40"),
        ("GROOVE STARTS 56 FROM END", "40"),
    ],
)  # fmt: skip
def test_the_first_groove_lies_where_a_note_says(words, measured):
    """Either wall or the middle, from the front face if that is named, else from either end; the part is 70 long."""
    told = stops(words)
    assert [code for code, _ in told] == ["note-contradicts"] * (measured is not None)
    assert all(f"where the drawing measures {measured}: ask" in message for _, message in told)


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("REV B: GROOVE WIDTH WAS 2.5 NOW 3.5", True), ("Änderung b: Nutbreite 3 -> 4", True),
        ("B  GROOVE 3.5 WIDE WAS 3", True), ("GROOVE DEPTH WAS 3 NOW 3.5", True), ("GROOVE Ø24 -> Ø23", True),
        ("REV B: Drážka 1: 3 -> 4", True), ("REV B: GROOVE 1: 4 -> 3", False), ("REV B: 3 -> 4", False),
        ("REV B: GROOVE WIDTH WAS 3 NOW 2.5", False), ("REV B: GROOVE WIDTH WAS 2 NOW 3", False),
        ("REV B: GROOVE WIDTH WAS 4 NOW 5", False), ("B  LENGTH WAS 60 NOW 65", False),
        ("Änderung b: Nutbreite war 2", False),
    ],
)  # fmt: skip
def test_a_size_that_was_changed_is_drawn_as_it_is_now(words, wrong):
    assert [code for code, _ in stops(words)] == ["note-contradicts"] * wrong


@pytest.mark.parametrize(("words", "wrong"), [("M40x1.5", False), ("M48x1.5", True), ("M24", False)])
def test_a_thread_on_a_dimension_of_a_land_is_as_large_as_the_land(words, wrong):
    assert [f.code for f in tied(bar(), across(40, words, z=5))[1] if f.stops] == ["note-contradicts"] * wrong


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("106°", []),
        ("2x 106.3°", []),
        ("1x 106°", []),
        ("3x 106°, 3 DEEP", ["count-differs"]),
        ("36.9°", []),
        ("107°", ["note-contradicts"]),
        ("2x 60°", ["note-contradicts"]),
        ("1x60°", []),
    ],
)
def test_an_angle_at_a_groove_is_that_of_its_walls(words, wrong):
    """The walls run 4 along and 3 across: 53.13 degrees each to the radius, 106.26 between them; 1x60 is a chamfer.
    One groove is counted, or its two walls are."""
    part = bar((-10, -20, 34, {"shape": "tapered"}))
    outline = ((0, 20), (-10, 20), (-14, 17), (-16, 17), (-20, 20), (-60, 20))
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-15, 18), HERE.on_sheet(0, 40)), 0.0, 0.0, words)
    found = tied(replace(part, outline=outline), led)[1]
    assert [f.code for f in found if f.stops] == wrong


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        ("V GROOVE", ""),
        ("V-GROOVE 90°", ""),
        ("2x 90° V-NUT", ""),
        ("Keilrille 90°", ""),
        ("V-GROOVE 90.02°", ""),
        ("V-GROOVE 91°", "the angle 91 where the drawing measures 90"),
        ("60° V GROOVE", "the angle 60 where the drawing measures 90"),
        ("gorge en V 60°", "the angle 60 where the drawing measures 90"),
        ("GOLA A V 60°", "the angle 60 where the drawing measures 90"),
    ],
)
def test_a_vee_called_by_its_name_is_held_wherever_it_stands(words, fault):
    """A vee 6 wide and 3 deep has 90 degrees between its walls; where a square groove is the only one, any is wrong."""
    text = Text(words, HERE.on_sheet(90.0, -70.0), 2.5)
    for shape, floor, told in (("vee", ((-13, 17),), fault), ("rectangular", ((-10, 17), (-16, 17)), "names a vee")):
        outline = ((0, 20), (-10, 20), *floor, (-16, 20), (-60, 20))
        part = replace(bar((-10, -16, 34, {"shape": shape})), outline=outline)
        found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(text,)), part)[1]
        stops = [f.message for f in found if f.stops]
        assert len(stops) == bool(told)
        assert all(told in message for message in stops)


@pytest.mark.parametrize(("vee", "wrong"), [(True, "measures 90"), (False, "")])
def test_a_wall_that_leans_in_another_shape_is_none_of_a_vee_where_one_is_drawn(vee, wrong):
    """A stepped recess has one wall at 30 degrees; two of them make 60."""
    text = Text("60° V GROOVE", HERE.on_sheet(90.0, -70.0), 2.5)
    grooves = [(-10, -16, 34, {"shape": "vee"})] * vee + [(-30, -36, 34, {"shape": "other"})]
    rise = 3.0 / math.tan(math.radians(30.0))
    stepped = ((-30, 20), (-33, 20 - rise), (-36, 20 - rise), (-36, 20))
    outline = ((0, 20), (-10, 20), (-13, 17), (-16, 20), *stepped, (-60, 20))
    part = replace(bar(*grooves), outline=outline)
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(text,)), part)[1]
    stops = [f.message for f in found if f.stops]
    assert len(stops) == bool(wrong)
    assert all(wrong in message for message in stops)


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("GROOVE AT 40", False),
        ("GROOVE AT 43", False),
        ("NUT BEI 41,5", False),
        ("GROOVE POSITION 55 FROM FRONT", False),
        ("GROOVE AT 15", False),
        ("GROOVE AT 39", True),
        ("GROOVE POSITION: 54", True),
        ("EINSTICH LAGE 39 mm", True),
        ("GROOVE AT 39 PITCH", False),
    ],
)
def test_the_place_of_a_groove_is_that_of_a_wall_or_its_middle_from_either_end(words, wrong):
    """The part is 70 long: its last groove begins 15 from the back; the middle of the first is 41.5 from the front."""
    sheet = sheet_of(side_view(PIN), texts=(Text(words, (40.0, 90.0), 2.5),))
    found = [f.code for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.stops]
    assert found == ["note-contradicts"] * wrong


@pytest.mark.parametrize(("off", "told"), [(0.0, True), (0.118, True), (0.122, False)])
@pytest.mark.parametrize("wall", [-10.0, -13.0])
def test_a_chamfer_on_a_sharp_edge_of_a_groove_is_told(off, told, wall):
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(wall, 20 + off), HERE.on_sheet(0, 40)), 0.0, 0.0, "0.5x45°")
    for more, silent in (({}, False), ({"edge_chamfer": 0.5}, True)):
        outline = ((0, 20), (-10, 20), (-10, 17), (-13, 17), (-13, 20), (-60, 20))
        part = replace(bar((-10, -13, 34, more)), outline=outline)
        found = tied(part, led)[1]
        assert [(f.level, f.code, f.groove) for f in found] == [("caution", "corner-not-drawn", 1)] * (
            told and not silent
        )


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("LANDS 12 WIDE", False),
        ("LAND 12", False),
        ("STEGE 12 BREIT", False),
        ("12 WIDE LANDS", False),
        ("RIBS 12.0 mm WIDE", False),
        ("LANDS 11 WIDE", True),
        ("STEG 11", True),
        ("11 WIDE LANDS", True),
        ("ISLANDS 11 WIDE", False),
    ],
)
def test_a_land_named_by_a_note_is_what_stands_between_two_grooves(words, wrong):
    """The grooves end at 43 and begin at 55."""
    sheet = sheet_of(side_view(PIN), texts=(Text(words, (40.0, 90.0), 2.5),))
    found = [f.message for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.stops]
    assert len(found) == wrong
    assert all("a land of 11 where the drawing measures 12" in message for message in found)


@pytest.mark.parametrize(
    ("words", "where", "stops"),
    [
        ("FACE GROOVE 3x3", "outside", True),
        ("FACE GROOVE 3x3", "face", False),
        ("AXIAL GROOVE", "outside", True),
        ("Planeinstich", "outside", True),
        ("gorge frontale", "outside", True),
        ("INTERNAL GROOVE", "outside", True),
        ("INTERNAL GROOVE", "inside", False),
        ("Inneneinstich", "outside", True),
        ("gola esterna", "outside", False),
        ("EXTERNAL GROOVE", "inside", True),
        ("SURFACE GROOVE", "outside", False),
        ("GROOVE FACE Ra 1.6", "outside", False),
    ],
)
def test_a_groove_named_by_another_side_stops(words, where, stops):
    """Led into the groove; one that is only named somewhere on the sheet may be any."""
    spots = {
        "outside": ((-10, -13, 34), (-11.5, 18.0)),
        "inside": ((-10, -13, 26, {"where": "inside", "mouth_diameter": 20}), (-11.5, 11.0)),
        "face": ((0, -3, 24, {"where": "face", "mouth_diameter": 30}), (-1.0, 13.5)),
    }
    spot, tip = spots[where]
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(20.0, 50.0)), 0.0, 0.0, words)
    assert [f.code.value for f in tied(bar(spot), leader)[1] if f.stops] == ["note-contradicts"] * stops
    assert not [f for f in tied(bar(spot), notes=[words])[1] if f.stops]


@pytest.mark.parametrize(
    ("words", "asked"),
    [("GROOVES IN BORE", True), ("O-RING GROOVES IN THE BORE", True), ("Innennuten", True),
     ("GORGES INTERIEURES", True),
     ("EXTERNAL GROOVES", False), ("Außennuten", False), ("FACE GROOVES", False), ("BORE DEPTH 40", False)],
)  # fmt: skip
def test_grooves_named_by_a_side_on_which_there_are_none_are_told(words, asked):
    found = [f.code.value for f in tied(bar((-10, -13, 34)), notes=[words])[1]]
    assert ("note-without-groove" in found) is asked
    inside = bar((-10, -13, 26, {"where": "inside", "mouth_diameter": 20}))
    assert "note-without-groove" not in [f.code.value for f in tied(inside, notes=["GROOVES IN BORE"])[1]]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("10°", True),
        ("2x 15°", True),
        ("89°", True),
        ("10° TYP", True),
        ("90°", False),
        ("1x45°", False),
        ("R10", False),
    ],
)
def test_an_angle_at_a_groove_with_upright_walls_is_told(words, told):
    part = bar((-10, -13, 34), (-20, -24, 30))
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-10, 18), HERE.on_sheet(0, 40)), 0.0, 0.0, words)
    found = [(f.code, f.groove) for f in tied(part, led)[1] if "gives groove 1 an angle" in f.message]
    assert found == [("note-unread", 1)] * told


@pytest.mark.parametrize(("z", "r"), [(-5.0, 20.0), (-9.8, 20.0), (-11.5, 10.0)])
def test_one_elsewhere_is_of_no_groove(z, r):
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, r), HERE.on_sheet(0, 40)), 0.0, 0.0, "10°")
    assert not any("an angle" in f.message for f in tied(bar((-10, -13, 34)), led)[1])


def test_an_angle_at_a_groove_with_chamfered_edges_may_be_theirs():
    part = bar((-10, -13, 34, {"edge_chamfer": 0.5}))
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-10, 18), HERE.on_sheet(0, 40)), 0.0, 0.0, "30°")
    assert not any("an angle" in f.message for f in tied(part, led)[1])


@pytest.mark.parametrize(
    ("words", "wrong"),
    [("t=3", False), ("t = 3", False), ("t=3 +0.1", False), ("T=2.5", True), ("t=2,5", True), ("t=3.5 +0.1", True)],
)
def test_a_depth_by_its_letter_at_a_groove_is_that_of_the_groove(words, wrong):
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-11.5, 17), HERE.on_sheet(0, 40)), 0.0, 0.0, words)
    found = [f for f in tied(bar((-10, -13, 34)), led)[1] if f.level in ("stop", "caution")]
    assert [f.code for f in found] == ["note-contradicts"] * wrong


@pytest.mark.parametrize("tip", [(-30.0, 20.0), (-30.0, 60.0)])
def test_elsewhere_it_is_a_thickness(tip):
    led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(0, 40)), 0.0, 0.0, "t=2.5")
    assert not [f for f in tied(bar((-10, -13, 34)), led)[1] if f.level in ("stop", "caution")]
    assert not [f for f in tied(bar((-10, -13, 34)), notes=["t=2.5"])[1] if f.level in ("stop", "caution")]


BROKEN = ((0, 18), (-2, 20), (-9.5, 20), (-10, 19.5), (-10, 17), (-13, 17), (-13, 19.5), (-13.5, 20), (-60, 20))


@pytest.mark.parametrize(
    ("z", "r", "drawn"),
    [
        (-9.75, 19.75, "0.5"),  # on the edge
        (-10.2, 19.8, "0.5"),  # in the groove, beside it
        (-10.6, 19.9, None),  # farther off than its leg
        (-9.3, 20.25, "0.5"),
        (-13.25, -19.75, "0.5"),
        (-1.0, 19.0, "2"),
        (-0.18, 19.82, "2"),
        (-0.12, 19.88, None),  # 1.24 from it, more than a fiftieth of 60
        (-30.0, 20.0, None),
    ],
)
@pytest.mark.parametrize("words", ["{}x45°", "C{}", "2x {} x 45°"])
def test_a_leader_beside_the_broken_edge_of_a_groove_is_of_that(z, r, drawn, words):
    part = replace(bar((-10, -13, 34, {"edge_chamfer": 0.5})), outline=BROKEN)
    for leg in ("0.5", "1", "2"):
        led = Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, r), HERE.on_sheet(0, 40)), 0.0, 0.0, words.format(leg))
        stops = [f.message for f in tied(part, led)[1] if f.stops]
        assert len(stops) == (drawn is not None and drawn != leg)
        assert all(f"prints a chamfer of {leg} where the drawing measures {drawn}:" in one for one in stops)
