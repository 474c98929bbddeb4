"""Questions: the stops that a person can answer, each with its choices and what would come of them.

Every choice is tried before it is offered: the sheet is read with it, and what it reads is said beside it.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cache, partial
from pathlib import Path
from typing import Any

from extractor.codes import DrawingCode
from extractor.dxf import load_sheet
from extractor.finding import Finding, Point, place_words
from extractor.front import END_WORDS
from extractor.gathered import MOST_ALIKE
from extractor.part import Part, Reading, ReadOptions
from extractor.reading import read_sheet
from extractor.sheet import Sheet
from extractor.sizing.scale.sheet_scale import ratio_words
from extractor.values import dataclass
from planner import group_grooves
from planner.codes import PlanCode
from planner.plan import GrooveSet
from postproc.vocabulary.numbers import UNIT_NAMES
from rillwright.answers import Answered, answered_or_refused, beside
from rillwright.records.record_part import RecordedChoice, RecordedFinding, RecordedPart
from rillwright.records.recording import recorded_part
from rillwright.settings import Settings

ACCEPTED: dict[str, str] = {
    PlanCode.RECESS_NOT_PLANNED: "leave it to another tool",
    PlanCode.CORNER_SMALLER: "take the corners that the insert leaves",
    DrawingCode.OVERHANG: "leave it to another tool",
    DrawingCode.ASSEMBLY: "all that is shown is one part",
    DrawingCode.OFF_OUTLINE: "the outline is whole, and the size is not about it",
    DrawingCode.MILLED_FLATS: "two flats, left out",
    DrawingCode.FACE_UNCLEAR: "nothing is to be grooved in that face",
    DrawingCode.AXIS_NOT_DRAWN: "half of a part, turned about that line",
}
"""What it means to answer for a stop, where that can be said better than by "go on all the same"."""


@dataclass(frozen=True)
class Offer:
    """One way to answer: the option and its value, what it is called, where it lies, and what would be read with it.

    `at` is a point on the sheet or None. `open_still`: codes of the stops that would be left.
    """

    option: str
    value: Any
    label: str
    reads: str
    at: Point | None = None
    open_still: tuple[str, ...] = ()

    @property
    def recorded(self) -> RecordedChoice:
        """As the record has it."""
        return RecordedChoice(option=self.option, value=self.value, label=self.label, reads=self.reads)


@dataclass(frozen=True)
class Question:
    """A stop that can be answered, and its choices."""

    finding: Finding
    choices: tuple[Offer, ...]


def questions(sheet: Sheet, findings: Iterable[Finding], options: ReadOptions, *, part: bool) -> tuple[Question, ...]:
    """The questions that findings leave open, those without a choice that leads on left out.

    `options` are those with which the sheet was read, `part` whether one was. What is answered alike is read once.
    """
    asked, read = [], cache(partial(_read_with, sheet, options))
    stops = tuple(dict.fromkeys(f for f in findings if f.stops))
    alike: Counter[str] = Counter()
    for code, _, count in {(f.code, f.key, f.alike) for f in stops}:
        alike[code] += count
    for stop in (f for f in stops if f.code.answers):
        together = stop.code.together
        if alike[stop.code] > MOST_ALIKE and not together:
            continue
        alone = together or (alike[stop.code] == 1 and stop.code not in options.accept)
        tried = [_tried(stop, read, *way) for way in _ways(stop, part, alone)]
        choices = tuple(one for one in tried if one is not None)
        if choices:
            asked.append(Question(stop, choices))
    return tuple(asked)


Way = tuple[str, Any, str, Point | None]
"""An option, a value, what it is called, and where it lies."""


def _ways(stop: Finding, part: bool, alone: bool) -> Iterator[Way]:
    """All ways in which a stop may be answered; only where a part was read can anybody answer for one.

    `alone`: its code stands for it and for no other.
    """
    for answer in stop.code.answers:
        if answer == "units":
            yield from ((answer, unit, words, None) for unit, words in UNIT_NAMES.items())
        elif answer == "front":
            yield from ((answer, end, f"Z0 at the {words}", None) for end, words in END_WORDS.items())
        elif answer == "at":
            yield from ((answer, spot, f"the view at {place_words(spot)}", spot) for spot in stop.spots)
        elif answer == "scale":
            yield from ((answer, float(f"{r:.6g}"), f"the view is drawn {ratio_words(r)}", None) for r in stop.scales)
        elif answer == "grooved":
            yield answer, True, "treat it as a groove", None
        elif answer == "accept" and part:
            yield answer, str(stop.code) if alone else stop.key, ACCEPTED.get(stop.code, "go on all the same"), stop.at


Read = tuple[str, tuple[str, ...], frozenset[str]]
"""What is read with an answer, in a few words, the codes of the stops that are left, and their keys."""


def _read_with(sheet: Sheet, options: ReadOptions, option: str, value: Any) -> Read | None:
    """What is read with one answer, None where it is no part, or nothing to answer for."""
    changed: Any = {option: options.accept | {value} if option == "accept" else value}
    made = read_sheet(sheet, replace(options, **changed))
    if made.part is None or (option == "accept" and not made.part.grooves):
        return None
    stops = [f for f in made.findings if f.stops]
    left = tuple(dict.fromkeys(str(f.code) for f in stops))
    return reads(made.part, left), left, frozenset(f.key for f in stops)


def _tried(
    stop: Finding, read: Callable[[str, Any], Read | None], option: str, value: Any, label: str, at: Point | None
) -> Offer | None:
    """The choice with what it reads; None where it leads nowhere: the same stop, no part, nothing to answer for."""
    found = read(option, value)
    if found is None:
        return None
    words, left, keys = found
    # Others of its code may be left where it alone is answered for.
    open_still = stop.key in keys if option == "accept" else stop.code in left
    if open_still or DrawingCode.FRONT_IMPOSSIBLE in left:
        return None
    return Offer(option, value, label, words, at, left)


def reads(part: Part, left: Sequence[str] = ()) -> str:
    """What was read, in a few words, and which stops are left.

    >>> part = Part(units="mm", outer_diameter=30.0, length=60.0, grooves=(), outline=(), lands=())
    >>> reads(part, ["units-unknown"])
    '30 across, 60 long, no groove; then still open: units-unknown'
    """
    count = len(part.grooves)
    grooves = f"{count} groove{'s' * (count != 1)}" if count else "no groove"
    words = f"{part.outer_diameter:.4g} across, {part.length:.4g} long, {grooves}"
    return f"{words}; then still open: {', '.join(left)}" if left else words


def with_choices(findings: Iterable[RecordedFinding], asked: Iterable[Question]) -> tuple[RecordedFinding, ...]:
    """The findings of a record, each question with its choices."""
    said = {
        (str(q.finding.code), q.finding.message, q.finding.at): tuple(one.recorded for one in q.choices) for q in asked
    }
    return tuple(replace(one, choices=said.get((one.code, one.message, one.at), ())) for one in findings)


@dataclass(frozen=True)
class Asked:
    """A drawing as read with its answers, and the questions that it leaves open."""

    reading: Reading
    sets: tuple[GrooveSet, ...]
    questions: tuple[Question, ...]
    answers: Answered

    @property
    def recorded(self) -> RecordedPart:
        """As the command read prints it in JSON."""
        part = recorded_part(self.reading, self.sets)
        return replace(part, findings=with_choices(part.findings, self.questions))


def read_and_ask(drawing: Path, settings: Settings) -> Asked:
    """Read a drawing with the answers that lie beside it; SettingsError where one of their files is at fault."""
    sheet = load_sheet(drawing)
    given = answered_or_refused(beside(drawing, settings), sheet.sha256)
    options = given.settings.options
    read = read_sheet(sheet, options)
    asked = questions(sheet, read.findings, options, part=read.part is not None)
    reading = replace(read, findings=(*given.findings, *read.findings))
    return Asked(reading, group_grooves(reading.part) if reading.part else (), asked, given)


__all__ = ["Asked", "Offer", "Question", "questions", "read_and_ask", "reads", "with_choices"]
