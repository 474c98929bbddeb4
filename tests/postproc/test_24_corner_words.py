"""Corners by a word where one straight cut meets the next, held against plane geometry worked out here.

What the words ask for is common practice, from memory: the sizes are on the radius, X is a diameter.
"""

from math import atan2, dist, hypot, isclose, sqrt, tan

import pytest
from support.moves import shop, tool
from support.parts import part_of
from support.programs import codes, run_of

from postproc import compare_program, explain, find_dialect
from postproc.converting.convert import convert

HEAD = "G21 G99\nT0101\nG97 S800 M03\nG00 X30. Z2.\nG01 Z0 F.1\n"
TAIL = "\nG00 X100. Z50.\nM30\n"


def cut(body, head=HEAD, dialect="two-block"):
    """The places (z, radius) of the feeds behind the head, from where they begin, and the codes told."""
    run = run_of(head + body + TAIL, dialect)
    begin = head.count("\n")
    feeds = [m for m in run.motions if m.kind == "feed" and m.line > begin]
    return [(feeds[0].z0 / 1000, feeds[0].x0 / 2000), *((m.z1 / 1000, m.x1 / 2000) for m in feeds)], codes(run)


@pytest.mark.parametrize(
    ("body", "ends"),
    [
        # Chamfers of 1 on the radius: 1 off each line, whichever way they go.
        ("X40. ,C1.\nZ-20.", [(0, 19), (-1, 20), (-20, 20)]),
        ("X40.,C1.\nZ-20.", [(0, 19), (-1, 20), (-20, 20)]),
        ("X40. C-1.\nZ-20.", [(0, 19), (-1, 20), (-20, 20)]),
        ("X40. K-1.\nZ-20.", [(0, 19), (-1, 20), (-20, 20)]),
        ("Z-20. C2.\nX40.", [(-18, 15), (-20, 17), (-20, 20)]),
        ("Z-20. I2.\nX40.", [(-18, 15), (-20, 17), (-20, 20)]),
        ("Z-20. C-2.\nX20.", [(-18, 15), (-20, 13), (-20, 10)]),
        ("U10. ,C1.\nW-20.", [(0, 19), (-1, 20), (-20, 20)]),
        ("X40. ,C1.\nZ-20. ,C2.\nX50.", [(0, 19), (-1, 20), (-18, 20), (-20, 22), (-20, 25)]),
        ("X40. ,C1.\nG04 P200\nM08\nG01 Z-20. F.2", [(0, 19), (-1, 20), (-20, 20)]),
        ("X40. ,C5.\nZ-20.", [(0, 15), (-5, 20), (-20, 20)]),
        # 3 off each of two lines at an angle: back along (-4, 3) / 5, and on along Z.
        ("X36. Z-4. ,C2.5\nZ-20.", [(-2, 16.5), (-6.5, 18), (-20, 18)]),
        ("X40. ,C0\nZ-20.", [(0, 20), (-20, 20)]),
    ],
)
def test_a_chamfer_takes_as_much_off_each_line(body, ends):
    places, told = cut(body)
    assert [places[0], *dict.fromkeys(places[1:])] == [(0, 15), *ends]
    assert told == []


@pytest.mark.parametrize(
    ("body", "point", "radius"),
    [
        ("X40. ,R2.\nZ-20.", (0, 20), 2),
        ("X40. R-2.\nZ-20.", (0, 20), 2),
        ("Z-20. R3.\nX40.", (-20, 15), 3),
        ("Z-20. R-3.\nX20.", (-20, 15), 3),
        ("X36. Z-4. ,R2.5\nZ-20.", (-4, 18), 2.5),
        ("X36. Z-4. ,R1.\nX60. Z-7.", (-4, 18), 1),
        ("Z-10. ,R1.5\nX40. Z-4.", (-10, 15), 1.5),
    ],
)
def test_a_rounding_touches_both_lines(body, point, radius):
    """The arc leaves each line at radius x tan of half the turn, and all of it lies that far from one centre."""
    places, told = cut(body)
    start, end = places[0], places[-1]
    one, other = (atan2(q[1] - p[1], q[0] - p[0]) for p, q in ((start, point), (point, end)))
    back = radius * tan(abs((other - one + 9.42477796) % 6.28318531 - 3.14159265) / 2)
    first = tuple(p + (s - p) * back / dist(start, point) for s, p in zip(start, point, strict=True))
    last = tuple(p + (e - p) * back / dist(end, point) for e, p in zip(end, point, strict=True))
    assert places[1] == pytest.approx(first, abs=0.001)
    assert places[-2] == pytest.approx(last, abs=0.001)
    # The centre lies on the line that halves the corner, sqrt(radius^2 + back^2) from it.
    middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
    out = sqrt(radius**2 + back**2) / dist(middle, point)
    centre = tuple(p + (m - p) * out for m, p in zip(middle, point, strict=True))
    assert all(isclose(hypot(z - centre[0], r - centre[1]), radius, abs_tol=0.002) for z, r in places[1:-1])
    assert len(places) > 5
    assert told == []


@pytest.mark.parametrize(
    ("body", "why"),
    [
        ("X40. ,C1.\nG00 Z-20.", "no straight cut comes next"),
        ("X40. ,R1.\nG28 U0 W0", "no straight cut comes next"),
        ("X40. ,R1.", "no straight cut comes next"),
        ("X40. ,C5.001\nZ-20.", "longer than one of the two"),
        ("X40. ,C2.\nZ-1.99", "longer than one of the two"),
        ("X40. ,R5.1\nZ-20.", "longer than one of the two"),
        ("X40. ,C1.\nX50.", "meet in no corner"),
        ("X40. ,R1.\nX36.", "meet in no corner"),
        # A turn so small that the rounding is shorter than a count.
        ("X36. Z-4. ,R1.\nX42.001 Z-8.", "meet in no corner"),
        ("X40. ,C-1.\nZ-20.", "has no sign"),
        ("Z-20. C-1.\nX40.", "says another way"),
        ("X40. I-1.\nZ-20.", "says another way"),
        ("Z-20. K1.\nX40.", "says another way"),
        ("X36. Z-4. C1.\nZ-20.", "along X and Z alone"),
        ("X40. A30.\nZ-20.", "not worked out here"),
        (",C1.\nZ-20.", "no straight cut is in its block"),
    ],
)
def test_a_corner_that_can_not_be_put_in_is_a_stop_at_its_line(body, why):
    run = run_of(HEAD + body + TAIL)
    stops = [f for f in run.findings if f.code == "corner-word" and f.stops]
    assert [f.line for f in stops] == [6]
    assert why in stops[0].message


@pytest.mark.parametrize("corner", [",C1.", ",R1."])
def test_a_corner_before_an_arc_is_left_out_which_an_insert_that_is_judged_may_not_do(corner):
    run = run_of(f"{HEAD}X40. {corner}\nG03 X44. Z-2. R2.{TAIL}")
    assert [(f.code, f.line, f.level.value) for f in run.findings] == [("corner-word", 6, "caution")]
    assert [m.line for m in run.motions if not m.followed] == [6]


@pytest.mark.parametrize("more", [",R1.", "V1."])
def test_two_corners_in_one_block_are_one_too_many_and_so_is_a_stray_word(more):
    places, told = cut(f"X40. ,C1. {more}\nZ-20.")
    assert ("unknown-word", 6) in told
    assert places[1:] == [(0, 19), (-1, 20), (-20, 20)]


@pytest.mark.parametrize(
    ("word", "told"), [("C1.", True), ("R1.", True), ("C-1.", False), (",C1.", False), (",R1.", False)]
)
def test_a_corner_without_a_sign_before_a_line_toward_minus_is_told(word, told):
    found = run_of(f"{HEAD}X40. {word}\nZ-20.{TAIL}").findings
    assert [(f.code, f.line, f.stops) for f in found] == ([("corner-word", 6, False)] if told else [])


@pytest.mark.parametrize(("corner", "right"), [(",C1.", True), (",C1.5", False), (",R1.", True), ("", False)])
def test_a_contour_with_corners_is_roughed_and_finished_as_it_runs(corner, right):
    """The bar of 44 is turned to a land of 40; with a chamfer of 1.5 and with none the way is another."""
    contour = f"N10 G00 X30.\nG01 Z0\nX40. {corner}\nZ-30.\nN20 X46."
    text = HEAD.replace("X30. Z2.\nG01 Z0 F.1", "X46. Z2.") + (
        f"G71 U1. R.5\nG71 P10 Q20 U.4 W.1 F.2\n{contour}\nG70 P10 Q20 F.1" + TAIL
    )
    run = run_of(text)
    assert codes(run) == []
    feeds = [(m.z1, m.x1) for m in run.motions if m.kind == "feed"]
    assert ((-1000, 40_000) in feeds) is right


def test_a_chamfer_cut_with_the_insert_is_judged_like_one_written_out():
    part = part_of([(-10, -13, 34)])
    head = "G21 G99 G40\nG28 U0 W0\nT0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\n"
    tail = "G00 X42.\nG28 U0 W0\nM30\n"
    by_word = f"{head}G00 Z-9.\nG01 X40.\nX37. ,C.5 F.08\nZ-9.9\n{tail}"
    written = f"{head}G00 Z-9.\nG01 X40.\nX38. F.08\nX37. Z-9.5\nZ-9.9\n{tail}"
    found = [compare_program(part, text, shop(tool())) for text in (by_word, written)]
    assert [[(m.drawing, m.state) for m in one.matches] for one in found[:1]] == [
        [(m.drawing, m.state) for m in one.matches] for one in found[1:]
    ]
    assert {f.code for f in found[0].findings} == {f.code for f in found[1].findings}


def test_corners_are_carried_to_another_control_as_lines_and_arcs():
    body = "X40. ,C1.\nZ-20. ,R2.\nX50."
    done = convert(
        HEAD.replace("T0101", "T0101\nG50 S2000") + body + TAIL, find_dialect("two-block"), find_dialect("plunge")
    )
    again = run_of(done.program.text, "plunge")
    wanted = cut(body)[0]
    ends = [(m.z1 / 1000, m.x1 / 2000) for m in again.motions if m.kind == "feed"]
    assert [pytest.approx(end) for end in ends[-len(wanted) + 1 :]] == wanted[1:]


def test_a_corner_is_explained_at_its_block():
    told = explain(HEAD + "X40. ,C1.\nZ-20. ,R2.\nX50. I7." + TAIL, find_dialect("two-block"))
    said = {block.line: block.sentence for block in told.blocks}
    assert said[6].endswith(
        "to diameter 38.000 mm: 4.000 mm outward, measured on the radius"
        "; ,C1. puts a chamfer there, before the next cut."
    )
    assert said[7].endswith("; ,R2. puts a rounding there, before the next cut.")
