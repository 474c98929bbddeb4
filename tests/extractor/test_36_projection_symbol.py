"""The symbol of first or third angle projection (ISO 5456-2, from memory) on the sheet of a part: no second part."""

from types import SimpleNamespace

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, box, mixed, rotated, sheet_of, shifted, side_view

from extractor import ReadOptions, read_sheet
from extractor.finding import Level
from extractor.sheet import Circle, Dimension, DimensionKind, Source
from extractor.viewing.axis import Axis
from extractor.viewing.projection_symbol import is_symbol

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
ASIDE = shifted(100.0, -80.0)
LINED = Source("1", "CIRCLE", "0")


def cone(small=2.5, large=5.0, long=10.0, *, centre=True, dent=0.0, more=(), across=()):
    """A cone from 0 on, its small end first; `dent` moves the middle of its upper line down."""
    top = [(0.0, small), (long / 2, (small + large) / 2 - dent), (long, large)]
    ends = [*top, (long, -large), (0.0, -small)]
    ink = Ink().chain([(x, y, 0.0) for x, y in ends], close=True)
    ink.solid += more
    ink.centre += [*([(-2.0, 0.0, long + 2.0, 0.0, 0.0)] if centre else []), *across]
    return ink


def half_cone():
    ink = Ink().chain([(0.0, 0.0, 0.0), (0.0, 2.5, 0.0), (10.0, 5.0, 0.0), (10.0, 0.0, 0.0)])
    ink.centre += [(-2.0, 0.0, 12.0, 0.0, 0.0)]
    return ink


def told(symbol, *, rings=(2.5, 5.0), at=-10.0, off=0.0, apart=0.0, move=ASIDE, part=RING, pointed=None, **more):
    circles = tuple(Circle(move(at - k * apart, off), r, LINED) for k, r in enumerate(rings))
    ink = mixed(side_view(part), symbol.map(move)) if part is not None else symbol.map(move)
    reading = read_sheet(sheet_of(ink, circles=circles, **more), ReadOptions(units="mm", at=pointed))
    return [f.code for f in reading.findings if f.level is not Level.NOTE]


@pytest.mark.parametrize("centre", [True, False])
@pytest.mark.parametrize("move", [ASIDE, shifted(-200.0, 90.0), rotated(90.0, 100.0, 100.0)])
@pytest.mark.parametrize("at", [-10.0, 20.0])
def test_it_is_left_out_wherever_it_stands(centre, move, at):
    """The circles before the small end, or behind the large one."""
    assert told(cone(centre=centre), at=at, move=move) == []


@pytest.mark.parametrize("size", [0.5, 4.0])
def test_it_is_left_out_at_any_size(size):
    assert told(cone(2.5 * size, 5.0 * size, 10.0 * size), rings=(2.5 * size, 5.0 * size), at=-10.0 * size) == []


SYMBOLS = {
    "as given": (cone(), {}, True),
    "with its axis drawn as an edge": (cone(centre=False, more=[(0.0, 0.0, 10.0, 0.0, 0.0)]), {}, True),
    "with a line across": (cone(more=[(5.0, -3.75, 5.0, 3.75, 0.0)]), {}, False),
    "one circle": (cone(), {"rings": (5.0,)}, False),
    "no circle": (cone(), {"rings": ()}, False),
    "circles nearly as large": (cone(), {"rings": (2.3, 5.2)}, True),
    "circles just too small": (cone(), {"rings": (2.2, 5.0)}, False),
    "circles just too large": (cone(), {"rings": (2.5, 5.3)}, False),
    "circles nearly in line": (cone(), {"off": 0.2}, True),
    "circles out of line": (cone(), {"off": 0.3}, False),
    "circles far away": (cone(), {"at": -29.9}, True),
    "circles too far away": (cone(), {"at": -30.1}, False),
    "circles just before it": (cone(), {"at": -5.1}, True),
    "circles over its end": (cone(), {"at": -4.9}, False),
    "circles about one middle, nearly": (cone(), {"apart": 0.24}, True),
    "circles beside one another": (cone(), {"apart": 0.26}, False),
    "half a cone": (half_cone(), {}, False),
    "with a figure in it": (cone(more=box(4.0, -1.0, 6.0, 1.0).solid), {}, False),
    "with a centre line along its end": (cone(across=[(10.0, -8.0, 10.0, 8.0, 0.0)]), {}, True),
    "a blunt cone": (cone(4.49), {"rings": (4.49, 5.0)}, True),
    "hardly a cone": (cone(4.51), {"rings": (4.51, 5.0)}, False),
    "not quite straight": (cone(dent=0.02), {}, True),
    "with a bend": (cone(dent=0.04), {}, False),
}


@pytest.mark.parametrize(("symbol", "more", "left"), SYMBOLS.values(), ids=SYMBOLS)
def test_what_is_a_symbol(symbol, more, left):
    """Within a twentieth of the larger end, 0.25 on 5; three diameters before the end, 30.

    Nine tenths of 5 are 4.5. Two thousandths of a view 14.1 across are 0.028.
    """
    assert (told(symbol, **more) == []) is left


def size(text, *points):
    return Dimension(DimensionKind.LINEAR, points, 90.0, 10.0, text)


@pytest.mark.parametrize(
    ("points", "left"),
    [
        (((110.0, -75.0), (110.0, -85.0)), False),  # over the large end
        (((90.0, -75.0), (90.0, -85.0)), False),  # over the circle
        (((90.0, -74.76), (90.0, -60.0)), False),
        (((90.0, -74.74), (90.0, -60.0)), True),
        (((110.24, -80.0), (130.0, -80.0)), False),
        (((110.26, -80.0), (130.0, -80.0)), True),
        (((150.0, -75.0), (150.0, -85.0)), True),
    ],
)
def test_what_has_a_size_is_a_part(points, left):
    assert ("several-parts" not in told(cone(), dimensions=(size("10", *points),))) is left


def test_what_stands_alone_or_is_pointed_to_is_a_part():
    alone = told(cone(), part=None)
    assert "several-parts" not in alone
    assert "no-turned-part" not in alone
    assert "nothing-there" not in told(cone(), pointed=(105.0, -80.0))


@pytest.mark.parametrize(("small", "symbol"), [(0.021, True), (0.019, False), (5e-223, False), (0.0, False)])
def test_a_cone_that_comes_to_a_point_has_no_smaller_end(small, symbol):
    """Within two thousandths of its size, 10; nearer nought distances to its lines can't be worked out."""
    rim = np.array([(0.0, small), (10.0, 5.0), (10.0, -5.0), (0.0, -small)])
    network = SimpleNamespace(edges=[(0, 0)], point=lambda _: (5.0, 0.0), mid=lambda _: (5.0, 0.0))
    ink = SimpleNamespace(clusters=[SimpleNamespace(edges=[0])], boundary=lambda _: rim, network=network)
    view = SimpleNamespace(
        members=(0,), halves="both", axis=Axis((0.0, 0.0), (1.0, 0.0)), size=10.0, low=0.0, high=10.0
    )
    circles = tuple(Circle((20.0, 0.0), r, LINED) for r in (small, 5.0))
    view.about, view.reach, view.covers = lambda _: (0.0, True), 5.0, lambda *_: False
    sheet = SimpleNamespace(circles=circles, dimensions=())
    assert is_symbol(sheet, ink, view) is symbol
