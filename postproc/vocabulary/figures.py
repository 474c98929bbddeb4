"""How the number behind an address is written: its point, its digits, its least count; both ways exact.

A value is a fraction of the unit (mm, inch, or what a word counts), never a binary float. What a figure can't say
without rounding, it doesn't say at all.
"""

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from typing import Literal

from extractor.part import Units
from extractor.values import dataclass

Point = Literal["needed", "optional", "never"]
"""Whether a number that is no whole count has its decimal point always, only where it has decimals, or never."""


def _by_units(mm: int, inch: int) -> Mapping[Units, int]:
    """One number for each of the units."""
    return {"mm": mm, "in": inch}


@dataclass(frozen=True)
class Figure:
    """The form of the number behind one address.

    `decimals` are the most behind the point. `least`: how many least counts make one unit, for numbers without a
    point. `digits` are the most in all. `zeros`: the decimals are filled up with zeros.
    """

    point: Point = "needed"
    zeros: bool = False
    digits: int = 8
    decimals: Mapping[Units, int] = field(default_factory=lambda: _by_units(3, 4))
    least: Mapping[Units, int] = field(default_factory=lambda: _by_units(1_000, 10_000))

    def write(self, value: Fraction, units: Units, whole: bool = False) -> str | None:
        """The number as text; None where it can't be said exactly. `whole`: in least counts, whatever the point.

        >>> form = Figure(digits=5)
        >>> form.write(Fraction(34), "mm"), form.write(Fraction(-1, 8), "mm"), form.write(Fraction(3, 2), "mm", True)
        ('34.', '-0.125', '1500')
        >>> form.write(Fraction(1, 3), "mm"), form.write(Fraction(1000), "mm", True)
        (None, None)
        """
        if whole or self.point == "never":
            counts = value * self.least[units]
            text = str(counts) if counts.denominator == 1 else None
        else:
            text = self._pointed(value, self.decimals[units])
        return text if text is not None and sum(map(str.isdigit, text)) <= self.digits else None

    def _pointed(self, value: Fraction, decimals: int) -> str | None:
        """The number with a point as far as this form has it."""
        scaled = abs(value) * 10**decimals
        if scaled.denominator != 1:
            return None
        before, behind = divmod(scaled.numerator, 10**decimals)
        fraction = f"{behind:0{decimals}d}" if decimals else ""
        fraction = fraction if self.zeros else fraction.rstrip("0")
        point = "." if fraction or self.point == "needed" else ""
        return f"{'-' if value < 0 else ''}{before}{point}{fraction}"

    def steps(self, units: Units, whole: bool = False) -> int:
        """How many numbers it can say from one unit to the next.

        >>> Figure().steps("mm"), Figure(least={"mm": 100, "in": 1_000}).steps("in", whole=True)
        (1000, 1000)
        """
        return self.least[units] if whole or self.point == "never" else 10 ** self.decimals[units]

    def read(self, text: str, units: Units, whole: bool = False) -> Fraction:
        """The value of a number: with a point in units, without one in least counts or units as the form has it.

        >>> Figure().read("-.5", "mm"), Figure(point="optional").read("34", "mm"), Figure().read("1500", "mm", True)
        (Fraction(-1, 2), Fraction(34, 1), Fraction(3, 2))
        """
        value = Fraction(text)
        return value if "." in text or (self.point == "optional" and not whole) else value / self.least[units]
