"""Arcs that were drawn as chords or flattened from splines, made arcs again.

A run of short lines that all turn the same way is an arc if its corners lie on one circle. So do the corners of a true
polygon, so plain lines must turn little at each corner, and there must be several; pieces known to come from a curve
need fewer. The circle is the algebraic least-squares one (Kasa 1976).
"""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from extractor.geometry.profile import ABOUT, MANY, Piece, columns
from extractor.sheet import Floats

MOST_TURN = {False: math.radians(45.5), True: math.radians(50)}
"""Turn at a corner up to which lines may be chords of an arc: plain lines, pieces of a curve."""

SMALL_TURN = math.radians(25)
"""Plain lines that turn by more, or are uneven, are an arc only if they are many and all end on its circle."""

MANY_CHORDS = 6

LEAST_CHORDS = {False: 4, True: 3}
"""Fewest chords that make an arc: plain lines, pieces of a curve."""


FEW_CHORDS = (3, 2)
"""Chords of a corner, too few for an arc by themselves."""

EVEN_TURN = math.radians(1.0)
"""The chords of such a corner turn by what those of a circle do, within this."""

EVEN_SIZE = 1.05
"""And the longest is no longer than so many times the shortest: a draughtsman's chamfer pair is less even."""

STRAIGHT_ON = 1e-4
"""A turn (radians) below which two lines go straight on: less than what six digits leave of a corner."""

OFF_CIRCLE = 0.02
"""Share of a chord's sagitta by which corners may miss the circle: splines are flattened about as well."""

CHORD = 1.2
"""The longest chord of an arc, in radii: one of 74 degrees; a longer one is a line of its own."""

MOST_SWEEP = 1.9 * math.pi
"""More than this is a closed circle with a gap, no piece of an outline."""

SLACK = 1.5
"""So many times as far may corners miss a circle from running sums before it is looked at more closely."""

STRAIGHT = 1e-9
"""Corners whose spread across is less than this share (squared) of that along are too straight for running sums."""

BLOCK = 64
"""So many circles are held against all corners at once: what a long run takes then fits into the processor's cache."""

UNEVEN = 5.0
"""Chords of one arc differ in length by less than this; a floor and the first chord of its corner by more."""


def rounded(chain: Sequence[Piece], fine: float) -> list[Piece]:
    """The chain with its runs of chords replaced by arcs; corners may be off a circle by `fine`."""
    if not _may_be_round(chain):
        return list(chain)
    result: list[Piece] = []
    k = 0
    chain = _cornered(chain)
    while k < len(chain):
        run = chain[k : _run(chain, k)]
        found = ((arc, count) for count in _promising(run, fine) if (arc := _arc(run[:count], fine)))
        piece, count = next(found, (chain[k], 1))
        result.append(piece)
        k += count
    return result


def _may_be_round(chain: Sequence[Piece]) -> bool:
    """False for a long chain in which no line turns into the next by as little as chords do."""
    if len(chain) < MANY:
        return True
    z0, r0, z1, r1 = columns(chain)[:4]
    run, rise, (one, two) = z1 - z0, r1 - r0, (slice(-1), slice(1, None))
    turn = np.abs(np.arctan2(run[one] * rise[two] - rise[one] * run[two], run[one] * run[two] + rise[one] * rise[two]))
    little = (turn > STRAIGHT_ON / ABOUT) & (turn < max(MOST_TURN.values()) * ABOUT)
    return bool(little.any())


def _promising(run: Sequence[Piece], fine: float) -> Iterator[int]:
    """How many pieces from the first on may lie on one circle, longest first.

    The circles through all beginnings of the run come from running sums in one pass, and so less exactly than `_arc`
    finds them: `SLACK` takes that in, and beginnings that are all but straight are left to it.
    """
    least = LEAST_CHORDS[run[0].curve] if run else 1
    if len(run) < least:
        return
    x, y = corners = np.array([run[0].start, *(p.end for p in run)]).T - np.array([run[0].start]).T
    square = x * x + y * y
    count = np.arange(1.0, len(x) + 1)
    mean_x, mean_y, mean, xx, xy, yy, xs, ys = (
        np.cumsum(values) / count for values in (x, y, square, x * x, x * y, y * y, x * square, y * square)
    )
    xx, xy, yy = xx - mean_x**2, xy - mean_x * mean_y, yy - mean_y**2
    xs, ys = xs - mean_x * mean, ys - mean_y * mean
    flat = xx * yy - xy * xy
    straight = flat <= STRAIGHT * (xx + yy) ** 2
    flat = np.where(straight, 1.0, flat)
    middle = np.array([xs * yy - ys * xy, ys * xx - xs * xy]) / (2 * flat)
    distance = mean - 2 * (middle[0] * mean_x + middle[1] * mean_y) + (middle**2).sum(axis=0)
    radius = np.sqrt(np.where(straight, 1.0, np.maximum(distance, 0.0)))
    longest = np.concatenate([[0.0], np.maximum.accumulate([p.size for p in run])])
    within = SLACK * np.maximum(fine, OFF_CIRCLE * longest**2 / (8 * radius))
    hopeful = straight | (longest <= SLACK * CHORD * radius)
    for top in range(len(run), least - 1, -BLOCK):
        ends = np.arange(top, max(top - BLOCK, least - 1), -1)
        off = np.abs(np.hypot(*(corners[:, : top + 1, None] - middle[:, None, ends])) - radius[ends])
        off[np.arange(top + 1)[:, None] > ends] = 0.0
        yield from ends[hopeful[ends] & (straight[ends] | (off.max(axis=0) <= within[ends]))].tolist()


def _cornered(chain: Sequence[Piece]) -> list[Piece]:
    """The chain with its corners of two or three chords made quarter circles.

    So few chords can be told from plain lines by their neighbours alone: a level line and a radial one, or two others
    at right angles, that the circle through all corners touches where it meets them.
    """
    result = list(chain)
    k = 1
    while k < len(result):
        first = abs(_turn(result[k - 1], result[k]))
        for count in FEW_CHORDS:
            if abs(first - math.pi / 2 / count / 2) > EVEN_TURN:
                continue
            arc = _quarter(result[k - 1 : k + count + 1], count)
            if arc:
                result[k : k + count] = [arc]
                break
        k += 1
    return result


def _quarter(run: Sequence[Piece], count: int) -> Piece | None:
    """The quarter circle that `count` chords between two lines at right angles stand for, None if they don't."""
    chords = run[1:-1]
    if len(run) != count + 2 or any(p.bulge for p in run) or min(run[0].size, run[-1].size) < chords[0].size / 4:
        return None
    turns = [_turn(a, b) for a, b in pairwise(run)]
    step = math.copysign(math.pi / 2 / count, turns[0])
    wanted = [step / 2, *[step] * (count - 1), step / 2]
    like = all(abs(a - b) <= EVEN_TURN for a, b in zip(turns, wanted, strict=True))
    if not like or max(p.size for p in chords) > EVEN_SIZE * min(p.size for p in chords):
        return None
    return Piece(chords[0].start, chords[-1].end, math.copysign(math.tan(math.pi / 8), step), True)


def _run(chain: Sequence[Piece], k: int) -> int:
    """End (exclusive) of the run of lines from `k` on that turn one way by little."""
    sense = 0.0
    end = k + 1
    while end < len(chain) and chain[end].bulge == 0 and chain[end - 1].bulge == 0:
        turn = _turn(chain[end - 1], chain[end])
        curve = chain[end].curve and chain[end - 1].curve
        if not STRAIGHT_ON < abs(turn) <= MOST_TURN[curve] or turn * sense < 0 or chain[end].curve != chain[k].curve:
            break
        sense = turn
        end += 1
    return end if chain[k].bulge == 0 else k


def _turn(one: Piece, two: Piece) -> float:
    """Angle from one piece's direction to the next's."""
    cross = one.run * two.rise - one.rise * two.run
    return math.atan2(cross, one.run * two.run + one.rise * two.rise)


def _arc(run: Sequence[Piece], fine: float) -> Piece | None:
    """The arc through the corners of a run, None if they lie on no circle."""
    longest = max(p.size for p in run)
    uneven = longest > UNEVEN * min(p.size for p in run)
    sharp = not run[0].curve and max(abs(_turn(a, b)) for a, b in pairwise(run)) > SMALL_TURN
    if (uneven or sharp) and len(run) < MANY_CHORDS:
        return None
    corners = np.array([run[0].start, *(p.end for p in run)])
    centre, radius = _circle(corners)
    off = np.abs(np.hypot(*(corners - centre).T) - radius)
    sagitta = longest**2 / (8 * radius)
    exact = len(run) >= MANY_CHORDS and off.max() <= fine / 2
    loose = (uneven or sharp) and not exact
    if loose or off.max() > max(fine, OFF_CIRCLE * sagitta) or longest > CHORD * radius:
        return None
    sweep = sum(_angle(centre, p) for p in run)
    if abs(sweep) > MOST_SWEEP:
        return None
    return Piece(run[0].start, run[-1].end, math.tan(sweep / 4), True)


def _angle(centre: Floats, piece: Piece) -> float:
    """Angle that a chord takes up as seen from the centre."""
    ax, ay = piece.start[0] - centre[0], piece.start[1] - centre[1]
    bx, by = piece.end[0] - centre[0], piece.end[1] - centre[1]
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def _circle(corners: Floats) -> tuple[Floats, float]:
    """Centre and radius of the least-squares circle; points on a line lie far off it."""
    middle = corners.mean(axis=0)
    local = corners - middle
    matrix = np.column_stack([2 * local, np.ones(len(local))])
    (x, y, c), *_ = np.linalg.lstsq(matrix, (local**2).sum(axis=1), rcond=None)
    radius = math.sqrt(max(0.0, c + x * x + y * y))
    return middle + np.array([x, y]), radius
