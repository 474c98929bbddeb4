"""What a reader must make of a sheet, from the part that was drawn."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from support.office.model import Part
from support.office.place import OPPOSITE

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Cut:
    """One groove: z from the front face (0, negative behind it), diameters. Of one in a face `near` is at its mouth."""

    where: str
    near: float
    far: float
    floor: float

    @property
    def width(self) -> float:
        return self.near - self.far

    def flipped(self, length: float) -> "Cut":
        """The same counted from the other end."""
        ends = (self.near, self.far) if self.where == "face" else (self.far, self.near)
        return replace(self, near=-length - ends[0], far=-length - ends[1])


@dataclass(frozen=True)
class Answer:
    """A whole reading. `front` is the end of the drawn view; `free` are stretches of z where more may be reported."""

    units: str
    length: float
    diameter: float
    grooves: tuple[Cut, ...]
    front: str
    free: tuple[tuple[float, float], ...] = ()

    def turned(self) -> "Answer":
        """The same seen from the other end; a recess in a face stays told from that face on."""
        flip = tuple(g.flipped(self.length) for g in self.grooves)
        free = tuple((-self.length - b, -self.length - a) for a, b in self.free)
        return replace(self, grooves=_sorted(flip), front=OPPOSITE[self.front], free=free)


def _sorted(grooves: tuple[Cut, ...]) -> tuple[Cut, ...]:
    return tuple(sorted(grooves, key=lambda g: (-g.near, g.where)))


def answer(part: Part, front: str, free: tuple[tuple[float, float], ...] = ()) -> Answer:
    grooves = tuple(Cut(g.where, -g.near, -g.far, g.floor) for g in part.grooves)
    return Answer(part.units, part.length, part.diameter, _sorted(grooves), front, free)


@dataclass(frozen=True)
class View:
    """A view on the sheet, and what may be read of it; None: it must not be read as a part."""

    box: Box
    answer: Answer | None


@dataclass(frozen=True)
class Truth:
    """`must` is "read", "stop", or "either" (read as `right`, or a stop).

    `by`: what `front.by` may say ("" any). `facts`: of a stop, each of these groups is one way of saying the fact: all
    its words and numbers stand in the messages. `caution`: a code that must come with the answer. `more`: other answers
    that are right as well, or right after an option. `rings`: points of which a finding's `at` must be near one.
    """

    must: str
    right: Answer | None = None
    by: tuple[str, ...] = ()
    facts: tuple[tuple[str | float, ...], ...] = ()
    code: str = ""
    caution: str = ""
    more: tuple[Answer, ...] = ()
    views: tuple[View, ...] = ()
    scale: float = 1.0
    rings: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True)
class Case:
    """One sheet as a file, with its truth. `kind` says in a few words what it is about."""

    family: str
    seed: int
    kind: str
    data: bytes
    truth: Truth
    extras: tuple[str, ...] = field(default=())

    @property
    def name(self) -> str:
        return f"{self.family}-{self.seed}"


def in_turn(*kinds: Callable[[int], Case], step: int = 1) -> Callable[[int], Case]:
    """A family: of each seed one of its kinds, `step` kinds on; where that is more than one, another after a round."""

    def sheet(seed: int) -> Case:
        return kinds[(seed * step + (seed // len(kinds) if step > 1 else 0)) % len(kinds)](seed)

    return sheet
