"""A part rebuilt from its record, as far as the limits of its grooves need it."""

from extractor.distance import Distance, Place
from extractor.part import Groove, Part
from extractor.places import with_distances
from rillwright.record_part import RecordedDistance, RecordedGroove, RecordedPart, RecordedPlace


def stated_part(stated: RecordedPart) -> Part | None:
    """The part of a record, its outline left out; None where it has no groove."""
    grooves = tuple(_groove(one) for one in stated.grooves)
    if not grooves:
        return None
    across, length = stated.outer_diameter or 1.0, stated.length or max(-g.z_far for g in grooves)
    line = ((0.0, across / 2), (-length, across / 2))
    units = stated.units or "mm"
    part = Part(units=units, outer_diameter=across, length=length, grooves=grooves, outline=line, lands=line)
    return with_distances(part, [_distance(one) for one in stated.distances])


def _groove(stated: RecordedGroove) -> Groove:
    """A groove of a record again."""
    return Groove(
        id=stated.id,
        where=stated.where,
        shape=stated.shape,
        z_near=stated.z_near,
        z_far=stated.z_far,
        mouth_diameter=stated.mouth_diameter,
        floor_diameter=stated.floor_diameter,
        corner_radius=stated.corner_radius,
        edge_chamfer=stated.edge_chamfer,
        tolerances=stated.tolerances,
        general=frozenset(stated.general_tolerances),
        printed=frozenset(stated.printed),
    )


def _distance(stated: RecordedDistance) -> Distance:
    """A distance of a record again."""
    start, end = _place(stated.from_), _place(stated.to)
    given = stated.deviations
    return Distance(start=start, end=end, nominal=stated.nominal, deviations=given, source=stated.source)


def _place(stated: RecordedPlace) -> Place:
    """A place of a record again."""
    return Place(groove=stated.groove, spot=stated.spot)
