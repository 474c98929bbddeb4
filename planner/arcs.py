"""Arcs as short straight moves, none further from the true arc than a fraction of the least increment.

Seen in the plane of the turning axis with z to the right and x up, G02 turns clockwise (ISO 841 axes, tool post
behind the centre line). Lengths are counts; x on the diameter outside this file, radii inside.

An arc by its radius goes through both its ends, whatever they were rounded to: of the two circles of that radius
through them the turn chooses one. So whole counts never leave an end beside the circle; what they move is its centre,
by up to half a count over the cosine of half the turn. Up to a third of a turn that is a count or two. Toward half a
turn the centre depends on the last digit (by the square root of radius times the error), so let no planned arc turn
further than a third: split it, and both halves are true. `joining_radius` gives the whole radius to write.
"""

import math

SAGITTA = 0.25
"""Greatest distance of a chord from its arc, in increments on the radius; rounding of its ends adds a quarter."""


class ArcFault(ValueError):
    """The arc can't exist; the message gives the reason as a sentence fragment."""


def joins(start: tuple[int, int], end: tuple[int, int], radius: int) -> bool:
    """True if an arc of a radius can join two places (x, z): they differ, and are no further apart than twice it."""
    across, along = end[0] - start[0], end[1] - start[1]
    return radius > 0 and 0 < across**2 + 4 * along**2 <= 16 * radius**2


def joining_radius(start: tuple[int, int], end: tuple[int, int], radius: float) -> int:
    """The whole radius nearest to one wanted that still joins two places (x, z).

    >>> joining_radius((40_000, 0), (34_000, -3_000), 2_999.6), joining_radius((40_000, 0), (40_000, -3_001), 1_500.4)
    (3000, 1501)
    """
    across, along = end[0] - start[0], end[1] - start[1]
    least = math.isqrt(max(across**2 + 4 * along**2 - 1, 0) // 16) + 1
    return max(round(radius), least)


def by_radius(
    start: tuple[int, int], end: tuple[int, int], radius: int, clockwise: bool
) -> tuple[tuple[int, int], ...]:
    """Chord ends (x, z) of the arc of at most half a turn with a radius, from start to end given as (x, z).

    Raises ArcFault if no such arc joins the two.
    """
    (z0, r0), (z1, r1) = _radial(start), _radial(end)
    along, out = z1 - z0, r1 - r0
    chord = math.hypot(along, out)
    if radius <= 0:
        raise ArcFault("its radius is not above 0")
    if not chord:
        raise ArcFault("it ends where it begins")
    if chord > 2 * radius + 2:
        raise ArcFault("its ends are further apart than twice its radius")
    height = math.sqrt(max(0.0, radius**2 - chord**2 / 4)) / chord
    side = 1 if clockwise else -1
    centre = ((z0 + z1) / 2 + side * out * height, (r0 + r1) / 2 - side * along * height)
    return _chords((z0, r0), end, centre, clockwise)


def by_centre(
    start: tuple[int, int], end: tuple[int, int], offset: tuple[int, int], clockwise: bool, off: float = 2
) -> tuple[tuple[int, int], ...]:
    """Chord ends (x, z) of the arc about a centre; `offset` is its radial and axial distance from the start (I, K).

    Raises ArcFault if the end lies further than `off` counts beside the circle through the start.
    """
    (z0, r0), (z1, r1) = _radial(start), _radial(end)
    centre = (z0 + offset[1], r0 + offset[0])
    first, last = math.dist((z0, r0), centre), math.dist((z1, r1), centre)
    if start == end:
        raise ArcFault("it ends where it begins")
    if not first or abs(first - last) > off:
        raise ArcFault("its end does not lie on the circle about its centre")
    return _chords((z0, r0), end, centre, clockwise)


def off_circle(start: tuple[int, int], end: tuple[int, int], offset: tuple[int, int]) -> float:
    """How far the end of an arc about a centre lies off the circle through its start, in counts."""
    centre = (offset[1], offset[0])
    return abs(math.hypot(*centre) - math.dist((end[1] - start[1], (end[0] - start[0]) / 2), centre))


def half_turn_radius(
    start: tuple[int, int], end: tuple[int, int], offset: tuple[int, int], clockwise: bool
) -> int | None:
    """The whole radius that also describes an arc about a centre; None if it turns through more than half a circle."""
    (out, along), dz, dr = offset, end[1] - start[1], (end[0] - start[0]) / 2
    side = along * dr - out * dz
    # On the way clockwise by less than half a turn the centre lies to the right of the chord.
    if (side < 0) if clockwise else (side > 0):
        return None
    return joining_radius(start, end, math.hypot(out, along))


def _radial(place: tuple[int, int]) -> tuple[float, float]:
    """Z and radius of an (x, z) place."""
    return float(place[1]), place[0] / 2


def _chords(
    start: tuple[float, float], end: tuple[int, int], centre: tuple[float, float], clockwise: bool
) -> tuple[tuple[int, int], ...]:
    """Ends of the chords from start (z, radius) to end (x, z) about a centre (z, radius)."""
    z1, r1 = _radial(end)
    radius = math.dist(start, centre)
    begin = math.atan2(start[1] - centre[1], start[0] - centre[0])
    turn = math.atan2(r1 - centre[1], z1 - centre[0]) - begin
    turn = -(-turn % math.tau) if clockwise else turn % math.tau
    step = 2 * math.acos(max(0.0, 1 - SAGITTA / radius))
    count = max(1, math.ceil(abs(turn) / step))
    angles = (begin + turn * n / count for n in range(1, count))
    inner = ((round(2 * (centre[1] + radius * math.sin(a))), round(centre[0] + radius * math.cos(a))) for a in angles)
    return (*inner, end)
