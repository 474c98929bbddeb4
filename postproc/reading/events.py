"""The words of a block as events: what its G and M words and its signs ask for, and what is odd about them together."""

from collections.abc import Sequence
from itertools import islice

from postproc.codes import ProgramCode
from postproc.reading.control import Event, Mode, Sign
from postproc.reading.lathe import Lathe
from postproc.reading.meanings import EXTENDED_OFFSET, Meanings
from postproc.reading.renaming import Renaming
from postproc.reading.table import ORDER
from postproc.reading.words import Word
from postproc.vocabulary.acts import CALLS_WITH_VALUES, EXCLUSIVE, FOREIGN_ACTS, MOTIONS, Act, Switch

_SIGNS = {"F": Sign.FEED, "S": Sign.SPEED, "T": Sign.TOOL}
_ONE_SHOT = frozenset({*MOTIONS, *FOREIGN_ACTS, Act.FACE, Act.GROOVE})
_OWN_AXES = frozenset({Act.HOME, Act.MACHINE_PLACE, Act.DWELL, Act.CLAMP_OR_ZERO})
"""Acts that take the axis words of their block for themselves."""
_UNITS = frozenset({Act.INCH, Act.METRIC})
_ARCS = frozenset({Mode.CLOCKWISE, Mode.COUNTER})


class Events:
    """Finds the events of one block after another; the words that are no G or M go to `words`."""

    def __init__(self, meanings: Meanings, lathe: Lathe) -> None:
        """Look at blocks of one run; the state is only looked at, to know what a bare place would do."""
        self._lathe, self._meanings = lathe, meanings
        self._dialect, self._words, self._log = lathe.dialect, lathe.words, lathe.log
        dialect = lathe.dialect
        self.renaming = Renaming(dialect)
        self._gears = [number for number, switch in dialect.m_words.items() if switch is Switch.GEAR]
        self._offsets = [number for number, act in dialect.g_words.items() if act is Act.WORK_OFFSET]
        self.after_cycle = False
        self._own: set[int | None] = set()
        self._units_said = False

    def of(self, words: Sequence[Word]) -> Sequence[Event]:
        """The events of a block, each once and in the order in which they take effect.

        No move is made if one of its words is unknown.
        """
        return sorted(self._found(words), key=ORDER.__getitem__)

    def _found(self, words: Sequence[Word]) -> list[Event]:
        """The events of a block, each once."""
        for word in words:
            if word.address == "G" and (act := self._meanings.of(word, words)) in CALLS_WITH_VALUES:
                self._called(word, words)
                return [act]
        words, asked = self.renaming(words)
        found = [self._event(word, words) for word in words if word.address in "GM"]
        events = [*asked, *(event for events in found for event in events)]
        unknown = any(not events for events in found)
        self._words.fill([word for word in words if word.address not in "GM"])
        self._keep_aside(words, events)
        events.extend(sign for address, sign in _SIGNS.items() if self._takes(address, events))
        if not self._dialect.tool.joined and self._words.has(self._dialect.tool.offset.address):
            events.append(Sign.TOOL)
        if unknown:
            self._words.drop()
            return [event for event in dict.fromkeys(events) if event not in _ONE_SHOT]
        if self._words.has_axes and _ONE_SHOT.isdisjoint(events):
            events.append(self._bare(events))
        events = [self._standing(event) for event in events]
        self.after_cycle = Act.GROOVE in events
        self._units_said = self._units_said or not _UNITS.isdisjoint(events)
        self._one_of_a_group(events)
        return list(dict.fromkeys(events))

    def _called(self, call: Word, words: Sequence[Word]) -> None:
        """Take up the values of a call, which stand behind its word."""
        if before := [word for word in words if word.column < call.column]:
            message = (
                f"{before[0]} stands before {call}, where some controls take it for a value of the call and others "
                "carry it out; write it in a block of its own."
            )
            self._log.stop(ProgramCode.UNKNOWN_WORD, message)
        self._words.fill([word for word in words if word not in (call, *before)])

    def _standing(self, event: Event) -> Event:
        """The event of a grooving cycle that stands where the dialect's does, else the event as it is."""
        form = self._dialect.cycle
        if event is not Act.GROOVE or form is None or not form.ended_by:
            return event
        return event if form.setting(self._words.addresses, self._dialect.axes) else Sign.GROOVE_STANDS

    def _event(self, word: Word, block: Sequence[Word]) -> tuple[Event, ...]:
        """The events of a G or M word, none where nothing known is meant."""
        event = self._meanings.of(word, block)
        if event is None:
            self._log.stop(ProgramCode.UNKNOWN_WORD, self._meanings.refusal(word))
            return ()
        if event is Switch.OWN:
            self._words.own_switch = self._dialect.own_switches.get(word.whole or 0, "")
            self._tell_own(word)
        form = self._dialect.cycle
        if form is not None and form.ended_by and event is Act.IDLE and _same(word, form.ended_by):
            return (Sign.CYCLE_ENDS,)
        if self._meanings.strange(word, block):
            self._tell_stranger(word)
            return Sign.STRANGER, event
        return (event,)

    def _keep_aside(self, words: Sequence[Word], events: Sequence[Event]) -> None:
        """Take the words that belong to a G or M word and would mean something else without it."""
        if Switch.ORIENT in events:
            self._words.take("S")
        if Switch.GEAR in events:
            gears = self._gears
            self._words.gear = next(gears.index(w.whole) + 1 for w in words if w.address == "M" and w.whole in gears)
        if Act.WORK_OFFSET not in events:
            return
        self._words.offset = self._offset(words)
        extended = next((word for word in words if word.address == "G" and word.text == EXTENDED_OFFSET), None)
        if extended is not None and self._words.take("P") is None:
            self._log.stop(
                ProgramCode.UNKNOWN_WORD, f"{extended} at column {extended.column} names no offset; give it with P."
            )

    def _offset(self, words: Sequence[Word]) -> int:
        """Which of the dialect's work offsets a block names, by their order; those by P come after them."""
        known = self._offsets
        by_word = [known.index(w.whole) + 1 for w in words if w.address == "G" and w.whole in known]
        more = [len(known) + (w.whole or 0) for w in words if w.address == "P"]
        return (by_word or more or [1])[0]

    def _takes(self, address: str, events: Sequence[Event]) -> bool:
        """True if a word with this address is there and is no time of a dwell."""
        if not self._words.has(address):
            return False
        if Act.DWELL not in events or any(map(self._words.has, "PXU")):
            return True
        return address == "T" or (address == "S" and self._words.has("F"))

    def _bare(self, events: Sequence[Event]) -> Event:
        """What a place asks for in a block with no motion word."""
        if not _OWN_AXES.isdisjoint(events):
            return Sign.PLACE
        if Switch.CALL not in events and self._lacks_cycle():
            self._log.stop(
                ProgramCode.CYCLE_WORD_MISSING,
                f"{self._dialect.g(Act.GROOVE)} is missing in this block, whose words are those of the grooving cycle; "
                "put it first. The block was read as if it stood there.",
            )
            return Act.GROOVE
        again = self._units_said and not _UNITS.isdisjoint(events) and self._lathe.control.mode is Mode.FEED
        if self.after_cycle or again:
            moves = f"{self._dialect.written(Act.RAPID)} or {self._dialect.written(Act.FEED)}"
            message = (
                f"This place has no motion word and {'says the units again' if again else 'follows the cycle'}, and "
                f"was taken as a move {self._lathe.control.mode}; give it {moves}."
            )
            self._log.caution(ProgramCode.BARE_PLACE, message)
        return Sign.PLACE

    def _lacks_cycle(self) -> bool:
        """True if a block has the floor and the amounts of the grooving cycle, which nothing else could take."""
        form = self._dialect.cycle
        if form is None or "g" not in form.call.gaps or not self._words.says("X"):
            return False
        arc = self._lathe.control.mode in _ARCS and not {form.peck, form.shift}.isdisjoint("IK")
        return not arc and (self._words.has(form.peck) or self._words.has(form.shift))

    def _tell_stranger(self, word: Word) -> None:
        """A word of the other code system beside our own."""
        message = (
            f"{word} at column {word.column} is of another code system than the rest; see that the control takes it."
        )
        self._log.caution(ProgramCode.CODE_SYSTEMS_MIXED, message)

    def _tell_own(self, word: Word) -> None:
        """A switch of the machine's own, said once for each number."""
        if word.whole not in self._own:
            self._own.add(word.whole)
            does = self._words.own_switch
            message = (
                f"{word} at column {word.column} is this machine's own{does and f' ({does})'} and was not checked; "
                "look up in the machine's manual what it does."
            )
            self._log.caution(ProgramCode.OWN_SWITCH, message)

    def _one_of_a_group(self, events: Sequence[Event]) -> None:
        """Stop where two acts of one block exclude each other."""
        clashes = (found for group in EXCLUSIVE if len(found := [e for e in dict.fromkeys(events) if e in group]) > 1)
        for first, second, *_ in islice(clashes, 1):
            message = f"The block calls for {first} and {second} at once; keep one of them."
            self._log.stop(ProgramCode.TWO_OF_A_GROUP, message)


def _same(word: Word, text: str) -> bool:
    """True if a word is the one of a text, however many zeros it has."""
    return word.address == text[0] and word.whole == int(text[1:])
