"""Draw the sample drawings and write their numbers to samples.json.

    python drawings/draw_samples.py [FOLDER]

Without FOLDER they land beside this script. The same numbers give the same bytes.
"""

import json
import os
import sys
from pathlib import Path

import ezdxf
from ezdxf.document import Drawing
from ezdxf.layouts import Modelspace
from ezdxf.math import bulge_to_arc
from furniture import PAPERS, Dimensioner, OnSheet, border, dimension_style, dimensions, notes, title_block
from outlines import Segment, Vertex, profile, segments, silhouette, visible_edges
from samples import SAMPLES, Pair, Sample

# The pattern is stored in inches and, in a metric sheet, already turned to millimetres.
HATCH_SCALE = {"mm": 1.0, "in": 0.75}
HEADER_UNITS = {"mm": (4, 1), "in": (1, 0)}


def put(msp: Modelspace, place: OnSheet, one: Segment, side: int, layer: str) -> None:
    """One straight or arc of the part, above (side 1) or mirrored below the axis (side -1)."""
    (z0, r0), (z1, r1), bulge = one
    start, end = place(z0, side * r0), place(z1, side * r1)
    if not bulge:
        msp.add_line(start, end, dxfattribs={"layer": layer})
        return
    centre, first, last, radius = bulge_to_arc(start, end, bulge * side * place.turn)
    msp.add_arc(centre, radius, _degrees(first), _degrees(last), dxfattribs={"layer": layer})


def _degrees(radians: float) -> float:
    return round(radians * 57.29577951308232, 9)


def draw_half(msp: Modelspace, place: OnSheet, sample: Sample, points: list[Vertex]) -> None:
    """One polyline above the centre line, closed by the faces but not along the axis."""
    run = [(0.0, 0.0, 0.0), *points, (-sample.length, 0.0, 0.0)]
    vertices = [(*place(z, radius), bulge * place.turn) for z, radius, bulge in run]
    if sample.version == "R12":
        msp.add_polyline2d(vertices, format="xyb", dxfattribs={"layer": sample.visible})
    else:
        msp.add_lwpolyline(vertices, format="xyb", dxfattribs={"layer": sample.visible})


def draw_edges(msp: Modelspace, place: OnSheet, sample: Sample, points: list[Vertex]) -> None:
    """Side view: silhouettes in pieces, every corner an edge right across, a bore in hidden lines."""
    for side in (1, -1):
        for one in silhouette(points):
            put(msp, place, one, side, sample.visible)
    for z, radius in visible_edges(points):
        msp.add_line(place(z, -radius), place(z, radius), dxfattribs={"layer": sample.visible})
    if sample.bore:
        for side in (1, -1):
            bore = side * sample.bore / 2
            hidden = {"layer": "HIDDEN", "linetype": "DASHED"}
            msp.add_line(place(0.0, bore), place(-sample.length, bore), dxfattribs=hidden)


def draw_section(msp: Modelspace, place: OnSheet, sample: Sample, points: list[Vertex]) -> None:
    """Full section: two hatched halves that do not touch the axis, the bore's ends joined across."""
    bore = sample.bore / 2
    loop = [(0.0, bore, 0.0), *points, (-sample.length, bore, 0.0), (0.0, bore, 0.0)]
    for side in (1, -1):
        for one in segments(loop):
            put(msp, place, one, side, sample.visible)
        hatch = msp.add_hatch(dxfattribs={"layer": "HATCH"})
        hatch.set_pattern_fill("ANSI31", scale=HATCH_SCALE[sample.units])
        vertices = [(*place(z, side * radius), bulge * side * place.turn) for z, radius, bulge in loop[:-1]]
        hatch.paths.add_polyline_path(vertices, is_closed=True)
    for z in (0.0, -sample.length):
        msp.add_line(place(z, -bore), place(z, bore), dxfattribs={"layer": sample.visible})


STYLES = {"half": draw_half, "edges": draw_edges, "section": draw_section}


def new_sheet(sample: Sample) -> Drawing:
    """An empty sheet with the header's units, layers and dimension style."""
    doc = ezdxf.new(sample.version, setup=True)
    insunits, measurement = HEADER_UNITS[sample.units]
    doc.header["$INSUNITS"] = insunits
    doc.header["$MEASUREMENT"] = measurement
    unit = PAPERS[sample.units].unit
    doc.header["$LTSCALE"] = unit * 4
    colours = {"BORDER": 8, "TITLE": 8, "NOTES": 8, "DIMENSIONS": 3, "HATCH": 8, sample.centre[0]: 1, sample.visible: 7}
    for name, colour in colours.items():
        if name != "0":
            doc.layers.add(name, color=colour)
    if sample.bore:
        doc.layers.add("HIDDEN", color=4, linetype="DASHED")
    dimension_style(doc, unit)
    return doc


def centre_line(msp: Modelspace, place: OnSheet, sample: Sample, overhang: float) -> None:
    """The turning axis, sticking out of both faces."""
    layer, linetype = sample.centre
    ends: tuple[Pair, Pair] = (place(overhang, 0.0), place(-sample.length - overhang, 0.0))
    msp.add_line(*ends, dxfattribs={"layer": layer, "linetype": linetype})


def draw(sample: Sample, number: int) -> Drawing:
    """The whole drawing of one part."""
    doc = new_sheet(sample)
    msp, paper = doc.modelspace(), PAPERS[sample.units]
    place = OnSheet(sample.origin, sample.upright)
    border(msp, paper)
    title_block(msp, paper, sample, number)
    notes(msp, paper, sample)
    STYLES[sample.style](msp, place, sample, profile(sample))
    centre_line(msp, place, sample, 5 * paper.unit)
    dimensions(Dimensioner(msp, sample, place, paper.unit), sample)
    return doc


def main(folder: Path) -> None:
    """Draw all samples into a folder."""
    # Times and random identifiers would make every run differ.
    ezdxf.options.write_fixed_meta_data_for_testing = True
    folder.mkdir(parents=True, exist_ok=True)
    for number, sample in enumerate(SAMPLES, 1):
        draw(sample, number).saveas(folder / f"{sample.stem}.dxf")
    numbers = [sample.numbers() for sample in SAMPLES]
    (folder / "samples.json").write_text(json.dumps(numbers, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    if os.environ.get("PYTHONHASHSEED") != "0":
        # The library writes its table of classes in the order of a set, which follows the hash seed.
        os.execve(sys.executable, [sys.executable, *sys.argv], os.environ | {"PYTHONHASHSEED": "0"})
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent)
