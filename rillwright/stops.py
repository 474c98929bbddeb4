"""The signals by which a process is asked to end: from outside, and by a terminal that was closed."""

import signal

STOPS = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name))
"""Not every system has them all. Who was started so that a closed terminal leaves it alone ignores SIGHUP already."""
