"""Call-outs of standard grooves that stand free, or behind their number in a list: held against all grooves.

The ring groove is that of DIN 471 for a shaft of 40 (as two open tables give it: floor 37.5, 1.85 wide). Ways of
writing: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.ties import HERE, bar
from support.varied import each_in_turn
from support.weighing import NO_SEGMENTS

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.remaining.text_fates import text_ledger

RING = bar((-10, -11.85, 37.5))
PLAIN = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 3.0, 34.0)))


def told(words, part=RING, **more):
    """Levels and codes of what is said of a text away from the part."""
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(words, HERE.on_sheet(90.0, -70.0), 2.5),), **more)
    part, findings = tie_dimensions(sheet, part)
    return [(f.level.value, f.code.value) for f in (*findings, *text_ledger(sheet, part, findings).findings)]


FITS = [
    "Einstich DIN 471 für Welle 40", "CIRCLIP GROOVE FOR SHAFT 40", "Nuten für Sicherungsring 40x1,75",
    "GROOVE TO SUIT CIRCLIP DIN 471 - 40x1.75", "GROOVE FOR RETAINING RING 1.85 x Ø37.5",
    "GORGE POUR CIRCLIPS 40 x 1,75", "GROOVE DIN 471-40", "GROOVE TO SUIT CIRCLIP 40",
    "Nut für Sicherungsring 40",
]  # fmt: skip


@pytest.mark.parametrize("words", FITS)
def test_a_free_call_out_that_fits_no_groove_is_told(words):
    assert told(words) == []
    assert ("caution", "note-without-groove") in told(words, bar((-10, -13, 34)))


@pytest.mark.parametrize(
    "words", ["UNDERCUT E0.6x0.3 DIN 509 AT SHOULDER", "FREISTICH DIN 509-F 0,6x0,3", "DIN 509 - E 0,6x0,3"]
)
def test_so_is_a_free_undercut(words):
    """DIN 509: with r 0.6 and t1 0.3 it is 2.5 wide."""
    assert told(words, bar((-10, -12.5, 39.4))) == []
    assert told(words, bar((-10, -13, 34))) == [("caution", "note-without-groove")]


@pytest.mark.parametrize(
    "words",
    [
        "CIRCLIP DIN 471 - 38x1.75",
        "2 x Sicherungsring DIN 471 - 38x1,75",
        "CIRCLIP DIN 471",
        "GROOVES TO DIN 471",
        "DIN 509",
    ],
)
def test_a_ring_by_itself_is_a_part_and_asks_for_nothing(words):
    assert told(words) == []


@pytest.mark.parametrize(
    ("words", "stop"),
    [
        ("FOR CIRCLIP 1.85 x Ø37.5", False), ("FOR CIRCLIP 40 x 1.75", False), ("FOR CIRCLIP 1.85 x Ø38.5", True),
        ("FOR CIRCLIP 2.5 x Ø37.5", True), ("CIRCLIP FOR SHAFT 38", True), ("CIRCLIP GROOVE 1.85 x 1.25", False),
        ("CIRCLIP GROOVE 1.85 x 1.35", True), ("CIRCLIP GROOVE 1.95 x 1.25", True), ("DIN 471 - 1.85 x 1.25", True),
    ],
)  # fmt: skip
def test_at_a_leader_a_ring_is_held_by_its_own_sizes_or_by_its_groove_s(words, stop):
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-10.9, 18.75), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(leader,))
    assert ("note-contradicts" in [f.code for f in tie_dimensions(sheet, RING)[1] if f.stops]) is stop


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ("FOR CIRCLIP 1.85 x Ø38.5", "asks for the floor diameter 38.5 where the drawing measures 37.5"),
        ("FOR CIRCLIP 37x1.75", "is for a shaft of 37 where the drawing measures 40"),
    ],
)
def test_of_a_ring_by_its_name_the_lesser_size_first_is_a_groove_s(words, why):
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-10.9, 18.75), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(leader,))
    assert any(why in f.message for f in tie_dimensions(sheet, RING)[1] if f.stops)


@pytest.mark.parametrize("words", ["SEAL GLAND 4.5 WIDE", "Выточка 4,5", "Fettnut 4,5"])
def test_a_groove_by_another_name_is_told_where_none_is_so_wide(words):
    assert told(words, bar((-10, -13, 34))) == [("caution", "note-unread")]


NOTES = {
    "OVERALL LENGTH 82": "overall-differs", "GESAMTLÄNGE 65": "overall-differs", "LENGTH: 64": "overall-differs",
    "PITCH 8": "note-unread", "OBSOLETE - DO NOT USE": "out-of-force", "SUPERSEDED": "out-of-force",
}  # fmt: skip


@each_in_turn(form=["{}", "1. {}", "2) {}", "1. DEBURR\n2. {}", "NOTES:\n1. {}\n2. DEBURR", "• {}"], words=NOTES)
def test_a_note_is_heard_behind_its_number_in_a_list(words, form):
    """The part is 60 long, its grooves 15 from one another."""
    text = Text(form.format(words), (40.0, -90.0), 2.5)
    found = read_sheet(sheet_of(side_view(PLAIN), texts=(text,)), ReadOptions(units="mm")).findings
    assert [f.code for f in found if f.level != "note"] == [NOTES[words]]


@pytest.mark.parametrize("words", ["OVERALL LENGTH 60", "PITCH 15", "HISTORY: A SUPERSEDED B BY CHANGE"])
def test_what_is_so_says_nothing_there_either(words):
    text = Text(f"1. DEBURR\n2. {words}", (40.0, -90.0), 2.5)
    found = read_sheet(sheet_of(side_view(PLAIN), texts=(text,)), ReadOptions(units="mm")).findings
    assert [f for f in found if f.level != "note"] == []


def test_a_general_tolerance_of_a_list_is_quoted_by_itself():
    texts = (
        Text("1. BREAK ALL EDGES\n2. TOLERANCES UNLESS STATED ±0.1", (40.0, -90.0), 2.5),
        Text("ISO 2768-mK", (40.0, -120.0), 2.5),
    )
    found = read_sheet(sheet_of(side_view(PLAIN), texts=texts), ReadOptions(units="mm")).findings
    assert ["ISO 2768-m and ±0.1" in f.message for f in found if f.code == "general-tolerances"] == [True]


@pytest.mark.parametrize(
    "words",
    [
        "TOTAL LÄNGD {}", "TOTALE LENGTE {}", "总长{}", "全長 {}", "KOKONAISPITUUS {}", "OAL {}",
        "COMPRIMENTO TOTAL {}", "Długość całkowita {}", "Celková délka {}", "Общая длина {}",
        "LENGTH O/A {}", "LG. {}", "1. LENGTH {}", "Longueur hors tout {}", "Lunghezza complessiva {}",
        "LARGO TOTAL {}",
        "Comprimento {}", "Długość {}", "Délka celkem {}", "LÄNGD {}", "TOPLAM BOY {}",
    ],
)  # fmt: skip
def test_the_length_of_the_part_is_held_in_more_languages(words):
    """The part is 60 long."""
    for size, told_here in ((60, []), (64, ["overall-differs"])):
        text = Text(words.format(size), (40.0, -90.0), 2.5)
        found = read_sheet(sheet_of(side_view(PLAIN), texts=(text,)), ReadOptions(units="mm")).findings
        assert [f.code for f in found if f.level != "note"] == told_here


@pytest.mark.parametrize(
    ("words", "told"),
    [("OVERALL LENGTH 64", True), ("OVERALL LENGTH 60", False), ("LENGTH 64", False), ("DIAMETER 42", False)],
)
def test_at_a_leader_only_a_length_that_is_called_the_whole_one_is_the_part_s(words, told):
    leader = Dimension(DimensionKind.LEADER, ((-20.0, 20.0), (-10.0, 50.0)), 0.0, 0.0, words)
    found = read_sheet(sheet_of(side_view(PLAIN), dimensions=(leader,)), ReadOptions(units="mm")).findings
    assert any(f.code == "overall-differs" for f in found) is told


@pytest.mark.parametrize("word", ["DIAMETER", "DURCHMESSER", "DIAMÈTRE", "DIAMETRO", "Średnica", "PRŮMĚR", "ÇAP"])
def test_a_diameter_about_as_large_as_the_part_is_one_of_it_or_asked_about(word):
    """The part is 40 across, its floors are less: a quarter below it begins what may be a hole's."""
    for size, told_here in ((40, False), (42, True), (30.1, True), (29.9, False)):
        found = read_sheet(
            sheet_of(side_view(PLAIN), texts=(Text(f"{word} {size}", (40.0, -90.0), 2.5),)), ReadOptions(units="mm")
        ).findings
        assert any("The sheet says" in f.message and f.level == "caution" for f in found) is told_here, size


@pytest.mark.parametrize(("words", "codes"), [("MAX DIA 40", []), ("MAX DIA 42", ["note-contradicts"])])
def test_so_is_its_greatest_diameter(words, codes):
    text = Text(words, (40.0, -90.0), 2.5)
    found = read_sheet(sheet_of(side_view(PLAIN), texts=(text,)), ReadOptions(units="mm")).findings
    assert [f.code for f in found if f.level != "note"] == codes
