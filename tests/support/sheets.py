"""Small drawings for tests of the sheet reader: draw with a library document, get back the `Sheet` that was read.

sheet = drawn(lambda msp: msp.add_line((0, 0), (10, 0)))
"""

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np

from extractor.dxf import load_sheet
from extractor.sheet import Sheet


def blank(version: str = "R2010", units: int | None = 4) -> Any:
    """An empty document with the usual linetypes."""
    doc = ezdxf.new(version, setup=True)
    doc.units = units or 0
    return doc


def loaded(data: bytes, name: str = "sheet.dxf") -> Sheet:
    """The sheet read from a file of these bytes."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data)
        return load_sheet(path)


def bytes_of(doc: Any, *, binary: bool = False) -> bytes:
    """The file that the library writes of a document."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "sheet.dxf"
        doc.saveas(path, fmt="bin" if binary else "asc")
        return path.read_bytes()


def read_back(doc: Any) -> Sheet:
    """The sheet read from a document by way of a file."""
    return loaded(bytes_of(doc))


def drawn(draw: Callable[[Any], object], version: str = "R2010") -> Sheet:
    """The sheet of a document with something drawn in model space."""
    doc = blank(version)
    draw(doc.modelspace())
    return read_back(doc)


def tags(*pairs: tuple[int, object]) -> bytes:
    """A DXF text of group codes and values."""
    return "".join(f"{code:>3}\n{value}\n" for code, value in pairs).encode("utf-8", "surrogateescape")


def entities(*pairs: tuple[int, object]) -> bytes:
    """A bare old-style DXF that holds only an entities section."""
    return tags((0, "SECTION"), (2, "ENTITIES"), *pairs, (0, "ENDSEC"), (0, "EOF"))


def line_tags(x1: float, y1: float, x2: float, y2: float, layer: str = "0") -> tuple[tuple[int, object], ...]:
    """The tags of a LINE."""
    return ((0, "LINE"), (8, layer), (10, x1), (20, y1), (30, 0.0), (11, x2), (21, y2), (31, 0.0))


def codes(sheet: Sheet) -> set[str]:
    """The codes of a sheet's findings."""
    return {f.code for f in sheet.findings}


def points(sheet: Sheet, per_arc: int = 9, only: np.ndarray | None = None) -> np.ndarray:
    """Points along every segment, arcs included, from their bulge alone (DXF reference: tan of a quarter angle)."""
    found = []
    which = slice(None) if only is None else only
    for (x1, y1, x2, y2), bulge in zip(sheet.segments.ends[which], sheet.segments.bulge[which], strict=True):
        a, b = complex(x1, y1), complex(x2, y2)
        if bulge == 0:
            found += [a + (b - a) * t for t in np.linspace(0, 1, per_arc)]
            continue
        centre = (a + b) / 2 + 1j * (b - a) * (1 - bulge**2) / (4 * bulge)
        angles = np.linspace(0, 4 * np.arctan(bulge), per_arc)
        found += [centre + (a - centre) * np.exp(1j * t) for t in angles]
    return np.array([(z.real, z.imag) for z in found]).reshape(-1, 2)
