"""Many drawings by many workers: the same files and records as one after the other, in the same order."""

import json
from concurrent.futures import BrokenExecutor, Executor, Future
from pathlib import Path

import pytest
from click.testing import CliRunner

from extractor.errors import SettingsError
from rillwright import many
from rillwright.cli import main
from rillwright.settings import Settings

DRAWINGS = Path(__file__).parents[2] / "drawings"
GIVEN = [DRAWINGS / name for name in ("piston.dxf", "no-such-file.dxf", "plunger.dxf", "grip-knob.dxf")]


def calls(out):
    return [many.Call(path, out, Settings()) for path in GIVEN]


def content(folder):
    """Every program as it is, and every record but for when it was made."""
    records = {path.name: json.loads(path.read_bytes()) for path in folder.glob("*.json")}
    for record in records.values():
        record.pop("made_at")
    return records | {path.name: path.read_bytes() for path in folder.glob("*.nc")}


def told(records):
    return [(record.part.drawing.file, record.status) for record in records]


class Falling(Executor):
    """Works right here, but falls over once or always when it comes to some drawing, with all that it was given."""

    falls = ()

    def __init__(self):
        self.fallen = False

    def submit(self, work, call):
        future = Future()
        if call.drawing.name in self.falls:
            Falling.falls = Falling.falls[1:]
            self.fallen = True
        if self.fallen:
            future.set_exception(BrokenExecutor())
        else:
            future.set_result(work(call))
        return future


def test_garbage_is_cleared_between_drawings_and_not_behind_the_last(tmp_path, monkeypatch):
    done = []
    monkeypatch.setattr(many, "make_drawing", lambda drawing, *_: done.append(drawing.name) or drawing.name)
    monkeypatch.setattr(many, "clear", lambda: done.append("cleared"))
    assert list(many.made(calls(tmp_path)[:1], None)) == ["piston.dxf"]
    assert done == ["piston.dxf"]
    list(many.made(calls(tmp_path)[:3], None))
    assert done[1:] == ["piston.dxf", "cleared", "no-such-file.dxf", "cleared", "plunger.dxf"]


@pytest.mark.parametrize(("falls", "lost"), [(("plunger.dxf",), False), (("plunger.dxf",) * 2, True)])
def test_a_worker_that_dies_takes_no_other_drawing_down(tmp_path, falls, lost):
    Falling.falls = falls
    records = list(many.made(calls(tmp_path), many.Crew(Falling, 1)))
    assert told(records) == [
        ("piston.dxf", "made"),
        ("no-such-file.dxf", "refused"),
        ("plunger.dxf", "refused" if lost else "made"),
        ("grip-knob.dxf", "made"),
    ]
    codes = [finding.code for finding in records[2].findings]
    assert ("worker-died" in codes) is lost
    assert (tmp_path / "plunger.nc").exists() is not lost
    assert (tmp_path / "plunger.json").exists()


def test_no_more_than_a_few_calls_a_worker_are_handed_out_at_once(tmp_path):
    handed = []

    class Waiting(Falling):
        def submit(self, work, call):
            handed.append(call)
            return super().submit(work, call)

    rows = many.made([many.Call(DRAWINGS / "no-such-file.dxf", tmp_path, Settings())] * 20, many.Crew(Waiting, 2))
    next(rows)
    assert len(handed) == 2 * many.AHEAD
    assert len(list(rows)) == 19


def test_processes_make_the_same_files_in_the_same_order(tmp_path):
    here, there = tmp_path / "here", tmp_path / "there"
    one = told(many.made(calls(here), None))
    assert told(many.made_by(calls(there), 2, None)) == one
    assert content(there) == content(here)


def test_a_scheduler_without_its_library_is_a_sentence(tmp_path, monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "distributed", None)
    drawing = str(DRAWINGS / "piston.dxf")
    run = CliRunner().invoke(main, ["make", drawing, "--out", str(tmp_path), "--scheduler", "tcp://127.0.0.1:1"])
    assert run.exit_code == 2
    assert "pip install 'rillwright[cluster]'" in run.output


def test_a_cluster_of_two_workers_makes_what_is_made_here(tmp_path):
    distributed = pytest.importorskip("distributed", reason="the extra `cluster` is not installed")
    here, there = tmp_path / "here", tmp_path / "there"
    one = told(many.made(calls(here), None))
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as local:
        assert told(many.made_by(calls(there), 1, local.scheduler_address)) == one
        assert content(there) == content(here)
    with pytest.raises(SettingsError, match="No scheduler answers"):
        many.cluster("tcp://127.0.0.1:1")
