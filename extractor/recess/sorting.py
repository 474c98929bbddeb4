"""How the recesses of one side are treated: as grooves, as low lands that are turned, or as left to another tool.

Rules: a recess that holds others is one groove with them, of no plain shape, unless it is a journal: then those in its
floor stand for themselves. A recess that is not open straight along the tool's way is no groove, nor is one that holds
such a recess: an insert that comes straight down can't reach under an overhang.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from extractor.recess.shapes import Measured
from extractor.values import dataclass

HELD = 1e-6
"""Share of its width by which a recess may reach beyond one that holds it: dust of two halves' means."""


@dataclass(frozen=True)
class Sorted:
    """The recesses of one side: `grooves` to be cut, `turned` low lands, `overhangs` left to another tool."""

    grooves: tuple[Measured, ...] = ()
    turned: tuple[Measured, ...] = ()
    overhangs: tuple[Measured, ...] = ()


def sort_recesses(row: Sequence[Measured], journal: Callable[[Measured], bool] = lambda _: False) -> Sorted:
    """Sort the recesses of one side; `journal` says which low lands are turned."""
    sides = [(m, m.overhang or not journal(m)) for m in row]
    holders = [m for m, stays in sides if stays and m.inner > 0]
    sides = [(m, stays or any(_holds(other, m) for other in holders)) for m, stays in sides]
    kept = [m for m, stays in sides if stays]
    outermost = [m for m in kept if not any(_holds(other, m) for other in holders)]
    whole = [_whole(m, [other for other in kept if _holds(m, other)] if m.inner else []) for m in outermost]
    return Sorted(
        grooves=tuple(m for m in whole if not m.overhang),
        turned=tuple(m for m, stays in sides if not stays),
        overhangs=tuple(m for m in whole if m.overhang),
    )


def _holds(outer: Measured, inner: Measured) -> bool:
    """True if one recess lies in the floor of another."""
    dust = HELD * outer.width
    within = inner.z_near <= outer.z_near + dust and inner.z_far >= outer.z_far - dust
    return outer is not inner and outer.inner > 0 and within and abs(inner.mouth - outer.mouth) > dust


def _whole(outer: Measured, inner: Sequence[Measured]) -> Measured:
    """A recess together with those in its floor: as deep as the deepest, as sharp as the sharpest."""
    if not inner:
        return outer
    deepest = max((outer, *inner), key=lambda m: abs(m.floor - outer.mouth))
    sharpest = min(min(m.corners) for m in (outer, *inner))
    return replace(
        outer,
        shape="other",
        floor=deepest.floor,
        foot=deepest.foot,
        corners=(sharpest, sharpest),
        overhang=any(m.overhang for m in (outer, *inner)),
    )
