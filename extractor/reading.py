"""Reading a drawing from end to end: sheet, view, outline, recesses, units, part, dimensions.

`read_drawing` is the entry to this room. Anything odd becomes a finding; only a file that is no drawing at all
raises.
"""

from functools import lru_cache
from pathlib import Path

from extractor.codes import DrawingCode
from extractor.dxf import load_sheet
from extractor.finding import Finding, Level, accept
from extractor.front import FrontEnd
from extractor.gathered import gathered
from extractor.geometry.crowds import TooDenseError
from extractor.part import Reading, ReadOptions
from extractor.placing import Groundwork
from extractor.sheet import Sheet
from extractor.viewing.roles import assign
from extractor.weighing import weigh
from extractor.whole import Given

AS_DRAWN = ReadOptions()
"""Nothing answered for beforehand."""


def read_drawing(path: Path, options: ReadOptions = AS_DRAWN) -> Reading:
    """Read one drawing. Raises DrawingError where the file can't be read at all."""
    return read_sheet(load_sheet(path), options)


def read_sheet(sheet: Sheet, options: ReadOptions = AS_DRAWN) -> Reading:
    """Recognise the turned part on a sheet and its grooves."""
    try:
        taken, made = weigh(Given(_groundwork(sheet), options))
    except TooDenseError:
        words = "Too many lines lie across each other to be the drawing of a part; send the part's view alone."
        stop = Finding(Level.STOP, DrawingCode.TOO_DENSE, words)
        return Reading(
            sheet.file, sheet.sha256, None, None, accept((*sheet.findings, stop), options.accept, part=False)
        )
    part, answer, findings = taken.made
    front = taken.placed.front if part is not None else None
    if front is not None and front.by == "option" and "front" in options.answered:
        front = FrontEnd(front.end, "answer")
    told = gathered(accept((*sheet.findings, *findings), options.accept, part=part is not None))
    rows = tuple(row for one in made for row in one.rows(taken=one.way == taken.way))
    ink = taken.placed.ink if part is not None else None
    return Reading(sheet.file, sheet.sha256, answer.units, part, told, front, ink, rows)


@lru_cache(maxsize=1)
def _groundwork(sheet: Sheet) -> Groundwork:
    """What a sheet is read from. The last one is kept: the questions of a sheet read it once for each choice."""
    roles = assign(sheet)
    return Groundwork(roles.told.put_together(sheet), roles)


__all__ = ["read_drawing", "read_sheet"]
