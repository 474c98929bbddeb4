"""2,000 damaged copies of the sample drawings through the reader: outcomes, slowest, most memory.

    python tests/bench/mutations.py [--count 2000] [--seed 1] [--keep FOLDER]

An answer or one sentence is right; a traceback, more than 10 s or more than 1 GiB is named and makes the exit status 1.
"""

import argparse
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path

from support.mutate import mutations

from extractor import errors
from extractor.reading import read_drawing

SAMPLES = sorted((Path(__file__).resolve().parents[2] / "drawings").glob("*.dxf"))
LONGEST, MOST_MEMORY = 10.0, 1 << 30


def outcome(path: Path) -> str:
    """What came of reading: the first stop's code, the kind of error, or "read"."""
    try:
        reading = read_drawing(path)
    except errors.RillwrightError as error:
        return type(error).__name__ if "\n" not in str(error) else "FAULT of two lines"
    return next((f"stop {f.code}" for f in reading.findings if f.stops), "read")


def main() -> int:
    """Run, print the figures, return 1 if anything fell over."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path)
    options = parser.parse_args()
    signal.signal(signal.SIGALRM, lambda *_: (_ for _ in ()).throw(TimeoutError("over 10 s")))
    counts: Counter[str] = Counter()
    slowest, faults = (0.0, ""), []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "mutation.dxf"
        share = -(-options.count // len(SAMPLES))
        for sample in SAMPLES:
            for name, data in mutations(sample.read_bytes(), share, options.seed):
                path.write_bytes(data)
                started = time.perf_counter()
                signal.alarm(int(LONGEST) + 1)
                try:
                    counts[outcome(path)] += 1
                except Exception as error:
                    counts[f"FAULT {type(error).__name__}"] += 1
                    faults.append(f"{sample.name} {name}: {traceback.format_exc(limit=-4)}")
                    if options.keep:
                        (options.keep / f"{sample.stem}-{name.replace(':', '-')}.dxf").write_bytes(data)
                finally:
                    signal.alarm(0)
                slowest = max(slowest, (time.perf_counter() - started, f"{sample.name} {name}"))
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    for word, count in counts.most_common():
        print(f"{count:6} {word}")
    print(f"slowest {slowest[0]:.2f} s ({slowest[1]}), most memory {memory / 2**20:.0f} MiB")
    print(*faults, sep="\n")
    return 1 if faults or slowest[0] > LONGEST or memory > MOST_MEMORY else 0


if __name__ == "__main__":
    sys.exit(main())
