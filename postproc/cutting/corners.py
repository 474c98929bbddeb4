"""What the corner radii of the inserts leave: the profile cut with rounded edges, once the cutting is done.

Cutting with sharp corners is exact and fast, and shows all that happens on the way. At the end the same cuts are made
again with the corner radius RE: what then stands between overlapping plunges is what a gauge would find.
Only cuts that come nearer to the final sharp profile than a corner can stand above it are made again; a peck farther
above the floor leaves nothing.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache

from extractor.part import Part
from extractor.side import OUTSIDE, Side
from postproc.cutting.insert import Insert, Piece, insert_of
from postproc.cutting.metal import CutProfile, Metal, Underside
from postproc.cutting.stock import Bench, beyond, part_pieces, swept
from postproc.motion import Motion

Cut = tuple[int, int, int, int]
"""x and z where a move begins and ends."""


def rounded_profile(
    motions: Iterable[Motion], bench: Bench, part: Part, side: Side, stock: float | None = None
) -> CutProfile:
    """The profile of one side with corner radii, chords within an increment of the arcs.

    `bench` has made all the cuts of `motions` already, with sharp corners.
    """
    sharp = bench.metal[side.where]
    radii = [bench.increments.count(tool.corner_radius) for tool in bench.tools_of(side.where)]
    if not any(radii):
        return sharp.profile()
    rib = max(radii) * side.up
    bar = side == OUTSIDE
    metal = bench.turned.copy() if bar else Metal(part_pieces(part, bench.increments, side, stock))
    metal.cut_all([_swept(motion, bench) for motion in _final(motions, bench, side, rib)])
    return metal.profile()


def _swept(motion: Motion, bench: Bench) -> Underside:
    """What a move sweeps with the corner radius of its insert."""
    tool = bench.tool(motion)
    assert tool is not None
    insert = insert_of(tool, bench.increments, rounded=True)
    (u0, h0), (u1, h1) = insert.place(motion.x0, motion.z0), insert.place(motion.x1, motion.z1)
    return _shape(insert, u1 - u0, h0, h1), u0, motion.line


@lru_cache(maxsize=4096)
def _shape(insert: Insert, along: int, h0: int, h1: int) -> tuple[Piece, ...]:
    """The underside of a move, from where it begins."""
    return tuple(insert.underside(0, h0, along, h1))


def _final(motions: Iterable[Motion], bench: Bench, side: Side, rib: int) -> list[Motion]:
    """The cuts that come lower somewhere than `rib` above the final sharp profile, each once, deepest first.

    What corners leave stands no higher than that, so no other cut takes anything of it.
    """
    found: dict[tuple[int, int, Cut], Motion] = {}
    metal = bench.metal[side.where]
    feeds = [motion for motion in motions if motion.kind != "rapid" and not beyond(motion)]
    for motion in _deepest(feeds, side):
        insert = bench.insert(motion)
        if insert is None or insert.side != side:
            continue
        motion = motion.sure
        key = (motion.station, motion.offset, (motion.x0, motion.z0, motion.x1, motion.z1))
        if key not in found and any(metal.above(piece) + rib > 0 for piece in swept(motion, insert)):
            found[key] = motion
    return sorted(found.values(), key=lambda m: min(side.frame(m.x0, m.z0)[1], side.frame(m.x1, m.z1)[1]))


def _deepest(feeds: list[Motion], side: Side) -> Iterator[Motion]:
    """Feed moves without those straight in or out that end short of another of the same tool at the same place.

    What such a one sweeps the other takes and more, so it can't reach the final profile.
    """
    lowest: dict[tuple[int, int, int], int] = {}
    places = [(motion.station, motion.offset, motion.z0 if side.axial else motion.x0) for motion in feeds]
    depths = [_depth(motion, side) for motion in feeds]
    for place, depth in zip(places, depths, strict=True):
        if depth is not None:
            lowest[place] = min(depth, lowest.get(place, depth))
    for motion, place, depth in zip(feeds, places, depths, strict=True):
        if depth is None or depth == lowest[place]:
            yield motion


def _depth(motion: Motion, side: Side) -> int | None:
    """The least height of a move straight in or out; None of any other."""
    if side.axial:
        return min(side.sign * motion.x0, side.sign * motion.x1) if motion.z0 == motion.z1 else None
    return min(motion.z0, motion.z1) if motion.x0 == motion.x1 else None
