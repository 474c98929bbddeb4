"""Like grooves and their evenly pitched sets, as `read` shows them: no shop, no tool, no grid of the control.

Two grooves are alike if side of the part, shape, width, floor, mouth, both lands, corner radius and chamfer agree
within LIKE_WITHIN. Plunged by one insert, they are cut alike whatever corner and chamfer are drawn and, where their
walls are upright, whatever width and floor, if their limits overlap. A set holds like grooves whose centres
lie within the same figure of one pitch.
"""

from collections.abc import Sequence

from extractor.part import Groove, Part, Units
from planner.plan import GrooveSet
from planner.rows.even import narrowed
from planner.rows.partition import fewest_rows

LIKE_WITHIN: dict[Units, float] = {"mm": 0.02, "in": 0.001}
# Shapes whose width and floor are held by their limits alone.
UPRIGHT = ("rectangular", "relief")
# Places are compared in counts much finer than any control's, so that a pitch of a third of an inch stays even.
FINE = 1_000_000


def group_grooves(part: Part) -> tuple[GrooveSet, ...]:
    """The fewest evenly pitched sets of like grooves, from the front; a groove that fits none is a set of one."""
    tolerance = LIKE_WITHIN[part.units]
    sets = [
        grooves_set for group in like_groups(part.grooves, tolerance) for grooves_set in _even_sets(group, tolerance)
    ]
    return tuple(sorted(sets, key=lambda s: s.grooves))


def like_groups(grooves: Sequence[Groove], tolerance: float, as_cut: bool = False) -> list[list[Groove]]:
    """Group the grooves by likeness; each joins the first group whose first member is like it."""
    groups: list[tuple[_Kind, list[Groove]]] = []
    for groove in grooves:
        own = _kind(groove, as_cut)
        home = next((members for kind, members in groups if _one_kind(kind, own, tolerance)), None)
        if home is None:
            groups.append((own, [groove]))
        else:
            home.append(groove)
    return [members for _, members in groups]


def alike(one: Groove, other: Groove, tolerance: float, as_cut: bool = False) -> bool:
    """True if one insert from one land cuts both; `as_cut` leaves out corner and chamfer, and what limits decide."""
    return _one_kind(_kind(one, as_cut), _kind(other, as_cut), tolerance)


_Kind = tuple[str, str, tuple[float, ...]]
"""The side of the part, the shape and the measures of a groove."""


def _kind(groove: Groove, as_cut: bool) -> _Kind:
    """What makes a groove like another."""
    return groove.where, groove.shape, _measures(groove, as_cut)


def _one_kind(one: _Kind, other: _Kind, tolerance: float) -> bool:
    """True if side and shape are the same, and all measures but for a tolerance."""
    return one[:2] == other[:2] and all(abs(a - b) <= tolerance for a, b in zip(one[2], other[2], strict=True))


def _measures(groove: Groove, as_cut: bool) -> tuple[float, ...]:
    """The measures that make grooves alike; face grooves also by the plane that they are cut into."""
    face = (0.0, 0.0) if groove.side.axial else (groove.mouth, groove.floor)
    lands = sorted((groove.near_land_diameter, groove.far_land_diameter))
    by_limits = as_cut and groove.shape in UPRIGHT
    return (
        *(() if by_limits else (groove.width, groove.floor_diameter)),
        groove.mouth_diameter,
        *(() if as_cut else (groove.corner_radius, groove.edge_chamfer)),
        *lands,
        *face,
    )


def _even_sets(group: Sequence[Groove], tolerance: float) -> list[GrooveSet]:
    """The sets of one group of like grooves."""
    if not group[0].side.axial:
        return [GrooveSet((groove.id,), 0.0) for groove in group]
    ordered = sorted(group, key=lambda g: -g.z_near)
    centres = [-g.middle for g in ordered]
    slack = round(tolerance * FINE)
    windows = [(round(c * FINE) - slack, round(c * FINE) + slack) for c in centres]
    aims = [c * FINE for c in centres]
    rows = fewest_rows(narrowed(windows, aims), aims)
    return [GrooveSet(tuple(ordered[i].id for i in row.members), _pitch(row.members, centres)) for row in rows]


def _pitch(members: Sequence[int], centres: Sequence[float]) -> float:
    """Mean pitch of a set, rounded where only digits of the reading are left; 0 for one groove."""
    if len(members) == 1:
        return 0.0
    return round((centres[members[-1]] - centres[members[0]]) / (len(members) - 1), 6)
