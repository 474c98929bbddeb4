"""A line of a bore or of a groove in it that is not drawn: what it left open is heard, whatever is read without it."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, rotated, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.placing import placing
from extractor.placing.in_pieces import _linked
from extractor.sheet import Dimension, DimensionKind
from extractor.viewing.choice import choose

MM = ReadOptions(units="mm")
SLEEVE = Turned(((46.0, 44.0),), (Cut(-20.0, 3.0, 38.0),))
BORE = {
    "the bore before the groove": (0, 9, -12, 9),
    "the near wall": (-12, 9, -12, 10.5),
    "the floor": (-12, 10.5, -14, 10.5),
    "the far wall": (-14, 10.5, -14, 9),
    "the bore behind it": (-14, 9, -46, 9),
}


def stops(reading):
    return [str(f.code) for f in reading.findings if f.stops]


def hollowed(ink, lines, pen="hidden", sides=(1, -1)):
    """The ink with lines of the bore on some sides of the axis."""
    getattr(ink, pen).extend((a, s * b, c, s * d, 0.0) for a, b, c, d in lines for s in sides)
    return ink


def inside(reading):
    return [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves if g.where == "inside"]


VIEWS = {
    "whole": (side_view, (1, -1)),
    "outline": (full_outline, (1, -1)),
    "half": (half_profile, (1,)),
}


@pytest.mark.parametrize(("draw", "sides"), VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize("turn", [0, 90])
def test_a_groove_in_a_dashed_bore_is_read(draw, sides, turn):
    reading = read_sheet(sheet_of(hollowed(draw(SLEEVE), BORE.values(), sides=sides), rotated(turn)), MM)
    assert (stops(reading), inside(reading)) == ([], [(-12.0, -14.0, pytest.approx(21.0))])


@all_pairs(("draw", "sides"), VIEWS.values(), missing=BORE, turn=[0, 90])
def test_so_it_is_heard_where_a_line_of_it_is_missing(draw, sides, missing, turn):
    lines = [line for name, line in BORE.items() if name != missing]
    reading = read_sheet(sheet_of(hollowed(draw(SLEEVE), lines, sides=sides), rotated(turn)), MM)
    assert stops(reading) == ["outline-unclear"]
    (stop,) = [f for f in reading.findings if f.stops]
    taken = read_sheet(
        sheet_of(hollowed(draw(SLEEVE), lines, sides=sides), rotated(turn)),
        ReadOptions(units="mm", accept=frozenset({stop.key})),
    )
    assert stops(taken) == []


def in_section(missing, sides, edges=(-12.0, -14.0)):
    """The sleeve in section, with edges seen behind its bore, without one line of the groove in it."""
    ink = full_outline(SLEEVE) if len(sides) > 1 else half_profile(SLEEVE)
    ink.solid += [(z, -9.0 * (len(sides) > 1), z, 9.0, 0.0) for z in edges]
    return hollowed(ink, [line for name, line in BORE.items() if name != missing], "solid", sides)


@all_pairs(missing=["the near wall", "the floor", "the far wall"], sides=[(1, -1), (1,)], edges=[(-12.0, -14.0), ()])
def test_lines_of_a_bore_in_section_stand_in_a_row_and_are_no_dashes(missing, sides, edges):
    """The bore before the groove and behind it are in line, with a gap between them that is shorter than either."""
    assert inside(read_sheet(sheet_of(in_section(None, sides, edges)), MM)) == [(-12.0, -14.0, pytest.approx(21.0))]
    assert stops(read_sheet(sheet_of(in_section(missing, sides, edges)), MM)) == ["outline-unclear"]


def test_that_they_hang_is_a_stop_and_named_before_a_mark_in_one_half():
    ink = hollowed(in_section("the floor", (1, -1), ()), [(-21, 19, -21, 22)], "solid", (1,))
    assert stops(read_sheet(sheet_of(ink), MM)) == ["outline-unclear"]


ENDS = {
    "beside the axis": ((-12, 0.05), "outline-unclear"),
    "at the axis": ((-12, 0.04), None),
    "within the outside": ((-12, 21.95), "outline-unclear"),
    "at the outside": ((-12, 21.96), None),
    "in the air of a groove": ((-21.5, 20.0), None),
}


@pytest.mark.parametrize(("end", "code"), ENDS.values(), ids=ENDS)
def test_a_hidden_line_ends_loose_off_the_axis_and_within_the_outside(end, code):
    """By more than a gap that is closed: a thousandth of the size of the view, 63.7, along the line itself."""
    ink = hollowed(full_outline(SLEEVE), [(0, 12, *end)])
    assert stops(read_sheet(sheet_of(ink), MM)) == ([code] if code else [])


@pytest.mark.parametrize(("off", "code"), [(0.012, "outline-unclear"), (0.013, None)])
def test_its_image_in_the_other_half_ends_so_as_well(off, code):
    """Within the same 0.0127; a hidden line of one half alone is a hole's or a flat's."""
    ink = full_outline(SLEEVE)
    ink.hidden += [(0, 12, -12, 12, 0.0), (0, -12, -12 - off, -12, 0.0)]
    assert stops(read_sheet(sheet_of(ink), MM)) == ([code] if code else [])


@pytest.mark.parametrize(("away", "told"), [(0.0, []), (0.012, []), (0.02, ["outline-unclear"])])
def test_a_piece_of_the_far_mouth_of_a_hole_seen_end_on_is_in_its_circle(away, told):
    """Within the same 0.0127: a CAD program draws what of that mouth is seen to lie behind the near one."""
    ink = side_view(SLEEVE)
    ink.solid += [(-35.0, 0.0, -31.0, 0.0, 1.0), (-31.0, 0.0, -35.0, 0.0, 1.0)]
    x, y = 1.2 * (2.0 + away) / 2.0, 1.6 * (2.0 + away) / 2.0
    ink.hidden += [(-33.0 + x, s * y, -33.0, s * 1.9, 0.0) for s in (1, -1)]
    assert stops(read_sheet(sheet_of(ink), MM)) == told


def test_a_visible_line_that_hangs_in_the_metal_is_no_hidden_one():
    ink = hollowed(hollowed(side_view(SLEEVE), BORE.values()), [(-30, 12, -40, 12)], "solid")
    assert stops(read_sheet(sheet_of(ink), MM)) == []


DIAMETER = Dimension(DimensionKind.LINEAR, ((-20.0, 22.0), (-20.0, -22.0)), 90.0, 44.0, "\u00d844")
UPRIGHT = Dimension(DimensionKind.LINEAR, ((-22.0, -20.0), (22.0, -20.0)), 0.0, 44.0, "\u00d844")


def without_axis(missing=(), turn=0):
    """A part without a centre line: a groove of floor 32, 8 from the front, the floor of some halves missing."""
    ink = side_view(Turned(((11.0, 36.0), (35.0, 44.0)), (Cut(-8.0, 3.0, 32.0),)), None)
    floors = [(-8.0, s * 16.0, -11.0, s * 16.0) for s in missing]
    ink.solid = [line for line in ink.solid if not any({line[:2], line[2:4]} == {f[:2], f[2:]} for f in floors)]
    return sheet_of(ink, rotated(turn), dimensions=(DIAMETER,) if not turn else (UPRIGHT,))


@pytest.mark.parametrize("turn", [0, 90])
@pytest.mark.parametrize("missing", [(1,), (-1,)])
def test_a_line_that_alone_joins_two_figures_on_one_axis_has_lost_its_image(missing, turn):
    assert stops(read_sheet(without_axis((), turn), MM)) == []
    assert stops(read_sheet(without_axis(missing, turn), MM)) == ["in-pieces"]
    at = (-28.0, 0.0) if turn == 0 else (0.0, -28.0)
    assert stops(read_sheet(without_axis(missing, turn), ReadOptions(units="mm", at=at))) == ["in-pieces"]


def test_what_is_told_of_the_choice_is_told_with_it(monkeypatch):
    caution = Finding(Level.CAUTION, DrawingCode.LEFT_OUT, "x")
    monkeypatch.setattr(placing, "choose", lambda *given: replace(choose(*given), findings=(caution,)))
    found = read_sheet(without_axis((1,)), ReadOptions(units="mm", at=(-28.0, 0.0))).findings
    assert [f.code for f in found] == ["left-out", "in-pieces"]


@pytest.mark.parametrize(("link", "joined"), [((1, 10), True), ((1, 5), False), ((5, 10), False), ((5, 6), False)])
def test_a_line_joins_two_figures_if_it_ends_at_both(link, joined):
    """Nodes 0 to 4 are one figure's and 10 to 14 the other's; the line may be in pieces."""
    chains = [(a, a + 1) for start in (0, 10) for a in range(start, start + 4)]
    ways = [*chains, link] if link[1] - link[0] < 9 else [*chains, (1, 7), (7, 10)]
    ink = SimpleNamespace(
        network=SimpleNamespace(edges=ways),
        links=frozenset(range(len(chains), len(ways))),
        clusters=[SimpleNamespace(edges=range(4)), SimpleNamespace(edges=range(4, 8))],
    )
    assert _linked(ink, SimpleNamespace(members=(0,)), SimpleNamespace(members=(1,))) is joined
