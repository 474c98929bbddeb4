"""Face grooves in words: why each is cut as it is, and what a person must look at besides what holds on all sides."""

from collections.abc import Iterator

from extractor.finding import Level
from extractor.limits import EPS, aims_of
from planner.codes import PlanCode
from planner.cuts.beside import start_height
from planner.cuts.chamfers import cuttable
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.strokes import pauses, slow_part
from planner.load import load_reasons
from planner.words import figure, numbers, size, times

# Depth over width of a face insert beyond which chips jam between its curved walls (common practice, no source).
DEEPEST = 4.0


def face_reasons(row: Placed, setting: Setting) -> tuple[str, ...]:
    """All sentences for one face groove."""
    return (*_plunges(row, setting), *_aims(row, setting), *_ends(row, setting))


def _plunges(row: Placed, setting: Setting) -> Iterator[str]:
    """How the width is made, and where X and Z begin."""
    units, length, tool, layout = setting.part.units, setting.increments.length, row.tool, row.layout
    count = times(len(layout.offsets), "plunge")
    yield f"{numbers(row.grooves)} is cut along Z with {tool.name}, {size(tool.width, units)} wide: {count}."
    if layout.ribs:
        yield "Full plunges come first and then the ribs, so both corners carry the same load."
    elif len(layout.offsets) > 1:
        way = "outward" if layout.outward else "inward"
        yield f"They go {way} side by side: only the first is into solid metal, where the insert's curve must fit."
    if layout.finish:
        yield f"{size(length(layout.finish), units)} is left on walls and floor for a pass over wall, floor and wall."
    edge = "outer" if tool.reference == "near" else "inner"
    first = size(length(row.places[0] - layout.order[0] + row.width), units)
    yield f"X is the {edge} edge of the insert; its first plunge is {first} across outside."
    clearance = size(setting.shop.machine.clearance, units)
    yield f"Z starts at {figure(length(start_height(row, setting)), units)}, {clearance} off the face."


def _aims(row: Placed, setting: Setting) -> Iterator[str]:
    """Where walls and floor are aimed away from what is drawn."""
    units = setting.part.units
    drawn = setting.drawn.grooves[row.grooves[0] - 1]
    aims = aims_of(drawn, setting.shop.machine.tolerance)
    aimed = (
        ("outer wall", aims.near.aim, drawn.near),
        ("inner wall", aims.far.aim, drawn.far),
        ("floor", aims.floor.aim, drawn.floor),
    )
    for name, aim, nominal in aimed:
        if abs(aim - nominal) > setting.increments.length(1) / 2 + EPS:
            middle = "the middle of what its tolerance allows"
            yield f"The {name} is aimed at {figure(aim, units)}, {middle}; drawn {figure(nominal, units)}."


def _ends(row: Placed, setting: Setting) -> Iterator[str]:
    """How a plunge ends, how the mouth is broken, and that all of it is written out."""
    tool, units = row.tool, setting.part.units
    drawn = setting.drawn.grooves[row.grooves[0] - 1]
    if slow_part(row, setting):
        last, share = size(tool.width, units), f"{100 * tool.last_feed:.0f} %"
        yield f"The groove is deep, so the last {last} go at {share} of the feed."
    if any(cuttable(drawn, row.ground, tool, setting.shop)):
        yield "The insert's corner cuts the chamfers at the mouth, a little farther in for its radius."
    if pauses(row, setting):
        yield f"It dwells for {tool.dwell:g} turns at the floor, whose tolerance the drawing gives."
    yield "A face groove is written out peck by peck."
    yield from load_reasons(tool, drawn.near, drawn.far, setting)


def face_remarks(row: Placed, setting: Setting) -> Iterator[tuple[Level, PlanCode, str, float]]:
    """What to look at in a face groove alone: level, code, sentence, and how bad it is of its kind."""
    tool, units = row.tool, setting.part.units
    if not tool.face_max:
        message = f"{tool.name} has no face_min and face_max, so see that its curve clears the groove's outer wall."
        yield Level.CAUTION, PlanCode.FACE_CURVE_UNCHECKED, message, 0.0
    if setting.shop.machine.tailstock:
        message = f"see that {tool.name} clears the tailstock's centre on its way."
        yield Level.CAUTION, PlanCode.TAILSTOCK, message, 0.0
    deep = setting.part.grooves[row.grooves[0] - 1].depth
    if deep > DEEPEST * tool.width + EPS:
        share = f"{size(deep, units)} deep is {deep / tool.width:.1f} times the insert's width"
        message = f"{share}, and chips jam in a face groove deeper than {DEEPEST:g} times: watch them."
        yield Level.CAUTION, PlanCode.DEEP_AND_NARROW, message, deep / tool.width
