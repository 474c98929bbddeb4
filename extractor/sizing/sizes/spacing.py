"""Printed distances between places of a part: of a wall or middle from an end, from another groove, and pitches.

Rules: deviations are of the distance as printed, whichever way z runs. `3x 7` names three spacings of 7: over one of
them, with the others found beside it, or over all three. Its deviations hold for each spacing, so they add up along
the row (ISO 129-1 for `n x`, from memory; that they add up is common practice, no source). A corner turned separately
is taken to lie at its nominal: a distance from a shoulder becomes one from the front face with the same spread.
"""

from collections.abc import Sequence
from itertools import pairwise

from extractor.distance import Distance, Place, Source
from extractor.part import INCH, Deviation
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.landmarks import Landmark
from extractor.sizing.measured.like import alike
from extractor.sizing.measured.ties import Tie
from extractor.values import dataclass

Pair = tuple[Landmark, Landmark]
WALLS = frozenset({"near", "far"})
"""The spots of a groove that are its walls."""

FRONT, AXIS = Place(groove=0, spot="front"), Place(groove=0, spot="axis")


@dataclass(frozen=True)
class Spacing:
    """What a dimension between two landmarks speaks of: every pair of places it is for, and one spacing of `each`.

    `off`: a count was printed that fits no row of the part; then the pair that is measured is meant alone. `several`:
    more than one spacing lies between the two, so that deviations of one are none of theirs.
    """

    pairs: tuple[Pair, ...]
    each: float
    off: bool = False
    several: bool = False


def spacing_of(ends: Pair, true: float, printed: Printed, features: Features) -> Spacing:
    """The pairs of places that a dimension between two is for; `true`: as measured between them."""
    one, two = ends
    alone = Spacing((ends,), true)
    if printed.count < 2 and not printed.typical:
        return alone
    share = true / printed.count
    if printed.size is not None and _is_share(printed.size, share, true):
        row = _row(one, two, share, features)
        whole = len(row) == printed.count + 1
        return Spacing(tuple(pairwise(row)), share) if whole else Spacing(alone.pairs, share, off=True, several=True)
    # A groove of another form may happen to stand at the same pitch behind a row.
    rows = [_row(one, two, true, features, like=like) for like in (True, False)]
    row = next((row for row in rows if printed.count in (1, len(row) - 1)), [])
    lands = () if row else _lands(one, two, features)
    if printed.count == len(lands):
        return Spacing(lands, true)
    typical = rows[0] if printed.typical else (one, two)
    return Spacing(tuple(pairwise(row or typical)), true, off=not row)


def _lands(one: Landmark, two: Landmark, features: Features) -> tuple[Pair, ...]:
    """All lands between grooves as wide as the one between two walls that face each other; none where no land is."""
    sides = {_side(m, features) for m in (one, two)}
    walls = sorted((m for m in features.along if m.place is not None and m.place.spot in WALLS), key=lambda m: m.at)
    walls = [m for m in walls if _side(m, features) in sides]
    lands = [pair for pair in pairwise(walls) if pair[0].groove != pair[1].groove]
    if (one, two) not in lands and (two, one) not in lands:
        return ()
    return tuple(pair for pair in lands if features.near(drawn(pair), drawn((one, two))))


def _is_share(size: float, share: float, whole: float) -> bool:
    """True if a printed size, in either unit, is nearer to one spacing than to all of them."""
    off = [min(abs(size * unit / true - 1) for unit in (1.0, INCH, 1 / INCH)) for true in (share, whole)]
    return off[0] < off[1]


def _row(one: Landmark, two: Landmark, pitch: float, features: Features, *, like: bool = False) -> list[Landmark]:
    """The places at one pitch, of one kind, that lie in line with two; ends of the part only where one is measured.

    `like`: those of grooves like either of the two alone.
    """
    marks = features.along if one.along else features.across
    spots = {m.place.spot for m in (one, two) if m.place is not None}
    sides = {_side(m, features) for m in (one, two)}
    kin = [m for m in marks if m.place is not None and m.place.spot in spots and _side(m, features) in sides]
    if like:
        kin = [m for m in kin if not m.groove or any(_alike(m, end, features) for end in (one, two))]
    row = [one, two]
    if abs(abs(one.at - two.at) - pitch) > 2 * features.snap:
        row = [one, *_onward(one, two.at - one.at, pitch, kin, features)]
        return row[: row.index(two) + 1] if two in row else [one, two]
    onward = _onward(two, two.at - one.at, pitch, kin, features)
    return [*reversed(_onward(one, one.at - two.at, pitch, kin, features)), *row, *onward]


def _side(mark: Landmark, features: Features) -> str:
    """On which side the groove of a landmark lies, "" for an end."""
    return features.part.grooves[mark.groove - 1].where if mark.groove else ""


def _alike(one: Landmark, two: Landmark, features: Features) -> bool:
    """True for places of two like grooves."""
    return two.groove > 0 and alike(*(features.part.grooves[m.groove - 1] for m in (one, two)))


def _onward(last: Landmark, way: float, pitch: float, marks: Sequence[Landmark], features: Features) -> list[Landmark]:
    """The places that follow one at a pitch, as long as there is one."""
    step = pitch if way > 0 else -pitch
    found: list[Landmark] = []
    while after := [m for m in marks if features.near(m.at, last.at + step)]:
        last = min(after, key=lambda m: abs(m.at - last.at - step))
        found.append(last)
    return found


def distance_between(pair: Pair, deviations: Deviation | None, source: Source) -> Distance | None:
    """The distance between two landmarks, None where no groove's wall or middle is one of them.

    `deviations` are of the printed distance, counted from the one drawn.
    """
    one, two = sorted(pair, key=lambda mark: mark.groove > 0)
    if one.groove == two.groove or not (two.named or one.named):
        return None
    if two.place is None:
        return None
    start, nominal = one.place, drawn(pair)
    if start is None:
        start, nominal = FRONT if two.along else AXIS, abs(two.at)
        if deviations is not None and nominal < abs(one.at):
            deviations = -deviations[1] + 0.0, -deviations[0] + 0.0
    if nominal <= 0 or start == two.place:
        # A wall that lies in the front face or is told from itself: nothing is measured.
        return None
    return Distance(start=start, end=two.place, nominal=nominal, deviations=deviations, source=source)


def drawn(pair: Pair) -> float:
    """The distance between two landmarks as read from the outline."""
    return abs(pair[0].at - pair[1].at)


def of_z(distance: Distance) -> tuple[int, str, Deviation] | None:
    """Groove, field and deviations of z itself that a distance from an end gives a wall, None where it gives none.

    From the front face z falls as the distance grows, from the back face it rises with it.
    """
    if distance.deviations is None or distance.end.spot not in ("near", "far"):
        return None
    low, high = distance.deviations
    field = f"z_{distance.end.spot}"
    if distance.start.spot == "front":
        return distance.end.groove, field, (-high + 0.0, -low + 0.0)
    return (distance.end.groove, field, (low, high)) if distance.start.spot == "back" else None


def of_floor(pair: Pair, deviations: Deviation) -> Deviation:
    """Deviations of the z of a face groove's floor that a distance to it gives, the other end at its nominal."""
    floor, other = pair if pair[0].floor else pair[::-1]
    low, high = deviations
    return (low, high) if floor.at > other.at else (-high + 0.0, -low + 0.0)


def size_read(tie: Tie, features: Features) -> float | None:
    """The size of what a dimension measures as it was read from the outline."""
    part = features.part
    if tie.field == "length":
        return part.length
    if tie.ends is not None:
        return drawn(tie.ends) * (2.0 if tie.twice else 1.0)
    if tie.field == "land_diameter":
        lands = (2 * r for _, r in (*part.lands, *(part.bore or ())))
        return min(lands, key=lambda across: abs(across - tie.true), default=None)
    return float(getattr(part.grooves[tie.grooves[0] - 1], tie.field)) if len(tie.grooves) == 1 else None
