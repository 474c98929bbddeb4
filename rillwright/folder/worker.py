"""One task in a process of its own, with a time and a memory limit, so that no drawing can take the watch down.

Workers are forked from a small server process that has everything loaded and no threads, or started anew where a
system can't fork; they touch no file of the results, they only send them back. A worker that outlives its watch ends
by its own alarm.
"""

import multiprocessing
import os
import signal
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from multiprocessing import forkserver, resource_tracker
from multiprocessing.connection import Connection
from typing import Any

from extractor.values import dataclass
from rillwright.allowance import Allowance, is_memory, limit_memory
from rillwright.codes import JobCode
from rillwright.signals import ENDING, unheard

PRELOAD = ["rillwright.folder.warm"]
GRACE = 5
"""Seconds after the time limit at which a worker that nobody stopped ends itself."""

LAST_WAIT = 0.2
"""Seconds that a worker which has sent its answer may take to end before it is killed."""


@dataclass(frozen=True)
class Failure:
    """A task that gave no result: a code and a sentence that says why."""

    code: JobCode
    message: str


def context() -> Any:
    """The multiprocessing context of all workers; where no process can be forked, each is started anew."""
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    made = multiprocessing.get_context("forkserver")
    made.set_forkserver_preload(PRELOAD)
    # The first lets go of what is held back while it starts, so it is started by itself.
    for helper in (resource_tracker, forkserver):
        unheard(helper.ensure_running)
    return made


class Worker:
    """One running task. `connection` becomes readable when it has ended in whatever way."""

    def __init__(self, task: Callable[[], Any], limits: Allowance) -> None:
        """Start it."""
        self.limits = limits
        self.started = time.monotonic()
        processes = context()
        self.connection, sender = processes.Pipe(duplex=False)
        self._process = processes.Process(target=_work, args=(task, limits, sender), daemon=True)
        try:
            self._process.start()
        except OSError as error:
            raise OSError(None, f"no process for it could be started ({error.strerror or error})") from error
        finally:
            sender.close()

    @property
    def deadline(self) -> float:
        """Monotonic time at which it is to be stopped."""
        return self.started + self.limits.seconds

    def result(self) -> Any:
        """What the task answered, or a Failure; call it when the connection is readable."""
        try:
            answer = self.connection.recv()
        except (EOFError, OSError):
            answer = None
        self._end()
        return self._why_dead() if answer is None else answer

    def stop(self) -> Failure:
        """End it for having run too long."""
        self._end()
        message = f"Working it out took more than {self.limits.seconds:g} s and was stopped."
        return Failure(JobCode.WORKER_TIMEOUT, message)

    def _end(self) -> None:
        self.connection.close()
        self._process.join(LAST_WAIT)
        if self._process.is_alive():
            self._process.kill()
            self._process.join(5)

    def _why_dead(self) -> Failure:
        code = self._process.exitcode or 0
        if code in ENDED_ITSELF:
            return Failure(JobCode.WORKER_TIMEOUT, f"Working it out took more than {self.limits.seconds:g} s.")
        how = f"signal {-code}" if code < 0 else f"status {code}"
        return Failure(JobCode.WORKER_DIED, f"The process that worked it out ended by {how}.")


TOO_LATE = 124
"""Exit status of a worker that ended itself, where there is no alarm to end it."""

ENDED_ITSELF = frozenset({TOO_LATE, *(-getattr(signal, name, -TOO_LATE) for name in ("SIGALRM", "SIGXCPU"))})
"""Exit codes of a worker that ran too long and that nobody stopped."""


def _end_after(seconds: int) -> None:
    """End this process in so many seconds, whatever it does then."""
    if sys.platform == "win32" or not hasattr(signal, "alarm"):
        timer = threading.Timer(seconds, os._exit, [TOO_LATE])
        timer.daemon = True
        timer.start()
    else:
        signal.signal(signal.SIGALRM, signal.SIG_DFL)
        signal.alarm(seconds)


def _work(task: Callable[[], Any], limits: Allowance, sender: Connection) -> None:
    """In the worker: run under the limits and send the answer."""
    # A stop of the whole group must let the drawing in hand be finished.
    for one in (signal.SIGINT, *ENDING):
        signal.signal(one, signal.SIG_IGN)
    _end_after(int(limits.seconds + GRACE) + 1)
    limit_memory(limits.mebibytes)
    try:
        answer = task()
    except Exception as error:
        what = " ".join(f"{type(error).__name__} {error}".split())[:300]
        answer = Failure(JobCode.INTERNAL_FAULT, f"This is our fault: {what}; please report it with the drawing.")
        if is_memory(error):
            answer = Failure(JobCode.WORKER_MEMORY, f"Working it out needs more than {limits.mebibytes} MiB of memory.")
    with suppress(OSError):
        sender.send(answer)
