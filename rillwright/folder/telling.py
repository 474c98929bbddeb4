"""What log and page are told: a drawing's result, an edited program of it, the line, what holds the watch up."""

from collections.abc import Iterable
from pathlib import Path

from rillwright.folder.jobs import CheckJob, DrawingJob, Folders
from rillwright.folder.ledger import Result
from rillwright.folder.log import WatchLog
from rillwright.folder.task import Draft
from rillwright.lying import moved
from rillwright.outputs import show


def tell_result(log: WatchLog, job: DrawingJob, result: Result, draft: Draft) -> None:
    """One event for what came of a drawing; one for an edited program that stands or had to make room."""
    if draft.edited is not None:
        log.event("edited", drawing=result.name, agree=draft.edited.agree, reason=draft.edited.message)
        return
    if job.where.before.edited:
        log.event("edited", drawing=result.name, reason=moved(job.where.before, draft.program_sha256))
    fields = {"drawing": result.name, "revision": result.revision, "program": result.program_file}
    fields |= {"reason": result.reason} if result.reason else {}
    fields |= {"cautions": draft.cautions} if draft.cautions and result.state == "made" else {}
    fields |= {"changes": list(result.changes)} if result.changes else {}
    log.event(result.state, **fields)


def in_line(jobs: Iterable[DrawingJob | CheckJob], waiting: Iterable[Path]) -> list[str]:
    """Drawings that are being worked out, and those that wait."""
    working = [job.found.name for job in jobs if isinstance(job, DrawingJob)]
    return list(map(str, dict.fromkeys([*working, *waiting])))


def trouble(folders: Folders, gone: bool) -> list[str]:
    """What holds the watch up, in sentences."""
    return [f"The inbox {show(folders.inbox)} can't be found: check that its share is connected."] if gone else []


def reason_of(error: BaseException) -> str:
    """Why something around the watch is out of order, in a few words."""
    return getattr(error, "strerror", None) or f"{type(error).__name__} {error}"
