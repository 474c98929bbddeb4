"""Two limits of one size as two bare texts, one on either side of a dimension line or over one another beside it."""

import math

import numpy as np

from extractor.finding import Point
from extractor.sheet import Text
from extractor.sizing.lettering.printed import parse
from extractor.viewing.in_line import places

NEARLY = 1.1
"""The greater of two limits over the lesser, at most; a size that was struck out for another differs by more mostly."""
AMISS = 0.5
"""Letter heights by which two limits may miss one another along their line."""
APART = 2.2
"""Letter heights from the middle of one limit to that of the other across their line, at most."""


def are_limits(one: Text, other: Text, ends: tuple[Point, Point], *, alone: bool) -> bool:
    """True for two bare sizes that are nearly the same and stand over one another.

    A line lies between them, or the other one is `alone`, of no line of its own.
    """
    sizes = [parse(text.text) for text in (one, other)]
    bare = [p.size for p in sizes if p.size and len(p.sizes) == 1 and not p.limited and not p.reference]
    if len(bare) < 2 or sizes[0].sign != sizes[1].sign or not min(bare) < max(bare) <= NEARLY * min(bare):
        return False
    if one.height != other.height or one.angle != other.angle:
        return False
    turn = math.radians(one.angle)
    up = np.array([-math.sin(turn), math.cos(turn)])
    along = np.subtract(ends[1], ends[0]) / math.dist(*ends)
    first, second = (np.array(places(t)[1]) + t.height / 2 * up - ends[0] for t in (one, other))
    amid = abs(float((first - second) @ along)) <= AMISS * one.height
    above, below = (float(at[1] * along[0] - at[0] * along[1]) for at in (first, second))
    return amid and (alone or above * below < 0) and abs(above - below) <= APART * one.height
