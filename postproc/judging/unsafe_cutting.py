"""What is wrong with how a program cuts: no feed, the wrong feed mode, a spindle that stands or has no clamp."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from extractor.part import Units
from extractor.side import OUTSIDE
from planner.codes import PlanCode
from planner.cutting import cutting_power
from planner.load import tool_force
from planner.shop import Shop, Tool
from planner.steps import Arc, Cut, Halt, Home, Rapid, Standing, ToolCall
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.judging.unsafe_speeds import ODD, SLIPPED, check_speed, cutting_speed, each_turn, plain
from postproc.motion import IN_FORCE, Motion
from postproc.reading.notebook import Notebook
from postproc.reading.run import Run
from postproc.vocabulary.acts import Act, Switch

# Greatest and least feed per revolution of a grooving insert, whatever its size (common practice, no source).
GREATEST_FEED: dict[Units, float] = {"mm": 0.6, "in": 0.024}
# Nor more than so much of its width: a tool catalogue of 2016 goes to 0.20 at 2 to 3 wide, 0.30 at 4 and 0.40 at 5 to
# 8, a tenth of the width at most; half as much again is left to those who know better.
GREATEST_SHARE = 0.15
# A cut that begins within so many times the diameter of the metal is told its speed there: that is a usual clearance.
NEAR = 1.25
LEAST_FEED: dict[Units, float] = {"mm": 0.004, "in": 0.00016}
AXES = ("X", "Z")
PLACES = (Rapid, Cut, Arc, Standing)
"""Steps that may say a place."""


def check_cutting(motions: Sequence[Motion], cutting: set[int], bench: Bench, shop: Shop, notebook: Notebook) -> None:
    """Note feed moves with no feed, and what is wrong with spindle and feed where metal is cut.

    `cutting`: the lines whose moves took metal away. Spindle and feed are modal, so one state is told once, on the
    first line that cuts in it.
    """
    seen: set[tuple[object, ...]] = set()
    last: tuple[object, ...] = ()
    spun: tuple[object, ...] = ()
    _coolant(motions, cutting, shop, notebook)
    _waits(motions, cutting, notebook)
    for number, motion in enumerate(motions):
        spin = motion.spin_line, motion.speed, motion.surface, motion.clamp
        if spin != spun and motion.spin_line is not None and motion.turning:
            _fastest(motion, shop, notebook)
            spun = spin
        if motion.kind == "rapid":
            continue
        cuts, before = motion.line in cutting, last
        last = cuts, motion[IN_FORCE:]
        if last == before and motion.x0_known and motion.z0_known:
            continue  # all is in force that was for the feed before
        spindle = (motion.speed, motion.surface, motion.clamp, motion.turning, motion.reverse)
        state = (motion.station, motion.offset, motion.feed, motion.per_minute, cuts, motion.placed, *spindle)
        if state in seen:
            continue
        seen.add(state)
        if not motion.feed:
            notebook.stop(ProgramCode.NO_FEED, motion.line, "A cutting move has no feed; give F before it.")
        if cuts:
            _spindle(motion, shop, notebook)
            _sense(motion, bench.tool(motion), notebook)
            within = at_metal(motion, bench)
            check_speed(within, _begun(motions, number, cutting, bench), bench, shop, notebook)
            _feed(within, bench, notebook)
            _power(within, bench, shop, notebook)


def at_metal(motion: Motion, bench: Bench) -> Motion:
    """The part of a cut of the outside that can meet metal: what begins far out in air cuts no faster for it."""
    if motion.kind == "rapid" or motion.x0 <= NEAR * abs(motion.x1):
        return motion
    insert = bench.insert(motion)
    if insert is None or insert.side != OUTSIDE:
        return motion
    ends = insert.place(motion.x0, motion.z0)[0], insert.place(motion.x1, motion.z1)[0]
    top = max(bench.land[insert.where].highest(min(ends) + insert.left, max(ends) + insert.right), abs(motion.x1))
    return motion._replace(x0=top) if motion.x0 > NEAR * top else motion


def _begun(motions: Sequence[Motion], number: int, cutting: set[int], bench: Bench) -> int:
    """The x at which the cuts straight in at one place along Z began that a cut goes on with, else its own start.

    Toward the axis no fixed speed is enough: what S is for is told by the diameter that the whole plunge comes down
    from, also where it goes on in pecks, or at another S for its last part (common practice, no source).
    """
    motion, first = motions[number], number
    at = motion.station, motion.z1
    while first >= 0 and (motions[first].station, motions[first].z1) == at and motions[first].z0 == motions[first].z1:
        first -= 1
    straight = motions[first + 1 : number + 1]
    cuts = (at_metal(one, bench).x0 for one in straight if one.kind == "feed" and one.line in cutting)
    return max(cuts, key=abs, default=at_metal(motion, bench).x0)


def check_restarts(run: Run, cutting: set[int], notebook: Notebook) -> None:
    """Note the first cut after a wait that no block has started the spindle again for.

    Many controls stop spindle and coolant where the program waits, others leave them on (common practice, no source).
    """
    waits: int | None = None
    before = 0
    halts = {number for number, step in run.marks if isinstance(step, Halt) and not step.optional}
    for number in sorted(halts | {number for number in run.starts if number < len(run.steps)}):
        at = run.step_motions[number]
        if waits is not None and _told_cut(run.motions[before:at], waits, cutting, notebook):
            return
        before, waits = at, run.step_lines[number] if number in halts else None
    if waits is not None:
        _told_cut(run.motions[before:], waits, cutting, notebook)


def check_offsets(run: Run, cutting: set[int], bench: Bench, notebook: Notebook) -> None:
    """Note the first cut at a place along one axis that was only said before the tool was called with its offset.

    Many controls make up for an offset when its axis is moved next, and not at the call (common practice, no source).
    """
    called = (0, 0)
    moved: dict[str, tuple[int, int]] = {}
    turns = [number for number, step in run.marks if isinstance(step, ToolCall | Home)]
    motions = (*run.step_motions[1:], len(run.motions))
    for begin, end in pairwise(sorted({0, *turns, len(run.steps)})):
        for step, at, to in zip(run.steps[begin:end], run.step_motions[begin:end], motions[begin:end], strict=True):
            if isinstance(step, ToolCall):
                called = (step.station, step.offset)
            elif isinstance(step, Home):
                moved = {axis: offset for axis, offset in moved.items() if not (step.x if axis == "X" else step.z)}
            elif isinstance(step, PLACES):
                moved |= {axis: called for axis, place in zip(AXES, (step.x, step.z), strict=True) if place is not None}
            late = [axis for axis, offset in moved.items() if offset != called]
            for motion in run.motions[at:to] if late else ():
                if motion.kind == "feed" and motion.line in cutting and bench.tool(motion) is not None:
                    _told_late(motion, late[0], notebook)
                    return
            if len(moved) == len(AXES) and not late:
                break  # both axes moved with the offset in force, and nothing changes that before the next call


def _told_late(motion: Motion, axis: str, notebook: Notebook) -> None:
    """The caution about a cut at a place that was said before the offset was called."""
    message = (
        f"{axis} of this cut was said before the tool was called with offset {motion.offset}: many controls make up "
        f"for an offset only when its axis moves next, so say {axis} again after the call."
    )
    notebook.caution(ProgramCode.OFFSET_AFTER_PLACE, motion.line, message)


def check_calls(run: Run, shop: Shop, notebook: Notebook) -> None:
    """Note a call that only cancels an offset, of a station that neither moves with one nor cuts nor is in the shop.

    The first tool of all is often called back at the end (common practice, no source).
    """
    moved = {motion.station for motion in run.motions if motion.offset or motion.kind == "feed"}
    known = moved | {tool.station for tool in shop.tools}
    for number, step in run.marks:
        if isinstance(step, ToolCall) and not step.offset and step.station and step.station not in known:
            notebook.caution(
                ProgramCode.TOOL_IDLE,
                run.step_lines[number],
                f"Station {step.station} is called with no offset, and this program does nothing with it: see which "
                "tool's offset is meant to be cancelled.",
            )
            return


def _told_cut(motions: Iterable[Motion], waits: int, cutting: set[int], notebook: Notebook) -> bool:
    """Whether any of these moves takes metal away after the wait in a line; the first of them is told."""
    cut = next((one for one in motions if one.kind == "feed" and one.line in cutting), None)
    if cut is None:
        return False
    notebook.caution(
        ProgramCode.SPINDLE_AFTER_WAIT,
        cut.line,
        f"Metal is cut after the wait in line {waits}, and the spindle is not started again: many controls stop it "
        f"and the coolant there; say {notebook.word(Switch.CLOCKWISE)} again after the wait.",
    )
    return True


def _coolant(motions: Sequence[Motion], cutting: set[int], shop: Shop, notebook: Notebook) -> None:
    """A cut without coolant, where the shop file wants it or others have it, or it was on and is switched off before.

    A program may switch it off for all; that is noted, as one M08 typed M09 does the same.
    """
    wanted = shop.machine.coolant and "coolant" not in shop.unsaid
    cuts = [one for one in motions if one.kind == "feed" and one.line in cutting]
    dry = next((one for one in cuts if not one.wet), None)
    others = cuts if dry is None or dry.wet is None else motions
    if dry is not None and (wanted or any(one.wet for one in others)):
        why = "the shop file has coolant = true" if wanted else "it is on elsewhere"
        notebook.caution(
            ProgramCode.COOLANT_OFF, dry.line, f"Metal is cut while the coolant is off, and {why}: the insert may burn."
        )
    elif dry is not None and "coolant" in shop.unsaid and shop.machine.coolant:
        message = "No cut of this program has coolant, and the shop file doesn't say whether it should have."
        notebook.note(ProgramCode.COOLANT_OFF, dry.line, message)


def _spindle(motion: Motion, shop: Shop, notebook: Notebook) -> None:
    """The spindle must turn, clamped under constant surface speed, no faster than the machine allows."""
    if not motion.turning or motion.speed <= 0:
        what = f"is stopped; start it with {notebook.word(Switch.CLOCKWISE)} and S first"
        if motion.turning:
            what = "has no S for the mode in force; give S first"
        notebook.stop(ProgramCode.SPINDLE_OFF, motion.line, f"Metal is cut while the spindle {what}.")
        return
    if motion.surface and not motion.clamp:
        surface = notebook.word(Act.SURFACE)
        given = "no spindle clamp" if motion.clamp is None else "a spindle clamp of 0, which clamps nothing"
        notebook.stop(
            ProgramCode.NO_CLAMP,
            motion.line,
            f"Constant surface speed ({surface}) is in force with {given}; give the highest speed before {surface}.",
        )
    _fastest(motion, shop, notebook)


def _sense(motion: Motion, tool: Tool | None, notebook: Notebook) -> None:
    """The spindle must turn as the shop file says for the tool; where it says nothing, the usual sense is M03."""
    if not motion.turning:
        return
    wanted = None if tool is None else tool.spindle
    if tool is not None and wanted is not None and motion.reverse is not (wanted == "ccw"):
        clockwise, counter = notebook.word(Switch.CLOCKWISE), notebook.word(Switch.COUNTER)
        turns, right = f"clockwise ({clockwise})", counter
        if motion.reverse:
            turns, right = f"counter-clockwise ({counter})", clockwise
        message = (
            f"Metal is cut while the spindle turns {turns}, and the shop file has {tool.name} cut with {right}: the "
            "work would run against its back."
        )
        notebook.stop(ProgramCode.SPINDLE_REVERSE, motion.line, message)
    elif motion.reverse and wanted is None:
        # Most grooving inserts cut with M03 (common practice).
        notebook.caution(
            ProgramCode.SPINDLE_REVERSE,
            motion.line,
            f"Metal is cut while the spindle turns counter-clockwise ({notebook.word(Switch.COUNTER)}), which is right "
            "only for an insert mounted for it: with any other the work runs against its back; check it.",
        )


def _fastest(motion: Motion, shop: Shop, notebook: Notebook) -> None:
    """A speed or a clamp above the machine's, at the line of its S; a caution where no shop file says the limit."""
    fastest, most = motion.clamp if motion.surface else motion.speed, shop.machine.max_rpm
    if not fastest or not most or fastest <= most:
        return
    line = motion.spin_line or motion.line
    turns = f"The spindle may turn {plain(fastest)} rev/min"
    if "max_rpm" in shop.unsaid:
        message = f"{turns}, more than the {most} of most lathes; give the machine's max_rpm in the shop file."
        notebook.caution(ProgramCode.OVER_SPEED, line, message)
    else:
        message = f"{turns}; the shop file allows {most}, and a chuck may burst: correct S."
        notebook.stop(ProgramCode.OVER_SPEED, line, message)


def _feed(motion: Motion, bench: Bench, notebook: Notebook) -> None:
    """The feed must be one that the insert can bear, in the mode that is in force."""
    tool, units = bench.tool(motion), bench.increments.units
    if not motion.feed or tool is None or motion.speed <= 0:
        return
    word, feed = bench.increments.feed_length(motion.feed), each_turn(motion, bench)
    each = f"{plain(feed, 3 if units == 'mm' else 5)} {units} each turn"
    most = min(GREATEST_FEED[units], round(GREATEST_SHARE * tool.width, 6))
    if feed > max(most, ODD * tool.feed) or feed > SLIPPED * tool.feed:
        what = f"F{plain(word, 6)} is read per {'minute' if motion.per_minute else 'revolution'}"
        notebook.stop(
            ProgramCode.FEED_TOO_GREAT,
            motion.line,
            f"{what}: that is {each}, the shop file gives {tool.name} {tool.feed:g}; "
            "check the feed mode and the decimal point.",
        )
    elif motion.per_minute and feed < LEAST_FEED[units]:
        notebook.stop(
            ProgramCode.FEED_PER_MINUTE,
            motion.line,
            f"F{plain(word, 6)} is read per minute: that is {each} and the insert only rubs; "
            "it looks like a feed per revolution.",
        )
    elif not tool.feed / SLIPPED < feed <= ODD * tool.feed:
        notebook.caution(
            ProgramCode.FEED_UNUSUAL,
            motion.line,
            f"The feed is {each}, the shop file gives {tool.name} {tool.feed:g}.",
        )
    elif motion.per_minute and motion.surface:
        notebook.caution(
            ProgramCode.FEED_SWINGS,
            motion.line,
            f"F{plain(word, 6)} is a feed per minute under constant surface speed ({notebook.word(Act.SURFACE)}): what "
            "each turn takes changes with the diameter; give it per revolution.",
        )


def _waits(motions: Sequence[Motion], cutting: set[int], notebook: Notebook) -> None:
    """The first feed per turn of a station while the spindle stands, unless it cuts so, which says more.

    The axis waits for turns that don't come, without an alarm on many controls (common practice, no source).
    """
    still = [one for one in motions if one.kind == "feed" and one.feed and not (one.per_minute or one.turning)]
    cuts = (one for one in still if one.line in cutting or notebook.has(ProgramCode.SPINDLE_OFF, one.line))
    told = {one.station for one in cuts}
    for motion in still:
        if motion.station in told or motion.foreign:
            continue
        told.add(motion.station)
        notebook.caution(
            ProgramCode.FEED_WAITS,
            motion.line,
            "The feed is per revolution and the spindle is stopped, so the axis waits for turns that don't come: give "
            "it per minute here, unless a driven tool turns.",
        )


def _power(motion: Motion, bench: Bench, shop: Shop, notebook: Notebook) -> None:
    """A full plunge must not ask for more power than the machine has; a cut beside the last one asks for less."""
    tool, most, units = bench.tool(motion), shop.machine.power, bench.increments.units
    if tool is None or not most or not motion.feed or motion.speed <= 0 or not motion.placed:
        return
    force = tool_force(replace(tool, feed=each_turn(motion, bench)), shop)
    power = cutting_power(force, cutting_speed(motion, bench), units)
    if power > most:
        notebook.caution(
            PlanCode.POWER,
            motion.line,
            f"{tool.name} needs about {power:.1f} kW for a full cut here and the machine has {most:.1f} kW: lower F, "
            "or the cutting speed.",
        )
