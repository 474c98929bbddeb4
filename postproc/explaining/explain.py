"""A program explained: each block in one plain sentence with the numbers worked out, each word, and what it cuts.

Values only; whoever shows them decides how. The program is run by the interpreter, so the numbers are those that the
control would come to. A block inside a subprogram is explained as it runs first.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

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
from postproc.inserts import contradictions, known_inserts
from postproc.motion import Motion
from postproc.reading.guess import read_in
from postproc.reading.interpreter import interpret
from postproc.reading.meanings import Meanings
from postproc.reading.renaming import Renaming
from postproc.reading.run import CycleCall, Run
from postproc.reading.words import Block, ParsedProgram
from postproc.verdict import CutGroove
from postproc.vocabulary.acts import MOTIONS, Act, Switch


@dataclass(frozen=True)
class ExplainedWord:
    """A word where it stands (column from 1) and what it means."""

    column: int
    text: str
    meaning: str


@dataclass(frozen=True)
class ExplainedBlock:
    """A line of the program as written, its sentence, and its words."""

    line: int
    text: str
    sentence: str
    words: tuple[ExplainedWord, ...] = ()


@dataclass(frozen=True)
class Explanation:
    """A whole program in words.

    `plunges` are its straight cuts; `grooves` what they leave, empty without tools. `changes` say how to get one
    more groove, `findings` what is wrong with the text.
    """

    dialect: str
    units: Units
    blocks: tuple[ExplainedBlock, ...]
    plunges: tuple[StraightCut, ...]
    grooves: tuple[CutGroove, ...]
    changes: tuple[str, ...]
    findings: tuple[Finding, ...]
    run: Run

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
    scenes = tuple(_scenes(parsed, spoken, run, whole_numbers == "units"))
    blocks = tuple(
        ExplainedBlock(
            scene.block.line,
            parsed.lines[scene.block.line - 1].strip(),
            sentence(scene),
            tuple(ExplainedWord(w.column, scene.text(w), meaning(w, scene)) for w in scene.block.words),
        )
        for scene in scenes
    )
    cut = cut_grooves(run, tools)
    widths = {tool.station: run.increments.count(tool.width) for tool in tools}
    findings = (*run.findings, *said)
    return Explanation(spoken.name, run.units, blocks, plunges(run), cut, one_more(scenes, widths), findings, run)


def _noted(unknown: Finding) -> Finding:
    """What keeps a program from being judged is only worth knowing where it is explained."""
    return replace(unknown, level=Level.NOTE)


def _scenes(parsed: ParsedProgram, dialect: Dialect, run: Run, in_units: bool) -> Iterator[BlockScene]:
    """Each block with what it did when it ran, and the modes in force where it stands."""
    motions = _first_runs(run)
    calls: dict[int, CycleCall] = {}
    for call in run.cycles:
        calls.setdefault(call.line, call)
    meanings, renaming = Meanings(dialect, parsed), Renaming(dialect)
    scene = BlockScene(Block(0, ()), frozenset(), run.increments, dialect, in_units)
    scene = replace(scene, units_known=all(finding.code != DrawingCode.UNITS_UNKNOWN for finding in run.findings))
    for block in parsed.blocks:
        given = run.worked_out.get(block.line, block.words)
        written = {renaming.plain(word): str(word) for word in given}
        block = block._replace(words=tuple(written))
        events = {word: event for word in written if (event := meanings.of(word, block.words)) is not None}
        events |= dict.fromkeys(map(renaming.plain, renaming.calling(given)), Act.GROOVE)
        found = frozenset([*events.values(), *renaming(given)[1], *([Act.GROOVE] if block.line in calls else [])])
        scene = replace(
            scene,
            block=block,
            acts=found,
            events=events,
            written=written,
            incremental=_switched(scene.incremental, found, Act.INCREMENTAL, Act.ABSOLUTE),
            surface=_switched(scene.surface, found, Act.SURFACE, Act.RPM),
            per_minute=_switched(scene.per_minute, found, Act.PER_MINUTE, Act.PER_REV),
            call=calls.get(block.line),
            arc=_arc(scene.arc, found),
            lasting=_lasting(scene.lasting, found),
        )
        made = motions.get(block.line, ())
        scene = replace(scene, motions=tuple(made if scene.arc or scene.call else made[:1]))
        yield scene


def _first_runs(run: Run) -> Mapping[int, Sequence[Motion]]:
    """The moves that each line makes when it is first run, by line."""
    found: dict[int, list[Motion]] = {}
    before = 0
    for motion in run.motions:
        if motion.line not in found:
            found[motion.line] = [motion]
        elif motion.line == before:
            found[motion.line].append(motion)
        before = motion.line
    return found


def _arc(now: Act | None, found: frozenset[Act | Switch]) -> Act | None:
    """The arc that a place in a block ends, None where it is no arc."""
    for act in (Act.ARC_CLOCKWISE, Act.ARC_COUNTER):
        if act in found:
            return act
    return None if found & {Act.RAPID, Act.FEED} else now


def _lasting(now: Act | None, found: frozenset[Act | Switch]) -> Act | None:
    """The turning or threading cycle in force after a block."""
    for act in (Act.TURNING, Act.FACING, Act.THREADING, Act.THREAD):
        if act in found:
            return act
    ends = {*MOTIONS, Act.WHOLE_THREAD, Act.DRILLING}
    return None if found & ends else now


def _switched(now: bool, found: frozenset[Act | Switch], on: Act, off: Act) -> bool:
    """A mode after a block."""
    return True if on in found else False if off in found else now
