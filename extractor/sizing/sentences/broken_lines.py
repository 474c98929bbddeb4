"""Sentences that a hand broke over lines, each a text of its own, as sheets without paragraphs have them.

Rules: the lines are of one height, evenly under each other at one left edge or about one middle. Cells are none:
nothing is ruled between lines, and no text stands in line with one; nor is a line with its own number the rest of
another. Such lines are one sentence only where the first can't end one, or the second can't begin one, or the one names
grooves and the other prints the size of some: else each says its own.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely

from extractor.finding import Point
from extractor.grammar import NUMBER
from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import Dimension, DimensionKind, Floats, Segments, Sheet, Text
from extractor.sizing.lettering.groove_notes import behind_words, capitals, groove_note, is_count
from extractor.sizing.lettering.lists import LISTED
from extractor.sizing.lettering.note_words import DEEP, ELSEWHERE, GROOVE, OTHER_THING, RING_NAME, WIDE
from extractor.sizing.lettering.pointers import NEXT, Carriers, led, said
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import folded, phrases
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
HANGING = late(rf".*\b(?:{phrases('hanging')})\W*")
"""A folded line whose last word can end no sentence."""
GOING_ON = late(rf"\W*(?:(?:{phrases('going_on')})\b.*|(?:{phrases('before_or_after')})(?:\W+[^\W\d]+){{1,2}}\W*)")
"""A folded line that no sentence begins with; `after plating` says nothing by itself, and more words may."""
SIZED = late(rf"\W*(?:\d+\s*[X×]\s+)?(?:[RØ]\s*)?\d(?:[^.;]|\.\d)*|.*\b{DEEP}.*\d.*")
"""A line in capitals that may be the size of what the one before names."""
FIGURE = late(r"\d")
FIGURE_LAST = late(rf"(?<![\d.]){NUMBER}\s*(?:MM)?\s*$")
SIDE_FIRST = late(rf"\s*(?:{WIDE}|{DEEP})(?![^\W\d])(?!\W*{NUMBER}\s*$)")
"""A figure that ends a line in capitals, and the word for its side that begins the next; a figure of its own behind it
is that of the word."""
RADIUS = late(r"\W*(?:\d+\s*[xX×]\s*)?R(?:AD(?:IUS)?)?\.?\s*[\d.]", re.I)
"""How a radius begins."""
NORM = late(rf"\b(?:DIN|ISO|EN|ANSI|ASME)\s*\d|\W*{RING_NAME}\s+{NUMBER}\s*[X×]\s*{NUMBER}\W*$")
"""A standard, or a ring by its name with its two sizes, which a groove is called out by."""
ANOTHER = late(rf"^\W*(?:\d+\W*(?:[X×]\W*)?)?{GROOVE}\W*\d")
"""How a line of a callout begins that is about a groove of its own."""
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


def with_callouts(sheet: Sheet, at_view: Callable[[Point], bool]) -> Sheet:
    """The sheet with the lines of each callout as one text: those with figures right under one that is led to the view.

    Where nobody here understands them together, a diameter among them is led there by itself. A line that has its own
    leader or dimension, its own number, or is about another groove or thing, is none of them.
    """
    sized = {(d.text, d.at) for d in sheet.dimensions if d.at is not None}
    below = {
        text: under
        for text, under in _stacked(sheet.texts)
        if FIGURE.search(under.text) and (under.text, under.at) not in sized
        if not (LISTED.match(under.text) or any(form.search(capitals(under.text)) for form in (OTHER_THING, ANOTHER)))
    }
    words = {one.text for pair in below.items() for one in pair}
    tips = {(n.at, n.words): n.tip for n in said(sheet, words.__contains__) if n.tip is not None} if below else {}
    blocks, callouts = _Blocks(sheet.texts, sheet.segments), list[tuple[list[Text], Point]]()
    corners = dict[Text, Dimension]()
    for text in (text for text in below if _begins_callout(text.text)):
        tip, run, last = tips.get((text.at, text.text)), [text], text
        while tip is not None and at_view(tip) and len(run) < LINES:
            under = below.get(last)
            if under is None or tips.get((under.at, under.text), tip) != tip or not blocks.one(last, under):
                break
            # A radius is that of a corner, wherever it stands, and led there by itself.
            corner = RADIUS.match(under.text) is not None
            if corner and (under.at, under.text) not in tips:
                corners[under] = led(under.text, tip, under.at)
            run, last = [*run, *([] if corner else [under])], under
        callouts += [(run, tip)] if tip is not None and len(run) > 1 else []
    sheet = replace(sheet, dimensions=(*sheet.dimensions, *corners.values())) if corners else sheet
    return _called_out(sheet, callouts)


def _begins_callout(words: str) -> bool:
    """True for a line that may be the first of a callout: none about a ring, a standard, a finish or a radius."""
    line = capitals(words)
    other = OTHER_THING.search(line) and not ABOUT_GROOVE.search(line)
    return not (other or RADIUS.match(words) or ELSEWHERE.match(line) or NORM.search(line))


def _called_out(sheet: Sheet, callouts: Sequence[tuple[Sequence[Text], Point]]) -> Sheet:
    """The sheet with some lines as one callout, or each as a leader with its tip."""
    whole = {run[0]: _whole(run) for run, _ in callouts}
    wholes = {text for text, one in whole.items() if groove_note(one.text) or behind_words(one.text)}
    gone = {line for run, _ in callouts if run[0] in wholes for line in run[1:]}
    texts = (whole[t] if t in wholes else t for t in sheet.texts if t not in gone)
    carriers = Carriers([d for d in sheet.dimensions if d.kind is DimensionKind.LEADER])
    own = {id(d): text for text in wholes for d in carriers.of(text)}
    dimensions = (replace(d, text=whole[own[id(d)]].text) if id(d) in own else d for d in sheet.dimensions)
    alone = ((line, tip) for run, tip in callouts if run[0] not in wholes for line in run[1:])
    more = (led(line.text, tip, line.at) for line, tip in alone if parse(line.text).sign == "diameter")
    return replace(sheet, texts=tuple(texts), dimensions=(*dimensions, *more)) if callouts else sheet


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


def _pairs(texts: tuple[Text, ...], segments: Segments | None) -> Iterator[tuple[Text, Text]]:
    """Each line with the one right under it that goes on it."""
    blocks = _Blocks(texts, segments)
    return (pair for pair in _stacked(texts) if _goes_on(pair[0].text, pair[1].text) and blocks.one(*pair))


@remembered
def _stacked(texts: tuple[Text, ...]) -> tuple[tuple[Text, Text], ...]:
    """Each line with the one right under it at its left edge or about its middle."""
    found = []
    for kin, spans in kinds_of(text for text in texts if "\n" not in text.text):
        for k, text in enumerate(kin):
            under = right_under(k, spans, text.height)
            if under is not None and _aligned(text, spans[k], spans[under]):
                found.append((text, kin[under]))
    return tuple(found)


def kinds_of(texts: Iterable[Text]) -> Iterator[tuple[list[Text], Floats]]:
    """Texts of one height in one direction, where there are several, with their spans, (n, 3).

    A span is where a text begins along its line, how high it stands, and where it ends.
    """
    kinds: dict[tuple[float, float], list[Text]] = {}
    for text in (text for text in texts if text.height > 0):
        kinds.setdefault((round(text.height, 3), round(text.angle, 1)), []).append(text)
    for kin in (kin for kin in kinds.values() if len(kin) > 1):
        yield kin, np.array([[*kin[0].seen(t.at), kin[0].seen(t.end)[0]] for t in kin])


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
    if named and FIGURE_LAST.search(above) and SIDE_FIRST.match(below):
        return True
    if named and not other:
        return sizes == [False, True] and SIZED.fullmatch(below) is not None
    return bool(other and not named and sizes == [True, False] and ABOUT_WIDTH.search(above))


def _heads(line: str) -> bool:
    """True for a line that names a groove, with no figure and about no other thing: sizes may stand under it."""
    rest, named = ABOUT_GROOVE.subn(" ", capitals(line))
    return named > 0 and not OTHER_THING.search(rest) and not FIGURE.search(rest)


class _Blocks:
    """Which lines of text are in one block: cells of a table are not."""

    def __init__(self, texts: Sequence[Text], segments: Segments | None) -> None:
        """Take the texts and the strokes among which the lines stand, None for strokes that are not kept."""
        self._texts, self._segments = texts, segments

    @cached_property
    def _written(self) -> shapely.STRtree:
        """Each text from its beginning to its end."""
        return shapely.STRtree(shapely.linestrings([(t.at, t.end) for t in self._texts]))

    @cached_property
    def _drawn(self) -> shapely.STRtree | None:
        """The strokes."""
        ends = None if self._segments is None else self._segments.ends
        return None if ends is None else shapely.STRtree(shapely.linestrings(ends.reshape(-1, 2, 2)))

    def one(self, first: Text, second: Text) -> bool:
        """True for two lines that are no cells and have nothing ruled between them, from foot to foot."""
        if self._drawn is not None:
            between = [first.place(first.height, 0.0), second.place(first.height, second.height)]
            if len(self._drawn.query(shapely.LineString(between), predicate="intersects")):
                return False
        return not (self._is_cell(first) or self._is_cell(second))

    def _is_cell(self, text: Text) -> bool:
        """True for a text that others stand in line with, as in the row of a table."""
        line, reach, end = shapely.LineString([text.at, text.end]), BESIDE + LEVEL, text.seen(text.end)[0]
        for k in self._written.query(line, predicate="dwithin", distance=reach * text.height).tolist():
            other = self._texts[k]
            along, up = text.seen(other.at)
            apart = max(along - end, -text.seen(other.end)[0])
            if other is not text and abs(up) <= LEVEL * text.height and apart <= BESIDE * text.height:
                return True
        return False
