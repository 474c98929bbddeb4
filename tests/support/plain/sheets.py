"""Plain drawings: lines, dashed lines for what is hidden, a centre line and two dimensions, by ezdxf alone."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import ezdxf

Line = Sequence[tuple[float, float]]


class Drawn(NamedTuple):
    """`outside` and `bore` as (z, diameter) from the front; `faces` as (outer, inner diameter, depth)."""

    outside: Line
    bore: Line = ()
    faces: Sequence[tuple[float, float, float]] = ()
    units: str = "mm"


def steps(length: float, across: Line, grooves: Sequence[tuple[float, float, float]], chamfer: float = 0.0) -> Line:
    """A turned line: cylinders as (z where each begins, diameter), grooves as (near, far, floor)."""
    line: list[tuple[float, float]] = []
    ends = [z for z, _ in across[1:]] + [-length]
    for (start, wide), stop in zip(across, ends, strict=True):
        line.append((start, wide))
        for near, far, floor in grooves:
            if start >= near and far >= stop:
                line += [(near, wide), (near, floor), (far, floor)]
                line += [(far, wide)] if far > stop else []
        if line[-1][0] > stop:
            line.append((stop, wide))
    first = across[0][1]
    return [(0.0, first - 2 * chamfer), (-chamfer, first), *line[1:]] if chamfer else line


PARTS: Mapping[str, Drawn] = {
    "nozzle": Drawn(steps(45, [(0, 24), (-20, 32)], [(-8, -10.5, 20.5), (-26, -29, 27), (-34, -39, 27)], 1)),
    "sleeve": Drawn(steps(36, [(0, 40)], [(-10, -14, 34), (-22, -26, 34)]), steps(36, [(0, 18)], [(-6, -8.2, 20)])),
    "spindle": Drawn(
        steps(
            60,
            [(0, 20), (-22, 28)],
            [(-19, -22, 17.6), (-30, -33, 23), (-40, -43, 23), (-50, -53, 23)],
            1,
        )
    ),
    "ring": Drawn(steps(1.25, [(0, 1.5)], [(-0.25, -0.375, 1.25), (-0.625, -0.75, 1.25)]), units="in"),
    "flange": Drawn(steps(20, [(0, 60)], [(-8, -11, 54)]), faces=[(44, 36, 3.5)]),
}


def draw(name: str, folder: Path) -> Path:
    """Draw one of the parts into a folder."""
    return drawing(PARTS[name], folder / f"{name}.dxf")


def drawing(part: Drawn, path: Path) -> Path:
    """Draw a part into a file."""
    one = 1.0 if part.units == "mm" else 1 / 25.4
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"] = 4 if part.units == "mm" else 1
    doc.header["$MEASUREMENT"] = 1 if part.units == "mm" else 0
    for layer, linetype in (("BODY", "Continuous"), ("AXIS", "CENTER"), ("BEHIND", "DASHED"), ("SIZES", "Continuous")):
        doc.layers.add(layer, linetype=linetype)
    space, length = doc.modelspace(), -part.outside[-1][0]

    def line(start: tuple[float, float], end: tuple[float, float], layer: str = "BODY") -> None:
        space.add_line(start, end, dxfattribs={"layer": layer})

    for side in (0.5, -0.5):
        for layer, points in (("BODY", part.outside), ("BEHIND", part.bore)):
            for (z0, d0), (z1, d1) in pairwise(points):
                line((z0, side * d0), (z1, side * d1), layer)
        for outer, inner, depth in part.faces:
            for (z0, d0), (z1, d1) in pairwise([(0, outer), (-depth, outer), (-depth, inner), (0, inner)]):
                line((z0, side * d0), (z1, side * d1), "BEHIND")
            # The floor is a ring, seen from the side as a line right across.
            line((-depth, 0), (-depth, side * inner), "BEHIND")
    for z in {z for z, _ in part.outside}:
        low = min(d for at, d in part.outside if at == z) / 2
        line((z, low), (z, -low))
    line((4 * one, 0), (-length - 4 * one, 0), "AXIS")
    style = {"dimtxt": 2.5 * one, "dimasz": 2.5 * one, "dimdec": 3, "dimlfac": 1}
    high, first, last = max(d for _, d in part.outside) / 2, part.outside[0][1] / 2, part.outside[-1][1] / 2
    attribs = {"layer": "SIZES"}
    space.add_linear_dim(
        (0, -high - 12 * one), (0, -first), (-length, -last), override=style, dxfattribs=attribs
    ).render()
    space.add_linear_dim(
        (-length - 12 * one, 0),
        (-length, last),
        (-length, -last),
        text="%%c<>",
        angle=90,
        override=style,
        dxfattribs=attribs,
    ).render()
    doc.saveas(path)
    return path
