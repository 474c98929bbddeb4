"""The deviations that one dimension gives to the size it measures.

Rules: deviations written in the text beat the dimension variables, and those beat a tolerance class. Sizes and
deviations are brought to the true units of the part here, also where a text is in the other unit. A class without a
seen table gives no deviations and a caution, never a guess.
"""

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Deviation, Units
from extractor.sheet import Dimension
from extractor.sizing.iso286 import deviations as class_deviations
from extractor.sizing.printed import Printed
from extractor.sizing.unit_evidence import INCH, is_ratio

COARSEST_ROUNDING = {"mm": 0.05, "in": 0.005}
"""A typed size may be rounded, but never by more than this."""
NOISE = 1e-6
"""Relative difference of equal sizes that went through a file."""
FILE_ROUNDING = 1e-4
"""Difference of equal sizes in a file that writes four decimals: each end is off by half of the last one."""


def unit_factor(printed: Printed, dimension: Dimension, true: float) -> float:
    """True units in one printed unit: 1, or 25.4 and its inverse where the text is in the other unit."""
    sizes = (true_print(dimension),) if printed.measured else printed.sizes
    for size in sizes:
        if size > 0 and is_ratio(true / size, INCH):
            return INCH
        if size > 0 and is_ratio(true / size, 1 / INCH):
            return 1 / INCH
    return 1.0


def true_print(dimension: Dimension) -> float:
    """The measured size as it is printed."""
    return dimension.measured * dimension.factor


def rounding(printed: Printed, factor: float, units: Units) -> float:
    """Half a unit of the last printed place, in true units, up to the coarsest that is still rounding."""
    return min(0.5 * 10.0**-printed.decimals * factor, COARSEST_ROUNDING[units])


def agrees(printed: Printed, true: float, factor: float, units: Units, scale: float = 1.0) -> bool:
    """True if any size that could be meant is the true one, rounded as printed; `scale`: drawn length of one unit."""
    slack = max(rounding(printed, factor, units), FILE_ROUNDING / scale) + NOISE * max(1.0, true)
    return any(abs(size - true) <= slack for size in printed.stretched(factor))


def deviations_of(
    printed: Printed, dimension: Dimension, true: float, units: Units, *, shaft: bool
) -> tuple[Deviation | None, Finding | None]:
    """Deviations from the true drawn size, in true units, and what there is to say.

    `shaft`: the size lies outside metal (a diameter), so that of a fit `H7/g6` the second class counts; else the first.
    A printed size that differs from the drawn one by rounding moves the deviations, so that the limits stay as printed.
    """
    factor = unit_factor(printed, dimension, true)
    nominal = true if printed.measured or printed.size is None else printed.size * factor
    given = printed.deviations or dimension.deviations
    finding = None
    if given is not None:
        given = given[0] * factor, given[1] * factor
    elif printed.tolerance_class is not None and not printed.reference:
        given = _of_class(printed.tolerance_class, nominal, units, shaft=shaft)
        if given is None:
            words = (
                f"The tolerance class {printed.tolerance_class} at {nominal:g} is in no table here: read it yourself."
            )
            finding = Finding(Level.CAUTION, DrawingCode.CLASS_UNKNOWN, words, at=dimension.points[0])
    if given is None:
        return None, finding
    shift = nominal - true
    return (round(given[0] + shift, 9) + 0.0, round(given[1] + shift, 9) + 0.0), finding


def _of_class(name: str, nominal: float, units: Units, *, shaft: bool) -> Deviation | None:
    """Deviations of a class, or of the one of a fit that belongs to the size; tables are in mm."""
    classes = name.split("/")
    own = next((c for c in classes if c[0].islower() == shaft), classes[0])
    unit = 1.0 if units == "mm" else INCH
    found = class_deviations(nominal * unit, own)
    return None if found is None else (found[0] / unit, found[1] / unit)
