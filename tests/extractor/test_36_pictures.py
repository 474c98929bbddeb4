"""Pictures of the part seen aslant are told by their ellipses: they are no views and no ends of a bar."""

import math

import numpy as np
import pytest
from support.draw import Cut, Turned, side_view
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet
from extractor.viewing import pictures
from extractor.viewing.clusters import prepare
from extractor.viewing.pictures import ellipse_through, is_picture
from extractor.viewing.roles import assign

SEEN = math.sqrt(1 / 3)
"""Ratio of an isometric circle's axes (ISO 5456-3: the line of sight is as far from all three axes)."""


def put_picture(m, at=(0.0, 0.0), half=18.0, long=12.0, ratio=SEEN, more=0.0, turned=0.0, piece=0.0):
    """A cylinder seen from its corner; its back edge `more` round, `turned` and left out at both ends by `piece`."""
    along = np.array([-math.cos(math.pi / 6), math.sin(math.pi / 6)])
    lie = np.array([-along[1], along[0]])
    far = np.array(at) + long * along
    other = np.array(
        [lie[0] * math.cos(turned) - lie[1] * math.sin(turned), lie[0] * math.sin(turned) + lie[1] * math.cos(turned)]
    )
    m.add_ellipse(at, major_axis=tuple(half * lie), ratio=ratio)
    back = m.add_ellipse(
        tuple(far), major_axis=tuple(half * other), ratio=ratio + more, start_param=piece, end_param=math.pi - piece
    )
    ends = (back.start_point, back.end_point)
    for sign, end in zip((1, -1), ends, strict=True):
        m.add_line(tuple(np.array(at) + sign * half * lie), (end.x, end.y))


def told(put=put_picture, **how):
    """Whether the picture alone is one."""
    doc = blank()
    put(doc.modelspace(), **how)
    sheet = read_back(doc)
    ink = prepare(assign(sheet), sheet.segments)
    return is_picture(ink, sheet.segments, ink.clusters[0])


HOW = {
    "a cylinder": ({}, True),
    "just behind": ({"long": 18.0 * pictures.BEHIND * 1.1}, True),
    "hardly behind": ({"long": 18.0 * pictures.BEHIND * 0.9}, False),
    "just of one shape": ({"more": pictures.ONE_SHAPE * 0.9}, True),
    "not of one shape": ({"more": pictures.ONE_SHAPE * 1.1}, False),
    "just of one lie": ({"turned": pictures.ONE_SHAPE * 0.9}, True),
    "not of one lie": ({"turned": pictures.ONE_SHAPE * 1.1}, False),
    "just oblate": ({"ratio": pictures.OBLATE * 0.999}, True),
    "round": ({"ratio": pictures.OBLATE * 1.001}, False),
    "enough of it": ({"long": 40.0, "piece": math.acos(pictures.SHOWN / 2) * 0.97}, True),
    "too little of it": ({"long": 40.0, "piece": math.acos(pictures.SHOWN / 2) * 1.03}, False),
}


@pytest.mark.parametrize(("how", "picture"), HOW.values(), ids=HOW)
def test_two_ellipses_one_behind_the_other_are_a_picture(how, picture):
    assert told(**how) is picture


def put_vessel(m):
    """A turned part with an oval end at either side: outline all along."""
    for x, begin in ((0.0, 1.0), (-60.0, 0.0)):
        m.add_ellipse((x, 0.0), (0.0, 20.0), 0.5, start_param=begin * math.pi, end_param=(begin + 1) * math.pi)
    for y in (20.0, -20.0):
        m.add_line((0.0, y), (-60.0, y))


def test_a_part_with_oval_ends_is_no_picture():
    assert not told(put_vessel)


@pytest.mark.parametrize(
    ("count", "off", "found"), [(8, 0.0, True), (7, 0.0, False), (40, 0.9, True), (40, 1.1, False)]
)
def test_an_ellipse_goes_through_all_its_points(count, off, found):
    """Every other point off by so many of what an ellipse may be, inward and outward."""
    turn = np.linspace(0, 2 * math.pi, count, endpoint=False)
    out = 1 + off * pictures.FIT * np.where(np.arange(count) % 4 < 2, 1, -1)
    points = np.column_stack([30 * np.cos(turn) * out + 100, 15 * np.sin(turn) * out - 40])
    ellipse = ellipse_through(points)
    assert (ellipse is not None) is found
    if ellipse is not None:
        assert ellipse.middle == pytest.approx([100, -40], abs=0.01)
        assert (ellipse.half, ellipse.ratio) == pytest.approx((30, 0.5), rel=1e-3)


RING = Turned(((60.0, 36.0),), (Cut(-10.0, 3.0, 30.0), Cut(-40.0, 3.0, 30.0)))


def read(put):
    """A shaft with its centre line, and what `put` draws beside it."""
    doc, ink = blank(), side_view(RING)
    m = doc.modelspace()
    for x0, y0, x1, y1, _ in ink.solid:
        m.add_line((x0, y0), (x1, y1))
    put(m)
    return [str(f.code) for f in read_sheet(read_back(doc), ReadOptions(units="mm")).findings if f.stops]


def test_a_picture_beside_the_view_is_no_end_of_a_bar_and_no_second_part():
    assert read(lambda m: put_picture(m, at=(60.0, -3.0))) == []


def test_an_oval_end_is_none_of_a_turned_part():
    """One ellipse, and those of an oval tube about one middle."""
    oval = [18.0, 14.0]
    for halves in (oval[:1], oval):
        put = lambda m, halves=halves: [m.add_ellipse((60.0, 0.0), major_axis=(0.0, h), ratio=0.6) for h in halves]  # noqa: E731
        assert read(put) == ["not-turned"]
