"""Was the right outline read? The printed sizes held against those of the part: how many agree, how many are nowhere.

Rules: a part wider than every printed diameter, whose own diameter nothing on the sheet mentions, and which has the
largest printed diameter nowhere, is most likely not the part that is dimensioned. Where a dimension measures that
diameter, or several are printed and none is on the part, it is a stop; a leader or a bare text may name a hole, so one
alone is a caution. Where no printed diameter is on the part, but one is its length or the thickness of its wall, the
part was most likely read about a line across its true axis, or beside it: a stop, unless it is measured clear of the
view. So are several diameters measured
about its axis of which it has none, or one where no other size is measured at it: what was read lies within the part,
or beside it. Anything less says nothing.
"""

from collections.abc import Iterable, Iterator

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import INCH, Frame, Part
from extractor.score import Merit
from extractor.sheet import DimensionKind, Sheet
from extractor.sizing.lettering.note_words import OTHER_THING
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import plain
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import listed
from extractor.sizing.measured.ties import LENGTHS, along, tie_of

CLOSE = 5e-3
"""Relative difference of one size printed and drawn; printed ones are rounded."""
WIDER = 1.02
"""How much wider than every printed diameter the part must be."""
LONGEST = 40
"""Letters of a text that can be a size."""
SEVERAL = 2
"""So many diameters about an axis of which the part has none are those of another outline; one may be that of a hole or
a pitch circle in line. So many sizes more than that, none of them at the part, leave no doubt of one."""


def doubt(sheet: Sheet, features: Features) -> Finding | None:
    """A stop or a caution if what is printed belongs to an outline other than the one read, else None."""
    part, frame = features.part, features.frame
    diameters = list(_printed(sheet, frame.scale))
    if not diameters:
        return None
    drawn, across = list(drawn_diameters(part)), part.outer_diameter
    none_drawn = not any(is_one_of(size, drawn) for size, _ in diameters)
    wall = across / 2 - min((r for _, r in part.bore or ()), default=0.0)
    # What a diameter is taken for about a wrong axis.
    lengths, others = (part.length, wall), _elsewhere(sheet, features)
    aslant = next((size for size, _ in diameters if is_one_of(size, lengths) and size not in others), None)
    if none_drawn and aslant is not None:
        words = (
            f"The printed diameter {aslant:g} is a length of the part as read, {across:.5g} across and "
            f"{part.length:.5g} long, and none of its diameters: the turning axis may be another; leave it as the only "
            "centre line of the view."
        )
        return Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at=frame.origin)
    about = sorted(set(_about_axis(sheet, features)))
    if len(about) >= (1 if _fits_nothing(sheet, features) else SEVERAL) and not any(
        is_one_of(size, drawn) for size in about
    ):
        words = (
            f"The sheet sizes {listed([f'{size:g}' for size in about])} across the axis of the part as read, "
            f"{across:.5g} across and {part.length:.5g} long, which has no such diameter: the part meant may lie "
            "round it or beside it; point to it with --at X,Y, or close its outline."
        )
        return Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at=frame.origin)
    largest, firm = max(diameters)
    if across <= WIDER * largest or is_one_of(across, _heights(sheet, frame)) or is_one_of(largest, drawn):
        return None
    sure = firm or (len({size for size, _ in diameters}) > 1 and none_drawn)
    words = (
        f"No printed size says {across:.5g} across; the largest diameter printed, {largest:g}, is nowhere on the part "
        "as read: another outline may be meant; leave that of the part alone on the sheet, or accept it as read."
    )
    return Finding(Level.STOP if sure else Level.CAUTION, DrawingCode.OUTLINE_DOUBTFUL, words, at=frame.origin)


def _elsewhere(sheet: Sheet, features: Features) -> set[float]:
    """The diameters that dimensions print and measure with both ends clear of the view: those of another part.

    What is read about a wrong axis, or is a piece of the part, has at least one end of its sizes in it.
    """
    found = set[float]()
    for dimension in (d for d in sheet.dimensions if d.kind in LENGTHS and parse(d.text).sign == "diameter"):
        if not any(features.in_view(*features.frame.on_part(p)) for p in dimension.points[:2]):
            found.add(parse(dimension.text).size or dimension.measured / features.frame.scale)
    return found


def _fits_nothing(sheet: Sheet, features: Features) -> bool:
    """True if several sizes are measured on the sheet, and none of them at the part."""
    sizes = [d for d in sheet.dimensions if d.kind in LENGTHS]
    return len(sizes) > SEVERAL and not any(tie_of(d, features) for d in sizes)


def _about_axis(sheet: Sheet, features: Features) -> Iterator[float]:
    """The diameters that dimensions measure and print across the line of the axis, wherever along it."""
    for dimension in (d for d in sheet.dimensions if d.kind in LENGTHS and parse(d.text).sign == "diameter"):
        (_, a), (_, b) = (features.frame.on_part(p) for p in dimension.points[:2])
        size, true = parse(dimension.text).size, dimension.measured / features.frame.scale
        if features.near(a, -b) and abs(a) > features.snap and is_one_of(true if size is None else size, (true,)):
            yield true


def borne_out(sheet: Sheet, part: Part) -> Merit:
    """Count of printed sizes that agree with the part, each once, less the printed diameters that it has nowhere.

    A length or a height agrees if it is measured between two places of the part. Any other may belong to another view
    and says nothing; a contradiction is reported as a stop.
    """
    if part.frame is None:
        return Merit(0.0, "no place on the sheet")
    features = Features.of(part)
    printed, drawn = {size for size, _ in _printed(sheet, part.frame.scale)}, list(drawn_diameters(part))
    there = {size for size in printed if is_one_of(size, drawn)}
    plain = (d for d in sheet.dimensions if d.kind is not DimensionKind.LEADER and parse(d.text).sign != "diameter")
    # Between two levels across one axis there may as well be a length along another.
    ties = (t for d in plain if (t := tie_of(d, features)) and (t.field != "distance_across" or t.floors))
    measured = {(t.field, t.grooves, round(t.true / features.snap)) for t in ties if not t.loose}
    agree, odd = len(there) + len(measured), len(printed - there)
    return Merit(float(agree - odd), f"{agree} printed sizes agree, {odd} diameters are nowhere on it")


def _printed(sheet: Sheet, scale: float) -> Iterator[tuple[float, bool]]:
    """Every size that the sheet prints with a diameter sign; True where a dimension measures what it prints.

    They stand on dimensions and leaders, and in short texts.
    """
    for dimension in (d for d in sheet.dimensions if not OTHER_THING.search(plain(d.text or ""))):
        printed, measured = parse(dimension.text), dimension.measured / scale
        size = measured if printed.size is None else printed.size
        if printed.sign == "diameter" and size > 0:
            yield size, is_one_of(size, (measured, 2 * measured))
    for text in sheet.texts:
        if len(text.text) <= LONGEST and not OTHER_THING.search(plain(text.text)):
            printed = parse(text.text)
            if printed.sign == "diameter" and printed.size:
                yield printed.size, False


def _heights(sheet: Sheet, frame: Frame) -> Iterator[float]:
    """Sizes that dimensions print or measure, and their doubles: half a diameter may be dimensioned.

    Not the double of what is measured along the axis: that is a length here, and a diameter at most in an end view.
    """
    for dimension in sheet.dimensions:
        length = along(dimension, frame)
        for size in (dimension.measured / frame.scale, *parse(dimension.text).sizes):
            yield from (size,) if length else (size, 2 * size)


def drawn_diameters(part: Part) -> Iterator[float]:
    """Every diameter of the part, that of the middle of a face groove among them."""
    yield from (2 * r for _, r in (*part.outline, *part.lands, *(part.bore or ())))
    for groove in part.grooves:
        yield from (groove.mouth_diameter, groove.floor_diameter)
        if not groove.side.axial:
            yield (groove.near + groove.far) / 2


def is_one_of(size: float, others: Iterable[float]) -> bool:
    """True if a printed size, rounded and in either unit, is one of others."""
    units = (1.0, INCH, 1 / INCH)
    return any(abs(size - other * unit) <= CLOSE * size for other in others for unit in units)
