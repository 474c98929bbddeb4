"""Notes that say whether their grooves are inside or outside: held against those on that side alone.

The bush has two grooves 4 wide and 2 deep in its bore, and one 5 wide and 3 deep outside. Words: common practice, no
source.
"""

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view, with_centre

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

OUTER = [(0, 30, 0), (-20, 30, 0), (-20, 27, 0), (-25, 27, 0), (-25, 30, 0), (-60, 30, 0)]
INNER = [(-60, 15, 0), (-34, 15, 0), (-34, 17, 0), (-30, 17, 0), (-30, 15, 0), (-14, 15, 0), (-14, 17, 0), (-10, 17, 0)]
HALF = Ink().chain([*OUTER, *INNER, (-10, 15, 0), (0, 15, 0)], close=True)
PIN = Turned(((60.0, 60.0),), (Cut(-10.0, 4.0, 56.0), Cut(-30.0, 4.0, 56.0)))
BUSH = with_centre(mixed(HALF, HALF.map(lambda x, y: (x, -y))), PIN, 5.0)


def told(words, ink=BUSH, tip=None):
    """Codes of what is said of a note, free or led to a place, but for what every groove in a bore is told."""
    texts = () if tip else (Text(words, (-50.0, -70.0), 2.5),)
    leaders = (Dimension(DimensionKind.LEADER, (tip, (20.0, 60.0)), 0.0, 0.0, words),) if tip else ()
    found = read_sheet(sheet_of(ink, texts=texts, dimensions=leaders), ReadOptions(units="mm")).findings
    return [f.code.value for f in found if f.code.value.startswith(("note-", "count-"))]


@pytest.mark.parametrize(
    "words",
    [
        "2 INTERNAL GROOVES", "1 EXTERNAL GROOVE", "2 INNENNUTEN 4 x 2", "1 AUSSENNUT 5 x 3",
        "2 INTERNAL GROOVES 4 WIDE",
        "2 gorges intérieures 4 x 2", "2 gole interne 4 x 2", "2 ranuras interiores", "2 binnengroeven 4 x 2",
        "2 rowki wewnętrzne 4 x 2", "ALL INTERNAL GROOVES 4 WIDE", "EXTERNAL GROOVE 5 x 3", "2 innere Nuten 4 x 2",
        "1 gola esterna 5 x 3", "FACE RUNOUT 0.02", "INTERNAL RUNOUT 0.05",
        "TWO INTERNAL GROOVES", "INTERNAL GROOVES 4 x 2 (2x)",
    ],
)  # fmt: skip
def test_what_is_so_on_that_side_is_quiet(words):
    assert told(words) == []


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("3 INTERNAL GROOVES", "count-differs"), ("2 EXTERNAL GROOVES", "count-differs"),
        ("3 INNENNUTEN 4 x 2", "count-differs"), ("2 AUSSENNUTEN", "count-differs"),
        ("3 gorges intérieures", "count-differs"), ("1 ranura interior", "count-differs"),
        ("2 INTERNAL GROOVES 5 x 3", "note-contradicts"), ("1 EXTERNAL GROOVE 4 x 2", "note-contradicts"),
        ("ALL INTERNAL GROOVES 5 WIDE", "note-contradicts"), ("2 gole interne 4 x 3", "note-contradicts"),
    ],
)  # fmt: skip
def test_what_is_not_so_there_stops(words, code):
    assert told(words) == [code]


@pytest.mark.parametrize(
    ("words", "ink"), [("2 INTERNAL GROOVES", side_view(PIN)), ("2 INNENNUTEN 4 x 2", side_view(PIN))]
)
def test_grooves_inside_where_none_is_drawn_stop(words, ink):
    assert told(words, ink) == ["note-contradicts"]
    assert told(words.replace("INTERNAL", "EXTERNAL").replace("INNEN", "AUSSEN"), ink) == []


@pytest.mark.parametrize(
    ("words", "tip", "codes"),
    [
        ("INTERNAL GROOVE 4 x 2", (-12.0, 17.0), []), ("EXTERNAL GROOVE 5 x 3", (-22.0, 27.0), []),
        ("INTERNAL GROOVE 5 x 3", (-22.0, 27.0), ["note-contradicts"]),
        ("AUSSENNUT 4 x 2", (-12.0, 17.0), ["note-contradicts"]),
        ("FACE GROOVE 5 x 3", (-22.0, 27.0), ["note-contradicts"]),
        ("INTERNAL GROOVE", (-22.0, 27.0), ["note-contradicts"]),
        ("EXTERNAL GROOVE", (-22.0, 27.0), []),
    ],
)  # fmt: skip
def test_at_a_leader_it_is_the_side_of_that_groove(words, tip, codes):
    assert told(words, tip=tip) == codes
