"""The ledger of a watched folder: what became of every drawing, in SQLite with a write-ahead log.

Rules
    - One row of `results` for each change that called for a run; a failed run that is tried again keeps its row.
    - Before a program is put on disk its hash goes into `written`. Whatever lies there with another hash was edited.
    - `underneath` says what lies under a drawing's program name as it was last looked at.
    - A drawing that is gone has a last row that says so, and its names are free for others. Drawings are keyed by their
      path below the inbox as bytes, since a file name need not be text. Times are for people: no clock decides.
"""

import errno
import json
import os
import sqlite3
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from extractor.errors import SettingsError
from extractor.values import dataclass
from rillwright.outputs import show, spelling
from rillwright.records.jsonform import ENCODER, FormError, from_json
from rillwright.records.record_part import RecordedGroove

LEDGER = "ledger.sqlite"
SCHEMA = 2

SHUT = frozenset({sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN})
"""What the library says where the ledger's place can't be written, or not be reached."""
CUT_OFF = frozenset({sqlite3.SQLITE_READONLY_ROLLBACK, sqlite3.SQLITE_READONLY_RECOVERY})
"""What it says to one who only reads a ledger in which a change was cut off half-way, by a kill or a power cut."""

State = Literal["made", "refused", "failed", "removed", "orphaned"]
GONE = ("removed", "orphaned")
"""States of a drawing that lies in the inbox no more: its program set aside, or kept by choice."""

TABLES = Path(__file__).with_suffix(".sql").read_text("utf-8")
SINCE_1 = ("cautions INTEGER NOT NULL DEFAULT 0", "questions INTEGER NOT NULL DEFAULT 0")
"""Columns that `results` did not have in schema 1."""
COLUMNS = (
    "drawing, state, revision, drawing_sha256, settings_sha256, tool_version, program_file, program_sha256, "
    "reason, attempts, started, finished, grooves, changes, cautions, questions"
)
LAST_IDS = "SELECT max(id) FROM results GROUP BY drawing"


@dataclass(frozen=True)
class Cause:
    """What calls for a run when it changes: hashes of drawing and settings, and the tool's version."""

    drawing_sha256: str
    settings_sha256: str
    tool_version: str


@dataclass(frozen=True)
class Result:
    """What became of one drawing once.

    `revision` counts the different programs made of the drawing, 0 before the first. `reason` says why there is none.
    `grooves` are those of the drawing; `changes` sentences on what differs from the last program.
    `cautions` counts those on the sheet, `questions` what a refused drawing asks. `started` and `finished` are UTC
    times as ISO 8601 text.
    """

    drawing: bytes
    cause: Cause
    state: State
    revision: int
    program_file: str | None
    program_sha256: str | None
    reason: str
    attempts: int
    started: str
    finished: str
    grooves: tuple[RecordedGroove, ...] = ()
    changes: tuple[str, ...] = ()
    cautions: int = 0
    questions: int = 0

    @property
    def name(self) -> str:
        """The drawing's path below the inbox, as the file system gives it."""
        return os.fsdecode(self.drawing)


@dataclass(frozen=True)
class Underneath:
    """What lies under the name of a drawing's program: its hash, "" where nothing does.

    `state` is "" where all is as it was put, "edited" where somebody changed it, or how the drawing's file looked when
    the program was found taken away. `agree` and `words`: what came of holding an edited one against its drawing.
    """

    sha256: str
    state: str = ""
    agree: bool | None = None
    words: str = ""

    @property
    def right(self) -> bool:
        """False for an edited program that was not found to make its drawing."""
        return self.state != "edited" or self.agree is True


@dataclass(frozen=True)
class LastCheck:
    """The last verdict on a program that lay beside its drawing; `agree` is None where it could not be judged."""

    program: bytes
    agree: bool | None
    reason: str
    finished: str

    @property
    def name(self) -> str:
        """The program's path below the inbox, as the file system gives it."""
        return os.fsdecode(self.program)


class Ledger:
    """An open ledger. Use it as a context manager; every change is on disk when the call returns."""

    def __init__(self, folder: Path, *, create: bool = True) -> None:
        """Open the ledger of a folder; SettingsError where there is none and none is to be made, or it is damaged."""
        self.path = folder / LEDGER
        if not create and not self.path.is_file():
            raise SettingsError(f"{show(folder)} holds no ledger: give the --out folder of a watch.")
        try:
            self._connect(create)
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError) and "locked" not in str(error):
                shut = error.sqlite_errorcode & 0xFF in SHUT
                why = f"the ledger can't be opened ({error})"
                raise OSError(errno.EACCES if shut else None, why, str(self.path)) from error
            raise SettingsError(f"{show(self.path)} can't be used as a ledger ({error}): move it away.") from error

    def _connect(self, create: bool) -> None:
        # Who only reads the history need not be allowed to write there, and one of a newer version is only looked at.
        version = self._looked_at() if self.path.exists() else SCHEMA
        if version > SCHEMA:
            self._base.close()
            raise SettingsError(f"{show(self.path)} was written by a newer version of this tool: use that one.")
        if create:
            if self.path.exists():
                self._base.close()
            self._open("rwc")
            self._base.execute("PRAGMA journal_mode=WAL")
        # A program must never be on disk without its hash here, not even after a power cut.
        self._base.execute("PRAGMA synchronous=FULL")
        if create:
            self._base.executescript(TABLES)
            have = self._has()
            for column in SINCE_1:
                if column.partition(" ")[0] not in have:
                    self._base.execute(f"ALTER TABLE results ADD COLUMN {column}")
            self._base.execute(f"PRAGMA user_version={SCHEMA}")
        self._inode = self.path.stat().st_ino
        beside = {ending: self.path.with_name(self.path.name + ending) for ending in ("-wal", "-shm")}
        self._beside = {ending: path.stat().st_ino for ending, path in beside.items() if path.exists()}

    def _has(self) -> set[str]:
        """The columns of the results."""
        return {row[1] for row in self._base.execute("PRAGMA table_info(results)")}

    def _looked_at(self) -> int:
        """The schema of the file, which is not written but where a change that was cut off must be taken back first."""
        try:
            return self._open("ro")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode not in CUT_OFF:
                raise
            return self._open("rw")

    def _open(self, mode: str) -> int:
        """Open the file; its schema."""
        address = f"{self.path.absolute().as_uri()}?mode={mode}"
        self._base = sqlite3.connect(address, timeout=10, isolation_level=None, uri=True)
        return int(self._base.execute("PRAGMA user_version").fetchone()[0])

    def __enter__(self) -> "Ledger":
        """The ledger itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close it."""
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._base.close()

    def in_place(self, path: Path) -> "Ledger":
        """The same ledger if the file at `path` is still the one that is open, else that file's.

        OSError where there is none: the folder's share is away, and nothing may be written beside it.
        """
        inode = path.stat().st_ino
        if inode == self._inode:
            return self
        self.close()
        for ending, was in self._beside.items():
            left = path.with_name(path.name + ending)
            # SQLite leaves the log of a file that was taken from under it; it must not be replayed into another one.
            if left.exists() and left.stat().st_ino == was:
                left.unlink()
        return Ledger(path.parent)

    def latest(self, drawing: bytes, state: State | None = None) -> Result | None:
        """The last result of a drawing, or the last of one state."""
        where, values = "drawing = ?", [drawing]
        if state is not None:
            where, values = f"{where} AND state = '{state}'", values
        row = self._base.execute(
            f"SELECT {COLUMNS} FROM results WHERE {where} ORDER BY id DESC LIMIT 1", values
        ).fetchone()
        return None if row is None else _result(row)

    def all_latest(self) -> dict[bytes, Result]:
        """The last result of every drawing."""
        query = f"SELECT {COLUMNS} FROM results WHERE id IN ({LAST_IDS})"
        return {row[0]: _result(row) for row in self._base.execute(query)}

    def newest(self) -> list[Result]:
        """The last result of every drawing, the newest first; their grooves are left out."""
        columns = COLUMNS.replace("grooves", "'[]'")
        query = f"SELECT {columns} FROM results WHERE id IN ({LAST_IDS}) ORDER BY id DESC"
        return [_result(row) for row in self._base.execute(query)]

    def revision_of(self, drawing: bytes, sha256: str) -> int | None:
        """The revision of a drawing's program of this hash, the last that had it; None where it had none."""
        query = "SELECT revision FROM results WHERE drawing = ? AND program_sha256 = ? ORDER BY id DESC LIMIT 1"
        row = self._base.execute(query, (drawing, sha256)).fetchone()
        return None if row is None else int(row[0])

    def counts(self) -> dict[str, int]:
        """How many drawings ended in each state."""
        return dict(self._base.execute(f"SELECT state, count(*) FROM results WHERE id IN ({LAST_IDS}) GROUP BY state"))

    def history(self) -> Iterable[Result]:
        """Every result, oldest first."""
        # One of an older schema that is only read lacks the last columns.
        columns = ", ".join(column for column in COLUMNS.split(", ") if column in self._has())
        return (_result(row) for row in self._base.execute(f"SELECT {columns} FROM results ORDER BY id"))

    def finish(self, result: Result) -> Result:
        """Enter a result; a failed try of the same cause before it is replaced and its attempts are counted on."""
        with self._base:
            self._base.execute("BEGIN IMMEDIATE")
            before = self.latest(result.drawing)
            again = before is not None and before.state == "failed" and result.state not in GONE
            if before is not None and again and before.cause == result.cause:
                result = replace(result, attempts=before.attempts + 1)
                message = "DELETE FROM results WHERE id = (SELECT max(id) FROM results WHERE drawing = ?)"
                self._base.execute(message, (result.drawing,))
            marks = ", ".join("?" * (COLUMNS.count(",") + 1))
            self._base.execute(f"INSERT INTO results ({COLUMNS}) VALUES ({marks})", _row(result))
        return result

    def will_write(self, drawing: bytes, sha256: str) -> None:
        """Remember the hash of a program that is about to be put on disk."""
        self._base.execute("INSERT OR IGNORE INTO written VALUES (?, ?)", (drawing, sha256))

    def wrote(self, drawing: bytes, sha256: str) -> bool:
        """True if a program of this hash was ever written for the drawing."""
        query = "SELECT 1 FROM written WHERE drawing = ? AND sha256 = ?"
        return self._base.execute(query, (drawing, sha256)).fetchone() is not None

    def lies(self, drawing: bytes, found: Underneath) -> None:
        """Enter what lies under the name of a drawing's program."""
        agree = None if found.agree is None else int(found.agree)
        row = (drawing, found.sha256, found.state, agree, found.words.encode("utf-8", "backslashreplace").decode())
        self._base.execute("INSERT OR REPLACE INTO underneath VALUES (?, ?, ?, ?, ?)", row)

    def underneath(self) -> dict[bytes, Underneath]:
        """What lies under the name of each drawing's program, as last looked at."""
        rows = self._base.execute("SELECT drawing, sha256, state, agree, words FROM underneath")
        return {drawing: _found(*row) for drawing, *row in rows}

    def underneath_of(self, drawing: bytes) -> Underneath | None:
        """The same of one drawing; None where nothing was entered."""
        query = "SELECT sha256, state, agree, words FROM underneath WHERE drawing = ?"
        row = self._base.execute(query, (drawing,)).fetchone()
        return None if row is None else _found(*row)

    def folders(self) -> dict[bytes, str]:
        """The folders of drawings in the inbox by what the system knew them by when they were last seen."""
        return dict(self._base.execute("SELECT folder, identity FROM folders"))

    def saw_folder(self, folder: bytes, identity: str) -> None:
        """Enter what the system knows a folder of drawings by."""
        self._base.execute("INSERT OR REPLACE INTO folders VALUES (?, ?)", (folder, identity))

    def numbers(self, shop: str) -> dict[bytes, int]:
        """The program numbers of the drawings that a shop file rules."""
        return dict(self._base.execute("SELECT drawing, number FROM numbers WHERE shop = ?", (shop,)))

    def number_of(self, drawing: bytes) -> tuple[str, int] | None:
        """A drawing's program number, after the name of the shop file that gave it."""
        row = self._base.execute("SELECT shop, number FROM numbers WHERE drawing = ?", (drawing,)).fetchone()
        return None if row is None else (str(row[0]), int(row[1]))

    def give_number(self, drawing: bytes, shop: str, number: int) -> None:
        """Give a drawing its program number."""
        self._base.execute("INSERT OR REPLACE INTO numbers VALUES (?, ?, ?)", (drawing, shop, number))

    def forget_number(self, drawing: bytes) -> None:
        """Let others have a drawing's program number."""
        self._base.execute("DELETE FROM numbers WHERE drawing = ?", (drawing,))

    def renamed(self, drawing: bytes, new: bytes) -> None:
        """Hand a drawing's program number over to its new name, unless that already has one."""
        if self.number_of(new) is None:
            self._base.execute("UPDATE numbers SET drawing = ? WHERE drawing = ?", (new, drawing))

    def stem(self, drawing: bytes, choices: Iterable[str]) -> str:
        """The path of a drawing's results without their ending: the first of the choices that no other drawing has.

        Once given it is the drawing's own. The spelling doesn't tell two stems apart, since a share may not either.
        """
        row = self._base.execute("SELECT stem FROM names WHERE drawing = ?", (drawing,)).fetchone()
        taken = {os.fsdecode(row[0])} if row else set()
        for choice in choices:
            key = os.fsencode(spelling(choice))
            if spelling(choice) in taken:
                return choice
            owner = self._base.execute("SELECT drawing FROM names WHERE stem = ?", (key,)).fetchone()
            if owner is None and not row:
                self._base.execute("INSERT INTO names VALUES (?, ?)", (key, drawing))
                return choice
        raise SettingsError(f"{show(Path(os.fsdecode(drawing)))} has no name left for its results: rename it.")

    def release(self, drawing: bytes) -> None:
        """Let another drawing have the names of a drawing that is gone."""
        self._base.execute("DELETE FROM names WHERE drawing = ?", (drawing,))

    def newest_checks(self, most: int) -> list[LastCheck]:
        """The verdicts last entered, the newest first."""
        query = "SELECT program, agree, reason, finished FROM checks ORDER BY finished DESC, program LIMIT ?"
        rows = self._base.execute(query, (most,))
        return [LastCheck(program, None if agree is None else bool(agree), *words) for program, agree, *words in rows]

    def checked(self, program: bytes) -> str | None:
        """The key under which a program was last checked: what it depended on."""
        row = self._base.execute("SELECT key FROM checks WHERE program = ?", (program,)).fetchone()
        return None if row is None else str(row[0])

    def enter_check(self, program: bytes, key: str, agree: bool | None, reason: str, finished: str) -> None:
        """Enter the verdict on a program; `agree` is None where it could not be judged."""
        row = (program, key, None if agree is None else int(agree), reason, finished)
        self._base.execute("INSERT OR REPLACE INTO checks VALUES (?, ?, ?, ?, ?)", row)


def _found(sha256: str, state: str, agree: int | None, words: str) -> Underneath:
    return Underneath(sha256, state, None if agree is None else bool(agree), words)


def _result(row: tuple[Any, ...]) -> Result:
    """A row of the results; SettingsError where its grooves are damaged."""
    drawing, state, revision, *hashes, file, sha = row[:8]
    text, changes, *counts = row[12:]
    try:
        grooves = from_json(tuple[RecordedGroove, ...], json.loads(text))
    except FormError as error:
        raise SettingsError(f"The ledger is damaged (groove {error}): move it away.") from None
    name = None if file is None else os.fsdecode(file)
    told = (grooves, tuple(json.loads(changes)), *counts)
    # Reason, attempts and both times stand between as they are.
    return Result(drawing, Cause(*hashes), state, revision, name, sha, *row[8:12], *told)


def _row(one: Result) -> tuple[Any, ...]:
    cause = one.cause
    return (
        one.drawing,
        one.state,
        one.revision,
        cause.drawing_sha256,
        cause.settings_sha256,
        cause.tool_version,
        None if one.program_file is None else os.fsencode(one.program_file),
        one.program_sha256,
        one.reason.encode("utf-8", "backslashreplace").decode(),
        one.attempts,
        one.started,
        one.finished,
        ENCODER.encode(one.grooves),
        json.dumps(one.changes),
        one.cautions,
        one.questions,
    )
