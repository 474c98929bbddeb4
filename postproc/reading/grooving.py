"""Reading a call of the grooving cycle: which words it has, what they are worth, and what is wrong with them."""

from planner.steps import GrooveCycle
from postproc.codes import ProgramCode
from postproc.reading.control import Control
from postproc.reading.log import Log
from postproc.reading.run import CycleCall
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import CycleWords
from postproc.vocabulary.cycle import face_moves, groove_moves, places

MOST_GROOVES = 1_000_000
"""In one call; no bar is long enough for more."""
LONGEST = 1_000_000
"""Counts of the longest way that a peck or a shift may divide where the call says none."""
LEAST_MEANT = 100
"""Counts below which nobody means a peck or a shift (common practice)."""


def is_retract_block(words: BlockWords, form: CycleWords) -> bool:
    """True for the first of two blocks: it has the retract and neither places nor amounts."""
    others = (*"XZUW", form.peck, form.shift)
    return form.retract is not None and words.has(form.retract) and not any(words.has(a) for a in others)


def read_call(words: BlockWords, form: CycleWords, control: Control, log: Log) -> CycleCall | None:
    """The call that a block makes, or None (with a stop) if it says too little to be one."""
    if not (words.has("X") or words.has("U")):
        log.stop(ProgramCode.CYCLE_WORD_MISSING, "The grooving cycle has no X, the diameter of the floor; give it.")
        words.drop()
        return None
    if not (control.x_known and control.z_known):
        log.stop(
            ProgramCode.CYCLE_START_UNKNOWN,
            "The grooving cycle begins before any block has said X and Z of its start; put a G00 block before it.",
        )
    floor_x, end_z = words.target(control)
    peck, shift = words.take(form.peck), words.take(form.shift)
    relief = words.amount(words.take(form.relief) if form.relief else None)
    call = CycleCall(
        log.line,
        control.station,
        control.offset,
        control.x,
        control.z,
        floor_x,
        end_z,
        _unsigned(peck, form, words, log, abs(control.x - floor_x) // 2),
        _unsigned(shift, form, words, log, abs(end_z - control.z)),
        control.retract if form.retract else None,
        abs(relief or 0),
        control.feed,
        str(peck or ""),
        control.x_known,
        control.z_known,
    )
    _weigh(call, form, log)
    if control.z_known and call.shift and abs(call.end_z - call.start_z) // call.shift > MOST_GROOVES:
        message = f"The grooving cycle would cut more than {MOST_GROOVES} grooves; check {form.shift} and Z."
        log.stop(ProgramCode.RUNAWAY, message)
        return None
    return call


def _unsigned(word: Word | None, form: CycleWords, words: BlockWords, log: Log, reach: int) -> int | None:
    """The count of a peck or a shift, which has no sign, and a point only where the dialect writes decimals.

    `reach` is the whole way in counts that pecks or shifts divide, 0 where there is none.
    """
    if word is None:
        return None
    count = words.amount(word, whole=form.whole) or 0
    if form.whole and word.pointed:
        message = (
            f"{word} has a decimal point, and {word.address} is a whole number of the least increment here; "
            f"write {word.address}{_meant(word, abs(count), reach or LONGEST)} if that is meant."
        )
        log.stop(ProgramCode.POINT_IN_WHOLE_WORD, message)
    if word.text.startswith("-"):
        log.stop(ProgramCode.SIGNED_AMOUNT, f"{word} has a sign; the cycle takes {word.address} without one.")
    return abs(count)


def _meant(word: Word, count: int, reach: int) -> int:
    """The whole number that a word with a point most likely stands for: the one of the two that fits into the way.

    A point behind the right number is typed as often as a length in place of a count (common practice).
    """
    bare = abs(round(word.value))
    return bare if count > reach and bare == abs(word.value) and LEAST_MEANT <= bare <= reach else count


def _weigh(call: CycleCall, form: CycleWords, log: Log) -> None:
    """Stops and cautions about a call as it stands, whatever it cuts."""
    if call.start_x == call.floor_x:
        log.stop(
            ProgramCode.CYCLE_WITHOUT_MOTION,
            "The grooving cycle begins at the diameter of its floor and cuts nothing; start above the land.",
        )
    if call.end_z != call.start_z and not call.shift:
        message = (
            f"The grooving cycle goes along Z with no {form.shift}, which is the distance between grooves; give it."
        )
        log.stop(ProgramCode.CYCLE_WORD_MISSING, message)
    if call.peck is None:
        message = (
            f"The grooving cycle has no {form.peck}, the depth of a peck, and was taken straight to the floor; give it."
        )
        log.caution(ProgramCode.PECK_NOT_SAID, message)
    if form.retract and call.retract is None:
        message = (
            f"No {form.retract} block before this cycle sets the retract, so the control takes what it has; give it."
        )
        log.caution(ProgramCode.RETRACT_NOT_SAID, message)


def run_face(words: BlockWords, form: CycleWords, control: Control, log: Log) -> None:
    """The cycle along the axis: pecks in Z by the word that shifts across the other way round, over diameters in X."""
    if not (words.has("Z") or words.has("W")):
        log.stop(ProgramCode.CYCLE_WORD_MISSING, "The cycle along Z has no Z, where its floor lies; give it.")
        words.drop()
        return
    if not (control.x_known and control.z_known):
        log.stop(
            ProgramCode.CYCLE_START_UNKNOWN,
            "The cycle along Z begins before any block has said X and Z of its start; put a G00 block before it.",
        )
        words.drop()
        return
    start = control.x, control.z
    end_x, floor_z = words.target(control)
    shift = _unsigned(words.take(form.peck), form, words, log, abs(end_x - control.x) // 2)
    peck = _unsigned(words.take(form.shift), form, words, log, abs(floor_z - control.z))
    if words.amount(words.take(form.relief) if form.relief else None):
        log.stop(
            ProgramCode.RELIEF_AT_FLOOR,
            "The cycle along Z steps aside at the floor, in solid metal; leave the relief out.",
        )
    if end_x != control.x and not shift:
        message = f"The cycle along Z goes across with no {form.peck}, the way from plunge to plunge; give it."
        log.stop(ProgramCode.CYCLE_WORD_MISSING, message)
    at = places(control.x, end_x, 2 * shift if shift else None)
    if len(at) > MOST_GROOVES // 100:
        log.stop(ProgramCode.RUNAWAY, f"The cycle along Z would plunge {len(at)} times; check {form.peck} and X.")
        return
    for kind, x, z in face_moves(start, at, floor_z, peck or 0, control.retract or 0):
        log.move(control, kind, control.x if x is None else x, control.z if z is None else z)


def run_call(call: CycleCall, control: Control, log: Log) -> None:
    """Make the moves of a call and note its step."""
    number = len(log.cycles)
    log.cycles.append(call)
    several = call.end_z != call.start_z
    shift = (call.shift or 0) if several else 0
    step = GrooveCycle(call.floor_x, call.end_z, call.peck or 0, shift, call.retract or 0, call.feed or 0)
    log.step(step)
    if call.start_x == call.floor_x and not several:
        return
    start, at, peck = (call.start_x, call.start_z), call.places, call.peck or 0
    if not (call.x_known and call.z_known):
        # How many pecks and grooves lie on the way from nowhere would be a number of our own making.
        at, peck = at if call.z_known else (call.end_z,), 0
    moves = groove_moves(start, at, call.floor_x, peck, call.retract or 0, call.relief)
    for kind, x, z in moves:
        log.move(control, kind, control.x if x is None else x, control.z if z is None else z, number)
        control.x_known = control.z_known = True
    # It ends where it began, and that is no better known than before.
    control.x_known, control.z_known = call.x_known, call.z_known
