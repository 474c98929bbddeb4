r"""Patterns: one line of text that says how a block is written and, read the other way round, what its words mean.

{g} X{floor} Z{end}? P{peck#} Q{shift#}? F{feed}

word      an address with its gaps (X{floor}), an assignment (VMAX={rpm}), a gap for a whole word ({g}), or the
very word (M08)
gap       {field}, then what is told of it: {peck#} in whole least counts, {station:02} filled up to two digits,
{peck:diameter} or {floor:radius} as measured, {depth:minus} with its sign turned, {length:plus} without
sign, {shift:signed} with the sign of its direction
?         behind a word: left out where there is nothing to say
"""

import re
from collections.abc import Collection, Mapping
from functools import cached_property
from typing import Literal

from extractor.values import dataclass

Measure = Literal["", "radius", "diameter"]
Sign = Literal["", "plus", "minus", "signed"]

DIAMETERS = frozenset({"x", "floor", "start_x", "home_x", "centre_x"})
"""Fields that are measured as X is in the dialect, unless their gap says otherwise."""
RADII = frozenset({"peck", "retract", "depth", "radius", "i"})
"""Fields along X that are measured on the radius, unless their gap says otherwise."""

_GAP = re.compile(r"\{([a-z_]+)((?::[a-z0-9]+)*)(#?)\}")
_WORD = re.compile(r"(?P<address>[A-Za-z#][A-Za-z0-9_#]*=|[A-Za-z]?)(?P<gaps>(?:\{[^{}]*\})+)")
_FIXED = re.compile(r"[A-Z]\d+(?:\.\d+)?|[A-Za-z#][A-Za-z0-9_#]*=-?\d+(?:\.\d*)?")


class PatternFault(ValueError):
    """A pattern that means nothing, or two things; the message says which word is at fault."""


@dataclass(frozen=True)
class Gap:
    """A gap of a pattern: which field stands in it and in what form, behind which address."""

    field: str
    address: str
    whole: bool = False
    measure: Measure = ""
    sign: Sign = ""
    width: int = 0


@dataclass(frozen=True)
class PatternWord:
    """One word of a pattern: `fixed` text, or an address with its gaps."""

    address: str
    gaps: tuple[Gap, ...]
    fixed: str = ""
    optional: bool = False


@dataclass(frozen=True)
class Pattern:
    """The words of one block, in the order in which they are written."""

    text: str
    words: tuple[PatternWord, ...]

    @cached_property
    def gaps(self) -> Mapping[str, Gap]:
        """The gaps by field."""
        return {gap.field: gap for word in self.words for gap in word.gaps}

    @cached_property
    def fixed(self) -> tuple[str, ...]:
        """The words that are always the same: half of what identifies a block of this pattern."""
        return tuple(word.fixed for word in self.words if word.fixed)

    @cached_property
    def needed(self) -> frozenset[str]:
        """The addresses that are never left out: the other half."""
        return frozenset(word.address for word in self.words if word.address and not word.optional)

    @cached_property
    def always(self) -> frozenset[str]:
        """The fields that are never left out."""
        return frozenset(gap.field for word in self.words if not word.optional for gap in word.gaps)

    @cached_property
    def addresses(self) -> frozenset[str]:
        """Every address that a block of this pattern may have."""
        return frozenset(word.address for word in self.words if word.address)

    def fill(self, values: Mapping[str, str], without: Collection[str] = ()) -> str:
        """The block with its gaps filled; optional words whose field is not there are left out, and those `without`.

        >>> pattern("G75 X{floor} Z{end}?").fill({"floor": "34."})
        'G75 X34.'
        """
        said = (
            word
            for word in self.words
            if not any(gap.field in without for gap in word.gaps)
            and (not word.optional or all(gap.field in values for gap in word.gaps))
        )
        return " ".join(word.fixed or word.address + "".join(values[gap.field] for gap in word.gaps) for word in said)


def pattern(text: str) -> Pattern:
    """Compile a pattern. Raises PatternFault where a word has no shape, or an address stands twice.

    >>> pattern("{g} X{floor} P{peck:diameter#}").gaps["peck"]
    Gap(field='peck', address='P', whole=True, measure='diameter', sign='', width=0)
    """
    words = tuple(_word(part) for part in text.split())
    if not words:
        raise PatternFault("is empty")
    addresses = [word.address for word in words if word.address]
    twice = next((a for a in addresses if addresses.count(a) > 1), None)
    if twice:
        raise PatternFault(f"has the address {twice} twice, so that its words can't be told apart")
    fields = [gap.field for word in words for gap in word.gaps]
    again = next((f for f in fields if fields.count(f) > 1), None)
    if again:
        raise PatternFault(f"has the field {{{again}}} twice")
    return Pattern(text, words)


def _word(part: str) -> PatternWord:
    text, optional = (part[:-1], True) if part.endswith("?") else (part, False)
    if _FIXED.fullmatch(text):
        if optional:
            raise PatternFault(f"has {part}, and only a word with a field can be left out")
        return PatternWord("", (), text)
    found = _WORD.fullmatch(text)
    if not found:
        raise PatternFault(
            f"has {part!r}, which is not a word: write an address with its field, like X{{floor}}, or a word like M08"
        )
    address = found["address"]
    gaps = tuple(_gap(one, address) for one in re.findall(r"\{[^{}]*\}", found["gaps"]))
    if len(gaps) > 1 and any(not gap.width for gap in gaps[1:]):
        raise PatternFault(f"has {part}, whose numbers run into each other: give every one but the first its digits")
    return PatternWord(address, gaps, optional=optional)


def _gap(text: str, address: str) -> Gap:
    """One gap with what is told of it."""
    found = _GAP.fullmatch(text)
    if not found:
        raise PatternFault(
            f"has {text}, which is not a field: write {{name}}, {{name#}}, {{name:02}} or {{name:radius}}"
        )
    told: dict[str, str | int] = {}
    for word in filter(None, found[2].split(":")):
        if word.isdigit():
            told["width"] = int(word)
        elif word in ("radius", "diameter"):
            told["measure"] = word
        elif word in ("plus", "minus", "signed"):
            told["sign"] = word
        else:
            raise PatternFault(
                f"has {text}, and {word!r} is none of radius, diameter, plus, minus, signed and a number of digits"
            )
    return Gap(found[1], address, bool(found[3]), **told)  # type: ignore[arg-type]
