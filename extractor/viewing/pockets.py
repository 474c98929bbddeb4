"""Grooves whose mouth line runs on: a closed rectangle or triangle under the outline that must not count as metal.

Such a pocket touches the outside along one level line only, stands on two walls that neighbours share, and does not
reach the axis. A thread drawn by a second line looks the same where it lies between two lands, but is many times
longer than deep; hatching gives slanting cells, knurling a row of cells side by side. Those are told apart here.
"""

from collections import Counter
from collections.abc import Sequence

from extractor.geometry.network import Face, Network, less, rim
from extractor.values import dataclass

LONG = 6.0
"""A pocket longer than this many times its depth may be a thread as well as a groove."""

HALF_WAY = 0.01
"""A floor at half the radius of its mouth, within this share of it, may be the edge of a hexagon seen over its corners:
those two stand at the sine of 30 degrees."""

BESIDE = 0.25
"""Walls stand within this share of a mouth's width of its ends: broken edges and leaning walls lie between."""

LEAN = 0.02
"""The tip of a vee lies below the middle of its mouth within this share of the mouth: both sides lean alike."""

TILT = 0.1
"""Slope up to which a floor that was bent where a gap at its end was closed still runs on."""

ALONE = 2
"""So many cells in an end face may be grooves whose walls lean; more are hatching, or a knurl."""


@dataclass(frozen=True)
class Pockets:
    """Faces that are grooves under a mouth line, those that may be a thread as well, and those that are a knurl.

    `rings` are grooves in an end face under the line of that face, which a section shows as a matter of course; `long`
    may as well be a thread, or the faces of a hexagon.
    """

    grooves: tuple[Face, ...]
    rings: tuple[Face, ...]
    long: tuple[Face, ...]
    knurl: tuple[Face, ...]


def pockets(network: Network, faces: Sequence[Face], fine: float) -> Pockets:
    """The pockets among the faces of one half."""
    outer = rim(list(faces))
    found = [f for f in faces if _is_pocket(network, f, outer, fine)]
    shared = Counter(k for f in found for k in f.edges)
    crowded = [f for f in found if any(shared[k] > 1 for k in f.edges)]
    rows = crowded if len(crowded) > 2 else []
    single = less(found, rows)
    long = [f for f in single if _long(f) or _half_way(f)]
    cells = _apart(network, [f for f in faces if _in_face(network, f, outer, fine)], fine)
    walled = [f for f in cells if _between_walls(network, f, outer, fine)]
    leaning = [f for f in less(cells, walled) if _ends_at_face(network, f, outer)]
    rings = [*walled, *(leaning if len(leaning) <= ALONE else [])]
    rings += _behind(network, rings, [f for f in less(faces, rings) if not f.edges & outer], fine)
    return Pockets(tuple(less(single, long)), tuple(rings), tuple(long), tuple(rows))


def _apart(network: Network, cells: Sequence[Face], fine: float) -> list[Face]:
    """The cells in an end face but those with a wall between them: hidden lines drawn plain, in a view from outside."""
    walls = Counter(k for f in cells for k in f.edges if level(network, k, 1, fine))
    return [f for f in cells if not any(walls[k] > 1 for k in f.edges)]


def _behind(network: Network, rings: Sequence[Face], faces: Sequence[Face], fine: float) -> list[Face]:
    """The rest of grooves in an end face, behind the edges of their corner radii that are seen across them."""
    found: list[Face] = []
    reached = list(rings)
    while reached:
        ring, left = reached.pop(), less(faces, found)
        low, high = ring.polygon.bounds[1] - fine, ring.polygon.bounds[3] + fine
        across = {k for k in ring.edges if level(network, k, 0, fine)}
        more = [f for f in left if f.edges & across and low <= f.polygon.bounds[1] and f.polygon.bounds[3] <= high]
        found += more
        reached += more
    return found


def _long(face: Face) -> bool:
    """True for a pocket many times longer than deep."""
    low, bottom, high, top = face.polygon.bounds
    return bool(high - low > LONG * (top - bottom))


def _half_way(face: Face) -> bool:
    """True for a pocket as deep as half the radius of its mouth, where a hexagon has an edge."""
    radii = [abs(r) for _, r in face.polygon.exterior.coords]
    return bool(abs(min(radii) - max(radii) / 2) <= HALF_WAY * max(radii))


def _is_pocket(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if a face is closed by a mouth line alone."""
    mouth = face.edges & outer
    if not mouth or not face.edges - mouth:
        return False
    ends = [network.point(n) for k in mouth for n in network.edges[k][:2]]
    level = max(abs(r) for _, r in ends) - min(abs(r) for _, r in ends) <= fine
    straight = all(network.edges[k].bulge == 0 for k in mouth)
    lowest = min(abs(r) for _, r in face.polygon.exterior.coords)
    if not level or not straight or lowest <= 10 * fine or lowest > abs(ends[0][1]) - fine:
        return False
    low, high = min(z for z, _ in ends), max(z for z, _ in ends)
    left, _, right, _ = face.polygon.bounds
    if low - left > fine or right - high > fine or _no_mouth(network, mouth, outer, fine):
        return False
    if _floor_runs_on(network, face, lowest, fine):
        return False
    return _walls(network, face.edges - mouth, low, high, fine) or _triangle(face, fine)


def _in_face(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if a face is closed by an end face's line alone, which goes on at both ends of it."""
    mouth = face.edges & outer
    if not mouth:
        return False
    z = {network.point(n)[0] for k in mouth for n in network.edges[k][:2]}
    low, lowest, high, highest = face.polygon.bounds
    lowest = lowest if face.inside[1] > 0 else -highest
    if max(z) - min(z) > fine or lowest <= 10 * fine or high - low <= fine:
        return False
    nodes = [n for k in mouth for n in network.edges[k][:2]]
    tips = (n for n in nodes if nodes.count(n) == 1)
    after = ([k for k in network.around[tip] if k in outer and k not in mouth] for tip in tips)
    return all(any(level(network, k, 0, fine) for k in edges) for edges in after)


def _ends_at_face(network: Network, face: Face, outer: set[int]) -> bool:
    """True if no line of such a face runs on beyond its mouth, as the head of an arrow does that lies across a wall."""
    ends = {n for k in face.edges & outer for n in network.edges[k][:2]}
    return all(k in outer or k in face.edges for n in ends for k in network.around[n])


def _between_walls(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if such a face stands on two walls along the axis."""
    mouth = face.edges & outer
    walls = [abs(network.mid(network.edges[k])[1]) for k in face.edges - mouth if level(network, k, 1, fine)]
    radii = [abs(network.point(n)[1]) for k in mouth for n in network.edges[k][:2]]
    margin = BESIDE * (max(radii) - min(radii))
    return any(r <= min(radii) + margin for r in walls) and any(r >= max(radii) - margin for r in walls)


def level(network: Network, k: int, across: int, fine: float) -> bool:
    """True for a straight edge at one place along the axis (`across` 0), or at one distance from it (1)."""
    edge = network.edges[k]
    return edge.bulge == 0 and abs(network.point(edge.a)[across] - network.point(edge.b)[across]) <= fine


def _no_mouth(network: Network, mouth: frozenset[int], outer: set[int], fine: float) -> bool:
    """True if what goes on beyond the line makes it no mouth.

    Where the outside rises at both ends it is a groove's floor, with something else drawn below it. Where it falls at
    one, as at a chamfer or a step, no land is left beside it: what lies below is a thread's root.
    """
    nodes = [n for k in mouth for n in network.edges[k][:2]]
    tips = [n for n in nodes if nodes.count(n) == 1]
    level = abs(network.point(tips[0])[1]) if tips else 0.0
    rises = falls = 0
    for tip in tips:
        after = [k for k in network.around[tip] if k in outer and k not in mouth]
        beyond = [abs(network.point(n)[1]) for k in after for n in network.edges[k][:2]]
        rises += any(r > level + fine for r in beyond)
        falls += any(r < level - fine for r in beyond)
    return rises > 1 or falls > 0


def _floor_runs_on(network: Network, face: Face, lowest: float, fine: float) -> bool:
    """True if the line at the bottom runs on beyond the walls: a bore's or a thread's, not a floor.

    It may lean a little there where a gap at its end was closed.
    """
    inner = set(face.edges)
    low = {n for k in inner for n in network.edges[k][:2] if abs(abs(network.point(n)[1]) - lowest) <= fine}
    floor = {network.edges[k].label for k in inner if set(network.edges[k][:2]) <= low}
    for n in low:
        for k in network.around[n]:
            edge = network.edges[k]
            (z0, r0), (z1, r1) = network.point(edge.a), network.point(edge.b)
            level = abs(r0 - r1) <= (fine if edge.label not in floor else TILT * abs(z0 - z1))
            if k not in inner and level and abs(z0 - z1) > fine:
                return True
    return False


def _walls(network: Network, inner: frozenset[int], low: float, high: float, fine: float) -> bool:
    """True if radial walls stand near both ends of the mouth."""
    radial = [k for k in inner if level(network, k, 0, fine) and not level(network, k, 1, fine)]
    places = [network.mid(network.edges[k])[0] for k in radial]
    margin = BESIDE * (high - low)
    return any(z <= low + margin for z in places) and any(z >= high - margin for z in places)


def _triangle(face: Face, fine: float) -> bool:
    """True for a triangle on its point with two like sides: a vee under its mouth line."""
    corners = list(face.polygon.simplify(fine).exterior.coords)[:-1]
    if len(corners) != 3:
        return False
    tip = min(corners, key=lambda c: abs(c[1]))
    (z0, _), (z1, _) = (c for c in corners if c is not tip)
    return bool(abs(z0 + z1 - 2 * tip[0]) <= LEAN * abs(z1 - z0))
