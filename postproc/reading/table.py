"""The table of the control: what each word does in each state, and which state follows.

Every word that a program may use has its cells in `TABLE`, state by state; a missing cell *is* the error, and its
message names word and state. A cell holds the action to take, a function of one of the files beside this, and the state
that follows (None: the same). Actions never look at the state, and nothing but the cells changes it; after a contour
was followed for a cycle the state before it is put back.

    any state ──a word of another code system──> COLD
    any state ──the end of a cycle that stands──> COLD
    any state ──a grooving cycle that stands──> GROOVING
    any state ──rapid──> RAPID
    any state ──feed──> FEED
    any state ──clockwise arc──> CLOCKWISE
    any state ──counter-clockwise arc──> COUNTER
    any state ──turning cycle──> TURNING
    any state ──facing cycle──> FACING
    any state ──threading cycle──> THREADING
    any state ──threading cycle in many passes──> COLD
    any state ──thread cut──> THREAD
    any state ──drilling cycle──> COLD
    any state ──a return of the main program──> ENDED
    any state ──end of program──> ENDED

A program begins in COLD, where a place without a motion word is an error; in ENDED every word is one. The tests draw
these lines from the table.
"""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from postproc.reading.actions import cycles, dwelling, foreign, moving, roughing, setting, spindle, steering
from postproc.reading.control import Event, Mode, Sign
from postproc.reading.lathe import Lathe
from postproc.vocabulary.acts import Act, Switch


class Cell(NamedTuple):
    """The action to take and the state that follows, None for the same."""

    action: Callable[[Lathe, Event], None]
    then: Mode | None = None


_SETTINGS: Mapping[Event, Cell] = {
    Sign.STRANGER: Cell(setting.nothing, Mode.COLD),
    Sign.CYCLE_ENDS: Cell(setting.nothing, Mode.COLD),
    Act.METRIC: Cell(setting.units),
    Act.INCH: Cell(setting.units),
    Act.ABSOLUTE: Cell(setting.distance),
    Act.INCREMENTAL: Cell(setting.distance),
    Act.PER_REV: Cell(setting.feed_mode),
    Act.PER_MINUTE: Cell(setting.feed_mode),
    Sign.FEED: Cell(setting.feed),
    Act.SURFACE: Cell(spindle.speed_mode),
    Act.RPM: Cell(spindle.speed_mode),
    Act.CLAMP_OR_ZERO: Cell(setting.clamp_or_zero),
    Sign.SPEED: Cell(spindle.speed),
    Sign.TOOL: Cell(setting.tool),
    Switch.CLOCKWISE: Cell(spindle.turn),
    Switch.COUNTER: Cell(spindle.turn),
    Switch.CLOCKWISE_WET: Cell(spindle.turn_wet),
    Switch.COUNTER_WET: Cell(spindle.turn_wet),
    Switch.OWN: Cell(setting.own_switch),
    Switch.COOLANT_ON: Cell(setting.coolant),
    Act.IDLE: Cell(setting.nothing),
    Act.WORK_OFFSET: Cell(setting.work_offset),
    Act.COMPENSATED: Cell(setting.compensation),
    Act.UNCOMPENSATED: Cell(setting.compensation),
    Switch.IDLE: Cell(setting.nothing),
    Switch.GEAR: Cell(spindle.gear),
    Act.DWELL: Cell(dwelling.dwell),
    Act.HOME: Cell(moving.home),
    Act.MACHINE_PLACE: Cell(moving.machine_place),
}
_MOVES: Mapping[Event, Cell] = {
    Act.GROOVE: Cell(cycles.groove),
    Sign.GROOVE_STANDS: Cell(cycles.groove, Mode.GROOVING),
    Act.RAPID: Cell(moving.rapid, Mode.RAPID),
    Act.FEED: Cell(moving.cut, Mode.FEED),
    Act.ARC_CLOCKWISE: Cell(moving.arc_clockwise, Mode.CLOCKWISE),
    Act.ARC_COUNTER: Cell(moving.arc_counter, Mode.COUNTER),
    Act.TURNING: Cell(foreign.turning, Mode.TURNING),
    Act.FACING: Cell(foreign.facing, Mode.FACING),
    Act.THREADING: Cell(foreign.threading, Mode.THREADING),
    Act.WHOLE_THREAD: Cell(foreign.whole_thread, Mode.COLD),
    Act.THREAD: Cell(foreign.thread, Mode.THREAD),
    Act.DRILLING: Cell(foreign.drilling, Mode.COLD),
    Act.FACE: Cell(cycles.face),
    Act.ROUGHING: Cell(roughing.rough),
    Act.ROUGHING_ACROSS: Cell(roughing.rough),
    Act.ROUGHING_BESIDE: Cell(roughing.rough),
    Act.FINISHING: Cell(roughing.finish),
}
_LAST: Mapping[Event, Cell] = {
    Switch.COOLANT_OFF: Cell(setting.coolant),
    Switch.SPINDLE_OFF: Cell(spindle.turn),
    Switch.ORIENT: Cell(spindle.orient),
    Switch.PAUSE: Cell(setting.pause),
    Switch.OPTIONAL_PAUSE: Cell(setting.pause),
    Switch.CALL: Cell(steering.call),
    Act.MACRO_CALL: Cell(steering.call_with_values),
    Act.MODAL_CALL: Cell(steering.call_after_moves),
    Act.MODAL_CALL_ENDS: Cell(steering.call_no_more),
    Act.LOCAL_CALL: Cell(steering.call_local),
    Switch.RETURN: Cell(steering.go_back),
    Sign.STARTS_OVER: Cell(steering.start_over, Mode.ENDED),
    Switch.END: Cell(steering.end, Mode.ENDED),
}
_ALWAYS: Mapping[Event, Cell] = {**_SETTINGS, **_MOVES, **_LAST}

TABLE: Mapping[Mode, Mapping[Event, Cell]] = {
    Mode.COLD: _ALWAYS,
    Mode.RAPID: {**_ALWAYS, Sign.PLACE: Cell(moving.rapid)},
    Mode.FEED: {**_ALWAYS, Sign.PLACE: Cell(moving.cut)},
    Mode.CLOCKWISE: {**_ALWAYS, Sign.PLACE: Cell(moving.arc_clockwise)},
    Mode.COUNTER: {**_ALWAYS, Sign.PLACE: Cell(moving.arc_counter)},
    Mode.TURNING: {**_ALWAYS, Sign.PLACE: Cell(foreign.turning)},
    Mode.FACING: {**_ALWAYS, Sign.PLACE: Cell(foreign.facing)},
    Mode.THREADING: {**_ALWAYS, Sign.PLACE: Cell(foreign.threading)},
    Mode.GROOVING: {**_ALWAYS, Sign.PLACE: Cell(cycles.groove_again)},
    Mode.THREAD: {**_ALWAYS, Sign.PLACE: Cell(foreign.thread)},
    Mode.ENDED: {},
}
"""State x word -> cell."""

ORDER: Mapping[Event, int] = {event: n for n, event in enumerate((*_SETTINGS, *_MOVES, Sign.PLACE, *_LAST))}
"""In which order the words of one block take effect: settings, then the move, then stops and ends (NIST IR 6556)."""
