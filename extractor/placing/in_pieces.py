"""Figures on one axis that are pieces of one part: a line between them is missing, or the part is drawn shortened."""

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import place_words
from extractor.geometry.joining import groups
from extractor.placing.laying import LaidView, no_view
from extractor.recess.laid_lines import imaged
from extractor.sheet import Floats, Sheet
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import Ink
from extractor.viewing.views import NEAR_VIEW, View

ON_AXIS = 0.01
"""A figure stands on the axis of a view if its middle lies within this share of the view's size of it."""

EDGE = 1e-3
"""Lines of two pieces end at one place within this share of the view's size."""

END_TO_END = 0.01
"""Pieces of one part lie no farther apart than this share of the first: a gap that was left when it was drawn."""

TORN = 0.03
"""Break lines sway by more than this share of the part's height, and are alike within half of it."""

HEIGHTS = np.linspace(-0.9, 0.9, 19)
"""Where ends are held against one another, as shares of the height from the axis up."""

WIDEST = 0.25
"""Walls of a groove whose floor is missing stand no farther apart than this share of the diameter that they rise to."""


def in_pieces(sheet: Sheet, ink: Ink, one: View, two: View) -> LaidView | None:
    """The stop for views on one axis that are pieces of one part, None for any others."""
    if not _on_one_axis(one, two):
        return None
    places = f"the figures at {place_words(one.middle)} and {place_words(two.middle)}"
    facts = (
        (_bridged(sheet, one, two), f"A size is measured between {places}, which lie on the same axis"),
        (_linked(ink, one, two), f"A line on one side of the axis alone joins {places}"),
        (_torn_off(ink, one, two), f"Lines hang on both sides of the axis between {places}"),
        (_end_to_end(one, two), f"Nothing but a gap in the outline parts {places}"),
        (_wall_to_wall(ink, one, two), f"Walls as high as one another face each other between {places}"),
    )
    why = next((fact for holds, fact in facts if holds), None)
    if why is None and _torn_alike(ink, one, two):
        words = f"The ends between {places} sway alike, as break lines do: draw the part at its full length."
        return no_view(DrawingCode.BROKEN_VIEW, words, two.middle)
    if why is None:
        return None
    words = f"{why}: they are pieces of one part; close the outline between them, or draw it at full length."
    return no_view(DrawingCode.IN_PIECES, words, two.middle)


def _on_one_axis(one: View, two: View) -> bool:
    """True if the second view has its middle on the axis of the first."""
    return float(np.abs(one.axis.fold(np.array(two.corners()))[:, 1].mean())) <= ON_AXIS * one.size


def _bridged(sheet: Sheet, one: View, two: View) -> bool:
    """True if a size is measured from one view to the other."""
    near = NEAR_VIEW * one.size
    sizes = [d.points[:2] for d in sheet.dimensions if d.measured > 0]
    pairs = [[(one.covers(p, near), two.covers(p, near)) for p in ends] for ends in sizes]
    return any(sorted(pair) == [(False, True), (True, False)] for pair in pairs)


def _linked(ink: Ink, one: View, two: View) -> bool:
    """True if a line that is all that joins two views leads from one to the other: its image is missing."""
    edges = ink.network.edges
    mine = [{n for k in view.members for e in ink.clusters[k].edges for n in edges[e][:2]} for view in (one, two)]
    ways = groups(edges[k][:2] for k in ink.links)
    return any(all(nodes.intersection(way) for nodes in mine) for way in ways)


def _torn_off(ink: Ink, one: View, two: View) -> bool:
    """True if lines hang between two views on both sides of their axis alike, as where a wall is missing twice."""
    ends = one.axis.fold(np.array(two.corners()))[:, 0]
    low, high = min(one.high, float(ends.max())), max(one.low, float(ends.min()))
    network = ink.network
    free = [n for n in network.loose if network.edges[network.around[n][0]].label not in ink.aside]
    loose = one.axis.fold(np.array([network.point(n) for n in free]).reshape(-1, 2))
    near = EDGE * one.size
    loose = loose[(loose[:, 0] > low - near) & (loose[:, 0] < high + near) & (np.abs(loose[:, 1]) > near)]
    return bool(imaged(loose, near).any())


def _end_to_end(one: View, two: View) -> bool:
    """True if two views follow one another along an axis, with no more than a gap of the outline between them."""
    ends = one.axis.fold(np.array(two.corners()))[:, 0]
    return max(float(ends.min()) - one.high, one.low - float(ends.max())) <= END_TO_END * one.size


def _wall_to_wall(ink: Ink, one: View, two: View) -> bool:
    """True if two views end toward one another alike and near enough for the walls of a groove without its floor."""
    near, edges = EDGE * one.size, ink.network.edges
    nodes = [[n for k in view.members for e in ink.clusters[k].edges for n in edges[e][:2]] for view in (one, two)]
    front, back = (one.axis.fold(np.array([ink.network.point(n) for n in row])) for row in nodes)
    if front[:, 0].min() < back[:, 0].min():
        front, back = back, front
    foot, top = float(front[:, 0].min()), float(back[:, 0].max())
    faces = [row[np.abs(row[:, 0] - z) <= near, 1] for row, z in ((front, foot), (back, top))]
    alike = all(abs(end(faces[0]) - end(faces[1])) <= near for end in (np.min, np.max))
    return alike and near < foot - top <= WIDEST * float(np.ptp(faces[0]))


def _torn_alike(ink: Ink, one: View, two: View) -> bool:
    """True if two views end toward one another in like lines that sway: one has what the other lacks of a straight end.

    So a part is drawn shortened. Ends of two parts, or of one in two views, lie the other way round.
    """
    if (one.halves, two.halves) != ("both", "both"):
        return False
    ends = one.axis.fold(np.array(two.corners()))[:, 0]
    ahead = float(ends.mean()) > (one.low + one.high) / 2
    height = min(one.reach, two.reach)
    lines = [_end(ink, view, one.axis, height, way) for view, way in ((one, ahead), (two, not ahead))]
    if not np.isfinite(lines).all():
        return False
    sways, apart = np.ptp(lines, axis=1).min(), np.ptp(lines[1] - lines[0])
    return bool(sways > TORN * 2 * height and apart < TORN * height)


def _end(ink: Ink, view: View, axis: Axis, height: float, ahead: bool) -> Floats:
    """How far a view reaches along an axis at HEIGHTS, forward or back; infinite where it does not."""
    edges = [ink.network.line(ink.network.edges[e]) for k in view.members for e in ink.clusters[k].rim]
    lines = shapely.STRtree([shapely.LineString(axis.fold(np.array(edge))) for edge in edges])
    low, _, high, _ = shapely.total_bounds(lines.geometries)
    side, found = 1.0 if ahead else -1.0, []
    for r in (height * HEIGHTS).tolist():
        ray = shapely.LineString([(low - height, r), (high + height, r)])
        met = shapely.intersection(lines.geometries[lines.query(ray, "intersects")], ray)
        found.append(max((side * z for z, _ in shapely.get_coordinates(met).tolist()), default=-np.inf))
    return side * np.array(found)
