"""What a note says of the edges or the corners of grooves: `GROOVE ROOT RADIUS 0.8`, `BREAK GROOVE EDGES 0.1 - 0.3`.

By matter, in the words of `words.toml`: the name of a groove, an edge or a floor, a radius or a chamfer, each before
the figure that is its size, or behind the last. A chamfer is always that of edges, a radius that of corners where no
edge is named; a broken edge has either.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from extractor.grammar import NUMBER
from extractor.late import late
from extractor.remembered import remembered
from extractor.sizing.lettering.groove_notes import capitals, without_item
from extractor.sizing.lettering.note_figures import without_tolerances
from extractor.sizing.lettering.note_words import ANGLED, ELSEWHERE, GROOVE, NO_GROOVE
from extractor.sizing.lettering.sheet_words import meant, phrases

A_GROOVE = rf"(?<![^\W\d_]){GROOVE}|\b(?:{phrases('groove_bent')})\b"
NAMED, INSIDE = late(A_GROOVE, re.I), meant("inner")
"""A groove by its name, bent or joined to another word or not; and all that lies inside."""
EDGES, ROOTS, ROUNDS, CHAMFERS = map(meant, ("edges", "roots", "rounds", "chamfers"))
OUTER, KEEN = meant("outer_edges"), meant("sharp")
SHARP = late(rf"(?:\W|\b(?:{phrases('sharp', 'outer_edges', 'rounds', 'little')})\b)*")
FORM = late(rf"\W*(?:mm\W+)?(?:{phrases('rounds', 'chamfers')})\b")
LETTER = late(r"[^\W\d_]")
SENTENCES = late(r"[.;]\s+(?=[^\W\d])")
COUNT = late(rf"\b\d+\s*(?:[x×]\s*|off\s+)?(?={GROOVE})|\b(?:r[az]|rmax)\s*{NUMBER}", re.I)
"""Figures of other things: how many grooves there are, and how smooth they are."""
BEVEL = r"45\s*°"
RANGE = late(rf"({NUMBER})\s*-\s*({NUMBER})")
SIZED = late(
    rf"(?<![a-z\u0370-\u04ff\d.])(?:(?:(?P<radius>r)|(?P<leg>c(?=\s*=?\s*(?:\d?\.)?\d(?![\w.]))))\s*=?\s*)?"
    rf"(?P<angle>{BEVEL}\s*[x×*]\s*)?(?P<size>{NUMBER})(?:…(?P<to>{NUMBER}))?(?P<bevel>\s*[x×*]\s*{BEVEL})?"
    rf"(?!\s*[°%]|\w)"
)
"""A figure, or two with dots between them that bound a size. `C45`, with two figures, is the name of a steel."""
LIMIT = late(r"\b(?:ma[xks]+(?:i\w*)?\b|макс)|最大|(?P<least>\bmin(?:i\w*)?\b|мин|最小)")
UNKNOWN = late(r"[^\W\d_]{3}")
"""What is left of a word that nobody knows; shorter ones stand between others."""
KNOWN = late(
    rf"{A_GROOVE}|{LIMIT.pattern}|\b(?:"
    rf"{phrases('size', 'little', 'edges', 'roots', 'rounds', 'chamfers', 'inner', 'referred')})\b",
    re.I,
)


class CornerNote(NamedTuple):
    """A note on the edges or the corners of grooves, or of all that lie inside: its form and its bounds.

    `form`: "radius", "chamfer" or, of an edge, "break" for either. `whole`: nothing else is said.
    """

    where: str
    form: str
    least: str
    most: str
    of_grooves: bool
    whole: bool


@remembered
def corner_notes(words: str) -> tuple[CornerNote, ...]:
    """What a note says of the edges and the corners of grooves, size by size.

    >>> [one[:4] for one in corner_notes("GROOVE ROOT RADIUS 0.8, EDGES R0.2 MAX")]
    [('corner', 'radius', '0.8', '0.8'), ('edge', 'radius', '0', '0.2')]
    >>> corner_notes("BREAK EDGES 0.2"), corner_notes("GROOVE 3 x 2")
    ((), ())
    """
    line = ELSEWHERE.sub("", without_item(capitals(words))).lower()
    return tuple(one for part in SENTENCES.split(line) for one in _of_sentence(part))


@remembered
def led_corners(words: str) -> tuple[CornerNote, ...]:
    """What a note that names no groove says of the corners or the edges where it is led to one, and of nothing else.

    Sharp ones are bounded by 0.

    >>> [one[:4] for words in ("CORNERS R0.8", "SHARP EDGES", "R MIN 0.5") for one in led_corners(words)]
    [('corner', 'radius', '0.8', '0.8'), ('edge', 'sharp', '0', '0'), ('corner', 'radius', '0.5', 'inf')]
    >>> led_corners("0.5"), led_corners("GROOVE CORNERS R0.8"), led_corners("RING R2")
    ((), (), ())
    """
    if corner_notes(words):
        return ()
    line = ELSEWHERE.sub("", without_item(capitals(words))).lower()
    if SHARP.fullmatch(line) and KEEN.search(line) and (ROUNDS.search(line) or OUTER.search(line)):
        where = "corner" if ROUNDS.search(line) else "edge"
        return (CornerNote(where, "sharp", "0", "0", of_grooves=False, whole=True),)
    said = tuple(one for part in SENTENCES.split(line) for one in _of_sentence(part, led=True))
    return said if all(one.whole for one in said) else ()


def is_corner_note(words: str) -> bool:
    """True for a note that says something of the edges or the corners of grooves, and nothing else."""
    said = corner_notes(words)
    return bool(said) and all(one.whole for one in said)


def _of_sentence(line: str, *, led: bool = False) -> Iterator[CornerNote]:
    """What one sentence says; one that is `led` to a groove need not name it."""
    of_grooves = NAMED.search(line) is not None
    if not (led or of_grooves or INSIDE.search(line)) or NO_GROOVE.search(CHAMFERS.sub(" ", ANGLED.sub(" ", line))):
        return
    plain = COUNT.sub(" ", without_tolerances(RANGE.sub(_bounds, line)))
    figures = [one for one in SIZED.finditer(plain) if float(one["to"] or one["size"])]
    starts = [0, *(one.end() for one in figures)]
    said = [
        _said(one, plain[start : one.start()], "" if one is not figures[-1] else plain[one.end() :], led=led)
        for start, one in zip(starts, figures, strict=False)
    ]
    whole = None not in said and not UNKNOWN.search(KNOWN.sub(" ", SIZED.sub(" ", plain)))
    for one in said:
        if one is not None:
            yield one._replace(of_grooves=of_grooves, whole=whole)


def _bounds(found: re.Match[str]) -> str:
    """Two figures with dots between them for a dash, where the greater is behind: what is smaller is a deviation."""
    return f"{found[1]}…{found[2]}" if float(found[1]) < float(found[2]) else found[0]


def _said(figure: re.Match[str], before: str, behind: str, *, led: bool) -> CornerNote | None:
    """What the words round a figure say that it is of, None for another thing."""
    words = before + behind
    named = led or NAMED.search(words) or INSIDE.search(words)
    edge = EDGES.search(words) is not None
    if figure["leg"] or figure["angle"] or figure["bevel"]:
        form = "chamfer" if named else ""
    elif figure["radius"]:
        form = "radius"
    elif not named or not (LETTER.search(before) or FORM.match(behind)):
        form = ""  # a figure before all words is a size by itself
    else:
        form = "chamfer" if CHAMFERS.search(words) else "radius" if ROUNDS.search(words) else "break" if edge else ""
    where = "edge" if form != "radius" or (edge and not ROOTS.search(words)) else "corner"
    least, most = figure["size"], figure["to"] or figure["size"]
    if limit := LIMIT.search(words):
        least, most = (least, "inf") if limit["least"] else ("0", most)
    return CornerNote(where, form, least, most, of_grooves=False, whole=False) if form else None
