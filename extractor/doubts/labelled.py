"""Numbers and letters that point into a view: of grooves, each into one of its own, or of parts put together."""

import re
from collections import Counter
from collections.abc import Sequence

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.recess.recognise import Found
from extractor.sheet import Sheet
from extractor.sizing.lettering.pointers import LedLabel, said
from extractor.viewing.balloons import LETTER, NUMBER, balloons, led_elsewhere, number_sizes
from extractor.viewing.outline import Folded
from extractor.viewing.views import View

ITEMS = 2
"""So many numbered balloons that point into a view say that it shows more than one part."""


def _bare(sheet: Sheet, view: View, kind: re.Pattern[str]) -> tuple[LedLabel, ...]:
    """Bare numbers from 1 on, or letters from A on, that are led into a view: labels without their circles.

    A label has one leader: of two lines that begin beside it neither need be its own.
    """
    sizes = {d.text for d in sheet.dimensions if d.measured > 0}
    notes = said(sheet, lambda words: bool(kind.fullmatch(words)) and words not in sizes)
    lines = Counter(note.at for note in notes)
    led = [LedLabel(n.words, n.tip, n.tip) for n in notes if n.tip is not None and lines[n.at] == 1]
    inside = {b.label: b for b in led if view.covers(b.tip)}
    rows = [[str(k + 1) for k in range(len(inside))], [chr(ord("A") + k) for k in range(len(inside))]]
    return tuple(inside[label] for row in rows if set(row) == set(inside) for label in row)


def _labels_in(sheet: Sheet, view: View, kind: re.Pattern[str]) -> tuple[LedLabel, ...]:
    """The labels of one kind that point into a view, in balloons or bare; of one alone only that in a balloon."""
    rings = tuple(b for b in balloons(sheet, view) if kind.fullmatch(b.label))
    bare = _bare(sheet, view, kind) if len(rings) < ITEMS else ()
    return bare if len(bare) >= ITEMS else rings


def labels_at_grooves(sheet: Sheet, folded: Folded, found: Found) -> tuple[LedLabel, ...]:
    """The numbers and the letters that point into grooves, each into one of its own."""
    lists = [_labels_in(sheet, folded.view, kind) for kind in (NUMBER, LETTER)]
    return tuple(b for items in lists if _at_grooves(items, folded, found) for b in items)


def _at_grooves(items: Sequence[LedLabel], folded: Folded, found: Found) -> bool:
    """True if every label points into a recess of its own: then it is grooves that are numbered, not parts."""
    met = [_recess_at(b, folded, found) for b in items]
    return None not in met and len(set(met)) == len(met)


def _recess_at(balloon: LedLabel, folded: Folded, found: Found) -> int | None:
    """Which recess a number's line ends in."""
    z, r = folded.axis.fold(np.array([balloon.tip]))[0].tolist()
    for k, m in enumerate((*found.outside, *found.inside)):
        low, high = sorted((m.floor, m.mouth))
        along = m.z_far - folded.close <= z <= m.z_near + folded.close
        if along and low - folded.close <= abs(r) <= high + folded.close:
            return k
    return None


def item_numbers(sheet: Sheet, folded: Folded, found: Found) -> list[Finding]:
    """A stop for a view that item numbers point into."""
    items = _labels_in(sheet, folded.view, NUMBER)
    items += led_elsewhere(sheet, folded.view) if len(items) == 1 else ()
    if len(items) < ITEMS or _at_grooves(items, folded, found) or number_sizes(sheet, folded.view):
        return []
    at = items[0].at
    kind = "item numbers" if at == items[0].tip else "numbered balloons"
    where = "" if all(folded.view.covers(b.tip) for b in items) else " and a figure beside it"
    words = (
        f"{len(items)} {kind}, the first at {place_words(at)}, point into the view{where}: it "
        "shows several parts put together; send the drawing of the one part, or accept it if they are not part numbers."
    )
    return [Finding(Level.STOP, DrawingCode.ASSEMBLY, words, at)]
