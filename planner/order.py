"""The order of rows: from the free end toward the chuck, tool by tool, each row after those that must come before it.

Face grooves come first, while the part is whole. Then each tool does all it can before it is changed: as few tool
changes as the needs of the part allow (planner.needs), and among those the tools as they are first needed from the
front, inside tools after outside ones. Where needs run in a circle, a thin land gives way, and a caution says so.
"""

from collections import deque
from collections.abc import Collection, Sequence
from itertools import pairwise

from extractor.finding import Finding, Level
from extractor.grouping import grouped
from extractor.part import Part
from planner.codes import PlanCode
from planner.cuts.place import Placed
from planner.needs import Need, Reason, needs, share_left, weakens
from planner.words import numbers

Pair = tuple[int, int]
"""Two places in the rows from the front: the first is to be cut before the second."""

# Ways to go on that are looked at before the next good order is taken instead of the best.
TRIES = 2_000


def in_order(rows: Sequence[Placed], part: Part) -> list[Placed]:
    """The rows in the order of cutting."""
    along = sorted((row for row in rows if row.side.axial), key=lambda row: row.grooves)
    faces = sorted((row for row in rows if not row.side.axial), key=lambda row: (row.tool.name, row.grooves))
    order = _best_order(along, part) if along else []
    return [*faces, *(along[place] for place in order)]


def order_findings(order: Sequence[Placed], part: Part) -> tuple[Finding, ...]:
    """A caution for each groove that is cut beside a fin, because needs run in a circle; necks always wait."""
    against = (need for need in needs(order, part) if need.before > need.after and need.reason == "fin")
    early = grouped((need.then_groove, need.first_groove) for need in against)
    return tuple(
        Finding(
            Level.CAUTION,
            PlanCode.ORDER,
            f"Groove {after} is cut before {numbers(sorted(before)).lower()}, with a thin land between, which may "
            "bend: look at it, and see whether a lower feed helps.",
            groove=after,
        )
        for after, before in early.items()
    )


def order_reasons(order: Sequence[Placed], part: Part) -> list[tuple[str, ...]]:
    """For each row in the order of cutting, why it waits for others and why its tool comes back for it."""
    waits: list[list[Need]] = [[] for _ in order]
    for need in needs(order, part):
        one, two = order[need.before], order[need.after]
        if need.before < need.after and (one.grooves > two.grooves or one.tool != two.tool):
            waits[need.after].append(need)
    return [_reasons(place, some, order, part) for place, some in enumerate(waits)]


def _reasons(place: int, waits: Sequence[Need], order: Sequence[Placed], part: Part) -> tuple[str, ...]:
    """The sentences for one row that waits for others."""
    row, said = order[place], list[str]()
    it_is = "It is" if len(row.grooves) == 1 else "They are"
    fins = sorted({need.first_groove for need in waits if need.reason == "fin"})
    if fins:
        which = f"{numbers(fins).lower()}, which {'is' if len(fins) == 1 else 'are'} shallower"
        said.append(f"{it_is} cut after {which}: the land between is thin and would bend.")
    if any(need.reason != "fin" for need in waits):
        left = min(share_left(part.grooves[number - 1], part) for number in row.grooves)
        said.append(f"{it_is} cut late: only {100 * left:.0f} % of the {'wall' if part.bore else 'diameter'} is left.")
    names = [other.tool.name for other in order[:place]]
    if row.tool.name in names and names[-1] != row.tool.name:
        said.append(f"{row.tool.name} comes back for this, a tool change more, so that it can wait for another tool.")
    return tuple(said)


def _best_order(rows: Sequence[Placed], part: Part) -> list[int]:
    """Places in the rows in the order of cutting; what is better last gives way to fewer tool changes."""
    pairs: dict[Reason, set[Pair]] = {"fin": set(), "neck": set(), "last": set()}
    for need in needs(rows, part):
        pairs[need.reason].add((need.before, need.after))
    strict = pairs["neck"] | _without_circles(pairs["fin"], pairs["neck"])
    wished = strict | _without_circles(pairs["last"], strict)
    weak = [weakens(row, part) for row in rows]
    return min((_fewest_changes(rows, wanted, weak) for wanted in (wished, strict)), key=lambda o: _changes(o, rows))


def _without_circles(pairs: Collection[Pair], kept: Collection[Pair]) -> set[Pair]:
    """The pairs that lie on no circle with those kept."""
    if not pairs:
        return set()
    import networkx as nx  # few parts need it, and to load it takes as long as to read a small drawing

    graph = nx.DiGraph([*pairs, *kept])
    home = {node: number for number, nodes in enumerate(nx.strongly_connected_components(graph)) for node in nodes}
    return {(one, two) for one, two in pairs if home[one] != home[two]}


def _changes(order: Sequence[int], rows: Sequence[Placed]) -> int:
    """How often the tool changes."""
    return sum(rows[a].tool.name != rows[b].tool.name for a, b in pairwise(order))


def _fewest_changes(rows: Sequence[Placed], pairs: Collection[Pair], weak: Sequence[bool]) -> list[int]:
    """An order along the pairs with the fewest tool changes: the shortest way over what is cut, tool after tool."""
    earlier = [0] * len(rows)
    for one, two in pairs:
        earlier[two] |= 1 << one
    tools = _preferred(rows, weak)
    waiting, seen = deque([list[int]()]), {0}
    while len(waiting[0]) < len(rows):
        done = waiting.popleft()
        for name in tools:
            left = [place for place in _of_tool(name, rows, weak) if place not in done]
            more = _as_far_as(done, left, earlier)
            mask = sum(1 << place for place in more)
            if mask not in seen and (len(seen) < TRIES or not waiting):
                seen.add(mask)
                waiting.append(more)
    return waiting[0]


def _preferred(rows: Sequence[Placed], weak: Sequence[bool]) -> list[str]:
    """The tools: what only weakens the part last, inside after outside, then as first needed from the front."""
    tools: dict[str, tuple[bool, bool, int]] = {}
    for place, row in enumerate(rows):
        only_weak, _, first = tools.get(row.tool.name, (True, False, place))
        tools[row.tool.name] = (only_weak and weak[place], row.side.hollow, first)
    return sorted(tools, key=lambda name: tools[name])


def _of_tool(name: str, rows: Sequence[Placed], weak: Sequence[bool]) -> list[int]:
    """The rows of one tool from the front, what weakens the part behind."""
    return sorted((place for place, row in enumerate(rows) if row.tool.name == name), key=lambda p: (weak[p], p))


def _as_far_as(done: Sequence[int], left: Sequence[int], earlier: Sequence[int]) -> list[int]:
    """What is cut when one tool goes on as far as it can, always with the first row that waits for none."""
    order, left, mask = list(done), list(left), sum(1 << place for place in done)
    while ready := [place for place in left if not earlier[place] & ~mask][:1]:
        order += ready
        left.remove(ready[0])
        mask |= 1 << ready[0]
    return order
