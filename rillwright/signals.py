"""The signals by which a process is asked to end: from outside, and by a terminal that was closed."""

import signal
import threading
from collections.abc import Callable
from types import FrameType

ENDING = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name))
"""Not every system has them all. Who was started so that a closed terminal leaves it alone ignores SIGHUP already."""


def when_ending(handler: Callable[[int, FrameType | None], None]) -> None:
    """Have a function called at each of them that is not ignored."""
    for one in ENDING:
        if signal.getsignal(one) != signal.SIG_IGN:
            signal.signal(one, handler)


def unheard(start: Callable[[], object]) -> None:
    """Start a helper process, by a function that does nothing where it runs, deaf to what a terminal sends.

    It ends with the last process that it serves. Taken down with the whole group before them, it is missed loudly, and
    an interrupt while it loads would be a traceback.
    """
    heard = [getattr(signal, name) for name in ("SIGINT", "SIGHUP") if hasattr(signal, name)]
    if threading.current_thread() is not threading.main_thread():
        heard = []
    before = {one: signal.signal(one, signal.SIG_IGN) for one in heard}
    try:
        start()
    finally:
        for one, handler in before.items():
            signal.signal(one, handler)
