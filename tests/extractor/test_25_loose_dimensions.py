"""Dimensions of loose lines and arrow heads, balloons, thread lines, face grooves: sheets by other software."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Drawn, Ink, Turned, full_outline, half_profile, section, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.geometry.noding import node
from extractor.sheet import Circle, Dimension, DimensionKind, Source, Text
from extractor.viewing.arrows import Arrows, arrows
from extractor.viewing.dots import DOT
from extractor.viewing.in_line import loose_ticks
from extractor.viewing.links import links
from extractor.viewing.roles import Role, assign
from extractor.viewing.strays import FAR_OUT, without_strays
from extractor.viewing.tips import tips_of

MM = ReadOptions(units="mm")
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))
GROOVES = [(-10, -13, 34), (-30, -33, 34)]


def strokes(*rows):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


def head(x, y, turn, size=2.5, base=True):
    """An arrow head whose tip lies on (x, y), pointing along `turn` degrees, a third as wide as long."""
    sides = [math.radians(turn + 180 + lean) for lean in (9.46, -9.46)]
    ends = [(x + size * math.cos(t), y + size * math.sin(t)) for t in sides]
    rows = [(x, y, *end) for end in ends]
    return rows + ([(*ends[0], *ends[1])] if base else [])


def dimension(a, b, base=True, size=2.5):
    """A dimension line from a to b with both heads."""
    turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    return [(*a, *b), *head(*b, turn, size, base), *head(*a, turn + 180, size, base)]


def found(reading):
    return [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves]


@pytest.mark.parametrize("base", [True, False])
@pytest.mark.parametrize("turn", [0, 37, 90])
def test_a_dimension_line_is_known_by_its_heads(base, turn):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    rows = [*dimension((0, 0), (30, 0), base), (0, 2, 0, -20), (30, 1, 30, -20), (-10, -30, 50, -30)]
    told = arrows(strokes(*[(c * a - s * b, s * a + c * b, c * d - s * e, s * d + c * e) for a, b, d, e in rows]), 1e-6)
    sides = 3 if base else 2
    assert told.lines == {0}
    assert told.heads == frozenset(range(1, 1 + 2 * sides))
    assert told.extensions == {1 + 2 * sides, 2 + 2 * sides}


@pytest.mark.parametrize(("ends", "base", "known"), [(2, True, True), (2, False, False), (1, True, False)])
def test_heads_beyond_both_ends_make_a_dimension_line_if_they_are_closed(ends, base, known):
    """As a drawing program exports them: no tails, each head outside of its extension line."""
    rows = [(0, 0, 30, 0), (0, 2, 0, -20), (30, 2, 30, -20), *head(0, 0, 0, base=base)]
    rows += head(30, 0, 180, base=base) if ends == 2 else []
    told = arrows(strokes(*rows), 1e-6)
    assert (told.lines == {0}) is known
    assert (told.extensions == {1, 2}) is known
    assert bool(told.heads) is known


@pytest.mark.parametrize(
    ("share", "ends", "known"), [(0.97, 2, True), (1.03, 2, False), (0.97, 1, False), (0.97, "and a head", True)]
)
def test_dots_at_both_ends_make_a_dimension_line(share, ends, known):
    """A dot takes the place of a head where there is no room for one (ISO 129-1, from memory)."""
    rows = [(0, 0, 30, 0), (0, 1, 0, -20), (30, 1, 30, -20), (-40, -20, -40, 40)]
    rows += head(30, 0, 0) if ends == "and a head" else []
    dot = DOT / 2 * math.hypot(70, 60) * share
    dots = [Circle((x, 0.0), dot, LAYER) for x in ((0.0, 30.0) if ends == 2 else (0.0,))]
    told = arrows(strokes(*rows), 1e-6, dots)
    assert (told.lines == {0}, told.extensions == {1, 2}) == (known, known)


def test_heads_longer_than_their_line_are_heads_and_a_vee_or_a_fork_is_none():
    assert arrows(strokes(*dimension((0, 0), (1.2, 0))), 1e-6).lines == {0}
    vee = [(0, 0, 10, 0), (10, 0, 11, -4), (11, -4, 12, 0), (12, 0, 30, 0)]
    fork = [(0, 0, 10, 0), (10, 0, 14, 1), (10, 0, 14, -1), (14, 1, 20, 1), (14, -1, 20, -1)]
    for rows in (vee, fork):
        assert arrows(strokes(*rows), 1e-6) == Arrows()
    assert arrows(Strokes(np.zeros((0, 4)), np.zeros(0), np.zeros(0, dtype=np.int64)), 1e-6) == Arrows()


@pytest.mark.parametrize("draw", [side_view, half_profile, full_outline, section])
@pytest.mark.parametrize("base", [True, False])
def test_loose_dimensions_all_over_a_view_change_nothing(draw, base):
    """A floor's diameter across the part, its width above, diameters whose lines run along the whole outside."""
    ink = draw(Turned(RING.steps, RING.cuts, 12.0 if draw is section else 0.0))
    rows = [*dimension((-11.5, -17), (-11.5, 17), base), *dimension((-13, 30), (-10, 30), base)]
    rows += [(-10, 20, -10, 32), (-13, 20, -13, 32), *dimension((15, -20), (15, 20), base)]
    rows += [(-60, 20, 17, 20), (-60, -20, 17, -20), *dimension((-60, -30), (0, -30), base)]
    rows += [(-60, -20, -60, -32), (0, -20, 0, -32)]
    ink.solid += [(*row, 0.0) for row in rows]
    notes = (((-11.5, 0.5), "%%c34"), ((-12, 31), "3"), ((15, 0), "\u00d840"), ((-30, -29), "60"))
    texts = tuple(Text(text, at, 2.5) for at, text in notes)
    reading = read_sheet(sheet_of(ink, texts=texts), MM)
    assert found(reading) == GROOVES
    assert (reading.part.outer_diameter, reading.part.length) == (40, 60)
    assert not [f for f in reading.findings if f.level == "stop"]


def test_an_end_face_on_the_layer_of_the_dimensions_stays():
    rows = [(0, 0, 0, 20), (0, 20, -40, 20), (-40, 20, -40, 0), (-15, 0, -15, 30)]
    laid = strokes(*rows, (5, 0, -45, 0))
    kept = without_strays(laid, 1e-6, frozenset({0, 3}))
    assert sum(f.polygon.area for f in kept.faces) == pytest.approx(800)
    less = without_strays(laid, 1e-6, frozenset({3}))
    assert len(less.faces) == 1


@pytest.mark.parametrize(("share", "strays"), [(1.03, True), (0.97, False)])
def test_a_slanting_line_is_a_stray_only_if_it_sticks_out_far_enough_to_be_seen(share, strays):
    """Lines drawn on over the corners of a chamfer by hand, each behind the other, leave the chamfer an edge."""
    out = FAR_OUT * 45.0 * share / math.sqrt(2)  # 45: the length of what is laid, with its axis
    chamfer = (-40 + 1 + out, 20 + out, -40 - out, 19 - out)
    rows = [(0, 0, 0, 20), (0, 20, -40, 20), (-40, 19.5, -40, 0), (-39, 21, -39, 0), chamfer, (2.5, 0, -42.5, 0)]
    kept = without_strays(strokes(*rows), 1e-6, frozenset())
    assert (4 not in {e.label for e in kept.edges}) is strays


LAYER = Source("1", "CIRCLE", "0")


def balloon(number, x, foot, y=40.0):
    """A numbered circle with its line: the circle, the text, the line."""
    return Circle((x, y), 3.0, LAYER), Text(number, (x - 1.0, y - 1.0), 2.5), (x, y - 3.0, x, foot, 0.0)


def ballooned(*items, **options):
    ink = side_view(RING)
    ink.solid += [line for _, _, line in items]
    return read_sheet(
        sheet_of(ink, circles=tuple(c for c, _, _ in items), texts=tuple(t for _, t, _ in items)),
        replace(MM, **options),
    )


def test_item_balloons_that_point_into_the_view_stop():
    reading = ballooned(balloon("1", -20.0, 10.0), balloon("2", -45.0, 5.0), balloon("14", -50.0, 3.0))
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, stop.at) == ("assembly", (-20.0, 40.0))
    assert stop.message.startswith("3 numbered balloons, the first at X-20 Y40, point into the view")


@pytest.mark.parametrize("other", [("A", 10.0), ("2", 26.0)])
def test_one_balloon_letters_and_numbers_beside_dimensions_don_t(other):
    reading = ballooned(balloon("1", -20.0, 10.0), balloon(other[0], -45.0, other[1]))
    assert found(reading) == GROOVES
    assert "assembly" not in {f.code for f in reading.findings}


@pytest.mark.parametrize(("off", "stop"), [(3.59, True), (3.61, False)])
def test_a_number_is_a_balloon_s_within_its_circle(off, stop):
    """1.2 of its radius of 3."""
    (ring, _, line), two = balloon("1", -20.0, 10.0), balloon("2", -45.0, 5.0)
    assert bool(told_of(ballooned((ring, Text("1", (-20.0 - off, 40.0), 2.5), line), two))) is stop


@pytest.mark.parametrize(("foot", "stop"), [(14.4, True), (14.6, False)])
def test_a_balloon_s_line_is_longer_than_the_circle_s_own_centre_line(foot, stop):
    """Over two radii; here the balloons stand at 20, just above the land."""
    items = [balloon(str(k + 1), x, foot, y=20.5) for k, x in enumerate((-20.0, -45.0))]
    assert bool(told_of(ballooned(*items))) is stop


def told_of(reading):
    return [f for f in reading.findings if "numbered balloons" in f.message]


def leader(tip, knee, end, base=True, arrow=True):
    """A leader of loose lines with its head at the tip, its text far off."""
    turn = math.degrees(math.atan2(tip[1] - knee[1], tip[0] - knee[0]))
    rows = [(*tip, *knee), (*knee, *end), *(head(*tip, turn, 2.5, base) if arrow else [])]
    return [(*row, 0.0) for row in rows]


@pytest.mark.parametrize("base", [True, False])
def test_a_leader_with_a_head_leaves_a_half_view_what_it_is(base):
    """It runs from a groove's floor across the axis: no line of another half."""
    ink = half_profile(RING)
    ink.solid += leader((-11.5, 17.0), (-16.0, -14.0), (-26.0, -14.0), base)
    reading = read_sheet(sheet_of(ink), MM)
    assert (found(reading), [f.code for f in reading.findings]) == (GROOVES, [])


LED = {
    "head and free end": ({}, (), 2),
    "no head": ({"arrow": False}, (), 0),
    "an end on a line": ({}, [(-30, -30, -20, -10, 0.0)], 0),
    "an end on the shelf of the next": ({}, leader((-27.0, 17.0), (-21.8, -14.0), (-40.0, -14.0)), 4),
}


@pytest.mark.parametrize(("how", "more", "led"), LED.values(), ids=LED)
def test_a_leader_begins_in_a_head_and_ends_in_the_air(how, more, led):
    ink = half_profile(RING)
    ink.solid += [*leader((-11.5, 17.0), (-16.0, -14.0), (-22.0, -14.0), **how), *more]
    claims = assign(sheet_of(ink)).claims
    assert sum(len(c.labels) for c in claims if c.role is Role.LEADER) == led


def test_the_user_may_say_that_the_numbers_are_those_of_no_parts():
    """As an inspector numbers what he measures, with lines into the view."""
    items = balloon("1", -20.0, 10.0), balloon("2", -45.0, 5.0)
    reading = ballooned(*items, accept=frozenset({"assembly"}))
    assert ([f.code for f in reading.findings if f.stops], found(reading)) == ([], GROOVES)


@pytest.mark.parametrize("over", [0.0, 0.04, 0.2])
def test_a_thread_line_that_runs_out_through_the_chamfer_is_no_floor(over):
    """ISO 6410-1 from memory: the root as a thin line, here to the end face or a little beyond the chamfer."""
    ink = side_view(Drawn(((0, 10), (-1, 11), (-20, 11), (-20, 16), (-40, 16))))
    for s in (1, -1):
        ink.solid.append((over - 0.9, s * 10.1, -18, s * 10.1, 0.0))
        ink.solid.append((-18, s * 10.1, -18, s * 11, 0.0))
    reading = read_sheet(sheet_of(ink), MM)
    assert reading.part.grooves == ()
    assert not [f for f in reading.findings if f.stops]


def face_groove(ink, dashed, corner=0.4):
    """A groove 3 deep between radii 10 and 14 in the front face, its corners' edges seen across it."""
    q = math.tan(math.pi / 8)
    for s in (1, -1):
        run = [
            (0, 10, 0),
            (corner - 3, 10, -q),
            (-3, 10 + corner, 0),
            (-3, 14 - corner, -q),
            (corner - 3, 14, 0),
            (0, 14, 0),
        ]
        rows = [(*a[:2], *b[:2], a[2]) for a, b in pairwise(run)]
        rows = [(a, s * b, c, s * d, s * e) for a, b, c, d, e in rows]
        (ink.hidden if dashed else ink.solid).extend(rows)
        if not dashed:
            ink.solid.append((corner - 3, s * 10, corner - 3, s * 14, 0.0))
    return ink


@pytest.mark.parametrize(("middle", "behind", "hole"), [(12.0, 3.5, True), (12.1, 3.5, False), (12.0, 2.5, False)])
def test_what_has_a_centre_line_of_its_own_in_a_face_is_a_hole(middle, behind, hole):
    """One drilled along the axis beside it looks like a groove of the face (ISO 128-2 line 04, from memory)."""
    ink = face_groove(side_view(RING), dashed=True)
    ink.centre += [(2.0, s * middle, -behind, s * middle, 0.0) for s in (1, -1)]
    reading = read_sheet(sheet_of(ink), MM)
    assert [g.where for g in reading.part.grooves].count("face") == 1 - hole
    assert [f.code for f in reading.findings].count("cross-hole") == 2 * hole


@pytest.mark.parametrize("dashed", [True, False])
@pytest.mark.parametrize("bore", [0.0, 12.0])
def test_a_face_groove_is_read_to_its_floor_dashed_or_in_section(dashed, bore):
    ink = side_view(RING) if dashed else section(Turned(RING.steps, RING.cuts, bore or 2.0))
    if dashed and bore:
        ink.hidden += [(0, s * 6, -60, s * 6, 0.0) for s in (1, -1)]
    reading = read_sheet(sheet_of(face_groove(ink, dashed)), MM)
    (groove,) = [g for g in reading.part.grooves if g.where == "face"]
    assert (groove.shape, groove.z_near, groove.z_far) == ("rectangular", 0, -3)
    assert (groove.mouth_diameter, groove.floor_diameter) == (28, 20)
    assert groove.corner_radius == pytest.approx(0.4)
    assert [f.code for f in reading.findings if f.level != "note"] == ["face-groove"]


def test_a_hair_s_breadth_within_a_floor_hides_no_recess():
    """A floor whose second half lies a thousandth lower, as a fitted arc's lowest point does."""
    for step in (4e-4, -4e-4):
        run = (
            (0, 20),
            (-10, 20),
            (-12, 19.5),
            (-14, 19.5),
            (-14.01, 19.5 + step),
            (-15, 19.5 + step),
            (-15, 25),
            (-40, 25),
        )
        (groove,) = read_sheet(sheet_of(full_outline(Drawn(run))), MM).part.grooves
        assert (groove.z_near, groove.floor_diameter) == (-10, pytest.approx(39, abs=2e-3))


def test_both_halves_hatched_out_of_step_are_hatched():
    ink = section(Turned(RING.steps, RING.cuts, 12.0))
    for s, first in ((1, -58.0), (-1, -57.1)):
        for k in range(15):
            x = first + 3.0 * k
            ink.solid.append((x, s * 6, x + 11 * s * 1.0, s * 17, 0.0))
    reading = read_sheet(sheet_of(ink), MM)
    assert found(reading) == GROOVES
    assert {r for _, r in reading.part.bore} == {6}


def frame(x, y, w=24.0, h=6.0):
    """A tolerance frame of three fields with its lower left corner at (x, y)."""
    rows = [(x, y, x + w, y), (x + w, y, x + w, y + h), (x + w, y + h, x, y + h), (x, y + h, x, y)]
    return rows + [(x + part * w, y, x + part * w, y + h) for part in (0.25, 0.75)]


@pytest.mark.parametrize("draw", [side_view, half_profile, full_outline])
@pytest.mark.parametrize("border", [True, False])
def test_a_tolerance_frame_on_its_leader_hangs_on_nothing(draw, border):
    """The frame may lie on the sheet's border: then a leader joins part, frame and border to one figure."""
    ink = draw(RING)
    rows = [*frame(-30, 50), (-36, 53, -30, 53), (-36, 53, -36, 20)]
    rows += [(-80, 50, 20, 50), (20, 50, 20, -90), (20, -90, -80, -90), (-80, -90, -80, 50)] if border else []
    ink.solid += [(*row, 0.0) for row in rows]
    reading = read_sheet(sheet_of(ink), MM)
    assert found(reading) == GROOVES
    assert (reading.part.outer_diameter, reading.part.length) == (40, 60)
    assert not [f for f in reading.findings if f.level != "note"]


def net(*rows):
    return node(strokes(*rows), 1e-6)


def square(x, y, side=4.0):
    return [
        (x, y, x + side, y),
        (x + side, y, x + side, y + side),
        (x + side, y + side, x, y + side),
        (x, y + side, x, y),
    ]


def test_links_lie_between_closed_figures_and_nowhere_else():
    joined = net(*square(0, 0), *square(10, 0), (4, 2, 7, 2), (7, 2, 10, 2), (2, 4, 2, 9), (7, 2, 7, 8))
    told = links(joined)
    assert {joined.edges[k].label for k in told} == {8, 9}
    assert links(net(*square(0, 0), (4, 2, 9, 2), (9, 2, 9, 9))) == frozenset()
    assert links(net((0, 0, 5, 0), (5, 0, 5, 5), (5, 5, 9, 5))) == frozenset()
    twice = net(*square(0, 0), *square(10, 0), (4, 1, 10, 1), (4, 3, 10, 3))
    assert links(twice) == frozenset()
    assert links(joined, frozenset({8})) == frozenset()


def test_what_a_centre_line_closes_is_no_link():
    """A half that ends on its centre line, its grooves closed by a mouth line each."""
    ink = half_profile(Turned(RING.steps, RING.cuts))
    ink.solid = [s for s in ink.solid if s[1] or s[3]]
    ink.solid += [(-10, 20, -13, 20, 0.0), (-30, 20, -33, 20, 0.0)]
    reading = read_sheet(sheet_of(ink), MM)
    assert found(reading) == GROOVES


def test_a_floor_that_an_arrow_points_to_is_no_extension_line():
    """Walls drawn right across, the floors between them; the arrow's tip near one end of a floor."""
    rows = [(0, 0, 0, 20), (0, 20, 10, 20), (10, 0, 10, 20), (22, 0, 22, 20), (22, 20, 40, 20), (40, 20, 40, 0)]
    floor = (10, 15, 22, 15)
    told = arrows(strokes(*rows, floor, *dimension((11.5, 15), (11.5, -15))), 1e-6)
    assert told.lines == {7}
    assert told.extensions == frozenset()


def ring_half(*circles):
    """One half of a plain ring in section, with its centre line and one across it."""
    ink = Ink(centre=[(5, 0, -15, 0, 0.0), (-5, 25, -5, -25, 0.0)])
    ink.chain([(0, 8, 0.0), (0, 20, 0.0), (-10, 20, 0.0), (-10, 8, 0.0)], close=True)
    return read_sheet(sheet_of(ink, circles=tuple(Circle((-5.0, 0.0), r, LAYER) for r in circles)), MM)


def test_half_a_ring_between_two_centre_lines_is_no_shaft_about_the_wrong_one():
    assert [f.code for f in ring_half().findings if f.stops] == ["axis-unclear"]
    part = ring_half(8.0, 20.0).part
    assert (part.outer_diameter, part.length, part.bore) == (40, 10, ((0, 8), (-10, 8)))


@pytest.mark.parametrize("text", ["3", "3 +0.14/0", "3 +0.140/-0.000", "2x 3.00 +0.14/-0.02"])
@pytest.mark.parametrize("size", [2.5, 3.5])
def test_a_long_text_centred_over_a_narrow_line_is_its_own(text, size):
    """A letter is about 0.7 of its height wide (ISO 3098, from memory), so such a text begins far beside its line."""
    ink = side_view(RING)
    rows = [*dimension((-13, 32), (-10, 32), size=size), (-10, 21, -10, 33), (-13, 21, -13, 33)]
    ink.solid += [(*row, 0.0) for row in rows]
    at = -11.5 - 0.7 * size * len(text) / 2, 32.8
    first, _ = read_sheet(sheet_of(ink, texts=(Text(text, at, size),)), MM).part.grooves
    assert "width" in first.printed
    if "+" in text:
        assert first.tolerances["width"][1] == 0.14


@pytest.mark.parametrize("rise", [6.0, 14.0])
def test_a_size_far_above_a_line_is_not_its_own(rise):
    """Four letter heights, 10, and a fifth of the line."""
    ink = side_view(RING)
    rows = [*dimension((-13, 32), (-10, 32)), (-10, 21, -10, 33), (-13, 21, -13, 33)]
    ink.solid += [(*row, 0.0) for row in rows]
    text = Text("3 +0.140/-0.000", (-11.5 - 0.7 * 2.5 * 15 / 2, 32 + rise), 2.5)
    first, _ = read_sheet(sheet_of(ink, texts=(text,)), MM).part.grooves
    assert ("width" in first.printed) is (rise < 10)


@pytest.mark.parametrize("base", [True, False])
@pytest.mark.parametrize("side", [1, -1])
def test_a_narrow_groove_s_size_beside_the_tail_of_its_line_is_the_groove_s(side, base):
    """Heads outside of the extension lines, the size over one of the tails (ISO 129-1, from memory)."""
    ink = full_outline(RING)
    rows = [(z, -21.0, z, -31.4) for z in (-10.0, -13.0)] + [(-10.0, -30.0, -13.0, -30.0)]
    near, far = (-3.0, -34.0) if side < 0 else (11.0, -20.0)
    rows += [(near, -30.0, -10.0, -30.0), *head(-10.0, -30.0, 180, base=base)]
    rows += [(far, -30.0, -13.0, -30.0), *head(-13.0, -30.0, 0, base=base)]
    ink.solid += [(*row, 0.0) for row in rows]
    at = (-31.0, -29.0) if side < 0 else (1.0, -29.0)
    reading = read_sheet(sheet_of(ink, texts=(Text("3 H13", at, 2.5),)), MM)
    # ISO 286-1: H13 up to 3 is 0.14.
    assert reading.part.grooves[0].tolerances["width"] == pytest.approx((0.0, 0.14))


def sized(ring, line=None):
    """Two balloons led into the view, and one more about a place near the line of a size at y 50, perhaps led on."""
    items = [balloon("1", -20.0, 10.0), balloon("2", -45.0, 5.0)]
    ink = side_view(RING)
    ink.solid += [led for _, _, led in items] + ([(*line, 0.0)] if line else [])
    ink.solid += [(-60.0, 50.0, 0.0, 50.0, 0.0)]
    circles, texts = (tuple(row[k] for row in items) for k in (0, 1))
    circles += (Circle(ring, 3.0, LAYER),)
    number = Text("3", (ring[0] - 1.0, ring[1] - 1.0), 2.5)
    size = Dimension(DimensionKind.LINEAR, ((-60.0, 20.0), (0.0, 20.0)), 0.0, 60.0, "60")
    segment = len(ink.solid) - 1
    sheet = sheet_of(
        ink, circles=circles, texts=(*texts, number), dimensions=(replace(size, drawn=frozenset({segment})),)
    )
    return bool(told_of(read_sheet(sheet, MM)))


BUBBLES = {
    "beside the line": (((-30.0, 58.9),), False),
    "away from it": (((-30.0, 59.1),), True),
    "beyond its end": (((8.9, 50.0),), False),
    "led to it": (((-30.0, 90.0), (-30.0, 87.0, -30.0, 58.9)), False),
    "led elsewhere": (((-30.0, 90.0), (-30.0, 87.0, -30.0, 59.1)), True),
    "near the line, led into the view": (((-10.0, 56.0), (-10.0, 53.0, -10.0, 5.0)), True),
}


@pytest.mark.parametrize(("how", "stop"), BUBBLES.values(), ids=BUBBLES)
def test_numbers_at_sizes_say_that_those_led_into_the_view_are_no_parts(how, stop):
    """Within three radii of 3 from the line of the size."""
    assert sized(*how) is stop


@pytest.mark.parametrize(("base", "stop"), [((-200.0, 50.0), False), ((-200.0, 50.2), True), (None, True)])
def test_the_line_of_a_size_of_the_file_runs_where_it_was_put(base, stop):
    """The balloon beside it stands at 41, and the measured points lie at 20."""
    items = [balloon("1", -20.0, 10.0), balloon("2", -45.0, 5.0)]
    ink = side_view(RING)
    ink.solid += [led for _, _, led in items]
    size = Dimension(DimensionKind.LINEAR, ((-60.0, 20.0), (0.0, 20.0)), 0.0, 60.0, "60", base=base)
    circles = (*(c for c, _, _ in items), Circle((-30.0, 41.0), 3.0, LAYER))
    texts = (*(t for _, t, _ in items), Text("3", (-31.0, 40.0), 2.5))
    sheet = sheet_of(ink, circles=circles, texts=texts, dimensions=(size,))
    assert bool(told_of(read_sheet(sheet, MM))) is stop


@all_pairs(
    ("off", "tick"),
    [(0.5, 1.0), (0.5, 3.0), (1.5, 2.0), (1.5, 3.0), (3.0, 3.0), (8.0, 2.0), (1.5, 0.0)],
    words=["\u00d840", "\u00d840 0/-0.1"],
    beyond=[0.0, 4.0],
)
def test_half_a_diameter_beside_the_face_is_a_size_however_its_mark_lies_over_that(off, tick, beyond, words):
    """From the centre line, or a little beyond it, to a tick or a head at the rim; a tick's foot crosses the face."""
    ink = half_profile(RING)
    rows = [(off, -beyond, off, 20.0), (0.3, 20.0, off + 2.0, 20.0)]
    rows += [(off - tick, 20.0 - tick, off + tick, 20.0 + tick)] if tick else head(off, 20.0, 90.0, 2.5)
    ink.solid += [(*row, 0.0)[:5] for row in rows]
    reading = read_sheet(sheet_of(ink, texts=(Text(words, (off + 1.5, 3.0), 3.5),)), MM)
    assert (found(reading), [f.code for f in reading.findings if f.level != "note"]) == (GROOVES, [])
    assert reading.part.outline[0] == (0.0, 0.0)
    assert reading.part.outline[1] == (0.0, 20.0)


TICKED = [(0.0, 0.0, 0.0, 20.0), (-4.0, 20.0, 5.0, 20.0)]


@pytest.mark.parametrize(
    ("row", "tick"),
    [
        ((-3.0, 17.0, 3.0, 23.0), True),
        ((-3.0, 23.0, 3.0, 17.0), True),
        ((-0.5, 19.5, 0.5, 20.5), True),
        ((-3.0, 17.0, 0.0, 20.0), False),  # it ends there
        ((-3.0, 17.0, 1.0, 21.0), False),  # not its middle
        ((-2.3, 17.7, 3.7, 23.7), True),  # within a fifth of it
        ((-1.7, 18.3, 4.3, 24.3), False),
        ((-1.3, 17.0, 1.3, 23.0), False),  # too steep: 23.4 degrees off the one, 66.6 off the other
        ((-1.5, 17.0, 1.5, 23.0), True),  # 26.6
        ((-3.0, 17.0, 3.0, 23.0, 0.2), False),  # a bow
        ((-2.9, 17.0, 3.1, 23.0), False),  # past it
    ],
)
def test_a_tick_slants_across_a_line_s_end_and_hangs_free(row, tick):
    assert (list(loose_ticks(tips_of(strokes(*TICKED, row), 1e-6))) == [2]) is tick


@pytest.mark.parametrize("other", [(3.0, 23.0, 3.0, 40.0), (-9.0, 17.0, 9.0, 17.0)])
def test_a_stroke_that_ends_at_a_line_is_no_tick_nor_is_that(other):
    assert list(loose_ticks(tips_of(strokes(*TICKED, (-3.0, 17.0, 3.0, 23.0), other), 1e-6))) == []


def test_a_stroke_across_the_end_of_one_line_alone_is_no_tick():
    assert list(loose_ticks(tips_of(strokes(TICKED[0], (-3.0, 17.0, 3.0, 23.0)), 1e-6))) == []


@all_pairs(
    ("off", "tick"),
    [(0.5, 1.0), (0.5, 3.0), (1.5, 2.0), (1.5, 3.0)],
    words=["", "40", "R20", "40 h9"],
    halves=[1, 2],
)
def test_a_tick_over_the_end_face_is_no_edge_of_the_part_whatever_is_printed_at_it(halves, off, tick, words):
    ink = half_profile(RING) if halves == 1 else side_view(RING)
    rows = [(off, 0.0 if halves == 1 else -20.0, off, 20.0)]
    for s in (1, -1)[:halves]:
        rows += [(0.3, s * 20.0, off + 2.0, s * 20.0)]
        rows += [(off - tick, s * 20.0 - tick, off + tick, s * 20.0 + tick)]
    ink.solid += [(*row, 0.0) for row in rows]
    texts = (Text(words, (off + 1.5, 3.0), 3.5),) if words else ()
    reading = read_sheet(sheet_of(ink, texts=texts), MM)
    assert found(reading) == GROOVES
    assert max(r for _, r in reading.part.outline) == 20.0
    assert reading.part.outline[0][0] - reading.part.outline[-1][0] == 60.0


FRAME = [(-90.0, -80.0, 80.0, -80.0), (80.0, -80.0, 80.0, 80.0), (80.0, 80.0, -90.0, 80.0), (-90.0, 80.0, -90.0, -80.0)]
BUSH = [(5.0, -25.0, 25.0, -25.0), (25.0, -25.0, 25.0, 25.0), (25.0, 25.0, 5.0, 25.0), (5.0, 25.0, 5.0, -25.0)]


@pytest.mark.parametrize(
    ("foot", "rows", "stop"),
    [
        (5.0, [*FRAME, *BUSH], True),
        (26.0, [*FRAME, *BUSH], False),  # in the air over it
        (5.0, FRAME, False),  # there is none
        (5.0, [*FRAME, *BUSH[1:]], False),  # open
    ],
)
def test_a_balloon_in_the_view_and_one_in_a_figure_beside_it_are_items_of_an_assembly(foot, rows, stop):
    items = [balloon("1", -20.0, 10.0), balloon("2", 15.0, foot)]
    ink = side_view(RING, 5.0)
    ink.solid += [led for _, _, led in items] + [(*row, 0.0) for row in rows]
    size = Dimension(DimensionKind.LINEAR, ((-40.0, 20.0), (-40.0, -20.0)), 90.0, 40.0, "\u00d840")
    sheet = sheet_of(
        ink, circles=tuple(c for c, _, _ in items), texts=tuple(t for _, t, _ in items), dimensions=(size,)
    )
    assert bool(told_of(read_sheet(sheet, MM))) is stop


@pytest.mark.parametrize(("ticked", "stop"), [((1, -1), False), ((1,), True), ((), True)])
@pytest.mark.parametrize("draw", [side_view, full_outline])
def test_a_line_right_across_between_two_ticks_is_a_size_without_its_figure(draw, ticked, stop):
    """As where all figures were exported as strokes."""
    ink = draw(RING)
    ink.centre = [(5.0, 0.0, -65.0, 0.0, 0.0)]
    ink.solid += [(-22.0, -20.0, -22.0, 20.0, 0.0)]
    ink.solid += [(-23.2, s * 20.0 - 1.2, -20.8, s * 20.0 + 1.2, 0.0) for s in ticked]
    reading = read_sheet(sheet_of(ink), MM)
    assert found(reading) == GROOVES
    assert ([f.code for f in reading.findings if f.stops] == ["lines-unexplained"]) is stop
