"""The other direction: a program dropped beside a drawing of the same name is held against it, the verdict written.

A program is told by what is in it, not by its ending. A verdict is due again when the program, the drawing,
the settings or the tool change.
"""

import hashlib
import os
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from extractor.errors import ProgramError
from rillwright.allowance import Allowance
from rillwright.atomic import make_folder, staged
from rillwright.check import MOST_BYTES, looks_like_program, read_program
from rillwright.digest import file_digest
from rillwright.folder.jobs import CheckJob, Folders
from rillwright.folder.ledger import Ledger
from rillwright.folder.log import WatchLog, time_of_day
from rillwright.folder.scan import InboxFile, Sight, Signature, pair_key
from rillwright.folder.settle import Settling
from rillwright.folder.shops import Shops
from rillwright.folder.task import CheckTask, Judgement
from rillwright.folder.worker import Failure, Worker
from rillwright.outputs import fitted
from rillwright.settings import Settings
from rillwright.version import TOOL_VERSION

ENDING = len(".verdict.json")
MOST_TRIES = 3

Key = tuple[Path, str]
"""Folder and name without ending: what a program and its drawing have in common."""


@dataclass
class Checks:
    """Programs that lie beside drawings, and which of them have their verdict."""

    folders: Folders
    shops: Shops
    settling: Settling
    log: WatchLog
    handled: dict[Path, tuple[Signature, Signature, str]] = field(default_factory=dict)
    tries: dict[Path, int] = field(default_factory=dict)

    def due(self, sight: Sight, now: float) -> Iterator[tuple[InboxFile, InboxFile, Settings]]:
        """Each program that has arrived and has no verdict yet, with its drawing and the settings that rule it."""
        if not sight.others:
            return
        drawings = _paired(sight)
        for name, found in sight.others.items():
            drawing = drawings.get(pair_key(name))
            ruling = self.shops.ruling(drawing.name, sight, now) if drawing else None
            if drawing is None or ruling is None or found.size > MOST_BYTES:
                continue
            state = (found.signature, drawing.signature, ruling.settings.digest)
            if self.handled.get(name) == state:
                continue
            inbox = self.folders.inbox
            if ruling.fault:
                self.handled[name] = state
            # Both are asked in any case, so that both settle at the same time.
            elif self.settling.arrived(inbox, found, now) & self.settling.arrived(inbox, drawing, now):
                self.handled[name] = state
                yield found, drawing, ruling.settings

    def waiting(self, sight: Sight) -> bool:
        """True if a program beside a drawing was not yet looked at as it is now; not for one that grows for ever."""
        if not sight.others:
            return False
        drawings = _paired(sight)
        return any(
            self.handled.get(name, (None,))[0] != found.signature and not self._given_up(name, drawings, sight)
            for name, found in sight.others.items()
        )

    def _given_up(self, program: Path, drawings: Mapping[Key, InboxFile], sight: Sight) -> bool:
        """True for what is never judged: too large, beside no drawing, or one of the two never stops changing."""
        drawing = drawings.get(pair_key(program))
        if drawing is None or sight.others[program].size > MOST_BYTES:
            return True
        return bool(self.settling.late & {program, drawing.name}) or self.shops.late(drawing.name, sight)

    def start(self, due: tuple[InboxFile, InboxFile, Settings], ledger: Ledger, limits: Allowance) -> CheckJob | None:
        """Give a program to a worker; None if it is no program, or has its verdict in the ledger."""
        found, drawing, settings = due
        program = self.folders.inbox / found.name
        try:
            if not looks_like_program(read_program(program)):
                return None
        except ProgramError:
            return None
        path = self.folders.inbox / drawing.name
        parts = (file_digest(program), file_digest(path), settings.digest, TOOL_VERSION)
        key = hashlib.sha256(" ".join(parts).encode()).hexdigest()
        if ledger.checked(os.fsencode(found.name)) == key:
            return None
        out = self.folders.out / found.name.parent / fitted(found.name.name, ENDING)
        task = CheckTask(program, path, settings, out)
        return CheckJob(found, key, task, Worker(task, limits))

    def enter(self, job: CheckJob, answer: Judgement | Failure, ledger: Ledger) -> None:
        """Write the verdict and enter it."""
        judged = job.task.failed(answer) if isinstance(answer, Failure) else answer
        make_folder(job.task.out.parent)
        with staged(judged.files) as put_all:
            put_all()
        ledger.enter_check(os.fsencode(job.found.name), job.key, judged.agree, judged.reason, time_of_day())
        self.log.event("check", program=str(job.found.name), agree=judged.agree, reason=judged.reason)

    def again(self, program: InboxFile) -> None:
        """Let a program whose verdict could not be written be judged again, but not for ever."""
        tries = self.tries[program.name] = self.tries.get(program.name, 0) + 1
        if tries < MOST_TRIES:
            self.handled.pop(program.name, None)


def _paired(sight: Sight) -> dict[Key, InboxFile]:
    """The drawing that programs of its name are held against; none where several drawings have the name."""
    count = Counter(map(pair_key, sight.drawings))
    return {pair_key(name): found for name, found in sight.drawings.items() if count[pair_key(name)] == 1}
