"""Cycles of turning, threading and drilling tools, as the moves that the control would make of them (common practice).

The contour cycles stand in `postproc.reading.roughing`. None of them is ever written.
"""

from math import isqrt
from typing import Literal

from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.reading.control import Control, Event
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.vocabulary.acts import Act

MOST_PASSES = 200
"""Of one thread; more are a slip of the finger."""


class ForeignCycles:
    """The actions of those cycles."""

    control: Control
    log: Log
    words: BlockWords
    increments: Increments

    def __init__(self) -> None:
        """No box said."""
        self._box_at: tuple[int, int, int] | None = None

    def turning(self, event: Event) -> None:
        """G90 X Z R, or a place while it is in force: in at rapid, along at feed, out at feed, back at rapid."""
        self._box(Act.TURNING)

    def facing(self, event: Event) -> None:
        """G94 X Z R, or a place while it is in force: along at rapid, in at feed, back along at feed, out at rapid."""
        self._box(Act.FACING)

    def _box(self, act: Act) -> None:
        """Round the box between the start and its far corner, and back to the start."""
        if not self.words.has_axes:
            return
        x, z, taper = self._far_corner(act)
        start_x, start_z = self.control.x, self.control.z
        if act is Act.FACING:
            self._go(act, "rapid", start_x, z + taper)
            self._go(act, "feed", x, z)
            self._go(act, "feed", x, start_z)
        else:
            self._go(act, "rapid", x + 2 * taper, start_z)
            self._go(act, "feed", x, z)
            self._go(act, "rapid" if act is Act.THREADING else "feed", start_x, z)
        self._go(act, "rapid", start_x, start_z)

    def _far_corner(self, act: Act) -> tuple[int, int, int]:
        """Where a box ends and its taper; what a block leaves out stays as the box before gave it."""
        last = self.log.motions[-1].foreign if self.log.motions else ""
        before = self._box_at if last == act.value else None
        said_x, said_z = self.words.says("X"), self.words.says("Z")
        x, z = self.words.target(self.control)
        slope = next((w for a in ("R", "K" if act is Act.FACING else "I") if (w := self.words.take(a))), None)
        taper = self.words.amount(slope)
        if before is not None:
            x, z = x if said_x else before[0], z if said_z else before[1]
            taper = before[2] if taper is None else taper
        self._box_at = x, z, taper or 0
        return self._box_at

    def threading(self, event: Event) -> None:
        """G92 X Z F, or a place while it is in force: one pass and back to the start."""
        self._box(Act.THREADING)

    def whole_thread(self, event: Event) -> None:
        """G76: a thread in all its passes, each less deep than the one before; its settings move nothing."""
        words, control = self.words, self.control
        if not words.has_axes:
            words.drop()
            return
        start_x, start_z = control.x, control.z
        x, z = words.target(control)
        high = next((w for a in "PK" if (w := words.take(a))), None)
        first = next((w for a in "QD" if (w := words.take(a))), None)
        slope = next((w for a in "RI" if (w := words.take(a))), None)
        height, cut = (abs(words.amount(w, whole=w is not None and w.address in "PQD") or 0) for w in (high, first))
        taper = words.amount(slope) or 0
        words.drop()
        if 2 * (height - cut) > abs(start_x - x):
            message = (
                "The thread is said to be higher than the way from the start to its floor, so its first passes would "
                "begin beyond the start; check its height and X."
            )
            self.log.stop(ProgramCode.THREAD_HEIGHT, message)
            height = cut
        side = 1 if start_x >= x else -1
        for left in _thread_passes(height, cut):
            place = x + side * 2 * left
            self._go(Act.WHOLE_THREAD, "rapid", place + 2 * taper, start_z)
            self._go(Act.WHOLE_THREAD, "feed", place, z)
            self._go(Act.WHOLE_THREAD, "rapid", start_x, z)
            self._go(Act.WHOLE_THREAD, "rapid", start_x, start_z)

    def thread(self, event: Event) -> None:
        """G32, or a place while it is in force: one pass along a thread, to its end."""
        if self.words.has_axes:
            x, z = self.words.target(self.control)
            self._go(Act.THREAD, "feed", x, z)
        lead = next((w for a in "KI" if (w := self.words.take(a))), None)
        if lead is not None:
            self.words.amount(lead)
        for address in "EQP":
            self.words.take(address)

    def drilling(self, event: Event) -> None:
        """G83 and the like: to the end of the hole at feed and back; the pecks of it take nothing more."""
        start = self.control.x, self.control.z
        x, z = self.words.target(self.control)
        self.words.drop()
        self._go(Act.DRILLING, "feed", x, z)
        self._go(Act.DRILLING, "rapid", *start)

    def _go(self, act: Act, kind: Literal["rapid", "feed"], x: int, z: int) -> None:
        """A move of a cycle, unless the tool is there already."""
        if (x, z) != (self.control.x, self.control.z):
            self.log.move(self.control, kind, x, z, foreign=act.value)


def _thread_passes(height: int, first: int) -> list[int]:
    """What is left above the full depth after each pass: depths grow with the root of the number of the pass.

    So every pass takes the same area of chip (common practice). Without a first depth there is the last pass alone.

    >>> _thread_passes(900, 500)
    [400, 193, 34, 0]
    """
    depths = (isqrt(first * first * number) for number in range(1, MOST_PASSES)) if first else iter(())
    left = []
    for depth in depths:
        if depth >= height:
            break
        left.append(height - depth)
    return [*left, 0]
