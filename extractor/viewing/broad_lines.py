"""Lines and arrows drawn by their outlines: a ring of strokes as wide as a pen, where another program draws one stroke.

So programs write dimensions that turn every line into an area. The ring hangs together with nothing else, and nothing
ends on it: lands between grooves are such rings too, but the floors end on them. At one end a short stroke crosses it
squarely between two long ones, and at the other end such a stroke closes it, or the head of an arrow whose point lies
in the middle. All lines of a sheet that are drawn so have the width of one pen; a key or a thin wall in section is
drawn once or twice.
"""

from collections.abc import Iterator

import numpy as np
import shapely

from extractor.geometry.boxes import diagonal_of
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Ints
from extractor.values import dataclass
from extractor.viewing.alike import SKEW
from extractor.viewing.tips import Tips, tips_of

SLENDER = 4.0
"""A line is longer than so many of its widths: the shortest there is stands behind an arrow head set outside."""

PEN = 0.01
"""A pen is no wider than this share of all that is drawn: 2 mm, the broadest of ISO 128-2 (from memory), on 200."""

BY_ONE_PEN = 3
"""So many rings of one width are lines: one dimension alone has two extension lines and its own."""

MOST_STROKES = 64
"""A ring of more strokes is no arrow: its head has curved sides of a few pieces each at most."""

HEAD = 2.0
"""A head is at most so many times as wide as it is long (ISO 129-1, from memory, opens it by 15 to 90 degrees)."""


@dataclass(frozen=True)
class Ring:
    """The strokes of a line drawn by its outline, by number, and the length of the one that crosses its end."""

    strokes: frozenset[int]
    width: float


def broad_lines(strokes: Strokes, near: float) -> frozenset[int]:
    """Labels of the strokes of all lines and arrows drawn by their outlines; `near` is the noding distance."""
    if not len(strokes):
        return frozenset()
    tips = tips_of(strokes, near)
    rings = sorted(_untouched(tips, {ring.strokes: ring for ring in _rings(tips)}), key=lambda ring: ring.width)
    widths = np.array([ring.width for ring in rings])
    alike = np.searchsorted(widths, widths + 2 * near, "right") - np.searchsorted(widths, widths - 2 * near, "left")
    found = {k for ring, count in zip(rings, alike.tolist(), strict=True) if count >= BY_ONE_PEN for k in ring.strokes}
    return frozenset(strokes.label[sorted(found)].tolist())


def _rings(tips: Tips) -> Iterator[Ring]:
    """The rings that begin with a short stroke squarely between two long ones of one length."""
    onward = _onward(tips)
    at, near = tips.at, 2 * tips.near
    caps = np.flatnonzero((tips.strokes.bulge == 0) & (onward.reshape(-1, 2) >= 0).all(axis=1))
    one, two = onward[2 * caps], onward[2 * caps + 1]
    across, side, other = at[2 * caps + 1] - at[2 * caps], at[one ^ 1] - at[one], at[two ^ 1] - at[two]
    width, length = np.hypot(*across.T), np.hypot(*side.T)
    fit = (tips.strokes.bulge[one // 2] == 0) & (tips.strokes.bulge[two // 2] == 0)
    fit &= np.hypot(*(side - other).T) <= near
    fit &= width <= PEN * diagonal_of(at)
    fit &= (length >= SLENDER * width) & (np.abs((across * side).sum(axis=1)) <= SKEW * width * length)
    for k in np.flatnonzero(fit).tolist():
        rest = _walk(onward, int(one[k]) ^ 1, int(two[k]) ^ 1)
        if rest and _closes(tips, rest, (at[one[k]] + at[two[k]]) / 2, side[k] / length[k]):
            ring = {int(caps[k]), int(one[k]) // 2, int(two[k]) // 2, *(t // 2 for t in rest)}
            yield Ring(frozenset(ring), float(width[k]))


def _untouched(tips: Tips, rings: dict[frozenset[int], Ring]) -> list[Ring]:
    """The rings that no other stroke ends on; an arrow that points at a line ends in its middle, within its outline."""
    left = list[Ring]()
    for strokes, ring in rings.items():
        lines = shapely.multilinestrings(tips.tree.geometries[sorted(strokes)])
        others = set(tips.tree.query(lines, "dwithin", 2 * tips.near).tolist()) - strokes
        ends = [t for k in sorted(others) for t in (2 * k, 2 * k + 1)]
        if not ends or shapely.distance(lines, shapely.points(tips.at[ends])).min() > 2 * tips.near:
            left.append(ring)
    return left


def _onward(tips: Tips) -> Ints:
    """A tip of another stroke at the place of each tip, int (2n,), -1 for none; where two are, one ends on the ring."""
    found = np.full(len(tips.at), -1)
    found[tips.pairs[0]] = tips.pairs[1]
    return found


def _walk(onward: Ints, start: int, goal: int) -> list[int]:
    """The tips by which the strokes are entered that lead from a tip to another; none where none do."""
    passed, tip = list[int](), start
    for _ in range(MOST_STROKES):
        tip = int(onward[tip])
        if tip < 0:
            return []
        if tip == goal:
            return passed
        passed.append(tip)
        tip ^= 1
    return []


def _closes(tips: Tips, rest: list[int], foot: Floats, along: Floats) -> bool:
    """True if the rest of a ring is one stroke straight across, or a head whose point lies in the line's middle."""
    if len(rest) == 1:
        return tips.straight(rest[0])
    places = np.concatenate((tips.at[rest], tips.at[[t ^ 1 for t in rest]])) - foot
    run, off = places @ along, np.abs(places @ (-along[1], along[0]))
    end = off[run >= run.max() - 2 * tips.near].max() <= 2 * tips.near
    return bool(end and 2 * off.max() <= HEAD * np.ptp(run))
