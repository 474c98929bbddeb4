"""Sentences that a hand broke over lines, each a text of its own, as sheets without paragraphs have them.

Rules: the lines are of one height, evenly under each other at one left edge or about one middle. Cells are none:
nothing is ruled between lines, and no text stands in line with one; nor is a line with its own number the rest of
another. Such lines are one sentence only where the first can't end one, or the second can't begin one, or the one names
grooves and the other prints the size of some: else each says its own.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely

from extractor.grammar import NUMBER
from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import Floats, Segments, Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals, is_count
from extractor.sizing.lettering.note_words import DEEP, OTHER_THING
from extractor.sizing.lettering.pointers import LISTED, NEXT
from extractor.sizing.lettering.sheet_words import folded
from extractor.sizing.sentences.could_size import ABOUT_GROOVE, ABOUT_WIDTH

LINES = 4
"""Lines of one sentence at most."""
EDGE = 0.5
"""Letter heights by which the left edges, or the middles, of two lines may differ: they are set by hand."""
INDENT = 4.0
"""The same from the edge of a line with its number to the lines that go on it, to the right."""
EVEN = 0.1
"""Letter heights by which one line may stand farther from the next than the one before."""
BESIDE = 12.0
"""Letter heights from one cell of a row to the next, at most, as in tables of fits."""
LEVEL = 0.5
"""Letter heights by which what stands in line may be higher or lower."""
WORD = late(r"[^\W\d_]{3}")
"""How a word begins: what has none is a size, a number or a letter."""
ENDED = late(r".*[.;:!?]\s*")
"""A line that ends its sentence, or heads what follows."""
HANGING = late(
    r".*\b(?:the|an|of|to|be|is|are|and|or|by|for|from|on|at|with|not|all|per|before|after|than|as|shall|must|will|been"
    r"|only|any|each|der|die|das|dem|den|des|ein\w{0,2}|und|oder|von|vom|zu[mr]?|nach|vor|mit|fur|bei|auf|im|aus|sind|ist"
    r"|wird|werden|nicht|alle\w?|sowie|bis|durch|ohne|les?|un|une|du|et|ou|aux?|par|pour|avec|sans|sur|dans|apres|avant"
    r"|est|sont|etre|tous|toutes|ne|pas|il|lo|gli|d[aeio]|del\w{0,2}|dei|dal\w{0,2}|con|senza|dopo|prima|sono|esser|non"
    r"|tutt[ei]|el|los|las|una|por|para|sin|sobre|despus|antes|son|ser|todos|todas|dos|em|sem|apos|sao|het|een|van|voor"
    r"|met|zonder|zijn|wordt|worden|niet|och|eller|av|af|efter|etter|fore?|med|ut[ae]n|ar|ikke|inte|som|till|lub|przed"
    r"|dla|od|nie|nebo|pred|pro)\W*"
)
"""A folded line whose last word can end no sentence."""
GOING_ON = late(
    r"\W*(?:(?:to be|are|is|be|of|and|or|by|with|than|shall|must|sind|ist|werden|wird|und|oder|mussen|sont|est|et|ou"
    r"|doivent|sono|devono|sara|e|es|son|deben|y|sao|devem|zijn|worden|en|ska(?:ll?)?|och|og|eller|sa|musza|jsou|musi)\b.*"
    r"|(?:after|before|nach|vor|apres|avant|dopo|prima|despus|antes|apos|na|voor|efter|fore?|etter|po|przed|pred)"
    r"(?:\W+[^\W\d]+){1,2}\W*)"
)
"""A folded line that no sentence begins with; `after plating` says nothing by itself, and more words may."""
SIZED = late(rf"\W*(?:\d+\s*[X×]\s+)?(?:[RØ]\s*)?\d(?:[^.;]|\.\d)*|.*\b{DEEP}.*\d.*")
"""A line in capitals that may be the size of what the one before names."""
FIGURE = late(r"\d")
BARE = late(rf"\W*(?:%%c|Ø|R)?\s*{NUMBER}[^A-Za-z]*(?:[A-Za-z]{{1,2}}\d{{1,2}}[^A-Za-z]*)?", re.I)
"""A size with its tolerance and no word."""


def broken_lines(sheet: Sheet) -> Iterator[tuple[Text, list[str]]]:
    """The lines of each broken sentence of a sheet, also of one within a paragraph, with the text that it begins in."""
    for text in sheet.everywhere:
        yield from ((text, run) for run in _within(text.text))
    yield from ((text, text.text.split("\n")) for text in broken_notes(sheet))


def broken_notes(sheet: Sheet) -> tuple[Text, ...]:
    """The sentences of a sheet whose lines are texts of their own, each whole as a paragraph has it.

    Of layouts around a part the ruled lines are not kept.
    """
    return tuple(_whole(run) for run in (*_runs(sheet.texts, sheet.segments), *_runs(sheet.around, None)))


def with_sentences(sheet: Sheet, wanted: Callable[[str], bool]) -> Sheet:
    """The sheet with such sentences in the place of their lines, where they are `wanted` whole."""
    texts, around = _joined(sheet.texts, sheet.segments, wanted), _joined(sheet.around, None, wanted)
    return sheet if texts is sheet.texts and around is sheet.around else replace(sheet, texts=texts, around=around)


def _joined(texts: tuple[Text, ...], segments: Segments | None, wanted: Callable[[str], bool]) -> tuple[Text, ...]:
    """Some texts with the sentences that are wanted in the place of their lines."""
    runs = [run for run in _runs(texts, segments) if wanted(_whole(run).text)]
    gone = {line for run in runs for line in run}
    return (*(t for t in texts if t not in gone), *map(_whole, runs)) if runs else texts


def _within(words: str) -> Iterator[list[str]]:
    """The lines of each sentence of a paragraph that goes on from one to the next."""
    lines = words.split("\n")
    breaks = [0, *(k for k, (a, b) in enumerate(pairwise(lines), 1) if not _goes_on(a, b)), len(lines)]
    return (lines[a:b] for a, b in pairwise(breaks) if b - a > 1)


def _whole(run: Sequence[Text]) -> Text:
    """The lines of one sentence as one text."""
    return replace(run[0], text="\n".join(line.text for line in run))


@remembered
def _runs(texts: tuple[Text, ...], segments: Segments | None) -> tuple[tuple[Text, ...], ...]:
    """The lines of each sentence, the first above."""
    below = dict(_pairs(texts, segments))
    starts, found = below.keys() - set(below.values()), []
    for text in (t for t in texts if t in starts):
        run = [text]
        while len(run) < LINES and (under := below.get(run[-1])) is not None and _even([*run, under]):
            run.append(under)
        found += [tuple(run)] if any(WORD.search(line.text) for line in run) else []
    return tuple(found)


def _even(run: Sequence[Text]) -> bool:
    """True for lines that stand evenly under each other."""
    steps = [-a.seen(b.at)[1] for a, b in pairwise(run)]
    return max(steps) - min(steps) <= EVEN * run[0].height


def _pairs(texts: Sequence[Text], segments: Segments | None) -> Iterator[tuple[Text, Text]]:
    """Each line with the one right under it that goes on it."""
    kinds: dict[tuple[float, float], list[Text]] = {}
    for text in texts:
        if text.height > 0 and "\n" not in text.text:
            kinds.setdefault((round(text.height, 3), round(text.angle, 1)), []).append(text)
    for kin in (kin for kin in kinds.values() if len(kin) > 1):
        spans = spans_of(kin)
        for k, text in enumerate(kin):
            under = right_under(k, spans, text.height)
            if under is None or not _goes_on(text.text, kin[under].text):
                continue
            if (
                _aligned(text, spans[k], spans[under])
                and not any(_is_cell(one, texts) for one in (text, kin[under]))
                and (segments is None or not _ruled(text, kin[under], segments))
            ):
                yield text, kin[under]


def spans_of(kin: Sequence[Text]) -> Floats:
    """Of texts in one direction, where each begins along its line, how high it stands, and where it ends: (n, 3)."""
    return np.array([[*kin[0].seen(t.at), kin[0].seen(t.end)[0]] for t in kin])


def right_under(own: int, spans: Floats, height: float) -> int | None:
    """Which of some texts stands right under one, at least with a part of it; None where none does."""
    start, up, end = spans[own]
    over = (spans[:, 0] <= end) & (spans[:, 2] >= start)
    near = over & (spans[:, 1] < up) & (spans[:, 1] >= up - NEXT * height)
    return int(np.argmax(np.where(near, spans[:, 1], -np.inf))) if near.any() else None


def _aligned(text: Text, own: Floats, under: Floats) -> bool:
    """True for lines at one left edge or about one middle, or indented behind a number."""
    off = under[0] - own[0]
    middle = (under[0] + under[2] - own[0] - own[2]) / 2
    indented = LISTED.match(text.text) and 0 < off <= INDENT * text.height
    return bool(min(abs(off), abs(middle)) <= EDGE * text.height or indented)


def _goes_on(first: str, second: str) -> bool:
    """True if two lines are likely one sentence."""
    if ENDED.fullmatch(first) or LISTED.match(second):
        return False
    if not WORD.search(second):
        return BARE.fullmatch(second) is not None and (_heads(first) or BARE.fullmatch(first) is not None)
    if not WORD.search(first):
        return False
    if HANGING.fullmatch(folded(first)) or GOING_ON.fullmatch(folded(second)):
        return True
    above, below = capitals(first), capitals(second)
    named, other = ABOUT_GROOVE.search(above), ABOUT_GROOVE.search(below)
    if OTHER_THING.search(above) or OTHER_THING.search(below) or is_count(second):
        return False
    sizes = [bool(FIGURE.search(line)) for line in (above, below)]
    if named and not other:
        return sizes == [False, True] and SIZED.fullmatch(below) is not None
    return bool(other and not named and sizes == [True, False] and ABOUT_WIDTH.search(above))


def _heads(line: str) -> bool:
    """True for a line that names a groove, with no figure and about no other thing: sizes may stand under it."""
    rest, named = ABOUT_GROOVE.subn(" ", capitals(line))
    return named > 0 and not OTHER_THING.search(rest) and not FIGURE.search(rest)


def _is_cell(text: Text, texts: Sequence[Text]) -> bool:
    """True for a text that others stand in line with, as in the row of a table."""
    end = text.seen(text.end)[0]
    for other in texts:
        along, up = text.seen(other.at)
        if other is not text and abs(up) <= LEVEL * text.height:
            last = text.seen(other.end)[0]
            if max(along - end, -last) <= BESIDE * text.height:
                return True
    return False


def _ruled(first: Text, second: Text, segments: Segments) -> bool:
    """True if a line runs between two lines of text, from the foot of the first to that of the second."""
    between = shapely.LineString([first.place(first.height, 0.0), second.place(first.height, second.height)])
    low, high = np.sort(segments.ends.reshape(-1, 2, 2), axis=1).transpose(1, 0, 2)
    left, bottom, right, top = between.bounds
    near = (low[:, 0] <= right) & (high[:, 0] >= left) & (low[:, 1] <= top) & (high[:, 1] >= bottom)
    lines = shapely.linestrings(segments.ends[near].reshape(-1, 2, 2))
    return bool(shapely.intersects(lines, between).any())
