"""Sample numbers -> the points of a profile, and its edges as a draughtsman draws them.

A `Vertex` is (z, radius, bulge to the next): z is 0 at the front face and negative toward the chuck, bulge as in DXF.
"""

import itertools
import math

from samples import Sample, SampleGroove

Vertex = tuple[float, float, float]
Segment = tuple[tuple[float, float], tuple[float, float], float]

# A quarter circle run through clockwise, as both floor corners are from front to back.
FILLET = -math.tan(math.pi / 8)


def recess_vertices(recess: SampleGroove, land: float) -> list[Vertex]:
    """The points of one groove, front to back, from the mouth's near edge to its far edge."""
    near, far = -recess.start, -recess.start - recess.width
    top, floor = land / 2, recess.floor / 2
    corner, edge = recess.corner_radius, recess.edge_chamfer
    points: list[Vertex] = [(near + edge, top, 0.0), (near, top - edge, 0.0)] if edge else [(near, top, 0.0)]
    if corner:
        points += [(near, floor + corner, FILLET), (near - corner, floor, 0.0)]
        points += [(far + corner, floor, FILLET), (far, floor + corner, 0.0)]
    else:
        points += [(near, floor, 0.0), (far, floor, 0.0)]
    points += [(far, top - edge, 0.0), (far - edge, top, 0.0)] if edge else [(far, top, 0.0)]
    return points


def profile(sample: Sample) -> list[Vertex]:
    """The outside of the part from the front face to the back face, without the faces themselves."""
    chamfer = sample.end_chamfer
    first = sample.steps[0][1] / 2
    points: list[Vertex] = [(0.0, first - chamfer, 0.0), (-chamfer, first, 0.0)] if chamfer else [(0.0, first, 0.0)]
    begin = 0.0
    for length, diameter in sample.steps:
        if begin:
            points.append((-begin, diameter / 2, 0.0))
        for recess in sample.recesses:
            if begin <= recess.start < begin + length:
                points += recess_vertices(recess, diameter)
        begin += length
        points.append((-begin, diameter / 2, 0.0))
    return points


def segments(points: list[Vertex]) -> list[Segment]:
    """Each straight or arc from one vertex to the next."""
    return [((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in itertools.pairwise(points)]


def silhouette(points: list[Vertex]) -> list[Segment]:
    """What of the profile is drawn as such in a side view: all but the walls, which are edges right across."""
    return [one for one in segments(points) if one[0][0] != one[1][0]]


def visible_edges(points: list[Vertex]) -> list[tuple[float, float]]:
    """Place and radius of each edge right across the part: at corners, not where a fillet runs out in a floor."""
    fillets = [one for one in segments(points) if one[2]]
    smooth = {end for start, stop, _ in fillets for end in (start, stop)}
    tallest: dict[float, float] = {}
    for z, radius, _ in points:
        if (z, radius) not in smooth:
            tallest[z] = max(radius, tallest.get(z, 0.0))
    return sorted(tallest.items(), reverse=True)
