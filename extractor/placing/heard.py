"""Which end is the front, where the views of one part say it between them: words at one hold for all.

words name      lengths of a view all begin at      the view read
its end         -                                   stays, by words
its other end   -                                   is turned round, by words
both ends       -                                   stop front-conflict
one end         the other                           stop front-conflict
"""

from collections.abc import Callable, Iterable
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.front import END_WORDS, OPPOSITE, Front, FrontBy, FrontEnd
from extractor.placing.laying import LaidView
from extractor.values import dataclass

TELLING: tuple[FrontBy, ...] = ("words", "dimensions")
"""What of a view may say which end is the front."""


@dataclass(frozen=True)
class Heard:
    """What tells of one view which end is the front, where that view lies, and whether the view read begins there."""

    by: FrontBy
    at: Point
    same: bool


def agreed(first: LaidView, heard: Iterable[Heard], turn: Callable[[Front], LaidView]) -> LaidView:
    """The view, read as all the views together say; `turn` lays it from another end."""
    end, rows = first.front, list(heard)
    if end is None or end.by == "option" or not any(h.by == "words" for h in rows):
        return first
    words, lengths = ([h for h in rows if h.by == by] for by in TELLING)
    against = next((h for h in (*words, *lengths) if h.same != words[0].same), None)
    if against is not None:
        return first.with_findings(_conflict(end, words[0], against))
    if words[0].same:
        kept = tuple(f for f in first.findings if f.code != DrawingCode.FRONT_ASSUMED)
        read = replace(first, front=FrontEnd(end.end, "words"), findings=kept)
    else:
        turned = turn(OPPOSITE[end.end])
        read = replace(turned, front=FrontEnd(OPPOSITE[end.end], "words"))
    at = words[0].at
    told = f"Words at the other view of the part, at {place_words(at)}, say which end is Z0."
    return read if end.by == "words" else read.with_findings(Finding(Level.NOTE, DrawingCode.FRONT_BY_WORDS, told, at))


def _conflict(end: FrontEnd, word: Heard, against: Heard) -> Finding:
    """The stop for views that name two ends."""
    named = end.end if word.same else OPPOSITE[end.end]
    other = "words there name" if against.by == "words" else "all lengths begin at"
    words = (
        f"Words at the view at {place_words(word.at)} make the {END_WORDS[named]} the front; at the view at "
        f"{place_words(against.at)} {other} the {END_WORDS[OPPOSITE[named]]}: give --front {named} or --front "
        f"{OPPOSITE[named]}, whichever is the finished front face."
    )
    return Finding(Level.STOP, DrawingCode.FRONT_CONFLICT, words, against.at)
