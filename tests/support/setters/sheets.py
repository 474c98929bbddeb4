"""Draws a Shaft: a full view where it is solid, a section where it is bored; front face on the right, units said."""

from itertools import pairwise

import ezdxf


def profile(shaft):
    """The outside from the front face to the back, as (z, radius)."""
    points = [(0.0, shaft.steps[0][1] / 2)]
    slots = sorted((s for s in shaft.slots if s.where == "outside"), key=lambda s: -s.near)
    start = 0.0
    for end, across in shaft.steps:
        land = across / 2
        points.append((start, land))
        for slot in (s for s in slots if end < s.near <= start):
            cut, low = slot.chamfer, slot.floor / 2
            points += [(slot.near + cut, land), (slot.near, land - cut), (slot.near, low)]
            points += [(slot.far, low), (slot.far, land - cut), (slot.far - cut, land)]
        points.append((end, land))
        start = end
    return [point for point, after in pairwise([*points, None]) if point != after]


def bore_profile(shaft):
    """The bore from the front face to the back, as (z, radius)."""
    land = shaft.bore / 2
    points = [(0.0, land)]
    for slot in sorted((s for s in shaft.slots if s.where == "inside"), key=lambda s: -s.near):
        low = slot.floor / 2
        points += [(slot.near, land), (slot.near, low), (slot.far, low), (slot.far, land)]
    return [*points, (shaft.steps[-1][0], land)]


def face_profile(shaft):
    """The front face from the outside to the bore, as (z, radius)."""
    points = [(0.0, shaft.steps[0][1] / 2)]
    for slot in sorted((s for s in shaft.slots if s.where == "face"), key=lambda s: -s.near):
        outer, inner = slot.near / 2, slot.far / 2
        points += [(0.0, outer), (slot.floor, outer), (slot.floor, inner), (0.0, inner)]
    return [*points, (0.0, shaft.bore / 2)]


def draw(shaft, path):
    """Write the sheet of a part as a DXF file."""
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"] = 4 if shaft.units == "mm" else 1
    doc.layers.add("CONTOUR")
    doc.layers.add("AXIS", linetype="CENTER")
    msp = doc.modelspace()
    outer, inner, end = profile(shaft), bore_profile(shaft), shaft.steps[-1][0]
    chains = [outer] if not shaft.bore else [outer, inner, face_profile(shaft), [outer[-1], inner[-1]]]
    for sign in (1, -1):
        for chain in chains:
            for (z0, r0), (z1, r1) in pairwise(chain):
                if (z0, r0) != (z1, r1):
                    msp.add_line((z0, sign * r0), (z1, sign * r1), dxfattribs={"layer": "CONTOUR"})
        if shaft.bore:
            _hatch(msp, shaft, [(z, sign * r) for z, r in outer + inner[::-1] + face_profile(shaft)[::-1]])
    seen = inner if shaft.bore else outer
    for place in sorted({z for z, _ in seen}):
        high = max(r for z, r in seen if z == place)
        msp.add_line((place, -high), (place, high), dxfattribs={"layer": "CONTOUR"})
    size = shaft.largest
    msp.add_line((end - 0.1 * size, 0), (0.1 * size, 0), dxfattribs={"layer": "AXIS", "linetype": "CENTER"})
    words = "ALL DIMENSIONS IN " + ("MILLIMETRES" if shaft.units == "mm" else "INCHES")
    msp.add_text(words, dxfattribs={"height": 0.06 * size, "insert": (end, -1.2 * size)})
    doc.saveas(path)


def _hatch(msp, shaft, edge):
    """Hatching over one half of a section."""
    hatch = msp.add_hatch(color=8)
    hatch.set_pattern_fill("ANSI31", scale=1.0 if shaft.units == "mm" else 0.04)
    hatch.paths.add_polyline_path(edge, is_closed=True)
