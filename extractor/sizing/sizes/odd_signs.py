"""Signs of dimensions that say another thing than is measured: a radius along a width, inches on a sheet in mm."""

from collections.abc import Iterable, Iterator

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import INCH, Part
from extractor.sheet import Dimension
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import LENGTHS, Tie, middle, tie_of
from extractor.sizing.tolerances.tolerance import as_printed, true_print


def odd_signs(dimensions: Iterable[Dimension], features: Features) -> Iterator[Finding]:
    """The caution for each length of the file whose text has such a sign."""
    for dimension in dimensions:
        if dimension.kind not in LENGTHS or dimension.drawn or not dimension.text:
            continue
        printed, tie = parse(dimension.text), tie_of(dimension, features)
        if tie is not None and (why := _why(dimension, printed, tie, features)):
            words = (
                f'The dimension that measures {tie.true:.5g} prints "{as_printed(dimension)}", {why}; it was taken as '
                "drawn: ask which is meant."
            )
            yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, middle(dimension))


def _why(dimension: Dimension, printed: Printed, tie: Tie, features: Features) -> str:
    """What is odd in a text, "" for nothing."""
    part, size = features.part, _size(dimension, printed)
    if printed.unit is not None and printed.unit != part.units:
        shown = size * (INCH if printed.unit == "in" else 1 / INCH)
        fits = any(features.near(shown, own) or _rounds(printed, shown, own) for own in tie.printable(printed.sign))
        return "" if fits else f"and the part is read in {'mm' if printed.unit == 'in' else 'inches'}"
    if printed.sign == "radius" and _is_length(tie) and not any(features.near(size, r) for r in _radii(tie, part)):
        return "a radius, and it is none"
    return ""


def _size(dimension: Dimension, printed: Printed) -> float:
    return true_print(dimension) if printed.measured else printed.size or 0.0


def _rounds(printed: Printed, shown: float, own: float) -> bool:
    """True for a size rounded as printed."""
    return abs(shown - own) <= printed.rounded(shown) * shown


def _is_length(tie: Tie) -> bool:
    """True for what is measured of a groove that is no diameter and no corner."""
    return bool(tie.grooves) and tie.field in ("width", "depth")


def _radii(tie: Tie, part: Part) -> list[float]:
    """The radii that a length of grooves may stand for: those of their corners, and of a round floor."""
    own = [part.grooves[number - 1] for number in tie.grooves]
    return [r for g in own for r in (g.corner_radius, *((g.width / 2, g.depth) if g.shape == "round" else ()))]
