"""Full figures of the watch: killed 200 times in a load of 300, a small full disk, 2,000 drawings at once.

    python tests/bench/watch_load.py kills [KILLS] [DRAWINGS]
    python tests/bench/watch_load.py load [DRAWINGS]
    python tests/bench/watch_load.py disk
    python tests/bench/watch_load.py huge

Run with PYTHONPATH=.:tests. `disk` needs the right to mount a loop-back file system.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path

from support.drawings import draw_ring
from support.inboxes import (
    FAST,
    assert_all_settled,
    kill_at_random,
    load,
    results_of,
    wait_until,
    watch_once,
    watching,
)


def kills(folder, count=200, drawings=300):
    """Kill at random, then a last run, held against a clean one."""
    inbox, out, clean = (folder / name for name in ("inbox", "out", "clean"))
    load(inbox, drawings)
    began = time.monotonic()
    kill_at_random(inbox, out, count)
    print(f"{count} kills in {time.monotonic() - began:.0f} s, {len(results_of(out))} of {drawings} entered by then")
    last = watch_once(inbox, out)
    print(f"last run: status {last.returncode}; clean run: status {watch_once(inbox, clean).returncode}")
    assert_all_settled(inbox, out, clean)
    print("every drawing has its one result, no temporary file is left, every program equals the clean run's")


def load_at_once(folder, drawings=2000):
    """All of them in one inbox from the start; peak memory of the watch itself while it works."""
    inbox, out = folder / "inbox", folder / "out"
    load(inbox, drawings)
    began = time.monotonic()
    peaks = []
    with watching(inbox, out) as process:
        lines = 0
        for line in process.stdout:
            lines += '"made"' in line
            if lines % 200 == 0 and '"made"' in line:
                peaks.append(memory(process.pid))
                spent = time.monotonic() - began
                print(f"{lines} made after {spent:.0f} s, {lines / spent:.1f} a second, memory {peaks[-1]} MiB at most")
            if lines == drawings:
                break
        process.terminate()
        spent = time.monotonic() - began
        workers = cpu_of_children_and(process.pid)
    print(f"{drawings} drawings in {spent:.0f} s; memory {peaks[0]} MiB early, {peaks[-1]} MiB late")
    print(
        f"{workers:.0f} s of CPU time in the watch and its workers over {spent:.0f} s: {workers / spent:.2f} cores busy"
    )


def cpu_of_children_and(process):
    """CPU seconds of the watch and of every process below it that has ended or runs."""
    total, tick = 0.0, os.sysconf("SC_CLK_TCK")
    for status in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            fields = status.read_text().rsplit(")", 1)[1].split()
            if os.getsid(int(status.parent.name)) == os.getsid(process):
                total += sum(map(int, fields[11:15])) / tick
    return total


def huge(folder):
    """Small drawings dropped behind two huge ones: how long each of them waits for its program."""
    inbox, out = folder / "inbox", folder / "out"
    inbox.mkdir()
    with watching(inbox, out, "--time-limit", "60") as process:
        process.stdout.readline()
        for name in ("huge 1.dxf", "huge 2.dxf"):
            made = draw_ring(folder / name, tuple((-10 - 6 * n, -13 - 6 * n, 34) for n in range(4000)), length=30_000)
            # Comments make it as big as it is slow.
            (inbox / name).write_bytes(b"999\ncomment\n" * 250_000 + made.read_bytes())
        time.sleep(3)
        for n in range(10):
            began = time.monotonic()
            draw_ring(inbox / f"small {n}.dxf")
            wait_until((out / f"small {n}.nc").exists)
            print(f"small {n}: {time.monotonic() - began:.1f} s (settling takes {FAST[1]} s of it)")
        print(
            "huge ones at work or waiting:",
            [path.name for path in inbox.glob("huge*") if not (out / path.stem).exists()],
        )


def memory(process):
    """Most resident memory of a process so far, in MiB."""
    status = Path(f"/proc/{process}/status").read_text()
    return int(status.split("VmHWM:")[1].split()[0]) // 1024


def disk(folder):
    """Results on a file system of 8 MiB that runs full; then room is made, and a last run."""
    image, out, inbox = folder / "image", folder / "out", folder / "inbox"
    subprocess.run(["truncate", "-s", "8M", image], check=True)
    subprocess.run(["mkfs.ext4", "-q", image], check=True)
    out.mkdir()
    load(inbox, 150)
    subprocess.run(["mount", "-o", "loop", image, out], check=True)
    try:
        full = watch_once(inbox, out)
        print(
            f"on a full disk: status {full.returncode}, {len(results_of(out))} made, "
            f"{full.stdout.count('cannot-write')} told"
        )
        halves = [path for path in out.rglob("*") if path.name.endswith(".tmp")]
        roomy = folder / "roomy"
        shutil.copytree(out, roomy)
        last = watch_once(inbox, roomy)
        clean = folder / "clean"
        watch_once(inbox, clean)
        assert_all_settled(inbox, roomy, clean)
        print(
            f"half written: {len(halves)}; with room again: status {last.returncode}, every drawing has its one result"
        )
    finally:
        subprocess.run(["umount", out], check=True)


if __name__ == "__main__":
    which, *numbers = sys.argv[1:] or ["kills"]
    with tempfile.TemporaryDirectory() as work:
        {"kills": kills, "load": load_at_once, "disk": disk, "huge": huge}[which](Path(work), *map(int, numbers))
