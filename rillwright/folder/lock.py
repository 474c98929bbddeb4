"""One watch per folder: a lock that the system gives back by itself when the process ends, however it ends."""

import fcntl
import os
from pathlib import Path

from extractor.errors import SettingsError
from rillwright.outputs import show

LOCK = ".rillwright.lock"


class FolderLock:
    """Holds the lock of a folder until closed; SettingsError if another process has it."""

    def __init__(self, folder: Path, *, may_write: bool) -> None:
        """Take it on the folder itself; where a share can't do that, on a small file in it if that may be written."""
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
            fcntl.flock(self._descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
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
