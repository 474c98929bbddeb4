"""Where notes stand: the groove that a leader's tip touches, else those beside which a note stands.

Places are on the part, z and radius in drawn lengths; what stands on another paper than the view is tied to nothing.
"""

import numpy as np
import shapely

from extractor.finding import Point
from extractor.part import Groove, Part
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.measured.features import Features

PEN = 0.02
"""Degrees by which lines may be off that are drawn as printed: places have four decimals, and legs are short."""
TOUCH = 2e-3
"""Share of the part's size by which a leader's tip may miss the groove that it points to."""
STANDS = 3.0
"""Letter heights between a standing note and the mouth of its groove, at most."""


def led_to(note: PointedNote, features: Features) -> Groove | None:
    """The groove that the tip of a note's leader touches, None for none."""
    if note.tip is None:
        return None
    near = _within(features.part, shapely.Point(features.frame.on_part(note.tip)), TOUCH * features.size)
    return min(near, key=lambda row: (row[0], row[1].id), default=(0.0, None))[1]


def tied_to(note: PointedNote, features: Features, *, sure: bool) -> list[Groove]:
    """The groove that a note is led to, or all beside which it stands, the nearest first."""
    if note.on_paper or note.tip is not None:
        return [groove for groove in [led_to(note, features)] if groove is not None]
    box = shapely.Polygon([features.frame.on_part(p) for p in note.box.exterior.coords])
    height, middle = note.height / features.frame.scale, box.centroid.x
    side = height if sure else 0.0
    found = [
        (abs(middle - g.middle), g.id, g)
        for _, g in _within(features.part, box, STANDS * height)
        if g.z_far - side <= middle <= g.z_near + side
    ]
    return list({g.id: g for _, _, g in sorted(found, key=lambda row: row[:2])}.values())


def told_at(note: PointedNote, features: Features) -> Point:
    """Where a note is told: at the tip of its leader, if that is on the part; a line of a table may begin at a text."""
    return note.tip if note.tip is not None and on_part(note.tip, features) else note.at


def _within(part: Part, place: shapely.Geometry, most: float) -> list[tuple[float, Groove]]:
    """The grooves with an area no farther from a place than that, and how far, in their order; one may come twice."""
    if "areas" not in part.worked_out:
        part.worked_out["areas"] = np.array([area for groove in part.grooves for area in areas(groove)])
    off = shapely.distance(part.worked_out["areas"], place)
    return [(float(off[k]), part.grooves[k // 2]) for k in np.flatnonzero(off <= most).tolist()]


def areas(groove: Groove) -> list[shapely.Polygon]:
    """A groove as areas in z and radius, one on either side of the axis."""
    low, high = groove.radii
    return [shapely.box(groove.z_far, a, groove.z_near, b) for a, b in ((low, high), (-high, -low))]


def on_part(tip: Point, features: Features) -> bool:
    """True if a tip lies on the part or its outline."""
    z, r = features.frame.on_part(tip)
    slack, part = TOUCH * features.size, features.part
    return -part.length - slack <= z <= slack and abs(r) <= part.outer_diameter / 2 + slack
