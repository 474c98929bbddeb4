"""What is milled or drilled and looks turned: flats edge-on or behind a bore, slots, drilled holes; and ends unlike."""

import math
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.recess.crossings import covers
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source
from extractor.viewing.hatching import loose_hatching
from rillwright.questions import questions

SHAFT = Turned(((60.0, 40.0), (20.0, 30.0)), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 8.0, 33.0)))
UPRIGHT = (lambda x, y: (x, y), lambda x, y: (-y, x))


def read(ink, move=UPRIGHT[0], accept=(), *, grooved=False, **more):
    options = ReadOptions(units="mm", accept=frozenset(accept), grooved=grooved)
    return read_sheet(sheet_of(ink, move, **more), options)


def stops(reading):
    return [str(f.code) for f in reading.findings if f.stops]


def codes(reading):
    return [str(f.code) for f in reading.findings]


def grooves(reading):
    return [(g.where, round(g.z_near, 6), round(g.z_far, 6)) for g in reading.part.grooves]


def without_edges(ink, *places):
    """The view without what runs across at places along z, but for the walls of radii 16.5 to 20."""
    kept = [e for e in ink.solid if not (e[0] == e[2] and e[0] in places)]
    walls = [(z, s * 16.5, z, s * 20.0, 0.0) for z in places for s in (1, -1)]
    return Ink([*kept, *walls], ink.centre, ink.hidden)


class TestFlats:
    """Two flats seen edge-on have the silhouette of a groove and no line across at their ends (solid geometry)."""

    @pytest.mark.parametrize("move", UPRIGHT)
    def test_a_recess_without_edges_among_edges_is_asked_for_and_not_cut(self, move):
        asked = read(without_edges(side_view(SHAFT), -40.0, -48.0), move)
        assert stops(asked) == ["milled-flats"]
        assert grooves(asked) == [("outside", -10.0, -13.0)]
        accepted = read(without_edges(side_view(SHAFT), -40.0, -48.0), move, ["milled-flats"])
        assert not stops(accepted)
        assert min(r for z, r in accepted.part.outline if -50.0 < z < -20.0) == 20.0  # it is no metal to be cut

    @pytest.mark.parametrize(
        "bare",
        [
            (-40.0,),  # one of its walls has a line: it is a ring
            (-10.0, -13.0, -40.0, -48.0),  # no groove's edges are drawn
        ],
    )
    def test_one_edge_makes_a_groove_and_who_draws_none_means_nothing_by_it(self, bare):
        ink = side_view(SHAFT)
        kept = [e for e in ink.solid if not (e[0] == e[2] and e[0] in bare)]
        floor = {-10.0: 17.0, -13.0: 17.0, -40.0: 16.5, -48.0: 16.5}
        walls = [(z, s * floor[z], z, s * 20.0, 0.0) for z in bare for s in (1, -1)]
        reading = read(Ink([*kept, *walls], ink.centre))
        assert not stops(reading)
        assert len(grooves(reading)) == 2

    @pytest.mark.parametrize(("width", "stop"), [(2.45, True), (2.35, False)])
    def test_flats_are_wide_enough_for_a_wrench(self, width, stop):
        """On 40 across at least 2.4; a narrower recess is that of a ring, whose edges are often left out."""
        shaft = Turned(SHAFT.steps, (SHAFT.cuts[0], Cut(-40.0, width, 33.0)))
        assert bool(stops(read(without_edges(side_view(shaft), -40.0, -40.0 - width)))) is stop

    @pytest.mark.parametrize(
        ("like", "stop"),
        [
            (Cut(-20.0, 8.0, 33.0), False),
            (Cut(-20.0, 7.9, 33.0), True),
            (Cut(-20.0, 8.0, 33.4), True),
        ],
    )
    @pytest.mark.parametrize("move", UPRIGHT)
    def test_one_whose_like_has_its_edges_is_a_groove(self, like, stop, move):
        shaft = Turned(SHAFT.steps, (SHAFT.cuts[0], like, SHAFT.cuts[1]))
        assert bool(stops(read(without_edges(side_view(shaft), -40.0, -48.0), move))) is stop

    @pytest.mark.parametrize("move", UPRIGHT)
    def test_the_user_may_have_it_grooved_and_another_left_out(self, move):
        steps = ((60.0, 40.0), (10.0, 34.0), (10.0, 30.0))
        two = Turned(steps, (SHAFT.cuts[0], Cut(-20.0, 6.0, 35.0), SHAFT.cuts[1]))
        ink = without_edges(side_view(two), -40.0, -48.0)
        ink.solid = [e for e in ink.solid if not (e[0] == e[2] and e[0] in (-20.0, -26.0))]
        ink.solid += [(z, s * 17.5, z, s * 20.0, 0.0) for z in (-20.0, -26.0) for s in (1, -1)]
        asked = read(ink, move)
        assert stops(asked) == ["milled-flats"] * 2
        both = read(ink, move, grooved=True)
        assert (stops(both), codes(both).count("milled-flats"), len(grooves(both))) == ([], 2, 3)
        first = next(f.key for f in asked.findings if f.stops)
        one = read(ink, move, [first], grooved=True)
        assert (stops(one), len(grooves(one))) == ([], 2)

    def test_questions_offer_both_answers(self):
        sheet = sheet_of(without_edges(side_view(SHAFT), -40.0, -48.0))
        options = ReadOptions(units="mm")
        (asked,) = questions(sheet, read_sheet(sheet, options).findings, options, part=True)
        offers = {choice.option: choice.reads for choice in asked.choices}
        assert {name: words.split(", ")[-1] for name, words in offers.items()} == {
            "grooved": "2 grooves",
            "accept": "1 groove",
        }

    @pytest.mark.parametrize(
        ("words", "off", "stop"),
        [
            ("CIRCLIP GROOVE 8 x 3.5", 0.0, False),
            ("2 Einstiche 8 x 3,5", 0.0, False),
            ("GORGE 8 x 3,5", 0.0, False),
            ("8 x %%c33", 0.0, False),
            ("8 x %%c32.8", 0.0, True),  # no size of the recess
            ("CIRCLIP GROOVE 8 x 3.5", 12.0, True),  # led to a land
            ("SW 33", 0.0, True),
            ("33 A/F", 0.0, True),
            ("NUT 8 breit", 0.0, True),  # may be a keyway's
            ("GROOVE FOR KEYWAY 8", 0.0, True),
        ],
    )
    def test_the_call_out_of_a_ring_makes_it_one(self, words, off, stop):
        ink = without_edges(side_view(SHAFT), -40.0, -48.0)
        points = (-44.0 + off, 20.0 if off else 16.5), (-30.0, 40.0)
        led = Dimension(DimensionKind.LEADER, points, 0.0, 0.0, words)
        assert ("milled-flats" in stops(read(ink, dimensions=(led,)))) is stop

    @pytest.mark.parametrize(
        ("text", "at", "stop"),
        [
            ("%%c33", -44.0, False),
            ("Ø<>", -44.0, False),
            ("33", -44.0, True),
            (None, -44.0, True),
            ("%%c33", -36.0, True),
        ],
    )
    @pytest.mark.parametrize("move", UPRIGHT)
    def test_a_diameter_across_its_floor_makes_it_a_ring(self, text, at, stop, move):
        """Flats have a size across them without its sign."""
        ends = tuple(move(at, s * 16.5) for s in (1, -1))
        across = Dimension(DimensionKind.ALIGNED, ends, 90.0, 33.0, text)
        reading = read(without_edges(side_view(SHAFT), -40.0, -48.0), move, dimensions=(across,))
        assert ("milled-flats" in stops(reading)) is stop

    @pytest.mark.parametrize(
        ("radius", "told"),
        [(16.5, None), (16.6, "stop"), (15.0, "stop")],  # 15 is the land at the end
    )
    def test_a_hidden_circle_of_its_floor_in_an_end_view_makes_it_a_ring(self, radius, told):
        drawn = (20.0, Pen.SOLID), (radius, Pen.HIDDEN)
        rings = tuple(Circle((40.0, 0.0), r, Source("C", "CIRCLE", "0", pen)) for r, pen in drawn)
        reading = read(without_edges(side_view(SHAFT), -40.0, -48.0), circles=rings)
        assert [f.level for f in reading.findings if f.code == "milled-flats"] == [told] * (told is not None)

    @pytest.mark.parametrize(("lift", "told"), [(0.0, "caution"), (0.5, "stop")])
    def test_hidden_edges_of_flats_in_an_end_view_make_it_flats(self, lift, told):
        half = math.sqrt(20.0**2 - 16.5**2)
        ring = Circle((40.0, 0.0), 20.0, Source("C", "CIRCLE", "0", Pen.SOLID))
        ink = without_edges(side_view(SHAFT), -40.0, -48.0)
        ink.hidden += [(40.0 - half, s * (16.5 + lift), 40.0 + half, s * (16.5 + lift), 0.0) for s in (1, -1)]
        reading = read(ink, circles=(ring,))
        assert [f.level for f in reading.findings if f.code == "milled-flats"] == [told]

    @pytest.mark.parametrize("edges", [(), (-40.0, -48.0)])
    @pytest.mark.parametrize("move", UPRIGHT)
    def test_flats_marked_by_crossed_lines_are_left_out_with_a_caution(self, edges, move):
        ink = without_edges(side_view(SHAFT), *edges)
        ink.solid += [(-40.0, s * 16.5, -48.0, -s * 16.5, 0.0) for s in (1, -1)]
        reading = read(ink, move)
        assert (stops(reading), grooves(reading)) == ([], [("outside", -10.0, -13.0)])
        assert "milled-flats" in codes(reading)
        ends = tuple(move(-44.0, s * 16.5) for s in (1, -1))
        sized = (Dimension(DimensionKind.ALIGNED, ends, 90.0, 33.0, "%%c33"),)
        assert stops(read(ink, move, dimensions=sized)) == ["milled-flats"]
        assert len(grooves(read(ink, move, grooved=True, dimensions=sized))) == 2

    @pytest.mark.parametrize(("words", "stop"), [("8 x 3.5", True), ("SW 33", False)])
    def test_a_groove_called_out_under_crossed_lines_is_asked_about(self, words, stop):
        ink = without_edges(side_view(SHAFT))
        ink.solid += [(-40.0, s * 16.5, -48.0, -s * 16.5, 0.0) for s in (1, -1)]
        note = Dimension(DimensionKind.LEADER, ((-44.0, 17.0), (-44.0, 40.0)), 0.0, 0.0, words)
        assert ("milled-flats" in stops(read(ink, dimensions=(note,)))) is stop
        assert len(grooves(read(ink, grooved=True))) == 2

    def test_edges_that_are_hidden_are_those_of_a_ring(self):
        ink = without_edges(side_view(SHAFT), -40.0, -48.0)
        ink.hidden += [(z, s * 16.5, z, 0.0, 0.0) for z in (-40.0, -48.0) for s in (1, -1)]
        assert len(grooves(read(ink))) == 2

    @pytest.mark.parametrize(("steps", "stop"), [(1, False), (2, True)])
    def test_how_many_edges_say_that_edges_are_drawn(self, steps, stop):
        """One line across may be a mark."""
        lands = ((30.0, 40.0), *((8.0, 40.0 - 4.0 * k) for k in range(1, steps + 1)))
        shaft = Turned(lands, (Cut(-10.0, 3.0, 33.0),))
        assert bool(stops(read(without_edges(side_view(shaft), -10.0, -13.0)))) is stop


class TestSlots:
    """A slot across a face, turned aslant about the axis, shows as an open notch in one half."""

    @staticmethod
    def slotted(ink, low=3.0, high=9.0, deep=5.0):
        """The view with such a slot in its front face."""
        face = [e for e in ink.solid if e[0] == e[2] == 0.0]
        kept = [e for e in ink.solid if e not in face]
        notch = [(0, low, -deep, low, 0), (-deep, low, -deep, high, 0), (-deep, high, 0, high, 0)]
        return Ink([*kept, *notch, (0, high, 0, 20.0, 0), (0, low, 0, -20.0, 0)], ink.centre)

    @pytest.mark.parametrize("move", UPRIGHT)
    def test_in_a_view_from_outside_it_is_no_ring(self, move):
        reading = read(self.slotted(side_view(SHAFT)), move)
        assert not stops(reading)
        assert "one-sided" in codes(reading)
        assert grooves(reading) == [("outside", -10.0, -13.0), ("outside", -40.0, -48.0)]

    @pytest.mark.parametrize("move", UPRIGHT)
    @pytest.mark.parametrize("rings", [0, 1])
    def test_hidden_in_the_other_half_it_is_none_either(self, rings, move):
        """A ring is hidden in both halves; the floor of either runs across the axis."""
        ink = self.slotted(side_view(SHAFT)) if not rings else side_view(SHAFT)
        for s in (-1, 1)[: 1 + rings]:
            ink.hidden += [(0.0, s * r, -5.0, s * r, 0.0) for r in (3.0, 9.0)]
        ink.hidden += [(-5.0, -9.0, -5.0, 3.0 if not rings else 9.0, 0.0)]
        reading = read(ink, move)
        assert not stops(reading)
        assert ("one-sided" in codes(reading)) is not bool(rings)
        assert [w for w, *_ in grooves(reading)].count("face") == rings

    def test_a_half_without_edges_may_be_in_section_though_nothing_is_hatched(self):
        ink = self.slotted(side_view(SHAFT))
        ink.solid = [(a, min(b, 0.0), c, 0.0, e) if b == -d else (a, b, c, d, e) for a, b, c, d, e in ink.solid]
        ink.hidden += [(0.0, -r, -5.0, -r, 0.0) for r in (3.0, 9.0)] + [(-5.0, -9.0, -5.0, 0.0, 0.0)]
        assert ("face", 0.0, -5.0) in grooves(read(ink))

    def test_without_edges_that_show_the_view_from_outside_it_is_asked_for(self):
        plain = Turned(((60.0, 40.0),))
        assert stops(read(self.slotted(side_view(plain)))) == ["lands-disagree"]


class TestPoints:
    """Holes of a pitch circle in section have no centre line on every sheet, but the point of a drill."""

    @staticmethod
    def drilled(angle, off=0.0):
        """A section of a disk with two blind holes from the front; their points have an angle, `off` their middles."""
        tip = -8.0 - 3.0 / math.tan(math.radians(angle / 2))
        hole = [(0.0, 13.0), (-8.0, 13.0), (tip, 10.0 + off), (-8.0, 7.0), (0.0, 7.0)]
        ink = Ink(centre=[(5.0, 0.0, -25.0, 0.0, 0)])
        for s in (1, -1):
            ink.chain([(z, s * r, 0) for z, r in [(-20, 0), (-20, 20), (0, 20), *hole, (0, 0)]])
        return ink

    @pytest.mark.parametrize(
        ("angle", "hole"), [(118.0, True), (120.0, True), (140.0, True), (116.5, True), (115.5, False), (142.5, False)]
    )
    def test_the_angle_of_a_drill_s_point_makes_a_hole(self, angle, hole):
        reading = read(self.drilled(angle))
        assert ("cross-hole" in codes(reading)) is hole
        assert [g.where for g in reading.part.grooves] == ["face"] * (not hole)

    @pytest.mark.parametrize(("angle", "hole"), [(118.0, True), (140.0, True), (110.0, False)])
    @pytest.mark.parametrize("move", UPRIGHT)
    @pytest.mark.parametrize("edge", [True, False])
    def test_hidden_lines_show_it_as_well(self, angle, hole, move, edge):
        """With the edge between the walls and the point, or without it."""
        ink, tip = side_view(SHAFT), -8.0 - 3.0 / math.tan(math.radians(angle / 2))
        lines = [(0.0, 10.0, -8.0, 10.0), (-8.0, 10.0, tip, 7.0), (tip, 7.0, -8.0, 4.0), (-8.0, 4.0, 0.0, 4.0)]
        lines += [(-8.0, 4.0, -8.0, 10.0)] * edge
        ink.hidden += [(a, s * b, c, s * d, 0.0) for a, b, c, d in lines for s in (1, -1)]
        reading = read(ink, move)
        assert codes(reading).count("cross-hole") == 2 * hole
        assert not hole or {w for w, *_ in grooves(reading)} == {"outside"}

    def test_a_point_beside_the_middle_makes_none(self):
        assert [g.where for g in read(self.drilled(118.0, off=0.5)).part.grooves] == ["face"]


class TestFlatsBehindABore:
    """A flat on the far side is hidden, and so is the bore; of a groove the bore's line is left out at its mouth."""

    @staticmethod
    def hidden(*boxes, open_at=()):
        """A view from outside with a bore 16 across, hidden, and hidden boxes (near, far, radius) across it."""
        ink = side_view(SHAFT)
        stops_at = sorted({0.0, -80.0, *(z for box in open_at for z in box[:2])}, reverse=True)
        ways = [(a, b) for a, b in pairwise(stops_at) if (a, b) not in [o[:2] for o in open_at]]
        for near, far, r in (*boxes, *open_at):
            ink.hidden += [(near, r, near, -r, 0), (far, r, far, -r, 0)]
            ink.hidden += [(near, s * r, far, s * r, 0) for s in (1, -1)]
        ink.hidden += [(a, s * 8.0, b, s * 8.0, 0) for a, b in ways for s in (1, -1)]
        return ink

    def test_a_box_over_which_the_bore_runs_on_is_asked_for(self):
        asked = read(self.hidden((-20.0, -30.0, 12.0)))
        assert stops(asked) == ["outline-unclear"]
        assert [w for w, *_ in grooves(asked)] == ["outside", "outside"]
        assert not stops(read(self.hidden((-20.0, -30.0, 12.0)), accept=["outline-unclear"]))

    def test_beside_a_groove_that_is_open_it_is_left_out_with_a_caution(self):
        reading = read(self.hidden((-20.0, -30.0, 12.0), open_at=[(-52.0, -55.0, 10.0)]))
        assert not stops(reading)
        assert "mouth-line" in codes(reading)
        assert [g for g in grooves(reading) if g[0] == "inside"] == [("inside", -52.0, -55.0)]

    def test_an_open_one_alone_is_a_groove(self):
        reading = read(self.hidden(open_at=[(-52.0, -55.0, 10.0)]))
        assert not stops(reading)
        assert [g for g in grooves(reading) if g[0] == "inside"] == [("inside", -52.0, -55.0)]

    def test_in_a_section_lines_of_the_bore_stay_what_they_were(self):
        bush = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),), bore=16.0)
        assert grooves(read(section(bush))) == [("outside", -10.0, -13.0)]


class TestOpenCorners:
    """A hand's bore ends short of the face, or beyond it, and the wall beside it too: closed, the face's edge leans."""

    @staticmethod
    def bush(gap):
        """A section hatched by lines whose bore ends a little beside the rear face, each half to its own side."""
        part = Turned(((64.0, 84.0), (60.0, 104.0), (72.0, 140.0)), (Cut(-14.0, 10.0, 78.0),), bore=60.0)
        ink, moved = section(part), []
        for x0, r0, x1, r1, b in reversed(ink.solid):
            off = math.copysign(gap, r0) * (abs(r0) == abs(r1) == 30.0)
            ends = [r + math.copysign(gap, r) * (x0 == x1 == -196.0 and abs(r) == 30.0) for r in (r0, r1)]
            moved.append((x0 + off * (x0 == -196.0), ends[0], x1 + off * (x1 == -196.0), ends[1], b))
        faces = [(z, 30.0, z, -30.0, 0.0) for z in (0.0, -196.0)]
        lines = [(z, s * 31.0, z - 5.0, s * 36.0, 0.0) for z in (-3.0 - 1.8 * k for k in range(100)) for s in (1, -1)]
        return Ink([*moved, *faces, *lines], ink.centre)

    @pytest.mark.parametrize(("gap", "told"), [(0.0, []), (0.03, ["gaps-closed"]), (0.05, ["gaps-closed"])])
    def test_the_bore_is_open_at_that_face(self, gap, told):
        reading = read(self.bush(gap))
        assert codes(reading) == told
        assert grooves(reading) == [("outside", -14.0, -24.0)]
        assert {round(r, 6) for _, r in reading.part.bore} == {30.0}


class TestEnds:
    """Two halves of a section drawn each by itself, one of which ends a hair before the other."""

    @staticmethod
    def halves(off, at):
        """A pin 6 across and 5 long, its halves closed along the axis, one end of the lower one farther back."""
        run = [(0.0, 0.0), (0.0, 3.0), (-1.0, 3.0), (-1.0, 2.7), (-1.4, 2.7), (-1.4, 3.0), (-5.0, 3.0), (-5.0, 0.0)]
        ink = Ink(centre=[(1.0, 0.0, -6.0, 0.0, 0)]).chain([(z, r, 0) for z, r in run], close=True)
        return ink.chain([(z - off * (z == at), -r, 0) for z, r in run], close=True)

    @pytest.mark.parametrize("at", [0.0, -5.0])
    @pytest.mark.parametrize(("off", "told"), [(0.001, []), (0.004, ["halves-unlike"]), (0.029, ["halves-unlike"])])
    def test_by_no_more_than_a_pen_errs_they_are_cautioned_of(self, off, at, told):
        """0.03 is what two halves of any view may be apart."""
        reading = read(self.halves(off, at))
        assert (codes(reading), stops(reading)) == (told, [])
        assert len(grooves(reading)) == 1

    @pytest.mark.parametrize("at", [0.0, -5.0])
    def test_by_more_they_contradict(self, at):
        assert stops(read(self.halves(0.031, at))) == ["lands-disagree"]


@pytest.mark.parametrize(
    ("off", "hatch"),
    [
        (0.0, False),
        (0.049, False),  # fifty noding distances are 0.05
        (0.051, True),
    ],
)
@pytest.mark.parametrize("sides", [(1, 1), (1, 0)])
def test_a_chamfer_on_the_step_of_a_hatching_is_no_line_of_it_where_its_corners_are_missed_by_little(off, hatch, sides):
    """A hand misses them; a hatch line ends on the middle of lines."""
    lines = [(10.0 + 3.0 * k, 0.0, 13.0 + 3.0 * k, 3.0) for k in range(1, 8)]
    chamfer = (10.0, 0.0, 13.0, 3.0)
    edges = [(10.0, -off * sides[0], 10.0, -20.0), (13.0, 3.0 + off * sides[1], 13.0, 20.0)]
    rows = np.array([*lines, chamfer, *edges, (0.0, -30.0, 90.0, -30.0), (0.0, 40.0, 90.0, 40.0)])
    found = loose_hatching(Strokes(rows, np.zeros(len(rows)), np.arange(len(rows))), 0.001)
    assert found == frozenset(range(8 if hatch else 7))


class TestHolesBeforeTheAxis:
    """Blind holes of a pitch circle seen from the side: each a box of hidden lines, one of them about the axis."""

    @staticmethod
    def flange(low, *, wide=12.0, behind=8.0, deep=6.0, runs_on=True, end=0.0):
        """A shaft with a hidden bore stepped at -20, and a hidden box about the axis before it, `low` high each way.

        An edge of the outside runs across near the face, as that of a chamfer does.
        """
        ink = side_view(SHAFT)
        ink.solid += [(-1.0, 20.0, -1.0, -20.0, 0.0)] * runs_on
        begin = end if runs_on else -deep
        for s in (1, -1):
            ink.hidden += [(0.0, s * (wide - end), end, s * wide, 0)] * (end < 0)
            ink.hidden += [(begin, s * wide, -20.0, s * wide, 0), (-20.0, s * behind, -80.0, s * behind, 0)]
            ink.hidden += [(0.0, s * low, -deep, s * low, 0), (-20.0, s * behind, -20.0, s * wide, 0)]
            ink.hidden += [(-deep, 0.0, -deep, s * (low if runs_on else wide), 0), (-20.0, 0.0, -20.0, s * behind, 0)]
        return ink

    @pytest.mark.parametrize("move", UPRIGHT)
    @pytest.mark.parametrize(("low", "deep"), [(2.5, 6.0), (5.0, 9.0), (10.5, 6.0)])
    def test_the_bore_behind_it_runs_on_to_the_face_and_is_no_groove(self, move, low, deep):
        asked = read(self.flange(low, deep=deep), move)
        assert stops(asked) == ["outline-unclear"]
        assert [w for w, *_ in grooves(asked)] == ["outside", "outside"]
        accepted = read(self.flange(low, deep=deep), move, ["outline-unclear"])
        assert not stops(accepted)
        assert {r for z, r in accepted.part.bore if z > -19.0} == {12.0}

    @pytest.mark.parametrize("move", UPRIGHT)
    @pytest.mark.parametrize(("low", "deep"), [(2.5, 6.0), (11.0, 6.0)])
    @pytest.mark.parametrize(("at", "runs_to"), [(-1.0, 0.0), (-79.0, -80.0)])
    def test_before_a_plain_bore_it_leaves_the_bore_as_it_is(self, at, runs_to, low, deep, move):
        """The edge of a chamfer outside crosses its lines, which then look like a step."""
        ink, way = side_view(SHAFT), 1 if runs_to else -1
        high = 20.0 if not runs_to else 15.0
        ink.solid.append((at, high, at, -high, 0.0))
        for s in (1, -1):
            ink.hidden += [(0.0, s * 12.0, -80.0, s * 12.0, 0), (runs_to, s * low, runs_to + way * deep, s * low, 0)]
            ink.hidden += [(runs_to + way * deep, 0.0, runs_to + way * deep, s * low, 0)]
        assert {round(r, 6) for _, r in read(ink, move).part.bore} == {12.0}

    def test_a_bore_that_widens_at_a_step_is_one(self):
        ink = side_view(SHAFT)
        for s in (1, -1):
            ink.hidden += [(0.0, s * 5.0, -20.0, s * 5.0, 0), (-20.0, s * 5.0, -20.0, s * 12.0, 0)]
            ink.hidden += [(-20.0, s * 12.0, -80.0, s * 12.0, 0)]
        assert {round(r, 6) for z, r in read(ink).part.bore if z > -19.0} == {5.0}

    def test_behind_the_chamfer_of_the_bore_too(self):
        assert stops(read(self.flange(2.5, end=-1.0))) == ["outline-unclear"]

    def test_a_groove_whose_floor_ends_at_both_walls_is_one(self):
        reading = read(self.flange(10.5, runs_on=False))
        assert not stops(reading)
        assert ("inside", -6.0, -20.0) in grooves(reading)

    @pytest.mark.parametrize(("behind", "asked"), [(10.5, False), (10.4, True)])
    def test_between_lands_of_one_bore_the_floor_may_lie_level_with_a_thread_s_root(self, behind, asked):
        assert ("outline-unclear" in stops(read(self.flange(10.5, behind=behind)))) is asked


@pytest.mark.parametrize(
    ("rows", "whole"),
    [
        ([(0.0, 6.0), (4.0, 10.0)], True),
        ([(0.0, 4.0), (4.0, 10.0)], True),
        ([(4.0, 10.0), (0.0, 6.0), (1.0, 2.0)], True),
        ([(2.0, 6.0), (3.0, 10.0), (3.0, 10.0)], False),  # as long in all, but open at the axis
        ([(0.0, 4.0), (0.0, 4.0), (5.0, 10.0)], False),
        ([], False),
    ],
)
def test_what_lies_under_another_line_covers_once(rows, whole):
    lines = np.array([(5.0, *row) for row in rows]).reshape(-1, 3)
    assert covers(lines, 5.0, 0.0, 10.0, 0.01) is whole
