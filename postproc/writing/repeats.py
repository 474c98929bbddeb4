"""Like grooves at odd places in fewer blocks, where a dialect can: by its cycle that stands, or by a subprogram.

Cycle that stays in force: after a call, a place alone cuts one more groove there. Subprogram: blocks that move only X
are the same at every groove, so they are written once after the program and called at each place. Either way the
reader finds exactly the steps that stood here.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from extractor.values import dataclass
from planner.steps import Cut, Dwell, GrooveCycle, Rapid, Step
from postproc.vocabulary.acts import Switch
from postproc.writing.frames import OPERATION, frame_lines
from postproc.writing.spelling import Speller, Unsayable

Blocks = tuple[str, ...]
Line = tuple[str, bool]
"""A block, and whether it moves along X alone."""
MOST_SUBPROGRAMS = 20


@dataclass(frozen=True)
class Section:
    """Steps with the lines before and after them; `operation` counts from 1, 0 for what belongs to none.

    `skip`: the blocks are left out where block skip is on.
    """

    steps: tuple[Step, ...]
    before: Blocks = ()
    after: Blocks = ()
    operation: int = 0
    skip: bool = False


def shortened(
    sections: Sequence[Section], speller: Speller, faults: list[str], number: int
) -> tuple[list[str], list[str]]:
    """The blocks of all sections, and those of the subprograms that they call; `number` is the main program's."""
    lines = [line for section in sections for line in _section(section, speller, faults)]
    if speller.dialect.repeat != "subprogram":
        return [text for text, _ in lines], []
    return _with_subprograms(lines, speller, number)


def _section(section: Section, speller: Speller, faults: list[str]) -> Iterator[Line]:
    """The blocks of a section, the first of an operation marked as its begin."""
    inner = ((block, along) for blocks, along in _spelled(section.steps, speller, faults) for block in blocks)
    lines = [*((text, False) for text in section.before), *inner, *((text, False) for text in section.after)]
    if section.skip:
        speller.forget()
        lines = [(f"/{text}", False) for text, _ in lines]
    if section.operation and lines:
        # A comment bears no number: the first block behind it does.
        opens = speller.dialect.frame.remark[0]
        first = next((n for n, (text, _) in enumerate(lines) if not text.startswith(opens)), 0)
        yield from lines[:first]
        yield OPERATION + lines[first][0], False
        lines = lines[first + 1 :]
    yield from lines


def _spelled(steps: Sequence[Step], speller: Speller, faults: list[str]) -> Iterator[tuple[Blocks, bool]]:
    """The blocks of each step, and whether they move along X alone."""
    form = speller.dialect.cycle
    stands = form.ended_by if form is not None else ""
    index, before = 0, False
    while index < len(steps):
        step = steps[index]
        along = _along_x(step)
        if along and not before and speller.dialect.repeat == "subprogram":
            speller.forget()
        again = _again(steps[index + 1 :], step) if stands and speller.dialect.repeat == "modal" else []
        try:
            yield _call(step, again, stands, speller), along
        except Unsayable as fault:
            faults.append(str(fault))
            speller.skip(step)
        index, before = index + 1 + 2 * len(again), along


def _call(step: Step, again: Sequence[int], stands: str, speller: Speller) -> Blocks:
    """The blocks of a step; of a cycle that stands also the places where it cuts again, and the word that ends it."""
    blocks = speller.spell(step)
    if not stands or not isinstance(step, GrooveCycle):
        return blocks
    return (*blocks, *(speller.again(z) for z in again), stands)


def _again(steps: Sequence[Step], first: Step) -> list[int]:
    """The places of the same single groove right after it, each a rapid along z and the cycle there."""
    found: list[int] = []
    if not isinstance(first, GrooveCycle) or first.shift:
        return found
    for way, cycle in zip(steps[::2], steps[1::2], strict=False):
        if not isinstance(way, Rapid) or way.x is not None or way.z is None or cycle != replace(first, end_z=way.z):
            break
        found.append(way.z)
    return found


def _along_x(step: Step) -> bool:
    """True if a step moves along X alone, so that its blocks are the same at every place."""
    return (
        (isinstance(step, Rapid | Cut) and step.z is None)
        or isinstance(step, Dwell)
        or (isinstance(step, GrooveCycle) and not step.shift)
    )


def _with_subprograms(lines: Sequence[Line], speller: Speller, number: int) -> tuple[list[str], list[str]]:
    """The blocks with calls in place of what is said several times, and the subprograms."""
    dialect, more = speller.dialect, []
    for _ in range(MOST_SUBPROGRAMS):
        found = _best(lines)
        if found is None:
            break
        number = number % 9999 + 1
        call = speller.filled(dialect.blocks["call"], {"m": dialect.m(Switch.CALL), "program": number})
        first, last = frame_lines(dialect.frame.subprogram, dialect, {"program": str(number)})
        more += [first, *found, last]
        lines = list(_called(lines, found, call))
    return [text for text, _ in lines], more


def _called(lines: Sequence[Line], found: Blocks, call: str) -> Iterator[Line]:
    """The blocks with each stretch that begins with `found` opened by a call in its place."""
    index = 0
    while index < len(lines):
        begins = lines[index][1] and not (index and lines[index - 1][1])
        if begins and tuple(text for text, _ in lines[index : index + len(found)]) == found:
            yield call, False
            index += len(found)
        else:
            yield lines[index]
            index += 1


def _best(lines: Sequence[Line]) -> Blocks | None:
    """The blocks whose subprogram saves the most; None where none saves any.

    Only what a stretch along X begins with is taken: there every word is said, whatever stood before.
    """
    counts: Counter[Blocks] = Counter()
    for along, stretch in groupby(lines, key=lambda line: line[1]):
        texts = tuple(text for text, _ in stretch)
        counts.update(texts[:length] for length in range(2, len(texts) + 1) if along)
    saving = {texts: n * len(texts) - (n + len(texts) + 2) for texts, n in counts.items() if n > 1}
    best = max(saving, key=lambda texts: (saving[texts], -len(texts)), default=None)
    return best if best is not None and saving[best] > 0 else None
