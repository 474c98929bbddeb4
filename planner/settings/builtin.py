"""The built-in inserts, for a shop that gave no tools of its own: `inserts.toml`.

A station is the insert's place in that list: no turret is set up like that, and the plan says so.
"""

from extractor.part import Units
from extractor.shipped import shipped
from extractor.side import Where
from planner.shop import Edge, Tool

# A retract after a peck frees the chip: a share of the peck within limits (common practice, no source).
RETRACT_SHARE = 0.2
LEAST_RETRACT: dict[Units, float] = {"mm": 0.1, "in": 0.004}
GREATEST_RETRACT: dict[Units, float] = {"mm": 0.5, "in": 0.02}


def built_in_tools(units: Units) -> tuple[Tool, ...]:
    """The list in these units, station and offset counted from 1, Z set to the edge on the chuck's side.

    >>> [t.width for t in built_in_tools("mm")][11]
    3.0
    """
    return tuple(
        _tool(place, *row, units=units)
        for place, row in enumerate(shipped("planner.settings", "inserts")[units], start=1)
    )


def usual_retract(peck: float, units: Units) -> float:
    """How far a tool backs off after a peck if the shop doesn't say; to the digits that a control takes.

    >>> usual_retract(1.0, "mm"), usual_retract(0.2, "mm"), usual_retract(4.0, "mm"), usual_retract(0.04, "in")
    (0.2, 0.1, 0.5, 0.008)
    """
    wanted = min(max(RETRACT_SHARE * peck, LEAST_RETRACT[units]), GREATEST_RETRACT[units])
    return round(wanted, 3 if units == "mm" else 4)


def _tool(
    place: int,
    where: Where,
    width: float,
    radius: float,
    reach: float,
    feed: float,
    peck: float,
    min_bore: float = 0.0,
    *,
    units: Units,
) -> Tool:
    """One row of the list in its station."""
    edge: Edge = "round" if 2 * radius == width else "square"
    return Tool(
        station=place,
        offset=place,
        width=width,
        # A round edge is half a circle of the width, whatever width a run overrides it with.
        corner_radius=0.0 if edge == "round" else radius,
        max_depth=reach,
        reference="far",
        feed=feed,
        peck=peck,
        retract=usual_retract(peck, units),
        where=where,
        edge=edge,
        min_bore=min_bore,
    )
