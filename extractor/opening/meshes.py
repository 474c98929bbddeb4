"""Meshes go too: hundreds of lines across hundreds of lines, in a place of their own, are a texture and no part.

Rules: every stroke of a mesh crosses more than `ACROSS` others of it, and nothing else meets it; so it holds no edge of
a part, nor anything that belongs to one. A sheet of nothing else, or with other lines in its meshes, stays as it is.
"""

import contextlib

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.geometry.crowds import MOST_CROSSINGS, MOST_PAIRS, TooDenseError, most_overlaps, overlapping
from extractor.geometry.joining import components
from extractor.geometry.network import Strokes
from extractor.geometry.noding import boxes
from extractor.sheet import Flags, Floats, Ints, Segments

ACROSS = 100
"""More lines than this cross no edge of a part but its axis; a land of 100 mm on graph paper is crossed by as many."""

MOST_COUNTED = 4 * MOST_PAIRS
"""Most pairs that are looked through for a mesh: a second of work."""


def without_meshes(segments: Segments) -> tuple[Segments, tuple[Finding, ...]]:
    """The segments without meshes, and a caution for each that was left out.

    Looked for only where more strokes may cross than are noded.
    """
    pairs = _meeting(segments)
    if pairs.shape[1] <= MOST_CROSSINGS:
        return segments, ()
    home = components(len(segments), *pairs)
    least = np.full(len(segments), len(segments))
    np.minimum.at(least, home, np.bincount(pairs.ravel(), minlength=len(segments)))
    mesh = least[home] > ACROSS
    if not mesh.any() or mesh.all():
        return segments, ()
    kept = Segments(segments.ends[~mesh], segments.bulge[~mesh], segments.source[~mesh], segments.sources)
    return kept, tuple(_told(segments.ends[mesh & (home == k)]) for k in np.unique(home[mesh]).tolist())


def _meeting(segments: Segments) -> Ints:
    """Pairs int (2, m) of segments that meet, or arcs whose boxes do; none where few may meet, or too many to count."""
    e, found = segments.ends, [np.zeros((2, 0), dtype=np.int64)]
    low, high = boxes(Strokes(e, segments.bulge, segments.source), 0.0)
    if most_overlaps(low, high) <= MOST_CROSSINGS:
        return found[0]
    with contextlib.suppress(TooDenseError):
        for one, two in overlapping(low, high, MOST_COUNTED):
            curved = (segments.bulge[one] != 0) | (segments.bulge[two] != 0)
            meet = curved | (_parted(e[one], e[two]) & _parted(e[two], e[one]))
            found.append(np.vstack([one[meet], two[meet]]))
        return np.hstack(found)
    return found[0]


def _parted(line: Floats, other: Floats) -> Flags:
    """Where the ends of the other stroke do not both lie on one side of the line through a stroke."""
    d = line[:, 2:] - line[:, :2]
    sides = [d[:, 0] * (other[:, k + 1] - line[:, 1]) - d[:, 1] * (other[:, k] - line[:, 0]) for k in (0, 2)]
    parted: Flags = sides[0] * sides[1] <= 0
    return parted


def _told(ends: Floats) -> Finding:
    """What is said of a mesh."""
    x, y = ((ends.reshape(-1, 2).min(axis=0) + ends.reshape(-1, 2).max(axis=0)) / 2).tolist()
    words = (
        f"A mesh of {len(ends):,} lines at {place_words((x, y))}, each across more than {ACROSS} others, was left out."
    )
    return Finding(Level.CAUTION, DrawingCode.LEFT_OUT, words, (x, y))


__all__ = ["ACROSS", "without_meshes"]
