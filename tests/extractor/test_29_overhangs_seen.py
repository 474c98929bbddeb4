"""Recesses that reach under the metal as views show them: behind edge lines, dashed, in one half; and what is none.

Views of the same two recesses, a dovetail 5 wide at its mouth and a T-slot, in a bar 40 x 60.
"""

import pytest
from support.draw import Drawn, Ink, mixed, sheet_of, with_centre

from extractor import ReadOptions, read_sheet

MM = ReadOptions(units="mm")


def half(*corners):
    """A closed half section with a recess from Z-20."""
    outline = [(0, 0), (0, 20), (-20, 20), *corners, (-60, 20), (-60, 0)]
    return Ink().chain([(*c, 0.0) for c in outline], close=True)


def mirrored(ink):
    return ink.map(lambda x, y: (x, -y))


def lines(*pairs):
    return [(*a, *b, 0.0) for a, b in pairs]


def view(upper, lower, *more):
    return with_centre(mixed(upper, mirrored(lower), *more), Drawn(((0, 1), (-60, 1))), 5.0)


FORMS = {
    "dovetail": {
        "cut": half((-18, 15), (-27, 15), (-25, 20)),
        "seen": half((-20, 15), (-25, 15), (-25, 20)),
        "under": lines(((-20, 20), (-18, 15)), ((-18, 15), (-20, 15)), ((-25, 20), (-27, 15)), ((-27, 15), (-25, 15))),
    },
    "T-slot": {
        "cut": half((-20, 17), (-17, 17), (-17, 14), (-28, 14), (-28, 17), (-25, 17), (-25, 20)),
        "seen": half((-20, 14), (-25, 14), (-25, 20)),
        "under": lines(
            *(((-20, 17), (-17, 17)), ((-17, 17), (-17, 14)), ((-17, 14), (-20, 14))),
            *(((-25, 17), (-28, 17)), ((-28, 17), (-28, 14)), ((-28, 14), (-25, 14))),
        ),
    },
    "bulb": {
        "cut": half((-20, 17), (-18, 15), (-20, 13), (-25, 13), (-27, 15), (-25, 17), (-25, 20)),
        "seen": half((-20, 13), (-25, 13), (-25, 20)),
        "under": lines(
            *(((-20, 17), (-18, 15)), ((-18, 15), (-20, 13)), ((-25, 17), (-27, 15)), ((-27, 15), (-25, 13))),
        ),
    },
}
EDGES = Ink(solid=lines(((-20, 20), (-20, -20)), ((-25, 20), (-25, -20))))


def dashed(under):
    ink = Ink()
    ink.hidden = under
    return mixed(ink, mirrored(ink))


VIEWS = {
    "a section": lambda f: view(f["cut"], f["cut"]),
    "a section with the edges behind it": lambda f: view(f["cut"], f["cut"], EDGES),
    "a half section, cut above": lambda f: view(f["cut"], f["seen"]),
    "a half section, cut below": lambda f: view(f["seen"], f["cut"]),
    "from the side with hidden lines": lambda f: view(f["seen"], f["seen"], EDGES, dashed(f["under"])),
}


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
@pytest.mark.parametrize("seen", VIEWS.values(), ids=VIEWS)
def test_what_reaches_under_the_metal_is_known_in_every_view(form, seen):
    reading = read_sheet(sheet_of(seen(form)), MM)
    assert [f.code for f in reading.findings if f.stops] == ["overhang"]
    assert reading.part.grooves == ()
    assert [(one.why, one.near, one.far) for one in reading.part.left_to_others] == [("overhang", -20.0, -25.0)]


PLAIN = FORMS["dovetail"]["seen"]


def hatching(step, slope):
    """Strokes at 45 degrees across the metal before the recess, clipped to it; as loose lines."""
    made = []
    for k in range(-60, 60):
        at = -20 + k * step
        low, high = sorted(min(max(slope * (z - at), 0.5), 20.0) for z in (-20.0, 0.0))
        if high > low:
            made.append((at + slope * low, low, at + slope * high, high, 0.0))
    return Ink(solid=made)


def hole(low, high, kind):
    """An axial hole in the wall of the recess, toward the front, in lines of one kind."""
    ink = Ink()
    setattr(ink, kind, lines(((-20, low), (-12, low)), ((-20, high), (-12, high)), ((-12, low), (-12, high))))
    return ink


@pytest.mark.parametrize("kind", ["solid", "hidden"])
def test_a_hole_in_the_wall_drawn_alike_in_both_halves_may_be_an_undercut(kind):
    """A circle of holes and a ring turned into the wall look the same: a person must say."""
    ink = hole(16.5, 18.5, kind)
    reading = read_sheet(sheet_of(view(PLAIN, PLAIN, ink, mirrored(ink))), MM)
    assert [f.code for f in reading.findings if f.stops] == ["overhang"]


@pytest.mark.parametrize("step", [1.0, 2.5])
@pytest.mark.parametrize("slope", [1.0, -1.0])
def test_hatching_in_loose_strokes_makes_no_undercut(step, slope):
    ink = hatching(step, slope)
    reading = read_sheet(sheet_of(view(PLAIN, PLAIN, ink, mirrored(ink))), MM)
    assert "overhang" not in [f.code for f in reading.findings]


def test_a_threads_root_line_that_ends_on_the_floor_is_no_undercut():
    """A relief as deep as the thread's root (common practice: a little deeper) with the root line up to it."""
    ink = Ink(solid=lines(((-20, 15), (0, 15))))
    reading = read_sheet(sheet_of(view(PLAIN, PLAIN, ink, mirrored(ink))), MM)
    assert "overhang" not in [f.code for f in reading.findings]


def test_a_hole_beside_a_shoulder_is_no_undercut():
    """A bolt hole in a flange, down to the shaft it stands on: no metal faces it."""
    flange = Ink().chain([(*c, 0.0) for c in [(0, 0), (0, 15), (-30, 15), (-30, 30), (-60, 30), (-60, 0)]], close=True)
    ink = Ink(solid=lines(((-30, 15), (-45, 15)), ((-30, 22), (-45, 22)), ((-45, 15), (-45, 22))))
    reading = read_sheet(sheet_of(view(flange, flange, ink, mirrored(ink))), MM)
    assert "overhang" not in [f.code for f in reading.findings]


@pytest.mark.parametrize(("lean", "told"), [(0.02, False), (0.05, True)])
def test_one_half_a_little_out_of_true_makes_no_undercut(lean, told):
    """What the halves of this view may lie apart is 0.036 (5e-4 of its diagonal)."""
    upper = half((-20 + lean, 15), (-25, 15), (-25, 20))
    reading = read_sheet(sheet_of(view(upper, PLAIN)), MM)
    assert ("overhang" in [f.code for f in reading.findings]) is told
    if not told:
        assert [(g.z_near, g.z_far) for g in reading.part.grooves] == [(-20.0, -25.0)]


def arc_relief(radius, reach, deep=0.3):
    """A relief whose corner is rounder than it reaches into the shoulder, as form F of DIN 509 (from memory)."""
    floor, wall = 15 - deep, -30 - reach
    return [(-26, 15), (-27.2, floor), (wall + radius, floor, TURN), (wall, floor + radius), (wall, 16.8), (-30, 18)]


TURN = -0.41421356
RELIEFS = {
    "sharp": ([(-27.5, 15), (-29, 14.5), (-30.3, 14.5), (-30.3, 16), (-30, 16.6)], -30.3),
    "a corner that begins before the shoulder": (arc_relief(0.6, 0.2), -30.2),
    "a corner that leaves the floor far before it": (arc_relief(1.6, 0.2), -29.53),
}


@pytest.mark.parametrize(("corners", "far"), RELIEFS.values(), ids=RELIEFS)
@pytest.mark.parametrize("front", [True, False], ids=["shoulder behind", "shoulder before"])
def test_a_relief_that_reaches_into_the_shoulders_face_is_known_behind_its_edge_line(corners, far, front):
    outline = [(0, 0), (0, 15), *corners, (-30, 20), (-60, 20), (-60, 0)]
    if not front:
        turned = reversed(list(zip(outline, [0.0, *(c[2] if len(c) > 2 else 0.0 for c in outline[:-1])], strict=True)))
        outline = [(-60 - c[0], c[1], bulge) for c, bulge in turned]
    ink = Ink().chain([(*c, 0.0)[:3] for c in outline], close=True)
    edge = Ink(solid=lines(((-30, 20), (-30, -20))))
    reading = read_sheet(sheet_of(view(ink, ink, edge)), MM)
    assert [f.code for f in reading.findings if f.stops] == ["overhang"]
    assert reading.part.grooves == ()
    (left,) = reading.part.left_to_others
    assert (left.far if front else -60 - left.near) == pytest.approx(far, abs=0.15)


@pytest.mark.parametrize("corner", [0.0, 0.6], ids=["sharp", "round"])
def test_a_relief_up_to_the_shoulders_face_is_none(corner):
    foot = [(-30 + corner, 14.7, TURN), (-30, 14.7 + corner)] if corner else [(-30, 14.7)]
    outline = [(0, 0), (0, 15), (-26, 15), (-27.2, 14.7), *foot, (-30, 20), (-60, 20), (-60, 0)]
    ink = Ink().chain([(*c, 0.0)[:3] for c in outline], close=True)
    reading = read_sheet(sheet_of(view(ink, ink, Ink(solid=lines(((-30, 20), (-30, -20)))))), MM)
    assert [f.code for f in reading.findings if f.stops] == []
    assert reading.part.left_to_others == ()
