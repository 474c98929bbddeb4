"""Steps: what the machine is to do, said neutrally; a dialect spells them, the reader finds them again.

All numbers are whole counts of the least input increment (`planner.increment`): `x` on the diameter, `z` along the
axis, `peck` and `retract` on the radius, `feed` per revolution in feed counts. None leaves an axis where it is.
"""

from typing import Literal

from extractor.values import dataclass


@dataclass(frozen=True)
class ToolCall:
    """Index the turret to a station with its offset."""

    station: int
    offset: int


@dataclass(frozen=True)
class SpindleClamp:
    """The highest spindle speed allowed under constant surface speed, in rev/min."""

    rpm: int


@dataclass(frozen=True)
class Spindle:
    """Start the spindle: `speed` is m/min or ft/min in mode "surface", rev/min in mode "rpm"."""

    mode: Literal["surface", "rpm"]
    speed: int
    clockwise: bool = True


@dataclass(frozen=True)
class Coolant:
    """Coolant on or off."""

    on: bool


@dataclass(frozen=True)
class Rapid:
    """Move at rapid; both axes given means both move at once."""

    x: int | None = None
    z: int | None = None


@dataclass(frozen=True)
class Cut:
    """Move at feed: per revolution, or per minute where the feed mode says so."""

    feed: int
    x: int | None = None
    z: int | None = None


@dataclass(frozen=True, kw_only=True)
class Arc:
    """Move at feed per revolution on an arc of at most half a turn to a place, from wherever the tool is.

    `radius` counts in length, above 0. `clockwise` as seen in the plane of the turning axis, z to the right and x up.
    The radius decides: a control lays its circle through both ends, so no end can miss it; see `planner.arcs`.
    """

    feed: int
    x: int
    z: int
    radius: int
    clockwise: bool


@dataclass(frozen=True)
class Dwell:
    """Stand still for this many milliseconds."""

    milliseconds: int


@dataclass(frozen=True, kw_only=True)
class GrooveCycle:
    """Peck one groove or an evenly pitched row from the present position, and come back to it.

    `floor_x`: diameter of the floor. `end_z`: the last groove as the reference edge sees it. `shift`: distance between
    grooves, unsigned, 0 for one groove; the span from start to `end_z` is a whole number of shifts. `peck` 0: straight
    to the floor. `retract`: radial back-off after each peck. No relief at the floor.
    """

    floor_x: int
    end_z: int
    peck: int
    shift: int
    retract: int
    feed: int


@dataclass(frozen=True)
class Remark:
    """A line for the person at the machine; spelt as a comment."""

    text: str


@dataclass(frozen=True)
class SpindleStop:
    """Stop the spindle."""


@dataclass(frozen=True)
class Gear:
    """Put the spindle into a gear, by the order of the control's words for them from 1."""

    number: int


@dataclass(frozen=True)
class OwnSwitch:
    """A switch of the machine's own, by what it does, in the words of a person who knows the machine, in lower case."""

    does: str


@dataclass(frozen=True)
class Halt:
    """Wait for the person at the machine; `optional`: only where the switch for it is on."""

    optional: bool


@dataclass(frozen=True)
class WorkOffset:
    """Count places from a work offset set at the machine, by its order: 1 is the one in force where none is named."""

    number: int


@dataclass(frozen=True)
class Standing:
    """Tell the control where the tool stands, which sets its zero; None leaves an axis as it is."""

    x: int | None
    z: int | None


@dataclass(frozen=True)
class FeedMode:
    """Feeds are per minute from here on, or per revolution again; a program begins per revolution."""

    per_minute: bool


@dataclass(frozen=True)
class Home:
    """To the reference point of the machine at rapid, along the axes that are True; its place is the machine's own."""

    x: bool
    z: bool


Step = (
    ToolCall
    | SpindleClamp
    | Spindle
    | SpindleStop
    | Gear
    | OwnSwitch
    | Coolant
    | Rapid
    | Cut
    | Arc
    | Dwell
    | GrooveCycle
    | Remark
    | Halt
    | WorkOffset
    | Standing
    | FeedMode
    | Home
)
