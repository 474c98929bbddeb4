"""Grooves whose mouth line runs on: a closed rectangle or triangle under the outline that must not count as metal.

Such a pocket touches the outside along one level line only, stands on two walls that neighbours share, and does not
reach the axis. A thread drawn by a second line looks the same where it lies between two lands, but is many times
longer than deep; hatching gives slanting cells, knurling a row of cells side by side. Those are told apart here.
"""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

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


def pockets(network: Network, faces: Sequence[Face], fine: float, roots: frozenset[int] = frozenset()) -> Pockets:
    """The pockets among the faces of one half. What a thread's root closes off, `roots` their labels, is none."""
    outer = rim(list(faces))
    found = [f for f in faces if _is_pocket(network, f, outer, fine)]
    shared = Counter(k for f in found for k in f.edges)
    crowded = [f for f in found if any(shared[k] > 1 for k in f.edges)]
    rows = crowded if len(crowded) > 2 else []
    single = less(found, rows)
    long = [f for f in single if _long(f) or _half_way(f)]
    cells = _apart(network, [f for f in faces if _in_face(network, f, outer, fine)], fine)
    cells = [f for f in cells if not any(network.edges[k].label in roots for k in f.edges)]
    cells = [f for f in cells if not _bottom_runs_on(network, f, outer, fine)]
    walled = [f for f in cells if _between_walls(network, f, outer, fine)]
    leaning = [f for f in less(cells, walled) if _ends_at_face(network, f, outer)]
    rings = [*walled, *(leaning if len(leaning) <= ALONE else [])]
    rings += _behind(network, rings, [f for f in less(faces, rings) if not f.edges & outer], fine)
    return Pockets(tuple(less(single, long)), tuple(rings), tuple(long), tuple(rows))


def _apart(network: Network, cells: Sequence[Face], fine: float) -> list[Face]:
    """The cells in an end face but those with a wall between them: hidden lines drawn plain, in a view from outside."""
    walls = Counter(k for f in cells for k in f.edges if network.level(k, 1, fine))
    return [f for f in cells if not any(walls[k] > 1 for k in f.edges)]


def _behind(network: Network, rings: Sequence[Face], faces: Sequence[Face], fine: float) -> list[Face]:
    """The rest of grooves in an end face, behind the edges of their corner radii that are seen across them."""
    found: list[Face] = []
    reached = list(rings)
    while reached:
        ring, left = reached.pop(), less(faces, found)
        low, high = ring.bounds[1] - fine, ring.bounds[3] + fine
        across = {k for k in ring.edges if network.level(k, 0, fine)}
        more = [f for f in left if f.edges & across and low <= f.bounds[1] and f.bounds[3] <= high]
        found += more
        reached += more
    return found


def _long(face: Face) -> bool:
    """True for a pocket many times longer than deep."""
    low, bottom, high, top = face.bounds
    return bool(high - low > LONG * (top - bottom))


def _half_way(face: Face) -> bool:
    """True for a pocket as deep as half the radius of its mouth, where a hexagon has an edge."""
    radii = [abs(r) for _, r in face.polygon.exterior.coords]
    return bool(abs(min(radii) - max(radii) / 2) <= HALF_WAY * max(radii))


class MouthLine(NamedTuple):
    """Where alone a face meets the outside: its edges there, all at one place, and from where to where they run.

    `way`: along the axis (0), or square to it (1), in radii then.
    """

    edges: frozenset[int]
    low: float
    high: float
    way: int


def mouth_line(network: Network, face: Face, outer: set[int], way: int, fine: float) -> MouthLine | None:
    """The straight edges by which a face meets the outside, if all run one way at one place and others close it."""
    edges, spans = face.edges & outer, network.spans
    if not edges or edges == face.edges:
        return None
    ends = [(z, abs(r)) for k in edges for z, r in spans[k]]
    places = [end[1 - way] for end in ends]
    if max(places) - min(places) > fine or any(network.edges[k].bulge for k in edges):
        return None
    along = [end[way] for end in ends]
    return MouthLine(edges, min(along), max(along), way)


def _walled(network: Network, face: Face, at: MouthLine, fine: float) -> bool:
    """True if a face stands on two walls square to its mouth, near the ends of that."""
    walls = [
        k for k in face.edges - at.edges if network.level(k, at.way, fine) and not network.level(k, 1 - at.way, fine)
    ]
    places = [abs(network.mid(network.edges[k])[1]) if at.way else network.mid(network.edges[k])[0] for k in walls]
    margin = BESIDE * (at.high - at.low)
    return any(p <= at.low + margin for p in places) and any(p >= at.high - margin for p in places)


def _after(network: Network, at: MouthLine, outer: set[int]) -> list[tuple[int, list[int]]]:
    """The nodes at which a mouth ends, with the edges of the rim that go on there."""
    nodes = [n for k in at.edges for n in network.edges[k][:2]]
    tips = (n for n in nodes if nodes.count(n) == 1)
    return [(tip, [k for k in network.around[tip] if k in outer and k not in at.edges]) for tip in tips]


def _is_pocket(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if a face is closed by a mouth line alone."""
    at = mouth_line(network, face, outer, 0, fine)
    if at is None:
        return False
    lowest = min(abs(r) for _, r in face.polygon.exterior.coords)
    top = abs(network.ends(min(at.edges))[0][1])
    left, _, right, _ = face.bounds
    if lowest <= 10 * fine or lowest > top - fine or at.low - left > fine or right - at.high > fine:
        return False
    if _no_mouth(network, at, outer, fine) or _floor_runs_on(network, face, lowest, fine):
        return False
    return _walled(network, face, at, fine) or _triangle(face, fine)


def _in_face(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if a face is closed by an end face's line alone, which goes on at both ends of it."""
    at = mouth_line(network, face, outer, 1, fine)
    low, lowest, high, highest = face.bounds
    lowest = lowest if face.inside[1] > 0 else -highest
    if at is None or lowest <= 10 * fine or high - low <= fine:
        return False
    return all(any(network.level(k, 0, fine) for k in edges) for _, edges in _after(network, at, outer))


def _ends_at_face(network: Network, face: Face, outer: set[int]) -> bool:
    """True if no line of such a face runs on beyond its mouth, as the head of an arrow does that lies across a wall."""
    ends = {n for k in face.edges & outer for n in network.edges[k][:2]}
    return all(k in outer or k in face.edges for n in ends for k in network.around[n])


def _between_walls(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if such a face stands on two walls along the axis."""
    at = mouth_line(network, face, outer, 1, fine)
    return at is not None and _walled(network, face, at, fine)


def _no_mouth(network: Network, at: MouthLine, outer: set[int], fine: float) -> bool:
    """True if what goes on beyond the line makes it no mouth.

    Where the outside rises at both ends it is a groove's floor, with something else drawn below it. Where it falls at
    one, as at a chamfer or a step, no land is left beside it: what lies below is a thread's root.
    """
    rises = falls = 0
    for tip, edges in _after(network, at, outer):
        level = abs(network.point(tip)[1])
        beyond = [abs(r) for k in edges for _, r in (*network.ends(k), network.mid(network.edges[k]))]
        rises += any(r > level + fine for r in beyond)
        falls += any(r < level - fine for r in beyond)
    return rises > 1 or falls > 0


def _floor_runs_on(network: Network, face: Face, lowest: float, fine: float) -> bool:
    """True if the line at the bottom runs on beyond the walls: a bore's or a thread's, not a floor.

    It may lean a little there where a gap at its end was closed.
    """
    low = {n for k in face.edges for n in network.edges[k][:2] if abs(abs(network.point(n)[1]) - lowest) <= fine}
    floor = {network.edges[k].label for k in face.edges if set(network.edges[k][:2]) <= low}
    for k in {k for n in low for k in network.around[n]} - face.edges:
        (z0, r0), (z1, r1) = network.ends(k)
        level = fine if network.edges[k].label not in floor else TILT * abs(z0 - z1)
        if abs(r0 - r1) <= level and abs(z0 - z1) > fine:
            return True
    return False


def _bottom_runs_on(network: Network, face: Face, outer: set[int], fine: float) -> bool:
    """True if the bottom of a cell in an end face runs on through the metal on both sides, as no floor of a ring does.

    So the end of a spline or of a flat does, seen from outside, to which edges run along from the end face.
    """
    mouth = network.ends(min(face.edges & outer))[0][0]
    bottom = max(face.bounds[0], face.bounds[2], key=lambda z: abs(z - mouth))
    on = {n for k in face.edges for n in network.edges[k][:2] if abs(network.point(n)[0] - bottom) <= fine}
    heights = [abs(network.point(n)[1]) for n in on]
    beyond = {k for n in on for k in network.around[n] if network.level(k, 0, fine)} - face.edges - outer
    middles = [abs(network.mid(network.edges[k])[1]) for k in beyond]
    return any(r > max(heights) for r in middles) and any(r < min(heights) for r in middles)


def _triangle(face: Face, fine: float) -> bool:
    """True for a triangle on its point with two like sides: a vee under its mouth line."""
    corners = list(face.polygon.simplify(fine).exterior.coords)[:-1]
    if len(corners) != 3:
        return False
    tip = min(corners, key=lambda c: abs(c[1]))
    (z0, _), (z1, _) = (c for c in corners if c is not tip)
    return bool(abs(z0 + z1 - 2 * tip[0]) <= LEAN * abs(z1 - z0))
