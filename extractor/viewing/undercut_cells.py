"""Empty cells beside a recess's wall: where it widens below its mouth, behind an edge line.

Behind the cut of a section, and in a side view with hidden lines, the edges of the mouth run down across such a recess.
They cut off what lies under the metal: a cell that stands on the end of the floor, closed by the mouth's edge on the
side of the recess and by lines within the metal on the other, no higher and no lower than that edge. Metal beside a
wall goes on up to the land, down below the floor, or both, whatever hatching or edges divide it.
"""

from collections.abc import Iterator, Sequence

import shapely

from extractor.finding import Point
from extractor.geometry.network import Face, Network, rim
from extractor.viewing.pockets import MouthLine, mouth_line


def undercut_cells(network: Network, faces: Sequence[Face], fine: float) -> tuple[Face, ...]:
    """The empty cells among the metal faces of one half."""
    outer, metal = rim(list(faces)), shapely.STRtree([face.polygon for face in faces])
    return tuple(face for face in faces if _is_cell(network, face, outer, metal, fine))


def _is_cell(network: Network, face: Face, outer: set[int], metal: shapely.STRtree, fine: float) -> bool:
    """True if a face stands beside a recess's wall alone, from the end of the floor to where the wall ends."""
    wall = mouth_line(network, face, outer, 1, fine)
    _, one, _, other = face.bounds
    low, high = sorted((abs(one), abs(other)))
    if wall is None or abs(low - wall.low) > fine or abs(high - wall.high) > fine or high - low <= fine:
        return False
    way = -1.0 if face.inside[0] > network.ends(min(wall.edges))[0][0] else 1.0
    return any(_faced(foot, way, metal, fine) for foot in _feet(network, face, wall, outer, fine))


def _feet(network: Network, face: Face, wall: MouthLine, outer: set[int], fine: float) -> Iterator[Point]:
    """Where the floor before a wall ends: at the wall's lower end, or where a corner begins that runs on under it.

    A relief after DIN 509 form F has such a corner: its radius is larger than what it reaches into the shoulder.
    """
    beyond = {network.edges[k].label for k in face.edges - wall.edges if network.edges[k].bulge}
    feet = {n for k in wall.edges for n in network.edges[k][:2] if abs(abs(network.point(n)[1]) - wall.low) <= fine}
    for foot, k in ((n, k) for n in feet for k in network.around[n] if k in outer and k not in wall.edges):
        ends = network.ends(k)
        if abs(ends[0][1] - ends[1][1]) <= fine:
            yield network.point(foot)
        elif network.edges[k].bulge and network.edges[k].label in beyond:
            yield min(ends, key=lambda end: abs(end[1]))


def _faced(foot: Point, way: float, metal: shapely.STRtree, fine: float) -> bool:
    """True if metal stands over the floor across from the wall: before a shoulder on plain metal there is none."""
    z, r = foot[0], foot[1] + 2 * fine * (1.0 if foot[1] > 0 else -1.0)
    low, _, high, _ = shapely.total_bounds(metal.geometries).tolist()
    ray = shapely.LineString([(z + way * 2 * fine, r), (low - fine if way < 0 else high + fine, r)])
    return len(metal.query(ray, predicate="intersects")) > 0
