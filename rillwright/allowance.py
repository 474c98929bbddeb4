"""How much time and memory one drawing or program may take, so that no file can eat the machine.

The limits are set in the process itself: the system's alarm and the size of its address space. Where a system has
neither, there are none.
"""

import contextlib
import signal
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from extractor.errors import RillwrightError

MIB = 1024 * 1024

AGAIN = 5.0
"""Seconds after which the alarm rings once more: code that clears up may have swallowed the first."""


@dataclass(frozen=True)
class Allowance:
    """Seconds of time and MiB of memory for one task."""

    seconds: float = 120.0
    mebibytes: int = 1024


class TooMuchError(RillwrightError):
    """The task would need more time or memory than it may have."""

    def __init__(self, allowance: Allowance, *, memory: bool) -> None:
        """Say which of both, and how to allow more."""
        self.memory = memory
        if memory:
            what = f"more than {allowance.mebibytes} MiB of memory; allow more with --memory-limit"
        else:
            what = f"more than {allowance.seconds:g} s; allow more with --time-limit"
        super().__init__(f"Working it out needs {what}, or save the turned part alone and give that.")


class _AlarmError(BaseException):
    """Raised by the alarm; no handler of ordinary faults may take it for a damaged file."""


@contextlib.contextmanager
def within(allowance: Allowance | None) -> Iterator[None]:
    """Run what is in the block under an allowance, or without one; TooMuchError where it needs more."""
    if allowance is None:
        yield
        return
    try:
        with _address_space(allowance.mebibytes), _alarm(allowance.seconds):
            yield
    except _AlarmError:
        raise TooMuchError(allowance, memory=False) from None
    except Exception as error:
        if not is_memory(error):
            raise
        raise TooMuchError(allowance, memory=True) from None


def is_memory(error: BaseException) -> bool:
    """True for a fault that says the memory ran out, also where a library says it in its own words."""
    return isinstance(error, MemoryError) or "bad_alloc" in str(error)


@contextlib.contextmanager
def _alarm(seconds: float) -> Iterator[None]:
    """Raise _AlarmError in the block after so many seconds; only the main thread of a process can be called so."""
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return

    def ring(*_: object) -> None:
        """End the block."""
        raise _AlarmError

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds, AGAIN)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


@contextlib.contextmanager
def _address_space(mebibytes: int) -> Iterator[None]:
    """Allow so much more memory in the block than what the loaded libraries have reserved already."""
    before = limit_memory(mebibytes)
    try:
        yield
    finally:
        if before is not None:
            import resource

            resource.setrlimit(resource.RLIMIT_AS, before)


def limit_memory(mebibytes: int) -> tuple[int, int] | None:
    """Allow so much on top of what is reserved already; answers the limits before, None where there can be none."""
    try:
        import resource

        pages = int(Path("/proc/self/statm").read_text().split()[0])
    except (ImportError, OSError, ValueError):
        return None
    before = resource.getrlimit(resource.RLIMIT_AS)
    most = pages * resource.getpagesize() + mebibytes * MIB
    ceilings = [one for one in (most, *before) if one != resource.RLIM_INFINITY]
    resource.setrlimit(resource.RLIMIT_AS, (min(ceilings), before[1]))
    return before


__all__ = ["MIB", "Allowance", "TooMuchError", "is_memory", "limit_memory", "within"]
