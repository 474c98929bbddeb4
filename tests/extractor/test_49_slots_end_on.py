"""A slot or keyway seen end-on whose rounded ends are drawn as whole circles, as solid kernels project them."""

import math
from itertools import pairwise

import pytest
from support.draw import Cut, Turned, full_outline, mixed, rotated, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-48.0, 4.0, 34.0)))
PLACES = [(-10.0, -14.0, 34.0), (-48.0, -52.0, 34.0)]


def circle(z, radius=3.0, parts=2):
    """A whole circle about a place on the axis, as arcs."""
    step = math.tau / parts
    at = [(z + radius * math.cos(k * step), radius * math.sin(k * step)) for k in range(parts + 1)]
    return [(*a, *b, math.tan(step / 4)) for a, b in pairwise(at)]


def slot(near, far, radius=3.0, sides=(1, -1), other=None, more=()):
    """Two circles and the lines that touch both, with the edges across at their middles."""
    lines = [(near, s * radius, far, s * radius, 0.0) for s in sides]
    lines += [(z, -radius, z, radius, 0.0) for z in (near, far)]
    return [*circle(near, radius), *circle(far, other or radius), *lines, *more]


def read(lines, draw=side_view, turn=0, part=RING):
    ink = draw(part)
    ink.solid += lines
    reading = read_sheet(sheet_of(mixed(ink), rotated(turn)), ReadOptions(units="mm"))
    return [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves], [
        str(f.code) for f in reading.findings if f.level != "note"
    ]


@pytest.mark.parametrize(("near", "far"), [(-22.0, -27.0), (-22.0, -30.0), (-20.0, -41.0)])
@pytest.mark.parametrize(("draw", "turn"), [(side_view, 0), (side_view, 90), (full_outline, 0)])
def test_it_hides_nothing(near, far, draw, turn):
    """Five apart the circles cross."""
    assert read(slot(near, far), draw, turn) == (PLACES, [])


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (slot(-22.0, -30.0, sides=(1,)), "outline-unclear"),
        (slot(-22.0, -30.0, other=2.9), "outline-unclear"),
        (slot(-22.0, -30.0, more=[(-22.0, 3.0, -22.0, 10.0, 0.0)]), "cross-hole"),
        (slot(-22.0, -30.0, more=[(-19.0, 0.5, -15.0, 0.5, 0.0), (-22.0, 3.0, -16.0, 3.0, 0.0)]), "outline-unclear"),
    ],
)
def test_what_else_ends_at_the_circles_is_told(lines, code):
    assert code in read(lines)[1]


def test_two_holes_as_wide_as_the_bore_are_none():
    bush = Turned(RING.steps, RING.cuts, bore=6.0)
    lines = [*circle(-22.0), *circle(-30.0)]
    assert read(lines, section, part=bush)[0] == PLACES
