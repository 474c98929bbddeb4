"""A view with one half that closes and one that lacks lines: the whole one is read, unless the other contradicts it.

The truth is the list of cuts that the upper half is drawn by.
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet
from extractor.doubts.left_over import LinesLeft
from extractor.placing.placing import Groundwork, WayToRead
from extractor.viewing.roles import assign

LONG, HIGH = 60.0, 20.0
CUTS = ((12.0, 3.0, 2.0), (22.0, 3.0, 2.0), (40.0, 2.0, 1.0))
"""From the left end, width and depth of each groove."""
FLOORS = [(-18.0, 2.0, 38.0), (-35.0, 3.0, 36.0), (-45.0, 3.0, 36.0)]
"""Near wall, width and floor of each, as read from the right end."""
ACCEPTED = ReadOptions(units="mm", accept=frozenset({"outline-unclear"}))


def profile(cuts=CUTS, bore=0.0, high=HIGH):
    points = [(0.0, bore), (0.0, high)]
    for at, wide, deep in cuts:
        points += [(at, high), (at, high - deep), (at + wide, high - deep), (at + wide, high)]
    return [*points, (LONG, high), (LONG, bore)]


def drawn(upper, lower, *, upright=False, flipped=False, edges=False, bore=0.0):
    """A sheet with the lines of both halves, each as pairs of points above the axis, and the centre line."""
    doc = blank()
    space = doc.modelspace()
    if "CENTER" not in doc.linetypes:
        doc.linetypes.add("CENTER", pattern=[2.0, 1.25, -0.25, 0.25, -0.25])

    def line(a, b, **attributes):
        space.add_line(*((p[1], p[0]) if upright else p for p in (a, b)), dxfattribs=attributes)

    for side, lines in ((-1 if flipped else 1, upper), (1 if flipped else -1, lower)):
        for a, b in lines:
            line(*((x, side * y) for x, y in (a, b)))
    for x, floor in {(x, HIGH - deep) for at, wide, deep in CUTS for x in (at, at + wide)} if edges else ():
        line((x, -floor), (x, floor))
    for x in (0.0, LONG) if bore else ():
        line((x, -bore), (x, bore))
    line((-5.0, 0.0), (LONG + 5.0, 0.0), linetype="CENTER")
    return read_back(doc)


def lacking(*numbers, cuts=CUTS):
    """The lines of a half but for some: 0 the left face, then land, wall, floor, wall and so on."""
    return [pair for k, pair in enumerate(pairwise(profile(cuts))) if k not in numbers]


def grooves(reading):
    found = reading.part.grooves if reading.part else ()
    return [(round(g.z_near, 4), round(g.width, 4), round(g.floor_diameter, 4)) for g in found]


def codes(reading, level):
    return [f.code for f in reading.findings if f.level == level]


WHOLE = list(pairwise(profile()))
LACKS = {"a floor": (3,), "a wall": (2,), "both walls": (2, 4), "a groove": (2, 3, 4), "a land": (5,), "an end": (0,)}


@pytest.mark.parametrize(
    ("lack", "flipped", "edges", "upright"),
    [
        *((lack, False, False, False) for lack in LACKS), ("an end", True, True, False), ("an end", True, True, True),
        ("an end", True, False, False), ("a groove", True, True, False), ("a land", True, False, True),
        ("a wall", False, False, True),
    ],
)  # fmt: skip
def test_a_half_that_only_lacks_lines_leaves_the_other_to_be_read(lack, flipped, edges, upright):
    """With edges seen behind, the open half may close short of an end: it is not the one that is read."""
    sheet = drawn(WHOLE, lacking(*LACKS[lack]), upright=upright, flipped=flipped, edges=edges)
    reading = read_sheet(sheet, ReadOptions(front="top" if upright else "right"))
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, codes(reading, "caution"), grooves(reading)) == ("outline-unclear", [], FLOORS)
    assert "nothing in this one contradicts: close it, or accept it" in stop.message
    accepted = ReadOptions(front="top" if upright else "right", accept=("outline-unclear",))
    assert codes(read_sheet(sheet, accepted), "stop") == []


def test_a_stroke_clear_of_the_part_is_no_line_of_its_open_half():
    stray = ((20.0, 26.0), (30.0, 26.0))
    (stop,) = [f for f in read_sheet(drawn(WHOLE, [*lacking(3), stray])).findings if f.stops]
    assert "nothing in this one contradicts" in stop.message


def test_two_whole_halves_need_no_such_word():
    reading = read_sheet(drawn(WHOLE, WHOLE))
    assert (codes(reading, "stop"), codes(reading, "caution"), grooves(reading)) == ([], [], FLOORS)


@pytest.mark.parametrize(("halves", "told"), [("both", False), ("up", True)])
def test_only_where_one_half_was_read_is_the_other_an_open_one(halves, told):
    sheet = drawn(WHOLE, WHOLE)
    roles = assign(sheet)
    laid = Groundwork(sheet, roles).place(WayToRead())
    view = replace(laid.folded.view, halves=halves)
    y = -20.0 * laid.found.side
    left = LinesLeft.of([[(25.0, y), (35.0, y)]], replace(laid.folded, view=view), laid.found)
    assert left.open_half() == (((30.0, y), 0) if told else None)


LOOSE = {
    "a collar": [((20.0, 20.0), (20.0, 25.0)), ((20.0, 25.0), (30.0, 25.0))],
    "a spigot": [((60.0, 5.0), (70.0, 5.0)), ((70.0, 5.0), (70.0, 8.0))],
    "a land": [((60.0, 20.0), (66.0, 20.0))],
}


@pytest.mark.parametrize("edges", [False, True])
@pytest.mark.parametrize("lines", LOOSE.values(), ids=LOOSE)
def test_what_hangs_open_in_both_halves_is_not_passed_over_for_one_of_them(lines, edges):
    both = [*WHOLE, *lines]
    assert codes(read_sheet(drawn(both, both, edges=edges)), "stop") == ["outline-open"]


@pytest.mark.parametrize("edges", [False, True])
def test_where_both_halves_lack_lines_neither_is_read(edges):
    assert codes(read_sheet(drawn(lacking(3), lacking(7), edges=edges)), "stop") != []


LIES = {
    "a groove deeper": ((12.0, 3.0, 2.0), (22.0, 3.0, 3.0), (40.0, 2.0, 1.0)),
    "a groove shallower": ((12.0, 3.0, 2.0), (22.0, 3.0, 1.5), (40.0, 2.0, 1.0)),
    "a groove wider": ((12.0, 3.0, 2.0), (22.0, 4.0, 2.0), (40.0, 2.0, 1.0)),
    "a groove moved": ((12.0, 3.0, 2.0), (23.0, 3.0, 2.0), (40.0, 2.0, 1.0)),
    "one more": (*CUTS, (50.0, 3.0, 2.0)),
    "one less": ((12.0, 3.0, 2.0), (40.0, 2.0, 1.0)),
}


@pytest.mark.parametrize("edges", [False, True])
@pytest.mark.parametrize(("cuts", "number"), [*zip(LIES.values(), (0, 1, 3) * 2, strict=True)], ids=LIES)
def test_an_open_half_that_shows_something_else_stops(cuts, number, edges):
    assert codes(read_sheet(drawn(WHOLE, lacking(number, cuts=cuts), edges=edges)), "stop") != []


@pytest.mark.parametrize(("low", "odd"), [(0.001, False), (0.1, True)])
def test_a_lower_land_in_the_open_half_contradicts_beyond_the_pens_error(low, odd):
    lower = [(a, b) if k != 13 else ((a[0], a[1] - low), (b[0], b[1] - low)) for k, (a, b) in enumerate(WHOLE)]
    (stop,) = [
        f for f in read_sheet(drawn(WHOLE, [pair for k, pair in enumerate(lower) if k != 3])).findings if f.stops
    ]
    assert ("nothing in this one contradicts" not in stop.message) is odd


def holed(at, wide, *, top, bore=10.0):
    """The lines of a bored half whose outside and bore a hole breaks, and whose edges run in."""
    lines = []
    for a, b in pairwise([*profile(bore=bore), (0.0, bore)]):
        low, high = sorted((a[0], b[0]))
        if a[1] == b[1] and a[1] in (top, bore) and low <= at and at + wide <= high:
            ends = (a, b) if a[0] < b[0] else (b, a)
            lines += [(ends[0], (at, a[1])), ((at + wide, a[1]), ends[1])]
        else:
            lines.append((a, b))
    return [*lines, *(((x, top), (x, bore)) for x in (at, at + wide))]


@pytest.mark.parametrize("flipped", [False, True])
@pytest.mark.parametrize(("at", "wide", "top"), [(28.0, 4.0, 20.0), (12.8, 1.4, 18.0), (5.0, 2.0, 20.0)])
def test_a_hole_that_opens_one_half_is_asked_about_and_the_other_half_read(at, wide, top, flipped):
    """In a land, in the floor of a groove and in the land at an end; both of its edges are told."""
    whole = list(pairwise([*profile(bore=10.0), (0.0, 10.0)]))
    sheet = drawn(holed(at, wide, top=top), whole, bore=10.0, flipped=flipped)
    asked = read_sheet(sheet)
    assert codes(asked, "stop") == ["outline-unclear"]
    words = next(f.message for f in asked.findings if f.stops)
    assert f"at X{at:g} Y{'-' * flipped}{(top + 10) / 2:g} does not close" in words
    assert "lines in it that the other has not: 2;" in words
    answered = read_sheet(sheet, ACCEPTED)
    assert (codes(answered, "stop"), grooves(answered)) == ([], FLOORS)
