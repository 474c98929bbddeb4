"""A part's features as dimensions look them up: its landmarks, its grooves by their walls, what agrees with a size."""

from bisect import bisect_left, bisect_right
from functools import cached_property
from typing import Any

import numpy as np

from extractor.finding import Point
from extractor.part import INCH, Frame, Groove, Part, ProfilePoints
from extractor.sheet import Dimension
from extractor.side import INSIDE
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.measured.landmarks import Landmark, across_axis, along_axis, nearest
from extractor.sizing.tolerances.tolerance import Size, agrees
from extractor.values import dataclass

SQUARE = 1e-3
"""Cosine below which a stroke counts as square to a direction: that of an extension line, a wall or a level."""
SNAP_SHARE = 5e-4
"""Ends of dimensions lie on their feature within this share of the part's size."""
FINE_SHARE = 0.2
"""The same as a share of the narrowest width or depth of a groove, where that is less."""
BEYOND = 0.25
"""Share of the greatest diameter by which places of dimensions may lie outside of a view; along the axis all of it."""
BESIDE = 1.0
"""Share of the part's diameter beyond it within which its sizes stand."""


@dataclass(frozen=True)
class Features:
    """A part's features as looked up by dimensions; `along` and `across` are its landmarks.

    `called`: the grooves that have a note with sizes of their own, which counts no others.
    """

    part: Part
    frame: Frame
    snap: float
    called: frozenset[int] = frozenset()

    @classmethod
    def of(cls, part: Part) -> "Features":
        """Features of a part on a sheet; ends snap within a share of its size, less where grooves are finer."""
        assert part.frame is not None
        fine = [min(g.width, g.depth) for g in part.grooves]
        snap = min([SNAP_SHARE * max(part.length, part.outer_diameter), *(FINE_SHARE * f for f in fine)])
        return cls(part, part.frame, snap)

    @property
    def size(self) -> float:
        """The greater of length and diameter."""
        return max(self.part.length, self.part.outer_diameter)

    @cached_property
    def along(self) -> tuple[Landmark, ...]:
        """The places along the axis."""
        return along_axis(self.part)

    @cached_property
    def across(self) -> tuple[Landmark, ...]:
        """The places along the radius."""
        return across_axis(self.part)

    @cached_property
    def land_lines(self) -> tuple[ProfilePoints, ...]:
        """The lands, and the bore with its grooves bridged as the lands are."""
        inner = sorted((g for g in self.part.grooves if g.side == INSIDE), key=lambda g: g.z_near)
        ends = [g.z_near + self.snap for g in inner]

        def of_a_floor(z: float, r: float) -> bool:
            """True for a point of a groove's floor."""
            first = bisect_left(ends, z)
            own = inner[first : first + 1]
            return any(within_walls(g, z, self.snap) and self.near(r, g.floor_diameter / 2) for g in own)

        return self.part.lands, tuple(point for point in self.part.bore or () if not of_a_floor(*point))

    @cached_property
    def known(self) -> dict[Dimension, Any]:
        """The ties of dimensions (`ties`) that were worked out: several rules ask the same of each."""
        return {}

    @cached_property
    def _marks(self) -> tuple[list[float], list[Landmark]]:
        """The landmarks along the axis in their order, and where they lie."""
        marks = sorted(self.along, key=lambda mark: mark.at)
        return [mark.at for mark in marks], marks

    def along_at(self, z: float, beside: float) -> Landmark | None:
        """The landmark along the axis at a place, as `nearest` chooses among all."""
        at, marks = self._marks
        # A little more than they may lie off, as that is a difference and this a sum.
        reach = self.snap * (1 + SQUARE)
        return nearest(marks[bisect_left(at, z - reach) : bisect_right(at, z + reach)], z, beside, self.snap)

    @cached_property
    def _mouths(self) -> tuple[list[float], list[Groove]]:
        """The grooves by their near walls, and where these lie."""
        grooves = sorted(self.part.grooves, key=lambda groove: groove.z_near)
        return [groove.z_near for groove in grooves], grooves

    def between(self, front: float, back: float) -> list[Groove]:
        """The grooves whose walls lie at two places, in their order."""
        at, grooves = self._mouths
        reach = self.snap * (1 + SQUARE)
        some = grooves[bisect_left(at, front - reach) : bisect_right(at, front + reach)]
        return sorted((g for g in some if self.near(front, g.z_near) and self.near(back, g.z_far)), key=lambda g: g.id)

    @cached_property
    def _columns(self) -> dict[str, Any]:
        return {}

    def column(self, field: str) -> Any:
        """A field of all grooves, array (n,): a row of a thousand grooves may have as many dimensions."""
        if field not in self._columns:
            self._columns[field] = np.array([getattr(groove, field) for groove in self.part.grooves])
        return self._columns[field]

    @cached_property
    def _corners(self) -> Any:
        """The corners of outline and bore in the order of z, array (n, 2)."""
        corners = np.array([*self.part.outline, *(self.part.bore or ())]).reshape(-1, 2)
        return corners[np.argsort(corners[:, 0])]

    def floor_width(self, groove: Groove) -> float:
        """The width of a groove's floor between its corners, along the axis; nought where it has none."""
        first, last = np.searchsorted(self._corners[:, 0], [groove.z_far - self.snap, groove.z_near + self.snap])
        z, r = self._corners[first:last].T
        on_floor = z[np.abs(r - groove.floor_diameter / 2) <= self.snap]
        return float(np.ptp(on_floor)) if len(on_floor) else 0.0

    @property
    def steps(self) -> list[tuple[float, float]]:
        """Corners (z, radius) between the walls of grooves that have steps in them, which no field of theirs holds."""
        stepped = [g for g in self.part.grooves if g.shape == "other" and g.side.axial]
        spans = [(g.z_far + self.snap, g.z_near - self.snap) for g in stepped]
        corners = (*self.part.outline, *(self.part.bore or ()))
        return [(z, r) for z, r in corners if any(low < z < high for low, high in spans)]

    def fits(self, printed: Printed, *sizes: float) -> bool:
        """True if a printed size is one of some true ones, rounded as printed, in the part's unit or the other."""
        return any(self.agrees(printed, true, unit) for true in sizes for unit in (1.0, INCH, 1 / INCH))

    def agrees(self, printed: Printed, true: float, factor: float = 1.0) -> bool:
        """True if a printed size is a true one, rounded as printed; `factor`: true units in one printed unit."""
        return agrees(printed, true, factor, self.part.units, self.frame.scale)

    def sized(self, true: float, feature: float, *, shaft: bool = False, half: bool = False) -> Size:
        """What a dimension measures on the part."""
        units, scale = self.part.units, self.frame.scale
        return Size(true=true, feature=feature, units=units, shaft=shaft, half=half, scale=scale)

    def near(self, a: float, b: float) -> bool:
        """True if two places along or across the axis are the same."""
        return abs(a - b) <= self.snap

    def beside(self, at: Point) -> bool:
        """True if a place of the sheet lies where the sizes of the part stand."""
        z, r = self.frame.on_part(at)
        room = BESIDE * self.part.outer_diameter
        return -self.part.length - room <= z <= room and abs(r) <= self.part.outer_diameter / 2 + room

    def in_view(self, z: float, r: float) -> bool:
        """True if a place belongs to the view, dimension helpers beside it included."""
        reach = self.part.outer_diameter
        return -self.part.length - reach <= z <= reach and abs(r) <= (0.5 + BEYOND) * reach + self.snap


def within_walls(groove: Groove, z: float, snap: float) -> bool:
    """True if a place along the axis lies within a groove, its walls included."""
    return groove.z_far - snap <= z <= groove.z_near + snap
