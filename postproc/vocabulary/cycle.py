"""The grooving cycle as moves: peck, back off, peck on, out to the start, shift, and at the end back to the start.

One place works this out, for a cycle read from a program and for one that is written out peck by peck. Common
practice: the last peck and the last shift are whatever remains, so that the floor and the end are met exactly; the
back-off stays inside the groove; after the last groove the tool is back where it began.
"""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple


class CycleMove(NamedTuple):
    """One move of the cycle to a place in counts: x on the diameter, None where that axis rests."""

    kind: Literal["rapid", "feed"]
    x: int | None
    z: int | None


def places(start_z: int, end_z: int, shift: int | None) -> tuple[int, ...]:
    """Z of every groove in order; without a shift the start and the end alone.

    >>> places(0, -12000, 5000)
    (0, -5000, -10000, -12000)
    """
    if start_z == end_z:
        return (start_z,)
    span = end_z - start_z
    step = abs(shift or span) if span > 0 else -abs(shift or span)
    return (*range(start_z, end_z, step), end_z)


def depths(start_x: int, floor_x: int, peck: int) -> Sequence[int]:
    """Diameters at which the pecks of one groove end, without the last, which is the floor itself.

    `peck` is radial, 0 for one peck to the floor.

    >>> list(depths(42000, 34000, 1500)), list(depths(10000, 12500, 1000))
    ([39000, 36000], [12000])
    """
    step = 2 * peck if floor_x > start_x else -2 * peck
    return range(start_x + step, floor_x, step) if peck else ()


def groove_moves(
    start: tuple[int, int],
    at: Sequence[int],
    floor_x: int,
    peck: int,
    retract: int,
    relief: int = 0,
    *,
    back: bool = True,
) -> Iterator[CycleMove]:
    """The moves of a cycle from its start (x, z) over the grooves `at`, and `back` to the start.

    `peck` and `retract` are radial. `relief` is the step aside at the floor, against the direction of the shift.
    """
    start_x, start_z = start
    outward = 1 if start_x >= floor_x else -1
    aside = relief if at[-1] <= start_z else -relief
    z = start_z
    for place in at:
        if place != z:
            yield CycleMove("rapid", None, place)
        z = place
        for x in depths(start_x, floor_x, peck):
            yield CycleMove("feed", x, None)
            free = min(2 * retract, abs(start_x - x))
            if free:
                yield CycleMove("rapid", x + outward * free, None)
        yield CycleMove("feed", floor_x, None)
        if aside:
            yield CycleMove("feed", None, z + aside)
        yield CycleMove("rapid", start_x, None)
        if aside:
            yield CycleMove("rapid", None, z)
    if back and z != start_z:
        yield CycleMove("rapid", None, start_z)


def face_moves(start: tuple[int, int], at: Sequence[int], floor_z: int, peck: int, retract: int) -> Iterator[CycleMove]:
    """The moves of the cycle along the axis from its start (x, z) over the diameters `at`, back to the start.

    `peck` and `retract` are along z, `peck` 0 for one peck to the floor. As the cycle across, with its axes exchanged.
    """
    start_x, start_z = start
    inward = 1 if floor_z > start_z else -1
    x = start_x
    for place in at:
        if place != x:
            yield CycleMove("rapid", place, None)
        x = place
        for z in range(start_z + inward * peck, floor_z, inward * peck) if peck else ():
            yield CycleMove("feed", None, z)
            back = min(retract, abs(start_z - z))
            if back:
                yield CycleMove("rapid", None, z - inward * back)
        yield CycleMove("feed", None, floor_z)
        yield CycleMove("rapid", None, start_z)
    if x != start_x:
        yield CycleMove("rapid", start_x, None)
