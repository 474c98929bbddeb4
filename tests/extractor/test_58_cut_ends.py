"""End views with a keyseat or a small flat cut into them, which the side view shows too or does not.

An end view lies on the axis beside the view (ISO 5456-2); the keyseats are about those of DIN 6885-1, from memory.
"""

import math

import pytest
from support.draw import Cut, Ink, Turned, mixed, rotated, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Source

PART = Turned(((20.0, 30.0), (40.0, 40.0)), (Cut(-30.0, 3.0, 34.0), Cut(-45.0, 4.0, 34.0)))
TOLD = ["views-differ"]


def end(at=60.0, wide=12.0, deep=5.0, radius=20.0, turn=0.0, parts=1):
    """A circle with keyseats cut into it all round, the first of them to the right; a flat where nothing is deep."""
    half = math.asin(wide / 2 / radius)
    corners = []
    for k in range(parts):
        middle = math.radians(turn) + k * math.tau / parts
        across = complex(math.cos(middle), math.sin(middle))
        floor = [complex(radius - deep, -wide / 2), complex(radius - deep, wide / 2)] if deep else []
        rim = [
            radius * complex(math.cos(half), -math.sin(half)),
            *floor,
            radius * complex(math.cos(half), math.sin(half)),
        ]
        corners += [(p * across, 0.0) for p in rim[:-1]]
        corners.append((rim[-1] * across, math.tan((math.tau / parts - 2 * half) / 4)))
    corners.append(corners[0])
    return Ink().chain([(at + p.real, p.imag, bulge) for p, bulge in corners])


def told(ink, part=PART, move=lambda x, y: (x, y), circles=()):
    own = section(part) if part.bore else side_view(part)
    sheet = sheet_of(mixed(own, ink), move=move, circles=circles)
    return [f.code.value for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.level != "note"]


@pytest.mark.parametrize(
    ("ink", "more"),
    [
        (end(), {}),
        (end(at=-100.0), {}),
        (end(wide=6.0, deep=3.5), {}),
        (end(turn=90.0), {}),
        (end(turn=217.0), {}),
        (end(parts=2), {}),
        (end(wide=8.0, deep=0.0), {}),
        (end(), {"part": Turned(PART.steps, PART.cuts, bore=16.0)}),
        (end(), {"move": rotated(90.0, 0.0, 0.0)}),
    ],
)
def test_what_is_cut_into_an_end_and_the_side_view_has_no_line_of_is_told(ink, more):
    assert told(ink, **more) == TOLD


@pytest.mark.parametrize(
    ("ink", "circles"),
    [
        (mixed(end(turn=90.0), Ink(hidden=[(-60.0, 15.0, -48.0, 15.0, 0.0), (-48.0, 15.0, -48.0, 20.0, 0.0)])), ()),
        (end(), [Circle((-52.0, 0.0), 3.0, Source("", "CIRCLE", "0"))]),
        (end(wide=2.0, deep=0.0), ()),
        (end(at=60.0, radius=26.0), ()),
        (Ink(), [Circle((60.0, 0.0), 20.0, Source("", "CIRCLE", "0"))]),
    ],
    ids=["hidden keyseat", "cross hole", "a trace", "another part's", "round"],
)
def test_what_the_side_view_shows_as_well_and_a_round_end_are_not(ink, circles):
    assert "views-differ" not in told(ink, circles=circles)
