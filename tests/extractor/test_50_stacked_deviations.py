"""Two deviations over each other: the upper one is the greater (ISO 129-1, from memory); a lost sign turns them round.

In one line either may come first (common practice, no source).
"""

import pytest
from support.ties import across, along, bar, tied

from extractor.sizing.printed import parse

PART = bar((-10, -13, 34))


@pytest.mark.parametrize(
    ("upper", "lower"), [("-0.14", "0"), ("0", "+0.21"), ("+0.1", "+0.2"), ("-0.2", "-0.1"), ("-0.1", "+0.1")]
)
def test_the_lesser_one_over_the_greater_is_no_tolerance(upper, lower):
    low, high = sorted((float(upper), float(lower)))
    assert parse(f"3 {lower}^{upper}").deviations == (low, high)
    assert (parse(f"3 {upper}^{lower}").deviations, parse(f"3 {upper}^{lower}").unread) == (None, True)
    assert parse(f"3 {upper}/{lower}").deviations == parse(f"3 {lower}/{upper}").deviations == (low, high)


@pytest.mark.parametrize("size", [along(-10, -13, "3 -0.14^0"), across(34, "Ø34 0^+0.21", z=-11.5)])
def test_it_is_told_and_no_general_one_stands_for_it(size):
    part, findings = tied(PART, size, notes=["ISO 2768-m"])
    field = "width" if "3 " in size.text else "floor_diameter"
    assert field not in part.grooves[0].tolerances
    (told,) = [f for f in findings if f.code == "tolerance-unread"]
    assert size.text.replace("<", "") in told.message
