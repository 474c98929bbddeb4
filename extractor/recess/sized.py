"""Wide recesses that the sheet sizes as it sizes grooves: their width from wall to wall, and their floor's diameter.

A journal is placed by lengths from the ends, and its diameter is printed as well; who prints the width between two
walls and the floor between them asks for a groove (common practice, no source), and so does who leads the call-out of a
standard groove to it. A recess that holds others is left: its width and floor are those of the low land that they stand
in.
"""

from collections.abc import Callable

import numpy as np

from extractor.recess.shapes import Measured
from extractor.sheet import DimensionKind, Floats, Sheet
from extractor.sizing.lettering.pointers import said
from extractor.sizing.notes.callouts import called_out
from extractor.viewing.outline import Folded

PICKED = 5e-4
"""Share of the view's size by which a size's end may lie off the wall or floor that it is picked at."""

Wanted = Callable[[Measured], bool]
"""Which low lands are wanted as grooves."""


def none_wanted(_: Measured) -> bool:
    """Takes no low land for a groove."""
    return False


def all_wanted(_: Measured) -> bool:
    """Takes every low land for a groove."""
    return True


def sized_as_grooves(sheet: Sheet, folded: Folded) -> Wanted:
    """The low lands whose width and floor are both measured, as drawn, or that a groove of a standard is led to."""
    near = max(folded.close, PICKED * folded.view.size)
    kinds = (DimensionKind.LINEAR, DimensionKind.ALIGNED)
    pairs = [
        folded.axis.fold(np.array(d.points[:2])) for d in sheet.dimensions if d.kind in kinds and len(d.points) > 1
    ]
    called = said(sheet, lambda words: called_out(words) is not None)
    tips = folded.axis.fold(np.array([note.tip for note in called if note.tip is not None]).reshape(-1, 2)).tolist()
    return lambda m: (
        not m.inner
        and (
            (any(_width(p, m, near) for p in pairs) and any(_floor(p, m, near) for p in pairs))
            or any(_holds(m, z, abs(r), near) for z, r in tips)
        )
    )


def _holds(m: Measured, z: float, r: float, near: float) -> bool:
    """True for a place in a recess, on its floor or between its walls."""
    low, high = sorted((m.floor, m.mouth))
    return m.z_far - near <= z <= m.z_near + near and low - near <= r <= high + near


def _width(pair: Floats, m: Measured, near: float) -> bool:
    """True for a size from one wall of a recess to the other, ends float (2, 2) as (z, height)."""
    z, heights = np.sort(pair[:, 0]), np.abs(pair[:, 1])
    at_walls = abs(float(z[0]) - m.z_far) <= near and abs(float(z[1]) - m.z_near) <= near
    return at_walls and bool((heights >= min(m.floor, m.mouth) - near).all())


def _floor(pair: Floats, m: Measured, near: float) -> bool:
    """True for a size across the axis from one side of a recess's floor to the other."""
    (z0, one), (z1, other) = pair.tolist()
    across = abs(one + other) <= near and abs(abs(one) - m.floor) <= near
    return across and all(m.z_far - near <= z <= m.z_near + near for z in (z0, z1))
