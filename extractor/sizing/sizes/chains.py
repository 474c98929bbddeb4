"""Lengths that must add up: even spacing printed as `n x p (= n*p)`, and lengths printed one behind another.

Of n gaps, so n + 1 grooves, a sum that is not n times p, a distance that is not the sum, or another number of grooves
is a stop. Often only the first and the last groove are drawn: those between are added, each with a caution, only if
nothing speaks against them: sum and drawn distance agree, both are alike, plain and on one land, and nothing else is
drawn between them. Source: ISO 129-1 as course pages quote it: first to last reads n x p (= n*p), the sum in brackets
is auxiliary.

Of a row held against one length across it each may have been rounded to the places that it is printed with, or that the
finest has, where it has fewer than two: noughts at an end are left out (`10` beside `52.05` is 10.00). What the sum is
off by beyond that is a figure that is false. Each fits what is drawn, or else it is told by itself; tolerances are no
matter here.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.decimals import half_place
from extractor.finding import Finding, Level, Point
from extractor.grammar import BY, NUMBER, UNIT, normalised
from extractor.part import Groove, Part, ProfilePoints
from extractor.rounding import ROUNDING
from extractor.sheet import Dimension, Sheet
from extractor.side import OUTSIDE
from extractor.sizing.lettering.note_figures import without_tolerances
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import alike, listed, same
from extractor.sizing.measured.ties import along
from extractor.sizing.tolerances.tolerance import as_printed
from extractor.values import dataclass

GAPS = rf"(?:{BY}|(?:eq\w*\.?\s*)?(?:sp(?:ac(?:e|ing)s?)?\b\.?|p(?:itch(?:es)?)?\b|teilungen)\s*(?:of|at|@|zu|je)?)"
"""What stands between how many gaps there are and how long each is: the sign, or a word (common practice)."""
CHAIN = re.compile(rf"^\(?\s*([1-9]\d*)\s*{GAPS}\s*({NUMBER})\s*(?:\(\s*=?|=\s*\(?)\s*({NUMBER})\s*\)*\s*$", re.I)
SUM_FIRST = re.compile(rf"^({NUMBER})\s*(?:\(\s*=?|=)\s*([1-9]\d*)\s*{GAPS}\s*({NUMBER})\s*\)?\s*$", re.I)
IN_SPACES = re.compile(
    rf"^({NUMBER})\s*(?:mm\b\s*)?(?:in(?:to)?|=)\s*([1-9]\d*)\s*(?:(?:eq\w*\.?|equally|gleichen?|gleiche)\s*)?(?:sp(?:ac(?:e|ing)s?)?\b\.?|p(?:itch(?:es)?)?\b|teilungen|teilen|abst(?:ä|a)nden)\s*$",
    re.I,
)
"""A length in so many equal spaces."""
ROUNDED_FROM = 2
"""Places from which a printed length may be a rounded one: thirds and sevenths are printed to hundredths at least."""
PLAIN = ("rectangular", "vee", "round", "tapered")
"""Shapes that are the same wherever on a land they stand."""


@dataclass(frozen=True, kw_only=True)
class PitchChain:
    """`count` gaps of `pitch` that make `total`, as printed; `parted` where that is printed and the pitch is not."""

    words: str
    count: int
    pitch: Printed
    total: Printed
    parted: bool = False

    @property
    def product(self) -> float:
        """What count times pitch is."""
        return self.count * self.pitch.value


def chain_of(text: str | None) -> PitchChain | None:
    """The spacing that a text prints, whatever tolerances stand in it.

    >>> chain_of("5x 8 (=40)").product, chain_of("40 IN 5 EQUAL SPACES").pitch.size, chain_of("5 x 8")
    (40.0, 8.0, None)
    """
    words = normalised(text or "")
    line = without_tolerances(UNIT.sub("", words))
    found, first = CHAIN.match(line), SUM_FIRST.match(line)
    if found is not None:
        count, pitch, total = found.groups()
    elif first is not None:
        total, count, pitch = first.groups()
    elif (parted := IN_SPACES.match(without_tolerances(words))) is not None:
        whole, count = Printed.of(parted[1]), int(parted[2])
        each = whole.value / count
        pitch = replace(whole, size=each, sizes=(each,))
        return PitchChain(words=words, count=count, pitch=pitch, total=whole, parted=True)
    else:
        return None
    return PitchChain(words=words, count=int(count), pitch=Printed.of(pitch), total=Printed.of(total))


def chain_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What the spacings of a sheet contradict on a part, each text once."""
    measured = [(as_printed(d), d.points[0], d) for d in sheet.dimensions if along(d, features.frame)]
    held: set[str] = set()
    for text, at, dimension in (*measured, *((t.text, t.at, None) for t in sheet.texts)):
        chain = chain_of(text)
        if chain is None or chain.words in held:
            continue
        held.add(chain.words)
        wrong = sum_wrong(chain) or (
            _rows_wrong(chain, features) if dimension is None else _span_wrong(chain, dimension, features)
        )
        if wrong:
            words = f'"{chain.words}": {wrong}; ask which is meant.'
            yield Finding(Level.STOP, DrawingCode.CHAIN_DIFFERS, words, at)


def sum_wrong(chain: PitchChain) -> str:
    """A sentence fragment saying that the sum is wrong, "" if it is right."""
    n, p = chain.count, chain.pitch
    # A pitch of few places isn't rounded.
    rounding = half_place(p.decimals) if p.decimals >= ROUNDED_FROM else 0.0
    if abs(chain.product - chain.total.value) > half_place(chain.total.decimals) + n * rounding + ROUNDING:
        return f"{n} times {p.value:g} is {chain.product:g}, not {chain.total.value:g}"
    return ""


def _rows_wrong(chain: PitchChain, features: Features) -> str:
    """In words that no row of like grooves at this pitch has one groove more than there are gaps, "" if one has."""
    rows: dict[int, int] = {}
    for groove in reversed(features.part.grooves):
        after = (g for g in features.part.grooves[groove.id :] if _like(g, groove))
        onward = next((g for g in after if features.fits(chain.pitch, groove.z_near - g.z_near)), None)
        rows[groove.id] = 1 + (rows[onward.id] if onward is not None else 0)
    longest = max(rows.values(), default=1)
    return "" if longest == 1 or chain.count + 1 in rows.values() else _count_words(chain, longest)


def _count_words(chain: PitchChain, read: int) -> str:
    """That another number of grooves was read."""
    return f"{chain.count} spaces of {chain.pitch.value:.6g} make {chain.count + 1} grooves, but {read} were read"


def _span_wrong(chain: PitchChain, dimension: Dimension, features: Features) -> str:
    """What is wrong about the distance and the grooves that a spacing spans in words, "" if nothing."""
    drawn = dimension.measured / features.frame.scale
    if not features.fits(chain.total, drawn):
        return f"the drawing measures {drawn:.6g} there, not {chain.total.value:g}"
    if not features.fits(chain.pitch, drawn / chain.count):
        return f"the drawing measures {drawn / chain.count:.6g} for each, not {chain.pitch.value:.6g}"
    between, fit = _row(chain, dimension, features)
    if between and len(between) != chain.count + 1:
        return _count_words(chain, len(between))
    return "" if fit == len(between) else f"{len(between) - fit} of the {len(between)} grooves there are out of step"


def _row(chain: PitchChain, dimension: Dimension, features: Features) -> tuple[list[Groove], int]:
    """The like grooves that a spacing spans, and how many lie at its places; none if it spans something else."""
    start, end = sorted(features.frame.on_part(p)[0] for p in dimension.points[:2])
    wanted = [start + k * (end - start) / chain.count for k in range(chain.count + 1)]
    for spot in ("z_near", "z_far", "middle"):
        spots = [(g, float(getattr(g, spot))) for g in features.part.grooves]
        first, last = ([g for g, z in spots if features.near(z, place)] for place in (start, end))
        ends = next((a for a in first for b in last if a is not b and _like(a, b)), None)
        if ends is not None:
            inside = [(g, z) for g, z in spots if start - features.snap <= z <= end + features.snap and _like(g, ends)]
            return [g for g, _ in inside], sum(any(features.near(place, z) for place in wanted) for _, z in inside)
    return [], 0


def _like(one: Groove, two: Groove) -> bool:
    """True for two grooves of one side, width and floor."""
    return one.where == two.where and same(one.width, two.width) and same(one.floor_diameter, two.floor_diameter)


def with_undrawn(sheet: Sheet, part: Part) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the grooves that the sheet counts and doesn't draw, and a caution for each."""
    made: dict[tuple[float, float], str] = {}
    for dimension in sheet.dimensions:
        chain = chain_of(as_printed(dimension))
        if chain is None or part.frame is None or not along(dimension, part.frame):
            continue
        if chain.parted or sum_wrong(chain):
            continue
        features = Features.of(part)
        between, fit = _row(chain, dimension, features)
        spans = fit == len(between) == 2 and chain.count > 1
        if spans and features.fits(chain.total, dimension.measured / part.frame.scale):
            first, last = between
            step = (last.z_near - first.z_near) / chain.count
            if _open(chain, first, last, features) and features.fits(chain.pitch, -step):
                offs = [k * step for k in range(1, chain.count)]
                part = _filled(part, first, offs)
                made |= {(first.z_near + off, first.z_far + off): chain.words for off in offs}
    return part, tuple(_cautions(part, made))


def _open(chain: PitchChain, first: Groove, last: Groove, features: Features) -> bool:
    """True if a row can stand between two grooves: alike, on one land that nothing else breaks, a pitch apart."""
    land = first.mouth_diameter
    level = all(same(d, land) for g in (first, last) for d in (g.mouth_diameter, *g.beside))
    fits = first.side == OUTSIDE and first.shape in PLAIN and alike(first, last) and level
    inner = [r for z, r in features.part.outline if last.z_near < z < first.z_far]
    wide = (first.z_near - last.z_near) / chain.count > first.width
    return fits and wide and all(same(2 * r, land) for r in inner)


def _filled(part: Part, first: Groove, offs: list[float]) -> Part:
    """The part with copies of a groove behind it, in its grooves and its outline."""
    new = [replace(first, z_near=first.z_near + off, z_far=first.z_far + off) for off in offs]
    grooves = sorted((*part.grooves, *new), key=lambda g: (-g.z_near, g.z_far, g.where))
    numbered = tuple(replace(g, id=k) for k, g in enumerate(grooves, start=1))
    dust = ROUNDING * part.length
    mine = [k for k, (z, _) in enumerate(part.outline) if first.z_far - dust <= z <= first.z_near + dust]
    corners, end = part.outline[mine[0] : mine[-1] + 1], mine[-1] + 1
    copies: ProfilePoints = tuple((z + off, r) for off in offs for z, r in corners)
    return replace(part, grooves=numbered, outline=(*part.outline[:end], *copies, *part.outline[end:]))


def _cautions(part: Part, made: dict[tuple[float, float], str]) -> Iterator[Finding]:
    """A caution for each groove that was made."""
    for g in part.grooves:
        words = made.get((g.z_near, g.z_far))
        if words is not None and part.frame is not None:
            message = (
                f'Groove {g.id}, Z{g.z_near:.6g} to Z{g.z_far:.6g}, is not drawn: "{words}" counts it, and its sum and '
                "the drawn distance agree; check whether it is meant."
            )
            at = part.frame.on_sheet(g.middle, g.floor_diameter / 2)
            yield Finding(Level.CAUTION, DrawingCode.GROOVE_UNDRAWN, message, at, groove=g.id)


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
        row = _one_behind_another(whole, starting)
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


def _one_behind_another(whole: _Length, starting: Mapping[int, Sequence[_Length]]) -> list[_Length]:
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
