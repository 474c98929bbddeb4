"""Random drawings through the command line: what is made, listed and compared, held against the printed limits.

python tests/bench/limits_law.py [--count N] [--first SEED] [--keep FOLDER] [--compared N]

Prints each case that is not right, then counts: made with every printed limit kept, made and one broken, refused;
inspection lists right or wrong; programs at a limit and one count beyond that `compare` judged right or wrong.
"""

import argparse
import collections
import tempfile
import time
from pathlib import Path

from support.limits_oracle.cases import random_case
from support.limits_oracle.weighing import compared, listed, made


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--count", type=int, default=30)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--keep", default="")
    ask.add_argument("--compared", type=int, default=3, help="programs at a limit for each drawing")
    given = ask.parse_args()
    words, why = collections.Counter[str](), collections.Counter[str]()
    began = time.process_time()
    for seed in range(given.first, given.first + given.count):
        case = random_case(seed)
        with tempfile.TemporaryDirectory() as folder:
            place = Path(given.keep) / str(seed) if given.keep else Path(folder)
            place.mkdir(parents=True, exist_ok=True)
            files = case.save(place)
            verdicts = [made(case, files, place)]
            if not verdicts[0].word.startswith("refused"):
                verdicts.append(listed(case, place))
                verdicts += compared(case, files, place, given.compared, seed)
        for verdict in verdicts:
            words[verdict.word] += 1
            why.update(f"{verdict.word}: {fact.split(' of ')[0]}" for fact in verdict.facts)
            if verdict.wrong:
                print(seed, verdict.word, *verdict.facts, sep="\n    ", flush=True)
    for word, count in sorted(words.items()):
        print(f"{count:5} {word}")
    for fact, count in why.most_common():
        print(f"  {count} {fact}")
    print(f"{time.process_time() - began:.0f} s")


if __name__ == "__main__":
    main()
