"""Dips no deeper than the pen's error: a line a hair off, or a wall a hair out of square, is no recess.

The error that tells two halves apart also tells a floor from its land: no groove is as shallow as a drawing slip.
"""

from collections.abc import Sequence
from typing import TypeVar

from extractor.finding import Point
from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess

R = TypeVar("R", Measured, FaceRecess)


def without_slips(row: Sequence[R], pen: float) -> tuple[R, ...]:
    """The recesses that are deeper than the pen's error; all lengths in drawing units."""
    return tuple(recess for recess in row if _depth(recess) > pen)


def slips(row: Sequence[Measured | FaceRecess], pen: float) -> list[tuple[Point, float]]:
    """The place (z, radius) and depth of those that are not."""
    return [(_place(recess), _depth(recess)) for recess in row if _depth(recess) <= pen]


def _depth(recess: Measured | FaceRecess) -> float:
    return abs(recess.z_face - recess.z_floor) if isinstance(recess, FaceRecess) else abs(recess.depth)


def _place(recess: Measured | FaceRecess) -> Point:
    if isinstance(recess, FaceRecess):
        return recess.z_face, (recess.outer + recess.inner) / 2
    return (recess.z_near + recess.z_far) / 2, recess.mouth
