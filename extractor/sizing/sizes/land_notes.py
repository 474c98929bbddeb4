"""Notes about lands: how long one of a diameter is, where a shoulder stands, how the ends are broken, a land's radius.

Rules: a length goes with a diameter, by a word or at a leader to that land; it may end at any place of the land, at its
broken edges and its grooves. A shoulder is told by its name and its distance from an end. Free words on chamfers are
held against those drawn: a smaller one may be that of edges that are not drawn, unless they name both ends.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator
from itertools import combinations, groupby, pairwise
from typing import NamedTuple

from extractor import grammar
from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import DimensionKind, Sheet
from extractor.sizing.lettering.note_words import AN_END
from extractor.sizing.lettering.pointers import PointedNote, said_anywhere
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import about, folded, phrases
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.groove_places import from_ends, off_drawn
from extractor.sizing.notes.other_notes import is_slant
from extractor.sizing.sentences.could_size import ACROSS, could_be
from extractor.sizing.sizes.named_sizes import LIMITS, ROUND, plain_line

LONG = late(
    rf"\W*(?:(?P<name>{phrases('land_name')})\b\.?\s*)?{ROUND}\s*(?P<across>{NUMBER}){LIMITS}\s*{BY}"
    rf"\s*(?P<long>{NUMBER})(?:\s*MM\b)?\s*(?P<said>(?:{phrases('long_behind')})\b\.?)?\W*",
    re.I,
)
"""A land by its diameter and its length."""
SHOULDER = late(
    rf"\W*(?:{phrases('shoulder_name')})\s*(?P<at>(?:{phrases('place_at')})\b)?\s*[=:]?\s*(?P<away>{NUMBER})"
    rf"(?:\s*MM\b)?\s*(?P<end>{AN_END})?(?(at)|(?(end)|(?!)))\W*",
    re.I,
)
"""The place of a shoulder."""
RADIUS = late(rf"\W*R\s*(?P<radius>{NUMBER})\W*")
"""A radius and nothing else."""
TURNED = late(rf"\W*(?:{phrases('turned_to')})\s*{ROUND}?\s*(?P<across>{NUMBER}){LIMITS}(?:\s*MM\b)?\W*", re.I)
"""The diameter that a land is turned to."""
OF_CHAMFERS = late(rf"(?:\b(?:{phrases('both_ends', 'chamfers')})\b|\W)+")
"""What else a free note on chamfers says."""
NO_PLACE = 0.02
"""Share of the part's length below which a figure behind a shoulder is a tolerance of form, as in `SHOULDER A 0.02`."""
TOUCH = 2e-3
"""Share of the part's size by which a leader's tip may miss the land that it points to."""


class _Land(NamedTuple):
    """A level stretch of the outside: its diameter, and the places along the axis that its length may end at."""

    across: float
    ends: tuple[float, ...]

    @property
    def lengths(self) -> list[float]:
        """What may be called its length, the whole of it first."""
        return sorted((b - a for a, b in combinations(sorted(self.ends), 2)), reverse=True)


@remembered
def is_land_note(words: str) -> bool:
    """True for a text of one of these forms.

    >>> [is_land_note(one) for one in ("SHANK Ø30 x 32", "SHOULDER AT 32", "FASEN 2x45°", "SHOULDER 32", "2x45°")]
    [True, True, True, False, False]
    """
    line = plain_line(words)
    return any(form.fullmatch(line) for form in CHECKS) or _chamfer(words) is not None


def land_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What such notes contradict on a part; a dimension's text is its own."""
    tied = {d.text for d in sheet.dimensions if d.kind is not DimensionKind.LEADER}
    for note in said_anywhere(sheet, is_land_note):
        line, leg = plain_line(note.words), _chamfer(note.words) if note.tip is None else None
        for form, check in CHECKS.items() if note.words not in tied else ():
            if found := form.fullmatch(line):
                yield from check(found, note, features)
        if leg is not None and note.words not in tied:
            yield from _chamfered(leg, note, features)


def of_a_land(words: str, features: Features) -> bool:
    """True for a text of these forms about what the part has."""
    found = LONG.fullmatch(plain_line(words))
    if found is None:
        return is_land_note(words)
    return any(features.fits(Printed.of(found["across"]), one.across) for one in _lands(features))


def _chamfer(words: str) -> Printed | None:
    """The leg of the chamfers that a text is about and nothing else, None for any other."""
    line = plain_line(words)
    found = grammar.chamfer("45").search(line)
    rest = folded(f"{line[: found.start()]} {line[found.end() :]}") if found else ""
    if found is None or not re.search(r"\w", rest) or OF_CHAMFERS.fullmatch(rest) is None:
        return None
    return Printed.of(found["c"] or found["behind"] or found["leg"])


def _lands(features: Features) -> list[_Land]:
    """The level stretches of the outside, with the slants that break their edges."""
    points = features.part.lands
    runs = [[*run] for _, run in groupby(range(len(points)), key=lambda k: round(points[k][1] / features.snap))]
    found = []
    for run in runs:
        slants = [k for k, own in ((run[0] - 1, run[0]), (run[-1] + 1, run[-1])) if _slanted(k, own, features)]
        ends = tuple(points[k][0] for k in (*run, *slants))
        if points[run[0]][1] > 0 and not features.near(points[run[0]][0], points[run[-1]][0]):
            found.append(_Land(2 * points[run[0]][1], ends))
    return found


def _slanted(k: int, own: int, features: Features) -> bool:
    """True if a point of the lands lies beside another along the axis."""
    points = features.part.lands
    return 0 <= k < len(points) and not features.near(points[k][0], points[own][0])


def _told(note: PointedNote, fault: str, *, firm: bool) -> Finding:
    """That a note contradicts what is drawn, for certain or perhaps."""
    asked = "ask which is meant" if firm else "see whether it is about this"
    level, code = (Level.STOP, DrawingCode.NOTE_CONTRADICTS) if firm else (Level.CAUTION, DrawingCode.NOTE_UNREAD)
    return Finding(level, code, f'The note "{normalised(note.words)}" {fault}: {asked}.', note.tip or note.at)


def _long(found: re.Match[str], note: PointedNote, features: Features) -> Iterator[Finding]:
    """What is wrong about the length of a land; at a leader, of the one that it touches."""
    across, long, part = Printed.of(found["across"]), Printed.of(found["long"]), features.part
    lands = [one for one in _lands(features) if features.fits(across, one.across)]
    lands = [one for one in lands if note.tip is None or _touches(note.tip, one, features)]
    lengths = [size for one in lands for size in one.lengths]
    named = found["name"] or found["said"]
    of_groove = any(features.fits(long, g.width) and features.fits(across, g.floor_diameter) for g in part.grooves)
    larger = long.value > part.length * part.unit
    if not lengths or of_groove or larger or not (named or note.tip) or features.fits(long, *lengths):
        return
    whole = [one.lengths[0] for one in lands]
    near = could_be(long.value, *(one * part.unit for one in whole), shares=ACROSS)
    yield _told(note, off_drawn("a length of", long, whole, features), firm=bool(named) and near)


def _shoulder(found: re.Match[str], note: PointedNote, features: Features) -> Iterator[Finding]:
    """What is wrong about the place of a shoulder."""
    figure, part = Printed.of(found["away"]), features.part
    steps = [a for (a, low), (b, high) in pairwise(part.lands) if features.near(a, b) and not features.near(low, high)]
    steps = [z for z in steps if not (features.near(z, 0.0) or features.near(z, -part.length))]
    drawn = [abs(end - z) for end in from_ends(note, features) for z in steps]
    if figure.value < NO_PLACE * part.length * part.unit:
        return
    if not drawn:
        yield _told(note, f"gives a shoulder at {figure.value:g}, and none was read", firm=False)
    elif fault := off_drawn("distance", figure, drawn, features):
        yield _told(note, fault, firm=True)


def _turned(found: re.Match[str], note: PointedNote, features: Features) -> Iterator[Finding]:
    """What is wrong about the diameter that a land is turned to; a groove's floor may be meant."""
    figure, lands = Printed.of(found["across"]), _lands(features)
    here = [one.across for one in lands if note.tip is None or _touches(note.tip, one, features)]
    floors = [g.floor_diameter for g in features.part.grooves]
    if not features.fits(figure, *floors) and (fault := off_drawn("diameter", figure, here, features)):
        yield _told(note, fault, firm=note.tip is not None)


def _radius(found: re.Match[str], note: PointedNote, features: Features) -> Iterator[Finding]:
    """What is wrong about a radius led to a land, whose own it may be meant for."""
    figure = Printed.of(found["radius"])
    here = [one.across / 2 for one in _lands(features) if note.tip and _touches(note.tip, one, features)]
    near = could_be(figure.value, *(one * features.part.unit for one in here), shares=ACROSS)
    if near and (fault := off_drawn("radius", figure, here, features)):
        yield _told(note, fault, firm=False)


def _chamfered(leg: Printed, note: PointedNote, features: Features) -> Iterator[Finding]:
    """What is wrong about chamfers of 45 degrees, in words that stand free."""
    legs = sorted({abs(a[0] - b[0]) for a, b in features.part.edges if is_slant(a, b)})
    smaller = bool(legs) and leg.value < legs[0] * features.part.unit
    open_edges = smaller and not about(folded(note.words), "both_ends")
    if not open_edges and (fault := off_drawn("a chamfer of", leg, legs, features)):
        yield _told(note, fault, firm=False)


def _touches(tip: Point, land: _Land, features: Features) -> bool:
    """True for a place on a land, away from its ends."""
    (z, r), slack = features.frame.on_part(tip), TOUCH * features.size
    return abs(abs(r) - land.across / 2) <= slack and min(land.ends) + slack < z < max(land.ends) - slack


CHECKS = {LONG: _long, SHOULDER: _shoulder, RADIUS: _radius, TURNED: _turned}
"""The forms of such notes, each with what it contradicts."""
