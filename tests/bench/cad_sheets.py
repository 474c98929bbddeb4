"""Sheets of true solids laid out and exported by a general CAD program, and how they are read; asserts nothing.

export RILLWRIGHT_CAD_PYTHON="env PYTHONPATH=ITS_MODULES ITS_PYTHON"
python tests/bench/cad_sheets.py draw FOLDER [--family F]... [--first SEED] [--count N]
python tests/bench/cad_sheets.py vary FOLDER --into OTHER
python tests/bench/cad_sheets.py read FOLDER [--family F]... [--show] [--no-follow]

`draw` needs that program and leaves NAME.dxf with NAME.truth.json, but draws none that is there; the truth comes from
the solid's numbers. `vary` makes other sheets of those: with tolerances, notes, pens, sizes taken apart, false sizes.
`read` reads them by the command line and prints rates by family.
"""

import argparse
import collections
import json
import os
import shlex
import subprocess
import time
from pathlib import Path
from typing import Any

from cad_finish import finish
from cad_layout import FAMILIES, lay_out
from support.office.grading import followed, judged, options
from support.office.reading import CLOSE, Said, read
from support.office.truth import Answer, Cut, Truth, View

WORDS = ("right", "asked rightly", "asked needlessly", "refused", "wrong with a caution", "WRONG IN SILENCE", "crash")
ROUNDED = 0.0021
"""The program writes six digits: places beyond 100 are rounded to 0.001 on the page, and a length has two ends."""


def draw(asked: argparse.Namespace) -> None:
    """Have the program draw the sheets."""
    command = shlex.split(asked.cad or os.environ.get("RILLWRIGHT_CAD_PYTHON", ""))
    if not command:
        raise SystemExit("Give the CAD program's interpreter by --cad or RILLWRIGHT_CAD_PYTHON.")
    folder: Path = asked.folder
    folder.mkdir(parents=True, exist_ok=True)
    jobs = []
    for seed in range(asked.first, asked.first + asked.count):
        for family in asked.family or FAMILIES:
            job, truth = lay_out(family, seed)
            name = f"{family}-{seed}"
            out = (folder / f"{name}.dxf").resolve()
            (folder / f"{name}.truth.json").write_text(json.dumps(truth))
            jobs += [] if out.exists() else [{**job, "out": str(out)}]
    plan = folder / "jobs.json"
    plan.write_text(json.dumps(jobs))
    here = Path(__file__).with_name("cad_pages.py")
    subprocess.run([*command, str(here), str(plan)], check=True, env={**os.environ, "QT_QPA_PLATFORM": "offscreen"})


def vary(asked: argparse.Namespace) -> None:
    """Other sheets of those that are drawn."""
    asked.into.mkdir(parents=True, exist_ok=True)
    for file in sorted(asked.folder.glob("*.truth.json")):
        old, name = json.loads(file.read_text()), file.name.removesuffix(".truth.json")
        if (asked.folder / f"{name}.dxf").exists():
            job, truth = lay_out(old["family"], old["seed"], habits=True)
            finish(asked.folder / f"{name}.dxf", job, asked.into / f"{name}.dxf")
            (asked.into / file.name).write_text(json.dumps(truth))


def _answer(truth: dict[str, Any], factor: float = 1.0, units: str = "") -> Answer:
    cuts = [Cut(g["where"], g["near"] * factor, g["far"] * factor, g["floor"] * factor) for g in truth["grooves"]]
    cuts.sort(key=lambda c: (-c.near, c.where))
    size = truth["length"] * factor, truth["diameter"] * factor
    return Answer(units or truth["units"], *size, tuple(cuts), truth["front"])


def truth_of(truth: dict[str, Any]) -> Truth:
    """The truth as the grading wants it. An inch part's size in mm is the same part."""
    right, more, scale = _answer(truth, truth["unknown_scale"]), [], truth["scale"]
    if truth["units"] == "in":
        more.append(_answer(truth, 25.4, "mm"))
        scale /= 25.4  # the page is in mm
    views = tuple(View(tuple(box), right) for box in truth["views"])
    if truth.get("false"):
        return Truth("stop", right, facts=((truth["false"][1],),), more=tuple(more), views=views, scale=scale)
    return Truth("read", right, more=tuple(more), views=views, scale=scale)


def _outer_walls(said: Said, truth: dict[str, Any]) -> str:
    """In what the outer walls of face grooves differ, "" if in nothing."""
    want = sorted(g["outer"] for g in truth["grooves"] if g["where"] == "face")
    found = sorted(g["mouth_diameter"] for g in said.document.get("grooves", []) if g["where"] == "face")
    k = truth["unknown_scale"] * (25.4 if truth["units"] == "in" and said.document.get("units") == "mm" else 1)
    near = len(want) == len(found) and all(abs(a * k - b) < 0.01 for a, b in zip(want, found, strict=True))
    return "" if near else f"outer walls {found} for {want}"


def grade(path: Path, truth: dict[str, Any], follow: bool) -> tuple[str, str, list[Any]]:
    """The word for one sheet, why, and where each option leads."""
    CLOSE.update(mm=ROUNDED / min(truth["scale"], 1.0), **{"in": ROUNDED / 4})
    said = read(path)
    wants = truth_of(truth)
    word, why = judged(said, wants)
    if word == "right" and _outer_walls(said, truth):
        word, why = "WRONG", _outer_walls(said, truth)
    if word in ("asked", "refused"):
        asked = options(said)
        word = "asked rightly" if asked and truth["ask"] else "asked needlessly" if asked else "refused"
    ends = {
        "WRONG": "WRONG IN SILENCE",
        "wrong+": "wrong with a caution",
        "stopped": "right",
        "stopped-": "asked rightly",
    }
    word = ends.get(word, word)
    steps = [followed(path, wants, said, option) for option in options(said)] if follow else []
    return word, why, steps


def rates(asked: argparse.Namespace) -> None:
    """Read a folder of sheets and print what became of them."""
    total: collections.Counter[str] = collections.Counter()
    ends: collections.Counter[str] = collections.Counter()
    rows: dict[str, collections.Counter[str]] = collections.defaultdict(collections.Counter)
    begin = time.monotonic()
    for file in sorted(asked.folder.glob("*.truth.json")):
        truth = json.loads(file.read_text())
        name = file.name.removesuffix(".truth.json")
        path = asked.folder / f"{name}.dxf"
        if (asked.family and truth["family"] not in asked.family) or not path.exists():
            continue
        word, why, steps = grade(path, truth, not asked.no_follow)
        rows[truth["family"]][word] += 1
        total[word] += 1
        ends.update(s.end for s in steps)
        if asked.show and word != "right":
            print(f"  {name} [{', '.join(truth['about'])}] {word}: {why}", flush=True)
        for step in steps if asked.show else ():
            if step.end in ("dead end", "WRONG"):
                print(f"  {name} --{step.option[0]} {step.option[1]}: {step.end}: {step.why}", flush=True)
    count = max(sum(total.values()), 1)
    for family, words in rows.items():
        print(f"{family}: " + ", ".join(f"{w} {words[w]}" for w in WORDS if words[w]))
    print(f"all {count}: " + ", ".join(f"{w} {total[w]} ({100 * total[w] / count:.1f} %)" for w in WORDS if total[w]))
    print("options: " + (", ".join(f"{end} {n}" for end, n in ends.items()) or "none"))
    print(f"{(time.monotonic() - begin) / count:.2f} s a sheet")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("what", choices=("draw", "vary", "read"))
    parser.add_argument("folder", type=Path)
    parser.add_argument("--into", type=Path, help="vary: the folder for the new sheets")
    parser.add_argument("--cad", help="command of the CAD program's interpreter; else RILLWRIGHT_CAD_PYTHON")
    parser.add_argument("--family", action="append", choices=FAMILIES)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--count", type=int, default=5)
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--no-follow", action="store_true")
    asked = parser.parse_args()
    {"draw": draw, "vary": vary, "read": rates}[asked.what](asked)


if __name__ == "__main__":
    main()
