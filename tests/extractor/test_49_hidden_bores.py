"""A hidden bore with holes and slots drawn within it, which one half alone shows: by hidden lines all of them.

Seen from outside a wider bore leaves no edge of its own within itself; what is drawn there lies before it or behind it.
"""

import pytest
from support.draw import Cut, Ink, Turned, mixed, rotated, sheet_of, side_view

from extractor import ReadOptions, read_sheet

PART = Turned(((60.0, 60.0),), (Cut(-46.0, 4.0, 54.0),))
BORE = [(0.0, 12.0), (-60.0, 12.0)]
GROOVED = [(0.0, 12.0), (-20.0, 12.0), (-20.0, 15.0), (-24.0, 15.0), (-24.0, 12.0), (-60.0, 12.0)]
HOLE = [(0.0, 5.0), (-60.0, 5.0)]
SLOT = [(0.0, 8.0), (-6.0, 8.0), (-6.0, 12.0)]


def read(above, below, turn=0):
    ink = Ink()
    for side, rows in ((1, above), (-1, below)):
        for row in rows:
            ink = mixed(ink, Ink(hidden=Ink().chain([(z, side * r, 0.0) for z, r in row]).solid))
    return read_sheet(sheet_of(mixed(side_view(PART), ink), rotated(turn)), ReadOptions(units="mm"))


def told(reading):
    return [f.code for f in reading.findings if f.level != "note" and f.code.startswith("halves")]


@pytest.mark.parametrize("turn", [0, 90])
@pytest.mark.parametrize(
    ("above", "below"),
    [([BORE], [BORE, HOLE]), ([BORE, HOLE], [BORE]), ([GROOVED], [GROOVED, HOLE]), ([GROOVED, SLOT], [GROOVED, HOLE])],
    ids=["hole", "hole above", "hole and groove", "a slot in the other half"],
)
def test_what_lies_within_the_bore_of_both_halves_is_none_of_its_own(above, below, turn):
    reading = read(above, below, turn)
    assert told(reading) == ["halves-unlike"]
    assert max(r for _, r in reading.part.bore) == max(r for row in above for _, r in row)
    inside = [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves if g.where == "inside"]
    assert inside == ([(-20.0, -24.0, 30.0)] if GROOVED in above else [])
    assert not any(f.stops for f in reading.findings)


@pytest.mark.parametrize(
    ("above", "below"),
    [
        ([BORE], [HOLE]),
        ([GROOVED], [BORE]),
        ([BORE], [[(0.0, 12.0), (-50.0, 12.0)], HOLE]),
    ],
    ids=["no line of it", "a groove in one half", "its line ends"],
)
def test_where_the_other_half_lacks_the_wider_line_the_halves_disagree(above, below):
    assert told(read(above, below)) == ["halves-disagree"]


@pytest.mark.parametrize(("gap", "code"), [(0.6, "halves-unlike"), (0.7, "halves-disagree")])
def test_the_wider_line_is_drawn_there_but_for_a_hundredth(gap, code):
    """Of 60, less what ends within one place of another on both sides."""
    broken = [[(0.0, 12.0), (-30.0, 12.0)], [(-30.0 - gap, 12.0), (-60.0, 12.0)]]
    assert told(read([BORE], [*broken, HOLE])) == [code]
