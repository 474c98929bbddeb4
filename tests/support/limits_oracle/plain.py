"""Writes a sheet as DXF text, tag by tag, with no DXF library: dimensions without a drawn block.

Group codes from the published DXF reference: DIMENSION 70 = 32 (linear, block its own) or 36 (radius), 10 the line,
13 and 14 what it measures, 15 a point on the arc, 50 its angle, 1 the override; variables stand in extended data
(DSTYLE) or in a style of their own.
"""

from pathlib import Path

from .laying import LINETYPES, Sheet
from .tracing import Arc
from .values import Mark, Point

CODES = {"dimtp": (47, 1040), "dimtm": (48, 1040), "dimtol": (71, 1070), "dimlim": (72, 1070)}
INSUNITS = {"mm": 4, "in": 1}
PATTERNS = {"CONTINUOUS": (), "DASHED": (3.0, -1.5), "CENTER": (12.0, -2.0, 2.0, -2.0)}


class Tags:
    """Group codes and values, one after the other; handles are counted."""

    def __init__(self) -> None:
        self.lines: list[str] = []
        self.handle = 0x100

    def add(self, *pairs: tuple[int, object]) -> None:
        for code, value in pairs:
            self.lines += [f"{code:3d}", f"{value:.9g}" if isinstance(value, float) else str(value)]

    def point(self, code: int, at: Point) -> None:
        self.add((code, float(at[0])), (code + 10, float(at[1])), (code + 20, 0.0))

    def entity(self, kind: str, layer: str, subclass: str) -> None:
        self.handle += 1
        self.add((0, kind), (5, f"{self.handle:X}"), (100, "AcDbEntity"), (8, layer), (100, subclass))


def write(sheet: Sheet, path: Path, styled: bool = False) -> None:
    """The sheet as DXF text of 2000; `styled`: variables stand in a dimension style for each mark."""
    tags = Tags()
    tags.add((0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1015"))
    tags.add((9, "$INSUNITS"), (70, INSUNITS[sheet.units]), (0, "ENDSEC"))
    _tables(tags, sheet, styled)
    tags.add((0, "SECTION"), (2, "ENTITIES"))
    for layer, stroke in sheet.drawn:
        _stroke(tags, layer, stroke)
    for at, text in sheet.notes:
        tags.entity("TEXT", "NOTES", "AcDbText")
        tags.point(10, at)
        tags.add((40, 3.0 if sheet.units == "mm" else 0.12), (1, text), (100, "AcDbText"))
    for number, mark in enumerate(sheet.marks):
        _mark(tags, mark, f"OWN{number}" if styled else "SIZES", styled)
    tags.add((0, "ENDSEC"), (0, "EOF"))
    path.write_text("\n".join(tags.lines) + "\n", encoding="cp1252")


def _tables(tags: Tags, sheet: Sheet, styled: bool) -> None:
    """Line types, layers and dimension styles."""
    tags.add((0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, len(PATTERNS)))
    for name, pattern in PATTERNS.items():
        tags.add((0, "LTYPE"), (100, "AcDbSymbolTableRecord"), (100, "AcDbLinetypeTableRecord"), (2, name), (70, 0))
        tags.add((3, ""), (72, 65), (73, len(pattern)), (40, float(sum(map(abs, pattern)))))
        for dash in pattern:
            tags.add((49, dash), (74, 0))
    tags.add((0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, len(LINETYPES) + 2))
    for name, linetype in {**LINETYPES, "DIMENSIONS": "CONTINUOUS", "NOTES": "CONTINUOUS"}.items():
        tags.add((0, "LAYER"), (100, "AcDbSymbolTableRecord"), (100, "AcDbLayerTableRecord"))
        tags.add((2, name), (70, 0), (62, 7), (6, linetype))
    tags.add((0, "ENDTAB"), (0, "TABLE"), (2, "DIMSTYLE"), (70, 1))
    styles = {f"OWN{n}": m for n, m in enumerate(sheet.marks)} if styled else {"SIZES": None}
    for name, mark in styles.items():
        tags.handle += 1
        tags.add((0, "DIMSTYLE"), (105, f"{tags.handle:X}"), (100, "AcDbSymbolTableRecord"))
        tags.add((100, "AcDbDimStyleTableRecord"), (2, name), (70, 0))
        for variable, value in (mark.variables if mark else {}).items():
            code, kind = CODES[variable]
            tags.add((code, float(value) if kind == 1040 else int(value)))
        if mark:
            tags.add((271, mark.decimals))
    tags.add((0, "ENDTAB"), (0, "ENDSEC"))


def _stroke(tags: Tags, layer: str, stroke: object) -> None:
    if isinstance(stroke, Arc):
        tags.entity("ARC", layer, "AcDbCircle")
        tags.point(10, stroke.centre)
        tags.add((40, float(stroke.radius)), (100, "AcDbArc"), (50, float(stroke.start)), (51, float(stroke.end)))
        return
    tags.entity("LINE", layer, "AcDbLine")
    tags.point(10, stroke.first)  # type: ignore[attr-defined]
    tags.point(11, stroke.second)  # type: ignore[attr-defined]


def _mark(tags: Tags, mark: Mark, style: str, styled: bool) -> None:
    """One dimension."""
    tags.entity("DIMENSION", "DIMENSIONS", "AcDbDimension")
    tags.point(10, mark.first if mark.radius else mark.line)
    tags.point(11, mark.line)
    tags.add((70, 36 if mark.radius else 32), (1, mark.text), (3, style))
    if mark.radius:
        tags.add((100, "AcDbRadialDimension"))
        tags.point(15, mark.second)
        tags.add((40, 0.0))
    else:
        tags.add((100, "AcDbAlignedDimension"))
        tags.point(13, mark.first)
        tags.point(14, mark.second)
        tags.add((50, float(mark.angle)), (100, "AcDbRotatedDimension"))
    if styled:
        return
    tags.add((1001, "ACAD"), (1000, "DSTYLE"), (1002, "{"), (1070, 271), (1070, mark.decimals))
    for variable, value in mark.variables.items():
        code, kind = CODES[variable]
        tags.add((1070, code), (kind, float(value) if kind == 1040 else int(value)))
    tags.add((1002, "}"))
