"""What single words mean, with the numbers worked out, for whoever learns to read a grooving program."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from planner.increment import Increments
from postproc.motion import Motion
from postproc.reading.run import CycleCall
from postproc.reading.words import Block, Word
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.numbers import counted, decimal, tool_numbers

ACTS = {
    Act.RAPID: "move at rapid",
    Act.FEED: "move at feed, in a straight line",
    Act.ARC_CLOCKWISE: "move at feed on a clockwise arc",
    Act.ARC_COUNTER: "move at feed on a counter-clockwise arc",
    Act.DWELL: "stand still",
    Act.GROOVE: "grooving cycle: peck a groove, or a row of grooves",
    Act.HOME: "to the reference point of the machine, over the place named",
    Act.MACHINE_PLACE: "to a place of the machine's own coordinates",
    Act.CLAMP_OR_ZERO: "with S: the highest spindle speed allowed; with X and Z: where the tool stands",
    Act.METRIC: "lengths are in millimetres",
    Act.INCH: "lengths are in inches",
    Act.PER_REV: "feeds are per revolution of the spindle",
    Act.PER_MINUTE: "feeds are per minute",
    Act.SURFACE: "constant surface speed: the spindle turns faster as the diameter shrinks",
    Act.RPM: "fixed spindle speed",
    Act.ABSOLUTE: "X and Z are places",
    Act.INCREMENTAL: "X and Z are distances from where the tool is",
    Act.IDLE: "a setting that moves no grooving tool",
    Act.ROUGHING: "roughing cycle of a turning tool, not followed here",
    Act.FINISHING: "finishing cycle of a turning tool, not followed here",
    Act.TURNING: "turning cycle: in, along, out and back",
    Act.FACING: "facing cycle: along, in, back along and out",
    Act.FACE: "cycle along Z: pecks a hole, a face groove or a row of them",
    Act.DRILLING: "drilling cycle, not followed here",
    Act.THREAD: "cut along a thread, not followed here",
    Act.THREADING: "threading cycle, not followed here",
    Act.COMPENSATED: "the tool goes beside the places by the nose radius kept at the machine",
    Act.UNCOMPENSATED: "the tool goes where the places say",
    Act.WORK_OFFSET: "places count from a work offset, which is set at the machine",
}
SWITCHES = {
    Switch.PAUSE: "the program waits for the operator",
    Switch.OPTIONAL_PAUSE: "the program waits for the operator",
    Switch.END: "end of the program",
    Switch.CLOCKWISE: "spindle on, clockwise",
    Switch.COUNTER: "spindle on, counter-clockwise",
    Switch.SPINDLE_OFF: "spindle stop",
    Switch.COOLANT_ON: "coolant on",
    Switch.COOLANT_OFF: "coolant off",
    Switch.CALL: "run a subprogram",
    Switch.RETURN: "back from the subprogram to the program that called it",
    Switch.IDLE: "a switch that moves no grooving tool",
    Switch.GEAR: "a switch that moves no grooving tool",
    Switch.ORIENT: "the spindle stops at an angle",
    Switch.CLOCKWISE_WET: "spindle on, clockwise, with coolant",
    Switch.COUNTER_WET: "spindle on, counter-clockwise, with coolant",
    Switch.OWN: "a switch of this machine's own, not checked",
}


@dataclass(frozen=True)
class Scene:
    """One block with what is known about it: its acts, what was in force, and what it did when it was first run.

    `events` has the G and M words with what each asks for. `arc`: what a place in this block is the end of, None where
    the tool goes straight.
    """

    block: Block
    acts: frozenset[Act | Switch]
    increments: Increments
    form: CycleForm | None
    diameter_x: bool = True
    incremental: bool = False
    surface: bool = False
    per_minute: bool = False
    arc: Act | None = None
    units_known: bool = True
    call: CycleCall | None = None
    motions: Sequence[Motion] = field(default_factory=tuple)
    events: Mapping[Word, Act | Switch] = field(default_factory=dict)

    def length(self, count: int) -> str:
        """A count as a length with its unit, to the last increment: "1.000 mm"."""
        places = len(str(self.increments.per_length)) - 1
        return f"{count / self.increments.per_length:.{places}f} {self.unit}".rstrip()

    @property
    def unit(self) -> str:
        """The unit of lengths, empty where nothing says it."""
        return self.increments.units if self.units_known else ""

    def rate(self, value: float) -> str:
        """A feed with its unit: "feed 0.08 mm/rev"."""
        per = "min" if self.per_minute else "rev"
        return f"feed {value:g} {self.unit}/{per}" if self.unit else f"feed {value:g} per {per}"

    def place(self, axis: str, count: int) -> str:
        """A count as an axis word."""
        return axis + decimal(count, self.increments.per_length)

    def counts(self, word: Word) -> int:
        """The counts of a length word."""
        return counted(word.text, self.increments.per_length).count

    def has(self, address: str) -> bool:
        """True if the block has a word of this address."""
        return any(word.address == address for word in self.block.words)


def meaning(word: Word, scene: Scene) -> str:
    """What a word of a block asks for; "not known" where the tool doesn't take it."""
    event = scene.events.get(word)
    if event is not None:
        return ACTS[event] if isinstance(event, Act) else SWITCHES[event]
    if word.address == "O":
        return f"program number {word.text}"
    if word.address == "T":
        return tool(word)
    if Act.WORK_OFFSET in scene.acts and word.address == "P":
        return f"the work offset of number {word.text}"
    if by_turns(word, scene):
        return f"for {abs(word.value):g} turns of the spindle"
    if word.address == "S":
        return speed(word, scene)
    if word.address == "F":
        return feed(word, scene)
    if Act.DWELL in scene.acts and word.address in "PXU":
        return f"for {abs(word.value) * (1 if word.pointed else 0.001):g} s"
    if Switch.CALL in scene.acts and word.address in "PL":
        return f"subprogram {word.text}" if word.address == "P" else f"{word.text} times"
    return _length(word, scene) or "not known"


def by_turns(word: Word, scene: Scene) -> bool:
    """True if an S is a dwell in turns: beside G04 with no other time."""
    return word.address == "S" and Act.DWELL in scene.acts and not any(map(scene.has, "PXUF"))


def tool(word: Word) -> str:
    """What a T word asks for."""
    numbers = tool_numbers(word.text)
    if numbers is None:
        return "not known"
    station, offset = numbers
    return f"turret to station {station}, {f'with offset {offset}' if offset else 'its offset cancelled'}"


def speed(word: Word, scene: Scene) -> str:
    """What an S word asks for."""
    if Act.CLAMP_OR_ZERO in scene.acts:
        return f"never faster than {word.text} rev/min"
    if scene.surface:
        per_minute = {"mm": " m/min", "in": " ft/min"}.get(scene.unit, ", m/min or ft/min")
        return f"cutting speed of {word.text}{per_minute}"
    return f"{word.text} rev/min"


def feed(word: Word, scene: Scene) -> str:
    """What an F word asks for."""
    plain = word.pointed or scene.per_minute
    value = float(word.text) if plain else scene.increments.feed_length(int(word.text))
    return scene.rate(value)


def _length(word: Word, scene: Scene) -> str | None:
    """What a length word of a move or of the cycle asks for."""
    if scene.form is not None and Act.GROOVE in scene.acts:
        return _in_cycle(word, scene, scene.form)
    if scene.form is not None and Act.FACE in scene.acts and (along := _along(word, scene, scene.form)):
        return along
    count = scene.counts(word)
    if Act.HOME in scene.acts and word.address in "XZUW":
        return f"along {'X' if word.address in 'XU' else 'Z'}, {_axis(word.address, count, scene)}"
    if word.address in "XZUW":
        return _axis(word.address, count, scene)
    if word.address == "R":
        return f"radius {scene.length(count)}" if scene.arc else None
    if word.address in "IK":
        return f"centre {scene.length(count)} from the start along {'X (radius)' if word.address == 'I' else 'Z'}"
    return None


def _along(word: Word, scene: Scene, form: CycleForm) -> str | None:
    """What a word of the cycle along Z asks for, where it isn't a place."""
    amount = scene.length(abs(scene.counts(word)))
    if word.address == form.shift:
        return f"{amount} deeper each peck, along Z"
    if word.address == form.peck:
        return f"{amount} from plunge to plunge, measured on the radius"
    if word.address == form.retract and not (scene.has("Z") or scene.has("W")):
        return f"back off {amount} after each peck"
    return None


def _axis(address: str, count: int, scene: Scene) -> str:
    """Where an axis word leads."""
    if address == "U" or (address == "X" and scene.incremental):
        way = "outward" if count > 0 else "inward"
        radial = count // 2 if scene.diameter_x else count
        return f"{scene.length(abs(radial))} {way}, measured on the radius" if count else "no way at all"
    if address == "W" or (address == "Z" and scene.incremental):
        way = "away from the chuck" if count > 0 else "toward the chuck"
        return f"{scene.length(abs(count))} {way}" if count else "no way at all"
    return axis_place(address, count * (1 if scene.diameter_x or address == "Z" else 2), scene)


def axis_place(axis: str, count: int, scene: Scene) -> str:
    """A place on an axis in words, X in counts on the diameter."""
    if axis == "X":
        return f"to diameter {scene.length(count)}"
    side = "behind" if count < 0 else "ahead of"
    return f"to {scene.length(abs(count))} {side} the front face" if count else "to the front face"


def _in_cycle(word: Word, scene: Scene, form: CycleForm) -> str | None:
    """What a word of the grooving cycle asks for."""
    call = scene.call
    if word.address == form.retract and not (scene.has("X") or scene.has("U")):
        return f"back off {scene.length(scene.counts(word))} after each peck, measured on the radius"
    if word.address == form.relief:
        count = scene.counts(word)
        return f"step {scene.length(abs(count))} aside at the floor" if count else "no step aside at the floor"
    if call is None:
        return None
    if (word.address in ("U", "X" * scene.incremental) and not call.x_known) or (
        word.address in ("W", "Z" * scene.incremental) and not call.z_known
    ):
        return _axis(word.address, scene.counts(word), scene)
    if word.address in "XU":
        return f"floor at diameter {scene.length(call.floor_x)}"
    if word.address in "ZW":
        return f"last plunge at {scene.place('Z', call.end_z)}"
    if word.address == form.peck and call.peck is not None:
        number = f": {call.pecks} peck{'s' if call.pecks != 1 else ''} to the floor" if call.x_known else ""
        return f"{scene.length(call.peck)} deeper each peck, measured on the radius{number}"
    if word.address == form.shift and call.shift is not None:
        return f"{scene.length(call.shift)} from plunge to plunge"
    return None
