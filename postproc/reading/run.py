"""What a program does when a control runs it: every move, every cycle call, the steps and what was odd."""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

from extractor.finding import Finding
from extractor.part import Units
from extractor.values import dataclass
from planner.increment import Increments
from planner.steps import Cut, Rapid, Step
from postproc.motion import Motion
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.cycle import places


@dataclass(frozen=True, kw_only=True)
class CycleCall:
    """One call of the grooving cycle as it stands in the program, in whole least increments.

    `start_x` and `floor_x` are diameters, `peck` and `retract` radial, `shift` along the axis, all unsigned but
    the places. `peck` is None where no block gives it, `shift` None likewise; `retract` None is left to the control.
    `relief` is the sideways step at the floor, 0 for none. `feed` is in feed counts, None if no feed is in force.
    `peck_text` is the word as written ("P1000", "I1."), "" where there is none. `x_known` and
    `z_known` are False where no block has said that axis of the start. `stays`: the control leaves the tool above the
    last groove, not at the start.
    """

    line: int
    station: int
    offset: int
    start_x: int
    start_z: int
    floor_x: int
    end_z: int
    peck: int | None
    shift: int | None
    retract: int | None
    relief: int
    feed: int | None
    peck_text: str = ""
    x_known: bool = True
    z_known: bool = True
    stays: bool = False

    @property
    def places(self) -> tuple[int, ...]:
        """Z of every groove that is cut, in order; the last shift is whatever remains (common practice).

        >>> places = dict(line=9, station=3, offset=3, start_x=42000, start_z=0, floor_x=34000, end_z=-12000)
        >>> CycleCall(**places, peck=1000, shift=5000, retract=500, relief=0, feed=800).places
        (0, -5000, -10000, -12000)
        """
        return places(self.start_z, self.end_z, self.shift)

    @property
    def left_over(self) -> int:
        """What is left of the span after whole shifts: other than 0 means one groove more than the pitch asks for."""
        return abs(self.end_z - self.start_z) % self.shift if self.shift else 0

    @property
    def pecks(self) -> int:
        """How many pecks reach the floor: the last one is whatever remains."""
        depth = abs(self.start_x - self.floor_x)
        return 1 if not self.peck else max(1, -(-depth // (2 * self.peck)))


_WAYS = (Rapid, Cut)
ENDS, STARTS_OVER = "program ends", "program starts over"


@dataclass(frozen=True)
class Indexing:
    """The turret turns to another station at `line`, after so many `motions`; `known`: X and Z were said by then.

    `what`: in words, also where a block without a move takes the offset away, or where the part is taken out.
    """

    line: int
    motions: int
    known: bool
    what: str = "turret is indexed"


@dataclass(frozen=True)
class Standstill:
    """The machine waits or the spindle stands at `line`, after so many `motions`; `what` says which in words.

    `optional`: only while its switch is on.
    """

    line: int
    motions: int
    what: str
    optional: bool = False


@dataclass(frozen=True)
class ZeroSetting:
    """A block that says where the tool stands, x and z in counts, None for an axis that it leaves out."""

    line: int
    motions: int
    x: int | None
    z: int | None


@dataclass(frozen=True, kw_only=True)
class Run:
    """Everything that one pass through a program does, in the order in which it happens.

    `units` are those that the program is read in and `increments` theirs: the program's own unit word where there is
    one (`units_line` is its line), else those asked for. They may differ from the drawing's; that is for the verdict to
    say. `motions` come with their lines and with what spindle, feed and offset were at the time; a call of the grooving
    cycle is also in `cycles` with the motions it makes marked by its number. `steps` are the neutral steps found again,
    equal to `postproc.lower(plan.steps, dialect)` for a program of our own; `step_lines` are the lines of each,
    `step_motions` how many motions were made before it, `starts` the numbers of those before which a word starts the
    spindle. `findings` are what the reader and the interpreter could not take or did not trust, with line. `indexings`
    are the turret's turns to another station, with or without a move after them, `halts` where the machine waits.
    `ended` is True if M02 or M30 (or the M99 of an endless program) was reached. `lost`: from some block on nothing
    says where the tool goes, and the findings end there. `skipped`: blocks that could not be run. `worked_out`: the
    words of blocks with variables as they stood when first run, by line. `spoken_words`: how sentences about the
    program name what its dialect has a word for. `close`: the first line that compares values that are all but equal.
    `guard`: the line and the text of an IF about a variable that the program doesn't set, taken as the caller asked.
    `alarm`: how many motions were made when the program stopped the control with an alarm.
    """

    dialect: str
    units: Units
    increments: Increments
    motions: tuple[Motion, ...] = ()
    cycles: tuple[CycleCall, ...] = ()
    steps: tuple[Step, ...] = ()
    step_lines: tuple[int, ...] = ()
    findings: tuple[Finding, ...] = ()
    units_line: int | None = None
    ended: bool = False
    indexings: tuple[Indexing, ...] = ()
    step_motions: tuple[int, ...] = ()
    starts: frozenset[int] = frozenset()
    halts: tuple[Standstill, ...] = ()
    lost: bool = False
    skipped: int = 0
    close: int | None = None
    guard: tuple[int, str] | None = None
    alarm: int | None = None
    worked_out: Mapping[int, tuple[Word, ...]] = field(default_factory=dict)
    spoken_words: Mapping[Act | Switch, str] = field(default_factory=dict)

    @cached_property
    def marks(self) -> tuple[tuple[int, Step], ...]:
        """The steps that are no straight way, with their numbers: few of many."""
        return tuple((number, step) for number, step in enumerate(self.steps) if type(step) not in _WAYS)

    @property
    def not_followed(self) -> int:
        """Moves whose way is not known, and blocks that could not be run."""
        return self.skipped + sum(1 for motion in self.motions if not motion.followed)
