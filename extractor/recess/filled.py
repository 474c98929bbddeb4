"""Recesses that no line bounds: filled with ink, drawn as one wide stroke, or shown by hidden lines in the outside.

A groove is drawn by its edges, and nothing hides one in the outside (ISO 128-3, from memory), so none of these is read
as one. Where one stands in the metal at its outside on all halves drawn, the drawing may mean a groove. A section that
is filled all over has no metal left below; a head of a dimension only touches the outside with its point.
"""

from collections.abc import Sequence

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import chords
from extractor.geometry.network import rim
from extractor.recess.ghosts import Seen
from extractor.sheet import Ints, Pen, Segments
from extractor.values import dataclass
from extractor.viewing.axis import NO_OUTLINE
from extractor.viewing.outline import Folded

WIDER = 1.5
"""A stroke is drawn wide if it is so many times as wide as any line of the outline."""

PEN = 5e-3
"""The outline counts as at least this share of the view's size wide: the file need not say how wide its lines are."""

WITHIN = 0.5
"""More than this share of what is filled lies in the metal."""

OPEN = 0.25
"""It stands at the outside along more than this share of its own length: a head touches it with its point."""

SHORT = 0.1
"""It may end short of the outside by this share of its height: a head is a tenth of its width so near its point."""

BELOW = 0.1
"""Metal of more than this share of its area is left between it and the axis."""

ALIKE = 0.9
"""What is filled on both halves covers its own mirror image to this share."""


@dataclass(frozen=True)
class _Inked:
    """One half: its metal and the line of its outside, laid with radii upward."""

    metal: shapely.Geometry
    outside: shapely.Geometry

    def holds(self, area: shapely.Geometry, ink: shapely.Geometry, near: float) -> bool:
        """True if an area that is filled stands in the metal at the outside, with metal below it."""
        low, foot, high, top = area.bounds
        reach = max(near, SHORT * (top - foot))
        # The rest of a long part is far from it.
        outside = shapely.clip_by_rect(
            self.outside, low - 2 * reach, foot - 2 * reach, high + 2 * reach, top + 2 * reach
        )
        left, _, right, _ = shapely.intersection(area, outside.buffer(reach)).bounds
        here = shapely.box(low, 0.0, high, top)
        # Where a side of one lies along that of the other lines are left besides areas: they bound nothing.
        metal, cover = (shapely.intersection(one, here).buffer(0.0) for one in (self.metal, ink))
        below = shapely.difference(metal, cover)
        return bool(
            shapely.intersection(area, metal).area > WITHIN * area.area
            and right - left > OPEN * (high - low)
            and below.area > BELOW * area.area
        )


def filled(folded: Folded, halves: Sequence[Seen]) -> Point | None:
    """A place (z, radius) on what is filled where a groove may be meant, on all halves drawn; None where nothing is."""
    areas = _areas(folded, halves)
    if not areas:
        return None
    rows = []
    for seen in halves:
        mine = [shapely.transform(area, lambda p, s=seen.sign: p * (1.0, s)) for area in areas]
        inked, ink = _inked(seen), shapely.union_all(mine)
        rows.append([area for area in mine if inked.holds(area, ink, folded.close)])
    for area in rows[0]:
        if all(any(shapely.intersection(area, o).area >= ALIKE * max(area.area, o.area) for o in r) for r in rows[1:]):
            place = area.representative_point()
            return float(place.x), float(place.y)
    return None


def _inked(seen: Seen) -> _Inked:
    """One half as areas and lines."""
    bore = [p for piece in seen.half.bore for p in piece.ends]
    metal = shapely.difference(_below(seen.outline), _below(bore))
    return _Inked(metal, shapely.LineString(seen.outline))


def _below(line: Sequence[Point]) -> shapely.Geometry:
    """The area between a line and the axis, none below no line."""
    return shapely.Polygon([*line, (line[-1][0], 0.0), (line[0][0], 0.0)] if line else ()).buffer(0.0)


def _areas(folded: Folded, halves: Sequence[Seen]) -> list[shapely.Polygon]:
    """What is filled on the view, laid along z: the inside of solid hatches, and strokes wider than the outline."""
    drawn, axis = folded.drawn, folded.axis
    solid = drawn.of(lambda s: s.filled)
    borders = [_enclosed(drawn, np.flatnonzero(drawn.source == k)) for k in np.unique(drawn.source[solid])]
    inked = [shapely.transform(area, axis.fold) for row in borders for area in row]
    network = folded.network
    mine = {network.edges[k].label for seen in halves for k in rim(list(seen.half.material.faces))}
    widths = np.array([s.width for s in drawn.sources], dtype=float)[drawn.source]
    outline = float(widths[sorted(k for k in mine if k >= 0)].max(initial=0.0))
    fit = drawn.of(lambda s: s.pen is Pen.SOLID and s.owner not in NO_OUTLINE) & (drawn.bulge == 0)
    wide = np.flatnonzero(fit & (widths > WIDER * max(outline, PEN * folded.view.size)))
    lines = shapely.linestrings(axis.fold(drawn.ends[wide].reshape(-1, 2)).reshape(-1, 2, 2))
    strokes = shapely.buffer(lines, widths[wide] / 2, cap_style="flat")
    return [area for area in (*inked, *strokes.tolist()) if area.area > 0]


def _enclosed(drawn: Segments, rows: Ints) -> list[shapely.Polygon]:
    """The areas that the segments of one border enclose."""
    ends, bulges = drawn.ends[rows].tolist(), drawn.bulge[rows].tolist()
    lines = [
        shapely.LineString(chords((a, b), (c, d), bulge)) for (a, b, c, d), bulge in zip(ends, bulges, strict=True)
    ]
    found: list[shapely.Polygon] = shapely.get_parts(shapely.polygonize([shapely.union_all(lines)])).tolist()
    return found
