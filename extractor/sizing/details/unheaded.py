"""Grooves drawn larger beside the view, of which no heading tells: known by their shape and by a size printed there."""

from collections.abc import Iterator, Sequence

from extractor.part import Groove
from extractor.sheet import Dimension, Segments, Sheet, Text
from extractor.sizing.details.enlarged import REACH, USUAL, Detail, edge_lines, round_groove
from extractor.sizing.details.headings import HEADING, NAMED
from extractor.sizing.details.same_shape import recesses
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import folded
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import LENGTHS, at_view, middle

SIDES = (1.0, -1.0)
"""Above the axis and below it."""


def unheaded(sheet: Sheet, features: Features, held: Sequence[Detail]) -> tuple[Detail, ...]:
    """A detail for each size that is printed off the view, in no detail held, otherwise than a groove drawn larger is.

    Of grooves alike it is that of the first. What agrees gives no tolerance: nobody can say of which groove it is.
    """
    found = list[Detail]()
    sizes = [d for d in sheet.dimensions if is_scaled(d, features)]
    lines = edge_lines(sheet) if sizes else sheet.segments
    for size in sizes:
        if all(detail.off(size) > REACH for detail in (*held, *found)):
            fitting = [d for d in _drawn_at(size, features, lines) if len(d.ways) == 1]
            found += [] if any(_agrees(size, d, features) for d in fitting) else fitting[:1]
    return tuple(found)


def is_scaled(size: Dimension, features: Features) -> bool:
    """True for a length off the view that prints another figure than it measures there at the scale of the view."""
    if size.kind not in LENGTHS or len(size.points) < 2 or at_view(size, features):
        return False
    printed, drawn = parse(size.text), size.measured / features.frame.scale
    return (printed.measured or bool(printed.sizes)) and not _prints(size, drawn, features)


def _agrees(size: Dimension, detail: Detail, features: Features) -> bool:
    """True for a size that prints what is drawn there, as a detail has it."""
    return _prints(size, size.measured / features.frame.scale / detail.times, features)


def _prints(size: Dimension, true: float, features: Features) -> bool:
    """True if a true size is printed."""
    printed = parse(size.text)
    return features.near(size.measured * size.factor, true) if printed.measured else features.fits(printed, true)


def _drawn_at(size: Dimension, features: Features, lines: Segments) -> Iterator[Detail]:
    """The details that a size may stand in: of each groove that is so many times smaller, by the usual scales."""
    drawn, at = size.measured / features.frame.scale, middle(size)
    for scale in USUAL:
        times = scale / features.frame.scale
        for groove in of_each_form(features):
            if times > 1 and any(features.near(drawn / times, own) for own in (groove.width, groove.depth)):
                yield from (groove_at(features, lines, Text("", at, 0.0), times, groove, side) for side in SIDES)


def of_each_form(features: Features) -> list[Groove]:
    """The first of the grooves of each form."""
    found = dict[tuple[object, ...], Groove]()
    for groove in features.part.grooves:
        form = (groove.side, groove.shape, round(groove.width / features.snap), round(groove.depth / features.snap))
        found.setdefault(form, groove)
    return [*found.values()]


def groove_at(features: Features, lines: Segments, heading: Text, times: float, groove: Groove, side: float) -> Detail:
    """A groove drawn larger at its heading."""
    ring = round_groove(groove, features, side * groove.mouth_diameter)
    return Detail(features, heading, "", times, ring, lines)


def shows_a_recess(text: Text, times: float, sheet: Sheet, features: Features) -> bool:
    """True if strokes beside a heading, off the view, draw something like a groove so many times as large."""
    forms, lines = of_each_form(features), edge_lines(sheet)
    if not forms:
        return False
    shown = groove_at(features, lines, text, times, max(forms, key=lambda g: g.width), SIDES[0]).strokes
    return any(recesses(shown.turned(turn), features.snap * times) for turn in (1, 1j, -1, -1j))


def is_drawn_otherwise(text: Text, times: float, sheet: Sheet, features: Features) -> bool:
    """True if they do so, and no groove of the part fits."""
    if not shows_a_recess(text, times, sheet, features):
        return False
    lines, tried = edge_lines(sheet), [(groove, side) for groove in of_each_form(features) for side in SIDES]
    return not any(len(groove_at(features, lines, text, times, *one).ways) == 1 for one in tried)


def is_true(heading: Text, sheet: Sheet, features: Features) -> bool:
    """True if a groove of the view is drawn larger at a heading, by its scale, and nothing there says more of it.

    All sizes there are those of the view, none has a tolerance, and no leader ends there.
    """
    scaled = HEADING.fullmatch(folded(heading.text)) or NAMED.fullmatch(folded(heading.text))
    if scaled is None or scaled[2] is None:
        return False
    top, bottom = (float(number.replace(",", ".")) for number in scaled.groups()[1:])
    times = top / bottom / features.frame.scale if bottom > 0 else 0.0
    lines, tried = edge_lines(sheet), [(g, side) for g in of_each_form(features) for side in SIDES] if times > 1 else []
    made = (groove_at(features, lines, heading, times, *one) for one in tried)
    shown = next((detail for detail in made if len(detail.ways) == 1), None)
    if shown is None:
        return False
    own = [d for d in sheet.dimensions if not at_view(d, features) and shown.has(d.points[0])]
    return all(_says_no_more(d, shown, features) for d in own)


def _says_no_more(size: Dimension, detail: Detail, features: Features) -> bool:
    """True for a length that prints what is drawn, without a tolerance."""
    printed = parse(size.text)
    plain = size.kind in LENGTHS and size.deviations is None and not (printed.limited or printed.unread)
    return plain and _agrees(size, detail, features)
