"""Counts to decimals and back, exactly."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from postproc.vocabulary.numbers import Counted, counted, decimal

COUNTS = st.integers(-99_999_999, 99_999_999)
UNITS = st.sampled_from([1_000, 10_000, 100_000])


@pytest.mark.parametrize(
    ("count", "per", "text"),
    [
        (34_000, 1_000, "34."),
        (-33_000, 1_000, "-33."),
        (500, 1_000, "0.5"),
        (-500, 1_000, "-0.5"),
        (1, 1_000, "0.001"),
        (0, 1_000, "0."),
        (-2_250, 10_000, "-0.225"),
        (16_000, 10_000, "1.6"),
        (100_050, 1_000, "100.05"),
    ],
)
def test_decimals_have_a_point_and_no_digit_too_many(count, per, text):
    assert decimal(count, per) == text


@given(COUNTS, UNITS)
def test_what_is_written_is_read(count, per):
    assert counted(decimal(count, per), per) == Counted(count, True)


@given(COUNTS, UNITS)
def test_decimals_are_the_exact_quotient(count, per):
    assert Decimal(decimal(count, per).rstrip(".")) == Decimal(count) / per


@given(st.integers(-(10**9), 10**9), st.integers(1, 7), UNITS)
def test_rounding_agrees_with_the_decimal_module(digits, places, per):
    # Oracle: Python's decimal module; half away from zero, as controls round (common practice, no source).
    value = Decimal(digits).scaleb(-places)
    text = f"{value:f}"
    wanted = int((value * per).to_integral_value(ROUND_HALF_UP))
    number = counted(text, per)
    assert number.count == wanted
    assert number.exact == (value * per == wanted)


@pytest.mark.parametrize(
    ("text", "count"), [("42", 42), ("-42", -42), ("+7", 7), ("007", 7), ("0", 0), ("42.", 42_000), ("+.5", 500)]
)
def test_without_a_point_increments_are_counted(text, count):
    assert counted(text, 1_000) == Counted(count, True)


def test_finer_than_the_increment_is_noticed():
    assert counted("0.33333", 10_000) == Counted(3_333, False)
    assert counted("1.2340", 1_000) == Counted(1_234, True)
