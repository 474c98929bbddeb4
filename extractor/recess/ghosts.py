"""Lines within the outline that the part read does not explain: another outline under it, or another part in it.

Where two outlines lie on one another, the outer one at each place is read, and the rest is left as lines in the metal.
Most lines in the metal are explained: an edge right across stands at a corner of the outline; a line along the axis is
the root of a thread if it is long against its depth under one land (ISO 6410-1, from memory). What is left betrays
another outline where a floor or a land runs on into the metal, where a line runs along below a groove's floor, or where
an edge stands across a land that has no corner there. Hatched metal round unhatched metal on the axis is one
part round another.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import permutations

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Point
from extractor.geometry.network import Face, Network, rim
from extractor.geometry.profile import Piece, joined
from extractor.part import ProfilePoints
from extractor.recess import remarks
from extractor.recess.crossings import covers, upright_edges
from extractor.recess.hatched_metal import parted_metal, two_ways
from extractor.recess.shapes import Measured
from extractor.recess.thin_lines import thin_lines
from extractor.recess.threads import Thread
from extractor.sheet import Floats
from extractor.values import dataclass
from extractor.viewing.hatching import is_hatched
from extractor.viewing.outline import Folded, Half
from extractor.viewing.thread_roots import DEEPEST, THREADED


@dataclass(frozen=True)
class Seen:
    """One half as read: its sign, outline, profile, recesses, and what else accounts for lines in its metal.

    `drilled` are stretches along z (low, high) of holes across the axis that are drawn with both their walls.
    """

    sign: int
    half: Half
    profile: Sequence[Piece]
    outline: ProfilePoints
    grooves: Sequence[Measured]
    threads: Sequence[Thread]
    holes: Sequence[Measured]
    drilled: Sequence[tuple[float, float]] = ()

    @cached_property
    def covered(self) -> list[tuple[float, float]]:
        """Stretches along z (low, high) in which teeth or a hole account for lines."""
        teeth = [(t.z_far - t.pitch, t.z_near + t.pitch) for t in self.threads]
        return [*teeth, *((m.z_far, m.z_near) for m in self.holes), *self.drilled]

    @cached_property
    def along(self) -> tuple[Floats, Floats]:
        """-z, rising, and radius of the outline."""
        z, r = np.array(self.outline).T
        return -z, r

    @cached_property
    def floors(self) -> Floats:
        """Of each recess z of its walls and radius of its floor, float (n, 3): near, far, floor."""
        return np.array([(m.z_near, m.z_far, m.floor) for m in self.grooves]).reshape(-1, 3)

    def level_ends(self, near: float) -> Floats:
        """Of each level piece longer than `near` z of both ends and its radius, float (n, 3)."""
        level = [p for p in self.profile if p.bulge == 0 and abs(p.rise) <= near < abs(p.run)]
        return np.array([(p.start[0], p.end[0], p.start[1]) for p in level]).reshape(-1, 3)

    def land(self, z: float) -> float:
        """Radius of the outline over a place along z."""
        return float(np.interp(-z, *self.along))


@dataclass(frozen=True)
class AxialLine:
    """A line along the axis within the metal: its stretch along z and its radius."""

    low: float
    high: float
    radius: float

    @property
    def middle(self) -> Point:
        """Half-way along it."""
        return (self.low + self.high) / 2, self.radius


def ghost(folded: Folded, halves: Sequence[Seen]) -> Finding | None:
    """The stop for lines in the metal of all halves drawn that belong to another outline or another part."""
    if any(seen.half.material.knurl for seen in halves):
        return None
    around = [place for seen in halves for place in _around(folded, seen)[:1]]
    otherwise = [place for seen in halves for place in two_ways(folded, seen.half)[:1]]
    if otherwise or (around and len(around) == len(halves)):
        return remarks.told(folded, halves[0].sign, (otherwise or around)[0], DrawingCode.ASSEMBLY)
    wrapped = [place for seen in halves for place in _wrapped(folded, seen)]
    if wrapped and len(wrapped) == len(halves):
        return remarks.told(folded, halves[0].sign, wrapped[0], DrawingCode.OUTLINE_DOUBTFUL)
    rows = [[*_left_over(folded, seen), *_patched(folded, seen)] for seen in halves]
    near = folded.close
    for z, r in rows[0] if rows else []:
        if all(any(abs(z - a) <= near and abs(r - b) <= near for a, b in row) for row in rows[1:]):
            return remarks.told(folded, halves[0].sign, (z, r), DrawingCode.LINES_UNEXPLAINED)
    return None


def _wrapped(folded: Folded, seen: Seen) -> list[Point]:
    """A place on a bore that visible lines show where nothing is hatched and all is seen from outside, if it is so.

    From outside edges run right across at walls behind a bore, where a section has metal, and at walls within it, where
    nobody sees one. The bore is then the true outline, and what is round it another.
    """
    faces = seen.half.material.faces
    bore = [p for p in seen.half.bore if min(r for _, r in p.ends) > folded.close]
    if not bore or any(is_hatched(f.polygon, folded.hatched) for f in faces):
        return []
    low, high = min(z for p in bore for z, _ in p.ends), max(z for p in bore for z, _ in p.ends)
    front, back, near = seen.outline[0][0], seen.outline[-1][0], folded.close
    within = [(z, r) for z, r in _walls(bore, near) if low + near < z < high - near]
    behind = [
        (z, r) for z, r in _walls(seen.profile, near) if back + near < z < low - near or high + near < z < front - near
    ]
    lines = upright_edges(folded, seen.sign)
    seen_across = [any(covers(lines, z, 0.0, r, near) for z, r in walls) for walls in (within, behind)]
    return [max((at for p in bore for at in p.ends), key=lambda at: at[1])] if all(seen_across) else []


def _walls(pieces: Iterable[Piece], near: float) -> list[Point]:
    """Where along z walls square to the axis stand, and the radius that they begin at."""
    upright = (p for p in pieces if p.bulge == 0 and abs(p.run) <= near < abs(p.rise))
    return [(p.start[0], min(r for _, r in p.ends)) for p in upright]


def _inner(folded: Folded, faces: Sequence[Face]) -> list[int]:
    """Edges of the view's own strokes with metal on both sides."""
    edges, outer = folded.network.edges, rim(list(faces))
    inside = {k for face in faces for k in face.edges} - outer
    return [k for k in sorted(inside) if edges[k].label >= 0 and edges[k].label not in folded.aside]


def _left_over(folded: Folded, seen: Seen) -> list[Point]:
    """Places (z, radius) of lines that nothing explains, on one half."""
    network, near = folded.network, folded.close
    inner = _inner(folded, seen.half.material.faces)
    runs = _runs(folded, inner)
    told = [r for _, r in seen.half.material.inner]
    open_runs = [run for run in runs if not any(abs(run.radius - r) <= near for r in told)]
    threads = [run for run in open_runs if _is_thread(run, seen, near)]
    level = np.concatenate([seen.level_ends(near), seen.floors])
    betrayed = (r for r in open_runs if r not in threads and _betrays(r, seen, level, near))
    found = [r.middle for r in (*betrayed, *(r for r in open_runs if _sunk(folded, r, seen)))]
    found += _leaning(folded, inner, seen, threads)
    thin = [run for row in thin_lines(folded, seen.sign, seen.land) if _is_thread(run := AxialLine(*row), seen, near)]
    corners, parted = _corners(folded, seen, [*runs, *thin]), parted_metal(folded, seen.half)
    for k in inner:
        (z0, r0), (z1, r1) = (network.point(n) for n in network.edges[k][:2])
        across = network.edges[k].bulge == 0 and abs(z0 - z1) <= folded.fine < abs(r0 - r1)
        top = max(abs(r0), abs(r1))
        if not across or _covered(z0, seen, near) or abs(top - seen.land(z0)) > near:
            continue
        reason = _nearest(corners, z0) <= near or folded.texture.ends_at(z0, near)
        if not reason or k in parted:
            found.append((z0, top))
    return found


def _leaning(folded: Folded, inner: Iterable[int], seen: Seen, threads: Iterable[AxialLine]) -> list[Point]:
    """Ends of slanting edges at places where the outline runs straight on: such a chamfer is that of another outline.

    A thread's run-out slants up to its land from the end of its root, and a stray line goes on beyond the outline.
    """
    network, near, outer = folded.network, folded.close, rim(list(seen.half.material.faces))
    roots = [(z, seen.sign * t.radius) for t in threads for z in (t.low, t.high)]
    found = list[Point]()
    for k in inner:
        a, b, bulge, _ = network.edges[k]
        for n, other in permutations((a, b)) if not bulge and not _square(network, k, near) else ():
            beside = [e for e in network.around[n] if e != k]
            here, there = network.point(n), network.point(other)
            run_out = abs(here[1]) > abs(there[1]) and any(math.dist(there, root) <= near for root in roots)
            if len(beside) == 2 and outer.issuperset(beside) and not run_out and _straight_on(network, n, beside, near):
                found.append((here[0], abs(here[1])))
    return found


def _square(network: Network, k: int, near: float) -> bool:
    """True for an edge along the axis or square to it."""
    return any(abs(one - two) <= near for one, two in zip(*network.ends(k), strict=True))


def _straight_on(network: Network, n: int, pair: Sequence[int], near: float) -> bool:
    """True if two edges that meet at a node are straight and in line with one another."""
    here, (one, two) = network.point(n), (network.point(sum(network.edges[k][:2]) - n) for k in pair)
    away = math.dist(one, here) + math.dist(here, two) - math.dist(one, two)
    return away <= near and not any(network.edges[k].bulge for k in pair)


def _corners(folded: Folded, seen: Seen, runs: Sequence[AxialLine]) -> list[float]:
    """Where along z an edge right across has its reason: corners of outline and bore, ends of lines along the axis.

    In rising order.
    """
    pieces = (*seen.profile, *joined(seen.half.bore, folded.close))
    return sorted([*(z for p in pieces for z, _ in p.ends), *(z for run in runs for z in (run.low, run.high))])


def _nearest(places: Sequence[float], z: float) -> float:
    """How far it is from a place along z to the nearest of some in rising order."""
    k = bisect_left(places, z)
    return min(abs(z - other) for other in places[max(0, k - 1) : k + 1])


def explained(folded: Folded, seen: Seen) -> set[int]:
    """Edges of one half that are outline or bore, or are otherwise accounted for within the metal."""
    network, near, faces = folded.network, folded.close, list(seen.half.material.faces)
    inner = _inner(folded, faces)
    told = [r for _, r in seen.half.material.inner]
    runs = _runs(folded, inner)
    rooted = [run for run in runs if _is_thread(run, seen, near) or any(abs(run.radius - r) <= near for r in told)]
    corners = _corners(folded, seen, rooted)
    found = rim(faces)
    for k in inner:
        (z0, r0), (z1, _) = (network.point(n) for n in network.edges[k][:2])
        across = abs(z0 - z1) <= folded.fine and (_nearest(corners, z0) <= near or folded.texture.ends_at(z0, near))
        along = (run.low <= (z0 + z1) / 2 <= run.high and abs(abs(r0) - run.radius) <= near for run in rooted)
        if across or any(along) or seen.half.material.knurl or _covered((z0 + z1) / 2, seen, near):
            found.add(k)
    return found


def _patched(folded: Folded, seen: Seen) -> list[Point]:
    """Mouths that a line of another outline closes: at their radius two lines overlap and neither covers both."""
    if folded.laid is None or not seen.half.material.mouths:
        return []
    near, ends = folded.close, folded.laid.ends
    level = (folded.laid.bulge == 0) & (np.abs(ends[:, 1] - ends[:, 3]) <= folded.fine) & (ends[:, 1] * seen.sign > 0)
    rows = [(min(a, c), max(a, c), abs(b)) for a, b, c, _ in ends[level].tolist()]
    found = []
    for z, _ in seen.half.material.mouths:
        over = [row for row in rows if row[0] + near < z < row[1] - near]
        top = max(over, key=lambda row: row[2], default=None)
        beside = [row for row in rows if top and abs(row[2] - top[2]) <= near]
        if top and any(_staggered(top, row, near) for row in beside):
            found.append((z, top[2]))
    return found


def _staggered(one: tuple[float, float, float], two: tuple[float, float, float], near: float) -> bool:
    """True if two stretches overlap and neither holds the other."""
    first, second = sorted((one[:2], two[:2]))
    return first[0] < second[0] - near and second[0] < first[1] - near and first[1] < second[1] - near


def _covered(z: float, seen: Seen, near: float) -> bool:
    """True within the stretch of a thread or a hole, or at an end of it."""
    return any(low - near <= z <= high + near for low, high in seen.covered)


def _runs(folded: Folded, inner: Iterable[int]) -> list[AxialLine]:
    """The straight edges along the axis, pieces of one line joined."""
    network, rows = folded.network, list[AxialLine]()
    straight = [k for k in inner if network.edges[k].bulge == 0]
    # As they are drawn: where an end was put on a corner beside it the line leans ever so little.
    drawn = folded.drawn.ends[[network.edges[k].label for k in straight]].reshape(-1, 2)
    heights = np.abs(folded.axis.fold(drawn)[:, 1]).reshape(-1, 2)
    for k, one, two in zip(straight, *heights.T.tolist(), strict=True):
        low, high = sorted(z for z, _ in network.ends(k))
        if abs(one - two) <= folded.fine < min(high - low, one):
            rows.append(AxialLine(low, high, (one + two) / 2))
    rows.sort(key=lambda run: (round(run.radius / folded.close), run.low))
    whole: list[AxialLine] = []
    for run in rows:
        last = whole[-1] if whole else None
        if last and abs(last.radius - run.radius) <= folded.fine and run.low - last.high <= folded.fine:
            whole[-1] = AxialLine(last.low, run.high, last.radius)
        else:
            whole.append(run)
    return whole


def _is_thread(run: AxialLine, seen: Seen, near: float) -> bool:
    """True for a line that is long and shallow under one land, and not under a floor or a fillet beside one."""
    aside = max(0.0, (run.high - run.low) / 2 - near)
    land = max(seen.land((run.low + run.high) / 2 + by) for by in (-aside, 0.0, aside))
    deep = land - run.radius
    long = run.high - run.low >= THREADED * deep and deep <= DEEPEST * land
    return long and _floor_over(run, seen, near) is None


def _floor_over(run: AxialLine, seen: Seen, near: float) -> Measured | None:
    """The recess above a line that lies below its floor."""
    z = (run.low + run.high) / 2
    z_near, z_far, floor = seen.floors.T
    over = (z_far - near <= z) & (z <= z_near + near) & (run.radius < floor - near)
    return seen.grooves[int(over.argmax())] if over.any() else None


def _betrays(run: AxialLine, seen: Seen, level: Floats, near: float) -> bool:
    """True for a line in line with one of the outline that ends where it begins, or below a floor."""
    if _floor_over(run, seen, near) is not None:
        return True
    in_line = level[np.abs(level[:, 2] - run.radius) <= near, :2]
    return any(bool((np.abs(in_line - end) <= near).any()) for end in (run.low, run.high))


def _sunk(folded: Folded, run: AxialLine, seen: Seen) -> bool:
    """True for a line along a collar, below the lands beside it, that is no edge of a flat: one part lies in another.

    A flat that leaves the lands whole lies outside them, so its edges lie within sqrt(R^2 - land^2) of the axis. Nor
    do the faces of the collar, seen from outside, end at them.
    """
    near, lines = folded.close, upright_edges(folded, seen.sign)
    top, *beside = (seen.land(z) for z in (run.middle[0], run.low - 2 * near, run.high + 2 * near))
    low, high = min(beside), max(beside)
    if run.radius + near >= low or high + near >= top:
        return False
    feet = [lines[np.abs(lines[:, 0] - z) <= near, 1].min(initial=np.inf) for z in (run.low, run.high)]
    return math.hypot(run.radius, low) > top + near or bool(np.abs(np.array(feet) - run.radius).max() <= near)


def _around(folded: Folded, seen: Seen) -> list[Point]:
    """Places of hatched metal that lies on metal about the axis which is not hatched, with a line along it between."""
    faces, hatched = seen.half.material.faces, folded.hatched
    if not hatched:
        return []
    network = folded.network
    floor = network.level_edges(1, 0.0, folded.fine)
    cut = {k: f for f in faces if not f.edges & floor and is_hatched(f.polygon, hatched) for k in f.edges}
    plain = [f for f in faces if f.edges & floor and not is_hatched(f.polygon, hatched)]
    level = {round(run.radius / folded.close) for run in _runs(folded, _inner(folded, faces))}
    shared = [cut[k] for f in plain for k in f.edges & cut.keys() if _height(folded, k) in level]
    return [(f.inside[0], abs(f.inside[1])) for f in shared]


def _height(folded: Folded, k: int) -> int:
    """The radius of an edge in steps."""
    return round(abs(folded.network.mid(folded.network.edges[k])[1]) / folded.close)
