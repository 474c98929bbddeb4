"""Numbers in a sentence, runs of them as ranges."""

from collections.abc import Iterable


def spans(numbers: Iterable[int], to: str = " to ") -> str:
    """Numbers in a list, runs of three or more given as a range.

    >>> spans([5, 1, 2, 3, 7, 8]), spans([1, 2, 3], "\u2013")
    ('1 to 3, 5, 7, 8', '1\u20133')
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}{to}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
