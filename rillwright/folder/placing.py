"""Where the results of a watched drawing go, and what happens to the programs that lie there already.

Rules
    - A program whose bytes the ledger never wrote was edited at the machine or came from elsewhere. It is never
      written over; the new one goes beside it as NAME.rN.nc, and the record and the sheet say so.
    - A program of ours that another replaces is set aside as NAME.rN.nc.stale, N being its own revision.
    - A drawing that is refused or failed leaves no program to be run by mistake: whatever is there, edited or not, is
      renamed to NAME.nc.stale.
"""

import os
from dataclasses import dataclass, replace
from pathlib import Path

from extractor.finding import Finding, Level
from rillwright.atomic import STALE, sync_folder, write_atomic
from rillwright.codes import JobCode
from rillwright.folder.ledger import Cause, Ledger, Result
from rillwright.folder.task import Draft
from rillwright.job import file_digest
from rillwright.outputs import ENDING, Outputs, output_stem, show


@dataclass(frozen=True)
class ResultPlace:
    """Where one run's results are to go. `last` is the drawing's last program, `revision` that of a new one."""

    drawing: bytes
    outputs: Outputs
    cause: Cause
    last: Result | None
    revision: int
    notes: tuple[Finding, ...] = ()


def outputs_of(ledger: Ledger, drawing: bytes, out: Path, ending: str = ENDING) -> Outputs:
    """The files of a drawing, in the subfolder that mirrors the inbox; no other drawing's, whatever the names."""
    name = Path(os.fsdecode(drawing))
    whole = output_stem(f"{name.name}.x")
    choices = [str(name.parent / stem) for stem in (output_stem(name.name), whole, *_numbered(whole))]
    stem = Path(ledger.stem(drawing, choices))
    return Outputs(out / stem.parent, stem.name, ending=ending)


def _numbered(stem: str) -> list[str]:
    return [output_stem(f"{stem}-{n}.x") for n in range(2, 100)]


def place(ledger: Ledger, drawing: bytes, outputs: Outputs, cause: Cause) -> ResultPlace:
    """Decide where a new program would go."""
    last = ledger.latest(drawing, "made")
    revision = last.revision + 1 if last else 1
    if not edited(ledger, drawing, outputs.program):
        return ResultPlace(drawing, outputs, cause, last, revision)
    beside = _free_beside(ledger, drawing, outputs, revision)
    message = (
        f"{outputs.program.name} was edited or came from elsewhere, and was left as it is; "
        f"this program is {beside.program.name}. Choose one of them before cutting."
    )
    note = Finding(Level.CAUTION, JobCode.PROGRAM_EDITED, "".join(c if c.isprintable() else " " for c in message))
    return ResultPlace(drawing, beside, cause, last, revision, (note,))


def _free_beside(ledger: Ledger, drawing: bytes, outputs: Outputs, revision: int) -> Outputs:
    for tail in ("", *(f"-{n}" for n in range(2, 1000))):
        beside = replace(outputs, program_stem=f"{outputs.stem}.r{revision}{tail}")
        if not edited(ledger, drawing, beside.program):
            return beside
    raise OSError(None, "there are a thousand edited programs beside it: clear the folder", str(outputs.program))


def edited(ledger: Ledger, drawing: bytes, program: Path) -> bool:
    """True if there is a program whose bytes we never wrote."""
    return os.path.lexists(program) and not (
        program.is_file() and not program.is_symlink() and ledger.wrote(drawing, file_digest(program))
    )


def put(ledger: Ledger, where: ResultPlace, draft: Draft, started: str, finished: str) -> Result:
    """Put a draft's files in place and enter the result; safe to be cut off anywhere and done again."""
    if not where.outputs.folder.is_dir():
        where.outputs.folder.mkdir(parents=True)
    made = draft.program_sha256
    if made is None:
        _set_all_aside(where)
    else:
        _make_room(ledger, where, made)
        ledger.will_write(where.drawing, made)
    for path, data in draft.files:
        write_atomic(path, data)
    same = where.last is not None and made is not None and where.last.program_sha256 == made
    revision = where.revision - 1 if same or made is None else where.revision
    result = Result(
        where.drawing,
        where.cause,
        "made" if made else "failed" if draft.state == "failed" else "refused",
        revision,
        None if made is None else where.outputs.program.name,
        made,
        draft.reason,
        1,
        started,
        finished,
        draft.grooves,
        draft.changes,
    )
    return ledger.finish(result)


def _in_place(where: ResultPlace) -> list[Path]:
    """Programs that may lie there: by the usual name, by this run's, by the last run's."""
    usual = replace(where.outputs, program_stem="").program
    last = [where.outputs.folder / where.last.program_file] if where.last and where.last.program_file else []
    return [path for path in dict.fromkeys([usual, where.outputs.program, *last]) if os.path.lexists(path)]


def _make_room(ledger: Ledger, where: ResultPlace, made: str) -> None:
    """Set aside our own older program; leave edited ones alone, and the same bytes where they are to be."""
    for program in _in_place(where):
        if edited(ledger, where.drawing, program):
            continue
        if program == where.outputs.program and file_digest(program) == made:
            continue
        revision = where.last.revision if where.last else 0
        _rename_free(program, where.outputs.stem, revision, program.suffix)


def _set_all_aside(where: ResultPlace) -> None:
    """Leave nothing to be run by mistake; what was set aside before keeps its bytes under another name."""
    revision = where.last.revision if where.last else 0
    for program in _in_place(where):
        stale = where.outputs.folder / f"{where.outputs.stem}{where.outputs.ending}{STALE}"
        if os.path.lexists(stale):
            _rename_free(stale, where.outputs.stem, revision, where.outputs.ending)
        os.rename(program, stale)
        sync_folder(stale.parent)


def _rename_free(path: Path, stem: str, revision: int, ending: str) -> None:
    """Give a file the first name of its revision that is free, or drop it where just its bytes are kept already."""
    for tail in ("", *(f"-{n}" for n in range(2, 1000))):
        target = path.with_name(f"{stem}.r{revision}{tail}{ending}{STALE}")
        if not os.path.lexists(target) or file_digest(target) == file_digest(path):
            os.rename(path, target)
            sync_folder(path.parent)
            return
    raise OSError(None, f"{show(path)} can't be set aside: clear the folder of old programs", str(path))
