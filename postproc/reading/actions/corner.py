"""Corners that the control works out itself: a chamfer or a rounding where one straight cut meets the next.

    G01 X40. ,C1.      G01 Z-30. R2.      G01 X40. K-.5

The cut is drawn back, and the corner is put between it and the next. With a comma the lines may meet at any angle, and
a chamfer takes as much off each; without one they run along X and Z, and a sign says which way the next goes. I stands
where that is along X, K along Z; all are measured on the radius (common practice, from memory).
"""

from dataclasses import replace
from itertools import takewhile
from math import atan2, dist, pi, tan

from planner.arcs import by_radius, joining_radius
from planner.steps import Arc, Cut, Step
from postproc.codes import ProgramCode
from postproc.motion import Motion
from postproc.reading.control import PendingCorner
from postproc.reading.lathe import Lathe
from postproc.reading.words import Word

ROUND, BY_AXIS = "R", {"I": "X", "K": "Z"}
STRAIGHT_ON = 1e-6
"""Lines whose directions differ by less, in radians, meet in no corner."""
HALF = 0.5
"""Counts that a rounded place may be off."""
Point = tuple[float, float]
"""Z and radius in counts."""


class NoCorner(ValueError):
    """A corner that can't be put in; the message gives the reason as a sentence fragment."""


def await_corner(lathe: Lathe, word: Word) -> None:
    """The block at hand ends in a corner: the next straight cut says how it lies."""
    log, size = lathe.log, lathe.words.amount(word) or 0
    here = takewhile(lambda n: log.step_lines[n] == log.line, range(len(log.steps) - 1, -1, -1))
    cuts = [n for n in here if isinstance(log.steps[n], Cut)]
    lathe.control.corner = PendingCorner(word, log.line, size, cuts[0] if cuts else 0)
    last = log.motions[-1] if log.motions else None
    if word.address.endswith("A"):
        lathe.no_corner("which is not worked out here")
    elif not cuts or last is None or last.line != log.line:
        lathe.no_corner("and no straight cut is in its block")
    elif not (last.x0_known and last.z0_known):
        lathe.no_corner("and no block has said where its cut begins")
    elif not size:
        lathe.control.corner = None


def leave_out(lathe: Lathe) -> None:
    """An arc comes next: the corner that waits is left out of the way, which an insert that is judged may not do."""
    corner, place = lathe.control.corner, lathe.control.place
    if corner is None:
        return
    lathe.control.corner = None
    word = corner.word
    message = (
        f"{word} at column {word.column} asks for a corner between a line and an arc, which is not worked out here: "
        "the way was followed without it."
    )

    def tell() -> None:
        """Say so, and move to where the arc begins."""
        lathe.log.caution(ProgramCode.CORNER_WORD, message)
        lathe.move("feed", place.x, place.z, foreign="corner before an arc", followed=False)

    lathe.at_line(corner.line, tell)


def meet(lathe: Lathe, kind: str, end: tuple[int, int]) -> None:
    """Put the corner that waits between the cut made last and the move that comes, which goes to `end` (x, z)."""
    corner, log = lathe.control.corner, lathe.log
    if corner is None:
        return
    last = log.motions[-1]
    start, point = (last.x0, last.z0), (last.x1, last.z1)
    try:
        if kind != "feed":
            raise NoCorner("and no straight cut comes next")
        _check_sign(corner.word, start, point, end)
        first, second = _ends(corner, _point(start), _point(point), _point(end))
    except NoCorner as wrong:
        lathe.no_corner(str(wrong))
        return
    lathe.control.corner = None
    _tell_sign(lathe, corner, point, end)
    cut = log.steps[corner.step]
    if isinstance(cut, Cut):
        log.steps[corner.step] = replace(cut, x=_moved(cut.x, first[0], start[0]), z=_moved(cut.z, first[1], start[1]))
    log.motions[-1] = last._replace(x1=first[0], z1=first[1])
    places = [second]
    joint: Step = Cut(last.feed or 0, *second)
    if corner.word.address.endswith(ROUND):
        clockwise = _turn(_point(start), _point(point), _point(end)) < 0
        radius = joining_radius(first, second, abs(corner.size))
        places = list(by_radius(first, second, radius, clockwise))
        joint = Arc(feed=last.feed or 0, x=second[0], z=second[1], radius=radius, clockwise=clockwise)
    lathe.at_line(corner.line, lambda: log.step(joint))
    for x, z in places:
        before: Motion = log.motions[-1]
        log.move(before._replace(x0=before.x1, z0=before.z1, x1=x, z1=z))
    lathe.control.place.x, lathe.control.place.z = second


def _moved(said: int | None, place: int, before: int) -> int | None:
    """Where a step ends along one axis once it is drawn back; None where it still doesn't move along it."""
    return None if said is None and place == before else place


def _point(place: tuple[int, int]) -> Point:
    """Z and radius of a place (x, z)."""
    return place[1], place[0] / 2


def _turn(start: Point, point: Point, end: Point) -> float:
    """The angle by which the way turns at a point, in radians, positive to the left."""
    one = atan2(point[1] - start[1], point[0] - start[0])
    other = atan2(end[1] - point[1], end[0] - point[0])
    return (other - one + pi) % (2 * pi) - pi


def _ends(corner: PendingCorner, start: Point, point: Point, end: Point) -> tuple[tuple[int, int], tuple[int, int]]:
    """Where the corner begins and ends, as (x, z) in counts."""
    turn, size = abs(_turn(start, point, end)), abs(corner.size)
    lengths = dist(start, point), dist(point, end)
    if not all(lengths) or not STRAIGHT_ON < turn < pi - STRAIGHT_ON:
        raise NoCorner("and the two meet in no corner")
    back = size * tan(turn / 2) if corner.word.address.endswith(ROUND) else size
    if back > min(lengths) + HALF:
        raise NoCorner("and it is longer than one of the two")
    along = [
        tuple(a + (b - a) * min(1.0, back / length) for a, b in zip(point, other, strict=True))
        for other, length in zip((start, end), lengths, strict=True)
    ]
    first, second = ((round(2 * radius), round(z)) for z, radius in along)
    if first == second:
        raise NoCorner("and the two meet in no corner")
    return first, second


def _axis(start: tuple[int, int], end: tuple[int, int]) -> str:
    """The axis along which a line runs alone, empty for a slope."""
    x, z = start[0] != end[0], start[1] != end[1]
    return "" if x and z else "X" if x else "Z"


def _toward(start: tuple[int, int], end: tuple[int, int]) -> int:
    """The way of a line along its axis."""
    return end[0] - start[0] or end[1] - start[1]


def _check_sign(word: Word, start: tuple[int, int], point: tuple[int, int], end: tuple[int, int]) -> None:
    """Refuse a corner whose sign or letter says another way than the next line goes."""
    axes = _axis(start, point), _axis(point, end)
    if word.address[0] == ",":
        if word.value < 0:
            raise NoCorner("and with a comma it has no sign")
    elif set(axes) != {"X", "Z"}:
        raise NoCorner("and without a comma it stands between lines along X and Z alone")
    elif (word.value < 0 and _toward(point, end) > 0) or BY_AXIS.get(word.address, axes[1]) != axes[1]:
        raise NoCorner("and says another way than that one goes")


def _tell_sign(lathe: Lathe, corner: PendingCorner, point: tuple[int, int], end: tuple[int, int]) -> None:
    """A corner with neither comma nor minus before a line toward minus: some controls ask for the sign."""
    word = corner.word
    if word.address[0] != "," and word.value > 0 and _toward(point, end) < 0:
        meant = f"{word.address}-{word.text.lstrip('+')} or ,{word}" if len(word.address) == 1 else str(word)
        message = (
            f"{word} at column {word.column} has no minus, and the next line goes toward minus: some controls then "
            f"turn the corner the other way, so look up whether yours wants {meant}."
        )
        lathe.at_line(corner.line, lambda: lathe.log.caution(ProgramCode.CORNER_WORD, message))
