"""Bores that the lines of a view close off: which faces about the axis are empty.

A face on the axis is part of a bore if nothing but the end face of the part bounds it outside, and it is connected
with one that opens in an end face. In a plain side view a thread's second line looks just like that, so it counts as a
bore only where something shows a section: hatching above it, steps of the outside that no edge line carries down to it,
or steps of its own.
"""

import math
from collections.abc import Iterable, Sequence

import shapely

from extractor.finding import Point
from extractor.geometry.joining import groups
from extractor.geometry.network import Face, Network, rim
from extractor.values import dataclass
from extractor.viewing.hatching import is_hatched


@dataclass(frozen=True)
class Bored:
    """Faces that are bores, and the places (z, radius) of inner lines that may be a bore or a thread."""

    faces: tuple[Face, ...]
    unclear: tuple[tuple[float, float], ...]


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
    ends = outer & (network.level_edges(0, max(z), fine) | network.level_edges(0, min(z), fine))
    gates = _gates(network, outer - ends, fine)
    closed = outer - ends - gates
    inner = [f for f in faces if f.edges & floor and not f.edges & closed]
    within = {id(f) for f in inner}
    found: list[Face] = []
    unclear: list[tuple[float, float]] = []
    for group in grouped(inner):
        opens = any(f.edges & gates for f in group)
        if not (opens or any(f.edges & ends for f in group)) or len(group) == len(faces):
            continue
        ceiling = _radii(network, rim(group) - ends, fine)
        above = [f for f in faces if id(f) not in within and _over(f, group)]
        if (
            opens
            or len(ceiling) > 1
            or _is_section(network, above, outer, hatched, fine)
            or _all_hidden(network, group, hidden, fine)
        ):
            found += group
        else:
            unclear.append(_on_ceiling(network, group, ends, fine))
    deeper = _deeper(faces, found, outer)
    if any(is_hatched(f.polygon, hatched) for f in faces if f.edges & outer):
        found += [f for f in deeper if not is_hatched(f.polygon, hatched)]
    else:
        unclear += [f.inside for f in deeper]
    return Bored(tuple(found), tuple(unclear))


def _deeper(faces: Sequence[Face], found: Sequence[Face], outer: set[int]) -> list[Face]:
    """Faces beside a bore that reach neither the axis nor the outside: recesses of it with something drawn before them.

    A section's metal reaches the outside, and is hatched where anything is.
    """
    known, reached = {id(f) for f in found}, list(found)
    left = [f for f in faces if id(f) not in known and not f.edges & outer]
    deeper: list[Face] = []
    while reached:
        bore = {k for f in reached for k in f.edges}
        reached = [f for f in left if f.edges & bore]
        left = [f for f in left if not f.edges & bore]
        deeper += reached
    return deeper


def _gates(network: Network, edges: set[int], fine: float) -> set[int]:
    """Radial edges that stand on the axis, in one piece or several: seen behind an open bore."""
    radial = []
    for k in edges:
        edge = network.edges[k]
        (z0, r0), (z1, r1) = network.point(edge.a), network.point(edge.b)
        if edge.bulge == 0 and abs(z0 - z1) <= fine:
            radial.append((min(abs(r0), abs(r1)), max(abs(r0), abs(r1)), (z0 + z1) / 2, k))
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


def _on_ceiling(network: Network, group: list[Face], ends: set[int], fine: float) -> tuple[float, float]:
    """The middle of the longest line along the axis that bounds the group."""
    spans = []
    for k in rim(group) - ends:
        (z0, r0), (z1, r1) = network.ends(k)
        if abs(r0 - r1) <= fine < abs(r0):
            spans.append((abs(z0 - z1), (z0 + z1) / 2, (r0 + r1) / 2))
    return max(spans)[1:] if spans else group[0].inside


def _over(face: Face, group: list[Face]) -> bool:
    """True if a face lies above the group along z."""
    low = min(f.bounds[0] for f in group)
    high = max(f.bounds[2] for f in group)
    left, _, right, _ = face.bounds
    return bool(min(right, high) - max(left, low) > 0)


def _is_section(
    network: Network, above: Iterable[Face], outer: set[int], hatched: Sequence[shapely.Geometry], fine: float
) -> bool:
    """True if what lies above is hatched, or reaches over more than one land in one face."""
    return any(is_hatched(f.polygon, hatched) or len(_radii(network, f.edges & outer, fine)) > 1 for f in above)


def _all_hidden(network: Network, group: list[Face], hidden: frozenset[int], fine: float) -> bool:
    """True if hidden lines alone bound the group along the axis."""
    level = [k for k in rim(group) - network.level_edges(1, 0.0, fine) if network.level(k, 1, fine)]
    return bool(level) and all(network.edges[k].label in hidden for k in level)
