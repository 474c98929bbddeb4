"""Readings weighed against one another: each part of a score decides alone, just inside its margin and just outside."""

import math
import random
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, full_outline, mixed, sheet_of, shifted, side_view

from extractor import ReadOptions, read_sheet, weighing
from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.placing import placing
from extractor.score import MARGINS, Aspect, Merit, decides
from extractor.sheet import Circle, Dimension, DimensionKind, Segments, Source, Text
from extractor.viewing import choice
from extractor.viewing.axis import Axis
from extractor.viewing.choice import Candidate
from extractor.viewing.evidence import Evidence
from extractor.viewing.views import View

MM = ReadOptions(units="mm")
PEN = Source("1", "CIRCLE", "0")


def read(ink, words=(), **more):
    """The reading of a sheet with words that stand clear of the view."""
    texts = tuple(Text(line, (90.0, 60.0 + 8.0 * k), 2.5) for k, line in enumerate(words))
    return read_sheet(sheet_of(ink, texts=texts, **more), MM)


def codes(reading, level="stop"):
    return [f.code for f in reading.findings if f.level == level]


def size(reading):
    return reading.part and (reading.part.outer_diameter, reading.part.length)


def across(x, low, high, text):
    return Dimension(DimensionKind.LINEAR, ((x, low), (x, high)), 90.0, abs(high - low), text)


def along(a, b, text, y=26.0):
    return Dimension(DimensionKind.LINEAR, ((a, y), (b, y)), 0.0, b - a, text)


def ring_half():
    """One half of a flat ring 40 across, 16 in the bore and 10 long, between two crossing centre lines.

    About the upright line it would be a pin, 10 across and 12 long.
    """
    ink = Ink(centre=[(5, 0, -15, 0, 0.0), (-5, 25, -5, -25, 0.0)])
    return ink.chain([(0, 8, 0.0), (0, 20, 0.0), (-10, 20, 0.0), (-10, 8, 0.0)], close=True)


RING, PIN = (40, 10), (10, 12)


def pulley():
    """A pulley 60 across and 24 long whose only centre line is that of its groove: about that it is 24 across."""
    ink = full_outline(Turned(((24.0, 60.0),), (Cut(-8.0, 8.0, 44.0),)), None)
    ink.centre.append((-12.0, 35.0, -12.0, -35.0, 0.0))
    return ink


TOLD = {
    "no size": ([], None),
    "one diameter of the ring": (["Ø40"], None),
    "one diameter of the pin": (["Ø10"], None),
    "diameters of both": (["Ø40", "Ø10"], None),
    "diameters of neither": (["Ø55", "Ø66"], None),
    "two diameters of the ring": (["Ø40", "Ø16"], RING),
    "two of the ring and one of the pin": (["Ø40", "Ø16", "Ø10"], None),
    "a diameter of the ring twice over": (["Ø40", "Ø40"], None),
}


@pytest.mark.parametrize(("words", "meant"), TOLD.values(), ids=TOLD)
def test_printed_diameters_choose_between_two_centre_lines(words, meant):
    """One alone may be a hole's; two that the other reading has nowhere are no accident."""
    reading = read(ring_half(), words)
    assert size(reading) == meant
    assert codes(reading) == ([] if meant else ["axis-unclear"])
    assert codes(reading, "caution") == (["axis-by-sizes"] if meant else [])
    assert [w.axis == (1.0, 0.0) for w in reading.weighed if w.taken] == [bool(meant)]


def test_a_length_that_only_one_reading_has_adds_to_one_diameter():
    """From the groove's wall to the end: about the line along it that is a length, about the other nothing."""
    for lengths, meant in (((), None), ((along(-24.0, -16.0, "8", 33.0),), (60, 24))):
        assert size(read(pulley(), ["Ø44"], dimensions=lengths)) == meant


@pytest.mark.parametrize("seed", range(12))
def test_the_reading_is_the_one_that_a_count_of_the_sizes_makes_it(seed):
    """Random pulleys and sizes, counted by hand: one that a reading has adds one to it, any other takes one off.

    About the line across, the pulley is as wide as it was long, with a hollow as wide as the groove.
    """
    rng = random.Random(seed)
    long, wide, floor, outside = (rng.choice(row) for row in ((20, 24, 28), (6, 8), (37, 41, 44), (52, 60, 66)))
    ink = full_outline(Turned(((long, outside),), (Cut((wide - long) / 2, wide, floor),)), None)
    ink.centre.append((-long / 2, outside / 2 + 5, -long / 2, -outside / 2 - 5, 0.0))
    printed = set(rng.sample([long, wide, floor, outside, 13, 97], rng.randint(1, 5)))
    drawn, meant = (len(printed & sizes) - len(printed - sizes) for sizes in ({long, wide}, {floor, outside}))
    reading = read(ink, [f"Ø{n}" for n in sorted(printed)])
    if meant - drawn >= 3:
        assert (size(reading), codes(reading)) == ((outside, long), [])
    elif codes(reading) == ["axis-unclear"]:
        assert meant > 0 > drawn
    else:
        assert size(reading) == (long, outside)
        assert codes(reading) or not meant > 0 > drawn


def test_a_reading_that_as_much_is_printed_against_as_for_puts_no_other_in_doubt():
    """A diameter that neither has and a length that only the other has: 0 there, 1 against here."""
    reading = read(pulley(), ["Ø99"], dimensions=(along(-24.0, -16.0, "8", 33.0),))
    assert (size(reading), codes(reading)) == ((24, 60), [])
    assert [w.score[Aspect.PRINTED].figure for w in reading.weighed] == [-1.0, 0.0]


def test_the_question_names_what_the_view_is_about_either_line():
    (stop,) = (f for f in read(ring_half()).findings if f.stops)
    assert ", 10 across and 12 long about the one, 40 across and 10 long about the other;" in stop.message


@pytest.mark.parametrize(
    ("words", "meant", "stop"),
    [
        ([], (24, 60), ["not-turned"]),
        (["Ø24"], (24, 60), []),
        (["Ø44"], None, ["axis-unclear"]),
        (["Ø44", "Ø60"], (60, 24), []),
        (["Ø44", "Ø24"], (24, 60), []),
        (["Ø60"], (24, 60), ["outline-doubtful"]),
        (["Ø99"], (24, 60), []),
    ],
)
def test_sizes_turn_a_reading_about_the_only_centre_line_or_ask(words, meant, stop):
    """The stop of a printed diameter that is a length stays; what leads plainly is read, with a caution.

    Without a size it looks like a bar's cross-section with a slot in either face.
    """
    reading = read(pulley(), words)
    assert (size(reading), codes(reading)) == (meant, stop)
    assert ("axis-by-sizes" in codes(reading, "caution")) is (meant == (60, 24))


PARTED = {
    "a round end as large": ({"circles": [(-5.0, 20.0)]}, RING),
    "a smaller circle": ({"circles": [(-5.0, 14.0)]}, None),
    "a diameter over the whole width": ({"dimensions": [across(-5.0, 20.0, -20.0, "%%c40")]}, RING),
    "the same without its sign": ({"dimensions": [across(-5.0, 20.0, -20.0, "40")]}, None),
}


@pytest.mark.parametrize(("more", "meant"), PARTED.values(), ids=PARTED)
def test_what_is_projected_decides_before_a_size_is_heard(more, meant):
    circles = tuple(Circle((x, 0.0), r, PEN) for x, r in more.get("circles", ()))
    reading = read(ring_half(), dimensions=tuple(more.get("dimensions", ())), circles=circles)
    assert (size(reading), codes(reading)) == (meant, [] if meant else ["axis-unclear"])
    assert len(reading.weighed) == (1 if meant else 2)


SCORES = {
    Aspect.PROJECTION: (0.0, 1.0),
    Aspect.PRINTED: (2.0, 3.0),
    Aspect.LINES: (0.0, 1.0),
    Aspect.HALVES: (0.099, 0.101),
}


@pytest.mark.parametrize("aspect", MARGINS)
def test_a_part_decides_from_its_margin_on(aspect):
    under, over = SCORES[aspect]
    alike = {a: Merit(5.0, "") for a in MARGINS}
    for by, decided in ((under, None), (over, aspect)):
        ahead = {**alike, aspect: Merit(5.0 + by, "")}
        for one, two, sign in ((ahead, alike, 1), (alike, ahead, -1)):
            assert decides(one, two) == (decided and (decided, pytest.approx(sign * by)))


def test_the_firmer_part_decides_and_one_that_is_not_known_says_nothing():
    order = list(MARGINS)
    for k, aspect in enumerate(order[:-1]):
        one = {a: Merit(9.0 if a is aspect else 0.0, "") for a in order}
        two = {a: Merit(0.0 if a is aspect else 9.0, "") for a in order}
        assert decides(one, two) == (order[0], 9.0 if k == 0 else -9.0)
        assert decides({a: m for a, m in one.items() if a in order[k:]}, two) == (aspect, 9.0)
    assert decides({}, one) is None
    assert Aspect.INK not in MARGINS


SHORT = Turned(((30.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
WHOLE = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))


def on_two_layers(*dimensions, words=(), other=None):
    """All behind the second groove's near wall lies on a layer named for dimensions: 30 long without it, else 60.

    So does all of an `other` view.
    """
    texts = tuple(Text(line, (90.0, 60.0 + 8.0 * k), 2.5) for k, line in enumerate(words))
    ink = mixed(side_view(WHOLE), *([other.map(shifted(-200, 0))] if other else []))
    sheet = sheet_of(ink, dimensions=dimensions, texts=texts)
    segments = sheet.segments
    ends = segments.ends
    named = (ends[:, ::2].max(axis=1) <= -30.0) & (ends[:, ::2].min(axis=1) < -30.0)
    which = np.where(named, len(segments.sources), segments.source)
    sources = (*segments.sources, Source("9", "LINE", "DIM", role="dimension"))
    return read_sheet(replace(sheet, segments=Segments(ends, segments.bulge, which, sources)), MM)


def test_sizes_choose_between_strokes_set_aside_and_let_in():
    """Lengths behind the first groove that only the longer part has; two are too few, three decide."""
    lengths = [along(0.0 - b, 0.0 - a, f"{b - a:g}") for a, b in ((33.0, 60.0), (0.0, 33.0), (30.0, 33.0))]
    asked = on_two_layers(*lengths[:2])
    assert codes(asked)[0] == "lines-unexplained"
    read_in = on_two_layers(*lengths)
    assert (size(read_in), codes(read_in), codes(read_in, "caution")) == ((40, 60), [], ["let-in"])
    assert [(w.set_aside, w.taken) for w in read_in.weighed] == [(True, False), (False, True)]


def test_strokes_let_in_that_bring_a_second_view_with_them_are_asked_about():
    """The sizes fit the longer part; with another view of it more is open than what they say."""
    lengths = [along(0.0 - b, 0.0 - a, f"{b - a:g}") for a, b in ((33.0, 60.0), (0.0, 33.0), (30.0, 33.0))]
    assert codes(on_two_layers(*lengths, other=side_view(WHOLE, None))) == ["lines-unexplained"]


def test_a_reading_that_unexplained_ink_touches_never_leads():
    """Sizes that only the shorter part has: what lies on the other layer still stands at it."""
    lengths = [along(-30.0, -13.0, "17"), along(-30.0, -10.0, "20"), along(-30.0, 0.0, "30")]
    assert "lines-unexplained" in codes(on_two_layers(*lengths))


@pytest.mark.parametrize(("turn", "across"), [(1.41, True), (1.39, False)])
def test_the_other_line_lies_square_across(turn, across):
    """Within ten degrees: a view drawn freehand is about as square."""
    lines = (Axis((0.0, 0.0), (math.cos(t), math.sin(t))) for t in (0.0, turn))
    one, two = (Candidate(View(a, -9.0, 0.0, 5.0, "both", 1.0, (0,)), Evidence(True, (), ()), {}) for a in lines)
    assert choice._across(one, two) is across


def test_one_reading_is_made_of_a_plain_sheet_and_two_others_at_most(monkeypatch):
    made = []
    place = weighing.Given.read
    monkeypatch.setattr(weighing.Given, "read", lambda self, way: made.append(way) or place(self, way))
    read(side_view(WHOLE), ["Ø40"])
    assert len(made) == 1
    read(ring_half())
    assert len(made) == 3
    assert weighing.MOST_OTHERS == 2


@pytest.mark.parametrize(("count", "readings"), [(99, 2), (100, 1)])
def test_a_long_row_of_grooves_is_not_read_again_about_the_line_across(monkeypatch, count, readings):
    """A width that is printed wrongly would else be a reason to."""
    made = []
    place = weighing.Given.read
    monkeypatch.setattr(weighing.Given, "read", lambda self, way: made.append(way) or place(self, way))
    bar = Turned(((4.0 * count + 6, 40.0),), tuple(Cut(-4.0 - 4 * k, 2.0, 36.0) for k in range(count)))
    reading = read_sheet(sheet_of(side_view(bar), dimensions=(along(-6.0, -4.0, "3"),)), MM)
    assert codes(reading) == ["dimension-contradicts"]
    assert (len(reading.part.grooves), len(made)) == (count, readings)


def sleeve_end(deep):
    """A block 200 x 50 alike about two crossing centre lines, but for a hole so deep in its right-hand end."""
    ink = Ink(centre=[(-105, 0, 105, 0, 0.0), (0, 30, 0, -30, 0.0)])
    hole = [(100.0, 5.0), (100.0 - deep, 5.0), (100.0 - deep, -5.0), (100.0, -5.0)]
    corners = [(-100.0, 25.0), (100.0, 25.0), *hole, (100.0, -25.0), (-100.0, -25.0)]
    return ink.chain([(x, y, 0.0) for x, y in corners], close=True)


BOTH_SIGNED = (
    across(-50.0, 15.0, -15.0, "%%c30"),
    Dimension(DimensionKind.LINEAR, ((-80.0, 10.0), (80.0, 10.0)), 0.0, 160.0, "%%c160"),
)
"""A diameter sign about either line, over something that the view does not show."""


@pytest.mark.parametrize(("deep", "meant"), [(19.0, None), (23.0, (50, 200))])
def test_what_is_alike_on_both_sides_of_one_line_and_not_of_the_other_decides(deep, meant):
    """Three places on each edge are held against their images: 0.903 and 0.895 of the boundary have one."""
    reading = read(sleeve_end(deep), dimensions=BOTH_SIGNED)
    assert size(reading) == meant
    assert ("axis-unclear" in codes(reading)) is (meant is None)


@pytest.mark.parametrize(("signs", "meant"), [(BOTH_SIGNED, None), (BOTH_SIGNED[:1], (50, 200))])
def test_a_sign_about_one_line_alone_decides(signs, meant):
    assert size(read(sleeve_end(15.0), dimensions=signs)) == meant


def two_views():
    """A part without a centre line, and another that has one above it."""
    other = Turned(((50.0, 30.0),), (Cut(-20.0, 4.0, 24.0),))
    return mixed(side_view(WHOLE, None), side_view(other).map(shifted(0, 90)))


@pytest.mark.parametrize(
    ("words", "asked"), [([], False), (["Ø40"], False), (["Ø40", "Ø34"], True), (["Ø40", "Ø34", "Ø30"], False)]
)
def test_a_view_that_the_printed_sizes_fit_is_not_passed_over(words, asked):
    """Two diameters of the view without a centre line and none of the other ask; one may be a hole's."""
    reading = read(two_views(), words)
    assert codes(reading) == (["several-parts"] if asked else [])
    assert [w.taken for w in reading.weighed].count(True) == 1
    if not asked:
        assert (size(reading), codes(reading, "caution")[0]) == ((30, 50), "passed-over")
        return
    (stop,) = (f for f in reading.findings if f.stops)
    assert (
        "fit the view at X-30 Y0, 40 across and 60 long, not the one at X-25 Y90, 30 across and 50 long" in stop.message
    )
    for at, meant in zip(stop.spots, ((30, 50), (40, 60)), strict=True):
        assert size(read_sheet(sheet_of(two_views()), replace(MM, at=at))) == meant


def test_what_one_reading_laid_the_next_takes_and_says_the_same(monkeypatch):
    laid, lay_view = [], placing.lay_view
    monkeypatch.setattr(placing, "lay_view", lambda *args: laid.append(args) or lay_view(*args))
    sheet = sheet_of(pulley())
    read_sheet(sheet, MM)
    before = len(laid)
    again = read_sheet(sheet, ReadOptions(units="in", accept=frozenset({"overhang"})))
    assert len(laid) == before > 0, "units and what is accepted change nothing about the views"
    turned = read_sheet(sheet, ReadOptions(units="mm", front="left"))
    assert len(laid) > before, "another front does"
    assert again == read_sheet(replace(sheet), ReadOptions(units="in", accept=frozenset({"overhang"})))
    assert turned == read_sheet(replace(sheet), ReadOptions(units="mm", front="left"))


@pytest.mark.parametrize(
    ("closed", "spots", "lost"),
    [
        (2, [(-30.0, 0.0), (170.0, 0.0)], True),
        (2, [(-30.0, 0.0), (-50.0, 19.0)], False),
        (2, [(-30.0, 0.0), (-50.0, 21.0)], True),
        (1, [(-30.0, 0.0), (170.0, 0.0)], False),
        (0, [(-30.0, 0.0), (170.0, 0.0)], False),
    ],
)
def test_closed_views_are_lost_if_the_one_read_with_all_strokes_has_not_all_of_them_in_it(closed, spots, lost):
    """It is 60 long and 40 across."""
    stop = Finding(Level.STOP, DrawingCode.SEVERAL_PARTS, "There are two.", spots=tuple(spots))
    best = SimpleNamespace(placed=placing.LaidView(None, None, (stop,), closed=closed))
    view = View(Axis((0.0, 0.0), (1.0, 0.0)), -60.0, 0.0, 20.0, "both", 1.0, ())
    assert weighing._lost(best, SimpleNamespace(candidate=SimpleNamespace(view=view))) is lost


def test_a_part_lost_among_its_own_sizes_is_still_one_of_two():
    """Loose sizes of the second part touch it and run into one another: with them let in, the first alone reads."""
    first, second = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)), Turned(((50.0, 30.0),), (Cut(-8.0, 2.0, 26.0),))
    ink = mixed(side_view(first), side_view(second).map(shifted(200.0, 0.0)))
    texts = []
    for row, (a, b) in enumerate(((200.0, 192.0), (192.0, 190.0), (200.0, 150.0))):
        y = -30.0 - 10 * row
        ink.solid += [(x, -15.0, x, y - 1.5, 0.0) for x in (a, b)] + [(a, y, b, y, 0.0)]
        ink.solid += [(x - 1.2, y - 1.2, x + 1.2, y + 1.2, 0.0) for x in (a, b)]
        texts.append(Text(f"{a - b:g}", ((a + b) / 2 - 1, y + 1.2), 3.5))
    reading = read_sheet(sheet_of(ink, texts=tuple(texts)), MM)
    assert codes(reading) == ["several-parts"]
    assert read_sheet(sheet_of(ink, texts=tuple(texts)), ReadOptions(units="mm", at=(175.0, 0.0))).part.length == 50.0
