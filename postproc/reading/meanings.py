"""What the G and M words of one program mean: its dialect's tables, and how far another code system may stand beside.

Two code systems are common on lathes. Some numbers are settings in the one and turning cycles in the other, so which
one a program is in must be plain from its own words before those numbers are read.
"""

from collections.abc import Collection, Mapping, Sequence

from postproc.dialect import Dialect
from postproc.reading.words import ParsedProgram, Word
from postproc.vocabulary.acts import CONTOURS, ELSEWHERE, LOCAL, MACRO, MODAL, OTHERS, Act, Switch

EXTENDED_OFFSET = "54.1"
"""The G number that takes one of many work offsets by P (common practice)."""

NUMBERS = frozenset("PH")
"""What names the block that a call begins at: P beside M97, H beside M98 where no P names a program (from memory)."""

BY_MORE_WORDS = frozenset({70, 71, 72, 73, 74, 76})
"""Cycles that may have a block of settings with no place. The others name a place, and a threading cycle its pitch F:
the same numbers without are settings, or a new zero, in the other code system."""


def act_of(word: Word, g_words: Mapping[int, Act]) -> Act | None:
    """What a G word asks for by a table; G54.1 is known where there are work offsets at all."""
    if word.text == EXTENDED_OFFSET:
        return Act.WORK_OFFSET if Act.WORK_OFFSET in g_words.values() else None
    return None if word.whole is None else g_words.get(word.whole)


def _along_contour(words: Sequence[Word]) -> bool:
    """True for a block that calls a contour by P and Q."""
    calls = any(word.address == "G" and word.whole in CONTOURS for word in words)
    return calls and {"P", "Q"}.issubset(word.address for word in words)


class Meanings:
    """The tables by which one program is read."""

    def __init__(self, dialect: Dialect, parsed: ParsedProgram) -> None:
        """Look at which of the two systems the program speaks."""
        self._dialect = dialect
        words = dialect.reading(parsed.uses)
        if parsed.uses("G", CONTOURS) and any(_along_contour(block.words) for block in parsed.blocks):
            # Where these numbers call a contour they are no units, in the blocks that set the cycle up neither.
            words = {number: act for number, act in words.items() if number not in CONTOURS}
        self.g_words: Mapping[int, Act] = words

    def of(self, word: Word, block: Sequence[Word]) -> Act | Switch | None:
        """What a G or M word of a block asks for; None if unknown, and for any other word."""
        if word.address not in "GM":
            return None
        number = word.whole
        if word.address == "M":
            switch = None if number is None else self._dialect.switch(number)
            addresses = {other.address for other in block}
            local = switch is None and number == LOCAL and not addresses.isdisjoint(NUMBERS)
            inside = switch is Switch.CALL and addresses & NUMBERS == {"H"}
            return Act.LOCAL_CALL if local or inside else switch
        if number is not None and self.strange(word, block):
            return self._dialect.other_system[number]
        known = act_of(word, self.g_words) or self._foreign(number, {w.address for w in block})
        return (Act.MACRO_CALL if number == MACRO else MODAL.get(number or 0)) if known is None else known

    def _foreign(self, number: int | None, addresses: Collection[str]) -> Act | None:
        """The cycle of another tool that a number calls with these words; without the words of one it is none."""
        act = None if number is None else self._dialect.foreign.get(number)
        needs = [*self._dialect.axes, *("PQRUW" if number in BY_MORE_WORDS else "")]
        pitch = act is not Act.THREADING or "F" in addresses
        return act if pitch and not set(needs).isdisjoint(addresses) else None

    def strange(self, word: Word, block: Sequence[Word]) -> bool:
        """True for a word of the other system that can't be taken for the cycle it is in this one."""
        number, others = word.whole, self._dialect.other_system
        if word.address != "G" or number in self.g_words or number not in self._dialect.beside & others.keys():
            return False
        addresses = {w.address for w in block}
        if others[number] is Act.CLAMP_OR_ZERO and "S" not in addresses:
            return False
        return addresses.isdisjoint(self._dialect.axes)

    def refusal(self, word: Word) -> str:
        """The sentence about a word that has no meaning here."""
        name = {"G": OTHERS, "M": ELSEWHERE}[word.address].get(word.whole if word.whole is not None else -1)
        shown = f"{word} ({name})" if name else str(word)
        return (
            f"{shown} at column {word.column} is not supported in the dialect {self._dialect.name}; "
            "such a program can't be judged here."
        )
