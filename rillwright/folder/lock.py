"""One watch per folder: a lock that the system gives back by itself when the process ends, however it ends."""

import os
import sys
from pathlib import Path

from extractor.errors import SettingsError
from rillwright.outputs import show

LOCK = ".rillwright.lock"


FOLDERS_OPEN = sys.platform != "win32"
"""False where a folder can't be opened as a file is."""

if sys.platform == "win32":
    import msvcrt

    def _lock(descriptor: int) -> None:
        """Lock an open file; BlockingIOError where another process holds it."""
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError as error:
            raise BlockingIOError(error.errno, error.strerror) from error
else:
    import fcntl

    def _lock(descriptor: int) -> None:
        """Lock an open file or folder; BlockingIOError where another process holds it."""
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


class FolderLock:
    """Holds the lock of a folder until closed; SettingsError if another process has it."""

    def __init__(self, folder: Path, *, may_write: bool) -> None:
        """Take it on the folder itself; where that can't be done, on a small file in it if that may be written."""
        self._descriptor = -1
        if FOLDERS_OPEN:
            self._descriptor = os.open(folder, os.O_RDONLY)
            if self._take(folder):
                return
            self.close()
        if may_write:
            self._descriptor = os.open(folder / LOCK, os.O_RDWR | os.O_CREAT, 0o666)
            if not self._take(folder):
                self.close()
                raise SettingsError(f"{show(folder)} lies on a share that can't lock files: choose another folder.")

    def _take(self, folder: Path) -> bool:
        try:
            _lock(self._descriptor)
        except BlockingIOError as error:
            self.close()
            raise SettingsError(f"Another watch is at work on {show(folder)}: stop it first.") from error
        except OSError:
            return False
        return True

    def close(self) -> None:
        """Give it back."""
        if self._descriptor >= 0:
            os.close(self._descriptor)
            self._descriptor = -1
