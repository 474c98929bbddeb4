"""Dimension texts are taken apart into sign, count, size, deviations and class; what doesn't parse says nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.grammar import normalised
from extractor.sizing.lettering.printed import parse

# Spellings met on drawings; ISO 129-1 for signs and deviations, ISO 286-1 for classes; the rest common practice.
SIZES = [
    ("40", 40.0),
    ("40.5", 40.5),
    ("40,5", 40.5),
    (".125", 0.125),
    ("1/2", 0.5),
    ('1 1/2"', 1.5),
    ("1-1/2 in", 1.5),
    ("3/64", 0.046875),
    ("GROOVE WIDTH 3", 3.0),
    ("drill 3.5", 3.5),
    ("8mm rod", 8.0),
    ("3 TYP", 3.0),
    ("(36)", 36.0),
    ("[36]", 36.0),
    ("THICKNESS", None),
    ("SECTION A-A", None),
    ("", None),
    ("±0.1", None),
    ("-13", 13.0),
    (" - 0,45 ", 0.45),
    ("-.45", 0.45),
    ("+0.45", None),
    ("-0.45 mm/", None),
    ("-0.1/-0.2", None),
]


@pytest.mark.parametrize(("text", "size"), SIZES)
def test_sizes(text, size):
    assert parse(text).size == size


SIGNS = [
    ("Ø36", "diameter", 36.0),
    ("Ø 36", "diameter", 36.0),
    ("dia:16", "diameter", 16.0),
    ("16 DIA", "diameter", 16.0),
    ("Diam. 16", "diameter", 16.0),
    ("R0.2", "radius", 0.2),
    ("R 0.4 MAX", "radius", 0.4),
    ("SR5", "radius", 5.0),
    ("RADIUS 0.8", "radius", 0.8),
    ("Rad. 0,8", "radius", 0.8),
    ("rayon = 0.8", "radius", 0.8),
    ("M8", "thread", 8.0),
    ("M8x1", "thread", 8.0),
    ("1.5x45°", "angle", 1.5),
    ("30°", "angle", None),
    ("MEDIAN 3", "", 3.0),
]


@pytest.mark.parametrize(("text", "sign", "size"), SIGNS)
def test_signs(text, sign, size):
    printed = parse(text)
    assert (printed.sign, printed.size) == (sign, size)


DEVIATIONS = [
    ("20±0.1", (-0.1, 0.1)),
    ("1/64 +.004 0", (0.0, 0.004)),
    (".3 ±.1", (-0.1, 0.1)),
    (".3 +.2 0", None),
    ("12-15", None),
    ("12 -5", None),
    ("20 +/- 0.1", (-0.1, 0.1)),
    ("20 +-0.1", (-0.1, 0.1)),
    ("Ø36 -0.05/-0.15", (-0.15, -0.05)),
    ("36 -0.05^-0.15", (-0.15, -0.05)),
    ("3 +0.1 0", (0.0, 0.1)),
    ("3 +0.1/0", (0.0, 0.1)),
    ("3+0.1^0", (0.0, 0.1)),
    ("3 0/-0.1", (-0.1, 0.0)),
    ("3 +0.1", (0.0, 0.1)),
    ("18 -0.1", (-0.1, 0.0)),
    ("40-0.05", (-0.05, 0.0)),
    ("20+0.1-0.2", (-0.2, 0.1)),
    ("6.5 +0,2", (0.0, 0.2)),
    ("1.500 +.000/-.005", (-0.005, 0.0)),
    ("30 (+0.1/-0.2)", (-0.2, 0.1)),
    ("1.360 .000/-.005", (-0.005, 0.0)),
    ("1.360 .000^-.005", (-0.005, 0.0)),
    ("1.360 +.005/.000", (0.0, 0.005)),
    ("1.360 +.005 .000", (0.0, 0.005)),
    ("1.360 +.000/-.005", (-0.005, 0.0)),
    ("1.360 -.000/+.005", (0.0, 0.005)),
    ("1.360 +.005/-.000", (0.0, 0.005)),
    ("Ø1.360 .000 -.005", (-0.005, 0.0)),
    ("1.360 .0000/-.0005", (-0.0005, 0.0)),
    ("R0.5 ±0.1", (-0.1, 0.1)),
    ("R0.1 ±0.1", (-0.1, 0.1)),
    ("R0.1 ±0.11", None),
    ("4x 35.95/36.00", (-0.05, 0.0)),
    ("36.00/35.95 TYP", (-0.05, 0.0)),
    ("Ø30 0 / -0.21", (-0.21, 0.0)),
    ("<> -0.05/-0.15", (-0.15, -0.05)),
    ("35.95/36.00", (-0.05, 0.0)),
    ("36.00^35.95", (-0.05, 0.0)),
    ("3,85...3,95", (-0.1, 0.0)),
    ("3.85 to 3.95", (-0.1, 0.0)),
    ("3.85 bis 3.95", (-0.1, 0.0)),
    ("Ø26,1 MAX / 25,95 MIN", (-0.15, 0.0)),
    ("4,25\n4,1", (-0.15, 0.0)),
    ("Ø4.25\nØ4", (-0.25, 0.0)),
    ("Ø26 m6 (26,021/26,008)", (0.008, 0.021)),
    ("20 (17.9/22)", None),
    ("20 (18/22.1)", None),
    ("Ø26 0/-30 µm", (-0.03, 0.0)),
    ("40", None),
    ("12-13", None),
    ("A-A 3", None),
    ("5±0,05 n°4", (-0.05, 0.05)),
    ("5 +0.1/0 N. 4", (0.0, 0.1)),
    ("3-5 grooves", None),
    ("Ø24 -0.05 +0.05 -0.1", None),
    ("Ø24 0/-0.1 x 3 +0.1/0", (-0.1, 0.0)),
    ("Ø24 0/-0.13 (h11)", (-0.13, 0.0)),
    ("<> H11 (34.16/34)", None),
    ("3 ±50 µm", (-0.05, 0.05)),
    ("3 ±50um", (-0.05, 0.05)),
    ("3 +100/0 um", (0.0, 0.1)),
    ("3 +100/-50 MICRONS", (-0.05, 0.1)),
    ("3 PLUS 0.1 MINUS 0", (0.0, 0.1)),
    ("3 PLUS .1 / MINUS .05", (-0.05, 0.1)),
    ("3 mm plus 0,1", (0.0, 0.1)),
    ("3 PLUS/MINUS 0.1", (-0.1, 0.1)),
    ("3 plus ou moins 0,1", (-0.1, 0.1)),
    ("Ø34 minus 0,1", (-0.1, 0.0)),
    ("PLUS 0.1", None),
    ("3 SURPLUS 0.1", None),
    ("Ø60 H11 x 3 +0.05", None),
    ("Ø60 +0.1/0 x 3 H11", (0.0, 0.1)),
    ("3 x 2 +0.1/0", (0.0, 0.1)),
]


@pytest.mark.parametrize(("text", "deviations"), DEVIATIONS)
def test_deviations(text, deviations):
    found = parse(text).deviations
    assert found == (deviations and pytest.approx(deviations))


@pytest.mark.parametrize(
    ("text", "unread"),
    [
        ("3 +0.1/0", False),
        ("3 H13", False),
        ("3", False),
        ("12-13", False),
        ("3-5 grooves", False),
        ("4x Ø2.5", False),
        ("3 x 2", False),
        ("1/2", False),
        ("10 H7/g6", False),
        ("MAXIMAL 3", False),
        ("3 MAXIMUM", False),
        (".3 +.2 0", True),
        ("12 -5", True),
        ("3 ±5", True),
        ("3 MAX", True),
        ("3 MIN.", True),
        ("3 0.001/-0.1", True),
        ("1.0/1.9", True),
        ("±0.1", True),
        ("3 IT12", True),
        ("3IT7", True),
        ("3f", True),
        ("3 m", True),
        ("3W", False),
        ("3 mm", False),
        ("3 f8", False),
        ("3 ITEMS", False),
        ("Ø24 -0.05 +0.05 -0.1", True),
        ("Ø24 0/-0.1 x 3 +0.1/0", True),
        ("3 H13 x Ø24 h11", True),
        ("Ø24 0/-0.13 (h11)", False),
        ("Ø24 h11 (0/-0.13)", False),
        ("Ø24 0/-0.13 h11", False),
        ("Ø24 h18", False),
        ("Ø24 h19", True),
        ("4H31", True),
        ("4 Q13", True),
        ("Ø16 z9", True),
        ("Ø16 ZC9", True),
        ("Ø16 cd9", True),
        ("4 W13", False),
        ("4 X13", False),
        ("Ø16 z9 DEEP", False),
        ("4 L13", False),
        ("4 H31 DEEP", False),
        ("Ø24 h11 DEEP H12", True),
        ("Ø24 h11 h12", False),
        ("Ø24 H11/h11", False),
        ("Ø24 0.1", True),
        ("Ø24 1.1", False),
        ("Ø24 h11 0.1", True),
        ("3 x 0.1", False),
        ("Ø34 -0.1/-0.2 [1.3386 -.004/-.008]", False),
        ("6 +0.1 1", True),
        ("6 ±0.1 2.5", True),
        ("6 +0.1 0 1", True),
        ("Ø34 h9 1", True),
        ("6 +0.1 0", False),
        ("6 +0.1 2x", False),
        ("6 +0.1 x 1", False),
        ("6 1", False),
    ],
)
def test_what_looks_like_a_tolerance_and_is_not_read_is_known(text, unread):
    assert parse(text).unread is unread


def test_limits_keep_their_count_and_whether_they_are_typical():
    assert (parse("4x 35.95/36.00").count, parse("(35.95/36.00)").reference) == (4, True)
    assert parse("35.95/36.00 TYP").typical
    assert parse("35.95/36.00").limits
    assert not parse("36 ±0.1").limits


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("6.07/5.98", (5.98, 6.07)),
        ("6.07 / 5.98", (5.98, 6.07)),
        ("8,13/8", (8.0, 8.13)),
        ("0.5^0.4", (0.4, 0.5)),
        ("Ø .994^.987", (0.987, 0.994)),
        ("12^11", (11.0, 12.0)),
        ("1.99^1.0", (1.0, 1.99)),
        ("2.0^1.0", None),
        ("1.49/1.0", (1.0, 1.49)),
        ("1.5/1.0", None),
        ("1.09-1.0", (1.0, 1.09)),
        ("1.1-1.0", None),
        ("12/11", None),
        ("3/4", None),
        ("6.0/6.0", None),
    ],
)
def test_two_limits_in_every_form(text, sizes):
    """A stack may be wide, a stroke less so, and a hyphen is mostly a range."""
    printed = parse(text)
    assert (printed.sizes if printed.limits else None) == sizes


CLASSES = [
    ("40 h11", "h11"),
    ("40h11", "h11"),
    ("<> (H13)", "H13"),
    ("%%c<> (h12)".replace("%%c", "Ø"), "h12"),
    ("<>H 13", "H13"),
    ("1.3 H13", "H13"),
    ("1,3H13", "H13"),
    ("Ø<> h11", "h11"),
    ("3 js9", "js9"),
    ("10 H7/g6", "H7/g6"),
    ("20 j6", "j6"),
    ("10 P9", "P9"),
    ("Ø34 h 11", "h11"),
    ("3 H 13", "H13"),
    ("3 g 6", None),
    ("3 h", None),
    ("Ø40 h11 (0/-0.16)", "h11"),
    ("40 h1.5", None),
    ("40 h45", None),
    ("2x45", None),
    ("QRSH3", None),
    ("40", None),
]


@pytest.mark.parametrize(("text", "tolerance_class"), CLASSES)
def test_tolerance_classes(text, tolerance_class):
    assert parse(text).tolerance_class == tolerance_class


COUNTS = [
    ("4x Ø2.5", 4, 2.5),
    ("4 x 2.5", 4, 2.5),
    ("(3x) 2.5", 3, 2.5),
    ("3 OFF 2.5", 3, 2.5),
    ("4 PLACES 2.5", 4, 2.5),
    ("6X R.25", 6, 0.25),
    ("2.5", 1, 2.5),
]


@pytest.mark.parametrize(("text", "count", "size"), COUNTS)
def test_counts(text, count, size):
    printed = parse(text)
    assert (printed.count, printed.size) == (count, size)


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("3 x 2", {3.0, 2.0}),
        ("4 x 5 = 20", {4.0, 5.0, 20.0}),
        ("4x5 (=20)", {4.0, 5.0, 20.0}),
        ("3 x Ø34", {3.0, 34.0}),
        ("3x R2", {2.0}),
        ("3 OFF 2", {2.0}),
        ("3 PLACES Ø34", {34.0}),
        ("(3x) 2", {2.0}),
        ("3x: 2", {2.0}),
        ("4 OFF 8 x 2", {8.0, 2.0}),
    ],
)
def test_every_size_that_could_be_meant_is_kept(text, sizes):
    assert set(parse(text).sizes) == sizes


@pytest.mark.parametrize(
    ("text", "unit"), [("40 mm", "mm"), ('1.5"', "in"), ("1.5 in", "in"), ("1.5 INCH", "in"), ("40", None)]
)
def test_units_behind_a_number(text, unit):
    assert parse(text).unit == unit


def test_no_text_is_the_measured_size():
    assert parse(None).measured
    assert parse("Ø<> h11").measured
    assert not parse("40").measured


def test_brackets_mark_a_size_for_information():
    assert parse("(36)").reference
    assert not parse("36 (0/-0.1)").reference


@given(st.text(max_size=60))
def test_any_text_is_taken_apart_without_failing(text):
    printed = parse(text)
    assert printed.count >= 1
    assert printed.deviations is None or printed.deviations[0] <= printed.deviations[1]


@given(
    st.floats(0.1, 500).map(lambda v: round(v, 2)),
    st.floats(-0.3, 0.3).map(lambda v: round(v, 3)),
    st.floats(-0.3, 0.3).map(lambda v: round(v, 3)),
    st.sampled_from(["{s} {a:+g}/{b:+g}", "Ø{s} {a:+g} {b:+g}", "{s} {a:+g}^{b:+g}", "4x {s} {b:+g}/{a:+g}"]),
)
def test_sizes_and_deviations_survive_their_spelling(size, one, other, form):
    low, high = sorted((one, other))
    printed = parse(form.format(s=size, a=high, b=low))
    assert printed.size == size
    if low == high or max(abs(low), abs(high)) > 0.5 * size:
        assert printed.deviations is None
    else:
        assert printed.deviations == (low, high)


def test_spellings_are_brought_to_one():
    assert normalised("3,5\n  +/- 0,1") == "3.5 ± 0.1"


@pytest.mark.parametrize(("text", "limits"), [("R0.8/0.2", True), ("R0.81/0.2", False)])
def test_two_limits_of_a_radius_differ_by_four_times_at_most(text, limits):
    assert parse(text).limits is limits


@pytest.mark.parametrize(("text", "found"), [("Ø40 h18", "h18"), ("Ø40 h19", None)])
def test_grades_end_at_eighteen(text, found):
    assert parse(text).tolerance_class == found


@pytest.mark.parametrize(
    ("text", "deviations", "unread"),
    [
        ("34 ±0.05 (33.95-34.05)", (-0.05, 0.05), False),
        ("Ø34 +0.1/0 (34.1/34.0)", (0.0, 0.1), False),
        ("34 ±0.05 (33.9-34.05)", None, True),
        ("34 ±0.05 (33.95-34.06)", None, True),
        ("34 h11 0/-0.16 (34/33.84)", (-0.16, 0.0), False),
        ("1.25 +.0002/0 (1.2502/1.25)", (0.0, 0.0002), False),
        ("1.25 +.0002/0 (1.25025/1.25)", None, True),
    ],
)
def test_limits_in_brackets_behind_deviations_must_allow_the_same(text, deviations, unread):
    printed = parse(text)
    assert (printed.deviations, printed.unread) == (deviations, unread)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Ø24 h11 h12", "h11 h12"),
        ("Ø24 h11, h12", "h11 h12"),
        ("Ø24 h11 (h12)", "h11 h12"),
        ("Ø24 h11 or h12", "h11 h12"),
        ("Ø24 h11 0/-0.13 h12", "h11 h12"),
        ("Ø24 h11 h11", "h11"),
        ("Ø24 h11 (h11)", "h11"),
        ("Ø24 h11 FOR H12", "h11"),
        ("Ø24 H8/h7", "H8/h7"),
        ("Ø24 h11", "h11"),
        ("Ø24", None),
    ],
)
def test_two_classes_of_one_size_are_kept_both(text, name):
    assert parse(text).tolerance_class == name
