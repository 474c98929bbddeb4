"""On which side of the part a note says that its grooves are: `2 INTERNAL GROOVES`, `AUSSENNUT 4 x 3`, `FACE GROOVE`.

Source of the words: common practice, no source.
"""

from extractor.late import late
from extractor.side import Where
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.sheet_words import phrases

SIDES: tuple[Where, ...] = ("inside", "outside", "face")
_SIDE = rf"(?:(?P<inside>{phrases('groove_inside')})|(?P<outside>{phrases('groove_outside')}))"
_NAMED = rf"(?!RUN-?OUT){GROOVE}"
BEFORE = late(rf"\b{_SIDE}[-\s]*(?=(?:[^\W\d_]+-?)?{_NAMED})")
BEHIND = late(rf"(?P<groove>{_NAMED})\s+{_SIDE}(?![^\W\d_])(?!\W*(?:DIA|\u00d8|BORE|OF\b|TO\b|\d))")
"""A diameter by its side is no groove's, and a run-out is no groove of a face."""
IN_FACE = late(
    rf"\b(?P<face>{phrases('groove_face')})[-\s]*{_NAMED}|\b{_NAMED}\s+(?P<frontal>{phrases('groove_frontal')})\b"
)
"""One in an end face; where it only stands on the sheet it may be of any part of it."""


def sided(line: str) -> tuple[str, Where | None]:
    """A note in plain capitals without the word for inside or outside, and that side, None where it says neither.

    >>> sided("2 INTERNAL GROOVES 4 WIDE"), sided("AUSSENNUT 4"), sided("GROOVE OUTSIDE DIA 34")[1]
    (('2 GROOVES 4 WIDE', 'inside'), ('NUT 4', 'outside'), None)
    """
    found = BEFORE.search(line) or BEHIND.search(line)
    if found is None:
        return line, None
    named = found.groupdict()
    rest = line[: found.start()] + (named.get("groove") or "") + line[found.end() :]
    return rest, SIDES[0] if named["inside"] else SIDES[1]


def side_named(line: str) -> Where | None:
    """The side that a line names, in an end face as well; None where it names none.

    >>> side_named("FACE GROOVE 3X3"), side_named("GORGE FRONTALE"), side_named("GROOVE FACE RA 1.6")
    ('face', 'face', None)
    """
    return SIDES[2] if IN_FACE.search(line) else sided(line)[1]
