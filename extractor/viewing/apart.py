"""Which of the views that a sheet may hold stand beside one another, and which are only parts of others."""

from collections.abc import Sequence

import numpy as np

from extractor.viewing.views import View, fits

DWARFED = 0.3
"""A table or a frame beside a view is smaller than this share of it."""


def apart(found: Sequence[View]) -> list[View]:
    """Keep the first of any views that share clusters or lie on one another.

    A half clear of its axis falls away if another view stands on that, or if it is small beside a view on its own
    centre line and lies along none of its own: then it is a table or a frame. A half, or two unlike ones, within a
    whole view about their axis are lines of it, as a keyway's are or those of a hole cut by the axis.
    """
    kept: list[View] = []
    for view in found:
        idle = not view.touches and any(_dwarfs(other, view) for other in found if other.touches)
        some = view.joined or view.halves != "both"
        within = some and any(_holds(other, view) for other in found if not other.joined)
        known = any(set(view.members) & set(other.members) or _on(view, other) for other in kept)
        kept += [] if idle or within or known else [view]
    return kept


def _dwarfs(other: View, view: View) -> bool:
    """True if a view that touches its axis shows one clear of it to be no part of its own."""
    drawn = float(np.hypot(view.high - view.low, view.share * view.reach))
    return other.axis == view.axis or (other.axis.marked and not fits(view) and drawn < DWARFED * other.size)


def _holds(other: View, view: View) -> bool:
    """True if a view that the same axis is drawn for goes on round another on all sides; for a border it is not."""
    whole = other.axis == view.axis and other.halves == "both" and fits(other)
    return whole and other.low < view.low and view.high < other.high and view.reach < other.reach


def _on(view: View, other: View) -> bool:
    """True if the middle of either view lies on the other."""
    return view.covers(other.middle) or other.covers(view.middle)
