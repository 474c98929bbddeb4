"""Lengths printed one behind another, held against one that is printed across them.

Rules: each may have been rounded to the places that it is printed with, or that the finest has, where it has fewer than
two: noughts at an end are left out (`10` beside `52.05` is 10.00). What the sum is off by beyond that is a figure that
is false. Each fits what is drawn, or else it is told by itself; tolerances are no matter here.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.decimals import half_place
from extractor.finding import Finding, Level, Point
from extractor.rounding import ROUNDING
from extractor.sheet import Sheet
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import listed
from extractor.sizing.measured.ties import along
from extractor.sizing.sizes.chains import ROUNDED_FROM
from extractor.sizing.tolerances.tolerance import as_printed


class _Length(NamedTuple):
    """A printed length between two places along the axis, which are numbered from the back."""

    back: int
    front: int
    size: float
    places: int
    at: Point


def sum_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A stop for each length that others, printed one behind another from end to end of it, do not add up to."""
    lengths, starting = _lengths(sheet, features), dict[int, list[_Length]]()
    for one in lengths:
        starting.setdefault(one.back, []).append(one)
    for whole in lengths:
        row = _row(whole, starting)
        total = sum(one.size for one in row)
        most = max(one.places for one in (whole, *row))
        places = [one.places if one.places >= ROUNDED_FROM else most for one in (whole, *row)]
        if row and abs(total - whole.size) > sum(map(half_place, places)) + ROUNDING:
            parts = listed([f"{one.size:g}" for one in row])
            words = (
                f"The lengths {parts}, printed one behind another, make {total:.6g} where {whole.size:g} is printed "
                "from end to end of them: ask which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.CHAIN_DIFFERS, words, whole.at)


def _lengths(sheet: Sheet, features: Features) -> list[_Length]:
    """The plain lengths of a sheet that fit what is drawn, each place of the part as one however exactly it is met."""
    found: list[tuple[float, float, Printed, Point]] = []
    for dimension in (d for d in sheet.dimensions if d.text and along(d, features.frame)):
        printed = parse(as_printed(dimension))
        back, front = sorted(features.frame.on_part(p)[0] for p in dimension.points[:2])
        plain = len(printed.sizes) == 1 and printed.count == 1 and not printed.sign
        if plain and features.agrees(printed, front - back):
            found.append((back, front, printed, dimension.points[0]))
    ends = sorted({z for back, front, *_ in found for z in (back, front)})
    steps = accumulate((b - a > features.snap for a, b in pairwise(ends)), initial=0)
    number = dict(zip(ends, steps, strict=False))
    return [_Length(number[b], number[f], one.value, one.decimals, at) for b, f, one, at in found]


def _row(whole: _Length, starting: Mapping[int, Sequence[_Length]]) -> list[_Length]:
    """Shorter lengths one behind another from one end of a length to its other; none where some are missing."""
    last: dict[int, _Length] = {}
    for place in range(whole.back, whole.front):
        for one in starting.get(place, ()) if place in last or place == whole.back else ():
            if one.front <= whole.front and (one.back, one.front) != (whole.back, whole.front):
                last.setdefault(one.front, one)
    row, end = list[_Length](), whole.front
    while end in last:
        row.append(last[end])
        end = last[end].back
    return row[::-1]
