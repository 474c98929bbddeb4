"""What lies under the name of a drawing's program, and the one rule for it that `make` and `watch` share.

Rules
    - Under NAME.nc lies the program that was written last and verified, one that somebody edited since, or nothing.
    - While the same program would be written again, an edited one stays, is held against the drawing, and the record
      says what came of it.
    - Otherwise an edited one becomes NAME.edited-N.nc, and an older one of ours is set aside as a stale one.
    - A program that was here before anything was made of the drawing counts as edited; where the drawing is refused it
      is set aside as an older one.
"""

import json
import os
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

from extractor.errors import RillwrightError
from extractor.finding import Finding, Level
from extractor.printable import printable
from extractor.values import dataclass
from postproc.verdict import State
from rillwright.atomic import STALE, set_aside, sync_folder
from rillwright.check import compare_files
from rillwright.codes import JobCode
from rillwright.digest import file_digest
from rillwright.outputs import Outputs, form_of, own_name, show, spelling
from rillwright.records.record import HeldProgram, Record, Verification
from rillwright.records.record_file import origin_beside
from rillwright.records.recording import recorded_findings, verification
from rillwright.settings import Settings

NOT_PLAIN = "no plain file"
"""What stands for the hash of a link, a folder and the like: no program has it."""

KEPT = re.compile(r"\.edited-(\d+)\.[^.]+$")
"""How the name of an edited program ends that had to make room."""

MOST_GROOVES = 6
"""Grooves of an edited program that one sentence names."""


@dataclass(frozen=True)
class Lying:
    """What lies under a program's name before a run.

    `there`: anything at all. `sha256` of it, "" where nothing is. `ours`: we wrote just these bytes for the
    drawing. `last`: hash of the program that we wrote last, None where there is none. `known`: something was made of
    the drawing before. `kept`: names of the edited programs beside it. `former`: what lies under the name that its last
    program had, where that is another.
    """

    program: Path
    there: bool = False
    sha256: str = ""
    ours: bool = False
    last: str | None = None
    known: bool = False
    kept: tuple[str, ...] = ()
    former: "Lying | None" = None

    @property
    def edited(self) -> bool:
        """True if what lies there is not ours."""
        return self.there and not self.ours

    def stands(self, made: str | None) -> bool:
        """True if an edited program stays where it is, since the same would be written again."""
        return self.edited and made is not None and made == self.last


def lying(
    outputs: Outputs, last: str | None, *, known: bool, wrote: Callable[[str], bool], file: str | None = None
) -> Lying:
    """Look at what lies there; `wrote` says whether we ever wrote a program of a hash for the drawing.

    `file` is the name that its last program has.
    """
    program = outputs.program
    there = os.path.lexists(program)
    plain = there and program.is_file() and not program.is_symlink()
    digest = file_digest(program) if plain else NOT_PLAIN if there else ""
    ours = plain and wrote(digest)
    former = None
    if file is not None and Path(file).name == file != program.name:
        there_too = lying(replace(outputs, form=form_of(file)), last, known=known, wrote=wrote)
        mine = there_too.ours or Path(file).stem == outputs.stem or owner(outputs, file) is None
        former = there_too if there_too.there and mine else None
    return Lying(program, there, digest, ours, last, known, kept_beside(outputs), former)


def lying_by_record(outputs: Outputs) -> Lying:
    """The same where only the record beside the program says what we wrote."""
    record = origin_beside(outputs.record)
    program = record.program if record else None
    last, file = (program.sha256, program.file) if program else (None, None)
    return lying(outputs, last, known=record is not None, wrote=lambda digest: digest == last, file=file)


def kept_beside(outputs: Outputs) -> tuple[str, ...]:
    """Names of a drawing's edited programs that had to make room, oldest first."""
    stem = outputs.program.stem
    ending = re.compile(re.escape(stem) + KEPT.pattern)
    try:
        # A folder may have thousands, and nearly none begins so.
        told = (name for name in os.listdir(outputs.folder) if name.startswith(stem))
        names = [found for name in told if (found := ending.fullmatch(name))]
    except OSError:
        return ()
    return tuple(one[0] for one in sorted(names, key=lambda one: int(one[1])))


def edited_name(before: Lying) -> str:
    """The name under which an edited program is kept when it has to make room."""
    taken = {int(found[1]) for name in before.kept if (found := KEPT.search(name))}
    number = next(n for n in range(1, len(taken) + 2) if n not in taken)
    return f"{before.program.stem}.edited-{number}{before.program.suffix}"


def make_room(before: Lying, made: str | None, aside: Callable[[Path], object] = set_aside) -> None:
    """Clear the program's name for one of hash `made`, or for none; `aside` puts an older one of ours away."""
    if before.former:
        make_room(before.former, None, aside)
    if not os.path.lexists(before.program) or before.stands(made):
        return
    if before.edited and (made is not None or before.known):
        os.rename(before.program, before.program.with_name(edited_name(before)))
        sync_folder(before.program.parent)
    elif before.edited:
        set_aside(before.program)
    elif before.sha256 != made:
        aside(before.program)


def with_edits(record: Record, before: Lying, drawing: Path, settings: Settings) -> Record:
    """The record with what became, or is to become, of edited programs: under `edited` the one that stands."""
    made = record.program.sha256 if record.program else None
    said: list[Finding] = []
    if before.stands(made):
        held = _held(before, drawing, settings)
        words = _words_of(before.program.name, held)
        record = replace(record, edited=replace(held, message=words))
        said.append(_caution(JobCode.PROGRAM_EDITED, words))
    elif before.edited:
        said.append(_caution(JobCode.PROGRAM_SET_ASIDE, moved(before, made)))
    if before.former and before.former.edited:
        said.append(_caution(JobCode.PROGRAM_SET_ASIDE, moved(before.former, None)))
    if before.kept:
        verb = "lies" if len(before.kept) == 1 else "lie"
        words = f"{' and '.join(before.kept)} {verb} here too, kept from before and not checked against this drawing."
        said.append(_caution(JobCode.PROGRAM_SET_ASIDE, words))
    return replace(record, findings=(*record.findings, *recorded_findings(said)))


def moved(before: Lying, made: str | None) -> str:
    """What becomes of an edited program that has to make room, in one sentence."""
    name = before.program.name
    origin = "was edited after it was written" if before.last else "came from elsewhere"
    if made is None and not before.known:
        return f"The {name} that was here {origin}; it is now {name}{STALE}."
    return f"The {name} that was here {origin}; it is kept as {edited_name(before)}."


def _caution(code: JobCode, words: str) -> Finding:
    """A caution about what lies there, its words without what moves a cursor."""
    return Finding(Level.CAUTION, code, printable(words))


def _held(before: Lying, drawing: Path, settings: Settings) -> HeldProgram:
    """An edited program held against the drawing; `agree` is None where it could not be judged."""
    held = HeldProgram(file=before.program.name, sha256=before.sha256)
    if before.sha256 == NOT_PLAIN:
        return replace(held, why="it is a link or no plain file")
    try:
        found = verification(compare_files(drawing, before.program, settings).verdict)
    except (RillwrightError, OSError) as error:
        return replace(held, why=str(error).rstrip("."))
    why = "" if found.agree else _wrong(found)
    return replace(held, agree=found.agree, grooves=found.grooves, findings=found.findings, why=why)


def _words_of(name: str, held: HeldProgram) -> str:
    """One sentence on an edited program, and what to do."""
    if held.agree:
        return f"{name} was edited after it was written; it was held against the drawing and still makes it."
    if held.agree is None:
        return f"{name} was edited after it was written and can't be judged: {held.why}. Don't run it."
    return f"{name} was edited after it was written and no longer makes the drawing ({held.why}). Don't run it."


def _wrong(found: Verification) -> str:
    """What is wrong with an edited program: its grooves, else the first reason."""
    named = [
        f"groove {one.drawing}: {one.state}" if one.drawing else "a cut that is not drawn"
        for one in found.grooves
        if one.state is not State.MATCHES
    ]
    stops = [one.message.rstrip(".") for one in found.findings if one.stops]
    more = len(named) - MOST_GROOVES
    listed = [*named[:MOST_GROOVES], *([f"and {more} more"] if more > 0 else [])]
    return "; ".join(listed or stops[:1] or ["it differs"])


def owner(outputs: Outputs, file: str) -> Path | None:
    """The record of another drawing in the folder that has its program in a file of this name."""
    wanted, stem = spelling(file), spelling(outputs.record.name)
    # Most records don't hold the name at all, and a folder may have thousands.
    words = json.dumps(file).casefold().encode()
    for path in sorted(outputs.folder.glob("*.json")):
        if spelling(path.name) == stem or not path.is_file() or words not in path.read_bytes().lower():
            continue
        record = origin_beside(path)
        if record and record.program and spelling(record.program.file) == wanted:
            return path
    return None


def other_drawing(drawing: Path, outputs: Outputs) -> str:
    """Why a drawing may not be made into a folder: another one of its name, or of its program's, was; "" if not.

    One that is gone, or is the same byte for byte, is no other: it was moved, or is a copy.
    """
    for record_file in _records_of(outputs):
        source = _source(record_file)
        if source is None or not source.is_file() or _same(source, drawing):
            continue
        if file_digest(source) == file_digest(drawing) and record_file.name == outputs.record.name:
            continue
        return (
            f"{_shown(outputs.folder)} holds the results of {_shown(source)}, and {_shown(drawing)} would take their "
            "place: give it an --out of its own."
        )
    if not own_name(outputs.form) and (other := owner(outputs, outputs.program.name)):
        name, taken = show(Path(other.stem)), f"{_shown(drawing)} would take its place"
        ways = f"give it a --number or an --out of its own, or take away what was made of {name}"
        return f"{_shown(outputs.program)} is the program of {name}, and {taken}: {ways}."
    return ""


def clear_spellings(outputs: Outputs) -> None:
    """Set aside what was made of a drawing that is gone and had the same name in another spelling."""
    for record_file in _records_of(outputs):
        if record_file.name == outputs.record.name or _same(record_file, outputs.record):
            continue
        stem = record_file.name.removesuffix(".json")
        before = lying_by_record(Outputs(outputs.folder, stem))
        make_room(before, None)
        for path in (record_file, record_file.with_suffix(".html")):
            set_aside(path)


def _records_of(outputs: Outputs) -> Sequence[Path]:
    """The records in the folder whose names differ from the drawing's in spelling only."""
    wanted = spelling(outputs.record.name)
    try:
        names = [name for name in os.listdir(outputs.folder) if spelling(name) == wanted]
    except OSError:
        return ()
    return [outputs.folder / name for name in sorted(names)]


def _source(record_file: Path) -> Path | None:
    """The drawing that a record was made of, None where it does not say."""
    record = origin_beside(record_file)
    return record_file.parent.resolve() / record.source if record and record.source else None


def _same(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False


def _shown(path: Path) -> str:
    return show(Path(os.path.normpath(path)))
