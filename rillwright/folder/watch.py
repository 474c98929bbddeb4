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
from dataclasses import dataclass, field, replace
from multiprocessing.connection import wait
from pathlib import Path
from typing import Any

from rillwright.codes import JobCode
from rillwright.digest import file_digest
from rillwright.folder.checks import Checks
from rillwright.folder.departures import see_off
from rillwright.folder.jobs import CheckJob, DrawingJob, Folders, Pace
from rillwright.folder.ledger import GONE, LEDGER, Cause, Ledger, Result, Underneath
from rillwright.folder.log import WatchLog, time_of_day
from rillwright.folder.numbering import numbered
from rillwright.folder.overview import Overview
from rillwright.folder.placing import outputs_of, place, put
from rillwright.folder.queue import BIG, Waiting
from rillwright.folder.scan import InboxFile, Sight, Signature, look
from rillwright.folder.settle import Settling
from rillwright.folder.shops import Shops
from rillwright.folder.standing import StandingPrograms
from rillwright.folder.task import Draft, DrawingTask
from rillwright.folder.telling import in_line, reason_of, tell_result, trouble
from rillwright.folder.untaken import Untaken
from rillwright.folder.wake import Waker
from rillwright.folder.worker import Failure, Worker
from rillwright.settings import Settings
from rillwright.version import TOOL_VERSION

RETRY_AFTER = (10.0, 60.0, 600.0)
"""Seconds until a failed drawing is tried again, the last one for good; a change or a restart tries at once."""

BUSY_AFTER = (2.0, 10.0, 60.0)
"""Seconds until a drawing is tried again whose results could not be written; the last one for good."""

SOONEST, SHORTEST_WAIT = 0.2, 0.02
"""Least seconds from one look to the next, and those that it sleeps, so that no core is kept busy for nothing."""

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
    out_gone: bool = False
    looked: float = float("-inf")
    look_took: float = 0.0

    def __post_init__(self) -> None:
        """Set up what looks at files."""
        self.settling = Settling(self.pace.settle)
        self.shops = Shops(self.folders.inbox, self.settings, self.settling)
        self.checks = Checks(self.folders, self.shops, self.settling, self.log)
        self.overview = Overview(self.folders.out, self.log, self.clock, since="" if self.once else time_of_day())
        self.standing = StandingPrograms(self.folders.out, self.pace.settle)
        self.standing.load(self.ledger)

    def run(self) -> int:
        """Watch until stopped, or with `once` until all that is there is done; the exit status."""
        self.log.event("start", inbox=str(self.folders.inbox), out=str(self.folders.out), version=TOOL_VERSION)
        while not self.waker.stopping:
            self.look_again()
            self.start_workers()
            if self.once and self.all_done():
                break
            self.wait_for_something()
            self.collect()
            self._show_line()
            self.overview.renew(self.ledger)
        while self.jobs:
            self.wait_for_something()
            self.collect()
        if not self.once:
            self.overview.end()
        self._show_line()
        self.overview.renew(self.ledger, at_once=True)
        status = self.status() if self.once and not self.waker.stopping else 0
        self.log.event("stop", status=status)
        return status

    def _show_line(self) -> None:
        """Tell the page which drawings are in line, and what holds the watch up."""
        later = [name for name in self.not_before if name in self.sight.drawings]
        self.overview.show_line(in_line(self.jobs, [*self.queue, *later]), trouble(self.folders, self.gone))

    def look_again(self) -> None:
        """Look at the inbox if there is a reason to, and put what has arrived in line."""
        now = self.clock()
        # A folder of many thousands must not be listed all the time.
        if now - self.looked < max(SOONEST, 4 * self.look_took):
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
        self._look_at_results(now)
        self._line_up(now)
        self.look_took = self.clock() - now

    def _look_at_results(self, now: float) -> None:
        """See whether programs are as they were put, and put away those whose drawings are gone."""
        try:
            self._same_ledger()
            for drawing, digest in self.standing.changed(self.ledger, now, self._settled):
                self._found(drawing, digest)
            for entered in see_off(self.folders, self.standing, self._seen_now(), self.ledger, now):
                self.log.event(entered.state, drawing=entered.name, reason=entered.reason)
                self.overview.due = True
                # What it held, a number say, is free for drawings that were refused.
                self.handled = {n: seen for n, seen in self.handled.items() if not self.standing.refused(n)}
        except BUSY as error:
            if not self.out_gone:
                self.log.event("out-gone", folder=str(self.folders.out), reason=reason_of(error))
            self.out_gone = True
            return
        if self.out_gone:
            self.log.event("out-back", folder=str(self.folders.out))
        self.out_gone = False

    def _settled(self, drawing: bytes) -> bool:
        """True if no new program of a drawing is on its way."""
        name = Path(os.fsdecode(drawing))
        return name not in self.sight.drawings or name in self.handled or self._given_up(name)

    def _seen_now(self) -> Sight:
        """What lies in the inbox, drawings counted in that are still being worked out."""
        working = {job.found.name: job.found for job in self.jobs if isinstance(job, DrawingJob)}
        return replace(self.sight, drawings=working | self.sight.drawings)

    def _found(self, drawing: bytes, digest: str) -> None:
        """A program is not what was put there: look into it, or say that it was taken away."""
        name = Path(os.fsdecode(drawing))
        if digest:
            self.standing.due.add(drawing)
            self.handled.pop(name, None)
            return
        found = self.sight.drawings.get(name)
        words = "Its program was taken away; drop the drawing again to have it made again."
        told = Underneath("", str(found.signature) if found else "gone", None, words)
        self.ledger.lies(drawing, told)
        self.standing.underneath[drawing] = told
        self.log.event("program-gone", drawing=str(name), reason=words)
        self.overview.due = True

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
            elif reason := self.settling.lacks_end(self.folders.inbox, found, now):
                self.log.event("waiting", drawing=str(name), reason=reason)
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
        told = ruling.settings
        settings = told if ruling.fault else numbered(self.ledger, drawing, told, self.standing.latest)
        cause = Cause(file_digest(path), settings.digest, TOOL_VERSION)
        known = self.ledger.latest(drawing)
        if known is not None and known.cause == cause and not self._to_be_made(known, found):
            self.handled[found.name] = (found.signature, ruling.settings.digest)
            return
        where = place(self.ledger, drawing, outputs_of(self.ledger, drawing, self.folders.out, settings.form), cause)
        before = where.last.grooves if where.last and where.last.cause.drawing_sha256 != cause.drawing_sha256 else None
        changes = known.changes if known is not None and known.cause == cause else ()
        task = DrawingTask(path, where.outputs, settings, where.before, before, changes)
        worker = None if ruling.fault else Worker(task, self.pace.limits)
        self.jobs.append(DrawingJob(found, where, task, ruling, worker, time_of_day()))
        if ruling.fault:
            self.waker.wake()

    def _to_be_made(self, known: Result, found: InboxFile) -> bool:
        """True if a drawing whose last result still holds is to be worked out all the same."""
        if known.state in GONE or self.standing.wanted(known.drawing, found.signature):
            return True
        return known.state == "failed" and not self._tried_enough(found.name)

    def _tried_enough(self, name: Path) -> bool:
        return self.tries.get(name, 0) >= len(RETRY_AFTER)

    def wait_for_something(self) -> None:
        """Sleep until a worker has ended, a file may have arrived, a change was reported, or it is time to look."""
        now = self.clock()
        times = [self.pace.poll, *(job.worker.deadline - time.monotonic() for job in self.jobs if job.worker)]
        settled = None if self.waker.stopping else self.settling.next_look(now)
        still = None if self.waker.stopping else self.standing.next_look(now, busy=bool(self.jobs or len(self.queue)))
        times += [one for one in (settled, still) if one is not None]
        times += [at - now for name, at in self.not_before.items() if name in self.sight.drawings]
        behind = self.overview.wait(now)
        times += [behind] if behind is not None else []
        connections = [job.worker.connection for job in self.jobs if job.worker]
        wait([self.waker.reader, *connections], max(SHORTEST_WAIT, min(times)))
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
            result = put(self.ledger, job.where, draft, job.started, time_of_day())
        except ANY as error:
            self._later(name, error)
            return
        self._entered(job, result, draft)

    def _edited_meanwhile(self, job: DrawingJob) -> bool:
        where = job.where
        outputs = outputs_of(self.ledger, where.drawing, self.folders.out, where.outputs.form)
        again = place(self.ledger, where.drawing, outputs, where.cause)
        return (again.outputs, again.before) != (job.where.outputs, job.where.before)

    def _entered(self, job: DrawingJob, result: Result, draft: Draft) -> None:
        name = job.found.name
        self.overview.due = True
        self.standing.entered(result, self.ledger)
        self.not_before.pop(name, None)
        if result.state == "failed" and job.worker is not None:
            self._try_again(name)
        else:
            self.tries.pop(name, None)
        if result.state != "failed" or self._tried_enough(name) or self.once or job.worker is None:
            self.handled[name] = (job.found.signature, job.ruling.settings.digest)
        tell_result(self.log, job, result, draft)

    def _later(self, name: Path, error: BaseException) -> None:
        """Keep a drawing for another try, since something around it is out of order."""
        self._try_again(name, BUSY_AFTER)
        self._cannot(name, error)

    def _cannot(self, name: Path, error: BaseException) -> None:
        event = "cannot-write" if isinstance(error, BUSY) else JobCode.INTERNAL_FAULT
        self.log.event(event, drawing=str(name), reason=reason_of(error))

    def _try_again(self, name: Path, after: tuple[float, ...] = RETRY_AFTER) -> None:
        tries = self.tries[name] = self.tries.get(name, 0) + 1
        self.not_before[name] = self.clock() + after[min(tries, len(after)) - 1]

    def _same_ledger(self) -> None:
        """Make sure that the open ledger is the one in the folder: a share may have been away in between."""
        open_now = self.ledger.in_place(self.folders.out / LEDGER)
        if open_now is not self.ledger:
            self.ledger = open_now
            self.standing.load(open_now)

    def all_done(self) -> bool:
        """True if nothing in the inbox is left to be done in this run."""
        if self.gone:
            return True
        waiting = [name for name in self.sight.drawings if name not in self.handled and not self._given_up(name)]
        busy = self.jobs or len(self.queue) or self.checks.waiting(self.sight)
        return not waiting and not busy and (self.standing.quiet or self.out_gone)

    def _given_up(self, name: Path) -> bool:
        """True for a drawing that this run leaves to the next: it can't be written now, or never stops growing."""
        late = name in self.settling.late or self.shops.late(name, self.sight)
        return self.tries.get(name, 0) > 1 or late

    def status(self) -> int:
        """0 if every drawing that is there has its program and none was edited so that it is wrong, else 1."""
        try:
            self._same_ledger()
            latest = self.ledger.all_latest()
        except BUSY:
            return 1
        names = [os.fsencode(name) for name in self.sight.drawings]
        # What is left to the next run may have an older program, which says nothing of the drawing as it is now.
        left = self.tries.keys() & self.sight.drawings.keys()
        made = not left and all((one := latest.get(name)) is not None and one.state == "made" for name in names)
        right = all((lies := self.standing.underneath.get(name)) is None or lies.right for name in names)
        return 0 if made and right and not self.gone else 1
