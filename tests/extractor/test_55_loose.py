"""Dimensions taken to lines, arrow heads and a text are judged like whole ones; a number beside a land is none."""

import math
from typing import NamedTuple

import pytest
from support.draw import Cut, Turned, side_view
from support.sheets import blank, read_back

from extractor.reading import read_sheet
from extractor.viewing.roles import assign, with_loose

BAR = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))


class Line(NamedTuple):
    """A stroke."""

    a: tuple
    b: tuple


class Note(NamedTuple):
    """A text: place, height, words, angle."""

    at: tuple
    height: float
    text: str
    turned: float = 0.0


class Dim(NamedTuple):
    """A dimension between two points: a place on its line, its direction, its size and how that is lettered."""

    a: tuple
    b: tuple
    line: tuple
    angle: float
    shown: float
    text: str = "<>"


LENGTH = Dim((-60.0, -20.0), (0.0, -20.0), (0.0, -34.0), 0.0, 60.0)
ACROSS = Dim((0.0, -20.0), (0.0, 20.0), (14.0, 0.0), 90.0, 40.0, "%%c<>")
WIDTH = Dim((-13.0, 20.0), (-10.0, 20.0), (-13.0, 28.0), 0.0, 3.0, "<> +0.1 0")
FLOOR = Dim((-11.0, -17.0), (-11.0, 17.0), (-11.0, 0.0), 90.0, 34.0, "%%c<> h11")


def strokes_of(dim, high=2.5):
    """Its line, both extension lines, and the three sides of both arrow heads."""
    (ax, ay), (bx, by), (lx, ly) = dim.a, dim.b, dim.line
    p, q = ((ax, ly), (bx, ly)) if dim.angle == 0 else ((lx, ay), (lx, by))
    made = [Line(p, q), Line(dim.a, p), Line(dim.b, q)]
    for tip, other in ((p, q), (q, p)):
        sx, sy = (other[0] > tip[0]) - (other[0] < tip[0]), (other[1] > tip[1]) - (other[1] < tip[1])
        x, y, t = tip[0] + sx * high, tip[1] + sy * high, high / 5
        one, two = (x + sy * t, y + sx * t), (x - sy * t, y - sx * t)
        made += [Line(tip, one), Line(one, two), Line(two, tip)]
    return made


def exploded(dim, high=2.5):
    """The same with its text above the middle of its line."""
    (px, py), (qx, qy) = strokes_of(dim)[0]
    text = dim.text.replace("<>", f"{dim.shown:g}")
    return [*strokes_of(dim), Note(((px + qx) / 2, (py + qy) / 2 + high / 2), high, text, dim.angle)]


def sheet(dims, layer="0", scale=1.0, extra=()):
    """A bar with dimensions taken to pieces, drawn at a scale, read as mm."""
    doc = blank("R2000")
    space = doc.modelspace()
    doc.layers.add("CENTER", linetype="CENTER")

    def line(a, b, on):
        ends = [(scale * x, scale * y) for x, y in (a, b)]
        space.add_line(*ends, dxfattribs={"layer": on})

    for strokes, on in ((BAR.solid, "BODY"), (BAR.centre, "CENTER")):
        for x0, y0, x1, y1, _ in strokes:
            line((x0, y0), (x1, y1), on)
    for one in [*(m for d in dims for m in exploded(d)), *extra]:
        if isinstance(one, Line):
            line(one.a, one.b, layer)
        else:
            look = {"layer": layer, "rotation": one.turned, "insert": [scale * v for v in one.at]}
            space.add_text(one.text, height=scale * one.height, dxfattribs=look)
    return read_back(doc)


@pytest.mark.parametrize(
    "words", ["REF 70", "TYP 70", "[70]", "~70", "L=70", "LENGTH 70", "lg. 70", "w 70 ±0.1", "Länge 70"]
)
def test_one_word_before_a_size_makes_it_no_note(words):
    """The line is 60 long, and heads end it."""
    (found,) = with_loose(sheet([LENGTH._replace(text=words)])).dimensions
    assert (found.text, found.measured) == (words, 60.0)


@pytest.mark.parametrize(
    "words", ["DIN 70", "REV 70", "SEE 70", "GROOVE 70 x 3", "SHAFT 70", "A GROOVE 70", "M70", "R70"]
)
def test_other_words_do(words):
    assert with_loose(sheet([LENGTH._replace(text=words)])).dimensions == ()


@pytest.mark.parametrize("words", ["L", "2x L1", "ØD", "L ±0.1"])
def test_a_letter_may_stand_for_a_size(words):
    (found,) = with_loose(sheet([LENGTH._replace(text=words)])).dimensions
    assert found.text == words


@pytest.mark.parametrize(("words", "heard"), [("60", 1), ("REF 60", 0)])
def test_a_line_without_heads_has_no_size_with_a_word(words, heard):
    """Its number says its length, and the layer says that it is a dimension's."""
    line, *feet = exploded(LENGTH._replace(text=words))[:3]
    note = Note((-34.0, -32.75), 2.5, words)
    assert len(with_loose(sheet([], "BEMASSUNG", extra=[line, *feet, note])).dimensions) == heard


def test_a_size_without_words_comes_first():
    texts = [Note((-34.0, -33.0), 2.5, "REF 60"), Note((-31.0, -31.4), 2.5, "60")]
    (found,) = with_loose(sheet([], extra=[*strokes_of(LENGTH), *texts])).dimensions
    assert found.text == "60"


@pytest.mark.parametrize("layer", ["0", "BEMASSUNG"])
@pytest.mark.parametrize(("dim", "text"), [(LENGTH, "60"), (ACROSS, "Ø40"), (WIDTH, "3 +0.1 0")])
def test_what_was_one_dimension_is_one_again(dim, text, layer):
    (found,) = with_loose(sheet([dim], layer)).dimensions
    assert found.text == text
    assert found.measured == pytest.approx(dim.shown)
    assert found.angle % 180 == pytest.approx(dim.angle)
    for got, wanted in zip(sorted(found.points), sorted((dim.a, dim.b)), strict=True):
        assert got == pytest.approx(wanted)


@pytest.mark.parametrize("layer", ["0", "BEMASSUNG"])
def test_arrow_heads_alone_make_one(layer):
    inside = Dim((-30.0, 9.0), (-30.0, -11.0), (-30.0, 0.0), 90.0, 20.0)
    (found,) = with_loose(sheet([inside], layer)).dimensions
    assert found.measured == pytest.approx(20.0)
    assert sorted(y for _, y in found.points) == pytest.approx([-11.0, 9.0])


@pytest.mark.parametrize("text", ["<> +0.1 0", "<>"])
def test_a_dimension_line_may_be_far_shorter_than_its_text_is_high(text):
    narrow = Dim((-10.4, 20.0), (-10.0, 20.0), (-10.4, 28.0), 0.0, 0.4, text)
    (found,) = with_loose(sheet([narrow])).dimensions
    assert found.text == text.replace("<>", "0.4")
    assert sorted(x for x, _ in found.points) == pytest.approx([-10.4, -10.0])


def test_a_line_that_runs_past_its_end_is_not_its_extension_line():
    inside = Dim((-11.5, -17.0), (-11.5, 17.0), (-11.5, 0.0), 90.0, 34.0)
    outside = Dim((-10.0, -17.0), (-10.0, 17.0), (14.0, 0.0), 90.0, 34.0)
    found = with_loose(sheet([inside, outside], "BEMASSUNG")).dimensions
    assert len(found) == 2
    assert all(-13.0 <= x <= -10.0 for d in found for x, _ in d.points)


@pytest.mark.parametrize(("shift", "count"), [(0.0, 0), (1.2, 1)])
def test_a_text_half_way_between_two_lines_belongs_to_none(shift, count):
    pair = [Dim((-40.0, -20.0), (-20.0, -20.0), (0.0, y), 0.0, 20.0) for y in (-30.0, -34.0)]
    bare = [m for d in pair for m in strokes_of(d)]
    text = Note((-30.0, -32.0 + shift), 2.5, "20 H13")
    found = with_loose(sheet([], "BEMASSUNG", extra=[*bare, text]))
    assert len(found.dimensions) == count
    cautions = [f for f in found.findings if f.code == "dimension-unclear"]
    assert len(cautions) == 1 - count
    assert all('"20 H13"' in f.message and f.at == text.at for f in cautions)


def test_its_deviations_reach_the_groove():
    (groove,) = read_sheet(sheet([WIDTH, LENGTH], "BEMASSUNG")).part.grooves
    assert groove.tolerances["width"] == pytest.approx((0.0, 0.1))


@pytest.mark.parametrize("scale", [0.2, 0.5, 2.0, 5.0])
def test_a_sheet_scale_shows(scale):
    reading = read_sheet(sheet([LENGTH, ACROSS, WIDTH], "BEMASSUNG", scale))
    (stop,) = [f for f in reading.findings if f.stops]
    assert stop.code == "sheet-scale"
    assert f"--scale {scale:.4g} accepts it" in stop.message


def test_another_number_is_a_stop():
    wrong = Dim(LENGTH.a, LENGTH.b, LENGTH.line, 0.0, 90.0, "90")
    reading = read_sheet(sheet([wrong, ACROSS], "BEMASSUNG"))
    assert "dimension-contradicts" in {f.code for f in reading.findings if f.stops}


@pytest.mark.parametrize("at", [(-40.0, 20.5), (-12.0, 17.5), (-30.0, -22.0), (1.0, 3.0)])
def test_a_number_beside_the_outline_is_no_dimension(at):
    assert with_loose(sheet([], extra=[Note(at, 2.5, "7")])).dimensions == ()


def test_a_line_without_extension_lines_is_no_dimension():
    extra = [Line((-50.0, 30.0), (-20.0, 30.0)), Note((-35.0, 31.0), 2.5, "30")]
    assert with_loose(sheet([], "BEMASSUNG", extra=extra)).dimensions == ()


def test_a_chamfer_is_no_arrow_head():
    corners = [Line((-30.0, 30.0), (-10.0, 30.0)), Note((-20.0, 31.0), 2.5, "33")]
    for x, way in ((-30.0, -1.0), (-10.0, 1.0)):
        corners += [Line((x, 30.0), (x + way, 29.0)), Line((x, 30.0), (x + way, 31.0)), Line((x, 30.0), (x, 36.0))]
    assert with_loose(sheet([], extra=corners)).dimensions == ()


def test_long_notes_and_angles_are_none():
    for text in ("ALL EDGES BROKEN 0.3 AND NO BURR", "45%%d", "M40", "SEE 4711", "Material: C45", "DIN 60"):
        dim = Dim(LENGTH.a, LENGTH.b, LENGTH.line, 0.0, 60.0, text)
        assert with_loose(sheet([dim], "BEMASSUNG")).dimensions == (), text


def test_one_line_has_one_text():
    near, far = Note((-30.0, -33.0), 2.5, "60"), Note((-12.0, -36.0), 2.5, "7")
    bare = strokes_of(LENGTH)
    (found,) = with_loose(sheet([], "BEMASSUNG", extra=[far, *bare[:3], near])).dimensions
    assert found.text == "60"


def test_a_sheet_without_texts_is_left_alone():
    plain = sheet([])
    assert with_loose(plain) is plain
    assert math.isclose(read_sheet(plain).part.length, 60.0)


def ticks(x, half):
    """A diameter inside the view: its line across the axis with oblique ticks."""
    ends = [Line((x, -half), (x, half))]
    return [*ends, *(Line((x - 1.2, y - 1.2), (x + 1.2, y + 1.2)) for y in (half, -half))]


@pytest.mark.parametrize("at", [(-12.4, -15.8), (-13.4, -12.6)])
def test_of_two_lines_beside_a_size_the_one_that_is_as_long_is_meant(at):
    """An edge of the view, or the next diameter, may stand nearer to the middle of a text than its own line does."""
    texts = [Note((x, 0.0), 2.5, text) for x, text in zip(at, ("%%c34", "%%c40"), strict=True)]
    drawn = sheet([], extra=[*ticks(-11.5, 17.0), *ticks(-14.9, 20.0), *texts])
    found = {(p.dimension.text, float(drawn.segments.ends[p.line][0])) for p in assign(drawn).told.pieces}
    assert found == {("Ø34", -11.5), ("Ø40", -14.9)}


def test_a_size_that_is_wrong_keeps_its_line_though_the_next_is_as_long_as_it_prints():
    """The next line has a text of its own: a contradiction must still show."""
    texts = [Note((-12.4, 0.0), 2.5, "%%c40"), Note((-15.4, 0.0), 2.5, "%%c40")]
    found = with_loose(sheet([], extra=[*ticks(-11.5, 17.0), *ticks(-14.9, 20.0), *texts])).dimensions
    assert sorted((d.text, round(d.measured, 3)) for d in found) == [("Ø40", 34.0), ("Ø40", 40.0)]


@pytest.mark.parametrize(("turn", "kept"), [(0.0, 1), (90.0, 0), (89.95, 0), (89.9, 1)])
def test_a_number_turned_across_a_line_is_that_of_a_running_size(turn, kept):
    """It stands at the end of an extension line and tells how far that is from the origin (ISO 129-1, from memory)."""
    bare = strokes_of(WIDTH)
    number = Note((-11.5, 29.0), 2.5, "13", turned=turn)
    assert len(with_loose(sheet([], "BEMASSUNG", extra=[*bare, number])).dimensions) == kept


@pytest.mark.parametrize(
    ("upper", "lower", "up", "down", "aside", "text"),
    [
        ("3.05", "2.95", 1.0, -3.5, 0.0, "3.05^2.95"),
        ("3.00", "3.10", 1.0, -3.5, 0.0, "3.00^3.10"),
        ("3.29", "3.00", 1.0, -3.5, 0.0, "3.00^3.29"),  # NEARLY
        ("3.31", "3.00", 1.0, -3.5, 0.0, "3.00"),
        ("3.05", "2.95", 1.0, -4.4, 0.0, "3.05^2.95"),  # APART
        ("3.05", "2.95", 1.0, -4.6, 0.0, "3.05"),
        ("3.05", "2.95", 1.0, -3.5, 1.2, "3.05^2.95"),  # AMISS
        ("3.05", "2.95", 1.0, -3.5, 1.3, "3.05"),
        ("3.05", "2.95", 1.0, 4.0, 0.0, "3.05^2.95"),  # one over the other, and no line of its own
        ("3.05", "2.95", 1.0, 6.2, 0.0, "3.05^2.95"),
        ("3.05", "2.95", 1.0, 6.6, 0.0, "3.05"),
        ("3.41", "2.95", 1.0, 4.0, 0.0, "3.41"),
        ("3.05", "(2.95)", 1.0, -3.5, -2.0, "3.05"),  # its middle under the other's
        ("3.05", "2.95 H9", 1.0, -3.5, -3.0, "3.05"),
        ("3.05", "2.95 IT9", 1.0, -3.5, -4.0, "3.05"),
    ],
)
def test_two_sizes_over_and_under_one_line_are_its_limits(upper, lower, up, down, aside, text):
    """As an export leaves limits that are printed in place of a size (ISO 129-1, from memory)."""
    bare = strokes_of(WIDTH)
    y = WIDTH.line[1]
    notes = [Note((-14.0, y + up), 2.5, upper), Note((-14.0 + aside, y + down), 2.5, lower)]
    (found,) = with_loose(sheet([], "BEMASSUNG", extra=[*bare, *notes])).dimensions
    assert found.text == text


@pytest.mark.parametrize("apart", [3.5, 5.0, 5.4, 7.0])
@pytest.mark.parametrize(("upper", "lower"), [("30", "28"), ("30.5", "28"), ("30", "28.5")])
def test_sizes_of_two_lines_over_one_another_are_no_limits(upper, lower, apart):
    """Each line has its own text, printed right or wrong; the texts stand as near as limits do."""
    low = Dim((-38.0, 20.0), (-10.0, 20.0), (-38.0, 28.0), 0.0, 28.0)
    high = Dim((-40.0, 20.0), (-10.0, 20.0), (-40.0, 28.0 + apart), 0.0, 30.0)
    notes = [Note((-25.5, 28.6), 2.5, lower), Note((-26.5, 28.6 + apart), 2.5, upper)]
    found = with_loose(sheet([], "BEMASSUNG", extra=[*strokes_of(low), *strokes_of(high), *notes])).dimensions
    assert {(d.text, round(d.measured, 3)) for d in found} == {(lower, 28.0), (upper, 30.0)}


@pytest.mark.parametrize(
    ("lower", "limits"),
    [
        (Note((-14.0, 24.5), 2.5, "2.95"), True),
        (Note((-14.0, 24.5), 2.4, "2.95"), False),
        (Note((-14.0, 24.5), 2.5, "2.95", turned=5.0), False),
        (Note((-14.0, 24.5), 2.5, "%%c2.95"), False),
    ],
)
def test_limits_are_written_alike(lower, limits):
    """In letters of one height and one direction, and both with a sign or neither."""
    bare = strokes_of(WIDTH)
    (found,) = with_loose(sheet([], "BEMASSUNG", extra=[*bare, Note((-14.0, 29.0), 2.5, "3.05"), lower])).dimensions
    assert found.text == ("3.05^2.95" if limits else "3.05")


@pytest.mark.parametrize(("others", "odd", "own"), [(2, 0, True), (1, 0, False), (2, 2, True), (2, 3, False)])
def test_where_sizes_share_a_scale_each_number_goes_to_the_line_that_it_fits(others, odd, own):
    """Of two diameters at 1:2 both texts stand nearer to the first one's line.

    Three sizes tell the scale and two do not, nor do three of six: they are no more than half.
    """
    texts = [Note((x, 0.0), 2.5, text) for x, text in ((-13.4, "%%c68"), (-12.6, "%%c80"))]
    clear = [(x, half, 4 * half) for x, half in FAR[:others]] + ODD[:odd]
    far = [Note((x + 0.5, 0.0), 2.5, f"%%c{size:g}") for x, _, size in clear]
    ink = [*ticks(-11.5, 17.0), *ticks(-14.9, 20.0), *(one for x, half, _ in clear for one in ticks(x, half))]
    drawn = sheet([], extra=[*ink, *texts, *far])
    found = {(p.dimension.text, float(drawn.segments.ends[p.line][0])) for p in assign(drawn).told.pieces}
    assert ({("Ø68", -11.5), ("Ø80", -14.9)} <= found) is own


FAR = [(-25.0, 12.0), (-35.0, 11.0)]
"""Places and half lengths of diameters that stand clear."""
ODD = [(-42.0, 12.0, 24.0), (-48.0, 11.0, 29.0), (-54.0, 10.0, 34.0)]
"""The same of diameters that print 1, 1.3 and 1.7 times as much, with what they print."""
