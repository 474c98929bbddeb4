"""What single words mean, with the numbers worked out, for whoever learns to read a grooving program."""

from postproc.explaining.explain_cycles import in_cycle
from postproc.explaining.scene import ACTS, SWITCHES, Scene, axis_way
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.numbers import tool_numbers


def meaning(word: Word, scene: Scene) -> str:
    """What a word of a block asks for; "not known" where the tool doesn't take it."""
    event = scene.events.get(word)
    if event is not None:
        return ACTS[event] if isinstance(event, Act) else SWITCHES[event]
    if (said := in_cycle(word, scene)) is not None:
        return said
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
        return f"along {'X' if word.address in 'XU' else 'Z'}, {axis_way(word.address, count, scene)}"
    if word.address in "XZUW":
        return axis_way(word.address, count, scene)
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
        return axis_way(word.address, scene.counts(word), scene)
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
