"""The lines of the page over a watched folder, from the ledger and from what lies in the folder of results."""

import os
from collections.abc import Collection, Iterator, Sequence
from pathlib import Path
from urllib.parse import quote

from rillwright.folder.ledger import LastCheck, Ledger, Result, Underneath
from rillwright.folder.placing import last_outputs
from rillwright.jobsheet.overview import WRONG, Entry
from rillwright.lying import KEPT
from rillwright.outputs import FORM


def result_entry(ledger: Ledger, out: Path, one: Result, found: Underneath | None) -> Entry:
    """What became of a drawing, with the way to its sheet and its program as far as they are there.

    `found` is what lies under the program's name.
    """
    gone = one.state == "removed"
    outputs = None if gone else last_outputs(ledger, one, out)
    there = outputs is not None and one.program_file is not None and outputs.program.is_file()
    return Entry(
        name=one.name,
        state=_state(one, found),
        link=_address(outputs.sheet.relative_to(out)) if outputs else "",
        program=one.program_file or "",
        finished=one.finished,
        words=" ".join((one.reason, *one.changes)).strip(),
        program_link=_address(outputs.program.relative_to(out)) if outputs and there else "",
        cautions=one.cautions,
        questions=one.questions,
    )


def _state(one: Result, found: Underneath | None) -> str:
    """The state of a drawing in view of what lies under its program's name."""
    if one.state != "made" or found is None or not found.state:
        return one.state
    if not found.sha256:
        return "taken away"
    return "edited" if found.right else WRONG


def edited_entries(ledger: Ledger, out: Path, latest: Sequence[Result]) -> list[Entry]:
    """Programs that somebody edited or took away while their drawings stand, with what came of it."""
    by_drawing, entries = {one.drawing: one for one in latest}, []
    for drawing, found in ledger.underneath().items():
        one = by_drawing.get(drawing)
        if one is None or one.state != "made" or not found.state:
            continue
        state = {True: "agrees", False: "differs", None: "not judged"}[found.agree] if found.sha256 else "taken away"
        outputs = last_outputs(ledger, one, out)
        program, link = outputs.program.relative_to(out), _address(outputs.sheet.relative_to(out))
        entries.append(Entry(name=str(program), state=state, link=link, program="", finished="", words=found.words))
    return sorted(entries, key=lambda entry: entry.name)


def kept_entries(ledger: Ledger, out: Path, latest: Sequence[Result]) -> list[Entry]:
    """Programs in the folder that no drawing stands for: kept edited ones, orphaned ones, and those of others."""
    standing = {last_outputs(ledger, one, out).program for one in latest if one.state != "removed"}
    entries = []
    endings = {Path(FORM).suffix, *(Path(one.program_file).suffix for one in latest if one.program_file)}
    for path in _programs(out, endings):
        if path in standing:
            continue
        kept = KEPT.search(path.name) is not None
        words = "It was moved aside; not checked." if kept else "Nothing is known about it; not checked."
        name = path.relative_to(out)
        state = "edited" if kept else "unknown"
        entries.append(Entry(name=str(name), state=state, link=_address(name), program="", finished="", words=words))
    return entries


def check_entry(one: LastCheck) -> Entry:
    """The verdict on a program that lay beside its drawing."""
    state = "not judged" if one.agree is None else "agrees" if one.agree else "differs"
    return Entry(name=one.name, state=state, link="", program="", finished=one.finished, words=one.reason)


def _programs(out: Path, endings: Collection[str]) -> Iterator[Path]:
    """Every program below the folder, by its ending, in order."""
    for folder, inner, names in os.walk(out):
        inner.sort()
        yield from (Path(folder) / name for name in sorted(names) if Path(name).suffix.lower() in endings)


def _address(path: Path) -> str:
    """The way from the page; by bytes, since a name need not be text."""
    return quote(os.fsencode(path))
