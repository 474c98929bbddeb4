"""One task in a process of its own: whatever it does, the watch goes on and knows why."""

import json
import os
import signal
import subprocess
import sys
import time
from functools import partial
from multiprocessing.connection import wait

import pytest

from rillwright.allowance import Allowance
from rillwright.folder.task import DrawingTask
from rillwright.folder.worker import Failure, Worker
from rillwright.lying import Lying
from rillwright.outputs import Outputs
from rillwright.settings import Settings
from rillwright.signals import unheard

USUAL = Allowance(600.0, 1024)


def outcome(task, limits=USUAL):
    """What a worker comes to."""
    worker = Worker(task, limits)
    if wait([worker.connection], max(0.0, worker.deadline - time.monotonic())):
        return worker.result()
    return worker.stop()


def test_what_the_task_answers_comes_back():
    assert outcome(partial(divmod, 17, 5)) == (3, 2)


def test_an_answer_larger_than_a_pipe_holds_comes_back():
    assert len(outcome(partial(bytes, 5_000_000))) == 5_000_000


def test_a_task_that_hangs_is_stopped_in_time():
    failure = outcome(partial(time.sleep, 3600), Allowance(0.5, 1024))
    assert failure == Failure("worker-timeout", "Working it out took more than 0.5 s and was stopped.")


def test_a_task_that_eats_memory_fails_by_itself():
    failure = outcome(partial(bytes, 600 * 1024 * 1024), Allowance(600.0, 300))
    assert failure == Failure("worker-memory", "Working it out needs more than 300 MiB of memory.")


@pytest.mark.parametrize("way", [signal.SIGKILL, signal.SIGSEGV])
def test_a_task_that_dies_is_told_by_its_signal(way):
    failure = outcome(partial(signal.raise_signal, way))
    assert failure == Failure("worker-died", f"The process that worked it out ended by signal {int(way)}.")


def test_a_task_that_leaves_is_told_by_its_status():
    assert outcome(partial(os._exit, 3)).message.endswith("ended by status 3.")


def test_a_fault_of_our_own_is_a_sentence():
    failure = outcome(partial(int, "no\nnumber"))
    assert failure.code == "internal-fault"
    assert "ValueError" in failure.message
    assert "\n" not in failure.message


def test_a_worker_that_nobody_stops_ends_by_its_own_alarm():
    worker = Worker(partial(time.sleep, 3600), Allowance(0.0, 1024))
    # GRACE and a rounding second after the limit.
    assert wait([worker.connection], 600)
    assert worker.result().code == "worker-timeout"


@pytest.mark.parametrize("way", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
def test_a_stop_of_the_whole_group_lets_the_drawing_in_hand_be_finished(way):
    assert outcome(partial(_survive, int(way))) == "done"


def _survive(way):
    os.kill(os.getpid(), way)
    time.sleep(0.1)
    return "done"


def test_a_drawing_that_can_not_be_opened_is_failed_and_says_so(tmp_path):
    outputs = Outputs(tmp_path / "out", "gone")
    task = DrawingTask(tmp_path / "gone.dxf", outputs, Settings(), Lying(outputs.program))
    draft = task()
    assert (draft.state, draft.program_sha256) == ("failed", None)
    assert draft.reason == "The drawing can't be opened: No such file or directory."
    record = json.loads(dict(draft.files)[tmp_path / "out" / "gone.json"])
    assert [one["code"] for one in record["findings"]] == ["cannot-open"]
    assert record["status"] == "refused"


TERMINAL = pytest.mark.parametrize("way", [signal.SIGINT, signal.SIGHUP])
"""What a terminal sends to all that it started: an interrupt from the keyboard, and that it was closed."""


@pytest.fixture
def heard(way):
    numbers = []
    before = signal.signal(way, lambda number, _: numbers.append(number))
    yield numbers
    signal.signal(way, before)


@TERMINAL
def test_the_process_that_starts_the_workers_hears_nothing_of_a_terminal(way, heard):
    server = outcome(os.getppid)
    os.kill(server, way)
    assert (outcome(os.getppid), heard) == (server, [])


@TERMINAL
def test_what_comes_while_a_helper_starts_is_heard_afterwards(way, heard):
    during = []

    def start():
        signal.raise_signal(way)
        during.extend(heard)

    unheard(start)
    assert (during, heard) == ([], [way])


@TERMINAL
def test_a_helper_is_deaf_from_its_first_moment(way, heard):
    raised = f"import signal; signal.raise_signal({int(way)}); print('on')"
    unheard(lambda: heard.append(subprocess.check_output([sys.executable, "-SE", "-c", raised], text=True)))
    assert heard == ["on\n"]


def test_a_helper_is_started_where_no_signal_can_be_held_back(monkeypatch):
    monkeypatch.delattr(signal, "pthread_sigmask")
    started = []
    unheard(lambda: started.append("here"))
    assert started == ["here"]
