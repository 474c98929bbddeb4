"""What is left of the metal on one side of the part: a height over a line, in whole increments, with no grid of cells.

The profile is a sorted list of straight pieces. A cut replaces the pieces that it lies below; a piece that is cut away
is gone for good, so the work for a whole program grows with its number of moves, not with its square. Where a sloping
piece is split, the height at the split is rounded to the nearest increment; all else is exact.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from postproc.insert import Piece

Ints = npt.NDArray[np.int64]

FAR = 1 << 40
"""Beyond any place on a machine, in increments; -FAR is the height of no metal at all."""

UNCUT = 0
"""Line of a piece that no program line has cut."""


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
        """The part of the profile between two places, pieces at the ends clipped."""
        u0, u1 = max(u0, int(self.u[0])), min(u1, int(self.u[-1]))
        first = int(np.searchsorted(self.u, u0, side="right")) - 1
        last = int(np.searchsorted(self.u, u1, side="left"))
        u = self.u[first : last + 1].copy()
        start, end = self.start[first:last].copy(), self.end[first:last].copy()
        start[0] = _between(int(u[0]), int(start[0]), int(u[1]), int(end[0]), u0)
        end[-1] = _between(int(u[-2]), int(self.start[last - 1]), int(u[-1]), int(end[-1]), u1)
        u[0], u[-1] = u0, u1
        return CutProfile(u, start, end, self.line[first:last].copy())


class Metal:
    """The metal of one side while it is being cut."""

    def __init__(self, pieces: Iterable[Piece]) -> None:
        """Start from straight pieces that follow one another; there is no metal outside them."""
        self._u: list[int] = [-FAR]
        self._a: list[int] = []
        self._b: list[int] = []
        self._line: list[int] = []
        for u0, h0, u1, h1 in pieces:
            if u0 != self._u[-1]:
                self._append(u0, -FAR, -FAR)
            self._append(u1, h0, h1)
        self._append(FAR, -FAR, -FAR)
        self.top = max(*self._a, *self._b)

    def copy(self) -> "Metal":
        """The metal as it stands, to be cut apart from this one."""
        twin = Metal(())
        twin._u, twin._a, twin._b, twin._line = self._u[:], self._a[:], self._b[:], self._line[:]
        twin.top = self.top
        return twin

    def _append(self, u: int, start: int, end: int) -> None:
        """One more piece, up to u."""
        if u <= self._u[-1]:
            raise ValueError("pieces of metal must follow one another")
        self._u.append(u)
        self._a.append(start)
        self._b.append(end)
        self._line.append(UNCUT)

    def highest(self, u0: int, u1: int) -> int:
        """Greatest height strictly between two places."""
        return self.above((u0, -FAR, u1, -FAR)) - FAR

    def above(self, piece: Piece) -> int:
        """How far metal stands above a straight piece at most; negative where it lies below it everywhere."""
        u0, h0, u1, h1 = piece
        i, j = bisect_right(self._u, u0) - 1, bisect_left(self._u, u1)
        if h0 == h1 and self._a[i] == self._b[i] and self._a[j - 1] == self._b[j - 1]:
            return max(max(self._a[i:j]), max(self._b[i:j])) - h0
        best = -FAR * 2
        for k in range(i, j):
            a, b = max(self._u[k], u0), min(self._u[k + 1], u1)
            best = max(best, self._height(k, a) - _between(*piece, a), self._height(k, b) - _between(*piece, b))
        return best

    def cut(self, piece: Piece, line: int) -> bool:
        """Take away all metal above a straight piece; True if there was any."""
        u0, h0, u1, h1 = piece
        i, j = bisect_right(self._u, u0) - 1, bisect_left(self._u, u1)
        if max(max(self._a[i:j]), max(self._b[i:j])) <= min(h0, h1):
            return False
        left: list[tuple[int, int, int, int, int]] = []
        changed = False
        for k in range(i, j):
            a, b = max(self._u[k], u0), min(self._u[k + 1], u1)
            old = (a, self._height(k, a), b, self._height(k, b))
            new = (a, _between(*piece, a), b, _between(*piece, b))
            changed = changed or old[1] > new[1] or old[3] > new[3]
            left.extend(_lower(old, self._line[k], new, line))
        if changed:
            self._replace(i, j, u0, u1, left)
        return changed

    def _replace(self, i: int, j: int, u0: int, u1: int, inner: list[tuple[int, int, int, int, int]]) -> None:
        """Put new pieces in the place of those from i to j, keeping what sticks out on both sides."""
        pieces = []
        if self._u[i] < u0:
            pieces.append((self._u[i], self._a[i], u0, self._height(i, u0), self._line[i]))
        pieces.extend(inner)
        if u1 < self._u[j]:
            pieces.append((u1, self._height(j - 1, u1), self._u[j], self._b[j - 1], self._line[j - 1]))
        pieces = _joined(pieces)
        self._u[i + 1 : j] = [piece[2] for piece in pieces[:-1]]
        self._a[i:j] = [piece[1] for piece in pieces]
        self._b[i:j] = [piece[3] for piece in pieces]
        self._line[i:j] = [piece[4] for piece in pieces]

    def _height(self, k: int, u: int) -> int:
        """Height of piece k at u."""
        a, b = self._a[k], self._b[k]
        return a if a == b else _between(self._u[k], a, self._u[k + 1], b, u)

    def profile(self) -> CutProfile:
        """The profile as it stands, from -FAR to FAR."""
        arrays = (np.array(values, dtype=np.int64) for values in (self._u, self._a, self._b, self._line))
        return CutProfile(*arrays)


def _between(u0: int, h0: int, u1: int, h1: int, u: int) -> int:
    """Height at u of a straight piece, to the nearest increment."""
    if h0 == h1 or u == u0:
        return h0
    if u == u1:
        return h1
    return h0 + round((h1 - h0) * (u - u0) / (u1 - u0))


def _lower(old: Piece, owner: int, new: Piece, line: int) -> list[tuple[int, int, int, int, int]]:
    """The lower of two pieces over the same stretch, split where they cross."""
    a, b = old[0], old[2]
    start, end = old[1] - new[1], old[3] - new[3]
    if start <= 0 and end <= 0:
        return [(*old, owner)]
    if start >= 0 and end >= 0:
        return [(*new, line)]
    cross = a + round((b - a) * start / (start - end))
    first, second = ((new, line), (old, owner)) if start > 0 else ((old, owner), (new, line))
    height = _between(*new, cross)
    parts = [(a, first[0][1], cross, height, first[1]), (cross, height, b, second[0][3], second[1])]
    return [part for part in parts if part[2] > part[0]]


def _joined(pieces: list[tuple[int, int, int, int, int]]) -> list[tuple[int, int, int, int, int]]:
    """Level neighbours of one height and one line made one."""
    out = [pieces[0]]
    for piece in pieces[1:]:
        last = out[-1]
        if last[4] == piece[4] and last[1] == last[3] == piece[1] == piece[3]:
            out[-1] = (last[0], last[1], piece[2], piece[3], last[4])
        else:
            out.append(piece)
    return out
