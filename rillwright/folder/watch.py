"""The watch: whatever lands in the inbox becomes a program or a refusal with a reason, once.

Theory
    A look lists the inbox. A file that has settled waits in a queue; a free worker takes the next one; what it sends
    back is put in place and entered in the ledger, by this process alone. Everything that is decided rests on hashes
    in the ledger, so that a watch that was killed at any moment does again only what was not entered.

    Nothing is lost when a folder goes away or a disk fills up: the drawing stays in line and is tried again later.
"""

import os
import sqlite3
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from multiprocessing.connection import wait
from pathlib import Path
from typing import Any

from rillwright.atomic import sweep
from rillwright.codes import JobCode
from rillwright.folder.checks import Checks
from rillwright.folder.jobs import CheckJob, DrawingJob, Folders, Pace
from rillwright.folder.ledger import LEDGER, Cause, Ledger, Result
from rillwright.folder.log import WatchLog
from rillwright.folder.overview import Overview
from rillwright.folder.placing import outputs_of, place, put
from rillwright.folder.queue import BIG, Waiting
from rillwright.folder.scan import InboxFile, Sight, Signature, look
from rillwright.folder.settle import Settling
from rillwright.folder.shops import Shops
from rillwright.folder.task import Draft, DrawingTask
from rillwright.folder.untaken import Untaken
from rillwright.folder.wake import Waker
from rillwright.folder.worker import Failure, Worker
from rillwright.job import file_digest
from rillwright.settings import Settings
from rillwright.version import tool_version

RETRY_AFTER = (10.0, 60.0, 600.0)
"""Seconds until a failed drawing is tried again, the last one for good; a change or a restart tries at once."""

BUSY_AFTER = (2.0, 10.0, 60.0)
"""Seconds until a drawing is tried again whose results could not be written; the last one for good."""

BUSY = (OSError, sqlite3.Error)
"""What a full disk, a lost permission or a share that is gone looks like."""

# A fault of our own with one drawing must not end a watch that is to run for months: it is told, and tried again.
ANY = Exception


@dataclass
class Watch:
    """One run of the watch. `handled` holds what each drawing looked like when it was last settled for good."""

    folders: Folders
    settings: Settings
    pace: Pace
    once: bool
    log: WatchLog
    ledger: Ledger
    waker: Waker
    clock: Callable[[], float] = time.monotonic
    sight: Sight = field(default_factory=lambda: Sight({}, {}, {}, ()))
    queue: Waiting = field(default_factory=Waiting)
    jobs: list[DrawingJob | CheckJob] = field(default_factory=list)
    handled: dict[Path, tuple[Signature, str]] = field(default_factory=dict)
    tries: dict[Path, int] = field(default_factory=dict)
    not_before: dict[Path, float] = field(default_factory=dict)
    untaken: Untaken = field(default_factory=Untaken)
    gone: bool = False
    looked: float = float("-inf")
    look_took: float = 0.0

    def __post_init__(self) -> None:
        """Set up what looks at files."""
        self.settling = Settling(self.pace.settle)
        self.shops = Shops(self.folders.inbox, self.settings, self.settling)
        self.checks = Checks(self.folders, self.shops, self.settling, self.log)
        self.overview = Overview(self.folders.out, self.log, self.clock)

    def run(self) -> int:
        """Watch until stopped, or with `once` until all that is there is done; the exit status."""
        self.log.event("start", inbox=str(self.folders.inbox), out=str(self.folders.out), version=tool_version())
        while not self.waker.stopping:
            self.look_again()
            self.start_workers()
            if self.once and self.all_done():
                break
            self.wait_for_something()
            self.collect()
            self.overview.renew(self.ledger)
        while self.jobs:
            self.wait_for_something()
            self.collect()
        self.overview.renew(self.ledger, at_once=True)
        status = self.status() if self.once and not self.waker.stopping else 0
        self.log.event("stop", status=status)
        return status

    def look_again(self) -> None:
        """Look at the inbox if there is a reason to, and put what has arrived in line."""
        now = self.clock()
        # A folder of many thousands must not be listed all the time.
        if now - self.looked < max(0.2, 4 * self.look_took):
            return
        self.looked = now
        try:
            self.sight = look(self.folders.inbox, self.folders.left_out)
        except OSError as error:
            self._inbox_gone(error)
            return
        if self.gone:
            self.gone = False
            self.log.event("inbox-back", folder=str(self.folders.inbox))
        for name, reason in self.untaken.look(self.sight).items():
            self.log.event("ignored", drawing=str(name), reason=reason)
        self.overview.show_untaken({str(name): reason for name, reason in self.untaken.reasons.items()})
        self._line_up(now)
        self.look_took = self.clock() - now

    def _inbox_gone(self, error: OSError) -> None:
        if not self.gone:
            self.log.event("inbox-gone", folder=str(self.folders.inbox), reason=error.strerror or str(error))
        self.gone = True

    def _line_up(self, now: float) -> None:
        here = self.sight.drawings
        for known in (self.handled, self.tries, self.not_before):
            for name in known.keys() - here.keys():
                del known[name]
        answers = {one.name for files in self.sight.answers.values() for one in files}
        self.settling.forget(here.keys() | self.sight.shops.keys() | self.sight.others.keys() | answers)
        working = {job.found.name for job in self.jobs}
        for name, found in here.items():
            if name in working or name in self.queue or self.not_before.get(name, now) > now:
                continue
            ruling = self.shops.ruling(name, self.sight, now)
            if ruling is None or self.handled.get(name) == (found.signature, ruling.settings.digest):
                continue
            if self.settling.arrived(self.folders.inbox, found, now):
                self.queue.push(found)
        self.log.waiting = len(self.queue)

    def start_workers(self) -> None:
        """Give the next drawings to free workers, and programs to be judged when no drawing waits."""
        while len(self.jobs) < self.pace.workers and len(self.queue) and not self.waker.stopping:
            big = sum(1 for job in self.jobs if job.found.size >= BIG)
            found = self.queue.pop(big_allowed=big < max(1, self.pace.workers - 1))
            if found is None:
                break
            self.log.waiting = len(self.queue)
            try:
                self._start(found)
            except ANY as error:
                self._later(found.name, error)
        if not len(self.queue) and not self.waker.stopping and not self.gone:
            self._start_checks()

    def _start_checks(self) -> None:
        free = self.pace.workers - len(self.jobs)
        for due in self.checks.due(self.sight, self.clock()) if free > 0 else ():
            try:
                self._same_ledger()
                job = self.checks.start(due, self.ledger, self.pace.limits)
            except ANY as error:
                self.checks.again(due[0])
                self._cannot(due[0].name, error)
                return
            if job is not None:
                self.jobs.append(job)
                free -= 1
            if free <= 0:
                return

    def _start(self, found: InboxFile) -> None:
        ruling = self.shops.ruling(found.name, self.sight, self.clock())
        if ruling is None or found.name not in self.sight.drawings:
            return
        self._same_ledger()
        drawing = os.fsencode(found.name)
        path = self.folders.inbox / found.name
        cause = Cause(file_digest(path), ruling.settings.digest, tool_version())
        known = self.ledger.latest(drawing)
        if known is not None and known.cause == cause and (known.state != "failed" or self._tried_enough(found.name)):
            self.handled[found.name] = (found.signature, ruling.settings.digest)
            return
        where = place(
            self.ledger, drawing, outputs_of(self.ledger, drawing, self.folders.out, ruling.settings.ending), cause
        )
        before = where.last.grooves if where.last and where.last.cause.drawing_sha256 != cause.drawing_sha256 else None
        task = DrawingTask(path, where.outputs, ruling.settings, where.notes, before)
        worker = None if ruling.fault else Worker(task, self.pace.limits)
        self.jobs.append(DrawingJob(found, where, task, ruling, worker, _now()))
        if ruling.fault:
            self.waker.wake()

    def _tried_enough(self, name: Path) -> bool:
        return self.tries.get(name, 0) >= len(RETRY_AFTER)

    def wait_for_something(self) -> None:
        """Sleep until a worker has ended, a file may have arrived, something was told of, or it is time to look."""
        now = self.clock()
        times = [self.pace.poll, *(job.worker.deadline - time.monotonic() for job in self.jobs if job.worker)]
        settled = None if self.waker.stopping else self.settling.next_look(now)
        times += [settled] if settled is not None else []
        times += [at - now for name, at in self.not_before.items() if name in self.sight.drawings]
        behind = self.overview.wait(now)
        times += [behind] if behind is not None else []
        connections = [job.worker.connection for job in self.jobs if job.worker]
        wait([self.waker.reader, *connections], max(0.02, min(times)))
        self.waker.quiet()

    def collect(self) -> None:
        """Take what workers have sent back, and stop those that run too long."""
        for job in list(self.jobs):
            answer: Any = None
            if job.worker is None:
                answer = Failure(JobCode.SHOP_FILE, job.ruling.fault)
            elif job.worker.connection.poll():
                answer = job.worker.result()
            elif time.monotonic() >= job.worker.deadline:
                answer = job.worker.stop()
            if answer is None:
                continue
            self.jobs.remove(job)
            if isinstance(job, DrawingJob):
                self._take(job, answer)
            else:
                self._take_verdict(job, answer)

    def _take_verdict(self, job: CheckJob, answer: Any) -> None:
        try:
            self._same_ledger()
            self.checks.enter(job, answer, self.ledger)
            self.overview.due = True
        except ANY as error:
            self.checks.again(job.found)
            self._cannot(job.found.name, error)

    def _take(self, job: DrawingJob, answer: Any) -> None:
        name = job.found.name
        try:
            draft: Draft = job.task.failed(answer) if isinstance(answer, Failure) else answer
            if draft.drawing_sha256 != job.where.cause.drawing_sha256 or self._edited_meanwhile(job):
                # The drawing, or a program of it, changed while it was worked out: once more from the start.
                self.waker.wake()
                return
            self._same_ledger()
            result = put(self.ledger, job.where, draft, job.started, _now())
        except ANY as error:
            self._later(name, error)
            return
        self._entered(job, result, draft.cautions)

    def _edited_meanwhile(self, job: DrawingJob) -> bool:
        again = place(
            self.ledger,
            job.where.drawing,
            outputs_of(self.ledger, job.where.drawing, self.folders.out, job.where.outputs.ending),
            job.where.cause,
        )
        return again.outputs != job.where.outputs

    def _entered(self, job: DrawingJob, result: Result, cautions: int) -> None:
        name = job.found.name
        self.overview.due = True
        self.not_before.pop(name, None)
        if result.state == "failed" and job.worker is not None:
            self._try_again(name)
        else:
            self.tries.pop(name, None)
        if result.state != "failed" or self._tried_enough(name) or self.once or job.worker is None:
            self.handled[name] = (job.found.signature, job.ruling.settings.digest)
        fields = {"drawing": result.name, "revision": result.revision, "program": result.program_file}
        fields |= {"reason": result.reason} if result.reason else {}
        fields |= {"cautions": cautions} if cautions and result.state == "made" else {}
        fields |= {"changes": list(result.changes)} if result.changes else {}
        self.log.event(result.state, **fields)
        for note in job.where.notes:
            self.log.event("edited", drawing=result.name, reason=note.message)

    def _later(self, name: Path, error: BaseException) -> None:
        """Keep a drawing for another try, since something around it is out of order."""
        self._try_again(name, BUSY_AFTER)
        self._cannot(name, error)

    def _cannot(self, name: Path, error: BaseException) -> None:
        event = "cannot-write" if isinstance(error, BUSY) else JobCode.INTERNAL_FAULT
        reason = getattr(error, "strerror", None) or f"{type(error).__name__} {error}"
        self.log.event(event, drawing=str(name), reason=reason)

    def _try_again(self, name: Path, after: tuple[float, ...] = RETRY_AFTER) -> None:
        tries = self.tries[name] = self.tries.get(name, 0) + 1
        self.not_before[name] = self.clock() + after[min(tries, len(after)) - 1]

    def _same_ledger(self) -> None:
        """Make sure that the open ledger is the one in the folder: a share may have been away in between."""
        self.ledger = self.ledger.in_place(self.folders.out / LEDGER)

    def all_done(self) -> bool:
        """True if nothing that is there is left to be done in this run."""
        if self.gone:
            return True
        waiting = [name for name in self.sight.drawings if name not in self.handled and not self._given_up(name)]
        return not waiting and not self.jobs and not len(self.queue) and not self.checks.waiting(self.sight)

    def _given_up(self, name: Path) -> bool:
        """True for a drawing that this run leaves to the next: it can't be written now, or never stops growing."""
        late = name in self.settling.late or self.shops.late(name, self.sight)
        return self.tries.get(name, 0) > 1 or late

    def status(self) -> int:
        """0 if every drawing that is there has its program, else 1."""
        try:
            self._same_ledger()
            latest = self.ledger.all_latest()
        except BUSY:
            return 1
        states = [latest.get(os.fsencode(name)) for name in self.sight.drawings]
        return 0 if not self.gone and all(one is not None and one.state == "made" for one in states) else 1


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")


def sweep_all(out: Path) -> int:
    """Remove what a killed watch left half written in the folder and below; how many files."""
    folders = [Path(folder) for folder, _, _ in os.walk(out)]
    return sum(sweep(folder) for folder in folders)
