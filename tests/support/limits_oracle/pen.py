"""Writes a sheet with the DXF library: dimensions as entities, with a drawn block of lines and arrows or without."""

import math
from pathlib import Path

import ezdxf
from ezdxf.document import Drawing

from support.ink import Arc

from .laying import LINETYPES, Sheet
from .values import Mark

HEADER = {"mm": 4, "in": 1}


def write(sheet: Sheet, path: Path, blocks: bool = True) -> None:
    """The sheet as a DXF file of 2010."""
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"], doc.header["$MEASUREMENT"] = HEADER[sheet.units], int(sheet.units == "mm")
    for name, linetype in LINETYPES.items():
        doc.layers.add(name, linetype=linetype)
    space = doc.modelspace()
    for layer, stroke in sheet.drawn:
        style = {"layer": layer}
        if isinstance(stroke, Arc):
            space.add_arc(stroke.centre, stroke.radius, stroke.start, stroke.end, dxfattribs=style)
        else:
            space.add_line(stroke.a, stroke.b, dxfattribs=style)
    for loop in sheet.hatched:
        hatch = space.add_hatch(dxfattribs={"layer": "HATCH"})
        hatch.set_pattern_fill("ANSI31", scale=1.0 if sheet.units == "mm" else 0.04)
        hatch.paths.add_polyline_path([p[:2] for p in loop], is_closed=True)
    for at, text in sheet.notes:
        space.add_text(text, height=3.0 if sheet.units == "mm" else 0.12).set_placement(at)
    for mark in sheet.marks:
        _dimension(doc, mark, sheet.units, blocks)
    doc.saveas(path)


def _dimension(doc: Drawing, mark: Mark, units: str, blocks: bool) -> None:
    """One dimension, with the variables of its own."""
    unit, space = 1.0 if units == "mm" else 0.04, doc.modelspace()
    style = {"layer": "DIMENSIONS"}
    override = {
        "dimtxt": 2.5 * unit,
        "dimasz": 2.0 * unit,
        "dimexo": 0.6 * unit,
        "dimexe": 1.2 * unit,
        "dimgap": 0.6 * unit,
        "dimdec": mark.decimals,
        "dimtdec": mark.decimals,
        "dimlfac": 1.0,
        "dimscale": 1.0,
        "dimzin": 8 if units == "mm" else 4,
        "dimtol": 0,
        "dimlim": 0,
        **mark.variables,
    }
    if mark.radius:
        out = math.degrees(math.atan2(mark.second[1] - mark.first[1], mark.second[0] - mark.first[0]))
        made = space.add_radius_dim(
            center=mark.first,
            radius=mark.drawn,
            angle=out,
            text=mark.text or "<>",
            override=override,
            dxfattribs=style,
        )
    else:
        made = space.add_linear_dim(
            base=mark.line,
            p1=mark.first,
            p2=mark.second,
            angle=mark.angle,
            text=mark.text or "<>",
            override=override,
            dxfattribs=style,
        )
    made.commit()
    if blocks:
        made.render()
