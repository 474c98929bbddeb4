"""Guessing the dialect of a program that someone else wrote, from its own words and the dialects' signatures."""

from collections.abc import Iterable, Iterator, Mapping

from postproc.dialect import Dialect
from postproc.dialects import BUILT_IN
from postproc.reading.renaming import Renaming
from postproc.reading.words import ParsedProgram
from postproc.vocabulary.acts import Act

_TRADE = (50, 98, 99)
_PECKING = (74, 75)
_CYCLES = (70, 71, 90, 92, 94)
_MOTIONS = (0, 1, 2, 3)
_PLACES = "XZUWPQR"
_TONGUE = frozenset(
    {Act.INCH, Act.METRIC, Act.ABSOLUTE, Act.INCREMENTAL, Act.CLAMP_OR_ZERO, Act.PER_MINUTE, Act.PER_REV}
)
"""The acts by whose numbers code systems differ."""


def guess_dialect(parsed: ParsedProgram, at_hand: Mapping[str, Dialect] = BUILT_IN) -> Dialect | None:
    """The dialect at hand that a program is spelt in, or None if it has no G word to tell by.

    A grooving cycle tells by its amounts; a program without one is read peck by peck, unless it mixes the trade's
    words with numbers that mean cycles beside them: those are then not to be read as ISO's. Of dialects with one cycle
    the one whose words for units, feeds and clamp the program uses is meant.

    >>> from postproc.reading.words import parse_program
    >>> guess_dialect(parse_program("G75 X34. Z-33. I1. K5. F0.08")).name
    'one-block'
    """
    if not any(word.address == "G" for block in parsed.blocks for word in block.words):
        return None
    beside: set[str] = set().union(*_beside_cycle(parsed))
    forms = [(dialect, dialect.cycle) for dialect in at_hand.values() if dialect.cycle is not None]
    by_amounts = [dialect for dialect, form in forms if beside & {form.peck, form.shift}]
    by_retract = [dialect for dialect, form in forms if form.retract in beside]
    own = [dialect for dialect, _ in forms if _calls_own(parsed, dialect)]
    told = own or by_amounts or by_retract
    if told:
        return _by_tongue(parsed, told)
    if beside or (parsed.uses("G", _TRADE) and _runs_cycles(parsed)):
        return BUILT_IN["two-block"]
    return BUILT_IN["plunge"]


def _by_tongue(parsed: ParsedProgram, among: Iterable[Dialect]) -> Dialect:
    """The dialect that would write most of the program's words for units, feeds and clamp; the first of several."""
    return max(among, key=lambda dialect: _written(parsed, dialect))


def _written(parsed: ParsedProgram, dialect: Dialect) -> int:
    """How many of those words a dialect would write, less those that it doesn't know at all."""
    first: dict[Act, int] = {}
    for number, act in dialect.g_words.items():
        first.setdefault(act, number)
    own = {first[act] for act in _TONGUE if act in first}
    tongue = {20, 21, 50, 98, 99, *_CYCLES, 91, 95}
    used = parsed.uses("G", tongue | own) - _only_cycles(parsed)
    return len(used & own) - len(used & tongue - set(dialect.g_words))


def _only_cycles(parsed: ParsedProgram) -> set[int]:
    """Numbers that a block uses for a turning or threading cycle: as words of a tongue they tell nothing then."""
    found: set[int] = set()
    for block in parsed.blocks:
        addresses = {word.address for word in block.words}
        codes = {word.whole for word in block.words if word.address == "G" and word.whole is not None}
        if addresses & set(_PLACES) and not codes & set(_MOTIONS):
            found |= {n for n in codes & set(_CYCLES) if n != 92 or "F" in addresses}
    return found


def _calls_own(parsed: ParsedProgram, dialect: Dialect) -> bool:
    """True if a block calls the cycle of a dialect that has other words for it than the trade's."""
    renaming = Renaming(dialect)
    if dialect.cycle is None or renaming.idle:
        return False
    return any(Act.GROOVE in renaming(block.words)[1] for block in parsed.blocks if block.words)


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
