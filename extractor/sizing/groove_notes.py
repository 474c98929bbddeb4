"""What a note at a groove says: `4 WIDE x 2 DEEP`, `4x2`, `3 WIDE Ø34`, `12 GROOVES 3 WIDE EQUALLY SPACED`, `DIN 509`.

Rules: a note is parsed whole or not at all; one odd word and it is no groove note. `4x2` is width by radial depth
(common practice, no source), but may also mean four of 2, so every reading that the words allow is kept, the
likelier one first; the drawing shows which holds. DIN 509 call-outs: form, then radius by depth, as two published
extracts have it.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from extractor.sizing.printed import NUMBER, fractions, normalised

WIDE = r"(?:WIDE|WIDTH|BROAD|BREITE?|LARG(?:[EOA]|HEZZA|EUR|H?\.)?|ANCH(?:[OA]|URA|\.))"
DEEP = r"(?:DEEP|DEPTH|TIEFE?|PROFONDEUR|PROFONDIT[A\u00c0]'?|PROFONDE|PROFOND[OA]?|PROFUNDIDAD|PROFUND[OA]|PROF\.?)"
LETTERS = re.compile(r"\b[BTWD](?:\s*=|(?=\d))|(?<=\d)\s*[WD](?!\w)")
"""Width and depth by their letters, `b=3 t=2`, `b3 x t2` or `3W x 2D`: of a note that names a groove or gives both;
`t=4` is a plate's."""
ACROSS = re.compile(r"\bD\s*=")
"""What may be a diameter as well as a depth."""
GROOVE = (
    r"(?:GROOVES?|NUT(?:EN)?|EINSTICHE?|RILLEN?|GORGES?|GOLE|GOLA|SCANALATUR[AE]|RANURAS?|RECESS(?:ES)?|NECKS?"
    r"|SLOTS?|UNDERCUTS?|U/CUTS?)"
)
PLACES = r"(?:PLACES?|PLCS?\.?|PLS?\.?|POS(?:ITIONS?|N)?\.?|STELLEN|POSTI|PUNTI|ENDROITS|LUGARES)"
ALL = r"\b(?:ALLE?|TOUTES|TUTTE|TODAS)\b"
"""Of a note that names grooves: it is about every one."""
TOKEN = re.compile(
    rf"(?P<diameter>(?:Ø|DIA(?:METER)?\.?)\s*(?P<d>{NUMBER}))|(?P<wide>(?P<w>{NUMBER})\s*(?:{WIDE}|W)(?!\w)|(?:{WIDE}\s*=?|\bW\s*=|\bB\s*=?)\s*(?P<w2>{NUMBER}))"
    rf"|(?P<deep>(?P<t>{NUMBER})\s*(?:{DEEP}|D)(?!\w)|(?:{DEEP}\s*=?|\bD\s*=|\bT\s*=?)\s*(?P<t2>{NUMBER}))"
    rf"|(?P<groove>{GROOVE}\b)|(?P<number>(?P<n>{NUMBER}))|(?P<by>\s?(?:X|×|\*|BY)(?=[\s\d.Ø]))|(?P<gap>[\s,;]+|\bMM\b|\bTYP(?:ICAL)?\b\.?|\b(?:THE|TO|OF|DE|DI|DA|LES|LE|LAS|MIT|VON)\b|{ALL})",
)
SPACED = re.compile(
    r"[,\s]*\b(?:EQUALLY|EQUI|EQUAL|EQ\.?)[- ]*SP(?:AC(?:ED|ING))?\b\.?|\bGLEICHM(?:Ä|AE)SSIG(?:\s+VERTEILT)?\b"
    r"|\b(?:É|E)QUIDISTANTE?S?\b|\bEQUIDISTANT[IE]\b|\bEQUIESPACIAD[AO]S\b"
)
COUNTED = re.compile(
    rf"^\s*(\d+)\s*(?:[X×]|OFF|PCS\.?|STK\.?)?\s*(?={GROOVE}\b)|^\s*\(\s*(\d+)\s*[X×]\s*\)|^\s*(\d+)\s*{PLACES}\s+(?=[\d.Ø])"
)
BEHIND = re.compile(rf"[,\s(]*\b(\d+)\s*(?:{PLACES}|OFF|X|×)\)?\s*$")
TOLERANCE = re.compile(
    rf"\s*±\s*{NUMBER}|\s*[+-]\s*{NUMBER}(?:\s*[/^]?\s*[+-]?\s*{NUMBER})?|(?<=[\d.])\s*(?:JS|[A-HJKM-NPR-U])\d{{1,2}}(?![\d.])"
    rf"|[,\s]*\bR\s*{NUMBER}(?:\s*MAX\.?)?",
)
LIMITS = re.compile(rf"(?<![+\-\d.]){NUMBER}\s*/\s*{NUMBER}|\d[-^]{NUMBER}")
"""Two limits of one size, which are for dimensions to read."""
UNDERCUT = re.compile(rf"\bDIN\s*509\s*-?\s*([A-H])\s*({NUMBER})\s*[X×]\s*({NUMBER})", re.I)
ABOUT_ONE = re.compile(rf"\b(?:{GROOVE}|{WIDE}|{DEEP})(?!\w)|\bW\s*=|\d\s*[A-Z]?\s*[X×]\s*[A-Z]?\s*\.?\d")
"""What a note at a groove says besides figures: its name, a word for its size, or one figure by another."""
NO_GROOVE = re.compile(r"°|\bM\s*\d|\b(?:HOLES?|BOHR|THREAD|GEWINDE|UNC|UNF|KEYWAY|PASSFEDER|CHAMFER|FASE)", re.I)
"""Chamfers, threads, holes and keyways, which have such figures too."""
LONGEST = 60
"""Letters of a note at most."""


@dataclass(frozen=True, kw_only=True)
class PrintedFigure:
    """A printed number and the places that it is printed with."""

    value: float
    places: int

    @classmethod
    def of(cls, number: str) -> "PrintedFigure":
        """A number as printed."""
        return cls(value=float(number), places=len(number.partition(".")[2]))


@dataclass(frozen=True, kw_only=True)
class Meaning:
    """One way to read a note: sizes by groove field (`width`, `depth`, `floor_diameter`), and a count."""

    sizes: tuple[tuple[str, PrintedFigure], ...]
    count: int | None = None


@dataclass(frozen=True, kw_only=True)
class GrooveNote:
    """A note at a groove: every way to read it, the likelier first, and whether the grooves are evenly spaced.

    `sure` if its words name a groove, a width or a depth; else a leader or its place must tie it to one. `every`: it is
    about all grooves.
    """

    words: str
    meanings: tuple[Meaning, ...]
    spaced: bool = False
    sure: bool = False
    every: bool = False


@dataclass(frozen=True, kw_only=True)
class Undercut:
    """A DIN 509 call-out: form, corner radius r and depth t1 in mm."""

    words: str
    form: str
    radius: float
    depth: float


def undercut_of(text: str) -> Undercut | None:
    """The undercut that a text calls for.

    >>> undercut_of("DIN 509 - E 0,8 x 0,3").depth
    0.3
    """
    found = UNDERCUT.search(normalised(text))
    if found is None:
        return None
    form, radius, depth = found.groups()
    return Undercut(words=normalised(text), form=form.upper(), radius=float(radius), depth=float(depth))


def groove_note(text: str, field: str = "width") -> GrooveNote | None:
    """Parse a note at a groove, None if it isn't one; `field` is what a counted bare size may be.

    >>> [m.sizes[0][0] for m in groove_note("4 WIDE x 2 DEEP").meanings], groove_note("M20x1.5")
    (['width'], None)
    """
    line = fractions(normalised(text))[0].upper()
    letters = LETTERS.findall(line)
    if not line or len(line) > LONGEST or line.count("=") > len(letters) or "°" in line or LIMITS.search(line):
        return None
    spaced = bool(SPACED.search(line))
    line, count = _counted(TOLERANCE.sub("", SPACED.sub("", line)))
    tokens = _tokens(line)
    if tokens is None:
        return None
    kinds = [kind for kind, _ in tokens]
    if letters and "groove" not in kinds and not {"wide", "deep"} <= set(kinds):
        return None
    # `4x 2`, with a gap behind the sign alone, counts; `4x2` and `4 x 2` are width by depth.
    counting = bool(re.match(r"\s*\d+[X×*]\s", line))
    meanings = tuple(_meanings(tokens, count, field))
    if ACROSS.search(line):
        meanings += tuple(_across(m) for m in meanings)
    meanings = tuple(sorted(meanings, key=lambda m: (m.count is None) == (counting and count is None)))
    sure = count is not None or bool({"groove", "wide", "deep"} & set(kinds))
    every = "groove" in kinds and re.search(ALL, line) is not None
    words = normalised(text)
    return GrooveNote(words=words, meanings=meanings, spaced=spaced, sure=sure, every=every) if meanings else None


def like_a_note(text: str) -> bool:
    """True for words that size a groove, whether or not they are understood: they name one, a width, or a product.

    >>> like_a_note("GROOVE W2 DP1"), like_a_note("A3 x B1"), like_a_note("2x45°"), like_a_note("M20x1.5")
    (True, True, False, False)
    """
    line = normalised(text).upper()
    return bool(re.search(r"\d", line) and ABOUT_ONE.search(line)) and not NO_GROOVE.search(line)


def is_count(text: str) -> bool:
    """True for a line that says no more than how many grooves there are, or that they are evenly spaced.

    >>> is_count("4 PLACES EQUALLY SPACED"), is_count("4 WIDE")
    (True, False)
    """
    line = normalised(text).upper()
    rest = BEHIND.sub("", SPACED.sub("", line))
    return len(rest) < len(line) and not rest.strip(" ,.()")


def _counted(line: str) -> tuple[str, int | None]:
    """The line without a count that its words make one, and that count."""
    found = COUNTED.search(line) or BEHIND.search(line)
    if found is None:
        return line, None
    count = next(number for number in found.groups() if number)
    return line[: found.start()] + " " + line[found.end() :], int(count)


Token = tuple[str, PrintedFigure | None]


def _tokens(line: str) -> list[Token] | None:
    """The pieces of a note, gaps left out; None where a word is strange."""
    found: list[Token] = []
    at = 0
    while at < len(line):
        match = TOKEN.match(line, at)
        if match is None or match.end() == at:
            return None
        at = match.end()
        if match.lastgroup != "gap" and match["gap"] is None:
            number = next((g for g in (match[k] for k in ("d", "w", "w2", "t", "t2", "n")) if g), None)
            kind = next(k for k in ("diameter", "wide", "deep", "groove", "number", "by") if match[k] is not None)
            found.append((kind, PrintedFigure.of(number) if number else None))
    return found


FIELDS = {"diameter": "floor_diameter", "wide": "width", "deep": "depth"}


def _meanings(tokens: list[Token], count: int | None, field: str) -> Iterator[Meaning]:
    """Every way to read the pieces of a note."""
    named = [(FIELDS[kind], figure) for kind, figure in tokens if kind in FIELDS and figure]
    bare = [figure for kind, figure in tokens if kind == "number" and figure]
    fields = [name for name, _ in named]
    if len(set(fields)) < len(fields) or len(bare) > 3 or not (named or bare):
        return
    if not bare:
        if len(named) > 1 or count is not None or fields != ["floor_diameter"]:
            yield Meaning(sizes=tuple(named), count=count)
        return
    if not any(kind == "by" for kind, _ in tokens) and len(bare) + len(named) > 1:
        return
    leading = tokens[0][0] == "number"
    for sizes, number in _bare(bare, fields, count, field if leading else None):
        yield Meaning(sizes=(*sizes, *named), count=number)


def _across(meaning: Meaning) -> Meaning:
    """The same with the floor's diameter for the depth."""
    sizes = tuple(("floor_diameter" if name == "depth" else name, figure) for name, figure in meaning.sizes)
    return Meaning(sizes=sizes, count=meaning.count)


def _bare(
    bare: list[PrintedFigure], named: list[str], count: int | None, field: str | None
) -> Iterator[tuple[tuple[tuple[str, PrintedFigure], ...], int | None]]:
    """What the numbers without a word may be beside those with one; `field` None where the first can be no count."""
    free = [name for name in ("width", "depth") if name not in named]
    if "floor_diameter" in named and "width" in free:
        free = ["width"]
    if len(bare) <= len(free) and (len(bare) + len(named) > 1):
        yield tuple(zip(free, bare, strict=False)), count
    first = bare[0]
    if field is not None and count is None and first.places == 0 and first.value >= 2:
        rest = [field] if len(bare) == 2 and not named else free
        if len(bare) - 1 <= len(rest) and (len(bare) > 1 or named):
            yield tuple(zip(rest, bare[1:], strict=False)), int(first.value)


__all__ = ["GrooveNote", "Meaning", "PrintedFigure", "Undercut", "groove_note", "is_count", "undercut_of"]
