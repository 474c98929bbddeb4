"""How much time and memory one drawing or program may take, so that no file can eat the machine.

The limits are held in the process itself: an alarm goes off at short intervals, and each time the time and memory used
are checked. Where the system has no such alarm, a thread interrupts the work as Ctrl-C does. A limit on the address
space is for workers alone: a library that is refused memory may end the whole process without a word.
"""

import _thread
import contextlib
import os
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType

from extractor.errors import RillwrightError
from extractor.values import dataclass

MIB = 1024 * 1024
PAGE = os.sysconf("SC_PAGE_SIZE") if hasattr(os, "sysconf") else 4096
"""Bytes of a page of memory."""

ALARMS = hasattr(signal, "setitimer")
"""False where the system has no alarm that rings again and again."""

LOOK = 0.5
"""Seconds between two looks at the time and the memory that the task has taken."""
AGAIN = 5.0
"""Seconds from one alarm to the next, which is there in case that the first was lost: what is left of the task must be
cleared away in between, which takes a while for a million values."""


@dataclass(frozen=True)
class Allowance:
    """Seconds of time and MiB of memory for one task."""

    seconds: float = 120.0
    mebibytes: int = 1024


class TooMuchError(RillwrightError):
    """The task needs more time or memory than it is allowed."""

    def __init__(self, allowance: Allowance, *, memory: bool) -> None:
        """Say which of both, and how to allow more."""
        self.memory = memory
        if memory:
            what = f"more than {allowance.mebibytes} MiB of memory; allow more with --memory-limit"
        else:
            what = f"more than {allowance.seconds:g} s; allow more with --time-limit"
        super().__init__(f"Working it out needs {what}, or save the turned part alone and give that.")


class _AlarmError(BaseException):
    """Raised by the alarm; no handler of ordinary faults may take it for a damaged file. `memory`: that ran out."""

    def __init__(self, *, memory: bool) -> None:
        """Say what ran out."""
        self.memory = memory


@contextlib.contextmanager
def within(allowance: Allowance | None) -> Iterator[None]:
    """Run the block under an allowance, or without one; TooMuchError if it needs more."""
    if allowance is None:
        yield
        return
    try:
        with _alarm(allowance):
            yield
    except _AlarmError as alarm:
        raise TooMuchError(allowance, memory=alarm.memory) from None
    except Exception as error:
        if not is_memory(error):
            raise
        raise TooMuchError(allowance, memory=True) from None


def is_memory(error: BaseException) -> bool:
    """True for an error that says memory ran out, even if a library says so in its own words."""
    return isinstance(error, MemoryError) or "bad_alloc" in str(error)


@contextlib.contextmanager
def _alarm(allowance: Allowance) -> Iterator[None]:
    """Raise _AlarmError in the block once it has taken too much; only a process's main thread can be called so."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    deadline, most = time.monotonic() + allowance.seconds, _resident() + allowance.mebibytes * MIB
    quiet = 0.0

    def ring(*_: object) -> None:
        """End the block if it has taken too much, once; what comes after that is no longer the block."""
        nonlocal quiet
        now = time.monotonic()
        late = now >= deadline
        if now >= quiet and (late or _resident() > most):
            quiet = now + AGAIN
            raise _AlarmError(memory=not late)

    with _rung(ring, min(LOOK, allowance.seconds)):
        yield


@contextlib.contextmanager
def _rung(ring: Callable[..., None], look: float) -> Iterator[None]:
    """Call `ring` in the main thread every `look` seconds for as long as the block runs."""
    if sys.platform == "win32" or not ALARMS:
        with _rung_by_thread(ring, look):
            yield
        return
    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, look, look)
    try:
        try:
            yield
        finally:
            signal.setitimer(signal.ITIMER_REAL, 0)
    finally:  # once more, as it may have rung before it was silenced
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


@contextlib.contextmanager
def _rung_by_thread(ring: Callable[..., None], look: float) -> Iterator[None]:
    """The same by a thread that interrupts the main one; a Ctrl-C of the user's stays one."""
    ended, ringing = threading.Event(), threading.Event()
    before = signal.getsignal(signal.SIGINT)

    def interrupted(number: int, frame: FrameType | None) -> None:
        """Ring, or do what an interrupt did before."""
        if ringing.is_set():
            ringing.clear()
            ring()
        elif callable(before):
            before(number, frame)

    def tick() -> None:
        """Interrupt the main thread again and again."""
        while not ended.wait(look):
            ringing.set()
            _thread.interrupt_main()

    signal.signal(signal.SIGINT, interrupted)
    thread = threading.Thread(target=tick, daemon=True)
    thread.start()
    try:
        try:
            yield
        finally:
            ended.set()
    finally:
        ended.set()
        thread.join()
        signal.signal(signal.SIGINT, before)


def _resident() -> int:
    """Bytes of memory that the process holds, 0 where nothing says it."""
    try:
        return int(Path("/proc/self/statm").read_text().split()[1]) * PAGE
    except (OSError, ValueError):
        return _told_by_library()


def _told_by_library() -> int:
    """The same from the library that knows other systems, where it is there."""
    try:
        import psutil
    except ImportError:
        return 0
    return int(psutil.Process().memory_info().rss)


def limit_memory(mebibytes: int) -> None:
    """Allow this much address space on top of what is already reserved, where the system can; for workers."""
    if sys.platform == "win32":
        return
    try:
        import resource

        pages = int(Path("/proc/self/statm").read_text().split()[0])
    except (ImportError, OSError, ValueError):
        return
    before = resource.getrlimit(resource.RLIMIT_AS)
    most = pages * PAGE + mebibytes * MIB
    ceilings = [one for one in (most, *before) if one != resource.RLIM_INFINITY]
    resource.setrlimit(resource.RLIMIT_AS, (min(ceilings), before[1]))


__all__ = ["MIB", "Allowance", "TooMuchError", "is_memory", "limit_memory", "within"]
