"""One block as it is explained: its words, what was in force, what it did; and what acts and switches are in words."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from math import floor
from types import MappingProxyType
from typing import Any, NamedTuple

from extractor.shipped import shipped
from planner.increment import Increments
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.run import CycleCall
from postproc.reading.words import Block, Word
from postproc.vocabulary.acts import MOTIONS, Act, Switch
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.numbers import counted, decimal
from postproc.vocabulary.pattern import Gap

PHRASES = shipped("postproc.explaining", "phrases")
"""What acts, switches and the words of cycles are called."""
ACTS: Mapping[Act, str] = {act: PHRASES["acts"][act.name.lower()] for act in Act}
SWITCHES: Mapping[Switch, str] = {switch: PHRASES["switches"][switch.name.lower()] for switch in Switch}
Scale = tuple[int, str]
"""Counts per unit of length, and the unit as it is said, empty where nothing says it."""
remembered = lru_cache(maxsize=4096)
"""For what is said of single numbers: programs go to the same places again and again."""
NUMBERS = 10_000
"""Greater than any program's number where repeats stand before it (common practice)."""
NAMES_ITS_MOTION = frozenset(
    {Act.HOME, Act.MACHINE_PLACE, Act.DWELL, Act.CLAMP_OR_ZERO, Act.GROOVE, Act.FACE, *MOTIONS}
)
"""A place in a block that asks for one of these is no move by a motion in force."""
NONE: Mapping[Word, Any] = MappingProxyType({})
"""What is said of the words of a block of which nothing is to be said."""


class BlockScene(NamedTuple):
    """One block with what is known about it: its acts, what was in force, and what it did when it was first run.

    A plain tuple, since a program has many. Words stand by their usual addresses, `written` has those that the program
    writes otherwise. `asking` has the places of those that ask for an act or a switch. `places_alone`: there are but
    places and a feed, and at most the word for a move. `in_units`: lengths without a point count whole units, whatever
    the dialect says. `scale`: by what counts become lengths in words. `arc`: what a place in this block is the end of,
    None where the tool goes straight. `lasting`: the turning or threading cycle that a place would run once more.
    `programs`: the numbers of those in the file.
    """

    block: Block
    acts: frozenset[Act | Switch]
    asking: Mapping[int, Act | Switch]
    written: Mapping[Word, str]
    call: CycleCall | None
    places_alone: bool
    increments: Increments
    dialect: Dialect
    in_units: bool
    scale: Scale
    programs: frozenset[int] = frozenset()
    incremental: bool = False
    surface: bool = False
    per_minute: bool = False
    arc: Act | None = None
    lasting: Act | None = None
    motions: Sequence[Motion] = ()

    def event(self, word: Word) -> Act | Switch | None:
        """The act or the switch that a word asks for."""
        return next((event for n, event in self.asking.items() if self.block.words[n] == word), None)

    @property
    def form(self) -> CycleForm | None:
        """How the dialect says the grooving cycle."""
        return self.dialect.cycle

    @property
    def diameter_x(self) -> bool:
        """True if X is programmed in diameter."""
        return self.dialect.diameter_x

    def called(self, word: Word) -> tuple[int, int] | None:
        """The repeats and the program of a call that has both in one number; None for a program's number alone."""
        if self.has("L") or word.whole is None or word.whole in self.programs:
            return None
        times, number = divmod(word.whole, NUMBERS)
        return (times, number) if times else None

    def text(self, word: Word) -> str:
        """A word as the program has it."""
        return self.written.get(word, str(word))

    def gap(self, word: Word, block: str) -> Gap | None:
        """The gap that a word fills in one of the blocks of the dialect, None where it fills none."""
        filled = self.dialect.filled.get(block)
        return filled.get(word.address) if filled else None

    def among(self, word: Word, gaps: Iterable[Gap]) -> Gap | None:
        """The first of some gaps that a word fills."""
        usual = self.dialect.renamed
        return next((gap for gap in gaps if usual.get(gap.address, gap.address) == word.address), None)

    def length(self, count: int) -> str:
        """A count as a length with its unit, to the last increment: "1.000 mm"."""
        return length_said(count, self.scale)

    @property
    def unit(self) -> str:
        """The unit of lengths, empty where nothing says it."""
        return self.scale[1]

    def rate(self, value: float) -> str:
        """A feed with its unit: "feed 0.08 mm/rev"."""
        return feed_said(value, self.unit, "min" if self.per_minute else "rev")

    def place(self, axis: str, count: int) -> str:
        """A count as an axis word."""
        return axis + decimal(count, self.increments.per_length)

    def among_words(self, gap: Gap) -> Word | None:
        """The word of the block that fills a gap, None if it has none."""
        return next((word for word in self.block.words if self.among(word, [gap]) is not None), None)

    def counts(self, word: Word, whole: bool = False) -> int:
        """The counts of a length word; `whole` where it counts least increments whatever the rest does."""
        figure, per_length = self.dialect.figure(word.address), self.increments.per_length
        if self.in_units and not (whole or word.pointed):
            return int(word.text) * per_length
        if word.pointed or (figure.point == "needed" and not whole):
            return counted(word.text, per_length).count
        return floor(figure.read(word.text, self.increments.units, whole) * per_length + Fraction(1, 2))

    @property
    def over_a_place(self) -> bool:
        """True if a block names a place on the way to the reference point, or a distance other than zero."""
        words = [word for word in self.block.words if word.address in "XZUW"]
        return any((word.address in "XZ" and not self.incremental) or self.counts(word) for word in words)

    @property
    def goes_on(self) -> bool:
        """True if a place in this block is a move by a motion in force, as the block names none itself."""
        return self.acts.isdisjoint(NAMES_ITS_MOTION)

    def switched(self, switch: Switch) -> str:
        """What a switch of the block does; for one of the machine's own, also what the dialect's file says of it."""
        words = [self.block.words[n] for n, event in self.asking.items() if event is switch is Switch.OWN]
        said = [does for word in words if (does := self.dialect.own_switches.get(word.whole or 0))]
        return f"{SWITCHES[switch]} ({', '.join(said)})" if said else SWITCHES[switch]

    def has(self, address: str) -> bool:
        """True if the block has a word of this address."""
        return any(word.address == address for word in self.block.words)


@remembered
def length_said(count: int, scale: Scale) -> str:
    """A count as a length, to the last increment, with its unit."""
    per_length, unit = scale
    return f"{count / per_length:.{len(str(per_length)) - 1}f} {unit}".rstrip()


@remembered
def feed_said(value: float, unit: str, per: str) -> str:
    """A feed for each minute or turn, with its unit."""
    return f"feed {value:g} {unit}/{per}" if unit else f"feed {value:g} per {per}"


def axis_way(address: str, count: int, scene: BlockScene) -> str:
    """Where an axis word leads."""
    if address == "U" or (address == "X" and scene.incremental):
        way = "outward" if count > 0 else "inward"
        radial = count // 2 if scene.diameter_x else count
        return f"{scene.length(abs(radial))} {way}, measured on the radius" if count else "no distance at all"
    if address == "W" or (address == "Z" and scene.incremental):
        way = "away from the chuck" if count > 0 else "toward the chuck"
        return f"{scene.length(abs(count))} {way}" if count else "no distance at all"
    return axis_place(address, count * (1 if scene.diameter_x or address == "Z" else 2), scene.scale)


@remembered
def axis_place(axis: str, count: int, scale: Scale) -> str:
    """A place on an axis in words, X in counts on the diameter."""
    if axis == "X":
        return f"to diameter {length_said(count, scale)}"
    side = "behind" if count < 0 else "ahead of"
    return f"to {length_said(abs(count), scale)} {side} the front face" if count else "to the front face"
