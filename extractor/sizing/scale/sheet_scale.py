"""Is the view drawn at true size? Printed sizes held against drawn ones, and what scale notes say.

Rules: a printed size equal to the drawn one settles it (a note "SCALE 2:1" is then the plotting scale). Several printed
sizes that share another ratio, or a display factor, mean a view drawn at a sheet scale: a stop, or only a note where
the sheet prints that very scale, with or without others, and three sizes or more bear it out, or where it is the only
one all that there are, along and across. A ratio
of 25.4 is the other unit, not a scale, and one of 50.8 both: 2:1, sized in inches. A diameter printed on half a section
has the ratio 2 and says nothing, but for bearing out 1:2 where lengths and a note say so.
A sheet that says it is drawn to no scale has its word on sizes that it does not print: only three true ones or more,
along and across, say that it was drawn at true size all the same.
"""

import math
import re
from collections import Counter
from collections.abc import Iterable, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.late import late
from extractor.part import INCH
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import DETAIL, RATIO, SCALE, SECTION, VIEW, about, folded, phrases
from extractor.sizing.scale.unit_evidence import LIBRARY_FACTORS, is_ratio, printed_sizes

SCALE_NOTE = late(rf"\b{SCALE}\b\W{{0,4}}{RATIO}")
TIMES = late(
    rf"\W*?{SCALE}\b\W{{0,4}}?(x ?\d+|\d*[.,]?\d+(?: ?x)?|double|twice|half)\W*"
    r"|\W*(?:(?:view )?drawn )?((?:\d+ ?(?:x|times)|double|twice|half)(?: (?:full|tru|natural))? size)\W*"
)
"""A scale told as how many times the true size and no more: `SCALE 2X`, `TWICE FULL SIZE`; `true` folds to `tru`."""
IN_WORDS = {"double": 2.0, "twice": 2.0, "half": 0.5}
SCALE_CELL = late(r"(\d+(?:[.,]\d+)?) ?: ?(\d+(?:[.,]\d+)?)")
SCALE_ALONE = late(r"([2-9]|\d{2,}) ?: ?(1)")
"""A scale with no word at all: nothing else on a drawing is so many times one; a taper is one to so many."""
SCALE_STRANGE = late(r"\W*[^\W\d_]{4,}\W{1,4}(\d+) ?: ?(\d+)\W*")
"""A word and a ratio: a scale in a language that is not known here, unless the word is that of a slope or a gear."""
OTHER_RATIO = late(rf"\b(?:{phrases('another_ratio')})")
SCALE_LETTER = late(rf"m ?{SCALE_CELL.pattern}")
"""A scale by its letter alone, as German sheets have it (common practice, no source)."""
NO_SCALE_CELL = late(r"none|ohne|sans|sin")
OF_A_DETAIL = late(rf"{DETAIL}|schnitt|\b{SECTION}\b")
OWN_LETTER = late(r"\W*[a-z](?:\W{1,3}[a-z])?\W*")
"""The letter of a detail or the two of a section, alone above its scale."""
SCALED_VIEW = late(rf"\W*{VIEW}\W+[a-z]\b\W*{RATIO}\W*")
"""How a view is headed with its scale: `VIEW A 2:1`."""
LETTERED_VIEW = late(rf"\W*{VIEW}\W+([a-z])\b\W*(?:{RATIO}\W*)?")
"""The same with its scale or without, which may stand beside it."""
RING_AT = 4.0
"""Letter heights from the line of a ring within which its letter begins."""
LARGEST_IN_METRES = 2.0
"""A part beyond this diameter is not drawn in metres: it would be none for these lathes."""
BORNE_OUT = 3
"""So many different printed sizes at the ratio of a printed scale, and none at true size, put it beyond doubt."""
USUAL = tuple(step * ten for ten in (0.1, 1.0, 10.0, 100.0, 1000.0) for step in (1.0, 2.0, 5.0))
"""Steps of the usual scales, over enough powers of ten for either unit."""
NEAR_NAME = 8.0
"""Letter heights between the name of a detail and its scale, at most."""
CLOSE = 5e-3
"""Relative difference within which ratios of rounded sizes are one."""

PLACES = 6
"""Decimals of a scale that is worked out from two others."""
OTHER_UNIT = (INCH, 1 / INCH)
"""Ratios of sizes that are printed in the other unit than drawn."""


def drawn_scale(
    sheet: Sheet, dimensions: Sequence[Dimension], diameter: float, headed: float | None = None
) -> tuple[float, tuple[Finding, ...]]:
    """Drawn length of one printed unit, with a stop if it is not 1; `headed` is the scale in the view's own heading."""
    texts = _of_the_view(sheet)
    noted = headed or scale_of_notes(texts) or _scale_on_paper(sheet)
    default = [_default_factor(d, diameter, noted) for d in dimensions]
    rows = list(zip(dimensions, default, strict=True))
    ratios = [r for d, passed in rows if not passed and (r := _ratio(d)) is not None]
    findings = [_factor_caution(d) for d, passed in rows if passed][:1]
    true = sum(1 for r in ratios if _like(r, 1.0))
    ratio, count = _shared(r for r in ratios if not _like(r, 1.0) and r not in OTHER_UNIT)
    scale, sized = _usual(1 / ratio) if ratio is not None else (1.0, "")
    said = noted is not None and _like(noted, scale)
    sure = ratio is not None and (count > 1 or _has_factor(dimensions, ratio) or said)
    if ratio is not None and count > true and sure:
        halved = said and _like(ratio, 2.0)
        sized_here = [d for d in dimensions if _ratio(d) is not None or (halved and _as_on_a_half(d))]
        sizes = {round(d.measured, 9) for d in sized_here if _fits(d, ratio)}
        against = any(_fits(d, 1.0) and not _fits(d, ratio) for d in sized_here)
        both_ways = (
            len(sizes) > 1 and all(_fits(d, ratio) for d in sized_here) and len({_way(d) for d in sized_here}) > 1
        )
        among = said or any(_like(one, scale) for one in _noted(texts))
        if not against and ((said and both_ways) or (among and len(sizes) >= BORNE_OUT)):
            return scale, (*findings, _scale_note(scale, sized, len(sizes)))
        why = f"{count} printed size{'s are' if count > 1 else ' is'} {ratio:.4g} times as drawn"
        # A display factor says what is meant outright: to read such a sheet as drawn is no choice.
        others = () if _has_factor(dimensions, ratio) else (1.0,)
        return scale, (*findings, _scale_stop(scale, sized, why, others))
    if to_no_scale(sheet) and headed is None and (few := _too_few(dimensions)) is not None:
        return 1.0, (*findings, _no_scale_stop(few))
    if true or ratios or _diameter_printed(sheet, diameter):
        return 1.0, tuple(findings)
    if noted is None or _like(noted, 1.0):
        return 1.0, tuple(findings)
    return noted, (*findings, _scale_stop(noted, "", "a note says so and no printed size contradicts it", (1.0,)))


def _ratio(dimension: Dimension) -> float | None:
    """Printed over drawn size, the candidate nearest to 1, as the other unit's exactly; None where there is none."""
    if dimension.kind in (DimensionKind.ANGULAR, DimensionKind.LEADER) or dimension.measured <= 0:
        return None
    printed = parse(dimension.text)
    if printed.sign in ("angle", "thread"):
        return None
    sizes = [size for size in printed_sizes(dimension, printed) if size > 0]
    if _as_on_a_half(dimension):
        return None
    best = min(sizes, key=lambda size: abs(size / dimension.measured - 1), default=None)
    if best is None:
        return None
    ratio = best / dimension.measured
    return next((unit for unit in OTHER_UNIT if is_ratio(ratio, unit, printed.rounded(best))), ratio)


def _as_on_a_half(dimension: Dimension) -> bool:
    """True for a diameter printed twice as large as drawn, as on half a section."""
    printed = parse(dimension.text)
    typed = printed.sign == "diameter" and not printed.measured and not _like(dimension.factor, 2.0)
    return typed and dimension.measured > 0 and _fits(dimension, 2.0)


def _fits(dimension: Dimension, ratio: float) -> bool:
    """True if a printed size that may be meant has this ratio to the drawn one: of `2x 4` the 2 counts, or is one."""
    sizes = printed_sizes(dimension, parse(dimension.text))
    return any(size > 0 and _like(size / dimension.measured, ratio) for size in sizes)


def _too_few(dimensions: Sequence[Dimension]) -> str | None:
    """What is said of dimensions too few to bear out that a view is drawn at true size, None where they do."""
    here = [d for d in dimensions if _ratio(d) is not None]
    true = [d for d in here if _fits(d, 1.0)]
    sizes, ways = {round(d.measured, 9) for d in true}, {_way(d) for d in true}
    if len(true) < len(here) or (len(sizes) >= BORNE_OUT and len(ways) > 1):
        return None
    if not sizes:
        return "no dimension says how large the part is"
    one = len(sizes) == 1
    told = f"{'only one size' if one else f'the {len(sizes)} sizes'} that dimensions print agree{'s' * one} with it"
    return told if len(sizes) < BORNE_OUT else f"{told}, all in one direction"


def _way(dimension: Dimension) -> int:
    """The direction of a dimension in whole degrees; one of its own for a radius or a diameter."""
    return -1 if dimension.kind in (DimensionKind.DIAMETER, DimensionKind.RADIUS) else round(dimension.angle) % 180


def _like(one: float, ratio: float) -> bool:
    """True if two ratios of rounded sizes are one."""
    return abs(one / ratio - 1) <= CLOSE


def _shared(ratios: Iterable[float]) -> tuple[float | None, int]:
    """The ratio that most sizes share, and how many do."""
    listed = list(ratios)
    counts = Counter({r: sum(1 for other in listed if _like(other, r)) for r in listed})
    return counts.most_common(1)[0] if counts else (None, 0)


def _usual(drawn: float) -> tuple[float, str]:
    """The scale that drawings are made at, if one is near (ISO 5455, from memory: 1, 2, 5 and their powers of ten).

    `drawn` is the drawn length of one printed unit, which is the scale only nearly, as printed sizes are rounded. With
    the scale comes what is said of sizes that are printed in the other unit, "" where they are not.
    """
    for factor, sized in ((1.0, ""), (INCH, " and sized in inches"), (1 / INCH, " and sized in mm")):
        if (step := _step(drawn / factor)) is not None:
            return step, sized
    return drawn, ""


def _step(ratio: float) -> float | None:
    """The usual scale that a ratio is nearly, None where it is none."""
    tens = float(f"1e{math.floor(math.log10(ratio)) - 1}")
    return next((step * tens for step in USUAL if abs(ratio / (step * tens) - 1) <= CLOSE), None)


def _has_factor(dimensions: Iterable[Dimension], ratio: float) -> bool:
    """True if a size is measured or printed with this display factor: one is proof enough."""
    alike = (d for d in dimensions if _like(d.factor, ratio))
    return any(parse(d.text).measured or _fits(d, ratio) for d in alike)


def _default_factor(dimension: Dimension, diameter: float, noted: float | None) -> bool:
    """True for the display factor of a library's default style, which is made for drawings in metres, on another one.

    A part as large as this would be drawn at such a scale only where the sheet says so: it is for buildings. Angles are
    shown without the factor.
    """
    of_length = dimension.kind is not DimensionKind.ANGULAR and parse(dimension.text).measured
    if dimension.factor not in LIBRARY_FACTORS or not of_length:
        return False
    return diameter > LARGEST_IN_METRES and not (noted is not None and _like(noted, 1 / dimension.factor))


def _factor_caution(dimension: Dimension) -> Finding:
    words = (
        f"Dimensions print {dimension.factor:g} times the drawn size, a library's default; the drawn size was taken."
    )
    return Finding(Level.CAUTION, DrawingCode.DISPLAY_FACTOR, words, at=dimension.points[0])


def sizes_at(scale: float, dimensions: Sequence[Dimension]) -> int:
    """How many sizes dimensions print that agree with a scale."""
    return sum(1 for d in dimensions if (ratio := _ratio(d)) is not None and _like(ratio, 1 / scale))


def scale_overridden(told: float, scale: float, findings: Sequence[Finding], agree: int) -> tuple[Finding, ...]:
    """A caution where the scale that the user gives is not that of the sheet as found, or where it is drawn to none.

    `agree`: how many printed sizes agree with the one that was found.
    """
    if not any(f.code == DrawingCode.SHEET_SCALE for f in findings):
        if not agree or _like(told, scale):
            return ()
        sizes = f"{agree} size{'s' if agree > 1 else ''} that dimensions print agree{'' if agree > 1 else 's'}"
        words = f"Read at {ratio_words(told)} as told, although {sizes} with {ratio_words(scale)}: check every size."
        return (Finding(Level.CAUTION, DrawingCode.SHEET_SCALE, words),)
    if _like(told, scale):
        words = "Read as drawn, as told, although a note says that the sheet is drawn to no scale: check every size."
        none = any(f.scales == (1.0,) for f in findings)
        return (Finding(Level.CAUTION, DrawingCode.SHEET_SCALE, words),) if none else ()
    words = (
        f"Read at {ratio_words(told)} as told, although the sheet says that the view is drawn at {ratio_words(scale)}."
    )
    return (Finding(Level.CAUTION, DrawingCode.SHEET_SCALE, words),)


def _scale_stop(scale: float, sized: str, why: str, others: tuple[float, ...]) -> Finding:
    words = f"The view is drawn at {ratio_words(scale)}{sized}: {why}; --scale {scale:.6g} accepts it."
    return Finding(Level.STOP, DrawingCode.SHEET_SCALE, words, scales=(scale, *others))


def _no_scale_stop(few: str) -> Finding:
    words = (
        f"A note says that the sheet is drawn to no scale, and {few}: any other may be drawn wrongly; print the sizes, "
        "or --scale 1 takes all as drawn."
    )
    return Finding(Level.STOP, DrawingCode.SHEET_SCALE, words, scales=(1.0,))


def _scale_note(scale: float, sized: str, sizes: int) -> Finding:
    words = f"The view is drawn at {ratio_words(scale)}{sized}, as a note says and {sizes} printed sizes bear out."
    return Finding(Level.NOTE, DrawingCode.SHEET_SCALE, words)


def ratio_words(scale: float) -> str:
    """A scale as printed on drawings.

    >>> ratio_words(2.0), ratio_words(0.5), ratio_words(2.6)
    ('2:1', '1:2', '2.6:1')
    """
    return f"{scale:.4g}:1" if scale >= 1 else f"1:{1 / scale:.4g}"


def _diameter_printed(sheet: Sheet, diameter: float) -> bool:
    """True if any note prints the drawn diameter with a diameter sign."""
    printed = (parse(text.text) for text in sheet.texts if "Ø" in text.text or "dia" in text.text.lower())
    return any(p.size is not None and _like(p.size, diameter) for p in printed)


def _scale_on_paper(sheet: Sheet) -> float | None:
    """The scale of what is drawn, by the one that a layout prints for what its windows show at theirs.

    None where a window at a scale of no drawing shows it, or where it may be more than one.
    """
    printed = scale_of_notes(sheet.around)
    shown = [_step(one) for one in sheet.windows]
    if printed is None or None in shown:
        return None
    drawn = {round(printed / one, PLACES) for one in shown if one}
    return 1.0 if 1.0 in drawn else drawn.pop() if len(drawn) == 1 else None


def scale_of_notes(texts: Sequence[Text]) -> float | None:
    """The one scale that notes or the title block give to a sheet with these texts; None where none or several."""
    found = _noted(texts)
    return found.pop() if len(found) == 1 else None


def _noted(texts: Sequence[Text]) -> set[float]:
    """Every scale that they give: beside that of the view there may be one of the print."""
    found, cell_wanted = set[float](), _has_cell(texts)
    for text in texts:
        line = folded(text.text)
        match = SCALE_NOTE.search(line.replace("=", ":")) or SCALE_LETTER.fullmatch(line) or SCALED_VIEW.fullmatch(line)
        match = match or (SCALE_CELL.fullmatch(line) if cell_wanted else _unnamed(text, texts))
        if match and not _of_a_detail(text, texts):
            top, bottom = (float(g.replace(",", ".")) for g in match.groups())
            if top > 0 and bottom > 0:
                found.add(top / bottom)
        elif (times := _times(line)) and not _of_a_detail(text, texts):
            found.add(times)
    return found


def _times(line: str) -> float:
    """How many times its true size a text says that the sheet is drawn, 0 where it says nothing of the kind."""
    found = TIMES.fullmatch(line)
    words = "" if found is None else found[1] or found[2]
    figure = re.search(r"\d*[.,]?\d+", words)
    return float(figure[0].replace(",", ".")) if figure else IN_WORDS.get(words.split(" ")[0], 0.0)


def _unnamed(note: Text, texts: Iterable[Text]) -> re.Match[str] | None:
    """A scale that no word known here names, if a text is one and is not that of a detail with its letter alone."""
    line = folded(note.text)
    alone = SCALE_ALONE.fullmatch(line)
    if alone is None:
        strange = SCALE_STRANGE.fullmatch(line)
        usual = strange is not None and {"1"} & {*strange.groups()} and not OTHER_RATIO.search(line)
        return strange if usual else None
    lettered = any(t.height >= note.height and _near(t, note) and OWN_LETTER.fullmatch(folded(t.text)) for t in texts)
    return None if lettered else alone


def _near(name: Text, note: Text) -> bool:
    """True for a name that stands by a note as that of a detail does by its scale."""
    return math.dist(name.at, note.at) <= NEAR_NAME * max(name.height, note.height)


def _has_cell(texts: Iterable[Text]) -> bool:
    """True if a cell of the title block is headed as the scale."""
    return any(re.fullmatch(rf"{SCALE} ?:?", folded(text.text)) for text in texts)


def to_no_scale(sheet: Sheet) -> bool:
    """True if a note or the title block says that the sheet is drawn to no scale."""
    rows = sheet.texts, sheet.around
    said = any(about(folded(t.text), "to_no_scale") and not _of_a_detail(t, texts) for texts in rows for t in texts)
    return said or any(
        _has_cell(texts) and any(NO_SCALE_CELL.fullmatch(folded(t.text)) for t in texts) for texts in rows
    )


def _of_a_detail(note: Text, texts: Iterable[Text]) -> bool:
    """True for the scale of a detail or section: its name stands in the note or just above it."""
    return any(_near(text, note) and OF_A_DETAIL.search(folded(text.text)) for text in texts)


def _of_the_view(sheet: Sheet) -> tuple[Text, ...]:
    """The texts but for those at the heading of a view whose letter stands at a ring: that is a detail."""
    headed = [(text, found[1]) for text in sheet.texts if (found := LETTERED_VIEW.fullmatch(folded(text.text)))]
    letters = {folded(text.text): text for text in sheet.texts} if headed and sheet.circles else {}
    ringed = [text for text, letter in headed if letter in letters and _ringed(letters[letter], sheet)]
    return tuple(text for text in sheet.texts if not any(_near(name, text) for name in ringed))


def _ringed(letter: Text, sheet: Sheet) -> bool:
    """True for a letter that stands at a circle."""
    most = RING_AT * letter.height
    return any(abs(math.dist(letter.at, circle.centre) - circle.radius) <= most for circle in sheet.circles)
