"""Corners and slots as other software draws them: arcs in a few chords, tiny arcs, slots wider below their mouth."""

import math
import random
from itertools import pairwise

import pytest
from support.draw import Drawn, Ink, full_outline, half_profile, mixed, sheet_of, with_centre
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.geometry import curves
from extractor.geometry.curves import rounded
from extractor.geometry.profile import Piece, joined

MM = ReadOptions(units="mm")
FINE = 1e-3


def read(*corners, draw=full_outline):
    return read_sheet(sheet_of(draw(Drawn(corners))), MM)


def chords(count, radius, z=-10.0, floor=17.0):
    """The front corner of a groove, a quarter circle in so many chords of one length."""
    turns = [math.pi / 2 * k / count for k in range(count + 1)]
    return [(z - radius + radius * math.cos(t), floor + radius - radius * math.sin(t)) for t in turns]


@all_pairs(count=[2, 3, 4, 7], radius=[0.1, 0.4, 1.2], draw=[full_outline, half_profile])
def test_a_corner_in_chords_is_a_corner_radius(count, radius, draw):
    front = chords(count, radius)
    back = [(-24 - z, r) for z, r in reversed(front)]
    reading = read((0, 20), (-9.8, 20), (-10, 19.8), *front, *back, (-14, 20), (-40, 20), draw=draw)
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.z_near, groove.z_far, groove.floor_diameter) == ("rectangular", -10, -14, 34)
    assert groove.corner_radius == pytest.approx(radius, abs=1e-6)
    assert groove.edge_chamfer == pytest.approx(0.2)


@pytest.mark.parametrize("count", [2, 3])
@pytest.mark.parametrize("lift", [0.05, -0.05])
def test_lines_that_lie_on_no_circle_between_floor_and_wall_stay_lines(count, lift):
    front = chords(count, 1.0)
    front[1] = (front[1][0], front[1][1] + lift)
    line = [Piece(a, b) for a, b in pairwise([(-10, 20), *front, (-20, 17)])]
    assert not [p for p in rounded(line, FINE) if p.bulge]


def test_many_uneven_chords_with_sharp_turns_are_an_arc_if_all_end_on_its_circle():
    turns = [0, 6, 12, 18, 24, 62, 100, 138, 144, 150, 165, 180]
    on = [(-10 + 2 * math.cos(math.radians(t)), 20 - 2 * math.sin(math.radians(t))) for t in turns]
    reading = read((0, 20), *on, (-40, 20))
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.z_near, groove.z_far) == ("round", pytest.approx(-8), pytest.approx(-12))
    off = [(z, r + (0.02 if k == 5 else 0.0)) for k, (z, r) in enumerate(on)]
    assert read((0, 20), *off, (-40, 20)).part.grooves[0].shape == "other"
    octagon = [(-10 + 2 * math.cos(t * math.pi / 4), 20 - 2 * math.sin(t * math.pi / 4)) for t in range(5)]
    assert read((0, 20), *octagon, (-40, 20)).part.grooves[0].shape == "other"


def test_a_crumb_of_an_arc_goes_on_with_the_arc():
    """Software that splits at tangent points a last digit apart leaves arcs of a few thousandths."""
    cut = math.radians(0.6)
    at = lambda t: (-11 + math.cos(t), 18 - math.sin(t))  # noqa: E731
    whole = [Piece(at(0), at(cut), -math.tan(cut / 4) * 1.01), Piece(at(cut), at(1.5), -math.tan((1.5 - cut) / 4))]
    (arc,) = joined(whole, FINE)
    assert arc.arc.radius == pytest.approx(1.0, abs=1e-3)
    assert len(joined([whole[0], Piece(at(cut), at(1.5), math.tan(0.2))], FINE)) == 2


SLOT = ((0, 20), (-10, 20), (-10, 17))


@pytest.mark.parametrize("over", [2.0, 0.05, 0.0015])
@pytest.mark.parametrize("back", [True, False])
def test_a_slot_wider_below_its_mouth_is_one_recess_left_to_another_tool(over, back):
    far = over if back else 0.0
    chamber = ((-10 + over, 17), (-10 + over, 14), (-14 - far, 14), *(((-14 - far, 17),) if back else ()))
    reading = read(*SLOT, *chamber, *(((-14, 17),) if back else ()), (-14, 20), (-40, 20))
    (left,) = reading.part.left_to_others
    assert (left.why, left.near, left.far) == ("overhang", -10, -14)
    assert (left.mouth, left.floor) == (40, 28)
    assert [f.code for f in reading.findings if f.stops] == ["overhang"]


@pytest.mark.parametrize("over", [0.001, 0.0005, 0.0001, 0.00002])
def test_an_overhang_of_drawing_noise_leaves_a_plain_groove(over):
    slot = (*SLOT, (-10 + over, 17), (-10 + over, 14), (-14 - over, 14), (-14 - over, 17), (-14, 17), (-14, 20))
    reading = read(*slot, (-40, 20))
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.floor_diameter, groove.mouth_diameter) == ("rectangular", 28, 40)
    assert (groove.z_near, groove.z_far) == (pytest.approx(-10, abs=1e-3), pytest.approx(-14, abs=1e-3))


def test_three_chambers_one_wider_than_the_other_are_one_recess():
    steps = ((-10, 18), (-9, 18), (-9, 16), (-8, 16), (-8, 14), (-16, 14), (-16, 16), (-15, 16), (-15, 18), (-14, 18))
    (left,) = read((0, 20), (-10, 20), *steps, (-14, 20), (-40, 20)).part.left_to_others
    assert (left.why, left.near, left.far, left.floor) == ("overhang", -10, -14, 28)


def test_a_stepped_groove_is_one_recess_of_no_plain_shape():
    steps = ((-10, 18), (-11, 18), (-11, 16), (-13, 16), (-13, 18), (-14, 18))
    reading = read((0, 20), (-10, 20), *steps, (-14, 20), (-40, 20))
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.z_near, groove.z_far, groove.floor_diameter) == ("other", -10, -14, 32)
    assert [f.code for f in reading.findings] == ["not-rectangular"]
    assert "it is planned if a tool can cut it: compare its form and its sizes with the print first" in (
        reading.findings[0].message
    )


def test_halves_that_show_two_shapes_at_one_place_stop():
    vee, bowl = (
        Drawn(((0, 20), (-10, 20), (-12, 18), (-14, 20), (-40, 20))),
        Drawn(((0, 20), (-10, 20, math.tan(math.pi / 8) * -1), (-14, 20), (-40, 20))),
    )
    depth = 2 * math.tan(math.pi / 8)
    vee = Drawn(((0, 20), (-10, 20), (-12, 20 - depth), (-14, 20), (-40, 20)))
    lower = half_profile(bowl, None).map(lambda x, y: (x, -y))
    ink = with_centre(mixed(half_profile(vee, None), lower), vee, 5.0)
    stops = [f for f in read_sheet(sheet_of(ink), MM).findings if f.stops]
    assert [f.code for f in stops] == ["halves-disagree"]
    assert "as vee and the other as round; draw both alike" in stops[0].message


def test_a_disc_with_a_hole_in_it_is_no_border_however_it_lies():
    """A plain rectangle round a circle of chords, its centre line running out of it."""
    ring = [(-5 + 2 * math.cos(t * math.pi / 12), 2 * math.sin(t * math.pi / 12), 0.0) for t in range(24)]
    ink = mixed(full_outline(Drawn(((0, 30), (-10, 30))), 1.0), Ink().chain(ring, close=True))
    for turn in (0.0, 30.0, 80.0):
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        part = read_sheet(sheet_of(ink.map(lambda x, y, c=c, s=s: (c * x - s * y, s * x + c * y))), MM).part
        assert (part.outer_diameter, part.length) == (pytest.approx(60), pytest.approx(10))


def chamfered(chamfer, wall, corner, low=15.0, high=15.0):
    """A groove 8 wide with mouth chamfers, upright walls and floor corners; the land behind it may be higher."""
    q, floor = math.tan(math.pi / 8), low - chamfer - wall - corner
    foot = low - chamfer - wall
    corners = [(0, low), (-8 + chamfer, low), (-8, low - chamfer), (-8, foot, -q if corner else 0.0)]
    corners += [(-8 - corner, floor)] if corner else []
    corners += [(-16 + corner, floor, -q), (-16, foot)] if corner else [(-16, floor)]
    corners += [(-16, high - chamfer), (-16 - chamfer, high), (-40, high)]
    return read_sheet(sheet_of(full_outline(Drawn(tuple(corners)))), ReadOptions(units="mm", grooved=True))


@pytest.mark.parametrize(
    ("chamfer", "wall", "corner"), [(0.5, 0.2, 0.3), (0.5, 0.2, 0.0), (1.0, 0.05, 0.2), (0.5, 2, 0.3)]
)
@pytest.mark.parametrize("high", [15.0, 19.0])
def test_a_mouth_chamfer_longer_than_the_wall_under_it_is_a_chamfer(chamfer, wall, corner, high):
    (groove,) = chamfered(chamfer, wall, corner, high=high).part.grooves
    assert (groove.z_near, groove.z_far, groove.mouth_diameter) == (-8, -16, 30)
    assert groove.floor_diameter == pytest.approx(30 - 2 * (chamfer + wall + corner))
    assert groove.edge_chamfer == pytest.approx(chamfer)


def test_a_cone_above_a_short_wall_is_a_land_where_the_other_land_says_so():
    reading = read((0, 15), (-8, 15), (-8, 14), (-16, 14), (-16, 15), (-26, 20), (-40, 20))
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.mouth_diameter, groove.edge_chamfer) == ("rectangular", 30, 0)


def wandering(rng):
    """A line of arcs in chords, each of its own radius, turn and raggedness, with straight pieces between them."""
    points, direction = [(rng.uniform(-300, 0), rng.uniform(0, 200))], 0.0
    for _ in range(rng.randint(1, 4)):
        radius, turn = 10 ** rng.uniform(-1, 3), rng.uniform(0.01, 0.4) * rng.choice([1, -1])
        ragged, oval = rng.choice([0.0, 1e-6, 1e-3, 1e-2]), rng.choice([0.0, 0.3])
        for k in range(rng.randint(2, 40)):
            direction += turn * (1 - oval * math.sin(k * turn) ** 2)
            long = 2 * radius * math.sin(abs(turn) / 2)
            z, r = points[-1]
            points.append(
                (z + long * math.cos(direction) + rng.uniform(-ragged, ragged), r + long * math.sin(direction))
            )
    return [Piece(a, b, 0.0, True) for a, b in pairwise(points)]


@pytest.mark.parametrize("seed", range(10))
def test_the_longest_arc_is_found_that_trying_every_end_finds(seed):
    rng = random.Random(seed)
    chain, found, k = curves._cornered(wandering(rng)), [], 0
    while k < len(chain):
        arcs = ((curves._arc(chain[k:end], FINE), end) for end in range(curves._run(chain, k), k + 2, -1))
        piece, k = next(((arc, end) for arc, end in arcs if arc), (chain[k], k + 1))
        found.append(piece)
    assert rounded(chain, FINE) == found


@pytest.mark.parametrize(("count", "told"), [(3, 3), (4, 1), (200, 1)])
def test_many_recesses_of_one_form_on_one_side_are_told_at_once(count, told):
    """By their numbers; a rectangular groove among them goes on being one that nothing is told of."""
    dips = [(z, r) for k in range(count) for z, r in ((-10 * k - 5, 20), (-10 * k - 6, 18), (-10 * k - 7, 20))]
    plain = [(-10 * count - 5, 20), (-10 * count - 5, 17), (-10 * count - 8, 17), (-10 * count - 8, 20)]
    reading = read((0, 20), *dips, *plain, (-10 * count - 20, 20), draw=half_profile)
    assert [str(f.code) for f in reading.findings] == ["not-rectangular"] * told
    if told == 1:
        (one,) = reading.findings
        assert one.message.startswith(f"Recesses 1 to {count} from Z-5 to Z-{10 * count - 3} are vees")
        assert (one.groove, len(one.spots)) == (None, min(count - 1, 12))
    else:
        assert [f.groove for f in reading.findings] == [1, 2, 3]
