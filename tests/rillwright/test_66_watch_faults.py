"""Faults driven into the real process: killed at random, a full disk. The full figures are in tests/bench."""

import itertools
import os
import time
import weakref
from dataclasses import replace

from support.drawings import draw_ring
from support.inboxes import assert_all_settled, kill_at_random, load, programs_of, results_of, watch_once

from rillwright.folder import checks, watch
from rillwright.folder.jobs import Folders, Pace
from rillwright.folder.ledger import Ledger
from rillwright.folder.log import WatchLog
from rillwright.folder.wake import Waker
from rillwright.settings import Settings

KILLS, DRAWINGS = 3, 8


def test_killed_at_random_every_drawing_ends_in_its_one_result(tmp_path):
    inbox, out, clean = (tmp_path / name for name in ("inbox", "out", "clean"))
    load(inbox, DRAWINGS)
    kill_at_random(inbox, out, KILLS, longest=2.0)
    assert watch_once(inbox, out).returncode == 0
    assert watch_once(inbox, clean).returncode == 0
    assert_all_settled(inbox, out, clean)


class Silent:
    """A stream that keeps what is said."""

    def __init__(self):
        self.lines = []

    def write(self, text):
        self.lines.append(text)

    def flush(self):
        """Nothing to flush."""


def one_watch(tmp_path, clock=time.monotonic):
    """A watch in this process, made to be run once."""
    folders = Folders(tmp_path / "inbox", tmp_path / "out")
    for folder in (folders.inbox, folders.out):
        folder.mkdir(exist_ok=True)
    said = Silent()
    ledger = Ledger(folders.out)
    log = WatchLog(said, terminal=False)
    waker = Waker()
    weakref.finalize(waker, waker._writer.close)
    weakref.finalize(waker, waker.reader.close)
    made = watch.Watch(folders, Settings(), Pace(0.05, 0.2), True, log, ledger, waker, clock)
    return made, said


def full_at_first(monkeypatch):
    """A disk that is full for the first file put; the calls so far."""
    real, calls = watch.put, []

    def put(*args):
        calls.append(args)
        if len(calls) == 1:
            raise OSError(28, "No space left on device")
        return real(*args)

    monkeypatch.setattr(watch, "put", put)
    return calls


def test_a_disk_that_is_full_for_a_while_loses_nothing(tmp_path, monkeypatch):
    made, said = one_watch(tmp_path)
    draw_ring(tmp_path / "inbox" / "ring.dxf")
    monkeypatch.setattr(watch, "BUSY_AFTER", (0.1, 0.1, 0.1))
    calls = full_at_first(monkeypatch)
    assert made.run() == 0
    assert len(calls) == 2
    assert any("No space left" in line for line in said.lines)
    assert [one.state for one in results_of(tmp_path / "out")] == ["made"]


def test_a_disk_that_stays_full_is_given_up_for_this_run_and_made_by_the_next(tmp_path, monkeypatch):
    made, _ = one_watch(tmp_path)
    draw_ring(tmp_path / "inbox" / "ring.dxf")
    monkeypatch.setattr(watch, "BUSY_AFTER", (0.05, 0.05, 0.05))

    def full(*_):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(watch, "put", full)
        assert made.run() == 1
    assert programs_of(tmp_path / "out") == {}
    again, _ = one_watch(tmp_path)
    assert again.run() == 0
    assert len(programs_of(tmp_path / "out")) == 1


def test_a_changed_drawing_that_is_given_up_is_not_counted_as_made_for_its_older_program(tmp_path, monkeypatch):
    draw_ring(ring_in(tmp_path))
    assert one_watch(tmp_path)[0].run() == 0
    draw_ring(ring_in(tmp_path), ((-10, -13, 32),))
    monkeypatch.setattr(watch, "BUSY_AFTER", (0.05, 0.05, 0.05))
    monkeypatch.setattr(watch, "put", lambda *_: 1 / 0)
    assert one_watch(tmp_path)[0].run() == 1


def ring_in(tmp_path):
    """Where the drawing lies."""
    (tmp_path / "inbox").mkdir(exist_ok=True)
    return tmp_path / "inbox" / "ring.dxf"


class OverdueWorker(watch.Worker):
    """A worker whose time is up at once for one drawing and never for the others, however busy the machine is."""

    def __init__(self, task, limits):
        self.overdue = task.drawing.name == "hangs.dxf"
        super().__init__(task, limits)

    @property
    def deadline(self):
        return 0.0 if self.overdue else time.monotonic() + 3600


def test_a_drawing_that_hangs_its_worker_holds_up_nobody(tmp_path, monkeypatch):
    made, said = one_watch(tmp_path)
    made.pace = replace(made.pace, workers=1)
    # Large enough that no machine is done with it between its start and the first look at its time.
    many = tuple((-10 - 6 * n, -13 - 6 * n, 34) for n in range(1500))
    draw_ring(tmp_path / "inbox" / "hangs.dxf", many, length=10_000)
    draw_ring(tmp_path / "inbox" / "ring.dxf")
    monkeypatch.setattr(watch, "Worker", OverdueWorker)
    assert made.run() == 1
    assert {one.name: one.state for one in results_of(tmp_path / "out")} == {"hangs.dxf": "failed", "ring.dxf": "made"}
    assert any("more than 120 s" in line for line in said.lines)


def stalling():
    """A clock of a machine so busy that a minute goes by between any two looks at it."""
    return itertools.count(0.0, 60.0).__next__


def test_a_machine_that_stalls_gives_nothing_up(tmp_path, monkeypatch):
    made, said = one_watch(tmp_path, stalling())
    draw_ring(tmp_path / "inbox" / "ring.dxf")
    calls = full_at_first(monkeypatch)
    assert made.run() == 0
    assert len(calls) == 2
    assert any("No space left" in line for line in said.lines)


def test_a_clock_that_jumps_changes_nothing(tmp_path, monkeypatch):
    made, _ = one_watch(tmp_path)
    path = draw_ring(tmp_path / "inbox" / "ring.dxf")
    os.utime(path, (4e9, 4e9))
    monkeypatch.setattr(time, "time", lambda: 0.0)
    assert made.run() == 0


def test_a_fault_of_our_own_with_one_drawing_does_not_end_the_watch(tmp_path, monkeypatch):
    made, said = one_watch(tmp_path)
    for name in ("a.dxf", "b.dxf"):
        draw_ring(tmp_path / "inbox" / name)
    monkeypatch.setattr(watch, "BUSY_AFTER", (0.05, 0.05, 0.05))
    real = watch.put

    def broken(ledger, where, *rest):
        if where.drawing == b"a.dxf":
            raise ValueError("odd")
        return real(ledger, where, *rest)

    monkeypatch.setattr(watch, "put", broken)
    assert made.run() == 1
    assert any('"internal-fault"' in line and "ValueError odd" in line for line in said.lines)
    assert [str(path) for path in programs_of(tmp_path / "out")] == ["b.nc"]


def test_a_verdict_that_can_not_be_written_is_given_up_for_this_run(tmp_path, monkeypatch):
    made, said = one_watch(tmp_path)
    draw_ring(tmp_path / "inbox" / "ring.dxf")
    (tmp_path / "inbox" / "ring.nc").write_text("%\nO1\nG0 X42. Z-13.\nG1 X34. F0.1\nM30\n%\n")
    monkeypatch.setattr(checks, "staged", lambda *_: 1 / 0)
    assert made.run() == 0
    assert sum("ZeroDivisionError" in line for line in said.lines) == checks.MOST_TRIES


def test_nor_does_a_machine_that_stalls_cut_its_tries_short(tmp_path, monkeypatch):
    made, said = one_watch(tmp_path, stalling())
    draw_ring(tmp_path / "inbox" / "ring.dxf")
    (tmp_path / "inbox" / "ring.nc").write_text("%\nO1\nG0 X42. Z-13.\nG1 X34. F0.1\nM30\n%\n")
    monkeypatch.setattr(checks, "staged", lambda *_: 1 / 0)
    assert made.run() == 0
    assert sum("ZeroDivisionError" in line for line in said.lines) == checks.MOST_TRIES
