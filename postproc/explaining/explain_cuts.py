"""What a program cuts by itself, with no drawing to hold it to: plunges, and grooves where the inserts are known."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from extractor.part import Part
from planner.shop import Tool
from postproc.cutting.metal import UNCUT, CutProfile
from postproc.cutting.stock import cut_profile
from postproc.motion import Motion
from postproc.reading.interpreter import FAR_HOME
from postproc.reading.run import Run
from postproc.verdict import CutGroove


@dataclass(frozen=True)
class Plunge:
    """One place where the program goes straight down at feed: z of the reference edge and the diameter reached.

    Lengths in program units; `station` is the tool's, `lines` are the blocks that cut it.
    """

    z: float
    floor_diameter: float
    station: int
    lines: tuple[int, ...]


def plunges(run: Run) -> tuple[Plunge, ...]:
    """Where the program goes straight inward at feed, from the front face back: the deepest at each z of each tool."""
    deepest: dict[tuple[int, int], int] = {}
    lines: dict[tuple[int, int], dict[int, None]] = defaultdict(dict)
    for motion in _placed(run):
        if motion.kind == "feed" and motion.z0 == motion.z1 and motion.x1 < motion.x0:
            key = (motion.station, motion.z1)
            deepest[key] = min(motion.x1, deepest.get(key, motion.x1))
            lines[key][motion.line] = None
    length = run.increments.length
    found = [Plunge(length(z), length(x), station, tuple(lines[station, z])) for (station, z), x in deepest.items()]
    return tuple(sorted(found, key=lambda p: (-p.z, p.station)))


def _placed(run: Run) -> Iterator[Motion]:
    """The moves whose place the program has said: not those of a cycle, or a cut, from where no block has said."""
    for motion in run.motions:
        if motion.cycle is not None:
            call = run.cycles[motion.cycle]
            placed = call.x_known and call.z_known
        else:
            placed = motion.z0_known and (motion.x0_known or motion.x1 < FAR_HOME[0] // 2)
        if placed or motion.kind == "rapid":
            yield motion


def cut_grooves(run: Run, tools: Sequence[Tool]) -> tuple[CutGroove, ...]:
    """The grooves that a program leaves in a plain bar as thick as its highest cut begins, from the front face back.

    `tools` are in program units. Empty where none of them cuts anything outside.
    """
    stations = {tool.station for tool in tools}
    placed = tuple(_placed(run))
    starts = [m.x0 for m in placed if m.kind == "feed" and m.x0_known and m.station in stations]
    if not starts or max(starts) <= 0:
        return ()
    bar = run.increments.length(max(starts))
    end = (0.0, bar / 2), (-bar, bar / 2)
    part = Part(run.units, bar, bar, (), end, end)
    profile = cut_profile(placed, tools, part, run.increments, stock=bar)
    return tuple(reversed([_groove(run, profile, first, last) for first, last in _cut_away(profile)]))


def _cut_away(profile: CutProfile) -> Iterator[tuple[int, int]]:
    """First and last piece of each stretch that is cut."""
    first: int | None = None
    for n in range(len(profile) + 1):
        cut = n < len(profile) and profile.line[n] != UNCUT
        if cut and first is None:
            first = n
        elif not cut and first is not None:
            yield first, n - 1
            first = None


def _groove(run: Run, profile: CutProfile, first: int, last: int) -> CutGroove:
    """One stretch as a groove in program units."""
    length = run.increments.length
    floor = min(int(profile.start[first : last + 1].min()), int(profile.end[first : last + 1].min()))
    lines = tuple(sorted({int(line) for line in profile.line[first : last + 1]}))
    return CutGroove(length(int(profile.u[last + 1])), length(int(profile.u[first])), length(floor), lines)
