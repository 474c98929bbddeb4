"""What single words mean, with the numbers worked out, for anyone learning to read a grooving program."""

from collections.abc import Mapping

from postproc.explaining.explain_cycles import in_cycle
from postproc.explaining.scene import ACTS, PHRASES, BlockScene, axis_way
from postproc.reading.words import Word
from postproc.vocabulary.acts import CALLS_WITH_VALUES, VARIABLES, Act, Switch
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.numbers import tool_numbers


def meaning(word: Word, scene: BlockScene) -> str:
    """What a word of a block asks for; "not known" where the tool doesn't take it."""
    if not scene.acts.isdisjoint(CALLS_WITH_VALUES) and (variable := VARIABLES.get(word.address)) is not None:
        return f"#{variable} begins as {word.value:g}"
    event = scene.event(word)
    if event is not None:
        return ACTS[event] if isinstance(event, Act) else scene.switched(event)
    if (said := in_cycle(word, scene)) is not None:
        return said
    if word.address == "O":
        return f"program number {word.text}"
    if scene.gap(word, "tool") is not None:
        return tool(word, scene)
    if Act.WORK_OFFSET in scene.acts and word.address == "P":
        return f"the work offset of number {word.text}"
    if by_turns(word, scene):
        return f"for {abs(word.value):g} turns of the spindle"
    if word.address == "S":
        return speed(word, scene)
    if Act.DWELL in scene.acts and (waits := _dwell(word, scene)):
        return waits
    if word.address == "F":
        return feed(word, scene)
    if said := _in_call(word, scene):
        return said
    return _length(word, scene) or "not known"


def _in_call(word: Word, scene: BlockScene) -> str:
    """What a word of a call of a program or of blocks names, empty for any other."""
    if Act.LOCAL_CALL in scene.acts and word.address in "PH":
        return f"from block N{word.text} on"
    if not scene.acts.isdisjoint({Switch.CALL, Act.LOCAL_CALL, *CALLS_WITH_VALUES}) and word.address in "PL":
        if word.address == "P" and (both := scene.called(word)) is not None:
            return f"subprogram {both[1]}, {both[0]} times"
        return f"subprogram {word.text}" if word.address == "P" else f"{word.text} times"
    if Switch.CALL in scene.acts and (gap := scene.gap(word, "call")) is not None:
        return f"subprogram {word.text}" if gap.field == "program" else f"{word.text} times"
    return ""


def by_turns(word: Word, scene: BlockScene) -> bool:
    """True if an S is a dwell in turns: beside G04 with no other time."""
    return word.address == "S" and Act.DWELL in scene.acts and not any(map(scene.has, "PXUF"))


def is_time(word: Word, scene: BlockScene) -> bool:
    """True if a word is the time of a dwell, or F as one where the block has no other."""
    times = [w for w in scene.block.words if w.address in "PXU" or scene.gap(w, "dwell") is not None]
    return Act.DWELL in scene.acts and (word in times or (word.address == "F" and not times))


def _dwell(word: Word, scene: BlockScene) -> str:
    """What the time of a dwell asks for, empty for a word that is none."""
    gap = scene.gap(word, "dwell")
    if gap is not None and (gap.field == "ms" or scene.dialect.figure(word.address).point != "needed"):
        figure = scene.dialect.figure(word.address)
        value = word.value / 1000 if gap.field == "ms" else float(figure.read(word.text, scene.increments.units))
        return f"for {abs(value):g} s"
    if gap is not None or is_time(word, scene):
        return f"for {abs(word.value) / (1 if word.pointed else 1000):g} s"
    return ""


def tool(word: Word, scene: BlockScene) -> str:
    """What a tool word asks for; station and offset may stand in words of their own."""
    form = scene.dialect.tool
    if not form.joined:
        if scene.among(word, [form.station]) is not None:
            return f"turret to station {word.text}"
        return f"with offset {word.text}" if word.whole else "its offset cancelled"
    numbers = tool_numbers(word.text)
    if numbers is None:
        return "not known"
    station, offset = numbers
    return f"turret to station {station}, {f'with offset {offset}' if offset else 'its offset cancelled'}"


def speed(word: Word, scene: BlockScene) -> str:
    """What an S word asks for."""
    if Act.CLAMP_OR_ZERO in scene.acts:
        return f"never faster than {word.text} rev/min"
    if scene.surface:
        per_minute = {"mm": " m/min", "in": " ft/min"}.get(scene.unit, ", m/min or ft/min")
        return f"cutting speed of {word.text}{per_minute}"
    return f"{word.text} rev/min"


def feed(word: Word, scene: BlockScene) -> str:
    """What an F word asks for."""
    plain = word.pointed or scene.per_minute
    value = float(word.text) if plain else scene.increments.feed_length(int(word.text))
    return scene.rate(value)


def _length(word: Word, scene: BlockScene) -> str | None:
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
    if scene.arc and (gap := scene.gap(word, "arc")) is not None and gap.field in ("centre_x", "centre_z"):
        return f"centre at {_place(gap.field == 'centre_x', count, scene)}"
    if word.address in "IK":
        return f"centre {scene.length(count)} from the start along {'X (radius)' if word.address == 'I' else 'Z'}"
    return None


def _along(word: Word, scene: BlockScene, form: CycleForm) -> str | None:
    """What a word of the cycle along Z asks for, where it isn't a place."""
    amount = scene.length(abs(scene.counts(word)))
    if word.address == form.shift:
        return f"{amount} deeper each peck, along Z"
    if word.address == form.peck:
        return f"{amount} from plunge to plunge, measured on the radius"
    if word.address == form.retract and not (scene.has("Z") or scene.has("W")):
        return f"back off {amount} after each peck"
    return None


def _place(across: bool, count: int, scene: BlockScene) -> str:
    """A place on one axis, from its word's counts."""
    return f"diameter {scene.length(count if scene.diameter_x else 2 * count)}" if across else scene.place("Z", count)


AMOUNTS: Mapping[str, str] = PHRASES["amounts"]
"""What the fields of a cycle ask for that are no places."""


def _own_amount(word: Word, scene: BlockScene, form: CycleForm) -> str | None:
    """What a word of the cycle in the dialect's own form asks for."""
    call = form.call.gaps.values()
    gap = scene.among(word, call if scene.call is not None else form.gaps.values())
    gap = gap or scene.among(word, form.gaps.values())
    if gap is None:
        return None
    if gap.field in ("floor", "end", "start_x", "start_z"):
        count = scene.counts(word, gap.whole)
        place = _place(gap.field in ("floor", "start_x"), count, scene)
        return {"floor": "floor at ", "end": "last plunge at "}.get(gap.field, "begins at ") + place
    if gap.field not in AMOUNTS:
        return None
    count = abs(scene.counts(word, gap.whole))
    if gap.field == "relief" and not count:
        return "no step aside at the floor"
    radial = scene.length(count // 2 if gap.measure == "diameter" else count)
    return AMOUNTS[gap.field].format(radial=radial, length=scene.length(count), text=word.text)


def _in_cycle(word: Word, scene: BlockScene, form: CycleForm) -> str | None:
    """What a word of the grooving cycle asks for."""
    call = scene.call
    before = word.address == form.retract and "retract" not in form.call.gaps
    if before and not (scene.has("X") or scene.has("U")):
        return f"back off {scene.length(scene.counts(word))} after each peck, measured on the radius"
    if call is None or word.address not in ("X", "U", "Z", "W", form.peck, form.shift):
        return _own_amount(word, scene, form)
    place = {"X": "floor", "Z": "end"}.get(word.address, "")
    if place and form.address(place) != word.address:
        return _own_amount(word, scene, form)
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
