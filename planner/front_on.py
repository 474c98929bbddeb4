"""Rows that are written out plunge by plunge and lie between each other: one run from the front to the chuck.

A pitch saves blocks only with a cycle. Where none is written, grooves of several pitches would send the tool back and
forth over the part for nothing.
"""

from collections.abc import Iterable
from dataclasses import replace

from planner.cuts.beside import start_height
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.strokes import written_out


def front_on(rows: Iterable[Placed], setting: Setting) -> list[Placed]:
    """The rows, with those joined that are cut alike and reach into each other."""
    kept: list[Placed] = []
    for row in sorted(rows, key=lambda one: -one.places[0]):
        for place, other in enumerate(kept):
            if _alike(other, row) and other.places[-1] < row.places[0]:
                both = _joined(other, row)
                heights = {start_height(one, setting) for one in (other, row, both)}
                if len(heights) == 1 and all(written_out(one, setting) for one in (other, row)):
                    kept[place] = both
                    break
        else:
            kept.append(row)
    return kept


def _alike(one: Placed, other: Placed) -> bool:
    """True if two rows are cut by the same plunges with one tool."""
    same = (one.tool, one.layout, one.floor, one.ground) == (other.tool, other.layout, other.floor, other.ground)
    return same and one.side.axial and one.contour is None and other.contour is None


def _joined(one: Placed, other: Placed) -> Placed:
    """Two rows as one, its grooves from the front."""
    both = sorted(zip((*one.places, *other.places), (*one.grooves, *other.grooves), strict=True), reverse=True)
    return replace(
        one,
        places=tuple(place for place, _ in both),
        grooves=tuple(number for _, number in both),
        error=max(one.error, other.error),
        notes=tuple(dict.fromkeys((*one.notes, *other.notes))),
        even=(*(one.even or (one,)), *(other.even or (other,))),
    )
