"""Face grooves in words: why each is cut as it is, and what a person must look at."""

from collections.abc import Iterator, Sequence

from extractor.finding import Finding, Level
from extractor.limits import EPS, aims_of
from planner.corners import CLOSE_CORNER, SHARPER
from planner.cuts.face import FaceRow
from planner.cuts.face_strokes import bevelled, pauses, slow_part
from planner.cuts.moves import Setting
from planner.load import load_reasons
from planner.words import figure, numbers, size, times

# Depth over width of a face insert beyond which chips jam between its curved walls (common practice, no source).
DEEPEST = 4.0


def face_reasons(row: FaceRow, setting: Setting) -> tuple[str, ...]:
    """All sentences for one face groove."""
    return (*_plunges(row, setting), *_aims(row, setting), *_ends(row, setting))


def _plunges(row: FaceRow, setting: Setting) -> Iterator[str]:
    """How the width is made, and where X and Z begin."""
    units, length, tool = setting.part.units, setting.increments.length, row.tool
    count = times(len(row.outer_edges), "plunge")
    yield f"{numbers(row.grooves)} is cut along Z with {tool.name}, {size(tool.width, units)} wide: {count}."
    if row.ribs:
        yield "Full plunges come first and then the ribs, so both corners carry the same load."
    elif len(row.outer_edges) > 1:
        way = "inward" if row.outer_edges[0] > row.outer_edges[-1] else "outward"
        yield f"They go {way} side by side: only the first is into solid metal, where the insert's curve must fit."
    if row.finish:
        yield f"{size(length(row.finish), units)} is left on walls and floor for a pass over wall, floor and wall."
    edge = "outer" if tool.reference == "near" else "inner"
    first = size(length(row.outer_edges[0]), units)
    yield f"X is the {edge} edge of the insert; its first plunge is {first} across outside."
    clearance = size(setting.shop.machine.clearance, units)
    yield f"Z starts at {figure(length(row.start_z), units)}, {clearance} off the face."


def _aims(row: FaceRow, setting: Setting) -> Iterator[str]:
    """Where walls and floor are aimed away from what is drawn."""
    units, tolerance = setting.part.units, setting.shop.machine.tolerance
    drawn = setting.drawn.grooves[row.grooves[0] - 1]
    aims = aims_of(drawn, tolerance)
    aimed = [
        (f"The {name} is", limits.aim, nominal)
        for name, limits, nominal in (
            ("outer wall", aims.near, drawn.mouth_diameter),
            ("inner wall", aims.far, drawn.floor_diameter),
            ("floor", aims.floor, drawn.z_far),
        )
    ]
    for what, aim, nominal in aimed:
        if abs(aim - nominal) > setting.increments.length(1) / 2 + EPS:
            middle = "the middle of what its tolerance allows"
            yield f"{what} aimed at {figure(aim, units)}, {middle}; drawn {figure(nominal, units)}."


def _ends(row: FaceRow, setting: Setting) -> Iterator[str]:
    """How a plunge ends, how the mouth is broken, and that all of it is written out."""
    tool, units = row.tool, setting.part.units
    if slow_part(row):
        last, share = size(tool.width, units), f"{100 * tool.last_feed:.0f} %"
        yield f"The groove is deep, so the last {last} go at {share} of the feed."
    if any(bevelled(row, setting)):
        yield "The insert's corner cuts the chamfers at the mouth, a little farther in for its radius."
    if pauses(row, setting):
        yield f"It dwells for {tool.dwell:g} turns at the floor, whose tolerance the drawing gives."
    yield "A face groove is written out peck by peck."
    length = setting.increments.length
    yield from load_reasons(tool, length(row.walls[0]), length(row.walls[1]), setting)


def face_cautions(rows: Sequence[FaceRow], setting: Setting) -> Iterator[Finding]:
    """Everything worth a look about face grooves."""
    for row in rows:
        said = (*_unchecked(row, setting), *_shape(row, setting), *_load(row, setting))
        for level, code, message in said:
            yield Finding(level, code, f"{numbers(row.grooves)}: {message}", groove=row.grooves[0])


def _unchecked(row: FaceRow, setting: Setting) -> Iterator[tuple[Level, str, str]]:
    """What is not known of the insert, and a centre in the way."""
    name = row.tool.name
    if not row.tool.face_max:
        message = f"{name} has no face_min and face_max, so see that its curve clears the groove's outer wall."
        yield Level.CAUTION, "face-curve-unchecked", message
    if setting.shop.machine.tailstock:
        yield Level.CAUTION, "tailstock", f"see that {name} clears the tailstock's centre on its way."


def _shape(row: FaceRow, setting: Setting) -> Iterator[tuple[Level, str, str]]:
    """Corners and chamfers that come out other than drawn."""
    units, tool = setting.part.units, row.tool
    groove = setting.drawn.grooves[row.grooves[0] - 1]
    left = size(tool.corner_radius, units)
    if groove.corner_radius <= EPS < tool.corner_radius:
        yield Level.NOTE, "corner-sharp-as-drawn", f"corners are drawn sharp, the insert leaves {left}."
    elif groove.corner_radius - tool.corner_radius > CLOSE_CORNER * tool.width + EPS:
        drawn = size(groove.corner_radius, units)
        yield Level.CAUTION, SHARPER, f"corners are drawn {drawn} round and the insert leaves {left}: ask if that does."
    if groove.edge_chamfer > setting.shop.machine.tolerance and bevelled(row, setting) != (True, True):
        leg = size(groove.edge_chamfer, units)
        message = f"this program doesn't cut the chamfer of {leg} at the mouth, or not on both sides."
        yield Level.CAUTION, "chamfer-not-cut", message


def _load(row: FaceRow, setting: Setting) -> Iterator[tuple[Level, str, str]]:
    """Deep and narrow, or deep in one go."""
    tool, units = row.tool, setting.part.units
    deep = setting.increments.length(row.face_z - row.floor_z)
    if deep > DEEPEST * tool.width + EPS:
        share = f"{size(deep, units)} deep is {deep / tool.width:.1f} times the insert's width"
        message = f"{share}, and chips jam in a face groove deeper than {DEEPEST:g} times: watch them."
        yield Level.CAUTION, "deep-and-narrow", message
    if deep > tool.width + EPS and tool.peck <= EPS:
        yield Level.CAUTION, "no-peck", f"{size(deep, units)} deep in one go, because {tool.name} has no peck."
