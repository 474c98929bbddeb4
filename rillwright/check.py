"""A program file against a drawing: the answer of `compare` as JSON, and as plain lines for a text file."""

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from extractor import read_drawing
from extractor.errors import DrawingError, ProgramError
from extractor.finding import Finding, Level, stopped
from postproc import compare_program, find_dialect
from rillwright.console import clean, length
from rillwright.jsonform import SCHEMA, findings_json, verdict_json
from rillwright.outputs import show
from rillwright.settings import Settings

Json = dict[str, Any]

MOST_BYTES = 20_000_000
LEAST_SHARE = 0.7
WORDS = re.compile(r"(?:[A-Z][-+ ]?\d*\.?\d*\s*)+", re.IGNORECASE)
COMMENT = re.compile(r"\([^)]*\)|;.*")


def read_program(path: Path) -> str:
    """The text of a program file; ProgramError where it can't be had or can't be one."""
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise ProgramError(f"The program {show(path)} can't be read: {error.strerror or error}.") from error
    if len(data) > MOST_BYTES:
        raise ProgramError(f"{show(path)} is too big for a program: more than {MOST_BYTES // 1_000_000} MB.")
    if b"\0" in data.strip(b"\0"):
        raise ProgramError(f"{show(path)} is no text, so it is no program that can be read.")
    return data.decode("latin-1").strip("\0")


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


def check_program(program: Path, drawing: Path, settings: Settings) -> Json:
    """The answer of compare, in the contract's form; a drawing or program that can't be read is a stop in it."""
    try:
        text = read_program(program)
        reading = read_drawing(drawing, settings.options)
    except (DrawingError, ProgramError) as error:
        return _unjudged([Finding(Level.STOP, "unreadable", str(error))])
    if reading.part is None or stopped(reading.findings):
        return _unjudged([f for f in reading.findings if f.stops])
    shop = settings.shop(reading.part.units)
    dialect = find_dialect(settings.dialect) if settings.dialect else None
    return verdict_json(compare_program(reading.part, text, shop, dialect))


def _unjudged(findings: Sequence[Finding]) -> Json:
    return {"schema": SCHEMA, "agree": False, "grooves": [], "findings": findings_json(findings)}


def verdict_lines(answer: Json) -> list[str]:
    """The answer as plain lines: the verdict first, then what each groove and finding says."""
    lines = ["The program makes the drawing." if answer["agree"] else "The program DOES NOT make the drawing."]
    for one in answer["grooves"]:
        off = ", ".join(f"{name} {value:+g}" for name, value in one["difference"].items() if value)
        place = one["program"] or {}
        where = f"Z{length(place['z_near'])} to Z{length(place['z_far'])}" if place else "not cut"
        name = f"groove {one['drawing']}" if one["drawing"] else "no groove of the drawing"
        lines.append(f"{name}: {one['state']} ({where}{'; ' + off if off else ''})")
    for finding in answer["findings"]:
        line = f" line {finding['line']}" if finding.get("line") else ""
        lines.append(f"{finding['level']}{line}: {clean(finding['message'])}")
    return lines
