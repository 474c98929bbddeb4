"""Whether a text is a program at all: a drawing, a letter or a list given by mistake is refused in one sentence.

A program with a few odd words is still a program, its oddities named one by one; here only the whole text counts.
"""

import re
from collections.abc import Iterable

from extractor.errors import ProgramError
from postproc.reading.tokens import PLAIN, TOKEN

DRAWING = re.compile(r"\s*(?:999[ \t]*\n[^\n]*\n\s*)*0[ \t]*\n[ \t]*SECTION[ \t]*\n")
"""How a DXF begins: the group code 0 with SECTION, behind remarks of the group code 999."""
MOST_STRANGE = 0.65
"""Greatest share of the characters that may belong to no word; letters, lists and drawings have 0.85 to 1 of such."""
_NEUTRAL = frozenset({"space", "comment", "tape", "broken", "macro", "skip"})


def check_no_drawing(text: str) -> None:
    """Raise ProgramError where a text, its lines ended by line feeds, is a drawing."""
    if DRAWING.match(text):
        raise ProgramError("This is a DXF drawing, not a lathe program; give the file of the program.")


def check_legible(lines: Iterable[str]) -> None:
    """Raise ProgramError if the lines that a control reads are mostly not words."""
    if strangeness(lines) > MOST_STRANGE:
        raise ProgramError("Most of this text is not words of a lathe program; give the file of the program.")


def strangeness(lines: Iterable[str]) -> float:
    """Share of the characters outside comments that belong to no word, 0 to 1; 0 where there are none.

    >>> strangeness(["G01 X34. F0.08"]), round(strangeness(["Dear setter, run 5 of these."]), 1)
    (0.0, 0.9)
    """
    known = strange = 0
    for line in lines:
        if PLAIN.fullmatch(line):
            known += len(line)
            continue
        for m in TOKEN.finditer(line):
            if m.lastgroup in _NEUTRAL:
                continue
            if m.lastgroup == "unknown":
                strange += len(m.group())
            else:
                known += len(m.group())
    return strange / (known + strange) if strange else 0.0
