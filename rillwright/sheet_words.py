"""What each word and block of a program means, asked of `postproc` and keyed for the listing."""

from extractor.errors import ProgramError, SettingsError
from extractor.part import Units
from postproc.dialects import find_dialect
from postproc.explain import explain

Meanings = dict[int, dict[int, str]]
"""By line, then by column, both from 1."""

Sentences = dict[int, str]


def explained(text: str, dialect: str, units: Units | None) -> tuple[Meanings, Sentences]:
    """Meanings of words by line and column, and of blocks by line.

    Both are empty where the dialect is not at hand or the text holds no program: the listing stands without them.
    """
    try:
        found = explain(text, find_dialect(dialect), units)
    except (ProgramError, SettingsError):
        return {}, {}
    meanings = {block.line: {word.column: word.meaning for word in block.words} for block in found.blocks}
    return meanings, {block.line: block.sentence for block in found.blocks}
