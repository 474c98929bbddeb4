"""What compiled patterns say of the blocks that more than one room must understand: cycle, tool, dwell, arc, program.

A form is made once from a dialect's patterns. The writer fills the patterns; the reader asks the form which address
holds which field, in what measure and with which sign.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cached_property
from typing import Literal

from extractor.values import dataclass
from postproc.vocabulary.pattern import Gap, Pattern

Leaves = Literal["start", "last"]
Every = Literal["none", "operation", "all"]
Standing = Literal["motion", "feed"]
Repeat = Literal["none", "subprogram", "modal"]


@dataclass(frozen=True)
class CycleForm:
    """How a dialect says the grooving cycle: the last block calls it, those before it only set values.

    `leaves`: where the control leaves the tool, at the start or above the last groove. Where `ended_by` names a word,
    the cycle stands until that word, and a place alone cuts one groove more there.
    """

    blocks: tuple[Pattern, ...]
    leaves: Leaves = "start"
    ended_by: str = ""

    @property
    def call(self) -> Pattern:
        """The block that makes the control cut."""
        return self.blocks[-1]

    @cached_property
    def gaps(self) -> Mapping[str, Gap]:
        """The gaps of all blocks, by field."""
        return {name: gap for block in self.blocks for name, gap in block.gaps.items()}

    def address(self, name: str) -> str:
        """The address of a field, empty where the cycle has no such field."""
        return self.gaps[name].address if name in self.gaps else ""

    @property
    def floor(self) -> str:
        """The address that says how deep, as a place or as a depth."""
        return self.address("floor") or self.address("depth")

    @property
    def peck(self) -> str:
        """The address of the peck."""
        return self.address("peck")

    @property
    def shift(self) -> str:
        """The address of the shift."""
        return self.address("shift")

    @property
    def whole(self) -> bool:
        """True if the peck is a whole number of least counts."""
        return "peck" in self.gaps and self.gaps["peck"].whole

    @property
    def retract(self) -> str | None:
        """The address of the retract, None where the control's own parameter rules it."""
        return self.address("retract") or None

    @property
    def relief(self) -> str | None:
        """The address of the step aside at the floor, None where the cycle has none."""
        return self.address("relief") or None

    def setting(self, addresses: frozenset[str], axes: Iterable[str]) -> Pattern | None:
        """The block before the call that a program's block with these addresses is, None if it is none of them.

        `axes` are the addresses that move an axis.
        """
        places = frozenset(axes)
        for block in self.blocks[:-1]:
            others = (self.call.addresses | places) - block.addresses
            if block.needed & addresses and addresses.isdisjoint(others):
                return block
        return None


@dataclass(frozen=True)
class ToolForm:
    """How a tool word holds station and offset: in one number, or the offset behind an address of its own."""

    station: Gap
    offset: Gap

    @property
    def joined(self) -> bool:
        """True if one number holds both."""
        return self.station.address == self.offset.address


@dataclass(frozen=True)
class BlockNumbers:
    """N words: on no block, on the first of each operation, or on all; a comment never has one."""

    every: Every = "none"
    first: int = 10
    step: int = 10


FRAME_GAP = re.compile(r"\{([a-z_]+)(?::(\d+))?\}")
"""A field in a line of the frame, with how many digits it is filled up to."""
FRAME_FIELDS: Mapping[str, frozenset[str]] = {
    **dict.fromkeys(("start", "opening", "end"), frozenset({"number", "units"})),
    **dict.fromkeys(("operation_start", "operation_end"), frozenset({"operation", "tool"})),
    "subprogram": frozenset({"program"}),
}
"""The lines of the frame, with the fields that each may have beside the names of words."""

FILE_GAP = re.compile(r"\{(name|number(?::0([1-4]))?)\}")
"""A field in the name of a program's file: the drawing's name, or the program number with how many digits it has."""

WIDTH = 60
"""Longest text of one comment; some controls cut a comment or alarm when a block is long (common practice)."""


@dataclass(frozen=True)
class ProgramFrame:
    """What stands round the steps of a program: blocks with fields, comments, ends of lines.

    `start` comes before the heading's comments, `opening` after them, `operation_start` and `operation_end` round each
    operation, `end` last. `comment` has the field {text}; `width` is its longest text, `without` the characters that it
    can't have. `file_name` and `ending` make the name of the program's file. `subprogram` holds the first and the last
    block of a subprogram.
    """

    start: tuple[str, ...] = ()
    opening: tuple[str, ...] = ()
    operation_start: tuple[str, ...] = ()
    operation_end: tuple[str, ...] = ()
    end: tuple[str, ...] = ()
    subprogram: tuple[str, ...] = ()
    comment: str = "({text})"
    width: int = WIDTH
    without: str = ""
    line_end: str = "\n"
    file_name: str = "{name}"
    ending: str = ".nc"
    numbers: BlockNumbers = field(default_factory=BlockNumbers)

    @property
    def remark(self) -> tuple[str, str]:
        """What stands before the text of a comment, and what stands after it."""
        before, _, behind = self.comment.partition("{text}")
        return before.strip(), behind.strip()

    def file_form(self, number: int) -> str:
        """The name of a program's file with its number said; {name} is left for that of the drawing.

        >>> ProgramFrame(file_name="O{number:04}-{name}").file_form(42)
        'O0042-{name}.nc'
        """
        said = FILE_GAP.sub(lambda gap: gap[0] if gap[1] == "name" else f"{number:0{gap[2] or 1}d}", self.file_name)
        return said + self.ending

    @property
    def names(self) -> tuple[str, ...]:
        """The lines that give a program or a subprogram its number."""
        return tuple(line for line in (*self.start, *self.subprogram[:1]) if FRAME_GAP.search(line))
