"""On which side of the part a note says that its grooves are: `2 INTERNAL GROOVES`, `AUSSENNUT 4 x 3`, `FACE GROOVE`.

Source of the words: common practice, no source.
"""

from extractor.late import late
from extractor.side import Where
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.sheet_words import phrases

SIDES: tuple[Where, ...] = ("inside", "outside", "face")
_SIDE = (
    rf"(?:(?P<inside>{phrases('groove_inside')})|(?P<outside>{phrases('groove_outside')})"
    rf"|(?P<face>{phrases('groove_face')}))"
)
BEFORE = late(rf"\b{_SIDE}[-\s]*(?=(?:[^\W\d_]+-?)?(?!RUN-?OUT){GROOVE})")
BEHIND = late(rf"(?P<groove>(?!RUN-?OUT){GROOVE})\s+{_SIDE}(?![^\W\d_])(?!\W*(?:DIA|\u00d8|BORE|OF\b|TO\b|\d))")
"""A diameter by its side is no groove's, and a run-out is no groove of a face."""


def sided(line: str) -> tuple[str, Where | None]:
    """A note in plain capitals without the word for the side of its grooves, and that side, None where it says none.

    >>> sided("2 INTERNAL GROOVES 4 WIDE"), sided("AUSSENNUT 4"), sided("GROOVE OUTSIDE DIA 34")[1]
    (('2 GROOVES 4 WIDE', 'inside'), ('NUT 4', 'outside'), None)
    """
    found = BEFORE.search(line) or BEHIND.search(line)
    if found is None:
        return line, None
    named = found.groupdict()
    rest = line[: found.start()] + (named.get("groove") or "") + line[found.end() :]
    return rest, next(side for side in SIDES if named[side])
