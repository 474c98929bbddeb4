"""What a G or M word asks a control to do, whatever its number is; the tables of the dialects map numbers to these."""

from collections.abc import Mapping
from enum import StrEnum


class Act(StrEnum):
    """One thing that a preparatory (G) word can ask for."""

    RAPID = "rapid"
    FEED = "feed"
    ARC_CLOCKWISE = "clockwise arc"
    ARC_COUNTER = "counter-clockwise arc"
    DWELL = "dwell"
    GROOVE = "grooving cycle"
    HOME = "reference point"
    MACHINE_PLACE = "machine coordinates"
    CLAMP_OR_ZERO = "spindle clamp or program zero"
    METRIC = "millimetres"
    INCH = "inches"
    PER_REV = "feed per revolution"
    PER_MINUTE = "feed per minute"
    SURFACE = "constant surface speed"
    RPM = "fixed spindle speed"
    ABSOLUTE = "absolute places"
    INCREMENTAL = "incremental places"
    MACRO_CALL = "macro call"
    MODAL_CALL = "macro call after each move"
    MODAL_CALL_ENDS = "end of the macro calls after each move"
    LOCAL_CALL = "call of blocks of the same program"
    WORK_OFFSET = "work offset"
    COMPENSATED = "radius compensation"
    UNCOMPENSATED = "no radius compensation"
    ROUGHING = "roughing cycle along Z"
    ROUGHING_ACROSS = "roughing cycle along X"
    ROUGHING_BESIDE = "roughing cycle beside a contour"
    FINISHING = "finishing cycle"
    TURNING = "turning cycle"
    FACING = "facing cycle"
    FACE = "face grooving or drilling cycle"
    DRILLING = "drilling cycle"
    THREAD = "thread cut"
    THREADING = "threading cycle"
    WHOLE_THREAD = "threading cycle in many passes"
    IDLE = "nothing that moves a grooving tool"


class Switch(StrEnum):
    """One thing that a miscellaneous (M) word can ask for."""

    PAUSE = "program stop"
    OPTIONAL_PAUSE = "optional program stop"
    END = "end of program"
    CLOCKWISE = "spindle clockwise"
    COUNTER = "spindle counter-clockwise"
    SPINDLE_OFF = "spindle stop"
    COOLANT_ON = "coolant on"
    COOLANT_OFF = "coolant off"
    GEAR = "gear of the spindle"
    CALL = "subprogram call"
    RETURN = "return from subprogram"
    IDLE = "nothing that moves a grooving tool"
    ORIENT = "oriented spindle stop"
    CLOCKWISE_WET = "spindle clockwise with coolant"
    COUNTER_WET = "spindle counter-clockwise with coolant"
    OWN = "a switch of the machine's own"


MOTIONS: frozenset[Act] = frozenset({Act.RAPID, Act.FEED, Act.ARC_CLOCKWISE, Act.ARC_COUNTER})
"""The acts that stay in force until another of them is named."""

FOREIGN: Mapping[int, Act] = {
    **dict.fromkeys((32, 33, 34), Act.THREAD),
    70: Act.FINISHING,
    71: Act.ROUGHING,
    72: Act.ROUGHING_ACROSS,
    73: Act.ROUGHING_BESIDE,
    74: Act.FACE,
    **dict.fromkeys((83, 84), Act.DRILLING),
    76: Act.WHOLE_THREAD,
    92: Act.THREADING,
    90: Act.TURNING,
    94: Act.FACING,
}
"""G numbers of the cycles of turning, threading and drilling tools, where a dialect has no other meaning for them: they
are read and followed, never written (common practice)."""

FOREIGN_ACTS: frozenset[Act] = frozenset(FOREIGN.values()) - {Act.FACE}
"""Those of them that have nothing of the grooving cycle; the one along the axis has its words."""

THREAD_ACTS: frozenset[Act] = frozenset({Act.THREAD, Act.THREADING, Act.WHOLE_THREAD})
"""Those that cut a thread, below the land and not a groove."""

CONTOURS: Mapping[int, Act] = {number: act for number, act in FOREIGN.items() if 70 <= number <= 73}
"""The cycles along a contour; with P and Q they are these in every tongue, and never a unit word."""

ARCS: frozenset[Act] = frozenset({Act.ARC_CLOCKWISE, Act.ARC_COUNTER})

EXCLUSIVE: tuple[frozenset[StrEnum], ...] = (
    frozenset({*MOTIONS, Act.TURNING, Act.FACING, Act.THREADING, Act.THREAD}),
    frozenset({Act.DWELL, Act.GROOVE, Act.HOME, Act.CLAMP_OR_ZERO, Act.MACHINE_PLACE, *ARCS}),
    frozenset({Act.METRIC, Act.INCH}),
    frozenset({Act.PER_REV, Act.PER_MINUTE}),
    frozenset({Act.SURFACE, Act.RPM}),
    frozenset({Act.COMPENSATED, Act.UNCOMPENSATED}),
    frozenset({Act.ABSOLUTE, Act.INCREMENTAL}),
    frozenset({Switch.CLOCKWISE, Switch.COUNTER, Switch.SPINDLE_OFF, Switch.ORIENT})
    | {Switch.CLOCKWISE_WET, Switch.COUNTER_WET},
)
"""Acts of which one block may have one; all others go together. An arc is never without the places of its block, which
those of the second row take for themselves."""

OTHER_AXES = frozenset("ABCY")
"""Letters of the axes that some lathes have besides X and Z: a second spindle's way, its angle, a driven tool's height
(ISO 841). What they move is the machine's own."""

TURN = "H"
"""The letter that moves C by an increment, as U moves X and W moves Z (common practice)."""

OWN_SWITCHES = range(10_000)
"""M numbers that a machine's builder may use for what that machine has: chuck, bar feed, steady, doors, counters. No
such word is a place or a feed, so the program's own moves stay what they are (common practice)."""

MACRO = 65
"""The G number that calls a program with values of its own, where a dialect has no other meaning for it (common
practice)."""

MODAL: Mapping[int, Act] = {66: Act.MODAL_CALL, 67: Act.MODAL_CALL_ENDS}
"""The G numbers that call such a program after every block that moves, and that end it (common practice)."""

CALLS_WITH_VALUES: frozenset[Act] = frozenset({Act.MACRO_CALL, Act.MODAL_CALL})

LOCAL = 97
"""The M number that calls the blocks of its own program from the one on whose number P gives, where a dialect has no
other meaning for it (common practice of some controls)."""

VARIABLES: Mapping[str, int] = {
    **{letter: number for number, letter in enumerate("ABCIJKDEF", 1)},
    "H": 11,
    "M": 13,
    **{letter: number for number, letter in enumerate("QRSTUVWXYZ", 17)},
}
"""Which of that program's variables each other word of the block gives its value (common practice, from memory)."""

ELSEWHERE: Mapping[int, str] = {
    17: "end of a subprogram",
    46: "axis mode",
    47: "repeat of the program",
    96: "call of an interrupt program",
    97: "call of a subprogram",
    197: "call of a subprogram",
    198: "call of a program in another store",
}
"""M numbers that are no switch on some controls but send the program elsewhere, or change how its places are meant:
never waved through (common practice)."""

OTHERS: Mapping[int, str] = {
    10: "setting of data",
    75: "grooving cycle",
    **{number: act.value for number, act in FOREIGN.items()},
}
"""What G numbers outside a dialect's table commonly mean on a lathe, for the sentence about them (common practice)."""
