"""The deviations that one dimension gives to the size it measures.

Rules: deviations written in the text beat the dimension variables, and those beat a tolerance class. Sizes and
deviations are brought to the true units of the part here, also where a text is in the other unit. A class without a
known table gives no deviations and a stop, never a guess; deviations beside another size in the text give a caution.
"""

import math
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level
from extractor.late import late
from extractor.part import INCH, Deviation, Groove, Units
from extractor.sheet import Dimension
from extractor.side import OUTSIDE
from extractor.sizing.lettering.printed import DUST, Printed, parse
from extractor.sizing.scale.unit_evidence import LIBRARY_FACTORS, is_ratio
from extractor.sizing.tolerances.iso286 import STEPS, tolerance_grade
from extractor.sizing.tolerances.iso286 import deviations as class_deviations
from extractor.values import dataclass

COARSEST_ROUNDING = {"mm": 0.05, "in": 0.005}
"""A typed size may be rounded, but never by more than this."""
OF_A_FIT = 1.6
"""Times their span by which two limits may lie off the nominal that is drawn: f6 of 30 to 50 lies 1.56 off."""
OF_CLASS = {"mm": 0.005, "in": 0.0005}
"""By how much figures beside a class may differ from its own at most, in the unit printed: they are rounded."""
WIDEST_GRADE = 14
"""Limits that reach farther to one side than the tolerance of this grade (ISO 286-1) are no fit's."""
WIDEST_FIT = "c11"
"""The class of usual fits whose limits lie farthest off their nominal; wider ones, a and b, are printed by it."""
LOPSIDED = 4.0
"""Such limits lie at least so many times as far to one side of the size that is drawn as to the other: one is wrong."""
COARSEST = 10.0
"""Times the tolerance of grade 13 that no deviation reaches beyond: grade 18, the coarsest of ISO 286-1, is so wide."""
SHOWN_PLACES = 4
"""Decimals to which a size shown by a factor is the one meant."""
FILE_ROUNDING = 1e-4
"""Difference of equal sizes in a file that writes four decimals: each end is off by half of the last one."""


@dataclass(frozen=True, kw_only=True)
class Size:
    """What a dimension measures, in true units.

    `true`: as measured between its ends. `feature`: the same as read from the outline, which deviations are counted
    from. `shaft`: metal lies within it (an outside diameter), so that of a fit `H7/g6` the second class counts.
    `half`: the ends span half of it. `scale`: drawn length of one true unit.
    """

    true: float
    feature: float
    units: Units
    shaft: bool = False
    half: bool = False
    scale: float = 1.0

    @property
    def file_rounding(self) -> float:
        """How far equal sizes may lie apart in a file that writes four decimals, in true units."""
        return FILE_ROUNDING / self.scale


def is_shaft(groove: Groove, field: str) -> bool:
    """True if metal lies within a size, so that of a fit the shaft's class counts.

    A face groove's outer wall is a hole's, its inner wall a shaft's; a floor in a bore is a hole's.
    """
    if not groove.side.axial:
        return field == "floor_diameter"
    return groove.side == OUTSIDE and field in ("floor_diameter", "mouth_diameter")


def unit_factor(printed: Printed, dimension: Dimension, true: float) -> float:
    """True units in one printed unit: 1, or 25.4 and its inverse where the text is in the other unit."""
    if printed.limits:
        spans = {unit: [size * unit for size in printed.sizes] for unit in (INCH, 1 / INCH)}
        return next((unit for unit, span in spans.items() if min(span) <= true <= max(span)), 1.0)
    sizes = (true_print(dimension),) if printed.measured else printed.sizes
    tried = ((unit, size) for unit in (1.0, INCH, 1 / INCH) for size in sizes if size > 0)
    return next((unit for unit, size in tried if is_ratio(true / size, unit, printed.rounded(size))), 1.0)


def true_print(dimension: Dimension) -> float:
    """The measured size as the dimension prints it."""
    return dimension.measured * dimension.factor


def as_printed(dimension: Dimension) -> str:
    """The text of a dimension as a person sees it, the measured size in it."""
    places = SHOWN_PLACES - 1 if dimension.decimals < 0 else dimension.decimals
    return (dimension.text or "<>").replace("<>", f"{round(true_print(dimension), places):.6g}")


def as_shown(printed: Printed, dimension: Dimension) -> Printed:
    """What is printed, a size that a display factor makes as if it were typed; a library's default is passed over."""
    if not printed.measured or dimension.factor in (1.0, *LIBRARY_FACTORS):
        return printed
    shown = true_print(dimension)
    return replace(printed, measured=False, size=shown, sizes=(shown,), decimals=SHOWN_PLACES)


def agrees(printed: Printed, true: float, factor: float, units: Units, scale: float = 1.0) -> bool:
    """True if any size that could be meant is the true one, rounded as printed, or it lies between printed limits.

    Limits of a fit may both lie to one side of the nominal, which is then a rounder number than they are.
    `scale`: drawn length of one unit.
    """
    if printed.limits:
        low, high = min(printed.sizes) * factor, max(printed.sizes) * factor
        rounder = abs(round(true / factor, printed.decimals - 1) * factor - true) <= DUST * max(1.0, true)
        off = OF_A_FIT * (high - low) if rounder else 0.0
        if low - off <= true <= high + off:
            return True
    return any(is_print(size, printed.decimals, true, factor, units, scale) for size in printed.sizes)


def is_print(size: float, places: int, true: float, factor: float, units: Units, scale: float) -> bool:
    """True if a size printed to so many places is the true one, within half of the last place."""
    rounding = min(half_place(places) * factor, COARSEST_ROUNDING[units])
    return abs(size * factor - true) <= max(rounding, FILE_ROUNDING / scale) + DUST * max(1.0, true)


BRACKETED = late(r"[^\[\]]+\[[^\[\]]*\]")
"""A size with another in square brackets behind it."""


def odd_in_brackets(text: str | None, printed: Printed, true: float) -> bool:
    """True if the size in brackets behind one is neither that size nor the same in the other unit.

    Of several in one text each is held against the size that it stands behind.

    >>> odd_in_brackets("0.1875 [4.76] x Ø1.82 [46.23]", parse("Ø1.82"), 1.82)
    False
    >>> odd_in_brackets("3 [.118] +0.1 [.004]", parse("3 [.118] +0.1 [.004]"), 3.0)
    False
    >>> odd_in_brackets("0.1875 [4.86] x Ø1.82 [46.23]", parse("Ø1.82"), 1.82)
    True
    """
    found = [parse(one) for one in BRACKETED.findall(text or "")]
    return any(_odd(one, one.value) for one in found if one.size is not None) if len(found) > 1 else _odd(printed, true)


def _odd(printed: Printed, true: float) -> bool:
    """True if the size in brackets behind one is neither that size nor the same in the other unit.

    Where the drawing has the size that is printed, the one in brackets is held against the drawing.
    """
    if printed.bracketed is None:
        return False
    second, places = printed.bracketed
    rough = min(half_place(printed.decimals), COARSEST_ROUNDING["mm"])
    size, rounding = (true, FILE_ROUNDING) if printed.size is None else (printed.size, rough)
    base, off = (true, FILE_ROUNDING) if abs(size - true) <= rounding + DUST * true else (size, rounding)
    slack = half_place(places) + DUST * second
    return abs(base - second) > slack + off and all(
        abs(size * unit - second) > slack + rounding * unit for unit in (INCH, 1 / INCH)
    )


def _own(printed: Printed, true: float, factor: float, size: Size) -> bool:
    """True if the size that deviations stand by in a text is the true one, not another of several."""
    if printed.limits:
        return agrees(printed, true, factor, size.units, size.scale)
    return printed.size is not None and is_print(printed.size, printed.decimals, true, factor, size.units, size.scale)


def halved(printed: Printed, dimension: Dimension, size: Size) -> bool:
    """True if a dimension over half a diameter prints the radius: it has no diameter sign and not the whole size."""
    if not size.half or printed.sign == "diameter":
        return False
    if printed.size is None:
        shown = true_print(dimension)
        return abs(shown - size.true / 2) < abs(shown - size.true)
    factor = unit_factor(printed, dimension, size.true)
    return not _own(printed, size.true, factor, size)


def deviations_of(printed: Printed, dimension: Dimension, size: Size) -> tuple[Deviation | None, Finding | None]:
    """Deviations from the size as read, in true units, and what there is to say.

    A printed size that differs from it by rounding moves the deviations, so that the limits stay as printed. Of a
    radius printed on half a diameter they count twice.
    """
    times = 2.0 if halved(printed, dimension, size) else 1.0
    true = size.true / times
    factor = unit_factor(printed, dimension, true)
    given = printed.deviations or dimension.deviations
    if given is not None and given[0] > given[1]:
        return None, _turned_round(given, dimension)
    if printed.size is not None and not _own(printed, true, factor, size):
        return None, unread(dimension) if given is not None else None
    if printed.tolerance_class is not None and _are_two(printed.tolerance_class):
        words = f'"{as_printed(dimension)}" prints two tolerances of one size: ask which is meant; neither is kept.'
        return None, _stop(DrawingCode.DIMENSION_CONTRADICTS, words, dimension)
    nominal = true if printed.size is None else printed.size * factor
    classed = None if printed.tolerance_class is None else _of_class(printed.tolerance_class, nominal, size)
    told = None if printed.tolerance_class is None or classed is not None else _unchecked(printed, dimension)
    if given is not None:
        slack = _rounded(printed, given, factor, size)
        given = given[0] * factor, given[1] * factor
        if classed is not None and any(abs(a - b) > slack for a, b in zip(given, classed, strict=True)):
            words = (
                f'"{as_printed(dimension)}" prints {given[0]:+.6g} to {given[1]:+.6g}, and its class '
                f"{printed.tolerance_class} is {classed[0]:+.6g} to {classed[1]:+.6g}: ask which is meant; neither is "
                "kept."
            )
            return None, _stop(DrawingCode.DIMENSION_CONTRADICTS, words, dimension)
    elif printed.tolerance_class is not None:
        given = classed
        if given is None:
            # It may lie wholly off the size that is drawn.
            words = f"The tolerance class {printed.tolerance_class} at {nominal:g} is in no table here"
            return None, _stop(DrawingCode.CLASS_UNKNOWN, f"{words}: print its deviations beside it.", dimension)
    if given is None:
        return None, None
    shift = nominal * times - size.feature
    shift = 0.0 if printed.size is None and abs(shift) <= size.file_rounding else shift
    low, high = (round(times * one + shift, 9) + 0.0 for one in given)
    lopsided = printed.limits and _lopsided(low, high, half_place(printed.decimals) * factor, size)
    if lopsided or max(-low, high) * unit_of(size) > _farthest(size):
        words = (
            f'The limits of "{as_printed(dimension)}" lie {low:+.6g} to {high:+.6g} about the size that is drawn, '
            f"{size.feature:.6g}, as those of no {'fit' if lopsided else 'tolerance'} do: ask which are meant; they "
            "are not kept."
        )
        return None, _stop(DrawingCode.DIMENSION_CONTRADICTS, words, dimension)
    return (low, high), told or (_excluded(low, high, dimension, size) if printed.limits else None)


def _excluded(low: float, high: float, dimension: Dimension, size: Size) -> Finding | None:
    """The caution for limits that leave out the size that is drawn by more than those of any fit do."""
    off, widest = max(low, -high), class_deviations(size.feature * unit_of(size), WIDEST_FIT)
    if widest is None or off * unit_of(size) <= -widest[1]:
        return None
    words = (
        f'The limits of "{as_printed(dimension)}" leave out the size that is drawn, {size.feature:.6g}, by {off:.4g}; '
        "they are kept: see which is right."
    )
    return Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, " ".join(words.split()), at=dimension.points[0])


def _turned_round(given: Deviation, dimension: Dimension) -> Finding:
    """The stop for two deviations of which the upper one is the lower."""
    words = (
        f'"{as_printed(dimension)}" has the upper deviation {given[1]:+.6g} below the lower, {given[0]:+.6g}: ask '
        "which sign is meant; neither is kept."
    )
    return _stop(DrawingCode.DIMENSION_CONTRADICTS, words, dimension)


def _rounded(printed: Printed, given: Deviation, factor: float, size: Size) -> float:
    """By how much deviations as printed may be off those of the class beside them, in true units."""
    places = printed.behind if printed.deviations else max(places_of(f"{one:.6g}") for one in given)
    most = OF_CLASS["mm" if math.isclose(factor * unit_of(size), 1.0) else "in"]
    return min(half_place(places), most) * factor + DUST


def _unchecked(printed: Printed, dimension: Dimension) -> Finding:
    """The caution for deviations that were taken though a class beside them is not known."""
    words = (
        f'The tolerance class {printed.tolerance_class} of "{as_printed(dimension)}" is in no table here: the '
        "deviations beside it were taken; check them against its standard."
    )
    return Finding(Level.CAUTION, DrawingCode.TOLERANCE_UNREAD, " ".join(words.split()), at=dimension.points[0])


def _stop(code: DrawingCode, words: str, dimension: Dimension) -> Finding:
    """A stop at a dimension."""
    return Finding(Level.STOP, code, " ".join(words.split()), at=dimension.points[0])


def _lopsided(low: float, high: float, rounding: float, size: Size) -> bool:
    """True for limits that reach far to one side of the drawn size, which is not one of them: no fit's do."""
    near, far = sorted((abs(low), abs(high)))
    widest = tolerance_grade(size.feature * unit_of(size), WIDEST_GRADE)
    return widest is not None and far * unit_of(size) > widest and rounding < near < far / LOPSIDED


def _farthest(size: Size) -> float:
    """How far a deviation may lie from a size, in mm; beyond the table as from its last size."""
    grade = tolerance_grade(min(size.feature * unit_of(size), STEPS[-1]), 13)
    return math.inf if grade is None else COARSEST * grade


def unread(dimension: Dimension) -> Finding:
    """The caution for something that looks like a tolerance and was applied to nothing."""
    words = f'"{as_printed(dimension)}" looks like a size with a tolerance that is not read here: read it yourself.'
    return Finding(Level.CAUTION, DrawingCode.TOLERANCE_UNREAD, " ".join(words.split()), at=dimension.points[0])


def unit_of(size: Size) -> float:
    """Millimetres in the unit of a size."""
    return 1.0 if size.units == "mm" else INCH


def _are_two(name: str) -> bool:
    """True for two classes that are no fit: one behind the other, or two of shafts or of holes before a stroke."""
    first, _, second = name.partition("/")
    return " " in name or (bool(second) and first[0].islower() == second[0].islower() and first != second)


def _of_class(name: str, nominal: float, size: Size) -> Deviation | None:
    """Deviations of a class, or of the one of a fit that belongs to the size; tables are in mm."""
    classes = name.split("/")
    own = next((c for c in classes if c[0].islower() == size.shaft), classes[0])
    unit = unit_of(size)
    found = class_deviations(nominal * unit, own)
    return None if found is None else (found[0] / unit, found[1] / unit)
