"""Leaders drawn as loose lines: a line that carries a text and ends in the air, or one that leads to a place."""

from collections.abc import Set

import numpy as np

from extractor.sheet import Text
from extractor.viewing.alike import SKEW
from extractor.viewing.tips import Tips

MOST_LETTERS = 40
"""A longer text is a note, not a leader's."""


ASLANT = 0.05, 0.9986
"""Sine of the angle between a leader's leg and the line under its text: three degrees off that line at least, and off
square to it, as corners of an outline are."""

HEAD = 0.2
"""What ends at the foot of a leader without a known head is its head only if shorter than this share of the leg."""


def leaders(texts: tuple[Text, ...], tips: Tips, headed: Set[int] = frozenset()) -> set[int]:
    """Labels of the strokes of all leaders; `headed` are those that end in an arrow head, which is set aside."""
    count = np.bincount(tips.pairs[0], minlength=len(tips.at))
    knees = np.flatnonzero((count == 1) & (count[np.arange(len(count)) ^ 1] == 0))
    start, d = tips.at[knees], tips.at[knees ^ 1] - tips.at[knees]
    size = np.hypot(*d.T)
    found: set[int] = set()
    for text in (t for t in texts if len(t.text) <= MOST_LETTERS and len(knees)):
        near = 2 * text.height
        for at in (text.at, text.end):
            spot = np.array(at) - start
            along = (spot * d).sum(axis=1) / size
            off = np.abs(spot[:, 0] * d[:, 1] - spot[:, 1] * d[:, 0]) / size
            for k in np.flatnonzero((off <= near) & (along > -near) & (along < size + near)).tolist():
                found |= (
                    _leader(tips, int(knees[k]), headed) if tips.hangs(int(knees[k]) ^ 1, height=text.height) else set()
                )
    return found


def with_heads(tips: Tips, known: Set[int]) -> set[int]:
    """Labels of the leaders among strokes that end in a head, `known`: their other end hangs free, or their shelf's.

    A shelf may run on over the next one.
    """
    ends = [t for k, label in enumerate(tips.strokes.label.tolist()) if label in known for t in (2 * k, 2 * k + 1)]
    beside = [(tip, tips.beside.get(tip, [])) for tip in ends]
    shelves = [(tip // 2, _in_line(tips, row[0])) for tip, row in beside if len(row) == 1 and tips.straight(row[0])]
    over = {piece // 2 for _, shelf in shelves for piece in shelf}
    ended = [(k, shelf) for k, shelf in shelves if tips.hangs(shelf[-1] ^ 1, over)]
    found = {n for k, shelf in ended for n in (k, *(piece // 2 for piece in shelf))}
    found |= {tip // 2 for tip, row in beside if not row and tips.hangs(tip)}
    return {int(tips.strokes.label[k]) for k in found}


def _leader(tips: Tips, tip: int, headed: Set[int]) -> set[int]:
    """The labels of a leader whose text stands on the stroke of a tip, its leg at that tip; none if it is none."""
    pieces = _in_line(tips, tip ^ 1) if tips.straight(tip) else []
    legs = tips.beside.get(pieces[-1] ^ 1, []) if pieces else []
    if len(legs) != 1 or not tips.straight(legs[0]):
        return set()
    leg, shelf, foot = tips.line(legs[0]), tips.line(tip), legs[0] ^ 1
    cross = abs(float(leg[0] * shelf[1] - leg[1] * shelf[0])) / float(np.hypot(*leg) * np.hypot(*shelf))
    if not ASLANT[0] < cross < ASLANT[1]:
        return set()
    # What meets the foot of a leader with a head is the place that it leads to.
    label, arrow = tips.strokes.label, tips.beside.get(foot, [])
    if int(label[foot // 2]) in headed:
        arrow = []
    if any(np.hypot(*tips.line(t)) > HEAD * np.hypot(*leg) for t in arrow):
        return set()
    mine = {t ^ 1 for t in arrow}
    apart = all(set(tips.beside.get(t, ())) <= mine for t in mine)
    return {int(label[t // 2]) for t in (*pieces, foot, *(arrow if apart else ()))}


def _in_line(tips: Tips, tip: int) -> list[int]:
    """The tips from which a straight stroke runs on from a tip, itself first: a shelf may be drawn in pieces."""
    found = [tip]
    while len(row := tips.beside.get(found[-1] ^ 1, [])) == 1 and tips.straight(row[0]) and row[0] not in found:
        before, after = tips.line(found[-1]), tips.line(row[0])
        turn = float(before[0] * after[1] - before[1] * after[0])
        if abs(turn) > SKEW * float(np.hypot(*before) * np.hypot(*after)) or before @ after < 0:
            break
        found.append(row[0])
    return found
