"""Running dimensions as bare figures at lines: each is held against its own line (ISO 129-1, from memory)."""

from dataclasses import replace

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.viewing.loose import running_rows

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
PLACES = (0.0, 10.0, 13.0, 40.0, 43.0, 60.0)
HIGH = 2.5


def row(figures=(), upright=True, gap=1.0, shift=None, nought="0", places=PLACES, lean=0.0, ended=False, in_turn=0.0):
    """Extension lines down from the part and a figure at each: `figures` replaces some, `shift` moves some.

    `ended`: upright ones end at the lines instead of beginning at one height. `in_turn`: every other line and its
    figure are so much longer.
    """
    shift = shift or {}
    lines, texts = [], []
    told = dict(zip(places, (f"{p:g}" for p in places), strict=True)) | dict(figures) | {0.0: nought}
    for k, place in enumerate(places):
        x, words, end = -place, told[place], -32.0 - (in_turn if k % 2 else 0.0)
        lines.append((x, -21.0, x + 11 * lean, end, 0.0))
        wide = 0.7 * HIGH * len(words)
        x += shift.get(place, 0.0)
        if upright:
            at = x + 0.5 * HIGH, end - gap * HIGH - (wide if ended else 6.0)
            texts.append(Text(words, at, HIGH, angle=90.0))
        else:
            texts.append(Text(words, (x - wide / 2, end - (gap + 1.2) * HIGH), HIGH))
    return Ink(solid=lines), tuple(texts)


def read(front=None, **how):
    ink, texts = row(**how)
    return read_sheet(sheet_of(mixed(side_view(PART), ink), texts=texts), ReadOptions(units="mm", front=front))


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


@pytest.mark.parametrize("upright", [True, False])
def test_a_row_that_fits_is_no_alarm(upright):
    reading = read(upright=upright)
    assert stops(reading) == []
    assert [g.z_near for g in reading.part.grooves] == [-10.0, -40.0]


@each_in_turn(
    ("place", "figure"),
    [(10.0, "10.5"), (13.0, "12.6"), (40.0, "40.4"), (60.0, "61")],
    upright=[True, False],
)
def test_a_figure_that_is_another_than_its_line_says_is_a_contradiction(place, figure, upright):
    assert set(stops(read(figures={place: figure}, upright=upright))) & {"dimension-contradicts", "overall-differs"}


@pytest.mark.parametrize(("place", "figure"), [(10.0, "10.25"), (43.0, "42.75")])
def test_figures_that_end_at_their_lines_are_a_row_too(place, figure):
    assert stops(read(ended=True)) == []
    assert stops(read(figures={place: figure}, ended=True)) == ["dimension-contradicts"]


LIE = {10.0: "10.5"}


@pytest.mark.parametrize("nought", ["10", "5", "1"])
@pytest.mark.parametrize("upright", [True, False])
def test_another_figure_in_place_of_the_nought_is_a_contradiction(nought, upright):
    (stop,) = [f for f in read(nought=nought, upright=upright).findings if f.stops]
    assert (stop.code, stop.at[0]) == ("dimension-contradicts", 0.0)
    assert f'"{nought}" stands where a row of running sizes begins' in stop.message


@pytest.mark.parametrize(("places", "told"), [(PLACES[:4], True), (PLACES[:3], False)])
def test_three_figures_that_count_from_it_make_a_row_of_it(places, told):
    assert ("dimension-contradicts" in stops(read(nought="5", places=places))) is told


@pytest.mark.parametrize(("text", "told"), [("10", True), ("0", False), (None, False), ("Z", False)])
def test_so_is_one_of_a_dimension_that_measures_nothing(text, told):
    row = [(0.0, text), (10.0, "10"), (60.0, "60"), (0.0, "0")]
    sizes = [Dimension(DimensionKind.ORDINATE, ((0.0, -20.0), (-z, -20.0)), 0.0, z, words) for z, words in row]
    reading = read_sheet(sheet_of(side_view(PART), dimensions=tuple(sizes)), ReadOptions(units="mm"))
    assert stops(reading) == ["dimension-contradicts"] * told


@pytest.mark.parametrize(
    ("how", "heard"),
    [
        ({"nought": "0,0"}, True),
        ({"nought": "\u00b10"}, True),
        ({"nought": "1"}, True),
        # Six letter heights from the line's end to the figure.
        ({"gap": 5.7, "upright": False}, True),
        ({"gap": 6.2, "upright": False}, False),
        # Every other line and its figure a letter height longer than the nought's, or more.
        ({"in_turn": 0.9 * HIGH}, True),
        ({"in_turn": 9 * HIGH}, True),
        # A quarter of a letter height, 0.625, beside the place that the nought has at its line.
        ({"shift": {10.0: 0.6}}, True),
        ({"shift": {10.0: 0.65}}, False),
        # Extension lines lean by a thousandth at most.
        ({"lean": 0.9e-3}, True),
        ({"lean": 1.1e-3}, False),
        # Two figures must be right, and they must be most of the row.
        ({"places": PLACES[:4]}, True),
        ({"places": PLACES[:3]}, False),
        ({"figures": {10.0: "10.5", 13.0: "13.5"}}, True),
        ({"figures": {10.0: "10.5", 13.0: "13.5", 40.0: "40.5"}}, False),
        # The two that are right stand a little aside, are rounded, or lie behind a nought at the back.
        ({"places": PLACES[:4], "shift": {13.0: 0.6, 40.0: -0.6}}, True),
        ({"places": PLACES[:4], "figures": {10.0: "10.5", 13.0: "13.02", 40.0: "39.98"}}, True),
        ({"places": PLACES[:4], "front": "left"}, True),
    ],
)
def test_what_makes_a_row(how, heard):
    reading = read(**({"figures": LIE} | how))
    assert ("dimension-contradicts" in stops(reading)) is heard


def on_one_line(figures=(), nought="0", high=2.5):
    """Running sizes on one line under the part, a head at each extension line, the figures upright over its end.

    Their middles lie amid the next narrow place, as an upright size of that would.
    """
    places, told = (10.0, 13.0, 40.0, 43.0, 60.0), dict(figures)
    rows = [(0.0, -20.6, 0.0, -31.0)]
    texts = [Text(nought, (2.0, -28.5), high)]
    for before, place in zip((0.0, *places), places, strict=False):
        x = -place
        rows += [(x, -20.6, x, -30.0), (-before, -31.0, x, -31.0)]
        rows += [(x, -31.0, x + 2.47, -31.0 + s * 0.4) for s in (1, -1)]
        texts.append(Text(told.get(place, f"{place:g}"), (x + 0.75, -29.0), high, angle=90.0))
    ink = side_view(PART, 5.0)
    ink.solid += [(*row, 0.0) for row in rows]
    return read_sheet(sheet_of(ink, texts=tuple(texts)), ReadOptions(units="mm"))


def test_running_sizes_beside_narrow_places_are_none_of_these():
    assert stops(on_one_line()) == []


@pytest.mark.parametrize(("place", "figure"), [(10.0, "10.5"), (40.0, "40.4")])
def test_but_one_that_measures_nothing_is_asked_about(place, figure):
    told = [f for f in on_one_line({place: figure}).findings if f.level != "note"]
    assert [(str(f.code), figure in f.message) for f in told] == [("dimension-unclear", True)]


UPRIGHT = [Text(str(k), (3.0 * k, 0.0), 2.5, angle=90.0) for k in range(1, 5)]
NOUGHT = Text("0", (-3.0, 5.0), 2.5)


@pytest.mark.parametrize(
    ("texts", "count"),
    [
        ([*UPRIGHT, NOUGHT], 4),
        (UPRIGHT, 0),
        ([*UPRIGHT[:3], NOUGHT], 3),
        ([*UPRIGHT[:2], NOUGHT], 0),
        ([*UPRIGHT, replace(NOUGHT, height=1.75)], 0),  # a deviation's
        ([replace(UPRIGHT[0], at=(3.0, 2.0)), *UPRIGHT[1:3], NOUGHT], 0),
        ([replace(UPRIGHT[0], angle=0.0), *UPRIGHT[1:3], NOUGHT], 0),
        ([replace(UPRIGHT[0], text="1 H7"), *UPRIGHT[1:3], NOUGHT], 0),
    ],
)
def test_figures_turned_alike_in_a_row_on_a_sheet_with_a_nought_are_running_sizes(texts, count):
    assert len([t for t in running_rows(texts) if t.angle]) == count
