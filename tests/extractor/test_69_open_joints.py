"""Views drawn or traced by hand, whose joints stand open: what their two halves seem to show is not told as a fact."""

import pytest
from support.draw import Cut, Ink, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet


@pytest.mark.parametrize(("count", "told"), [(8, True), (7, False)])
def test_halves_that_disagree_where_many_joints_stand_open(count, told):
    """One half has deeper grooves; so many lands and floors end 0.01 short of their walls."""
    ink = Ink(centre=[(5.0, 0.0, -65.0, 0.0, 0.0)])
    for floor, side in ((34.0, 1), (33.0, -1)):
        part = Turned(((60.0, 40.0),), tuple(Cut(-10.0 - 15 * k, 3.0, floor) for k in range(2)))
        ink.solid += [
            e for e in full_outline(part).solid if side * (e[1] + e[3]) > 0 or (side > 0 and e[1] + e[3] == 0)
        ]
    level = [k for k, e in enumerate(ink.solid) if e[1] == e[3]][:count]
    for k in level:
        x0, y0, x1, y1, bulge = ink.solid[k]
        ink.solid[k] = (x0, y0, x1 + (0.01 if x1 < x0 else -0.01), y1, bulge)
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm"))
    stops = [f.message for f in reading.findings if f.code == "halves-disagree"]
    assert len(level) == count
    assert bool(stops)
    assert any(f"at {count} corners" in words for words in stops) is told
