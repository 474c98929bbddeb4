"""How a view is chosen, and what bounds its lines: just inside and just outside of each mark; a shaft 60 by 40."""

import math
import random
from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest
from support.draw import Ink, full_outline, mixed, shaft, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Edge, Network, Strokes
from extractor.geometry.noding import node
from extractor.placing.laying import lay_view
from extractor.score import Aspect
from extractor.sheet import Circle, Pen, Source, Text
from extractor.viewing import choice, round_ends
from extractor.viewing.arrows import arrows
from extractor.viewing.axis import Axis, centre_lines, direction_of
from extractor.viewing.bores import _gates
from extractor.viewing.choice import Candidate, pointer
from extractor.viewing.clusters import prepare
from extractor.viewing.evidence import Evidence
from extractor.viewing.material import material
from extractor.viewing.outline import Shown
from extractor.viewing.remainder import _mirrored, left_open
from extractor.viewing.roles import assign
from extractor.viewing.strays import without_strays
from extractor.viewing.views import View, views

LEVEL = Axis((0.0, 0.0), (1.0, 0.0), ((-65.0, 5.0),), marked=True)
BY_LINE = Evidence(centre_line=True, strong=(), against=())
ALONE = Evidence(centre_line=False, strong=(), against=())


def view(low=-60.0, high=0.0, reach=20.0, halves="both", share=1.0, axis=LEVEL):
    return View(axis, low, high, reach, halves, share, (0,))


def ink_of(ink):
    sheet = sheet_of(ink)
    return prepare(assign(sheet), sheet.segments)


@pytest.mark.parametrize(("by", "like"), [(1.40, True), (1.48, False)])
def test_views_as_long_and_as_high_as_one_another(by, like):
    """Two hundredths of the size of 72.1, which is 1.44."""
    assert view().like(view(low=-60.0 - by)) is like
    assert view().like(view(reach=20.0 + by)) is like


@pytest.mark.parametrize(("by", "met"), [(1.40, True), (1.48, False)])
def test_a_point_beside_a_view_is_on_it(by, met):
    one = Candidate(view(), BY_LINE, {})
    assert choice._pointed_to([one], (by, 0.0)) == ([one] if met else [])


ASIDE = {"both": (-62.0, 2.0, 5.0), "up": (-62.0, 2.0, 16.0), "down": (-62.0, 2.0, 16.0)}


@pytest.mark.parametrize(("halves", "cover"), [*ASIDE.items(), *((halves, (-50.0, -10.0, 1.0)) for halves in ASIDE)])
def test_the_place_offered_lies_on_one_view_alone(halves, cover):
    """A smaller figure lies over its middle, or along all of its axis."""
    low, high, reach = cover
    one, two = view(halves=halves), view(low, high, reach)
    at = pointer(one, [one, two])
    assert one.covers(at)
    assert not two.covers(at)


@pytest.mark.parametrize(("height", "lettered"), [(1.48, False), (1.52, True)])
def test_a_text_that_fills_a_small_figure_makes_it_a_frame(height, lettered):
    sheet = replace(sheet_of(full_outline(shaft())), texts=(Text("A", (-5.0, 0.0), height),))
    assert choice._lettered(sheet, view(-10.0, 0.0, 2.5)) is lettered


@pytest.mark.parametrize(("size", "frame"), [(17.9, True), (18.2, False)])
def test_a_frame_is_no_larger_than_a_quarter_of_the_largest_view(size, frame):
    half = size / math.sqrt(8)
    box = Ink().chain(
        [(80 - half, -half, 0), (80 + half, -half, 0), (80 + half, half, 0), (80 - half, half, 0)], close=True
    )
    ink = mixed(side_view(shaft()), box)
    sheet = replace(sheet_of(ink), texts=(Text("A", (80.0, 0.0), 8.0),))
    made = prepare(assign(sheet), sheet.segments)
    centres = centre_lines(sheet.segments, made.size)
    rows = choice._weighed(sheet, made, views(made, centres), centres)
    boxes = {c.score[Aspect.FRAME].figure for c in rows if c.view.covers((80.0, 0.0))}
    assert boxes == ({-1.0} if frame else {0.0})


@pytest.mark.parametrize(("ends", "named"), [(4, True), (5, False)])
def test_a_few_loose_ends_are_named(ends, named):
    turns = [math.tau * k / ends for k in range(ends)]
    star = Ink(solid=[(0.0, 0.0, 30 * math.cos(t), 30 * math.sin(t) + 3 * k, 0.0) for k, t in enumerate(turns)])
    (stop,) = [f for f in read_sheet(sheet_of(star), ReadOptions(units="mm")).findings if f.stops]
    assert ("is open at" in stop.message) is named


def dented(by):
    """A hexagon, 40 over its corners, whose sides are dented to a share of that, flat for two degrees."""
    rows = [(60 * k + turn, r) for k in range(6) for turn, r in ((0, 1.0), (29, by), (31, by))]
    places = [(20 * r * math.cos(math.radians(t)), 20 * r * math.sin(math.radians(t)), 0.0) for t, r in rows]
    return Ink().chain(places, close=True)


def about_its_middle(ink):
    made = ink_of(ink)
    (x, y), (u, v) = made.clusters[0].box[:2], made.clusters[0].box[2:]
    members = tuple(range(len(made.clusters)))
    return made, View(Axis((0.0, 0.0), (1.0, 0.0)), float(x), float(u), max(float(v), -float(y)), "both", 1.0, members)


@pytest.mark.parametrize(("by", "round_"), [(0.78, True), (0.77, False)])
def test_an_end_view_stays_about_one_distance_from_its_middle(by, round_):
    assert round_ends._is_round(*about_its_middle(dented(by))) is round_


@pytest.mark.parametrize(("change", "fit"), [(0.951, True), (0.949, False)])
def test_nearly_all_of_a_view_that_only_symmetry_speaks_for_is_symmetric(change, fit):
    ink = ink_of(full_outline(shaft(), None))
    one = Candidate(view(share=change), ALONE, {})
    assert (choice._against_symmetry(ink, one) == "") is fit


@pytest.mark.parametrize(("lean", "fit"), [(0.0009, True), (0.0011, False)])
def test_and_it_lies_level(lean, fit):
    ink = ink_of(full_outline(shaft(), None))
    one = Candidate(view(axis=Axis((0.0, 0.0), (math.cos(lean), math.sin(lean)))), ALONE, {})
    assert (choice._against_symmetry(ink, one) == "") is fit


@pytest.mark.parametrize(("size", "count", "fit"), [(29.0, 5, False), (28.5, 5, True), (29.0, 4, True)])
def test_and_no_crowd_of_figures_as_large_lies_beside_it(size, count, fit):
    """Two fifths of 72.1 are 28.8."""
    made = ink_of(full_outline(shaft(), None))
    others = [SimpleNamespace(closed=True, plain=False, diagonal=size)] * count
    ink = SimpleNamespace(clusters=(*made.clusters, *others), network=made.network)
    assert (choice._against_symmetry(ink, Candidate(view(), ALONE, {})) == "") is fit


@pytest.mark.parametrize(("off", "pieces"), [(1.9e-3, 1), (2.1e-3, 2)])
def test_pieces_of_one_centre_line_lie_in_line(off, pieces):
    """Two in a hundred thousand of all that is drawn, here 100."""
    ink = Ink(centre=[(-60.0, 0.0, -30.0, 0.0, 0.0), (-28.0, off, 0.0, off, 0.0)])
    assert len(centre_lines(sheet_of(ink).segments, 100.0)) == pieces


@pytest.mark.parametrize(("lean", "pieces"), [(0.0095, 1), (0.0105, 2)])
def test_and_run_in_one_direction(lean, pieces):
    ink = Ink(centre=[(-60.0, 0.0, -30.0, 0.0, 0.0), (-28.0, 0.0, -27.0, lean, 0.0)])
    assert len(centre_lines(sheet_of(ink).segments, 1e4)) == pieces


@pytest.mark.parametrize(("x", "upward"), [(-0.9e-9, True), (-1.1e-9, False)])
def test_a_line_is_upright_within_rounding(x, upward):
    assert (direction_of((0.0, 0.0), (x, 1.0))[1] > 0) is upward


def metal(*boxes):
    """The faces of closed boxes (z, r of two corners) above the axis, as one half drawn alone."""
    rows = []
    for z0, r0, z1, r1 in boxes:
        rim = [(z0, r0), (z1, r0), (z1, r1), (z0, r1), (z0, r0)]
        rows += [(*a, *b) for a, b in pairwise(rim)]
    ends = np.array(rows, dtype=float)
    return material(node(Strokes(ends, np.zeros(len(ends)), np.arange(len(ends))), 1e-6), 1, 1e-3, Shown(False, 20.0))


@pytest.mark.parametrize(("wide", "high", "told"), [(3.0, 6.6, 0), (3.0, 6.8, 1), (0.95, 25.0, 0), (1.05, 25.0, 1)])
def test_a_piece_apart_from_the_part_is_told_if_it_is_large_and_lies_beyond_its_end(wide, high, told):
    """A fiftieth of the part's 1000 is 20, a hundredth of its length 1; the piece lies in line with it."""
    found = metal(
        (-100.0, 0.0, 0.0, 10.0), (wide - 2.0, 12.0, wide, 12.0 + high) if wide < 2 else (0.5, 0.0, 3.5, high)
    )
    assert len(found.pieces) == told


@pytest.mark.parametrize(("part", "stray"), [(0.012, True), (0.008, False)])
def test_a_line_that_only_begins_at_the_part_is_no_stray(part, stray):
    """It slants out of the land at 45 degrees, 40 long, with that share of it within."""
    rim = [(-60.0, 0.0), (-60.0, 20.0), (0.0, 20.0), (0.0, 0.0), (-60.0, 0.0)]
    c = 40.0 / math.sqrt(2)
    start = np.array([-30.0, 20.0]) - part * c
    rows = [*((*a, *b) for a, b in pairwise(rim)), (*start, *(start + c)), (-31.0, 19.8, -29.0, 19.8)]
    laid = Strokes(np.array(rows, dtype=float), np.zeros(len(rows)), np.arange(len(rows)))
    kept = {e.label for e in without_strays(laid, 1e-6, frozenset()).edges}
    assert (4 not in kept) is stray


@pytest.mark.parametrize(("by", "open_"), [(0.35, False), (0.37, True)])
def test_lines_beyond_an_outline_lie_clear_of_it(by, open_):
    """By five thousandths of the view's size, 0.36: the outline held against is so much lower than the one drawn."""
    sheet = sheet_of(side_view(shaft()))
    made = prepare(assign(sheet), sheet.segments)
    centres = centre_lines(sheet.segments, made.size)
    one = next(v for v in views(made, centres) if v.halves == "both")
    folded = lay_view(made, sheet, Candidate(one, BY_LINE, {}), None).folded
    low, high = folded.view.low, folded.view.high
    assert (left_open(folded, ((high, 20.0 - by), (low, 20.0 - by)), 1) is not None) is open_


def by_each_pair(mids, margin):
    """Every place held against every other: at one z from `margin` before to less than that behind it, and as far."""
    return [any(z - margin <= w < z + margin and abs(r + o) <= margin for w, o in mids) for z, r in mids]


@pytest.mark.parametrize("seed", range(20))
def test_places_mirrored_are_those_that_a_search_of_every_pair_finds(seed):
    """Places on a coarse grid, so that many lie at the very edge of the margin; quarters are exact in binary."""
    rng = random.Random(seed)
    mids = [(rng.randrange(-40, 40) / 4, rng.randrange(-12, 12) / 4) for _ in range(rng.randrange(1, 60))]
    margin = rng.choice((0.25, 0.5, 1.0))
    assert _mirrored(np.array(mids), margin).tolist() == by_each_pair(mids, margin)


@pytest.mark.parametrize(
    ("dz", "dr", "mirrored"), [(0.5, 0.0, True), (0.51, 0.0, False), (0.0, 0.5, True), (0.0, 0.51, False)]
)
def test_a_place_is_mirrored_within_the_margin(dz, dr, mirrored):
    """The place at 3 above the axis has its image `dz` before it, `dr` too far out; worked out by hand."""
    assert bool(_mirrored(np.array([(0.0, 3.0), (-dz, -3.0 - dr)]), 0.5)[0]) is mirrored


def standing(lines, fine):
    """The radial lines (z, low, high) that stand on the axis, or on others that do, every pair looked at."""
    found = set()
    for _ in lines:
        found |= {
            k
            for k, (z, low, _) in enumerate(lines)
            if low <= fine or any(abs(z - lines[n][0]) <= fine and abs(low - lines[n][2]) <= fine for n in found)
        }
    return found


@pytest.mark.parametrize("seed", range(20))
def test_radial_lines_stand_on_the_axis_as_a_search_of_every_pair_finds(seed):
    """Ends lie on a grid of halves of `fine`, so that many are just within it of one another, and others just not."""
    rng, fine = random.Random(seed), 0.25
    lines = []
    for k in range(rng.randrange(1, 12)):
        low = rng.choice((0, 0, 2, 4)) / 2
        lines += [(k / 8 * rng.choice((1, 4)), low + n, low + n + rng.choice((0.75, 0.875, 1.0))) for n in range(3)]
    nodes = np.array([(z, r) for z, *ends in lines for r in ends])
    edges = [Edge(2 * k, 2 * k + 1, 0.0, k) for k in range(len(lines))]
    assert _gates(Network(nodes, edges), set(range(len(lines))), fine) == standing(lines, fine)


DOTTED = Source("1", "CIRCLE", "0", Pen.SOLID)


@pytest.mark.parametrize(("apart", "one_line"), [(12.7, True), (12.9, False)])
def test_dots_stand_outside_where_heads_would(apart, one_line):
    """Four times 0.4 across, and eight of these from one to the other: 12.8."""
    rows = [(-15.0, 0.0, 0.0, 0.0), (apart, 0.0, apart + 15.0, 0.0)]
    rows += [(x, 1.0, x, -20.0) for x in (0.0, apart)]
    strokes = Strokes(np.array(rows), np.zeros(4), np.arange(4))
    found = arrows(strokes, 1e-6, [Circle((x, 0.0), 0.2, DOTTED) for x in (0.0, apart)])
    assert (found.facing != ()) is one_line


@pytest.mark.parametrize(("ends", "told"), [
    ((-65.0, 5.0), "turned-by-symmetry"), ((-65.0, -0.5), "not-turned"), ((-60.0, 0.0), "not-turned"),
    (None, "not-turned"),
])  # fmt: skip
def test_lines_away_from_the_axis_may_be_a_bore_where_a_line_of_any_pen_runs_out_of_both_ends(ends, told):
    """A section whose bore's edges run from end to end, as a channel shows its walls, and no diameter on the sheet."""
    steps = [(0.0, 20.0), (-30.0, 20.0), (-30.0, 18.0), (-33.0, 18.0), (-33.0, 20.0), (-45.0, 20.0), (-45.0, 26.0)]
    upper = [*steps, (-60.0, 26.0)]
    ink = Ink().chain([(z, r, 0.0) for z, r in (*upper, *((z, -r) for z, r in reversed(upper)))], close=True)
    ink.solid += [(a, s * 8.0, b, s * 8.0, 0.0) for s in (1, -1) for a, b in ((0.0, -10.0), (-12.0, -60.0))]
    ink.solid += [(z, s * 8.0, z, s * 12.0, 0.0) for s in (1, -1) for z in (-10.0, -12.0)]
    ink.solid += [(-10.0, s * 12.0, -12.0, s * 12.0, 0.0) for s in (1, -1)]
    ink.solid += [(ends[0], 0.0, ends[1], 0.0, 0.0)] if ends else []
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm"))
    assert told in {f.code for f in reading.findings}
    if told == "turned-by-symmetry":
        assert [(g.where, g.floor_diameter) for g in reading.part.grooves] == [("inside", 24.0), ("outside", 36.0)]


@pytest.mark.parametrize(("ends", "rings", "stop"), [
    ((-25.0, 5.0), 1, False), ((-25.0, 5.0), 2, True), ((-25.0, -0.5), 1, True),
])  # fmt: skip
def test_a_disc_with_one_ring_in_its_face_is_one_by_a_line_of_any_pen_out_of_both_ends(ends, rings, stop):
    """As it is by a centre line; two rings may be the slots of a comb in section."""
    places = [(15.0, 19.0), (25.0, 29.0)][:rings]
    face = [(z, r) for inner, outer in places for z, r in ((0.0, inner), (-3.0, inner), (-3.0, outer), (0.0, outer))]
    upper = [(0.0, 8.0), *face, (0.0, 39.0), (-1.0, 40.0), (-20.0, 40.0), (-20.0, 8.0)]
    ink = Ink().chain([(z, r, 0.0) for z, r in upper], close=True).chain([(z, -r, 0.0) for z, r in upper], close=True)
    ink.solid += [(z, -8.0, z, 8.0, 0.0) for z in (0.0, -20.0)]
    ink.solid.append((ends[0], 0.0, ends[1], 0.0, 0.0))
    assert ("not-turned" in {f.code for f in read_sheet(sheet_of(ink), ReadOptions(units="mm")).findings}) is stop
