"""Where the results of a watched drawing go, and what happens to the programs that lie there already.

What becomes of edited programs is the rule of `rillwright.lying`. A program of ours that another replaces is set
aside as NAME.rN.nc.stale, N being its own revision. A drawing that is refused, failed or gone leaves none.
"""

import os
import re
from dataclasses import replace
from functools import partial
from itertools import chain, count
from pathlib import Path

from extractor.values import dataclass
from rillwright.atomic import STALE, make_folder, staged, sync_folder
from rillwright.digest import file_digest
from rillwright.folder.ledger import Cause, Ledger, Result, State, Underneath
from rillwright.folder.task import Draft
from rillwright.lying import Lying, lying, make_room
from rillwright.outputs import FORM, Outputs, form_of, output_stem, spelling

RESERVED = re.compile(r"index(\.\d+)?")
"""Stems of the pages over all results; no drawing's results have them."""


@dataclass(frozen=True)
class ResultPlace:
    """Where one run's results are to go. `last` is the drawing's last program, `revision` that of a new one.

    `before` is what lies under the program's name.
    """

    drawing: bytes
    outputs: Outputs
    cause: Cause
    last: Result | None
    revision: int
    before: Lying


def outputs_of(ledger: Ledger, drawing: bytes, out: Path, form: str = FORM) -> Outputs:
    """The files of a drawing, in the subfolder that mirrors the inbox; no other drawing's, whatever the names."""
    name = Path(os.fsdecode(drawing))
    whole = output_stem(f"{name.name}.x")
    stems = [stem for stem in (output_stem(name.name), whole, *_numbered(whole)) if not _reserved(name.parent, stem)]
    stem = Path(ledger.stem(drawing, [str(name.parent / stem) for stem in stems]))
    return Outputs(out / stem.parent, stem.name, form)


def last_outputs(ledger: Ledger, last: Result, out: Path) -> Outputs:
    """The files of a drawing's last result, its program by the name that it has."""
    return outputs_of(ledger, last.drawing, out, form_of(last.program_file) if last.program_file else FORM)


def _reserved(folder: Path, stem: str) -> bool:
    """True for the name of a page over all results."""
    return folder == Path() and RESERVED.fullmatch(spelling(stem)) is not None


def _numbered(stem: str) -> list[str]:
    return [output_stem(f"{stem}-{n}.x") for n in range(2, 100)]


def place(ledger: Ledger, drawing: bytes, outputs: Outputs, cause: Cause) -> ResultPlace:
    """Decide where a new program goes, and look at what lies there."""
    last, known = ledger.latest(drawing, "made"), ledger.latest(drawing)
    # What was set aside does not stand, whatever its bytes.
    current = known.program_sha256 if known and known.state in ("made", "orphaned") else None
    file = known.program_file if known else None
    before = lying(outputs, current, known=known is not None, wrote=partial(ledger.wrote, drawing), file=file)
    return ResultPlace(drawing, outputs, cause, last, last.revision + 1 if last else 1, before)


def put(ledger: Ledger, where: ResultPlace, draft: Draft, started: str, finished: str) -> Result:
    """Put a draft's files in place and enter the result; safe to be cut off anywhere and done again."""
    make_folder(where.outputs.folder)
    made, known = draft.program_sha256, ledger.latest(where.drawing)
    if made is None:
        make_room(where.before, None)
    with staged(draft.files) as put_all:
        if made is not None:
            ledger.will_write(where.drawing, made)
            make_room(where.before, made, partial(_as_revision, ledger, where))
        put_all()
    ledger.lies(where.drawing, _underneath(where.before, draft))
    if made and known and (known.state, known.cause, known.program_sha256) == ("made", where.cause, made):
        # Only what lies under the name was looked at once more.
        return known
    same = where.last is not None and made is not None and where.last.program_sha256 == made
    result = Result(
        where.drawing,
        where.cause,
        "made" if made else "failed" if draft.state == "failed" else "refused",
        where.revision - 1 if same or made is None else where.revision,
        None if made is None else where.outputs.program.name,
        made,
        draft.reason,
        1,
        started,
        finished,
        draft.grooves,
        draft.changes,
        draft.cautions,
        draft.questions,
    )
    return ledger.finish(result)


def _underneath(before: Lying, draft: Draft) -> Underneath:
    """What lies under the program's name once a draft is in place."""
    if draft.edited is None:
        return Underneath(draft.program_sha256 or "")
    return Underneath(before.sha256, "edited", draft.edited.agree, draft.edited.message)


def clear(ledger: Ledger, last: Result, out: Path, state: State, reason: str, now: str) -> Result:
    """Set aside what was made of a drawing that is gone, or keep it as orphaned; the entry of it.

    `reason` is one sentence without its end. An edited program makes room in any case.
    """
    outputs = last_outputs(ledger, last, out)
    where = place(ledger, last.drawing, outputs, last.cause)
    before = where.before
    keep = state == "orphaned" and before.ours and before.sha256 == last.program_sha256
    make_room(before, before.sha256 if keep else None, partial(_as_revision, ledger, where))
    if not keep:
        for path in (outputs.sheet, outputs.record):
            if path.is_file():
                os.replace(path, path.with_name(path.name + STALE))
        state = "removed"
    ledger.lies(last.drawing, Underneath(before.sha256 if keep else ""))
    told = f"{reason}; {'its program is kept here as orphaned' if keep else 'its program was set aside'}."
    gone = replace(last, state=state, reason=told, attempts=1, started=now, finished=now, cautions=0, questions=0)
    if not keep:
        gone = replace(gone, program_file=None, program_sha256=None)
    entered = ledger.finish(gone)
    if not keep:
        ledger.release(last.drawing)
    return entered


def _as_revision(ledger: Ledger, where: ResultPlace, path: Path) -> None:
    """Give an older program the first name of its revision that is free, or drop it where its bytes are kept."""
    digest, last = file_digest(path), where.last.revision if where.last else 0
    known = ledger.revision_of(where.drawing, digest)
    stem = f"{path.stem}.r{last if known is None else known}"
    names = (path.with_name(f"{stem}{tail}{path.suffix}{STALE}") for tail in chain([""], (f"-{n}" for n in count(2))))
    os.rename(path, next(one for one in names if not os.path.lexists(one) or file_digest(one) == digest))
    sync_folder(path.parent)
