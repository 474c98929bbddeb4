"""Tolerances that are printed and were given to nothing: the last look, by the figures alone.

Rules: whatever the others made of a text, a figure with limits behind it that is a size of a groove must be the
tolerance of such a size, or belong to a dimension of something else. One that is neither was lost on the way: it is
told, and no general tolerance stands for that size. Nothing here knows how a dimension or a note was heard.
"""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level, Point
from extractor.grammar import NUMBER, coarsest, normalised
from extractor.late import late
from extractor.part import INCH, Deviation, Groove
from extractor.remembered import remembered
from extractor.sheet import Dimension, Sheet
from extractor.sizing.lettering.pointers import middle_of
from extractor.sizing.lettering.printed import DUST, WIDEST, Printed
from extractor.sizing.measured.ties import middle, tie_of
from extractor.sizing.sizes.said import SaidSoFar
from extractor.sizing.sizes.shown import close

FIGURE = late(rf"(?<![\d.+±-])(?<![+±-]\s)(?<![MR])(?<![MR]\s){NUMBER}", re.I)
"""A figure that begins one and has no sign; behind an M it is a thread's, behind an R a radius."""
SIGNED = late(rf"(±|[+-])\s*({NUMBER})")
BEHIND = late(rf"\s*(?:[^\W\d]+\.?|\")?\s*[(\[]?\s*(?P<signed>(?:{SIGNED.pattern}|\b0\b|[\s/^|;])+)", re.I)
"""Deviations behind a figure, with a word or a unit and a bracket between at most."""
BOTH = late(rf"(?<![\d.+±-])(?P<one>{NUMBER})\s*(?P<mark>[-/^])\s*(?P<other>{NUMBER})(?![\d.])")
"""Two limits, in brackets or not."""
NOUGHT = late(r"(?<![\d.])0(?![\d.])")
GRADE = r"[(\[]?(?:js|[a-wyz]{1,2})\s?(?:[5-9]|1[0-8])(?![\d.])"
CLASS = late(rf"\s*{GRADE}", re.I)
GRADES = late(rf"(?<=\d)\s*{GRADE}", re.I)
"""A class behind its size, whose figure is no size."""
ONE_LIMIT = late(rf"\W*(?:\d+\s*[X×]\s+)?(?P<across>Ø\s*)?(?P<size>{NUMBER})\s*(?:mm\s*)?(?:MAX|MIN)(?:IMUM)?\W*", re.I)
"""A size alone that is the greatest or the least."""
OF_A_MATE = late(
    rf"\W*(?:(?:FITS?|MATES|MATING|TO\s+SUIT|PASST)\b[^\d]*|(?:FOR|FÜR|POUR|PER|PARA)\b\D*\b(?:SHAFT|BEARING|HOUSING|WELLE|LAGER|GEHÄUSE)\b\D*|(?:HOUSING|BEARING|GEHÄUSE|LAGER)\b\D*){NUMBER}{CLASS.pattern}\W*",
    re.I,
)
"""A size with its class that words before it give to what is fitted there (common practice, no source)."""
LARGEST = 0.25
"""A deviation beyond this share of its size is none; nor is one behind a dash alone that no grade allows."""
FIELDS = {"axial": ("width", "depth", "floor_diameter"), "face": ("mouth_diameter", "floor_diameter", "depth")}
"""The sizes of a groove that have tolerances of their own."""
DIAMETERS = frozenset({"floor_diameter", "mouth_diameter"})
NEAR = 0.002
"""Share of a size beyond its rounding within which it is looked at closely."""
SETTLES = {"depth": ("floor_diameter", 2.0), "floor_diameter": ("depth", 0.5)}
"""Of two sizes one of which may be kept as the other: that, and how many times its deviations are those of the one; at
an outside groove the deeper is the smaller."""


class Limited(NamedTuple):
    """A figure with what looks like its tolerance: its deviations in printed units, None by limits or a class.

    A depth has no class (common practice, no source).
    """

    figure: Printed
    across: bool
    deviations: Deviation | None
    places: int
    of_class: bool = False


@remembered
def limited(line: str) -> tuple[Limited, ...]:
    """The figures of a line that have a tolerance behind them.

    >>> [(one.figure.value, one.deviations) for one in limited("4x 2.5 +0.1/0 [.098 ±.002] Ø34 h11 3 - 2")]
    [(2.5, (0.0, 0.1)), (0.098, (-0.002, 0.002)), (34.0, None)]
    """
    alone = ONE_LIMIT.fullmatch(line)
    found = [Limited(Printed.of(alone["size"]), bool(alone["across"]), None, 0)] if alone else []
    for figure in FIGURE.finditer(GRADES.sub(lambda one: " " * len(one[0]), line)):
        across = line[: figure.start()].rstrip().endswith("Ø")
        signed, size = BEHIND.match(line, figure.end()), Printed.of(figure[0])
        pair = _pair(signed["signed"], size.value) if signed else None
        if pair is not None:
            found.append(Limited(size, across, *pair))
        elif CLASS.match(line, figure.end()):
            found.append(Limited(size, across, None, 0, of_class=True))
    stacks = (both for both in BOTH.finditer(line) if _close(both))
    return (*found, *(Limited(_between(both), line[: both.start()].rstrip().endswith("Ø"), None, 0) for both in stacks))


def _close(both: re.Match[str]) -> bool:
    """True for two figures so near to one another that they are limits of one size; a stack is no range."""
    low, high = sorted((float(both["one"]), float(both["other"])))
    return low < high <= WIDEST["^" if both["mark"] == "^" else "-"] * low


def _between(both: re.Match[str]) -> Printed:
    """Two limits as a size that lies between them."""
    one, other = Printed.of(both["one"]), Printed.of(both["other"])
    return replace(one, sizes=(one.value, other.value), limits=True)


def _pair(signed: str, size: float) -> tuple[Deviation, int] | None:
    """Lower and upper deviation, and the most decimals of both."""
    given = [(sign, number) for sign, number in SIGNED.findall(signed) if float(number) <= LARGEST * size]
    if not given:
        return None
    if len(given) == 1 and given[0][0] == "-" and float(given[0][1]) > coarsest(size) and not NOUGHT.search(signed):
        return None
    values = [float(number) * (-1 if sign == "-" else 1) for sign, number in given[:2]]
    other = values[1] if len(values) > 1 else -values[0] if given[0][0] == "±" else 0.0
    return (min(values[0], other), max(values[0], other)), max(places_of(number) for _, number in given)


def lost_limits(
    sheet: Sheet, sized: Sequence[Dimension], said: SaidSoFar, told: Sequence[Finding]
) -> Iterator[Finding]:
    """A caution for each tolerance of a size of a groove that no groove of that size has.

    `sized`: the sheet's dimensions and the sizes at leaders. None for what was `told` with its words or its place.
    """
    messages, places = [f.message for f in told], {f.at for f in told}
    sizes = _Sizes(said)
    for text, ats in dict.fromkeys(_printed(sheet, sized, said)):
        line = normalised(text)
        known = bool(places.intersection(ats)) or any(f'"{one}"' in m for one in (text, line) for m in messages)
        if known and ONE_LIMIT.fullmatch(line):
            continue  # Of a dimension: it is of the groove measured alone.
        lost = next((found for one in limited(line) for found in [sizes.lost(one)] if found), None)
        if lost is None or known:
            continue
        groove, field = lost
        words = (
            f'"{line}" prints a tolerance that was given to no size; it may be for the {field.replace("_", " ")} of '
            f"groove {groove.id}, {float(getattr(groove, field)):.6g}: see which size it is for."
        )
        yield Finding(Level.CAUTION, DrawingCode.TOLERANCE_UNREAD, words, ats[0], groove=groove.id)


def _printed(sheet: Sheet, sized: Sequence[Dimension], said: SaidSoFar) -> Iterator[tuple[str, tuple[Point, ...]]]:
    """What the sheet prints beside the part, with its places; but for sizes of what is no groove."""
    features = said.features
    carried = set[str]()
    for dimension in sized:
        text = dimension.text or ""
        carried |= {text, *text.split("^")}
        tie = tie_of(dimension, features) if text else None
        if text and (tie is None or (tie.grooves and tie.ends is None)):
            yield text, (middle(dimension), *dimension.points)
    for one in sheet.texts:
        if (
            one.height > 0
            and one.text not in carried
            and not OF_A_MATE.search(one.text)
            and features.beside(middle_of(one))
        ):
            yield one.text, (one.at,)


class _Sizes:
    """The sizes of all grooves in their order, and what was said of them."""

    def __init__(self, said: SaidSoFar) -> None:
        """Take them once: a sheet may have as many tolerances as grooves."""
        self._said = said
        own = [(g, field) for g in said.features.part.grooves for field in FIELDS["axial" if g.side.axial else "face"]]
        self._rows = sorted(((float(getattr(g, field)), g, field) for g, field in own), key=lambda row: row[0])
        self._values = [value for value, *_ in self._rows]

    def lost(self, one: Limited) -> tuple[Groove, str] | None:
        """The first groove of such a size, and that size, where none has the tolerance; it gets no general one."""
        could = list[tuple[Groove, str]]()
        for groove, field in self._of(one):
            if _has(one, groove, field, self._said):
                return None
            could.append((groove, field))
        if not could:
            return None
        for groove, field in could:
            self._said.withhold([groove.id], field)
        return min(could, key=lambda found: found[0].id)

    def _of(self, one: Limited) -> Iterator[tuple[Groove, str]]:
        """The grooves of which a figure is a size, and which, as they are asked for: the first has most tolerances."""
        low, high = min(one.figure.sizes), max(one.figure.sizes)
        off = high - low + half_place(one.figure.decimals)
        found = set[tuple[int, str]]()
        for unit in (1.0, INCH, 1 / INCH):
            first = bisect_left(self._values, (low - off) * unit * (1 - NEAR))
            last = bisect_right(self._values, (high + off) * unit * (1 + NEAR))
            for value, groove, field in self._rows[first:last]:
                if (groove.id, field) in found:
                    continue
                may_be = field in DIAMETERS or not (one.across or (field == "depth" and one.of_class))
                of_it = may_be and self._said.features.fits(one.figure, value)
                if of_it and not self._dashed(one, groove):
                    found.add((groove.id, field))
                    yield groove, field

    def _dashed(self, one: Limited, groove: Groove) -> bool:
        """True for a figure with that of another size of the groove behind a dash, as in a floor of `34-1.1`."""
        low, high = one.deviations or (0.0, 0.0)
        behind = Printed(size=-low, sizes=(-low,), decimals=one.places)
        return low < high == 0.0 and self._said.features.fits(behind, groove.width, groove.depth)


def _has(one: Limited, groove: Groove, field: str, said: SaidSoFar) -> bool:
    """True if a size of a groove has the tolerance printed, from whatever text."""
    given, general = said.given.get(groove.id, {}), said.general.get(groove.id, ())
    own, times = given.get(field), 1.0
    if own is None or field in general:
        other, times = SETTLES.get(field, ("", 1.0))
        own, times = given.get(other), times if groove.side.hollow else -times
    if own is None or one.deviations is None:
        return own is not None
    slack, mm = half_place(one.places) + DUST, said.features.part.units == "mm"
    for factor in (times, times * INCH, times / INCH):
        low, high = sorted((factor * one.deviations[0], factor * one.deviations[1]))
        if close(own, (low, high), mm=mm) or _rounded(own, (low, high), abs(factor) * slack):
            return True
    return False


def _rounded(own: Deviation, pair: Deviation, slack: float) -> bool:
    """True for deviations of which the one is the other, rounded."""
    return all(abs(a - b) <= slack for a, b in zip(own, pair, strict=True))
