"""Wide recesses that the sheet sizes as it sizes grooves: their width from wall to wall, and their floor's diameter.

A journal is placed by lengths from the ends, and its diameter is printed as well; who prints the width between two
walls and the floor between them asks for a groove (common practice, no source), and so does who leads the call-out of a
standard groove to it. A recess that holds others is left: its width and floor are those of the low land that they stand
in.
"""

from collections.abc import Callable

import numpy as np

from extractor.recess.shapes import Measured
from extractor.sheet import DimensionKind, Flags, Floats, Sheet
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
    picked = [d.points[:2] for d in sheet.dimensions if d.kind in kinds and len(d.points) > 1]
    pairs = folded.axis.fold(np.array(picked).reshape(-1, 2)).reshape(-1, 2, 2)
    called = said(sheet, lambda words: called_out(words) is not None)
    tips = folded.axis.fold(np.array([note.tip for note in called if note.tip is not None]).reshape(-1, 2)).tolist()
    return lambda m: (
        not m.inner
        and (
            (len(pairs) > 0 and bool(_widths(pairs, m, near).any() and _floors(pairs, m, near).any()))
            or any(_holds(m, z, abs(r), near) for z, r in tips)
        )
    )


def _holds(m: Measured, z: float, r: float, near: float) -> bool:
    """True for a place in a recess, on its floor or between its walls."""
    low, high = sorted((m.floor, m.mouth))
    return m.z_far - near <= z <= m.z_near + near and low - near <= r <= high + near


def _widths(pairs: Floats, m: Measured, near: float) -> Flags:
    """Which sizes are from one wall of a recess to the other, bool (n,); ends float (n, 2, 2) as (z, height)."""
    z, heights = np.sort(pairs[..., 0], axis=1), np.abs(pairs[..., 1])
    at_walls = (np.abs(z[:, 0] - m.z_far) <= near) & (np.abs(z[:, 1] - m.z_near) <= near)
    found: Flags = at_walls & (heights >= min(m.floor, m.mouth) - near).all(axis=1)
    return found


def _floors(pairs: Floats, m: Measured, near: float) -> Flags:
    """Which sizes are across the axis from one side of a recess's floor to the other, bool (n,)."""
    z, (one, other) = pairs[..., 0], pairs[..., 1].T
    across = (np.abs(one + other) <= near) & (np.abs(np.abs(one) - m.floor) <= near)
    found: Flags = across & ((m.z_far - near <= z) & (z <= m.z_near + near)).all(axis=1)
    return found
