"""Several views of one part, end views, and what stands in line with them (ISO 5456-2 projection, from memory)."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from support.draw import (
    Cut,
    Drawn,
    Ink,
    Turned,
    box,
    full_outline,
    mixed,
    rotated,
    section,
    sheet_of,
    shifted,
    side_view,
    with_centre,
)
from support.varied import all_pairs, each_in_turn

from extractor import ReadOptions, read_sheet, weighing
from extractor.finding import Level
from extractor.limits import deviations
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source, Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
OUTSIDE = [("outside", -10.0, -13.0, 34.0), ("outside", -25.0, -29.0, 34.0)]
WITHIN = ("inside", -30.0, -33.0, 24.0)
MM = ReadOptions(units="mm")
LAYER = Source("1", "CIRCLE", "0")


def read(ink, options=MM, **more):
    return read_sheet(sheet_of(ink, **more), options)


def told(reading, level=Level.STOP):
    return [f.code for f in reading.findings if f.level is level]


def grooves(reading):
    """Outside first, each from the front back."""
    found = [(g.where, g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] if reading.part else []
    return sorted(found, key=lambda row: (row[0] == "inside", -row[1]))


def in_section(part=RING, bore=10.0, floor=12.0):
    """Both halves cut, with a groove in the bore; no line of it shows from outside."""
    run = [(z, r, b) for z, r, b in part.half()]
    back = [(-60.0, bore, 0.0), (-33.0, bore, 0.0), (-33.0, floor, 0.0), (-30.0, floor, 0.0), (-30.0, bore, 0.0)]
    half = Ink().chain([(0.0, bore, 0.0), *run, *back], close=True)
    return with_centre(mixed(half, half.map(lambda x, y: (x, -y))), part, 5.0)


def unlike(floor):
    """In section, the groove in the bore as deep as given in the lower half."""
    cut = in_section()
    cut.solid = [
        (a, -floor if b == -12.0 else b, c, -floor if d == -12.0 else d, bulge) for a, b, c, d, bulge in cut.solid
    ]
    return cut


@all_pairs(
    ("floor", "codes"),
    [(12.0, []), (12.5, ["halves-disagree"]), (11.5, ["halves-disagree"])],
    place=[shifted(0, 90), shifted(-120, 0)],
    first=[side_view(RING), full_outline(RING)],
)
def test_a_section_whose_halves_disagree_is_heard_beside_a_view_that_shows_no_bore(first, floor, codes, place):
    assert told(read(mixed(first, unlike(floor).map(place)))) == codes


@pytest.mark.parametrize(
    ("lower", "codes"),
    [(12.0, []), (12.5, ["halves-disagree"]), (None, ["halves-disagree"]), (0.0, ["halves-disagree"])],
)
def test_hidden_lines_of_a_bore_are_alike_on_both_sides(lower, codes):
    """One side's groove in the bore another depth, or not there, or a line of it missing."""
    ink, floor = side_view(RING), 12.0 if lower is None else lower
    upper = [(0, 10, -30, 10), (-30, 10, -30, 12), (-30, 12, -33, 12), (-33, 12, -33, 10), (-33, 10, -60, 10)]
    under = [(a, -b if b < 12 else -floor, c, -d if d < 12 else -floor) for a, b, c, d in upper]
    if lower is None:
        under = [(0, -10, -60, -10)]
    elif not lower:
        under = [(a, -b, c, -d) for a, b, c, d in upper[:-1]]
    ink.hidden += [(*line, 0.0) for line in (*upper, *under)]
    assert told(read(ink)) == codes


PLACES = {"above": shifted(0, 90), "below": shifted(0, -90), "beside": shifted(-120, 0)}


@pytest.mark.parametrize("where", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("hidden", [False, True])
def test_a_groove_that_only_the_section_shows_is_the_part_s(where, hidden):
    """The front view may show the plain bore by hidden lines: the section says more of it."""
    front = side_view(RING)
    front.hidden += [(0, y, -60, y, 0.0) for y in (10, -10)] if hidden else []
    reading = read(mixed(front, in_section().map(where)))
    assert told(reading) == []
    assert grooves(reading) == [*OUTSIDE, WITHIN]


@pytest.mark.parametrize(
    ("near", "far", "floor", "words"),
    [
        (-30.0, -33.0, 12.0, ""),
        (-30.05, -33.05, 12.0, ""),
        (-30.07, -33.0, 12.0, "at Z-30 to Z-30.07 20 24"),
        (-30.0, -32.0, 12.0, "at Z-32 to Z-33 20 24"),
        (-30.0, -33.0, 11.0, "at Z-30 to Z-33 22 24"),
        (-40.0, -43.0, 12.0, "at Z-40 to Z-43 24 20"),
    ],
)
def test_hidden_lines_of_a_bore_bear_the_section_out_or_the_views_differ(near, far, floor, words):
    """They may leave out what lies behind another line, but what they show is there; within a thousandth of 60."""
    front = side_view(RING)
    line = [(0.0, 10.0), (near, 10.0), (near, floor), (far, floor), (far, 10.0), (-60.0, 10.0)]
    for side in (1, -1):
        front.hidden += [(a, side * r, b, side * q, 0.0) for (a, r), (b, q) in pairwise(line)]
    reading = read(mixed(front, in_section().map(shifted(0, -90))))
    assert told(reading) == (["several-parts"] if words else [])
    stop = " ".join(f.message.replace(":", "").replace(",", "") for f in reading.findings if f.stops)
    assert set(words.split()) <= set(stop.split())


@pytest.mark.parametrize("where", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize(
    ("cut", "words"),
    [
        (Cut(-25.0, 4.0, 34.0), None),
        (Cut(-25.05, 4.0, 34.0), "at Z-25 to Z-25.05 one shows 34 the other 40"),
        (Cut(-25.0, 4.05, 34.0), "at Z-29 to Z-29.05 one shows 40 the other 34"),
        (Cut(-25.0, 4.0, 34.05), "at Z-25 to Z-29 one shows 34 the other 34.05"),
    ],
)
def test_a_groove_that_stands_a_little_elsewhere_in_another_view_is_told(cut, words, where):
    """Half a tenth is more than two hands differ by, and not enough to make the views two parts."""
    other = side_view(Turned(RING.steps, (RING.cuts[0], cut))).map(where)
    reading = read(mixed(side_view(RING), other))
    assert told(reading) == []
    said = [f.message for f in reading.findings if f.code == "views-differ"]
    assert len(said) == (words is not None)
    # Either may be the view that was read.
    assert all(set(words.split()) <= set(message.strip(".").replace(",", "").split()) for message in said)
    # Unlike views are not said to be alike.
    assert ("drawn-again" in told(reading, Level.CAUTION)) is (words is None)


@pytest.mark.parametrize(("off", "slight"), [(0.0216, False), (0.0217, True)])
def test_how_far_two_views_of_a_part_may_lie_apart(off, slight):
    """Three ten-thousandths of the view's diagonal of 72.11, that is 0.02163, as two halves may."""
    other = side_view(Turned(RING.steps, (RING.cuts[0], Cut(-25.0 - off, 4.0, 34.0))))
    reading = read(mixed(side_view(RING), other.map(shifted(0, 90))))
    assert ("views-differ" in told(reading, Level.CAUTION)) is slight


def in_face(*rings):
    """The front of a section from its bore of 20 out to its edge, with grooves of so many (inner, outer, depth)."""
    walls = [
        (z, r) for inner, outer, deep in rings for z, r in ((0, inner), (-deep, inner), (-deep, outer), (0, outer))
    ]
    return [(0.0, 10.0), *walls, (0.0, 20.0)]


def faced(*rings):
    """Both halves cut, with such grooves."""
    run = [(z, r, 0.0) for z, r in in_face(*rings)]
    half = Ink().chain([*run[:-1], *RING.half(), (-60.0, 10.0, 0.0)], close=True)
    return with_centre(mixed(half, half.map(lambda x, y: (x, -y))), RING, 5.0)


IN_FACE = ((12.0, 14.0, 2.0), (16.0, 18.0, 3.0))


@pytest.mark.parametrize(
    ("shown", "words"),
    [
        (IN_FACE, ""),
        (IN_FACE[1:], ""),
        ((IN_FACE[0], (16.0, 18.05, 3.0)), ""),
        (
            (IN_FACE[0], (16.0, 18.07, 3.0)),
            "a groove 32 to 36.14 across and 3 deep; a groove 32 to 36 across and 3 deep",
        ),
        ((IN_FACE[0], (16.0, 18.0, 3.05)), ""),
        (
            (IN_FACE[0], (16.0, 18.0, 2.93)),
            "a groove 32 to 36 across and 2.93 deep; a groove 32 to 36 across and 3 deep",
        ),
        (((12.0, 18.0, 3.0),), "a groove 24 to 36 across and 3 deep; a groove 24 to 28 across and 2 deep"),
        ((*IN_FACE, (18.5, 19.5, 2.0)), "in the face at Z0 one shows; no groove; a groove 37 to 39 across and 2 deep"),
    ],
)
def test_hidden_lines_of_grooves_in_a_face_bear_the_section_out_or_the_views_differ(shown, words):
    """They may leave one out; what they show is there, within a thousandth of the length of 60."""
    front = side_view(RING)
    for side in (1, -1):
        front.hidden += [(a, side * r, b, side * q, 0.0) for (a, r), (b, q) in pairwise(in_face(*shown)) if a or b]
        front.hidden.append((0.0, side * 10.0, -60.0, side * 10.0, 0.0))
    reading = read(mixed(front, faced(*IN_FACE).map(shifted(0, -90))))
    assert told(reading) == (["several-parts"] if words else [])
    message = " ".join(f.message for f in reading.findings if f.stops)
    assert all(part in message for part in words.split("; "))
    if not words:
        floors = [(g.floor_diameter, g.z_far) for g in reading.part.grooves if g.where == "face"]
        assert sorted(z for _, z in floors) == [-3.0, -2.0]


@pytest.mark.parametrize(("other", "same"), [(IN_FACE, True), (IN_FACE[1:], False)])
def test_a_groove_in_a_face_that_one_of_two_sections_lacks_is_asked_about(other, same):
    reading = read(mixed(faced(*IN_FACE), faced(*other).map(shifted(0, -90))))
    assert told(reading) == ([] if same else ["several-parts"])


def test_a_section_seen_from_the_other_end_is_turned_to_fit():
    """Two views drawn front to front: whichever end is taken, outside and bore belong to one part."""
    reading = read(mixed(side_view(RING), in_section().map(rotated(180, -60, 90))))
    assert told(reading) == []
    rows = [(w, round(a, 6), round(b, 6), round(f, 6)) for w, a, b, f in grooves(reading)]
    mirrored = [(w, -60 - b, -60 - a, f) for w, a, b, f in (*reversed(OUTSIDE), WITHIN)]
    assert rows in ([*OUTSIDE, WITHIN], mirrored)


@pytest.mark.parametrize("at", [(-40.0, 5.0), (-40.0, 95.0)])
def test_whichever_view_is_pointed_to_the_other_is_not_forgotten(at):
    sheet = mixed(side_view(RING), in_section().map(shifted(0, 90)))
    reading = read(sheet, ReadOptions(units="mm", at=at))
    assert told(reading) == []
    assert grooves(reading) == [*OUTSIDE, WITHIN]


def test_a_section_without_a_centre_line_of_its_own_is_no_second_part():
    cut = in_section()
    cut.centre.clear()
    reading = read(mixed(side_view(RING), cut.map(shifted(0, 90))))
    assert told(reading) == []
    assert grooves(reading) == [*OUTSIDE, WITHIN]
    assert "passed-over" not in told(reading, Level.CAUTION)
    assert told(reading, Level.NOTE) == ["read-together"]


def larger(times, dy):
    """The section drawn so many times as large, `dy` away."""
    return in_section().map(lambda x, y: (times * x, times * y + dy))


HEADED = Text("A-A (2:1)", (-80.0, 190.0), 5.0)


def width(z, r, dy=0.0, times=1.0, text=None, tall=3.0):
    """A dimension of a length from z on, with its printed size, as it stands at a view."""
    ends = ((times * z, times * r + dy), (times * (z - tall), times * r + dy))
    return Dimension(DimensionKind.LINEAR, ends, 0.0, times * tall, text, 1 / times)


@pytest.mark.parametrize("at", [None, (-40.0, 5.0)])
@pytest.mark.parametrize(
    ("times", "note", "sizes", "one_part"),
    [
        (2.0, HEADED, (), True),
        (2.0, Text("SECTION A-A  M 2 : 1", (-80.0, 190.0), 5.0), (), True),
        (2.0, Text("A-A (5:1)", (-80.0, 190.0), 5.0), (), False),
        (2.0, Text("A-A (2:1)", (-30.0, -22.0), 5.0), (), False),  # the heading of the other view
        (2.0, None, (width(-10.0, 20, 100, 2.0), width(0.0, 20, 100, 2.0, tall=10.0)), True),
        (2.0, None, (), False),
        (2.0, Text("DATE 02:01", (-80.0, 190.0), 5.0), (), False),
    ],
)
def test_a_section_at_another_scale_that_the_sheet_names_is_the_same_part(at, times, note, sizes, one_part):
    """By its heading or by sizes printed true; else it is asked which is meant, and either tells of the other."""
    sheet = mixed(side_view(RING), larger(times, 100))
    texts = () if note is None else (note,)
    reading = read(sheet, ReadOptions(units="mm", at=at), texts=texts, dimensions=sizes)
    if one_part:
        assert (told(reading), grooves(reading)) == ([], [*OUTSIDE, WITHIN])
    elif at is None:
        assert told(reading) == ["several-parts"]
    else:
        (caution,) = [f for f in reading.findings if f.code == "views-differ"]
        assert (grooves(reading), "it alone shows a recess in the bore" in caution.message) == (OUTSIDE, True)


@pytest.mark.parametrize("times", [1.0, 2.0])
def test_a_section_at_another_scale_tells_of_its_edges_what_one_at_the_same_does(times):
    """Grooves in the bore and in the face, their edges rounded by 0.5; a quarter turn bulges by tan 22.5."""
    turn = math.tan(math.pi / 8)
    ring = [(0, 12.5, turn), (-0.5, 13, 0.0), (-3, 13, 0.0), (-3, 17, 0.0), (-0.5, 17, turn), (0, 17.5, 0.0)]
    groove = [(-33.5, 10, turn), (-33, 10.5, 0.0), (-33, 12, 0.0), (-30, 12, 0.0), (-30, 10.5, turn), (-29.5, 10, 0.0)]
    half = Ink().chain([(0, 10, 0.0), *ring, *RING.half(), (-60, 10, 0.0), *groove], close=True)
    cut = with_centre(mixed(half, half.map(lambda x, y: (x, -y))), RING, 5.0)
    sheet = mixed(side_view(RING), cut.map(lambda x, y: (times * x, times * y + 100)))
    reading = read(sheet, texts=(HEADED,) if times == 2.0 else ())
    assert told(reading) == []
    edges = {g.where: (g.rounded, round(g.edge_chamfer, 6)) for g in reading.part.grooves}
    assert edges == {"outside": (False, 0.0), "inside": (True, 0.5), "face": (True, 0.5)}


@pytest.mark.parametrize(("times", "one_part"), [(2.0018, True), (2.0022, False)])
def test_a_section_is_drawn_at_the_scale_that_its_heading_names(times, one_part):
    """A thousandth of the size is the pen's error: what is longer by more, at that scale, is another part."""
    reading = read(mixed(side_view(RING), larger(times, 100)), texts=(HEADED,))
    assert told(reading) == ([] if one_part else ["several-parts"])


def test_a_view_at_true_size_answers_before_one_drawn_larger():
    """Pointed to, the larger one asks for its scale, and reads the same with it."""
    sizes = (width(-10.0, 20, 100, 2.0), width(0.0, 20, 100, 2.0, tall=10.0), width(-10.0, 20))
    sheet = mixed(larger(2.0, 100), side_view(RING))
    for more in ({"dimensions": sizes}, {"texts": (HEADED,)}):
        assert (told(read(sheet, **more)), grooves(read(sheet, **more))) == ([], [*OUTSIDE, WITHIN])
        pointed = ReadOptions(units="mm", at=(-80.0, 105.0))
        assert told(read(sheet, pointed, **more)) == ["sheet-scale"]
        reading = read(sheet, ReadOptions(units="mm", at=pointed.at, scale=2.0), **more)
        assert (told(reading), grooves(reading)) == ([], [*OUTSIDE, WITHIN])


@all_pairs(
    ("dy", "z", "r"),
    [(0.0, -10.0, 20.0), (100.0, -10.0, 20.0), (100.0, -30.0, 10.0)],
    at=[None, (-40.0, 5.0), (-40.0, 105.0)],
    turned=[False, True],
)
def test_what_is_printed_at_any_view_holds_for_the_part(at, turned, dy, z, r):
    """A width of 3 that prints 4 contradicts, at whichever view it stands; a tolerance is the groove's."""
    where = rotated(180, -60, 100) if turned else shifted(0, 100)
    sheet = mixed(side_view(RING), in_section().map(where))
    places = tuple((where if dy else shifted(0, 0))(x, r) for x in (z, z - 3.0))
    for text, stops, limits in (("4", ["dimension-contradicts"], ()), ("3 +0.1/0", [], (0.0, 0.1))):
        size = Dimension(DimensionKind.LINEAR, places, 0.0, 3.0, text)
        reading = read(sheet, ReadOptions(units="mm", at=at), dimensions=(size,))
        assert told(reading) == stops
        assert [deviations(g)["width"] for g in reading.part.grooves if "width" in deviations(g)] == (
            [limits] if limits else []
        )


STEPPED = Turned(((20.0, 30.0), (40.0, 40.0)), (Cut(-30.0, 3.0, 34.0),))
OTHERS = {
    "a step": (Turned(((20.0, 24.0), (40.0, 40.0)), STEPPED.cuts), "at Z0 to Z-20 one shows 30, the other 24"),
    "a wall": (Turned(STEPPED.steps, (Cut(-30.0, 4.0, 34.0),)), "at Z-33 to Z-34 one shows 40, the other 34"),
    "a floor": (Turned(STEPPED.steps, (Cut(-30.0, 3.0, 33.0),)), "at Z-30 to Z-33 one shows 34, the other 33"),
    "the length": (Turned(((20.0, 30.0), (45.0, 40.0)), STEPPED.cuts), "one is 65 long, the other 60"),
}


@pytest.mark.parametrize(("other", "words"), OTHERS.values(), ids=OTHERS)
def test_the_difference_between_two_views_is_named(other, words):
    reading = read(mixed(side_view(STEPPED), side_view(other).map(shifted(0, 90))))
    (stop,) = [f for f in reading.findings if f.stops]
    assert stop.code == "several-parts"
    assert words in stop.message
    assert "point to one with --at" in stop.message


@pytest.mark.parametrize("at", [(-30.0, 0.0), (-30.0, 90.0)])
def test_the_place_offered_reads_one_view_and_tells_of_the_other(at):
    sheet = mixed(side_view(STEPPED), side_view(OTHERS["a step"][0]).map(shifted(0, 90)))
    offered = next(f.message for f in read(sheet).findings if f.stops)
    assert f"X{at[0]:.4g} Y{at[1]:.4g}" in offered
    reading = read(sheet, ReadOptions(units="mm", at=at))
    assert told(reading) == []
    (caution,) = [f for f in reading.findings if f.level is Level.CAUTION]
    assert caution.code == "views-differ"
    assert "30" in caution.message
    assert "24" in caution.message


@pytest.mark.parametrize(("at", "alone"), [((-50.0, 5.0), True), ((-50.0, 95.0), False)])
def test_a_view_that_differs_is_told_with_what_it_alone_shows(at, alone):
    """One groove is a millimetre wider in the section, which alone has the groove in the bore."""
    wider = Turned(RING.steps, (RING.cuts[0], Cut(-25.0, 5.0, 34.0)))
    front = side_view(RING)
    front.hidden += [(0, y, -60, y, 0.0) for y in (10, -10)]
    reading = read(mixed(front, in_section(wider).map(shifted(0, 90))), ReadOptions(units="mm", at=at))
    (caution,) = [f for f in reading.findings if f.code == "views-differ"]
    assert "at Z-29 to Z-30" in caution.message
    assert ("it alone shows a recess in the bore" in caution.message) is alone
    assert (WITHIN in grooves(reading)) is not alone


@pytest.mark.parametrize(
    ("across", "caution"), [((40,), ["inside-groove"]), ((40, 30), ["views-differ", "inside-groove"])]
)
def test_of_a_view_with_a_section_and_an_end_view_each_remark_is_kept(across, caution):
    """A circle that the view alone would take for a groove in its face is no land of the section."""
    rings = tuple(Circle((120.0, 0.0), d / 2, LAYER) for d in across)
    front, cut = side_view(RING), in_section().map(shifted(0, 90))
    assert told(read(front, circles=rings), Level.CAUTION) == ([] if across == (40,) else ["face-unclear"])
    reading = read(mixed(front, cut), circles=rings)
    assert (told(reading, Level.NOTE), told(reading, Level.CAUTION)) == (["read-together"], caution)


@pytest.mark.parametrize(("by", "alike"), [(0.058, True), (0.062, False)])
def test_views_alike_within_the_pen_are_one_part(by, alike):
    """A thousandth of the greater size, 0.06 on the radius, is taken for the pen's error."""
    other = Turned(((20.0, 30.0 + 2 * by), (40.0, 40.0)), STEPPED.cuts)
    reading = read(mixed(side_view(STEPPED), side_view(other).map(shifted(0, 90))))
    assert told(reading) == ([] if alike else ["several-parts"])


STEPS = Turned(((20.0, 26.0), (40.0, 36.0)), (Cut(-40.0, 3.0, 30.0),))


@pytest.mark.parametrize(
    ("across", "stop", "caution"),
    [
        ([26, 36], [], []),
        ([26, 40], ["outline-doubtful"], []),
        ([26, 43.3], ["outline-doubtful"], []),  # off by more than a fifth, and yet about a circle of the part's
        ([26, 36.17], [], []),
        ([26, 36.2, 36], ["outline-doubtful"], []),
        ([26, 36.17, 36], [], []),
        ([24, 36], [], ["views-differ"]),
        ([20.7, 36], [], ["face-unclear"]),  # off by more than a fifth: a hole's
        ([20.9, 36], [], ["views-differ"]),
        ([25.9, 36], [], []),  # within half a hundredth, as views drawn by themselves are
        ([25.85, 36], [], ["views-differ"]),
        ([12, 26, 36], [], ["face-unclear"]),
        ([30, 26, 36], [], []),  # as wide as the groove's floor: of a section taken there
        ([36], [], []),
        ([24], [], []),
        ([26, 30], [], ["views-differ"]),  # the floor of the groove, which a land hides from either end
    ],
)
@pytest.mark.parametrize("at", [40.0, -110.0])
def test_circles_of_an_end_view_are_held_against_the_lands_seen_from_there(across, stop, caution, at):
    """A step may be left out; a hole that the view hides is told; a land of another diameter is a contradiction, and
    one wider than the part a stop."""
    rings = [Circle((at, 0.0), d / 2, LAYER) for d in across]
    reading = read(side_view(STEPS), circles=tuple(rings))
    assert (told(reading), told(reading, Level.CAUTION)) == (stop, caution)


BEVELLED = Turned(((20.0, 26.0), (40.0, 36.0)), (Cut(-40.0, 3.0, 30.0),), chamfer=1.0)


@pytest.mark.parametrize(
    ("across", "heard"), [([24, 36], True), ([24, 26, 36], False), ([26, 36], False), ([24], False)]
)
def test_a_circle_at_the_edge_of_a_chamfer_shows_no_land_that_has_none(across, heard):
    """The chamfer's edge is 24 across and its land 26: who draws the one draws the other, unless it is a hole alone."""
    rings = tuple(Circle((40.0, 0.0), d / 2, LAYER) for d in across)
    assert ("views-differ" in told(read(side_view(BEVELLED), circles=rings), Level.CAUTION)) is heard


@pytest.mark.parametrize(
    ("pen", "ends", "explained"),
    [
        ("solid", (0.0, 6.0, -20.0, 6.0), True),
        ("solid", (0.0, 6.02, -20.0, 6.02), True),  # half a hundredth of 6 is 0.03
        ("solid", (0.0, 6.04, -20.0, 6.04), False),
        ("solid", (0.0, 6.0, -20.0, 6.2), False),
        ("solid", (70.0, 6.0, 90.0, 6.0), False),
    ],
)
def test_a_line_along_the_axis_explains_a_circle_of_the_end_view(pen, ends, explained):
    """The hole is 12 across: a line of the view at its height says that it is seen there, whatever it was taken for."""
    ink = side_view(STEPS)
    getattr(ink, pen).extend([(*ends, 0.0), (ends[0], -ends[1], ends[2], -ends[3], 0.0)])
    rings = tuple(Circle((40.0, 0.0), d / 2, LAYER) for d in (12, 26, 36))
    words = [f.message for f in read(ink, circles=rings).findings]
    assert any("a circle 12 across that the view read shows nothing of" in one for one in words) is not explained


@pytest.mark.parametrize(("bore", "more"), [(14.0, True), (10.0, False), (10.04, False), (9.9, True)])
def test_a_circle_that_a_section_has_nothing_of_is_another_view_s(bore, more):
    rings = tuple(Circle((40.0, 0.0), d / 2, LAYER) for d in (bore, 40))
    ink = section(Turned(RING.steps, RING.cuts, bore=10.0))
    assert ("views-differ" in told(read(ink, circles=rings), Level.CAUTION)) is more


@pytest.mark.parametrize("across", ["edges", "a size"])
def test_another_part_as_high_and_in_line_is_no_end_of_the_one_pointed_to(across):
    """As large as an end view would be, and not round: edges right across it, or a diameter, show it from the side."""
    other = (side_view if across == "edges" else full_outline)(Turned(((45.0, 40.0),), (Cut(-8.0, 3.0, 34.0),)))
    size = Dimension(DimensionKind.LINEAR, ((70.0, 20.0), (70.0, -20.0)), 90.0, 40.0, "\u00d840")
    both = mixed(side_view(RING), other.map(shifted(100, 0)))
    sizes = () if across == "edges" else (size,)
    assert told(read(both, dimensions=sizes)) == ["several-parts"]
    pointed = read(both, ReadOptions(units="mm", at=(-30.0, 0.0)), dimensions=sizes)
    assert (told(pointed), grooves(pointed)) == ([], OUTSIDE)


@pytest.mark.parametrize(("off", "pen", "heard"), [(0.0, "solid", True), (1.0, "solid", False), (0.0, "centre", False)])
def test_only_visible_circles_on_the_axis_are_an_end_view(off, pen, heard):
    """A pitch circle is drawn as a centre line; circles beside the axis are another figure."""
    rings = [Circle((40.0, off), d / 2, Source("1", "CIRCLE", "0", Pen(pen))) for d in (24, 36)]
    assert ("views-differ" in told(read(side_view(STEPS), circles=tuple(rings)), Level.CAUTION)) is heard


@pytest.mark.parametrize(("crossed", "d", "stop"), [(True, 43.0, True), (False, 43.0, False), (True, 49.0, False)])
@pytest.mark.parametrize("turn", [90.0, 80.5, 80.0])
def test_one_circle_where_centre_lines_cross_is_an_end_view_though_no_edge_fits(crossed, d, stop, turn):
    """A shaft 40 across and a circle of 43; one 49 across may be another part's, and is told; one with one centre line
    is another thing.

    Lines 80.2 degrees apart still cross squarely.
    """
    ring = Circle((60.0, 0.0), d / 2, Source("1", "CIRCLE", "0", Pen.SOLID))
    ink = side_view(RING)
    ink.centre.append((35.0, 0.0, 85.0, 0.0, 0.0))
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    ink.centre += [(60 - 25 * c, -25 * s, 60 + 25 * c, 25 * s, 0.0)] if crossed else []
    reading = read(ink, circles=(ring,))
    assert told(reading) == (["outline-doubtful"] if stop and turn > 80.2 else [])
    wider = [f for f in reading.findings if "a circle 49 across, and the view that was read is nowhere" in f.message]
    assert bool(wider) is (crossed and d == 49.0 and turn > 80.2)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ((5.0, 60.0, -65.0, 60.0), True),
        ((-1.4, 60.0, -58.6, 60.0), True),  # 0.02 of the size, 72.1, is 1.44
        ((-1.5, 60.0, -60.0, 60.0), False),
        ((0.0, 60.0, -58.5, 60.0), False),
        ((0.0, 60.0, -60.0, 61.4), True),
        ((0.0, 60.0, -60.0, 61.5), False),
        ((0.0, 21.4, -60.0, 21.4), False),
        ((0.0, 21.5, -60.0, 21.5), True),
        ((0.0, 60.0, -90.0, 60.0), True),  # half as long again at most
        ((0.0, 60.0, -90.1, 60.0), False),
    ],
)
@pytest.mark.parametrize("side", [1, -1])
def test_a_centre_line_from_end_to_end_beside_the_view_says_that_something_was_drawn_there(line, told, side):
    ink = side_view(RING)
    x0, y0, x1, y1 = line
    ink.centre.append((x0, side * y0, x1, side * y1, 0.0))
    middle = side * (y0 + y1) / 2
    ink.solid += [(-20.0, middle + off, -40.0, middle + off + 0.4, 0.0) for off in (9.0, 7.0, -7.0, -9.0)]
    findings = [f for f in read(ink).findings if "runs from end to end of the view" in f.message]
    assert bool(findings) is told
    assert all((f.code, f.level) == ("passed-over", Level.CAUTION) for f in findings)


@pytest.mark.parametrize(
    ("offs", "told"),
    [
        ((9.0, 7.0, -7.0, -9.0), True),
        ((9.0, 7.0, 5.0, -7.0), False),
        ((9.0, 7.0, -7.0, -20.3), False),  # the view reaches 20
        ((9.0, 7.0, -7.0, -20.1), True),
        ((), False),
    ],
)
def test_a_centre_line_without_lines_on_both_sides_is_no_axis_of_a_view(offs, told):
    ink = side_view(RING)
    ink.centre.append((5.0, 80.0, -65.0, 80.0, 0.0))
    ink.solid += [(-20.0, 80.0 + off, -40.0, 80.2 + off, 0.0) for off in offs]
    assert any("runs from end to end" in f.message for f in read(ink).findings) is told


def test_a_centre_line_about_which_a_view_was_read_is_not_told():
    both = mixed(side_view(RING), in_section(RING).map(shifted(0, 90)))
    assert not any("end to end" in f.message for f in read(both).findings)


def test_a_section_below_whose_sizes_are_strokes_on_one_another_is_read(tmp_path):
    """Several sizes begin at one face, so that their extension lines lie on one another and on the face's own."""
    ink = mixed(side_view(RING), in_section(RING).map(shifted(0, -90)))
    texts = []
    for row, (a, b) in enumerate(((0.0, -10.0), (0.0, -13.0), (0.0, -25.0), (0.0, -60.0), (-10.0, -13.0))):
        y = -120.0 - 8 * row
        ink.solid += [(x, -110.6, x, y - 1.5, 0.0) for x in (a, b)] + [(a, y, b, y, 0.0)]
        ink.solid += [(x - 1.2, y - 1.2, x + 1.2, y + 1.2, 0.0) for x in (a, b)]
        texts.append(Text(f"{a - b:g}", ((a + b) / 2 - 1, y + 1.2), 3.5))
    reading = read(ink, texts=tuple(texts))
    assert told(reading) == []
    assert sorted(grooves(reading)) == sorted([*OUTSIDE, WITHIN])


ASLANT = [(0.0, True, False), (0.55, True, False), (0.6, True, True), (30.0, True, True), (89.4, True, True)]


@pytest.mark.parametrize(("degrees", "signed", "passed"), [*ASLANT, (90.0, True, False), (30.0, False, False)])
def test_a_picture_drawn_aslant_is_no_second_part_beside_a_view_with_a_diameter(degrees, signed, passed):
    """No view has a centre line; within a hundredth of a radian the other lies along the first or square to it."""
    other = side_view(OTHERS["a step"][0], None).map(rotated(degrees, 0, 150))
    size = Dimension(DimensionKind.LINEAR, ((-40.0, 20.0), (-40.0, -20.0)), 90.0, 40.0, "%%c40")
    reading = read(mixed(side_view(STEPPED, None), other), dimensions=(size,) if signed else ())
    assert (told(reading), "passed-over" in told(reading, Level.CAUTION)) == (
        [] if passed else ["several-parts"],
        passed,
    )
    assert not passed or grooves(reading) == [("outside", -30.0, -33.0, 34.0)]


def draft():
    """The ring's outline with one end face and a wall left out."""
    ink = full_outline(RING)
    return Ink([e for e in ink.solid if e[0] != e[2] or e[0] not in (-60.0, -13.0)], ink.centre)


def test_open_drafts_beside_a_view_that_closes_are_passed_over_with_a_caution():
    reading = read(mixed(side_view(RING), draft().map(shifted(0, 90)), draft().map(shifted(0, 180))))
    assert told(reading) == []
    assert grooves(reading) == OUTSIDE
    assert set(told(reading, Level.CAUTION)) <= {"passed-over", "drawn-again"}


def polygon(corners, reach, turn=0.0):
    """A regular polygon whose sides stand `reach` from its middle."""
    out = reach / math.cos(math.pi / corners)
    angles = [math.radians(turn) + math.tau * (k + 0.5) / corners for k in range(corners)]
    return Ink().chain([(80 + out * math.cos(a), out * math.sin(a), 0.0) for a in angles], close=True)


def flattened(height):
    """A circle of radius 20 with a flat at a height."""
    half = math.sqrt(400 - height**2)
    bulge = math.tan((math.tau - 2 * math.asin(half / 20)) / 4)
    return Ink().chain([(80 - half, height, bulge), (80 + half, height, 0.0)], close=True)


def keyed():
    """A circle of radius 20 with a keyway 8 wide and 5 deep."""
    rise = math.sqrt(400 - 16)
    bulge = math.tan((math.tau - 2 * math.asin(4 / 20)) / 4)
    return Ink().chain([(76, rise, bulge), (84, rise, 0), (84, 15, 0), (76, 15, 0)], close=True)


def bracket(*centre, foot=20):
    """The end of a cast bracket: a foot down to `foot` and a post as high as the part."""
    shape = [(65, -foot), (115, -foot), (115, -12), (100, -8), (100, 20), (80, 20), (80, -8), (65, -12)]
    ink = Ink().chain([(x, y, 0.0) for x, y in shape], close=True)
    ink.centre += centre
    return ink


CROSS = ((90.0, -25.0, 90.0, 25.0, 0.0), (55.0, 0.0, 125.0, 0.0, 0.0))
ENDS = {
    "a bracket about crossed centre lines": (bracket(*CROSS), "not-round"),
    "a bracket whose foot stands out": (bracket(*CROSS, foot=39), "not-round"),
    "a figure far out of the part": (bracket(*CROSS, foot=41), None),
    "a bracket without, as a detail may be": (bracket(), None),
    "square": (polygon(4, 20.0, 0.0), "not-round"),
    "square on its corner": (polygon(4, 20.0 / math.sqrt(2), 45.0), "not-turned"),
    "hexagon": (polygon(6, 20.0, 30.0), "not-round"),
    "hexagon on its corner": (polygon(6, 20.0 * math.cos(math.pi / 6), 0.0), "not-turned"),
    "plate": (box(70, -20, 90, 20), "not-round"),
    "plate, corners just out": (box(75.8, -20, 84.2, 20), "not-round"),
    "plate, corners just not": (box(76.2, -20, 83.8, 20), "not-turned"),
    "flat": (flattened(16.0), "not-turned"),
    "flat just deep enough": (flattened(18.9), "not-turned"),
    "flat just not": (flattened(19.1), None),
    "keyway": (keyed(), None),
    "smaller square": (polygon(4, 8.0), None),
    "as high below the axis, as a detail may be": (Ink().chain([(80, 0, 1.0), (160, 0, 0.0)], close=True), None),
    "square off the axis": (polygon(4, 20.0).map(shifted(0, 30)), None),
}


@each_in_turn(("end", "odd"), ENDS.values(), draw=[side_view, full_outline])
def test_an_end_view_that_is_not_round_is_heard(end, odd, draw):
    reading = read(mixed(draw(RING), end))
    assert told(reading) == ([odd] if odd else [])
    assert grooves(reading) == OUTSIDE


@pytest.mark.parametrize(("name", "answered"), [("hexagon on its corner", True), ("hexagon", False)])
def test_the_user_may_answer_for_flats_but_not_for_corners_that_stand_out(name, answered):
    """A tool that comes down to the diameter read would run into corners beyond it."""
    accept = frozenset({"not-turned", "not-round"})
    reading = read(mixed(side_view(RING), ENDS[name][0]), ReadOptions(units="mm", accept=accept))
    assert told(reading) == ([] if answered else ["not-round"])
    assert grooves(reading) == OUTSIDE


@pytest.mark.parametrize(("floor", "by"), [(30.0, "words"), (16.8, "words"), (16.4, "assumed")])
def test_words_at_a_view_that_differs_in_a_groove_are_heard(floor, by):
    """A groove 3 wide, 8.67 deeper in one view than in the other: a hundredth of the square of 72.1."""
    word = Dimension(DimensionKind.LEADER, ((-60.0, 10.0), (-70.0, 35.0)), 0.0, 0.0, "FRONT FACE")
    other = Turned(RING.steps, (Cut(-10.0, 3.0, floor), RING.cuts[1]))
    both = mixed(side_view(RING), side_view(other).map(shifted(0, -90)))
    reading = read(both, ReadOptions(units="mm", at=(-30.0, -90.0)), dimensions=(word,))
    assert (reading.front.by, reading.front.end) == (by, "left" if by == "words" else "right")


@pytest.mark.parametrize("low", [0.0, -90.0])
@pytest.mark.parametrize(("words", "stop"), [("3 WIDE x 3 DEEP", []), ("4 WIDE x 3 DEEP", ["note-contradicts"])])
def test_a_note_that_a_loose_line_leads_to_a_groove_is_heard_at_any_view(low, words, stop):
    """The part from the side, and again below; each of them with the note in turn."""
    both = mixed(side_view(RING), side_view(RING).map(shifted(0, -90)))
    both.solid.append((-11.5, 17.0 + low, -16.0, 30.0 + low, 0.0))
    note = Text(words, (-16.0 - 0.7 * 2.5 * len(words), 30.0 + low), 2.5)
    assert told(read(both, texts=(note,))) == stop


@pytest.mark.parametrize(("spanned", "code"), [(True, "in-pieces"), (False, "several-parts")])
def test_figures_on_one_axis_that_a_size_goes_across_are_pieces_of_one_part(spanned, code):
    """A groove whose walls are missing: neither piece is the part, so neither is offered."""
    front, back = Turned(((20.0, 40.0),)), Turned(((30.0, 50.0),))
    overall = Dimension(DimensionKind.LINEAR, ((0.0, 20.0), (-54.0, 25.0)), 0.0, 54.0, None)
    across = tuple(
        Dimension(DimensionKind.LINEAR, ((z, d / 2), (z, -d / 2)), 90.0, d, f"\u00d8{d:g}")
        for z, d in ((-5.0, 40.0), (-30.0, 50.0))
    )
    both = mixed(side_view(front), full_outline(back).map(shifted(-24, 0)))
    assert told(read(both, dimensions=(*across, *([overall] if spanned else [])))) == [code]


ONE_VIEW = {"_views_of": lambda _: (1, 0)}
CURABLE = {"INCURABLE": frozenset()}


@pytest.mark.parametrize(
    ("without", "stop"),
    [({}, ["several-parts"]), (ONE_VIEW, ["several-parts"]), (CURABLE, ["several-parts"]), (ONE_VIEW | CURABLE, [])],
    ids=["both", "views", "stops", "neither"],
)
def test_views_that_differ_do_so_about_any_axis(monkeypatch, without, stop):
    """Wider than long, so that it could be turned about the line across it as well, with printed sizes that fit one.

    That two views were read holds it back, and so does the stop that they differ; without either it would be misread.
    """
    for name, less in without.items():
        monkeypatch.setattr(weighing, name, less)
    one = Turned(((20.0, 26.0),), (Cut(-8.0, 1.3, 24.0), Cut(-12.5, 2.0, 24.0)), chamfer=1.0)
    two = Turned(((20.0, 20.0),), chamfer=1.0)
    sizes = tuple(
        Dimension(DimensionKind.LINEAR, ends, 0.0, abs(ends[0][0] - ends[1][0]), None)
        for ends in (((0.0, 12.0), (-20.0, 13.0)), ((0.0, 12.0), (-8.0, 13.0)), ((-8.0, -13.0), (-9.3, -13.0)))
    )
    sizes += (Dimension(DimensionKind.LINEAR, ((-20.0, 13.0), (-20.0, -13.0)), 90.0, 26.0, "\u00d826"),)
    both = mixed(side_view(one), side_view(two).map(shifted(0, -68)))
    assert told(read(both, dimensions=sizes)) == stop


@pytest.mark.parametrize(("gap", "code"), [(0.44, "in-pieces"), (0.46, "several-parts")])
def test_figures_with_nothing_but_a_gap_between_them_are_pieces_of_one_part(gap, code):
    """A hundredth of the first, 20 long and 40 across: 0.447; neither piece is offered as the part."""
    front, back = Turned(((20.0, 40.0),)), Turned(((30.0, 34.0),))
    sizes = tuple(
        Dimension(DimensionKind.LINEAR, ((z, d / 2), (z, -d / 2)), 90.0, d, f"\u00d8{d:g}")
        for z, d in ((-5.0, 40.0), (-30.0, 34.0))
    )
    both = mixed(full_outline(front), full_outline(back).map(shifted(-20 - gap, 0)))
    assert told(read(both, dimensions=sizes)) == [code]


def without_a_floor(width, low=20.0, before=3.0):
    """No centre line, and no floor of a groove near the front; `low`: radius of the piece before it."""
    back = Turned(((30.0 - before - width, 40.0), (60.0, 50.0)), (Cut(-20.0, 3.0, 34.0),))
    front = Turned(((before, 2 * low),), chamfer=1.0)
    return mixed(side_view(front, None), side_view(back, None).map(shifted(-before - width, 0)))


@pytest.mark.parametrize(
    ("how", "stop"),
    [
        ({"width": 2.0}, True),
        ({"width": 2.0, "before": 1.5}, True),
        ({"width": 9.9}, True),
        ({"width": 10.1}, False),
        ({"width": 2.0, "low": 20.08}, True),
        ({"width": 2.0, "low": 20.12}, False),
        ({"width": 2.0, "low": 15.0}, False),
    ],
)
@pytest.mark.parametrize("turn", [0, 90, 180])
def test_a_piece_before_a_groove_whose_floor_is_missing_is_of_the_part(how, stop, turn):
    """Walls 40 high face each other within a quarter of that; they are as high within a thousandth of a view of 100."""
    found = told(read(without_a_floor(**how).map(rotated(turn))))
    assert ("in-pieces" in found) is stop


ANOTHER = {
    "a floor": (
        Turned(RING.steps, (Cut(-10.0, 3.0, 30.0), RING.cuts[1])),
        "at Z-10 to Z-13 one shows 34, the other 30",
    ),
    "a wall": (Turned(RING.steps, (Cut(-10.0, 4.0, 34.0), RING.cuts[1])), "at Z-13 to Z-14 one shows 40, the other 34"),
    "one groove fewer": (Turned(RING.steps, RING.cuts[1:]), "at Z-10 to Z-13 one shows 34, the other 40"),
}


@pytest.mark.parametrize(("other", "words"), ANOTHER.values(), ids=ANOTHER)
def test_a_second_view_without_a_centre_line_that_shows_another_solid_stops(other, words):
    """The place of either view is offered, and reads that one."""
    both = mixed(side_view(RING), side_view(other, None).map(shifted(0, 90)))
    (stop,) = [f for f in read(both).findings if f.stops]
    assert (stop.code, words in stop.message) == ("views-differ", True)
    for at, part in zip(stop.spots, (RING, other), strict=True):
        reading = read(both, ReadOptions(units="mm", at=at))
        assert (told(reading), len(reading.part.grooves)) == ([], len(part.cuts))


HANGING = {
    "on both sides": ([(-20.0, 16.0), (-20.0, -16.0)], "in-pieces"),
    "just alike": ([(-20.0, 16.0), (-20.04, -16.0)], "in-pieces"),
    "not alike": ([(-20.0, 16.0), (-20.1, -16.0)], "several-parts"),
    "on one side": ([(-20.0, 16.0)], "several-parts"),
    "outside": ([(0.0, 16.0), (0.0, -16.0)], "several-parts"),
}


@pytest.mark.parametrize(("begin", "code"), HANGING.values(), ids=HANGING)
def test_figures_on_one_axis_with_lines_that_hang_between_them_are_pieces_of_one_part(begin, code):
    """A groove with one wall missing on both sides; within a thousandth of the size of a view."""
    across = tuple(
        Dimension(DimensionKind.LINEAR, ((z, d / 2), (z, -d / 2)), 90.0, d, f"\u00d8{d:g}")
        for z, d in ((-5.0, 40.0), (-30.0, 50.0))
    )
    both = mixed(side_view(Turned(((20.0, 40.0),))), full_outline(Turned(((30.0, 50.0),))).map(shifted(-24, 0)))
    both.solid += [(x, y, x + (2.0 if x == 0 else -2.0), y, 0.0) for x, y in begin]
    (stop,) = [f for f in read(both, dimensions=across).findings if f.stops]
    assert stop.code == code
    assert (stop.spots == ()) is (code == "in-pieces")


@pytest.mark.parametrize(("turn", "heard"), [(0.0, True), (0.5, True), (0.65, False), (30.0, False), (90.0, True)])
def test_a_figure_drawn_aslant_is_no_view_to_hold_against_the_part(turn, heard):
    """A hundredth of a radian is 0.57 degrees; a picture seen from a corner stands aslant."""
    other = full_outline(Turned(RING.steps, (Cut(-10.0, 3.0, 30.0), RING.cuts[1])), None).map(rotated(turn, 0, -150))
    assert ("views-differ" in told(read(mixed(side_view(RING), other)))) is heard


EDGES = {
    "a plate's edge under the view": (box(-60, -50, 0, -42), True),
    "as high as the view": (box(-60, -80, 0, -40), False),
    "an end just in line": (box(-60.14, -50, 0, -42), True),
    "an end just out of line": (box(-60.15, -50, 0, -42), False),
    "just clear of the view": (box(-60, -28, 0, -20.1), True),
}


@pytest.mark.parametrize(("edge", "odd"), EDGES.values(), ids=EDGES)
def test_a_rectangle_in_line_with_the_view_is_a_plate_from_its_edge(edge, odd):
    """Two thousandths of a view 72.1 across are 0.144."""
    assert ("not-round" in told(read(mixed(side_view(RING), edge)))) is odd


def test_a_frame_round_a_text_under_the_view_is_no_edge():
    note = Text("HARDEN AND GRIND", (-55.0, -47.0), 2.5)
    assert told(read(mixed(side_view(RING), box(-60, -50, 0, -42)), texts=(note,))) == []


THICK = [
    "LASER CUT, S235",
    "PLASMA-CUT",
    "Laserteil",
    "d\u00e9coupe laser",
    "PLATE, 8 THICK",
    "THICKNESS 6",
    "BLECH t=4",
    "DICKE: 10",
    "\u00c9p. 5",
    "t = 4",
    "SPESSORE 3,5",
]
THICK += [
    "HEAT SINK PROFILE",
    "IPE 100",
    "H-BEAM",
    "EXTRUSION",
    "FLAT BAR",
    "SLIDE 120 LONG",
    "BAR 60.4 LG",
    "FLAT BAR 50x6",
    "Flachstahl 50 x 6",
    "SHEET 3 mm",
    "SHEET METAL 3",
    "Zahnstange Modul 2",
    "MODULE = 2.5",
    "cr\u00e9maill\u00e8re",
]
THICK += [
    "THICKNESS 60.31",
    "SQ 40",
    "4-KT 17",
    "Vierkant 40",
    "40x40",
    "40.19 x 40.19",
    "SQUARE BAR 40",
    "[] 40",
    "\u25a1 40",
]
NOT_THICK = [
    "PUMP MODULE, TRACK ROD",
    "LASER MARK 4711",
    "BAR 60.2 LG",
    "THREAD 20 LONG",
    "WALL THICKNESS 3",
    "NICKEL PLATED, 8 THICK",
    "NUT b=3 t=2",
    "PLATE 4711 REV",
    "WANDDICKE 3",
    "THICKNESS 60",
    "THICKNESS 60.29",
    "SHEET 1 OF 2",
    "FLAT BAR 40x60",
    "SQUARE TO A",
    "1x1",
    "40x45",
    "40.21 x 40.21",
]


@pytest.mark.parametrize(("note", "flat"), [*((n, True) for n in THICK), *((n, False) for n in NOT_THICK)])
def test_a_thickness_where_no_diameter_is_printed_is_a_plate_s(note, flat):
    """The ring is 60 long and 40 across: 5 in a thousand of these are 0.3 and 0.2."""
    texts = (Text(note, (-30.0, -60.0), 2.5),)
    assert told(read(side_view(RING), texts=texts)) == (["not-round"] if flat else [])
    assert told(read(side_view(RING), texts=(*texts, Text("\u00d840", (20.0, 0.0), 2.5)))) == []


@pytest.mark.parametrize(("depth", "read_on"), [(5.0, True), (12.0, True)])
def test_a_cross_section_with_a_keyway_under_the_view_is_no_second_part(depth, read_on):
    """On its own crossed centre lines, however deep the keyway is."""
    rise = math.sqrt(400 - 25)
    bulge = math.tan((math.tau - 2 * math.asin(0.25)) / 4)
    rim = [(-55, rise, bulge), (-45, rise, 0), (-45, 20 - depth, 0), (-55, 20 - depth, 0)]
    cut = Ink().chain([(x, y - 60, b) for x, y, b in rim], close=True)
    cut.centre += [(-73.0, -60.0, -27.0, -60.0, 0.0), (-50.0, -83.0, -50.0, -37.0, 0.0)]
    assert (told(read(mixed(side_view(RING), cut))) == []) is read_on


@pytest.mark.parametrize(
    ("off", "odd"), [(0.0, False), (0.39, False), (0.41, True), (5.0, True), (9.9, True), (10.1, False)]
)
def test_a_circle_of_the_part_s_size_beside_its_axis_is_heard(off, odd):
    """From two hundredths of its radius to half of it."""
    reading = read(side_view(RING), circles=(Circle((80.0, off), 20.0, LAYER),))
    assert told(reading) == (["not-turned"] if odd else [])


def disc(*, cut):
    """A disc 93 across and 19 thick, from outside or in section, where the mouth's edges behind the cut are seen."""
    half = [(-1, 46.5), (0, 45.5), *([(0, 32.25), (-3, 32.25), (-3, 27.25), (0, 27.25)] if cut else [])]
    face = [*half, *((x, -y) for x, y in reversed(half))]
    back = [(-18, -46.5), (-19, -45.5), (-19, 45.5), (-18, 46.5)]
    ink = Ink().chain([(x, y, 0.0) for x, y in [*face, *back]], close=True)
    bore = [(-19, y, 0, y, 0.0) for y in (18, -18)]
    ink.solid += [*bore, (0, -45.5, 0, 45.5, 0.0)] if cut else [(x, -46.5, x, 46.5, 0.0) for x in (-1, -18)]
    return ink


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize("second", [False, True])
def test_a_section_without_a_centre_line_lies_as_the_view_does_that_it_belongs_to(upright, second):
    """Both ways to turn it are as likely by its own shape."""
    turn = rotated(90 * upright, 0, 0)
    ends = tuple(turn(x, y) for x, y in ((-19, 46.5), (-19, -46.5)))
    across = Dimension(DimensionKind.LINEAR, ends, 90.0 * (not upright), 93.0, "⌀93")
    sheet = mixed(disc(cut=False), disc(cut=True).map(shifted(0, 150))).map(turn)
    reading = read(sheet, ReadOptions(units="mm", at=turn(-9.5, 160.0) if second else None), dimensions=(across,))
    assert told(reading) == []
    assert grooves(reading) == [("face", 0.0, -3.0, 54.5)]


def test_a_detail_and_a_corner_view_are_no_second_parts():
    """A detail at 5:1 within its circle, and the outline seen from a corner."""
    detail = Ink().chain([(60, 60, 0.0), (75, 60, 0.0), (75, 45, 0.0), (90, 45, 0.0), (90, 60, 0.0), (105, 60, 0.0)])
    slant = full_outline(Drawn(((0, 20), (-60, 20))), None).map(
        lambda x, y: (x * 0.87 - y * 0.3, x * 0.5 + y * 0.9 + 120)
    )
    reading = read(mixed(side_view(RING), detail, slant), circles=(Circle((82.0, 55.0), 26.0, LAYER),))
    assert told(reading) == []
    assert grooves(reading) == OUTSIDE


def word(z, y):
    """FRONT FACE led to an end of a view."""
    tip = (z, 10.0 + y)
    return Dimension(DimensionKind.LEADER, (tip, (z + (12 if z > -30 else -12), y + 45.0)), 0.0, 0.0, "FRONT FACE")


def lengths(y, start):
    """Three lengths of a view from one of its ends."""
    places = [((start, 20.0 + y), (z, 20.0 + y)) for z in (-10.0, -25.0, -29.0)]
    return tuple(Dimension(DimensionKind.LINEAR, p, 0.0, abs(p[0][0] - p[1][0]), "") for p in places)


def fronts(*dimensions, at=None, away=-90.0):
    """A part drawn twice, one view above the other, with words and lengths at either."""
    sheet = mixed(side_view(RING), side_view(RING).map(shifted(0, away)))
    return read(sheet, ReadOptions(units="mm", at=at), dimensions=dimensions)


@all_pairs(("z", "end"), [(0.0, "right"), (-60.0, "left")], at=[None, (-40.0, 5.0), (-40.0, -85.0)], y=[0.0, -90.0])
def test_words_at_any_view_of_a_part_say_where_its_front_is(at, y, z, end):
    reading = fronts(word(z, y), at=at)
    assert (reading.front.end, reading.front.by) == (end, "words")
    assert told(reading) == []
    assert [g[1] for g in grooves(reading)] == ([-10.0, -25.0] if end == "right" else [-31.0, -47.0])


@pytest.mark.parametrize("y", [0.0, -300.0])
def test_words_at_two_views_that_name_two_ends_are_a_conflict(y):
    both = (word(-60.0, y), word(0.0, -300.0 - y))
    assert "front-conflict" in told(fronts(*both, away=-300.0))


@pytest.mark.parametrize("y", [0.0, -300.0])
@pytest.mark.parametrize(("start", "stop"), [(0.0, True), (-60.0, False)])
def test_words_at_one_view_against_all_lengths_at_another_are_a_conflict(y, start, stop):
    """Far enough apart that the lengths of the one can't be taken for the other's."""
    reading = fronts(word(-60.0, y), *lengths(-300.0 - y, start), away=-300.0)
    assert ("front-conflict" in told(reading)) is stop
    assert stop or (reading.front.end, reading.front.by) == ("left", "words")


@pytest.mark.parametrize(("height", "alone"), [(1.6, True), (1.4, False)])
def test_the_frame_round_a_letter_is_no_view(height, alone):
    """A datum's letter in its frame (ISO 5459, from memory), with a centre line through it as the part has one."""
    ink = mixed(side_view(RING, 20.0), box(8.0, -2.5, 13.0, 2.5))
    reading = read(ink, texts=(Text("B", (9.5, -1.0), height),))
    assert ("several-parts" not in told(reading)) is alone
    assert not alone or grooves(reading) == OUTSIDE


@pytest.mark.parametrize("y", [0.0, -300.0])
@pytest.mark.parametrize("more", [False, True])
def test_words_at_both_ends_of_any_view_are_a_conflict(y, more):
    words = [word(-60.0, y), word(0.0, y), *([word(0.0, -300.0 - y)] if more else [])]
    assert "front-conflict" in told(fronts(*words, away=-300.0))


@pytest.mark.parametrize("beside", [True, False])
def test_a_view_left_open_asks_for_one_beside_it_that_closes(beside):
    """The front view has lost its end face; the section has no centre line of its own, so that the front view leads."""
    front, cut = side_view(RING), in_section()
    front.solid = [e for e in front.solid if not e[0] == e[2] == -60.0]
    cut.centre.clear()
    sheet = mixed(front, cut.map(shifted(0, 90))) if beside else front
    (stop, *_) = [f for f in read(sheet).findings if f.stops]
    assert stop.code == ("several-parts" if beside else "outline-open")
    if beside:
        reading = read(sheet, ReadOptions(units="mm", at=stop.spots[0]))
        assert (told(reading), grooves(reading)) == ([], [*OUTSIDE, WITHIN])


def test_a_doubt_about_the_view_pointed_to_offers_the_other_one():
    """The one printed diameter, at neither, is that of the other, where --at then leads."""
    size = Dimension(DimensionKind.LINEAR, ((500.0, 12.0), (500.0, -12.0)), 90.0, 24.0, "\u00d824")
    both = mixed(side_view(RING), side_view(Turned(((20.0, 20.0), (30.0, 24.0)))).map(shifted(0, -90)))
    (doubt,) = (f for f in read(both, replace(MM, at=(-30.0, 0.0)), dimensions=(size,)).findings if f.stops)
    other = read(both, replace(MM, at=doubt.spots[0]), dimensions=(size,))
    assert (doubt.code, told(other), other.part.outer_diameter) == ("outline-doubtful", [], 24.0)


@pytest.mark.parametrize(("middle", "stop"), [(RING, []), (STEPPED, ["several-parts"])], ids=["again", "another part"])
@pytest.mark.parametrize("apart", [50, 80])
def test_views_evenly_above_and_below_another_are_no_halves_of_one(middle, stop, apart):
    """Each has its own centre line along it, about which it is its own mirror image."""
    rows = (side_view(RING).map(shifted(0, s * apart)) for s in (1, -1))
    reading = read(mixed(side_view(middle), *rows))
    assert told(reading) == stop
    assert grooves(reading) == ([] if stop else OUTSIDE)
