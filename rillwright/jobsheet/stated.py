"""A part rebuilt from its record, as far as the limits of its grooves need it."""

from dataclasses import fields

from extractor.distance import Distance
from extractor.part import Groove, Part
from extractor.places import with_distances
from rillwright.records.record_part import TURNED_ENDS, RecordedGroove, RecordedPart

KEPT = {one.name for one in fields(RecordedGroove)} & {one.name for one in fields(Groove)}
"""What a record holds of a groove under the groove's own names."""


def stated_part(stated: RecordedPart) -> Part | None:
    """The part of a record, its outline left out; None where it has no groove."""
    grooves = tuple(_groove(one) for one in stated.grooves)
    if not grooves:
        return None
    across, length = stated.outer_diameter or 1.0, stated.length or max(-g.z_far for g in grooves)
    line = ((0.0, across / 2), (-length, across / 2))
    units = stated.units or "mm"
    part = Part(units=units, outer_diameter=across, length=length, grooves=grooves, outline=line, lands=line)
    distances = [
        Distance(start=one.from_, end=one.to, nominal=one.nominal, deviations=one.deviations, source=one.source)
        for one in stated.distances
    ]
    return with_distances(part, distances)


def _groove(stated: RecordedGroove) -> Groove:
    """A groove of a record again; in the back face a record has mouth and floor the other way round."""
    behind = stated.z_near < stated.z_far
    names = TURNED_ENDS if behind else {}
    kept = {names.get(name, name): value for name, value in vars(stated).items() if name in KEPT}
    kept["tolerances"] = {names.get(name, name): given for name, given in kept["tolerances"].items()}
    for name, those in (("general", stated.general_tolerances), ("printed", stated.printed)):
        kept[name] = frozenset(names.get(one, one) for one in those)
    kept["edge_chamfer"] = stated.edge_chamfer or stated.edge_radius
    return Groove(**kept, from_back=behind, rounded=stated.edge_radius > 0)
