"""Weighs what the tool says of one case, in one word and its facts."""

import json
import random
from dataclasses import dataclass
from pathlib import Path

from support.door import Answer, inspection, judged, make

from .cases import Case
from .law import Asked, faults
from .listing import listed_faults, numbers_of
from .rival import Aims, rival

Files = tuple[Path, Path]


@dataclass(frozen=True)
class Verdict:
    """One word, its facts, and whether it is a defect."""

    word: str
    facts: list[str]
    wrong: bool


def made(case: Case, files: Files, folder: Path, *more: str) -> Verdict:
    """What `make` came to, held against the printed limits."""
    answer = make(*files, folder / "out", *more)
    if answer.status:
        stops = answer.stops()
        return Verdict("refused" if stops else "refused without a fact", stops, not stops)
    text = (folder / "out" / "piece.nc").read_text(encoding="ascii")
    found = faults(case.piece, list(case.wanted), case.shop, text)
    return Verdict("made and broken" if found else "made and kept", [str(f) for f in found], bool(found))


def listed(case: Case, folder: Path) -> Verdict:
    """The inspection list of what was made."""
    record = folder / "out" / "piece.json"
    inspection(record, folder / "list.csv")
    grooves = json.loads(record.read_text(encoding="utf-8"))["part"]["grooves"]
    found = listed_faults(case.piece, list(case.wanted), folder / "list.csv", numbers_of(case.piece, grooves))
    return Verdict("list wrong" if found else "list right", found, bool(found))


def told(answer: Answer) -> list[str]:
    """What compare has against a program: the states of the grooves that do not match, and its stops."""
    off = [g for g in answer.document["grooves"] if g["state"] != "matches"]
    return [f"{g['state']} of {g['drawing']}: {g['difference']}" for g in off] + answer.stops()


def compared(case: Case, files: Files, folder: Path, count: int, seed: int) -> list[Verdict]:
    """Programs at a limit and one count beyond it, for some of the printed limits."""
    aims, rng = Aims(case.piece, list(case.wanted)), random.Random(f"limits {seed}")
    ends = [(one, upper) for one in aims.wanted for upper in (True, False)]
    found = []
    for one, upper in rng.sample(ends, min(count, len(ends))):
        found += [v for beyond in (False, True) if (v := at_limit(case, files, folder, aims, one, upper, beyond))]
    return found


def at_limit(
    case: Case, files: Files, folder: Path, aims: Aims, one: Asked, upper: bool, beyond: bool
) -> Verdict | None:
    """How a program at one limit, or one count beyond it, is compared; None where the shop can't cut it."""
    state = aims.solve(one, upper, beyond)
    text = rival(case.piece, list(case.wanted), case.shop, state) if state else None
    if text is None or state is None:
        return None
    oracle = faults(case.piece, list(case.wanted), case.shop, text)
    assert bool(oracle) == beyond, (case.seed, one.measure, upper, beyond, [str(f) for f in oracle])
    name = f"{one.measure.name} {one.limits.source} {'beyond' if beyond else 'at'} {'upper' if upper else 'lower'}"
    value = one.measure.value(state)
    said = f"{name} of {one.measure.recess}: {value:.5g}, {one.limits.low:.5g} to {one.limits.high:.5g}"
    answer = judged(files, text, "--dialect", "plunge")
    if answer.status > 1 or answer.document is None:
        return Verdict("can't be compared", [said, answer.said.strip()[:200]], True)
    if answer.document["agree"] != beyond:
        return Verdict(f"{'beyond' if beyond else 'at'} a limit, right", [], False)
    word = "beyond a limit, agreed" if beyond else "at a limit, accused"
    return Verdict(word, [said, *told(answer)], True)


def whole(case: Case, folder: Path, name: str) -> list[Verdict]:
    """Made, listed, and compared at both limits of the first measure of that name."""
    files = case.save(folder)
    verdicts = [made(case, files, folder)]
    if verdicts[0].word.startswith("refused"):
        return verdicts
    verdicts.append(listed(case, folder))
    aims = Aims(case.piece, list(case.wanted))
    picked = next((a for a in aims.wanted if a.measure.name == name), None)
    for upper, beyond in ((True, False), (True, True), (False, False), (False, True)) if picked else ():
        assert picked is not None
        verdict = at_limit(case, files, folder, aims, picked, upper, beyond)
        verdicts += [verdict] if verdict else []
    return verdicts
