"""Two profiles of one side laid over each other on common breakpoints: where is metal missing, how wide, how deep.

All numbers are whole increments in the frame of the side (`postproc.cutting.insert`); heights run straight between
breakpoints.
"""

from bisect import bisect_left, bisect_right
from functools import cached_property

import numpy as np

from extractor.sheet import Ints
from extractor.values import dataclass
from postproc.cutting.metal import UNCUT, CutProfile

Stretch = tuple[int, int]
"""Two places along u, the lower one first."""


@dataclass(frozen=True, eq=False)
class Overlay:
    """Heights of `land` and `cut` at both ends of every stretch between common breakpoints.

    `u`: int (n + 1,); `land` and `cut`: int (2, n), heights at the start and at the end; `line`: int (n,), the program
    line that left the cut.
    """

    u: Ints
    land: Ints
    cut: Ints
    line: Ints

    @staticmethod
    def of(land: CutProfile, cut: CutProfile, u0: int, u1: int) -> "Overlay":
        """Lay a cut profile over the one that it was cut from, between two places."""
        u = np.unique(np.concatenate([[u0, u1], land.u, cut.u]))
        u = u[(u >= u0) & (u <= u1)]
        cut_heights, line = _on(cut, u)
        return Overlay(u, _on(land, u)[0], cut_heights, line)

    def below_land(self, drop: int, window: Stretch | None = None) -> list[Stretch]:
        """The stretches where the cut lies more than `drop` below the land, joined where they touch."""
        part = slice(0, len(self.line)) if window is None else self._in(window)
        start, end = (self.land[:, part] - self.cut[:, part] - drop).tolist()
        return self._stretches(part.start, start, end, window)

    def below(self, level: int, window: Stretch) -> list[Stretch]:
        """The stretches of a window where the cut lies below a level."""
        part = self._in(window)
        start, end = ([level - height for height in row[part]] for row in self._heights)
        return self._stretches(part.start, start, end, window)

    def _stretches(self, first: int, start: list[int], end: list[int], window: Stretch | None) -> list[Stretch]:
        """Where a straight-line excess over the stretches from the `first` on is positive, within a window."""
        out: list[Stretch] = []
        for k, (over_start, over_end) in enumerate(zip(start, end, strict=True), first):
            if over_start <= 0 and over_end <= 0:
                continue
            a, b = self._clip(k, over_start, over_end)
            if window is not None:
                a, b = max(a, window[0]), min(b, window[1])
            if a >= b:
                continue
            if out and out[-1][1] == a:
                out[-1] = (out[-1][0], b)
            else:
                out.append((a, b))
        return out

    def _clip(self, k: int, start: int, end: int) -> Stretch:
        """The part of stretch k where the excess is positive."""
        a, b = self._places[k], self._places[k + 1]
        if start < 0 < end:
            return a + round((b - a) * start / (start - end)), b
        if end < 0 < start:
            return a, a + round((b - a) * start / (start - end))
        return a, b

    def range(self, window: Stretch) -> Stretch:
        """Lowest and highest point of the pieces of the cut that reach into a window."""
        part = self._in(window)
        start, end = self._heights[0][part], self._heights[1][part]
        return min(*start, *end), max(*start, *end)

    def beside(self, places: Ints) -> tuple[Ints, Ints]:
        """Lowest and highest point of the cut within one count of each place: int (n,), (n,)."""
        heights = []
        for start, end in ((places - 1, places), (places, places + 1)):
            # Breakpoints are whole counts, so what lies between two counts is one piece.
            piece = np.clip(np.searchsorted(self.u, start, side="right") - 1, 0, len(self.line) - 1)
            a, b, low = self.u[piece], self.u[piece + 1], self.cut[0][piece]
            for at in (np.clip(start, a, b), np.clip(end, a, b)):
                heights.append(low + np.rint((self.cut[1][piece] - low) * ((at - a) / (b - a))).astype(np.int64))
        return np.min(heights, axis=0), np.max(heights, axis=0)

    def off(self, window: Stretch) -> Stretch:
        """The least and the greatest height of the cut over the land within a window."""
        inside = self._in(window)
        over = self.cut[:, inside] - self.land[:, inside]
        return int(over.min()), int(over.max())

    def sloping(self, window: Stretch, below: int | None = None) -> bool:
        """True if the cut has a sloping piece within a window, one that goes below a height where that is given."""
        start, end = (row[self._in(window)] for row in self._heights)
        slopes = (min(one, two) for one, two in zip(start, end, strict=True) if one != two)
        return any(below is None or lowest < below for lowest in slopes)

    def level(self, window: Stretch) -> int:
        """How much of a window, along u, the cut runs level in."""
        inside = self._in(window)
        u = np.clip(np.stack([self.u[:-1][inside], self.u[1:][inside]]), *window)
        flat = self.cut[0, inside] == self.cut[1, inside]
        return int((u[1] - u[0])[flat].sum())

    def top(self, window: Stretch) -> int:
        """Lowest land within a window."""
        return min(self._tops[self._in(window)])

    def lines(self, window: Stretch) -> tuple[int, ...]:
        """Program lines that left the cut within a window, ascending."""
        return tuple(sorted(set(self._lines[self._in(window)]) - {UNCUT}))

    def _in(self, window: Stretch) -> slice:
        """The stretches that reach into a window."""
        # The last breakpoint begins no stretch, and the first ends none.
        last = len(self.line)
        return slice(max(0, bisect_right(self._places, window[0]) - 1), min(last, bisect_left(self._places, window[1])))

    # As lists: a groove has few stretches, of which an array takes longer to tell.

    @cached_property
    def _places(self) -> list[int]:
        """The breakpoints."""
        return self.u.tolist()  # type: ignore[no-any-return]

    @cached_property
    def _heights(self) -> list[list[int]]:
        """The heights of the cut."""
        return self.cut.tolist()  # type: ignore[no-any-return]

    @cached_property
    def _tops(self) -> list[int]:
        """The lower end of the land of each stretch."""
        return self.land.min(axis=0).tolist()  # type: ignore[no-any-return]

    @cached_property
    def _lines(self) -> list[int]:
        """The lines that left the cut."""
        return self.line.tolist()  # type: ignore[no-any-return]


def _on(profile: CutProfile, u: Ints) -> tuple[Ints, Ints]:
    """Heights of a profile at the ends of the stretches between given breakpoints, and their lines."""
    piece = np.searchsorted(profile.u, u[:-1], side="right") - 1
    a, b = profile.u[piece], profile.u[piece + 1]
    start, rise = profile.start[piece], profile.end[piece] - profile.start[piece]
    heights = [start + np.rint(rise * ((at - a) / (b - a))).astype(np.int64) for at in (u[:-1], u[1:])]
    return np.stack(heights), profile.line[piece]
