"""A view that is not drawn at true size is a stop that names the ratio; what only looks like one is not."""

import math
from dataclasses import replace

import pytest
from support.draw import Cut, Turned, full_outline
from support.draw import sheet_of as sheet_with
from support.weighing import sheet_of, weigh

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

SKEW = {
    "printed as drawn": [(40, "Ø40"), (3, "3"), (60, None)],
    "nothing dimensioned": [],
    "measured sizes only": [(40, None), (3, None)],
    "rounded prints": [(12.7, "12.7"), (31.75, "31.8"), (7.9375, "7.94")],
    "one wrong size among right ones": [(40, "40"), (3, "3"), (10, "12")],
    "two wrong sizes of different ratio": [(40, "40"), (3, "4"), (10, "12")],
    "diameters printed on half a section": [(20, "Ø40"), (17, "Ø34"), (10, "10")],
    "only diameters printed on half a section": [(20, "Ø40"), (17, "Ø34")],
    "drawn in mm, printed in inch": [(38.1, "1.500"), (12.7, ".500")],
    "drawn in mm, sixteenths printed in inch": [(1.5875, ".062"), (1.5875, ".062"), (38.1, "1.500")],
    "display factor of the other unit": [(38.1, None, 1 / 25.4)],
    "angles and threads": [(7, "30°"), (8, "M16")],
}


@pytest.mark.parametrize("dims", SKEW.values(), ids=SKEW)
def test_true_size(dims):
    answer = weigh(sheet_of(4, 1, (), dims))
    assert answer.scale == 1.0
    assert not [f for f in answer.findings if f.code == "sheet-scale"]


# (dimensions, drawn length of one printed unit, ratio in the message)
SCALED = {
    "texts that share a ratio": ([(44, "20"), (6.6, "3"), (132, "60")], 2.2, "2.2:1"),
    "texts that share a ratio, one of them true by chance": ([(44, "20"), (6.6, "3"), (10, "10")], 2.2, "2.2:1"),
    "half size": ([(20, "40"), (1.5, "3"), (30, "60")], 0.5, "1:2"),
    "half size with diameters": ([(20, "Ø40"), (1.5, "3"), (30, "60")], 0.5, "1:2"),
    "display factor": ([(20, None, 2.0)], 0.5, "1:2"),
    "display factor in words": ([(20, "Ø<> h11", 2.0)], 0.5, "1:2"),
    "display factor beside typed sizes": ([(20, "40", 2.0), (8, "Ø16", 2.0)], 0.5, "1:2"),
    "display factor beside typed diameters": ([(20, "Ø40", 2.0), (8, "Ø16", 2.0)], 0.5, "1:2"),
    "display factor beside a typed diameter": ([(20, "Ø40", 2.0), (3, "6", 2.0)], 0.5, "1:2"),
    "display factor beside typed diameters alone": ([(20, "Ø40", 2.0), (17, "Ø34", 2.0)], 0.5, "1:2"),
    "enlarged by 1.15": ([(46, "40"), (3.45, "3")], 1.15, "1.15:1"),
}


@pytest.mark.parametrize(("dims", "scale", "ratio"), SCALED.values(), ids=SCALED)
def test_a_sheet_scale_is_named(dims, scale, ratio):
    answer = weigh(sheet_of(4, 1, (), dims))
    assert answer.scale == pytest.approx(scale, rel=1e-3)
    (stop,) = [f for f in answer.findings if f.stops]
    assert stop.code == "sheet-scale"
    assert f"drawn at {ratio}" in stop.message
    assert f"--scale {answer.scale:.4g}" in stop.message


@pytest.mark.parametrize(("dims", "scale", "ratio"), SCALED.values(), ids=SCALED)
def test_to_read_it_as_drawn_is_no_choice_against_a_display_factor_and_never_without_a_word(dims, scale, ratio):
    (stop,) = [f for f in weigh(sheet_of(4, 1, (), dims)).findings if f.stops]
    assert (1.0 in stop.scales) is not any(len(one) > 2 for one in dims)
    (caution,) = weigh(sheet_of(4, 1, (), dims), scale=1.0, units="mm").findings
    assert (caution.level, caution.code) == ("caution", "sheet-scale")
    assert ratio in caution.message


@pytest.mark.parametrize(("dims", "scale", "ratio"), SCALED.values(), ids=SCALED)
def test_the_user_accepts_it(dims, scale, ratio):
    answer = weigh(sheet_of(4, 1, (), dims), scale=scale)
    assert answer.scale == scale
    assert not any(f.stops for f in answer.findings)


# (dimensions, scale given, whether it is doubted)
GIVEN = {
    "measured sizes": ([(40, None), (3, None)], 2.0, "2 sizes that dimensions print agree with 1:1"),
    "one measured size": ([(40, None)], 0.5, "1 size that dimensions print agrees with 1:1"),
    "a typed size": ([(40, "40")], 5.0, "1 size that dimensions print agrees with 1:1"),
    "what they agree with": ([(40, None), (3, None)], 1.0, ""),
    "no size at all": ([], 2.0, ""),
    "angles alone": ([(7, "30°")], 2.0, ""),
}


@pytest.mark.parametrize(("dims", "scale", "words"), GIVEN.values(), ids=GIVEN)
def test_a_scale_given_against_the_sizes_that_are_printed_is_doubted(dims, scale, words):
    answer = weigh(sheet_of(4, 1, (), dims), scale=scale, units="mm")
    assert answer.scale == scale
    assert [(f.level, words in f.message) for f in answer.findings] == ([("caution", True)] if words else [])


@pytest.mark.parametrize(("drawn", "scale"), [(0.4998, 0.5), (0.4976, 0.5), (0.4974, 0.4974)])
def test_a_ratio_of_rounded_sizes_is_the_usual_scale_near_it(drawn, scale):
    """Sizes printed to two places give 1:2.001: the scale is 1:2 (ISO 5455, from memory), and is offered as that."""
    answer = weigh(sheet_of(4, 1, (), [(drawn * size, f"{size:g}") for size in (20.75, 34, 4)]))
    assert answer.scale == pytest.approx(scale, rel=1e-9)
    (stop,) = [f for f in answer.findings if f.stops]
    assert f"--scale {scale:.6g} " in stop.message


# (drawn length of one printed unit, scale, words)
OTHER_UNIT = {
    "mm, sized in inches": (2.003 * 25.4, 2.0, "2:1 and sized in inches"),
    "just too far from it": (2.012 * 25.4, 2.012 * 25.4, "51.1:1"),
    "half size": (0.5 * 25.4, 0.5, "1:2 and sized in inches"),
    "inches, sized in mm": (2 / 25.4, 2.0, "2:1 and sized in mm"),
}


@pytest.mark.parametrize(("drawn", "scale", "words"), OTHER_UNIT.values(), ids=OTHER_UNIT)
def test_a_scale_and_the_other_unit_in_one_ratio_are_told_apart(drawn, scale, words):
    answer = weigh(sheet_of(None, None, (), [(drawn * size, f"{size:g}") for size in (1.25, 0.4, 3)]))
    assert answer.scale == pytest.approx(scale, rel=1e-9)
    assert f"drawn at {words}: 3 printed" in next(f.message for f in answer.findings if f.code == "sheet-scale")


@pytest.mark.parametrize("notes", [[], ["DIMENSIONS IN INCHES"], ["SCALE 2:1"]], ids=str)
def test_drawn_in_mm_at_a_scale_and_sized_in_inches_is_read_in_mm_as_drawn(notes):
    """As at 1:1: what the header says is drawn, and the note on inches speaks of the printed sizes."""
    dims = [(50.8 * size, f"{size:.3f}") for size in (1.25, 0.4, 3)]
    answer = weigh(sheet_of(4, 1, notes, dims), across=101.6, **({} if "SCALE 2:1" in notes else {"scale": 2.0}))
    assert (answer.units, answer.scale) == ("mm", 2.0)
    assert not [f for f in answer.findings if f.stops]


NOTES = {
    "scale 2:1": (["SCALE 2:1"], 2.0),
    "by its letter": (["M 2:1"], 2.0),
    "in Czech, in a cell of its own": (["Měřítko:", "1 : 2"], 0.5),
    "umlauts written out": (["Massstab 1:2"], 0.5),
    "a word of three letters": (["Xyl 2:1"], None),
    "a word of four": (["Xylq 2:1"], 2.0),
    "a mixture's": (["Mischungsverhältnis 2:1"], None),
    "a gear's": (["Übersetzung 3:1"], None),
    "in a sentence of strange words": (["Xylquor 2:1 quex"], None),
    "by its letter, in a sentence": (["THREAD M 2:1 TAPER"], None),
    "scale in a title block cell": (["SCALE", "2:1"], 2.0),
    "German": (["Maßstab 1:5"], 0.2),
    "decimal": (["VIEW A SCALE 2.6:1"], 2.6),
    "a view's heading": (["VIEW A 2:1"], 2.0),
    "a view's, in brackets": (["Ansicht B (1:2)"], 0.5),
    "of two views": (["VIEW A 2:1", "VIEW B 5:1"], None),
    "a view's, in a sentence": (["SEE VIEW A 2:1"], None),
    "slash": (["SCALE: 1/2"], 0.5),
    "true size": (["SCALE 1:1"], None),
    "of a detail": (["DETAIL X SCALE 10:1"], None),
    "of a section": (["SECTION A-A SCALE 2:1"], None),
    "two scales": (["SCALE 2:1", "SCALE 1:1"], None),
    "a ratio that is none": (["TAPER 1:10"], None),
    "do not scale": (["DO NOT SCALE THIS DRAWING"], None),
    "Polish": (["Podziałka 2:1"], 2.0),
    "Dutch, in a title block cell": (["Schaal", "1:5"], 0.2),
    "Czech": (["Měřítko: 2:1"], 2.0),
    "in a language that nobody here knows": (["Hlutföll 5:1"], 5.0),
    "the same, smaller": (["Hlutföll 1:5"], 0.2),
    "a word and a ratio of neither scale nor slope": (["Hlutföll 3:2"], None),
    "a word too short": (["Rel 5:1"], None),
    "slopes in other words": (["Konizität 1:5", "Kegel 1:3", "Pente 1:20"], None),
    "a gear's ratio": (["Ratio 5:1"], None),
    "a ratio alone that is an enlargement": (["2:1"], 2.0),
    "ten times": (["10 : 1"], 10.0),
    "a ratio alone that may be a taper": (["1:10"], None),
    "of a detail in another language": (["Detalj X  Skala 4:1", "Szczegół Y  4:1"], None),
    "under the letter of a detail": (["X", "4:1"], None),
    "under the letters of a section": (["A - A", "4:1"], None),
    "of a section to no scale": (["SECTION A-A NOT TO SCALE"], None),
    "French for short": (["ECH 2/1"], 2.0),
    "German for short": (["Maßst. 1:2"], 0.5),
    "Japanese": (["SHAKUDO 2/1"], 2.0),
    "with an equals sign": (["SCALE 1=2"], 0.5),
    "one figure": (["Echelle 2"], 2.0),
    "one figure, true size": (["SCALE: 1"], None),
    "a fraction of one": (["SCALE .5"], 0.5),
    "times": (["SCALE 2X"], 2.0),
    "times, before": (["scale: x5"], 5.0),
    "in a word": (["SCALE DOUBLE"], 2.0),
    "in words": (["TWICE FULL SIZE"], 2.0),
    "in words, smaller": (["HALF SIZE."], 0.5),
    "in a sentence of words": (["View drawn 4 times true size"], 4.0),
    "a format": (["SCALE A3"], None),
    "a size of two figures": (["SCALE 2X2"], None),
    "of a detail, one figure": (["DETAIL X", "SCALE 2X"], None),
    "a stock of double size": (["DOUBLE SIZE BLANK"], None),
    "nothing": (["SCALE 0"], None),
}


@pytest.mark.parametrize(("notes", "scale"), NOTES.values(), ids=NOTES)
def test_a_scale_note_counts_where_no_printed_size_contradicts_it(notes, scale):
    answer = weigh(sheet_of(4, 1, notes))
    assert answer.scale == (scale or 1.0)
    assert [f.code for f in answer.findings if f.stops] == (["sheet-scale"] if scale else [])


@pytest.mark.parametrize("dims", [[(40, "40")], [(40, None)], [(40, "Ø<>")]])
def test_a_printed_size_that_is_true_makes_it_the_plotting_scale(dims):
    assert weigh(sheet_of(4, 1, ["SCALE 2:1"], dims)).findings == ()


def test_a_diameter_in_a_note_that_is_true_does_so_too():
    assert weigh(sheet_of(4, 1, ["SCALE 2:1", "Ø40"])).findings == ()


@pytest.mark.parametrize(
    "notes",
    [
        ["SCALE NTS"],
        ["N.T.S."],
        ["NOT TO SCALE"],
        ["NO A ESCALA"],
        ["Maßstab: ohne"],
        ["без масштаба"],
        ["Niet op schaal"],
        ["Bez měřítka"],
        ["nie w skali"],
        ["Uden målestok"],
        ["SCALE", "sans"],
        ["SCALE", "NONE"],
    ],
    ids=str,
)
def test_a_sheet_to_no_scale_is_asked_about(notes):
    (stop,) = weigh(sheet_of(4, 1, notes)).findings
    assert (stop.level, stop.code, stop.scales) == ("stop", "sheet-scale", (1.0,))
    assert "no dimension says how large" in stop.message
    (caution,) = weigh(sheet_of(4, 1, notes), scale=1.0).findings
    assert (caution.level, "check every size" in caution.message) == ("caution", True)


def size(length, text, angle=0.0, kind=DimensionKind.LINEAR):
    """A size from the origin in a direction."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return Dimension(kind, ((0.0, 0.0), (c * length, s * length)), angle, length, text)


SIZED = [size(60, "60"), size(3, "3"), size(40, "%%c40", 90)]
FEW = {
    "three, along and across": (SIZED, None),
    "measured, along and across": ([size(60, None), size(3, None), size(40, None, 90)], None),
    "one of them led to a circle": ([*SIZED[:2], size(40, "Ø40", 0.0, DimensionKind.DIAMETER)], None),
    "two": (SIZED[1:], "the 2 sizes that dimensions print agree with it"),
    "one of them twice": ([*SIZED[1:], SIZED[1]], "the 2 sizes"),
    "one": (SIZED[:1], "only one size that dimensions print agrees with it"),
    "three along": ([*SIZED[:2], size(10, "10", 180.4)], "the 3 sizes that dimensions print agree with it, all in one"),
    "three, one a little aslant": ([*SIZED[:2], size(10, "10", 1.0)], None),
    "angles and threads alone": ([size(7, "30°"), size(8, "M16")], "no dimension says how large"),
    "one that is false, which stops elsewhere": ([*SIZED[:2], size(10, "12")], None),
}


@pytest.mark.parametrize(("sizes", "told"), FEW.values(), ids=FEW)
def test_few_true_sizes_say_nothing_of_the_others_where_a_sheet_is_to_no_scale(sizes, told):
    """A sheet not to scale has one size drawn true by chance, seldom three, and those of one direction together."""
    sheet = replace(sheet_of(4, 1, ["NOT TO SCALE"]), dimensions=tuple(sizes))
    words = [f.message for f in weigh(sheet).findings if f.stops]
    assert len(words) == (told is not None)
    assert told is None or told in words[0]
    assert not [f for f in weigh(replace(sheet, texts=())).findings if f.stops]


THREE = [(80, "40"), (6, "3"), (120, "60")]
BORNE_OUT = {
    "three sizes": (THREE, "note"),
    "two sizes": (THREE[:2], "stop"),
    "two sizes, one of them twice": ([*THREE[:2], THREE[0]], "stop"),
    "three sizes and one at true size": ([*THREE, (20, "20")], "stop"),
    "a count as large as the drawn width": ([*THREE[:2], (8, "8x 4")], "note"),
    "a count as large as the drawn width, and another width": ([*THREE[:2], (8, "8x 3")], "stop"),
    "another scale printed": ([(120, "40"), (9, "3"), (180, "60")], "stop"),
}


@pytest.mark.parametrize(("dims", "level"), BORNE_OUT.values(), ids=BORNE_OUT)
def test_a_printed_scale_that_three_sizes_bear_out_is_no_question(dims, level):
    answer = weigh(sheet_of(4, 1, ["SCALE 2:1"], dims), across=80)
    assert [f.level for f in answer.findings if f.code == "sheet-scale"] == [level]
    assert answer.scale == pytest.approx(dims[0][0] / 40)


@pytest.mark.parametrize(
    ("notes", "dims", "level"),
    [
        (["SCALE 2:1", "SCALE 1:1 A3"], THREE, "note"),
        (["SCALE 1:2", "SCALE 5:1"], THREE, "stop"),
        (["SCALE 2:1", "SCALE 1:1 A3"], THREE[:2], "stop"),
        (["SCALE 2:1", "SCALE 1:1 A3"], [*THREE, (20, "20")], "stop"),
    ],
)
def test_one_of_several_printed_scales_may_be_that_of_the_print(notes, dims, level):
    answer = weigh(sheet_of(4, 1, notes, dims), across=80)
    assert [f.level for f in answer.findings if f.code == "sheet-scale"] == [level]


def test_one_printed_size_and_a_note_that_agree_are_a_scale():
    answer = weigh(sheet_of(4, 1, ["SCALE 2:1"], [(80, "40")]), across=80)
    assert answer.scale == pytest.approx(2)
    assert [f.code for f in answer.findings if f.stops] == ["sheet-scale"]


def test_one_printed_size_alone_is_no_scale():
    assert weigh(sheet_of(4, 1, [], [(80, "40")]), across=80).scale == 1.0


def test_the_units_are_weighed_at_true_size():
    """4.8 across at 4:1 is 1.2 in."""
    answer = weigh(sheet_of(1, 0, (), [(4.8, "1.200"), (1.0, ".250")]), across=4.8)
    assert answer.units == "in"
    assert answer.scale == pytest.approx(4.0)


def test_a_librarys_display_factor_in_a_librarys_metres_is_not_believed():
    """Metres shown as centimetres: the default style of a common writer prints 100 times the drawn size."""
    answer = weigh(sheet_of(6, 1, ["DIMENSIONS IN MM"], [(40, None, 100.0), (3, "3", 100.0)]))
    assert (answer.units, answer.scale) == ("mm", 1.0)
    assert "display-factor" in [f.code for f in answer.findings if f.level == "caution"]


@pytest.mark.parametrize(("kind", "told"), [(DimensionKind.ANGULAR, []), (DimensionKind.LINEAR, ["display-factor"])])
def test_a_display_factor_says_nothing_of_an_angle(kind, told):
    sheet = sheet_of(4, 1, [], [(90.0, None, 100.0)])
    (one,) = sheet.dimensions
    answer = weigh(replace(sheet, dimensions=(replace(one, kind=kind),)))
    assert (answer.scale, [f.code for f in answer.findings if f.code == "display-factor"]) == (1.0, told)


def test_a_display_factor_in_a_drawing_truly_in_metres_is_a_scale():
    answer = weigh(sheet_of(6, 1, ["DIMENSIONS IN MM"], [(0.04, None, 1000.0)]), across=0.04)
    assert answer.scale == pytest.approx(0.001)
    assert [f.code for f in answer.findings if f.stops] == ["sheet-scale"]


@pytest.mark.parametrize(("gap", "own"), [(7.1, True), (7.3, False)])
def test_a_dimension_whose_extension_lines_begin_beside_the_view_measures_it(gap, own):
    """Within a tenth of the view, which is 60 by 40, so 72.1 from corner to corner, and half as large as the part."""
    ink = full_outline(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))
    low = -20.0 - gap
    sizes = [
        Dimension(DimensionKind.LINEAR, ((0.0, low), (-z, low)), 0.0, float(z), f"{2 * z}", 1.0) for z in (10, 13, 60)
    ]
    notes = (Text("SCALE 1:2", (40.0, -60.0), 3.5), Text("DIMENSIONS IN MM", (40.0, -70.0), 3.5))
    reading = read_sheet(sheet_with(ink, dimensions=tuple(sizes), texts=notes), ReadOptions())
    assert (reading.part.outer_diameter, bool([f for f in reading.findings if f.stops])) == (80.0, not own)


@pytest.mark.parametrize("factor", [100.0, 1000.0])
@pytest.mark.parametrize(("across", "scaled"), [(2.0, True), (2.1, False), (20.0, False)])
def test_a_librarys_display_factor_is_a_scale_only_for_a_part_that_can_be_drawn_in_metres(factor, across, scaled):
    """No part of more than 2 m across is turned on these lathes; none of 20 mm is drawn at 1:100."""
    answer = weigh(sheet_of(4, 1, (), [(across, None, factor), (5.0, None, factor)]), across=across)
    assert [f.code for f in answer.findings if f.stops] == (["sheet-scale"] if scaled else [])
    assert answer.scale == pytest.approx(1 / factor if scaled else 1.0)


@pytest.mark.parametrize(("note", "scaled"), [("SCALE 1:100", True), ("SCALE 1:10", False), ("SCALE 1:1", False)])
def test_a_librarys_display_factor_is_a_scale_where_the_sheet_says_so(note, scaled):
    answer = weigh(sheet_of(4, 1, [note], [(20.0, None, 100.0), (5.0, None, 100.0)]), across=20.0)
    assert ("display-factor" in [f.code for f in answer.findings]) is not scaled
    assert (answer.scale == pytest.approx(0.01)) is scaled


TWICE_AS_LARGE = {
    "one along and one across": ([size(80, "40", 90.0), size(170, "85")], "note"),
    "both along": ([size(80, "40"), size(170, "85")], "stop"),
    "one size both ways": ([size(80, "40", 90.0), size(80, "40")], "stop"),
    "one across alone": ([size(80, "40", 90.0)], "stop"),
    "another one that is not so": ([size(80, "40", 90.0), size(170, "85"), size(9, "3")], "stop"),
}


@pytest.mark.parametrize(("sizes", "level"), TWICE_AS_LARGE.values(), ids=TWICE_AS_LARGE)
def test_all_printed_sizes_along_and_across_bear_a_printed_scale_out(sizes, level):
    sheet = replace(sheet_of(4, 1, ["SCALE 2:1"]), dimensions=tuple(sizes))
    assert [f.level for f in weigh(sheet, across=80).findings if f.code == "sheet-scale"] == [level]
    assert [f.level for f in weigh(replace(sheet, texts=()), across=80).findings if f.code == "sheet-scale"] != ["note"]


HALF = [size(45, "90"), size(2, "4"), size(21, "Ø42", 90.0)]


@pytest.mark.parametrize(
    ("sizes", "notes", "level"),
    [
        (HALF, ["SCALE 1:2"], ["note"]),
        (HALF[1:], ["MASSSTAB 1:2"], ["note"]),
        ([*HALF, size(18, "Ø36", 90.0)], ["SCALE 1:2"], ["note"]),
        (HALF, [], ["stop"]),
        (HALF, ["SCALE 1:5"], ["stop"]),
        ([*HALF, size(5, "5")], ["SCALE 1:2"], ["stop"]),
        ([size(45, "45"), size(21, "Ø42", 90.0), size(18, "Ø36", 90.0)], ["SCALE 1:2"], []),
    ],
)
def test_a_diameter_bears_out_half_size_where_lengths_and_a_note_say_so(sizes, notes, level):
    """Beside true lengths, diameters twice as large as drawn are those of half a section."""
    sheet = replace(sheet_of(4, 1, notes), dimensions=tuple(sizes))
    assert [f.level for f in weigh(sheet, across=21).findings if f.code == "sheet-scale"] == level
