"""What a reading is worth against the truth of its case."""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from extractor import Groove, Reading, ReadOptions, read_drawing
from support.second_hand.cases import READ, REFUSE, SHEETS, Case
from support.second_hand.families import FAMILIES
from support.second_hand.lathe import Recess

RIGHT, WARNED, REFUSED_RIGHTLY, REFUSED, WRONG, CRASH, SLOW = (
    "right",
    "warned",
    "refused rightly",
    "refused needlessly",
    "SILENT WRONG",
    "CRASH",
    "SLOW",
)
# Cautions that say nothing about the shape that was read.
GENERAL = frozenset({"units-weighed", "file-repaired", "drawn-again", "paper-space", "units-overridden"})


@dataclass(frozen=True)
class Grade:
    """A word, and what led to it."""

    word: str
    why: str
    seconds: float = 0.0


def off(found: Groove, truth: Recess, tolerance: float) -> str:
    """What differs between a groove and the truth, or nothing."""
    pairs = (
        ("near", found.z_near, truth.near),
        ("far", found.z_far, truth.far),
        ("mouth", found.mouth_diameter, truth.mouth),
        ("floor", found.floor_diameter, truth.floor),
        ("radius", found.corner_radius, truth.radius),
    )
    # A corner radius drawn in chords or splines is known less exactly than a wall.
    return " ".join(
        f"{n} {a:.4f}/{b:.4f}" for n, a, b in pairs if abs(a - b) > tolerance * (10 if n == "radius" else 2)
    )


def faults(case: Case, reading: Reading) -> list[str]:
    """Everything in which the reading differs from the truth."""
    part, truth = reading.part, case.part
    assert part is not None
    if truth is None:
        return ["no turned part to be read here"]
    made = []
    if part.units != truth.units:
        made.append(f"units {part.units}/{truth.units}")
    if abs(part.length - truth.length) > 2 * case.tolerance:
        made.append(f"length {part.length:.4f}/{truth.length:.4f}")
    if abs(part.outer_diameter - truth.diameter) > 2 * case.tolerance:
        made.append(f"diameter {part.outer_diameter:.4f}/{truth.diameter:.4f}")
    left = list(part.grooves)
    for number, recess in enumerate(truth.recesses):
        kept = list(left)
        made += _take(case, recess, left, reading)
        for groove in (g for g in kept if g not in left and not recess.loose):
            made += _deviations(case, number, groove)
    return made + [f"extra {g.where} {g.shape} {g.z_near:.3f} {g.z_far:.3f}" for g in left]


def _deviations(case: Case, number: int, groove: Groove) -> list[str]:
    """Deviations that the drawing gives to a size and the reading has not, or has otherwise."""
    made = []
    for name in ("width", "floor_diameter"):
        wanted = case.given.get((number, name))
        found = groove.tolerances.get(name) if name not in groove.general else None
        # A like recess without a dimension of its own has the tolerance that another prints; with one it has none.
        allowed = [wanted] if wanted is not None else [None, _of_a_like_one(case, number, name)]
        if not any(_agree(found, one) for one in allowed):
            made.append(f"tolerance of {name} at {groove.z_near:g}: {found}/{wanted}")
    return made


def _agree(found: tuple[float, float] | None, wanted: tuple[float, float] | None) -> bool:
    if found is None or wanted is None:
        return found is wanted
    return max(abs(a - b) for a, b in zip(found, wanted, strict=True)) <= 6e-4


def _of_a_like_one(case: Case, number: int, name: str) -> tuple[float, float] | None:
    """What the drawing gives to a recess of the same side, form, width and floor."""
    recesses = case.part.recesses if case.part is not None else ()
    sizes = [(r.where, round(r.near - r.far, 4), round(r.floor, 4), r.shapes) for r in recesses]
    like = [k for k, size in enumerate(sizes) if size == sizes[number] and (k, name) in case.given]
    return case.given[like[0], name] if like else None


def _take(case: Case, recess: Recess, left: list[Groove], reading: Reading) -> list[str]:
    near = [g for g in left if g.where == recess.where and g.z_near > recess.far and g.z_far < recess.near]
    if recess.where == "face":
        near = [g for g in near if g.mouth_diameter > recess.floor and g.floor_diameter < recess.mouth]
    if not near:
        told = recess.loose and any(f.level == "caution" for f in reading.findings)
        return [] if told else [f"missed {recess.where} {recess.near:.3f} {recess.far:.3f} floor {recess.floor:.3f}"]
    best = min(near, key=lambda g: abs(g.z_near - recess.near) + abs(g.z_far - recess.far))
    left.remove(best)
    if recess.loose:
        return []
    different = off(best, recess, case.tolerance)
    if best.shape not in recess.shapes:
        different += f" shape {best.shape}"
    return [f"groove {recess.near:.3f}: {different}"] if different else []


def judge(case: Case, reading: Reading) -> Grade:
    """The grade of one reading."""
    stops = [f for f in reading.findings if f.stops]
    if reading.part is None or stops:
        why = "; ".join(f"{f.code}: {f.message}" for f in stops)
        return Grade(REFUSED_RIGHTLY if case.expect != READ else REFUSED, why)
    wrong = faults(case, reading)
    cautions = [f for f in reading.findings if f.level == "caution" and f.code not in GENERAL]
    told = "; ".join(f"{f.code}" for f in cautions)
    if not wrong:
        return Grade(RIGHT, told)
    # A symmetric plate may be read, with the caution that symmetry alone says that it is turned.
    enough = cautions if case.expect != REFUSE else [f for f in cautions if f.code == "turned-by-symmetry"]
    return Grade(WARNED if enough else WRONG, f"{' | '.join(wrong[:4])} [{told}]")


def grade(case: Case, folder: Path, slow: float = 5.0) -> Grade:
    """Write the case, read it, judge it; a reading of more than `slow` seconds of computing is not right."""
    path = folder / (case.name.replace("/", "-") + ".dxf")
    path.write_bytes(case.data)
    begin = time.process_time()
    try:
        reading = read_drawing(path, ReadOptions(**case.options))  # type: ignore[arg-type]
    except Exception as error:
        refused = type(error).__name__ == "DrawingError"
        word = (REFUSED if case.expect == READ else REFUSED_RIGHTLY) if refused else CRASH
        return Grade(word, f"{type(error).__name__}: {error}", time.process_time() - begin)
    seconds = time.process_time() - begin
    found = judge(case, reading)
    return Grade(SLOW if seconds > slow and found.word in (RIGHT, WARNED) else found.word, found.why, seconds)


def tally(grades: Sequence[Grade]) -> dict[str, int]:
    """How many of each word."""
    return {w: sum(g.word == w for g in grades) for w in (RIGHT, WARNED, REFUSED_RIGHTLY, REFUSED, WRONG, CRASH, SLOW)}


def pairs(negatives: int = 5) -> list[tuple[str, str]]:
    """Every family on every kind of sheet; a few families where the part itself is beside the matter."""
    few = {"two_parts", "assembly", "flat"}
    return [(f, s) for s in SHEETS for k, f in enumerate(FAMILIES) if s not in few or k < negatives]
