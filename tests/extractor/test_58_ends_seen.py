"""What an end view says of recesses in a face, of hidden lines behind one, and of halves whose lands are unlike.

The figures are worked out by solid geometry: across the axis an end view and a side view show the same heights.
"""

import math

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Pen, Source

SHAFT = Turned(((30.0, 60.0), (44.0, 36.0)), (Cut(-10.0, 3.0, 56.0), Cut(-40.0, 3.0, 33.0)))
OUTLINE = Source("9", "CIRCLE", "0", Pen.SOLID)
END = 70.0
"""Where the middle of the end view of the front stands, on the axis."""


def crossed(x):
    return Ink(centre=[(x - 35.0, 0.0, x + 35.0, 0.0, 0), (x, -35.0, x, 35.0, 0)])


def read(ink, *circles, move=lambda x, y: (x, y), accept=()):
    """A sheet with an end view of circles (radius, height of their middle, place beside it)."""
    drawn = [Circle(move(END + x, y), r, OUTLINE) for r, y, x in circles]
    sheet = sheet_of(mixed(ink, crossed(END)) if circles else ink, move, circles=tuple(drawn))
    return read_sheet(sheet, ReadOptions(units="mm", accept=frozenset(accept)))


def stops(reading):
    return [str(f.code) for f in reading.findings if f.stops]


def cautions(reading):
    return [str(f.code) for f in reading.findings if f.level == "caution"]


def faces(reading):
    return [(g.mouth_diameter, g.floor_diameter) for g in reading.part.grooves if g.where == "face"]


def pocketed(low=12.0, high=20.0, deep=4.0, across=False, sides=(1, -1)):
    """The shaft with hidden lines behind its front face: on each side two walls and a floor, `across` to the axis."""
    ink = side_view(SHAFT)
    for s in sides:
        ink.hidden += [(0.0, s * r, -deep, s * r, 0) for r in (low, high)]
        ink.hidden.append((-deep, s * high, -deep, 0.0 if across else s * low, 0))
    return ink


def square(low, high, half=4.0):
    """A figure beside the middle of the end view."""
    corners = [(END - half, low, 0), (END + half, low, 0), (END + half, high, 0), (END - half, high, 0)]
    return Ink().chain(corners, close=True)


class TestRings:
    """Recesses in a face that hidden lines show."""

    @pytest.mark.parametrize("move", [lambda x, y: (x, y), lambda x, y: (-y, x)])
    def test_circles_of_its_walls_make_a_ring(self, move):
        reading = read(pocketed(), (30.0, 0, 0), (20.0, 0, 0), (12.0, 0, 0), move=move)
        assert (stops(reading), faces(reading)) == ([], [(40.0, 24.0)])

    @pytest.mark.parametrize("across", [True, False])
    def test_figures_at_its_place_make_pockets(self, across):
        ink = mixed(pocketed(across=across), square(12.0, 20.0), square(-20.0, -12.0))
        reading = read(ink, (30.0, 0, 0))
        assert (stops(reading), faces(reading)) == ([], [])
        assert "face-unclear" in cautions(reading)
        assert len(reading.part.grooves) == len(SHAFT.cuts)

    @pytest.mark.parametrize(("low", "high", "pocket"), [(12.0, 20.01, True), (12.0, 20.1, False), (12.1, 20.0, False)])
    def test_figures_elsewhere_do_not(self, low, high, pocket):
        """They are asked for then: the end view has the lands of the front and no circle of a ring."""
        reading = read(mixed(pocketed(across=True), square(low, high), square(-high, -low)), (30.0, 0, 0))
        assert stops(reading) == [] if pocket else stops(reading) == ["face-unclear"]
        assert faces(reading) == []

    def test_an_end_view_without_its_circles_is_asked_for_and_may_be_accepted(self):
        assert stops(read(pocketed(across=True), (30.0, 0, 0))) == ["face-unclear"]
        accepted = read(pocketed(across=True), (30.0, 0, 0), accept=["face-unclear"])
        assert (stops(accepted), faces(accepted)) == ([], [])

    def test_the_end_view_of_the_other_end_says_nothing_of_it(self):
        """It has the land of the rear end too, which the front hides."""
        reading = read(pocketed(across=True), (30.0, 0, 0), (18.0, 0, 0))
        assert (stops(reading), faces(reading)) == ([], [(40.0, 24.0)])

    @pytest.mark.parametrize(("across", "stop"), [(True, []), (False, ["face-unclear"])])
    def test_the_hidden_floor_of_a_ring_runs_across_the_axis(self, across, stop):
        reading = read(pocketed(across=across))
        assert stops(reading) == stop
        assert faces(reading) == ([] if stop else [(40.0, 24.0)])

    def test_of_full_lines_it_is_what_it_was(self):
        """A section shows no floor across the axis."""
        ink = side_view(Turned(((30.0, 60.0),)))
        face = [e for e in ink.solid if e[0] == e[2] == 0.0]
        ink.solid = [e for e in ink.solid if e not in face]
        for s in (1, -1):
            run = [(0.0, 0.0), (0.0, 12.0), (-4.0, 12.0), (-4.0, 20.0), (0.0, 20.0), (0.0, 30.0)]
            ink.chain([(z, s * r, 0) for z, r in run])
        assert faces(read(ink)) == [(40.0, 24.0)]


class TestHoles:
    """Hidden lines of six holes on a circle 40 across, turned so that none stands on the axis."""

    @staticmethod
    def drilled(turn=0.2, radius=3.0, deep=12.0):
        ink, circles = side_view(SHAFT), [(30.0, 0.0, 0.0)]
        for k in range(6):
            angle = turn + k * math.pi / 3
            y = 20.0 * math.sin(angle)
            circles.append((radius, y, 20.0 * math.cos(angle)))
            ink.hidden += [(0.0, y + s * radius, -deep, y + s * radius, 0) for s in (1, -1)]
            ink.hidden.append((-deep, y + radius, -deep, y - radius, 0))
        return ink, circles

    def test_the_end_view_explains_them(self):
        ink, circles = self.drilled()
        reading = read(ink, *circles)
        assert (stops(reading), faces(reading)) == ([], [])
        assert len(reading.part.grooves) == len(SHAFT.cuts)

    def test_a_line_that_it_does_not_explain_is_asked_for(self):
        ink, circles = self.drilled()
        assert stops(read(ink, *circles[:-1])) == ["face-unclear"]

    @staticmethod
    def in_section(hidden=False):
        """A shaft with two recesses in its face, 8.4 wide about 20 from the axis, that a section shows."""
        ink = side_view(Turned(SHAFT.steps))
        ink.solid = [e for e in ink.solid if not e[0] == e[2] == 0.0]
        for s in (1, -1):
            cell = Ink().chain([(0.0, s * 15.8, 0), (-4.0, s * 15.8, 0), (-4.0, s * 24.2, 0), (0.0, s * 24.2, 0)])
            face = [(0.0, 0.0, 0.0, s * 15.8, 0), (0.0, s * 24.2, 0.0, s * 30.0, 0)]
            closed = [(0.0, s * 15.8, 0.0, s * 24.2, 0)] if hidden else []
            ink.solid += [*face, *([] if hidden else cell.solid), *closed]
            ink.hidden += cell.solid if hidden else []
        return ink

    @pytest.mark.parametrize(
        ("radius", "height", "hidden", "stopped"),
        [
            (5.3, 20.0, False, False),
            (4.2, 20.01, False, False),
            (5.3, 20.1, False, True),
            (4.0, 20.0, False, True),
            (5.3, 20.0, True, True),
        ],
    )
    def test_a_section_cuts_a_hole_beside_its_middle(self, radius, height, hidden, stopped):
        """Where it is less wide, and as far to both sides of its own middle; hidden lines show all of it."""
        holes = [(radius, s * height, 3.2) for s in (1, -1)]
        reading = read(self.in_section(hidden), (30.0, 0, 0), *holes)
        assert stops(reading) == ["face-unclear"] * stopped
        assert faces(reading) == []


class TestLands:
    """A flat, or a slot open at the end, that the side view shows in one half."""

    @staticmethod
    def flatted(low, rings=True, corner=0.0):
        """The shaft with a flat at the rear, in its upper half, and an end view of the rear with a chord at it."""
        ink = side_view(SHAFT)
        cut = [e for e in ink.solid if min(e[1], e[3]) <= low or min(e[0], e[2]) >= -43.0]
        kept = [(a, min(b, low) if a == -74.0 else b, c, min(d, low) if c == -74.0 else d, q) for a, b, c, d, q in cut]
        kept += [(-43.0, 18.0, -54.0, 18.0, 0), (-54.0, 18.0, -54.0, low, 0), (-54.0, low, -74.0, low, 0)]
        half = math.sqrt(18.0**2 - low**2) + corner
        return mixed(Ink(kept, ink.centre), Ink().chain([(END - half, low, 0), (END + half, low, 0)]))

    @pytest.mark.parametrize("low", [11.0, 17.0])
    def test_its_corners_in_the_end_view_make_it_milled(self, low):
        reading = read(self.flatted(low), (30.0, 0, 0), (18.0, 0, 0))
        assert stops(reading) == []
        assert "one-sided" in cautions(reading)
        assert [g.where for g in reading.part.grooves] == ["outside", "outside"]
        assert max(r for z, r in reading.part.outline if z < -60.0) == 18.0

    def test_without_them_it_is_asked_for(self):
        assert stops(read(self.flatted(11.0, corner=1.0), (30.0, 0, 0), (18.0, 0, 0))) == ["lands-disagree"]
        assert stops(read(Ink(self.flatted(11.0).solid[:-1], self.flatted(11.0).centre))) == ["lands-disagree"]
