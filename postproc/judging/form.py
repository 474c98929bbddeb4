"""Grooves that no plain plunge makes (vee, round, tapered, round corners): held against the drawn profile itself.

Mouth and floor are measured on both profiles in the same way; then the cut must lie everywhere within the tolerance of
the drawn line, along u or in height, whichever is nearer. In hollow corners drawn sharp the insert's radius may stand.
"""

from dataclasses import replace

import numpy as np

from extractor.finding import Finding, Level
from extractor.limits import corner_limits, is_limited
from extractor.sheet import Ints
from extractor.side import OUTSIDE, Side
from planner.cuts.curves import filleted
from planner.shop import Tool
from postproc.codes import ProgramCode
from postproc.judging.line import CHORD, DrawnLine
from postproc.judging.measure import MeasuredCut, state_of
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target
from postproc.verdict import State

ROUNDING = 2
"""Counts of height that chords and rounding to whole counts move a line by, where it is held along u."""


def measure_form(
    target: Target, cut: Overlay, drawn: Overlay, line: DrawnLine, window: Stretch, drop: int, corner: float
) -> MeasuredCut:
    """Measure the recess within a window against the drawn outline.

    `cut` and `drawn` lie over the same lands, `line` is the drawn line in full; `drop` is the tolerance, in h counts
    and along u. `corner`: the radius that may stand in hollow corners drawn sharper.
    """
    # As far as the cut reaches, for a rim or a cone beside the mouth is cut with it or not at all.
    reach = (min(window[0], target.u0) - drop, max(window[1], target.u1) + drop)
    mouth = _mouth(drawn, reach, drop) or (target.u0, target.u1)
    u0, u1 = target.u0 + window[0] - mouth[0], target.u1 + window[1] - mouth[1]
    floor = target.floor + cut.range(window)[0] - round(line.range(*mouth)[0])
    difference = target.differences(u0, u1, floor)
    state = state_of(_by_walls(target), u0, u1, floor)
    if state is not State.MATCHES:
        return MeasuredCut(u0=u0, u1=u1, floor=floor, state=state, difference=difference)
    aimed = _as_tolerated(target, line, (u0, u1), floor)
    off = _off(cut, (aimed, aimed.filled(corner)), reach, drop)
    if off is None:
        return MeasuredCut(u0=u0, u1=u1, floor=floor, state=state, difference=difference)
    return MeasuredCut(
        u0=u0, u1=u1, floor=floor, state=State.DEPTH, difference=difference, findings=(_finding(target, off),)
    )


def measure_corners(
    target: Target, cut: Overlay, measured: MeasuredCut, drop: int, insert: float | None = None
) -> MeasuredCut:
    """Hold the corners of an upright groove against the radius drawn, between walls and over the floor as cut.

    Those have tolerances of their own. `insert` is the greatest corner radius of the inserts where none follows the
    corners: what it leaves sharper or rounder is told as a radius (`postproc.judging.edges`), and what stands besides
    is metal left.
    """
    count, limits = target.increments.count, corner_limits(target.groove, 0.0)
    low = limits.low if limits.given else limits.aim
    least, high = (low, limits.high) if insert is None else (0.0, max(limits.high, insert))
    side, mouth = target.groove.side, target.mouth
    lines = corner_line(measured, mouth, count(least), side), corner_line(measured, mouth, count(high), side)
    wide = side.along * count(high)
    inner = [(measured.u0, measured.u0 + wide), (measured.u1 - wide, measured.u1)]
    found = [off for window in inner if (off := _off(cut, lines, window, drop))]
    if not found:
        return measured
    worst = max(found, key=lambda off: abs(off[1]))
    return replace(measured, state=State.DEPTH, findings=(*measured.findings, _finding(target, worst, "corners")))


def held_in_face(target: Target) -> bool:
    """True for a groove of a face whose form is known by its sizes: upright walls, and a floor that may be half round.

    The outline of a face is kept in no other way.
    """
    groove, loose = target.groove, target.loose + target.slack
    half_round = abs(groove.width - 2 * groove.corner_radius) <= 2 * loose
    return target.upright or (groove.shape == "round" and half_round and groove.depth >= groove.corner_radius - loose)


def unheld(target: Target, measured: MeasuredCut) -> MeasuredCut:
    """A recess in a face that is drawn in a form of which nothing is known: no cut is taken for it."""
    message = (
        f"Groove {target.groove.id} in the face is drawn {target.groove.shape}, a form that is not held against a "
        "cut there; check this one by other means."
    )
    told = Finding(Level.STOP, ProgramCode.FORM, message, groove=target.groove.id)
    state = State.DEPTH if measured.state is State.MATCHES else measured.state
    return replace(measured, state=state, findings=(*measured.findings, told))


def corner_line(measured: MeasuredCut, mouth: int, radius: float, side: Side = OUTSIDE) -> DrawnLine:
    """Upright walls and a level floor as measured, with corners between them as round as there is room for."""
    across, high = side.along, side.up
    u0, u1, floor, top = measured.u0 / across, measured.u1 / across, measured.floor / high, mouth / high
    radius = min(radius, (u1 - u0) / 2)
    square = [(u0, top), (u0, floor), (u1, floor), (u1, top)]
    return DrawnLine(tuple((float(across * u), high * h) for u, h in filleted(square, radius, CHORD)))


def _as_tolerated(target: Target, line: DrawnLine, walls: Stretch, floor: int) -> DrawnLine:
    """The drawn line with what the drawing itself gives a tolerance put where it was cut."""
    groove = target.groove
    loose = target.aims.limited or target.aims.width.given
    moved = (float(walls[0] - target.u0), float(walls[1] - target.u1)) if loose else (0.0, 0.0)
    deeper = float(floor - target.floor) if is_limited(groove, groove.side.bottom) else 0.0
    return line.moved(moved, deeper, float(target.mouth)) if loose or deeper else line


def _by_walls(target: Target) -> Target:
    """The target with each wall's place held for itself where the drawing gives no width.

    Where walls slope, a hair of depth or of nose radius moves both of them apart; each may be off by the tolerance.
    """
    width = target.aims.width
    if width.given:
        return target
    wide = replace(width, low=width.aim - 2 * target.loose, high=width.aim + 2 * target.loose)
    return replace(target, aims=replace(target.aims, width=wide))


def _mouth(profile: Overlay, window: Stretch, drop: int) -> Stretch | None:
    """From where to where a profile lies below the land within a window."""
    found = profile.below_land(drop, window)
    return (found[0][0], found[-1][1]) if found else None


def _off(cut: Overlay, lines: tuple[DrawnLine, DrawnLine], window: Stretch, drop: int) -> tuple[int, int] | None:
    """Where the cut lies farthest outside the band round the drawn line, and by how much; None where it is inside.

    `lines`: what must stand and what may stand at most. Metal that is left counts up, metal that is missing down. A
    place is inside if it lies within `drop` of the line in height, or within `drop` along u.
    """
    least, most = lines
    # A wall that is off along u shows just beyond what is allowed there.
    beside = (0, drop, drop + ROUNDING)
    shifted = [line.places + way * by for line in lines for by in beside for way in (-1, 1)]
    places = np.unique(np.concatenate([*shifted, cut.u]))
    places = places[(places > window[0]) & (places < window[1])]
    up, aside = (_beyond(cut, least, most, places, along) for along in (0, drop))
    outside = (abs(up) > drop) & (abs(aside) > ROUNDING)
    if not outside.any():
        return None
    worst = int(np.argmax(np.where(outside, abs(aside), 0)))
    return int(places[worst]), int(aside[worst])


def _beyond(cut: Overlay, least: DrawnLine, most: DrawnLine, u: Ints, along: int) -> Ints:
    """How far the cut at each place lies above or below all that the lines reach within so much to either side."""
    low, high = least.ranges(u - along, u + along)[0], most.ranges(u - along, u + along)[1]
    cut_low, cut_high = cut.beside(u)
    left, missing = (np.rint(by).astype(np.int64) for by in (cut_low - high, low - cut_high))
    return np.where(left >= missing, np.maximum(left, 0), -np.maximum(missing, 0))


def squared(target: Target, tool: Tool) -> Finding:
    """Say that a square insert plunged straight into a groove of another form."""
    message = (
        f"Groove {target.groove.id} is drawn {target.groove.shape}, and {tool.name}, which goes straight in, has a "
        "square end; take an insert of the groove's form, or follow the drawn line."
    )
    return Finding(Level.STOP, ProgramCode.FORM, message, groove=target.groove.id)


def _finding(target: Target, off: tuple[int, int], what: str = "form") -> Finding:
    """Say where the form is off, and to which side."""
    groove, length = target.groove, target.increments.length
    corners = f"has corners drawn {groove.corner_radius:g} round"
    drawn = corners if what == "corners" else f"is drawn {groove.shape}"
    side = "metal is left that should be gone" if off[1] > 0 else "metal is gone that should be left"
    over = " on the diameter" if groove.side.axial else ""
    message = (
        f"Groove {groove.id} {drawn}; at {groove.side.axis}{length(off[0]):g} the cut is {length(abs(off[1])):g} off "
        f"that{over}: {side}."
    )
    return Finding(Level.STOP, ProgramCode.FORM, message, groove=groove.id)
