"""Reading a call of the grooving cycle: which words it has, what they are worth, and what is wrong with them."""

from collections.abc import Mapping

from planner.steps import GrooveCycle, Rapid
from postproc.codes import ProgramCode
from postproc.reading.lathe import Lathe
from postproc.reading.log import Log
from postproc.reading.run import CycleCall
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act
from postproc.vocabulary.cycle import face_moves, groove_moves, places
from postproc.vocabulary.forms import CycleForm
from postproc.vocabulary.pattern import Pattern

MOST_GROOVES = 1_000_000
"""In one call; no bar is long enough for more."""
LONGEST_WAY = 1_000_000
"""Counts of the longest way that a peck or a shift may divide where the call says none."""
MOST_PLUNGES = 10_000
"""Of one cycle along the axis; no face is broad enough for more."""
LEAST_MEANT = 100
"""Counts below which nobody means a peck or a shift (common practice)."""


def read_settings(lathe: Lathe, block: Pattern) -> Mapping[str, Word]:
    """The words of a block that only sets values for the calls after it; the values are in force from here."""
    said = {}
    for name, gap in block.gaps.items():
        word = lathe.words.take(gap.address) if name != "g" else None
        if word is not None:
            said[name] = word
            lathe.control.cycles.settings[name] = word
    return said


def read_call(lathe: Lathe, form: CycleForm) -> CycleCall | None:
    """The call that a block makes, or None (with a stop) if it says too little to be one."""
    return _Call(lathe, form).read()


class _Call:
    """One call: its words, or those that blocks before it set."""

    def __init__(self, lathe: Lathe, form: CycleForm) -> None:
        """Look at a block."""
        self.lathe, self.form = lathe, form
        self.words, self.control, self.log = lathe.words, lathe.control, lathe.log
        self.start = lathe.control.place.x, lathe.control.place.z

    def word(self, name: str) -> Word | None:
        """The word of a field, None where nothing gives it."""
        gap = self.form.gaps.get(name)
        if gap is None:
            return None
        return self.words.take(gap.address) if name in self.form.call.gaps else self.control.cycles.settings.get(name)

    def said(self, name: str) -> bool:
        """True if a word gives a field, or its axis by increment."""
        gap = self.form.gaps.get(name)
        if gap is None:
            return False
        if name not in self.form.call.gaps:
            return name in self.control.cycles.settings
        return self.words.says(gap.address)

    def read(self) -> CycleCall | None:
        """All of it."""
        if not self._has_floor():
            return None
        self._go_to_start()
        self._ask_start()
        call = self._made()
        self._ask_wait()
        _weigh(call, self.form, self.log)
        return None if self._runs_away(call) else call

    def _has_floor(self) -> bool:
        """True if something says how deep it goes; else a stop."""
        if self.said("floor") or self.said("depth"):
            return True
        words = f"The grooving cycle has no {self.form.floor}, the diameter of the floor; give it."
        self.log.stop(ProgramCode.CYCLE_WORD_MISSING, words)
        self.words.drop()
        return False

    def _ask_start(self) -> None:
        """A stop where no block has said where it begins."""
        if not self.control.place.known:
            self.log.stop(
                ProgramCode.CYCLE_START_UNKNOWN,
                "The grooving cycle begins before any block has given X and Z for its start; put a "
                f"{self.words.dialect.written(Act.RAPID)} block before it.",
            )

    def _made(self) -> CycleCall:
        """The call with its numbers worked out."""
        control, words = self.control, self.words
        place = control.place
        floor_x, end_z = words.target(place) if self._axes() == "XZ" else self._places()
        peck, shift = self.word("peck"), self.word("shift")
        relief = words.amount(self.word("relief"))
        shifted = self.unsigned("shift", shift, abs(end_z - place.z))
        if {"count", "more"} & set(self.form.gaps):
            end_z = self._counted_end(shift, shifted or 0)
        return CycleCall(
            line=self.log.line,
            station=control.station,
            offset=control.offset,
            start_x=place.x,
            start_z=place.z,
            floor_x=floor_x,
            end_z=end_z,
            peck=self.unsigned("peck", peck, abs(place.x - floor_x) // 2),
            shift=shifted,
            retract=self.retract(),
            relief=abs(relief or 0),
            feed=control.feed.count,
            peck_text=str(peck or ""),
            x_known=place.x_known,
            z_known=place.z_known,
            stays=self.form.leaves == "last",
        )

    def _ask_wait(self) -> None:
        """A stop where it waits at the floor."""
        wait = self.word("wait")
        if wait is not None and wait.value:
            words = f"{wait} lets the cycle wait at the floor, which is not followed; use a dwell."
            self.log.stop(ProgramCode.DWELL_IN_CYCLE, words)

    def _runs_away(self, call: CycleCall) -> bool:
        """True, and a stop, where it would cut more grooves than any part has."""
        away = bool(call.z_known and call.shift and abs(call.end_z - call.start_z) // call.shift > MOST_GROOVES)
        if away:
            words = f"The grooving cycle would cut more than {MOST_GROOVES} grooves; check {self.form.shift} and Z."
            self.log.stop(ProgramCode.RUNAWAY, words)
        return away

    def retract(self) -> int | None:
        """How far the call backs off, None where nothing says it."""
        if "retract" not in self.form.call.gaps:
            return self.control.cycles.retract if self.form.retract else None
        return abs(self.amount("retract") or 0) if self.said("retract") else None

    def _axes(self) -> str:
        """The addresses of floor and end where both are plain places as the dialect has them."""
        gaps = self.form.gaps
        floor = gaps.get("floor")
        end = gaps.get("end")
        plain = floor is not None and floor.address == "X" and not floor.measure and "floor" in self.form.call.gaps
        if not plain or "length" in gaps or (end is not None and "end" not in self.form.call.gaps):
            return ""
        return "XZ" if end is None or end.address == "Z" else ""

    def _go_to_start(self) -> None:
        """A cycle that says where it begins goes there at rapid."""
        said = {name: self.said(name) for name in ("start_x", "start_z") if name in self.form.gaps}
        if not any(said.values()):
            return
        if left_out := [self.form.gaps[name].address for name, told in said.items() if not told]:
            words = f"The grooving cycle says one place of its start and not the other, {left_out[0]}; give both."
            self.log.stop(ProgramCode.CYCLE_WORD_MISSING, words)
        x, z = self._place("start_x"), self._place("start_z")
        x, z = self.start[0] if x is None else x, self.start[1] if z is None else z
        if (x, z) != self.start or not self.control.place.known:
            self.log.step(Rapid(x, z))
            self.lathe.move("rapid", x, z)
        self.control.place.x_known = self.control.place.z_known = True
        self.start = x, z

    def _places(self) -> tuple[int, int]:
        """Floor and end where they have words of their own."""
        x, z = self.start
        floor = self._place("floor")
        if floor is None:
            gap = self.form.gaps["depth"]
            depth = self.words.amount(self.word("depth"), gap.whole, 1 if gap.measure == "diameter" else 2) or 0
            floor = x + (depth if gap.sign == "signed" else -abs(depth))
        if (end := self._place("end")) is None:
            length = self.amount("length")
            unsigned = length is not None and self.form.gaps["length"].sign == "plus"
            along = -abs(length or 0) if unsigned else length or 0
            end = z + along
        return floor, end

    def _place(self, name: str) -> int | None:
        """A place, on the diameter where it is one of X."""
        gap = self.form.gaps.get(name)
        return None if gap is None else self.words.amount(self.word(name), gap.whole, self.words.times(gap))

    def amount(self, name: str) -> int | None:
        """A length on the radius or along z, with the sign that it has."""
        gap = self.form.gaps.get(name)
        word = self.word(name)
        return None if gap is None else self.words.measured(word, gap)

    def _counted_end(self, word: Word | None, shift: int) -> int:
        """Where a row ends that is said by how many grooves it has."""
        form = self.form
        number = self.word("count") or self.word("more")
        if number is None:
            return self.start[1]
        if number.whole is None or (number.whole == 0 and "count" in form.gaps):
            self.log.stop(ProgramCode.CYCLE_WORD_MISSING, f"{number} is not a number of grooves; write a whole number.")
            return self.start[1]
        shifts = number.whole - (1 if "count" in form.gaps else 0)
        if shifts > 0 and not shift:
            words = f"The grooving cycle has {number} and no {form.shift}, the distance between grooves; give it."
            self.log.stop(ProgramCode.CYCLE_WORD_MISSING, words)
        gap = form.gaps["shift"]
        front = gap.sign == "signed" and word is not None and not word.text.startswith("-")
        return self.start[1] + (shift if front else -shift) * min(shifts, MOST_GROOVES + 1)

    def unsigned(self, name: str, word: Word | None, reach: int) -> int | None:
        """The count of a peck or a shift: no sign but the dialect's, a point only where the dialect writes decimals.

        `reach` is the whole way in counts that pecks or shifts divide, 0 where there is none.
        """
        if word is None:
            return None
        words, gap, log = self.words, self.form.gaps[name], self.log
        count = words.measured(word, gap) or 0
        if gap.whole and word.pointed:
            message = (
                f"{word} has a decimal point, and {word.address} is a whole number of the least increment here; "
                f"write {word.address}{_meant(word, abs(count), reach or LONGEST_WAY)} if that is meant."
            )
            log.stop(ProgramCode.POINT_IN_WHOLE_WORD, message)
        if count < 0 and gap.sign != "signed":
            signed, wanted = ("no sign", "with a minus") if gap.sign == "minus" else ("a sign", "without one")
            log.stop(ProgramCode.SIGNED_AMOUNT, f"{word} has {signed}; the cycle takes {word.address} {wanted}.")
        return abs(count)


def _meant(word: Word, count: int, reach: int) -> int:
    """The whole number that a word with a point most likely stands for: the one of the two that fits into the way.

    A point behind the right number is typed as often as a length in place of a count (common practice).
    """
    bare = abs(round(word.value))
    return bare if count > reach and bare == abs(word.value) and LEAST_MEANT <= bare <= reach else count


def _weigh(call: CycleCall, form: CycleForm, log: Log) -> None:
    """Stops and cautions about a call as it stands, whatever it cuts."""
    if call.start_x == call.floor_x:
        words = "The grooving cycle begins at the diameter of its floor and cuts nothing; start above the land."
        log.stop(ProgramCode.CYCLE_WITHOUT_MOTION, words)
    if call.end_z != call.start_z and not call.shift:
        message = (
            f"The grooving cycle goes along Z with no {form.shift}, which is the distance between grooves; give it."
        )
        log.stop(ProgramCode.CYCLE_WORD_MISSING, message)
    _weigh_pecks(call.peck, call.retract, form.peck, form, log)


def _weigh_pecks(peck: int | None, retract: int | None, address: str, form: CycleForm, log: Log) -> None:
    """Cautions where nothing gives the peck, which stands at `address`, or how far the cycle backs off."""
    if peck is None:
        message = (
            f"The grooving cycle has no {address}, the depth of a peck, and was taken straight to the floor; give it."
        )
        log.caution(ProgramCode.PECK_NOT_SAID, message)
    if form.retract and retract is None:
        message = (
            f"No {form.retract} block before this cycle sets the retract, so the control uses the stored one; give it."
        )
        log.caution(ProgramCode.RETRACT_NOT_SAID, message)


def run_face(lathe: Lathe, form: CycleForm) -> None:
    """The cycle along the axis: its peck in Z is the word that is the shift of the cycle across; it shifts along X."""
    words, place, log = lathe.words, lathe.control.place, lathe.log
    if not words.says("Z"):
        log.stop(ProgramCode.CYCLE_WORD_MISSING, "The cycle along Z has no Z, where its floor lies; give it.")
        words.drop()
        return
    if not place.known:
        log.stop(
            ProgramCode.CYCLE_START_UNKNOWN,
            "The cycle along Z begins before any block has given X and Z for its start; put a "
            f"{words.dialect.written(Act.RAPID)} block before it.",
        )
        words.drop()
        return
    start = place.x, place.z
    end_x, floor_z = words.target(place)
    call = _Call(lathe, form)
    shift = call.unsigned("peck", call.word("peck"), abs(end_x - place.x) // 2)
    peck = call.unsigned("shift", call.word("shift"), abs(floor_z - place.z))
    if words.amount(call.word("relief")):
        sentence = "The cycle along Z steps aside at the floor, in solid metal; leave the relief out."
        log.stop(ProgramCode.RELIEF_AT_FLOOR, sentence)
    if end_x != place.x and not shift:
        message = f"The cycle along Z goes across with no {form.peck}, the way from plunge to plunge; give it."
        log.stop(ProgramCode.CYCLE_WORD_MISSING, message)
    _weigh_pecks(peck, call.retract(), form.shift, form, log)
    if peck and peck < min(LEAST_MEANT, abs(floor_z - place.z)):
        shown = lathe.increments.length(peck)
        sentence = f"The cycle along Z goes only {shown:g} deeper each peck; check the digits of {form.shift}."
        log.stop(ProgramCode.PECK_OUT_BY_TEN, sentence)
    at = places(place.x, end_x, 2 * shift if shift else None)
    if len(at) > MOST_PLUNGES:
        log.stop(ProgramCode.RUNAWAY, f"The cycle along Z would plunge {len(at)} times; check {form.peck} and X.")
        return
    for kind, x, z in face_moves(start, at, floor_z, peck or 0, call.retract() or 0):
        lathe.move_to(kind, x, z)


def run_call(lathe: Lathe, call: CycleCall) -> None:
    """Make the moves of a call and note its step."""
    place, log = lathe.control.place, lathe.log
    number = len(log.cycles)
    log.cycles.append(call)
    several = call.end_z != call.start_z
    shift = (call.shift or 0) if several else 0
    step = GrooveCycle(
        floor_x=call.floor_x,
        end_z=call.end_z,
        peck=call.peck or 0,
        shift=shift,
        retract=call.retract or 0,
        feed=call.feed or 0,
    )
    log.step(step)
    if call.start_x == call.floor_x and not several:
        return
    start, at, peck = (call.start_x, call.start_z), call.places, call.peck or 0
    if not (call.x_known and call.z_known):
        # How many pecks and grooves lie on the way from nowhere would be a number of our own making.
        at, peck = at if call.z_known else (call.end_z,), 0
    retract = lathe.control.cycles.own_retract if call.retract is None else call.retract
    moves = groove_moves(start, at, call.floor_x, peck, retract, call.relief, back=not call.stays)
    lathe.cycle_moves(moves, number)
    # It ends where it began, and that is no better known than before.
    place.x_known, place.z_known = call.x_known, call.z_known
