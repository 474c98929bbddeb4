"""Threads by their designations at a leader: held against the land by their diameter and their length.

The pin is 30 across and 20 long with a groove in it, then 42 across. Diameters: ISO 228-1 (G1 33.249, G7/8 30.201,
cores G1 30.291), as published tables have them; ASME B1.1: the size in inches; both from memory.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.ties import across, bar, tied

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.sizing.notes.threads import THREAD, thread_of

PIN = Turned(((20.0, 30.0), (70.0, 42.0)), (Cut(-10.0, 2.5, 27.0), Cut(-40.0, 4.0, 36.0)))


def stops(words, at=(-4.0, 15.0), texts=()):
    """What stops at a leader with such words."""
    tip = Dimension(DimensionKind.LEADER, (at, (10.0, 50.0)), 0.0, 0.0, words)
    reading = read_sheet(sheet_of(side_view(PIN), dimensions=(tip,), texts=texts), ReadOptions(units="mm"))
    return [f.message for f in reading.findings if f.stops]


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("G1", "33.249"), ("G 1 A", "33.249"), ("1\" BSP", "33.249"), ("G7/8", ""), ("BSP 7/8", ""), ("G 7/8 B LH", ""),
        ("G1/4", ""), ("G 5/9", ""), ("1 1/8-12 UNF", "28.575"), ("1.125-12 UNF-2A", "28.575"), ("1 3/16 - 12 UN", ""),
        ("1 1/4\"-12 UNF", "31.75"), ("#10-32 UNF", ""), ("M30x2", ""), ("M28x2 x 15", "28"),
        ("M30x2 LH x 25 LONG", "25 long"), ("M30x2 x 25", "25 long"), ("M30x2-6g-25", "25 long"),
        ("M30 x 25", "25 long"), ("M30x2 x 20 LONG", ""), ("M30x2 x 20.1 LG", "20.1 long"), ("M30x2 x 12", ""),
        ("1 3/16-12 UN x 22", "22 long"),
    ],
)  # fmt: skip
def test_a_thread_is_as_large_as_its_land_and_no_longer(words, wrong):
    found = stops(words)
    assert len(found) == bool(wrong)
    assert all(f"a thread of {wrong} where" in one or f"a thread {wrong} where" in one for one in found)


def test_names_of_things_are_no_pipe_threads():
    assert len(stops("G1")) == 1
    assert stops("G1", texts=(Text("G2", (-40.0, 50.0), 2.5),)) == []
    assert stops("G1", at=(-41.0, 18.0)) == []


@pytest.mark.parametrize(
    ("drawn", "fits"), [(30.291, True), (30.02, True), (30.0, False), (33.249, True), (34.0, False)]
)
def test_the_core_of_a_pipe_thread_may_be_drawn_in_a_bore(drawn, fits):
    """1.4 pitches of 25.4/11 below 33.249 are 30.016."""
    part = bar(bore=drawn)
    found = [f for f in tied(part, across(drawn, "G1", z=5))[1] if f.stops]
    assert (found == []) is fits


@pytest.mark.parametrize(
    ("words", "size", "pitch"),
    [("1/2-20 UNF", 12.7, 1.27), ("#4-40 UNC", 2.8448, 0.635), ("G 1 1/2", 47.803, 2.3091), ("M8 x 40", 8.0, None)],
)
def test_sizes_of_threads(words, size, pitch):
    """ASME B1.1 has #4 as 0.112 inches."""
    thread = thread_of(THREAD.fullmatch(words))
    assert thread.size == pytest.approx(size)
    assert thread.pitch == (pitch if pitch is None else pytest.approx(pitch, abs=1e-4))
