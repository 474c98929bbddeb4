"""Hatching in line with the view that was read, as long as the part, which no view explains: a section that failed."""

from collections.abc import Sequence

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.viewing.alike import ONE_SIZE
from extractor.viewing.clusters import Ink
from extractor.viewing.views import NEAR_VIEW, View


def hatched_beside(ink: Ink, view: View, shown: Sequence[View]) -> Finding | None:
    """The caution for a section of the part that was not read; `shown` are the views that were, or were told of.

    Such a section stands over or under the view (ISO 5456-2, from memory), from end to end of it.
    """
    if not ink.hatched:
        return None
    bounds = shapely.bounds(np.array(ink.hatched, dtype=object))
    corners = np.stack([view.axis.fold(bounds[:, pick]) for pick in ([0, 1], [0, 3], [2, 1], [2, 3])])
    low, high = corners[..., 0].min(axis=0), corners[..., 0].max(axis=0)
    middles, near = (bounds[:, :2] + bounds[:, 2:]) / 2, ONE_SIZE * (view.high - view.low)
    left = (low >= view.low - near) & (high <= view.high + near)
    for one in (view, *shown):
        left &= ~one.covering(middles, NEAR_VIEW * one.size)
    if not left.any() or low[left].min() > view.low + near or high[left].max() < view.high - near:
        return None
    x, y = middles[left][0].tolist()
    words = (
        f"The hatched figure at {place_words((x, y))} stands in line with the view and is as long as the part, but was "
        "not read: close its outline, or compare the part and its grooves with it."
    )
    return Finding(Level.CAUTION, DrawingCode.PASSED_OVER, words, (x, y))
