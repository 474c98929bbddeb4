"""How sheets of drawing offices are read, family by family; prints shares, asserts nothing.

python tests/bench/office_rates.py [--count N] [--first SEED] [--family NAME]... [--show] [--no-follow] [--keep DIR]
"""

import argparse
import collections
import time
from pathlib import Path

from support.office.families import FAMILIES
from support.office.grading import GOOD, Grade, grade
from support.office.truth import Case

WORDS = ("right", "stopped", "asked", "refused", "stopped-", "by", "wrong+", "WRONG", "crash")


def _shown(case: Case, found: Grade) -> None:
    if found.word not in GOOD:
        print(f"  {case.name} [{case.kind}; {', '.join(case.extras)}] {found.word}: {found.why}")
    for step in found.steps:
        if step.end in ("dead end", "WRONG"):
            print(f"  {case.name} [{case.kind}] --{step.option[0]} {step.option[1]}: {step.end}: {step.why}")


def _keep(case: Case, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / f"{case.name}.dxf").write_bytes(case.data)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=30)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--family", action="append", choices=sorted(FAMILIES))
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--no-follow", action="store_true")
    parser.add_argument("--passing", type=int, default=0, help="print so many seeds of each family that pass")
    parser.add_argument("--keep", type=Path)
    asked = parser.parse_args()
    total: collections.Counter[str] = collections.Counter()
    ends: collections.Counter[str] = collections.Counter()
    for name in asked.family or sorted(FAMILIES):
        words: collections.Counter[str] = collections.Counter()
        steps: collections.Counter[str] = collections.Counter()
        passing: list[int] = []
        begin = time.monotonic()
        for seed in range(asked.first, asked.first + asked.count):
            case = FAMILIES[name](seed)
            if asked.keep:
                _keep(case, asked.keep)
            found = grade(case, not asked.no_follow)
            words[found.word] += 1
            passing += [seed] if found.word in GOOD else []
            steps.update(step.end for step in found.steps)
            if asked.show:
                _shown(case, found)
        shares = ", ".join(f"{w} {words[w]}" for w in WORDS if words[w])
        led = ", ".join(f"{end} {n}" for end, n in steps.items())
        print(
            f"{name}: {shares}; options: {led or 'none'}; {(time.monotonic() - begin) / asked.count:.2f} s a sheet",
            flush=True,
        )
        if asked.passing:
            print(f'    "{name}": {tuple(passing[: asked.passing])},')
        total += words
        ends += steps
    count = sum(total.values())
    print("all: " + ", ".join(f"{w} {total[w]} ({100 * total[w] / count:.1f} %)" for w in WORDS if total[w]))
    print("options: " + ", ".join(f"{end} {n}" for end, n in ends.items()))


if __name__ == "__main__":
    main()
