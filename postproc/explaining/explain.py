"""A program explained: each block in one plain sentence with the numbers worked out, each word, and what it cuts.

Values only; whoever shows them decides how. The program is run by the interpreter, so the numbers are those that the
control would come to. A block inside a subprogram is explained as it runs first.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any, NamedTuple

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Units
from extractor.values import dataclass
from planner.shop import Tool, WholeNumbers
from postproc.dialect import Dialect
from postproc.explaining.explain_change import one_more
from postproc.explaining.explain_cuts import StraightCut, cut_grooves, plunges
from postproc.explaining.explain_sentence import sentence
from postproc.explaining.explain_words import meaning
from postproc.explaining.scene import BlockScene
from postproc.explaining.scenes import Scenes
from postproc.inserts import contradictions, known_inserts
from postproc.reading.guess import read_in
from postproc.reading.interpreter import interpret
from postproc.reading.run import Run
from postproc.reading.words import Block
from postproc.verdict import CutGroove


class ExplainedWord(NamedTuple):
    """A word where it stands (column from 1) and what it means."""

    column: int
    text: str
    meaning: str


class ExplainedBlock(NamedTuple):
    """A line of the program as written; its sentence and its words are put together when they are asked for."""

    text: str
    scene: BlockScene

    @property
    def line(self) -> int:
        """Its number, from 1."""
        return self.scene.block.line

    @property
    def sentence(self) -> str:
        """What it does."""
        return sentence(self.scene)

    @property
    def words(self) -> tuple[ExplainedWord, ...]:
        """Its words."""
        scene = self.scene
        return tuple(ExplainedWord(w.column, scene.text(w), meaning(w, scene)) for w in scene.block.words)


class ExplainedBlocks(Sequence[ExplainedBlock]):
    """The blocks in their order, each explained when its turn comes: all of a long program would fill the memory."""

    def __init__(self, scenes: Scenes) -> None:
        """Those of a program that was run."""
        self._scenes = scenes

    def __iter__(self) -> Iterator[ExplainedBlock]:
        """One after another."""
        for scene in self._scenes:
            yield ExplainedBlock(self._text(scene.block), scene)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._scenes.parsed.blocks)

    def __getitem__(self, at: Any) -> Any:
        """One or some of them."""
        return tuple(self)[at]

    def texts(self) -> Iterator[tuple[int, str]]:
        """The number of each line and what is written there."""
        return ((block.line, self._text(block)) for block in self._scenes.parsed.blocks)

    def _text(self, block: Block) -> str:
        return self._scenes.parsed.lines[block.line - 1].strip()


@dataclass(frozen=True)
class Explanation:
    """A whole program in words.

    `tools` (in program units) are those known to cut. `changes` say how to get one more groove, `findings` what is
    wrong with the text.
    """

    dialect: str
    units: Units
    blocks: ExplainedBlocks
    changes: tuple[str, ...]
    findings: tuple[Finding, ...]
    run: Run
    tools: tuple[Tool, ...]

    @cached_property
    def plunges(self) -> tuple[StraightCut, ...]:
        """Its straight cuts."""
        return plunges(self.run)

    @cached_property
    def grooves(self) -> tuple[CutGroove, ...]:
        """What its cuts leave, empty without tools; cut when it is asked for, as the sheet wants the blocks alone."""
        return cut_grooves(self.run, self.tools)

    @property
    def units_known(self) -> bool:
        """False where neither the program nor its reader says mm or inch."""
        return all(finding.code != DrawingCode.UNITS_UNKNOWN for finding in self.findings)


def explain(
    text: str,
    dialect: Dialect | None = None,
    units: Units | None = None,
    tools: Sequence[Tool] = (),
    beside: Sequence[Tool] = (),
    whole_numbers: WholeNumbers | None = None,
) -> Explanation:
    """Explain a program.

    `dialect` None: guessed from the text, two-block where nothing tells. `units` where the program has no unit word.
    `tools` (in program units) give the grooves their walls; without them the program's heading does, then `beside`.
    `whole_numbers`: what lengths without a point count, None where nobody said. Raises ProgramError if the text has no
    word in it.
    """
    parsed, spoken, _ = read_in(text, dialect)
    run = interpret(parsed, spoken, units, whole_numbers=whole_numbers)
    known = known_inserts(parsed, run, run.units, beside=beside)
    said = contradictions(parsed, run, tools, run.units) if tools else tuple(map(_noted, known.unknown))
    tools = tools or known.tools
    scenes = Scenes(parsed, spoken, run, whole_numbers == "units")
    widths = {tool.station: run.increments.count(tool.width) for tool in tools}
    findings = (*run.findings, *said)
    changes = one_more(tuple(scenes.governing()), widths, scenes.cuts)
    return Explanation(spoken.name, run.units, ExplainedBlocks(scenes), changes, findings, run, tuple(tools))


def _noted(unknown: Finding) -> Finding:
    """What keeps a program from being judged is only worth knowing where it is explained."""
    return replace(unknown, level=Level.NOTE)
