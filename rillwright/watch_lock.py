"""One watch per folder: a lock that the system gives back by itself when the process ends, however it ends."""

import fcntl
import os
from pathlib import Path
from typing import Literal

from extractor.errors import SettingsError
from rillwright.outputs import show

LOCK = ".rillwright.lock"


class FolderLock:
    """Holds the lock of a folder until closed; SettingsError if another process has it."""

    def __init__(self, folder: Path, way: Literal["file", "folder"]) -> None:
        """Take it: on a small file in the folder, or on the folder itself where nothing is to be written."""
        target = folder / LOCK if way == "file" else folder
        flags = os.O_RDWR | os.O_CREAT if way == "file" else os.O_RDONLY
        self._descriptor = os.open(target, flags, 0o666)
        try:
            fcntl.flock(self._descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            os.close(self._descriptor)
            raise SettingsError(f"Another watch is at work on {show(folder)}: stop it first.") from error
        except OSError:
            os.close(self._descriptor)
            # Some shares can't lock a folder; the lock in the folder of the results still holds.
            if way == "file":
                raise
            self._descriptor = -1

    def close(self) -> None:
        """Give it back."""
        if self._descriptor >= 0:
            os.close(self._descriptor)
            self._descriptor = -1
