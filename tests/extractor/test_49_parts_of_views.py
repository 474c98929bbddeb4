"""What one view adds to another and where two differ, on bare values worked out by hand.

The part of `found` is 1000 long, so what counts as the pen's error, a thousandth of that, is exactly 1.
"""

import math
from dataclasses import replace

import pytest

from extractor.placing.together import _from, _hidden_apart, best_of, contradicts, difference, drawn_so_large, with_bore
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess
from extractor.viewing.axis import Axis
from extractor.viewing.views import View


def found(outline=((0.0, 200.0), (-1000.0, 200.0)), **more):
    kept = {"bore": None, "across": 400.0, "inside": (), "faces": (), "dashed": False} | more
    return Found(outline=outline, main=None, off=0.0, outside=(), alone=(), side=1, findings=(), **kept)


def recess(near, far, floor, mouth=10.0, **more):
    lands = {"mouth": mouth, "near_land": mouth, "far_land": mouth}
    return Measured(shape="rectangular", z_near=near, z_far=far, floor=floor, **lands, **more)


def ring(inner, outer, deep, face=0.0, **more):
    kept = {"corner": 0.0, "chamfer": 0.0, "bevelled": (False, False)} | more
    return FaceRecess(shape="rectangular", z_face=face, z_floor=face - deep, outer=outer, inner=inner, **kept)


def shown(*inside, dashed=False):
    return found(inside=inside, dashed=dashed)


class TestDifference:
    @pytest.mark.parametrize(("long", "across", "told"), [(1001.0, 400.0, False), (1001.5, 400.0, True)])
    def test_lengths_that_differ_by_just_the_pen_s_error_are_one(self, long, across, told):
        other = found(((0.0, 200.0), (-long, 200.0)))
        assert (difference(found(across=across), other) is not None) is told

    def test_of_a_part_wider_than_long_the_width_counts(self):
        one, two = found(((0.0, 500.0), (-10.0, 500.0)), across=1000.0), found(((0.0, 500.0), (-11.0, 500.0)))
        assert difference(one, two) is None
        assert difference(replace(one, across=999.0), two).total == math.inf

    def test_a_bore_is_taken_on_to_both_ends_of_the_part(self):
        outline = ((5.0, 20.0), (1.0, 20.0), (1.0, 30.0), (-55.0, 30.0))
        bore = ((4.0, 6.0), (0.0, 7.0), (-20.0, 8.0), (-54.0, 9.0))
        assert _from(outline, bore) == ((5.0, 6.0), *bore, (-55.0, 9.0))

    def test_a_way_that_differs_a_little_is_not_the_one_most_alike(self):
        """Off by an area of 2 x 0.1 x 2, which is less than 1 in all."""
        base = found(((0.0, 20.0), (-60.0, 20.0)), across=40.0)
        line = ((0.0, 20.0), (-10.0, 20.0), (-10.0, 19.9), (-12.0, 19.9), (-12.0, 20.0), (-60.0, 20.0))
        near = replace(base, outline=line)
        assert difference(base, near).total == pytest.approx(0.4)
        assert best_of(base, [near, base]) == (1, None)
        assert best_of(base, [base, near]) == (0, None)


class TestHiddenBores:
    """Within 1; the hidden recess runs from -10 to -13 at 12, in a bore of 10."""

    @pytest.mark.parametrize(
        ("section", "told"),
        [
            (recess(-11, -13, 12), None),
            (recess(-10, -14, 12), None),
            (recess(-10, -13, 11), None),
            (recess(-11.5, -13, 12), (10, 11.5, 24, 20)),
            (recess(-10, -14.5, 12), (13, 14.5, 24, 20)),
            (recess(-10, -13, 13.5), (10, 13, 24, 27)),
            # Floors that are alike within 1: of the two, the end that only one has.
            (recess(-10, -15, 11), (13, 15, 24, 20)),
            (recess(-11, -16, 11), (13, 16, 24, 20)),
            (recess(-12, -16, 11), (10, 12, 24, 20)),
            (recess(-8, -13, 12), (8, 10, 24, 20)),
            (recess(-8, -13, 10.75), (10, 13, 24, 21.5)),
            # Beside it, or only up to its wall.
            (recess(-13, -16, 12), (10, 13, 24, 20)),
            (recess(-7, -10, 12), (10, 13, 24, 20)),
            (recess(-12.5, -16, 15), (10, 13, 24, 30)),
            (recess(-7, -10.5, 15), (10, 13, 24, 30)),
        ],
    )
    def test_what_hidden_lines_show_is_there_or_the_views_differ(self, section, told):
        hidden, cut = shown(recess(-10, -13, 12), dashed=True), shown(section)
        for one, two in ((hidden, cut), (cut, hidden)):
            apart = _hidden_apart(one, two, 1.0)
            if told is None:
                assert apart is None
                continue
            radii = told[2:] if one is hidden else told[:1:-1]
            assert (apart.near, apart.far, apart.one, apart.two) == (*told[:2], *radii)
            assert apart.total == (told[1] - told[0]) * abs(told[2] - told[3]) / 2

    def test_places_count_from_the_front_of_each_view(self):
        line = ((5.0, 200.0), (-300.0, 200.0), (-300.0, 150.0), (-995.0, 150.0))
        hidden = replace(shown(recess(-5, -8, 12), dashed=True), outline=line)
        assert _hidden_apart(hidden, shown(recess(-10, -13, 12)), 0.1) is None
        apart = _hidden_apart(hidden, shown(), 0.1)
        assert (apart.near, apart.far) == (10.0, 13.0)


class TestFaces:
    """Within 1, both cut unless said."""

    def test_the_largest_of_those_that_differ_is_told_and_all_count(self):
        one = found(faces=(ring(20, 30, 5), ring(50, 60, 10)))
        two = found(faces=(ring(20, 30, 8), ring(50, 60, 7)))
        apart = difference(one, two)
        assert (apart.near, apart.far, apart.one, apart.two) == (0.0, 10.0, 120.0, 120.0)
        assert apart.total == 80 + 100
        assert apart.words == (
            "in the face at Z0 one shows a groove 100 to 120 across and 10 deep, the other a groove 100 to 120 across "
            "and 7 deep"
        )

    def test_one_that_either_lacks(self):
        alike, alone = ring(20, 30, 5), ring(50, 60, 10)
        most, least = found(faces=(alike, alone)), found(faces=(alike,))
        one, two = difference(most, least), difference(least, most)
        assert (one.one, one.two, one.total, one.rings) == (120.0, 0.0, 100.0, (alone, None))
        assert (two.one, two.two, two.total, two.rings) == (0.0, 120.0, 100.0, (None, alone))
        assert "one shows no groove, the other a groove 100 to 120 across and 10 deep" in two.words
        assert difference(replace(least, dashed=True), most) is None
        assert difference(most, replace(least, dashed=True)) is None
        assert difference(least, replace(most, dashed=True)) == two

    def test_where_only_one_shows_any_the_other_says_nothing(self):
        assert difference(found(), found(faces=(ring(20, 30, 5),))) is None
        assert difference(found(faces=(ring(20, 30, 5),)), found()) is None

    def test_the_place_is_told_from_the_front_of_the_part(self):
        outline = ((0.3, 200.0), (-999.7, 200.0))
        one, two = (found(outline, faces=(ring(20, 30, deep, face=0.1 + 0.2),)) for deep in (5.0, 8.0))
        assert "in the face at Z0 one" in difference(one, two).words
        back = [replace(f, faces=(ring(20, 30, -d, face=-999.7),)) for f, d in ((one, 5.0), (two, 8.0))]
        apart = difference(*back)
        assert (apart.near, apart.far) == (1000.0, 995.0)
        assert "in the face at Z-1000 one" in apart.words

    def test_views_are_laid_front_to_front(self):
        one = found(faces=(ring(20, 30, 5),))
        two = found(((7.0, 200.0), (-993.0, 200.0)), faces=(ring(20, 30, 5, face=7.0),))
        assert difference(one, two) is None


BORE = ((0.0, 10.0), (-1000.0, 10.0))
MOVED = ((7.0, 10.0), (-993.0, 10.0))


class TestWithBore:
    """The second view lies 7 farther to the front."""

    own = (recess(-30, -33, 12, foot=(-30.5, -32.5), reach=(-29.0, -34.0)),)
    mine, other = (ring(20, 30, 5),), (ring(50, 60, 10, face=7.0),)
    there = (recess(-23, -26, 12, foot=(-23.5, -25.5), reach=(-22.0, -27.0)),)

    def second(self, bore=MOVED, **more):
        return found(((7.0, 200.0), (-300.0, 200.0), (-300.0, 190.0), (-993.0, 190.0)), bore=bore, **more)

    def test_a_bore_that_one_alone_shows_is_taken_with_its_recesses(self):
        got = with_bore(found(), self.second(inside=self.there, dashed=True))
        assert (got.bore, got.inside, got.dashed) == (BORE, self.own, True)
        assert got.outline == found().outline

    @pytest.mark.parametrize(
        ("base", "other", "taken"),
        [(False, False, False), (True, True, False), (False, True, False), (True, False, True)],
    )
    def test_of_two_bores_the_one_in_section_is_taken_from_hidden_lines(self, base, other, taken):
        got = with_bore(found(bore=BORE, dashed=base), self.second(inside=self.there, dashed=other))
        assert got.inside == (self.own if taken else ())
        assert got.dashed is (other if taken else base)

    @pytest.mark.parametrize("dashed", [False, True])
    def test_a_view_without_a_bore_takes_none_away(self, dashed):
        base = found(bore=BORE, inside=self.own, dashed=dashed)
        assert with_bore(base, self.second(bore=None)) == base

    @pytest.mark.parametrize(
        ("base", "other", "taken"), [(False, False, 0), (True, True, 0), (False, True, 0), (True, False, 1)]
    )
    def test_of_grooves_in_faces_too(self, base, other, taken):
        first, second = found(faces=self.mine, dashed=base), self.second(None, faces=self.other, dashed=other)
        assert with_bore(first, second).faces == (self.mine, (ring(50, 60, 10),))[taken]

    @pytest.mark.parametrize("dashed", [(False, False), (True, False), (False, True)])
    def test_a_view_without_any_takes_none_away(self, dashed):
        one, two = dashed
        assert with_bore(found(faces=self.mine, dashed=one), self.second(dashed=two)).faces == self.mine
        assert with_bore(found(dashed=one), self.second(faces=self.other, dashed=two)).faces == (ring(50, 60, 10),)


def test_a_view_drawn_larger_has_all_its_lengths_larger_and_nothing_else():
    kept = {"inner": 1, "level": False, "overhang": True, "bevels": (True, False), "bends": (False, True)}
    sizes = {"corners": (0.5, 0.25), "chamfers": (1.0, 0.5), "foot": (-31.0, -32.0), "reach": (-29.0, -34.0)}
    small = recess(-30.0, -33.0, 12.0, mouth=10.0, **sizes, **kept)
    sizes = {"corners": (1.5, 0.75), "chamfers": (3.0, 1.5), "foot": (-93.0, -96.0), "reach": (-87.0, -102.0)}
    large = recess(-90.0, -99.0, 36.0, mouth=30.0, **sizes, **kept)
    flat = {"bevelled": (True, False), "rounded": True, "overhang": True}
    face = ring(10.0, 14.0, 2.0, corner=0.5, chamfer=0.25, reach=(14.5, 9.5), **flat)
    wide = ring(30.0, 42.0, 6.0, corner=1.5, chamfer=0.75, reach=(43.5, 28.5), **flat)
    more = {"across": 50.0, "bore": ((-1.0, 4.0), (-60.0, 5.0)), "inside": (small,), "faces": (face,)}
    one = found(((0.0, 20.0), (-60.0, 25.0)), **more)
    more = {"across": 150.0, "bore": ((-3.0, 12.0), (-180.0, 15.0)), "inside": (large,), "faces": (wide,)}
    three = found(((0.0, 60.0), (-180.0, 75.0)), **more)
    assert drawn_so_large(one, 3.0) == three
    assert drawn_so_large(one, 1.0) is one
    assert drawn_so_large(replace(one, bore=None), 3.0) == replace(three, bore=None)


def test_two_views_that_contradict_one_another_are_both_pointed_to():
    one, two = (View(Axis((0.0, y), (1.0, 0.0)), -60.0, 0.0, 20.0, "both", 1.0, ()) for y in (0.0, 90.0))
    stop = contradicts(one, two, difference(found(), found(((0.0, 200.0), (-900.0, 200.0)))))
    assert stop.stops
    assert "at X-30 Y0 and X-30 Y90 are drawn as of one part" in stop.message
    assert (stop.at, stop.spots) == ((-30.0, 90.0), ((-30.0, 0.0), (-30.0, 90.0)))
