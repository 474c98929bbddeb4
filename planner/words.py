"""Numbers and lists as they are written in a sentence."""

from collections.abc import Sequence

from extractor.part import Units


def size(length: float, units: Units) -> str:
    """A length with its unit, to the last digit that a control takes.

    >>> size(3.0, "mm"), size(0.125, "in")
    ('3.000 mm', '0.1250 in')
    """
    return f"{length:.{3 if units == 'mm' else 4}f} {units}"


def figure(length: float, units: Units) -> str:
    """A length without its unit.

    >>> figure(-13.0, "mm")
    '-13.000'
    """
    return size(length, units).split()[0]


def spell(seconds: float) -> str:
    """A time as people say it: in seconds, from two minutes on in minutes.

    >>> spell(12.4), spell(119.0), spell(1753.0)
    ('12 s', '119 s', '29 min')
    """
    return f"{seconds:.0f} s" if seconds < 120 else f"{seconds / 60:.0f} min"


def numbers(grooves: Sequence[int]) -> str:
    """Groove numbers as a phrase that begins a sentence.

    >>> numbers([3]), numbers([1, 2, 3, 4]), numbers([1, 3])
    ('Groove 3', 'Grooves 1 to 4', 'Grooves 1 and 3')
    """
    if len(grooves) == 1:
        return f"Groove {grooves[0]}"
    if len(grooves) > 2 and list(grooves) == list(range(grooves[0], grooves[-1] + 1)):
        return f"Grooves {grooves[0]} to {grooves[-1]}"
    return f"Grooves {', '.join(str(g) for g in grooves[:-1])} and {grooves[-1]}"


def times(count: int, one: str) -> str:
    """A count with its noun.

    >>> times(1, "plunge"), times(3, "plunge")
    ('one plunge', '3 plunges')
    """
    return f"one {one}" if count == 1 else f"{count} {one}s"
