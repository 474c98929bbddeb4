"""Sizes that measure the part from a point off the outline read: a line of it is missing, or wasn't taken as outline.

Rules: an end of a length beyond the part's end stops, if its other end is a place of the part and neither lies far out
as another view's would. So does an end within the part where the outline has no corner and no line ends. A diameter
wider than the part about its axis stops, and so does one that ends on no line of the part, with none of that diameter
near along the axis, or between the walls of a groove clear of every line. A depth stops of which one end alone is level
with a line near it. Lengths to sharp corners of chamfers and
roundings end in line with a face or shoulder, those to centre lines, threads and holes where some line ends.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import pairwise, product

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.arcs import circular
from extractor.part import Frame, Groove, Notch, Part
from extractor.sheet import HATCH_LINE, Dimension, DimensionKind, Flags, Floats, Segments, Sheet
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import LENGTHS, at_view, measures, middle
from extractor.sizing.tolerances.tolerance import unread
from extractor.values import dataclass

OUT = 0.1
"""Diameters beyond the outside within which the end of a length still is one of this view."""
BEYOND = 0.5
"""Diameters before and behind the part within which a line in pieces that has no extension lines measures a diameter of
it: other views stand farther off."""
ALONG = 0.05
"""Share of the part's size along the axis within which a line of its diameter lies near the end of a diameter: the gap
before an extension line, a chamfer. Anywhere at the ends of the part and for a line without extension lines."""
FAR = 1.0
"""Lengths beyond the part's end within which a size's end still is about the part."""
DEEPER = 2.0
"""A floor is drawn or sized wrongly by less than the depth of its groove: it is not so many times as deep."""
PICKED = 5e-3
"""Share of the part's size by which the end of a dimension with a typed text may be picked beside its place."""
NO_INK = frozenset({"DIMENSION", "LEADER", "MULTILEADER", "HATCH", "TEXT", HATCH_LINE})
"""Composites whose strokes are none of the part's."""


def off_outline(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A stop for each size that measures the part from where its outline is not, the widest miss first, one a place."""
    whole, frame, told = _View.of(sheet, features), features.frame, set[float]()
    for dimension in sheet.dimensions:
        if dimension.kind not in (*LENGTHS, DimensionKind.ORDINATE) or dimension.measured <= 0:
            continue
        straight = dimension.kind in LENGTHS
        ends = [frame.on_part(p) for p in dimension.points[:2]]
        along, across = measures(dimension, frame.axis), straight and measures(dimension, frame.up)
        printed = parse(dimension.text)
        view = whole.clear_of(ends, bare=_bare(dimension, sheet)) if dimension.drawn else whole
        off = view.off_along(ends, printed, both=straight) if along else None
        off = (view.off_across(ends, printed) or view.off_depth(ends, printed)) if across else off
        if off is not None and round(off / features.snap) not in told:
            told.add(round(off / features.snap))
            yield _stop(dimension, features, off, along=along)


def torn_off(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each length with a tolerance of which one end alone lies at the part: it may be of a groove."""
    for dimension in sheet.dimensions:
        if dimension.kind in LENGTHS and dimension.measured > 0 and parse(dimension.text).limited:
            ends = [features.frame.on_part(p) for p in dimension.points[:2]]
            there = [end for end in ends if features.in_view(*end)]
            at_part = any(-features.part.length - features.snap <= z <= features.snap for z, _ in there)
            if len(there) == 1 and at_part and not at_view(dimension, features):
                yield unread(dimension)


def sized_as_rings(sheet: Sheet, part: Part, alone: Iterable[Notch]) -> Iterator[Finding]:
    """A stop for each recess of one half alone across which a diameter is measured: only a ring has one there."""
    features = Features.of(part)
    across = [[features.frame.on_part(p) for p in d.points[:2]] for d in sheet.dimensions if d.kind in LENGTHS]
    for notch in alone:
        for (za, ra), (_, rb) in (ends for ends in across if len(ends) == 2):
            on_floor = features.near(ra, -rb) and features.near(abs(ra), notch.floor / 2)
            if on_floor and notch.far - features.snap <= za <= notch.near + features.snap:
                at = features.frame.on_sheet((notch.near + notch.far) / 2, notch.floor / 2)
                words = (
                    f"A diameter of {notch.floor:.6g} is measured across the recess at {place_words(at)}, which only "
                    "one half shows: draw it in both halves if it goes round, or give its size as that of a notch."
                )
                yield Finding(Level.STOP, DrawingCode.HALVES_DISAGREE, words, at)
                break


def _stop(dimension: Dimension, features: Features, off: float, *, along: bool) -> Finding:
    """The stop for one size; `off` is the z, or the diameter, that the outline lacks."""
    size, part, at = dimension.measured / features.frame.scale, features.part, middle(dimension)
    if not along and off <= part.outer_diameter:
        at = next(p for p in dimension.points if features.near(2 * abs(features.frame.on_part(p)[1]), off))
        deep = not any(features.near(size, one) for one in (off, off / 2))
        what = f"depth of {size:.6g}" if deep else f"diameter of {off:.6g}"
        words = (
            f"A {what} is measured from {place_words(at)}, and no line of the part lies there so far "
            "from its axis: a line of the outline may be missing or drawn elsewhere; put it right, or accept it if the "
            "outline is whole and the size is not about it."
        )
        return Finding(Level.STOP, DrawingCode.OFF_OUTLINE, words, at)
    if not along:
        words = (
            f"A diameter of {size:.6g} is measured at {place_words(at)}, but the part was read "
            f"{part.outer_diameter:.6g} across: a line of it may be missing; check that the outline is whole."
        )
        return Finding(Level.STOP, DrawingCode.OVERALL_DIFFERS, words, at)
    place = f"{off:.6g} in front of the front face" if off > 0 else f"Z{off:.6g}"
    whole = part.length + off if off > 0 else -off
    beyond = f"beyond the part that was read: it would be {whole:.6g} long, not {part.length:.6g}"
    where = beyond if whole > part.length else "where nothing ends"
    words = (
        f"A length of {size:.6g} is measured from {place}, {where}: a line of the outline may be missing; draw it, or "
        "accept it if the outline is whole and the size is not about it."
    )
    return Finding(Level.STOP, DrawingCode.OFF_OUTLINE, words, at)


@dataclass(frozen=True)
class _View:
    """A part's places along the axis (corners of outline and bore, groove walls and middles), and its lines as spans.

    A span is (z, z, radius, 1 for an end of a wall): a line along the axis whole, of any other both ends. `edges` are
    those of the part, `ink` those drawn. `bare`: for a size whose line lies in pieces and has no extension lines.
    """

    features: Features
    stations: Floats
    ink: Floats
    edges: Floats
    bare: bool = False

    @classmethod
    def of(cls, sheet: Sheet, features: Features) -> "_View":
        """The places of a part on its sheet."""
        part = features.part
        walls = [z for g in part.grooves for z in (g.z_near, g.z_far, g.middle)]
        corners = [z for z, _ in (*part.outline, *(part.bore or ()))]
        edges = [(*a, *b) for a, b in (*part.edges, *pairwise(part.lands))]
        for g in part.grooves:
            middles = [] if g.side.axial else [(g.near + g.far) / 2]
            edges += [(g.z_far, d / 2, g.z_near, d / 2) for d in (g.mouth_diameter, g.floor_diameter, *middles)]
        return cls(features, np.array([*walls, *corners]), _ink(sheet, features), _spans(np.array(edges), features))

    def clear_of(self, ends: list[Point], *, bare: bool) -> "_View":
        """The same without the ink that begins at the ends of a size: heads of a line that lies in pieces."""
        places = np.array([(z, abs(r)) for z, r in ends])
        apart = [np.abs(self.ink[:, None, (k, 2)] - places).max(axis=2).min(axis=1) for k in (0, 1)]
        return replace(self, ink=self.ink[np.minimum(*apart) > self.features.snap], bare=bare)

    def off_along(self, ends: list[Point], printed: Printed, *, both: bool) -> float | None:
        """The z of an end that the part has nothing at, None if there is none; not `both`: of the second end alone."""
        length, snap = self.features.part.length, self.features.snap
        if any(abs(r) > (0.5 + OUT) * self.features.part.outer_diameter for _, r in ends[not both :]):
            return None
        for (z, _), (other, _) in (ends[::-1], ends)[: 1 + both]:
            # The outline has a corner there, or a groove a wall or its middle.
            known, from_known = (bool((np.abs(self.stations - one) <= snap).any()) for one in (z, other))
            if known or not from_known or self._picked_beside(z, other, self.stations, printed):
                continue
            beyond = z > snap or z < -length - snap
            if beyond and -(1 + FAR) * length <= z <= FAR * length:
                return z
            if not beyond and not (np.abs(self.ink[:, :2] - z) <= snap).any():
                return z
        return None

    def _picked_beside(self, place: float, other: float, places: Floats, printed: Printed) -> bool:
        """True if an end is off one of some places by a little, and what is typed is the distance from there."""
        beside = min(places.tolist(), key=lambda one: abs(one - place), default=math.inf)
        near = abs(beside - place) <= PICKED * self.features.size
        return near and self.features.fits(replace(printed, limits=False), abs(beside - other))

    def off_across(self, ends: list[Point], printed: Printed) -> float | None:
        """A diameter about the axis that is wider than the part, or ends on no line of it; None if it isn't."""
        (za, ra), (zb, rb) = ends
        part, snap, diameter = self.features.part, self.features.snap, 2 * max(abs(ra), abs(rb))
        half = printed.sign == "diameter" and min(abs(ra), abs(rb)) <= snap
        about = self.features.near(ra, -rb) or half
        room = BEYOND * part.outer_diameter if self.bare else ALONG * self.features.size
        if not about or not all(-part.length - room <= z <= room for z in (za, zb)):
            return None
        wide = (diameter - part.outer_diameter) / 2
        if wide > snap:
            return None if half else diameter
        far = [(z, abs(r)) for z, r in ends if abs(r) > snap]
        if not far or any(self._met(*end, self._near(*end)) for end in far):
            return None
        there = 2 * np.concatenate([self._levels(z, self._near(z, r)) for z, r in far])
        return None if self._picked_beside(diameter, 0.0, there, printed) else diameter

    def off_depth(self, ends: list[Point], printed: Printed) -> float | None:
        """The diameter where a depth on one side of the axis ends and no line of the part does, None if one does."""
        part, snap = self.features.part, self.features.snap
        if not all(-part.length <= z <= 0 and snap < abs(r) <= part.outer_diameter / 2 for z, r in ends):
            return None
        levels = [self._levels(z, ALONG * self.features.size) for z, _ in ends]
        met = [bool((np.abs(some - abs(r)) <= snap).any()) for some, (_, r) in zip(levels, ends, strict=True)]
        if met[0] == met[1] or ends[0][1] * ends[1][1] < 0:
            return None
        (_, r), (_, other) = ends if met[1] else ends[::-1]
        beside = self._picked_beside(abs(r), abs(other), np.concatenate(levels), printed)
        return None if beside or self.features.near(abs(r), abs(other)) else 2 * abs(r)

    def _near(self, z: float, r: float) -> float:
        """How far along the axis from a place a line of its diameter may lie: in a groove it must pass the place."""
        if any(self._within(groove, z, r) for groove in self.features.part.grooves):
            return 0.0
        at_end = not self.features.snap - self.features.part.length < z < -self.features.snap
        return math.inf if at_end or self.bare else ALONG * self.features.size

    def _within(self, groove: Groove, z: float, r: float) -> bool:
        """True if a place lies between the walls of a groove, below its mouth, and no farther than another floor may.

        What lies farther from a groove in the bore is the outside.
        """
        low, high = groove.radii
        deep = groove.side.sign * (groove.mouth_diameter / 2 - r)
        below = 0 < deep <= DEEPER * (high - low) if groove.side.axial else low < r < high
        return groove.z_far < z < groove.z_near and below

    def _met(self, z: float, r: float, near: float) -> bool:
        """True if a line of the part other than a wall passes a place, or one near it along the axis is as far out."""
        place, snap = shapely.Point(z, r), self.features.snap
        level = (np.abs(self._levels(z, near) - r) <= snap).any()
        sloping = (e for e in self.features.part.edges if abs(e[0][0] - e[1][0]) > snap)
        return bool(level) or any(shapely.LineString(e).distance(place) <= snap for e in sloping)

    def _levels(self, z: float, near: float) -> Floats:
        """The radii of the lines near a place along the axis; a wall alone, that ends short of its floor, has none."""
        spans, near = np.concatenate([self.edges, self.ink]), near + self.features.snap
        levels: Floats = spans[(spans[:, 0] - z <= near) & (z - spans[:, 1] <= near) & (spans[:, 3] == 0), 2]
        return levels


def _bare(dimension: Dimension, sheet: Sheet) -> bool:
    """True if a dimension that lies in pieces has no extension lines: all of its strokes run the way it measures."""
    runs = np.diff(sheet.segments.ends[list(dimension.drawn)].reshape(-1, 2, 2), axis=1)[:, 0]
    turn = math.radians(dimension.angle)
    along, square = runs @ (math.cos(turn), math.sin(turn)), runs @ (-math.sin(turn), math.cos(turn))
    return bool((np.abs(along) > np.abs(square)).all())


def _spans(lines: Floats, features: Features) -> Floats:
    """Lines (z, radius, z, radius) as spans of one radius, with 1 for the ends of walls."""
    (za, ra, zb, rb) = lines.reshape(-1, 4).T
    level, wall = np.abs(ra - rb) <= features.snap, np.abs(za - zb) <= features.snap
    ra, rb = np.abs(ra), np.abs(rb)
    whole = np.column_stack([np.minimum(za, zb), np.maximum(za, zb), ra, np.zeros_like(ra)])[level]
    ends = [np.column_stack([z, z, r, wall])[~level] for z, r in ((za, ra), (zb, rb))]
    return np.concatenate([whole, *ends])


def _ink(sheet: Sheet, features: Features) -> Floats:
    """The strokes within the view, the places where its arcs turn back, the middle and sides of every circle, as spans.

    Lines of dimensions that lie in pieces are none of the part's, nor is what lies wholly outside of it, as heads,
    tails and dots of such do; a centre line may run out on both sides.
    """
    segments, frame = sheet.segments, features.frame
    own = segments.of(lambda source: source.owner not in NO_INK) if len(segments) else np.zeros(0, dtype=bool)
    own[list(sheet.measuring)] = False
    strokes = segments.ends[own].reshape(-1, 2, 2) - np.array(frame.origin)
    lines = [np.stack([strokes @ np.array(way) / frame.scale for way in (frame.axis, frame.up)], axis=2).reshape(-1, 4)]
    lines.append(np.array([(*frame.on_part(at), *frame.on_part(at)) for at in _turning(segments, own, frame)]))
    for circle in sheet.circles:
        (z, r), radius = frame.on_part(circle.centre), circle.radius / frame.scale
        rims = [(z, one, z, one) for one in (r - radius, r + radius)]
        lines.append(np.array([(z - radius, r, z + radius, r), *rims]))
    every = np.concatenate([line.reshape(-1, 4) for line in lines])
    across = every[:, (1, 3)]
    lowest = np.where(across.prod(axis=1) > 0, np.abs(across).min(axis=1), 0.0)
    return _spans(every[lowest <= features.part.outer_diameter / 2 + features.snap], features)


def _turning(segments: Segments, own: Flags, frame: Frame) -> Iterator[Point]:
    """The places on arcs that lie farthest along the axis or across it: what is round is measured to them."""
    for k in np.flatnonzero(own & (segments.bulge != 0)).tolist():
        a, b, c, d = segments.ends[k].tolist()
        arc = circular((a, b), (c, d), float(segments.bulge[k]))
        for (x, y), side in product((frame.axis, frame.up), (1, -1)):
            at = arc.centre[0] + side * arc.radius * x, arc.centre[1] + side * arc.radius * y
            if 0.0 <= arc.share(at) <= 1.0:
                yield at
