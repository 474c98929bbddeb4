"""Which of several views is read, and what becomes of the others: each view a bare value, held against by hand.

A view is 600 long and 800 high in all, so its size is 1000, a hundredth of it 10 and a thousandth exactly 1.
"""

import math
from types import SimpleNamespace

import pytest
from support.weighing import NO_SEGMENTS

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.front import FrontEnd
from extractor.placing import not_round, placing
from extractor.placing.in_pieces import _bridged, _end_to_end, _on_one_axis, _torn_off
from extractor.placing.laying import LaidView, no_view
from extractor.placing.placing import _Held, _in_line, _may_show, _one_part, _with_others, _with_words, _without_drafts
from extractor.placing.together import Difference
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.viewing.axis import Axis
from extractor.viewing.choice import ChosenViews
from extractor.viewing.views import View

SHEET = Sheet("x.dxf", "0" * 64, NO_SEGMENTS)
SHOWN = SimpleNamespace(
    outline=((0.0, 20.0), (-60.0, 20.0)), across=40.0, outside=(), inside=(), faces=(), bore=None, findings=()
)
STEP = 0.0625
DESK = SimpleNamespace(sheet=SHEET, ink=None)


def view(x=0.0, y=0.0, long=600.0, reach=400.0, turn=0.0, low=0.0):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return View(Axis((x, y), (c, s)), low, low + long, reach, "both", 1.0, ())


def from_z(z):
    """What a view shows that begins at z, behind a chamfer."""
    return SimpleNamespace(**{**vars(SHOWN), "outline": ((z, 19.0), (z - 1.0, 20.0), (z - 60.0, 20.0))})


def candidate(*place, plain=False, turned=True, plainly=False, **more):
    evidence = SimpleNamespace(turned=turned, plainly=plainly, signed=True, centre_line=False, ringed=False, strong=())
    return SimpleNamespace(view=view(*place, **more), evidence=evidence, plain=plain)


def laid(found=SHOWN, by="assumed", findings=(), folded=None):
    front = None if by is None else FrontEnd("right", by)
    return LaidView(folded, found, tuple(findings), front)


def apart(total):
    return Difference(near=1.0, far=2.0, one=30.0, two=28.0, total=total)


def finding(code, at=None, level=Level.STOP):
    return Finding(level, code, "x", at)


def codes(placed):
    return [f.code for f in placed.findings]


class TestEdges:
    @pytest.mark.parametrize(("off", "one"), [(0.0, True), (STEP, False)])
    def test_a_view_aslant_by_just_the_mark(self, monkeypatch, off, one):
        base, other = view(), view(y=2000, turn=0.5)
        monkeypatch.setattr(placing, "IN_LINE", base.axis.angle_to(other.axis.direction) * (1 - off))
        assert _may_show(base, other) is _in_line(base, other) is one

    @pytest.mark.parametrize(("off", "one"), [(10.0, True), (10.0 + STEP, False)])
    def test_a_view_off_by_just_a_hundredth(self, off, one):
        for way in (1, -1):
            assert _on_one_axis(view(), view(x=2000, y=way * off)) is one
            assert _in_line(view(), view(x=2000, y=way * off)) is one
            assert _in_line(view(low=-250), view(x=way * off, y=2000, low=-250)) is one
            assert _in_line(view(low=-250), view(x=way * off - 250, y=2000)) is one

    @pytest.mark.parametrize(("gap", "one"), [(10.0, True), (10.0 + STEP, False), (-50.0, True)])
    def test_pieces_end_to_end_are_just_a_hundredth_apart(self, gap, one):
        base = view(low=-100.0)
        assert _end_to_end(base, view(x=500.0 + gap, long=250.0, reach=100.0)) is one
        assert _end_to_end(base, view(x=-350.0 - gap, long=250.0, reach=100.0)) is one

    @pytest.mark.parametrize(
        ("one", "two", "torn"),
        [
            ((700, 50), (700, -50), True),
            ((599, 50), (599, -50), False),
            ((599 + STEP, 50), (599 + STEP, -50), True),
            ((1001, 50), (1001, -50), False),
            ((1001 - STEP, 50), (1001 - STEP, -50), True),
            ((700, 1), (700, -1), False),
            ((700, 1 + STEP), (700, -1 - STEP), True),
            ((700, 50), (701, -50), True),
            ((700, 50), (701 + STEP, -50), False),
            ((700, 50), (700, -51), True),
        ],
    )
    def test_lines_that_hang_between_two_views(self, one, two, torn):
        """Behind the first, which ends at 600, or before it: between the two, and as far from the axis either way."""
        for way, shift in ((1, 0.0), (-1, 600.0)):
            ends = [(shift + way * x, y) for x, y in (one, two)]
            network = SimpleNamespace(
                loose=range(2),
                edges=[SimpleNamespace(label=0)] * 2,
                around=[(0,), (1,)],
                point=ends.__getitem__,
            )
            other = view(x=1000.0, long=100.0, reach=50.0) if way == 1 else view(x=-500.0, long=100.0, reach=50.0)
            assert _torn_off(SimpleNamespace(network=network, aside=frozenset()), view(), other) is torn

    @pytest.mark.parametrize(("off", "told"), [(20.0, True), (20.0 + STEP, False)])
    def test_a_size_from_view_to_view_whatever_else_it_has(self, off, told):
        ends = ((100.0, 400.0 + off), (2100.0, 400.0), (0.0, 0.0), (2000.0, 0.0))
        sheet = Sheet(
            "x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(Dimension(DimensionKind.LINEAR, ends, 0.0, 5.0, None),)
        )
        assert _bridged(sheet, view(), view(x=2000)) is told


def test_a_draft_is_held_against_the_largest_view_that_closes():
    small, large = (candidate(x, long=600.0 * s, reach=400.0 * s) for x, s in ((0, 0.5), (1000, 0.95)))
    closed = [(small, laid()), (large, laid())]
    draft = candidate(2000), laid(None)
    assert _without_drafts([*closed, draft])[0] == closed
    assert _without_drafts([draft, *closed])[0] == closed
    larger = candidate(3000, long=700.0, reach=500.0), laid(None)
    assert _without_drafts([*closed, draft, larger])[0] == [*closed, draft, larger]


class TestOnePart:
    @pytest.mark.parametrize(("first", "second"), [(None, SHOWN), (SHOWN, None), (None, None)])
    @pytest.mark.parametrize("pieces", [False, True])
    def test_a_view_that_shows_nothing_is_another_part_or_a_piece(self, monkeypatch, first, second, pieces):
        stop = no_view(DrawingCode.IN_PIECES, "x", (0.0, 0.0))
        monkeypatch.setattr(placing, "in_pieces", lambda *_: stop if pieces else None)
        placed = _one_part(DESK, [(candidate(), laid(first)), (candidate(2000), laid(second))])
        assert codes(placed) == (codes(stop) if pieces else [DrawingCode.SEVERAL_PARTS])

    @pytest.mark.parametrize("pieces", [False, True])
    def test_so_is_one_that_differs(self, monkeypatch, pieces):
        stop = no_view(DrawingCode.IN_PIECES, "x", (0.0, 0.0))
        monkeypatch.setattr(placing, "in_pieces", lambda *_: stop if pieces else None)
        monkeypatch.setattr(placing, "_held_against", lambda *_: _Held(apart(1.0), laid(), SHOWN, 1.0))
        placed = _one_part(DESK, [(candidate(2000.0 * k), laid()) for k in range(3)])
        assert codes(placed) == (codes(stop) if pieces else [DrawingCode.SEVERAL_PARTS])
        if not pieces:
            (told,) = placed.findings
            assert told.message.startswith(
                "3 views on the sheet may be the part, two of them at X300 Y0 and X2300 Y0; at Z-1 to Z-2"
            )

    def test_one_alone_is_as_it_is(self):
        one = laid(None)
        assert _one_part(DESK, [(candidate(), one)]) is one


class TestWords:
    @staticmethod
    def heard(monkeypatch, first, second, *, total=None, turned=False):
        seen = []
        other = candidate(0.0, 2000.0)

        def held(*_):
            told = None if total is None else apart(total)
            return _Held(
                told, laid(by="words", findings=[finding(DrawingCode.NOT_TURNED)]) if turned else second, SHOWN, 1.0
            )

        monkeypatch.setattr(placing, "_held_against", held)
        monkeypatch.setattr(placing, "agreed", lambda one, rows, turn: seen.extend(rows) or one)
        placed = _with_words(SimpleNamespace(lay=lambda c: second), [(candidate(), first)], [other])
        return placed, [(row.by, row.at, row.same) for row in seen]

    @pytest.mark.parametrize(("found", "by"), [(None, "words"), (SHOWN, None), (None, None)])
    def test_a_view_that_shows_no_part_or_has_no_front_stays(self, monkeypatch, found, by):
        first = laid(found, by)
        assert self.heard(monkeypatch, first, laid(by="words")) == (first, [])

    @pytest.mark.parametrize(("total", "heard"), [(None, 1), (10_000.0, 1), (10_000.0 + STEP, 0)])
    def test_views_of_one_part_differ_by_just_a_hundredth_of_the_square_of_their_size(self, monkeypatch, total, heard):
        first, second = laid(by="assumed"), laid(by="words")
        rows = self.heard(monkeypatch, first, second, total=total)[1]
        assert rows == [("words", (300.0, 2000.0), True)] * heard

    def test_words_at_the_end_that_was_not_laid_first_are_of_the_other(self, monkeypatch):
        rows = self.heard(monkeypatch, laid(), laid(by="words"), turned=True)[1]
        assert rows == [("words", (300.0, 2000.0), False)]

    @pytest.mark.parametrize(
        ("one", "two", "heard"),
        [
            ("assumed", "assumed", []),
            ("dimensions", "dimensions", []),
            ("words", "assumed", ["words"]),
            ("words", "dimensions", ["words", "dimensions"]),
            ("dimensions", "words", ["dimensions", "words"]),
            ("option", "words", ["words"]),
        ],
    )
    def test_lengths_are_heard_beside_words_alone(self, monkeypatch, one, two, heard):
        assert [by for by, *_ in self.heard(monkeypatch, laid(by=one), laid(by=two))[1]] == heard

    @pytest.mark.parametrize(("total", "told"), [(None, True), (10_000.0 + STEP, False)])
    def test_words_that_name_both_ends_of_another_view_of_the_part_are_told(self, monkeypatch, total, told):
        torn = finding(DrawingCode.FRONT_CONFLICT)
        placed, rows = self.heard(monkeypatch, laid(), laid(by="assumed", findings=[torn]), total=total)
        assert (codes(placed), rows) == ([DrawingCode.FRONT_CONFLICT] * told, [])

    def test_a_conflict_of_its_own_lets_lengths_be_heard(self, monkeypatch):
        torn = laid(by="assumed", findings=[finding(DrawingCode.FRONT_CONFLICT)])
        assert [by for by, *_ in self.heard(monkeypatch, torn, laid(by="dimensions"))[1]] == ["dimensions"]


class TestOthers:
    """One view read, others beside it that were passed over."""

    @staticmethod
    def placed(monkeypatch, beside, *, passed=(), at=None, told=None, found=SHOWN, signed=True, odd=None, stop=False):
        asked = SimpleNamespace(flat=0, signed=0, circles=0)

        def count(name):
            setattr(asked, name, getattr(asked, name) + 1)

        for name, give in {
            "odd_end": lambda *_: odd,
            "said_flat": lambda *_, signed, **__: count("signed" if signed else "flat"),
            "circles_differ": lambda *_: count("circles"),
            "held_elsewhere": lambda *_: ([], ()),
            "cut_end": lambda *_: None,
            "without_teeth": lambda _, whole: (whole, []),
            "ends_seen": lambda *_: [],
            "faces_held": lambda _, whole, ends: (whole, ends),
            "answered": lambda told, *_: told,
            "ledger": lambda segments, roles, ink, read, others: others,
            "left_over": lambda *_: finding(DrawingCode.LINES_UNEXPLAINED),
            "crossed_out": lambda *_: None,
            "half_drawn": lambda *_: [],
            "letters_as_lines": lambda *_: None,
            "_held_against": lambda *_: _Held(told, laid(found), found, 1.0),
            "with_bore": lambda whole, way: whole,
        }.items():
            monkeypatch.setattr(placing if hasattr(placing, name) else not_round, name, give)
        first = candidate()
        first.evidence.signed = signed
        choice = ChosenViews((first,), passed, tuple(beside))
        desk = SimpleNamespace(
            sheet=SHEET, ink=SimpleNamespace(hatched=(), clusters=()), roles=None, lay=lambda c: laid(found)
        )
        desk.way = SimpleNamespace(at=at, scale=None)
        folded = SimpleNamespace(view=first.view, close=0.01)
        one = laid(findings=[finding(DrawingCode.NOT_TURNED)] if stop else [], folded=folded)
        return _with_others(desk, choice, first.view, one, (folded, SHOWN)), asked

    def test_a_view_of_the_same_part_was_not_passed_over_but_others_were(self, monkeypatch):
        beside = candidate(0.0, 2000.0)
        passed = [finding(code, at, Level.CAUTION) for code, at in (
            (DrawingCode.PASSED_OVER, beside.view.middle), (DrawingCode.PASSED_OVER, (7.0, 7.0)),
            (DrawingCode.KNURL, beside.view.middle),
        )]  # fmt: skip
        placed, _ = self.placed(monkeypatch, [beside], passed=tuple(passed))
        assert [f for f in placed.findings if f.level is Level.CAUTION] == passed[1:]
        assert placed.ink == [beside.view]

    @pytest.mark.parametrize(("times", "headed"), [(1.0, None), (2.0, "2:1"), (0.5, "2:1")])
    def test_the_heading_of_one_at_another_scale_is_heard(self, monkeypatch, times, headed):
        monkeypatch.setattr(placing, "heading", lambda *_: "2:1")
        one = candidate(0.0, 2000.0)
        twins = _Held(None, laid(folded=SimpleNamespace(axis="its axis")), from_z(5.0), times).twins(one)
        assert [(t.view, t.axis, t.front, t.times) for t in twins] == [(one.view, "its axis", 5.0 * times, times)]
        assert _Held(None, laid(), SHOWN, times).twins(one) == []
        monkeypatch.setattr(placing._Held, "twins", lambda *_: twins)
        assert self.placed(monkeypatch, [one])[0].headed == headed

    def test_one_that_shows_nothing_is_left(self, monkeypatch):
        placed, _ = self.placed(monkeypatch, [candidate(0.0, 2000.0)], found=None)
        assert codes(placed) == [DrawingCode.LINES_UNEXPLAINED]
        assert placed.ink == []

    @pytest.mark.parametrize(
        ("more", "at", "level"),
        [
            ({}, None, Level.STOP),
            ({}, (0.0, 0.0), Level.CAUTION),
            ({"plain": True}, None, Level.CAUTION),
            ({"reach": 300.0}, None, Level.CAUTION),
        ],
    )
    def test_one_that_differs_stops_where_it_may_as_well_be_meant(self, monkeypatch, more, at, level):
        placed, _ = self.placed(monkeypatch, [candidate(0.0, 2000.0, **more)], at=at, told=apart(9.0))
        assert [f.level for f in placed.findings if f.code == DrawingCode.VIEWS_DIFFER] == [level]

    def test_what_it_alone_shows_in_the_bore_is_counted(self, monkeypatch):
        found = SimpleNamespace(inside=("x", "y"))
        placed, _ = self.placed(monkeypatch, [candidate(0.0, 2000.0)], at=(0, 0), told=apart(9.0), found=found)
        assert "2 recesses in the bore" in placed.findings[0].message

    @pytest.mark.parametrize(
        ("turned", "long", "held"), [(True, 1200.0, True), (False, 1200.0, False), (False, 600.0, True)]
    )
    def test_one_drawn_larger_shows_that_it_is_turned(self, monkeypatch, turned, long, held):
        """Twice as large, and so as long at another scale."""
        one = candidate(0.0, 2000.0, long=long, reach=400.0 * long / 600.0, turned=turned)
        assert (self.placed(monkeypatch, [one])[0].ink == [one.view]) is held

    @pytest.mark.parametrize(
        ("signed", "odd", "asked"),
        [(False, False, (1, 0, 1)), (True, False, (0, 1, 1)), (False, True, (0, 0, 0)), (True, True, (0, 0, 0))],
    )
    def test_what_an_end_view_says_is_enough(self, monkeypatch, signed, odd, asked):
        end = finding(DrawingCode.NOT_ROUND) if odd else None
        placed, counted = self.placed(monkeypatch, [], signed=signed, odd=end)
        assert (counted.flat, counted.signed, counted.circles) == asked
        assert codes(placed)[:1] == ([DrawingCode.NOT_ROUND] if odd else [DrawingCode.LINES_UNEXPLAINED])

    def test_lines_left_over_are_told_where_nothing_else_stops(self, monkeypatch):
        assert codes(self.placed(monkeypatch, [], stop=True)[0]) == [DrawingCode.NOT_TURNED]


class TestBroken:
    """Of several views a broken one stops; alone, its stop is like any other, which may be answered."""

    @pytest.mark.parametrize(("count", "read"), [(1, True), (2, False)])
    def test_one_alone_is_read_on(self, monkeypatch, count, read):
        broken = laid(findings=[finding(DrawingCode.BROKEN_VIEW)])
        views = tuple(candidate(0.0, 2000.0 * k) for k in range(count))
        monkeypatch.setattr(
            placing, "choose", lambda *_: ChosenViews(views, (finding(DrawingCode.KNURL, level=Level.NOTE),))
        )
        way = SimpleNamespace(at=None, about=None)
        desk = SimpleNamespace(
            sheet=SHEET, lay=lambda c: broken, way=way, seen=SimpleNamespace(ink=None, views=(), centres=())
        )
        placed = placing._placed(desk)
        assert codes(placed) == [DrawingCode.KNURL, DrawingCode.BROKEN_VIEW]
        assert (placed.found is SHOWN) is read
