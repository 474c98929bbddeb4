"""Words by which a sheet is out of force, or asks for something that may not be drawn.

A stamp or a note says that the drawing is void, superseded or cancelled, with little more than a date or a successor
beside it; as part of a longer sentence such a word is about something else, and a heading that waits for its value
("superseded by") says nothing. A note that has grooves added or left out is read by nobody here.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.late import late
from extractor.part import Part
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.note_words import ADDED, GROOVE
from extractor.sizing.lettering.sheet_words import about, folded, phrases, plain
from extractor.sizing.sentences.broken_lines import broken_lines, kinds_of, right_under
from extractor.sizing.sentences.not_on_sheet import OF_EDGES, kept_elsewhere, turned_too

STAMP, EARLY = (
    late(
        rf"\W*(?:(?:{phrases('of_a_sheet')}|[a-z]?\d+)\W+)*(?:{phrases(words)})"
        rf"(?:\W+(?:{phrases('for_work', 'of_a_sheet')}|\d[\w./-]*))*"
        rf"(?P<by>\W+(?:{phrases('by')})(?P<successor>\W+\w.*)?)?\W*"
    )
    for words in ("void", "early")
)
"""A line that is such a stamp and nothing else, with what it is to be used for and what it says of the sheet."""
APART = late(r"\s+[-–—|/]+\s+|[,;:!.]\s+")
"""What stands between two stamps on a line."""
SUCCESSOR = late(r"\W*(?:see|siehe|voir|vedi)\W+\w.*")
"""Where else to look, behind a stamp."""

WORDS = late(r"(?=[^\d]*$)\W*\w.{0,39}")
"""What may be one line of a stamp: no figures, and no sentence."""
LINES = 3
"""Lines of a stamp, at most."""

BEFORE_THIS = late(rf"\W*(?:{phrases('before_this')})\W*(?:,.*)?")
"""What says that the piece is drawn before it is finished; with a number behind it, it names another drawing."""
BLANK = late(rf"\W*(?:{phrases('blank')})\W*")
"""The same in one word, which as well heads a cell."""
FREE = 8.0
"""Letter heights about such a word within which nothing else stands: the cells of a title block are closer."""
WALLS = "near", "far"
"""Where a length that is dimensioned to a groove's wall ends."""
AT_AN_END = 0.4
"""Share of a part's length from an end within which a groove stands at that end."""

OTHER_SIZES = "other sizes to be turned than are drawn"
A_GROOVE = late(rf"\b{GROOVE}|\b(?:NUT|EINSTICH|RILLEN)MITTEN?\b")


def out_of_force(sheet: Sheet, part: Part) -> Iterator[Finding]:
    """The stop for a sheet that says it is out of force, else the caution for one that is not yet in force.

    And a caution for each note that asks for another shape, or for other sizes, than was read.
    """
    texts = sheet.everywhere
    lines = [(line, text.at) for text in texts for line in text.text.split("\n")]
    whole = [(" ".join(text.text.split()), text.at) for text in texts if "\n" in text.text]
    whole += [one for space in (sheet.texts, sheet.around) for one in _stacked(space)]
    for form, told in ((STAMP, _void), (EARLY, _early)):
        stamp = next(((line, at) for line, at in (*lines, *whole) if _is_stamp(form, line) or _among(form, line)), None)
        if stamp is not None:
            yield told(*stamp)
            break
    broken = [
        (" ".join(run), text.at)
        for text, run in broken_lines(sheet)
        if not any(_asks(line, part, sheet) for line in run)
    ]
    for words, at in (*lines, *broken):
        if what := _asks(words, part, sheet):
            yield _asked(words, what, at)
        elif about(folded(words), "sizes_before"):
            yield _before(words, at)
    for blank in (text for text in sheet.texts if BLANK.fullmatch(folded(text.text)) and _stands_free(text, sheet)):
        yield _asked(blank.text, OTHER_SIZES, blank.at)


def _asks(words: str, part: Part, sheet: Sheet) -> str:
    """What a line asks for that was not read, "" for nothing."""
    line = folded(words)
    what = _another(line, part)
    if what and A_GROOVE.search(plain(words).upper()) and not about(line, "burrs"):
        return what
    if (added := ADDED.fullmatch(plain(words).upper())) and (number := added["before"] or added["behind"]):
        return "a groove more" if int(number) > len(part.grooves) else ""
    if _not_drawn(words):
        return "something that is not drawn"
    if about(line, "mirrored"):
        return "the mirror image"
    if BEFORE_THIS.fullmatch(line) or (about(line, "other_sizes") and not about(line, "before_it")):
        return OTHER_SIZES
    if about(line, "as_radii"):
        return "sizes to be taken for radii"
    return "the same at both ends" if _at_one_end(words, part) else kept_elsewhere(words, part, sheet)


def asks(words: str) -> bool:
    """True for words that are told for what they ask."""
    line = folded(words)
    if about(line, "mirrored", "other_sizes", "as_radii", "other_end") or BEFORE_THIS.search(line) or _not_drawn(words):
        return True
    named = A_GROOVE.search(plain(words).upper()) is not None
    return named and about(line, "more", "otherwise", "full_radius", "both_ends", "to_middles")


def _not_drawn(words: str) -> bool:
    """True for words that name a groove, or another form of the part, and say that it is not drawn."""
    line = folded(words)
    if not about(line, "not_drawn") or about(line, *OF_EDGES):
        return False
    return about(line, "other_form") or A_GROOVE.search(plain(words).upper()) is not None


def _another(line: str, part: Part) -> str:
    """What a line asks for if it is about grooves: others than were read; "" for none."""
    if about(line, "more"):
        return "a groove more or less"
    if about(line, "full_radius") and any(groove.shape != "round" for groove in part.grooves):
        return "a floor of one full radius"
    if about(line, "to_middles") and any(
        spot in WALLS for one in part.distances for spot in (one.start.spot, one.end.spot)
    ):
        return "lengths to the middles of the grooves, and some are dimensioned to their walls"
    return "another groove" if about(line, "otherwise") else ""


def _stands_free(blank: Text, sheet: Sheet) -> bool:
    """True for a text with room about it, that is no cell of a table."""
    room = FREE * blank.height
    (x, y), (end, _) = blank.at, blank.end
    others = (text for text in sheet.texts if text is not blank)
    return all(t.end[0] < x - room or t.at[0] > end + room or abs(t.at[1] - y) > room for t in others)


def _stacked(texts: Sequence[Text]) -> Iterator[tuple[str, Point]]:
    """What stands on two lines or three, each a text of its own: words with those under them, of one height."""
    for kin, spans in kinds_of(text for text in texts if WORDS.fullmatch(text.text)):
        for k, text in enumerate(kin):
            run = [k]
            while len(run) < LINES and (under := right_under(run[-1], spans, text.height)) is not None:
                run.append(under)
                yield " ".join(" ".join(kin[one].text.split()) for one in run), text.at


def _at_one_end(words: str, part: Part) -> bool:
    """True for words that want grooves at both ends of a part that has them at one, or others there."""
    line, middle = folded(words), -part.length / 2
    if about(line, "other_end"):
        return not turned_too(part)
    named = A_GROOVE.search(plain(words).upper()) and about(line, "both_ends") and not about(line, *OF_EDGES)
    ends = {g.middle > middle for g in part.grooves if abs(g.middle - middle) >= (0.5 - AT_AN_END) * part.length}
    return bool(named and not about(line, "burrs")) and bool(part.grooves) and ends != {True, False}


def _is_stamp(form: re.Pattern[str], words: str) -> bool:
    """True for a line that is a stamp of a form, and says by what if it names a successor."""
    found = form.fullmatch(folded(words))
    heading = words.rstrip().endswith(":") or (found is not None and found["by"] and not found["successor"])
    return found is not None and not heading


def _among(form: re.Pattern[str], words: str) -> bool:
    """True for a line of several stamps, one of which is of a form."""
    clauses = [clause for clause in APART.split(words) if not SUCCESSOR.fullmatch(folded(clause))]
    stamped = all(_is_stamp(STAMP, clause) or _is_stamp(EARLY, clause) for clause in clauses)
    return stamped and any(_is_stamp(form, clause) for clause in clauses)


def _void(words: str, at: Point) -> Finding:
    sentence = (
        f'"{" ".join(words.split())}" at {place_words(at)} says that the drawing is not to be worked from: get the one '
        "in force, or accept it if that is said of something else."
    )
    return Finding(Level.STOP, DrawingCode.OUT_OF_FORCE, sentence, at)


def _early(words: str, at: Point) -> Finding:
    sentence = (
        f'"{" ".join(words.split())}" at {place_words(at)} says that the drawing is not released for production: see '
        "whether there is a later one before the part is cut."
    )
    return Finding(Level.CAUTION, DrawingCode.OUT_OF_FORCE, sentence, at)


def _before(words: str, at: Point) -> Finding:
    """What is drawn is what is turned: nothing to be done here, but the finished piece is another."""
    sentence = (
        f'The note "{" ".join(words.split())}" at {place_words(at)} gives the sizes before a later step: the part is '
        "turned as drawn, and is of other sizes when it is finished."
    )
    return Finding(Level.NOTE, DrawingCode.NOTE_UNREAD, sentence, at)


def _asked(words: str, what: str, at: Point) -> Finding:
    sentence = (
        f'The note "{" ".join(words.split())}" at {place_words(at)} asks for {what}; the part was read as drawn: see '
        "whether the drawing already shows what it asks."
    )
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, sentence, at)
