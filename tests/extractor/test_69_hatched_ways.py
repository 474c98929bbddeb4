"""Metal hatched in two ways: one part is hatched in one (ISO 128-3, from memory)."""

import math
from itertools import product

import pytest
from support.draw import Ink, sheet_of

from extractor import ReadOptions, read_sheet


@pytest.mark.parametrize(("degrees", "several"), [(45, False), (36, False), (34, True), (-45, True)])
def test_metal_hatched_another_way_than_the_metal_beside_it_is_another_part(degrees, several):
    """Two rings in section, the first hatched at 45 degrees."""
    ink = Ink(centre=[(5.0, 0.0, -25.0, 0.0, 0.0)])
    for (z, top, lean), s in product(((0, 20, 45), (-10, 16, degrees)), (1, -1)):
        ink.chain([(z, s * 8, 0.0), (z, s * top, 0.0), (z - 10, s * top, 0.0), (z - 10, s * 8, 0.0)], close=True)
        rise = 2 * math.tan(math.radians(lean))
        places = (s * 12 + 0.8 * k for k in range(-2, 3))
        ink.solid += [(z - 7, y - rise, z - 3, y + rise, 0.0) for y in places]
    assert (
        "assembly" in {f.code.value for f in read_sheet(sheet_of(ink), ReadOptions(units="mm")).findings if f.stops}
    ) is several
