"""Radius notes at groove corners: limits, radii that are drawn, and radii that aren't."""

from dataclasses import replace

import pytest
from support.ties import along, bar, frame, tied

from extractor.sheet import Dimension, DimensionKind


def leader(text, tip=(-13, 17)):
    """A leader whose arrow touches a place."""
    at = frame()
    return Dimension(DimensionKind.LEADER, (at.on_sheet(*tip), at.on_sheet(-5, 30)), 0, 0, text)


def corner(part):
    """Corner tolerances of every groove."""
    return [g.tolerances.get("corner_radius") for g in part.grooves]


@pytest.mark.parametrize("text", ["R0.2 MAX", "R 0,2 max.", "R.2 MAX"])
@pytest.mark.parametrize("tip", [(-13, 17), (-10, 17), (-13, -17)])
def test_a_limit_on_a_sharp_corner(text, tip):
    part, findings = tied(bar(), leader(text, tip))
    assert corner(part) == [(0, 0.2), (0, 0.2), None]
    assert [f.code for f in findings] == ["like-grooves"]


@pytest.mark.parametrize("text", ["R0.2 MAX", "MAX R0.2", "Max. R 0,2"])
@pytest.mark.parametrize("tip", [(-11.5, 17), (-11, -17), (-13, 17)])
def test_a_limit_led_to_a_floor_is_that_of_its_corners(text, tip):
    part, findings = tied(bar(), leader(text, tip))
    assert corner(part) == [(0, 0.2), (0, 0.2), None]
    assert [f.code for f in findings] == ["like-grooves"]
    assert corner(tied(bar(), leader(text, (-11.5, 17.2)))[0]) == [None, None, None]


def test_only_a_radius_that_has_room_at_the_walls_is_that_of_corners():
    """The groove is 8 wide and 2.5 deep."""
    wide = bar((-10, -18, 35))
    assert corner(tied(wide, leader("R2.5 MAX", (-14, 17.5)))[0]) == [(0, 2.5)]
    assert corner(tied(wide, leader("R2.6 MAX", (-14, 17.5)))[0]) == [None]
    other = bar((-10, -13, 34, {"shape": "other"}))
    assert corner(tied(other, leader("R0.2 MAX", (-11.5, 17)))[0]) == [None]


def test_another_radius_led_to_a_floor_contradicts_its_corners():
    (told,) = tied(bar((-10, -13, 34, {"corner_radius": 0.4})), leader("R0.2 MAX", (-11.5, 17)))[1]
    assert (told.code, str(told.level)) == ("dimension-contradicts", "stop")


def test_a_limit_on_a_drawn_corner():
    part, findings = tied(bar((-10, -13, 34, {"corner_radius": 0.15})), leader("R0.2 MAX", (-12.95, 17.05)))
    assert corner(part) == [pytest.approx((-0.15, 0.05))]
    assert findings == ()


def test_a_drawn_corner_with_its_radius_and_deviations():
    part, findings = tied(bar((-10, -13, 34, {"corner_radius": 0.4})), leader("R0.4 ±0.1", (-12.9, 17.1)))
    assert corner(part) == [(-0.1, 0.1)]
    assert findings == ()


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("R0.4 +0.1/-0.2", (-0.2, 0.1)),
        ("R0.4 ±0.4", (-0.4, 0.4)),
        ("R0.4 -0.1", (-0.1, 0)),
        ("R0.4/0.3", (-0.1, 0)),
        ("R0.6^0.4", (0, 0.2)),
        ("R0.4 / 0.1", (-0.3, 0)),
        ("R0.4/0.09", None),
        ("R0.4", None),
        ("(R0.4 ±0.1)", None),
    ],
)
def test_deviations_with_either_sign_are_kept(text, found):
    part, _ = tied(bar((-10, -13, 34, {"corner_radius": 0.4})), leader(text, (-12.9, 17.1)))
    assert corner(part) == [found]


def test_a_corner_printed_in_inches_on_a_part_in_mm():
    part, findings = tied(bar((-10, -13, 34, {"corner_radius": 0.508})), leader("R.020 ±.005", (-12.9, 17.1)))
    assert corner(part) == [pytest.approx((-0.127, 0.127))]
    assert findings == ()


@pytest.mark.parametrize(("drawn", "text", "found"), [(0.8, "R0.8", (-0.2, 0.2)), (4.0, "R4", (-0.5, 0.5))])
def test_a_printed_radius_without_deviations_has_the_class_of_radii(drawn, text, found):
    """ISO 2768-1 table 2, class m: 0.2 up to 3 mm, 0.5 over 3 up to 6 mm."""
    part, _ = tied(bar((-10, -20, 30, {"corner_radius": drawn})), leader(text, (-10, 15)), notes=["ISO 2768-m"])
    assert corner(part) == [found]
    assert "corner_radius" in part.grooves[0].general
    part, _ = tied(bar((-10, -20, 30, {"corner_radius": drawn})), notes=["ISO 2768-m"])
    assert corner(part) == [None]


def test_a_tolerance_of_a_corner_that_is_not_read_is_a_caution():
    _, findings = tied(bar((-10, -13, 34, {"corner_radius": 0.4})), leader("R0.4 MIN", (-12.9, 17.1)))
    assert [(f.level, f.code) for f in findings] == [("caution", "tolerance-unread")]


@pytest.mark.parametrize("text", ["R0.4 MAX", "R0.5 MAX"])
def test_a_radius_dimension_with_a_greatest_size(text):
    at = frame()
    points = (at.on_sheet(-12.6, 17.4), at.on_sheet(-12.6, 17.0))
    dimension = Dimension(DimensionKind.RADIUS, points, 270, 0.4, text)
    part, findings = tied(bar((-10, -13, 34, {"corner_radius": 0.4})), dimension)
    assert corner(part) == [pytest.approx((-0.4, float(text[1:4]) - 0.4))]
    assert findings == ()


@pytest.mark.parametrize("tip", [(-4, 15), (-4, 20), (-4, -15)])
def test_the_corners_of_a_face_groove(tip):
    face = {"where": "face", "mouth_diameter": 40.0}
    part, _ = tied(bar((0, -4, 30, face), diameter=60), leader("R0.2 MAX", tip))
    assert corner(part) == [(0, 0.2)]
    part, _ = tied(bar((0, -4, 30, face), diameter=60), leader("R0.2 MAX", (0, 15)))
    assert corner(part) == [None]


def test_a_radius_that_is_not_drawn_is_a_caution():
    part, (finding,) = tied(bar(), leader("R0.4"))
    assert corner(part) == [None, None, None]
    assert (finding.level, finding.code, finding.groove) == ("caution", "corner-not-drawn", 1)


@pytest.mark.parametrize("text", ["R0.2", "R0.2 MAX", "R1"])
def test_a_drawn_corner_that_contradicts_is_a_stop(text):
    _, (finding,) = tied(bar((-10, -13, 34, {"corner_radius": 0.4})), leader(text, (-12.9, 17.1)))
    assert (finding.level, finding.code) == ("stop", "dimension-contradicts")
    assert "0.4" in finding.message


@pytest.mark.parametrize("tip", [(-11.5, 17.5), (-30, 20), (0, 0)])
def test_a_leader_to_another_place_says_nothing_of_corners(tip):
    assert corner(tied(bar(), leader("R0.2 MAX", tip))[0]) == [None, None, None]


NOTES = [
    "ALL GROOVES R0.2 MAX",
    "GROOVES: R0,2 max",
    "ALL GROOVE CORNERS R0.2 MAX",
    "2. GROOVE CORNERS R0.2 MAX",
    "INTERNAL RADII 0.2 MAX",
    "Radien R0,2 max",
    "FILLETS R.2 MAX.",
]


@pytest.mark.parametrize("note", NOTES)
def test_a_note_limits_the_corners_of_all_grooves(note):
    part, findings = tied(bar(), notes=[note])
    assert (corner(part), findings) == ([(0, 0.2)] * 3, ())


@pytest.mark.parametrize(
    "note",
    ["MAX SPEED 300", "R0.2", "GROOVE 2: R0.2 MAX", "GROOVES 0.2 MAX", "RADIUS GAUGE 3, DIAMETER 40", "SPEED 2 MAX"],
)
def test_other_notes_say_nothing_of_corners(note):
    assert corner(tied(bar(), notes=[note])[0]) == [None] * 3


@pytest.mark.parametrize(("radius", "told"), [(0.2, []), (0.21, ["dimension-unclear"])])
def test_a_corner_drawn_larger_than_a_note_allows_is_told(radius, told):
    part, findings = tied(bar((-10, -13, 34, {"corner_radius": radius})), notes=["ALL RADII 0.2 MAX"])
    assert ([f.code for f in findings], corner(part)) == (told, [None] if told else [(-0.2, 0)])
    assert all("limits corners to R0.2 where the drawing shows 0.21 (groove 1" in f.message for f in findings)
    drawn = leader(f"R{radius:g}", (-12.95, 17.05))
    own = bar((-10, -13, 34, {"corner_radius": radius}))
    assert tied(own, drawn, notes=["ALL RADII 0.2 MAX"])[1] == ()


def test_a_leader_beats_the_note():
    part, _ = tied(bar(), leader("R0.1 MAX"), notes=["ALL GROOVE CORNERS R0.2 MAX"])
    assert corner(part) == [(0, 0.1), (0, 0.2), (0, 0.2)]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("ALL INTERNAL CORNERS R0.4", "a radius of 0.4"),
        ("INNENECKEN R0,4", "a radius of 0.4"),
        ("O-RING GROOVE 3 x 3, R0.3, Ra 1.6", "a radius of 0.3"),
        ("GROOVE EDGES CHAMFERED 0.3 x 45°", "a chamfer of 0.3"),
        ("ALL INTERNAL CORNERS R0.4 MAX", ""),
        ("INTERNAL CORNERS MAX R0.4", ""),
        ("INTERNAL CORNERS SHARP", ""),
        ("INTERNAL CORNERS R0", ""),
        ("BREAK EDGES 0.3", ""),
        ("GROOVE 3 x 3, Ra 1.6", ""),
        ("UNSPECIFIED RADII R0.4", "a radius of 0.4"),
        ("1. UNDIMENSIONED RADII = 0.4 mm", "a radius of 0.4"),
        ("Nicht bemaßte Radien R0,4", "a radius of 0.4"),
        ("Unbemaßte Radien R0,4", "a radius of 0.4"),
        ("CONGÉS NON COTÉS R0,4", "a radius of 0.4"),
        ("RAGGI NON QUOTATI R0,4", "a radius of 0.4"),
        ("ALL FILLETS AND ROUNDS R0.4", "a radius of 0.4"),
        ("ALL RADII R0.4 UNLESS OTHERWISE STATED", "a radius of 0.4"),
        ("Einstichecken R0,4", "a radius of 0.4"),
        ("Alle Kanten 0,3x45°", "a chamfer of 0.3"),
        ("ALL OTHER EDGES 0.3 x 45°", "a chamfer of 0.3"),
        ("UNSPECIFIED RADII R0.4 MAX", ""),
        ("UNSPECIFIED RADII MAX R0.4", ""),
        ("ALL EXTERNAL RADII R0.4", ""),
        ("ALL RADII ON CASTING R3", ""),
        ("ALL RADII TO BE TANGENT", ""),
        ("ALL RADII 0.1-0.3", ""),
        ("ALL CORNERS 90°", ""),
        ("ALL CORNERS SHARP", ""),
        ("ALL FILLETS TO ISO 2768", ""),
        ("EDGES R0.2", ""),
        ("BREAK ALL EDGES 0.3 x 45°", ""),
        ("Kanten gebrochen 0,3x45°", ""),
        ("ALLE KANTEN GRATFREI", ""),
        ("FILLETS R0.4 UNLESS STATED", "a radius of 0.4"),
        ("RADII NOT SHOWN R0.4", "a radius of 0.4"),
        ("R0.4 INSIDE CORNERS", "a radius of 0.4"),
        ("RADIEN 0,4 WENN NICHT ANDERS ANGEGEBEN", "a radius of 0.4"),
        ("RADII NOT SHOWN R0.4 MAX", ""),
        ("CASTING FILLETS R3", ""),
    ],
)
def test_a_note_on_corners_or_edges_that_are_drawn_sharp_is_told(words, told):
    sized = (leader(words, (-11.5, 18)), along(-10, -13, f"3 {words}"))
    for findings in (tied(bar(), notes=[words])[1], *(tied(bar(), one)[1] for one in sized)):
        messages = [f.message for f in findings if f.code == "corner-not-drawn"]
        assert len(messages) == bool(told)
        assert all(told in message for message in messages)
    drawn = bar((-10, -13, 34, {"corner_radius": 0.4, "edge_chamfer": 0.3}))
    assert [f for f in tied(drawn, notes=[words])[1] if f.code == "corner-not-drawn"] == []


@pytest.mark.parametrize(("limited", "told"), [((-13, -23), True), ((-13, -23, -46), False)])
def test_a_note_on_radii_without_a_size_is_not_of_corners_that_have_their_own(limited, told):
    sizes = [leader("R0.2 MAX", (z, 15 if z == -46 else 17)) for z in limited]
    for words, asked in (("UNSPECIFIED RADII R0.5", told), ("INTERNAL CORNERS R0.5", True)):
        findings = tied(bar(), *sizes, notes=[words])[1]
        assert ("corner-not-drawn" in [f.code for f in findings]) is asked


@pytest.mark.parametrize(
    ("radius", "told"), [("R17", 0), ("R17.016", 0), ("R17.018", 1), ("R16.984", 0), ("R16.982", 1)]
)
def test_half_the_diameter_of_a_floor_is_no_corner_s_radius(radius, told):
    """The floor is 34 across; a thousandth of that is 0.034."""
    found = tied(bar(), leader(radius, (-11.5, 17)))[1]
    assert [f.code for f in found].count("corner-not-drawn") == told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("ALL GROOVE RADII R0.8", ["note-contradicts"]),
        ("ALL GROOVE RADII R0.4", []),
        ("GROOVE CORNERS R0.5", ["note-contradicts"]),
        ("Einstichecken R0,5", ["note-contradicts"]),
        ("UNSPECIFIED RADII R0.5", []),  # those drawn may have a size of their own
        ("GROOVE CORNERS R0.6", []),
        ("INTERNAL CORNERS R0.8", []),  # those of shoulders, too
        ("ALL GROOVE RADII R0.8 MAX", []),
        ("GROOVE EDGES 0.3 x 45°", []),
        ("GROOVE EDGES 0.5 x 45°", ["note-contradicts"]),
    ],
)
def test_a_note_on_the_corners_of_grooves_stops_where_none_is_drawn_so(words, told):
    two = bar((-10, -13, 34, {"corner_radius": 0.4, "edge_chamfer": 0.3}), (-20, -23, 34, {"corner_radius": 0.6}))
    assert [f.code for f in tied(two, notes=[words])[1]] == told
    assert [f.code for f in tied(two, leader(words, (-60, 20)))[1] if f.stops] == told


def test_the_radius_of_a_round_groove_is_no_corner_s():
    two = bar((-10, -13, 34, {"corner_radius": 0.4}), (-20, -26, 34, {"shape": "round"}))
    assert "note-contradicts" not in [f.code for f in tied(two, notes=["GROOVE RADIUS R3"])[1]]


def test_all_sizes_drawn_are_named():
    two = bar((-10, -13, 34, {"corner_radius": 0.6}), (-20, -23, 34, {"corner_radius": 0.4}))
    (stop,) = tied(two, notes=["ALL GROOVE RADII R0.8"])[1]
    assert "gives the corners of grooves a radius of 0.8 where the drawing shows 0.4 and 0.6: ask" in stop.message


def test_a_part_without_grooves_has_no_corners_of_grooves():
    assert tied(replace(bar(), grooves=()), notes=["ALL GROOVE RADII R0.8"])[1] == ()
