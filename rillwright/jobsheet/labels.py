"""Where groove numbers go in a picture: two rows of balloons that don't overlap, thinned out where there are too many.

A balloon of the upper row has its leader through the lower one, so more rows would hold no more numbers.
"""

import math
from collections.abc import Sequence

from extractor.runs import spans

ROWS = 2


def place_labels(places: Sequence[float], gap: float) -> list[int | None]:
    """The row (0 nearest the part) of each balloon at these places along the picture, None for one left out.

    Balloons of one row stand at least `gap` apart, and half as far from the leaders of the other.
    Where the rows don't suffice, every second, third and so on is kept, and always the first: places must be in order
    along the picture, either way.

    >>> place_labels([0, 40, 80], 34)
    [0, 0, 0]
    >>> place_labels([0, 10, 20, 30], 34)
    [0, None, 1, None]
    """
    for every in range(1, max(2, len(places) + 1)):
        kept = range(0, len(places), every)
        found = _in_rows([places[i] for i in kept], gap)
        if found is not None:
            answer: list[int | None] = [None] * len(places)
            for index, row in zip(kept, found, strict=True):
                answer[index] = row
            return answer
    return [None] * len(places)


def _in_rows(places: Sequence[float], gap: float) -> list[int] | None:
    """The lowest free row for each place in turn; None if one finds no room."""
    last = [-math.inf] * ROWS
    found = []
    for place in places:
        apart = [abs(place - other) for other in last]
        row = next((row for row in range(ROWS) if apart[row] >= gap and min(apart) >= gap / 2), None)
        if row is None:
            return None
        last[row] = place
        found.append(row)
    return found


def span_words(numbers: Sequence[int]) -> str:
    """Groove numbers as the sheet prints them.

    >>> span_words([1, 2, 3, 5, 7, 8])
    '1–3, 5, 7, 8'
    """
    return spans(numbers, "–")


def set_letter(index: int) -> str:
    """A, B, ... Z, AA, AB for sets in their order.

    >>> [set_letter(i) for i in (0, 25, 26, 701, 702)]
    ['A', 'Z', 'AA', 'ZZ', 'AAA']
    """
    letters = ""
    index += 1
    while index:
        index, left = divmod(index - 1, 26)
        letters = chr(ord("A") + left) + letters
    return letters
