"""Finds a shape among strokes that draw it a known number of times as large, by where its outline runs and which way.

Places and directions are complex numbers, z + i radius. An outline is taken as spots: the middle of each straight
edge, and three corners of the chords that stand for an arc. A spot is found where a stroke runs through it the same
way; where two spots are laid on strokes, every other must be found as well, and strokes near every corner.
"""

import math
from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from extractor.geometry.arcs import chords
from extractor.part import Groove
from extractor.sheet import Flags, Floats
from extractor.sizing.measured.features import SQUARE

Places = npt.NDArray[np.complex128]

SHORT = 0.05
"""Share of the reach that an edge is long at least: shorter strokes are corners and arrow heads."""

ROUND = 0.25
"""Share of the reach that an arc or slanting edge is long at least: a detail may show a smaller one as a corner."""

EASED = 0.25
"""Share of the reach within which strokes come to each sharp corner: a detail may show it rounded or broken."""

SMOOTH = math.pi / 23
"""Turn from one chord of an arc to the next, at most: they turn by a twenty-fourth of half a circle."""

EVEN = 1e-6
"""Share by which the chords of one arc may differ in length: by rounding alone."""

QUARTER = math.tan(math.pi / 8)
"""Bulge of a quarter of a circle (DXF reference)."""

FIRM = 0.05
"""Least singular value of how the spots' distances hang on place and scale: fewer lines fit in more ways than one."""


class EdgeSpot(NamedTuple):
    """A place of an outline with the direction that it runs in there; `size` of its edge, 0.0 on an arc."""

    at: complex
    along: complex
    size: float


class DetailStrokes(NamedTuple):
    """Lines and arcs: where each begins and ends, complex (n,), and its bulge, float (n,)."""

    start: Places
    end: Places
    bulge: Floats

    def turned(self, turn: complex) -> "DetailStrokes":
        """The same turned about the origin."""
        return DetailStrokes(self.start * turn, self.end * turn, self.bulge)

    def mirrored(self) -> "DetailStrokes":
        """The same mirrored about the axis."""
        return DetailStrokes(self.start.conj(), self.end.conj(), -self.bulge)

    def square(self, near: float) -> "DetailStrokes":
        """The same with its lines drawn on to the corners that quarters of a circle round off."""
        places: Places = np.stack([self.start, self.end])
        for k in np.flatnonzero(np.abs(np.abs(self.bulge) - QUARTER) <= QUARTER * SQUARE):
            chord, side = self.end[k] - self.start[k], np.sign(self.bulge[k])
            corner = self.start[k] + chord * (1 - 1j * side) / 2
            off = np.abs(places[..., None] - [self.start[k], self.end[k]]).min(axis=2)
            places[(off <= near) & (self.bulge == 0)] = corner
        return DetailStrokes(places[0], places[1], self.bulge)

    def ink(self) -> shapely.MultiLineString:
        """All of them, arcs in chords."""
        ends = np.stack([self.start, self.end], axis=1).view(float).reshape(-1, 2, 2).tolist()
        rows = zip(ends, self.bulge.tolist(), strict=True)
        return shapely.MultiLineString([chords((a[0], a[1]), (b[0], b[1]), bulge) for (a, b), bulge in rows])

    def running(self, along: complex, lean: float, least: float) -> tuple[Places, Places, Floats]:
        """Where strokes run in a direction: a place, the stroke's own direction, and how far it goes on either way."""
        run, line = self.end - self.start, self.bulge == 0
        size = np.maximum(np.abs(run), np.finfo(float).tiny)
        same = line & (size >= least) & (np.abs((run / size / along).imag) <= lean)
        chord, bulge = run[~line], self.bulge[~line]
        middle = (self.start + self.end)[~line] / 2 + 1j * chord * (1 - bulge**2) / (4 * bulge)
        sides = np.outer((1j, -1j), np.abs(chord) * (1 + bulge**2) / (4 * np.abs(bulge))) * along
        on_arc = ((middle + sides - self.start[~line]) / chord).imag * bulge <= 0
        touched = (middle + sides)[on_arc]
        at = np.concatenate([(self.start + self.end)[same] / 2, touched])
        own = np.concatenate([(run / size)[same], np.full(len(touched), along)])
        return at, own, np.concatenate([size[same] / 2, np.zeros(len(touched))])


class Shape:
    """What of some lines, each a row of places, lies within a reach of a middle; `snap`: what is one place there.

    `spots` are where its outline runs, `corners` its sharp corners, `pieces` counts its straight edges and its arcs;
    `held` are corners, middles of edges and places of arcs, which all lie on strokes of one drawn alike to its corners.
    """

    def __init__(self, lines: Sequence[Sequence[complex]], middle: complex, reach: float, snap: float) -> None:
        """Take the spots and corners from the lines."""
        self.middle, self.reach, self.snap = middle, reach, snap
        self.spots: list[EdgeSpot] = []
        self.corners: list[complex] = []
        self.held: list[complex] = []
        self.pieces = 0
        for line in lines:
            self._add(np.array(line))
        self.spots.sort(key=lambda spot: -spot.size)

    def _add(self, places: Places) -> None:
        """Add what of one line lies within reach."""
        places = places[np.append(True, np.diff(places) != 0)]
        run = np.diff(places)
        turn = np.abs(np.angle(run[1:] / run[:-1])) <= SMOOTH
        even = np.abs(np.abs(run[1:] / run[:-1]) - 1) <= EVEN
        on_arc = np.concatenate([[False], turn & even, [False]])
        arc = on_arc[1:] | on_arc[:-1]
        smooth = np.concatenate([[True], turn, [True]])
        near = np.abs(places - self.middle) <= self.reach
        self.corners += places[near & ~smooth].tolist()
        whole = near[1:] & near[:-1] & ~arc
        self.held += [*places[near].tolist(), *(places[:-1] + run / 2)[whole].tolist()]
        for k in np.flatnonzero(~arc):
            self._add_edge(places[k], run[k])
        rows = np.flatnonzero(np.diff(np.concatenate([[False], arc, [False]])))
        for first, last in rows.reshape(-1, 2).tolist():
            held = [k for k in range(first + 1, last) if near[k]]
            if held and abs(run[first]) * len(held) >= ROUND * self.reach:
                self.pieces += 1
                for at in {held[0], held[len(held) // 2], held[-1]}:
                    along = run[at] / abs(run[at]) + run[at - 1] / abs(run[at - 1])
                    self.spots.append(EdgeSpot(places[at], along / abs(along), 0.0))

    def _add_edge(self, start: complex, run: complex) -> None:
        """Add what of a straight edge lies within reach."""
        along = run / abs(run)
        foot = (self.middle - start) / along
        half = math.sqrt(max(0.0, self.reach**2 - foot.imag**2))
        low, high = max(0.0, foot.real - half), min(abs(run), foot.real + half)
        square = min(abs(along.real), abs(along.imag)) <= SQUARE
        if high - low >= (SHORT if square else ROUND) * self.reach:
            self.pieces += 1
            self.spots.append(EdgeSpot(start + along * (low + high) / 2, along, high - low))

    @property
    def firm(self) -> bool:
        """True if the spots tell where the shape lies and how large it is."""
        rows = [(s.along.imag, s.along.real, ((s.at - self.middle) / s.along).imag / self.reach) for s in self.spots]
        return len(rows) > 2 and float(np.linalg.svd(rows, compute_uv=False)[-1]) >= FIRM

    def ways(self, strokes: DetailStrokes, times: float) -> list[complex]:
        """Every way to find the shape among strokes, so many times as large: how far its origin lies off theirs."""
        found = [strokes.running(spot.along, *self._bounds(spot, times)) for spot in self.spots]
        if not self.firm or not all(len(at) for at, _, _ in found):
            return []
        one, two = min(combinations(range(len(found)), 2), key=lambda pair: self._loose(found, *pair))
        (at, along, _), (other, across, _) = found[one], found[two]
        base, away = (at - times * self.spots[one].at)[:, None], other - times * self.spots[two].at
        along = along[:, None]
        slant = (along / across).imag
        slant[slant == 0] = np.inf
        tried = (base + ((away - base) / across).imag / slant * along).ravel()
        for spot, where in zip(self.spots, found, strict=True):
            tried = tried[self._found(spot, where, times, tried)]
        apart = 2 * times * self.snap
        ways = [w for k, w in enumerate(tried.tolist()) if all(abs(w - other) > apart for other in tried[:k])]
        corners: Places = times * np.array(self.corners, dtype=np.complex128)
        ink, far = strokes.ink() if ways else None, EASED * times * self.reach
        return [w for w in ways if (shapely.distance(_points(corners + w), ink) <= far).all()]

    def unlike(self, strokes: DetailStrokes, way: complex, times: float) -> complex | None:
        """The place of the outline within reach from which strokes, found to lie so, stay farthest, if that is far."""
        held: Places = np.array(self.held, dtype=np.complex128)
        off = shapely.distance(_points(times * held + way), strokes.ink()) / times if len(held) else np.zeros(1)
        return complex(held[off.argmax()]) if off.max() > self.snap else None

    def _bounds(self, spot: EdgeSpot, times: float) -> tuple[float, float]:
        """Sine of how far a stroke through a spot may lean, and how long it is at least."""
        if not spot.size:
            return SMOOTH, 0.0
        return max(SQUARE, self.snap / spot.size), SHORT * times * self.reach

    def _loose(self, found: Sequence[tuple[Places, Places, Floats]], one: int, two: int) -> float:
        """How loosely two spots tie the shape where strokes run as they do: by many crossings, or slanting ones."""
        slant = (self.spots[one].along / self.spots[two].along).imag
        return len(found[one][0]) * len(found[two][0]) / slant**2 if slant else math.inf

    def _found(self, spot: EdgeSpot, where: tuple[Places, Places, Floats], times: float, tried: Places) -> Flags:
        """At which of the ways tried a spot is found where strokes run."""
        at, along, half = where
        off = (tried[:, None] + times * spot.at - at) / along
        over = times * (spot.size / 2 - SHORT * self.reach if spot.size else self.snap)
        return np.asarray(((np.abs(off.imag) <= times * self.snap) & (np.abs(off.real) <= half + over)).any(axis=1))


def _points(places: Places) -> npt.NDArray[np.object_]:
    return np.asarray(shapely.points(places.real, places.imag))


def sizes_apart(groove: Groove, side: float, strokes: DetailStrokes, times: float, near: float) -> str:
    """The size in which strokes, so many times as large, show a groove otherwise, told of both; "" where none is plain.

    `side`: of the axis, 1 or -1; `near`: how far apart two places of the view are one.
    """
    outward = groove.side.sign * side * 1j if groove.side.axial else -1.0 if groove.from_back else 1.0
    shown = recesses(strokes.turned(1j / outward), near * times)
    if len(shown) != 1:
        return ""
    sizes = zip(("wide", "deep"), (groove.width, groove.depth), *shown, strict=True)
    return " and ".join(
        f"{at_view:.5g} {name} in the view and {drawn / times:.5g} {name} in the detail"
        for name, at_view, drawn in sizes
        if abs(at_view - drawn / times) > near
    )


def recesses(strokes: DetailStrokes, near: float) -> set[tuple[float, float]]:
    """Width and depth of each recess that opens upward: a level line with an upright one at both its ends.

    One shut by a level line over both is a frame, as round a tolerance or in a table.
    """
    run = strokes.end - strokes.start
    straight, size = strokes.bulge == 0, np.abs(run)
    level = np.flatnonzero(straight & (np.abs(run.imag) <= SQUARE * size) & (size > near))
    upright = np.flatnonzero(straight & (np.abs(run.real) <= SQUARE * size) & (size > near))
    feet: Places = np.where(run.imag > 0, strokes.start, strokes.end)[upright]
    tree, high = shapely.STRtree(shapely.points(feet.real, feet.imag)), np.abs(run[upright].imag)
    sides = np.array([strokes.start[level], strokes.end[level]])
    lids = np.column_stack([sides.real.min(axis=0), sides.real.max(axis=0), sides.imag.mean(axis=0)])
    found = set[tuple[float, float]]()
    for k in level.tolist():
        ends = np.array([strokes.start[k], strokes.end[k]])
        end, foot = tree.query(shapely.points(ends.real, ends.imag), predicate="dwithin", distance=near)
        walls = [high[foot[end == side]] for side in (0, 1)]
        if all(map(len, walls)):
            deep = float(min(walls[0].max(), walls[1].max()))
            low, top = float(ends.real.min()), float(ends.imag.mean()) + deep
            over = (abs(lids[:, 2] - top) <= near) & (lids[:, 0] <= low + near) & (lids[:, 1] >= low + size[k] - near)
            found |= set() if over.any() else {(float(size[k]), deep)}
    return found
