"""What the pictures of a sheet need, taken out of a record once: profile, grooves with their sets, jaws, tools.

A `Scene` holds plain values in the drawing's units; radii in profiles, diameters where a name says so. A record
that holds no profile has no scene, and its sheet no picture.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from extractor.codes import DrawingCode
from extractor.side import OUTSIDE, SIDES, Side

Profile = tuple[tuple[float, float], ...]
"""z and radius, front to back."""

COLOURS = 6
"""How many colours and how many patterns the style sheet has for sets; beyond that they are paired anew."""


@dataclass(frozen=True, kw_only=True)
class PicturedGroove:
    """One groove as pictured: its numbers, and which set (index from 0) it belongs to, None for one left uncut.

    `drawn` is false for one that the drawing counts and does not show.
    """

    id: int
    side: Side
    z_near: float
    z_far: float
    mouth_diameter: float
    floor_diameter: float
    set_index: int | None
    lines: tuple[int, ...] = ()
    drawn: bool = True


@dataclass(frozen=True)
class PicturedInsert:
    """One insert at its station: width, the edge that its offset sets, what side it cuts, and its lower side.

    `edge` runs from the lower flank to the upper one, along the width and above the cutting edge, counted from the
    point that the offset sets.
    """

    name: str
    width: float
    reference: str
    side: Side
    edge: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class PicturedOperation:
    """One operation: its grooves, insert, and where its first cut begins (x a diameter)."""

    grooves: tuple[int, ...]
    tool: str
    start_x: float
    start_z: float
    seconds: float


@dataclass(frozen=True)
class Scene:
    """Everything the pictures draw.

    `stick_out` is the distance from front face to jaw face, None where unknown; `in_jaws` the length that they hold and
    `grip_diameter` the diameter that the shop file gives for it, 0 unknown; `tailstock` the diameter of the centre in
    the front face, 0 without one.
    """

    units: str
    outer_diameter: float
    length: float
    outline: Profile
    lands: Profile
    bore: Profile | None
    recesses: tuple[PicturedGroove, ...]
    stick_out: float | None = None
    in_jaws: float = 0.0
    grip_diameter: float = 0.0
    tailstock: float = 0.0
    inserts: Mapping[str, PicturedInsert] = field(default_factory=dict)
    runs: tuple[PicturedOperation, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a profile that no picture can be drawn of."""
        if len(self.outline) < 2 or len(self.lands) < 2 or self.length <= 0:
            raise ValueError("a scene needs a profile with a length")

    def recess(self, number: int) -> PicturedGroove | None:
        """The groove of this number, if there is one."""
        return next((r for r in self.recesses if r.id == number), None)


def scene_of(record: Mapping[str, Any]) -> Scene | None:
    """The scene of a record, or None where it holds no profile."""
    part, picture = record.get("part") or {}, record.get("picture")
    if not picture or not part.get("length"):
        return None
    machine = (record.get("setup") or {}).get("machine") or {}
    return Scene(
        units=part.get("units") or "",
        outer_diameter=part["outer_diameter"],
        length=part["length"],
        outline=_profile(picture["outline"]),
        lands=_profile(picture["lands"]),
        bore=_profile(picture["bore"]) if picture.get("bore") else None,
        recesses=tuple(_recesses(record)),
        stick_out=machine.get("stick_out"),
        in_jaws=((record.get("setup") or {}).get("in_jaws") or {}).get("length") or 0.0,
        grip_diameter=machine.get("grip_diameter") or 0.0,
        tailstock=machine.get("tailstock") or 0.0,
        inserts=_inserts(record),
        runs=tuple(_runs(record)),
    )


def _profile(points: Iterable[Sequence[float]]) -> Profile:
    """Pairs as tuples of floats."""
    return tuple((float(z), float(radius)) for z, radius in points)


def operations(record: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The operations of a record's plan, none where there is no plan."""
    return list((record.get("plan") or {}).get("operations") or [])


def set_of_each(record: Mapping[str, Any]) -> dict[int, int]:
    """For each groove that a set holds, the index of the set; sets count in the order of their first groove."""
    sets = (record.get("part") or {}).get("sets") or []
    ordered = sorted((s["grooves"] for s in sets), key=min)
    return {number: index for index, numbers in enumerate(ordered) for number in numbers}


def left_out(record: Mapping[str, Any]) -> frozenset[int]:
    """Grooves that a program which was made does not cut; none where there is no program."""
    if record.get("status") != "made":
        return frozenset()
    cut = {number for o in operations(record) for number in o["grooves"]}
    return frozenset(g["id"] for g in (record.get("part") or {}).get("grooves") or [] if g["id"] not in cut)


def lines_of_each(record: Mapping[str, Any]) -> dict[int, tuple[int, ...]]:
    """For each groove of the drawing, the program lines that cut it, as the verification found them."""
    matched = (record.get("verification") or {}).get("grooves") or []
    return {
        m["drawing"]: tuple(m["program"].get("lines") or ())
        for m in matched
        if m.get("drawing") is not None and m.get("program")
    }


def _recesses(record: Mapping[str, Any]) -> Iterable[PicturedGroove]:
    """The grooves of the part with their sets and lines."""
    sets, lines, uncut = set_of_each(record), lines_of_each(record), left_out(record)
    undrawn = {f.get("groove") for f in record["part"].get("findings") or [] if f["code"] == DrawingCode.GROOVE_UNDRAWN}
    for g in record["part"].get("grooves") or []:
        yield PicturedGroove(
            id=g["id"],
            side=SIDES[g["where"]],
            z_near=g["z_near"],
            z_far=g["z_far"],
            mouth_diameter=g["mouth_diameter"],
            floor_diameter=g["floor_diameter"],
            set_index=None if g["id"] in uncut else sets.get(g["id"]),
            lines=lines.get(g["id"], ()),
            drawn=g["id"] not in undrawn,
        )


def _inserts(record: Mapping[str, Any]) -> dict[str, PicturedInsert]:
    """The inserts that the set-up lists, by tool word; one whose edge is not told has a plain square one."""
    found = {}
    for tool in (record.get("setup") or {}).get("tools") or []:
        width, name = tool["width"], tool["name"]
        left = 0.0 if tool["reference"] == "far" else -width
        edge = tuple((float(u), float(h)) for u, h in tool.get("edge_points") or ())
        square = ((left, 0.0), (left + width, 0.0))
        found[name] = PicturedInsert(
            name, width, tool["reference"], SIDES[tool.get("where") or OUTSIDE.where], edge or square
        )
    return found


def _runs(record: Mapping[str, Any]) -> Iterable[PicturedOperation]:
    """The operations in the order in which they are cut."""
    for o in operations(record):
        yield PicturedOperation(
            tuple(o["grooves"]), o["tool"], o["start"]["x"], o["start"]["z"], o.get("seconds") or 0.0
        )


def _backward(point: tuple[float, float]) -> float:
    """Distance toward the chuck, which rises along a profile."""
    return -point[0]


def between(profile: Profile, z_near: float, z_far: float) -> list[tuple[float, float]]:
    """The stretch of a profile from z_near back to z_far, with the cut ends worked out.

    >>> between(((0.0, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-20.0, 17.0)), -5.0, -15.0)
    [(-5.0, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-15.0, 17.0)]
    """
    found: list[tuple[float, float]] = []
    # A part of a thousand grooves asks this a thousand times, so only the stretch itself is looked at.
    first = max(0, bisect_left(profile, -z_near, key=_backward) - 1)
    last = bisect_right(profile, -z_far, key=_backward) + 1
    for (z0, r0), (z1, r1) in pairwise(profile[first:last]):
        top, low = min(z0, z_near), max(z1, z_far)
        if top < low:
            continue
        slope = (r1 - r0) / (z0 - z1) if z0 > z1 else 0.0
        ends = [(z0, r0), (z1, r1)] if z0 == z1 else [(z, r0 + (z0 - z) * slope) for z in (top, low)]
        found += [end for end in dict.fromkeys(ends) if end not in found[-1:]]
    return found
