"""Guessing the dialect of a program that someone else wrote, from its own words and the dialects' signatures."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from postproc.dialect import Dialect
from postproc.dialects import BUILT_IN, dialects, find_dialect
from postproc.reading.renaming import Renaming, parse_as
from postproc.reading.words import Block, ParsedProgram, Word, parse_program
from postproc.vocabulary.acts import Act
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.tongues import EITHER, PER_MINUTE, TELLING, TRADE_ALONE

PECKING = (74, 75)
"""G numbers of the cycles that peck, which a control without a grooving cycle has not."""
_MOTIONS = (0, 1, 2, 3)
_PLACES = "XZUWPQR"
_BESIDE = "GMSTFN"
"""Addresses that may stand in any block."""
_TONGUE = frozenset(
    {Act.INCH, Act.METRIC, Act.ABSOLUTE, Act.INCREMENTAL, Act.CLAMP_OR_ZERO, Act.PER_MINUTE, Act.PER_REV}
)
"""The acts by whose numbers code systems differ."""


def read_in(text: str, dialect: Dialect | None, usual: str = "two-block") -> tuple[ParsedProgram, Dialect, bool]:
    """A program parsed in the given dialect, or the one its words tell, else the usual one; False for the usual one.

    Raises ProgramError as `parse_program` does.
    """
    if dialect is not None:
        return parse_as(text, dialect), dialect, True
    parsed = parse_program(text)
    guessed = guess_dialect(parsed)
    spoken = guessed or find_dialect(usual)
    return (parsed if spoken.name in BUILT_IN else parse_as(text, spoken)), spoken, guessed is not None


def guess_dialect(parsed: ParsedProgram, at_hand: Mapping[str, Dialect] | None = None) -> Dialect | None:
    """The dialect at hand that a program is spelt in, or None if it has no G word to tell by.

    The grooving cycle tells: the dialect whose pattern most of its calls have, else one of its amounts. A program
    without one is read peck by peck, unless it mixes the trade's words with numbers that mean cycles beside them: those
    are then not to be read as ISO's. Of dialects with one cycle the one whose words for units, feeds and clamp the
    program uses is meant. `at_hand`: ours and those of other packages where None.

    >>> from postproc.reading.words import parse_program
    >>> guess_dialect(parse_program("G75 X34. Z-33. I1. K5. F0.08")).name
    'one-block'
    """
    if not parsed.g_words:
        return None
    forms = [(d, d.cycle) for d in (dialects() if at_hand is None else at_hand).values() if d.cycle is not None]
    named = _with_numbers(parsed, {number for dialect, _ in forms for number in _grooving(dialect)})
    calls = [(_calls(parsed, named, dialect, form), dialect) for dialect, form in forms]
    most = max((number for number, _ in calls), default=0)
    if most:
        return _by_tongue(parsed, [dialect for number, dialect in calls if number == most])
    pecking = _with_numbers(parsed, PECKING)
    beside = {word.address for block in pecking for word in block.words}
    by_amounts = [dialect for dialect, form in forms if beside & {form.peck, form.shift}]
    by_retract = [dialect for dialect, form in forms if form.retract in beside]
    told = by_amounts or by_retract
    if told:
        return _by_tongue(parsed, told)
    if beside or (parsed.uses("G", TRADE_ALONE | {PER_MINUTE}) and _runs_cycles(parsed)):
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
    used = parsed.uses("G", TELLING | own) - _only_cycles(parsed)
    return len(used & own) - len(used & TELLING - set(dialect.g_words))


def _only_cycles(parsed: ParsedProgram) -> set[int]:
    """Numbers that a block uses for a turning or threading cycle: as words of a tongue they tell nothing then."""
    found: set[int] = set()
    for block in _with_numbers(parsed, EITHER):
        addresses = {word.address for word in block.words}
        codes = {word.whole for word in block.words if word.address == "G" and word.whole is not None}
        if addresses & set(_PLACES) and not codes & set(_MOTIONS):
            found |= {n for n in codes & EITHER if n != 92 or "F" in addresses}
    return found


def _with_numbers(parsed: ParsedProgram, among: Collection[int]) -> list[Block]:
    """The blocks that have a G word of some numbers."""
    used = parsed.uses("G", among)
    mine = (b for b in parsed.blocks if any(w.address == "G" and w.whole in used for w in b.words))
    return list(mine) if used else []


def _calls(parsed: ParsedProgram, named: Sequence[Block], dialect: Dialect, form: CycleForm) -> int:
    """How many blocks have the signature of a dialect's call: its word, one of its amounts, and nothing strange.

    `named` are the blocks with the G word of any cycle.
    """
    renaming = Renaming(dialect)
    blocks = parse_as("\n".join(parsed.lines), dialect).blocks if dialect.assigned else parsed.blocks
    usual = {dialect.renamed.get(address, address) for address in form.call.addresses}
    amounts, known = {form.peck, form.shift}, usual | set(dialect.axes) | set(_BESIDE)
    found = 0
    for block in named if renaming.idle else blocks:
        words, acts = renaming(block.words)
        addresses = {word.address for word in words}
        called = any(_grooves(word, dialect) for word in words) and addresses & amounts and addresses.issubset(known)
        found += bool(called or Act.GROOVE in acts)
    return found


def _grooves(word: Word, dialect: Dialect) -> bool:
    """True for the G word of a dialect's cycle, or of the one along the axis that has its words."""
    return word.address == "G" and word.whole in _grooving(dialect)


def _grooving(dialect: Dialect) -> set[int]:
    """The numbers of those words."""
    mine = {number for number, act in dialect.g_words.items() if act is Act.GROOVE}
    return mine | {number for number, act in dialect.foreign.items() if act is Act.FACE}


def _runs_cycles(parsed: ParsedProgram) -> bool:
    """True if a block asks for a turning or threading cycle: its number with places or amounts, and no motion word.

    By itself, or with the motion that it rules, the same number is a unit or absolute places.
    """
    for block in _with_numbers(parsed, EITHER):
        codes = {word.whole for word in block.words if word.address == "G"}
        places = any(word.address in _PLACES for word in block.words)
        if places and codes & EITHER and not codes & set(_MOTIONS):
            return True
    return False
