"""Cycles of turning, threading and drilling tools: let by, so that the rest of a program can be read.

What such a tool cuts is not followed. Where its cycle goes is, as far as its words say it plainly: the box of a turning
or facing cycle, the depth of a hole, the contour that a roughing cycle names, once along its blocks. The tool ends
where the control would have it, so the blocks after it begin at the right place (common practice).
"""

from postproc.reading.control import Control, Event
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.vocabulary.acts import Act


class ForeignCycles:
    """The actions of those cycles; `contour` is the block number to which a roughing cycle goes on, and its start."""

    control: Control
    log: Log
    words: BlockWords

    def __init__(self) -> None:
        """No contour under way, and no box said."""
        self.contour: tuple[int, tuple[int, int]] | None = None
        self._corner: tuple[int, int] | None = None

    def turning(self, event: Event) -> None:
        """G90 X Z, or a place while it is in force: in at rapid, along at feed, out at feed, back at rapid."""
        self._box(Act.TURNING)

    def facing(self, event: Event) -> None:
        """G94 X Z, or a place while it is in force: along at rapid, in at feed, back along at feed, out at rapid."""
        self._box(Act.FACING)

    def _box(self, act: Act) -> None:
        """Round the box between the start and its far corner, and back to the start."""
        if not self.words.has_axes:
            return
        x, z = self._far_corner()
        self.words.take("R")
        start_x, start_z = self.control.x, self.control.z
        turns = act is Act.TURNING
        self._go(act, "rapid", x if turns else start_x, start_z if turns else z)
        self._go(act, "feed", x, z)
        self._go(act, "feed", start_x if turns else x, z if turns else start_z)
        self._go(act, "rapid", start_x, start_z)

    def _far_corner(self) -> tuple[int, int]:
        """Where a box ends; an axis that a block leaves out stays as the block before gave it."""
        said_x, said_z = self.words.has("X") or self.words.has("U"), self.words.has("Z") or self.words.has("W")
        x, z = self.words.target(self.control)
        if self._corner is not None:
            x, z = x if said_x else self._corner[0], z if said_z else self._corner[1]
        self._corner = x, z
        return self._corner

    def threading(self, event: Event) -> None:
        """G76, or G92 and the places while it is in force: ends where it began."""
        self._stand(Act.THREADING)

    def thread(self, event: Event) -> None:
        """G32: one pass along a thread, to its end."""
        x, z = self.words.target(self.control)
        self._go(Act.THREAD, "feed", x, z)
        self.words.drop()

    def drilling(self, event: Event) -> None:
        """G74, G83: to the end of the hole and back."""
        start = self.control.x, self.control.z
        x, z = self.words.target(self.control)
        self.words.drop()
        self._go(Act.DRILLING, "feed", x, z)
        self._go(Act.DRILLING, "rapid", *start)

    def roughing(self, event: Event) -> None:
        """G71, G72, G73: with P and Q the contour's blocks follow, and the tool comes back to where it stands."""
        first, last = self.words.take("P"), self.words.take("Q")
        if first is not None and last is not None and last.whole is not None:
            self.contour = last.whole, (self.control.x, self.control.z)
        self._stand(Act.ROUGHING)

    def finishing(self, event: Event) -> None:
        """G70: along a contour that has been gone along before, and back."""
        self._stand(Act.FINISHING)

    def end_contour(self, number: int | None) -> None:
        """Back to the start of a roughing cycle when the last block of its contour has run."""
        if self.contour is not None and number == self.contour[0]:
            place, self.contour = self.contour[1], None
            self._go(Act.ROUGHING, "rapid", *place)

    def _stand(self, act: Act) -> None:
        """Mark a cycle that ends where it began."""
        self.words.drop()
        self._go(act, "rapid", self.control.x, self.control.z)

    def _go(self, act: Act, kind: str, x: int, z: int) -> None:
        """A move that stands for a cycle."""
        self.log.move(self.control, "feed" if kind == "feed" else "rapid", x, z, foreign=act.value)
