"""Tolerances printed in notes at grooves, as limits of the finished groove worked out by hand.

ISO 286-1 (tables in three published sources): H13 up to 3 mm is +0.14/0, h11 over 30 up to 50 is 0/-0.16, js13 up to
3 is +-0.07. Depth is radial, so a diameter's limits lie twice as far apart (common practice, no source).
"""

from dataclasses import replace

import pytest
from support.parts import part_of
from support.ties import HERE, across, along, bar, span, tied
from support.weighing import NO_SEGMENTS

from extractor.limits import aims_of
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

THREE = [(-10, -12.65, 36), (-20, -22.65, 36), (-30, -32.65, 36)]
"""Three grooves 2.65 wide and 2 deep in a bar 40 across."""
BORED = (-10, -12.65, 24, {"where": "inside", "mouth_diameter": 20})


def led(words, z=-11.0, r=18.0):
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, r), HERE.on_sheet(z + 10, 40)), 0.0, 0.0, words)


def standing(words, part, z=60.0, r=60.0, *dimensions):
    """A note that stands at a place, without a leader."""
    texts = (Text(words, HERE.on_sheet(z, r), 2.5),)
    return tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=dimensions), part)


def limits(part):
    """Width and floor of every groove as finished: least and greatest, None where the drawing gives no limits."""
    aims = [aims_of(g, 0.02) for g in part.grooves]
    pairs = [[(round(o.low, 6), round(o.high, 6)) if o.given else None for o in (a.width, a.floor)] for a in aims]
    return [tuple(row) for row in pairs]


def codes(findings):
    return [f.code for f in findings if f.level != "note"]


WIDTHS = {
    "GROOVE 2.65 H13 x 2 DEEP": (2.65, 2.79),
    "GROOVE 2.65 h13 x 2": (2.51, 2.65),
    "2,65 +0,1 / 0 BREIT": (2.65, 2.75),
    "2.65 +0.1 0 WIDE": (2.65, 2.75),
    "2.65 WIDE -0.1/-0.2": (2.45, 2.55),
    "2.65 -0.1 WIDE": (2.55, 2.65),
    "2.65 ±0.05 x 2": (2.6, 2.7),
    "2.65 %%p0.05 x 2".replace("%%p", "+/-"): (2.6, 2.7),
    "NUT 2,65 JS13 BREIT": (2.58, 2.72),
    "2.65 +0.1^0 WIDE": (2.65, 2.75),
    "2.65 -0.1^-0.2 WIDE": (2.45, 2.55),
    "GROOVE 2.60-2.70 WIDE": (2.6, 2.7),
    "GROOVE 2.70/2.60 x 2 DEEP": (2.6, 2.7),
    "b=2.65 H13, t=2": (2.65, 2.79),
    "2.65 mm H13 WIDE x 2 DEEP": (2.65, 2.79),
    "2.65 H13": (2.65, 2.79),
    "2.65 +0.1/-0.05": (2.6, 2.75),
    "2.65 H13 x Ø36": (2.65, 2.79),
    "2.65+0,15/+0,05 x 2": (2.7, 2.8),
    "2.65 0/-0.1 x Ø36": (2.55, 2.65),
    "2.65 -100/-200 µm x 2": (2.45, 2.55),
    "2.65 H13 +0.14/0 x 2": (2.65, 2.79),
    "2.65 H13 (2.79/2.65) x 2": (2.65, 2.79),
    "2.65 H13 (+0.14/0) x 2": (2.65, 2.79),
    "GROOVE 2.65 H13 (+0.14/0) WIDE, Ø36": (2.65, 2.79),
    "Canal 2.65 +0.14/0 largura, Ø36": (2.65, 2.79),
    "槽 2.65 +0.14/0 宽, Ø36": (2.65, 2.79),
    "槽宽2.65+0.14/0": (2.65, 2.79),
    "2.6...2.7 WIDE": (2.6, 2.7),
    "2.7 MAX / 2.6 MIN WIDE": (2.6, 2.7),
}
FLOORS = {
    "2.65 WIDE DIA 36 h11": (35.84, 36.0),
    "2.65 x Ø36 h11": (35.84, 36.0),
    "36 h11": (35.84, 36.0),
    "2.65 x 2 +0.1": (35.8, 36.0),
    "2.65 WIDE x 2 DEEP -0.05": (36.0, 36.1),
    "2.65 WIDE x 2 -0.05/-0.1 DEEP": (36.1, 36.2),
    "1.98-2.04 DEEP": (35.92, 36.04),
    "2.65 W, DEPTH 2 +0.02/-0.01": (35.96, 36.02),
    "GROOVE W2.65 D2 ±0.05": (35.9, 36.1),
    "2.65 x Ø35.9...36.1": (35.9, 36.1),
    "2.65 x Ø36 k6 (36.018/36.002)": (36.002, 36.018),
    "Ø35.9 - 36.1": (35.9, 36.1),
    "RANURA DE 2.65 ANCHO x 2 ±0.05 PROF.": (35.9, 36.1),
}


@pytest.mark.parametrize(("words", "wanted"), [*WIDTHS.items(), *FLOORS.items()])
def test_a_tolerance_in_a_note_limits_the_figure_before_it(words, wanted):
    part, findings = tied(bar(THREE[0]), led(words))
    assert limits(part) == [(wanted, None) if words in WIDTHS else (None, wanted)]
    assert codes(findings) == []


@pytest.mark.parametrize(("pointed", "second"), [(True, None), (False, (3.0, 3.1))])
def test_one_at_a_leader_is_of_its_groove_and_one_without_of_all_that_it_fits(pointed, second):
    """Two grooves of one width and of two depths."""
    part, words = bar((-10, -13, 34), (-20, -23, 30)), "GROOVE 3 +0.1/0 WIDE"
    read, _ = tied(part, led(words)) if pointed else standing(words, part)
    assert [width for width, _ in limits(read)] == [(3.0, 3.1), second]


def test_two_like_notes_led_to_two_like_grooves_limit_both():
    words = "2.65 +0.14/0 x Ø36 0/-0.21"
    part, findings = tied(bar(*THREE[:2]), led(words), led(words, z=-21.0))
    assert (limits(part), codes(findings)) == ([((2.65, 2.79), (35.79, 36.0))] * 2, [])


def test_two_pairs_of_limits_at_one_leader_are_both_read():
    part, findings = tied(bar(THREE[0]), led("2.60/2.70 X Ø36.0/35.8"))
    assert (limits(part), codes(findings)) == ([((2.6, 2.7), (35.8, 36.0))], [])


@pytest.mark.parametrize(
    ("dimension", "width", "floor"),
    [
        (along(-10, -12.65, "2.65 +0.14/0 x Ø36 0/-0.21"), (2.65, 2.79), (35.79, 36.0)),
        (along(-10, -12.65, "2.65 x Ø36 h11"), None, (35.84, 36.0)),
        (along(-10, -12.65, "2.65 H13 x Ø36"), (2.65, 2.79), None),
        (along(-10, -12.65, "2.65 x 2 ±0.05"), None, (35.9, 36.1)),
        (along(-10, -12.65, "2.65 WIDE x 2 +0.1/0 DEEP"), None, (35.8, 36.0)),
        (along(-10, -12.65, "3x 2.65 x 2 ±0.05"), None, (35.9, 36.1)),
        (along(-10, -12.65, "3x 2.65 H13"), (2.65, 2.79), None),
        (across(36, "Ø36 x 2.65 H13", z=-11), (2.65, 2.79), None),
        (across(36, "Ø36 h11 x 2.65", z=-11), None, (35.84, 36.0)),
        (across(36, "Ø36 h11 x 2.65 H13", z=-11), (2.65, 2.79), (35.84, 36.0)),
        (across(36, "3x Ø36 h11", z=-11), None, (35.84, 36.0)),
    ],
)
def test_a_tolerance_in_a_note_at_a_dimension_limits_the_figure_before_it_too(dimension, width, floor):
    """Whatever the dimension measures; like grooves share it."""
    part, findings = tied(bar(*THREE), dimension)
    assert (limits(part), codes(findings)) == ([(width, floor)] * 3, [])


@pytest.mark.parametrize(("words", "told"), [("2.65 +0.14/0 x Ø36 0/-0.21", False), ("2.65 +0.14/0", True)])
def test_a_general_tolerance_takes_no_place_of_one_in_a_note_at_a_dimension(words, told):
    """ISO 2768-m gives 36 ±0.3 (table 1, from memory)."""
    part, findings = tied(bar(THREE[0]), along(-10, -12.65, words), notes=["ISO 2768-m"])
    assert codes(findings) == []
    assert part.grooves[0].tolerances["floor_diameter"] == ((-0.3, 0.3) if told else (-0.21, 0.0))


def test_a_note_may_limit_width_and_floor():
    part, _ = tied(bar(THREE[0]), led("GROOVE 2.65 +0.1/0 WIDE x 2 +0.05/0 DEEP"))
    assert limits(part) == [((2.65, 2.75), (35.9, 36.0))]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [("2 +0.1 DEEP", (-24.2, -24.0)), ("2 -0.1/-0.2 DEEP", (-23.8, -23.6)), ("24 H11", (-24.13, -24))],
)
def test_in_a_bore_a_deeper_groove_is_a_greater_diameter(words, wanted):
    """H11 over 18 up to 30 is +0.13 (ISO 286-1). Heights in a bore are negative diameters."""
    assert limits(tied(bar(BORED), led(words, r=12.0))[0]) == [(None, wanted)]


@pytest.mark.parametrize(("words", "wanted"), [("7 +0.1 DEEP", (35.8, 36)), ("2 +0.1/+0.05 DEEP", (35.8, 35.9))])
def test_a_depth_counts_from_the_land_that_it_fits(words, wanted):
    part = replace(part_of([(-10, -12.65, 36)], steps=[(0, 40), (-12.65, 50)]), frame=HERE)
    assert limits(tied(part, led(words))[0]) == [(None, wanted)]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("GROOVE .125 +.002/-.000 WIDE", ((0.125, 0.127), None)),
        (".125 WIDE x .0787 +.002/.000 DEEP", (None, (1.4176, 1.4216))),
        (".123-.127 WIDE", ((0.123, 0.127), None)),
    ],
)
def test_inch_notes(words, wanted):
    part = replace(bar((-0.5, -0.625, 1.4216), diameter=1.579, length=2.5), units="in")
    assert limits(tied(part, led(words, z=-0.55, r=0.711))[0]) == [wanted]


ALL = [
    "3 GROOVES 2.65 H13 EQUALLY SPACED", "GROOVES 2.65 H13 WIDE", "ALL GROOVES 2.65 H13 WIDE", "3x 2.65 H13 WIDE",
    "2.65 H13 WIDE (3 PLACES)", "THREE GROOVES 2.65 H13 x 2",
]  # fmt: skip


@pytest.mark.parametrize("words", ALL)
def test_a_note_of_several_grooves_limits_each(words):
    for part, findings in (tied(bar(*THREE), led(words)), standing(words, bar(*THREE))):
        assert limits(part) == [((2.65, 2.79), None)] * 3
        assert findings == ()


def test_a_count_limits_no_other_grooves():
    for words in ("3 GROOVES 2.65 H13 WIDE", "2.65 H13 WIDE (3 PLACES)"):
        part, _ = standing(words, bar(*THREE, (-45, -50, 30)))
        assert limits(part) == [((2.65, 2.79), None)] * 3 + [(None, None)]


def test_a_count_that_is_that_of_two_rows_is_open():
    part, findings = standing("2 GROOVES 2.65 H13 WIDE", bar(*THREE[:2], (-40, -42.65, 30), (-50, -52.65, 30)))
    assert (limits(part), codes(findings)) == ([(None, None)] * 4, ["tolerance-unread"])


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("GROOVE 3 ±0.1", bar((-10, -13, 34))),  # 3 wide, and 3 deep
        ("2.65 x 2, PITCH 10 ±0.1", bar(*THREE)),
        ("GROOVE 2.65 WIDE ±0.05 ±0.1", bar(THREE[0])),
        ("GROOVE 2.65 +2/-2 WIDE", bar(THREE[0])),
        ("GROOVE 2.65 H13 WIDE", bar((-10, -12.65, 36, {"shape": "other"}))),
    ],
)
def test_a_tolerance_that_can_t_be_tied_to_one_size_is_told(words, part):
    read, findings = tied(part, led(words))
    assert limits(read)[0][1] is None
    assert codes(findings) == ["tolerance-unread"]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("2.65 H13 x3", []),
        ("2.65 H13 x4", ["count-differs"]),
        ("2.65 +0.1 0 x3", []),
        ("2.65 +0.1 0 x4", ["count-differs"]),
        ("2.65 +0.1/0 x2", []),  # wide and deep
        ("Ø36 h11 x3", []),
    ],
)
def test_a_size_with_its_tolerance_may_be_counted_behind(words, wanted):
    assert codes(tied(bar(*THREE), led(words, r=19.0))[1]) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("2.65 H13 (2.79/2.65)", []),
        ("2.65 H13 (2.790/2.650)", []),
        ("2.65 H13 (2.791/2.65)", ["dimension-contradicts"]),
        ("2.65 H13 (2.65/2.51)", ["dimension-contradicts"]),
        ("2.65 H13 +0.14/0", []),
        ("2.65 H13 0/-0.14", ["dimension-contradicts"]),
    ],
)
def test_figures_beside_a_class_are_its_own_within_what_they_are_rounded_by(text, wanted):
    """H13 up to 3 mm is 0.14; figures have three decimals at most, and each may be rounded in its last one."""
    for found in (tied(bar(THREE[0]), along(-10, -12.65, text)), tied(bar(THREE[0]), led(text + " WIDE"))):
        assert codes(found[1]) == wanted


def test_a_sign_that_the_file_lost_leaves_no_limits():
    part, findings = tied(bar(THREE[0]), along(-10, -12.65, "2.65 +0.1/?0.1"))
    assert (limits(part), codes(findings)) == ([(None, None)], ["tolerance-unread"])


@pytest.mark.parametrize(("text", "wanted"), [("2.7\n2.6", (2.6, 2.7)), ("2.65\n+0.1\n0", (2.65, 2.75))])
def test_limits_of_two_lines(text, wanted):
    assert limits(tied(bar(THREE[0]), along(-10, -12.65, text))[0]) == [(wanted, None)]


@pytest.mark.parametrize(("z", "told"), [(32.0, True), (35.0, False)])
def test_a_bare_size_that_no_dimension_has_is_told_where_sizes_of_the_part_stand(z, told):
    """Their middles lie 6 and 7 farther, within a diameter of the part or not; 10 is where the groove begins."""
    for words in ("2.65 H13", "10 ±0.1"):
        assert codes(standing(words, bar(THREE[0]), z, 30.0)[1]) == ["tolerance-unread"] * told


def test_a_note_that_nothing_ties_to_a_groove_is_told():
    part, findings = standing("GROOVE 2.65 H13 WIDE", bar(THREE[0], (-20, -23, 36)))
    assert (limits(part), codes(findings)) == ([(None, None)] * 2, ["tolerance-unread"])


def test_a_bare_size_is_held_where_it_is_led_and_heard_where_it_stands():
    assert codes(tied(bar(THREE[0]), led("2.5 H13"))[1]) == ["note-contradicts"]
    assert codes(tied(bar(THREE[0]), led("2.65 H15"))[1]) == ["class-unknown"]
    assert limits(standing("2.65 H13", bar(THREE[0]), -18.0, 22.0)[0]) == [((2.65, 2.79), None)]
    assert codes(standing("2.5 H13", bar(THREE[0]), -18.0, 22.0)[1]) == ["tolerance-unread"]


AGAINST = {
    "width": ("2.65 H13 WIDE", along(-10, -12.65, "2.65 +0.05/0"), ["dimension-contradicts"]),
    "the same width": ("2.65 +0.05 WIDE", along(-10, -12.65, "2.65 +0.05/0"), []),
    "a width without limits": ("2.65 +0.05 WIDE", along(-10, -12.65, "2.65"), []),
    "floor": ("2.65 x Ø36 h11", across(36, "Ø36 -0.2/-0.3", z=-11), ["dimension-contradicts"]),
    "depth, and the same floor": ("2 +0.1 DEEP", across(36, "Ø36 -0.2", z=-11), []),
    "depth, and another floor": ("2 +0.1/+0.05 DEEP", across(36, "Ø36 +0.2", z=-11), ["dimension-contradicts"]),
    "two depths": ("2 +0.1 DEEP", span((-11, 18), (-11, 20), "2 ±0.1"), ["dimension-contradicts"]),
}


@pytest.mark.parametrize(("words", "dimension", "wanted"), AGAINST.values(), ids=AGAINST)
def test_other_limits_than_those_of_a_dimension_stop(words, dimension, wanted):
    assert codes(tied(bar(THREE[0]), dimension, led(words))[1]) == wanted


@pytest.mark.parametrize(
    ("words", "dimension", "floor"),
    [
        ("2 +0.1 DEEP", across(36, "Ø36 -0.1", z=-11), (35.9, 36.0)),
        ("2 +0.1/-0.1 DEEP", across(36, "Ø36 +0.3/-0.1", z=-11), (35.9, 36.2)),
        ("2.65 x Ø36 +0.1/-0.3", span((-11, 18), (-11, 20), "2 ±0.1"), (35.8, 36.1)),
    ],
)
def test_a_floor_and_a_depth_that_overlap_are_both_kept(words, dimension, floor):
    part, findings = tied(bar(THREE[0]), dimension, led(words))
    assert (limits(part), codes(findings)) == ([(None, floor)], [])


def test_the_stop_names_both_limits():
    (stop,) = [f for f in tied(bar(THREE[0]), along(-10, -12.65, "2.65 +0.05/0"), led("2.65 H13 WIDE"))[1] if f.stops]
    assert "the width of groove 1 as 2.65 to 2.79 where the sheet also gives 2.65 to 2.7" in stop.message


@pytest.mark.parametrize(
    ("one", "two", "stops"),
    [
        ("+0.1/0", "0/-0.1", True),
        ("+0.1/0", "+0.1/0", False),
        ("+0.1/0", "+0.104/0", False),
        ("+0.1/0", "+0.106/0", True),
    ],
)
def test_a_width_with_two_tolerances_stops(one, two, stops):
    found = tied(bar(THREE[0]), *(along(-10, -12.65, f"2.65 {tolerance}") for tolerance in (one, two)))[1]
    assert codes(found) == ["dimension-contradicts"] * stops


def test_like_grooves_share_the_limits_of_a_note_at_one():
    part, findings = tied(bar(*THREE), led("2.65 H13 x 2"))
    assert limits(part) == [((2.65, 2.79), None)] * 3
    assert [f.code for f in findings] == ["like-grooves"]


@pytest.mark.parametrize(("words", "told"), [("3 +0.1/0", True), ("2 +0.1/0", True), ("3", False)])
def test_a_bare_size_without_a_leader_is_no_depth(words, told):
    """The groove is 2 wide and 3 deep: along the axis a size of 3 with limits would contradict it."""
    part, findings = standing(words, bar((-10, -12, 34)), 12.0, 30.0)
    assert "depth" not in part.grooves[0].tolerances
    assert ("tolerance-unread" in codes(findings) or "width" in part.grooves[0].tolerances) is told


def test_a_bare_size_with_a_leader_may_be_a_depth():
    part, _ = tied(bar((-10, -12, 34)), led("3 +0.1/0", z=-11.0))
    assert part.grooves[0].tolerances["depth"] == pytest.approx((0.0, 0.1))


@pytest.mark.parametrize(
    "words", ["FLOORS Ø34 h11", "2. FLOORS Ø34 h11", "Nutgründe Ø34 h11", "FONDS Ø34 h11", "FONDOS Ø34 h11"]
)
def test_a_size_of_several_floors_is_that_of_all_as_large(words):
    part, findings = tied(bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 30)), notes=[words])
    assert not [f for f in findings if f.level in ("stop", "caution")]
    assert [g.tolerances.get("floor_diameter") for g in part.grooves] == [(-0.16, 0.0), (-0.16, 0.0), None]


def test_that_of_one_floor_is_not():
    dimensioned = across(34, "Ø34 0/-0.1", z=-11.5)
    part, _ = tied(bar((-10, -13, 34), (-20, -23, 34)), dimensioned, notes=["FLOOR Ø34 h11"])
    assert part.grooves[0].tolerances["floor_diameter"] == (-0.1, 0.0)
