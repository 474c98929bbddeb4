"""Which of a sheet's possible readings is the answer: the one that leads the others, or else a question.

Most sheets allow one. Another is made only where cheap evidence leaves one open: a view as likely turned
about the line across its axis, a reading that ends in a stop while the ink could be turned about another line, an
outline that may lie on a layer of another name. What the sheet prints then decides, or the user is asked.
"""

from collections.abc import Sequence
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.doubts.ledger import line_of
from extractor.doubts.left_over import LinesLeft
from extractor.doubts.under_lands import notch_under_land
from extractor.finding import Finding, Level, Point, place_words
from extractor.front import Front
from extractor.geometry.crowds import TooDenseError
from extractor.placing.laying import LaidView
from extractor.placing.placing import WayToRead
from extractor.placing.together import Difference, difference
from extractor.score import MARGINS, Aspect, decides
from extractor.viewing.choice import pointer
from extractor.viewing.variants import variants
from extractor.whole import Given, Whole

MOST_OTHERS = 2
"""So many readings about other axes are made at most: a view has one line across it, drawn or not, seldom two."""

LOOKS = "look like dimensions, texts or a border by a number beside them or by their layer"
"""What is said of strokes that were set aside."""

IN_A_ROW = 100
"""Recesses about an axis from which it is not asked whether the view is turned about the line across: about that one
they would be as many slots, and to read them all again takes as long."""

SEVERAL = 2
"""So many closed views stay several, though some of them are lost among the strokes that were set aside."""

INCURABLE = frozenset(
    (
        DrawingCode.UNITS_UNKNOWN,
        DrawingCode.UNITS_CONFLICT,
        DrawingCode.SHEET_SCALE,
        DrawingCode.FRONT_CONFLICT,
        DrawingCode.SEVERAL_PARTS,
        DrawingCode.VIEWS_DIFFER,
    )
)
"""Stops that no other axis could cure: views that differ do so about any, and one read about another axis hides it."""


def weigh(given: Given) -> tuple[Whole, tuple[Whole, ...]]:
    """The reading to answer with, and all that were made, including it. Raises TooDenseError."""
    refused = _nothing_to_read(given)
    if refused is not None:
        return refused, ()
    best, made = _axes(given, given.asked)
    if best.placed.found is None and given.roles.aside:
        again, more = _axes(given, replace(given.asked, set_aside=False))
        if again.placed.found is not None and not _stopped(again) and not _lost(best, again):
            best = again.told((_let_in if _only_by_layer(given) else _closed_by_marks)(again))
        made = (*made, *more)
    elif not _stopped(best):
        best, made = _with_all(best, made)
    best, made = _views(best, made)
    return _beside(best, made) if _torn_open(best) else (best, made)


def _nothing_to_read(given: Given) -> Whole | None:
    """The refusal of a sheet without an outline, or of a table of variants."""
    sheet, found = given.sheet, None
    if not len(given.roles.strokes):
        words = "The sheet shows no visible lines or arcs that could be an outline; draw the outline in model space."
        known = any(f.stops for f in sheet.findings)
        found = () if known else (Finding(Level.STOP, DrawingCode.NO_OUTLINE, words),)
    elif (table := variants(sheet)) is not None:
        found = (table,)
    return None if found is None else Whole(given, given.asked, LaidView(None, None, found))


def _lost(best: Whole, again: Whole) -> bool:
    """True if several closed views may be the part, and one read with all strokes has not all of them in it."""
    spots = [spot for f in best.placed.findings if f.code == DrawingCode.SEVERAL_PARTS for spot in f.spots]
    if best.placed.closed < SEVERAL or again.candidate is None:
        return False
    return not all(again.candidate.view.covers(spot) for spot in spots)


def _stopped(whole: Whole) -> bool:
    """True if a reading may not be answered with, whatever its sizes say."""
    return any(f.stops for f in whole.placed.findings)


def _axes(given: Given, way: WayToRead) -> tuple[Whole, tuple[Whole, ...]]:
    """The reading about the axis that leads, and all that were made."""
    first = given.read(way)
    choice = first.placed.choice
    if (
        choice is None
        or not choice.others
        or not (choice.torn or (_views_of(first) == (1, 0) and _curable(first) and not _rowed(first)))
    ):
        return first, (first,)
    others = [given.read(replace(way, about=c.view.axis)) for c in choice.others[:MOST_OTHERS]]
    made = (first, *others)
    if choice.torn and way.front is not None:
        along = [w for w in made if not any(f.code == DrawingCode.FRONT_IMPOSSIBLE for f in w.placed.findings)]
        if len(along) == 1:
            return along[0].told(_by_front(along[0], way.front)), made
    if any(_views_of(w) != (1, 0) for w in made):
        return (first.stopped(_unclear(first, others[0])) if choice.torn else first), made
    if choice.torn:
        ahead = next((w for w in made if all(_fits_better(w, o) for o in made if o is not w)), None)
        return (ahead.told(_by_sizes(ahead)) if ahead is not None else first.stopped(_unclear(first, others[0]))), made
    sound = [w for w in others if not _stops(w)]
    better = next((w for w in sound if _fits_better(w, first)), None)
    if better is not None:
        return better.told(_by_sizes(better)), made
    nearly = next((w for w in sound if _printed(w) > 0 > _printed(first)), None)
    return (first if nearly is None or _stops(first) else first.stopped(_unclear(first, nearly))), made


def _views_of(whole: Whole) -> tuple[int, int]:
    """How many views were read, and how many passed over: with a second view an axis is not all that is open."""
    choice = whole.placed.choice
    return (len(choice.candidates), len(choice.passed)) if choice is not None else (0, 0)


def _stops(whole: Whole) -> frozenset[str]:
    """The stops of a reading that may come of a wrong axis."""
    return frozenset(f.code for f in whole.made[2] if f.stops) - INCURABLE


def _rowed(whole: Whole) -> bool:
    """True for a reading with so many recesses along its axis that no other axis will do."""
    return whole.placed.found is not None and len(whole.placed.found.main.recesses) >= IN_A_ROW


def _curable(whole: Whole) -> bool:
    """True for a reading that a wrong axis may have made: it stops, or more is printed against it than for it."""
    return bool(_stops(whole)) or _printed(whole) < 0


def _printed(whole: Whole) -> float:
    """How far printed sizes bear a reading out."""
    return whole.score[Aspect.PRINTED].figure


def _fits_better(other: Whole, first: Whole) -> bool:
    """True if the printed sizes part two readings, and are for the first named."""
    found = decides(other.score, first.score)
    return found is not None and found[0] is Aspect.PRINTED and found[1] > 0


def _by_sizes(whole: Whole) -> Finding:
    """What is said of an axis that the printed sizes chose."""
    at = whole.candidate.view.axis.at if whole.candidate is not None else None
    words = (
        f"The view could be turned about either of two lines; it was read about the one that the printed sizes fit"
        f"{whole.sizes}: see that it is the turning axis."
    )
    return Finding(Level.CAUTION, DrawingCode.AXIS_BY_SIZES, words, at)


def _by_front(whole: Whole, front: Front) -> Finding:
    """What is said of an axis that the front end chose."""
    at = whole.candidate.view.axis.at if whole.candidate is not None else None
    words = (
        f"The view could be turned about either of two lines; it was read about the one whose end at the {front} you "
        f"gave as Z0{whole.sizes}: see that it is the turning axis."
    )
    return Finding(Level.CAUTION, DrawingCode.AXIS_UNCLEAR, words, at)


def _unclear(one: Whole, two: Whole) -> Finding:
    """The stop for a view with two axes: what it is about either, and what would part them."""
    at = two.candidate.view.axis.at if two.candidate is not None else (0.0, 0.0)
    sizes = [whole.sizes for whole in (one, two)]
    both = f"{sizes[0]} about the one{sizes[1]} about the other" if all(sizes) else ""
    words = (
        f"The view at {place_words(at)} is as symmetric about one line as about the one across it{both}; say which is "
        "the turning axis by a diameter sign or by --front, the end that is Z0, or take the other line away."
    )
    return Finding(Level.STOP, DrawingCode.AXIS_UNCLEAR, words, at)


def _with_all(best: Whole, made: Sequence[Whole]) -> tuple[Whole, tuple[Whole, ...]]:
    """A reading held against the one with all strokes let in, where outline may lie on a layer of another name.

    Strokes that only their layer makes something else are such outline if they stand at the part on both sides of its
    axis and the sheet reads without a stop with them, as another part. Without them such ink would stay unexplained,
    so that reading can't lead; the other does if the printed sizes bear it out and no second view comes with them.
    """
    at = _named_at_part(best)
    if at is None:
        return best, tuple(made)
    try:
        again = best.given.read(replace(best.way, set_aside=False))
    except TooDenseError:
        return best.told(_either(None, at)), tuple(made)
    both = (*made, again)
    if again.placed.found is None or best.placed.found is None or _stopped(again):
        return best.told(_either(None, at)), both
    told = difference(best.placed.found, again.placed.found)
    if told is None:
        return best, both
    if _views_of(again) == _views_of(best) and _fits_better(again, best):
        return again.told(_let_in(again)), both
    return best.told(_either(told, at)), both


def _views(best: Whole, made: tuple[Whole, ...]) -> tuple[Whole, tuple[Whole, ...]]:
    """A reading that much is against held against those of the views that were passed over: their sizes may fit."""
    choice = best.placed.choice
    if choice is None or not choice.passed or best.way.at is not None or not _curable(best):
        return best, made
    every = [c.view for c in (*choice.candidates, *choice.beside)]
    for candidate in choice.passed[:MOST_OTHERS]:
        other = best.given.read(replace(best.way, about=None, at=pointer(candidate.view, every)))
        made = (*made, other)
        if _printed(other) - _printed(best) >= MARGINS[Aspect.PRINTED]:
            return best.stopped(_meant(best, other, pointer(choice.candidates[0].view, every))), made
    return best, made


def _torn_open(whole: Whole) -> Finding | None:
    """The stop of a view that was read although not all of it hangs together, None where there is none."""
    open_at = (DrawingCode.OUTLINE_OPEN, DrawingCode.IN_PIECES)
    found = whole.placed.found is not None and whole.way.at is None
    return next((f for f in whole.placed.findings if f.stops and f.code in open_at), None) if found else None


def _beside(best: Whole, made: tuple[Whole, ...]) -> tuple[Whole, tuple[Whole, ...]]:
    """A view that doesn't hang together held against those beside it that may show the part: one may read."""
    choice, torn = best.placed.choice, _torn_open(best)
    if choice is None or torn is None:
        return best, made
    every = [c.view for c in (*choice.candidates, *choice.beside)]
    first = choice.candidates[0].view
    others = [c for c in choice.beside if c.evidence.turned or first.as_long(c.view)]
    for candidate in others[:MOST_OTHERS]:
        spot = pointer(candidate.view, every)
        other = best.given.read(replace(best.way, about=None, at=spot))
        made = (*made, other)
        if other.placed.found is not None and not _stopped(other):
            return best.stopped(_closed(other, spot, pointer(first, every), torn)), made
    return best, made


def _closed(other: Whole, spot: Point, at: Point, torn: Finding) -> Finding:
    """The question where the view that leads is open and another one reads."""
    place = place_words(torn.at or at)
    words = (
        f"The view at {place_words(at)} does not hang together, see {place}; the one at {place_words(spot)} reads"
        f"{other.sizes}: close the outline, or point to the part with --at X,Y."
    )
    return Finding(Level.STOP, DrawingCode.SEVERAL_PARTS, words, torn.at, spots=(spot, at))


def _meant(best: Whole, other: Whole, at: Point) -> Finding:
    """The question where the printed sizes fit a view that was passed over; `at` is a place on the one that leads."""
    spots = (at, other.way.at or at)
    words = (
        f"The printed sizes fit the view at {place_words(spots[1])}{other.sizes}, not the one at {place_words(at)}"
        f"{best.sizes}, which looks more like a turned part as drawn: point to the part with --at X,Y."
    )
    return Finding(Level.STOP, DrawingCode.SEVERAL_PARTS, words, at, spots=spots)


def _named_at_part(whole: Whole) -> Point | None:
    """A place on strokes that only their layer's name sets aside and that stand at the part or in it, else None."""
    labels, folded, found = sorted(whole.given.roles.by_layer), whole.placed.folded, whole.placed.found
    if not labels or folded is None or found is None:
        return None
    left = LinesLeft.of([line_of(whole.given.sheet.segments, k) for k in labels], folded, found)
    return left.at_part() or notch_under_land(folded, left.lines, found.halves[0], both=left.both)


def _either(told: Difference | None, at: Point) -> Finding:
    """What is said of lines that may be outline or not, by the name of their layer alone.

    A stop where the sheet reads as another part with them, a caution where it does not read at all.
    """
    where = (
        f"The lines at {place_words(at)} lie on a layer whose name says that it is not outline, but stand at the part "
        "on both sides of its axis"
    )
    if told is None:
        words = f"{where}; with them no part can be read, so they were left out: check whether they belong to it."
        return Finding(Level.CAUTION, DrawingCode.LINES_UNEXPLAINED, words, at)
    words = f"{where}: with and without them {told.words}; put the outline on a layer of its own."
    return Finding(Level.STOP, DrawingCode.LINES_UNEXPLAINED, words, at)


def _only_by_layer(given: Given) -> bool:
    """True if nothing but the name of its layer sets any stroke aside: outline may well lie on such a layer."""
    return given.roles.aside <= given.roles.by_layer


def _let_in(whole: Whole) -> Finding:
    """The caution for an outline that closes, or fits its sizes, only with strokes that look like something else."""
    words = f"The outline closes only with lines that {LOOKS}; they were read as outline: check whether they are."
    folded = whole.placed.folded
    return Finding(Level.CAUTION, DrawingCode.LET_IN, words, folded.view.axis.at if folded else None)


def _closed_by_marks(whole: Whole) -> Finding:
    """The stop where they look like it by themselves: what closes with them may be a scrap, or another view."""
    sizes = whole.sizes
    words = (
        f"An outline{sizes}{',' * bool(sizes)} closes only with lines that {LOOKS}: see whether it is the part, or "
        "close the part's outline without them."
    )
    folded = whole.placed.folded
    return Finding(Level.STOP, DrawingCode.LET_IN, words, folded.view.axis.at if folded else None)
