"""Words that space several grooves, where one is out of step: `12 TYP`, `PITCH 12`, `4 GROOVES EQUALLY SPACED`.

That such words mean every step of a row: common practice, no source (ISO 129-1 asks for `n x`, from memory).
"""

from dataclasses import replace

import pytest
from support.parts import part_of
from support.ties import HERE, along, bar, tied

from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.remaining.in_step import PARTS


def places(*near, width=4.0):
    """A bar with a groove at each place."""
    return bar(*((-z, -z - width, 34) for z in near))


EVEN, OFF, SLIPPED = places(4, 16, 28, 40), places(4, 16, 29, 41), places(4, 16, 28.1, 40.1)


def led(words, z=-6.0):
    """Words at the leader of a groove."""
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, 18.0), HERE.on_sheet(z + 8, 40)), 0.0, 0.0, words)


def told(part, *dimensions, notes=()):
    """The stops, as codes and the groove that each names."""
    return [(f.code, f.groove) for f in tied(part, *dimensions, notes=notes)[1] if f.stops]


SPACED = [
    "4 GROOVES EQUALLY SPACED", "4 GROOVES AT EQUAL PITCH", "4 NUTEN GLEICHMÄSSIG VERTEILT", "4 GORGES ÉQUIDISTANTES",
    "4 GORGES RÉGULIÈREMENT ESPACÉES", "4 GOLE EQUIDISTANTI", "4 RANURAS EQUIDISTANTES", "4 SPÅR JÄMNT FÖRDELADE",
    "4 CANAIS IGUALMENTE ESPAÇADOS", "4 GROEVEN GELIJK VERDEELD", "4 ROWKI RÓWNO ROZMIESZCZONE",
    "4 DRÁŽKY ROVNOMĚRNĚ ROZMÍSTĚNÉ", "PITCH 12", "TEILUNG 12", "SPACING 12 TYP", "PAS 12", "PASSO 12", "STEEK 12",
    "ROZTEČ 12", "DELNING 12", "GROOVES EQUALLY SPACED AT 12",
    "GROOVES EQUISPACED", "GROOVES EQ. SP.", "GROOVES AT EQUAL PITCH", "NUTEN GLEICHMÄSSIG VERTEILT",
    "ROWKI RÓWNO ROZŁOŻONE",
]  # fmt: skip


@pytest.mark.parametrize("words", SPACED)
def test_a_note_that_spaces_grooves_holds_for_each_step(words):
    assert [told(part, notes=[words]) for part in (EVEN, OFF, SLIPPED)] == [[], *[[("note-contradicts", 3)]] * 2]


@pytest.mark.parametrize(
    "size",
    [along(-4, -16, "12 TYP"), along(-4, -16, "12 EQ. SP."), along(-8, -20, "12 (TYP)"), along(-6, -18, "TYP. 12"),
     along(-8, -16, "8 TYP"), along(-4, -16, "<> TYP"), along(-4, -16, "PITCH 12"), led("PITCH 12 TYP")],
)  # fmt: skip
def test_a_typical_distance_holds_for_each_step_of_its_row(size):
    """Over walls, middles and a land; from the front on or at the back."""
    assert told(EVEN, size) == []
    for part, groove in ((OFF, 3), (SLIPPED, 3), (places(4, 16, 28, 43), 4)):
        (stop,) = [f for f in tied(part, size)[1] if f.stops]
        assert stop.groove == groove
        assert any(f"{step:g}" in stop.message for step in (13, 12.1, 15, 9, 8.1, 11))


TWO_ROWS = replace(
    part_of([(-4, -8, 34), (-12, -16, 34), (-20, -24, 34), (-34, -38, 34), (-43, -47, 34), (-52, -56, 34)]), frame=HERE
)
ON_STEPS = part_of([(-4, -8, 34), (-14, -18, 34), (-24, -28, 34), (-36, -40, 34)], steps=[(0, 40), (-30, 50)])
BETWEEN = bar((-4, -8, 34), (-14, -18, 34), (-24, -28, 34), (-30, -32, 36), (-36, -40, 34))


@pytest.mark.parametrize(
    ("part", "sizes", "notes"),
    [
        (OFF, [along(-4, -16, "12")], []),
        (OFF, [along(-4, -16, "12 TYP"), along(-16, -29, "13")], []),
        (OFF, [along(-4, -16, "12 TYP"), along(0, -16, "16"), along(0, -29, "29")], []),
        (OFF, [along(-16, -29, "13")], ["PITCH 12"]),
        (TWO_ROWS, [along(-4, -12, "8 TYP"), along(-34, -43, "9 TYP")], []),
        (TWO_ROWS, [], ["GROOVES EQUALLY SPACED AT 8"]),
        (ON_STEPS, [along(-4, -14, "10 TYP")], ["PITCH 10"]),
        (BETWEEN, [along(-4, -14, "10 TYP")], ["PITCH 10"]),
        (bar((-4, -8, 34), (-16, -20, 34), (-29, -33, 30), (-40, -44, 34)), [along(-4, -16, "12 TYP")], ["PITCH 12"]),
        (bar((-4, -8, 34), (-14, -17, 36), (-24, -28, 34), (-34, -37, 36), (-44, -48, 34)), [], ["PITCH 20"]),
        (places(4, 16, 29), [], ["3 GROOVES"]),
    ],
)  # fmt: skip
def test_steps_of_their_own_and_of_other_rows_are_not_spoken_of(part, sizes, notes):
    assert told(replace(part, frame=HERE), *sizes, notes=notes) == []


@pytest.mark.parametrize(("times", "alarm"), [(PARTS - 0.02, True), (PARTS + 0.02, False)])
def test_a_step_far_larger_parts_two_rows_unless_all_are_counted(times, alarm):
    part = places(4, 14, 24, round(24 + 10 * times, 3))
    assert bool(told(part, along(-4, -14, "10 TYP"))) is alarm
    assert bool(told(part, notes=["PITCH 10"])) is alarm
    assert told(part, notes=["4 GROOVES EQUALLY SPACED"]) == [("note-contradicts", 4)]


def test_the_first_groove_of_a_row_is_named_where_it_is_out_of_step():
    assert told(places(5, 16, 28, 40), notes=["PITCH 12"]) == [("note-contradicts", 1)]


@pytest.mark.parametrize(("off", "alarm"), [(0.01, False), (0.04, True)])
def test_steps_may_differ_by_a_slip_of_the_file(off, alarm):
    """By two thousandths of the pitch."""
    assert bool(told(places(4, 16, 28 + off, 40), notes=["4 GROOVES EQUALLY SPACED"])) is alarm
