"""Coverage-guided fuzzing of every door of the tool, by atheris (`pip install atheris`; Apache-2.0, for this alone).

    PYTHONPATH=.:tests python tests/bench/fuzz.py TARGET [--seconds 120] [--keep FOLDER] [--seed N]

TARGET: dxf, program, shop, dialect, answers, record. Bytes are changed by the library and, every other time, by tags
(DXF) or by words. A fault's input is kept in FOLDER as it was and said with its last lines; the run goes on. The exit
status is 1 if there was one. A slow input (over 10 s) and one that makes the process grow by 1 GiB count too.
"""

import argparse
import hashlib
import os
import random
import re
import resource
import sys
import tempfile
import time
import traceback
from pathlib import Path

import atheris
from support.mutate import CODES, TAG_CHANGES, VALUES, split

ROOMS = ["extractor", "planner", "postproc", "rillwright"]
LONGEST, MOST = 10.0, 1 << 30
WORD = re.compile(rb"[A-Za-z_]+|[-+]?\d*\.?\d+|\s+|[^\sA-Za-z0-9]")

with atheris.instrument_imports(include=ROOMS):
    from support.fuzz_targets import TARGETS, seeds


class Faults:
    """What fell over, each place once."""

    def __init__(self, name, keep):
        self.name, self.target, self.keep = name, TARGETS[name], keep
        self.seen, self.ran, self.slowest = set(), 0, 0.0
        self.held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024

    def __call__(self, data):
        """Run one input."""
        began = time.monotonic()
        self.ran += 1
        try:
            self.target(data)
        except Exception as error:
            frames = traceback.extract_tb(error.__traceback__)
            ours = [f for f in frames if any(f"/{room}/" in f.filename for room in [*ROOMS, "support"])]
            self.told(data, f"{type(error).__name__}: {str(error)[:300]}", f"{ours[-1].filename}:{ours[-1].lineno}")
        took, held = time.monotonic() - began, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
        self.slowest = max(self.slowest, took)
        if took > LONGEST:
            self.told(data, f"{took:.0f} s", "slow")
        if held - self.held > MOST:
            self.told(data, f"{(held - self.held) >> 20} MiB more", "grown")
        self.held = max(held, self.held)

    def told(self, data, words, place):
        """Keep one that is new."""
        if place in self.seen:
            return
        self.seen.add(place)
        path = self.keep / f"{self.name}-{hashlib.sha256(data).hexdigest()[:10]}"
        path.write_bytes(data)
        print(f"FAULT {place} {words!r} {path}", flush=True)


def changed(name, data, most, seed):
    """A changed input: by the library, or by tags or words."""
    rng = random.Random(seed)
    if rng.random() < 0.4 or not data:
        return atheris.Mutate(data, most)
    if name == "dxf":
        tags = split(data)
        for _ in range(rng.choice((1, 1, 2, 4))):
            if len(tags) > 3:
                try:
                    rng.choice(TAG_CHANGES)(tags, rng)
                except (IndexError, ValueError):
                    continue
        return b"".join(code + b"\n" + value + b"\n" for code, value in tags)[:most]
    words = WORD.findall(data)
    for _ in range(rng.choice((1, 1, 2, 4))):
        at, other = rng.randrange(len(words)), rng.choice(words)
        what = rng.random()
        if what < 0.3:
            words[at] = rng.choice((*VALUES, *CODES, b"true", b"[]", b"{}", b'""', b"null"))
        elif what < 0.6:
            words[at] = other
        elif what < 0.75 and len(words) > 1:
            del words[at]
        elif what < 0.9:
            words.insert(at, other)
        else:
            words[at:at] = words[at : at + rng.randrange(1, 30)]
    return b"".join(words)[:most]


def main():
    """Run one target for some time."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("target", choices=TARGETS)
    parser.add_argument("--seconds", type=int, default=120)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path, default=Path(tempfile.gettempdir()))
    told = parser.parse_args()
    told.keep.mkdir(parents=True, exist_ok=True)
    faults = Faults(told.target, told.keep)
    corpus = Path(tempfile.mkdtemp())
    for n, data in enumerate(seeds(told.target, Path(__file__).parents[2])):
        (corpus / f"seed-{n}").write_bytes(data)
    until = time.monotonic() + told.seconds

    def one(data):
        """One input; the end of the time is the end of the process, and the figures come first."""
        faults(data)
        if time.monotonic() > until:
            print(f"{told.target}: {faults.ran} inputs, {len(faults.seen)} faults, slowest {faults.slowest:.1f} s")
            sys.stdout.flush()
            os._exit(1 if faults.seen else 0)

    options = [
        sys.argv[0],
        str(corpus),
        f"-seed={told.seed}",
        "-max_len=300000",
        "-timeout=300",
        "-rss_limit_mb=0",
        "-verbosity=0",
    ]
    atheris.Setup(options, one, custom_mutator=lambda data, most, seed: changed(told.target, data, most, seed))
    atheris.Fuzz()


if __name__ == "__main__":
    main()
