"""Each change of a file that the watch does, failed, cut and lost in turn, its ledger's among them.

After each the folder holds the old files or the new ones, and the next run has what a run without a fault has.
"""

import itertools
import json
import shutil
from collections import Counter
from contextlib import closing
from datetime import UTC, datetime
from typing import ClassVar

import pytest
from support.drawings import draw_ring
from support.faulty_files import HOW, FaultyFiles
from support.remembered import remembered

from rillwright.atomic import TEMPORARY
from rillwright.folder import checks, log, watch
from rillwright.folder.jobs import Folders, Pace
from rillwright.folder.ledger import Ledger
from rillwright.folder.log import WatchLog
from rillwright.folder.start import sweep_all
from rillwright.folder.wake import Waker
from rillwright.settings import Settings

EDITED = b"%\nO0001 (EDITED BY HAND)\nM30\n%\n"
DROPPED = b"%\nO0001\nG0 X42. Z-13.\nG1 X34. F0.1\nM30\n%\n"
NARROW, DEEP = ((-10, -13, 34),), ((-10, -13, 32),)

SITUATIONS = {
    "first": ([], "deep"),
    "revised": (["narrow"], "deep"),
    "edited, then refused": (["narrow", EDITED], "unitless"),
    "a program dropped beside it": (["narrow"], DROPPED),
}


class AtOnce:
    """A worker that has done its task before it is asked; the same task on the same files is done once."""

    done: ClassVar = {}
    deadline = float("inf")

    def __init__(self, task, limits):
        self.connection = self
        program = task.program.read_bytes() if hasattr(task, "program") else None
        key = (repr(task), task.drawing.read_bytes(), program)
        self.answer = self.done[key] = self.done.get(key) or task()

    def poll(self):
        """It is always done."""
        return True

    def result(self):
        """What the task answered."""
        return self.answer


class Said:
    """A stream that keeps what is said."""

    def __init__(self):
        self.lines = []
        self.write = self.lines.append

    def flush(self):
        """Nothing to flush."""


@pytest.fixture(scope="module")
def drawings(tmp_path_factory):
    """The bytes of three drawings; the watch's workers and waits are of no length."""
    folder = tmp_path_factory.mktemp("drawings")
    kinds = (("narrow", NARROW, 4), ("deep", DEEP, 4), ("unitless", NARROW, 0))
    found = {name: draw_ring(folder / name, grooves, insunits=units).read_bytes() for name, grooves, units in kinds}
    with remembered(), pytest.MonkeyPatch.context() as patch:
        patch.setattr(watch, "Worker", AtOnce)
        patch.setattr(checks, "Worker", AtOnce)
        patch.setattr(watch, "wait", lambda *_: [])
        # One moment for all runs, so that the same drawing gives the same bytes.
        clock = type("Clock", (), {"now": staticmethod(lambda _: datetime(2000, 1, 1, tzinfo=UTC))})
        patch.setattr(log, "datetime", clock)
        yield found


def ran(home):
    """One run of the watch with --once in this process; its status and what it said."""
    folders, said = Folders(home / "inbox", home / "out"), Said()
    with Ledger(folders.out) as ledger, closing(Waker()) as waker:
        sweep_all(folders.out)
        clock = itertools.count(0.0, 1.0).__next__
        log = WatchLog(said, terminal=False)
        made = watch.Watch(folders, Settings(), Pace(0.0, 1.0), True, log, ledger, waker, clock)
        return made.run(), said.lines


def drop(home, drawings, what):
    """A drawing or a program into the inbox, or an edit of the program that was made."""
    if what == EDITED:
        (home / "out" / "ring.nc").write_bytes(what)
    elif what == DROPPED:
        (home / "inbox" / "ring.nc").write_bytes(what)
    else:
        (home / "inbox" / "ring.dxf").write_bytes(drawings[what])


def files(folder):
    """What a person sees there."""
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file() and "sqlite" not in p.name}


def anew(home, start):
    """The folder as it was at the start."""
    shutil.rmtree(home, ignore_errors=True)
    shutil.copytree(start, home)


@pytest.mark.parametrize("situation", SITUATIONS)
def test_every_change_of_a_file_that_goes_wrong(drawings, tmp_path, situation):
    before, now = SITUATIONS[situation]
    home, start = tmp_path / "home", tmp_path / "start"
    for folder in ("inbox", "out"):
        (home / folder).mkdir(parents=True)
    for step in before:
        drop(home, drawings, step)
        if step != EDITED:
            ran(home)
    drop(home, drawings, now)
    shutil.copytree(home, start)
    old = files(home / "out")
    # On a copy, as all that follow: what the system knows a folder by is in the ledger.
    anew(home, start)
    with FaultyFiles(home) as counted:
        status, _ = ran(home)
    new = files(home / "out")
    assert counted.done
    struck = Counter()
    for how, at in itertools.product(HOW, range(len(counted.done))):
        anew(home, start)
        with FaultyFiles(home, at, how) as faulty:
            again, said = ran(home)
        struck[how, faulty.struck] += 1
        holds(home, old, new, faulty)
        if how == "fails":
            assert again == status
            # A run that made one change less was not struck at all; how many may be is held below.
            assert faulty.struck is None or harmless(faulty) or told(said), faulty.struck
        elif at % 2:
            faulty.lose_power()
            holds(home, old, new, faulty)
        with FaultyFiles(home):
            assert ran(home)[0] == status
        mended(files(home / "out"), new)
    assert {(how, what) for how in HOW for what in counted.done} <= struck.keys()
    assert sum(n for (_, what), n in struck.items() if what is None) <= 2


def holds(home, old, new, faulty):
    """Each file is an old one or a new one, whole; a program of ours lies beside its own sheet and record or none."""
    now = files(home / "out")
    for name, data in now.items():
        # A second try may say more than the first, but what it says is whole.
        whole = b"</html>" in data[-10:] or (name.endswith(".json") and json.loads(data))
        if not name.startswith(TEMPORARY):
            assert whole or data in [*old.values(), *new.values()], f"{name} is neither old nor new: {faulty.struck}"
    for kind in (old, new):
        program = kind.get("ring.nc")
        if program not in (None, EDITED) and now.get("ring.nc") == program and old.get("ring.nc") != new.get("ring.nc"):
            beside = [kind.get("ring.html"), kind.get("ring.json")]
            assert [now.get("ring.html"), now.get("ring.json")] == beside, f"beside another's sheet: {faulty.struck}"
    assert EDITED not in old.values() or EDITED in now.values(), f"the edited program is lost: {faulty.struck}"


def harmless(faulty):
    """True for a call that may fail without a word: a sync of a folder is no more than some systems can't do."""
    return faulty.struck in ("fsync of folder", "unlink")


def told(said):
    """True if the log says what went wrong."""
    return any("No space left" in line or "disk is full" in line for line in said)


def mended(now, new):
    """All is as after a run without a fault, but for notes on what was set aside."""
    assert now.get("ring.nc") == new.get("ring.nc")
    assert status_of(now) == status_of(new)
    assert set(now) == set(new)
    aside = {data for name, data in new.items() if ".nc." in name}
    assert aside == {data for name, data in now.items() if ".nc." in name}


def status_of(folder):
    """What the record says."""
    record = json.loads(folder["ring.json"])
    return record["status"], record["program"]
