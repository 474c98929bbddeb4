"""A program file against a drawing, both read from disk; and what in an inbox is a program."""

import re
from codecs import BOM_UTF8
from collections.abc import Collection, Iterator
from dataclasses import replace
from pathlib import Path

from extractor import read_drawing
from extractor.errors import DrawingError, ProgramError
from extractor.finding import Finding, Level
from extractor.front import OPPOSITE, FrontEnd
from extractor.part import Part
from extractor.side import FACE, INSIDE
from extractor.values import dataclass
from planner import plan_part, settled_for
from planner.shop import Shop, Tool
from postproc import compare_program, interpret, laid_over
from postproc.dialect import Dialect
from postproc.judging.overlay import Overlay
from postproc.judging.tongue import better_note, guessed_note
from postproc.reading.guess import read_in
from postproc.verdict import State, Verdict
from rillwright.answers import answered_or_refused
from rillwright.codes import JobCode
from rillwright.compare import verdict_said
from rillwright.digest import file_digest, plain_bytes
from rillwright.inserts import recorded_inserts, with_told_inserts
from rillwright.outputs import show
from rillwright.picture import comparison_picture
from rillwright.records.record import Verification
from rillwright.records.recording import program_findings
from rillwright.settings import Settings
from rillwright.tables import plain_text

MOST_BYTES = 20_000_000
LEAST_SHARE = 0.7
WORDS = re.compile(r"(?:[A-Z:][-+ ]?\d*\.?\d*\s*)+", re.IGNORECASE)
COMMENT = re.compile(r"\([^)]*\)|;.*")


def read_program(path: Path) -> str:
    """The text of a program file; ProgramError if it can't be read or can't be a program."""
    try:
        data = plain_bytes(path, MOST_BYTES)
    except OSError as error:
        raise ProgramError(f"The program {show(path)} can't be read: {error.strerror or error}.") from error
    if len(data) > MOST_BYTES:
        raise ProgramError(f"{show(path)} is too big for a program: more than {MOST_BYTES // 1_000_000} MB.")
    if b"\0" in data.strip(b"\0"):
        raise ProgramError(f"{show(path)} is not text, so it can't be read as a program.")
    mark = "\ufeff" if data.startswith(BOM_UTF8) else ""  # editors put it before a text, and controls skip it
    return mark + data.removeprefix(BOM_UTF8).decode("latin-1").strip("\0")


def looks_like_program(text: str) -> bool:
    r"""True if most lines are blocks of words and some of them are G words.

    >>> looks_like_program("%\nO1\nG0 X42. Z-13.\nG75 R0.5\nM30\n%"), looks_like_program("Dear setter,\nplease")
    (True, False)
    """
    lines = [COMMENT.sub("", line).strip(" \t\r%/") for line in text.splitlines()]
    told = [line for line in lines if line]
    blocks = [line for line in told if WORDS.fullmatch(line) and any(c.isdigit() for c in line)]
    moves = any(re.search(r"[GXZ][-+ ]?\.?\d", line, re.IGNORECASE) for line in blocks)
    return len(blocks) >= 2 and moves and len(blocks) >= LEAST_SHARE * len(told)


@dataclass(frozen=True)
class Comparison:
    """A drawing and a program held against each other. `text` is the program's, `stock` the bar's diameter or None.

    `beside`: inserts that the record beside the program names. `front`: which end of the drawn part is Z0.
    """

    drawing: Path
    program: Path
    part: Part
    verdict: Verdict
    text: str
    shop: Shop
    dialect: Dialect | None
    stock: float | None
    beside: tuple[Tool, ...] = ()
    front: FrontEnd | None = None


def compare_files(drawing: Path, program: Path, settings: Settings, stock: float | None = None) -> Comparison:
    """Cut a program in simulation and hold it against a drawing; DrawingError or ProgramError if one can't be read.

    SettingsError where an answers file of the drawing is at fault.

    Stops of the drawing itself are stops of the verdict: nothing agrees with a drawing that contradicts itself.
    """
    text = read_program(program)
    given = answered_or_refused(settings, file_digest(drawing))
    made = _or_turned(_compared(drawing, program, given.settings, stock, text), drawing, given.settings, stock)
    verdict = replace(made.verdict, findings=(*given.findings, *made.verdict.findings))
    return replace(made, verdict=verdict)


def _or_turned(made: Comparison, drawing: Path, settings: Settings, stock: float | None) -> Comparison:
    """The comparison; where it fails but all grooves match with the other end as Z0, with a caution that says so."""
    if made.front is None or all(match.state is State.MATCHES for match in made.verdict.matches):
        return made
    end = OPPOSITE[made.front.end]
    other = replace(settings, options=replace(settings.options, front=end))
    try:
        again = _compared(drawing, made.program, other, stock, made.text).verdict
    except DrawingError:
        return made
    if not again.matches or any(match.state is not State.MATCHES for match in again.matches):
        return made
    words = f"It matches with --front {end}: the drawing was read with Z0 at {made.front.words}."
    findings = (*made.verdict.findings, Finding(Level.CAUTION, JobCode.OTHER_END_MATCHES, words))
    return replace(made, verdict=replace(made.verdict, findings=findings))


def _compared(drawing: Path, program: Path, settings: Settings, stock: float | None, text: str) -> Comparison:
    """The comparison with the drawing read as the settings say."""
    reading = read_drawing(drawing, settings.options)
    part = reading.part
    stops = tuple(f for f in reading.findings if f.stops)
    cautions = tuple(f for f in reading.findings if f.level is Level.CAUTION)
    if part is None or reading.units is None:
        raise DrawingError(" ".join(f.message for f in stops))
    shop, _ = settled_for(part, with_told_inserts(settings.shop(part.units), settings.changes))
    beside = recorded_inserts(program, part.units)
    dialect = settings.named(shop)
    # What the user answers for as not programmed may be missing; that anything else is, is a difference.
    accepted = settings.options.accept
    left_out = plan_part(part, settings.shop(part.units), accepted).left_out if accepted else ()
    verdict = compare_program(part, text, shop, dialect, stock, left_out, beside, accepted)
    guessed = better_note(text, verdict, dialect, part.units) if dialect else (guessed_note(verdict),)
    verdict = replace(
        verdict, findings=(*stops, *verdict.findings, *guessed, *_not_there(left_out, verdict), *cautions)
    )
    return Comparison(drawing, program, part, verdict, text, shop, dialect, stock, beside, reading.front)


def _not_there(left_out: Collection[int], verdict: Verdict) -> Iterator[Finding]:
    """A caution for each groove that may be missing and is: what agrees with the drawing then is not all of it."""
    judged = {match.drawing for match in verdict.matches}
    for number in sorted(set(left_out) - judged) if judged or verdict.agree else ():
        message = f"Groove {number} is left out of this program, as accepted: it must still be cut in another way."
        yield Finding(Level.CAUTION, JobCode.GROOVE_LEFT_OUT, message, groove=number)


def comparison_text(made: Comparison) -> str:
    """What compare prints, as plain text."""
    names = show(Path(made.drawing.name)), show(Path(made.program.name))
    return plain_text(verdict_said(made.part, made.verdict, *names))


def comparison_svg(made: Comparison) -> str:
    """Both profiles over each other, as a picture."""
    run, shop = made.verdict.run, made.verdict.shop
    if run is None or shop is None:
        parsed, spoken, _ = read_in(made.text, made.dialect, made.shop.machine.dialect)
        whole = made.shop.machine.whole_numbers
        run, shop = interpret(parsed, spoken, made.part.units, whole_numbers=whole), made.shop
    laid = laid_over(made.part, run, shop, made.stock)
    more: dict[str, Overlay] = {INSIDE.where: laid_over(made.part, run, shop, side=INSIDE)} if made.part.bore else {}
    if FACE.where in {tool.where for tool in shop.tools} | {groove.where for groove in made.part.grooves}:
        more[FACE.where] = laid_over(made.part, run, shop, side=FACE)
        more["hollow"] = laid_over(made.part, run, shop, side=FACE, filled=True)
    names = show(Path(made.drawing.name)), show(Path(made.program.name))
    return comparison_picture(made.part, made.verdict, laid, *names, more)


def unjudged(message: str) -> Verification:
    """The answer where there was nothing to compare."""
    return Verification(agree=False, findings=program_findings([Finding(Level.STOP, JobCode.UNREADABLE, message)]))
