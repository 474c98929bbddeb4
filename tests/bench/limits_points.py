"""Named small drawings and what must come of each; prints which end right and what is wrong with the others.

python tests/bench/limits_points.py [--only WORDS] [--keep FOLDER]
"""

import argparse
import tempfile
from pathlib import Path

from support.limits_oracle import overhangs, places, seen, stepped
from support.limits_oracle.points import POINTS

ENTERED = (overhangs, places, seen, stepped)


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--only", default="")
    ask.add_argument("--keep", default="")
    given, right, count = ask.parse_args(), 0, 0
    for number, (name, point) in enumerate(POINTS.items()):
        if given.only not in name:
            continue
        with tempfile.TemporaryDirectory() as folder:
            place = Path(given.keep) / f"{number:02d}" if given.keep else Path(folder)
            place.mkdir(parents=True, exist_ok=True)
            found = point(place)
        right, count = right + (not found), count + 1
        print(f"{number:3} {'wrong' if found else 'right'}: {name}", *found, sep="\n      ", flush=True)
    print(f"{right} of {count} right, of {len(ENTERED)} kinds")


if __name__ == "__main__":
    main()
