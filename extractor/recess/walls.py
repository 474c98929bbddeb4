"""Does the part that was read hang together? Where outside and bore leave no wall, two parts were read as one."""

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.stretches import radii
from extractor.part import ProfilePoints
from extractor.sheet import Floats
from extractor.viewing.outline import Folded


def parted(outline: ProfilePoints, bore: ProfilePoints, fine: float) -> Point | None:
    """A place (z, radius) at which no metal goes on along the axis, None if some goes on everywhere.

    >>> hub = ((0.0, 30.0), (-20.0, 30.0), (-20.0, 15.0), (-90.0, 15.0))
    >>> parted(hub, ((0.0, 15.0), (-20.0, 15.0), (-20.0, 0.0)), 0.01), parted(hub, ((0.0, 5.0), (-90.0, 5.0)), 0.01)
    ((-20.0, 15.0), None)
    """
    front, back = outline[0][0], outline[-1][0]
    places = np.unique([z for z, _ in (*outline, *bore)])
    places = places[(places > back + fine) & (places < front - fine)]
    if not len(places):
        return None
    before, behind = places + fine / 2, places - fine / 2
    outer = np.minimum(*(radii(np.array(outline, dtype=float), at) for at in (before, behind)))
    inner = np.maximum(*(_bored(bore, at, fine) for at in (before, behind)))
    thin = np.flatnonzero(outer - inner <= fine)
    return (float(places[thin[-1]]), float(outer[thin[-1]])) if len(thin) else None


def _bored(bore: ProfilePoints, at: Floats, fine: float) -> Floats:
    """The radius of a bore at places along z, 0 where it does not reach."""
    line = np.array(bore, dtype=float)
    within = (at <= line[0, 0] + fine) & (at >= line[-1, 0])
    return np.where(within, radii(line, at), 0.0)


def in_two(folded: Folded, sign: int, at: Point) -> Finding:
    """The stop for a part that falls in two."""
    spot = folded.place(at[0], sign * at[1])
    words = (
        f"At {place_words(spot)} the bore is as wide as the outside, so nothing holds the part together: "
        "it may be two parts, one on the other; send a drawing of one part alone."
    )
    return Finding(Level.STOP, DrawingCode.IN_PIECES, words, spot)
