"""A part again from what a record states of it, as far as the limits of its grooves need it."""

from collections.abc import Mapping
from typing import Any

from extractor.distance import Distance, Place
from extractor.part import Groove, Part, Units
from extractor.places import with_distances


def stated_part(stated: Mapping[str, Any]) -> Part | None:
    """The part of a record's `part`, its outline left out; None where it has no groove."""
    grooves = tuple(_groove(one) for one in stated.get("grooves") or ())
    if not grooves:
        return None
    across, length = stated.get("outer_diameter") or 1.0, stated.get("length") or max(-g.z_far for g in grooves)
    line = ((0.0, across / 2), (-length, across / 2))
    units: Units = "in" if stated.get("units") == "in" else "mm"
    part = Part(units=units, outer_diameter=across, length=length, grooves=grooves, outline=line, lands=line)
    return with_distances(part, [_distance(one) for one in stated.get("distances") or ()])


def _groove(stated: Mapping[str, Any]) -> Groove:
    """A groove of a record again."""
    given = stated.get("tolerances") or {}
    return Groove(
        id=stated["id"],
        where=stated["where"],
        shape=stated.get("shape") or "rectangular",
        z_near=stated["z_near"],
        z_far=stated["z_far"],
        mouth_diameter=stated["mouth_diameter"],
        floor_diameter=stated["floor_diameter"],
        corner_radius=stated.get("corner_radius") or 0.0,
        edge_chamfer=stated.get("edge_chamfer") or 0.0,
        tolerances={name: (low, high) for name, (low, high) in given.items()},
        general=frozenset(stated.get("general_tolerances") or ()),
        printed=frozenset(stated.get("printed") or ()),
    )


def _distance(stated: Mapping[str, Any]) -> Distance:
    """A distance of a record again."""
    deviations = stated.get("deviations")
    return Distance(
        start=Place(groove=stated["from"]["groove"], spot=stated["from"]["spot"]),
        end=Place(groove=stated["to"]["groove"], spot=stated["to"]["spot"]),
        nominal=stated["nominal"],
        deviations=None if deviations is None else (deviations[0], deviations[1]),
        source=stated["source"],
    )
