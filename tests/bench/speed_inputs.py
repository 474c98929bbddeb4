"""Drawings and programs for the figures of speed, each made once into a folder; all of them of no part that exists."""

import random
from functools import partial
from itertools import pairwise
from pathlib import Path

import ezdxf
import hard_inputs
from support.office.families import FAMILIES
from support.plain import sheets

MARKED = {"layer": "BODY", "color": 7, "linetype": "Continuous", "lineweight": 35}
"""What most programs say of every line."""
WIDE, LAND, DEEP, RADIUS = 2.0, 3.0, 2.5, 20.0
"""Width of a groove, the land behind it, its depth, and the radius of the bar."""


def row_of_grooves(folder: Path, count: int) -> Path:
    """One bar with `count` grooves in full outline with every visible edge, a line each: 367 lines of DXF a groove."""
    path = folder / f"row-{count}.dxf"
    if path.exists():
        return path
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"] = 4
    doc.layers.add("BODY")
    space, floor = doc.modelspace(), RADIUS - DEEP
    line = [(0.0, 0.0), (0.0, RADIUS)]
    for k in range(count):
        near = -LAND - k * (WIDE + LAND)
        line += [(near, RADIUS), (near, floor), (near - WIDE, floor), (near - WIDE, RADIUS)]
        for z in (near, near - WIDE):
            space.add_line((z, floor), (z, 0), dxfattribs=MARKED)
            space.add_line((z, 0), (z, -floor), dxfattribs=MARKED)
    end = -LAND - count * (WIDE + LAND)
    line += [(end, RADIUS), (end, 0.0)]
    for side in (1, -1):
        for (z0, r0), (z1, r1) in pairwise(line):
            space.add_line((z0, side * r0), (z1, side * r1), dxfattribs=MARKED)
    space.add_line((5, 0), (end - 5, 0), dxfattribs={"linetype": "CENTER"})
    doc.saveas(path)
    return path


def bare_row(folder: Path, count: int) -> Path:
    """One bar with `count` grooves in outline alone: of 10,000 with every visible edge no reader takes all lines."""
    path = folder / f"bare-row-{count}.dxf"
    if not path.exists():
        hard_inputs.sheet(partial(hard_inputs.many_made, n=count), path, with_part=False)
    return path


def offices(folder: Path, count: int, first: int = 0) -> list[Path]:
    """`count` sheets as drawing offices make them, family after family: dimensions, texts, frames, several views."""
    paths, names = [], sorted(FAMILIES)
    for n in range(first, first + count):
        path = folder / f"office-{n:05}.dxf"
        if not path.exists():
            path.write_bytes(FAMILIES[names[n % len(names)]](n // len(names)).data)
        paths.append(path)
    return paths


def small(folder: Path) -> Path:
    """One small drawing of a nozzle."""
    return sheets.draw("nozzle", folder)


PLUNGES = ((24, 20.5, -10.5), (32, 27, -29), (32, 27, -28.5), (32, 27, -39), (32, 27, -37), (32, 27, -36.5))
"""Diameter of the land and of the floor, and z, of the plunges of an insert 2.5 wide in the nozzle's grooves."""


def blocks(folder: Path, count: int) -> Path:
    """A program of `count` blocks that cuts the nozzle's grooves by ever so many pecks, two or three words a block."""
    rng = random.Random(1)
    lines = ["%", "O0001", "G21 G18 G40 G99", "G50 S2000", "T0303", "G96 S120 M03", "G00 X36. Z2."]
    pecks = count // 2 // len(PLUNGES)
    for land, floor, z in PLUNGES:
        lines.append(f"G00 Z{z:.3f}")
        for k in range(1, pecks + 1):
            at = land + 0.5 - (land + 0.5 - floor) * k / pecks
            lines += [f"G01 X{at:.3f} F0.0{rng.randrange(4, 9)}", f"G00 X{at + rng.uniform(0.1, 0.4):.3f}"]
        lines.append("G00 X36.")
    path = folder / f"pecks-{count}.nc"
    path.write_text("\n".join([*lines, "G00 X100. Z100.", "M30", "%"]), "ascii")
    return path


def plunges(count: int) -> list[tuple[float, float, float]]:
    """`count` plunges as (far wall, near wall, radius of the floor), overlapping one another at random depths."""
    rng = random.Random(1)
    return [(-0.6 * k - 3.0, -0.6 * k, rng.randrange(15_000, 20_000) / 1000) for k in range(count)]
