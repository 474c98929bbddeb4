"""What words set without a move: units, zero, feed, tool, coolant; and where the program waits."""

from extractor.part import Units
from planner.steps import Coolant, FeedMode, Halt, OwnSwitch, Standing, ToolCall, WorkOffset
from postproc.codes import ProgramCode
from postproc.reading.actions.spindle import clamp
from postproc.reading.control import Event
from postproc.reading.lathe import Lathe
from postproc.reading.run import ZeroSetting
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.numbers import UNIT_NAMES, tool_numbers

MOST_TOOL = 99
"""Greatest number of a station or an offset: two digits, as the trade's tool word has them."""


def nothing(lathe: Lathe, event: Event) -> None:
    """Words that are understood and move no grooving tool."""


def units(lathe: Lathe, event: Event) -> None:
    """G20, G21: may be repeated, not changed."""
    lathe.words.late_units = False
    said: Units = "mm" if event is Act.METRIC else "in"
    if said != lathe.increments.units:
        message = (
            f"The units change to {UNIT_NAMES[said]} in the middle of the program, which was read in "
            f"{UNIT_NAMES[lathe.increments.units]}; keep to one."
        )
        lathe.log.stop(ProgramCode.UNITS_CHANGED, message)


def distance(lathe: Lathe, event: Event) -> None:
    """G90, G91."""
    lathe.control.place.incremental = event is Act.INCREMENTAL


def compensation(lathe: Lathe, event: Event) -> None:
    """G40, G41, G42; whether it matters depends on the tool, so it is reported where a tool is judged."""
    lathe.control.compensated = event is Act.COMPENSATED


def feed_mode(lathe: Lathe, event: Event) -> None:
    """G98, G99; a feed said in the other mode means nothing any more."""
    per_minute = event is Act.PER_MINUTE
    if per_minute is not lathe.control.feed.per_minute:
        lathe.control.feed.count = None
        lathe.log.step(FeedMode(per_minute))
    lathe.control.feed.per_minute, lathe.control.feed.said = per_minute, True


def feed(lathe: Lathe, event: Event) -> None:
    """F."""
    word = lathe.words.take("F")
    if word is not None:
        count = lathe.words.feed(word, lathe.control.feed.per_minute)
        if count <= 0:
            lathe.log.stop(ProgramCode.NO_FEED, f"{word} at column {word.column} is not a feed; give one above 0.")
        lathe.control.feed.count, lathe.control.feed.line = count if count > 0 else None, lathe.log.line


def work_offset(lathe: Lathe, event: Event) -> None:
    """G54 and those after it; which one stands in `words.offset`."""
    lathe.log.step(WorkOffset(lathe.words.offset))
    place = lathe.control.place
    if not place.zero_said and any(motion.kind == "feed" for motion in lathe.log.motions):
        message = "The first work offset comes here, after cuts made with none; put it before the first move."
        lathe.log.stop(ProgramCode.ZERO_SHIFT, message)
    place.zero_said = True


def clamp_or_zero(lathe: Lathe, event: Event) -> None:
    """G50: with S the spindle clamp, with axes the place where the tool stands."""
    word = lathe.words.take("S")
    if word is not None:
        clamp(lathe, word)
    elif not lathe.words.has_axes:
        message = "This block neither clamps the spindle nor says where the tool stands; give S, or X and Z."
        lathe.log.stop(ProgramCode.UNKNOWN_WORD, message)
    if lathe.words.has_axes:
        _set_zero(lathe)


def _set_zero(lathe: Lathe) -> None:
    """Take the tool's place from the program; a zero moved after places were said would change their meaning."""
    place = lathe.control.place
    if any(lathe.words.says(axis) and not lathe.words.has(axis) for axis in "XZ"):
        lathe.log.stop(
            ProgramCode.ZERO_SHIFT,
            "The program moves its own zero by U or W, and what follows can't be held "
            "against the drawing; take it out.",
        )
    if not lathe.log.zeros and any(motion.kind == "feed" for motion in lathe.log.motions):
        message = (
            "The program first sets where the tool stands here, after cuts that were made without it; put it "
            "before the first move."
        )
        lathe.log.stop(ProgramCode.ZERO_SHIFT, message)
    said_x, said_z = lathe.words.has("X"), lathe.words.has("Z")
    x, z = lathe.words.target(place)
    if (place.x_known and said_x and x != place.x) or (place.z_known and said_z and z != place.z):
        words = "The program moves its own zero here, and what follows can't be held against the drawing; take it out."
        lathe.log.stop(ProgramCode.ZERO_SHIFT, words)
    lathe.log.step(Standing(x if said_x else None, z if said_z else None))
    lathe.log.zeros.append(
        ZeroSetting(lathe.log.line, len(lathe.log.motions), x if said_x else None, z if said_z else None)
    )
    place.x, place.z = x, z
    place.x_known, place.z_known = place.x_known or said_x, place.z_known or said_z


def tool(lathe: Lathe, event: Event) -> None:
    """T: station and offset, two digits each; offset 00 cancels."""
    word = lathe.words.take("T")
    offset_word = None if lathe.dialect.tool.joined else lathe.words.take(lathe.dialect.tool.offset.address)
    if offset_word is not None:
        _tool_with_offset(lathe, word, offset_word)
        return
    if word is None:
        return
    numbers = tool_numbers(word.text) if lathe.dialect.tool.joined else _alone(word)
    if numbers is None:
        written = "of two digits with an offset of two digits; write T0303"
        if not lathe.dialect.tool.joined:
            written = f"by its station alone; write T3 {lathe.dialect.tool.offset.address}3"
        lathe.log.stop(ProgramCode.TOOL_WORD, f"{word} is not a tool {written}.")
        return
    station, offset = numbers
    if lathe.dialect.tool.joined and len(word.text) < 3:
        message = f"{word} was read as station {station} with offset {offset}; write all four digits."
        lathe.log.caution(ProgramCode.TOOL_WORD, message)
    _call_tool(lathe, station, offset)


def _tool_with_offset(lathe: Lathe, word: Word | None, offset: Word) -> None:
    """A tool whose offset has an address of its own; the offset alone is another one for the tool at hand."""
    station = lathe.control.station if word is None else word.whole
    if station is None or offset.whole is None or station > MOST_TOOL or offset.whole > MOST_TOOL:
        said = " ".join(str(one) for one in (word, offset) if one is not None)
        message = f"{said} is not a station with an offset; write whole numbers up to {MOST_TOOL}."
        lathe.log.stop(ProgramCode.TOOL_WORD, message)
        return
    _call_tool(lathe, station, offset.whole)


def _call_tool(lathe: Lathe, station: int, offset: int) -> None:
    """Turn to a station with its offset."""
    lathe.log.index(lathe.control, station, not offset and not lathe.words.has_axes)
    lathe.control.station, lathe.control.offset = station or lathe.control.station, offset
    lathe.log.step(ToolCall(station, offset))


def coolant(lathe: Lathe, event: Event) -> None:
    """M07, M08, M09."""
    lathe.control.wet = event is Switch.COOLANT_ON
    lathe.log.step(Coolant(lathe.control.wet))


def own_switch(lathe: Lathe, event: Event) -> None:
    """An M word of the machine's own; only one of which somebody says what it does is a step."""
    if lathe.words.own_switch:
        lathe.log.step(OwnSwitch(lathe.words.own_switch))


def pause(lathe: Lathe, event: Event) -> None:
    """M00, M01."""
    optional = event is Switch.OPTIONAL_PAUSE
    lathe.log.step(Halt(optional))
    lathe.log.halt("may wait" if optional else "waits", optional)


def _alone(word: Word) -> tuple[int, int] | None:
    """The station of a tool word that holds nothing else; its offset is then none."""
    return None if word.whole is None or word.whole > MOST_TOOL else (word.whole, 0)
