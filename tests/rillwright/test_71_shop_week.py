"""A week of a shop through the folder and a real browser: at each step one verified program may be run, or none."""

import json
import re
import shutil

import pytest
from support.browser import browser, visit
from support.drawings import draw_ring
from support.inboxes import results_of, watch_once

from rillwright.digest import file_digest
from rillwright.folder import placing
from rillwright.folder.entries import KEPT
from rillwright.folder.ledger import Ledger

SPOTS, MORE = ((-10, -13, 34), (-20, -23, 34)), ((-10, -13, 34), (-21, -24, 34))


@pytest.fixture(scope="module")
def running():
    with browser() as started:
        yield started


class Shop:
    """Inbox, results and a browser. `look` runs the watch over what is there; what may be run must then be `runs`."""

    def __init__(self, folder, running):
        self.inbox, self.out, self.running, self.asked = folder / "inbox", folder / "out", running, []
        self.inbox.mkdir()

    def look(self, *runs):
        """One run of the watch; its events by name."""
        done = watch_once(self.inbox, self.out)
        assert done.stderr == ""
        self.may_be_run(runs)
        return {one["event"]: one for one in map(json.loads, done.stdout.splitlines())}

    def may_be_run(self, runs):
        """Each program under a drawing's name is the one that its record verified, of the drawing as it is."""
        there = {path.relative_to(self.out).as_posix() for path in self.out.rglob("*.nc") if not KEPT.search(path.name)}
        assert there == set(runs)
        for name in runs:
            record = json.loads((self.out / name).with_suffix(".json").read_text())
            drawing = self.inbox / re.sub("nc$", "dxf", name)
            assert (record["status"], record["verification"]["agree"]) == ("made", True)
            assert record["part"]["drawing"]["sha256"] == file_digest(drawing)
            held = record.get("edited") or record["program"]
            assert held["sha256"] == file_digest(self.out / name)

    def page(self, name):
        """The words of a page as a browser shows it; it must complain of nothing and ask for nothing else."""
        with visit(self.running, self.out / name) as seen:
            words = seen.page.inner_text("body")
            assert (seen.complaints, seen.asked) == ([], [(self.out / name).resolve().as_uri()])
        return " ".join(words.split())

    def answer(self, saved):
        """Go from the overview to the form, choose millimetres, and save the file as the browser would."""
        with visit(self.running, self.out / "index.html") as seen:
            seen.page.get_by_role("link", name=re.compile("^Answer 1 question")).click()
            seen.page.wait_for_url("**/ring.html#reasons")
            with seen.page.expect_download() as coming:
                seen.page.get_by_role("link", name="millimetres").click()
            assert coming.value.suggested_filename == "ring.answers.toml"
            coming.value.save_as(self.inbox / saved)
            assert [url for url in seen.asked if not url.startswith(("file:", "data:"))] == []
            assert seen.complaints == []


@pytest.fixture
def shop(tmp_path, running):
    return Shop(tmp_path, running)


def test_a_week(shop):
    ring, program = shop.inbox / "ring.dxf", shop.out / "ring.nc"
    draw_ring(ring, SPOTS, insunits=0)
    assert "refused" in shop.look()
    shop.answer("ring.answers.toml")
    assert "made" in shop.look("ring.nc")
    assert "file" in json.loads((shop.out / "ring.json").read_text())["answers"]["units"]

    text = program.read_text()
    program.write_text(text.replace("F0.08", "F0.07"))
    assert shop.look("ring.nc")["edited"]["agree"] is True
    assert "Edited, still right" in shop.page("ring.html").replace("EDITED, STILL RIGHT", "Edited, still right")
    program.write_text(text.replace("X34.", "X33.").replace("X34", "X33"))
    assert shop.look("ring.nc")["edited"]["agree"] is False
    assert "ring.nc ✗ differs" in shop.page("index.html")

    draw_ring(ring, MORE, insunits=0)
    assert "refused" in shop.look()
    assert [path.name for path in shop.out.glob("*.nc")] == ["ring.edited-1.nc"]
    assert "answers for another version of the drawing" in shop.page("ring.html")
    shop.answer("ring.answers (1).toml")
    assert "made" in shop.look("ring.nc")
    assert "ring.edited-1.nc ! edited" in shop.page("index.html")

    good = ring.read_bytes()
    draw_ring(ring, ())
    assert "refused" in shop.look()
    ring.write_bytes(good)
    assert "made" in shop.look("ring.nc")

    ring.rename(shop.inbox / "bolt.dxf")
    assert shop.look()["removed"]["reason"] == "The drawing is bolt.dxf now; its program was set aside."
    assert "ring.answers.toml there is no drawing of that name beside it" in shop.page("index.html")
    (shop.inbox / "ring.answers (1).toml").rename(shop.inbox / "bolt.answers.toml")
    assert "made" in shop.look("bolt.nc")

    second = shop.inbox / "lathe 2"
    second.mkdir()
    (second / "shop.toml").write_text('[machine]\ndialect = "plunge"\n')
    shutil.copy(shop.inbox / "bolt.dxf", second / "bolt.dxf")
    (second / "answers.toml").write_text('units = "mm"\n')
    assert "made" in shop.look("bolt.nc", "lathe 2/bolt.nc")
    assert "G75" in (shop.out / "bolt.nc").read_text()
    assert "G75" not in (shop.out / "lathe 2" / "bolt.nc").read_text()

    (shop.inbox / "bolt.dxf").unlink()
    assert "removed" in shop.look("lathe 2/bolt.nc")
    assert "bolt.dxf ! removed" in shop.page("index.html")
    states = [one.state for one in results_of(shop.out) if one.name == "bolt.dxf"]
    assert states == ["refused", "made", "removed"]


class Killed(BaseException):
    """The process is gone."""


STEPS = [
    (placing.os, "replace"),
    (placing.os, "rename"),
    (Ledger, "will_write"),
    (Ledger, "lies"),
    (Ledger, "finish"),
]
KILLS = [(owner, name, at) for owner, name in STEPS for at in range(3 if name == "replace" else 1)]


def dying(real, at):
    """The same step of the work, but that the process is gone at its call of that number."""
    calls = iter(range(1000))

    def step(*args):
        if next(calls) == at:
            raise Killed
        return real(*args)

    return step


def test_kills_lose_no_answer_and_leave_one_program_or_none(tmp_path, monkeypatch):
    """A dozen, in every step of putting a revision in place; tests/bench/watch_week.py kills the process itself."""
    inbox, out = tmp_path / "inbox", tmp_path / "out"
    inbox.mkdir()
    draw_ring(inbox / "ring.dxf", SPOTS, insunits=0)
    answers = f'units = "mm"\ndrawing = "{file_digest(inbox / "ring.dxf")}"\n'
    (inbox / "ring.answers.toml").write_text(answers)
    assert watch_once(inbox, out).returncode == 0
    kills = 0
    for count, (owner, name, at) in enumerate([*KILLS, *KILLS, *KILLS[:2]]):
        (inbox / "shop.toml").write_text(f"[machine]\nmax_rpm = {(speed := 100 + 100 * (count % 12))}\n")
        with monkeypatch.context() as patch:
            patch.setattr(owner, name, dying(getattr(owner, name), at))
            try:
                watch_once(inbox, out)
            except Killed:
                kills += 1
        for program in out.glob("*.nc"):
            assert json.loads(program.with_suffix(".json").read_text())["program"]["sha256"] == file_digest(program)
        assert (inbox / "ring.answers.toml").read_text() == answers
        if count % 4 != 3:
            continue
        assert watch_once(inbox, out).returncode == 0
        record = json.loads((out / "ring.json").read_text())
        assert record["answers"]["units"] == {"value": "mm", "file": "ring.answers.toml"}
        assert record["program"]["sha256"] == file_digest(out / "ring.nc")
        assert f"G50 S{speed}" in (out / "ring.nc").read_text()
    assert kills >= 12
