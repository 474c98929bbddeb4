"""Lines across an axis, recesses that views show otherwise, and what is moved along: the edges worked out by hand."""

from types import SimpleNamespace

import pytest
from support.weighing import NO_SEGMENTS

from extractor.placing import laying
from extractor.placing.laying import _along, _line_across
from extractor.placing.together import _hidden_apart, _moved
from extractor.recess.shapes import Measured
from extractor.sheet import Sheet
from extractor.sizing.ends.front import FrontAnswer
from extractor.viewing.axis import Axis
from extractor.viewing.views import View

NEAR = 0.125


def across(p, q, label=0, bulge=0.0):
    """Whether a line between two places on a laid view crosses the axis at z -10."""
    edge = SimpleNamespace(a=p, b=q, label=label, bulge=bulge)
    network = SimpleNamespace(edges=[edge], point=lambda end: end)
    return _line_across(SimpleNamespace(network=network, close=NEAR), -10.0)


@pytest.mark.parametrize(
    ("p", "q", "told"),
    [
        ((-10, -5), (-10, 5), True),
        ((-10.125, -5), (-9.875, 5), True),
        ((-10.126, -5), (-10, 5), False),
        ((-10, -5), (-9.874, 5), False),
        ((-10, 0), (-10, 0.126), True),
        ((-10, 0), (-10, 0.125), False),
        ((-10, 0.125), (-10, 5), True),
        ((-10, 0.126), (-10, 5), False),
        ((-10, -0.125), (-10, -5), True),
        ((-10, -0.126), (-10, -5), False),
    ],
)
def test_a_line_meets_the_axis_within_what_counts_as_near(p, q, told):
    assert across(p, q) is across(q, p) is told


def test_neither_an_arc_nor_a_line_that_nobody_drew_is_one_across():
    assert across((-10, -5), (-10, 5), label=1)
    assert not across((-10, -5), (-10, 5), label=-1)
    assert not across((-10, -5), (-10, 5), bulge=0.1)


def test_both_ends_of_a_size_are_laid_along_the_axis():
    folded = SimpleNamespace(axis=Axis((10.0, 0.0), (1.0, 0.0)))
    assert _along(folded, [(11.0, 5.0), (13.0, 7.0)]) == [1.0, 3.0]
    assert _along(folded, []) == []


def recess(near, far, floor, **more):
    lands = {"mouth": 10.0, "near_land": 10.0, "far_land": 10.0}
    return Measured(shape="rectangular", z_near=near, z_far=far, floor=floor, **lands, **more)


def shown(*inside, dashed):
    return SimpleNamespace(inside=inside, dashed=dashed, outline=((0.0, 20.0), (-60.0, 20.0)))


@pytest.mark.parametrize(
    ("section", "floor"),
    [((), 10), ((recess(-13, -16, 11),), 10), ((recess(-7, -10, 11),), 10), ((recess(-12.5, -16, 11),), 11)],
)
def test_a_hidden_recess_is_held_against_the_one_that_the_section_shows_in_its_place(section, floor):
    """One that only touches it at a wall stands elsewhere; there the section has the bore's own wall, 10."""
    hidden, cut = shown(recess(-10, -13, 12), dashed=True), shown(*section, dashed=False)
    one, other = _hidden_apart(hidden, cut, 0.01), _hidden_apart(cut, hidden, 0.01)
    assert (one.near, one.far, one.one, one.two, one.total) == (10, 13, 24, 2 * floor, 3 * (12 - floor))
    assert (other.one, other.two) == (2 * floor, 24)


def test_a_recess_moves_along_with_all_its_places_and_keeps_its_radii():
    moved = _moved(recess(-10, -13, 12, foot=(-10.5, -12.5), reach=(-9.5, -13.5)), 5.0)
    assert moved == recess(-5, -8, 12, foot=(-5.5, -7.5), reach=(-4.5, -8.5))


@pytest.mark.parametrize(
    ("off", "moved"),
    [(0.3, True), (-0.3, True), (0.3001, False), (0.1, True), (2.1e-5, True), (2e-5, False), (0.0, False)],
)
def test_an_axis_drawn_a_little_beside_the_middle_of_its_halves_is_moved_there(monkeypatch, off, moved):
    """Squarely, where it lies off by no more than 0.003 of a size of 100 and by more than dust, 1 in 5 million."""
    laid = []
    monkeypatch.setattr(laying, "lay", lambda ink, segments, view, fine, said: laid.append(view.axis.at))
    monkeypatch.setattr(laying, "recognise", lambda folded: SimpleNamespace(off=off))
    monkeypatch.setattr(laying, "_grain", lambda ink, view: 0.0)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS)
    laying._centred(SimpleNamespace(near=0.0), sheet, View(Axis((5.0, 7.0), (1.0, 0.0)), 0, 60, 40, "both", 1.0, ()))
    assert laid == [(5.0, 7.0), *([(5.0, 7.0 + off)] if moved else [])]


def test_the_end_that_may_be_the_front_lies_on_the_axis(monkeypatch):
    asked = []
    told = FrontAnswer(turn=False, by="option")
    monkeypatch.setattr(laying, "decide_front", lambda ends, *_: asked.append(ends) or told)
    axis = SimpleNamespace(direction=(1.0, 0.0), up=(0.0, 1.0))
    folded = SimpleNamespace(place=lambda z, r: (z + 100.0, r + 50.0), axis=axis)
    found = SimpleNamespace(
        outline=((0.0, 20.0), (-60.0, 20.0)), outside=(recess(-10, -13, 8),), inside=(), across=40.0
    )
    laying._front(Sheet("x.dxf", "0" * 64, NO_SEGMENTS), folded, found, None)
    (ends,) = asked
    assert (ends.frame.on_sheet(0.0, 0.0), ends.length, ends.reach) == ((100.0, 50.0), 60.0, 20.0)
    assert ends.walls == (-10, -13)
