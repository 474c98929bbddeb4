"""The ledger: one row a result, hashes of all that was written, names that no two drawings share."""

import errno
import json
import os
import shutil
import sqlite3
from dataclasses import replace

import pytest
from support.forms import form
from support.parts import part_of

from extractor.errors import SettingsError
from rillwright.folder.ledger import LEDGER, Cause, Ledger, Result
from rillwright.records.recording import recorded_groove

CAUSE = Cause("d1", "s1", "0.1.0")
GROOVES = tuple(recorded_groove(groove) for groove in part_of([(-10, -13, 34)]).grooves)
MADE = Result(b"sub/ring.dxf", CAUSE, "made", 1, "ring.nc", "p1", "", 1, "t0", "t1", GROOVES, ("Groove 1 moved.",))


@pytest.fixture
def ledger(tmp_path):
    with Ledger(tmp_path) as opened:
        yield opened


def test_a_result_comes_back_as_it_was_entered_even_after_reopening(tmp_path):
    with Ledger(tmp_path) as ledger:
        ledger.finish(MADE)
    with Ledger(tmp_path, create=False) as again:
        assert again.latest(b"sub/ring.dxf") == MADE
        assert again.latest(b"other.dxf") is None
        assert list(again.history()) == [MADE]


def test_the_latest_of_a_state_is_told_from_the_latest(ledger):
    refused = replace(MADE, cause=replace(CAUSE, drawing_sha256="d2"), state="refused", reason="No groove.")
    ledger.finish(MADE)
    ledger.finish(refused)
    assert ledger.latest(MADE.drawing) == refused
    assert ledger.latest(MADE.drawing, "made") == MADE
    assert ledger.all_latest() == {MADE.drawing: refused}


def test_a_failed_try_is_counted_on_and_replaced_by_what_follows_of_the_same_cause(ledger):
    failed = replace(MADE, state="failed", reason="It took too long.")
    assert ledger.finish(failed).attempts == 1
    assert ledger.finish(failed).attempts == 2
    assert ledger.finish(MADE).attempts == 3
    assert [one.state for one in ledger.history()] == ["made"]
    ledger.finish(replace(failed, cause=replace(CAUSE, drawing_sha256="d2")))
    ledger.finish(replace(MADE, cause=replace(CAUSE, drawing_sha256="d3")))
    assert [one.state for one in ledger.history()] == ["made", "failed", "made"]


def test_names_need_not_be_text(ledger):
    odd = b"a\xff\n'\"; DROP TABLE results; --.dxf"
    ledger.finish(replace(MADE, drawing=odd))
    assert ledger.latest(odd).drawing == odd
    assert os.fsencode(ledger.latest(odd).name) == odd


def test_what_was_written_is_known_by_drawing_and_hash(ledger):
    ledger.will_write(b"a", "p1")
    ledger.will_write(b"a", "p1")
    assert ledger.wrote(b"a", "p1")
    assert not ledger.wrote(b"a", "p2")
    assert not ledger.wrote(b"b", "p1")


def test_two_drawings_never_share_a_stem_not_even_by_capital_letters(ledger):
    assert ledger.stem(b"ring.dxf", ["ring", "ring.dxf"]) == "ring"
    assert ledger.stem(b"RING.DXF", ["RING", "RING.DXF"]) == "RING.DXF"
    assert ledger.stem(b"ring.dxf", ["ring", "ring.dxf"]) == "ring"
    assert ledger.stem(b"RING.DXF", ["RING", "RING.DXF"]) == "RING.DXF"
    with pytest.raises(SettingsError, match="no name left"):
        ledger.stem(b"Ring.dxf", ["Ring", "Ring.dxf"])


def test_checks_are_due_again_when_their_key_changes(ledger):
    assert ledger.checked(b"ring.nc") is None
    ledger.enter_check(b"ring.nc", "k1", True, "", "t")
    ledger.enter_check(b"ring.nc", "k2", None, "can't be read", "t")
    assert ledger.checked(b"ring.nc") == "k2"


def test_a_folder_without_a_ledger_is_told_so(tmp_path):
    with pytest.raises(SettingsError, match="holds no ledger"):
        Ledger(tmp_path, create=False)


def test_a_file_that_is_no_ledger_is_told_so_and_left_alone(tmp_path):
    (tmp_path / LEDGER).write_bytes(b"this is no database " * 100)
    with pytest.raises(SettingsError, match="move it away"):
        Ledger(tmp_path)
    assert (tmp_path / LEDGER).read_bytes().startswith(b"this is no database")


def test_a_ledger_of_a_newer_version_is_not_touched(tmp_path):
    Ledger(tmp_path).close()
    base = sqlite3.connect(tmp_path / LEDGER)
    base.execute("PRAGMA user_version=99")
    base.execute("PRAGMA journal_mode=DELETE")
    base.close()
    before = {path: path.read_bytes() for path in tmp_path.iterdir()}
    for create in (True, False):
        with pytest.raises(SettingsError, match="newer version"):
            Ledger(tmp_path, create=create)
    assert {path: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_ledger_of_the_first_schema_is_taken_on(tmp_path):
    with Ledger(tmp_path) as ledger:
        ledger.finish(MADE)
    base = sqlite3.connect(tmp_path / LEDGER)
    for column in ("cautions", "questions"):
        base.execute(f"ALTER TABLE results DROP COLUMN {column}")
    for table in ("underneath", "numbers", "folders"):
        base.execute(f"DROP TABLE {table}")
    base.execute("PRAGMA user_version=1")
    base.commit()
    base.close()
    with Ledger(tmp_path, create=False) as old:
        assert [one.name for one in old.history()] == ["sub/ring.dxf"]
    with Ledger(tmp_path) as ledger:
        assert list(ledger.history()) == [MADE]
        assert ledger.underneath() == {}


def test_it_keeps_a_write_ahead_log(ledger):
    assert ledger._base.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_a_ledger_that_was_swapped_is_opened_anew_and_one_that_is_gone_is_an_error(tmp_path):
    ledger = Ledger(tmp_path)
    path = tmp_path / LEDGER
    assert ledger.in_place(path) is ledger
    other = tmp_path / "other"
    other.mkdir()
    with Ledger(other) as made:
        made.finish(MADE)
    os.replace(other / LEDGER, path)
    again = ledger.in_place(path)
    assert again is not ledger
    assert again.latest(MADE.drawing) == MADE
    again.close()
    path.unlink()
    with pytest.raises(OSError, match="No such file"):
        again.in_place(path)


def test_grooves_that_are_damaged_are_told_and_those_of_an_older_version_are_read(ledger):
    ledger.finish(MADE)
    older = json.dumps([{n: v for n, v in form(GROOVES[0]).items() if n not in ("edge_chamfer", "tolerances")}])
    for text in (older, '[{"id": 1}]'):
        with sqlite3.connect(ledger.path) as base:
            base.execute("UPDATE results SET grooves = ?", (text,))
        if text is older:
            assert ledger.latest(MADE.drawing) == MADE
    with pytest.raises(SettingsError, match=r"damaged \(groove \[0\]\.where is missing\)"):
        ledger.latest(MADE.drawing)


@pytest.mark.parametrize(("code", "told"), [("READONLY", True), ("CANTOPEN", True), ("FULL", False), ("IOERR", False)])
def test_a_folder_that_can_t_be_written_is_told_from_other_trouble(tmp_path, monkeypatch, code, told):
    def shut(*_args):
        error = sqlite3.OperationalError("attempt to write a readonly database")
        # As SQLite's extended codes have it: the primary code in the low byte (sqlite.org/rescode, from memory).
        error.sqlite_errorcode = getattr(sqlite3, f"SQLITE_{code}") | 4 << 8
        raise error

    monkeypatch.setattr(Ledger, "_connect", shut)
    with pytest.raises(OSError, match="the ledger can't be opened") as caught:
        Ledger(tmp_path)
    assert (caught.value.errno == errno.EACCES) is told
    assert caught.value.filename == str(tmp_path / LEDGER)


def cut_off(folder, journal):
    """A ledger in whose file a change was cut off, with its journal beside it, as a kill or a power cut leaves them."""
    at_work, left = folder / "at-work", folder / "left"
    at_work.mkdir()
    left.mkdir()
    Ledger(at_work).close()
    base = sqlite3.connect(at_work / LEDGER, isolation_level=None)
    base.execute(f"PRAGMA journal_mode={journal}")
    base.execute("PRAGMA cache_size=1")
    base.execute("BEGIN")
    base.execute("CREATE TABLE half (words TEXT)")
    base.executemany("INSERT INTO half VALUES (?)", [("x" * 1000,)] * 100)
    for path in at_work.iterdir():
        shutil.copy(path, left)
    base.close()
    assert (left / f"{LEDGER}-journal").exists() is (journal == "DELETE")
    return left


@pytest.mark.parametrize("create", [True, False])
@pytest.mark.parametrize("journal", ["DELETE", "WAL"])
def test_a_change_that_was_cut_off_is_taken_back(tmp_path, journal, create):
    with Ledger(cut_off(tmp_path, journal), create=create) as ledger:
        assert ledger.latest(b"ring.dxf") is None
        assert not ledger._base.execute("SELECT name FROM sqlite_master WHERE name = 'half'").fetchall()
