"""General tolerances: what a note such as "ISO 2768-mK" says about every size without a tolerance of its own.

Source: ISO 2768-1:1989 tables 1 (linear sizes) and 2 (radii and chamfers), as in three published tables that agree.
"""

import bisect
import re
from collections.abc import Iterable, Sequence

from extractor.grammar import normalised
from extractor.part import Deviation
from extractor.sizing.sheet_words import folded
from extractor.values import dataclass

STEPS = (3, 6, 30, 120, 400, 1000, 2000, 4000)
"""Upper limits of the size steps in mm; below 0.5 mm a tolerance must stand at the size itself."""
SMALLEST = 0.5

LINEAR: dict[str, tuple[float | None, ...]] = {
    "f": (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, None),
    "m": (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
    "c": (0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
    "v": (None, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
}
RADII: dict[str, tuple[float, float, float]] = {
    "f": (0.2, 0.5, 1.0),
    "m": (0.2, 0.5, 1.0),
    "c": (0.4, 1.0, 2.0),
    "v": (0.4, 1.0, 2.0),
}
"""Radii and chamfers: 0.5 to 3, over 3 to 6, over 6 mm."""

IN_WORDS = {
    "v": r"very coarse|sehr grob|tres grossier|molto grossolan[oa]|muy bast[oa]",
    "f": r"fine?|fein|fin[ao]|dokladn[aey]|jemn[aey]|fijn",
    "m": r"medium|mittel|moyen(?:ne)?|medi[ao]|sredni[ae]?|stredni|medel|middel",
    "c": r"coarse|grob|grossier|grossolan[oa]|bast[oa]|zgrubn[aey]|hrub[aey]|grov|grof",
}
"""The classes by their names in the languages of `sheet_words`, of folded text."""
CLASS = r"(?:(?:class[ei]?|klass[ea]?|clase|klasa|trida|tolerantieklasse)\s*)?"
NOTE = re.compile(rf"iso\s*[-_ ]?\s*2768\s*(?:-\s*1\s*)?[-–— :]*\s*\(?\s*{CLASS}([fmcv])[hkl]?\b")
WORDS = re.compile(
    r"(?:iso\s*[-_ ]?\s*2768)\D{0,30}?\b(?:"
    + "|".join(f"(?P<{name}>{form})" for name, form in IN_WORDS.items())
    + r")\b"
)


def general_classes(notes: Iterable[str]) -> list[str]:
    """The tolerance classes (f, m, c or v) that the sheet's notes call up, each once.

    >>> general_classes(["General tolerances ISO 2768-mK"]), general_classes(["ISO 2768-m", "ISO 2768-f"])
    (['m'], ['f', 'm'])
    """
    found = set[str]()
    for note in notes:
        line = folded(note)
        found.update(m[1] for m in NOTE.finditer(line))
        found.update(str(m.lastgroup) for m in WORDS.finditer(line))
    return sorted(found)


UNIFORM = re.compile(
    r"(?:general|unless (?:otherwise|noted|stated)|allgemein|nicht tolerierte|untoleran?ced|not toleranced"
    r"|algemene|allman|ogoln|vseobecn|nepredepsan)[^±°]{0,60}?±\s*(\d*\.?\d+)(?!\s*[°\d])"
)
"""A note, folded, that gives one deviation to all sizes without their own."""

BY_PLACES = re.compile(r"\.(x{1,4})\s*[=:]?\s*±\s*(\d*\.?\d+)|\b([1-4])[ -]?place\D{0,12}?±\s*(\d*\.?\d+)")
"""One that is given to the sizes with so many decimals, folded: `.XXX = ±.005` (common practice, no source)."""


@dataclass(frozen=True)
class CallUp:
    """What the sheet says of general tolerances: a class of ISO 2768, or one deviation in drawing units.

    With neither it is one by the decimals of a size, which is told and not applied.
    """

    words: str
    tolerance_class: str | None = None
    uniform: float | None = None

    def linear(self, size: float, unit: float) -> Deviation | None:
        """Deviations of a size in drawing units; `unit` is their length in mm."""
        if self.uniform is not None:
            return -self.uniform, self.uniform
        found = linear(size * unit, self.tolerance_class) if self.tolerance_class else None
        return None if found is None else (found[0] / unit, found[1] / unit)

    def radius(self, size: float, unit: float) -> Deviation | None:
        """Deviations of a printed radius in drawing units; none takes it below a sharp corner."""
        if self.uniform is not None:
            return -min(self.uniform, size), self.uniform
        found = radius(size * unit, self.tolerance_class) if self.tolerance_class else None
        return None if found is None else (-min(-found[0] / unit, size), found[1] / unit)


def called_up(notes: Sequence[str]) -> list[CallUp]:
    """The general tolerances that a sheet names; where they are several, nobody can say which is meant."""
    lines = [folded(normalised(note)) for note in notes]
    uniform = {m[1] for line in lines if not BY_PLACES.search(line) for m in UNIFORM.finditer(line)}
    placed = {(len(m[1] or "") or int(m[3]), m[2] or m[4]) for line in lines for m in BY_PLACES.finditer(line)}
    return [
        *(CallUp(f".{'X' * places} ±{value}") for places, value in sorted(placed)),
        *(CallUp(f"ISO 2768-{name}", tolerance_class=name) for name in general_classes(notes)),
        *(CallUp(f"±{value}", uniform=float(value)) for value in sorted(uniform) if float(value)),
    ]


def linear(size: float, tolerance_class: str) -> Deviation | None:
    """Deviations in mm of a linear size or diameter in mm, None where the table has no value.

    >>> linear(36.0, "m"), linear(0.4, "m")
    ((-0.3, 0.3), None)
    """
    place = bisect.bisect_left(STEPS, round(size, 4))
    if size < SMALLEST or place >= len(STEPS):
        return None
    value = LINEAR[tolerance_class][place]
    return None if value is None else (-value, value)


def radius(size: float, tolerance_class: str) -> Deviation | None:
    """Deviations in mm of a radius or chamfer height in mm, None below 0.5 mm."""
    if size < SMALLEST:
        return None
    value = RADII[tolerance_class][bisect.bisect_left(STEPS[:2], round(size, 4))]
    return -value, value
