"""Was the right outline read? The printed diameters held against those of the part.

Rules: a part wider than every printed diameter, whose own diameter nothing on the sheet mentions, and which has the
largest printed diameter nowhere, is most likely not the part that is dimensioned. Where a dimension measures that
diameter, or several are printed and none is on the part, it is a stop; a leader or a bare text may name a hole, so one
alone is a caution. Where no printed diameter is on the part, but one is its length or the thickness of its wall, the
part was most likely read about a line across its true axis, or beside it: a stop. Anything less says nothing.
"""

from collections.abc import Iterable, Iterator

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Part
from extractor.sheet import Sheet
from extractor.sizing.note_words import OTHER_THING
from extractor.sizing.printed import parse
from extractor.sizing.ties import along
from extractor.sizing.unit_evidence import INCH

CLOSE = 5e-3
"""Relative difference of one size printed and drawn; printed ones are rounded."""
WIDER = 1.02
"""How much wider than every printed diameter the part must be."""
LONGEST = 40
"""Letters of a text that can be a size."""


def doubt(sheet: Sheet, part: Part) -> Finding | None:
    """A stop or a caution if what is printed belongs to an outline other than the one read, else None."""
    scale = part.frame.scale if part.frame is not None else 1.0
    diameters = [*_dimensioned(sheet, scale), *_named(sheet)]
    if not diameters:
        return None
    drawn = list(drawn_diameters(part))
    none_drawn = not any(is_one_of(size, drawn) for size, _ in diameters)
    aslant = next((size for size, _ in diameters if is_one_of(size, _extents(part))), None)
    if none_drawn and aslant is not None:
        return _other_axis(part, aslant)
    return _wider(sheet, part, diameters, drawn, none_drawn)


def diameters_printed(sheet: Sheet, scale: float) -> Iterator[float]:
    """Every size that the sheet prints with a diameter sign."""
    yield from (size for size, _ in (*_dimensioned(sheet, scale), *_named(sheet)))


def _other_axis(part: Part, size: float) -> Finding:
    """The stop where a printed diameter is a length of the part read."""
    words = (
        f"The printed diameter {size:g} is a length of the part as read, {part.outer_diameter:.5g} across and "
        f"{part.length:.5g} long, and none of its diameters: the turning axis may be another; leave it as the only "
        "centre line of the view."
    )
    at = part.frame.origin if part.frame is not None else None
    return Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at=at)


def _wider(
    sheet: Sheet, part: Part, diameters: list[tuple[float, bool]], drawn: list[float], none_drawn: bool
) -> Finding | None:
    """A stop or a caution where the part is wider than all `diameters` printed, else None."""
    scale = part.frame.scale if part.frame is not None else 1.0
    (largest, firm), across = max(diameters), part.outer_diameter
    if across <= WIDER * largest or is_one_of(across, _heights(sheet, part, scale)) or is_one_of(largest, drawn):
        return None
    many = len({size for size, _ in diameters}) > 1
    words = (
        f"No printed size says {across:.5g} across; the largest diameter printed, {largest:g}, is nowhere on the part "
        "as read: another outline may be meant; leave that of the part alone on the sheet, or accept it as read."
    )
    at = part.frame.origin if part.frame is not None else None
    return Finding(
        Level.STOP if firm or (many and none_drawn) else Level.CAUTION, DrawingCode.OUTLINE_DOUBTFUL, words, at=at
    )


def _dimensioned(sheet: Sheet, scale: float) -> Iterator[tuple[float, bool]]:
    """Sizes with a diameter sign on dimensions and leaders; True where the dimension measures what it prints."""
    for dimension in (d for d in sheet.dimensions if not OTHER_THING.search(d.text or "")):
        printed, measured = parse(dimension.text), dimension.measured / scale
        size = measured if printed.size is None else printed.size
        if printed.sign == "diameter" and size > 0:
            yield size, is_one_of(size, (measured, 2 * measured))


def _named(sheet: Sheet) -> Iterator[tuple[float, bool]]:
    """Sizes with a diameter sign in short texts."""
    for text in sheet.texts:
        printed = parse(text.text) if len(text.text) <= LONGEST and not OTHER_THING.search(text.text) else None
        if printed is not None and printed.sign == "diameter" and printed.size:
            yield printed.size, False


def _heights(sheet: Sheet, part: Part, scale: float) -> Iterator[float]:
    """Sizes that dimensions print or measure, and their doubles: half a diameter may be dimensioned.

    Not the double of what is measured along the axis: that is a length here, and a diameter at most in an end view.
    """
    for dimension in sheet.dimensions:
        length = along(dimension, part)
        for size in (dimension.measured / scale, *parse(dimension.text).sizes):
            yield from (size,) if length else (size, 2 * size)


def drawn_diameters(part: Part) -> Iterator[float]:
    """Every diameter of the part, that of the middle of a face groove among them."""
    yield from (2 * r for _, r in (*part.outline, *part.lands, *(part.bore or ())))
    for groove in part.grooves:
        yield from (groove.mouth_diameter, groove.floor_diameter)
        if not groove.side.axial:
            yield (groove.near + groove.far) / 2


def _extents(part: Part) -> Iterator[float]:
    """The length of the part, and the thickness of its wall: what a diameter is taken for about a wrong axis."""
    yield part.length
    yield part.outer_diameter / 2 - min((r for _, r in part.bore or ()), default=0.0)


def is_one_of(size: float, others: Iterable[float]) -> bool:
    """True if a printed size, rounded and in either unit, is one of others."""
    return any(_is(size, other) for other in others)


def _is(a: float, b: float) -> bool:
    """True for one size, in the same unit or in the other."""
    return any(abs(a - b * unit) <= CLOSE * a for unit in (1.0, INCH, 1 / INCH))
