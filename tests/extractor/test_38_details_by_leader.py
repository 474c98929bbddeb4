"""A detail that a leader to its groove names, `SEE DETAIL Z`, without a ring round the place.

Common practice, no source. The detail is drawn from the groove's own numbers, five times as large.
"""

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 32.0)))
ALIKE = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
TIMES, AT = 5.0, (40.0, -140.0)
FLOOR = (-11.5, 17.0)


def place(z, r):
    return AT[0] + TIMES * (z + 11.5), AT[1] + TIMES * (r - 18.5)


def detail(near=-10.0):
    corners = [(-15.0, 20.0), (-13.0, 20.0), (-13.0, 17.0), (near, 17.0), (near, 20.0), (-8.0, 20.0)]
    return Ink().chain([(*place(z, r), 0.0) for z, r in corners])


WIDTH = Dimension(
    DimensionKind.LINEAR, (place(-13.0, 20.0), place(-10.0, 20.0)), 0.0, 15.0, "3 +0.1/0", 1.0, (0.0, 0.1)
)


def led(tip, words="SEE DETAIL Z"):
    return Dimension(DimensionKind.LEADER, (tip, (tip[0] + 5.0, tip[1] + 10.0)), 0.0, 0.0, words)


def read(*leaders, texts=(), lines=(), drawn=None, heading="DETAIL Z (5:1)", part=PART):
    ink = mixed(side_view(part), drawn or detail())
    ink.solid += [(*row, 0.0) for row in lines]
    texts = (Text(heading, (30.0, -120.0), 3.5), *texts)
    return read_sheet(sheet_of(ink, dimensions=(WIDTH, *leaders), texts=texts), ReadOptions(units="mm"))


def codes(reading):
    return [str(f.code) for f in reading.findings if f.level != "note"]


def widths(reading):
    return [g.tolerances.get("width") for g in reading.part.grooves]


HELD = [pytest.approx((0.0, 0.1)), None]


@each_in_turn(
    words=["SEE DETAIL Z", "DETAIL Z", "siehe Einzelheit Z", "Det. Z", "VOIR DETAIL Z"],
    tip=[FLOOR, (-13.0, 19.0), (-10.0, 20.0), (-12.0, 20.0)],
)
def test_a_leader_to_a_groove_is_the_place_of_a_detail(tip, words):
    reading = read(led(tip, words))
    assert codes(reading) == []
    assert widths(reading) == HELD


@pytest.mark.parametrize("words", ["SEE DETAIL Z", "DETAIL Z", "Einzelheit Z"])
def test_one_of_loose_lines_is_so_too(words):
    """By the bare name of the detail as well, which is no second heading."""
    reading = read(
        texts=(Text(words, (-6.0, 32.0), 3.0),),
        lines=[(*FLOOR, -6.5, 33.0), (*FLOOR, -11.0, 18.5), (*FLOOR, -10.6, 18.3)],
    )
    assert codes(reading) == []
    assert widths(reading) == HELD


def test_the_same_detail_may_be_that_of_two_grooves():
    reading = read(led(FLOOR), led((-41.5, 17.0)), part=ALIKE)
    assert codes(reading) == []
    assert all("width" in g.printed for g in reading.part.grooves)
    assert widths(reading) == [HELD[0]] * 2


@pytest.mark.parametrize(("off", "told"), [(0.02, []), (0.04, ["dimension-unclear"])])
def test_the_tip_lies_on_the_groove_as_near_as_places_do(off, told):
    """Within five ten-thousandths of the length of 60, 0.03; on a land it names no place."""
    reading = read(led((-10.0 + off, 20.0)))
    assert [code for code in codes(reading) if code == "dimension-unclear"] == told
    assert widths(reading) == (HELD if not told else [None, None])


@pytest.mark.parametrize("heading", ["DETAIL Y (5:1)", "DETAIL Z (4:1)"])
def test_another_detail_or_one_that_does_not_fit_gives_nothing(heading):
    reading = read(led(FLOOR), heading=heading)
    assert widths(reading) == [None, None]
    assert codes(reading) != []


def test_one_drawn_otherwise_is_a_stop_with_both_sizes():
    reading = read(led(FLOOR), drawn=detail(near=-9.5))
    assert [f.code for f in reading.findings if f.stops] == ["detail-differs"]
    assert "3 wide in the view and 3.5 wide in the detail" in reading.findings[0].message


def test_the_name_at_a_leader_is_no_heading_where_the_detail_differs_and_is_one_of_another_detail():
    at = {"texts": (Text("DETAIL Z", (-6.0, 32.0), 3.0),), "lines": [(*FLOOR, -6.5, 33.0), (*FLOOR, -11.0, 18.5)]}
    differing = codes(read(**at, drawn=detail(near=-9.5)))
    assert "detail-differs" in differing
    assert "dimension-unclear" not in differing
    assert codes(read(**at, heading="DETAIL Y (5:1)")).count("dimension-unclear") == 2
