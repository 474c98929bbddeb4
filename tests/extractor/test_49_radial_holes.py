"""A hole drilled from the side into one half of a section: a grease bush 50 long, 40 across, with a bore of 30.

The hole, 3 across at z -25, runs into a groove 5 wide in the bore. How it is drawn: common practice, no source.
"""

import pytest
from support.draw import Ink, rotated, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind
from extractor.viewing.clusters import prepare
from extractor.viewing.roles import assign

LOW = [(0, 15), (-22.5, 15), (-22.5, 16.5), (-27.5, 16.5), (-27.5, 15), (-50, 15)]
OUTER = [(0, 15), (0, 20), (-50, 20), (-50, 15)]


def drilled(
    hole=True, pierced=(), own=((-25.0, 23.0), (-25.0, 13.5)), walls=(-23.5, -26.5), twin=20.0, lean=0.0, across=()
):
    """The bush: `pierced` runs of the other half are left out, `own` is the hole's centre line.

    `twin` is the radius of that half; the turning axis leans by `lean`; `across` are more lines between the walls.
    """
    ink = Ink(centre=[(5.0, 30.0 * lean, -55.0, -30.0 * lean, 0.0), (*own[0], *own[1], 0.0)])
    near, far = walls
    if hole:
        ink.chain([(near, 20, 0.0), (0, 20, 0.0), (0, 15, 0.0), (-22.5, 15, 0.0), (-22.5, 16.5, 0.0)])
        ink.chain([(-22.5, 16.5, 0.0), (near, 16.5, 0.0), (near, 20, 0.0)])
        ink.chain([(far, 20, 0.0), (-50, 20, 0.0), (-50, 15, 0.0), (-27.5, 15, 0.0), (-27.5, 16.5, 0.0)])
        ink.chain([(-27.5, 16.5, 0.0), (far, 16.5, 0.0), (far, 20, 0.0)])
    else:
        ink.chain([(x, y, 0.0) for x, y in OUTER]).chain([(x, y, 0.0) for x, y in LOW])
    other = [(x, -twin if y == 20 else -y, 0.0) for x, y in OUTER]
    ink.chain(other).chain([(x, -y, 0.0) for x, y in LOW])
    ink.solid += [(walls[0], r, walls[1], r, 0.0) for r in across]
    for r in pierced:
        ink.solid = [e for e in ink.solid if not (e[1] == e[3] == -r and min(e[0], e[2]) < -25 < max(e[0], e[2]))]
    return ink


def holes(ink):
    sheet = sheet_of(ink)
    return [(h.at, h.width) for h in prepare(assign(sheet), sheet.segments).holes]


@pytest.mark.parametrize("degrees", [0, 90, 180])
def test_a_bush_with_a_hole_in_one_half_is_read_by_the_other(degrees):
    reading = read_sheet(sheet_of(drilled(), rotated(degrees, 100.0, 50.0)), ReadOptions(units="mm"))
    told = {f.code.value for f in reading.findings if f.level != "note"}
    grooves = [(g.where, round(g.width, 6), round(g.floor_diameter, 6)) for g in reading.part.grooves]
    assert (grooves, "cross-hole" in told) == ([("inside", 5.0, 33.0)], True)
    assert not [f for f in reading.findings if f.stops]


def test_a_whole_bush_has_no_hole_and_its_reading_is_the_same():
    plain, pierced = (read_sheet(sheet_of(drilled(h)), ReadOptions(units="mm")) for h in (False, True))
    assert plain.part.outline == pierced.part.outline
    assert not any(f.code.value == "cross-hole" for f in plain.findings)


@pytest.mark.parametrize(
    "change",
    [
        {"hole": False},
        {"pierced": (20,)},
        {"pierced": (16.5,)},
        {"own": ((-25.0, 19.9), (-25.0, 13.5))},
        {"own": ((-25.0, 23.0), (-25.0, 16.6))},
        {"own": ((-25.2, 23.0), (-25.2, 13.5))},
        {"walls": (-23.5, -23.5)},
        {"twin": 21.0},
        {"across": (20,)},
        {"across": (16.5,)},
        {"own": ((-25.0, 75.0), (-25.0, 13.5))},
    ],
)
def test_where_anything_of_a_hole_is_missing_nothing_is_closed(change):
    """Pierced in both halves, without a centre line through it and past it, or unlike the other half.

    Or with a line across its mouth, or a centre line longer than the turning axis.
    """
    assert holes(drilled()) == [((-25.0, 20.0), 3.0)]
    assert holes(drilled(**change)) == []


@pytest.mark.parametrize(("lean", "square"), [(9e-4, True), (1.1e-3, False)])
def test_how_far_out_of_square_the_two_centre_lines_may_be(lean, square):
    assert bool(holes(drilled(lean=lean))) is square


def crossed(walls=(-8.0, -12.0), reach=(15.0, 20.0), own=(22.0, 13.0), floor=None, shift=0.0):
    """The bush in full section with the walls of a hole in both halves, its mouths drawn over.

    `reach`: the walls' ends; `own`: those of the hole's centre line, None without; `floor`: of a line between.
    """
    ink, middle = drilled(hole=False), sum(walls) / 2 + shift
    ink.centre = ink.centre[:1] + [(middle, s * own[0], middle, s * own[1], 0.0) for s in (1, -1) if own]
    for s in (1, -1):
        ink.solid += [(z, s * reach[0], z, s * reach[1], 0.0) for z in walls]
        ink.solid += [(walls[0], s * floor, walls[1], s * floor, 0.0)] if floor else []
    across = Dimension(DimensionKind.LINEAR, ((-50.0, -20.0), (-50.0, 20.0)), 90.0, 40.0, "%%c40")
    return read_sheet(sheet_of(ink, dimensions=(across,)), ReadOptions(units="mm"))


def test_the_walls_of_a_cross_hole_in_full_section_are_read_past_with_a_caution():
    reading = crossed()
    (told,) = (f for f in reading.findings if f.code.value == "cross-hole")
    assert (told.level.value, "4 apart" in told.message, told.at[0]) == ("caution", True, -10.0)
    assert not [f for f in reading.findings if f.stops]
    assert [(g.where, g.z_near, g.z_far) for g in reading.part.grooves] == [("inside", -22.5, -27.5)]


@pytest.mark.parametrize("change", [{"own": None}, {"own": (19.9, 13.0)}, {"own": (22.0, 15.1)}, {"shift": 0.2}])
def test_walls_without_a_centre_line_half_way_between_and_past_both_ends_still_stop(change):
    assert [f.code.value for f in crossed(**change).findings if f.stops] == ["lines-unexplained"]


@pytest.mark.parametrize("change", [{"reach": (15.3, 20.0)}, {"reach": (15.0, 19.7)}, {"floor": 17.0}])
def test_walls_with_an_end_in_the_metal_or_a_floor_between_are_no_hole(change):
    assert "cross-hole" not in {f.code.value for f in crossed(**change).findings}


@pytest.mark.parametrize(("half", "hole"), [(17.9, True), (18.1, False)])
def test_a_hole_as_wide_as_the_part_is_none(half, hole):
    """The part is 40 across; 0.9 of that still leaves metal beside the hole."""
    codes = {f.code.value for f in crossed(walls=(half - 25, -25 - half), own=(22.0, 13.0)).findings}
    assert ("cross-hole" in codes, "lines-unexplained" in codes) == (hole, not hole)
