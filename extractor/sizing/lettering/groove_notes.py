"""What a note at a groove says: `4 WIDE x 2 DEEP`, `4x2`, `3 H13 WIDE Ø34`, `12 GROOVES 3 WIDE EQUALLY SPACED`.

Rules: every figure of a note must be understood, or it is no groove note; strange words are passed over in one that
names a groove, a width or a depth (`note_words` has the words). A tolerance belongs to the figure before it. `4x2` is
width by radial depth (common practice, no source), but may also mean four of 2, so every reading that the words allow
is kept, the likelier one first; the drawing shows which holds.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from extractor.grammar import NUMBER, UNIT, fractions, normalised
from extractor.late import late
from extractor.remembered import remembered
from extractor.sizing.lettering import note_words
from extractor.sizing.lettering.enlarged_words import heads_a_groove, without_heading
from extractor.sizing.lettering.note_figures import blank, in_capitals, limited_figures, without_tolerances
from extractor.sizing.lettering.note_meanings import Meaning, Token, counted_behind, instead, ways
from extractor.sizing.lettering.note_sides import sided
from extractor.sizing.lettering.printed import TYPICAL, Printed, without_second
from extractor.sizing.lettering.sheet_words import plain
from extractor.values import dataclass

ONE = late(r"^\W*1[X×]\s+(?=[\d.Ø])")
"""A count of one, which is that of the groove that it stands at, whatever others are like it."""
ALONG = late(rf"(Ø\s*{NUMBER}\s*[X×]\s*{NUMBER})\s*(?:LG|LONG)\b\.?")
"""A floor by how long it is, which is the width of its groove."""
SIZE_FIRST = late(rf"\W*(?:{note_words.WIDE}|{note_words.DEEP}|DIA(?:METER)?\b|DURCHM(?:ESSER)?\b)\W*\d")
"""How a line begins that gives a size by its name."""
AGAIN = late(r"[\d.]\s*[(\[]\s*Ø")
"""A diameter in brackets behind a figure, which is the same once more."""
UNKNOWN = late(r"\W*(?:[^\W\d_]{2,}\W+){1,2}(?=Ø?\s*\d)")
"""One or two words before a size."""
ONE_LIMIT = late(r"\b(?:MAX|MIN)(?:I?MUM)?\b")
"""What says of a size that it is the least or the greatest: which limit the other is, nobody can tell."""
BY_T = late(r"\bT\s*=")
"""The depth by its letter, which of counted grooves may be that of their pitch (German `Teilung`)."""
IDENTITY = late(r"\W*\d+(?:-\d+){2,}\W*")
"""The number of a drawing or of a part: whole numbers with dashes between them."""
LONGEST = 90
"""Letters of a note at most."""


@dataclass(frozen=True, kw_only=True)
class GrooveNote:
    """A note at a groove: every way to read it, the likelier first, and whether the grooves are evenly spaced.

    `sure` if its words name a groove, a width or a depth, or give all the same pitch; else a leader or its place must
    tie it to one. `every`: it is about all grooves. `alike`: it says that they are like one another. `limited`: how
    many tolerances stand in it.
    """

    words: str
    meanings: tuple[Meaning, ...]
    spaced: bool = False
    sure: bool = False
    every: bool = False
    alike: bool = False
    limited: int = 0

    @property
    def bare(self) -> bool:
        """True for one size with its tolerance and nothing else, as `3 H13`."""
        first = self.meanings[0]
        return not self.sure and len(first.sizes) == 1 and first.count is None and self.limited == 1


def _of_one_unit(text: str) -> str:
    """What a note says of its own groove in plain capitals, without units and the same sizes in another one."""
    line, whole = without_second(normalised(_own_lines(text)))[0], ""
    while line != whole:
        line, whole = without_second(line)[0], line
    return note_words.NUMBERED.sub(r"\1 \2 OFF", _own_clauses(in_capitals(UNIT.sub("", fractions(line)[0]))))


def _own_lines(text: str) -> str:
    """A note without what its lines say of other things, where the size of the groove begins the next line."""
    lines = text.split("\n")
    for k, under in enumerate(lines[1:]):
        if SIZE_FIRST.match(capitals(under)):
            lines[k] = note_words.ELSEWHERE.sub("", in_capitals(normalised(lines[k])))
    return "\n".join(lines)


@remembered
def groove_note(text: str, field: str = "width") -> GrooveNote | None:
    """Parse a note at a groove, None if it isn't one; `field` is what a counted bare size may be.

    >>> [m.sizes[0][0] for m in groove_note("4 WIDE x 2 DEEP").meanings], groove_note("M20x1.5")
    (['width'], None)
    """
    if heads_a_groove(text):
        return None
    line, where = sided(_of_one_unit(without_heading(text)))
    note = _unsized(text, line) or _sized(text, line, field)
    if note is None or where is None:
        return note
    return replace(note, meanings=tuple(replace(meaning, where=where) for meaning in note.meanings))


def _sized(text: str, line: str, field: str) -> GrooveNote | None:
    """The note that gives sizes or a count, by its own line."""
    no_groove = note_words.NO_GROOVE.search(without_tolerances(line)) or note_words.ADDED.fullmatch(line)
    if note_words.TWO_KINDS.search(line) or IDENTITY.fullmatch(line):
        return None
    if not line or len(line) > LONGEST or no_groove:
        return None
    if spread := note_words.SPREAD.match(line):
        return _spread(normalised(text), int(spread[1]), Printed.of(spread[2]))
    line, limited = limited_figures(note_words.ELSEWHERE.sub("", _plainer(line)))
    if ONE_LIMIT.search(line):
        return None
    spaced = bool(note_words.SPACED.search(line))
    line, step = _without(line, note_words.PITCH)
    pitch, whole = Printed.of(step) if step else None, line
    line, counted = _without(
        blank(line, *(one.span() for one in note_words.SPACED.finditer(line))), note_words.COUNTED, note_words.BEHIND
    )
    alone = STEPS.fullmatch(line) if step and not counted else None
    line, counted = ("", alone[1]) if alone else (line, counted)
    count = int(counted) if counted else None
    tokens = _tokens(line, limited)
    kinds = [kind for kind, _ in tokens or ()]
    named = bool({"groove", "wide", "deep"} & set(kinds))
    if tokens is None or _of_else(line, kinds):
        return None
    # `4x 2`, with a gap behind the sign alone, counts; `4x2` and `4 x 2` are width by depth.
    # A number right behind the sign that follows limits counts first of all, too.
    times = TIMES.search(line) if count is None else None
    times = None if times is not None and times.start(1) in limited else times
    counting = bool(re.match(r"\s*(?:TYP\w*\.?\s*)?\d+[X×*]\s", line) or (times and limited))
    tokens = [token for token in tokens if token[0] != "word"]
    behind = counted_behind(tokens, times, field, pitch, not limited)
    meanings = (*ways(tokens, count, field, pitch), *behind)
    if counted and (wide := note_words.WIDTH_OF_ONE.match(whole)):
        meanings += tuple(ways([("wide", Printed.of(wide[1])), *tokens], None, field, pitch))
    if note_words.ACROSS.search(line):
        meanings += tuple(instead(m, "floor_diameter") for m in meanings)
    if count is not None and BY_T.search(line):
        meanings += tuple(instead(m, "pitch") for m in meanings)
    meanings = tuple(sorted(meanings, key=lambda m: (m.count is None) == (counting and count is None)))
    every = "groove" in kinds and note_words.EVERY.search(line) is not None
    words, told = normalised(text), len(limited)
    sure = count is not None or named or (pitch is not None and (spaced or TYPICAL.search(line) is not None))
    note = GrooveNote(words=words, meanings=meanings, spaced=spaced, sure=sure, every=every, limited=told)
    return note if meanings else None


def _unsized(text: str, line: str) -> GrooveNote | None:
    """The note that says of grooves, without a figure, that they are evenly spaced or like one another, or both."""
    spaced, alike = note_words.SPACED.search(line), note_words.ALIKE.search(line)
    if not (spaced or alike) or not note_words.UNSIZED.fullmatch(line):
        return None
    return GrooveNote(
        words=normalised(text), meanings=(Meaning(sizes=()),), spaced=bool(spaced), sure=True, alike=bool(alike)
    )


def _of_else(line: str, kinds: Sequence[str]) -> bool:
    """True for a line that is no note at a groove by what it is made of: a hole, one size twice, words unknown."""
    own, both = {"groove", "wide"} & set(kinds), "wide" in kinds and {"deep", "diameter"} & set(kinds)
    if "deep" in kinds and kinds.count("diameter") == 1 and not own:
        return True
    if kinds.count("diameter") > 1 and AGAIN.search(line):
        return True
    if "word" in kinds and not own and not {"by", "deep"} <= set(kinds):
        return True
    return bool(note_words.LETTERS.search(line) and "groove" not in kinds and not both)


@remembered
def behind_words(text: str) -> GrooveNote | None:
    """A note of two sizes or more behind words that nobody here knows, None for any other.

    >>> note = behind_words("Hornyka 3+0.1 x Ø34-0.1")
    >>> [name for name, _ in note.meanings[0].sizes] if note else None
    ['width', 'floor_diameter']
    """
    line = normalised(text)
    found = (
        UNKNOWN.match(line) if groove_note(text) is None and not note_words.OTHER_THING.search(capitals(text)) else None
    )
    note = groove_note(line[found.end() :]) if found else None
    whole = note is not None and all(len(meaning.sizes) > 1 for meaning in note.meanings)
    return replace(note, words=line) if note is not None and whole else None


def pitch_alone(text: str) -> str | None:
    """The pitch of a note that prints nothing else but a count; None for any other text.

    >>> pitch_alone("4 GROOVES AT 8 PITCH"), pitch_alone("3 WIDE, PITCH 8"), pitch_alone("8")
    ('8', None, None)
    """
    note = groove_note(text)
    sizes = () if note is None or note.limited else note.meanings[0].sizes
    return f"{sizes[0][1].value:g}" if [name for name, _ in sizes] == ["pitch"] else None


def _spread(words: str, count: int, over: Printed) -> GrooveNote:
    """The note that so many grooves, or steps between them, are spread evenly over a length."""
    steps = [
        (n, replace(over, size=over.value / (n - 1), sizes=(over.value / (n - 1),)))
        for n in (count, count + 1)
        if n > 1
    ]
    meanings = tuple(Meaning(sizes=(("pitch", step),), count=n) for n, step in steps)
    return GrooveNote(words=words, meanings=meanings, spaced=True, sure=True)


@remembered
def capitals(words: str) -> str:
    """Words as the patterns of `note_words` have them: normalised, plain, in capitals."""
    return plain(normalised(words)).upper()


def _own_clauses(line: str) -> str:
    """A note without the clauses that say nothing of grooves: what the part is made of, how its edges are broken."""
    parts = note_words.CLAUSE.split(line)
    rows = list(zip(parts[::2], (*parts[1::2], ""), strict=True))
    about = [note_words.OF_A_GROOVE.search(words) is not None for words, _ in rows]
    figured = (re.search(r"\d", words) and not note_words.OTHER_THING.search(words) for words, _ in rows)
    kept = [own or other for own, other in zip(about, figured, strict=True)]
    if all(kept) or not any(about):
        return line
    return "".join(words + gap for keep, (words, gap) in zip(kept, rows, strict=True) if keep)


def without_item(line: str) -> str:
    """A note without its number in a list."""
    return note_words.ITEM.sub(lambda found: found[1] or "", line)


def _plainer(line: str) -> str:
    """A note without its item number and brackets round it, numbers as figures, lengths by the letters of others."""
    line = ALONG.sub(r"\1", ONE.sub("", without_item(note_words.BRACKETS.sub(r"\1", line))))
    if note_words.FLOORS.fullmatch(line):
        line = f"GROOVES {line}"
    numbered = (2, 4, 6, 7), (1, 3, 5)
    line = note_words.TOTAL.sub(lambda one: " ".join(next(filter(None, one.group(*k))) for k in numbered), line)
    line = note_words.LETTERED.sub(r"\1, ", note_words.NUMERALS.sub(lambda found: str(found.lastgroup)[1:], line))
    romance = note_words.ROMANCE.search(line) or note_words.BY_LETTERS.fullmatch(line)
    return re.sub(r"\bP\s*=", "T=", re.sub(r"\bL\s*=", "W=", line)) if romance else line


def _without(line: str, *forms: re.Pattern[str]) -> tuple[str, str | None]:
    """The line without what the first of some forms finds in it, and the number there."""
    found = next((found for form in forms if (found := form.search(line))), None)
    if found is None:
        return line, None
    return blank(line, found.span()), next(number for number in found.groups() if number)


def like_a_note(text: str) -> bool:
    """True for words that size a groove, whether or not they are understood: they name one, a width, or a product.

    >>> like_a_note("GROOVE W2 DP1"), like_a_note("A3 x B1"), like_a_note("2x45°"), like_a_note("M20x1.5")
    (True, True, False, False)
    """
    line = without_tolerances(note_words.EDGES.sub("", note_words.ELSEWHERE.sub("", _own_clauses(capitals(text)))))
    return bool(re.search(r"\d", line) and note_words.ABOUT_ONE.search(line)) and not note_words.NO_GROOVE.search(line)


STEPS = late(r"\W*([1-9]\d*)\s*(?:[X×]\s*)?(?:OFF\b)?\W*")
"""What may count the grooves before their pitch, or the steps between them."""


@remembered
def is_count(text: str) -> bool:
    """True for a line that says no more than how many grooves there are, or that they are evenly spaced.

    >>> is_count("4 PLACES EQUALLY SPACED"), is_count("TYP 4 POSNS"), is_count("x4"), is_count("4 WIDE")
    (True, True, True, False)
    """
    line = capitals(text)
    apart = note_words.SPACED.sub("", line)
    rest = note_words.BEHIND.sub("", apart)
    left = TYPICAL.sub("", rest).strip(" ,.()")
    known = note_words.COUNT_LAST.fullmatch(line) or note_words.IN_BRACKETS.fullmatch(line)
    even = rest == apart != line and left.isdecimal()
    return known is not None or even or (len(rest) < len(line) and not left)


def _tokens(line: str, limited: Mapping[int, Printed]) -> list[Token] | None:
    """The pieces of a note, gaps left out; None where a piece is neither a figure nor a word."""
    found: list[Token] = []
    token, at = re.compile(note_words.TOKEN), 0
    while at < len(line):
        match = token.match(line, at)
        if match is None or match.end() == at:
            return None
        at = match.end()
        if match["gap"] is None:
            number = next((k for k in ("l", "d", "d2", "w", "w2", "t", "t2", "n") if match[k]), "")
            figure = Printed.of(match[number]) if number else None
            if figure is not None and (told := limited.get(match.start(number))) is not None:
                figure = told if told.sizes else replace(figure, unread=True)
            found.append((next(k for k in KINDS if match[k] is not None), figure))
    return found


TIMES = re.compile(r"\s[X×](\d+)\s*$")
"""What may be a count behind a size with its tolerance."""
KINDS = ("land", "diameter", "wide", "deep", "groove", "number", "by", "word")
