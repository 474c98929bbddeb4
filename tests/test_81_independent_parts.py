"""The parts drawn for other tests are what they say they are, measured on their half section by shapely."""

import math

import pytest
from shapely import LineString
from support.independent import views
from support.independent.metal import before_grooving, half_section
from support.independent.recipes import ALL_SHAPES
from support.independent.solid_sheets import SolidRecipe, solid_case
from support.independent.solids import VISIBLE, Cuts, Sight, project, quarter_cut, solid
from support.independent.stock import Wishes, random_part
from support.independent.views import Looks
from support.ink import Arc, Line

SEEDS = range(25)


@pytest.mark.parametrize("seed", SEEDS)
def test_grooves_are_where_the_truth_says(seed: int) -> None:
    part = random_part(seed, Wishes(shapes=ALL_SHAPES, bored=seed % 2 == 0, inside=True, face=seed % 3 == 0))
    metal = half_section(part)
    assert metal.is_valid
    for groove in (g for g in part.grooves if g.where != "face"):
        mouth, floor = groove.mouth_diameter / 2, groove.floor_diameter / 2
        middle = (groove.z_near + groove.z_far) / 2
        sign = 1 if groove.where == "outside" else -1
        assert metal.contains(LineString([(middle, floor - sign * 0.01), (middle, floor - sign * 0.02)]))
        assert not metal.intersects(LineString([(middle, floor + sign * 0.02), (middle, mouth)]))
        if groove.shapes == ("rectangular",):
            half = (mouth + floor) / 2
            gap = LineString([(groove.z_near + 0.01, half), (groove.z_far - 0.01, half)]).difference(metal)
            assert gap.length == pytest.approx(groove.z_near - groove.z_far, abs=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_grooves_filled_leave_level_lands(seed: int) -> None:
    part = random_part(seed, Wishes(shapes=ALL_SHAPES))
    cut = before_grooving(part).difference(half_section(part))
    count = len([g for g in part.grooves if g.where == "outside"])
    assert len([p for p in getattr(cut, "geoms", [cut]) if p.area > 1e-6]) == count


@pytest.mark.parametrize("seed", range(6))
def test_solid_projects_to_the_silhouette_of_the_part(seed: int) -> None:
    """The kernel's projection against the part's own outline: two ways to one picture."""
    part = random_part(seed, Wishes(shapes=("rectangular", "vee"), plain=True))
    ink = project(solid(part, Cuts()), Sight(VISIBLE))
    bounds = [p for line in ink if isinstance(line, Line) for p in (line.a, line.b)]
    drawn = {(round(x, 6), round(abs(y), 6)) for x, y in bounds}
    for z, r, _ in part.outside_run():
        assert (round(z, 6), round(r, 6)) in drawn
    highest = max(abs(y) for _, y in bounds)
    assert highest == pytest.approx(part.outer_diameter / 2)


def test_section_of_a_solid_keeps_corner_arcs() -> None:
    part = random_part(2, Wishes(shapes=("round",), bored=True))
    cut = quarter_cut(solid(part, Cuts(seam=0.0)), part, whole=True)
    arcs = [stroke for stroke in project(cut, Sight(VISIBLE)) if isinstance(stroke, Arc)]
    assert arcs
    for arc in arcs:
        assert all(math.isfinite(v) for v in (*arc.centre, arc.radius, arc.start, arc.end))


def test_solid_sheet_is_the_same_twice() -> None:
    assert solid_case(SolidRecipe(seed=4)).text == solid_case(SolidRecipe(seed=4)).text


def test_edges_leave_out_the_tangents_of_rounded_corners() -> None:
    part = random_part(1, Wishes())
    run = part.outside_run()
    bent = sum(1 for _, _, bulge in run if bulge)
    sharp, smooth = views.edges(run, part.length, False), views.edges(run, part.length, True)
    assert bent == 0 or len(smooth) > len(sharp)
    assert views.side(part, Looks())
