"""Two deviations over each other: the upper one is the greater (ISO 129-1, from memory); a lost sign turns them round.

In one line either may come first (common practice, no source).
"""

import pytest
from support.ties import across, along, bar, tied

from extractor.opening.stacked import with_deviations
from extractor.sheet import Text
from extractor.sizing.lettering.printed import parse

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


def loose(*texts, angle=0.0):
    """What is left of texts behind a `3` that is 2.5 high: words, place, height; turned by a right angle or not."""
    turned = [(words, (-y, x) if angle else (x, y), height) for words, (x, y), height in (("3", (0, 0), 2.5), *texts)]
    return [t.text for t in with_deviations([Text(*one, angle=angle) for one in turned])[0]]


@pytest.mark.parametrize("angle", [0.0, 90.0])
@pytest.mark.parametrize("figure", ["5", "7", "0.05", "12,5"])
def test_a_small_figure_under_or_over_a_deviation_belongs_to_it_and_nobody_knows_what_it_allows(figure, angle):
    """A deviation other than nought has a sign (ISO 129-1, from memory)."""
    under = loose(("+0.1", (3, 1.9), 1.5), (figure, (3, -0.1), 1.5), angle=angle)
    over = loose((figure, (3, 1.9), 1.5), ("-0.1", (3, -0.1), 1.5), angle=angle)
    assert (under, over) == ([f"3 +0.1^{figure}"], [f"3 {figure}^-0.1"])
    assert all((parse(words).deviations, parse(words).unread) == (None, True) for words in (*under, *over))
    part, findings = tied(PART, along(-10, -13, *under))
    assert "width" not in part.grooves[0].tolerances
    assert "tolerance-unread" in [f.code for f in findings]


@pytest.mark.parametrize(
    ("aside", "down", "height", "taken"),
    [
        (0.0, 2.0, 2.49, True), (0.0, 2.0, 2.5, False), (0.74, 2.0, 1.5, True), (0.76, 2.0, 1.5, False),
        (-0.74, 2.0, 1.5, True), (-0.76, 2.0, 1.5, False), (0.0, 3.29, 1.5, True), (0.0, 3.31, 1.5, False),
    ],
)  # fmt: skip
def test_how_small_and_how_near_a_figure_is_that_belongs_to_a_deviation(aside, down, height, taken):
    """Smaller than the size, 2.5 high; within half a height of the deviation, 1.5, at the left, and 2.2 down."""
    found = loose(("+0.1", (3, 1.9), 1.5), ("5", (3 + aside, 1.9 - down), height))
    assert found == (["3 +0.1^5"] if taken else ["3 +0.1", "5"])


def test_other_figures_stay_where_they_are():
    """Both ways at once needs no second one, nor do two that are whole, a class or words."""
    assert loose(("±0.1", (3, 1.9), 1.5), ("5", (3, -0.1), 1.5)) == ["3 ±0.1", "5"]
    assert loose(("H13", (3, 1.9), 1.5), ("5", (3, -0.1), 1.5)) == ["3 H13", "5"]
    assert loose(("+0.1", (3, 1.9), 1.5), ("TYP", (3, -0.1), 1.5)) == ["3 +0.1", "TYP"]
    assert loose(("+0.1", (3, 1.9), 1.5), ("0", (3, -0.1), 1.5), ("5", (3, -1.4), 1.5)) == ["3 +0.1^0", "5"]
