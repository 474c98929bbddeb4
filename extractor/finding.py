"""Findings: what the reader, the planner or the comparison noticed, each with a code and a place.

A finding says one thing in one sentence. `stop` means that no program may leave the tool,
`caution` that a person must look, `note` that something was done that is worth knowing.
Its code is a member of its room's register, `codes.py`, which says what may be done about it.
"""

from collections.abc import Iterable
from dataclasses import replace
from enum import StrEnum, auto
from typing import Literal

from extractor.printable import printable
from extractor.values import dataclass

Point = tuple[float, float]
"""x and y on the sheet, in drawing units as drawn."""

Answer = Literal["at", "front", "units", "scale", "grooved", "accept"]
"""The option of the command line by which a user answers a finding."""

OPTIONS: dict[Answer, str] = {
    "at": "--at X,Y",
    "front": "--front",
    "units": "--units",
    "scale": "--scale R",
    "grooved": "--grooved",
}
"""How the answers other than `accept` are given."""


ACCEPTED = "Accepted by the user."
"""How the sentence of a stop that the user answered for ends."""


DUST_PLACES = 9
"""Decimals beyond which a length measured on a sheet is dust of the reckoning: nobody reads 8.67e-19."""

FAR_OUT = 1e3
"""From here on a place is told to a tenth and not by four figures: drawings stand millions out where maps do."""


def place_words(at: Point) -> str:
    """A point on the sheet, in words."""
    x, y = (f"{round(v, 1):.13g}" if abs(v) >= FAR_OUT else f"{round(v, 9) + 0.0:.4g}" for v in at)
    return f"X{x} Y{y}"


class Level(StrEnum):
    """How grave a finding is."""

    STOP = "stop"
    CAUTION = "caution"
    NOTE = "note"


STOP = frozenset({Level.STOP})
CAUTION = frozenset({Level.CAUTION})
NOTE = frozenset({Level.NOTE})
"""The levels of a code in a register; `STOP | CAUTION` for one that may be either."""


RegisterRow = tuple[auto, frozenset[Level], str, tuple[Answer, ...], bool]
"""One row of a register, in the order in which `Code` takes it; the code itself is made of the member's name."""


def entry(
    levels: frozenset[Level], remedy: str, answers: tuple[Answer, ...] = (), *, together: bool = False
) -> RegisterRow:
    """What a register says of one code: the levels that it may have, what the user can do, what answers it.

    `together`: its stops say one thing of several grooves, so that the code alone accepts them all.
    """
    if not levels or not remedy.endswith("."):
        raise ValueError("a code has a level and a remedy of one sentence")
    if "accept" in answers and Level.STOP not in levels:
        raise ValueError("only a stop can be accepted")
    return auto(), levels, remedy, answers, together


class Code(StrEnum):
    """The code of a finding, a string that compares as one; the members stand in the `codes.py` of each room.

    `made` are the levels that it is registered with; `remedy`, `answers` and `together` as in `entry`.
    """

    _value_: str
    made: frozenset[Level]
    remedy: str
    answers: tuple[Answer, ...]
    together: bool

    def __new__(
        cls, code: str, made: frozenset[Level], remedy: str, answers: tuple[Answer, ...], together: bool
    ) -> "Code":
        """A member from its row in the register."""
        member = str.__new__(cls, code)
        member._value_ = code
        member.made, member.remedy, member.answers, member.together = made, remedy, answers, together
        return member

    @staticmethod
    def _generate_next_value_(name: str, start: int, count: int, last_values: list[str]) -> str:
        """The code of a member that takes `auto()`: its name as users type it."""
        return name.lower().replace("_", "-")

    @property
    def levels(self) -> frozenset[Level]:
        """The levels that it may have; an accepted stop becomes a caution."""
        return self.made | CAUTION if self.acceptable else self.made

    @property
    def room(self) -> str:
        """The room that registers it."""
        return type(self).__module__.partition(".")[0]

    @property
    def acceptable(self) -> bool:
        """True if the user may answer for a stop of this code with --accept."""
        return "accept" in self.answers


@dataclass(frozen=True)
class Finding:
    """One remark with its code, its sentence and its place.

    `at` is a point on the sheet in drawing units (findings on a drawing), `line` counts the lines of a
    program from 1 (findings on a program), `groove` is the number of the groove meant. `spots` are further
    points meant: those to choose from with --at, the other loose ends of an open outline, further lines, or a heading.
    `scales` are the scales to choose from with --scale. `alike`: of so many places it is told at once.
    `drawn`: the sentence with gaps for its lengths, and these as they are on the sheet, until its scale is known.
    """

    level: Level
    code: Code
    message: str
    at: Point | None = None
    line: int | None = None
    groove: int | None = None
    spots: tuple[Point, ...] = ()
    scales: tuple[float, ...] = ()
    alike: int = 1
    drawn: tuple[str, tuple[float, ...]] | None = None

    def __post_init__(self) -> None:
        """Refuse a code or a level that is not registered, an empty sentence, and one of two lines."""
        if not isinstance(self.code, Code) or self.level not in self.code.levels:
            raise ValueError(f"no {self.level} of the code {self.code} is registered")
        if not self.message:
            raise ValueError("a finding needs a sentence")
        if "\n" in self.message:
            raise ValueError("a finding is one sentence on one line")
        # Names and texts of files stand in sentences: what steers a terminal or a page never leaves here.
        object.__setattr__(self, "message", printable(self.message))

    @classmethod
    def measured(
        cls, level: Level, code: Code, sentence: str, lengths: Iterable[float], at: Point | None = None
    ) -> "Finding":
        """A finding with lengths measured on the sheet, in the gaps of its sentence."""
        drawn = sentence, tuple(round(length, DUST_PLACES) + 0.0 for length in lengths)
        return cls(level, code, sentence.format(*drawn[1]), at, drawn=drawn)

    def at_scale(self, scale: float) -> "Finding":
        """The finding with its lengths as they are on the part, which is drawn `scale` times as large."""
        if self.drawn is None:
            return self
        sentence, lengths = self.drawn
        return replace(self, message=sentence.format(*(length / scale for length in lengths)), drawn=None)

    @property
    def stops(self) -> bool:
        """True if this finding keeps a program from being written."""
        return self.level is Level.STOP

    @property
    def accepted(self) -> bool:
        """True for a stop that the user answered for."""
        return self.message.endswith(ACCEPTED)

    @property
    def key(self) -> str:
        """What --accept takes for this finding and no other: its code with its place, else with its groove."""
        return key_of(self.code, self.at, self.groove)


def key_of(code: str, at: Point | None, groove: int | None) -> str:
    """A code with the place on the sheet that a finding has, else with its groove, else alone.

    >>> key_of("overhang", (12.5, -3.0), 1), key_of("overhang", None, 1)
    ('overhang@12.5,-3', 'overhang@1')
    """
    if at is not None:
        return f"{code}@{','.join(map(_place_number, at))}"
    return code if groove is None else f"{code}@{groove}"


def same_key(typed: str) -> str:
    """A key as `key_of` writes it, however its numbers are typed; what is no key comes back as it is."""
    code, _, place = typed.partition("@")
    try:
        numbers = [_place_number(float(one)) for one in place.split(",")]
    except ValueError:
        return typed
    return f"{code.strip()}@{','.join(numbers)}"


def _place_number(value: float) -> str:
    """A number of a place, to a thousandth of the drawing unit."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def accept(findings: Iterable[Finding], codes: Iterable[str], *, part: bool = True) -> tuple[Finding, ...]:
    """Turn the stops that the user answers for into cautions; say so of those that can't be accepted.

    `codes`: keys of single stops, or codes. A code alone stands for a stop where no other is left that has it, or where
    all that have it say one thing; else each such stop tells its key. `part`: whether a part was read. Without one
    there is nothing to cut that a user could answer for.
    """
    wanted, listed = frozenset(map(same_key, codes)), tuple(findings)
    keys: dict[Code, set[str]] = {}
    for f in listed:
        if f.stops and (f.key == f.code or f.key not in wanted):
            keys.setdefault(f.code, set()).add(f.key)
    return tuple(_answered(f, part, len(keys.get(f.code, ())), wanted) if f.stops else f for f in listed)


def _answered(stop: Finding, part: bool, alike: int, wanted: frozenset[str]) -> Finding:
    """A stop as it stands after what the user wants to answer for; `alike`: so many places have one of its code."""
    if not {stop.code, stop.key} & wanted:
        return stop
    if not (part and stop.code.acceptable):
        options = " or ".join(OPTIONS[answer] for answer in stop.code.answers if answer != "accept")
        why = "It can't be accepted while no part is read" if stop.code.acceptable else "It can't be accepted"
        return replace(stop, message=f"{stop.message} {why}{f'; answer it with {options}' if options else ''}.")
    if stop.key in wanted or alike == 1 or stop.code.together:
        return replace(stop, level=Level.CAUTION, message=f"{stop.message} {ACCEPTED}")
    words = f"{stop.message} {alike} stops are {stop.code}; this one alone is --accept {stop.key}."
    return replace(stop, message=words)


def stopped(findings: Iterable[Finding]) -> bool:
    """True if any of the findings is a stop."""
    return any(f.stops for f in findings)
