"""Views that a heading names as a detail drawn larger: none of them is the part."""

from collections.abc import Iterator, Sequence

import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.sheet import Sheet, Text
from extractor.sizing.details.enlarged import BESIDE
from extractor.sizing.details.headings import HEADING, NAMED, titled
from extractor.sizing.lettering.sheet_words import folded
from extractor.viewing.clusters import Ink
from extractor.viewing.evidence import is_plain
from extractor.viewing.views import View

A_BIT = 0.5
"""A detail shows less than this share of the largest view, at the scale of that."""


def details_among(sheet: Sheet, ink: Ink, found: Sequence[View]) -> list[View]:
    """The views that stand at the heading of a detail, show a bit of the part and have no centre line."""
    whole = max((v.size for v in found if v.axis.marked or not is_plain(ink, v)), default=0.0)
    headings, bits = list(_headings(sheet)), [v for v in found if not v.axis.marked]
    return [v for v in bits if any(v.size < A_BIT * times * whole and _stands_at(v, t) for t, times in headings)]


def left_out(view: View) -> Finding:
    """The caution for such a view that looks turned: a small part beside the heading does."""
    words = (
        f"The view at {place_words(view.middle)} stands at the heading of a detail and was left out; draw its centre "
        "line if it is a part of its own."
    )
    return Finding(Level.CAUTION, DrawingCode.LEFT_OUT, words, view.middle)


def _headings(sheet: Sheet) -> Iterator[tuple[Text, float]]:
    """The headings of details, and how many times as large each says that it is drawn; 1.0 where it doesn't."""
    for text in titled(sheet.texts):
        words = folded(text.text)
        scaled = HEADING.fullmatch(words)
        if scaled is not None:
            top, bottom = (float(number.replace(",", ".")) for number in scaled.groups()[1:])
            yield text, top / bottom if bottom > 0 else 1.0
        elif NAMED.fullmatch(words):
            yield text, 1.0


def _stands_at(view: View, text: Text) -> bool:
    """True if a heading stands beside a view or on it."""
    box = shapely.MultiPoint(view.corners()).convex_hull
    return float(box.distance(shapely.LineString([text.at, text.end]))) <= BESIDE * text.height
