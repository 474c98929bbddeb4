"""A program explained: each block in one plain sentence with the numbers worked out, each word, and what it cuts.

Values only; whoever shows them decides how. The program is run by the interpreter, so the numbers are those that the
control would come to. A block inside a subprogram is explained as it runs first.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from extractor.finding import Finding
from extractor.part import Units
from planner.shop import Tool
from postproc.acts import Act, Switch
from postproc.control import ORDER
from postproc.dialect import Dialect
from postproc.dialects import find_dialect
from postproc.explain_change import one_more
from postproc.explain_cuts import Plunge, cut_grooves, plunges
from postproc.explain_words import ACTS, SWITCHES, Scene, axis_place, feed, meaning, speed, tool
from postproc.guess import guess_dialect
from postproc.interpreter import interpret
from postproc.motion import Motion
from postproc.run import CycleCall, Run
from postproc.verdict import CutGroove
from postproc.words import Block, parse_program


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

    `plunges` are its straight cuts; `grooves` what they leave, empty without tools. `changes` say how to have one
    groove more, `findings` what is wrong with the text.
    """

    dialect: str
    units: Units
    blocks: tuple[ExplainedBlock, ...]
    plunges: tuple[Plunge, ...]
    grooves: tuple[CutGroove, ...]
    changes: tuple[str, ...]
    findings: tuple[Finding, ...]
    run: Run


def explain(
    text: str, dialect: Dialect | None = None, units: Units | None = None, tools: Sequence[Tool] = ()
) -> Explanation:
    """Explain a program.

    `dialect` None: guessed from the text, two-block where nothing tells. `units` where the program has no unit word.
    `tools` (in program units) give the grooves their walls. Raises ProgramError if the text has no word in it.
    """
    parsed = parse_program(text)
    spoken = dialect or guess_dialect(parsed) or find_dialect("two-block")
    run = interpret(parsed, spoken, units)
    beside = {number: spoken.other_system[number] for number in spoken.beside if number in spoken.other_system}
    acts = beside | dict(spoken.reading(parsed.uses))
    scenes = tuple(_scenes(parsed.blocks, spoken, acts, run))
    switches = dict(spoken.m_words)
    blocks = tuple(
        ExplainedBlock(
            scene.block.line,
            parsed.lines[scene.block.line - 1].strip(),
            sentence(scene),
            tuple(ExplainedWord(w.column, str(w), meaning(w, scene, acts, switches)) for w in scene.block.words),
        )
        for scene in scenes
    )
    cut = cut_grooves(run, tools)
    widths = {tool.station: run.increments.count(tool.width) for tool in tools}
    return Explanation(spoken.name, run.units, blocks, plunges(run), cut, one_more(scenes, widths), run.findings, run)


def _scenes(blocks: Iterable[Block], dialect: Dialect, acts: Mapping[int, Act], run: Run) -> Iterator[Scene]:
    """Each block with what it did when it ran, and the modes in force where it stands."""
    motions: dict[int, list[Motion]] = defaultdict(list)
    calls: dict[int, CycleCall] = {}
    for motion in run.motions:
        motions[motion.line].append(motion)
    for call in run.cycles:
        calls.setdefault(call.line, call)
    scene = Scene(Block(0, ()), frozenset(), run.increments, dialect.cycle, dialect.diameter_x)
    for block in blocks:
        found = frozenset(_found(block, dialect, acts))
        scene = replace(
            scene,
            block=block,
            acts=found,
            incremental=_switched(scene.incremental, found, Act.INCREMENTAL, Act.ABSOLUTE),
            surface=_switched(scene.surface, found, Act.SURFACE, Act.RPM),
            per_minute=_switched(scene.per_minute, found, Act.PER_MINUTE, Act.PER_REV),
            call=calls.get(block.line),
            motions=tuple(motions[block.line]),
        )
        yield scene


def _found(block: Block, dialect: Dialect, acts: Mapping[int, Act]) -> Iterator[Act | Switch]:
    """What the G and M words of a block ask for."""
    for word in block.words:
        if word.whole is not None and word.address in "GM":
            event = acts.get(word.whole) if word.address == "G" else dialect.m_words.get(word.whole)
            if event is not None:
                yield event


def _switched(now: bool, found: frozenset[Act | Switch], on: Act, off: Act) -> bool:
    """A mode after a block."""
    return True if on in found else False if off in found else now


def sentence(scene: Scene) -> str:
    """One plain sentence about a block."""
    block = scene.block
    clauses = list(_clauses(scene))
    if not block.words:
        clauses = ["a remark, not run: " + "; ".join(filter(None, block.comments))]
    whole = "; ".join(clauses or ["no word of this block is understood"]).rstrip(".,:; ")
    whole = f"unless block skip is on, {whole}" if block.skip else whole
    return whole[0].upper() + whole[1:] + "."


def _clauses(scene: Scene) -> Iterator[str]:
    """What a block does, thing by thing, in the order in which it happens."""
    moves = {Act.RAPID, Act.FEED, Act.ARC_CLOCKWISE, Act.ARC_COUNTER}
    for word in scene.block.words:
        if word.address == "O" and word is scene.block.words[0]:
            yield f"program number {word.text} begins"
        elif word.address == "T":
            yield tool(word)
    for act in sorted(scene.acts - moves - {Act.GROOVE, Act.CLAMP_OR_ZERO, Act.DWELL}, key=ORDER.__getitem__):
        if isinstance(act, Act):
            yield ACTS[act]
    yield from _numbers(scene)
    yield from _movement(scene)
    for switch in sorted(scene.acts, key=ORDER.__getitem__):
        if isinstance(switch, Switch):
            yield SWITCHES[switch] if switch is not Switch.CALL else _call(scene)


def _numbers(scene: Scene) -> Iterator[str]:
    """The clauses of S, of F in a block that doesn't move, and of a dwell."""
    for word in scene.block.words:
        if word.address == "S":
            yield f"the spindle turns {speed(word, scene)}" if Act.CLAMP_OR_ZERO in scene.acts else speed(word, scene)
        elif word.address == "F" and not scene.motions:
            yield feed(word, scene)
        elif Act.DWELL in scene.acts and word.address in "PXU":
            yield "stand still " + meaning(word, scene, {}, {})


def _call(scene: Scene) -> str:
    """The clause of a subprogram call."""
    words = {word.address: word for word in scene.block.words}
    times = f", {words['L'].text} times" if "L" in words else ""
    return f"subprogram {words['P'].text} runs{times}" if "P" in words else "a subprogram runs"


def _movement(scene: Scene) -> Iterator[str]:
    """The clause of the cycle or of the move."""
    if scene.call is not None and scene.form is not None:
        yield _cycle(scene, scene.call)
    elif Act.GROOVE in scene.acts:
        for word in scene.block.words:
            if scene.form is not None and word.address == scene.form.retract:
                yield f"for the grooving cycle that follows: {meaning(word, scene, {}, {})}"
    elif scene.motions and Act.HOME not in scene.acts and Act.MACHINE_PLACE not in scene.acts:
        yield _straight(scene, scene.motions[0], scene.motions[-1])
    elif Act.CLAMP_OR_ZERO in scene.acts and not scene.has("S"):
        yield "the control is told where the tool stands"
    elif not scene.motions:
        yield from (f"from here on {ACTS[act]}" for act in (Act.RAPID, Act.FEED) if act in scene.acts)


def _cycle(scene: Scene, call: CycleCall) -> str:
    """The clause of a call of the grooving cycle, all its numbers worked out."""
    at = ", ".join(scene.place("Z", z) for z in call.places[:12]) + (" and on" if len(call.places) > 12 else "")
    number = len(call.places)
    words = [w for w in scene.block.words if scene.form and w.address in (scene.form.peck, scene.form.shift)]
    amounts = "".join(f"; {word}: {meaning(word, scene, {}, {})}" for word in words)
    rate = _rate(scene, call.feed)
    start = f"{scene.place('X', call.start_x)} {scene.place('Z', call.start_z)}"
    return (
        f"grooving cycle from {start}: {number} plunge{'s' if number > 1 else ''} at {at}, to a floor of diameter "
        f"{scene.length(call.floor_x)}{amounts}; {rate}; at the end back to the start"
    )


def _rate(scene: Scene, count: int | None) -> str:
    """A feed in words."""
    if not count:
        return "with no feed"
    value = scene.increments.feed_length(count)
    return f"feed {value:g} {scene.increments.units}/{'min' if scene.per_minute else 'rev'}"


def _straight(scene: Scene, first: Motion, last: Motion) -> str:
    """The clause of a straight move or an arc."""
    ends = [axis_place("X", last.x1, scene)] * (last.x1 != first.x0 or scene.has("X") or scene.has("U"))
    ends += [axis_place("Z", last.z1, scene)] * (last.z1 != first.z0 or scene.has("Z") or scene.has("W"))
    to = " and ".join(ends)
    if last.kind == "rapid":
        return f"at rapid {to}"
    known = first.x0_known and first.z0_known
    way = _way(scene, first, last) if known else ""
    return f"{'at ' if last.feed else ''}{_rate(scene, last.feed)} {to}{way}"


def _way(scene: Scene, first: Motion, last: Motion) -> str:
    """How far a cut goes, on the radius and along the axis."""
    across, along = last.x1 - first.x0, last.z1 - first.z0
    parts = []
    if across:
        parts.append(
            f"{scene.length(abs(across) // 2)} {'outward' if across > 0 else 'inward'}, measured on the radius"
        )
    if along:
        parts.append(f"{scene.length(abs(along))} {'away from' if along > 0 else 'toward'} the chuck")
    return f": {' and '.join(parts)}" if parts else ": no way at all"
