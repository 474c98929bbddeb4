"""The profile: half of the outline about the turning axis, as lines and arcs in (z, radius).

z is 0 at the front face and falls toward the chuck; radius is the distance from the turning axis. A profile runs
from front to back. Pieces are taken from the drawn segments, so a wall stands where it was drawn even if the ends
beside it had to be brought together.
"""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.finding import Point
from extractor.geometry.arcs import Circular, chords, circular, distance, part_of
from extractor.part import ProfilePoints
from extractor.sheet import Floats

SPECK = 1e-3
"""Share of `fine` below which a piece is a speck that a snap left."""

MOST_ARC = 0.9 * math.tau
"""Two arcs that would make more than this are not joined: ends of a nearly whole circle lie too close to tell apart."""

LEAST_RISE = 0.2
"""An end from which an arc rises by less than an eighth of this share of `fine` is its turning point."""

FIVE_DEGREES = 0.087
"""Sine of the angle below which two lines are too near to parallel for their ends to say where they cross."""


MANY = 100
"""Rows of so many pieces are looked over as a whole before they are gone through; a matter of speed alone."""

ABOUT = 1 + 1e-6
"""What is looked over so is looked at more closely where it all but fails."""


class Piece(NamedTuple):
    """A line or arc of the profile from front to back: ends (z, radius), bulge, and whether chords of a curve."""

    start: Point
    end: Point
    bulge: float = 0.0
    curve: bool = False

    @property
    def ends(self) -> tuple[Point, Point]:
        """Both ends."""
        return self.start, self.end

    @property
    def rise(self) -> float:
        """Change of radius from start to end."""
        return self.end[1] - self.start[1]

    @property
    def run(self) -> float:
        """Change of z from start to end."""
        return self.end[0] - self.start[0]

    @property
    def size(self) -> float:
        """Distance between the ends."""
        return distance(self.start, self.end)

    @property
    def arc(self) -> Circular:
        """The circle under an arc piece."""
        return circular(self.start, self.end, self.bulge)

    def back(self) -> "Piece":
        """The same piece, run the other way."""
        return Piece(self.end, self.start, -self.bulge, self.curve)


Profile = tuple[Piece, ...]


def points(profile: Sequence[Piece], step: float = math.pi / 24) -> ProfilePoints:
    """The profile as (z, radius) points, arcs in chords of at most `step` of turn."""
    found: list[Point] = []
    for piece in profile:
        for p in chords(piece.start, piece.end, piece.bulge, step):
            if not found or p != found[-1]:
                found.append(p)
    return tuple(found)


def joined(profile: Iterable[Piece], fine: float) -> list[Piece]:
    """Join pieces that carry on from one another on one line or circle.

    `fine` is the length below which two places are taken as the same.
    """
    profile = list(profile)
    if not _may_join(profile, fine):
        return profile
    row: list[Piece] = []
    for piece in profile:
        if piece.size <= fine * SPECK:
            continue
        if row and _carries_on(row[-1], piece, fine):
            row[-1] = row[-1]._replace(end=piece.end, bulge=_both(row[-1], piece))
        else:
            row.append(piece)
    return row


def columns(profile: Sequence[Piece]) -> Floats:
    """Both ends and the bulge of each piece, float (5, n)."""
    rows = [(*start, *end, bulge) for start, end, bulge, _ in profile]
    return np.array(rows, dtype=np.float64).reshape(-1, 5).T


def _may_join(profile: Sequence[Piece], fine: float) -> bool:
    """False for a long row in which no piece is a speck or carries on from the one before: most are such."""
    if len(profile) < MANY:
        return True
    z0, r0, z1, r1, bulge = columns(profile)
    run, rise, (one, two) = z1 - z0, r1 - r0, (slice(-1), slice(1, None))
    across = np.abs(run[one] * rise[two] - rise[one] * run[two])
    in_line = across <= ABOUT * fine / 2 * np.maximum(np.hypot(z1[two] - z0[one], r1[two] - r0[one]), fine)
    alike = (bulge[one] != 0) == (bulge[two] != 0)
    specks = np.hypot(run, rise) <= ABOUT * fine * SPECK
    return bool(specks.any() or (alike & (in_line | (bulge[one] != 0))).any())


def tidy(profile: Iterable[Piece], fine: float) -> Profile:
    """The pieces joined, arcs split where their radius or z turns round."""
    return tuple(part for piece in joined(profile, fine) for part in _monotone(piece, fine))


def _both(one: Piece, two: Piece) -> float:
    """Bulge of two pieces of one line or circle run through."""
    return math.tan(math.atan(one.bulge) + math.atan(two.bulge))


def _carries_on(one: Piece, two: Piece, fine: float) -> bool:
    """True if `two` is more of the same line or circle in the same direction."""
    if (one.bulge == 0) != (two.bulge == 0):
        return False
    if one.bulge == 0:
        whole = distance(one.start, two.end)
        off = abs(one.run * two.rise - one.rise * two.run) / max(whole, fine)
        return off <= fine / 2 and one.run * two.run + one.rise * two.rise > 0
    if (one.bulge > 0) != (two.bulge > 0) or abs(one.arc.sweep + two.arc.sweep) >= MOST_ARC:
        return False
    # A short arc says little of its centre: it goes on with a longer one if it lies on that one's circle.
    long, short = sorted((one, two), key=lambda p: -p.size)
    places = (*short.ends, short.arc.at(0.5))
    return all(abs(distance(p, long.arc.centre) - long.arc.radius) <= fine / 2 for p in places)


def _monotone(piece: Piece, fine: float) -> list[Piece]:
    """Split an arc where it is highest, lowest, foremost or hindmost, so that each part only rises or falls."""
    if piece.bulge == 0:
        return [piece]
    arc = piece.arc
    quarter = math.pi / 2
    low, high = sorted((arc.start, arc.start + arc.sweep))
    turns = [k * quarter for k in range(math.ceil(low / quarter), math.floor(high / quarter) + 1)]
    cuts = sorted((a - arc.start) / arc.sweep for a in turns)
    # An end so near the turning point that the arc rises by next to nothing between them is that point.
    margin = max(fine / arc.radius, math.sqrt(LEAST_RISE * fine / arc.radius)) / abs(arc.sweep)
    cuts = [c for c in cuts if margin < c < 1 - margin]
    ends = [0.0, *cuts, 1.0]
    places = [piece.start, *(arc.at(c) for c in cuts), piece.end]
    spans = pairwise(ends)
    return [
        piece._replace(start=p, end=q, bulge=part_of(piece.bulge, t, u))
        for (t, u), (p, q) in zip(spans, pairwise(places), strict=True)
    ]


def sharpen(profile: Sequence[Piece], drawn: Sequence[Piece], reach: float) -> list[Piece]:
    """Put each corner where the drawn lines meet rather than where snapping left it.

    `drawn` holds for each piece the whole segment it was cut from, in (z, radius). A corner moves by at most
    `reach`; arcs and lines nearly in line with one another keep the corner they have.
    """
    z0, r0, z1, r1, bulge = columns(drawn)
    run, rise, (one, two) = z1 - z0, r1 - r0, (slice(-1), slice(1, None))
    size, cross = np.hypot(run, rise), run[one] * rise[two] - rise[one] * run[two]
    met = (np.abs(cross) > FIVE_DEGREES * size[one] * size[two]) & (bulge[one] == 0) & (bulge[two] == 0)
    apart = (z0[two] - z0[one]) * rise[two] - (r0[two] - r0[one]) * run[two]
    share = apart / np.where(met, cross, 1.0)
    z, r = z0[one] + share * run[one], r0[one] + share * rise[one]
    placed = columns(profile)
    met &= np.hypot(z - placed[2, :-1], r - placed[3, :-1]) <= reach
    placed[2:4, :-1][:, met] = placed[0:2, 1:][:, met] = z[met], r[met]
    rows = zip(placed.T.tolist(), profile, strict=True)
    return [Piece((z0, r0), (z1, r1), bulge, piece.curve) for (z0, r0, z1, r1, bulge), piece in rows]
