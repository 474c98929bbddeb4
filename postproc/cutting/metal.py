"""What is left of the metal on one side of the part: a height over a line, in whole increments, with no grid of cells.

The profile is a sorted list of straight pieces. A cut replaces the pieces that it lies below; a piece that is cut away
is gone for good, so the work for a whole program grows with its number of moves, not with its square. Where a sloping
piece is split, the height at the split is rounded to the nearest increment; all else is exact.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.sheet import Ints
from extractor.values import dataclass
from postproc.cutting.insert import Piece

FAR = 1 << 40
"""Beyond any place on a machine, in increments; -FAR is the height of no metal at all."""

FARTHEST = 1 << 30
"""Farther than any tool can go, in increments: so long is a bar without an end, so thick one of no given diameter."""

UNCUT = 0
"""Line of a piece that no program line has cut."""

Underside = tuple[tuple[Piece, ...], int, int]
"""What one move sweeps: straight pieces that follow one another, u from a place on; that place; the program line."""


@dataclass(frozen=True, eq=False)
class CutProfile:
    """A profile as arrays, in the frame of its side.

    `u`: int (n + 1,), sorted breakpoints. `start`, `end`: int (n,), heights at the ends of each piece.
    `line`: int (n,), the program line that left the piece, 0 for none.
    """

    u: Ints
    start: Ints
    end: Ints
    line: Ints

    def __post_init__(self) -> None:
        """Refuse breakpoints out of order and arrays that don't belong together."""
        if len(self.u) != len(self.start) + 1 or not len(self.start) == len(self.end) == len(self.line):
            raise ValueError("n pieces have n + 1 breakpoints")
        if not (np.diff(self.u) > 0).all():
            raise ValueError("breakpoints must rise")

    def __len__(self) -> int:
        """Number of pieces."""
        return len(self.start)

    def within(self, u0: int, u1: int) -> "CutProfile":
        """The part of the profile between two places of it, pieces at the ends clipped."""
        first = int(np.searchsorted(self.u, u0, side="right")) - 1
        last = int(np.searchsorted(self.u, u1, side="left"))
        u = self.u[first : last + 1].copy()
        start, end = self.start[first:last].copy(), self.end[first:last].copy()
        start[0] = _between(int(u[0]), int(start[0]), int(u[1]), int(end[0]), u0)
        end[-1] = _between(int(u[-2]), int(self.start[last - 1]), int(u[-1]), int(end[-1]), u1)
        u[0], u[-1] = u0, u1
        return CutProfile(u, start, end, self.line[first:last].copy())


class Cutting(NamedTuple):
    """One straight piece of the metal's surface: its ends, the line that left it, and the whole straight line it is of.

    Heights inside a sloping piece are always worked out on `way`, so that splitting it over and over loses nothing.
    """

    u0: int
    h0: int
    u1: int
    h1: int
    line: int
    way: Piece


class Metal:
    """The metal of one side while it is being cut."""

    def __init__(self, pieces: Iterable[Piece]) -> None:
        """Start from straight pieces that follow one another; there is no metal outside them."""
        way: list[Piece] = []
        reached = -FAR
        for piece in pieces:
            if piece[0] != reached:
                way.append((reached, -FAR, piece[0], -FAR))
            way.append(piece)
            reached = piece[2]
        self._way = [*way, (reached, -FAR, FAR, -FAR)]
        self._u = [-FAR, *[piece[2] for piece in self._way]]
        if any(end <= start for start, end in pairwise(self._u)):
            raise ValueError("pieces of metal must follow one another")
        self._a, self._b = [piece[1] for piece in self._way], [piece[3] for piece in self._way]
        self._line = [UNCUT] * len(self._way)
        self.top = max(*self._a, *self._b)

    def copy(self) -> "Metal":
        """A copy of the metal as it stands, to be cut on its own."""
        return self._part(0, len(self._a))

    def _part(self, i: int, j: int) -> "Metal":
        """The pieces from i to j as metal of their own."""
        twin = object.__new__(Metal)
        twin._u, twin._a, twin._b = self._u[i : j + 1], self._a[i:j], self._b[i:j]
        twin._line, twin._way, twin.top = self._line[i:j], self._way[i:j], self.top
        return twin

    def cut_all(self, cuts: Sequence[Underside]) -> None:
        """Remove all metal above many undersides, in their order.

        Cuts that share no stretch of the metal know nothing of one another: each stretch is cut by itself, so that a
        row of thousands of grooves is not moved along by every cut; and level metal that is cut in the same way
        somewhere else is cut once.
        """
        whole, known = self._part(0, 0), dict[object, Metal]()
        for low, high, held in self._places(cuts):
            whole._extend(self._stretch(whole._u[-1], low), self._inside(whole._u[-1]))
            some, here = self._stretch(low, high), [cuts[k] for k in sorted(held)]
            whole._extend(some._cut_as_before(here, known), self._inside(low))
        whole._extend(self._stretch(whole._u[-1], FAR), self._inside(whole._u[-1]))
        self._u, self._a, self._b, self._line, self._way = whole._u, whole._a, whole._b, whole._line, whole._way

    def _places(self, cuts: Sequence[Underside]) -> list[tuple[int, int, list[int]]]:
        """Stretches of the metal that share no cut and no sloping piece, each with its cuts."""
        spans = [self._whole_slopes(at + shape[0][0], at + shape[-1][2]) for shape, at, _ in cuts]
        places: list[tuple[int, int, list[int]]] = []
        for k in sorted(range(len(cuts)), key=spans.__getitem__):
            low, high = spans[k]
            if places and low <= places[-1][1]:
                first, last, held = places[-1]
                held.append(k)
                places[-1] = first, max(last, high), held
            else:
                places.append((low, high, [k]))
        return places

    def _whole_slopes(self, low: int, high: int) -> tuple[int, int]:
        """A stretch with the whole of the sloping pieces at its ends, which may not be split."""
        i, j = bisect_right(self._u, low) - 1, bisect_left(self._u, high)
        return (
            low if self._a[i] == self._b[i] else self._u[i],
            high if self._a[j - 1] == self._b[j - 1] else self._u[j],
        )

    def _stretch(self, low: int, high: int) -> "Metal":
        """The metal between two places, with level pieces at its ends clipped."""
        i, j = bisect_right(self._u, low) - 1, bisect_left(self._u, high)
        some = self._part(i, j)
        some._u = [low, *some._u[1:-1], high]
        return some

    def _inside(self, place: int) -> bool:
        """True for a place within a piece."""
        return self._u[bisect_left(self._u, place)] != place

    def _cut_as_before(self, cuts: Sequence[Underside], known: dict[object, "Metal"]) -> "Metal":
        """The stretch with its cuts made, as they were made elsewhere where all of it is level and the same."""
        start = self._u[0]
        kind = (
            tuple([u - start for u in self._u]),
            # Of a slope the heights inside hang on the whole line that it is of.
            tuple(self._a) if self._a == self._b else start,
            tuple(self._line),
            tuple([(shape, at - start, line) for shape, at, line in cuts]),
        )
        if kind in known:
            return known[kind]._moved(start - known[kind]._u[0])
        for shape, at, line in cuts:
            for u0, h0, u1, h1 in shape:
                self.cut((at + u0, h0, at + u1, h1), line)
        known[kind] = self
        return self

    def _moved(self, by: int) -> "Metal":
        """The same metal somewhere else."""
        twin = self._part(0, len(self._a))
        twin._u = [u + by for u in self._u]
        twin._way = [(u0 + by, h0, u1 + by, h1) for u0, h0, u1, h1 in self._way]
        return twin

    def _extend(self, other: "Metal", inside: bool) -> None:
        """Put other metal behind this, which ends where that begins, `inside` a piece or between two of them.

        What is level and of one line goes on as one piece; a cut may have left as much of it under a line of its own.
        """
        level = inside and bool(other._a) and self._a[-1] == self._b[-1] == other._a[0] == other._b[0]
        first = int(level and self._line[-1] == other._line[0])
        self._u[len(self._u) - first :] = other._u[1:]
        self._a += other._a[first:]
        self._b += other._b[first:]
        self._line += other._line[first:]
        self._way += other._way[first:]

    def highest(self, u0: int, u1: int) -> int:
        """Greatest height strictly between two places."""
        return self.above((u0, -FAR, u1, -FAR)) - FAR

    def above(self, piece: Piece) -> int:
        """How far metal stands above a straight piece at most; negative where it lies below it everywhere."""
        u0, h0, u1, h1 = piece
        i, j = bisect_right(self._u, u0) - 1, bisect_left(self._u, u1)
        if h0 == h1 and self._a[i:j] == self._b[i:j]:
            return max(self._a[i:j]) - h0
        ends = [(k, u) for k in range(i, j) for u in (max(self._u[k], u0), min(self._u[k + 1], u1))]
        return max(self._height(k, u) - _between(*piece, u) for k, u in ends)

    def level(self, u0: int, u1: int) -> int | None:
        """Greatest height between two places where all that stands there is level, else None."""
        i, j = bisect_right(self._u, u0) - 1, bisect_left(self._u, u1)
        return max(self._a[i:j]) if self._a[i:j] == self._b[i:j] else None

    def thickness(self, piece: Piece, more: int) -> int:
        """How much of a straight piece, along u, has metal standing more than `more` above it."""
        u0, _, u1, _ = piece
        i, j = bisect_right(self._u, u0) - 1, bisect_left(self._u, u1)
        total = 0
        for k in range(i, j):
            a, b = max(self._u[k], u0), min(self._u[k + 1], u1)
            middle = (a + b) // 2
            if self._height(k, middle) - _between(*piece, middle) > more:
                total += b - a
        return total

    def cut(self, piece: Piece, line: int) -> bool:
        """Remove all metal above a straight piece; True if there was any."""
        u0, h0, u1, h1 = piece
        i, j = bisect_right(self._u, u0) - 1, bisect_left(self._u, u1)
        starts, ends = self._a[i:j], self._b[i:j]
        low, high = min(h0, h1), max(h0, h1)
        if max(starts) <= low and max(ends) <= low:
            return False
        if low == high and starts == ends:
            self._cut_level(i, j, piece, line)
            return True
        if min(starts) >= high and min(ends) >= high:
            self._replace(i, j, u0, u1, [Cutting(*piece, line, piece)])
            return True
        left: list[Cutting] = []
        changed = False
        for k in range(i, j):
            a, b = max(self._u[k], u0), min(self._u[k + 1], u1)
            old = Cutting(a, self._height(k, a), b, self._height(k, b), self._line[k], self._way[k])
            new = Cutting(a, _between(*piece, a), b, _between(*piece, b), line, piece)
            changed = changed or old.h0 > new.h0 or old.h1 > new.h1
            left.extend(_lower(old, new))
        if changed:
            self._replace(i, j, u0, u1, left)
        return changed

    def _cut_level(self, i: int, j: int, piece: Piece, line: int) -> None:
        """Cut pieces i to j, all of them level, down to a level one; at least one of them stands above it.

        Where none lies below it, it takes the place of all of them.
        """
        u0, h, u1, _ = piece
        first, behind = self._u[i], self._u[j]
        rows = [(first, self._a[i], self._line[i], self._way[i])] if first < u0 else []
        below = min(self._a[i:j]) < h
        for k in range(i, j):
            height, by, way = (
                (h, line, piece) if not below or self._a[k] > h else (self._a[k], self._line[k], self._way[k])
            )
            if not rows or rows[-1][1] != height or rows[-1][2] != by:
                rows.append((self._u[k] if self._u[k] > u0 else u0, height, by, way))
        if u1 < behind and (rows[-1][1] != self._a[j - 1] or rows[-1][2] != self._line[j - 1]):
            rows.append((u1, self._a[j - 1], self._line[j - 1], self._way[j - 1]))
        self._u[i + 1 : j] = [row[0] for row in rows[1:]]
        self._a[i:j] = self._b[i:j] = [row[1] for row in rows]
        self._line[i:j], self._way[i:j] = [row[2] for row in rows], [row[3] for row in rows]

    def _replace(self, i: int, j: int, u0: int, u1: int, inner: list[Cutting]) -> None:
        """Put new pieces in the place of those from i to j, keeping what sticks out on both sides."""
        pieces: list[Cutting] = []
        if self._u[i] < u0:
            way = self._way[i]
            pieces.append(Cutting(self._u[i], self._a[i], u0, self._height(i, u0), self._line[i], way))
        pieces.extend(inner)
        if u1 < self._u[j]:
            last = j - 1
            start = self._height(last, u1)
            pieces.append(Cutting(u1, start, self._u[j], self._b[last], self._line[last], self._way[last]))
        pieces = _joined(pieces)
        self._u[i + 1 : j] = [piece.u1 for piece in pieces[:-1]]
        self._a[i:j] = [piece.h0 for piece in pieces]
        self._b[i:j] = [piece.h1 for piece in pieces]
        self._line[i:j] = [piece.line for piece in pieces]
        self._way[i:j] = [piece.way for piece in pieces]

    def _height(self, k: int, u: int) -> int:
        """Height of piece k at u."""
        a = self._a[k]
        return a if a == self._b[k] else _between(*self._way[k], u)

    def profile(self) -> CutProfile:
        """The profile as it stands, from -FAR to FAR."""
        arrays = (np.array(values, dtype=np.int64) for values in (self._u, self._a, self._b, self._line))
        return CutProfile(*arrays)


def _between(u0: int, h0: int, u1: int, h1: int, u: int) -> int:
    """Height at u of a straight piece, to the nearest increment."""
    if h0 == h1:
        return h0
    return h0 + round((h1 - h0) * (u - u0) / (u1 - u0))


def _lower(old: Cutting, new: Cutting) -> list[Cutting]:
    """The lower of two pieces over the same stretch, split where they cross."""
    start, end = old.h0 - new.h0, old.h1 - new.h1
    if start <= 0 and end <= 0:
        return [old]
    if start >= 0 and end >= 0:
        return [new]
    share, across = (old.u1 - old.u0) * abs(start), abs(start - end)
    low, high = old.u0 + share // across, old.u0 - (-share // across)
    first, second = (new, old) if start > 0 else (old, new)
    down, up = _between(*first.way, low), _between(*second.way, high)
    parts = first._replace(u1=low, h1=down), _bridge(low, down, high, up, new.line), second._replace(u0=high, h0=up)
    return [part for part in parts if part.u1 > part.u0]


def _bridge(u0: int, h0: int, u1: int, h1: int, line: int) -> Cutting:
    """The piece within the count in which two pieces cross, so that heights at all whole counts are those of the lower.

    Steep pieces would otherwise be many counts too high there.
    """
    return Cutting(u0, h0, u1, h1, line, (u0, h0, u1, h1))


def _joined(pieces: list[Cutting]) -> list[Cutting]:
    """Level neighbours of one height and one line made one."""
    out = [pieces[0]]
    for piece in pieces[1:]:
        last = out[-1]
        if last.line == piece.line and last.h0 == last.h1 == piece.h0 == piece.h1:
            out[-1] = last._replace(u1=piece.u1)
        else:
            out.append(piece)
    return out
