"""Notes that count or size grooves are heard wherever they stand, in whatever words, or asked about.

Ways of writing: common practice, no source.
"""

import pytest
from support.ties import HERE, along, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.measured.features import Features
from extractor.sizing.sentences.could_size import may_size, strange

PART = bar((-8, -10.5, 35), (-22, -24.5, 35), (-40, -45, 33))
"""40 across and 60 long; two grooves 2.5 wide and 2.5 deep, and one 5 wide and 3.5 deep."""
FAR = (90.0, -70.0)
OVER = (-30.0, 27.0)


def told(words, place=FAR, part=PART, height=2.5):
    """Levels and codes of what is said of a text whose foot stands at z and radius."""
    texts = (Text(words, HERE.on_sheet(*place), height),)
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts), part)[1]
    return [(f.level.name, f.code) for f in found]


STOPS = {
    "NUMBER OF GROOVES: 5": "count-differs",
    "NO. OF GROOVES 4": "count-differs",
    "QTY OF GROOVES = 7": "count-differs",
    "ANZAHL NUTEN 5": "count-differs",
    "GROOVES TOTAL 5": "count-differs",
    "GROOVES 4 OFF, 2.5 WIDE": "count-differs",
    "NUTEN: 5 STK, BREITE 2,5": "count-differs",
    "PLUNGE 4 GROOVES 2.5 WIDE": "count-differs",
    "2.5 WIDE x 2.5 DEEP, 6 GROOVES": "count-differs",
    "GROOVE WIDTHS 2": "note-contradicts",
    "WIDTH OF ALL GROOVES 3": "note-contradicts",
    "GROOVE DEPTHS 2": "note-contradicts",
    "BREAK EDGES 0.2. 3 GROOVES 2 WIDE x 2 DEEP. MATERIAL C45": "note-contradicts",
    "3 GROOVES 2 WIDE x 2 DEEP, BREAK EDGES 0.2 x 45°": "note-contradicts",
    "3 GROOVES 2 WIDE; ALL HOLES DRILLED M6 x 1": "note-contradicts",
    "TURN 3 GROOVES 2 WIDE x 2 DEEP EQUALLY SPACED ON THE OUTSIDE, REMOVE ALL BURRS AND BREAK ALL SHARP EDGES": (
        "note-contradicts"
    ),
}

EVERY = (
    "Všechny drážky šířka {w}, hloubka {d}", "Wszystkie rowki szer. {w}, gł. {d}", "Alla spår {w} breda, {d} djupa",
    "Todos os canais com {w} de largura e {d} de profundidade", "Alle riller {w} brede, {d} dype",
    "Kaikki urat leveys {w}, syvyys {d}", "Kaikki urat {w} leveä, {d} syvä", "Tüm kanallar {w} genişlik, {d} derinlik",
    "Minden horony {w} széles, {d} mély", "Toate canalele lățime {w}, adâncime {d}", "所有槽宽 {w}，深 {d}",
    "Все канавки ширина {w}, глубина {d}", "全部溝幅 {w} 深さ {d}",
)  # fmt: skip


@pytest.mark.parametrize("words", EVERY)
def test_a_note_on_all_grooves_is_held_in_every_language_of_the_sheets(words):
    """Both grooves are 2.5 wide and 2.5 deep."""
    part = bar((-8, -10.5, 35), (-22, -24.5, 35))
    for width, depth, false in (("2,5", "2,5", 0), ("3", "2,5", 1), ("2,5", "2", 1)):
        told_here = told(words.format(w=width, d=depth), part=part)
        assert told_here == [("STOP", "note-contradicts")] * false


@pytest.mark.parametrize("place", [FAR, OVER])
@pytest.mark.parametrize("words", STOPS)
def test_a_false_count_or_size_stops_wherever_it_stands(words, place):
    assert ("STOP", STOPS[words]) in told(words, place)


TRUE = [
    "NUMBER OF GROOVES: 3", "GROOVES TOTAL 3", "GROOVES 2 OFF, 2.5 WIDE", "ANZAHL NUTEN 3", "PLUNGE 2 GROOVES 2.5 WIDE",
    "2.5 WIDE x 2.5 DEEP, 2 GROOVES", "BREAK EDGES 0.2. 2 GROOVES 2.5 WIDE x 2.5 DEEP. MATERIAL C45",
    "2 GROOVES 2.5 WIDE x 2.5 DEEP, BREAK EDGES 0.2 x 45°", "1 GROOVE 5 WIDE; ALL HOLES DRILLED M6 x 1",
]  # fmt: skip


@pytest.mark.parametrize("place", [FAR, OVER])
@pytest.mark.parametrize("words", TRUE)
def test_a_true_one_says_nothing(words, place):
    assert told(words, place) == []


ASKED = [
    "12 vagatok 3x2",
    "5 vagatok 2.5x2.5",
    "12 홈 3x2",
    "홈 12 3x2",
    "vagatok 3 x 2",
    "5 kanali 2.5 x Ø35",
    "5x GROOVES ~ 3?",
    "5 uraa 2,5 ~",
]


@pytest.mark.parametrize("place", [FAR, OVER])
@pytest.mark.parametrize("words", ASKED)
def test_a_count_or_a_product_in_unknown_words_is_asked_about(words, place):
    assert ("CAUTION", "note-unread") in told(words, place)


def test_so_is_one_that_a_dimension_prints():
    findings = tied(PART, along(-8, -10.5, "5 vagatok 2.5x2.5"))[1]
    assert [(f.code, "vagatok" in f.message) for f in findings] == [("note-unread", True)]


@pytest.mark.parametrize(
    "words",
    [
        "2 vagatok 2.5x2.5",
        "vagatok 5 x 3.5",
        "lap 210 x 297",
        "tabla 40 x 60",
        "KEY 6 x 2.5",
        "ORDER 12 3x20",
        "lemez 16x9",
    ],
)
def test_what_fits_or_is_of_no_groove_s_size_is_not(words):
    assert told(words) == []


@pytest.mark.parametrize(
    ("words", "asked"), [("vagatok 7.4 x 3", True), ("vagatok 15.1 x 3", False), ("vagatok 7.4 x 10.6", False)]
)
def test_figures_up_to_three_times_a_groove_s_may_be_meant_for_it(words, asked):
    """The widest is 5 and the deepest 3.5."""
    assert (("CAUTION", "note-unread") in told(words)) is asked


def leader(words):
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(-9.25, 17.5), HERE.on_sheet(5, 40)), 0.0, 0.0, words)


@pytest.mark.parametrize(
    ("words", "lost"),
    [
        ("2.6 +0.1/0 WIDE x 2.5 DEEP", True),
        ("2.5 WIDE x 2 ±0.05 DEEP", True),
        ("2.6 WIDE x 2.5 DEEP", False),
        ("5x 2.5 H13 x 2.5", True),
    ],
)
def test_a_note_that_contradicts_says_that_its_limits_are_not_kept(words, lost):
    (stop,) = [f for f in tied(PART, leader(words))[1] if f.stops]
    assert ("its printed limits are not kept" in stop.message) is lost


def test_general_tolerances_do_not_stand_for_limits_that_a_contradicting_note_has():
    """ISO 2768-1, m: 2.5 ±0.1, and 35 ±0.3 (table 1, from memory)."""
    grooves = tied(PART, leader("2.5 WIDE x 2 ±0.05 DEEP"), notes=("ISO 2768-m",))[0].grooves
    assert "depth" not in grooves[0].tolerances
    plain = tied(PART, leader("2.5 WIDE x 2 DEEP"), notes=("ISO 2768-m",))[0].grooves
    assert grooves[2].tolerances == plain[2].tolerances


@pytest.mark.parametrize(
    ("sized", "field", "general"),
    [
        (leader("2.5 WIDE x Ø34 ±0.05"), "floor_diameter", False),
        (leader("2.5 WIDE x Ø34"), "floor_diameter", True),
        (along(-8, -10.5, "2 ±0.05 WIDE x 2.5 DEEP"), "width", False),
        (along(-8, -10.5, "2 WIDE x 2.5 DEEP"), "width", True),
    ],
)
def test_nor_do_they_stand_for_those_of_a_width_or_a_floor(sized, field, general):
    part, findings = tied(PART, sized, notes=("ISO 2768-m",))
    assert [f.code for f in findings if f.stops] == ["note-contradicts"]
    assert (field in part.grooves[0].tolerances) is general


@pytest.mark.parametrize(
    ("text", "stop"), [("2x 2.5 x 2", True), ("2x 2.5 x 2.5", False), ("2x 2.5", False), ("2x2.5", False)]
)
def test_a_counted_width_and_depth_on_a_dimension_are_both_held(text, stop):
    found = [f.code for f in tied(PART, along(-8, -10.5, text))[1] if f.stops]
    assert found == (["note-contradicts"] if stop else [])


@pytest.mark.parametrize(
    ("text", "asked"), [("2x 2.5 x 2", True), ("2x 2.5 x 2.5", False), ("2X 5 X 3.5", True), ("8x 30 x 12", False)]
)
def test_a_counted_width_and_depth_over_the_view_that_no_groove_has_are_asked_about(text, asked):
    assert bool(told(text, OVER)) is asked


def test_a_tolerance_beside_the_part_of_a_size_that_it_has_nowhere_is_told():
    assert told("2.7 H13", (-50.0, 25.0)) == [("CAUTION", "tolerance-unread")]
    assert told("20 ±0.1", (-50.0, 25.0)) == []
    assert told("2.7 H13", (150.0, -150.0)) == []


@pytest.mark.parametrize(
    ("words", "asked"), [("Ø26.5 H7", True), ("Ø26.3 H7", False), ("Ø43.7 h9", True), ("Ø43.8 h9", False)]
)
def test_a_diameter_far_from_every_floor_s_may_be_that_of_a_hole(words, asked):
    """The floors are 33 and 35 across: from 0.8 times 33, 26.4, to 1.25 times 35, 43.75."""
    assert (("CAUTION", "tolerance-unread") in told(words, (-50.0, 25.0))) is asked


def test_where_the_count_alone_is_wrong_the_limits_beside_the_size_hold():
    part, findings = tied(PART, along(-8, -10.5, "5x 2.5 +0.1/0 WIDE"))
    (stop,) = [f for f in findings if f.stops]
    assert (stop.code, "not kept" in stop.message) == ("count-differs", False)
    assert part.grooves[0].tolerances["width"] == (0.0, 0.1)


@pytest.mark.parametrize("words", ["2x 40", "8x 1.9"])
def test_a_counted_size_alone_over_the_view_may_be_of_anything(words):
    assert ("CAUTION", "note-unread") not in told(words, OVER)


NEAR = bar((-8, -10.5, 35, {"corner_radius": 0.9}), (-14, -16.5, 35))


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        ("vagat 2.2", True),
        ("2 vagat", False),  # two grooves
        ("vagat 0.9", False),  # its corner radius
        ("vagat 1.1", True),
        ("vagat 6", False),  # from groove to groove
        ("vagat 6.2", True),
    ],
)
def test_a_count_and_sizes_that_are_drawn_in_unknown_words_at_a_groove_are_not_asked_about(words, asked):
    assert may_size(words, NEAR.grooves[0], Features.of(NEAR)) is asked


@pytest.mark.parametrize(("words", "asked"), [("vagat 2.7", True), ("vagat 0.7", False)])
def test_a_figure_in_mm_may_be_meant_for_a_groove_drawn_in_inch(words, asked):
    """0.1 inch is 2.54 mm; 0.7 is 7 times the one, and a quarter of the other. The part is 2 across."""
    part = bar((-0.5, -0.6, 1.8), diameter=2.0, length=3.0, units="in")
    assert may_size(words, part.grooves[0], Features.of(part)) is asked


@pytest.mark.parametrize(("letters", "heard"), [(90, True), (91, False)])
def test_unknown_words_longer_than_a_note_are_none(letters, heard):
    assert strange("vagat 2.2 ".ljust(letters, "a")) is heard


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("GROOVE SPACING 12", [("STOP", "note-contradicts")]),
        ("GROOVE SPACING 14", []),
        ("SPACING 12", [("CAUTION", "note-unread")]),
        ("PITCH 12", [("CAUTION", "note-unread")]),
        ("PITCH 14", []),
        ("2 x (2.5 x 2.4)", [("CAUTION", "note-unread")]),
        ("2 x (2.5 x 2.5)", []),
        # Of other things: too large for these grooves, or a thread's.
        ("4 x (20 x 30)", []),
        ("M20 PITCH 1.5", []),
        ("PITCH 100", []),
        ("12 PITCH", [("CAUTION", "note-unread")]),
        ("12 APART", [("CAUTION", "note-unread")]),
        ("14 APART", []),
        # Without a groove's name, but said of each or of even ones.
        ("PITCH 12 TYP", [("STOP", "note-contradicts")]),
        ("PITCH 14 TYP", []),
        ("12 PITCH TYPICAL", [("STOP", "note-contradicts")]),
        ("TEILUNG 12 TYP.", [("STOP", "note-contradicts")]),
        ("TEILUNG 14 TYP.", []),
        ("EQUALLY SPACED, PITCH 12", [("STOP", "note-contradicts")]),
        ("EQUALLY SPACED AT 12", [("STOP", "note-contradicts")]),
        ("EQUALLY SPACED @ 14", []),
        ("GLEICHMÄSSIG VERTEILT, TEILUNG 12", [("STOP", "note-contradicts")]),
        ("THREAD PITCH 1.5 TYP", []),
        ("4 HOLES EQUALLY SPACED AT 12", []),
        ("12 C/C", [("CAUTION", "note-unread")]),
        ("14 C/C", []),
        ("14 O.C.", []),
        ("TOTAL GROOVES: 3", []),
        ("NUTEN GESAMT: 4", [("STOP", "count-differs")]),
        ("TOTAL GROOVES: 4", [("STOP", "count-differs")]),
        # Of no groove, and of one and not the other.
        ("4 WIDE TYP", [("STOP", "note-contradicts")]),
        ("5 WIDE TYP", []),
        ("\u00d834 FLOOR TYP", [("STOP", "note-contradicts")]),
        ("\u00d833 FLOOR TYP", []),
    ],
)
def test_a_pitch_and_a_counted_size_in_brackets_are_heard_wherever_they_stand(words, said):
    """The two grooves that are alike lie 14 apart."""
    assert told(words) == said


STEPPED = bar((-6, -8, 36), (-14, -16, 36), (-22, -24, 36), (-30, -32, 36))
"""Four grooves 2 wide and 8 apart."""


@pytest.mark.parametrize(
    ("words", "asked"),
    [("4x 3", True), ("4x 8", True), ("3x 8", False), ("4x 2", False), ("4x 9", False), ("7x 3", False)],
)
def test_a_count_and_a_size_over_the_view_that_no_groove_has_is_asked_about(words, asked):
    """Three steps are 8 long; four grooves may have been meant 3 wide."""
    assert (("CAUTION", "note-unread") in told(words, OVER, STEPPED)) is asked
    assert told(words, FAR, STEPPED) == []


@pytest.mark.parametrize("words", ["Gole secondo UNI 4711", "Einstiche nach Werksnorm 4711", "GROOVES TO STD 12345"])
def test_the_number_of_a_standard_sizes_nothing(words):
    assert told(words, FAR, STEPPED) == []
    assert told(words.replace("4711", "3").replace("12345", "3"), FAR, STEPPED) != []
