"""Choice of the view to read: the one that shows a turned part, the one pointed to, or a stop that says why none.

Where one view could be turned about either of two lines, the choice hands out both: whole readings are weighed then.
"""

import math
from collections.abc import Sequence
from dataclasses import field, replace

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.score import Aspect, Merit, Score, better_first, decides
from extractor.sheet import Sheet
from extractor.sizing.tables.table_rows import groove_table
from extractor.values import dataclass
from extractor.viewing.alike import ALONG, SAME, SKEW, SQUARE
from extractor.viewing.apart import apart
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import Ink
from extractor.viewing.end_views import of_end_view, without_holes
from extractor.viewing.evidence import Evidence, is_lined, is_plain, stray_lines, weigh
from extractor.viewing.half_alone import is_one_sided
from extractor.viewing.headed import details_among, left_out
from extractor.viewing.pictures import is_picture
from extractor.viewing.projection_symbol import without_symbols
from extractor.viewing.round_ends import without_end_views
from extractor.viewing.views import NEAR_VIEW, View, is_frame, standing

WIRES = 0.1
"""Share of a view's lines that may enclose nothing where only symmetry speaks for it."""

MOST_VIEWS = 24
"""Only so many of the best views are weighed."""

FEW_ENDS = 4
"""So many loose ends are slips to be named one by one; more are a sketch."""

BOX = 0.25
"""A rectangle round a text is its frame if it is smaller than this share of the largest view."""

FILLS = 0.3
"""A text fills its frame from this share of the frame's height: frames are about twice as high as their letters."""

CELLS = 4
"""Cells with a text, at least, that make a table: a plain bush cut along its axis shows three fields."""

FULL = 0.5
"""At least this share of a table's cells holds a text."""

UPRIGHT = 0.99
"""A cell fills its own box by this share; the walls of a bush with a recess don't."""

AS_LARGE = 0.4
"""Figures of at least this share of a view's size count in a map or a diagram."""

ALONG_VIEW = (0.5, 0.25, 0.75, 0.1, 0.9)
"""Shares of a view's length at which a place on it alone is looked for: the middle first, then off other views."""

ON_A_SIDE = {"both": (0.0, 0.4, -0.4), "up": (0.5, 0.9), "down": (-0.5, -0.9)}
"""And shares of its height, by the halves that are drawn."""

NO_END = "nothing shows its end"

CROWD = 5
"""So many other closed shapes as large make a map or a diagram of a sheet."""


@dataclass(frozen=True)
class Candidate:
    """A view, what speaks for it, and its score before it is laid; `plain` if it is a bare rectangle.

    The score follows from the rest and the other views: candidates of one sheet are told apart without it.
    """

    view: View
    evidence: Evidence
    score: Score = field(compare=False)
    plain: bool = False


@dataclass(frozen=True)
class ChosenViews:
    """The view chosen (several if they must be told apart by what they show), or none and a stop.

    `beside` are views that were not chosen and may show the same part; `others` are chosen ones about the line across
    their axis, the likeliest first, and `torn` is true if nothing on the sheet says which of the two lines is meant.
    `passed` are views passed over, since the chosen ones lead.
    """

    candidates: tuple[Candidate, ...]
    findings: tuple[Finding, ...] = ()
    beside: tuple[Candidate, ...] = ()
    others: tuple[Candidate, ...] = ()
    torn: bool = False
    passed: tuple[Candidate, ...] = ()


def choose(
    sheet: Sheet, ink: Ink, found: Sequence[View], centres: Sequence[Axis], at: Point | None, about: Axis | None = None
) -> ChosenViews:
    """Choose the one view to read among those found; `at` is a point on the view meant, `about` the axis that it has.

    With `about`, views of the same ink about other axes are left out.
    """
    pictures = {k for k in {k for v in found for k in v.members} if is_picture(ink, sheet.segments, ink.clusters[k])}
    found = without_holes(sheet, ink, [v for v in found if not pictures & set(v.members)])
    details = details_among(sheet, ink, found)
    found = without_symbols(sheet, ink, [v for v in found if v not in details], at)
    every = _weighed(sheet, ink, without_end_views(ink, found, centres)[:MOST_VIEWS], centres)
    meant = {k for c in every if c.view.axis == about for k in c.view.members}
    weighed = [c for c in every if c.view.axis == about or not meant & set(c.view.members)]
    weighed = [c for c in weighed if c.view.axis == about or c.score[Aspect.FRAME].figure >= 0]
    weighed.sort(key=lambda c: better_first(c.score))
    kept = apart([c.view for c in weighed])
    listed = [c for c in weighed if c.view in kept]
    pointed = listed if at is None else _pointed_to(listed, at)
    if at is not None and not pointed:
        words = f"No view of a turned part lies at {place_words(at)}; point --at inside one."
        return _stop(DrawingCode.NOTHING_THERE, words, at)
    turned = [c for c in pointed if c.evidence.turned or c.view.axis == about]
    alone = None if turned else _by_another_view(pointed, listed) or _by_symmetry(ink, pointed)
    made = alone or _by_edges(sheet, _preferred(turned))
    taken = [c.view for c in made.candidates]
    told = [left_out(v) for v in details if weigh(sheet, ink, v, centres).turned][:1]
    made = replace(made, findings=(*made.findings, *told), beside=tuple(c for c in listed if c.view not in taken))
    every = [o for o in every if not any(_across(c, o) and of_end_view(sheet, o.view.axis, c.view) for c in turned)]
    return made if about is not None or not turned else _with_others(made, turned, every)


def _by_another_view(pointed: Sequence[Candidate], listed: Sequence[Candidate]) -> ChosenViews | None:
    """The view pointed to, where another one as long and as high shows that it is turned."""
    if not any(c.evidence.turned and c.view.like(pointed[0].view) for c in listed if c not in pointed):
        return None
    told = (replace(c, evidence=replace(c.evidence, strong=(*c.evidence.strong, "another view"))) for c in pointed)
    return ChosenViews(tuple(told))


def _weighed(sheet: Sheet, ink: Ink, found: Sequence[View], centres: Sequence[Axis]) -> list[Candidate]:
    """The views with what speaks for them as drawn: what the others show is a part of that."""
    rows = [(v, weigh(sheet, ink, v, centres), is_plain(ink, v)) for v in found]
    clear = [e.ringed or e.spanned or not is_frame(ink, v) for v, e, _ in rows]
    largest = max((v.size for (v, _, _), free in zip(rows, clear, strict=True) if free), default=0.0)
    table = [row.at for row in groove_table(sheet)[1]]
    boxes = [
        plain and (_ruled(v, table) or (v.size <= BOX * largest and _lettered(sheet, v)) or _gridded(sheet, ink, v))
        for v, _, plain in rows
    ]
    framed = [box or not free for box, free in zip(boxes, clear, strict=True)]
    shown = [row for row, frame in zip(rows, framed, strict=True) if not frame]
    sure = [v.axis for v, e, _ in shown if e.ringed or e.spanned]
    known = [v for v, e, _ in shown if e.turned]
    return [
        Candidate(v, seen, _score(v, seen, sure=v.axis in sure, again=_again(v, known), frame=frame), plain)
        for (v, seen, plain), frame in zip(rows, framed, strict=True)
    ]


def _score(view: View, seen: Evidence, *, sure: bool, again: bool, frame: bool) -> Score:
    """What speaks for a view as drawn; `sure`: an end view or a diameter has its axis in the middle."""
    return {
        Aspect.FRAME: Merit(-float(frame), "the frame of a note or a table" if frame else "no frame"),
        Aspect.PROJECTION: Merit(float(sure), "an end view, or a diameter of the whole width" if sure else NO_END),
        Aspect.STANDING: standing(view),
        Aspect.AGAIN: Merit(float(again), "another view as large" if again else "no other view of it"),
        Aspect.LINES: Merit(2.0 * view.axis.marked + bool(seen.strong), seen.words),
        Aspect.HALVES: Merit(view.share if view.halves == "both" else 1.0, f"{view.halves} drawn"),
    }


def _with_others(made: ChosenViews, turned: Sequence[Candidate], every: Sequence[Candidate]) -> ChosenViews:
    """The choice with the views of the same ink about the lines across."""
    pairs = [(c, o) for c in turned for o in every if _across(c, o) and not _taken(o, every)]
    torn = [o for c, o in pairs if _torn(c, o)]
    return replace(made, others=tuple(torn or (o for _, o in pairs)), torn=bool(torn))


def _lettered(sheet: Sheet, view: View) -> bool:
    """True if a text fills a view: it is the frame of a datum's letter or of a tolerance (ISO 5459, from memory)."""
    inside = (t for t in sheet.texts if view.covers(t.at))
    return any(t.height >= FILLS * min(view.high - view.low, 2 * view.reach) for t in inside)


def _gridded(sheet: Sheet, ink: Ink, view: View) -> bool:
    """True if a view is a grid of upright cells with texts in them: a table, whatever line it stands on."""
    if len(sheet.texts) < CELLS:  # no two cells share a text
        return False
    chords, edge = ink.network.chorded
    on = np.isin(edge, [e for k in view.members for e in ink.clusters[k].edges])
    cells = shapely.get_parts(
        shapely.polygonize(shapely.linestrings(chords[on], indices=np.unique(edge[on], return_inverse=True)[1]))
    )
    if len(cells) < CELLS or (shapely.area(cells) < UPRIGHT * shapely.area(shapely.envelope(cells))).any():
        return False
    places = shapely.points(np.array([t.at for t in sheet.texts]).reshape(-1, 2))
    inside = shapely.STRtree(cells).query(places, predicate="within")[1]
    return len(set(inside.tolist())) >= max(CELLS, FULL * len(cells))


def _ruled(view: View, rows: Sequence[Point]) -> bool:
    """True if the rows of a table of grooves, each by the place of its label, all stand in a view."""
    return bool(rows) and all(view.covers(at) for at in rows)


def _pointed_to(candidates: Sequence[Candidate], at: Point) -> list[Candidate]:
    """The smallest view that covers a point, alone; nothing where none does."""
    there = [c for c in candidates if c.view.covers(at, NEAR_VIEW * c.view.size)]
    return sorted(there, key=lambda c: c.view.size)[:1]


def pointer(view: View, others: Sequence[View]) -> Point:
    """A place by which `--at` picks this view and none of the others."""
    along = [view.low + share * (view.high - view.low) for share in ALONG_VIEW]
    sides = ON_A_SIDE[view.halves]
    for at in (view.middle, *(view.axis.unfold(s, r * view.reach) for r in sides for s in along)):
        if not any(o is not view and o.size <= view.size and o.covers(at, NEAR_VIEW * o.size) for o in others):
            return at
    return view.middle


def _again(view: View, shown: Sequence[View]) -> bool:
    """True if a view is another one over again that shows it is turned: a section of a disc looks turned crosswise too.

    Views of one part lie along one another (ISO 5456-2, from memory), and are as long and as high.
    """
    others = (v for v in shown if not set(v.members) & set(view.members))
    return any(view.axis.angle_to(v.axis.direction) < ALONG and v.like(view) for v in others)


def _across(one: Candidate, two: Candidate) -> bool:
    """True for a whole view about one line and the same ink about a line square to it."""
    same = set(one.view.members) == set(two.view.members) and one.view.halves == "both"
    return same and one.view.axis.angle_to(two.view.axis.direction) > SQUARE


def _torn(one: Candidate, two: Candidate) -> bool:
    """True if a view could as well be turned about the other line: both are centre lines and nothing parts them."""
    marked = one.view.axis.marked and two.view.axis.marked and two.evidence.turned
    return marked and decides(one.score, two.score) is None


def _taken(one: Candidate, others: Sequence[Candidate]) -> bool:
    """True if another view stands on the axis that one lies clear of: then it is no half about it."""
    return not one.view.touches and any(o.view.touches and o.view.axis == one.view.axis for o in others)


def _preferred(turned: list[Candidate]) -> ChosenViews:
    """All turned views but those that others lead: a caution tells of them.

    Views with a centre line lead those without. Where none has one, those with a diameter sign or a round end lead
    those without that are drawn aslant to them: pictures of the part.
    """
    lined = [c for c in turned if c.evidence.centre_line]
    shown = lined or [c for c in turned if "a diameter sign" in c.evidence.strong or c.evidence.ringed]
    passed = tuple(c for c in turned if shown and c not in shown and (lined or _aslant(c.view, shown[0].view)))
    if not passed:
        return ChosenViews(tuple(turned))
    at = passed[0].view.middle
    why = "without a centre line" if lined else "drawn aslant and without a size"
    words = f"The view at {place_words(at)} {why} was passed over; point to it with --at if it is the part."
    caution = Finding(Level.CAUTION, DrawingCode.PASSED_OVER, words, at)
    return ChosenViews(tuple(c for c in turned if c not in passed), (caution,), passed=passed)


def _aslant(one: View, two: View) -> bool:
    """True if a view lies neither along another nor square to it."""
    turn = one.axis.angle_to(two.axis.direction)
    return min(turn, math.pi / 2 - turn) > ALONG


def _by_symmetry(ink: Ink, candidates: Sequence[Candidate]) -> ChosenViews:
    """Where no view shows that it is turned: one stepped outline with nothing against it, read with a caution."""
    why = [_against_symmetry(ink, c) for c in candidates]
    plain = [c for c, reason in zip(candidates, why, strict=True) if not reason]
    if plain:
        shown = "a line along its middle and its symmetry say" if plain[0].view.axis.drawn else "its symmetry says"
        return ChosenViews(tuple(plain), (_only(shown, plain[0].view),))
    if candidates:
        at, lined = candidates[0].view.axis.at, candidates[0].evidence.centre_line
        words = (
            f"Nothing on the sheet is shown as a turned part: the view at {place_words(at)} is symmetric, but {why[0]}"
            f"; a turned part needs {'' if lined else 'a centre line along it or '}a diameter sign."
        )
        return _stop(DrawingCode.NOT_TURNED, words, at)
    return _no_part(ink)


def _by_edges(sheet: Sheet, made: ChosenViews) -> ChosenViews:
    """The views chosen, with a caution where edge lines alone say that they are turned: those of a plate's slots do."""
    alone = all(c.evidence.strong == ("edge lines right across",) and not c.evidence.signed for c in made.candidates)
    if not alone or any(is_lined(sheet, c.view) for c in made.candidates):
        return made
    only = _only("the lines right across it and its symmetry say", made.candidates[0].view)
    return replace(made, findings=(*made.findings, only))


def _only(what: str, view: View) -> Finding:
    """The caution for a view that little says is turned."""
    missing = "diameter sign" if view.axis.drawn else "centre line, diameter sign"
    words = f"Only {what} that this is a turned part: no {missing} or end view was found; check whether it is one."
    return Finding(Level.CAUTION, DrawingCode.TURNED_BY_SYMMETRY, words, view.axis.at)


def _no_part(ink: Ink) -> ChosenViews:
    """The stop where no view is found: with the ends that hang loose, if the largest figure has only a few."""
    words = (
        "No view of a turned part was found: no closed outline is symmetric about an axis, and none lies along a "
        "centre line; draw the outline closed, with its centre line."
    )
    mine = {n for k in (ink.clusters[0].edges if ink.clusters else ()) for n in ink.network.edges[k][:2]}
    ends = sorted(ink.network.point(n) for n in ink.network.loose if n in mine)
    if not 1 <= len(ends) <= FEW_ENDS:
        return _stop(DrawingCode.NO_TURNED_PART, words, None)
    places = " and ".join(place_words(at) for at in ends)
    words = f"No view of a turned part was found: the largest figure is open at {places}; close the outline there."
    return _stop(DrawingCode.NO_TURNED_PART, words, ends[0])


def _against_symmetry(ink: Ink, candidate: Candidate) -> str:
    """Why symmetry may not speak for a view, "" where it may: whole, level or upright, stepped, not one of many."""
    view, evidence = candidate.view, candidate.evidence
    if evidence.against:
        return " and ".join(evidence.against)
    others = [c for k, c in enumerate(ink.clusters) if k not in view.members and c.closed and not c.plain]
    reasons = (
        ("holes show in it", evidence.holed),
        ("it is a plain rectangle", candidate.plain),
        ("only one side of it is straight, as that of half a part is", is_one_sided(ink, view)),
        ("not all of it is", view.share < SAME),
        ("it lies aslant", min(map(abs, view.axis.direction)) >= SKEW),
        ("figures as large lie beside it", sum(c.diagonal > AS_LARGE * view.size for c in others) >= CROWD),
        ("lines in it stand away from its axis", not view.axis.drawn and stray_lines(ink, view)),
        ("lines in it enclose nothing", _wired(ink, view)),
    )
    return next((reason for reason, holds in reasons if holds), "")


def _wired(ink: Ink, view: View) -> bool:
    """True if many of a view's lines enclose nothing, as the wires between the boxes of a diagram do."""
    inside = {k for face in ink.network.faces for k in face.edges}
    edges = [e for k in view.members for e in ink.clusters[k].edges]
    ends = np.array([ink.network.edges[e][:2] for e in edges])
    size = np.hypot(*(ink.network.nodes[ends[:, 0]] - ink.network.nodes[ends[:, 1]]).T)
    loose = np.array([e not in inside for e in edges])
    return bool(size[loose].sum() > WIRES * size.sum())


def _stop(code: DrawingCode, words: str, at: Point | None) -> ChosenViews:
    """No view, and why."""
    return ChosenViews((), (Finding(Level.STOP, code, words, at),))
