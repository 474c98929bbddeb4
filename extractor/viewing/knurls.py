"""Knurls drawn line by line: surface texture on a land (ISO 13444 and DIN 82, from memory), which bounds nothing.

Rules: a straight knurl is a row of lines along the axis of one stretch, evenly spaced on the sheet or round the part,
that meet nothing end to end, as the walls of grooves in a face do. A diamond knurl is two rows of slanting lines that
cross one another, each line several of the others. Lines right across a land are one, or its ends, only where the sheet
says so: the edges of another outline under the one read look like them. Without these lines the rest must enclose the
same.
"""

import math
import re
from collections.abc import Iterable, Sequence

import numpy as np
import numpy.typing as npt
import shapely

from extractor.geometry.joining import components
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Ints, Text
from extractor.values import dataclass
from extractor.viewing.axis import union
from extractor.viewing.hatching import OFF_STEP, SLANT
from extractor.viewing.tips import Tips

WORD = re.compile(
    r"knurl|r(?:ä|ae?)ndel|kordel|molet|zigrin|godron|\bDIN\s*82\b|\bISO\s*13444\b"
    r"|\bR(?:AA|BL|BR|GE|GV|KE|KV)\s*[0-2][.,]\d",
    re.IGNORECASE,
)
"""How a knurl is called (English, German, French, Italian, Spanish; common practice, no source), and its letters with
the pitch (DIN 82, from memory)."""

LEAST = 5
"""So many lines on one side of the axis are a row: two rings in a face have four walls."""

LONG = 3.0
"""A straight knurl is longer than so many of its spacings: a groove in a face is as deep as two of its widths at most,
as a rule (common practice, no source)."""

ONE_SLANT = math.radians(0.3)
"""And all alike, within this."""

CROSSED = 3
"""Each of them crosses so many of the others at least: the diagonals that mark a flat are two."""

MOST = 1000
"""More slanting lines than this are chords of curves; no knurl is looked for."""


@dataclass(frozen=True)
class Knurls:
    """The strokes of knurls, by label, and the stretches along z that they take up (low, high)."""

    labels: frozenset[int] = frozenset()
    stretches: tuple[tuple[float, float], ...] = ()

    def ends_at(self, z: float, near: float) -> bool:
        """True if a knurl ends at a place along z and none goes on behind it."""
        before = any(low + near < z <= high + near for low, high in self.stretches)
        after = any(low - near <= z < high - near for low, high in self.stretches)
        return before != after


NO_KNURL = Knurls()


def says_knurl(texts: Iterable[Text]) -> bool:
    """True if a sheet's notes name a knurl."""
    return any(WORD.search(text.text) for text in texts)


def knurls(laid: Strokes, hatching: Sequence[shapely.Geometry], near: float, *, said: bool) -> Knurls:
    """The knurls of a view laid along z; `hatching`: the hatch lines of the sheet; `said`: a note names a knurl."""
    straight = laid.pick((laid.bulge == 0) & (laid.label >= 0))
    lines = _Lines.of(straight, laid, near)
    rows = _rows(lines, said=said)
    loose = _within(hatching, laid, near)
    crossed, stretches = _crossed(straight.ends, loose)
    stretches += _leaning(loose, near) if said else []
    stretches += _bounded(lines) if said and not (rows or stretches) else []
    spans = [_stretch(straight.ends[row]) for row in rows]
    labels = straight.label[np.concatenate([crossed, *rows])].tolist()
    return Knurls(frozenset(labels), (*spans, *(s for s in stretches if len(crossed) or lines.bounded(*s))))


def _stretch(ends: Floats) -> tuple[float, float]:
    """Where along z lines, float (n, 4), begin and end."""
    return float(ends[:, ::2].min()), float(ends[:, ::2].max())


def _within(hatching: Sequence[shapely.Geometry], laid: Strokes, near: float) -> Floats:
    """The hatch lines that lie in a view, float (n, 4)."""
    lines = np.array([np.ravel(g.coords) for g in hatching if g.geom_type == "LineString"]).reshape(-1, 4)
    (low, high), reach = _stretch(laid.ends), float(np.abs(laid.ends[:, 1::2]).max()) + near
    within = (lines[:, ::2] > low) & (lines[:, ::2] < high) & (np.abs(lines[:, 1::2]) <= reach)
    found: Floats = lines[within.all(axis=1)]
    return found


@dataclass(frozen=True)
class _Lines:
    """Straight strokes of a view.

    `z` float (n, 2): their stretches along the axis; `r` float (n, 2): how far from it both ends lie, the inner one
    first; `side` int (n,): of the axis, 0 for one that crosses it; `free` bool (n, 2): which of the ends, the inner one
    first, meet no other stroke's end; `near`: the noding distance.
    """

    z: Floats
    r: Floats
    side: Ints
    free: npt.NDArray[np.bool_]
    near: float

    @staticmethod
    def of(straight: Strokes, every: Strokes, near: float) -> "_Lines":
        """The lines among all strokes of a view."""
        tips = Tips(every, near)
        one, two = tips.pairs
        double = np.hypot(*(tips.at[one ^ 1] - tips.at[two ^ 1]).T) <= 2 * near
        met = np.zeros(2 * len(every), dtype=bool)
        met[one[~double]] = True
        met = met.reshape(-1, 2)[(every.bulge == 0) & (every.label >= 0)]
        heights = straight.ends[:, 1::2]
        side = np.where((heights > near).all(axis=1), 1, np.where((heights < -near).all(axis=1), -1, 0))
        order = np.argsort(np.abs(heights), axis=1)
        r = np.take_along_axis(np.abs(heights), order, axis=1)
        return _Lines(np.sort(straight.ends[:, ::2], axis=1), r, side, ~np.take_along_axis(met, order, axis=1), near)

    def bounded(self, low: float, high: float) -> bool:
        """True if a line right across, which is no edge at a corner, stands at an end of a stretch."""
        alone = self.free.all(axis=1) & (self.side == 0) & self.upright
        return bool((np.abs(self.z[alone, :1] - (low, high)) <= self.near).any())

    @property
    def level(self) -> npt.NDArray[np.bool_]:
        """Which run along the axis."""
        return np.asarray((np.ptp(self.r, axis=1) <= self.near) & (self.side != 0))

    @property
    def upright(self) -> npt.NDArray[np.bool_]:
        """Which stand square to it."""
        return np.asarray(np.ptp(self.z, axis=1) <= self.near)


def _rows(lines: _Lines, *, said: bool) -> list[Ints]:
    """Strokes along the axis, or right across a land, that make up knurls."""
    found: list[Ints] = []
    alone = lines.free.all(axis=1)
    for side in (1, -1):
        mine = np.flatnonzero(lines.level & alone & (lines.side == side))
        found += [_with_border(lines, row) for row in _alike(mine, lines.z[mine], lines.near) if _straight(lines, row)]
    if said:
        mine = np.flatnonzero(lines.upright & alone & (lines.side == 0) & (np.ptp(lines.r, axis=1) <= lines.near))
        rows = _alike(mine, lines.r[mine], lines.near)
        found += [_with_led(lines, row) for row in rows if _stepped(np.sort(lines.z[row, 0]), lines.near)]
    return found


def _bounded(lines: _Lines) -> list[tuple[float, float]]:
    """The stretch between two lines right across one land, where no other such line says what they are."""
    alone = lines.free.all(axis=1) & lines.upright & (lines.side == 0) & (np.ptp(lines.r, axis=1) <= lines.near)
    places = np.sort(lines.z[alone, 0])
    places = places[np.diff(places, prepend=-math.inf) > 2 * lines.near]
    if len(places) != 2:
        return []
    low, high = places.tolist()
    over = lines.level & (lines.z[:, 0] <= low + lines.near) & (lines.z[:, 1] >= high - lines.near)
    feet = lines.r[alone, 1]
    land = np.abs(lines.r[over, 1, None] - feet).max(axis=1, initial=0.0) <= 2 * lines.near
    return [(low, high)] if land.any() else []


def _with_led(lines: _Lines, row: Ints) -> Ints:
    """A row of lines right across with those between that a leader's tip touches."""
    places = np.sort(lines.z[row, 0])
    alike = lines.upright & (lines.side == 0) & (np.abs(lines.r - lines.r[row[0]]) <= lines.near).all(axis=1)
    steps = (lines.z[:, 0] - places[0]) / np.median(np.diff(places))
    between = (lines.z[:, 0] > places[0]) & (lines.z[:, 0] < places[-1]) & (np.abs(steps - np.round(steps)) <= OFF_STEP)
    return np.union1d(row, np.flatnonzero(alike & between))


def _stepped(places: Floats, near: float) -> bool:
    """True if lines right across stand in even steps, but for those that bound them at either end."""
    return _even(places, near) or _even(places[1:], near) or _even(places[:-1], near)


def _straight(lines: _Lines, row: Ints) -> bool:
    """True if lines along the axis of one stretch make up a straight knurl."""
    (low, high), heights = lines.z[row[0]], np.sort(lines.r[row, 0])
    over = lines.level & (lines.z[:, 0] <= low + lines.near) & (lines.z[:, 1] >= high - lines.near)
    land = float(lines.r[over].max())
    round_it = land * np.arcsin(np.minimum(heights / land, 1.0))
    long = high - low > LONG * float(np.median(np.diff(heights)))
    return bool(long and (_even(heights, lines.near) or _even(round_it, lines.near)))


def _with_border(lines: _Lines, row: Ints) -> Ints:
    """A straight knurl with the lines that bound it below the land, where it is drawn on a part of it."""
    side = lines.side == lines.side[row[0]]
    at_end = (np.abs(lines.z[:, :1] - lines.z[row[0]]) <= lines.near).any(axis=1)
    walls = side & lines.upright & at_end & lines.free[:, 1]
    alike = (np.abs(lines.z - lines.z[row[0]]) <= lines.near).all(axis=1)
    feet = lines.r[walls, 0]
    floor = side & lines.level & alike & (np.abs(lines.r[:, :1] - feet) <= lines.near).any(axis=1)
    return np.unique(np.concatenate([row, np.flatnonzero(walls | floor)]))


def _alike(mine: Ints, places: Floats, near: float) -> list[Ints]:
    """Rows of lines with the same two figures, float (n, 2), of those rows that are long enough for a knurl."""
    rows = [np.arange(len(mine))]
    for k in (0, 1):
        rows = [part for row in rows for part in _parted(row[np.argsort(places[row, k])], places[:, k], near)]
    return [mine[row] for row in rows if len(row) >= LEAST]


def _parted(row: Ints, places: Floats, near: float) -> list[Ints]:
    """A row in rising order cut where two figures lie apart."""
    return list(np.split(row, np.flatnonzero(np.diff(places[row]) > 2 * near) + 1))


def _even(places: Floats, near: float) -> bool:
    """True if places in rising order stand in even steps, or whole ones: a line may be missing."""
    gaps = np.diff(places)
    gaps = gaps[gaps > 2 * near]
    steps = gaps / np.median(gaps) if len(gaps) >= LEAST - 1 else np.zeros(1)
    return bool((np.abs(steps - np.maximum(np.round(steps), 1.0)) <= OFF_STEP).all())


def _leaning(loose: Floats, near: float) -> list[tuple[float, float]]:
    """Where along z hatch lines, float (n, 4), stand that no section has: right across, or mirrored about the axis."""
    over = np.abs(loose[:, 1] + loose[:, 3]) < np.abs(loose[:, 1] - loose[:, 3])
    points = shapely.points(loose.reshape(-1, 2)).reshape(-1, 2)
    images = shapely.points((loose * (1, -1, 1, -1)).reshape(-1, 2)).reshape(-1, 2)
    for way in (slice(None), slice(None, None, -1)):
        ends = points[:, way]
        one, two = shapely.STRtree(ends[:, 0]).query(images[:, 0], predicate="dwithin", distance=2 * near)
        over[one[shapely.dwithin(images[one, 1], ends[two, 1], 2 * near)]] = True
    rows = np.sort(loose[over][:, ::2], axis=1)
    spans = union((low, high) for low, high in rows.tolist())
    return [(low, high) for low, high in spans if ((low <= rows[:, 0]) & (rows[:, 0] <= high)).sum() >= LEAST]


def _crossed(ends: Floats, loose: Floats) -> tuple[Ints, list[tuple[float, float]]]:
    """Which strokes, float (n, 4), cross others that lean the other way as far, and where such lines stand along z.

    `loose` float (m, 4) are hatch lines, which are set aside already.
    """
    every = np.vstack([ends, loose])
    d = every[:, 2:] - every[:, :2]
    lean = np.mod(np.arctan2(d[:, 1], d[:, 0]) + math.pi / 2, math.pi) - math.pi / 2
    slanted = (np.abs(lean) > SLANT) & (np.abs(lean) < math.pi / 2 - SLANT)
    some = np.flatnonzero(slanted)
    if not 2 * LEAST <= len(some) <= MOST:
        return np.zeros(0, dtype=np.int64), []
    lines = shapely.linestrings(every[some].reshape(-1, 2, 2))
    one, two = shapely.STRtree(lines).query(lines, predicate="crosses")
    mirrored = np.abs(lean[some[one]] + lean[some[two]]) <= ONE_SLANT
    one, two = one[mirrored], two[mirrored]
    often = np.bincount(one, minlength=len(some)) >= CROSSED
    keep = often[one] & often[two]
    home = components(len(some), one[keep], two[keep])
    fields = [some[home == k] for k in np.unique(home[one[keep]])]
    fields = [f for f in fields if min((lean[f] > 0).sum(), (lean[f] < 0).sum()) >= LEAST]
    own = np.concatenate([np.zeros(0, dtype=np.int64), *fields])
    # A line at the rim of the field crosses few of the others, and leans less where it was cut off by hand.
    leaning = np.flatnonzero((np.abs(lean) > ONE_SLANT) & (np.abs(lean) < math.pi / 2 - ONE_SLANT))
    field, rims = (shapely.linestrings(every[rows].reshape(-1, 2, 2)) for rows in (own, leaning))
    found = np.union1d(own, leaning[shapely.STRtree(field).query(rims, predicate="crosses")[0]])
    return found[found < len(ends)], [_stretch(every[f]) for f in fields]
