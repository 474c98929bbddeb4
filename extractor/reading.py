"""Reading a drawing from end to end: sheet, view, outline, recesses, units, part, dimensions.

`read_drawing` is the entry to this room. Anything odd becomes a finding; only a file that is no drawing at all
raises.
"""

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from extractor.codes import DrawingCode
from extractor.dxf import load_sheet
from extractor.finding import Finding, Level, accept, place_words
from extractor.front import FrontEnd
from extractor.gathered import gathered
from extractor.geometry.crowds import TooDenseError
from extractor.part import Reading, ReadOptions
from extractor.placing.placing import Groundwork
from extractor.remembered import forget
from extractor.sheet import Sheet
from extractor.sizing.tables.title_cells import with_title_cells
from extractor.viewing.axis import centre_lines
from extractor.viewing.chain_lines import with_chain_lines
from extractor.viewing.clusters import prepare
from extractor.viewing.half_alone import Line, half_axis, with_axis
from extractor.viewing.roles import assign
from extractor.weighing import weigh
from extractor.whole import Given, Whole

AS_DRAWN = ReadOptions()
"""Nothing answered for beforehand."""

NOTHING_TURNED = (DrawingCode.NO_TURNED_PART, DrawingCode.NOT_TURNED, DrawingCode.NOT_ROUND)
"""What is said of a sheet with no view of a turned part; half of one may still be drawn there."""


def read_drawing(path: Path, options: ReadOptions = AS_DRAWN) -> Reading:
    """Read one drawing. Raises DrawingError where the file can't be read at all."""
    return read_sheet(load_sheet(path), options)


def read_sheet(sheet: Sheet, options: ReadOptions = AS_DRAWN) -> Reading:
    """Recognise the turned part on a sheet and its grooves."""
    sheet = with_title_cells(with_chain_lines(sheet))
    try:
        # Of recesses without edges some may be accepted as flats where the others are to be grooved.
        flats = {key for key in options.accept if options.grooved and key.startswith(DrawingCode.MILLED_FLATS)}
        taken, made = _weighed(sheet, replace(options, accept=frozenset(flats), answered=frozenset()))
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
    return Reading(sheet.file, sheet.sha256, answer.units, part, told, front, taken.ink, rows)


@lru_cache(maxsize=4)
def _weighed(sheet: Sheet, options: ReadOptions) -> tuple[Whole, tuple[Whole, ...]]:
    """The reading to answer with, and all that were made; of a sheet with no turned part, that of half of one.

    The last ones are kept: what a sheet shows does not hang on what its reader answers for.
    """
    taken, made = weigh(Given(_groundwork(sheet), options))
    told = {f.code for f in taken.placed.findings}
    # What only its symmetry makes a part, and one without a groove, may be half of one that has some.
    plain = DrawingCode.TURNED_BY_SYMMETRY in told and not _grooves(taken)
    lined = _lined(sheet) if plain or not told.isdisjoint(NOTHING_TURNED) else None
    if lined is None:
        return taken, made
    with_line, line = lined
    half, more = weigh(Given(_groundwork(with_line), options))
    if half.placed.found is None or (plain and not _grooves(half)):
        return taken, made
    return half.told(_not_drawn(half, line)), (*made, *more)


def _grooves(whole: Whole) -> int:
    """How many grooves a reading has."""
    part = whole.made[0]
    return len(part.grooves) if part is not None else 0


def _not_drawn(half: Whole, line: Line) -> Finding:
    """The stop for half a part whose axis nobody drew: the line that it could be, and what the part is about it."""
    where = f"from {place_words(line[0])} to {place_words(line[1])}{half.sizes}"
    words = (
        "Nothing on the sheet says that a part is turned, but the outline could be half of one about the line "
        f"{where}: draw a centre line there, or accept it; it could as well be flat, or a section clear of its axis."
    )
    return Finding(Level.STOP, DrawingCode.AXIS_NOT_DRAWN, words, line[0])


@lru_cache(maxsize=1)
def _lined(sheet: Sheet) -> tuple[Sheet, Line] | None:
    """A sheet with a centre line where its one figure could be turned about it, and that line; None where none is."""
    ink = prepare(_groundwork(sheet).roles, sheet.segments, set_aside=True)
    line = half_axis(ink, centre_lines(sheet.segments, ink.size))
    return None if line is None else (with_axis(sheet, line), line)


@lru_cache(maxsize=2)
def _groundwork(sheet: Sheet) -> Groundwork:
    """What a sheet is read from. The last ones are kept: the questions of a sheet read it once for each choice."""
    forget()
    roles = assign(sheet)
    return Groundwork(roles.told_on(sheet), roles)


__all__ = ["read_drawing", "read_sheet"]
