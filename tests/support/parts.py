"""Parts as values, built from short groove lists, for tests that need no drawing.

    part_of([(-10, -13, 34), (-20, -23, 34)])                        a 40 x 60 bar with two grooves 3 wide
    part_of([...], steps=[(0, 40), (-30, 50)], length=60)             40 across to Z-30, 50 from there to the back
    part_of([(-10, -13, 34, {"corner_radius": 0.2})])                 any further field of `Groove`
    row(4, first=-10, pitch=5, width=3, floor=34)                     the list itself, evenly pitched

`z_near`, `z_far` and diameters are in drawing units. Grooves may come in any order; they are numbered from the front
face. Outside grooves have upright walls in the outline, and chamfers at the mouth where `edge_chamfer` is given; vee,
round and tapered ones come to a point in the middle. Floor corners are sharp there, or with `bent` in chords.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from extractor.part import Groove, Part, ProfilePoints, Units

More = Mapping[str, Any]
Spot = tuple[float, float, float] | tuple[float, float, float, More]
Steps = Sequence[tuple[float, float]]
DRAWN = frozenset({"run", "bent"})
"""What a spot says of its outline alone: how far a wall runs out, and whether the floor's corners are drawn."""


def row(count: int, first: float, pitch: float, width: float, floor: float, **extra: Any) -> list[Spot]:
    """An evenly pitched list of like grooves, `first` the near wall of the first one, toward the chuck."""
    return [(first - i * pitch, first - i * pitch - width, floor, extra) for i in range(count)]


def part_of(
    spots: Sequence[Spot],
    diameter: float = 40.0,
    length: float = 60.0,
    units: Units = "mm",
    steps: Steps | None = None,
    bore: float | None = None,
) -> Part:
    """A part with these grooves; `steps` are (z where it starts, diameter) from the front, `bore` a plain hole."""
    steps = tuple(steps) if steps else ((0.0, diameter),)
    ordered = sorted(spots, key=lambda spot: -spot[0])
    grooves = tuple(_groove(number, spot, steps, bore) for number, spot in enumerate(ordered, start=1))
    lands = _lands(steps, length)
    return Part(
        units=units,
        outer_diameter=max(across for _, across in steps),
        length=length,
        grooves=grooves,
        outline=_outline(lands, grooves, {float(s[0]): s[3] for s in ordered if len(s) == 4}),
        lands=lands,
        bore=None if bore is None else ((0.0, bore / 2), (-length, bore / 2)),
    )


def groove_of(**fields: Any) -> Groove:
    """A groove by itself: outside, rectangular, from Z-10 to Z-13 and from 40 down to 34, or what the fields say."""
    usual = Groove(
        id=1,
        where="outside",
        shape="rectangular",
        z_near=-10.0,
        z_far=-13.0,
        mouth_diameter=40.0,
        floor_diameter=34.0,
    )
    return replace(usual, **fields)


def _groove(number: int, spot: Spot, steps: Steps, bore: float | None) -> Groove:
    """The groove of one list entry, with the lands beside it worked out."""
    z_near, z_far, floor = (float(v) for v in spot[:3])
    extra = dict(spot[3]) if len(spot) == 4 else {}
    extra = {name: value for name, value in extra.items() if name not in DRAWN}
    near, far = _across(steps, z_near, before=True), _across(steps, z_far, before=False)
    if extra.get("where") == "inside":
        near = far = float(bore or 0.0)
    fields: dict[str, Any] = {
        "where": "outside",
        "shape": "rectangular",
        "mouth_diameter": min(near, far),
        "near_land_diameter": near,
        "far_land_diameter": far,
    }
    return Groove(id=number, z_near=z_near, z_far=z_far, floor_diameter=floor, **(fields | extra))


def _across(steps: Steps, z: float, before: bool) -> float:
    """Diameter of the land just before (frontward of) or just behind z."""
    reached = [across for start, across in steps if start > z or (start == z and not before)]
    return float(reached[-1] if reached else steps[0][1])


def _lands(steps: Steps, length: float) -> ProfilePoints:
    """The outside profile with no grooves."""
    ends = [start for start, _ in steps[1:]] + [-length]
    points: list[tuple[float, float]] = []
    for (start, across), end in zip(steps, ends, strict=True):
        points += [(float(start), across / 2), (float(end), across / 2)]
    return tuple(points)


def _outline(lands: ProfilePoints, grooves: Sequence[Groove], drawn: Mapping[float, More]) -> ProfilePoints:
    """The outside profile with the outside grooves cut in."""
    points = list(lands)
    for groove in grooves:
        if groove.where == "outside":
            leg = groove.edge_chamfer if groove.near_land_diameter == groove.far_land_diameter else 0.0
            how = {name: value for name, value in drawn.get(groove.z_near, {}).items() if name in DRAWN}
            before = [p for p in points if p[0] >= groove.z_near + leg]
            behind = [p for p in points if p[0] <= groove.z_far - leg]
            points = [*before, *_recess(groove, **how), *behind]
    return tuple(points)


def _recess(groove: Groove, run: float = 0.0, bent: bool = False) -> list[tuple[float, float]]:
    """Breakpoints of one recess from its near mouth to its far mouth."""
    floor = groove.floor_diameter / 2
    near, far = (groove.z_near, groove.near_land_diameter / 2), (groove.z_far, groove.far_land_diameter / 2)
    middle = (groove.z_near + groove.z_far) / 2
    if bent:
        return [near, *_bent(groove), far]
    if groove.shape == "round":
        return [near, *_arc(middle, floor, groove.width / 2, groove.depth), far]
    if run:
        return [near, (groove.z_near - run, floor), (groove.z_far + run, floor), far]
    if groove.shape in ("vee", "tapered"):
        return [near, (middle, floor), far]
    leg = groove.edge_chamfer if near[1] == far[1] else 0.0
    if not leg:
        return [near, (groove.z_near, floor), (groove.z_far, floor), far]
    rims = [(near[0] + leg, near[1]), (near[0], near[1] - leg)], [(far[0], far[1] - leg), (far[0] - leg, far[1])]
    return [*rims[0], (groove.z_near, floor), (groove.z_far, floor), *rims[1]]


def _bent(groove: Groove) -> list[tuple[float, float]]:
    """The floor with its corners in chords of nine degrees."""
    floor, r = groove.floor_diameter / 2, groove.corner_radius
    quarter = [(r * math.cos(t), floor + r - r * math.sin(t)) for t in (math.pi / 20 * k for k in range(11))]
    near = [(groove.z_near - r + along, height) for along, height in quarter]
    return [*near, *((groove.z_far + r - along, height) for along, height in reversed(quarter))]


def _arc(middle: float, floor: float, half: float, deep: float, chords: int = 40) -> list[tuple[float, float]]:
    """Points of the arc through both mouth edges and the deepest point (circle of a chord and its rise)."""
    radius = (half**2 + deep**2) / (2 * deep)
    turn = math.acos(max(-1.0, 1 - deep / radius))
    asides = [radius * math.sin(turn * (1 - 2 * i / chords)) for i in range(chords + 1)]
    return [(middle + a, floor + radius - math.sqrt(max(0.0, radius**2 - a**2))) for a in asides]
