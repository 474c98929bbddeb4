"""Each field on each side with each kind of deviation: made, listed, and compared at both limits and beyond them.

python tests/bench/limits_grid.py [--units mm|in] [--only WORDS] [--keep FOLDER]
"""

import argparse
import collections
import tempfile
import time
from pathlib import Path

from support.limits_oracle.grid import CELLS, cell
from support.limits_oracle.weighing import whole


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--units", default="mm")
    ask.add_argument("--only", default="")
    ask.add_argument("--keep", default="")
    given, words = ask.parse_args(), collections.Counter[str]()
    began = time.process_time()
    for where, name, kind in CELLS:
        title = f"{where} {name} {kind}"
        if given.only not in title:
            continue
        with tempfile.TemporaryDirectory() as folder:
            place = Path(given.keep) / title.replace(" ", "_").replace("/", "") if given.keep else Path(folder)
            place.mkdir(parents=True, exist_ok=True)
            case = cell(where, name, kind, given.units)
            verdicts = whole(case, place, name)
        words.update(v.word for v in verdicts)
        for verdict in verdicts:
            if verdict.wrong or verdict.word.startswith("refused"):
                print(title, verdict.word, *verdict.facts, sep="\n    ", flush=True)
    for word, count in sorted(words.items()):
        print(f"{count:5} {word}")
    print(f"{time.process_time() - began:.0f} s")


if __name__ == "__main__":
    main()
