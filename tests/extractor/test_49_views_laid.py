"""What is said of a view as it is laid, each at the edge of its mark, on bare values.

Lengths are parts of 1/16, so that what stands just at a mark stands there exactly; places of the view count as one
within 1/8, halves as alike within 1/2.
"""

import math
from types import SimpleNamespace

import pytest
from support.weighing import NO_SEGMENTS

from extractor.codes import DrawingCode
from extractor.doubts.combs import _even
from extractor.finding import Finding, Level
from extractor.placing import laying
from extractor.placing.laying import (
    _drilled,
    _ended_twice,
    _for_open_joints,
    _hollow,
    _knurled,
    _torn_by_hand,
    _toward_front,
)
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.viewing.axis import Axis
from extractor.viewing.gaps import Closed
from extractor.viewing.views import View

CLOSE, STEP = 0.125, 0.0625
SHEET = Sheet("x.dxf", "0" * 64, NO_SEGMENTS)


def view(halves="both", direction=(1.0, 0.0)):
    return View(Axis((0.0, 0.0), direction), -60.0, 0.0, 40.0, halves, 1.0, ())


def folded(*across, halves="both", hatched=(), stretches=()):
    """A laid view with lines square to its axis at some z, its z 0 at x 100."""
    edges = [SimpleNamespace(a=(z, -30.0), b=(z, 30.0), label=0, bulge=0.0) for z in across]
    return SimpleNamespace(
        axis=Axis((100.0, 50.0), (1.0, 0.0)),
        network=SimpleNamespace(edges=edges, point=lambda end: end),
        view=view(halves),
        hatched=hatched,
        close=CLOSE,
        pen=0.5,
        texture=SimpleNamespace(stretches=stretches),
        place=lambda z, r: (z + 100.0, r + 50.0),
    )


class TestOlderEnds:
    """A land 2 long and 20 across before a chamfer of 2, which is a tenth of its diameter."""

    @staticmethod
    def told(line, *sizes, across=-2.0):
        lines = tuple(Dimension(DimensionKind.LINEAR, ((100.0 + z, 60.0), (40.0, 60.0)), 0.0, 1.0, None) for z in sizes)
        sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=lines)
        return _ended_twice(sheet, folded(across), SimpleNamespace(outline=line))

    @pytest.mark.parametrize(
        ("line", "across", "doubtful"),
        [
            (((0, 10), (-2, 10), (-4, 12)), -2, True),
            (((0, 10), (-2, 10), (-4, 12), (-60, 12)), -2, True),
            (((-56, 12), (-58, 10), (-60, 10)), -58, True),
            (((0, 10), (-2, 10), (-4, 12)), -3, False),
            (((0, 10), (-2 - STEP, 10), (-4, 12)), -2 - STEP, False),
            # The land and the foot of the chamfer.
            (((0, 10 - CLOSE), (-2, 10), (-4, 12)), -2, True),
            (((0, 10 + CLOSE), (-2, 10), (-4, 12)), -2, True),
            (((0, 10 - CLOSE - STEP), (-2, 10), (-4, 12)), -2, False),
            # The chamfer, so long and so high.
            (((0, 10), (-2, 10), (-2 - CLOSE, 12)), -2, False),
            (((0, 10), (-2, 10), (-2 - CLOSE - STEP, 12)), -2, True),
            (((0, 10), (-2, 10), (-4, 10 + CLOSE)), -2, False),
            (((0, 10), (-2, 10), (-4, 10 + CLOSE + STEP)), -2, True),
            (((0, 10), (-2, 10), (-4, 8)), -2, False),
            # Corners of the face itself, and of one that is no deeper than that.
            (((0, 9), (-CLOSE, 10), (-2, 10), (-4, 12)), -2, True),
            (((0, 9), (-CLOSE - STEP, 10), (-2, 10), (-4, 12)), -2, False),
            (((0, 10), (-CLOSE, 10)), -2, False),
            (((0, 10), (-60, 10)), -60, False),
        ],
    )
    def test_a_short_land_no_higher_than_the_foot_of_a_chamfer(self, line, across, doubtful):
        told = self.told(line, across=across)
        assert [f.code for f in told] == [DrawingCode.OUTLINE_DOUBTFUL] * doubtful

    @pytest.mark.parametrize(
        ("at", "told"), [(0, False), (CLOSE, False), (-CLOSE, False), (CLOSE + STEP, True), (-CLOSE - STEP, True)]
    )
    def test_a_size_that_begins_there_bears_it_out(self, at, told):
        assert bool(self.told(((0, 10), (-2, 10), (-4, 12)), at)) is told

    def test_what_only_passes_there_does_not(self):
        places = ((40.0, 60.0), (60.0, 60.0), (100.0, 60.0), (100.0, 0.0))
        angle = Dimension(DimensionKind.ANGULAR, places, 0.0, 1.0, None)
        sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(angle,))
        assert _ended_twice(sheet, folded(-2), SimpleNamespace(outline=((0, 10), (-2, 10), (-4, 12))))

    def test_where_it_stands_and_how_long_it_is(self):
        (stop,) = self.told(((-1, 10), (-2, 10), (-4, 12)))
        assert (stop.level, stop.at) == (Level.STOP, (98.5, 50.0))
        assert "ends at X98.5 Y50 in a land 1 long as drawn" in stop.message


class TestHollows:
    CUP = ((0, 14), (-8, 18), (-8, 0))

    @staticmethod
    def told(laid, bore=CUP, strong=(), signed=False, dashed=False, findings=()):
        chosen = SimpleNamespace(evidence=SimpleNamespace(strong=strong, signed=signed))
        return _hollow(chosen, laid, SimpleNamespace(bore=bore, dashed=dashed, findings=findings))

    def test_one_drawn_like_an_outside_stops(self):
        (stop,) = self.told(folded())
        assert (stop.level, stop.code, stop.at) == (Level.STOP, DrawingCode.NOT_TURNED, (100.0, 50.0))
        assert "hollow at X100 Y50 is drawn" in stop.message

    @pytest.mark.parametrize(
        ("laid", "more"),
        [
            (folded(0.0), {}),
            (folded(hatched=("x",)), {}),
            (folded(halves="up"), {}),
            (folded(), {"strong": ("a diameter sign",)}),
            (folded(), {"signed": True}),
            (folded(), {"dashed": True}),
            (folded(), {"bore": None}),
            (folded(), {"findings": (Finding(Level.STOP, DrawingCode.NOT_TURNED, "x"),)}),
        ],
    )
    def test_whatever_says_that_it_is_turned_or_stops_anyway_will_do(self, laid, more):
        assert self.told(laid, **more) == []

    def test_a_note_does_not(self):
        assert self.told(folded(), findings=(Finding(Level.NOTE, DrawingCode.KNURL, "x"),))

    @pytest.mark.parametrize(
        ("bore", "at"),
        [
            (((0, 0.5), (-8, 18), (-8, 0)), None),
            (((0, 0.5 + STEP), (-8, 18), (-8, 0)), 100),
            (((-52, 0), (-52, 18), (-60, 0.5)), None),
            (((-52, 0), (-52, 18), (-60, 0.5 + STEP)), 40),
            (((0, 14), (-8, 18), (-60, 0.5)), 100),
            (((0, 14), (-8, 18), (-60, 0.5 + STEP)), None),
            (((0, 14), (-8, 0.5), (-60, 14)), 100),
        ],
    )
    def test_its_mouth_is_wider_than_the_pen_and_it_does_not_go_through(self, bore, at):
        assert [f.at for f in self.told(folded(), bore)] == ([] if at is None else [(at, 50.0)])

    @pytest.mark.parametrize(("edges", "told"), [((-60.0,), False), ((0.0,), False), ((-30.0,), True)])
    def test_the_edge_of_either_mouth_is_enough(self, edges, told):
        assert bool(self.told(folded(*edges), ((0, 14), (-8, 0.5), (-60, 14)))) is told


@pytest.mark.parametrize("said", [False, True])
def test_a_knurl_is_told_in_the_middle_of_its_stretch(said):
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text("KNURL RAA 1", (0.0, 0.0), 3.5),) if said else ())
    assert _knurled(sheet, folded()) == []
    (told,) = _knurled(sheet, folded(stretches=((-10.0, -30.0), (-40.0, -50.0))))
    assert (told.level, told.at) == (Level.NOTE if said else Level.CAUTION, (80.0, 50.0))
    assert "on the land at X80 Y50 were" in told.message


@pytest.mark.parametrize(
    ("at", "told"), [((CLOSE, 0.0), True), ((CLOSE + STEP, 0.0), False), ((-30, 40 + CLOSE), True), ((-30, 41), False)]
)
def test_a_drilled_hole_is_told_at_its_own_view(at, told):
    hole = SimpleNamespace(at=at, width=5.0)
    assert [f.at for f in _drilled(SimpleNamespace(holes=(hole,)), folded())] == [at] * told


@pytest.mark.parametrize(("count", "disagree", "torn"), [(7, True, False), (8, True, True), (8, False, False)])
def test_eight_joints_that_stand_open_are_a_hand_s(count, disagree, torn):
    code = DrawingCode.HALVES_DISAGREE if disagree else DrawingCode.NOT_TURNED
    found = SimpleNamespace(findings=(Finding(Level.STOP, code, "x"),))
    assert _torn_by_hand([Closed((0.0, 0.0), 0.1)] * count, found) is torn


def test_the_widest_of_open_joints_is_told():
    (stop,) = _for_open_joints([Closed((1.0, 2.0), 0.1), Closed((3.0, 4.0), 0.3), Closed((5.0, 6.0), 0.2)])
    assert stop.at == (3.0, 4.0)
    assert "up to 0.3 apart at 3 corners, the widest at X3 Y4," in stop.message


@pytest.mark.parametrize(
    ("ends", "gaps", "at"),
    [
        ([(1.0, 2.0), (3.0, 4.0), (5.0, 6.0)], [Closed((7.0, 8.0), 1.0)], (1.0, 2.0)),
        ([], [Closed((7.0, 8.0), 1.0), Closed((9.0, 9.0), 2.0)], (7.0, 8.0)),
        ([], [], (0.0, 0.0)),
    ],
)
def test_an_outline_that_does_not_close_is_shown_at_its_loose_ends(monkeypatch, ends, gaps, at):
    monkeypatch.setattr(laying, "_centred", lambda *_: (folded(), None))
    monkeypatch.setattr(laying, "open_ends", lambda _: ends)
    monkeypatch.setattr(laying, "_gaps_at", lambda *_: gaps)
    (stop,) = laying.lay_view(None, SHEET, SimpleNamespace(view=view("up")), None).findings
    assert (stop.code, stop.at, stop.spots) == (DrawingCode.OUTLINE_OPEN, at, tuple(ends[1:]))
    assert f"at X{at[0]:g} Y{at[1]:g} does" in stop.message


ROOT = math.sqrt(0.5)


@pytest.mark.parametrize(
    ("direction", "front", "turned"),
    [
        ((0.5, math.sqrt(0.75)), "right", False),
        ((-0.5, math.sqrt(0.75)), "right", True),
        ((0.5 - 1e-9, math.sqrt(0.75)), "right", None),
        ((-0.5 + 1e-9, math.sqrt(0.75)), "right", None),
        # Just between level and upright it counts as level.
        ((ROOT, -ROOT), None, False),
        ((-ROOT, ROOT), None, True),
    ],
)
def test_a_front_lies_where_the_axis_points_within_60_degrees(direction, front, turned):
    axis = _toward_front(view(direction=direction), front)
    wanted = tuple(-d if turned else d for d in direction)
    assert axis == (None if turned is None else Axis((0.0, 0.0), wanted))


@pytest.mark.parametrize(("off", "even"), [(1.0, True), (1.0 + STEP, False)])
def test_slots_stand_evenly_within_just_a_hundredth_of_their_step(off, even):
    """Steps of 100: 1 is a hundredth."""
    faces = [SimpleNamespace(outer=r + 20.0, inner=r - 20.0) for r in (50.0, 150.0 + off, 250.0)]
    assert _even(SimpleNamespace(faces=faces, bore=None)) is even


@pytest.mark.parametrize(
    ("near", "grain", "fine"), [(0.0, 0.0, 2e-3), (0.002, 0.0, 0.004), (0.001, 0.0, 2e-3), (0.001, 0.005, 0.005)]
)
def test_what_is_noise_is_the_greatest_of_three_lengths(monkeypatch, near, grain, fine):
    """2 in 100,000 of the view's size of 100, twice the distance of noding, or the grain of rounding."""
    seen = []
    monkeypatch.setattr(laying, "lay", lambda ink, segments, view, fine, said: seen.append(fine))
    monkeypatch.setattr(laying, "recognise", lambda folded: None)
    monkeypatch.setattr(laying, "_grain", lambda ink, view: grain)
    laying._centred(SimpleNamespace(near=near), SHEET, View(Axis((0, 0), (1, 0)), 0, 60, 40, "both", 1.0, ()))
    assert seen == [pytest.approx(fine)]


def test_a_view_that_does_not_close_about_the_middle_of_its_halves_is_read_about_its_axis(monkeypatch):
    about_axis = SimpleNamespace(off=0.1)
    found, laid = iter((about_axis, None)), iter(("about its axis", "about the middle"))
    monkeypatch.setattr(laying, "lay", lambda *_, **how: next(laid))
    monkeypatch.setattr(laying, "recognise", lambda folded: next(found))
    monkeypatch.setattr(laying, "_grain", lambda ink, view: 0.0)
    one = View(Axis((0, 0), (1, 0)), 0, 60, 40, "both", 1.0, ())
    assert laying._centred(SimpleNamespace(near=0.0), SHEET, one) == ("about its axis", about_axis)
