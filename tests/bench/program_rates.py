"""How many drawings of other hands become programs that a second reader finds right; prints counts, asserts nothing.

python tests/bench/program_rates.py [--count N] [--first SEED] [--family NAME]...
"""

import argparse
import collections
import tempfile
from pathlib import Path

from support.independent.made import DIALECTS, made, plain_grooves
from support.independent.offices import compose
from support.independent.outcomes import outcome
from support.independent.recipes import FAMILIES


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--count", type=int, default=20)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--family", action="append", choices=list(FAMILIES))
    given = ask.parse_args()
    for family in given.family or FAMILIES:
        words = collections.Counter[str]()
        for seed in range(given.first, given.first + given.count):
            case = compose(plain_grooves(family, seed))
            if case.part is None or not case.part.grooves or (read := outcome(case)).word != "right":
                words["not to be made" if case.part is None or not case.part.grooves else f"read: {read.word}"] += 1
                continue
            for dialect in DIALECTS:
                with tempfile.TemporaryDirectory() as folder:
                    word, said = made(case, dialect, "far" if seed % 2 else "near", Path(folder))
                words[f"{dialect} {word}{' right' if word == 'made' and not said else ''}"] += 1
                if said:
                    print(f"  {family} {seed} {dialect} {word}: {'; '.join(said[:3])}")
        print(f"{family:11s}", ", ".join(f"{word} {count}" for word, count in words.most_common()), flush=True)


if __name__ == "__main__":
    main()
