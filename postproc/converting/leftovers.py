"""Words of a program that no step holds: what may be dropped is listed, what may not is refused with its line."""

from collections.abc import Callable, Iterator, Sequence

from extractor.runs import spans
from planner.words import times
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.meanings import Meanings
from postproc.reading.renaming import Renaming
from postproc.reading.words import Block, ParsedProgram, Word
from postproc.vocabulary.acts import CALLS_WITH_VALUES, FOREIGN_ACTS, Act, Switch

REFUSED = {
    Act.COMPENSATED: "radius compensation depends on a nose radius that only the machine knows",
    Act.MACHINE_PLACE: "a place of the machine's own coordinates is another one at another machine",
    Switch.ORIENT: "an oriented spindle stop has no word there",
}
UNSAID = (
    "it is a switch of this machine's own, and another machine may do anything by it; say what it does by own_switches "
    "in a dialect file of each control"
)
NOT_ALONE = (
    "it is a switch of this machine's own beside other words, and which of them comes first is the control's own; put "
    "it in a block by itself"
)
HARMFUL = frozenset(
    {
        ProgramCode.CORNER_WORD,
        ProgramCode.OTHER_AXIS,
        ProgramCode.ENDLESS,
        ProgramCode.HOME,
        ProgramCode.DIRECTIVE,
        ProgramCode.NOT_RUN,
    }
)
"""Findings without a stop that still keep a program from being carried over."""

IDLE = frozenset({Act.IDLE, Act.UNCOMPENSATED})
"""Words that no step holds and nobody misses."""

Told = tuple[bool, str]
"""Whether it is a refusal, and the sentence fragment."""


def leftovers(parsed: ParsedProgram, source: Dialect) -> Iterator[Told]:
    """The notes and refusals about a program's words, each once a line."""
    meanings = Meanings(source, parsed)
    numbered = sum(1 for block in parsed.blocks if block.number is not None)
    if numbered:
        words = "N words" if numbered > 1 else "N word"
        yield False, f"the {words} of {times(numbered, 'block')} {'are' if numbered > 1 else 'is'} not kept"
    remarked = sum(1 for block in parsed.blocks if any(block.comments))
    if remarked:
        said = "remarks" if remarked > 1 else "remark"
        gone = f"the {said} of {times(remarked, 'line')} {'are' if remarked > 1 else 'is'} not kept"
        yield False, f"{gone}; give an insert that only a remark tells of with --shop from here on"
    idle = [
        (word, block.line) for block in parsed.blocks for word in block.words if meanings.of(word, block.words) in IDLE
    ]
    if idle:
        yield False, _idle(idle)
    calling = Renaming(source).calling
    for block in parsed.blocks:
        cycle = calling(block.words)
        given = [word for word in block.words if meanings.of(word, block.words) in CALLS_WITH_VALUES]
        for word in given or [one for one in block.words if one not in cycle]:
            if (told := _of_word(word, block, meanings, source)) is not None:
                yield told


def _idle(words: Sequence[tuple[Word, int]]) -> str:
    """What is said of words that do nothing, in one sentence for all."""
    said, lines = list(dict.fromkeys(str(word) for word, _ in words)), {line for _, line in words}
    what = "is left out: it cancels or sets what is so without it"
    if len(said) > 1:
        what = "are left out: they cancel or set what is so without them"
    return f"line{'s' if len(lines) > 1 else ''} {spans(lines)}: {', '.join(said)} {what}"


def asking(parsed: ParsedProgram, source: Dialect) -> Callable[[int, Act | Switch], str]:
    """A function that gives the word on a line that asks for something, "" if none on that line does."""
    meanings = Meanings(source, parsed)
    blocks = {block.line: block.words for block in parsed.blocks}

    def word(line: int, asked: Act | Switch) -> str:
        """The first such word of a line."""
        words = blocks.get(line, ())
        return next((str(one) for one in words if meanings.of(one, words) is asked), "")

    return word


def _of_word(word: Word, block: Block, meanings: Meanings, source: Dialect) -> Told | None:
    """What is to be said of one word, None for one that a step holds."""
    event = meanings.of(word, block.words)
    place = f"line {block.line}: {word}"
    if event is None:
        return None
    if event is Switch.OWN:
        said = word.whole in source.own_switches
        alone = len(block.words) == 1
        return None if said and alone else (True, f"{place} can't be carried over: {NOT_ALONE if said else UNSAID}")
    if REFUSED.get(event):
        return True, f"{place} can't be carried over: {REFUSED[event]}"
    if event in FOREIGN_ACTS:
        return True, f"{place} ({event}) is of another kind of tool, so it can't be carried over"
    if event is Act.HOME and word.whole != int(source.g(Act.HOME)[1:]):
        return False, f"{place} became the way to the first reference point: see that it is clear"
    if event is Switch.IDLE:
        return False, f"{place} is left out: the tool word alone turns the turret"
    if event in (Switch.CALL, Act.LOCAL_CALL, *CALLS_WITH_VALUES):
        return False, f"{place}: the subprogram is written out at each place that calls it"
    return None
