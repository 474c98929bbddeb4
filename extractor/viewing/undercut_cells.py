"""Empty cells beside a recess's wall: where it widens below its mouth, behind an edge line.

Behind the cut of a section, and in a side view with hidden lines, the edges of the mouth run down across such a recess.
They cut off what lies under the metal: a cell that stands on the end of the floor, closed by the mouth's edge on the
side of the recess and by lines within the metal on the other, no higher and no lower than that edge. Metal beside a
wall goes on up to the land, down below the floor, or both, whatever hatching or edges divide it.
"""

from collections.abc import Iterator, Sequence

import shapely

from extractor.geometry.network import Face, Network, rim
from extractor.values import dataclass


def undercut_cells(network: Network, faces: Sequence[Face], fine: float) -> tuple[Face, ...]:
    """The empty cells among the metal faces of one half."""
    if not faces:
        return ()
    outer = rim(list(faces))
    metal = _Metal.of(faces)
    return tuple(face for face in faces if _is_cell(network, face, outer, metal, fine))


@dataclass(frozen=True)
class _Metal:
    """The metal faces of one half, looked up by place, and the z between which they lie."""

    tree: shapely.STRtree
    low: float
    high: float

    @classmethod
    def of(cls, faces: Sequence[Face]) -> "_Metal":
        """The faces made ready."""
        tree = shapely.STRtree([face.polygon for face in faces])
        low, _, high, _ = shapely.total_bounds(tree.geometries).tolist()
        return cls(tree, low, high)


def _is_cell(network: Network, face: Face, outer: set[int], metal: _Metal, fine: float) -> bool:
    """True if a face stands beside a recess's wall alone, from the end of the floor to where the wall ends."""
    wall = face.edges & outer
    if not wall or not face.edges - wall:
        return False
    ends = [network.point(n) for k in wall for n in network.edges[k][:2]]
    if any(network.edges[k].bulge for k in wall) or max(z for z, _ in ends) - min(z for z, _ in ends) > fine:
        return False
    radii = sorted(abs(r) for _, r in ends)
    _, one, _, other = face.polygon.bounds
    low, high = sorted((abs(one), abs(other)))
    if abs(low - radii[0]) > fine or abs(high - radii[-1]) > fine or high - low <= fine:
        return False
    way = -1.0 if face.inside[0] > ends[0][0] else 1.0
    return any(_faced(foot, way, metal, fine) for foot in _feet(network, face, wall, outer, radii[0], fine))


def _feet(
    network: Network, face: Face, wall: frozenset[int], outer: set[int], low: float, fine: float
) -> Iterator[tuple[float, float]]:
    """Where the floor before a wall ends: at the wall's lower end, or where a corner begins that runs on under it.

    A relief after DIN 509 form F has such a corner: its radius is larger than what it reaches into the shoulder.
    """
    beyond = {network.edges[k].label for k in face.edges - wall if network.edges[k].bulge}
    feet = {n for k in wall for n in network.edges[k][:2] if abs(abs(network.point(n)[1]) - low) <= fine}
    for n in feet:
        for edge in (network.edges[k] for k in network.around[n] if k in outer and k not in wall):
            ends = [network.point(edge.a), network.point(edge.b)]
            if abs(ends[0][1] - ends[1][1]) <= fine:
                yield network.point(n)
            elif edge.bulge and edge.label in beyond:
                yield min(ends, key=lambda end: abs(end[1]))


def _faced(foot: tuple[float, float], way: float, metal: _Metal, fine: float) -> bool:
    """True if metal stands over the floor across from the wall: before a shoulder on plain metal there is none."""
    z, r = foot[0], foot[1] + 2 * fine * (1.0 if foot[1] > 0 else -1.0)
    ray = shapely.LineString([(z + way * 2 * fine, r), (metal.low - fine if way < 0 else metal.high + fine, r)])
    return len(metal.tree.query(ray, predicate="intersects")) > 0
