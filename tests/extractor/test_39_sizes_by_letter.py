"""A size given by a letter that no table on the sheet resolves is asked about: the drawing stands for several parts."""

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind

SHAFT = Turned(((55.0, 36.0),), (Cut(-9.0, 2.0, 31.0), Cut(-21.0, 2.0, 31.0)))


def codes(text, kind=DimensionKind.LINEAR, measured=2.0):
    dimension = Dimension(kind, ((-9.0, 18.0), (-11.0, 18.0)), 0.0, measured, text)
    found = read_sheet(sheet_of(full_outline(SHAFT), dimensions=(dimension,)), ReadOptions(units="mm")).findings
    return [f.code for f in found if f.stops]


@pytest.mark.parametrize(
    "text", ["B", "b", "L1", "d2", "X", "ØD", "B H13", "B1 ±0,1", "B*", "(B)", "2x B", "B (2x)", "K +0,1/0"]
)
def test_a_letter_is_no_size(text):
    assert codes(text) == ["variants"]


@pytest.mark.parametrize("text", ["2", "2 H13", None, "<>", "2x 2", "2 B", "REF", "TYP", "h11", "M2"])
def test_what_is_a_size_a_class_or_a_word_is_none(text):
    assert "variants" not in codes(text)


@pytest.mark.parametrize(("kind", "measured"), [(DimensionKind.RADIUS, 2.0), (DimensionKind.LEADER, 0.0)])
def test_letters_at_leaders_and_radii_name_other_things(kind, measured):
    assert "variants" not in codes("B", kind, measured)
