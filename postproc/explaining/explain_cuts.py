"""What a program cuts, with no drawing to hold it to: plunges, and grooves where the inserts are known."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from extractor.part import Part
from extractor.side import OUTSIDE, SIDES, Side
from extractor.values import dataclass
from planner.shop import Tool
from postproc.cutting.metal import UNCUT, CutProfile
from postproc.cutting.whole_run import cut_profile
from postproc.motion import Motion
from postproc.reading.interpreter import FAR_HOME
from postproc.reading.run import Run
from postproc.verdict import CutGroove


@dataclass(frozen=True)
class StraightCut:
    """One place where the program goes straight down at feed: z of the reference edge and the diameter reached.

    Lengths in program units; `station` is the tool's, `lines` are the blocks that cut it.
    """

    z: float
    floor_diameter: float
    station: int
    lines: tuple[int, ...]


def plunges(run: Run) -> tuple[StraightCut, ...]:
    """Where the program goes straight inward at feed, from the front face back: the deepest at each z of each tool."""
    deepest: dict[tuple[int, int], int] = {}
    lines: dict[tuple[int, int], dict[int, None]] = defaultdict(dict)
    for motion in _placed(run):
        if motion.kind == "feed" and motion.z0 == motion.z1 < 0 and motion.x1 < motion.x0 and not motion.foreign:
            key = (motion.station, motion.z1)
            deepest[key] = min(motion.x1, deepest.get(key, motion.x1))
            lines[key][motion.line] = None
    length = run.increments.length
    found = [
        StraightCut(length(z), length(x), station, tuple(lines[station, z])) for (station, z), x in deepest.items()
    ]
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
    """The grooves that a program leaves in plain metal, from the front face back: outside, then inside, then the face.

    `tools` are in program units. Outside it is a bar as thick as its highest cut begins, inside a bore as narrow as
    its narrowest cut begins, on the face a flat end. Empty where none of the tools cuts anything.
    """
    placed = tuple(_placed(run)) if tools else ()
    return tuple(groove for side in SIDES.values() for groove in _side(run, placed, tools, side))


def _side(run: Run, placed: Sequence[Motion], tools: Sequence[Tool], side: Side) -> Iterator[CutGroove]:
    """The grooves of one side, from the front face back, or from the outside in."""
    stations = {tool.station for tool in tools if tool.side == side}
    cuts = [m for m in placed if m.kind == "feed" and m.x0_known and m.station in stations]
    part = _plain_metal(run, cuts, side)
    if part is None:
        return
    stock = part.outer_diameter if side == OUTSIDE else None
    profile = cut_profile(placed, tools, part, run.increments, stock, side)
    for first, last in reversed([*_cut_away(profile)]):
        yield _groove(run, profile, (first, last), side)


def _plain_metal(run: Run, cuts: Sequence[Motion], side: Side) -> Part | None:
    """The metal that some cuts of one side are taken from; None where they begin nowhere."""
    starts = [m.x0 for m in cuts]
    if not starts or max(starts) <= 0 or (side.hollow and min(starts) <= 0):
        return None
    length, furthest = run.increments.length, max(max(abs(m.z1), abs(m.x0), abs(m.x1)) for m in cuts)
    # Twice as far as the furthest cut there is room for every insert.
    bar = length(max(starts) if side == OUTSIDE else 2 * furthest)
    along = bar if side == OUTSIDE else length(2 * furthest)
    bore = tuple((z, length(min(starts)) / 2) for z in (0.0, -along)) if side.hollow else None
    end = (0.0, bar / 2), (-along, bar / 2)
    return Part(units=run.units, outer_diameter=bar, length=along, grooves=(), outline=end, lands=end, bore=bore)


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


def _groove(run: Run, profile: CutProfile, pieces: tuple[int, int], side: Side) -> CutGroove:
    """One stretch as a groove in program units."""
    length, (first, last) = run.increments.length, pieces
    low = min(int(profile.start[first : last + 1].min()), int(profile.end[first : last + 1].min()))
    lines = tuple(sorted({int(line) for line in profile.line[first : last + 1]}))
    left, right = length(int(profile.u[first])), length(int(profile.u[last + 1]))
    if not side.axial:
        return CutGroove(
            z_near=0.0, z_far=length(low), floor_diameter=left, lines=lines, mouth_diameter=right, where=side.where
        )
    return CutGroove(z_near=right, z_far=left, floor_diameter=length(side.sign * low), lines=lines, where=side.where)
