"""The base of all dialects: flags, then tables, then methods; a dialect says only its difference.

How to add one, in five steps:

1. Make `postproc/dialects/your_name.py` with a class on `Dialect`; give it `name`, `title` and one sentence `summary`.
2. Set the flags that differ (`diameter_x`, `point_needed`, `dwell_seconds`).
3. Set the tables that differ: `cycle` (the words of the grooving cycle, or None), `g_words` (number -> act, for
   writer and reader alike: `{**Dialect.g_words, 95: Act.PER_REV}`), `m_words`, `increments`, `foreign` (cycles of
   other tools, which are let by).
4. Only if no table can say it, override a `spell_...` method; what can't be said goes into `cannot`, with its reason.
5. Register an instance in `postproc.dialects.BUILT_IN`, or in your own package under the entry-point group
   `rillwright.dialects`; add its rows to the table in `tests/postproc/test_20_rows.py`, which tests both directions.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import ClassVar

from extractor.part import Units
from planner.increment import Increments
from planner.plan import Cycles
from planner.steps import (
    Arc,
    Coolant,
    Cut,
    Dwell,
    GrooveCycle,
    Rapid,
    Remark,
    Spindle,
    SpindleClamp,
    Step,
    ToolCall,
)
from postproc.vocabulary.acts import ELSEWHERE, FOREIGN, OWN_SWITCHES, Act, CycleWords, Switch
from postproc.vocabulary.numbers import decimal
from postproc.writing.comments import comment_lines


class Dialect:
    """How one family of controls spells steps and reads words. Instances hold no state.

    The base alone is the trade's common lathe tongue with no grooving cycle: diameters in X, U and W as increments,
    a spindle clamp by G50 S, feeds by G98 and G99 (common practice).
    """

    name: ClassVar[str] = ""
    title: ClassVar[str] = ""
    summary: ClassVar[str] = ""

    diameter_x: ClassVar[bool] = True
    """X words are diameters; else radii."""
    point_needed: ClassVar[bool] = True
    """A length without a decimal point counts least increments; else whole units."""
    dwell_seconds: ClassVar[bool] = False
    """Dwell is written as X in seconds; else as P in whole milliseconds."""

    cycle: ClassVar[CycleWords | None] = None
    increments: ClassVar[Mapping[str, str]] = {"U": "X", "W": "Z"}
    """Addresses of incremental moves, each with the axis it moves."""
    g_words: ClassVar[Mapping[int, Act]] = {
        0: Act.RAPID,
        1: Act.FEED,
        2: Act.ARC_CLOCKWISE,
        3: Act.ARC_COUNTER,
        4: Act.DWELL,
        18: Act.IDLE,
        20: Act.INCH,
        21: Act.METRIC,
        28: Act.HOME,
        30: Act.HOME,
        40: Act.UNCOMPENSATED,
        41: Act.COMPENSATED,
        42: Act.COMPENSATED,
        49: Act.IDLE,
        50: Act.CLAMP_OR_ZERO,
        53: Act.MACHINE_PLACE,
        **dict.fromkeys(range(54, 60), Act.WORK_OFFSET),
        61: Act.IDLE,
        64: Act.IDLE,
        69: Act.IDLE,
        80: Act.IDLE,
        96: Act.SURFACE,
        97: Act.RPM,
        98: Act.PER_MINUTE,
        99: Act.PER_REV,
    }
    """G numbers and what they ask for. Of two numbers for one act the first is written.

    Idle are the plane of the lathe (18), what only cancels (49, 69, 80), and modes of running through corners (61,
    64). Of the work offsets (54 to 59) a program may use one."""
    other_system: ClassVar[Mapping[int, Act]] = {
        70: Act.INCH,
        71: Act.METRIC,
        90: Act.ABSOLUTE,
        91: Act.INCREMENTAL,
        92: Act.CLAMP_OR_ZERO,
        94: Act.PER_MINUTE,
        95: Act.PER_REV,
    }
    """Numbers of the other common code system, which mean cycles in this one; read only where the program uses no
    number of `g_words` for the same acts, so that which system it is in is plain."""
    beside: ClassVar[frozenset[int]] = frozenset({90, 92, 95})
    """Those of `other_system` that are taken with a caution beside our own, in a block with no place: they can only
    be meant for absolute places, the spindle clamp and feed per revolution there."""
    foreign: ClassVar[Mapping[int, Act]] = FOREIGN
    """Cycles of tools that are no grooving inserts, by their numbers; what stands in `g_words` comes first."""
    m_words: ClassVar[Mapping[int, Switch]] = {
        0: Switch.PAUSE,
        1: Switch.PAUSE,
        2: Switch.END,
        3: Switch.CLOCKWISE,
        4: Switch.COUNTER,
        5: Switch.SPINDLE_OFF,
        6: Switch.IDLE,
        7: Switch.COOLANT_ON,
        8: Switch.COOLANT_ON,
        9: Switch.COOLANT_OFF,
        13: Switch.CLOCKWISE_WET,
        14: Switch.COUNTER_WET,
        19: Switch.ORIENT,
        30: Switch.END,
        **dict.fromkeys(range(40, 46), Switch.IDLE),
        98: Switch.CALL,
        99: Switch.RETURN,
    }
    """M numbers; 13, 14 and 19 as the old EIA code has them (RS-274-D, from memory), 40 to 45 are gears of the spindle
    (common practice). What stands neither here nor in `acts.ELSEWHERE` is taken for a switch of the machine's own."""
    opening: ClassVar[tuple[Act, ...]] = (Act.PER_REV,)
    """What the writer says after the unit word, before anything moves."""

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
        """What an M number asks for; one of no table is the machine's own unless it may send the program elsewhere."""
        own = number in OWN_SWITCHES and number not in ELSEWHERE
        return self.m_words.get(number, Switch.OWN if own else None)

    def g(self, act: Act) -> str:
        """The G word for an act.

        Raises KeyError if the dialect has none: `cannot` must have refused it before.
        """
        for number, meaning in self.g_words.items():
            if meaning is act:
                return f"G{number:02d}"
        raise KeyError(act)

    def says(self, act: Act) -> bool:
        """True if the dialect has a word for an act."""
        return act in self.g_words.values()

    @property
    def cycles(self) -> Cycles:
        """What grooving cycle the planner may count on."""
        if self.cycle is None:
            return "none"
        return "full" if self.cycle.retract else "own retract"

    def unit_word(self, units: Units) -> str:
        """The word that sets the units."""
        return self.g(Act.METRIC if units == "mm" else Act.INCH)

    def length(self, address: str, count: int, increments: Increments) -> str:
        """A word of a length along an axis: X from counts on the diameter, the others as they are."""
        if address == "X" and not self.diameter_x:
            count = count // 2
        return address + decimal(count, increments.per_length)

    def place(self, step: Rapid | Cut | Arc, increments: Increments) -> str:
        """The axis words of a move, each with a space before it."""
        axes = (("X", step.x), ("Z", step.z))
        return "".join(f" {self.length(a, count, increments)}" for a, count in axes if count is not None)

    def feed(self, count: int, increments: Increments) -> str:
        """The F word of a feed."""
        return "F" + decimal(count, increments.per_feed)

    def spell(self, step: Step, increments: Increments) -> tuple[str, ...]:
        """The blocks that say one step, without line ends."""
        match step:
            case ToolCall(station, offset):
                return (f"T{station:02d}{offset:02d}",)
            case SpindleClamp(rpm):
                return (f"{self.g(Act.CLAMP_OR_ZERO)} S{rpm}",)
            case Spindle(mode, speed, clockwise):
                act = Act.SURFACE if mode == "surface" else Act.RPM
                return (f"{self.g(act)} S{speed} {'M03' if clockwise else 'M04'}",)
            case Coolant(on):
                return ("M08" if on else "M09",)
            case Rapid():
                return (self.g(Act.RAPID) + self.place(step, increments),)
            case Cut():
                return (f"{self.g(Act.FEED)}{self.place(step, increments)} {self.feed(step.feed, increments)}",)
            case Arc():
                return (self.spell_arc(step, increments),)
            case Dwell(milliseconds):
                return (self.spell_dwell(milliseconds),)
            case GrooveCycle():
                return self.spell_cycle(step, increments)
            case Remark(text):
                return comment_lines(text)

    def spell_arc(self, step: Arc, increments: Increments) -> str:
        """The block of an arc: both ends of the axes, its radius, its feed."""
        g = self.g(Act.ARC_CLOCKWISE if step.clockwise else Act.ARC_COUNTER)
        radius = self.length("R", step.radius, increments)
        return f"{g}{self.place(step, increments)} {radius} {self.feed(step.feed, increments)}"

    def spell_dwell(self, milliseconds: int) -> str:
        """The block that stands still."""
        word = f"X{decimal(milliseconds, 1000)}" if self.dwell_seconds else f"P{milliseconds}"
        return f"{self.g(Act.DWELL)} {word}"

    def spell_cycle(self, step: GrooveCycle, increments: Increments) -> tuple[str, ...]:
        """The blocks of the grooving cycle: a retract block where there is one, then floor, end, peck, shift, feed."""
        words = self.cycle
        if words is None:
            raise KeyError(Act.GROOVE)

        def amount(address: str, count: int) -> str:
            """A peck or a shift in the form of the dialect."""
            return f"{address}{count}" if words.whole else address + decimal(count, increments.per_length)

        g, several = self.g(Act.GROOVE), step.shift != 0
        parts = [g, self.length("X", step.floor_x, increments)]
        parts += [self.length("Z", step.end_z, increments)] if several else []
        parts += [amount(words.peck, step.peck)]
        parts += [amount(words.shift, step.shift)] if several else []
        parts += [self.feed(step.feed, increments)]
        retract = (f"{g} {words.retract}{decimal(step.retract, increments.per_length)}",) if words.retract else ()
        return (*retract, " ".join(parts))

    def cannot(self, step: Step) -> tuple[str, ...]:
        """Reasons why a lowered step can't be said in this dialect; empty if it can."""
        xs = [x for x in (getattr(step, "x", None), getattr(step, "floor_x", None)) if x is not None]
        if not self.diameter_x and any(x % 2 for x in xs):
            return ("an X of half an increment on the radius",)
        needed = _needs(step)
        return (f"no word for {needed}",) if needed and not self.says(needed) else ()


def _needs(step: Step) -> Act | None:
    """The act that a step can't be said without."""
    match step:
        case SpindleClamp():
            return Act.CLAMP_OR_ZERO
        case Spindle(mode="surface"):
            return Act.SURFACE
        case Spindle():
            return Act.RPM
        case Arc(clockwise=clockwise):
            return Act.ARC_CLOCKWISE if clockwise else Act.ARC_COUNTER
        case Dwell():
            return Act.DWELL
        case GrooveCycle():
            return Act.GROOVE
        case _:
            return None
