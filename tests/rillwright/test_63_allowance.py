"""No file eats the machine: time and memory of each command end in one sentence."""

import os
import resource
import signal
import threading
import time

import numpy as np
import pytest
from click.testing import CliRunner
from support.door import run
from support.draw import full_outline, shaft, write_dxf
from support.drawings import draw_ring
from support.forms import make_drawing

from rillwright import check, explained, outcome, questions
from rillwright.allowance import Allowance, TooMuchError, is_memory, limit_memory, within
from rillwright.cli import main
from rillwright.codes import JobCode
from rillwright.settings import Settings

# An alarm that rings in a callback of the collector is ignored there, with a warning, and rings again soon after.
pytestmark = pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")

SHORT, SMALL = Allowance(0.2, 4096), Allowance(600.0, 64)


def sleeping(*_, **__):
    """Work that takes a long time and takes every ordinary fault for a damaged file."""
    for _ in range(600):
        try:
            time.sleep(0.05)
        except Exception:
            raise AssertionError from None
    raise AssertionError


def hungry(*_):
    """Work that needs much memory for a while."""
    held = np.ones(200 * 2**20, dtype=np.uint8)
    sleeping()
    return held


@pytest.fixture
def ring(tmp_path):
    return write_dxf(full_outline(shaft()), tmp_path / "ring.dxf")


def test_time_runs_out_even_where_faults_are_caught():
    sentence = r"^Working it out needs more than 0\.2 s; allow more with --time-limit, or save "
    with pytest.raises(TooMuchError, match=sentence), within(SHORT):
        sleeping()


def test_memory_runs_out_in_one_sentence():
    sentence = r"^Working it out needs more than 64 MiB of memory; allow more with --memory-limit"
    with pytest.raises(TooMuchError, match=sentence), within(SMALL):
        hungry()


def test_no_limit_of_the_system_is_set_in_the_process_itself():
    # A library that is refused memory may end the process without a word.
    before = resource.getrlimit(resource.RLIMIT_AS)
    with within(SMALL):
        assert resource.getrlimit(resource.RLIMIT_AS) == before


def test_what_fits_is_left_alone_and_the_alarm_is_put_back():
    before = signal.getsignal(signal.SIGALRM)
    with within(Allowance(600.0, 4096)):
        assert signal.getitimer(signal.ITIMER_REAL)[0] > 0
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)
    assert signal.getsignal(signal.SIGALRM) is before


@pytest.mark.parametrize("work", [sleeping, lambda: None])
def test_an_alarm_that_rings_as_it_is_silenced_is_the_last(monkeypatch, work):
    """Else the next one, half a second later, would end the command with no sentence."""
    silence, before = signal.setitimer, signal.getsignal(signal.SIGALRM)

    def late(which, seconds, *more):
        if not seconds:
            time.sleep(2 * SHORT.seconds)
        silence(which, seconds, *more)

    monkeypatch.setattr(signal, "setitimer", late)
    with pytest.raises(TooMuchError), within(SHORT):
        work()
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)
    assert signal.getsignal(signal.SIGALRM) is before


def test_other_faults_pass_and_a_library_s_own_word_for_memory_is_known():
    with pytest.raises(KeyError), within(SHORT):
        raise KeyError("other")
    with pytest.raises(TooMuchError), within(SHORT):
        raise RuntimeError("std::bad_alloc")
    assert is_memory(MemoryError())
    assert not is_memory(RuntimeError("bad entity"))


def test_a_lower_limit_of_the_system_stays():
    if not os.fork():
        resource.setrlimit(resource.RLIMIT_AS, (2**33, 2**33))
        limit_memory(1_000_000)
        os._exit(0 if resource.getrlimit(resource.RLIMIT_AS) == (2**33, 2**33) else 1)
    assert os.wait()[1] == 0


def test_a_thread_has_no_alarm_and_works_all_the_same():
    done = []

    def work():
        with within(SHORT):
            done.append(1)

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert done == [1]


@pytest.mark.parametrize(
    ("work", "allowance", "code"),
    [(sleeping, SHORT, JobCode.WORKER_TIMEOUT), (hungry, SMALL, JobCode.OUT_OF_MEMORY)],
)
def test_a_drawing_that_needs_too_much_is_refused_and_the_next_one_made(ring, monkeypatch, work, allowance, code):
    with monkeypatch.context() as patched:
        patched.setattr(outcome, "read_sheet", work)
        record = make_drawing(ring, None, Settings(allowance=allowance))
        assert [f["code"] for f in record["findings"] if f["level"] == "stop"] == [code]
        assert not ring.with_suffix(".nc").exists()
    assert make_drawing(ring, None, Settings())["status"] == "made"


@pytest.mark.parametrize(
    ("work", "allowance", "code"),
    [(sleeping, Allowance(5.0, 4096), JobCode.WORKER_TIMEOUT), (hungry, SMALL, JobCode.OUT_OF_MEMORY)],
)
def test_a_record_that_needs_too_much_refuses_its_drawing(ring, monkeypatch, work, allowance, code):
    monkeypatch.setattr("rillwright.records.recording.path_of", work)
    record = make_drawing(ring, None, Settings(allowance=allowance))
    assert [f["code"] for f in record["findings"] if f["level"] == "stop"] == [code]
    assert ring.with_suffix(".json").exists()
    assert not ring.with_suffix(".nc").exists()


def test_the_reasons_stand_where_the_questions_need_too_much(tmp_path, monkeypatch):
    def too_much(*_, **__):
        raise TooMuchError(SHORT, memory=False)

    # Asked for again only where the questions are.
    monkeypatch.setattr("rillwright.job.answered", too_much)
    record = make_drawing(draw_ring(tmp_path / "ring.dxf", insunits=0), None, Settings())
    assert [f["code"] for f in record["findings"] if f["level"] == "stop"] == ["units-unknown"]


@pytest.mark.parametrize("command", ["read", "plan", "compare"])
def test_each_command_ends_in_a_sentence(ring, monkeypatch, command, tmp_path):
    make_drawing(ring, None, Settings())
    monkeypatch.setattr(questions, "read_sheet", sleeping)
    monkeypatch.setattr(check, "read_drawing", sleeping)
    monkeypatch.setattr(outcome, "read_sheet", sleeping)
    more = [str(ring.with_suffix(".nc"))] if command == "compare" else []
    found = CliRunner().invoke(main, [command, str(ring), *more, "--time-limit", "1"], standalone_mode=True)
    assert found.exit_code == 2
    assert found.output.strip().startswith("Working it out needs more than 1 s;")


@pytest.mark.parametrize("command", ["make", "read"])
def test_pipes_and_devices_are_no_drawings(command, tmp_path):
    pipe = tmp_path / "pipe.dxf"
    os.mkfifo(pipe)
    for one in (pipe, "/dev/zero"):
        more = ["--out", str(tmp_path / "out")] if command == "make" else []
        found = run(command, one, *more)
        assert found.exit_code == (1 if command == "make" else 2)
        assert "is a folder, a pipe or a device; give the drawing's file." in found.output


@pytest.mark.parametrize("command", ["explain", "compare", "convert", "shop"])
def test_pipes_and_devices_are_no_programs_and_no_settings(command, ring, tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    ways = {"compare": [str(ring)], "convert": ["--to", "plunge"], "shop": ["--check"]}
    for one in (pipe, "/dev/zero"):
        found = run(command, *ways.get(command, []), one)
        assert found.exit_code == 2
        assert "can't be read: it is a pipe or a device; give a file." in found.output


def test_pipes_and_devices_are_no_records(tmp_path):
    os.mkfifo(tmp_path / "pipe.json")
    for one in (tmp_path / "pipe.json", "/dev/zero"):
        found = run("sheet", one, "--out", tmp_path / "sheet.html")
        assert found.exit_code == 2
        assert "is not a record: give the .json that make wrote" in found.output


def test_a_program_that_takes_too_long_to_explain_ends_in_a_sentence(tmp_path, monkeypatch):
    program = tmp_path / "long.nc"
    program.write_text("G00 X1. Z1.\nM30\n")
    monkeypatch.setattr(explained, "explain", sleeping)
    found = run("explain", program, "--time-limit", "1")
    assert (found.exit_code, found.output.count("\n")) == (2, 1)
