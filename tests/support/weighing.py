"""Sheets without geometry for weighing units and scale, and the weighing itself."""

import numpy as np

from extractor.part import ReadOptions
from extractor.sheet import Dimension, DimensionKind, Segments, Sheet, Text
from extractor.sizing.scale.units import UnitsAnswer, weigh_units

NO_SEGMENTS = Segments(np.zeros((0, 4)), np.zeros(0), np.zeros(0, dtype=np.int64), ())


def sheet_of(insunits=None, measurement=None, notes=(), dims=()) -> Sheet:
    """A sheet with header codes, notes, and linear dimensions (measured, text, display factor)."""
    texts = tuple(Text(note, (0, 0), 2.5) for note in notes)
    made = tuple(
        Dimension(DimensionKind.LINEAR, ((0, 0), (measured, 0)), 0, measured, text, *rest)
        for measured, text, *rest in dims
    )
    return Sheet(
        "x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=made, insunits=insunits, measurement=measurement
    )


def weigh(sheet: Sheet, across: float = 40.0, **options) -> UnitsAnswer:
    """Units and scale of a sheet whose every dimension belongs to the view."""
    return weigh_units(sheet, across, ReadOptions(**options), sheet.dimensions)
