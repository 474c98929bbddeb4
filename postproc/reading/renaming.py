"""A dialect's own words as the trade's: whatever its patterns call by another name gets its usual address here.

After this the reader knows one set of addresses. A call of the grooving cycle that is no G word (a subprogram of the
control, values given before it) becomes the act that it stands for.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property

from postproc.dialect import Dialect
from postproc.own_lines import OwnLines
from postproc.reading.words import ParsedProgram, Word, parse_program
from postproc.vocabulary.acts import Act

BY_BLOCK: Mapping[str, Act] = {
    "clamp": Act.CLAMP_OR_ZERO,
    "surface": Act.SURFACE,
    "rpm": Act.RPM,
    "dwell": Act.DWELL,
}
"""What an assignment word asks for by itself, where its block has no G word, by the block that it belongs to."""


def parse_as(text: str, dialect: Dialect) -> ParsedProgram:
    """A program taken apart as one of a dialect. Raises ProgramError as `parse_program` does."""
    own = OwnLines(dialect)
    if not own.idle or type(dialect).respell is not Dialect.respell:
        lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        text = "\n".join(own(dialect.respell(line)) for line in lines)
    return parse_program(text, dialect.assigned)


class Renaming:
    """Renames the words of one block after another."""

    def __init__(self, dialect: Dialect) -> None:
        """Look at what of a dialect is not the trade's own."""
        self._dialect = dialect
        form = dialect.cycle
        self._call = () if form is None or "g" in form.call.gaps else tuple(map(_key, form.call.fixed))
        self.idle = not (dialect.renamed or dialect.assigned or self._call)

    def __call__(self, words: Sequence[Word]) -> tuple[Sequence[Word], tuple[Act, ...]]:
        """The words by their usual addresses, and the acts that are asked for with no G word."""
        if self.idle:
            return words, ()
        acts = [act for word in words if (act := self._acts.get(word.address))]
        keys = [_text_key(word) for word in words]
        if self._call and set(self._call).issubset(keys):
            words = [word for word, key in zip(words, keys, strict=True) if key not in self._call]
            acts.append(Act.GROOVE)
        elif any(word.address in self._settings for word in words):
            acts.append(Act.GROOVE)
        return [self.plain(word) for word in words], tuple(acts)

    def plain(self, word: Word) -> Word:
        """A word by its usual address."""
        return word._replace(address=self._dialect.renamed.get(word.address, word.address))

    def calling(self, words: Sequence[Word]) -> frozenset[Word]:
        """The words of a block that call the grooving cycle together, where that is no G word; none for no call."""
        mine = frozenset(word for word in words if _text_key(word) in self._call)
        return mine if self._call and len(mine) == len(self._call) else frozenset()

    @cached_property
    def _acts(self) -> Mapping[str, Act]:
        """The acts of assignment words whose block has no G word."""
        found: dict[str, Act] = {}
        for key, act in BY_BLOCK.items():
            pattern = self._dialect.blocks.get(key)
            if pattern is not None and "g" not in pattern.gaps:
                found |= {address: act for address in pattern.addresses if address.endswith("=")}
        return found

    @cached_property
    def _settings(self) -> frozenset[str]:
        """The assignment words that set values for the cycle in blocks of their own."""
        form = self._dialect.cycle
        blocks = form.blocks[:-1] if form else ()
        return frozenset(a for block in blocks for a in block.addresses if a.endswith("="))


def _key(fixed: str) -> tuple[str, str]:
    """Address and number of a fixed word, as programs may write it."""
    letter, number = (fixed[:1], fixed[1:]) if "=" not in fixed else fixed.split("=")
    return letter, number.lstrip("0") or "0"


def _text_key(word: Word) -> tuple[str, str]:
    """The same of a program's word."""
    return word.address.rstrip("="), word.text.lstrip("0") or "0"
