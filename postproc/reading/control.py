"""The table of the control: what each word does in each state, and what is in force meanwhile.

Rules of this file: every word that a program may use has its cells in `TABLE`, state by state; a missing cell *is* the
error, and its message names word and state. A cell says which action to take and which state follows (None: the same).
Handlers (`postproc.reading.actions`) never look at the state, and nothing else changes it.

    COLD ──G00──> RAPID <──> FEED <──> CLOCKWISE <──> COUNTER     (G00, G01, G02, G03 name the next state)
    any of them <──> GROOVING                                     (where the cycle stands till a word ends it)
    any of them <──> TURNING <──> FACING <──> THREADING <──> THREAD    (cycles of other tools that stay in force)
    any of them ──a word of another code system──> COLD           (after it a place needs its motion word)
    any of them ──M02, M30──> ENDED                               (nothing follows)
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from enum import StrEnum
from typing import NamedTuple

from postproc.reading.run import CycleCall
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch


class Mode(StrEnum):
    """What a block that names only a place would do."""

    COLD = "before any motion word"
    RAPID = "at rapid"
    FEED = "at feed"
    CLOCKWISE = "on a clockwise arc"
    COUNTER = "on a counter-clockwise arc"
    TURNING = "in a turning cycle"
    FACING = "in a facing cycle"
    THREADING = "in a threading cycle"
    GROOVING = "in the grooving cycle"
    THREAD = "along a thread"
    ENDED = "after the end of the program"


class Sign(StrEnum):
    """What a block can hold besides G and M words."""

    PLACE = "a place without a motion word"
    FEED = "a feed"
    SPEED = "a spindle speed"
    TOOL = "a tool"
    STRANGER = "a word of another code system"
    GROOVE_STANDS = "a grooving cycle that stands"
    CYCLE_ENDS = "the end of a cycle that stands"


Event = Act | Switch | Sign


class Cell(NamedTuple):
    """The name of the action to take and the state that follows, None for the same."""

    action: str
    then: Mode | None = None


_SETTINGS: Mapping[Event, Cell] = {
    Sign.STRANGER: Cell("nothing", Mode.COLD),
    Sign.CYCLE_ENDS: Cell("nothing", Mode.COLD),
    Act.METRIC: Cell("units"),
    Act.INCH: Cell("units"),
    Act.ABSOLUTE: Cell("distance"),
    Act.INCREMENTAL: Cell("distance"),
    Act.PER_REV: Cell("feed_mode"),
    Act.PER_MINUTE: Cell("feed_mode"),
    Sign.FEED: Cell("feed"),
    Act.SURFACE: Cell("spindle_mode"),
    Act.RPM: Cell("spindle_mode"),
    Act.CLAMP_OR_ZERO: Cell("clamp_or_zero"),
    Sign.SPEED: Cell("speed"),
    Sign.TOOL: Cell("tool"),
    Switch.CLOCKWISE: Cell("spindle"),
    Switch.COUNTER: Cell("spindle"),
    Switch.CLOCKWISE_WET: Cell("spindle_wet"),
    Switch.COUNTER_WET: Cell("spindle_wet"),
    Switch.OWN: Cell("own_switch"),
    Switch.COOLANT_ON: Cell("coolant"),
    Act.IDLE: Cell("nothing"),
    Act.WORK_OFFSET: Cell("work_offset"),
    Act.COMPENSATED: Cell("compensation"),
    Act.UNCOMPENSATED: Cell("compensation"),
    Switch.IDLE: Cell("nothing"),
    Switch.GEAR: Cell("gear"),
    Act.DWELL: Cell("dwell"),
    Act.HOME: Cell("home"),
    Act.MACHINE_PLACE: Cell("machine_place"),
}
_MOVES: Mapping[Event, Cell] = {
    Act.GROOVE: Cell("groove"),
    Sign.GROOVE_STANDS: Cell("groove", Mode.GROOVING),
    Act.RAPID: Cell("rapid", Mode.RAPID),
    Act.FEED: Cell("cut", Mode.FEED),
    Act.ARC_CLOCKWISE: Cell("arc_clockwise", Mode.CLOCKWISE),
    Act.ARC_COUNTER: Cell("arc_counter", Mode.COUNTER),
    Act.TURNING: Cell("turning", Mode.TURNING),
    Act.FACING: Cell("facing", Mode.FACING),
    Act.THREADING: Cell("threading", Mode.THREADING),
    Act.WHOLE_THREAD: Cell("whole_thread", Mode.COLD),
    Act.THREAD: Cell("thread", Mode.THREAD),
    Act.DRILLING: Cell("drilling", Mode.COLD),
    Act.FACE: Cell("face"),
    Act.ROUGHING: Cell("roughing"),
    Act.ROUGHING_ACROSS: Cell("roughing"),
    Act.ROUGHING_BESIDE: Cell("roughing"),
    Act.FINISHING: Cell("finishing"),
}
_LAST: Mapping[Event, Cell] = {
    Switch.COOLANT_OFF: Cell("coolant"),
    Switch.SPINDLE_OFF: Cell("spindle"),
    Switch.ORIENT: Cell("orient"),
    Switch.PAUSE: Cell("pause"),
    Switch.OPTIONAL_PAUSE: Cell("pause"),
    Switch.CALL: Cell("call"),
    Switch.RETURN: Cell("go_back"),
    Switch.END: Cell("end", Mode.ENDED),
}
_ALWAYS: Mapping[Event, Cell] = {**_SETTINGS, **_MOVES, **_LAST}

TABLE: Mapping[Mode, Mapping[Event, Cell]] = {
    Mode.COLD: _ALWAYS,
    Mode.RAPID: {**_ALWAYS, Sign.PLACE: Cell("rapid")},
    Mode.FEED: {**_ALWAYS, Sign.PLACE: Cell("cut")},
    Mode.CLOCKWISE: {**_ALWAYS, Sign.PLACE: Cell("arc_clockwise")},
    Mode.COUNTER: {**_ALWAYS, Sign.PLACE: Cell("arc_counter")},
    Mode.TURNING: {**_ALWAYS, Sign.PLACE: Cell("turning")},
    Mode.FACING: {**_ALWAYS, Sign.PLACE: Cell("facing")},
    Mode.THREADING: {**_ALWAYS, Sign.PLACE: Cell("threading")},
    Mode.GROOVING: {**_ALWAYS, Sign.PLACE: Cell("groove_again")},
    Mode.THREAD: {**_ALWAYS, Sign.PLACE: Cell("thread")},
    Mode.ENDED: {},
}
"""State x word -> cell."""

ORDER: Mapping[Event, int] = {event: n for n, event in enumerate((*_SETTINGS, *_MOVES, Sign.PLACE, *_LAST))}
"""In which order the words of one block take effect: settings, then the move, then stops and ends (NIST IR 6556)."""


@dataclass
class Control:
    """What is in force. Places in counts, x on the diameter; `x_known` is False until the program has said where.

    `feed` and `retract` are counts, None until said; `clockwise` is None while the spindle stands. `own_retract`: the
    parameter that rules it where no word does. `call`: the grooving
    cycle called last. `settings`: words that blocks before a call of it gave, by field. `speeds` holds the last S of
    each spindle mode, by `surface`; the lines are those of the S words. `x_home`: X is at the reference point or beyond
    the part for another reason than a move to a place. `zero_said`: a work offset has been named.
    `wet`: the coolant is on; None until said.
    """

    x: int
    z: int
    mode: Mode = Mode.COLD
    x_known: bool = False
    z_known: bool = False
    incremental: bool = False
    feed: int | None = None
    per_minute: bool = False
    per_said: bool = False
    surface: bool = False
    surface_said: bool = False
    speeds: dict[bool, float] = field(default_factory=dict)
    clamp: int | None = None
    rpm_line: int | None = None
    clamp_line: int | None = None
    clockwise: bool | None = None
    wet: bool | None = None
    station: int = 0
    offset: int = 0
    x_home: bool = False
    zero_said: bool = False
    retract: int | None = None
    own_retract: int = 0
    call: CycleCall | None = None
    settings: dict[str, Word] = field(default_factory=dict)
    compensated: bool = False

    def copy(self) -> "Control":
        """What is in force now."""
        return replace(self, speeds=dict(self.speeds))

    def restore(self, before: "Control") -> None:
        """Put back what was in force."""
        for one in fields(self):
            setattr(self, one.name, getattr(before, one.name))

    @property
    def speed(self) -> float:
        """What S says in the spindle mode in force, 0 for nothing yet."""
        return self.speeds.get(self.surface, 0.0)

    @property
    def spin_line(self) -> int | None:
        """The line whose S rules how fast the spindle may turn: the clamp's under constant surface speed."""
        return self.clamp_line if self.surface else self.rpm_line
