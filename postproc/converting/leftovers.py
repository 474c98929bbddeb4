"""Words of a program that no step holds: what may be dropped is listed, what may not is refused with its line."""

from collections.abc import Callable, Iterator, Sequence

from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.meanings import Meanings
from postproc.reading.words import Block, ParsedProgram, Word
from postproc.vocabulary.acts import FOREIGN_ACTS, Act, Switch

REFUSED = {
    Act.COMPENSATED: "radius compensation hangs on a nose radius that only the machine knows",
    Act.MACHINE_PLACE: "a place of the machine's own coordinates is another one at another machine",
    Switch.ORIENT: "an oriented spindle stop has no word there",
    Switch.OWN: "it is a switch of this machine's own, and another machine may do anything by it",
}
HARMFUL = frozenset(
    {ProgramCode.CORNER_WORD, ProgramCode.ENDLESS, ProgramCode.HOME, ProgramCode.DIRECTIVE, ProgramCode.NOT_RUN}
)
"""Findings without a stop that still keep a program from being carried over."""

Told = tuple[bool, str]
"""Whether it is a refusal, and the sentence fragment."""


def leftovers(parsed: ParsedProgram, source: Dialect) -> Iterator[Told]:
    """What is to be said of the words of a program, each once for its line."""
    meanings = Meanings(source, parsed)
    numbered = sum(1 for block in parsed.blocks if block.number is not None)
    if numbered:
        yield False, f"the N words of {numbered} blocks are not kept"
    homes = [number for number, act in source.g_words.items() if act is Act.HOME]
    for block in parsed.blocks:
        for word in block.words:
            if (told := _of_word(word, block, meanings, homes)) is not None:
                yield told


def asking(parsed: ParsedProgram, source: Dialect) -> Callable[[int, Act | Switch], str]:
    """What gives the word of a line that asks for something, empty where none of that line does."""
    meanings = Meanings(source, parsed)
    blocks = {block.line: block.words for block in parsed.blocks}

    def word(line: int, asked: Act | Switch) -> str:
        """The first such word of a line."""
        words = blocks.get(line, ())
        return next((str(one) for one in words if meanings.of(one, words) is asked), "")

    return word


def _of_word(word: Word, block: Block, meanings: Meanings, homes: Sequence[int]) -> Told | None:
    """What is to be said of one word, None for one that a step holds."""
    event = meanings.of(word, block.words)
    place = f"line {block.line}: {word}"
    if event is None:
        return None
    if REFUSED.get(event):
        return True, f"{place} can't be carried over: {REFUSED[event]}"
    if event in FOREIGN_ACTS:
        return True, f"{place} ({event}) is of another kind of tool, so it can't be carried over"
    if event is Act.HOME and homes and word.whole != homes[0]:
        return False, f"{place} became the way to the first reference point: see that it is clear"
    if event is Act.IDLE or event is Act.UNCOMPENSATED:
        return False, f"{place} is left out: it cancels or sets what is so without it"
    if event is Switch.IDLE:
        return False, f"{place} is left out: the tool word alone turns the turret"
    if event is Switch.CALL:
        return False, f"{place}: the subprogram is written out at each place that calls it"
    return None
