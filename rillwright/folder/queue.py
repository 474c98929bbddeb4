"""Which drawing is next: small new ones first, yet the one that has waited longest never falls behind for good."""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from rillwright.folder.scan import InboxFile

BIG = 2_000_000
"""Bytes from which a drawing is big: it may take as long as a hundred others."""

TURN = 8
"""Every so many starts the one that has waited longest has its turn."""


@dataclass
class Waiting:
    """Drawings that have arrived and wait for a worker."""

    _heap: list[tuple[bool, int, int, Path]] = field(default_factory=list)
    _all: dict[Path, InboxFile] = field(default_factory=dict)
    _starts: int = 0
    _count: int = 0

    def __len__(self) -> int:
        """How many wait."""
        return len(self._all)

    def __contains__(self, name: Path) -> bool:
        """True if the drawing waits."""
        return name in self._all

    def __iter__(self) -> Iterator[Path]:
        """Those that wait, the longest waiting first."""
        return iter(self._all)

    def push(self, found: InboxFile) -> None:
        """Add a drawing, or take its newer signature; it keeps its place in the queue."""
        new = found.name not in self._all
        self._all[found.name] = found
        if new:
            self._count += 1
            heapq.heappush(self._heap, (found.size >= BIG, -found.newness, self._count, found.name))

    def drop(self, name: Path) -> None:
        """Forget a drawing that is gone."""
        self._all.pop(name, None)

    def pop(self, big_allowed: bool = True) -> InboxFile | None:
        """The next drawing, or None; without `big_allowed`, none that could hold up the last free worker."""
        self._starts += 1
        chosen = self._longest_waiting(big_allowed) if self._starts % TURN == 0 else self._first(big_allowed)
        return self._all.pop(chosen) if chosen is not None else None

    def _longest_waiting(self, big_allowed: bool) -> Path | None:
        names = (name for name, found in self._all.items() if big_allowed or found.size < BIG)
        return next(names, None)

    def _first(self, big_allowed: bool) -> Path | None:
        while self._heap:
            big, _, _, name = self._heap[0]
            if name in self._all and big and not big_allowed:
                return None
            heapq.heappop(self._heap)
            if name in self._all:
                return name
        return None
