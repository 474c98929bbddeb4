"""Which of many things hang together, told from pairs of them, in whole arrays."""

import numpy as np

from extractor.sheet import Ints


def components(count: int, one: Ints, two: Ints) -> Ints:
    """The number of the component of each of `count` things, int (count,), by pairs that hang together, int (m,) each.

    Components are numbered by the least of their members. Each joins the least beside it again and again: with every
    round at least half of those that can join have done so.

    >>> components(5, np.array([0, 3]), np.array([4, 2])).tolist()
    [0, 1, 2, 2, 0]
    """
    home = np.arange(count, dtype=np.int64)
    while True:
        low = np.minimum(home[one], home[two])
        least = home.copy()
        for side in (one, two):
            np.minimum.at(least, home[side], low)
        while not np.array_equal(least[least], least):
            least = least[least]
        if np.array_equal(least, home):
            break
        home = least
    numbers: Ints = np.unique(home, return_inverse=True)[1].reshape(-1).astype(np.int64)
    return numbers
