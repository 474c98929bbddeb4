"""Which keys a dialect file knows and what each may hold: `keys.toml`."""

from collections.abc import Mapping
from typing import Literal

from extractor.shipped import shipped
from extractor.values import dataclass
from postproc.vocabulary.acts import Act, Switch

Kind = Literal["text", "texts", "choice", "choices", "whole", "flag", "by units", "addresses", "table"]


@dataclass(frozen=True)
class DialectKey:
    """A key: its kind, what it may be, and a sentence about it.

    `low` and `high` hold for whole numbers, `usual` is what such a number is where no file gives it.
    """

    kind: Kind
    about: str
    choices: tuple[str, ...] = ()
    low: int = 0
    high: int = 0
    usual: int = 0


_KEYS = shipped("postproc.dialects", "keys")


def _rows(table: str) -> dict[str, DialectKey]:
    """The keys of one table of a dialect file."""
    return {key: DialectKey(**row | {"choices": tuple(row.get("choices", ()))}) for key, row in _KEYS[table].items()}


TOP: Mapping[str, DialectKey] = _rows("top")
NUMBERS: Mapping[str, DialectKey] = _rows("form")
ALL_NUMBERS: Mapping[str, DialectKey] = {**NUMBERS, **_rows("all")}
CYCLE: Mapping[str, DialectKey] = _rows("cycle")
PROGRAM: Mapping[str, DialectKey] = _rows("program")
WORDS: Mapping[str, Act] = {act.name.lower(): act for act in Act}
SWITCHES: Mapping[str, Switch] = {switch.name.lower(): switch for switch in Switch if switch is not Switch.OWN}

AMOUNTS = {"peck", "shift", "retract", "relief", "depth", "length", "radius", "i", "k"}
BLOCKS: Mapping[str, tuple[frozenset[str], frozenset[str]]] = {
    key: (frozenset(row["must"].split()), frozenset(row["may"].split())) for key, row in _KEYS["blocks"].items()
}
"""The patterns of a dialect: the fields that each must have, and those that it may have."""
CYCLE_FIELDS = frozenset(_KEYS["cycle_fields"].split())
