"""Bores that the lines of a view close off: which faces about the axis are empty.

A face on the axis is part of a bore if nothing but the end face of the part bounds it outside, and it is connected
with one that opens in an end face. In a plain side view a thread's second line looks just like that, so it counts as a
bore only where something shows a section: hatching above it, steps of the outside that no edge line carries down to it,
or steps of its own.
"""

import math
from collections.abc import Iterable, Sequence, Set

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import middle
from extractor.geometry.joining import groups
from extractor.geometry.network import Face, Network, less, rim
from extractor.values import dataclass
from extractor.viewing.hatching import is_hatched
from extractor.viewing.thread_roots import DEEPEST, THREADED

AT_END = 10.0
"""So many times drawing noise may an edge of an end face lie off it: one whose corner was closed over a gap leans."""

NEXT = 1e-6
"""A ray to the axis begins this share of its length beside the edge that it starts from: rounding is finer."""


@dataclass(frozen=True)
class Bored:
    """Faces that are bores, and the places (z, radius) of inner lines that may be a bore or a thread.

    `boxed`: places of what lines close off beside the bore of a section, but for what may be a thread in its metal.
    """

    faces: tuple[Face, ...]
    unclear: tuple[tuple[float, float], ...]
    boxed: tuple[tuple[float, float], ...] = ()


def bored(
    network: Network,
    faces: Sequence[Face],
    fine: float,
    hidden: frozenset[int] = frozenset(),
    hatched: Sequence[shapely.Geometry] = (),
) -> Bored:
    """The faces of one half that are bores.

    `hidden` are the labels of hidden lines, which by themselves mean a bore; `hatched` what is hatched, laid along z.
    """
    floor = network.level_edges(1, 0.0, fine)
    outer = rim(list(faces)) - floor
    if not outer:
        return Bored((), ())
    z = [network.point(n)[0] for k in outer for n in network.edges[k][:2]]
    near = AT_END * fine
    ends = outer & (network.level_edges(0, max(z), near) | network.level_edges(0, min(z), near))
    gates = _gates(network, outer - ends, fine)
    found, unclear = _opened(network, faces, outer, ends, gates, fine, hidden, hatched)
    facing = _inward(network, faces, outer)
    bore, outside = facing.union(*(f.edges for f in found)), outer - facing
    deeper = _deeper([f for f in less(faces, found) if not f.edges & outside], bore)
    cut = bool(deeper) and any(is_hatched(f.polygon, hatched) for f in faces if f.edges & outer)
    plain = [f for f in deeper if cut and not is_hatched(f.polygon, hatched)]
    empty = [*plain, *(f for f in less(deeper, plain) if all(network.edges[k].label in hidden for k in f.edges - bore))]
    left = less(deeper, empty)
    unclear += [f.inside for f in left if not cut]
    boxed = [*plain, *(f for f in left if cut and not _like_thread(f))]
    return Bored((*found, *empty), tuple(unclear), tuple(f.inside for f in boxed))


def _opened(
    network: Network,
    faces: Sequence[Face],
    outer: Set[int],
    ends: Set[int],
    gates: Set[int],
    fine: float,
    hidden: frozenset[int],
    hatched: Sequence[shapely.Geometry],
) -> tuple[list[Face], list[Point]]:
    """The faces within `outer` that are bores, and where inner lines may be a bore or a thread.

    A bore may lie within a thread's root, both in one section: the root alone closes off the metal between them.
    """
    floor, closed = network.level_edges(1, 0.0, fine), outer - ends - gates
    inner = [f for f in faces if f.edges & floor and not f.edges & closed]
    found: list[Face] = []
    unclear: list[Point] = []
    for group in grouped(inner):
        opens = any(f.edges & gates for f in group)
        if not (opens or any(f.edges & ends for f in group)) or len(group) == len(faces):
            continue
        above = [f for f in less(faces, inner) if _over(f, group)]
        cut = any(is_hatched(f.polygon, hatched) for f in above)
        rest = [] if cut else grouped(_within_root(network, group, outer, fine))
        if stepped := [f for one in rest if len(_radii(network, rim(one) - ends, fine)) > 1 for f in one]:
            unclear.append(_on_ceiling(network, group, ends, fine))
            found += stepped
        elif (
            opens
            or cut
            or len(_radii(network, rim(group) - ends, fine)) > 1
            or any(len(_radii(network, f.edges & outer, fine)) > 1 for f in above)
            or _hidden_in_line(network, group, hidden, fine)
        ):
            found += group
        else:
            unclear.append(_on_ceiling(network, group, ends, fine))
    return found, unclear


def _within_root(network: Network, group: Sequence[Face], outer: Set[int], fine: float) -> list[Face]:
    """The faces of a group that a thread's root closes off but for those over lines along the axis in it, its metal.

    None where no such line is in it, which a bore in section holds none of, or where what closes it off is no root.
    """
    edge, highest = rim(list(group)), max(abs(network.mid(network.edges[k])[1]) for k in outer)
    if max(abs(network.mid(network.edges[k])[1]) for k in edge) < (1 - DEEPEST) * highest:
        return []
    metal = [f for f in group if any(_over_line(network, f, k, fine) for k in f.edges - edge)]
    return less(list(group), metal) if metal else []


def _over_line(network: Network, face: Face, edge: int, fine: float) -> bool:
    """True if a face lies over an edge along the axis."""
    (z0, r0), (z1, r1) = network.ends(edge)
    if abs(r0 - r1) > fine or abs(r0) <= fine:
        return False
    return bool(shapely.covers(face.polygon, shapely.Point((z0 + z1) / 2, r0 + math.copysign(fine, r0))))


def _like_thread(face: Face) -> bool:
    """True for a face as long along the axis, for its height, as what a thread's root closes off."""
    low, bottom, high, top = face.bounds
    return bool(high - low >= THREADED * (top - bottom))


def _deeper(left: Sequence[Face], bore: Set[int]) -> list[Face]:
    """Faces beside the edges of a bore, and those behind them: recesses of it with something drawn before them.

    `left`: those that reach neither the axis nor the outside. A section's metal does, and is hatched where anything is.
    """
    deeper = list[Face]()
    while reached := [f for f in left if f.edges & bore]:
        deeper, left = [*deeper, *reached], less(left, reached)
        bore = {k for f in reached for k in f.edges}
    return deeper


def _inward(network: Network, faces: Sequence[Face], outer: Set[int]) -> set[int]:
    """The edges along the axis from which nothing stands between them and it: the bore of halves drawn apart."""
    level = [k for k in outer if not network.edges[k].bulge and network.ends(k)[0][0] != network.ends(k)[1][0]]
    z, r = np.array([network.mid(network.edges[k]) for k in level]).reshape(-1, 2).T
    rays = shapely.linestrings(np.stack([np.column_stack([z, 0 * r]), np.column_stack([z, r * (1 - NEXT)])], axis=1))
    # The faces ask the rays: what asks is prepared, and one face of a row of thousands of grooves meets all of them.
    met = shapely.STRtree(rays).query([f.polygon for f in faces], predicate="intersects")[1]
    return {level[k] for k in set(range(len(level))) - set(met.tolist())}


def _gates(network: Network, edges: set[int], fine: float) -> set[int]:
    """Radial edges that stand on the axis, in one piece or several: seen behind an open bore."""
    upright = [(k, *network.ends(k)) for k in edges if network.level(k, 0, fine)]
    radial = [(min(abs(a[1]), abs(b[1])), max(abs(a[1]), abs(b[1])), (a[0] + b[0]) / 2, k) for k, a, b in upright]
    tops: dict[tuple[int, int], list[Point]] = {}  # by squares as wide as `fine`: at a wall of many grooves stand many
    found: set[int] = set()
    if not any(row[0] <= fine for row in radial):
        return found
    for low, high, z, k in sorted(radial):
        row, column = _square(z, low, fine)
        near = (top for i in (0, -1, 1) for j in (0, -1, 1) for top in tops.get((row + i, column + j), ()))
        if low <= fine or any(abs(z - at) <= fine and abs(low - top) <= fine for at, top in near):
            tops.setdefault(_square(z, high, fine), []).append((z, high))
            found.add(k)
    return found


def _square(z: float, radius: float, fine: float) -> tuple[int, int]:
    """The square of a grid as wide as `fine` in which a place lies."""
    return math.floor(z / fine), math.floor(radius / fine)


def grouped(faces: Sequence[Face]) -> list[list[Face]]:
    """Faces that share edges, grouped."""
    pairs: list[tuple[int, int]] = []
    owner: dict[int, int] = {}
    for i, face in enumerate(faces):
        for k in face.edges:
            if k in owner:
                pairs.append((owner[k], i))
            owner[k] = i
    return [[faces[i] for i in sorted(nodes)] for nodes in groups(pairs, alone=range(len(faces)))]


def _radii(network: Network, edges: Iterable[int], fine: float) -> set[int]:
    """The radii, in steps of ten times `fine`, of the edges along the axis."""
    ends = (network.ends(k) for k in edges)
    return {round(abs(one) / (10 * fine)) for (_, one), (_, two) in ends if abs(one - two) <= fine < abs(one)}


def _on_ceiling(network: Network, group: list[Face], ends: Set[int], fine: float) -> tuple[float, float]:
    """The middle of the longest line along the axis that bounds the group."""
    rows = (network.ends(k) for k in rim(group) - ends)
    spans = [(abs(a[0] - b[0]), middle(a, b, 0.0)) for a, b in rows if abs(a[1] - b[1]) <= fine < abs(a[1])]
    return max(spans)[1] if spans else group[0].inside


def _over(face: Face, group: list[Face]) -> bool:
    """True if a face lies above the group along z."""
    low, high = min(f.bounds[0] for f in group), max(f.bounds[2] for f in group)
    return bool(face.bounds[2] > low and face.bounds[0] < high)


def _hidden_in_line(network: Network, group: list[Face], hidden: frozenset[int], fine: float) -> bool:
    """True if hidden lines bound the group along the axis, or some of its one line there: the rest is broken out."""
    level = [k for k in rim(group) - network.level_edges(1, 0.0, fine) if network.level(k, 1, fine)]
    return any(network.edges[k].label in hidden for k in level)
