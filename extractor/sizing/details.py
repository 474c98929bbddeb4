"""Details drawn larger: held against the view at the ring they are of, and their dimensions heard there.

Rules: a heading names a detail's letter and scale (`DETAIL Z (5:1)`), the same letter stands at a ring round a place of
the view (ISO 128-3, from memory). The walls and levels within the ring must be in the detail, that many times as far
apart. Then what is dimensioned there is dimensioned at the view; a detail that shows only the walls or only the levels
is another drawing of the same place, so one of the two is wrong.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.part import Part
from extractor.sheet import Circle, Dimension, Floats, Sheet, Text
from extractor.sizing.ties import Features

NAME = r"(?:D[ÉE]TAIL|EINZELHEIT|DETTAGLIO|PARTICOLARE|DETALLE|VIEW|ANSICHT|X?)"
HEADING = re.compile(
    rf"\W*{NAME}\W*\b([A-Z])\b\W*(?:M|SCALE|MA(?:SS|ß)STAB|[ÉE]CH|[ÉE]CHELLE|SCALA|ESCALA)?\W*"
    r"(\d+(?:[.,]\d+)?)\s*:\s*(\d+(?:[.,]\d+)?)\W*",
    re.I,
)
"""Letter and scale of a detail, with or without a word before them."""

LETTER_AT = 3.0
"""Letter heights beyond its rim within which a ring's letter stands, at most."""

WITHIN = 0.85
"""Share of a ring's radius within which a wall or level must be in the detail: the rim may cut off what is farther."""

REACH = 4.0
"""A detail lies within so many radii of its ring, as large as it is drawn, of its heading."""

LEAST = 2
"""Walls, or levels, that a ring must hold: one alone fits anywhere."""

SHORT = 0.05
"""Share of a ring's radius that a wall or level is long at least: shorter strokes are corners and arrow heads."""


@dataclass(frozen=True)
class Detail:
    """A detail: its heading, how many times the view it is drawn, and the ring on the view that it is of."""

    heading: Text
    letter: str
    times: float
    ring: Circle

    def holds(self, point: Point) -> bool:
        """True if a place is near enough to the heading to belong to the detail."""
        return math.dist(point, self.heading.at) <= REACH * self.times * self.ring.radius


def heard_at_the_view(sheet: Sheet, part: Part) -> tuple[tuple[Dimension, ...], tuple[Finding, ...]]:
    """The dimensions of a sheet, those of its details brought to the view, and the details that contradict it."""
    dimensions, findings = list(sheet.dimensions), []
    for detail in _details(sheet, part):
        across = _shifts(detail, sheet, part, 1)
        along = _shifts(detail, sheet, part, 0, _heights(detail, part, across)) or _shifts(detail, sheet, part, 0)
        if along and across:
            dimensions = [_moved(d, detail, (along[0], across[0]), part) for d in dimensions]
        elif along == [] and across:
            findings.append(_differs(detail, "walls"))
        elif across == [] and along:
            findings.append(_differs(detail, "heights"))
    return tuple(dimensions), tuple(findings)


def _details(sheet: Sheet, part: Part) -> Iterator[Detail]:
    """Every detail whose letter stands once at a ring on the view, and that is drawn larger."""
    if part.frame is None:
        return
    for text in sheet.texts:
        found = HEADING.fullmatch(" ".join(text.text.split()))
        if found is None:
            continue
        top, bottom = (float(number.replace(",", ".")) for number in found.groups()[1:])
        times = top / bottom / part.frame.scale if bottom > 0 else 0.0
        letter = found[1].upper()
        rings = [c for c in sheet.circles if _on_view(c, part) and any(_at_ring(t, letter, c) for t in sheet.texts)]
        if times > 1 and len(rings) == 1 and not _on_view(replace(rings[0], centre=text.at), part):
            yield Detail(text, letter, times, rings[0])


def _on_view(circle: Circle, part: Part) -> bool:
    """True if the middle of a circle lies on the view, and it is smaller than the part."""
    z, r = part.frame.on_part(circle.centre) if part.frame else (1.0, 0.0)
    reach = circle.radius / (part.frame.scale if part.frame else 1.0)
    return -part.length - reach <= z <= reach and abs(r) <= part.outer_diameter / 2 + reach < 2 * part.outer_diameter


def _at_ring(text: Text, letter: str, ring: Circle) -> bool:
    """True for a ring's letter."""
    beyond = math.dist(text.at, ring.centre) - ring.radius
    return text.text.strip().upper() == letter and abs(beyond) <= LETTER_AT * text.height


def _axes(part: Part) -> tuple[Point, Point]:
    """Along and across the axis, as unit vectors on the sheet."""
    assert part.frame is not None
    return part.frame.axis, part.frame.up


def _heights(detail: Detail, part: Part, shifts: list[float] | None) -> tuple[float, float]:
    """Between which heights across the axis a detail's walls stand; extension lines stand beyond them."""
    levels = _marks_of_view(detail, part, 1)
    if not shifts:
        return -math.inf, math.inf
    low, high = (detail.times * level + shifts[0] for level in (levels[0], levels[-1]))
    slack = SHORT * (high - low)
    return low - slack, high + slack


def _shifts(
    detail: Detail, sheet: Sheet, part: Part, axis: int, between: tuple[float, float] = (-math.inf, math.inf)
) -> list[float] | None:
    """How far a detail's walls (axis 0) or levels (1) lie off the view's enlarged from the sheet's origin.

    `between`: where the ends of those strokes lie, along the other axis.
    Empty where not all that the ring holds are there; None where the ring holds too few, or they fit several places.
    """
    wanted, drawn = _marks_of_view(detail, part, axis), _marks_of_detail(detail, sheet, part, axis, between)
    if len(wanted) < LEAST or not len(drawn):
        return None
    near = detail.times * Features.of(part, part.frame).snap * part.frame.scale if part.frame else 0.0
    fits: list[float] = []
    for shift in {float(d - detail.times * wanted[0]) for d in drawn}:
        off = [np.abs(drawn - (detail.times * mark + shift)).min() for mark in wanted]
        if max(off) <= near:
            fits.append(shift)
    return None if fits and max(fits) - min(fits) > 2 * near else fits


def _marks_of_view(detail: Detail, part: Part, axis: int) -> list[float]:
    """Where the walls or the levels within a ring lie, along or across the axis on the sheet."""
    assert part.frame is not None
    along, near = _axes(part)[axis], Features.of(part, part.frame).snap * part.frame.scale
    found: list[float] = []
    for line in (part.outline, part.bore or ()):
        for side in (1, -1):
            places = [part.frame.on_sheet(z, side * r) for z, r in line]
            for a, b in pairwise(places):
                step = b[0] - a[0], b[1] - a[1]
                level = abs(step[0] * along[0] + step[1] * along[1]) <= near < math.hypot(*step)
                at = a[0] * along[0] + a[1] * along[1]
                if level and _through(a, b, detail.ring) and all(abs(at - other) > near for other in found):
                    found.append(at)
    return sorted(found)


def _through(a: Point, b: Point, ring: Circle) -> bool:
    """True if a stretch comes well within a ring."""
    run = b[0] - a[0], b[1] - a[1]
    share = ((ring.centre[0] - a[0]) * run[0] + (ring.centre[1] - a[1]) * run[1]) / (run[0] ** 2 + run[1] ** 2)
    share = min(max(share, 0.0), 1.0)
    foot = a[0] + share * run[0], a[1] + share * run[1]
    return math.dist(foot, ring.centre) <= WITHIN * ring.radius


def _marks_of_detail(detail: Detail, sheet: Sheet, part: Part, axis: int, between: tuple[float, float]) -> Floats:
    """Where the straight strokes near a heading that run as walls or levels do lie, along or across the axis."""
    along = np.array(_axes(part)[axis])
    lines = sheet.segments.ends[sheet.segments.bulge == 0]
    off = np.hypot(*(lines.reshape(-1, 2) - np.array(detail.heading.at)).T).reshape(-1, 2).max(axis=1)
    run = lines[:, 2:] - lines[:, :2]
    size = np.hypot(*run.T)
    reach = detail.times * detail.ring.radius
    ends = lines.reshape(-1, 2, 2) @ np.array(_axes(part)[1 - axis])
    beside = (between[0] <= ends.min(axis=1)) & (ends.max(axis=1) <= between[1])
    outside = np.array([not _on_view(replace(detail.ring, centre=(x, y)), part) for x, y in lines[:, :2].tolist()])
    fit = (off <= REACH * reach) & (np.abs(run @ along) <= 1e-3 * size) & (size >= SHORT * reach) & outside & beside
    return np.asarray(lines[fit][:, :2] @ along, dtype=float)


def _moved(dimension: Dimension, detail: Detail, shift: tuple[float, float], part: Part) -> Dimension:
    """A dimension of a detail as it would stand at the view; others as they are."""
    if not dimension.points or not all(detail.holds(p) for p in dimension.points[:2]):
        return dimension
    if any(_on_view(replace(detail.ring, centre=p), part) for p in dimension.points[:2]):
        return dimension
    (ax, ay), (ux, uy) = _axes(part)
    places = []
    for x, y in dimension.points:
        along = (x * ax + y * ay - shift[0]) / detail.times
        across = (x * ux + y * uy - shift[1]) / detail.times
        places.append((along * ax + across * ux, along * ay + across * uy))
    size, factor = dimension.measured / detail.times, dimension.factor * detail.times
    return replace(dimension, points=tuple(places), measured=size, factor=factor)


def _differs(detail: Detail, what: str) -> Finding:
    """The stop for a detail that is drawn otherwise than the view."""
    at, (x, y) = detail.heading.at, detail.ring.centre
    words = (
        f"Detail {detail.letter}, by its heading {detail.times:.4g} times as large as the view, has other {what} than "
        f"the view within its ring at X{x:.4g} Y{y:.4g}: ask which of the two is meant."
    )
    return Finding(Level.STOP, DrawingCode.DETAIL_DIFFERS, words, at)
