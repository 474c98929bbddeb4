"""Sizes of face grooves: the diameters of both walls, the radial width, the depth along z; never exchanged.

The part is 60 across and 30 long with a groove in its front face, walls at 40 and 30 (5 wide), 4 deep.
"""

import pytest
from support.draw import Ink, sheet_of, with_centre
from support.forms import form as as_form
from support.parts import groove_of
from support.ties import across, along, bar, frame, half, span, tied, tolerances

from extractor import ReadOptions, read_sheet
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind
from rillwright.records.recording import recorded_groove

FACE = {"where": "face", "mouth_diameter": 40.0}
RING = (0, -4, 30, FACE)


def face(*spots, **more):
    return bar(*(spots or [RING]), diameter=60, length=30, **more)


def one(*dimensions, part=None, notes=()):
    (found,) = tolerances(part or face(), *dimensions, notes=notes)
    return found


def test_width_lies_along_the_radius_and_depth_along_z():
    """Half the difference of the wall diameters; from the face to the floor (the public contract)."""
    groove = Groove(
        id=1, where="face", shape="rectangular", z_near=0.0, z_far=-4.0, mouth_diameter=40.0, floor_diameter=30.0
    )
    assert (groove.width, groove.depth) == (5.0, 4.0)
    outside = Groove(
        id=1, where="outside", shape="rectangular", z_near=-10.0, z_far=-13.0, mouth_diameter=40.0, floor_diameter=30.0
    )
    assert (outside.width, outside.depth) == (3.0, 5.0)


def test_the_record_names_both_walls_of_a_face_groove_alone():
    form = as_form(recorded_groove(groove_of(where="face", z_near=0.0, z_far=-4.0, floor_diameter=30.0)))
    expected = {"outer_wall_diameter": 40.0, "inner_wall_diameter": 30.0, "width": 5.0, "depth": 4.0}
    assert {name: form[name] for name in expected} == expected
    assert (form["mouth_diameter"], form["floor_diameter"], form["z_near"], form["z_far"]) == (40.0, 30.0, 0.0, -4.0)
    plain = as_form(recorded_groove(groove_of(floor_diameter=30.0)))
    assert not {"outer_wall_diameter", "inner_wall_diameter"} & plain.keys()


WALLS = [("mouth_diameter", 40), ("floor_diameter", 30)]


@pytest.mark.parametrize(("field", "diameter"), WALLS)
@pytest.mark.parametrize("z", [0, -2, -4])
def test_a_diameter_on_a_wall_gives_that_wall_its_deviations(field, diameter, z):
    assert one(across(diameter, f"{diameter} +0.2/+0.1", z=z)) == {field: (0.1, 0.2)}
    assert one(half(diameter, f"Ø{diameter} +0.2/+0.1", z=z)) == {field: (0.1, 0.2)}
    assert one(half(diameter, f"{diameter // 2} +0.2/+0.1", z=z)) == {field: (0.2, 0.4)}


@pytest.mark.parametrize(("field", "diameter"), WALLS)
def test_a_diameter_in_front_of_the_face_or_in_an_end_view_is_tied_by_its_size(field, diameter):
    assert one(across(diameter, f"Ø{diameter} +0.2/+0.1", z=15)) == {field: (0.1, 0.2)}
    end_view = Dimension(DimensionKind.DIAMETER, ((300, 50), (300, 50 + diameter)), 90, diameter, "Ø<> +0.2/+0.1")
    assert one(end_view) == {field: (0.1, 0.2)}
    assert one(notes=[f"Ø{diameter} +0.2/+0.1"]) == {field: (0.1, 0.2)}


@pytest.mark.parametrize(("field", "diameter"), WALLS)
def test_a_leader_at_a_wall(field, diameter):
    at = frame()
    points = (at.on_sheet(-2, diameter / 2), at.on_sheet(5, 40))
    leader = Dimension(DimensionKind.LEADER, points, 0, 0, f"Ø{diameter} +0.2/+0.1")
    assert one(leader) == {field: (0.1, 0.2)}


@pytest.mark.parametrize(("field", "diameter"), WALLS)
def test_another_diameter_than_the_walls_is_a_stop(field, diameter):
    for dimension in (across(diameter, f"{diameter + 1}", z=0), half(diameter, f"Ø{diameter + 1} +0.2/+0.1", z=-2)):
        part, (stop,) = tied(face(), dimension)
        assert (stop.code, stop.stops, stop.groove) == ("dimension-contradicts", True, 1)
        assert (
            f"prints {diameter + 1} where the drawing measures {diameter} ({field.replace('_', ' ')} of groove 1)"
            in (stop.message)
        )
        assert part.grooves[0].tolerances == {}


def test_the_radial_width_and_the_depth():
    assert one(span((0, 15), (0, 20), "5 +0.1/0")) == {"width": (0, 0.1)}
    assert one(span((-4, -20), (-4, -15), "5 H11")) == {"width": (0, 0.075)}
    assert one(along(0, -4, "4 +0.1/0")) == {"depth": (0, 0.1)}
    assert one(along(-4, 0, "4 0/-0.1", r=17)) == {"depth": (-0.1, 0)}


@pytest.mark.parametrize(("dimension", "field"), [(span((0, 15), (0, 20), "6"), "width"), (along(0, -4, "5"), "depth")])
def test_another_width_or_depth_is_a_stop(dimension, field):
    (stop,) = tied(face(), dimension)[1]
    assert (stop.code, stop.stops) == ("dimension-contradicts", True)
    assert f"{field} of groove 1" in stop.message


# ISO 286 at 40 and 30 mm: H7 +0.025/0 and +0.021/0, g6 -0.009/-0.025 and -0.007/-0.020.
def test_the_outer_wall_is_a_holes_and_the_inner_wall_a_shafts():
    assert one(across(40, "Ø40 H7/g6", z=0)) == {"mouth_diameter": (0, 0.025)}
    assert one(across(30, "Ø30 H7/g6", z=0)) == {"floor_diameter": (-0.02, -0.007)}


def test_the_floor_from_elsewhere():
    """From the back face 26 +0.2/0 the floor moves toward the front, z from -4.0 to -3.8."""
    assert one(along(-4, -30, "26 +0.2/0")) == {"z_far": (0, 0.2)}
    stepped = bar((-10, -15, 44, {"where": "face", "mouth_diameter": 50}), diameter=60, length=30)
    assert one(along(0, -15, "15 +0.2/0"), part=stepped) == {"z_far": (-0.2, 0)}
    assert one(along(-10, -15, "5 +0.2/0"), part=stepped) == {"depth": (0, 0.2)}


def test_a_groove_in_the_back_face_has_its_floor_before_its_mouth():
    back = face((-26, -30, 30, {**FACE, "from_back": True}))
    assert one(along(-26, -30, "4 +0.2/0"), part=back) == {"depth": (0, 0.2)}
    assert one(along(0, -26, "26 +0.2/0"), part=back) == {"z_near": (-0.2, 0)}


# ISO 2768-1 class m: 30 to 120 mm 0.3, 6 to 30 mm 0.2, 3 to 6 mm 0.1; class f: 0.15, 0.1, 0.05.
def test_a_class_stands_for_wall_diameters_and_depth():
    part, _ = tied(face(), notes=["ISO 2768-m"])
    given = {"mouth_diameter": (-0.3, 0.3), "floor_diameter": (-0.2, 0.2), "depth": (-0.1, 0.1)}
    assert part.grooves[0].tolerances == given
    assert part.grooves[0].general == given.keys()


def test_a_class_stands_for_the_width_where_that_is_printed():
    found = one(span((0, 15), (0, 20), "5"), across(30, "Ø30", z=0), notes=["ISO 2768-m"])
    assert found == {"width": (-0.1, 0.1), "floor_diameter": (-0.2, 0.2), "depth": (-0.1, 0.1)}


def test_a_class_leaves_alone_what_dimensions_settle():
    found = one(span((0, 15), (0, 20), "5 ±0.02"), across(40, "Ø40 ±0.02", z=0), notes=["ISO 2768-m"])
    assert found == {"width": (-0.02, 0.02), "mouth_diameter": (-0.02, 0.02), "depth": (-0.1, 0.1)}
    found = one(along(-4, -30, "26 ±0.02"), notes=["ISO 2768-m"])
    assert "depth" not in found
    assert found["z_far"] == (-0.02, 0.02)


def test_a_class_on_a_depth_printed_of_a_groove_outside():
    """The depth is printed, so the class is that of 3 mm, not that of the floor's 34."""
    part, _ = tied(bar((-10, -13, 34)), span((-11, 17), (-11, 20), "3"), notes=["ISO 2768-m"])
    assert part.grooves[0].tolerances == {"depth": (-0.1, 0.1), "width": (-0.1, 0.1)}


def ring():
    """Both halves of a disc with a ring groove in its front face, as lines."""
    corners = [(0, 0), (0, 15), (-4, 15), (-4, 20), (0, 20), (0, 30), (-30, 30), (-30, 0)]
    upper = Ink().chain([(z, r, 0.0) for z, r in corners])
    both = Ink(solid=[*upper.solid, *upper.map(lambda x, y: (x, -y)).solid])

    class Body:
        length = 30.0

    return with_centre(both, Body(), 5.0)


def test_from_a_drawing():
    dimensions = (
        Dimension(DimensionKind.LINEAR, ((0.0, 20.0), (0.0, -20.0)), 90.0, 40.0, "Ø40 +0.2/+0.1"),
        Dimension(DimensionKind.LINEAR, ((0.0, 15.0), (0.0, -15.0)), 90.0, 30.0, "Ø30 -0.1/-0.2"),
        Dimension(DimensionKind.LINEAR, ((0.0, 20.0), (-4.0, 20.0)), 0.0, 4.0, "4 +0.1/0"),
    )
    reading = read_sheet(sheet_of(ring(), dimensions=dimensions), ReadOptions(units="mm"))
    (groove,) = reading.part.grooves
    assert (groove.where, groove.width, groove.depth) == ("face", 5.0, 4.0)
    assert groove.tolerances == {"mouth_diameter": (0.1, 0.2), "floor_diameter": (-0.2, -0.1), "depth": (0.0, 0.1)}


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("Ø40 x 4", []), ("Ø30 x 4", []), ("Ø40 x 5", []),
        ("MEAN DIA 35, 5 WIDE, 4 DEEP", []), ("MEAN DIA 36, 5 WIDE, 4 DEEP", ["note-contradicts"]),
        ("Ø42 x 4", ["note-contradicts"]), ("Ø40 x 3", ["note-contradicts"]),
        ("4 WIDE x 5 DEEP", ["note-contradicts"]), ("GROOVE Ø40, 4 WIDE", ["note-contradicts"]),
    ],
)  # fmt: skip
def test_a_note_at_a_face_groove_names_a_wall_or_its_middle_and_a_bare_depth(words, codes):
    places = frame().on_sheet(-4.0, 17.5), frame().on_sheet(12.0, 40.0)
    assert [f.code for f in tied(face(), Dimension(DimensionKind.LEADER, places, 0.0, 0.0, words))[1]] == codes


def test_a_class_and_deviations_behind_different_sizes_are_theirs():
    """ISO 286-2: H11 of 40 is +0.16/0. The depth's deviation is told, and no general tolerance stands for it."""
    places = frame().on_sheet(-2.0, 20.0), frame().on_sheet(12.0, 40.0)
    leader = Dimension(DimensionKind.LEADER, places, 0.0, 0.0, "Ø40 H11 x 4 +0.05")
    part, findings = tied(face(), leader, notes=["ISO 2768-m"])
    assert {f.code for f in findings} == {"tolerance-unread", "general-tolerances"}
    assert part.grooves[0].tolerances["mouth_diameter"] == (0.0, 0.16)
    assert "depth" not in part.grooves[0].tolerances


def led_to_wall(words, part=None, tip=(-2.0, 20.0)):
    places = frame().on_sheet(*tip), frame().on_sheet(12.0, 40.0)
    return tied(part or face(), Dimension(DimensionKind.LEADER, places, 0.0, 0.0, words))


@pytest.mark.parametrize(
    ("words", "given"),
    [
        ("Ø40 +0.1/0 x Ø30 0/-0.1", {"mouth_diameter": (0.0, 0.1), "floor_diameter": (-0.1, 0.0)}),
        ("Ø30 0/-0.1 / Ø40 +0.1/0", {"mouth_diameter": (0.0, 0.1), "floor_diameter": (-0.1, 0.0)}),
        ("Ø40 x Ø30 0/-0.1", {"floor_diameter": (-0.1, 0.0)}),
        ("FACE GROOVE Ø40 +0.1/0 / Ø30", {"mouth_diameter": (0.0, 0.1)}),
        ("Ø40 x Ø30 0/-0.1 x 4 +0.2/0 DEEP", {"floor_diameter": (-0.1, 0.0), "depth": (0.0, 0.2)}),
        ("Ø40 x Ø30 0/-0.1 x 4 +0.2/0", {"floor_diameter": (-0.1, 0.0), "depth": (0.0, 0.2)}),
    ],
)
def test_two_diameters_in_one_note_are_the_two_walls(words, given):
    """Each tolerance is that of the diameter before it (common practice, no source)."""
    part, findings = led_to_wall(words)
    assert (dict(part.grooves[0].tolerances), [f.code for f in findings]) == (given, [])


@pytest.mark.parametrize("words", ["Ø40 x Ø31 0/-0.1", "Ø41 x Ø30", "Ø41 +0.1/0 x Ø30 0/-0.1", "Ø40 x Ø30 x 3 DEEP"])
def test_two_diameters_of_which_one_is_not_drawn_are_a_stop(words):
    part, findings = led_to_wall(words)
    assert (dict(part.grooves[0].tolerances), [f.level for f in findings]) == ({}, ["stop"])


@pytest.mark.parametrize(
    ("words", "codes"),
    [("Ø34 0/-0.1 x Ø40 h7", []), ("Ø40 h7 / Ø34 0/-0.1", []), ("Ø34 0/-0.1 x Ø41 h7", ["note-contradicts"])],
)
def test_of_a_groove_outside_they_are_the_floor_and_the_land(words, codes):
    """The land is turned by another tool: its tolerance is none of the groove's."""
    part, findings = led_to_wall(words, bar((-10, -13, 34)), tip=(-11.5, 17.0))
    kept = {} if codes else {"floor_diameter": (-0.1, 0.0)}
    assert (dict(part.grooves[0].tolerances), [f.code for f in findings]) == (kept, codes)


@pytest.mark.parametrize(("across", "told"), [(11, False), (12, True)])
def test_two_diameters_of_a_hole_are_no_walls(across, told):
    """A third of the floor's diameter is where a hole ends: 34 / 3 is 11.33."""
    _, findings = led_to_wall(f"Ø{across} x Ø{across + 4}", bar((-10, -13, 34)), tip=(-11.5, 17.0))
    assert ("note-contradicts" in [f.code for f in findings]) == told


@pytest.mark.parametrize(("lower", "walls"), [(32.6, False), (32.4, True)])
def test_two_diameters_as_near_as_limits_are_those_of_one_size(lower, walls):
    """Grade 16 of 34 by its formula is 1.49 wide (ISO 286-1): beyond that they are two, and 32.4 is not drawn."""
    _, findings = led_to_wall(f"Ø34/Ø{lower}", bar((-10, -13, 34)), tip=(-11.5, 17.0))
    assert ("note-contradicts" in [f.code for f in findings]) is walls


@pytest.mark.parametrize(
    ("words", "floor"),
    [
        ("Ø20 / Ø19 h11", (-0.13, 0.0)),
        ("Ø20/Ø19", None),
        ("Ø20 h9 / Ø19 -0.13", (-0.13, 0.0)),
        ("Ø19.1/Ø18.9", (-0.1, 0.1)),
    ],
)
def test_land_and_floor_of_a_ring_groove_are_as_near_as_limits(words, floor):
    """A ring for a shaft of 20 has its groove down to 19 h11 (DIN 471, from memory; h11 of 19 is 0.13, ISO 286-2)."""
    part, findings = led_to_wall(words, bar((-10, -11.3, 19), diameter=20), tip=(-11.0, 9.6))
    assert part.grooves[0].tolerances.get("floor_diameter") == (floor and pytest.approx(floor))
    assert "note-contradicts" not in [f.code for f in findings]
