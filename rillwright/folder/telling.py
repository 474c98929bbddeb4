"""What the log is told of a drawing's result, and of an edited program of it."""

from rillwright.folder.jobs import DrawingJob
from rillwright.folder.ledger import Result
from rillwright.folder.log import WatchLog
from rillwright.folder.task import Draft
from rillwright.lying import moved


def tell_result(log: WatchLog, job: DrawingJob, result: Result, draft: Draft) -> None:
    """One event for what came of a drawing; one for an edited program that stands or had to make room."""
    if draft.edited is not None:
        log.event("edited", drawing=result.name, agree=draft.edited["agree"], reason=draft.edited["message"])
        return
    if job.where.before.edited:
        log.event("edited", drawing=result.name, reason=moved(job.where.before, draft.program_sha256))
    fields = {"drawing": result.name, "revision": result.revision, "program": result.program_file}
    fields |= {"reason": result.reason} if result.reason else {}
    fields |= {"cautions": draft.cautions} if draft.cautions and result.state == "made" else {}
    fields |= {"changes": list(result.changes)} if result.changes else {}
    log.event(result.state, **fields)
