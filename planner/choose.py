"""Which insert for which groove: the least time a piece, with tool changes, set-up and worn edges, or as preferred.

One more tool costs a tool change in every piece and, where the inserts are built-in ones, its setting up, shared over
the batch. A set with the fewest tools is found first; from there tools are added, dropped and exchanged
as long as that improves it.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import combinations
from typing import NamedTuple

from extractor.finding import Finding, Level
from extractor.part import Groove
from extractor.rounding import ROUNDING
from extractor.values import dataclass
from planner.codes import PlanCode
from planner.cuts.moves import Setting
from planner.cutting import plunge_seconds
from planner.fit import Fit
from planner.shop import Shop
from planner.words import numbers, spell

# Sets of tools tried at most before settling for a good answer instead of the best.
TRIES = 100_000
# An insert is not asked to widen a groove in so many plunges if another does it in half of them.
TOO_MANY = 4
# Seconds to set up one tool more, once a batch (common practice, no source).
SET_UP = 300.0
# Seconds to change a worn edge and touch off again (common practice, no source).
NEW_EDGE = 90.0
# Seconds that are no difference: less than the moves between grooves that are not looked at here.
EQUAL = 0.5
# Seconds a piece, and a batch, from which another tool is worth a word (common practice, no source).
WORTH, WORTH_A_BATCH = 1.0, 300.0
Cost = tuple[float, ...]


@dataclass(frozen=True)
class Choice:
    """The fit of every groove, and the seconds that it costs a piece, tool changes included."""

    fits: Mapping[int, Fit]
    seconds: float

    @cached_property
    def tools(self) -> frozenset[str]:
        """The names of its tools."""
        return frozenset(fit.tool.name for fit in self.fits.values())


@dataclass(frozen=True, kw_only=True)
class _Kind:
    """Grooves that the same inserts cut equally well: how many, the fits of one of them, and seconds by tool name."""

    count: int
    width: float
    fits: Sequence[Fit]
    seconds: Mapping[str, float]


class _Costs(NamedTuple):
    """The fits of a groove that are sensible, seconds by tool name, and what tells them from those of another size."""

    fits: Sequence[Fit]
    seconds: Mapping[str, float]
    told: tuple[tuple[str, int, float], ...]


class _Ranked(NamedTuple):
    """One fit for all grooves of a kind: seconds, plunges, how far corners are off, widths, seconds for worn edges."""

    name: str
    seconds: float
    plunges: int
    corners: float
    width: float
    worn: float


class Chooser:
    """Grooves with the fits of each, and what each fit costs."""

    def __init__(self, grooves: Sequence[Groove], fits: Mapping[int, Sequence[Fit]], setting: Setting) -> None:
        """Every groove must have at least one fit."""
        self.grooves, self.fits, self.setting = grooves, fits, setting
        self.prefer = setting.shop.machine.prefer
        self.kind_of: dict[int, tuple[object, ...]] = {}
        self._orders: dict[frozenset[str], tuple[Cost, list[str]]] = {}
        self._costs: dict[tuple[_Ranked, ...], Cost] = {}
        known: dict[tuple[object, ...], _Costs] = {}
        first: dict[tuple[object, ...], tuple[Groove, _Costs]] = {}
        for groove in grooves:
            # All that the seconds hang on: grooves of one size have the same fits, and are asked about once.
            across = (groove.floor,) if groove.side.axial else (groove.near, groove.far)
            alike = (groove.where, groove.depth, *across, *map(id, fits[groove.id]))
            if alike not in known:
                known[alike] = _costs(groove, fits[groove.id], setting)
            key = (round(groove.width, 3), *known[alike].told)
            first.setdefault(key, (groove, known[alike]))
            self.kind_of[groove.id] = key
        count = Counter(self.kind_of.values())
        self.kinds = {
            key: _Kind(count=count[key], width=groove.width, fits=costs.fits, seconds=costs.seconds)
            for key, (groove, costs) in first.items()
        }

    def best(self) -> Choice:
        """The best of all the choices tried."""
        able = [frozenset(kind.seconds) for kind in self.kinds.values()]
        names = min(_fewest_tools(able), key=self._order)
        while (other := min(self._near(names, able), key=self._order, default=names)) != names:
            if self._order(other) >= self._order(names):
                break
            names = other
        return self.choice(names)

    def with_one_more(self, choice: Choice) -> Choice | None:
        """The quickest choice with one tool more than a choice has, None where there is no other tool."""
        others = sorted({name for kind in self.kinds.values() for name in kind.seconds} - choice.tools)
        more = [choice.tools | {name} for name in others]
        used = [names for names in more if len(_used(self._nearest(names))) > len(choice.tools)]
        best = min(used, key=lambda names: self._seconds(self._nearest(names)), default=None)
        return self.choice(best) if best is not None else None

    def choice(self, names: frozenset[str]) -> Choice:
        """The best fit of every groove among some tools."""
        chosen = self._nearest(names)
        best = dict(zip(self.kinds, (one.name for one in chosen), strict=True))
        fits = {
            groove.id: next(f for f in self.fits[groove.id] if f.tool.name == best[self.kind_of[groove.id]])
            for groove in self.grooves
        }
        return Choice(fits, self._seconds(chosen))

    def _seconds(self, chosen: Sequence[_Ranked]) -> float:
        """Seconds of a piece by a fit of each kind."""
        return sum(one.seconds for one in chosen) + len(_used(chosen)) * self.setting.shop.machine.tool_change

    def _near(self, names: frozenset[str], able: Sequence[frozenset[str]]) -> Iterator[frozenset[str]]:
        """The sets of tools with one more, one fewer, or one exchanged that still serve every groove."""
        others = sorted(frozenset().union(*able) - names)
        for name in sorted(names):
            for less in (names - {name}, *(names - {name} | {other} for other in others)):
                if less and all(not one.isdisjoint(less) for one in able):
                    yield less
        yield from (names | {other} for other in others)

    def _order(self, names: frozenset[str]) -> tuple[Cost, list[str]]:
        """What decides between two sets of tools, the least first; many are asked for again and again."""
        if names not in self._orders:
            chosen = tuple(self._nearest(names))
            if chosen not in self._costs:
                self._costs[chosen] = self._cost(chosen)
            self._orders[names] = self._costs[chosen], sorted(names)
        return self._orders[names]

    def _cost(self, chosen: Sequence[_Ranked]) -> Cost:
        """What decides between two choices: most sets of tools leave the choice as it is."""
        shop = self.setting.shop
        count = len(_used(chosen))
        tools, plunges = float(count), float(sum(one.plunges for one in chosen))
        # Tools that are not in the turret have to be set up.
        set_up = SET_UP * count / max(1, shop.machine.batch) if "tools" in shop.built_in else 0.0
        time = round((self._seconds(chosen) + (set_up + sum(one.worn for one in chosen))) / EQUAL)
        first = {"time": (time, tools, plunges), "blocks": (plunges, tools, time), "tools": (tools, time, plunges)}
        corners, width = round(sum(one.corners for one in chosen), 6), -sum(one.width for one in chosen)
        return (*first[self.prefer], corners, width)

    def _nearest(self, names: frozenset[str]) -> list[_Ranked]:
        """The best fit for each kind of groove among some tools."""
        return [next(one for one in row if one.name in names) for row in self._ranked]

    @cached_property
    def _ranked(self) -> list[list[_Ranked]]:
        """The fits for each kind of groove, the best first whatever tools are at hand."""
        return [[_cost(kind, fit) for fit in self._by_rank(kind)] for kind in self.kinds.values()]

    def _by_rank(self, kind: _Kind) -> list[Fit]:
        """The same for one kind of groove."""
        few = self.prefer == "blocks"
        return sorted(
            kind.fits,
            key=lambda fit: (
                fit.plunges if few else 0,
                round(kind.seconds[fit.tool.name] / EQUAL),
                fit.plunges,
                round(fit.corner_off, 6),
                abs(fit.tool.width - kind.width),
                fit.tool.name,
            ),
        )


def _costs(groove: Groove, fits: Sequence[Fit], setting: Setting) -> _Costs:
    wise = sensible(fits)
    seconds = {fit.tool.name: seconds_for(groove, fit, setting) for fit in wise}
    return _Costs(wise, seconds, tuple((f.tool.name, f.plunges, round(seconds[f.tool.name], 3)) for f in wise))


def _used(chosen: Sequence[_Ranked]) -> set[str]:
    """The names of the tools of some fits."""
    return {one.name for one in chosen}


def _cost(kind: _Kind, fit: Fit) -> _Ranked:
    """What a fit costs for all grooves of its kind."""
    tool, count = fit.tool, kind.count
    seconds = count * kind.seconds[tool.name]
    worn = NEW_EDGE * count * kind.seconds[tool.name] / (60 * tool.edge_life) if tool.edge_life else 0.0
    return _Ranked(tool.name, seconds, count * fit.plunges, count * fit.corner_off, count * tool.width, worn)


def saves(choice: Choice, more: Choice | None, shop: Shop) -> tuple[Finding, ...]:
    """A note if one tool more would save a worthwhile amount of time: which tool, for which grooves, and how much."""
    saved = choice.seconds - more.seconds if more else 0.0
    pieces = shop.machine.batch
    if more is None or saved < WORTH or saved * max(1, pieces) < WORTH_A_BATCH * bool(pieces):
        return ()
    other = [number for number, fit in more.fits.items() if fit.tool.name not in choice.tools]
    name = more.fits[other[0]].tool.name
    told = f"{spell(saved * pieces)} a batch of {pieces}" if pieces else f"{spell(saved)} a piece"
    which = f"{numbers(other)[0].lower()}{numbers(other)[1:]}"
    message = f"{name} for {which} would save {told}, not counting the time to set it up."
    return (Finding(Level.NOTE, PlanCode.TOOL_SAVES, message, groove=other[0]),)


def seconds_for(groove: Groove, fit: Fit, setting: Setting) -> float:
    """About how long a groove takes with an insert: plunges from a clearance above the mouth, and the way out at rapid.

    Retracts between pecks are left out: the same metal asks for about as many of them whatever insert cuts it.
    """
    machine, tool, units = setting.shop.machine, fit.tool, setting.part.units
    surface = setting.surface_speed(tool)
    high = groove.depth + machine.clearance
    if groove.side.axial:
        outer = abs(groove.mouth + groove.side.up * machine.clearance)
        feeding = plunge_seconds(outer, abs(groove.floor), tool.feed, surface, machine.max_rpm, units)
    else:
        # Along Z the spindle turns as the middle of the groove asks.
        across = (groove.near + groove.far) / 2
        inner = max(0.0, across - 2 * high)
        whole = plunge_seconds(across, inner, tool.feed, surface, machine.max_rpm, units)
        feeding = whole * 2 * high / max(across - inner, ROUNDING)
    rapid = 60 * high / machine.rapid_rate if machine.rapid_rate else 0.0
    return fit.plunges * (feeding + rapid)


def sensible(fits: Sequence[Fit]) -> list[Fit]:
    """The fits without those that take far more plunges than another."""
    least = min(f.plunges for f in fits)
    return [f for f in fits if f.plunges <= max(TOO_MANY, 2 * least)]


def _fewest_tools(able: Sequence[frozenset[str]]) -> list[frozenset[str]]:
    """The smallest sets of tool names that serve every groove; one good one where there are too many to try."""
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
            return serving
        if tried > TRIES:
            break
    return [_greedy(wanted)]


def _greedy(wanted: Sequence[frozenset[str]]) -> frozenset[str]:
    """A small set of names that meets each of the wanted sets: the most useful name first."""
    left, chosen = list(wanted), set()
    while left:
        best = max(sorted(frozenset().union(*left)), key=lambda name: sum(name in one for one in left))
        chosen.add(best)
        left = [one for one in left if best not in one]
    return frozenset(chosen)
