"""What an interpreter writes down while it runs: moves, cycle calls, steps and findings, each with its line."""

from collections import Counter
from dataclasses import dataclass, field, replace

from extractor.finding import Code, Finding, Level
from planner.steps import Step
from postproc.motion import Motion
from postproc.reading.control import Control
from postproc.reading.run import CycleCall, Indexing, Standstill, ZeroSetting

MOST_MOTIONS = 500_000
MOST_ALIKE = 20
"""After so many findings of one code the rest are counted, not listed."""


class Runaway(Exception):
    """The program moves without end; the walk stops here."""


@dataclass
class Log:
    """The record of one run; `line` is the program line at work.

    `lost`: from here on nothing says where the tool goes. `skipped`: blocks that could not be run. `close`, `guard`
    and `alarm` as in `Run`.
    """

    line: int = 0
    motions: list[Motion] = field(default_factory=list)
    cycles: list[CycleCall] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    step_lines: list[int] = field(default_factory=list)
    step_motions: list[int] = field(default_factory=list)
    starts: set[int] = field(default_factory=set)
    findings: list[Finding] = field(default_factory=list)
    indexings: list[Indexing] = field(default_factory=list)
    halts: list[Standstill] = field(default_factory=list)
    zeros: list[ZeroSetting] = field(default_factory=list)
    lost: bool = False
    skipped: int = 0
    close: int | None = None
    guard: tuple[int, str] | None = None
    alarm: int | None = None
    _counts: Counter[Code] = field(default_factory=Counter)
    _said: set[Finding] = field(default_factory=set)

    def stop(self, code: Code, message: str) -> None:
        """Note what keeps the program from being trusted."""
        self._find(Level.STOP, code, message)

    def caution(self, code: Code, message: str) -> None:
        """Note what a person must look at."""
        self._find(Level.CAUTION, code, message)

    def _find(self, level: Level, code: Code, message: str) -> None:
        """Keep a finding once for its line, however often a subprogram runs; none that only follows from a lost way."""
        if self.lost:
            return
        finding = Finding(level, code, message, line=self.line)
        if finding in self._said:
            return
        self._said.add(finding)
        self._counts[code] += 1
        if self._counts[code] <= MOST_ALIKE:
            self.findings.append(finding)
        elif self._counts[code] == MOST_ALIKE + 1:
            self.findings.append(replace(finding, message="There are more places like these from here on."))

    def lose(self, code: Code, message: str) -> None:
        """Note what hides the path from here on: anything reported after it would only follow from it."""
        self.stop(code, message)
        self.lost = True

    def halt(self, what: str, optional: bool = False) -> None:
        """Note that the machine stands still here until somebody starts it."""
        self.halts.append(Standstill(self.line, len(self.motions), what, optional))

    def step(self, step: Step) -> None:
        """Note a neutral step."""
        self.steps.append(step)
        self.step_lines.append(self.line)
        self.step_motions.append(len(self.motions))

    def index(self, control: Control, station: int, cancels: bool) -> None:
        """Note that the turret turns to a station, unless the program itself has turned it there before.

        Where it stands when the program begins nobody knows, so the first call may turn it as well.
        `cancels`: the word takes the offset away, and its block moves nothing.
        """
        turns = bool(station and station != control.station)
        if turns or (cancels and control.offset):
            what = "turret is indexed" if turns else "offset is cancelled"
            self.indexings.append(Indexing(self.line, len(self.motions), control.place.known, what))

    def move(self, motion: Motion) -> None:
        """Note a move. Raises Runaway when there are too many."""
        if len(self.motions) >= MOST_MOTIONS:
            raise Runaway
        self.motions.append(motion)
