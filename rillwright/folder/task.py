"""What a worker does: make the results of a drawing, or judge a program, as bytes that the watch then puts in place."""

import hashlib
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from extractor.errors import DrawingError, ProgramError, SettingsError
from extractor.finding import Finding, Level
from extractor.values import dataclass
from rillwright.check import compare_files, comparison_text, unjudged
from rillwright.codes import JobCode
from rillwright.console import why_refused
from rillwright.digest import file_digest
from rillwright.folder.groove_changes import groove_changes
from rillwright.folder.worker import Failure
from rillwright.job import draft, rendered
from rillwright.jobsheet.figures import caution_count
from rillwright.lying import Lying, with_edits
from rillwright.outcome import unreadable
from rillwright.outputs import Outputs
from rillwright.records.jsonform import dump
from rillwright.records.record import HeldProgram, Verification
from rillwright.records.record_part import RecordedGroove
from rillwright.records.recording import record_of, recorded_findings, verification
from rillwright.settings import Settings

OURS = frozenset({JobCode.INTERNAL_FAULT, JobCode.OUT_OF_MEMORY})
"""Codes of refusals that another try or another version may undo."""


@dataclass(frozen=True)
class Draft:
    """The results of one drawing, not yet on disk: files in the order in which they are to be written.

    `state` is made, refused or failed; `program_sha256` is None unless made. `cautions` counts those on the sheet,
    `questions` what a refused drawing asks. `edited`: what came of holding an edited program against it, if one stands.
    """

    state: str
    drawing_sha256: str
    files: tuple[tuple[Path, bytes], ...]
    reason: str = ""
    program_sha256: str | None = None
    grooves: tuple[RecordedGroove, ...] = ()
    changes: tuple[str, ...] = ()
    cautions: int = 0
    questions: int = 0
    edited: HeldProgram | None = None


@dataclass(frozen=True)
class DrawingTask:
    """Make one drawing. `lying` is what lies under its program's name.

    `before` are the grooves of its last program, if that was of another drawing; `changes` what was told of them then.
    """

    drawing: Path
    outputs: Outputs
    settings: Settings
    lying: Lying
    before: tuple[RecordedGroove, ...] | None = None
    changes: tuple[str, ...] = ()

    def __call__(self) -> Draft:
        """Work it out; what can't even be opened is failed, not refused."""
        try:
            self.drawing.open("rb").close()
        except OSError as error:
            return self.failed(Failure(JobCode.CANNOT_OPEN, f"The drawing can't be opened: {error.strerror or error}."))
        record, program = draft(self.drawing, self.outputs, self.settings, self.lying)
        grooves = record.part.grooves
        changes = groove_changes(self.before, grooves) if self.before is not None else self.changes
        told = recorded_findings(Finding(Level.NOTE, JobCode.DRAWING_CHANGED, change) for change in changes)
        record = replace(record, findings=(*record.findings, *told), changes=changes)
        codes = {one.code for one in record.findings if one.stops}
        state = "made" if program is not None else "failed" if codes & OURS else "refused"
        return Draft(
            state,
            record.part.drawing.sha256,
            tuple(rendered(self.outputs, record, program)),
            why_refused(record),
            None if program is None else hashlib.sha256(program.encode("ascii")).hexdigest(),
            grooves,
            changes,
            caution_count(record),
            sum(1 for one in record.findings if one.choices),
            record.edited,
        )

    def failed(self, failure: Failure) -> Draft:
        """What to put on disk for a drawing that its worker could not finish."""
        digest = file_digest(self.drawing)
        outcome = unreadable(self.drawing, digest, failure.code, failure.message)
        record = record_of(outcome, self.settings, "", datetime.now(UTC))
        record = with_edits(record, self.lying, self.drawing, self.settings)
        return Draft("failed", digest, tuple(rendered(self.outputs, record, None)), failure.message)


@dataclass(frozen=True)
class Judgement:
    """The verdict on a program that lay beside its drawing, as files; `agree` is None where it could not be judged."""

    agree: bool | None
    reason: str
    files: tuple[tuple[Path, bytes], ...] = ()


@dataclass(frozen=True)
class CheckTask:
    """Hold a program against the drawing beside it; `out` is the path of the verdict without its ending."""

    program: Path
    drawing: Path
    settings: Settings
    out: Path

    def __call__(self) -> Judgement:
        """Judge it."""
        try:
            made = compare_files(self.drawing, self.program, self.settings)
        except (DrawingError, ProgramError, SettingsError) as error:
            return self._judged(None, unjudged(str(error)), f"{error}\n")
        return self._judged(made.verdict.agree, verification(made.verdict), comparison_text(made))

    def _judged(self, agree: bool | None, answer: Verification, text: str) -> Judgement:
        files = (
            (self.out.with_name(self.out.name + ".verdict.json"), dump(answer).encode("ascii")),
            (self.out.with_name(self.out.name + ".verdict.txt"), text.encode("utf-8", "backslashreplace")),
        )
        return Judgement(agree, " ".join(answer.reasons), files)

    def failed(self, failure: Failure) -> Judgement:
        """What to enter for a program that could not be judged."""
        return Judgement(None, failure.message)
