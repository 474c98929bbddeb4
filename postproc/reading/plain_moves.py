"""Plain moves: blocks of places, a feed and a straight motion word at most, made one after another in one go.

Nearly all blocks of a long program are such, and nothing is to be said of them. Whatever something may be said of (a
number finer than the increment, an address that stands twice, a place that nobody gave) is left to the interpreter,
which runs it by its table, and so is every block that holds anything else.
"""

from collections.abc import Mapping, Sequence

from planner.steps import Cut, Rapid
from postproc.motion import IN_FORCE, Motion
from postproc.reading.control import Mode
from postproc.reading.lathe import Lathe
from postproc.reading.log import MOST_MOTIONS
from postproc.reading.words import Block, Word
from postproc.vocabulary.acts import Act

_MODES: Mapping[Act, Mode] = {Act.RAPID: Mode.RAPID, Act.FEED: Mode.FEED}
_FEED = Motion._fields.index("feed")
_new = tuple.__new__
"""Builds a move in a third of the time that `Motion` takes by itself; a long program has many."""

Said = tuple[int | None, int | None, int | None, Mode | None]
"""What a plain block says: x and z of its end, feed, motion."""


class PlainMoves:
    """Makes the plain moves of one run."""

    def __init__(self, blocks: Sequence[Block], lathe: Lathe, acts: Mapping[int, Act], idle: bool) -> None:
        """`acts`: what the G numbers ask for. `idle`: the dialect has the usual addresses; else no block is plain."""
        self._blocks, self._lathe, axes = blocks, lathe, lathe.dialect.axes
        self._modes = {number: _MODES[act] for number, act in acts.items() if act in _MODES}
        self._by_text: dict[str, Mode] = {}
        self._exact, self._feeds = lathe.words.exact, lathe.words.feeds
        self._taken = idle and lathe.words.exact_places
        self._across, self._along = "U" if axes.get("U") == "X" else "", "W" if axes.get("W") == "Z" else ""

    def make(self, at: int, end: int, mode: Mode) -> tuple[int, Mode]:
        """Make the moves of the blocks from `at` on that are plain, before `end`.

        Returns how many there were, and the state that follows. Place, feed and line are then as if each block had
        been run by itself.
        """
        lathe, control, log = self._lathe, self._lathe.control, self._lathe.log
        if not self._taken or mode not in (Mode.RAPID, Mode.FEED) or not self._settled():
            return 0, mode
        place, feed, made = control.place, control.feed.count, len(log.motions)
        x, z, in_force = place.x, place.z, lathe.motion("feed", place.x, place.z)[IN_FORCE:]
        before, behind = in_force[: _FEED - IN_FORCE], in_force[_FEED - IN_FORCE + 1 :]
        by_feed: dict[int | None, tuple[object, ...]] = {None: (*before, None, *behind)}
        said_by, moved, stepped = self._said, log.motions.append, log.steps.append
        for k in range(at, min(end, at + MOST_MOTIONS - made)):
            line, words, _, skip, _, _ = self._blocks[k]
            said = None if skip else said_by(words, x, z)
            if said is None:
                break
            x0, z0, (to_x, to_z, to_feed, to_mode) = x, z, said
            mode, feed = to_mode or mode, to_feed or feed
            x, z = x if to_x is None else to_x, z if to_z is None else to_z
            if mode is Mode.RAPID:
                way, force = ("rapid", x0, z0, x, z, line), by_feed[None]
                stepped(Rapid(to_x, to_z))
            else:
                if feed not in by_feed:
                    by_feed[feed] = (*before, feed, *behind)
                way, force = ("feed", x0, z0, x, z, line), by_feed[feed]
                stepped(Cut(feed or 0, to_x, to_z))
            moved(_new(Motion, way + force))
        number = len(log.motions) - made
        log.step_lines.extend(motion.line for motion in log.motions[made:])
        log.step_motions.extend(range(made, made + number))
        place.x, place.z, control.feed.count = x, z, feed
        if number:
            log.line = log.motions[-1].line
        return number, mode

    def _said(self, words: Sequence[Word], x: int, z: int) -> Said | None:
        """What a block says where the tool stands at x and z; None if it is not plain."""
        to_x = to_z = feed = mode = None
        exact = self._exact
        try:
            for address, text, _ in words:
                if address == "X" and to_x is None:
                    to_x = exact[text]
                elif address == "Z" and to_z is None:
                    to_z = exact[text]
                elif address == "G" and mode is None:
                    mode = self._by_text.get(text) or self._mode(text)
                elif address == "F" and feed is None:
                    feed = self._feeds[text]
                elif address == self._across and to_x is None:
                    to_x = x + exact[text]
                elif address == self._along and to_z is None:
                    to_z = z + exact[text]
                else:
                    return None
        except KeyError:
            return None
        return None if to_x is to_z is None else (to_x, to_z, feed, mode)

    def _mode(self, text: str) -> Mode:
        """What a G number puts in force; KeyError where that is no straight move."""
        mode = self._by_text[text] = self._modes[int(text) if text.isdigit() else -1]
        return mode

    def _settled(self) -> bool:
        """True where all is in force that a move needs, so that nothing is to be said of one."""
        control, place = self._lathe.control, self._lathe.control.place
        said = control.feed.said and place.known and place.x_home
        return said and not place.incremental and not self._lathe.words.late_units
