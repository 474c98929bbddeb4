"""A hole drilled from the side into one half of a section: a grease bush 50 long, 40 across, with a bore of 30.

The hole, 3 across at z -25, runs into a groove 5 wide in the bore. How it is drawn: common practice, no source.
"""

import pytest
from support.draw import Ink, rotated, sheet_of

from extractor import ReadOptions, read_sheet
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
