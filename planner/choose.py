"""Which insert for which groove: fewest tool changes over the part, then fewest plunges, then the nearest corner."""

from collections.abc import Mapping, Sequence
from itertools import combinations

from extractor.part import Groove
from planner.fit import Fit

# Sets of tools tried at most before settling for a good answer instead of the best.
TRIES = 100_000
# An insert is not asked to widen a groove in so many plunges if another does it in half of them.
TOO_MANY = 4


def choose(grooves: Sequence[Groove], fits: Mapping[int, Sequence[Fit]]) -> dict[int, Fit]:
    """One fit for every groove number; every groove must have at least one."""
    wise = {groove.id: _sensible(fits[groove.id]) for groove in grooves}
    names = _fewest_tools([frozenset(f.tool.name for f in wise[g.id]) for g in grooves], grooves, wise)
    return {g.id: _nearest(g, [f for f in wise[g.id] if f.tool.name in names]) for g in grooves}


def _sensible(fits: Sequence[Fit]) -> list[Fit]:
    """The fits without those that take far more plunges than another."""
    least = min(f.plunges for f in fits)
    return [f for f in fits if f.plunges <= max(TOO_MANY, 2 * least)]


def _fewest_tools(
    able: Sequence[frozenset[str]], grooves: Sequence[Groove], fits: Mapping[int, Sequence[Fit]]
) -> frozenset[str]:
    """The smallest set of tool names that serves every groove, of those the one with the lowest cost."""
    wanted = sorted(set(able), key=sorted)
    names = sorted(frozenset().union(*able))
    tried = 0
    for size in range(1, len(names) + 1):
        serving = []
        for names_tried in combinations(names, size):
            tried += 1
            if all(not one.isdisjoint(names_tried) for one in wanted):
                serving.append(frozenset(names_tried))
            if tried > TRIES:
                break
        if serving:
            return min(serving, key=lambda s: (_cost(s, grooves, fits), sorted(s)))
        if tried > TRIES:
            break
    return _greedy(wanted)


def _greedy(wanted: Sequence[frozenset[str]]) -> frozenset[str]:
    """A small set of names that meets each of the wanted sets: the most useful name first."""
    left, chosen = list(wanted), set()
    while left:
        best = max(sorted(frozenset().union(*left)), key=lambda name: sum(name in one for one in left))
        chosen.add(best)
        left = [one for one in left if best not in one]
    return frozenset(chosen)


def _cost(names: frozenset[str], grooves: Sequence[Groove], fits: Mapping[int, Sequence[Fit]]) -> tuple[float, ...]:
    """Plunges over the part, then how far corner radii are from those drawn, then slimness of the inserts."""
    chosen = [(g, _nearest(g, [f for f in fits[g.id] if f.tool.name in names])) for g in grooves]
    return (
        sum(f.plunges for _, f in chosen),
        round(sum(f.corner_off for _, f in chosen), 6),
        -sum(f.tool.width for _, f in chosen),
    )


def _nearest(groove: Groove, fits: Sequence[Fit]) -> Fit:
    """The best of several fits for one groove."""
    return min(
        fits,
        key=lambda f: (
            f.plunges,
            round(f.corner_off, 6),
            abs(f.tool.width - groove.width),
            f.tool.name,
        ),
    )
