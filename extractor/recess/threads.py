"""Threads drawn as profiles: eighteen teeth are not eighteen grooves.

A run of at least three like recesses of one pitch, with next to no land between them, is a thread (or a helix); so
are like recesses that stand half a pitch apart on the two sides of the axis.
"""

from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from extractor.recess.shapes import Measured
from extractor.values import dataclass

LEAST = 3
"""Fewest teeth that make a thread."""

LAND = 0.2
"""Lands between the teeth of a thread are narrower than this share of the pitch (ISO 68-1: an eighth of it)."""

FLANKS = (0.9, 1.7)
"""What both flanks of a thread take of z over its depth: 1.15 at 60 degrees (ISO 68-1), 1.04 at 55; a belt's groove of
34 to 40 degrees has 0.6 to 0.75."""

LANDLESS = 0.02
"""Teeth with less land between them than this share of the pitch may have other flanks than a standard's."""

EVEN = 0.2
"""Then their two flanks are alike: the root lies in the middle, within half this share of the width. A hose barb's
teeth have one steep side (common practice, no source)."""

ROOT = 0.3
"""A thread's floor is narrower than this share of the pitch (ISO 68-1: a quarter of it)."""


ALIKE = 0.05
"""Teeth of one thread, and their pitches, are alike within this share: draughtsmen draw them in chords and by hand."""

TOUCHING = 0.1
"""A run-out begins within this share of the pitch from the thread."""

HALF_PITCH = (0.25, 0.75)
"""Shares of the pitch between which the recesses of one side stand from those of the other where they wind round."""


@dataclass(frozen=True, kw_only=True)
class Thread:
    """A run of teeth: stretch along z, pitch, number, depth, radius of the crests."""

    z_near: float
    z_far: float
    pitch: float
    count: int
    depth: float
    crest: float = 0.0


def split_threads(row: Sequence[Measured], fine: float) -> tuple[tuple[Measured, ...], tuple[Thread, ...]]:
    """The recesses that belong to no thread, and the threads."""
    row = sorted(row, key=lambda m: -m.z_near)
    threads: list[Thread] = []
    kept: list[Measured] = []
    k = 0
    while k < len(row):
        run = _run(row, k, fine)
        if len(run) >= LEAST:
            threads.append(_thread(run))
            k += len(run)
        else:
            kept.append(row[k])
            k += 1
    return tuple(m for m in kept if not _runs_out(m, threads, fine)), tuple(threads)


def _run(row: Sequence[Measured], k: int, fine: float) -> list[Measured]:
    """The longest run of like teeth that begins at `k`."""
    run = [row[k]]
    for at in range(k + 1, len(row)):
        after = row[at]
        pitch = run[-1].z_near - after.z_near
        first = run[0].z_near - run[1].z_near if len(run) > 1 else pitch
        if not (_tooth(after, pitch) and _like(run[0], after, fine) and abs(pitch - first) <= ALIKE * first + fine):
            break
        run.append(after)
    return run if len(run) > 1 and _tooth(run[0], run[0].z_near - run[1].z_near) else run[:1]


def _tooth(m: Measured, pitch: float) -> bool:
    """True if a recess may be a thread's tooth gap at that pitch."""
    root = max(0.0, m.foot[0] - m.foot[1]) if m.level else 0.0
    if m.shape in ("rectangular", "relief") or m.inner or pitch - m.width > LAND * pitch or root > ROOT * pitch:
        return False
    if FLANKS[0] <= (m.width - root) / m.depth <= FLANKS[1]:
        return True
    return pitch - m.width < LANDLESS * pitch and abs(m.z_near + m.z_far - sum(m.foot)) <= EVEN * m.width


def _like(one: Measured, two: Measured, fine: float) -> bool:
    """True for two recesses of one size."""
    width = one.z_near - one.z_far
    return (
        abs(two.z_near - two.z_far - width) <= ALIKE * width + fine
        and abs(one.depth - two.depth) <= ALIKE * one.depth + fine
    )


def _thread(run: Sequence[Measured]) -> Thread:
    """The thread that a run of teeth makes."""
    pitch = median(a.z_near - b.z_near for a, b in pairwise(run))
    return Thread(
        z_near=run[0].z_near,
        z_far=run[-1].z_far,
        pitch=pitch,
        count=len(run),
        depth=max(m.depth for m in run),
        crest=run[0].mouth,
    )


def _runs_out(m: Measured, threads: Sequence[Thread], fine: float) -> bool:
    """True for a smaller, not rectangular recess that touches a thread: its run-out."""
    touches = any(
        min(abs(m.z_far - t.z_near), abs(m.z_near - t.z_far)) <= TOUCHING * t.pitch + fine and m.depth <= t.depth + fine
        for t in threads
    )
    return touches and m.shape not in ("rectangular", "relief")


def helical(one: Sequence[Measured], two: Sequence[Measured], fine: float) -> bool:
    """True if the recesses that only one half shows, two or more in each, are alike and interleave: a helix.

    Those of one half stand about half a pitch from those of the other; grooves of halves that disagree don't.
    """
    if len(one) < 2 or len(two) < 2 or abs(len(one) - len(two)) > 1:
        return False
    first = one[0]
    pitch = median(a.z_near - b.z_near for a, b in pairwise(one))
    between = bool(pitch) and HALF_PITCH[0] <= (first.z_near - two[0].z_near) / pitch % 1 <= HALF_PITCH[1]
    return between and all(m.shape == first.shape and _like(first, m, fine) for m in (*one, *two))
