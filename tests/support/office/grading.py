"""One word for what became of a sheet, and where the options that it was answered with lead.

right      read as drawn
asked      a stop with an option or a place to answer it, on a sheet that was plain: a needless question
refused    the same without any way on
stopped    a stop where the sheet must stop, with the fact
stopped-   such a stop that does not name the fact, or does not ring the place
WRONG      an answer that is not the drawn part, or an answer at all where there is none, without a caution
wrong+     the same with a caution
by         the drawn part, but what it says of the front is not so
crash      an error of its own
"""

import re
import tempfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from support.office.reading import Said, differs, read
from support.office.truth import Answer, Case, Truth

GOOD = {"right", "stopped"}
WORST = {"WRONG", "wrong+", "crash"}
PLACE = re.compile(r"X(-?[\d.]+) Y(-?[\d.]+)")
OPTION = re.compile(r"--(at|front|units|scale|accept)[ =]+([-\w.,]+)")
ROUTINE = {"units-weighed", "front-assumed", "journals-turned", "general-tolerance"}


@dataclass(frozen=True)
class Step:
    """One option followed: "good", "asks on", "dead end" or "WRONG"."""

    option: tuple[str, str]
    end: str
    why: str


@dataclass(frozen=True)
class Grade:
    word: str
    why: str
    said: Said
    steps: tuple[Step, ...] = field(default=())


def grade(case: Case, follow: bool = True) -> Grade:
    """Read one sheet, judge the answer, and follow every option that it names."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"{case.name}.dxf"
        path.write_bytes(case.data)
        said = read(path)
        word, why = judged(said, case.truth)
        steps = tuple(followed(path, case.truth, said, option) for option in options(said)) if follow else ()
        return Grade(word, why, said, steps)


def judged(said: Said, truth: Truth) -> tuple[str, str]:
    if said.crash or said.status not in (0, 1, 2):
        return "crash", said.crash or f"status {said.status}"
    if said.status == 0:
        return _answered(said, truth)
    if truth.must == "read":
        ways = options(said)
        return ("asked" if ways else "refused"), f"{', '.join(said.codes)}: {said.words[:260]}"
    if truth.must == "either":
        return "right", ""
    return _stopped(said, truth)


def _answered(said: Said, truth: Truth) -> tuple[str, str]:
    wrong = "wrong+" if [c for c in said.cautions if c["code"] not in ROUTINE] else "WRONG"
    if truth.must == "stop":
        codes = ", ".join(c["code"] for c in said.cautions)
        return wrong, f"answered: {_brief(said)} cautions: {codes}"
    apart = ""
    for answer in (truth.right, *truth.more):
        apart = apart or differs(said, answer) if answer else apart
        if answer and not differs(said, answer):
            return _by(said, truth)
    codes = ", ".join(c["code"] for c in said.cautions)
    return wrong, f"{apart} (cautions: {codes})"


def _by(said: Said, truth: Truth) -> tuple[str, str]:
    by = (said.document.get("front") or {}).get("by")
    if by is None or not truth.by:
        return "right", ""
    wants = (*truth.by, "assumed") if truth.more else truth.by
    if by not in wants:
        return "by", f"front.by {by} for {'/'.join(truth.by)}"
    if truth.caution and by == "assumed" and truth.caution not in {c["code"] for c in said.cautions}:
        return "by", f"no caution {truth.caution}"
    return "right", ""


def _stopped(said: Said, truth: Truth) -> tuple[str, str]:
    if truth.code and truth.code not in said.codes:
        return "stopped-", f"code {', '.join(said.codes)} for {truth.code}: {said.words[:200]}"
    if truth.facts and not any(all(_named(f, said.words) for f in way) for way in truth.facts):
        return "stopped-", f"{', '.join(said.codes)} without the fact {truth.facts[0]}: {said.words[:260]}"
    if truth.rings and not any(_rung(f, truth) for f in said.stops):
        return "stopped-", f"{', '.join(said.codes)}: no ring near {truth.rings[0]}: {said.words[:200]}"
    return "stopped", ", ".join(said.codes)


def _named(fact: str | float, words: str) -> bool:
    if isinstance(fact, str):
        return fact.lower() in words.lower()
    numbers = [float(n.rstrip(".")) for n in re.findall(r"-?\d+\.?\d*", words)]
    return any(abs(n - fact) < 0.006 * max(1.0, abs(fact) / 100) for n in numbers)


def _rung(finding: dict[str, Any], truth: Truth) -> bool:
    at = finding.get("at")
    return bool(at) and any(abs(at[0] - x) + abs(at[1] - y) < 4.0 for x, y in truth.rings)


def _brief(said: Said) -> str:
    part = said.document
    return f"{part.get('outer_diameter')} x {part.get('length')}, {len(part.get('grooves', []))} grooves"


def options(said: Said) -> list[tuple[str, str]]:
    """Every option that a stop or its choices name, or a caution's message."""
    found: list[tuple[str, str]] = []
    for finding in said.document.get("findings", []):
        for choice in finding.get("choices") or []:
            value = choice["value"]
            found.append(
                (choice["option"], ",".join(f"{v:g}" for v in value) if isinstance(value, list) else str(value))
            )
        if finding["level"] == "note":
            continue
        named = OPTION.findall(finding["message"])
        found += [(o, v.rstrip(".,")) for o, v in named]
        if ("at", "X,Y") in found:
            found += [("at", f"{x},{y.rstrip('.')}") for x, y in PLACE.findall(finding["message"])]
    unique = list(dict.fromkeys(found))
    return [(o, v) for o, v in unique if o != "at" or re.fullmatch(r"-?[\d.]+,-?[\d.]+", v)]


def followed(path: Path, truth: Truth, before: Said, option: tuple[str, str]) -> Step:
    name, value = option
    if name == "accept" and value.isupper():
        return Step(option, "good", "a placeholder")
    if name == "units" and truth.right and value != truth.right.units and value in ("mm", "in"):
        return Step(option, "good", "not the true unit: not followed")
    if name == "scale" and abs(_number(value) - truth.scale) > 1e-6:
        return Step(option, "good", "not the true scale: not followed")
    said = read(path, f"--{name}", value)
    if said.crash or said.status == 2:
        return Step(option, "dead end", said.crash or said.words[:160])
    if said.status == 1:
        same = set(said.codes) == set(before.codes) and said.words == before.words
        return Step(option, "dead end" if same else "asks on", f"{', '.join(said.codes)}: {said.words[:160]}")
    wants = _wanted(truth, name, value)
    apart = [differs(said, answer) for answer in wants]
    if "" in apart:
        mute = name == "at" and truth.facts and truth.must == "stop" and not said.cautions
        return Step(option, "WRONG", "what the other view shows is forgotten") if mute else Step(option, "good", "")
    return Step(option, "WRONG", apart[0] if apart else f"answered: {_brief(said)}")


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return float("nan")


def _wanted(truth: Truth, name: str, value: str) -> list[Answer]:
    """The answers that are right after an option."""
    answers = [a for a in (truth.right, *truth.more) if a]
    if name == "front":
        return [b for a in answers for b in (a, a.turned()) if b.front == value]
    if name == "at":
        x, y = (float(v) for v in value.split(","))
        under = [v.answer for v in truth.views if v.box[0] <= x <= v.box[2] and v.box[1] <= y <= v.box[3]]
        picked = [a for a in under if a]
        return picked or (answers if under and not picked and truth.must != "stop" else [])
    return answers
