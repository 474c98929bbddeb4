"""How sheets of other hands are read, family by family; prints rates, asserts nothing.

python tests/bench/hands_rates.py [--count N] [--first SEED] [--family NAME]... [--show] [--keep DIR]

Every second sheet has one false value. A true one should be read as drawn; a false one should stop.
"""

import argparse
import collections
import random
import tempfile
from pathlib import Path

from hands_families import FAMILIES
from hands_pencil import Pencil, Sheet
from hands_pieces import Cut

from extractor import read_drawing
from extractor.finding import Level
from extractor.part import Groove, Reading

NEAR = {"mm": 2e-3, "in": 1e-4}  # a drawing's own rounding
LIMITS_NEAR = 6e-4  # limits are printed to 0.001


def sheet(name: str, seed: int, false: bool) -> tuple[Sheet, str]:
    """The sheet of a family and a seed, and the lie on it; a false one is drawn once to count what it prints."""
    said = Pencil(comma=seed % 3 == 0 and name != "inch", pick=random.Random(seed))
    made = FAMILIES[name](random.Random(seed), said)
    if false:
        said = Pencil(said.comma, random.Random(seed), lie=random.Random(seed + 1).randrange(said.printed))
        made = FAMILIES[name](random.Random(seed), said)
    return made, said.told


def unlike(made: Sheet, reading: Reading) -> list[str]:
    """In what the part that was read differs from the piece that was drawn."""
    piece, part, near = made.piece, reading.part, NEAR[made.piece.unit]
    if part is None or reading.units != piece.unit:
        return [f"no part in {piece.unit}"]
    told = []
    if max(abs(part.length - piece.length), abs(part.outer_diameter - piece.across)) > near:
        told.append(f"{part.outer_diameter} across, {part.length} long")
    if len(part.grooves) != len(piece.cuts):
        return [*told, f"{len(part.grooves)} grooves for {len(piece.cuts)}"]
    flip = reading.front is not None and (reading.front.end == "left") != made.left
    for cut in piece.cuts:
        z = -(piece.length - cut.far if flip else cut.z)
        found = min(part.grooves, key=lambda g: abs(g.z_near - z) + 1e3 * ((g.where == "inside") != cut.inside))
        told += _groove(cut, z, found, near)
    return told


def _groove(cut: Cut, z: float, found: Groove, near: float) -> list[str]:
    pairs = ((found.z_near, z), (found.z_far, z - cut.width), (found.floor_diameter, cut.floor))
    told = [f"{read:g} for {true:g}" for read, true in pairs if abs(read - true) > near]
    limits = {"width": cut.width_limits, "floor_diameter": cut.floor_limits}
    for what, true in limits.items():
        read = found.tolerances.get(what)
        if (read is None) != (true is None) or (
            read and true and max(abs(r - t) for r, t in zip(read, true, strict=True)) > LIMITS_NEAR
        ):
            told.append(f"{what} {read} for {true}")
    return told


def grade(made: Sheet, lie: str, folder: Path) -> tuple[str, str]:
    """One word for how the sheet was read, and why."""
    path = folder / "sheet.dxf"
    made.drawing.save(path)
    reading = read_drawing(path)
    stops = [f"{f.code}: {f.message}" for f in reading.findings if f.level is Level.STOP]
    cautions = [f.message for f in reading.findings if f.level is Level.CAUTION]
    if stops:
        return ("stopped" if lie else "asked"), stops[0]
    wrong = unlike(made, reading)
    if not lie:
        return ("WRONG" if wrong else "right"), "; ".join(wrong)
    return ("told" if any("prints" in c or "says" in c for c in cautions) else "PASSED OVER"), "; ".join(cautions)


def main() -> None:
    """Print the rates."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--family", action="append", choices=sorted(FAMILIES))
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--keep", type=Path)
    asked = parser.parse_args()
    total = collections.Counter[str]()
    with tempfile.TemporaryDirectory() as place:
        folder = asked.keep or Path(place)
        folder.mkdir(parents=True, exist_ok=True)
        for name in asked.family or FAMILIES:
            words = collections.Counter[str]()
            for seed in range(asked.first, asked.first + asked.count):
                made, lie = sheet(name, seed, false=seed % 2 == 1)
                word, why = grade(made, lie, folder)
                words[word] += 1
                if asked.keep:
                    (folder / "sheet.dxf").rename(folder / f"{name}-{seed}.dxf")
                if asked.show and word in ("asked", "WRONG", "PASSED OVER", "told"):
                    print(f"  {name} {seed} [{lie or 'true'}] {word}: {why}")
            print(f"{name}: " + ", ".join(f"{word} {number}" for word, number in sorted(words.items())), flush=True)
            total += words
    print("all: " + ", ".join(f"{word} {number}" for word, number in sorted(total.items())))


if __name__ == "__main__":
    main()
