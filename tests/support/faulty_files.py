"""Files whose n-th change fails, is cut by the end of the process, or is lost with the power, as databases test it.

    with FaultyFiles(folder, at=5, how="fails"): ...

Every change below the folder counts: a file made, bytes written, a sync, a rename, a file or folder taken away or made,
and each change of an SQLite file. `how`:

    fails   the call raises as on a full or faulty disk, a write after half of its bytes; the process goes on
    cut     the process is killed there, a write after half of its bytes: nothing that comes later reaches the files

`lose_power()` after a cut makes it one of the power: of what was not yet synced nothing is left, no bytes, no names. It
knows nothing of the tool, and what it does after a fault is not looked at: only what lies in the folder.
"""

import builtins
import errno
import io
import os
import sqlite3
from pathlib import Path

HOW = ("fails", "cut")
SQLITE = (".sqlite", ".sqlite-wal", ".sqlite-shm")
"""Files that SQLite changes without asking Python, and keeps by its own means."""
FULL = "No space left on device"


class Killed(BaseException):
    """The process ends here."""


class FaultyFiles:
    """The changes below a folder, counted, until the one that goes wrong. `done` are those before it, by name."""

    def __init__(self, folder, at=None, how="fails"):
        self.folder, self.at, self.how = Path(folder).resolve(), at, how
        self.done, self.dead, self.struck = [], False, None
        self.paths = {}
        self.synced = {}
        self.kept = {}
        self.real = {}

    def __enter__(self):
        for folder in (self.folder, *(one for one in self.folder.rglob("*") if one.is_dir())):
            self.kept[folder] = {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file() and not p.is_symlink()}
        self.kept = {
            folder: {n: b for n, b in files.items() if not n.endswith(SQLITE)} for folder, files in self.kept.items()
        }
        for folder, files in self.kept.items():
            self.synced |= {(folder / name).stat().st_ino: data for name, data in files.items()}
        for name in ("open", "write", "fsync", "close", "replace", "rename", "unlink", "remove", "mkdir", "rmdir"):
            self.real[name] = getattr(os, name)
            setattr(os, name, getattr(self, f"_{name}"))
        self.connect, self.io_open = sqlite3.connect, io.open
        sqlite3.connect = lambda *a, **k: self.connect(*a, factory=_base(self), **k)
        io.open = builtins.open = self._io_open
        return self

    def __exit__(self, kind, *_):
        for name, function in self.real.items():
            setattr(os, name, function)
        sqlite3.connect = self.connect
        io.open = builtins.open = self.io_open
        return kind is Killed

    def step(self, what):
        """Count one change; True if it is the one that is to go wrong half done."""
        if self.dead:
            raise Killed
        if self.at is not None and len(self.done) == self.at and not self.struck:
            self.struck, self.dead = what, self.how != "fails"
            return True
        self.done.append(what)
        return False

    def fault(self):
        """What the call raises."""
        return Killed() if self.dead else OSError(errno.ENOSPC, FULL)

    def _changes(self, what, *paths):
        if any(self._is_mine(path) for path in paths) and self.step(what):
            raise self.fault()

    def _is_mine(self, path):
        return not isinstance(path, int) and self.folder in (
            Path(os.fsdecode(path)).absolute(),
            *Path(os.fsdecode(path)).absolute().parents,
        )

    def _open(self, path, flags, *more, **named):
        if self.dead and self._is_mine(path):
            raise Killed
        if flags & os.O_CREAT:
            self._changes("create", path)
        descriptor = self.real["open"](path, flags, *more, **named)
        if self._is_mine(path):
            self.paths[descriptor] = Path(os.fsdecode(path)).absolute()
        return descriptor

    def _write(self, descriptor, data):
        if descriptor in self.paths and self.step("write"):
            self.real["write"](descriptor, bytes(data)[: len(data) // 2])
            raise self.fault()
        return self.real["write"](descriptor, data)

    def _fsync(self, descriptor):
        path = self.paths.get(descriptor)
        if path is None:
            return
        if self.step("fsync of folder" if path.is_dir() else "fsync"):
            raise self.fault()
        if path.is_dir():
            self.kept.setdefault(path, {})
            self.kept[path] = {
                p.name: self.synced.get(p.stat().st_ino, b"")
                for p in path.iterdir()
                if p.is_file() and not p.name.endswith(SQLITE)
            }
            for below in path.iterdir():
                if below.is_dir():
                    self.kept.setdefault(below, {})
        else:
            self.synced[os.fstat(descriptor).st_ino] = path.read_bytes()

    def _close(self, descriptor):
        self.paths.pop(descriptor, None)
        self.real["close"](descriptor)

    def _replace(self, one, other):
        self._changes("replace", one, other)
        self.real["replace"](one, other)

    def _rename(self, one, other):
        self._changes("rename", one, other)
        self.real["rename"](one, other)

    def _unlink(self, path, **named):
        if os.path.lexists(path):
            self._changes("unlink", path)
        self.real["unlink"](path, **named)

    _remove = _unlink

    def _mkdir(self, path, *more, **named):
        if not os.path.lexists(path):
            self._changes("mkdir", path)
        self.real["mkdir"](path, *more, **named)

    def _rmdir(self, path, **named):
        self._changes("rmdir", path)
        self.real["rmdir"](path, **named)

    def _io_open(self, file, mode="r", *more, **named):
        # Whoever writes past the calls above would not be seen, so nobody may.
        assert not (set(mode) & set("wax+") and self._is_mine(file)), f"{file} is written by another way"
        return self.io_open(file, mode, *more, **named)

    def lose_power(self):
        """Leave what the last sync of each folder kept."""
        for folder in sorted((one for one in self.folder.rglob("*") if one.is_dir()), reverse=True):
            if folder not in self.kept:
                for path in folder.iterdir():
                    path.unlink()
                folder.rmdir()
        for folder, files in self.kept.items():
            if not folder.is_dir():
                folder.mkdir(parents=True)
            for path in folder.iterdir():
                if path.is_file() and path.name not in files and not path.name.endswith(SQLITE):
                    path.unlink()
            for name, data in files.items():
                (folder / name).write_bytes(data)


def _base(files):
    """A connection whose changes are counted with those of the files."""

    class Base(sqlite3.Connection):
        def execute(self, sql, *more):
            word = sql.split(None, 1)[0].upper()
            if word == "PRAGMA" and "synchronous" in sql:
                sql = "PRAGMA synchronous=OFF"
            elif word in ("INSERT", "UPDATE", "DELETE", "BEGIN"):
                self.step(f"sqlite {word.lower()}")
            return super().execute(sql, *more)

        def __exit__(self, kind, *rest):
            if kind is None:
                try:
                    self.step("sqlite commit")
                except BaseException:
                    self.rollback()
                    raise
            return super().__exit__(kind, *rest)

        def step(self, what):
            """Fail as SQLite does."""
            if files.step(what):
                raise Killed if files.dead else sqlite3.OperationalError("database or disk is full")

    return Base
