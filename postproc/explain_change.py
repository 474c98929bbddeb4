"""What to change in a program to have one groove more: the smallest change of the text, worked out for each row."""

from collections.abc import Iterator

from postproc.acts import CycleWords, Switch
from postproc.explain_words import Scene
from postproc.run import CycleCall

CHECK = "check first that the place is on the part and clear of the jaws"


def one_more(scenes: tuple[Scene, ...]) -> tuple[str, ...]:
    """A sentence for each block that rules how many grooves there are.

    Where every groove is written out, one sentence says so.
    """
    found = tuple(sentence for scene in scenes for sentence in _for_block(scene))
    if found or not any(motion.kind == "feed" for scene in scenes for motion in scene.motions):
        return found
    return (f"For one groove more, write the blocks of one groove again with its own Z ({CHECK}).",)


def _for_block(scene: Scene) -> Iterator[str]:
    """The change in one block, if it rules a number of grooves."""
    line = scene.block.line
    if scene.call is not None and scene.form is not None:
        yield f"Line {line}: {_cycle(scene, scene.call, scene.form)} ({CHECK})."
    elif Switch.CALL in scene.acts:
        repeats = next((word for word in scene.block.words if word.address == "L"), None)
        if repeats is not None and repeats.whole and repeats.whole > 1:
            yield (
                f"Line {line}: if each run of the subprogram cuts one groove, for one more change {repeats} to "
                f"L{repeats.whole + 1}; nothing else changes ({CHECK})."
            )


def _cycle(scene: Scene, call: CycleCall, form: CycleWords) -> str:
    """The change of one call of the cycle."""
    if not call.shift or call.end_z == call.start_z:
        shift = f"{form.shift} with the distance between the grooves"
        if form.whole:
            shift += " in least increments, without a point"
        return f"for a second groove add Z with the place of that groove and {shift}"
    away = call.shift if call.end_z > call.start_z else -call.shift
    old = next((word for word in scene.block.words if word.address in "ZW"), None)
    if old is None:
        return "for one groove more give another end in Z"
    last = call.places[-1] if not call.left_over else call.places[-2]
    end = last + away
    new = scene.place("Z", end) if old.address == "Z" else scene.place("W", end - call.start_z)
    number = len(call.places)
    if call.left_over:
        return (
            f"the end {old} is no whole number of shifts from the start, so the last of the {number} grooves comes "
            f"early; {new} would put it a whole shift after the one before"
        )
    return f"for {number + 1} grooves instead of {number} change {old} to {new}; nothing else changes"
