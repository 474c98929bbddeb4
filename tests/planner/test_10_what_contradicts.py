"""What a shop file's values say together, just at each rule's edge: in parts of 1/16, so that edges are exact."""

import pytest

from planner.settings.contradictions import clashes, contradictions

STEP = 0.0625


def told(**values):
    return list(contradictions(values))


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"stick_out": 40.0, "jaw_gap": 40.0}, "stick_out 40 is no more than jaw_gap 40"),
        ({"stick_out": 40.0 + STEP, "jaw_gap": 40.0}, ""),
        ({"stick_out": None, "jaw_gap": 40.0}, ""),
        ({"number_first": 9, "number_last": 8}, "number_first 9 is greater than number_last 8"),
        ({"number_first": 9, "number_last": 9}, ""),
        ({"face_min": 20.0, "face_max": 20.0}, "face_max must be more than face_min"),
        ({"face_min": 20.0, "face_max": 20.0 + STEP}, ""),
        ({"face_min": 0.5, "face_max": 0.5 + STEP}, ""),
        ({"face_min": 20.0, "face_max": 0.0}, ""),
        ({"edge": "vee", "angle": 0.0}, "needs its angle"),
        ({"edge": "vee", "angle": 60.0}, ""),
        ({"edge": "flat", "angle": 60.0}, 'edge is "flat"'),
        ({"edge": "flat", "angle": 0.0}, ""),
    ],
)
def test_two_values(values, words):
    found = told(**values)
    assert len(found) == bool(words)
    assert words in "".join(found)
    assert told(**dict([*values.items()][:1])) == []


@pytest.mark.parametrize(
    ("width", "edge", "radius", "words"),
    [
        (4.0, "round", 2.0, ""),
        (4.0, "round", 1.9, "not that of a round edge"),
        (4.0, "round", 2.1, "not that of a round edge"),
        (4.0, "round", None, ""),
        (4.0, "round", 0.0, ""),
        (4.0, "flat", 2.0, ""),
        (4.0, "flat", 2.0 + 1e-12, ""),
        (4.0, "flat", 2.01, "more than half of the width 4"),
        (4.0, "flat", 0.4, ""),
        (4.0, "flat", None, ""),
    ],
)
def test_a_corner_radius_fits_its_edge(width, edge, radius, words):
    found = told(width=width, edge=edge, corner_radius=radius)
    assert (words in "".join(found), len(found)) == (True, bool(words))


@pytest.mark.parametrize(
    ("where", "bore", "reach", "slip"),
    [
        ("inside", 20.0, 80.0, False),
        ("inside", 20.0, 80.0 + STEP, True),
        ("inside", 0.5, 2.0 + STEP, True),
        ("inside", 0.0, 80.0, False),
        ("inside", 20.0, None, False),
        ("outside", 20.0, 90.0, False),
    ],
)
def test_a_bar_goes_into_its_bore(where, bore, reach, slip):
    """Four times the bore is a slip."""
    found = told(where=where, min_bore=bore, max_depth=reach)
    assert ["more than 4 times min_bore" in one for one in found] == [True] * slip


@pytest.mark.parametrize(
    ("side", "finish", "words"),
    [
        (4.0, 0.0, ""),
        (4.1, 0.0, "side_depth 4.1 is more than the width 4"),
        (0.0, 3.0, ""),
        (0.0, 3.0 + STEP, "bears sideways, 3"),
        (0.5, 0.5, ""),
        (0.5, 0.5 + STEP, "finish 0.5625 is more than the insert bears sideways, 0.5"),
    ],
)
def test_an_insert_bears_so_much_sideways(side, finish, words):
    """Where nothing is said, three quarters of its width of 4."""
    found = told(width=4.0, side_depth=side, finish=finish)
    assert (words in "".join(found), len(found)) == (True, bool(words))


@pytest.mark.parametrize(
    ("peck", "retract", "words"),
    [
        (0.015625, None, ""),
        (0.015, None, "give 0 for none, or at least 0.015625"),
        (0.0, None, ""),
        (0.0, 5.0, ""),
        (0.5, 5.0, "retract 5 is at least ten times the peck 0.5"),
        (0.5, 5.0 - STEP, ""),
        (0.5, None, ""),
    ],
)
def test_pecks_leave_a_chip_and_are_more_than_a_tenth_of_the_retract(peck, retract, words):
    """A two hundredth of 3.125 is exactly 1/64."""
    found = told(width=3.125, peck=peck, retract=retract)
    assert (words in "".join(found), len(found)) == (True, bool(words))


def tool(station, offset, width=3.0):
    return {"station": station, "offset": offset, "width": width}


@pytest.mark.parametrize(
    ("tools", "words"),
    [
        ([tool(3, 3), tool(5, 5)], []),
        ([tool(3, 3), tool(3, 3)], ["T0303 is given twice"]),
        ([tool(3, 3), tool(3, 0)], ["T0303 is given twice"]),
        ([tool(3, 13), tool(3, 3)], []),
        ([tool(3, 13), tool(3, 3, 4.0)], ["station 3 holds inserts of two widths"]),
        ([tool(3, 13), tool(5, 13, 4.0)], []),
        ([tool(3, 3), tool(5, 5), tool(3, 3), tool(3, 3)], ["T0303 is given twice"] * 3),
        ([tool(3, 3), {"station": 3, "offset": 3}], []),
    ],
)
def test_a_place_of_the_turret_holds_one_insert(tools, words):
    assert list(clashes(tools)) == words


@pytest.mark.parametrize(
    ("values", "told_of"),
    [
        ({"width": 1.0, "side_depth": 1.000000001, "finish": 0.0}, False),
        ({"width": 1.0, "side_depth": 1.000000002, "finish": 0.0}, True),
        ({"width": 2.0, "edge": "flat", "corner_radius": 1.000000001}, False),
        ({"width": 2.0, "edge": "flat", "corner_radius": 1.000000002}, True),
        # 1e9 / 2**28 wide a billionth is 1 / 2**28 exactly
        ({"width": 1e9 / 2**28, "edge": "round", "corner_radius": (1e9 + 1) / 2**29}, False),
        ({"width": 1e9 / 2**28, "edge": "round", "corner_radius": (1e9 + 2) / 2**29}, True),
    ],
)
def test_what_is_off_by_a_billionth_is_as_it_should_be(values, told_of):
    """Sums of floating-point numbers are off by far less."""
    assert bool(told(**values)) is told_of


@pytest.mark.parametrize(("wide", "widths"), [(2e-9, 1), (3e-9, 2)])
def test_widths_a_billionth_apart_are_one(wide, widths):
    assert len([*clashes([tool(3, 13, 1e-9), tool(3, 3, wide)])]) == widths - 1


@pytest.mark.parametrize(("bore", "told_of"), [(0.2, True), (0.25, True), (1.25, False), (0.0, False)])
def test_a_bore_may_be_as_small_as_it_likes(bore, told_of):
    """A bar of 5 goes into four times a bore of 1.25."""
    assert bool(told(where="inside", min_bore=bore, max_depth=5.0)) is told_of
