"""What the words of turning, drilling and threading cycles mean, and one clause for each such block."""

from collections.abc import Iterator, Mapping

from postproc.explaining.scene import ACTS, PHRASES, BlockScene, axis_way
from postproc.reading.words import Word
from postproc.vocabulary.acts import CONTOURS, FOREIGN_ACTS, Act

CONTOUR_WORDS: Mapping[str, str] = PHRASES["contour"]
SET_UP: Mapping[Act, Mapping[str, str]] = {Act[name.upper()]: words for name, words in PHRASES["set_up"].items()}
"""The words of the blocks that only set what a cycle then uses."""
IN_CYCLE: Mapping[Act, Mapping[str, str]] = {Act[name.upper()]: words for name, words in PHRASES["in_cycle"].items()}
"""The words of the blocks that call a cycle or go on with it."""


def cycle_act(scene: BlockScene) -> Act | None:
    """The turning, drilling or threading cycle that a block calls or goes on with, None for none."""
    named = next((act for act in scene.acts if isinstance(act, Act) and act in FOREIGN_ACTS), None)
    if named or scene.lasting is None:
        return named
    return scene.lasting if any(map(scene.has, "XZUW")) and scene.goes_on else None


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
