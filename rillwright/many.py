"""Many drawings at once: each a call of its own, handed to workers, the records in the order of the calls.

Workers are any executor of `concurrent.futures`: processes of this machine, or those of a cluster. A worker writes what
it makes; no two calls write the same files. One that dies takes no other drawing down: the one it died of is tried
once more alone, and refused if that ends the same way.
"""

import gc
import importlib
import multiprocessing
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent import futures  # loads its processes when they are first asked for
from concurrent.futures import BrokenExecutor, Executor, Future
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from extractor.errors import SettingsError
from extractor.values import dataclass
from rillwright.codes import JobCode
from rillwright.collector import NEVER, YOUNG, clear, no_last_look
from rillwright.job import make_drawing, refuse_drawing
from rillwright.records.record import Record
from rillwright.settings import Settings
from rillwright.signals import unheard

Start = Callable[[], Executor]

AHEAD = 4
"""Calls handed out for each worker, so that none waits for its next; all at once would hold every record in memory."""


PATIENCE = "10s"
"""How long a scheduler may take to answer."""


@dataclass(frozen=True)
class Call:
    """One drawing to be made into `out` (None: beside it)."""

    drawing: Path
    out: Path | None
    settings: Settings

    def absolute(self) -> "Call":
        """The same call for a process that works in another folder."""
        return replace(self, drawing=self.drawing.absolute(), out=None if self.out is None else self.out.absolute())


@dataclass(frozen=True)
class Crew:
    """Workers: how they are started, how many there are, and what a call raises if its worker died and others live."""

    start: Start
    count: int
    killed: tuple[type[Exception], ...] = ()


def make_one(call: Call) -> Record:
    """Make one drawing and answer its record, with nothing of it left behind; faults as `make_drawing`."""
    try:
        return make_drawing(call.drawing, call.out, call.settings)
    finally:
        clear()


def made(calls: Sequence[Call], crew: Crew | None) -> Iterator[Record]:
    """The record of each call in its order, by a crew or right here where there is none.

    Raises what `make_drawing` raises.
    """
    if crew is None:
        for one in calls:
            if one is not calls[0]:
                clear()  # not behind the last: the process ends, and all that was loaded would be looked through
            yield make_drawing(one.drawing, one.out, one.settings)
        return
    executor, pending, left = crew.start(), deque[tuple[Call, Future[Record]]](), deque(calls)
    try:
        while left or pending:
            while left and len(pending) < AHEAD * crew.count:
                call = left.popleft()
                pending.append((call, executor.submit(make_one, call)))
            call, future = pending.popleft()
            try:
                record = future.result()
            except crew.killed:
                record = _died(call)
            except BrokenExecutor:
                left.extendleft(one for one, _ in reversed(pending))
                pending.clear()
                executor.shutdown(wait=False)
                record, executor = _alone(call, crew), crew.start()
            yield record
    finally:
        for _, future in pending:
            future.cancel()
        executor.shutdown(wait=False)


def _alone(call: Call, crew: Crew) -> Record:
    """The record of a call at which a worker may have died."""
    executor = crew.start()
    try:
        return executor.submit(make_one, call).result()
    except BrokenExecutor:
        return _died(call)
    finally:
        executor.shutdown(wait=False)


def _died(call: Call) -> Record:
    """The refusal of a drawing that takes its worker down."""
    message = "The process that worked it out ended without an answer."
    return refuse_drawing(call.drawing, call.out, call.settings, JobCode.WORKER_DIED, message)


def made_by(calls: Sequence[Call], jobs: int, scheduler: str | None) -> Iterator[Record]:
    """The record of each call, in order, by this many processes or by a cluster; a single call is made right here.

    Raises SettingsError as `cluster`, and what `make_drawing` raises.
    """
    if scheduler is not None:
        return made([call.absolute() for call in calls], cluster(scheduler))
    count = min(jobs, len(calls))
    return made(calls, processes(count) if count > 1 else None)


def processes(count: int) -> Crew:
    """A crew of `count` processes on this machine, started afresh on any system and loaded before their first call."""

    def start() -> Executor:
        """The processes."""
        if sys.platform != "win32":
            unheard(importlib.import_module("multiprocessing.resource_tracker").ensure_running)
        return futures.ProcessPoolExecutor(count, multiprocessing.get_context("spawn"), initializer=_load)

    return Crew(start, count)


def _load() -> None:
    """In a worker: load all that making needs, and let a stop of the whole group end only the calls not begun."""
    with suppress(ValueError):
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(YOUNG, NEVER, NEVER)
    no_last_look()
    importlib.import_module("rillwright.jobsheet.sheet").environment()


def cluster(address: str) -> Crew:
    """The workers of the cluster whose scheduler has an address.

    They need this tool, and the same folders under the same names; limits of time and memory are their own. Raises
    SettingsError where the library for it is missing, nothing answers there, or there is no worker.
    """
    try:
        distributed = importlib.import_module("distributed")
    except ImportError:
        raise SettingsError("--scheduler needs one library more: pip install 'rillwright[cluster]'.") from None
    try:
        client = distributed.Client(address, timeout=PATIENCE)
        count = sum(client.nthreads().values())
    except (OSError, ValueError) as error:
        raise SettingsError(f"No scheduler answers at {address} ({type(error).__name__}); check the address.") from None
    if not count:
        raise SettingsError(f"The scheduler at {address} has no worker; start one.")
    return Crew(lambda: client.get_executor(pure=False), count, (distributed.KilledWorker,))
