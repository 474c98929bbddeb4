"""How often drawings that nobody tuned the reader to are read right; prints shares, asserts nothing.

python tests/bench/reading_rates.py [--count N] [--first SEED] [--family NAME]... [--show] [--boil] [--keep DIR]
"""

import argparse
import collections
import time
from pathlib import Path

from support.independent.more_traps import MORE
from support.independent.negatives import KINDS, negative
from support.independent.offices import Case, Recipe, compose
from support.independent.outcomes import Outcome, outcome
from support.independent.recipes import FAMILIES, boiled_down
from support.independent.traps import TRAPS, trapped


def _cases(family: str, first: int, count: int) -> list[tuple[str, object, Case]]:
    if family == "negatives":
        rounds = max(1, count // len(KINDS))
        return [(f"{k} {s}", None, negative(k, s, s % 2 == 1)) for k in KINDS for s in range(first, first + rounds)]
    if family == "traps":
        traps, rounds = {**TRAPS, **MORE}, max(1, count // len(TRAPS))
        return [
            (f"{n} {s}", None, trapped(t, s, s % 2 == 1))
            for n, t in traps.items()
            for s in range(first, first + rounds)
        ]
    if family == "solids":
        from support.independent.solid_recipes import solid_recipe
        from support.independent.solid_sheets import solid_case

        chosen = [(s, solid_recipe(s)) for s in range(first, first + count)]
        return [(str(s), recipe, solid_case(recipe)) for s, recipe in chosen]
    chosen_recipes = [FAMILIES[family](seed) for seed in range(first, first + count)]
    return [(str(recipe.seed), recipe, compose(recipe)) for recipe in chosen_recipes]


def _boil(recipe: Recipe, found: Outcome) -> Recipe:
    """The least recipe that fails in the same way."""
    same = lambda other: (o := outcome(compose(other))).word == found.word and o.codes[:1] == found.codes[:1]  # noqa: E731
    return boiled_down(recipe, same)


def _spoken(recipe: object) -> str:
    """Only what a recipe says beyond the default."""
    plain = type(recipe)()
    said = {k: v for k, v in vars(recipe).items() if v != getattr(plain, k)}
    if "wishes" in said:
        said["wishes"] = {k: v for k, v in vars(said["wishes"]).items() if v != getattr(plain.wishes, k)}
    return str(said)


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--count", type=int, default=40)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--family", action="append", choices=[*FAMILIES, "traps", "negatives", "solids"])
    ask.add_argument("--show", action="store_true", help="print every sheet that was not read right")
    ask.add_argument("--boil", action="store_true", help="boil each of them down first")
    ask.add_argument("--keep", type=Path, help="save those sheets here")
    given = ask.parse_args()
    for family in given.family or [*FAMILIES, "traps", "negatives", "solids"]:
        began, words, slowest = time.perf_counter(), collections.Counter[str](), 0.0
        for name, recipe, case in _cases(family, given.first, given.count):
            found = outcome(case)
            words[found.word] += 1
            slowest = max(slowest, found.seconds)
            good = found.word in ("right", "refused-ok") or (case.expect == "refuse" and found.word == "refused")
            if good or not given.show:
                continue
            least = _boil(recipe, found) if isinstance(recipe, Recipe) and given.boil else recipe
            print(f"  {family} {name}: {found.word}: {found.why[:300]}\n      {_spoken(least) if least else name}")
            if given.keep:
                case.save(str(given.keep / f"{family}-{name.split('(')[0].replace(' ', '-')}.dxf"))
        spent = time.perf_counter() - began
        total = sum(words.values())
        shares = ", ".join(f"{word} {count} ({100 * count / total:.0f} %)" for word, count in words.most_common())
        print(f"{family:11s} {shares}; slowest {slowest:.2f} s; {spent:.0f} s in all", flush=True)


if __name__ == "__main__":
    main()
