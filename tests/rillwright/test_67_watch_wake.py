"""What wakes a watch, which settings rule a drawing, and the lock that keeps a second one out."""

import os
import signal
from contextlib import closing
from multiprocessing.connection import wait
from pathlib import Path

import pytest

from extractor.errors import SettingsError
from rillwright.folder import lock
from rillwright.folder.checks import Checks
from rillwright.folder.jobs import Folders
from rillwright.folder.lock import FolderLock
from rillwright.folder.log import WatchLog
from rillwright.folder.scan import look
from rillwright.folder.settle import Settling
from rillwright.folder.shops import Shops
from rillwright.folder.wake import Waker
from rillwright.settings import Settings
from rillwright.signals import ENDING


@pytest.fixture
def waker():
    with closing(Waker()) as made:
        yield made


def test_a_wake_is_seen_once_however_often_it_came(waker):
    for _ in range(100_000):
        waker.wake()
    assert wait([waker.reader], 1)
    while not waker.quiet():
        pass
    assert not wait([waker.reader], 0)


def test_a_file_that_lands_wakes(waker, tmp_path):
    waker.watch(tmp_path)
    for n in range(600):
        (tmp_path / f"{n}.dxf").write_text("")
        if wait([waker.reader], 0.2):
            return
    pytest.fail("nothing woke it")


def test_a_folder_that_is_not_there_is_no_fault(waker, tmp_path):
    waker.watch(tmp_path / "away")
    assert not wait([waker.reader], 1)


@pytest.mark.parametrize("way", ENDING)
def test_a_signal_asks_for_a_stop_and_a_second_interrupt_insists(waker, way):
    before = {one: signal.getsignal(one) for one in (signal.SIGINT, *ENDING)}
    try:
        signal.signal(way, signal.SIG_DFL)
        waker.on_signals()
        os.kill(os.getpid(), way)
        assert wait([waker.reader], 1)
        assert waker.stopping
        with pytest.raises(KeyboardInterrupt):
            os.kill(os.getpid(), signal.SIGINT)
    finally:
        for one, handler in before.items():
            signal.signal(one, handler)


def test_a_watch_that_a_closed_terminal_is_to_leave_alone_goes_on(waker):
    before = {one: signal.getsignal(one) for one in (signal.SIGINT, *ENDING)}
    try:
        signal.signal(signal.SIGHUP, signal.SIG_IGN)
        waker.on_signals()
        os.kill(os.getpid(), signal.SIGHUP)
        assert not waker.stopping
    finally:
        for one, handler in before.items():
            signal.signal(one, handler)


def shops_of(tmp_path, **files):
    for name, text in files.items():
        path = tmp_path / name.replace("__", "/").replace("_toml", ".toml").replace("_dxf", ".dxf")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return Shops(tmp_path, Settings(dialect="plunge"), Settling(1.0)), look(tmp_path)


def test_without_a_shop_file_the_settings_of_the_call_rule(tmp_path):
    shops, sight = shops_of(tmp_path, ring_dxf="")
    assert shops.ruling(Path("ring.dxf"), sight, 0.0).settings == Settings(dialect="plunge")


def test_a_shop_file_rules_once_it_has_arrived(tmp_path):
    shops, sight = shops_of(tmp_path, a__ring_dxf="", a__shop_toml='units = "mm"\n')
    assert shops.ruling(Path("a/ring.dxf"), sight, 0.0) is None
    ruling = shops.ruling(Path("a/ring.dxf"), sight, 1.0)
    assert (ruling.settings.shop_text, ruling.settings.shop_name) == ('units = "mm"\n', "a/shop.toml")
    assert ruling.settings.dialect == "plunge"
    assert ruling.fault == ""


@pytest.mark.parametrize("text", ["[machine]\nmax_rmp = 3\n", "this is no TOML"])
def test_a_faulty_one_rules_with_its_fault(tmp_path, text):
    shops, sight = shops_of(tmp_path, shop_toml=text, ring_dxf="")
    shops.ruling(Path("ring.dxf"), sight, 0.0)
    ruling = shops.ruling(Path("ring.dxf"), sight, 1.0)
    assert "shop.toml" in ruling.fault
    assert ruling.settings.digest != Settings(dialect="plunge").digest


def test_a_second_lock_is_refused_and_the_first_leaves_no_file(tmp_path):
    with closing(FolderLock(tmp_path, may_write=True)):
        for may_write in (True, False):
            with pytest.raises(SettingsError, match="Another watch is at work"):
                FolderLock(tmp_path, may_write=may_write)
    with closing(FolderLock(tmp_path, may_write=True)):
        assert list(tmp_path.iterdir()) == []


def test_where_a_folder_can_not_be_locked_a_file_in_it_is(tmp_path, monkeypatch):
    real = lock.fcntl.flock

    def flock(descriptor, how):
        if Path(f"/proc/self/fd/{descriptor}").resolve().is_dir():
            raise OSError(9, "Bad file descriptor")
        real(descriptor, how)

    monkeypatch.setattr(lock.fcntl, "flock", flock)
    with closing(FolderLock(tmp_path, may_write=True)):
        assert [path.name for path in tmp_path.iterdir()] == [lock.LOCK]
        with pytest.raises(SettingsError, match="Another watch"):
            FolderLock(tmp_path, may_write=True)
        FolderLock(tmp_path, may_write=False).close()
    monkeypatch.setattr(lock.fcntl, "flock", lambda *_: (_ for _ in ()).throw(OSError(9, "no")))
    with pytest.raises(SettingsError, match="can't lock"):
        FolderLock(tmp_path, may_write=True)


def checks_of(tmp_path, **files):
    shops, _ = shops_of(tmp_path, ring_dxf="0\nEOF\n", **files)
    (tmp_path / "ring.nc").write_text("G0 X1.\nG1 X2.\n")
    return Checks(Folders(tmp_path, tmp_path / "out"), shops, shops.settling, WatchLog(terminal=False))


def test_a_program_that_grows_for_ever_is_left_to_the_next_run(tmp_path):
    checks = checks_of(tmp_path)
    for second in range(int(checks.settling.longest) + 1):
        assert checks.waiting(look(tmp_path))
        assert list(checks.due(look(tmp_path), float(second))) == []
        (tmp_path / "ring.nc").write_text("G0 X1.\n" * (second + 2))
    assert list(checks.due(look(tmp_path), checks.settling.longest + 1)) == []
    assert not checks.waiting(look(tmp_path))
    assert [found.name.name for found, _, _ in checks.due(look(tmp_path), 1e6)] == ["ring.nc"]
    assert not checks.waiting(look(tmp_path))


def test_one_that_was_only_looked_at_late_is_waited_for(tmp_path):
    checks, sight = checks_of(tmp_path), look(tmp_path)
    assert list(checks.due(sight, 0.0)) == []
    assert checks.waiting(sight)
    assert [found.name.name for found, _, _ in checks.due(sight, 10 * checks.settling.longest)] == ["ring.nc"]
    assert list(checks.due(sight, 11 * checks.settling.longest)) == []


def test_a_program_whose_shop_file_grows_for_ever_is_left_too(tmp_path):
    checks = checks_of(tmp_path, shop_toml='units = "mm"\n')
    for at in (0.0, checks.settling.longest + 1):
        assert checks.waiting(look(tmp_path))
        assert list(checks.due(look(tmp_path), at)) == []
        (tmp_path / "shop.toml").write_text(f'units = "mm" # {at}\n')
    assert not checks.waiting(look(tmp_path))
