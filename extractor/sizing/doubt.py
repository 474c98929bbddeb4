"""Is the right outline read? The diameters that the sheet prints held against those of the part.

Rules: a part wider than every printed diameter, of whose own diameter nothing on the sheet speaks, and which has the
largest printed diameter nowhere, is most likely not the part that is dimensioned. Where a dimension measures that
diameter, or several are printed and none is on the part, it is a stop; a leader or a bare text may name a hole, so one
alone is a caution. Anything less says nothing.
"""

from collections.abc import Iterable, Iterator

from extractor.finding import Finding, Level
from extractor.part import Part
from extractor.sheet import Sheet
from extractor.sizing.printed import parse
from extractor.sizing.unit_evidence import INCH

CLOSE = 5e-3
"""Relative difference of one size printed and drawn; printed ones are rounded."""
WIDER = 1.02
"""How much wider than every printed diameter the part must be."""
LONGEST = 40
"""Letters of a text that can be a size."""


def doubt(sheet: Sheet, part: Part) -> Finding | None:
    """A stop or a caution where what is printed belongs to another outline than the one read, else None."""
    scale = part.frame.scale if part.frame is not None else 1.0
    diameters = [*_dimensioned(sheet, scale), *_named(sheet)]
    if not diameters:
        return None
    (largest, firm), across = max(diameters), part.outer_diameter
    drawn = list(_drawn(part))
    if across <= WIDER * largest or _any_is(across, _lengths(sheet, scale)) or _any_is(largest, drawn):
        return None
    none_drawn = len({size for size, _ in diameters}) > 1 and not any(_any_is(size, drawn) for size, _ in diameters)
    words = (
        f"Nothing printed says {across:.5g} across; the largest diameter printed, {largest:g}, is nowhere on the part "
        "read: another outline may be meant, --at X,Y points to it."
    )
    at = part.frame.origin if part.frame is not None else None
    return Finding(Level.STOP if firm or none_drawn else Level.CAUTION, "outline-doubtful", words, at=at)


def _dimensioned(sheet: Sheet, scale: float) -> Iterator[tuple[float, bool]]:
    """Sizes with a diameter sign on dimensions and leaders; True where the dimension measures what it prints."""
    for dimension in sheet.dimensions:
        printed, measured = parse(dimension.text), dimension.measured / scale
        size = measured if printed.size is None else printed.size
        if printed.sign == "diameter" and size > 0:
            yield size, _any_is(size, (measured, 2 * measured))


def _named(sheet: Sheet) -> Iterator[tuple[float, bool]]:
    """Sizes with a diameter sign in short texts."""
    for text in sheet.texts:
        printed = parse(text.text) if len(text.text) <= LONGEST else None
        if printed is not None and printed.sign == "diameter" and printed.size:
            yield printed.size, False


def _lengths(sheet: Sheet, scale: float) -> Iterator[float]:
    """Every size any dimension prints or measures, and its double: half a diameter may be dimensioned."""
    for dimension in sheet.dimensions:
        for size in (dimension.measured / scale, *parse(dimension.text).sizes):
            yield size
            yield 2 * size


def _drawn(part: Part) -> Iterator[float]:
    """Every diameter of the part."""
    yield from (2 * r for _, r in (*part.outline, *part.lands, *(part.bore or ())))
    for groove in part.grooves:
        yield from (groove.mouth_diameter, groove.floor_diameter)


def _any_is(size: float, others: Iterable[float]) -> bool:
    return any(_is(size, other) for other in others)


def _is(a: float, b: float) -> bool:
    """True for one size, in the same unit or in the other."""
    return any(abs(a - b * unit) <= CLOSE * a for unit in (1.0, INCH, 1 / INCH))
