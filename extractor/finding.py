"""Findings: what the reader, the planner or the comparison noticed, each with a code and a place.

A finding says one thing in one sentence. `stop` means that no program may leave the tool,
`caution` that a person must look, `note` that something was done which is worth knowing.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

Point = tuple[float, float]
"""x and y on the sheet, in drawing units as drawn."""


class Level(StrEnum):
    """How much a finding weighs."""

    STOP = "stop"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True)
class Finding:
    """One remark with its code, its sentence and its place.

    `at` is a point on the sheet in drawing units (findings on a drawing), `line` counts the lines of a
    program from 1 (findings on a program), `groove` is the number of the groove meant.
    `unsafe` marks a stop that no user may answer for.

    >>> Finding(Level.STOP, "units-unknown", "Neither header nor texts say mm or inch; give --units.").stops
    True
    """

    level: Level
    code: str
    message: str
    at: Point | None = None
    line: int | None = None
    groove: int | None = None
    unsafe: bool = False

    def __post_init__(self) -> None:
        """Refuse an empty code or sentence, and a line break that would make two lines of one."""
        if not self.code or not self.message:
            raise ValueError("a finding needs a code and a sentence")
        if "\n" in self.message:
            raise ValueError("a finding is one sentence on one line")

    @property
    def stops(self) -> bool:
        """True if no program may be written while this finding stands."""
        return self.level is Level.STOP


def accept(findings: Iterable[Finding], codes: Iterable[str]) -> tuple[Finding, ...]:
    """Turn the stops whose codes the user answers for into cautions; unsafe ones stay stops."""
    wanted = frozenset(codes)
    return tuple(
        replace(f, level=Level.CAUTION, message=f"{f.message} Accepted by the user.")
        if f.stops and f.code in wanted and not f.unsafe
        else f
        for f in findings
    )


def stopped(findings: Iterable[Finding]) -> bool:
    """True if any of the findings is a stop."""
    return any(f.stops for f in findings)
