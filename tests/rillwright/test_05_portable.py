"""The tool without anything that only Unix has, and names and lines as other systems want them."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from support.programs import run_of

from rillwright import allowance
from rillwright.outputs import output_stem

ROOT = Path(__file__).parents[2]

HIDDEN = """
import multiprocessing, os, signal, sys
from rillwright.folder import lock
lock.FOLDERS_OPEN = False
lock._lock = lambda descriptor: None
for name in ("fcntl", "resource", "pwd", "grp", "termios", "tty", "pty", "posix_ipc"):
    sys.modules[name] = None
for name in ("setitimer", "alarm", "SIGALRM", "SIGXCPU", "SIGKILL", "pthread_kill"):
    if name != "SIGKILL" and hasattr(signal, name):
        delattr(signal, name)
for name in ("fork", "sysconf", "geteuid", "set_blocking"):
    delattr(os, name)
multiprocessing.get_all_start_methods = lambda: ["spawn"]
from rillwright.cli import main
if __name__ == "__main__":
    main(sys.argv[1:])
"""
"""A start of the tool on a system that has no module, signal or call of Unix's own."""


def run(script, *words):
    call = [sys.executable, script, *map(str, words)]
    return subprocess.run(call, capture_output=True, text=True, timeout=600, env=os.environ | {"PYTHONPATH": str(ROOT)})


def test_a_drawing_is_made_and_a_folder_watched_without_what_only_unix_has(tmp_path):
    """Lock, signals and processes of Windows can't be had here: this holds that nothing else is missed."""
    (tmp_path / "in").mkdir()
    drawing = tmp_path / "in" / "ring-shaft.dxf"
    drawing.write_bytes((ROOT / "drawings" / "ring-shaft.dxf").read_bytes())
    script = tmp_path / "hidden.py"
    script.write_text(HIDDEN)
    made = run(script, "make", drawing, "--out", tmp_path / "made")
    assert made.returncode == 0, made.stderr
    watched = run(script, "watch", tmp_path / "in", "--out", tmp_path / "watched", "--once", "--settle", "0")
    assert watched.returncode == 0, watched.stdout + watched.stderr
    (one,), (other,) = (list((tmp_path / name).glob("*.nc")) for name in ("made", "watched"))
    assert one.read_bytes() == other.read_bytes()
    assert b"\r" not in one.read_bytes()


def busy(seconds):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        pass


def test_time_is_limited_by_a_thread_where_there_is_no_alarm(monkeypatch):
    monkeypatch.setattr(allowance, "ALARMS", False)
    with pytest.raises(allowance.TooMuchError, match="time-limit"), allowance.within(allowance.Allowance(0.2)):
        busy(20)
    with allowance.within(allowance.Allowance(60)):
        pass


def interrupt_within(limits):
    with allowance.within(limits):
        signal.raise_signal(signal.SIGINT)
        busy(1)


def test_a_ctrl_c_stays_one_where_a_thread_rings(monkeypatch):
    monkeypatch.setattr(allowance, "ALARMS", False)
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with pytest.raises(KeyboardInterrupt):
            interrupt_within(allowance.Allowance(60))
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, before)


@pytest.mark.parametrize("name", ["aux", "CON", "nul", "com1", "Lpt9", "prn.v2", "aux ", "con."])
def test_no_file_is_given_a_name_that_windows_keeps_for_a_device(name):
    """Source: 'Naming Files, Paths, and Namespaces' of the Windows documentation, from memory."""
    stem = output_stem(f"{name}.dxf")
    first = stem.split(".")[0].rstrip(" ").upper()
    assert first not in {"CON", "PRN", "AUX", "NUL", *(f"{d}{n}" for d in ("COM", "LPT") for n in range(1, 10))}
    assert not stem.endswith((" ", "."))


@pytest.mark.parametrize("name", ["ring", "console", "com10", "auxiliary shaft", "x.nul"])
def test_other_names_stay_as_they_are(name):
    assert output_stem(f"{name}.dxf") == name


def test_a_program_that_came_with_the_line_ends_of_windows_is_read_as_the_same():
    text = "%\nO1\nG21 G99\nG00 X42. Z-13.\nG75 R0.5\nG75 X34. P1000 F0.08\nM30\n%\n"
    runs = [run_of(one) for one in (text, text.replace("\n", "\r\n"))]
    assert runs[0].motions == runs[1].motions != ()
