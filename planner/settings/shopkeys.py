"""Which keys a shop file knows, what each may hold and means, and its default where it is not given: `keys.toml`."""

from typing import Any, Literal

from extractor.part import Units
from extractor.shipped import shipped
from extractor.values import dataclass

Kind = Literal["length", "speed", "number", "whole", "flag", "text", "choice"]
Value = str | int | float | bool | None

# Greater lengths are slips of the point: no lathe of a small shop takes 10 m.
LONGEST_KEY = 10_000.0


@dataclass(frozen=True, kw_only=True)
class ShopKey:
    """A key: what kind of value, its limits (for lengths and speeds in mm and m/min), its default in mm and in inch.

    `needed`: there is no sensible default. `means`: what it says, in one phrase, for the file that the tool writes and
    for its help.
    """

    name: str
    kind: Kind
    means: str
    mm: Value = None
    inch: Value = None
    low: float = 0.0
    high: float = 100_000.0
    needed: bool = False
    choices: tuple[str, ...] = ()

    def default(self, units: Units) -> Value:
        """The value used where the key is not given."""
        return self.mm if units == "mm" or self.inch is None else self.inch


def _key(name: str, row: dict[str, Any]) -> ShopKey:
    """One row of the table."""
    usual = {"high": LONGEST_KEY} if row["kind"] == "length" else {}
    return ShopKey(name=name, **usual | row | {"choices": tuple(row.get("choices", ()))})


TABLES: dict[str, tuple[ShopKey, ...]] = {
    table: tuple(_key(name, row) for name, row in rows.items())
    for table, rows in shipped("planner.settings", "keys").items()
}
