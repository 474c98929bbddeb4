"""Threads told by their designation: teeth of the printed pitch on the printed diameter are no grooves.

Teeth with flat lands and roots (ISO 2904 trapezoidal, DIN 513 buttress, ASME B1.5, from memory) look like rows of
grooves; a pitch and a diameter that are both the drawn ones, at whatever scale, say what they are.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.recess.shapes import Measured
from extractor.sheet import Sheet
from extractor.sizing.printed import NUMBER, normalised

NAMED = re.compile(rf"\b(?:M|TR|S|RD|ACME)\s*({NUMBER})\s*[X*×]\s*({NUMBER})", re.I)
"""How a thread is named by its diameter and its pitch."""

ALIKE = 0.01
"""Share by which the drawn pitch over the diameter may differ from the printed one."""

LEAST = 3
"""So many recesses at that pitch are teeth: two grooves may stand so by chance."""


def said_thread(sheet: Sheet, row: Sequence[Measured]) -> Finding | None:
    """The stop for recesses that a printed designation makes a thread; `row` are those of the outside."""
    said = [(t.text, t.at) for t in sheet.texts] + [(d.text, d.points[0]) for d in sheet.dimensions if d.text]
    steps = [(one.z_near - two.z_near) / (2 * one.mouth) for one, two in pairwise(sorted(row, key=lambda m: -m.z_near))]
    for text, at in said:
        for named in NAMED.finditer(normalised(text)):
            share = float(named[2]) / float(named[1]) if float(named[1]) else 0.0
            count = 1 + sum(abs(step - share) <= ALIKE * share for step in steps)
            if share and count >= LEAST:
                words = (
                    f'"{named[0]}" names the diameter and the pitch of {count} recesses: they are the teeth of a '
                    "thread, which is not cut here; accept them only if they are to be cut as grooves."
                )
                return Finding(Level.STOP, DrawingCode.GROOVE_OR_THREAD, words, at)
    return None
