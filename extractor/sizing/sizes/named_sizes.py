"""Texts that name one thing of the part with its size: its bore, its wall, a land; they are held against what is drawn.

Rules: a bore's diameter is that of a level stretch of the bore, its grooves bridged, that of a head or a shank one of a
land; a wall is what lies between a level outside and one in the bore. Where several are drawn the text must give one of
them. A hole may be across the part, and `ID 12` be the number of the part: one by such a name is told as a caution, a
hole only where it is nearly as large as the bore and drawn nowhere else, or goes through where no bore is drawn.
A caution is also what may be another's: a size far from those drawn (`COULD`), one beside a text that gives what is
drawn, one led to a groove that is not so large across, and a bore or a wall where no bore is drawn. What is larger than
the part, as `ID 4711`, is none of its sizes, and what a dimension ties is held by other rules.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import ProfilePoints
from extractor.remembered import remembered
from extractor.sheet import DimensionKind, Sheet
from extractor.side import INSIDE
from extractor.sizing.lettering.groove_notes import without_item
from extractor.sizing.lettering.pointers import PointedNote, said_anywhere
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.note_findings import note_unread
from extractor.sizing.notes.note_places import led_to
from extractor.sizing.sentences.could_size import ACROSS, COULD, could_be

LIMITS = rf"(?:\s*\(?(?:(?:JS|[A-K])\d{{1,2}}(?!\d)|±\s*{NUMBER}|\+\s*{NUMBER}(?:\s*/?\s*[+-]?\s*{NUMBER})?)\)?)?"
"""A size's class or deviations."""
THROUGH, ROUND = rf"(?:\s*\b(?:{phrases('through_bore')})\b)", rf"(?:\s*(?:{phrases('diameter_name')})(?![^\W\d_])\.?)"
BORE = late(
    rf"\W*{THROUGH}?\s*(?:(?P<sure>{phrases('bore_name')})|(?P<hole>{phrases('hole_name')}))\b\.?"
    rf"(?:{THROUGH}|{ROUND})*\s*[=:]?\s*(?P<behind>{NUMBER}){LIMITS}(?:\s*MM\b)?(?:{THROUGH}|{ROUND})*\W*"
    rf"|\W*{ROUND}?\s*(?P<before>{NUMBER}){LIMITS}(?:\s*MM\b)?(?:{THROUGH}|{ROUND})*"
    rf"\s*(?:(?P<sure2>{phrases('bore_name')})|(?P<hole2>{phrases('hole_name')}))\b{THROUGH}?\W*",
    re.I,
)
"""The diameter of a bore, and nothing else."""
WALL = late(
    rf"\W*(?P<sure>{phrases('wall_name')})\b\.?\s*[=:]?\s*(?P<behind>{NUMBER}){LIMITS}(?:\s*MM\b)?\W*"
    rf"|\W*(?P<before>{NUMBER})(?:\s*MM\b)?\s*(?P<sure2>{phrases('wall_name')})\b\W*",
    re.I,
)
"""The thickness of a wall, and nothing else."""
LAND = late(
    rf"\W*(?P<sure>{phrases('land_name')})\b\.?\s*[=:]?{ROUND}\s*(?P<behind>{NUMBER}){LIMITS}(?:\s*MM\b)?\W*"
    rf"|\W*{ROUND}\s*(?P<before>{NUMBER}){LIMITS}\s*(?P<sure2>{phrases('land_name')})\b\W*",
    re.I,
)
"""The diameter of a shank, a head, a collar, and nothing else."""


THROUGH_IT = late(THROUGH, re.I)
"""What says of a hole that it goes through."""
NUMBER_OF_IT = late(r"\W*ID\W*\d+\W*", re.I)
"""What may be the number of the part as well as the diameter of its bore."""


class _Only(NamedTuple):
    """What such a text looks like, what it sizes, the sizes drawn of that, and whether it is there only with a bore."""

    form: re.Pattern[str]
    what: str
    drawn: Callable[[Features], list[float]]
    within: bool = True


class _Named(NamedTuple):
    """What a text gives: a size, whether its name is no other's, and whether it may be a number and no size."""

    size: Printed
    sure: bool
    number: bool


@remembered
def is_named_size(words: str) -> bool:
    """True for a text that names one thing of a part with its size, and nothing else.

    >>> [is_named_size(one) for one in ("BORE Ø32", "DRILL 28 THRU", "WALL 14", "BORE Ø32 x 20", "4x DRILL 5")]
    [True, True, True, False, False]
    """
    return any(_named(kind, words) for kind in KINDS)


def held_by_name(words: str, features: Features) -> bool:
    """True for such a text where what it names is drawn, or is not and must be."""
    named = [(kind, one) for kind in KINDS if (one := _named(kind, words)) is not None]
    certain = any((one.sure and not one.number) or not kind.within for kind, one in named)
    return certain or (bool(named) and features.part.bore is not None)


def named_sizes(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What is said of texts that name a thing of the part with another size than is drawn."""
    tied = {d.text for d in sheet.dimensions if d.kind is not DimensionKind.LEADER}
    notes = [n for n in said_anywhere(sheet, is_named_size) if n.words not in tied and not _as_a_dimension(n)]
    for kind in KINDS if notes else ():
        named = [(note, one) for note in notes if (one := _named(kind, note.words)) is not None]
        drawn = kind.drawn(features) if named else []
        beside = any(features.fits(one.size, *drawn) for _, one in named)
        for note, one in named:
            if _is_its(note, one, drawn, sheet, features) and not features.fits(one.size, *drawn):
                yield from _told(note, one, kind, drawn, features, beside=beside)


def _as_a_dimension(note: PointedNote) -> bool:
    """True for a diameter that is led to what it is of: it is held as a dimension is."""
    return note.tip is not None and parse(note.words).sign == "diameter"


def _is_its(note: PointedNote, one: _Named, drawn: list[float], sheet: Sheet, features: Features) -> bool:
    """True for what may be a size of the part, by its name, by what it is led to or by how large it is."""
    if one.size.value > features.size * features.part.unit:
        return False
    if one.sure:
        return not one.number or led_to(note, features) is not None or could_be(one.size.value, *drawn)
    if features.part.bore is None and not drawn:
        return THROUGH_IT.search(plain_line(note.words)) is not None and not _is_circle(one.size, sheet, features)
    return could_be(one.size.value, *drawn, shares=ACROSS) and not _is_circle(one.size, sheet, features)


def _told(
    note: PointedNote, one: _Named, kind: _Only, drawn: list[float], features: Features, *, beside: bool
) -> Iterator[Finding]:
    """What is said of one text that fits nothing drawn; `beside`: another one gives what is."""
    groove = led_to(note, features)
    if groove is not None:
        inside = groove.side == INSIDE and kind.within
        if not (inside and features.fits(one.size, groove.floor_diameter, groove.mouth_diameter)):
            yield note_unread(normalised(note.words), note.tip or note.at, groove)
    elif drawn:
        near = could_be(one.size.value, *drawn, shares=ACROSS if one.number else COULD)
        yield _differs(note, one, kind, drawn, firm=one.sure and near and not beside)
    elif kind.within and features.part.bore is None:
        words = (
            f'The note "{normalised(note.words)}" gives {kind.what} {one.size.value:g}, and no bore was read: see '
            "whether it is about this part."
        )
        yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, note.tip or note.at)


def plain_line(words: str) -> str:
    """A text on one plain line, without its number in a list."""
    return without_item(plain(normalised(words)))


def _named(kind: _Only, words: str) -> _Named | None:
    """What a text gives of one kind, None for any other."""
    found = kind.form.fullmatch(plain_line(words))
    if found is None:
        return None
    number = NUMBER_OF_IT.fullmatch(plain_line(words)) is not None
    return _Named(Printed.of(found["behind"] or found["before"]), bool(found["sure"] or found["sure2"]), number)


def _differs(note: PointedNote, one: _Named, kind: _Only, drawn: list[float], *, firm: bool) -> Finding:
    """That a text contradicts what is drawn, for certain or perhaps."""
    near = min(drawn, key=lambda size: abs(size - one.size.value))
    words = (
        f'The note "{normalised(note.words)}" gives {kind.what} {one.size.value:g} where the drawing measures '
        f"{near:.6g}: {'ask which is meant' if firm else 'see whether it is about this'}."
    )
    level, code = (Level.STOP, DrawingCode.NOTE_CONTRADICTS) if firm else (Level.CAUTION, DrawingCode.NOTE_UNREAD)
    return Finding(level, code, words, note.tip or note.at)


def _is_circle(size: Printed, sheet: Sheet, features: Features) -> bool:
    """True if a circle as large is drawn, as of a hole across the part or in its end."""
    return features.fits(size, *{2 * circle.radius / features.frame.scale for circle in sheet.circles})


def _levels(line: ProfilePoints, features: Features) -> set[float]:
    """The radii of the level stretches of a line."""
    return {b for (y, a), (z, b) in pairwise(line) if features.near(a, b) and not features.near(y, z) and b > 0}


def _lands(features: Features) -> list[float]:
    """The diameters outside."""
    return sorted(2 * r for r in _levels(features.part.lands, features))


def _bores(features: Features) -> list[float]:
    """The diameters of the bore."""
    return sorted(2 * r for r in _levels(features.land_lines[1], features))


def _walls(features: Features) -> list[float]:
    """What lies between any level outside and any in the bore."""
    part = features.part
    outside: Iterable[float] = _levels(part.lands, features) | _levels(part.outline, features)
    inside = _levels(part.bore or (), features)
    return sorted({high - low for high in outside for low in inside if high > low})


KINDS = (
    _Only(BORE, "the bore", _bores),
    _Only(WALL, "a wall", _walls),
    _Only(LAND, "a land", _lands, within=False),
)
"""What is held."""
