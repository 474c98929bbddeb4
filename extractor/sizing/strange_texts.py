"""Texts that give a size which the part has not, in words that no rule takes up: told, and left to a person.

Rules: a word for a size, a figure near one of the part that is none of it, and a word that nobody here knows, as in
`WIDTH CHANGED TO 3.2` and `DIA 42 INSTEAD OF 40`. Those about other things, as heat treatment and threads, are left.
Source of the words: common practice, no source.
"""

from collections.abc import Iterator, Sequence

from extractor.finding import Finding
from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import Part
from extractor.sheet import Sheet
from extractor.sizing.broken_lines import broken_lines
from extractor.sizing.callouts import called_out
from extractor.sizing.could_size import ACROSS, could_be
from extractor.sizing.features import Features
from extractor.sizing.groove_notes import capitals, groove_note, is_count, without_item
from extractor.sizing.led_words import has_strange
from extractor.sizing.note_checks import is_note, note_unread, of_tolerance
from extractor.sizing.note_words import CHANGED, DEEP, OTHER_THING, PLACE, WIDE
from extractor.sizing.off_outline import is_overall
from extractor.sizing.other_notes import is_other_note
from extractor.sizing.printed import Printed
from extractor.sizing.sheet_words import folded
from extractor.sizing.unheard import radii_of, sizes_of
from extractor.sizing.void_words import OF_A_BLANK, asks

LONG = (
    r"(?:(?:OVERALL|TOTAL|GESAMT)\W*)?(?:LENGTHS?|LONG(?:ER)?|SHORTER|LANGE?|KURZER|LONGUEUR|LUNGHEZZA|LONGITUD|DLUGOSC"
    r"|DELKA|ДЛИНА)"
)
ROUND = r"(?:Ø|DIA(?:METERS?|METRE|METRO|M)?\b|DURCHM(?:ESSER)?\b|DIAMETRE)"
A_DIAMETER = late(ROUND)
SIZE = late(rf"\b(?:{WIDE}|{DEEP}|{LONG}\b|MASS\b|SIZE\b|COTE\b)|{ROUND}")
"""A word for a size."""
FIGURE = late(rf"(?<![\w.]){NUMBER}(?![\w.]*\w|\s*(?:%|KG\b|LBS?\b|G\b))")
TO_NEW = late(rf"{NUMBER}(?:\s*-\s*|\D*\b(?:TO|IN|INTO|AUF|ZU|A|EN|NA)\s+)(?:Ø\s*)?(?P<new>{NUMBER})\D*$")
"""A change from one figure to the one that ends the line."""
BEFORE_IT = late(r"\b(?:CUT|SAW(?:N|ED)?|SAG\w*|ABLANG\w*|CHUCK\w*|CLAMP\w*|\w*SPANN\w*)\b")
"""Of the piece before it is turned, and of what is held."""
BEFORE = late(r"\b(?:WAS|WERE|WAR(?:EN)?|OLD|ALT|ETAIT|ANCIEN|ERA|PREVIOUSLY|FORMERLY|FRUHER|BISHER)\b")
"""Of a change that was made: what was before is no matter now."""


def strange_texts(sheet: Sheet, part: Part, told: Sequence[Finding]) -> Iterator[Finding]:
    """A caution for each of them; none for what was `told` with its words."""
    if part.frame is None:
        return
    features = Features.of(part)
    broken = list(broken_lines(sheet))
    parts = {line for _, run in broken for line in run}
    whole = [(" ".join(run), text.at) for text, run in broken]
    lines = [(line, text.at) for text in sheet.everywhere for line in text.text.split("\n")]
    some = [one for one in (*whole, *lines) if one[0] not in parts and _may_ask(one[0])]
    messages = [f.message for f in told] if some else []
    sizes = sizes_of(features) if some else set()
    for line, at in dict.fromkeys(some):
        if _may_change(line, features, sizes) and not any(
            f'"{one}"' in message for one in (line, normalised(line)) for message in messages
        ):
            yield note_unread(normalised(line), at, None)


def _may_ask(words: str) -> bool:
    """True for words that nothing here parses, and that say nothing of a place or of a change, which are held alone."""
    line = without_item(capitals(words))
    if (
        PLACE.fullmatch(line)
        or CHANGED.fullmatch(line)
        or BEFORE.search(line)
        or is_overall(words)
        or OF_A_BLANK.search(folded(words))
    ):
        return False
    parsed = groove_note(words) is not None or is_count(words) or called_out(words) is not None or of_tolerance(words)
    return not (parsed or asks(words) or (is_other_note(words) and not is_note(words)))


def _may_change(words: str, features: Features, sizes: set[float]) -> bool:
    """True for a line that sizes what the part is not, among words that nobody knows."""
    line = without_item(capitals(words))
    if OTHER_THING.search(line) or not SIZE.search(line) or not has_strange(SIZE.sub(" ", line)):
        return False
    changed = TO_NEW.search(line)
    if BEFORE_IT.search(line) or (changed and any(features.fits(Printed.of(changed["new"]), size) for size in sizes)):
        return False
    figures = [Printed.of(number) for number in FIGURE.findall(line)]
    drawn = {2 * r for r in radii_of(features)} if A_DIAMETER.search(line) else sizes
    own = [size for g in features.part.grooves for size in (g.width, g.depth)]
    large = (features.part.length, features.part.outer_diameter, *(g.floor_diameter for g in features.part.grooves))
    other = [figure for figure in figures if not any(features.fits(figure, size) for size in drawn)]
    return any(
        any(could_be(one.value, size) for size in own) or any(could_be(one.value, size, ACROSS) for size in large)
        for one in other
    )
