"""Words that a hand put over a groove of a print: it is to go, or is not settled (common practice, no source).

`DELETE` over a groove, in a cloud or without, says nothing of which it is but by where it stands. In a table such a
word has others in its line.
"""

from collections.abc import Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.late import late
from extractor.part import Groove, Part
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.pointers import middle_of
from extractor.sizing.lettering.sheet_words import folded, phrases
from extractor.sizing.measured.features import Features

AFTER = r"(?:\W+(?:by|per|see|in|rev\w*|ecn|ecr|ec|index|[a-z]?\d*))*"
"""What a change is put on record by, behind such a word."""
MARK = late(
    rf"\W*(?:(?:this|these|the|diese[rs]?|cette|questa|esta)\W+)*"
    rf"(?:(?:{phrases('more', 'left_out', 'open_yet', 'look_at')})\b{AFTER}\W*|\?+\W*)"
)
"""Such a word, with little else."""
CLOSE = 6.0
"""Letter heights beyond the outline within which such a word stands: those of a title block are farther off."""
FREE = 8.0
"""Letter heights along its line within which no other words stand."""
LEVEL = 0.5
"""Letter heights by which words of one line are apart in height, at most."""


def marked_up(sheet: Sheet, part: Part, told: Sequence[Finding]) -> Iterator[Finding]:
    """The caution for each such word over a groove, of which nothing was `told` before."""
    if part.frame is None or not part.grooves:
        return
    marks = [t for t in sheet.texts if t.height > 0 and MARK.fullmatch(folded(t.text))]
    features, known = Features.of(part), {finding.at for finding in told}
    for text in marks:
        over = _under(text, features)
        if over and text.at not in known and _stands_alone(text, sheet):
            yield _told(text, over)


def _under(text: Text, features: Features) -> list[Groove]:
    """The grooves over which a text stands, or beside which it begins or ends."""
    frame, part = features.frame, features.part
    high, (_, r) = text.height / frame.scale, frame.on_part(middle_of(text))
    ends = [frame.on_part(at)[0] for at in (text.at, text.end)]
    if abs(r) > part.outer_diameter / 2 + CLOSE * high:
        return []
    return [g for g in part.grooves if min(ends) - high <= g.z_near and g.z_far <= max(ends) + high]


def _stands_alone(text: Text, sheet: Sheet) -> bool:
    """True for a text with no other words in its line."""
    (_, long), room = (text.seen(at)[0] for at in (text.at, text.end)), FREE * text.height
    words = (t for t in sheet.texts if t is not text and any(c.isalpha() for c in t.text))
    seen = ((text.seen(t.at), text.seen(t.end)) for t in words)
    return not any(
        abs(up) <= LEVEL * text.height and max(a, b) >= -room and min(a, b) <= long + room for (a, up), (b, _) in seen
    )


def _told(text: Text, over: Sequence[Groove]) -> Finding:
    one = over[0].id if len(over) == 1 else None
    where = f"groove {one}" if one else "grooves"
    words = (
        f'"{" ".join(text.text.split())}" at {place_words(text.at)} stands over {where}, '
        "as where a print was marked up; the part was read as drawn: ask whether what it marks is to be made so."
    )
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, text.at, groove=one)
