"""Which of many things are connected, given pairs of them, and which single pairs hold things together."""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from extractor.grouping import grouped
from extractor.sheet import Ints


def components(count: int, one: Ints, two: Ints) -> Ints:
    """The number of the component of each of `count` things, int (count,), by pairs that hang together, int (m,) each.

    Components are numbered by the least of their members. The head of each, its least, joins the least of those beside
    it again and again, until no pair is apart.

    >>> components(5, np.array([0, 3]), np.array([4, 2])).tolist()
    [0, 1, 2, 2, 0]
    """
    each = home = np.arange(count, dtype=np.int64)
    heads = np.stack([one, two])
    while (apart := heads[0] != heads[1]).any():
        heads = heads[:, apart]
        home = home.copy()
        np.minimum.at(home, np.maximum(*heads), np.minimum(*heads))
        while not np.array_equal(home[home], home):
            home = home[home]
        heads = home[heads]
    numbers: Ints = (np.cumsum(home == each) - 1)[home]
    return numbers


def groups(pairs: Iterable[tuple[int, int]], alone: Iterable[int] = ()) -> list[list[int]]:
    """What hangs together by pairs, and `alone` what may hang with nothing: groups and members in the order met.

    >>> groups([(4, 2), (7, 1), (2, 9)], alone=[1, 3])
    [[1, 7], [3], [4, 2, 9]]
    """
    beside: dict[int, list[int]] = {thing: [] for thing in alone}
    for a, b in pairs:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    found: list[list[int]] = []
    met: set[int] = set()
    for first in beside:
        if first not in met:
            met.add(first)
            found.append([first])
            for here in found[-1]:
                fresh = [there for there in dict.fromkeys(beside[here]) if there not in met]
                met.update(fresh)
                found[-1] += fresh
    return found


def bridges(pairs: Sequence[tuple[int, int]]) -> Iterator[int]:
    """The indices of the pairs that are the only way from one of their two things to the other.

    A walk in depth numbers the things as it meets them; a pair is a bridge if nothing behind it leads back to the thing
    in front of it or to one before (Tarjan 1974).

    >>> list(bridges([(0, 1), (1, 2), (2, 0), (2, 3), (3, 4), (3, 4)]))
    [3]
    """
    beside = grouped(one for k, (a, b) in enumerate(pairs) for one in ((a, (b, k)), (b, (a, k))))
    met: dict[int, int] = {}
    back: dict[int, int] = {}
    for root in beside:
        if root in met:
            continue
        met[root] = back[root] = len(met)
        way = [(root, -1, iter(beside[root]))]
        while way:
            here, came, left = way[-1]
            for there, k in left:
                if there not in met:
                    met[there] = back[there] = len(met)
                    way.append((there, k, iter(beside[there])))
                    break
                if k != came and met[there] < back[here]:
                    back[here] = met[there]
            else:
                way.pop()
                if way:
                    before = way[-1][0]
                    back[before] = min(back[before], back[here])
                    if back[here] > met[before]:
                        yield came
