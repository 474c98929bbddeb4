"""The ledger of ink as a value, which the record and the overlay carry."""

from collections.abc import Mapping
from dataclasses import field

from extractor.finding import Point
from extractor.values import dataclass


@dataclass(frozen=True)
class InkLedger:
    """Drawn lengths: the outline read, what else is explained by role, what is not; `left` are lines not explained.

    `texts`: how many texts of the sheet had which fate (`sizing.remaining.text_fates.Fate`).
    """

    outline: float
    explained: Mapping[str, float]
    unexplained: float
    left: tuple[tuple[Point, ...], ...] = ()
    texts: Mapping[str, int] = field(default_factory=dict)

    @property
    def total(self) -> float:
        """Length of all that is drawn."""
        return self.outline + sum(self.explained.values()) + self.unexplained
