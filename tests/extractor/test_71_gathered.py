"""What is said of very many places is said once; places no larger than drawing noise are told as that."""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.codes import DrawingCode
from extractor.finding import ACCEPTED, Finding, Level, accept
from extractor.gathered import gathered
from extractor.placing.laying import FINE

MM = ReadOptions(units="mm")


def row(count, words="The outline at X{k:g} Y-1.5 is off by {k}e-05.", code=DrawingCode.OUTLINE_UNCLEAR, **more):
    return [Finding(Level.STOP, code, words.format(k=k), (float(k), 1.0), **more) for k in range(1, count + 1)]


@pytest.mark.parametrize(("count", "left"), [(50, 50), (51, 1)])
def test_more_than_a_person_reads_are_one(count, left):
    assert len(gathered(row(count))) == left


def test_the_one_stands_first_and_tells_how_many_and_where():
    before, between = row(2, "It is {k} long.", DrawingCode.NOT_ROUND), row(1, "It folds {k} times.")
    found = gathered([*before, *row(60), *between, *row(40)])
    assert found == (*before, found[2], *between)
    one = found[2]
    assert one.message == "The first of 100 places alike: The outline at X1 Y-1.5 is off by 1e-05."
    assert (one.at, one.alike, one.code, one.stops) == ((1.0, 1.0), 100, DrawingCode.OUTLINE_UNCLEAR, True)
    assert one.spots == tuple((float(k), 1.0) for k in range(2, 13))


def test_other_sentences_levels_and_grooves_stay_apart():
    told = [*row(30), *row(30, "The recess at {k} is small.")]
    assert gathered(told) == tuple(told)
    accepted = [replace(one, level=Level.CAUTION) for one in row(30)]
    assert gathered([*row(30), *accepted]) == (*row(30), *accepted)
    of_grooves = row(100, groove=1)
    assert gathered(of_grooves) == tuple(of_grooves)


def test_what_the_user_answered_for_stays_answered():
    (one,) = gathered(replace(f, level=Level.CAUTION, message=f"{f.message} {ACCEPTED}") for f in row(100))
    assert one.accepted
    # A code alone answers for none of many: each has a key of its own.
    (still,) = gathered(accept(row(100), ["outline-unclear"]))
    assert still.stops
    assert still.alike == 100
    first, rest = gathered(accept(row(100), [row(1)[0].key]))
    assert (first.accepted, rest.stops, rest.alike) == (True, True, 99)


def long_row(count, width, depth=4.0, length=20_000.0):
    """A shaft with a row of like grooves at its front, its places drawn to more figures than its length is worth."""
    cuts = tuple(Cut(-5.015625 - 4 * k, width, 40 - 2 * depth) for k in range(count))
    return read_sheet(sheet_of(full_outline(Turned(((length, 40.0),), cuts))), MM)


@pytest.mark.parametrize(("off", "read"), [(-1e-3, False), (1e-3, True)])
def test_a_recess_no_wider_than_drawing_noise_says_so(off, read):
    # The noise of a view is a share of its diagonal, here told without the code that measures the view.
    noise = FINE * (20_000.0**2 + 40.0**2) ** 0.5
    reading = long_row(1, noise + off)
    stops = [f for f in reading.findings if f.code is DrawingCode.OUTLINE_UNCLEAR]
    assert bool(stops) is not read
    assert all(f"is no wider or no deeper than {noise:.3g}" in f.message for f in stops)
    assert not any("plain rectangle" in f.message for f in reading.findings)


def test_a_long_row_of_them_is_one_stop():
    reading = long_row(60, 0.39)
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, stop.alike) == (DrawingCode.OUTLINE_UNCLEAR, 60)
    assert stop.message.startswith("The first of 60 places alike: The recess at X-5.016 Y16 is no wider")
