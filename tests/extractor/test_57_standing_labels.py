"""Numbers that stand over the grooves name the rows of a table of them, where all rows have one there.

How drawings number grooves: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import LETTER, Text

PART = Turned(((80.0, 40.0),), (Cut(-12.0, 3.0, 36.0), Cut(-30.0, 4.0, 35.0), Cut(-50.0, 4.0, 34.0)))
HEADS = ("GROOVE", "WIDTH", "DIA", "Z"), ("NUT", "BREITE", "Ø", "ABSTAND"), ("N°", "LARGHEZZA", "DIAMETRO", "DISTANZA")
ROWS = [("1", "3", "36", "12"), ("2", "4", "35", "30"), ("3", "4", "34", "50")]
OVER = (("1", -13.5, 26.0), ("2", -32.0, 26.0), ("3", -52.0, 26.0))


def told(rows, places=OVER, head=HEADS[0], heights=(3.0, 3.0, 3.0)):
    """Levels, codes and the first word of what is said of a table beside the part, with numbers at its grooves."""
    texts = [
        Text(cell, (40.0 + 24 * c, 70.0 - 7 * k), 2.5)
        for k, row in enumerate([head, *rows])
        for c, cell in enumerate(row)
    ]
    for (word, z, r), height in zip(places, heights, strict=False):
        texts.append(Text(word, (z - LETTER * height / 2, r - height / 2), height))
    found = read_sheet(sheet_of(side_view(PART), texts=tuple(texts)), ReadOptions(units="mm")).findings
    return [(f.level.value, f.code.value, f.message.split()[0]) for f in found]


@pytest.mark.parametrize("head", HEADS, ids=lambda head: head[0])
@pytest.mark.parametrize(("rows", "stray"), [(ROWS[:2], "3"), (ROWS[1:], "1"), (ROWS[::2], "2"), (ROWS, "")])
def test_a_number_over_a_groove_that_has_no_row_is_told(rows, stray, head):
    assert told(rows, head=head) == [("caution", "groove-table", stray)] * bool(stray)


def test_below_the_part_as_well():
    assert told(ROWS[:2], [(word, z, -r) for word, z, r in OVER]) == [("caution", "groove-table", "3")]


def test_the_numbers_tie_the_rows_to_their_grooves():
    swapped = [("1", *ROWS[1][1:]), ("2", *ROWS[0][1:]), ROWS[2]]
    assert [code for _, code, _ in told(swapped)] == ["note-contradicts"] * 2


NO_NAMES = {
    "one row alone": (ROWS[:1], OVER, (3.0,) * 3),
    "another height": (ROWS[:2], OVER, (3.0, 3.0, 2.9)),
    "another line": (ROWS[:2], (*OVER[:2], ("3", -52.0, 27.6)), (3.0,) * 3),
    "no groove below": (ROWS[:2], (*OVER[:2], ("3", -42.0, 26.0)), (3.0,) * 3),
    "a row's number missing": (ROWS[:2], OVER[1:], (3.0,) * 3),
    "two at one groove": (ROWS[:2], (*OVER[:2], ("3", -34.0, 26.0)), (3.0,) * 3),
}


@pytest.mark.parametrize(("rows", "places", "heights"), NO_NAMES.values(), ids=NO_NAMES)
def test_but_a_size_at_a_groove_is_no_number_of_it(rows, places, heights):
    assert ("caution", "groove-table", "3") not in told(rows, places, heights=heights)


@pytest.mark.parametrize(("off", "stands"), [(1.4, True), (1.6, False)])
def test_numbers_on_one_line_lie_within_half_a_letter(off, stands):
    assert (("caution", "groove-table", "3") in told(ROWS[:2], (*OVER[:2], ("3", -52.0, 26.0 + off)))) is stands
