"""Where the lines of a dimension begin: a gap off the floor they measure, or on a line that goes on as another's.

Extension lines begin with a gap (ISO 129-1, from memory); that one line may serve two sizes is common practice, no
source.
"""

from dataclasses import replace

import pytest
from support.ties import along, bar, span, tied

TWO = bar((-10, -13, 34), (-40, -46, 34))
"""Two grooves of one floor that are not alike: 3 and 6 wide."""
LIKE = bar((-10, -13, 34), (-16, -19, 34), (-40, -43, 34))


def floors(part, *dimensions):
    of, findings = tied(part, *dimensions)
    codes = [f.code.value for f in findings if f.level.value != "note"]
    return [g.tolerances.get("floor_diameter") for g in of.grooves], codes


def floor(z, words):
    return span((z, 17.0), (z, -17.0), words)


@pytest.mark.parametrize("off", [0.0, 0.9, 2.9])
def test_the_groove_is_meant_at_which_the_lines_begin(off):
    both = floors(TWO, floor(-10 + off, "Ø34 0/-0.1"), floor(-46 - off, "Ø34 ±0.05"))
    assert both == ([(-0.1, 0.0), (-0.05, 0.05)], [])


def test_farther_off_nobody_can_tell():
    assert floors(TWO, floor(2.0, "Ø34 0/-0.1")) == ([None, None], ["dimension-unclear"])
    assert "dimension-unclear" not in floors(TWO, floor(-13 - 2.9, "Ø34 0/-0.1"))[1]
    assert "dimension-unclear" in floors(TWO, floor(-13 - 3.1, "Ø34 0/-0.1"))[1]


def test_like_grooves_share_it_wherever_it_begins():
    for z in (-9.0, -13.5, -15.5, 2.0):
        assert floors(LIKE, floor(z, "Ø34 0/-0.1")) == ([(-0.1, 0.0)] * 3, [])


def off_view(z1, z2, words, r):
    """A length along the axis, of which the first end lies at a radius outside of the view."""
    return replace(span((z1, r), (z2, 20.0), words), angle=0.0, measured=abs(z1 - z2))


@pytest.mark.parametrize("r", [20.0, 45.0, 90.0, -90.0])
def test_a_line_that_goes_on_as_another_ones_still_begins_at_its_wall(r):
    of, findings = tied(TWO, off_view(-10.0, -13.0, "3 +0.1/0", r))
    assert (of.grooves[0].tolerances, findings) == ({"width": (0.0, 0.1)}, ())
    assert [f.code for f in tied(TWO, off_view(-10.0, -13.0, "3.5 +0.1/0", r))[1]] == ["dimension-contradicts"]


def test_an_end_beyond_the_ends_of_the_view_is_torn_off():
    far = replace(span((-10.0, 20.0), (150.0, 20.0), "160 ±0.1"), angle=0.0)
    assert [f.code for f in tied(TWO, far)[1]] == ["tolerance-unread"]


def test_of_two_ends_off_the_view_nothing_is_heard():
    size = replace(along(-10.0, -13.0, "3.5 +0.1/0", r=90.0))
    assert tied(TWO, size)[1] == ()


def test_a_size_of_another_view_that_reaches_into_the_room_beside_this_one_is_that_view_s():
    """The view's room ends 40 beyond its face, and the size lies across that."""
    keyway = span((36.5, 15.0), (44.5, 15.0), "8 P9")
    assert "tolerance-unread" not in [f.code for f in tied(TWO, keyway)[1] if "looks like" in f.message]
    torn = span((-0.02, 15.0), (44.5, 15.0), "44.5 P9")
    assert "tolerance-unread" in [f.code for f in tied(TWO, torn)[1]]
