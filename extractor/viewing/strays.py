"""Lines that cross a view and bound nothing, but cut up what they cross: helper lines, and dimensions drawn as lines.

A helper line is straight, slants against the axis and has an end in the air outside everything that is closed; every
line that it meets on its way goes on behind it, and without it the rest encloses the same but for crumbs and what lies
on the axis (it may shut off an open bore). A bore, groove or face half cut off by such a line would be weighed by
itself. What is known to belong to a dimension goes if all that is enclosed stays enclosed without it: an end face may
lie on the layer of the dimensions.
"""

import math
from collections.abc import Set
from functools import cache

import numpy as np
import shapely

from extractor.geometry.network import Network, Strokes, without_boxes
from extractor.geometry.noding import node

SLANT = math.radians(3.0)
"""A line nearer than this to the axis or its square is left: it may be an edge drawn too long."""

OUT = 0.1
"""Least share of its length that sticks out."""

FAR_OUT = 0.02
"""And least share of the length of the view: less is a line drawn on over its corner by hand."""

ALL_OUT = 0.99
"""One that sticks out with more than this share of its length only begins at the part: it crosses nothing."""

CRUMBS = 0.02
"""Share of the area enclosed that may be lost without them: what they cut off a groove's mouth."""


def without_strays(laid: Strokes, near: float, aside: frozenset[int]) -> Network:
    """The network of the strokes laid along z without those that bound nothing.

    `near` is the noding distance, `aside` are the labels of strokes that belong to dimensions.
    """
    network = node(laid, near)

    @cache
    def without(labels: frozenset[int]) -> Network:
        """The network without some strokes, worked out once."""
        return _less(laid, labels, near) if labels else network

    for known in dict.fromkeys((aside & {e.label for e in network.edges}, frozenset[int]())):
        base = without(known)
        strays = frozenset(k for k in _sticking_out(base, laid) if _passes_through(base, k))
        for labels in dict.fromkeys((known | strays, known)):
            if labels and _lost(network, without(labels), labels, strays & labels, near) <= CRUMBS:
                return without(labels)
    return network


def without_texture(laid: Strokes, texture: frozenset[int], near: float) -> Strokes:
    """The strokes without those of a knurl, or all of them if something would be open then."""
    if not texture:
        return laid
    network, less = node(laid, near), _less(laid, texture, near)
    plain = _lost(network, less, texture, frozenset(), near) <= CRUMBS
    return laid.pick(~np.isin(laid.label, list(texture))) if plain else laid


def _less(laid: Strokes, labels: Set[int], near: float) -> Network:
    """The network of the strokes but for some."""
    return node(laid.pick(~np.isin(laid.label, list(labels))), near)


def _lost(network: Network, less: Network, labels: Set[int], strays: Set[int], near: float) -> float:
    """What share of the area enclosed is open without the strokes of these labels.

    Boxes that nothing else closes don't count, nor does what a stray line shuts off on the axis.
    """
    floor = network.level_edges(1, 0.0, near)
    stray = {k for k, e in enumerate(network.edges) if e.label in strays}
    faces = without_boxes(network, network.faces, labels)
    faces = [f for f in faces if not (f.edges & floor and f.edges & stray)]
    kept = shapely.STRtree([f.polygon for f in less.faces])
    held = (
        set(kept.query(shapely.points([f.inside for f in faces]), predicate="within")[0].tolist()) if faces else set()
    )
    total = sum(f.area for f in network.faces)
    return float(sum(f.area for i, f in enumerate(faces) if i not in held) / total) if total else 1.0


def _sticking_out(network: Network, laid: Strokes) -> set[int]:
    """Labels of slanting strokes that cross others and end in the air, outside everything closed."""
    tips: dict[int, int] = {}
    least = FAR_OUT * float(np.ptp(laid.ends[:, ::2]))
    for n in network.loose:
        edge = network.edges[network.around[n][0]]
        if edge.label < 0 or edge.bulge:
            continue
        run, rise = np.ptp(laid.ends[laid.label == edge.label][0].reshape(2, 2), axis=0).tolist()
        out = math.dist(network.point(edge.a), network.point(edge.b))
        size = math.hypot(run, rise)
        if SLANT < math.atan2(rise, run) < math.pi / 2 - SLANT and max(least, OUT * size) < out < ALL_OUT * size:
            tips[n] = edge.label
    if not tips:
        return set()
    faces = shapely.STRtree([f.polygon for f in network.faces])
    inside = faces.query(shapely.points(network.nodes[list(tips)]), predicate="intersects")[0]
    return set(tips.values()) - {list(tips.values())[i] for i in inside}


def _passes_through(network: Network, label: int) -> bool:
    """True if at every place where a stroke meets others on its way one of them goes on behind it."""
    mine = [k for k, e in enumerate(network.edges) if e.label == label]
    nodes = [n for k in mine for n in network.edges[k][:2]]
    for n in (n for n in set(nodes) if nodes.count(n) > 1):
        others = [network.edges[k].label for k in network.around[n] if network.edges[k].label != label]
        if len(set(others)) == len(others):
            return False
    return True
