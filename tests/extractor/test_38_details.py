"""A detail drawn larger: what it prints and draws is held against the view at its ring, and its tolerances are heard.

Names of details and the ring with its letter: ISO 128-3, from memory. The detail is drawn here from the groove's own
numbers, five times as large.
"""

from dataclasses import replace

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Dimension, DimensionKind, Source, Text
from extractor.sizing.details.headings import titled

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
TIMES = 5.0
AT = (40.0, -140.0)
"""Where the middle of the ring comes to lie, enlarged."""
RING = (-11.5, 18.5)


def place(z, r):
    return AT[0] + TIMES * (z - RING[0]), AT[1] + TIMES * (r - RING[1])


def detail(near=-10.0, far=-13.0, floor=17.0, land=20.0):
    """The groove and a little of the lands beside it, enlarged."""
    corners = [(-15.0, land), (far, land), (far, floor), (near, floor), (near, land), (-8.0, land)]
    return Ink().chain([(*place(z, r), 0.0) for z, r in corners])


def width(text, size=3.0, deviations=None):
    ends = place(-13.0, 20.0), place(-10.0, 20.0)
    return Dimension(DimensionKind.LINEAR, ends, 0.0, TIMES * size, text, 1.0, deviations)


def floor(text):
    return Dimension(DimensionKind.LEADER, (place(-11.5, 17.0), (AT[0] + 30, AT[1] - 30)), 0.0, 0.0, text)


def read(
    drawn=None,
    dimensions=(),
    heading="DETAIL Z (5:1)",
    at=(30.0, -120.0),
    ring=4.0,
    letter=6.0,
    spot=RING,
    part=PART,
    **options,
):
    drawn = detail() if drawn is None else drawn
    texts = [Text(heading, at, 3.5), Text("Z", (spot[0] + letter, spot[1]), 3.5)]
    rings = () if ring is None else (Circle(spot, ring, Source("", "CIRCLE", "0")),)
    view = side_view(part) if part else Ink()
    sheet = sheet_of(mixed(view, drawn), dimensions=dimensions, texts=tuple(texts), circles=rings)
    return read_sheet(sheet, ReadOptions(units="mm", **options))


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


@pytest.mark.parametrize(
    "heading",
    [
        "DETAIL Z (5:1)",
        "Z (5 : 1)",
        "EINZELHEIT Z  M 5:1",
        "Detail Z Scale 5:1",
        "D\u00e9tail Z 5:1",
        "Z 5:1",
        "Detalj Z  Skala 5:1",
        "Szczeg\u00f3\u0142 Z  5:1",
        "Detail Z, m\u011b\u0159\u00edtko 5:1",
        "Detalje Z 5:1",
        'DETAIL "Z" (x5)',
        "DETAIL Z 5x",
        "DETAIL Z (2x)",
        "2x DETAIL Z",
    ],
)
def test_what_a_detail_prints_is_heard_at_the_view(heading):
    sizes = (width("3 +0.1/0", deviations=(0.0, 0.1)), floor("\u00d834 h11"))
    reading = read(dimensions=sizes, heading=heading)
    assert stops(reading) == []
    first, second = reading.part.grooves
    assert first.tolerances["width"] == pytest.approx((0.0, 0.1))
    # ISO 286-2: h11 of 30 to 50 is 0/-0.16.
    assert first.tolerances["floor_diameter"] == pytest.approx((-0.16, 0.0))
    assert "width" in first.printed
    assert "width" not in second.printed


@pytest.mark.parametrize(
    ("how", "told"),
    [
        ({}, False),
        ({"drawn": detail(near=-9.5)}, False),  # a stop says more
        ({"ring": None}, True),
        ({"heading": "DETAIL Y (5:1)"}, True),
        ({"heading": "DETAIL Z"}, False),
        ({"heading": "DETAIL Z", "ring": None}, True),
        ({"heading": "Szczegół Z 5:1", "ring": None}, True),
        ({"heading": "Detalle Z  Esc. 5:1"}, False),
        ({"heading": "Detalle Z  Esc. 5:1", "ring": None}, True),
        ({"heading": "SEE DETAIL Z"}, False),
        ({"heading": "VIEW Z (5:1)"}, False),
        ({"heading": "Z (5:1)"}, False),
        ({"heading": "Z (5:1)", "ring": None}, True),
        # One wall and one level fit anywhere, with or without the word.
        ({"heading": "Z (5:1)", "spot": (-10.0, 17.0), "ring": 1.0, "at": (50.0, -140.0)}, True),
        ({"heading": "DETAILS"}, False),
        ({"heading": "DET. Z 5:1"}, False),
        ({"heading": "DET. Z 5:1", "ring": None}, True),
        ({"heading": "Z部詳細 (5:1)"}, False),
        ({"heading": "Z部詳細 (5:1)", "ring": None}, True),
        ({"heading": "Z(5:1)", "ring": None}, True),
        ({"heading": "Z (1:1)", "ring": None}, False),
        ({"heading": "Y (5:1)", "ring": None}, False),
        # The letter of the ring is that of no heading, and this one's stands nowhere.
        ({"heading": "Y (5:1)"}, True),
    ],
)
def test_a_detail_that_was_not_held_against_the_view_is_told(how, told):
    reading = read(dimensions=[width("3 +0.1/0")], **how)
    words = [f.message for f in reading.findings if f.code == "dimension-unclear"]
    assert any("could not be matched with a place on the view" in one for one in words) is told


def lettered_in_lines(spots, cuts=PART.cuts, **more):
    """The detail, and rings whose letters are no texts."""
    texts = [Text(more.get("heading", "DETAIL Z (5:1)"), (30.0, -120.0), 3.5), *more.get("texts", ())]
    rings = tuple(Circle(spot, 4.0, Source("", "CIRCLE", "0")) for spot in spots)
    drawn = mixed(side_view(Turned(((60.0, 40.0),), cuts)), more.get("drawn") or detail())
    sizes = (width("3 +0.1/0", deviations=(0.0, 0.1)),)
    sheet = sheet_of(drawn, dimensions=sizes, texts=tuple(texts), circles=rings)
    return read_sheet(sheet, ReadOptions(units="mm"))


@pytest.mark.parametrize(
    ("how", "heard"),
    [
        ({"spots": [RING]}, True),
        ({"spots": [RING], "heading": "DETAIL Z"}, True),
        ({"spots": [RING, (-30.0, 18.5)]}, True),
        ({"spots": [RING, (-41.5, 18.5)]}, False),
        ({"spots": [(-30.0, 18.5)]}, False),
        ({"spots": [RING], "texts": [Text("Y", (-5.5, 18.5), 3.5)]}, False),
        ({"spots": [RING], "texts": [Text("YES", (-5.5, 18.5), 3.5)]}, True),
        ({"spots": [RING], "drawn": detail(near=-9.5)}, False),
    ],
)
def test_a_ring_whose_letter_is_no_text_is_found_by_what_the_detail_shows(how, heard):
    """Two rings round like grooves may both be meant; a ring named Y is not that of Z; one that differs is none."""
    reading = lettered_in_lines(**how)
    assert stops(reading) == []
    assert ("width" in reading.part.grooves[0].printed) is heard
    assert any("could not be matched with" in f.message for f in reading.findings) is not heard


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("broken", [False, True])
def test_a_broken_rim_that_only_the_detail_shows_is_told(broken, mirrored):
    """Half a millimetre off the rim beside the front, where the view has it sharp."""
    rim = [(-10.0, 19.5), (-9.5, 20.0)] if broken else [(-10.0, 20.0)]
    row = [(-15.0, 20.0), (-13.0, 20.0), (-13.0, 17.0), (-10.0, 17.0), *rim, (-8.0, 20.0)]
    side = -1 if mirrored else 1
    drawn = Ink().chain([(x, AT[1] + side * (y - AT[1]), 0.0) for x, y in (place(*p) for p in row)])
    told = [f for f in read(drawn).findings if f.code == "detail-differs"]
    assert [(f.level, f.at) for f in told] == [("caution", pytest.approx((-10.0, 20.0)))] * broken


@pytest.mark.parametrize("size", [width("3.5"), floor("\u00d833"), width("15")])
def test_what_it_prints_otherwise_is_a_contradiction(size):
    assert stops(read(dimensions=(size,))) == ["dimension-contradicts"]


def test_a_display_factor_of_the_detail_is_its_scale():
    size = Dimension(DimensionKind.LINEAR, width("").points, 0.0, 15.0, None, 0.2)
    assert stops(read(dimensions=(size,))) == []


OTHERWISE = [
    (detail(floor=16.5), "3 deep in the view and 3.5 deep in the detail"),
    (detail(land=20.5), "3 deep in the view and 3.5 deep in the detail"),
    (detail(near=-9.5), "3 wide in the view and 3.5 wide in the detail"),
    (detail(far=-13.5), "3 wide in the view and 3.5 wide in the detail"),
]


@pytest.mark.parametrize(("drawn", "sizes"), OTHERWISE)
def test_a_detail_drawn_otherwise_is_a_stop_that_can_be_answered(drawn, sizes):
    reading = read(drawn)
    assert stops(reading) == ["detail-differs"]
    assert "5 times as large as the view, is drawn otherwise than the view within" in reading.findings[0].message
    assert f"Y18.5, {sizes}: ask" in reading.findings[0].message
    # The place is the ring's, and only then that of the heading: the sheet looks nearer at the first.
    assert (reading.findings[0].at, reading.findings[0].spots) == (RING, ((30.0, -120.0),))
    assert stops(read(drawn, accept=frozenset({"detail-differs"}))) == []


CORNER = Ink().chain([(*place(z, r), 0.0) for z, r in [(-13.0, 17.0), (-10.0, 17.0), (-10.0, 20.0)]])
LIE = (width("3.5"),)
"""Heard only where the detail is."""


@pytest.mark.parametrize(
    ("how", "heard"),
    [
        ({}, True),
        ({"ring": None}, False),
        ({"heading": "DETAIL Y (5:1)"}, False),
        ({"heading": "DETAIL Z (1:1)"}, False),
        ({"heading": "DETAIL Z"}, True),
        # The letter stands within three of its heights, 10.5, of the ring's rim, which is 4 from the middle.
        ({"letter": 14.4}, True),
        ({"letter": 14.6}, False),
        # The walls stand 1.5 beside the ring's middle: 0.85 of 1.765. Where the lands, 2.121 off, are cut off by it,
        # the walls' ends tell how high they are.
        ({"ring": 2.48}, True),
        ({"ring": 1.78, "at": (40.0, -120.0)}, True),
        ({"ring": 1.75, "at": (40.0, -120.0)}, False),
        # A ring round the mouth of a deep groove, with the floor 3.0 off beyond it.
        ({"spot": (-11.5, 20.0), "ring": 2.5, "at": (40.0, -125.0)}, True),
        # All of it lies within four enlarged radii and six letter heights, 101, of the heading: 100.72 above ends 7.5
        # to the side.
        ({"at": (40.0, -140.0 - 7.5 + 100.7)}, True),
        ({"at": (40.0, -140.0 - 7.5 + 100.8)}, False),
        # One wall and one level fit anywhere.
        ({"spot": (-10.0, 17.0), "ring": 1.8, "drawn": CORNER, "at": (50.0, -140.0)}, False),
    ],
)
def test_what_ties_a_detail_to_its_ring(how, heard):
    """What it prints is heard at the view only then; a lie in one that is not tied is told another way."""
    assert ("width" in read(dimensions=[width("3 +0.1/0")], **how).part.grooves[0].tolerances) is heard


def test_extension_lines_and_break_lines_as_far_apart_leave_the_detail_heard():
    more = Ink(solid=[(*place(z, 15.0), *place(z, 26.0), 0.0) for z in (-16.0, -7.0, -13.0, -10.0)])
    assert stops(read(mixed(detail(), more), dimensions=LIE)) == ["dimension-contradicts"]
    assert stops(read(mixed(detail(), more))) == []


def test_a_detail_that_shows_rounded_corners_is_the_same_place():
    corners = [(-15.0, 20.0), (-13.2, 20.0), (-13.0, 19.8), (-13.0, 17.3), (-12.7, 17.0)]
    corners += [(-23.0 - z, r) for z, r in reversed(corners)]
    ink = Ink().chain([(*place(z, r), 0.0) for z, r in corners])
    assert stops(read(ink)) == []
    assert stops(read(ink, dimensions=LIE)) == ["dimension-contradicts"]


@pytest.mark.parametrize(("length", "wall"), [(0.168, False), (0.172, True)])
def test_how_long_a_wall_is_at_least(length, wall):
    """A twentieth of 0.85 of the ring's 4: what is shorter is a corner or an arrow head."""
    corners = [(-15.0, 20.0), (-13.0, 20.0)], [(-13.0, 18.0), (-13.0, 18.0 - length)]
    rest = [(-13.0, 17.0), (-10.0, 17.0), (-10.0, 20.0), (-8.0, 20.0)]
    ink = mixed(*(Ink().chain([(*place(z, r), 0.0) for z, r in row]) for row in (*corners, rest)))
    assert stops(read(ink)) == ([] if wall else ["detail-differs"])


@pytest.mark.parametrize(("lean", "wall"), [(0.0099, True), (0.0102, False)])
def test_how_far_a_wall_of_a_detail_may_lean(lean, wall):
    """Its 3 by as much as places may be off, 0.03 of this part; else the detail is drawn otherwise than the view."""
    corners = [(-15.0, 20.0), (-13.0 - 3 * lean, 20.0), (-13.0, 17.0), (-10.0, 17.0), (-10.0, 20.0), (-8.0, 20.0)]
    assert stops(read(Ink().chain([(*place(z, r), 0.0) for z, r in corners]))) == ([] if wall else ["detail-differs"])


@pytest.mark.parametrize("heading", ["DETAIL Z (4:1)", "DETAIL Z (50:1)", "DETAIL Z (3.3:1)"])
def test_a_false_scale_is_told_with_the_one_that_fits(heading):
    reading = read(heading=heading, dimensions=LIE)
    assert stops(reading) == ["detail-differs"]
    assert "as the view, is drawn 5 times as large as the view within its ring" in reading.findings[0].message


@pytest.mark.parametrize("drawn", [2.0, 3.0, 5.0, 6.0, 10.0])
def test_a_scale_that_is_none_is_not_named_alone(drawn):
    """Closed below by a line that lies where the floor of a smaller one would: more than one scale may fit."""
    corners = [(-15, 20), (-13, 20), (-13, 17), (-10, 17), (-10, 20), (-8, 20), (-8, 15), (-15, 15)]
    middle_z, middle_r = -11.5, 17.0
    lines = [(AT[0] + drawn * (z - middle_z), AT[1] + drawn * (r - middle_r), 0.0) for z, r in corners]
    reading = read(Ink().chain(lines, close=True), heading="DETAIL Z (20:1)", spot=(middle_z, middle_r), ring=2.6)
    (told,) = (f.message for f in reading.findings if f.code == "detail-differs")
    named = told.split(" is drawn ")[1].split(" times")[0].split(" or ")
    assert f"{drawn:g}" in named


SEVEN = detail().map(lambda x, y: (AT[0] + 1.4 * (x - AT[0]), AT[1] + 1.4 * (y - AT[1])))


@pytest.mark.parametrize(
    ("how", "heard"),
    [
        ({}, True),
        ({"drawn": SEVEN}, False),
        ({"drawn": detail(floor=16.5)}, False),
        ({"drawn": mixed(detail(), detail().map(lambda x, y: (2 * x - 120.0, 2 * y + 80.0)))}, False),
    ],
)
def test_where_no_scale_is_printed_the_one_usual_scale_that_fits_is_taken(how, heard):
    """At 7:1, otherwise than the view, or at 5:1 and at 10:1 together it is left open and told."""
    reading = read(heading="DETAIL Z", dimensions=LIE, **how)
    assert stops(reading) == (["dimension-contradicts"] if heard else [])
    assert any("could not be matched with" in f.message for f in reading.findings) is not heard


BOTH = (detail(near=-9.5, floor=16.5), detail(near=-9.6, far=-13.4, land=20.5))


@pytest.mark.parametrize("drawn", BOTH)
def test_a_detail_that_is_neither_as_wide_nor_as_deep_is_a_stop(drawn):
    assert stops(read(drawn)) == ["detail-differs"]


def test_the_edge_of_a_detail_as_far_off_its_wall_as_the_view_s_walls_are_apart_is_no_wall():
    """Drawn 3.5 wide; the edge at which it is broken off stands 3 beside its wall and reaches below its floor."""
    edge = Ink(solid=[(*place(-16.5, 20.0), *place(-16.5, 14.0), 0.0), (*place(-16.5, 20.0), *place(-13.5, 20.0), 0.0)])
    assert stops(read(mixed(detail(far=-13.5), edge))) == ["detail-differs"]


def edges(near=-10.0, far=-13.0, rim=14.0, ends=(17.0, 17.0)):
    """The groove seen from outside: its edges go on behind the floor to the rim of the detail, or end at `ends`."""
    rows = [((-15.0, 20.0), (far, 20.0)), ((near, 20.0), (-8.0, 20.0)), ((far, 17.0), (near, 17.0))]
    rows += [((far, 20.0), (far, min(rim, ends[0]))), ((near, 20.0), (near, min(rim, ends[1])))]
    return Ink(solid=[(*place(*one), *place(*two), 0.0) for one, two in rows])


def turned_over(ink):
    """Ink of a detail of the lower half: as far below the ring's middle as it was above."""
    return Ink(solid=[(x, 2 * AT[1] - y, u, 2 * AT[1] - v, 0.0) for x, y, u, v, _ in ink.solid])


@pytest.mark.parametrize(("drawn", "told"), [(edges(), []), (edges(far=-13.5), ["detail-differs"])])
def test_edges_that_go_on_behind_the_floor_are_the_walls_of_a_detail_seen_from_outside(drawn, told):
    """True sheets of a general CAD program have them so: each edge of the groove runs right across."""
    assert stops(read(drawn)) == told
    assert stops(read(turned_over(drawn), spot=(RING[0], -RING[1]))) == told


@pytest.mark.parametrize(("far", "told"), [(-13.0, []), (-13.5, ["detail-differs"])])
def test_below_the_axis_they_go_on_upward(far, told):
    drawn = edges(far=far).map(lambda x, y: (x, 2 * AT[1] - y))
    assert stops(read(drawn, spot=(RING[0], -RING[1]))) == told


def test_what_is_sized_at_such_a_detail_is_held():
    assert stops(read(edges(), dimensions=(width("3"),))) == []
    assert stops(read(edges(), dimensions=(width("3.2"),))) == ["dimension-contradicts"]


def test_a_dimension_line_as_far_above_a_land_as_the_floor_is_below_it_leaves_the_detail_heard():
    above = Ink(solid=[(*place(z, 20.2), *place(z, 23.4), 0.0) for z in (-13.0, -10.0)])
    above.solid.append((*place(-13.0, 23.0), *place(-10.0, 23.0), 0.0))
    assert stops(read(mixed(detail(), above), dimensions=LIE)) == ["dimension-contradicts"]


def test_chords_of_the_view_s_round_corners_are_no_walls():
    rounded = replace(PART, cuts=(Cut(-10.0, 3.0, 34.0, corner=0.4), *PART.cuts[1:]))
    assert stops(read(part=rounded)) == []
    assert stops(read(part=rounded, dimensions=LIE)) == ["dimension-contradicts"]
    assert stops(read(detail(near=-9.5), part=rounded)) == ["detail-differs"]


@pytest.mark.parametrize(("levels", "stopped"), [((15.0, 19.0), []), ((15.0, 19.0, 19.5), ["detail-differs"])])
def test_fewer_strokes_than_the_ring_holds_are_no_detail(levels, stopped):
    """Two walls, a floor and two lands lie in the ring; what is drawn has none of them where they should be."""
    other = Ink(solid=[(*place(z, 16.0), *place(z, 19.0), 0.0) for z in (-14.0, -9.5)])
    other.solid += [(*place(-14.0, r), *place(-9.5, r), 0.0) for r in levels]
    assert stops(read(other)) == stopped


@pytest.mark.parametrize(("floor_at", "told"), [(17.0, ["dimension-unclear"]), (16.5, ["detail-differs"])])
@pytest.mark.parametrize("way", [1, -1])
def test_a_detail_that_is_turned_by_a_quarter_is_told_of_and_one_that_fits_no_way_stops(way, floor_at, told):
    """As it may stand beside a part that is drawn upright."""
    (x, y), far = AT, detail(floor=floor_at)
    drawn = far.map(lambda px, py: (x - way * (py - y), y + way * (px - x)))
    codes = [f.code for f in read(drawn).findings]
    assert [c for c in codes if c in ("dimension-unclear", "detail-differs")] == told


@pytest.mark.parametrize("way", [1, -1])
def test_one_of_unequal_walls_may_be_turned_either_way(way):
    half = [(0.0, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-13.0, 17.0), (-13.0, 18.0), (-60.0, 18.0)]
    view = Ink().chain([(z, r, 0.0) for z, r in [*half, *((z, -r) for z, r in reversed(half)), half[0]]])
    (x, y), walls = AT, Ink().chain([(*place(z, r), 0.0) for z, r in [(-15.0, 18.0), *half[4:0:-1], (-8.0, 20.0)]])
    drawn = walls.map(lambda px, py: (x - way * (py - y), y + way * (px - x)))
    codes = [f.code for f in read(mixed(view, drawn), part=None).findings]
    assert [c for c in codes if c in ("dimension-unclear", "detail-differs")] == ["dimension-unclear"]


def texts_of(lines):
    """Texts: words, place beside (30, -120), height, angle."""
    return tuple(Text(w, (30.0 + x, -120.0 + y), h, angle=a) for w, x, y, h, a in lines)


def headed(*lines, drawn=None, size="3 +0.1/0"):
    """The detail with its heading in texts of their own."""
    texts = (*texts_of(lines), Text("Z", (RING[0] + 6.0, RING[1]), 3.5))
    rings = (Circle(RING, 4.0, Source("", "CIRCLE", "0")),)
    ink = mixed(side_view(PART), detail() if drawn is None else drawn)
    sizes = (width(size, deviations=(0.0, 0.1) if "+" in size else None),)
    return read_sheet(sheet_of(ink, dimensions=sizes, texts=texts, circles=rings), ReadOptions(units="mm"))


HEAD = ("DETAIL Z", 0.0, 0.0, 3.5, 0.0)
TWO_TEXTS = {
    "under it": ((HEAD, ("SCALE 5:1", 0.0, -6.0, 2.5, 0.0)), True),
    "in brackets": ((HEAD, ("(5:1)", 4.0, -6.0, 3.5, 0.0)), True),
    "by one letter": ((("Z", 0.0, 0.0, 5.0, 0.0), ("(5:1)", -4.0, -7.0, 3.5, 0.0)), True),
    "in another language": ((("EINZELHEIT Z", 0.0, 0.0, 3.5, 0.0), ("M 5:1", 0.0, -6.0, 3.5, 0.0)), True),
    "just near enough": ((HEAD, ("SCALE 5:1", 0.0, -10.4, 2.5, 0.0)), True),
    "the larger text counts": ((("DETAIL Z", 0.0, 0.0, 2.5, 0.0), ("SCALE 5:1", 0.0, -10.4, 3.5, 0.0)), True),
    "too far under it": ((HEAD, ("SCALE 5:1", 0.0, -10.6, 2.5, 0.0)), False),
    "over it": ((HEAD, ("SCALE 5:1", 0.0, 6.0, 2.5, 0.0)), True),
    "over one letter": ((("Z", 0.0, 0.0, 5.0, 0.0), ("(5:1)", -4.0, 7.0, 3.5, 0.0)), True),
    "just near enough over it": ((HEAD, ("SCALE 5:1", 0.0, 10.4, 2.5, 0.0)), True),
    "too far over it": ((HEAD, ("SCALE 5:1", 0.0, 10.6, 2.5, 0.0)), False),
    "in line with it": ((HEAD, ("SCALE 5:1", 10.0, 0.0, 2.5, 0.0)), False),
    "nearer than another": ((HEAD, ("SCALE 2:1", 0.0, -9.0, 2.5, 0.0), ("SCALE 5:1", 0.0, 6.0, 2.5, 0.0)), True),
    "on its right": ((HEAD, ("SCALE 5:1", 19.5, -6.0, 2.5, 0.0)), True),
    "beside it": ((HEAD, ("SCALE 5:1", 19.7, -6.0, 2.5, 0.0)), False),
    "on its left": ((HEAD, ("SCALE 5:1", -15.7, -6.0, 2.5, 0.0)), True),
    "before it": ((HEAD, ("SCALE 5:1", -15.8, -6.0, 2.5, 0.0)), False),
    "across it": ((HEAD, ("SCALE 5:1", 0.0, -6.0, 2.5, 90.0)), False),
    "no scale": ((HEAD, ("RATIO OF GEARS 5:1", 0.0, -6.0, 2.5, 0.0)), False),
    "upright": ((("DETAIL Z", 0.0, 0.0, 3.5, 90.0), ("SCALE 5:1", 6.0, 0.0, 2.5, 90.0)), True),
    "behind it in its line": ((HEAD, ("SCALE 5:1", 11.8, 0.0, 2.5, 0.0)), True),
    "within it": ((HEAD, ("SCALE 5:1", 11.7, 0.0, 2.5, 0.0)), False),
    "just near enough behind it": ((HEAD, ("SCALE 5:1", 30.0, 1.0, 2.5, 0.0)), True),
    "too far behind it": ((HEAD, ("SCALE 5:1", 30.2, 0.0, 2.5, 0.0)), False),
    "behind one letter": ((("Z", 0.0, 0.0, 5.0, 0.0), ("(5:1)", 8.0, 0.0, 3.5, 0.0)), True),
    "a view": ((("VIEW Z", 0.0, 0.0, 3.5, 0.0), ("SCALE 5:1", 0.0, -6.0, 2.5, 0.0)), True),
    "a letter in brackets": ((("(Z)", 0.0, 0.0, 3.5, 0.0), ("5/1", 0.0, -6.0, 2.5, 0.0)), True),
    "an ideograph for larger": ((("Z", 0.0, 0.0, 3.5, 0.0), ("\u653e\u5927 5:1", 0.0, -6.0, 2.5, 0.0)), True),
    "a letter of another alphabet": ((("\u0416", 0.0, 0.0, 3.5, 0.0), ("5:1", 0.0, -6.0, 2.5, 0.0)), True),
    "a count under a letter": ((("Z", 0.0, 0.0, 3.5, 0.0), ("5x", 0.0, -6.0, 2.5, 0.0)), False),
    "a count beside the letter": ((("DETAIL Z (2x)", 0.0, 0.0, 3.5, 0.0), ("5:1", 0.0, -6.0, 2.5, 0.0)), True),
    "two words": ((("PART NO Z", 0.0, 0.0, 3.5, 0.0), ("SCALE 5:1", 0.0, -6.0, 2.5, 0.0)), False),
    "upright, on the other side": ((("DETAIL Z", 0.0, 0.0, 3.5, 90.0), ("SCALE 5:1", -6.0, 0.0, 2.5, 90.0)), True),
}


@pytest.mark.parametrize(("lines", "joined"), TWO_TEXTS.values(), ids=TWO_TEXTS)
def test_a_heading_may_be_two_texts_one_under_or_over_the_other(lines, joined):
    """Three heights of 3.5 are 10.5. Eight letters of 3.5 are 19.6 wide, nine of 2.5 are 15.75."""
    texts = texts_of(lines)
    head = " ".join(lines[0][0].replace("(2x)", "( )").split())
    assert (" ".join(titled(texts)[0].text.split()) == f"{head} {lines[-1][0]}") is joined
    assert joined or titled(texts) == texts


def of_a_view(off, ring=True, height=3.5):
    """The stops for a detail headed as a view, its letter so far from the middle of its ring, without any size."""
    texts = (*texts_of(TWO_TEXTS["a view"][0]), Text("Z", (RING[0] + off, RING[1]), height))
    rings = (Circle(RING, 4.0, Source("", "CIRCLE", "0")),) if ring else ()
    sheet = sheet_of(mixed(side_view(PART), detail()), texts=texts, circles=rings)
    return stops(read_sheet(sheet, ReadOptions(units="mm")))


def test_the_scale_of_a_view_whose_letter_stands_at_no_ring_is_that_of_the_sheet():
    """Four letter heights of 2 from a ring of 4 are 12 from its middle."""
    told = of_a_view(6.0), of_a_view(6.0, ring=False), of_a_view(11.9, height=2.0), of_a_view(12.1, height=2.0)
    assert ["sheet-scale" in one for one in told] == [False, True, False, True]


@pytest.mark.parametrize(
    "way",
    ["under it", "by one letter", "behind it in its line", "behind one letter", "a view", "a count beside the letter"],
)
def test_a_detail_with_such_a_heading_is_heard(way):
    reading = headed(*TWO_TEXTS[way][0])
    assert stops(reading) == []
    assert reading.part.grooves[0].tolerances["width"] == pytest.approx((0.0, 0.1))
    assert not any("could not be matched with" in f.message for f in reading.findings)


def test_what_such_a_detail_shows_otherwise_stops():
    scale = ("SCALE 5:1", 0.0, -6.0, 2.5, 0.0)
    assert stops(headed(HEAD, scale, size="4")) == ["dimension-contradicts"]
    assert stops(headed(HEAD, scale, drawn=detail(near=-9.0), size="4")) == ["detail-differs"]
    assert stops(headed(HEAD, scale, drawn=detail(floor=16.0))) == ["detail-differs"]
    assert stops(headed(HEAD, ("SCALE 4:1", 0.0, -6.0, 2.5, 0.0))) == ["detail-differs"]


def led_to_its_ring(letter, *strokes, words="Z", height=3.5, leaders=()):
    """The detail, its letter away from the ring, and a leader's strokes."""
    texts = [Text("DETAIL Z (5:1)", (30.0, -120.0), 3.5)]
    texts += [Text(words, (RING[0] + letter[0], RING[1] + letter[1]), height)] if height else []
    lines = Ink(solid=[(RING[0] + a, RING[1] + b, RING[0] + c, RING[1] + d, 0.0) for a, b, c, d in strokes])
    rings = (Circle(RING, 4.0, Source("", "CIRCLE", "0")),)
    ink = mixed(side_view(PART), detail(), lines)
    return read_sheet(
        sheet_of(ink, dimensions=(*LIE, *leaders), texts=tuple(texts), circles=rings), ReadOptions(units="mm")
    )


@pytest.mark.parametrize(
    ("strokes", "words", "heard"),
    [
        ([(2.828, 2.828, 13.0, 13.5)], "Z", True),
        ([(2.828, 2.828, 13.0, 12.5), (13.0, 12.5, 19.0, 12.5)], "Z", True),
        ([], "Z", False),
        ([(10.2, 10.2, 13.0, 13.5)], "Z", True),
        ([(10.3, 10.3, 13.0, 13.5)], "Z", False),
        ([(2.828, 2.828, 13.0, 13.5)], "Y", False),
        ([(2.828, 2.828, 13.0, 13.5)], "ZZ", False),
    ],
)
def test_the_letter_may_be_led_to_its_ring(strokes, words, heard):
    """A tip may be off the ring's 4 by as much as a letter, three of its heights: 14.5 from the middle."""
    reading = led_to_its_ring((14.0, 13.0), *strokes, words=words)
    # With no letter of another name at it, the ring is found by what the detail shows.
    other = words == "ZZ"
    assert (stops(reading) == ["dimension-contradicts"]) is (heard or other)


@pytest.mark.parametrize(("off", "heard"), [(0.19, True), (0.21, False)])
def test_a_leader_that_holds_its_letter_ends_at_the_ring(off, heard):
    """Within a twentieth of the ring's 4; another round a like groove leaves open which ring is meant."""
    tip, end = (RING[0], RING[1] + 4.0 + off), (RING[0] + 14.0, RING[1] + 13.0)
    leader = Dimension(DimensionKind.LEADER, (tip, end), 0.0, 0.0, "Z")
    texts = (Text("DETAIL Z (5:1)", (30.0, -120.0), 3.5),)
    rings = tuple(Circle(spot, 4.0, Source("", "CIRCLE", "0")) for spot in (RING, (-41.5, 18.5)))
    sheet = sheet_of(mixed(side_view(PART), detail()), dimensions=(*LIE, leader), texts=texts, circles=rings)
    assert (stops(read_sheet(sheet, ReadOptions(units="mm"))) == ["dimension-contradicts"]) is heard


@pytest.mark.parametrize("heading", ["DET. Z 5:1", "Z部詳細 (5:1)", "局部放大图 Z 5:1", "DET Z (5:1)"])
def test_other_words_for_a_detail(heading):
    reading = read(dimensions=(width("3 +0.1/0", deviations=(0.0, 0.1)),), heading=heading)
    assert reading.part.grooves[0].tolerances["width"] == pytest.approx((0.0, 0.1))


@pytest.mark.parametrize("heading", ["Particolare Z scala 5:1", "DÉTAIL Z ÉCHELLE 5/1", "Detal Z (5:1)", "DETAIL Z"])
def test_the_heading_of_a_detail_that_is_held_is_no_note(heading):
    """It stands over a line of its detail, as a note does over its leader."""
    line = Ink().chain([(20.0, -122.0, 0.0), (34.0, -126.0, 0.0), (*place(-11.5, 17.0), 0.0)])
    reading = read(mixed(detail(), line), heading=heading, at=(22.0, -121.0))
    assert [f.code for f in reading.findings if f.code == "note-unread"] == []


@pytest.mark.parametrize("apart", [40.0, 80.0, 120.0])
@pytest.mark.parametrize("order", [1, -1])
def test_of_two_details_in_one_row_each_is_heard_at_its_own_ring(order, apart):
    """Under one another's headings as near as under their own: what lies in a detail is its own."""
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 2.0, 36.0)))
    other = (-41.0, 19.0)
    middle = AT[0] + apart, AT[1]

    def beside(z, r):
        return middle[0] + TIMES * (z - other[0]), middle[1] + TIMES * (r - other[1])

    corners = [(-44.0, 20.0), (-42.0, 20.0), (-42.0, 18.0), (-40.0, 18.0), (-40.0, 20.0), (-38.0, 20.0)]
    second = Ink().chain([(*beside(z, r), 0.0) for z, r in corners])
    own = replace(width("2"), points=(beside(-42.0, 20.0), beside(-40.0, 20.0)), measured=10.0, deviations=(0.0, 0.2))
    sizes = [width("3", deviations=(0.0, 0.1)), own][::order]
    titles = [("DETAIL Z (5:1)", (AT[0], AT[1] + 20.0)), ("DETAIL Y (5:1)", (middle[0], middle[1] + 20.0))]
    names = [("Z", (RING[0] + 6.0, RING[1])), ("Y", (other[0] + 6.0, other[1]))]
    texts = tuple(Text(words, at, 3.5) for words, at in (*titles[::order], *names))
    rings = tuple(Circle(at, 4.0, Source("", "CIRCLE", "0")) for at in (RING, other))
    drawn = mixed(side_view(part), detail(), second)
    reading = read_sheet(sheet_of(drawn, dimensions=sizes, texts=texts, circles=rings), ReadOptions(units="mm"))
    assert [g.tolerances["width"] for g in reading.part.grooves] == [(0.0, 0.1), (0.0, 0.2)]
    assert not [f for f in reading.findings if f.level != "note"]


@pytest.mark.parametrize(("ring", "heard"), [(7.9, True), (7.87, False)])
def test_what_is_sized_in_a_detail_lies_within_four_radii_of_the_ring(ring, heard):
    """The far wall of the other groove, at -43 and 20, lies 31.536 from the middle of the ring: four times 7.884."""
    far = replace(width("3", deviations=(0.0, 0.1)), points=(place(-43.0, 20.0), place(-40.0, 20.0)))
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
    reading = read(dimensions=[far], ring=ring, letter=ring + 2.0, part=part)
    assert ("width" in reading.part.grooves[1].tolerances) is heard


@pytest.mark.parametrize(("second", "told"), [(34.0, []), (35.0, ["dimension-unclear"]), (None, [])])
def test_a_detail_of_a_letter_at_several_rings_holds_at_each_if_it_fits_each(second, told):
    """A shape that comes again is drawn once (common practice, no source); without a second ring it is the first's."""
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, second or 34.0)))
    spots = [RING] if second is None else [RING, (-41.5, RING[1])]
    texts = [Text("DETAIL Z (5:1)", (30.0, -120.0), 3.5), *(Text("Z", (z + 6.0, r), 3.5) for z, r in spots)]
    rings = [Circle(spot, 4.0, Source("", "CIRCLE", "0")) for spot in spots]
    sizes = [width("3", deviations=(0.0, 0.1))]
    drawn = mixed(side_view(part), detail())
    reading = read_sheet(
        sheet_of(drawn, dimensions=sizes, texts=texts, circles=rings), ReadOptions(units="mm", grooved=True)
    )
    assert [f.code for f in reading.findings if f.level != "note"] == told
    heard = ["width" in g.printed for g in reading.part.grooves]
    assert heard == {34.0: [True, True], 35.0: [False, False], None: [True, False]}[second]
