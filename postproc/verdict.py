"""The verdict: a program held against its drawing, groove by groove."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from extractor.finding import Finding, stopped
from extractor.side import SIDES, Side, Where
from extractor.values import SPARE, dataclass
from planner.shop import Shop
from postproc.reading.run import Run


class State(StrEnum):
    """How one groove came out; the first that applies, in this order."""

    MISSING = "missing"
    EXTRA = "extra"
    POSITION = "position"
    WIDTH = "width"
    DEPTH = "depth"
    MATCHES = "matches"


@dataclass(frozen=True, kw_only=True)
class CutGroove:
    """A recess that the program leaves in the metal, in drawing units; `lines` are the program lines that cut it.

    `where` is the side that it is cut into. Of a face groove `z_far` is the floor, `floor_diameter` the inner wall and
    `mouth_diameter` the outer one, which is None elsewhere.
    """

    z_near: float
    z_far: float
    floor_diameter: float
    lines: tuple[int, ...] = ()
    where: Where = field(default="outside", metadata=SPARE)
    mouth_diameter: float | None = field(default=None, metadata=SPARE)

    @property
    def side(self) -> Side:
        """The side that it is cut into."""
        return SIDES[self.where]


@dataclass(frozen=True, kw_only=True)
class Match:
    """One groove of the drawing, of the program, or of both; `difference` is program minus drawing, by field name."""

    drawing: int | None
    program: CutGroove | None
    state: State
    difference: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Followed:
    """How many moves of a program were followed, how many were not, and how many of the former only as a tool's point.

    A block that could not be run counts as one move that was not.
    """

    moves: int = 0
    not_followed: int = 0
    as_point: int = 0


@dataclass(frozen=True)
class Verdict:
    """All grooves matched, every finding about the program, and how much of it was followed.

    `run` is what the program was found to do and `shop` the inserts that it was cut with, None where it wasn't judged.
    `spoken` is the dialect that it was read in, `told` whether its own words told it or somebody named it.
    """

    matches: tuple[Match, ...]
    findings: tuple[Finding, ...] = ()
    followed: Followed = Followed()
    run: Run | None = field(default=None, compare=False, repr=False)
    shop: Shop | None = field(default=None, compare=False, repr=False)
    spoken: str = field(default="", compare=False, repr=False)
    told: bool = field(default=True, compare=False, repr=False)

    @property
    def agree(self) -> bool:
        """True only if every groove matches and no finding is a stop."""
        return not stopped(self.findings) and all(m.state is State.MATCHES for m in self.matches)
