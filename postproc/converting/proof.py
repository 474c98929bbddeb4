"""What two runs do, side by side: every cut with all that rules it, every wait, every rapid between.

Successive rapids along one line count as one: splitting a row of grooves makes such. Between two cuts where a
move to the reference point was replaced, rapids are not compared; nothing is cut there. What the other dialect's
own lines do at head and end is no part of what was carried over; a cut among them would be.
"""

from collections.abc import Iterator, Sequence

from extractor.values import dataclass
from planner.steps import Arc, Coolant, Dwell, Gear, Halt, OwnSwitch, SpindleStop, Standing, WorkOffset
from postproc.framed import Framed
from postproc.motion import Motion
from postproc.reading.run import Run

CARRIED = (Coolant, Dwell, Gear, Halt, OwnSwitch, SpindleStop, Standing, WorkOffset)
"""Steps that move nothing and must come at the same place among the cuts."""


@dataclass(frozen=True)
class Deed:
    """One thing that a run does: what it is compared by, the line that asks for it, how many cuts come before it."""

    what: tuple[object, ...]
    line: int
    gap: int


def difference(one: Run, other: Run, *, homeless: bool, own: Framed | None = None) -> str:
    """What the other run does differently, as a sentence fragment with a line of the first; empty if all is equal.

    `own`: what the lines of the other's dialect do by themselves.
    """
    skipped = frozenset(_gaps_with_home(one)) if homeless else frozenset()
    first, second = _kept(list(_deeds(one)), skipped), _kept(_carried(other, own), skipped)
    for was, now in zip(first, second, strict=False):
        if was.what != now.what:
            return f"line {was.line}: {_said(was)} became {_said(now)} in line {now.line}"
    if len(first) != len(second):
        longer = (first if len(first) > len(second) else second)[min(len(first), len(second))]
        return f"line {longer.line}: {_said(longer)} is in only one of the two programs"
    return ""


def _carried(run: Run, own: Framed | None) -> list[Deed]:
    """The deeds of a run without those that its dialect's own lines make."""
    deeds = list(_deeds(run))
    alone = [] if own is None else list(_deeds(own.run))
    if own is None or not alone or any(deed.what[0] in ("cut", "arc") for deed in alone):
        return deeds
    before = sum(deed.line <= own.head for deed in alone)
    return deeds[before : len(deeds) - (len(alone) - before)]


def _kept(deeds: Sequence[Deed], skipped: frozenset[int]) -> list[Deed]:
    """The deeds that are compared."""
    return [deed for deed in _joined(deeds) if deed.what[0] != "rapid" or deed.gap not in skipped]


def _said(deed: Deed) -> str:
    """A deed for a sentence."""
    return " ".join(map(str, deed.what))


def _deeds(run: Run) -> Iterator[Deed]:
    """Cuts, waits and rapids in their order."""
    gap, at = 0, 0
    bounds = [*zip(run.steps, run.step_motions, run.step_lines, strict=True)]
    for number, (step, first, line) in enumerate(bounds):
        last = bounds[number + 1][1] if number + 1 < len(bounds) else len(run.motions)
        for motion in run.motions[at:first]:
            yield _deed(motion, gap)
            gap += motion.kind == "feed"
        at = first
        if isinstance(step, CARRIED):
            yield Deed((type(step).__name__, str(step)), line, gap)
        elif isinstance(step, Arc):
            at = next((n for n in range(first, last) if _ends(run.motions[n], step)), first - 1) + 1
            if at > first:
                yield Deed(("arc", step, *_ruled(run.motions[first])), line, gap)
                gap += 1
    for motion in run.motions[at:]:
        yield _deed(motion, gap)
        gap += motion.kind == "feed"


def _ends(motion: Motion, arc: Arc) -> bool:
    """True for the last chord of an arc."""
    return (motion.x1, motion.z1) == (arc.x, arc.z)


def _deed(motion: Motion, gap: int) -> Deed:
    if motion.kind == "rapid":
        known = motion.x0_known and motion.z0_known
        start = (motion.x0, motion.z0) if known and not motion.home else ("somewhere", "")
        return Deed(("rapid", *start, "to", motion.x1, motion.z1, motion.home), motion.line, gap)
    places = (motion.x0, motion.z0, "to", motion.x1, motion.z1)
    return Deed(("cut", *places, *_ruled(motion)), motion.line, gap)


def _ruled(motion: Motion) -> tuple[object, ...]:
    """All that rules a cut."""
    speed = (motion.speed, motion.surface, motion.clamp, motion.turning, motion.reverse)
    return (motion.feed, motion.per_minute, *speed, motion.station, motion.offset, motion.compensated)


def _joined(deeds: Sequence[Deed]) -> Iterator[Deed]:
    """The deeds with rapids along one line as one, and rapids of no length left out."""
    last: Deed | None = None
    for deed in deeds:
        if deed.what[0] == "rapid" and deed.what[1:3] == deed.what[4:6]:
            continue
        if last is not None and (joined := _one(last, deed)):
            last = joined if joined.what[1:3] != joined.what[4:6] else None
            continue
        if last is not None:
            yield last
        last = deed
    if last is not None:
        yield last


Z = 2
"""Where a deed's words hold the place along Z: on a line of one Z the way is along X."""


def _one(last: Deed, deed: Deed) -> Deed | None:
    """Two rapids along the same axis line as one; along X only if both run the same way, for that way metal lies."""
    if last.what[0] != "rapid" or deed.what[0] != "rapid" or last.what[6] or deed.what[6]:
        return None
    for axis in (1, 2):
        along_x = axis == Z and _turns(last.what[1], last.what[4], deed.what[4])
        if last.what[axis] == last.what[axis + 3] == deed.what[axis] == deed.what[axis + 3] and not along_x:
            return Deed(("rapid", *last.what[1:3], "to", *deed.what[4:6], False), last.line, last.gap)
    return None


def _turns(start: object, middle: object, end: object) -> bool:
    """True if a way from one place over another to a third turns back."""
    if not (isinstance(start, int) and isinstance(middle, int) and isinstance(end, int)):
        return False
    return (middle - start) * (end - middle) < 0


def _gaps_with_home(run: Run) -> Iterator[int]:
    """Between which cuts a way to the reference point lies, counted by the cuts before it."""
    return (deed.gap for deed in _deeds(run) if deed.what[0] == "rapid" and deed.what[6])
