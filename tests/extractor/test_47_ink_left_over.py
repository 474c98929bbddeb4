"""Lines in the metal that the part does not explain: an older outline under the new, one part in another, variants."""

import random
from itertools import pairwise

import pytest
from support.draw import (
    Cut,
    Ink,
    Turned,
    box,
    full_outline,
    half_profile,
    mixed,
    rotated,
    section,
    sheet_of,
    shifted,
    side_view,
)
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

MM = ReadOptions(units="mm")
NEW = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))


def read(ink, options=MM, **more):
    return read_sheet(sheet_of(ink, **more), options)


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


OLDER = {
    "a groove moved by less than its width": Turned(NEW.steps, (Cut(-12.0, 3.0, 34.0), NEW.cuts[1])),
    "a groove moved by more": Turned(NEW.steps, (Cut(-20.0, 3.0, 34.0), NEW.cuts[1])),
    "a deeper groove": Turned(NEW.steps, (Cut(-10.0, 3.0, 32.0), NEW.cuts[1])),
    "a shallower groove": Turned(NEW.steps, (Cut(-10.0, 3.0, 36.0), NEW.cuts[1])),
    "a wider groove": Turned(NEW.steps, (Cut(-10.0, 4.0, 34.0), NEW.cuts[1])),
    "a longer part": Turned(((64.0, 40.0),), NEW.cuts),
    "a shorter part": Turned(((56.0, 40.0),), NEW.cuts),
    "a thinner part": Turned(((60.0, 38.0),), (Cut(-10.0, 3.0, 32.0), Cut(-40.0, 3.0, 32.0))),
}


@each_in_turn(older=OLDER.values(), draw=[side_view, full_outline])
def test_an_older_outline_under_the_new_one_stops(older, draw):
    reading = read(mixed(draw(NEW), draw(older, None)))
    assert stops(reading) == ["lines-unexplained"]
    (stop,) = [f for f in reading.findings if f.stops]
    assert f"X{stop.at[0]:.4g} Y{stop.at[1]:.4g}" in stop.message
    answered = read(mixed(draw(NEW), draw(older, None)), ReadOptions(units="mm", accept=frozenset({stop.code})))
    assert stops(answered) == [stop.code], "the grooves of two outlines are nobody's part"


TWICE = {
    "an end with its chamfer": ((30.0, 34.0), 1.0, (-10.0, 3.0, 34.0)),
    "a chamfer": ((30.0, 30.0), 2.0, (-10.0, 3.0, 34.0)),
    "a smaller chamfer": ((30.0, 30.0), 0.5, (-10.0, 3.0, 34.0)),
    "a sharp end": ((30.0, 30.0), 0.0, (-10.0, 3.0, 34.0)),
    "broken edges of a mouth": ((30.0, 30.0), 1.0, (-10.0, 3.0, 34.0, 0.0, 0.5)),
    "sharp corners of a floor": ((30.0, 30.0), 1.0, (-10.0, 3.0, 34.0, 0.5)),
}


@each_in_turn(("steps", "chamfer", "cut"), TWICE.values(), draw=[side_view, full_outline, half_profile])
def test_an_older_edge_under_the_new_one_stops_though_no_size_speaks_of_it(steps, chamfer, cut, draw):
    new, old = (
        Turned(((long[0], 40.0), (long[1], 50.0)), (Cut(*groove),), chamfer=edge)
        for long, edge, groove in (((30.0, 30.0), 1.0, (-10.0, 3.0, 34.0)), (steps, chamfer, cut))
    )
    assert stops(read(draw(new))) == stops(read(draw(old))) == []
    ink, other = draw(new), draw(old, None)
    if steps[1] == 34.0:  # the end that is longer has the chamfer, the one under it too
        ink, other = (one.map(lambda x, y: (-x, y)) for one in (ink, other))
    assert stops(read(mixed(ink, other))) == ["lines-unexplained"]


@pytest.mark.parametrize("draw", [side_view, full_outline])
def test_so_does_an_older_land_with_its_chamfer(draw):
    """Without the chamfer it is a thread's root."""
    old = Turned(((60.0, 38.0),), (Cut(-40.0, 3.0, 34.0),), chamfer=1.0)
    new = Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0),), chamfer=1.0)
    assert stops(read(mixed(draw(new), draw(old, None)))) == ["lines-unexplained"]


def slanting(*lines, root=None):
    """A plain shaft with lines in its metal on both halves, and a thread's root from its front to a place."""
    ink = full_outline(NEW)
    rows = [*lines, *([] if root is None else [(0.0, 19.0, root, 19.0)])]
    ink.solid += [(a, s * b, c, s * d, 0.0) for a, b, c, d in rows for s in (1, -1)]
    return stops(read(ink))


def test_a_run_out_of_a_thread_slants_up_to_its_land():
    assert slanting((-6.0, 19.0, -7.7, 20.0), root=-6.0) == []
    assert slanting((-6.0, 19.0, -4.3, 20.0), root=-6.0) == []
    assert slanting((-6.1, 19.0, -7.8, 20.0), (-6.1, 19.0, -8.0, 19.0), (-8.0, 19.0, -8.0, 20.0)) != []


def test_a_line_across_that_goes_on_beyond_the_outline_is_a_stray():
    assert slanting((-2.0, 18.0, -4.2, 20.2)) == []


DEEPER = [(17.0 - 0.5, -10.0, True), (10.0, -10.0, True), (0.0144 + 0.001, -10.0, True), (0.0143, -10.0, False)]
DEEPER += [(16.5, -10.014, True), (16.5, -10.0155, False)]


@pytest.mark.parametrize(("radius", "begin", "stop"), DEEPER)
@pytest.mark.parametrize("sides", [(1,), (-1,), (1, -1)])
def test_a_floor_drawn_again_in_the_metal_stops_in_one_half_as_in_both(radius, begin, stop, sides):
    """Near is 0.0144, ten times a share of 2e-5 of the view; what lies so near the axis is the axis."""
    ink = full_outline(NEW)
    ink.solid += [(begin, s * radius, -13.0, s * radius, 0.0) for s in sides]
    assert stops(read(ink)) == ["halves-disagree"] * stop


@pytest.mark.parametrize("seed", [4, 9, 15, 92])
def test_a_floor_with_ends_off_by_the_last_digits_is_not_drawn_again(seed):
    pick = random.Random(seed)
    ink = section(Turned(((8.0, 16.0),), (Cut(-3.0, 1.0, 15.0),), bore=6.0))
    ink.solid = [(*(at + pick.uniform(-1e-4, 1e-4) for at in line[:4]), line[4]) for line in ink.solid]
    assert stops(read(ink)) == []


def test_a_floor_drawn_again_is_told_with_both_depths_at_true_size():
    ink = full_outline(NEW)
    ink.solid.append((-10.0, 16.5, -13.0, 16.5, 0.0))
    larger = ink.map(lambda x, y: (2 * x, 2 * y))
    (stop,) = [f for f in read(larger, ReadOptions(units="mm", scale=2.0)).findings if f.stops]
    assert "3.5 deep, where its floor is 3 deep" in stop.message
    assert stop.at == pytest.approx((-23.0, 33.0))


@pytest.mark.parametrize("radius", [11.0, 9.5])
def test_so_is_one_of_a_groove_in_a_bore(radius):
    ink = bored()
    ink.solid.append((-10.0, radius, -13.0, radius, 0.0))
    (stop,) = [f for f in read(ink).findings if f.stops]
    assert stop.code == "halves-disagree"
    assert (
        "3 deep, where its floor is 2 deep" if radius > 10.0 else "the bore 10 from the axis and the other 9.5"
    ) in stop.message


@pytest.mark.parametrize("seed", [1, 5, 7, 8])
def test_its_floor_with_ends_off_by_the_last_digits_is_not_drawn_again(seed):
    pick = random.Random(seed)
    ink = bored().map(lambda x, y: (x / 8, y / 8))
    ink.solid = [(*(at + pick.uniform(-1e-4, 1e-4) for at in line[:4]), line[4]) for line in ink.solid]
    assert stops(read(ink)) == []


@pytest.mark.parametrize(("sides", "level"), [((1, -1), "stop"), ((1,), "caution")])
@pytest.mark.parametrize(
    ("line", "told"),
    [
        ((-12.0, 8.0, -12.0, 10.0), True),
        ((-12.0, 8.0, -12.0, 9.98), False),
        ((-12.9, 8.0, -12.9, 10.0), True),
        ((-12.0, 0.0, -12.0, 8.0), False),  # an edge behind the bore
    ],
)
def test_so_is_a_wall_across_the_air_of_a_groove_in_a_bore(line, told, sides, level):
    ink = bored()
    a, b, c, d = line
    ink.solid += [(a, s * b, c, s * d, 0.0) for s in sides]
    found = [f.level.value for f in read(ink).findings if f.code == "lines-unexplained"]
    assert found == ([level] if told else [])


def bored():
    """A bush 40 x 60, its bore 16 with a groove 3 wide and 2 deep, 10 from the front, in section."""
    ink = section(Turned(((60.0, 40.0),), (), bore=16.0))
    ink.solid = [e for e in ink.solid if (abs(e[1]), abs(e[3])) != (8.0, 8.0)]
    run = [(0.0, 8.0), (-10.0, 8.0), (-10.0, 10.0), (-13.0, 10.0), (-13.0, 8.0), (-60.0, 8.0)]
    ink.solid += [(*a, *b, 0.0) for a, b in pairwise(run)]
    ink.solid += [(a[0], -a[1], b[0], -b[1], 0.0) for a, b in pairwise(run)]
    assert stops(read(ink)) == []
    return ink


AIR = {
    "a second wall": ([(-12.6, 17.0, -12.6, 20.0)], True),
    "that falls just short of the mouth": ([(-12.6, 17.0, -12.6, 19.987)], True),
    "that ends in the air": ([(-12.6, 17.0, -12.6, 19.98)], False),
    "a second floor": ([(-10.0, 17.5, -13.0, 17.5)], True),
}


@pytest.mark.parametrize(("drawn", "stop"), AIR.values(), ids=AIR)
@pytest.mark.parametrize("sides", [(1, -1), (1,)])
def test_a_line_across_the_air_of_a_groove_is_a_wall_or_floor_drawn_twice(drawn, stop, sides):
    """In one of two halves it may be a mark. Near is 0.0144, ten times a share of 2e-5 of the view."""
    ink = side_view(NEW)
    ink.solid += [(a, side * b, c, side * d, 0.0) for a, b, c, d in drawn for side in sides]
    told = {(str(f.code), str(f.level)) for f in read(ink).findings if f.level != "note"}
    alone = {("lines-unexplained", "caution")}
    if drawn[0][1] == drawn[0][3]:
        alone = {("halves-disagree", "stop"), ("left-out", "caution")}
    assert told == ((alone if len(sides) == 1 else {("lines-unexplained", "stop")}) if stop else set())


@pytest.mark.parametrize(("drawn", "stop"), AIR.values(), ids=AIR)
@pytest.mark.parametrize("turn", [0, 90])
def test_so_it_is_in_the_only_half_that_is_drawn(drawn, stop, turn):
    ink = half_profile(NEW)
    ink.solid += [(*line, 0.0) for line in drawn]
    assert stops(read(ink.map(rotated(turn)))) == (["lines-unexplained"] if stop else [])
    assert stops(read(half_profile(NEW).map(rotated(turn)))) == []


def test_a_wall_that_is_drawn_twice_in_both_halves_is_named_before_a_mark_in_one():
    ink = side_view(NEW)
    ink.solid += [(-10.5, 17, -10.5, 20, 0.0), *((-40.5, s * 17, -40.5, s * 20, 0.0) for s in (1, -1))]
    (stop,) = [f for f in read(ink).findings if f.code == "lines-unexplained"]
    assert (stop.level, stop.at[0]) == ("stop", pytest.approx(-40.5))


@pytest.mark.parametrize("draw", [side_view, full_outline, section])
def test_a_part_drawn_twice_over_in_one_place_is_one_part(draw):
    part = Turned(NEW.steps, NEW.cuts, bore=16.0) if draw is section else NEW
    assert stops(read(mixed(draw(part), draw(part, None)))) == []


def root(length, depth, land=20.0):
    """The root line of a thread from the front face, with the line that ends it."""
    ink = side_view(Turned(((60.0, 2 * land),), (Cut(-40.0, 3.0, 2 * land - 6),)))
    for s in (1, -1):
        ink.solid.append((0.0, s * (land - depth), -length, s * (land - depth), 0.0))
    ink.solid.append((-length, land, -length, -land, 0.0))
    return ink


@pytest.mark.parametrize(("length", "depth"), [(30.0, 1.0), (12.0, 1.5), (25.0, 0.6)])
def test_the_root_of_a_thread_has_its_reason(length, depth):
    assert stops(read(root(length, depth))) == []


@pytest.mark.parametrize(("out", "stop"), [(0.36, []), (0.4, ["lines-unexplained"])])
def test_a_thread_s_root_may_run_out_of_the_chamfer_by_a_speck(out, stop):
    """Drawn to the face where the chamfer is deeper than the thread: together by 1 % of 72.1, and the noise."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0),), chamfer=1.0 + out))
    ink.solid += [(0.0, s * 19.0, -30.0, s * 19.0, 0.0) for s in (1, -1)]
    ink.solid.append((-30.0, 20.0, -30.0, -20.0, 0.0))
    assert stops(read(ink)) == stop


@pytest.mark.parametrize("undercut", [34.0, 36.0])
def test_a_thread_s_root_that_runs_into_its_undercut_has_its_reason(undercut):
    """ISO 6410-1 and DIN 76 from memory: the root may lie in line with the undercut's floor."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-30.0, 3.0, undercut),)))
    ink.solid += [(0.0, s * 18.0, -30.0, s * 18.0, 0.0) for s in (1, -1)]
    assert stops(read(ink)) == []


@pytest.mark.parametrize(("length", "threaded"), [(12.1, True), (11.9, False)])
def test_a_line_in_line_with_a_floor_is_a_thread_s_root_only_if_it_is_long(length, threaded):
    """Four times its depth of 3 and more."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-30.0, 3.0, 34.0),)))
    for s in (1, -1):
        ink.solid.append((-30.0, s * 17.0, length - 30.0, s * 17.0, 0.0))
    ink.solid.append((length - 30.0, 20.0, length - 30.0, -20.0, 0.0))
    assert stops(read(ink)) == ([] if threaded else ["lines-unexplained"])


@pytest.mark.parametrize(("root_at", "threaded"), [(15.2, True), (14.8, False)])
def test_a_thread_s_root_lies_within_a_quarter_of_the_radius(root_at, threaded):
    ink = side_view(Turned(((80.0, 40.0),), (Cut(-30.0, 3.0, 2 * root_at),)))
    ink.solid += [(-70.0, s * root_at, -33.0, s * root_at, 0.0) for s in (1, -1)]
    ink.solid.append((-70.0, 20.0, -70.0, -20.0, 0.0))
    assert stops(read(ink)) == ([] if threaded else ["lines-unexplained"])


def bush(old, hatched=True, groove=True):
    """A bush 40 x 60 in section, hatched, over the solid outline, longer at an end, of the revision before it."""
    ink = section(Turned(((60.0, 40.0),), (Cut(-20.0, 3.0, 34.0),) if groove else (), bore=16.0))
    for k in range(56 if hatched else 0):
        for s in (1, -1):
            ink.solid.append((-1.0 * k - 1.0, s * 9.0, -1.0 * k - 4.0, s * 12.0, 0.0))
    front, back = old
    for s in (1, -1):
        ends = [(z, s * 20.0, z, 0.0, 0.0) for z in (front, -60.0 + back) if z not in (0.0, -60.0)]
        ink.solid += [*ends, (front, s * 20.0, 0.0, s * 20.0, 0.0), (-60.0, s * 20.0, -60.0 + back, s * 20.0, 0.0)]
    ink.solid = [line for line in ink.solid if line[:2] != line[2:4]]
    return read(ink)


@pytest.mark.parametrize("groove", [True, False])
@pytest.mark.parametrize("old", [(3.0, 0.0), (0.0, -3.0)], ids=["front", "chuck"])
def test_hatched_metal_that_an_edge_parts_from_plain_metal_is_over_an_older_outline(old, groove):
    """The bore ends there, so an edge right across would have its reason; without hatching it has none anyway."""
    assert stops(bush((0.0, 0.0), groove=groove)) == []
    assert stops(bush(old, groove=groove)) == ["lines-unexplained"]
    assert stops(bush(old, hatched=False, groove=groove)) == ["lines-unexplained"]


def in_hub(hatched):
    """A shaft through a hub that is drawn in section, hatched or not."""
    hub = section(Turned(((30.0, 50.0),), (Cut(-10.0, 4.0, 44.0),), bore=20.0), None).map(shifted(-35, 0))
    ink = mixed(side_view(Turned(((100.0, 20.0),), (Cut(-10.0, 2.0, 17.0), Cut(-85.0, 2.0, 17.0)))), hub)
    for k in range(11) if hatched else []:
        x = -63.0 + 2.5 * k
        ink.solid += [(x, s * 10.5, x + s * 0 + 6.0, s * 16.5, 0.0) for s in (1, -1)]
    return ink


def test_a_shaft_through_a_hub_is_no_part():
    assert stops(read(in_hub(hatched=False))) == ["lines-unexplained"]
    assert stops(read(in_hub(hatched=True))) == ["assembly"]


def lettered(*, rows=2, name="L", dimension=True, loose=False):
    """A shaft whose length is a letter, and a table that resolves it below."""
    texts = [Text("PART No", (-60.0, -60.0), 2.5), Text(name, (-35.0, -60.0), 2.5), Text("D", (-20.0, -60.0), 2.5)]
    for k in range(rows):
        y = -66.0 - 6.0 * k
        texts += [
            Text(f"4711-{k}", (-60.0, y), 2.5),
            Text(f"{60 + 10 * k}", (-35.5, y), 2.5),
            Text("40", (-20.5, y), 2.5),
        ]
    texts += [Text(name, (-30.0, -31.0), 2.5)] if loose else []
    length = Dimension(DimensionKind.LINEAR, ((0.0, -20.0), (-60.0, -20.0)), 0.0, 60.0, name)
    return read(side_view(NEW), texts=tuple(texts), dimensions=(length,) if dimension else ())


@pytest.mark.parametrize("how", [{}, {"name": "L1"}, {"rows": 5}, {"dimension": False, "loose": True}])
def test_a_table_of_variants_is_a_stop_that_nobody_can_answer_for(how):
    reading = lettered(**how)
    assert reading.part is None
    assert stops(reading) == ["variants"]
    (stop,) = reading.findings
    assert stop.stops
    assert not stop.code.acceptable
    assert f"{how.get('rows', 2)} values for the size {how.get('name', 'L')}" in stop.message


@pytest.mark.parametrize(
    ("words", "stopped"),
    [
        ("60 (-1)   70 (-2)", True),
        ("60 (A) / 70 (B)", True),
        ("60 / 70*", True),
        ("A = 60, B = 70", True),
        ("60 / 59.8", False),
        ("B=60, T=2", False),
        ("60 (-1)", False),
        ("60 (2.362)", False),
        ("6x 10 (60)", False),
    ],
)
def test_two_values_of_one_size_are_variants(words, stopped):
    assert ("variants" in stops(lettered(name=words, rows=0))) is stopped


@pytest.mark.parametrize("how", [{"rows": 1}, {"rows": 0, "dimension": False}])
def test_a_legend_or_letters_that_no_dimension_prints_are_no_variants(how):
    assert "variants" not in stops(lettered(**how))


@pytest.mark.parametrize("how", [{"dimension": False}, {"name": "LENGTH"}])
def test_a_table_with_the_part_drawn_and_a_longer_one_is_one_of_variants_though_no_dimension_prints_its_letter(how):
    """60 x 40 is the part; 70 x 40 is none of its sizes."""
    assert stops(lettered(**how)) == ["variants"]


def test_a_dimension_by_a_letter_that_nothing_on_the_sheet_resolves_stands_for_several_parts():
    assert stops(lettered(rows=0)) == ["variants"]


TABLES = {
    "a tolerance frame in line with a diameter": ((("\u00d827", -20.0), ("0.02", 14.0), ("A", 18.0)), "A"),
    "a row of a parts list": ((("1", 0.0), ("1", 8.0), ("BAR", 14.0), ("C45", 60.0)), "C45"),
    "a chamfer": ((("C2", 0.0), ("45", 8.0), ("8", 14.0)), "C2"),
    "a radius": ((("R5", 0.0), ("45", 8.0), ("8", 14.0)), "R5"),
    "a thread": ((("M8", 0.0), ("20", 8.0), ("4", 14.0)), "M8"),
    "a fit with its limits": ((("h6", 0.0), ("30", 8.0), ("29.987", 14.0)), "h6"),
    "a size": ((("D2", 0.0), ("30", 8.0), ("32", 14.0)), "D2"),
    "a height": ((("H1", 0.0), ("30", 8.0), ("32", 14.0)), "H1"),
}


@pytest.mark.parametrize("name", TABLES)
def test_what_makes_a_row_of_a_table_of_variants(name):
    row, again = TABLES[name]
    texts = [Text(text, (x, -60.0), 2.5) for text, x in row] + [Text(again, (-30.0, 30.0), 2.5)]
    stopped = "variants" in stops(read(side_view(NEW), texts=tuple(texts)))
    assert stopped is (name in ("a size", "a height"))


def test_hole_letters_and_zone_numbers_round_a_border_are_no_variants():
    texts = [Text(c, (x, -90.0), 2.5) for c, x in zip("ABCD", range(-80, 0, 20), strict=True)]
    texts += [Text(str(k), (-100.0, -80.0 + 30 * k), 2.5) for k in range(1, 5)]
    reading = read(mixed(side_view(NEW), box(-105, -95, 30, 60), Ink()), texts=tuple(texts))
    assert stops(reading) == []


@pytest.mark.parametrize(
    ("title", "variants"),
    [("SECTION A-A", False), ("SCHNITT A \u2013 A", False), ("Coupe A", False), ("SECTION B-B", True)],
)
def test_the_letters_of_a_cutting_plane_in_line_with_sizes_are_no_variants(title, variants):
    """Letters at both ends of the plane, and two diameters beside one of them (ISO 128-3, from memory)."""
    texts = [Text("A", (-75.0, 12.0), 2.5), Text("A", (8.0, 2.0), 2.5), Text(title, (-40.0, -60.0), 2.5)]
    texts += [Text(f"\u00d8{d}", (x, 2.0), 2.5) for d, x in ((40, 20.0), (34, 30.0))]
    assert ("variants" in stops(read(side_view(NEW), texts=tuple(texts)))) is variants


@pytest.mark.parametrize("drawn", [True, False])
def test_the_figures_of_dimensions_in_line_with_a_letter_are_no_variants(drawn):
    """A cutting plane's letters, and two lengths in line with one of them, their lines ended by ticks or not drawn."""
    ink = side_view(NEW)
    for z in (0.0, -40.0, -60.0) if drawn else ():
        ink.solid += [(z, -21.0, z, -33.5, 0.0), (z - 1.0, -33.0, z + 1.0, -31.0, 0.0)]
    lengths = ((0.0, 40.0), (-40.0, 20.0))
    ink.solid += [(z, -32.0, z - long, -32.0, 0.0) for z, long in lengths] if drawn else []
    texts = [Text("A", (-75.0, y), 2.5) for y in (31.2, -31.2)]
    texts += [Text(f"{long:g}", (z - long / 2 - 1.0, -31.2), 2.5) for z, long in lengths]
    assert stops(read(ink, texts=tuple(texts))) == ([] if drawn else ["variants"])


def test_a_size_with_the_letter_of_a_section_is_heard_all_the_same():
    """The letter at both ends of the plane, at a size taken to pieces, and over a column of values."""
    texts = [Text("A", at, 2.5) for at in ((-75.0, 12.0), (8.0, 2.0), (-30.0, 30.0))]
    table = [Text("A", (60.0, 40.0), 2.5), Text("55", (60.0, 35.0), 2.5), Text("60", (60.0, 30.0), 2.5)]
    name = Text("SECTION A-A", (-40.0, -60.0), 2.5)
    assert stops(read(side_view(NEW), texts=(name, *texts, *table))) == ["variants"]
    assert stops(read(side_view(NEW), texts=(name, *texts[:2], *table))) == []


@pytest.mark.parametrize(("off", "stop"), [(0.0143, True), (0.0146, False)])
def test_lines_are_images_of_one_another_within_ten_times_the_noise(off, stop):
    """2e-5 of a view 72.1 across is 0.00144."""
    ink = side_view(NEW)
    ink.solid += [(0.5, 10.0, 3.0, 10.0, 0.0), (0.5, -10.0 - off, 3.0, -10.0 - off, 0.0)]
    assert ("lines-unexplained" in stops(read(ink))) is stop


@pytest.mark.parametrize(("bulges", "stop"), [((0.3, -0.3), True), ((0.3, 0.3), False), ((0.3, 0.0), False)])
def test_arcs_that_stand_at_the_part_on_both_sides_are_heard(bulges, stop):
    ink = side_view(NEW)
    ink.solid += [(0.5, s * 10.0, 3.0, s * 14.0, bulge) for s, bulge in zip((1, -1), bulges, strict=True)]
    assert ("lines-unexplained" in stops(read(ink))) is stop


def comb(slots, centre=False, off=0.0, wider=0.0, low=1.0):
    """A comb with even slots, its back `low` above the sheet's zero and 5 thick, about an upright middle line or none.

    The outermost slots stand `off` farther out and are `wider` on both sides.
    """
    walls = [(6.0 * k + 3, 6.0 * k + 6) for k in range(slots)]
    walls[0] = walls[0][0] - off - wider, walls[0][1] - off + wider
    walls[-1] = walls[-1][0] + off - wider, walls[-1][1] + off + wider
    teeth = [(x, y, 0.0) for a, b in walls for x, y in ((a, 25), (a, 5), (b, 5), (b, 25))]
    end = 6 * slots + 3
    round_about = [(0, 0, 0.0), (0, 25, 0.0), *teeth, (end, 25, 0.0), (end, 0, 0.0)]
    ink = Ink().chain([(x, y + low, bulge) for x, y, bulge in round_about], close=True)
    ink.centre += [(end / 2, -5, end / 2, 30, 0.0)] if centre else []
    return ink


@pytest.mark.parametrize("low", [0.0, 1.0])
@pytest.mark.parametrize("slots", [2, 3, 4, 6])
def test_a_comb_with_a_straight_back_could_be_half_a_part_and_is_asked_about(slots, low):
    reading = read(comb(slots, low=low))
    assert stops(reading) == ["axis-not-drawn"]
    assert len(reading.part.grooves) == slots


@pytest.mark.parametrize("slots", [4, 5, 6])
def test_rings_in_a_face_that_only_a_centre_line_speaks_for_may_be_a_comb(slots):
    assert stops(read(comb(slots, centre=True))) == ["not-round"]


UNEVEN = [({"off": 0.11}, True), ({"off": 0.13}, False), ({"wider": 0.029}, True), ({"wider": 0.031}, False)]


@pytest.mark.parametrize(("how", "even"), UNEVEN, ids=str)
def test_slots_stand_evenly_within_a_hundredth_of_their_step_of_6(how, even):
    """The step of two rings grows by what the outer one stands off, and the first stands off by half of that."""
    assert stops(read(comb(4, centre=True, **how))) == ["not-round" if even else "not-turned"]
    answered = stops(
        read(comb(4, centre=True, **how), ReadOptions(units="mm", accept=frozenset({"not-turned", "not-round"})))
    )
    assert answered == (["not-round"] if even else [])


def test_a_rectangle_of_stock_is_no_turned_part_until_something_says_so():
    stock = box(-60, -20, 0, 20)
    stock.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    reading = read(stock)
    assert stops(reading) == ["not-turned"]
    across = Dimension(DimensionKind.LINEAR, ((-50.0, 20.0), (-50.0, -20.0)), 90.0, 40.0, "Ø<>")
    assert stops(read(stock, dimensions=(across,))) == []


def behind(gap, sides=(1, -1)):
    """A piece behind the end of the part that is open toward it, as where a wall is missing."""
    ink = side_view(NEW)
    for s in sides:
        ink.solid.append((-60.0 - gap, s * 18.0, -75.0, s * 18.0, 0.0))
    return ink


@pytest.mark.parametrize(
    ("ink", "stop"),
    [
        (behind(0.5), True),
        (behind(1.4), True),
        (behind(1.5), False),  # 2 % of a view 60 long and 40 high is 1.44
        (behind(0.5, sides=(1,)), False),
    ],
)
def test_lines_at_the_part_with_their_mirror_image_are_another_piece_of_it(ink, stop):
    reading = read(ink)
    assert ("lines-unexplained" in stops(reading)) is stop
    assert stop or reading.part.length == 60.0


@pytest.mark.parametrize(("size", "stop"), [(0.35, False), (0.37, True)])
def test_specks_beside_the_part_are_no_piece_of_it(size, stop):
    """One in a hundred of the view's size, 0.72 here, both together."""
    ink = side_view(NEW)
    ink.solid += [(-61.0, s * 15.0, -61.0 - size, s * 15.0, 0.0) for s in (1, -1)]
    assert ("lines-unexplained" in stops(read(ink))) is stop


@pytest.mark.parametrize(("wall", "stop"), [(0.0, True), (0.001, True), (0.0015, True), (0.1, False)])
def test_a_part_that_falls_in_two_is_no_part(wall, stop):
    """A bushing on the end of a shaft: where it ends, its bore is as wide as the shaft that goes on."""
    outer = [(0.0, 30.0), (-20.0, 30.0), (-20.0, 15.0 + wall), (-90.0, 15.0 + wall), (-90.0, 0.0)]
    half = Ink().chain([(z, r, 0.0) for z, r in (*outer, (-20.0, 0.0), (-20.0, 15.0), (0.0, 15.0))], close=True)
    ink = mixed(half, half.map(lambda x, y: (x, -y)))
    ink.centre += [(5.0, 0.0, -95.0, 0.0, 0.0)]
    assert ("in-pieces" in stops(read(ink))) is stop


@pytest.mark.parametrize(
    ("words", "stop"),
    [(("1", "2"), True), (("2", "1", "3"), True), (("1",), False), (("2", "3"), False), (("1", "3"), False)],
)
def test_bare_numbers_from_one_on_that_are_led_into_the_view_are_items(words, stop):
    """Item numbers without their circles (common practice, no source); one that is led alone may be a size."""
    led = [((-5.0 - 20 * k, 10.0), (-20.0 * k, 45.0)) for k in range(len(words))]
    leaders = tuple(Dimension(DimensionKind.LEADER, at, 0.0, 0.0, word) for at, word in zip(led, words, strict=True))
    reading = read(side_view(NEW), dimensions=leaders)
    assert ("assembly" in stops(reading)) is stop


@pytest.mark.parametrize(("lines", "stop"), [(1, True), (2, False)])
def test_an_item_number_has_one_leader(lines, stop):
    """Two lines that begin beside a number may be the walls of the groove under it."""
    ink = side_view(NEW)
    ink.solid += [(x + 1.5 * k, 30.0, x + 1.5 * k - 4.0, 5.0, 0.0) for x in (-20.0, -50.0) for k in range(lines)]
    texts = tuple(Text(word, (x, 31.0), 2.5) for word, x in (("1", -20.0), ("2", -50.0)))
    assert ("assembly" in stops(read(ink, texts=texts))) is stop


@pytest.mark.parametrize(("over", "stop"), [(0.0, True), (1.0, False)])
def test_a_diameter_that_nobody_can_read_is_no_piece_of_the_part(over, stop):
    """Its extension lines run on beyond its dimension line; without that the three are the end of a longer part."""
    ink = side_view(NEW)
    ink.solid += [(-60.5, s * 20.0, -72.0 - over, s * 20.0, 0.0) for s in (1, -1)] + [(-72.0, 20.0, -72.0, -20.0, 0.0)]
    assert ("lines-unexplained" in stops(read(ink))) is stop


SHRUNK = Turned(((20.0, 30.0), (60.0, 40.0)), (Cut(-8.0, 2.0, 28.0), Cut(-40.0, 3.0, 34.0), Cut(-60.0, 3.0, 34.0)))
OLD_LAND = [(0.0, 15.0, 0.0, 15.5, 0.0), (0.0, 15.5, -20.0, 15.5, 0.0)]


@pytest.mark.parametrize(("edges", "stop"), [(4, True), (1, True), (0, False)])
def test_an_older_land_round_the_true_one_makes_no_bore_of_it(edges, stop):
    """Seen from outside, with edges right across at walls behind it: in section the metal has none."""
    ink = side_view(SHRUNK)
    without = (-40.0, -43.0, -60.0, -63.0)[edges:]
    ink.solid = [e for e in ink.solid if not (e[0] == e[2] in without and e[1] * e[3] < 0)]
    ink.solid += [(a, s * b, c, s * d, e) for a, b, c, d, e in OLD_LAND for s in (1, -1)]
    assert ("outline-doubtful" in stops(read(ink))) is stop


def test_a_blind_bore_in_section_is_one():
    """Nothing is hatched, but the edge of its mouth is drawn and none runs across the metal."""
    half = [(0.0, 9.0), (0.0, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-13.0, 17.0), (-13.0, 20.0), (-40.0, 20.0)]
    back = [(-40.0, 17.0), (-43.0, 17.0), (-43.0, 20.0), (-60.0, 20.0), (-60.0, 0.0)]
    ink = Ink().chain([(z, r, 0.0) for z, r in [*half, *back]])
    ink.chain([(z, r, 0.0) for z, r in [(0.0, 9.0), (-15.0, 9.0), (-15.0, 12.0), (-18.0, 12.0), (-18.0, 9.0)]])
    ink.chain([(-18.0, 9.0, 0.0), (-30.0, 9.0, 0.0), (-30.0, 0.0, 0.0)])
    ink = mixed(ink, ink.map(lambda x, y: (x, -y)))
    ink.solid.append((0.0, 9.0, 0.0, -9.0, 0.0))
    ink.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    reading = read(ink)
    assert (stops(reading), [g.where for g in reading.part.grooves]) == ([], ["outside", "inside", "outside"])


@pytest.mark.parametrize(("value", "off", "stop"), [("0.02", 24.9, False), ("0.02", 25.1, True), ("20", 14.0, True)])
def test_the_letter_of_a_datum_is_no_size(value, off, stop):
    """Behind the value in a tolerance frame, with other sizes in line, and at the datum (ISO 1101, from memory)."""
    texts = [Text("A", (-40.0, 30.0), 2.5), Text(value, (-40.0 - off, 30.0), 2.5), Text("A", (-10.0, -30.0), 2.5)]
    texts += [Text(size, (x, 30.0), 2.5) for size, x in (("34", -30.0), ("40", -20.0))]
    assert ("variants" in stops(read(side_view(NEW), texts=tuple(texts)))) is stop


def half_in_section(bore=9.0, floor=10.5):
    """The upper half of a sleeve 44 across and 26 long in section, with its edges behind the cut, down to the axis.

    Of its 12 lines the first 7 are the outside, from the front face back.
    """
    outside = [(0, bore), (0, 22), (-8, 22), (-8, 20), (-11, 20), (-11, 22), (-26, 22), (-26, bore)]
    inside = [(-11, bore), (-11, floor), (-8, floor), (-8, bore)]
    ink = Ink().chain([(z, r, 0.0) for z, r in [*outside, *inside]], close=True)
    behind = [(0, 0, 0, bore, 0.0), (-26, 0, -26, bore, 0.0)]
    return Ink([*ink.solid, *behind], [(5, 0, -31, 0, 0.0)])


@pytest.mark.parametrize("gone", range(7))
@pytest.mark.parametrize("turn", [0, 90, 200])
def test_half_a_sleeve_without_a_line_of_its_outside_is_not_the_bore_in_it(gone, turn):
    ink = half_in_section()
    del ink.solid[gone]
    assert stops(read(ink.map(rotated(turn, 30, 40)))) != []


LOOSE = [(0, 28, -40, 28), (-10, 14, -40, 28)]
BESIDE = {
    "extension lines": [],
    "a dimension line and a leader that nobody knows, loose": LOOSE,
    "extension lines in pieces that are off by half the noise": [(0, 30, 0.003, 36), (-26, 30, -26.003, 36)],
    "lines that begin where they end": [(0, 30, -20, 30), (0, 30, 20, 30), (-26, 30, -36, 30), (-26, 30, -26, 40)],
}


@pytest.mark.parametrize("lines", BESIDE.values(), ids=BESIDE)
@pytest.mark.parametrize("surface", [None, 28, 30])
def test_half_a_sleeve_is_read_with_what_ends_at_its_corners(lines, surface):
    """Extension lines of a length; a chain line over a treated surface runs across them or from end to end."""
    ink = half_in_section()
    ink.solid += [(*line, 0.0) for line in [(0, 22, 0, 30), (-26, 22, -26, 30), *lines]]
    ink.centre += [] if surface is None else [(0, surface, -26, surface, 0.0)]
    reading = read(ink)
    if lines is LOOSE:  # it closes an outline of its own, 40 long, and the floor that is left in its metal stops
        assert stops(reading) == ([] if surface == 28 else ["halves-disagree"])
    else:
        assert stops(reading) == []
        assert (reading.part.length, reading.part.outer_diameter) == pytest.approx((26.0, 44.0))


def test_an_open_corner_is_found_behind_lines_in_pieces():
    ink = half_in_section()
    del ink.solid[3], ink.solid[0]
    ink.solid.remove((-26, 22, -26, 9, 0.0))
    ink.solid += [(z, a, z, b, 0.0) for z in (0, -26) for a, b in ((9, 15), (15, 18), (18, 22))]
    assert stops(read(ink)) == ["lines-unexplained"]


@pytest.mark.parametrize(("lean", "stop"), [(0.0, True), (0.0050, True), (0.0070, False)])
def test_a_line_that_leads_from_the_part_to_an_open_corner_stands_square(lean, stop):
    """Within 0.006, ten times a share of 2e-5 of the view of 30 by 9.5; a leader with its shelf leans."""
    ink = half_in_section()
    del ink.solid[:7]
    ink = Ink([*ink.solid, (0, 9, 0, 9, 0)], ink.centre)
    ink.solid += [(-26, 9, -26 - lean, 15, 0.0), (-26 - lean, 15, -20, 15, 0.0)]
    assert (stops(read(ink)) == ["lines-unexplained"]) is stop
