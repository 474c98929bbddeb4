"""Two halves of one view that are drawn unlike: no turned part has such, so they stop, and the pen's error doesn't."""

import math

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view, with_centre

from extractor import ReadOptions, read_sheet
from extractor.geometry.stretches import stretches
from extractor.recess.pairing import pair
from extractor.recess.shapes import Measured
from extractor.sheet import Dimension, DimensionKind

GROOVE = Cut(-10.0, 3.0, 34.0)
PLAIN = Turned(((30.0, 40.0), (30.0, 50.0)), (GROOVE,))


def read(lower, upper=PLAIN, dimensions=(), **options):
    """The reading of a view with two halves of their own."""
    halves = [
        Ink().chain([(0.0, 0.0, 0.0), *half.half(), (-half.length, 0.0, 0.0)]).map(lambda x, y, s=sign: (x, s * y))
        for half, sign in ((upper, 1), (lower, -1))
    ]
    sheet = sheet_of(with_centre(mixed(*halves), upper, 5.0), dimensions=dimensions)
    return read_sheet(sheet, ReadOptions(units="mm", **options))


def told(reading):
    return [f.code for f in reading.findings if f.stops]


UNLIKE = {
    "a shoulder 0.1 off": (Turned(((30.1, 40.0), (29.9, 50.0)), (GROOVE,)), ("30 ", "30.1 ", "25 ", "20")),
    "a land 0.1 lower": (Turned(((30.0, 39.8), (30.0, 50.0)), (GROOVE,)), ("0 to 30 ", "20 ", "19.9")),
    "an end 0.5 off": (Turned(((30.0, 40.0), (30.5, 50.0)), (GROOVE,)), ("60 to 60.5 ",)),
    "a groove 0.04 off": (Turned(PLAIN.steps, (Cut(-10.04, 3.0, 34.0),)), ("10 to 13 ", "10.04 to 13.04 ")),
    "a groove 0.04 wider": (Turned(PLAIN.steps, (Cut(-10.0, 3.04, 34.0),)), ("10 to 13 ", "10 to 13.04 ")),
    "a floor 0.04 lower": (Turned(PLAIN.steps, (Cut(-10.0, 3.0, 33.92),)), ("17 ", "16.96 ")),
}


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize(("lower", "words"), UNLIKE.values(), ids=UNLIKE)
def test_halves_that_nearly_agree_are_a_contradiction_with_both_figures(lower, words, turn):
    reading = read(PLAIN, lower) if turn else read(lower)
    assert set(told(reading)) <= {"halves-disagree", "lands-disagree"}
    message = next(f.message for f in reading.findings if f.stops)
    assert [w for w in words if w not in message] == []


@pytest.mark.parametrize("by", [1e-6, 1e-3, 0.023])
def test_what_the_pen_errs_by_is_no_contradiction(by):
    """Three in ten thousand of a view 60 long and 50 high, which is 0.0234."""
    assert told(read(Turned(((30.0 + by, 40.0 - by), (30.0, 50.0)), (Cut(-10.0 - by, 3.0, 34.0 + by),)))) == []


@pytest.mark.parametrize(("size", "by", "stop"), [(1.0, 0.0238, True), (4.0, 0.029, False), (4.0, 0.031, True)])
def test_the_pen_errs_by_little_however_large_the_part_is(size, by, stop):
    """The lands lie 0.02 apart too: each half was drawn by itself."""

    def part(off):
        land = 40.0 * size - 0.04 * (off > 0)
        return Turned(((30.0 * size, land), (30.0 * size, 50.0 * size)), (Cut(-10.0 - off, 3.0, 38.0 * size),))

    assert told(read(part(by), part(0.0))) == ["halves-disagree"] * stop


@pytest.mark.parametrize(("by", "stop"), [(0.0073, False), (0.0076, True)])
@pytest.mark.parametrize("what", ["floor", "place", "width"])
def test_a_recess_changed_in_one_of_two_mirror_images_is_told_beyond_rounding(what, by, stop):
    """Three times the noise of a view 112 long and 50 high: 0.00245 is that of 122.7."""
    cuts = {"floor": (-10.0, 3.0, 38.0 - 2 * by), "place": (-10.0 - by, 3.0, 38.0), "width": (-10.0, 3.0 + by, 38.0)}
    steps = ((56.0, 40.0), (56.0, 50.0))
    reading = read(Turned(steps, (Cut(*cuts[what]),)), Turned(steps, (Cut(-10.0, 3.0, 38.0),)))
    assert told(reading) == ["halves-disagree"] * stop


@pytest.mark.parametrize(("land", "stop"), [(0.0, True), (0.0024, True), (0.0025, False)])
def test_halves_whose_lands_lie_apart_were_drawn_one_by_one(land, stop):
    """A groove 0.025 off is the pen's error then; where the lands mirror within the noise, it is another floor."""
    steps = ((56.0, 40.0), (56.0, 50.0))
    lower = Turned(((56.0, 40.0 + 2 * land), steps[1]), (Cut(-10.0, 3.0, 37.95),))
    assert told(read(lower, Turned(steps, (Cut(-10.0, 3.0, 38.0),)))) == ["halves-disagree"] * stop


@pytest.mark.parametrize(("by", "stop"), [(0.0011, False), (0.0013, True)])
def test_in_an_inch_drawing_the_pen_errs_by_no_more_than_in_any_other(by, stop):
    """The lands lie 0.001 apart too."""

    def half(off):
        return Turned(((6.0, 4.0 - 0.002 * (off > 0)), (6.0, 5.0)), (Cut(-1.0 - off, 0.5, 3.5),))

    upper, lower = (
        Ink().chain([(0.0, 0.0, 0.0), *one.half(), (-12.0, 0.0, 0.0)]).map(lambda x, y, s=sign: (x, s * y))
        for one, sign in ((half(0.0), 1), (half(by), -1))
    )
    sheet = sheet_of(with_centre(mixed(upper, lower), half(0.0), 0.5), insunits=1)
    assert told(read_sheet(sheet)) == ["halves-disagree"] * stop


def curved(by):
    """A land that swells and sinks again in two thousand chords, raised by so much."""
    return [(-40 * k / 2000, 20 + by + math.sin(math.pi * k / 2000)) for k in range(2001)]


@pytest.mark.parametrize(("by", "apart"), [(0.029, []), (0.031, [(0.0, -40.0)])])
def test_lands_in_chords_finer_than_the_pen_are_held_as_one(by, apart):
    found = stretches(curved(0.0), curved(by), 0.03)
    assert [(s.near, s.far) for s in found] == apart
    assert [s.area for s in found] == pytest.approx([2 * 40 * by] * len(apart))


@pytest.mark.parametrize(("by", "apart"), [(0.029, 0), (0.031, 1)])
def test_a_steep_wall_a_hair_beside_its_image_is_no_other_land(by, apart):
    """A corner radius of 0.4: near the wall the radii lie apart by more than the pen errs."""

    def corner(z):
        turns = [math.pi / 2 * k / 20 for k in range(21)]
        return [(0, 17), *((z + 0.4 - 0.4 * math.sin(t), 17.4 - 0.4 * math.cos(t)) for t in turns), (z, 20), (-20, 20)]

    assert len(stretches(corner(-10.0), corner(-10.0 - by), 0.03)) == apart


@pytest.mark.parametrize(("by", "stop"), [(0.003, False), (0.004, True)])
def test_rounding_to_three_places_sets_halves_apart_by_three_of_them(by, stop):
    """An inch drawing 12 long whose last place is 0.001."""

    def half(off):
        return Turned(((6.125, 4.0), (6.0, 5.0)), (Cut(-1.0 - off, 0.5, 3.5),))

    upper, lower = (
        Ink().chain([(0.0, 0.0, 0.0), *one.half(), (-12.125, 0.0, 0.0)]).map(lambda x, y, s=sign: (x, s * y))
        for one, sign in ((half(0.0), 1), (half(by), -1))
    )
    sheet = sheet_of(with_centre(mixed(upper, lower), half(0.0), 0.5), insunits=1)
    assert told(read_sheet(sheet)) == ["halves-disagree"] * stop


@pytest.mark.parametrize(("apart", "crossing"), [(0.0099, 0), (0.0101, 1)])
def test_recesses_of_two_halves_are_one_within_the_pen_s_error_and_told_beyond_it(apart, crossing):
    one, two = (
        Measured(shape="rectangular", z_near=z, z_far=-13.0, mouth=20.0, floor=17.0, near_land=20.0, far_land=20.0)
        for z in (-10.0, -10.0 - apart)
    )
    found = pair([one], [two], 0.05, 0.01)
    assert (len(found.both), len(found.crossing), found.single) == (1, crossing, ())


@pytest.mark.parametrize("turn", [False, True])
def test_a_flat_that_the_user_answers_for_is_cut_into_the_higher_half(turn):
    """What one half lacks at its end may be milled after turning: the part is turned to the other."""
    flat = Turned(((10.0, 37.0), (20.0, 40.0), (30.0, 50.0)))
    whole = Turned(((30.0, 40.0), (30.0, 50.0)))
    reading = read(whole, flat, accept=("lands-disagree",)) if turn else read(flat, whole, accept=("lands-disagree",))
    assert told(reading) == []
    assert reading.part.outline[1] == (0.0, 20.0)


def test_two_halves_in_section_have_one_bore():
    def half(bore, sign):
        ink = Ink().chain([(0.0, bore, 0.0), *PLAIN.half(), (-60.0, bore, 0.0)], close=True)
        return ink.map(lambda x, y: (x, sign * y))

    def seen(one, two):
        sheet = sheet_of(with_centre(mixed(half(one, 1), half(two, -1)), PLAIN, 5.0))
        return [f for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.stops]

    assert seen(10.0, 10.0) == []
    (stop,) = seen(10.0, 10.1)
    assert stop.code == "halves-disagree"
    assert "the bore 10.1 from the axis and the other 10:" in stop.message


@pytest.mark.parametrize(
    ("floor", "outer", "stop"), [(11.0036, 20.0, []), (11.0045, 20.0, ["halves-disagree"]), (11.018, 20.01, [])]
)
def test_a_recess_of_a_bore_changed_in_one_of_two_images_is_told_beyond_rounding(floor, outer, stop):
    """Three times the noise of a view 72.1 in size is 0.0043; where the shoulders differ too, a hand's error counts."""

    def half(deep, shoulder, sign):
        inner = [(-60.0, 10.0), (-40.0, 10.0), (-40.0, deep), (-37.0, deep), (-37.0, 10.0), (0.0, 10.0)]
        ring = [(0.0, shoulder), (-60.0, shoulder) if shoulder == 20.0 else (-60.01, shoulder), *inner]
        ink = Ink().chain([(*p, 0.0) for p in ring], close=True)
        return ink.map(lambda x, y: (x, sign * y))

    both = mixed(half(11.0, 20.0, 1), half(floor, outer, -1))
    assert told(read_sheet(sheet_of(with_centre(both, PLAIN, 5.0)), ReadOptions(units="mm"))) == stop


def across(r, z=-11.5, text=""):
    return Dimension(DimensionKind.LINEAR, ((z, r), (z, -r)), 2 * r, 90.0, text)


@pytest.mark.parametrize(("size", "z", "stop"), [(17.0, -11.5, True), (17.0, -14.0, False), (20.0, -11.5, False)])
def test_a_recess_of_one_half_that_is_sized_as_a_ring_is_one_drawn_by_half(size, z, stop):
    """A keyway's depth is measured to the other side of the shaft, and a shaft's diameter beside it says nothing."""
    plain = Turned(PLAIN.steps)
    reading = read(plain, dimensions=(across(size, z),))
    assert told(reading) == ["halves-disagree"] * stop
    assert "one-sided" in [f.code for f in reading.findings]


def faced(depth=0.0, shift=0.0, bore=0.0, back=-20.0):
    """One half of a disc 20 long and 60 across: a groove 34 to 44 across in its front face, `shift` farther out."""
    ring = [(0, 22 + shift), (-depth, 22 + shift), (-depth, 17 + shift), (0, 17 + shift)] if depth else []
    return Ink().chain([(z, r, 0.0) for z, r in [(back, bore), (back, 30), (0, 30), *ring, (0, bore)]], close=bore > 0)


FACED = {
    "alike": (faced(4), faced(4), [], 1),
    "one half cut, by its bore": (faced(4, bore=8.0), faced(), [], 1),
    "the other half cut": (faced(), faced(4, bore=8.0), [], 1),
    "both halves cut, one alone": (faced(4, bore=8.0), faced(bore=8.0), ["lands-disagree"], 0),
    "neither cut, one alone": (faced(4), faced(), ["lands-disagree"], 0),
    "neither cut, the lower alone": (faced(), faced(4), ["lands-disagree"], 0),
    "the uncut half alone": (faced(4), faced(bore=8.0), ["lands-disagree"], 0),
    "apart by the pen, as the backs": (faced(4), faced(4, 0.018, back=-20.01), [], 1),
    "apart by more, as the backs": (faced(4), faced(4, 0.02, back=-20.01), ["halves-disagree"], 0),
    "apart by rounding": (faced(4), faced(4, 0.0037), [], 1),
    "changed in one of two images": (faced(4), faced(4, 0.0039), ["halves-disagree"], 1),
    "deeper by more": (faced(4), faced(4.02), ["halves-disagree"], 0),
}


@pytest.mark.parametrize(("upper", "lower", "stop", "count"), FACED.values(), ids=FACED)
def test_rings_in_a_face_show_in_both_halves_or_in_the_one_that_is_cut(upper, lower, stop, count):
    """The pen errs by 3e-4 of a view 63.2 in size, 0.019; three times the noise of it is 0.0038."""
    ink = mixed(upper, lower.map(lambda x, y: (x, -y)))
    ink.centre = [(5.0, 0.0, -25.0, 0.0, 0.0)]
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm"))
    assert [c for c in told(reading) if c.endswith("disagree")] == stop
    assert len([g for g in reading.part.grooves if g.where == "face"]) == count


def test_a_recess_in_the_face_of_one_half_that_is_answered_for_is_left_out():
    ink = mixed(faced(4), faced().map(lambda x, y: (x, -y)))
    ink.centre = [(5.0, 0.0, -25.0, 0.0, 0.0)]
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm", accept=frozenset({"lands-disagree"})))
    assert (told(reading), reading.part.grooves) == ([], ())


FLOORS = {
    "half way down": ([(-13.0, 18.0, -10.0, 18.0)], ["halves-disagree"]),
    "not from wall to wall": ([(-12.0, 18.0, -10.0, 18.0)], []),
    "at a slant": ([(-13.0, 18.0, -10.0, 18.5)], []),
    "on the floor": ([(-13.0, 17.0, -10.0, 17.0)], []),
    "closing the mouth": ([(-13.0, 20.0, -10.0, 20.0)], []),
}


@pytest.mark.parametrize(("lines", "stops"), FLOORS.values(), ids=FLOORS)
@pytest.mark.parametrize("side", [1, -1])
def test_a_line_from_wall_to_wall_of_a_groove_in_one_half_may_be_its_floor(side, lines, stops):
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))
    ink.solid += [(a, side * b, c, side * d, 0.0) for a, b, c, d in lines]
    assert [f.code for f in read_sheet(sheet_of(ink), ReadOptions(units="mm")).findings if f.stops] == stops


@pytest.mark.parametrize(
    ("upper", "lower", "words"),
    [
        (Cut(-10.0, 3.0, 34.0, corner=0.5), GROOVE, ("a corner radius of 0.5, the other 0;", "the smaller was read")),
        (GROOVE, Cut(-10.0, 3.0, 34.0, corner=0.1), ("a corner radius of 0, the other 0.1;",)),
        (Cut(-10.0, 3.0, 34.0, corner=1.0), Cut(-10.0, 3.0, 34.0, corner=0.89), ("1, the other 0.89;",)),
        (GROOVE, Cut(-10.0, 3.0, 34.0, chamfer=0.5), ("an edge broken by 0, the other 0.5; the larger was read",)),
        (Cut(-10.0, 3.0, 34.0, corner=1.0), Cut(-10.0, 3.0, 34.0, corner=0.91), None),
        (GROOVE, Cut(-10.0, 3.0, 34.0, corner=0.02), None),
        (Cut(-10.0, 3.0, 34.0, corner=0.5, chamfer=0.3), Cut(-10.0, 3.0, 34.0, corner=0.5, chamfer=0.3), None),
    ],
)
def test_corners_and_edges_that_the_halves_break_otherwise_are_told(upper, lower, words):
    """Beyond the pen's error, which is 0.023 here, and a tenth of the larger."""
    reading = read(Turned(PLAIN.steps, (lower,)), Turned(PLAIN.steps, (upper,)))
    assert told(reading) == []
    messages = [f.message for f in reading.findings if f.code == "halves-unlike"]
    assert len(messages) == (words is not None)
    assert all(w in messages[0] for w in words or ())


def round_floor(off=0.0, chords=0):
    """Upper half of a shaft 60 long and 50 across, a groove 4 wide with a round floor of 2: an arc, or so many chords.

    They swell from the arc by `off` half-way down on either side.
    """
    turns = [math.pi * k / chords for k in range(chords + 1)] if chords else [0.0, math.pi]
    rows = [(t, 2.0 + off * math.sin(2 * t) ** 2) for t in turns]
    floor = [(-12.0 + r * math.cos(t), 23.0 - r * math.sin(t), 0.0 if chords else -1.0) for t, r in rows]
    floor[-1] = (*floor[-1][:2], 0.0)
    shaft = [(0.0, 0.0, 0.0), (0.0, 25.0, 0.0), (-10.0, 25.0, 0.0), *floor]
    return Ink().chain([*shaft, (-14.0, 25.0, 0.0), (-60.0, 25.0, 0.0), (-60.0, 0.0, 0.0)])


@pytest.mark.parametrize(("off", "alike"), [(0.0, True), (0.02, True), (-0.02, True), (0.027, False), (-0.027, False)])
@pytest.mark.parametrize("turn", [1, -1])
def test_an_arc_and_the_chords_of_a_curve_along_it_are_alike(off, alike, turn):
    """The pen's error is 0.0234 here; what swells more is another floor, and told."""
    arc, curve = round_floor(), round_floor(off, 48)
    both = mixed(arc.map(lambda x, y: (x, turn * y)), curve.map(lambda x, y: (x, -turn * y)))
    reading = read_sheet(sheet_of(with_centre(both, PLAIN, 5.0)), ReadOptions(units="mm"))
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.width, groove.floor_diameter) == ("round", 4.0, 42.0)
    assert ("halves-unlike" not in [f.code for f in reading.findings]) is alike


@pytest.mark.parametrize(("off", "code"), [(0.022, "halves-unlike"), (0.025, "halves-disagree")])
def test_a_floor_that_one_half_shows_aslant_disagrees_beyond_the_pen(off, code):
    """By 0.0234; the level floor is read."""
    upper = mixed(*[PLAIN_HALF])
    lower = upper.map(lambda x, y: (x, -(y + off) if (x, y) == (-10.0, 17.0) else -y))
    reading = read_sheet(sheet_of(with_centre(mixed(upper, lower), PLAIN, 5.0)), ReadOptions(units="mm"))
    assert [str(f.code) for f in reading.findings] == [code]
    assert [g.floor_diameter for g in reading.part.grooves] == [34.0]


ASLANT = [(-11.0, 22.0), (-19.0, 20.0)]
ONE_WALL = [(-13.0, 20.0), (-20.0, 20.0)]
ROUNDED = [(-12.0, 21.0, math.tan(math.pi / 8)), (-13.0, 20.0), (-20.0, 20.0)]


@pytest.mark.parametrize(
    ("upper", "lower", "stop"),
    [
        (ASLANT, ASLANT, False),
        (ASLANT, [(-11.0, 22.02), (-19.0, 20.0)], False),
        (ASLANT, [(-11.0, 22.05), (-19.0, 20.0)], True),
        (ASLANT, [(-11.0, 20.0), (-19.0, 22.0)], True),
        (ONE_WALL, ONE_WALL, False),
        (ONE_WALL, [(-13.05, 20.0), (-20.0, 20.0)], True),
        ([(-10.0, 24.0), (-13.0, 20.0), (-19.0, 20.0)], [(-10.0, 22.0), (-13.0, 20.0), (-19.0, 20.0)], True),
        (ROUNDED, ROUNDED, False),
    ],
)
@pytest.mark.parametrize("turn", [1, -1])
def test_recesses_of_no_plain_shape_are_held_along_their_lines(upper, lower, stop, turn):
    """From 10 to 20 behind the front face and 20 from the axis in both halves; the pen errs by 0.0234."""

    def half(inner):
        rim = [(0.0, 0.0), (0.0, 25.0), (-10.0, 25.0), *inner, (-20.0, 25.0), (-60.0, 25.0), (-60.0, 0.0)]
        return Ink().chain([(*p, 0.0) if len(p) == 2 else p for p in rim])

    both = mixed(half(upper).map(lambda x, y: (x, turn * y)), half(lower).map(lambda x, y: (x, -turn * y)))
    reading = read_sheet(sheet_of(with_centre(both, PLAIN, 5.0)), ReadOptions(units="mm"))
    assert told(reading) == ["halves-disagree"] * stop
    assert all("in one form and the other in another" in f.message for f in reading.findings if f.stops)


PLAIN_HALF = Ink().chain([(0.0, 0.0, 0.0), *PLAIN.half(), (-PLAIN.length, 0.0, 0.0)])
