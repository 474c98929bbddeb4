"""The outline of a view, folded onto (z, radius): one chain of pieces for each half that is drawn.

The strokes of a view are laid along z, the axis is added as an edge, and the faces on either side of it are joined;
the rim of the joined faces, less what lies on the axis, is the half outline. Visible edges right across the part,
hatching and thread lines all lie inside and vanish.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.arcs import distance
from extractor.geometry.joining import groups
from extractor.geometry.network import Network, Strokes, rim
from extractor.geometry.profile import Piece, sharpen
from extractor.geometry.squaring import LEAN, SLOPED, sloppy, squared, upright
from extractor.grouping import grouped
from extractor.sheet import Pen, Segments
from extractor.values import dataclass
from extractor.viewing.alike import ONE_PLACE
from extractor.viewing.axis import DUST, Axis
from extractor.viewing.clusters import Ink
from extractor.viewing.end_on import EndOn, without_holes_end_on
from extractor.viewing.face_walls import floors_run_on
from extractor.viewing.gaps import close
from extractor.viewing.knurls import NO_KNURL, Knurls, knurls
from extractor.viewing.material import MetalFaces, Shown, material
from extractor.viewing.strays import without_strays, without_texture
from extractor.viewing.thread_roots import thread_roots
from extractor.viewing.views import Halves, View

MOST_HIDDEN = 4000
"""More hidden strokes than this are no bore but dashes drawn one by one, or a solid's every hidden edge in chords."""

CLOSE = 10.0
"""Two places are one within so many times `fine`: rounding, gaps closed and the axis moved add up to it."""

ROUNDED = 3.0
"""Times `fine` by which rounding alone sets two halves apart: both and the axis between them are rounded."""

PEN = 3e-4
"""Share of the view by which two halves may lie apart: the error of a hand that draws each by itself."""

PEN_MOST = {False: 0.03, True: 0.0012}
"""Drawing units by which they may differ at most, however large the view, for a sheet in inches and any other: more
would hide a tolerance of 0.05 mm (0.002 in)."""

OFF_SQUARE = {False: 0.0035, True: 0.00014}
"""Drawing units by which a line may be off square and is read square all the same, for a sheet in inches and any other:
no cut shows 3.5 micrometres."""

RUNS_OUT = 0.05
"""The axis is drawn out of the view by this share of its length, so that what ends on it is closed."""

SIGNS: dict[Halves, tuple[int, ...]] = {"both": (1, -1), "up": (1,), "down": (-1,)}
"""The sides of the axis on which the halves of a view lie."""

AXIS = -1
"""Label of the added axis stroke."""


@dataclass(frozen=True)
class Half:
    """One half as drawn: the outer chain from the front face back, and the bore's from the front face back.

    The line of a bore that ends in the part runs in to the axis and out again. `loose` are places (z, radius) of other
    chains, `material` what was metal and what not, `squared` by how much upright walls ran back toward the front.
    """

    outer: tuple[Piece, ...]
    bore: tuple[Piece, ...]
    material: MetalFaces
    loose: tuple[Point, ...] = ()
    squared: float = 0.0


@dataclass(frozen=True)
class Folded:
    """A view laid along z: its noded strokes, z falling from the front end, not yet shifted to z 0 at the front.

    `fine` is the length below which all is drawing noise, the one tolerance that what reads the view goes by; `near` is
    that of noding. `inch`: the file says that its units are inches; `texture`: the knurls that were set aside; `roots`:
    the labels of threads' roots; `holes`: those across the axis whose circles were left out.
    """

    axis: Axis
    network: Network
    drawn: Segments
    view: View
    fine: float
    aside: frozenset[int] = frozenset()
    hatched: tuple[shapely.Geometry, ...] = ()
    laid: Strokes | None = None
    hidden: Strokes | None = None
    near: float = 0.0
    inch: bool = False
    texture: Knurls = NO_KNURL
    roots: frozenset[int] = frozenset()
    holes: tuple[EndOn, ...] = ()

    @property
    def close(self) -> float:
        """Within this length two places of the view are one."""
        return CLOSE * self.fine

    @property
    def pen(self) -> float:
        """How far apart two halves may be and still be alike."""
        return max(ROUNDED * self.fine, min(PEN * self.view.size, PEN_MOST[self.inch]))

    @property
    def off_square(self) -> float:
        """How far a line may be off square and is still one along the axis or square to it."""
        return min(ROUNDED * self.fine, OFF_SQUARE[self.inch])

    @cached_property
    def sloppy(self) -> float:
        """How far lines may be off square where most lines of the view are, `off_square` elsewhere."""
        labels = sorted({e.label for e in self.network.edges if e.label >= 0 and e.label not in self.aside})
        straight = [k for k in labels if not self.drawn.bulge[k]]
        ends = self.axis.fold(self.drawn.ends[straight].reshape(-1, 2)).reshape(-1, 4)
        return sloppy(ends, self.fine, self.off_square, self.pen)

    def place(self, z: float, r: float) -> Point:
        """The sheet point of a place on the folded view."""
        return self.axis.unfold(z, r)


@dataclass(frozen=True, kw_only=True)
class Said:
    """What the sheet says of a view: the file is in inches, a note names a knurl, a text names a thread."""

    inch: bool = False
    knurled: bool = False
    threaded: bool = False


def lay(ink: Ink, segments: Segments, view: View, fine: float, said: Said) -> Folded:
    """Lay the strokes of a view, its axis turned to the front, along z."""
    labels, axis = _labels(ink, view), view.axis
    strokes = ink.strokes.pick(np.isin(ink.strokes.label, list(labels)))
    a = axis.fold(strokes.ends[:, :2])
    b = axis.fold(strokes.ends[:, 2:])
    low, high = min(a[:, 0].min(), b[:, 0].min()), max(a[:, 0].max(), b[:, 0].max())
    out = max(RUNS_OUT * (high - low), 20 * ink.near)
    laid = Strokes(np.hstack([a, b]), strokes.bulge, strokes.label)
    laid, holes = without_holes_end_on(laid, SIGNS[view.halves], CLOSE * fine, fine)
    laid = laid.with_line((low - out, 0.0), (high + out, 0.0), AXIS)
    hatched = [_laid(axis, shape) for shape in ink.hatched]
    hidden = _hidden_strokes(segments, view)
    dashed, thin = (thread_roots(lines, laid, hidden, CLOSE * fine, named=said.threaded) for lines in (hidden, laid))
    roots = frozenset((*hidden.label[dashed].tolist(), *laid.label[thin].tolist()))
    laid, hidden = laid.plus(hidden.pick(dashed)), hidden.pick(~dashed)
    texture = knurls(laid, hatched, ink.near, said=said.knurled)
    plain = without_texture(laid, texture.labels, ink.near)
    texture = texture if plain is not laid or not texture.labels else NO_KNURL
    network = without_strays(plain, ink.near, ink.aside)
    left = laid.pick(np.isin(laid.label, [e.label for e in network.edges]))
    place, areas = (axis, network, segments, view, fine, ink.aside), tuple(hatched)
    return Folded(*place, areas, left, hidden, ink.near, said.inch, texture, roots, holes)


def _laid(axis: Axis, shape: shapely.Geometry) -> shapely.Geometry:
    """A shape on the sheet laid along z."""
    return shapely.transform(shape, axis.fold)


def _hidden_strokes(segments: Segments, view: View) -> Strokes:
    """The hidden lines within a view's box, laid along z."""
    hidden = segments.of(lambda s: s.pen is Pen.HIDDEN)
    margin = ONE_PLACE * view.size
    within = view.covering(segments.ends[:, :2], margin) & view.covering(segments.ends[:, 2:], margin)
    size = np.hypot(segments.ends[:, 2] - segments.ends[:, 0], segments.ends[:, 3] - segments.ends[:, 1])
    index = np.flatnonzero(hidden & within & (size > DUST * view.size)).astype(np.int64)
    ends = view.axis.fold(segments.ends[index].reshape(-1, 2)).reshape(-1, 4)
    return Strokes(ends, segments.bulge[index], index)


def open_ends(folded: Folded) -> list[Point]:
    """Sheet points where lines of the view end and meet nothing, the farthest from the axis first."""
    network = folded.network
    ends = [network.point(n) for n in network.loose if abs(network.point(n)[1]) > folded.fine]
    return [folded.place(*p) for p in sorted(ends, key=lambda p: -abs(p[1]))]


def _labels(ink: Ink, view: View) -> set[int]:
    """Strokes of the view's clusters and of the clusters inside its box."""
    margin = ONE_PLACE * view.size
    corners = np.array([[c.box[i], c.box[j]] for c in ink.clusters for i in (0, 2) for j in (1, 3)])
    within: list[bool] = np.all(view.covering(corners, margin).reshape(-1, 4), axis=1).tolist()  # one per cluster
    labels = {
        ink.network.edges[e].label
        for k, cluster in enumerate(ink.clusters)
        if within[k] or k in view.members
        for e in cluster.edges
    }
    near = view.covering(ink.network.nodes, margin)
    labels |= {e.label for e in ink.network.edges if e.label in ink.aside and (near[e.a] or near[e.b])}
    labels |= {e.label for e in (ink.network.edges[k] for k in ink.links) if near[e.a] and near[e.b]}
    return labels


def with_hidden(folded: Folded) -> Folded | None:
    """The same view with its hidden lines noded in, None if it has none or far too many to be a bore.

    The roots of threads are left out: with a bore's lines they would enclose metal.
    """
    laid, hidden = folded.laid, folded.hidden
    if laid is None or hidden is None or not 0 < len(hidden) <= MOST_HIDDEN:
        return None
    laid = laid.pick(~np.isin(laid.label, list(folded.roots)))
    network = close(laid.plus(hidden), folded.near)[2]
    over = floors_run_on(network, folded.fine, frozenset(hidden.label.tolist()))
    return replace(folded, network=network.without(over) if over else network)


def half(folded: Folded, side: int, *, as_drawn: bool = False) -> Half | None:
    """The outline of the half above (side 1) or below (side -1) the axis; None where nothing closes.

    Walls that run back by no more than the pen's error are upright, but for a half taken as it is drawn.
    """
    network, view = folded.network, folded.view
    hidden = frozenset(folded.hidden.label.tolist()) if folded.hidden else frozenset()
    shown = Shown(view.halves == "both", view.reach, folded.aside, hidden, folded.hatched, folded.roots)
    metal = material(network, side, folded.fine, shown)
    on_axis = network.level_edges(1, 0.0, folded.fine / 10)
    edges = [k for k in rim(list(metal.faces)) if k not in on_axis]
    chains = sorted(_chains(network, edges), key=lambda c: -_stretch(network, c))
    if not chains:
        return None
    pieces = [_pieces(folded, chain, side) for chain in chains]
    loose = tuple(p[0].start for p in pieces[1:] if not _within(p, pieces[0]))
    outer, bore = _split(pieces[0], folded.fine)
    # A bore no wider than the pen's error is a centre line drawn a hair beside the middle of the view.
    wide = max((r for p in bore for _, r in p.ends), default=0.0) > folded.pen
    (outside, off), (inside, deep) = (
        upright(line, folded.fine, 0.0 if as_drawn else folded.pen) for line in (outer, bore if wide else ())
    )
    return Half(tuple(outside), tuple(inside), metal, loose, max(off, deep))


Chain = list[tuple[int, bool]]
"""Edge indices in order, with whether each is run from a to b."""


def _chains(network: Network, edges: Sequence[int]) -> list[Chain]:
    """The rim as open or closed runs of edges, none for what no one run goes through."""
    around = grouped((n, k) for k in edges for n in network.edges[k][:2])
    found = []
    for nodes in groups(network.edges[k][:2] for k in edges):
        ends = [n for n in nodes if len(around[n]) % 2]
        if len(ends) in (0, 2):
            found.append(_run(network, around, max(ends or nodes, key=network.point)))
    return found


def _run(network: Network, around: Mapping[int, Sequence[int]], start: int) -> Chain:
    """The run from a node on through every edge that hangs together with it, each once (Hierholzer 1873)."""
    way, chain, used = [(start, -1)], Chain(), {-1}
    while way:
        here, came = way[-1]
        for onward in around[here]:
            if onward not in used:
                used.add(onward)
                a, b, *_ = network.edges[onward]
                way.append((a + b - here, onward))
                break
        else:
            way.pop()
            chain += [(came, network.edges[came].b == here)] if came >= 0 else []
    return chain[::-1]


def _stretch(network: Network, chain: Chain) -> float:
    """How far a chain reaches along z."""
    z = [network.point(n)[0] for k, _ in chain for n in network.edges[k][:2]]
    return max(z) - min(z)


def _pieces(folded: Folded, chain: Chain, side: int) -> list[Piece]:
    """A chain as pieces in (z, radius), corners put where the drawn lines meet."""
    network, drawn = folded.network, folded.drawn
    source = drawn.source.tolist()
    pieces = []
    for k, forward in chain:
        _, _, bulge, label = network.edges[k]
        (z0, r0), (z1, r1) = network.spans[k]
        piece = Piece((z0, r0 * side), (z1, r1 * side), bulge * side, drawn.sources[source[label]].curve)
        pieces.append(piece if forward else piece.back())
    whole = _whole(folded, [network.edges[k].label for k, _ in chain], side)
    most, lean = folded.sloppy, SLOPED if folded.sloppy > folded.off_square else LEAN
    return sharpen(*squared(pieces, whole, folded.fine, most, lean), 50 * folded.fine)


def _whole(folded: Folded, labels: Sequence[int], side: int) -> list[Piece]:
    """Drawn segments in (z, radius)."""
    ends = folded.axis.fold(folded.drawn.ends[labels].reshape(-1, 2)) * (1.0, side)
    bulges = (folded.drawn.bulge[labels] * side).tolist()
    rows = zip(ends.reshape(-1, 4).tolist(), bulges, strict=True)
    return [Piece((z0, r0), (z1, r1), bulge) for (z0, r0, z1, r1), bulge in rows]


def carelessly_drawn(folded: Folded, halves: Sequence[Half]) -> list[Finding]:
    """The caution for a view whose lines are off square by more than no cut shows and were read as square."""
    off = max(folded.sloppy if folded.sloppy > folded.off_square else 0.0, *(half.squared for half in halves))
    words = (
        f"Lines of the view are off square, by up to {off:.2g}, and were read as square about their middles: places "
        "and diameters may be off by half of that; hold them against the printed sizes."
    )
    return [Finding(Level.CAUTION, DrawingCode.OFF_SQUARE, words, folded.view.middle)] if off else []


def holes_end_on(folded: Folded) -> list[Finding]:
    """What is said of circles on the axis that were read as holes across it and meet lines."""
    found = []
    for hole in (h for h in folded.holes if h.meets):
        at = folded.place(hole.z, 0.0)
        words = f"The circle {2 * hole.radius:.4g} across at {place_words(at)} "
        if hole.plain:
            words += "was read as a hole drilled from the side, which is not cut here, and lines that end at it as "
            found.append(Finding(Level.CAUTION, DrawingCode.CROSS_HOLE, f"{words}running straight on behind it.", at))
        else:
            words += "looks like a hole drilled from the side and hides how the lines that end at it go on: draw these "
            words += "lines through it, or the section without the hole."
            found.append(Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words, at))
    return found


def _within(other: Sequence[Piece], main: Sequence[Piece]) -> bool:
    """True if a chain lies under the main one along z."""
    low, high = min(p.end[0] for p in main), max(p.start[0] for p in main)
    return all(low <= p.start[0] <= high for p in other)


def _split(chain: list[Piece], fine: float) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Split a chain into the outside and the bore, both from the front face to the back face."""
    places = [p.start for p in chain] + [chain[-1].end]
    highest, lowest = max(z for z, _ in places), min(z for z, _ in places)
    front = min((k for k, (z, _) in enumerate(places) if z >= highest - fine), key=lambda k: places[k][1])
    back = min((k for k, (z, _) in enumerate(places) if z <= lowest + fine), key=lambda k: places[k][1])
    if distance(places[0], places[-1]) > fine:
        into, out = _reversed(chain[:front]), _reversed(chain[back:])
        solid = [Piece(into[-1].end if into else (highest, 0.0), out[0].start if out else (lowest, 0.0))]
        return tuple(chain[front:back]), (*into, *solid, *out) if into or out else ()
    turned = chain[front:] + chain[:front]
    back = (back - front) % len(chain)
    one, two = turned[:back], _reversed(turned[back:])
    return (tuple(one), tuple(two)) if _mean(one) > _mean(two) else (tuple(two), tuple(one))


def _reversed(chain: Sequence[Piece]) -> list[Piece]:
    """A chain run the other way."""
    return [p.back() for p in reversed(chain)]


def _mean(chain: Sequence[Piece]) -> float:
    """Mean radius along a chain, by length."""
    size = sum(p.size for p in chain)
    return sum(p.size * (p.start[1] + p.end[1]) / 2 for p in chain) / size if size else 0.0
