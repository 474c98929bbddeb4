r"""Recesses that are not open straight along the tool's way are a stop; accepted, another tool makes them.

Forms: dovetail and T-slot (common practice), and a relief that reaches into the shoulder's face as DIN 509 form F does
(its proportions from memory).

      dovetail          T-slot          L-slot        relief after form F
    ____     ____    ____   ____     ____   ____            |
        /   \           |   |           |   |               |
       /     \        __|   |__         |   |__             |_    reaches in under
      /_______\      |_________|        |______|      _______|    the shoulder
"""

from itertools import pairwise

import pytest
from support.draw import Drawn, Ink, full_outline, sheet_of, with_centre

from extractor import ReadOptions, read_sheet
from extractor.geometry.profile import Piece
from extractor.part import LeftToOthers
from extractor.recess.shapes import Measured
from extractor.recess.sorting import sort_recesses
from extractor.recess.turnings import inside

MM = ReadOptions(units="mm")
ACCEPTED = ReadOptions(units="mm", accept=frozenset({"overhang"}))


def outside(*corners):
    """A bar 40 x 60 with one recess, through (z, radius[, bulge]) corners from Z-20, and a plain groove at Z-40."""
    plain = [(-40, 20), (-40, 17), (-43, 17), (-43, 20), (-60, 20)]
    return full_outline(Drawn(tuple((*c, 0.0)[:3] for c in [(0, 20), *corners, *plain])))


def both(corners, length=60.0):
    """Both halves of a closed half section."""
    upper = Ink().chain([(*c, 0.0)[:3] for c in corners], close=True)
    return with_centre(
        Ink(solid=[*upper.solid, *upper.map(lambda x, y: (x, -y)).solid]), Drawn(((0, 1), (-length, 1))), 5.0
    )


def sleeve(*bore):
    return both([(0, 30), (-60, 30), *reversed([(0, 15), *bore, (-60, 15)])])


def disc(*front):
    return both([(0, 6), *front, (0, 30), (-60, 30), (-60, 6)])


def steps(*corners):
    """A shaft 30 across to a shoulder 50 across at Z-30, the profile between given."""
    return full_outline(Drawn(tuple((*c, 0.0)[:3] for c in [(0, 15), *corners, (-30, 25), (-60, 25)])))


DOVETAIL = ((-20, 20), (-18, 15), (-27, 15), (-25, 20))
T_SLOT = ((-20, 20), (-20, 17), (-17, 17), (-17, 14), (-28, 14), (-28, 17), (-25, 17), (-25, 20))
OUTSIDE = {
    "a dovetail": (DOVETAIL, 30),
    "a T-slot": (T_SLOT, 28),
    "one wall undercut": (((-20, 20), (-18, 15), (-25, 15), (-25, 20)), 30),
    "the far wall undercut": (((-20, 20), (-20, 15), (-27, 15), (-25, 20)), 30),
    "an L-slot": (((-20, 20), (-20, 17), (-17, 17), (-17, 14), (-25, 14), (-25, 20)), 28),
    "a bulb": (((-20, 20), (-20, 17), (-18, 15), (-20, 13), (-25, 13), (-27, 15), (-25, 17), (-25, 20)), 26),
    "more than half a circle": (((-20, 20, -2.0), (-25, 20)), 30),
}


@pytest.mark.parametrize(("corners", "floor"), OUTSIDE.values(), ids=OUTSIDE)
def test_an_overhang_outside_is_a_stop_and_no_groove(corners, floor):
    reading = read_sheet(sheet_of(outside(*corners)), MM)
    (stop,) = [f for f in reading.findings if f.stops]
    assert stop.code == "overhang"
    assert "The recess from Z-20 to Z-25 reaches under the metal" in stop.message
    assert "along X" in stop.message
    assert stop.at == pytest.approx((-22.5, floor / 2))
    assert [(g.z_near, g.z_far) for g in reading.part.grooves] == [(-40.0, -43.0)]


@pytest.mark.parametrize(("corners", "floor"), OUTSIDE.values(), ids=OUTSIDE)
def test_accepted_it_is_left_to_another_tool(corners, floor):
    reading = read_sheet(sheet_of(outside(*corners)), ACCEPTED)
    assert [(f.level, f.code) for f in reading.findings] == [("caution", "overhang")]
    assert reading.findings[0].message.endswith("Accepted by the user.")
    left = LeftToOthers(where="outside", near=-20.0, far=-25.0, floor=float(floor), mouth=40.0, why="overhang")
    assert reading.part.left_to_others == (left,)
    # The lands are those of metal that still stands there.
    assert all(r == 20.0 for z, r in reading.part.lands if -30 < z < -10)


def test_overhangs_in_a_bore():
    for corners, floor in (
        (((-20, 15), (-18, 18), (-27, 18), (-25, 15)), 36),
        (((-20, 15), (-20, 17), (-17, 17), (-17, 20), (-28, 20), (-28, 17), (-25, 17), (-25, 15)), 40),
    ):
        reading = read_sheet(sheet_of(sleeve(*corners)), ACCEPTED)
        assert [(f.level, f.code) for f in reading.findings] == [("caution", "overhang")]
        assert "The recess in the bore from Z-20 to Z-25" in reading.findings[0].message
        (left,) = reading.part.left_to_others
        assert (left.where, left.near, left.far, left.floor, left.mouth) == ("inside", -20, -25, -floor, -30)
        assert reading.part.grooves == ()


FACES = {
    "a dovetail": (((0, 12), (-4, 10), (-4, 20), (0, 18)), -4),
    "a T-slot": (((0, 12), (-3, 12), (-3, 9), (-6, 9), (-6, 21), (-3, 21), (-3, 18), (0, 18)), -6),
    "the outer wall undercut": (((0, 12), (-4, 12), (-4, 20), (0, 18)), -4),
    "the inner wall undercut": (((0, 12), (-4, 10), (-4, 18), (0, 18)), -4),
}


@pytest.mark.parametrize(("corners", "floor"), FACES.values(), ids=FACES)
def test_overhangs_in_a_face(corners, floor):
    reading = read_sheet(sheet_of(disc(*corners)), MM)
    (stop,) = reading.findings
    assert (stop.code, stop.stops) == ("overhang", True)
    assert f"The recess in a face from Z0 to Z{floor}" in stop.message
    assert "along Z" in stop.message
    (left,) = reading.part.left_to_others
    assert (left.where, left.near, left.far, left.floor, left.mouth) == ("face", 36, 24, floor, 0)
    assert reading.part.grooves == ()


def test_an_overhang_in_the_back_face():
    corners = [(0, 6), (0, 30), (-60, 30), (-60, 18), (-56, 20), (-56, 10), (-60, 12), (-60, 6)]
    (left,) = read_sheet(sheet_of(both(corners)), ACCEPTED).part.left_to_others
    assert (left.where, left.near, left.far, left.floor, left.mouth) == ("face", 36, 24, -56, -60)


RELIEF = ((-27.5, 15), (-28.2, 14.7), (-30.2, 14.7), (-30.2, 16.2), (-30, 17))


def test_a_relief_into_the_face_of_its_shoulder_is_one_and_a_plain_one_is_none():
    reading = read_sheet(sheet_of(steps(*RELIEF)), MM)
    assert [(f.code, f.stops) for f in reading.findings] == [("overhang", True)]
    (left,) = reading.part.left_to_others
    assert (left.near, left.far, left.floor) == (-27.5, -30.2, 29.4)
    plain = read_sheet(sheet_of(steps((-27.5, 15), (-28.2, 14.7), (-30, 14.7))), MM)
    assert [(g.shape, g.z_near, g.z_far) for g in plain.part.grooves] == [("relief", -27.5, -30.0)]


@pytest.mark.parametrize(("lean", "told"), [(0.0, False), (0.0005, False), (0.02, False), (0.03, True)])
def test_a_wall_that_leans_less_than_lines_are_drawn_is_upright(lean, told):
    """The pen errs by 0.0216 in this view, of 72."""
    reading = read_sheet(sheet_of(outside((-20, 20), (-20 + lean, 15), (-25, 15), (-25, 20))), MM)
    assert ("overhang" in [f.code for f in reading.findings]) is told


def test_a_groove_in_the_floor_of_a_wider_one_is_one_with_it():
    reading = read_sheet(
        sheet_of(outside((-16, 20), (-16, 18), (-20, 18), (-20, 16), (-26, 16), (-26, 18), (-30, 18), (-30, 20))), MM
    )
    assert [(g.shape, g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [
        ("other", -16.0, -30.0, 32.0),
        ("rectangular", -40.0, -43.0, 34.0),
    ]
    assert reading.part.left_to_others == ()


def stepped(width, deep=2.0, **options):
    """A recess so wide, with a slot 6 wide and 2 deeper in its middle."""
    a, b, floor = -5.0, -5.0 - width, 20.0 - deep
    m = (a + b) / 2
    corners = [
        (0, 20),
        (a, 20),
        (a, floor),
        (m + 3, floor),
        (m + 3, floor - 2),
        (m - 3, floor - 2),
        (m - 3, floor),
        (b, floor),
        (b, 20),
        (-60, 20),
    ]
    return read_sheet(
        sheet_of(full_outline(Drawn(tuple((*c, 0.0) for c in corners)))), ReadOptions(units="mm", **options)
    )


# Wider than 16 mm and than four times its depth, between like lands, a low land is turned (common practice, no source).
@pytest.mark.parametrize(
    ("width", "deep", "turned"), [(16.0, 2.0, False), (16.1, 2.0, True), (18.0, 4.5, False), (18.2, 4.5, True)]
)
def test_the_width_rule_holds_for_a_recess_that_holds_another(width, deep, turned):
    reading = stepped(width, deep)
    assert [(g.shape, g.z_near - g.z_far) for g in reading.part.grooves] == [
        ("rectangular", pytest.approx(6.0)) if turned else ("other", pytest.approx(width))
    ]
    assert [(one.why, one.floor) for one in reading.part.left_to_others] == (
        [("turned", 40 - 2 * deep)] if turned else []
    )
    assert [(f.level, f.code) for f in reading.findings if f.code == "journal"] == (
        [("caution", "journal")] if turned else []
    )


def test_grooved_makes_it_one_groove_always():
    reading = stepped(30.0, grooved=True)
    assert [(g.shape, g.floor_diameter) for g in reading.part.grooves] == [("other", 32.0)]
    assert reading.part.left_to_others == ()
    assert "journal" not in [f.code for f in reading.findings]


def chamber(width, **options):
    """A bore 30 across with a recess so wide and 2 deep, and a slot 6 wide in its floor."""
    a, b = -5.0, -5.0 - width
    m = (a + b) / 2
    ink = sleeve((a, 15), (a, 17), (m + 3, 17), (m + 3, 19), (m - 3, 19), (m - 3, 17), (b, 17), (b, 15))
    return read_sheet(sheet_of(ink), ReadOptions(units="mm", **options))


def test_the_same_in_a_bore():
    (narrow,) = chamber(14.0).part.grooves
    assert (narrow.where, narrow.shape, narrow.width, narrow.floor_diameter) == ("inside", "other", 14.0, 38.0)
    wide = chamber(30.0)
    assert [(g.shape, g.width, g.mouth_diameter) for g in wide.part.grooves] == [("rectangular", 6.0, 34.0)]
    (left,) = wide.part.left_to_others
    assert (left.where, left.floor, left.mouth, left.why) == ("inside", -34.0, -30.0, "turned")
    (told,) = [f.message for f in wide.findings if f.code == "journal"]
    assert told.startswith(
        "The chamber in the bore of diameter 34 from Z-5 to Z-35 is left to boring and must be bored "
    )
    assert [g.width for g in chamber(30.0, grooved=True).part.grooves] == [30.0]


def test_the_same_in_a_face():
    corners = ((0, 12), (-2, 12), (-2, 14), (-4, 14), (-4, 18), (-2, 18), (-2, 20), (0, 20))
    (groove,) = read_sheet(sheet_of(disc(*corners)), MM).part.grooves
    assert (groove.where, groove.shape, groove.mouth_diameter, groove.floor_diameter, groove.z_far) == (
        "face",
        "other",
        40,
        24,
        -4,
    )


def test_a_slot_with_an_overhang_in_a_wide_low_land_leaves_the_land_to_turning():
    slot = ((-20, 18), (-18, 15), (-27, 15), (-25, 18))
    corners = [(0, 20), (-5, 20), (-5, 18), *slot, (-40, 18), (-40, 20), (-60, 20)]
    reading = read_sheet(sheet_of(full_outline(Drawn(tuple((*c, 0.0) for c in corners)))), ACCEPTED)
    assert sorted((one.why, one.near, one.far) for one in reading.part.left_to_others) == [
        ("overhang", -20, -25),
        ("turned", -5, -40),
    ]


def test_a_slot_with_an_overhang_in_a_narrow_recess_is_one_with_it():
    slot = ((-20, 18), (-18, 15), (-27, 15), (-25, 18))
    corners = [(0, 20), (-16, 20), (-16, 18), *slot, (-29, 18), (-29, 20), (-60, 20)]
    reading = read_sheet(sheet_of(full_outline(Drawn(tuple((*c, 0.0) for c in corners)))), ACCEPTED)
    assert [(one.why, one.near, one.far, one.floor) for one in reading.part.left_to_others] == [
        ("overhang", -16, -29, 30)
    ]


@pytest.mark.parametrize(("over", "grooves"), [(0.9e-5, 1), (1.1e-5, 2)])
def test_a_recess_in_the_floor_of_another_may_reach_beyond_it_by_dust(over, grooves):
    """A millionth of the outer one's width, 10."""
    walls = {"near_land": 20.0, "far_land": 20.0}
    outer = Measured(shape="rectangular", z_near=-5.0, z_far=-15.0, mouth=20.0, floor=18.0, inner=1, **walls)
    inner = Measured(shape="rectangular", z_near=-5.0 + over, z_far=-9.0, mouth=18.0, floor=16.0, **walls)
    assert len(sort_recesses([outer, inner]).grooves) == grooves


@pytest.mark.parametrize(("bore", "reached"), [(0.0, False), (0.9e-3, False), (1.1e-3, True), (4.0, True)])
def test_no_tool_comes_to_a_chamber_between_two_places_where_the_bore_has_no_width(bore, reached):
    """Noise is a thousandth: letters drawn as lines closed such a chamber, of which a groove was made."""
    line = [(0.0, bore), (-2.5, bore), (-2.5, 20.0), (-16.0, 20.0), (-16.0, bore), (-60.0, bore)]
    (chamber,) = inside(tuple(Piece(a, b) for a, b in pairwise(line)), 1e-3)
    assert chamber.overhang is not reached


@pytest.mark.parametrize("flip", [False, True])
@pytest.mark.parametrize(
    ("wide", "grooves"),
    [(12.0, [(12.0, 32.0)]), (16.0, [(16.0, 32.0)]), (16.1, [])],  # wider it is a low land that is turned, all of it
)
def test_a_low_land_in_the_floor_of_a_groove_is_part_of_it(wide, grooves, flip):
    """A step in the floor, 8 long, at one of its walls; by itself it is wide enough to be turned."""
    corners = [(0, 20), (-20, 20), (-20, 16), (-28, 16), (-28, 18), (-20 - wide, 18)]
    corners += [(-20 - wide, 20), (-60, 20)]
    corners = [(-60.0 - z, r) for z, r in reversed(corners)] if flip else corners
    reading = read_sheet(sheet_of(full_outline(Drawn(tuple((*c, 0.0) for c in corners)))), ReadOptions(units="mm"))
    assert [(round(g.width, 6), g.floor_diameter) for g in reading.part.grooves] == grooves
    assert bool(reading.part.left_to_others) is not bool(grooves)
