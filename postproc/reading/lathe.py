"""What the actions of the table work with: the control, the words of the block at hand, and the log of the run."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import islice
from typing import Literal

from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.control import Control
from postproc.reading.course import Course
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import OTHER_AXES
from postproc.vocabulary.cycle import CycleMove

CORNERS = {
    "C": "asks for a chamfer where this line meets the next",
    "I": "asks for a chamfer where this line meets the next",
    "K": "asks for a chamfer where this line meets the next",
    "R": "asks for a rounding where this line meets the next",
    "A": "gives the angle of this line",
}
"""What words beside a straight cut ask for on controls that work corners out themselves (common practice)."""
LINE = Motion._fields.index("line")
"""Where in a move that begins which is no place or kind of move."""


@dataclass
class Lathe:
    """One run's. `home_at`: where the reference point is taken to be, x and z in counts.

    `trace` runs the blocks between two numbers and gives back their moves, None (with a stop) where there are none.
    They count as made where its last argument says so.
    """

    dialect: Dialect
    increments: Increments
    control: Control
    log: Log
    words: BlockWords
    course: Course
    home_at: tuple[int, int]
    trace: Callable[[Word, Word, bool], list[Motion] | None]

    @property
    def across(self) -> float:
        """The diameter that the tool stands at, in units of length; on the axis that of one count."""
        return self.increments.length(max(1, abs(self.control.place.x)))

    def motion(
        self,
        kind: Literal["rapid", "feed"],
        x: int,
        z: int,
        cycle: int | None = None,
        home: bool = False,
        foreign: str = "",
        followed: bool = True,
    ) -> Motion:
        """A move of the tool from where it stands, with all that is in force."""
        control, place, spindle = self.control, self.control.place, self.control.spindle
        # By their places: by keyword a move takes four times as long to build, and a program has many.
        return Motion(
            kind,
            place.x,
            place.z,
            x,
            z,
            self.log.line,
            control.station,
            control.offset,
            control.feed.count if kind == "feed" else None,
            spindle.speed,
            spindle.surface,
            spindle.clamp,
            control.feed.per_minute,
            spindle.clockwise is not None,
            cycle,
            place.x_known,
            place.z_known,
            home,
            spindle.line,
            control.compensated,
            foreign,
            spindle.clockwise is False,
            control.wet,
            followed,
        )

    def move(
        self,
        kind: Literal["rapid", "feed"],
        x: int,
        z: int,
        cycle: int | None = None,
        home: bool = False,
        foreign: str = "",
        followed: bool = True,
    ) -> None:
        """Make such a move, and note it. Raises Runaway when there are too many moves."""
        if self.control.corner is not None:
            self.no_corner("and no straight cut comes next")
        self.log.move(self.motion(kind, x, z, cycle, home, foreign, followed))
        self.control.place.x, self.control.place.z = x, z

    def move_to(self, kind: Literal["rapid", "feed"], x: int | None, z: int | None, cycle: int | None = None) -> None:
        """Move along the axes that are given, and stay where the tool is on the other."""
        place = self.control.place
        self.move(kind, place.x if x is None else x, place.z if z is None else z, cycle)

    def cycle_moves(self, moves: Iterable[CycleMove], cycle: int) -> None:
        """Make the moves of a grooving cycle: nothing in force changes on the way, and from the first on it is placed.

        Raises Runaway when there are too many moves.
        """
        ahead, place = iter(moves), self.control.place
        for kind, x, z in islice(ahead, 1):
            self.move_to(kind, x, z, cycle)
        place.x_known = place.z_known = True
        x0, z0 = place.x, place.z
        same = {"rapid": self.motion("rapid", x0, z0, cycle)[LINE:], "feed": self.motion("feed", x0, z0, cycle)[LINE:]}
        for kind, x, z in ahead:
            x1, z1 = x0 if x is None else x, z0 if z is None else z
            self.log.move(Motion._make((kind, x0, z0, x1, z1, *same[kind])))
            x0, z0 = x1, z1
        place.x, place.z = x0, z0

    def no_corner(self, why: str) -> None:
        """A stop for the corner that waits, which can't be put in."""
        if (corner := self.control.corner) is None:
            return
        self.control.corner = None
        word = corner.word
        axis = (
            f", or move {word.address} in a block without X and Z, if it is an axis"
            if word.address in OTHER_AXES
            else ""
        )
        message = (
            f"{word} at column {word.column} {CORNERS[word.address.lstrip(',')]}, {why}; write each line and arc as a "
            f"block of its own with its end{axis}."
        )
        self.at_line(corner.line, lambda: self.log.stop(ProgramCode.CORNER_WORD, message))

    def at_line(self, line: int, tell: Callable[[], None]) -> None:
        """Tell something of an earlier line."""
        now, self.log.line = self.log.line, line
        tell()
        self.log.line = now
