"""The ledger of ink: how much of what is drawn was explained as what, and what was not.

Lengths are as drawn, in drawing units, along every straight and arc segment once. What the outline of the part
explains is counted on the view that was read; other views of the part, end views and borders are explained by what they
are. Circles drawn whole are end views, holes or balloons and are not counted.
"""

from collections.abc import Iterable, Sequence, Set

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import chords, lengths
from extractor.geometry.joining import groups
from extractor.ink import InkLedger
from extractor.recess.ghosts import explained
from extractor.recess.recognise import Found
from extractor.sheet import Segments
from extractor.viewing.clusters import Ink
from extractor.viewing.outline import Folded
from extractor.viewing.roles import Role, Roles
from extractor.viewing.views import View

PLACES = np.linspace(0.0, 1.0, 5)
"""Where along a stroke it must lie on others to be their double, as shares of its length."""

VIEW = "view"
"""What explains the strokes of another view of the part."""


def ledger(segments: Segments, roles: Roles, ink: Ink, read: tuple[Folded, Found], others: Iterable[View]) -> InkLedger:
    """Sort all segments of a sheet by what explains them, once a view of it has been read."""
    folded, found = read
    inked = segments.of(lambda source: source.kind != "")
    sizes = np.where(inked, lengths(segments.ends, segments.bulge), 0.0).tolist()
    said = [str(role) if role else "" for role in roles.of(len(segments))]
    drawn = _outline(folded, found)
    beside = [
        *_beside(ink, others),
        (Role.MARK, folded.texture.labels.union(*(hole.labels for hole in folded.holes))),
        (Role.FRAME, _frames(ink)),
        (Role.MARK, _put_in(folded, found)),
        (Role.OUTLINE, _doubles(segments, ink, folded, drawn)),
    ]
    for name, labels in beside:
        for k in labels:
            said[k] = said[k] or str(name)
    for k in _broken_out(segments, ink, read, [k for k, name in enumerate(said) if name or drawn.get(k)]):
        said[k] = str(Role.OUTLINE)
    outline, loose, totals = 0.0, 0.0, dict[str, float]()
    left: list[tuple[Point, ...]] = []
    for k, size in enumerate(sizes):
        if k in drawn:
            outline += drawn[k] * size
            size *= 1 - drawn[k]
        if size <= ink.near:
            continue
        if said[k]:
            totals[said[k]] = totals.get(said[k], 0.0) + size
        else:
            loose += size
            left.append(line_of(segments, k))
    return InkLedger(outline, totals, loose, tuple(left))


def _outline(folded: Folded, found: Found) -> dict[int, float]:
    """By segment of the view that was read: which share of its length in the network is outline."""
    network = folded.network
    mine = set().union(*(explained(folded, half) for half in found.halves)) if found.halves else set[int]()
    own, labels = network.own(folded.aside), network.labels
    ends = network.nodes[network.table[0]].reshape(-1, 4)
    sizes = lengths(ends, np.array([edge.bulge for edge in network.edges], dtype=float))
    outline = np.zeros(len(sizes), dtype=bool)
    outline[list(mine)] = True
    whole, part = (np.bincount(labels[own], weights=sizes[own] * kept) for kept in (1.0, outline[own]))
    return {k: min(1.0, part[k] / whole[k]) if whole[k] else 1.0 for k in set(labels[own].tolist())}


def _beside(ink: Ink, others: Iterable[View]) -> list[tuple[str, Set[int]]]:
    """The strokes of other views of the part."""
    members = {k for view in others for k in view.members}
    return [(VIEW, {ink.network.edges[e].label for k in members for e in ink.clusters[k].edges})]


def _put_in(folded: Folded, found: Found) -> set[int]:
    """The strokes of rings that stand in grooves."""
    rings = (ring for half in found.halves for ring in half.half.material.put_in)
    return {folded.network.edges[k].label for ring in rings for k in ring.edges}


def _frames(ink: Ink) -> set[int]:
    """The strokes of rectangles that hold others, and of what hangs on their inside: borders and title blocks."""
    frames = [c for c in ink.clusters if c.plain and any(c.holds(o) for o in ink.clusters)]
    return {ink.network.edges[e].label for c in frames for e in c.edges}


def _doubles(segments: Segments, ink: Ink, folded: Folded, drawn: Iterable[int]) -> set[int]:
    """Strokes of the view that lie on others all along, as drawn, and so left no edge of their own.

    One that a closed gap alone moved onto another is an edge of its own.
    """
    kept, margin = {*drawn, *folded.texture.labels}, ink.near
    ends = segments.ends[ink.strokes.label]
    within = folded.view.covering(ends[:, :2], margin) & folded.view.covering(ends[:, 2:], margin)
    lost = [int(k) for k in ink.strokes.label[within].tolist() if k not in kept]
    if not lost:
        return set()
    rest = sorted(set(ink.strokes.label.tolist()) - set(lost))
    lines, others = ([shapely.LineString(line_of(segments, k)) for k in row] for row in (lost, rest))
    tree = shapely.STRtree(others)
    places = [shapely.line_interpolate_point(line, PLACES, normalized=True) for line in lines]
    met = (np.unique(tree.query(row, "dwithin", folded.close)[0]) for row in places)
    return {k for k, on in zip(lost, met, strict=True) if len(on) == len(PLACES)}


def _broken_out(segments: Segments, ink: Ink, read: tuple[Folded, Found], known: Sequence[int]) -> set[int]:
    """Strokes that hang together along a bore that hidden lines close: it is broken out in section there."""
    folded, found = read
    if not found.dashed or not found.bore:
        return set()
    labels = np.setdiff1d(ink.strokes.label, known)
    labels = labels[folded.view.covering(segments.ends[labels].reshape(-1, 2), ink.near).reshape(-1, 2).all(axis=1)]
    if not len(labels):
        return set()
    lines = np.array([shapely.LineString(folded.axis.fold(np.array(line_of(segments, k)))) for k in labels.tolist()])
    bore = shapely.MultiLineString([[(z, s * r) for z, r in found.bore] for s in (1, -1)]).buffer(folded.close)
    on = shapely.contains(bore, lines)
    rows = groups(shapely.STRtree(lines).query(lines, "dwithin", folded.close).T.tolist())
    return {int(labels[k]) for row in rows if on[row].all() for k in row}


def line_of(segments: Segments, k: int) -> tuple[Point, ...]:
    """One segment as chords."""
    x0, y0, x1, y1 = np.asarray(segments.ends[k]).tolist()
    return tuple(chords((x0, y0), (x1, y1), float(segments.bulge[k])))
