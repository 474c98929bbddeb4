"""What the actions of the table work with: the control, the words of the block at hand, and the log of the run."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from planner.increment import Increments
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.control import Control
from postproc.reading.course import Course
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.reading.words import Word


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
        self.log.move(self.motion(kind, x, z, cycle, home, foreign, followed))
        self.control.place.x, self.control.place.z = x, z

    def move_to(self, kind: Literal["rapid", "feed"], x: int | None, z: int | None, cycle: int | None = None) -> None:
        """Move along the axes that are given, and stay where the tool is on the other."""
        place = self.control.place
        self.move(kind, place.x if x is None else x, place.z if z is None else z, cycle)
