"""Wakes the watch when something happens in the inbox or a stop is asked for; only a hint, the watch looks for itself.

Where the system can't tell of changes (network shares), or the folder is gone, looking at intervals has to do.
"""

import signal
import socket
import threading
from contextlib import suppress
from pathlib import Path
from types import FrameType

from rillwright.signals import when_ending


class Waker:
    """A pair of sockets of which `reader` becomes readable when there is a reason to look.

    `stopping` once a stop was asked for. Sockets, since not every system can wait for a pipe.
    """

    def __init__(self) -> None:
        """Make the pair."""
        self.reader, self._writer = socket.socketpair()
        self.reader.setblocking(False)
        self._writer.setblocking(False)
        self.stopping = False
        self._end = threading.Event()

    def wake(self) -> None:
        """Make the reader readable."""
        with suppress(OSError):
            self._writer.send(b".")

    def quiet(self) -> bool:
        """Empty the reader; True if there was nothing in it."""
        try:
            return not self.reader.recv(65536)
        except BlockingIOError:
            return True

    def on_signals(self) -> None:
        """Let SIGINT and the signals from outside ask for a stop; a second SIGINT interrupts at once."""
        signal.signal(signal.SIGINT, self._stop)
        when_ending(self._stop)

    def _stop(self, number: int, _: FrameType | None) -> None:
        if self.stopping and number == signal.SIGINT:
            raise KeyboardInterrupt
        self.stopping = True
        self.wake()

    def watch(self, inbox: Path) -> None:
        """Start reporting changes below the inbox, in a thread of its own."""
        threading.Thread(target=self._tell, args=(inbox,), daemon=True).start()

    def _tell(self, inbox: Path) -> None:
        from watchfiles import watch

        while not self._end.wait(0.5):
            # Gone, or never able to tell: the looks at intervals go on, and this is tried again.
            with suppress(Exception):
                for _ in watch(inbox, watch_filter=None, debounce=400, stop_event=self._end, raise_interrupt=False):
                    self.wake()
            self._end.wait(10)

    def close(self) -> None:
        """Stop reporting changes, and close the sockets."""
        self._end.set()
        self.reader.close()
        self._writer.close()
