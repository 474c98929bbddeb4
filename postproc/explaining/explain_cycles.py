"""What the words of turning, drilling and threading cycles mean, and one clause for each such block."""

from collections.abc import Iterator, Mapping

from postproc.explaining.scene import ACTS, BlockScene, axis_way
from postproc.reading.words import Word
from postproc.vocabulary.acts import CONTOURS, FOREIGN_ACTS, Act

CONTOUR_WORDS: Mapping[str, str] = {
    "P": "the contour begins at block N{text}",
    "Q": "the contour ends at block N{text}",
    "U": "{amount} left on the diameter",
    "W": "{amount} left along Z",
    "D": "{amount} deep each pass",
    "R": "back off {amount} after each pass",
}
SET_UP: Mapping[Act, Mapping[str, str]] = {
    Act.ROUGHING: {"U": "{amount} deep each pass, measured on the radius", "R": "back off {amount} after each pass"},
    Act.ROUGHING_ACROSS: {"W": "{amount} deep each pass, along Z", "R": "back off {amount} after each pass"},
    Act.ROUGHING_BESIDE: {
        "U": "begin {amount} off, measured on the radius",
        "W": "begin {amount} off along Z",
        "R": "{text} times along the contour",
    },
    Act.WHOLE_THREAD: {
        "P": "passes at full depth, run-out and angle of the thread, in two digits each: {text}",
        "Q": "no pass shallower than {amount}",
        "R": "{amount} for the last passes",
    },
}
BOX = {"R": "a taper of {amount} on the radius", "I": "a taper of {amount} on the radius", "K": "a slope of {amount}"}
IN_CYCLE: Mapping[Act, Mapping[str, str]] = {
    Act.TURNING: BOX,
    Act.FACING: BOX | {"R": "a slope of {amount} along Z"},
    Act.THREADING: BOX | {"F": "a lead of {length}"},
    Act.THREAD: {"F": "a lead of {length}", "K": "a lead of {length}", "I": "a lead of {length}"},
    Act.WHOLE_THREAD: {
        "P": "a thread {amount} high, measured on the radius",
        "K": "a thread {amount} high, measured on the radius",
        "Q": "the first pass {amount} deep",
        "D": "the first pass {amount} deep",
        "R": "a taper of {amount} on the radius",
        "I": "a taper of {amount} on the radius",
        "A": "an angle of {text} degrees",
        "F": "a lead of {length}",
    },
    Act.DRILLING: {
        "Q": "pecks of {amount}",
        "K": "pecks of {amount}",
        "P": "a dwell of {text} ms",
        "R": "from {amount}",
    },
}


def cycle_act(scene: BlockScene) -> Act | None:
    """The turning, drilling or threading cycle that a block calls or goes on with, None for none."""
    named = next((act for act in scene.acts if isinstance(act, Act) and act in FOREIGN_ACTS), None)
    return named or (scene.lasting if any(map(scene.has, "XZUW")) and scene.goes_on else None)


def in_cycle(word: Word, scene: BlockScene) -> str | None:
    """What a word asks for in a block of such a cycle, None where it means what it always means."""
    act = cycle_act(scene)
    if act is None:
        return None
    if act in CONTOURS.values():
        words = CONTOUR_WORDS if scene.has("P") and scene.has("Q") else SET_UP.get(act, {})
    elif act is Act.WHOLE_THREAD and not any(map(scene.has, "XZ")):
        words = SET_UP[act]
    else:
        words = IN_CYCLE.get(act, {})
    form, count = words.get(word.address), scene.counts(word)
    if form is None:
        moves = word.address in "XZUW" and act not in CONTOURS.values()
        return axis_way(word.address, count, scene) if moves else None
    return form.format(text=word.text, amount=scene.length(abs(count)), length=scene.length(count))


def cycle_clauses(scene: BlockScene) -> Iterator[str]:
    """The clauses of such a block: the cycle, then its own words."""
    act = cycle_act(scene)
    if act is None:
        return
    if act not in scene.acts:
        yield f"once more: {ACTS[act]}"
    for word in scene.block.words:
        if (said := in_cycle(word, scene)) is not None:
            yield f"{scene.text(word)}: {said}"
