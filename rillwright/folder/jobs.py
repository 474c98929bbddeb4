"""What workers of a watch have in hand: a drawing to be made, or a program to be judged."""

import os
from pathlib import Path

from extractor.values import dataclass
from rillwright.allowance import Allowance
from rillwright.folder.placing import ResultPlace
from rillwright.folder.scan import InboxFile
from rillwright.folder.shops import Ruling
from rillwright.folder.task import CheckTask, DrawingTask
from rillwright.folder.worker import Worker

CPUS = os.cpu_count() or 1


@dataclass
class DrawingJob:
    """A drawing in a worker's hands; no worker where its shop file is at fault. `started` is a UTC time as text."""

    found: InboxFile
    where: ResultPlace
    task: DrawingTask
    ruling: Ruling
    worker: Worker | None
    started: str


@dataclass
class CheckJob:
    """A program in a worker's hands; `key` is what its verdict depends on."""

    found: InboxFile
    key: str
    task: CheckTask
    worker: Worker


@dataclass(frozen=True)
class Pace:
    """How fast a watch goes. `settle`: seconds without change until a file has arrived. `poll`: seconds between looks.

    `workers`: tasks at a time, each within `limits`.
    """

    settle: float = 2.0
    poll: float = 5.0
    workers: int = CPUS
    limits: Allowance = Allowance()


@dataclass(frozen=True)
class Folders:
    """Where drawings come from and where results go, both resolved.

    `keep_orphaned`: programs stay when their drawings are taken out of the inbox.
    """

    inbox: Path
    out: Path
    keep_orphaned: bool = False

    @property
    def left_out(self) -> Path | None:
        """The folder of results where it lies in the inbox: nothing in it is anybody's drop."""
        return self.out if self.inbox in self.out.parents else None
