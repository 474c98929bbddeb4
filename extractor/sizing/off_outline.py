"""Sizes that measure the part from a point off the outline read: a line of it is missing, or wasn't taken as outline.

Rules: an end of a length beyond the part's end stops, if its other end is a place of the part and neither lies far out
as another view's would. So does an end within the part where the outline has no corner and no line ends. A diameter
wider than the part about its axis stops, and so does one that ends in the air: on no line of the part, where none lies
as far from the axis, or in the open of a groove. Lengths to sharp corners of chamfers and roundings end in line with a
face or shoulder, those to centre lines, threads and holes where some line ends. A text that names another length stops
as well.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.grammar import NUMBER, normalised
from extractor.part import Groove, Notch, Part
from extractor.sheet import Dimension, Floats, Sheet
from extractor.sizing.doubt import drawn_diameters
from extractor.sizing.printed import Printed, parse
from extractor.sizing.sheet_words import plain
from extractor.sizing.ties import LENGTHS, Features, measures, middle
from extractor.values import dataclass

OUT = 0.1
"""Diameters beyond the outside within which the end of a length still is one of this view."""
BEYOND = 0.5
"""Diameters before and behind the part within which a line in pieces that has no extension lines measures a diameter of
it: other views stand farther off."""
FAR = 1.0
"""Lengths beyond the part's end within which a size's end still is about the part."""
PICKED = 5e-3
"""Share of the part's size by which the end of a dimension with a typed text may be picked beside its place."""
NO_INK = frozenset({"DIMENSION", "LEADER", "MULTILEADER", "HATCH", "TEXT"})
"""Composites whose strokes are none of the part's."""
TOTAL = re.compile(
    rf"\W*(?:(?P<sure>(?:OVERALL|TOTAL|FINISHED|FERTIG|GESAMT)[- ]*(?:LENGTH|LANGE)"
    rf"|LONGUEUR TOTALE|LUNGHEZZA TOTALE|LONGITUD TOTAL)|(?P<bare>L)|LENGTH|LANGE"
    rf"|(?P<across>(?:OUTSIDE|OUTER)\s+DIA(?:METER)?\.?|O\.?D\b\.?|AUSSENDURCHMESSER|DIAMETRE EXTERIEUR"
    rf"|DIAMETRO (?:ESTERNO|EXTERIOR)|BUITENDIAMETER))\s*[=:]?\s*Ø?\s*(?P<size>{NUMBER})\s*(?:MM|IN\.?|\")?\W*",
    re.I,
)
"""A text that names the length of the part, or its outside diameter; of stock and raw parts it says so."""
ABOUT = {True: 0.1, False: 0.25}
"""A bare `L = 105` is the part's length if it is so within this share of it, and so is a `LENGTH 105` within another;
else it is that of something on it, or of its stock."""


def off_outline(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A stop for each size that measures the part from where its outline is not, the widest miss first, one a place."""
    whole, frame, told = _View.of(sheet, features), features.frame, set[float]()
    for dimension in sheet.dimensions:
        if dimension.kind not in LENGTHS or dimension.measured <= 0 or len(dimension.points) < 2:
            continue
        ends = [frame.on_part(p) for p in dimension.points[:2]]
        along, across = measures(dimension, frame.axis), measures(dimension, frame.up)
        printed = parse(dimension.text)
        view = whole.clear_of(ends) if dimension.drawn else whole
        off = view.off_along(ends, printed) if along else view.off_across(ends, printed) if across else None
        over = view.open_groove(ends, printed) if across and off is None else None
        if over is not None:
            yield _in_the_open(dimension, features, over)
        if off is not None and round(off / features.snap) not in told:
            told.add(round(off / features.snap))
            yield _stop(dimension, features, off, along=along)


def said_length(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A stop for a text that names another length, or outside diameter, than was read, unless another names that."""
    dimensioned, part = {d.text for d in sheet.dimensions}, features.part
    found = [(t, TOTAL.fullmatch(plain(normalised(t.text)))) for t in sheet.texts if t.text not in dimensioned]
    long = [(t, total) for t, total in found if total and not total["across"]]
    across = [(t, total) for t, total in found if total and total["across"]]
    lands = {part.outer_diameter, *(2 * r for _, r in part.lands)}
    kinds = (
        (long, {part.length}, "long", DrawingCode.OVERALL_DIFFERS),
        (across, lands, "across", DrawingCode.NOTE_CONTRADICTS),
    )
    for told, drawn, what, code in kinds:
        if any(features.fits(Printed.of(total["size"]), size) for _, total in told for size in drawn):
            continue
        for text, total in told:
            off = abs(Printed.of(total["size"]).value - part.length) / part.length
            if total["sure"] or total["across"] or off <= ABOUT[bool(total["bare"])]:
                words = (
                    f'The sheet says "{normalised(text.text)}", but the part was read {max(drawn):.6g} {what}: a line '
                    "of it may be missing; ask which is meant."
                )
                yield Finding(Level.STOP, code, words, text.at)


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


def _in_the_open(dimension: Dimension, features: Features, groove: Groove) -> Finding:
    """The stop for a diameter that is measured in the open of a groove."""
    size, at = dimension.measured / features.frame.scale, dimension.points[0]
    words = (
        f"A diameter of {size:.6g} is measured within groove {groove.id}, at {place_words(at)}, but its floor was read "
        f"as {groove.floor_diameter:.6g}: ask which is meant, or draw the size from the edge that it measures."
    )
    return Finding(Level.STOP, DrawingCode.OFF_OUTLINE, words, at)


def _stop(dimension: Dimension, features: Features, off: float, *, along: bool) -> Finding:
    """The stop for one size; `off` is the z, or the diameter, that the outline lacks."""
    size, part, at = dimension.measured / features.frame.scale, features.part, middle(dimension)
    if not along and off <= part.outer_diameter:
        at = dimension.points[0]
        words = (
            f"A diameter of {off:.6g} is measured from {place_words(at)}, and no line of the part lies so far from its "
            "axis: a line of the outline may be missing or drawn elsewhere; put it right, or accept it if the outline "
            "is whole and the size is not about it."
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
    """A part's places along the axis: corners of outline and bore with groove walls, and (z, radius) of all line ends.

    `levels`: radii of corners of outline, bore and grooves. `in_pieces`: for a size whose line lies in pieces.
    """

    features: Features
    stations: Floats
    ink: Floats
    levels: Floats
    in_pieces: bool = False

    @classmethod
    def of(cls, sheet: Sheet, features: Features) -> "_View":
        """The places of a part on its sheet."""
        part = features.part
        walls = [z for g in part.grooves for z in (g.z_near, g.z_far, g.middle)]
        corners = [z for z, _ in (*part.outline, *(part.bore or ()))]
        radii = [abs(r) for _, r in (*part.outline, *(part.bore or ()), *features.steps)]
        radii += [d / 2 for d in drawn_diameters(part)]
        ink = np.array(list(_ink(sheet, features))).reshape(-1, 2)
        return cls(features, np.array([*walls, *corners]), ink, np.array(radii))

    def clear_of(self, ends: list[Point]) -> "_View":
        """The same without the ink that begins at the ends of a size: heads of a line that lies in pieces."""
        places = np.array([(z, abs(r)) for z, r in ends])
        apart = np.abs(self.ink[:, None] - places).max(axis=2).min(axis=1)
        return replace(self, ink=self.ink[apart > self.features.snap], in_pieces=True)

    def off_along(self, ends: list[Point], printed: Printed) -> float | None:
        """The z of an end that the part has nothing at, None if there is none."""
        length, snap = self.features.part.length, self.features.snap
        if any(abs(r) > (0.5 + OUT) * self.features.part.outer_diameter for _, r in ends):
            return None
        for (z, _), (other, _) in (ends, ends[::-1]):
            # The outline has a corner there, or a groove a wall or its middle.
            known, from_known = (bool((np.abs(self.stations - one) <= snap).any()) for one in (z, other))
            if known or not from_known or self._picked_beside(z, other, self.stations, printed):
                continue
            beyond = z > snap or z < -length - snap
            if beyond and -(1 + FAR) * length <= z <= FAR * length:
                return z
            if not beyond and not (np.abs(self.ink[:, 0] - z) <= snap).any():
                return z
        return None

    def _picked_beside(self, place: float, other: float, places: Floats, printed: Printed) -> bool:
        """True if an end is off one of some places by a little, and what is typed is the distance from there."""
        beside = float(places[np.abs(places - place).argmin()])
        near = abs(beside - place) <= PICKED * self.features.size
        return near and self.features.fits(replace(printed, limits=False), abs(beside - other))

    def off_across(self, ends: list[Point], printed: Printed) -> float | None:
        """A diameter about the axis that is wider than the part, or ends on no line of it; None if it isn't."""
        (za, ra), (zb, rb) = ends
        part, snap, diameter = self.features.part, self.features.snap, 2 * max(abs(ra), abs(rb))
        half = printed.sign == "diameter" and min(abs(ra), abs(rb)) <= snap
        about = self.features.near(ra, -rb) or half
        room = BEYOND * part.outer_diameter if self.in_pieces else snap
        if not about or not all(-part.length - room <= z <= room for z in (za, zb)):
            return None
        wide = (diameter - part.outer_diameter) / 2
        if wide > snap:
            return None if half else diameter
        far = [(z, abs(r)) for z, r in ends if abs(r) > snap]
        met = not far or any(self._met(*end) for end in far)
        return None if met or self._picked_beside(diameter, 0.0, 2 * self.levels, printed) else diameter

    def open_groove(self, ends: list[Point], printed: Printed) -> Groove | None:
        """The groove in whose open, between its walls and clear of every edge, a diameter about the axis ends."""
        (_, ra), (_, rb) = ends
        if not self.features.near(ra, -rb):
            return None
        for groove in self.features.part.grooves:
            if all(self._in_open(groove, z, abs(r)) for z, r in ends):
                floor = np.array([groove.floor_diameter])
                return None if self._picked_beside(abs(ra) + abs(rb), 0.0, floor, printed) else groove
        return None

    def _in_open(self, groove: Groove, z: float, r: float) -> bool:
        """True if a place lies in a groove, on none of its edges."""
        (low, high), snap = groove.radii, self.features.snap
        within = groove.z_far < z < groove.z_near and low < r < high - snap
        return within and not self._on_edge(z, r)

    def _on_edge(self, z: float, r: float) -> bool:
        """True if the outline, the bore or a groove passes a place."""
        place = shapely.Point(z, r)
        return any(shapely.LineString(edge).distance(place) <= self.features.snap for edge in self.features.part.edges)

    def _met(self, z: float, r: float) -> bool:
        """True if a line of the part is as far from the axis as a place, or the outline passes it."""
        there = np.abs(np.concatenate([self.levels, self.ink[:, 1]]) - r)
        if (there <= self.features.snap).any():
            return True
        return self._on_edge(z, r)


def _ink(sheet: Sheet, features: Features) -> Iterable[tuple[float, float]]:
    """Z and distance from the axis of every end of a stroke within the view, and of every circle's middle and sides.

    Lines of dimensions that lie in pieces are none of the part's, and their heads and tails lie wholly beside it; a
    centre line may run out on both sides.
    """
    segments, frame = sheet.segments, features.frame
    own = segments.of(lambda source: source.owner not in NO_INK) if len(segments) else np.zeros(0, dtype=bool)
    sizes = np.zeros(len(segments), dtype=bool)
    sizes[[k for dimension in sheet.dimensions for k in dimension.drawn]] = True
    ends = segments.ends[own & ~sizes].reshape(-1, 2)
    points = ends - np.array(frame.origin)
    z, r = points @ np.array(frame.axis) / frame.scale, points @ np.array(frame.up) / frame.scale
    across = r.reshape(-1, 2)
    lowest = np.where(across.prod(axis=1) > 0, np.abs(across).min(axis=1), 0.0)
    at_part = np.repeat(lowest <= (0.5 + OUT) * features.part.outer_diameter, 2)
    inside = at_part & (np.abs(r) <= features.part.outer_diameter)
    yield from zip(z[inside].tolist(), np.abs(r[inside]).tolist(), strict=True)
    for circle in sheet.circles:
        (along, off), radius = frame.on_part(circle.centre), circle.radius / frame.scale
        yield from ((along, abs(off) + radius), (along - radius, abs(abs(off) - radius)), (along + radius, abs(off)))
