"""Cells beside a recess's wall that are empty: what widens below its mouth, behind an edge line.

Behind the cut of a section, and in a side view with hidden lines, the edges of the mouth run down across such a recess.
They cut off what lies under the metal: a cell that stands on the end of the floor, closed by the mouth's edge on the
side of the recess and by lines within the metal on the other, no higher and no lower than that edge. Metal beside a
wall goes on up to the land, down below the floor, or both, whatever hatching or edges divide it.
"""

from collections.abc import Sequence

import shapely

from extractor.geometry.network import Face, Network, rim


def undercut_cells(network: Network, faces: Sequence[Face], fine: float) -> tuple[Face, ...]:
    """The empty cells among the metal faces of one half."""
    outer = rim(list(faces))
    metal = shapely.STRtree([face.polygon for face in faces])
    return tuple(face for face in faces if _is_cell(network, face, outer, metal, fine))


def _is_cell(network: Network, face: Face, outer: set[int], metal: shapely.STRtree, fine: float) -> bool:
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
    return _on_floor(network, wall, outer, radii[0], fine) and _faced(face, ends, metal, fine)


def _on_floor(network: Network, wall: frozenset[int], outer: set[int], low: float, fine: float) -> bool:
    """True if an edge of the outside that runs along the axis begins at the lower end of the wall."""
    feet = {n for k in wall for n in network.edges[k][:2] if abs(abs(network.point(n)[1]) - low) <= fine}
    beside = [k for n in feet for k in network.around[n] if k in outer - wall]
    return any(abs(network.point(e.a)[1] - network.point(e.b)[1]) <= fine for e in (network.edges[k] for k in beside))


def _faced(face: Face, ends: Sequence[tuple[float, float]], metal: shapely.STRtree, fine: float) -> bool:
    """True if metal stands across from the wall: a shoulder has none."""
    z, r = ends[0][0], (min(r for _, r in ends) + max(r for _, r in ends)) / 2
    way = -1.0 if face.inside[0] > z else 1.0
    low, _, high, _ = shapely.total_bounds(metal.geometries)
    ray = shapely.LineString([(z + way * 2 * fine, r), (low - fine if way < 0 else high + fine, r)])
    return len(metal.query(ray, predicate="intersects")) > 0
