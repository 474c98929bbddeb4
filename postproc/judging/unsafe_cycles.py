"""What is wrong with a call of the grooving cycle itself: its start, its pecks, its shifts, relief at the floor."""

from extractor.part import Units
from planner.shop import Tool
from postproc.codes import ProgramCode
from postproc.cutting.insert import Insert
from postproc.cutting.metal import FAR, Metal
from postproc.cutting.stock import Bench
from postproc.reading.notebook import Notebook
from postproc.reading.run import CycleCall

# A peck so many times, or so small a part of, what the shop's tool takes is a slipped decimal point.
SLIPPED_PECK = 9.0
# A cycle is started a little above the metal; further off than this, with so many pecks in air, it is worth a look
# (common practice, no source).
MOST_AIR: dict[Units, float] = {"mm": 5.0, "in": 0.2}
MANY_IN_AIR = 3
# A shift of less than this share of the insert's width, so many times over, is a slipped decimal point.
LEAST_SHIFT, MANY_SHIFTS = 0.05, 20
MOST_RETRACT = 4
"""A retract so many times the tool's own that leads out of the groove as well is hardly meant (common practice)."""
LEAST_RETRACT = 20
"""A retract so many times smaller than the tool's own leaves the chip whole as none does (a choice)."""
NOWHERE = -FAR // 2
"""Heights below this are those of no metal at all."""


def check_cycle(call: CycleCall, tool: Tool, bench: Bench, touch: int, notebook: Notebook) -> None:
    """Note what is unsafe or odd about one call, before it is cut; `touch` in h counts is taken for nothing."""
    if not tool.side.axial:
        return
    _relief(call, notebook)
    _start(call, tool, bench, touch, notebook)
    _pecks(call, tool, bench, notebook)
    _shift(call, tool, bench, notebook)
    _air(call, tool, bench, notebook)
    _retract(call, tool, bench, notebook)


def check_span(call: CycleCall, width: int, right: bool, notebook: Notebook) -> None:
    """Note a span that is not a whole number of shifts, where each shift is a groove of its own.

    `right`: all grooves came out as drawn, so it is intended.
    """
    if not call.left_over or call.shift is None or call.shift <= width:
        return
    message = (
        f"From Z{notebook.length(call.start_z)} to Z{notebook.length(call.end_z)} is not a whole number of shifts of "
        f"{notebook.length(call.shift)}: the last groove comes only {notebook.length(call.left_over)} after the one "
        "before; correct the end or the shift."
    )
    (notebook.caution if right else notebook.stop)(ProgramCode.SPAN_NOT_WHOLE, call.line, message)


def _relief(call: CycleCall, notebook: Notebook) -> None:
    """A step aside at the floor of a plunge in solid metal breaks the insert."""
    if call.relief:
        message = (
            f"The cycle steps {notebook.length(abs(call.relief))} aside at the floor, where the insert stands in solid "
            "metal on both sides; leave the relief out."
        )
        notebook.stop(ProgramCode.RELIEF_AT_FLOOR, call.line, message)


def _swept(call: CycleCall, insert: Insert) -> tuple[int, int]:
    """Where the insert begins and ends over all plunges of a call, along u."""
    ends = sorted(insert.place(call.start_x, z)[0] for z in (call.start_z, call.end_z))
    return ends[0] + insert.left, ends[1] + insert.right


def _start(call: CycleCall, tool: Tool, bench: Bench, touch: int, notebook: Notebook) -> None:
    """Between grooves the cycle shifts at rapid, on the diameter that it started from."""
    insert = bench.insert_for(tool)
    _, height = insert.place(call.start_x, call.start_z)
    metal: Metal = bench.metal[insert.where]
    first, last = _swept(call, insert)
    over = metal.above((first, height, last, height))
    if over > touch:
        message = (
            f"The cycle starts at X{notebook.length(call.start_x)}, {notebook.radial(over)} below the highest metal "
            "between its first and last groove; start above it."
        )
        notebook.stop(ProgramCode.START_BELOW_LAND, call.line, message)
    elif over >= 0:
        message = f"The cycle starts at X{notebook.length(call.start_x)}, on the metal itself."
        notebook.caution(ProgramCode.NO_CLEARANCE, call.line, message)


COARSE_STEP: dict[Units, float] = {"mm": 0.01, "in": 0.001}
"""No control of a lathe counts in coarser steps (common practice, no source)."""

SHORT = 1.5
"""A plunge no deeper than so many pecks is cut in one or two, however deep they may be."""


def _pecks(call: CycleCall, tool: Tool, bench: Bench, notebook: Notebook) -> None:
    """Pecks ten times too deep or too shallow, and none in plunges deeper than wide, unless the shop wants none."""
    count = bench.increments.count
    width, usual = count(tool.width), count(tool.peck)
    insert = bench.insert_for(tool)
    land = bench.metal[insert.where].highest(*_swept(call, insert))
    _, floor = insert.place(call.floor_x, call.start_z)
    deep = (land - floor) // 2
    peck = call.peck or 0
    spelt = call.peck_text or f"A peck of {notebook.length(peck)}"
    pointed = "." in call.peck_text
    counted = "it is measured on the radius" if pointed else "without a point it counts least increments, on the radius"
    # A cycle that can't say "no pecks" gives the whole way as one, up to the control's next step; in a groove no deeper
    # than wide that is usual.
    more = peck - -(-abs(call.start_x - call.floor_x) // 2)
    in_one_go = 0 <= more <= count(COARSE_STEP[bench.increments.units]) and deep <= width
    if peck and usual and peck >= SLIPPED_PECK * usual and deep > SHORT * usual and not in_one_go:
        words = (
            f"{spelt} is {notebook.length(peck)} each peck, the shop file gives {tool.name} {notebook.length(usual)}; "
            f"{counted}."
        )
        notebook.stop(ProgramCode.PECK_OUT_BY_TEN, call.line, words)
    elif peck and usual and peck * SLIPPED_PECK <= usual and deep > peck:
        words = (
            f"{spelt} is only {notebook.length(peck)} each peck, {-(-deep // peck)} pecks to the floor; the shop "
            f"file gives {tool.name} {notebook.length(usual)}."
        )
        notebook.stop(ProgramCode.PECK_OUT_BY_TEN, call.line, words)
    elif usual and (not peck or peck >= deep) and deep > width:
        words = (
            f"The plunge is {notebook.length(deep)} deep and {notebook.length(width)} wide with no peck to "
            "break the chip."
        )
        notebook.caution(ProgramCode.NO_PECKS, call.line, words)
    elif usual and call.peck == 0:
        message = f"{spelt} is a peck of no depth, which some controls refuse: give its depth, or the whole way as one."
        notebook.caution(ProgramCode.NO_PECKS, call.line, message)


def _air(call: CycleCall, tool: Tool, bench: Bench, notebook: Notebook) -> None:
    """A floor above all metal, or a start so far above it that many pecks meet only air: a rapid may be left out."""
    insert = bench.insert_for(tool)
    (_, start), (_, floor) = (insert.place(x, call.start_z) for x in (call.start_x, call.floor_x))
    land = bench.land[insert.where].highest(*_swept(call, insert))
    if floor >= land > NOWHERE:
        message = (
            f"The cycle goes from X{notebook.length(call.start_x)} to X{notebook.length(call.floor_x)} and meets no "
            "metal there; correct the X of its floor, or take the cycle out."
        )
        notebook.caution(ProgramCode.CYCLE_IN_AIR, call.line, message)
        return
    gap = (start - land) // 2
    near = gap <= bench.increments.count(MOST_AIR[bench.increments.units])
    if near or not call.peck or not call.x_known or land <= NOWHERE:
        return
    pecks = gap // call.peck
    if pecks < MANY_IN_AIR:
        return
    message = (
        f"The cycle starts at X{notebook.length(call.start_x)}, {notebook.length(gap)} above the metal: {pecks} pecks "
        "of each plunge are in air; was a rapid to the start left out?"
    )
    notebook.caution(ProgramCode.CYCLE_IN_AIR, call.line, message)


def _shift(call: CycleCall, tool: Tool, bench: Bench, notebook: Notebook) -> None:
    """A shift so small that the insert goes over one groove again and again."""
    shift, number, width = call.shift, len(call.places), bench.increments.count(tool.width)
    if shift and number > MANY_SHIFTS and shift < LEAST_SHIFT * width:
        message = (
            f"The cycle shifts only {notebook.length(shift)} from plunge to plunge, {number} plunges in all, and "
            f"{tool.name} is {notebook.length(width)} wide; check the digits of the shift."
        )
        notebook.stop(ProgramCode.SHIFT_OUT_BY_TEN, call.line, message)


def _retract(call: CycleCall, tool: Tool, bench: Bench, notebook: Notebook) -> None:
    """A retract far out of the groove is a slipped point, none leaves the chip whole; the shop may want none."""
    usual, retract = bench.increments.count(tool.retract), call.retract
    if retract is None or not call.peck or retract == usual:
        return
    deep = abs(call.start_x - call.floor_x) // 2
    hardly = retract * LEAST_RETRACT < usual
    if call.peck < deep and (retract == 0 or hardly or retract > max(deep, MOST_RETRACT * usual)):
        what = f"backs off {'only ' * hardly}{notebook.length(retract)}" if retract else "does not back off at all"
        message = f"After each peck the cycle {what}; the shop file gives {tool.name} {notebook.length(usual)}."
        notebook.caution(ProgramCode.RETRACT_UNUSUAL, call.line, message)
