"""Lines of (z, radius) points that a part hands on: the outline, the lands, the bore.

They never run back along z: where a profile does (a groove in an end face, an overhang), what is seen square to the
axis from outside, or from within the bore, stands for it.
"""

from collections.abc import Sequence
from itertools import pairwise

from extractor.finding import Point
from extractor.geometry.profile import Profile, points
from extractor.part import ProfilePoints
from extractor.recess.levels import Recess
from extractor.rounding import ROUNDING


def lands(profile: Profile, found: Sequence[Recess]) -> ProfilePoints:
    """The profile with every recess filled to its mouth."""
    corners = [p.start for p in profile] + [profile[-1].end]
    line: list[Point] = []
    k = 0
    begun = {recess.near.last: recess for recess in reversed(outermost(found))}
    while k < len(corners):
        recess = begun.get(k)
        if recess is None:
            line += points(profile[k : k + 1])[:-1] if k < len(profile) else [corners[k]]
            k += 1
        else:
            line += _bridge(corners, recess)
            k = recess.far.first
    return tuple(p for i, p in enumerate(line) if i == 0 or p != line[i - 1])


def outermost(found: Sequence[Recess]) -> list[Recess]:
    """Recesses that lie within no other."""
    held, reached = set[int](), -1
    for recess in sorted(found, key=lambda r: (r.near.last, -r.far.first)):
        if recess.far.first <= reached:
            held.add(id(recess))
        reached = max(reached, recess.far.first)
    return [recess for recess in found if id(recess) not in held]


def _bridge(corners: Sequence[Point], recess: Recess) -> list[Point]:
    """The land line across a recess: level at the mouth, with the rest of the higher wall on its side."""
    near, far = corners[recess.near.last], corners[recess.far.first]
    if recess.near.radius > recess.far.radius:
        return [near, *_wall(corners[recess.near.last : recess.floor.first + 1], far[1])]
    wall = _wall(corners[recess.floor.last : recess.far.first + 1][::-1], near[1])
    return [near, *wall[::-1]]


def _wall(down: Sequence[Point], mouth: float) -> list[Point]:
    """A wall from its top down to the height of the mouth."""
    kept: list[Point] = []
    for (z0, r0), (z1, r1) in pairwise(down):
        if r1 > mouth:
            kept.append((z1, r1))
            continue
        if r0 > mouth:
            kept.append((z0 + (z1 - z0) * (mouth - r0) / (r1 - r0), mouth))
        break
    return kept


def from_outside(line: ProfilePoints) -> ProfilePoints:
    """The line as seen from outside: the greatest radius at each z, z never rising.

    >>> from_outside(((0.0, 1.0), (-2.0, 1.0), (-2.0, 2.0), (0.0, 2.0), (0.0, 3.0), (-5.0, 3.0)))
    ((0.0, 3.0), (-5.0, 3.0))
    """
    return _seen(line, highest=True)


def from_within(line: ProfilePoints) -> ProfilePoints:
    """The line as seen from the axis: the least radius at each z, z never rising."""
    return _seen(line, highest=False)


def _seen(line: ProfilePoints, *, highest: bool) -> ProfilePoints:
    """The line itself if it never runs back, else the highest or lowest of what lies at each z."""
    dust = ROUNDING * (abs(line[0][0]) + abs(line[-1][0]))
    if all(b[0] <= a[0] + dust for a, b in pairwise(line)):
        return (line[0], *((min(a[0], b[0]), b[1]) for a, b in pairwise(line)))
    stations = sorted({z for z, _ in line}, reverse=True)
    seen: list[Point] = []
    for near, far in pairwise(stations):
        spans = [(p, q) for a, b in pairwise(line) for p, q in [(max(a, b), min(a, b))] if p[0] >= near and q[0] <= far]
        ends = [(_at(p, q, near), _at(p, q, far)) for p, q in spans if p[0] > q[0]]
        if ends:
            best = max(ends, key=sum) if highest else min(ends, key=sum)
            seen += [(near, best[0]), (far, best[1])]
    return _plain(seen)


def _at(p: Point, q: Point, z: float) -> float:
    """Radius of the line p-q at z."""
    return p[1] + (q[1] - p[1]) * (z - p[0]) / (q[0] - p[0])


def _plain(line: Sequence[Point]) -> ProfilePoints:
    """The line without doubled points and points in the middle of a level stretch."""
    kept: list[Point] = []
    for p in line:
        if kept and p == kept[-1]:
            continue
        if len(kept) > 1 and kept[-2][1] == kept[-1][1] == p[1]:
            kept.pop()
        kept.append(p)
    return tuple(kept)
