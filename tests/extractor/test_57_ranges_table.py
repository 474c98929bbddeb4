"""A table of tolerances by ranges of sizes beside the part is told once; sizes in rows like it are asked about."""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 32.0)))
HIGH = 2.5


def told(*rows, turned=False, step=(18.0, 6.0), skew=0.0):
    """Codes and words for the cells of a table below the view, its rows laid as columns where it is turned."""
    texts = []
    for i, row in enumerate(rows):
        for j, cell in enumerate(row):
            a, b = (i, j) if turned else (j, i)
            off = skew * (j == len(row) - 1)
            texts.append(
                Text(cell, (-60.0 + step[0] * a + turned * off, -27.0 - step[1] * b - (not turned) * off), HIGH)
            )
    found = read_sheet(sheet_of(side_view(SHAFT), texts=tuple(texts)), ReadOptions(units="mm")).findings
    return [(f.code.value, f.message) for f in found]


def codes(*rows, **more):
    return sorted({code for code, _ in told(*rows, **more)})


TABLE = [["0.5", "3", "±0.1"], ["3", "6", "±0.1"], ["6", "30", "±0.2"], ["30", "120", "±0,3"]]
ONCE = ["general-tolerances"]


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(
    "rows",
    [
        TABLE,
        [["over", "up to", "tol."], *TABLE],
        [[f"{low}-{high}", dev] for low, high, dev in TABLE],
        [[f"over {low} up to {high}", dev] for low, high, dev in TABLE],
        [[f"{low}...{high}", dev] for low, high, dev in TABLE],
        [[str(k), *row] for k, row in enumerate(TABLE, 1)],
        TABLE[1:3],
        TABLE[::-1],
    ],
)
def test_a_table_of_ranges_is_told_once(rows, turned):
    found = told(*rows, turned=turned)
    assert not {"tolerance-unread", "dimension-unclear"} & {code for code, _ in found}
    (one,) = [told for told in found if told[0] == "general-tolerances"]
    low, high = ("3", "30") if len(rows) == 2 else ("0.5", "120")
    assert f"from {low} to {high}, and none was applied" in one[1]


SIZES = {
    "ranges with gaps": [["0.5", "3", "±0.1"], ["4", "6", "±0.1"], ["7", "31", "±0.2"]],
    "one row": TABLE[:1],
    "smaller deviations": [["3", "6", "±0.2"], ["6", "31", "±0.1"]],
    "sizes alone": [["3.3", "±0.1"], ["6.2", "±0.1"]],
    "three sizes": [["0.5-3-4.1", "±0.1"], ["3-6-8.1", "±0.1"]],
    "falling": [["6", "3", "±0.1"], ["31", "6", "±0.1"]],
    "no deviation": [["3", "6", "0.1"], ["6", "31", "0.2"]],
}


@pytest.mark.parametrize("rows", SIZES.values(), ids=SIZES)
def test_what_does_not_follow_on_one_another_is_asked_about_as_ever(rows):
    found = codes(*rows)
    assert "general-tolerances" not in found
    assert {"tolerance-unread", "dimension-unclear"} & set(found)


def test_another_deviation_beside_the_table_is_still_told():
    assert codes(*TABLE, ["", "", ""], ["±0.05"]) == ["general-tolerances", "tolerance-unread"]


@pytest.mark.parametrize(("skew", "once"), [(2.2, True), (2.3, False)])
@pytest.mark.parametrize("turned", [False, True])
def test_a_cell_stands_level_with_its_range(skew, once, turned):
    """Nine tenths of a letter height: 2.25."""
    assert (codes(*TABLE, turned=turned, step=(18.0, 12.0), skew=skew) == ONCE) is once


@pytest.mark.parametrize(("wide", "once"), [(37.4, True), (37.6, False)])
def test_cells_stand_within_fifteen_letter_heights(wide, once):
    assert (codes(*TABLE, step=(wide, 6.0)) == ONCE) is once
