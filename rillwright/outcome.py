"""What came of one drawing, before anything is written: reading, plan, program, and its verdict against the drawing.

No program leaves this module unless reading it back cuts the drawing within tolerance with no unsafe move.
"""

from dataclasses import field, replace
from functools import partial
from pathlib import Path
from typing import Any

from extractor import read_sheet
from extractor.dxf import load_sheet
from extractor.errors import DrawingError, ProgramError, RillwrightError
from extractor.finding import Finding, Level, stopped
from extractor.part import Part, Reading
from extractor.sheet import Sheet
from extractor.values import dataclass
from planner import group_grooves, plan_part
from planner.increment import Increments
from planner.plan import GrooveSet, Plan
from postproc import compare_program, write_program
from postproc.codes import ProgramCode
from postproc.motion import Motion
from postproc.program import Heading, Program
from postproc.verdict import State, Verdict
from rillwright.answers import answered
from rillwright.codes import JobCode
from rillwright.settings import Settings


@dataclass(frozen=True)
class Outcome:
    """One drawing's way as far as it got. `program` is there only if nothing speaks against it.

    `findings` are all of them in order: the drawing's, the plan's, and ours about the program. `told`: what answers
    files said, option -> (value, name of the file). `sheet`: the lines that were read, where the file could be read.
    """

    reading: Reading
    sets: tuple[GrooveSet, ...] = ()
    plan: Plan | None = None
    program: Program | None = None
    verdict: Verdict | None = None
    motions: tuple[Motion, ...] = ()
    findings: tuple[Finding, ...] = ()
    told: dict[str, tuple[Any, str]] = field(default_factory=dict)
    sheet: Sheet | None = field(default=None, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Refuse a program beside a stop, and a refusal without a reason."""
        if stopped(self.findings) == (self.program is not None):
            raise ValueError("a program, or a stop that says why there is none")

    @property
    def reasons(self) -> tuple[Finding, ...]:
        """The stops, each once."""
        return tuple(dict.fromkeys(f for f in self.findings if f.stops))

    @property
    def in_vain(self) -> bool:
        """True if the file was read and gave no lines, so that nothing is to be had by reading it again."""
        return any(f.code is JobCode.DRAWING_UNREADABLE for f in self.findings)


def unreadable(drawing: Path, digest: str, code: JobCode, message: str) -> Outcome:
    """The outcome of a drawing that gave nothing at all."""
    reading = Reading(drawing.name, digest, None, None, (Finding(Level.STOP, code, message),))
    return Outcome(reading, findings=reading.findings)


def work_out(drawing: Path, digest: str, settings: Settings) -> Outcome:
    """Read, plan, write and verify one drawing; SettingsError only where the settings are at fault."""
    given = answered(settings, digest)
    if stopped(given.findings):
        return Outcome(Reading(drawing.name, digest, None, None, given.findings), findings=given.findings)
    made = _worked_out(drawing, digest, given.settings)
    return replace(made, findings=(*given.findings, *made.findings), told=given.told)


def _worked_out(drawing: Path, digest: str, settings: Settings) -> Outcome:
    """The same with the answers in the settings."""
    try:
        sheet = load_sheet(drawing)
        reading = read_sheet(sheet, settings.options)
    except DrawingError as error:
        return unreadable(drawing, digest, JobCode.DRAWING_UNREADABLE, str(error))
    return replace(_of_reading(reading, settings), sheet=sheet)


def _of_reading(reading: Reading, settings: Settings) -> Outcome:
    """Plan, write and verify what was read."""
    part = reading.part
    if part is None or reading.units is None:
        return Outcome(reading, findings=reading.findings)
    if stopped(reading.findings):
        return Outcome(reading, group_grooves(part), findings=reading.findings)
    if settings.number_fault:
        numberless = (*reading.findings, _stop(JobCode.NUMBER, settings.number_fault))
        return Outcome(reading, group_grooves(part), findings=numberless)
    return _plan_and_write(reading, part, settings)


def _plan_and_write(reading: Reading, part: Part, settings: Settings) -> Outcome:
    shop = settings.shop(part.units)
    plan = plan_part(part, shop, settings.options.accept, cycles=settings.spoken(shop).cycles)
    findings = (*reading.findings, *plan.findings)
    if not plan.operations and not stopped(findings):
        findings += (Finding(Level.STOP, JobCode.NOTHING_TO_CUT, "The drawing has no groove that this tool programs."),)
    planned = Outcome(reading, group_grooves(part), plan, findings=findings) if stopped(findings) else None
    return planned or _write_and_verify(reading, part, plan, settings, findings)


def _write_and_verify(
    reading: Reading, part: Part, plan: Plan, settings: Settings, findings: tuple[Finding, ...]
) -> Outcome:
    dialect = settings.spoken(plan.shop)
    planned = partial(Outcome, reading, group_grooves(part), plan)
    try:
        accepted = tuple(dict.fromkeys(str(f.code) for f in findings if f.accepted))
        heading = Heading(reading.file, reading.sha256, settings.number, reading.front, accepted)
        program = write_program(plan, dialect, heading)
    except ProgramError as error:
        return planned(findings=(*findings, _stop(JobCode.DIALECT_CANNOT_SAY, str(error))))
    try:
        verdict = compare_program(
            part, program.text, plan.shop, dialect, left_out=plan.left_out, accepted=settings.options.accept
        )
        motions = verdict.run.motions if verdict.run else ()
    except RillwrightError as error:
        message = f"This is our fault: the program could not be read back ({error}); please report the drawing."
        return planned(findings=(*findings, _stop(JobCode.VERIFICATION_FAILED, message)))
    if not verdict.agree:
        failed = (*findings, *(_unread(verdict) or [_not_agreed(verdict, plan)]))
        return planned(verdict=verdict, motions=motions, findings=failed)
    return planned(program, verdict, motions, findings)


def _stop(code: JobCode, message: str) -> Finding:
    return Finding(Level.STOP, code, message)


def _unread(verdict: Verdict) -> list[Finding]:
    """Recesses that the drawing has and the reading doesn't, where nothing else is wrong: the drawing's fault."""
    stops = [one for one in verdict.findings if one.stops]
    right = all(match.state is State.MATCHES for match in verdict.matches)
    return stops if right and {one.code for one in stops} == {ProgramCode.RECESS_LEFT} else []


def _not_agreed(verdict: Verdict, plan: Plan) -> Finding:
    """The stop where the program read back does not make the drawing: our fault, or the coarse steps of a control."""
    wrong = [m for m in verdict.matches if m.state is not State.MATCHES]
    parts = [f"groove {m.drawing or 'not drawn'}: {m.state}" for m in wrong[:3]]
    parts += [f"line {f.line}: {f.message}" for f in [one for one in verdict.findings if one.stops][:3]]
    what, increments = f"does not make the drawing ({'; '.join(parts)})", plan.increments
    if increments != Increments.of(increments.units):
        step = f"{increments.length(1):g} {increments.units}"
        message = f"In the control's steps of {step} the program {what}; ask for wider limits, or program it by hand."
        return _stop(JobCode.DIALECT_CANNOT_SAY, message)
    return _stop(JobCode.VERIFICATION_FAILED, f"This is our fault: the program read back {what}; please report it.")
