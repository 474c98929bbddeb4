"""Exact numbers of a program: whole counts to decimal text and back, with no binary fraction in between.

A length in a program is a decimal; the control keeps it as a whole count of its least increment. Both ways here
work on the digits themselves, so what is written is what was counted.
"""

from collections.abc import Mapping
from functools import lru_cache

from extractor.part import Units
from extractor.values import dataclass

UNIT_NAMES: Mapping[Units, str] = {"mm": "millimetres", "in": "inches"}


def decimal(count: int, per_unit: int) -> str:
    """A count as a decimal with its point and no digit more than it needs.

    `per_unit` is a power of ten: counts per unit.

    >>> decimal(34000, 1000), decimal(-225, 1000), decimal(0, 1000)
    ('34.', '-0.225', '0.')
    """
    whole, rest = divmod(abs(count), per_unit)
    places = len(str(per_unit)) - 1
    fraction = f"{rest:0{places}d}".rstrip("0") if rest else ""
    return f"{'-' if count < 0 else ''}{whole}.{fraction}"


@dataclass(frozen=True)
class Counted:
    """A number read as counts. `exact` is False if it is finer than the increment and had to be rounded."""

    count: int
    exact: bool


@lru_cache(maxsize=4096)
def counted(text: str, per_unit: int) -> Counted:
    """The counts of a decimal text; one without a point counts least increments itself (common practice).

    >>> counted("-.5", 1000), counted("42", 1000), counted("0.33333", 10000)
    (Counted(count=-500, exact=True), Counted(count=42, exact=True), Counted(count=3333, exact=False))
    """
    if "." not in text:
        return Counted(int(text), True)
    sign = -1 if text.startswith("-") else 1
    whole, _, fraction = text.lstrip("+-").partition(".")
    digits = int((whole or "0") + fraction)
    scaled, divisor = digits * per_unit, 10 ** len(fraction)
    count, rest = divmod(scaled, divisor)
    if 2 * rest >= divisor:
        count += 1
    return Counted(sign * count, rest == 0)


MOST_STATIONS = 24
"""Turrets have no more stations (common practice)."""


def tool_numbers(text: str) -> tuple[int, int] | None:
    """Station and offset of a tool word: two digits each, a leading zero may be left out; one number stands for both.

    Two digits that are more than any turret has stations are one digit each, as old controls have it (common practice).

    >>> tool_numbers("0303"), tool_numbers("305"), tool_numbers("3"), tool_numbers("3.5"), tool_numbers("33")
    ((3, 3), (3, 5), (3, 3), None, (3, 3))
    """
    if not (text.isascii() and text.isdigit()) or len(text) > 4:
        return None
    if len(text) == 2 and int(text) > MOST_STATIONS:
        return int(text[0]), int(text[1])
    digits = text.zfill(4) if len(text) > 2 else text.zfill(2) * 2
    return int(digits[:2]), int(digits[2:])
