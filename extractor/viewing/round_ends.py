"""What is round about its middle: the end of a turned part, or a view that shows a part from its end.

A keyway, a cross hole or a spline's root is cut into a circle, so the hull of a figure is held against it: a square
bar's hull comes within 0.71 of its radius to the middle, a hexagon's within 0.87, that of a keyway within 0.98.
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.sheet import Floats
from extractor.viewing.alike import SAME, SQUARE
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import Ink
from extractor.viewing.views import View

ROUND = 0.95
"""The hull of a round end comes nowhere nearer its middle than this share of its greatest radius."""

KEY = 0.45
"""Width of a keyway over the shaft's diameter, at most: 5 in 12 in DIN 6885-1 (from memory)."""

ON_CIRCLE = 0.99
"""Share of a circle's radius that the edges of a figure's hull stay from its middle, where they are its chords."""

ALL_ROUND = 1.2
"""The boundary of an end view goes all round its middle: it leaves no gap of this angle, radians."""

DENTED = 0.2
"""And it stays within this share of one distance from there: a nut's corners stand out by less, a gear's teeth do."""


def is_round(rim: Floats) -> bool:
    """True if the hull of a figure, float (n, 2), stays about one distance from its middle."""
    middle, radius = round_about(rim)
    return bool((shapely.distance(_edges(rim), shapely.Point(middle)) >= ROUND * radius).all())


def nearest(rim: Floats) -> float:
    """How near its middle a figure's points and the edges of its hull come."""
    middle, _ = round_about(rim)
    return float(min(np.hypot(*(rim - middle).T).min(), shapely.distance(_edges(rim), shapely.Point(middle)).min()))


def is_keyed(rim: Floats) -> bool:
    """True if all of a figure's hull but one gap lies on a circle: a cross-section of a shaft through its keyway."""
    (middle, radius), edges = round_about(rim), _edges(rim)
    chords = shapely.length(edges[shapely.distance(edges, shapely.Point(middle)) < ON_CIRCLE * radius])
    return bool(len(chords) == 1 and chords[0] <= KEY * 2 * radius)


def _corners(rim: Floats) -> Floats:
    """The corners of the hull of a figure, float (m, 2), the first again as the last; of a line both its ends."""
    corners: Floats = shapely.get_coordinates(shapely.multipoints(rim).convex_hull)
    return corners


def _edges(rim: Floats) -> npt.NDArray[np.object_]:
    """The edges of the hull of a figure, none where it is a line."""
    corners = _corners(rim)
    corners = corners if len(corners) > 3 else corners[:0]
    edges: npt.NDArray[np.object_] = shapely.linestrings(np.stack([corners[:-1], corners[1:]], axis=1))
    return edges


def round_about(rim: Floats) -> tuple[Point, float]:
    """Middle and radius of the least circle round a figure."""
    places = shapely.multipoints(rim)
    middle = shapely.minimum_bounding_circle(places).centroid
    return (round(middle.x, 9) + 0.0, round(middle.y, 9) + 0.0), float(shapely.minimum_bounding_radius(places))


def without_end_views(ink: Ink, found: Sequence[View], centres: Sequence[Axis]) -> list[View]:
    """Leave out views that are round about their middle: a nut, a gear, a flange seen from the end.

    An end view has crossed centre lines; a short barrel, nearly as round, has its axis alone. A piece of an end view,
    as a cross hole leaves two in a section there, is no view either where anything else is.
    """
    round_ = [v for v in found if not _has_its_axis_alone(v, centres) and _is_round(ink, v)]
    whole = [v for v in found if not any(set(v.members) <= set(end.members) for end in round_)]
    return whole or [v for v in found if v not in round_]


def _has_its_axis_alone(view: View, centres: Sequence[Axis]) -> bool:
    """True if a centre line is drawn as the view's axis and none crosses it squarely within the view.

    An end view has two that cross (common practice, no source).
    """
    square = [c for c in centres if c.marked and view.axis.angle_to(c.direction) > SQUARE]
    places = view.axis.fold(np.array([c.at for c in square]).reshape(-1, 2))[:, 0]
    return view.axis.marked and not bool(((places >= view.low) & (places <= view.high)).any())


def _is_round(ink: Ink, view: View) -> bool:
    """True if the boundary stays within a fifth of one distance from the middle, and is alike from both sides.

    So it is if the hull is round, however deep a keyway is cut into it.
    """
    rim = np.vstack([ink.clusters[k].samples for k in view.members])
    along, across = view.axis.fold(rim).T
    along = along - (view.low + view.high) / 2
    reach = np.hypot(along, across)
    turns = np.sort(np.arctan2(across, along))
    all_round = np.diff(turns, append=turns[0] + 2 * np.pi).max() < ALL_ROUND
    if view.halves != "both" or not all_round:
        return False
    boundary = _corners(np.vstack([ink.boundary(ink.clusters[k]) for k in view.members]))
    if is_round(boundary) or is_keyed(boundary):
        return True
    if reach.min() <= (1 - DENTED) * reach.max():
        return False
    crossing = Axis(view.axis.unfold((view.low + view.high) / 2, 0.0), view.axis.up)
    return all(share > SAME for share in ink.mirrored([ink.clusters[k] for k in view.members], crossing))
