"""The job: one drawing -> program, job sheet and record on disk, or a refusal that says why.

The order of writing is the rule that keeps a shop safe: an older program that no longer holds goes first, then sheet
and record are put in place, and the new program comes last. At no moment does a program lie beside a sheet that
speaks of another, unless the run is cut off, and then there is none.
"""

import hashlib
import json
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from extractor.dxf import load_sheet
from extractor.errors import RillwrightError, SettingsError
from extractor.finding import Finding, Level
from extractor.sheet import Sheet
from rillwright.allowance import TooMuchError, within
from rillwright.answers import answered, beside
from rillwright.atomic import remove, set_aside, write_atomic
from rillwright.codes import JobCode
from rillwright.jsonform import dump, finding_json
from rillwright.outcome import Outcome, unreadable, work_out
from rillwright.outputs import Outputs, outputs_for
from rillwright.questions import Question, add_choices, questions
from rillwright.record import record_json
from rillwright.settings import Settings

Json = dict[str, Any]


def make_drawing(drawing: Path, out: Path | None, settings: Settings, now: datetime | None = None) -> Json:
    """Make one drawing into `out` (None: beside it) and answer its record.

    SettingsError where the settings are at fault, OSError where a file can't be written; nothing is half written.
    """
    outputs = outputs_for(drawing, out, settings.ending)
    record, program = draft(drawing, outputs, beside(drawing, settings), now)
    write_outputs(outputs, record, program)
    return record


def draft(drawing: Path, outputs: Outputs, settings: Settings, now: datetime | None = None) -> tuple[Json, str | None]:
    """Record and program text for one drawing, with nothing written yet."""
    outcome, sheet, asked = _worked(drawing, settings)
    record = record_json(outcome, settings, outputs.program.name, now or datetime.now(UTC), sheet)
    add_choices(record["findings"], asked)
    return record, None if outcome.program is None else outcome.program.text


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
            if outcome.program is None:
                sheet = _drawn(drawing)
                asked = _asked(sheet, outcome, settings) if sheet is not None else ()
    except TooMuchError as error:
        code = JobCode.OUT_OF_MEMORY if error.memory else JobCode.WORKER_TIMEOUT
        outcome = outcome or unreadable(drawing, file_digest(drawing), code, str(error))
    return outcome, sheet, asked


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
    clean = "".join(c if c.isprintable() else " " for c in what)[:200]
    return f"This is our fault: the drawing could not be worked out ({clean}); please report it with the drawing."


def file_digest(path: Path) -> str:
    """SHA-256 of a file's bytes, of nothing where it can't be read."""
    try:
        if not path.is_file():
            raise OSError
        with path.open("rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError:
        return hashlib.sha256(b"").hexdigest()


def _drawn(drawing: Path) -> Sheet | None:
    """The lines of a refused drawing for its sheet; a picture is no reason to fail."""
    try:
        return load_sheet(drawing)
    except Exception:
        return None


def write_outputs(outputs: Outputs, record: Json, program: str | None) -> None:
    """Put the files in place, the program last."""
    outputs.folder.mkdir(parents=True, exist_ok=True)
    _set_former_aside(outputs, record)
    if program is None:
        set_aside(outputs.program)
    elif not _is_ours(outputs):
        _keep_foreign(outputs.program, record)
    elif outputs.program.read_bytes() != program.encode("ascii"):
        remove(outputs.program)
    for path, data in rendered(outputs, record, program):
        write_atomic(path, data)


def rendered(outputs: Outputs, record: Json, program: str | None) -> list[tuple[Path, bytes]]:
    """Every file of one drawing with its bytes, in the order in which they are to be written."""
    from rillwright.jobsheet.sheet import render_sheet

    sheet = render_sheet(record, program)
    files = [(outputs.sheet, sheet.encode("utf-8", "backslashreplace")), (outputs.record, dump(record).encode("ascii"))]
    return files if program is None else [*files, (outputs.program, program.encode("ascii"))]


def write_index(folder: Path, records: Sequence[tuple[str, Json]]) -> bool:
    """Put a page in the folder that shows every part of a batch; (name without ending, record) of each.

    False where it can't have that name: one of the drawings is itself called index, or somebody's own page is there.
    """
    from rillwright.jobsheet.index import is_free, render_index

    path = folder / "index.html"
    if any(stem.casefold() == "index" for stem, _ in records) or not is_free(path):
        return False
    write_atomic(path, render_index(records).encode("utf-8", "backslashreplace"))
    return True


def _keep_foreign(program: Path, record: Json) -> None:
    """Set a program aside that we did not write, or that was edited since, and say so in the record."""
    aside = set_aside(program)
    if aside is not None:
        message = f"The {program.name} that was here had been edited or came from elsewhere; it is {aside.name}."
        finding = Finding(
            Level.CAUTION, JobCode.PROGRAM_SET_ASIDE, "".join(c if c.isprintable() else " " for c in message)
        )
        record["findings"].append(finding_json(finding))


def _set_former_aside(outputs: Outputs, record: Json) -> None:
    """Leave no older program of the drawing by another name, as where its dialect gives programs another ending."""
    program = _recorded(outputs)
    name = program.get("file")
    former = outputs.folder / name if isinstance(name, str) and Path(name).name == name else outputs.program
    if former == outputs.program or not former.is_file():
        return
    if program.get("sha256") == file_digest(former):
        set_aside(former)
    else:
        _keep_foreign(former, record)


def _recorded(outputs: Outputs) -> Json:
    """What the record beside it says of the program; empty where it says nothing."""
    try:
        program = json.loads(outputs.record.read_bytes())["program"]
    except (OSError, ValueError, KeyError, TypeError):
        return {}
    return program if isinstance(program, dict) else {}


def _is_ours(outputs: Outputs) -> bool:
    """True if there is a program and the record beside it says that we wrote just these bytes."""
    return bool(_recorded(outputs).get("sha256") == file_digest(outputs.program))
