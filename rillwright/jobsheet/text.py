"""Numbers as a setter reads them: three decimals in millimetres, four in inches, times in minutes and seconds."""

from collections.abc import Sequence


def decimals(units: str | None) -> int:
    """Decimals of a length: those of the least input increment (0.001 mm, 0.0001 in)."""
    return 4 if units == "in" else 3


def length_text(value: float | None, units: str | None) -> str:
    """A length or diameter; a dash for one that nobody gave.

    >>> length_text(3, "mm"), length_text(0.118, "in")
    ('3.000', '0.1180')
    """
    return "–" if value is None else f"{value + 0.0:.{decimals(units)}f}"


def place_text(value: float, units: str | None) -> str:
    """A place along Z, never as minus zero.

    >>> place_text(-0.00001, "mm"), place_text(-13, "mm")
    ('0.000', '-13.000')
    """
    text = length_text(value, units)
    return text.lstrip("-") if float(text) == 0 else text


def signed_text(value: float, units: str | None) -> str:
    """A deviation or difference with its sign; nothing is 0 without one.

    >>> signed_text(0.1, "mm"), signed_text(-0.05, "mm"), signed_text(-0.0, "mm")
    ('+0.100', '-0.050', '0')
    """
    text = f"{value:+.{decimals(units)}f}"
    return "0" if float(text) == 0 else text


def time_text(seconds: float | None) -> str:
    """A duration, rounded to the second from a minute on.

    >>> time_text(24.04), time_text(84.6), time_text(3725)
    ('24.0 s', '1 min 25 s', '1 h 2 min')
    """
    if seconds is None:
        return "–"
    if round(seconds, 1) < 60:
        return f"{seconds:.1f} s"
    whole = round(seconds)
    if whole < 3600:
        return f"{whole // 60} min {whole % 60} s"
    return f"{whole // 3600} h {whole % 3600 // 60} min"


def list_text(values: Sequence[float]) -> str:
    """Feeds or pecks one after the other, in their shortest spelling.

    >>> list_text([0.08, 0.05])
    '0.08 / 0.05'
    """
    return " / ".join(f"{v:g}" for v in values) or "–"


def hash_text(digest: str | None) -> str:
    """A hash in groups of eight, so that two can be held against each other by eye."""
    return " ".join(digest[i : i + 8] for i in range(0, len(digest), 8)) if digest else "–"
