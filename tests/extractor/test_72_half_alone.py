"""Half a part drawn by itself, with no centre line: a question that says what would be read, and reads that.

The truth is the list of cuts from which each profile is drawn, point by point.
"""

import random
from itertools import pairwise

import pytest
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet
from extractor.viewing.axis import centre_lines
from extractor.viewing.clusters import prepare
from extractor.viewing.half_alone import half_axis, with_axis
from extractor.viewing.roles import assign

ACCEPTED = ReadOptions(accept=frozenset({"axis-not-drawn"}))


def cuts(seed):
    """Diameter, length, and the cuts (from the left end, width, depth) of a part, all on a grid of 0.01."""
    pick = random.Random(seed)
    across, long = pick.choice([18, 24.5, 40, 63]), pick.choice([45, 60.25, 90, 130])
    found, at = [], pick.randint(300, 900) / 100
    while at < long - 12 and len(found) < 5:
        found.append((at, pick.choice([1.3, 2, 3.15]), pick.choice([0.6, 1, 2.2])))
        at = round(at + pick.choice([5.5, 7, 9.25]), 2)
    return across, long, found


def profile(across, long, grooves, end=0.0):
    """Half the outline from the middle of one face to the middle of the other; `end` is where it begins and ends."""
    points = [(0, end), (0, across / 2)]
    for at, wide, deep in grooves:
        top, floor = across / 2, across / 2 - deep
        points += [(at, top), (at, floor), (at + wide, floor), (at + wide, top)]
    return [*points, (long, across / 2), (long, end)]


def moved(points, to=(0, 0), upright=False):
    return [(y + to[0], x + to[1]) if upright else (x + to[0], y + to[1]) for x, y in points]


def sheet(points, *, closed=False, lines=(), pen="CONTINUOUS", extra=()):
    doc = blank()
    space = doc.modelspace()
    space.add_lwpolyline(points, close=closed)
    for a, b in lines:
        space.add_line(a, b, dxfattribs={"linetype": pen})
    for more in extra:
        space.add_lwpolyline(more, close=True)
    return read_back(doc)


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


def line_of(drawn):
    """The line about which the one figure of a sheet could be turned."""
    ink = prepare(assign(drawn), drawn.segments)
    return half_axis(ink, centre_lines(drawn.segments, ink.size))


def read_as_cut(reading, across, long, grooves):
    """True if the part is the one that was drawn, whichever end is its front."""
    part = reading.part
    if part is None or abs(part.length - long) > 1e-6 or abs(part.outer_diameter - across) > 1e-6:
        return False
    found = sorted((-g.z_near, g.width, (g.mouth_diameter - g.floor_diameter) / 2) for g in part.grooves)
    ways = [
        sorted((long - at - wide, wide, deep) for at, wide, deep in grooves),
        sorted(grooves),
    ]
    return any(
        len(found) == len(way)
        and all(abs(a - b) < 1e-6 for one, two in zip(found, way, strict=True) for a, b in zip(one, two, strict=True))
        for way in ways
    )


@pytest.mark.parametrize(
    ("seed", "place", "upright", "side"),
    [
        (0, (0, 0), False, 1), (1, (-200, 0), False, 1), (2, (35.5, 120), False, 1), (3, (0, 0), True, 1),
        (4, (35.5, 120), True, -1), (5, (-200, 0), False, -1), (0, (0, 0), False, -1), (1, (-200, 0), True, -1),
    ],
)  # fmt: skip
def test_an_open_half_is_asked_about_and_read_as_drawn_once_accepted(seed, place, upright, side):
    true = cuts(seed)
    drawn = sheet(moved([(x, side * y) for x, y in profile(*true)], place, upright))
    asked = read_sheet(drawn)
    assert stops(asked) == ["axis-not-drawn"]
    told = read_sheet(drawn, ACCEPTED)
    assert stops(told) == []
    assert read_as_cut(told, *true)
    assert f"{true[0]:g} across and {true[1]:g} long" in asked.findings[0].message


@pytest.mark.parametrize(("seed", "how"), [*enumerate(["closed", "line just along it", "line out of both ends"] * 2)])
def test_a_half_closed_along_the_zero_of_the_sheet_is_asked_about_and_read(seed, how):
    true = cuts(seed)
    lines = {
        "closed": [],
        "line just along it": [((0, 0), (true[1], 0))],
        "line out of both ends": [((-5, 0), (true[1] + 5, 0))],
    }
    drawn = sheet(profile(*true), closed=how == "closed", lines=lines[how])
    assert stops(read_sheet(drawn)) == ["axis-not-drawn"]
    told = read_sheet(drawn, ACCEPTED)
    assert stops(told) == []
    assert read_as_cut(told, *true)


@pytest.mark.parametrize("seed", range(2))
def test_half_a_part_drawn_as_boxes_end_to_end_is_asked_about_and_read(seed):
    """Each land and each floor is a rectangle of its own, whose ends run right down to the axis."""
    across, long, grooves = true = cuts(seed)
    ends = sorted({0, long, *(x for at, wide, _ in grooves for x in (at, at + wide))})
    floors = {at: deep for at, _, deep in grooves}
    boxes = [
        ((a, 0), (b, 0), (b, across / 2 - floors.get(a, 0)), (a, across / 2 - floors.get(a, 0)))
        for a, b in pairwise(ends)
    ]
    drawn = sheet(list(boxes[0]), closed=True, extra=boxes[1:])
    assert stops(read_sheet(drawn)) == ["axis-not-drawn"]
    assert read_as_cut(read_sheet(drawn, ACCEPTED), *true)


@pytest.mark.parametrize("boxed", [False, True])
def test_one_groove_in_the_middle_of_a_half_leaves_it_half_a_part(boxed):
    """It is its own mirror image about the line across, as a disc with a hollow in its face would be."""
    points = profile(40, 60, [(28, 4, 3)])
    inner = [[(28, 0), (28, 17), (32, 17), (32, 0)]] if boxed else []
    drawn = sheet(points, closed=True, extra=inner)
    assert stops(read_sheet(drawn)) == ["axis-not-drawn"]
    assert read_as_cut(read_sheet(drawn, ACCEPTED), 40, 60, [(28, 4, 3)])


@pytest.mark.parametrize("boxed", [False, True])
def test_such_a_half_clear_of_zero_is_no_disc_for_certain_either(boxed):
    points = moved(profile(40, 60, [(28, 4, 3)]), (50, 30))
    inner = [moved([(28, 0), (28, 17), (32, 17), (32, 0)], (50, 30))] if boxed else []
    drawn = sheet(points, closed=True, extra=inner)
    asked = read_sheet(drawn)
    assert stops(asked) == ["axis-not-drawn"]
    assert "from X50 Y30 to X110 Y30, 40 across and 60 long" in asked.findings[0].message
    assert read_as_cut(read_sheet(drawn, ACCEPTED), 40, 60, [(28, 4, 3)])


@pytest.mark.parametrize("place", [(0, 0), (50, 30)])
@pytest.mark.parametrize("grooves", [[(10, 3, 2)], []])
def test_a_whole_view_with_one_straight_face_is_no_half(grooves, place):
    """Chamfered at its other end, so that face is its only straight side."""
    upper = [(0, 20), *profile(40, 60, grooves)[2:-2], (59, 20), (60, 19)]
    drawn = sheet(moved([*upper, *((x, -y) for x, y in reversed(upper))], place), closed=True)
    reading = read_sheet(drawn)
    assert stops(reading) == []
    assert (reading.part.length, reading.part.outer_diameter) == (60.0, 40.0)


def test_the_line_that_is_only_supposed_counts_for_no_ink():
    points = profile(40, 60, [(10, 3, 2)])
    ink = read_sheet(sheet(points), ACCEPTED).ink
    drawn = sum(abs(x1 - x0) + abs(y1 - y0) for (x0, y0), (x1, y1) in pairwise(points))
    assert ink.outline + ink.unexplained + sum(ink.explained.values()) == pytest.approx(drawn)


def test_the_question_names_both_ends_of_the_line():
    drawn = sheet(moved(profile(40, 60, [(10, 3, 2)]), (12, 7)))
    (stop,) = [f for f in read_sheet(drawn).findings if f.stops]
    assert "from X12 Y7 to X72 Y7" in stop.message
    assert stop.at == (12, 7)


@pytest.mark.parametrize(
    ("seed", "upright", "how"),
    [
        (0, False, "closed"), (1, False, "line just along it"), (2, False, "line out of both ends"),
        (3, True, "closed"), (0, True, "line just along it"), (1, True, "line out of both ends"),
    ],
)  # fmt: skip
def test_a_half_closed_by_a_plain_line_anywhere_is_asked_about_and_read(seed, upright, how):
    """It may be a section clear of its axis, and the question says so."""
    true, to = cuts(seed), (23.5, 71)
    out = {"closed": [], "line just along it": [0], "line out of both ends": [5]}[how]
    lines = [moved([(-by, 0), (true[1] + by, 0)], to, upright) for by in out]
    drawn = sheet(moved(profile(*true), to, upright), closed=how == "closed", lines=lines)
    asked = read_sheet(drawn)
    assert stops(asked) == ["axis-not-drawn"]
    assert "it could as well be flat, or a section clear of its axis" in asked.findings[0].message
    assert read_as_cut(read_sheet(drawn, ACCEPTED), *true)


STEPPED = [(0, 0), (0, 15), (20, 15), (20, 20), (40, 20), (40, 17), (43, 17), (43, 20), (60, 20), (60, 0)]
"""Its longer side and one whole face are straight."""


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize(("off", "asked"), [(0.1, True), (0.2, False), (-0.1, True), (-0.2, False)])
def test_of_two_straight_sides_it_is_the_one_on_zero(off, asked, upright):
    """Two thousandths of its size: 63.2 from corner to corner."""
    points = moved(STEPPED, (off, 7) if upright else (7, off), upright)
    line = ((off, 7.0), (off, 67.0)) if upright else ((7.0, off), (67.0, off))
    assert line_of(sheet(points, closed=True)) == (line if asked else None)


def test_of_two_straight_sides_that_both_lie_on_zero_or_clear_of_it_none_is_asked_about():
    assert line_of(sheet(moved(STEPPED, (-60, 0)), closed=True)) is None
    assert stops(read_sheet(sheet(moved(STEPPED, (7, 9)), closed=True), ACCEPTED)) == ["no-turned-part"]


@pytest.mark.parametrize("upright", [False, True])
def test_a_line_that_runs_out_of_a_half_may_lie_as_far_off_zero(upright):
    points = profile(40, 60, [(10, 3, 2)])
    to = (0.1, 0) if upright else (0, 0.1)
    line = moved([(-5, 0), (65, 0)], to, upright)
    found = line_of(sheet(moved(points, to, upright), lines=[line]))
    assert found == (((0.1, -5.0), (0.1, 65.0)) if upright else ((-5.0, 0.1), (65.0, 0.1)))


def test_a_side_that_ends_short_of_a_face_is_none_along_all_of_the_figure():
    points = profile(40, 60, [(10, 3, 2)])
    both = [(0.9, 0), (0, 0.9), *points[1:-1], (60, 0.9), (59.1, 0)]
    assert line_of(sheet(both, closed=True)) is None


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize(("off", "asked"), [(0.1, True), (0.2, False), (-0.2, False)])
def test_what_runs_out_of_a_closed_half_runs_along_its_line(off, asked, upright):
    """Within two thousandths of its size, 68.2 with the line."""
    points = moved(profile(40, 60, [(10, 3, 2)]), upright=upright)
    drawn = sheet(points, closed=True, lines=[moved([(60, 0), (65, off)], upright=upright)])
    assert (line_of(drawn) is not None) is asked


@pytest.mark.parametrize(("bulge", "asked"), [(0.0, True), (0.1, False), (-0.1, False)])
def test_a_side_that_is_an_arc_is_none_about_which_half_a_part_could_be_turned(bulge, asked):
    """Hollow or bulging: of a hollow one both ends lie on the outermost line of the figure."""
    doc = blank()
    points = [(x, y, bulge if (x, y) == (60, 0) else 0.0) for x, y in profile(40, 60, [(10, 3, 2)])]
    doc.modelspace().add_lwpolyline(points, format="xyb", close=True)
    assert (line_of(read_back(doc)) is not None) is asked


def test_a_figure_with_a_straight_side_either_way_could_be_turned_about_either_and_is_not_asked_about():
    assert line_of(sheet([(0, 0), (60, 0), (55, 20), (0, 40)], closed=True)) is None
    assert line_of(sheet([(0, 0), (60, 0), (55, 20), (1, 40)], closed=True)) == ((0.0, 0.0), (60.0, 0.0))


def test_what_is_set_aside_is_no_other_figure():
    """A revision cloud, as large as the half: rows of arcs that meet in cusps."""
    ring = [(200 + 5 * k, 0) for k in range(12)] + [(260, 5 * k) for k in range(8)]
    ring += [(260 - 5 * k, 40) for k in range(12)] + [(200, 40 - 5 * k) for k in range(8)]
    doc = blank()
    doc.modelspace().add_lwpolyline(profile(40, 60, [(10, 3, 2)]))
    doc.modelspace().add_lwpolyline([(x, y, 0.5) for x, y in ring], format="xyb", close=True)
    assert stops(read_sheet(read_back(doc))) == ["axis-not-drawn"]


def test_the_centre_line_runs_out_of_the_half_by_a_twentieth_at_either_end():
    drawn = sheet([(0, 0), (10, 20)])
    lined = with_axis(drawn, ((0, 0), (10, 20)))
    assert lined.segments.ends[-1].tolist() == [-0.5, -1.0, 10.5, 21.0]
    assert len(lined.segments.ends) == len(drawn.segments.ends) + 1


@pytest.mark.parametrize(("off", "asked"), [(0.1, True), (0.2, False)])
def test_how_far_apart_in_height_the_ends_of_an_open_half_may_lie(off, asked):
    points = profile(40, 60, [(10, 3, 2)])
    drawn = sheet([*points[:-1], (60, off)])
    assert ("axis-not-drawn" in stops(read_sheet(drawn))) is asked
    assert (line_of(drawn) is not None) is asked


@pytest.mark.parametrize(("side", "asked"), [(25, True), (26, False)])
def test_another_figure_as_large_as_two_fifths_leaves_it_open_what_the_sheet_shows(side, asked):
    """The half is 63.2 from corner to corner, two fifths of that are 25.3."""
    leg = side / 2**0.5
    other = [(100, 50), (100 + leg, 50), (100 + leg, 50 + leg), (100, 50 + leg)]
    drawn = sheet(profile(40, 60, [(10, 3, 2)]), extra=[other])
    assert ("axis-not-drawn" in stops(read_sheet(drawn))) is asked


ODD = {
    "ends on the land, not on an axis": profile(40, 60, [(10, 3, 2)])[1:-1],
    "one end higher than the other": [*profile(40, 60, [(10, 3, 2)])[:-1], (60, 4)],
    "runs on below the line": [(0, 0), (0, 20), (30, 20), (30, -6), (40, -6), (40, 20), (60, 20), (60, 0)],
    "meets the line on its way": [(0, 0), (0, 20), (30, 20), (30, 0), (40, 20), (60, 20), (60, 0)],
    "an end within the figure": [(5, 0), (0, 20), (60, 20), (60, 0)],
}


@pytest.mark.parametrize("points", ODD.values(), ids=ODD)
def test_what_can_be_no_half_is_refused_as_before(points):
    assert read_sheet(sheet(points), ACCEPTED).part is None


def test_a_plain_rectangle_is_nobodys_half():
    assert read_sheet(sheet([(0, 0), (60, 0), (60, 20), (0, 20)], closed=True), ACCEPTED).part is None


def test_where_a_centre_line_is_drawn_no_other_axis_is_asked_about():
    """Both halves, open at one end, about a drawn centre line: closed about the open end it would be another part."""
    points = profile(40, 60, [(10, 3, 2)])[1:-1]
    both = [*[(x, -y) for x, y in reversed(points)], *points]
    doc = blank()
    doc.linetypes.add("CENTER", pattern=[2.0, 1.25, -0.25, 0.25, -0.25])
    doc.modelspace().add_lwpolyline(both)
    doc.modelspace().add_line((-5, 0), (65, 0), dxfattribs={"linetype": "CENTER"})
    reading = read_sheet(read_back(doc), ACCEPTED)
    assert reading.part is None
    assert "axis-not-drawn" not in [f.code for f in reading.findings]


@pytest.mark.parametrize(("frames", "seed"), [(1, 0), (2, 1), (2, 2)])
def test_the_frame_of_the_sheet_round_a_half_is_passed_over(frames, seed):
    true = cuts(seed)
    around = [[(-k, -k - 50), (300 + k, -k - 50), (300 + k, 200 + k), (-k, 200 + k)] for k in (100, 110)][:frames]
    drawn = sheet(moved(profile(*true), (12.5, 30)), extra=around)
    assert stops(read_sheet(drawn)) == ["axis-not-drawn"]
    assert read_as_cut(read_sheet(drawn, ACCEPTED), *true)
