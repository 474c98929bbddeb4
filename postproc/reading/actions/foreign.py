"""Cycles of turning, threading and drilling tools, as the moves that the control would make of them (common practice).

The contour cycles stand in `postproc.reading.actions.roughing`. None of them is ever written.
"""

from collections.abc import Mapping
from math import isqrt
from typing import Literal

from postproc.codes import ProgramCode
from postproc.reading.control import Event, FeedInForce
from postproc.reading.lathe import Lathe
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act

MOST_PASSES = 200
"""Of one thread; more are a slip of the finger."""


def starts(lathe: Lathe, event: Event) -> bool:
    """True if the place is known that a cycle begins at and comes back to; else a stop, and the block does nothing."""
    if lathe.control.place.known:
        return True
    rapid = lathe.dialect.written(Act.RAPID)
    message = f"The {event} begins before any block has given X and Z for its start; put a {rapid} block before it."
    lathe.log.stop(ProgramCode.CYCLE_START_UNKNOWN, message)
    lathe.words.drop()
    return False


def turning(lathe: Lathe, event: Event) -> None:
    """G90 X Z R, or a place while it is in force: in at rapid, along at feed, out at feed, back at rapid."""
    _box(lathe, Act.TURNING)


def facing(lathe: Lathe, event: Event) -> None:
    """G94 X Z R, or a place while it is in force: along at rapid, in at feed, back along at feed, out at rapid."""
    _box(lathe, Act.FACING)


def _box(lathe: Lathe, act: Act) -> None:
    """Round the box between the start and its far corner, and back to the start."""
    if not lathe.words.has_axes or not starts(lathe, act):
        return
    x, z, taper = _far_corner(lathe, act)
    start_x, start_z = lathe.control.place.x, lathe.control.place.z
    if act is Act.FACING:
        _go(lathe, act, "rapid", start_x, z + taper)
        _go(lathe, act, "feed", x, z)
        _go(lathe, act, "feed", x, start_z)
    else:
        _go(lathe, act, "rapid", x + 2 * taper, start_z)
        _go(lathe, act, "feed", x, z)
        _go(lathe, act, "rapid" if act is Act.THREADING else "feed", start_x, z)
    _go(lathe, act, "rapid", start_x, start_z)


def _far_corner(lathe: Lathe, act: Act) -> tuple[int, int, int]:
    """Where a box ends and its taper; what a block leaves out stays as the box before gave it."""
    last = lathe.log.motions[-1].foreign if lathe.log.motions else ""
    before = lathe.control.cycles.box if last == act.value else None
    said_x, said_z = lathe.words.says("X"), lathe.words.says("Z")
    x, z = lathe.words.target(lathe.control.place)
    slope = next((w for a in ("R", "K" if act is Act.FACING else "I") if (w := lathe.words.take(a))), None)
    taper = lathe.words.amount(slope)
    if before is not None:
        x, z = x if said_x else before[0], z if said_z else before[1]
        taper = before[2] if taper is None else taper
    box = lathe.control.cycles.box = x, z, taper or 0
    return box


def threading(lathe: Lathe, event: Event) -> None:
    """G92 X Z F, or a place while it is in force: one pass and back to the start."""
    _box(lathe, Act.THREADING)


def whole_thread(lathe: Lathe, event: Event) -> None:
    """G76: a thread in all its passes, each less deep than the one before; its settings move nothing."""
    words, control = lathe.words, lathe.control
    if not words.has_axes:
        words.drop()
        control.cycles.waiting[event, len(lathe.log.motions)] = lathe.log.line
        return
    control.cycles.called(event)
    if not starts(lathe, event):
        return
    start_x, start_z = control.place.x, control.place.z
    x, z = words.target(control.place)
    high = next((w for a in "PK" if (w := words.take(a))), None)
    first = next((w for a in "QD" if (w := words.take(a))), None)
    slope = next((w for a in "RI" if (w := words.take(a))), None)
    height, cut = (abs(words.amount(w, whole=w is not None and w.address in "PQD") or 0) for w in (high, first))
    taper = words.amount(slope) or 0
    words.drop()
    _ask_passes(lathe, {"the height of the thread by P or K": high, "the depth of the first pass by Q or D": first})
    if 2 * (height - cut) > abs(start_x - x):
        message = (
            "The thread is said to be higher than the way from the start to its floor, so its first passes would "
            "begin beyond the start; check its height and X."
        )
        lathe.log.stop(ProgramCode.THREAD_HEIGHT, message)
        height = cut
    side = 1 if start_x >= x else -1
    for left in _thread_passes(height, cut):
        place = x + side * 2 * left
        _go(lathe, Act.WHOLE_THREAD, "rapid", place + 2 * taper, start_z)
        _go(lathe, Act.WHOLE_THREAD, "feed", place, z)
        _go(lathe, Act.WHOLE_THREAD, "rapid", start_x, z)
        _go(lathe, Act.WHOLE_THREAD, "rapid", start_x, start_z)


def _ask_passes(lathe: Lathe, said: Mapping[str, Word | None]) -> None:
    """A stop for a thread in many passes that doesn't say of what they are made: it was read as one pass."""
    lacking = " and ".join(what for what, word in said.items() if word is None)
    if lacking:
        message = f"The threading cycle lacks {lacking}, so it can't be told how deep its passes go; give it."
        lathe.log.stop(ProgramCode.CYCLE_WORD_MISSING, message)


def thread(lathe: Lathe, event: Event) -> None:
    """G32, G33, or a place while it is in force: one pass along a thread, to its end.

    Where no F stands in its block, K is the lead along Z and I that along X (ISO 6983-1); the feed in force stays.
    """
    words, control, log = lathe.words, lathe.control, lathe.log
    feed, lead = control.feed, words.amount(next((w for a in "KI" if (w := words.take(a))), None))
    if lead and feed.line != log.line:
        per_feed, per_length = lathe.increments.per_feed, lathe.increments.per_length
        control.feed = FeedInForce(abs(lead) * per_feed // per_length, said=True)
    if words.has_axes:
        x, z = words.target(control.place)
        _go(lathe, Act.THREAD, "feed", x, z)
    control.feed = feed
    for address in "EQP":
        words.take(address)


def drilling(lathe: Lathe, event: Event) -> None:
    """G83 and the like: at rapid to the hole's X, to its end at feed and back; the pecks remove nothing more."""
    if not starts(lathe, Act.DRILLING):
        return
    if not lathe.words.says("Z"):
        message = "The drilling cycle says no Z, so how deep it goes is not known; give the Z of the end of the hole."
        lathe.log.stop(ProgramCode.CYCLE_WORD_MISSING, message)
    begin = lathe.control.place.z
    x, z = lathe.words.target(lathe.control.place)
    lathe.words.drop()
    _go(lathe, Act.DRILLING, "rapid", x, begin)
    _go(lathe, Act.DRILLING, "feed", x, z)
    _go(lathe, Act.DRILLING, "rapid", x, begin)


def _go(lathe: Lathe, act: Act, kind: Literal["rapid", "feed"], x: int, z: int) -> None:
    """A move of a cycle, unless the tool is there already."""
    if (x, z) != (lathe.control.place.x, lathe.control.place.z):
        lathe.move(kind, x, z, foreign=act.value)


def _thread_passes(height: int, first: int) -> list[int]:
    """What is left above the full depth after each pass: depths grow with the root of the number of the pass.

    So every pass takes the same area of chip (common practice). Without a first depth there is the last pass alone.

    >>> _thread_passes(900, 500)
    [400, 193, 34, 0]
    """
    depths = (isqrt(first * first * number) for number in range(1, MOST_PASSES)) if first else iter(())
    left = []
    for depth in depths:
        if depth >= height:
            break
        left.append(height - depth)
    return [*left, 0]
