"""Strokes: moves of one insert straight in and out at one place, of which nothing is to be said, made in one go.

Most moves of a pecked groove are such. While only this insert moves and only at this place, what stands there is level
and no higher than the deepest cut so far: one height tells how a move meets the metal, and the deepest cut leaves what
all of them leave. Each begins where the one before ended, clear of metal. A move of which one of the checks may say
something is left to the watch.
"""

from collections.abc import Sequence

from extractor.side import OUTSIDE
from postproc.cutting.insert import Insert
from postproc.cutting.metal import FARTHEST, Metal
from postproc.cutting.stock import Bench
from postproc.judging.unsafe_feeds import Feeds
from postproc.judging.unsafe_rapids import Rapids
from postproc.judging.unsafe_room import Room
from postproc.motion import Motion


class PlainStrokes:
    """Makes strokes over a bench; those that check moves tell from where on they may say something."""

    def __init__(self, bench: Bench, touch: int, room: Room, rapids: Rapids, feeds: Feeds) -> None:
        """`touch` in h counts is taken for nothing."""
        self._bench, self._touch, self._room, self._rapids, self._feeds = bench, touch, room, rapids, feeds
        self._far = min(room.far_across, FARTHEST)

    def make(self, motions: Sequence[Motion], at: int, end: int, metal: Metal, cutting: set[int]) -> int:
        """Make the strokes from `at` on, before `end`, where the move before, which was watched, left the tool.

        `metal` is the outside. Adds the lines that cut it to `cutting`; returns how many strokes there were.
        """
        before = motions[at - 1]
        tool, insert = self._bench.tool(before), self._bench.insert(before)
        if tool is None or insert is None or not self._goes_on(before, motions[at], insert):
            return 0
        z, x = before.z1, before.x1
        top, highest, touch, far = metal.level(z + insert.left, z + insert.right), metal.top, self._touch, self._far
        if top is None:
            return 0
        (low, high), (reach, deep) = self._rapids.ends_told(z, insert), self._feeds.depths_told(tool, insert)
        deepest: int | None = None
        made = 0
        for k in range(at, end):
            motion = motions[k]
            x0, x1, rapid = motion.x0, motion.x1, motion.kind == "rapid"
            if x0 != x or not motion.z0 == motion.z1 == z or not _alike(motion, before):
                break
            least = x1 if x1 < x0 else x0
            if not -far <= x1 <= far:
                break
            if rapid and (top - least > touch or (x1 < x0 and low <= x1 < high)):
                break
            if rapid and x1 < x0 and x1 <= top + touch and not _deepened(motions, k):
                break
            if not rapid and least < highest:
                if highest - least > reach or (x1 < x0 and top - x1 > deep):
                    break
                if least < top:
                    top, deepest = least, motion.line
                    cutting.add(motion.line)
            x = x1
            made += 1
        if deepest is not None:
            metal.cut((z + insert.left, top, z + insert.right, top), deepest)
        return made

    def _goes_on(self, before: Motion, motion: Motion, insert: Insert) -> bool:
        """True for a square insert outside, whose next move stays at its place along the axis."""
        if not motion.z0 == motion.z1 == before.z1 or motion.x0 != before.x1:
            return False
        if insert.side != OUTSIDE or not insert.flat or not self._room.clear_of_centre(before.z1, insert):
            return False
        return self._bench.knows_offset(before) and _plain(before)


def _deepened(motions: Sequence[Motion], number: int) -> bool:
    """True if the move after one straight in is a cut that comes lower."""
    after = motions[number + 1] if number + 1 < len(motions) else None
    return after is not None and after.kind == "feed" and after.x1 < motions[number].x1


def _alike(motion: Motion, before: Motion) -> bool:
    """True for a plain move by the tool and in the cycle of another."""
    same = motion.cycle == before.cycle and motion.offset == before.offset and motion.station == before.station
    return same and _plain(motion)


def _plain(motion: Motion) -> bool:
    """True for a move between places that were said, along a way that is followed."""
    known = motion.x0_known and motion.z0_known and motion.followed and not motion.home
    return known and not (motion.compensated or motion.foreign)
