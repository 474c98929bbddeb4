"""What one run is told besides the drawing: how to read it, shop file and changes to it, dialect, program number."""

import hashlib
from dataclasses import field, replace
from functools import cached_property, lru_cache
from pathlib import Path

from extractor.errors import SettingsError
from extractor.part import ReadOptions, Units
from extractor.values import dataclass
from planner import parse_shop
from planner.shop import Shop
from postproc.dialect import Dialect
from rillwright.allowance import Allowance
from rillwright.outputs import FORM
from rillwright.tongues import Names, spoken


@dataclass(frozen=True)
class AnswerFile:
    """An answers file: its name and its text as found, not yet looked into; `fault` says why it can't be read."""

    name: str
    text: str
    fault: str = ""


@dataclass(frozen=True)
class NumberRule:
    """How programs get their numbers, within the range: `by` is "fixed", "name", "count", or None if nobody said."""

    by: str | None
    first: int
    last: int


@dataclass(frozen=True)
class Settings:
    """Everything that decides what comes of a drawing, apart from the drawing and the tool itself.

    `shop_text` is the shop file as read, empty for the built-in shop; `changes` are KEY=VALUE over it.
    `dialect` overrides the shop's. `number` is the program number, `number_fault` why there is none. `tongues`: names
    and texts of dialect files. `allowance`: most time and memory for one drawing, None where its process is
    watched by another. `answers`: the answers files that may speak of the drawing, the folder's first, its own newest
    last.
    """

    options: ReadOptions = field(default_factory=ReadOptions)
    shop_text: str = ""
    shop_name: str = "built-in shop"
    dialect: str | None = None
    changes: tuple[str, ...] = ()
    number: int = 1
    number_fault: str = ""
    tongues: tuple[tuple[str, str], ...] = ()
    allowance: Allowance | None = None
    answers: tuple[AnswerFile, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a program number that a control can't hold."""
        if not 1 <= self.number <= 9999:
            raise SettingsError(f"A program number lies between 1 and 9999, and {self.number} does not.")

    def shop(self, units: Units) -> Shop:
        """The shop in the drawing's units; SettingsError names every fault in the shop file, or an unknown dialect."""
        shop = _parsed(self.shop_text, self.shop_name, units, self.changes, self.tongues)
        dialect = spoken(self.dialect or shop.machine.dialect, self.tongues)
        if shop.machine.form == "cycle" and dialect.cycle is None:
            raise SettingsError(
                f'{self.shop_name} can\'t be used: form is "cycle", and the dialect {dialect.name} has no grooving '
                "cycle; leave form out, or name another dialect."
            )
        if shop.machine.retreat == "reference" and not self.dialect and "home" not in dialect.blocks:
            raise SettingsError(
                f'{self.shop_name} can\'t be used: retreat is "reference", and the dialect {dialect.name} has no block '
                'for the reference point; give retreat = "place", or name another dialect.'
            )
        return replace(shop, machine=replace(shop.machine, dialect=dialect.name), grid=dialect.grid(units))

    def spoken(self, shop: Shop) -> Dialect:
        """The dialect to write a shop's programs in: with no cycle where the shop wants every plunge written out."""
        dialect = spoken(shop.machine.dialect, self.tongues)
        if shop.machine.block_numbers is not None:
            numbers = replace(dialect.frame.numbers, every=shop.machine.block_numbers)
            dialect = replace(dialect, frame=replace(dialect.frame, numbers=numbers))
        return replace(dialect, cycle=None) if shop.machine.form == "plunges" else dialect

    @cached_property
    def form(self) -> str:
        """The form of a program's file name as the dialect has it, {name} for the drawing's; else the usual one.

        Without a number there will be no program, and no other drawing's file may be taken for it.
        """
        try:
            frame = self.spoken(self.shop("mm")).frame
        except SettingsError:
            return FORM
        return f"{{name}}{frame.ending}" if self.number_fault else frame.file_form(self.number)

    def named(self, shop: Shop) -> Dialect | None:
        """The dialect by which a program is read where one was named: by option or in the shop file."""
        if self.dialect:
            return spoken(self.dialect, self.tongues)
        said = "dialect" not in shop.unsaid
        return spoken(shop.machine.dialect, self.tongues) if said else None

    def files(self, *more: Path | None) -> list[Path]:
        """The files that a run is made from: these, and the shop file."""
        return [*(one for one in more if one is not None), *([Path(self.shop_name)] if self.shop_text else [])]

    def check(self) -> None:
        """Find every fault of the shop file and the dialect now, before any drawing is touched."""
        _ = self.numbers

    @cached_property
    def numbers(self) -> NumberRule:
        """By what rule programs get their numbers; SettingsError where the shop file is at fault."""
        machine = self.shop("mm").machine
        return NumberRule(machine.numbers, machine.number_first, machine.number_last)

    @cached_property
    def digest(self) -> str:
        """SHA-256 of all that is here, but for the shop file's name: the same settings give the same digest."""
        options = replace(self.options, accept=frozenset(), answered=frozenset())
        parts = (
            options,
            sorted(self.options.accept),
            self.shop_text,
            self.dialect,
            self.changes,
            self.number,
            self.number_fault,
            *self.tongues,
            *self.answers,
        )
        return hashlib.sha256(repr(parts).encode()).hexdigest()


@lru_cache(maxsize=8)  # each drawing of a batch asks for the same
def _parsed(text: str, name: str, units: Units, changes: tuple[str, ...], tongues: tuple[tuple[str, str], ...]) -> Shop:
    """A shop file's text as a shop; SettingsError where it is at fault."""
    return parse_shop(text, name, units, changes, Names(tongues))
