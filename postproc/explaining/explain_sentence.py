"""One plain sentence about a block, put together from what its words ask for and what it did when it ran."""

from collections.abc import Iterator

from extractor.printable import printable
from postproc.explaining.explain_cycles import cycle_act, cycle_clauses
from postproc.explaining.explain_macros import macro_sentence
from postproc.explaining.explain_words import by_turns, feed, is_time, meaning, speed, tool
from postproc.explaining.scene import ACTS, BlockScene, Scale, axis_place, length_said, remembered
from postproc.motion import Motion
from postproc.reading.run import CycleCall
from postproc.reading.table import ORDER
from postproc.vocabulary.acts import MOTIONS, VARIABLES, Act, Switch

TOLD_BY_WORDS = MOTIONS | {Act.GROOVE, Act.CLAMP_OR_ZERO, Act.DWELL}
"""Acts whose clause is put together from the words of their block."""


def sentence(scene: BlockScene) -> str:
    """One plain sentence about a block."""
    block = scene.block
    move = scene.places_alone and scene.motions and scene.lasting is None
    clauses = [_straight(scene, scene.motions[0], scene.motions[-1])] if move else list(_clauses(scene))
    if Act.MACRO_CALL in scene.acts:
        clauses = [_given(scene)]
    elif Act.MODAL_CALL in scene.acts:
        clauses = [f"after each block that moves from here on, {_given(scene)}"]
    elif block.macro and not block.words:
        clauses = [macro_sentence(block.macro)]
    elif not block.words and not block.comments:
        clauses = ["nothing in this block is run"]
    elif not block.words:
        clauses = ["a remark, not run: " + "; ".join(filter(None, block.comments))]
    whole = "; ".join(clauses or ["no word of this block is understood"]).rstrip(".,:; ")
    whole = f"unless block skip is on, {whole}" if block.skip else whole
    whole = printable(whole)  # a remark may steer a terminal
    return whole[0].upper() + whole[1:] + "."


def _clauses(scene: BlockScene) -> Iterator[str]:
    """What a block does, thing by thing, in the order in which it happens."""
    for word in scene.block.words:
        if word.address == "O" and word is scene.block.words[0]:
            yield f"program {word.text} begins" if word.whole is None else f"program number {word.text} begins"
        elif scene.gap(word, "tool") is not None:
            yield tool(word, scene)
    others = scene.acts - TOLD_BY_WORDS
    for act in sorted(others, key=ORDER.__getitem__) if others else ():
        if isinstance(act, Act):
            over = ", over the place named" if act is Act.HOME and scene.over_a_place else ""
            yield ACTS[act] + (_alone(scene) if act is Act.HOME else "") + over
    yield from _numbers(scene)
    yield from _movement(scene)
    for switch in sorted(others, key=ORDER.__getitem__) if others else ():
        if isinstance(switch, Switch):
            yield scene.switched(switch) if switch is not Switch.CALL else _call(scene)


def _alone(scene: BlockScene) -> str:
    """That only one axis goes to the reference point, where the block names no other."""
    moved = {axis for word in scene.block.words if (axis := scene.dialect.axes.get(word.address))}
    return f" along {moved.pop()} alone" if len(moved) == 1 else ""


def _numbers(scene: BlockScene) -> Iterator[str]:
    """The clauses of S, of F in a block that doesn't move, and of a dwell."""
    for word in scene.block.words:
        if by_turns(word, scene):
            yield "stand still " + meaning(word, scene)
        elif word.address == "S" and Switch.ORIENT not in scene.acts:
            yield f"the spindle turns {speed(word, scene)}" if Act.CLAMP_OR_ZERO in scene.acts else speed(word, scene)
        elif is_time(word, scene):
            yield "stand still " + meaning(word, scene)
        elif word.address == "F" and not scene.motions and cycle_act(scene) is None:
            yield feed(word, scene)


def _call(scene: BlockScene) -> str:
    """The clause of a subprogram call."""
    gaps = {gap.field: word for word in scene.block.words if (gap := scene.gap(word, "call")) is not None}
    words = {"program" if word.address == "P" else word.address: word for word in scene.block.words}
    program = gaps.get("program") or words.get("program")
    often = gaps.get("times") or words.get("L")
    if program is not None and (both := scene.called(program)) is not None:
        return f"subprogram {both[1]} runs" + (f", {both[0]} times" if both[0] > 1 else "")
    times = f", {often.text} times" if often else ""
    return f"subprogram {program.text} runs{times}" if program else "a subprogram runs"


def _given(scene: BlockScene) -> str:
    """The clause of a call with values."""
    values = [meaning(word, scene) for word in scene.block.words if word.address in VARIABLES]
    return ": ".join(filter(None, [_call(scene), ", ".join(values)]))


def _movement(scene: BlockScene) -> Iterator[str]:
    """The clause of the cycle or of the move."""
    if scene.call is not None and scene.form is not None:
        yield _cycle(scene, scene.call)
    elif Act.GROOVE in scene.acts:
        words = [word for word in scene.block.words if scene.form and scene.among(word, scene.form.gaps.values())]
        for word in words:
            yield f"for the grooving cycle that follows: {meaning(word, scene)}"
    elif Act.FACE in scene.acts:
        words = [word for word in scene.block.words if word.address not in "GMNFST"]
        yield from (f"{scene.text(word)}: {meaning(word, scene)}" for word in words)
    elif cycle_act(scene) is not None:
        yield from cycle_clauses(scene)
    elif scene.motions and scene.acts.isdisjoint({Act.HOME, Act.MACHINE_PLACE, Act.FACE}):
        yield _straight(scene, scene.motions[0], scene.motions[-1])
    elif Act.CLAMP_OR_ZERO in scene.acts and not scene.has("S"):
        yield "the control is told where the tool stands"
    elif not scene.motions:
        yield from (f"from here on {ACTS[act]}" for act in (Act.RAPID, Act.FEED) if act in scene.acts)


def _cycle(scene: BlockScene, call: CycleCall) -> str:
    """The clause of a call of the grooving cycle, all its numbers worked out."""
    words = [w for w in scene.block.words if scene.form and w.address in (scene.form.peck, scene.form.shift)]
    amounts = "".join(f"; {scene.text(word)}: {meaning(word, scene)}" for word in words)
    return (
        f"grooving cycle from {_start(scene, call)}: {_plunges(scene, call)}, to {_floor(scene, call)}{amounts}; "
        f"{_rate(scene, call.feed)}; at the end {'above the last plunge' if call.stays else 'back to the start'}"
    )


def _start(scene: BlockScene, call: CycleCall) -> str:
    """Where a call begins, as far as the program has said it."""
    x, z = scene.place("X", call.start_x), scene.place("Z", call.start_z)
    if call.x_known and call.z_known:
        return f"{x} {z}"
    if call.x_known or call.z_known:
        axis, said = ("a Z", x) if call.x_known else ("an X", z)
        return f"{said} and {axis} that no block has said"
    return "a place that no block has said"


def _plunges(scene: BlockScene, call: CycleCall) -> str:
    """How many plunges a call makes and where."""
    if not call.z_known:
        if call.start_z == call.end_z:
            return "1 plunge there"
        return "plunges from there " + ("on" if _relative("Z", scene) else f"to {scene.place('Z', call.end_z)}")
    at = ", ".join(scene.place("Z", z) for z in call.places[:12]) + (" and on" if len(call.places) > 12 else "")
    return f"{len(call.places)} plunge{'s' if len(call.places) > 1 else ''} at {at}"


def _floor(scene: BlockScene, call: CycleCall) -> str:
    """The floor of a call."""
    if not call.x_known and _relative("X", scene):
        return f"a floor {scene.length(abs(call.start_x - call.floor_x) // 2)} further in"
    return f"a floor of diameter {scene.length(call.floor_x)}"


def _relative(axis: str, scene: BlockScene) -> bool:
    """True if the block gives an axis as a distance from where the tool is."""
    return scene.incremental or not scene.has(axis)


def _rate(scene: BlockScene, count: int | None) -> str:
    """A feed in words."""
    if not count:
        return "with no feed"
    return scene.rate(scene.increments.feed_length(count))


def _straight(scene: BlockScene, first: Motion, last: Motion) -> str:
    """The clause of a straight move or an arc."""
    ends = []
    if last.x1 != first.x0 or scene.has("X") or scene.has("U"):
        ends.append(_end("X", first.x0, last.x1, first.x0_known, scene))
    if last.z1 != first.z0 or scene.has("Z") or scene.has("W"):
        ends.append(_end("Z", first.z0, last.z1, first.z0_known, scene))
    to = " and ".join(ends)
    if last.kind == "rapid":
        return f"at rapid {to}"
    known = first.x0_known and first.z0_known
    way = _bend(scene) if scene.arc else _way(last.x1 - first.x0, last.z1 - first.z0, scene.scale) if known else ""
    return f"{'at ' if last.feed else ''}{_rate(scene, last.feed)} {to}{way}{'' if scene.arc else _corner(scene)}"


def _corner(scene: BlockScene) -> str:
    """The clause of a corner that the control puts between this cut and the next."""
    kinds = {"R": "rounding", "C": "chamfer", "I": "chamfer", "K": "chamfer"}
    words = [word for word in scene.block.words if word.address.lstrip(",") in kinds]
    said = (f"; {scene.text(word)} puts a {kinds[word.address[-1]]} there, before the next cut" for word in words[:1])
    return "".join(said)


def _end(axis: str, start: int, end: int, known: bool, scene: BlockScene) -> str:
    """Where a move ends along one axis; from where no block has said, how far it goes."""
    if known or not _relative(axis, scene):
        return axis_place(axis, end, scene.scale)
    if axis == "X":
        way = "outward" if end > start else "inward"
        return f"{scene.length(abs(end - start) // 2)} {way}, measured on the radius, from an X that no block has said"
    way = "away from" if end > start else "toward"
    return f"{scene.length(abs(end - start))} {way} the chuck from a Z that no block has said"


def _bend(scene: BlockScene) -> str:
    """How an arc turns, and its radius or its centre as the block gives it."""
    turning = "clockwise" if scene.arc is Act.ARC_CLOCKWISE else "counter-clockwise"
    shape = "; ".join(meaning(word, scene) for word in scene.block.words if word.address in "RIK")
    return f" on an arc, {turning} seen with X up and Z to the right{f': {shape}' if shape else ''}"


@remembered
def _way(across: int, along: int, scale: Scale) -> str:
    """How far a cut goes, on the radius and along the axis."""
    parts = []
    if across:
        way = "outward" if across > 0 else "inward"
        parts.append(f"{length_said(abs(across) // 2, scale)} {way}, measured on the radius")
    if along:
        parts.append(f"{length_said(abs(along), scale)} {'away from' if along > 0 else 'toward'} the chuck")
    return f": {' and '.join(parts)}" if parts else ", where the tool is already"
