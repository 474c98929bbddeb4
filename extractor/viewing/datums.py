"""Marks of a datum: a triangle that stands on a line, and from its point a line to a frame that a letter fills.

ISO 5459 (from memory) gives the symbol, filled or open. The line that it stands on runs on to either side and closes
without it, and its image about the axis is not drawn; the walls of a ridge or of a vee groove end the land beside them.
"""

import re
from collections.abc import Sequence

import numpy as np
import shapely

from extractor.sheet import Floats, Text
from extractor.sizing.lettering.pointers import box_of, middle_of
from extractor.viewing.tips import Tips

LETTER = re.compile(r"[A-Z]{1,2}")

IN_FRAME = 0.4
"""A letter fills its frame from this share of the frame's side: frames are about twice as high as their letters."""

PIECES = 2
"""Straight pieces from the triangle to the frame at most: one, or one with a knee. With none it stands on the frame."""


def datum_marks(texts: Sequence[Text], tips: Tips, centres: Floats) -> frozenset[int]:
    """Labels of the strokes of all marks; `centres` float (m, 4) are the ends of centre lines."""
    letters = [t for t in texts if t.height > 0 and LETTER.fullmatch(t.text.strip())]
    centres = centres[(centres[:, :2] != centres[:, 2:]).any(axis=1)]
    found = {k for text in letters if len(centres) for k in _mark(tips, text, centres)}
    return frozenset(tips.strokes.label[sorted(found)].tolist())


def _mark(tips: Tips, text: Text, centres: Floats) -> set[int]:
    """The strokes of the mark whose letter a text is, none if it is that of none."""
    beside = tips.tree.query(box_of(text), predicate="dwithin", distance=text.height)
    around = shapely.polygonize(tips.tree.geometries[beside]).geoms
    frames = [f for f in around if f.contains(shapely.Point(middle_of(text)))]
    if not frames or text.height < IN_FRAME * np.sqrt(frames[0].area):
        return set()
    rim = frames[0].exterior.buffer(2 * tips.near)
    frame = set(beside[shapely.within(tips.tree.geometries[beside], rim)].tolist())
    for k in sorted(set(tips.tree.query(rim, predicate="intersects").tolist()) - frame):
        for tip in (2 * k, 2 * k + 1):
            here = {t for t in (tip, *tips.beside.get(tip, ())) if t // 2 not in frame}
            if rim.covers(shapely.Point(tips.place(tip))) and (mark := _led(tips, here, centres)):
                return frame | mark
    return set()


def _led(tips: Tips, here: set[int], centres: Floats) -> set[int]:
    """The strokes of the triangle that a line of few pieces leads to from tips at a frame, and its pieces."""
    pieces = set[int]()
    for _ in range(PIECES + 1):
        if mark := _triangle(tips, here, centres):
            return pieces | mark
        if len(here) != 1:
            break
        (tip,) = here
        pieces.add(tip // 2)
        here = set(tips.beside.get(tip ^ 1, ()))
    return set()


def _triangle(tips: Tips, legs: set[int], centres: Floats) -> set[int]:
    """The strokes of a triangle whose point all of these tips are, if a line runs through its base; else none.

    None either if its image about a centre line is drawn: it is a ridge then, or a groove.
    """
    if len(legs) < 2 or not all(map(tips.straight, legs)):
        return set()
    near, point = 2 * tips.near, tips.at[min(legs)]
    far = np.array([tips.at[tip ^ 1] for tip in sorted(legs)])
    feet = far[[0, int(np.hypot(*(far - far[0]).T).argmax())]]
    off = np.hypot(*(tips.at[:, None] - feet).transpose(2, 0, 1)).reshape(-1, 2, 2)
    line = set.intersection(*(set(tips.near_by((x, y), near).tolist()) for x, y in feet.tolist()))
    base = {k for k in line if (off[k].min(axis=0) <= near).all()}
    through = any(tips.straight(2 * k) and (off[k] > near).all() for k in line)
    size = float(np.hypot(*(feet[1] - feet[0])))
    known = np.min([np.hypot(*(far - at).T) for at in feet], axis=0).max() <= near
    if not (base and through and known) or _mirrored(tips, point, centres, size / 2):
        return set()
    return {tip // 2 for tip in legs} | base


def _mirrored(tips: Tips, point: Floats, centres: Floats, reach: float) -> bool:
    """True if a stroke ends within a distance of the image of a point about a centre line."""
    start, run = centres[:, :2], centres[:, 2:] - centres[:, :2]
    along = ((point - start) * run).sum(axis=1) / (run * run).sum(axis=1)
    images = 2 * (start + along[:, None] * run) - point
    return any(bool((np.hypot(*(tips.at - image).T) <= reach).any()) for image in images)
