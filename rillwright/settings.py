"""What one run is told beside the drawing: how to read it, shop file and changes to it, dialect, program number."""

import hashlib
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from extractor.errors import SettingsError
from extractor.part import ReadOptions, Units
from planner.shop import Shop
from rillwright.outputs import show

MOST_SHOP_BYTES = 1_000_000


@dataclass(frozen=True)
class Settings:
    """Everything that decides what comes of a drawing, apart from the drawing and the tool itself.

    `shop_text` is the shop file as read, empty for the built-in shop; `changes` are KEY=VALUE over it.
    `dialect` overrides the shop's. `number` is the program number.
    """

    options: ReadOptions = field(default_factory=ReadOptions)
    shop_text: str = ""
    shop_name: str = "built-in shop"
    dialect: str | None = None
    changes: tuple[str, ...] = ()
    number: int = 1

    def __post_init__(self) -> None:
        """Refuse a program number that a control can't hold."""
        if not 1 <= self.number <= 9999:
            raise SettingsError(f"A program number lies between 1 and 9999, and {self.number} does not.")

    def shop(self, units: Units) -> Shop:
        """The shop in the drawing's units; SettingsError names every fault in the shop file, or an unknown dialect."""
        from planner import parse_shop
        from postproc import dialects, find_dialect

        shop = parse_shop(self.shop_text, self.shop_name, units, self.changes, dialects())
        name = find_dialect(self.dialect or shop.machine.dialect).name
        return replace(shop, machine=replace(shop.machine, dialect=name))

    def check(self) -> None:
        """Find every fault of the shop file and the dialect now, before any drawing is touched."""
        self.shop("mm")

    @cached_property
    def digest(self) -> str:
        """SHA-256 of all that is here, but for the shop file's name: the same settings give the same digest."""
        options = replace(self.options, accept=frozenset())
        parts = (
            options,
            sorted(self.options.accept),
            self.shop_text,
            self.dialect,
            self.changes,
            self.number,
        )
        return hashlib.sha256(repr(parts).encode()).hexdigest()


def read_shop_file(path: Path) -> str:
    """The text of a shop file; SettingsError where it can't be had."""
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_SHOP_BYTES + 1)
    except OSError as error:
        raise SettingsError(f"The shop file {show(path)} can't be read: {error.strerror or error}.") from error
    if len(data) > MOST_SHOP_BYTES:
        raise SettingsError(f"{show(path)} is too big for a shop file: give the TOML file of one machine.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise SettingsError(f"The shop file {show(path)} is not UTF-8 text: save it as such.") from error
