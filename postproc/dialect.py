"""A dialect: how one family of controls spells steps and reads words, as one value made from tables.

The tables come from TOML (`postproc.dialects.loading`), which is all that a control needs as a rule. What no table can
say, a subclass in another package may: `spell` and `respell` are the two places for it. Instances hold no state.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, replace
from functools import cached_property
from math import gcd

from extractor.part import Units
from extractor.values import dataclass
from planner.increment import Increments
from planner.plan import Cycles
from planner.steps import Step
from postproc.vocabulary.acts import ELSEWHERE, FOREIGN, OWN_SWITCHES, Act, Switch
from postproc.vocabulary.figures import Figure
from postproc.vocabulary.forms import CycleForm, ProgramFrame, Repeat, Standing, ToolForm
from postproc.vocabulary.pattern import DIAMETERS, Gap, Pattern

STEPS: Mapping[str, str] = {"X": "U", "Z": "W"}
"""The usual address of an incremental move along each axis (common practice)."""

PLACES = DIAMETERS | {"z", "end", "start_z", "home_z", "centre_z", "shift", "length"}
"""Fields of patterns that hold a place, or the distance of two along Z."""


@dataclass(frozen=True)
class Dialect:
    """The tables of one dialect.

    `g_words`, `m_words`: numbers and what they ask for; of two numbers for one thing the first is written.
    `other_system`: numbers of the other common code system, which mean cycles in this one; read only where the program
    uses no number of `g_words` for the same acts, so that which system it is in is plain. `foreign`: cycles of tools
    that are no grooving inserts. `increments`: addresses of incremental moves, each with the axis it moves.
    `own_switches`: M numbers of the machine's own, each with what a person says that it does.
    `figures`: forms of numbers by address, that of "" for the rest. `blocks`: the patterns by what they say.
    `stands`: which words are written only where they change. `repeat`: how like grooves at odd places are shortened.
    """

    name: str
    title: str
    summary: str
    g_words: Mapping[int, Act]
    m_words: Mapping[int, Switch]
    blocks: Mapping[str, Pattern]
    frame: ProgramFrame
    figures: Mapping[str, Figure]
    cycle: CycleForm | None = None
    diameter_x: bool = True
    increments: Mapping[str, str] = field(default_factory=dict)
    other_system: Mapping[int, Act] = field(default_factory=dict)
    foreign: Mapping[int, Act] = field(default_factory=lambda: FOREIGN)
    own_switches: Mapping[int, str] = field(default_factory=dict)
    stands: frozenset[Standing] = frozenset()
    repeat: Repeat = "none"

    @property
    def beside(self) -> frozenset[int]:
        """Those of `other_system` that are taken with a caution beside our own, in a block with no place.

        They can only be meant for absolute places, the spindle clamp and feed per revolution there.
        """
        meant = {Act.ABSOLUTE, Act.CLAMP_OR_ZERO, Act.PER_REV}
        return frozenset(number for number, act in self.other_system.items() if act in meant)

    def reading(self, uses: Callable[[str, Iterable[int]], frozenset[int]]) -> Mapping[int, Act]:
        """The G words by which to read one program; `uses` tells which of some numbers it has after an address."""
        others = self.other_system
        units = {Act.METRIC, Act.INCH}
        same = {number: act for number, act in self.g_words.items() if act in others.values()}
        if uses("G", [number for number, act in same.items() if act not in units]):
            return self.g_words
        if uses("G", [number for number, act in same.items() if act in units]):
            others = {number: act for number, act in others.items() if act not in units}
        return {**self.g_words, **others}

    def switch(self, number: int) -> Switch | None:
        """What an M number asks for; one in no table is the machine's own, unless it may send the program elsewhere."""
        own = number in self.own_switches or (number in OWN_SWITCHES and number not in ELSEWHERE)
        return self.m_words.get(number, Switch.OWN if own else None)

    def g(self, act: Act, nth: int = 1) -> str:
        """The G word for an act, or the nth of its words. Raises KeyError if there is none."""
        numbers = [number for number, meaning in self.g_words.items() if meaning is act]
        if not 0 < nth <= len(numbers):
            raise KeyError(act)
        return f"G{numbers[nth - 1]:02d}"

    def m(self, switch: Switch, nth: int = 1) -> str:
        """The M word for a switch, or the nth of its words. Raises KeyError if there is none."""
        numbers = [number for number, meaning in self.m_words.items() if meaning is switch]
        if not 0 < nth <= len(numbers):
            raise KeyError(switch)
        return f"M{numbers[nth - 1]:02d}"

    def own(self, does: str) -> str:
        """The M word of the machine's own that does something. Raises KeyError if there is none."""
        numbers = [number for number, meaning in self.own_switches.items() if meaning == does]
        if not numbers:
            raise KeyError(does)
        return f"M{numbers[0]:02d}"

    def written(self, asked: Act | Switch, nth: int = 1) -> str:
        """The word for something as a sentence names it, or what it asks for if the dialect has no such word."""
        try:
            return self.m(asked, nth) if isinstance(asked, Switch) else self.g(asked, nth)
        except KeyError:
            return f"the word for {asked}"

    @cached_property
    def spoken_words(self) -> Mapping[Act | Switch, str]:
        """The word for each thing that can be asked for, as sentences name it."""
        return {asked: self.written(asked) for asked in (*Act, *Switch)}

    def says(self, act: Act) -> bool:
        """True if the dialect has a word for an act."""
        return act in self.g_words.values()

    @property
    def cycles(self) -> Cycles:
        """What grooving cycle the planner may count on."""
        if self.cycle is None:
            return "none"
        return "full" if self.cycle.retract else "own retract"

    def grid(self, units: Units) -> Increments:
        """The steps that every X (a diameter) and Z can be said in: the usual ones, or coarser."""
        usual = Increments.of(units)
        patterns = (*self.blocks.values(), *(self.cycle.blocks if self.cycle else ()))
        per = usual.per_length
        for gap in (gap for pattern in patterns for name, gap in pattern.gaps.items() if name in PLACES):
            steps = self.figure(gap.address).steps(units, gap.whole)
            radius = gap.field in DIAMETERS and (gap.measure or ("radius", "diameter")[self.diameter_x]) == "radius"
            per = max(1, gcd(2 * per, steps) // 2 if radius else gcd(per, steps))
        return replace(usual, per_length=per)

    def unit_word(self, units: Units) -> str:
        """The word that sets the units."""
        return self.g(Act.METRIC if units == "mm" else Act.INCH)

    def figure(self, address: str) -> Figure:
        """The form of the numbers behind an address."""
        return self.figures.get(self.renamed.get(address, address)) or self.figures[""]

    @cached_property
    def point_needed(self) -> bool:
        """A length without a decimal point counts least increments; else whole units."""
        return self.figures[""].point != "optional"

    @cached_property
    def plain(self) -> bool:
        """True if no address but F has a form of its own, and numbers have their point: the reader's short way."""
        return set(self.figures) <= {"", "F"} and self.figures[""] == Figure()

    @cached_property
    def tool(self) -> ToolForm:
        """How a tool word holds station and offset."""
        gaps = self.blocks["tool"].gaps
        return ToolForm(gaps["station"], gaps["offset"])

    def gap(self, block: str, name: str) -> Gap | None:
        """The gap of a field in a block, None where the block doesn't have it."""
        pattern = self.blocks.get(block)
        return pattern.gaps.get(name) if pattern else None

    @cached_property
    def filled(self) -> Mapping[str, Mapping[str, Gap]]:
        """By block and usual address: the first gap that a word of the address fills."""
        found: dict[str, dict[str, Gap]] = {}
        for key, pattern in self.blocks.items():
            for gap in pattern.gaps.values():
                found.setdefault(key, {}).setdefault(self.renamed.get(gap.address, gap.address), gap)
        return found

    @cached_property
    def renamed(self) -> Mapping[str, str]:
        """Addresses that stand for a usual one: what the reader takes them for."""
        usual = {"feed": "F", "speed": "S", "rpm": "S", "radius": "R", "station": "T", "i": "I", "k": "K"}
        usual |= {"x": "X", "z": "Z"}
        found: dict[str, str] = {}
        for pattern in self.blocks.values():
            found |= {gap.address: usual[name] for name, gap in pattern.gaps.items() if name in usual}
        if self.cycle is not None:
            found |= {gap.address: "F" for name, gap in self.cycle.gaps.items() if name == "feed"}
        found |= {address: STEPS[axis] for address, axis in self.increments.items()}
        return {given: usual for given, usual in found.items() if given != usual}

    @cached_property
    def axes(self) -> Mapping[str, str]:
        """The usual addresses of places and of incremental moves, each with the axis it moves."""
        return {"X": "X", "Z": "Z"} | {STEPS[axis]: axis for axis in self.increments.values()}

    @cached_property
    def assigned(self) -> frozenset[str]:
        """The assignment words, as NAME=."""
        patterns = (*self.blocks.values(), *(self.cycle.blocks if self.cycle else ()))
        return frozenset(address for pattern in patterns for address in pattern.addresses if address.endswith("="))

    def spell(self, step: Step, increments: Increments) -> tuple[str, ...] | None:
        """The blocks of a step that no table can say; None to leave it to the tables."""
        return None

    def respell(self, line: str) -> str:
        """A line of a program as the tables would have it: the reverse of `spell`."""
        return line
