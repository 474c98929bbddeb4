"""Lines of a profile that are off square by less than a cut shows, or than all lines of its view are, made square."""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from extractor.finding import Point
from extractor.geometry.profile import Piece, columns
from extractor.sheet import Floats

LEAN = 2e-3
"""Share of its length by which such a line is off at most: the chords of a curve lean by more."""

SLOPED = math.tan(math.radians(0.5))
"""From this slope on a line slopes, however sloppy the sheet: a print with a wall of half a degree means it."""

MOST = 0.5
"""On a sloppy sheet more than this share of the lines along the axis is off square, and of those across it."""


def sloppy(lines: Floats, fine: float, exact: float, most: float) -> float:
    """How far the lines of a view are off square where they were drawn carelessly, `exact` elsewhere.

    Lines float (n, 4) are drawn one by one along (z, radius). A hand that errs does so along the axis and across it:
    walls alone that lean, or lands alone, are meant. `fine` is drawing noise, `exact` what no cut shows, `most` the
    pen's error.
    """
    run, rise = np.abs(lines[:, 2:] - lines[:, :2]).T
    off, long = np.minimum(run, rise), np.maximum(run, rise)
    level = run > rise
    square = off < SLOPED * long
    fit = square & (off <= most)
    rows = [off[fit & way] for way in (level, ~level)]
    if any((row > fine).sum() <= MOST * (square & way).sum() for row, way in zip(rows, (level, ~level), strict=True)):
        return exact
    return max(exact, *(float(row.max()) for row in rows))


def squared(
    pieces: Sequence[Piece], drawn: Sequence[Piece], fine: float, most: float, lean: float = LEAN
) -> tuple[list[Piece], list[Piece]]:
    """The pieces of a profile and the lines drawn that they were cut from, those square that are off by up to `most`.

    What is off by no more than `fine` is drawing noise and needs nothing, what leans by `lean` of its length is meant,
    and so are the chords of a curve. A line is made square about its middle; the
    ends of its pieces are brought onto it, and what follows is brought to them. Pieces keep their order.
    """
    z0, r0, z1, r1, bulge = columns(drawn)
    run, rise = np.abs(z1 - z0), np.abs(r1 - r0)
    off, long = np.minimum(run, rise), np.maximum(run, rise)
    nearly = (bulge == 0) & (fine < off) & (off <= np.minimum(most, lean * long))
    nearly &= ~np.array([piece.curve for piece in pieces]) | (off <= LEAN * long)
    if not nearly.any():
        return list(pieces), list(drawn)
    lines = [_square(line) if fit else line for line, fit in zip(drawn, nearly.tolist(), strict=True)]
    return _met(pieces, [_onto(piece, line) for piece, line in zip(pieces, lines, strict=True)]), lines


def upright(profile: Sequence[Piece], fine: float, most: float) -> tuple[list[Piece], float]:
    """A profile from front to back with walls upright that run back toward the front by up to `most`; by how much.

    Nobody draws so little of an undercut, and one that leans by half a degree is meant. Those that lean the other way
    can be cut as they are drawn.
    """
    back = [
        p.run if p.bulge == 0 and not p.curve and fine < p.run <= most and p.run < SLOPED * abs(p.rise) else 0.0
        for p in profile
    ]
    if not any(back):
        return list(profile), 0.0
    rows = [_square(p) if off else p for p, off in zip(profile, back, strict=True)]
    return _met(profile, rows), max(back)


def _met(pieces: Sequence[Piece], moved: list[Piece]) -> list[Piece]:
    """Pieces of which some were moved, the ends that met before brought together."""
    rows = list(moved)
    for k, (one, two) in enumerate(pairwise(rows)):
        if one.end != two.start and pieces[k].end == pieces[k + 1].start:
            at = _corner(pieces[k].end, one.end, two.start)
            rows[k], rows[k + 1] = rows[k]._replace(end=at), two._replace(start=at)
    return rows


def _square(line: Piece) -> Piece:
    """A line that is nearly square, square about its middle."""
    (z0, r0), (z1, r1) = line.ends
    z, r = (z0 + z1) / 2, (r0 + r1) / 2
    if abs(line.run) < abs(line.rise):
        return line._replace(start=(z, r0), end=(z, r1))
    return line._replace(start=(z0, r), end=(z1, r))


def _onto(piece: Piece, line: Piece) -> Piece:
    """A piece with its ends on the square line that it was cut from; any other as it is."""
    if line.bulge or (line.run and line.rise):
        return piece
    (z0, r0), (z1, r1), (z, r) = *piece.ends, line.start
    return piece._replace(start=(z, r0), end=(z, r1)) if line.run == 0 else piece._replace(start=(z0, r), end=(z1, r))


def _corner(old: Point, one: Point, two: Point) -> Point:
    """A corner moved as the pieces on both sides of it are."""
    z, r = (next((v for v in (a, b) if v != was), was) for was, a, b in zip(old, one, two, strict=True))
    return z, r
