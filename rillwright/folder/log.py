"""What a watch says: one JSON line an event, or on a terminal a progress line with the refusals above it."""

import json
import sys
from collections import Counter
from contextlib import suppress
from datetime import UTC, datetime
from typing import Any, TextIO

from extractor.printable import printable
from rillwright.codes import JobCode

WORTH_A_LINE = frozenset(
    {
        "refused",
        "failed",
        "edited",
        "ignored",
        "waiting",
        "inbox-gone",
        "inbox-back",
        "out-gone",
        "out-back",
        "program-gone",
        "removed",
        "orphaned",
        "cannot-write",
        JobCode.INTERNAL_FAULT,
        "check",
        "stop",
    }
)
COUNTED = ("made", "refused", "failed")


def time_of_day(to: str = "seconds") -> str:
    """The date and the time of day (ISO 8601), to seconds or finer."""
    return datetime.now(UTC).isoformat(timespec=to)


class WatchLog:
    """Where events go. Times in it are wall-clock UTC, for people only."""

    def __init__(self, stream: TextIO | None = None, terminal: bool | None = None) -> None:
        """Write to a stream, standard output if not given."""
        self.stream = stream or sys.stdout
        self.terminal = self.stream.isatty() if terminal is None else terminal
        self.counts: Counter[str] = Counter()
        self.waiting = 0

    def event(self, event: str, **fields: Any) -> None:
        """Say that something happened."""
        self.counts[event] += 1
        if self.terminal:
            self._on_terminal(event, fields)
            return
        self._write(json.dumps({"at": time_of_day("milliseconds"), "event": event} | fields) + "\n")

    def _on_terminal(self, event: str, fields: dict[str, Any]) -> None:
        if event in WORTH_A_LINE:
            name = fields.get("drawing") or fields.get("program") or fields.get("folder") or ""
            words = " ".join(str(part) for part in (name, event, fields.get("reason", "")) if part)
            self._write("\r\x1b[K" + printable(words) + "\n")
        told = ", ".join(f"{self.counts[state]} {state}" for state in COUNTED)
        self._write(f"\r\x1b[K{told}, {self.waiting} waiting")
        if event == "stop":
            self._write("\n")

    def _write(self, text: str) -> None:
        # A log that can't be written, on a full disk or to a reader that went away, is no reason to stop making.
        with suppress(OSError):
            self.stream.write(text)
            self.stream.flush()
