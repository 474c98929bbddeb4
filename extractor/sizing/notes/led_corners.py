"""Words led to a corner or an edge of a groove that say how it is made: `CORNERS R0.8`, `SHARP EDGES`, `0.5 x 30°`.

Rules: what names no groove is about that at its tip. A radius, or a chamfer of 45 degrees, and nothing else is held by
`corners` and `other_notes`. One that is drawn otherwise stops; where it is drawn sharp that was read, and is told.
"""

import math
import re
from collections.abc import Iterator

from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, normalised
from extractor.part import Groove
from extractor.remembered import remembered
from extractor.sheet import Sheet
from extractor.sizing.lettering.corner_words import CornerNote, led_corners
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.lettering.pointers import PointedNote, said
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.corners import agrees, asked, drawn_at, wanted
from extractor.sizing.notes.note_findings import note_stop
from extractor.sizing.notes.note_places import PEN, TOUCH, led_to
from extractor.sizing.notes.other_notes import is_other_note

SLANT = re.compile(rf"(?:\d+\s*[x×]\s+)?({NUMBER})\s*[x×]\s*((?!45\b){NUMBER})\s*°(?!\s*\d)[^\d]*", re.I)
"""A chamfer of another angle than 45 degrees."""
AT = 0.01
"""A leader ends at a wall or a floor within this share of the part's size: it is put there by hand."""


def led_corner_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What such notes of a sheet contradict on a part."""
    for note in said(sheet, lambda words: _corners(words) != () or _slant(words) is not None):
        groove, tip = _near(note, features), note.tip
        if groove is None or tip is None or not groove.side.axial:
            continue
        if slant := _slant(note.words):
            told = _off_slant(slant, tip, features)
            if told:
                yield note_stop(normalised(note.words), (told,), groove, tip)
            continue
        at_mouth = _at_mouth(groove, tip, features)
        for one in _corners(note.words):
            if not (at_mouth and is_other_note(note.words)):
                yield from _held(note, one, groove, at_mouth, features)


def _held(note: PointedNote, one: CornerNote, groove: Groove, at_mouth: bool, features: Features) -> Iterator[Finding]:
    """What is said of one size in a note at a groove. At its mouth a radius may be that of the edge."""
    wheres = ["corner", "edge"] if at_mouth and one.where == "corner" else [one.where]
    drawn = {(size, form) for where in wheres for size, form in [drawn_at(groove, where)]}
    there = {row for row in drawn if row[0]}
    form = "chamfer or radius" if one.form == "break" else one.form
    if groove.shape != "rectangular" or (one.form == "break" and not there):
        return
    if (not there and not float(one.least)) or agrees(one, there, features):
        return
    if there:
        shown = " or ".join(f"a {was} of {size:.4g}" for size, was in sorted(there))
        asked = f"sharp {one.where}s" if one.form == "sharp" else f"a {wanted(one)}"
        fault = f"asks for {asked} where the drawing shows {shown}"
        yield note_stop(normalised(note.words), (fault,), groove, note.tip or note.at)
    elif _touches(note, groove, features):
        words = (
            f'The note "{normalised(note.words)}" gives groove {groove.id} a {form} that isn\'t drawn; sharp '
            f"{one.where}s were read."
        )
        yield Finding(Level.CAUTION, DrawingCode.CORNER_NOT_DRAWN, words, note.tip, groove=groove.id)


def _near(note: PointedNote, features: Features) -> Groove | None:
    """The groove that a leader touches, or one of whose edges, broken or not, it ends at."""
    if note.tip is None or (groove := led_to(note, features)):
        return led_to(note, features)
    z, r = features.frame.on_part(note.tip)
    for groove in (g for g in features.part.grooves if g.side.axial):
        near = groove.edge_chamfer + TOUCH * features.size
        mouths = (groove.z_near, groove.near_land_diameter), (groove.z_far, groove.far_land_diameter)
        if any(land and math.dist((z, abs(r)), (at, land / 2)) <= near for at, land in mouths):
            return groove
    return None


@remembered
def _corners(words: str) -> tuple[CornerNote, ...]:
    """What a note says of corners or edges, nothing where it is a radius alone, of all of them, or sizes a groove."""
    alone = parse(words).sign == "radius" and parse(words).size
    elsewhere = alone or groove_note(words) is not None or any(True for _ in asked(words))
    return () if elsewhere else led_corners(words)


def _slant(words: str) -> re.Match[str] | None:
    return SLANT.fullmatch(normalised(words).strip())


def _touches(note: PointedNote, groove: Groove, features: Features) -> bool:
    """True for a leader that ends at the floor of a groove or at its walls, not in its air."""
    z, r = features.frame.on_part(note.tip or note.at)
    walls = min(abs(z - groove.z_near), abs(z - groove.z_far))
    return min(walls, abs(abs(r) - groove.floor_diameter / 2)) <= AT * features.size


def _at_mouth(groove: Groove, tip: Point, features: Features) -> bool:
    """True for a tip nearer to an edge at the mouth than to a corner of the floor, or to the floor."""
    _, r = features.frame.on_part(tip)
    return abs(abs(r) - groove.mouth_diameter / 2) < abs(abs(r) - groove.floor_diameter / 2)


def _off_slant(slant: re.Match[str], tip: Point, features: Features) -> str:
    """What is wrong about the angle of the chamfer at a place, "" for nothing or where none is drawn."""
    z, r = features.frame.on_part(tip)
    leg, angle, slack = Printed.of(slant[1]), float(slant[2]), half_place(places_of(slant[2])) + PEN
    for (z0, r0), (z1, r1) in features.part.edges:
        along, across = abs(z0 - z1), abs(r0 - r1)
        middle = (z0 + z1) / 2, (r0 + r1) / 2
        if not min(along, across) or math.dist((z, abs(r)), middle) > max(along, across) / 2 + TOUCH * features.size:
            continue
        tilt = math.degrees(math.atan2(across, along))
        if all(abs(angle - one) > slack for one in (tilt, 90 - tilt)):
            return f"prints the angle {angle:g} where the drawing measures {tilt:.4g}"
        if not features.fits(leg, along, across):
            return f"prints a chamfer of {leg.value:g} where the drawing measures {along:.4g}"
    return ""
