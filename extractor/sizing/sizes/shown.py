"""The picture of a dimension, held against its text and variables: the picture is what is on paper."""

from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.decimals import half_place
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.part import INCH, Deviation
from extractor.sheet import Dimension
from extractor.sizing.lettering.printed import DUST, Printed, parse
from extractor.sizing.measured.ties import middle
from extractor.sizing.tolerances.tolerance import Size, deviations_of, unit_factor

SAME = 0.005
"""By how much deviations of one size that is printed twice may differ, mm: its nominal may be rounded."""


def deviations_on_paper(printed: Printed, dimension: Dimension, size: Size) -> tuple[Deviation | None, Finding | None]:
    """Deviations of a size and what there is to say, as `deviations_of`; none where the picture shows others."""
    given, finding = deviations_of(printed, dimension, size)
    shown = parse(dimension.shown)
    known = dimension.shown and (dimension.shown != dimension.text or dimension.deviations is not None)
    if finding is not None or not known or shown.size is None or shown.unread:
        return given, finding
    seen, odd = deviations_of(shown, replace(dimension, deviations=None), size)
    # A program that draws no tolerances leaves a picture of the size alone; of a typed text none is drawn by any.
    plain = seen is None and (dimension.text is None or "<>" in dimension.text)
    if odd is not None or plain or seen == given or (seen and given and close(seen, given, size.units == "mm")):
        return given, None
    if seen and given and _rounds(seen, given, shown, dimension, size):
        return seen, None
    has, had = ("no tolerance" if one is None else f"{one[0]:+.6g} to {one[1]:+.6g}" for one in (seen, given))
    words = (
        f'The dimension that shows "{normalised(dimension.shown)}" ({has}) has {had} in its data: ask which is meant; '
        "neither is kept."
    )
    return None, Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, middle(dimension))


def _rounds(seen: Deviation, given: Deviation, shown: Printed, dimension: Dimension, size: Size) -> bool:
    """True if a picture's limits lie off those of the data by no more than its size is rounded, both the same way.

    A program rounds the size to the decimals of its style; what is on paper counts.
    """
    factor = unit_factor(shown, dimension, size.true)
    moved = (shown.size or 0.0) * factor - size.true
    rounded = abs(moved) <= half_place(shown.decimals) * factor + DUST
    return rounded and all(abs(a - b - moved) <= size.file_rounding + DUST for a, b in zip(seen, given, strict=True))


def close(one: Deviation, other: Deviation, mm: bool) -> bool:
    """True for deviations of one size that are the same, in mm or else inches."""
    return all(abs(a - b) <= SAME / (1.0 if mm else INCH) for a, b in zip(one, other, strict=True))


def places_on_paper(printed: Printed, dimension: Dimension) -> int | None:
    """The decimals that a size is printed with, None where its text doesn't show them."""
    sizes = (printed, parse(dimension.shown or "-"))
    return next((one.decimals for one in sizes if one.size is not None and not one.measured), None)
