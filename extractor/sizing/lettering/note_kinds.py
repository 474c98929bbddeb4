"""Notes that give the sizes of two kinds of grooves or more, taken apart: `2 GROOVES 4 WIDE, 3 GROOVES 3 WIDE`.

Rules: the parts stand behind commas or a word for and, and each is a note at grooves by itself that counts them
(common practice, no source).
"""

from extractor.late import late
from extractor.remembered import remembered
from extractor.sizing.lettering.groove_notes import capitals, groove_note, without_item
from extractor.sizing.lettering.note_words import GROOVE

BETWEEN = late(r"\s*[,;+&]\s+|\s+(?:AND|UND|ET|E|Y|EN|OCH|I|A)\s+(?=[\d(]|[^\W\d]{4})")
GROOVE_NAME = late(rf"\b{GROOVE}")
LEAST = 2
"""Kinds of grooves of which a note is taken apart, at least."""


@remembered
def kinds_of(words: str) -> tuple[str, ...]:
    """The notes that a text is made of, none for a text that is one note or none.

    >>> kinds_of("2 GROOVES 4 WIDE, 3 GROOVES 3 WIDE"), kinds_of("GROOVES 4 x 3 (2x) AND 3 x 2 (3x)")
    (('2 GROOVES 4 WIDE', '3 GROOVES 3 WIDE'), ('GROOVES 4 X 3 (2X)', '3 X 2 (3X)'))
    >>> kinds_of("2 GROOVES 4 WIDE, 3 DEEP"), kinds_of("GROOVE 4 WIDE, GROOVE 3 WIDE")
    ((), ())
    """
    line = without_item(capitals(words))
    parts = BETWEEN.split(line) if GROOVE_NAME.search(line) else []
    if len(parts) < LEAST or not GROOVE_NAME.search(parts[0]):
        return ()
    notes = [groove_note(part) for part in parts]
    counted = (note is not None and note.meanings[0].sizes and note.meanings[0].count is not None for note in notes)
    return tuple(parts) if all(counted) else ()
