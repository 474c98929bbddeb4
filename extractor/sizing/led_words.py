"""Words that are led to a groove and that no rule here takes up: what they ask for is told, and left to a person.

Rules: what a groove is for, how it is finished, its edges, a number of an item or of another note ask for nothing that
is not drawn. Any other word may, as `DELETED`, `ONLY FOR TYPE B` and `KEYWAY 3x2` do; so does a detail that is not on
the sheet.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator

from extractor.finding import Finding
from extractor.grammar import PLACES, WORDED, normalised
from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.could_size import WORD
from extractor.sizing.note_checks import is_note, note_unread, tied_to
from extractor.sizing.note_words import GROOVE
from extractor.sizing.other_notes import is_other_note
from extractor.sizing.pointers import led, led_sizes, said
from extractor.sizing.printed import parse
from extractor.sizing.sheet_words import DETAIL, VIEW, any_of, folded
from extractor.sizing.ties import Features
from extractor.sizing.void_words import FULL_RADIUS, PROCESS, asks

FOR_WHAT = (
    r"(?:o|quad|x|v)?-?ring\w*|\w*ring(?:nut|e|s)?|circlips?|clips?|snap|retaining|piston|kolben\w*|wipers?|abstreif\w*"
    r"|seal\w*|oil|greas\w*|lubric\w*|dicht\w*|\w*sicherung\w*|schmier\w*|ol\w*|fett\w*|joints?|toriqus?|etanch\w*"
    r"|graiss\w*|huil\w*|segment|arret|anell\w*|tenuta|guarniz\w*|elastic[oa]|lubrif\w*|junta|torica|anillo|aro"
    r"|o?pakking|tatning\w*|uszczeln\w*|tesnen\w*|bearings?|lager\w*|seats?|sitz"
)
"""What a groove is for."""
FINISHED = (
    rf"r[azt]|rmax|n\d+|hrc|hv|hb|finish\w*|surfaces?|{PROCESS}|ground|smooth|turned|geschliff\w*|gedreht|blank|sauber"
    r"|brunier\w*|oxid\w*|paint\w*|oiled|clean|free|frei|edges?|corners?|sharp|broken?|brok|breaks?|deburr\w*|burrs?"
    r"|walls?|flanks?|floors?|bottom|kant\w*|flank\w*|grund|entgrat\w*|gebrochen|scharf\w*|grat\w*|aretes?|vives?"
    r"|bavur\w*|ebavur\w*|spigol\w*|viv[io]|sbav\w*|bav[ae]|rebab\w*|arist\w*|chamf\w*|fasen?|radi(?:us|i)|rayons?|raggi[o]?"
)
"""How it is finished, and its edges."""
ACROSS = (
    r"holes?|drill\w*|tap(?:ped)?|ream\w*|\w*bohr\w*|reib\w*|thru?|through|durch|trous?|perc\w*|for[oi]|taladr\w*"
    r"|agujeros?|deep|tief|cross|quer"
)
"""What is drilled across it, and goes by its own rules."""
REFERRED = (
    rf"see|siehe|voir|vedi|ver|notes?|hinweis|pos|items?|nr|no|datum|bezug|typ(?:ical)?|ref|din|iso|en|nach|per|{PLACES}"
    r"|max|min|mm|dia\w*|all|alle|both|each|beide|for|fur|zu[mr]?|pour|para|the|of|del?|di|le|la|les|with|mit|and|und|et|in"
)
"""What it is called, where more is said of it, and the small words between."""
HARMLESS = any_of(FOR_WHAT, FINISHED, ACROSS, REFERRED)
NAMED = late(rf"\b\w*?{GROOVE}", re.I)
"""A groove by its name, with what it is for before it in one word or not."""
ON_SHEET = late(rf"\b(?:{DETAIL}|{VIEW})\W*(?P<letter>[a-z])\b")
"""A detail or a view by its letter."""


def led_words_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each note led to a groove that has a word nobody here knows."""
    texts = [folded(text.text) for text in sheet.texts]
    for note in said(sheet, _strange):
        groove = next(iter(tied_to(note, features, sure=True)), None) if note.tip is not None else None
        rounded = groove is not None and groove.shape == "round" and FULL_RADIUS.search(folded(note.words))
        if groove is not None and not rounded and not _shown(folded(note.words), texts):
            yield note_unread(normalised(note.words), note.tip or note.at, groove)


def led_texts(sheet: Sheet) -> Iterator[tuple[Text, Dimension]]:
    """The texts of notes and of sizes that loose lines lead to a place, each as the leader that it is."""
    yield from led_sizes(sheet)
    texts = {(text.at, text.text): text for text in sheet.texts}
    own = {(d.text, d.points[0]) for d in sheet.dimensions if d.kind is DimensionKind.LEADER}
    for note in said(sheet, lambda words: is_note(words) or _strange(words)):
        text = texts.get((note.at, note.words))
        if text is not None and note.tip is not None and (note.words, note.tip) not in own:
            yield text, led(note.words, note.tip, note.at)


@remembered
def _strange(words: str) -> bool:
    """True for words of which no rule takes up all, and that are no harmless ones alone."""
    if not WORD.search(words) or is_note(words) or is_other_note(words):
        return False
    line = HARMLESS.sub(" ", folded(NAMED.sub(" ", normalised(words))))
    sized = parse(words).sign and WORDED.fullmatch(normalised(words))
    return WORD.search(line) is not None and not (sized or asks(words))


def _shown(line: str, texts: list[str]) -> bool:
    """True for a line that is about nothing but a detail or a view which some other text heads."""
    found = ON_SHEET.search(line)
    if found is None or WORD.search(HARMLESS.sub(" ", ON_SHEET.sub(" ", line))):
        return False
    heads = (one for one in texts if one != line)
    return any(re.fullmatch(rf"\W*(?:{DETAIL}|{VIEW})?\W*{found['letter']}\b[\W\d]*", one) for one in heads)
