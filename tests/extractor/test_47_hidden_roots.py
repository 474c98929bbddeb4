"""The root of a thread drawn as hidden lines (ISO 6410-1 has thin ones, from memory) is no bore."""

from itertools import pairwise

import numpy as np
import pytest
from support.draw import Ink, rotated, sheet_of, shifted
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.finding import Level
from extractor.geometry.network import Strokes
from extractor.sheet import Text
from extractor.viewing.thread_roots import thread_roots

OUTSIDE = [("outside", -26.0, -30.0, 20.0)]
NAMED = (Text("M20x1.25", (-30.0, -60.0), 2.5),)
CENTRE = [((0.0, 3.0), (-3.5, 1.0)), ((-3.5, 1.0), (-6.0, 1.0)), ((-6.0, 1.0), (-6.0, 0.0))]
"""A centre hole in the front face."""
RIM = [
    (0, 0), (0, 9), (-1, 10), (-18, 10), (-18, 12), (-26, 12), (-26, 10), (-30, 10), (-30, 12), (-50, 12), (-50, 0),
]  # fmt: skip


def shaft(*hidden, end=-14.0, foot=-10.0, edges=(-1.0, -18.0, -26.0, -30.0), lower=True):
    """A shaft with a thread of 20 on its front end, 18 long, which ends in a line at `end`; `hidden` on both sides."""
    sides = (1, -1) if lower else (1,)
    ink = Ink()
    for s in sides:
        rim = [(float(z), float(s * r), 0.0) for z, r in RIM]
        ink.solid += [(a[0], a[1], b[0], b[1], 0.0) for a, b in pairwise(rim)]
        ink.hidden += [(a[0], s * a[1], b[0], s * b[1], 0.0) for a, b in hidden]
    low = -10.0 if lower else 0.0
    ink.solid += [(z, low, z, 10.0, 0.0) for z in edges]
    ink.solid += [(end, foot if lower else 0.0, end, 10.0, 0.0)] if end is not None else []
    ink.centre += [(4.0, 0.0, -54.0, 0.0, 0.0)]
    return ink


def read(ink, texts=(), move=lambda x, y: (x, y), units="mm"):
    reading = read_sheet(sheet_of(ink, move, texts=texts), ReadOptions(units=units))
    assert reading.part is not None
    stops = [f.code for f in reading.findings if f.level is Level.STOP]
    grooves = [(g.where, g.z_near, g.z_far, pytest.approx(g.floor_diameter)) for g in reading.part.grooves]
    return stops, grooves, reading.part.bore


def root(begin, finish, radius=9.25):
    return (begin, radius), (finish, radius)


@all_pairs(
    move=[shifted(0, 0), shifted(200, 100), rotated(90.0, 0.0, 0.0)],
    begin=[0.0, -0.25, -0.4],
    texts=[(), NAMED],
)
def test_a_root_from_the_end_or_its_chamfer_to_the_line_that_ends_the_thread(begin, texts, move):
    assert read(shaft(root(begin, -14.0)), texts, move) == ([], OUTSIDE, None)


def test_so_it_is_in_half_a_view():
    assert read(shaft(root(0.0, -14.0), lower=False)) == ([], OUTSIDE, None)


@pytest.mark.parametrize("begin", [0.0, -0.4])
def test_with_a_centre_hole_no_groove_is_found_round_that(begin):
    """The root and the edge lines are closed off like one."""
    stops, grooves, bore = read(shaft(root(begin, -14.0), *CENTRE))
    assert (stops, grooves) == ([], OUTSIDE)
    assert max(r for _, r in bore) == 3.0


@pytest.mark.parametrize(("texts", "wide"), [(NAMED, 3.0), ((), 9.25)])
def test_to_a_shoulder_it_is_one_where_a_thread_is_named(texts, wide):
    """Nothing else tells it from a bore as deep as the shoulder stands; named it is one from there as well."""
    _, _, bore = read(shaft(root(0.0, -18.0), *CENTRE, end=None), texts)
    assert max(r for _, r in bore) == wide


@pytest.mark.parametrize(("radius", "bored"), [(7.45, True), (7.55, False)])
def test_a_root_is_shallow(radius, bored):
    """A quarter of 10 is 2.5; 14 long is more than four times that."""
    bore = read(shaft(root(0.0, -14.0, radius)))[2]
    assert any(abs(r - radius) < 0.01 for _, r in bore or ()) is bored


@pytest.mark.parametrize(("long", "bored"), [(7.9, True), (8.1, False)])
def test_a_root_is_long(long, bored):
    """Four times as long as 2 deep."""
    bore = read(shaft(root(0.0, -long, 8.0), end=-long))[2]
    assert any(abs(r - 8.0) < 0.01 for _, r in bore or ()) is bored


def test_a_bore_with_a_floor_of_its_own_is_one():
    """Where a thread of another kind ends at its floor."""
    for texts in ((), NAMED):
        _, _, bore = read(shaft(root(0.0, -14.0, 8.0), ((-14.0, 8.0), (-14.0, 0.0))), texts)
        assert bore is not None
        assert max(r for _, r in bore) == 8.0


def test_a_thin_bore_from_end_to_end_is_one():
    for texts in ((), NAMED):
        _, grooves, bore = read(shaft(root(0.0, -50.0, 8.0), end=None), texts)
        assert grooves == OUTSIDE
        assert bore is not None
        assert max(r for _, r in bore) == 8.0


@pytest.mark.parametrize("begin", [-0.25, -0.4, -1.0])
def test_a_thin_root_round_a_short_bore_is_no_groove_of_it(begin):
    """Drawn as it should be; the bore ends within the length of the thread."""
    ink = shaft(((0.0, 3.0), (-6.0, 3.0)), ((-6.0, 3.0), (-6.0, 0.0)))
    ink.solid += [(begin, r, -14.0, r, 0.0) for r in (9.25, -9.25)]
    stops, grooves, bore = read(ink)
    assert (stops, grooves) == ([], OUTSIDE)
    assert max(r for _, r in bore) == 3.0


def test_a_line_below_another_is_no_root():
    """A flat lies between it and the land."""
    ink = shaft(root(0.0, -14.0, 8.0))
    ink.solid += [(-2.0, r, -13.0, r, 0.0) for r in (9.0, -9.0)]
    assert any(abs(r - 8.0) < 0.01 for _, r in read(ink)[2] or ())


def test_a_groove_in_a_bore_under_a_thread_is_kept():
    lines = [((0, 6), (-5, 6)), ((-5, 6), (-5, 8)), ((-5, 8), (-14, 8)), ((-14, 8), (-14, 6)), ((-14, 6), (-50, 6))]
    for texts in ((), NAMED):
        _, grooves, _ = read(shaft(*lines), texts)
        assert ("inside", -5.0, -14.0, 16.0) in grooves


def strokes(*rows):
    return Strokes(np.array(rows, dtype=float).reshape(-1, 4), np.zeros(len(rows)), np.arange(len(rows)))


FACES = [(0, 0, 0, 10), (-40, 0, -40, 10)]
LAND = (0, 10, -40, 10)
FRONT, BACK = (0, 9.25, -18, 9.25), (-18, 9.25, -40, 9.25)


@pytest.mark.parametrize(
    ("line", "solid", "named", "is_root"),
    [
        (FRONT, [LAND, (-18, 10, -18, 0)], False, True),
        (BACK, [LAND, (-18, 10, -18, 0)], False, True),
        (FRONT, [LAND], True, False),  # an edge at an end face of the part alone
        (BACK, [LAND], True, False),
        ((-0.1, 9.25, -18, 9.25), [LAND, (-0.11, 10, -0.11, 0)], True, True),
        ((-0.1, 9.25, -18, 9.25), [LAND, (-0.09, 10, -0.09, 0)], True, False),
        ((-18, 9.25, -39.9, 9.25), [LAND, (-39.89, 10, -39.89, 0)], True, True),
        ((-18, 9.25, -39.9, 9.25), [LAND, (-39.91, 10, -39.91, 0)], True, False),
        (FRONT, [LAND, (-18, 10, -18, 9.34)], False, True),  # an edge as far as the line
        (FRONT, [LAND, (-18, 10, -18, 9.36)], False, False),
        (FRONT, [LAND, (-18, 9.91, -18, 0)], True, True),  # and from the land
        (FRONT, [LAND, (-18, 9.89, -18, 0)], True, False),
        (FRONT, [LAND, (-30, 9.6, -40, 9.6), (-18, 10, -18, 0)], False, True),  # another land is not over it
        # The land has a corner there, and what goes on is another line at the foot of the edge.
        (FRONT, [(0, 10, -18, 10), (0, 3, -40, 3), (-18, 10, -18, 3)], False, False),
        (BACK, [(-18, 10, -40, 10), (0, 3, -40, 3), (-18, 10, -18, 3)], False, False),
        (FRONT, [(0, 10, -18, 10), (0, 3, -40, 3), (-18, 10, -18, 3)], True, True),
    ],
)
@pytest.mark.parametrize("sign", [1, -1])
def test_where_a_root_ends(line, solid, named, is_root, sign):
    """One place is within 0.1."""
    hidden, laid = strokes(line), strokes(*FACES, *solid)
    for one in (hidden, laid):
        one.ends[:, 1::2] *= sign
    assert thread_roots(hidden, laid, hidden, 0.1, named=named).tolist() == [is_root]


def with_bore(radius, begin, end, foot, chamfer=True, body=None, bore=5.0, last=None):
    """A shaft with a bore, all in full lines and without hatching, and the root of a thread of 20 on its front end.

    The edges of the chamfer and of the thread's end run in to `foot`. `last`: the line at the root's end runs from
    there to the root alone, as the floor of a ring in the face does.
    """
    body = body or [(-18, 10), (-18, 12), (-26, 12), (-26, 10), (-30, 10), (-30, 12), (-50, 12)]
    rim = [(0, bore), *([(0, 9.25), (-0.75, 10)] if chamfer else [(0, 10)]), *body, (-50, bore)]
    ink = Ink(centre=[(4.0, 0.0, -54.0, 0.0, 0.0)])
    for s in (1, -1):
        ink.chain([(float(z), float(s * r), 0.0) for z, r in rim])
        ink.solid += [(0.0, s * bore, -50.0, s * bore, 0.0), (begin, s * radius, end, s * radius, 0.0)]
        ink.solid += [(z, 0.0, z, s * bore, 0.0) for z in (0.0, -50.0)]
        ink.solid += [(z, s * foot, z, s * r, 0.0) for z, r in body[1::2] if z != -50]
        ink.solid += [(-0.75, s * foot, -0.75, s * 10.0, 0.0)] if chamfer else []
        top = 10.0 if last is None else radius
        ink.solid += [(end, s * (foot if last is None else last), end, s * top, 0.0)]
    return ink


@all_pairs(
    ("radius", "end"),
    [(9.25, -14.0), (8.5, -14.0), (8.5, -16.0)],
    texts=[(), NAMED],
    chamfer=[True, False],
    foot=[0.0, 5.0],
)
def test_a_full_root_from_the_face_over_a_bore_is_no_groove_in_the_face(radius, end, foot, chamfer, texts):
    """With the bore, the face and the edge that ends the thread it closes off a box like one."""
    assert read(with_bore(radius, 0.0, end, foot, chamfer), texts)[:2] == ([], OUTSIDE)


@pytest.mark.parametrize(("texts", "rings"), [(NAMED, 0), ((), 1)])
def test_to_a_shoulder_a_full_root_is_one_where_a_thread_is_named_too(texts, rings):
    grooves = read(with_bore(8.5, 0.0, -18.0, 5.0, chamfer=False), texts)[1]
    assert sum(where == "face" for where, *_ in grooves) == rings


@pytest.mark.parametrize("texts", [(), NAMED])
def test_a_groove_in_the_face_round_a_bore_is_read(texts):
    """Its floor ends at its walls: 8.5 to 7 from the axis, 6 deep."""
    ink = with_bore(8.5, 0.0, -6.0, 7.0, chamfer=False, last=7.0)
    ink.solid += [(0.0, s * 7.0, -6.0, s * 7.0, 0.0) for s in (1, -1)]
    assert ("face", 0.0, -6.0, 14.0) in read(ink, texts)[1]
