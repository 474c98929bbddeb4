"""How wide and how deep a detail draws a groove that it shows otherwise than the view, for a person to compare."""

import numpy as np
import shapely

from extractor.part import Groove
from extractor.sizing.details.same_shape import DetailStrokes, Places
from extractor.sizing.measured.features import SQUARE


def sizes_apart(groove: Groove, side: float, strokes: DetailStrokes, times: float, near: float) -> str:
    """The size in which strokes, so many times as large, show a groove otherwise, told of both; "" where none is plain.

    `side`: of the axis, 1 or -1; `near`: how far apart two places of the view are one.
    """
    outward = groove.side.sign * side * 1j if groove.side.axial else -1.0 if groove.from_back else 1.0
    shown = _recesses(strokes.turned(1j / outward), near * times)
    if len(shown) != 1:
        return ""
    sizes = zip(("wide", "deep"), (groove.width, groove.depth), *shown, strict=True)
    return " and ".join(
        f"{at_view:.5g} {name} in the view and {drawn / times:.5g} {name} in the detail"
        for name, at_view, drawn in sizes
        if abs(at_view - drawn / times) > near
    )


def _recesses(strokes: DetailStrokes, near: float) -> set[tuple[float, float]]:
    """Width and depth of each recess that opens upward: a level line with an upright one at both its ends."""
    run = strokes.end - strokes.start
    straight, size = strokes.bulge == 0, np.abs(run)
    level = np.flatnonzero(straight & (np.abs(run.imag) <= SQUARE * size) & (size > near))
    upright = np.flatnonzero(straight & (np.abs(run.real) <= SQUARE * size) & (size > near))
    feet: Places = np.where(run.imag > 0, strokes.start, strokes.end)[upright]
    tree, high = shapely.STRtree(shapely.points(feet.real, feet.imag)), np.abs(run[upright].imag)
    found = set[tuple[float, float]]()
    for k in level.tolist():
        ends = np.array([strokes.start[k], strokes.end[k]])
        end, foot = tree.query(shapely.points(ends.real, ends.imag), predicate="dwithin", distance=near)
        walls = [high[foot[end == side]] for side in (0, 1)]
        found |= {(float(size[k]), float(min(walls[0].max(), walls[1].max())))} if all(map(len, walls)) else set()
    return found
