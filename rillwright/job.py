"""The job: one drawing -> program, job sheet and record on disk, or a refusal that says why.

The order of writing is the rule that keeps a shop safe: an older program that no longer holds goes first, then sheet
and record are put in place, and the new program comes last. At no moment does a program lie beside a sheet that
speaks of another, unless the run is cut off, and then there is none.
"""

import os
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from extractor.dxf import load_sheet
from extractor.errors import RillwrightError, SettingsError
from extractor.printable import printable
from extractor.sheet import Sheet
from rillwright.allowance import TooMuchError, within
from rillwright.answers import answered, beside
from rillwright.atomic import make_folder, staged, sweep, write_atomic
from rillwright.codes import JobCode
from rillwright.digest import file_digest, program_text
from rillwright.jobsheet.index import is_free, render_index
from rillwright.jobsheet.sheet import render_sheet
from rillwright.lying import Lying, clear_spellings, lying_by_record, make_room, other_drawing, with_edits
from rillwright.outcome import Outcome, unreadable, work_out
from rillwright.outputs import Outputs, outputs_for
from rillwright.questions import Question, questions, with_choices
from rillwright.records.jsonform import dump
from rillwright.records.record import Record
from rillwright.records.recording import record_of
from rillwright.settings import Settings


def make_drawing(drawing: Path, out: Path | None, settings: Settings, now: datetime | None = None) -> Record:
    """Make one drawing into `out` (None: beside it) and answer its record.

    If another drawing of that name was made there, it is refused and nothing is written. SettingsError if the
    settings are at fault, OSError if a file can't be written; nothing is left half written.
    """
    outputs, told = outputs_for(drawing, out, settings.form), beside(drawing, settings)
    other = other_drawing(drawing, outputs)
    if other:
        refused = unreadable(drawing, file_digest(drawing), JobCode.OTHER_DRAWING, other)
        return record_of(refused, told, "", now or datetime.now(UTC))
    before = lying_by_record(outputs)
    record, program = draft(drawing, outputs, told, before, now)
    write_outputs(outputs, record, program, before)
    return record


def refuse_drawing(drawing: Path, out: Path | None, settings: Settings, code: JobCode, message: str) -> Record:
    """Refuse a drawing that gave nothing at all, and answer its record; OSError where a file can't be written."""
    outputs, told = outputs_for(drawing, out, settings.form), beside(drawing, settings)
    outcome = unreadable(drawing, file_digest(drawing), code, message)
    record = record_of(outcome, told, outputs.program.name, datetime.now(UTC), None)
    if not other_drawing(drawing, outputs):
        before = lying_by_record(outputs)
        record = with_edits(replace(record, source=_from(outputs.folder, drawing)), before, drawing, settings)
        write_outputs(outputs, record, None, before)
    return record


def is_right(record: Record) -> bool:
    """True if the drawing was made, and what lies under the program's name makes it."""
    return record.made and (record.edited is None or record.edited.agree is True)


def draft(
    drawing: Path, outputs: Outputs, settings: Settings, before: Lying, now: datetime | None = None
) -> tuple[Record, str | None]:
    """Record and program text for one drawing, with nothing written yet; `before` is what lies under the name."""
    outcome, sheet, asked = _worked(drawing, settings)
    named = (settings, outputs.program.name, now or datetime.now(UTC))
    try:
        with within(settings.allowance):
            record = record_of(outcome, *named, sheet)
    except TooMuchError as error:
        outcome, asked = _too_much(drawing, error), ()
        record = record_of(outcome, *named)
    findings = with_choices(record.findings, asked)
    record = replace(record, source=_from(outputs.folder, drawing), findings=findings)
    record = with_edits(record, before, drawing, settings)
    return record, None if outcome.program is None else outcome.program.text


def _from(folder: Path, drawing: Path) -> str:
    """The way from the results to the drawing, so that the two may be moved together."""
    try:
        return Path(os.path.relpath(os.path.realpath(drawing), os.path.realpath(folder))).as_posix()
    except ValueError:
        # Another drive, where there are drives.
        return os.path.realpath(drawing)


def _worked(drawing: Path, settings: Settings) -> tuple[Outcome, Sheet | None, tuple[Question, ...]]:
    """What comes of a drawing, all within one allowance; of a refused one its lines and the questions it leaves open.

    Where the allowance runs out over the questions, the reasons stand without them.
    """
    outcome: Outcome | None = None
    sheet: Sheet | None = None
    asked: tuple[Question, ...] = ()
    try:
        with within(settings.allowance):
            outcome = _safely(drawing, settings)
            if outcome.program is None and not outcome.in_vain:
                sheet = outcome.sheet or _drawn(drawing)
                asked = _asked(sheet, outcome, settings) if sheet is not None else ()
    except TooMuchError as error:
        outcome = outcome or _too_much(drawing, error)
    return outcome, sheet, asked


def _too_much(drawing: Path, error: TooMuchError) -> Outcome:
    """The refusal of a drawing that needs more than it may have."""
    code = JobCode.OUT_OF_MEMORY if error.memory else JobCode.WORKER_TIMEOUT
    return unreadable(drawing, file_digest(drawing), code, str(error))


def _safely(drawing: Path, settings: Settings) -> Outcome:
    """Work it out; a fault of our own refuses this one drawing and lets the others be made."""
    digest = file_digest(drawing)
    try:
        return work_out(drawing, digest, settings)
    except (SettingsError, OSError):
        raise
    except MemoryError:
        return unreadable(drawing, digest, JobCode.OUT_OF_MEMORY, "The drawing needs more memory than it may have.")
    except RillwrightError as error:
        return unreadable(drawing, digest, JobCode.INTERNAL_FAULT, str(error))
    except RecursionError:
        return unreadable(drawing, digest, JobCode.INTERNAL_FAULT, _ours("it nests too deep"))
    except Exception as error:
        return unreadable(drawing, digest, JobCode.INTERNAL_FAULT, _ours(f"{type(error).__name__} {error}"))


def _asked(sheet: Sheet, outcome: Outcome, settings: Settings) -> tuple[Question, ...]:
    """The questions that a refused drawing leaves open; to find them is no reason to fail."""
    options = answered(settings, outcome.reading.sha256).settings.options
    try:
        return questions(sheet, outcome.findings, options, part=outcome.reading.part is not None)
    except Exception:
        return ()


def _ours(what: str) -> str:
    clean = printable(what)[:200]
    return f"This is our fault: the drawing could not be worked out ({clean}); please report it with the drawing."


def _drawn(drawing: Path) -> Sheet | None:
    """The lines of a refused drawing for its sheet; a picture is no reason to fail."""
    try:
        return load_sheet(drawing)
    except Exception:
        return None


def write_outputs(outputs: Outputs, record: Record, program: str | None, before: Lying) -> None:
    """Put the files in place, the program last; an older one goes only once the new files are safely on the disk."""
    make_folder(outputs.folder)
    clear_spellings(outputs)
    made = record.program.sha256 if record.program else None
    if made is None:
        make_room(before, None)
    with staged(rendered(outputs, record, program)) as put:
        if made is not None:
            make_room(before, made)
        put()


def rendered(outputs: Outputs, record: Record, program: str | None) -> list[tuple[Path, bytes]]:
    """Every file of one drawing with its bytes, in the order in which they are to be written.

    An edited program that stands is shown on the sheet and not overwritten.
    """
    held = record.edited is not None
    sheet = render_sheet(record, program_text(outputs.program) if held else program)
    files = [
        (outputs.sheet, sheet.encode("utf-8", "backslashreplace")),
        (outputs.record, dump(record).encode("ascii")),
    ]
    return files if program is None or held else [*files, (outputs.program, program.encode("ascii"))]


def sweep_up(made: Iterable[Outputs]) -> None:
    """Remove what killed runs left half written in the folders of these results, as far as that is permitted."""
    for record in {one.folder: one.record for one in made}.values():
        with suppress(OSError):
            sweep(record.parent, record)


def write_index(folder: Path, records: Sequence[tuple[str, Record]]) -> bool:
    """Put a page in the folder that shows every part of a batch; (name without ending, record) of each.

    False if the name is taken: one of the drawings is itself called index, or somebody's own page is there.
    """
    path = folder / "index.html"
    if any(stem.casefold() == "index" for stem, _ in records) or not is_free(path):
        return False
    write_atomic(path, render_index(records).encode("utf-8", "backslashreplace"))
    return True
