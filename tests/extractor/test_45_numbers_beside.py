"""A bare number beside the outline makes no dimension line of it; a number on lines that nothing hangs on does."""

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, section, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.viewing.roles import Role, assign

MM = ReadOptions(units="mm")
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))
STEP = Turned(((10.0, 30.0), (50.0, 40.0)), (Cut(-20.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
SLEEVE = Turned(RING.steps, RING.cuts, bore=16.0)

# A length of the part and where it is written, beside the line that is so long.
BESIDE = [("10", -5, 21), ("17", -20, 21), ("27", -46, 21), ("3", -11.5, 16), ("40", -61, 0), ("34", -10.5, 0)]


def figures(reading):
    part = reading.part
    return part and (part.outer_diameter, part.length, [(g.z_near, g.z_far, g.floor_diameter) for g in part.grooves])


@each_in_turn(
    ("draw", "part"),
    [(side_view, RING), (side_view, STEP), (full_outline, RING), (half_profile, STEP), (section, SLEEVE)],
    note=BESIDE,
)
def test_a_bare_number_beside_the_outline_changes_nothing(draw, part, note):
    text, x, y = note
    told, bare = (read_sheet(sheet_of(draw(part), texts=texts), MM) for texts in ((Text(text, (x, y), 2.5),), ()))
    assert figures(told) == figures(bare)
    # A number that is no size of the part may size something: 27 is one of the ring and of the sleeve alone.
    asked = ["dimension-unclear"] if text == "27" and part is STEP else []
    assert [f.code for f in told.findings] == [f.code for f in bare.findings] + asked


def ended(over, off=0.0, centre=True):
    """A shaft and three lines at its back, with a number before them: the last step, or the size of a diameter."""
    ink = side_view(RING)
    ink.solid += [(-60.0, s * 12.0 + off, -92.0 - over, s * 12.0 + off, 0.0) for s in (1, -1)]
    ink.solid.append((-92.0, 12.0 + off, -92.0, -12.0 + off, 0.0))
    ink.centre = [(5.0, 0.0, -95.0, 0.0, 0.0)] if centre else []
    return sheet_of(ink, texts=(Text("24", (-93.5, -2.0), 3.5, angle=90.0),))


@pytest.mark.parametrize(("over", "length"), [(0.0, 92.0), (0.5, 60.0)])
def test_an_end_face_is_told_from_a_diameter_s_line_by_what_runs_on(over, length):
    """Extension lines run on beyond their dimension line (ISO 129-1, from memory); the lines of a step do not."""
    assert figures(read_sheet(ended(over), MM))[1] == length


@pytest.mark.parametrize(("how", "pieces"), [({"off": 0.011}, 0), ({"off": 0.013}, 1), ({"centre": False}, 1)], ids=str)
def test_an_end_face_has_its_middle_on_a_centre_line(how, pieces):
    """Both ends together off by a thousandth of 24."""
    assert len(assign(ended(0.0, **how)).told.pieces) == pieces


def chained(*lengths, over=0.0):
    """Dimensions side by side above a shaft, without heads, on extension lines that they share."""
    ink, texts, at = side_view(RING), [], 0.0
    for length in lengths:
        ink.solid.append((at, 32.0, at - length, 32.0, 0.0))
        texts.append(Text(f"{length:g}", (at - length / 2, 32.6), 2.5))
        ink.solid.append((at, 20.0, at, 32.0 + over, 0.0))
        at -= length
    ink.solid.append((at, 20.0, at, 32.0 + over, 0.0))
    return sheet_of(ink, texts=tuple(texts))


@pytest.mark.parametrize("over", [0.0, 2.0])
@pytest.mark.parametrize("lengths", [(60.0,), (10.0, 3.0), (10.0, 3.0, 17.0, 3.0, 27.0)])
def test_dimensions_without_heads_are_known_by_their_numbers(lengths, over):
    sheet = chained(*lengths, over=over)
    roles = assign(sheet)
    assert sorted(d.dimension.measured for d in roles.told.pieces) == pytest.approx(sorted(lengths))
    said = [str(role) for role in roles.of(len(sheet.segments))]
    assert (said.count(Role.DIMENSION), said.count(Role.EXTENSION)) == (len(lengths), len(lengths) + 1)
    assert figures(read_sheet(sheet, MM)) == figures(read_sheet(sheet_of(side_view(RING)), MM))


def ticked(slant):
    """A dimension line whose ends are oblique strokes, with a size of its own beside it."""
    ink = side_view(RING)
    ink.solid += [(-10.0, 22.0, -10.0, 32.0, 0.0), (-30.0, 22.0, -30.0, 32.0, 0.0), (-10.0, 30.0, -30.0, 30.0, 0.0)]
    for x in (-10.0, -30.0):
        ink.solid.append((x - 1.0, 30.0 - slant, x + 1.0, 30.0 + slant, 0.0))
    return sheet_of(ink, texts=(Text("25", (-20.0, 30.6), 2.5),))


@pytest.mark.parametrize(("slant", "known"), [(1.0, True), (0.5, True), (0.44, False), (2.1, True), (2.2, False)])
def test_oblique_ticks_end_a_dimension_line_and_its_text_may_say_another_length(slant, known):
    """Slants of 45, 26.6, 23.7, 64.5 and 65.6 degrees: the limits are 25 and 65."""
    assert [d.dimension.text for d in assign(ticked(slant)).told.pieces] == (["25"] if known else [])


@pytest.mark.parametrize(("off", "known"), [(0.0059, True), (0.0061, False)])
def test_a_number_says_the_length_of_a_line_only_within_rounding(off, known):
    sheet = chained(60.0)
    text = Text(f"{60 / (1 + off):.9f}", (-30.0, 32.6), 2.5)
    pieces = assign(sheet_of(side_view(RING), texts=())).told.pieces
    assert pieces == ()
    found = assign(type(sheet)(sheet.file, sheet.sha256, sheet.segments, texts=(text,))).told.pieces
    assert bool(found) == known


@pytest.mark.parametrize("side", [1, -1])
def test_a_leader_of_strokes_that_crosses_the_outline_is_none_of_it(side):
    """Its tip lies on a groove's floor, its text stands to the right or to the left of its shelf."""
    ink, words = side_view(RING), "GROOVE 3 WIDE"
    knee = (-11.5 + 14.0 * side, -31.0)
    ink.solid += [(-11.5, -17.0, *knee, 0.0), (*knee, knee[0] + 2.0 * side, knee[1], 0.0)]
    at = knee[0] + 3.0 if side > 0 else knee[0] - 3.0 - 0.7 * 2.5 * len(words)
    reading = read_sheet(sheet_of(ink, texts=(Text(words, (at, -32.0), 2.5),)), MM)
    assert figures(reading) == figures(read_sheet(sheet_of(side_view(RING)), MM))
    assert [f.code for f in reading.findings if f.level != "note"] == []
