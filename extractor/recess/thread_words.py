"""Threads told by their designation: teeth of the printed pitch on the printed diameter are no grooves.

Teeth with flat lands and roots (ISO 2904 trapezoidal, DIN 513 buttress, ASME B1.5, from memory) look like rows of
grooves; a pitch and a diameter that are both the drawn ones, at whatever scale, say what they are. Where sizes say that
the view is drawn at true size, the diameter itself must be that of the recesses.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import BY, NUMBER, normalised
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.sheet import Dimension, Sheet
from extractor.sizing.lettering.printed import parse

NAMED = re.compile(rf"\b(?:M|TR|S|RD|ACME)\s*({NUMBER})\s*{BY}\s*({NUMBER})", re.I)
"""How a thread is named by its diameter and its pitch."""

ALIKE = 0.01
"""Share by which the drawn pitch over the diameter may differ from the printed one."""

TRUE = 2
"""So many sizes that are drawn as they are printed say that the view is at true size."""

LEAST = 3
"""So many recesses at that pitch are teeth: two grooves may stand so by chance."""


def said_teeth(sheet: Sheet, row: Sequence[Measured]) -> tuple[tuple[Measured, ...], Finding] | None:
    """The recesses of the outside, `row`, that a printed designation makes a thread, and what is said of them.

    A stop where no sizes bear out the diameter: the same share of pitch and diameter may be that of grooves.
    """
    said = [(t.text, t.at) for t in sheet.everywhere] + [(d.text, d.points[0]) for d in sheet.dimensions if d.text]
    row = sorted(row, key=lambda m: -m.z_near)
    true = sum(_is_true(d) for d in sheet.dimensions) >= TRUE
    for text, at in said:
        for named in NAMED.finditer(normalised(text)):
            teeth = _teeth(row, float(named[1]), float(named[2]), true=true)
            if len(teeth) >= LEAST:
                return teeth, _told(named[0], len(teeth), at, sure=true)
    return None


def without_teeth(sheet: Sheet, found: Found) -> tuple[Found, list[Finding]]:
    """The part without the recesses that a designation makes a thread, and what is said of them."""
    said = said_teeth(sheet, found.outside)
    if said is None:
        return found, []
    cut, spans = {id(m) for m in said[0]}, tuple((m.z_far, m.z_near) for m in said[0])
    rest = tuple(m for m in found.outside if id(m) not in cut)
    return replace(found, outside=rest, spared=(*found.spared, *spans)), [said[1]]


def _teeth(row: Sequence[Measured], across: float, pitch: float, *, true: bool) -> tuple[Measured, ...]:
    """Those of a row from the front that stand at a pitch of a diameter; `true`: that diameter itself is drawn."""
    share = pitch / across if across else 0.0
    found = set[int]()
    for k, (one, two) in enumerate(pairwise(row)):
        own = not true or abs(2 * one.mouth - across) <= ALIKE * across
        if own and abs((one.z_near - two.z_near) / (2 * one.mouth) - share) <= ALIKE * share:
            found |= {k, k + 1}
    return tuple(row[k] for k in sorted(found))


def _told(name: str, count: int, at: Point, *, sure: bool) -> Finding:
    said = f'"{name}" names the diameter and the pitch of {count} recesses: they'
    if sure:
        words = f"{said} are read as the teeth of a thread, not as grooves."
        return Finding(Level.CAUTION, DrawingCode.THREAD, words, at)
    words = (
        f"{said} may be the teeth of a thread; accept it to leave them out, or take the name away if it is not theirs."
    )
    return Finding(Level.STOP, DrawingCode.THREAD, words, at)


def _is_true(dimension: Dimension) -> bool:
    """True for a size that is drawn as it is printed."""
    printed = parse(dimension.text)
    size = dimension.measured * dimension.factor if printed.measured else printed.size
    return bool(size and dimension.measured > 0 and abs(size / dimension.measured - 1) <= ALIKE)
