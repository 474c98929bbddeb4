"""A pitch with a count is that of so many grooves in a row, wherever it is printed.

Common practice, no source. Of `4 PITCH 8` nobody can tell whether 4 counts the grooves or the steps between them.
"""

import pytest
from support.ties import HERE, along, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

EVEN = [(-10 - 8 * k, -13 - 8 * k, 34) for k in range(4)]
"""Four grooves 8 apart."""
TORN = [*EVEN[:3], (-46, -49, 34)]
"""Three so, and one 20 behind them."""
WIDER = [*EVEN, (-46, -49, 34)]


def told(spots, words, *, dimensioned=False):
    """Levels and codes of what is said of words far from the view, or on a dimension of the first pitch."""
    texts = () if dimensioned else (Text(words, HERE.on_sheet(60.0, -70.0), 2.5),)
    dimensions = (along(spots[0][0], spots[1][0], words),) if dimensioned else ()
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=dimensions)
    return [(f.level.value, f.code.value) for f in tie_dimensions(sheet, bar(*spots))[1]]


WAYS = ["{n} GROOVES PITCH {p}", "{n} GROOVES AT {p} PITCH", "{n} GROOVES {p} APART", "{n} NUTEN TEILUNG {p}",
        "{n} gorges au pas {p}", "{n} RANURAS PASO {p}"]  # fmt: skip


@pytest.mark.parametrize("dimensioned", [False, True])
@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(
    ("spots", "n", "p", "found"),
    [
        (EVEN, 4, 8, []),
        (EVEN, 5, 8, [("stop", "count-differs")]),
        (TORN, 4, 8, [("stop", "count-differs")]),
        (TORN, 3, 8, []),
        (WIDER, 4, 8, []),
        (WIDER, 5, 8, [("stop", "count-differs")]),
    ],
)
def test_a_pitch_is_counted_in_a_row(spots, n, p, found, way, dimensioned):
    assert told(spots, way.format(n=n, p=p), dimensioned=dimensioned) == found


@pytest.mark.parametrize("dimensioned", [False, True])
@pytest.mark.parametrize("way", WAYS)
def test_a_pitch_that_is_not_drawn_stops(way, dimensioned):
    codes = "dimension-contradicts" if dimensioned else "note-contradicts"
    assert told(EVEN, way.format(n=4, p=9), dimensioned=dimensioned) == [("stop", codes)]


@pytest.mark.parametrize("dimensioned", [False, True])
@pytest.mark.parametrize(("n", "stops"), [(2, True), (3, False), (4, False), (5, True)])
def test_a_figure_before_the_pitch_counts_grooves_or_steps(n, stops, dimensioned):
    assert bool(told(EVEN, f"{n} PITCH 8", dimensioned=dimensioned)) is stops


def over_all(words, z1=-8, z2=-32, spots=EVEN):
    """What is said of such a note on a dimension over all grooves, to the far wall of the last, or the part."""
    part = bar(*spots)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(along(z1, z2, words),))
    return {f.code.value for f in tie_dimensions(sheet, part)[1] if f.stops}


STARTS = sorted((spot[0] for spot in EVEN), reverse=True)
SPANS = {
    "from wall to wall": (STARTS[0], STARTS[-1]),
    "over all": (STARTS[0], min(spot[1] for spot in EVEN)),
    "the part": (0, -60),
}


@pytest.mark.parametrize("ends", SPANS.values(), ids=SPANS)
@pytest.mark.parametrize("way", ["{n} GROOVES AT {p} PITCH", "{n} NUTEN, TEILUNG {p}"])
def test_a_pitch_on_a_dimension_over_all_grooves_is_held_as_the_note_that_it_is(way, ends):
    assert over_all(way.format(n=4, p=8), *ends) == set()
    assert over_all(way.format(n=5, p=8), *ends) != set()
    assert over_all(way.format(n=4, p=9), *ends) != set()


def test_on_another_distance_it_stops():
    """From the first groove to the third."""
    assert over_all("4 GROOVES AT 8 PITCH", STARTS[0], STARTS[2]) != set()


@pytest.mark.parametrize(
    "way",
    ["{n} SPACES AT {p}", "{n} EQUAL SPACES OF {p}", "{n} PITCHES OF {p}", "{n} EQ. SPACES @ {p}",
     "{n} Teilungen zu {p}",
     "{n} PASSI DI {p}", "{n} PAS DE {p}", "{n} PASOS DE {p}"],
)  # fmt: skip
@pytest.mark.parametrize(("n", "p", "wrong"), [(3, 8, False), (2, 8, True), (3, 7, True), (4, 8, True)])
def test_a_dimension_over_a_row_may_say_how_many_spaces_it_has(way, n, p, wrong):
    row = along(EVEN[0][0], EVEN[3][0], way.format(n=n, p=p))
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(row,))
    found = [f.level for f in tie_dimensions(sheet, bar(*EVEN))[1] if f.level != "note"]
    assert ("stop" in found) is wrong
    assert wrong or found == []
