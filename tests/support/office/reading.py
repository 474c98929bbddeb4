"""Reads a sheet by the command line alone, and says in what the answer differs from the truth."""

import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from support.door import run
from support.office.truth import Answer, Cut

CLOSE = {"mm": 0.0021, "in": 0.00011}  # the drawings are exact: only rounding in print may differ
WRONG_CALL = 2


@dataclass(frozen=True)
class Said:
    """What `read --json` said: the exit status and the document ({} where there is none)."""

    status: int
    document: dict[str, Any]
    words: str  # all messages
    crash: str = ""

    @property
    def stops(self) -> list[dict[str, Any]]:
        return [f for f in self.document.get("findings", []) if f["level"] == "stop"]

    @property
    def cautions(self) -> list[dict[str, Any]]:
        return [f for f in self.document.get("findings", []) if f["level"] == "caution"]

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(f["code"] for f in self.stops)


def read(path: Path, *options: str) -> Said:
    """`rillwright read PATH --json` in this process."""

    os.environ.pop("RILLWRIGHT_DEBUG", None)
    done = run("read", path, "--json", *options)
    crash = ""
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        crash = repr(done.exception)
    try:
        document = json.loads(done.stdout) if done.stdout.strip() else {}
    except json.JSONDecodeError:
        document, crash = {}, crash or "no JSON: " + done.stdout[:80]
    words = " | ".join(f["message"] for f in document.get("findings", []) if f["level"] != "note")
    if "our fault" in done.stderr or "Traceback" in done.stderr:
        crash = crash or done.stderr.strip()[:200]
    return Said(done.exit_code, document, words or done.stderr.strip(), crash)


def differs(said: Said, answer: Answer) -> str:
    """In what a reading differs from an answer; "" where it is that answer."""
    found = said.document
    close = CLOSE[answer.units]
    if found.get("units") != answer.units:
        return f"units {found.get('units')} for {answer.units}"
    for name, want in (("length", answer.length), ("outer_diameter", answer.diameter)):
        if found.get(name) is None or abs(found[name] - want) > close:
            return f"{name} {found.get(name)} for {want:g}"
    front = (found.get("front") or {}).get("end")
    if front is not None and front != answer.front:
        return f"front {front} for {answer.front}"
    return _grooves(found.get("grooves", []), answer, close)


def _grooves(found: list[dict[str, Any]], answer: Answer, close: float) -> str:
    left = list(found)
    for cut in answer.grooves:
        near = min(left, key=lambda g: _apart(g, cut), default=None)
        if near is None or _apart(near, cut) > close:
            best = "nothing" if near is None else _spelled(near)
            return f"groove {cut.where} {cut.near:g} to {cut.far:g} floor {cut.floor:g} is not there (nearest {best})"
        left.remove(near)
    extra = [g for g in left if not any(a - close <= g["z_far"] and g["z_near"] <= b + close for a, b in answer.free)]
    return f"{len(extra)} more: {_spelled(extra[0])}" if extra else ""


def _apart(g: dict[str, Any], cut: Cut) -> float:
    if g["where"] != cut.where:
        return float("inf")
    return max(abs(g["z_near"] - cut.near), abs(g["z_far"] - cut.far), abs(g["floor_diameter"] - cut.floor))


def _spelled(g: dict[str, Any]) -> str:
    return f"{g['where']} {g['z_near']:g} to {g['z_far']:g} floor {g['floor_diameter']:g} {g['shape']}"
