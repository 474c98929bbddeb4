"""What the pictures take out of a record, and where everything stands in them."""

import itertools
import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.forms import typed
from support.parts import part_of, row
from support.records import made

from rillwright.jobsheet.enlarged import enlarged, enlarged_rows
from rillwright.jobsheet.labels import place_labels, set_letter, span_words
from rillwright.jobsheet.picture import inside_of, part_picture, recess_points, set_class
from rillwright.jobsheet.scene import between, scene_of
from rillwright.jobsheet.stage import WIDTH, stage_of

NS = {"s": "http://www.w3.org/2000/svg"}


def numbers(path):
    """Pairs of numbers of path data without curves."""
    values = [float(v) for v in re.findall(r"-?\d+\.?\d*", path)]
    return list(zip(values[::2], values[1::2], strict=True))


def drawn(part, sets, stick_out=None):
    record, _ = made(part, sets)
    if stick_out is not None:
        record["setup"]["machine"]["stick_out"] = stick_out
    scene = scene_of(typed(record))
    stage = stage_of(scene)
    return scene, stage, ElementTree.fromstring(part_picture(scene, stage, typed(record).path))


@pytest.fixture(scope="module")
def ring():
    return drawn(part_of(row(4, first=-10, pitch=5, width=3, floor=34)), [(1, 2, 3, 4)])


def test_a_record_without_profile_has_no_scene():
    assert scene_of(typed({"status": "refused", "part": {"grooves": []}})) is None
    assert scene_of(typed({"status": "refused", "part": {}})) is None


def test_grooves_know_their_set_and_program_lines(ring):
    scene, _, _ = ring
    assert [r.set_index for r in scene.recesses] == [0, 0, 0, 0]
    assert all(r.lines == (11,) for r in scene.recesses)
    assert scene.inserts["T0303"].edge[0][0] == 0.0


def test_every_groove_is_drawn_to_scale_where_it_is(ring):
    scene, stage, root = ring
    grooves = [g for g in root.iter(f"{{{NS['s']}}}g") if (g.get("class") or "").startswith("groove")]
    assert [g.get("data-grooves") for g in grooves] == ["1", "2", "3", "4"]
    for groove, recess in zip(grooves, scene.recesses, strict=True):
        area = next(p for p in groove.findall("s:path", NS) if p.get("class") == "area")
        xs = [x for x, _ in numbers(area.get("d"))]
        assert (max(xs) - min(xs)) / stage.view.scale == pytest.approx(3.0, abs=0.01)
        assert max(xs) == pytest.approx(stage.view.x(recess.z_near), abs=0.01)


def test_the_metal_is_the_part_at_one_scale(ring):
    _, stage, root = ring
    area = root.find(".//s:g[@class='finished']/s:path[@class='metal-area']", NS)
    xs, ys = zip(*numbers(area.get("d")), strict=True)
    assert (max(xs) - min(xs)) / stage.view.scale == pytest.approx(60, abs=0.01)
    assert (max(ys) - min(ys)) / stage.view.scale == pytest.approx(20 if stage.half else 40, abs=0.01)


def test_the_insert_stands_at_its_start_point(ring):
    scene, stage, root = ring
    tool = root.find(".//s:g[@class='tool']", NS)
    x, y = map(float, re.findall(r"-?\d+\.?\d*", tool.get("transform")))
    assert (x, y) == pytest.approx((stage.view.x(-13), stage.view.y(21)), abs=0.01)
    assert scene.runs[0].start.x == 42


def test_jaws_stand_at_the_stick_out():
    _, stage, _ = drawn(part_of([(-10, -13, 34)], length=100), [(1,)], stick_out=70)
    assert stage.jaw_z == -70
    assert not stage.shortened


def test_a_bar_far_out_of_the_jaws_is_drawn_shortened_with_its_true_figure():
    _, stage, root = drawn(part_of([(-3, -5, 34)], length=10), [(1,)], stick_out=300)
    assert stage.shortened
    assert any("stick-out 300.000" in (t.text or "") and "shortened" in t.text for t in root.iter(f"{{{NS['s']}}}text"))


def test_a_tailstock_centre_is_drawn_where_there_is_one(ring):
    record, _ = made(part_of([(-10, -13, 34)]), [(1,)])
    record["setup"]["machine"]["tailstock"] = 8.0
    scene = scene_of(typed(record))
    stage = stage_of(scene)
    root = ElementTree.fromstring(part_picture(scene, stage, None))
    centre = next(g for g in root.iter(f"{{{NS['s']}}}g") if g.findtext("s:title", None, NS) == "Tailstock centre")
    xs, ys = zip(*numbers(centre.find("s:path", NS).get("d")), strict=True)
    assert (max(ys) - min(ys)) / stage.view.scale == pytest.approx(8, abs=0.02)
    # A 60 degree centre: its tip lies half the diameter times the root of 3 behind the face.
    assert (stage.view.x(0) - min(xs)) / stage.view.scale == pytest.approx(4 * 3**0.5, abs=0.02)


def test_without_a_stick_out_no_jaws_are_invented(ring):
    record, _ = made(part_of([(-10, -13, 34)]), [(1,)])
    record["setup"]["machine"]["stick_out"] = None
    scene = scene_of(typed(record))
    root = ElementTree.fromstring(part_picture(scene, stage_of(scene), None))
    assert not root.findall(".//s:rect[@class='jaw']", NS)


SPOTS = st.tuples(st.floats(5, 400), st.floats(2, 400), st.integers(1, 20))


@settings(max_examples=60, deadline=None)
@given(SPOTS)
def test_any_part_fits_its_picture(shape):
    length, diameter, count = shape
    pitch = length / (count + 1)
    spots = row(count, first=-pitch / 2, pitch=pitch, width=pitch / 2, floor=diameter * 0.8)
    part = part_of(spots, diameter=diameter, length=length)
    scene, stage, _root = drawn(part, [tuple(range(1, count + 1))])
    assert 0 <= stage.left < stage.view.x(-length) < stage.view.x(0) <= stage.right <= WIDTH
    assert 0 < stage.top < stage.view.y(diameter / 2)
    assert stage.bottom < stage.height
    assert stage.view.scale > 0
    assert len(stage.rows) == len(scene.recesses)


@given(st.lists(st.floats(0, 900), max_size=60).map(sorted))
def test_balloons_of_one_row_keep_their_distance(places):
    rows = place_labels(places, 33)
    assert len(rows) == len(places)
    assert not places or rows[0] == 0
    for one in {r for r in rows if r is not None}:
        mine = [p for p, r in zip(places, rows, strict=True) if r == one]
        assert all(b - a >= 33 for a, b in itertools.pairwise(mine))
    told = [p for p, r in zip(places, rows, strict=True) if r is not None]
    assert all(b - a >= 16.5 for a, b in itertools.pairwise(told)), "a number lies on another's leader"


def larger(width, length=300, z=-20.0, **more):
    """The stage, and the details, of a part with three grooves of one width."""
    part = part_of(row(3, z, 30, width, 76), diameter=80, length=length, **more)
    scene = scene_of(typed(made(part, [(1, 2, 3)])[0]))
    stage = stage_of(scene)
    return scene, stage, enlarged(scene, stage)


def test_a_groove_is_drawn_larger_where_it_would_be_narrow_in_the_picture():
    scale = larger(3.0)[1].view.scale
    assert len(larger(17.9 / scale)[2]) == 1
    assert larger(18.1 / scale)[2] == ()


def test_the_ring_is_round_the_groove_whose_letter_it_has_and_the_detail_shows_it_whole():
    scene, stage, (one,) = larger(1.3)
    assert (one.letter, one.recess.id) == ("A", 1)
    # Below the axis, at the middle of groove 1: -20 to -21.3, between 76 and 80 across.
    assert one.ring == pytest.approx(stage.view.dot(-20.65, -39))
    assert one.across >= math.hypot(1.3, 2.0)
    corners = [stage.view.dot(z, -r) for z in (-20, -21.3) for r in (38, 40)]
    assert all(math.dist(one.ring, corner) <= one.radius for corner in corners)
    (drawn,) = enlarged_rows(scene, (one,))
    area = ElementTree.fromstring(drawn["picture"]).find(".//s:path[@class='area set-1 pat-1']", NS)
    xs, ys = zip(*numbers(area.get("d")), strict=True)
    assert (max(xs) - min(xs)) / (max(ys) - min(ys)) == pytest.approx(1.3 / 2, rel=0.01)
    assert (max(xs) - min(xs)) / 200 == pytest.approx(1.3 / one.across, rel=0.01)


def test_a_letter_keeps_off_the_ring_of_a_stop():
    scene, stage, (one,) = larger(1.3, length=60, z=-5.0, bore=20.0)
    assert stage.half
    assert one.at[1] - 12 < one.ring[1] + 29 < enlarged(scene, stage, {1})[0].at[1] - 12


def test_one_balloon_always_finds_room():
    assert place_labels([5.0], 33) == [0]
    assert place_labels([], 33) == []


def test_a_stretch_of_a_profile_keeps_its_walls_and_slopes():
    profile = ((0.0, 10.0), (-10.0, 20.0), (-10.0, 15.0), (-20.0, 15.0))
    assert between(profile, -5.0, -12.0) == [(-5.0, 15.0), (-10.0, 20.0), (-10.0, 15.0), (-12.0, 15.0)]
    assert between(profile, -30.0, -40.0) == []


@given(st.integers(1, 12), st.floats(0, 130), st.floats(0, 130))
def test_a_stretch_holds_every_corner_between_its_ends(count, one, other):
    near, far = -min(one, other), -max(one, other)
    outline = part_of(row(count, first=-5, pitch=8, width=3, floor=30), length=120).outline
    found = between(outline, near, far)
    assert [p for p in found if near > p[0] > far] == [p for p in outline if near > p[0] > far]
    assert all(near >= z >= far for z, _ in found)


def test_a_half_section_closes_along_bore_or_axis():
    profile = ((0.0, 20.0), (-60.0, 20.0))
    assert inside_of(profile, None) == [(-60.0, 0.0), (0.0, 0.0)]
    blind = ((0.0, 5.0), (-30.0, 5.0))
    assert inside_of(profile, blind) == [(-60.0, 0.0), (-30.0, 0.0), (-30.0, 5.0), (0.0, 5.0)]


@pytest.mark.parametrize(
    ("extra", "lowest", "highest"),
    [({"where": "inside"}, 10, 12), ({"where": "face"}, 15, 19)],
)
def test_inside_and_face_grooves_have_their_area(extra, lowest, highest):
    if extra["where"] == "inside":
        part = part_of([(-10, -13, 24, extra)], bore=20)
    else:
        part = part_of([(0, -4, 30, extra | {"mouth_diameter": 38.0})])
    record, _ = made(part, [(1,)])
    scene = scene_of(typed(record))
    radii = [r for _, r in recess_points(scene, scene.recesses[0])]
    assert min(radii) == lowest
    assert max(radii) == highest


def test_thirty_sets_all_look_different():
    assert len({set_class(i) for i in range(30)}) == 30
    assert set_class(None) == "set-none"


def test_groove_numbers_as_people_say_them():
    assert span_words([]) == ""
    assert span_words([4]) == "4"
    assert span_words([2, 1]) == "1, 2"
    assert set_letter(27) == "AB"


def test_a_groove_that_is_counted_and_not_drawn_is_dashed_and_said():
    record, _ = made(part_of(row(4, first=-10, pitch=5, width=3, floor=34)), [(1, 2, 3, 4)])
    record["part"]["findings"] = [
        {"level": "caution", "code": "groove-undrawn", "message": "", "at": None, "groove": 2}
    ]
    scene = scene_of(typed(record))
    assert [recess.drawn for recess in scene.recesses] == [True, False, True, True]
    root = ElementTree.fromstring(part_picture(scene, stage_of(scene), typed(record).path))
    classes = [g.get("class") for g in root.iter(f"{{{NS['s']}}}g") if g.get("data-grooves")]
    assert [("undrawn" in c.split()) for c in classes] == [False, True, False, False]
    words = [g.get("aria-label") for g in root.iter(f"{{{NS['s']}}}g") if g.get("data-grooves")]
    assert words[1].startswith("Groove 2: not drawn, counted, Z-15")
