"""The scenes of a program, block after block: each with what it did when it first ran and what was in force there.

Rules: a scene is made when its turn comes and nothing keeps it, as a program may have some hundred thousand blocks.
What the words of a block ask for is found once for each form.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice, takewhile
from typing import NamedTuple

from extractor.codes import DrawingCode
from postproc.dialect import Dialect
from postproc.explaining.scene import NONE, BlockScene
from postproc.motion import Motion
from postproc.reading.meanings import Meanings
from postproc.reading.renaming import Renaming
from postproc.reading.run import CycleCall, Run
from postproc.reading.words import Block, ParsedProgram, Word
from postproc.vocabulary.acts import MOTIONS, Act, Switch

Acts = frozenset[Act | Switch]
_Asked = tuple[Mapping[int, Act | Switch], Acts, bool]
"""What words ask for by their order, all that they ask for, and whether that is a move and they are its words."""
_Own = tuple[Block, Acts, Mapping[int, Act | Switch], Mapping[Word, str], CycleCall | None, bool]
"""The first fields of a scene: block, acts, asking, written, call, places_alone."""


class _Modes(NamedTuple):
    """What is in force from one block to the next."""

    incremental: bool = False
    surface: bool = False
    per_minute: bool = False
    arc: Act | None = None
    lasting: Act | None = None

    def after(self, found: Acts) -> "_Modes":
        """What is in force once a block has asked for some things."""
        return _Modes(
            incremental=_switched(self.incremental, found, Act.INCREMENTAL, Act.ABSOLUTE),
            surface=_switched(self.surface, found, Act.SURFACE, Act.RPM),
            per_minute=_switched(self.per_minute, found, Act.PER_MINUTE, Act.PER_REV),
            arc=_arc(self.arc, found),
            lasting=_lasting(self.lasting, found),
        )


class Scenes:
    """Goes through the blocks of a program that was run; `cuts`: it moves the tool at feed."""

    def __init__(self, parsed: ParsedProgram, dialect: Dialect, run: Run, in_units: bool) -> None:
        """`in_units`: lengths without a point count whole units, whatever the dialect says."""
        self.parsed, self._run = parsed, run
        self._calls: dict[int, CycleCall] = {}
        for call in run.cycles:
            self._calls.setdefault(call.line, call)
        self._first: dict[int, int] = {}
        for n, motion in enumerate(run.motions):
            self._first.setdefault(motion.line, n)
        self.cuts = bool(self._calls) or any(run.motions[n].kind == "feed" for n in self._first.values())
        self._meanings, self._renaming = Meanings(dialect, parsed), Renaming(dialect)
        known = all(finding.code != DrawingCode.UNITS_UNKNOWN for finding in run.findings)
        scale = run.increments.per_length, run.increments.units if known else ""
        began = (block.words[0] for block in parsed.blocks if block.words and block.words[0].address == "O")
        programs = frozenset(word.whole for word in began if word.whole is not None)
        self._common = run.increments, dialect, in_units, scale, programs
        self._subprograms = {number for number, switch in dialect.m_words.items() if switch is Switch.CALL}
        self._forms: dict[tuple[str, ...], _Asked] = {}

    def __iter__(self) -> Iterator[BlockScene]:
        """Each block with what it did when it ran, and the modes in force where it stands."""
        modes, then = _Modes(), dict[tuple[_Modes, Acts], _Modes]()
        for block in self.parsed.blocks:
            own = self._own(block)
            block, acts, _, _, call, _ = own
            step = modes, acts
            modes = then.get(step) or then.setdefault(step, modes.after(acts))
            moves = self._moves(block.line, whole=bool(modes.arc or call))
            yield BlockScene(
                *own, *self._common, modes.incremental, modes.surface, modes.per_minute, modes.arc, modes.lasting, moves
            )

    def governing(self) -> Iterator[BlockScene]:
        """Only the blocks that call the grooving cycle or a subprogram, with nothing of what was in force before."""
        for block in self.parsed.blocks:
            words = self._run.worked_out.get(block.line, block.words)
            if block.line in self._calls or any(w.address == "M" and w.whole in self._subprograms for w in words):
                yield BlockScene(*self._own(block), *self._common)

    def _own(self, block: Block) -> _Own:
        """What a block is by itself."""
        given = self._run.worked_out.get(block.line, block.words)
        written: Mapping[Word, str] = NONE
        words = given
        if not self._renaming.idle:
            written = {self._renaming.plain(word): str(word) for word in given}
            words = tuple(written)
        asking, acts, plain = self._asked(words, given)
        call = self._calls.get(block.line)
        if call is not None:
            acts |= {Act.GROOVE}
        return block if words is block.words else block._replace(words=words), acts, asking, written, call, plain

    def _asked(self, words: tuple[Word, ...], given: tuple[Word, ...]) -> _Asked:
        """What the words of a block ask for."""
        form = tuple([w.address + w.text if w.address in "GM" else w.address for w in words])
        known = self._forms.get(form) if self._renaming.idle else None
        if known is None:
            found = {n: event for n, word in enumerate(words) if (event := self._meanings.of(word, words)) is not None}
            calling = self._renaming.calling(given)
            found |= {n: Act.GROOVE for n, word in enumerate(given) if word in calling}
            acts = frozenset([*found.values(), *self._renaming(given)[1]])
            known = self._forms[form] = found, acts, acts <= MOTIONS and all(w.address in "GXZUWF" for w in words)
        return known

    def _moves(self, line: int, whole: bool) -> Sequence[Motion]:
        """The moves that a line makes when it is first run; where they are not the parts of one, only the first."""
        at, motions = self._first.get(line), self._run.motions
        if at is None:
            return ()
        if not whole:
            return motions[at : at + 1]
        return tuple(takewhile(lambda motion: motion.line == line, islice(motions, at, None)))


def _arc(now: Act | None, found: Acts) -> Act | None:
    """The arc that a place in a block ends, None where it is no arc."""
    for act in (Act.ARC_CLOCKWISE, Act.ARC_COUNTER):
        if act in found:
            return act
    return None if found & {Act.RAPID, Act.FEED} else now


def _lasting(now: Act | None, found: Acts) -> Act | None:
    """The turning or threading cycle in force after a block."""
    for act in (Act.TURNING, Act.FACING, Act.THREADING, Act.THREAD):
        if act in found:
            return act
    ends = {*MOTIONS, Act.WHOLE_THREAD, Act.DRILLING}
    return None if found & ends else now


def _switched(now: bool, found: Acts, on: Act, off: Act) -> bool:
    """A mode after a block."""
    return True if on in found else False if off in found else now


__all__ = ["Scenes"]
