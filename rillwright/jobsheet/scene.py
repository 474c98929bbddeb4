"""What the pictures of a sheet need, taken out of a record once: profile, grooves with their sets, jaws, tools.

A `Scene` holds plain values in the drawing's units; radii in profiles, diameters where a name says so. A record
that holds no profile has no scene, and its sheet no picture.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from functools import cached_property
from itertools import pairwise

from extractor.codes import DrawingCode
from extractor.part import ProfilePoints
from extractor.values import dataclass
from postproc.verdict import Match
from rillwright.records.record import Record, RecordedOperation, RecordedTool
from rillwright.records.record_part import RecordedGroove, RecordedPart

COLOURS = 6
"""How many colours and how many patterns the style sheet has for sets; beyond that they are paired anew."""


@dataclass(frozen=True, kw_only=True)
class PicturedGroove(RecordedGroove):
    """A groove of the record as pictured: which set (index from 0) it belongs to, None for one left uncut.

    Its ends are in order from the front.

    `drawn` is false for one that the drawing counts and does not show.
    """

    set_index: int | None
    lines: tuple[int, ...] = ()
    drawn: bool = True


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
    outline: ProfilePoints
    lands: ProfilePoints
    bore: ProfilePoints | None
    recesses: tuple[PicturedGroove, ...]
    stick_out: float | None = None
    in_jaws: float = 0.0
    grip_diameter: float = 0.0
    tailstock: float = 0.0
    inserts: Mapping[str, RecordedTool] = field(default_factory=dict)
    runs: tuple[RecordedOperation, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a profile that no picture can be drawn of."""
        if len(self.outline) < 2 or len(self.lands) < 2 or self.length <= 0:
            raise ValueError("a scene needs a profile with a length")

    def recess(self, number: int) -> PicturedGroove | None:
        """The groove of this number, if there is one."""
        return self._by_number.get(number)

    @cached_property
    def behind(self) -> list[float]:
        """How far each point of the outline lies behind the front."""
        return [-z for z, _ in self.outline]

    @cached_property
    def behind_in_bore(self) -> list[float]:
        """The same of the bore's points."""
        return [-z for z, _ in self.bore or ()]

    @cached_property
    def _by_number(self) -> dict[int, PicturedGroove]:
        """The grooves by their numbers."""
        return {one.id: one for one in self.recesses}


def scene_of(record: Record) -> Scene | None:
    """The scene of a record, or None where it holds no profile."""
    part, picture, setup = record.part, record.picture, record.setup
    if picture is None or not part.length or part.outer_diameter is None:
        return None
    machine = setup.machine if setup else None
    return Scene(
        units=part.units or "",
        outer_diameter=part.outer_diameter,
        length=part.length,
        outline=picture.outline,
        lands=picture.lands,
        bore=picture.bore,
        recesses=tuple(_recesses(record)),
        stick_out=machine.stick_out if machine else None,
        in_jaws=setup.in_jaws.length if setup and setup.in_jaws else 0.0,
        grip_diameter=machine.grip_diameter if machine else 0.0,
        tailstock=machine.tailstock if machine else 0.0,
        inserts={one.name: one for one in setup.tools} if setup else {},
        runs=record.operations,
    )


def set_of_each(part: RecordedPart) -> dict[int, int]:
    """For each groove that a set holds, the index of the set; sets count in the order of their first groove."""
    ordered = sorted((one.grooves for one in part.sets), key=min)
    return {number: index for index, numbers in enumerate(ordered) for number in numbers}


def left_out(record: Record) -> frozenset[int]:
    """Grooves that a program which was made does not cut; none where there is no program."""
    if not record.made:
        return frozenset()
    cut = {number for one in record.operations for number in one.grooves}
    return frozenset(groove.id for groove in record.part.grooves if groove.id not in cut)


def lines_of_each(matches: Iterable[Match]) -> dict[int, tuple[int, ...]]:
    """For each groove of the drawing, the program lines that cut it, as the verification found them."""
    return {one.drawing: one.program.lines for one in matches if one.drawing is not None and one.program}


def _recesses(record: Record) -> Iterable[PicturedGroove]:
    """The grooves of the part with their sets and lines."""
    sets, lines, uncut = set_of_each(record.part), lines_of_each(record.matches), left_out(record)
    undrawn = {one.groove for one in record.part.findings if one.code == DrawingCode.GROOVE_UNDRAWN}
    for groove in record.part.grooves:
        near, far = groove.ends
        yield PicturedGroove(
            **{**vars(groove), "z_near": near, "z_far": far},
            set_index=None if groove.id in uncut else sets.get(groove.id),
            lines=lines.get(groove.id, ()),
            drawn=groove.id not in undrawn,
        )


def between(
    profile: ProfilePoints, z_near: float, z_far: float, behind: Sequence[float] | None = None
) -> list[tuple[float, float]]:
    """The stretch of a profile from z_near back to z_far, with the cut ends worked out.

    `behind`: how far each point lies behind the front, for a caller who asks many times.

    >>> between(((0.0, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-20.0, 17.0)), -5.0, -15.0)
    [(-5.0, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-15.0, 17.0)]
    """
    found: list[tuple[float, float]] = []
    told = [-z for z, _ in profile] if behind is None else behind
    first, last = max(0, bisect_left(told, -z_near) - 1), bisect_right(told, -z_far) + 1
    for (z0, r0), (z1, r1) in pairwise(profile[first:last]):
        top, low = min(z0, z_near), max(z1, z_far)
        if top < low:
            continue
        slope = (r1 - r0) / (z0 - z1) if z0 > z1 else 0.0
        ends = [(z0, r0), (z1, r1)] if z0 == z1 else [(z, r0 + (z0 - z) * slope) for z in (top, low)]
        found += [end for end in dict.fromkeys(ends) if end not in found[-1:]]
    return found
