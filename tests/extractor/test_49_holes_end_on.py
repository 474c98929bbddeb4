"""Holes across the axis seen end-on in a section: a circle on the axis hides what lies behind it.

The drawing is made of the whole section by taking away what lies within the circle, as the edge of a hole does in a
projection (solid geometry). The truth are the numbers of the whole section; nothing here is taken from the reader.
"""

import itertools
import math
import random

import pytest
import shapely
from support.draw import Ink, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.viewing.end_on import TELLING, TIPS

LENGTH, OUTER = 60.0, 20.0
THROUGH = [(0, 6), (-10, 6), (-10, 9), (-14, 9), (-14, 6), (-60, 6)]
BLIND = [(0, 6), (-10, 6), (-10, 9), (-14, 9), (-14, 6), (-40, 6), (-40, 0)]
POINTED = [(0, 6), (-10, 6), (-10, 9), (-14, 9), (-14, 6), (-40, 6), (-44, 0)]
GROOVE = ("inside", -10.0, -14.0, 18.0)
OUTSIDE = ("outside", -30.0, -33.0, 36.0)


def whole(bore):
    """The lines of both halves in section: the outside with one groove, the bore, its edges seen behind the cut."""
    land = [(0, OUTER), (-30, OUTER), (-30, 18), (-33, 18), (-33, OUTER), (-60, OUTER)]
    back = [(-60, 6.0)] if bore[-1][1] else [(-60, 0)]
    lines = []
    for s in (1, -1):
        run = [(0, 6), *land, *back]
        lines += [((a, s * b), (c, s * d)) for (a, b), (c, d) in [*itertools.pairwise(run), *itertools.pairwise(bore)]]
        edges = sorted({z for z, r in bore if r} | {0})
        lines += [((z, 0), (z, s * 6)) for z in edges if (z, 0) not in bore]
    return lines


def section(bore, *circles, more=(), shift=0.0, turn=1.0, arcs=2):
    """The section with circles (z, radius, r of the middle) in it, what lies within them taken away.

    `more` lines are drawn over them, `shift` moves what lies left of the first circle up, `turn` is the share of each
    circle that is drawn.
    """
    ink = Ink(centre=[(5.0, 0.0, -LENGTH - 5, 0.0, 0.0)])
    air = shapely.union_all([shapely.Point(z, r).buffer(size, 4096) for z, size, r in circles])
    for line in whole(bore):
        left = shapely.difference(shapely.LineString(line), air)
        for piece in shapely.get_parts(left) if not left.is_empty else ():
            (a, b), (c, d) = piece.coords
            away = shift if circles and max(a, c) <= circles[0][0] and abs(b) < OUTER else 0.0
            ink.solid.append((a, b + away, c, d + away, 0.0))
    for z, size, r in circles:
        step = turn * math.tau / arcs
        at = [(z + size * math.cos(k * step), r + size * math.sin(k * step)) for k in range(arcs + 1)]
        ink.solid += [(*p, *q, math.tan(step / 4)) for p, q in itertools.pairwise(at)]
    ink.solid += [(*line, 0.0) for line in more]
    return ink


def read(ink):
    return read_sheet(sheet_of(ink), ReadOptions(units="mm"))


def grooves(reading):
    return [(g.where, round(g.z_near, 3), round(g.z_far, 3), round(g.floor_diameter, 3)) for g in reading.part.grooves]


def said(reading):
    return {f.code.value for f in reading.findings if f.level != "note"} - {"inside-groove"}


@pytest.mark.parametrize(("bore", "z", "size"), [
    (THROUGH, -50.0, 8.0), (THROUGH, -10.5, 4.0), (THROUGH, -12.0, 4.0), (THROUGH, -11.0, 7.5), (THROUGH, -14.0, 6.5),
    (BLIND, -40.0, 3.0), (BLIND, -40.5, 5.9), (POINTED, -43.0, 3.0),
])  # fmt: skip
def test_what_a_hole_hides_runs_straight_on(bore, z, size):
    """Wider than the bore, over both walls of a groove or one, over its mouth, over a flat and a pointed bottom."""
    reading = read(section(bore, (z, size, 0.0)))
    assert grooves(reading) == [GROOVE, OUTSIDE]
    assert said(reading) == {"cross-hole"}
    (told,) = (f for f in reading.findings if f.code.value == "cross-hole")
    assert (told.level.value, f"{2 * size:.4g} across" in told.message, told.at) == ("caution", True, (z, 0.0))


def test_random_holes_are_read_past_or_stop_unless_they_hide_a_groove_whole():
    for seed in range(60):
        rng = random.Random(seed)
        bore, z, size = rng.choice([THROUGH, BLIND, POINTED]), rng.uniform(-46, -8), rng.uniform(1, 9)
        air = shapely.Point(z, 0.0).buffer(size)
        if z + size > -1 or air.covers(shapely.box(-14, 6, -10, 9)):
            continue
        reading = read(section(bore, (z, size, 0.0)))
        stops = any(f.stops for f in reading.findings)
        assert stops or grooves(reading) == [GROOVE, OUTSIDE], seed


@pytest.mark.parametrize(("z", "size"), [(-50.0, 8.0), (-12.0, 4.0), (-10.5, 4.0), (-44.0, 3.0)])
def test_lines_drawn_through_a_hole_stay_and_its_circle_bounds_nothing(z, size):
    ink = section(THROUGH)
    ink.solid += [(z + size, 0.0, z - size, 0.0, 1.0), (z - size, 0.0, z + size, 0.0, 1.0)]
    reading = read(ink)
    assert grooves(reading) == [GROOVE, OUTSIDE]
    assert said(reading) == ({"cross-hole"} if z != -44.0 else set())


@pytest.mark.parametrize("change", [
    {"more": [(-48.0, 0.0, -52.0, 0.0)]},
    {"more": [(-48.0, 3.0, -52.0, 3.0), (-48.0, -3.0, -52.0, -3.0)]},
    {"arcs": 7},
    {"circles": ((-50.0, 8.0, 0.0), (-50.0, 3.0, 0.0))},
    {"circles": ((-50.0, 8.0, 0.0), (-12.0, 4.0, 0.0))},
])  # fmt: skip
def test_what_is_seen_through_a_hole_and_further_holes(change):
    reading = read(section(THROUGH, *change.pop("circles", ((-50.0, 8.0, 0.0),)), **change))
    assert grooves(reading) == [GROOVE, OUTSIDE]
    assert said(reading) == {"cross-hole"}


@pytest.mark.parametrize(("bore", "circle", "change"), [
    (BLIND, (-40.0, 8.0, 0.0), {}), (THROUGH, (-10.0, 9.2, 0.0), {}), (THROUGH, (-50.0, 8.0, 0.0), {"shift": 0.05}),
    (THROUGH, (-50.0, 8.0, 0.3), {}),
])  # fmt: skip
def test_where_it_is_not_plain_how_the_lines_run_on_it_stops(bore, circle, change):
    """The bottom of a bore hidden whole; a wall with its corner; lines not in line; a circle beside the axis."""
    reading = read(section(bore, circle, **change))
    assert [f for f in reading.findings if f.stops]


def ball(neck, size, at=-40.0):
    """A bar of two lengths with a ball between them, and the circle whole where it is drawn by a careless hand."""
    foot = math.sqrt(size**2 - neck**2)
    ink = Ink(centre=[(5.0, 0.0, -65.0, 0.0, 0.0)])
    for s in (1, -1):
        ink.solid += [(0, 0, 0, s * neck, 0.0), (-60, 0, -60, s * neck, 0.0)]
        ink.solid += [(0, s * neck, at + foot, s * neck, 0.0), (at - foot, s * neck, -60, s * neck, 0.0)]
    ink.solid += [(at + size, 0.0, at - size, 0.0, 1.0), (at - size, 0.0, at + size, 0.0, 1.0)]
    return ink


def test_a_ball_on_a_bar_is_no_hole():
    """Nothing lies round it: the outline goes over it, and without it the bar would be plain."""
    reading = read(ball(5.0, 9.0))
    assert "cross-hole" not in said(reading)
    assert max(r for _, r in reading.part.outline) == pytest.approx(9.0)


def test_a_round_cavity_in_a_bore_is_no_hole():
    """Its arcs end where the bore opens into it: a sphere of 8 about the axis, met by a bore of 6."""
    ink = section(THROUGH, (-50.0, 8.0, 0.0), turn=0.0)
    foot = math.sqrt(8.0**2 - 6.0**2)
    half = math.pi / 2 - math.atan2(foot, 6.0)
    bulge = math.tan((math.pi - 2 * half) / 4)
    ink.solid += [(-50.0 + foot, 6.0, -50.0 - foot, 6.0, bulge), (-50.0 - foot, -6.0, -50.0 + foot, -6.0, bulge)]
    ink.solid += [(-50.0 + s * foot, -6.0, -50.0 + s * foot, 6.0, 0.0) for s in (1, -1)]
    found = grooves(read(ink))
    assert found[:2] == [GROOVE, OUTSIDE]
    assert found[2][3] == 16.0


@pytest.mark.parametrize("sign", [1, -1])
def test_of_half_a_view_half_a_circle_is_whole(sign):
    ink = section(THROUGH, (-50.0, 8.0, 0.0), arcs=4)
    ink.solid = [e for e in ink.solid if min(sign * e[1], sign * e[3]) >= -1e-9]
    reading = read(ink)
    assert (grooves(reading), said(reading)) == ([GROOVE, OUTSIDE], {"cross-hole"})


@pytest.mark.parametrize(("turn", "whole"), [(1.0 - 1e-6, True), (0.97, False)])
def test_a_circle_with_a_gap_is_not_whole(turn, whole):
    """Such a gap may be where a narrow bore opens into a cavity."""
    assert ("cross-hole" in said(read(section(THROUGH, (-50.0, 8.0, 0.0), turn=turn)))) is whole


@pytest.mark.parametrize(("steps", "known"), [(12, True), (13, False)])
def test_an_arc_tells_its_middle_from_half_a_radian_on(steps, known):
    """Twelve arcs to a circle turn by 0.524 each, thirteen by 0.483."""
    told = "cross-hole" in said(read(section(THROUGH, (-50.0, 8.0, 0.0), arcs=steps)))
    assert (told, math.tau / steps >= TELLING) == (known, known)


def test_more_lines_than_a_few_end_at_no_hole():
    """Short lines in line with one another across the circle, so many that it is something else."""
    for count, fits in ((TIPS // 2, True), (TIPS // 2 + 1, False)):
        turns = [math.pi * (k + 0.5) / count for k in range(count)]
        rays = [(c, s) for t in turns for c, s in ((math.cos(t), math.sin(t)), (-math.cos(t), -math.sin(t)))]
        more = [(-50 + 5.0 * c, 5.0 * s, -50 + 5.5 * c, 5.5 * s) for c, s in rays]
        told = said(read(section(THROUGH, (-50.0, 5.0, 0.0), more=more)))
        assert ("cross-hole" in told) is fits, count
