"""Notes that a label at a groove stands for: `A: 3 WIDE` by a letter at a leader, `3. 3 WIDE` by a 3 in a triangle.

Rules: such a note begins with its letter or number and a colon, full stop or bracket, and no other begins with the
same. A letter, or the words `NOTE 3`, stand at a leader; a bare number there may be a size, so it must stand in a ring
of its own, as a triangle or a circle, and name no row of a table. The note then is one that the leader of each such
label leads to the part; one about other matters, such as heat treatment, is left as it is.

Source: common practice, no source.
"""

import re
from collections import Counter
from collections.abc import Callable, Container, Iterator
from dataclasses import replace

import shapely

from extractor.finding import Point
from extractor.late import late
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.lettering.lists import LINE
from extractor.sizing.lettering.pointers import AROUND, led, loose_leaders, middle_of, said
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import about, folded
from extractor.sizing.notes.callouts import called_out
from extractor.sizing.remaining.text_fates import Fate, fate_of
from extractor.sizing.sentences.broken_lines import with_sentences
from extractor.sizing.tables.table_rows import groove_table

HEAD = late(
    r"\s*(?:NOTE\s*)?\(?(?P<label>[A-Z]|\d{1,2})(?:\s*[.):]\)?\s+|\s*(?<=[A-Z])\s*=\s*(?=\S+\s)|(?<=\d)\s{2,}(?=[^\W\d]))(?P<rest>\S.*)",
    re.S,
)
"""How a note with a label begins; a letter that a figure alone is equal to is the name of a size."""
LABEL = late(r"\W*(?:(?P<noted>(?:SEE\s+)?NOTES?|(?:SIEHE\s+)?HINWEIS|NOTA|REMARQUE)\W*)?(?P<label>[A-Z]|\d{1,2})\W*")
"""What stands for one at a groove."""


def with_flags(sheet: Sheet, at_view: Callable[[Point], bool]) -> Sheet:
    """The sheet with each note that labels stand for as a leader of each; `at_view` tells of a tip whether it counts.

    Neither such a note nor its labels stay among the texts.
    """
    if not any(LABEL.fullmatch(text.text) for text in sheet.texts):
        return sheet
    joined = with_sentences(sheet, lambda words: HEAD.match(words) is not None)
    pieces = [piece for text in joined.texts for piece in _pieces(text)]
    times = Counter(label for label, _, _ in pieces)
    rows = {row.label for row in groove_table(sheet)[1]}
    own = {label: words for label, words, _ in pieces if label and times[label] == 1 and label not in rows}
    noted = {label: words for label, words in own.items() if _at_groove(words)}
    flags = [flag for flag in _flags(joined, own, noted) if at_view(flag[2])] if own else []
    if not flags:
        return sheet
    known, gone = noted.keys() & {label for label, _, _ in flags}, {at for _, at, _ in flags}
    texts = (text for label, _, text in pieces if label not in known and text.at not in gone)
    leaders = (led(noted[label], tip, at) for label, at, tip in flags if label in noted)
    return replace(joined, texts=tuple(texts), dimensions=(*joined.dimensions, *leaders))


def _pieces(text: Text) -> Iterator[tuple[str, str, Text]]:
    """The notes in a text that begin with a label, and what stands before them: label, the rest, and the whole."""
    lines = text.text.split("\n")
    starts = [k for k, line in enumerate(lines) if not k or HEAD.match(line)]
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        words = "\n".join(lines[start:end])
        found = HEAD.fullmatch(words)
        own = replace(text, text=words, at=text.place(0.0, -start * LINE * text.height)) if len(starts) > 1 else text
        yield found["label"] if found else "", found["rest"] if found else "", own


def _flags(sheet: Sheet, own: Container[str], noted: Container[str]) -> Iterator[tuple[str, Point, Point]]:
    """The labels that lead somewhere: label, where it stands, and the tip.

    Those of all notes where they stand in a ring of strokes, which is no balloon's; in a circle of `noted` ones.
    """
    for note in said(sheet, lambda words: _label(words) in noted and _by_itself(words)):
        if note.tip is not None:
            yield _label(note.words), note.at, note.tip
    numbers = [text for text in sheet.texts if _label(text.text) in own and not _by_itself(text.text)]
    rings = [shapely.Point(c.centre).buffer(c.radius) for c in sheet.circles] if numbers else []
    tree, leaders = shapely.STRtree(rings), loose_leaders(sheet.segments, sheet.measuring)
    for text in numbers:
        near = tree.query(shapely.Point(middle_of(text)), predicate="within").tolist()
        label, small = _label(text.text), [k for k in near if sheet.circles[k].radius <= AROUND * text.height]
        about = [rings[k] for k in small] if label in noted else []
        yield from ((label, text.at, tip) for tip in leaders.from_ring(text, about))


def _at_groove(words: str) -> bool:
    """True for words that say something of the groove that they are led to."""
    sized = groove_note(words) is not None or called_out(words) is not None or parse(words).sign == "radius"
    return sized or about(folded(words), "full_radius") or fate_of(words) in (Fate.UNREAD, Fate.NAME)


def _label(words: str) -> str:
    """The label that a text is, "" for any other."""
    found = LABEL.fullmatch(words)
    return found["label"] if found else ""


def _by_itself(words: str) -> bool:
    """True for a label that is no bare number."""
    return re.fullmatch(r"\W*\d+\W*", words) is None
