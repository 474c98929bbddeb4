"""From a sheet to the part's view: chosen, laid, and read together with the other views of the same part."""

import math
from collections.abc import Sequence
from dataclasses import field, replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.doubts.beside_view import axis_unread, hatched_beside, letters_as_lines
from extractor.doubts.crossed_out import crossed_out
from extractor.doubts.ends_seen import answered, ends_seen, faces_held, flats_held
from extractor.doubts.ledger import ledger
from extractor.doubts.left_over import left_over, told_as_dashes
from extractor.doubts.not_shown import not_shown
from extractor.doubts.off_axis import half_drawn
from extractor.finding import Finding, Level, Point, place_words
from extractor.front import OPPOSITE, Front, FrontEnd
from extractor.placing.in_pieces import in_pieces
from extractor.placing.laying import LaidView, lay_view
from extractor.placing.not_round import not_round
from extractor.placing.together import (
    TELLING,
    Difference,
    Heard,
    agreed,
    best_of,
    contradicts,
    difference,
    differs,
    drawn_so_large,
    joined,
    with_bore,
)
from extractor.placing.twins import Twin, heading, scale_of, times_as_large, times_said
from extractor.recess.recognise import Found
from extractor.recess.thread_words import without_teeth
from extractor.sheet import Sheet
from extractor.values import dataclass
from extractor.viewing.axis import Axis, centre_lines, dimensioned_axes
from extractor.viewing.choice import Candidate, ChosenViews, choose, pointer
from extractor.viewing.clusters import Ink, prepare
from extractor.viewing.evidence import says_diameter
from extractor.viewing.outline import Folded
from extractor.viewing.roles import Roles
from extractor.viewing.views import View, views

IN_LINE = 0.01
"""Views that are drawn in line with one another lie so within this share of their size, and this angle, radians."""

DETAIL = 0.01
"""Views of one part that differ in a groove do so in less than this share of the square of their size."""

DRAFT = 0.9
"""A view that does not close is passed over for one that does and is at least so large beside it."""


@dataclass(frozen=True)
class WayToRead:
    """One way to read a sheet.

    `set_aside`: strokes that are likely something else (dimensions known by their numbers, layers named for texts) are
    left out, else they may be outline. `about`: the axis of the view, `at` a point on it, `front` its front end,
    `scale` its drawn length of one true unit; None for what leads by itself.
    """

    set_aside: bool = True
    about: Axis | None = None
    at: Point | None = None
    front: Front | None = None
    scale: float | None = None


@dataclass(frozen=True)
class _Seen:
    """What is seen on a sheet before one of its views is chosen, and the views that have been laid since."""

    ink: Ink
    centres: list[Axis]
    views: list[View]
    laid: dict[tuple[Candidate, Front | None], LaidView] = field(default_factory=dict)


@dataclass(frozen=True, eq=False)
class Groundwork:
    """What all readings of a sheet share: its lines with their roles. What one reading works out, the next reuses."""

    sheet: Sheet
    roles: Roles
    _seen: dict[bool, _Seen] = field(default_factory=dict)
    _placed: dict[WayToRead, LaidView] = field(default_factory=dict)

    def place(self, way: WayToRead) -> LaidView:
        """The view to read and what it shows. Raises TooDenseError."""
        if way not in self._placed:
            self._placed[way] = _placed(_Desk(self.sheet, self.roles, self._see(way.set_aside), way))
        return self._placed[way]

    def _see(self, set_aside: bool) -> _Seen:
        """What is seen with strokes set aside or with all of them."""
        if set_aside not in self._seen:
            ink = prepare(self.roles, self.sheet.segments, set_aside=set_aside)
            centres = centre_lines(self.sheet.segments, ink.size)
            stated = dimensioned_axes(self.sheet.dimensions, says_diameter, centres)
            self._seen[set_aside] = _Seen(ink, centres, views(ink, centres, stated))
        return self._seen[set_aside]


@dataclass(frozen=True)
class _Desk:
    """What all views of a sheet are laid from."""

    sheet: Sheet
    roles: Roles
    seen: _Seen
    way: WayToRead

    @property
    def ink(self) -> Ink:
        """The lines of the sheet."""
        return self.seen.ink

    def lay(self, candidate: Candidate) -> LaidView:
        """One view laid, its front where the way has it."""
        return self.turned(candidate, self.way.front)

    def turned(self, candidate: Candidate, front: Front | None) -> LaidView:
        """One view laid with its front where that is told."""
        laid = self.seen.laid
        if (candidate, front) not in laid:
            laid[candidate, front] = lay_view(self.ink, self.sheet, candidate, front)
        return laid[candidate, front]


def _placed(desk: _Desk) -> LaidView:
    """Choose the view to read and recognise what it shows."""
    seen, way = desk.seen, desk.way
    choice = choose(desk.sheet, seen.ink, seen.views, seen.centres, way.at, way.about)
    if not choice.candidates:
        return LaidView(None, None, choice.findings)
    laid = [(c, desk.lay(c)) for c in choice.candidates]
    cut = next((f for _, p in laid for f in p.findings if f.code == DrawingCode.BROKEN_VIEW), None)
    if len(laid) > 1 and cut is not None:
        return LaidView(None, None, (*choice.findings, cut), choice=choice)
    laid, passed = _without_drafts(laid)
    larger = [c.view for c, _ in laid if times_said(desk.sheet, laid[0][0].view, c.view) != 1.0]
    if larger and scale_of(desk.sheet, laid[0][0].view, larger[0]) != 1.0:
        laid.sort(key=lambda row: row[0].view not in larger)
    laid[0] = laid[0][0], _with_words(desk, laid, choice.beside)
    placed = replace(_one_part(desk, laid), choice=choice)
    if placed.folded is None or placed.found is None:
        return replace(placed, findings=(*choice.findings, *placed.findings))
    beside = (in_pieces(desk.sheet, seen.ink, laid[0][0].view, c.view) for c in choice.beside)
    torn = next((stop for stop in beside if stop is not None), None)
    if torn is not None:
        return replace(torn, findings=(*choice.findings, *torn.findings), choice=choice)
    read = placed.folded, placed.found
    return _with_others(desk, choice, laid[0][0].view, placed, read).with_findings(*passed)


Laid = list[tuple[Candidate, LaidView]]


def _without_drafts(laid: Laid) -> tuple[Laid, list[Finding]]:
    """The views without those that don't close, if one that does is about as large; a caution for each of them."""
    closed = [row for row in laid if row[1].found is not None]
    drafts = [c for c, p in laid if p.found is None]
    if not closed:
        return laid, []
    largest = max(c.view.size for c, _ in closed)
    if any(largest < DRAFT * c.view.size for c in drafts):
        return laid, []
    words = "The view at {} does not close and was passed over; close it, or take it away."
    places = [c.view.middle for c in drafts]
    return closed, [Finding(Level.CAUTION, DrawingCode.PASSED_OVER, words.format(place_words(at)), at) for at in places]


def _with_words(desk: _Desk, laid: Laid, beside: Sequence[Candidate]) -> LaidView:
    """The first view with its front where the words at any view of the same part say; their conflicts are its own."""
    (candidate, first), *others = laid
    if first.found is None or first.front is None:
        return first
    others += [(c, desk.lay(c)) for c in beside if _may_show(candidate.view, c.view)]
    telling = [(c, p, p.front.by) for c, p in others if p.front is not None and (p.front.by in TELLING or _torn(p))]
    heard = [Heard(first.front.by, candidate.view.middle, same=True)] if first.front.by in TELLING else []
    by_words = "words" in {first.front.by, *(by for *_, by in telling)}
    if not by_words and not any(_torn(p) for p in (first, *(p for _, p, _ in telling))):
        return first
    for other, way, by in telling:
        held = _held_against(desk, first.found, candidate.view, other, way)
        same = held.told is None or held.told.total <= DETAIL * candidate.view.size**2
        odd = _torn(way)
        if same and odd:
            return first.with_findings(*odd)
        if same:
            heard.append(Heard(by, other.view.middle, same=held.way == way))
    return agreed(first, heard, lambda end: desk.turned(candidate, end))


def _torn(placed: LaidView) -> list[Finding]:
    """What is said of words at one view that name both its ends."""
    return [f for f in placed.findings if f.code == DrawingCode.FRONT_CONFLICT]


def _one_part(desk: _Desk, laid: Laid) -> LaidView:
    """What all the views show together, or a stop that says in what they differ."""
    first = laid[0][1]
    if len(laid) == 1:
        return first
    whole, from_others, twins, odd = first.found, list[Candidate](), list[Twin](), list[Finding]()
    for candidate, other in laid[1:]:
        pair = laid[0][0].view, candidate.view
        if whole is None or other.found is None:
            return in_pieces(desk.sheet, desk.ink, *pair) or _several(laid, None)
        held = _held_against(desk, whole, pair[0], candidate, other)
        if held.told is not None:
            return in_pieces(desk.sheet, desk.ink, *pair) or _several(laid, held.told, [laid[0][0], candidate])
        whole, from_others = _more(whole, held.found, candidate, from_others)
        twins += held.twins(candidate)
        odd += held.odd(candidate)
    alike = from_others or not any(f.code == DrawingCode.VIEWS_DIFFER for f in odd)
    again = [_again(laid, from_others)] if alike else []
    return replace(first, found=whole, twins=tuple(twins)).with_findings(*again, *odd)


def _more(whole: Found, way: Found, candidate: Candidate, known: list[Candidate]) -> tuple[Found, list[Candidate]]:
    """The part with what one more view alone shows of it, and the views that gave something."""
    both = with_bore(whole, way)
    return both, known if both == whole else [*known, candidate]


@dataclass(frozen=True)
class _Held:
    """A view held against the first: in what it differs, as laid, and what it shows at the scale of the first.

    `slight`: in what it differs by more than the pen's error, though it shows the same part.
    """

    told: Difference | None
    way: LaidView
    found: Found
    times: float
    slight: Difference | None = None

    def odd(self, candidate: Candidate) -> list[Finding]:
        """What contradicts itself in what the view shows, which it does in the part, and where it differs slightly."""
        stops = [f for f in self.found.findings if f.stops]
        stops += [f for f in self.way.findings if f.code == DrawingCode.CROSS_HOLE and f not in self.found.findings]
        return stops if self.slight is None else [*stops, differs(candidate.view, self.slight, 0)]

    def twins(self, candidate: Candidate) -> list[Twin]:
        """The view as one of the same part."""
        if self.way.folded is None:
            return []
        front = self.times * self.found.outline[0][0]
        return [Twin(candidate.view, self.way.folded.axis, front, self.times)]


def _held_against(desk: _Desk, base: Found, first: View, candidate: Candidate, laid: LaidView) -> _Held:
    """A view held against the first, laid from whichever of its ends is more like it."""
    times = times_said(desk.sheet, first, candidate.view)
    alike = laid.found is not None and difference(base, drawn_so_large(laid.found, 1 / times)) is None
    # Where nothing differs the other end can be no more like it.
    ends = () if laid.front is None or alike else (OPPOSITE[laid.front.end],)
    ways = (laid, *(desk.turned(candidate, end) for end in ends))
    rows = [(way, drawn_so_large(way.found, 1 / times)) for way in ways if way.found is not None]
    best, told = best_of(base, [found for _, found in rows])
    way, found = rows[best]
    pen = way.folded.pen / times if way.folded is not None else None
    slight = difference(base, found, pen) if told is None else None
    return _Held(told, way, found, times, slight)


def _with_others(
    desk: _Desk, choice: ChosenViews, view: View, placed: LaidView, read: tuple[Folded, Found]
) -> LaidView:
    """The part with what views show of it that were not chosen themselves, and what else stands in line with it."""
    findings, alike = list(choice.findings), list(choice.candidates)
    folded, whole = read
    used, twins, told = list[Candidate](), list(placed.twins), list[View]()
    beside = (c for c in choice.beside if _may_show(view, c.view) and (view.as_long(c.view) or c.evidence.turned))
    for candidate in beside:
        other = desk.lay(candidate)
        if other.found is None:
            continue
        held = _held_against(desk, whole, view, candidate, other)
        told.append(candidate.view)
        if held.told is None:
            alike.append(candidate)
            twins += held.twins(candidate)
            whole, used = _more(whole, held.found, candidate, used)
            findings = [f for f in findings if f.code != DrawingCode.PASSED_OVER or f.at != candidate.view.middle]
            findings += held.odd(candidate)
        elif desk.way.at is None and not candidate.plain and view.as_high(candidate.view):
            findings.append(contradicts(view, candidate.view, held.told))
        else:
            findings.append(differs(candidate.view, held.told, len(held.found.inside) - len(whole.inside)))
    findings += [joined(c.view) for c in used]
    odd = not_round(desk.sheet, desk.ink, choice, alike, read)
    every = (*choice.candidates, *choice.beside)
    unread = axis_unread(desk.sheet, desk.ink, view, [c.view for c in every])
    # A row of letters may look like a section in two halves, but not as if it had a centre line or an end view.
    parts = [c.view for c in every if c.evidence.centre_line or c.evidence.ringed]
    lettered = letters_as_lines(desk.sheet, desk.ink, desk.roles, view, parts) if desk.way.scale is None else None
    shown = (*told, *(c.view for c in (*choice.candidates, *choice.passed)))
    unheld = hatched_beside(desk.ink, view, shown) if desk.way.at is None else None
    findings += filter(None, (*odd, unread, lettered, unheld))
    ends = ends_seen(desk.sheet, desk.ink, view, whole)
    whole, toothed = without_teeth(desk.sheet, whole)
    whole, faced = faces_held(folded, whole, ends)
    whole, milled = flats_held(folded, whole, ends)
    findings += [*toothed, *faced, *milled]
    count = ledger(desk.sheet.segments, desk.roles, desk.ink, read, [c.view for c in alike if c.view != view])
    loose = left_over(count, *read) if not any(f.stops for f in placed.findings) else None
    seen = (loose, crossed_out(desk.sheet.segments, *read), *half_drawn(*read), *not_shown(desk.sheet, *read))
    findings += filter(None, seen)
    together = any(f.code == DrawingCode.READ_TOGETHER for f in (*findings, *placed.findings))
    # A section shows what lies behind the faces of the view.
    dashes = told_as_dashes(answered(placed.findings, *read, ends), count, *read)
    findings += [f for f in dashes if not (together and f.code == DrawingCode.FACE_UNCLEAR)]
    headed = next((heading(desk.sheet, view, t.view) for t in twins if t.times != 1.0), None)
    return replace(placed, found=whole, findings=tuple(findings), ink=count, twins=tuple(twins), headed=headed)


def _may_show(one: View, two: View) -> bool:
    """True if two views may show one part: as long, and as high or in line with one another, neither drawn aslant.

    Or one is the other so many times as large.
    """
    turn = one.axis.angle_to(two.axis.direction)
    if min(turn, math.pi / 2 - turn) > IN_LINE:
        return False
    if not one.as_long(two):
        return times_as_large(one, two) != 1.0
    return one.as_high(two) or _in_line(one, two)


def _in_line(one: View, two: View) -> bool:
    """True for views on one axis, or drawn end above end as projections are (ISO 5456-2, from memory)."""
    if one.axis.angle_to(two.axis.direction) > IN_LINE:
        return False
    ends = one.axis.fold(np.array([two.axis.unfold(s, 0.0) for s in (two.low, two.high)]))
    above = abs(float(ends[:, 0].min()) - one.low) <= IN_LINE * one.size
    return bool(above or float(np.abs(ends[:, 1]).max()) <= IN_LINE * one.size)


def _again(laid: Laid, from_others: Sequence[Candidate]) -> Finding:
    """What is said of a part drawn several times over."""
    if from_others:
        return joined(from_others[0].view)
    words = f"The part is drawn {len(laid)} times over, alike each time; the first view was read."
    return Finding(Level.CAUTION, DrawingCode.DRAWN_AGAIN, words)


def _several(laid: Laid, told: Difference | None, unlike: Sequence[Candidate] = ()) -> LaidView:
    """The stop for several parts: where they all lie, and the one fact that parts two of them, those `unlike`."""
    shown = [c for c, p in laid if p.found is not None] or [c for c, _ in laid]
    everything = [c.view for c, _ in laid]
    named = list(unlike) or shown[:4]
    spots = [pointer(c.view, everything) for c in (*named, *(c for c in shown if c not in named))]
    places = " and ".join(place_words(at) for at in spots[: len(named)])
    among = "at" if len(named) == len(laid) else "two of them at" if unlike else "some of them at"
    if told is None:
        drafts = [c.view.middle for c, p in laid if p.found is None]
        why = f"the one at {place_words(drafts[0])} does not close" if drafts else "they differ"
    else:
        why = told.words
    words = f"{len(laid)} views on the sheet may be the part, {among} {places}; {why}: point to one with --at X,Y."
    stop = Finding(Level.STOP, DrawingCode.SEVERAL_PARTS, words, spots[0], spots=tuple(spots))
    return LaidView(None, None, (stop,), closed=sum(p.found is not None for _, p in laid))


__all__ = ["FrontEnd", "Groundwork", "LaidView", "WayToRead"]
