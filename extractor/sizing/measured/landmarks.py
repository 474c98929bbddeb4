"""The places of a part that dimensions run between: its ends, the walls and middles of its grooves, other corners.

Rules: a wall or the middle of a groove is known by name, and so are the ends and the axis. Any other corner is turned
in another operation: it is taken to lie at its nominal, so that a distance from it says as much of the groove
as one from the front face. Where several lie at one place, the one beside which the dimension ends is meant.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from extractor.distance import Place, Spot
from extractor.part import Groove, Part, ProfilePoints


class Landmark(NamedTuple):
    """One place: `at` its z, or where not `along` its radius, in drawing units.

    `place` is its name, None for a corner without one. `floor`: the face groove whose floor it is, else 0. `beside`:
    the radii that it takes up, or where not `along` the stretch of z, least first. `rank`: which comes first.
    """

    at: float
    place: Place | None
    beside: tuple[float, float]
    rank: int
    along: bool = True
    floor: int = 0

    @property
    def groove(self) -> int:
        """The number of the groove that has this place, 0 for none."""
        return self.place.groove if self.place is not None else self.floor

    @property
    def named(self) -> bool:
        """True for a wall or a middle that has a name of its own in `Distance`."""
        return self.place is not None and self.place.groove > 0


WALL, END, CENTRE, CORNER = range(4)


def along_axis(part: Part) -> tuple[Landmark, ...]:
    """The places of a part along its axis."""
    across = (0.0, part.outer_diameter / 2)
    found = [
        Landmark(at=0.0, place=Place(groove=0, spot="front"), beside=across, rank=END),
        Landmark(at=-part.length, place=Place(groove=0, spot="back"), beside=across, rank=END),
    ]
    for groove in part.grooves:
        found += _of_groove(groove) if groove.side.axial else _of_face(groove)
    for line in (part.outline, part.bore or ()):
        found += _corners(line)
    return tuple(found)


def _of_groove(groove: Groove) -> Iterator[Landmark]:
    """Walls and middle of a groove; outside and inside a wall reaches from the floor up to the land beside it."""
    mouth, walls = groove.mouth_diameter, [wall / groove.side.along for wall in (groove.near, groove.far)]
    spots: tuple[tuple[Spot, float, float], ...] = (
        ("near", walls[0], groove.near_land_diameter or mouth),
        ("far", walls[1], groove.far_land_diameter or mouth),
        ("centre", sum(walls) / 2, mouth),
    )
    for spot, at, land in spots:
        low, high = (
            sorted((groove.floor_diameter / 2, land / 2)) if groove.side.axial else (groove.z_far, groove.z_near)
        )
        place, rank = Place(groove=groove.id, spot=spot), CENTRE if spot == "centre" else WALL
        yield Landmark(at=at, place=place, beside=(low, high), rank=rank, along=groove.side.axial)


def _of_face(groove: Groove) -> Iterator[Landmark]:
    """Floor and mouth of a face groove; its mouth is a corner that others turn."""
    beside = (groove.floor_diameter / 2, groove.mouth_diameter / 2)
    for field in ("z_near", "z_far"):
        at = groove.z_near if field == "z_near" else groove.z_far
        if field == groove.floor_field:
            yield Landmark(at=at, place=None, beside=beside, rank=WALL, floor=groove.id)
        else:
            yield Landmark(at=at, place=None, beside=beside, rank=CORNER)


def _corners(line: ProfilePoints) -> Iterator[Landmark]:
    """The places along z at which a line has a corner."""
    for z, points in groupby(sorted(line), key=lambda point: point[0]):
        radii = [r for _, r in points]
        yield Landmark(at=z, place=None, beside=(min(radii), max(radii)), rank=CORNER)


def across_axis(part: Part) -> tuple[Landmark, ...]:
    """The places of a part along its radius: the axis, the walls and middles of its face grooves, other radii."""
    length = (-part.length, 0.0)
    found = [Landmark(at=0.0, place=Place(groove=0, spot="axis"), beside=length, rank=END, along=False)]
    for groove in part.grooves:
        if not groove.side.axial:
            found += _of_groove(groove)
    for z, r in (*part.outline, *part.lands, *(part.bore or ())):
        found.append(Landmark(at=r, place=None, beside=(z, z), rank=CORNER, along=False))
    return tuple(found)


def nearest(marks: Iterable[Landmark], at: float, beside: float, snap: float) -> Landmark | None:
    """The landmark within `snap` of a place that lies nearest beside it, None where there is none."""
    here = [m for m in marks if abs(m.at - at) <= snap]
    return min(here, key=lambda m: (round(gap(m.beside, beside) / snap), m.rank, abs(m.at - at)), default=None)


def gap(span: tuple[float, float], at: float) -> float:
    """How far a place lies outside a span.

    >>> gap((2.0, 5.0), 6.5), gap((2.0, 5.0), 3.0)
    (1.5, 0.0)
    """
    return max(span[0] - at, at - span[1], 0.0)
