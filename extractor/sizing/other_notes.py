"""Notes that size no groove whole, held against what they touch or name: a thread, a chamfer, a place, a change.

Rules: a thread's nominal diameter is that of the land that its leader touches or its dimension measures (ISO 6410-1,
from memory); in a bore its core may be drawn instead. A chamfer's size is its leg, an angle that of a groove's walls.
`11 TO FIRST GROOVE` is the distance of either wall or of the middle, from the end that the note names, else from either
end. Of a change the new size must be drawn, if a groove still has the old one.
"""

import math
import re
from collections.abc import Iterable, Iterator
from itertools import pairwise

import shapely

from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Point
from extractor.part import Groove, Part
from extractor.sheet import Dimension, Sheet
from extractor.sizing.angles import PEN
from extractor.sizing.front_words import FRONT
from extractor.sizing.groove_notes import PrintedFigure
from extractor.sizing.note_checks import (
    ABOUT_DEPTH,
    ABOUT_WIDTH,
    COUNTS,
    TOUCH,
    agrees_with,
    areas,
    like,
    note_stop,
    sizes_drawn,
)
from extractor.sizing.note_words import CHANGED, PLACE
from extractor.sizing.pointers import PointedNote, led, said
from extractor.sizing.printed import NUMBER, normalised
from extractor.sizing.ties import Features, tie_of
from extractor.sizing.unit_evidence import INCH

THREAD = re.compile(
    rf"M\s?(?P<size>{NUMBER})(?:\s*[xX×]\s*(?P<pitch>{NUMBER}))?(?:\s*-?\s*(?:\d[e-h]){{1,2}})?(?:\s*-?\s*LH)?"
)
"""A thread and nothing else; a fit such as 6g is that of an external one (ISO 965-1, from memory)."""
TURNED = 0.95, 1.01
"""Shares of a thread's nominal diameter between which its land may be drawn: it is turned below it by its tolerance
(M3 to 4.2 %, ISO 965-1, from memory)."""
CORE = 1.2
"""Pitches by which the core of a thread in a bore lies below the nominal diameter, at most: by 1.08 in the standard
(ISO 724, from memory)."""
COARSE = 0.75
"""The least share that the core has of the nominal diameter where no pitch is printed: of M1.6 it is 0.76."""
TAPPED = 0.75
"""A thread smaller than this share of the land that it points to may be tapped in a hole across it."""
CHAMFER = re.compile(
    rf"(?:\d+\s*(?:[xX×]|-(?=\s*C))\s*)?(?:C\s*(?P<c>{NUMBER})|45\s*°\s*[xX×]\s*(?P<behind>{NUMBER})"
    rf"|(?P<leg>{NUMBER})\s*[xX×]\s*45\s*°)[^\d°]*"
)
"""A chamfer of 45 degrees and nothing else."""
SLOPE = re.compile(rf"(?:(?P<count>\d+)\s*[xX×]\s+)?(?P<angle>{NUMBER})\s*°(?!\s*[\dxX×]).*")
"""An angle, counted or not; `1x30°` is a chamfer."""
SLOPED = ("vee", "tapered", "other")
"""Shapes of grooves whose walls have an angle."""
WALLS = 2
"""Walls that each of them has."""
SLANT = 1e-3
"""Share of an edge by which its two legs may differ, for it to be one of 45 degrees."""


def other_findings(sheet: Sheet, part: Part) -> Iterator[Finding]:
    """What such notes of a sheet contradict on a part."""
    if part.frame is None:
        return
    features = Features.of(part, part.frame)
    for note in said(sheet, lambda words: any(form.fullmatch(normalised(words)) for form in CHECKS)):
        line = normalised(note.words)
        found, check = next((found, check) for form, check in CHECKS.items() if (found := form.fullmatch(line)))
        if fault := check(found, note, features):
            yield note_stop(line, (fault,), None, note.tip or note.at)
    for dimension in (d for d in sheet.dimensions if d.measured > 0):
        thread = THREAD.fullmatch(normalised(dimension.text or ""))
        if thread is not None and (fault := _off_land(thread, dimension, features)):
            yield note_stop(thread[0], (fault,), None, dimension.points[0])


def _thread(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the diameter of a thread, "" for nothing."""
    return "" if note.tip is None else _off_land(found, led(note.words, note.tip, note.at), features)


def _off_land(found: re.Match[str], dimension: Dimension, features: Features) -> str:
    """What is wrong about a thread on a dimension, or a leader, of a land."""
    tie = tie_of(dimension, features)
    if tie is None or tie.field != "land_diameter":
        return ""
    size, land = float(found["size"]), tie.true * (1.0 if features.part.units == "mm" else INCH)
    core = size - CORE * float(found["pitch"]) if found["pitch"] else COARSE * size
    least = core if _in_bore(tie.true, features.part) else TURNED[0] * size
    fits = least <= land <= TURNED[1] * size
    return "" if fits or size < TAPPED * land else f"is a thread of {size:g} where the drawing measures {land:.6g}"


def _in_bore(across: float, part: Part) -> bool:
    """True for the diameter of a land that is one of the bore's, and none outside."""
    off = [min((abs(2 * r - across) for _, r in line or ()), default=math.inf) for line in (part.bore, part.lands)]
    return off[0] < off[1]


def _chamfer(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the leg of a chamfer, "" for nothing."""
    figure, part = PrintedFigure.of(found["c"] or found["leg"] or found["behind"]), features.part
    if note.tip is None:
        return ""
    z, r = features.frame.on_part(note.tip)
    tip, near = shapely.Point(z, abs(r)), TOUCH * max(part.length, part.outer_diameter)
    edges = (edge for line in (part.outline, part.bore or ()) for edge in pairwise(line))
    slants = (edge for edge in edges if _is_slant(*edge) and shapely.LineString(edge).distance(tip) <= near)
    legs = [abs(one[0] - two[0]) for one, two in slants]
    if not legs or any(agrees_with(figure, leg, part) for leg in legs):
        return ""
    return f"prints a chamfer of {figure.value:g} where the drawing measures {legs[0]:.6g}"


def _is_slant(one: Point, two: Point) -> bool:
    """True for an edge at 45 degrees."""
    along, across = abs(one[0] - two[0]), abs(one[1] - two[1])
    return along > 0 and abs(along - across) <= SLANT * along


def _slope(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the angle of a groove's walls, to the axis or between both, "" for nothing."""
    if note.tip is None:
        return ""
    tip, part = shapely.Point(features.frame.on_part(note.tip)), features.part
    here = [g for g in part.grooves if g.shape in SLOPED and any(area.covers(tip) for area in areas(g))]
    walls = [
        edge
        for line in (part.outline, part.bore or ())
        for edge in pairwise(line)
        if any(all(g.z_far - features.snap <= z <= g.z_near + features.snap for z, _ in edge) for g in here)
    ]
    tilts = [math.degrees(math.atan2(abs(a[0] - b[0]), abs(a[1] - b[1]))) for a, b in walls if a[1] != b[1]]
    printed, slack = float(found["angle"]), half_place(places_of(found["angle"])) + PEN
    drawn = [angle for tilt in tilts for angle in (2 * tilt, tilt, 90 - tilt, 180 - 2 * tilt)]
    if not drawn or any(abs(printed - angle) <= slack for angle in drawn):
        return _miscounted(found["count"], here[0], part) if drawn else ""
    return f"prints the angle {printed:g} where the drawing measures {drawn[0]:.4g}"


def _miscounted(count: str | None, groove: Groove, part: Part) -> str:
    """What is wrong about a count of grooves like one, or of their walls, "" for nothing."""
    read = like(groove, ["width"], part)
    if count is None or any(int(count) in (number, WALLS * number) for number in read):
        return ""
    return f"{COUNTS} {count} where {max(read)} such grooves were read"


def _place(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the place of the first groove, or of any, "" for nothing."""
    part, figure = features.part, PrintedFigure.of(found["behind"] or found["before"])
    grooves = [g for g in part.grooves if g.side.axial]
    first = bool(found["first"] or found["before"])
    away = [_spots(g, 0.0) for g in _ends(grooves, first, 1)]
    if not FRONT.search(note.words):
        away += [_spots(g, part.length) for g in _ends(grooves, first, -1)]
    places = [place for spots in away for place in spots]
    if not places or any(agrees_with(figure, place, part) for place in places):
        return ""
    return f"prints distance {figure.value:g} where the drawing measures {places[0]:.6g}"


def _ends(grooves: list[Groove], first: bool, sign: int) -> Iterable[Groove]:
    """The first groove of each side of the part from one of its ends, or all of them."""
    if not first:
        return grooves
    ends: dict[str, Groove] = {}
    for groove in sorted(grooves, key=lambda g: -sign * g.z_near):
        ends.setdefault(groove.where, groove)
    return ends.values()


def _spots(groove: Groove, length: float) -> tuple[float, float, float]:
    """The distances of a groove's walls and middle from the front face, or from the other end of a part so long."""
    near, far = abs(length + groove.z_near), abs(length + groove.z_far)
    return min(near, far), max(near, far), (near + far) / 2


def _change(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about a size that was changed, "" for nothing."""
    line, part = normalised(note.words).upper(), features.part
    old, new = (PrintedFigure.of(next(n for n in found.group(*names) if n)) for names in (OLD, NEW))
    words = {"width": ABOUT_WIDTH.search(line), "depth": ABOUT_DEPTH.search(line), "floor_diameter": "Ø" in line}
    named = [name for name, is_named in words.items() if is_named]
    drawn = [size for g in part.grooves for size in sizes_drawn(named[0], g, part)] if len(named) == 1 else []
    stale = [size for size in drawn if agrees_with(old, size, part)]
    if not stale or any(agrees_with(new, size, part) for size in drawn):
        return ""
    return f"changes it to {new.value:g} where the drawing still measures {stale[0]:.6g}"


OLD, NEW = ("old", "from", "was"), ("new", "to", "now")
"""The groups of `CHANGED` that hold the size before and after."""
CHECKS = {THREAD: _thread, CHAMFER: _chamfer, SLOPE: _slope, PLACE: _place, CHANGED: _change}
"""What is held, and how."""
