"""The watch over a program while it is cut: every move is checked in order, then made.

What a rapid ran into doesn't count as cut, but it isn't reported again either: one mistake is one finding.
"""

from collections.abc import Collection, Sequence
from itertools import takewhile

from extractor.part import Units
from extractor.side import OUTSIDE
from planner.shop import Machine, Tool
from postproc.codes import ProgramCode
from postproc.cutting.insert import Insert, Piece
from postproc.cutting.metal import UNCUT, Metal
from postproc.cutting.stock import Bench, beyond, swept
from postproc.judging.parting import behind, parted_after
from postproc.judging.points import Points
from postproc.judging.strokes import PlainStrokes
from postproc.judging.turned_feeds import TurnedFeeds
from postproc.judging.unsafe_cycles import check_cycle
from postproc.judging.unsafe_feeds import Feeds
from postproc.judging.unsafe_rapids import Rapids
from postproc.judging.unsafe_room import Room
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.reading.run import CycleCall, Indexing, Standstill

# However loose the shop's tolerance, metal thicker than this on the diameter is hit, not touched.
MOST_TOUCH: dict[Units, float] = {"mm": 0.05, "in": 0.002}


class MotionWatch:
    """Runs motions over a bench and notes what is unsafe about where they go."""

    def __init__(
        self,
        bench: Bench,
        machine: Machine,
        notebook: Notebook,
        cycles: Sequence[CycleCall] = (),
        unsaid: Collection[str] = (),
        indexings: Sequence[Indexing] = (),
        halts: Sequence[Standstill] = (),
    ) -> None:
        """Watch over a bench whose metal is still uncut; `cycles` are those that motions refer to.

        `indexings` and `halts` in their order; where there are no indexings, a move in another station than the last
        tells of one.

        `unsaid` names the limits that no shop file gave, as `Shop.unsaid`.
        """
        self.bench, self.notebook = bench, notebook
        most = min(machine.tolerance, MOST_TOUCH[bench.increments.units])
        self.touch = max(1, bench.increments.count(most))
        self._room = Room(bench, machine, notebook)
        self._rapids = Rapids(bench, self.touch, machine.clearance if "clearance" not in unsaid else None, notebook)
        self._feeds = Feeds(bench, self.touch, notebook, unsaid)
        self._felt = dict(bench.metal)
        self._points = Points(bench, self.touch, notebook)
        self._turned = TurnedFeeds(bench, notebook)
        self._strokes = PlainStrokes(bench, self.touch, self._room, self._rapids, self._feeds)
        self._cycles = cycles
        self._indexings, self._halts = list(indexings), list(halts)
        self._begun: set[int] = set()
        self._compensated: set[int] = set()

    def run(self, motions: Sequence[Motion]) -> set[int]:
        """Make every move; returns the lines of those that cut metal."""
        cutting: set[int] = set()
        before: Motion | None = None
        at, off = 0, parted_after(motions, self.bench)
        while at < len(motions):
            if before is not None and (made := self._in_one_go(motions, at, before, cutting)):
                self._place(before, motions[at])
                at += made
                before = motions[at - 1]
                continue
            number, motion = at, motions[at]
            at += 1
            if beyond(motion):
                self._too_far(motion)
                continue
            self._halt(before, number)
            self._index(before, motion, number)
            self._room.begin(before, motion)
            self._place(before, motion)
            before = motion
            tool = self.bench.tool(motion)
            if tool is None:
                if motion.turning or number < off:
                    self._turn(motion)
                else:
                    self._draw(motion, motions[off - 1])
                continue
            insert = self.bench.insert_for(tool)
            if motion.thread or not motion.followed:
                self._feeds.foreign(motion, tool)
                continue
            self._cycle(motion, tool)
            self._room.look(motion, tool, insert)
            if motion.kind == "rapid":
                after = motions[at] if at < len(motions) else None
                self._forget(self._rapids.look(motion, insert, self._felt[insert.where], after), insert)
            elif self._feed(motion, tool, insert):
                cutting.add(motion.line)
        self._halt(before, None)
        self._index(before, None, None)
        if before is not None and not before.home and self._known(before.cycle):
            self._room.place(before.line, *_reached(before, before))
        self._points.close()
        self._turned.close()
        return cutting

    def _in_one_go(self, motions: Sequence[Motion], at: int, before: Motion, cutting: set[int]) -> int:
        """Make the strokes that come next, none where the turret or a wait comes between; returns how many."""
        metal = self._felt[OUTSIDE.where]
        if before is not motions[at - 1] or metal is not self.bench.outside:
            return 0
        ends = [found[0].motions for found in (self._indexings, self._halts) if found]
        return self._strokes.make(motions, at, min([len(motions), *ends]), metal, cutting)

    def _draw(self, motion: Motion, parted: Motion) -> None:
        """A move of a puller or a tray, the spindle stopped: the piece is off, the bar behind it and the jaws stand."""
        along = motion.kind == "feed" and motion.x0 == motion.x1 and not motion.foreign
        if along or behind(motion, parted.z1) is None or self._points.lets_go(motion):
            self._room.point(motion, self._points.follow(motion), grips=True)
        else:
            self._turn(motion, parted.z1)

    def _turn(self, motion: Motion, parted: int | None = None) -> None:
        """A move of a tool that is followed as a point; `parted`: before this z nothing stands any more."""
        pieces = self._points.look(motion, parted)
        self._room.point(motion, self._points.inside(motion))
        taken = [one for piece in pieces for one in self.bench.turn(piece, motion.line)]
        if not motion.turning:
            self._points.still(motion, bool(taken))
        elif self._points.works(motion, bool(taken)):
            self._turned.look(motion)
        felt = self._felt[OUTSIDE.where]
        if felt is not self.bench.outside:
            for piece in taken:
                felt.cut(piece, motion.line)

    def _halt(self, before: Motion | None, number: int | None) -> None:
        """Look at where the machine waited since the last move; `number` as in `_index`."""
        if not self._halts:
            return
        waits = list(takewhile(lambda halt: number is None or halt.motions <= number, self._halts))
        del self._halts[: len(waits)]
        insert = None if before is None else self.bench.insert(before)
        if before is None or insert is None or not waits:
            return
        for halt in waits:
            self._room.halt(before, insert, halt)

    def _index(self, before: Motion | None, motion: Motion | None, number: int | None) -> None:
        """Look at where the turret turned since the last move: at the first turn, all of them are at one place.

        `number` counts the move that comes next; it and `motion` are None after the last.
        """
        turns = []
        if self._indexings:
            turns = list(takewhile(lambda turn: number is None or turn.motions <= number, self._indexings))
            del self._indexings[: len(turns)]
        if before is None:
            return
        if turns:
            if turns[0].known:
                self._room.index(before, turns[0].line, self._points.inside(before), turns[0].what)
        elif motion is not None and before.station not in (0, motion.station) and motion.x0_known and motion.z0_known:
            self._room.index(before, motion.line, self._points.inside(before))

    def _place(self, before: Motion | None, motion: Motion) -> None:
        """Look at where the move before ended, which this one knows as far as the program has said it."""
        if before is None or not self._known(before.cycle):
            return  # a cycle from a place that nobody gave ends there again
        if (before.x1, before.z1) == (motion.x0, motion.z0):
            self._room.place(before.line, *_reached(before, motion))

    def _known(self, cycle: int | None) -> bool:
        """False for a move of a cycle whose start the program has not said."""
        if cycle is None or cycle >= len(self._cycles):
            return True
        return self._cycles[cycle].x_known and self._cycles[cycle].z_known

    def _too_far(self, motion: Motion) -> None:
        """A place that no lathe has; nothing of the move is made."""
        message = "No lathe travels as far as this move; check the digits of X, Z, U and W."
        self.notebook.stop(ProgramCode.TOO_FAR, motion.line, message)

    def _cycle(self, motion: Motion, tool: Tool) -> None:
        """Look at a call of the grooving cycle when its first move comes up."""
        if motion.cycle is not None and motion.cycle not in self._begun and motion.cycle < len(self._cycles):
            self._begun.add(motion.cycle)
            check_cycle(self._cycles[motion.cycle], tool, self.bench, self.touch, self.notebook)

    def _feed(self, motion: Motion, tool: Tool, insert: Insert) -> bool:
        """Look at a cut and make it; True if there was metal."""
        metal: Metal = self._felt[insert.where]
        if (sure := motion.sure) is not motion:
            self._feeds.unplaced(motion, insert, metal)
        pieces = swept(motion, insert)
        if all(min(piece[1], piece[3]) >= metal.top for piece in pieces):
            return False
        if motion.placed:
            self._feeds.look(sure, tool, insert, metal)
        gone = self.bench.cut(motion, insert)
        if metal is not self.bench.metal[insert.where]:
            for piece in pieces:
                metal.cut(piece, motion.line)
        if gone and motion.compensated and motion.station not in self._compensated:
            self._compensated.add(motion.station)
            self._feeds.compensated(motion, tool)
        if gone and not self.bench.knows_offset(motion):
            self._feeds.offset(motion, tool)
        return gone

    def _forget(self, pieces: Sequence[Piece], insert: Insert) -> None:
        """Leave metal that was run into out of what is looked at later; for the verdict it still stands."""
        side = insert.where
        if pieces and self._felt[side] is self.bench.metal[side]:
            self._felt[side] = self.bench.metal[side].copy()
        for piece in pieces:
            self._felt[side].cut(piece, UNCUT)


def _reached(move: Motion, known: Motion) -> tuple[int | None, int | None]:
    """Where a move brought each axis that it moved, as far as the program had said it when another motion began."""
    x = move.x1 if known.x0_known and move.x1 != move.x0 else None
    return x, (move.z1 if known.z0_known and move.z1 != move.z0 else None)
