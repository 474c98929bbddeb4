"""What each word and block of a program means, asked of `postproc` and keyed for the listing."""

from extractor.errors import ProgramError, SettingsError
from extractor.part import Units
from postproc.dialects import find_dialect
from postproc.explaining.explain import explain

Meanings = dict[int, dict[int, str]]
"""By line, then by column, both from 1."""

Sentences = dict[int, str]

MOST_LINES = 4_000
"""Lines of a program that the sheet still explains word by word."""


def explained(text: str, dialect: str, units: Units | None) -> tuple[Meanings, Sentences]:
    """Meanings of words by line and column, and of blocks by line.

    Both are empty if the dialect is not at hand, the text holds no program, or it is so long that the page would
    be a burden: the listing stands without them.
    """
    if text.count("\n") > MOST_LINES:
        return {}, {}
    try:
        found = explain(text, find_dialect(dialect), units)
    except (ProgramError, SettingsError):
        return {}, {}
    meanings = {block.line: {word.column: word.meaning for word in block.words} for block in found.blocks}
    return meanings, {block.line: block.sentence for block in found.blocks}
