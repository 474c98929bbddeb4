"""Break lines: a long part drawn shortened, its middle left out between two wavy or zigzag lines, or at one.

No line of a turned part crosses its axis at a slant and comes out on both sides at one place and radius, for every such
line is its own mirror image. A break line does (ISO 128-3, interrupted views; from memory).
"""

import math

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.network import Network
from extractor.sheet import Floats
from extractor.viewing.outline import Folded

ASLANT = 0.03
"""A line that crosses the axis square to it, give or take this slope, is an edge of the part."""

SWAY = 0.004
"""A break line leaves the straight way from rim to rim by more than this share of the radius."""

ALIKE = 0.05
"""Share of the radius by which the two ends of a break line may lie unlike."""

STRAIGHT_ON = 0.2
"""Share of its slope by which a break line may bend where it crosses the axis: it is one stroke of the hand."""

BENDS = 4
"""A break line is drawn in so many strokes at least, from the axis up and down."""

MIRRORED = 1.2
"""What both halves of a break line sway together, over the most that one does: 2 for a line and its mirror image."""


def broken_at(folded: Folded) -> Point | None:
    """A place (z, 0) at which a break line crosses the axis, or None; views that show both halves only."""
    network = folded.network
    if folded.view.halves != "both":
        return None
    (ends, _), on_axis = network.table, np.abs(network.nodes[:, 1]) <= folded.fine
    run, rise = np.abs(network.nodes[ends[:, 1]] - network.nodes[ends[:, 0]]).T
    aslant = ends[(run >= ASLANT * rise) & (rise > folded.fine)]
    for node in np.unique(aslant[on_axis[aslant]]).tolist():
        if _breaks(network, node, folded):
            return network.point(node)
    return None


def broken(folded: Folded) -> Finding | None:
    """The stop for a view with a break line."""
    place = broken_at(folded)
    if place is None:
        return None
    at = folded.place(*place)
    words = (
        f"A break line crosses the view at {place_words(at)}, so part of the length is not drawn and places "
        "along it can't be measured; draw the part at its full length."
    )
    return Finding(Level.STOP, DrawingCode.BROKEN_VIEW, words, at)


def _breaks(network: Network, node: int, folded: Folded) -> bool:
    """True if a break line crosses the axis at a node; where it ends at an outline its way goes on along that."""
    up, down = _way(network, node, 1, folded.fine), _way(network, node, -1, folded.fine)
    if len(up) < 2 or len(down) < 2:
        return False
    slopes = [(way[1][0] - way[0][0]) / abs(way[1][1] - way[0][1]) for way in (up, down)]
    if min(abs(s) for s in slopes) < ASLANT or abs(sum(slopes)) > STRAIGHT_ON * max(abs(s) for s in slopes):
        return False
    tops, feet = np.array(up[1:]), np.array(down[1:])
    apart = np.abs(tops[:, None] + feet[None] * (-1, 1)).max(axis=2)
    alike = apart <= ALIKE * np.maximum.outer(tops[:, 1], -feet[:, 1])
    ends = (np.argwhere(alike) + 1).tolist()
    lines = (np.array([*down[q:0:-1], *up[: p + 1]]) for p, q in ends if p + q >= BENDS)
    return any(_sways(line, folded.fine) for line in lines)


def _sways(line: Floats, fine: float) -> bool:
    """True if a line across the axis, float (n, 2) with rising heights, sways to both sides of the straight way."""
    (z_end, r_end), (z_top, r_top) = line[0].tolist(), line[-1].tolist()
    sway = line[:, 0] - np.interp(line[:, 1], [r_end, r_top], [z_end, z_top])
    swings = min(sway.max(), -sway.min()) > max(SWAY * max(r_top, -r_end), 2 * fine)
    return bool(swings) and not _mirrored(line)


def _mirrored(line: Floats) -> bool:
    """True if a line across the axis sways to one side on both halves, as the diagonals of a knurl do.

    `line` float (n, 2): z and height, rising, with the axis crossed on the way.
    """
    heights = np.abs(line[:, 1])
    at, other = (np.interp(side * heights, line[:, 1], line[:, 0]) for side in (1, -1))
    middle = np.interp(0.0, line[:, 1], line[:, 0])
    return bool(np.abs(at + other - 2 * middle).max() > MIRRORED * np.abs(line[:, 0] - middle).max())


def _way(network: Network, node: int, side: int, fine: float) -> list[Point]:
    """The places from a node on the axis along one line as long as it goes outward."""
    way, last, seen = [network.point(node)], None, {node}
    places, edges = network.places, network.edges
    while True:
        radius = way[-1][1]
        beside = ((edges[k].a + edges[k].b - node, k) for k in network.around[node] if edges[k].label >= 0)
        outward = [(n, k) for n, k in beside if (places[n][1] - radius) * side > fine and n not in seen]
        if not outward:
            return way
        node, last = min(outward, key=lambda found: _turn(network, way, last, *found))
        seen.add(node)
        way.append(network.point(node))


def _turn(network: Network, way: list[Point], last: int | None, other: int, edge: int) -> tuple[bool, float]:
    """How ill an edge goes on from the last: another stroke, and the angle between them; from the axis, how square."""
    (z0, r0), (z1, r1) = way[-1], network.point(other)
    if last is None:
        return False, -abs(z1 - z0) / abs(r1 - r0)
    (za, ra) = way[-2]
    before, after = (z0 - za, r0 - ra), (z1 - z0, r1 - r0)
    cosine = (before[0] * after[0] + before[1] * after[1]) / (math.hypot(*before) * math.hypot(*after))
    return network.edges[edge].label != network.edges[last].label, 1 - cosine
