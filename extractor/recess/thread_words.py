"""Threads told by their designation: teeth of the printed pitch on the printed diameter are no grooves.

Teeth with flat lands and roots (ISO 2904 trapezoidal, DIN 513 buttress, ASME B1.5, from memory) look like rows of
grooves; a pitch and a diameter that are both the drawn ones, at whatever scale, say what they are. Where sizes say that
the view is drawn at true size, the diameter itself must be that of the recesses.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import BY, NUMBER, normalised
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


def said_thread(sheet: Sheet, row: Sequence[Measured]) -> Finding | None:
    """The stop for recesses that a printed designation makes a thread; `row` are those of the outside."""
    said = [(t.text, t.at) for t in sheet.everywhere] + [(d.text, d.points[0]) for d in sheet.dimensions if d.text]
    steps = [(one.z_near - two.z_near) / (2 * one.mouth) for one, two in pairwise(sorted(row, key=lambda m: -m.z_near))]
    mouths = [2 * one.mouth for one in sorted(row, key=lambda m: -m.z_near)]
    true = sum(_is_true(d) for d in sheet.dimensions) >= TRUE
    for text, at in said:
        for named in NAMED.finditer(normalised(text)):
            across = float(named[1])
            share = float(named[2]) / across if across else 0.0
            own = [not true or abs(mouth - across) <= ALIKE * across for mouth in mouths]
            count = 1 + sum(abs(step - share) <= ALIKE * share and fits for step, fits in zip(steps, own, strict=False))
            if share and count >= LEAST:
                words = (
                    f'"{named[0]}" names the diameter and the pitch of {count} recesses: they are the teeth of a '
                    "thread, which is not cut here; accept them only if they are to be cut as grooves."
                )
                return Finding(Level.STOP, DrawingCode.GROOVE_OR_THREAD, words, at)
    return None


def _is_true(dimension: Dimension) -> bool:
    """True for a size that is drawn as it is printed."""
    printed = parse(dimension.text)
    size = dimension.measured * dimension.factor if printed.measured else printed.size
    return bool(size and dimension.measured > 0 and abs(size / dimension.measured - 1) <= ALIKE)
