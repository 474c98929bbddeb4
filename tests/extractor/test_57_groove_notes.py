"""Notes at grooves as people write them, held against the groove that leader or place ties them to.

Ways of writing: common practice, no source. DIN 509 sizes: two published extracts of the standard (r x t1, width f).
"""

import math
from dataclasses import replace

import pytest
from support.parts import part_of
from support.ties import HERE, across, along, bar, frame, span, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.notes.callouts import REACH, corner_drawn

ROW = [(-10, -13, 34), (-20, -23, 34), (-30, -33, 34), (-40, -43, 34)]
"""Four grooves 3 wide and 3 deep in a bar 40 across."""


def led(words, z=-11.5, r=17.0, at=HERE):
    """A note with a leader to a place on the part."""
    return Dimension(DimensionKind.LEADER, (at.on_sheet(z, r), at.on_sheet(z + 10, 40)), 0.0, 0.0, words)


def standing(words, part, z=-11.5, r=22.0, height=2.5):
    """What a note says that stands with its middle at a place."""
    x, y = part.frame.on_sheet(z, r)
    text = Text(words, (x - 0.35 * height * len(words), y - 0.5 * height), height)
    return tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(text,)), part)[1]


def stops(*dimensions, part=None):
    """Codes of the stops."""
    return [f.code for f in tied(part or bar(*ROW), *dimensions)[1] if f.stops]


RIGHT = [
    "3 WIDE x 3 DEEP", "3x3", "3 x 3", "3X3", "3 × 3", "3,0 x 3,0", "3 WIDE Ø34", "3 WIDE DIA 34", "3 x Ø34", "Ø34 x 3",
    "GROOVE 3 WIDE", "GROOVE 3 WIDE x 3 DEEP", "NUT 3 BREIT, 3 TIEF", "3 DEEP", "GROOVE 3x3", "4 GROOVES 3 WIDE",
    "4 GROOVES 3 WIDE EQUALLY SPACED", "4 GROOVES 3 WIDE, EQUI-SPACED", "4 NUTEN 3 BREIT GLEICHMÄSSIG VERTEILT",
    "4x Ø34 TYP", "4x Ø34", "4X 3 TYP", "4x 3", "4 x 3x3", "4 GROOVES 3x3", "3 WIDE (4 PLACES)", "3 H13 WIDE x 3 DEEP",
    "3 +0.1 WIDE", "3x3 R0.2 MAX", "GORGE 3 LARGE, 3 PROFOND", "WIDTH 3, DEPTH 3", "3 WIDE\nx 3 DEEP", "(3x3)", "Ø34",
    "NUT b=3 t=3", "b = 3, t = 3", "GOLA LARGHEZZA 3", "GOLA LARGHEZZA 3 PROFONDITÀ 3", "EINSTICH BREITE 3 TIEFE 3",
    "(4x) 3x3", "( 4 X ) 3 WIDE", "3 WIDE TYP 4 POS", "3 WIDE, 4 POSITIONS", "3 BREIT 4 STELLEN",
    "GORGE LARGEUR 3 PROFONDEUR 3", "RANURA ANCHURA 3 PROFUNDIDAD 3", "GOLA LARG. 3 PROF. 3", "GORGE LARG. 3 PROF. 3",
    "RANURA DE 3 ANCHO x 3 PROF.", "SCANALATURA 3 x Ø34", "4 PL 3 WIDE x Ø34", "4 GROOVES 3 WIDE EQ SP",
    "3 WIDE\n4 PLACES EQUALLY SPACED", "GROOVE OF 3 WIDTH", "GROOVE W=3 D=3", "GROOVE W=3 D=34", "3W x 3D", "b3 x t3",
    "3 WIDE TO Ø34", "GROOVE SPACING 10", "NUTABSTAND 10", "4 x (3 x 3)",
    "U/CUT 3 x 3 DEEP", "UNDERCUT 3 x 3", "3 BROAD x 3 DEEP", "SLOT 3 WIDE x 3 DEEP",
    "3 mm WIDE x 3 mm DEEP", "3mm WIDE GROOVE, 3mm DEEP", "GRV 3W X 3DP", "4 GRVS 3 WIDE", "4 No. GROOVES 3 WIDE",
    "4 GROOVES 3 WIDE x 3 DEEP AT 10 PITCH", "4x GROOVES 3 x 3, 10 APART", "4 EQUAL GROOVES 3 x 3", "PITCH 10",
    "4 x 10 PITCH", "3 x 10 PITCH", "4 GROOVES EQUALLY SPACED AT 10", "FOUR GROOVES 3 WIDE", "3 x 3 GROOVES x 4",
    "3 x 3 - 4 PLACES", "4 PLACES: 3 x 3", "3 x 3 TYP 4", "3 X 3 X 4", "(4) 3 x 3", "GROOVE (4X) 3 WIDE",
    "4-GROOVES 3 x 3", "O-RING GROOVE 3 x 3", "CIRCLIP GROOVE 3 WIDE Ø34", "THREAD RELIEF 3 x Ø34",
    "GROOVE Ø40", "GROOVE ROOT DIA 34 x 3 WIDE", "3 WIDE x 3 DEEP ON Ø40", "TURN GROOVE 3 WIDE",
    "WIDTH OF GROOVES 3", "NUTBREITE 3", "GROOVE DIAMETER 34",
    "GROOVE WIDTH = 3", "3 x 3 DEEP ALL ROUND", "GROOVE 3 WIDE FOR O-RING 34 x 2.65", "1. GROOVE 3 WIDE x 3 DEEP",
    "GROOVE A: 3 x 3", "RAINURE DE 3 DE LARGE ET 3 DE PROFONDEUR", "GOLA L=3 P=3", "W3 D3", "3 (W) x 3 (D)", "3/Ø34",
    "3 WIDE - 3 DEEP", "[3 x 3]", "3 WIDE x 3 DEEP, BREAK EDGES 0.2", "GROOVE 3 x 3 R0.2 BOTH CORNERS", "4 GROOVES",
    "4 rowki szer. 3 gł. 3", "4 drážky šířka 3 hloubka 3",
    "4 паза шириной 3 глубиной 3", "4 spår bredd 3 djup 3", "4 groeven breedte 3 diepte 3", "rowek 3 x 3",
    "spor bredde 3", "FOUR (4) GROOVES 3 WIDE", "4 ANNULAR GROOVES", "VIER EINSTICHE", "Vier (4) Nuten 3 breit",
    "QUATRE GORGES", "QUATTRO GOLE", "CUATRO RANURAS", "4 IDENTICAL GROOVES 3 WIDE", "GROOVE x4",
    "4 PISTON RING GROOVES 3 WIDE", "4 Ringnuten 3 breit",
    "3 Ø34", "4 Ø34", "GROOVE 3 Ø34", "GORGE 3 Ø34", "GOLA DA 3 Ø34", "RAINURE 3 Ø34", "NUT 3 Ø34", "EINSTICH 3 DIA 34",
    "RANURA DE 3 Ø34", "4 NUTEN 3 H13 Ø34 h11", "GORGE 3 PROF 3", "GOLA 3 PROF. 3", "NUT 3 TIEFE 3", "3,0 Ø34 R0.2",
    "Ø34 W3", "Ø34 b=3", "3W x Ø34",
    "3 +0.1 WIDE AND 3 DEEP", "GROOVES 3 WIDE UNLESS OTHERWISE STATED",
    "N.4 GOLE LARG. 3 PROF. 3", "N° 4 GORGES 3 x 3", "4 ADET KANAL GENİŞLİK 3 DERİNLİK 3", "šíře 3 hl. 3", "溝底Ø34",
]  # fmt: skip
"""Every one fits a groove 3 wide, 3 deep, with floor 34, of which there are four."""


@pytest.mark.parametrize("words", RIGHT)
def test_a_note_that_fits_is_no_alarm(words):
    part = bar(*ROW)
    assert stops(led(words)) == []
    assert [f.code for f in standing(words, part) if f.stops] == []


WRONG = {
    "4 WIDE x 3 DEEP": ("note-contradicts", "width 4", "measures 3"),
    "3 WIDE x 2 DEEP": ("note-contradicts", "depth 2", "measures 3"),
    "NUT b=3 t=2": ("note-contradicts", "depth 2", "measures 3"),
    "GOLA LARGHEZZA 4": ("note-contradicts", "width 4", "measures 3"),
    "5x5": ("note-contradicts", "width 5", "measures 3"),
    "5 Ø34": ("note-contradicts", "width 5", "measures 3"),
    "Ø34 W4": ("note-contradicts", "width 4", "measures 3"),
    "3 Ø33": ("note-contradicts", "floor diameter 33", "measures 34"),
    "NUT 4 Ø34": ("note-contradicts", "width 4", "measures 3"),
    "GORGE 3 DIA 33": ("note-contradicts", "floor diameter 33", "measures 34"),
    "GORGE 3 PROF 2": ("note-contradicts", "depth 2", "measures 3"),
    "NUT 2 TIEFE 3": ("note-contradicts", "width 2", "measures 3"),
    "3 WIDE Ø33": ("note-contradicts", "floor diameter 33", "measures 34"),
    "3.5 x Ø34": ("note-contradicts", "width 3.5", "measures 3"),
    "GROOVE 2.5 WIDE": ("note-contradicts", "width 2.5", "measures 3"),
    "NUT 3 BREIT, 2 TIEF": ("note-contradicts", "depth 2", "measures 3"),
    "5 GROOVES 3 WIDE": ("count-differs", "counts 5", "where 4"),
    "12 GROOVES 3 WIDE EQUALLY SPACED": ("count-differs", "counts 12", "where 4"),
    "5x Ø34 TYP": ("count-differs", "counts 5", "where 4"),
    "5X 3 TYP": ("count-differs", "counts 5", "where 4"),
    "(5x) 3x3": ("count-differs", "counts 5", "where 4"),
    "3 WIDE TYP 3 POS": ("count-differs", "counts 3", "where 4"),
    "GOLA LARG. 4 PROF. 3": ("note-contradicts", "width 4", "measures 3"),
    "GORGE LARG. 3 PROF. 2.5": ("note-contradicts", "depth 2.5", "measures 3"),
    "RANURA DE 3 ANCHO x 2 PROF.": ("note-contradicts", "depth 2", "measures 3"),
    "GROOVE W=4 D=3": ("note-contradicts", "width 4", "measures 3"),
    "3W x 2D": ("note-contradicts", "depth 2", "measures 3"),
    "b3 x t2": ("note-contradicts", "depth 2", "measures 3"),
    "U/CUT 4 x 3 DEEP": ("note-contradicts", "width 4", "measures 3"),
    "4 WIDE TO Ø34": ("note-contradicts", "width 4", "measures 3"),
    "3 PL 3 WIDE x Ø34": ("count-differs", "counts 3", "where 4"),
    "5 GROOVES 3 WIDE EQ SP": ("count-differs", "counts 5", "where 4"),
    "3 WIDE\n5 PLACES EQ. SP.": ("count-differs", "counts 5", "where 4"),
    "4 mm WIDE x 3 mm DEEP": ("note-contradicts", "width 4", "measures 3"),
    "GRV 3W X 2DP": ("note-contradicts", "depth 2", "measures 3"),
    "5 GROOVES": ("count-differs", "counts 5", "where 4"),
    "DREI EINSTICHE": ("count-differs", "counts 3", "where 4"),
    "Fünf Nuten 3 breit": ("count-differs", "counts 5", "where 4"),
    "TROIS GORGES": ("count-differs", "counts 3", "where 4"),
    "due gole": ("count-differs", "counts 2", "where 4"),
    "SEI GOLE": ("count-differs", "counts 6", "where 4"),
    "CINQUE GOLE": ("count-differs", "counts 5", "where 4"),
    "NUEVE RANURAS": ("count-differs", "counts 9", "where 4"),
    "FIVE GROOVES 3 WIDE": ("count-differs", "counts 5", "where 4"),
    "FIVE (5) GROOVES 3 WIDE": ("count-differs", "counts 5", "where 4"),
    "5 ANNULAR GROOVES": ("count-differs", "counts 5", "where 4"),
    "3 IDENTICAL GROOVES 3 WIDE": ("count-differs", "counts 3", "where 4"),
    "GROOVE x3": ("count-differs", "counts 3", "where 4"),
    "5 PISTON RING GROOVES 3 WIDE": ("count-differs", "counts 5", "where 4"),
    "3 Ringnuten": ("count-differs", "counts 3", "where 4"),
    "3 x 3 - 5 PLACES": ("count-differs", "counts 5", "where 4"),
    "3 x 3 GROOVES x 5": ("count-differs", "counts 5", "where 4"),
    "5 PLACES: 3 x 3": ("count-differs", "counts 5", "where 4"),
    "(5) 3 x 3": ("count-differs", "counts 5", "where 4"),
    "6 x 10 PITCH": ("count-differs", "counts 6", "where 4"),
    "PITCH 9": ("note-contradicts", "pitch 9", "measures 10"),
    "GROOVE SPACING 9": ("note-contradicts", "pitch 9", "measures 10"),
    "NUTABSTAND 9": ("note-contradicts", "pitch 9", "measures 10"),
    "4 x (3 x 2)": ("note-contradicts", "prints", "measures 3"),
    "4 GROOVES 3 WIDE AT 11 PITCH": ("note-contradicts", "pitch 11", "measures 10"),
    "GROOVE DIAMETER 33": ("note-contradicts", "diameter 33", "measures 34"),
    "3 WIDE x 3 DEEP ON Ø42": ("note-contradicts", "diameter 42", "measures 34"),
    "NUTBREITE 4": ("note-contradicts", "width 4", "measures 3"),
    "3 x 2 DEEP ALL ROUND": ("note-contradicts", "depth 2", "measures 3"),
    "3 WIDE - 2 DEEP": ("note-contradicts", "depth 2", "measures 3"),
    "4 WIDE GROOVE FOR O-RING 34 x 2.65": ("note-contradicts", "width 4", "measures 3"),
    "THREAD UNDERCUT 4 x 3": ("note-contradicts", "width 4", "measures 3"),
    "GOLA L=4 P=3": ("note-contradicts", "width 4", "measures 3"),
    "3.5/Ø34": ("note-contradicts", "width 3.5", "measures 3"),
    "4 rowki szer. 3 gł. 2": ("note-contradicts", "depth 2", "measures 3"),
    "4 drážky šířka 3 hloubka 2": ("note-contradicts", "depth 2", "measures 3"),
    "4 паза шириной 4 глубиной 3": ("note-contradicts", "width 4", "measures 3"),
    "5 drážek šířky 3": ("count-differs", "counts 5", "where 4"),
    "5 rowków szerokości 3": ("count-differs", "counts 5", "where 4"),
    "5 gole larghe 3": ("count-differs", "counts 5", "where 4"),
    "3 H13 5 Stück": ("count-differs", "counts 5", "where 4"),
    "3 H13 5 ks": ("count-differs", "counts 5", "where 4"),
    "3 H13 5 szt.": ("count-differs", "counts 5", "where 4"),
    "3 +0,1 5 fois": ("count-differs", "counts 5", "where 4"),
    "3 +0,1 5 gånger": ("count-differs", "counts 5", "where 4"),
    "3 +0,1 5 pz": ("count-differs", "counts 5", "where 4"),
    "3±0,05 n°5": ("count-differs", "counts 5", "where 4"),
    "5 spår bredd 3": ("count-differs", "counts 5", "where 4"),
    "groef breedte 3 diepte 2": ("note-contradicts", "depth 2", "measures 3"),
    "4x Ø33 TYP": ("note-contradicts", "floor diameter 33", "measures 34"),
}


@pytest.mark.parametrize("words", WRONG)
def test_a_note_that_fits_in_no_reading_stops_with_both_figures(words):
    code, printed, drawn = WRONG[words]
    (stop,) = [f for f in tied(bar(*ROW), led(words))[1] if f.stops]
    assert (stop.code, stop.groove) == (code, 1)
    assert printed in stop.message
    assert drawn in stop.message


@pytest.mark.parametrize(
    "words", ["4 WIDE x 3 DEEP", "3.5 x Ø34", "GROOVE 2.5 WIDE", "5 GROOVES 3 WIDE", "3 WIDE x 2 DEEP"]
)
def test_a_note_that_stands_at_its_groove_is_held_as_well(words):
    assert [f.code for f in standing(words, bar(*ROW)) if f.stops] == [WRONG[words][0]]


@pytest.mark.parametrize(("gap", "alarm"), [(7.4, True), (7.6, False)])
def test_it_stands_at_a_groove_within_three_letter_heights_of_its_mouth(gap, alarm):
    """The box of a text of height 2.5 reaches 0.5 below its line."""
    r = 20.0 + gap + 0.2 * 2.5 + 0.5 * 2.5
    assert bool([f for f in standing("2.5 WIDE", bar(*ROW), r=r) if f.stops]) is alarm


@pytest.mark.parametrize(("off", "alarm"), [(2.4, True), (2.6, False)])
def test_it_stands_over_its_groove_or_a_letter_height_beside_it(off, alarm):
    assert bool([f for f in standing("2.5 WIDE", bar(ROW[0]), z=-10 + off) if f.stops]) is alarm


@pytest.mark.parametrize(("off", "alarm"), [(0.119, True), (0.121, False)])
def test_a_tip_may_miss_its_groove_by_two_thousandths_of_the_part(off, alarm):
    assert bool(stops(led("GROOVE 2.5 WIDE", r=17.0 - off))) is alarm


@pytest.mark.parametrize(
    ("words", "alarm"),
    [
        ("ALL GROOVES 3 WIDE", False),
        ("ALLE NUTEN 3 BREIT", False),
        ("ALL GROOVES 2.5 WIDE", True),
        ("TOUTES LES GORGES 2,5 LARGE", True),
    ],
)
def test_a_note_of_all_grooves_is_held_against_each_wherever_it_stands(words, alarm):
    assert bool([f for f in standing(words, bar(*ROW), r=-90.0) if f.stops]) is alarm


@pytest.mark.parametrize(
    ("down", "along", "joined"), [(5.4, 0, True), (5.6, 0, False), (4, 2.4, True), (4, 2.6, False)]
)
def test_a_line_of_its_own_right_under_a_note_counts_its_grooves(down, along, joined):
    """2.2 letter heights of 2.5 below, and one beside it."""
    x, y = HERE.on_sheet(-11.5, 22.0)
    lines = [Text("GROOVE 3 WIDE", (x - 11, y), 2.5), Text("3 PLACES EQ SP", (x - 11 + along, y - down), 2.5)]
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(lines))
    found = [f.code for f in tie_dimensions(sheet, bar(*ROW))[1] if f.stops]
    assert found == (["count-differs"] if joined else [])


LISTS = {
    "NOTES:\n1. MATERIAL C45\n2. GROOVES {w} WIDE x 3 DEEP, 4 OFF\n3. TEST AT 40 BAR": True,
    "NOTES:\n1. DEBURR\n2. 4 GROOVES: WIDTH {w},\nDEPTH 3\n3. PACK IN PAIRS": True,
    "- GROOVES {w} WIDE\n- DEBURR": True,
    "GROOVES {w} WIDE": True,
    "1. MATERIAL C45\nGROOVES {w} WIDE": False,
}
"""Lists of notes, and whether the one about the grooves is held: of a list of one nobody knows where a note ends."""


@pytest.mark.parametrize("words", LISTS)
def test_each_note_of_a_list_is_held_wherever_the_list_stands(words):
    def found(width):
        return [f.code for f in standing(words.format(w=width), bar(*ROW), z=60.0, r=60.0) if f.stops]

    assert (found("3"), found("3.5")) == ([], ["note-contradicts"] if LISTS[words] else [])


STRANGE = [
    "soone laius {w}",
    "griovelis plotis {w}",
    "rieva platums {w}",
    "홈 폭 {w} 깊이 3",
]


@pytest.mark.parametrize("words", STRANGE)
@pytest.mark.parametrize("at", [led, lambda words: standing(words, bar(*ROW))])
def test_words_of_no_known_language_at_a_groove_are_a_question_where_a_figure_may_be_its_size(words, at):
    """The words for groove, width and depth in four languages: common practice, no source."""
    found = [at(words.format(w=width)) for width in ("3", "3.5", "0.9", "9.1", "58")]
    told = [f if isinstance(f, tuple) else tied(bar(*ROW), f)[1] for f in found]
    assert [[f.code for f in row] for row in told] == [[], ["note-unread"], [], [], []]


def test_width_by_depth_whose_reverse_alone_fits_stops():
    part = bar((-10, -14, 36), (-30, -34, 36))
    assert stops(led("4x2", r=18.0), part=part) == []
    (stop,) = [f for f in tied(part, led("2x4", r=18.0))[1] if f.stops]
    assert "2 wide and 4 deep, and the drawing shows 4 wide and 2 deep" in stop.message


def test_four_of_two_or_four_by_two_is_what_the_drawing_shows():
    """`4x2` may count: four grooves 2 wide, and 2 deep."""
    four = bar(*[(-10 * k, -10 * k - 2, 36) for k in (1, 2, 3, 4)])
    assert stops(led("4x2", r=18.0), part=four) == []
    assert stops(led("4x 2", r=18.0), part=four) == []
    assert stops(led("5x 2", r=18.0), part=four) == ["count-differs"]


def test_depth_is_radial_and_below_either_land():
    assert stops(led("3 WIDE x 6 DEEP")) == ["note-contradicts"]
    step = replace(part_of([(-10, -13, 34)], steps=[(0, 40), (-13, 50)]), frame=HERE)
    assert [stops(led(f"3 WIDE x {t} DEEP"), part=step) == [] for t in (3, 8, 5)] == [True, True, False]


@pytest.mark.parametrize(("off", "alarm"), [(0.0, False), (0.005, False), (0.03, True), (0.5, True)])
def test_evenly_spaced_grooves_are_in_step(off, alarm):
    part = bar(*ROW[:2], (-30 - off, -33 - off, 34), ROW[3])
    assert bool(stops(led("4 GROOVES 3 WIDE EQUALLY SPACED"), part=part)) is alarm


def test_a_count_of_grooves_in_a_note_apart_is_held_against_all():
    part = bar(*ROW)
    far = {"z": 60.0, "r": 60.0}
    assert [f.code for f in standing("12 GROOVES 3 WIDE EQUALLY SPACED", part, **far) if f.stops] == ["count-differs"]
    assert [f.code for f in standing("4 GROOVES 2 WIDE", part, **far) if f.stops] == ["note-contradicts"]
    assert [f.code for f in standing("4 GROOVES 3 WIDE", part, **far) if f.stops] == []
    assert [f.code for f in standing("5x 3", part, **far) if f.stops] == []
    assert [f.code for f in standing("5x 3", part, z=-50.0, r=40.0) if f.stops] == ["count-differs"]


@pytest.mark.parametrize(
    ("words", "alarm"),
    [
        ("GROOVE 2 WIDE", True), ("GROOVE 3 WIDE", False), ("EINSTICH 2 TIEF", True), ("EINSTICH 3 TIEF", False),
        ("NUT 8 BREIT", False), ("SLOT 8 WIDE", False), ("8 WIDE", False),
    ],
)  # fmt: skip
def test_one_groove_named_apart_with_a_width_or_a_depth_is_one_of_the_part_s(words, alarm):
    """A German Nut may be a keyway's, and a slot is milled (common practice, no source)."""
    assert bool([f for f in standing(words, bar(*ROW), z=60.0, r=60.0) if f.stops]) is alarm


def test_other_grooves_of_one_width_may_be_counted_or_not():
    part = bar(*ROW, (-50, -53, 30))
    for words, found in (("5x 3", []), ("4x 3", []), ("3x 3", []), ("6x 3", ["count-differs"])):
        assert stops(led(words), part=part) == found, words


DIMENSIONED = {
    "width with floor": (along(-10, -13, "3 WIDE Ø34"), []),
    "floor with width": (across(34, "3 WIDE Ø34", z=-11.5), []),
    "width with another floor": (along(-10, -13, "3 WIDE Ø33"), ["note-contradicts"]),
    "width by depth": (along(-10, -13, "3x3"), []),
    "width by another depth": (along(-10, -13, "3x2"), ["note-contradicts"]),
    "count and width": (along(-10, -13, "4x 3"), []),
    "another count": (along(-10, -13, "5x 3"), ["count-differs"]),
    "count and depth": (span((-11, 17), (-11, 20), "4x 3"), []),
    "another count of depths": (span((-11, 17), (-11, 20), "5x 3"), ["count-differs"]),
    "count and floor": (across(34, "4x Ø34 h11", z=-11.5), []),
    "another count of floors": (across(34, "3x Ø34 h11", z=-11.5), []),
    "corners": (Dimension(DimensionKind.LEADER, ((0, 0), (1, 1)), 0, 0, "8x R0.2"), []),
}


@pytest.mark.parametrize(("dimension", "found"), DIMENSIONED.values(), ids=DIMENSIONED)
def test_a_dimension_may_carry_a_note_too(dimension, found):
    assert stops(dimension) == found


def test_a_note_keeps_the_tolerance_of_its_diameter():
    part, _ = tied(bar(*ROW), led("3 WIDE Ø34 h11"))
    assert part.grooves[0].tolerances["floor_diameter"] == (-0.16, 0.0)


NO_NOTES = [
    "M20x1.5",
    "1x45°",
    "60",
    "Ø34",
    "3",
    "R0.2",
    "4 x 10 (=40)",
    "KEYWAY 8 WIDE",
    "SCALE 2",
    "3 HOLES Ø5",
    "Rz 6.3",
    "A-A",
    "",
    "NITRIDED 0.3 DEEP",
    "Ø5 x 10 DEEP",
    "THREAD M40 x 1.5 x 12 DEEP",
    "GROOVE FOR O-RING 34 x 2.65",
    "GROOVES Ra 3.2",
    "GROOVE NO. 2",
    "GROOVE ACC. TO ISO 3601-2",
    "77-104-3",
]


@pytest.mark.parametrize("words", NO_NOTES)
def test_other_texts_are_no_notes(words):
    assert groove_note(words) is None


def test_a_note_that_points_to_no_groove_is_a_caution():
    findings = tied(bar(*ROW), led("GROOVE 3 WIDE", z=-50.0, r=20.0))[1]
    assert [(f.level, f.code) for f in findings] == [("caution", "note-without-groove")]
    assert tied(bar(*ROW), led("GROOVE 3 WIDE", z=50.0, r=20.0))[1] == ()


@pytest.mark.parametrize(
    ("words", "code"),
    [("GROOVE 3-4 x 3", "note-unread"), ("3-4 x 3", ""), ("GROOVES Ra 3.2", ""), ("GROOVE NO. 2", "")],
)
def test_a_note_that_stands_over_its_groove_and_is_not_understood_is_a_caution(words, code):
    """If it names a groove, a width or a depth; other figures may be for other things. Grooves are named anywhere."""
    assert [f.code for f in standing(words, bar(*ROW))] == ([code] if code else [])
    assert [f.code for f in standing("4 x 30 x 6 GROOVES 2", bar(*ROW), z=-50.0)] == ["note-unread"]


@pytest.mark.parametrize(
    ("shape", "alarm"),
    [("rectangular", True), ("relief", True), ("vee", True), ("round", True), ("tapered", False), ("other", False)],
)
def test_a_width_is_held_where_a_groove_has_but_one(shape, alarm):
    part = bar((-10, -13, 34, {"shape": shape}))
    assert bool(stops(led("GROOVE 2.5 WIDE"), part=part)) is alarm
    assert stops(led("GROOVE 2 DEEP"), part=part) == ["note-contradicts"]


def relief(width=2.5, depth=0.3, radius=0.6, unit=1.0):
    """A relief in diameter 30 before a shoulder of 50 at z -40, its floor's corner rounded at the shoulder."""
    floor = 30.0 - 2 * depth
    near, r = -40.0 + width, floor / 2
    flat = near - depth / math.tan(math.radians(15))
    outline = ((0, 15), (near, 15), (flat, r), (-40.0 + radius, r), (-40.0, r + radius), (-40.0, 25), (-60, 25))
    scaled = tuple((z / unit, y / unit) for z, y in outline)
    part = part_of([(near / unit, -40 / unit, floor / unit)], diameter=50 / unit, length=60 / unit)
    groove = replace(
        part.grooves[0],
        shape="relief",
        mouth_diameter=30 / unit,
        near_land_diameter=30 / unit,
        far_land_diameter=50 / unit,
    )
    units = "mm" if unit == 1.0 else "in"
    return replace(part, grooves=(groove,), outline=scaled, frame=HERE, units=units)


# r, t1, f of DIN 509 (two published extracts).
SIZES = [
    (0.4, 0.2, 2.0),
    (0.6, 0.2, 2.0),
    (0.6, 0.3, 2.5),
    (0.8, 0.3, 2.5),
    (1.0, 0.4, 4.0),
    (1.6, 0.3, 4.0),
    (2.5, 0.4, 5.0),
]


@pytest.mark.parametrize(("off", "corner"), [(4.9e-5, 0.6), (5.1e-5, 1.38)])
def test_the_corner_of_a_floor_begins_where_its_line_ends_within_a_millionth_of_the_part(off, corner):
    """The part is 50 across; the other end of the floor lies 1.38 from the wall: 2.5 less 0.3 / tan 15 degrees."""
    part = relief()
    corners = list(part.outline)
    corners[3] = (corners[3][0], corners[3][1] + off)
    assert math.isclose(corner_drawn(part.grooves[0], replace(part, outline=tuple(corners))), corner, abs_tol=1e-3)


@pytest.mark.parametrize(("r", "t", "f"), SIZES)
def test_an_undercut_drawn_as_called_out_is_no_alarm(r, t, f):
    part = relief(f, t, r)
    assert math.isclose(corner_drawn(part.grooves[0], part), r, abs_tol=1e-9)
    for words in (f"DIN 509 - E {r:g} x {t:g}", f"DIN 509-E{r:g}x{t:g}".replace(".", ","), f"DIN509 E {r:g} X {t:g}"):
        assert stops(led(words, z=-39.5, r=15 - t), part=part) == []


@pytest.mark.parametrize(("r", "t", "f"), SIZES)
@pytest.mark.parametrize(("told_r", "told_t", "told_f"), SIZES)
def test_an_undercut_drawn_otherwise_stops(r, t, f, told_r, told_t, told_f):
    words = f"DIN 509 - E {told_r:g} x {told_t:g}"
    assert bool(stops(led(words, z=-39.5, r=15 - t), part=relief(f, t, r))) is ((r, t) != (told_r, told_t))


@pytest.mark.parametrize(("depth", "alarm"), [(0.295, False), (0.293, True), (0.405, False), (0.41, True)])
def test_an_undercut_may_be_a_tenth_deeper(depth, alarm):
    assert bool(stops(led("DIN 509-E 0.6x0.3", z=-39.5, r=15 - depth), part=relief(2.5, depth, 0.6))) is alarm


@pytest.mark.parametrize(("width", "alarm"), [(2.495, False), (2.493, True), (2.705, False), (2.71, True)])
def test_an_undercut_may_be_two_tenths_wider(width, alarm):
    assert bool(stops(led("DIN 509-E 0.6x0.3", z=-39.5, r=14.7), part=relief(width, 0.3, 0.6))) is alarm


@pytest.mark.parametrize(("radius", "alarm"), [(0.495, False), (0.49, True), (0.705, False), (0.71, True)])
def test_an_undercut_s_radius_may_be_a_tenth_more_or_less(radius, alarm):
    assert bool(stops(led("DIN 509-E 0.6x0.3", z=-39.5, r=14.7), part=relief(2.5, 0.3, radius))) is alarm


def test_an_undercut_in_an_inch_drawing_is_still_in_mm():
    part = relief(unit=25.4)
    at = frame()
    assert stops(led("DIN 509-E 0.6x0.3", z=-39.5 / 25.4, r=14.7 / 25.4, at=at), part=part) == []


def test_an_undercut_that_is_only_written_is_a_caution():
    assert [f.code for f in tied(bar(), led("DIN 509-F 0.6x0.3", z=-35.0, r=20.0))[1]] == ["note-without-groove"]


# d1, d2, m, t of DIN 471 and d1, d2, m of DIN 472, as an open library's data file and a fastener library have them.
SHAFTS = [(8, 7.6, 0.9, 0.8), (20, 19.0, 1.3, 1.2), (30, 28.6, 1.6, 1.5), (50, 47.0, 2.15, 2), (100, 96.5, 3.15, 3)]
BORES = [(20, 21.0, 1.1, 1), (40, 42.5, 1.85, 1.75), (100, 103.5, 3.15, 3)]


def ringed(d1, d2, m, *, inside=False):
    """A groove for a ring in a shaft or a bore of diameter d1."""
    part = bar((-10, -10 - m, d2, {"where": "inside", "mouth_diameter": d1} if inside else {"mouth_diameter": d1}))
    lands = {"near_land_diameter": d1, "far_land_diameter": d1}
    outline = ((0, d1 / 2), (-60, d1 / 2)) if not inside else part.outline
    return replace(part, grooves=tuple(replace(g, **lands) for g in part.grooves), outline=outline)


@pytest.mark.parametrize(("d1", "d2", "m", "s"), SHAFTS)
@pytest.mark.parametrize(
    ("wider", "lower", "ring", "alarm"),
    [
        (0, 0, 0, False),
        (0.145, 0, 0, False),  # H13 of 1 to 3 mm is 0.14 (ISO 286-1), and two decimals are rounded by 0.005
        (-0.01, 0, 0, True),
        (0.2, 0, 0, True),
        (0, 0.06, 0, False),
        (0, 0.4, 0, True),
        (0, -0.01, 0, True),
        (0, 0, 0.24, False),
        (0, 0, 0.26, True),
    ],
)
def test_a_shaft_s_ring_groove_is_as_its_call_out_has_it(d1, d2, m, s, wider, lower, ring, alarm):
    part = ringed(d1 + ring, d2 - lower, m + wider)
    assert bool(stops(led(f"DIN 471 - {d1}x{s}", z=-10.5, r=d2 / 2), part=part)) is alarm


@pytest.mark.parametrize(
    "words",
    ["DIN 471 - 20x1.2", "NUT FÜR SICHERUNGSRING 20 x 1,2 DIN 471", "CIRCLIP 20 x 1.2", "RETAINING RING 20x1.2"],
)
def test_a_ring_is_called_out_by_its_standard_or_by_its_name(words):
    assert stops(led(words, z=-10.5, r=9.5), part=ringed(20, 19, 1.3)) == []
    assert stops(led(words, z=-10.5, r=9.0), part=ringed(20, 18, 1.3)) == ["note-contradicts"]
    assert stops(led(words, z=-10.5, r=11.0), part=ringed(21, 22, 1.1, inside=True)) == ["note-contradicts"]


@pytest.mark.parametrize("words", ["CIRCLIP 471 x 5", "DIN 471 - 471x5", "471 x 5 DIN 471"])
def test_a_ring_may_be_as_large_as_its_standard_s_number(words):
    part = ringed(471, 460, 5.15)
    assert stops(led(words, z=-10.5, r=230.0), part=part) == []
    assert stops(led(words.replace("x 5", "x 4").replace("x5", "x4"), z=-10.5, r=230.0), part=part)


@pytest.mark.parametrize(("d1", "d2", "m", "s"), BORES)
@pytest.mark.parametrize(
    ("wider", "deeper", "alarm"), [(0, 0, False), (0, 0.06, False), (0, -0.01, True), (0.2, 0, True)]
)
def test_a_bore_s_ring_groove_is_as_its_call_out_has_it(d1, d2, m, s, wider, deeper, alarm):
    part = ringed(d1, d2 + deeper, m + wider, inside=True)
    assert bool(stops(led(f"DIN 472 {d1}x{s}", z=-10.5, r=d2 / 2), part=part)) is alarm
    assert stops(led(f"DIN 471 {d1}x{s}", z=-10.5, r=d2 / 2), part=part) == ["note-contradicts"]


@pytest.mark.parametrize(
    ("words", "width", "floor", "alarm"),
    [
        # DIN 76-1 for M20, pitch 2.5, from memory: floor 20 - 3.6, width 5.6 to 8.7, short form up to 6.3.
        ("DIN 76-A", 8.7, 16.4, False),
        ("DIN 76", 5.6, 16.4, False),
        ("DIN 76-A", 8.7, 16.15, False),  # h13 of 16.4 is 0.27
        ("DIN 76-B", 6.3, 16.4, False),
        ("DIN 76-B", 8.7, 16.4, True),
        ("DIN 76-A", 14.0, 16.4, True),
        ("DIN 76-A", 8.7, 12.0, True),
        ("DIN 76-A", 8.7, 16.445, False),  # values of the table are rounded to tenths
        ("DIN 76-A", 8.7, 16.455, True),
        ("DIN 76-A", 3.5, 18.4, False),  # M20x1
        ("DIN 76-A", 3.5, 19.4, True),
    ],
)
def test_a_thread_s_undercut_is_that_of_some_pitch(words, width, floor, alarm):
    part = ringed(20.0, floor, width)
    assert bool(stops(led(words, z=-10.5, r=floor / 2), part=part)) is alarm


@pytest.mark.parametrize(
    ("across", "pitch", "below"), [(4.0, 0.7, 1.1), (8.0, 0.75, 1.2), (42.0, 4.5, 6.4), (64.0, 6.0, 8.3)]
)
def test_fine_and_coarse_threads_have_undercuts_as_well(across, pitch, below):
    """ISO 261 pitches and the floors of DIN 76-1, from memory; the widest undercut is 3.5 pitches wide."""
    floor = across - below
    led_to = led("DIN 76-A", z=-10.5, r=floor / 2)
    assert stops(led_to, part=ringed(across, floor, 3.4 * pitch)) == []
    assert stops(led_to, part=ringed(across, floor - 2.5 * pitch, 3.4 * pitch)) == ["note-contradicts"]


@pytest.mark.parametrize("pitch", sorted(REACH["A"]))
def test_the_rows_of_thread_undercuts_leave_the_thread_free(pitch):
    """Thread geometry: the core lies 1.2269 pitches below the diameter; widths by the rules of 3.5 and 2.5 pitches."""
    (below, least, most), (same, short, shortest) = REACH["A"][pitch], REACH["B"][pitch]
    assert below == same > 1.2269 * pitch
    assert (most, shortest) == (pytest.approx(3.5 * pitch, rel=0.03), pytest.approx(2.5 * pitch, rel=0.03))
    assert short < least < shortest < most


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("GROOVE 3 QQ 3", ["note-unread"]),
        ("3 WIDE FOR SEAL 12", []),
        ("A3 x B3", ["note-unread"]),
        ("FOR SEAL 12", []),
        ("2 x 45°", []),
        ("M40x1.5", ["note-unread"]),
        ("M12x1.5", []),
        ("GROOVE", []),
        ("R0.2 MAX", []),
    ],
)
def test_a_note_led_to_a_groove_that_nobody_understands_is_a_caution(words, told):
    findings = tied(bar(*ROW), led(words))[1]
    assert [f.code for f in findings if f.code == "note-unread"] == told
    assert not any(f.stops for f in findings)
    assert not any(f.code == "note-unread" for f in tied(bar(*ROW), led(words, z=-25.0, r=20.0))[1])


@pytest.mark.parametrize(("about", "not_about"), [("9", "9.1"), ("1", "0.99"), ("27.3", "27.1"), ("49.9", "50.1")])
def test_strange_figures_are_a_groove_s_up_to_three_times_its_size_or_near_its_diameters(about, not_about):
    """The groove is 3 wide and 3 deep; four fifths of its floor are 27.2, five quarters of its land 50."""
    for figure, told in ((about, True), (not_about, False)):
        codes = [f.code for f in tied(bar(*ROW), led(f"A{figure} x B{figure}"))[1]]
        assert ("note-unread" in codes) is told, figure


OTHER_THINGS = [
    "40 x 60", "40 x 50", "20 x 60", "WIDTH 60", "60 WIDE", "BAR Ø45 x 65", "BAR 45 DIA x 65 LONG", "ROHTEIL Ø45",
    "4x Ø11.3", "4 Ø11.3", "2 Ø6 H7", "2 HOLES Ø5 THRO",
    "Ø5 THRU", "Ø5 x 10 DEEP", "Ø5 HOLE 10 DEEP", "HOLE Ø6 12 DEEP", "Ø11.3, 10 DEEP",
]  # fmt: skip
"""What stands at a groove of a bar 40 x 60 and sizes stock, the part or a hole (common practice, no source)."""
ONE_FIGURE_OFF = [
    "59.9 WIDE", "GROOVE 60 WIDE", "60 WIDE x 3 DEEP", "3 WIDE x 30 DEEP", "19.9 x 60", "3 x 30", "GROOVE 40 x 60",
    "Ø11.4, 10 DEEP", "4x Ø11.4", "4 Ø11.4", "Ø33", "Ø3.4",
]  # fmt: skip
"""The nearest to these that may be the groove's, with a figure wrong."""


@pytest.mark.parametrize("words", OTHER_THINGS)
def test_sizes_of_stock_and_holes_stop_no_groove(words):
    assert not stops(led(words))
    assert not any(f.stops for f in standing(words, bar(*ROW)))


@pytest.mark.parametrize("words", ONE_FIGURE_OFF)
def test_figures_that_may_be_a_grooves_are_held(words):
    assert stops(led(words))


@pytest.mark.parametrize(("r", "held"), [(79.0, True), (81.0, False)])
def test_a_count_without_words_stands_over_the_view_within_two_diameters(r, held):
    """The bar is 40 across; `5x 3` counts grooves where it stands over it and may be anything beyond."""
    assert bool(standing("5x 3", bar(*ROW), z=-50.0, r=r)) is held


@pytest.mark.parametrize(("letters", "read"), [(90, True), (91, False)])
def test_a_note_has_ninety_letters_at_most(letters, read):
    size, tolerance = (f"{words} {'A' * (letters - len(words) - 1)}" for words in ("GROOVE 4 WIDE", "GROOVES ±0.05"))
    assert bool(stops(led(size))) is read
    found = standing(tolerance, bar(*ROW), z=-30.0, r=150.0)
    assert ("tolerance-unread" in [f.code for f in found]) is read


def test_nobody_counts_one_groove():
    assert stops(led("2 x 3"), part=bar(*ROW[:2])) == []
    assert stops(led("1 x 3"), part=bar(ROW[0])) == ["note-contradicts"]


TOLERANCES_ALONE = [
    "Alle Nutbreiten +0,1/0", "NUTTIEFE -0.05",
    "TOLERANCE ON GROOVE WIDTHS +0.1/0", "ALL GROOVE WIDTHS +0.1 -0", "GROOVES ±0.05", "NUTEN ±0,1",
    "WIDTH TOLERANCE 0/+0.05", "WIDTH H9", "DEPTH TOL. 0/+0.1", "WIDTH ±0.05", "BREITE +0,1",
    "GROOVE DEPTH -0.05", "GROOVE WIDTHS H13", "GROOVE WIDTH TOLERANCE H13",
    "GROOVE FLOORS h11", "EINSTICH DURCHMESSER h11",
]  # fmt: skip
NO_TOLERANCES = [
    "GROOVES R0.2 MAX", "GROOVE - 4 PLACES", "GROOVE DIN 471-40", "GROOVE No. 2", "TOL. ±0.1", "GROOVES Ra 3.2",
    "DRW 12-0.5 GROOVE",
]  # fmt: skip
"""What looks a little like these and gives grooves no tolerance (both: common practice, no source)."""


@pytest.mark.parametrize(
    ("words", "told"), [*((w, True) for w in TOLERANCES_ALONE), *((w, False) for w in NO_TOLERANCES)]
)
def test_a_note_that_gives_grooves_a_tolerance_alone_is_told_wherever_it_stands(words, told):
    found = standing(words, bar(*ROW), z=-30.0, r=150.0)
    assert ("tolerance-unread" in [f.code for f in found]) is told
    assert not any(f.stops for f in found)


def test_a_note_not_understood_is_told_at_a_groove_that_reaches_the_axis_as_well():
    """Nothing can be held against its floor, which has no diameter."""
    findings = tied(bar((-10, -13, 0)), led("GROOVE 3 QQ 3", r=0.0))[1]
    assert [f.code for f in findings] == ["note-unread"]


@pytest.mark.parametrize(
    ("words", "alarm"),
    [("4 PLACES", False), ("5 PLACES", True), ("3 PLCS", True), ("4 STELLEN", False), ("5 OFF", True), ("4X", False)],
)
def test_a_count_alone_at_a_leader_is_that_of_the_grooves_like_the_one_it_touches(words, alarm):
    assert stops(led(words)) == ["count-differs"] * alarm
    assert stops(led(words, r=25.0)) == []


def test_a_count_alone_may_be_that_of_all_as_wide_or_of_those_alike_and_standing_it_is_of_something_else():
    three = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 36))
    assert [stops(led(f"{n} PLACES"), part=three) for n in (1, 2, 3, 4)] == [
        *[["count-differs"], [], []],
        ["count-differs"],
    ]
    (told,) = [f.message for f in tied(three, led("4 PLACES"))[1]]
    assert told == 'The note "4 PLACES" counts 4 where 3 such grooves were read (groove 1): ask which is meant.'
    assert [f for f in standing("9 PLACES", three) if f.stops] == []
    assert [stops(led(f"{n} PLACES"), part=bar()) for n in (2, 3, 4)] == [[], [], ["count-differs"]]


@pytest.mark.parametrize("words", ["3 X 2 +0.1/0", "3 x 2"])
def test_what_may_be_a_count_or_a_width_is_told_as_both(words):
    two = bar((-10, -12, 36), (-20, -22, 36))
    (told,) = [f.message for f in tied(two, led(words, r=18.0))[1] if f.stops]
    assert "prints width 3 where the drawing measures 2, or counts 3 where 2 such grooves were read (groove 1)" in told


def test_what_is_no_count_is_told_as_a_width_and_a_depth_alone():
    (told,) = [f.message for f in tied(bar(*ROW), led("3 x 2"))[1] if f.stops]
    assert "prints depth 2 where the drawing measures 3 (groove 1): ask" in told


@pytest.mark.parametrize(("words", "alarm"), [("3 GROOVE", False), ("3 NUT", False), ("4 GROOVE", True)])
def test_a_number_before_the_name_of_one_is_the_width_that_a_dimension_measures(words, alarm):
    assert bool(stops(along(-10, -13, words), part=bar((-10, -13, 34), (-20, -23, 34)))) is alarm


@pytest.mark.parametrize("words", ["3 GROOVES", "3 NUTEN", "3 gorges"])
def test_before_the_name_of_several_it_is_a_count(words):
    assert stops(along(-10, -13, words), part=bar((-10, -13, 34), (-20, -23, 34))) == ["count-differs"]
    assert stops(along(-10, -13, words), part=bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 34))) == []


def test_a_count_before_a_width_is_none_of_a_depth_that_is_drawn():
    """`2x1.6` over one of two grooves 1.6 wide and 2 deep counts them; with a leader it may be width by depth."""
    two = bar((-10, -11.6, 36), (-20, -21.6, 36))
    assert stops(along(-10, -11.6, "2x1.6"), part=two) == []
    assert stops(led("2x1.6", z=-11, r=18), part=two) == ["note-contradicts"]


THREE = (-10, -13, 34), (-20, -23, 34), (-30, -33, 33)
"""Three grooves 3 wide, of which one is deeper."""


@pytest.mark.parametrize(
    ("words", "grooves", "said"),
    [
        ("3x Ø34", THREE, ["count-differs"]),
        ("3x 3 WIDE", ((-10, -13, 34), (-20, -23, 34), (-30, -33.5, 34)), ["count-differs"]),
        ("3x Ø34", ((-10, -13, 34), (-20, -23, 34), (-30, -33, 34)), []),
        # Three of one width are nowhere, nor three grooves at all: the sign stands between width and diameter.
        ("3x Ø34", THREE[1:], []),
        ("3 x Ø34", THREE, []),
    ],
)
def test_a_count_that_a_size_is_as_large_as_by_chance_is_asked_about(words, grooves, said):
    found = tied(bar(*grooves), led(words))[1]
    assert [(f.level, f.code, f.groove) for f in found] == [("caution", code, 1) for code in said]


def test_a_dimension_with_such_a_count_is_asked_about_too():
    size = Dimension(DimensionKind.LINEAR, (HERE.on_sheet(-11.5, 17), HERE.on_sheet(-11.5, -17)), 90.0, 34.0, "3x Ø34")
    said = [[(f.level, f.code) for f in tied(bar(*row), size)[1]] for row in (THREE, THREE[:2], THREE[:1])]
    assert said == [[("caution", "count-differs")], [("caution", "count-differs")], []]


@pytest.mark.parametrize(("r", "said"), [(-19.0, []), (-70.0, ["count-differs"])])
def test_a_count_led_to_nowhere_near_the_part_stands_for_all(r, said):
    """A line of a table that ends by chance beside a text leads to nothing; a place on the part is another matter's."""
    found = tied(bar(*ROW), led("5x GROOVE", z=-2.0, r=r))[1]
    assert [f.code for f in found if f.stops] == said


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("3 GROOVES 3 WIDE TO DIN 471", []),
        ("NUTEN 3 BREIT", []),
        ("3 x O-RING GROOVE 3 WIDE", []),
        ("3 GROOVES 3.2 WIDE TO DIN 471", ["note-without-groove"]),
        ("2 GROOVES 3 WIDE", ["note-without-groove"]),
        ("GROOVE 3 WIDE", ["note-without-groove"]),
        ("GROOVE 3 x Ø34", ["note-without-groove"]),
        ("GROOVES 3 x Ø34", []),
    ],
)
def test_a_note_on_several_grooves_may_point_to_a_land_between_those_that_it_fits(words, codes):
    """A diameter in it is that of a floor, and none of the land that its leader touches."""
    like = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 34))
    assert [f.code for f in tied(like, led(words, z=-16.0, r=20.0))[1]] == codes


@pytest.mark.parametrize(
    ("words", "sizes", "count"),
    [
        ("(3 +0.1/0) x (Ø34 0/-0.1)", {"width": (0.0, 0.1), "floor_diameter": (-0.1, 0.0)}, None),
        ("(3 +0.1/0) x Ø34", {"width": (0.0, 0.1), "floor_diameter": None}, None),
        ("(3) x Ø34 0/-0.1", {"floor_diameter": (-0.1, 0.0)}, 3),
        ("(2x) 3 +0.1/0", {"width": (0.0, 0.1)}, 2),
    ],
)
def test_a_figure_in_brackets_with_a_tolerance_is_a_size(words, sizes, count):
    """Without one it counts."""
    first = groove_note(words).meanings[0]
    assert ({field: printed.deviations for field, printed in first.sizes}, first.count) == (sizes, count)


@pytest.mark.parametrize(
    ("words", "limited"),
    [
        ("3 x 2 (+0.1 BOTH)", {"width", "depth"}),
        ("3 +0.1/0 WIDE x 2 DEEP BOTH", {"width"}),
        ("3H11 x 2 DEEP ALL", {"width"}),
        ("3 WIDE (TOL ±0.05) x 2 DEEP", {"width"}),
        ("3 WIDE ±0.05 x Ø36 ALL", {"width"}),
    ],
)
def test_one_tolerance_is_for_both_sizes_only_behind_the_last(words, limited):
    """Before another figure it is its own figure's, and BOTH and ALL may count grooves."""
    sizes = groove_note(words).meanings[0].sizes
    assert {field for field, printed in sizes if printed.deviations or printed.tolerance_class} == limited


@pytest.mark.parametrize(
    "words", ["键槽宽10", "キー溝幅10", "Clavette 10x8", "Larghezza chiave 36", "Ancho de llave 36"]
)
def test_keyways_and_flats_in_other_languages_are_no_grooves(words):
    """A keyway is no turned groove; nor is the width that a spanner goes over (words from memory)."""
    told = standing(words, bar(*ROW), z=60.0, r=60.0)
    assert [f.message for f in told if "gives a size across flats" not in f.message] == []
    assert groove_note(words) is None


@pytest.mark.parametrize("words", ["关键尺寸 槽宽3±0.05", "关键槽宽3±0.05"])
def test_what_is_called_critical_is_no_key(words):
    """In Chinese the word for critical ends with the sign of a key (from memory)."""
    note = groove_note(words)
    assert note is not None
    assert [(name, figure.deviations) for name, figure in note.meanings[0].sizes] == [("width", (-0.05, 0.05))]


@pytest.mark.parametrize(
    ("words", "alarm"),
    [
        *(("3/34", False), ("3 / 34", False), ("3/33", True), ("4/34", True), ("3/Ø33", True)),
        *(("Nutgrund d34", False), ("Nutgrund d33", True), ("ROOT D33.6", True), ("FONDO d34", False)),
        # Roughness, limits, a fraction, datums: no width over a floor.
        *(("0.8/1.6", False), ("12/24", False), ("34.1/33.9", False), ("5/32", False), ("B/C", False)),
        # The floor is more than three times as large as the width.
        *(("11.3/34", True), ("11.4/34", False)),
    ],
)
def test_a_width_over_a_floor_and_a_floor_by_its_letter_are_held_at_a_leader(words, alarm):
    """The groove is 3 wide and 34 across its floor."""
    found = tied(bar((-10, -13, 34), (-30, -33, 34)), led(words, z=-11.5, r=17.0))[1]
    assert any(f.stops for f in found) is alarm


@pytest.mark.parametrize(
    ("words", "alarm"),
    [
        *(("T=10 (3x)", False), ("3x T=10", False), ("T=9 (3x)", True), ("3x T=9", True), ("4x T=10", True)),
        *(("T=3 (3x)", False), ("3x t=3", False), ("T=2.5 (3x)", True)),
    ],
)
def test_t_of_counted_grooves_is_their_depth_or_their_pitch(words, alarm):
    """Three grooves 3 wide and 3 deep, 10 apart: German `Teilung` is the pitch."""
    part = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 34))
    assert any(f.stops for f in tied(part, led(words, z=-11.5, r=17.0))[1]) is alarm
