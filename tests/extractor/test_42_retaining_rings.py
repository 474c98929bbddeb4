"""Retaining-ring grooves as a standard has them: DIN 471, shaft diameter d1, groove diameter d2, width m, depth t.

The figures are those of the published table that two independent sources agree on (an open library's data file and an
open fastener library), copied here for the sizes 8 to 100.
"""

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet

DIN_471 = [
    (8, 7.6, 0.9, 0.20),
    (10, 9.6, 1.1, 0.20),
    (12, 11.5, 1.1, 0.25),
    (15, 14.3, 1.1, 0.35),
    (17, 16.2, 1.1, 0.40),
    (20, 19.0, 1.3, 0.50),
    (25, 23.9, 1.3, 0.55),
    (30, 28.6, 1.6, 0.70),
    (35, 33.0, 1.6, 1.00),
    (40, 37.5, 1.85, 1.25),
    (50, 47.0, 2.15, 1.50),
    (60, 57.0, 2.15, 1.50),
    (80, 76.5, 2.65, 1.75),
    (100, 96.5, 3.15, 1.75),
]
"""d1, d2, m, t in mm."""


@each_in_turn(("d1", "d2", "m", "t"), DIN_471, style=[half_profile, full_outline, side_view])
def test_a_ring_groove_is_read_as_the_standard_has_it(d1, d2, m, t, style):
    part = Turned(((40.0, float(d1)), (15.0, d1 + 12.0)), (Cut(-3.2 - t, m, d2),))
    reading = read_sheet(sheet_of(style(part)), ReadOptions(units="mm"))
    assert [f.code for f in reading.findings] == []
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.mouth_diameter, groove.floor_diameter) == ("rectangular", d1, pytest.approx(d2))
    assert (groove.width, groove.depth) == (pytest.approx(m), pytest.approx(t))
