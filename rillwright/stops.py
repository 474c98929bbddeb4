"""The signals by which a process is asked to end: from outside, and by a terminal that was closed."""

import signal
import threading
from collections.abc import Callable

STOPS = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name))
"""Not every system has them all. Who was started so that a closed terminal leaves it alone ignores SIGHUP already."""


def unheard(start: Callable[[], object]) -> None:
    """Start a helper process, by a function that does nothing where it runs, so that it hears no SIGHUP.

    It ends with the last process that it serves. Taken down with the whole group before them, it is missed loudly.
    """
    if not hasattr(signal, "SIGHUP") or threading.current_thread() is not threading.main_thread():
        start()
        return
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        start()
    finally:
        signal.signal(signal.SIGHUP, before)
