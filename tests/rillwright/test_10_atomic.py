"""Files that are whole or not there."""

import os

import pytest

from rillwright import atomic


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def test_writes_and_replaces(tmp_path):
    target = tmp_path / "ring.nc"
    atomic.write_atomic(target, b"one")
    atomic.write_atomic(target, b"two")
    assert target.read_bytes() == b"two"
    assert names(tmp_path) == ["ring.nc"]


@pytest.mark.parametrize("call", ["write", "fsync", "replace"])
def test_a_full_disk_at_any_call_leaves_everything_as_it_was(tmp_path, monkeypatch, call):
    target = tmp_path / "ring.nc"
    target.write_bytes(b"old")

    def full(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(atomic.os, call, full)
    with pytest.raises(OSError, match="No space"):
        atomic.write_atomic(target, b"new")
    monkeypatch.undo()
    assert target.read_bytes() == b"old"
    assert names(tmp_path) == ["ring.nc"]


def test_short_writes_are_carried_on(tmp_path, monkeypatch):
    real = os.write
    monkeypatch.setattr(atomic.os, "write", lambda descriptor, view: real(descriptor, bytes(view)[:3]))
    atomic.write_atomic(tmp_path / "a", b"0123456789")
    assert (tmp_path / "a").read_bytes() == b"0123456789"


def test_the_longest_name_can_be_written(tmp_path):
    target = tmp_path / ("x" * 255)
    atomic.write_atomic(target, b"data")
    assert target.read_bytes() == b"data"


def test_rights_follow_the_users_mask(tmp_path):
    before = os.umask(0o027)
    try:
        atomic.write_atomic(tmp_path / "a", b"")
    finally:
        os.umask(before)
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o640


def test_set_aside_renames_and_says_where(tmp_path):
    program = tmp_path / "ring.nc"
    assert atomic.set_aside(program) is None
    program.write_bytes(b"G00")
    assert atomic.set_aside(program) == tmp_path / "ring.nc.stale"
    assert names(tmp_path) == ["ring.nc.stale"]


def test_what_was_set_aside_before_is_kept_under_a_number(tmp_path):
    program = tmp_path / "ring.nc"
    for text in (b"one", b"two", b"two", b"three"):
        program.write_bytes(text)
        assert atomic.set_aside(program) == tmp_path / "ring.nc.stale"
    kept = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert kept == {"ring.nc.stale": b"three", "ring.nc.stale.2": b"one", "ring.nc.stale.3": b"two"}


def test_sweep_takes_only_what_a_killed_run_left(tmp_path):
    (tmp_path / ".rillwright-0123.tmp").write_bytes(b"half")
    (tmp_path / "mine.tmp").write_bytes(b"keep")
    (tmp_path / ".rillwright-link.tmp").symlink_to(tmp_path / "mine.tmp")
    assert atomic.sweep(tmp_path) == 1
    assert names(tmp_path) == [".rillwright-link.tmp", "mine.tmp"]


def test_remove_is_content_with_nothing(tmp_path):
    atomic.remove(tmp_path / "nothing")
    (tmp_path / "some").write_bytes(b"")
    atomic.remove(tmp_path / "some")
    assert names(tmp_path) == []


def test_beside_other_runs_only_what_is_old_is_swept(tmp_path):
    """Ten minutes are longer than any run takes to write its files (our own bound)."""
    written = tmp_path / "ring.json"
    written.write_bytes(b"")
    now = 2_000_000_000
    os.utime(written, (now, now))
    for name, age in (("old", 601), ("new", 600)):
        left = tmp_path / f".rillwright-{name}.tmp"
        left.write_bytes(b"half")
        os.utime(left, (now - age, now - age))
    assert atomic.sweep(tmp_path, written) == 1
    assert names(tmp_path) == [".rillwright-new.tmp", "ring.json"]


def test_files_are_put_in_place_together_or_not_at_all(tmp_path):
    (tmp_path / "a").write_bytes(b"old")
    with (
        pytest.raises(OSError, match="No such file"),
        atomic.staged([(tmp_path / "a", b"1"), (tmp_path / "no" / "b", b"2")]) as put,
    ):
        put()
    assert (tmp_path / "a").read_bytes() == b"old"
    with atomic.staged([(tmp_path / "a", b"1"), (tmp_path / "b", b"2")]):
        assert (tmp_path / "a").read_bytes() == b"old"
    assert names(tmp_path) == ["a"]


def test_a_new_folder_and_those_above_it_outlast_a_power_cut(tmp_path, monkeypatch):
    synced = []
    monkeypatch.setattr(atomic, "sync_folder", synced.append)
    atomic.make_folder(tmp_path / "a" / "b")
    assert synced == [tmp_path, tmp_path / "a"]
    atomic.make_folder(tmp_path / "a" / "b")
    assert len(synced) == 2
