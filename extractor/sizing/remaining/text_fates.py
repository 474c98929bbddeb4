"""What became of each text of a sheet: its fate; what stands at the part and has none is told, and left to a person.

Rules: a text that rules took up, that a finding quotes, that heads a view, names something or is about other matters
(`harmless`) is accounted for, and so is a short one right above or below a line about the sheet, as titles are. Of the
rest those that a leader leads to the part, or that stand where its sizes do, are listed in one finding, a caution where
one is led there. What gives a size that the part has not, in words that nobody knows, is a caution by itself wherever
it stands, as `WIDTH CHANGED TO 3.2`; what is about other things, as heat treatment and threads, is left. The words are
common practice, no source.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence, Set
from enum import StrEnum
from functools import cache, partial
from math import prod
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import Part
from extractor.remembered import remembered
from extractor.sheet import DimensionKind, Sheet, Text
from extractor.sizing.ends.front_words import meaning
from extractor.sizing.lettering import note_words
from extractor.sizing.lettering.corner_words import COUNT, is_corner_note
from extractor.sizing.lettering.enlarged_words import heads_a_groove
from extractor.sizing.lettering.groove_notes import capitals, groove_note, is_count, without_item
from extractor.sizing.lettering.note_kinds import kinds_of
from extractor.sizing.lettering.pointers import PointedNote, said_anywhere
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import DETAIL, SECTION, VIEW, about, folded, meant, phrases
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.callouts import called_out
from extractor.sizing.notes.groove_forms import form_said
from extractor.sizing.notes.led_words import has_strange, queried
from extractor.sizing.notes.note_checks import (
    is_note,
    of_no_groove,
    of_tolerance,
    read_behind_words,
)
from extractor.sizing.notes.note_faults import counts_all, hold
from extractor.sizing.notes.note_findings import note_unread, words_unread
from extractor.sizing.notes.note_places import on_part
from extractor.sizing.notes.other_notes import is_other_note
from extractor.sizing.notes.short_notes import COUNTED_BEHIND
from extractor.sizing.remaining.text_places import TextPlaces
from extractor.sizing.remaining.unheard import radii_of, sizes_of
from extractor.sizing.scale.unit_evidence import INCH_NOTE, MM_NOTE
from extractor.sizing.sentences.broken_lines import broken_lines
from extractor.sizing.sentences.could_size import ABOUT_DEPTH, ABOUT_GROOVE, ABOUT_WIDTH, ACROSS, NTH, WORD, could_be
from extractor.sizing.sentences.general import BY_PLACES, called_up
from extractor.sizing.sentences.harmless import (
    FORM_OF_GROOVES,
    MATTERS_AT_GROOVES,
    OTHER_MATTERS,
    OTHER_QUANTITY,
    alters,
)
from extractor.sizing.sentences.material_notes import material_said
from extractor.sizing.sentences.void_words import asks
from extractor.sizing.sizes.land_notes import is_land_note, of_a_land
from extractor.sizing.sizes.named_sizes import held_by_name, is_named_size
from extractor.sizing.sizes.said_whole import is_overall
from extractor.sizing.tables.named_rows import row_names

ROUND = r"(?:Ø|DIA(?:METERS?|METRE|METRO|M)?\b|DURCHM(?:ESSER)?\b|DIAMETRE)"
A_DIAMETER = late(ROUND)
SIZE = late(rf"\b(?:{note_words.WIDE}|{note_words.DEEP}|(?:{phrases('a_length')})\b)|{ROUND}")
"""A word for a size."""
FIGURE = late(rf"(?<![\w.]){NUMBER}(?![\w.]*\w|\s*(?:%|KG\b|LBS?\b|G\b))")
TO_NEW = late(rf"{NUMBER}(?:\s*-\s*|\D*\b(?:TO|IN|INTO|AUF|ZU|A|EN|NA)\s+)(?:Ø\s*)?(?P<new>{NUMBER})\D*$")
"""A change from one figure to the one that ends the line."""
SIGNED = late(r"±|[+-]\s*\d*\.\d")
"""A deviation."""
HEADING = late(rf"(?:[\W\d]*[^\W\d_]+){{0,2}}[\W\d]*\b(?:{VIEW}|{DETAIL}|{SECTION})\b")
"""How the name of a view begins, in a folded line."""
NAME = late(r"\W*[^\W\d_]+(?:\W+\d{4,}|\w*(?:[./-]\w+)*)\W*")
"""One word with a long number or letters and figures behind it, or alone: a name."""
NEAR = 1.0
"""Share of the part's greater size within which a text stands at it: notes by hand are put where there is room."""
HEADED = late(
    r"(?!note|nb\b|remark|hinweis|achtung|attention)[^\W\d_]+: *[^\W\d_]+(?: [^\W\d_]+){0,2}"
    r"|[^\W\d_]+ (?:with|mit|avec|con) [^\W\d_]+"
)
"""A name behind its heading, or one of a thing with something on it, as `VALVE WITH GROOVE`."""
NUT = late(r"\bNUT\b")
"""A groove in German, and in English what goes on a thread."""
QUOTED = 5
"""So many texts are quoted; of more their number is told."""
QUOTES = late(r"\"(.+?)\"(?=[\s.,:;)]|$)")
A_COUNT = rf"(?:\d+|{'|'.join(note_words.COUNTS)})"
COUNTED_OUT = late(
    rf"\W*(?:(?P<rows>{A_COUNT})\W+[A-Z]+\W+(?:OF|ZU|A|DE|DI)\W+)?(?:EACH\W+)?(?P<each>{A_COUNT})\W+{note_words.GROOVE}\W*"
)
"""A row of so many grooves, or so many such rows."""


class Fate(StrEnum):
    """What became of a text, from the least to the most that a reader must know of it.

    A `FIGURE` has no word and goes by rules of its own, a `SIZE` is a dimension's. What is `AWAY` from the part is not
    understood, as what is `UNREAD` at it.
    """

    FIGURE = "figure"
    SIZE = "size"
    HEADING = "heading"
    NAME = "name"
    OTHER = "other"
    HARMLESS = "harmless"
    NOTE = "note"
    TOLD = "told"
    AWAY = "away"
    UNREAD = "unread"


class TextLedger(NamedTuple):
    """How many texts had which fate, and what is said of them."""

    fates: Mapping[str, int]
    findings: tuple[Finding, ...]


def text_ledger(sheet: Sheet, part: Part, told: Sequence[Finding]) -> TextLedger:
    """The fates of a sheet's texts beside a part, nothing where it has no place; `told` is what was found before."""
    if part.frame is None:
        return TextLedger({}, ())
    features = Features.of(part)
    changed = tuple(_changes(sheet, features, told))
    whole = {line: " ".join(run) for _, run in broken_lines(sheet) for line in run}
    fates = _fates(sheet, whole, _quoted((*told, *changed)))
    fates |= dict(_on(features, whole, fates))
    unread = sorted(_open_at(sheet, features, fates), key=lambda one: not one.sure)
    here = {line for one in unread for line in one.lines}
    fates |= {line: Fate.AWAY for line, fate in fates.items() if fate is Fate.UNREAD and line not in here}
    fates |= dict.fromkeys(here, Fate.UNREAD)
    rank = {fate: k for k, fate in enumerate(Fate)}
    worst = (max((fates[line] for line in text.text.split("\n")), key=rank.__getitem__) for text in sheet.everywhere)
    own = sum(d.kind is not DimensionKind.LEADER and not d.drawn for d in sheet.dimensions)
    counts = Counter({Fate.SIZE.value: own}) + Counter(fate.value for fate in worst)
    return TextLedger(counts, (*changed, *([_listed(unread)] if unread else [])))


def _quoted(told: Sequence[Finding]) -> Set[str]:
    """What findings quote, each line by itself too."""
    found = {words for finding in told for words in QUOTES.findall(finding.message)}
    return found | {line for words in found for line in words.split("\n")}


def _fates(sheet: Sheet, whole: Mapping[str, str], quoted: Set[str]) -> dict[str, Fate]:
    """The fate of each line by its words; a sentence over several lines has one."""
    leaders = [d.text or "" for d in sheet.dimensions if d.kind is DimensionKind.LEADER]
    carried = {words for d in sheet.dimensions for words in (d.text, *(d.text or "").split("^"))} - {*leaders}
    found, rows = dict[str, Fate](), row_names(sheet)
    for words in dict.fromkeys((*(text.text for text in sheet.everywhere), *leaders)):
        all_told = words in quoted or normalised(words) in quoted
        for line in words.split("\n"):
            sentence = whole.get(line, line)
            if all_told or not quoted.isdisjoint((line, normalised(line), sentence, normalised(sentence))):
                found[line] = Fate.TOLD
            elif line in rows:
                found[line] = Fate.NOTE
            else:
                own = fate_of(sentence)
                found[line] = Fate.SIZE if words in carried else fate_of(line) if own is Fate.UNREAD else own
    return found


@remembered
def fate_of(words: str) -> Fate:
    """The fate of a line by its words, wherever it stands.

    >>> [fate_of(words).value for words in ("SQUARE 28", "BREAK EDGES", "3 WIDE", "SLEEVE 4711", "12.5", "SECTION A-A")]
    ['unread', 'other', 'note', 'name', 'figure', 'heading']
    """
    return Fate.NOTE if is_named_size(words) and not queried(words) else _by_words(words)


def _by_words(words: str) -> Fate:
    """The same of a line that names no thing of the part with its size."""
    line, spelt = folded(normalised(words)), normalised(words).upper()
    if queried(words):
        return Fate.UNREAD
    if not WORD.search(words):
        return Fate.FIGURE
    if not _may_ask(words) or meaning(words, led=True) is not None or form_said(words) is not None:
        return Fate.NOTE
    if called_up([Text(words, (0.0, 0.0), 1.0)]) or (SIGNED.search(spelt) and BY_PLACES.search(spelt)):
        return Fate.OTHER
    if HEADING.match(line) or heads_a_groove(words):
        return Fate.HEADING
    if alters(words):
        return Fate.UNREAD
    named = _names_groove(words)
    sized = named and FIGURE.search(COUNT.sub(" ", note_words.ELSEWHERE.sub("", without_item(capitals(words)))))
    matters = FORM_OF_GROOVES if sized else MATTERS_AT_GROOVES if named else OTHER_MATTERS
    of_sheet = any(form.search(line) for form in (matters, OTHER_QUANTITY, meant("standard"), MM_NOTE, INCH_NOTE))
    of_sheet = of_sheet or (matters is OTHER_MATTERS and note_words.NO_GROOVE.search(capitals(words)) is not None)
    if of_sheet or material_said(words):
        return Fate.OTHER
    if not sized and not has_strange(meant("all_sizes").sub(" ", capitals(words))):
        return Fate.HARMLESS
    first, _, thing = line.partition(" ")
    headed = re.fullmatch(phrases("a_shaft"), thing) or (HEADED.fullmatch(line) and not _names_groove(first))
    return Fate.NAME if headed or (NAME.fullmatch(line) and not _names_groove(words)) else Fate.UNREAD


def _on(features: Features, whole: Mapping[str, str], fates: Mapping[str, Fate]) -> Iterator[tuple[str, Fate]]:
    """The lines whose fate is another beside the part, with it.

    A note that fits none of its grooves was not taken up; what gives a size that the part has is as drawn.
    """
    part = features.part
    kinds = {(g.width, g.depth, g.floor_diameter, g.mouth_diameter, g.shape): g for g in part.grooves}
    sizes = cache(partial(sizes_of, features))
    for line, fate in fates.items():
        if fate is Fate.NOTE and is_named_size(line) and not held_by_name(line, features):
            yield line, _by_words(line)
            continue
        if fate in (Fate.NOTE, Fate.UNREAD) and is_land_note(line) and of_a_land(line, features):
            yield line, Fate.NOTE
            continue
        note = groove_note(whole.get(line, line)) if fate is Fate.NOTE and not kinds_of(line) else None
        renewed = note_words.CHANGED.fullmatch(without_item(capitals(line))) if fate is Fate.NOTE else None
        if renewed is not None:
            new = Printed.of(renewed["new"] or renewed["to"] or renewed["now"])
            if not features.fits(new, *sizes()):
                yield line, Fate.UNREAD
        elif note is not None and not (of_no_groove(note, part) or _of_else(line) or called_out(line)):
            if all(hold(note, groove, features) for groove in kinds.values()) and not counts_all(note, features):
                yield line, Fate.UNREAD
        elif fate is Fate.UNREAD and _counts(line, len(part.grooves)):
            yield line, Fate.NOTE
        elif fate in (Fate.UNREAD, Fate.HARMLESS) and SIZE.search(capitals(line)) and not alters(line):
            changed = TO_NEW.search(capitals(line))
            figures = [Printed.of(one) for one in ([changed["new"]] if changed else FIGURE.findall(capitals(line)))]
            if figures and all(features.fits(one, *sizes()) for one in figures):
                yield line, Fate.NOTE
            elif fate is Fate.HARMLESS and _may_be_meant(figures, part):
                yield line, Fate.UNREAD


def _names_groove(words: str) -> bool:
    """True for a line that names a groove; the German word alone is a nut in English, among German words it is none."""
    line = capitals(words)
    named = line if about(line, "german") else NUT.sub("", line)
    bent = about(folded(words), "groove_bent") and note_words.NO_GROOVE.search(line) is None
    return bent or ABOUT_GROOVE.search(named) is not None or about(named, "not_plunged")


def _claims(words: str, part: Part) -> bool:
    """True for a width or a depth in a form known here, by a word for it, that is about what those of a groove are."""
    line, note = capitals(words), None if NTH.search(capitals(words)) else groove_note(words)
    asked = {"width": ABOUT_WIDTH.search(line), "depth": ABOUT_DEPTH.search(line)}
    sizes = [(name, figure.value) for name, figure in note.meanings[0].sizes if asked.get(name)] if note else []
    return any(could_be(size, float(getattr(groove, name))) for name, size in sizes for groove in part.grooves)


def _of_else(words: str) -> bool:
    """True for a line that names another thing and no groove."""
    line = capitals(words)
    return note_words.OTHER_THING.search(line) is not None and not _names_groove(words)


def _counts(words: str, grooves: int) -> bool:
    """True for a line that counts the grooves and does no more, as `TWO ROWS OF SIX GROOVES` does of twelve."""
    found = COUNTED_OUT.fullmatch(without_item(capitals(words)))
    return found is not None and prod(_number(one) for one in (found["rows"], found["each"]) if one) == grooves


def _number(words: str) -> int:
    """A number in figures or spelt out."""
    spelt = next((n for n, form in enumerate(note_words.COUNTS, 2) if re.fullmatch(form, words)), 0)
    return spelt or int(words)


class _Open(NamedTuple):
    """A note at the part with its lines that have no fate; `sure` if a leader says so, or a groove is named."""

    note: PointedNote
    lines: tuple[str, ...]
    sure: bool


def _open_at(sheet: Sheet, features: Features, fates: Mapping[str, Fate]) -> Iterator[_Open]:
    """The notes at the part, or on its grooves wherever they stand, that have no fate; at a leader a name is none."""
    places = TextPlaces(sheet.texts, [fate_of(t.text) in (Fate.OTHER, Fate.HARMLESS) for t in sheet.texts])

    def left(words: str, *, led: bool) -> tuple[str, ...]:
        """The lines of a note that have no fate."""
        lines = (line for line in words.split("\n") if fates.get(line) in (Fate.UNREAD, *([Fate.NAME] if led else [])))
        return tuple(line for line in lines if not (led and _of_else(line)))

    for note in said_anywhere(sheet, lambda words: bool(left(words, led=True) or left(words, led=False))):
        led = note.tip is not None and on_part(note.tip, features)
        lines = left(note.words, led=led)
        named = any(_names_groove(line) or alters(line) or _claims(line, features.part) for line in lines)
        here = led or named or (_near(note.middle, features) and not places.title(note))
        if (
            lines
            and here
            and (led or note.on_paper or not places.cell(note) or any(_odd(one, features) for one in lines))
        ):
            yield _Open(note, lines, led or named)


def _odd(line: str, features: Features) -> bool:
    """True for a cell that names a groove with a figure that is no number of one, and none of its sizes and places."""
    figures = [Printed.of(one) for one in FIGURE.findall(capitals(line))] if _names_groove(line) else []
    drawn = [
        size
        for g in features.part.grooves
        for size in (g.width, g.depth, g.floor_diameter, g.mouth_diameter, g.corner_radius, -g.z_near, -g.z_far)
    ]
    numbers = range(len(features.part.grooves) + 1)
    return bool(figures) and not any(
        (one.decimals == 0 and one.value in numbers) or features.fits(one, *drawn) for one in figures
    )


def _near(at: Point, features: Features) -> bool:
    """True if a place of the sheet lies near the part."""
    (z, r), part, room = features.frame.on_part(at), features.part, NEAR * features.size
    return max(z, -part.length - z, abs(r) - part.outer_diameter / 2) <= room


def _listed(unread: Sequence[_Open]) -> Finding:
    """The one finding for texts at the part that nobody here understands."""
    lines = list(dict.fromkeys(f'"{normalised(" ".join(one.lines))}"' for one in unread))
    more = f" and {len(lines) - QUOTED} more" if len(lines) > QUOTED else ""
    words = (
        f"Words at the part are not understood: {', '.join(lines[:QUOTED])}{more}; see whether they change a groove."
    )
    sure = any(one.sure for one in unread)
    spots = tuple(dict.fromkeys(one.note.tip or one.note.at for one in unread if not one.note.on_paper))[:QUOTED]
    at = next(iter(spots), None)
    return Finding(Level.CAUTION if sure else Level.NOTE, DrawingCode.NOTE_UNREAD, words, at, spots=spots[1:])


def _changes(sheet: Sheet, features: Features, told: Sequence[Finding]) -> Iterator[Finding]:
    """A caution for each text that gives a size which the part has not; none for what was `told` with its words."""
    broken = list(broken_lines(sheet))
    parts = {line for _, run in broken for line in run}
    whole = [(" ".join(run), text.at) for text, run in broken]
    lines = [(line, text.at) for text in sheet.everywhere for line in text.text.split("\n")]
    some = [one for one in (*whole, *lines) if one[0] not in parts and _may_ask(one[0]) and not is_named_size(one[0])]
    quoted, sizes = (_quoted(told), sizes_of(features)) if some else (set[str](), set[float]())
    read = read_behind_words(sheet, features) if some else set[str]()
    for line, at in dict.fromkeys(some):
        if quoted.isdisjoint((line, normalised(line))) and _may_change(line, features, sizes):
            yield (words_unread if line in read else note_unread)(normalised(line), at)


def _may_ask(words: str) -> bool:
    """True for words that nothing here parses, and that say nothing of a place or of a change, which are held alone."""
    line = without_item(capitals(words))
    if any(form.fullmatch(line) for form in note_words.HELD_ALONE) or is_overall(words):
        return False
    parsed = (
        groove_note(words) is not None
        or bool(kinds_of(words))
        or is_count(words)
        or called_out(words) is not None
        or of_tolerance(words)
    )
    parsed = parsed or COUNTED_BEHIND.fullmatch(capitals(words)) is not None
    return not (parsed or is_corner_note(words) or asks(words) or (is_other_note(words) and not is_note(words)))


def _may_change(words: str, features: Features, sizes: set[float]) -> bool:
    """True for a line that sizes what the part is not, among words that nobody knows."""
    line = without_item(capitals(words))
    if re.search(note_words.BEFORE, line) or about(folded(words), "before_it", "gauged"):
        return False
    if note_words.OTHER_THING.search(line) or not SIZE.search(line) or not has_strange(SIZE.sub(" ", line)):
        return False
    changed = TO_NEW.search(line)
    if about(line, "cut_off") or (changed and features.fits(Printed.of(changed["new"]), *sizes)):
        return False
    figures = [Printed.of(number) for number in FIGURE.findall(line)]
    drawn = {2 * r for r in radii_of(features)} if A_DIAMETER.search(line) else sizes
    return _may_be_meant([one for one in figures if not features.fits(one, *drawn)], features.part)


def _may_be_meant(figures: Sequence[Printed], part: Part) -> bool:
    """True if a figure may be meant for a size of a part or of a groove."""
    own = [size for g in part.grooves for size in (g.width, g.depth)]
    large = (part.length, part.outer_diameter, *(g.floor_diameter for g in part.grooves))
    return any(could_be(one.value, *own) or could_be(one.value, *large, shares=ACROSS) for one in figures)
