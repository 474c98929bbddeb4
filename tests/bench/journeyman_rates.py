"""Programs of practised hands: how many right ones agree, and how many of one wrong digit are told; prints counts.

python tests/bench/journeyman_rates.py [--right N] [--wrong N] [--seed N]
"""

import argparse
import collections
import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "postproc"))

from support.journeymen import journeyman_programs
from support.slow_cut import crashes, left_over
from test_84_journeymen import apart, one_digit, read

from postproc import compare_program, find_dialect


def right(count: int, seed: int) -> None:
    """False alarms among right programs, and what is said of them."""
    bad, codes = [], collections.Counter[str]()
    for made in journeyman_programs(count, seed):
        found = compare_program(made.part, made.text, made.shop)
        codes.update({f"{f.level.value} {f.code}" for f in found.findings})
        if not found.agree:
            bad.append(made.name)
    print(f"{count} right programs: {len(bad)} false alarms {bad[:5]}")
    print("  ", ", ".join(f"{code} {number}" for code, number in codes.most_common()))


def wrong(count: int, seed: int) -> None:
    """One digit exchanged: told, silent where nothing is cut otherwise, missed."""
    rng, words = random.Random(seed), collections.Counter[str]()
    programs = tuple(journeyman_programs(60, seed + 900))
    for _ in range(count):
        made = rng.choice(programs)
        text, tolerance = one_digit(made.text, rng), made.shop.machine.tolerance
        run = read(made, text)
        agree = compare_program(made.part, text, made.shop, find_dialect(made.dialect)).agree
        if not agree or run.units != made.part.units or len(run.motions) > 3_000:
            words["missed" if agree else "told"] += 1
            continue
        true = left_over(made.part, read(made, made.text), made.shop)
        otherwise = apart(left_over(made.part, run, made.shop), true, made.part, 1.02 * tolerance)
        hurt = crashes(made.part, run, made.shop, 1.05 * tolerance)
        words["missed" if otherwise or hurt else "cuts nothing else"] += 1
        if otherwise or hurt:
            print(
                f"  missed: {made.name}",
                next(b for a, b in zip(made.text.split("\n"), text.split("\n"), strict=False) if a != b),
            )
    print(f"{count} with one digit exchanged:", ", ".join(f"{word} {n}" for word, n in words.most_common()))


if __name__ == "__main__":
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--right", type=int, default=500)
    ask.add_argument("--wrong", type=int, default=1000)
    ask.add_argument("--seed", type=int, default=1)
    given = ask.parse_args()
    right(given.right, given.seed)
    wrong(given.wrong, given.seed)
