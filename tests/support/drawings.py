"""The sample drawings and their own numbers, and drawings of a few lines for tests of the tool's outer rooms."""

import json
from pathlib import Path
from typing import Any

import ezdxf

DRAWINGS = Path(__file__).parents[2] / "drawings"
NUMBERS: list[dict[str, Any]] = json.loads((DRAWINGS / "samples.json").read_text(encoding="utf-8"))
SAMPLES = [DRAWINGS / one["file"] for one in NUMBERS]
DIALECTS = ("two-block", "one-block", "plunge")


def draw_ring(
    path: Path,
    grooves: tuple[tuple[float, float, float], ...] = ((-10, -13, 34), (-20, -23, 34)),
    diameter: float = 40.0,
    length: float = 60.0,
    insunits: int = 4,
) -> Path:
    """A bar with grooves (z near, z far, floor diameter), drawn as a half profile above a centre line."""
    doc = ezdxf.new("R2000", setup=True)
    doc.header["$INSUNITS"] = insunits
    doc.header["$MEASUREMENT"] = 0 if insunits == 1 else 1
    radius = diameter / 2
    points = [(0.0, 0.0), (0.0, radius)]
    for near, far, floor in grooves:
        points += [(near, radius), (near, floor / 2), (far, floor / 2), (far, radius)]
    points += [(-length, radius), (-length, 0.0)]
    msp = doc.modelspace()
    msp.add_lwpolyline(points)
    msp.add_line((length / 12, 0), (-length - length / 12, 0), dxfattribs={"linetype": "CENTER"})
    doc.saveas(path)
    return path
