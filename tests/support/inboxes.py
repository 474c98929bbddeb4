"""Drives a real watch process: loads of drawings, kills at random, and what must be true of the folder afterwards."""

import json
import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections import Counter
from contextlib import contextmanager
from pathlib import Path

from rillwright.digest import file_digest
from rillwright.folder.ledger import Ledger
from rillwright.signals import ENDING
from support.door import run
from support.drawings import draw_ring

TOOL = [sys.executable, "-c", "from rillwright.cli import main; main()"]
FAST = ("--settle", "0.1", "--poll", "0.5", "--set", "machine.numbers=fixed")
"""Options of a quick watch. Programs have one number for all, so that those of two watches can be held together."""


def load(inbox, count, seed=1):
    """That many different rings in the inbox, some in subfolders; none of them can be refused."""
    rng = random.Random(seed)
    for n in range(count):
        folder = inbox / rng.choice(["", "a", "a/b", "ä ü"])
        folder.mkdir(parents=True, exist_ok=True)
        first, pitch = rng.randint(5, 10), rng.randint(5, 9)
        spots = tuple((-first - pitch * k, -first - pitch * k - 3, 34) for k in range(rng.randint(1, 5)))
        draw_ring(folder / f"ring {n:04d}.dxf", spots)


def watch_once(inbox, out, *options):
    """A whole run in this process, whose workers are forked as ever; what a finished process would answer."""
    call = ["watch", str(inbox), "--out", str(out), "--once", *FAST, *options]
    before = {number: signal.getsignal(number) for number in (signal.SIGINT, *ENDING)}
    try:
        done = run(*call)
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
    return subprocess.CompletedProcess(call, done.exit_code, done.stdout, done.stderr)


@contextmanager
def watching(inbox, out, *options):
    """A watch that runs until the block ends; it is killed if it has not ended by itself by then."""
    call = [*TOOL, "watch", str(inbox), "--out", str(out), *FAST, *options]
    process = subprocess.Popen(call, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True)
    try:
        yield process
    finally:
        if process.poll() is None:
            process.kill()
        process.communicate()


def heard(process, event, seconds=300.0, **fields):
    """What a running watch says up to an event with these fields, as dicts; fails where it never says it."""
    watchdog = threading.Timer(seconds, process.kill)
    watchdog.start()
    said = []
    try:
        for line in process.stdout:
            said.append(json.loads(line))
            if said[-1].items() >= ({"event": event} | fields).items():
                return said
    finally:
        watchdog.cancel()
    raise AssertionError(f"it never said {event}")


def wait_until(true, seconds=300.0):
    """Wait until something is true; fails where it never becomes so."""
    until = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < until, "it never came"
        time.sleep(0.02)


def kill_at_random(inbox, out, kills, seed=1, longest=4.0):
    """Start a watch and kill it with SIGKILL at a random moment, that many times: mostly at work, some still starting.

    A moment is counted from its first word, so that a busy machine doesn't turn all of them into early ones.
    """
    rng = random.Random(seed)
    for _ in range(kills):
        with watching(inbox, out) as process:
            if rng.random() < 0.85:
                assert '"start"' in process.stdout.readline()
                time.sleep(rng.uniform(0.0, longest))
            else:
                time.sleep(rng.uniform(0.0, 1.0))
            os.kill(process.pid, signal.SIGKILL)
            process.wait(120)


def drawings_of(inbox):
    """Every drawing below the inbox."""
    return sorted(path.relative_to(inbox) for path in inbox.rglob("*.dxf"))


def programs_of(out):
    """Every program below a folder of results, by its path, with its bytes."""
    return {path.relative_to(out): path.read_bytes() for path in out.rglob("*.nc")}


def results_of(out):
    """Every result in the ledger."""
    with Ledger(out, create=False) as ledger:
        return list(ledger.history())


def assert_all_settled(inbox, out, clean):
    """One result each, made; the programs are those of the ledger and of a clean run; nothing half written is left."""
    results = results_of(out)
    count = Counter(os.fsdecode(one.drawing) for one in results)
    assert count == Counter(map(str, drawings_of(inbox)))
    assert {one.state for one in results} == {"made"}
    assert not [path for path in out.rglob("*") if path.name.endswith(".tmp") or path.name.endswith(".stale")]
    for one in results:
        program = out / Path(os.fsdecode(one.drawing)).parent / one.program_file
        assert file_digest(program) == one.program_sha256
    assert programs_of(out) == programs_of(clean)
    assert len(programs_of(out)) == len(results)
