"""Two views of a part beside one another, each with a plain line along its middle: not the two halves of one view."""

import pytest
from support.sheets import blank, read_back

from extractor import read_sheet

GROOVE = (10.0, 3.0, 2.0)
"""From the right-hand end, wide, deep: in a bore of 20, in a bush of 40 across and 60 long."""


OUTLINE = [(0, 19), (1, 20), (59, 20), (60, 19)]


def two_views(apart, share=1.1, off=0.0):
    """The outside of a bush below, its section above it; about each a line of the usual pen, `share` of its length.

    The line lies `off` the middle.
    """
    doc = blank()
    space = doc.modelspace()
    at, wide, deep = GROOVE
    for middle, section in ((0.0, False), (apart, True)):
        lower = [(x, middle - r) for x, r in reversed(OUTLINE)]
        space.add_lwpolyline([*((x, middle + r) for x, r in OUTLINE), *lower], close=True)
        for x in (1, 59):
            space.add_line((x, middle - 20), (x, middle + 20))
        out = (share - 1) / 2 * 60
        if share:
            space.add_line((-out, middle + off), (60 + out, middle + off))
        for side in (1, -1) if section else ():
            steps = [
                (0, 10),
                (60 - at - wide, 10),
                (60 - at - wide, 10 + deep),
                (60 - at, 10 + deep),
                (60 - at, 10),
                (60, 10),
            ]
            space.add_lwpolyline([(x, middle + side * r) for x, r in steps])
            for x, r in (steps[1], steps[3]):
                space.add_line((x, middle - r), (x, middle + r))
    return read_sheet(read_back(doc))


@pytest.mark.parametrize("apart", [50.0, 90.0, -75.5])
def test_two_views_one_below_the_other_are_read_together(apart):
    part = two_views(apart).part
    assert (part.outer_diameter, part.length) == (40.0, 60.0)
    (groove,) = part.grooves
    assert (groove.where, groove.z_near, groove.width, groove.floor_diameter) == ("inside", -10.0, 3.0, 24.0)


@pytest.mark.parametrize(("share", "read"), [(1.01, True), (1.0, False), (0.9, False)])
def test_only_a_line_that_runs_out_of_a_view_at_both_ends_is_its_own(share, read):
    assert (two_views(90.0, share).part is not None) is read


@pytest.mark.parametrize(("off", "read"), [(0.0027, True), (0.0032, False)])
def test_the_line_lies_on_the_middle_within_two_parts_in_a_hundred_thousand_of_the_sheet(off, read):
    """The sheet is 66 by 130, so 145.8 from corner to corner."""
    assert (two_views(90.0, off=off).part is not None) is read


def test_without_those_lines_nothing_says_what_is_a_view():
    assert two_views(90.0, share=0.0).part is None
