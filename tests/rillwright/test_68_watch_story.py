"""Random stories of one drawing in a watched folder: whatever happens in whatever order, nothing is ever lost.

The story is made of what a shop does: the drawing changes, is refused, comes back as it was; a program is edited at the
machine, brought from elsewhere, taken away; the watch is killed in the middle and started again.
"""

import hashlib
import shutil
import tempfile
from dataclasses import replace
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from rillwright.folder import placing
from rillwright.folder.ledger import Cause, Ledger
from rillwright.folder.placing import clear, outputs_of, place, put
from rillwright.folder.task import Draft
from rillwright.records.record import HeldProgram

RING = b"ring.dxf"
DRAWINGS = st.sampled_from([b"drawing A", b"drawing B", b"drawing C"])


class Killed(BaseException):
    """The process is gone."""


def sha(data):
    return hashlib.sha256(data).hexdigest()


class Story(RuleBasedStateMachine):
    """The folder, the ledger, and what must still be there."""

    def __init__(self):
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(prefix="story-"))
        self.ledger = Ledger(self.folder)
        self.precious = set()
        self.edits = 0
        self.hands_off = {}
        self.in_force = None

    def teardown(self):
        self.ledger.close()
        shutil.rmtree(self.folder)

    def programs(self):
        """Programs that may be run, by name."""
        return {path.name: path.read_bytes() for path in self.folder.glob("*.nc")}

    def work(self, drawing, made, kill_at=None):
        """One run of the watch over the drawing; killed at a step if asked for."""
        where = place(self.ledger, RING, outputs_of(self.ledger, RING, self.folder), Cause(sha(drawing), "s", "v"))
        files = [(where.outputs.sheet, b"sheet of " + drawing), (where.outputs.record, b"record of " + drawing)]
        digest = sha(b"program of " + drawing) if made else None
        held = (
            HeldProgram(file="x", sha256="", agree=True, message="It makes it.")
            if where.before.stands(digest)
            else None
        )
        if made and not held:
            files.append((where.outputs.program, b"program of " + drawing))
        draft = Draft("made" if made else "refused", sha(drawing), tuple(files), "" if made else "No groove.", digest)
        self.until(kill_at, lambda: put(self.ledger, where, replace(draft, edited=held), "t0", "t1"))
        if made and not held:
            self.precious.add(b"program of " + drawing)
        if not held:
            # What was edited made room: it is kept under another name.
            self.hands_off.pop("ring.nc", None)
        self.in_force = (drawing, made)

    def until(self, kill_at, act):
        """Do something, killed at a step if asked for."""
        steps = iter(range(1000))
        real_write, real_rename = placing.os.replace, placing.os.rename

        def step(real):
            def call(*args):
                if next(steps) == kill_at:
                    raise Killed
                return real(*args)

            return call

        placing.os.replace, placing.os.rename = step(real_write), step(real_rename)
        try:
            act()
        finally:
            placing.os.replace, placing.os.rename = real_write, real_rename

    @initialize(drawing=DRAWINGS)
    def first(self, drawing):
        self.work(drawing, True)

    @rule(drawing=DRAWINGS, made=st.booleans())
    def the_drawing_changes(self, drawing, made):
        if self.in_force != (drawing, made):
            self.work(drawing, made)

    @rule(drawing=DRAWINGS, made=st.booleans(), at=st.integers(0, 6))
    def the_watch_is_killed_and_started_again(self, drawing, made, at):
        if self.in_force == (drawing, made):
            return
        made = made or self.in_force is None
        try:
            self.work(drawing, made, at)
        except Killed:
            self.ledger.close()
            self.ledger = Ledger(self.folder)
            self.work(drawing, made)

    @rule(at=st.integers(0, 3))
    def the_drawing_is_taken_out(self, at):
        if self.in_force is None or not self.in_force[1]:
            return
        last = self.ledger.latest(RING)
        act = lambda: clear(self.ledger, last, self.folder, "removed", "It is gone", "t2")  # noqa: E731
        try:
            self.until(at, act)
        except Killed:
            act()
        self.hands_off.pop("ring.nc", None)
        self.in_force = None

    @rule(data=st.data())
    def a_program_is_edited(self, data):
        here = sorted(self.programs())
        if here:
            self.edits += 1
            text = b"edit %d" % self.edits
            name = data.draw(st.sampled_from(here))
            self.precious.discard((self.folder / name).read_bytes())
            (self.folder / name).write_bytes(text)
            self.precious.add(text)
            self.hands_off[name] = text

    @rule()
    def a_program_comes_from_elsewhere(self):
        if not (self.folder / "ring.nc").exists():
            self.edits += 1
            text = b"foreign %d" % self.edits
            (self.folder / "ring.nc").write_bytes(text)
            self.precious.add(text)
            self.hands_off["ring.nc"] = text

    @rule(data=st.data())
    def a_program_is_taken_away(self, data):
        here = sorted(self.programs())
        if here:
            name = data.draw(st.sampled_from(here))
            self.precious.discard((self.folder / name).read_bytes())
            (self.folder / name).unlink()
            self.hands_off.pop(name, None)

    @invariant()
    def nothing_is_lost(self):
        kept = {path.read_bytes() for path in self.folder.iterdir() if ".nc" in path.name}
        assert self.precious <= kept, self.precious - kept

    @invariant()
    def what_was_edited_lies_where_it_lay(self):
        for name, text in self.hands_off.items():
            assert (self.folder / name).read_bytes() == text

    @invariant()
    def nothing_half_done_is_left(self):
        assert not list(self.folder.glob("*.tmp"))

    @invariant()
    def sheet_and_record_are_of_the_drawing_in_force(self):
        if self.in_force is not None:
            drawing, _ = self.in_force
            assert (self.folder / "ring.html").read_bytes() == b"sheet of " + drawing
            assert (self.folder / "ring.json").read_bytes() == b"record of " + drawing

    @invariant()
    def what_may_be_run_is_of_the_drawing_in_force_or_somebody_elses(self):
        if self.in_force is None:
            assert self.programs().get("ring.nc") == self.hands_off.get("ring.nc")
            return
        drawing, made = self.in_force
        there = self.programs().get("ring.nc")
        allowed = {None, self.hands_off.get("ring.nc"), b"program of " + drawing if made else None}
        assert there in allowed, (self.in_force, self.programs())


Story.TestCase.settings = settings(max_examples=15, stateful_step_count=12, deadline=None)
TestStory = Story.TestCase
