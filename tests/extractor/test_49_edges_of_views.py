"""What makes views those of one part, at the edge of each mark: just inside and just outside, on bare values.

A view here is 60 long and 80 high in all, so its diagonal is 100 and a share of its size is easily worked out.
"""

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from support.weighing import NO_SEGMENTS

from extractor.codes import DrawingCode
from extractor.doubts.combs import _even, hardly_turned
from extractor.finding import Level
from extractor.placing.in_pieces import _bridged, _on_one_axis, _torn_off
from extractor.placing.laying import (
    LaidView,
    _gaps_at,
    _grain,
    _toward_front,
    _turned,
    gap_findings,
)
from extractor.placing.placing import _again, _in_line, _may_show, _several, _without_drafts
from extractor.placing.together import Difference, best_of, difference, differs
from extractor.placing.twins import times_as_large
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.viewing.axis import Axis
from extractor.viewing.gaps import Closed
from extractor.viewing.views import View


def view(x=0.0, y=0.0, long=60.0, reach=40.0, turn=0.0, halves="both"):
    """A view whose axis begins at a place, drawn so many degrees aslant."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return View(Axis((x, y), (c, s)), 0.0, long, reach, halves, 1.0, ())


def candidate(one, **more):
    return SimpleNamespace(view=one, **more)


class TestMayShow:
    @pytest.mark.parametrize(
        ("other", "may"),
        [
            (view(y=200), True),
            (view(y=200, long=61.9, reach=36), True),
            (view(y=200, long=62.1, reach=36), False),
            (view(y=200, long=120, reach=83.9), True),
            (view(y=200, long=120, reach=84.3), False),
            (view(x=3, y=200, reach=41.9), True),
            (view(x=3, y=200, reach=42.1), False),
            (view(x=0.9, y=200, reach=30), True),
            (view(x=1.1, y=200, reach=30), False),
            (view(x=200, y=0.9, reach=30), True),
            (view(x=200, y=1.1, reach=30), False),
            (view(y=200, turn=0.5), True),
            (view(y=200, turn=0.6), False),
            (view(y=200, turn=90), True),
            (view(y=200, turn=89.5), True),
            (view(y=200, turn=89.4), False),
            (view(y=200, turn=45), False),
            (view(x=0, y=200, reach=30, turn=90), False),
        ],
    )
    def test_as_long_and_as_high_or_in_line_and_not_aslant(self, other, may):
        # 2 in a hundred of the size are 2, 1 in a hundred is 1 or 0.57 degrees; twice as large, 2 in a hundred are 4.1.
        assert _may_show(view(), other) is may

    def test_in_line_needs_one_direction(self):
        assert _in_line(view(), view(y=200, turn=0.5))
        assert not _in_line(view(), view(y=200, turn=0.6))
        assert not _in_line(view(), view(x=30, y=200))

    def test_what_begins_where_the_other_does_counts_from_either_end(self):
        assert _in_line(view(), view(x=60, y=200, turn=180))
        assert not _in_line(view(), view(x=62, y=200, turn=180))

    @pytest.mark.parametrize(("y", "on"), [(0.9, True), (1.1, False)])
    def test_on_one_axis(self, y, on):
        assert _on_one_axis(view(), view(x=200, y=y, reach=10)) is on


class TestBridged:
    @staticmethod
    def bridged(a, b, measured=100.0):
        line = Dimension(DimensionKind.LINEAR, (a, b), 0.0, measured, None)
        sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(line,))
        return _bridged(sheet, view(), view(x=200))

    @pytest.mark.parametrize(
        ("a", "b", "told"),
        [
            ((10, 40), (210, 40), True),
            ((10, 41.9), (210, 41.9), True),
            ((10, 42.1), (210, 40), False),
            ((10, 40), (30, 40), False),
            ((210, 40), (10, 40), True),
            ((10, 40), (150, 40), False),
        ],
    )
    def test_a_size_runs_from_one_view_to_the_other(self, a, b, told):
        assert self.bridged(a, b) is told

    def test_a_size_of_nothing_says_nothing(self):
        assert not self.bridged((10, 40), (210, 40), measured=0.0)
        assert self.bridged((10, 40), (210, 40), measured=0.5)


class TestTornOff:
    """Ends of lines between a view that ends at 60 and one that begins at 200, on one axis."""

    @staticmethod
    def torn(*ends, aside=()):
        edges = [SimpleNamespace(label=k) for k in range(len(ends))]
        network = SimpleNamespace(
            loose=range(len(ends)), edges=edges, around=[(k,) for k in range(len(ends))], point=lambda n: ends[n]
        )
        return _torn_off(SimpleNamespace(network=network, aside=frozenset(aside)), view(), view(x=200, reach=10))

    @pytest.mark.parametrize(
        ("one", "two", "told"),
        [
            ((100, 5), (100, -5), True),
            ((100, 5), (100.09, -5.09), True),
            ((100, 5), (100.11, -5), False),
            ((100, 5), (100, -5.11), False),
            ((100, 5), (100, 5), False),
            ((59.95, 5), (59.95, -5), True),
            ((59.85, 5), (59.85, -5), False),
            ((200.05, 5), (200.05, -5), True),
            ((200.15, 5), (200.15, -5), False),
            ((100, 0.09), (100, -0.09), False),
            ((100, 0.11), (100, -0.11), True),
        ],
    )
    def test_lines_hang_on_both_sides_alike(self, one, two, told):
        assert self.torn(one, two) is told

    def test_what_is_set_aside_hangs_on_nothing(self):
        assert not self.torn((100, 5), (100, -5), aside=[1])
        assert not self.torn()


@pytest.mark.parametrize(("share", "passed"), [(0.89, False), (0.9, True), (0.91, True)])
def test_a_view_that_does_not_close_is_passed_over_for_one_nearly_as_large(share, passed):
    closed = candidate(view(long=60 * share, reach=40 * share)), LaidView(None, object(), ())
    draft = candidate(view(x=300)), LaidView(None, None, ())
    left, said = _without_drafts([closed, draft])
    assert left == ([closed] if passed else [closed, draft])
    assert [f.code for f in said] == ([DrawingCode.PASSED_OVER] if passed else [])


def test_no_view_is_passed_over_where_none_closes():
    drafts = [(candidate(view()), LaidView(None, None, ()))]
    assert _without_drafts(drafts) == (drafts, [])


class TestWords:
    def test_a_part_drawn_again(self):
        laid = [(candidate(view()), LaidView(None, object(), ()))] * 3
        assert "drawn 3 times over" in _again(laid, []).message
        assert _again(laid, [candidate(view(x=100))]).code == DrawingCode.READ_TOGETHER

    @pytest.mark.parametrize(
        ("inside", "words"), [(-1, ""), (0, ""), (1, "shows a recess in the bore"), (2, "shows 2 recesses in the bore")]
    )
    def test_a_view_that_differs_says_what_it_alone_shows(self, inside, words):
        message = differs(view(), Difference(near=1.0, far=2.0, one=30.0, two=28.0, total=4.0), inside).message
        assert "at Z-1 to Z-2 one shows 30, the other 28" in message
        assert words in message
        assert ("recess" in message) is bool(words)

    def test_what_two_views_show(self):
        assert Difference(near=0.0, far=0.0, one=60.0, two=50.0, total=math.inf).words == "one is 60 long, the other 50"
        assert Difference(near=0.0, far=60.0, one=0.0, two=20.0, total=1200.0).words == (
            "at Z0 to Z-60 one shows a bore 20 across, the other none"
        )

    def test_several_parts_are_counted_four_are_named_and_all_that_read_are_offered(self):
        laid = [(candidate(view(x=100.0 * k)), LaidView(None, object(), ())) for k in range(6)]
        (stop,) = _several(laid[:2], None).findings
        assert [_several(laid[:k], None).closed for k in (2, 6)] == [2, 6]
        assert stop.message.startswith("2 views on the sheet may be the part, at X30 Y0 and X130 Y0; they differ: ")
        assert (stop.at, stop.spots) == ((30.0, 0.0), ((30.0, 0.0), (130.0, 0.0)))
        (stop,) = _several(laid, None).findings
        assert (
            "6 views on the sheet may be the part, some of them at X30 Y0 and X130 Y0 and X230 Y0 and" in stop.message
        )
        assert stop.message.count(" and X") == 3
        assert stop.spots == tuple((30.0 + 100 * k, 0.0) for k in range(6))
        drafts = [*laid[:2], (candidate(view(x=300)), LaidView(None, None, ()))]
        (stop,) = _several(drafts, None).findings
        assert "some of them at X30 Y0 and X130 Y0; the one at X330 Y0 does not close: point" in stop.message
        assert (_several(drafts, None).closed, _several(drafts[2:], None).closed) == (2, 0)
        (stop,) = _several(drafts[2:] * 2, None).findings
        assert stop.spots == ((330.0, 0.0), (330.0, 0.0))

    def test_the_two_that_differ_are_named_first_and_the_others_offered_behind(self):
        laid = [(candidate(view(x=100.0 * k)), LaidView(None, object(), ())) for k in range(4)]
        told = Difference(near=1.0, far=2.0, one=30.0, two=28.0, total=1.0)
        (stop,) = _several(laid, told, [laid[0][0], laid[2][0]]).findings
        assert stop.message.startswith(
            "4 views on the sheet may be the part, two of them at X30 Y0 and X230 Y0; at Z-1 to Z-2 one shows 30"
        )
        assert stop.spots == ((30.0, 0.0), (230.0, 0.0), (130.0, 0.0), (330.0, 0.0))


def rings(*pairs, bore=None):
    return SimpleNamespace(faces=[SimpleNamespace(outer=o, inner=i) for o, i in pairs], bore=bore)


class TestEven:
    """Rings of a face that are a comb's slots: middles at 5, 15 and 25, each 4 wide; half a step from the axis."""

    def test_even_ones(self):
        assert _even(rings((7, 3), (17, 13), (27, 23)))
        assert not _even(rings((7, 3)))
        assert _even(rings((7, 3), (17, 13)))

    @pytest.mark.parametrize(("by", "even"), [(0.09, True), (0.11, False)])
    def test_within_a_hundredth_of_their_step(self, by, even):
        # The middle one off its place.
        assert _even(rings((7, 3), (17 + by, 13 + by), (27, 23))) is even
        # One wider than the others, about its middle.
        assert _even(rings((7, 3), (17 + by / 2, 13 - by / 2), (27, 23))) is even
        # All of them farther out.
        assert _even(rings((7 + by, 3 + by), (17 + by, 13 + by), (27 + by, 23 + by))) is even

    def test_with_a_bore_the_first_stands_a_whole_step_from_the_axis(self):
        assert _even(rings((12, 8), (22, 18), bore=((0, 2),)))
        assert not _even(rings((12, 8), (22, 18)))


class TestHardlyTurned:
    @staticmethod
    def codes(found, *, centre=True, plain=False, strong=False, slight=()):
        evidence = SimpleNamespace(strong=strong, centre_line=centre)
        one = candidate(view(), evidence=evidence, plain=plain)
        full = SimpleNamespace(outside=(), inside=(), bore=None) if found is None else found
        full.faces = getattr(full, "faces", [])
        full.outside = getattr(full, "outside", ())
        full.inside = getattr(full, "inside", ())
        full.main = SimpleNamespace(slight=slight)
        return [f.code for f in hardly_turned(one, full)]

    def test_rings_in_a_face(self):
        uneven = ((7, 3), (19, 13))
        assert self.codes(rings((7, 3), (17, 13))) == [DrawingCode.NOT_ROUND]
        assert self.codes(rings(*uneven)) == [DrawingCode.NOT_TURNED]
        assert self.codes(rings((7, 3))) == []
        assert self.codes(rings((7, 3)), centre=False) == [DrawingCode.NOT_TURNED]
        assert self.codes(rings(), centre=False) == []
        assert self.codes(rings(*uneven), strong=True) == []

    def test_a_plain_rectangle(self):
        assert self.codes(None, plain=True) == [DrawingCode.NOT_TURNED]
        assert self.codes(None, plain=True, slight=("x",)) == []
        assert self.codes(None) == []
        assert self.codes(SimpleNamespace(outside=(), inside=(), bore=((0, 2),)), plain=True) == []
        assert self.codes(SimpleNamespace(outside=(), inside=("x",), bore=None), plain=True) == []
        assert self.codes(SimpleNamespace(outside=("x",), inside=(), bore=None), plain=True) == []


class TestGaps:
    @pytest.mark.parametrize(
        ("units", "scale", "width", "level"),
        [
            ("mm", 1.0, 0.05, Level.NOTE),
            ("mm", 1.0, 0.051, Level.CAUTION),
            ("mm", 2.0, 0.1, Level.NOTE),
            ("mm", 2.0, 0.102, Level.CAUTION),
            ("in", 1.0, 0.002, Level.NOTE),
            ("in", 1.0, 0.0021, Level.CAUTION),
        ],
    )
    def test_a_gap_wider_than_an_edge_break_is_a_caution(self, units, scale, width, level):
        (told,) = gap_findings([Closed((3.0, 4.0), width), Closed((0.0, 0.0), width / 2)], units, scale, 0.0)
        assert (told.level, told.at) == (level, (3.0, 4.0))
        assert told.message.startswith("2 gaps of up to")

    @pytest.mark.parametrize(("aside", "level"), [(0.0199, Level.NOTE), (0.0201, Level.CAUTION)])
    def test_an_end_moved_sideways_by_more_than_the_pen_s_error_is_a_caution(self, aside, level):
        gaps = [Closed((3.0, 4.0), 0.03), Closed((5.0, 6.0), 0.0205, frozenset(), aside)]
        (told,) = gap_findings(gaps, "mm", 1.0, 0.02)
        assert told.level == level
        assert ("X5 Y6 moved sideways by 0.0201" in told.message) is (level == Level.CAUTION)

    def test_one_gap_is_said_of_one(self):
        assert gap_findings([Closed((3.0, 4.0), 0.01)], "mm", 1.0, 0.0)[0].message.startswith("1 gap of up to 0.01 in")
        assert gap_findings([], "mm", 1.0, 0.0) == []


class TestTurning:
    @pytest.mark.parametrize(
        ("turn", "front", "wanted"),
        [
            (0, None, 0), (180, None, 0), (0, "left", 180), (90, None, 90), (270, None, 90), (90, "bottom", 270),
            (90, "right", None), (0, "top", None), (44, None, 44), (46, None, 46), (226, None, 46), (59, "right", 59),
            (61, "right", None),
        ],
    )  # fmt: skip
    def test_a_view_is_turned_to_its_front(self, turn, front, wanted):
        axis = _toward_front(view(turn=turn), front)
        if wanted is None:
            assert axis is None
        else:
            angle = math.radians(wanted)
            assert axis.direction == pytest.approx((math.cos(angle), math.sin(angle)))

    def test_a_turned_view_has_its_stretch_and_its_half_turned_too(self):
        one = replace(view(halves="up"), low=-10.0)
        turned = _turned(one, Axis((0.0, 0.0), (-1.0, 0.0)))
        assert (turned.low, turned.high, turned.halves) == (-60.0, 10.0, "down")
        assert _turned(one, one.axis) is one


@pytest.mark.parametrize(
    ("step", "scale", "grain"),
    [
        (0.01, 1.0, 0.0105),
        (0.01, 1.01, 0.0105),
        (0.01, 0.99, 0.0),
        (0.1, 1.0, 0.0),
        (0.1, 200.0, 0.105),
        (1.0, 200.0, 0.0),
    ],
)
def test_rounding_to_a_place_is_a_grain_where_it_is_finer_than_the_view(step, scale, grain):
    # A ten-thousandth of 100 is 0.01: coarser is a grid that was drawn on, and so are whole units.
    ends = np.round(np.array([[1.23, 4.56, 7.89, 10.12], [3.31, 2.27, 9.93, 0.01]]) / step) * step
    ink = SimpleNamespace(strokes=SimpleNamespace(ends=ends, bulge=np.zeros(2)))
    assert _grain(ink, view(long=60 * scale, reach=40 * scale)) == pytest.approx(grain)


@pytest.mark.parametrize(
    ("at", "own"), [((60.9, 0), True), ((61.1, 0), False), ((30, -40.9), True), ((30, 41.1), False)]
)
def test_a_gap_is_a_views_within_a_hundredth_of_its_size(at, own):
    gap = SimpleNamespace(at=at)
    assert _gaps_at(SimpleNamespace(closed=(gap,)), view()) == [gap] * own


class TestTogether:
    @staticmethod
    def found(outline=((0, 20), (-60, 20)), bore=None, across=40.0, dashed=False):
        return SimpleNamespace(outline=outline, bore=bore, across=across, dashed=dashed, inside=(), faces=())

    @pytest.mark.parametrize(("off", "told"), [(0.059, False), (0.061, True)])
    def test_lengths_differ_by_a_thousandth_of_the_greater_size(self, off, told):
        # 60 is greater than 40 across: a thousandth of it is 0.06.
        other = self.found(((5, 20), (-55 - off, 20)))
        assert (difference(self.found(), other) is not None) is told

    @pytest.mark.parametrize(("off", "told"), [(0.059, False), (0.061, True)])
    def test_radii_differ_by_as_much(self, off, told):
        found = difference(
            self.found(), self.found(((0, 20), (-10, 20), (-10, 20 - off), (-20, 20 - off), (-20, 20), (-60, 20)))
        )
        assert (found is not None) is told
        if found is not None:
            assert (found.near, found.far, found.one, found.two) == pytest.approx((10.0, 20.0, 40.0, 40.0 - 2 * off))
            assert found.total == pytest.approx(2 * off * 10)

    def test_bores_are_held_against_one_another_where_both_are_seen_alike(self):
        one, two = self.found(bore=((0, 5), (-60, 5))), self.found(bore=((0, 6), (-60, 6)))
        assert difference(one, two).two == 12.0
        assert difference(one, self.found()) is None
        assert difference(self.found(), two) is None
        assert difference(one, self.found(bore=((0, 6), (-60, 6)), dashed=True)) is None

    def test_the_longest_stretch_is_told_and_all_of_them_count(self):
        def stepped(*spots):
            line = [(0, 20)]
            for near, far, r in spots:
                line += [(near, 20), (near, r), (far, r), (far, 20)]
            return self.found((*line, (-60, 20)))

        found = difference(self.found(), stepped((-10, -12, 15), (-20, -26, 18)))
        assert (found.near, found.far, found.two) == (20.0, 26.0, 36.0)
        assert found.total == pytest.approx(2 * (5 * 2 + 2 * 6))

    def test_of_two_ways_the_one_most_alike_is_taken(self):
        base = self.found()
        far, near = (self.found(((0, 20), (-10, 20), (-10, r), (-20, r), (-20, 20), (-60, 20))) for r in (15, 18))
        assert best_of(base, [far, near])[0] == 1
        assert best_of(base, [near, base]) == (1, None)


def test_a_scrap_without_length_is_drawn_at_no_scale():
    assert [times_as_large(view(long=long), view(long=60.0)) for long in (0.0, 30.0)] == [1.0, 1.0]
    assert times_as_large(view(long=30.0, reach=10.0), view(long=60.0, reach=20.0)) == 2.0
