"""Notes that size no groove whole, held against what they touch or name: a thread, a chamfer, a place, a change.

Rules: threads and places are held by `threads` and `groove_places`. A chamfer's size is its leg, an angle that of a
groove's walls. Of a change the new size must be drawn, if a groove still has the old one. An angular dimension holds
two points on each leg, or the tip and one on each; it may print the angle between the lines, or the one beside it.
"""

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import shapely

from extractor import grammar
from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level, Point
from extractor.grammar import BY, NUMBER, normalised
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.side import INSIDE, OUTSIDE, Where
from extractor.sizing.lettering.groove_notes import capitals, groove_note, without_item
from extractor.sizing.lettering.note_sides import side_named, sided
from extractor.sizing.lettering.note_words import CHANGED, PLACE, PLACE_LED, WIDE
from extractor.sizing.lettering.pointers import PointedNote, said, said_anywhere
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import like, sizes_drawn
from extractor.sizing.notes.groove_places import led_place_fault, off_drawn, place_fault
from extractor.sizing.notes.note_faults import count_words, off_side
from extractor.sizing.notes.note_findings import note_stop
from extractor.sizing.notes.note_places import PEN, TOUCH, areas, led_to
from extractor.sizing.notes.threads import THREAD, is_label, off_land, thread_fault, threaded
from extractor.sizing.sentences.broken_lines import with_sentences
from extractor.sizing.sentences.could_size import ABOUT_DEPTH, ABOUT_GROOVE, ABOUT_WIDTH

BY_NAME = rf"\b(?:{phrases('chamfers')})\W*"
CHAMFER = re.compile(
    rf"(?:{BY_NAME})?{grammar.chamfer('45').pattern}[^\d°]*|{BY_NAME}(?P<named>{NUMBER})(?:\s*MM)?[^\w°]*"
    rf"|(?:\d+\s*{BY}\s*)?(?P<called>\d*\.\d+)\s*(?:MM\s*)?{BY_NAME}",
    re.I,
)
"""A chamfer of 45 degrees and nothing else. A whole figure before the name may be a count."""
ANGLE = re.compile(rf"[^\w±<+-]*(?:\d+\s*{BY}\s*)?({NUMBER})\s*°(?!\s*\d)")
"""An angle in degrees; minutes behind it are read by nobody here."""
SLOPE = re.compile(rf"(?:(?P<count>\d+)\s*{BY}\s+)?(?P<angle>{NUMBER})\s*°(?!\s*[\dxX×]).*")
"""An angle, counted or not; `1x30°` is a chamfer."""
VEE = re.compile(
    rf"\W*(?:\d+\s*{BY}\s*)?(?:(?P<before>{NUMBER})\s*°\s*)?(?:V(?:EE)?[- ]?(?:GROOVES?|NUT(?:EN)?|RILLEN?)"
    rf"|KEIL(?:NUT|RILLE)|V(?=\W*{NUMBER}\s*°)|(?<=°)\s*V\b|V(?:EE)?[- ](?:SHAPED?|FORM|FORMIG)"
    rf"|(?:GORGES?|RANURAS?)\s+EN\s+V|GOL[AE]\s+A\s+V)(?:\W*(?P<behind>{NUMBER})\s*°)?\W*",
    re.I,
)
"""A groove by the name of its form, with the angle between its walls."""
BARE_VEE = re.compile(r"[\W\d]*V[\W\d]*", re.I)
"""A vee by its letter alone: without a leader it may be a weld's."""
LAND = re.compile(
    rf"\W*(?:(?:LANDS?|RIBS?|STEGE?|CORDONS?|NERVURES?)\W*(?P<behind>{NUMBER})(?:\s*MM)?(?:\s*{WIDE})?"
    rf"|(?P<before>{NUMBER})\s*{WIDE}\s*(?:LANDS?|RIBS?|STEGE?))\W*",
    re.I,
)
"""The width of what stands between two grooves."""
SLOPED = ("vee", "tapered", "other")
"""Shapes of grooves whose walls have an angle."""
UPRIGHT = 90.0
"""Degrees between such a wall and the axis, or the floor."""
WALLS = 2
"""Walls that each of them has."""
OFF_EDGE = 0.02
"""Share of the part's size, but no more than its leg, by which an arrow may end beside a chamfer that it touches not:
it is put by hand at a corner so small."""
SLANT = 1e-3
"""Share of an edge by which its two legs may differ, for it to be one of 45 degrees."""


def other_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What such notes of a sheet contradict on a part."""
    for note in said_anywhere(with_sentences(sheet, is_other_note), is_other_note):
        line = _line(note.words)
        found, check = next((found, check) for form, check in CHECKS.items() if (found := form.fullmatch(line)))
        if check is thread_fault and is_label(line, sheet):
            continue
        if fault := check(found, note, features):
            yield note_stop(normalised(note.words), (fault,), None, note.tip or note.at)
        elif check is _chamfer and note.tip is not None and (groove := _sharp_at(note.tip, features)):
            words = (
                f'The note "{normalised(note.words)}" breaks an edge of groove {groove.id} that is drawn sharp; it was '
                "read sharp."
            )
            yield Finding(Level.CAUTION, DrawingCode.CORNER_NOT_DRAWN, words, note.tip, groove=groove.id)
        elif check is thread_fault and (cut := threaded(found, note, features)):
            words = (
                f'The note "{normalised(note.words)}" names a thread at groove {cut.id}, which was read as a groove: '
                "see what it is of."
            )
            yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, note.tip, groove=cut.id)
        elif check is _slope and (upright := _upright_at(note.tip, features)) and float(found["angle"]) != UPRIGHT:
            words = (
                f'The note "{normalised(note.words)}" gives groove {upright.id} an angle, and its walls are drawn '
                "upright; they were read so: see what it is of."
            )
            yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, note.tip, groove=upright.id)
    for dimension in (d for d in sheet.dimensions if d.measured > 0):
        thread = THREAD.fullmatch(normalised(dimension.text or ""))
        if thread is not None and (fault := off_land(thread, dimension, features)):
            yield note_stop(thread[0], (fault,), None, dimension.points[0])


def on_another_side(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What is said of a note that names a side on which its groove is not, or where there is none; sizes are held."""
    for note in said(sheet, lambda words: side_named(capitals(words)) is not None):
        groove, line = led_to(note, features), capitals(note.words)
        where, held = side_named(line), groove_note(note.words) is not None and sided(line)[1] is not None
        if groove is not None and where is not None and groove.where != where and not held:
            yield note_stop(normalised(note.words), (off_side(where, groove),), groove, note.tip or note.at)
        elif note.tip is None and where in OPEN_SIDES and not held and not _on_side(where, features):
            words = (
                f'The note "{normalised(note.words)}" names grooves {OPEN_SIDES[where]}, where none was read: see '
                "whether lines of them are missing."
            )
            yield Finding(Level.CAUTION, DrawingCode.NOTE_WITHOUT_GROOVE, words, note.at)


OPEN_SIDES = {"inside": "in the bore", "outside": "outside"}
"""Sides of which a note that stands free tells; a groove in a face may be of any part of it."""


def _on_side(where: Where, features: Features) -> bool:
    """True if the part has a groove there."""
    return any(groove.where == where for groove in features.part.grooves)


def is_other_note(words: str) -> bool:
    """True for a text that is one of these notes."""
    return any(form.fullmatch(_line(words)) for form in CHECKS)


def _line(words: str) -> str:
    """A note on one plain line, without its number in a list."""
    return without_item(plain(normalised(words)))


def _chamfer(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the leg of a chamfer, "" for nothing."""
    if note.tip is None:
        return ""
    figure = Printed.of(next(found[name] for name in ("c", "leg", "behind", "named", "called") if found[name]))
    z, r = features.frame.on_part(note.tip)
    tip, sharp = shapely.Point(z, abs(r)), _sharp_at(note.tip, features) is not None
    slants = [(abs(a[0] - b[0]), shapely.LineString((a, b))) for a, b in features.part.edges if is_slant(a, b)]
    touch, beside = TOUCH * features.size, 0.0 if sharp else OFF_EDGE * features.size
    legs = [leg for leg, line in slants if line.distance(tip) <= max(touch, min(leg, beside))]
    return off_drawn("a chamfer of", figure, legs, features)


def _sharp_at(tip: Point, features: Features) -> Groove | None:
    """The groove whose sharp edge a leader touches, at its mouth."""
    z, r = features.frame.on_part(tip)
    sharp = [(g, g.z_near, g.near_land_diameter) for g in features.part.grooves if g.side.axial and not g.edge_chamfer]
    sharp += [(g, g.z_far, g.far_land_diameter) for g, _, _ in sharp]
    near = TOUCH * features.size
    return next((g for g, at, land in sharp if land and math.dist((z, abs(r)), (at, land / 2)) <= near), None)


def is_slant(one: Point, two: Point) -> bool:
    """True for an edge at 45 degrees."""
    along, across = abs(one[0] - two[0]), abs(one[1] - two[1])
    return along > 0 and abs(along - across) <= SLANT * along


def angle_findings(dimensions: Iterable[Dimension], features: Features) -> Iterator[Finding]:
    """A stop for each dimension at the view that prints an angle other than the one it measures."""
    for dimension in dimensions:
        said_angle = ANGLE.match(normalised(dimension.text or ""))
        if dimension.kind is not DimensionKind.ANGULAR or said_angle is None or len(dimension.points) < 3:
            continue
        places = [features.frame.on_part(p) for p in dimension.points[:4]]
        drawn, slack = list(_angles(places)), half_place(places_of(said_angle[1])) + PEN
        at_view = all(features.in_view(*p) for p in places[:3])
        if at_view and drawn and all(abs(float(said_angle[1]) - angle) > slack for angle in drawn):
            words = (
                f"A dimension prints the angle {float(said_angle[1]):g} where the drawing measures {drawn[0]:.4g}: "
                "ask which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at=dimension.points[0])


def _angles(places: list[Point]) -> Iterator[float]:
    """The angles in degrees that a dimension with these points may measure: of two lines, or of two legs and a tip."""
    one, two, tip, *arc = places
    legs = ((one, two), (tip, *arc)) if arc else ((tip, one), (tip, two))
    ways = [(b[0] - a[0], b[1] - a[1]) for a, b in legs]
    if all(map(any, ways)):
        turn = abs(math.degrees(math.atan2(*ways[0]) - math.atan2(*ways[1]))) % 360
        yield from (turn, abs(180 - turn), 360 - turn)


def _slope(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the angle of a groove's walls, to the axis or both, or their count, "" for nothing."""
    if note.tip is None:
        return ""
    tip = shapely.Point(features.frame.on_part(note.tip))
    here = [g for g in features.part.grooves if g.shape in SLOPED and any(area.covers(tip) for area in areas(g))]
    tilts = _tilts([(g.z_far, g.z_near) for g in here], features)
    printed, slack = float(found["angle"]), half_place(places_of(found["angle"])) + PEN
    if not here and found["count"] and (upright := _upright_at(note.tip, features)):
        read = like(upright, ["width"], features)
        if not any(int(found["count"]) in (n, WALLS * n) for n in read):
            return count_words(found["count"], max(read))
    drawn = [angle for tilt in tilts for angle in (2 * tilt, tilt, 90 - tilt, 180 - 2 * tilt)]
    if drawn and all(abs(printed - angle) > slack for angle in drawn):
        return f"prints the angle {printed:g} where the drawing measures {drawn[0]:.4g}"
    read = like(here[0], ["width"], features) if drawn else set()
    if not read or found["count"] is None or any(int(found["count"]) in (n, WALLS * n) for n in read):
        return ""
    return count_words(found["count"], max(read))


def _upright_at(tip: Point | None, features: Features) -> Groove | None:
    """The groove with square walls that a leader touches, if its edges are sharp: a chamfer has an angle."""
    if tip is None:
        return None
    at, near = shapely.Point(features.frame.on_part(tip)), TOUCH * features.size
    square = (g for g in features.part.grooves if g.shape == "rectangular" and not g.edge_chamfer)
    return next((g for g in square if any(area.distance(at) <= near for area in areas(g))), None)


def _tilts(spans: Sequence[tuple[float, float]], features: Features) -> list[float]:
    """How far the walls within some spans of z lean from upright, in degrees."""
    snap = features.snap
    walls = [e for e in features.part.edges if any(all(a - snap <= z <= b + snap for z, _ in e) for a, b in spans)]
    return [math.degrees(math.atan2(abs(a[0] - b[0]), abs(a[1] - b[1]))) for a, b in walls if a[1] != b[1]]


def _vee(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about a groove that is called a vee, or about its angle, "" for nothing."""
    part = features.part
    if note.tip is None and BARE_VEE.fullmatch(found[0]):
        return ""
    sloped = [g for g in part.grooves if g.shape in SLOPED]
    # Of another shape one wall may lean by chance; it is no vee where a true one is drawn.
    vees = [g for g in sloped if g.shape != "other"] or sloped
    drawn = [2 * tilt for g in vees for tilt in _tilts([(g.z_far, g.z_near)], features)]
    if not drawn:
        return "names a vee where the drawing shows none" if part.grooves else ""
    angle = found["before"] or found["behind"]
    if angle is None or any(abs(float(angle) - one) <= half_place(places_of(angle)) + PEN for one in drawn):
        return ""
    nearest = min(drawn, key=lambda one: abs(one - float(angle)))
    return f"prints the angle {float(angle):g} where the drawing measures {nearest:.4g}"


def _land(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about the width of a land between two grooves, "" for nothing."""
    rows = [
        sorted((g for g in features.part.grooves if g.side == side), key=lambda g: -g.z_near)
        for side in (OUTSIDE, INSIDE)
    ]
    drawn = [a.z_far - b.z_near for row in rows for a, b in pairwise(row)]
    return off_drawn("a land of", Printed.of(found["behind"] or found["before"]), drawn, features)


def _change(found: re.Match[str], note: PointedNote, features: Features) -> str:
    """What is wrong about a size that was changed, "" for nothing."""
    line = capitals(note.words)
    old, new = (Printed.of(next(n for n in found.group(*names) if n)) for names in (OLD, NEW))
    words = {"width": ABOUT_WIDTH.search(line), "depth": ABOUT_DEPTH.search(line), "floor_diameter": "Ø" in line}
    named = [name for name, is_named in words.items() if is_named]
    led = led_to(note, features)
    if len(named) > 1 or not (named or led or ABOUT_GROOVE.search(line)):
        return ""
    grooves = features.part.grooves if led is None else [led]
    drawn = [size for g in grooves for name in named or words for size in sizes_drawn(name, g, features)]
    stale = [size for size in drawn if features.fits(old, size)]
    if not stale or features.fits(new, *drawn):
        return ""
    return f"changes it to {new.value:g} where the drawing still measures {stale[0]:.6g}"


OLD, NEW = ("old", "from", "was"), ("new", "to", "now")
"""The groups of `CHANGED` that hold the size before and after."""
CHECKS = {
    THREAD: thread_fault,
    CHAMFER: _chamfer,
    VEE: _vee,
    SLOPE: _slope,
    PLACE: place_fault,
    PLACE_LED: led_place_fault,
    CHANGED: _change,
    LAND: _land,
}
"""What is held, and how."""
