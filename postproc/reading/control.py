"""What is in force while a program runs: the state of the control, and what lies in it.

What a bare place would do is the `Mode`; the rest is kept where it belongs: the tool's place, feed, spindle, the
cycles. What changes it is said by `postproc.reading.table`.
"""

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import field
from enum import StrEnum

from extractor.values import dataclass
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
    STARTS_OVER = "a return of the main program"


Event = Act | Switch | Sign


@dataclass
class ToolPlace:
    """Where the tool stands, in counts, x on the diameter; what is not `known` the program has not said yet.

    `incremental`: places are given from where it stands. `x_home`: X is at the reference point, or beyond the part for
    another reason than a move to a place. `zero_said`: a work offset has been named.
    """

    x: int
    z: int
    x_known: bool = False
    z_known: bool = False
    x_home: bool = False
    incremental: bool = False
    zero_said: bool = False

    @property
    def known(self) -> bool:
        """True if the program has said both axes."""
        return self.x_known and self.z_known


@dataclass
class FeedInForce:
    """The feed in counts, None until said; `said`: whether per minute or per turn has been said, or asked for.

    `line`: that of the F word.
    """

    count: int | None = None
    per_minute: bool = False
    said: bool = False
    line: int = 0


@dataclass
class SpindleInForce:
    """How the spindle turns: `clockwise` is None while it stands, `clamp` its greatest speed in rev/min.

    `speeds` holds the last S of each spindle mode, by `surface` (m/min or ft/min; else rev/min); the lines are those of
    the S words. `mode_said`: which of the two has been said, or asked for. `told`: the block at hand says something of
    the spindle.
    """

    clockwise: bool | None = None
    surface: bool = False
    mode_said: bool = False
    speeds: dict[bool, float] = field(default_factory=dict)
    clamp: int | None = None
    rpm_line: int | None = None
    clamp_line: int | None = None
    told: bool = False

    @property
    def speed(self) -> float:
        """What S says in the spindle mode in force, 0 for nothing yet."""
        return self.speeds.get(self.surface, 0.0)

    @property
    def line(self) -> int | None:
        """The line whose S rules how fast the spindle may turn: the clamp's under constant surface speed."""
        return self.clamp_line if self.surface else self.rpm_line


@dataclass(frozen=True)
class RoughSettings:
    """What the first block of a roughing cycle sets: depth of a pass or the way aside (x, z), retract, number."""

    depth: int = 0
    aside: tuple[int, int] = (0, 0)
    back: int = 0
    times: int = 1


@dataclass
class CyclesInForce:
    """What cycles have left for the next one.

    `retract` of the grooving cycle in counts, None until said; `own_retract`: the parameter that rules it where no
    word does; `call`: the one called last; `settings`: words that blocks before a call of it gave, by field. `box`: the
    far corner and the taper of the turning cycle before; `rough`: what was set for each roughing cycle; `waiting`: the
    lines that set a cycle of another tool which nothing has called yet, by the cycle and how many motions were made
    before: set again with no motion between, it is corrected.
    """

    retract: int | None = None
    own_retract: int = 0
    call: CycleCall | None = None
    settings: dict[str, Word] = field(default_factory=dict)
    box: tuple[int, int, int] | None = None
    rough: dict[Event, RoughSettings] = field(default_factory=dict)
    waiting: dict[tuple[Event, int], int] = field(default_factory=dict)

    def called(self, event: Event) -> None:
        """A cycle is called: what was set last for it waits no longer."""
        last = next((line for (waits, _), line in reversed(self.waiting.items()) if waits == event), None)
        self.waiting = {key: line for key, line in self.waiting.items() if line != last}


@dataclass(frozen=True)
class PendingCorner:
    """A corner that a cut ends in: its word, line, size in counts on the radius, and the step of the cut."""

    word: Word
    line: int
    size: int
    step: int


@dataclass(frozen=True)
class ModalCall:
    """A program to run after every block that moves: its first block, how often, its values, and in which depth."""

    first: int
    times: int
    given: Mapping[int, float]
    depth: int


@dataclass
class Control:
    """All that is in force. `wet`: the coolant is on; None until said. `compensated`: for the nose of the insert.

    `corner`: what the cut made last ends in, until the next says how it lies. `called`: what runs after every move.
    """

    place: ToolPlace
    mode: Mode = Mode.COLD
    feed: FeedInForce = field(default_factory=FeedInForce)
    spindle: SpindleInForce = field(default_factory=SpindleInForce)
    cycles: CyclesInForce = field(default_factory=CyclesInForce)
    station: int = 0
    offset: int = 0
    wet: bool | None = None
    compensated: bool = False
    corner: PendingCorner | None = None
    called: ModalCall | None = None

    def copy(self) -> "Control":
        """A copy of what is in force now, to be restored later."""
        return deepcopy(self)
