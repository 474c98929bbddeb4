"""A groove cut by two inserts is measured beside the corners of both."""

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from postproc import judge
from postproc.verdict import State


@pytest.mark.parametrize("sharper", [0.0, 0.1])
def test_a_floor_is_read_clear_of_the_larger_of_two_corners(sharper):
    """The first insert's corner (RE 0.4) stands at the far wall; a sharper one widens the groove to the front."""
    part = part_of([(-10.0, -14.0, 34.0)])
    large = tool(corner_radius=0.4)
    small = tool(station=5, offset=5, width=2.0, corner_radius=sharper)
    moves = Moves().plunge(-14.0, 34.0)
    moves.fields |= {"station": 5, "offset": 5}
    found = judge(part, moves.plunge(-12.0, 34.0).run(), shop(large, small, sharp_corner=0.4))
    assert [(match.state, match.program.floor_diameter) for match in found.matches] == [(State.MATCHES, 34.0)]
