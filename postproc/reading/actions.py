"""The actions of the control, one method for each name in `control.TABLE`; each takes its words from the block.

An action changes what is in force or makes moves; it never asks in which state it was called.
"""

from collections.abc import Callable
from dataclasses import replace

from extractor.part import Units
from planner.increment import Increments
from planner.shop import WholeNumbers
from planner.steps import Coolant, Cut, FeedMode, Halt, Home, OwnSwitch, Rapid, Standing, ToolCall, WorkOffset
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.arcing import run_arc
from postproc.reading.control import Control, Event
from postproc.reading.dwelling import Dwells
from postproc.reading.foreign import ForeignCycles
from postproc.reading.grooving import read_call, read_settings, run_call, run_face
from postproc.reading.log import Log
from postproc.reading.roughing import Roughing
from postproc.reading.run import ZeroSetting
from postproc.reading.spindle import SpindleActions
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.numbers import UNIT_NAMES, tool_numbers
from postproc.vocabulary.pattern import Gap, Pattern

SMALL_RETRACT = 50
"""Retracts below this many increments, with no point, were hardly meant (common practice)."""

MOST_TOOL = 99
"""Greatest number of a station or an offset: two digits, as the trade's tool word has them."""


class Actions(ForeignCycles, Roughing, SpindleActions, Dwells):
    """Everything that words do but calls and the end, which steer the walk itself."""

    def __init__(
        self,
        dialect: Dialect,
        increments: Increments,
        control: Control,
        log: Log,
        home: tuple[int, int],
        trace: Callable[[Word, Word, bool], list[Motion] | None],
        whole_numbers: WholeNumbers | None = None,
    ) -> None:
        """`home` is where the reference point is taken to be, x and z in counts; `trace` runs a contour's blocks."""
        ForeignCycles.__init__(self)
        Roughing.__init__(self)
        self.trace = trace
        SpindleActions.__init__(self)
        self.dialect = dialect
        self.increments = increments
        self.control = control
        self.log = log
        self.home_at = home
        self.words = BlockWords(dialect, increments, log, whole_numbers)
        self._methods: dict[str, Callable[[Event], None]] = {}

    def do(self, action: str, event: Event) -> None:
        """Run an action by its name in the table."""
        method = self._methods.get(action)
        if method is None:
            method = self._methods[action] = getattr(self, action)
        method(event)

    def nothing(self, event: Event) -> None:
        """Words that are understood and move no grooving tool."""

    def units(self, event: Event) -> None:
        """G20, G21: may be said again, not changed."""
        self.words.late_units = False
        said: Units = "mm" if event is Act.METRIC else "in"
        if said != self.increments.units:
            message = (
                f"The units change to {UNIT_NAMES[said]} in the middle of the program, which was read in "
                f"{UNIT_NAMES[self.increments.units]}; keep to one."
            )
            self.log.stop(ProgramCode.UNITS_CHANGED, message)

    def pause(self, event: Event) -> None:
        """M00, M01."""
        optional = event is Switch.OPTIONAL_PAUSE
        self.log.step(Halt(optional))
        self.log.halt("may wait" if optional else "waits", optional)

    def work_offset(self, event: Event) -> None:
        """G54 and those after it; which one stands in `words.offset`."""
        self.log.step(WorkOffset(self.words.offset))
        control = self.control
        if not control.zero_said and any(motion.kind == "feed" for motion in self.log.motions):
            message = (
                "A work offset is first said here, after cuts whose zero nothing names; say it before the first move."
            )
            self.log.stop(ProgramCode.ZERO_SHIFT, message)
        control.zero_said = True

    def distance(self, event: Event) -> None:
        """G90, G91."""
        self.control.incremental = event is Act.INCREMENTAL

    def compensation(self, event: Event) -> None:
        """G40, G41, G42; whether it matters depends on the tool, so it is told where a tool is judged."""
        self.control.compensated = event is Act.COMPENSATED

    def feed_mode(self, event: Event) -> None:
        """G98, G99; a feed said in the other mode means nothing any more."""
        per_minute = event is Act.PER_MINUTE
        if per_minute is not self.control.per_minute:
            self.control.feed = None
            self.log.step(FeedMode(per_minute))
        self.control.per_minute, self.control.per_said = per_minute, True

    def feed(self, event: Event) -> None:
        """F."""
        word = self.words.take("F")
        if word is not None:
            count = self.words.feed(word, self.control.per_minute)
            if count <= 0:
                self.log.stop(ProgramCode.NO_FEED, f"{word} at column {word.column} is no feed; give one above 0.")
            self.control.feed = count if count > 0 else None

    def clamp_or_zero(self, event: Event) -> None:
        """G50: with S the spindle clamp, with axes the place where the tool stands."""
        word = self.words.take("S")
        if word is not None:
            self.clamp_spindle(word)
        elif not self.words.has_axes:
            self.log.stop(
                ProgramCode.UNKNOWN_WORD,
                "This block neither clamps the spindle nor says where the tool stands; give S, or X and Z.",
            )
        if self.words.has_axes:
            self._set_zero()

    def _set_zero(self) -> None:
        """Take the tool's place from the program; a zero moved after places were said would change their meaning."""
        control = self.control
        if any(self.words.says(axis) and not self.words.has(axis) for axis in "XZ"):
            self.log.stop(
                ProgramCode.ZERO_SHIFT,
                "The program moves its own zero by U or W, and what follows can't be held "
                "against the drawing; take it out.",
            )
        if not self.log.zeros and any(motion.kind == "feed" for motion in self.log.motions):
            message = (
                "The program first says where the tool stands here, after cuts whose zero it did not set so; say it "
                "before the first move."
            )
            self.log.stop(ProgramCode.ZERO_SHIFT, message)
        known = (control.x_known and self.words.has("X"), control.z_known and self.words.has("Z"))
        said_x, said_z = self.words.has("X"), self.words.has("Z")
        x, z = self.words.target(control)
        if (known[0] and x != control.x) or (known[1] and z != control.z):
            self.log.stop(
                ProgramCode.ZERO_SHIFT,
                "The program moves its own zero here, and what follows can't be held against the drawing; take it out.",
            )
        self.log.step(Standing(x if said_x else None, z if said_z else None))
        self.log.zeros.append(
            ZeroSetting(self.log.line, len(self.log.motions), x if said_x else None, z if said_z else None)
        )
        control.x, control.z = x, z
        control.x_known, control.z_known = control.x_known or said_x, control.z_known or said_z

    def tool(self, event: Event) -> None:
        """T: station and offset, two digits each; offset 00 cancels."""
        word = self.words.take("T")
        offset_word = None if self.dialect.tool.joined else self.words.take(self.dialect.tool.offset.address)
        if offset_word is not None:
            self._tool_with_offset(word, offset_word)
            return
        if word is None:
            return
        numbers = tool_numbers(word.text) if self.dialect.tool.joined else _alone(word)
        if numbers is None:
            written = "of two digits with an offset of two digits; write T0303"
            if not self.dialect.tool.joined:
                written = f"by its station alone; write T3 {self.dialect.tool.offset.address}3"
            self.log.stop(ProgramCode.TOOL_WORD, f"{word} is no tool {written}.")
            return
        station, offset = numbers
        if self.dialect.tool.joined and len(word.text) < 3:
            self.log.caution(
                ProgramCode.TOOL_WORD,
                f"{word} was read as station {station} with offset {offset}; write all four digits.",
            )
        self._call_tool(station, offset)

    def _tool_with_offset(self, word: Word | None, offset: Word) -> None:
        """A tool whose offset has an address of its own; the offset alone is another one for the tool at hand."""
        station = self.control.station if word is None else word.whole
        if station is None or offset.whole is None or station > MOST_TOOL or offset.whole > MOST_TOOL:
            said = " ".join(str(one) for one in (word, offset) if one is not None)
            self.log.stop(
                ProgramCode.TOOL_WORD, f"{said} is no station with an offset; write whole numbers up to {MOST_TOOL}."
            )
            return
        self._call_tool(station, offset.whole)

    def _call_tool(self, station: int, offset: int) -> None:
        """Turn to a station with its offset."""
        self.log.index(self.control, station)
        self.control.station, self.control.offset = station or self.control.station, offset
        self.log.step(ToolCall(station, offset))

    def coolant(self, event: Event) -> None:
        """M07, M08, M09."""
        self.control.wet = event is Switch.COOLANT_ON
        self.log.step(Coolant(self.control.wet))

    def own_switch(self, event: Event) -> None:
        """An M word of the machine's own; only one of which somebody says what it does is a step."""
        if self.words.own_switch:
            self.log.step(OwnSwitch(self.words.own_switch))

    def rapid(self, event: Event) -> None:
        """G00, or a place while it is in force."""
        if self.words.has_axes:
            self._straight("rapid")

    def cut(self, event: Event) -> None:
        """G01, or a place while it is in force."""
        if self.words.has_axes:
            self._ask_feed_mode()
            self._straight("feed")

    def _ask_feed_mode(self) -> None:
        """Say once that nothing tells how feeds are meant; lathes start with feed per revolution (common practice)."""
        if not self.control.per_said:
            self.control.per_said = True
            message = (
                "No word before this cut says feed per revolution or per minute; it was read as "
                "per revolution, so say it."
            )
            self.log.caution(ProgramCode.FEED_MODE_NOT_SAID, message)

    def _straight(self, kind: str) -> None:
        """A straight move and its step."""
        words, control = self.words, self.control
        has_x, has_z = words.says("X"), words.says("Z")
        told_x = words.has("X") and not control.incremental
        told_z = words.has("Z") and not control.incremental
        self._ask_first_move(has_x, has_z)
        x, z = words.target(control)
        to_x, to_z = x if has_x else None, z if has_z else None
        self.log.step(Rapid(to_x, to_z) if kind == "rapid" else Cut(control.feed or 0, to_x, to_z))
        self.log.move(control, "rapid" if kind == "rapid" else "feed", x, z)
        control.x_known, control.z_known = control.x_known or told_x, control.z_known or told_z
        if kind == "feed":
            self._ask_place()

    def _ask_first_move(self, has_x: bool, has_z: bool) -> None:
        """Say that the first move goes along Z while nobody knows on which diameter."""
        control = self.control
        if has_z and not has_x and not control.x_known and not control.x_home:
            message = (
                "The first move goes along Z, and no block has said at which X the tool stands: it may run through the "
                "part or the jaws; say X first, or go to the reference point."
            )
            self.log.caution(ProgramCode.FIRST_MOVE_ALONG_Z, message)
        control.x_home = True

    def _ask_place(self) -> None:
        """Stop at a cut whose place the program never gave: an increment from an unknown place is unknown too."""
        if not (self.control.x_known and self.control.z_known):
            unknown = [axis for axis, known in (("X", self.control.x_known), ("Z", self.control.z_known)) if not known]
            message = (
                f"This cut is made at {' and '.join(unknown)} that the program never gave; give it in a block before."
            )
            self.log.stop(ProgramCode.PLACE_UNKNOWN, message)

    def arc_clockwise(self, event: Event) -> None:
        """G02, or a place while it is in force."""
        self._arc(clockwise=True)

    def arc_counter(self, event: Event) -> None:
        """G03, or a place while it is in force."""
        self._arc(clockwise=False)

    def _arc(self, clockwise: bool) -> None:
        """An arc by R, or by I (radial) and K (axial) from start to centre, as chords."""
        if self.words.has_axes:
            self._ask_feed_mode()
            places = run_arc(self.words, self.control, self.log, self.increments, clockwise)
            self._ask_place()
            for x, z in places:
                self.log.move(self.control, "feed", x, z)

    def groove(self, event: Event) -> None:
        """G75 in the form of the dialect: its retract block, or a call."""
        form = self.dialect.cycle
        if form is None:
            self.log.stop(ProgramCode.UNKNOWN_WORD, "The dialect has no grooving cycle.")
        elif (block := form.setting(self.words.addresses, self.dialect.axes)) is not None:
            self._settings(block)
        else:
            call = read_call(self.words, form, self.control, self.log)
            if call is not None:
                self._ask_feed_mode()
                self.control.call = call
                run_call(call, self.control, self.log)

    def groove_again(self, event: Event) -> None:
        """A place while the grooving cycle stands: at rapid there, and the same groove once more."""
        call, control = self.control.call, self.control
        if call is None or not self.words.has_axes:
            return
        self._straight("rapid")
        again = replace(call, line=self.log.line, start_x=control.x, start_z=control.z, end_z=control.z, shift=None)
        run_call(replace(again, x_known=control.x_known, z_known=control.z_known), control, self.log)

    def face(self, event: Event) -> None:
        """G74 in the form of the dialect's grooving cycle: its retract block, or a call along Z."""
        form = self.dialect.cycle
        if form is None:
            self.drilling(event)
        elif (block := form.setting(self.words.addresses, self.dialect.axes)) is not None:
            self._settings(block)
        else:
            self._ask_feed_mode()
            run_face(self.words, form, self.control, self.log)

    def _settings(self, block: Pattern) -> None:
        """What a block sets for the calls of the cycle after it."""
        word = read_settings(block, self.words, self.control).get("retract")
        if word is not None:
            self._retract(word, block.gaps["retract"])

    def _retract(self, word: Word, gap: Gap) -> None:
        """How far the cycles back off after a peck; one without a point is told only where it is small."""
        needed = self.dialect.figure(word.address).point == "needed"
        count = self.words.measured(word, replace(gap, whole=True) if needed and not word.pointed else gap) or 0
        self.control.retract = abs(count)
        if count < 0:
            self.log.stop(
                ProgramCode.NEGATIVE_RETRACT, f"{word} is below 0, and a retract has no sign; write it without."
            )
        if needed and not gap.whole and not word.pointed and 0 < count < SMALL_RETRACT:
            shown = f"{self.increments.length(count):g} {self.increments.units}"
            self.log.caution(
                ProgramCode.SMALL_RETRACT,
                f"{word} has no decimal point and backs off only {shown}; write the point if more is meant.",
            )

    def home(self, event: Event) -> None:
        """G28, G30: at rapid over the place named to the reference point, only along the axes named."""
        axes = [axis for axis in "XZ" if self.words.says(axis)]
        self.words.take("P")
        if not axes:
            self.log.caution(
                ProgramCode.HOME,
                "The way to the reference point names no axis, and the control's manual says which then move; it was "
                "taken as all of them, so write U0 and W0.",
            )
            axes = ["X", "Z"]
        x, z = self.words.target(self.control)
        if (x, z) != (self.control.x, self.control.z):
            self.log.move(self.control, "rapid", x, z)
        self._go_home(axes)

    def machine_place(self, event: Event) -> None:
        """G53: at rapid to a place that only the machine knows."""
        axes = [axis for axis in "XZ" if self.words.take(axis) is not None]
        self._go_home(axes)

    def _go_home(self, axes: list[str]) -> None:
        """To the reference point along some axes; from there on the program has not said where the tool is."""
        control, (home_x, home_z) = self.control, self.home_at
        x, z = home_x if "X" in axes else control.x, home_z if "Z" in axes else control.z
        self.log.step(Home("X" in axes, "Z" in axes))
        self.log.move(control, "rapid", x, z, home=True)
        control.x_known = control.x_known and "X" not in axes
        control.z_known = control.z_known and "Z" not in axes
        control.x_home = control.x_home or "X" in axes


def _alone(word: Word) -> tuple[int, int] | None:
    """The station of a tool word that holds nothing else; its offset is then none."""
    return None if word.whole is None or word.whole > MOST_TOOL else (word.whole, 0)
