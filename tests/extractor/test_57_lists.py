"""Notes of a list say what they say without their number, wherever the list stands and however it counts.

The part is 80 long and 40 across with three grooves at pitch 10. How lists are written is common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.varied import all_pairs, each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.sizing.lettering.lists import with_items

SHAFT = Turned(((80.0, 40.0),), (Cut(-15.0, 4.0, 34.0), Cut(-25.0, 4.0, 34.0), Cut(-35.0, 4.0, 34.0)))
MARKS = ("{}", "1. {}", "2) {}", "4: {}", "- {}", "* {}", "\u2022 {}", "a) {}", "(B) {}", "5.{}")
FALSE = {
    "OVERALL LENGTH 82": "overall-differs",
    "GESAMTLÄNGE 85": "overall-differs",
    "OBSOLETE - DO NOT USE": "out-of-force",
    "PITCH 8": "note-unread",
}
TRUE = ("OVERALL LENGTH 80", "DEBURR", "ENTGRATEN", "OIL AFTER INSPECTION")


def codes(*texts, around=False):
    """What is told of the shaft with such texts below one another."""
    lines = tuple(Text(words, (40.0, 60.0 - 12.0 * k), 2.5) for k, words in enumerate(texts))
    sheet = sheet_of(side_view(SHAFT), texts=() if around else lines, around=lines if around else ())
    return [f.code for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.level != "note"]


@each_in_turn(mark=MARKS, words=FALSE)
def test_a_note_that_is_false_is_told_with_any_mark(words, mark):
    assert FALSE[words] in codes(mark.format(words))


@each_in_turn(mark=MARKS, words=TRUE)
def test_a_note_that_is_true_or_harmless_is_not(words, mark):
    assert codes(mark.format(words)) == codes(words)


@all_pairs(place=range(3), paragraph=[True, False], words=["OVERALL LENGTH 82", "OBSOLETE - DO NOT USE"])
def test_it_is_told_wherever_in_the_list_it_stands(words, paragraph, place):
    notes = ["DEBURR", "OIL AFTER INSPECTION"]
    notes.insert(place, words)
    lines = ["NOTES:", *(f"{k}. {note}" for k, note in enumerate(notes, start=1))]
    texts = ["\n".join(lines)] if paragraph else lines
    assert FALSE[words] in codes(*texts)


@pytest.mark.parametrize("marks", [("(1) {}", "(2) {}"), ("1 - {}", "2 - {}"), ("2- {}", "1- {}")])
def test_numbers_in_brackets_and_before_dashes_are_those_of_notes_where_they_run(marks):
    first, second = marks
    assert FALSE["OVERALL LENGTH 82"] in codes(first.format("DEBURR"), second.format("OVERALL LENGTH 82"))


@each_in_turn(
    more=[(), ("1. DEBURR", "2. OIL AFTER INSPECTION"), ("(4) HOLES",), ("4-HOLES", "3-HOLES"), ("(8) DEBURR",)],
    words=["5-GROOVES", "5 - GROOVES 4 WIDE", "4-NUTEN 4x3", "(5) GROOVES 4 WIDE x 3 DEEP", "(4) NUTEN 4 BREIT"],
)
def test_elsewhere_they_count(words, more):
    assert {"count-differs", "note-contradicts"} & {*codes(words, *more)}


@pytest.mark.parametrize("words", ["OVERALL LENGTH 82", "OBSOLETE - DO NOT USE"])
def test_it_is_told_on_a_layout_around_the_part(words):
    assert FALSE[words] in codes(f"1. DEBURR\n2. {words}", around=True)


def test_a_line_without_a_number_goes_on_the_note_before():
    assert "out-of-force" in codes("1. DEBURR\n2. THIS DRAWING IS\nOBSOLETE")


@pytest.mark.parametrize(
    ("texts", "read"),
    [
        (["3. 82"], ["3. 82"]),
        (["1. DEBURR", "2. 82"], ["DEBURR", "82"]),
        (["3. 82", "4. 5"], ["82", "5"]),
        (["-82"], ["-82"]),
        (["1.5 DEEP"], ["1.5 DEEP"]),
        (["3 GROOVES"], ["3 GROOVES"]),
        (["A-A"], ["A-A"]),
        (["NOTES:\n1. OIL\nWELL\n2. 82"], ["NOTES:", "OIL\nWELL", "82"]),
        (["1. SEITE"], ["1. SEITE"]),
        (["1. SEITE", "2. SEITE"], ["1. SEITE", "2. SEITE"]),
        (["2. OP", "1. DEBURR"], ["OP", "DEBURR"]),
        (["3. OP", "1. DEBURR"], ["3. OP", "DEBURR"]),
        (["4. NUT HINZUGEF\u00dcGT"], ["4. NUT HINZUGEF\u00dcGT"]),
        (["1. NUTEN 4 BREIT", "2. ENTGRATEN"], ["NUTEN 4 BREIT", "ENTGRATEN"]),
        (["1. SIDES SQUARE"], ["SIDES SQUARE"]),
        (["1. GROOVES 3 x 3\n2. FACE BOTH ENDS"], ["GROOVES 3 x 3", "FACE BOTH ENDS"]),
        (["1. NUTEN 3x3\n2. SEITE PLANDREHEN"], ["NUTEN 3x3", "SEITE PLANDREHEN"]),
        (["1. GROOVE 3x3\n2. GROOVE 4x4"], ["1. GROOVE 3x3", "2. GROOVE 4x4"]),
        (["1. SEITE\n2. SEITE"], ["1. SEITE", "2. SEITE"]),
        (["NOTES:\n1. GROOVE 3x3"], ["NOTES:", "1. GROOVE 3x3"]),
        (["NOTES:\n2. GROOVE 3x3"], ["NOTES:\n2. GROOVE 3x3"]),
        (["2. GROOVE 3x3\n3. FACE ENDS"], ["2. GROOVE 3x3\n3. FACE ENDS"]),
        (["1. SEITE", "2. NUT HINZUGEF\u00dcGT"], ["1. SEITE", "2. NUT HINZUGEF\u00dcGT"]),
    ],
)
def test_a_figure_behind_a_number_begins_a_note_only_in_a_list(texts, read):
    sheet = with_items(sheet_of(side_view(SHAFT), texts=tuple(Text(words, (40.0, 60.0), 2.5) for words in texts)))
    assert [text.text for text in sheet.texts] == read


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("1. GROOVES 4 x 3\n2. FACE BOTH ENDS", []), ("1. NUTEN 4x3\n2. SEITE PLANDREHEN", []),
        ("1. GORGES 4x3\n2. FACE PROPRE", []), ("1. GROOVES 4 x 3\n2. END FACES SQUARE", []),
        ("1. GROOVES 4 x 3\n2. FACE RUNOUT 0.02\n3. END CHAMFERS 1x45", []),
        ("1. GROOVE 4 x 3\n2. GROOVE 4 x 3\n3. GROOVE 4 x 3", []),
        ("NOTES:\n1. GROOVE 4 x 3\n2. GROOVE 4 x 3\n3. GROOVE 5 x 4", ["note-contradicts"]),
        ("1. GROOVES 4 x 2\n2. FACE BOTH ENDS", ["note-contradicts"]),
    ],
)  # fmt: skip
def test_a_list_of_grooves_and_ends_is_taken_apart(words, expected):
    assert [code for code in codes(words) if code != "variants"] == expected


@pytest.mark.parametrize("marks", ["NOTES 1) {} 2) {}", "1. {} 2. {}", "NOTES: 1) {}; 2) {}", "HINWEISE 1. {} 2. {}"])
@pytest.mark.parametrize("words", ["3 GROOVES 4 WIDE 3 DEEP", "OVERALL LENGTH 80", "3 NUTEN 4 BREIT 3 TIEF"])
def test_notes_that_run_on_in_one_line_are_heard_one_by_one(marks, words):
    false = words.replace("4 ", "4.5 ").replace("80", "82")
    assert codes(marks.format(words, "DEBURR")) == codes(marks.format("DEBURR", words)) == []
    for line in (marks.format(false, "DEBURR"), marks.format("DEBURR", false)):
        assert {"note-contradicts", "overall-differs"} & {*codes(line)}


@pytest.mark.parametrize(
    "line",
    ["GROOVES 1) AND 2) 4 WIDE", "1) DEBURR 3) OIL", "SEE NOTE 1) AND NOTE 2) BELOW", "1) OIL"],
)
def test_numbers_that_do_not_run_from_one_or_stand_amid_words_part_no_line(line):
    sheet = sheet_of(side_view(SHAFT), texts=(Text(line, (0.0, 60.0), 2.5),))
    assert len(with_items(sheet).texts) == 1
