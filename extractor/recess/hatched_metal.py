"""What hatching says of metal: two parts where it runs two ways, or round a bore in part only; a ring in a groove."""

from collections.abc import Sequence, Set

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.network import Face
from extractor.recess.remarks import wide
from extractor.recess.shapes import Measured
from extractor.sheet import Floats
from extractor.viewing.hatching import hatched_ways, is_hatched
from extractor.viewing.outline import Folded, Half

HATCHED = 3
"""So many lines hatch a face."""

OVER = 0.75
"""A hatch runs over a recess where it covers more than this share of it: a border is often drawn a little off."""

CORNER = 0.1
"""Share of an edge at either end where a hatching that comes up to it may be that of another edge."""

ONE_WAY = np.radians(10.0)
"""Hatch lines of one part lean alike within this; those of a part beside it lean the other way, or by 30 degrees."""


def ring_in_groove(folded: Folded, ring: Face) -> Finding:
    """The caution for hatched metal that was left out."""
    at = folded.place(*ring.inside)
    words = (
        f"The hatched area at {place_words(at)} lies in a groove of a part that is not hatched, and was left out as a "
        "ring or seal in it; check that it is no metal of the part."
    )
    return Finding(Level.CAUTION, DrawingCode.LEFT_OUT, words, at)


def hatched_over(folded: Folded, signs: Sequence[int], row: Sequence[Measured]) -> list[Finding]:
    """A caution for each groove of some halves over most of which the area of a hatch runs in one of them."""
    areas = [g for g in folded.hatched if g.geom_type == "Polygon"]
    if not areas or not row:
        return []
    tree, found = shapely.STRtree(areas), list[Finding]()
    for m in row:
        for sign in signs:
            box = shapely.box(m.z_far, sign * m.floor, m.z_near, sign * m.mouth)
            over = shapely.intersection(box, tree.geometries[tree.query(box, predicate="intersects")])
            if shapely.area(shapely.union_all(over)) > OVER * box.area:
                words = "The hatching of one half runs over the recess {wide} wide at {place}: it was read as a groove "
                words += "all the same; check that it is not filled."
                found.append(wide(folded, sign, m, Level.CAUTION, DrawingCode.HALVES_UNLIKE, words))
                break
    return found


def parted_metal(folded: Folded, half: Half) -> Set[int]:
    """Edges that part hatched metal round a bore from metal without hatching, as in no section of one part.

    The hatching comes up to them: it may end before, at the border of a broken-out section.
    """
    hatched, plain = set[int](), set[int]()
    for face in half.material.faces if half.bore and folded.hatched else ():
        (hatched if is_hatched(face.polygon, folded.hatched) else plain).update(face.edges)
    both = sorted(hatched & plain)
    ends = np.array([folded.network.ends(k) for k in both]).reshape(-1, 2, 2)
    lines = shapely.linestrings(ends + CORNER * (ends[:, ::-1] - ends))
    met = shapely.STRtree(folded.hatched).query(lines, predicate="dwithin", distance=folded.close)[0]
    return {both[k] for k in met.tolist()}


def two_ways(folded: Folded, half: Half) -> list[Point]:
    """Places of metal hatched one way beside metal hatched another way: one part has one (ISO 128-3, from memory)."""
    faces = half.material.faces
    found, ways = list[Point](), dict[int, float]()
    for k, lean in sorted((_lines_in(folded, faces) | _areas_over(folded, faces)).items()):
        beside = [ways[e] for e in faces[k].edges & ways.keys()]
        if _turn(np.array(beside), lean) > ONE_WAY:
            z, r = faces[k].inside
            found.append((z, abs(r)))
        ways |= dict.fromkeys(faces[k].edges, lean)
    return found


def _lines_in(folded: Folded, faces: Sequence[Face]) -> dict[int, float]:
    """Which way the loose hatch lines in each face run, by its number, left out where they run more ways than one."""
    lines = [g for g in folded.hatched if g.geom_type == "LineString"]
    if not lines or not faces:
        return {}
    ends = np.array([np.ravel(line.coords) for line in lines]).reshape(-1, 2, 2)
    lean = np.arctan2(*(ends[:, 1] - ends[:, 0]).T[::-1])
    mids = shapely.STRtree(shapely.points(ends.mean(axis=1)))
    one, two = mids.query([f.polygon for f in faces], predicate="contains")
    inside = {k: lean[two[one == k]] for k in np.unique(one).tolist()}
    return {
        k: float(mine[0])
        for k, mine in inside.items()
        if len(mine) >= HATCHED and _turn(mine, float(mine[0])) <= ONE_WAY
    }


def _areas_over(folded: Folded, faces: Sequence[Face]) -> dict[int, float]:
    """Which way the hatch runs that each face lies in, by the face's number."""
    found = dict[int, float]()
    for area, lean in hatched_ways(folded.drawn):
        laid = shapely.transform(area, folded.axis.fold)
        way = np.diff(folded.axis.fold(np.array([(0.0, 0.0), (np.cos(lean), np.sin(lean))])), axis=0)[0]
        inside = shapely.contains_xy(laid, *np.array([f.inside for f in faces]).reshape(-1, 2).T)
        found |= dict.fromkeys(np.flatnonzero(inside).tolist(), float(np.arctan2(way[1], way[0])))
    return found


def _turn(leans: Floats, lean: float) -> float:
    """By how much the farthest of some lines leans from another way, radians, 0.0 where there are none."""
    return float(np.abs(np.mod(leans - lean + np.pi / 2, np.pi) - np.pi / 2).max(initial=0.0))
