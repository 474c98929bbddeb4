"""Writes a sheet as DXF text with no DXF library: dimensions without a drawn block.

Group codes from the published DXF reference: DIMENSION 70 = 32 (linear, block its own) or 36 (radius), 10 the line,
13 and 14 what it measures, 15 a point on the arc, 50 its angle, 1 the override; variables stand in extended data
(DSTYLE) or in a style of their own.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from support.ink import Ink, Look, Text
from support.plain_dxf import Style, Tag, Writer

from .laying import LINETYPES, Sheet
from .values import Mark

CODES = {"dimtp": (47, 1040), "dimtm": (48, 1040), "dimtol": (71, 1070), "dimlim": (72, 1070)}
INSUNITS = {"mm": "4", "in": "1"}
PATTERNS = (("DASHED", (3.0, -1.5)), ("CENTER", (12.0, -2.0, 2.0, -2.0)))


def write(sheet: Sheet, path: Path, styled: bool = False) -> None:
    """The sheet as DXF text of 2000; `styled`: variables stand in a dimension style for each mark."""
    ink: list[Ink | Mark] = [replace(stroke, role=Look(layer)) for layer, stroke in sheet.drawn]
    height = 3.0 if sheet.units == "mm" else 0.12
    ink += [Text(at, text, height, role=Look("NOTES")) for at, text in sheet.notes]
    header = (("$INSUNITS", 70, INSUNITS[sheet.units]),)
    style = Style(False, number="{:.9g}".format, header=header, blanks=True, bare=False, patterns=PATTERNS)
    layers = {**LINETYPES, "DIMENSIONS": "CONTINUOUS", "NOTES": "CONTINUOUS"}
    writer = MarkWriter(style, layers, sizes=sheet.marks, styled=styled)
    path.write_text(writer.text([*ink, *sheet.marks]), encoding="cp1252")


def variables(mark: Mark) -> list[tuple[int, int, str]]:
    """Group code of each variable of a mark, the code of its kind in extended data, its value."""
    return [
        (*CODES[name], f"{float(value):.9g}" if CODES[name][1] == 1040 else str(int(value)))
        for name, value in mark.variables.items()
    ]


@dataclass(kw_only=True)
class MarkWriter(Writer):
    """Writes marks besides, and a style for each of them or one for all."""

    sizes: Sequence[Mark]
    styled: bool

    def tables(self, ink: list[Ink | Mark]) -> list[Tag]:
        *tags, end = super().tables([item for item in ink if not isinstance(item, Mark)])
        tags += [(0, "TABLE"), (2, "DIMSTYLE"), (70, "1")]
        own = [(f"OWN{n}", mark) for n, mark in enumerate(self.sizes)]
        for name, mark in own if self.styled else [("SIZES", None)]:
            self.handle += 1
            tags += [(0, "DIMSTYLE"), (105, f"{self.handle:X}"), (100, "AcDbSymbolTableRecord")]
            tags += [(100, "AcDbDimStyleTableRecord"), (2, name), (70, "0")]
            tags += [(code, value) for code, _, value in variables(mark)] + [(271, str(mark.decimals))] if mark else []
        return [*tags, (0, "ENDTAB"), end]

    def entity(self, item: Ink | Mark) -> list[Tag]:
        return self.mark(item) if isinstance(item, Mark) else super().entity(item)

    def mark(self, mark: Mark) -> list[Tag]:
        """One dimension."""
        style = f"OWN{self.sizes.index(mark)}" if self.styled else "SIZES"
        tags = self.start("DIMENSION", Look("DIMENSIONS"), "AcDbDimension")
        tags += self.at(mark.first if mark.radius else mark.line) + self.at(mark.line, 1)
        tags += [(70, "36" if mark.radius else "32"), (1, mark.text), (3, style)]
        if mark.radius:
            tags += [(100, "AcDbRadialDimension"), *self.at(mark.second, 5), (40, "0.0")]
        else:
            tags += [(100, "AcDbAlignedDimension"), *self.at(mark.first, 3), *self.at(mark.second, 4)]
            tags += [self.number(50, mark.angle), (100, "AcDbRotatedDimension")]
        if self.styled:
            return tags
        tags += [(1001, "ACAD"), (1000, "DSTYLE"), (1002, "{"), (1070, "271"), (1070, str(mark.decimals))]
        tags += [tag for code, kind, value in variables(mark) for tag in ((1070, str(code)), (kind, value))]
        return [*tags, (1002, "}")]
