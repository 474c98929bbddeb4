"""What each word and block of a program means, asked of `postproc` and keyed for the listing."""

from extractor.part import Units

Meanings = dict[tuple[int, int], str]
Sentences = dict[int, str]


def explained(text: str, dialect: str, units: Units | None) -> tuple[Meanings, Sentences]:
    """Meanings of words by line and column, and of blocks by line; both empty for a dialect that is not at hand."""
    return {}, {}
