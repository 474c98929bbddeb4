"""Sizes across a square or a hexagon, as they are written (common practice, no source)."""

import math

from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.values import dataclass

OF_AN_AREA = r"\W{0,2}(?:[CDK]?M|MM|IN(?:CH(?:ES)?)?|FT)\b"
"""A unit behind `SQ`."""
SQUARE = late(
    rf"(?:\b(?:{phrases('square_form')})\b(?:\s+BAR\b)?\W*|\[\s*\]\s*|\u25a1\s*)(?P<side>{NUMBER})"
    rf"|^\W*(?P<both>{NUMBER})\s*X\s*(?P=both)\W*$"
    rf"|^\W*(?P<before>{NUMBER})\s*(?:MM|IN|\")?\s*(?:(?:{phrases('square_form')})\b(?!{OF_AN_AREA})|\u25a1)"
)
"""A square bar by its side in words; by both of them only where that is how high the view is."""
_FLATS = rf"(?:{phrases('flats_form')})(?![A-Z])"
_SPANNER = rf"(?:{phrases('spanner_width')})(?![A-Z])"
_COUNTED = rf"(?:{phrases('flats_counted')})\b"
MOST_FLATS = 12
"""Flats round a part, at most, as on a bolt's head with twelve points: a figure above is a size."""
HEXAGON = late(
    rf"(?<![M\d.])(?<!M )(?P<before>{NUMBER})\s*(?:MM|IN|\")?\s*(?!{_COUNTED}|{_SPANNER}\W*{NUMBER}(?!\s*X)){_FLATS}"
    rf"|\b{_FLATS}(?:\s+BAR)?\W*(?P<side>{NUMBER})"
)
"""A size across flats, before its words or behind them; SW is the width of the spanner, which stands behind it first.

A figure before flats by their name counts them, and one behind M is a thread's.
"""
ALONE = late(rf"\W*(?P<size>{NUMBER})\s*(?:MM|IN|\")?\s*{_COUNTED}\W*")
"""A figure before flats and nothing else, which is a size where nobody would count so many."""
OVER_CORNERS = {"square": math.sqrt(0.5), "hexagon": math.cos(math.pi / 6)}
"""So many times as wide is one across its flats as over its corners."""


@dataclass(frozen=True, kw_only=True)
class FlatSize:
    """The size across the flats of a square or a hexagon; `counted` if its figure might count them."""

    shape: str
    size: float
    counted: bool = False

    @property
    def over_corners(self) -> float:
        """How far it is from corner to corner."""
        return self.size / OVER_CORNERS[self.shape]


def flat_size(words: str) -> FlatSize | None:
    """The size that a text gives across flats, None for any other.

    >>> [(flat.shape, flat.size) for flat in map(flat_size, ("A/F 40 HEX", "40 SQ")) if flat], flat_size("40 h6")
    ([('hexagon', 40.0), ('square', 40.0)], None)
    >>> [flat_size(words).size for words in ("2 FLATS 40 A/F", "M12 SW 19")], flat_size("6 FLATS")
    ([40.0, 19.0], None)
    """
    line = plain(normalised(words)).upper()
    for shape, form in (("square", SQUARE), ("hexagon", HEXAGON)):
        if found := form.search(line):
            return FlatSize(shape=shape, size=float(next(n for n in found.groupdict().values() if n)))
    alone = ALONE.fullmatch(line)
    size = float(alone["size"]) if alone else 0.0
    told = size > MOST_FLATS or not size.is_integer()
    return FlatSize(shape="hexagon", size=size, counted=True) if told else None
