"""Edges broken with the insert's corner where the drawing draws them sharp: named as that, never as width or floor.

Breaking edges by 0.1 to 0.3: common practice, no source.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program
from postproc.verdict import State

PART = part_of([(-10, -13, 34)], length=60)
SHOP = shop(tool(corner_radius=0.2), sharp_corner=0.2)
HEAD = "%\nO0100\nG21 G99\nT0303\nG50 S2500\nG96 S110 M03\n"
TAIL = "G00 X150.\nG28 U0 W0\nM30\n%\n"


def plunge(z=-13.0, floor=34.0):
    return f"G0 X42. Z{z:.3f}\nG1 X{floor:.3f} F.07\nG0 X42.\n"


def bevel(size, z=-13.0, way=-1, across=1.0, land=40.0):
    """One edge of the insert taken down at an angle; `across` is the width of the bevel over its depth."""
    start = z + way * (size + 0.1) * across
    clear = f"G1 X{land + 0.2:.3f}"
    return f"G0 X42. Z{start:.3f}\n{clear} F.1\nX{land - 2 * size:.3f} Z{z:.3f} F.05\n{clear}\nG0 X42.\n"


def compared(cuts, part=PART, inserts=SHOP):
    return compare_program(part, HEAD + cuts + TAIL, inserts)


def codes(found):
    return {f.code: f for f in found.findings}


@pytest.mark.parametrize("size", [0.05, 0.1, 0.15, 0.2, 0.3])
@pytest.mark.parametrize("ways", [(-1,), (1,), (-1, 1)])
@pytest.mark.parametrize("before", [False, True])
def test_a_broken_edge_is_a_caution_and_no_more(size, ways, before):
    breaks = "".join(bevel(size, way=way) for way in ways)
    found = compared(breaks + plunge() if before else plunge() + breaks)
    assert found.agree, found.findings
    assert set(codes(found)) == {"edge-broken"}
    assert f"by up to {size:g} where" in codes(found)["edge-broken"].message
    assert found.matches[0].difference == {"z_near": 0.0, "z_far": 0.0, "floor_diameter": 0.0}


def test_like_grooves_share_one_caution():
    part = part_of([(-10, -13, 34), (-20, -23, 34)], length=60)
    found = compared("".join(plunge(z) + bevel(0.2, z) + bevel(0.2, z, 1) for z in (-13.0, -23.0)), part)
    assert found.agree
    assert [f.message[:14] for f in found.findings] == ["Grooves 1, 2: "]


@pytest.mark.parametrize("size", [0.5, 1.0, 2.0])
def test_a_big_chamfer_is_named_as_that_and_as_no_floor_step(size):
    found = compared(plunge() + bevel(size) + bevel(size, way=1))
    assert found.matches[0].state is State.WIDTH
    assert set(codes(found)) == {"mouth-chamfered"}
    assert f"by {size:g} where" in codes(found)["mouth-chamfered"].message
    assert found.matches[0].difference["floor_diameter"] == 0


@pytest.mark.parametrize("off", [-0.1, 0.1])
def test_walls_below_a_broken_edge_are_still_held(off):
    cuts = (plunge() if off > 0 else "") + plunge(-13 - off)
    z = -13 - off
    found = compared(cuts + bevel(0.2, z))
    assert found.matches[0].state is not State.MATCHES
    assert found.matches[0].difference["z_far"] == pytest.approx(-off if off > 0 else 0.1)


@pytest.mark.parametrize("deep", [0.1, 0.2, 0.5, 1.0])
def test_a_shelf_beside_the_mouth_is_no_broken_edge(deep):
    found = compared(plunge() + plunge(-13.25, 40 - 2 * deep))
    assert found.matches[0].state is State.WIDTH
    assert "edge-broken" not in codes(found)


@pytest.mark.parametrize("across", [0.1, 8.0])
def test_a_leaning_wall_and_shaved_land_are_no_broken_edges(across):
    found = compared(plunge() + bevel(1.5 if across < 1 else 0.1, across=across))
    assert not found.agree
    assert "edge-broken" not in codes(found)


def test_a_wrong_floor_below_broken_edges_is_told():
    found = compared(plunge(floor=33.9) + bevel(0.2) + bevel(0.2, way=1))
    assert found.matches[0].state is State.DEPTH
    assert found.matches[0].difference["floor_diameter"] == pytest.approx(-0.1)


def test_a_shallow_groove_with_broken_edges():
    part = part_of([(-10, -13, 39.2)], length=60)
    found = compared(plunge(floor=39.2) + bevel(0.15) + bevel(0.15, way=1), part)
    assert found.agree
    assert set(codes(found)) == {"edge-broken"}


def test_a_wide_groove_keeps_its_rib_with_broken_edges():
    part = part_of([(-10, -18, 34)], length=60)
    cuts = plunge(-13) + plunge(-18) + bevel(0.2, -18) + bevel(0.2, -13, 1)
    found = compared(cuts, part)
    assert "floor-uneven" in codes(found) or not found.agree
    assert compared(cuts + plunge(-15.5), part).agree


def test_a_drawn_chamfer_is_still_compared():
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})], length=60)
    assert codes(compared(plunge(), part))["edge-chamfer"]
    found = compared(plunge() + bevel(0.4) + bevel(0.4, way=1), part)
    assert not codes(found)


def test_an_edge_rounded_with_an_arc():
    found = compared(plunge() + "G0 X42. Z-13.2\nG1 X40. F.1\nG2 X39.6 Z-13. R.2 F.05\nG1 X41.\nG0 X42.\n")
    other = compared(plunge() + "G0 X42. Z-13.2\nG1 X40. F.1\nG3 X39.6 Z-13. R.2 F.05\nG1 X41.\nG0 X42.\n")
    assert [f.agree for f in (found, other)] == [True, True]


def test_inside_and_face_grooves():
    inside = part_of([(-10, -13, 44, {"where": "inside"})], steps=[(0, 60)], bore=38.0, length=60)
    bore = shop(tool(where="inside", corner_radius=0.2), sharp_corner=0.2)
    cuts = "G0 X36. Z5.\nG0 Z-13.\nG1 X44. F.07\nG0 X36.\nZ-13.3\nG1 X37.8 F.1\nX38.4 Z-13. F.05\nG1 X36.\nG0 Z5.\n"
    found = compare_program(inside, HEAD + cuts + TAIL, bore)
    assert (found.agree, set(codes(found))) == (True, {"edge-broken"}), found.findings
    assert "by up to 0.2 where" in codes(found)["edge-broken"].message


@pytest.mark.parametrize(("width", "size", "state"), [(3.0, 0.5, State.MATCHES), (2.8, 0.6, State.WIDTH)])
def test_walls_below_a_drawn_chamfer_are_measured_as_well_as_its_rims(width, size, state):
    """The rims come out alike with both; between them one wall lies 0.1 off on either side."""
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})], length=60)
    z = -11.5 - width / 2
    cuts = plunge(z) + bevel(size, z) + bevel(size, z, 1)
    found = compared(cuts, part, shop(tool(width=width, corner_radius=0.0)))
    assert found.matches[0].state is state


@pytest.mark.parametrize(
    ("ways", "words"),
    [
        ((), "the edge chamfers of 0.5 that the drawing has are not cut here"),
        ((-1,), "the edge chamfer of 0.5 that the drawing has on the front side is not cut here"),
        ((1,), "the edge chamfer of 0.5 that the drawing has on the chuck side is not cut here"),
    ],
)
def test_of_two_chamfers_the_one_that_is_left_out_is_told(ways, words):
    """The insert's corner breaks one edge of the groove, the one toward the chuck for -1."""
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})], length=60)
    cuts = plunge() + "".join(bevel(0.5, way=way) for way in ways)
    found = codes(compared(cuts, part, shop(tool(corner_radius=0.0))))
    assert words in found["edge-chamfer"].message


def test_chamfers_that_both_are_cut_are_not_told():
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})], length=60)
    assert not codes(compared(plunge() + bevel(0.5) + bevel(0.5, way=1), part, shop(tool(corner_radius=0.0))))


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ((0.24, 0.24), ""),
        (
            (0.23, 0.5),
            "chamfer of 0.5 that the drawing has on the chuck side is",
        ),
        (
            (0.5, 0.23),
            "chamfer of 0.5 that the drawing has on the front side is",
        ),
        ((0.03, 0.03), "chamfers of 0.5 that the drawing has are"),
    ],
)
def test_a_chamfer_that_is_hardly_cut_is_told(sizes, words):
    """Half of 0.5 less the 0.01 on the radius that counts for nothing twice: 0.23 is told, 0.24 is not."""
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})], length=60)
    cuts = plunge() + bevel(sizes[0]) + bevel(sizes[1], way=1)
    found = compared(cuts, part, shop(tool(corner_radius=0.0)))
    assert [f.message for f in found.findings] == (
        [f"Groove 1: the edge {words} cut to less than half that size here."] if words else []
    )


def step(size, deep, z=-13.0, way=-1):
    """One edge of the insert taken straight down beside the wall: a step so wide and so deep, on the radius."""
    return f"G0 X42. Z{z + way * size:.3f}\nG1 X{40 - 2 * deep:.3f} F.05\nG0 X42.\n"


@pytest.mark.parametrize("radius", [0.0, 0.2])
@pytest.mark.parametrize("size", [0.3, 0.5, 1.0, 2.0])
@pytest.mark.parametrize(
    ("ways", "words"),
    [
        ((-1, 1), "the edge chamfers of {} that the drawing has are cut down as a step"),
        ((1,), "the edge chamfer of {} that the drawing has on the front side is cut down as a step"),
        ((-1,), "the edge chamfer of {} that the drawing has on the chuck side is cut down as a step"),
        ((), ""),
    ],
)
def test_a_step_where_a_chamfer_is_drawn_is_a_stop(radius, size, ways, words):
    """Half-way along a chamfer half of its height stands, along a step nothing; a step is no bevel of any size."""
    part = part_of([(-10, -13, 30, {"edge_chamfer": size})], length=60)
    edges = "".join(step(size, size, way=way) if way in ways else bevel(size, way=way) for way in (-1, 1))
    found = compared(plunge(floor=30.0) + edges, part, shop(tool(corner_radius=radius), sharp_corner=0.2))
    told = codes(found)
    assert ("edge-notched" in told, found.agree) == (bool(ways), not ways)
    assert words.format(f"{size:g}") in (told["edge-notched"].message if ways else "")


@pytest.mark.parametrize(("deep", "told"), [(0.76, True), (0.74, False)])
def test_a_step_less_deep_than_three_quarters_of_a_chamfer_is_hardly_one(deep, told):
    part = part_of([(-10, -13, 30, {"edge_chamfer": 1.0})], length=60)
    found = compared(plunge(floor=30.0) + step(1.0, deep) + step(1.0, deep, way=1), part, shop(tool(corner_radius=0.0)))
    assert ("edge-notched" in codes(found)) is told


@pytest.mark.parametrize(("edge", "told"), [("G1 X38.4 F.1\nX37. Z-13. F.05\n", False), ("G1 X39. F.05\n", True)])
def test_a_chamfer_of_a_bore_is_held_the_same_way(edge, told):
    inside = part_of([(-10, -13, 44, {"where": "inside", "edge_chamfer": 0.5})], steps=[(0, 60)], bore=38.0, length=60)
    bore = shop(tool(where="inside", corner_radius=0.0), sharp_corner=0.2)
    edge = edge.replace("X38.4", "X38.").replace("X37.", "X39.")
    cuts = f"G0 X36. Z5.\nG0 Z-13.\nG1 X44. F.07\nG0 X36.\nZ-13.5\n{edge}G0 X36.\nZ5.\n"
    assert ("edge-notched" in codes(compare_program(inside, HEAD + cuts + TAIL, bore))) is told


@pytest.mark.parametrize(("size", "deep"), [(0.3, 0.3), (0.3, 0.1), (0.1, 0.5), (1.0, 0.5)])
def test_a_step_beside_an_edge_drawn_sharp_is_no_broken_edge(size, deep):
    found = compared(plunge() + step(size, deep))
    assert not found.agree
    assert "edge-broken" not in codes(found)
