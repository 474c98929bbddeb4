"""Levels of a profile, and the recesses between them.

A level is a stretch where the radius stands still (a land or a floor) or a point where it turns round (the bottom of
a vee, the crest of a thread). Between two levels the radius only rises or only falls. A level lower than both its
neighbours is the floor of a recess; filling it up to the lower neighbour and looking again finds the wide necks that
hold other recesses. So nothing that lies below both its neighbours is missed, whatever its shape.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import field
from typing import NamedTuple

from extractor.geometry.profile import Piece
from extractor.values import dataclass

Filled = tuple["Filled | Recess", ...]
"""Recesses in their order, however deep: a land beside a thousand grooves would be copied with each of them."""


class LevelStretch(NamedTuple):
    """A stretch of the profile at one height: vertices `first` to `last`, and the recesses filled to make it."""

    first: int
    last: int
    radius: float
    filled: Filled = ()


@dataclass(frozen=True)
class Recess:
    """A floor with the level on either side; all recesses inside it were found before it.

    `inner` are those in its floor. `back`: a piece of its own or of the levels beside it runs back toward the front;
    what lies in recesses found before is theirs. The levels here name no recesses: a land beside a thousand grooves
    would name a thousand, for each of them.
    """

    near: LevelStretch
    floor: LevelStretch
    far: LevelStretch
    inner: tuple["Recess", ...] = field(default=())
    back: bool = False

    @property
    def mouth(self) -> float:
        """Radius of the lower land beside it."""
        return min(self.near.radius, self.far.radius)


def levels(profile: Sequence[Piece], fine: float) -> list[LevelStretch]:
    """The levels of a profile from front to back; vertex k is the start of piece k.

    `fine` is the change of radius below which a line counts as level.
    """
    found = [LevelStretch(0, 0, profile[0].start[1])]
    trend = 0
    for k, piece in enumerate(profile):
        turn = _trend(piece, fine)
        if turn == 0 and trend == 0 and abs(piece.start[1] - found[-1].radius) <= fine:
            found[-1] = LevelStretch(found[-1].first, k + 1, found[-1].radius)
        elif turn == 0:
            found.append(LevelStretch(k, k + 1, piece.start[1]))
        elif trend == -turn:
            found.append(LevelStretch(k, k, piece.start[1]))
        trend = turn
    if trend != 0:
        found.append(LevelStretch(len(profile), len(profile), profile[-1].end[1]))
    return _merged([_at_height(level, _height(profile, level)) for level in found], fine)


def _at_height(level: LevelStretch, radius: float) -> LevelStretch:
    """A level at another height."""
    return level if level.radius == radius else level._replace(radius=radius)


def _height(profile: Sequence[Piece], level: LevelStretch) -> float:
    """The radius of a level's longest stretch: a corner of a hair's breadth at its end is not its height."""
    pieces = profile[level.first : level.last]
    return max(pieces, key=lambda p: abs(p.run)).start[1] if pieces else level.radius


def _merged(row: Sequence[LevelStretch], fine: float) -> list[LevelStretch]:
    """The levels with neighbours of one height as one: between them the profile stays at that height.

    Two such neighbours would hide each other: neither is lower than the levels on both its sides.
    """
    kept: list[LevelStretch] = []
    for level in row:
        if kept and abs(level.radius - kept[-1].radius) <= fine:
            wide = max(kept[-1], level, key=lambda k: k.last - k.first)
            kept[-1] = LevelStretch(kept[-1].first, level.last, wide.radius, (kept[-1].filled, level.filled))
        else:
            kept.append(level)
    return kept


def _trend(piece: Piece, fine: float) -> int:
    """1 rising, -1 falling, 0 level."""
    if abs(piece.rise) <= fine and (piece.bulge == 0 or abs(piece.run) <= fine):
        return 0 if abs(piece.run) > abs(piece.rise) else (1 if piece.rise > 0 else -1)
    return 1 if piece.rise > 0 else -1


def recesses(profile: Sequence[Piece], fine: float) -> list[Recess]:
    """All recesses of a profile, inner ones before those that hold them."""
    row = levels(profile, fine)
    backward = [k for k, piece in enumerate(profile) if piece.run > fine]
    found: list[Recess] = []
    begin = 1
    while (k := _lowest(row, fine, begin)) is not None:
        near, floor, far = row[k - 1 : k + 2]
        back = bisect_left(backward, near.first) < bisect_left(backward, far.last)
        near_alone, floor_alone, far_alone = (k._replace(filled=()) if k.filled else k for k in (near, floor, far))
        recess = Recess(near_alone, floor_alone, far_alone, _flat(floor.filled), back)
        del backward[bisect_left(backward, near.last) : bisect_left(backward, far.first)]
        found.append(recess)
        beside = slice(max(0, k - 2), k + 3)
        filled = _fill(near, recess, far, fine)
        row[beside] = _merged([*row[beside][: k - 1 - beside.start], *filled, *row[k + 2 : k + 3]], fine)
        begin = max(1, beside.start - 1)
    return found


def _flat(filled: Filled) -> tuple[Recess, ...]:
    """The recesses in a row."""
    found: list[Recess] = []
    left: list[Filled | Recess] = [filled]
    while left:
        one = left.pop()
        if isinstance(one, Recess):
            found.append(one)
        else:
            left.extend(reversed(one))
    return tuple(found)


def _lowest(row: Sequence[LevelStretch], fine: float, begin: int) -> int | None:
    """Index of the first level that lies below both its neighbours; none before `begin` does."""
    for k in range(begin, len(row) - 1):
        if row[k].radius < min(row[k - 1].radius, row[k + 1].radius) - fine:
            return k
    return None


def _fill(near: LevelStretch, recess: Recess, far: LevelStretch, fine: float) -> list[LevelStretch]:
    """The levels left of those beside a recess once it is filled to its mouth."""
    if abs(near.radius - far.radius) <= fine:
        return [LevelStretch(near.first, far.last, near.radius, (near.filled, recess, far.filled))]
    if near.radius < far.radius:
        return [LevelStretch(near.first, recess.floor.last, near.radius, (near.filled, recess)), far]
    return [near, LevelStretch(recess.floor.first, far.last, far.radius, (recess, far.filled))]
