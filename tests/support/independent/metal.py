"""A turned part as the half section that a grooving tool finds: everything turned, no outside groove cut yet."""

import itertools
import math

from shapely import Polygon, box, unary_union

from support.independent.parts import Bent, TurnedPart
from support.ink import bulge_arc


def chords(run: list[Bent], steps: int = 24) -> list[tuple[float, float]]:
    """A run with its arcs as short chords."""
    points = [run[0][:2]]
    for (z, r, bulge), (v, q, _) in itertools.pairwise(run):
        if bulge:
            arc = bulge_arc((z, r), (v, q), bulge)
            first = math.atan2(r - arc.centre[1], z - arc.centre[0])
            for step in range(1, steps):
                angle = first + 4 * math.atan(bulge) * step / steps
                points.append(
                    (arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle))
                )
        points.append((v, q))
    return points


def half_section(part: TurnedPart) -> Polygon:
    """The finished part, z along and radius up."""
    return Polygon(chords([*part.loop(), part.loop()[0]]))


def before_grooving(part: TurnedPart) -> Polygon:
    """The part with every outside groove still full up to its mouth, broken edges too."""
    fills = [
        box(g.z_far - g.edge_chamfer, g.floor_diameter / 2 - 1e-9, g.z_near + g.edge_chamfer, g.mouth_diameter / 2)
        for g in part.grooves
        if g.where == "outside"
    ]
    return unary_union([half_section(part), *fills]).buffer(0)
