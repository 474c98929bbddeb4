"""What the printed sizes say of a reading: how many agree with it, and how many are nowhere on it."""

from extractor.part import Part
from extractor.score import Merit
from extractor.sheet import DimensionKind, Sheet
from extractor.sizing.doubt import diameters_printed, drawn_diameters, is_one_of
from extractor.sizing.printed import parse
from extractor.sizing.ties import Features, tie_of


def borne_out(sheet: Sheet, part: Part) -> Merit:
    """Count of printed sizes that agree with the part, each once, less the printed diameters that it has nowhere.

    A length or a height agrees if it is measured between two places of the part. Any other may belong to another view
    and says nothing; a contradiction is reported as a stop.
    """
    if part.frame is None:
        return Merit(0.0, "no place on the sheet")
    printed, drawn = set(diameters_printed(sheet, part.frame.scale)), list(drawn_diameters(part))
    there = {size for size in printed if is_one_of(size, drawn)}
    agree, odd = len(there) + len(_measured(sheet, part)), len(printed - there)
    return Merit(float(agree - odd), f"{agree} printed sizes agree, {odd} diameters are nowhere on it")


def _measured(sheet: Sheet, part: Part) -> set[tuple[str, tuple[int, ...], float]]:
    """What dimensions without a diameter sign measure on the part."""
    assert part.frame is not None
    features = Features.of(part, part.frame)
    plain = (d for d in sheet.dimensions if d.kind is not DimensionKind.LEADER and parse(d.text).sign != "diameter")
    ties = (tie_of(d, features) for d in plain)
    return {(t.field, t.grooves, round(t.true / features.snap)) for t in ties if t is not None and not t.loose}
