"""Answers files: what a person would say about a drawing with options, kept in a file beside it.

`ring.answers.toml` answers for `ring.dxf` and names the SHA-256 of the drawing that was asked about: for any other
the answers are not used. A folder's `answers.toml` holds units, front and grooved for all drawings in it. An option of
the command line comes first, then the drawing's file, then the folder's.
"""

import difflib
import os
import re
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

from extractor.errors import SettingsError
from extractor.finding import Finding, Level
from extractor.front import OPPOSITE
from extractor.part import SCALES, ReadOptions
from extractor.values import dataclass
from rillwright.codes import JobCode
from rillwright.settings import AnswerFile, Settings

FOLDER_FILE = "answers.toml"
FOR_FOLDER = ("units", "front", "grooved")
FOR_DRAWING = (*FOR_FOLDER, "at", "scale", "accept", "drawing")
MOST_BYTES = 100_000
"""No answers file is larger."""


class _FaultError(ValueError):
    """An answers file can't be used; the message says why."""


@dataclass(frozen=True)
class Answered:
    """Settings with the answers in them, where each came from, and what there is to say about the files.

    `told`: option -> (value as in the file, name of the file).
    """

    settings: Settings
    told: dict[str, tuple[Any, str]]
    findings: tuple[Finding, ...] = ()


_ENDING = re.compile(r"\.answers( ?\(\d+\))?\.toml$", re.IGNORECASE)
"""What follows the drawing's name; a browser counts the second file of one name that it saves."""


def owner(name: str) -> str | None:
    """Whose answers a file of this name holds: a drawing's, by its name without ending, "" for the folder's own.

    >>> [owner(name) for name in ("Ring.answers.toml", "ring.Answers (1).toml", "answers.toml", "ring.toml")]
    ['ring', 'ring', '', None]
    """
    if name.lower() == FOLDER_FILE:
        return ""
    ending = _ENDING.search(name)
    return name[: ending.start()].casefold() if ending else None


def beside(drawing: Path, settings: Settings) -> Settings:
    """The settings with the answers files that lie beside a drawing, unread but for their text."""
    wanted = ("", drawing.stem.casefold())
    try:
        there = [(one, entry) for entry in os.scandir(drawing.parent) if (one := owner(entry.name)) in wanted]
        mine = [(one, entry.stat().st_mtime_ns, Path(entry)) for one, entry in there if entry.is_file()]
    except OSError:
        return settings
    return replace(settings, answers=tuple(load(entry) for _, _, entry in sorted(mine)))


def load(path: Path) -> AnswerFile:
    """An answers file with its text, or with the reason why it can't be read; it counts only when it is used."""
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except OSError as error:
        return AnswerFile(path.name, "", (error.strerror or str(error)).lower())
    if len(data) > MOST_BYTES:
        return AnswerFile(path.name, "", f"it is longer than {MOST_BYTES} bytes")
    return AnswerFile(path.name, data.decode("utf-8", "replace"))


def answered(settings: Settings, sha256: str) -> Answered:
    """The answers laid under the options of the call; `sha256` is that of the drawing's bytes.

    The files stand in the settings in rising order of weight: the folder's, then the drawing's own, the newest last.
    """
    folder = [one for one in settings.answers if one.name.lower() == FOLDER_FILE]
    own = [one for one in settings.answers if one.name.lower() != FOLDER_FILE]
    told: dict[str, tuple[Any, str]] = {}
    findings: list[Finding] = []
    for one in (*folder, *own[-1:]):
        try:
            said = parsed(one)
        except _FaultError as fault:
            findings.append(Finding(Level.STOP, JobCode.ANSWERS_FAULT, str(fault)))
            continue
        meant = said.pop("drawing", sha256)
        if meant != sha256:
            words = f"{one.name} answers for another version of the drawing and was not used; answer again."
            findings.append(Finding(Level.CAUTION, JobCode.ANSWERS_OUTDATED, words))
            continue
        told |= {name: (value, one.name) for name, value in said.items()}
    if len(own) > 1:
        words = f"{own[-1].name} is the newest of {len(own)} answers files for the drawing; the others were not used."
        findings.append(Finding(Level.NOTE, JobCode.ANSWERS_NEWEST, words))
    options, used = _laid_under(settings.options, told)
    return Answered(replace(settings, options=options), used, tuple(findings))


def answered_or_refused(settings: Settings, sha256: str) -> Answered:
    """The same; SettingsError where an answers file is at fault."""
    given = answered(settings, sha256)
    faults = [f.message for f in given.findings if f.stops]
    if faults:
        raise SettingsError(" ".join(faults))
    return given


def _laid_under(options: ReadOptions, told: dict[str, tuple[Any, str]]) -> tuple[ReadOptions, dict[str, Any]]:
    """The options with the answers to what they leave open, and the answers that count."""
    given = {name: getattr(options, name) for name in told}
    used = {name: one for name, one in told.items() if name == "accept" or not given[name]}
    values: dict[str, Any] = {name: value for name, (value, _) in used.items()}
    if "at" in values:
        values["at"] = (float(values["at"][0]), float(values["at"][1]))
    if "accept" in values:
        values["accept"] = options.accept | frozenset(values["accept"])
    return replace(options, **values, answered=options.answered | frozenset(used)), used


def parsed(file: AnswerFile) -> dict[str, Any]:
    """The answers in a file by their keys; _FaultError with every fault of it in one sentence."""
    if file.fault:
        raise _FaultError(f"{file.name} can't be read: {file.fault}.")
    try:
        found = tomllib.loads(file.text)
    except tomllib.TOMLDecodeError as error:
        raise _FaultError(f"{file.name} is not an answers file: {' '.join(str(error).split())}.") from None
    known = FOR_FOLDER if file.name.lower() == FOLDER_FILE else FOR_DRAWING
    faults = [_unknown(key, known) for key in found if key not in known]
    faults += [words for key, value in found.items() if key in known and (words := _wrong(key, value))]
    if "drawing" in known and "drawing" not in found:
        faults.append("drawing is missing: the SHA-256 of the drawing that it answers for")
    if faults:
        raise _FaultError(f"{file.name} can't be used: {'; '.join(faults)}.")
    return found


def _unknown(key: str, known: tuple[str, ...]) -> str:
    """What is said of a key that is none."""
    if key in FOR_DRAWING:
        return f"{key} can only be answered for one drawing, not for a folder"
    near = difflib.get_close_matches(key, known, 1)
    return f"{key} is not a key{f', {near[0]} is' if near else ''}"


def _wrong(key: str, value: Any) -> str:
    """What is wrong with a value, empty if nothing is."""
    checks = {
        "units": (value in ("mm", "in"), '"mm" or "in"'),
        "front": (value in OPPOSITE if isinstance(value, str) else False, '"right", "left", "top" or "bottom"'),
        "grooved": (isinstance(value, bool), "true or false"),
        "at": (_numbers(value, 2), "[X, Y] as on the sheet"),
        "scale": (
            _numbers([value], 1) and SCALES[0] <= value <= SCALES[1],
            "a number from {:g} to {:g}".format(*SCALES),
        ),
        "accept": (isinstance(value, list) and all(isinstance(one, str) for one in value), "a list of codes"),
        "drawing": (isinstance(value, str) and bool(re.fullmatch("[0-9a-f]{64}", value)), "64 digits of a SHA-256"),
    }
    right, wanted = checks[key]
    return "" if right else f"{key} must be {wanted}"


def _numbers(value: Any, count: int) -> bool:
    """True for a list of so many finite numbers."""
    return (
        isinstance(value, list)
        and len(value) == count
        and all(isinstance(v, int | float) and not isinstance(v, bool) and v - v == 0 for v in value)
    )


def written(said: dict[str, Any], sha256: str) -> str:
    """An answers file as text: the answers by their keys, and the drawing that they are for.

    >>> print(written({"front": "left", "at": (120.0, 90.0), "accept": ["overhang"]}, "ab"), end="")
    front = "left"
    at = [120.0, 90.0]
    accept = ["overhang"]
    drawing = "ab"
    """
    return "".join(f"{key} = {_toml(value)}\n" for key, value in (*said.items(), ("drawing", sha256)))


def _toml(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list | tuple | frozenset):
        return f"[{', '.join(_toml(one) for one in (sorted(value) if isinstance(value, frozenset) else value))}]"
    return f'"{value}"' if isinstance(value, str) else repr(float(value))


__all__ = ["FOLDER_FILE", "Answered", "answered", "answered_or_refused", "beside", "load", "owner", "parsed", "written"]
