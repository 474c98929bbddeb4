"""Even spacing printed as `n x p (= n*p)`: n gaps, so n + 1 grooves, held against sum, drawn distance and grooves.

Source: ISO 129-1 as course pages quote it: first to last reads n x p (= n*p), the sum in brackets is auxiliary. A sum
that is not n times p, a distance that is not the sum, or another number of grooves is a stop.
"""

import re
from collections.abc import Iterator

from extractor.codes import DrawingCode
from extractor.decimals import half_place
from extractor.finding import Finding, Level, Point
from extractor.part import Groove, Part
from extractor.rounding import ROUNDING
from extractor.sheet import Dimension, Sheet
from extractor.sizing.groove_notes import PrintedFigure
from extractor.sizing.like import same
from extractor.sizing.note_checks import agrees_with
from extractor.sizing.printed import NUMBER, normalised
from extractor.sizing.ties import Features, along
from extractor.values import dataclass

CHAIN = re.compile(rf"^\(?\s*(\d+)\s*[xX×*]\s*({NUMBER})\s*(?:\(\s*=?|=)\s*({NUMBER})\s*\)*\s*$")
SUM_FIRST = re.compile(rf"^({NUMBER})\s*\(?\s*=\s*(\d+)\s*[xX×*]\s*({NUMBER})\s*\)?\s*$")
ROUNDED_FROM = 2
"""Places from which a printed pitch may be a rounded one: thirds and sevenths are printed to hundredths at least."""


@dataclass(frozen=True, kw_only=True)
class PitchChain:
    """`count` gaps of `pitch` that make `total`, as printed."""

    words: str
    count: int
    pitch: PrintedFigure
    total: PrintedFigure

    @property
    def product(self) -> float:
        """What count times pitch is."""
        return self.count * self.pitch.value


def chain_of(text: str | None) -> PitchChain | None:
    """The spacing that a text prints.

    >>> chain_of("5x 8 (=40)").product, chain_of("5 x 8")
    (40.0, None)
    """
    line = normalised(text or "")
    found, first = CHAIN.match(line), SUM_FIRST.match(line)
    if found is not None:
        count, pitch, total = found.groups()
    elif first is not None:
        total, count, pitch = first.groups()
    else:
        return None
    return PitchChain(words=line, count=int(count), pitch=PrintedFigure.of(pitch), total=PrintedFigure.of(total))


def chain_findings(sheet: Sheet, part: Part) -> Iterator[Finding]:
    """What the spacings of a sheet contradict on a part, each text once."""
    if part.frame is None:
        return
    features = Features.of(part, part.frame)
    held: set[str] = set()
    for dimension in sheet.dimensions:
        chain = chain_of(dimension.text)
        if chain is not None and chain.words not in held and along(dimension, part):
            held.add(chain.words)
            wrong = sum_wrong(chain) or _span_wrong(chain, dimension, part, features)
            yield from _told(chain, wrong, dimension.points[0])
    for text in sheet.texts:
        chain = chain_of(text.text)
        if chain is not None and chain.words not in held:
            held.add(chain.words)
            yield from _told(chain, sum_wrong(chain) or _rows_wrong(chain, part), text.at)


def _told(chain: PitchChain, wrong: str, at: Point) -> Iterator[Finding]:
    """The stop for a spacing that something is wrong about."""
    if wrong:
        yield Finding(Level.STOP, DrawingCode.CHAIN_DIFFERS, f'"{chain.words}": {wrong}; ask which is meant.', at)


def sum_wrong(chain: PitchChain) -> str:
    """A sentence fragment saying that the sum is wrong, "" if it is right."""
    n, p = chain.count, chain.pitch.value
    if abs(chain.product - chain.total.value) > half_place(chain.total.places) + n * _rounding(chain.pitch) + ROUNDING:
        return f"{n} times {p:g} is {chain.product:g}, not {chain.total.value:g}"
    return ""


def _rows_wrong(chain: PitchChain, part: Part) -> str:
    """In words that no row of like grooves at this pitch has one groove more than there are gaps, "" if one has."""
    rows = []
    for first in part.grooves:
        row, after = 1, first
        while (found := _next(after, chain.pitch, part)) is not None:
            row, after = row + 1, found
        rows.append(row)
    longest = max(rows, default=1)
    if longest == 1 or chain.count + 1 in rows:
        return ""
    return _count_words(chain, longest)


def _next(after: Groove, pitch: PrintedFigure, part: Part) -> Groove | None:
    """The like groove one pitch behind another."""
    beside = (g for g in part.grooves if g.id > after.id and _like(g, after))
    return next((g for g in beside if agrees_with(pitch, after.z_near - g.z_near, part)), None)


def _count_words(chain: PitchChain, read: int) -> str:
    """That another number of grooves was read."""
    return f"{chain.count} spaces of {chain.pitch.value:g} make {chain.count + 1} grooves, but {read} were read"


def _span_wrong(chain: PitchChain, dimension: Dimension, part: Part, features: Features) -> str:
    """What is wrong about the distance and the grooves that a spacing spans in words, "" if nothing."""
    drawn = dimension.measured / features.frame.scale
    if not agrees_with(chain.total, drawn, part):
        return f"the drawing measures {drawn:.6g} there, not {chain.total.value:g}"
    row = row_of(chain, dimension, part, features)
    if row is None:
        return ""
    between, fit = row
    if len(between) != chain.count + 1:
        return _count_words(chain, len(between))
    return "" if fit == len(between) else f"{len(between) - fit} of the {len(between)} grooves there are out of step"


def _rounding(pitch: PrintedFigure) -> float:
    """By how much a printed pitch may be rounded: one of few places isn't."""
    return half_place(pitch.places) if pitch.places >= ROUNDED_FROM else 0.0


def row_of(chain: PitchChain, dimension: Dimension, part: Part, features: Features) -> tuple[list[Groove], int] | None:
    """The like grooves that a spacing spans, and how many lie at its places; None if it spans something else."""
    start, end = (features.frame.on_part(p)[0] for p in dimension.points[:2])
    for spot in ("z_near", "z_far", "middle"):
        ends = [[g for g in part.grooves if features.near(z, _at(g, spot))] for z in (start, end)]
        pairs = [(a, b) for a in ends[0] for b in ends[1] if a is not b and _like(a, b)]
        if pairs:
            first = pairs[0][0]
            step = (end - start) / chain.count
            wanted = [start + k * step for k in range(chain.count + 1)]
            low, high = sorted((start, end))
            between = [
                g
                for g in part.grooves
                if _like(g, first) and low - features.snap <= _at(g, spot) <= high + features.snap
            ]
            fit = [g for g in between if any(features.near(z, _at(g, spot)) for z in wanted)]
            return between, len(fit)
    return None


def _at(groove: Groove, spot: str) -> float:
    """The z of a wall or of the middle of a groove."""
    return (groove.z_near + groove.z_far) / 2 if spot == "middle" else float(getattr(groove, spot))


def _like(one: Groove, two: Groove) -> bool:
    """True for two grooves of one side, width and floor."""
    return one.where == two.where and same(one.width, two.width) and same(one.floor_diameter, two.floor_diameter)
