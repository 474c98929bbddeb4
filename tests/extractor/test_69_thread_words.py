"""Threads told by their designation (ISO 2904, DIN 513, from memory): recesses of its pitch are its teeth."""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text


def stops(text, pitch=4.0, count=5, **more):
    """Codes of the stops of a spindle 32 across with like recesses at a pitch, and a text."""
    spindle = Turned(((60.0, 32.0),), tuple(Cut(-4.0 - pitch * k, 2.0, 28.0) for k in range(count)))
    sheet = sheet_of(side_view(spindle), texts=(Text(text, (-30.0, -40.0), 2.5),), **more)
    return [f.code.value for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.stops or f.code == "thread"]


@pytest.mark.parametrize("text", ["Tr32x4", "TR 32 x 4 LH", "S32x4", "M32X4 - 6g", "Tr64x8", "ACME / Tr32x4-7e"])
def test_recesses_of_the_printed_pitch_on_the_printed_diameter_are_teeth(text):
    """At any scale, and whatever follows."""
    assert stops(text) == ["thread"]


@pytest.mark.parametrize("text", ["Tr32x6", "M6 x 30", "32x4", "Tr32", "M0x4"])
def test_other_designations_leave_grooves_what_they_are(text):
    assert "thread" not in stops(text)


@pytest.mark.parametrize(
    ("pitch", "count", "told"), [(4.039, 5, True), (4.041, 5, False), (4.0, 3, True), (4.0, 2, False)]
)
def test_how_near_the_pitch_and_how_many_make_a_thread(pitch, count, told):
    """A hundredth of 4; two grooves may stand so by chance."""
    assert ("thread" in stops("Tr32x4", pitch, count)) is told


def length(drawn, text, factor=1.0):
    return Dimension(DimensionKind.LINEAR, ((0.0, 16.0), (-drawn, 16.0)), 0.0, drawn, text, factor)


TRUE_SIZES = [length(60.0, "60"), length(4.0, None)]


@pytest.mark.parametrize(
    ("named", "sizes", "told"),
    [
        ("Tr32x4", TRUE_SIZES, True),
        ("Tr64x8", TRUE_SIZES, False),  # the thread of another land, and its pitch on this one by chance
        ("Tr64x8", TRUE_SIZES[:1], True),
        ("Tr64x8", [length(60.0, "120"), length(4.0, "8")], True),
        ("Tr64x8", [length(60.0, None, 2.0), length(4.0, None, 2.0)], True),
        ("Tr64x8", [length(60.0, "60.5"), length(4.0, "4.03")], False),  # within a hundredth
        ("Tr64x8", [length(60.0, "60.7"), length(4.0, "4.03")], True),
        ("Tr32.3x4", TRUE_SIZES, True),
        ("Tr31.6x3.95", TRUE_SIZES, False),
    ],
)
def test_where_sizes_are_true_the_diameter_must_be_that_of_the_recesses(named, sizes, told):
    assert ("thread" in stops(named, dimensions=tuple(sizes))) is told


GROOVE = (-40.0, -43.0, 26.0)
"""A groove behind the thread, no tooth of it."""


def threaded(text, *, sizes=(), accept=()):
    """Levels of what is said of the thread, and the grooves that are left, of a spindle with a thread and a groove."""
    near, far, floor = GROOVE
    teeth = (Cut(-4.0 - 4.0 * k, 2.0, 28.0) for k in range(6))
    spindle = Turned(((60.0, 32.0),), (*teeth, Cut(near, near - far, floor)))
    sheet = sheet_of(side_view(spindle), texts=(Text(text, (-30.0, -40.0), 2.5),), dimensions=tuple(sizes))
    reading = read_sheet(sheet, ReadOptions(units="mm", accept=accept))
    levels = [f.level.value for f in reading.findings if f.code == "thread"]
    grooves = [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] if reading.part else []
    return levels, [f.code.value for f in reading.findings if f.stops], grooves


def test_teeth_on_the_true_diameter_are_left_out_and_grooves_stay():
    assert threaded("Tr32x4", sizes=TRUE_SIZES) == (["caution"], [], [GROOVE])


def test_teeth_at_an_unknown_size_are_asked_for_and_left_out_once_accepted():
    assert threaded("Tr32x4")[0] == ["stop"]
    assert threaded("Tr32x4", accept=("thread",)) == (["caution"], [], [GROOVE])


def test_the_teeth_are_metal_up_to_their_crests():
    spindle = Turned(((60.0, 32.0),), tuple(Cut(-4.0 - 4.0 * k, 2.0, 28.0) for k in range(6)))
    sheet = sheet_of(side_view(spindle), texts=(Text("Tr32x4", (-30.0, -40.0), 2.5),), dimensions=tuple(TRUE_SIZES))
    part = read_sheet(sheet, ReadOptions(units="mm")).part
    assert not part.grooves
    assert {r for _, r in (*part.lands, *part.outline)} == {0.0, 16.0}
