"""Motions: the straight moves that a program asks of the tool, as the interpreter works them out."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Motion:
    """One straight move of the tool's reference point, in whole least increments.

    `x` values are diameters, `z` along the axis, of the point that the offset sets (the insert's reference edge).
    `feed` is per revolution in feed counts, None at rapid. `speed` is what the spindle was told, by `surface` as m/min
    or ft/min, else rev/min; `clamp` the highest rev/min or None. `line` is the program line, from 1.
    """

    kind: Literal["rapid", "feed"]
    x0: int
    z0: int
    x1: int
    z1: int
    line: int
    station: int
    offset: int
    feed: int | None = None
    speed: float = 0.0
    surface: bool = False
    clamp: int | None = None
