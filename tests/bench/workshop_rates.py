"""How sheets of a small workshop of three tongues are read, kind by kind; prints shares, asserts nothing.

python tests/bench/workshop_rates.py [--count N] [--first SEED] [--kind NAME]... [--show] [--follow] [--keep DIR]
"""

import argparse
import collections
from pathlib import Path

from support.office.grading import GOOD, grade
from support.workshop.kinds import KINDS


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=6, help="sheets of each kind")
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--kind", action="append", choices=[kind.__name__ for kind in KINDS])
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--follow", action="store_true", help="follow every option that a finding names")
    parser.add_argument("--keep", type=Path)
    asked = parser.parse_args()
    total: collections.Counter[str] = collections.Counter()
    for number, kind in enumerate(KINDS):
        if asked.kind and kind.__name__ not in asked.kind:
            continue
        words: collections.Counter[str] = collections.Counter()
        for seed in range(asked.first, asked.first + asked.count):
            case = kind(seed * len(KINDS) + number)
            if asked.keep:
                asked.keep.mkdir(parents=True, exist_ok=True)
                (asked.keep / f"{kind.__name__}-{seed}.dxf").write_bytes(case.data)
            found = grade(case, asked.follow)
            words[found.word] += 1
            if asked.show and found.word not in GOOD:
                print(f"  {kind.__name__}-{seed} [{case.kind}] {found.word}: {found.why}")
            for step in found.steps:
                if asked.show and step.end in ("dead end", "WRONG"):
                    print(f"  {kind.__name__}-{seed} --{step.option[0]} {step.option[1]}: {step.end}: {step.why}")
        print(f"{kind.__name__}: " + ", ".join(f"{word} {n}" for word, n in words.most_common()), flush=True)
        total += words
    count = sum(total.values())
    print("all: " + ", ".join(f"{word} {n} ({100 * n / count:.1f} %)" for word, n in total.most_common()))


if __name__ == "__main__":
    main()
