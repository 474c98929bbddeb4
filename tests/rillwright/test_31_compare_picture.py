"""The picture of compare: well-formed, safe against any name, drawing what the profiles are."""

import xml.etree.ElementTree as ET

import pytest
from shapely import Polygon
from support.moves import Moves, shop, tool
from support.parts import part_of, row

from extractor.side import FACE, INSIDE
from postproc import judge, laid_over
from rillwright.picture import comparison_picture

SVG = "{http://www.w3.org/2000/svg}"
PART = part_of(row(4, -10, 5, 3, 34), steps=[(0, 40), (-35, 50)])


def picture(part, moves: Moves, drawing: str = "ring.dxf", program: str = "old.nc", **machine) -> ET.Element:
    shop_ = shop(tool(), **machine)
    run = moves.run()
    return ET.fromstring(
        comparison_picture(part, judge(part, run, shop_), laid_over(part, run, shop_), drawing, program)
    )


def plunges(*places: tuple[float, float]) -> Moves:
    made = Moves()
    for z, floor in places:
        made.plunge(z, floor)
    return made


def texts(root: ET.Element) -> list[str]:
    return ["".join(one.itertext()) for one in root.iter(f"{SVG}text")]


def shapes(root: ET.Element, kind: str) -> list[Polygon]:
    found = [one for one in root.iter(f"{SVG}polygon") if one.get("class") == kind]
    return [Polygon([tuple(map(float, p.split(","))) for p in one.get("points", "").split()]) for one in found]


def test_a_right_program_has_no_difference_marked():
    root = picture(PART, plunges((-13, 34), (-18, 34), (-23, 34), (-28, 34)))
    assert not shapes(root, "gone")
    assert not shapes(root, "standing")
    assert {"1", "2", "3", "4"} <= set(texts(root))
    assert any(line.startswith("Agree") for line in texts(root))


def test_differences_are_marked_to_scale():
    """A groove left out and one too many: the marked areas are the grooves' own, at the picture's scale."""
    root = picture(PART, plunges((-13, 34), (-18, 34), (-23, 34), (-33, 34)))
    metal = max(shapes(root, "metal"), key=lambda p: p.area)
    z0, _, z1, _ = metal.bounds
    scale = (z1 - z0) / 60
    standing, gone = shapes(root, "standing"), shapes(root, "gone")
    assert max(s.area for s in standing) >= 3 * 3 * scale**2 * 0.99
    assert standing[0].area == pytest.approx(3 * 3 * scale**2, rel=0.01)
    assert gone[0].area == pytest.approx(3 * 3 * scale**2, rel=0.01)
    assert "groove 4: missing" in texts(root)
    assert "in no drawing" in texts(root)


def test_a_small_difference_is_enlarged_and_said():
    root = picture(PART, plunges((-13, 34), (-17.9, 34), (-23, 34), (-28, 34)))
    assert "groove 2: position" in texts(root)
    assert "0.1 too far to the front" in texts(root)
    whole = shapes(root, "standing")[0].area
    assert max(s.area for s in shapes(root, "standing")) > 5 * whole


def test_every_mark_is_explained():
    words = texts(picture(PART, plunges((-13, 34))))
    for expected in ("as drawn", "left by the program", "metal left standing", "metal cut away that the drawing has"):
        assert expected in words
    assert "front face, Z0" in words
    assert "chuck side" in words


def test_unsafe_moves_are_told_with_their_lines():
    bad = Moves(clamp=None)
    for z in (-13, -18, -23, -28):
        bad.rapid(42, z).rapid(34).rapid(42).rapid(38).rapid(30).rapid(42)
    words = texts(picture(PART, bad))
    assert any(line.startswith("line 2: The rapid from X42. Z-13.") for line in words)
    assert "3 more stops; see the table." in words


def test_everything_lies_on_the_sheet():
    part = part_of(row(40, -10, 5, 3, 34), length=250)
    root = picture(part, Moves().plunge(-13, 30), stick_out=None)
    _, _, width, height = map(float, root.get("viewBox", "").split())
    for kind in ("metal", "standing", "gone"):
        for shape in shapes(root, kind):
            x0, y0, x1, y1 = shape.bounds
            assert 0 <= x0 <= x1 <= width
            assert 0 <= y0 <= y1 <= height
    assert "32 more are not as drawn; see the table." in texts(root)


def test_a_name_cannot_become_markup():
    root = picture(PART, Moves(), "<script>alert(1)</script>.dxf", 'a"&b.nc')
    assert not list(root.iter(f"{SVG}script"))
    assert 'a"&b.nc against <script>alert(1)</script>.dxf' in texts(root)


def test_it_stays_small():
    part = part_of(row(100, -5, 2.5, 1.5, 36), length=270)
    moves = Moves()
    run, shop_ = moves.run(), shop(tool(), stick_out=None)
    text = comparison_picture(part, judge(part, run, shop_), laid_over(part, run, shop_), "a.dxf", "b.nc")
    assert len(text) < 60_000


BORED = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0}), (-20, -23, 34)], bore=20.0)


def bored(moves: Moves) -> ET.Element:
    shop_ = shop(tool(), tool(station=5, offset=5, where="inside"))
    run = moves.run()
    overlays = laid_over(BORED, run, shop_), laid_over(BORED, run, shop_, side=INSIDE)
    svg = comparison_picture(BORED, judge(BORED, run, shop_), overlays[0], "a.dxf", "b.nc", {"inside": overlays[1]})
    return ET.fromstring(svg)


def inside_cut(z: float, floor: float) -> Moves:
    five = {"station": 5, "offset": 5}
    moves = Moves(18, 5).rapid(18, z, **five).feed(floor, **five).rapid(18, **five).rapid(None, 5, **five)
    return moves.rapid(200, **five).rapid(200, 100, **five).plunge(-23, 34)


def test_a_bore_is_drawn_with_its_grooves():
    right = bored(inside_cut(-13, 26))
    assert not shapes(right, "gone")
    assert not shapes(right, "standing")
    metal = max(shapes(right, "metal"), key=lambda p: p.area)
    x0, y0, x1, y1 = metal.bounds
    scale = (x1 - x0) / 60
    # A bar 40 across and 60 long with a bore of 20 and a groove 3 by 3 on either side, as half a section.
    assert metal.area == pytest.approx((60 * 10 - 9 - 9) * scale**2, rel=0.01)
    assert y1 - y0 == pytest.approx(10 * scale, rel=0.01)


def test_what_is_off_in_a_bore_is_marked():
    shallow = bored(inside_cut(-13, 24))
    assert shapes(shallow, "standing")
    assert not shapes(shallow, "gone")
    assert "groove 1: depth" in texts(shallow)
    assert "2 too shallow on the diameter" in texts(shallow)
    deep = bored(inside_cut(-13, 28))
    assert shapes(deep, "gone")
    assert not shapes(deep, "standing")


def test_a_bore_that_nothing_cuts_is_left_standing():
    shop_, run = shop(tool()), Moves().plunge(-23, 34).run()
    overlays = laid_over(BORED, run, shop_), laid_over(BORED, run, shop_, side=INSIDE)
    text = comparison_picture(BORED, judge(BORED, run, shop_), overlays[0], "a.dxf", "b.nc", {"inside": overlays[1]})
    root = ET.fromstring(text)
    assert "groove 1: missing" in texts(root)
    assert shapes(root, "standing")


FACED = part_of([(0, -4, 24, {"where": "face", "mouth_diameter": 30.0}), (-20, -23, 34)])


def faced(moves: Moves) -> ET.Element:
    shop_, run = shop(tool(), tool(station=7, offset=7, where="face")), moves.run()
    sides = {"face": False, "hollow": True}
    more = {name: laid_over(FACED, run, shop_, side=FACE, filled=filled) for name, filled in sides.items()}
    svg = comparison_picture(FACED, judge(FACED, run, shop_), laid_over(FACED, run, shop_), "a.dxf", "b.nc", more)
    return ET.fromstring(svg)


def face_cut(x: float, floor: float) -> Moves:
    seven = {"station": 7, "offset": 7}
    moves = Moves(150, 50).rapid(x, 50, **seven).rapid(None, 2, **seven)
    moves.feed(None, floor, **seven).rapid(None, 50, **seven).rapid(200, **seven)
    return moves.plunge(-23, 34)


def test_a_face_groove_is_drawn_where_it_is_cut():
    root = faced(face_cut(24, -4))
    air = shapes(root, "air")
    metal = max(shapes(root, "metal"), key=lambda p: p.area)
    scale = (metal.bounds[2] - metal.bounds[0]) / 60
    # Radial width 3, 4 deep, 12 from the axis.
    assert air[0].area == pytest.approx(3 * 4 * scale**2, rel=0.01)
    assert metal.bounds[2] == pytest.approx(air[0].bounds[2], abs=0.1)
    assert metal.bounds[3] - air[0].bounds[3] == pytest.approx(12 * scale, abs=0.1)


def test_what_is_off_in_a_face_groove_is_marked_and_enlarged():
    shallow, deep, beside = faced(face_cut(24, -3)), faced(face_cut(24, -5)), faced(face_cut(25, -4))
    assert {"groove 1: depth", "1 too shallow"} <= set(texts(shallow))
    assert (len(shapes(shallow, "gone")), len(shapes(deep, "gone")) > 0) == (0, True)
    assert "groove 1: position" in texts(beside)
    panel = shapes(shallow, "metal")[-1]
    front = max(s.bounds[2] for s in shapes(shallow, "air")[1:])
    assert panel.bounds[2] == pytest.approx(front, abs=0.1)
    assert shapes(beside, "gone")
    whole = min(s.area for s in shapes(shallow, "standing"))
    assert max(s.area for s in shapes(shallow, "standing")) > 4 * whole


def test_a_face_groove_that_nothing_cuts_is_left_standing():
    root = faced(Moves().plunge(-23, 34))
    assert "groove 1: missing" in texts(root)
    assert shapes(root, "standing")
    assert not shapes(root, "air")
