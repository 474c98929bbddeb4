"""Lengths in a finding are those of the part, at whatever scale it is drawn; places are told to be found."""

import pytest
from support.draw import Cut, Ink, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ((12.3456, -3.0), "X12.35 Y-3"),
        ((-0.0, 1e-12), "X0 Y0"),
        ((999.96, -999.94), "X1000 Y-999.9"),
        ((1000.26, -1000.24), "X1000.3 Y-1000.2"),
        ((12345.0, 1.0), "X12345 Y1"),
        ((3000012.54, -5400100.0), "X3000012.5 Y-5400100"),
        ((1e300, 0.0), "X1e+300 Y0"),
    ],
)
def test_a_place_is_told_so_that_it_can_be_found(at, words):
    """By four figures, and to a tenth however far out."""
    assert place_words(at) == words


def test_lengths_are_those_of_the_part():
    code, sentence = DrawingCode.LANDS_DISAGREE, "From {:.4g} to {:.4g} at X{{8}}."
    one = Finding.measured(Level.STOP, code, sentence, [3.0, 12.5], (1.0, 2.0))
    assert (one.message, one.at) == ("From 3 to 12.5 at X{8}.", (1.0, 2.0))
    half = one.at_scale(2.0)
    assert (half.message, half.at, half.key) == ("From 1.5 to 6.25 at X{8}.", (1.0, 2.0), one.key)
    assert half.at_scale(2.0) is half
    assert one.at_scale(1.0) == Finding(Level.STOP, code, "From 3 to 12.5 at X{8}.", (1.0, 2.0))


def lower_half(change):
    """The ring with the lower half of its outline otherwise."""
    ink = side_view(RING)
    ink.solid = [
        (*change(a, b), *change(c, d), e) if max(b, d) <= 0.0 else (a, b, c, d, e) for a, b, c, d, e in ink.solid
    ]
    return ink


def told(ink: Ink, scale):
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm", scale=scale))
    return [(f.code, f.message, f.drawn) for f in reading.findings if f.stops or f.code == "one-sided"]


@pytest.mark.parametrize(
    ("scale", "lengths"), [(1.0, ["25 to 60", "20 from", "other 19.5"]), (2.0, ["12.5 to 30", "10 from", "other 9.75"])]
)
def test_lands_of_halves_that_disagree(scale, lengths):
    """From the second groove back the lower land is half a unit lower, as drawn."""
    ink = lower_half(lambda z, r: (z, -19.5 if r == -20.0 and z <= -29.0 else r))
    ((code, message, drawn),) = told(ink, scale)
    assert (code, drawn) == ("lands-disagree", None)
    assert all(words in message for words in lengths)


@pytest.mark.parametrize(
    ("scale", "lengths"),
    [(1.0, ["25 to 29", "17 from", "16 from"]), (2.0, ["12.5 to 14.5", "8.5 from", "8 from"])],
)
def test_recesses_of_halves_that_disagree(scale, lengths):
    ink = lower_half(lambda z, r: (z, -16.0 if r == -17.0 and z <= -25.0 else r))
    messages = [message for code, message, _ in told(ink, scale) if code == "halves-disagree"]
    assert len(messages) == 1
    assert all(words in messages[0] for words in lengths)


@pytest.mark.parametrize(("scale", "width"), [(1.0, "3 wide"), (2.0, "1.5 wide")])
def test_a_recess_of_one_half(scale, width):
    ink = lower_half(lambda z, r: (z, -20.0 if r == -17.0 and z >= -13.0 else r))
    assert [width in message for code, message, _ in told(ink, scale) if code == "one-sided"] == [True]


@pytest.mark.parametrize(("length", "words"), [(8.7e-19, "0"), (-8.9e-16, "0"), (4e-10, "0"), (6e-10, "1e-09")])
def test_dust_of_the_reckoning_is_told_as_nought(length, words):
    one = Finding.measured(Level.STOP, DrawingCode.OUTLINE_OPEN, "From {:.6g}.", [length])
    assert one.message == f"From {words}."
    assert one.at_scale(1.0).message == f"From {words}."
