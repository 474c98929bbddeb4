"""The signals by which a process is asked to end: from outside, and by a terminal that was closed."""

import signal
import sys
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
    an interrupt while it loads would be a traceback. They are held back, not ignored: the helper is born with them held
    back, and this process hears afterwards what was sent meanwhile. Where no signal can be held back, it just starts.
    """
    if sys.platform == "win32" or not hasattr(signal, "pthread_sigmask"):
        start()
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, (signal.SIGINT, signal.SIGHUP))
    try:
        start()
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
