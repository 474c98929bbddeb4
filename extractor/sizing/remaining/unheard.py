"""Bare sizes beside the part that no dimension and no leader took up: one that measures nothing drawn is asked about.

Rules: a number in a circle, of a row in a table of grooves, of the zones of the sheet, or in a list with words in its
row and its column, is a label, one of the preferred values of roughness a finish, and in mm one with four decimals as a
steel's number has them (EN 10027-2, from memory) a material. What is any length of the part
may be right, whatever it stands at; what has a diameter's sign must be one of its diameters.
"""

import math
import re
from collections.abc import Callable, Iterator, Sequence, Set
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import COUNT, COUNT_BEHIND, DIAMETER, NUMBER, UNIT, normalised
from extractor.part import Groove, Part
from extractor.sheet import Floats, Sheet, Text
from extractor.sizing.lettering.note_figures import without_tolerances
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.pointers import LooseLeaders, box_of, loose_leaders, middle_of
from extractor.sizing.lettering.printed import FINISH, Printed, parse
from extractor.sizing.lettering.sheet_words import plain
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.note_checks import is_note
from extractor.sizing.sentences.could_size import ACROSS, could_be
from extractor.sizing.sentences.general import HEAD, wholes
from extractor.sizing.sentences.material_notes import STEEL_NUMBER
from extractor.sizing.tables.table_lines import FLOOR, ROW
from extractor.sizing.tables.table_rows import groove_table
from extractor.sizing.tables.tolerance_tables import FitRow, RangeRow, fit_rows, range_rows, without_rows

BARE = re.compile(
    rf"\(?\s*Ø?\s*{NUMBER}\s*(?:mm\b|TYP(?:ICAL)?\b\.?)*\s*\)?|(?=.*\.){NUMBER}\s*[\s/-]\s*{NUMBER}", re.I
)
"""A text that is one size, or two, and nothing else."""
SIGNED = re.compile(r"\d.*?(?:±|[+-]\s*\d*\.\d|[+-]\s*\d+\s*/)")
"""A size with deviations; a class may be that of something else."""
TYPICAL = re.compile(r"\s*\bTYP(?:ICAL)?\b\.?", re.I)
"""What makes of a bare size no note."""
DEVIATION = re.compile(r"±\s*\d*\.?\d+|[+-]\s*(?:0?\.\d+|0)|(?:(?i:[f-hkp]|js)|n)(?:[5-9]|1[0-4])")
"""A deviation or a usual class that stands alone; a greater number with one sign is a height or a place.

`N7` is a grade of roughness as well (ISO 1302 of before 2002, from memory).
"""
ROUND = 3.0
"""Radius in letter heights of a circle round a label, at most."""
OF_GROOVES = re.compile(
    rf"\b(?:{GROOVE}|NUTGRUND|{FLOOR})(?:\s*(?:NO\.?\s*)?(?P<which>\d+)\s*[:=])?(?:(?!{DIAMETER}).)*{DIAMETER}\s*(?P<across>{NUMBER})",
    re.I,
)
"""A diameter in a note that names a groove, by its number or not, or its floor."""
LEAST = 0.2
"""Share of the least length of the part below which a figure is no size but a tolerance of form in its frame."""
EXCHANGED: dict[str, tuple[str, ...]] = {"diameter": ("floor_diameter",), "": ("width", "depth")}
"""What a bare size at a groove may be, by its sign."""
STANDS = 1.0
"""Letter heights from a figure down to the dimension line that it stands on, at most."""
LABELS = 2
"""So many diameters within the walls of their own grooves say that such ones are of the floors there."""
ZONES = 4
"""So many whole numbers that count up in even steps are zones of the sheet, at its border (ISO 5457, from memory)."""
WORD = re.compile(r"[^\W\d_]{3}")
"""How a word begins."""
PLACES = 6
"""Decimals that tell one place of a part from another."""


def unheard(sheet: Sheet, features: Features, noted: Set[Point | None]) -> Iterator[Finding]:
    """A caution for each bare size beside the part that no dimension has and that is no size of the part.

    `noted`: where texts stand of which something was said as of notes.
    """
    radii = radii_of(features)
    ranges = range_rows(sheet)
    fits = fit_rows(sheet)
    yield from _of_no_fit(fits, sheet, features)
    tabled = {t for fit in fits for t in fit.texts} | {t for row in ranges for t in row.texts}
    yield from _by_range(ranges)
    yield from _odd_deviations(sheet, features, tabled)
    yield from _of_other_floors(sheet, features, radii)
    heard = (d for d in sheet.dimensions if d.measured > 0 or parse(d.text).sign)
    carried = {words for d in heard for words in (d.text, *(d.text or "").split("^"))}
    loose = [t for t in sheet.texts if t.text not in carried and t.height > 0]
    yield from _exchanged([t for t in loose if BARE.fullmatch(_without_limits(t))], sheet, features)
    free = (t for t in loose if t.at not in noted and SIGNED.search(normalised(t.text)))
    limited = {t for t in free if BARE.fullmatch(_one_size(t))}
    loose = [t for t in loose if t in limited or BARE.fullmatch(normalised(t.text))]
    yield from _at_other_floors([t for t in loose if parse(t.text).sign], sheet, features)
    rows = {row.label for row in groove_table(sheet)[1]} if loose else set()
    zones = set(_zones(sheet.texts)) if loose else set()
    loose = [
        t
        for t in loose
        if t not in tabled
        and t.text.strip() not in rows
        and (t in limited or not is_note(TYPICAL.sub("", UNIT.sub("", t.text))))
        and t not in zones
    ]
    loose = [t for t in loose if features.beside(middle_of(t)) and not _labelled(t, sheet) and not _listed(t, sheet)]
    if features.part.units == "mm":
        loose = [t for t in loose if not STEEL_NUMBER.fullmatch(t.text.strip())]
    if not loose:
        return
    across, any_size = {2 * r for r in radii}, sizes_of(features)
    often = set(_often(features.part))
    least = LEAST * min(size for size in any_size if size > 0)
    for text in loose:
        printed = parse(text.text)
        finish = not printed.sign and printed.size in FINISH and not _on_a_line(text, sheet, features)
        drawn = across if printed.sign else any_size if printed.count == 1 else often
        if printed.value >= least and not finish and not features.fits(printed, *drawn):
            yield _asked(text)


def _of_no_fit(fits: Sequence[FitRow], sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each row of a table of fits whose size neither the part nor any other text has.

    That of a hole or a keyway is printed where it is drawn.
    """
    own = {2 * r for r in radii_of(features)} | {*_often(features.part), features.part.length} if fits else set[float]()
    others = [row.fit for row in fits if not row.called and not features.fits(row.fit, *own)]
    if not others:
        return
    free = without_rows(sheet.texts, fits)
    printed = {parse(words).size for words in (*(d.text for d in sheet.dimensions), *(t.text for t in free))}
    for row in fits:
        if row.fit in others and row.fit.size not in printed:
            name = f"{row.fit.value:g} {row.fit.tolerance_class}"
            yield _asked(replace(row.texts[0], text=name), "stands in a table and is no size of what is drawn")


def _of_other_floors(sheet: Sheet, features: Features, radii: set[float]) -> Iterator[Finding]:
    """A caution for each note that gives grooves a diameter which is none of the part's, wherever it stands."""
    for text in sheet.everywhere:
        found = OF_GROOVES.search(plain(normalised(text.text)))
        figure = Printed.of(found["across"]) if found else None
        if figure is None:
            continue
        which = int(found["which"] or 0) if found else 0
        for groove in features.part.grooves[which - 1 : which] if which else ():
            if not features.fits(figure, groove.floor_diameter, groove.mouth_diameter, *groove.beside):
                yield _asked(text, f"gives groove {which} a diameter that the one so counted from the front has not")
        if which or features.fits(figure, *(2 * r for r in radii)):
            continue
        if could_be(figure.value, *(g.floor_diameter for g in features.part.grooves), shares=ACROSS):
            yield _asked(text)


def _without_limits(text: Text) -> str:
    """A text without its tolerances."""
    return without_tolerances(normalised(text.text)).strip()


def _one_size(text: Text) -> str:
    """A text without its tolerances and its count."""
    return COUNT_BEHIND.sub("", COUNT.sub("", _without_limits(text))).strip()


def _often(part: Part) -> Iterator[float]:
    """The sizes that a part may have several times over: of its grooves, and from one to the next."""
    for groove in part.grooves:
        yield from _own(groove)
    for one, other in pairwise(sorted(part.grooves, key=lambda g: g.z_near)):
        yield from (abs(a - b) for a in (one.z_near, one.z_far) for b in (other.z_near, other.z_far))


AtGroove = tuple[Text, Printed, Groove]


def _at_grooves(texts: Sequence[Text], features: Features) -> list[AtGroove]:
    """The texts that stand within the walls of a groove along the axis, with what they print and that groove."""
    middles = [(text, features.frame.on_part(middle_of(text))[0]) for text in texts]
    grooves = [g for g in features.part.grooves if g.side.axial]
    return [(t, parse(t.text), g) for t, z in middles for g in grooves if g.z_far <= z <= g.z_near]


def _exchanged(texts: Sequence[Text], sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each size of no groove that it stands at, if it and another one are each that of the other's."""
    found = [one for one in _at_grooves(texts, features) if features.beside(middle_of(one[0]))]
    strange = [one for one in found if not features.fits(one[1], *_own(one[2]))]
    leaders = loose_leaders(sheet.segments, sheet.measuring) if strange else None
    crosswise = _crosswise(found if strange else (), features)
    for text, size, groove in strange:
        for k, field in sorted(crosswise(size, groove).items()):
            other, _, its = found[k]
            if leaders and not any(_led_off(*one, leaders, features) for one in ((text, groove), (other, its))):
                words = (
                    f'stands at groove {groove.id} and "{normalised(other.text)}" at groove {its.id}, and the drawing '
                    f"measures the {field.replace('_', ' ')} of each at the other"
                )
                yield _asked(text, words)


def _crosswise(found: Sequence[AtGroove], features: Features) -> Callable[[Printed, Groove], dict[int, str]]:
    """What gives, for a size at a groove, those of `found` of which each is that of the other's groove, not of its own.

    By their indices, with the field of the grooves that they are.
    """
    measured = {f: {float(getattr(g, f)) for *_, g in found} for fields in EXCHANGED.values() for f in fields}

    @cache
    def printing(field: str, size: float, own: float) -> list[int]:
        """Those that print a size and stand at a groove of another."""
        at = (k for k, (*_, g) in enumerate(found) if getattr(g, field) == own)
        return [k for k in at if features.fits(found[k][1], size) and not features.fits(found[k][1], own)]

    def crosswise(printed: Printed, groove: Groove) -> dict[int, str]:
        """Of each other one the first field."""
        pairs: dict[int, str] = {}
        for field in EXCHANGED.get(printed.sign, ()):
            own = float(getattr(groove, field))
            for its in measured[field] if not features.fits(printed, own) else ():
                if features.fits(printed, its):
                    pairs = dict.fromkeys(printing(field, own, its), field) | pairs
        return pairs

    return crosswise


def _led_off(text: Text, groove: Groove, leaders: LooseLeaders, features: Features) -> bool:
    """True for a text with a line that leads beyond the walls of the groove that it stands at."""
    tips = [features.frame.on_part(tip)[0] for tip in leaders.tips(text)]
    return any(not groove.z_far - features.snap <= z <= groove.z_near + features.snap for z in tips)


def _own(groove: Groove) -> tuple[float, ...]:
    """The sizes that a groove has of its own."""
    lands = groove.mouth_diameter, *groove.beside
    return groove.width, groove.depth, groove.corner_radius, groove.floor_diameter, *lands


def _at_other_floors(labels: list[Text], sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A stop for a diameter in a groove that is not its floor's, where others stand in their own grooves."""
    part, found = features.part, _at_grooves(labels, features)
    odd = [one for one in found if not features.fits(one[1], one[2].floor_diameter)]
    others = {2 * r for _, r in (*part.lands, *(part.bore or ()))}
    leaders = loose_leaders(sheet.segments, sheet.measuring)
    for text, figure, groove in odd if len(found) - len(odd) >= LABELS else ():
        if not features.fits(figure, *others) and not leaders.tips(text):
            words = (
                f'"{normalised(text.text)}" stands in groove {groove.id}, whose floor the drawing measures '
                f"{groove.floor_diameter:.6g}: ask which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at=text.at, groove=groove.id)


def _odd_deviations(sheet: Sheet, features: Features, tabled: Set[Text]) -> Iterator[Finding]:
    """A caution for each deviation that stands alone beside the part: nobody can tell the size that it is of.

    In a row of a table it stands beside its own. The only one of both signs on a sheet is asked about wherever it
    stands: it may be meant for all sizes.
    """
    both = sum("±" in normalised(text.text) for text in sheet.texts)
    for text, whole in zip(sheet.texts, wholes(sheet.texts), strict=True):
        line = normalised(text.text)
        alone = text.height > 0 and DEVIATION.fullmatch(line)
        here = features.beside(middle_of(text)) or (both == 1 and line.startswith("±"))
        if alone and here and not HEAD.search(whole) and text not in tabled:
            words = f'"{line}" looks like a tolerance and belongs to no size that was read: see which it is of.'
            yield Finding(Level.CAUTION, DrawingCode.TOLERANCE_UNREAD, words, at=text.at)


def _by_range(rows: Sequence[RangeRow]) -> Iterator[Finding]:
    """The one caution for a table of general tolerances: no class of a standard says what they are."""
    if rows:
        words = (
            f"A table gives tolerances by ranges of sizes, from {rows[0].low:g} to {rows[-1].high:g}, and none was "
            "applied: give the sizes without a tolerance theirs, or name the class by its standard."
        )
        yield Finding(Level.CAUTION, DrawingCode.GENERAL_TOLERANCES, words, at=rows[0].texts[0].at)


def _on_a_line(text: Text, sheet: Sheet, features: Features) -> bool:
    """True for a figure that stands over a line beyond the part about as long as it says, as a dimension's does.

    A roughness stands at its sign, or on a surface of the part.
    """
    ends, part = sheet.segments.ends[sheet.segments.bulge == 0], features.part
    turn = math.radians(text.angle)
    along, up = (
        ((ends[:, ::2] - text.at[0]) * a + (ends[:, 1::2] - text.at[1]) * b)
        for a, b in ((math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn)))
    )
    level = (np.abs(up[:, 0] - up[:, 1]) <= features.snap) & (up[:, 0] <= 0) & (up[:, 0] >= -STANDS * text.height)
    under = level & (along.min(axis=1) <= 0) & (along.max(axis=1) >= text.width / 2)
    lines = [[features.frame.on_part(p) for p in ((x1, y1), (x2, y2))] for x1, y1, x2, y2 in ends[under].tolist()]
    beyond = (
        math.dist(*line)
        for line in lines
        if all(abs(r) > part.outer_diameter / 2 + features.snap or not -part.length <= z <= 0 for z, r in line)
    )
    size = parse(text.text).value / part.unit
    return any(could_be(size, length) or could_be(size * part.unit, length) for length in beyond)


def _labelled(text: Text, sheet: Sheet) -> bool:
    """True for a number within a circle."""
    middle = box_of(text).centroid
    return any(
        c.radius <= ROUND * text.height and middle.distance(shapely.Point(c.centre)) <= c.radius for c in sheet.circles
    )


def _listed(text: Text, sheet: Sheet) -> bool:
    """True for a number in a list: a word begins its row, or stands in it, and another one stands in its column."""
    off = np.array([text.seen(t.at) for t in sheet.texts if WORD.match(t.text)]).reshape(-1, 2)
    along, up = (np.abs(off) <= ROW * text.height).T
    return bool(up.any() and (along & ~up).any())


def _zones(texts: Sequence[Text]) -> Iterator[Text]:
    """The whole numbers that count up in even steps along a level or an upright line, either way."""
    whole = [(np.array(middle_of(t)), t) for t in texts if t.text.strip().isdecimal()]
    for way in (0, 1):
        across, lines = -math.inf, list[list[tuple[Floats, Text]]]()
        for at, text in sorted(whole, key=lambda one: float(one[0][1 - way])):
            if at[1 - way] - across > ROW * text.height:
                lines.append([])
            across = at[1 - way]
            lines[-1].append((at, text))
        for line in lines:
            line.sort(key=lambda one: float(one[0][way]))
            yield from _counted(line)
            yield from _counted(line[::-1])


def _counted(line: Sequence[tuple[Floats, Text]]) -> Iterator[Text]:
    """The same along one line: what a number counts on from is the last one less by 1 that stands before it."""
    rows: dict[int, list[tuple[Floats, Text]]] = {}
    for at, text in line:
        value = int(text.text)
        row = rows.get(value - 1, [])
        if len(row) > 1 and math.dist(at, row[0][0] + len(row) * (row[1][0] - row[0][0])) > ROW * text.height:
            row = row[-1:]
        rows[value] = row = [*row, (at, text)]
        yield from (t for _, t in (row if len(row) == ZONES else row[-1:] if len(row) > ZONES else ()))


def sizes_of(features: Features) -> set[float]:
    """Every length and diameter that a part has somewhere."""
    return {2 * r for r in radii_of(features)} | _lengths(features)


def _lengths(features: Features) -> set[float]:
    """Every length between two places of a part, along its axis and along the radius, and the radii of its corners.

    A place is named, or a wall or a level ends there: between the points of a curve lie lengths of any size.
    """
    part = features.part
    ends = [[(round(z, PLACES), round(r, PLACES)) for z, r in edge] for edge in part.edges]
    corners = {end for a, b in ends if a[0] == b[0] or a[1] == b[1] for end in (a, b)}
    along = {round(mark.at, PLACES) for mark in features.along if mark.place or mark.floor} | {z for z, _ in corners}
    across = {0.0, part.outer_diameter / 2} | {r for _, r in corners} | _floors(part)
    return {abs(b - a) for row in (along, across) for a, b in combinations(row, 2)} | {
        g.corner_radius for g in part.grooves
    }


def radii_of(features: Features) -> set[float]:
    """Every radius of a part about its axis."""
    return _floors(features.part) | {round(mark.at, PLACES) for mark in features.across}


def _floors(part: Part) -> set[float]:
    """The radii of the floors and mouths of a part's grooves."""
    return {round(d / 2, PLACES) for g in part.grooves for d in (g.floor_diameter, g.mouth_diameter)}


def _asked(
    text: Text, why: str = "belongs to no dimension that was read and gives no size of what is drawn"
) -> Finding:
    words = f'"{normalised(text.text)}" {why}: see what it sizes.'
    return Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, at=text.at)
