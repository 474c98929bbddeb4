"""Why an operation is as it is: one sentence for each decision, for the record and whoever proves the program out."""

from collections.abc import Iterator, Sequence

from extractor.limits import EPS, aims_of
from extractor.part import Part
from planner.blade import blade_reasons
from planner.cuts.beside import Beside
from planner.cuts.chamfers import CORNER_SHARE, cuttable, rounded_off
from planner.cuts.contour import Contour
from planner.cuts.contouring import allowance_of
from planner.cuts.form import FORMS
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.strokes import pauses, runs, slow_part
from planner.cuts.widen import Layout
from planner.holding import allowed_aside, pushed_aside
from planner.load import load_reasons
from planner.rows.sets import LIKE_WITHIN, alike
from planner.words import figure, numbers, size, times

# Share of what a part may give at a groove from which it is worth a word (common practice, no source).
WORTH_TELLING = 0.2


def reasons(row: Placed, start_x: int, rows: Sequence[Placed], setting: Setting) -> tuple[str, ...]:
    """All sentences for one row."""
    return (
        *_set(row, rows, setting),
        *_insert(row, rows, setting),
        *_plunges(row, setting),
        *_place(row, setting),
        *_start(row, start_x, setting),
        *_rims(row, setting),
        *_load(row, setting),
    )


def _set(row: Placed, rows: Sequence[Placed], setting: Setting) -> Iterator[str]:
    """Why these grooves go together."""
    units, length = setting.part.units, setting.increments.length
    blocks = times(len(runs(row)), "cycle")
    if row.even:
        yield f"{numbers(row.grooves)} are alike; an even pitch saves nothing here, so they are cut from the front on."
    elif row.shift:
        apart = size(length(row.shift), units)
        all_of_them = "both" if len(row.places) == 2 else f"all {len(row.places)}"
        blocks = "one row" if setting.cycles == "none" else blocks
        yield f"{numbers(row.grooves)} are alike and {apart} apart: {blocks} for {all_of_them}."
    elif not row.notes and any(_kin(row, other, setting.part) for other in rows if other is not row):
        yield f"{numbers(row.grooves)} lies off the pitch of those like it, so it is cut by itself."
    elif not row.notes and len(rows) > 1:
        yield f"No other groove has the size of groove {row.grooves[0]}, so it is cut by itself."
    yield from row.notes
    if row.shift and row.error > length(1) / 2 + EPS:
        yield f"The pitch puts a groove up to {size(row.error, units)} off its true place, which its tolerance allows."


def _kin(row: Placed, other: Placed, part: Part) -> bool:
    """True if two rows are cut alike, from the same lands."""
    one, two = (part.grooves[some.grooves[0] - 1] for some in (row, other))
    same = (row.tool, row.floor, row.layout) == (other.tool, other.floor, other.layout)
    return same and alike(one, two, LIKE_WITHIN[part.units], as_cut=row.contour is None)


def _insert(row: Placed, rows: Sequence[Placed], setting: Setting) -> Iterator[str]:
    """Why this insert."""
    tool, others = row.tool, {r.tool.name for r in rows}
    units = setting.part.units
    what = f"{tool.name} is {size(tool.width, units)} wide with a reach of {size(tool.max_depth, units)}"
    if len(others) == 1 and len(rows) > 1:
        yield f"{what}; one insert cuts the whole part, so no tool change is needed."
    else:
        yield f"{what}."


def _plunges(row: Placed, setting: Setting) -> Iterator[str]:
    """How the width is made."""
    layout, units, length = row.layout, setting.part.units, setting.increments.length
    if row.contour is not None:
        yield from _path(row, row.contour, setting)
        return
    if len(layout.offsets) == 1 and not layout.span:
        drawn = setting.part.grooves[row.grooves[0] - 1]
        if drawn.shape in FORMS:
            yield "The insert has the groove's own form: one plunge."
        elif abs(row.tool.width - drawn.width) <= length(1):
            yield "The insert is as wide as the groove: one plunge."
        else:
            width = aims_of(drawn, setting.shop.machine.tolerance).width
            allowed = f"{figure(width.low, units)} to {figure(width.high, units)}"
            yield f"The insert's width lies within what the groove's may be, {allowed}: one plunge."
        return
    count = times(len(layout.offsets), "plunge")
    if layout.ribs:
        yield f"The groove is wider: {count}, full ones first and then the ribs, so both corners carry the same load."
    elif layout.gap:
        yield f"The groove is wider: {count} {size(length(layout.gap), units)} apart {_end(layout)}."
    elif len(layout.offsets) > 1:
        yield f"The groove is wider: {count} {_end(layout)}."
    else:
        yield "The groove is a little wider: one plunge in its middle."
    if layout.finish:
        yield f"{size(length(layout.finish), units)} is left on walls and floor for a pass over wall, floor and wall."


def _end(layout: Layout) -> str:
    """What several plunges come to."""
    return "rough it out" if layout.finish else "meet both walls"


def _path(row: Placed, contour: Contour, setting: Setting) -> Iterator[str]:
    """How a recess is roughed and then followed with the insert's edge."""
    units = setting.part.units
    left = size(setting.increments.length(allowance_of(row.tool, setting.increments)), units)
    steps = len(contour.plunges) - contour.level
    level = times(contour.level, "plunge")
    higher = f" and {times(steps, 'step')} higher up its walls" if steps else ""
    leave = "leave" if len(contour.plunges) > 1 else "leaves"
    yield f"No plain plunge leaves it as drawn: {level} over the floor{higher} {leave} {left} for a finishing path."
    arcs = sum(bool(move.radius) for half in (contour.near, contour.far) for move in half)
    bends = f" with {times(arcs, 'arc')}" if arcs else ""
    what = "corner radius" if row.tool.edge == "square" else f"{row.tool.edge} edge"
    yield (
        f"The insert's edge follows the drawn line{bends}, offset for its {what}: down the near wall, over the floor, "
        "out, then down the far wall, never upward into metal."
    )


def _place(row: Placed, setting: Setting) -> Iterator[str]:
    """What Z means, and where the floor is aimed."""
    edge = "chuck" if row.tool.reference == "far" else "front"
    yield f"Z is the edge of the insert on the {edge} side."
    units, floor = setting.part.units, setting.increments.length(row.floor_across)
    floors = sorted({setting.part.grooves[number - 1].floor_diameter for number in row.grooves})
    if max(abs(floor - drawn) for drawn in floors) > setting.increments.length(1) / 2 + EPS:
        middle = "the middle of what its tolerance allows"
        if len(floors) > 1:
            middle = "the middle of what the tolerances of all allow"
        drawn = " to ".join(figure(one, units) for one in dict.fromkeys((floors[0], floors[-1])))
        yield f"The floor is aimed at {figure(floor, units)}, {middle}; drawn {drawn}."


def _start(row: Placed, start_x: int, setting: Setting) -> Iterator[str]:
    """Where X begins."""
    units, length = setting.part.units, setting.increments.length
    clearance, side = setting.shop.machine.clearance, row.side
    beside = Beside(row, setting)
    land = side.sign * (length(beside.start) - side.up * clearance)
    where, what = ("inside", "narrowest bore") if side.hollow else ("above", "highest land")
    how = "passes or stands beside" if beside.start == beside.high else "comes down on, off the face beside it"
    yield (
        f"X starts at {figure(length(start_x), units)}: {size(clearance, units)} a side {where} "
        f"{figure(land, units)}, the {what} that the insert {how}."
    )


def _rims(row: Placed, setting: Setting) -> Iterator[str]:
    """How slopes and the chamfers at the mouth are cut."""
    grooves = [setting.part.grooves[number - 1] for number in row.grooves]
    if row.contour is not None:
        return
    if grooves[0].shape == "tapered":
        yield "The sloping walls are cut after the plunges, downward with the insert's corner, offset for its radius."
    cut = [groove for groove in grooves if any(cuttable(groove, row.ground, row.tool, setting.shop))]
    bent = [groove for groove in cut if any(rounded_off(groove, row.ground, setting.shop.machine.tolerance))]
    if bent:
        way = size(bent[0].edge_chamfer + row.tool.corner_radius, setting.part.units)
        yield f"The insert's corner goes round the radius at the mouth on an arc of {way}, its own radius added."
    if len(cut) > len(bent):
        extra = size(CORNER_SHARE * row.tool.corner_radius, setting.part.units)
        yield f"The insert's corner cuts the chamfers at the mouth, {extra} farther in along each axis for its radius."


def _load(row: Placed, setting: Setting) -> Iterator[str]:
    """Force and power of a full plunge, and a slower end of a deep one."""
    if slow_part(row, setting):
        last, share = size(row.tool.width, setting.part.units), f"{100 * row.tool.last_feed:.0f} %"
        yield f"The groove is deep, so the last {last} go at {share} of the feed."
    if row.contour is None and pauses(row, setting):
        yield f"It dwells for {row.tool.dwell:g} turns at the floor, whose tolerance the drawing gives."
    grooves = [setting.part.grooves[number - 1] for number in row.grooves]
    ends = [across for groove in grooves for across in (groove.mouth_diameter, groove.floor_diameter)]
    yield from load_reasons(row.tool, max(ends), min(ends), setting)
    yield from blade_reasons(row, setting)
    out = setting.shop.machine.stick_out
    if out is None:
        return
    aside = {groove.id: pushed_aside(groove, row.tool, setting, out) or 0.0 for groove in grooves}
    worth = [aside[one.id] for one in grooves if aside[one.id] >= WORTH_TELLING * allowed_aside(one, setting)]
    if worth:
        yield f"It pushes the part about {size(max(worth), setting.part.units)} aside, with the jaws taken for rigid."
