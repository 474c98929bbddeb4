"""Which cut recess is which groove of the drawing: an optimal one-to-one assignment, then a state for each.

A recess and a groove can belong together only if their middles lie within one width and a half of each other;
farther away the groove is missing and the recess extra. Pairs are chosen so that the sum of what they are off is least.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate

from extractor.values import dataclass
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target

BESIDE = 1.5
"""Widths of the wider of the two, from middle to middle, up to which a recess may be a groove that is out of its place;
farther away the groove is missing and the recess extra. A choice of ours: a slip by one pitch is told as one."""


@dataclass(frozen=True)
class Pairing:
    """Index pairs (target, recess), each index at most once, in the order of the targets."""

    pairs: tuple[tuple[int, int], ...]
    missing: tuple[int, ...]
    extra: tuple[int, ...]


@dataclass(frozen=True)
class CutRecesses:
    """Where the cut lies below the land: `recesses` that may be grooves, and land `shaved` between them, along u."""

    recesses: tuple[Stretch, ...]
    shaved: tuple[Stretch, ...] = ()


def find_recesses(cut: Overlay, targets: Sequence[Target], drop: int, slack: int) -> CutRecesses:
    """Where the cut lies below the land, one stretch for each groove that it may be.

    Pieces parted by a rib inside one drawn groove are one recess; a shallow cut over several drawn grooves is taken
    apart half-way down the shallowest of them. `drop` in h counts and `slack` in u counts are taken for nothing.
    """
    found: list[Stretch] = []
    shaved: list[Stretch] = []
    places = _TargetsByPlace(targets)
    for stretch in cut.below_land(drop):
        inside = places.over(stretch)
        pieces = _apart(cut, stretch, inside) if len(inside) > 1 else [stretch]
        found.extend(pieces)
        ends = [stretch[0], *(end for piece in pieces for end in piece), stretch[1]]
        shaved.extend((a, b) for a, b in zip(ends[::2], ends[1::2], strict=True) if a < b)
    return CutRecesses(tuple(_merged(found, places, slack)), tuple(shaved))


class _TargetsByPlace:
    """Targets sorted along u, so that those at a place are found without a look at all the others."""

    def __init__(self, targets: Sequence[Target]) -> None:
        """Sort them; `_reach` is how far the first so many of them go at most."""
        self._targets = targets
        self._order = sorted(range(len(targets)), key=lambda t: targets[t].u0)
        self._starts = [targets[t].u0 for t in self._order]
        self._reach = list(accumulate((targets[t].u1 for t in self._order), max))

    def over(self, stretch: Stretch) -> list[Target]:
        """Those that begin below the end of a stretch and end above its beginning, in their order."""
        first, last = bisect_right(self._reach, stretch[0]), bisect_left(self._starts, stretch[1])
        return [self._targets[t] for t in sorted(self._order[first:last]) if self._targets[t].u1 > stretch[0]]

    def around(self, stretch: Stretch, slack: int) -> Target | None:
        """The first that a stretch lies within, but for `slack` at either end."""
        return next(iter(self.over((stretch[1] - slack - 1, stretch[0] + slack + 1))), None)


def _apart(cut: Overlay, stretch: Stretch, inside: Sequence[Target]) -> list[Stretch]:
    """A stretch over several drawn grooves, taken apart at half their depth where that parts it."""
    half = min(target.mouth - target.floor for target in inside) // 2
    deeper = cut.below_land(half, stretch)
    return deeper if len(deeper) > 1 else [stretch]


def _merged(found: Sequence[Stretch], places: _TargetsByPlace, slack: int) -> list[Stretch]:
    """Stretches that lie within one drawn groove joined."""
    out: list[Stretch] = []
    home: Target | None = None
    for stretch in found:
        now = places.around(stretch, slack)
        if now is not None and now is home:
            out[-1] = (out[-1][0], stretch[1])
        else:
            out.append(stretch)
        home = now
    return out


def pair(targets: Sequence[Target], recesses: Sequence[Stretch], slack: int) -> Pairing:
    """The optimal assignment of recesses to targets of one side.

    Pairs that agree within `slack` are taken first: a groove that is right is never given away to mend another.
    """
    costs = {(t, r): cost for t, r, cost in _candidates(targets, recesses)}
    sure = _sure(costs, slack)
    taken_t, taken_r = {t for t, _ in sure}, {r for _, r in sure}
    gains: list[tuple[int, int, int]] = []
    for (t, r), cost in costs.items():
        if t not in taken_t and r not in taken_r:
            gains.append((t, len(targets) + r, _gain(targets[t], recesses[r], cost)))
    pairs = sorted([*sure, *((t, node - len(targets)) for t, node in _best(gains))])
    have_t, have_r = {t for t, _ in pairs}, {r for _, r in pairs}
    return Pairing(
        tuple(pairs),
        tuple(t for t in range(len(targets)) if t not in have_t),
        tuple(r for r in range(len(recesses)) if r not in have_r),
    )


def _candidates(targets: Sequence[Target], recesses: Sequence[Stretch]) -> Iterable[tuple[int, int, int]]:
    """Pairs near enough to belong together, with the sum of what both walls are off."""
    order = sorted(range(len(targets)), key=lambda t: targets[t].u0)
    first = 0
    widest = max((target.u1 - target.u0 for target in targets), default=0)
    most = max([widest, *(b - a for a, b in recesses)])
    for r, recess in sorted(enumerate(recesses), key=lambda item: item[1]):
        reach = 2 * BESIDE * max(widest, recess[1] - recess[0])
        while first < len(order) and targets[order[first]].u0 < recess[0] - 2 * BESIDE * most:
            first += 1
        for t in order[first:]:
            if targets[t].u0 > recess[1] + reach:
                break
            if _near(targets[t], recess):
                yield t, r, abs(recess[0] - targets[t].u0) + abs(recess[1] - targets[t].u1)


def _near(target: Target, recess: Stretch) -> bool:
    """True if the middles of the two are near enough (BESIDE), as they are where the two overlap."""
    apart = abs(target.u0 + target.u1 - recess[0] - recess[1]) / 2
    return apart <= BESIDE * max(target.u1 - target.u0, recess[1] - recess[0])


def _sure(costs: dict[tuple[int, int], int], slack: int) -> list[tuple[int, int]]:
    """Pairs whose walls agree, best first, each index once."""
    out: list[tuple[int, int]] = []
    taken_t: set[int] = set()
    taken_r: set[int] = set()
    for (t, r), cost in sorted(costs.items(), key=lambda item: item[1]):
        if cost <= 2 * slack and t not in taken_t and r not in taken_r:
            out.append((t, r))
            taken_t.add(t)
            taken_r.add(r)
    return out


def _gain(target: Target, recess: Stretch, cost: int) -> int:
    """What a pair is worth: more the less it is off, and always something, as no two that are near cost as much."""
    return 4 * (target.u1 - target.u0 + recess[1] - recess[0]) - cost


def _best(gains: Sequence[tuple[int, int, int]]) -> list[tuple[int, int]]:
    """The heaviest matching, component by component, of (target, recess, gain); targets have the lower numbers."""
    if len({node for gain in gains for node in gain[:2]}) == 2 * len(gains):  # nothing is to choose from
        return [(t, r) for t, r, _ in gains]
    import networkx as nx  # only what is off needs it, and to load it takes as long as to read a small drawing

    graph = nx.Graph()
    graph.add_weighted_edges_from(gains)
    out: list[tuple[int, int]] = []
    for nodes in nx.connected_components(graph):
        for a, b in nx.max_weight_matching(graph.subgraph(nodes)):
            out.append((min(a, b), max(a, b)))
    return out
