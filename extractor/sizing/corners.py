"""Radius notes at groove corners: `R0.2 MAX` on a leader or for all grooves, whose corners are often drawn sharp.

Rules: "MAX" allows anything from a sharp corner to the size named, so it becomes deviations of the drawn corner radius.
A radius without it that isn't drawn is a caution: sharp corners were read, and the person at the machine must know.
"""

import math
import re
from collections.abc import Iterable, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Deviation, Groove
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.sizing.printed import NUMBER, Printed, normalised, parse
from extractor.sizing.ties import SNAP_SHARE, Places

ALL_CORNERS = re.compile(
    rf"(?:corner|fillet|radii|radius|ecken|radien|rayons?|raggi)[^.;]{{0,30}}?R?\s*({NUMBER})\s*(?:mm\s*|in\s*)?MAX\b",
    re.I,
)
"""A note that limits the corner radii of all grooves."""
MAX = re.compile(r"\bMAX\b", re.I)
SLACK = 1e-6


def corner_tolerances(
    dimensions: Iterable[Dimension], texts: Sequence[Text], places: Places
) -> tuple[dict[int, Deviation], tuple[Finding, ...]]:
    """Deviations of the corner radius by groove number, and what there is to say about radii that aren't drawn."""
    found: dict[int, Deviation] = {}
    findings: list[Finding] = []
    for dimension in dimensions:
        printed = parse(dimension.text)
        groove = _cornered(dimension, places) if printed.sign == "radius" and printed.size is not None else None
        if groove is None:
            continue
        deviation, finding = _at_corner(printed, groove, dimension)
        findings += [finding] if finding is not None else []
        if deviation is not None:
            found[groove.id] = deviation
    largest = [float(m.group(1)) for text in texts for m in ALL_CORNERS.finditer(normalised(text.text))]
    if len(set(largest)) == 1:
        for groove in places.part.grooves:
            if groove.shape == "rectangular" and groove.corner_radius <= largest[0] + SLACK:
                found.setdefault(groove.id, _up_to(largest[0], groove))
    return found, tuple(findings)


def _up_to(size: float, groove: Groove) -> Deviation:
    """Deviations of the drawn corner radius that allow anything from sharp to `size`."""
    return -groove.corner_radius, max(0.0, round(size - groove.corner_radius, 9))


def _cornered(dimension: Dimension, places: Places) -> Groove | None:
    """The groove whose floor corner a leader's tip touches."""
    if dimension.kind is not DimensionKind.LEADER:
        return None
    z, r = places.turned(dimension.points[0])
    reach = 2 * SNAP_SHARE * places.part.outer_diameter
    for groove in places.part.grooves:
        corners = ((wall, groove.floor_diameter / 2) for wall in (groove.z_near, groove.z_far))
        near = any(math.hypot(z - a, abs(r) - b) <= reach + groove.corner_radius for a, b in corners)
        if groove.where != "face" and near:
            return groove
    return None


def _at_corner(printed: Printed, groove: Groove, dimension: Dimension) -> tuple[Deviation | None, Finding | None]:
    """What a radius text says of the corner it points to."""
    size, drawn = printed.size or 0.0, groove.corner_radius
    most = bool(MAX.search(dimension.text or ""))
    if most and drawn <= size + SLACK:
        return _up_to(size, groove), None
    if not most and abs(size - drawn) <= 0.5 * 10.0**-printed.decimals + SLACK:
        return printed.deviations, None
    if drawn == 0:
        words = (
            f"A leader gives groove {groove.id} a corner radius of {size:g} that isn't drawn; sharp corners were read."
        )
        return None, Finding(
            Level.CAUTION, DrawingCode.CORNER_NOT_DRAWN, words, at=dimension.points[0], groove=groove.id
        )
    words = (
        f"A leader prints R{size:g}{' MAX' if most else ''} where the drawing shows {drawn:.4g} (groove {groove.id} "
        "corner radius): ask which is meant."
    )
    return None, Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at=dimension.points[0], groove=groove.id)
