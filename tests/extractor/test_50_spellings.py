"""What is meant, printed in many spellings, comes back: by a printer that shares nothing with the reader.

Ways of writing: ISO 129-1 (signs, deviations, limits) and ISO 286-1 (classes), from memory; the rest common practice.
"""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.grammar import fractions, limits, normalised, tolerances
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.lettering.printed import parse

COUNTS = (
    "{n}x ",
    "{n}X ",
    "{n} x ",
    "{n}× ",
    "({n}x) ",
    "{n} OFF ",
    "{n} PLACES ",
    "{n} PL. ",
    "{n} STK ",
    "{n} Stellen ",
    "{n} fois ",
    "{n} MAL: ",
)
SIGNS = {
    "": ("{s}",),
    "diameter": ("Ø{s}", "Ø {s}", "dia {s}", "DIA. {s}", "{s} DIA", "Diam. {s}", "dia: {s}"),
    "radius": ("R{s}", "R {s}", "SR{s}"),
}  # fmt: skip
PAIRS = (
    "{s} {a}/{b}", "{s} {b}/{a}", "{s} {a} {b}", "{s}{a}^{b}", "{s} {a}^{b}", "{s} ({a}/{b})", "{s} {a} / {b}",
    "{s}\n{a}\n{b}", "{s} {a}, {b}", "{s} {a}; {b}",
)  # fmt: skip
BOTH = ("{s}±{d}", "{s} ± {d}", "{s} +/-{d}", "{s} +/- {d}", "{s} +-{d}", "{s} (±{d})")
LIMITS = ("{a}/{b}", "{b}/{a}", "{a} / {b}", "{a}^{b}", "{a}-{b}", "{b} - {a}", "{b}...{a}", "{b} to {a}",
          "{b} bis {a}", "{a} MAX / {b} MIN", "{b} MIN. {a} MAX.", "{a}\n{b}", "{a} - {b}")  # fmt: skip
CLASSES = ("H7", "H8", "h6", "h11", "H13", "js9", "JS12", "f7", "g6", "k6", "D10", "m6")
CLASSED = ("{s} {c}", "{s}{c}", "{s} ({c})", "{s}({c})")


def places(least, most, digits):
    """Decimal numbers between two values."""
    return st.decimals(least, most, places=digits)


def figure(value, style):
    """A number as a program or a hand prints it: with trailing zeros or without, comma or point, naught or none."""
    text = f"{value:.3f}"
    text = text if style["zeros"] else text.rstrip("0").rstrip(".")
    if style["bare"] and text.startswith("0."):
        text = text[1:]
    return text.replace(".", ",") if style["comma"] and not text.startswith(".") else text


STYLES = st.fixed_dictionaries({"zeros": st.booleans(), "comma": st.booleans(), "bare": st.booleans()})


def signed(value, style):
    """A deviation with its sign; a nought may have none."""
    if value == 0:
        return "0"
    return ("+" if value > 0 else "-") + figure(abs(value), style)


@st.composite
def dimensions(draw):
    """A text, and what is meant: count, sign, size, deviations, class."""
    style, sign = draw(STYLES), draw(st.sampled_from(sorted(SIGNS)))
    size = draw(places("2", "200", 2))
    text = draw(st.sampled_from(SIGNS[sign])).format(s=figure(size, style))
    kind = draw(st.sampled_from(("none", "pair", "both", "class", "class and pair")))
    low, high, name = None, None, None
    room = size / 5
    if kind.startswith("class"):
        name = draw(st.sampled_from(CLASSES))
        text = draw(st.sampled_from(CLASSED if text[-1].isdigit() else CLASSED[::2])).format(s=text, c=name)
    if kind.endswith("pair"):
        low, high = sorted(draw(st.lists(places("-0.390", "0.390", 3), min_size=2, max_size=2, unique=True)))
        text = draw(st.sampled_from(PAIRS)).format(s=text, a=signed(high, style), b=signed(low, style))
    if kind == "both":
        high = draw(places("0.001", min(room, Decimal("0.5")), 3))
        low, text = -high, draw(st.sampled_from(BOTH)).format(s=text, d=figure(high, style))
    count = draw(st.one_of(st.just(1), st.integers(2, 30)))
    before = "" if count == 1 else draw(st.sampled_from(COUNTS)).format(n=count)
    given_pair = None if low is None else (float(low), float(high))
    return before + text, (count, sign, float(size), given_pair, name)


@given(dimensions())
def test_what_is_meant_comes_back_from_every_spelling(dimension):
    text, (count, sign, size, deviations, name) = dimension
    printed = parse(text)
    assert (printed.count, printed.sign, printed.size, printed.tolerance_class) == (count, sign, size, name)
    assert printed.deviations == (deviations and pytest.approx(deviations, abs=1e-9))


@given(
    places("2", "200", 2),
    places("0.01", "0.18", 2),
    st.sampled_from(LIMITS),
    STYLES,
    st.sampled_from(("", "Ø", "3x Ø", "3x ")),
)
def test_limits_come_back_from_every_spelling(low, span, form, style, before):
    """With a decimal, as those of a program are: two whole numbers are a range."""
    style = {**style, "zeros": True}
    high = low + span
    text = before + form.format(a=figure(high, style), b=figure(low, style))
    printed = parse(text)
    assert printed.limits
    assert printed.sizes == (float(low), float(high))
    assert printed.deviations == pytest.approx((float(low - high), 0.0))
    assert printed.count == (3 if before.startswith("3x") else 1)


WORDS = (
    "{w} WIDE x {d} DEEP", "GROOVE {w} x {d}", "{w} BREIT {d} TIEF", "GORGE LARG. {w} PROF. {d}", "NUT b={w} t={d}",
    "{d} DEEP x {w} WIDE",
)  # fmt: skip


@given(places("1", "12", 2), places("1", "9", 2), places("0.01", "0.20", 2), STYLES, st.sampled_from(WORDS),
       st.sampled_from(("{s} ±{t}", "{s} +{t}/0", "{s} +{t}", "{s} +{t}/-0", "{s}±{t}", "{s} (+{t}/0)")))  # fmt: skip
def test_a_tolerance_in_a_note_belongs_to_the_figure_before_it(wide, deep, far, style, words, form):
    limited = form.format(s=figure(wide, style), t=figure(far, style))
    note = groove_note(words.format(w=limited, d=figure(deep, style)))
    sizes = dict(note.meanings[0].sizes)
    assert (sizes["width"].size, sizes["depth"].size) == (float(wide), float(deep))
    assert sizes["width"].deviations == pytest.approx((-float(far) if "±" in form else 0.0, float(far)))
    assert sizes["depth"].deviations is None


@given(st.text("0123456789.,+-±/^ ()ØRxHhgmM\n", max_size=40))
def test_values_lie_in_the_line_that_they_are_of(line):
    line = normalised(line)
    found = list(tolerances(line))
    assert all(0 <= one.start < one.end <= len(line) for one in found)
    assert all(one.end <= two.start for one, two in pairwise(found))
    assert all(line[both.start : both.end].startswith(both.one) for both in limits(line))


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("3 - 4", []),
        ("3 - 0.4", [(-0.4, 0.0)]),
        ("3 -4 PLACES", []),
        ("3 -4 STK", []),
        ("3 -4 LONG", [(-4.0, 0.0)]),
        ("3 H18", [None]),
        ("3 H19", []),
        ("H13 alone", []),
        ("+0.1", []),
    ],
)
def test_what_is_a_tolerance(line, told):
    assert [one.deviations for one in tolerances(line)] == told


@pytest.mark.parametrize(
    ("words", "width", "limited"),
    [
        ("2.5 (+0.1/0) BREIT", 2.5, 1),
        ("2.5 (H13) BREIT", 2.5, 1),
        ("2.5 WIDE - 1.5 DEEP", 2.5, 0),
        ("2.5 BREIT - 1,5 TIEF", 2.5, 0),
        ("2.5 H5 WIDE", 2.5, 1),
    ],
)
def test_tolerances_of_notes_stand_right_behind_their_figures(words, width, limited):
    note = groove_note(words)
    assert note is not None
    assert (dict(note.meanings[0].sizes)["width"].size, note.limited) == (width, limited)


@pytest.mark.parametrize(
    ("words", "classes"), [("3 H4 WIDE", 0), ("3 H5 WIDE", 1), ("3 H18 WIDE", 1), ("3 H19 WIDE", 0)]
)
def test_classes_of_grooves_in_notes_run_from_five_to_eighteen(words, classes):
    note = groove_note(words)
    assert (note.limited if note else 0) == classes


@pytest.mark.parametrize(
    ("line", "found"),
    [("8.1/8", [("8.1", "8")]), ("8-7 +0.1", []), ("8-7 0/-0.1", []), ("8 - 7", [("8", "7")]), ("+0.1/0.2", [])],
)
def test_a_number_before_deviations_is_no_second_limit(line, found):
    assert [(both.one, both.other) for both in limits(line)] == found


@pytest.mark.parametrize(
    ("text", "decimal"),
    [
        ("1 1/2", "1.500000"),
        ("3/4", "0.750000"),
        ("1-5/8", "1.625000"),
        ("1/64", "0.015625"),
        ("2/4", "2/4"),
        ("6/8", "6/8"),
        ("5/4", "5/4"),
        ("3/5", "3/5"),
    ],
)
def test_a_fraction_has_an_odd_number_above_a_greater_power_of_two(text, decimal):
    """Any other is two sizes, or two limits."""
    assert fractions(text) == (decimal, decimal != text)


def test_a_tolerance_may_stand_at_the_very_beginning_of_a_line():
    assert [(t.start, t.deviations) for t in tolerances("±0.1")] == [(0, (-0.1, 0.1))]


@pytest.mark.parametrize(
    ("line", "start", "end"), [("3 (+0.1/0) x", 2, 10), ("3 ( +0.1/0 ) x", 2, 12), ("3 +0.1/0 x", 2, 8)]
)
def test_brackets_round_a_tolerance_belong_to_it(line, start, end):
    assert [(t.start, t.end) for t in tolerances(line)] == [(start, end)]


@pytest.mark.parametrize(
    ("text", "size", "sign"),
    [
        ("D34", 34, "diameter"),
        ("D 34", 34, "diameter"),
        ("D34.5", 34.5, "diameter"),
        ("2x D34 -0.1/0", 34, "diameter"),
        ("(D34)", 34, "diameter"),
        ("D10", 10, "diameter"),
        ("D9", 9, ""),
        ("D2.5", 2.5, ""),
        ("3 D10", 3, ""),
        ("D34A", 34, ""),
        ("REF D34", 34, ""),
    ],
)
def test_a_diameter_by_its_letter_has_two_figures_and_begins_the_text(text, size, sign):
    """`D1` to `D9` are names of sizes that a table resolves (common practice, no source)."""
    assert (parse(text).size, parse(text).sign) == (size, sign)


@pytest.mark.parametrize(
    ("text", "sizes", "tolerance"),
    [
        ("Ø34 - 17", (34.0, 17.0), None),
        ("Ø34 - 17.5", (34.0,), None),
        ("Ø34 - 1", (34.0, 1.0), None),
        ("Ø34 - 0.9", (34.0,), (-0.9, 0.0)),
        ("Ø34 - 33.9", (33.9, 34.0), (-0.1, 0.0)),
        ("Ø34 -1.4", (34.0,), (-1.4, 0.0)),
        ("Ø34 b7", (34.0, 7.0), None),
        ("Ø34 b8", (34.0,), "b8"),
        ("Ø34 - 3 HOLES", (34.0,), None),
        ("34 - 3", (34.0,), None),
        ("Ø34 -1.6", (34.0, 1.6), None),
        ("Ø34-3", (34.0, 3.0), None),
        ("4xØ34-3", (34.0, 4.0, 3.0), None),
        ("Ø34-1", (34.0,), (-1.0, 0.0)),
        ("Ø34-0.2", (34.0,), (-0.2, 0.0)),
        ("Ø34-1 +0", (34.0,), (-1.0, 0.0)),
        ("Ø34-1/0", (34.0,), (-1.0, 0.0)),
    ],
)
def test_a_width_behind_a_dash_or_its_letter_is_no_tolerance_of_the_diameter_before_it(text, sizes, tolerance):
    """There is no class b7 (ISO 286-2, from memory); what is nearly as large as the diameter is the other limit."""
    printed = parse(text)
    assert (printed.sizes, printed.deviations or printed.tolerance_class) == (sizes, tolerance)


@pytest.mark.parametrize("words", ["4 Js9", "4Js9", "4 js 9", "4 JS 9", "4 JS9", "4js9"])
def test_the_class_js_is_known_however_it_is_written(words):
    assert (parse(words).size, (parse(words).tolerance_class or "").upper(), parse(words).unread) == (4.0, "JS9", False)


@pytest.mark.parametrize("words", ["JS 9", "4 JS 9.5", "DRAWN JS 12", "Js 4711"])
def test_other_letters_so_are_no_class(words):
    assert parse(words).tolerance_class is None
