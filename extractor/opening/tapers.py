"""Edges of a polyline that taper to a point, as many programs draw the head of an arrow: the triangle that they fill.

So they are read as the same triangle is where it is filled otherwise.
"""

import math
from collections.abc import Sequence

from extractor.opening.splines import Stroke
from extractor.opening.strokes import Chain

Widths = Sequence[tuple[float, float]]
"""How wide each edge of a polyline is where it begins and where it ends, on the sheet."""


def with_tapers(strokes: list[Stroke], widths: Widths) -> list[Stroke]:
    """The strokes of a polyline in one piece, with a triangle for each straight edge that tapers to a point."""
    tapers = [k for k, (start, end) in enumerate(widths) if (start == 0) != (end == 0)]
    chain = strokes[0] if len(strokes) == 1 else None
    if not tapers or not isinstance(chain, Chain):
        return strokes
    (points, bulges), found, run = chain, list[Stroke](), 0
    for k in (k for k in tapers if k < len(bulges) and not bulges[k]):
        found += [Chain(points[run : k + 1], bulges[run:k])] if k > run else []
        (x0, y0), (x1, y1), wide = points[k], points[k + 1], max(widths[k])
        (tip_x, tip_y), (x, y) = ((x0, y0), (x1, y1)) if widths[k][0] == 0 else ((x1, y1), (x0, y0))
        size = math.hypot(x1 - x0, y1 - y0)
        if size:
            across, up = -(y1 - y0) / size * wide / 2, (x1 - x0) / size * wide / 2
            corners = (tip_x, tip_y), (x + across, y + up), (x - across, y - up), (tip_x, tip_y)
            found.append(Chain(corners, (0.0, 0.0, 0.0)))
        run = k + 1
    return found + ([Chain(points[run:], bulges[run:])] if run < len(bulges) else [])
