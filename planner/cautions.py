"""Cautions and notes: what a person must look at although the plan is right. Never silent, never a stop.

Rules of thumb, each with its source beside its figure.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from extractor.finding import Finding, Level
from extractor.limits import EPS, aims_of
from extractor.part import Groove, Part
from extractor.printable import printable
from extractor.side import INSIDE, OUTSIDE
from planner.blade import blade_findings
from planner.codes import PlanCode
from planner.corners import CLOSE_CORNER
from planner.cuts.chamfers import cuttable, known, rounded_off
from planner.cuts.form import FORMS
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.strokes import peck_of
from planner.faces import face_remarks
from planner.fit import bore_at
from planner.holding import holding_findings
from planner.needs import hole_at, share_left
from planner.words import numbers, size

# Depth over width of an insert beyond which it tends to chatter and break (tool catalogues: 8 in steel).
DEEPEST = 8.0
# Feed per revolution over width that an insert bears in a full plunge (0.15 at 3 wide, from memory, common practice).
HIGHEST_FEED = 0.08
# Floor over mouth diameter below which what is left is a neck (common practice, no source).
THIN_NECK = 0.25
# Surface speed over the greatest usual one above which a digit has slipped (common practice, no source).
FAR_ABOVE = 1.5
# Thickness over height of a land that bends in whatever order its grooves are cut (common practice, no source).
THIN_LAND = 0.2
# A cut to the side of less than so many feeds is more pushed than cut (common practice, no source).
THIN_CUT = 0.5
# Overhang over diameter of an internal bar beyond which it chatters (tool catalogues: 3 for steel bars).
BAR = 3.0
# Least bore of a bar over the bore that it goes into, above which chips hardly come out (common practice, no source).
CHIP_ROOM = 0.9
# How far a holder's shank may reach to the side of its insert (common practice: shanks of 20 to 32 mm).
SHANK = {"mm": 32.0, "in": 1.25}


class RowRemark(NamedTuple):
    """Something true of a row: level, code, sentence without the groove numbers, and how bad it is of its kind."""

    level: Level
    code: PlanCode
    message: str
    weight: float = 0.0


def cautions(setting: Setting, rows: Sequence[Placed]) -> tuple[Finding, ...]:
    """Every caution and note on these rows; what is true of several is said once, with the worst figure."""
    part = setting.part
    along = [row for row in rows if row.side.axial]
    said: dict[tuple[Level, PlanCode, str], dict[RowRemark, list[int]]] = {}
    for row in rows:
        grooves = [part.grooves[number - 1] for number in row.grooves]
        for remark in _row_remarks(grooves, row, setting):
            said.setdefault(_kind(remark), {}).setdefault(remark, []).extend(row.grooves)
        for groove in grooves:
            for remark in (*_corners(groove, row, part), *_chamfers(groove, row, setting)):
                said.setdefault(_kind(remark), {}).setdefault(remark, []).append(groove.id)
    held = (*holding_findings(setting, rows), *blade_findings(setting, rows))
    of_job = (*_of_shop(setting, rows), *held)
    return (*of_job, *_thin_lands(along, part), *(_at_its_worst(one) for one in said.values()))


def _kind(remark: RowRemark) -> tuple[Level, PlanCode, str]:
    """What makes remarks one: level and code, and where no figure ranks them, their words, which may name a tool."""
    return remark.level, remark.code, "" if remark.weight else remark.message


def _at_its_worst(said: Mapping[RowRemark, Sequence[int]]) -> Finding:
    """One finding of remarks of one kind: the worst with its grooves, and which others it is true of."""
    worst = max(said, key=lambda remark: remark.weight)
    who = sorted(said[worst])
    others = sorted({number for some in said.values() for number in some} - set(who))
    told = f"{worst.message.rstrip('.')}; so for {numbers(others).lower()}, by no more." if others else worst.message
    return Finding(worst.level, worst.code, f"{numbers(who)}: {told}", groove=who[0])


def _row_remarks(grooves: Sequence[Groove], row: Placed, setting: Setting) -> Iterator[RowRemark]:
    """What is true of all grooves of a row; how slender an insert is on a face, and what stands there, others say."""
    yield from _tight(grooves, row, setting)
    yield from _pecking(row, setting)
    if row.side.axial:
        yield from _slender(grooves, row, setting.part)
        yield from _shoulder(grooves, row, setting.part)
    else:
        yield from (RowRemark(*remark) for remark in face_remarks(row, setting))


def _of_shop(setting: Setting, rows: Sequence[Placed]) -> Iterator[Finding]:
    """What the shop file left open, and a speed that looks like a slip."""
    part, shop = setting.part, setting.shop
    if "tools" in shop.built_in:
        yield _caution(
            PlanCode.BUILT_IN_TOOLS,
            "The inserts are built-in ones and their stations are not those of your turret: "
            "give your own in a shop file, or set up exactly what the program's head says.",
        )
    if "material" in shop.built_in and "material" not in shop.unsaid:
        speed, unit = shop.material.cutting_speed, "m/min" if part.units == "mm" else "ft/min"
        message = (
            f"Cutting speed ({speed:g} {unit}) or force for {_plain(shop.material.name)} is a built-in starting value: "
            "the insert's data sheet comes first."
        )
        yield Finding(Level.NOTE, PlanCode.STARTING_VALUES, message)
    yield from _too_fast(setting, rows)


def _too_fast(setting: Setting, rows: Sequence[Placed]) -> Iterator[Finding]:
    """The fastest tool, where it runs far above what such materials are grooved at."""
    material, unit = setting.shop.material, "m/min" if setting.part.units == "mm" else "ft/min"
    fastest = max(rows, key=lambda row: setting.surface_speed(row.tool))
    speed = setting.surface_speed(fastest.tool)
    if 0 < FAR_ABOVE * material.fastest < speed:
        message = (
            f"{fastest.tool.name} runs at {speed:g} {unit} in {_plain(material.name)}, and such materials are grooved "
            f"at {material.fastest:g} at most: check the digits of cutting_speed."
        )
        yield Finding(Level.CAUTION, PlanCode.SPEED_HIGH, message, groove=fastest.grooves[0])


def _thin_lands(rows: Sequence[Placed], part: Part) -> Iterator[Finding]:
    """Lands between two grooves that are thin for their height, in whatever order they are cut; one finding a side."""
    for side in (OUTSIDE, INSIDE):
        cut = sorted(number for row in rows if row.side == side for number in row.grooves)
        pairs = [(part.grooves[a - 1], part.grooves[b - 1]) for a, b in pairwise(cut)]
        thin = [(one, two) for one, two in pairs if one.z_far - two.z_near < THIN_LAND * min(one.depth, two.depth)]
        if thin:
            one, two = min(thin, key=lambda pair: (pair[0].z_far - pair[1].z_near) / min(pair[0].depth, pair[1].depth))
            land, high = one.z_far - two.z_near, min(one.depth, two.depth)
            others = f", the thinnest of {len(thin)} such" if len(thin) > 1 else ""
            message = (
                f"The land between grooves {one.id} and {two.id} is {size(land, part.units)} thick and "
                f"{size(high, part.units)} high{others}: it may bend while the second one is cut, so measure it."
            )
            yield Finding(Level.CAUTION, PlanCode.THIN_LAND, message, groove=one.id)


def _tight(grooves: Sequence[Groove], row: Placed, setting: Setting) -> Iterator[RowRemark]:
    """One plunge by an insert whose width lies near a limit that the drawing gives."""
    tolerance, width = setting.shop.machine.tolerance, row.tool.width
    limits = [aims_of(groove, tolerance).width for groove in grooves if groove.shape not in FORMS]
    along = row.side.along
    near = any(one.given and min(width - one.low / along, one.high / along - width) < tolerance - EPS for one in limits)
    step = setting.increments.length(row.layout.gap) / along
    if 0 < step < THIN_CUT * row.tool.feed and row.contour is None:
        message = (
            f"the second plunge takes only {size(step, setting.part.units)} off a wall, which may push the insert "
            "aside instead: measure the first one."
        )
        yield RowRemark(Level.NOTE, PlanCode.THIN_CUT, message, -step)
    if near and not row.layout.span:
        message = (
            f"the insert's {size(width, setting.part.units)} lies near a limit of the width: measure the first one."
        )
        yield RowRemark(Level.NOTE, PlanCode.WIDTH_NEAR_LIMIT, message)


def _pecking(row: Placed, setting: Setting) -> Iterator[RowRemark]:
    """Pecks after which the tool stays in the cut."""
    peck, back = peck_of(row, setting), setting.increments.count(row.tool.retract)
    if row.contour is None and peck and not back and setting.cycles != "own retract":
        far = size(setting.increments.length(peck), setting.part.units)
        message = f"{row.tool.name} pecks by {far} with a retract of 0, so it frees no chip: give a retract, or peck 0."
        yield RowRemark(Level.CAUTION, PlanCode.PECK_WITHOUT_RETRACT, message)


def _corners(groove: Groove, row: Placed, part: Part) -> Iterator[RowRemark]:
    """The insert's corner radius where the drawing draws none, or a larger one."""
    radius, drawn = row.tool.corner_radius, groove.corner_radius
    left = size(radius, part.units) if radius > EPS else "them sharp"
    if drawn <= EPS and radius > EPS:
        words = f"corners are drawn sharp, the insert leaves {left}."
        yield RowRemark(Level.NOTE, PlanCode.CORNER_SHARP_AS_DRAWN, words, radius)
    elif row.contour is None and groove.shape not in FORMS and drawn - radius > CLOSE_CORNER * row.tool.width + EPS:
        message = (
            f"corners are drawn {size(drawn, part.units)} round and the insert leaves {left}: ask whether that will do."
        )
        yield RowRemark(Level.CAUTION, PlanCode.CORNER_SMALLER, message, drawn - radius)


def _chamfers(groove: Groove, row: Placed, setting: Setting) -> Iterator[RowRemark]:
    """Chamfers and radii at the mouth that the insert's corner doesn't cut."""
    if groove.edge_chamfer <= EPS or groove.shape in FORMS or row.contour is not None:
        return
    tolerance, leg = setting.shop.machine.tolerance, size(groove.edge_chamfer, setting.part.units)
    drawn, able = known(groove, row.ground, tolerance), cuttable(groove, row.ground, row.tool, setting.shop)
    # Of a face only the rims that are known to have it are cut, so one that isn't known is said.
    if drawn == able and any(drawn) and (row.side.axial or all(drawn)):
        return
    code, what = PlanCode.CHAMFER_NOT_CUT, "chamfer"
    if any(rounded_off(groove, row.ground, tolerance)):
        code, what = PlanCode.RADIUS_NOT_CUT, "radius"
    message = f"this program doesn't cut the {what} of {leg} at the mouth, or not on both sides."
    if row.side.axial and not any(drawn):
        odd = "neither at 45 degrees nor by a quarter circle"
        message = f"the edge at the mouth is broken over {leg}, but {odd}: this program leaves it sharp."
    yield RowRemark(Level.CAUTION, code, message, groove.edge_chamfer)


def _slender(grooves: Sequence[Groove], row: Placed, part: Part) -> Iterator[RowRemark]:
    """Deep and narrow: chatter, chips that jam."""
    deepest, width = max(groove.depth for groove in grooves), row.tool.width
    if deepest > DEEPEST * width + EPS:
        message = (
            f"{size(deepest, part.units)} deep is {deepest / width:.1f} times the insert's width, and more than "
            f"{DEEPEST:g} times is rarely quiet: watch the chips."
        )
        yield RowRemark(Level.CAUTION, PlanCode.DEEP_AND_NARROW, message, deepest / width)
    least = min(grooves, key=lambda groove: share_left(groove, part)) if row.side == OUTSIDE else None
    if least is not None and share_left(least, part) < THIN_NECK:
        wall = size((least.floor_diameter - hole_at(least, part)) / 2, part.units)
        left = f"a wall of {wall}" if hole_at(least, part) else f"{size(least.floor_diameter, part.units)} across"
        message = f"only {left} is left, which may bend or break while it is cut."
        yield RowRemark(Level.CAUTION, PlanCode.THIN_NECK, message, -share_left(least, part))
    if row.tool.feed > HIGHEST_FEED * width + EPS:
        share = f"{HIGHEST_FEED:g} of its width"
        words = f"the feed of {row.tool.name} is more than {share}, which few inserts bear."
        yield RowRemark(Level.CAUTION, PlanCode.FEED_HIGH, words)


def _shoulder(grooves: Sequence[Groove], row: Placed, part: Part) -> Iterator[RowRemark]:
    """A higher land near enough for the holder's shank, where the shop file doesn't describe the holder."""
    tool, shank = row.tool, SHANK[part.units]
    high: set[str] = set()
    for groove in grooves:
        if groove.side != OUTSIDE:
            continue
        limit = groove.floor + groove.side.up * tool.max_depth + EPS
        if tool.holder_near is None and row.ground.highest(groove.near, groove.near + shank) > limit:
            high.add("holder_near")
        if tool.holder_far is None and row.ground.highest(groove.far - shank, groove.far) > limit:
            high.add("holder_far")
    if row.side.hollow and tool.min_bore <= EPS:
        words = f"{tool.name} has no min_bore, so see that its bar goes into the bore."
        yield RowRemark(Level.CAUTION, PlanCode.BORE_UNCHECKED, words)
    if row.side.hollow and -grooves[-1].z_far > BAR * tool.min_bore > EPS:
        message = f"the bar of {tool.name} sticks out more than {BAR:g} times its least bore, so expect chatter."
        yield RowRemark(Level.CAUTION, PlanCode.BAR_OVERHANG, message, -grooves[-1].z_far)
    bores = [bore_at(groove, part) for groove in grooves] if row.side.hollow else []
    if bores and min(bores) * CHIP_ROOM < tool.min_bore:
        message = f"the bar of {tool.name} nearly fills the bore of {size(min(bores), part.units)}: watch the chips."
        yield RowRemark(Level.CAUTION, PlanCode.CHIP_ROOM, message)
    if high:
        message = (
            f"a land nearby stands higher than the reach of {tool.name}; see that the holder clears it, "
            f"or give {' and '.join(sorted(high))} in the shop file."
        )
        yield RowRemark(Level.CAUTION, PlanCode.HOLDER_NEAR_SHOULDER, message)


def _caution(code: PlanCode, message: str) -> Finding:
    """A caution about the whole job."""
    return Finding(Level.CAUTION, code, message)


def _plain(text: str) -> str:
    """A name from the shop file on one line, of bounded length."""
    return printable(text)[:60]
