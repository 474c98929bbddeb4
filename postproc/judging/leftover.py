"""Metal against metal: all that is drawn on a side against all that is left, beyond the grooves that were read.

A drawn recess that no groove of the reading names must have been cut, or be named as left to others. A low land that
is left to turning may be uncut; a program that cuts it must make all of it.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from extractor.finding import Finding, Level
from extractor.part import LeftToOthers, Part
from extractor.side import Side
from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.cutting.metal import Metal
from postproc.cutting.stock import Bench, drawn_metal, unturned_pieces
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target
from postproc.motion import Motion

EDGE = 3
"""So many tolerances along u beside a groove belong to it: rims are broken, and walls may be off."""


def left_standing(
    part: Part, side: Side, targets: Sequence[Target], drawn: Overlay, cut: Overlay, drop: int
) -> Iterator[Finding]:
    """A stop for each drawn recess that no groove and no land left to others names, and that still stands.

    `drawn` and `cut` lie over the same lands; `drop` is the tolerance in h counts.
    """
    if side.hollow:
        return  # a bore is drawn without its grooves: nothing else lies below its land
    increments = Increments.of(part.units)
    length = increments.length
    named = _Taken(
        [_wide(target, drop) for target in targets]
        + [_ends(one, increments) for one in part.left_to_others if one.where == side.where]
    )
    # Behind the part nothing is drawn, and the bar goes on.
    window = (increments.count(-part.length), 0) if side.axial else (int(drawn.u[0]), int(drawn.u[-1]))
    for stretch in drawn.below_land(drop, window):
        for piece in _without(stretch, named.at(stretch)):
            if piece[1] - piece[0] <= EDGE * side.along * drop:
                continue
            low, high = drawn.range(piece)[0], cut.range(piece)[1]
            if high <= low + drop:
                continue
            places = f"{side.axis}{length(piece[1]):g} and {side.axis}{length(piece[0]):g}"
            words = (
                f"The drawing goes down to {side.infeed}{side.sign * length(low):g} between {places}, no groove read "
                "there does, and the program leaves the metal: see whether the outline folds back on itself there, and "
                "compare drawing and reading."
            )
            yield Finding(Level.STOP, ProgramCode.RECESS_LEFT, words)


def turned_lands(
    part: Part, side: Side, targets: Sequence[Target], bench: Bench, motions: Sequence[Motion], drop: int
) -> Iterator[Finding]:
    """A stop for each low land left to turning that the program cuts into without making all of it."""
    lands = [one for one in part.left_to_others if one.where == side.where and one.why == "turned"]
    if not lands:
        return
    increments = bench.increments
    whole = Metal(unturned_pieces(part, increments, side))
    metal, flat = whole.copy(), whole.copy()
    level = max(increments.count(one.floor) for one in lands) + drop
    for motion in motions:
        insert = bench.insert(motion)
        if motion.kind == "feed" and insert is not None and insert.side == side:
            bench.cut_into(metal, motion, insert)
            (u0, h0), (u1, h1) = insert.place(motion.x0, motion.z0), insert.place(motion.x1, motion.z1)
            if u0 == u1 or h0 == h1 <= level:
                bench.cut_into(flat, motion, insert)
    ends = [_ends(one, increments) for one in lands]
    domain = min(end[0] for end in ends), max(end[1] for end in ends)
    # A slanting stroke to a chamfer goes through the air above a turned land, and so does a way along it higher up.
    left = Overlay.of(whole.profile(), flat.profile(), *domain)
    drawn = Overlay.of(drawn_metal(part, increments, side).profile(), metal.profile(), *domain)
    grooves = [_wide(target, drop) for target in targets]
    for one, stretch in zip(lands, ends, strict=True):
        cut = [piece for found in left.below_land(drop, stretch) for piece in _without(found, grooves)]
        if any(b - a > EDGE * side.along * drop for a, b in cut):
            yield from _partly(one, side, stretch, grooves, drawn, increments, drop)


def _partly(
    one: LeftToOthers,
    side: Side,
    stretch: Stretch,
    grooves: Sequence[Stretch],
    drawn: Overlay,
    increments: Increments,
    drop: int,
) -> Iterator[Finding]:
    """The stop for a low land that a program cuts and doesn't make."""
    inner = (stretch[0] + EDGE * side.along * drop, stretch[1] - EDGE * side.along * drop)
    length = increments.length
    for piece in _without(inner, grooves):
        off = drawn.off(piece)
        if max(abs(off[0]), abs(off[1])) > drop:
            what = "left too high" if off[1] > drop else "cut too deep"
            places = f"{side.axis}{length(stretch[1]):g} and {side.axis}{length(stretch[0]):g}"
            words = (
                f"The low land between {places}, drawn {side.infeed}{side.sign * one.floor:g}, is cut into and {what}: "
                "make all of it, or leave it to turning."
            )
            yield Finding(Level.STOP, ProgramCode.LAND_PARTLY_CUT, words)
            return


def _ends(one: LeftToOthers, increments: Increments) -> Stretch:
    """Where a land left to others lies along u."""
    return increments.count(one.far), increments.count(one.near)


def _wide(target: Target, drop: int) -> Stretch:
    """What belongs to a groove along u, its rims with it."""
    beside = target.broken + EDGE * target.groove.side.along * drop
    return target.u0 - beside, target.u1 + beside


class _Taken:
    """Stretches, to be asked which of them lie at a place."""

    def __init__(self, row: Sequence[Stretch]) -> None:
        """The lower end of each comes first."""
        low, high = np.array(row, dtype=np.int64).reshape(-1, 2).T
        self._row, self._order = row, np.argsort(low, kind="stable")
        self._low, self._high = low[self._order], high[self._order]
        self._reach = np.maximum.accumulate(self._high)

    def at(self, stretch: Stretch) -> list[Stretch]:
        """Those that share more than an end with a stretch, in their order."""
        # None that begins before these reaches the stretch, and none that begins behind them lies on it.
        first = int(self._reach.searchsorted(stretch[0], "right"))
        last = int(self._low.searchsorted(stretch[1]))
        found = self._order[first:last][self._high[first:last] > stretch[0]]
        return [self._row[k] for k in np.sort(found).tolist()]


def _without(stretch: Stretch, taken: Sequence[Stretch]) -> list[Stretch]:
    """A stretch with others cut out of it."""
    left = [stretch]
    for low, high in taken:
        left = [p for a, b in left for p in ((a, min(b, low)), (max(a, high), b)) if p[0] < p[1]]
    return left
