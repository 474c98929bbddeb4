"""What is wrong with a dialect file, gathered so that every fault is reported at once, each with its line."""

from collections.abc import Mapping
from typing import Any


class Faults:
    """Faults by the key at which they stand."""

    def __init__(self, lines: Mapping[str, int]) -> None:
        """Start with none; `lines` are those of the keys."""
        self._lines = lines
        self.found: list[str] = []
        self.places: set[str] = set()

    def add(self, place: str, what: str) -> None:
        """Note a fault of a dotted key; a key that stands only in the base has no line to name."""
        self.places.add(place)
        line = self._line(place)
        where = f"line {line}: " if line else ""
        told = f"{where}{place} {what}" if place else what
        if told not in self.found:
            self.found.append(told)

    def _line(self, place: str) -> int | None:
        """The line of a key, or of the nearest table that holds it."""
        while place:
            if place in self._lines:
                return self._lines[place]
            place = place.rpartition(".")[0]
        return None

    def without(self, data: Mapping[str, Any], above: str = "") -> dict[str, Any]:
        """The tables without what is at fault in them, so that the rest can be looked at all the same."""
        return {
            key: self.without(value, f"{above}{key}.") if isinstance(value, Mapping) else value
            for key, value in data.items()
            if above + key not in self.places
        }

    def sentence(self) -> str:
        """All faults as one sentence."""
        return "; ".join(self.found)
