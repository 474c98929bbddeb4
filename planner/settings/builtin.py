"""The built-in inserts: standard widths with ordinary reach, for a shop that gave no tools of its own.

Widths: the groove widths m of DIN 471 (1.1 to 4.15 mm) and round ones between; in inch the groove widths for
retaining rings and fractions (common practice, no source). Reach: about 3 to 7 times the width, common practice.
A station is the insert's place in this list: no turret is set up like that, and the plan says so.
"""

from extractor.part import Units
from extractor.side import Where
from planner.shop import Edge, Tool

# (CW, RE, CDX, feed per revolution, peck), in the units of the list.
Row = tuple[float, float, float, float, float]
MM: tuple[Row, ...] = (
    (0.50, 0.0, 1.5, 0.03, 0.2),
    (0.80, 0.0, 3.0, 0.04, 0.3),
    (1.00, 0.1, 5.0, 0.05, 0.4),
    (1.10, 0.1, 5.5, 0.05, 0.5),
    (1.30, 0.1, 6.5, 0.05, 0.5),
    (1.60, 0.1, 8.0, 0.06, 0.6),
    (1.85, 0.1, 10.0, 0.06, 0.7),
    (2.00, 0.2, 14.0, 0.07, 0.8),
    (2.15, 0.1, 12.0, 0.07, 0.8),
    (2.50, 0.2, 16.0, 0.07, 0.8),
    (2.65, 0.1, 15.0, 0.08, 1.0),
    (3.00, 0.2, 20.0, 0.08, 1.0),
    (3.15, 0.1, 18.0, 0.08, 1.0),
    (4.00, 0.2, 25.0, 0.10, 1.2),
    (4.15, 0.1, 20.0, 0.10, 1.2),
    (5.00, 0.2, 30.0, 0.10, 1.5),
    (6.00, 0.2, 32.0, 0.12, 1.5),
    (8.00, 0.2, 35.0, 0.12, 2.0),
)
INCH: tuple[Row, ...] = (
    (0.020, 0.0, 0.060, 0.0010, 0.008),
    (0.029, 0.0, 0.110, 0.0015, 0.012),
    (0.031, 0.0, 0.120, 0.0015, 0.012),
    (0.039, 0.004, 0.200, 0.0020, 0.016),
    (0.046, 0.004, 0.220, 0.0020, 0.020),
    (0.056, 0.004, 0.280, 0.0020, 0.020),
    (0.062, 0.004, 0.310, 0.0025, 0.025),
    (0.068, 0.004, 0.340, 0.0025, 0.025),
    (0.079, 0.008, 0.550, 0.0025, 0.030),
    (0.086, 0.004, 0.450, 0.0030, 0.030),
    (0.094, 0.008, 0.600, 0.0030, 0.035),
    (0.103, 0.004, 0.600, 0.0030, 0.040),
    (0.118, 0.008, 0.800, 0.0030, 0.040),
    (0.125, 0.008, 0.800, 0.0030, 0.040),
    (0.156, 0.008, 0.950, 0.0040, 0.050),
    (0.188, 0.008, 1.100, 0.0040, 0.060),
    (0.250, 0.008, 1.250, 0.0050, 0.060),
    (0.312, 0.008, 1.400, 0.0050, 0.080),
)
# The same with DMIN, the least bore, for inside grooves: bars of ordinary size.
INSIDE_MM: tuple[tuple[float, ...], ...] = (
    (1.10, 0.1, 2.0, 0.04, 0.4, 8.0),
    (1.30, 0.1, 2.5, 0.04, 0.4, 10.0),
    (1.60, 0.1, 3.0, 0.04, 0.5, 16.0),
    (1.85, 0.1, 3.5, 0.05, 0.5, 16.0),
    (2.15, 0.1, 4.0, 0.05, 0.6, 20.0),
    (2.65, 0.1, 5.0, 0.05, 0.7, 20.0),
    (3.00, 0.2, 6.0, 0.06, 0.8, 25.0),
    (4.00, 0.2, 6.5, 0.06, 0.8, 25.0),
)
INSIDE_INCH: tuple[tuple[float, ...], ...] = (
    (0.046, 0.004, 0.090, 0.0015, 0.016, 0.312),
    (0.056, 0.004, 0.110, 0.0015, 0.016, 0.375),
    (0.068, 0.004, 0.130, 0.0020, 0.020, 0.625),
    (0.086, 0.004, 0.160, 0.0020, 0.024, 0.75),
    (0.103, 0.004, 0.200, 0.0020, 0.028, 0.75),
    (0.125, 0.008, 0.240, 0.0025, 0.030, 1.0),
)
# Ground inserts with a small corner radius, where the drawing asks for one.
FINE_MM: tuple[Row, ...] = (
    (1.00, 0.05, 4.0, 0.03, 0.3),
    (1.50, 0.05, 6.0, 0.04, 0.4),
    (2.00, 0.05, 9.0, 0.05, 0.5),
    (3.00, 0.05, 13.0, 0.06, 0.7),
)
FINE_INCH: tuple[Row, ...] = (
    (0.039, 0.002, 0.150, 0.0012, 0.012),
    (0.059, 0.002, 0.240, 0.0015, 0.016),
    (0.079, 0.002, 0.350, 0.0020, 0.020),
    (0.118, 0.002, 0.500, 0.0025, 0.028),
)
# Face inserts; their limits of diameter differ from holder to holder, so none are given and the plan says so.
FACE_MM: tuple[Row, ...] = (
    (2.00, 0.2, 6.0, 0.05, 0.6),
    (3.00, 0.2, 9.0, 0.06, 0.8),
    (4.00, 0.2, 12.0, 0.08, 1.0),
)
FACE_INCH: tuple[Row, ...] = (
    (0.079, 0.008, 0.240, 0.0020, 0.024),
    (0.118, 0.008, 0.350, 0.0025, 0.030),
    (0.157, 0.008, 0.470, 0.0030, 0.040),
)
# Inserts with rounder corners, for housings of round seals and for shafts that must not be notched.
ROUNDED_MM: tuple[Row, ...] = (
    (3.00, 0.5, 20.0, 0.08, 1.0),
    (4.00, 0.5, 25.0, 0.10, 1.2),
    (4.00, 0.8, 25.0, 0.10, 1.2),
    (5.00, 0.8, 30.0, 0.10, 1.5),
    (6.00, 1.2, 32.0, 0.12, 1.5),
    (8.00, 1.2, 35.0, 0.12, 2.0),
)
ROUNDED_INCH: tuple[Row, ...] = (
    (0.125, 0.020, 0.800, 0.0030, 0.040),
    (0.156, 0.020, 0.950, 0.0040, 0.050),
    (0.156, 0.031, 0.950, 0.0040, 0.050),
    (0.188, 0.031, 1.100, 0.0040, 0.060),
    (0.250, 0.047, 1.250, 0.0050, 0.060),
    (0.312, 0.047, 1.400, 0.0050, 0.080),
)
# Inserts with a full radius: recesses with a round floor of that radius, or of a greater one along its line.
ROUND_MM: tuple[Row, ...] = (
    (2.00, 1.0, 12.0, 0.05, 0.8),
    (3.00, 1.5, 16.0, 0.06, 1.0),
    (4.00, 2.0, 20.0, 0.08, 1.2),
    (6.00, 3.0, 25.0, 0.10, 1.5),
)
ROUND_INCH: tuple[Row, ...] = (
    (0.078, 0.039, 0.470, 0.0020, 0.030),
    (0.118, 0.059, 0.630, 0.0025, 0.040),
    (0.156, 0.078, 0.780, 0.0030, 0.050),
    (0.250, 0.125, 1.000, 0.0040, 0.060),
)
# A retract after a peck frees the chip: a share of the peck within limits (common practice, no source).
RETRACT_SHARE = 0.2
LEAST_RETRACT: dict[Units, float] = {"mm": 0.1, "in": 0.004}
GREATEST_RETRACT: dict[Units, float] = {"mm": 0.5, "in": 0.02}


def built_in_tools(units: Units) -> tuple[Tool, ...]:
    """The list in these units, station and offset counted from 1, Z set to the edge on the chuck's side.

    >>> [t.width for t in built_in_tools("mm")][11]
    3.0
    """
    metric = units == "mm"
    square, inside = (MM, INSIDE_MM) if metric else (INCH, INSIDE_INCH)
    fine, face = (FINE_MM, FACE_MM) if metric else (FINE_INCH, FACE_INCH)
    rounded = ROUNDED_MM if metric else ROUNDED_INCH
    listed: list[tuple[Where, tuple[float, ...]]] = [("outside", row) for row in square]
    listed += [("inside", row) for row in inside]
    listed += [("outside", row) for row in fine]
    listed += [("face", row) for row in face]
    listed += [("outside", row) for row in rounded]
    listed += [("outside", row) for row in (ROUND_MM if metric else ROUND_INCH)]
    return tuple(_tool(place, where, row, units) for place, (where, row) in enumerate(listed, start=1))


def usual_retract(peck: float, units: Units) -> float:
    """How far a tool backs off after a peck if the shop doesn't say; to the digits that a control takes.

    >>> usual_retract(1.0, "mm"), usual_retract(0.2, "mm"), usual_retract(4.0, "mm"), usual_retract(0.04, "in")
    (0.2, 0.1, 0.5, 0.008)
    """
    wanted = min(max(RETRACT_SHARE * peck, LEAST_RETRACT[units]), GREATEST_RETRACT[units])
    return round(wanted, 3 if units == "mm" else 4)


def _tool(place: int, where: Where, row: tuple[float, ...], units: Units) -> Tool:
    """One row of the lists in its station."""
    width, radius, reach, feed, peck, *bore = row
    edge: Edge = "round" if 2 * radius == width else "square"
    # A round edge is half a circle of the width, whatever width a run overrides it with.
    radius = 0.0 if edge == "round" else radius
    least = bore[0] if bore else 0.0
    return Tool(
        station=place,
        offset=place,
        width=width,
        corner_radius=radius,
        max_depth=reach,
        reference="far",
        feed=feed,
        peck=peck,
        retract=usual_retract(peck, units),
        where=where,
        edge=edge,
        min_bore=least,
    )
