"""What came of one drawing -> its record; and the same for what was only read, planned or compared.

Lengths are rounded to `DIGITS` decimals, so that a number prints as it was meant. Nothing is read or written here.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, fields, replace
from datetime import UTC, datetime
from functools import cache
from typing import Any, TypeVar

from extractor.finding import Finding
from extractor.ink import InkLedger
from extractor.limits import deviations
from extractor.part import Groove, Reading
from extractor.score import Merit, Weighed
from extractor.sheet import Sheet
from planner.plan import GrooveSet, Plan
from postproc import restart_blocks
from postproc.verdict import CutGroove, Verdict
from rillwright.outcome import Outcome
from rillwright.records.record import (
    ProgramFile,
    ProgramFinding,
    Record,
    RecordedAnswer,
    RecordedPlan,
    RecordedRestart,
    RecordedRun,
    Verification,
)
from rillwright.records.record_extra import drawn_lines, path_of, profile_of, recorded_operation, setup_of
from rillwright.records.record_part import (
    TURNED_ENDS,
    AnswerValue,
    DrawingFile,
    RecordedDistance,
    RecordedFinding,
    RecordedGroove,
    RecordedInk,
    RecordedPart,
    RecordedSet,
    RecordedWeighed,
)
from rillwright.settings import Settings
from rillwright.version import TOOL_VERSION

T = TypeVar("T")

DIGITS = 6

AS_IT_IS = (str, int, type(None))
"""What a record has as it stands, which most values are."""


def number(value: float) -> float:
    """A length as printed, without a minus zero.

    >>> number(-0.00000001), number(12.3000000001)
    (0.0, 12.3)
    """
    return round(value, DIGITS) + 0.0


def _printed(value: Any) -> Any:
    """A value of another room as the record has it: lengths rounded, names in their order, codes as plain text."""
    if isinstance(value, float):
        return number(value)
    if isinstance(value, AS_IT_IS):
        return value
    if isinstance(value, tuple):
        return tuple(_printed(one) for one in value)
    if isinstance(value, frozenset):
        return tuple(sorted(value))
    if isinstance(value, Mapping):
        return {name: _printed(one) for name, one in value.items()}
    return value


def _copied(kind: Callable[..., T], value: Any, **own: Any) -> T:
    """A value of the record with the fields that one of another room has under the same names, and its own."""
    shared = [name for name in _shared(kind, value.__class__) if name not in own]
    return kind(**{name: _printed(getattr(value, name)) for name in shared}, **own)


@cache
def _shared(kind: Any, other: Any) -> tuple[str, ...]:
    """The fields of a kind of record that another class has under the same names, as fields or otherwise."""
    held = {*dir(other), *(one.name for one in fields(other))}
    return tuple(one.name for one in fields(kind) if one.name in held)


def recorded_findings(findings: Iterable[Finding]) -> tuple[RecordedFinding, ...]:
    """Each finding with its place."""
    return tuple(_copied(RecordedFinding, one, code=str(one.code)) for one in findings)


def recorded_groove(groove: Groove) -> RecordedGroove:
    """One groove of a part, of a face groove with its walls by name as well, and its mouth as the near end."""
    names = TURNED_ENDS if groove.from_back else {}
    given = {names.get(name, name): both for name, both in deviations(groove).items()}
    own: dict[str, Any] = {name: number(getattr(groove, held)) for held, name in names.items()}
    own["tolerances"] = _printed(dict(sorted(given.items())))
    for name, those in (("general_tolerances", groove.general), ("printed", groove.printed)):
        own[name] = tuple(sorted(names.get(one, one) for one in those))
    if groove.rounded:
        own |= {"edge_chamfer": 0.0, "edge_radius": number(groove.edge_chamfer)}
    if not groove.side.axial:
        own["outer_wall_diameter"] = number(groove.mouth_diameter)
        own["inner_wall_diameter"] = number(groove.floor_diameter)
    return _copied(RecordedGroove, groove, **own)


def recorded_ink(ink: InkLedger) -> RecordedInk:
    """How much of what is drawn was explained as what."""
    return _copied(
        RecordedInk, ink, explained=_printed(dict(sorted(ink.explained.items()))), texts=dict(sorted(ink.texts.items()))
    )


def recorded_weighed(one: Weighed) -> RecordedWeighed:
    """One reading that was weighed."""
    score = {str(part): Merit(number(mark.figure), mark.reason) for part, mark in one.score.items()}
    return _copied(RecordedWeighed, one, score=score)


def recorded_part(reading: Reading, sets: Sequence[GrooveSet]) -> RecordedPart:
    """What was recognised."""
    part = reading.part
    own: dict[str, Any] = {}
    if part is not None:
        own = {
            "outer_diameter": number(part.outer_diameter),
            "length": number(part.length),
            "grooves": tuple(recorded_groove(one) for one in part.grooves),
            "distances": tuple(_copied(RecordedDistance, one, from_=one.start, to=one.end) for one in part.distances),
            "materials": tuple(_copied(type(one), one) for one in part.materials),
        }
    return RecordedPart(
        drawing=DrawingFile(file=reading.file, sha256=reading.sha256),
        units=reading.units,
        front=reading.front,
        ink=None if reading.ink is None else recorded_ink(reading.ink),
        weighed=tuple(recorded_weighed(one) for one in reading.weighed),
        sets=tuple(_copied(RecordedSet, one) for one in sets),
        findings=recorded_findings(reading.findings),
        **own,
    )


def recorded_plan(plan: Plan, settings: Settings | None = None) -> RecordedPlan:
    """The operations in order; with the settings of a program made, how each is taken up again at its grooves."""
    operations = tuple(recorded_operation(one, plan.increments) for one in plan.operations)
    if settings is not None:
        dialect = settings.spoken(plan.shop)
        again = [
            tuple(
                RecordedRestart(groove=restart.groove, blocks=tuple(restart_blocks(plan, restart, dialect)))
                for restart in one.restarts
            )
            for one in plan.operations
        ]
        operations = tuple(replace(one, restarts=some) for one, some in zip(operations, again, strict=True))
    return RecordedPlan(operations=operations, seconds=round(plan.seconds, 3), left_out=plan.left_out)


def rounded(cut: CutGroove) -> CutGroove:
    """A groove that a program leaves in the metal, as a record has it."""
    return _copied(CutGroove, cut)


def verification(verdict: Verdict) -> Verification:
    """The answer of compare."""
    return Verification(
        agree=verdict.agree,
        grooves=tuple(
            replace(one, program=one.program and rounded(one.program), difference=_printed(one.difference))
            for one in verdict.matches
        ),
        findings=program_findings(verdict.findings),
        followed=verdict.followed,
    )


def program_findings(findings: Iterable[Finding]) -> tuple[ProgramFinding, ...]:
    """Findings about a program."""
    return tuple(_copied(ProgramFinding, one, code=str(one.code)) for one in findings)


def recorded_run(settings: Settings) -> RecordedRun:
    """What this run was told beside the drawing: the shop file's name, changes to it, and answers about the drawing."""
    told = {name: value for name, value in asdict(settings.options).items() if value and name != "answered"}
    told |= {"accept": tuple(sorted(settings.options.accept))} if settings.options.accept else {}
    return RecordedRun(shop=settings.shop_name, changes=settings.changes, reading=told)


def record_of(
    outcome: Outcome, settings: Settings, program_file: str, now: datetime, sheet: Sheet | None = None
) -> Record:
    """The record of one drawing.

    `now` is the aware time that it carries; `sheet` the drawn lines, wanted where a refusal is to be shown.
    """
    reading, plan, program = outcome.reading, outcome.plan, outcome.program
    part, made = reading.part, program is not None
    spots = [one.at for one in reading.findings if one.at and one.stops]
    return Record(
        status="made" if made else "refused",
        part=recorded_part(reading, outcome.sets),
        plan=None if plan is None else recorded_plan(plan, settings if made else None),
        program=None
        if program is None
        else ProgramFile(file=program_file, sha256=program.sha256, dialect=program.dialect, number=settings.number),
        verification=None if outcome.verdict is None else verification(outcome.verdict),
        findings=recorded_findings(dict.fromkeys(outcome.findings)),
        run=recorded_run(settings),
        answers={name: RecordedAnswer(value=_frozen(one), file=file) for name, (one, file) in outcome.told.items()},
        made_at=time_text(now),
        tool_version=TOOL_VERSION,
        settings_sha256=settings.digest,
        picture=None if part is None else profile_of(part),
        setup=None if plan is None else setup_of(plan, part),
        path=path_of(outcome.motions, part.units) if part is not None and made and outcome.motions else None,
        drawn=None if sheet is None else drawn_lines(sheet, spots),
    )


def _frozen(value: Any) -> AnswerValue:
    """A value of a TOML file as the record holds it."""
    said: AnswerValue = tuple(value) if isinstance(value, list) else value
    return said


def time_text(now: datetime) -> str:
    """An aware time in UTC to the second; ValueError for one without a zone, which names no moment."""
    if now.tzinfo is None:
        raise ValueError("the time of making needs its time zone")
    return now.astimezone(UTC).isoformat(timespec="seconds")
