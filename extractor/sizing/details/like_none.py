"""Grooves drawn larger beside the view, with a size of their own, of which the view shows none."""

from collections.abc import Iterator, Sequence

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.sheet import Dimension, Sheet, Text
from extractor.sizing.details.enlarged import REACH, USUAL, Detail, edge_lines
from extractor.sizing.details.same_shape import DetailStrokes, recesses
from extractor.sizing.details.unheaded import SIDES, groove_at, is_scaled, of_each_form
from extractor.sizing.lettering.printed import parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import middle
from extractor.sizing.tolerances.tolerance import as_printed

TURNS = (1, 1j, -1, -1j)
"""A recess may open up, down or to either side."""

Form = tuple[float, float]
"""Width and depth."""


def like_none(sheet: Sheet, features: Features, held: Sequence[Detail], told: Sequence[Finding]) -> Iterator[Finding]:
    """The caution for a size at a recess drawn larger, in no detail held or told of, that no recess of the view has."""
    spots = [at for finding in told for at in finding.spots]
    sizes = [d for d in sheet.dimensions if is_scaled(d, features)]
    sizes = [d for d in sizes if all(detail.off(d) > REACH for detail in held)]
    if not sizes or not features.part.grooves:
        return
    lines, own = edge_lines(sheet), _of_the_view(features)
    widest, found = max(of_each_form(features), key=lambda g: g.width), list[Detail]()
    for size in sizes:
        times = _times(size, features)
        shown = times and groove_at(features, lines, Text("", middle(size), 0.0), times, widest, SIDES[0])
        if not shown or any(d.has(shown.heading.at) for d in found) or any(map(shown.has, spots)):
            continue
        drawn, near = size.measured / features.frame.scale, features.snap * times
        for form in _recesses(shown.strokes.square(near), near):
            apart = [abs(one - drawn) <= near for one in form]
            if any(apart):
                found += [shown] if not _among(own, (form[0] / times, form[1] / times), apart[1], features.snap) else []
                yield from [_told(size, times, form)] if shown in found else _without_place(size)
                break


def _without_place(size: Dimension) -> Iterator[Finding]:
    """The caution for a tolerance in the data of a size that some groove has: nobody can say of which it is."""
    if size.deviations is not None:
        words = (
            f'"{as_printed(size)}" at a groove drawn larger has a tolerance, {size.deviations[0]:+.6g} to '
            f"{size.deviations[1]:+.6g}, and nothing says which groove it shows: read it yourself."
        )
        yield Finding(Level.CAUTION, DrawingCode.TOLERANCE_UNREAD, words, middle(size))


def _told(size: Dimension, times: float, form: Form) -> Finding:
    at = middle(size)
    words = (
        f"The groove drawn larger at {place_words(at)}, {form[0] / times:.5g} wide and {form[1] / times:.5g} deep by "
        "the size printed at it, is like none of the view: ask which of the two is meant."
    )
    return Finding(Level.CAUTION, DrawingCode.DETAIL_DIFFERS, words, at, spots=(at,))


def _times(size: Dimension, features: Features) -> float:
    """The usual scale by which a size measures what it prints, against the view; 0.0 where it is none larger."""
    printed, drawn = parse(size.text), size.measured / features.frame.scale
    for scale in USUAL:
        times = scale / features.frame.scale
        true = drawn / times
        printed_so = (
            features.near(size.measured * size.factor, true) if printed.measured else features.fits(printed, true)
        )
        if times > 1 and printed_so:
            return times
    return 0.0


def _of_the_view(features: Features) -> set[Form]:
    """The recesses that the view has, lands between two of them too: nobody knows which side of a line is metal."""
    part = features.part
    found = {(g.width, g.depth) for g in part.grooves}
    for line in (part.outline, part.bore or ()):
        places = np.array([complex(z, r) for z, r in line])
        strokes = DetailStrokes(places[:-1], places[1:], np.zeros(max(0, len(places) - 1)))
        found |= _recesses(strokes, features.snap) if len(places) > 1 else set()
    return found


def _recesses(strokes: DetailStrokes, near: float) -> set[Form]:
    return {form for turn in TURNS for form in recesses(strokes.turned(turn), near)}


def _among(own: set[Form], form: Form, deep: bool, near: float) -> bool:
    """True if the view has a recess as wide, and as deep where it is the depth that is printed.

    A wall may be cut off by the rim of the detail, or its corner eased, where nobody prints its height.
    """
    wide = [(w, d) for w, d in own if abs(w - form[0]) <= near]
    return bool(wide) and (not deep or any(abs(d - form[1]) <= near for _, d in wide))
