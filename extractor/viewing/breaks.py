"""Break lines: a long part drawn shortened, its middle left out between two wavy or zigzag lines, or at one.

No line of a turned part crosses its axis at a slant and comes out on both sides at one place and radius, for every such
line is its own mirror image. A break line does (ISO 128-3, interrupted views; from memory).
"""

import math
from itertools import pairwise, product

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

BENDS = 4
"""A break line is drawn in so many strokes or chords at least, from the axis up and down."""

STRAIGHT_ON = 0.2
"""Share of its slope by which a break line may bend where it crosses the axis: it is one stroke of the hand."""

BEND = 1.5
"""A wave in chords bends there at most so many times as much as where it bends most on each side."""

MIRRORED = 0.2
"""Share of the most that they sway by which the halves of a break line differ at least: 0 for mirror images."""


def broken_at(folded: Folded) -> Point | None:
    """A place (z, 0) at which a break line crosses the axis, or None; views that show both halves only."""
    network = folded.network
    if folded.view.halves != "both":
        return None
    (ends, straight), on_axis = network.table, np.abs(network.nodes[:, 1]) <= folded.fine
    run, rise = np.abs(network.nodes[ends[:, 1]] - network.nodes[ends[:, 0]]).T
    aslant = ends[((run >= ASLANT * rise) | ~straight) & (rise > folded.fine)]
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
    ways = (_ways(network, node, side, folded.fine) for side in (1, -1))
    return any(_swings(up, down, folded.fine) for up, down in product(*ways))


def _swings(up: list[Point], down: list[Point], fine: float) -> bool:
    """True if two ways from one place on the axis make up one line that sways from rim to rim."""
    slopes = [(way[1][0] - way[0][0]) / max(abs(way[1][1] - way[0][1]), fine) for way in (up, down)]
    if min(abs(s) for s in slopes) < ASLANT or not _goes_on(up, down, slopes):
        return False
    tops, feet = np.array(up[1:]), np.array(down[1:])
    apart = np.abs(tops[:, None] + feet[None] * (-1, 1)).max(axis=2)
    alike = apart <= ALIKE * np.maximum.outer(tops[:, 1], -feet[:, 1])
    ends = (np.argwhere(alike) + 1).tolist()
    lines = (np.array([*down[q:0:-1], *up[: p + 1]]) for p, q in ends if p + q >= BENDS)
    return any(_sways(line, fine) for line in lines)


def _goes_on(up: list[Point], down: list[Point], slopes: list[float]) -> bool:
    """True if a line bends where it crosses the axis no more than one stroke does, or like a wave in chords."""
    if abs(sum(slopes)) <= STRAIGHT_ON * max(abs(s) for s in slopes):
        return True
    turns = [np.arctan2(*np.diff(np.array(way) * (1, side), axis=0).T) for way, side in ((up, 1), (down, -1))]
    at_axis = abs(math.atan(slopes[0]) + math.atan(slopes[1]))
    return all(at_axis <= BEND * np.abs(np.diff(row)).max(initial=0.0) for row in turns)


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
    return bool(np.abs(at - other).max() < MIRRORED * np.abs(line[:, 0] - middle).max())


def _ways(network: Network, node: int, side: int, fine: float) -> list[list[Point]]:
    """The places from a node on the axis along each line that leaves it to one side, as long as it goes outward."""
    return [_way(network, node, k, side, fine) for k in _outward(network, node, side, fine)]


def _outward(network: Network, node: int, side: int, fine: float) -> list[int]:
    """The edges that leave a node to one side and go outward all along."""
    rows = (k for k in network.around[node] if network.edges[k].label >= 0)
    return [k for k in rows if _rises(_along(network, k, node), side, fine)]


def _rises(line: list[Point], side: int, fine: float) -> bool:
    """True if the places of a line lie farther and farther out on one side."""
    heights = [r * side for _, r in line]
    return heights[-1] - heights[0] > fine and all(low < high for low, high in pairwise(heights))


def _along(network: Network, edge: int, node: int) -> list[Point]:
    """An edge as chords, from one of its nodes."""
    line = network.line(network.edges[edge])
    return line if network.edges[edge].a == node else line[::-1]


def _way(network: Network, node: int, edge: int, side: int, fine: float) -> list[Point]:
    """The places from a node on the axis along the line that an edge begins."""
    way = [network.point(node)]
    while True:
        way += _along(network, edge, node)[1:]
        node = sum(network.edges[edge][:2]) - node
        outward = _outward(network, node, side, fine)
        if not outward:
            return way
        before = edge
        edge = min(outward, key=lambda k: _turn(network, way, before, k, node))


def _turn(network: Network, way: list[Point], last: int, edge: int, node: int) -> tuple[bool, float]:
    """How badly an edge goes on from the last: another stroke, and the angle between them."""
    (za, ra), (z0, r0), (z1, r1) = *way[-2:], _along(network, edge, node)[1]
    before, after = (z0 - za, r0 - ra), (z1 - z0, r1 - r0)
    cosine = (before[0] * after[0] + before[1] * after[1]) / (math.hypot(*before) * math.hypot(*after))
    return network.edges[edge].label != network.edges[last].label, 1 - cosine
