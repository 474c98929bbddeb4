"""A turned part drawn in the ways of the trade, before anyone has been untidy with it.

Views lie with the turning axis on y = 0, the front face at x = 0 and the part to its left.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from support.independent.parts import Bent, TurnedPart
from support.ink import PLAIN, Hatch, Ink, Line, Look, Path, strokes

CENTRE_REACH = 0.08


HIDDEN, CENTRE, HATCHED = Look("HIDDEN", "DASHED"), Look("CENTER", "CENTER"), Look("HATCH")


@dataclass(frozen=True)
class Looks:
    """Layers and linetypes of one office for what is drawn."""

    outline: Look = PLAIN
    edge: Look = PLAIN
    hidden: Look = HIDDEN
    centre: Look = CENTRE
    hatch: Look = HATCHED


def upside(run: Sequence[Bent]) -> list[Bent]:
    """The same run below the axis."""
    return [(z, -r, -bulge) for z, r, bulge in run]


def silhouette(run: Sequence[Bent], look: Look) -> list[Ink]:
    """A run above and below the axis, stroke by stroke."""
    return strokes(run, False, look) + strokes(upside(run), False, look)


def edges(run: Sequence[Bent], length: float, smooth: bool) -> list[tuple[float, float]]:
    """Places (z, radius) of the circles seen edge-on: the larger one where two share a place.

    A rounded corner's tangent circles are left out unless `smooth`; both faces are always there.
    """
    found: dict[float, float] = {}
    for index, (z, r, bulge) in enumerate(run):
        inner = 0 < index < len(run) - 1
        tangent = inner and bool(bulge or run[index - 1][2]) and _tangent(run, index)
        if tangent and not smooth:
            continue
        place = round(z, 9)
        found[place] = max(found.get(place, 0.0), r)
    return [(z, r) for z, r in found.items() if r > 0 and -length - 1e-9 <= z <= 1e-9]


def _tangent(run: Sequence[Bent], index: int) -> bool:
    """True if the run passes smoothly through this corner."""
    into = _heading(run[index - 1], run[index], at_end=True)
    out = _heading(run[index], run[index + 1], at_end=False)
    return abs(math.remainder(into - out, math.tau)) < 1e-6


def _heading(a: Bent, b: Bent, at_end: bool) -> float:
    chord = math.atan2(b[1] - a[1], b[0] - a[0])
    half = 2 * math.atan(a[2])
    return chord + half if at_end else chord - half


def across(places: Sequence[tuple[float, float]], look: Look, low: float = -1.0, high: float = 1.0) -> list[Ink]:
    """Edge lines from `low` to `high` radii."""
    return [Line((z, low * r), (z, high * r), look) for z, r in places]


def centre_line(part: TurnedPart, look: Look, reach: float = CENTRE_REACH) -> list[Ink]:
    out = reach * part.length
    return [Line((-part.length - out, 0.0), (out, 0.0), look)]


def side(part: TurnedPart, looks: Looks, smooth: bool = False, hidden: bool = True) -> list[Ink]:
    """Side view: silhouettes, every visible edge right across, the bore dashed."""
    run = part.skin_run()
    ink = silhouette(run, looks.outline) + across(edges(run, part.length, smooth), looks.edge)
    if part.bore and hidden:
        ink += silhouette(part.bore_run(), looks.hidden)
        inner = [(z, r) for z, r in edges(part.bore_run(), part.length, False) if -part.length < z < 0]
        ink += across(inner, looks.hidden)
    return ink


def outline(part: TurnedPart, looks: Looks, path: bool = False) -> list[Ink]:
    """The whole outline and nothing within it."""
    run = [(0.0, 0.0, 0.0), *part.outside_run(), (-part.length, 0.0, 0.0)]
    run = [p for p in run if p[1] > 0]
    whole = run + [
        (z, -r, b) for (z, r, _), b in zip(run[::-1], [*[bulge for _, _, bulge in run[:-1]][::-1], 0.0], strict=True)
    ]
    return [Path(tuple(whole), True, looks.outline)] if path else strokes(whole, True, looks.outline)


def half(part: TurnedPart, looks: Looks, closed: bool = True, path: bool = False) -> list[Ink]:
    """Half profile above the axis, closed along it or ending on it."""
    run = part.loop()
    if part.bore:
        return [Path(tuple(run), True, looks.outline)] if path else strokes(run, True, looks.outline)
    return [Path(tuple(run), closed, looks.outline)] if path else strokes(run, closed, looks.outline)


def loops(part: TurnedPart, looks: Looks, hatched: bool = True, path: bool = False) -> list[Ink]:
    """Full section of a bored part: two cut faces, the bore's edges seen behind the cut."""
    run = part.loop()
    ink: list[Ink] = []
    for face in (run, upside(run)):
        ink += [Path(tuple(face), True, looks.outline)] if path else strokes(face, True, looks.outline)
        ink += [Hatch((tuple(face),), role=looks.hatch)] if hatched else []
    return ink + across(edges(part.bore_run(), part.length, False), looks.edge)


def half_section(part: TurnedPart, looks: Looks, hatched: bool = True) -> list[Ink]:
    """Upper half cut, lower half seen from outside."""
    run = part.loop()
    ink = strokes(run, True, looks.outline) + ([Hatch((tuple(run),), role=looks.hatch)] if hatched else [])
    outer = part.skin_run()
    ink += strokes(upside(outer), False, looks.outline) + across(edges(outer, part.length, False), looks.edge, high=0.0)
    if part.bore:
        inner = edges(part.bore_run(), part.length, False)
        ink += across([(z, r) for z, r in inner if -part.length < z < 0], looks.edge, low=0.0)
    return ink
