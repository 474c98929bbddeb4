"""Guessing the dialect of a program that someone else wrote, from its own words."""

from collections.abc import Iterator

from postproc.dialect import Dialect
from postproc.dialects import BUILT_IN
from postproc.reading.words import ParsedProgram

_TRADE = (50, 98, 99)
_PECKING = (74, 75)
_CYCLES = (70, 71, 90, 92, 94)
_MOTIONS = (0, 1, 2, 3)
_PLACES = "XZUWPQR"


def guess_dialect(parsed: ParsedProgram) -> Dialect | None:
    """The built-in dialect that a program is spelt in, or None if it has no G word to tell by.

    A grooving cycle tells by its amounts; a program without one is read peck by peck, unless it mixes the trade's
    words with numbers that mean cycles beside them: those are then not to be read as ISO's.

    >>> from postproc.reading.words import parse_program
    >>> guess_dialect(parse_program("G75 X34. Z-33. I1. K5. F0.08")).name
    'one-block'
    """
    if not any(word.address == "G" for block in parsed.blocks for word in block.words):
        return None
    beside = set().union(*_beside_cycle(parsed))
    forms = [(dialect, dialect.cycle) for dialect in BUILT_IN.values() if dialect.cycle is not None]
    by_amounts = (dialect for dialect, form in forms if beside & {form.peck, form.shift})
    by_retract = (dialect for dialect, form in forms if form.retract in beside)
    told = next(by_amounts, None) or next(by_retract, None)
    if told is not None:
        return told
    if beside or (parsed.uses("G", _TRADE) and _runs_cycles(parsed)):
        return BUILT_IN["two-block"]
    return BUILT_IN["plunge"]


def _runs_cycles(parsed: ParsedProgram) -> bool:
    """True if a block asks for a turning or threading cycle: its number with places or amounts, and no motion word.

    By itself, or with the motion that it rules, the same number is a unit or absolute places.
    """
    for block in parsed.blocks:
        codes = {word.whole for word in block.words if word.address == "G"}
        places = any(word.address in _PLACES for word in block.words)
        if places and codes & set(_CYCLES) and not codes & set(_MOTIONS):
            return True
    return False


def _beside_cycle(parsed: ParsedProgram) -> Iterator[set[str]]:
    """The addresses in each block that calls the grooving cycle, or the one along the axis."""
    for block in parsed.blocks:
        addresses = {word.address for word in block.words}
        if any(word.address == "G" and word.whole in _PECKING for word in block.words):
            yield addresses
