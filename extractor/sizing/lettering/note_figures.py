"""The figures of a note at a groove that have a tolerance: a tolerance belongs to the figure before it."""

import re
from collections.abc import Iterator, Mapping

from extractor.grammar import COUNT, NUMBER, Tolerance, coarsest, limits, tolerances
from extractor.late import late
from extractor.sizing.lettering.note_words import DEEP, EDGES, WIDE
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.lettering.sheet_words import plain

NUMBERS = re.compile(NUMBER)
CLASS = re.compile(r"(?:JS|js|[AC-HKNac-hkmn])(?:[5-9]|1[0-8])")
"""The classes of grooves; in notes other letters and grades are widths, thicknesses and radii."""
FOR_BOTH = late(
    r"\b(?:BOTH|ALL|EACH|BEIDE|ALLE|ENTRAMB[EI]|TUTT[EI]|AMBOS|TOUS|TOUTES)\b\s*\)?\s*$"
    r"|(?:\b(?:BOTH|ALL|BEIDE|ALLE|ENTRAMB[EI]|AMBOS)|[,;(]\s*TOL\w*)\b\W*?(?:±|[+-]\s*[\d.]|(?:JS|H|h)\d)"
)
"""Words at the one tolerance of several sizes that give it to each (common practice, no source)."""
SIZES = 2
"""Sizes of a groove in a product: one more figure before them counts it."""
DASHED = re.compile(rf"-\s+{NUMBER}\s*(?:{WIDE}|{DEEP})")
"""A size behind a dash."""


BRACKETED = re.compile(rf"\(\s*Ø?\s*(?P<figure>{NUMBER})\s*\)")
"""A figure alone in brackets."""


def _tolerances(line: str) -> Iterator[Tolerance]:
    """The tolerances of the figures of a note."""
    return (
        one for one in tolerances(line, known=lambda found: _is_class(line, found)) if not DASHED.match(line, one.start)
    )


def _is_class(line: str, found: re.Match[str]) -> bool:
    """True for a class of a groove that stands right behind its figure."""
    behind = line[: found.start()].rstrip(" (")[-1:]
    return (behind.isdigit() or behind == ".") and CLASS.fullmatch(found[1] + found[2].strip()) is not None


def without_tolerances(line: str) -> str:
    """A note with gaps for its tolerances."""
    return blank(line, *((one.start, one.end) for one in _tolerances(line)))


def in_capitals(line: str) -> str:
    """A note in capitals, but for classes of tolerances, of which small ones are others."""
    found, at = "", 0
    for one in (one for one in _tolerances(line) if one.of_class):
        found, at = found + plain(line[at : one.start]).upper() + line[one.start : one.end], one.end
    return found + plain(line[at:]).upper()


def blank(line: str, *spans: tuple[int, int]) -> str:
    """The line with gaps for pieces of it, so that all else stays in its place."""
    for start, end in spans:
        line = line[:start] + " " * (end - start) + line[end:]
    return line


def limited_figures(line: str) -> tuple[str, dict[int, Printed]]:
    """The line without tolerances, and by the places of its numbers those that have one; -1 is for any without one.

    Nothing of a line that holds a range.
    """
    found: dict[int, Printed] = {}
    line = blank(line, *(edge.span() for edge in EDGES.finditer(line)))
    for both in limits(line):
        printed = parse(line[both.start : both.end])
        first = not printed.limits and line[: both.start].rstrip()[-1:] in ("", "Ø", "X", "×", "*")
        if first and printed.deviations and -printed.deviations[0] <= coarsest(printed.value):
            continue  # `3 x Ø32-0.1`
        found[both.start] = printed
        if not printed.limits:
            return "", {}
        line = line[: both.start] + f"{printed.size:g}".ljust(both.end - both.start) + line[both.end :]
    whole, last, behind = line, "", len(line)
    for tolerance in tuple(_tolerances(line)):
        *_, number = (None, *NUMBERS.finditer(line, 0, tolerance.start))
        fresh = number is not None and number.start() not in found
        figure = (
            parse(f"{number[0]} {line[tolerance.start : tolerance.end]}") if number and fresh else Printed(unread=True)
        )
        found[number.start() if number else -1] = figure
        last, behind = line[tolerance.start : tolerance.end], tolerance.end
        line = blank(line, (tolerance.start, tolerance.end))
    # Before another figure it is that of its own, and the word may count grooves.
    if len(found) == 1 and last and FOR_BOTH.search(whole) and not NUMBERS.search(line, behind):
        sizes = [n for n in NUMBERS.finditer(line) if n.start() >= _counted(line)]
        found |= {n.start(): parse(f"{n[0]} {last}") for n in sizes if n.start() not in found}
    return _unbracketed(line, found), found


def _counted(line: str) -> int:
    """Where the sizes of a line begin, behind their count; a whole number before one other and a sign is a size."""
    count = COUNT.match(line)
    sure = count is not None and (count["by"] is None or len(NUMBERS.findall(line)) > SIZES)
    return count.end() if count and sure else 0


def _unbracketed(line: str, limited: Mapping[int, Printed]) -> str:
    """The line without the brackets round a figure alone that has a tolerance: neither a count nor for information."""
    found = (one for one in BRACKETED.finditer(line) if one.start("figure") in limited)
    return blank(line, *((k, k + 1) for one in found for k in (one.start(), one.end() - 1)))
