"""Sections: the programs of one file, each begun by its O number.

The first is the main program, unless another one of the file calls it: then the first that none calls.
"""

from collections.abc import Iterator, Mapping, Sequence

from extractor.values import dataclass
from postproc.reading.words import Block, Word
from postproc.vocabulary.acts import MACRO, MODAL

MOST_REPEATS = 9999


@dataclass(frozen=True)
class Sections:
    """Where the programs begin, as indices of blocks: `first` by number, `starts` all, `twice` a number used again.

    One that has a name stands there under a number below 0, which no call names.
    `main` is where the main program begins: at the first number that no call names, unless words stand before all.
    """

    main: int
    first: Mapping[int, int]
    starts: frozenset[int]
    twice: int | None

    @staticmethod
    def of(blocks: Sequence[Block], calls: frozenset[int]) -> "Sections":
        """Find the O words at the start of a block; of two with one number the first is called.

        `calls` are the M numbers that call a program.
        """
        first: dict[int, int] = {}
        starts: list[int] = []
        for index, block in enumerate(blocks):
            if block.words and block.words[0].begins:
                number = block.words[0].whole
                first.setdefault(index - len(blocks) if number is None else number, index)
                starts.append(index)
        again = next((index for index in starts if index not in first.values()), None)
        unnamed = any(block.words for block in blocks[: starts[0]]) if starts else True
        called = _named(blocks, calls) if len(first) > 1 else ()
        free = set(first.values()) - {first[number] for number in called if number in first}
        main = 0 if unnamed else min(free, default=starts[0])
        return Sections(main, first, frozenset(starts), again)

    def begins(self, index: int, running: int) -> bool:
        """True if a program other than the one that began at `running` begins at a block."""
        return index != running and index in self.starts

    def numbered(self, blocks: Sequence[Block], number: int, at: int) -> int | None:
        """The block that bears a number in the program round `at`: the first after it, else the first of all."""
        begin = max((start for start in self.starts if start <= at), default=0)
        end = min((start for start in self.starts if start > at), default=len(blocks))
        found = [index for index in range(begin, end) if blocks[index].number == number]
        return next((index for index in found if index > at), found[0] if found else None)

    def called(self, number: Word | None, repeats: Word | None) -> tuple[int, int] | str:
        """First block and repeats of a call by M98 P L, or the sentence that says why there is nothing to run.

        Where P has more than four digits and no program has that number, the last four are the number and those
        before them the repeats (common practice).
        """
        if number is None or number.whole is None:
            return "The call names no subprogram; give P with its number."
        if repeats is not None and repeats.whole is None:
            return f"{repeats} is not a number of repeats; write a whole number, without sign or point."
        times = 1 if repeats is None else repeats.whole or 0
        wanted = number.whole
        if wanted not in self.first and repeats is None:
            times, wanted = divmod(wanted, 10_000)
        if wanted not in self.first:
            return f"Subprogram {wanted} is not in this file; add it or write it out."
        if times > MOST_REPEATS:
            most = f"more than the {MOST_REPEATS} that a control takes"
            return f"Subprogram {wanted} is to run {times} times, {most}; check {repeats or number}."
        return self.first[wanted], times


def _named(blocks: Sequence[Block], calls: frozenset[int]) -> Iterator[int]:
    """The numbers that calls of other programs name, with their repeats before them or without."""
    running: int | None = None
    for block in blocks:
        if block.words and block.words[0].address == "O":
            running = block.words[0].whole
        for word in block.words:
            if (word.address == "M" and word.whole in calls) or (word.address == "G" and word.whole in (MACRO, *MODAL)):
                numbers = [other.whole for other in block.words if other.address == "P" and other.whole is not None]
                yield from (n for number in numbers for n in (number, number % 10_000) if n != running)
