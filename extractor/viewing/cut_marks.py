"""Marks of a cutting plane as short strokes beside the view, a letter at each and no head on them.

The plane is drawn at its ends alone (ISO 128-40, from memory): two strokes in line, the view with its centre line
between them, the same letter beside both. Each hangs in the air, but for an arm that may show the direction of sight,
or reaches the outline and ends on a land.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

import shapely

from extractor.sheet import Floats, Text
from extractor.sizing.lettering.pointers import box_of
from extractor.viewing.alike import SKEW
from extractor.viewing.tips import Tips

SHORT = 5.0
"""Letter heights of a stroke at most: the plane is not drawn through (common practice, no source)."""
BESIDE = 2.0
"""Letter heights from a letter to its stroke at most."""


def cut_marks(texts: Sequence[Text], tips: Tips, centres: Floats) -> frozenset[int]:
    """Labels of the strokes of all marks; `centres` float (m, 4) are the ends of centre lines."""
    axes, found = shapely.MultiLineString(list(centres.reshape(-1, 2, 2))), set[int]()
    letters = [t for t in texts if t.height > 0 and len(t.text.strip()) == 1 and t.text.strip().isupper()]
    marked = [(t.text.strip(), tip) for t in letters for tip in _beside(tips, t)]
    for (name, one), (other, two) in combinations(marked, 2):
        if name != other or not _in_line(tips, one, two):
            continue
        if shapely.LineString([tips.at[one], tips.at[two]]).crosses(axes):
            found |= {tip // 2 for end in (one, two) for tip in (end, *tips.beside.get(end ^ 1, ()))}
    return frozenset(tips.strokes.label[list(found)].tolist())


def _beside(tips: Tips, text: Text) -> Iterator[int]:
    """The tips that hang in the air of the short strokes beside a letter; at the other end an arm may stand."""
    for k in tips.tree.query(box_of(text), predicate="dwithin", distance=BESIDE * text.height).tolist():
        if tips.straight(2 * k) and tips.sizes[k] <= SHORT * text.height:
            yield from (t for t in (2 * k, 2 * k + 1) if _is_clear(tips, t, text) and _ends(tips, t ^ 1, text))


def _is_clear(tips: Tips, tip: int, text: Text) -> bool:
    """True for a tip that hangs in the air, or ends square on one line of the view, between the ends of that."""
    if tips.hangs(tip, height=text.height):
        return True
    met = [k for k in tips.near_by(tips.place(tip), 2 * tips.near).tolist() if k != tip // 2]
    return len(met) == 1 and tips.free(tip) and abs(tips.toward(met[0], tips.line(tip))) <= SKEW * tips.length(tip)


def _ends(tips: Tips, tip: int, text: Text) -> bool:
    """True if a stroke ends free, or with a short arm square to it that does."""
    arms = tips.beside.get(tip, [])
    square = [abs(tips.toward(arm // 2, tips.line(tip))) <= SKEW * tips.length(tip) for arm in arms]
    short = [tips.sizes[arm // 2] <= SHORT * text.height and tips.hangs(arm ^ 1, height=text.height) for arm in arms]
    beside = {arm // 2 for arm in arms}
    return len(arms) <= 1 and all(square) and all(short) and tips.hangs(tip, beside, text.height)


def _in_line(tips: Tips, one: int, two: int) -> bool:
    """True if two strokes lie in line and run away from one another behind their tips."""
    gap = tips.at[two] - tips.at[one]
    wide = math.hypot(*gap)
    off = [tips.line(tip) / tips.length(tip) for tip in (one, two)]
    level = all(abs(float(gap[0] * way[1] - gap[1] * way[0])) <= SKEW * wide for way in off)
    return level and float(off[0] @ gap) < 0 < float(off[1] @ gap)
