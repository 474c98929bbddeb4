"""General notes on a layout around a part in model space: held against the part as those beside it are.

The bar is 60 long and 40 across with one groove 3 wide and 3 deep from 10 on, its corners sharp; the window shows it
at a scale.
"""

import math

import pytest
from support.sheets import blank, read_back

from extractor.reading import read_sheet

UPPER = ((0, 0), (0, 20), (10, 20), (10, 17), (13, 17), (13, 20), (60, 20), (60, 0))


def read(*words, scale=1.0, dimensioned=False, at=(20, 20)):
    """What is said of the bar with texts on its layout: code and level, the front's aside."""
    doc = blank()
    for sign in (1, -1):
        doc.modelspace().add_lwpolyline([(x, sign * y) for x, y in UPPER])
    doc.modelspace().add_line((-5, 0), (65, 0), dxfattribs={"linetype": "CENTER"})
    if dimensioned:
        doc.modelspace().add_linear_dim((0, 30), (0, 20), (60, 20), override={"dimlfac": 1.0}).render()
    paper = doc.layout("Layout1")
    paper.add_viewport((150, 150), (90, 90), (30, 0), 90 / scale)
    for k, line in enumerate(words):
        paper.add_text(line, height=3).set_placement((at[0], at[1] - 15 * k))
    told = read_sheet(read_back(doc)).findings
    return {(f.code.value, f.level.value) for f in told if not f.code.value.startswith("front")}


STOPS = ("note-contradicts", "stop"), ("count-differs", "stop")


@pytest.mark.parametrize(
    "words",
    [
        "ALL GROOVES 4 WIDE", "ALLE EINSTICHE 4 BREIT", "TOUTES LES GORGES LARGEUR 4", "TUTTE LE GOLE LARGHEZZA 4",
        "TODAS LAS RANURAS ANCHO 4", "5 GROOVES", "5 EINSTICHE", "GROOVE 3 WIDE x 2 DEEP", "OVERALL LENGTH 80",
        "V-GROOVE",
    ],
)  # fmt: skip
def test_a_note_on_a_layout_that_is_wrong_of_the_part_stops(words):
    assert {code for code, level in read(words) if level == "stop"} & {*dict(STOPS), "overall-differs"}


@pytest.mark.parametrize(
    "words",
    [
        "ALL GROOVES 3 WIDE", "ALLE EINSTICHE 3 BREIT", "TOUTES LES GORGES LARGEUR 3", "TUTTE LE GOLE LARGHEZZA 3",
        "TODAS LAS RANURAS ANCHO 3", "1 GROOVE", "GROOVE 3 WIDE x 3 DEEP", "OVERALL LENGTH 60", "SHEET 1 OF 2",
        "DEBURR ALL EDGES", "PART NO 4 WIDE", "DRAWN 3.4.2021", "A3", "M8x1", "Ra 3.2", "HARDEN 58 HRC",
    ],
)  # fmt: skip
def test_one_that_is_right_or_about_something_else_says_nothing(words):
    assert not read(words)


@pytest.mark.parametrize("at", [(11.5, 17.0), (11.5, 22.0), (0.0, 0.0), (150.0, 150.0)])
def test_where_it_stands_on_paper_says_nothing_of_a_groove(at):
    """The figures of a place on paper may be those of a groove in model space."""
    assert not read("GROOVE", "2x1", at=at)
    assert read("ALL GROOVES 4 WIDE", at=at) == {STOPS[0]}


@pytest.mark.parametrize("words", ["ALL GROOVES R0.8 IN CORNERS", "ALLE EINSTICHE R0,8", "UNSPECIFIED RADII R0.8"])
def test_corners_that_are_not_drawn_are_told(words):
    assert read(words) == {("corner-not-drawn", "caution")}


def test_a_tolerance_on_a_layout_is_applied():
    doc = blank()
    for sign in (1, -1):
        doc.modelspace().add_lwpolyline([(x, sign * y) for x, y in UPPER])
    doc.modelspace().add_line((-5, 0), (65, 0), dxfattribs={"linetype": "CENTER"})
    doc.layout("Layout1").add_text("ALL GROOVES 3 H13", height=3).set_placement((20, 20))
    (groove,) = read_sheet(read_back(doc)).part.grooves
    assert groove.tolerances["width"] == pytest.approx((0.0, 0.14))


SCALED = ("sheet-scale", "stop")


@pytest.mark.parametrize(
    ("words", "scale", "stops"),
    [
        ("SCALE 2:1", 2.0, False),
        ("SCALE 1:2", 0.5, False),
        ("Maßstab 2:1", 2.0, False),
        ("SCALE 2:1", 1.0, True),
        ("Maßstab 1:2", 1.0, True),
        ("ÉCHELLE 1:1", 0.5, True),
        ("SCALE 1:1", 0.37, False),  # a window fitted to its paper is at no scale
        ("SCALE 1:1", 1 / 25.4, False),  # or paper and part are in two units
        ("NOT TO SCALE", 1.0, True),
    ],
)
def test_a_scale_on_a_layout_is_that_of_what_its_window_shows(words, scale, stops):
    assert (SCALED in read(words, scale=scale)) is stops


@pytest.mark.parametrize("words", ["SCALE 2:1", "Maßstab 1:2"])
def test_a_size_printed_as_drawn_settles_it(words):
    assert SCALED not in read(words, dimensioned=True)


@pytest.mark.parametrize(("off", "usual"), [(1.004, True), (1.006, False)])
def test_how_near_a_window_must_be_to_a_scale(off, usual):
    assert (SCALED in read("SCALE 2:1", scale=off)) is usual
    assert math.isclose(off, 1.0, rel_tol=0.01)
