"""The ledger of ink: every drawn length once, as what explains it or as not explained."""

import math

import pytest
from support.draw import Cut, Turned, box, full_outline, half_profile, mixed, section, sheet_of, shifted, side_view
from support.forms import form as as_form

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from rillwright.records.recording import recorded_ink

MM = ReadOptions(units="mm")
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
ROUND = 2 * (60.0 + 4 * 3.0) + 2 * 40.0
"""The ring's outline by hand: both long sides with their grooves' walls, both end faces."""


def ink(drawn, **more):
    return read_sheet(sheet_of(drawn, **more), MM).ink


def drawn_length(ink):
    """The straight lines of a drawing added up, doubles once."""
    rows = {tuple(sorted(((x0, y0), (x1, y1)))) for x0, y0, x1, y1, _ in (*ink.solid, *ink.centre, *ink.hidden)}
    return sum(math.dist(a, b) for a, b in rows)


def test_all_of_an_outline_is_explained_and_its_centre_line_too():
    told = ink(full_outline(RING))
    assert told.outline == pytest.approx(ROUND)
    assert told.explained == pytest.approx({"centre": 70.0})
    assert (told.unexplained, told.left) == (0.0, ())


@pytest.mark.parametrize("draw", [side_view, full_outline, half_profile, section])
def test_nothing_is_left_over_of_a_plain_view(draw):
    part = Turned(RING.steps, RING.cuts, bore=12.0) if draw is section else RING
    told = ink(draw(part))
    assert told.unexplained == 0.0
    assert told.outline > 0.0


def test_a_line_that_nothing_explains_is_counted_and_shown():
    drawn = full_outline(RING)
    drawn.solid += [(-30.0, 50.0, -20.0, 50.0, 0.0), (-55.0, 12.0, -50.0, 12.0, 0.0)]
    told = ink(drawn)
    assert told.unexplained == pytest.approx(15.0)
    assert told.outline == pytest.approx(ROUND)
    assert sorted(told.left) == [((-55.0, 12.0), (-50.0, 12.0)), ((-30.0, 50.0), (-20.0, 50.0))]


def test_a_dimension_in_pieces_a_border_and_another_view_are_explained():
    drawn = mixed(full_outline(RING), full_outline(RING).map(shifted(0, 90)), box(-100, -60, 60, 150))
    drawn.solid += [(0.0, 20.0, 0.0, 30.0, 0.0), (-60.0, 20.0, -60.0, 30.0, 0.0), (0.0, 30.0, -60.0, 30.0, 0.0)]
    told = ink(drawn, texts=(Text("60", (-30.0, 30.5), 2.5),))
    assert told.explained == pytest.approx(
        {"centre": 140.0, "dimension": 60.0, "extension": 20.0, "frame": 2 * (160.0 + 210.0), "view": ROUND}
    )
    assert told.unexplained == 0.0
    assert told.total == pytest.approx(drawn_length(drawn))


def test_an_older_outline_leaves_ink_over():
    older = Turned(RING.steps, (Cut(-12.0, 3.0, 34.0), RING.cuts[1]))
    told = ink(mixed(full_outline(RING), full_outline(older, None)))
    assert told.unexplained > 10.0


def test_a_sheet_without_a_part_has_no_ledger():
    assert ink(box(0, 0, 297, 210)) is None


def test_its_json_has_the_names_of_the_interface():
    form = as_form(recorded_ink(ink(full_outline(RING))))
    assert form == {"outline": ROUND, "explained": {"centre": 70.0}, "unexplained": 0.0, "texts": {}}
