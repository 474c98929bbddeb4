"""Views under the heading of a detail: just inside and just outside of each mark, beside a shaft 60 by 40."""

from types import SimpleNamespace

import pytest
from support.draw import Cut, Ink, Turned, full_outline, mixed, shaft, sheet_of, shifted

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.viewing.axis import Axis
from extractor.viewing.headed import details_among
from extractor.viewing.views import View

PLAIN = SimpleNamespace(clusters=[SimpleNamespace(plain=False), SimpleNamespace(plain=True)])
SHAFT = View(Axis((0.0, 0.0), (1.0, 0.0)), -60.0, 0.0, 20.0, "both", 1.0, (0,))


def bit(long=6.0, reach=4.0, marked=False):
    """A view of that size from (100, 50) to the left: 10 in diagonal as it stands."""
    return View(Axis((100.0, 50.0), (1.0, 0.0), marked=marked), -long, 0.0, reach, "both", 1.0, (0,))


def kept(one, words, at=(94.0, 40.0), first=SHAFT):
    sheet = sheet_of(Ink(), texts=(Text(words, at, 2.5),))
    return details_among(sheet, PLAIN, [first, one]) == []


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("DETAIL B (2:1)", False),
        ("Einzelheit Z 5:1", False),
        ("X (4:1)", False),
        ("DETAIL B", False),
        ("X", True),
        ("SEE DETAIL B", True),
        ("SCALE 2:1", True),
        ("DETAIL B (2:0)", False),
    ],
)
def test_what_a_heading_names_a_detail_is_no_part(words, part):
    assert kept(bit(), words) is part


def test_a_view_with_a_centre_line_of_its_own_may_be_another_part():
    assert kept(bit(marked=True), "DETAIL B (2:1)")


@pytest.mark.parametrize(("words", "size", "part"), [("B (2:1)", 71.5, False), ("B (2:1)", 72.7, True)])
def test_a_detail_shows_a_bit_of_the_largest_view(words, size, part):
    """Half of its diagonal of 72.1, twice as large; drawn at one to one, or at no scale, 36."""
    assert kept(bit(0.8 * size, 0.3 * size), words, at=(95.0, 20.0)) is part
    for words in ("DETAIL B", "DETAIL B (1:1)"):
        assert kept(bit(0.4 * size, 0.15 * size), words, at=(95.0, 35.0)) is part


def test_the_frame_of_the_sheet_is_no_view_that_it_could_show_a_bit_of():
    frame = View(Axis((0.0, 0.0), (1.0, 0.0)), -400.0, 200.0, 150.0, "both", 1.0, (1,))
    assert kept(bit(), "DETAIL B (2:1)", first=frame)


@pytest.mark.parametrize(("below", "part"), [(14.9, False), (15.1, True)])
def test_a_heading_stands_within_six_letter_heights(below, part):
    """Its letters are 2.5 high, the view ends at Y46; it runs on to the right for 24.5."""
    assert kept(bit(), "DETAIL B (2:1)", at=(94.0, 46.0 - below)) is part
    assert kept(bit(), "DETAIL B (2:1)", at=(94.0 - 24.5 - below, 50.0)) is part


def test_a_detail_beside_views_without_centre_lines_leaves_one_part():
    """Edges run right across both, so that either looks turned."""
    detail = Turned(((12.0, 9.0),), (Cut(-4.0, 3.0, 6.0),))
    ink = mixed(full_outline(shaft(), None), full_outline(detail, None).map(shifted(40.0, 70.0)))
    for z in (-10.0, -13.0, -18.0, -21.0, -26.0, -29.0):
        ink.solid.append((z, -17.0, z, 17.0, 0.0))
    ink.solid += [(z + 40.0, 64.0, z + 40.0, 76.0, 0.0) for z in (-4.0, -7.0)]
    for words, stops in (("DETAIL B (2:1)", []), ("NO SUCH", ["several-parts"])):
        sheet = sheet_of(ink, texts=(Text(words, (25.0, 52.0), 2.5),))
        reading = read_sheet(sheet, ReadOptions(units="mm"))
        assert [f.code for f in reading.findings if f.level == "stop"] == stops
        assert ("left-out" in [f.code for f in reading.findings]) is (not stops)
    pointed = read_sheet(
        sheet_of(ink, texts=(Text("DETAIL B (2:1)", (25.0, 52.0), 2.5),)), ReadOptions(units="mm", at=(34.0, 70.0))
    )
    assert [f.code for f in pointed.findings if f.level == "stop"] == ["nothing-there"]
